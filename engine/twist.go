package engine

import (
	"context"
	"fmt"
	"math"
	"strings"

	"flatwright/engine/length"
	"flatwright/engine/plate"
)

// Twist says how the top winds when one corner is not held like the other
// three.
type Twist struct {
	// Stiffness is the force at one corner of the supports that lifts the top
	// there 1 mm out of the plane of the other three, N/mm. The same for all
	// four of a rectangle, by statics; else at the one that takes least. What the
	// top rests on has no part in it.
	Stiffness float64      `json:"stiffness"`
	Closed    float64      `json:"closed"` // the same by Bredt's box, N/mm; 0 where the corners are no rectangle, nearly
	Slab      float64      `json:"slab"`   // of the solid slab, N/mm, likewise
	Rocks     float64      `json:"rocks"`  // how far one corner may stand out of the plane of the others before the unloaded top lifts off one of them, mm
	Corners   []CornerDrop `json:"corners"`
	Worst     int          `json:"worst"` // index into Corners of the largest Drop

	Fastened bool `json:"fastened,omitempty"` // the top is screwed to its supports
}

// CornerDrop is one corner of the supports taken away, the other three holding
// the top down as well as up.
type CornerDrop struct {
	Name string  `json:"name"` // as "left front", or that of a foot
	Foot bool    `json:"foot,omitempty"`
	X    float64 `json:"x"`
	Y    float64 `json:"y"`
	Own  float64 `json:"own"`  // by how much the top drops there below the plane of the other three under its own weight, mm
	Drop float64 `json:"drop"` // the most under any case, own weight included, mm
	Case string  `json:"case"`
	Wind float64 `json:"wind"` // Drop over the distance of the supports' corners across the width, rad: by so much one end is turned against the other
	Tips bool    `json:"tips"` // the other three hold it in that case only if the top is fastened down
}

// Corner names the corner in a sentence.
func (c CornerDrop) Corner() string {
	if c.Foot {
		return c.Name
	}
	return c.Name + " corner"
}

// liftSide is the side of the square at which a corner is held or lifted, mm:
// about a hand. Common practice, no source.
const liftSide = 50

// corners returns the rectangle on whose corners the top rests: the outline of
// the supports' middles.
func corners(pads []plate.Pad) (x0, x1, y0, y1 float64) {
	x0, y0 = math.Inf(1), math.Inf(1)
	x1, y1 = math.Inf(-1), math.Inf(-1)
	for _, p := range pads {
		half := min(p.SX, p.SY) / 2 // a rail reaches to half its width from its ends
		x0, x1 = min(x0, p.X-p.SX/2+half), max(x1, p.X+p.SX/2-half)
		y0, y1 = min(y0, p.Y-p.SY/2+half), max(y1, p.Y+p.SY/2-half)
	}
	return x0, x1, y0, y1
}

// lifted returns the four corners of the supports of which one may be lifted, with
// their names; ok is false where there are none. Of a person's own feet they are the
// four that span the largest area, as if the top rested on these alone: three feet
// always stand, and one between others holds less than they.
func (d *Design) lifted(p *plate.Panel) (at plate.Corners, names [4]string, ok bool) {
	if d.Supports.Kind == OwnFeet {
		return d.outermost()
	}
	x0, x1, y0, y1 := corners(p.Pads)
	x0, x1, y0, y1 = max(x0, p.X0+1), min(x1, p.X1-1), max(y0, p.Y0+1), min(y1, p.Y1-1) // not under an edge band alone
	at = plate.Corners{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x0, Y: y1}, {X: x1, Y: y1}}
	return at, [4]string{"left front", "right front", "left back", "right back"}, min(x1-x0, y1-y0) > liftSide
}

// squareEnough is by which part the corners must answer to an even twist as a
// rectangle does, for the twist of a box and of a slab to be set beside it: those of
// a diamond answer to bending instead. Common practice, no source.
const squareEnough = 0.9

// evenTwist returns the length of four corners and how far a twist w = κ·x·y brings
// them out of a plane for κ = 1, mm²: a rectangle's area, and 0 where the corners are
// too far from one.
func evenTwist(at plate.Corners) (long, q float64) {
	lo, hi, area := math.Inf(1), math.Inf(-1), 0.0
	for i, b := range at.Balance() {
		q += b * at[i].X * at[i].Y
		lo, hi = min(lo, at[i].X), max(hi, at[i].X)
	}
	for _, k := range [2]int{1, 2} { // the triangles on both sides of the diagonal
		area += math.Abs((at[3].X-at[0].X)*(at[k].Y-at[0].Y)-(at[3].Y-at[0].Y)*(at[k].X-at[0].X)) / 2
	}
	if q = math.Abs(q); q < squareEnough*area {
		return hi - lo, 0
	}
	return hi - lo, q
}

// outermost returns the four feet that span the largest area and their names.
func (d *Design) outermost() (at plate.Corners, names [4]string, ok bool) {
	feet := d.feet()
	most := 0.0
	try := func(a, b, c, e int) { // a across from e
		dx, dy := feet[e].X-feet[a].X, feet[e].Y-feet[a].Y
		over, under := dx*(feet[b].Y-feet[a].Y)-dy*(feet[b].X-feet[a].X), dx*(feet[c].Y-feet[a].Y)-dy*(feet[c].X-feet[a].X)
		long := math.Hypot(dx, dy)
		if !(over*under < 0) || min(math.Abs(over), math.Abs(under)) < liftSide*long { // on one side, or nearly in a line
			return
		}
		q := plate.Corners{}
		for i, n := range [4]int{a, b, c, e} {
			q[i].X, q[i].Y, names[i] = feet[n].X, feet[n].Y, feet[n].Name
		}
		if w := q.Balance(); !(w[0] > 0 && w[1] < 0 && w[2] < 0) {
			return // one lies within the triangle of the others
		}
		if area := math.Abs(over-under) / 2; area > most*(1+nearly) {
			most, at, ok = area, q, true
		}
	}
	for a := range feet {
		for b := a + 1; b < len(feet); b++ {
			for c := b + 1; c < len(feet); c++ {
				for e := c + 1; e < len(feet); e++ {
					try(a, b, c, e)
					try(a, b, e, c)
					try(a, c, e, b)
				}
			}
		}
	}
	return at, names, ok
}

// twist holds the top lightly at three corners of its supports and pushes it up
// at each of the four in turn; any support of the corners is a sum of these,
// which statics decides. It is computed on the interactive mesh, on which twist
// has all but settled. Where the supports have no four corners it returns nil.
func (d *Design) twist(ctx context.Context, mo *model) (*Twist, error) {
	p := d.wholePanel(ctx, int(Interactive))
	at, names, ok := d.lifted(p)
	if !ok {
		return nil, nil
	}
	p.Pads, p.Beams = nil, nil
	for _, c := range at[:3] { // so small that they do not clamp; they end up carrying nothing
		p.Pads = append(p.Pads, plate.Pad{X: c.X, Y: c.Y, SX: 1, SY: 1, K: 100, Glued: true})
	}
	m, lift, err := holdThree(ctx, p, at, liftSide)
	if err != nil {
		return nil, err
	}
	balance := at.Balance()
	c := threeHeld{lift: lift, balance: balance}
	if !(c.pattern() < 0) {
		return nil, nil
	}
	t := &Twist{Stiffness: -c.leastSquare() / c.pattern(), Fastened: d.Supports.Fastened}
	long, q := evenTwist(at)
	if q > 0 {
		t.Closed, t.Slab = c.leastSquare()*mo.along.gj*long/(q*q), c.leastSquare()*mo.slab.gj*long/(q*q)
	}
	for i := range at {
		t.Corners = append(t.Corners, CornerDrop{Name: names[i], Foot: d.Supports.Kind == OwnFeet, X: at[i].X, Y: at[i].Y})
	}
	for i := -1; i < len(d.Cases); i++ { // own weight alone first
		loads := []plate.Press{d.Press(Load{Kind: Uniform, Force: mo.weight})}
		name := ""
		if i >= 0 {
			name = d.Cases[i].Name
			for _, l := range d.Cases[i].Loads {
				loads = append(loads, d.Press(l))
			}
		}
		s, err := m.Solve(ctx, loads)
		if err != nil {
			return nil, err
		}
		r, _ := s.Reactions()
		c.dropped, c.r = s.OutOfPlane(at), [3]float64(r)
		for k, w := range c.without() {
			c := &t.Corners[k]
			if i < 0 {
				c.Own = w.mm
			} else if i == 0 || w.mm > c.Drop {
				c.Drop, c.Case, c.Tips, c.Wind = w.mm, name, w.tips, 0
				if q > 0 {
					c.Wind = w.mm * math.Abs(balance[k]) * long / q
				}
				if c.Drop > t.Corners[t.Worst].Drop {
					t.Worst = k
				}
			}
		}
		if i < 0 {
			t.Rocks = c.rocks()
		}
	}
	return t, nil
}

// twistHelp is what makes a top stiffer against twist; derived from Bredt's box.
const twistHelp = "Thicker skins, a deeper core, and outer ribs or edge bands flush with the edges would help most."

// twistShortfall tells of a corner that would drop by more than the person
// allows.
func (d *Design) twistShortfall(r Result) []Problem {
	w := r.Whole.Twist
	if w == nil || len(d.Cases) == 0 || !(d.Limits.Twist > 0) {
		return nil
	}
	c := w.Corners[w.Worst]
	if c.Drop <= d.Limits.Twist {
		return nil
	}
	return []Problem{{Code: "twist-over-limit", Severity: Shortfall, Field: "limits.twist",
		Text: fmt.Sprintf("Without its support the %s would drop %s under “%s”, limit %s. %s", c.Corner(), sagText(c.Drop), c.Case, sagText(d.Limits.Twist), twistHelp)}}
}

// LiftStep is the height, mm, to which lifting a corner is told, with its words:
// what a feeler gauge or a rule shows.
func LiftStep(f length.Format) (mm float64, words string) {
	if f.Imperial {
		return length.Inch / 32, "1/32 in"
	}
	return 1, "1 mm"
}

// WindText tells the wind as two straight sticks laid across the ends show it.
func (c CornerDrop) WindText(f length.Format) string {
	if f.Imperial {
		return fmt.Sprintf("%.3f inches in a foot", 12*c.Wind)
	}
	return fmt.Sprintf("%.1f mm in a metre", 1000*c.Wind)
}

// NoTwist says in a sentence why a whole panel computed at rest tells no twist;
// "" where it does.
func (w *Whole) NoTwist(d Design) string {
	switch {
	case w == nil || w.Twist != nil:
		return ""
	case w.Mesh == Interactive:
		return "" // it follows
	case d.Supports.Kind == OwnFeet:
		return "No twist is told: of these feet no four span an area of which one corner could be lifted against the others. Three feet always stand."
	}
	return "No twist is told: the supports stand too close together for one corner to be lifted against the others."
}

// Lines tells the twist for people, a sentence each.
func (t *Twist) Lines(f length.Format) []string {
	mm, words := LiftStep(f)
	first := fmt.Sprintf("Lifting one corner of the supports by %s out of the plane of the other three takes %s (%s)", words, length.Force(mm*t.Stiffness, f), length.Mass(mm*t.Stiffness/Gravity, f))
	if t.Slab > 0 {
		first += "; a solid slab would take " + length.Force(mm*t.Slab, f)
	}
	out := []string{first + "."}
	if t.Corners[0].Foot {
		out = append(out, fmt.Sprintf("Its corners are the feet that span the largest area: %s, %s, %s and %s, as if the top rested on these alone. Where they differ, the one that takes least is told.",
			t.Corners[0].Name, t.Corners[1].Name, t.Corners[2].Name, t.Corners[3].Name))
	}
	if c := t.Corners[t.Worst]; c.Case != "" {
		line := fmt.Sprintf("Without its support the %s drops %s under “%s”, %s of it by the top's own weight; the other three hold the top.", c.Corner(), length.Sag(c.Drop, f), c.Case, length.Sag(c.Own, f))
		if c.Tips {
			by := "which takes fastening it down."
			if t.Fastened {
				by = "which its screws have to do."
			}
			line = strings.TrimSuffix(line, ".") + ", " + by
		}
		out = append(out, line)
		if c.Wind > 0 {
			out = append(out, "That winds the top: one end is turned against the other by "+c.WindText(f)+" of width.")
		}
	}
	then := "the unloaded top rocks"
	if t.Fastened {
		then = "the screws of the unloaded top have to pull it down"
	}
	return append(out, fmt.Sprintf("One support may stand up to %s out of the plane of the others before %s.", length.Sag(t.Rocks, f), then), twistHelp)
}

// threeHeld is a top on three corners, in the order of [Twist.Corners] without
// the last.
type threeHeld struct {
	balance [4]float64 // the forces at the corners that hold each other in balance
	dropped float64    // by how much the corners lie out of a plane, mm: times balance, the last and the first below it
	r       [3]float64 // what the three carry, N
	lift    [4]float64 // what 1 N upwards at each corner adds to dropped, mm/N
}

// pattern is what the balanced forces upwards add to dropped.
func (c *threeHeld) pattern() (sum float64) {
	for i, b := range c.balance {
		sum += b * c.lift[i]
	}
	return sum
}

// leastSquare is the least square of a balanced force: where it is least, a millimetre
// takes the least force.
func (c *threeHeld) leastSquare() float64 {
	least := math.Inf(1)
	for _, b := range c.balance {
		least = min(least, b*b)
	}
	return least
}

// carried is what the corners carry when the last one takes so much: statics.
func (c *threeHeld) carried(last float64) [4]float64 {
	f := [4]float64{c.r[0], c.r[1], c.r[2], last}
	for i := range c.r {
		f[i] += last * c.balance[i] / c.balance[3]
	}
	return f
}

// under returns by how much the corners lie out of a plane when they carry f.
func (c *threeHeld) under(f [4]float64) float64 {
	v := c.dropped
	for i := range f {
		v += f[i] * c.lift[i]
	}
	return v
}

// without is one corner taken away.
type without struct {
	mm   float64 // by how much the top drops there below the plane of the others
	tips bool
}

// without takes away each corner in turn.
func (c *threeHeld) without() (out [4]without) {
	for k := range out {
		last := 0.0
		if k < 3 {
			last = -c.r[k] * c.balance[3] / c.balance[k]
		}
		f := c.carried(last)
		f[k] = 0
		out[k] = without{c.under(f) / c.balance[k], min(f[0], f[1], f[2], f[3]) < -1e-6*(c.r[0]+c.r[1]+c.r[2])}
	}
	return out
}

// least returns how much of the balanced forces lifts the top, level on four corners,
// off one of them: 0 where one carries nothing.
func (c *threeHeld) least() float64 {
	f := c.carried(-c.under(c.carried(0)) / c.pattern() * c.balance[3])
	least := math.Inf(1)
	for i, b := range c.balance {
		least = min(least, f[i]/math.Abs(b))
	}
	return max(0, least)
}

// rocks returns how far any corner may stand out of the plane of the others before
// the top lifts off one of them, mm.
func (c *threeHeld) rocks() float64 {
	most := 0.0
	for _, b := range c.balance {
		most = max(most, math.Abs(b))
	}
	return c.least() * -c.pattern() / most
}
