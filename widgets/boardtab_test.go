package widgets

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"

	"flatwright/engine/draw"
)

// Tab goes through the parts that can be moved and then lets go; with shift
// back. Enter opens the one that is picked.
func TestBoardTabThroughWhatMoves(t *testing.T) {
	app(t)
	b, w := boardAt(t, 600, 400)
	box := func(x float64, part string) draw.Area {
		return draw.Area{Points: draw.Rect{Min: draw.Point{X: x}, Max: draw.Point{X: x + 50, Y: 50}}.Corners(), Part: part}
	}
	b.SetFigure(draw.Figure{Areas: []draw.Area{box(0, "rib"), box(100, "legs"), box(200, "skin"), box(300, "load")}})
	b.CanDrag = func(part string) bool { return part == "legs" || part == "load" }
	var picked, opened []string
	b.OnSelect = func(part string) { picked = append(picked, part) }
	b.OnOpen = func(part string) { opened = append(opened, part) }
	back := false
	b.shift = func() bool { return back }
	w.Canvas().Focus(b)
	tab := func() bool { // as the toolkit's driver does
		if !b.AcceptsTab() {
			return false
		}
		b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
		return true
	}
	enter := func() { b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) }
	enter() // nothing is picked
	first, second := tab(), tab()
	if !first || !second || tab() {
		t.Errorf("Tab goes through %q; want two parts and then on", picked)
	}
	enter()
	back = true
	if !tab() || tab() {
		t.Errorf("with shift Tab goes through %q; want one part back and then out", picked)
	}
	enter()
	if want := []string{"legs", "load", "legs"}; !slices.Equal(picked, want) {
		t.Errorf("picked %q; want %q", picked, want)
	}
	if want := []string{"load", "legs"}; !slices.Equal(opened, want) {
		t.Errorf("Enter opened %q; want %q", opened, want)
	}
	b.SetSelected("skin")
	back = false
	if !tab() || picked[len(picked)-1] != "legs" {
		t.Errorf("from a part that cannot be moved Tab goes to %q; want the first that can", picked[len(picked)-1])
	}
	b.CanDrag = nil
	if b.AcceptsTab() {
		t.Error("Tab stays on a board where nothing can be moved")
	}
}
