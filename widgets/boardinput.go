package widgets

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// hitTolerance is how near the pointer must come, in pixels.
const hitTolerance = 3

// panStep is how far an arrow key moves the view.
const panStep = 40

// wheelClick is what one click of the wheel scrolls, seen with Fyne 2.8 under
// X11; it zooms by a fifth.
const (
	wheelClick = 25
	wheelZoom  = 1.2
)

var (
	_ fyne.Focusable     = (*Board)(nil)
	_ fyne.Tabbable      = (*Board)(nil)
	_ fyne.Tappable      = (*Board)(nil)
	_ fyne.Scrollable    = (*Board)(nil)
	_ fyne.Draggable     = (*Board)(nil)
	_ desktop.Hoverable  = (*Board)(nil)
	_ desktop.Cursorable = (*Board)(nil)
)

// Tapped picks the part under the pointer and takes the keyboard.
func (b *Board) Tapped(e *fyne.PointEvent) {
	b.takeFocus()
	b.pick(b.flat.Hit(float64(e.Position.X), float64(e.Position.Y), hitTolerance))
}

// Scrolled zooms about the pointer.
func (b *Board) Scrolled(e *fyne.ScrollEvent) {
	clicks := min(max(float64(e.Scrolled.DY)/wheelClick, -10), 10)
	if clicks == 0 {
		return
	}
	b.zoom(math.Pow(wheelZoom, clicks), e.Position.X, e.Position.Y)
}

// MouseIn begins the hover.
func (b *Board) MouseIn(e *desktop.MouseEvent) { b.MouseMoved(e) }

// MouseMoved tells the part under the pointer.
func (b *Board) MouseMoved(e *desktop.MouseEvent) {
	b.hover(b.flat.Hit(float64(e.Position.X), float64(e.Position.Y), hitTolerance))
}

// MouseOut ends the hover.
func (b *Board) MouseOut() { b.hover("") }

func (b *Board) hover(part string) {
	if part == b.hovered {
		return
	}
	b.SetHovered(part)
	if b.OnHover != nil {
		b.OnHover(part)
	}
}

// Cursor is a hand over a part, a cross over one that can be dragged and while
// it is.
func (b *Board) Cursor() desktop.Cursor {
	if b.holding() || b.canDrag(b.hovered) {
		return desktop.CrosshairCursor
	}
	if b.hovered != "" {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// FocusGained shows the focus ring.
func (b *Board) FocusGained() {
	b.focused = true
	b.Refresh()
}

// FocusLost hides it.
func (b *Board) FocusLost() {
	b.focused = false
	b.Refresh()
}

// TypedRune zooms, fits and steps through the parts.
func (b *Board) TypedRune(r rune) {
	switch r {
	case '+', '=':
		b.ZoomIn()
	case '-', '_':
		b.ZoomOut()
	case '0', 'f', 'F':
		b.Fit()
	case ']':
		b.step(1)
	case '[':
		b.step(-1)
	}
}

// TypedKey moves what is picked, or else pans, and picks.
func (b *Board) TypedKey(key *fyne.KeyEvent) {
	switch key.Name {
	case fyne.KeyLeft:
		b.arrow(-1, 0)
	case fyne.KeyRight:
		b.arrow(1, 0)
	case fyne.KeyUp:
		b.arrow(0, 1)
	case fyne.KeyDown:
		b.arrow(0, -1)
	case fyne.KeyTab:
		if part, ok := b.movable(b.tabWay()); ok {
			b.reveal(part)
			b.pick(part)
		}
	case fyne.KeyReturn, fyne.KeyEnter:
		switch {
		case b.hovered != "" && b.hovered != b.selected:
			b.pick(b.hovered)
		case b.selected != "" && b.OnOpen != nil:
			b.OnOpen(b.selected)
		}
	case fyne.KeyEscape:
		if !b.giveUpDrag() {
			b.pick("")
		}
	}
}

// AcceptsTab reports whether Tab, or shift and Tab, has a part that can be moved
// to go to; if not, it leaves the board.
func (b *Board) AcceptsTab() bool {
	_, ok := b.movable(b.tabWay())
	return ok && !b.holding()
}

// tabWay is the way that Tab goes now.
func (b *Board) tabWay() int {
	if b.shift() {
		return -1
	}
	return 1
}

// arrow is an arrow key to the right or up, or against it.
func (b *Board) arrow(dx, dy int) {
	if b.holding() || b.nudge(dx, dy) {
		return
	}
	b.pan(float32(-dx)*panStep, float32(dy)*panStep)
}
