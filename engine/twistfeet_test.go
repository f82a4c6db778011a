package engine

import (
	"math"
	"slices"
	"strings"
	"testing"

	"flatwright/engine/length"
	"flatwright/engine/plate"
)

// standing is plainTop, loaded off its middle, on feet at the given places.
func standing(at ...[2]float64) Design {
	d := plainTop()
	d.Cases[0].Loads[0].X, d.Cases[0].Loads[0].Y = 500, 250
	d.Supports = Supports{Kind: OwnFeet, Bearing: 60}
	for _, p := range at {
		d.Supports.Feet = append(d.Supports.Feet, Foot{X: p[0], Y: p[1]})
	}
	return d
}

// Feet of one's own where legs would stand twist like the legs; one more amid them
// and another order change nothing.
func TestTwistOfFeetIsThatOfLegs(t *testing.T) {
	t.Parallel()
	legs := standing()
	legs.Supports = Supports{Kind: FourLegs, EndInset: 40, SideInset: 40, Bearing: 60}
	want := twistOf(t, legs)
	a, b, c, e := [2]float64{40, 40}, [2]float64{1560, 40}, [2]float64{40, 660}, [2]float64{1560, 660}
	drops := func(w *Twist) (out []float64) {
		for _, c := range w.Corners {
			out = append(out, c.Drop, c.Own)
		}
		slices.Sort(out)
		return out
	}
	for name, d := range map[string]Design{"in order": standing(a, b, c, e), "round": standing(e, c, a, b), "one amid": standing(a, [2]float64{700, 300}, b, e, c)} {
		w := twistOf(t, d)
		near(t, name+": stiffness", w.Stiffness, want.Stiffness, 1e-4)
		near(t, name+": closed form", w.Closed, want.Closed, 1e-9)
		near(t, name+": slab", w.Slab, want.Slab, 1e-9)
		near(t, name+": rocks", w.Rocks, want.Rocks, 1e-4)
		near(t, name+": wind", w.Corners[w.Worst].Wind, want.Corners[want.Worst].Wind, 1e-4)
		for i, v := range drops(w) {
			near(t, name+": drop", v, drops(want)[i], 1e-4)
		}
		if text := strings.Join(w.Lines(length.Format{}), " "); !strings.Contains(text, "largest area: foot ") || strings.Contains(text, "foot 2, foot 2") || strings.Contains(text, "foot 1 corner") {
			t.Errorf("%s: said as %q", name, text)
		}
	}
}

// Four feet of any shape: what one drops by under the top's own weight without its
// foot is what the panel does that is held at the other three in fact. Second method;
// there the feet are points, here squares of a hand's size, hence 1 %.
func TestTwistOfAnyFourFeet(t *testing.T) {
	t.Parallel()
	d := standing([2]float64{80, 60}, [2]float64{1500, 200}, [2]float64{300, 640}, [2]float64{1300, 500})
	w := twistOf(t, d)
	mo, _ := modelOf(d, false)
	own := d.Press(Load{Kind: Uniform, Force: mo.weight})
	for k, c := range w.Corners {
		p := d.WholePanel(1)
		p.Pads = nil
		var q plate.Corners
		for i, o := range w.Corners {
			q[i].X, q[i].Y = o.X, o.Y
			if i != k {
				p.Pads = append(p.Pads, plate.Pad{X: o.X, Y: o.Y, SX: 1, SY: 1, K: 100, Glued: true})
			}
		}
		m, err := plate.Prepare(t.Context(), p)
		if err != nil {
			t.Fatal(err)
		}
		s, err := m.SolveHeld(t.Context(), []plate.Press{own})
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.Name+" under own weight", c.Own, s.OutOfPlane(q)/q.Balance()[k], 0.01)
		if !(c.Foot && strings.HasPrefix(c.Name, "foot ")) || c.Corner() != c.Name {
			t.Errorf("corner %+v; want it named as its foot", c)
		}
	}
	if !(w.Stiffness > 0 && w.Rocks > 0) {
		t.Errorf("%+v; want a stiffness and how far it may stand out", w)
	}
}

// Feet of which no four span an area twist nothing; on a diamond no box is set beside.
func TestTwistOfFewFeet(t *testing.T) {
	t.Parallel()
	for name, d := range map[string]Design{
		"three":           standing([2]float64{40, 40}, [2]float64{1500, 60}, [2]float64{700, 650}),
		"one amid three":  standing([2]float64{40, 40}, [2]float64{1500, 60}, [2]float64{700, 650}, [2]float64{700, 300}),
		"nearly in lines": standing([2]float64{40, 40}, [2]float64{800, 45}, [2]float64{1500, 40}, [2]float64{1500, 650}),
	} {
		mo, _ := modelOf(d, false)
		if w, err := d.twist(t.Context(), &mo); w != nil || err != nil {
			t.Errorf("%s: %+v, %v; want none", name, w, err)
		}
	}
	w := twistOf(t, standing([2]float64{40, 350}, [2]float64{800, 40}, [2]float64{1560, 350}, [2]float64{800, 660}))
	if w.Slab != 0 || w.Closed != 0 || w.Corners[0].Wind != 0 || !(w.Stiffness > 0) || math.IsInf(w.Stiffness, 0) {
		t.Errorf("diamond: %+v; want a stiffness and no box beside", w)
	}
}
