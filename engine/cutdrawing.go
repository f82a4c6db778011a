package engine

import (
	"fmt"
	"math"
	"strconv"

	"flatwright/engine/draw"
	"flatwright/engine/length"
	"flatwright/engine/nest"
)

// SheetsOptions says how sheets are drawn.
type SheetsOptions struct {
	Lengths length.Format
	Room    draw.Point // width and height of what it is drawn on; zero is not known
	Only    int        // number of the one sheet to draw, from 1; 0 is all
	Plan    bool       // the plan of the panel stands behind the last sheet, so that what is pointed at lights up in both
}

// LaidSheet is one sheet of a plan with its number, from 1 over all stocks.
type LaidSheet struct {
	Number int
	Stock  StockCut
	Index  int // in Stock.Plan.Sheets
}

// Sheet returns what becomes of the sheet.
func (l LaidSheet) Sheet() nest.CutSheet { return l.Stock.Plan.Sheets[l.Index] }

// Sheets lists the sheets of all stocks.
func (p CutPlan) Sheets() []LaidSheet {
	var out []LaidSheet
	for _, s := range p.Stocks {
		for i := range s.Plan.Sheets {
			out = append(out, LaidSheet{len(out) + 1, s, i})
		}
	}
	return out
}

// SheetPart is the part ID under which a sheet is drawn.
func SheetPart(number int) string { return fmt.Sprintf("sheet %d", number) }

// SheetsDrawing draws the sheets of a plan with their parts, their cuts,
// numbered in the order of work, and what is left over. Parts have the IDs that
// they have in the plan of the panel.
func SheetsDrawing(d Design, p CutPlan, o SheetsOptions) draw.Figure {
	var f draw.Figure
	sheets := p.Sheets()
	if o.Only > 0 && o.Only <= len(sheets) {
		sheets = sheets[o.Only-1 : o.Only]
	}
	if len(sheets) == 0 {
		return f
	}
	if o.Room.X <= 0 || o.Room.Y <= 0 {
		o.Room = draw.Point{X: 2, Y: 1}
	}
	var sizes []draw.Point
	for _, l := range sheets {
		sizes = append(sizes, draw.Point{X: l.Sheet().Sheet.Length, Y: l.Sheet().Sheet.Width})
	}
	if o.Plan {
		sizes = append(sizes, draw.Point{X: d.Length, Y: d.Width})
	}
	places := inRows(sizes, o.Room)
	for i, l := range sheets {
		v := sheetView{Figure: &f, d: d, l: l, at: places[i], f: o.Lengths}
		v.draw()
	}
	if o.Plan {
		whereItGoes(&f, d, places[len(sheets)])
	}
	return f
}

// whereItGoes draws the panel from above, without its top skin, for seeing where
// a part of a sheet belongs; at is its lower left corner. The top skin is an
// outline around the others.
func whereItGoes(f *draw.Figure, d Design, at draw.Point) {
	for _, p := range d.Parts() {
		points := rect(at.X+p.Place.X0, at.Y+p.Place.Y0, at.X+p.Place.X1, at.Y+p.Place.Y1)
		if p.ID == TopSeam {
			f.Areas = append(f.Areas, draw.Area{Points: points, Pen: draw.Outline, Part: p.ID})
			continue
		}
		fill, hatch := look(p.Kind)
		f.Areas = append(f.Areas, draw.Area{Points: points, Fill: fill, Hatch: hatch, Pen: draw.Thin, Part: p.ID})
	}
	f.Notes = append(f.Notes, draw.Note{At: draw.Point{X: at.X, Y: at.Y + d.Width}, Anchor: draw.AtBottomLeft, Text: "Where it goes: plan without the top skin", Bold: true,
		Else: []string{"Where it goes", "Plan"}, Room: above(d.Length)})
}

// sheetGap is the room between two sheets of a drawing, as a part of the
// largest: for a line of text.
const sheetGap = 0.09

// inRows returns the lower left corners of things of those sizes in as many
// columns as let them be drawn largest in a room.
func inRows(sizes []draw.Point, room draw.Point) []draw.Point {
	var long, wide, scale float64
	for _, s := range sizes {
		long, wide = math.Max(long, s.X), math.Max(wide, s.Y)
	}
	gap := sheetGap * math.Max(long, wide)
	columns := 1
	for c := 1; c <= len(sizes); c++ {
		rows := float64((len(sizes) + c - 1) / c)
		if s := math.Min(room.X/(float64(c)*(long+gap)), room.Y/(rows*(wide+gap))); s > scale {
			scale, columns = s, c
		}
	}
	places := make([]draw.Point, len(sizes))
	for i := range sizes {
		places[i] = draw.Point{X: float64(i%columns) * (long + gap), Y: -float64(i/columns) * (wide + gap)}
	}
	return places
}

// sheetView draws one sheet with its lower left corner at a point.
type sheetView struct {
	*draw.Figure
	d  Design
	l  LaidSheet
	at draw.Point
	f  length.Format
}

func (v *sheetView) draw() {
	s := v.l.Sheet()
	sheet, whole := SheetPart(v.l.Number), nest.Rectangle{Length: s.Sheet.Length, Width: s.Sheet.Width}
	v.Areas = append(v.Areas, draw.Area{Points: v.box(whole), Fill: draw.Cut, Part: sheet})
	for _, r := range s.Leftovers {
		if r.Useful {
			v.Areas = append(v.Areas, draw.Area{Points: v.box(r.Rectangle), Fill: draw.Sheet, Pen: draw.Hidden, Part: sheet})
		}
	}
	for _, p := range s.Parts {
		fill, hatch := look(v.l.Stock.Parts[p.Piece].Kind)
		v.Areas = append(v.Areas, draw.Area{Points: v.box(p.Rectangle), Fill: fill, Hatch: hatch, Pen: draw.Thin, Part: v.l.Stock.PartOf(p)})
	}
	v.Areas = append(v.Areas, draw.Area{Points: v.box(whole), Pen: draw.Outline})
	v.title()
	for _, p := range s.Parts {
		q, id := v.l.Stock.Job.Pieces[p.Piece], v.l.Stock.PieceOf(p)
		v.inside(p.Rectangle, draw.Note{Ground: draw.Sheet, Part: v.l.Stock.PartOf(p)}, id+" · "+v.f.Print(q.Length)+" × "+v.f.Print(q.Width), id)
	}
	for _, r := range s.Leftovers {
		if r.Useful {
			size := v.f.Print(r.Length) + " × " + v.f.Print(r.Width)
			v.inside(r.Rectangle, draw.Note{Ground: draw.Sheet, Colour: draw.Pencil, Part: sheet}, "left: "+size, size, "left")
		}
	}
	v.cuts()
}

func (v *sheetView) box(r nest.Rectangle) []draw.Point {
	return rect(v.at.X+r.X, v.at.Y+r.Y, v.at.X+r.X+r.Length, v.at.Y+r.Y+r.Width)
}

// title names the sheet, in as many words as fit above it.
func (v *sheetView) title() {
	s := v.l.Sheet()
	number := fmt.Sprintf("Sheet %d", v.l.Number)
	state := ""
	switch {
	case s.Sheet.Offcut:
		state = " · offcut on hand"
	case v.l.Stock.onHand[s.Stock]:
		state = " · on hand"
	}
	size := v.f.Print(s.Sheet.Length) + " × " + v.f.Print(s.Sheet.Width)
	thick := v.f.Print(v.l.Stock.Thickness)
	m, _ := v.d.Material(v.l.Stock.Material)
	v.Notes = append(v.Notes, draw.Note{At: draw.Point{X: v.at.X, Y: v.at.Y + s.Sheet.Width}, Anchor: draw.AtBottomLeft, Bold: true, Part: SheetPart(v.l.Number),
		Text: number + " · " + m.Name + " " + thick + " · " + size + state,
		Else: []string{number + " · " + thick + " · " + size + state, number + state, number, strconv.Itoa(v.l.Number)}, Room: above(s.Sheet.Length)})
}

// above is the room of a title: as wide as what it stands above, and any height.
func above(width float64) draw.Rect {
	return draw.Rect{Max: draw.Point{X: width, Y: math.Inf(1)}}
}

// inside puts the first of some texts that fits into the middle of a rectangle.
func (v *sheetView) inside(r nest.Rectangle, n draw.Note, text string, shorter ...string) {
	n.At = draw.Point{X: v.at.X + r.X + r.Length/2, Y: v.at.Y + r.Y + r.Width/2}
	n.Text, n.Else, n.Room = text, shorter, draw.Rect{Max: draw.Point{X: r.Length, Y: r.Width}}
	v.Notes = append(v.Notes, n)
}

// cuts draws the cuts with their numbers, each on its kerf.
func (v *sheetView) cuts() {
	sheet := SheetPart(v.l.Number)
	for _, c := range v.l.Stock.cutsOf(v.l.Index) {
		p, kerf := c.Piece, c.At+v.l.Stock.Job.Kerf/2
		a, b := draw.Point{X: v.at.X + p.X, Y: v.at.Y + kerf}, draw.Point{X: v.at.X + p.X + p.Length, Y: v.at.Y + kerf}
		if c.Across {
			a, b = draw.Point{X: v.at.X + kerf, Y: v.at.Y + p.Y}, draw.Point{X: v.at.X + kerf, Y: v.at.Y + p.Y + p.Width}
		}
		v.Lines = append(v.Lines, draw.Line{A: a, B: b, Pen: draw.Thin, Part: sheet})
		middle := draw.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
		v.Notes = append(v.Notes, draw.Note{At: b, Or: []draw.Point{a, middle}, Text: strconv.Itoa(c.Number), Ground: draw.Sheet, Colour: draw.AccentInk, Part: sheet})
	}
}

// cutsOf returns the cuts of one sheet in the order of work.
func (s StockCut) cutsOf(sheet int) []nest.Cut {
	var out []nest.Cut
	for _, c := range s.Plan.Cuts {
		if c.Sheet == sheet {
			out = append(out, c)
		}
	}
	return out
}

// CutStep is one line of the cut order.
type CutStep struct {
	Number  int    // on its sheet, as drawn
	Text    string // what is cut
	Fence   string // its setting
	Setting int    // cuts of one number share a setting, over all sheets of the stock
	Caution string // "" is none
}

// CutSteps tells the cuts of one sheet in the order of work.
func CutSteps(l LaidSheet, f length.Format) []CutStep {
	var out []CutStep
	for _, c := range l.Stock.cutsOf(l.Index) {
		step := CutStep{Number: c.Number, Fence: f.Print(c.Fence), Setting: c.Setting}
		piece := f.Print(c.Piece.Length) + " × " + f.Print(c.Piece.Width)
		way := "along"
		if c.Across {
			way = "across"
		}
		switch {
		case c.Trim:
			step.Text = "Trim the raw edge, " + way + ", off the piece of " + piece
		default:
			step.Text = "Cut the piece of " + piece + " " + way
		}
		if c.Far {
			step.Text += "; the far side lies at the fence"
		}
		if c.Breaking {
			step.Caution = "Heavy: cut it where it lies, on supports that hold both halves, with a rail or a batten."
		}
		out = append(out, step)
	}
	return out
}
