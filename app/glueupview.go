package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"flatwright/engine"
	"flatwright/engine/draw"
	"flatwright/widgets"
)

// glueUpDrawing is the outside face of a skin with the rib lines, the pins and what
// presses.
type glueUpDrawing struct {
	session *Session
	board   *widgets.Board
	said    *widgets.Text
	content fyne.CanvasObject
	hidden  bool
}

func newGlueUpDrawing(s *Session) *glueUpDrawing {
	d := &glueUpDrawing{session: s, board: newPartsBoard(s), said: widgets.NewNote("", widgets.ColorPencil), hidden: true}
	d.content = container.NewBorder(container.New(margins{side: 8}, container.New(widgets.NewColumn(0), d.said)), nil, nil, nil, d.board)
	s.Watch(d.show)
	return d
}

func (d *glueUpDrawing) hide(hidden bool) {
	d.hidden = hidden
	showIf(d.content, !hidden)
	d.show(d.session.Now())
}

func (d *glueUpDrawing) show(s Snapshot) {
	if d.hidden {
		return
	}
	if s.Result.Blocked() {
		d.said.Set("▲ There is nothing to glue until the design is put right.", widgets.ColorPencil)
		d.board.SetFigure(draw.Figure{})
		return
	}
	if len(s.Result.GlueUp.Splits) == 0 {
		return
	}
	d.said.Set(engine.GlueUpCaption(s.Result), widgets.ColorPencil)
	d.board.SetFigure(engine.GlueUpDrawing(s.Design, s.Result, s.Lengths))
}
