package widgets

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

func TestBoardWheelKeepsThePointUnderThePointer(t *testing.T) {
	app(t)
	b, w := boardAt(t, 600, 400)
	before := b.View().Scale
	test.Scroll(w.Canvas(), fyne.NewPos(123, 77), 0, wheelClick)
	if got, want := b.View().Scale, before*wheelZoom; math.Abs(got-want) > 1e-9 {
		t.Errorf("one click of the wheel made the scale %v; want %v", got, want)
	}
	for _, dy := range []float32{25, 25, -50, 250, -1000} {
		before, scale := b.View().World(123, 77), b.View().Scale
		// test.Scroll tells no position, the real driver does.
		b.Scrolled(&fyne.ScrollEvent{
			PointEvent: fyne.PointEvent{Position: fyne.NewPos(123, 77)}, Scrolled: fyne.NewDelta(0, dy),
		})
		wantPoint(t, "world under the pointer", b.View().World(123, 77), before)
		if (dy > 0) != (b.View().Scale > scale) {
			t.Errorf("wheel %v changed the scale from %v to %v", dy, scale, b.View().Scale)
		}
	}
	for range 100 {
		b.ZoomIn()
	}
	if got := b.View().Scale; got != largestScale {
		t.Errorf("zoomed in without end the scale is %v; want %v", got, float64(largestScale))
	}
	for range 200 {
		b.ZoomOut()
	}
	if got := b.View().Scale; got != smallestScale {
		t.Errorf("zoomed out without end the scale is %v; want %v", got, smallestScale)
	}
}

func TestBoardDrag(t *testing.T) {
	app(t)
	b, w := boardAt(t, 600, 400)
	grabbed := b.View().World(200, 150)
	test.Drag(w.Canvas(), fyne.NewPos(200, 150), 30, -20)
	wantPoint(t, "world under the pointer after the drag", b.View().World(230, 130), grabbed)
}

func TestBoardHoverAndPick(t *testing.T) {
	app(t)
	b, w := boardAt(t, 600, 400)
	var hovered, picked []string
	b.OnHover = func(part string) { hovered = append(hovered, part) }
	b.OnSelect = func(part string) { picked = append(picked, part) }
	for _, p := range []fyne.Position{
		on(b, 300, 400), on(b, 310, 400), // skin, still skin
		on(b, 300, 250), // lengthwise rib
		on(b, 500, 250), // crossing: the one on top
		fyne.NewPos(595, 5),
	} {
		test.MoveMouse(w.Canvas(), p)
	}
	wantStrings(t, "OnHover", hovered, "skin", "long", "cross", "")
	test.TapCanvas(w.Canvas(), on(b, 300, 250))
	test.TapCanvas(w.Canvas(), fyne.NewPos(595, 5))
	wantStrings(t, "OnSelect", picked, "long", "")
	if w.Canvas().Focused() != b {
		t.Error("a tap did not give the board the keyboard")
	}
	b.SetSelected("skin")
	b.SetHovered("cross")
	if len(picked) != 2 || len(hovered) != 4 {
		t.Error("SetSelected or SetHovered called back")
	}
	if n := countObjects(b.highlight.objects); n["line"] < 8 {
		t.Errorf("highlight shows %v; want the outlines of two parts", n)
	}
	b.SetSelected("")
	b.SetHovered("")
	if n := len(b.highlight.objects); n != 0 {
		t.Errorf("%d objects stay lit with nothing hovered or picked", n)
	}
}

func wantStrings(t *testing.T, what string, got []string, want ...string) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("%s got %q; want %q", what, got, want)
		return
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%s got %q; want %q", what, got, want)
			return
		}
	}
}

func TestBoardKeyboard(t *testing.T) {
	app(t)
	b, w := boardAt(t, 600, 400)
	var picked []string
	b.OnSelect = func(part string) { picked = append(picked, part) }
	w.Canvas().FocusNext()
	if w.Canvas().Focused() != b {
		t.Fatalf("the first focus is %T; want the board", w.Canvas().Focused())
	}
	ring := test.WidgetRenderer(b).(*boardRenderer).ring[0]
	if ring.Hidden {
		t.Error("no focus ring with the keyboard on the board")
	}
	write(t, w, "]][[[")
	wantStrings(t, "OnSelect", picked, "skin", "long", "skin", "block", "cross")
	keys(t, w, fyne.KeyEscape, fyne.KeyReturn)
	b.SetHovered("long")
	keys(t, w, fyne.KeyReturn)
	wantStrings(t, "OnSelect", picked[5:], "", "long")

	scale := b.View().Scale
	write(t, w, "+")
	if b.View().Scale <= scale {
		t.Error("+ did not zoom in")
	}
	write(t, w, "-")
	if math.Abs(b.View().Scale-scale) > 1e-9 {
		t.Error("- did not take + back")
	}
	at := on(b, 0, 0)
	keys(t, w, fyne.KeyRight, fyne.KeyUp)
	if got := on(b, 0, 0); got.X >= at.X || got.Y <= at.Y {
		t.Errorf("after Right and Up the origin moved from %v to %v; want it to the left and down", at, got)
	}
	write(t, w, "f")
	if !b.Fitted() {
		t.Error("f did not fit")
	}
	for range 3 { // three buttons
		w.Canvas().FocusNext()
		if _, ok := w.Canvas().Focused().(*widget.Button); !ok {
			t.Fatalf("Tab went to %T; want a button of the board", w.Canvas().Focused())
		}
	}
	if !ring.Hidden {
		t.Error("the focus ring stays after Tab")
	}
}

func TestBoardStepBringsThePartIntoView(t *testing.T) {
	app(t)
	b, w := boardAt(t, 600, 400)
	w.Canvas().Focus(b)
	for range 12 {
		b.zoom(1.25, 599, 1) // into the upper right corner, off the block
	}
	b.SetSelected("cross")
	write(t, w, "]")
	p := on(b, 150, 100)
	if b.Selected() != "block" || p.X < 0 || p.Y < 0 || p.X > 600 || p.Y > 400 {
		t.Errorf("picked %q, which lies at %v; want the block in view", b.Selected(), p)
	}
}
