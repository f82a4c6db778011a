package app

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"flatwright/engine"
	"flatwright/engine/draw"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// wholeMade is handMade with what the whole panel adds, typed by hand too.
func wholeMade() Snapshot {
	s := handMade()
	s.Design.Cases = []engine.LoadCase{{Name: "Planing"}}
	r := &s.Result
	r.Cases[0].Closed, r.Cases[0].Reach = 0.248, "Legs instead of rails. Spread over 25.4 mm."
	r.Whole = &engine.Whole{Mesh: engine.Normal, Unknowns: 7654, Change: 0.012, Frequency: 38.4,
		Work: engine.Work{Low: 0.26, High: 0.37, Most: "the stiffness of birch plywood", Shares: []engine.WorkShare{
			{Name: "top skin, stretching", Part: "top", Share: 0.5, Slope: -0.48},
			{Name: "lengthwise ribs, shear", Part: string(engine.LengthwisePart), Share: 0.3, Slope: -0.3},
			{Name: "supports sinking in", Part: engine.SupportPart, Share: 0.15},
			{Name: "edge bands", Part: string(engine.BandPart), Share: 0.03, Slope: 0.02},
			{Name: "blocks", Part: string(engine.BlockPart), Share: 0.015},
			{Name: "crosswise ribs, shear", Part: string(engine.CrosswisePart), Share: 0.005},
		}},
		Cases: []engine.WholeCase{{Settlement: 0.02, Reactions: []engine.Reaction{
			{Name: "left rail", X: 50, Y: 300, Force: 1961.33}, {Name: "right rail", X: 1500, Y: 300, Lifted: true}}}}}
	r.LongTerm = []engine.Creep{{Case: "Planing", Now: 0.31, Day: 0.33, Year: 0.4, TenYears: 0.47}}
	r.Moisture = engine.Moisture{Air: engine.Air{MadeAt: 50, Above: 35, Below: 60}, Assumed: true, Made: 9.2, Above: 6.9, Below: 10.9, Core: 8.9, BowAlong: -1.7, BowAcross: 0.004, RimStep: 0.2}
	return s
}

func TestWhyTexts(t *testing.T) {
	metric, imperial, finer := wholeMade(), wholeMade(), wholeMade()
	imperial.Lengths = length.Format{Imperial: true}
	finer.Finer = true
	figures := wholeMade()
	figures.Result.Whole.Work.Figures = []engine.FigureSlope{{Material: "birch-plywood", Figure: "gEdge", Name: "shear in the plane of the sheet", Slope: -0.312},
		{Material: "oak", Figure: "density", Name: "weight", Slope: 0.04}, {Material: "oak", Figure: "nu", Name: "narrowing", Slope: -0.001}}
	weightless := wholeMade()
	weightless.Result.Knobs = []engine.Knob{{Field: "supports.endInset", Name: "supports in from the ends", Down: &engine.KnobStep{Value: 25, Sag: 0.1, Margin: -2}}}
	tests := []struct {
		name string
		snap Snapshot
		card string
		want string
	}{
		{"the range", metric, "How sure is this", "Planing | 0.31 (0.26 to 0.37) mm | nine tops in ten"},
		// 0.31, 0.26, 0.37 over 25.4
		{"the range in inches", imperial, "How sure is this", "0.0122 (0.0102 to 0.0146) in"},
		{"what decides it", metric, "How sure is this", "What decides it most: the stiffness of birch plywood. Bend an offcut"},
		{"the model's own error", metric, "How sure is this", "the model's own error | about 1.2 % | so much the sag moved from the mesh before to this one: normal mesh, 7\u2009650 unknowns"},
		{"a finer mesh to come", finer, "How sure is this", "A finer mesh is being computed"},
		{"most of the work", metric, "Who does the work", "top skin, stretching | 50 % | 1 % stiffer: 0.48 % less sag"},
		{"more sag from stiffer bands", metric, "Who does the work", "edge bands | 3 % | 1 % stiffer: 0.02 % more sag"},
		{"sinking in", metric, "Who does the work", "supports sinking in | 15 % | not counted in the sag"},
		{"small ones gathered", metric, "Who does the work", "all else | 2 % | blocks; crosswise ribs, shear"},
		{"a figure", figures, "Who does the work", "shear in the plane of the sheet | 0.31 % less | Birch plywood, all birch; sag for 1 % more of it"},
		{"a figure that adds, and none that does nothing", figures, "Who does the work", "weight | 0.04 % more | oak; sag for 1 % more of it, joints and slots counted in\n"},
		{"a knob", metric, "What one step changes", "85 mm: weight +0.2 kg, lowest margin ~+0.1"},
		{"a knob that weighs nothing", weightless, "What one step changes", "25 mm: weight the same, lowest margin ~−2"},
		// the curve says 0.31 mm here and 0.1 mm at twice the depth
		{"twice the depth", metric, "Depth against sag", "Twice the core depth gives ~3.1 times less sag; a solid slab twice as deep gives 8."},
		{"the exponent", metric, "Depth against sag", "to the power ~−1.4; a solid slab has −3"},
		{"depth needed", metric, "Depth against sag", "A core of ~90 mm would meet the limit of 0.25 mm; it is 80 mm now."},
		// 0.248/0.31 = 0.8
		{"the closed form", metric, "The closed form beside it", "Planing | 0.248 mm | the whole panel says 0.31 mm; the closed form says 20 % less"},
		{"which assumption fails", imperial, "The closed form beside it", `What does not hold here: Legs instead of rails. Spread over 1".`},
		{"ten years", metric, "Over the years", "after ten years | 0.47 mm"},
		{"bow", metric, "Through the seasons", "bow of the length | 1.7 mm | the middle lies low"},
		{"hardly a bow", metric, "Through the seasons", "bow of the width | under 0.01 mm | the middle stands high"},
		{"rim", metric, "Through the seasons", "step at the solid-wood rim | 0.2 mm | the rim stands up"},
		{"air", metric, "Through the seasons", "used at 35 % above and 60 % below; usual values"},
		{"frequency", metric, "How it swings", "first natural frequency | 38 Hz | an estimate"},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			got := words(cardNamed(t, whyCards(tc.snap), tc.card).blocks)
			if !strings.Contains(got, tc.want) {
				t.Errorf("card %q says\n%swant in it: %q", tc.card, got, tc.want)
			}
		})
	}
}

// Without the whole panel nothing is told that only it knows, and no range.
func TestWhyWithoutTheWholePanel(t *testing.T) {
	s := handMade()
	var titles []string
	for _, c := range whyCards(s) {
		titles = append(titles, c.title)
	}
	if got, want := strings.Join(titles, ", "), "How sure is this, What one step changes, Depth against sag"; got != want {
		t.Errorf("cards %s; want %s", got, want)
	}
	if got := words(cardNamed(t, whyCards(s), "How sure is this").blocks); !strings.Contains(got, "no range") || strings.Contains(got, "0.31") {
		t.Errorf("without the whole panel it says %q", got)
	}
	s.Result.Problems = append(s.Result.Problems, engine.Problem{Severity: engine.Blocking})
	if got := whyCards(s); len(got) != 0 {
		t.Errorf("%d cards beside a blocking problem; want none", len(got))
	}
}

func TestSharesAddUp(t *testing.T) {
	total := 0.0
	for _, row := range shareRows(wholeMade().Result.Whole.Work.Shares) {
		total += row.share
	}
	if math.Abs(total-1) > 1e-12 {
		t.Errorf("the pieces of the bar make %v; want 1", total)
	}
}

func TestSupportsCard(t *testing.T) {
	got := words(cardNamed(t, resultCards(wholeMade()), "Supports").blocks)
	for _, want := range []string{
		"left rail | 1\u2009960 N | 200 kg · about two people",
		"right rail | lifts | ▲ it carries nothing",
		"sinking into the supports | 0.02 mm",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("the card says\n%swant in it: %q", got, want)
		}
	}
}

func TestMeshLine(t *testing.T) {
	s := wholeMade()
	for _, tc := range []struct {
		mesh  engine.Mesh
		finer bool
		want  string
	}{
		{engine.Interactive, true, "Whole panel, coarse mesh; refining…"},
		{engine.Normal, true, "Whole panel, normal mesh; refining…"},
		{engine.Refined, false, "Whole panel, fine mesh."},
	} {
		s.Result.Whole.Mesh, s.Finer = tc.mesh, tc.finer
		if got := words(cardNamed(t, resultCards(s), "Sag").blocks); !strings.Contains(got, tc.want) {
			t.Errorf("mesh %d, finer %v: the sag says\n%swant in it %q", tc.mesh, tc.finer, got, tc.want)
		}
	}
}

func TestWhoseSharesOfTheSag(t *testing.T) {
	got := words(cardNamed(t, resultCards(wholeMade()), "Sag").blocks)
	if !strings.Contains(got, "By the closed form 60 % shear in the ribs") {
		t.Errorf("beside the whole panel's sag it says\n%s", got)
	}
	care := "Take with care: Legs instead of rails."
	if strings.Contains(got, care) {
		t.Error("what the closed form strains is told of the whole panel's sag")
	}
	closed := wholeMade()
	closed.Result.Whole = nil
	if got := words(cardNamed(t, resultCards(closed), "Sag").blocks); !strings.Contains(got, care) {
		t.Errorf("what the closed form strains is not told with its sag:\n%s", got)
	}
}

// lineNamed returns the first line of that name.
func (b *bench) lineNamed(p *cardPane, name string) *lineView {
	b.Helper()
	for _, c := range p.cards {
		for _, v := range c.list.views {
			if line, ok := v.(*lineView); ok && line.line.Data().Name == name {
				return line
			}
		}
	}
	b.Fatalf("there is no line %q", name)
	return nil
}

func TestAMarginPointsOutItsPlace(t *testing.T) {
	b := openBench(t, t.TempDir())
	m := b.session.Now().Result.Margins[0]
	line := b.lineNamed(b.view.results, m.Name).object.(*widgets.Pressable)
	test.Tap(line)
	if got := b.session.Focus(); got.Part != m.Part || got.Spot.X != m.X || got.Spot.Y != m.Y {
		t.Fatalf("after the margin is pressed %+v; want %s at %v, %v", got, m.Part, m.X, m.Y)
	}
	if got := b.spots(); got != 3 {
		t.Errorf("%d marks in the drawing; want 3", got)
	}
	line.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if got := b.spots(); got != 0 {
		t.Errorf("%d marks after Escape; want none", got)
	}
	line.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	if got := b.spots(); got != 3 {
		t.Errorf("%d marks after Space; want 3", got)
	}
	b.view.drawing.board.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if got := b.spots(); got != 0 {
		t.Errorf("%d marks after Escape in the drawing; want none", got)
	}
}

// sharesOf returns the bar and its legend.
func (b *bench) sharesOf(p *cardPane) *sharesView {
	b.Helper()
	for _, c := range p.cards {
		for _, v := range c.list.views {
			if shares, ok := v.(*sharesView); ok {
				return shares
			}
		}
	}
	b.Fatal("nobody says who does the work")
	return nil
}

func TestWhyTab(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.choose("Go", "To what lies behind")
	if got := b.view.side.Shown(); got != 1 || b.view.results.content.Visible() || !b.view.why.content.Visible() {
		t.Fatalf("tab %d shows; want Why alone", got)
	}
	b.view.why.Show(wholeMade())
	shares := b.sharesOf(b.view.why)
	row := shares.column.Objects[2].(*widgets.Pressable)
	row.MouseIn(nil)
	if got := b.session.Focus().Hover; got != string(engine.LengthwisePart) || shares.bar.Lit() != 1 {
		t.Errorf("pointing at the ribs' row lights %q and piece %d; want all lengthwise ribs and 1", got, shares.bar.Lit())
	}
	if !b.view.drawing.board.Belongs("L2", string(engine.LengthwisePart)) || b.view.drawing.board.Belongs("C2", string(engine.LengthwisePart)) {
		t.Error("the drawing does not light up the lengthwise ribs alone")
	}
	row.MouseOut()
	if got := b.session.Focus().Hover; got != "" || shares.bar.Lit() != -1 {
		t.Errorf("after the pointer left %q and piece %d are lit", got, shares.bar.Lit())
	}
	var asked string
	b.session.WatchFocus(func(f Focus) { asked += f.Field })
	for _, c := range b.view.why.cards {
		for _, v := range c.list.views {
			if bars, ok := v.(*barsView); ok {
				test.Tap(bars.object.(*widgets.Pressable))
			}
		}
	}
	if asked != "coreDepth" {
		t.Errorf("pressing the bars asked for %q; want the core depth", asked)
	}
	test.Tap(b.view.strip.tiles[2])
	if b.view.side.Shown() != 0 {
		t.Error("the margin's tile does not bring its card to the fore")
	}
}

// What is behind another tab shows the newest figures as soon as it comes to
// the fore.
func TestHiddenTabCatchesUp(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.typeInto("coreDepth", "120")
	if len(b.view.why.cards) != 0 {
		t.Fatalf("%d cards were made behind the other tab", len(b.view.why.cards))
	}
	b.view.side.OnChange(1)
	var curve *curveView
	for _, c := range b.view.why.cards {
		for _, v := range c.list.views {
			if found, ok := v.(*curveView); ok {
				curve = found
			}
		}
	}
	if curve == nil || curve.at != 120 {
		t.Fatalf("the curve is %+v; want it at a core of 120 mm", curve)
	}
}

func TestPartLooksDiffer(t *testing.T) {
	seen := map[[2]uint8]string{}
	for _, part := range []string{"top", string(engine.LengthwisePart), string(engine.CrosswisePart), string(engine.BandPart), string(engine.BlockPart), engine.SupportPart} {
		fill, hatch := partLook(part)
		key := [2]uint8{uint8(fill), uint8(hatch)}
		if other := seen[key]; other != "" || fill == draw.NoFill {
			t.Errorf("%s looks like %q", part, other)
		}
		seen[key] = part
	}
}

// Until the whole panel has been computed for every step, each figure is marked
// as an estimate and the card says how far that is; then none is.
func TestStepsAreMarkedUntilComputed(t *testing.T) {
	s := wholeMade()
	s.Result.Depth.Curve = []engine.DepthPoint{{CoreDepth: 80, Sag: 0.3, Mass: 20}, {CoreDepth: 160, Sag: 0.15, Mass: 25}}
	s.Result.Knobs = append(s.Result.Knobs, engine.Knob{Field: "topSkin.material", Name: "Top skin material",
		Down: &engine.KnobStep{Value: 9, Material: "hardwood-plywood", Sag: 0.1, Cost: -12, Priced: true}})
	says := func(s Snapshot) (steps, depth string, rows []widgets.BarRow) {
		all := whyCards(s)
		return words(cardNamed(t, all, "What one step changes").blocks), words(cardNamed(t, all, "Depth against sag").blocks), barRows(s, s.Result.Knobs)
	}
	rough, done := s, s
	rough.Trying, rough.Tried = true, 0.4
	done.Result.WhatIf = &engine.WhatIfReport{Mesh: engine.Normal, Panels: 32}
	steps, depth, rows := says(rough)
	for text, want := range map[string]string{steps: "Estimates (~): the whole panel is being computed for each, 40 % done", depth: "Twice the core depth gives ~2 times less sag"} {
		if !strings.Contains(text, want) {
			t.Errorf("it says\n%swant in it %q", text, want)
		}
	}
	if !strings.HasPrefix(rows[0].UpText, "~") {
		t.Errorf("the bar's figure is %q; want it marked", rows[0].UpText)
	}
	steps, depth, rows = says(done)
	if strings.Contains(steps+depth+rows[0].UpText, "~") || !strings.Contains(steps, "Computed: each is a whole panel of its own, on the normal mesh") {
		t.Errorf("once computed it says\n%s%s%s", steps, depth, rows[0].UpText)
	}
	if !strings.Contains(steps, "cost −12") {
		t.Errorf("the change of cost is not told:\n%s", steps)
	}
	if m, _ := s.Design.Material("hardwood-plywood"); m.Name == "" || !strings.Contains(rows[1].Label, m.Name) {
		t.Errorf("the other material is called %q; want %q in it", rows[1].Label, m.Name)
	}
}
