package draw

import "math"

// Hit returns the Part of the topmost thing at (x, y) or within tolerance of
// it, "" if nothing with a Part is there. Things without a Part let the ones
// below them be hit.
func (f Flat) Hit(x, y, tolerance float64) string {
	p := Point{x, y}
	for i := len(f.Items) - 1; i >= 0; i-- {
		it := f.Items[i]
		if it.Part != "" && it.hit(p, max(tolerance, 0)) {
			return it.Part
		}
	}
	return ""
}

func (it Item) hit(p Point, tolerance float64) bool {
	switch it.Shape {
	case Polygon:
		return inside(it.Points, p) || near(it.Points, true, p, tolerance)
	case Stroke:
		return near(it.Points, it.Closed, p, tolerance+it.Width/2)
	case Words:
		return it.Box().Grow(tolerance).Contains(Rect{p, p})
	}
	return false
}

// inside reports whether p lies in the polygon, odd-even rule.
func inside(points []Point, p Point) bool {
	in := false
	for i, b := range points {
		a := points[(i+len(points)-1)%len(points)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y) {
			in = !in
		}
	}
	return in
}

// near reports whether p is at most d from the line through points.
func near(points []Point, closed bool, p Point, d float64) bool {
	for i, b := range points {
		if i == 0 && !closed {
			continue
		}
		a := points[(i+len(points)-1)%len(points)]
		if distance(p, a, b) <= d {
			return true
		}
	}
	return false
}

// distance returns how far p is from the segment from a to b.
func distance(p, a, b Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = min(max(((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l, 0), 1)
	}
	return math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy)
}
