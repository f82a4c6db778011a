package engine

import (
	"fmt"
	"math"
)

// Bounds and rules of holes and grooves. Common practice, no source, all of
// them.
const (
	minHole       = 1.0 // diameter, mm
	maxHole       = 200.0
	maxHoleRow    = 500
	maxHoles      = 1000 // of all rows
	HoleClearance = 5.0  // that holes and grooves keep from ribs unless the design says otherwise, mm
	minFloor      = 1.0  // skin left under a groove, mm
	minBridge     = 3.0  // wood left between two holes, or beside one, mm
	ribHoleShare  = 1.0 / 3
)

// HoleDistance returns the distance that holes and grooves keep from ribs, mm.
func (d Design) HoleDistance() float64 {
	if d.KeepOff > 0 {
		return d.KeepOff
	}
	return HoleClearance
}

// clear reports whether nothing is found yet that keeps the ribs from being
// laid out.
func (r *review) clear() bool { return !(Result{Problems: r.problems}).Blocked() }

// on marks the problems told since before with the part at fault.
func (r *review) on(part string, before int) {
	for k := before; k < len(r.problems); k++ {
		r.problems[k].Part = part
	}
}

// holes checks the holes and rows of holes.
func (r *review) holes() {
	if k := r.d.KeepOff; k < 0 || k > maxHole {
		r.block("keep-off", "keepOff", "Holes cannot keep %s from the ribs; up to %s can be asked for. Type a distance, or leave it empty for %s.", inMM(k), inMM(maxHole), inMM(HoleClearance))
	}
	if n := len(r.d.Holes); n > maxListed {
		r.block("too-many-holes", "holes", "There are %d rows of holes; up to %d can be computed. Gather single ones into rows.", n, maxListed)
		return
	}
	sum := 0
	for _, h := range r.d.Holes {
		sum += min(h.number(), maxHoleRow)
	}
	if sum > maxHoles {
		r.block("too-many-holes", "holes", "There are %d holes; up to %d can be computed. Make the rows shorter.", sum, maxHoles)
		return
	}
	clear := r.clear()
	for i, h := range r.d.Holes {
		before := len(r.problems)
		r.hole(i, h, clear)
		r.on(HolePart(i), before)
	}
}

func (r *review) hole(i int, h Hole, clear bool) {
	path := fmt.Sprintf("holes[%d]", i)
	if h.Kind != DogHole && h.Kind != BoltHole && h.Kind != CableHole {
		r.block("hole-kind", path+".kind", "Hole %d has no use: “%s” is neither a dog hole nor a bolt hole nor a cable hole. Pick one of them.", i+1, h.Kind)
	}
	if !r.between("hole-diameter", path+".diameter", fmt.Sprintf("The diameter of hole %d", i+1), h.Diameter, minHole, maxHole, "Check the figure and its unit.") {
		return
	}
	if h.Count < 0 || h.Count > maxHoleRow {
		r.block("hole-count", path+".count", "Row %d has %d holes; from 1 to %d can be drilled in a row. Check the figure.", i+1, h.Count, maxHoleRow)
		return
	}
	along, n, rib := RibOfPart(h.Part)
	switch {
	case rib:
		if set := r.d.ribSet(along); n >= set.number() {
			r.block("hole-part", path+".part", "Hole %d goes through rib %s, which the top does not have. Pick another rib.", i+1, h.Part)
			return
		}
		if clear {
			r.ribHole(path, i, h, along)
		}
	case !h.in(TopSeam) && !h.in(BottomSeam):
		r.block("hole-part", path+".part", "Hole %d goes through nothing: “%s” is neither a skin nor a rib. Pick top, bottom, both or a rib.", i+1, h.Part)
	case clear:
		r.skinHoles(path, i, h)
	}
	if step := math.Hypot(h.StepX, h.StepY); rib && h.number() > 1 {
		step = math.Abs(h.StepX)
		if !along {
			step = math.Abs(h.StepY)
		}
		r.holeStep(path, i, h, step)
	} else if h.number() > 1 {
		r.holeStep(path, i, h, step)
	}
}

func (r *review) holeStep(path string, i int, h Hole, step float64) {
	if step < h.Diameter+minBridge-nearly {
		r.block("holes-meet", path+".stepX", "The holes of row %d stand %s apart and are %s wide: they run into each other. A step of %s leaves %s between them.",
			i+1, inMM(step), inMM(h.Diameter), inMM(h.Diameter+minBridge), inMM(minBridge))
	}
}

// skinHoles checks where the holes of a row come through the skins: within
// them, and off the ribs.
func (r *review) skinHoles(path string, i int, h Hole) {
	d := r.d
	tb := d.EdgeBand.Thickness
	least := h.Diameter/2 + minBridge
	near, part, at := math.Inf(1), "", [2]float64{}
	for k := range h.number() {
		x, y := h.place(k)
		if x < tb+least-nearly || x > d.Length-tb-least+nearly || y < tb+least-nearly || y > d.Width-tb-least+nearly {
			r.block("hole-off-panel", path+".x", "A hole of row %d, %s from the left end and %s from the front edge, leaves less than %s of skin beside it. Move it inwards, or make the row shorter.", i+1, inMM(x), inMM(y), inMM(minBridge))
			return
		}
		if off, p := d.ribDistance(x, y); off-h.Diameter/2 < near {
			near, part, at = off-h.Diameter/2, p, [2]float64{x, y}
		}
	}
	switch keep := d.HoleDistance(); {
	case near < -nearly:
		r.add(Shortfall, "hole-in-rib", path+".x", "The hole %s from the left end and %s from the front edge cuts %s into rib %s, which is not counted. Move it by %s to keep %s off.",
			inMM(at[0]), inMM(at[1]), inMM(math.Min(-near, h.Diameter)), part, inMM(keep-near), inMM(keep))
	case near < keep-nearly:
		r.add(Advice, "hole-beside-rib", path+".x", "The hole %s from the left end and %s from the front edge lies %s from rib %s; %s are asked for, so that a drill that wanders does not cut the rib and its glue line. Move it by %s.",
			inMM(at[0]), inMM(at[1]), inMM(math.Max(0, near)), part, inMM(keep), inMM(keep-near))
	}
}

// ribDistance returns how far a place in plan lies from the face of the nearest
// rib, negative within it, and which rib that is.
func (d *Design) ribDistance(x, y float64) (float64, string) {
	ys, xs := d.RibPlaces()
	best, part := math.Inf(1), ""
	look := func(at float64, places []float64, set RibSet, along bool) {
		for i, m := range places {
			if off := math.Abs(at-m) - set.Thickness/2; off < best {
				best, part = off, RibPart(along, i)
			}
		}
	}
	look(y, ys, d.Lengthwise, true)
	look(x, xs, d.Crosswise, false)
	return best, part
}

// ribSet is the ribs that run along the length, or those across it.
func (d *Design) ribSet(along bool) RibSet {
	if along {
		return d.Lengthwise
	}
	return d.Crosswise
}

// ribHole checks the holes of a row through a rib: within it, off the slots and
// not too large.
func (r *review) ribHole(path string, i int, h Hole, along bool) {
	d, tb := r.d, r.d.EdgeBand.Thickness
	mates, far := d.Crosswise, d.Length
	if !along {
		mates, far = d.Lengthwise, d.Width
	}
	keep, radius := d.HoleDistance(), h.Diameter/2
	if h.Up-radius < minBridge-nearly || h.Up+radius > d.CoreDepth-minBridge+nearly {
		r.block("hole-off-rib", path+".up", "Hole %d, %s wide and %s above the lower edge of rib %s, leaves less than %s of it above or below. The middle of the rib is at %s.", i+1, inMM(h.Diameter), inMM(h.Up), h.Part, inMM(minBridge), inMM(d.CoreDepth/2))
		return
	}
	slot := d.SlotWidth(mates)
	for k := range h.number() {
		at, _ := h.place(k)
		if !along {
			_, at = h.place(k)
		}
		if at-radius < tb+minBridge-nearly || at+radius > far-tb-minBridge+nearly {
			r.block("hole-off-rib", path+".x", "A hole of row %d lies %s along rib %s and runs out of its end. Move it inwards.", i+1, inMM(at), h.Part)
			return
		}
		for n := range mates.number() {
			gap := math.Abs(at-mates.at(n, tb, far-tb)) - radius - slot/2
			switch {
			case gap < minBridge-nearly:
				r.block("hole-in-slot", path+".x", "The hole %s along rib %s runs into the slot for rib %s. Put it between two slots.", inMM(at), h.Part, RibPart(!along, n))
				return
			case gap < keep-nearly:
				r.add(Advice, "hole-beside-slot", path+".x", "The hole %s along rib %s lies %s from the slot for rib %s; %s are asked for. Move it by %s.", inMM(at), h.Part, inMM(gap), RibPart(!along, n), inMM(keep), inMM(keep-gap))
			}
		}
	}
	if h.Diameter > ribHoleShare*d.CoreDepth+nearly {
		r.add(Shortfall, "hole-deep-in-rib", path+".diameter", "Hole %d takes %s of the %s of rib %s, more than a third: what is left above and below bends by itself, which is counted as two small beams and rough for so large a hole. A hole of up to %s would do, or several small ones.",
			i+1, inMM(h.Diameter), inMM(d.CoreDepth), h.Part, inMM(math.Floor(ribHoleShare*d.CoreDepth)))
	}
}

// grooves checks the channels in the skins.
func (r *review) grooves() {
	if n := len(r.d.Grooves); n > maxSeams {
		r.block("too-many-grooves", "grooves", "There are %d grooves; up to %d can be computed. Remove some.", n, maxSeams)
		return
	}
	clear := r.clear()
	for i, g := range r.d.Grooves {
		before := len(r.problems)
		r.groove(i, g, clear)
		r.on(GroovePart(i), before)
	}
}

func (r *review) groove(i int, g Groove, clear bool) {
	path := fmt.Sprintf("grooves[%d]", i)
	if g.Skin != TopSeam && g.Skin != BottomSeam {
		r.block("groove-skin", path+".skin", "Groove %d is in no skin: “%s” is neither top nor bottom. Pick one of them.", i+1, g.Skin)
		return
	}
	wide := r.between("groove-width", path+".width", fmt.Sprintf("The width of groove %d", i+1), g.Width, minHole, maxHole, "Measure the track.")
	deep := r.between("groove-depth", path+".depth", fmt.Sprintf("The depth of groove %d", i+1), g.Depth, 0.1, maxSkin, "Measure the track.")
	if !clear || !wide || !deep {
		return
	}
	d, tb := r.d, r.d.EdgeBand.Thickness
	far, end, set := d.Length, d.Width, d.Crosswise
	if g.Along {
		far, end, set = d.Width, d.Length, d.Lengthwise
	}
	if left := (Seam{Skin: g.Skin}).skin(d).Thickness - g.Depth; left < minFloor-nearly {
		r.block("groove-through", path+".depth", "Groove %d, %s deep, leaves %s of the %s skin; %s must stay. A skin of %s would do, or a strip screwed on beside the track.",
			i+1, inMM(g.Depth), inMM(math.Max(0, left)), g.Skin, inMM(minFloor), inMM(g.Depth+minFloor))
		return
	}
	to := g.To
	if to == 0 {
		to = end
	}
	if g.At-g.Width/2 < tb+minBridge-nearly || g.At+g.Width/2 > far-tb-minBridge+nearly || g.From < 0 || to > end+nearly || to-g.From < g.Width-nearly {
		r.block("groove-off-panel", path+".at", "Groove %d lies at %s and runs from %s to %s: that is not within the skin, or it is shorter than wide. Check the figures.", i+1, inMM(g.At), inMM(g.From), inMM(to))
		return
	}
	for n := range set.number() {
		gap := math.Abs(g.At-set.at(n, tb, far-tb)) - g.Width/2 - set.Thickness/2
		if keep := d.HoleDistance(); gap < keep-nearly {
			r.add(Advice, "groove-beside-rib", path+".at", "Groove %d runs along rib %s, %s from it; %s are asked for, because the thin skin under the groove is what carries the glue line's pull there. Move it by %s.",
				i+1, RibPart(g.Along, n), inMM(math.Max(0, gap)), inMM(keep), inMM(keep-gap))
			return
		}
	}
}
