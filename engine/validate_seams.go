package engine

import (
	"fmt"
	"math"
)

// minStrip is the least width of a piece of skin beside a seam, mm. Common
// practice, no source.
const minStrip = 50.0

// seams checks the butt joints in the skins.
func (r *review) seams(sized bool) {
	if n := len(r.d.Seams); n > maxSeams {
		r.block("too-many-seams", "seams", "There are %d seams; up to %d can be computed. Remove some, or use larger sheets.", n, maxSeams)
		return
	}
	for i, s := range r.d.Seams {
		before := len(r.problems)
		r.seam(i, s, sized)
		for k := before; k < len(r.problems); k++ {
			r.problems[k].Part = SeamPart(i)
		}
	}
}

func (r *review) seam(i int, s Seam, sized bool) {
	path := fmt.Sprintf("seams[%d]", i)
	if s.Skin != TopSeam && s.Skin != BottomSeam {
		r.block("seam-skin", path+".skin", "Seam %d is in no skin: “%s” is neither top nor bottom. Pick one of them.", i+1, s.Skin)
		return
	}
	if !sized {
		return
	}
	extent := r.d.Length
	if s.Along {
		extent = r.d.Width
	}
	tb := math.Max(0, r.d.EdgeBand.Thickness)
	if s.At < tb+minStrip-nearly || s.At > extent-tb-minStrip+nearly {
		r.block("seam-off-panel", path+".at", "Seam %d lies at %s and leaves a strip of skin under %s wide. Put it between %s and %s.",
			i+1, inMM(s.At), inMM(minStrip), inMM(tb+minStrip), inMM(extent-tb-minStrip))
		return
	}
	for j, o := range r.d.Seams[:i] {
		if o.Skin == s.Skin && o.Along == s.Along && math.Abs(o.At-s.At) < minStrip-nearly {
			r.block("seams-meet", path+".at", "Seams %d and %d in the %s skin lie %s apart and leave a strip under %s wide. Move or remove one of them.",
				j+1, i+1, s.Skin, inMM(math.Abs(o.At-s.At)), inMM(minStrip))
			return
		}
	}
	if s.Spliced || len(r.problems) > 0 && (Result{Problems: r.problems}).Blocked() {
		return
	}
	part, at, over := s.overRib(r.d)
	switch set := r.d.ribsBeside(s); {
	case !over:
		r.add(Advice, "seam-between-ribs", path+".at", "Seam %d, %s, lies between two ribs: nothing under it keeps its two edges level when a load stands beside it. Put it on the middle of a rib, or splice it.", i+1, s.where())
	case set.Thickness/2-math.Abs(s.At-at) < minLedge-nearly:
		r.add(Advice, "seam-beside-rib", path+".at", "Seam %d, %s, leaves one of its sheets %s of rib %s to be glued to. On the rib's middle, at %s, both get half of it.",
			i+1, s.where(), inMM(set.Thickness/2-math.Abs(s.At-at)), part, inMM(at))
	default:
		r.add(Advice, "seam-on-rib", path+".at", "Seam %d lies on rib %s, which keeps its two edges level; each sheet is glued to a part of the rib, and no pull passes across. A splice plate or a scarf makes the skin whole.", i+1, part)
	}
}

// ribsBeside is the set of ribs that run with a seam.
func (d *Design) ribsBeside(s Seam) RibSet {
	if s.Along {
		return d.Lengthwise
	}
	return d.Crosswise
}
