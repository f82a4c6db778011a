package section_test

import (
	"fmt"
	"math"
	"sort"
	"testing"

	"flatwright/engine/section"
)

const (
	ei = 7.3e10
	ga = 1.9e6
)

// at is a force on a patch far too short to matter.
func at(p, x float64) section.Press { return section.Press{P: p, X1: x - 0.01, X2: x + 0.01} }

// TestCoefficients: w = k1·P·L³/EI + k2·P·L/GA at the middle, P the whole load.
// Source: textbook; 5/384 and 1/8, 1/48 and 1/4, third points 23/1296 and 1/6,
// quarter points 11/768 and 1/8.
func TestCoefficients(t *testing.T) {
	t.Parallel()
	const l = 1730.0
	span := section.Span{A: 0, B: l, Length: l}
	for _, c := range []struct {
		name   string
		loads  []section.Press
		k1, k2 float64
	}{
		{"even", []section.Press{{P: 1, X1: 0, X2: l}}, 5.0 / 384, 1.0 / 8},
		{"middle", []section.Press{at(1, l/2)}, 1.0 / 48, 1.0 / 4},
		{"third points", []section.Press{at(0.5, l/3), at(0.5, 2*l/3)}, 23.0 / 1296, 1.0 / 6},
		{"quarter points", []section.Press{at(0.5, l/4), at(0.5, 3*l/4)}, 11.0 / 768, 1.0 / 8},
	} {
		bend, shear := 0.0, 0.0
		for _, p := range c.loads {
			b, s := span.Sag(p, l/2, ei, ga)
			bend, shear = bend+b, shear+s
		}
		nearly(t, c.name+": k1", bend*ei/(l*l*l), c.k1, 1e-6)
		nearly(t, c.name+": k2", shear*ga/l, c.k2, 2e-5) // the patch rounds the peak off by 1/4·.02/l·…
	}
}

// TestPointOffCentre: P·b·x·(l² − b² − x²)/(6·l·EI) for x left of a load b
// from the right-hand support; shear P·b·x/(l·GA). Textbook.
func TestPointOffCentre(t *testing.T) {
	t.Parallel()
	const l, inset = 1500.0, 70.0
	span := section.Span{A: inset, B: inset + l, Length: l + 2*inset}
	for _, u := range []float64{310, 750, 1290} {
		for _, x := range []float64{40, 222, 300} {
			b := l - u
			bend, shear := span.Sag(at(900, inset+u), inset+x, ei, ga)
			nearly(t, fmt.Sprintf("bending at %g under %g", x, u), bend, 900*b*x*(l*l-b*b-x*x)/(6*l*ei), 1e-6)
			nearly(t, fmt.Sprintf("shear at %g under %g", x, u), shear, 900*b*x/(l*ga), 1e-9)
		}
	}
}

// forces are the shear force and the bending moment at x by adding up what
// stands to the left of it, the part of the patch that reaches x at its own
// middle.
func forces(s section.Span, p section.Press, x float64) (shear, moment float64) {
	rb := p.P * ((p.X1+p.X2)/2 - s.A) / (s.B - s.A)
	ra := p.P - rb
	if x > s.A {
		shear, moment = shear+ra, moment+ra*(x-s.A)
	}
	if x > s.B {
		shear, moment = shear+rb, moment+rb*(x-s.B)
	}
	if to := math.Min(x, p.X2); to > p.X1 {
		part := p.P * (to - p.X1) / (p.X2 - p.X1)
		shear, moment = shear-part, moment-part*(x-(p.X1+to)/2)
	}
	return shear, moment
}

// byUnitLoad is the sag by the unit-load method, ∫ M·m/EI and ∫ V·v/GA by
// quadrature from kink to kink.
func byUnitLoad(s section.Span, p section.Press, x float64) (bending, shear float64) {
	kinks := []float64{0, s.A, s.B, s.Length, p.X1, p.X2, x}
	sort.Float64s(kinks)
	for i := 1; i < len(kinks); i++ {
		bending += integral(func(u float64) float64 {
			_, m1 := forces(s, p, u)
			_, m2 := forces(s, section.Press{P: 1, X1: x - 1e-9, X2: x + 1e-9}, u)
			return m1 * m2 / ei
		}, kinks[i-1], kinks[i])
		shear += integral(func(u float64) float64 {
			v1, _ := forces(s, p, u)
			v2, _ := forces(s, section.Press{P: 1, X1: x - 1e-9, X2: x + 1e-9}, u)
			return v1 * v2 / ga
		}, kinks[i-1], kinks[i])
	}
	return bending, shear
}

// spans with loads in them, over a support, and on either overhang.
var (
	overhung = section.Span{A: 260, B: 1540, Length: 2000}
	presses  = []section.Press{
		{P: 700, X1: 500, X2: 640},
		{P: 1100, X1: 0, X2: 2000},
		{P: 450, X1: 200, X2: 420},   // over the left support
		{P: 650, X1: 20, X2: 130},    // on the left overhang
		{P: 380, X1: 1800, X2: 1990}, // on the right overhang
		{P: 520, X1: 1480, X2: 1590}, // over the right support
	}
	points = []float64{0, 90, 260, 333, 570, 900, 1280, 1540, 1702, 2000}
)

func TestSagAgainstUnitLoad(t *testing.T) {
	t.Parallel()
	for _, p := range presses {
		for _, x := range points {
			bend, shear := overhung.Sag(p, x, ei, ga)
			wb, ws := byUnitLoad(overhung, p, x)
			near(t, fmt.Sprintf("bending at %g under %v", x, p), bend, wb, 1e-8)
			near(t, fmt.Sprintf("shear at %g under %v", x, p), shear, ws, 1e-8)
		}
	}
	bend, _ := overhung.Sag(presses[0], 0, ei, ga)
	if bend >= 0 {
		t.Errorf("the overhang sags by %g under a load in the span; want it to rise", bend)
	}
}

func TestForces(t *testing.T) {
	t.Parallel()
	for _, p := range presses {
		a, b := overhung.Reactions(p)
		near(t, fmt.Sprintf("reactions of %v together", p), a+b, p.P, 1e-9)
		near(t, fmt.Sprintf("moment of the reactions of %v", p), a*260+b*1540, p.P*(p.X1+p.X2)/2, 1e-6)
		near(t, fmt.Sprintf("moment of %v at the left end", p), overhung.Moment(p, 0), 0, 1e-6)
		near(t, fmt.Sprintf("moment of %v at the right end", p), overhung.Moment(p, 2000), 0, 1e-6)
		for _, x := range points {
			v, m := forces(overhung, p, x)
			near(t, fmt.Sprintf("moment of %v at %g", p, x), overhung.Moment(p, x), m, 1e-6)
			if x != overhung.A && x != overhung.B {
				near(t, fmt.Sprintf("shear of %v at %g", p, x), overhung.Shear(p, x), v, 1e-9)
				slope := (overhung.Moment(p, x+1e-3) - overhung.Moment(p, x-1e-3)) / 2e-3
				if x > 0 && x < 2000 {
					near(t, fmt.Sprintf("slope of the moment of %v at %g", p, x), overhung.Shear(p, x), slope, 2e-3)
				}
			}
		}
		inA, inB := overhung.Shear(p, 260+1e-9), overhung.Shear(p, 1540-1e-9)
		near(t, fmt.Sprintf("shear of %v at A", p), overhung.Shear(p, 260), inA, 1e-6)
		near(t, fmt.Sprintf("shear of %v at B", p), overhung.Shear(p, 1540), inB, 1e-6)
	}
	// By hand: 700 N at 570 on 1280: B carries 700·310/1280 = 169.53125.
	a, b := overhung.Reactions(presses[0])
	near(t, "reaction at A", a, 530.46875, 1e-9)
	near(t, "reaction at B", b, 169.53125, 1e-9)
	// By hand, the overhang: −650 N at 185 left of A.
	near(t, "moment over A", overhung.Moment(presses[3], 260), -650*185, 1e-6)
}

// TestSagAtSupports is nothing, and stiffness divides.
func TestSagAtSupports(t *testing.T) {
	t.Parallel()
	for _, p := range presses {
		for _, x := range []float64{overhung.A, overhung.B} {
			bend, shear := overhung.Sag(p, x, ei, ga)
			near(t, fmt.Sprintf("bending of %v over a support", p), bend, 0, 1e-12)
			near(t, fmt.Sprintf("shear of %v over a support", p), shear, 0, 1e-12)
		}
		b1, s1 := overhung.Sag(p, 700, ei, ga)
		b2, s2 := overhung.Sag(section.Press{P: 2 * p.P, X1: p.X1, X2: p.X2}, 700, 4*ei, 8*ga)
		nearly(t, "bending, twice the load, four times the stiffness", b2, b1/2, 1e-12)
		nearly(t, "shear, twice the load, eight times the stiffness", s2, s1/4, 1e-12)
	}
}

// TestParts: a patch is the sum of its halves.
func TestParts(t *testing.T) {
	t.Parallel()
	for _, x := range points {
		b, s := overhung.Sag(section.Press{P: 800, X1: 100, X2: 1700}, x, ei, ga)
		b1, s1 := overhung.Sag(section.Press{P: 300, X1: 100, X2: 700}, x, ei, ga)
		b2, s2 := overhung.Sag(section.Press{P: 500, X1: 700, X2: 1700}, x, ei, ga)
		near(t, fmt.Sprintf("bending at %g", x), b1+b2, b, 1e-9)
		near(t, fmt.Sprintf("shear at %g", x), s1+s2, s, 1e-9)
	}
}

// TestReciprocity: what a load here does there, it does here from there
// (Maxwell).
func TestReciprocity(t *testing.T) {
	t.Parallel()
	for _, x := range points {
		for _, u := range []float64{60, 411, 1313, 1905} {
			b1, s1 := overhung.Sag(at(500, u), x, ei, ga)
			b2, s2 := overhung.Sag(at(500, x), u, ei, ga)
			near(t, fmt.Sprintf("bending at %g from %g", x, u), b1, b2, 1e-6)
			near(t, fmt.Sprintf("shear at %g from %g", x, u), s1, s2, 1e-6)
		}
	}
}

func TestSpanMirror(t *testing.T) {
	t.Parallel()
	turned := section.Span{A: 2000 - overhung.B, B: 2000 - overhung.A, Length: 2000}
	for _, p := range presses {
		q := section.Press{P: p.P, X1: 2000 - p.X2, X2: 2000 - p.X1}
		for _, x := range points {
			b1, s1 := overhung.Sag(p, x, ei, ga)
			b2, s2 := turned.Sag(q, 2000-x, ei, ga)
			near(t, fmt.Sprintf("bending at %g of %v from the other end", x, p), b2, b1, 1e-9)
			near(t, fmt.Sprintf("shear at %g of %v from the other end", x, p), s2, s1, 1e-9)
			near(t, fmt.Sprintf("moment at %g of %v from the other end", x, p), turned.Moment(q, 2000-x), overhung.Moment(p, x), 1e-6)
		}
	}
}

// sineSag is the bending sag by the whole sine series, every term with its own
// stiffness, plainly added up.
func sineSag(p section.Panel, s section.Span, load section.Press, x float64, from, to int) float64 {
	l, c := s.B-s.A, p.Connect()
	sum := 0.0
	for m := to; m >= from; m-- {
		k := float64(m) * math.Pi / l
		q := 2 * load.P / l * math.Sin(k*((load.X1+load.X2)/2-s.A)) * math.Sin(k*(load.X2-load.X1)/2) / (k * (load.X2 - load.X1) / 2)
		sum += q / (k * k * k * k * p.At(k, c).EI) * math.Sin(k*(x-s.A))
	}
	return sum
}

// TestSofteningAgainstSines: the closed form with the first term's stiffness
// plus the softening is the whole series, to the accuracy [section.Harmonics]
// promises.
func TestSofteningAgainstSines(t *testing.T) {
	t.Parallel()
	worst := 0.0
	few := bench() // few ribs, soft skins, no bands: the most softening
	few.Web.N, few.Rim.B = 2, 0
	few.Top.GRoll, few.Bottom.GRoll = 40, 40
	for i, p := range []section.Panel{bench(), box(), few} {
		for _, s := range []section.Span{{A: 0, B: 1250, Length: 1250}, {A: 120, B: 1680, Length: 1800}} {
			soft := p.Soften(s, p.Connect())
			first := p.At(math.Pi/(s.B-s.A), p.Connect()).EI
			for _, load := range []section.Press{
				{P: 800, X1: s.A + 350, X2: s.A + 430}, {P: 1000, X1: (s.A+s.B)/2 - 40, X2: (s.A+s.B)/2 + 40},
				{P: 600, X1: s.A, X2: s.B}, {P: 500, X1: s.A, X2: s.A + 90},
			} {
				points := []float64{s.A + 77, s.A + 390, (s.A + s.B) / 2, s.B - 211}
				most := 0.0
				for _, x := range points {
					base, _ := s.Sag(load, x, first, 1)
					most = math.Max(most, base)
				}
				for _, x := range points {
					base, _ := s.Sag(load, x, first, 1)
					want := sineSag(p, s, load, x, 1, 400)
					got := base + soft.Sag(s, load, x)
					off := math.Abs(got-want) / most
					worst = math.Max(worst, off)
					if off > 1e-4 {
						t.Errorf("panel %d, %v, %v at %g: %.9g; want %.9g within 1e-4 of the load's largest sag", i, s, load, x, got, want)
					}
					// Term by term it is the same series, cut at Harmonics.
					cut := sineSag(p, s, load, x, 2, section.Harmonics) - sineSagWith(first, s, load, x, 2, section.Harmonics)
					near(t, fmt.Sprintf("softening, panel %d, %v, %v at %g", i, s, load, x), soft.Sag(s, load, x), cut, 1e-9*most)
				}
			}
		}
	}
	t.Logf("largest error %.1e", worst)
}

// sineSagWith is the same series with one stiffness.
func sineSagWith(ei float64, s section.Span, load section.Press, x float64, from, to int) float64 {
	l := s.B - s.A
	sum := 0.0
	for m := from; m <= to; m++ {
		k := float64(m) * math.Pi / l
		q := 2 * load.P / l * math.Sin(k*((load.X1+load.X2)/2-s.A)) * math.Sin(k*(load.X2-load.X1)/2) / (k * (load.X2 - load.X1) / 2)
		sum += q / (k * k * k * k * ei) * math.Sin(k*(x-s.A))
	}
	return sum
}

// TestSofteningOfRigidGlue is nothing: no slip, no lag, one stiffness.
func TestSofteningOfRigidGlue(t *testing.T) {
	t.Parallel()
	p := bench()
	p.Top.G, p.Top.GRoll, p.Bottom.G, p.Bottom.GRoll = 1e15, 1e15, 1e15, 1e15
	s := section.Span{A: 50, B: 1550, Length: 1600}
	soft := p.Soften(s, p.Connect())
	load := section.Press{P: 900, X1: 700, X2: 780}
	base, _ := s.Sag(load, 740, p.At(0, p.Connect()).EI, 1)
	near(t, "softening", soft.Sag(s, load, 740), 0, 1e-9*base)

	p = bench()
	soft = p.Soften(s, p.Connect())
	if got := soft.Sag(s, load, 740); got <= 1e-3*base {
		t.Errorf("softening = %g beside %g; want it to add sag", got, base)
	}
	if soft[0] != 0 || soft[1] != 0 {
		t.Errorf("first terms of the softening = %g, %g; want 0", soft[0], soft[1])
	}
}

// TestSofteningOutside: none for loads that leave the span or points beyond.
func TestSofteningOutside(t *testing.T) {
	t.Parallel()
	p := bench()
	s := section.Span{A: 200, B: 1500, Length: 1700}
	soft := p.Soften(s, p.Connect())
	in := section.Press{P: 900, X1: 700, X2: 780}
	for _, c := range []struct {
		load section.Press
		x    float64
	}{
		{section.Press{P: 900, X1: 199, X2: 300}, 700},
		{section.Press{P: 900, X1: 1400, X2: 1501}, 700},
		{in, 200}, {in, 150}, {in, 1500}, {in, 1600},
	} {
		if got := soft.Sag(s, c.load, c.x); got != 0 {
			t.Errorf("Softening.Sag(%v, %g) = %g; want 0", c.load, c.x, got)
		}
	}
	if got := soft.Sag(s, section.Press{P: 900, X1: 200, X2: 1500}, 700); got == 0 {
		t.Error("Softening.Sag of a load from support to support = 0; want it counted")
	}
}
