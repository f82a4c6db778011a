package engine

import (
	"math"

	"flatwright/engine/plate"
)

// sagAt is the sag at a place, mm.
type sagAt struct{ x, y, sag float64 }

// nearlyMost is the share of the largest sag by which another place may sag less and
// still be as good: common practice, no source.
const nearlyMost = 0.01

// largest returns the largest sag, and of the places that sag as much within
// [nearlyMost] the one nearest to a given one; of two equally near the first. So the
// place does not jump about with the mesh where the sag is flat.
func largest(places []sagAt, to point) (sag, x, y float64) {
	sag = math.Inf(-1)
	for _, p := range places {
		sag = math.Max(sag, p.sag)
	}
	best := math.Inf(1)
	for _, p := range places {
		if !(p.sag >= sag-nearlyMost*math.Abs(sag)) {
			continue
		}
		// Less than a thousandth of a mm nearer is rounding.
		if away := math.Hypot(p.x-to.x, p.y-to.y); away < best-1e-3 {
			best, x, y = away, p.x, p.y
		}
	}
	return sag, x, y
}

// pressedAt is the middle of the loads, weighted by their force; without any it
// is that of own weight.
func pressedAt(loads []plate.Press, own plate.Press) point {
	var x, y, force float64
	for _, l := range loads {
		f := math.Abs(l.P)
		x, y, force = x+f*l.X, y+f*l.Y, force+f
	}
	if !(force > 0) {
		return point{own.X, own.Y}
	}
	return point{x / force, y / force}
}
