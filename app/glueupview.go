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
	d := &glueUpDrawing{session: s, board: widgets.NewBoard(), said: widgets.NewNote("", widgets.ColorPencil), hidden: true}
	d.board.OnHover = s.Hover
	d.board.OnSelect = s.Select
	d.board.ScaleBar = func(limit float64) (float64, string) { return scaleBar(limit, s.Now().Lengths) }
	d.content = container.NewBorder(container.New(margins{side: 8}, container.New(widgets.NewColumn(0), d.said)), nil, nil, nil, d.board)
	s.Watch(d.show)
	s.WatchFocus(d.follow)
	return d
}

// follow marks what is picked and lights up what is pointed at.
func (d *glueUpDrawing) follow(f Focus) {
	if !d.hidden {
		d.board.SetSelected(f.Part)
		d.board.SetHovered(f.Hover)
	}
}

func (d *glueUpDrawing) hide(hidden bool) {
	d.hidden = hidden
	showIf(d.content, !hidden)
	d.show(d.session.Now())
	d.follow(d.session.Focus())
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
