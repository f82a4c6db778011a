package app

import (
	"reflect"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"flatwright/engine"
	"flatwright/engine/draw"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// drawing is the centre pane: plan and sections of the last design that could
// be computed, a line above them when that is not the present one, and one
// that names the load case that is drawn. Loads and supports can be moved on
// it and are then drawn where they are now.
type drawing struct {
	session *Session
	board   *widgets.Board
	note    *widgets.Text
	shown   *caseLine
	move    *mover
	content fyne.CanvasObject

	design engine.Design // that shows: of snap, with loads and supports where they are now

	snap Snapshot // whose figure shows; Stale until there is one
	rib  string   // whose elevation shows, "" for none
	maps bool     // the sag map is wanted
	bent bool     // the sagged section is wanted
	load int      // load case that shows
	spot engine.Spot

	allRoom      // of the board: where sag map and sagged section stand depends on it
	hidden  bool // behind another act; what it shows is then an older snapshot
}

func newDrawing(s *Session) *drawing {
	d := &drawing{session: s, board: widgets.NewBoard(), note: widgets.NewText("", widgets.ColorNear), maps: true, bent: true}
	d.snap.Stale = true
	d.changed = func() {
		if !d.snap.Stale {
			d.draw()
		}
	}
	d.move = &mover{session: s}
	s.finish = d.move.flush
	d.shown = newCaseLine(s)
	d.board.CanDrag = func(part string) bool { return canMove(s.Now().Design, part) }
	d.board.OnDrag = d.drag
	d.board.OnNudge = func(part string, dx, dy int, coarse bool) {
		d.move.nudge(part, dx, dy, coarse)
		d.catchUp()
	}
	d.board.Belongs = func(part, name string) bool { return isOfKind(d.snap.Result, part, name) }
	d.board.OnHover = s.Hover
	d.board.OnSelect = s.Select
	d.board.OnOpen = func(part string) {
		if field := partField(s.Now().Design, part); field != "" {
			s.ShowField(field)
		}
	}
	d.board.ScaleBar = func(limit float64) (float64, string) { return scaleBar(limit, d.snap.Lengths) }
	above := container.New(margins{side: 8}, container.New(widgets.NewColumn(0), d.note, d.shown.content))
	d.content = container.NewBorder(above, nil, nil, nil, container.New(d, d.board))
	d.note.Hide()
	s.Watch(d.Show)
	s.WatchFocus(d.follow)
	return d
}

// hide says whether the drawing is behind another act. What comes to the fore
// shows the newest snapshot.
func (d *drawing) hide(hidden bool) {
	was := d.hidden
	d.hidden = hidden
	if was && !hidden {
		d.Show(d.session.Now())
		d.follow(d.session.Focus())
	}
}

// Show draws the snapshot, once its result is there and can be drawn.
func (d *drawing) Show(s Snapshot) {
	if d.hidden {
		return
	}
	note := drawingNote(s)
	if d.snap.Stale && strings.HasPrefix(note, "▲") {
		note = "▲ Nothing can be drawn of this design yet."
	}
	d.setNote(note)
	d.shown.show(s, d.session.Focus())
	if d.move.waiting != nil && !s.Stale {
		d.session.post(d.move.flush) // Show itself must not edit
	}
	if s.Stale || s.Result.Blocked() {
		d.catchUp()
		return
	}
	d.snap = s
	d.rib = ribOf(s.Result, d.session.Focus().Part)
	d.draw()
}

// catchUp draws loads and supports that have moved since the result was made.
func (d *drawing) catchUp() {
	if !d.snap.Stale && !reflect.DeepEqual(d.move.present(d.snap.Design), d.design) {
		d.draw()
	}
}

func (d *drawing) draw() {
	design := d.move.present(d.snap.Design)
	d.design = design
	d.load = caseShown(design, d.snap.Result, d.session.Focus())
	moved := !reflect.DeepEqual(design, d.snap.Design)
	d.spot = engine.Spot{}
	if !moved { // a spot of loads elsewhere would be an old figure
		d.spot = d.session.Focus().spotShown(d.snap.Revision)
	}
	roomy := d.room.Width*d.room.Height >= roomForLoad
	options := engine.DrawingOptions{Lengths: d.snap.Lengths, Rib: d.rib, Case: d.load, Spot: d.spot, Moved: moved,
		Sagged: d.bent && roomy, Room: draw.Point{X: float64(d.room.Width), Y: float64(d.room.Height)}}
	if w := d.snap.Result.Whole; d.maps && roomy && w != nil && d.load >= 0 && d.load < len(w.Cases) {
		sags := w.Cases[d.load].Map.Over(design)
		options.Sag = &sags
	}
	d.board.SetFigure(engine.Drawing(design, d.snap.Result, options))
}

// panelFigure is the panel as the other acts show it, on a board of that size.
func panelFigure(s Snapshot, room fyne.Size) draw.Figure {
	return engine.Drawing(s.Design, s.Result, engine.DrawingOptions{Lengths: s.Lengths, Case: -1,
		Room: draw.Point{X: float64(room.Width), Y: float64(room.Height)}})
}

// roomForLoad is the area of the board in square pixels from which sag map and
// sagged section show; below it the texts of the drawing overlap. Common
// practice, no source.
const roomForLoad = 130000

// toggleMap shows or hides the sag map.
func (d *drawing) toggleMap() {
	d.maps = !d.maps
	if !d.snap.Stale {
		d.draw()
	}
}

// toggleSagged shows or hides the sagged section.
func (d *drawing) toggleSagged() {
	d.bent = !d.bent
	if !d.snap.Stale {
		d.draw()
	}
}

// drag moves a load or the supports with the pointer.
func (d *drawing) drag(part string, from, to draw.Point, done bool) {
	d.move.drag(part, from, to, done)
	d.catchUp()
}

// follow shows what is picked and pointed at, the elevation of a picked rib
// and the load case that is picked.
func (d *drawing) follow(f Focus) {
	if d.hidden {
		return
	}
	d.board.SetSelected(f.Part)
	d.board.SetHovered(f.Hover)
	d.shown.show(d.session.Now(), f)
	if d.snap.Stale {
		return
	}
	rib := ribOf(d.snap.Result, f.Part)
	if rib != d.rib || caseShown(d.snap.Design, d.snap.Result, f) != d.load || f.spotShown(d.snap.Revision) != d.spot {
		d.rib = rib
		d.draw()
	}
}

func (d *drawing) setNote(text string) {
	if text == "" {
		d.note.Hide()
	} else {
		colour := fyne.ThemeColorName(widgets.ColorNear)
		if strings.HasPrefix(text, "■") {
			colour = widgets.ColorOver
		}
		d.note.Set(text, colour)
		d.note.Show()
	}
}

// drawingNote says when the drawing is not of the present design.
func drawingNote(s Snapshot) string {
	if s.Err != nil || (!s.Stale && s.Result.Blocked()) {
		return "▲ The drawing shows the last design that could be computed."
	}
	if tips := s.Result.NotHeld(); tips != "" && !s.Stale {
		return "■ " + inUnit(tips, s.Lengths)
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

// isOfKind reports whether a part of the result is of the kind of that name.
func isOfKind(r engine.Result, part, name string) bool {
	if _, foot := engine.FootOfPart(part); foot {
		return name == engine.SupportPart
	}
	for _, p := range r.Parts {
		if p.ID == part {
			return string(p.Kind) == name
		}
	}
	return false
}

// cutText names a hole, a groove, a splice or a sheet in one line, "" if the part
// is none of them.
func cutText(s Snapshot, id string) string {
	f := s.Lengths
	for i, h := range s.Design.Holes {
		if id == engine.HolePart(i) {
			return capital(countOf(max(h.Count, 1), string(h.Kind), string(h.Kind)+"s")) + ", " + f.Print(h.Diameter) + " wide: " + placeText(h.X, h.Y, f)
		}
	}
	for i, g := range s.Design.Grooves {
		if id == engine.GroovePart(i) {
			return "Groove " + strconv.Itoa(i+1) + ": " + optionLabel(skinOptions, g.Skin) + ", " + f.Print(g.Width) + " wide, " + f.Print(g.Depth) + " deep"
		}
	}
	for i, p := range s.Design.Splices {
		if id == engine.SplicePartID(i) {
			return "Splice " + strconv.Itoa(i+1) + ": " + p.Part + ", " + f.Print(p.At) + " from its datum end"
		}
	}
	for _, l := range s.Cut.Plan.Sheets() {
		if id == engine.SheetPart(l.Number) {
			sheet := l.Sheet().Sheet
			return "Sheet " + strconv.Itoa(l.Number) + ": " + sheetText(s.Design, l.Stock.Material, l.Stock.Thickness, f) + ", " + f.Print(sheet.Length) + " × " + f.Print(sheet.Width)
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
	if l := loadAt(s.Design, id); l != nil {
		if l.Kind != engine.Patch {
			return l.Name + ": " + l.Strength(s.Lengths) + ", " + engine.LoadWords(s.Design, *l, s.Lengths)
		}
		return l.Name + ": " + forceText(l.Force, s.Lengths) + ", " + placeText(l.X, l.Y, s.Lengths)
	}
	for _, line := range s.Result.Mass.ByKind {
		if string(line.Kind) == id {
			return capital(countOf(line.Count, id, id+"s")) + ", " + length.Mass(line.Mass, s.Lengths)
		}
	}
	if i, ok := engine.SeamOfPart(id); ok && i < len(s.Design.Seams) {
		return seamText(i, s.Design.Seams[i], s.Lengths)
	}
	if text := cutText(s, id); text != "" {
		return text
	}
	if i, ok := engine.FootOfPart(id); ok && i < len(s.Design.Supports.Feet) {
		foot := s.Design.Supports.Feet[i]
		return capital(s.Design.Supports.FootName(i)) + ": " + placeText(foot.X, foot.Y, s.Lengths)
	}
	if id == engine.ApronPart {
		a := s.Design.Supports.Apron
		return "Aprons, " + apronSides(a) + ": " + sheetText(s.Design, a.Material, a.Thickness, s.Lengths) + ", " + s.Lengths.Print(a.Height) + " high"
	}
	if id == engine.SupportPart {
		return "Supports: " + optionLabel(supportOptions, string(s.Design.Supports.Kind))
	}
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
