package widgets

import (
	"fyne.io/fyne/v2"

	"flatwright/engine/draw"
)

// drag is a gesture under way: a part that follows the pointer, or the view.
type drag struct {
	under bool       // a gesture is under way
	part  string     // that moves; "" is the view
	from  draw.Point // of the world, where it began
	to    draw.Point // of the world, told last
	over  bool       // given up; the rest of the gesture does nothing
}

// Dragged moves the part that the gesture began on, if that can be moved, else
// the view.
func (b *Board) Dragged(e *fyne.DragEvent) {
	if !b.drag.under {
		b.beginDrag(e.Position.SubtractXY(e.Dragged.DX, e.Dragged.DY))
	}
	switch {
	case b.drag.over:
	case b.drag.part == "":
		b.pan(e.Dragged.DX, e.Dragged.DY)
	default:
		b.drag.to = b.view.World(float64(e.Position.X), float64(e.Position.Y))
		b.tellDrag(false)
	}
}

// beginDrag picks up what lies at the position.
func (b *Board) beginDrag(at fyne.Position) {
	x, y := float64(at.X), float64(at.Y)
	b.drag = drag{under: true, from: b.view.World(x, y)}
	part := b.flat.Hit(x, y, hitTolerance)
	if !b.canDrag(part) {
		return
	}
	b.drag.part, b.drag.to = part, b.drag.from
	b.takeFocus()
	if part != b.selected {
		b.pick(part)
	}
}

// DragEnd lets go, and fits again, which waits while a part is held.
func (b *Board) DragEnd() {
	held := b.holding()
	if held && !b.drag.over {
		b.tellDrag(true)
	}
	b.drag = drag{}
	if held && b.fitted {
		b.Fit()
	}
}

// giveUpDrag puts the part back to where it was picked up. It reports whether
// there was one.
func (b *Board) giveUpDrag() bool {
	if b.drag.part == "" || b.drag.over {
		return false
	}
	b.drag.to = b.drag.from
	b.drag.over = true
	b.tellDrag(true)
	return true
}

func (b *Board) tellDrag(done bool) {
	if b.OnDrag != nil {
		b.OnDrag(b.drag.part, b.drag.from, b.drag.to, done)
	}
}

// holding reports whether a part follows the pointer now.
func (b *Board) holding() bool { return b.drag.part != "" }

func (b *Board) canDrag(part string) bool {
	return part != "" && b.CanDrag != nil && b.CanDrag(part)
}

// nudge moves what is picked by steps to the right and up. It reports whether
// that can be moved.
func (b *Board) nudge(dx, dy int) bool {
	if b.OnNudge == nil || !b.canDrag(b.selected) {
		return false
	}
	b.OnNudge(b.selected, dx, dy, b.shift())
	return true
}

func (b *Board) takeFocus() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(b); c != nil {
		c.Focus(b)
	}
}
