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
		case SlotDeeper, RibUnglued:
			r.builtRib(path, b, laid)
		case ThicknessMeasured:
			r.builtThickness(path, b)
		default:
			r.block("built-kind", path+".kind", "What was made otherwise is not told: “%s” is none of the four. Pick a deeper slot, a rib that is not glued, an open seam, or a thickness.", b.Kind)
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
	set, extent := r.d.Crosswise, r.d.Width
	if lengthwise {
		set, extent = r.d.Lengthwise, r.d.Length
	}
	if !ok || n >= set.number() {
		r.block("built-part", path+".part", "“%s” is no rib of this top. Pick one of its ribs, or remove the mark.", b.Part)
		return
	}
	if !laid {
		return
	}
	if b.Kind == RibUnglued {
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
