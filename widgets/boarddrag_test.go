package widgets

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"flatwright/engine/draw"
)

// dragBy drags from a place on the board as the window does: each event tells
// where the pointer is and how far it came. It does not let go.
func dragBy(b *Board, from fyne.Position, steps ...fyne.Delta) fyne.Position {
	at := from
	for _, d := range steps {
		at = at.AddXY(d.DX, d.DY)
		b.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}, Dragged: d})
	}
	return at
}

// moves records what a board tells of a block that can be dragged.
func moves(b *Board) *[]string {
	var told []string
	b.CanDrag = func(part string) bool { return part == "block" }
	b.OnDrag = func(part string, from, to draw.Point, done bool) {
		told = append(told, fmt.Sprintf("%s %.3f,%.3f to %.3f,%.3f %v", part, from.X, from.Y, to.X, to.Y, done))
	}
	b.OnNudge = func(part string, dx, dy int, coarse bool) {
		told = append(told, fmt.Sprintf("%s by %d,%d %v", part, dx, dy, coarse))
	}
	return &told
}

func TestBoardDragsAPart(t *testing.T) {
	app(t)
	b, w := boardAt(t, 600, 400)
	told := moves(b)
	var picked []string
	b.OnSelect = func(part string) { picked = append(picked, part) }
	view := b.View()
	dragBy(b, on(b, 120, 70), fyne.NewDelta(10, 0), fyne.NewDelta(5, -20))
	b.DragEnd()
	if b.View() != view {
		t.Errorf("the view went from %+v to %+v while a part was dragged", view, b.View())
	}
	// By hand: the pointer went 10 and then 15 px to the right and 20 up.
	to := func(dx, dy float64) string {
		return fmt.Sprintf("block 120.000,70.000 to %.3f,%.3f ", 120+dx/view.Scale, 70+dy/view.Scale)
	}
	wantStrings(t, "OnDrag", *told, to(10, 0)+"false", to(15, 20)+"false", to(15, 20)+"true")
	wantStrings(t, "OnSelect", picked, "block")
	if w.Canvas().Focused() != b {
		t.Error("the drag did not give the board the keyboard")
	}
}

func TestBoardPansWhereNothingCanBeDragged(t *testing.T) {
	app(t)
	b, _ := boardAt(t, 600, 400)
	told := moves(b)
	for _, can := range []func(string) bool{func(string) bool { return false }, nil, b.CanDrag} {
		b.Fit()
		b.CanDrag = can
		place := on(b, 120, 70)
		if b.CanDrag != nil && b.CanDrag("block") {
			place = on(b, 300, 400) // the skin
		}
		grabbed := b.View().World(float64(place.X), float64(place.Y))
		end := dragBy(b, place, fyne.NewDelta(30, -20), fyne.NewDelta(5, 5))
		b.DragEnd()
		wantPoint(t, "world under the pointer", b.View().World(float64(end.X), float64(end.Y)), grabbed)
	}
	wantStrings(t, "OnDrag", *told)
}

// A drag that began on the view stays one when it comes over a part.
func TestBoardDragKeepsWhatItBeganWith(t *testing.T) {
	app(t)
	b, _ := boardAt(t, 600, 400)
	told := moves(b)
	from, block := on(b, 300, 400), on(b, 120, 70)
	dragBy(b, from, fyne.NewDelta(1, 1), fyne.NewDelta(block.X-from.X, block.Y-from.Y), fyne.NewDelta(5, 5))
	b.DragEnd()
	wantStrings(t, "OnDrag", *told)
}

func TestBoardGivesADragUp(t *testing.T) {
	app(t)
	b, w := boardAt(t, 600, 400)
	told := moves(b)
	view := b.View()
	at := dragBy(b, on(b, 120, 70), fyne.NewDelta(10, 0))
	keys(t, w, fyne.KeyRight, fyne.KeyEscape) // an arrow does nothing meanwhile
	dragBy(b, at, fyne.NewDelta(40, 40))
	b.DragEnd()
	if n := len(*told); n != 2 || (*told)[1] != "block 120.000,70.000 to 120.000,70.000 true" {
		t.Errorf("OnDrag got %q; want one move and then the end where it began", *told)
	}
	if b.Selected() != "block" || b.View() != view {
		t.Errorf("picked %q in view %+v; want the block in %+v", b.Selected(), b.View(), view)
	}
	dragBy(b, on(b, 120, 70), fyne.NewDelta(10, 0))
	b.DragEnd()
	if n := len(*told); n != 4 {
		t.Errorf("OnDrag got %q; want a second drag to work", *told)
	}
}

// The figure's own change must not move the world under the pointer.
func TestBoardFitsOnlyAfterTheDrag(t *testing.T) {
	app(t)
	b, _ := boardAt(t, 600, 400)
	moves(b)
	view := b.View()
	dragBy(b, on(b, 120, 70), fyne.NewDelta(10, 0))
	f := plan()
	f.Areas[0].Points = box(0, 0, 2000, 500)
	b.SetFigure(f)
	if b.View() != view {
		t.Error("a new figure moved the view while a part was held")
	}
	b.DragEnd()
	if b.View().Scale >= view.Scale || !b.Fitted() {
		t.Error("the figure is not fitted after the drag")
	}
}

func TestBoardNudges(t *testing.T) {
	app(t)
	b, w := boardAt(t, 600, 400)
	told := moves(b)
	shift := false
	b.shift = func() bool { return shift }
	w.Canvas().Focus(b)
	b.SetSelected("block")
	view := b.View()
	keys(t, w, fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown)
	shift = true
	keys(t, w, fyne.KeyRight)
	wantStrings(t, "OnNudge", *told, "block by -1,0 false", "block by 1,0 false", "block by 0,1 false", "block by 0,-1 false", "block by 1,0 true")
	if b.View() != view {
		t.Error("the arrows panned as well")
	}
	for _, part := range []string{"skin", ""} {
		b.Fit()
		b.SetSelected(part)
		keys(t, w, fyne.KeyRight, fyne.KeyUp)
		if b.View() == view {
			t.Errorf("with %q picked the arrows do not pan", part)
		}
	}
	if len(*told) != 5 {
		t.Errorf("OnNudge got %q; want nothing for what cannot be moved", *told)
	}
}

func TestBoardCursor(t *testing.T) {
	app(t)
	b, w := boardAt(t, 600, 400)
	moves(b)
	for _, tc := range []struct {
		name string
		at   fyne.Position
		want desktop.Cursor
	}{
		{"block", on(b, 120, 70), desktop.CrosshairCursor},
		{"skin", on(b, 300, 400), desktop.PointerCursor},
		{"nothing", fyne.NewPos(595, 5), desktop.DefaultCursor},
	} {
		test.MoveMouse(w.Canvas(), tc.at)
		if got := b.Cursor(); got != tc.want {
			t.Errorf("over %s the cursor is %v; want %v", tc.name, got, tc.want)
		}
	}
	dragBy(b, on(b, 120, 70), fyne.NewDelta(10, 0))
	b.SetHovered("")
	if got := b.Cursor(); got != desktop.CrosshairCursor {
		t.Errorf("while dragging the cursor is %v; want the cross", got)
	}
	b.DragEnd()
	if got := b.Cursor(); got != desktop.DefaultCursor {
		t.Errorf("after dragging the cursor is %v; want the arrow", got)
	}
}
