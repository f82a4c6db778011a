package engine

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// area returns the area of a polygon by the shoelace formula, positive
// anticlockwise.
func area(points []draw.Point) float64 {
	sum := 0.0
	for i, a := range points {
		b := points[(i+1)%len(points)]
		sum += a.X*b.Y - b.X*a.Y
	}
	return sum / 2
}

func TestRibOutline(t *testing.T) {
	t.Parallel()
	slot := func(station, width, depth float64, fromTop bool) Slot {
		return Slot{Station: station, Width: width, Depth: depth, FromTop: fromTop}
	}
	tests := []struct {
		name    string
		slots   []Slot
		corners int
		cut     float64
	}{
		{"plain", nil, 4, 0},
		{"inside, from above", []Slot{slot(100, 10, 30, true), slot(300, 12, 30, true)}, 12, 660},
		{"inside, from below", []Slot{slot(100, 10, 30, false), slot(300, 12, 25, false)}, 12, 600},
		// A slot at an end takes the corner: two corners more, not four.
		{"left end, from above", []Slot{slot(5, 10, 30, true)}, 6, 300},
		{"right end, from above", []Slot{slot(995, 10, 30, true)}, 6, 300},
		{"both ends, from below", []Slot{slot(5, 10, 30, false), slot(995, 10, 30, false)}, 8, 600},
		{"ends and inside, from above", []Slot{slot(5, 10, 30, true), slot(500, 10, 30, true), slot(995, 10, 30, true)}, 12, 900},
		{"from both edges", []Slot{slot(200, 10, 30, true), slot(200, 10, 20, false)}, 12, 500},
	}
	for _, test := range tests {
		p := Part{Length: 1000, Width: 80, Slots: test.slots}
		out := ribOutline(p)
		near(t, test.name, area(out), 1000*80-test.cut, 1e-12)
		if len(out) != test.corners {
			t.Errorf("%s: %d corners; want %d: %v", test.name, len(out), test.corners, out)
		}
		for i, a := range out {
			b := out[(i+1)%len(out)]
			if (a.X == b.X) == (a.Y == b.Y) {
				t.Errorf("%s: side from %v to %v is neither upright nor level", test.name, a, b)
			}
		}
	}
}

func TestRibOutlinesOfDesigns(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(12, 12))
	for range 100 {
		for _, p := range randomDesign(r).Parts() {
			if len(p.Slots) > 0 && len(p.gone) == 0 {
				near(t, p.ID, area(ribOutline(p))*p.Thickness, p.Volume, 1e-9)
			}
		}
	}
}

// figureOf returns the drawing of a design.
func figureOf(t *testing.T, d Design, o DrawingOptions) draw.Figure {
	t.Helper()
	return Drawing(d, compute(t, d), o)
}

func TestDrawingShowsEveryPart(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(13, 13))
	for range 40 {
		d := randomDesign(r)
		res := compute(t, d)
		f := Drawing(d, res, DrawingOptions{Rib: "L1", Case: 0})
		drawn := map[string]int{}
		for _, a := range f.Areas {
			if _, foot := FootOfPart(a.Part); foot {
				a.Part = SupportPart
			}
			if a.Part == ApronPart && d.Supports.HasAprons() {
				a.Part = SupportPart
			}
			drawn[a.Part]++
			if a.Part != "" && a.Part != SupportPart && !strings.HasPrefix(a.Part, "load ") && !strings.HasPrefix(a.Part, "seam ") &&
				!strings.HasPrefix(a.Part, "hole ") && !strings.HasPrefix(a.Part, "groove ") && !strings.HasPrefix(a.Part, "splice ") {
				if p, ok := partByID(res.Parts, a.Part); !ok || !(math.Abs(area(a.Points)) > 0) {
					t.Errorf("area of %q, %v", a.Part, p)
				}
			}
		}
		for _, p := range res.Parts {
			if drawn[p.ID] == 0 {
				t.Errorf("%s is not drawn", p.ID)
			}
		}
		for _, l := range f.Lines { // ledges along all edges are lines
			drawn[l.Part]++
		}
		for i := range d.Holes {
			if drawn[HolePart(i)] == 0 {
				t.Errorf("hole %d, %+v, is not drawn", i, d.Holes[i])
			}
		}
		for i := range d.Grooves {
			if drawn[GroovePart(i)] == 0 {
				t.Errorf("groove %d is not drawn", i)
			}
		}
		for i := range d.Splices {
			if drawn[SplicePartID(i)] == 0 {
				t.Errorf("splice %d is not drawn", i)
			}
		}
		if drawn[SupportPart] == 0 {
			t.Errorf("no supports are drawn for %s", d.Supports.Kind)
		}
		for i, l := range d.Cases[0].Loads {
			if (drawn[LoadPart(0, i)] > 0) != (l.Kind != Uniform) {
				t.Errorf("load %d, %s, is drawn %d times", i, l.Kind, drawn[LoadPart(0, i)])
			}
		}
		if !drawn2(f, d) {
			t.Error("the outline of the plan is not drawn")
		}
	}
}

// drawn2 reports whether the whole outline of the plan is among the areas.
func drawn2(f draw.Figure, d Design) bool {
	for _, a := range f.Areas {
		if a.Part == "" && a.Pen == draw.Outline && math.Abs(area(a.Points)-d.Length*d.Width) < 1e-6 {
			return true
		}
	}
	return false
}

// Every dimension says what it measures, read back as it was typed.
func TestDimensionsSayWhatTheyMeasure(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(14, 14))
	for range 40 {
		d := randomDesign(r)
		res := compute(t, d)
		for _, f := range []length.Format{{}, {Imperial: true, Denominator: 64}} {
			fig := Drawing(d, res, DrawingOptions{Lengths: f, Rib: "C2"})
			tol := 0.005 + 1e-6
			if f.Imperial {
				tol = 25.4/128 + 1e-6
			}
			for _, dim := range fig.Dimensions {
				got, err := length.Parse(dim.Text, f)
				if err != nil {
					t.Fatalf("dimension %q: %v", dim.Text, err)
				}
				want := math.Hypot(dim.B.X-dim.A.X, dim.B.Y-dim.A.Y)
				if math.Abs(got-want) > tol {
					t.Errorf("dimension %q measures %g", dim.Text, want)
				}
			}
			// The chains of ribs add up to the whole.
			sum := map[draw.Side]float64{}
			for _, dim := range fig.Dimensions {
				if dim.Rank == 1 && (dim.Side == draw.Above || dim.Side == draw.Left) {
					sum[dim.Side] += math.Hypot(dim.B.X-dim.A.X, dim.B.Y-dim.A.Y)
				}
			}
			near(t, "chain along", sum[draw.Above], d.Length, 1e-3)
			near(t, "chain across", sum[draw.Left], d.Width, 1e-3)
		}
	}
}

// The views share their axes, and no two of them overlap.
func TestDrawingViews(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.EdgeBand = EdgeBand{"plain", 20}
	f := figureOf(t, d, DrawingOptions{Rib: "L2"})
	b := f.Bounds()
	// Gap .14 · 700 = 98; plan 1600 × 700; sections 95 deep; a rib 80 high.
	for _, row := range []struct {
		name      string
		got, want float64
	}{
		{"left", b.Min.X, 0}, {"right", b.Max.X, 1600 + 98 + 95}, {"top", b.Max.Y, 700}, {"bottom", b.Min.Y, -2*98 - 95 - 80},
	} {
		near(t, row.name, row.got, row.want, 1e-9)
	}
	place := func(part string, where func(draw.Point) bool) (lo, hi draw.Point) {
		lo, hi = draw.Point{X: 1e9, Y: 1e9}, draw.Point{X: -1e9, Y: -1e9}
		for _, a := range f.Areas {
			if a.Part != part || !where(a.Points[0]) {
				continue
			}
			for _, p := range a.Points {
				lo.X, lo.Y, hi.X, hi.Y = min(lo.X, p.X), min(lo.Y, p.Y), max(hi.X, p.X), max(hi.Y, p.Y)
			}
		}
		return lo, hi
	}
	box := func(name string, lo, hi draw.Point, x0, x1, y0, y1 float64) {
		for i, pair := range [][2]float64{{lo.X, x0}, {hi.X, x1}, {lo.Y, y0}, {hi.Y, y1}} {
			near(t, name+" "+[]string{"x0", "x1", "y0", "y1"}[i], pair[0], pair[1], 1e-9)
		}
	}
	inPlan := func(p draw.Point) bool { return p.Y >= 0 && p.X <= 1600 }
	below := func(p draw.Point) bool { return p.Y < 0 && p.Y > -98-96 }
	beside := func(p draw.Point) bool { return p.X > 1600 }
	lo, hi := place("L1", inPlan)
	box("L1 in plan", lo, hi, 20, 1580, 20, 32)
	lo, hi = place("L1", below)
	box("L1 in the long section", lo, hi, 20, 1580, -98-95+6, -98-9)
	lo, hi = place(LoadPart(0, 0), inPlan) // 300 × 250 about 800, 350
	box("load in plan", lo, hi, 650, 950, 225, 475)
	lo, hi = place("C1", beside)
	box("C1 in the end section", lo, hi, 1698+9, 1698+89, 20, 680)
	lo, hi = place("top", below)
	box("top skin in the long section", lo, hi, 20, 1580, -98-9, -98)
	lo, hi = place("top", beside) // the upper face looks towards the plan
	box("top skin in the end section", lo, hi, 1698, 1698+9, 20, 680)
	lo, hi = place("bottom", beside)
	box("bottom skin in the end section", lo, hi, 1698+89, 1698+95, 20, 680)
	lo, hi = place("L2", beside)
	box("L2 in the end section", lo, hi, 1698+9, 1698+89, 26+(654.0-6)/4-6, 26+(654.0-6)/4+6)
	lo, hi = place("band left", below)
	box("band in the long section", lo, hi, 0, 20, -98-95, -98)
	if lo, _ := place("top", inPlan); lo.X < 1e8 {
		t.Error("the plan shows the top skin, under which nothing would show")
	}
}

func TestDrawingCases(t *testing.T) {
	t.Parallel()
	d := plainTop()
	second := d.Clone().Cases[0]
	second.Name, second.Loads[0].Force, second.Loads[0].Name = "second", 5000, "press"
	d.Cases = append(d.Cases, second)
	for given, want := range map[int]int{0: 0, 1: 1, -1: 1, 2: 1, 99: 1} { // the second governs
		f := figureOf(t, d, DrawingOptions{Case: given})
		found := false
		for _, n := range f.Notes {
			found = found || n.Part == LoadPart(want, 0) && strings.HasPrefix(n.Text, d.Cases[want].Loads[0].Name+" · ")
		}
		marks := 0
		for _, m := range f.Marks {
			if m.Kind == draw.LoadMark && m.Part == LoadPart(want, 0) && m.At.X == 800 {
				marks++
			}
		}
		if !found || marks != 1 {
			t.Errorf("case %d: its load has note %t and %d marks; want a note and one mark", given, found, marks)
		}
	}
	d.Cases = nil
	if f := figureOf(t, d, DrawingOptions{Case: -1}); len(f.Areas) == 0 {
		t.Error("nothing is drawn without load cases")
	}
}

func TestDrawnSupports(t *testing.T) {
	t.Parallel()
	for kind, want := range map[SupportKind][]float64{ // areas in plan; marks in the long section
		RailsAcross: {2, 2 * 60 * 700, 2}, RailsAlong: {2, 2 * 60 * 1600, 0}, FourLegs: {4, 4 * 60 * 60, 2},
		AllEdges: {0, 0, 0}, // four lines, so that they cover no rib
	} {
		d := plainTop()
		d.Supports.Kind, d.Supports.SideInset = kind, 90
		f := figureOf(t, d, DrawingOptions{})
		n, sum, marks := 0.0, 0.0, 0.0
		for _, a := range f.Areas {
			if a.Part == SupportPart {
				n++
				sum += math.Abs(area(a.Points))
			}
		}
		for _, m := range f.Marks {
			if m.Kind == draw.SupportMark {
				marks++
			}
		}
		if kind == AllEdges {
			lines, length := 0, 0.0
			for _, l := range f.Lines {
				if l.Part == SupportPart {
					lines++
					length += math.Hypot(l.B.X-l.A.X, l.B.Y-l.A.Y)
				}
			}
			if lines != 4 || math.Abs(length-2*(1600-120+700-120)) > 1e-6 {
				t.Errorf("all edges: %d lines of %g mm; want 4 of %d", lines, length, 2*(1600-120+700-120))
			}
		}
		if n != want[0] || math.Abs(sum-want[1]) > 1e-6 || marks != want[2] {
			t.Errorf("%s: %g areas of %g mm², %g marks; want %v", kind, n, sum, marks, want)
		}
	}
}

// The plan's title goes where a line of text has no room below the plan.
func TestPlanTitleGivesWay(t *testing.T) {
	t.Parallel()
	d := plainTop()
	r := refined(t, d, Interactive)
	for room, want := range map[draw.Point]bool{{X: 720, Y: 250}: false, {X: 1000, Y: 900}: true} {
		f := Drawing(d, r, DrawingOptions{Sagged: true, Room: room})
		got := false
		for _, n := range f.Notes {
			got = got || n.Text == "Plan, top skin not shown"
		}
		if got != want {
			t.Errorf("in a room of %v the title is there: %v; want %v", room, got, want)
		}
	}
}

// The long section's title stands clear of the supports' marks, or goes.
func TestSectionTitleKeepsOffTheMarks(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Supports.EndInset = 350 // of 1600: the old place of the title was 0.12 of the length
	f := Drawing(d, refined(t, d, Interactive), DrawingOptions{Room: draw.Point{X: 1000, Y: 900}})
	for _, n := range f.Notes {
		if n.Text == "Section along the length" {
			if n.Anchor != draw.AtTop || math.Abs(n.At.X-800) > 1e-9 {
				t.Errorf("the title stands %v of %g; want it in the middle between the rails", n.Anchor, n.At.X)
			}
			return
		}
	}
	t.Error("no title in a large room")
}

// On paper too the section's title has its room, below an apron as well.
func TestSectionTitleHasRoomOnPaper(t *testing.T) {
	t.Parallel()
	d := withAprons()
	f := Drawing(d, compute(t, d), DrawingOptions{})
	for _, n := range f.Notes {
		if n.Text == "Section along the length" {
			if low := f.Bounds().Min.Y; n.At.Y <= low {
				t.Errorf("the title hangs from %g, the figure ends at %g", n.At.Y, low)
			}
			return
		}
	}
	t.Error("no title")
}
