package app

import (
	"testing"

	"flatwright/engine"
)

// choose picks an option of a choice as a hand does.
func (r *formRig) choose(t *testing.T, path, label string) {
	t.Helper()
	r.line(t, path).focus()
	box, ok := r.win.Canvas().Focused().(*choiceBox)
	if !ok {
		t.Fatalf("%s is no choice", path)
	}
	box.SetSelected(label)
}

func TestMarksInTheForm(t *testing.T) {
	d := engine.Demo()
	d.Seams = []engine.Seam{{Skin: engine.TopSeam, At: d.Length / 2, Spliced: true}}
	r := newFormRig(t, d)
	now := func() engine.Design { return r.session.Now().Design }
	takes := func(what string) {
		t.Helper()
		for _, p := range engine.Validate(now(), now().Material, engine.Catalogue().Glue) {
			if p.Severity == engine.Blocking {
				t.Errorf("%s blocks: %s", what, p.Text)
			}
		}
	}
	r.press(t, "As built", "Mark something")
	if b := now().Built; len(b) != 1 || b[0].Kind != engine.RibUnglued || b[0].Part != "L1" {
		t.Fatalf("marked: %+v", b)
	}
	takes("a fresh mark")
	r.typeInto(t, "built[0].from", "30 cm")
	if got := now().Built[0].From; got != 300 {
		t.Errorf("from %v; want 300", got)
	}
	r.choose(t, "built[0].part", "C2, crosswise")
	if b := now().Built[0]; b.Part != "C2" || b.To > d.Width {
		t.Errorf("the mark moved to a crosswise rib: %+v", b)
	}
	takes("a mark on a crosswise rib")
	r.explanationsFit(t)
	r.choose(t, "built[0].side", "top skin")
	if got := now().Built[0].Side; got != engine.TopSeam {
		t.Errorf("not glued to %q; want the top skin", got)
	}
	r.choose(t, "built[0].side", "both skins")
	if got := now().Built[0].Side; got != "" {
		t.Errorf("not glued to %q; want neither skin", got)
	}
	r.choose(t, "built[0].kind", "a rib is slotted in the wrong edge")
	takes("slots in the wrong edge")
	r.typeInto(t, "built[0].to", "50 cm")
	if b := now().Built[0]; b != (engine.Built{Kind: engine.WrongEdge, Part: "L1", To: 500}) {
		t.Errorf("slots in the wrong edge: %+v", b)
	}
	r.explanationsFit(t)
	r.choose(t, "built[0].kind", "a skin slid")
	takes("a skin that slid")
	r.choose(t, "built[0].part", "bottom skin")
	r.typeInto(t, "built[0].x", "-4")
	r.typeInto(t, "built[0].y", "2.5")
	if b := now().Built[0]; b != (engine.Built{Kind: engine.SkinSlid, Part: engine.BottomSeam, X: -4, Y: 2.5}) {
		t.Errorf("a skin that slid: %+v", b)
	}
	r.explanationsFit(t)
	r.choose(t, "built[0].kind", "slots of a rib are deeper")
	takes("a deeper slot")
	r.typeInto(t, "built[0].value", "5.5 cm")
	if b := now().Built[0]; b.Kind != engine.SlotDeeper || b.Value != 55 || b.From != 0 {
		t.Errorf("a deeper slot: %+v", b)
	}
	r.choose(t, "built[0].kind", "a seam is not spliced")
	if b := now().Built[0]; b != (engine.Built{Kind: engine.SeamOpen, Part: "seam 1"}) {
		t.Errorf("an open seam: %+v", b)
	}
	takes("an open seam")
	r.choose(t, "built[0].kind", "a sheet is thinner or thicker")
	if b := now().Built[0]; b.Part != engine.TopSeam || !(b.Value < d.TopSkin.Thickness) {
		t.Errorf("a thinner sheet: %+v", b)
	}
	r.choose(t, "built[0].part", "lengthwise ribs")
	r.typeInto(t, "built[0].value", "11 mm")
	if b := now().Built[0]; b.Part != string(engine.LengthwisePart) || b.Value != 11 {
		t.Errorf("thinner ribs: %+v", b)
	}
	takes("a thinner sheet")
	r.explanationsFit(t)
	r.choose(t, "built[0].kind", "a seam is not spliced")
	r.explanationsFit(t)
	if got := r.form.content.MinSize().Width; got > 300 {
		t.Errorf("the form needs %v; want at most 300", got)
	}
	r.press(t, "As built", "Remove mark 1")
	if b := now().Built; len(b) != 0 {
		t.Errorf("removed: %+v", b)
	}
}
