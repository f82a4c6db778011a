package plate

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// A panel on pads that cannot pull is the least of a convex function: strain
// energy, plus ½·k·w² of every pad point that is pressed down, less the work of
// the loads. There is a least one exactly when statics has an answer: when the
// loads' resultant passes within the outline of the pads. The search for it
// takes Newton's steps, which are solutions with a fixed set of points in
// touch, and shortens a step that would overshoot, so that it does not cycle
// but for rounding, a few µm within the outline.

// point is a place in plan.
type point struct{ x, y float64 }

// hull returns the convex outline of the pads' points, counterclockwise.
// Source: Andrew's monotone chain, textbook.
func hull(springs []spring) []point {
	var all []point
	for i := range springs {
		if springs[i].k > 0 {
			all = append(all, point{springs[i].x, springs[i].y})
		}
	}
	slices.SortFunc(all, func(a, b point) int {
		switch {
		case a.x < b.x || a.x == b.x && a.y < b.y:
			return -1
		case a == b:
			return 0
		}
		return 1
	})
	all = slices.Compact(all)
	half := func(points []point) []point {
		var out []point
		for _, p := range points {
			for len(out) > 1 && turn(out[len(out)-2], out[len(out)-1], p) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		return out
	}
	if len(all) < 3 {
		return all
	}
	low := half(all)
	slices.Reverse(all)
	high := half(all)
	return append(low[:len(low)-1], high[:len(high)-1]...)
}

// turn is twice the area of the triangle abc, positive counterclockwise.
func turn(a, b, c point) float64 {
	return (b.x-a.x)*(c.y-a.y) - (b.y-a.y)*(c.x-a.x)
}

// within reports whether p lies inside the outline, by more than the rounding
// of its coordinates.
func within(outline []point, p point) bool {
	if len(outline) < 3 {
		return false
	}
	for i, b := range outline {
		a := outline[(i+len(outline)-1)%len(outline)]
		if !(turn(a, b, p) > 1e-9*math.Hypot(b.x-a.x, b.y-a.y)) {
			return false
		}
	}
	return true
}

// stands reports whether pads that only push can carry loads with that sum and
// those moments ΣP·x and ΣP·y.
func (m *Model) stands(sum, mx, my float64) bool {
	if slices.ContainsFunc(m.sys.p.Pads, func(p Pad) bool { return p.Glued }) {
		return true // the pivots and the balance of the answer tell
	}
	if sum == 0 {
		return mx == 0 && my == 0
	}
	return sum > 0 && within(m.outline, point{mx / sum, my / sum})
}

// lean adds to f what holds lifted points where they are in u against the
// rest of their stiffness.
func (m *Model) lean(f, u []float64, lifted []bool) {
	for i := range m.springs {
		if sp := &m.springs[i]; lifted[i] {
			sp.push(f, rest*sp.k*sp.value(u))
		}
	}
}

// shorten returns the share of the step from u to v at which the function is
// least on that line, at most the whole step.
func (m *Model) shorten(u, v, f []float64) float64 {
	n := len(u)
	d := make([]float64, n)
	for i := range d {
		d[i] = v[i] - u[i]
	}
	dv, ku, kd := mat.NewVecDense(n, d), mat.NewVecDense(n, m.times(u)), mat.NewVecDense(n, m.times(d))
	flat, steep := mat.Dot(dv, ku)-mat.Dot(dv, mat.NewVecDense(n, f)), mat.Dot(dv, kd)
	w, dw := make([]float64, len(m.springs)), make([]float64, len(m.springs))
	for i := range m.springs {
		w[i], dw[i] = m.springs[i].value(u), m.springs[i].value(d)
	}
	return m.least(flat, steep, w, dw)
}

// least returns the share of a step at which the function is least: flat and
// steep are its slope at the start and how that grows, without the points, w and
// dw where the points are and how far they go.
func (m *Model) least(flat, steep float64, w, dw []float64) float64 {
	// slope of the function along the line; it only rises
	slope := func(t float64) float64 {
		s := flat + t*steep
		for i := range m.springs {
			at := w[i] + t*dw[i]
			if at < 0 || m.glued(i) {
				s += m.springs[i].k * at * dw[i]
			}
		}
		return s
	}
	if !(slope(1) > 0) {
		return 1
	}
	lo, hi := 0.0, 1.0
	for range 60 {
		if mid := (lo + hi) / 2; slope(mid) > 0 {
			hi = mid
		} else {
			lo = mid
		}
	}
	return lo
}

// glued reports whether a pad point may pull. The end of a beam may: it is fixed
// to its leg, and nothing ever pulls it.
func (m *Model) glued(i int) bool {
	sp := &m.springs[i]
	return sp.ride != nil && sp.ride.end || sp.grounded() && m.sys.p.Pads[sp.pad].Glued
}

// balances reports whether the pads carry the loads: an answer from a matrix
// that was all but singular does not.
func (s *Solution) balances(sum, mx, my float64) bool {
	size := 0.0
	for i := range s.m.springs {
		if sp := &s.m.springs[i]; !s.lifted[i] && sp.grounded() {
			r := -sp.k * sp.value(s.u)
			sum -= r
			mx -= r * sp.x
			my -= r * sp.y
			size += math.Abs(r)
		}
	}
	p := s.m.sys.p
	reach := math.Max(p.X1-p.X0, p.Y1-p.Y0)
	const close = 1e-6
	return math.Abs(sum) <= close*size && math.Abs(mx) <= close*size*reach && math.Abs(my) <= close*size*reach
}
