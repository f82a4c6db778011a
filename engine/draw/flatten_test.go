package draw

import (
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
)

func only(items []Item, s Shape) []Item {
	var out []Item
	for _, it := range items {
		if it.Shape == s {
			out = append(out, it)
		}
	}
	return out
}

func TestFlattenPlacesThings(t *testing.T) {
	t.Parallel()
	f := Figure{
		Areas: []Area{{Points: rect(0, 0, 40, 20).Corners(), Fill: Skin, Pen: Outline, Part: "skin"}},
		Lines: []Line{{A: Point{0, 10}, B: Point{40, 10}, Pen: Centre, Part: "axis"}},
	}
	items := f.Flatten(View{Scale: 2, OriginX: 10, OriginY: 100}, testMetrics).Items
	if len(items) != 3 {
		t.Fatalf("%d items; want fill, outline and line: %+v", len(items), items)
	}
	// y = 100 - 2·20 = 60 at the top.
	want := []Point{{10, 100}, {90, 100}, {90, 60}, {10, 60}}
	if items[0].Shape != Polygon || items[0].Colour != Skin || !reflect.DeepEqual(items[0].Points, want) {
		t.Errorf("fill = %+v", items[0])
	}
	if o := items[1]; o.Shape != Stroke || !o.Closed || o.Width != 2 || o.Colour != Ink || !reflect.DeepEqual(o.Points, want) {
		t.Errorf("outline = %+v", o)
	}
	if l := items[2]; l.Part != "axis" || l.Width != 1 || len(l.Dash) != 4 || l.Points[0] != (Point{10, 80}) || l.Points[1] != (Point{90, 80}) {
		t.Errorf("line = %+v", l)
	}
}

func TestNothingIsDrawnOfNothing(t *testing.T) {
	t.Parallel()
	nan := Point{math.NaN(), 1}
	f := Figure{
		Areas: []Area{
			{Points: []Point{{0, 0}, nan, {1, 1}}, Fill: Skin, Pen: Outline, Hatch: HatchSlash},
			{Points: []Point{{0, 0}, {1, 1}}, Fill: Skin, Hatch: HatchSlash},
			{},
		},
		Lines:      []Line{{A: Point{0, 0}, B: Point{1, 1}}, {A: nan, Pen: Thin}, {B: Point{math.Inf(1), 0}, Pen: Thin}},
		Notes:      []Note{{At: Point{1, 1}}, {At: nan, Text: "nowhere"}},
		Dimensions: []Dimension{{A: nan, Text: "1"}, {B: nan, Side: Left, Text: "1"}, {Text: "no length"}, {B: Point{9, 9}, Offset: math.NaN(), Text: "2"}},
	}
	if got := f.Flatten(View{Scale: 1}, testMetrics).Items; len(got) != 0 {
		t.Errorf("items = %+v; want none", got)
	}
}

func TestTextKeepsItsSizeAndLinesTheirWidth(t *testing.T) {
	t.Parallel()
	f := sample(rand.New(rand.NewPCG(3, 4)), 12)
	for _, scale := range []float64{0.02, 0.3, 1, 7, 300} {
		for _, it := range f.Flatten(View{Scale: scale}, testMetrics).Items {
			switch it.Shape {
			case Words:
				if it.Size != 10 {
					t.Errorf("scale %g: text of size %g; want 10", scale, it.Size)
				}
			case Stroke:
				if it.Width != 2 && it.Width != 1 {
					t.Errorf("scale %g: line %g wide; want 2 or 1", scale, it.Width)
				}
			}
		}
	}
}

// sample returns a figure with all there is, at random.
func sample(rng *rand.Rand, n int) Figure {
	at := func() Point { return Point{rng.Float64()*2000 - 100, rng.Float64()*1000 - 100} }
	var f Figure
	for range n {
		p, q := at(), at()
		b := newBounds()
		b.add(p, q)
		f.Areas = append(f.Areas, Area{
			Points: b.r.Corners(), Fill: Fill(rng.IntN(10)), Pen: Pen(rng.IntN(9)), Hatch: Hatch(rng.IntN(3)), Part: "area",
		}, Area{Points: []Point{at(), at(), at(), at()}, Fill: Skin, Pen: Hidden, Hatch: HatchBackslash})
		f.Lines = append(f.Lines, Line{A: at(), B: at(), Pen: Pen(rng.IntN(9)), Part: "line"})
		f.Marks = append(f.Marks, Mark{At: at(), Kind: MarkKind(rng.IntN(3)), Part: "mark"})
		f.Notes = append(f.Notes, Note{At: at(), Text: "a note", Anchor: Anchor(rng.IntN(9))})
		f.Dimensions = append(f.Dimensions, Dimension{
			A: at(), B: at(), Side: Side(rng.IntN(4)), Rank: rng.IntN(4), Text: "1234"[:1+rng.IntN(4)], Offset: rng.Float64() * 5,
		})
	}
	return f
}

func TestNothingLeavesTheClip(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(5, 6))
	for round := range 60 {
		f := sample(rng, 6)
		v := View{
			Scale: math.Exp(rng.Float64()*4 - 3), OriginX: rng.Float64()*800 - 400, OriginY: rng.Float64() * 800,
			Clip: rect(20, 30, 420, 330),
		}
		flat := f.Flatten(v, testMetrics)
		for _, it := range flat.Items {
			if !v.Clip.Grow(1e-6).Contains(it.Box()) {
				t.Fatalf("round %d: %+v leaves the clip", round, it)
			}
		}
		if !reflect.DeepEqual(flat, f.Flatten(v, testMetrics)) {
			t.Fatalf("round %d: two flattenings differ", round)
		}
	}
}

// What the clip leaves of filled areas and lines is what lies in it: the same
// points are covered as without a clip.
func TestClippingKeepsWhatIsInside(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(7, 8))
	for range 40 {
		f := sample(rng, 4)
		f.Notes, f.Dimensions = nil, nil
		v := View{Scale: 0.4, OriginX: 20, OriginY: 350}
		whole := f.Flatten(v, testMetrics)
		v.Clip = rect(100, 80, 300, 220)
		cut := f.Flatten(v, testMetrics)
		for range 200 {
			x, y := 102+rng.Float64()*196, 82+rng.Float64()*136
			if got, want := cut.Hit(x, y, 0), whole.Hit(x, y, 0); got != want {
				t.Fatalf("at %g, %g: %q with the clip, %q without", x, y, got, want)
			}
		}
	}
}

func TestWhatLiesOutsideIsCulled(t *testing.T) {
	t.Parallel()
	f := Figure{
		Areas: []Area{{Points: rect(500, 500, 600, 600).Corners(), Fill: Skin, Pen: Outline, Hatch: HatchSlash, Part: "far"}},
		Lines: []Line{{A: Point{-50, 5}, B: Point{-10, 9}, Pen: Thin}, {A: Point{-50, -60}, B: Point{160, -60}, Pen: Thin}},
		Marks: []Mark{{At: Point{900, 0}, Kind: LoadMark}, {At: Point{900, 0}, Kind: SupportMark}, {At: Point{900, 0}, Kind: DotMark}},
		Notes: []Note{{At: Point{99, 50}, Text: "half outside"}},
	}
	v := View{Scale: 1, OriginY: 100, Clip: rect(0, 0, 100, 100)}
	if got := f.Flatten(v, testMetrics).Items; len(got) != 0 {
		t.Errorf("items = %+v; want none", got)
	}
}

// A dashed line that the clip cuts keeps the place of its dashes: they are the
// dashes of the whole line, cut.
func TestDashesStayWhenClipped(t *testing.T) {
	t.Parallel()
	f := Figure{Areas: []Area{{Points: []Point{{-37, -20}, {300, 40}, {120, 260}}, Pen: Hidden}}}
	v := View{Scale: 1, OriginY: 200}
	length := func(flat Flat, clip Rect) (sum float64) {
		for _, it := range flat.Items {
			for _, s := range it.Segments() {
				if from, to, ok := clipSegment(s[0], s[1], clip); ok {
					sum += (to - from) * math.Hypot(s[1].X-s[0].X, s[1].Y-s[0].Y)
				}
			}
		}
		return sum
	}
	whole := f.Flatten(v, testMetrics)
	v.Clip = rect(10, 20, 210, 190)
	cut := f.Flatten(v, testMetrics)
	if len(cut.Items) < 2 {
		t.Fatalf("%d pieces; the clip should cut the outline in several", len(cut.Items))
	}
	// In every strip of the plane both have the same length of dashes.
	for x := 10.0; x < 210; x += 10 {
		strip := rect(x, 20, x+10, 190)
		if got, want := length(cut, strip), length(whole, strip); math.Abs(got-want) > 1e-6 {
			t.Errorf("strip at %g: %g of dashes; want %g", x, got, want)
		}
	}
}

func TestSegments(t *testing.T) {
	t.Parallel()
	line := Item{Shape: Stroke, Points: []Point{{0, 0}, {30, 0}}, Dash: []float64{12, 3}}
	want := [][2]Point{{{0, 0}, {12, 0}}, {{15, 0}, {27, 0}}}
	if got := line.Segments(); !reflect.DeepEqual(got, want) {
		t.Errorf("dashes = %v; want %v", got, want)
	}
	line.Phase = 10 // 2 left of the first dash
	want = [][2]Point{{{0, 0}, {2, 0}}, {{5, 0}, {17, 0}}, {{20, 0}, {30, 0}}}
	if got := line.Segments(); !reflect.DeepEqual(got, want) {
		t.Errorf("dashes with a phase = %v; want %v", got, want)
	}
	// Round a corner the pattern goes on: 12 on, 3 off, from 10 to 15 off starts at 12.
	bent := Item{Shape: Stroke, Points: []Point{{0, 0}, {10, 0}, {10, 10}}, Dash: []float64{12, 3}}
	want = [][2]Point{{{0, 0}, {10, 0}}, {{10, 0}, {10, 2}}, {{10, 5}, {10, 10}}}
	if got := bent.Segments(); !reflect.DeepEqual(got, want) {
		t.Errorf("dashes round a corner = %v; want %v", got, want)
	}
	solid := Item{Shape: Stroke, Points: []Point{{0, 0}, {4, 0}, {4, 3}}, Closed: true}
	if got := solid.Segments(); len(got) != 3 || got[2] != [2]Point{{4, 3}, {0, 0}} {
		t.Errorf("closed line = %v; want three pieces back to the start", got)
	}
	if len(solid.Points) != 3 {
		t.Error("Segments changed the item")
	}
	odd := Item{Shape: Stroke, Points: []Point{{0, 0}, {40, 0}}, Dash: []float64{10}}
	want = [][2]Point{{{0, 0}, {10, 0}}, {{20, 0}, {30, 0}}}
	if got := odd.Segments(); !reflect.DeepEqual(got, want) {
		t.Errorf("odd pattern = %v; want %v", got, want)
	}
	far := Item{Shape: Stroke, Points: []Point{{0, 0}, {1e12, 0}}, Dash: []float64{12, 3}}
	if got := far.Segments(); len(got) != 1 {
		t.Errorf("a line without end has %d dashes; want it drawn through", len(got))
	}
	if got := (Item{Shape: Polygon, Points: solid.Points}).Segments(); got != nil {
		t.Errorf("segments of a polygon = %v", got)
	}
}

func TestThinLinesStopAtText(t *testing.T) {
	t.Parallel()
	f := Figure{
		Areas: []Area{{Points: rect(0, 0, 200, 100).Corners(), Hatch: HatchSlash, Pen: Hidden}},
		Lines: []Line{
			{A: Point{0, 50}, B: Point{200, 50}, Pen: Centre, Part: "centre"},
			{A: Point{0, 52}, B: Point{200, 52}, Pen: Outline, Part: "outline"},
		},
		Notes: []Note{{At: Point{100, 50}, Text: "load"}},
	}
	v := View{Scale: 1, OriginY: 100, Clip: rect(-10, -10, 210, 110)}
	items := f.Flatten(v, testMetrics).Items
	v.Clip = Rect{}
	if all := f.Flatten(v, testMetrics).Items; !reflect.DeepEqual(all, items) {
		t.Errorf("without a clip %d items; want the same %d", len(all), len(items))
	}
	note := only(items, Words)
	if len(note) != 1 {
		t.Fatalf("%d texts; want 1", len(note))
	}
	box := note[0].Box().Grow(-1e-6)
	parts := map[string]int{}
	for _, it := range only(items, Stroke) {
		parts[it.Part]++
		if it.Part == "outline" {
			continue
		}
		for i := 1; i < len(it.Points); i++ {
			if _, _, ok := clipSegment(it.Points[i-1], it.Points[i], box); ok {
				t.Errorf("%+v runs through the note", it)
			}
		}
	}
	if parts["centre"] != 2 || parts["outline"] != 1 {
		t.Errorf("centre line in %d pieces, outline in %d; want 2 and 1", parts["centre"], parts["outline"])
	}
	// By hand: the text is 4·5 wide, so the pieces are 0 to 90 and 110 to 200.
	for _, it := range items {
		if it.Part == "centre" && it.Points[0].X > 0 {
			pointAt(t, "second piece", it.Points[0], Point{110, 50})
			closeTo(t, "its phase", it.Phase, 110)
		}
	}
}

func TestNoteAnchors(t *testing.T) {
	t.Parallel()
	// Text 20 wide, em 10: capitals 7.3 high, box from 8 above to 2.4 below.
	for a, want := range map[Anchor]Point{
		AtMiddle: {90, 103.65}, AtLeft: {100, 103.65}, AtRight: {80, 103.65},
		AtTop: {90, 108}, AtBottom: {90, 97.6},
		AtTopLeft: {100, 108}, AtTopRight: {80, 108}, AtBottomLeft: {100, 97.6}, AtBottomRight: {80, 97.6},
	} {
		f := Figure{Notes: []Note{{At: Point{100, -100}, Text: "abcd", Anchor: a, Part: "n", Colour: Over}}}
		items := f.Flatten(View{Scale: 1}, testMetrics).Items
		if len(items) != 1 || items[0].Part != "n" || items[0].Colour != Over {
			t.Fatalf("anchor %d: %+v", a, items)
		}
		pointAt(t, "baseline", items[0].Points[0], want)
		if got, want := items[0].Box(), (Rect{Point{want.X, want.Y - 8}, Point{want.X + 20, want.Y + 2.4}}); got != want {
			t.Errorf("anchor %d: box %v; want %v", a, got, want)
		}
	}
}

func TestMarksPointAtTheirPlace(t *testing.T) {
	t.Parallel()
	v := View{Scale: 3, OriginX: 5, OriginY: 500}
	tip := v.Map(Point{100, 50})
	for kind, want := range map[MarkKind]struct {
		colour Fill
		above  bool
	}{LoadMark: {Load, true}, SupportMark: {Support, false}} {
		f := Figure{Marks: []Mark{{At: Point{100, 50}, Kind: kind, Part: "m"}}}
		flat := f.Flatten(v, testMetrics)
		heads := only(flat.Items, Polygon)
		if len(heads) != 1 || heads[0].Colour != want.colour || heads[0].Points[0] != tip {
			t.Errorf("mark %d: heads = %+v; want one with its point at %v", kind, heads, tip)
		}
		e := emitter{view: v, metrics: testMetrics}
		box := e.markBox(f.Marks[0]).Grow(1e-9)
		for _, it := range flat.Items {
			if !box.Contains(it.Box()) {
				t.Errorf("mark %d: %+v is outside its box %v", kind, it, box)
			}
			if b := it.Box(); want.above && b.Max.Y > tip.Y || !want.above && b.Min.Y < tip.Y {
				t.Errorf("mark %d: %v is on the wrong side of %v", kind, b, tip)
			}
		}
	}
	// The load's head is an arrow long and as wide, its shaft two more.
	load := Figure{Marks: []Mark{{At: Point{100, 50}, Kind: LoadMark}}}.Flatten(v, testMetrics).Items
	if b := load[1].Box(); b != rect(tip.X-4, tip.Y-8, tip.X+4, tip.Y) {
		t.Errorf("head covers %v", b)
	}
	if b := load[0].Box(); b != rect(tip.X, tip.Y-24, tip.X, tip.Y-8) || load[0].Colour != Load || load[0].Closed {
		t.Errorf("shaft = %+v", load[0])
	}
	e := emitter{view: v, metrics: testMetrics}
	if b := e.markBox(Mark{At: Point{100, 50}}); b != rect(tip.X-4, tip.Y-24, tip.X+4, tip.Y) {
		t.Errorf("box of the load = %v", b)
	}
	// The support stands 1.2 arrows high and 1.4 wide under its point.
	support := Figure{Marks: []Mark{{At: Point{100, 50}, Kind: SupportMark}}}.Flatten(v, testMetrics).Items
	if b := support[0].Box(); math.Abs(b.Width()-11.2) > 1e-9 || math.Abs(b.Height()-9.6) > 1e-9 || math.Abs(b.Centre().X-tip.X) > 1e-9 {
		t.Errorf("support covers %v", b)
	}
	dot := Figure{Marks: []Mark{{At: Point{100, 50}, Kind: DotMark, Part: "m"}}}.Flatten(v, testMetrics)
	if len(dot.Items) != 1 || dot.Hit(tip.X+2, tip.Y-1, 0) != "m" || dot.Hit(tip.X+4, tip.Y, 0) != "" {
		t.Errorf("dot = %+v", dot.Items)
	}
}

// A plan of 5 by 11 ribs with its dimensions, as the screen draws it at every
// turn of the wheel.
func BenchmarkFlatten(b *testing.B) {
	f := Figure{Areas: []Area{{Points: rect(0, 0, 1800, 750).Corners(), Fill: Skin, Pen: Outline, Part: "skin"}}}
	for i := range 11 {
		x := 12 + 176.4*float64(i)
		f.Areas = append(f.Areas, Area{Points: rect(x, 12, x+12, 738).Corners(), Fill: CrosswiseRib, Pen: Hidden, Hatch: HatchBackslash, Part: "x"})
		f.Dimensions = append(f.Dimensions, Dimension{A: Point{x, 750}, B: Point{x + 176.4, 750}, Rank: 1, Text: "176.4"})
	}
	for i := range 5 {
		y := 12 + 178.5*float64(i)
		f.Areas = append(f.Areas, Area{Points: rect(12, y, 1788, y+12).Corners(), Fill: LengthwiseRib, Pen: Hidden, Hatch: HatchSlash, Part: "y"})
		f.Dimensions = append(f.Dimensions, Dimension{A: Point{0, y}, B: Point{0, y + 178.5}, Side: Left, Rank: 1, Text: "178.5"})
	}
	m := ScreenMetrics(half)
	v := Fit(f.Bounds(), 900, 500, f.Margins(m))
	for b.Loop() {
		f.Flatten(v, m)
	}
}

// A note's ground is a plate around its text, under it and over areas and
// lines.
func TestNoteGround(t *testing.T) {
	t.Parallel()
	f := Figure{
		Areas: []Area{{Points: Rect{Max: Point{100, 100}}.Corners(), Fill: Skin}},
		Lines: []Line{{A: Point{0, 50}, B: Point{100, 50}, Pen: Outline}},
		Notes: []Note{
			{At: Point{50, 50}, Text: "0.25", Ground: Sheet, Part: "p"},
			{At: Point{50, 20}, Text: "plain"},
			{At: Point{150, 20}, Text: "outside", Ground: Sheet},
		},
	}
	v := View{Scale: 1, OriginY: 100, Clip: Rect{Max: Point{100, 100}}}
	items := f.Flatten(v, ScreenMetrics(nil)).Items
	var plate, text, line, plates int
	for i, it := range items {
		switch {
		case it.Shape == Polygon && it.Colour == Sheet:
			plate, plates = i, plates+1
		case it.Shape == Stroke:
			line = i
		case it.Shape == Words && it.Text == "0.25":
			text = i
		}
	}
	if plates != 1 {
		t.Fatalf("%d plates; want one, that of the text that shows and has one", plates)
	}
	if !(line < plate && plate < text) {
		t.Errorf("line, plate and text are items %d, %d and %d; want that order", line, plate, text)
	}
	p, w := items[plate].Box(), items[text].Box()
	if !p.Contains(w) || p.Width() > w.Width()+ScreenMetrics(nil).Gap {
		t.Errorf("the plate is %v around a text at %v", p, w)
	}
	if items[plate].Part != "" || items[text].Part != "p" {
		t.Errorf("plate and text belong to %q and %q; want the text alone to p, or the plate is outlined with it", items[plate].Part, items[text].Part)
	}
}

// Of two plates that would overlap the first stays, and both show once the
// drawing is large enough; notes without a plate stay where they are.
func TestPlatesGiveWay(t *testing.T) {
	t.Parallel()
	f := Figure{Notes: []Note{
		{At: Point{50, 50}, Text: "first", Ground: Sheet},
		{At: Point{58, 50}, Text: "second", Ground: Sheet},
		{At: Point{54, 50}, Text: "plain"},
	}}
	for scale, want := range map[float64]string{1: "first plain", 10: "first second plain"} {
		got := ""
		plates := 0
		for _, it := range f.Flatten(View{Scale: scale}, ScreenMetrics(nil)).Items {
			switch it.Shape {
			case Words:
				got += " " + it.Text
			case Polygon:
				plates++
			}
		}
		if got != " "+want || plates != strings.Count(want, " ") {
			t.Errorf("at scale %v: %q with %d plates; want %q and a plate for each but the plain", scale, got, plates, want)
		}
	}
}

// A note says as much as fits into its room at the scale there is, nothing where nothing does, and stands
// where it is free. Signs of testMetrics are 5 wide: 10 of them and a plate take 50 and some.
func TestNotesChooseByRoom(t *testing.T) {
	t.Parallel()
	f := Figure{Notes: []Note{
		{At: Point{50, 50}, Text: "0123456789", Else: []string{"01"}, Room: Rect{Max: Point{100, 30}}, Ground: Sheet, Part: "a"},
		{At: Point{55, 50}, Or: []Point{{50, 90}}, Text: "7", Ground: Sheet},
		{At: Point{52, 50}, Text: "8", Ground: Sheet},
	}}
	texts := func(scale float64) (out []string) {
		for _, it := range f.Flatten(View{Scale: scale, Clip: Rect{Min: Point{-1e4, -1e4}, Max: Point{1e4, 1e4}}}, testMetrics).Items {
			if it.Shape == Words {
				out = append(out, it.Text)
			}
		}
		return out
	}
	m := testMetrics
	wide := m.Width("0123456789", NoteSize, false) + 2*m.Gap/3
	short := m.Width("01", NoteSize, false) + 2*m.Gap/3
	high := words(Point{}, "01", AtMiddle, NoteSize, false, m).Box().Height() + 2*m.Gap/3
	for _, c := range []struct {
		name  string
		scale float64
		want  []string
	}{
		{"all of it", max(wide/100, high/30) * 1.001, []string{"0123456789", "7"}},
		{"not quite", wide / 100 * 0.999, []string{"01", "7"}},
		{"too low for any", high / 30 * 0.999, []string{"7"}},
	} {
		if c.name == "not quite" && c.scale < high/30 || short/100 > high/30 {
			t.Fatalf("the sizes of testMetrics make %s say nothing", c.name)
		}
		if got := texts(c.scale); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: at %.3f it says %q; want %q", c.name, c.scale, got, c.want)
		}
	}
	v := View{Scale: 1, Clip: Rect{Max: Point{60, 400}}, OriginY: 100}
	plate, text := f.Notes[0].Whole(v, m)
	if text.Text != "0123456789" || !v.Clip.Grow(1e-9).Contains(plate.Box()) && plate.Box().Width() <= 60 {
		t.Errorf("whole: %+v on %+v", text, plate.Box())
	}
}
