package section

import "math"

// Span is a beam along one axis, from 0 to Length, on two supports at A < B
// that hold it up and down but let it turn.
type Span struct {
	A, B, Length float64
}

// Press is a force P, N, spread evenly from X1 to X2 along the beam.
type Press struct {
	P, X1, X2 float64
}

// Reactions returns the forces at A and at B, N, positive upwards.
func (s Span) Reactions(p Press) (a, b float64) {
	b = p.P * ((p.X1+p.X2)/2 - s.A) / (s.B - s.A)
	return p.P - b, b
}

// Moment returns the bending moment at x, N·mm, sagging positive.
func (s Span) Moment(p Press, x float64) float64 {
	ra, rb := s.Reactions(p)
	q := p.P / (p.X2 - p.X1)
	m := ra*ramp(x-s.A) + rb*ramp(x-s.B)
	return m - q/2*(square(ramp(x-p.X1))-square(ramp(x-p.X2)))
}

// Shear returns the shear force at x, N: the sum of upward forces to its left.
// At a support it is the value just inside the span.
func (s Span) Shear(p Press, x float64) float64 {
	ra, rb := s.Reactions(p)
	v := -p.P / (p.X2 - p.X1) * (ramp(x-p.X1) - ramp(x-p.X2))
	if x >= s.A {
		v += ra
	}
	if x > s.B {
		v += rb
	}
	return v
}

// Sag returns the sag at x of a beam of bending stiffness ei, N·mm², and shear
// stiffness ga, N, in two parts: the exact integral of
//
//	EI·w″ = −M,  GA·w′ = V
//
// with no sag at A and at B. Overhangs are included; there the sag of a load
// in the span is negative. Source: Euler–Bernoulli bending by Macaulay's
// method and Timoshenko's shear, textbook; checked against the coefficients
// 5/384, 1/48, 23/1296 and 11/768.
func (s Span) Sag(p Press, x, ei, ga float64) (bending, shear float64) {
	bend := func(x float64) float64 {
		ra, rb := s.Reactions(p)
		q := p.P / (p.X2 - p.X1)
		return q/24*(fourth(ramp(x-p.X1))-fourth(ramp(x-p.X2))) - ra/6*cube(ramp(x-s.A)) - rb/6*cube(ramp(x-s.B))
	}
	along := (x - s.A) / (s.B - s.A)
	atA, atB := bend(s.A), bend(s.B)
	bending = (bend(x) - atA - along*(atB-atA)) / ei
	mA, mB := s.Moment(p, s.A), s.Moment(p, s.B)
	shear = (s.Moment(p, x) - mA - along*(mB-mA)) / ga
	return bending, shear
}

// Harmonics is how many sine terms a [Softening] holds: the correction falls
// with the fourth power of the term's number, and what is left out beyond the
// 25th is less than 1e-4 of the load's largest sag for a patch a hand's width
// (80 mm) wide on spans of 1.2 to 1.6 m.
const Harmonics = 25

// Softening holds 1/EI_m − 1/EI_1 for m = 1 … Harmonics, 1/(N·mm²): how much
// less stiff a panel is for the higher sine terms of a load on its span.
type Softening [Harmonics + 1]float64

// Soften works out the softening of a panel on a span.
func (p Panel) Soften(s Span, c Connection) Softening {
	var out Softening
	first := math.Pi / (s.B - s.A)
	one := 1 / p.At(first, c).EI
	for m := 2; m <= Harmonics; m++ {
		out[m] = 1/p.At(first*float64(m), c).EI - one
	}
	return out
}

// Sag returns the bending sag, mm, that a load adds at x over the sag with the
// first term's stiffness:
//
//	Σ q_m/k⁴·(1/EI_m − 1/EI_1)·sin(k(x − A)),  k = mπ/(B − A)
//
// For a load or a point outside the span it is zero (the overhangs bend with
// the first term's stiffness).
func (o *Softening) Sag(s Span, load Press, x float64) float64 {
	if load.X1 < s.A || load.X2 > s.B || x <= s.A || x >= s.B {
		return 0
	}
	l := s.B - s.A
	first := math.Pi / l
	at := newSines(first * (x - s.A))
	from := newSines(first * (load.X1 - s.A))
	to := newSines(first * (load.X2 - s.A))
	scale := 2 * load.P / l / (load.X2 - load.X1)
	sum := 0.0
	for m := 2; m <= Harmonics; m++ {
		at.next()
		from.next()
		to.next()
		k := first * float64(m)
		sum += scale * (from.cos - to.cos) / (k * k * k * k * k) * o[m] * at.sin
	}
	return sum
}

// sines steps through sin(m·x), cos(m·x) by the addition theorem.
type sines struct{ sin1, cos1, sin, cos float64 }

func newSines(x float64) sines {
	s, c := math.Sincos(x)
	return sines{s, c, s, c}
}

func (s *sines) next() {
	s.sin, s.cos = s.sin*s.cos1+s.cos*s.sin1, s.cos*s.cos1-s.sin*s.sin1
}

func ramp(x float64) float64 {
	if x > 0 {
		return x
	}
	return 0
}

func square(x float64) float64 { return x * x }
func fourth(x float64) float64 { return x * x * x * x }
