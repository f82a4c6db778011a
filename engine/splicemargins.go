package engine

import (
	"math"

	"flatwright/engine/catalog"
	"flatwright/engine/section"
)

// scarfShare is the strength of a scarf of 1:8 over that of the whole rib: a 1:4
// scarf in solid wood keeps about 65 %, one of 1:20 about 95 % (quoted second-hand
// from a boat-building text); between them, rounded up. EWPAA's manual takes 1:8
// as enough in tension.
const scarfShare = 0.75

const scarfSource = "three quarters of the sheet's strength: between the 65 % of a scarf of 1:4 and the 95 % of one of 1:20, quoted second-hand; 1:8 as in EWPAA Structural Plywood and LVL Design Manual, ch. 11"

// ribState is what a rib carries at a place, by either model.
type ribState struct {
	Margin // place and part
	factors
	along   bool
	rib     int     // its number; below 0 is all of that direction together
	at, len float64 // along the rib, and the length over which that holds, mm
	b, h    float64
	fibres  [2]effect // stress at both edges
	shear   effect    // force, N
	mat     *catalog.Sheet
}

// alongRib is the weaker of a rib's tension and compression along it.
func (k *checker) alongRib(s ribState) float64 {
	if k.d.ribSet(s.along).Upright {
		return math.Min(s.mat.FTensAcross, s.mat.FCompAcross)
	}
	return math.Min(s.mat.FTensAlong, s.mat.FCompAlong)
}

// splicedRib checks a rib at its splices.
func (k *checker) splicedRib(s ribState) {
	for i, v := range k.d.Splices {
		if along, n, ok := RibOfPart(v.Part); ok && along == s.along && (s.rib < 0 || n == s.rib) {
			k.spliced(i, v, s, k.alongRib(s))
		}
	}
}

// spliced checks one splice of a rib at a place: a scarf at a share of the rib's
// strength, plates at what they and their glue carry.
func (k *checker) spliced(i int, v Splice, s ribState, strength float64) {
	stick, _ := k.d.stick(v.Part)
	if math.Abs(v.At-s.at) > (v.reach(stick)+s.len)/2 {
		return
	}
	r := s.Margin
	r.Part, r.Where = SplicePartID(i), k.say("splice %d of rib %s, %s", i+1, v.Part, place(s.X, s.Y))
	r.near, r.nearby = point{}, false
	plates := k.d.ribPlates(v)
	if len(plates) == 0 {
		r.Source = "M·E·z/EI or the strain at the rib's edge; " + scarfSource
		for _, fibre := range s.fibres {
			k.keep(ribSplice, s.along, r, s.factors, scarfShare*strength, fibre)
		}
		return
	}
	a, _ := k.d.straps(v, s.mat, k.d.ribSet(s.along))
	n := float64(a.Faces)
	aside := 1.0 // a single plate lies to one side: N/t + 6·(N·t/2)/t²
	if a.Faces == 1 {
		aside = 4
	}
	bond, gamma, note := s.mat.FRolling, s.factors, "Rolling shear in the rib is the weaker side."
	if k.bondStrength/gammaGlue < bond/gamma.gammaM {
		bond, gamma.gammaM, note = k.bondStrength, gammaGlue, "The glue itself is the weaker side."
	}
	for _, fibre := range s.fibres {
		r.Source, r.Note = "pull through the plates, N/t, with 6·M/t² of M = N·t/2 where there is one alone (Goland and Reissner 1944, from memory)", k.say("Plates: %d.", a.Faces)
		k.keep(ribSplice, s.along, r, s.factors, strength, fibre.scale(aside/n))
		r.Source, r.Note = "force across the joint over the glued half of its plates, 25 thicknesses long (EWPAA manual, ch. 11), lowered for a wide glue line as EN 1995-1-1 9.1.2, from memory", note
		for _, turn := range [...]float64{-1, 1} {
			k.keep(ribSpliceGlue, s.along, r, gamma, bond*section.GlueLineReduction(a.Half, a.T, 8), fibre.scale(s.b/(n*a.Half)).plus(s.shear.scale(turn/(n*s.h*a.Half))))
		}
	}
}
