package engine

import (
	"fmt"
	"math"
)

// built checks what is marked as made otherwise; laid says that ribs and slots
// are known.
func (r *review) built(laid bool) {
	if n := len(r.d.Built); n > maxBuilt {
		r.block("too-many-built", "built", "There are %d marks of what was made otherwise; up to %d can be computed. Gather those of one rib.", n, maxBuilt)
		return
	}
	for i, b := range r.d.Built {
		before := len(r.problems)
		path := fmt.Sprintf("built[%d]", i)
		switch b.Kind {
		case SeamOpen:
			r.builtSeam(path, b)
		case SlotDeeper, RibUnglued, WrongEdge:
			r.builtRib(path, b, laid)
		case ThicknessMeasured:
			r.builtThickness(path, b)
		case SkinSlid:
			r.builtSlid(path, b, laid)
		default:
			r.block("built-kind", path+".kind", "What was made otherwise is not told: “%s” is none of the six. Pick a deeper slot, slots in the wrong edge, a rib that is not glued, an open seam, a thickness, or a skin that slid.", b.Kind)
		}
		for k := before; k < len(r.problems); k++ {
			r.problems[k].Part = b.Part
		}
	}
}

func (r *review) builtSeam(path string, b Built) {
	n, ok := SeamOfPart(b.Part)
	if !ok || n >= len(r.d.Seams) {
		r.block("built-part", path+".part", "“%s” is no seam of this top, so it cannot be open. Pick one of its seams, or remove the mark.", b.Part)
		return
	}
	if !r.d.Seams[n].Spliced {
		r.add(Advice, "built-as-drawn", path+".part", "Seam %d is drawn without a splice, so it counts as open already. Remove the mark.", n+1)
	}
}

func (r *review) builtRib(path string, b Built, laid bool) {
	lengthwise, n, ok := RibOfPart(b.Part)
	set, mates, extent := r.d.Crosswise, r.d.Lengthwise, r.d.Width
	if lengthwise {
		set, mates, extent = r.d.Lengthwise, r.d.Crosswise, r.d.Length
	}
	if !ok || n >= set.number() {
		r.block("built-part", path+".part", "“%s” is no rib of this top. Pick one of its ribs, or remove the mark.", b.Part)
		return
	}
	if !laid {
		return
	}
	if b.Kind == WrongEdge {
		tb := math.Max(0, r.d.EdgeBand.Thickness)
		r.builtWrong(path, b, mates.places(tb, extent-tb), extent)
		return
	}
	if b.Kind == RibUnglued {
		r.builtSide(path, b)
		tb := math.Max(0, r.d.EdgeBand.Thickness)
		if !(b.To-b.From >= 1) || b.From < tb-nearly || b.To > extent-tb+nearly {
			r.block("built-stretch", path+".from", "Rib %s is marked as not glued from %s to %s, but it reaches from %s to %s. Type where the open stretch begins and ends on it.",
				b.Part, inMM(b.From), inMM(b.To), inMM(tb), inMM(extent-tb))
		}
		return
	}
	switch drawn := r.d.SlotDepth(); {
	case b.Value > r.d.CoreDepth-minLedge+nearly:
		r.block("built-slot", path+".value", "Slots %s deep leave %s of rib %s, which is %s high; %s must stay. Measure again, or make that rib anew.",
			inMM(b.Value), inMM(math.Max(0, r.d.CoreDepth-b.Value)), b.Part, inMM(r.d.CoreDepth), inMM(minLedge))
	case b.Value < drawn-nearly:
		r.block("built-slot", path+".value", "The slots of rib %s are drawn %s deep, more than the %s that are marked. Type the depth as cut, or remove the mark.", b.Part, inMM(drawn), inMM(b.Value))
	}
}

// A thickness that is measured to be less than a half or more than one and a
// half of what is drawn is a slip of the pen. Common practice, no source.
const (
	leastMeasured = 0.5
	mostMeasured  = 1.5
)

func (r *review) builtThickness(path string, b Built) {
	drawn := r.d.thickness(b.Part)
	if drawn == nil {
		r.block("built-part", path+".part", "“%s” is no sheet whose thickness can be marked. Pick a skin or the ribs of one way, or remove the mark.", b.Part)
		return
	}
	switch {
	case !(b.Value >= leastMeasured**drawn && b.Value <= mostMeasured**drawn):
		r.block("built-thickness", path+".value", "Measured are %s where %s are drawn; more than half as much again, or less than half, is another sheet. Measure again, or change the design.", inMM(b.Value), inMM(*drawn))
	case b.Value == *drawn:
		r.add(Advice, "built-as-drawn", path+".value", "The thickness that is marked is the one drawn. Remove the mark, or type what you measured.")
	}
}

// slidMost is how far a skin may slide along an axis, away from its low edge and away
// from its high one, and still be computed: as far as the second rib from that edge is
// wholly under it.
func slidMost(lo, hi float64, places []float64, b float64) (right, left float64) {
	n := len(places)
	return math.Max(0, places[1]-b/2-lo), math.Max(0, hi-places[n-2]-b/2)
}

// builtSlid checks a skin that slid.
func (r *review) builtSlid(path string, b Built, laid bool) {
	if b.Part != TopSeam && b.Part != BottomSeam {
		r.block("built-part", path+".part", "“%s” is no skin, so it cannot have slid. Pick the top or the bottom skin, or remove the mark.", b.Part)
		return
	}
	if !laid {
		return
	}
	if b.X == 0 && b.Y == 0 {
		r.add(Advice, "built-as-drawn", path+".x", "The %s skin is marked as slid, but by nothing. Type by how much it lies away from its place, or remove the mark.", b.Part)
	}
	tb := r.d.EdgeBand.Thickness
	ys, xs := r.d.RibPlaces()
	check := func(field, plus, minus string, v, extent float64, places []float64, thick float64) {
		right, left := slidMost(tb, extent-tb, places, thick)
		most, way := right, plus
		if v < 0 {
			most, way = left, minus
		}
		if math.Abs(v) > most+nearly {
			r.block("built-slid", path+"."+field, "A %s skin that slid %s to the %s leaves the second rib from that edge bare; up to %s can be rated. Take it off while the glue is wet, or saw a new one; or type the figure again.",
				b.Part, inMM(math.Abs(v)), way, inMM(most))
		}
	}
	check("x", "right", "left", b.X, r.d.Length, xs, r.d.Crosswise.Thickness)
	check("y", "back", "front", b.Y, r.d.Width, ys, r.d.Lengthwise.Thickness)
}

// builtWrong checks a stretch of wrongly slotted rib.
func (r *review) builtWrong(path string, b Built, mates []float64, extent float64) {
	if b.everywhere() {
		return
	}
	if b.From < -nearly || b.To > extent+nearly || !(b.To > b.From) {
		r.block("built-stretch", path+".from", "Rib %s is marked as wrongly slotted from %s to %s, but the top reaches from 0 mm to %s. Type where the wrong slots begin and end, or 0 twice for all of them.",
			b.Part, inMM(b.From), inMM(b.To), inMM(extent))
		return
	}
	for _, at := range mates {
		if b.wrong(at) {
			return
		}
	}
	r.add(Advice, "built-as-drawn", path+".from", "No rib crosses %s between %s and %s, so the mark changes nothing. Type a stretch with a crossing in it, or 0 twice for all slots.", b.Part, inMM(b.From), inMM(b.To))
}

// builtSide checks to which skin a rib is not glued.
func (r *review) builtSide(path string, b Built) {
	if b.Side != "" && b.Side != TopSeam && b.Side != BottomSeam {
		r.block("built-side", path+".side", "“%s” is neither the top nor the bottom skin. Pick to which skin rib %s is not glued, or both.", b.Side, b.Part)
	}
}
