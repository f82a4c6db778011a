package engine

import (
	"fmt"
	"math"
)

// ribs checks one set by itself and reports whether it can be laid out.
func (r *review) ribs(path string, set RibSet) bool {
	sheet, known := r.sheet(path, "the "+path+" ribs", set.Material)
	ok := r.between("rib-thickness", path+".thickness", "The thickness of the "+path+" ribs", set.Thickness, minRib, maxRib,
		"Measure the sheet and type its mean thickness.")
	if known && ok {
		r.listed(path, set.Thickness, sheet)
	}
	if ok {
		ok = r.thickest(path, set)
	}
	field := path + ".count"
	if len(set.Positions) > 0 {
		field = path + ".positions"
	}
	if n := set.number(); n < minRibs || n > maxRibs {
		r.block("rib-count", field, "There are %d %s ribs; from %d to %d can be computed. One every 150 to 200 mm is a good first guess.", n, path, minRibs, maxRibs)
		ok = false
	}
	if len(set.Positions) == 0 {
		if set.Inset < 0 {
			r.block("rib-inset", path+".inset", "The outermost %s ribs stand %s outside the skins. An inset of 0 puts them flush with the edge.", path, inMM(-set.Inset))
			ok = false
		}
		return ok
	}
	for i := 1; i < len(set.Positions) && len(set.Positions) <= maxRibs; i++ {
		if a, b := set.Positions[i-1], set.Positions[i]; b <= a {
			r.block("rib-order", fmt.Sprintf("%s.positions[%d]", path, i),
				"Rib %d stands at %s, which is not beyond rib %d at %s. List the positions from the smallest to the largest.", i+1, inMM(b), i, inMM(a))
			ok = false
		}
	}
	return ok
}

func (r *review) thickest(path string, set RibSet) bool {
	field := path + ".thickest"
	switch {
	case set.Thickest == 0:
		return true
	case set.Thickest < set.Thickness:
		r.block("rib-thickest", field, "The thickest reading, %s, is under the mean thickness of %s. Take it from the same measurements as the mean, or leave it empty.",
			inMM(set.Thickest), inMM(set.Thickness))
	case set.Thickest > maxThickest*set.Thickness:
		r.block("rib-thickest", field, "The thickest reading, %s, is over twice the mean thickness of %s. Check both figures.",
			inMM(set.Thickest), inMM(set.Thickness))
	default:
		return true
	}
	return false
}

// slots checks how the half-laps are cut and returns the clearance and the
// moisture to lay the ribs out with.
func (r *review) slots(core bool) (ok Slots) {
	s := r.d.Slots
	switch {
	case s.Clearance < 0:
		r.block("slot-clearance", "slots.clearance", "The slots are %s narrower than the ribs that enter them. A clearance of 0.2 mm lets them slide in.", inMM(-s.Clearance))
	case s.Clearance > 5*looseSlot:
		r.block("slot-clearance", "slots.clearance", "The slots are %s wider than the ribs that enter them; up to %s can be computed. A clearance of 0.2 mm lets them slide in.",
			inMM(s.Clearance), inMM(5*looseSlot))
	case s.Clearance > looseSlot:
		r.add(Advice, "slot-loose", "slots.clearance", "The slots are %s wider than the ribs that enter them, so they no longer hold the ribs upright while the glue sets. About 0.2 mm is enough to slide in.",
			inMM(s.Clearance))
		ok.Clearance = s.Clearance
	default:
		ok.Clearance = s.Clearance
	}
	if s.MoistureRise < 0 || s.MoistureRise > maxRise {
		r.block("slot-moisture", "slots.moistureRise", "The ribs are to get moister by %s percentage points before they are put together; from 0 to %d can be computed. From a dry shop to a damp one it is about 4.",
			plainNumber(s.MoistureRise), maxRise)
	} else {
		ok.MoistureRise = s.MoistureRise
	}
	if s.Relief < 0 {
		r.block("slot-relief", "slots.relief", "Each slot is %s less than half the rib's height deep, so the ribs would not close flush. A relief of 0.5 mm lets them.", inMM(-s.Relief))
	} else if left := r.d.CoreDepth/2 - s.Relief; core && left < minLedge {
		r.block("slot-depth", "slots.relief", "The slots are %s deep in ribs %s high and leave %s of wood; %s must stay. A relief of 0.5 mm, or a deeper core, would do.",
			inMM(r.d.SlotDepth()), inMM(r.d.CoreDepth), inMM(math.Max(left, 0)), inMM(minLedge))
	}
	return ok
}

// ribLayout is one set of ribs between the edges lo and hi of the skins.
type ribLayout struct {
	path, part, side string // "lengthwise", "L", "width"
	set              RibSet
	lo, hi           float64
	slots            Slots
}

// layout checks that the ribs stand in the panel, apart from each other, and
// that the slots for them leave wood between.
func (r *review) layout(l ribLayout) {
	slot := l.slots.width(l.set)
	if len(l.set.Positions) > 0 {
		r.listedRibs(l, slot)
		return
	}
	free := l.hi - l.lo - 2*l.set.Inset - l.set.Thickness // from the first rib's middle to the last one's
	if free < slot+minTooth-nearly {
		if l.set.Inset > 0 {
			r.block("rib-inset", l.path+".inset", "An inset of %s on either side leaves no room for two %s ribs in a %s of %s. An inset up to %s leaves it.",
				inMM(l.set.Inset), l.path, l.side, inMM(l.hi-l.lo), inMM(math.Max(0, math.Floor((l.hi-l.lo-l.set.Thickness-slot-minTooth)/2))))
			return
		}
		r.block("ribs-collide", l.path+".thickness", "Two %s ribs, %s thick, do not fit in a %s of %s. Thinner ribs or a larger panel would do.",
			l.path, inMM(l.set.SlotThickness()), l.side, inMM(l.hi-l.lo))
		return
	}
	pitch := free / float64(l.set.Count-1)
	most := int(math.Floor((free+nearly)/(slot+minTooth))) + 1
	switch {
	case pitch < l.set.SlotThickness():
		r.block("ribs-collide", l.path+".count", "%d %s ribs, %s thick, stand %s apart from middle to middle and run into each other. At most %d fit.",
			l.set.Count, l.path, inMM(l.set.SlotThickness()), inMM(pitch), most)
	case pitch < slot+minTooth-nearly:
		r.block("slots-meet", l.path+".count", "%d %s ribs stand %s apart, and their slots, %s wide, leave under %s of wood between them. At most %d fit.",
			l.set.Count, l.path, inMM(pitch), inMM(slot), inMM(minTooth), most)
	}
}

// listedRibs is layout for ribs whose positions are listed.
func (r *review) listedRibs(l ribLayout, slot float64) {
	half := l.set.Thickness / 2
	for i, at := range l.set.Positions {
		before := len(r.problems)
		field := fmt.Sprintf("%s.positions[%d]", l.path, i)
		if at-half < l.lo-nearly || at+half > l.hi+nearly {
			r.block("rib-off-panel", field, "Rib %d, %s thick, reaches from %s to %s, but the skins reach from %s to %s. Put its middle between %s and %s.",
				i+1, inMM(l.set.Thickness), inMM(at-half), inMM(at+half), inMM(l.lo), inMM(l.hi), inMM(l.lo+half), inMM(l.hi-half))
		}
		if i > 0 {
			gap := at - l.set.Positions[i-1]
			switch {
			case gap < l.set.SlotThickness():
				r.block("ribs-collide", field, "Ribs %d and %d, %s thick, stand %s apart from middle to middle and run into each other. Move one of them: %s is enough.",
					i, i+1, inMM(l.set.SlotThickness()), inMM(gap), inMM(slot+minTooth))
			case gap < slot+minTooth-nearly:
				r.block("slots-meet", field, "Ribs %d and %d stand %s apart, and their slots, %s wide, leave under %s of wood between them. Move one of them: %s is enough.",
					i, i+1, inMM(gap), inMM(slot), inMM(minTooth), inMM(slot+minTooth))
			}
		}
		for k := before; k < len(r.problems); k++ {
			r.problems[k].Part = fmt.Sprintf("%s%d", l.part, i+1)
		}
	}
}

// blocks checks the blocks; counted says that the bays are known.
func (r *review) blocks(counted bool) {
	if n := len(r.d.Blocks); n > maxBlocks {
		r.block("too-many-blocks", "blocks", "There are %d blocks, but %d bays at most. Remove the surplus.", n, maxBlocks)
		return
	}
	type bay struct{ column, row int }
	columns, rows := r.d.Crosswise.number()-1, r.d.Lengthwise.number()-1
	taken := map[bay]int{}
	for i, b := range r.d.Blocks {
		path := fmt.Sprintf("blocks[%d]", i)
		r.material(path, fmt.Sprintf("block %d", i+1), b.Material)
		if counted {
			outside := func(field, name string, at, bays int) bool {
				if at >= 0 && at < bays {
					return false
				}
				r.block("block-off-grid", path+"."+field, "Block %d is in %s %d, but the ribs make %s 1 to %d. Move it into one of them.", i+1, name, at+1, name, bays)
				return true
			}
			column := outside("column", "column", b.Column, columns)
			if outside("row", "row", b.Row, rows) || column {
				continue
			}
		}
		if first, twice := taken[bay{b.Column, b.Row}]; twice {
			r.block("block-twice", path, "Blocks %d and %d fill the same bay, column %d, row %d. Remove one of them.", first+1, i+1, b.Column+1, b.Row+1)
		} else {
			taken[bay{b.Column, b.Row}] = i
		}
	}
}
