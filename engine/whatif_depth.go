package engine

import (
	"math"
	"slices"
)

// depth recomputes the panel at other core depths and looks for the least one
// that meets the sag limit, which it computes too.
func (w *whatIf) depth(d *Design, r DepthReport, now figures) DepthReport {
	least, most := d.coreBounds()
	r.Curve = nil
	at := func(core float64) (figures, bool) {
		if core == d.CoreDepth {
			return now, true
		}
		e := d.Clone()
		e.CoreDepth = core
		return w.figures(&e)
	}
	for _, f := range whatIfDepths {
		core := d.CoreDepth * f
		if core < least-nearly || core > most+nearly {
			continue
		}
		if v, ok := at(core); ok {
			r.Curve = append(r.Curve, DepthPoint{CoreDepth: core, Sag: v.sag, Mass: v.mass})
		}
	}
	r.Exponent = exponent(r.Curve, d.CoreDepth)
	r.Needed = d.neededAmong(r.Curve, func(core float64) (float64, bool) {
		v, ok := at(core)
		return v.sag, ok
	})
	return r
}

// exponent reads from a curve the power −exponent with which sag goes with core
// depth at the given depth: between its neighbours.
func exponent(curve []DepthPoint, core float64) float64 {
	i := slices.IndexFunc(curve, func(p DepthPoint) bool { return p.CoreDepth == core })
	if i < 0 || len(curve) < 2 {
		return 0
	}
	a, b := curve[max(i-1, 0)], curve[min(i+1, len(curve)-1)]
	if !(a.Sag > 0 && b.Sag > 0) {
		return 0
	}
	return -math.Log(b.Sag/a.Sag) / math.Log(b.CoreDepth/a.CoreDepth)
}

// neededAmong is [neededDepth] for a sag that takes time: a known curve brackets
// the depth, and the next one to compute lies where a power of the depth
// between the ends of the bracket meets the limit.
func (d *Design) neededAmong(curve []DepthPoint, sag func(core float64) (float64, bool)) float64 {
	limit := d.Limits.Sag
	if limit <= 0 || len(curve) == 0 {
		return 0
	}
	least, most := d.coreBounds()
	lo, hi := math.Ceil(least), math.Floor(math.Min(3*d.CoreDepth, most))
	// What is known of whole millimetres: fails at lo, meets at hi.
	var fails, meets DepthPoint
	for _, p := range curve {
		if p.Sag > limit {
			fails = p
		} else if meets.CoreDepth == 0 {
			meets = p
		}
	}
	look := func(core float64) bool {
		s, ok := sag(core)
		if !ok {
			return false
		}
		if s <= limit {
			meets = DepthPoint{CoreDepth: core, Sag: s}
		} else {
			fails = DepthPoint{CoreDepth: core, Sag: s}
		}
		return true
	}
	if meets.CoreDepth == 0 && (!look(hi) || meets.CoreDepth == 0) {
		return 0
	}
	if fails.CoreDepth == 0 && (!look(lo) || fails.CoreDepth == 0) {
		if meets.CoreDepth == lo {
			return lo
		}
		return math.Ceil(meets.CoreDepth)
	}
	for range 20 {
		a, b := math.Floor(fails.CoreDepth), math.Ceil(meets.CoreDepth)
		if b-a <= 1 {
			return b
		}
		power := math.Log(meets.Sag/fails.Sag) / math.Log(meets.CoreDepth/fails.CoreDepth)
		next := math.Ceil(fails.CoreDepth * math.Pow(limit/fails.Sag, 1/power))
		if !(next > a && next < b) {
			next = math.Floor((a + b) / 2)
		}
		if !look(next) {
			return 0
		}
		if meets.CoreDepth == next && next-1 > fails.CoreDepth && !look(next-1) { // nearly always the last but one
			return 0
		}
	}
	return math.Ceil(meets.CoreDepth)
}
