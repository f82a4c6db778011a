package section_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"

	"flatwright/engine/section"
)

// bedded returns the largest pull per mm of a beam on a bed, n steps of h long, under
// 1 N: at its middle, or at its near end, which is held level. By differences of the
// energy Σ EI·(y″)²·h/2 + Σ k·y²·h/2, so that free ends need no conditions.
func bedded(t *testing.T, ei, k, h float64, n int, level bool) float64 {
	t.Helper()
	a, q := mat.NewDense(n, n, nil), mat.NewVecDense(n, nil)
	add := func(i, j int, v float64) { a.Set(i, j, a.At(i, j)+v) }
	curve := func(at [3]int, weight float64) {
		for r, x := range [3]float64{1, -2, 1} {
			for s, y := range [3]float64{1, -2, 1} {
				add(at[r], at[s], x*y*ei/(h*h*h)*weight)
			}
		}
	}
	for i := 1; i < n-1; i++ {
		curve([3]int{i - 1, i, i + 1}, 1)
	}
	for i := range n {
		add(i, i, k*h)
	}
	at := n / 2
	if level { // the mirror image goes on beyond the end; half of what is on it counts here
		curve([3]int{1, 0, 1}, 0.5)
		add(0, 0, -k*h/2)
		at = 0
	}
	q.SetVec(at, 1)
	var y mat.VecDense
	if err := y.SolveVec(a, q); err != nil {
		t.Fatal(err)
	}
	return k * y.AtVec(at)
}

// The peak under a force against differences, and by the book: P·β/2 in the middle,
// P·β where the skin goes on to one side and is level, β = (700/(4·1.6e7))^¼ = .05751.
func TestSpread(t *testing.T) {
	t.Parallel()
	const ei, k = 1.6e7, 700.0
	got := section.Spread(ei, k)
	nearly(t, "by hand", got, 2/0.05751, 1e-4)
	nearly(t, "middle", 1/got, bedded(t, ei, k, 1, 301, false), 1e-3)
	nearly(t, "one side", 2/got, bedded(t, ei, k, 1, 151, true), 1e-3)
	nearly(t, "16 times as stiff", section.Spread(16*ei, k), 2*got, 1e-12)
	nearly(t, "16 times the bed", section.Spread(ei, 16*k), got/2, 1e-12)
	if math.Abs(section.Spread(2*ei, 2*k)-got) > 1e-12*got {
		t.Errorf("both doubled: %g; want %g", section.Spread(2*ei, 2*k), got)
	}
}
