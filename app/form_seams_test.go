package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"flatwright/engine"
	"flatwright/engine/length"
)

// press taps the button of that label.
func (r *formRig) press(t *testing.T, group, label string) {
	t.Helper()
	for _, g := range r.form.groups {
		if g.name != group {
			continue
		}
		g.fold.SetOpen(true)
		r.form.showGroup(g)
		for _, l := range g.lines {
			if e, ok := l.object.(*explained); ok {
				if b, ok := e.content.(*formButton); ok && b.Text == label {
					b.OnTapped()
					return
				}
			}
		}
	}
	t.Fatalf("there is no button %q in %s", label, group)
}

// explanationsFit fails where a field's explanation needs more room than there
// is.
func (r *formRig) explanationsFit(t *testing.T) {
	t.Helper()
	for _, g := range r.form.groups {
		g.fold.SetOpen(true)
		r.form.showGroup(g)
		for _, l := range g.lines {
			r.form.explain(l.help)
			r.form.help.Resize(fyne.NewSize(formWidth-24, helpHeight))
			if got := r.form.help.MinSize().Height; got > helpHeight-4 {
				t.Errorf("%s: its explanation is %v high: %q", l.path, got, l.help)
			}
		}
	}
}

func TestSeamsInTheForm(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	r.press(t, "Skins", "Add a seam")
	r.press(t, "Skins", "Add a seam")
	d := r.session.Now().Design
	if len(d.Seams) != 2 || d.Seams[0].Skin != engine.BottomSeam || d.Seams[0].At == d.Seams[1].At {
		t.Fatalf("two seams added: %+v", d.Seams)
	}
	if res := engine.Validate(d, d.Material, engine.Catalogue().Glue); (engine.Result{Problems: res}).Blocked() {
		t.Errorf("an added seam blocks: %+v", res)
	}
	r.typeInto(t, "seams[1].at", "60 cm")
	if got := r.session.Now().Design.Seams[1].At; got != 600 {
		t.Errorf("the second seam lies at %v; want 600", got)
	}
	r.session.Select(engine.SeamPart(0))
	if l := r.line(t, partField(r.session.Now().Design, "seam 1")); l.path != "seams[0].at" {
		t.Errorf("a picked seam opens %s", l.path)
	}
	r.explanationsFit(t)
	r.press(t, "Skins", "Remove seam 1")
	if s := r.session.Now().Design.Seams; len(s) != 1 || s[0].At != 600 {
		t.Errorf("after removing the first: %+v", s)
	}
	snap := r.session.Now()
	snap.Lengths = length.Format{}
	if got := partText(snap, "seam 1"); !strings.HasPrefix(got, "Seam 1: bottom skin, 600 mm from the left end") {
		t.Errorf("the picked seam is called %q", got)
	}
}

func TestBedAndLapsInTheForm(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	r.typeInto(t, "supports.bed", "0.5")
	if got := r.session.Now().Design.Supports.Bed; got != 0.5 {
		t.Errorf("bed = %v; want 0.5", got)
	}
	l := r.line(t, "slots.glued")
	l.focus()
	box, ok := r.win.Canvas().Focused().(*choiceBox)
	if !ok {
		t.Fatal("the laps are no choice")
	}
	box.SetSelected("glued tight, as whole wood")
	if !r.session.Now().Design.Slots.Glued {
		t.Error("choosing glued laps leaves them open")
	}
}
