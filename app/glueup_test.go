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
