package engine

import (
	"math"

	"flatwright/engine/section"
)

// sagParts is the sag at one point by what causes it, mm.
type sagParts struct{ bending, shear, twist float64 }

func (s sagParts) total() float64 { return s.bending + s.shear + s.twist }

func (s sagParts) plus(o sagParts) sagParts {
	return sagParts{s.bending + o.bending, s.shear + o.shear, s.twist + o.twist}
}

// footprint returns where a load presses.
func (mo *model) footprint(l *Load) section.Rect {
	if l.Kind == Uniform {
		return section.Rect{P: l.Force, X: mo.length / 2, Y: mo.width / 2, SizeX: mo.length, SizeY: mo.width}
	}
	return section.Rect{P: l.Force, X: l.X, Y: l.Y, SizeX: l.SizeX, SizeY: l.SizeY}
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
		s := mo.along.sag(pressAlong(r), x, r.Y-mo.width/2, y-mo.width/2)
		return s.plus(mo.across.sag(pressAcross(r), y, r.X-mo.length/2, x-mo.length/2))
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
		return along() + across()
	default:
		return along()
	}
}

// point is a place on the top.
type point struct{ x, y float64 }

// lookAt returns the i-th place at which a case is looked at: each load's
// middle; midway between the supports at each load's other coordinate (both
// ways on legs and along all edges); on rails the edge beside each load, where
// twist adds most; then the middle of the top and the middles of its four
// edges.
func (mo *model) lookAt(c *LoadCase, i int) (point, bool) {
	mid := point{mo.length / 2, mo.width / 2}
	n := len(c.Loads)
	if i < 3*n {
		r := mo.footprint(&c.Loads[i/3])
		switch {
		case i%3 == 0:
			return point{r.X, r.Y}, true
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
			s = s.plus(mo.sag(mo.footprint(&c.Loads[j]), p.x, p.y))
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
		l := mo.footprint(&c.Loads[i])
		r.SlabSag += mo.slabSag(l, at.x, at.y)
		one := LoadSag{Name: c.Loads[i].Name, X: l.X, Y: l.Y, Alone: mo.sag(l, l.X, l.Y).total()}
		one.Sag = mo.sag(own, l.X, l.Y).total()
		for j := range c.Loads {
			one.Sag += mo.sag(mo.footprint(&c.Loads[j]), l.X, l.Y).total()
		}
		if one.Alone > 0 {
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
	patch := false
	for i := range c.Loads {
		patch = patch || c.Loads[i].Kind == Patch
	}
	switch {
	case mo.kind == FourLegs:
		return "On four legs the panel is taken to bend along and across one after the other: good at the middle, rough near the edges between two legs."
	case mo.kind == AllEdges:
		return ""
	case patch && w > l:
		return "The top is wider than its span, so a load on a small area is carried by less than the whole width: expect more sag right under it than is told here."
	case patch:
		return "A load on a small area is taken as shared by the whole width; right under it the top sags a little more."
	}
	return ""
}
