package engine

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"flatwright/engine/vector"
)

// exported returns the files of a design by name, with no sheet laid out: that
// takes long, and few tests look at sheets.
func exported(t *testing.T, d Design) map[string][]byte { return exportedOf(t, d, CutPlan{}) }

func exportedOf(t *testing.T, d Design, plan CutPlan) map[string][]byte {
	t.Helper()
	all, err := Exports(context.Background(), d, ExportOptions{Plan: &plan})
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]byte{}
	for _, f := range all.Files {

		if out[f.Name] != nil || len(f.Data) == 0 {
			t.Errorf("%s is there twice or empty", f.Name)
		}
		out[f.Name] = f.Data
	}
	return out
}

// table reads a CSV file back: a map of heads to cells for each row.
func table(t *testing.T, data []byte) []map[string]string {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, row := range rows[1:] {
		cells := map[string]string{}
		for i, head := range rows[0] {
			cells[head] = row[i]
		}
		out = append(out, cells)
	}
	return out
}

func figure(t *testing.T, cells map[string]string, head string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(cells[head], 64)
	if err != nil {
		t.Fatalf("%s: %v", head, err)
	}
	return v
}

// shoelace is the area of a closed line.
func shoelace(points []vector.Point) float64 {
	sum := 0.0
	for i, p := range points {
		q := points[(i+1)%len(points)]
		sum += p.X*q.Y - q.X*p.Y
	}
	return sum / 2
}

// The list adds up to the panel: every part once, with the panel's own mass.
func TestPartsList(t *testing.T) {
	t.Parallel()
	d := labelled()
	d.Seams = []Seam{{Skin: BottomSeam, At: 850, Spliced: true}}
	d.Splices = []Splice{{Part: "L2", At: 620, Plates: true}}
	r := compute(t, d)
	files := exported(t, d)
	count, mass := 0, 0.0
	for _, row := range table(t, files["parts.csv"]) {
		n := int(figure(t, row, "count"))
		count += n
		mass += figure(t, row, "mass of all kg")
		if got := len(strings.Split(row["pieces"], " | ")); got != n {
			t.Errorf("%s: %d pieces named; want %d", row["mark"], got, n)
		}
		for _, suffix := range []string{".svg", ".dxf"} {
			if files[row["drawing"]+suffix] == nil {
				t.Errorf("%s: no file %s%s", row["mark"], row["drawing"], suffix)
			}
		}
	}
	if pieces := len(d.Pieces()); count != pieces || count < len(r.Parts) {
		t.Errorf("%d pieces on the list; want %d, no fewer than the %d parts", count, pieces, len(r.Parts))
	}
	// Each line is rounded to a gram.
	if got := 0.0005 * float64(len(files)); math.Abs(mass-r.Mass.Parts) > got {
		t.Errorf("parts weigh %g kg on the list; want %g ± %g", mass, r.Mass.Parts, got)
	}
}

// The schedule by hand for a top with room for round numbers.
func TestSlotList(t *testing.T) {
	t.Parallel()
	d := Demo()
	d.Lengthwise.Positions, d.Crosswise.Positions = nil, nil
	d.EdgeBand = EdgeBand{}
	d.Blocks, d.Seams = nil, nil
	d.Length, d.Width, d.CoreDepth = 1500, 700, 80
	d.Lengthwise.Count, d.Lengthwise.Thickness, d.Lengthwise.Thickest, d.Lengthwise.Inset = 3, 12, 12.3, 0
	d.Crosswise.Count, d.Crosswise.Thickness, d.Crosswise.Thickest, d.Crosswise.Inset = 4, 18, 0, 41
	d.Slots = Slots{Clearance: 0.2, Relief: 0.5}
	rows := table(t, exported(t, d)["slots.csv"])
	if len(rows) != 4+3 {
		t.Fatalf("%d slots; want 4 in a lengthwise and 3 in a crosswise rib", len(rows))
	}
	// Crosswise ribs: first middle 41 + 9 = 50, last 1450, so 50, 516.667,
	// 983.333, 1450. Slots for them 18 + 0.2 wide and 40 + 0.5 deep.
	for i, want := range []string{"50", "516.667", "983.333", "1450"} {
		row := rows[i]
		if row["middle mm"] != want || row["width mm"] != "18.2" || row["depth mm"] != "40.5" || row["open edge"] != "upper" || row["datum end"] != "left end" {
			t.Errorf("slot %d of the lengthwise ribs: %v; want it at %s, 18.2 × 40.5, upper, left", i+1, row, want)
		}
	}
	// Lengthwise ribs stand flush at 6, 350, 694: slots 12.5 wide, of which the
	// outer ones are cut off at the ends: 0 to 12.25, middle 6.125.
	for i, want := range [][3]string{{"0", "6.125", "12.25"}, {"343.75", "350", "356.25"}, {"687.75", "693.875", "700"}} {
		row := rows[4+i]
		if row["from mm"] != want[0] || row["middle mm"] != want[1] || row["to mm"] != want[2] || row["open edge"] != "lower" || row["datum end"] != "front end" {
			t.Errorf("slot %d of the crosswise ribs: %v; want %v, lower, front", i+1, row, want)
		}
	}
}

// What is drawn is what is cut, for random tops: the outline less the slots, holes
// as they are, and a groove on the same spot whichever side it is seen from.
func TestDrawingsAreThePieces(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(31, 5))
	holes, grooves, below := 0, 0, 0
	for range 80 {
		d := randomDesign(rng)
		for _, s := range shapesOf(d) {
			drawing := s.drawing(d)
			var solid float64
			for _, p := range drawing.Paths {
				switch p.Layer {
				case vector.Outline:
					low, high := vector.Drawing{Paths: []vector.Path{p}}.Bounds()
					if math.Abs(high.X-s.Length)+math.Abs(high.Y-s.Width)+math.Abs(low.X)+math.Abs(low.Y) > 1e-9 {
						t.Fatalf("%s: outline from %v to %v; want (0, 0) to (%g, %g)", s.ID, low, high, s.Length, s.Width)
					}
					solid += math.Abs(shoelace(p.Points))
				case vector.Slot:
					solid += math.Abs(shoelace(p.Points))
				case vector.Groove:
					grooves++
				}
			}
			near(t, s.ID+" outline and slots", solid, s.Length*s.Width, 1e-9)
			if len(drawing.Circles) != len(s.Holes) {
				t.Fatalf("%s: %d circles for %d holes", s.ID, len(drawing.Circles), len(s.Holes))
			}
			holes += len(s.Holes)
			if s.below {
				below++
			}
		}
	}
	if holes == 0 || grooves == 0 || below == 0 {
		t.Errorf("%d holes, %d grooves, %d pieces seen from below: the random tops show too little", holes, grooves, below)
	}
}

// A bottom skin with a groove in its lower face is drawn as it lies on the router:
// turned over about its length, holes with it. By hand: a skin of 1600 × 700 with
// a groove 20 wide at 200 from the front, and a hole at (900, 100).
func TestGrooveBelow(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Grooves = []Groove{{Skin: BottomSeam, Along: true, At: 200, Width: 20, Depth: 4}}
	d.Holes = []Hole{{Kind: CableHole, Part: BottomSeam, X: 900, Y: 100, Diameter: 30}}
	for _, s := range shapesOf(d) {
		if s.Kind != SkinPart {
			continue
		}
		drawing := s.drawing(d)
		if s.ID == "top" {
			if len(drawing.Circles) != 0 || s.from() != "from above" {
				t.Errorf("the top skin is seen %s and has %d holes", s.from(), len(drawing.Circles))
			}
			continue
		}
		if c := drawing.Circles; len(c) != 1 || c[0].Centre != (vector.Point{X: 900, Y: 600}) || c[0].Radius != 15 {
			t.Errorf("holes %+v; want one at (900, 600)", c)
		}
		for _, p := range drawing.Paths {
			if low, high := (vector.Drawing{Paths: []vector.Path{p}}).Bounds(); p.Layer == vector.Groove && (low != vector.Point{Y: 490} || high != vector.Point{X: 1600, Y: 510}) {
				t.Errorf("groove from %v to %v; want (0, 490) to (1600, 510)", low, high)
			}
		}
		if text := strings.Join(drawing.Notes, "\n"); !strings.Contains(text, "seen from below") || !strings.Contains(text, "20 wide and 4 mm deep, in the face that is drawn") {
			t.Errorf("notes %q", text)
		}
	}
}

// A scarfed piece has a line where its slope begins, and its note says which face
// is planed. By hand: 8·9 = 72 mm of slope on skins joined at 600 of 1600 mm.
func TestScarfIsDrawn(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Seams = []Seam{{Skin: TopSeam, At: 600, Spliced: true, Scarf: true}}
	files := exported(t, d)
	for _, row := range table(t, files["parts.csv"]) {
		want := map[string]string{"top/1": "Scarf at the right edge: planed off the face that is drawn over 72 mm", "top/2": "Scarf at the left edge: planed off the other face over 72 mm"}[row["pieces"]]
		if !strings.Contains(row["edges"], want) {
			t.Errorf("%s: %q; want %q in it", row["pieces"], row["edges"], want)
		}
	}
	for _, s := range shapesOf(d) {
		for _, p := range s.drawing(d).Paths {
			// The left blank is 636 long, so its slope begins at 564.
			if s.ID == "top/1" && p.Layer == vector.Mark && p.Points[0].Y == 0 && p.Points[0] != (vector.Point{X: 564}) {
				t.Errorf("the slope begins at %v; want x = 564", p.Points)
			}
		}
	}
}

// Text and marks stay within the part, and where no slot enters.
func TestMarksStayOnTheWood(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(32, 5))
	for range 40 {
		d := randomDesign(rng)
		for _, s := range shapesOf(d) {
			drawing := s.drawing(d)
			low, high := s.clear()
			for _, path := range drawing.Paths {
				if a, b := path.Points[0], path.Points[len(path.Points)-1]; math.Abs(b.X-a.X) == s.Length || math.Abs(b.Y-a.Y) == s.Width {
					continue // where a scarf begins
				}
				for _, p := range path.Points {
					if path.Layer == vector.Mark && (p.X < -1e-9 || p.X > s.Length+1e-9 || p.Y < low || p.Y > high) {
						t.Errorf("%s: a mark at %v; want it within 0 to %g, %g to %g", s.Mark, p, s.Length, low, high)
					}
				}
			}
			for _, w := range drawing.Words {
				if end := w.At.X + signWide*w.Height*float64(len([]rune(w.Text))); w.At.X < 0 || end > s.Length || w.At.Y < low || w.At.Y+w.Height > high {
					t.Errorf("%s: %q from %v to %g; want it within %g, %g to %g", s.Mark, w.Text, w.At, end, s.Length, low, high)
				}
			}
		}
	}
}

// A long text gives way to a short one where it could not be read. By hand: a
// plate of 159 × 172 mm has room for 79.5 mm of text; 40 signs of 0.8 of their
// height would be 2.5 mm high, 14 signs 7.1 mm, and 1 sign the tallest, 12 mm.
func TestTextThatCanBeRead(t *testing.T) {
	t.Parallel()
	s := shape{Piece: Piece{Length: 159, Width: 172, Grain: GrainFree, Outline: rect(0, 0, 159, 172)}}
	long, middling := strings.Repeat("a", 40), strings.Repeat("b", 14)
	for _, tc := range []struct {
		texts []string
		text  string
		tall  float64
	}{
		{[]string{long, middling, "S"}, middling, 79.5 / (0.8 * 14)},
		{[]string{"S", middling}, "S", 12},
		{[]string{long}, long, 79.5 / (0.8 * 40)},
	} {
		w := s.lines(tc.texts...).Words[0]
		if w.Text != tc.text {
			t.Errorf("of %q the piece has %q; want %q", tc.texts, w.Text, tc.text)
		}
		near(t, "height", w.Height, tc.tall, 1e-9)
	}
}

func TestExportsAreWellFormed(t *testing.T) {
	t.Parallel()
	d := Demo()
	d.Name = "Bench <1> & \"2\"\nsecond line"
	files := exported(t, d)
	for name, data := range files {
		switch {
		case strings.HasSuffix(name, ".svg"):
			for decoder := xml.NewDecoder(bytes.NewReader(data)); ; {
				if _, err := decoder.Token(); err != nil {
					if !errors.Is(err, io.EOF) {
						t.Errorf("%s: %v", name, err)
					}
					break
				}
			}
		case strings.HasSuffix(name, ".dxf"):
			if !bytes.HasSuffix(data, []byte("  0\nEOF\n")) || bytes.Count(data, []byte("\n"))%2 != 0 {
				t.Errorf("%s does not end as a DXF file does", name)
			}
		}
	}
	again := exported(t, d)
	for name := range files {
		if !bytes.Equal(files[name], again[name]) {
			t.Errorf("%s differs when written again", name)
		}
	}
}

func TestExportsRefuse(t *testing.T) {
	t.Parallel()
	d := Demo()
	d.CoreDepth = -5
	if _, err := Exports(context.Background(), d, ExportOptions{}); !errors.Is(err, ErrBlocked) {
		t.Errorf("a blocked design: %v; want ErrBlocked", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Exports(ctx, Demo(), ExportOptions{}); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v; want context.Canceled", err)
	}
}

func TestCSVCells(t *testing.T) {
	t.Parallel()
	for cell, want := range map[string]string{"": "", "-3.5": "-3.5", "+4": "+4", "=1+1": "'=1+1", "@a": "'@a", "-a": "'-a", "a=b": "a=b", "1/2 in ply": "1/2 in ply"} {
		if got := asText(cell); got != want {
			t.Errorf("asText(%q) = %q; want %q", cell, got, want)
		}
	}
	for name, want := range map[string]string{"L": "l", "block 0,2": "block-0-2", "Ü/..": "", "Band 1/2": "band-1-2"} {
		if got := fileName(name); got != want {
			t.Errorf("fileName(%q) = %q; want %q", name, got, want)
		}
	}
}
