package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"flatwright/engine"
	"flatwright/engine/draw"
	"flatwright/widgets"
)

// newGlueAct makes the act in which the bed is made flat and the gluing planned.
func newGlueAct(s *Session) (*act, *glueAct) {
	a := &act{name: "Glue", first: "surveys", form: newForm(s, glueGroups)}
	s.Watch(a.form.Show)
	v := &glueAct{bed: newBedDrawing(s), plan: newGlueUpDrawing(s)}
	v.twoSides = newTwoSides(a,
		sideOfAct{"Bed", v.bed.content, v.bed.board, v.bed.hide, newCardPane(s, bedCards)},
		sideOfAct{"Glue and clamps", v.plan.content, v.plan.board, v.plan.hide, newCardPane(s, glueUpCards)})
	return a, v
}

// glueAct is the two sides of the act Glue: the bed, and what is spread and pressed
// on it.
type glueAct struct {
	*twoSides
	bed  *bedDrawing
	plan *glueUpDrawing
}

// bedDrawing is the centre of the act Glue: maps of the surveys, what to lay
// where, and the top that comes off the bed, one at a time.
type bedDrawing struct {
	session *Session
	board   *widgets.Board
	which   *pressableLine
	said    *widgets.Text
	content fyne.CanvasObject

	shown  int // of the pictures there are
	hidden bool
}

func newBedDrawing(s *Session) *bedDrawing {
	d := &bedDrawing{session: s, board: newScaledBoard(s), said: widgets.NewNote("", widgets.ColorPencil), hidden: true}
	d.which = newPressableLine(func() {
		d.shown++
		d.show(s.Now())
	})
	above := container.New(margins{side: 8}, container.New(widgets.NewColumn(0), d.which.content, d.said))
	d.content = container.NewBorder(above, nil, nil, nil, d.board)
	s.Watch(d.show)
	return d
}

func (d *bedDrawing) hide(hidden bool) {
	d.hidden = hidden
	showIf(d.content, !hidden)
	d.show(d.session.Now())
}

func (d *bedDrawing) show(s Snapshot) {
	if d.hidden {
		return
	}
	if s.Result.Blocked() {
		d.which.set("")
		d.said.Set("▲ There is nothing to glue until the design is put right.", widgets.ColorPencil)
		d.board.SetFigure(draw.Figure{})
		return
	}
	pictures := bedPictures(s)
	if len(pictures) == 0 {
		d.which.set("")
		d.said.Set(unsurveyed(s.Design), widgets.ColorPencil)
		d.board.SetFigure(panelFigure(s, d.board.Size()))
		return
	}
	d.shown %= len(pictures)
	p := pictures[d.shown]
	text := capital(p.name)
	if len(pictures) > 1 {
		text += ". Press here for " + pictures[(d.shown+1)%len(pictures)].name + "."
	}
	d.which.set(text)
	figure, said := p.figure()
	d.said.Set(said, widgets.ColorPencil)
	d.board.SetFigure(figure)
}

// unsurveyed says what is to be done while nothing can be drawn of the bed.
func unsurveyed(d engine.Design) string {
	for _, survey := range d.Surveys {
		for _, l := range survey.Lines {
			if len(l.Readings) > 0 {
				return "Too little is read yet to draw a surface: type the other lines at the left, too. What is still missing stands at the right."
			}
		}
	}
	return "Nothing is measured yet. Mark a grid of stations on the bed, add a survey at the left, and type what you read: each line that is complete counts at once."
}

// bedPicture is one thing that the centre can show.
type bedPicture struct {
	name   string
	figure func() (draw.Figure, string) // with a line of words about it
}

// bedPictures are the pictures that there is something to show of.
func bedPictures(s Snapshot) []bedPicture {
	var out []bedPicture
	b := &s.Result.Bed
	for i := range b.Surveys {
		if b.Surveys[i].Flat == nil || i >= len(s.Design.Surveys) {
			continue
		}
		out = append(out, bedPicture{"the map of " + surveyName(s.Design.Surveys[i], i), func() (draw.Figure, string) {
			return engine.BedMap(s.Design, s.Result, i, s.Lengths), ""
		}})
	}
	if !b.Laid() {
		return out
	}
	if plan := b.Ways[b.Best].Plan; len(b.Plans[plan].Shims) > 0 {
		out = append(out, bedPicture{"what to lay where", func() (draw.Figure, string) {
			return engine.ShimMap(s.Design, s.Result, plan, s.Lengths), "Shims on the bed for the flattest top, in " + engine.UnitWord(s.Lengths) + ": " + countOf(len(b.Plans[plan].Shims), "place", "places") + "."
		}})
	}
	return append(out, bedPicture{"the top that comes off the bed", func() (draw.Figure, string) {
		figure, times := engine.BedSection(s.Design, s.Result, s.Lengths)
		return figure, engine.BedSectionCaption(times)
	}})
}
