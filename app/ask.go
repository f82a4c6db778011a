package app

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
)

// choice is one answer to a question.
type choice struct {
	label string
	act   func() // after the dialog has gone; nil for nothing
}

// ask shows content in a dialog with one button for each choice. The first
// choice is the way out, which Escape takes too; the last is the one that is
// meant, marked and under the keyboard, so that Return takes it.
func ask(win fyne.Window, title string, content fyne.CanvasObject, width float32, choices ...choice) *dialog.CustomDialog {
	d := dialog.NewCustomWithoutButtons(title, content, win)
	answer := func(c choice) func() {
		return func() {
			d.Hide()
			if c.act != nil {
				c.act()
			}
		}
	}
	var buttons []fyne.CanvasObject
	var last *answerButton
	for _, c := range choices {
		last = newAnswerButton(c.label, answer(c), answer(choices[0]))
		buttons = append(buttons, last)
	}
	if len(choices) > 1 {
		last.Importance = widget.HighImportance
	}
	d.SetButtons(buttons)
	d.Resize(fyne.NewSize(min(width, win.Canvas().Size().Width-40), 0))
	d.Show()
	escapable(win, answer(choices[0]))
	win.Canvas().Focus(last)
	return d
}

// tell shows a sentence in a dialog.
func tell(win fyne.Window, title, text string) {
	ask(win, title, sentenceLabel(text), 460, choice{label: "Close"})
}

// escapes are the ways out of the dialogs that are open, by what lies on top of
// the window then. Escape takes it where nothing has the keyboard.
var escapes = map[fyne.CanvasObject]func(){}

// escapable lets Escape take the way out of the dialog just shown.
func escapable(win fyne.Window, out func()) {
	overlays := win.Canvas().Overlays()
	for old := range escapes { // of dialogs that are gone
		if !slices.Contains(overlays.List(), old) {
			delete(escapes, old)
		}
	}
	escapes[overlays.Top()] = out
}

// escaped takes the way out of the dialog on top. It reports whether there was
// one.
func escaped(win fyne.Window) bool {
	top := win.Canvas().Overlays().Top()
	if top == nil {
		return false
	}
	if out := escapes[top]; out != nil {
		delete(escapes, top)
		out()
	}
	return true
}

// answerButton is the toolkit's button that Return presses too, and in which
// Escape takes the way out of the dialog.
type answerButton struct {
	widget.Button
	escape func()
}

func newAnswerButton(label string, act, escape func()) *answerButton {
	b := &answerButton{escape: escape}
	b.Text, b.OnTapped = label, act
	b.ExtendBaseWidget(b)
	return b
}

// TypedKey acts on Return and Escape, and on what the toolkit's button does.
func (b *answerButton) TypedKey(key *fyne.KeyEvent) {
	switch key.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		if !b.Disabled() {
			b.OnTapped()
		}
	case fyne.KeyEscape:
		b.escape()
	default:
		b.Button.TypedKey(key)
	}
}

// answerEntry is the toolkit's entry in which Escape takes the way out.
type answerEntry struct {
	widget.Entry
	escape func()
}

func newAnswerEntry(text string, escape func()) *answerEntry {
	e := &answerEntry{escape: escape}
	e.Text = text
	e.ExtendBaseWidget(e)
	return e
}

// TypedKey acts on Escape, and on what the toolkit's entry does.
func (e *answerEntry) TypedKey(key *fyne.KeyEvent) {
	if key.Name == fyne.KeyEscape {
		e.escape()
		return
	}
	e.Entry.TypedKey(key)
}
