package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
)

// press makes a widget a button: pointer, keyboard and focus. The widget
// embeds it and paints its ground with paint.
type press struct {
	act     func()
	refresh func()
	focus   func(on bool) // told of the focus; may be nil
	self    fyne.Focusable

	focused bool
	hovered bool
}

// Tapped acts, and takes the focus so that the keyboard goes on from here.
func (p *press) Tapped(*fyne.PointEvent) {
	object, ok := p.self.(fyne.CanvasObject)
	if ok && !fyne.CurrentDevice().IsMobile() {
		if c := fyne.CurrentApp().Driver().CanvasForObject(object); c != nil {
			c.Focus(p.self)
		}
	}
	p.fire()
}

func (p *press) fire() {
	if p.act != nil {
		p.act()
	}
}

// FocusGained shows the focus.
func (p *press) FocusGained() { p.setFocus(true) }

// FocusLost hides it.
func (p *press) FocusLost() { p.setFocus(false) }

func (p *press) setFocus(on bool) {
	p.focused = on
	p.refresh()
	if p.focus != nil {
		p.focus(on)
	}
}

// TypedRune does nothing: Space arrives as a key too.
func (p *press) TypedRune(rune) {}

// TypedKey acts on Space, Return and Enter.
func (p *press) TypedKey(key *fyne.KeyEvent) { p.typed(key) }

// typed acts on those keys and reports whether it was one of them.
func (p *press) typed(key *fyne.KeyEvent) bool {
	switch key.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		p.fire()
		return true
	}
	return false
}

// MouseIn shows the hover.
func (p *press) MouseIn(*desktop.MouseEvent) { p.hovered = true; p.refresh() }

// MouseMoved does nothing.
func (p *press) MouseMoved(*desktop.MouseEvent) {}

// MouseOut hides the hover.
func (p *press) MouseOut() { p.hovered = false; p.refresh() }

// Cursor is a hand.
func (p *press) Cursor() desktop.Cursor { return desktop.PointerCursor }

// paint colours the ground of a button-like widget: a tint under the pointer,
// an accent frame with the focus.
func (p *press) paint(ground *canvas.Rectangle, w fyne.CanvasObject) {
	ground.FillColor = color.Transparent
	if p.hovered {
		ground.FillColor = faint(ThemeColor(ColorAccent, w), 0.10)
	}
	ground.StrokeColor, ground.StrokeWidth = color.Transparent, 0
	if p.focused {
		ground.StrokeColor, ground.StrokeWidth = ThemeColor(ColorAccent, w), 2
	}
}
