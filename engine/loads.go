package engine

import (
	"fmt"
	"math"

	"flatwright/engine/length"
	"flatwright/engine/plate"
)

// Pull is the way the upper force of a couple points.
type Pull string

// The ways a couple can pull. The side it pulls to is pressed down, the other
// one is pulled up.
const (
	PullRight Pull = "right" // towards larger x
	PullLeft  Pull = "left"
	PullBack  Pull = "back" // towards larger y
	PullFront Pull = "front"
)

// way returns the unit vector along which a couple pulls; zero for none of the
// four.
func (p Pull) way() (x, y float64) {
	switch p {
	case PullRight:
		return 1, 0
	case PullLeft:
		return -1, 0
	case PullBack:
		return 0, 1
	case PullFront:
		return 0, -1
	}
	return 0, 0
}

// Moment returns the moment of a couple, N·mm: force times arm. Other loads
// have none.
func (l Load) Moment() float64 {
	if l.Kind != Couple {
		return 0
	}
	return l.Force * l.Arm
}

// Spread is where a load acts: the middle and the size of its footprint, mm.
type Spread struct{ X, Y, SizeX, SizeY float64 }

// Spread returns the footprint of a load: its own, the whole top of a uniform
// load, the bay of the block on which a couple acts. A couple in no bay of the
// grid has none.
func (d *Design) Spread(l Load) Spread {
	switch l.Kind {
	case Uniform:
		return Spread{d.Length / 2, d.Width / 2, d.Length, d.Width}
	case Couple:
		x0, x1, y0, y1, _ := d.clearBay(l.Column, l.Row)
		return Spread{(x0 + x1) / 2, (y0 + y1) / 2, x1 - x0, y1 - y0}
	}
	return Spread{l.X, l.Y, l.SizeX, l.SizeY}
}

// clearBay returns the clear space of a bay between its four ribs, which a
// block fills, and whether there is such a bay.
func (d *Design) clearBay(column, row int) (x0, x1, y0, y1 float64, there bool) {
	if column < 0 || row < 0 || column >= d.Crosswise.number()-1 || row >= d.Lengthwise.number()-1 {
		return 0, 0, 0, 0, false
	}
	tb, bx, by := d.EdgeBand.Thickness, d.Crosswise.Thickness/2, d.Lengthwise.Thickness/2
	across := func(i int) float64 { return d.Crosswise.at(i, tb, d.Length-tb) }
	along := func(i int) float64 { return d.Lengthwise.at(i, tb, d.Width-tb) }
	return across(column) + bx, across(column+1) - bx, along(row) + by, along(row+1) - by, true
}

// HasBlock reports whether a bay is filled with a block.
func (d *Design) HasBlock(column, row int) bool {
	for _, b := range d.Blocks {
		if b.Column == column && b.Row == row {
			return true
		}
	}
	return false
}

// under returns the place at which the sag of a load is told: its middle, or
// the middle of the edge that a couple presses down.
func (d *Design) under(l Load) point {
	s := d.Spread(l)
	if l.Kind != Couple {
		return point{s.X, s.Y}
	}
	x, y := l.Pull.way()
	return point{s.X + x*s.SizeX/2, s.Y + y*s.SizeY/2}
}

// Press turns a load into the whole-panel model's terms.
func (d Design) Press(l Load) plate.Press {
	s := d.Spread(l)
	p := plate.Press{P: l.Force, X: s.X, Y: s.Y, SX: s.SizeX, SY: s.SizeY}
	if l.Kind == Couple {
		x, y := l.Pull.way()
		p.P, p.TX, p.TY = 0, x*l.Moment(), y*l.Moment()
	}
	return p
}

// edgePressure returns the most that a load presses, MPa. A couple presses one
// edge of its block with 6·M/(b·a²) and pulls as much at the other, a being the
// block's size the way it pulls; half of it goes through either skin. Source:
// section modulus of a rectangle, textbook.
func (d *Design) edgePressure(l *Load) float64 {
	s := d.Spread(*l)
	if l.Kind != Couple {
		return l.Force / (s.SizeX * s.SizeY)
	}
	a, b := s.SizeX, s.SizeY
	if x, _ := l.Pull.way(); x == 0 {
		a, b = b, a
	}
	return 6 * l.Moment() / (b * a * a) / 2
}

// pullWords are the ways of a couple as people read them.
var pullWords = map[Pull]string{PullRight: "to the right", PullLeft: "to the left", PullBack: "to the back", PullFront: "to the front"}

// Strength prints how strong a load is: a force, or the moment of a couple.
func (l Load) Strength(f length.Format) string {
	if l.Kind == Couple {
		return MomentText(l.Moment(), f)
	}
	return length.Force(l.Force, f)
}

// LoadWords says in a line where a load acts.
func LoadWords(d Design, l Load, f length.Format) string {
	s := d.Spread(l)
	at := fmt.Sprintf("middle %s from the left end, %s from the front edge", f.Print(s.X), f.Print(s.Y))
	switch l.Kind {
	case Uniform:
		return "over the whole top"
	case Couple:
		return fmt.Sprintf("couple of %s %s, %s up, at the block in bay %d from the left, %d from the front",
			length.Force(l.Force, f), pullWords[l.Pull], f.Print(l.Arm), l.Column+1, l.Row+1)
	case Line:
		long, wide, way := s.SizeX, s.SizeY, "along the length"
		if l.Across {
			long, wide, way = s.SizeY, s.SizeX, "across the width"
		}
		return fmt.Sprintf("on a line %s long and %s wide %s, %s", f.Print(long), f.Print(wide), way, at)
	}
	return fmt.Sprintf("on %s × %s, %s", f.Print(s.SizeX), f.Print(s.SizeY), at)
}

// lineWidth is the width of a new line load and pointSize the side of a new
// point load, mm. A board's edge or a fence's foot is about 20 mm: common
// practice, no source. EN 1991-1-1 6.3.1.2 takes 50 × 50 mm for a concentrated
// load: from memory.
const (
	lineWidth = 20.0
	pointSize = 50.0
)

// NewLoad returns a load of a kind with a sensible size at the middle of the
// top: a line over half of the length, a couple at the first block. force is
// in N.
func NewLoad(d Design, kind LoadKind, force float64) Load {
	l := Load{Kind: kind, Force: force}
	switch kind {
	case Uniform:
		return l
	case Couple:
		l.Pull, l.Arm = PullFront, coupleArm
		if len(d.Blocks) > 0 {
			l.Column, l.Row = d.Blocks[0].Column, d.Blocks[0].Row
		}
		return l
	case Line:
		l.SizeX, l.SizeY = d.Length/2, math.Min(lineWidth, d.Width)
	default:
		l.SizeX, l.SizeY = math.Min(pointSize, d.Length), math.Min(pointSize, d.Width)
	}
	l.X, l.Y = d.Length/2, d.Width/2
	return l
}

// A new couple: somebody pulls with CouplePull, N, on work that stands
// coupleArm, mm, above the vise's bolts. Common practice, no source.
const (
	CouplePull = 500.0
	coupleArm  = 200.0
)
