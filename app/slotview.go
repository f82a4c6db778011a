package app

import (
	"context"
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine"
	"flatwright/engine/draw"
	"flatwright/engine/length"
	"flatwright/engine/saw"
	"flatwright/widgets"
)

// slotDrawing is the centre of the act Cut while slots are looked at: one rib
// with its slots above, and below it a stack of such ribs under the round blade
// of the rail saw.
type slotDrawing struct {
	session *Session
	board   *widgets.Board // the rib
	which   *pressableLine
	pack    *stackView
	content fyne.CanvasObject

	group  int
	hidden bool
}

func newSlotDrawing(s *Session) *slotDrawing {
	d := &slotDrawing{session: s, board: newPartsBoard(s), hidden: true}
	d.which = newPressableLine(func() {
		d.group++
		d.show(s.Now())
	})
	d.pack = newStackView(s)
	above := container.New(margins{side: 8}, d.which.content)
	split := container.NewVSplit(container.NewBorder(above, nil, nil, nil, d.board), d.pack.content)
	split.Offset = 0.45
	d.content = split
	s.Watch(d.show)
	return d
}

func (d *slotDrawing) hide(hidden bool) {
	d.hidden = hidden
	showIf(d.content, !hidden)
	d.show(d.session.Now())
}

func (d *slotDrawing) show(s Snapshot) {
	if d.hidden {
		return
	}
	groups := s.Result.SlotWork.Groups
	none := len(groups) == 0 || s.Result.Blocked()
	showIf(d.pack.content, !none)
	if none {
		d.which.set("▲ There are no slots to show until the design is put right.")
		if !s.Result.Blocked() {
			d.which.set("There are no slots to show yet.")
		}
		d.board.SetFigure(draw.Figure{})
		return
	}
	d.group %= len(groups)
	g := groups[d.group]
	text := groupName(g)
	if len(groups) > 1 {
		text += ". Press here for the next kind."
	}
	d.which.set(text)
	for _, p := range s.Result.Parts {
		if p.ID == g.Parts[0] {
			d.board.SetFigure(s.Design.RibDrawing(p, s.Lengths))
		}
	}
	d.pack.show(s, g)
}

// stackView shows a stack of ribs under a round blade, with sliders for how many
// lie in it and how far the blade reaches into the board below.
type stackView struct {
	session *Session
	board   *widgets.Board
	boards  *widget.Slider
	plunge  *widget.Slider
	said    *widgets.Text
	rated   *widgets.Text
	content fyne.CanvasObject

	snap   Snapshot
	group  engine.SlotGroup
	stack  saw.Stack
	cancel func()
}

// deepestPlunge bounds the slider, mm: a board under the stack is no thicker.
// Common practice, no source.
const deepestPlunge = 40

func newStackView(s *Session) *stackView {
	v := &stackView{session: s, board: newScaledBoard(s), boards: widget.NewSlider(1, 2), plunge: widget.NewSlider(0, deepestPlunge),
		said: widgets.NewText("", widgets.ColorInk), rated: widgets.NewNote("", widgets.ColorPencil), cancel: func() {}}
	v.boards.Step, v.plunge.Step = 1, 1
	v.boards.Value, v.plunge.Value = 2, saw.UsualPlunge
	v.boards.OnChanged = func(float64) { v.draw() }
	v.plunge.OnChanged = func(float64) { v.draw() }
	rate := widget.NewButton("What that does to the ribs", v.rate)
	controls := container.New(widgets.NewColumn(4),
		widgets.NewHeading("Stacked flat under a rail saw"),
		widgets.NewText("Ribs in the stack", widgets.ColorPencil), v.boards,
		widgets.NewText("Plunge into the board below", widgets.ColorPencil), v.plunge,
		v.said, rate, v.rated)
	pane := widgets.NewPane(container.New(margins{side: 8, top: 4, bottom: 8}, controls), formWidth)
	v.content = container.NewBorder(nil, nil, pane, nil, v.board)
	return v
}

// show leaves stack and rating alone while they are those of the same design: the
// session tells its watchers of much else.
func (v *stackView) show(s Snapshot, g engine.SlotGroup) {
	if s.Revision == v.snap.Revision && s.Stale == v.snap.Stale && s.Lengths == v.snap.Lengths && reflect.DeepEqual(g, v.group) {
		v.snap = s
		return
	}
	v.snap, v.group = s, g
	most := float64(max(len(g.Parts), 2))
	if v.boards.Max != most {
		v.boards.Max = most
		v.boards.Value = min(v.boards.Value, most)
		v.boards.Refresh()
	}
	v.draw()
}

// draw shows the stack that the sliders ask for.
func (v *stackView) draw() {
	v.cancel()
	v.rated.Set("", widgets.ColorPencil)
	blade := v.snap.Result.SlotWork.Tools.Rail
	if !(blade.Blade > 0) {
		v.board.SetFigure(engine.StackDrawing(saw.Stack{}, v.group.Kind, 0, v.snap.Lengths))
		v.said.Set("No rail saw is among your tools.", widgets.ColorPencil)
		return
	}
	v.stack = saw.Stack{Diameter: blade.Blade, Boards: int(v.boards.Value), Thickness: v.group.Job.Thickness, Plunge: v.plunge.Value}
	v.board.SetFigure(engine.StackDrawing(v.stack, v.group.Kind, v.group.Job.Depth, v.snap.Lengths))
	v.said.Set(stackText(v.stack, v.snap.Result.SlotWork.Tools, v.snap.Lengths))
}

// stackText says what the stack comes to.
func stackText(s saw.Stack, t saw.Tools, f length.Format) (string, fyne.ThemeColorName) {
	head := countOf(s.Boards, "rib", "ribs") + ", plunge " + f.Print(s.Plunge) + ". "
	past, err := s.Overrun()
	switch {
	case err != nil:
		return "■ " + head + "The blade would have to reach down by more than half of itself: fewer ribs, or less plunge.", widgets.ColorOver
	case t.Rail.Reach > 0 && s.Exposure() > t.Rail.Reach:
		return "■ " + head + "The saw reaches " + f.Print(t.Rail.Reach) + ", this takes " + f.Print(s.Exposure()) + ".", widgets.ColorOver
	case past > t.Overrun:
		return "▲ " + head + "Cut home in the lowest, the uppermost is cut " + length.Sag(past, f) + " past its mark: more than the " + f.Print(t.Overrun) + " you put up with.", widgets.ColorNear
	}
	return "● " + head + "Cut home in the lowest, the uppermost is cut " + length.Sag(past, f) + " past its mark.", widgets.ColorGood
}

// rate computes the top with slots as deep as the stack makes them.
func (v *stackView) rate() {
	past, err := v.stack.Overrun()
	if err != nil {
		return
	}
	snap, kind := v.snap, v.group.Kind
	v.rated.Set("Computing…", widgets.ColorPencil)
	var effect engine.OverrunEffect
	v.cancel = v.session.Background(func(ctx context.Context) (err error) {
		effect, err = engine.RateOverrun(ctx, snap.Design, snap.Result, kind, past)
		return err
	}, func(err error) {
		if err != nil {
			return // the sliders have moved on, or the design has
		}
		text := ""
		for i, line := range effect.Lines() {
			if i > 0 {
				text += " "
			}
			text += inUnit(line, snap.Lengths)
		}
		v.rated.Set(text, widgets.ColorInk)
	})
}
