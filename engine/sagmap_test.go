package engine

import (
	"math"
	"math/rand/v2"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"flatwright/engine/contour"
	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// dished is a panel 1800 by 750 mm that sags like a sine each way, most times
// deep in the middle.
func dished(most float64) contour.Grid {
	g := contour.Grid{X1: 1800, Y1: 750, NX: 61, NY: 31}
	for j := range g.NY {
		for i := range g.NX {
			g.Values = append(g.Values, most*math.Sin(math.Pi*float64(i)/60)*math.Sin(math.Pi*float64(j)/30))
		}
	}
	return g
}

// dishSag is the dish's sag at p without the grid.
func dishSag(most float64, p draw.Point) float64 {
	return most * math.Sin(math.Pi*p.X/1800) * math.Sin(math.Pi*p.Y/750)
}

func isSag(f draw.Fill) bool { return f >= draw.Sag0 && f <= draw.Sag9 }

// split returns the coloured areas of the map itself and those of its legend.
func split(f draw.Figure, right float64) (bands, legend []draw.Area) {
	for _, a := range f.Areas {
		switch {
		case !isSag(a.Fill):
		case a.Points[0].X > right:
			legend = append(legend, a)
		default:
			bands = append(bands, a)
		}
	}
	return bands, legend
}

func areaOf(a draw.Area) float64 {
	var p contour.Polygon
	for _, q := range a.Points {
		p = append(p, contour.Point(q))
	}
	return p.Area()
}

// number reads a note as the drawing writes it.
func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.ReplaceAll(text, "−", "-"), 64)
	if err != nil {
		t.Errorf("a note says %q; want a number", text)
	}
	return v
}

// The map of a dish 1.26 mm deep: bands at every 0.2 mm, each with the area
// that the formula gives by counting, numbers on their lines, the legend in
// the same order, the dot in the middle.
func TestSagMapOfADish(t *testing.T) {
	t.Parallel()
	g := dished(1.26)
	f := SagMap(g, SagMapOptions{})
	bands, legend := split(f, g.X1)
	if len(bands) != 7 || len(legend) != 7 {
		t.Fatalf("%d bands, %d colours in the legend; want 7, up to 1.2 mm", len(bands), len(legend))
	}
	for k := range bands {
		if want := draw.Sag0 + draw.Fill(k); bands[k].Fill != want || legend[k].Fill != want {
			t.Errorf("band %d has colour %d, the legend %d; want %d", k, bands[k].Fill, legend[k].Fill, want)
		}
		const n = 400
		count := 0.0
		for i := range n {
			for j := range n {
				p := draw.Point{X: 1800 * (float64(i) + 0.5) / n, Y: 750 * (float64(j) + 0.5) / n}
				if dishSag(1.26, p) >= 0.2*float64(k) {
					count++
				}
			}
		}
		if got, want := areaOf(bands[k]), count/(n*n)*1800*750; math.Abs(got-want) > 0.004*1800*750 {
			t.Errorf("band %d and what sags more: %.0f mm²; want %.0f ± 5400", k, got, want)
		}
		if k > 0 && legend[k].Points[0].Y <= legend[k-1].Points[0].Y {
			t.Errorf("colour %d of the legend is not above the one before", k)
		}
	}
	onMap, beside := 0, 0
	for _, n := range f.Notes {
		switch {
		case n.Ground == draw.Sheet:
			onMap++
			if got, want := dishSag(1.26, n.At), number(t, n.Text); math.Abs(got-want) > 0.01 {
				t.Errorf("%s stands where the sag is %.3f", n.Text, got)
			}
		case n.Anchor == draw.AtLeft:
			beside++
			k := int(math.Round(number(t, n.Text) / 0.2))
			if k < 1 || k > 6 || math.Abs(n.At.Y-legend[k].Points[0].Y) > 1e-9 {
				t.Errorf("%s stands at y = %v in the legend; want the foot of that colour", n.Text, n.At.Y)
			}
		}
	}
	if onMap < 3 || beside != 6 {
		t.Errorf("%d numbers on the map, %d in the legend; want three or more, and 6", onMap, beside)
	}
	if len(f.Marks) != 1 || f.Marks[0].At != (draw.Point{X: 900, Y: 375}) {
		t.Errorf("marks %v; want one in the middle", f.Marks)
	}
	if text := "Sag 0 to 1.26 mm, most at the dot; contour lines every 0.2 mm"; !says(f, text) {
		t.Errorf("notes %v; want %q", f.Notes, text)
	}
}

func says(f draw.Figure, text string) bool {
	for _, n := range f.Notes {
		if n.Text == text {
			return true
		}
	}
	return false
}

// In inches the lines are at round inches: 1.26 mm is 0.0496 in.
func TestSagMapInInches(t *testing.T) {
	t.Parallel()
	f := SagMap(dished(1.26), SagMapOptions{Lengths: length.Format{Imperial: true}})
	seen := map[string]bool{}
	for _, n := range f.Notes {
		if n.Ground != draw.Sheet {
			continue
		}
		seen[n.Text] = true
		if got, want := dishSag(1.26, n.At), number(t, n.Text)*25.4; math.Abs(got-want) > 0.01 {
			t.Errorf("%s in stands where the sag is %.3f mm; want %.3f", n.Text, got, want)
		}
	}
	if !seen["0.02"] || !says(f, "in") || !says(f, "Sag 0 to 0.0496 in, most at the dot; contour lines every 0.005 in") {
		t.Errorf("numbers %v, notes %v", seen, f.Notes)
	}
}

// The option bounds the number of lines, and what is no number of lines counts
// as nine.
func TestSagMapLevels(t *testing.T) {
	t.Parallel()
	for levels, want := range map[int]int{0: 10, 9: 10, 4: 5, 1: 2, 12: 10, -3: 10} {
		bands, _ := split(SagMap(dished(1), SagMapOptions{Levels: levels}), 1800)
		if len(bands) != want {
			t.Errorf("%d levels: %d bands; want %d", levels, len(bands), want)
		}
		// Equal strides, from the lightest, as dark as there is room for.
		stride := draw.Fill(9 / (want - 1))
		for k, b := range bands {
			if b.Fill != draw.Sag0+draw.Fill(k)*stride {
				t.Errorf("%d levels: band %d has colour %d; want a stride of %d", levels, k, b.Fill, stride)
			}
		}
	}
}

// A larger sag between the grid's points is told and marked, a smaller one not.
func TestSagMapOfALoadBetweenPoints(t *testing.T) {
	t.Parallel()
	at := draw.Point{X: 905, Y: 380}
	for most, want := range map[float64]string{1.29: "Sag 0 to 1.29 mm", 1.1: "Sag 0 to 1.26 mm", math.Inf(1): "Sag 0 to 1.26 mm", math.NaN(): "Sag 0 to 1.26 mm"} {
		f := SagMap(dished(1.26), SagMapOptions{Most: most, At: at})
		if !says(f, want+", most at the dot; contour lines every 0.2 mm") {
			t.Errorf("largest sag %v: notes %v; want %q", most, f.Notes, want)
		}
		if marked := f.Marks[0].At == at; marked != (most == 1.29) {
			t.Errorf("largest sag %v: marked at %v", most, f.Marks[0].At)
		}
	}
}

// A level panel, and the rounding of one, has one colour and no lines.
func TestSagMapOfALevelPanel(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name  string
		value func(i int) float64
		text  string
	}{
		{"nothing", func(int) float64 { return 0 }, "No sag to be seen"},
		{"rounding", func(i int) float64 { return 1e-12 * float64(i%7) }, "No sag to be seen"},
		{"sunk evenly", func(int) float64 { return 1.5 }, "Sag 1.5 mm all over"},
	} {
		g := dished(1)
		for i := range g.Values {
			g.Values[i] = c.value(i)
		}
		f := SagMap(g, SagMapOptions{})
		bands, legend := split(f, g.X1)
		if len(bands) != 1 || len(legend) != 1 || len(f.Lines)+len(f.Marks) != 0 || !says(f, c.text) {
			t.Errorf("%s: %d bands, %d lines, %d marks, notes %v; want one band and %q", c.name, len(bands), len(f.Lines), len(f.Marks), f.Notes, c.text)
		}
	}
	if f := SagMap(contour.Grid{}, SagMapOptions{}); !reflect.DeepEqual(f, draw.Figure{}) {
		t.Errorf("the map of no grid has %d areas", len(f.Areas))
	}
}

// Only the outline can be picked: bands would light up one by one.
func TestSagMapIsPickedAsAWhole(t *testing.T) {
	t.Parallel()
	f := SagMap(dished(1), SagMapOptions{})
	for _, a := range f.Areas {
		if outline := a.Pen == draw.Outline; outline != (a.Part == SagMapPart) {
			t.Errorf("an area of colour %d has part %q", a.Fill, a.Part)
		}
	}
	v := draw.Fit(f.Bounds(), 700, 400, draw.Margins{})
	p := v.Map(draw.Point{X: 300, Y: 200})
	if got := f.Flatten(v, draw.ScreenMetrics(nil)).Hit(p.X, p.Y, 0); got != SagMapPart {
		t.Errorf("a hit on a band finds %q; want %q", got, SagMapPart)
	}
}

// Whatever the sags, the drawing has only finite places, its numbers keep
// clear of each other and of the edges, and a board gets few hundred items.
func TestSagMapOfAnything(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(21, 22))
	for round := range 200 {
		g := contour.Grid{X1: 300 + 3000*r.Float64(), Y1: 300 + 1500*r.Float64(), NX: 2 + r.IntN(60), NY: 2 + r.IntN(30)}
		size := math.Pow(10, float64(r.IntN(9)-5))
		a, b, c := r.NormFloat64(), r.NormFloat64(), 3*r.Float64()
		for j := range g.NY {
			for i := range g.NX {
				x, y := float64(i)/float64(g.NX-1), float64(j)/float64(g.NY-1)
				g.Values = append(g.Values, size*(a*x+b*y+math.Sin(c*math.Pi*x)*math.Cos(c*y)))
			}
		}
		f := SagMap(g, SagMapOptions{Lengths: length.Format{Imperial: round%2 == 0}})
		v := draw.Fit(f.Bounds(), 700, 560, draw.Margins{})
		flat := f.Flatten(v, draw.ScreenMetrics(nil))
		for _, it := range flat.Items {
			for _, p := range it.Points {
				if math.IsNaN(p.X+p.Y) || math.IsInf(p.X+p.Y, 0) {
					t.Fatalf("%d × %d: an item at %v", g.NX, g.NY, p)
				}
			}
		}
		if len(flat.Items) > 900 {
			t.Errorf("%d × %d: %d items on a board", g.NX, g.NY, len(flat.Items))
		}
		whole := draw.Rect{Max: draw.Point{X: g.X1, Y: g.Y1}}
		var boxes []draw.Rect
		for _, n := range f.Notes {
			if n.Ground != draw.Sheet {
				continue
			}
			// On a board of that size: 11 pixels high, 6 wide a sign.
			w, h := 6*float64(len([]rune(n.Text)))/v.Scale, 11/v.Scale
			box := draw.Rect{Min: draw.Point{X: n.At.X - w/2, Y: n.At.Y - h/2}, Max: draw.Point{X: n.At.X + w/2, Y: n.At.Y + h/2}}
			if !whole.Contains(box) {
				t.Errorf("%d × %d: a number at %v on a panel of %v", g.NX, g.NY, n.At, whole.Max)
			}
			for _, other := range boxes {
				if box.Overlaps(other) {
					t.Errorf("%d × %d: two numbers at %v and %v", g.NX, g.NY, n.At, other.Centre())
				}
			}
			boxes = append(boxes, box)
		}
	}
}

// The map stands below the long section on the plan's x, a rib's elevation
// below the map, and all else stays where it was.
func TestDrawingWithASagMap(t *testing.T) {
	t.Parallel()
	d := plainTop()
	r := compute(t, d)
	g := SagGrid{NX: 3, NY: 3, Sag: []float64{0, 0.5, 0, 0.1, 1, 0.1, 0, 0.5, 0}}.Over(d)
	for _, rib := range []string{"", "L1"} {
		without := Drawing(d, r, DrawingOptions{Rib: rib})
		with := Drawing(d, r, DrawingOptions{Rib: rib, Sag: &g})
		var outline, section draw.Rect
		for _, a := range with.Areas {
			box := draw.Figure{Areas: []draw.Area{a}}.Bounds()
			if a.Part == SagMapPart {
				outline = box
			}
			if a.Part == "bottom" && box.Max.Y < 0 {
				section = box
			}
		}
		if outline.Min.X != 0 || outline.Width() != d.Length || math.Abs(outline.Height()-d.Width) > 1e-9 {
			t.Errorf("the map covers %v; want the panel's length and width from x = 0", outline)
		}
		if section.Empty() || outline.Max.Y >= section.Min.Y-1 {
			t.Errorf("the map's upper edge is at %v, the section's lower at %v", outline.Max.Y, section.Min.Y)
		}
		if rib == "" {
			for i, a := range without.Areas {
				if !reflect.DeepEqual(a, with.Areas[i]) {
					t.Errorf("area %d changed from %v to %v", i, a, with.Areas[i])
				}
			}
			continue
		}
		last := draw.Figure{Areas: with.Areas[len(with.Areas)-1:]}.Bounds()
		if with.Areas[len(with.Areas)-1].Part != rib || last.Max.Y >= outline.Min.Y {
			t.Errorf("the elevation reaches up to %v, the map down to %v", last.Max.Y, outline.Min.Y)
		}
	}
	// The largest sag is that of the result, under the load between the points.
	r.Governing, r.Whole = 0, &Whole{Cases: []WholeCase{{Sag: 1.25, X: 810, Y: 340}}}
	with := Drawing(d, r, DrawingOptions{Sag: &g, Case: -1})
	outline := 0.0
	for _, a := range with.Areas {
		if a.Part == SagMapPart {
			outline = a.Points[0].Y
		}
	}
	if at := with.Marks[len(with.Marks)-1].At; at.X != 810 || math.Abs(at.Y-outline-340) > 1e-9 {
		t.Errorf("the dot is at %v on a map whose lower edge is at %v; want 810 and 340 on it", at, outline)
	}
	r.Whole = nil
	broken := contour.Grid{NX: 2, NY: 2}
	if !reflect.DeepEqual(Drawing(d, r, DrawingOptions{}), Drawing(d, r, DrawingOptions{Sag: &broken})) {
		t.Error("a grid that is none changes the drawing")
	}
}

func BenchmarkSagMap(b *testing.B) {
	g := dished(1.26)
	for b.Loop() {
		SagMap(g, SagMapOptions{})
	}
}

func BenchmarkSagMapFlatten(b *testing.B) {
	f := SagMap(dished(1.26), SagMapOptions{})
	v := draw.Fit(f.Bounds(), 700, 400, draw.Margins{})
	n := 0
	for b.Loop() {
		n = len(f.Flatten(v, draw.ScreenMetrics(nil)).Items)
	}
	b.ReportMetric(float64(n), "items")
}
