package app

import (
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"flatwright/engine"
)

// cutAct is the second act of a bench, brought to the fore by the menu.
func (b *bench) cutAct() *act {
	b.choose("Go", "Cut")
	if got := b.view.acts.shown().name; got != "Cut" {
		b.Fatalf("Go > Cut shows %s", got)
	}
	return b.view.acts.shown()
}

func TestPartsAreLaidOutOnceSomebodyLooks(t *testing.T) {
	b := openBench(t, t.TempDir())
	if b.session.Now().Cut.Found {
		t.Error("the parts are laid out though nobody looks")
	}
	a := b.cutAct()
	first := b.session.Now().Cut
	if !first.Found || first.Running {
		t.Fatalf("found %v, running %v; want a layout at rest", first.Found, first.Running)
	}
	parts := map[string]bool{}
	for _, area := range a.board().Figure().Areas {
		parts[area.Part] = true
	}
	for _, p := range b.session.Now().Result.Parts {
		if !parts[p.ID] {
			t.Errorf("%s is not drawn on a sheet", p.ID)
		}
	}
	b.session.Edit("load", "", func(d *engine.Design) { d.Cases[0].Loads[0].Force *= 1.1 })
	b.settle()
	if got := b.session.cut.search; got != 1 {
		t.Errorf("%d searches after another load; want the first one's answer kept", got)
	}
	b.typeInto("cutting.kerf", "5")
	if got := b.session.cut.search; got != 2 || !b.session.Now().Cut.Found {
		t.Errorf("%d searches after another saw cut; want 2", got)
	}
	if d := b.session.Now().Design; d.Cutting.Kerf != 5 {
		t.Errorf("the saw cut is %g", d.Cutting.Kerf)
	}
}

// What is pointed at on a sheet lights up in the plan, and the reverse.
func TestSheetsAndPlanShareTheFocus(t *testing.T) {
	b := openBench(t, t.TempDir())
	a := b.cutAct()
	a.board().OnHover("C3")
	if got := b.session.Focus().Hover; got != "C3" {
		t.Errorf("pointed at C3 on a sheet; the focus is on %q", got)
	}
	b.session.Select("L2")
	if got := a.board().Selected(); got != "L2" {
		t.Errorf("picked L2; the sheet marks %q", got)
	}
	b.choose("Go", "Design")
	if board := b.view.drawing.board; board.Hovered() != "C3" || board.Selected() != "L2" {
		t.Errorf("back in the plan %q is lit and %q marked", board.Hovered(), board.Selected())
	}
}

// A field brings its act to the fore, and figures theirs.
func TestFieldsBringTheirActToTheFore(t *testing.T) {
	b := openBench(t, t.TempDir())
	for _, tc := range []struct{ field, act string }{{"cutting.trim", "Cut"}, {"coreDepth", "Design"}, {"tools.rail.blade", "Cut"}, {"slots.clearance", "Design"}, {"slots.way", "Cut"}, {"ribsMeasured", "Cut"}} {
		b.session.ShowField(tc.field)
		if got := b.view.acts.shown().name; got != tc.act {
			t.Errorf("%s shows the act %s; want %s", tc.field, got, tc.act)
		}
		if b.desk.win.Canvas().Focused() == nil && tc.field != "tools.rail.blade" && tc.field != "ribsMeasured" {
			t.Errorf("%s does not get the keyboard", tc.field)
		}
	}
	b.cutAct()
	test.Tap(b.view.strip.tiles[0])
	if got := b.view.acts.shown().name; got != "Design" {
		t.Errorf("the sag's tile shows the act %s", got)
	}
}

func TestSearchCanBeStopped(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.session.mu.Lock()
	stopped := false
	b.session.cut = cutting{CutState: CutState{Running: true, Found: true, Done: 0.25}, wanted: true,
		input: b.session.steps[0].design.CutInput(), cancel: func() { stopped = true }}
	b.session.mu.Unlock()
	if text := searchText(b.session.Now()); !strings.Contains(text, "25 % done. Press here to stop") {
		t.Errorf("under way it says %q", text)
	}
	b.session.StopCut()
	b.session.mu.Lock()
	b.session.cut.Running = false
	b.session.mu.Unlock()
	if text := searchText(b.session.Now()); !stopped || !strings.Contains(text, "best layout found so far") {
		t.Errorf("stopped %v; it says %q", stopped, text)
	}
}

// The shop goes along into the next design, with what the last one leaves over.
func TestShopIsRemembered(t *testing.T) {
	dir := t.TempDir()
	b := openBench(t, dir)
	b.cutAct()
	b.typeInto("tools.rail.blade", "160")
	b.session.Edit("on hand", "", addOnHand)
	b.settle()
	if got := (store{dir}).settings().Shop; got.Tools.Rail.Blade != 160 || len(got.Stock) != 1 {
		t.Fatalf("remembered: %+v", got)
	}
	b.desk.keepLeftovers()
	shop := b.desk.shopFor(b.session.Now().Design)
	if len(shop.Stock) < 2 || !shop.Stock[len(shop.Stock)-1].Offcut {
		t.Errorf("after the leftovers were kept the shop has %+v", shop.Stock)
	}
	d := freshStart(b.session.Now().Design, shop, engine.Workbench, 1500, 600)
	if !reflect.DeepEqual(shopOf(d), shop) {
		t.Errorf("a fresh design has the shop %+v; want %+v", shopOf(d), shop)
	}
}

// Clamps and feelers go along into the next design; how the spreading was split, and the
// way of pressing picked for one design, do not.
func TestClampsAreRemembered(t *testing.T) {
	dir := t.TempDir()
	b := openBench(t, dir)
	b.session.Edit("clamps", "", func(d *engine.Design) {
		d.GlueUp.Clamps.Count, d.GlueUp.Tool, d.Leaves = 14, engine.Roller, []float64{0.1, 0.5}
		d.GlueUp.MoreClamps, d.GlueUp.MoreCauls = []engine.Clamps{{Count: 4, Reach: 300}}, []engine.CaulStock{{Count: 2, Height: 70}}
		d.GlueUp.Split, d.GlueUp.Press = engine.HalfGrid, engine.ByCauls
	})
	b.settle()
	d := freshStart(engine.Demo(), (store{dir}).settings().Shop, engine.Workbench, 1500, 600)
	want := engine.GlueUp{Tool: engine.Roller, Clamps: engine.Clamps{Count: 14}, MoreClamps: []engine.Clamps{{Count: 4, Reach: 300}}, MoreCauls: []engine.CaulStock{{Count: 2, Height: 70}}}
	if !reflect.DeepEqual(d.GlueUp, want) || !reflect.DeepEqual(d.Leaves, []float64{0.1, 0.5}) {
		t.Errorf("a fresh design has %+v and feelers %v; want %+v", d.GlueUp, d.Leaves, want)
	}
}

// Every group of the act can be opened and every field of it reached by Tab.
func TestCutActByKeyboard(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.desk.win.Resize(fyne.NewSize(1100, 700))
	b.session.Edit("on hand", "", addOnHand)
	b.settle()
	a := b.cutAct()
	for _, g := range a.form.groups {
		g.fold.SetOpen(true)
		a.form.showGroup(g)
	}
	b.session.ShowField("prices")
	reached := map[string]bool{}
	c := b.desk.win.Canvas()
	for range 200 {
		if c.Focused() == fyne.Focusable(a.board()) {
			break
		}
		for _, g := range a.form.groups {
			for _, l := range g.lines {
				if l.focused {
					reached[l.path] = true
				}
			}
		}
		c.FocusNext()
	}
	for _, want := range []string{"stock[0].length", "stock[0].onHand", "cutting.kerf", "cutting.free.top"} {
		if !reached[want] {
			t.Errorf("Tab does not reach %s; it reaches %v", want, reached)
		}
	}
}

func TestWordsOfTheSearch(t *testing.T) {
	for _, tc := range []struct {
		n, only int
		want    string
	}{{1, 0, ""}, {3, 0, "All 3 sheets. Press here for one at a time."}, {3, 2, "Sheet 2 of 3. Press here for the next one."}} {
		if got := whichText(tc.n, tc.only); got != tc.want {
			t.Errorf("whichText(%d, %d) = %q; want %q", tc.n, tc.only, got, tc.want)
		}
	}
}

// A plan is only printed with the design that it is of.
func TestPlanOfAnotherDesign(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.cutAct()
	if b.session.PlanOf(b.session.Now().Design) == nil {
		t.Error("there is no plan of the design that is looked at")
	}
	other := b.session.Now().Design.Clone()
	other.Length += 100
	if b.session.PlanOf(other) != nil {
		t.Error("a longer top has the plan of the shorter one")
	}
}

// A layout is never shown for another design: not for one that was opened, and
// not while there is nothing to compute.
func TestLayoutOfAnotherDesignIsDropped(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.cutAct()
	b.session.Edit("length", "", func(d *engine.Design) { d.Length = -1 })
	b.settle()
	if now := b.session.Now(); !now.Result.Blocked() || now.Cut.Found {
		t.Errorf("blocked %v, and a layout shows: %v", now.Result.Blocked(), now.Cut.Found)
	}
	b.session.Undo()
	b.settle()
	if now := b.session.Now(); !now.Cut.Found {
		t.Error("after an undo there is no layout")
	}
	other := engine.Demo()
	other.Length, other.Name = 1500, "other"
	b.session.Open(other, "")
	if now := b.session.Now(); now.Cut.Found {
		t.Error("the layout of the design before shows for the one just opened")
	}
	b.settle()
	if now := b.session.Now(); !now.Cut.Found || b.session.PlanOf(now.Design) == nil {
		t.Error("the design just opened is not laid out")
	}
}

// The session may tell its watchers at once: nothing is held meanwhile.
func TestSearchTellsWatchersAtOnce(t *testing.T) {
	s := NewSession(direct, engine.Estimate)
	s.WantCut(true)
	s.Open(engine.Demo(), "")
	waitIdle(t, s)
	if !s.Now().Cut.Found {
		t.Error("there is no layout")
	}
}

// Of a search that was stopped early there is no layout to print or to keep.
func TestStoppedBeforeAllIsLaidOut(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.cutAct()
	b.session.mu.Lock()
	stocks := append([]engine.StockCut(nil), b.session.cut.Plan.Stocks...)
	stocks[len(stocks)-1].Plan = b.session.cut.input.Stocks()[0].Plan
	b.session.cut.Plan.Stocks, b.session.cut.Stopped = stocks, true
	b.session.mu.Unlock()
	now := b.session.Now()
	if text := searchText(now); !strings.Contains(text, "before every part was laid out") {
		t.Errorf("it says %q", text)
	}
	if b.session.PlanOf(now.Design) != nil {
		t.Error("half a layout is given for one")
	}
}
