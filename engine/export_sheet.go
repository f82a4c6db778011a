package engine

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"flatwright/engine/nest"
	"flatwright/engine/vector"
)

// laidPiece is one piece on a sheet: x along the sheet's length, y along its
// width from one corner of it as bought, mm.
type laidPiece struct {
	shape
	id string
	at nest.Placement
}

// laidPieces are the pieces on a sheet. One that the shapes do not have is a plain
// board of its size.
func (l LaidSheet) laidPieces(shapes []shape) []laidPiece {
	var out []laidPiece
	for _, at := range l.Sheet().Parts {
		p := laidPiece{id: l.Stock.PieceOf(at), at: at}
		long, wide := at.Length, at.Width
		if at.Turned {
			long, wide = wide, long
		}
		p.shape = shape{Piece: Piece{Length: long, Width: wide, Grain: GrainFree, Outline: rect(0, 0, long, wide)}}
		for _, s := range shapes {
			for _, q := range s.pieces {
				if q.ID == p.id {
					p.shape = s
				}
			}
		}
		out = append(out, p)
	}
	return out
}

// on moves a drawing of the piece to its place on the sheet, turned to the left by
// a quarter if its length runs along the sheet's width; it is never mirrored.
func (p laidPiece) on(d vector.Drawing) vector.Drawing {
	place := func(q vector.Point) vector.Point {
		if p.at.Turned {
			q = vector.Point{X: p.Width - q.Y, Y: q.X}
		}
		return vector.Point{X: p.at.X + q.X, Y: p.at.Y + q.Y}
	}
	for i := range d.Paths {
		for k, q := range d.Paths[i].Points {
			d.Paths[i].Points[k] = place(q)
		}
	}
	for i := range d.Circles {
		d.Circles[i].Centre = place(d.Circles[i].Centre)
	}
	for i := range d.Words {
		d.Words[i].At = place(d.Words[i].At)
		if p.at.Turned {
			d.Words[i].Angle += math.Pi / 2
		}
	}
	return d
}

// cutText is the height of the numbers at the cuts, mm.
const cutText = 12.0

// drawing returns a sheet with its pieces, its saw cuts and their numbers.
func (l LaidSheet) drawing(d Design, shapes []shape) vector.Drawing {
	s, job := l.Sheet(), l.Stock.Job
	m, _ := d.Material(l.Stock.Material)
	cuts := l.Stock.cutsOf(l.Index)
	out := vector.Drawing{
		Title: fmt.Sprintf("%s: sheet %d, %s × %s × %s mm, %s", d.Name, l.Number, decimal(s.Sheet.Length), decimal(s.Sheet.Width), decimal(l.Stock.Thickness), m.Name),
		Notes: []string{
			fmt.Sprintf("%d pieces, %d saw cuts, kerf %s mm, %s mm trimmed off every edge first", len(s.Parts), len(cuts), decimal(job.Kerf), decimal(s.Sheet.Trim)),
			"SHEET is the sheet as bought. SAW_CUT is the middle of each kerf, numbered in the order of work.",
			layerNote,
		},
		Paths: []vector.Path{(shape{}).line(vector.Sheet, rect(0, 0, s.Sheet.Length, s.Sheet.Width))},
	}
	for _, p := range l.laidPieces(shapes) {
		part := p.on(p.lines(p.id+", "+p.sizes(), p.id, p.Mark))
		out.Paths = append(out.Paths, part.Paths...)
		out.Circles = append(out.Circles, part.Circles...)
		out.Words = append(out.Words, part.Words...)
	}
	for _, c := range cuts {
		line, words := sawCut(c, job.Kerf, s.Sheet)
		out.Paths, out.Words = append(out.Paths, line), append(out.Words, words)
	}
	for _, r := range s.Leftovers {
		if !r.Useful {
			continue
		}
		text := fmt.Sprintf("left over, %s × %s", decimal(r.Length), decimal(r.Width))
		tall := min(cutText, r.Width/3, r.Length/float64(len([]rune(text))))
		out.Words = append(out.Words, vector.Words{At: vector.Point{X: r.X + tall, Y: r.Y + r.Width/2}, Height: tall, Text: text})
	}
	return out
}

// sawCut is the middle of a kerf, which at a trimmed edge may lie beside the
// sheet and is then drawn on its edge, and the cut's number where it begins.
func sawCut(c nest.Cut, kerf float64, s nest.Sheet) (vector.Path, vector.Words) {
	middle, p := c.At+kerf/2, c.Piece
	a, b := vector.Point{X: p.X, Y: middle}, vector.Point{X: p.X + p.Length, Y: middle}
	if c.Across {
		a, b = vector.Point{X: middle, Y: p.Y}, vector.Point{X: middle, Y: p.Y + p.Width}
	}
	words := vector.Words{Height: cutText, Text: strconv.Itoa(c.Number)}
	if c.Across {
		words.Angle = math.Pi / 2
	}
	path := vector.Path{Layer: vector.SawCut, Open: true, Points: []vector.Point{a, b}}
	for i, q := range path.Points {
		path.Points[i] = vector.Point{X: min(max(q.X, 0), s.Length), Y: min(max(q.Y, 0), s.Width)}
	}
	words.At = path.Points[0]
	return path, words
}

// source says where a sheet comes from.
func (l LaidSheet) source() string {
	switch {
	case l.Sheet().Sheet.Offcut:
		return "offcut on hand"
	case l.Stock.onHand[l.Sheet().Stock]:
		return "on hand"
	}
	return "to buy"
}

// sheetsCSV writes the sheets that everything is cut from.
func sheetsCSV(w io.Writer, d Design, plan CutPlan, shapes []shape) error {
	rows := [][]string{{"sheet", "material", "thickness mm", "length mm", "width mm", "from", "price", "pieces", "useful leftovers mm", "drawing"}}
	for _, l := range plan.Sheets() {
		s := l.Sheet()
		m, _ := d.Material(l.Stock.Material)
		price := ""
		if l.Stock.Priced && !l.Stock.Assumed {
			price = decimal(s.Sheet.Price)
		}
		var pieces, left []string
		for _, p := range l.laidPieces(shapes) {
			pieces = append(pieces, p.id)
		}
		for _, r := range s.Leftovers {
			if r.Useful {
				left = append(left, decimal(r.Length)+" × "+decimal(r.Width))
			}
		}
		rows = append(rows, []string{strconv.Itoa(l.Number), m.Name, decimal(l.Stock.Thickness), decimal(s.Sheet.Length), decimal(s.Sheet.Width), l.source(), price,
			strings.Join(pieces, " | "), strings.Join(left, " | "), l.file()})
	}
	return writeCSV(w, rows)
}

// file is the name of a sheet's drawings without the suffix.
func (l LaidSheet) file() string { return fmt.Sprintf("sheet-%d", l.Number) }

// cutsCSV writes the cuts of every sheet in the order of work.
func cutsCSV(w io.Writer, plan CutPlan) error {
	rows := [][]string{{"sheet", "cut", "what", "fence mm", "fence setting", "which edge", "blade runs", "piece length mm", "piece width mm"}}
	for _, l := range plan.Sheets() {
		for _, c := range l.Stock.cutsOf(l.Index) {
			what, way, side := "cut", "along", "near edge at the fence"
			switch {
			case c.Trim:
				what = "trim a raw edge"
			case c.Breaking:
				what = "heavy: cut it where it lies"
			}
			if c.Across {
				way = "across"
			}
			if c.Far {
				side = "far edge at the fence"
			}
			rows = append(rows, []string{strconv.Itoa(l.Number), strconv.Itoa(c.Number), what, decimal(c.Fence), strconv.Itoa(c.Setting), side, way, decimal(c.Piece.Length), decimal(c.Piece.Width)})
		}
	}
	return writeCSV(w, rows)
}

// untold says what is not on any sheet, and what the sheets rest on.
func (p CutPlan) untold(d Design) []string {
	var out []string
	for _, s := range p.Stocks {
		m, _ := d.Material(s.Material)
		what := m.Name + ", " + inMM(s.Thickness) + ": "
		switch {
		case s.Trouble != "":
			out = append(out, what+s.Trouble)
		case len(s.Plan.Unplaced) > 0:
			out = append(out, what+s.Standing())
		case s.Assumed:
			out = append(out, fmt.Sprintf("%sno sheet is listed, so sheets of %s × %s are assumed.", what, inMM(UsualSheetLength), inMM(UsualSheetWidth)))
		}
	}
	return out
}
