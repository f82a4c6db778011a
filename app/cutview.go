package app

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"flatwright/engine"
	"flatwright/engine/draw"
	"flatwright/widgets"
)

// newCutAct makes the act in which the parts are laid on sheets and their slots
// planned.
func newCutAct(s *Session, keepLeftovers func()) (*act, *cutAct) {
	a := &act{name: "Cut", first: "stock", form: newForm(s, cutGroups(keepLeftovers))}
	s.Watch(a.form.Show)
	v := &cutAct{sheets: newCutDrawing(s), slots: newSlotDrawing(s)}
	v.twoSides = newTwoSides(a,
		sideOfAct{"Sheets", v.sheets.content, v.sheets.board, v.sheets.hide, newCardPane(s, cutCards)},
		sideOfAct{"Slots", v.slots.content, v.slots.board, v.slots.hide, newCardPane(s, slotCards)})
	a.hide = func(hidden bool) {
		s.WantCut(!hidden)
		v.hide(hidden)
	}
	return a, v
}

// cutAct is the two sides of the act Cut: what comes out of which sheet, and how
// the slots come into the ribs.
type cutAct struct {
	*twoSides
	sheets *cutDrawing
	slots  *slotDrawing
}

// cutDrawing is the centre of the act Cut: the sheets with the parts on them.
type cutDrawing struct {
	session *Session
	board   *widgets.Board
	search  *pressableLine // how far the search is
	which   *pressableLine // which sheets are drawn
	content fyne.CanvasObject

	allRoom     // of the board: how the sheets stand depends on it
	only    int // number of the one sheet that shows, 0 is all
	hidden  bool
}

func newCutDrawing(s *Session) *cutDrawing {
	d := &cutDrawing{session: s, board: newPartsBoard(s), hidden: true}
	d.changed = func() { d.show(s.Now()) }
	d.search = newPressableLine(func() {
		if s.Now().Cut.Running {
			s.StopCut()
		} else {
			s.SearchCut()
		}
	})
	d.which = newPressableLine(func() {
		d.only = (d.only + 1) % (len(s.Now().Cut.Plan.Sheets()) + 1)
		d.show(s.Now())
	})
	above := container.New(margins{side: 8}, container.New(widgets.NewColumn(0), d.search.content, d.which.content))
	d.content = container.NewBorder(above, nil, nil, nil, container.New(d, d.board))
	s.Watch(d.show)
	return d
}

// hide says whether the drawing is behind another one.
func (d *cutDrawing) hide(hidden bool) {
	d.hidden = hidden
	showIf(d.content, !hidden)
	d.show(d.session.Now())
}

func (d *cutDrawing) show(s Snapshot) {
	if d.hidden {
		return
	}
	sheets := s.Cut.Plan.Sheets()
	if d.only > len(sheets) {
		d.only = 0
	}
	d.search.set(searchText(s))
	d.which.set(whichText(len(sheets), d.only))
	room := widgets.BoardRoom(d.room)
	d.board.SetFigure(engine.SheetsDrawing(s.Design, s.Cut.Plan, engine.SheetsOptions{
		Lengths: s.Lengths, Only: d.only, Plan: true, Room: draw.Point{X: float64(room.Width), Y: float64(room.Height)},
	}))
}

// searchText says how far the search for a layout is.
func searchText(s Snapshot) string {
	c := s.Cut
	switch {
	case s.Result.Blocked():
		return "▲ There are no parts to lay out until the design is put right."
	case c.Running && !c.Found:
		return "Laying the parts out…"
	case c.Running:
		return "Looking for a better layout, " + strconv.Itoa(int(100*c.Done)) + " % done. Press here to stop with the best one found."
	case c.Stopped && (!c.Found || !c.Plan.Whole()):
		return "▲ Stopped before every part was laid out. Press here to search again."
	case c.Stopped:
		return "▲ Stopped: the best layout found so far. Press here to search again."
	}
	return ""
}

// whichText says which sheets are drawn.
func whichText(n, only int) string {
	switch {
	case n < 2:
		return ""
	case only == 0:
		return "All " + strconv.Itoa(n) + " sheets. Press here for one at a time."
	}
	return "Sheet " + strconv.Itoa(only) + " of " + strconv.Itoa(n) + ". Press here for the next one."
}

// pressableLine is a small line of text that acts when it is pressed, and hides
// while there is nothing to say.
type pressableLine struct {
	text    *widgets.Text
	content *fyne.Container
}

func newPressableLine(act func()) *pressableLine {
	l := &pressableLine{text: widgets.NewNote("", widgets.ColorPencil)}
	l.content = container.NewStack(widgets.NewPressable(l.text, act))
	l.content.Hide()
	return l
}

func (l *pressableLine) set(text string) {
	l.text.Set(text, widgets.ColorPencil)
	if visible := text != ""; visible != l.content.Visible() {
		showIf(l.content, visible)
	}
}

// showIf shows or hides an object.
func showIf(o fyne.CanvasObject, visible bool) {
	if visible {
		o.Show()
	} else {
		o.Hide()
	}
}
