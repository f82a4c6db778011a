package engine

import (
	"flatwright/engine/plate"
	"fmt"
	"math"
	"sort"

	"flatwright/engine/catalog"
	"flatwright/engine/section"
)

// Partial factors on the actions: EN 1990 Table A1.2(B), from memory.
const (
	gammaWeight = 1.35
	gammaLoad   = 1.5
	gammaGlue   = 1.3 // γM of the glue line, as for solid wood; common practice, no source
)

// TimesCap is the largest [Margin.Times] that is told; beyond it the load does
// not matter for that point.
const TimesCap = 999

// effect is what the panel's own weight and the loads of a case do at one
// place, unfactored.
type effect struct{ own, load float64 }

// demand is what a check sets against the capacity.
type demand interface {
	// design returns the factored effect.
	design() float64
	// times returns by how much the loads may grow until it equals capacity,
	// own weight kept.
	times(capacity float64) float64
}

// design returns the larger of both senses.
func (e effect) design() float64 { return math.Max(sense(e).design(), sense(e.scale(-1)).design()) }

func (e effect) times(capacity float64) float64 {
	return math.Min(sense(e).times(capacity), sense(e.scale(-1)).times(capacity))
}

// sense is an effect of which only the positive sense is checked: a pull, not a
// push. Own weight that works against it counts once, loads that do are taken
// away.
type sense effect

func (s sense) weight() float64 {
	if s.own < 0 {
		return s.own
	}
	return gammaWeight * s.own
}

func (s sense) design() float64 {
	return math.Max(0, s.weight()+gammaLoad*math.Max(0, s.load))
}

func (s sense) times(capacity float64) float64 {
	if !(s.load > nothing) {
		return TimesCap
	}
	return math.Min(TimesCap, math.Max(0, (capacity-s.weight())/(gammaLoad*s.load)))
}

// nothing is a stress, MPa, below which there is only rounding.
const nothing = 1e-9

func (e effect) scale(f float64) effect { return effect{e.own * f, e.load * f} }

// check is one way to fail.
type check uint8

// The ways to fail. Those of the skins' buckling and the ones from
// legBearing on have no direction, but for the peel at the end; all others exist
// along and across.
const (
	topCompression check = iota
	topTension
	bottomCompression
	bottomTension
	topBuckling
	bottomBuckling
	topGlue
	bottomGlue
	ribShear
	slotShear
	ribBending
	slotBending
	ribStrut
	ribBuckling
	railBearing
	legBearing
	loadBearing
	punchedThrough
	blockPeel
	topShear
	bottomShear
	spliceGlue
	splicePull
	seamRibs
	ribCrippling
	apronBending
	apronShearing
	topOverhang
	bottomOverhang
	topWrinkling
	bottomWrinkling
	supportScrews
	blockScrews
	topPeel
	bottomPeel
	ribSplice
	ribSpliceGlue
	ribHoleShear
	ribHoleBending
	topNet
	bottomNet
	checks // how many there are
)

// checkNames are the code and the name of each check; %s is "along the length"
// or "across the width" for skins, the ribs that run that way for ribs.
var checkNames = [checks]struct{ code, name string }{
	{"skin.top.compression", "Top skin in compression %s"},
	{"skin.top.tension", "Top skin in tension %s"},
	{"skin.bottom.compression", "Bottom skin in compression %s"},
	{"skin.bottom.tension", "Bottom skin in tension %s"},
	{"skin.top.buckling", "Buckling of the top skin between the ribs"},
	{"skin.bottom.buckling", "Buckling of the bottom skin between the ribs"},
	{"glue.top", "Glue line between top skin and %s"},
	{"glue.bottom", "Glue line between bottom skin and %s"},
	{"rib.shear", "Shear in the %s"},
	{"rib.slot.shear", "Shear at a slot of the %s"},
	{"rib.bending", "Bending of the %s"},
	{"rib.slot.bending", "Bending at a slot of the %s"},
	{"rib.strut", "Upright pressure in the %s"},
	{"rib.buckling", "Buckling in shear of the %s"},
	{"bearing.rail", "Bottom skin and edges of the %s over a rail"},
	{"bearing.leg", "Bottom skin and rib edges over a leg"},
	{"bearing.load", "Top skin pressed in by a load"},
	{"skin.punching", "Top skin punched through by a load"},
	{"glue.block", "Glue line of a block pulled open by a couple"},
	{"skin.top.shear", "Shear in the plane of the top skin"},
	{"skin.bottom.shear", "Shear in the plane of the bottom skin"},
	{"seam.glue", "Glue of a seam's splice plate"},
	{"seam.pull", "Pull through a seam's splice"},
	{"seam.ribs", "Ribs that carry across an open seam"},
	{"rib.crippling", "Rib edges crushed or bowed over a foot"},
	{"apron.bending", "Bending of the aprons"},
	{"apron.shear", "Shear in the aprons"},
	{"skin.top.overhang", "Buckling of the top skin where it stands out beyond the ribs"},
	{"skin.bottom.overhang", "Buckling of the bottom skin where it stands out beyond the ribs"},
	{"skin.top.wrinkling", "Wrinkling of the top skin on the ribs"},
	{"skin.bottom.wrinkling", "Wrinkling of the bottom skin on the ribs"},
	{"screws.support", "Screws that hold the top on a support"},
	{"screws.block", "Screws or bolts of a vise pulled out of its block"},
	{"glue.top.peel", "Top skin pulled off the %s"},
	{"glue.bottom.peel", "Bottom skin pulled off the %s"},
	{"rib.splice", "Splices in the %s"},
	{"rib.splice.glue", "Glue of splice plates on the %s"},
	{"rib.hole.shear", "Shear at a hole through the %s"},
	{"rib.hole.bending", "Bending at a hole through the %s"},
	{"skin.top.net", "Top skin at a hole or a groove, %s"},
	{"skin.bottom.net", "Bottom skin at a hole or a groove, %s"},
}

// name returns the code and the name of a check along or across.
func (c check) name(along bool) (code, name string) {
	n := checkNames[c]
	switch {
	case c >= legBearing && c < topPeel, c == topBuckling, c == bottomBuckling:
		return n.code, n.name
	case (c <= bottomTension || c >= topNet) && along:
		return n.code + ".along", fmt.Sprintf(n.name, "along the length")
	case c <= bottomTension || c >= topNet:
		return n.code + ".across", fmt.Sprintf(n.name, "across the width")
	case along:
		return n.code + ".along", fmt.Sprintf(n.name, "lengthwise ribs")
	default:
		return n.code + ".across", fmt.Sprintf(n.name, "crosswise ribs")
	}
}

// factors are the strength factor and γM of one material in one case. A factor
// of 0 means that the material is not made for the place; the design carries
// that as a problem.
type factors struct {
	kmod, gammaM float64
	kind         catalog.Kind
}

// checker gathers the lowest margin of every way to fail.
type checker struct {
	d    *Design
	m    *materials
	mo   *model
	c    *LoadCase
	tell bool // words wanted, not only values

	top, bottom, lengthwise, crosswise factors // for the case at hand
	bondStrength                       float64
	panel                              *plate.Panel // nil until asked for
	cut                                [2]*skinLoss // of bottom and top skin, nil until asked for

	lowest [checks][2]Margin // across, along
	done   [checks][2]bool
	times  [checks][2]float64 // that the loads may grow
	asked  [checks][2]bool
}

// margins checks every case and returns the margins, lowest first. What next to
// nothing is asked of is left out. Without tell the margins carry no places and
// remarks in words.
func (mo *model) margins(d *Design, m *materials, tell bool) []Margin {
	k := checker{d: d, m: m, mo: mo, tell: tell, bondStrength: d.glue().Strength}
	for i := range d.Cases {
		k.c = &d.Cases[i]
		k.top, k.bottom, k.lengthwise, k.crosswise = k.kmod(&m.top), k.kmod(&m.bottom), k.kmod(&m.lengthwise), k.kmod(&m.crosswise)
		for _, a := range mo.working() {
			k.bend(a)
		}
		k.bearing()
	}
	return k.sorted()
}

// sorted returns what was kept, lowest first.
func (k *checker) sorted() []Margin {
	out := make([]Margin, 0, 2*checks)
	for c := range checks {
		for i, along := range [...]bool{false, true} {
			if v := k.lowest[c][i]; k.done[c][i] && v.Value < TimesCap {
				v.Code, v.Name = c.name(along)
				v.Times = k.times[c][i]
				if v.nearby {
					v.Where += place(v.near.x, v.near.y)
					v.near, v.nearby = point{}, false
				}
				out = append(out, v)
			}
		}
	}
	sortMargins(out)
	return out
}

// sortMargins puts the lowest margin first; of equal ones the code decides.
func sortMargins(all []Margin) {
	sort.Slice(all, func(i, j int) bool {
		if all[i].Value != all[j].Value {
			return all[i].Value < all[j].Value
		}
		return all[i].Code < all[j].Code
	})
}

// way is an axis that carries load, with its share of it.
type way struct {
	*axis
	along bool
	share float64
}

// working returns the axes that carry load between supports. Along four edges
// two strips that cross at the middle share the load so that both sag alike
// (strip method of Rankine and Grashof, from memory): it leaves the twisting
// stiffness out and so asks too much of the bending.
func (mo *model) working() []way {
	switch mo.kind {
	case RailsAlong:
		return []way{{&mo.across, false, 1}}
	case FourLegs:
		return []way{{&mo.along, true, 1 - mo.along.taken}, {&mo.across, false, 1 - mo.across.taken}}
	case AllEdges:
		kx := mo.along.first.EI / mo.width / math.Pow(mo.length, 4)
		ky := mo.across.first.EI / mo.length / math.Pow(mo.width, 4)
		return []way{{&mo.along, true, kx / (kx + ky)}, {&mo.across, false, ky / (kx + ky)}}
	default:
		return []way{{&mo.along, true, 1}}
	}
}

func (w way) press(r section.Rect) section.Press {
	p := pressAcross(r)
	if w.along {
		p = pressAlong(r)
	}
	p.P *= w.share
	return p
}

// at returns moment and shear of the case at x along the way.
func (k *checker) at(w way, x float64) (moment, shear effect) {
	own := w.press(k.mo.ownWeight())
	moment.own, shear.own = w.span.Moment(own, x), w.span.Shear(own, x)
	for i := range k.c.Loads {
		parts := k.mo.presses(&k.c.Loads[i])
		for _, r := range parts.all() {
			p := w.press(r)
			moment.load += w.span.Moment(p, x)
			shear.load += w.span.Shear(p, x)
		}
	}
	return moment, shear
}

// stations is how many places along a span are checked, besides both sides of
// the supports and the ends and middle of every load.
const stations = 24

func (k *checker) places(w way) []float64 {
	// At a support the shear force is that inside the span; where there is an
	// overhang it is also looked at just outside.
	const outside = 1e-6
	xs := []float64{w.span.A, w.span.B, w.span.A - outside, w.span.B + outside}
	if !(w.span.A > 0) {
		xs = xs[:2]
	}
	for i := 1; i < stations; i++ {
		xs = append(xs, w.span.A+(w.span.B-w.span.A)*float64(i)/stations)
	}
	for i := range k.c.Loads {
		parts := k.mo.presses(&k.c.Loads[i])
		for _, r := range parts.all() {
			p := w.press(r)
			xs = append(xs, p.X1, (p.X1+p.X2)/2, p.X2)
		}
	}
	if len(k.d.Holes)+len(k.d.Grooves)+len(k.d.Splices) > 0 {
		xs = append(xs, k.d.cutPlaces(w.along)...)
	}
	return xs
}

func (k *checker) kmod(m *catalog.Sheet) factors {
	kind, _ := Catalogue().Kind(m.Kind)
	class := 0
	if k.d.Shop.Damp {
		class = 1
	}
	return factors{kind.KMod[class][durationIndex(k.c.Duration)], kind.GammaM, kind}
}

// say formats only if words are wanted.
func (k *checker) say(format string, args ...any) string {
	if !k.tell {
		return ""
	}
	return fmt.Sprintf(format, args...)
}

func durationIndex(d Duration) int {
	for i, v := range [...]Duration{Permanent, LongTerm, MediumTerm, ShortTerm, Instantaneous} {
		if v == d {
			return i
		}
	}
	return 2
}

// keep records a check if it is the lowest of its kind. strength is the
// characteristic value, e the stress it is set against.
// Times is the lowest of all places and cases: as the loads grow another one
// may be the first to fail.
func (k *checker) keep(c check, along bool, m Margin, f factors, strength float64, e demand) {
	way := 0
	if along {
		way = 1
	}
	m.KMod, m.GammaM = f.kmod, f.gammaM
	m.Capacity = strength * m.KMod / m.GammaM
	// Where own weight still outweighs the loads nothing is asked for, but may
	// be once they have grown.
	if times := e.times(m.Capacity); !k.asked[c][way] || times < k.times[c][way] {
		k.times[c][way], k.asked[c][way] = times, true
	}
	m.Demand = e.design()
	if !(m.Demand > nothing) {
		return
	}
	m.Case = k.c.Name
	if m.Unit == "" {
		m.Unit = "MPa"
	}
	m.Value = math.Min(TimesCap, m.Capacity/m.Demand)
	low := &k.lowest[c][way]
	if !k.done[c][way] || m.Value < low.Value || m.Value == low.Value && m.Demand > low.Demand {
		*low, k.done[c][way] = m, true
	}
}

// bend checks skins, ribs and glue lines of one way at every station.
func (k *checker) bend(w way) {
	for _, x := range k.places(w) {
		m, v := k.at(w, x)
		k.skin(w, x, m, true)
		k.skin(w, x, m, false)
		k.rib(w, x, m, v)
		k.glueLine(w, x, v, true)
		k.glueLine(w, x, v, false)
	}
}

// spot fills in where a check happens.
func (k *checker) spot(w way, x float64) Margin {
	m := Margin{X: x, Y: k.mo.width / 2}
	if !w.along {
		m = Margin{X: k.mo.length / 2, Y: x}
	}
	if k.tell {
		from := "left end"
		if !w.along {
			from = "front edge"
		}
		m.Where = fmt.Sprintf("%.0f mm from the %s", x, from)
	}
	return m
}

func (w way) name() string {
	if w.along {
		return "along"
	}
	return "across"
}

// skin checks one skin, both faces of it pressed and pulled: the membrane
// stress at the rib, with shear lag, and the skin's own bending, combined as in
// EN 1995-1-1 6.2.3 (from memory). The tension check follows the compression
// one.
func (k *checker) skin(w way, x float64, m effect, top bool) {
	s, mat, gamma, lag, skin := w.panel.Top, &k.m.top, w.first.GammaTop, w.first.LagTop, k.d.TopSkin
	z := w.panel.Bottom.T + w.panel.H + w.panel.Top.T/2
	id, f, at := "top", k.top, topCompression
	if !top {
		s, mat, gamma, lag, skin = w.panel.Bottom, &k.m.bottom, w.first.GammaBottom, w.first.LagBottom, k.d.BottomSkin
		z, id, f, at = w.panel.Bottom.T/2, "bottom", k.bottom, bottomCompression
	}
	strength := fibresOf(mat, skin, w.along)
	r := k.spot(w, x)
	r.Part = id
	r.Source = "EN 1995-1-1 9.1.2 and 6.2.3, from memory"
	r.Note = "Membrane stress at the rib, shear lag included, and the skin's own bending turned into the same stress."
	net := k.net(&r, top, w.along)
	// Per unit of moment, a pull positive.
	membrane := -s.E * gamma * lag * (z - w.first.Neutral) / w.first.EI
	bending := s.EBend * s.T / 2 / w.first.EI
	for _, face := range [...]float64{-bending, bending} { // upper, lower
		k.keep(at, w.along, r, f, net*strength.press, sense(m.scale(-membrane-face*strength.press/strength.bend)))
		k.keep(at+1, w.along, r, f, net*strength.pull, sense(m.scale(membrane+face*strength.pull/strength.bend)))
	}
}

// skinFibres is the strength of a skin along a way, MPa.
type skinFibres struct{ bend, pull, press float64 }

// fibresOf returns the strength of a skin along the length or the width.
func fibresOf(mat *catalog.Sheet, s Skin, along bool) skinFibres {
	if s.Across == along { // face grain lies across this way
		return skinFibres{mat.FBendAcross, mat.FTensAcross, mat.FCompAcross}
	}
	return skinFibres{mat.FBendAlong, mat.FTensAlong, mat.FCompAlong}
}

// bothFaces checks a skin pressed and pulled at its lower and its upper face, where
// bending adds the same stress one way and the other, turned into membrane stress by the
// strengths.
func (k *checker) bothFaces(press, pull check, along bool, r Margin, f factors, s skinFibres, membrane, bending effect) {
	for _, face := range [...]float64{-1, 1} {
		k.keep(press, along, r, f, s.press, sense(membrane.scale(-1).plus(bending.scale(-face*s.press/s.bend))))
		k.keep(pull, along, r, f, s.pull, sense(membrane.plus(bending.scale(face*s.pull/s.bend))))
	}
}

func abs(x float64) float64 { return math.Abs(x) }

// flow returns E·S of everything above (or below) the glue line of a skin per
// unit of EI: times the shear force it is the shear flow of all ribs together.
func (w way) flow(top bool) float64 {
	if top {
		z := w.panel.Bottom.T + w.panel.H + w.panel.Top.T/2
		return w.panel.Top.E * w.first.GammaTop * w.panel.Top.T * w.panel.Width * abs(z-w.first.Neutral) / w.first.EI
	}
	return w.panel.Bottom.E * w.first.GammaBottom * w.panel.Bottom.T * w.panel.Width * abs(w.panel.Bottom.T/2-w.first.Neutral) / w.first.EI
}

// glueLine checks the shear flow between skin and rib against the weaker of
// the glue and the skin's rolling shear.
func (k *checker) glueLine(w way, x float64, v effect, top bool) {
	j := k.joint(top)
	per := w.flow(top) / float64(w.panel.Web.N) / w.panel.Web.B
	r := k.spot(w, x)
	r.Part, r.Note = j.part, j.note
	r.Source = "shear flow V·ES/EI; EN 1995-1-1 9.1.2(6), from memory"
	// An edge rib has skin on one side only: half the flow, half the limit.
	inner := section.GlueLineReduction(w.panel.Web.B, j.t, 8)
	edge := 2 * section.GlueLineReduction(w.panel.Web.B, j.t, 4)
	k.keep(j.check, w.along, r, j.factors, j.strength*math.Min(inner, edge), v.scale(per))
}

// joint is the glue line of one skin: the weaker of the glue and the skin's
// rolling shear.
type joint struct {
	check
	factors
	t, strength float64 // the skin's thickness, mm; characteristic, MPa
	part, note  string
}

func (k *checker) joint(top bool) joint {
	j := joint{topGlue, k.top, k.d.TopSkin.Thickness, k.m.top.FRolling, "top", "Rolling shear in the skin is the weaker side."}
	if !top {
		j.check, j.factors, j.t, j.strength, j.part = bottomGlue, k.bottom, k.d.BottomSkin.Thickness, k.m.bottom.FRolling, "bottom"
	}
	if g := k.bondStrength; g/gammaGlue < j.strength/j.gammaM {
		j.strength, j.gammaM, j.note = g, gammaGlue, "The glue itself is the weaker side."
	}
	return j
}

// rib checks one way's ribs: shear in the full section, shear and bending at a
// slot where only part of the depth is left, bending in the full section.
func (k *checker) rib(w way, x float64, m, v effect) {
	set, mat, part, f := k.d.Lengthwise, &k.m.lengthwise, "L1", k.lengthwise
	mate := k.d.Crosswise
	if !w.along {
		set, mat, part, mate, f = k.d.Crosswise, &k.m.crosswise, "C1", k.d.Lengthwise, k.crosswise
	}
	p := w.panel
	n, b, h := float64(p.Web.N), p.Web.B, p.H
	left := h - k.d.SlotDepth()
	slot := k.d.Slots.width(mate)
	base := k.spot(w, x)
	base.Part = part

	// Full section: shear flow at the neutral axis, skin and rib above it.
	zTop := p.Bottom.T + h
	above := math.Max(0, math.Min(h, zTop-w.first.Neutral))
	flow := w.flow(true) + p.Web.E*b*n*above*above/2/w.first.EI
	r := base
	r.Source = "V·ES/(EI·b), textbook; panel shear strength of the sheet"
	k.keep(ribShear, w.along, r, f, mat.FEdgeShear, v.scale(flow/(n*b)))

	// At a slot.
	r = base
	net := v.scale(1 / (n * b * left))
	kv := section.NotchFactor(h, left, 0, slot/2, f.kind.KN)
	if f.kind.NotchFactor {
		r.Source = "EN 1995-1-1 6.5.2, from memory"
		r.Note = k.say("Notch factor kv = %.2f on what is left of the depth, %.1f mm; made for beams, so it is cautious here.", kv, left)
		k.keep(slotShear, w.along, r, f, kv*mat.FEdgeShear, net.scale(1.5))
	} else {
		r.Source = "net section V ≤ fv·b·hef for sheet material, common practice, no source"
		r.Note = k.say("%.1f mm of the depth is left. The notch rule for beams (EN 1995-1-1 6.5.2, from memory), which is too cautious here, would give %.2f of this margin.", left, kv/1.5)
		k.keep(slotShear, w.along, r, f, mat.FEdgeShear, net)
	}

	// Bending of the rib itself, and of what is left at a slot with the shear
	// force carried across the slot's width.
	e, ft, fc := p.Web.E, mat.FTensAlong, mat.FCompAlong
	if set.Upright {
		ft, fc = mat.FTensAcross, mat.FCompAcross
	}
	far := math.Max(abs(zTop-w.first.Neutral), abs(w.first.Neutral-p.Bottom.T))
	fibre := m.scale(e * far / w.first.EI)
	r = base
	r.Source = "M·E·z/EI, textbook; weaker of tension and compression in the plane of the sheet"
	k.keep(ribBending, w.along, r, f, math.Min(ft, fc), fibre)
	r.Source = "M·E·z/EI and V·w/2 on the net section b·hef²/6, textbook (frame with open panels)"
	local := v.scale(3 * slot / (n * b * left * left))
	k.keep(slotBending, w.along, r, f, math.Min(ft, fc), effect{abs(fibre.own) + abs(local.own), abs(fibre.load) + abs(local.load)})
	state := ribState{Margin: base, factors: f, along: w.along, rib: -1, at: x, len: nearly, b: b, h: h, fibres: [2]effect{fibre, fibre.scale(-1)}, shear: v.scale(1 / n), mat: mat}
	k.cutRib(state)
	k.splicedRib(state)
}
