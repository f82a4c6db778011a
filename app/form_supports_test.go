package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"flatwright/engine"
	"flatwright/engine/draw"
	"flatwright/engine/length"
)

func TestFeetInTheForm(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	legs := r.session.Now().Design
	r.session.Edit("", "", func(d *engine.Design) { chooseSupports(d, string(engine.OwnFeet)) })
	now := func() engine.Design { return r.session.Now().Design }
	if feet := now().Supports.Feet; len(feet) != 4 || feet[0].X != legs.Supports.EndInset || feet[0].Name == "" {
		t.Fatalf("feet begin as %+v; want them where the legs stood", feet)
	}
	r.press(t, "Supports", "Remove foot 2")
	r.press(t, "Supports", "Add a foot")
	r.press(t, "Supports", "Add a foot")
	if feet := now().Supports.Feet; len(feet) != 5 || feet[3] == feet[4] {
		t.Fatalf("one removed, two added: %+v", feet)
	}
	if p := engine.Validate(now(), now().Material, engine.Catalogue().Glue); (engine.Result{Problems: p}).Blocked() {
		t.Errorf("added feet block: %+v", p)
	}
	r.typeInto(t, "supports.feet[4].x", "300")
	r.typeInto(t, "supports.feet[4].y", "123 mm")
	r.typeInto(t, "supports.feet[4].size", "90")
	r.typeInto(t, "supports.feet[4].name", "post")
	r.leave()
	if f := now().Supports.Feet[4]; f != (engine.Foot{Name: "post", X: 300, Y: 123, Size: 90}) {
		t.Errorf("typed foot is %+v", f)
	}
	r.session.Undo()
	if f := now().Supports.Feet[4]; f.Name == "post" {
		t.Error("undo left the name")
	}
	r.explanationsFit(t)
	if got := supportsSummary(r.session.Now()); got != "five feet of your own" {
		t.Errorf("summary %q", got)
	}
	if got := partField(now(), engine.FootPart(3)); got != "supports.feet[3].x" {
		t.Errorf("a picked foot opens %q", got)
	}
}

func TestLedgerAndApronsInTheForm(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	edit := func(change func(*engine.Design)) { r.session.Edit("", "", change) }
	edit(func(d *engine.Design) { chooseAprons(d, "fbl") })
	a := r.session.Now().Design.Supports.Apron
	if !a.Front || !a.Back || !a.Left || a.Right || a.Material == "" || !(a.Height > 0) {
		t.Fatalf("aprons chosen: %+v", a)
	}
	if got := supportsSummary(r.session.Now()); !strings.Contains(got, "aprons front, back, left") {
		t.Errorf("summary %q", got)
	}
	r.typeInto(t, "supports.apron.height", "120")
	r.typeInto(t, "supports.apron.thickness", "25")
	if a := r.session.Now().Design.Supports.Apron; a.Height != 120 || a.Thickness != 25 {
		t.Errorf("typed aprons are %+v", a)
	}
	r.explanationsFit(t)
	edit(func(d *engine.Design) { chooseAprons(d, "") })
	if a := r.session.Now().Design.Supports.Apron; a.Height != 120 || a.Front || a.Back || a.Left {
		t.Errorf("without aprons: %+v; want the size kept", a)
	}
	edit(func(d *engine.Design) { chooseSupports(d, string(engine.OnLedger)) })
	r.line(t, "supports.ledger")
	r.line(t, "supports.endInset")
	edit(func(d *engine.Design) { d.Supports.Rail = true })
	r.line(t, "supports.sideInset")
	if l := r.form.reveal("supports.endInset"); l != nil && l.path == "supports.endInset" {
		t.Error("a rail opposite a ledger along the length is not set in from the ends")
	}
	if got := supportsSummary(r.session.Now()); got != "ledger under the back edge, a rail opposite" {
		t.Errorf("summary %q", got)
	}
	r.explanationsFit(t)
}

// Fastening is one choice and one step of undo; its sentence fits.
func TestFastenedInTheForm(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	r.choose(t, "supports.fastened", "is fastened: screwed down")
	if !r.session.Now().Design.Supports.Fastened {
		t.Error("fastened, the design lies loose")
	}
	if text := supportsSummary(r.session.Now()); !strings.Contains(text, "fastened") {
		t.Errorf("summary is %q", text)
	}
	r.explanationsFit(t)
	r.session.Undo()
	if r.session.Now().Design.Supports.Fastened {
		t.Error("undone, it is still fastened")
	}
}

// A foot is dragged and nudged by itself, one step of undo, and stays on the
// panel; what stands opposite a ledger moves with the hand on every side.
func TestFeetAndLedgersMove(t *testing.T) {
	b := loadBench(t)
	b.session.Edit("", "", func(d *engine.Design) { chooseSupports(d, string(engine.OwnFeet)) })
	b.settle()
	h := b.handAt(210, 110) // the left front foot stands at 200, 100
	h.drag(50, 30)
	h.drop()
	f := b.supports().Feet
	if f[0].X != 250 || f[0].Y != 130 || f[1].X != 200 || b.session.Now().UndoLabel != "move foot" {
		t.Errorf("dragged: %+v, undo %q; want only the first foot at 250, 130", f, b.session.Now().UndoLabel)
	}
	if got := b.session.Focus().Part; got != engine.FootPart(0) {
		t.Errorf("picked %q", got)
	}
	b.view.drawing.move.nudge(engine.FootPart(2), 3, -200, false)
	b.settle()
	if f := b.supports().Feet[2]; f.X != 1303 || f.Y != 30 {
		t.Errorf("nudged to %g, %g; want 1303 and flush with the edge at 30", f.X, f.Y)
	}
	b.session.Undo()
	b.settle()
	b.session.Undo()
	b.settle()
	if f := b.supports().Feet[0]; f.X != 200 || f.Y != 100 {
		t.Errorf("undone: %+v", f)
	}
	for _, c := range []struct {
		ledger   engine.Edge
		x, y     float64 // where a leg is taken
		end, out float64 // insets after the hand went 40 to the right and 20 up
	}{
		{engine.BackEdge, 200, 100, 240, 120},
		{engine.FrontEdge, 200, 650, 240, 80},
		{engine.LeftEdge, 1300, 100, 160, 120},
		{engine.RightEdge, 200, 650, 240, 80},
	} {
		d := b.session.Now().Design
		d.Supports = engine.Supports{Kind: engine.OnLedger, Ledger: c.ledger, EndInset: 200, SideInset: 100, Bearing: 60}
		change := dragged(d, engine.SupportPart, draw.Point{X: c.x, Y: c.y}, draw.Point{X: c.x + 40, Y: c.y + 20}, length.Format{})
		change(&d)
		if s := d.Supports; s.EndInset != c.end || s.SideInset != c.out {
			t.Errorf("%s ledger: legs at %g and %g; want %g and %g", c.ledger, s.EndInset, s.SideInset, c.end, c.out)
		}
	}
	if got := leastSagText(engine.Supports{Kind: engine.OwnFeet}, engine.Supports{Kind: engine.OwnFeet}, 1, 1, length.Format{}); !strings.Contains(got, "stay where you put them") {
		t.Errorf("least sag of own feet: %q", got)
	}
}

// The arrows move a foot that is picked.
func TestArrowsMoveAFoot(t *testing.T) {
	b := loadBench(t)
	b.session.Edit("", "", func(d *engine.Design) { chooseSupports(d, string(engine.OwnFeet)) })
	b.settle()
	b.session.Select(engine.FootPart(1))
	board := b.view.drawing.board
	board.FocusGained()
	board.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	board.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	b.settle()
	if f := b.supports().Feet[1]; f.X != 201 || f.Y != 649 {
		t.Errorf("foot at %g, %g; want 201, 649", f.X, f.Y)
	}
}

// How the top rests is chosen by the keyboard alone: Tab goes from field to field up
// to the choice, an arrow changes it, and Space opens its list, in which arrows and
// Return choose.
func TestSupportsAreChosenByKeyboard(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	field := r.line(t, "supports.kind")
	field.focus()
	choice := r.win.Canvas().Focused()
	r.win.Canvas().Unfocus()
	for range 200 {
		if r.win.Canvas().FocusNext(); r.win.Canvas().Focused() == choice {
			break
		}
	}
	if r.win.Canvas().Focused() != choice {
		t.Fatal("Tab never reaches the choice of supports")
	}
	kind := func() engine.SupportKind { return r.session.Now().Design.Supports.Kind }
	before := kind()
	r.key(t, fyne.KeyRight)
	next := kind()
	if next == before {
		t.Errorf("an arrow left %q", before)
	}
	r.key(t, fyne.KeyLeft)
	if kind() != before {
		t.Errorf("back it is %q; want %q", kind(), before)
	}
	r.key(t, fyne.KeySpace)
	if r.win.Canvas().Overlays().Top() == nil {
		t.Fatal("Space opens no list")
	}
	for range 6 { // past the one that is chosen, wherever the list begins
		r.key(t, fyne.KeyDown)
		if r.win.Canvas().Focused() == nil {
			t.Fatal("the list takes no keys")
		}
	}
	r.key(t, fyne.KeyReturn)
	if r.win.Canvas().Overlays().Top() != nil {
		t.Error("Return leaves the list open")
	}
	if kind() == before {
		t.Errorf("chosen from the list it is still %q", before)
	}
}
