package app

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// drawing is the centre pane: plan and sections of the last design that could
// be computed, and a line above them when that is not the present one.
type drawing struct {
	session *Session
	board   *widgets.Board
	note    *widgets.Text
	content fyne.CanvasObject

	snap Snapshot // whose figure shows; Stale until there is one
	rib  string   // whose elevation shows, "" for none
}

func newDrawing(s *Session) *drawing {
	d := &drawing{session: s, board: widgets.NewBoard(), note: widgets.NewText("", widgets.ColorNear)}
	d.snap.Stale = true
	d.board.OnHover = s.Hover
	d.board.OnSelect = s.Select
	d.board.ScaleBar = func(limit float64) (float64, string) { return scaleBar(limit, d.snap.Lengths) }
	d.content = container.NewBorder(container.New(margins{side: 8}, d.note), nil, nil, nil, d.board)
	d.note.Hide()
	s.Watch(d.Show)
	s.WatchFocus(d.follow)
	return d
}

// Show draws the snapshot, once its result is there and can be drawn.
func (d *drawing) Show(s Snapshot) {
	d.setNote(drawingNote(s))
	if s.Stale || s.Result.Blocked() {
		return
	}
	if !d.snap.Stale && s.Revision == d.snap.Revision && s.Lengths == d.snap.Lengths {
		return
	}
	d.snap = s
	d.rib = ribOf(s.Result, d.session.Focus().Part)
	d.draw()
}

func (d *drawing) draw() {
	d.board.SetFigure(engine.Drawing(d.snap.Design, d.snap.Result, engine.DrawingOptions{
		Lengths: d.snap.Lengths, Rib: d.rib, Case: -1,
	}))
}

// follow shows what is picked and pointed at, and the elevation of a picked
// rib.
func (d *drawing) follow(f Focus) {
	d.board.SetSelected(f.Part)
	d.board.SetHovered(f.Hover)
	if d.snap.Stale {
		return
	}
	if rib := ribOf(d.snap.Result, f.Part); rib != d.rib {
		d.rib = rib
		d.draw()
	}
}

func (d *drawing) setNote(text string) {
	if text == "" {
		d.note.Hide()
	} else {
		d.note.Set(text, widgets.ColorNear)
		d.note.Show()
	}
}

// drawingNote says when the drawing is not of the present design.
func drawingNote(s Snapshot) string {
	if s.Err != nil || (!s.Stale && s.Result.Blocked()) {
		return "▲ The drawing shows the last design that could be computed."
	}
	return ""
}

// ribOf returns part if it is a rib of the result, else "".
func ribOf(r engine.Result, part string) string {
	for _, p := range r.Parts {
		if p.ID == part && (p.Kind == engine.LengthwisePart || p.Kind == engine.CrosswisePart) {
			return part
		}
	}
	return ""
}

// scaleBar returns the longest round length within limit mm, and its label:
// 1, 2 or 5 times a power of ten in mm, or a division of the inch or foot.
func scaleBar(limit float64, f length.Format) (mm float64, label string) {
	unit, steps := 1.0, []float64{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000, 50000}
	if f.Imperial {
		unit, steps = length.Inch, []float64{1. / 16, 1. / 8, 1. / 4, 1. / 2, 1, 2, 4, 6, 12, 24, 48, 120, 240, 480, 1200}
	}
	mm = unit * steps[0]
	for _, step := range steps {
		if unit*step <= limit {
			mm = unit * step
		}
	}
	return mm, f.Print(mm)
}

// partText names a part in one line: "L2 - lengthwise rib, 1 500 × 90 × 12 mm".
func partText(s Snapshot, id string) string {
	for _, p := range s.Result.Parts {
		if p.ID != id {
			continue
		}
		f := s.Lengths
		sizes := []string{f.Print(p.Length), f.Print(p.Width), f.Print(p.Thickness)}
		text := p.Name + ": " + strings.Join(sizes, " × ")
		if p.Mass > 0 {
			text += ", " + length.Mass(p.Mass, f)
		}
		if n := len(p.Slots); n > 0 {
			text += ", " + countOf(n, "slot", "slots")
		}
		return text
	}
	return id
}
