package app

import (
	"testing"

	"flatwright/engine"
)

// Fields for screws come with a top that is fastened, take what is typed, and go with it.
func TestScrewsInTheForm(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	now := func() engine.Screws { return r.session.Now().Design.Supports.Screws }
	r.session.Edit("", "", func(d *engine.Design) { d.Supports.Fastened = true })
	r.typeInto(t, "supports.screws.number", "4")
	r.typeInto(t, "supports.screws.diameter", "5 mm")
	r.typeInto(t, "supports.screws.depth", "30")
	r.typeInto(t, "supports.screws.washer", "24")
	r.leave()
	if got := now(); got != (engine.Screws{Number: 4, Diameter: 5, Depth: 30, Washer: 24}) {
		t.Errorf("typed %+v", got)
	}
	r.explanationsFit(t)
	if p := engine.Validate(r.session.Now().Design, r.session.Now().Design.Material, engine.Catalogue().Glue); (engine.Result{Problems: p}).Blocked() {
		t.Errorf("told screws block: %+v", p)
	}
}

// A pull on a block asks for them too.
func TestScrewsOfAPullInTheForm(t *testing.T) {
	d := engine.Demo()
	d.Blocks = []engine.Block{{Material: "white-oak", Column: 1, Row: 1}}
	d.Cases[0].Loads = []engine.Load{{Name: "vise", Kind: engine.Couple, Force: 100, Arm: 100, Pull: engine.PullRight, Column: 1, Row: 1}}
	r := newFormRig(t, d)
	r.typeInto(t, "cases[0].loads[0].screws.number", "3")
	r.typeInto(t, "cases[0].loads[0].screws.diameter", "8")
	r.typeInto(t, "cases[0].loads[0].screws.depth", "60")
	r.leave()
	if got := r.session.Now().Design.Cases[0].Loads[0].Screws; got != (engine.Screws{Number: 3, Diameter: 8, Depth: 60}) {
		t.Errorf("typed %+v", got)
	}
	r.explanationsFit(t)
}
