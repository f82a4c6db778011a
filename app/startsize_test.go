package app

import (
	"context"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine"
	"flatwright/engine/catalog"
	"flatwright/engine/length"
)

func TestMakeItMineTakesTheEnginesSuggestion(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	r.session.Edit("price", "", func(d *engine.Design) {
		d.Prices = []engine.Price{{Material: d.TopSkin.Material, Thickness: 9, Sheet: 80, Length: 2440, Width: 1220}}
	})
	before := r.session.Now().Design
	m := newMakeItMine(r.session, shopOf(r.session.Now().Design))
	m.long, m.wide, m.use = 2000, 700, engine.Workbench
	m.accept()
	got := r.session.Now().Design
	want := engine.Start(engine.Workbench, 2000, 700)
	if got.CoreDepth != want.CoreDepth || got.Cases[0].Name != want.Cases[0].Name || got.Limits != want.Limits || got.Length != 2000 {
		t.Errorf("the design is not the engine's suggestion: core %v, limits %v", got.CoreDepth, got.Limits)
	}
	got.Shop.Start = before.Shop.Start // that of a new top lies ahead
	if len(got.Prices) != 1 || got.Shop != before.Shop {
		t.Errorf("the person's own prices and shop are gone: %v, %v", got.Prices, got.Shop)
	}
	r.session.Undo()
	if back := r.session.Now().Design; back.Name != before.Name || back.Length != before.Length {
		t.Error("one Undo does not bring the old design back")
	}
}

// A build that was to start last week starts tomorrow at the same time of day, at
// the end of a month as well; what lies ahead or cannot be read stays.
func TestANewTopIsNotBegunLastWeek(t *testing.T) {
	now := time.Date(2026, 11, 30, 22, 0, 0, 0, time.Local)
	for _, tc := range [][2]string{
		{"2026-11-28T09:00", "2026-12-01T09:00"},
		{"2026-11-30T21:59", "2026-12-01T21:59"},
		{"2026-11-30T22:00", "2026-11-30T22:00"},
		{"2027-01-02T08:30", "2027-01-02T08:30"},
		{"", ""},
	} {
		if got := notPast(tc[0], now); got != tc[1] {
			t.Errorf("of %q it makes %q; want %q", tc[0], got, tc[1])
		}
	}
}

// A length that cannot be read is said where it is seen, and no top is made of it.
func TestMakeItMineWaitsForALength(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	r.win.Resize(fyne.NewSize(900, 700))
	showMakeItMine(r.win, r.session, shopOf(r.session.Now().Design))
	overlay := r.win.Canvas().Overlays().Top()
	accept := findButton(overlay, "Make this top")
	first := r.win.Canvas().Focused()
	test.Type(first, "15o0")
	if !accept.Disabled() {
		t.Error("a top can be made of 15o0")
	}
	r.win.Canvas().FocusNext()
	driver := fyne.CurrentApp().Driver()
	top := driver.AbsolutePositionForObject(first.(fyne.CanvasObject)).Y
	next := driver.AbsolutePositionForObject(r.win.Canvas().Focused().(fyne.CanvasObject)).Y
	if next-top < 42+15 { // a field and a line of small text
		t.Errorf("the next field begins %v below: no room for what is wrong", next-top)
	}
	r.win.Canvas().Focus(first)
	first.(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
	test.Type(first, "1500")
	if accept.Disabled() {
		t.Error("of 1500 no top can be made")
	}
}

func TestMakeItMineSaysWhatMatters(t *testing.T) {
	s := handMade()
	text := strings.Join(startSentences(s), " ")
	for _, want := range []string{"core 80 mm", "It weighs 20 kg and sags 0.31 mm under “Planing”, limit 0.25 mm.", "A core of ~90 mm would meet the limit of 0.25 mm"} {
		if !strings.Contains(text, want) {
			t.Errorf("the sentences are %q; want in them %q", text, want)
		}
	}
}

func TestMakeItMineComputesWhatIsTyped(t *testing.T) {
	lookApp(t)
	jobs := make(chan func(), 100)
	s := NewSession(func(f func()) { jobs <- f }, func(_ context.Context, d engine.Design) (engine.Result, error) {
		r := handMade().Result
		r.Mass.Total = d.Length / 100
		return r, nil
	})
	s.Open(engine.Demo(), "")
	w := test.NewTempWindow(t, nil)
	w.Resize(fyne.NewSize(800, 700))
	m := newMakeItMine(s, shopOf(s.Now().Design))
	w.SetContent(m.content)
	m.first.Focus()
	test.Type(w.Canvas().Focused(), "1500")
	for quiet := s.Idle(); ; {
		select {
		case f := <-jobs:
			f()
			continue
		case <-quiet:
		}
		break
	}
	if got := m.said.Text(); !strings.Contains(got, "It weighs 15 kg") {
		t.Errorf("after typing 1500 it says %q; want the weight of that panel, 15 kg here", got)
	}
}

func TestOwnMaterial(t *testing.T) {
	d := engine.Demo()
	m := likeMaterial(d, d.TopSkin.Material, 12)
	base, _ := d.Material(d.TopSkin.Material)
	m.sheet.Name, m.sheet.Density = "Mine", 655
	sheet, wrong := m.finished(length.Format{})
	if len(wrong) > 0 {
		t.Fatalf("a copy of %s is refused: %v", base.Key, wrong)
	}
	if sheet.Key == base.Key || sheet.FRolling != base.At(m.thickness).FRolling || len(sheet.Thicknesses) != 1 {
		t.Errorf("the copy is %+v; want a key of its own, the strengths of the base and one thickness", sheet)
	}
	if at := sheet.At(m.thickness); at.EAlong != m.sheet.EAlong {
		t.Errorf("at its thickness the stiffness is %v; want the figure typed, %v", at.EAlong, m.sheet.EAlong)
	}
	m.sheet.EAlong, m.thickness = 0, 0
	if _, wrong := m.finished(length.Format{}); len(wrong) != 2 {
		t.Errorf("without stiffness and thickness it says %v; want two sentences", wrong)
	}
	d.Own = append(d.Own, catalog.Sheet{Key: "own-1"})
	if key := freeKey(d); key != "own-2" {
		t.Errorf("freeKey = %q; want own-2", key)
	}
}

func TestOwnMaterialDialogAddsIt(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	r.win.Resize(fyne.NewSize(900, 700))
	showOwnMaterial(r.win, r.session)
	overlay := r.win.Canvas().Overlays().Top()
	if overlay == nil {
		t.Fatal("no dialog shows")
	}
	button := findButton(overlay, "Add it to the design")
	if button == nil {
		t.Fatal("the dialog has no button to add it")
	}
	test.Tap(button)
	own := r.session.Now().Design.Own
	if len(own) != 1 || !strings.HasPrefix(own[0].Name, "My ") {
		t.Errorf("the design carries %v; want one material of the person's own", own)
	}
	if r.win.Canvas().Overlays().Top() != nil {
		t.Error("the dialog stays")
	}

	// It can be chosen, and be removed once nothing is cut from it.
	if options := materialOptions(r.session.Now().Design, false, ""); options[0].key != own[0].Key {
		t.Errorf("the first material to choose is %q; want the person's own", options[0].label)
	}
	remove := func() *widget.Button { return findFormButton(r.form, "Remove “"+own[0].Name+"”") }
	r.session.Edit("skin", "", func(d *engine.Design) { d.TopSkin.Material = own[0].Key })
	r.form.reveal("topSkin.material")
	if b := remove(); b == nil || !b.Disabled() {
		t.Error("a material in use may be removed")
	}
	r.session.Undo()
	test.Tap(remove())
	if left := r.session.Now().Design.Own; len(left) != 0 {
		t.Errorf("after removing it the design carries %v", left)
	}
}

func TestOwnMaterialDialogSaysWhatIsWrong(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	r.win.Resize(fyne.NewSize(900, 700))
	showOwnMaterial(r.win, r.session)
	c := r.win.Canvas()
	for range 3 { // from the material to start with to the density
		c.FocusNext()
	}
	test.Type(c.Focused(), "0")
	test.Tap(findButton(c.Overlays().Top(), "Add it to the design"))
	if own := r.session.Now().Design.Own; len(own) != 0 || c.Overlays().Top() == nil {
		t.Errorf("a material of density 0 was taken: %v", own)
	}
}

// findFormButton returns the form's button with that text.
func findFormButton(f *form, text string) *widget.Button {
	for _, g := range f.groups {
		for _, l := range g.lines {
			if e, ok := l.object.(*explained); ok {
				if b, ok := e.content.(*formButton); ok && b.Text == text {
					return &b.Button
				}
			}
		}
	}
	return nil
}

// findButton returns the button with that text somewhere in an object.
func findButton(o fyne.CanvasObject, text string) *widget.Button {
	switch o := o.(type) {
	case *answerButton:
		if o.Text == text {
			return &o.Button
		}
	case *fyne.Container:
		for _, child := range o.Objects {
			if b := findButton(child, text); b != nil {
				return b
			}
		}
	case fyne.Widget:
		for _, child := range test.WidgetRenderer(o).Objects() {
			if b := findButton(child, text); b != nil {
				return b
			}
		}
	}
	return nil
}
