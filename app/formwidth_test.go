package app

import (
	"testing"

	"flatwright/engine"
)

// Nothing in a form is wider than the form at its narrowest: one line that is
// pushes the right ends of all others out of sight.
func TestNoFormOutgrowsItsPane(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.session.Edit("all sorts", "", func(d *engine.Design) {
		d.Supports = engine.Supports{Kind: engine.OwnFeet, Bearing: 60, Feet: []engine.Foot{{X: 100, Y: 100}, {X: 1700, Y: 100}, {X: 900, Y: 650}}}
		d.Built = []engine.Built{{Kind: engine.RibUnglued, Part: "L2", To: d.Length}}
	})
	b.settle()
	b.glueAct()
	b.pressByKeyboard("Survey the bed by straightedge")
	b.settle()
	b.proveAct()
	b.pressByKeyboard("Plan a proof load")
	b.settle()
	b.session.Edit("read", "", func(d *engine.Design) {
		d.Proof.Rounds[0].Readings = []engine.ProofReading{{}, {Stage: 1, Read: 0.1}}
	})
	b.settle()
	for _, a := range b.view.acts.acts {
		b.choose("Go", a.name)
		b.settle()
		const room = formWidth - 2*8 - 14 - 2*4 // less the form's and the group's sides and the bar
		for _, g := range a.form.groups {
			g.fold.SetOpen(true)
			a.form.showGroup(g)
			for _, l := range g.lines {
				if wants := l.object.MinSize().Width; wants > room {
					t.Errorf("%s, %s: the line %q, %q, is %v wide; there is room for %v", a.name, g.name, l.path, l.help, wants, room)
				}
			}
		}
	}
}
