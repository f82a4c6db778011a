package draw

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// half is a Measure by which every sign is half an em wide, easy by hand.
func half(text string, size float64, _ bool) float64 {
	return size * 0.5 * float64(len([]rune(text)))
}

// testMetrics are round numbers for sums by hand.
var testMetrics = Metrics{
	Thick: 2, ThinRatio: 2, TextSize: 10, Arrow: 8, Gap: 2,
	RankStep: 20, HatchSpacing: 5, Measure: half,
}

func closeTo(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9*max(1, math.Abs(want))) {
		t.Errorf("%s = %g; want %g", what, got, want)
	}
}

func pointAt(t *testing.T, what string, got, want Point) {
	t.Helper()
	closeTo(t, what+" x", got.X, want.X)
	closeTo(t, what+" y", got.Y, want.Y)
}

func rect(x0, y0, x1, y1 float64) Rect { return Rect{Point{x0, y0}, Point{x1, y1}} }

func TestMap(t *testing.T) {
	t.Parallel()
	v := View{Scale: 0.5, OriginX: 100, OriginY: 300}
	// By hand: 100 + 0.5·40 = 120; 300 - 0.5·60 = 270: y up becomes y down.
	pointAt(t, "Map", v.Map(Point{40, 60}), Point{120, 270})
	pointAt(t, "World", v.World(120, 270), Point{40, 60})
	pointAt(t, "World at scale 0", View{}.World(5, 5), Point{})
}

func TestWorldInvertsMap(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		v := View{Scale: math.Exp(rng.Float64()*8 - 4), OriginX: rng.Float64() * 900, OriginY: rng.Float64() * 700}
		p := Point{rng.Float64()*4000 - 2000, rng.Float64()*4000 - 2000}
		q := v.Map(p)
		back := v.World(q.X, q.Y)
		if math.Hypot(back.X-p.X, back.Y-p.Y) > 1e-7 {
			t.Fatalf("World(Map(%v)) = %v in %+v", p, back, v)
		}
	}
}

func TestZoomKeepsThePointUnderTheCursor(t *testing.T) {
	t.Parallel()
	v := View{Scale: 0.5, OriginX: 100, OriginY: 300}
	before := v.World(250, 120)
	z := v.Zoom(1.5, 250, 120)
	pointAt(t, "point under the cursor", z.World(250, 120), before)
	closeTo(t, "scale", z.Scale, 0.75)
	if got := v.Zoom(math.NaN(), 1, 1); got != v {
		t.Errorf("Zoom(NaN) = %+v; want no change", got)
	}
	if got := v.Zoom(0, 1, 1); got != v {
		t.Errorf("Zoom(0) = %+v; want no change", got)
	}
	pointAt(t, "panned", v.Pan(7, -3).Map(Point{40, 60}), Point{127, 267})
}

func TestFit(t *testing.T) {
	t.Parallel()
	// 1800 × 750 in 1000 × 600 with 100 left and right, 50 and 150 above and
	// below: room 800 × 400, so 800/1800 = 4/9 governs (400/750 = 0.533).
	v := Fit(rect(0, 0, 1800, 750), 1000, 600, Margins{Left: 100, Right: 100, Top: 50, Bottom: 150})
	closeTo(t, "scale", v.Scale, 4.0/9)
	pointAt(t, "lower left", v.Map(Point{0, 0}), Point{100, 250 + 375*4.0/9})
	pointAt(t, "upper right", v.Map(Point{1800, 750}), Point{900, 250 - 375*4.0/9})
	if v.Clip != rect(0, 0, 1000, 600) {
		t.Errorf("Clip = %v; want the whole plane", v.Clip)
	}
	// Turned: now the height governs, 400/1800.
	closeTo(t, "scale of the turned", Fit(rect(0, 0, 750, 1800), 1000, 600, Margins{100, 50, 100, 150}).Scale, 400.0/1800)
}

func TestFitWithoutExtent(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		bounds Rect
		want   float64
	}{
		"nothing":         {Rect{}, 1},
		"level line":      {rect(0, 5, 200, 5), 0.5},
		"upright line":    {rect(5, 0, 5, 400), 0.25},
		"no room at all":  {rect(0, 0, 10, 10), 0.1},
		"far from origin": {rect(1e6, 1e6, 1e6+200, 1e6+100), 0.5},
	} {
		m := Margins{}
		if name == "no room at all" {
			m = Margins{Left: 400, Top: 400}
		}
		v := Fit(c.bounds, 100, 100, m)
		if math.Abs(v.Scale-c.want) > 1e-12 {
			t.Errorf("%s: Fit scale = %g; want %g", name, v.Scale, c.want)
		}
	}
}

// The ratio of thick to thin is 2:1 (ISO 128, from memory), the four sizes of
// text are 11 : 13 : 15 : 22.
func TestMetricsRatios(t *testing.T) {
	t.Parallel()
	for name, m := range map[string]Metrics{"screen": ScreenMetrics(half), "paper": PaperMetrics(half), "no ratio": {Thick: 3}} {
		for _, thick := range []Pen{Outline, Accent, Frame} {
			for _, thin := range []Pen{Thin, Hidden, Centre, DimensionPen, RulePen} {
				if m.Stroke(thick) != 2*m.Stroke(thin) || !(m.Stroke(thin) > 0) {
					t.Errorf("%s: pen %d is %g, pen %d is %g; want 2:1", name, thick, m.Stroke(thick), thin, m.Stroke(thin))
				}
			}
		}
		closeTo(t, name+" no pen", m.Stroke(NoPen), 0)
		closeTo(t, name+" body", m.Size(BodySize)*11, m.Size(NoteSize)*13)
		closeTo(t, name+" heading", m.Size(HeadingSize)*11, m.Size(NoteSize)*15)
		closeTo(t, name+" figure", m.Size(FigureSize), m.Size(NoteSize)*2)
	}
	// Dashed 12d 3d, chain 24d 3d dot 3d, here d = 6/2 = 3.
	broad := Metrics{Thick: 6, ThinRatio: 2}
	if got := broad.Dash(Hidden); !slices.Equal(got, []float64{36, 9}) {
		t.Errorf("Dash(Hidden) = %v", got)
	}
	if got := broad.Dash(Centre); !slices.Equal(got, []float64{72, 9, 6, 9}) {
		t.Errorf("Dash(Centre) = %v", got)
	}
	if got := testMetrics.Dash(Outline); got != nil {
		t.Errorf("Dash(Outline) = %v; want a continuous line", got)
	}
	closeTo(t, "width without a Measure, 0.55 em a sign", Metrics{TextSize: 10}.Width("½ in", NoteSize, false), 22)
}

func TestPenColours(t *testing.T) {
	t.Parallel()
	for pen, want := range map[Pen]Fill{
		NoPen: NoFill, Outline: Ink, Hidden: Ink, DimensionPen: Pencil, RulePen: RuleInk, Accent: AccentInk,
	} {
		if got := pen.Colour(); got != want {
			t.Errorf("pen %d has colour %d; want %d", pen, got, want)
		}
	}
}

func TestRect(t *testing.T) {
	t.Parallel()
	r := rect(1, 2, 5, 8)
	closeTo(t, "width", r.Width(), 4)
	closeTo(t, "height", r.Height(), 6)
	pointAt(t, "centre", r.Centre(), Point{3, 5})
	if r.Grow(1) != rect(0, 1, 6, 9) {
		t.Errorf("Grow = %v", r.Grow(1))
	}
	if r.Overlaps(rect(5, 2, 9, 8)) {
		t.Error("rectangles that share an edge count as overlapping")
	}
	if !r.Overlaps(rect(4.9, 7.9, 9, 9)) || r.Overlaps(rect(0, 8.1, 9, 9)) {
		t.Error("Overlaps is wrong at the upper right corner")
	}
	if !r.Contains(r) || r.Contains(rect(1, 2, 5, 8.1)) || r.Contains(rect(0.9, 3, 2, 4)) {
		t.Error("Contains is wrong at an edge")
	}
	if r.Empty() || !(Rect{}).Empty() || rect(0, 0, 1, 0).Empty() {
		t.Error("Empty is wrong")
	}
}

func TestBounds(t *testing.T) {
	t.Parallel()
	f := Figure{
		Areas: []Area{{Points: rect(0, 0, 10, 5).Corners()}, {Points: []Point{{math.NaN(), 900}}}},
		Lines: []Line{{A: Point{-3, 1}, B: Point{12, 1}}},
		Marks: []Mark{{At: Point{4, 9}}},
		Notes: []Note{{At: Point{100, 100}, Text: "far away"}},
	}
	if got := f.Bounds(); got != rect(-3, 0, 12, 9) {
		t.Errorf("Bounds = %v; want -3,0 to 12,9", got)
	}
	if got := (Figure{}).Bounds(); !got.Empty() {
		t.Errorf("Bounds of nothing = %v", got)
	}
}
