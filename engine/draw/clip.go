package draw

import (
	"math"
	"slices"
)

// clipSegment returns the part of the segment from a to b inside r, as shares
// of its length from a (Liang and Barsky's method, from memory).
func clipSegment(a, b Point, r Rect) (from, to float64, ok bool) {
	from, to = 0, 1
	dx, dy := b.X-a.X, b.Y-a.Y
	for _, e := range [4][2]float64{
		{-dx, a.X - r.Min.X}, {dx, r.Max.X - a.X},
		{-dy, a.Y - r.Min.Y}, {dy, r.Max.Y - a.Y},
	} {
		p, q := e[0], e[1]
		switch {
		case p == 0 && q < 0:
			return 0, 0, false
		case p < 0:
			from = max(from, q/p)
		case p > 0:
			to = min(to, q/p)
		}
	}
	return from, to, from <= to
}

func between(a, b Point, share float64) Point {
	switch share { // the ends exactly, without rounding
	case 0:
		return a
	case 1:
		return b
	}
	return Point{a.X + (b.X-a.X)*share, a.Y + (b.Y-a.Y)*share}
}

// clipPolygon returns the part of a polygon inside r (Sutherland and
// Hodgman's method, from memory). Where a concave polygon falls apart, the
// parts stay joined by edges along the border of r that cover no area.
func clipPolygon(points []Point, r Rect) []Point {
	type half struct {
		in  func(Point) bool
		cut func(a, b Point) Point
	}
	alongX := func(x float64) func(a, b Point) Point {
		return func(a, b Point) Point {
			return Point{x, a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)}
		}
	}
	alongY := func(y float64) func(a, b Point) Point {
		return func(a, b Point) Point {
			return Point{a.X + (b.X-a.X)*(y-a.Y)/(b.Y-a.Y), y}
		}
	}
	for _, h := range []half{
		{func(p Point) bool { return p.X >= r.Min.X }, alongX(r.Min.X)},
		{func(p Point) bool { return p.X <= r.Max.X }, alongX(r.Max.X)},
		{func(p Point) bool { return p.Y >= r.Min.Y }, alongY(r.Min.Y)},
		{func(p Point) bool { return p.Y <= r.Max.Y }, alongY(r.Max.Y)},
	} {
		var kept []Point
		for i, b := range points {
			a := points[(i+len(points)-1)%len(points)]
			if h.in(a) != h.in(b) {
				kept = append(kept, h.cut(a, b))
			}
			if h.in(b) {
				kept = append(kept, b)
			}
		}
		points = kept
	}
	return points
}

// maxHatch is the most hatch lines one area gets; more would be a grey tone.
const maxHatch = 5000

// hatchLines returns the pieces of the lines of a hatch that lie inside a
// polygon, odd-even rule. The lines are spacing apart and one of them runs
// through origin, so that the hatches of neighbours meet and move with the
// drawing.
func hatchLines(points []Point, h Hatch, spacing float64, origin Point) [][2]Point {
	if h == NoHatch || len(points) < 3 || !(spacing > 0) {
		return nil
	}
	// Turned axes: u runs along the lines, c across them.
	sign := 1.0 // slash: c = (x+y)/√2 is constant where y falls (rises on the screen) as x grows
	if h == HatchBackslash {
		sign = -1
	}
	turn := func(p Point) (u, c float64) {
		return (p.X - sign*p.Y) / math.Sqrt2, (p.X + sign*p.Y) / math.Sqrt2
	}
	back := func(u, c float64) Point {
		return Point{(u + c) / math.Sqrt2, sign * (c - u) / math.Sqrt2}
	}
	_, c0 := turn(origin)
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range points {
		_, c := turn(p)
		low, high = min(low, c), max(high, c)
	}
	first := math.Ceil((low - c0) / spacing)
	count := (high-c0)/spacing - first
	if !(count >= 0) || count > maxHatch {
		return nil
	}
	var out [][2]Point
	for k := 0; k <= int(count); k++ {
		c := c0 + (first+float64(k))*spacing
		var crossings []float64
		for i, p := range points {
			ua, ca := turn(p)
			ub, cb := turn(points[(i+1)%len(points)])
			if (ca <= c) != (cb <= c) {
				crossings = append(crossings, ua+(ub-ua)*(c-ca)/(cb-ca))
			}
		}
		slices.Sort(crossings)
		for i := 1; i < len(crossings); i += 2 {
			if crossings[i] > crossings[i-1] {
				out = append(out, [2]Point{back(crossings[i-1], c), back(crossings[i], c)})
			}
		}
	}
	return out
}
