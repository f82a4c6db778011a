package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Text is running text that wraps to the width it is given. It never widens
// its pane, and takes no room while empty.
type Text struct {
	widget.BaseWidget
	body *sentence
}

// NewText returns text in a colour of ours.
func NewText(text string, colour fyne.ThemeColorName) *Text {
	return newText(text, colour, theme.SizeNameText)
}

// NewNote returns text in the small size.
func NewNote(text string, colour fyne.ThemeColorName) *Text {
	return newText(text, colour, theme.SizeNameCaptionText)
}

// NewHeading returns text as a heading.
func NewHeading(text string) *Text {
	t := newText(text, ColorInk, theme.SizeNameSubHeadingText)
	t.body.bold = true
	return t
}

// NewFigure returns text in the size of result figures, for what is read from a
// distance.
func NewFigure(text string) *Text {
	t := newText(text, ColorInk, theme.SizeNameHeadingText)
	t.body.bold = true
	return t
}

func newText(text string, colour fyne.ThemeColorName, size fyne.ThemeSizeName) *Text {
	t := &Text{body: newSentence(colour, size)}
	t.body.text = text
	t.ExtendBaseWidget(t)
	return t
}

// Text returns what is shown.
func (t *Text) Text() string { return t.body.text }

// Set shows text in that colour.
func (t *Text) Set(text string, colour fyne.ThemeColorName) {
	if t.body.text == text && t.body.colour == colour {
		return
	}
	t.body.set(text, colour)
	t.Refresh()
}

// CreateRenderer links the text to the toolkit.
func (t *Text) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.New(column{}, t.body))
}

// NewColumn returns a layout that stacks objects at full width, each as high as
// it needs at that width, with gap between those that take any room.
func NewColumn(gap float32) fyne.Layout { return column{gap: gap} }
