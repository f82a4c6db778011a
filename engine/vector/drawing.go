// Package vector writes flat shapes as SVG and as DXF of release 12, both at
// 1:1 in millimetres, for a router, a laser or another drawing program.
//
// A [Drawing] lies in its own plane: x to the right, y up, mm. The same drawing
// gives the same bytes. Numbers are written to 0.001 mm.
package vector

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Point is a place, mm.
type Point struct{ X, Y float64 }

// Layer says what a line is for. In both formats it is a layer with a name of
// its own, so that lines to cut can be told from lines to look at.
type Layer uint8

// The layers. Only the lines of the first three are edges of wood.
const (
	Outline Layer = iota // edge of a part, its slots cut in: cut through
	Hole                 // edge of an opening inside a part: cut through
	Groove               // edge of a place that is cut only part of the way through
	Slot                 // a slot of Outline once more, by itself; switched off, so that nothing is cut twice
	Sheet                // edge of the sheet as bought
	SawCut               // where a saw runs
	Mark                 // to draw on: grain, datum end
	Text
	layers // how many
)

// names are those of the layers, in capitals as release 12 wants them.
var names = [layers]string{"OUTLINE", "HOLE", "GROOVE", "SLOT", "SHEET", "SAW_CUT", "MARK", "TEXT"}

// String returns the name of l in both formats; SVG has it in small letters.
func (l Layer) String() string {
	if l < layers {
		return names[l]
	}
	return fmt.Sprintf("LAYER_%d", uint8(l))
}

// Path is a line through Points, closed unless Open is set.
type Path struct {
	Layer  Layer
	Points []Point
	Open   bool
}

// Circle is a full circle.
type Circle struct {
	Layer  Layer
	Centre Point
	Radius float64 // mm
}

// Words is one line of text. At is its left end on the base line, Height that
// of its capitals, Angle its turn to the left in radians.
type Words struct {
	At     Point
	Height float64 // mm
	Angle  float64
	Text   string
}

// Drawing is what one file holds. Title and Notes say what it is; they are
// comments in the file and are not drawn.
type Drawing struct {
	Title   string
	Notes   []string
	Paths   []Path
	Circles []Circle
	Words   []Words
}

// The reasons why a drawing is not written.
var (
	ErrEmpty  = errors.New("the drawing has no lines")
	ErrNumber = errors.New("a place or size is not a number that can be written")
	ErrShape  = errors.New("a shape has no extent")
)

// limit is the largest coordinate that is written, mm: a kilometre. Up to it a
// float64 holds 0.001 mm with six digits to spare.
const limit = 1e6

// Bounds returns the smallest rectangle around paths and circles. Words have no
// width here and do not count. It is (0, 0) twice for a drawing without lines.
func (d Drawing) Bounds() (low, high Point) {
	inf := math.Inf(1)
	low, high = Point{inf, inf}, Point{-inf, -inf}
	grow := func(p Point, by float64) {
		low = Point{min(low.X, p.X-by), min(low.Y, p.Y-by)}
		high = Point{max(high.X, p.X+by), max(high.Y, p.Y+by)}
	}
	for _, path := range d.Paths {
		for _, p := range path.Points {
			grow(p, 0)
		}
	}
	for _, c := range d.Circles {
		grow(c.Centre, c.Radius)
	}
	if !(low.X <= high.X && low.Y <= high.Y) {
		return Point{}, Point{}
	}
	return low, high
}

// check returns what forbids writing d.
func (d Drawing) check() error {
	if len(d.Paths) == 0 && len(d.Circles) == 0 {
		return ErrEmpty
	}
	for i, p := range d.Paths {
		if !finite(p.Points...) || p.Layer >= layers {
			return fmt.Errorf("path %d: %w", i+1, ErrNumber)
		}
		least := 3
		if p.Open {
			least = 2
		}
		if len(written(p)) < least {
			return fmt.Errorf("path %d: %w", i+1, ErrShape)
		}
	}
	for i, c := range d.Circles {
		if !finite(c.Centre, Point{X: c.Radius}) || c.Layer >= layers {
			return fmt.Errorf("circle %d: %w", i+1, ErrNumber)
		}
		if !(c.Radius >= 0.0005) {
			return fmt.Errorf("circle %d: %w", i+1, ErrShape)
		}
	}
	for i, w := range d.Words {
		if !finite(w.At, Point{w.Height, w.Angle}) {
			return fmt.Errorf("text %d: %w", i+1, ErrNumber)
		}
		if !(w.Height >= 0.0005) {
			return fmt.Errorf("text %d: %w", i+1, ErrShape)
		}
	}
	return nil
}

func finite(points ...Point) bool {
	for _, p := range points {
		if !(math.Abs(p.X) <= limit && math.Abs(p.Y) <= limit) {
			return false
		}
	}
	return true
}

// written returns the points of p as they are written: to 0.001 mm, none twice in
// a row, and of a closed line only the corners: none where it does not turn, or
// turns back on itself, as rounding leaves where a notch ends at an edge.
func written(p Path) []Point {
	var out []Point
	for _, q := range p.Points {
		q = Point{thousandth(q.X), thousandth(q.Y)}
		if len(out) == 0 || q != out[len(out)-1] {
			out = append(out, q)
		}
	}
	if p.Open {
		return out
	}
	for i, turns := 0, 0; turns < len(out); {
		n := len(out)
		if i %= n; corner(out[(i+n-1)%n], out[i], out[(i+1)%n]) {
			i, turns = i+1, turns+1
			continue
		}
		out = slices.Delete(out, i, i+1)
		i, turns = max(i-2, 0), 0 // its neighbours may be none any more
	}
	return out
}

// corner reports whether a line from a to c turns at b. The three are rounded:
// in thousandths the product is exact.
func corner(a, b, c Point) bool {
	whole := func(v float64) int64 { return int64(math.Round(v * 1000)) }
	ux, uy := whole(b.X)-whole(a.X), whole(b.Y)-whole(a.Y)
	vx, vy := whole(c.X)-whole(b.X), whole(c.Y)-whole(b.Y)
	return ux*vy != uy*vx
}

// thousandth rounds to 0.001; 0 has no sign.
func thousandth(v float64) float64 { return math.Round(v*1000)/1000 + 0 }
