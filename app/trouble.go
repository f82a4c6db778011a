package app

import (
	"context"
	"errors"
	"io/fs"
	"syscall"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine"
)

// trouble is an act that failed, told to a person.
type trouble struct {
	what    string // failed: "The design could not be saved."
	advice  string // what became of the work, and what to do
	details string // for whoever looks into it
}

// explain turns the error of an act into sentences. what says what failed,
// kept what became of the work.
func explain(what, kept string, err error) trouble {
	return trouble{what: what, advice: kept + " " + remedy(err), details: err.Error()}
}

// remedy says what to do about an error.
func remedy(err error) string {
	var file *engine.FileError
	switch {
	case errors.Is(err, engine.ErrNewerFormat):
		return "The file was written by a newer Flatwright. Open it with that one, or with the newest there is."
	case errors.Is(err, engine.ErrTooLarge):
		return "The file is far larger than a design; it is probably something else."
	case errors.As(err, &file):
		return "The file is not a design that can be read: " + file.Error() + ". An older copy may still be whole."
	case errors.Is(err, fs.ErrNotExist):
		return "The file or folder is not there. It may have been moved or renamed, or sit on a disk that is not connected."
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return "This place is protected against it. Choose another folder, or ask whoever looks after this computer."
	case errors.Is(err, syscall.ENOSPC):
		return "The disk is full. Make room on it, or choose another one."
	case errors.Is(err, ErrCrash):
		return "The program met a fault of its own. A report of it lies beside the settings."
	}
	return "Try again, or choose another place."
}

// showTrouble is the one door through which an error reaches a person: it
// says what failed, that nothing was lost, and what to do. The details are
// folded away. What the person cancelled is no trouble.
func showTrouble(win fyne.Window, what, kept string, err error) {
	if err == nil || errors.Is(err, context.Canceled) {
		return
	}
	t := explain(what, kept, err)
	details := sentenceLabel(t.details)
	details.Selectable = true
	content := container.NewVBox(
		sentenceLabel(t.advice),
		widget.NewAccordion(widget.NewAccordionItem("Details", details)),
	)
	ask(win, t.what, content, 460, choice{label: "Close"})
}

// sentenceLabel is a label that wraps instead of widening its window.
func sentenceLabel(text string) *widget.Label {
	label := widget.NewLabel(text)
	label.Wrapping = fyne.TextWrapWord
	return label
}
