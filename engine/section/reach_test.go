package section_test

import (
	"fmt"
	"testing"

	"flatwright/engine/section"
)

// The tests of this file ask how far the sums of beams stand from plate
// theory, where a panel is held by its corners or on two edges only. Plate
// values, as w·D/(q·a⁴) or w·D/(P·a²), are derived: Ritz solutions with
// Legendre polynomials carried on until the digits stood, ν as given. The
// beams take a plate's D as their EI per unit of width, as a hollow panel,
// which has hardly a Poisson coupling, does.

// beamSag is the sag in the middle of a span of 1 and a width of b, D = 1.
func beamSag(b float64, load section.Press) float64 {
	w, _ := section.Span{A: 0, B: 1, Length: 1}.Sag(load, 0.5, b, 1)
	return w
}

// apart fails unless got is off from want by the share told, to a half of a
// per cent.
func apart(t *testing.T, what string, got, want, off float64) {
	t.Helper()
	if e := got/want - 1; !(e > off-0.005 && e < off+0.005) {
		t.Errorf("%s: %.6g against %.6g, off by %+.3f; want %+.3f", what, got, want, e, off)
	}
}

// TestFourCorners: a square plate on four corners, edges free, taken as a beam
// along and a beam across: within 10 % at the middle.
func TestFourCorners(t *testing.T) {
	t.Parallel()
	even := 2 * beamSag(1, section.Press{P: 1, X1: 0, X2: 1})
	point := 2 * beamSag(1, section.Press{P: 1, X1: 0.4999, X2: 0.5001})
	near(t, "two beams, even load", even, 2*5.0/384, 1e-12)
	near(t, "two beams, point", point, 2.0/48, 1e-8)
	for _, c := range []struct {
		name             string
		got, plate, told float64
	}{
		{"even load, ν = 0", even, 0.0282045, -0.077},
		{"even load, ν = .25", even, 0.0256695, 0.015},
		{"even load, ν = .3", even, 0.0255065, 0.021},
		{"point, ν = .3", point, 0.039142, 0.064},
	} {
		apart(t, c.name, c.got, c.plate, c.told)
		nearly(t, c.name, c.got, c.plate, 0.10)
	}
	// Longer tops, b/a = 1.5 and 2, ν = .3: the long beam b⁴/EI·a and the short.
	for _, c := range []struct{ b, plate, told float64 }{{1.5, 0.079825, -0.011}, {2, 0.231162, -0.042}} {
		along := beamSag(1, section.Press{P: 1, X1: 0, X2: 1}) * c.b * c.b * c.b * c.b
		across := beamSag(1, section.Press{P: 1, X1: 0, X2: 1})
		apart(t, fmt.Sprintf("even load, b/a %g", c.b), along+across, c.plate, c.told)
	}
}

// TestTwoRails: two opposite edges held, two free, ν = .3. Under an even load
// the beam is right to 5 %; under a point it is 5 % short as long as the top is
// half as wide as its span, a tenth when it is square, and 40 % when it is
// twice as wide: the width far from the load no longer helps.
func TestTwoRails(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ b, even, evenTold, point, pointTold float64 }{
		{0.5, 0.0137131, -0.050, 0.0438, -0.049},
		{1, 0.0130937, -0.006, 0.023216, -0.103},
		{2, 0.0128873, 0.010, 0.017446, -0.403},
	} {
		name := fmt.Sprintf("width/span %g, ", c.b)
		apart(t, name+"even load", beamSag(c.b, section.Press{P: c.b, X1: 0, X2: 1}), c.even, c.evenTold)
		apart(t, name+"point", beamSag(c.b, section.Press{P: 1, X1: 0.4999, X2: 0.5001}), c.point, c.pointTold)
	}
}

// TestEdgeOfTwoRails: a point in the middle of the free edge of a square plate
// on two rails, ν = .3. Beam and twist together, GJ = 2·D·(1 − ν)·b, come to
// 10 % more than the plate under the load; at the far edge they lift it where
// the plate still sags, so what is told there is not to be relied on.
func TestEdgeOfTwoRails(t *testing.T) {
	t.Parallel()
	s := section.Span{A: 0, B: 1, Length: 1}
	p := section.Press{P: 1, X1: 0.4999, X2: 0.5001}
	gj := 2 * (1 - 0.3) * 1.0
	apart(t, "under the load", beamSag(1, p)+s.TwistSag(p, 0.5, 0.5, 0.5, gj), 0.05939, 0.102)
	if far := beamSag(1, p) + s.TwistSag(p, 0.5, 0.5, -0.5, gj); !(far < 0) {
		t.Errorf("far edge %g; want it lifted, where the plate sags .00810: mend the comment above", far)
	}
}
