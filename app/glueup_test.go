package app

import (
	"strings"
	"testing"

	"flatwright/engine"
)

// clampsTab brings the plan of the glue-up to the fore by the keyboard.
func (b *bench) clampsTab() *glueAct {
	b.Helper()
	b.glueAct()
	v := b.view.glue
	b.tabByKey(v.side, 1)
	return v
}

// What the person has is typed; the cards cross out what cannot reach the pressure,
// with its number, and the drawing follows the way that is picked.
func TestGlueUpIsPlanned(t *testing.T) {
	b := openBench(t, t.TempDir())
	v := b.clampsTab()
	if v.bed.content.Visible() || !v.plan.content.Visible() {
		t.Error("the bed is still in front")
	}
	if v.board() != v.plan.board {
		t.Error("zooming is about the bed")
	}
	b.typeInto("glueUp.clamps.count", "2")
	b.typeInto("glueUp.weight", "40")
	now := b.session.Now()
	if g := now.Design.GlueUp; g.Clamps.Count != 2 || g.Weight != 40 {
		t.Fatalf("typed %+v", g)
	}
	text := cardTexts(glueUpCards(now))
	for _, want := range []string{"✗ Clamps on the rib lines", "2 clamps of", "✗ Dead weights on a board", "40 kg make", "# Open time", "# Glue to have ready", "together", "A wet skin slides", "▲ Crush"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	b.session.Edit("way of pressing", "", func(d *engine.Design) { d.GlueUp.Press = engine.ByVacuum })
	b.settle()
	now = b.session.Now()
	if got := len(v.plan.board.Figure().Marks); got != len(now.Result.GlueUp.Vents)+len(now.Result.GlueUp.Pins) {
		t.Errorf("%d marks under vacuum; want %d holes and two pins", got, len(now.Result.GlueUp.Vents))
	}
	b.session.Edit("split of the glue-up", "", func(d *engine.Design) { d.GlueUp.Split = engine.HalfGrid })
	b.settle()
	steps := b.session.Now().Result.Build.Steps
	if steps[2].Key != "spread-grid-1" {
		t.Errorf("third step is %s; want the first half of the grid", steps[2].Key)
	}
	if err := b.session.Now().Result.Blocked(); err {
		t.Errorf("blocked: %v", b.session.Now().Result.Problems)
	}
}

// Kinds of clamps and sizes of cauls are listed by the keyboard alone and all used; they
// come off again.
func TestKindsOfClampsAreListed(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.clampsTab()
	b.typeInto("glueUp.clamps.count", "60")
	b.pressByKeyboard("Another kind of clamp")
	b.typeInto("glueUp.moreClamps[0].count", "14")
	b.typeInto("glueUp.moreClamps[0].force", "600 kg")
	b.typeInto("glueUp.moreClamps[0].reach", "40 cm")
	b.pressByKeyboard("Another size of caul")
	b.typeInto("glueUp.moreCauls[0].height", "7 cm")
	now := b.session.Now()
	if g := now.Design.GlueUp; len(g.MoreClamps) != 1 || g.MoreClamps[0].Count != 14 || g.MoreClamps[0].Reach != 400 || len(g.MoreCauls) != 1 || g.MoreCauls[0].Height != 70 {
		t.Fatalf("typed %+v", g)
	}
	if text := cardTexts(glueUpCards(now)); !strings.Contains(text, " of 5\u2009880 N") {
		t.Errorf("the second kind is not said to be used:\n%s", text)
	}
	if got := pressSummary(now); !strings.HasPrefix(got, "74 clamps") {
		t.Errorf("summary %q; want 74 clamps", got)
	}
	b.pressByKeyboard("Remove kind 2")
	b.pressByKeyboard("Remove size 2")
	if g := b.session.Now().Design.GlueUp; len(g.MoreClamps)+len(g.MoreCauls) != 0 {
		t.Errorf("removed: %+v", g)
	}
}
