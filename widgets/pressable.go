package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Pressable makes its content a button for pointer and keyboard. Nothing in
// the content may want the pointer for itself.
type Pressable struct {
	widget.BaseWidget
	press

	// OnHover is called when the pointer or the focus comes and goes.
	OnHover func(inside bool)
	// OnKey is called for every key that does not press, may be nil.
	OnKey func(key fyne.KeyName)

	content fyne.CanvasObject
}

// NewPressable returns content that calls act when pressed.
func NewPressable(content fyne.CanvasObject, act func()) *Pressable {
	p := &Pressable{content: content}
	p.press = press{act: act, refresh: func() { p.Refresh() }, self: p}
	p.ExtendBaseWidget(p)
	return p
}

// MouseIn shows the hover and tells of it.
func (p *Pressable) MouseIn(e *desktop.MouseEvent) {
	p.press.MouseIn(e)
	p.tell(true)
}

// MouseOut hides the hover and tells of it.
func (p *Pressable) MouseOut() {
	p.press.MouseOut()
	p.tell(false)
}

// FocusGained shows the focus and tells of it.
func (p *Pressable) FocusGained() {
	p.press.FocusGained()
	p.tell(true)
}

// FocusLost hides the focus and tells of it.
func (p *Pressable) FocusLost() {
	p.press.FocusLost()
	p.tell(false)
}

// TypedKey presses, or passes the key on.
func (p *Pressable) TypedKey(key *fyne.KeyEvent) {
	if !p.press.typed(key) && p.OnKey != nil {
		p.OnKey(key.Name)
	}
}

// Focused reports whether it has the keyboard.
func (p *Pressable) Focused() bool { return p.focused }

func (p *Pressable) tell(inside bool) {
	if p.OnHover != nil {
		p.OnHover(inside)
	}
}

// CreateRenderer links the button to the toolkit.
func (p *Pressable) CreateRenderer() fyne.WidgetRenderer {
	r := &pressableRenderer{p: p, ground: canvas.NewRectangle(color.Transparent)}
	r.ground.CornerRadius = 4
	r.WidgetRenderer = widget.NewSimpleRenderer(container.NewStack(r.ground, container.New(column{}, p.content)))
	p.paint(r.ground, p)
	return r
}

type pressableRenderer struct {
	fyne.WidgetRenderer
	p      *Pressable
	ground *canvas.Rectangle
}

func (r *pressableRenderer) Refresh() {
	r.p.paint(r.ground, r.p)
	r.WidgetRenderer.Refresh()
}
