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
	// four, by statics. What the top rests on has no part in it.
	Stiffness float64      `json:"stiffness"`
	Closed    float64      `json:"closed"` // the same by Bredt's box, N/mm
	Slab      float64      `json:"slab"`   // of the solid slab, N/mm
	Rocks     float64      `json:"rocks"`  // how far one corner may stand out of the plane of the others before the unloaded top lifts off one of them, mm
	Corners   []CornerDrop `json:"corners"`
	Worst     int          `json:"worst"` // index into Corners of the largest Drop

	Fastened bool `json:"fastened,omitempty"` // the top is screwed to its supports
}

// CornerDrop is one corner of the supports taken away, the other three holding
// the top down as well as up.
type CornerDrop struct {
	Name string  `json:"name"` // as "left front"
	X    float64 `json:"x"`
	Y    float64 `json:"y"`
	Own  float64 `json:"own"`  // by how much the top drops there below the plane of the other three under its own weight, mm
	Drop float64 `json:"drop"` // the most under any case, own weight included, mm
	Case string  `json:"case"`
	Wind float64 `json:"wind"` // Drop over the distance of the supports' corners across the width, rad: by so much one end is turned against the other
	Tips bool    `json:"tips"` // the other three hold it in that case only if the top is fastened down
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

// twist holds the top lightly at three corners of its supports and pushes it up
// at each of the four in turn; any support of the corners is a sum of these,
// which statics decides. It is computed on the interactive mesh, on which twist
// has all but settled. Where the supports span no rectangle it returns nil.
func (d *Design) twist(ctx context.Context, mo *model) (*Twist, error) {
	if d.Supports.Kind == OwnFeet {
		return nil, nil // feet anywhere span no rectangle
	}
	p := d.wholePanel(ctx, int(Interactive))
	x0, x1, y0, y1 := corners(p.Pads)
	x0, x1, y0, y1 = max(x0, p.X0+1), min(x1, p.X1-1), max(y0, p.Y0+1), min(y1, p.Y1-1) // not under an edge band alone
	a, b := x1-x0, y1-y0
	if !(a > liftSide && b > liftSide) {
		return nil, nil
	}
	at := [4]point{{x0, y0}, {x1, y0}, {x0, y1}, {x1, y1}}
	p.Pads, p.Beams = nil, nil
	for _, c := range at[:3] { // so small that they do not clamp; they end up carrying nothing
		p.Pads = append(p.Pads, plate.Pad{X: c.x, Y: c.y, SX: 1, SY: 1, K: 100, Glued: true})
	}
	m, lift, err := holdThree(ctx, p, at, liftSide)
	if err != nil {
		return nil, err
	}
	c := threeHeld{lift: lift}
	if !(c.pattern() < 0) {
		return nil, nil
	}
	t := &Twist{Stiffness: -1 / c.pattern(), Closed: mo.along.gj / (a * b * b), Slab: mo.slab.gj / (a * b * b), Fastened: d.Supports.Fastened}
	for i, name := range [4]string{"left front", "right front", "left back", "right back"} {
		t.Corners = append(t.Corners, CornerDrop{Name: name, X: at[i].x, Y: at[i].y})
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
		c.dropped, c.r = s.OutOfPlane(x0, x1, y0, y1), [3]float64(r)
		for k, w := range c.without() {
			c := &t.Corners[k]
			if i < 0 {
				c.Own = w.mm
			} else if i == 0 || w.mm > c.Drop {
				c.Drop, c.Case, c.Tips, c.Wind = w.mm, name, w.tips, w.mm/b
				if c.Drop > t.Corners[t.Worst].Drop {
					t.Worst = k
				}
			}
		}
		if i < 0 {
			t.Rocks = c.least() / t.Stiffness
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
		Text: fmt.Sprintf("Without its support the %s corner would drop %s under “%s”, limit %s. %s", c.Name, sagText(c.Drop), c.Case, sagText(d.Limits.Twist), twistHelp)}}
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
	case d.Supports.Kind == OwnFeet:
		return "Twist is told for rails, legs, a ledger and edges all around only: feet of your own need not stand on a rectangle, so there are no four corners of which one could be lifted."
	case w.Mesh == Interactive:
		return "" // it follows
	}
	return "No twist is told: the supports stand too close together for one corner to be lifted against the others."
}

// Lines tells the twist for people, a sentence each.
func (t *Twist) Lines(f length.Format) []string {
	mm, words := LiftStep(f)
	out := []string{fmt.Sprintf("Lifting one corner of the supports by %s out of the plane of the other three takes %s (%s); a solid slab would take %s.",
		words, length.Force(mm*t.Stiffness, f), length.Mass(mm*t.Stiffness/Gravity, f), length.Force(mm*t.Slab, f))}
	if c := t.Corners[t.Worst]; c.Case != "" {
		line := fmt.Sprintf("Without its support the %s corner drops %s under “%s”, %s of it by the top's own weight; the other three hold the top.", c.Name, length.Sag(c.Drop, f), c.Case, length.Sag(c.Own, f))
		if c.Tips {
			by := "which takes fastening it down."
			if t.Fastened {
				by = "which its screws have to do."
			}
			line = strings.TrimSuffix(line, ".") + ", " + by
		}
		out = append(out, line, "That winds the top: one end is turned against the other by "+c.WindText(f)+" of width.")
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
	dropped float64    // by how much it lies at the last corner below the plane of the others, mm
	r       [3]float64 // what the three carry, N
	lift    [4]float64 // what 1 N upwards at each corner adds to dropped, mm/N
}

// pattern is what 1 N upwards at the first and last corner and downwards at the
// two between adds to dropped.
func (c *threeHeld) pattern() float64 { return c.lift[0] - c.lift[1] - c.lift[2] + c.lift[3] }

// carried is what the corners carry when the last one takes so much: statics.
func (c *threeHeld) carried(last float64) [4]float64 {
	return [4]float64{c.r[0] + last, c.r[1] - last, c.r[2] - last, last}
}

// under returns by how much the top lies at the last corner below the plane of
// the others when the corners carry f.
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

// without takes away each corner in turn. A corner next to the last one lies
// above the plane of the others by as much as the last lies below.
func (c *threeHeld) without() (out [4]without) {
	for k, last := range [4]float64{-c.r[0], c.r[1], c.r[2], 0} {
		f := c.carried(last)
		f[k] = 0
		out[k] = without{c.under(f), min(f[0], f[1], f[2], f[3]) < -1e-6*(c.r[0]+c.r[1]+c.r[2])}
		if k == 1 || k == 2 {
			out[k].mm = -out[k].mm
		}
	}
	return out
}

// least returns what the least loaded of four level corners carries, 0 where
// one has nothing: so much alternate force at the corners lifts the top off it.
func (c *threeHeld) least() float64 {
	f := c.carried(-c.under(c.carried(0)) / c.pattern())
	return max(0, min(f[0], f[1], f[2], f[3]))
}
