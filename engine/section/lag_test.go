package section_test

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"

	"flatwright/engine/section"
)

// lagByDifferences solves G·t·U″ = E·t·k²·U on half a strip of n intervals,
// half a unit of flow entering at y = 0 and none leaving at s/2, and returns
// U(0) less the mean of U. It is membrane theory with its transverse strain
// left out, and finite differences instead of hyperbolic functions.
func lagByDifferences(k, s, t, e, g float64, n int) float64 {
	h := s / 2 / float64(n)
	side, bed := g*t/h, e*t*k*k*h
	dl, d, du := make([]float64, n), make([]float64, n+1), make([]float64, n)
	for i := range n + 1 {
		d[i] = 2*side + bed
		if i == 0 || i == n {
			d[i] = side + bed/2
		}
		if i < n {
			dl[i], du[i] = -side, -side
		}
	}
	f := mat.NewVecDense(n+1, nil)
	f.SetVec(0, 0.5)
	var u mat.VecDense
	if err := mat.NewTridiag(n+1, dl, d, du).SolveVecTo(&u, false, f); err != nil {
		return math.NaN()
	}
	mean := (mat.Sum(&u) - u.AtVec(0)/2 - u.AtVec(n)/2) / float64(n)
	return u.AtVec(0) - mean
}

func TestShearLagAgainstDifferences(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ k, s, t, e, g float64 }{
		{math.Pi / 1200, 150, 9, 9000, 620},
		{math.Pi / 600, 300, 6, 4930, 1080},
		{8 * math.Pi / 1800, 200, 4, 8200, 480},
		{25 * math.Pi / 900, 250, 12, 9000, 600}, // κs ≈ 84
	} {
		coarse := lagByDifferences(c.k, c.s, c.t, c.e, c.g, 2000)
		fine := lagByDifferences(c.k, c.s, c.t, c.e, c.g, 4000)
		nearly(t, fmt.Sprintf("ShearLag%v", c), section.ShearLag(c.k, c.s, c.t, c.e, c.g), fine+(fine-coarse)/3, 1e-6)
	}
}

// TestShearLagField: the mean stress over the stress at the rib is tanh x/x,
// x = (πs/2L)·√(E/G); derived: the strip's cosh field and its mean.
func TestShearLagField(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ s, l, e, g, want float64 }{
		{150, 1200, 9000, 620, 0.847502},
		{300, 1200, 9000, 620, 0.604508},
		{400, 2400, 9000, 620, 0.762463},
		{150, 1200, 4930, 1080, 0.945192},
	} {
		k := math.Pi / c.l
		lambda := section.ShearLag(k, c.s, 9, c.e, c.g)
		near(t, fmt.Sprintf("mean over edge stress %v", c), 1/(1+k*k*c.e*9*c.s*lambda), c.want, 5e-7)
	}
}

func TestShearLagLimits(t *testing.T) {
	t.Parallel()
	const s, thick, e, g = 150.0, 9.0, 9000.0, 620.0
	nearly(t, "ShearLag at low k", section.ShearLag(1e-7, s, thick, e, g), s/(12*g*thick), 1e-9)
	// High k: coth → 1, each side an endless strip.
	k := 2.0
	kappa := k * math.Sqrt(e/g)
	nearly(t, "ShearLag at high k", section.ShearLag(k, s, thick, e, g),
		1/(2*g*thick*kappa)-1/(e*thick*s*k*k), 1e-12)
	if got := section.ShearLag(0, s, thick, e, g); got != s/(12*g*thick) {
		t.Errorf("ShearLag at k = 0 = %g; want s/(12·G·t) = %g", got, s/(12*g*thick))
	}
}

// TestShearLagSeam: where the series takes over, both give the same.
func TestShearLagSeam(t *testing.T) {
	t.Parallel()
	const s, thick, e, g = 150.0, 9.0, 9000.0, 620.0
	seam := 0.05 * 2 / s / math.Sqrt(e/g) // κs/2 = 0.05
	below := section.ShearLag(seam*(1-1e-9), s, thick, e, g)
	above := section.ShearLag(seam*(1+1e-9), s, thick, e, g)
	nearly(t, "ShearLag across the seam", below, above, 1e-7)
	// On the series' own side: coth(x)/x − 1/x² = 1/3 − x²/45 + 2x⁴/945.
	x := 0.04
	got := section.ShearLag(seam*0.8, s, thick, e, g)
	nearly(t, "ShearLag below the seam", got, s/(4*g*thick)*(1.0/3-x*x/45+2*x*x*x*x/945), 1e-7)
}

// TestShearLagFalls with k: short waves reach less far from the rib.
func TestShearLagFalls(t *testing.T) {
	t.Parallel()
	last := math.Inf(1)
	for m := 1.0; m <= 40; m++ {
		got := section.ShearLag(m*math.Pi/1800, 200, 9, 9000, 620)
		if !(got > 0 && got < last) {
			t.Errorf("ShearLag at m = %g is %g; want it between 0 and %g", m, got, last)
		}
		last = got
	}
}
