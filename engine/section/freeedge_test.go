package section

import (
	"fmt"
	"math"
	"testing"
)

// One side free, the other and the pressed ends held, ν = .3: k of N = k·π²·D/b²,
// derived by a series converged to the digits (Timoshenko & Gere have the case).
// Ritz comes from above.
func TestFreeBuckling(t *testing.T) {
	t.Parallel()
	for _, c := range [...]struct{ ratio, k float64 }{{1, 1.40160}, {2, 0.66814}, {3, 0.53313}, {5, 0.46423}, {10, 0.43521}} {
		const d, b = 1000.0, 170.0
		got := isotropic(d, 0.3).FreeBuckling(c.ratio*b, b) * b * b / (math.Pi * math.Pi * d)
		if !(got > c.k-1e-5 && got < c.k*1.0005) {
			t.Errorf("a/b %g: k = %.6f; want %.5f, from above within 0.05 %%", c.ratio, got, c.k)
		}
	}
}

// A ply whose directions differ: in a strip without end only twist resists, 12·D66/b²
// = 12·400/170² by hand; never more than the plate that turns as one piece, π²·D11/a² +
// 12·D66/b²; stiffness doubled, half the size, and a side held is a help.
func TestFreeBucklingProperties(t *testing.T) {
	t.Parallel()
	p := OrthotropicPlate{D11: 5000, D22: 900, D12: 200, D66: 400}
	if got, want := p.FreeBuckling(1e5, 170), 12*400/(170.0*170); math.Abs(got/want-1) > 1e-4 {
		t.Errorf("strip without end: %.8f; want %.8f", got, want)
	}
	if got, want := p.CornerBuckling(170), 12*400/(170.0*170); math.Abs(got/want-1) > 1e-12 {
		t.Errorf("corner: %.8f; want %.8f", got, want)
	}
	for _, a := range []float64{40, 90, 170, 300, 900} {
		n, stiff := p.FreeBuckling(a, 170), math.Pi*math.Pi*p.D11/(a*a)+12*p.D66/(170*170)
		if !(n > 0.8*stiff && n <= stiff*(1+1e-12) && n < p.Buckling(a, 170) && n > p.CornerBuckling(170)) {
			t.Errorf("a %g: %.5f N/mm, as one piece %.5f, held all round %.5f", a, n, stiff, p.Buckling(a, 170))
		}
		double := OrthotropicPlate{10000, 1800, 400, 800}
		if got := double.FreeBuckling(a, 170); math.Abs(got/n-2) > 1e-9 {
			t.Errorf("a %g: twice as stiff %g times", a, got/n)
		}
		if got := p.FreeBuckling(a/2, 85); math.Abs(got/n-4) > 1e-9 {
			t.Errorf("a %g: half the size %g times", a, got/n)
		}
	}
}

// Skin of 6 mm, E 7000, ν .3 over cells 100, 150 and 200 apart: 55.385, 24.615 and
// 13.846 MPa, by hand 2·7000/.91·(6/s)². Square bays of that size hold 4·π²/24 times that.
func TestDimpling(t *testing.T) {
	t.Parallel()
	for _, c := range [...]struct{ s, want float64 }{{100, 55.385}, {150, 24.615}, {200, 13.846}} {
		got := Dimpling(7000, 0.3, 6, c.s)
		if math.Abs(got-c.want) > 5e-4 {
			t.Errorf("Dimpling over %g = %.4f MPa; want %.3f", c.s, got, c.want)
		}
		bay := isotropic(7000*216/(12*0.91), 0.3).Buckling(c.s, c.s) / 6
		if want := math.Pi * math.Pi / 6; math.Abs(bay/got-want) > 1e-12 {
			t.Errorf("a bay of %g holds %.5f times that; want %.5f", c.s, bay/got, want)
		}
	}
}

// E 7000 over a core of E 100, G 40: (2.8e7)^⅓ = 303.66, half of it 151.83 MPa, and
// .91 of it 276.33 by the theory. Worth is the cube root of all three.
func TestWrinkling(t *testing.T) {
	t.Parallel()
	got := Wrinkling(7000, 100, 40)
	if math.Abs(got-151.83) > 5e-3 || math.Abs(0.91/0.5*got-276.33) > 5e-3 {
		t.Errorf("Wrinkling = %.4f MPa; want 151.83, theory %.4f; want 276.33", got, 0.91/0.5*got)
	}
	for i, twice := range [...]float64{Wrinkling(14000, 100, 40), Wrinkling(7000, 200, 40), Wrinkling(7000, 100, 80)} {
		if math.Abs(twice/got-math.Cbrt(2)) > 1e-12 {
			t.Errorf("modulus %d doubled: %g times", i, twice/got)
		}
	}
}

// A web of E 3500, ν .3 without end, 6.25 times as high as thick, sheared: 5.34·π²·E/
// (12·(1 − ν²)·6.25²) = 432 MPa by hand: never what governs a stocky rib.
func TestStockyWeb(t *testing.T) {
	t.Parallel()
	const thick, high = 12.0, 75.0
	web := isotropic(3500*thick*thick*thick/(12*0.91), 0.3)
	if got := web.ShearBuckling(1e7, high) / thick; math.Abs(got-432) > 0.5 {
		t.Errorf("critical shear %.3f MPa; want 432", got)
	}
	if a, b := web.ShearBuckling(1e7, high), web.ShearBuckling(high, 1e7); a != b {
		t.Errorf("turned %g and %g", a, b)
	}
}

// The sag of a skin of 6 mm, D = 138 461.5 N·mm, in one square bay held along its
// sides: 500 N on 20 × 20 mm and 1 kPa. By hand from the tabulated w·D/(P·a²) of such
// patches (.01086406 for a fifth of the side) and .00406235·q·a⁴/D.
func TestSkinInABay(t *testing.T) {
	t.Parallel()
	const d = 7000 * 216 / (12 * 0.91)
	p := Plate{Dx: d, Dy: d, H: d, Sx: 1e9, Sy: 1e9}
	for _, c := range [...]struct{ s, patch, even float64 }{{100, 0.39231, 0.002934}, {150, 0.91207, 0.014853}, {200, 1.64242, 0.046943}} {
		for name, v := range map[string][2]float64{
			"500 N": {p.Sag(c.s, c.s, Rect{P: 500, X: c.s / 2, Y: c.s / 2, SizeX: 20, SizeY: 20}, c.s/2, c.s/2), c.patch},
			"1 kPa": {p.Sag(c.s, c.s, Rect{P: 1e-3 * c.s * c.s, X: c.s / 2, Y: c.s / 2, SizeX: c.s, SizeY: c.s}, c.s/2, c.s/2), c.even},
		} {
			if math.Abs(v[0]/v[1]-1) > 1e-3 { // what the series leaves out under a small patch
				t.Errorf("%s: %.6f mm; want %.6f", fmt.Sprintf("bay of %g, %s", c.s, name), v[0], v[1])
			}
		}
	}
}
