package app

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"flatwright/engine"
	"flatwright/engine/proof"
)

// proveAct is the act Prove brought to the fore by its key.
func (b *bench) proveAct() *proveView {
	b.Helper()
	b.choose("Go", "Prove")
	b.settle()
	return b.view.prove
}

// small is a top whose whole panel takes little time.
func small(d *engine.Design) {
	d.Length, d.Width = 1200, 500
	d.Lengthwise.Count, d.Crosswise.Count = 3, 4
	d.Lengthwise.Positions, d.Crosswise.Positions = nil, nil
	d.Blocks, d.Seams, d.Holes, d.Grooves, d.Splices = nil, nil, nil, nil, nil
	d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 60, Bearing: 40}
	d.Cases = []engine.LoadCase{{Name: "Work", Duration: engine.ShortTerm, Loads: []engine.Load{{Name: "work", Kind: engine.Patch, Force: 2500, X: 600, Y: 250, SizeX: 400, SizeY: 300}}}}
}

// A proof load by the keyboard alone: planned, read stage by stage, stopped.
func TestProveByKeyboard(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.session.Edit("small top", "", small)
	b.settle()
	now := time.Date(2026, 5, 4, 10, 0, 0, 0, time.UTC)
	b.session.clock = func() time.Time { return now }
	v := b.proveAct()
	if !strings.Contains(v.said.Text(), "Plan a proof load") {
		t.Fatalf("before anything it says %q", v.said.Text())
	}
	b.pressByKeyboard("Plan a proof load")
	b.settle()
	if !v.planned || v.plan.Refused != "" {
		t.Fatalf("planned %v, %q, %q", v.planned, v.plan.Refused, v.said.Text())
	}
	b.session.Edit("dial", "", func(d *engine.Design) { d.Proof.Way = "dial" })
	b.settle()
	stages := v.plan.Rounds[0].Stages
	b.session.ShowField("proof.rounds")
	b.settle()
	for k := range 3 {
		b.pressByKeyboard("Read round 1: " + stages[k].Name)
		b.settle()
		if v.form.focusedLine() == nil || v.form.focusedLine().path != path("proof.rounds[0].readings[%d].read", k) {
			t.Fatal("the cursor is not where the reading is typed")
		}
		b.typeInto(path("proof.rounds[0].readings[%d].read", k), plainNumber(2+1.05*stages[k].Expected))
	}
	got := b.session.Now().Design.Proof.Rounds[0].Readings
	if len(got) != 3 || got[2].At != "2026-05-04T10:00" {
		t.Fatalf("readings %+v", got)
	}
	r := v.result.Rounds[0]
	if !r.Fit || v.result.Call != proof.GoOn || v.stop.Visible() || len(v.board.Figure().Marks) != 3 {
		t.Errorf("after two sound stages: fit %v, call %d, %d dots", r.Fit, v.result.Call, len(v.board.Figure().Marks))
	}
	// A stage that sags six times as much: STOP in large letters, and why.
	now = now.Add(time.Minute) // a step of its own for Undo
	b.typeInto("proof.rounds[0].readings[2].read", plainNumber(2+6*stages[2].Expected))
	if !v.stop.Visible() || !strings.Contains(v.stop.Text(), "STOP") || !strings.Contains(v.why.Text(), "Take the load off") {
		t.Errorf("it says %q, %q", v.stop.Text(), v.why.Text())
	}
	b.session.Undo()
	b.settle()
	if v.stop.Visible() {
		t.Error("the STOP outlives what it was about")
	}
}

// Everything is re-rated on a button, and the rating goes when a reading changes.
func TestProveRatesAnew(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.session.Edit("small top", "", func(d *engine.Design) {
		small(d)
		d.Proof = engine.NewProof(*d)
		d.Proof.Way = "dial"
	})
	b.settle()
	v := b.proveAct()
	b.session.Edit("readings", "", func(d *engine.Design) {
		for k, s := range v.plan.Rounds[0].Stages {
			d.Proof.Rounds[0].Readings = append(d.Proof.Rounds[0].Readings, engine.ProofReading{Stage: k, Read: 2 + 1.15*s.Expected})
		}
	})
	b.settle()
	v.rate()
	b.settle()
	if len(v.ratingsOf(b.session.Now())) == 0 {
		t.Fatal("nothing is rated anew")
	}
	text := ""
	for _, c := range v.proveCards(b.session.Now()) {
		text += c.title + "\n"
		for _, q := range c.blocks {
			text += q.text + " " + q.value + " " + q.note + "\n"
		}
	}
	for _, want := range []string{"stage by stage", "stiffness at the gauge", "Margins as proved", "lowest margin, were it the", "Nobody under it", "Before you load it"} {
		if !strings.Contains(text, want) {
			t.Errorf("the cards do not say %q:\n%s", want, text)
		}
	}
	b.session.Edit("reading", "", func(d *engine.Design) { d.Proof.Rounds[0].Readings[3].Read += 0.01 })
	b.settle()
	if len(v.ratingsOf(b.session.Now())) != 0 {
		t.Error("a rating of other readings shows")
	}
	v.rate()
	b.session.Edit("load", "", func(d *engine.Design) { d.Cases[0].Loads[0].Force *= 1.1 })
	b.settle()
	if len(v.ratingsOf(b.session.Now())) != 0 {
		t.Error("a rating of another design shows")
	}
}

// The centre turns to where the stack stands, and a top without a service load says so.
func TestProvePicturesAndRefusal(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.session.Edit("small top", "", func(d *engine.Design) {
		small(d)
		d.Proof = engine.NewProof(*d)
	})
	b.settle()
	v := b.proveAct()
	if !strings.Contains(v.which.text.Text(), "The readings of round 1. Press here for where the stack") {
		t.Errorf("the centre says %q", v.which.text.Text())
	}
	v.shown++
	v.show(b.session.Now())
	stack := false
	for _, a := range v.board.Figure().Areas {
		stack = stack || a.Part == "stack"
	}
	if !stack {
		t.Error("the stack is not drawn")
	}
	b.session.Edit("no load", "", func(d *engine.Design) { d.Cases = nil })
	b.settle()
	if v.planned && v.plan.Refused == "" || !strings.Contains(v.said.Text(), "no load case") {
		t.Errorf("without a load it says %q", v.said.Text())
	}
	b.desk.win.Resize(fyne.NewSize(1024, 640))
	if got := test.WidgetRenderer(v.board).MinSize(); got.Width > 1024 {
		t.Errorf("the board asks for %v", got)
	}
}
