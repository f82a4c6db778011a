package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Words is a row of words of which one is chosen. They are reached by Tab and
// changed with the arrow keys too.
type Words struct {
	widget.BaseWidget

	// OnChange is called when the user chooses another word.
	OnChange func(i int)

	words  []*tabWord
	chosen int
}

// NewWords returns a row of words, the first one chosen.
func NewWords(texts []string) *Words {
	r := &Words{}
	for i, text := range texts {
		w := &tabWord{text: text, press: press{act: func() { r.choose(i) }}}
		w.refresh, w.self = func() { w.Refresh() }, w
		w.arrow = func(by int) { r.step(i + by) }
		w.ExtendBaseWidget(w)
		r.words = append(r.words, w)
	}
	r.ExtendBaseWidget(r)
	r.Choose(0)
	return r
}

// Chosen returns which word is chosen.
func (r *Words) Chosen() int { return r.chosen }

// Choose marks a word as chosen. It does not call OnChange.
func (r *Words) Choose(i int) {
	r.chosen = min(max(i, 0), len(r.words)-1)
	for j, w := range r.words {
		if shown := j == r.chosen; w.shown != shown {
			w.shown = shown
			w.Refresh()
		}
	}
}

func (r *Words) choose(i int) {
	r.Choose(i)
	if r.OnChange != nil {
		r.OnChange(r.chosen)
	}
}

// step moves to the neighbour of a word and takes the keyboard along.
func (r *Words) step(i int) {
	if i < 0 || i >= len(r.words) {
		return
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(r); c != nil {
		c.Focus(r.words[i])
	}
	r.choose(i)
}

// CreateRenderer links the row to the toolkit.
func (r *Words) CreateRenderer() fyne.WidgetRenderer {
	row := container.NewHBox()
	for _, w := range r.words {
		row.Add(w)
	}
	return widget.NewSimpleRenderer(row)
}
