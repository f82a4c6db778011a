package engine

import "math"

// bearing checks what presses on the panel's faces: legs and rails from below,
// loads from above.
func (k *checker) bearing() {
	own, loads := k.mo.ownWeight(), k.c.Loads
	for _, w := range k.mo.working() {
		a, b := w.span.Reactions(w.press(own))
		ra, rb := effect{own: a}, effect{own: b}
		for i := range loads {
			a, b := w.span.Reactions(w.press(k.mo.footprint(&loads[i])))
			ra.load, rb.load = ra.load+a, rb.load+b
		}
		if k.mo.kind == FourLegs {
			if w.along {
				k.legs(ra, w.span.A)
				k.legs(rb, w.span.B)
			}
			continue
		}
		k.rail(w, ra, w.span.A)
		k.rail(w, rb, w.span.B)
	}
	for i := range loads {
		l := &loads[i]
		r := k.mo.footprint(l)
		m := Margin{Part: "top", X: r.X, Y: r.Y, Where: k.say("under %s", l.Name),
			Source: "force over its footprint, EN 1995-1-1 6.1.5, from memory"}
		k.keep(loadBearing, true, m, k.top, k.m.top.FBearing, effect{load: l.Force / (r.SizeX * r.SizeY)})
	}
}

// rail checks a line support: the reaction goes through the edges of the ribs
// that cross it.
func (k *checker) rail(w way, reaction effect, at float64) {
	area := float64(w.panel.Web.N) * w.panel.Web.B * k.d.Supports.Bearing
	k.press(railBearing, k.spot(w, at), reaction, area, w.along)
}

// legs checks the pair of legs at x. Each leg is taken to carry its share of
// the pair's reaction by where the loads stand across the width.
func (k *checker) legs(pair effect, x float64) {
	inset := k.d.Supports.SideInset
	for _, y := range [...]float64{inset, k.mo.width - inset} {
		leg := effect{own: pair.own / 2, load: pair.load * k.legShare(y)}
		area := k.ribsOver(x, y)
		m := Margin{X: x, Y: y, Where: k.say("over the leg at %.0f mm, %.0f mm", x, y)}
		if area == 0 {
			area = k.d.Supports.Bearing * k.d.Supports.Bearing
			m.Note = "No rib stands over this leg: only the bottom skin carries it. A block or a rib there would help."
		}
		k.press(legBearing, m, leg, area, true)
	}
}

// legShare is the part of a case's load that goes to the legs at y, by the
// lever rule.
func (k *checker) legShare(y float64) float64 {
	inset := k.d.Supports.SideInset
	span := k.mo.width - 2*inset
	force, part := 0.0, 0.0
	for i := range k.c.Loads {
		r := k.mo.footprint(&k.c.Loads[i])
		far := (r.Y - inset) / span
		if y < k.mo.width/2 {
			far = 1 - far
		}
		force += r.P
		part += r.P * far
	}
	if force == 0 {
		return 0.5
	}
	return math.Max(0, part/force)
}

// press keeps the check of a reaction on an area of rib edge.
func (k *checker) press(c check, m Margin, reaction effect, area float64, along bool) {
	rib, set, ribFactors := &k.m.lengthwise, k.d.Lengthwise, k.lengthwise
	if !along {
		rib, set, ribFactors = &k.m.crosswise, k.d.Crosswise, k.crosswise
	}
	crush := rib.FCompAcross // the rib stands on its edge
	if set.Upright {
		crush = rib.FCompAlong
	}
	strength, f := k.m.bottom.FBearing, k.bottom
	if crush*ribFactors.kmod/ribFactors.gammaM < strength*f.kmod/f.gammaM {
		strength, f = crush, ribFactors
	}
	m.Part, m.Source = "bottom", "reaction over the rib edges above it; EN 1995-1-1 6.1.5, from memory"
	k.keep(c, along, m, f, strength, effect{reaction.own / area, reaction.load / area})
}

// ribsOver returns the area of rib and band edges above a square pad at (x, y), mm².
func (k *checker) ribsOver(x, y float64) float64 {
	half := k.d.Supports.Bearing / 2
	overlap := func(at, thickness, centre float64) float64 {
		return math.Max(0, math.Min(at+thickness/2, centre+half)-math.Max(at-thickness/2, centre-half))
	}
	ys, xs := k.d.RibPlaces()
	wide, long := 0.0, 0.0
	for _, at := range ys {
		wide += overlap(at, k.d.Lengthwise.Thickness, y)
	}
	for _, at := range xs {
		long += overlap(at, k.d.Crosswise.Thickness, x)
	}
	return 2*half*(wide+long) - wide*long
}
