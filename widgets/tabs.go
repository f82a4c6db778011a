package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Tabs shows one of several contents under a row of words.
type Tabs struct {
	widget.BaseWidget

	// OnChange is called when the user shows another tab.
	OnChange func(i int)

	words    *Words
	contents []fyne.CanvasObject
}

// NewTabs returns tabs with the given words over their contents, the first one
// shown.
func NewTabs(words []string, contents []fyne.CanvasObject) *Tabs {
	t := &Tabs{contents: contents, words: NewWords(words)}
	t.words.OnChange = func(i int) {
		t.ShowTab(i)
		if t.OnChange != nil {
			t.OnChange(i)
		}
	}
	t.ExtendBaseWidget(t)
	t.ShowTab(0)
	return t
}

// Shown returns which tab shows.
func (t *Tabs) Shown() int { return t.words.Chosen() }

// ShowTab shows a tab. It does not call OnChange.
func (t *Tabs) ShowTab(i int) {
	t.words.Choose(i)
	for j, o := range t.contents {
		if j == t.words.Chosen() {
			o.Show()
		} else {
			o.Hide()
		}
	}
}

// CreateRenderer links the tabs to the toolkit.
func (t *Tabs) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewBorder(t.words, nil, nil, nil, container.NewStack(t.contents...)))
}

// tabWord is one word of the row.
type tabWord struct {
	widget.BaseWidget
	press
	text  string
	shown bool
	arrow func(by int)
}

// TypedKey presses, or goes to the neighbour.
func (w *tabWord) TypedKey(key *fyne.KeyEvent) {
	switch key.Name {
	case fyne.KeyLeft:
		w.arrow(-1)
	case fyne.KeyRight:
		w.arrow(1)
	default:
		w.press.TypedKey(key)
	}
}

// CreateRenderer links the word to the toolkit.
func (w *tabWord) CreateRenderer() fyne.WidgetRenderer {
	r := &tabRenderer{w: w, ground: canvas.NewRectangle(color.Transparent), under: canvas.NewRectangle(color.Transparent), text: canvas.NewText("", color.Transparent)}
	r.ground.CornerRadius = 4
	r.Refresh()
	return r
}

// tabPad is the room around a word, tabLine the thickness of the line under the
// one that shows.
const (
	tabPad  = 8
	tabLine = 3
)

type tabRenderer struct {
	w             *tabWord
	ground, under *canvas.Rectangle
	text          *canvas.Text
}

func (r *tabRenderer) Refresh() {
	r.text.Text, r.text.TextSize = r.w.text, theme.CurrentForWidget(r.w).Size(theme.SizeNameText)
	r.text.TextStyle.Bold = r.w.shown
	ink := ColorPencil
	r.under.FillColor = color.Transparent
	if r.w.shown {
		ink = ColorInk
		r.under.FillColor = ThemeColor(ColorAccent, r.w)
	}
	r.text.Color = ThemeColor(ink, r.w)
	r.w.paint(r.ground, r.w)
	r.Layout(r.w.Size())
	canvas.Refresh(r.w)
}

func (r *tabRenderer) Layout(size fyne.Size) {
	r.ground.Resize(size)
	m := r.text.MinSize()
	place(r.text, (size.Width-m.Width)/2, (size.Height-tabLine-m.Height)/2)
	r.under.Move(fyne.NewPos(tabPad, size.Height-tabLine))
	r.under.Resize(fyne.NewSize(max(size.Width-2*tabPad, 0), tabLine))
}

// MinSize leaves room for the word in bold, so that nothing moves when another
// tab shows.
func (r *tabRenderer) MinSize() fyne.Size {
	m := fyne.MeasureText(r.w.text, r.text.TextSize, fyne.TextStyle{Bold: true})
	return m.AddWidthHeight(2*tabPad, tabPad+tabLine)
}

func (r *tabRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ground, r.under, r.text}
}

func (r *tabRenderer) Destroy() {}
