package section_test

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"

	"flatwright/engine/section"
)

// slipSum adds the series of [section.Slip] term by term, every sine and
// hyperbolic cotangent on its own, far beyond where it matters; it returns the
// sum of the anti-plane terms and the in-plane part that is taken off.
func slipSum(b, s, t, grz, gxy float64, terms int) (antiplane, inplane float64) {
	for n := terms; n >= 1; n-- {
		k := 2 * math.Pi * float64(n) / s
		kz := k * math.Sqrt(gxy/grz)
		sinc := math.Sin(k*b/2) / (k * b / 2)
		antiplane += 2 / s * sinc * sinc / math.Tanh(kz*t) / (grz * kz)
		inplane += 2 / s / (gxy * k * k * t)
	}
	return antiplane, inplane
}

// TestSlipAccuracy holds Slip to the accuracy it promises, over every shape of
// rib and skin a panel may have.
func TestSlipAccuracy(t *testing.T) {
	t.Parallel()
	const s, gxy = 150.0, 620.0
	worst := 0.0
	for _, b := range []float64{0.005, 0.01, 0.02, 0.023, 0.03, 0.05, 0.08, 0.11, 0.17, 0.25, 0.35, 0.5, 0.63, 0.77, 0.9, 1} {
		for _, h := range []float64{0.01, 0.02, 0.05, 0.1, 0.2, 0.3} {
			for _, r := range []float64{0.05, 0.1, 0.3, 1} {
				anti, _ := slipSum(b*s, s, h*s, r*gxy, gxy, 20000)
				want := anti - s/(12*gxy*h*s)
				got := section.Slip(b*s, s, h*s, r*gxy, gxy)
				off := math.Abs(got-want) / (anti + s/(12*gxy*h*s))
				if off > worst {
					worst = off
				}
				if off > 1e-4 {
					t.Errorf("Slip(b/s %g, t/s %g, Grz/Gxy %g) = %.8g; want %.8g, off by %.1e of the two parts' sum (want 1e-4)", b, h, r, got, want, off)
				}
			}
		}
	}
	t.Logf("largest error %.1e", worst)
}

// TestSlipSecondPart: the part taken off is the closed form of its series,
// Σ 1/n² = π²/6.
func TestSlipSecondPart(t *testing.T) {
	t.Parallel()
	_, in := slipSum(12, 150, 9, 70, 620, 200000)
	nearly(t, "Σ (2/s)/(Gxy·k²·t)", in, 150.0/(12*620*9), 1e-5)
}

// slipByVolumes solves the anti-plane problem itself on a rectangle of
// ny × nz finite volumes: half a strip of width s, unit flow spread over the
// half contact b/2 at the bottom, taken out evenly over the whole section (the
// skin's membrane force growing along the rib), all other faces free. It
// returns the mean displacement of the contact less that of the section.
func slipByVolumes(b, s, thick, grz, gxy float64, ny, nz int) float64 {
	dy, dz := s/2/float64(ny), thick/float64(nz)
	at := func(i, j int) int { return i*nz + j }
	k := mat.NewSymBandDense(ny*nz, nz, nil)
	add := func(p, q int, g float64) {
		k.SetSymBand(p, p, k.At(p, p)+g)
		k.SetSymBand(q, q, k.At(q, q)+g)
		k.SetSymBand(p, q, k.At(p, q)-g)
	}
	f := mat.NewVecDense(ny*nz, nil)
	contact := int(math.Round(b / 2 / dy))
	for i := range ny {
		for j := range nz {
			if i+1 < ny {
				add(at(i, j), at(i+1, j), gxy*dz/dy)
			}
			if j+1 < nz {
				add(at(i, j), at(i, j+1), grz*dy/dz)
			}
			f.SetVec(at(i, j), -0.5/float64(ny*nz))
		}
	}
	for i := range contact {
		f.SetVec(at(i, 0), f.AtVec(at(i, 0))+0.5/float64(contact))
	}
	k.SetSymBand(0, 0, k.At(0, 0)+grz) // any one spring to ground: the flows are in balance
	var chol mat.BandCholesky
	if !chol.Factorize(k) {
		return math.NaN()
	}
	var u mat.VecDense
	if err := chol.SolveVecTo(&u, f); err != nil {
		return math.NaN()
	}
	mean := mat.Sum(&u) / float64(ny*nz)
	face := 0.0
	for i := range contact {
		// from the middle of the volume down to its face, at flow 1/b
		face += (u.AtVec(at(i, 0)) + dz/2/(b*grz)) / float64(contact)
	}
	return face - mean
}

// TestSlipAgainstVolumes: the finite volumes know nothing of sines. Besides
// the waves n ≥ 1 they hold the even part of the flow, 1/s per unit of area
// through the thickness, t/(3·Grz·s) by hand: ∫ (1/s·(1 − z/t))²/Grz dz.
func TestSlipAgainstVolumes(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ b, s, t, grz, gxy float64 }{
		{15, 150, 9, 70, 620}, // plywood: narrow rib
		{60, 100, 4, 90, 700}, // wide rib under a thin skin: negative
		{24, 120, 18, 800, 800},
	} {
		off := func(ny, nz int) float64 {
			whole := slipByVolumes(c.b, c.s, c.t, c.grz, c.gxy, ny, nz)
			return whole - c.t/(3*c.grz*c.s) - c.s/(12*c.gxy*c.t)
		}
		coarse, mid, fine := off(50, 10), off(100, 20), off(200, 40)
		limit := fine - (fine-mid)*(fine-mid)/((fine-mid)-(mid-coarse)) // Aitken
		got := section.Slip(c.b, c.s, c.t, c.grz, c.gxy)
		size := math.Abs(got) + c.s/(12*c.gxy*c.t)
		near(t, fmt.Sprintf("Slip%v, volumes extrapolated", c), got, limit, 1e-4*size)
		if !(math.Abs(fine-got) < 0.4*math.Abs(mid-got)) {
			t.Errorf("Slip%v: volumes miss by %.2g, halved by %.2g; want them to close in with the square of their size", c, mid-got, fine-got)
		}
	}
}

// TestSlipLimits: three closed forms derived by hand.
func TestSlipLimits(t *testing.T) {
	t.Parallel()
	// A deep skin: coth → 1, the in-plane part → 0, and
	// Σ sin²(nx)/(n³x²) → 3/2 − ln 2x for small x = πb/s.
	nearly(t, "Slip of a deep skin", section.Slip(3, 150, 1e6, 90, 640),
		(1.5-math.Log(2*math.Pi*3/150))/(math.Pi*math.Sqrt(90*640)), 1e-3)

	// A thin skin under a wide rib: coth x → 1/x + x/3. The in-plane flow is
	// y(1/b − 1/s) over the rib and (s/2 − y)/s beside it, so that ∫ Q²/(G·t)
	// is (s − b)²/(12·s·G·t); Σ (2/s)·sinc² = 1/b − 1/s.
	const b, s, thick, grz, gxy = 70.0, 150.0, 0.5, 90.0, 640.0
	want := (s-b)*(s-b)/(12*s*gxy*thick) - s/(12*gxy*thick) + thick/(3*grz)*(1/b-1/s)
	nearly(t, "Slip of a thin skin", section.Slip(b, s, thick, grz, gxy), want, 2e-4)
	if got := section.Slip(b, s, thick, grz, gxy); got >= 0 {
		t.Errorf("Slip of a wide rib under a thin skin = %g; want it negative", got)
	}

	// A rib as wide as its spacing: no wave is left.
	nearly(t, "Slip of ribs side by side", section.Slip(150, 150, 9, 70, 620), -150.0/(12*620*9), 2e-4)
}

func TestSlipScales(t *testing.T) {
	t.Parallel()
	base := section.Slip(12, 150, 9, 70, 620)
	if got := section.Slip(12, 150, 9, 140, 1240); got != base/2 {
		t.Errorf("Slip with moduli doubled = %g; want half of %g", got, base)
	}
	// (2/s)/k' has no length in it, k·b and k'·t neither.
	nearly(t, "Slip with lengths doubled", section.Slip(24, 300, 18, 70, 620), base, 1e-12)
}

func TestSlipFalls(t *testing.T) {
	t.Parallel()
	last := math.Inf(1)
	for b := 4.0; b <= 140; b += 2 {
		got := section.Slip(b, 150, 9, 70, 620)
		if got >= last {
			t.Errorf("Slip at width %g = %g, above %g of the narrower rib", b, got, last)
		}
		last = got
	}
	if soft, hard := section.Slip(12, 150, 9, 70, 620), section.Slip(12, 150, 9, 140, 620); soft <= hard {
		t.Errorf("Slip %g with half the rolling modulus; want more than %g", soft, hard)
	}
}
