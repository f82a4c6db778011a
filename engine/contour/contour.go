// Package contour turns values on a regular grid into contour lines and into
// the bands between them, as polygons that a drawing can fill.
//
// The method is marching squares, from memory: along the edges of a cell the
// value runs straight from corner to corner, and where it crosses a level the
// contour passes; inside the cell the crossings are joined by straight lines.
// Where two opposite corners are above the level and two below, the mean of
// the four says whether the high corners or the low ones are joined. A corner
// exactly at the level counts as above it, so that every crossing has one line
// coming in and one going out, and lines and bands always close.
//
// Between the corners a smooth surface is met within h²/8 of its second
// derivative, h being the side of a cell (the error of linear interpolation).
package contour

import (
	"cmp"
	"math"
	"slices"
)

// Grid holds values at NX by NY points, evenly spread from X0 to X1 and from
// Y0 to Y1, the edges included. Values holds them row by row, x running
// fastest: the one at column i and row j is Values[j*NX+i].
type Grid struct {
	X0, X1, Y0, Y1 float64
	NX, NY         int
	Values         []float64
}

// Point is a place on the grid.
type Point struct{ X, Y float64 }

// Polygon is an area by its corners, anticlockwise. Where it has a hole, its
// outline runs along a cut to the hole, around it and back along the same cut,
// so that one outline says all.
type Polygon []Point

// Polyline is a line through its points, and from the last to the first if
// Closed. The higher values are on its left.
type Polyline struct {
	Points []Point
	Closed bool
}

// Valid reports whether the grid has at least two points each way, an extent, a
// value for each point, and nothing but finite numbers. The methods of a grid
// that is not valid return nothing.
func (g Grid) Valid() bool {
	if g.NX < 2 || g.NY < 2 || len(g.Values)/g.NX != g.NY || len(g.Values)%g.NX != 0 {
		return false
	}
	if !(g.X1 > g.X0) || !(g.Y1 > g.Y0) || math.IsInf(g.X1-g.X0, 0) || math.IsInf(g.Y1-g.Y0, 0) {
		return false
	}
	for _, v := range g.Values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// Range returns the lowest and the highest value, 0 and 0 of a grid that is not
// valid.
func (g Grid) Range() (low, high float64) {
	if !g.Valid() {
		return 0, 0
	}
	return slices.Min(g.Values), slices.Max(g.Values)
}

// Highest returns where the highest value is; the first such point, row by
// row.
func (g Grid) Highest() Point {
	if !g.Valid() {
		return Point{}
	}
	at := 0
	for i, v := range g.Values {
		if v > g.Values[at] {
			at = i
		}
	}
	return g.node(at)
}

// node returns the place of the point with index n.
func (g Grid) node(n int) Point {
	i, j := n%g.NX, n/g.NX
	return Point{between(g.X0, g.X1, i, g.NX-1), between(g.Y0, g.Y1, j, g.NY-1)}
}

// between returns the i-th of n+1 even steps from a to b, the ends exactly.
func between(a, b float64, i, n int) float64 {
	if i == n {
		return b
	}
	return a + (b-a)*float64(i)/float64(n)
}

// Levels returns the round values between low and high, both left out, at which
// contours are drawn: the multiples of 1, 2 or 5 times a power of ten, with the
// smallest such step that gives at most about of them. There may be none. It
// returns nil where low and high are not finite or not apart by more than
// rounding.
func Levels(low, high float64, about int) []float64 {
	span := high - low
	if !(span > 1e-12*max(math.Abs(low), math.Abs(high))) || !(span > 1e-200) || math.IsInf(span, 0) || about < 1 {
		return nil
	}
	for exponent := int(math.Floor(math.Log10(span / float64(about+1)))); ; exponent++ {
		for _, digit := range [...]float64{1, 2, 5} {
			times := func(k float64) float64 {
				if exponent < 0 {
					return k * digit / math.Pow10(-exponent)
				}
				return k * digit * math.Pow10(exponent)
			}
			step := times(1)
			first, last := math.Floor(low/step)+1, math.Ceil(high/step)-1
			if last-first+1 > float64(about) {
				continue
			}
			var levels []float64
			for k := first; k <= last; k++ {
				if v := times(k); v > low && v < high {
					levels = append(levels, v)
				}
			}
			return levels
		}
	}
}

// Labels returns where the number of a level may stand on its lines, best
// first: the middles of the pieces of the longest line, those farthest from
// its ends and from the grid's edges first.
func (g Grid) Labels(lines []Polyline) []Point {
	var longest Polyline
	most := 0.0
	for _, l := range lines {
		if length := l.Length(); length > most {
			longest, most = l, length
		}
	}
	type place struct {
		at   Point
		room float64
	}
	var places []place
	n := len(longest.Points)
	for k, b := range longest.Points {
		if k == 0 && !longest.Closed {
			continue
		}
		a := longest.Points[(k+n-1)%n]
		p := Point{(a.X + b.X) / 2, (a.Y + b.Y) / 2}
		room := min(p.X-g.X0, g.X1-p.X, p.Y-g.Y0, g.Y1-p.Y)
		if !longest.Closed {
			room = min(room, distance(p, longest.Points[0]), distance(p, longest.Points[n-1]))
		}
		places = append(places, place{p, room})
	}
	slices.SortStableFunc(places, func(a, b place) int { return cmp.Compare(b.room, a.room) })
	out := make([]Point, len(places))
	for i, p := range places {
		out[i] = p.at
	}
	return out
}

// Length returns the length of the line.
func (l Polyline) Length() float64 {
	sum := 0.0
	for i, b := range l.Points {
		if i > 0 {
			sum += distance(l.Points[i-1], b)
		} else if l.Closed {
			sum += distance(l.Points[len(l.Points)-1], b)
		}
	}
	return sum
}

// Area returns the area of the polygon, positive if it runs anticlockwise (the
// sum of the triangles from its first corner to its edges).
func (p Polygon) Area() float64 {
	sum := 0.0
	for i := 2; i < len(p); i++ {
		ax, ay, bx, by := p[i-1].X-p[0].X, p[i-1].Y-p[0].Y, p[i].X-p[0].X, p[i].Y-p[0].Y
		sum += (ax*by - bx*ay) / 2
	}
	return sum
}

func distance(a, b Point) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }
