package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"flatwright/widgets"
)

// sideOfAct is a drawing in the middle of an act and the cards that belong to it.
type sideOfAct struct {
	name    string
	content fyne.CanvasObject // of the drawing
	board   *widgets.Board
	hide    func(hidden bool) // the drawing
	cards   *cardPane
}

// twoSides is an act with two of them. The tab at the right says which shows.
type twoSides struct {
	sides [2]sideOfAct
	side  *widgets.Tabs
}

// newTwoSides puts two sides beside a form. The act's hide is theirs.
func newTwoSides(a *act, first, second sideOfAct) *twoSides {
	v := &twoSides{sides: [2]sideOfAct{first, second}}
	v.side = widgets.NewTabs([]string{first.name, second.name}, []fyne.CanvasObject{first.cards.content, second.cards.content})
	v.side.OnChange = func(int) { v.hide(false) }
	a.content, a.panes = newPanes(a.form.content, container.NewStack(first.content, second.content), v.side)
	a.board, a.hide = v.board, v.hide
	a.cards = func() {
		a.panes.showResults(true)
		v.sides[v.side.Shown()].cards.takeFocus()
	}
	return v
}

// board is the drawing that shows.
func (v *twoSides) board() *widgets.Board { return v.sides[v.side.Shown()].board }

// hide says whether the act is behind another one; of its two sides one shows.
func (v *twoSides) hide(hidden bool) {
	for i, s := range v.sides {
		behind := hidden || v.side.Shown() != i
		s.hide(behind)
		s.cards.hide(behind)
	}
}
