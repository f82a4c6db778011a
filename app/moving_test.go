package app

import (
	"context"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"flatwright/engine"
	"flatwright/engine/draw"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// hand is a pointer on the drawing of a bench.
type hand struct {
	*bench
	at fyne.Position
}

// handAt puts the pointer on a place of the drawing, in mm.
func (b *bench) handAt(x, y float64) *hand {
	p := b.view.drawing.board.View().Map(draw.Point{X: x, Y: y})
	return &hand{b, fyne.NewPos(float32(p.X), float32(p.Y))}
}

// drag moves the pointer by (dx, dy) mm of the drawing with the button down.
func (h *hand) drag(dx, dy float64) {
	board := h.view.drawing.board
	delta := fyne.NewDelta(float32(dx*board.View().Scale), float32(-dy*board.View().Scale))
	h.at = h.at.AddXY(delta.DX, delta.DY)
	board.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: h.at}, Dragged: delta})
}

func (h *hand) drop() {
	h.view.drawing.board.DragEnd()
	h.settle()
}

// loadBench is a bench whose only load, of 200 by 100 mm, stands at (600, 300)
// on a panel of 1 500 by 750 mm.
func loadBench(t *testing.T) *bench {
	t.Helper()
	b := openBench(t, t.TempDir())
	b.desk.win.Resize(fyne.NewSize(1366, 740))
	d := engine.Demo()
	d.Length, d.Width = 1500, 750
	d.Supports = engine.Supports{Kind: engine.FourLegs, EndInset: 200, SideInset: 100, Bearing: 60}
	d.Cases = []engine.LoadCase{{Name: "Planing", Duration: engine.ShortTerm, Loads: []engine.Load{
		{Name: "weight", Kind: engine.Patch, Force: 500, X: 600, Y: 300, SizeX: 200, SizeY: 100},
	}}}
	b.session.Open(d, "")
	b.settle()
	if r := b.session.Now().Result; r.Blocked() {
		t.Fatalf("the test's design cannot be computed: %+v", r.Problems)
	}
	return b
}

func (b *bench) load() engine.Load         { return b.session.Now().Design.Cases[0].Loads[0] }
func (b *bench) supports() engine.Supports { return b.session.Now().Design.Supports }

// drawnLoad is the middle of the first load as it is drawn in the plan.
func (b *bench) drawnLoad() draw.Point {
	b.Helper()
	for _, a := range b.view.drawing.board.Figure().Areas {
		if a.Part == engine.LoadPart(0, 0) {
			return draw.Figure{Areas: []draw.Area{a}}.Bounds().Centre()
		}
	}
	b.Fatal("the load is not drawn")
	return draw.Point{}
}

// A drag is one step of undo however long it takes, and snaps to whole mm.
func TestDragMovesALoad(t *testing.T) {
	b := loadBench(t)
	start := b.session.Now()
	clock := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	b.session.clock = func() time.Time { clock = clock.Add(10 * time.Second); return clock }
	h := b.handAt(650, 280) // not its middle: the load must not jump there
	for range 5 {
		h.drag(10.1, 5.07)
		b.settle()
	}
	h.drop()
	// By hand: 600 + 5·10.1 = 650.5 and 300 + 5·5.07 = 325.35; the pixels of
	// the screen are finer than a hundredth of a millimetre here.
	if l := b.load(); (l.X != 650 && l.X != 651) || l.Y != 325 {
		t.Errorf("the load stands at %v, %v; want 650 or 651, 325", l.X, l.Y)
	}
	if got, l := b.drawnLoad(), b.load(); got != (draw.Point{X: l.X, Y: l.Y}) {
		t.Errorf("drawn at %v; want %v, %v", got, l.X, l.Y)
	}
	if got := b.session.Focus().Part; got != engine.LoadPart(0, 0) {
		t.Errorf("picked %q; want the load", got)
	}
	moved := b.session.Now()
	if moved.UndoLabel != "move load" || moved.Result.Cases[0].Sag == start.Result.Cases[0].Sag || moved.Stale {
		t.Errorf("undo %q, sag %v after %v, stale %v; want move load and a new sag", moved.UndoLabel, moved.Result.Cases[0].Sag, start.Result.Cases[0].Sag, moved.Stale)
	}
	h.drag(40, 0) // a second drag is a step of its own
	h.drop()
	b.session.Undo()
	b.settle()
	if got := b.load(); got != moved.Design.Cases[0].Loads[0] {
		t.Errorf("undo of the second drag leads to %+v; want %+v", got, moved.Design.Cases[0].Loads[0])
	}
	b.session.Undo()
	b.settle()
	if now := b.session.Now(); !reflect.DeepEqual(now.Design.Cases, start.Design.Cases) || now.UndoLabel != "" {
		t.Errorf("two undos lead to %+v with undo %q; want the start", now.Design.Cases, now.UndoLabel)
	}
}

// While a result is being computed the drawing follows the hand all the same,
// and the design goes on from where the hand is once the result is there.
func TestDragDoesNotWait(t *testing.T) {
	b := loadBench(t)
	revision := b.session.Now().Revision
	h := b.handAt(600, 300)
	h.drag(20, 0)
	h.drag(20, 0)
	h.drag(20, 0)
	if got := b.load().X; got != 620 {
		t.Errorf("the design has x = %v; want 620, for which the result is under way", got)
	}
	if got := b.drawnLoad().X; math.Abs(got-660) > 1e-9 {
		t.Errorf("drawn at %v; want 660, where the hand is", got)
	}
	if got := b.tile(0); !got.Stale {
		t.Error("the sag tile shows an old value as current")
	}
	b.settle()
	if now := b.session.Now(); now.Design.Cases[0].Loads[0].X != 660 || now.Stale || now.Revision != revision+2 {
		t.Errorf("x = %v, stale %v, %d edits; want 660, computed, 2", now.Design.Cases[0].Loads[0].X, now.Stale, now.Revision-revision)
	}
	h.drag(10, 0)
	h.drag(10, 0)
	b.view.drawing.board.DragEnd()
	if got := b.load().X; got != 680 {
		t.Errorf("x = %v right after letting go; want 680", got)
	}
	b.settle()
	if got := b.drawnLoad().X; got != 680 {
		t.Errorf("drawn at %v at rest; want 680", got)
	}
}

// While the hand drags the coarse mesh must do; once it lets go the normal one
// is computed, though the place is the same.
func TestDragIsComputedInAHurry(t *testing.T) {
	b := loadBench(t)
	rest := b.session.compute
	var done []string
	named := func(name string) func(context.Context, engine.Design) (engine.Result, error) {
		return func(ctx context.Context, d engine.Design) (engine.Result, error) {
			done = append(done, name) // the worker's only, read once it is idle
			return rest(ctx, d)
		}
	}
	b.session.compute, b.session.quick = named("rest"), named("quick")
	h := b.handAt(600, 300)
	h.drag(20, 0)
	b.settle()
	if !slices.Equal(done, []string{"quick"}) {
		t.Errorf("a step of a drag was computed by %q; want quick", done)
	}
	h.drop()
	if now := b.session.Now(); !slices.Equal(done, []string{"quick", "rest"}) || now.Stale {
		t.Errorf("after letting go computed by %q, stale %v; want quick, rest and the result there", done, now.Stale)
	}
	b.session.Drop() // nothing is held
	b.session.Edit("length", "", func(d *engine.Design) { d.Length = 1600 })
	b.settle()
	if !slices.Equal(done, []string{"quick", "rest", "rest"}) {
		t.Errorf("an edit after the drag makes it %q; want one more rest", done)
	}
}

func TestDragKeepsLoadsOnThePanel(t *testing.T) {
	b := loadBench(t)
	h := b.handAt(600, 300)
	h.drag(5000, 5000)
	h.drop()
	if l := b.load(); l.X != 1400 || l.Y != 700 { // half of 200 and of 100 from the far edges
		t.Errorf("dragged far away the load stands at %v, %v; want 1400, 700", l.X, l.Y)
	}
	h = b.handAt(1400, 700)
	h.drag(-5000, -9000)
	h.drop()
	if l := b.load(); l.X != 100 || l.Y != 50 {
		t.Errorf("dragged far back the load stands at %v, %v; want 100, 50", l.X, l.Y)
	}
}

func TestDragInTheSection(t *testing.T) {
	b := loadBench(t)
	var mark draw.Point
	for _, m := range b.view.drawing.board.Figure().Marks {
		if m.Part == engine.LoadPart(0, 0) {
			mark = m.At
		}
	}
	if mark.Y >= 0 {
		t.Fatalf("the section's load is drawn at %v; want it below the plan", mark)
	}
	h := b.handAt(mark.X, mark.Y+2)
	h.drag(100, 60)
	h.drop()
	if l := b.load(); l.X != 700 || l.Y != 300 {
		t.Errorf("the load stands at %v, %v; want 700, 300", l.X, l.Y)
	}
}

func TestDragSnapsToFractions(t *testing.T) {
	b := loadBench(t)
	b.session.SetLengths(length.Format{Imperial: true, Denominator: 16})
	b.settle()
	h := b.handAt(600, 300)
	h.drag(33.3, 0)
	h.drop()
	l := b.load()
	sixteenths := l.X / 25.4 * 16
	// By hand: 633.3 mm are 398.93 sixteenths.
	if math.Abs(sixteenths-399) > 1e-9 || l.Y != 300 {
		t.Errorf("the load stands at %v sixteenths, y %v; want 399 and y left alone", sixteenths, l.Y)
	}
}

func TestEscapePutsALoadBack(t *testing.T) {
	b := loadBench(t)
	start := b.session.Now()
	h := b.handAt(600, 300)
	h.drag(77, 30)
	b.settle()
	if b.load().X != 677 {
		t.Fatalf("x = %v while dragging; want 677", b.load().X)
	}
	b.view.drawing.board.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	b.settle()
	h.drag(50, 50)
	h.drop()
	now := b.session.Now()
	if !reflect.DeepEqual(now.Design, start.Design) || now.UndoLabel != "" || now.Dirty {
		t.Errorf("after Escape: x %v, undo %q, dirty %v; want nothing changed", b.load().X, now.UndoLabel, now.Dirty)
	}
	if got := b.drawnLoad(); got != (draw.Point{X: 600, Y: 300}) {
		t.Errorf("drawn at %v; want 600, 300", got)
	}
}

func TestDragSupports(t *testing.T) {
	for _, tc := range []struct {
		name              string
		kind              engine.SupportKind
		x, y, dx, dy      float64
		wantEnd, wantSide float64
	}{
		{"left rail", engine.RailsAcross, 200, 600, 50, 50, 250, 100},
		{"right rail", engine.RailsAcross, 1300, 600, 50, 50, 150, 100},
		{"right rail inwards", engine.RailsAcross, 1300, 600, -50, 0, 250, 100},
		{"front rail", engine.RailsAlong, 1200, 100, 50, 25, 200, 125},
		{"back rail", engine.RailsAlong, 1200, 650, 50, 25, 200, 75},
		{"front left leg", engine.FourLegs, 200, 100, 30, 20, 230, 120},
		{"back left leg", engine.FourLegs, 200, 650, 30, 20, 230, 80},
		{"back right leg", engine.FourLegs, 1300, 650, 30, 20, 170, 80},
		{"front right leg", engine.FourLegs, 1300, 100, 30, 20, 170, 120},
		{"flush at the corner", engine.FourLegs, 200, 100, -500, -500, 30, 30},
		{"together in the middle", engine.FourLegs, 200, 100, 3000, 3000, 719.5, 344.5}, // 1 mm apart
	} {
		t.Run(tc.name, func(t *testing.T) {
			b := loadBench(t)
			b.session.Edit("supports", "", func(d *engine.Design) { d.Supports.Kind = tc.kind })
			b.settle()
			h := b.handAt(tc.x, tc.y)
			h.drag(tc.dx/2, tc.dy/2)
			h.drag(tc.dx/2, tc.dy/2)
			h.drop()
			if s := b.supports(); s.EndInset != tc.wantEnd || s.SideInset != tc.wantSide {
				t.Errorf("insets %v and %v; want %v and %v", s.EndInset, s.SideInset, tc.wantEnd, tc.wantSide)
			}
			if got := b.session.Now(); got.UndoLabel != "move supports" || got.Result.Blocked() {
				t.Errorf("undo %q, problems %v; want move supports and a valid design", got.UndoLabel, got.Result.Problems)
			}
		})
	}
}

// A picked load or support opens its own fields in the form.
func TestPickingOpensTheFields(t *testing.T) {
	b := loadBench(t)
	for _, tc := range []struct {
		part, group, field string
		kind               engine.SupportKind
	}{
		{engine.LoadPart(0, 0), "Loads", "cases[0].loads[0].x", engine.FourLegs},
		{engine.SupportPart, "Supports", "supports.endInset", engine.FourLegs},
		{engine.SupportPart, "Supports", "supports.endInset", engine.RailsAcross},
		{engine.SupportPart, "Supports", "supports.sideInset", engine.RailsAlong},
		{engine.SupportPart, "Supports", "supports.kind", engine.AllEdges},
	} {
		b.session.Select("")
		b.session.Edit("supports", "", func(d *engine.Design) { d.Supports.Kind = tc.kind })
		b.settle()
		for _, g := range b.view.form.groups {
			g.fold.SetOpen(false)
		}
		b.session.Select(tc.part)
		for _, g := range b.view.form.groups {
			if g.fold.Open() != (g.name == tc.group) {
				t.Errorf("%s picked: the group %s is open: %v", tc.part, g.name, g.fold.Open())
			}
		}
		if got := partField(b.session.Now().Design, tc.part); got != tc.field {
			t.Errorf("%s of %s opens %q; want %q", tc.part, tc.kind, got, tc.field)
		}
	}
}

// The ledges along all edges do not lie over the ribs.
func TestRibsCanBePickedOverLedges(t *testing.T) {
	b := loadBench(t)
	b.session.Edit("supports", "", func(d *engine.Design) { d.Supports.Kind = engine.AllEdges })
	b.settle()
	var place engine.Box
	for _, p := range b.session.Now().Result.Parts {
		if p.ID == "L1" {
			place = p.Place
		}
	}
	h := b.handAt((place.X0+place.X1)/2+40, (place.Y0+place.Y1)/2)
	b.view.drawing.board.Tapped(&fyne.PointEvent{Position: h.at})
	if got := b.session.Focus().Part; got == engine.SupportPart || got == "" {
		t.Errorf("a tap on a rib picks %q", got)
	}
}

// Ledges along all edges have no place to be dragged to, nor has a load that
// lies all over: the drag pans.
func TestWhatCannotBeDraggedPans(t *testing.T) {
	b := loadBench(t)
	b.session.Edit("supports", "", func(d *engine.Design) {
		d.Supports.Kind = engine.AllEdges
		d.Cases[0].Loads[0].Kind = engine.Uniform
	})
	b.settle()
	before := b.session.Now()
	view := b.view.drawing.board.View()
	h := b.handAt(900, 300)
	h.drag(50, 50)
	h.drop()
	if now := b.session.Now(); now.Revision != before.Revision || b.view.drawing.board.View() == view {
		t.Errorf("revision %d after %d, view moved: %v; want only the view to move", now.Revision, before.Revision, b.view.drawing.board.View() != view)
	}
}

func TestArrowsMoveALoad(t *testing.T) {
	b := loadBench(t)
	start := b.load()
	clock := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	b.session.clock = func() time.Time { return clock }
	b.session.Select(engine.LoadPart(0, 0))
	board := b.view.drawing.board
	b.desk.win.Canvas().Focus(board)
	for _, key := range []fyne.KeyName{fyne.KeyRight, fyne.KeyRight, fyne.KeyRight, fyne.KeyLeft, fyne.KeyUp} {
		board.TypedKey(&fyne.KeyEvent{Name: key})
	}
	if got := b.drawnLoad(); got != (draw.Point{X: 602, Y: 301}) {
		t.Errorf("drawn at %v before the result is there; want 602, 301", got)
	}
	b.settle()
	if l := b.load(); l.X != 602 || l.Y != 301 {
		t.Errorf("the load stands at %v, %v; want 602, 301", l.X, l.Y)
	}
	board.OnNudge(engine.LoadPart(0, 0), 0, -1, true)
	if l := b.load(); l.Y != 300 {
		t.Errorf("a coarse step down from 301 leads to %v; want 300", l.Y)
	}
	clock = clock.Add(time.Minute)
	board.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	b.session.Undo()
	if l := b.load(); l.X != 602 || l.Y != 300 {
		t.Errorf("undo of the last arrow leads to %v, %v; want 602, 300", l.X, l.Y)
	}
	b.session.Undo()
	b.settle()
	if got := b.load(); got != start || b.session.Now().UndoLabel != "" {
		t.Errorf("the arrows before undo to %+v; want %+v in one step", got, start)
	}
}

func TestArrowsMoveSupports(t *testing.T) {
	b := loadBench(t)
	board := b.view.drawing.board
	b.session.Select(engine.SupportPart)
	for _, key := range []fyne.KeyName{fyne.KeyRight, fyne.KeyRight, fyne.KeyDown} {
		board.TypedKey(&fyne.KeyEvent{Name: key})
	}
	b.settle()
	if s := b.supports(); s.EndInset != 202 || s.SideInset != 99 {
		t.Errorf("insets %v and %v; want 202 and 99", s.EndInset, s.SideInset)
	}
}

// Dragging does not run ahead of other changes: what is drawn is always one
// design, never loads of one on the panel of another.
func TestDrawingIsOfOneDesign(t *testing.T) {
	b := loadBench(t)
	h := b.handAt(600, 300)
	h.drag(20, 0)
	b.session.Edit("length", "length", func(d *engine.Design) { d.Length = 2000 })
	h.drag(20, 0)
	if got := b.drawnLoad().X; got != 600 {
		t.Errorf("drawn at %v on the old panel; want 600, where it was computed", got)
	}
	h.drop()
	if now := b.session.Now(); now.Design.Length != 2000 || b.drawnLoad().X != 640 {
		t.Errorf("length %v, drawn at %v; want 2000 and 640", now.Design.Length, b.drawnLoad().X)
	}
}

// What is typed shows at once too, and nothing that cannot stand there.
func TestTypedPlacesShowAtOnce(t *testing.T) {
	b := loadBench(t)
	move := func(x float64) {
		b.session.Edit("load position", "", func(d *engine.Design) { d.Cases[0].Loads[0].X = x })
	}
	move(700)
	if got := b.drawnLoad().X; got != 700 {
		t.Errorf("drawn at %v before the result is there; want 700", got)
	}
	b.session.Undo()
	if got := b.drawnLoad().X; got != 600 {
		t.Errorf("drawn at %v after undo; want 600", got)
	}
	for _, x := range []float64{1e9, math.NaN(), -50} {
		move(x)
		if got := b.drawnLoad().X; got != 600 {
			t.Errorf("with %v typed drawn at %v; want it left at 600", x, got)
		}
		b.settle()
		if got := b.drawnLoad().X; got != 600 {
			t.Errorf("with %v computed drawn at %v; want it left at 600", x, got)
		}
	}
}

// A load that is added or removed waits for its result: the figures of the
// cases and the loads drawn must belong together.
func TestAddedLoadsWaitForTheirResult(t *testing.T) {
	b := loadBench(t)
	b.session.Edit("load", "", func(d *engine.Design) { d.Cases[0].Loads = append(d.Cases[0].Loads, nextLoad(*d, d.Cases[0])) })
	if got := len(b.drawnLoads()); got != 1 {
		t.Errorf("%d loads drawn before the result is there; want 1", got)
	}
	b.settle()
	if got := len(b.drawnLoads()); got != 2 {
		t.Errorf("%d loads drawn; want 2", got)
	}
}

// A place that is pointed out belongs to loads that have moved away since.
func TestAPlaceGoesWithTheLoadsMoved(t *testing.T) {
	b := loadBench(t)
	b.session.compute = quick // with a sag map
	b.session.Edit("name", "", func(d *engine.Design) { d.Name = "mapped" })
	b.settle()
	b.session.PointOut(engine.Spot{X: 300, Y: 200, Part: "top", Text: "here"})
	if b.spots() == 0 {
		t.Fatal("the place is not marked")
	}
	old := func() (says bool) {
		for _, n := range b.view.drawing.board.Figure().Notes {
			says = says || strings.Contains(n.Text, "before the last move")
		}
		return says
	}
	if old() {
		t.Error("without a move the drawing speaks of one")
	}
	b.session.Edit("load position", "", func(d *engine.Design) { d.Cases[0].Loads[0].X = 700 })
	if got := b.spots(); got != 0 || !old() {
		t.Errorf("%d marks beside a load that has moved, the map says that it is old: %v; want none, and true", got, old())
	}
	if b.settle(); old() {
		t.Error("the map is still called old with its result there")
	}
}

// caseBench has a second, lighter load case.
func caseBench(t *testing.T) *bench {
	t.Helper()
	b := loadBench(t)
	b.session.Edit("load case", "", func(d *engine.Design) {
		d.Cases = append(d.Cases, engine.LoadCase{Name: "Storing", Duration: engine.LongTerm, Loads: []engine.Load{
			{Name: "box", Kind: engine.Patch, Force: 50, X: 300, Y: 200, SizeX: 100, SizeY: 100},
		}})
	})
	b.settle()
	return b
}

// drawnLoads are the parts of the loads drawn.
func (b *bench) drawnLoads() []string {
	var parts []string
	for _, m := range b.view.drawing.board.Figure().Marks {
		if _, _, ok := engine.LoadOfPart(m.Part); ok {
			parts = append(parts, m.Part)
		}
	}
	return parts
}

func TestCaseShown(t *testing.T) {
	b := caseBench(t)
	line := b.view.drawing.shown
	want := func(parts []string, text string) {
		t.Helper()
		if got := b.drawnLoads(); !slices.Equal(got, parts) || line.text.Text() != text {
			t.Errorf("drawn %q under %q; want %q under %q", got, line.text.Text(), parts, text)
		}
	}
	const first = "Load case 1 of 2: Planing; it governs. Press here for the next one."
	want([]string{"load 0.0"}, first)
	test.Tap(line.press)
	want([]string{"load 1.0"}, "Load case 2 of 2: Storing. Press here for the next one.")
	test.Tap(line.press)
	want([]string{"load 0.0"}, first)
	if got := b.session.Focus().Case; got != -1 {
		t.Errorf("case %d is picked; want the governing one, whichever it is", got)
	}
	sag := b.view.results.cards[1].list
	for i, block := range sag.blocks {
		if block.text == "Storing" {
			test.Tap(sag.views[i].canvasObject().(*widgets.Pressable))
		}
	}
	want([]string{"load 1.0"}, "Load case 2 of 2: Storing. Press here for the next one.")
	b.session.ShowField("cases[0].loads[0].force")
	want([]string{"load 0.0"}, "Load case 1 of 2: Planing; it governs. Press here for the next one.")
	if got := b.session.Focus().Case; got != 0 {
		t.Errorf("case %d is picked while one of the first's fields has the keyboard; want 0", got)
	}
	b.session.Select("load 1.0")
	want([]string{"load 1.0"}, "Load case 2 of 2: Storing. Press here for the next one.")
	b.session.Edit("removed load case", "", func(d *engine.Design) { d.Cases = d.Cases[:1] })
	b.settle()
	want([]string{"load 0.0"}, "")
	if line.content.Visible() {
		t.Error("the line stays with nothing to say")
	}
}
