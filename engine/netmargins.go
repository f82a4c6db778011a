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

// bore is one hole in plan.
type bore struct{ x, y, d float64 }

// cutouts is what holes and grooves take out of a skin.
type cutouts struct {
	bores    []bore
	channels []Box
}

// cutouts returns those of a skin.
func (d *Design) cutouts(skin string) cutouts {
	var out cutouts
	if len(d.Holes)+len(d.Grooves) == 0 {
		return out
	}
	for _, h := range d.Holes {
		for i := range h.number() {
			if x, y := h.place(i); h.in(skin) {
				out.bores = append(out.bores, bore{x, y, h.Diameter})
			}
		}
	}
	out.channels = d.grooves(skin)
	return out
}

// strip is the skin between two ribs that run along the way in which it is pulled:
// its width is what holes and grooves narrow.
type strip struct{ lo, hi float64 }

// net returns which share of a strip of skin of thickness t is left in the
// section across it at u along the way.
func (c *cutouts) net(s strip, along bool, u, t float64) float64 {
	return math.Max(leastLeft, 1-c.taken(s, along, u, t)/(s.hi-s.lo))
}

// taken is the width that holes and grooves take out of a strip in the section at
// u, a groove in proportion to its depth.
func (c *cutouts) taken(s strip, along bool, u, t float64) float64 {
	sum := 0.0
	overlap := func(lo, hi float64) float64 { return math.Max(0, math.Min(hi, s.hi)-math.Max(lo, s.lo)) }
	for _, b := range c.bores {
		x, y, r := b.x, b.y, b.d/2
		if !along {
			x, y = y, x
		}
		if off := math.Abs(x - u); off < r {
			half := math.Sqrt(r*r - off*off)
			sum += overlap(y-half, y+half)
		}
	}
	for _, g := range c.channels {
		x0, x1, y0, y1 := g.X0, g.X1, g.Y0, g.Y1
		if !along {
			x0, x1, y0, y1 = y0, y1, x0, x1
		}
		if u > x0 && u < x1 {
			sum += overlap(y0, y1) * (g.Z1 - g.Z0) / t
		}
	}
	return sum
}

// net returns which share of the narrowest strip of a skin is left where the
// closed form checks it, and, if that is not all, says so in the margin's remark.
func (k *checker) net(r *Margin, top, along bool) float64 {
	if len(k.d.Holes)+len(k.d.Grooves) == 0 {
		return 1
	}
	skin, t, i := BottomSeam, k.d.BottomSkin.Thickness, 0
	if top {
		skin, t, i = TopSeam, k.d.TopSkin.Thickness, 1
	}
	if k.cut[i] == nil {
		c := k.d.cutouts(skin)
		k.cut[i] = &c
	}
	u := r.X
	if !along {
		u = r.Y
	}
	least := 1.0
	for _, s := range k.d.strips(along) {
		least = math.Min(least, k.cut[i].net(s, along, u, t))
	}
	if least < 1 {
		r.Note += k.say(" Net section: %.0f %% of the strip between two ribs is left beside holes and grooves; that a groove lies to one side is not counted here.", 100*least)
	}
	return least
}

// strips are those between all ribs that run along the way.
func (d *Design) strips(along bool) []strip {
	tb := d.EdgeBand.Thickness
	set, far := d.Lengthwise, d.Width-tb
	if !along {
		set, far = d.Crosswise, d.Length-tb
	}
	var out []strip
	edge := tb
	for i := range set.number() + 1 {
		end, next := far, far
		if i < set.number() {
			m := set.at(i, tb, far)
			end, next = m-set.Thickness/2, m+set.Thickness/2
		}
		if end-edge > nearly {
			out = append(out, strip{edge, end})
		}
		edge = next
	}
	return out
}

// cutPlaces are the places along a way where holes, grooves and splices are
// checked by the closed form, beside its stations.
func (d *Design) cutPlaces(along bool) []float64 {
	var out []float64
	pick := func(x, y float64) {
		if !along {
			x = y
		}
		out = append(out, x)
	}
	for _, h := range d.Holes {
		for i := range h.number() {
			pick(h.place(i))
		}
	}
	for _, g := range d.Grooves {
		b := d.grooveBox(g)
		pick((b.X0+b.X1)/2, (b.Y0+b.Y1)/2)
	}
	for _, s := range d.Splices {
		if a, _, ok := RibOfPart(s.Part); ok && a == along {
			out = append(out, s.At)
		}
	}
	return out
}

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

// cutRib checks the ribs of one direction at the holes in them, by the closed
// form: shear on what is left of the height, and the frame about the hole.
func (k *checker) cutRib(s ribState) {
	weaker := k.alongRib(s)
	if d := k.d.ribBore(s); d > 0 {
		left := s.h - d
		r := s.Margin
		r.Source, r.Note = "net section, V ≤ fv·b·(h − d), common practice, no source", k.say("A hole of %.0f mm leaves %.0f mm of the depth.", d, left)
		k.keep(ribShear, s.along, r, s.factors, s.mat.FEdgeShear, s.shear.scale(1/(s.b*left)))
		r.Source = "bending of what is left above and below the hole, V·d/4 on b·((h − d)/2)²/6, beside M·E·z/EI; textbook (frame with open panels)"
		for _, fibre := range s.fibres {
			for _, turn := range [...]float64{-6, 6} {
				k.keep(ribBending, s.along, r, s.factors, weaker, fibre.plus(s.shear.scale(turn*d/(s.b*left*left))))
			}
		}
	}
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

// ribBore is the widest hole through any rib of a direction at a place, mm; 0 is none.
func (d *Design) ribBore(s ribState) float64 {
	most := 0.0
	for _, h := range d.Holes {
		along, _, ok := RibOfPart(h.Part)
		if !ok || along != s.along {
			continue
		}
		for i := range h.number() {
			at, y := h.place(i)
			if !along {
				at = y
			}
			if math.Abs(at-s.at) < (h.Diameter+s.len)/2 {
				most = math.Max(most, h.Diameter)
			}
		}
	}
	return most
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
