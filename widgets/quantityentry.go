package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// quantityEntry is the toolkit's entry with the keys of a quantity. It leaves
// the mouse wheel to the pane it lies in.
type quantityEntry struct {
	widget.Entry
	owner   *ValueEntry
	focused bool
	clicked bool // the mouse button that brought the focus is still down
}

func newQuantityEntry(owner *ValueEntry) *quantityEntry {
	e := &quantityEntry{owner: owner}
	// Without inner scrolling the wheel reaches the pane around; the clip of
	// the owner keeps a text that is too long inside the frame.
	e.Wrapping = fyne.TextWrapOff
	e.Scroll = fyne.ScrollNone
	e.ActionItem = owner.unit
	e.OnChanged = owner.typed
	e.OnSubmitted = func(string) {
		owner.commit()
		e.selectAll()
	}
	e.ExtendBaseWidget(e)
	return e
}

// MinSize does not grow with the text.
func (e *quantityEntry) MinSize() fyne.Size {
	return fyne.NewSize(entryWidth, e.Entry.MinSize().Height)
}

// FocusGained selects the whole text, ready to be typed over.
func (e *quantityEntry) FocusGained() {
	e.focused = true
	e.Entry.FocusGained()
	e.owner.gained()
	e.selectAll()
}

// MouseDown notes whether the click brings the focus.
func (e *quantityEntry) MouseDown(m *desktop.MouseEvent) {
	e.clicked = !e.focused
	e.Entry.MouseDown(m)
}

// MouseUp selects all after the click that brought the focus, like Tab does; a
// second click sets the cursor.
func (e *quantityEntry) MouseUp(m *desktop.MouseEvent) {
	e.Entry.MouseUp(m)
	if e.clicked && e.SelectedText() == "" {
		e.selectAll()
	}
	e.clicked = false
}

// FocusLost tidies the text.
func (e *quantityEntry) FocusLost() {
	e.focused = false
	e.Entry.FocusLost()
	e.owner.lost()
}

// TypedRune refuses to grow beyond what a quantity needs.
func (e *quantityEntry) TypedRune(r rune) {
	if len([]rune(e.Text)) >= longestEntry && e.SelectedText() == "" {
		return
	}
	e.Entry.TypedRune(r)
}

// TypedKey steps with the arrow keys and restores with Escape.
func (e *quantityEntry) TypedKey(key *fyne.KeyEvent) {
	if e.Disabled() {
		return
	}
	switch key.Name {
	case fyne.KeyUp:
		e.owner.step(true, shiftHeld())
	case fyne.KeyDown:
		e.owner.step(false, shiftHeld())
	case fyne.KeyEscape:
		e.owner.restore()
	default:
		e.Entry.TypedKey(key)
	}
}

func (e *quantityEntry) selectAll() {
	if e.focused {
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

func shiftHeld() bool {
	d, ok := fyne.CurrentApp().Driver().(desktop.Driver)
	return ok && d.CurrentKeyModifiers()&fyne.KeyModifierShift != 0
}
