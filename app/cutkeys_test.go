package app

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine/draw"
	"flatwright/widgets"
)

// walkTo goes by Tab until something has the keyboard.
func (b *bench) walkTo(what string, is func(f fyne.Focusable) bool) fyne.Focusable {
	b.Helper()
	c := b.desk.win.Canvas()
	for range 400 {
		c.FocusNext()
		if f := c.Focused(); f != nil && is(f) {
			return f
		}
	}
	b.Fatalf("the keyboard does not reach %s", what)
	return nil
}

// The work of the act without a pointer: one sheet at a time, a part picked on it and seen closer, the
// search begun anew, the slots, a stack of ribs under the blade and what it does to them.
func TestWorkInCutByKeyboard(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.desk.win.Resize(fyne.NewSize(1100, 700))
	b.cutAct()
	v := b.view.cut
	press := func(key fyne.KeyName) *fyne.KeyEvent { return &fyne.KeyEvent{Name: key} }

	line := v.sheets.which.content.Objects[0].(fyne.Focusable)
	b.walkTo("the line of sheets", func(f fyne.Focusable) bool { return f == line }).TypedKey(press(fyne.KeySpace))
	if v.sheets.only != 1 {
		t.Errorf("Space shows sheet %d alone; want 1", v.sheets.only)
	}
	board := b.walkTo("the sheets", func(f fyne.Focusable) bool { return f == v.sheets.board })
	board.TypedRune(']')
	board.TypedRune(']')
	if part := b.session.Focus().Part; part == "" || part != v.sheets.board.Selected() {
		t.Errorf("] picks %q, marked is %q", part, v.sheets.board.Selected())
	}
	scale := v.sheets.board.View().Scale
	board.TypedRune('+')
	if got := v.sheets.board.View().Scale; !(got > scale) {
		t.Errorf("+ makes the scale %g; it was %g", got, scale)
	}

	b.tabByKey(v.side, 1)
	pack := v.slots.pack
	was := pack.stack
	b.walkTo("the count of ribs", func(f fyne.Focusable) bool { return f == pack.boards }).TypedKey(press(fyne.KeyRight))
	b.walkTo("the plunge", func(f fyne.Focusable) bool { return f == pack.plunge }).TypedKey(press(fyne.KeyRight))
	if pack.stack.Boards != was.Boards+1 || pack.stack.Plunge != was.Plunge+1 {
		t.Errorf("arrow keys make %+v of %+v", pack.stack, was)
	}
	rate := b.walkTo("the button that rates the stack", func(f fyne.Focusable) bool {
		button, ok := f.(*widget.Button)
		return ok && button.Text == "What that does to the ribs"
	})
	rate.TypedKey(press(fyne.KeySpace))
	b.settle()
	if text := pack.rated.Text(); text == "" || text == "Computing…" {
		t.Errorf("the rating says %q", text)
	}
	next := v.slots.which.content.Objects[0].(fyne.Focusable)
	first := v.slots.board.Figure().Areas[0].Part
	b.walkTo("the line of ribs", func(f fyne.Focusable) bool { return f == next }).TypedKey(press(fyne.KeySpace))
	if got := v.slots.board.Figure().Areas[0].Part; got == first {
		t.Errorf("Space shows rib %s again", got)
	}
}

// Pictures of the act in both themes: ground and skins have the theme's colours where the drawing says
// they lie, and both pictures differ all over.
func TestCutInBothThemes(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.desk.win.Resize(fyne.NewSize(1100, 700))
	board := b.cutAct().board()
	var grounds []color.Color
	for _, name := range []string{"Light", "Dark"} {
		b.choose("View", name)
		b.settle()
		picture := b.desk.win.Canvas().Capture()
		at := b.app.Driver().AbsolutePositionForObject(board)
		scale := float64(b.desk.win.Canvas().Scale())
		seen := func(p draw.Point) color.Color {
			return picture.At(int((float64(at.X)+p.X)*scale), int((float64(at.Y)+p.Y)*scale))
		}
		same := func(what string, p draw.Point, want fyne.ThemeColorName) {
			t.Helper()
			r, g, bl, _ := seen(p).RGBA()
			wr, wg, wb, _ := widgets.ThemeColor(want, board).RGBA()
			if r>>8 != wr>>8 || g>>8 != wg>>8 || bl>>8 != wb>>8 {
				t.Errorf("%s: %s is %02x%02x%02x; want %02x%02x%02x", name, what, r>>8, g>>8, bl>>8, wr>>8, wg>>8, wb>>8)
			}
		}
		skins := 0
		for _, a := range board.Figure().Areas {
			if a.Fill == draw.Skin && a.Hatch == draw.NoHatch {
				// An eighth in from a corner, where neither edge nor label is.
				box := draw.Figure{Areas: []draw.Area{a}}.Bounds()
				same(a.Part, board.View().Map(draw.Point{X: box.Min.X + box.Width()/8, Y: box.Min.Y + box.Height()/8}), widgets.ColorSkin)
				skins++
			}
		}
		corner := draw.Point{X: 3, Y: 3}
		same("the ground", corner, widgets.ColorSheet)
		grounds = append(grounds, seen(corner))
		if skins < 2 {
			t.Errorf("%s: %d skins are drawn; want both", name, skins)
		}
	}
	if grounds[0] == grounds[1] {
		t.Error("both themes have one ground")
	}
}
