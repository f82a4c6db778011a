package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"flatwright/widgets"
)

// act is one part of the job: a form, a drawing and cards of figures that
// belong together. One act shows at a time.
type act struct {
	name    string
	first   string // path of the field at which the form begins
	form    *form
	board   func() *widgets.Board // what zooming is about
	panes   *panes
	content fyne.CanvasObject
	hide    func(hidden bool) // of all that is not the form
	cards   func()            // gives the keyboard to the cards
}

// actRow is the parts of the job and the row of words that changes between them.
type actRow struct {
	acts    []*act
	words   *widgets.Words
	content fyne.CanvasObject // of all acts, of which one is seen
}

func newActRow(acts []*act) *actRow {
	r := &actRow{acts: acts}
	var names []string
	stack := container.NewStack()
	for _, a := range acts {
		names = append(names, a.name)
		stack.Add(a.content)
	}
	r.words = widgets.NewWords(names)
	r.words.OnChange = r.show
	r.content = stack
	r.show(0)
	return r
}

// shown is the act that is seen.
func (r *actRow) shown() *act { return r.acts[r.words.Chosen()] }

// show brings an act to the fore.
func (r *actRow) show(i int) {
	r.words.Choose(i)
	for j, a := range r.acts {
		hidden := j != r.words.Chosen()
		if hidden {
			a.content.Hide()
		}
		a.form.hide(hidden)
		a.hide(hidden)
		if !hidden {
			a.content.Show()
		}
	}
}

// showOwner brings the act to the fore whose form has the field of that path:
// of two that may, the one that names it more closely, else the one that shows.
func (r *actRow) showOwner(field string) {
	if field == "" {
		return
	}
	best, closest := r.words.Chosen(), 0
	if g := r.shown().form.owner(field); g != nil {
		closest = len(g.rootOf(field))
	}
	for i, a := range r.acts {
		if g := a.form.owner(field); g != nil && len(g.rootOf(field)) > closest {
			best, closest = i, len(g.rootOf(field))
		}
	}
	if best != r.words.Chosen() {
		r.show(best)
	}
}
