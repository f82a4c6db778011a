package engine

import (
	"fmt"
	"math"

	"flatwright/engine/plate"
	"flatwright/engine/section"
)

// Edge names an edge of the top.
type Edge string

// The edges; the back is the far one of the plan.
const (
	FrontEdge Edge = "front"
	BackEdge  Edge = "back"
	LeftEdge  Edge = "left"
	RightEdge Edge = "right"
)

// LedgerEdge returns the edge that a ledger holds; by default the back.
func (s Supports) LedgerEdge() Edge {
	if s.Ledger == "" {
		return BackEdge
	}
	return s.Ledger
}

// UsesEnd and UsesSide report whether the kind of support is set in by
// EndInset, by SideInset.
func (s Supports) UsesEnd() bool {
	return s.Kind == RailsAcross || s.Kind == FourLegs || s.Kind == OnLedger && (!s.Rail || !s.ledgerAlong())
}

// UsesSide is [Supports.UsesEnd] across the width.
func (s Supports) UsesSide() bool {
	return s.Kind == RailsAlong || s.Kind == FourLegs || s.Kind == OnLedger && (!s.Rail || s.ledgerAlong())
}

// ledgerAlong reports whether the ledger runs along the length.
func (s Supports) ledgerAlong() bool {
	e := s.LedgerEdge()
	return e == FrontEdge || e == BackEdge
}

// pattern is the one of the four first kinds of support that the closed form
// takes for the kind at hand: it says which ways the panel bends.
func (s Supports) pattern() SupportKind {
	switch {
	case s.Kind == OwnFeet, s.Kind == OnLedger && !s.Rail:
		return FourLegs
	case s.Kind == OnLedger && s.ledgerAlong():
		return RailsAlong
	case s.Kind == OnLedger:
		return RailsAcross
	}
	return s.Kind
}

// Side returns the side of a foot's square pad, mm.
func (s Supports) Side(f Foot) float64 {
	if f.Size > 0 {
		return f.Size
	}
	return s.Bearing
}

// feet returns the single pads of a valid design in their order: legs, or the
// feet listed; nil where it rests on rails or edges alone.
func (d *Design) feet() []Foot {
	s, l, w := d.Supports, d.Length, d.Width
	names := func(x, y float64) string {
		side, end := "left", "front"
		if x > l/2 {
			side = "right"
		}
		if y > w/2 {
			end = "back"
		}
		return side + " " + end + " leg"
	}
	var out []Foot
	leg := func(x, y float64) { out = append(out, Foot{Name: names(x, y), X: x, Y: y}) }
	left, right, front, back := s.EndInset, l-s.EndInset, s.SideInset, w-s.SideInset
	switch {
	case s.Kind == OwnFeet:
		for i, f := range s.Feet {
			f.Name = s.FootName(i)
			out = append(out, f)
		}
	case s.Kind == FourLegs:
		leg(left, front)
		leg(left, back)
		leg(right, front)
		leg(right, back)
	case s.Kind != OnLedger || s.Rail:
	case s.LedgerEdge() == BackEdge:
		leg(left, front)
		leg(right, front)
	case s.LedgerEdge() == FrontEdge:
		leg(left, back)
		leg(right, back)
	case s.LedgerEdge() == LeftEdge:
		leg(right, front)
		leg(right, back)
	default:
		leg(left, front)
		leg(left, back)
	}
	return out
}

// FootName returns what the i-th of the listed feet is called.
func (s Supports) FootName(i int) string {
	if i < len(s.Feet) && s.Feet[i].Name != "" {
		return s.Feet[i].Name
	}
	return fmt.Sprintf("foot %d", i+1)
}

// pads turns the supports into elastic beds: feet first, in their order.
func (d *Design) pads() []plate.Pad {
	s, l, w, b := d.Supports, d.Length, d.Width, d.Supports.Bearing
	pad := func(name string, x, y, sx, sy float64) plate.Pad {
		return plate.Pad{Name: name, X: x, Y: y, SX: sx, SY: sy, K: s.BedStiffness()}
	}
	var out []plate.Pad
	for _, f := range d.feet() {
		out = append(out, pad(f.Name, f.X, f.Y, s.Side(f), s.Side(f)))
	}
	edges := map[Edge]plate.Pad{
		FrontEdge: pad("front", l/2, b/2, l, b), BackEdge: pad("back", l/2, w-b/2, l, b),
		LeftEdge: pad("left", b/2, w/2, b, w), RightEdge: pad("right", l-b/2, w/2, b, w),
	}
	front, back := pad("front rail", l/2, s.SideInset, l, b), pad("back rail", l/2, w-s.SideInset, l, b)
	left, right := pad("left rail", s.EndInset, w/2, b, w), pad("right rail", l-s.EndInset, w/2, b, w)
	switch s.Kind {
	case OwnFeet, FourLegs:
		return out
	case RailsAlong:
		return []plate.Pad{front, back}
	case AllEdges:
		return []plate.Pad{pad("front edge", l/2, b/2, l, b), pad("back edge", l/2, w-b/2, l, b),
			pad("left edge", b/2, w/2, b, w-2*b), pad("right edge", l-b/2, w/2, b, w-2*b)}
	case OnLedger:
		ledger := edges[s.LedgerEdge()]
		ledger.Name += " ledger"
		out = append(out, ledger)
		if s.Rail {
			opposite := map[Edge]plate.Pad{FrontEdge: back, BackEdge: front, LeftEdge: right, RightEdge: left}
			out = append(out, opposite[s.LedgerEdge()])
		}
		return out
	}
	return []plate.Pad{left, right}
}

// spans places the two supports along the length and across the width that the
// closed form knows: rails, legs, a ledger's middle line, or the outermost of
// the feet.
func (d *Design) spans() (along, across section.Span) {
	s, b := d.Supports, d.Supports.Bearing
	along = span(d.Length, s.EndInset, s.UsesEnd())
	across = span(d.Width, s.SideInset, s.UsesSide())
	if s.Kind == OnLedger {
		switch s.LedgerEdge() {
		case BackEdge:
			across.B = d.Width - b/2
		case FrontEdge:
			across.A = b / 2
		case LeftEdge:
			along.A = b / 2
		case RightEdge:
			along.B = d.Length - b/2
		}
	}
	if s.Kind == OwnFeet {
		along.A, along.B, across.A, across.B = d.Length, 0, d.Width, 0
		for _, f := range s.Feet {
			along.A, along.B = math.Min(along.A, f.X), math.Max(along.B, f.X)
			across.A, across.B = math.Min(across.A, f.Y), math.Max(across.B, f.Y)
		}
		along, across = notTooShort(along), notTooShort(across)
	}
	return along, across
}

// notTooShort widens a span of under a twentieth of the extent to that about its
// middle: three feet all but in one line leave hardly any one way.
func notTooShort(s section.Span) section.Span {
	if least := s.Length / 20; s.B-s.A < least {
		middle := (s.A + s.B) / 2
		s.A, s.B = middle-least/2, middle+least/2
	}
	return s
}

// ledger is where the closed form has a ledger on one edge and legs at the
// opposite one: the line between the legs bends, and what lies at the ledger
// stays straight.
type ledger struct {
	on, along bool
	at, reach float64 // of the ledger on the other axis; from it to the legs, signed
}

// near returns how much of the legs' line there is at a place: 0 at the ledger, 1
// at the legs.
func (g ledger) near(x, y float64) float64 {
	if g.along {
		return (y - g.at) / g.reach
	}
	return (x - g.at) / g.reach
}

// part returns how much of the sag of the whole panel, bent between the legs as
// a beam, a unit of load at the legs' line makes there. The panel's deflection
// is taken as that beam's, in proportion to the distance from the ledger: it
// bends by the mean square of that proportion over the width, and twists:
//
//	1/(∫η²/W + GJ/(k²·reach²·EI)), k = π/L
//
// with EI softened by shear. Source: Rayleigh–Ritz with one term, derived.
func (g ledger) part(span section.Span, width, ei, ga, gj float64) float64 {
	k2 := math.Pi * math.Pi / ((span.B - span.A) * (span.B - span.A))
	ei /= 1 + k2*ei/ga
	mean := (math.Pow(width-g.at, 3) + math.Pow(g.at, 3)) / (3 * width * g.reach * g.reach)
	return 1 / (mean + gj/(k2*g.reach*g.reach*ei))
}

// rest fills in what aprons or a ledger take off the bending each way.
func (mo *model) rest(d *Design, m *materials) {
	s := d.Supports
	if s.Kind == OnLedger && !s.Rail {
		g := &mo.ledger
		g.on, g.along = true, s.ledgerAlong()
		a, slabEI, slabGA, slabGJ, cross, width := &mo.along, mo.slab.ei, mo.slab.ga, mo.slab.gj, mo.across.span, mo.width
		if !g.along {
			a, slabEI, slabGA, slabGJ, cross, width = &mo.across, mo.slab.eiAcross, mo.slab.gaAcross, mo.slab.gjAcross, mo.along.span, mo.length
		}
		g.at, g.reach = cross.B, cross.A-cross.B
		if e := s.LedgerEdge(); e == FrontEdge || e == LeftEdge {
			g.at, g.reach = cross.A, cross.B-cross.A
		}
		a.taken = 1 - g.part(a.span, width, a.first.EI, a.ga, a.gj)
		a.slabTaken = 1 - g.part(a.span, width, slabEI, slabGA, slabGJ)
		return
	}
	mo.along.taken = 1 - d.besideAprons(m, true, mo.along.span, mo.along.first.EI, mo.along.ga)
	mo.across.taken = 1 - d.besideAprons(m, false, mo.across.span, mo.across.first.EI, mo.across.ga)
	mo.along.slabTaken = 1 - d.besideAprons(m, true, mo.along.span, mo.slab.ei, mo.slab.ga)
	mo.across.slabTaken = 1 - d.besideAprons(m, false, mo.across.span, mo.slab.eiAcross, mo.slab.gaAcross)
}

// besideAprons returns the part of a load that the panel carries between the
// legs where aprons bend with it: all are taken as beams side by side, stiff as
// at the first sine term, an apron's by the cube of its shorter span.
func (d *Design) besideAprons(m *materials, along bool, span section.Span, ei, ga float64) float64 {
	l := span.B - span.A
	stiff := func(ei, ga, l float64) float64 { return ei / (1 + math.Pi*math.Pi/(l*l)*ei/ga) / (l * l * l) }
	sum := 0.0
	for _, b := range d.aprons(m) {
		if b.AlongX == along {
			sum += stiff(b.EI, b.GA, b.To-b.From)
		}
	}
	if sum == 0 {
		return 1
	}
	own := stiff(ei, ga, l)
	return own / (own + sum)
}

// times returns a part of a sag.
func (s sagParts) times(f float64) sagParts { return sagParts{s.bending * f, s.shear * f, s.twist * f} }

// onLegs is the sag on four legs, or on a ledger and two legs: the panel bends
// both ways, one after the other.
func (mo *model) onLegs(r section.Rect, x, y float64) sagParts {
	if g := mo.ledger; g.on {
		f := g.near(r.X, r.Y) * g.near(x, y)
		if g.along {
			return mo.along.sag(pressAlong(r), x, 0, 0).times(f * (1 - mo.along.taken)).plus(mo.across.sag(pressAcross(r), y, r.X-mo.length/2, x-mo.length/2))
		}
		return mo.across.sag(pressAcross(r), y, 0, 0).times(f * (1 - mo.across.taken)).plus(mo.along.sag(pressAlong(r), x, r.Y-mo.width/2, y-mo.width/2))
	}
	s := mo.along.sag(pressAlong(r), x, r.Y-mo.width/2, y-mo.width/2).times((1 - mo.along.taken))
	return s.plus(mo.across.sag(pressAcross(r), y, r.X-mo.length/2, x-mo.length/2).times((1 - mo.across.taken)))
}

// slabOnLegs is the same of the solid slab, from its sag each way.
func (mo *model) slabOnLegs(r section.Rect, x, y, along, across float64) float64 {
	if g := mo.ledger; g.on {
		f := g.near(r.X, r.Y) * g.near(x, y)
		if g.along {
			return f*(1-mo.along.slabTaken)*along + across
		}
		return along + f*(1-mo.across.slabTaken)*across
	}
	return (1-mo.along.slabTaken)*along + (1-mo.across.slabTaken)*across
}

// carried returns which part of a load at (x, y) the i-th of the feet takes.
func (mo *model) carried(d *Design, feet []Foot, i int, x, y float64) float64 {
	f := feet[i]
	switch d.Supports.Kind {
	case OwnFeet:
		return footShare(feet, i, x, y)
	case OnLedger:
		if mo.ledger.along {
			return mo.ledger.near(x, y) * lever(x, f.X, mo.length-f.X)
		}
		return mo.ledger.near(x, y) * lever(y, f.Y, mo.width-f.Y)
	}
	return lever(x, f.X, mo.length-f.X) * lever(y, f.Y, mo.width-f.Y)
}

// footShare returns which part of a load at (x, y) the i-th of some feet takes
// when a rigid top stands on all alike: with three feet that is statics, with
// more each gives way as much as the others for its load. Less than 0 is a foot
// that would lift. Source: rigid plate on equal springs, textbook.
func footShare(feet []Foot, i int, x, y float64) float64 {
	n := float64(len(feet))
	var cx, cy, xx, yy, xy float64
	for _, f := range feet {
		cx, cy = cx+f.X/n, cy+f.Y/n
	}
	for _, f := range feet {
		dx, dy := f.X-cx, f.Y-cy
		xx, yy, xy = xx+dx*dx, yy+dy*dy, xy+dx*dy
	}
	det := xx*yy - xy*xy
	dx, dy := x-cx, y-cy
	a, b := (yy*dx-xy*dy)/det, (xx*dy-xy*dx)/det
	return 1/n + a*(feet[i].X-cx) + b*(feet[i].Y-cy)
}

// supportsReach says what the closed form makes of the newer kinds of support.
func (mo *model) supportsReach(d *Design) string {
	s := d.Supports
	switch {
	case s.Kind == OwnFeet:
		return "The closed form knows two supports each way and takes the outermost of the feet: what feet between them help, and how far a corner without a foot goes down, only the whole-panel model tells."
	case s.Kind == OnLedger && s.Rail:
		return "The ledger and the rail are taken as two lines that hold the top down as well as up."
	case s.Kind == OnLedger:
		return "The line between the two legs is taken to bend as a beam, less and less towards the ledger, where the top stays straight: a fair guess at the middle, rough at the ends."
	case s.Apron.any():
		return "An apron is taken as a beam beside the panel that bends with it: good where aprons lie on both opposite sides, rough with one. Where it gives way under a load close to it only the whole-panel model tells."
	}
	return ""
}
