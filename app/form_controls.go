package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// choiceBox is the toolkit's select that tells of the focus and can be set
// without calling OnChanged.
type choiceBox struct {
	widget.Select
	onFocus func(focused bool)
	escape  func() // way out of the dialog it stands in; nil is none
}

func newChoiceBox(onFocus func(bool)) *choiceBox {
	c := &choiceBox{onFocus: onFocus}
	c.PlaceHolder = "Choose"
	c.ExtendBaseWidget(c)
	return c
}

// set shows the options and the one with that key, quietly.
func (c *choiceBox) set(options []option, key string) {
	labels := make([]string, len(options))
	selected := ""
	for i, o := range options {
		labels[i] = o.label
		if o.key == key {
			selected = o.label
		}
	}
	if selected == "" && key != "" {
		selected = key // what the design says, though it is none of the options
	}
	if selected == c.Selected && equal(labels, c.Options) {
		return
	}
	c.Options, c.Selected = labels, selected
	c.Refresh()
}

// cutOff returns what is selected if the box, beside its arrow, is too narrow
// to show all of it, else "".
func (c *choiceBox) cutOff() string {
	const beside = 48
	width := c.Size().Width
	if width <= 0 {
		width = formWidth - 24 // before its first layout
	}
	if fyne.MeasureText(c.Selected, theme.SizeForWidget(theme.SizeNameText, c), fyne.TextStyle{}).Width > width-beside {
		return c.Selected
	}
	return ""
}

func equal(a, b []string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// FocusGained shows the focus and tells of it.
func (c *choiceBox) FocusGained() {
	c.Select.FocusGained()
	c.onFocus(true)
}

// FocusLost hides the focus and tells of it.
func (c *choiceBox) FocusLost() {
	c.Select.FocusLost()
	c.onFocus(false)
}

// TypedKey takes the way out of a dialog with Escape, and does what the
// toolkit's box does.
func (c *choiceBox) TypedKey(key *fyne.KeyEvent) {
	if key.Name == fyne.KeyEscape && c.escape != nil {
		c.escape()
		return
	}
	c.Select.TypedKey(key)
}

// MinSize does not grow with the longest option.
func (c *choiceBox) MinSize() fyne.Size {
	return fyne.NewSize(120, c.Select.MinSize().Height)
}

// wordsEntry is the toolkit's entry for one line of words. It leaves the wheel
// to the pane it lies in and can be set without calling OnChanged.
type wordsEntry struct {
	widget.Entry
	most    int // signs that may be typed
	onFocus func(focused bool)
	escape  func() // way out of the dialog it stands in; nil is none
}

func newWordsEntry(onFocus func(bool)) *wordsEntry {
	e := &wordsEntry{most: longestWords, onFocus: onFocus}
	e.Wrapping = fyne.TextWrapOff
	e.Scroll = fyne.ScrollNone
	e.ExtendBaseWidget(e)
	return e
}

// set shows text, quietly.
func (e *wordsEntry) set(text string) {
	if e.Text == text {
		return
	}
	changed := e.OnChanged
	e.OnChanged = nil
	e.SetText(text)
	e.OnChanged = changed
}

// longestWords is how many signs a name may have.
const longestWords = 80

// TypedKey takes the way out of a dialog with Escape, and does what the
// toolkit's entry does.
func (e *wordsEntry) TypedKey(key *fyne.KeyEvent) {
	if key.Name == fyne.KeyEscape && e.escape != nil {
		e.escape()
		return
	}
	e.Entry.TypedKey(key)
}

// TypedRune refuses to grow without end.
func (e *wordsEntry) TypedRune(r rune) {
	if len([]rune(e.Text)) >= e.most && e.SelectedText() == "" {
		return
	}
	e.Entry.TypedRune(r)
}

// FocusGained shows the focus and tells of it.
func (e *wordsEntry) FocusGained() {
	e.Entry.FocusGained()
	e.onFocus(true)
}

// FocusLost hides the focus and tells of it.
func (e *wordsEntry) FocusLost() {
	e.Entry.FocusLost()
	e.onFocus(false)
}

// MinSize does not grow with the text.
func (e *wordsEntry) MinSize() fyne.Size {
	return fyne.NewSize(120, e.Entry.MinSize().Height)
}

// formButton is the toolkit's button that tells of the focus.
type formButton struct {
	widget.Button
	onFocus func(focused bool)
}

func newFormButton(label string, act func(), onFocus func(bool)) *formButton {
	b := &formButton{onFocus: onFocus}
	b.Text, b.OnTapped = label, act
	b.ExtendBaseWidget(b)
	return b
}

// FocusGained shows the focus and tells of it.
func (b *formButton) FocusGained() {
	b.Button.FocusGained()
	b.onFocus(true)
}

// FocusLost hides the focus and tells of it.
func (b *formButton) FocusLost() {
	b.Button.FocusLost()
	b.onFocus(false)
}

// clipped cuts what sticks out of an object, which keeps its own size.
func clipped(o fyne.CanvasObject) fyne.CanvasObject {
	clip := container.NewClip(o)
	clip.ExtendBaseWidget(clip) // or it does not lay out before the first painting
	return container.New(sizeOf{o}, clip)
}

// sizeOf is a layout with the smallest size of a given object.
type sizeOf struct{ object fyne.CanvasObject }

func (l sizeOf) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objects {
		o.Resize(size)
	}
}

func (l sizeOf) MinSize([]fyne.CanvasObject) fyne.Size { return l.object.MinSize() }
