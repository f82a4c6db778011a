package plate

import (
	"context"
	"math"
	"testing"
)

// onThreeCorners holds a panel at three corners, both ways, and returns what
// lifts the fourth, at (X1, Y1), by 1 mm out of their plane: N/mm.
func onThreeCorners(t *testing.T, p *Panel) float64 {
	t.Helper()
	const side = 0.1 // at the very corner; only a quarter of it lies on the panel
	q := *p
	q.Pads = nil
	for _, c := range [3]point{{q.X0, q.Y0}, {q.X1, q.Y0}, {q.X0, q.Y1}} {
		q.Pads = append(q.Pads, Pad{X: c.x, Y: c.y, SX: side, SY: side, K: 1e6, Glued: true})
	}
	const force = 40.0
	s, err := prepare(t, &q).Lift(context.Background(), force, q.X1, q.Y1, side)
	if err != nil {
		t.Fatal(err)
	}
	// Statics: a couple of the four corners, alternating.
	got, _ := s.Reactions()
	for i, want := range [3]float64{force, -force, -force} {
		near(t, "reaction at a held corner", got[i], want, 1e-3*force)
	}
	return force / -s.OutOfPlane(Corners{{q.X0, q.Y0}, {q.X1, q.Y0}, {q.X0, q.Y1}, {q.X1, q.Y1}})
}

// A plate with forces of alternate sense at its corners takes the shape
// w = P·x·y/(2·D·(1−ν)), pure twist: the fourth corner rises by
// P·a·b/(2·D·(1−ν)). Source: Timoshenko and Woinowsky-Krieger, Theory of Plates
// and Shells, 2nd ed., art. 11 (there along the diagonals, P/(4·D·(1−ν))·(x²−y²)),
// from memory. D = (2·t³/12 + t·d²/2)·E/(1 − ν²) for two skins on a rigid core.
func TestLiftedCornerIsPureTwist(t *testing.T) {
	t.Parallel()
	const nu, e, tk, d = 0.3, 1e4, 10.0, 60.0
	rigidity := (2*tk*tk*tk/12 + tk*d*d/2) * e / (1 - nu*nu)
	sizes := [][2]float64{{900, 350}, {400, 400}}
	if testing.Short() {
		sizes = sizes[:1]
	}
	for _, size := range sizes {
		var v [3]float64
		for i, n := range [3]int{8, 16, 32} {
			p := &Panel{X1: size[0], Y1: size[1], Top: isotropic(nu, kirchhoff), Bottom: isotropic(nu, kirchhoff), Height: d - tk, Fills: rigidCore(1e7), Divide: n}
			v[i] = onThreeCorners(t, p)
		}
		limit, order := richardson(v)
		nearRel(t, "stiffness against twist", limit, 2*rigidity*(1-nu)/(size[0]*size[1]), 0.005)
		near(t, "order", order, 1, 0.1) // the shear flow turns round in the outermost elements
	}
}

// A hollow panel twists like a closed box, GJ of Bredt: the corner of a bar of
// length L and width b rises by P·b²·L/GJ. The box is as wide as the middles of
// its outer ribs; the ribs across keep its shape. The model lets the skins and
// the rim yield where the force comes in, so it is a little softer.
func TestLiftedCornerOfABox(t *testing.T) {
	t.Parallel()
	p := demoPanel(2)
	area := 738 * 117.0
	w := p.Along[0].Web
	gj := 4*area*area/(2*738/(620*9.0)+2*117/(w.G*12)) + 2*620*750*9*9*9/3.0
	want := gj / (1800 * 750 * 750)
	got := onThreeCorners(t, p)
	if !(got > 0.8*want && got < 1.05*want) {
		t.Errorf("stiffness against twist %.2f N/mm, of the box %.2f", got, want)
	}
	// Twice as long, half as stiff; the ribs across go with it.
	q := demoPanel(2)
	q.X1 = 3600
	for i := range q.Across {
		q.Across[i].At = 6 + 3588*float64(i)/10
	}
	nearRel(t, "stiffness of twice the length", onThreeCorners(t, q), got/2, 0.1)
}

// Lifting needs pads that hold down.
func TestLiftOffPads(t *testing.T) {
	t.Parallel()
	m := prepare(t, demoPanel(1))
	if _, err := m.Lift(context.Background(), 10, 1800, 750, 50); err != ErrLoose {
		t.Errorf("lifted off pads that only push: %v; want %v", err, ErrLoose)
	}
	if _, err := m.Lift(context.Background(), 10, 1900, 750, 50); err != ErrBeside {
		t.Errorf("lifted beside the panel: %v; want %v", err, ErrBeside)
	}
}

// Four forces in balance at four corners: none in sum and none about either axis, of
// sizes that add up to 4. At a trapezium of sides 600 and 200 those at the short side
// are three times as large, by hand; at a rectangle they are alike.
func TestForcesInBalanceAtCorners(t *testing.T) {
	t.Parallel()
	for name, q := range map[string]Corners{
		"rectangle": {{10, 20}, {700, 20}, {10, 300}, {700, 300}},
		"trapezium": {{0, 0}, {600, 0}, {200, 400}, {400, 400}},
		"any":       {{30, 11}, {810, -40}, {-70, 350}, {640, 500}},
	} {
		c := q.Balance()
		var sum, x, y, sizes float64
		for i, v := range c {
			sum, x, y, sizes = sum+v, x+v*q[i].X, y+v*q[i].Y, sizes+math.Abs(v)
		}
		near(t, name+": sum", sum, 0, 1e-12)
		near(t, name+": about y", x, 0, 1e-9)
		near(t, name+": about x", y, 0, 1e-9)
		near(t, name+": sizes", sizes, 4, 1e-12)
		if !(c[0] > 0 && c[1] < 0 && c[2] < 0 && c[3] > 0) {
			t.Errorf("%s: %v; want opposite corners alike", name, c)
		}
		if name == "rectangle" {
			near(t, "last", c[3], 1, 1e-12)
		}
		if name == "trapezium" {
			near(t, "short side over long", c[3]/c[0], 3, 1e-12)
		}
	}
}
