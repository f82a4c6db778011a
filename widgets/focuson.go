package widgets

import "fyne.io/fyne/v2"

// FocusOn gives the entry the keyboard of that canvas. Unlike Focus it also
// works before the entry is painted for the first time.
func (e *ValueEntry) FocusOn(c fyne.Canvas) { c.Focus(e.entry) }
