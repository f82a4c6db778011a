package engine

import (
	"fmt"
	"math"

	"flatwright/engine/draw"
	"flatwright/engine/length"
	"flatwright/engine/saw"
)

// StackDrawing returns a stack of boards cut by a round blade that stopped when
// the lowest board was cut home, seen along the boards: their edges are at the
// left, the mark is at x = 0 and the top of the stack at y = 0. The wood that is
// left has the colour of its kind; each board tells how far it is cut past the
// mark. depth is that of the slots, mm. A stack that cannot be cut is an empty
// figure.
func StackDrawing(s saw.Stack, kind PartKind, depth float64, f length.Format) draw.Figure {
	cuts, err := s.Cuts()
	if err != nil || !(depth > 0) {
		return draw.Figure{}
	}
	v := stackView{s: s, depth: depth, f: f}
	v.x, v.z, _ = s.Centre()
	v.right = cuts[0].Upper + 0.12*s.Diameter
	for _, c := range cuts {
		v.board(c, kind)
	}
	v.bed()
	v.blade()
	v.mark()
	return v.Figure
}

// stackView collects the figure; x and z are of the blade's middle.
type stackView struct {
	draw.Figure
	s     saw.Stack
	depth float64
	f     length.Format
	x, z  float64
	right float64 // where the boards are broken off
}

// down is the point at x past the mark and z below the top of the stack.
func down(x, z float64) draw.Point { return draw.Point{X: x, Y: -z} }

// arc returns points on the blade's leading side from depth a to depth b, mm
// below the top of the stack.
func (v *stackView) arc(a, b float64) []draw.Point {
	const steps = 12
	r := v.s.Diameter / 2
	out := make([]draw.Point, steps+1)
	for i := range out {
		z := a + (b-a)*float64(i)/steps
		out[i] = down(v.x+math.Sqrt(math.Max(0, r*r-(z-v.z)*(z-v.z))), z)
	}
	return out
}

// board draws what is left of one board and how far it is cut.
func (v *stackView) board(c saw.Cut, kind PartKind) {
	top := float64(c.Board-1) * v.s.Thickness
	low := top + v.s.Thickness
	fill, hatch := look(kind)
	v.Areas = append(v.Areas,
		draw.Area{Points: []draw.Point{down(-v.depth, top), down(c.Upper, top), down(c.Lower, low), down(-v.depth, low)}, Pen: draw.Thin},
		draw.Area{Points: append(v.arc(top, low), down(v.right, low), down(v.right, top)), Fill: fill, Hatch: hatch, Pen: draw.Thin})
	v.beside((top+low)/2, fmt.Sprintf("board %d: %s past the mark", c.Board, length.Sag(c.Upper, v.f)))
}

// bed draws the board under the stack, cut into by the plunge.
func (v *stackView) bed() {
	top := float64(v.s.Boards) * v.s.Thickness
	low := top + math.Max(v.s.Plunge*1.5, 0.5*v.s.Thickness)
	v.Areas = append(v.Areas, draw.Area{Points: rect(-v.depth, -low, v.right, -top), Fill: draw.Cut, Pen: draw.Thin})
	v.beside((top+low)/2, "board that may be cut into")
}

// beside writes to the right of the boards.
func (v *stackView) beside(z float64, text string) {
	v.Notes = append(v.Notes, draw.Note{At: down(v.right+0.02*v.s.Diameter, z), Anchor: draw.AtLeft, Text: text, Colour: draw.Pencil})
}

// blade draws the part of the blade's edge that lies in the wood.
func (v *stackView) blade() {
	points := v.arc(0, v.s.Exposure())
	for i := 1; i < len(points); i++ {
		v.Lines = append(v.Lines, draw.Line{A: points[i-1], B: points[i], Pen: draw.Outline})
	}
}

// mark draws the mark and measures the over-run of the uppermost board.
func (v *stackView) mark() {
	above := 0.08 * v.s.Diameter
	v.Lines = append(v.Lines, draw.Line{A: down(0, -above), B: down(0, v.s.Exposure()), Pen: draw.Accent})
	v.Notes = append(v.Notes, draw.Note{At: down(0, -above), Anchor: draw.AtBottom, Text: "mark", Bold: true, Colour: draw.AccentInk})
	past := v.arc(0, 0)[0].X
	v.Dimensions = append(v.Dimensions,
		draw.Dimension{A: down(0, 0), B: down(past, 0), Side: draw.Above, Rank: 1, Text: length.Sag(past, v.f)},
		draw.Dimension{A: down(-v.depth, v.s.Exposure()), B: down(0, v.s.Exposure()), Side: draw.Below, Rank: 1, Text: fineText(v.depth, v.f)})
}
