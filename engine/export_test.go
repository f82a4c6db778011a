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

// exported returns the files of a design by name.
func exported(t *testing.T, d Design) map[string][]byte {
	t.Helper()
	files, err := Exports(context.Background(), d, ExportOptions{})
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]byte{}
	for _, f := range files {
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
	d := Demo()
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
	if count != len(r.Parts) {
		t.Errorf("%d parts on the list; want %d", count, len(r.Parts))
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
		if row["middle mm"] != want || row["width mm"] != "18.2" || row["depth mm"] != "40.5" || row["open edge"] != "upper" || row["datum end"] != "left" {
			t.Errorf("slot %d of the lengthwise ribs: %v; want it at %s, 18.2 × 40.5, upper, left", i+1, row, want)
		}
	}
	// Lengthwise ribs stand flush at 6, 350, 694: slots 12.5 wide, of which the
	// outer ones are cut off at the ends: 0 to 12.25, middle 6.125.
	for i, want := range [][3]string{{"0", "6.125", "12.25"}, {"343.75", "350", "356.25"}, {"687.75", "693.875", "700"}} {
		row := rows[4+i]
		if row["from mm"] != want[0] || row["middle mm"] != want[1] || row["to mm"] != want[2] || row["open edge"] != "lower" || row["datum end"] != "front" {
			t.Errorf("slot %d of the crosswise ribs: %v; want %v, lower, front", i+1, row, want)
		}
	}
}

// volume adds up what holes and grooves take out of a part, mm³.
func volume(gone []removed) float64 {
	sum := 0.0
	for _, g := range gone {
		sum += g.volume
	}
	return sum
}

// The area inside an outline is the part's volume over its thickness, and its
// corners reach exactly its length and width, for random tops.
func TestOutlinesHoldTheVolume(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(31, 5))
	for range 60 {
		d := randomDesign(rng)
		for _, p := range d.Parts() {
			line := p.outline()
			if got, want := shoelace(line), (p.Volume+volume(p.gone))/p.Thickness; math.Abs(got-want) > 1e-6*want {
				t.Fatalf("%s: outline of %g mm²; want %g", p.ID, got, want)
			}
			low, high := (vector.Drawing{Paths: []vector.Path{{Points: line}}}).Bounds()
			if math.Abs(high.X-p.Length)+math.Abs(high.Y-p.Width)+math.Abs(low.X)+math.Abs(low.Y) > 1e-9 {
				t.Fatalf("%s: outline from %v to %v; want (0, 0) to (%g, %g)", p.ID, low, high, p.Length, p.Width)
			}
		}
	}
}

// An end slot leaves no hair of a line along the end of the rib.
func TestOutlineAtTheEnds(t *testing.T) {
	t.Parallel()
	p := Part{Length: 700, Width: 80, Slots: []Slot{{Station: 6.125, Width: 12.25, Depth: 40.5}, {Station: 693.875, Width: 12.25, Depth: 40.5}}}
	want := []vector.Point{{Y: 40.5}, {X: 12.25, Y: 40.5}, {X: 12.25}, {X: 687.75}, {X: 687.75, Y: 40.5}, {X: 700, Y: 40.5}, {X: 700, Y: 80}, {Y: 80}}
	got := p.outline()
	for i := range want {
		if len(got) != len(want) || math.Hypot(got[i].X-want[i].X, got[i].Y-want[i].Y) > 1e-9 {
			t.Fatalf("outline = %v; want %v", got, want)
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
				for _, p := range path.Points {
					if path.Layer == vector.Mark && (p.X < -1e-9 || p.X > s.Length+1e-9 || p.Y < low || p.Y > high) {
						t.Errorf("%s: a mark at %v; want it within 0 to %g, %g to %g", s.Mark, p, s.Length, low, high)
					}
				}
			}
			for _, w := range drawing.Words {
				if end := w.At.X + 0.8*w.Height*float64(len([]rune(w.Text))); w.At.X < 0 || end > s.Length || w.At.Y < low || w.At.Y+w.Height > high {
					t.Errorf("%s: %q from %v to %g; want it within %g, %g to %g", s.Mark, w.Text, w.At, end, s.Length, low, high)
				}
			}
		}
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
