package engine

import (
	"math"
	"slices"
	"strings"

	"flatwright/engine/section"
)

// sagParts is the sag at one point by what causes it, mm.
type sagParts struct{ bending, shear, twist float64 }

func (s sagParts) total() float64 { return s.bending + s.shear + s.twist }

func (s sagParts) plus(o sagParts) sagParts {
	return sagParts{s.bending + o.bending, s.shear + o.shear, s.twist + o.twist}
}

// footprint returns where a load presses; a couple presses with nothing in all.
func (mo *model) footprint(l *Load) section.Rect {
	s := mo.d.Spread(*l)
	r := section.Rect{P: l.Force, X: s.X, Y: s.Y, SizeX: s.SizeX, SizeY: s.SizeY}
	if l.Kind == Couple {
		r.P = 0
	}
	return r
}

// presses is a load as even pressures: one, or the two of a couple.
type presses struct {
	rects [2]section.Rect
	n     int
}

func (p *presses) all() []section.Rect { return p.rects[:p.n] }

// presses turns a load into even pressures. A couple becomes two of the same
// moment, down on one half of its block and up on the other: 2·M/a on middles
// a/2 apart.
func (mo *model) presses(l *Load) presses {
	r := mo.footprint(l)
	if l.Kind != Couple {
		return presses{rects: [2]section.Rect{r}, n: 1}
	}
	down, up := r, r
	switch x, y := l.Pull.way(); {
	case x != 0:
		down.SizeX, up.SizeX = r.SizeX/2, r.SizeX/2
		down.X, up.X = r.X+x*r.SizeX/4, r.X-x*r.SizeX/4
		down.P = 2 * l.Moment() / r.SizeX
	default:
		down.SizeY, up.SizeY = r.SizeY/2, r.SizeY/2
		down.Y, up.Y = r.Y+y*r.SizeY/4, r.Y-y*r.SizeY/4
		down.P = 2 * l.Moment() / r.SizeY
	}
	up.P = -down.P
	return presses{[2]section.Rect{down, up}, 2}
}

// under returns the sag at (x, y) under one load, slabUnder that of the solid
// slab.
func (mo *model) under(l *Load, x, y float64) sagParts {
	var s sagParts
	p := mo.presses(l)
	for _, r := range p.all() {
		s = s.plus(mo.sag(r, x, y))
	}
	return s
}

func (mo *model) slabUnder(l *Load, x, y float64) float64 {
	sum := 0.0
	p := mo.presses(l)
	for _, r := range p.all() {
		sum += mo.slabSag(r, x, y)
	}
	return sum
}

func (mo *model) ownWeight() section.Rect {
	return section.Rect{P: mo.weight, X: mo.length / 2, Y: mo.width / 2, SizeX: mo.length, SizeY: mo.width}
}

func pressAlong(r section.Rect) section.Press {
	return section.Press{P: r.P, X1: r.X - r.SizeX/2, X2: r.X + r.SizeX/2}
}

func pressAcross(r section.Rect) section.Press {
	return section.Press{P: r.P, X1: r.Y - r.SizeY/2, X2: r.Y + r.SizeY/2}
}

// sag returns the sag at (x, y) under one load.
//
// On two rails the panel is one beam as wide as the top, and a load off its
// middle line twists it as well. On four legs the whole panel bends both ways,
// one after the other: the beam along the length between the leg pairs and the
// beam across between the legs of a pair each carry the load once (for a
// square plate on four corners under even load: 2·5/384 = .0260 against .0255
// of plate theory). Held along all edges it is the orthotropic plate with
// shear.
func (mo *model) sag(r section.Rect, x, y float64) sagParts {
	switch mo.kind {
	case AllEdges:
		w := mo.plate.Sag(mo.length, mo.width, r, x, y)
		stiff := mo.plate
		stiff.Sx, stiff.Sy = 1e4*stiff.Sx, 1e4*stiff.Sy
		b := stiff.Sag(mo.length, mo.width, r, x, y)
		return sagParts{bending: b, shear: w - b}
	case RailsAlong:
		return mo.across.sag(pressAcross(r), y, r.X-mo.length/2, x-mo.length/2)
	case FourLegs:
		return mo.onLegs(r, x, y)
	default:
		return mo.along.sag(pressAlong(r), x, r.Y-mo.width/2, y-mo.width/2)
	}
}

// sag of one axis: e and off are the distances of the load and of the point
// from the beam's middle line.
func (a *axis) sag(p section.Press, x, e, off float64) sagParts {
	var s sagParts
	s.bending, s.shear = a.span.Sag(p, x, a.first.EI, a.ga)
	s.bending += a.soft.Sag(a.span, p, x)
	s.twist = a.span.TwistSag(p, e, x, off, a.gj)
	return s
}

// slabSag is the sag of the solid slab of the same outline, by the same beams
// and plate.
func (mo *model) slabSag(r section.Rect, x, y float64) float64 {
	along := func() float64 {
		p, span := pressAlong(r), mo.along.span
		b, s := span.Sag(p, x, mo.slab.ei, mo.slab.ga)
		return b + s + span.TwistSag(p, r.Y-mo.width/2, x, y-mo.width/2, mo.slab.gj)
	}
	across := func() float64 {
		p, span := pressAcross(r), mo.across.span
		b, s := span.Sag(p, y, mo.slab.eiAcross, mo.slab.gaAcross)
		return b + s + span.TwistSag(p, r.X-mo.length/2, y, x-mo.length/2, mo.slab.gjAcross)
	}
	switch mo.kind {
	case AllEdges:
		p := section.Plate{Dx: mo.slab.ei / mo.width, Dy: mo.slab.eiAcross / mo.length, H: mo.slab.gj / (2 * mo.width), Sx: mo.slab.ga / mo.width, Sy: mo.slab.gaAcross / mo.length}
		return p.Sag(mo.length, mo.width, r, x, y)
	case RailsAlong:
		return across()
	case FourLegs:
		return mo.slabOnLegs(r, x, y, along(), across())
	default:
		return along()
	}
}

// point is a place on the top.
type point struct{ x, y float64 }

// lookAt returns the i-th place at which a case is looked at: each load's
// middle, or the edge that a couple presses down; midway between the supports at each load's other coordinate (both
// ways on legs and along all edges); on rails the edge beside each load, where
// twist adds most; then the middle of the top and the middles of its four
// edges. A couple can lift all of these: with one a place a little within the edge
// pressed down and the eighths of the top are looked at as well.
func (mo *model) lookAt(c *LoadCase, i int) (point, bool) {
	mid := point{mo.length / 2, mo.width / 2}
	n := len(c.Loads)
	if i < 3*n {
		r := mo.footprint(&c.Loads[i/3])
		switch {
		case i%3 == 0:
			return mo.d.under(c.Loads[i/3]), true
		case i%3 == 1 && mo.kind != RailsAlong:
			return point{mid.x, r.Y}, true
		case mo.kind == RailsAcross:
			return point{r.X, beyond(r.Y, mo.width)}, true
		case i%3 == 2 && mo.kind == RailsAlong:
			return point{beyond(r.X, mo.length), r.Y}, true
		}
		return point{r.X, mid.y}, true
	}
	switch i - 3*n {
	case 0:
		return mid, true
	case 1:
		return point{0, mid.y}, true
	case 2:
		return point{mo.length, mid.y}, true
	case 3:
		return point{mid.x, 0}, true
	case 4:
		return point{mid.x, mo.width}, true
	}
	if i -= 3*n + 5; i < n+49 && slices.ContainsFunc(c.Loads, func(l Load) bool { return l.Kind == Couple }) {
		if i < n {
			half, edge := mo.presses(&c.Loads[i]).rects[0], mo.d.under(c.Loads[i])
			return point{(half.X + edge.x) / 2, (half.Y + edge.y) / 2}, true
		}
		i -= n
		return point{mo.length * float64(1+i%7) / 8, mo.width * float64(1+i/7) / 8}, true
	}
	return point{}, false
}

// beyond returns the end of an extent that is nearer to at.
func beyond(at, extent float64) float64 {
	if at < extent/2 {
		return 0
	}
	return extent
}

// worst returns the largest sag of a case, where it is, and its parts.
func (mo *model) worst(c *LoadCase) (point, sagParts) {
	var at point
	best := sagParts{bending: math.Inf(-1)}
	for i := 0; ; i++ {
		p, ok := mo.lookAt(c, i)
		if !ok {
			return at, best
		}
		s := mo.sag(mo.ownWeight(), p.x, p.y)
		for j := range c.Loads {
			s = s.plus(mo.under(&c.Loads[j], p.x, p.y))
		}
		if s.total() > best.total() {
			at, best = p, s
		}
	}
}

// caseResult tells one case.
func (mo *model) caseResult(c *LoadCase) CaseResult {
	at, s := mo.worst(c)
	own := mo.ownWeight()
	r := CaseResult{Name: c.Name, Sag: s.total(), Closed: s.total(), X: at.x, Y: at.y, OwnSag: mo.sag(own, at.x, at.y).total(),
		SlabSag: mo.slabSag(own, at.x, at.y), Reach: mo.reach(c)}
	if r.Sag != 0 {
		r.Bending, r.Shear, r.Twist = s.bending/r.Sag, s.shear/r.Sag, s.twist/r.Sag
	}
	for i := range c.Loads {
		l := &c.Loads[i]
		p := mo.d.under(*l)
		r.SlabSag += mo.slabUnder(l, at.x, at.y)
		one := LoadSag{Name: l.Name, X: p.x, Y: p.y, Alone: mo.under(l, p.x, p.y).total()}
		one.Sag = mo.sag(own, p.x, p.y).total()
		for j := range c.Loads {
			one.Sag += mo.under(&c.Loads[j], p.x, p.y).total()
		}
		if one.Alone > 0 && l.Kind != Couple {
			one.Stiffness = c.Loads[i].Force / one.Alone
		}
		r.Loads = append(r.Loads, one)
	}
	return r
}

// reach says in words which assumption of the closed form a case strains.
func (mo *model) reach(c *LoadCase) string {
	l, w := mo.along.span.B-mo.along.span.A, mo.width
	if mo.kind == RailsAlong {
		l, w = mo.across.span.B-mo.across.span.A, mo.length
	}
	narrow, couple := "", ""
	for i := range c.Loads {
		wide := mo.d.Spread(c.Loads[i])
		switch k := c.Loads[i].Kind; {
		case k == Couple:
			couple = coupleReach
		case k == Patch:
			narrow = "a load on a small area"
		case k == Line && narrow == "" && (mo.kind == RailsAlong && wide.SizeX < w-nearly || mo.kind == RailsAcross && wide.SizeY < w-nearly):
			narrow = "a load along a line"
		}
	}
	reach := ""
	switch {
	case mo.ledger.on:
	case mo.kind == FourLegs:
		reach = "On four legs the panel is taken to bend along and across one after the other: good at the middle, rough near the edges between two legs."
	case mo.kind == AllEdges:
		reach = edgesReach
	case narrow == "":
	case w > l:
		reach = "The top is wider than its span, so " + narrow + " is carried by less than the whole width: expect more sag right under it than is told here."
	default:
		reach = "A" + narrow[1:] + " is taken as shared by the whole width; right under it the top sags a little more."
	}
	return strings.TrimSpace(reach + " " + couple)
}

// edgesReach says what the closed form makes of a top held along its edges.
const edgesReach = "Along all edges the sag is that of a plate held down all round, its corners too. The margins share the load between two strips that cross at its middle; that leaves the twisting stiffness out and asks more of the bending than there is."

// coupleReach says what the closed form makes of a couple.
const coupleReach = "A couple is taken as two even pressures, down on one half of its block and up on the other, the block as no stiffer than a hollow bay, and the supports as holding the top down too: at the block, and where a support would lift, only the whole-panel model can tell."
