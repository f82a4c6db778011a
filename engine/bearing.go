package engine

import (
	"math"

	"flatwright/engine/catalog"
)

// bearing checks what presses on the panel's faces: legs and rails from below,
// loads from above.
func (k *checker) bearing() {
	own, loads := k.mo.ownWeight(), k.c.Loads
	if k.mo.kind == FourLegs {
		k.legs()
	}
	for _, w := range k.mo.working() {
		onA, onB := k.lines(w)
		if !onA && !onB {
			continue
		}
		w.share = k.lineShare(w)
		a, b := w.span.Reactions(w.press(own))
		ra, rb := effect{own: a}, effect{own: b}
		for i := range loads {
			parts := k.mo.presses(&loads[i])
			for _, r := range parts.all() {
				a, b := w.span.Reactions(w.press(r))
				ra.load, rb.load = ra.load+a, rb.load+b
			}
		}
		if onA {
			k.rail(w, ra, w.span.A)
		}
		if onB {
			k.rail(w, rb, w.span.B)
		}
	}
	for i := range loads {
		l := &loads[i]
		p := k.d.under(*l)
		m := Margin{Part: "top", X: p.x, Y: p.y, Where: k.say("under “%s”", l.Name),
			Source: "force over its footprint, EN 1995-1-1 6.1.5, from memory"}
		if l.Kind == Couple {
			m.Source = "pressure at the block's edge, 3·M/(b·a²) on either skin, textbook; EN 1995-1-1 6.1.5, from memory"
		}
		k.keep(loadBearing, true, m, k.top, k.m.top.FBearing, sense{load: k.d.edgePressure(l)})
		if l.Kind == Couple {
			k.peel(l)
			k.blockScrews(l)
		}
	}
}

// tensionAcross is what a glue line holds when it is pulled open, MPa: the wood
// or sheet beside it parts first. The lowest of solid softwood, 0.4 (ft,90,k of
// EN 338), fibreboard, 0.55, and oriented strand board, 0.3 (internal bond of
// EN 622-5 and EN 300), all from memory; plywood has none given.
const tensionAcross = 0.3

// peel checks the glue lines between a block and the skins where a couple pulls
// them open: half of its pull goes through either.
func (k *checker) peel(l *Load) {
	s, p := k.d.Spread(*l), k.d.under(*l)
	r := Margin{Part: "top", X: 2*s.X - p.x, Y: 2*s.Y - p.y, Where: k.say("at the edge of the block that “%s” pulls up", l.Name),
		Source: "pull at the block's edge, 3·M/(b·a²) on either glue line, textbook; tension across the wood, the lowest of EN 338, EN 622-5 and EN 300, from memory",
		Note:   "Bolts through both skins and the block take this pull instead of the glue."}
	k.keep(blockPeel, true, r, k.top, tensionAcross, sense{load: k.d.edgePressure(l)})
}

// lines tells which ends of the span one way lie on a line: both on rails and
// edges, none on legs, that of a ledger beside legs.
func (k *checker) lines(w way) (onA, onB bool) {
	if k.mo.kind != FourLegs {
		return true, true
	}
	g := k.mo.ledger
	if !g.on || w.along == g.along {
		return false, false
	}
	return g.reach > 0, g.reach < 0
}

// lineShare is the part of the loads that comes to a line: a ledger beside legs
// takes by the lever rule of the whole load.
func (k *checker) lineShare(w way) float64 {
	if k.mo.ledger.on {
		return 1
	}
	return w.share
}

// rail checks a line support: the reaction goes through the edges of the ribs
// that cross it.
func (k *checker) rail(w way, reaction effect, at float64) {
	wide := k.d.Supports.Bearing
	if k.mo.kind != AllEdges { // where a ledge lies wholly under the panel
		wide = under(at, wide/2, w.span.Length)
	}
	area := float64(w.panel.Web.N) * w.panel.Web.B * wide
	strength, f := k.crush(edges{lengthwise: w.along, crosswise: !w.along})
	k.press(railBearing, k.spot(w, at), reaction, area, w.along, strength, f)
}

// under returns how much of a bearing, half to either side of at, lies under a
// panel of that extent.
func under(at, half, extent float64) float64 {
	return math.Min(at+half, extent) - math.Max(at-half, 0)
}

// legs checks every foot. Legs take their share of every load and of the weight by
// the lever rule, both ways; aprons between them are taken to bring theirs there.
func (k *checker) legs() {
	feet := k.d.feet()
	for n, foot := range feet {
		x, y, half := foot.X, foot.Y, k.d.Supports.Side(foot)/2
		leg := effect{own: k.mo.weight * k.mo.carried(k.d, feet, n, k.mo.length/2, k.mo.width/2)}
		for i := range k.c.Loads {
			parts := k.mo.presses(&k.c.Loads[i])
			for _, r := range parts.all() {
				leg.load += r.P * k.mo.carried(k.d, feet, n, r.X, r.Y)
			}
		}
		m := Margin{X: x, Y: y, Where: k.say("over the leg at %.0f mm, %.0f mm", x, y)}
		over := k.ribsOver(x, y, half)
		area := over.area
		if area == 0 {
			area = under(x, half, k.mo.length) * under(y, half, k.mo.width)
			m.Note = "No rib stands over this leg: only the bottom skin carries it. A block or a rib there would help."
		}
		strength, f := k.crush(over)
		k.press(legBearing, m, leg, area, true, strength, f)
	}
}

// lever is the part of a force at x that a support at here takes, with the
// other one there.
func lever(x, here, there float64) float64 { return (there - x) / (there - here) }

// edges is what stands on a support.
type edges struct {
	lengthwise, crosswise, band bool
	area                        float64 // of their edges, mm²
}

// crush returns the weakest of what a reaction goes through: the face of the
// bottom skin and the edges of the ribs and bands.
func (k *checker) crush(over edges) (strength float64, f factors) {
	strength, f = k.m.bottom.FBearing, k.bottom
	weaker := func(there bool, s float64, of factors) {
		if there && s*of.kmod/of.gammaM < strength*f.kmod/f.gammaM {
			strength, f = s, of
		}
	}
	onEdge := func(m *catalog.Sheet, upright bool) float64 {
		if upright {
			return m.FCompAlong
		}
		return m.FCompAcross
	}
	weaker(over.lengthwise, onEdge(&k.m.lengthwise, k.d.Lengthwise.Upright), k.lengthwise)
	weaker(over.crosswise, onEdge(&k.m.crosswise, k.d.Crosswise.Upright), k.crosswise)
	if over.band {
		weaker(true, onEdge(&k.m.band, false), k.kmod(&k.m.band))
	}
	return strength, f
}

// press keeps the check of a reaction on an area; one that pulls asks nothing
// of it.
func (k *checker) press(c check, m Margin, reaction effect, area float64, along bool, strength float64, f factors) {
	m.Part, m.Source = "bottom", "reaction over the rib edges above it; EN 1995-1-1 6.1.5, from memory"
	k.keep(c, along, m, f, strength, sense(reaction.scale(1/area)))
}

// ribsOver returns the ribs and bands that stand above a square pad, half to either side of (x, y).
func (k *checker) ribsOver(x, y, half float64) edges {
	tb := k.d.EdgeBand.Thickness
	overlap := func(at, thickness, centre float64) float64 {
		if o := math.Min(at+thickness/2, centre+half) - math.Max(at-thickness/2, centre-half); o > nearly {
			return o
		}
		return 0
	}
	ys, xs := k.d.RibPlaces()
	wide, long := 0.0, 0.0
	for _, at := range ys {
		wide += overlap(at, k.d.Lengthwise.Thickness, y)
	}
	for _, at := range xs {
		long += overlap(at, k.d.Crosswise.Thickness, x)
	}
	// The ribs end at the bands.
	inX := math.Max(0, under(x-tb, half, k.mo.length-2*tb))
	inY := math.Max(0, under(y-tb, half, k.mo.width-2*tb))
	band := under(x, half, k.mo.length)*under(y, half, k.mo.width) - inX*inY
	if !(band > nearly) {
		band = 0
	}
	return edges{lengthwise: wide*inX > 0, crosswise: long*inY > 0, band: band > 0, area: wide*inX + long*inY - wide*long + band}
}
