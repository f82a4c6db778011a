package plate

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// A packed matrix holds the numbers of the band, fewer of its zeros, and
// multiplies as another library does, whatever the size, the band and the gaps.
func TestPacked(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(20, 13))
	for range 60 {
		n := 1 + r.IntN(90)
		band := r.IntN(min(n, 60))
		rows := randomBand(r, n, band)
		for i := range rows { // long gaps and short ones, rows without anything
			if i%37 < 20 || i%5 == 0 || i/(band+1) == 3 {
				rows[i] = 0
			}
		}
		wide := roomy(rows, band)
		k := pack(wide, band)
		back := make([]float64, len(wide))
		k.each(func(r run, v []float64) { copy(back[r.row*(band+group)+r.column-r.row:], v) })
		if !slices.Equal(back, wide) {
			t.Fatalf("%d unknowns, band %d: other numbers come back", n, band)
		}
		u := make([]float64, n)
		for i := range u {
			u[i] = 2*r.Float64() - 1
		}
		var want mat.VecDense
		want.MulVec(mat.NewSymBandDense(n, band, rows), mat.NewVecDense(n, u))
		for i, v := range k.times(u) {
			if !(math.Abs(v-want.AtVec(i)) <= 1e-12) {
				t.Errorf("%d unknowns, band %d: K·u is %g at %d, want %g", n, band, v, i, want.AtVec(i))
			}
		}
	}
	m, err := Prepare(t.Context(), demoPanel(4))
	if err != nil {
		t.Fatal(err)
	}
	if kept, whole := len(m.sys.kept.data), len(m.touch.data); !(kept < whole/3) {
		t.Errorf("%d numbers of %d kept on the refined mesh; want less than a third", kept, whole)
	}
}
