package engine

import (
	"fmt"
	"math"
)

// minPiece is the least length of a piece of a spliced rib, mm. Common practice,
// no source.
const minPiece = 100.0

// splices checks the joints in ribs and bands, and the room that splice plates
// of seams have.
func (r *review) splices() {
	if n := len(r.d.Splices); n > maxListed {
		r.block("too-many-splices", "splices", "There are %d splices; up to %d can be computed. Longer sheets need fewer.", n, maxListed)
		return
	}
	if !r.clear() {
		return
	}
	for i, s := range r.d.Splices {
		before := len(r.problems)
		r.splice(i, s)
		r.on(SplicePartID(i), before)
	}
	for i, s := range r.d.Seams {
		before := len(r.problems)
		r.platesOf(i, s)
		r.on(SeamPart(i), before)
	}
}

func (r *review) splice(i int, s Splice) {
	d, path := r.d, fmt.Sprintf("splices[%d]", i)
	k, ok := d.stick(s.Part)
	if !ok {
		r.block("splice-part", path+".part", "Splice %d is in no rib: the top has no “%s”. Pick a rib or an edge band.", i+1, s.Part)
		return
	}
	lo, hi := k.lo+minPiece, k.hi-minPiece
	if s.At < lo-nearly || s.At > hi+nearly {
		r.block("splice-off-part", path+".at", "Splice %d of %s lies at %s and leaves a piece under %s long. Put it between %s and %s.", i+1, s.Part, inMM(s.At), inMM(minPiece), inMM(lo), inMM(hi))
		return
	}
	for j, o := range d.Splices[:i] {
		if o.Part == s.Part && math.Abs(o.At-s.At) < math.Max(minPiece, (o.reach(k)+s.reach(k))/2)-nearly {
			r.block("splices-meet", path+".at", "Splices %d and %d of %s lie %s apart, too near for both. Move or remove one of them.", j+1, i+1, s.Part, inMM(math.Abs(o.At-s.At)))
			return
		}
	}
	if s.Plates && !k.rib {
		r.add(Advice, "splice-band", path+".plates", "An edge band has no room for plates, so splice %d is counted and drawn as a scarf. Unmark the plates.", i+1)
	}
	if k.rib {
		r.ribSplice(path, i, s, k)
	}
}

// ribSplice tells where a rib's splice is badly placed: at a slot, in the middle
// of the span, beside that of the next rib, at a seam. The reasons are those of
// [ProposeSplices].
func (r *review) ribSplice(path string, i int, s Splice, k stick) {
	d, tb := r.d, r.d.EdgeBand.Thickness
	mates, far := d.Crosswise, d.Length
	if !k.along {
		mates, far = d.Lengthwise, d.Width
	}
	if s.Plates {
		from, to := mates.between(s.At, tb, far-tb)
		if short := math.Min(s.At-from, to-s.At); short < leastPlate-nearly {
			r.block("splice-no-room", path+".at", "Splice %d of rib %s leaves %s for its plates on the shorter side, because a rib stands there; %s is the least that can be glued. Put it between two ribs, or scarf it.",
				i+1, s.Part, inMM(math.Max(0, short)), inMM(leastPlate))
			return
		}
	}
	half := s.reach(k) / 2
	slot := d.SlotWidth(mates)
	for n := range mates.number() {
		m := mates.at(n, tb, far-tb)
		if gap := math.Abs(s.At-m) - slot/2 - half; gap < -nearly {
			what := fmt.Sprintf("a scarf 1 in %g", scarfSlope)
			if s.Plates {
				what = fmt.Sprintf("plates %g times the rib's thickness long", spliceWidth)
			}
			r.add(Shortfall, "splice-at-slot", path+".at", "Splice %d of rib %s, %s, takes %s and runs into the slot for rib %s, where only part of the rib is left. Put it between two slots; a scarf in a thinner rib takes less room.",
				i+1, s.Part, what, inMM(2*half), RibPart(!k.along, n))
			break
		}
	}
	if from, to, ok := (Seam{Along: !k.along}).bentSpan(d); ok && s.At > from+(to-from)/3+nearly && s.At < to-(to-from)/3-nearly {
		r.add(Advice, "splice-midspan", path+".at", "Splice %d of rib %s lies in the middle third of the span, where the rib is bent most. Nearer to a support it has less to carry.", i+1, s.Part)
	}
	_, n, _ := RibOfPart(s.Part)
	pitch := (k.hi - k.lo) / float64(mates.number())
	for j, o := range d.Splices {
		if along, m, ok := RibOfPart(o.Part); ok && j < i && along == k.along && (m == n-1 || m == n+1) && math.Abs(o.At-s.At) < pitch-nearly {
			r.add(Advice, "splices-beside", path+".at", "Splices %d and %d lie beside each other in ribs %s and %s, so that both are weak at one place. Move one of them by a bay or more.", j+1, i+1, o.Part, s.Part)
			return
		}
	}
}

// platesOf tells of a seam whose splice plate has not the room it should have.
func (r *review) platesOf(i int, s Seam) {
	if !s.Spliced || r.d.Scarfed(s) {
		return
	}
	want := spliceWidth * s.skin(r.d).Thickness
	from, to := r.d.plateReach(s)
	if short := math.Min(s.At-from, to-s.At); short < want/2-nearly {
		r.add(Advice, "splice-plate-narrow", fmt.Sprintf("seams[%d].at", i), "The splice plate behind seam %d reaches only %s beyond it on the shorter side, because a rib stands there; half of 25 thicknesses of the skin is %s. Its glue is counted with what there is. In the middle of the bay it reaches further; a scarf %s long needs no plate.",
			i+1, inMM(short), inMM(want/2), inMM(scarfSlope*s.skin(r.d).Thickness))
	}
}
