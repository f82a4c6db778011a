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
	v.right = cuts[0].Upper + 0.35*s.Diameter // room for words
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
	const steps = 16
	r := v.s.Diameter / 2
	angle := func(z float64) float64 { return math.Acos(math.Max(-1, math.Min(1, (z-v.z)/r))) }
	from, to := angle(a), angle(b)
	out := make([]draw.Point, steps+1)
	for i := range out {
		sin, cos := math.Sincos(from + (to-from)*float64(i)/steps)
		out[i] = down(v.x+r*sin, v.z+r*cos)
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
	v.label((top+low)/2, fmt.Sprintf("board %d: %s past", c.Board, length.Sag(c.Upper, v.f)))
}

// bed draws the board under the stack with the groove that the blade leaves.
func (v *stackView) bed() {
	top := float64(v.s.Boards) * v.s.Thickness
	low := top + math.Max(v.s.Plunge*1.5, v.s.Thickness)
	points := append(v.arc(top, v.lowest()), down(-v.depth, v.lowest()), down(-v.depth, low), down(v.right, low), down(v.right, top))
	v.Areas = append(v.Areas, draw.Area{Points: points, Fill: draw.Cut, Pen: draw.Thin})
	v.label((top+low)/2, "cut into by "+v.f.Print(v.s.Plunge))
}

// lowest is the depth to which the blade is drawn: its lowest point, or where it
// comes out of the boards' edge.
func (v *stackView) lowest() float64 {
	if v.x >= -v.depth {
		return v.s.Exposure()
	}
	r := v.s.Diameter / 2
	return v.z + math.Sqrt(r*r-(v.depth+v.x)*(v.depth+v.x))
}

// label writes on the wood at the right.
func (v *stackView) label(z float64, text string) {
	v.Notes = append(v.Notes, draw.Note{At: down(v.right, z), Anchor: draw.AtRight, Text: text, Ground: draw.Sheet})
}

// blade draws the part of the blade's edge that lies in the wood.
func (v *stackView) blade() {
	points := v.arc(0, v.lowest())
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
