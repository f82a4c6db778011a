package engine

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"flatwright/engine/draw"
	"flatwright/engine/length"
	"flatwright/engine/saw"
)

func TestSlotGroupsByHand(t *testing.T) {
	t.Parallel()
	w := compute(t, plainTop()).SlotWork
	if !w.Assumed || len(w.Groups) != 2 || w.Slots != 2*5*8 {
		t.Fatalf("%d groups, %d slots, assumed %v", len(w.Groups), w.Slots, w.Assumed)
	}
	l, c := w.Groups[0], w.Groups[1]
	if strings.Join(l.Parts, " ") != "L1 L2 L3 L4 L5" || l.Datum != "left" || !l.EndForEnd || len(c.Parts) != 8 || c.Datum != "front" || !c.EndForEnd {
		t.Errorf("%+v, %+v", l, c)
	}
	// Crosswise ribs are 9 mm, flush with the ends: slots of 9.2, the first one
	// cut off at the end, 0 to 4.5 + 4.6. Pitch (1600 − 9)/7 = 227.2857.
	first, second := l.Rows[0], l.Rows[1]
	near(t, "first side", first.From, 0, 1e-12)
	near(t, "second side", first.To, 9.1, 1e-12)
	near(t, "middle of the second", second.Middle, 4.5+1591.0/7, 1e-12)
	near(t, "its width", second.Width, 9.2, 1e-12)
	if !second.FromTop || second.Edge() != "upper" || c.Rows[1].Edge() != "lower" || second.Mate != "C2" || second.Number != 2 {
		t.Errorf("%+v", second)
	}
	want := saw.Job{Boards: 5, Slots: 8, Height: 80, Thickness: 12, Width: 9.2, Depth: 40.5}
	if l.Job != want {
		t.Errorf("job %+v; want %+v", l.Job, want)
	}
	sum := 0.0
	for _, g := range w.Groups {
		if g.Taken != g.Best || g.Best < 0 || g.Ways[g.Best].Overrun > 0 {
			t.Errorf("takes %d, advised %d: %+v", g.Taken, g.Best, g.Ways)
		}
		sum += g.Ways[g.Taken].Minutes.High
	}
	near(t, "minutes", w.Minutes.High, sum, 1e-12)
	if text := strings.Join(w.Alike(), " "); !strings.Contains(text, "All 5 lengthwise ribs are the same piece") || !strings.Contains(text, "Turned end for end they are the same") {
		t.Error(text)
	}
	// Stations run on from the datum end.
	for i := 1; i < len(l.Rows); i++ {
		if l.Rows[i].Middle <= l.Rows[i-1].Middle {
			t.Errorf("station %d does not run on", i+1)
		}
	}
}

func TestRibsThatDiffer(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Crosswise.Positions = []float64{50, 400, 800, 1300}
	w := compute(t, d).SlotWork
	if g := w.Groups[0]; g.EndForEnd || !strings.Contains(strings.Join(w.Alike(), " "), "have a left end and do not fit turned round") {
		t.Errorf("uneven stations: %+v", g)
	}
	if len(w.Groups[0].Apart) > 0 {
		t.Errorf("apart without a reading: %v", w.Groups[0].Apart)
	}
	// A reading and a deeper slot set two ribs apart; a reading of the whole kind
	// sets none apart.
	d = plainTop()
	d.Measured = []RibMeasure{{Part: "L2", Height: 80.1}, {Part: "crosswise rib", Height: 80.05}}
	d.Built = []Built{{Kind: SlotDeeper, Part: "L4", Value: 42}}
	w = compute(t, d).SlotWork
	text := strings.Join(w.Alike(), " ")
	if len(w.Groups) != 2 || strings.Join(w.Groups[0].Apart, " ") != "L2 L4" || w.Groups[1].Apart != nil ||
		!strings.Contains(text, "But ribs L2, L4 differ from the rest") || strings.Contains(text, "C2") {
		t.Errorf("%+v: %s", w.Groups, text)
	}
	// Most are as measured: the one that is as drawn is apart.
	d.Built = nil
	d.Measured = []RibMeasure{{Part: "lengthwise rib", SlotDepth: 41}, {Part: "L3", SlotDepth: 40.5}}
	if w = compute(t, d).SlotWork; strings.Join(w.Groups[0].Apart, " ") != "L3" {
		t.Errorf("%v", w.Groups[0].Apart)
	}
	// A splice sets a rib apart and tells its ends apart.
	d = plainTop()
	d.Splices = []Splice{{Part: "C4", At: 300}}
	if w = compute(t, d).SlotWork; strings.Join(w.Groups[1].Apart, " ") != "C4" || w.Groups[1].EndForEnd || !w.Groups[0].EndForEnd || w.Groups[0].Apart != nil {
		t.Errorf("with a splice: %+v", w.Groups)
	}
	// Ribs drawn otherwise are groups of their own.
	d = plainTop()
	parts := d.Parts()
	for i := range parts {
		if parts[i].ID == "L5" {
			parts[i].Slots = parts[i].Slots[1:]
		}
	}
	if w = d.slotWork(parts); len(w.Groups) != 3 || !strings.Contains(strings.Join(w.Alike(), " "), "are: L1, L2, L3, L4; L5. Write its number") {
		t.Errorf("%d groups: %s", len(w.Groups), w.Alike())
	}
}

func TestStatedToolsAndAWayOfTheirOwn(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Tools = saw.Tools{Hand: saw.Narrow{Kerf: 0.9, Reach: 75}, Rail: saw.Saw{Blade: 254, Kerf: 3, Reach: 70}, Overrun: 40, Plunge: 15}
	d.Slots.Way = saw.RailFlat
	w := compute(t, d).SlotWork
	for _, g := range w.Groups {
		if g.Ways[g.Taken].Kind != saw.RailFlat || g.Ways[g.Best].Kind == saw.RailFlat {
			t.Errorf("takes %s, advised %s", g.Ways[g.Taken].Kind, g.Ways[g.Best].Kind)
		}
		if text := WayText(g.Ways[g.Taken], length.Format{}); !strings.Contains(text, "past the mark") {
			t.Error(text)
		}
	}
	// One that cannot falls back on the one advised; nothing owned takes none.
	d.Slots.Way = saw.RouterFlat
	r := compute(t, d)
	if g := r.SlotWork.Groups[0]; g.Taken != g.Best {
		t.Errorf("takes %d, advised %d", g.Taken, g.Best)
	}
	if p := d.wayProblems(r.SlotWork); len(p) != 2 || p[0].Code != "slot-way" || p[0].Part != "L1" || !strings.Contains(p[0].Text, "No router is listed") {
		t.Errorf("%v", p)
	}
	d.Tools = saw.Tools{Jig: saw.Narrow{Kerf: 9, Reach: 60}}
	w = compute(t, d).SlotWork
	if w.Groups[0].Taken != -1 || w.Minutes != (saw.Range{}) || w.Assumed {
		t.Errorf("a jig saw of 9 mm: %+v", w)
	}
	if p := d.wayProblems(w); len(p) != 2 || p[1].Code != "slot-no-way" || p[1].Part != "C1" {
		t.Errorf("%v", p)
	}
	d.Slots.Way = ""
	if p := d.wayProblems(compute(t, plainTop()).SlotWork); len(p) != 0 {
		t.Errorf("with usual tools: %v", p)
	}
}

func TestRibDrawingRunsFromTheDatum(t *testing.T) {
	t.Parallel()
	d := plainTop()
	p, _ := partByID(d.Parts(), "L2")
	f := RibDrawing(p, length.Format{})
	if b := f.Bounds(); b.Min.X != 0 || b.Max.X != p.Length {
		t.Errorf("from %g to %g", b.Min.X, b.Max.X)
	}
	text := notesOf(f)
	for _, want := range []string{"datum, the left end", "231.79", "1595.45", "8"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in %q", want, text)
		}
	}
}

func notesOf(f draw.Figure) string {
	var all []string
	for _, n := range f.Notes {
		all = append(all, n.Text)
	}
	return strings.Join(all, "|")
}

func TestStackDrawing(t *testing.T) {
	t.Parallel()
	s := saw.Stack{Diameter: 165, Boards: 3, Thickness: 12, Plunge: 12}
	f := StackDrawing(s, LengthwisePart, 40.5, length.Format{})
	// The blade's edge: every point of its line is 82.5 mm from its middle.
	x, z, err := s.Centre()
	if err != nil {
		t.Fatal(err)
	}
	edge := 0
	for _, l := range f.Lines {
		if l.Pen == draw.Outline {
			edge++
			near(t, "on the blade", math.Hypot(l.A.X-x, l.A.Y+z), 82.5, 1e-9)
		}
	}
	// The slot is 40.5 mm deep and the blade's middle 42.85 mm before the mark: it
	// comes out of the boards' edge.
	near(t, "left end", f.Bounds().Min.X, -40.5, 1e-9)
	if edge == 0 || !strings.Contains(notesOf(f), "board 1: 32.1 mm past|board 2: 25.3 mm past|board 3: 15.3 mm past") {
		t.Errorf("%d pieces of the blade, notes %q", edge, notesOf(f))
	}
	// The wood that is left begins where the blade leaves the board: x of the
	// first corner of every filled board is that of [saw.Stack.Cuts].
	cuts, _ := s.Cuts()
	board := 0
	for _, a := range f.Areas {
		if a.Fill == draw.LengthwiseRib {
			near(t, "upper face", a.Points[0].X, cuts[board].Upper, 1e-9)
			board++
		}
	}
	if board != 3 {
		t.Errorf("%d boards", board)
	}
	if f := StackDrawing(saw.Stack{Diameter: 20, Boards: 3, Thickness: 12}, LengthwisePart, 40, length.Format{}); len(f.Areas)+len(f.Lines) > 0 {
		t.Error("a stack higher than the blade is drawn")
	}
}

func TestGaugeIsAtFullSize(t *testing.T) {
	t.Parallel()
	g := compute(t, plainTop()).SlotWork.Groups[0]
	tiles := g.Gauge(250)
	sum := 0.0
	for i, tile := range tiles {
		f := GaugeStrip(g, tile, len(tiles), length.Format{})
		b := f.Bounds()
		near(t, "length of the strip", b.Width(), tile.To-tile.From, 1e-9)
		if b.Width() > 250 {
			t.Errorf("strip %d is %g long", i+1, b.Width())
		}
		sum += b.Width()
		// Hatched areas are as wide as the slots, where a slot lies whole on it.
		for _, a := range f.Areas {
			if a.Hatch == draw.NoHatch {
				continue
			}
			if w := a.Points[1].X - a.Points[0].X; w > 9.2+1e-9 || !(w > 0) {
				t.Errorf("a slot %g wide", w)
			}
		}
	}
	// 1600 mm and twice the overlap at every joint but once.
	near(t, "all strips", sum, 1600+float64(len(tiles)-1)*gaugeLap, 1e-9)
	if tiles := g.Gauge(5); tiles != nil {
		t.Errorf("strips of 5 mm: %v", tiles)
	}
}

// TestGaugeOnPaper measures what is printed: the check line and the place of a
// slot on its strip, in mm of paper.
func TestGaugeOnPaper(t *testing.T) {
	t.Parallel()
	d := plainTop()
	r := compute(t, d)
	p := &packet{d: d, r: r, paper: draw.A4, metrics: draw.PaperMetrics(nil)}
	p.gauges()
	page := p.pages[0]
	var ticks []float64
	hatched := 0
	for _, it := range page.Flat.Items {
		if it.Shape == draw.Stroke && len(it.Points) == 2 && it.Points[0].X == it.Points[1].X && it.Width == p.metrics.Thick && math.Abs(it.Points[1].Y-it.Points[0].Y) == 4 {
			ticks = append(ticks, it.Points[0].X)
		}
		if it.Shape == draw.Stroke && it.Closed && len(it.Points) == 4 {
			b := it.Box()
			if math.Abs(b.Width()-9.2) < 1e-9 {
				hatched++
			}
		}
	}
	if len(ticks) != 2 {
		t.Fatalf("ticks at %v", ticks)
	}
	near(t, "check line", ticks[1]-ticks[0], 200, 1e-9) // 297 − 30 − 20 = 247 mm: four fifties
	if hatched == 0 {
		t.Error("no slot of 9.2 mm on the first page")
	}
}

func TestSlotSizesInWords(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Lengthwise.Thickest, d.Slots.MoistureRise = 12.4, 4
	// 12.4·.003·4 = 0.1488; 12.4 + 0.1488 + 0.2 = 12.7488.
	text := d.slotSizes()
	for _, want := range []string{"12.75 mm wide: thickest reading 12.4 mm, 0.15 mm of swelling for 4 points", "clearance 0.2 mm", "40.5 mm deep: half of 80 mm, and 0.5 mm"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in %q", want, text)
		}
	}
}

// Ribs of a group with the same holes and splices share a drawing, which shows
// them; the others have their own.
func TestRibDrawingShowsJoints(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Crosswise.Count = 4
	d.Splices = []Splice{{Part: "L2", At: 300}, {Part: "L4", At: 300}, {Part: "L3", At: 1300, Plates: true}}
	d.Holes = []Hole{{Kind: CableHole, Part: "L5", X: 800, Up: 40, Diameter: 20}}
	got := d.jointed([]string{"L1", "L2", "L3", "L4", "L5"})
	if want := [][]string{{"L1"}, {"L2", "L4"}, {"L3"}, {"L5"}}; !reflect.DeepEqual(got, want) {
		t.Errorf("drawn together: %v; want %v", got, want)
	}
	for part, want := range map[string]string{"L2": "Scarf 1 in 8 over 96 mm, middle 300 mm from the datum end", "L3": "Butt joint under plates, 1300 mm from the datum end", "L5": ""} {
		p, _ := partByID(d.Parts(), part)
		f := d.RibDrawing(p, length.Format{})
		noted := want == ""
		for _, n := range f.Notes {
			noted = noted || n.Text == want
		}
		drawn := 0
		for _, l := range f.Lines {
			if l.Part == SplicePartID(0) || l.Part == SplicePartID(2) {
				drawn++
			}
		}
		for _, a := range f.Areas {
			if a.Part == HolePart(0) {
				drawn++
				near(t, "area of the hole", area(a.Points), math.Pi*100, 0.01)
			}
		}
		if !noted || drawn == 0 {
			t.Errorf("%s: noted %v, drawn %d times", part, noted, drawn)
		}
	}
}
