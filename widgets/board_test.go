package widgets

import (
	"image/color"
	"math"
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"

	"flatwright/engine/draw"
)

func box(x0, y0, x1, y1 float64) []draw.Point {
	return draw.Rect{Min: draw.Point{X: x0, Y: y0}, Max: draw.Point{X: x1, Y: y1}}.Corners()
}

// plan is a figure 1000 by 500 mm: a skin, one rib along the middle, one across
// the middle with a hatch, a triangle of a block and a dimension.
func plan() draw.Figure {
	return draw.Figure{
		Areas: []draw.Area{
			{Points: box(0, 0, 1000, 500), Fill: draw.Skin, Pen: draw.Outline, Part: "skin"},
			{Points: box(0, 240, 1000, 260), Fill: draw.LengthwiseRib, Pen: draw.Thin, Part: "long"},
			{Points: box(480, 0, 520, 500), Fill: draw.CrosswiseRib, Pen: draw.Thin, Hatch: draw.HatchSlash, Part: "cross"},
			{Points: []draw.Point{{X: 100, Y: 50}, {X: 200, Y: 50}, {X: 100, Y: 150}}, Fill: draw.Block, Part: "block"},
		},
		Dimensions: []draw.Dimension{
			{A: draw.Point{X: 0, Y: 0}, B: draw.Point{X: 0, Y: 500}, Side: draw.Left, Rank: 1, Text: "500 mm"},
			{A: draw.Point{X: 0, Y: 500}, B: draw.Point{X: 1000, Y: 500}, Side: draw.Above, Rank: 1, Text: "1000 mm"},
		},
	}
}

// boardAt shows the plan on a board in a window.
func boardAt(t *testing.T, width, height float32) (*Board, fyne.Window) {
	t.Helper()
	b := NewBoard()
	b.SetFigure(plan())
	w := window(t, b, width, height)
	return b, w
}

// on returns where the world's point shows.
func on(b *Board, x, y float64) fyne.Position { return position(b.View().Map(draw.Point{X: x, Y: y})) }

func countObjects(objects []fyne.CanvasObject) map[string]int {
	n := map[string]int{}
	for _, o := range objects {
		switch o.(type) {
		case *canvas.Rectangle:
			n["rectangle"]++
		case *canvas.ArbitraryPolygon:
			n["polygon"]++
		case *canvas.Line:
			n["line"]++
		case *canvas.Text:
			n["text"]++
		case *canvas.Image:
			n["image"]++
		case *canvas.Raster:
			n["raster"]++
		}
	}
	return n
}

func TestBoardScene(t *testing.T) {
	app(t)
	b, _ := boardAt(t, 600, 400)
	got := countObjects(b.sheet.objects)
	// Three upright areas, the triangle, the hatch in one piece and two arrow
	// heads for each dimension, the upper dimension as text, the left one turned.
	for kind, want := range map[string]int{"rectangle": 3, "polygon": 1, "raster": 5, "text": 1, "image": 1} {
		if got[kind] != want {
			t.Errorf("%d objects of kind %s; want %d (all: %v)", got[kind], kind, want, got)
		}
	}
	if got["line"] < 12 {
		t.Errorf("objects %v; want the outlines of three areas at least", got)
	}
}

func TestBoardReusesItsObjects(t *testing.T) {
	app(t)
	b, _ := boardAt(t, 600, 400)
	first := b.sheet.objects[0]
	b.ZoomIn()
	if b.sheet.objects[0] != first {
		t.Error("the skin's rectangle is another object after a zoom")
	}
}

func TestBoardFitShowsAll(t *testing.T) {
	app(t)
	b, w := boardAt(t, 600, 400)
	inside := func() {
		t.Helper()
		size := b.Size()
		for _, p := range box(0, 0, 1000, 500) {
			q := on(b, p.X, p.Y)
			if q.X < 0 || q.Y < 0 || q.X > size.Width || q.Y > size.Height-chromeHeight {
				t.Errorf("corner %v lies at %v on a board of %v", p, q, size)
			}
		}
	}
	inside()
	before := b.View().Scale
	w.Resize(fyne.NewSize(1200, 800))
	inside()
	if after := b.View().Scale; after <= before*1.5 {
		t.Errorf("the scale went from %v to %v with twice the room; want the fit kept", before, after)
	}
}

func TestBoardKeepsTheUsersView(t *testing.T) {
	app(t)
	b, w := boardAt(t, 600, 400)
	b.ZoomIn()
	scale, middle := b.View().Scale, b.View().World(300, 200)
	w.Resize(fyne.NewSize(900, 500))
	if b.View().Scale != scale {
		t.Errorf("a new size changed the scale from %v to %v after a zoom", scale, b.View().Scale)
	}
	wantPoint(t, "middle of the board", b.View().World(450, 250), middle)
	f := plan()
	f.Areas[0].Points = box(0, 0, 2000, 500)
	b.SetFigure(f)
	if b.View().Scale != scale || b.Fitted() {
		t.Error("a new figure took the user's view away")
	}
	b.Fit()
	if b.View().Scale >= scale || !b.Fitted() {
		t.Error("Fit did not fit")
	}
}

func wantPoint(t *testing.T, name string, got, want draw.Point) {
	t.Helper()
	if math.Abs(got.X-want.X) > 1e-6 || math.Abs(got.Y-want.Y) > 1e-6 {
		t.Errorf("%s is at %v; want %v", name, got, want)
	}
}

func TestBoardOutlinesNoCutEdge(t *testing.T) {
	app(t)
	b, _ := boardAt(t, 600, 400)
	for range 4 {
		b.zoom(1.25, 300, 200)
	}
	b.pan(0, 150) // the skin's upper and lower edge stay in view at most
	b.SetSelected("skin")
	for _, o := range b.highlight.objects {
		if l, ok := o.(*canvas.Line); ok {
			x0, x1 := l.Position1.X, l.Position2.X
			if x0 == x1 && (x0 == 0 || x0 == 600) {
				t.Errorf("an outline along the board's own edge from %v to %v", l.Position1, l.Position2)
			}
		}
	}
	if n := countObjects(b.highlight.objects)["line"]; n == 0 {
		t.Error("nothing of the skin's outline shows; the test needs an edge in view")
	}
}

func TestBoardCullsWhatIsOutside(t *testing.T) {
	app(t)
	b, _ := boardAt(t, 600, 400)
	b.pan(5000, 0)
	if n := len(b.sheet.objects); n != 0 {
		t.Errorf("%d objects for a drawing that is out of view; want none", n)
	}
}

func TestBoardPalette(t *testing.T) {
	app(t)
	b, _ := boardAt(t, 600, 400)
	red := color.NRGBA{R: 200, A: 255}
	b.Palette = func(f draw.Fill) color.Color {
		if f == draw.Skin {
			return red
		}
		return nil
	}
	b.Refresh()
	if got := b.sheet.objects[0].(*canvas.Rectangle).FillColor; got != red {
		t.Errorf("the skin is %v after Refresh; want the palette's %v", got, red)
	}
	b.Palette = nil
	b.Refresh()
	if got, want := b.sheet.objects[0].(*canvas.Rectangle).FillColor, FillColor(draw.Skin, b); got != want {
		t.Errorf("without a palette the skin is %v; want the theme's %v", got, want)
	}
}

func TestBoardFollowsTheTheme(t *testing.T) {
	app(t)
	b, _ := boardAt(t, 600, 400)
	fyne.CurrentApp().Settings().SetTheme(theme.DefaultTheme())
	b.Refresh()
	r := test.WidgetRenderer(b).(*boardRenderer)
	if got, want := r.ground.FillColor, FillColor(draw.Sheet, b); got != want {
		t.Errorf("the ground is %v under another theme; want %v", got, want)
	}
	for _, o := range b.sheet.objects {
		if text, ok := o.(*canvas.Text); ok && text.Color != FillColor(draw.Ink, b) && text.Color != FillColor(draw.Pencil, b) {
			t.Errorf("%q keeps the colour %v of the theme before", text.Text, text.Color)
		}
	}
}

func TestBoardScaleBar(t *testing.T) {
	app(t)
	b, _ := boardAt(t, 600, 400)
	var asked float64
	b.ScaleBar = func(limit float64) (float64, string) {
		asked = limit
		return 304.8, "1 ft"
	}
	b.Refresh()
	if got := asked * b.View().Scale; math.Abs(got-160) > 0.01 {
		t.Errorf("asked for a bar of at most %v px; want 160", got)
	}
	l := b.bar.line[0]
	if got, want := float64(l.Position2.X-l.Position1.X), 304.8*b.View().Scale; math.Abs(got-want) > 0.01 || b.bar.label.Text != "1 ft" {
		t.Errorf("the bar is %v long, labelled %q; want %v and 1 ft", got, b.bar.label.Text, want)
	}
	b.SetFigure(draw.Figure{})
	if b.bar.object.Visible() {
		t.Error("a scale bar without a drawing")
	}
}

func TestRoundLength(t *testing.T) {
	for _, c := range []struct {
		limit, want float64
		label       string
	}{
		{1, 1, "1 mm"}, {1.99, 1, "1 mm"}, {2, 2, "2 mm"}, {49, 20, "20 mm"}, {999, 500, "500 mm"},
		{0.07, 0.05, "0.05 mm"}, {0, 0, ""}, {math.NaN(), 0, ""}, {math.Inf(1), 0, ""},
	} {
		got, label := roundLength(c.limit)
		if math.Abs(got-c.want) > 1e-12 || label != c.label {
			t.Errorf("roundLength(%v) = %v, %q; want %v, %q", c.limit, got, label, c.want, c.label)
		}
	}
}

// Whatever the figure, the board neither panics nor leaves the plane.
func TestBoardOddFigures(t *testing.T) {
	app(t)
	nan, inf := math.NaN(), math.Inf(1)
	for name, f := range map[string]draw.Figure{
		"nothing":     {},
		"one point":   {Areas: []draw.Area{{Points: []draw.Point{{X: 1, Y: 1}}, Fill: draw.Skin, Part: "p"}}},
		"no points":   {Areas: []draw.Area{{Fill: draw.Skin, Hatch: draw.HatchSlash, Part: "p"}}},
		"not numbers": {Areas: []draw.Area{{Points: box(nan, 0, inf, 10), Fill: draw.Skin, Pen: draw.Outline}}},
		"huge":        {Areas: []draw.Area{{Points: box(0, 0, 1e12, 1e-9), Fill: draw.Skin, Hatch: draw.HatchSlash}}},
		"flat":        {Lines: []draw.Line{{A: draw.Point{}, B: draw.Point{X: 100}, Pen: draw.Centre}}},
	} {
		b := NewBoard()
		b.SetFigure(f)
		w := window(t, container.NewStack(b), 300, 200)
		b.ZoomIn()
		b.step(1)
		b.step(-1)
		b.Fit()
		test.MoveMouse(w.Canvas(), fyne.NewPos(100, 100))
		if s := b.View().Scale; !(s > 0) || math.IsInf(s, 0) {
			t.Errorf("%s: the scale is %v", name, s)
		}
	}
}

func BenchmarkBoardZoom(b *testing.B) {
	test.NewTempApp(b)
	board := NewBoard()
	f := plan()
	f.Areas = f.Areas[:1]
	for i := range 5 {
		y := 20 + 115*float64(i)
		f.Areas = append(f.Areas, draw.Area{Points: box(0, y-6, 1000, y+6), Fill: draw.LengthwiseRib, Pen: draw.Thin, Hatch: draw.HatchSlash, Part: "l" + strconv.Itoa(i)})
	}
	for i := range 11 {
		x := 20 + 96*float64(i)
		f.Areas = append(f.Areas, draw.Area{Points: box(x-6, 0, x+6, 500), Fill: draw.CrosswiseRib, Pen: draw.Thin, Hatch: draw.HatchBackslash, Part: "c" + strconv.Itoa(i)})
	}
	board.SetFigure(f)
	w := test.NewTempWindow(b, board)
	w.Resize(fyne.NewSize(1100, 700))
	i := 0
	for b.Loop() {
		factor := 1.02
		if i%60 >= 30 {
			factor = 1 / 1.02
		}
		board.zoom(factor, 550, 350)
		i++
	}
}

// Marking a part leaves its name readable: no line runs over the letters.
func TestBoardMarksNoNameAway(t *testing.T) {
	app(t)
	b, _ := boardAt(t, 600, 400)
	f := plan()
	f.Notes = []draw.Note{{At: draw.Point{X: 300, Y: 400}, Text: "the block", Ground: draw.Sheet, Part: "block"}}
	b.SetFigure(f)
	b.SetSelected("block")
	var name draw.Rect
	for _, it := range b.marked() {
		if it.Shape == draw.Words {
			name = it.Box()
		}
	}
	if name.Empty() {
		t.Fatal("the name is not marked")
	}
	edges := 0
	for _, it := range b.marked() {
		if it.Shape == draw.Words {
			continue
		}
		edges++
		if it.Box().Grow(2).Overlaps(name) {
			t.Errorf("something from %v to %v runs over the name in %v", it.Box().Min, it.Box().Max, name)
		}
	}
	if edges != 4 { // the tint and three edges of the triangle
		t.Errorf("%d pieces mark the block; want 4", edges)
	}
}
