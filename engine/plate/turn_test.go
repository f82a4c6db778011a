package plate

import (
	"context"
	"errors"
	"math"
	"testing"
)

// blocked is the small panel with a block in the bay at one corner, on two rails as narrow
// as lines that also pull.
func blocked(divide int) *Panel {
	p := *smallPanel()
	p.Divide = divide
	p.Fills = []Fill{{X0: 35, X1: 250, Y0: 22, Y1: 177.5, Ex: 9000, Ey: 700, EUp: 700, G: 500, Gz: 60}}
	p.Pads = nil
	for _, x := range []float64{100, 640} {
		p.Pads = append(p.Pads, Pad{X: x, Y: (p.Y0 + p.Y1) / 2, SX: 0.01, SY: p.Y1 - p.Y0, K: 1e4, Glued: true})
	}
	return &p
}

// atBlock is a couple on the whole of that block.
func atBlock(tx, ty float64) Press {
	return Press{X: 142.5, Y: 99.75, SX: 215, SY: 155.5, TX: tx, TY: ty}
}

// A couple that presses down towards larger x loads the right rail with moment
// over span and unloads the left one by as much; one the other way presses no
// rail more than the other, and its moment is in how the rails share it along y.
func TestCoupleReactions(t *testing.T) {
	t.Parallel()
	const moment, span = 60e3, 540.0
	for divide := 1; divide <= 3; divide++ {
		p := blocked(divide)
		s := answer(t, p, atBlock(moment, 0))
		force, _ := s.Reactions()
		near(t, "left rail", force[0], -moment/span, 1e-6*moment/span)
		near(t, "right rail", force[1], moment/span, 1e-6*moment/span)
		near(t, "about x", resultant(p, s, nil)[2], 0, 1e-6*moment)

		s = answer(t, p, atBlock(0, moment))
		force, _ = s.Reactions()
		near(t, "left rail, across", force[0], 0, 1e-6*moment/span)
		near(t, "right rail, across", force[1], 0, 1e-6*moment/span)
		near(t, "about x, across", resultant(p, s, nil)[2], moment, 1e-6*moment)
		near(t, "about y, across", resultant(p, s, nil)[1], 0, 1e-6*moment)
	}
}

// Both ways together do what each does, twice the couple twice as much.
func TestCouplesAddUp(t *testing.T) {
	t.Parallel()
	p := blocked(2)
	x, y := answer(t, p, atBlock(3e4, 0)), answer(t, p, atBlock(0, -2e4))
	both := answer(t, p, atBlock(6e4, -4e4))
	for _, at := range []point{{40, 60}, {185, 105}, {250, 105}, {370, 220}, {700, 400}} {
		near(t, "sag", both.Sag(at.x, at.y), 2*x.Sag(at.x, at.y)+2*y.Sag(at.x, at.y), 1e-9*math.Abs(both.Sag(250, 105)))
	}
	// Work grows as the square: ½·M·angle.
	nearRel(t, "work", answer(t, p, atBlock(6e4, 0)).Work([]Press{atBlock(6e4, 0)}), 4*x.Work([]Press{atBlock(3e4, 0)}), 1e-9)
}

// The couple does on the way of a force what the force does on the way of the
// couple (Betti), and pressed mirrored the panel sags mirrored.
func TestCoupleReciprocal(t *testing.T) {
	t.Parallel()
	p := blocked(2)
	couple, force := atBlock(5e4, 2e4), Press{P: 300, X: 480, Y: 300, SX: 60, SY: 40}
	work := func(l Press, s *Solution) float64 {
		sum := 0.0
		s.m.sys.over(l, func(force float64, w spot) { sum -= force * w.value(s.u) })
		return sum
	}
	a, b := answer(t, p, couple), answer(t, p, force)
	nearRel(t, "work of the force on the couple's way", work(force, a), work(couple, b), 1e-8)
	if !(math.Abs(work(force, a)) > 1) {
		t.Errorf("the two have nothing to do with each other: %g N·mm", work(force, a))
	}

	q := mirror(p)
	turned := couple
	turned.X, turned.TX = p.X0+p.X1-couple.X, -couple.TX
	m := answer(t, q, turned)
	for _, at := range []point{{40, 60}, {250, 105}, {370, 220}} {
		near(t, "mirrored", m.Sag(p.X0+p.X1-at.x, at.y), a.Sag(at.x, at.y), 1e-8*math.Abs(a.Sag(250, 105)))
	}
}

// In a block that keeps its shape it is the same whether the pressures act on
// both skins or on the top one, and even ones on narrow strips, up and down,
// come to the same away from it as pressures that grow evenly.
func TestCoupleAsStrips(t *testing.T) {
	t.Parallel()
	p := blocked(4)
	p.Fills[0].EUp, p.Fills[0].Gz = 1e7, 1e7
	const moment, strips = 5e4, 16
	var steps []Press
	const wide = 215.0 / strips
	sum := 0.0
	for i := range strips {
		x := 35 + wide*(float64(i)+0.5)
		steps = append(steps, Press{P: x - 142.5, X: x, Y: 99.75, SX: wide, SY: 155.5})
		sum += (x - 142.5) * (x - 142.5)
	}
	for i := range steps {
		steps[i].P *= moment / sum // their moment is that of the couple
	}
	a, b := answer(t, p, atBlock(moment, 0)), answer(t, p, steps...)
	for _, at := range []point{{560, 105}, {440, 300}, {560, 220}} {
		nearRel(t, "sag", a.Sag(at.x, at.y), b.Sag(at.x, at.y), 0.01)
	}
}

// A couple lies on the panel or is refused; loose rails carry one only as far
// as weight holds the panel down: its resultant must stay between them.
func TestCoupleOnLooseRails(t *testing.T) {
	t.Parallel()
	p := blocked(1)
	for i := range p.Pads {
		p.Pads[i].Glued = false
	}
	m, err := Prepare(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	// By hand: 200 N at 370 mm, midway; the rail is 270 mm away: 54 N·m tip it.
	weight := Press{P: 200, X: 370, Y: 220, SX: 720, SY: 420}
	for _, c := range []struct {
		moment float64
		stands bool
	}{{53.9e3, true}, {-53.9e3, true}, {54.1e3, false}, {-54.1e3, false}} {
		_, err := m.Solve(context.Background(), []Press{weight, atBlock(c.moment, 0)})
		if got := err == nil; got != c.stands || err != nil && !errors.Is(err, ErrLoose) {
			t.Errorf("%g N·mm: %v; stands should be %t", c.moment, err, c.stands)
		}
	}
	if _, err := m.Solve(context.Background(), []Press{atBlock(1e3, 0)}); !errors.Is(err, ErrLoose) {
		t.Errorf("a couple alone on a weightless panel: %v; want %v", err, ErrLoose)
	}
	off := atBlock(1e3, 0)
	off.X = -900
	if _, err := m.Solve(context.Background(), []Press{weight, off}); !errors.Is(err, ErrBeside) {
		t.Errorf("a couple beside the panel: %v; want %v", err, ErrBeside)
	}
}

// The box beam of TestBoxBeam on two lines at its ends: EI = 1.004039e11 N·mm²
// and S = 2.179872e6 N, worked out there. At x from the left end, left of the
// load, textbook beams with shear sag (Roark's Formulas, from memory):
//
//	line load P across the middle     P·x·(3L² − 4x²)/(48·EI) + P·x/(2·S)
//	couple M at the middle, to the right   −M·x·(L² − 4x²)/(24·L·EI) − M·x/(L·S)
//
// Pressures that grow evenly over a length a have the third moment 3·M·a²/20,
// which adds M·a²·x/(40·L·EI) (derived from the influence line, as its third
// derivative is x/(L·EI)). What the skins' own bending adds is within 1 %: they
// have 0.6 % of EI.
func TestLineAndCoupleOnABoxBeam(t *testing.T) {
	t.Parallel()
	const length, width, ei, s = 1200.0, 300.0, 1.004039e11, 2.179872e6
	skin := Layer{T: 12, Ex: 7000, Ey: 7000, EBendX: 7000, EBendY: 1e9, G: 1e8, GRoll: 1e12}
	web := Web{B: 12, E: 3500, EUp: 1e7, G: 600, GRoll: 1e6, Own: 1, Height: 75}
	p := &Panel{X1: length, Y1: width, Top: skin, Bottom: skin, Height: 75, Along: []Rib{{50, web}, {150, web}, {250, web}}, Divide: 1}
	for x := 50.0; x < length; x += 50 { // lines of the mesh, of no stiffness
		p.Across = append(p.Across, Rib{x, Web{B: 0.4, E: 1e-6, EUp: 1e-6, G: 1e-6, GRoll: 1e-6, Own: 1, Height: 75}})
	}
	for _, x := range []float64{0.005, length - 0.005} {
		p.Pads = append(p.Pads, Pad{X: x, Y: width / 2, SX: 0.01, SY: width, K: 1e6, Glued: true})
	}
	const force, moment, a = 500.0, 1e5, 100.0
	line := answer(t, p, Press{P: force, X: length / 2, Y: width / 2, SX: 1, SY: width})
	couple := answer(t, p, Press{X: length / 2, Y: width / 2, SX: a, SY: width, TX: moment})
	for _, x := range []float64{200, 300, 400} {
		want := force*x*(3*length*length-4*x*x)/(48*ei) + force*x/(2*s)
		nearRel(t, "line", line.Sag(x, width/2), want, 0.01)
		want = -moment*x*(length*length-4*x*x)/(24*length*ei) - moment*x/(length*s) + moment*a*a*x/(40*length*ei)
		nearRel(t, "couple, left", couple.Sag(x, width/2), want, 0.01)
		nearRel(t, "couple, right", couple.Sag(length-x, width/2), -want, 0.01)
	}
}
