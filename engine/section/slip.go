package section

import "math"

// Slip returns the extra slip between a skin and the middle plane of that
// skin per unit shear flow handed over by one rib, in mm²/N:
//
//	c = Σ (2/s)·sinc²(k·b/2)·coth(k'·t)/(Grz·k') − s/(12·Gxy·t),
//	k = 2πn/s, k' = k·√(Gxy/Grz), n = 1, 2, …
//
// b is the width of the rib, s the rib spacing, t the skin's thickness, gxy
// the skin's in-plane shear modulus and grz its rolling (through-thickness)
// one. The first sum is anti-plane shear of a strip of width s with uniform
// flow over the contact width b and a free far face; the second term is what
// [ShearLag] already counts for a rib without width, so that c is negative
// for a wide rib under a thin skin. All arguments must be positive and b ≤ s.
//
// The waves n ≥ 1 only: the even part of the flow, t/(3·Grz·s) through the
// skin's thickness, is left out. The series is cut and its mean rest added:
// accurate to 1e-4 of the size of the two parts together, for b/s from 0.005
// to 1, t/s from 0.01 to 0.3 and Grz/Gxy from 0.05 to 1. Source: separation of
// variables of the anti-plane problem, derived for this program.
func Slip(b, s, t, grz, gxy float64) float64 {
	g := math.Sqrt(gxy * grz)
	kt := 2 * math.Pi / s * t * math.Sqrt(gxy/grz) // k'·t for n = 1
	x := math.Pi * b / s                           // k·b/2 for n = 1
	n := int(math.Min(slipMost, math.Max(slipLeast, math.Ceil(8*s/b))))
	sum := 0.0
	sin1, cos1 := math.Sincos(x)
	sin, cos := sin1, cos1 // of n·x, by the addition theorem
	decay := math.Exp(-2 * kt)
	power := decay // exp(-2·n·kt)
	for i := 1; i <= n; i++ {
		f := float64(i)
		sinc := sin / (f * x)
		sum += sinc * sinc * (1 + power) / (1 - power) / f
		sin, cos = sin*cos1+cos*sin1, cos*cos1-sin*sin1
		power *= decay
	}
	rest := 1 / (4 * x * x * float64(n) * float64(n+1)) // Σ ½/(n³x²) beyond n, sin² taken at its mean
	return (sum+rest)/(math.Pi*g) - s/(12*gxy*t)
}

// Eight terms for each rib width that fits into the spacing, but never fewer
// than a wide rib needs, whose sin² is far from its mean, nor more than help.
const (
	slipLeast = 64
	slipMost  = 400
)

// ShearLag returns the compliance λ, in mm²/N, by which a skin that is held
// along a line every s mm gives way in its own plane under a sine of wave
// number k = mπ/L:
//
//	λ = coth(κs/2)/(2·G·t·κ) − 1/(E·t·s·k²), κ = k·√(E/G)
//
// e is the skin's in-plane modulus along the rib, g its in-plane shear
// modulus, t its thickness. At low k it tends to s/(12·G·t). Beyond κs ≈ 8
// the skin away from the rib no longer takes part. Source: membrane strip of
// width s with uniform edges, transverse strain left out; derived.
func ShearLag(k, s, t, e, g float64) float64 {
	half := k * math.Sqrt(e/g) * s / 2 // κs/2
	if half < 0.05 {
		// coth(x)/x − 1/x² = 1/3 − x²/45 + …, free of cancellation
		return s / (4 * g * t) * (1.0/3 - half*half/45)
	}
	return s / (4 * g * t) * (1/(math.Tanh(half)*half) - 1/(half*half))
}
