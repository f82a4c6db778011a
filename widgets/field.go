package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// fieldWidth is the smallest width of a [Field].
const fieldWidth = 160

// Field is a control with its label and, below, the sentence that says what is
// wrong with it.
type Field struct {
	widget.BaseWidget

	// Control is what the label names.
	Control fyne.CanvasObject

	beside  bool
	label   *sentence
	problem *sentence
}

// NewField returns control with label above it.
func NewField(label string, control fyne.CanvasObject) *Field {
	return newField(label, control, false)
}

// NewFieldBeside returns control with label at its left, each taking half of
// the width.
func NewFieldBeside(label string, control fyne.CanvasObject) *Field {
	return newField(label, control, true)
}

func newField(label string, control fyne.CanvasObject, beside bool) *Field {
	f := &Field{Control: control, beside: beside}
	f.label = newSentence(ColorInk, theme.SizeNameText)
	f.label.text = label
	f.problem = newSentence(ColorOver, theme.SizeNameCaptionText)
	f.ExtendBaseWidget(f)
	return f
}

// SetLabel changes the label.
func (f *Field) SetLabel(text string) {
	f.label.set(text, ColorInk)
	f.Refresh()
}

// SetProblem shows what is wrong; "" takes it away.
func (f *Field) SetProblem(text string) {
	if f.problem.text == text {
		return
	}
	f.problem.set(text, ColorOver)
	f.Refresh()
}

// Problem returns the sentence shown, "" if there is none.
func (f *Field) Problem() string { return f.problem.text }

// MinSize is at least 160 wide.
func (f *Field) MinSize() fyne.Size {
	f.ExtendBaseWidget(f)
	size := f.BaseWidget.MinSize()
	return fyne.NewSize(max(size.Width, fieldWidth), size.Height)
}

// CreateRenderer links the field to the toolkit.
func (f *Field) CreateRenderer() fyne.WidgetRenderer {
	var body fyne.CanvasObject
	if f.beside {
		body = container.New(halves{}, f.label, f.Control)
	} else {
		body = container.New(column{gap: 2}, f.label, f.Control)
	}
	return widget.NewSimpleRenderer(container.New(column{gap: 2}, body, f.problem))
}

// halves puts two objects side by side; the first is centred on the first 34 of
// the height, where a control's own line is.
type halves struct{}

const controlLine = 34

func (halves) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	w := (size.Width - 8) / 2
	for i, o := range objects {
		o.Resize(fyne.NewSize(w, o.MinSize().Height))
		h := o.MinSize().Height
		o.Resize(fyne.NewSize(w, h))
		o.Move(fyne.NewPos(float32(i)*(w+8), max(0, (controlLine-h)/2)))
	}
}

func (halves) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var w, h float32
	for _, o := range objects {
		m := o.MinSize()
		w = max(w, m.Width)
		h = max(h, m.Height+max(0, (controlLine-m.Height)/2))
	}
	return fyne.NewSize(2*w+8, h)
}
