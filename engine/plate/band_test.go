package plate

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// randomBand is a positive definite band matrix, dominant on its diagonal, in
// which whole rows reach less far than the band and many terms are zero.
func randomBand(r *rand.Rand, n, band int) []float64 {
	rows := make([]float64, n*(band+1))
	for i := range n {
		reach := r.IntN(band + 1)
		rows[i*(band+1)] = 2*float64(band) + 1 + r.Float64()
		for j := 1; j <= min(reach, n-1-i); j++ {
			if r.IntN(3) > 0 {
				rows[i*(band+1)+j] = 2*r.Float64() - 1
			}
		}
	}
	return rows
}

// roomy returns rows of band+1 with the room that a factor has behind them.
func roomy(rows []float64, band int) []float64 {
	n := len(rows) / (band + 1)
	out := make([]float64, n*(band+group))
	for i := range n {
		copy(out[i*(band+group):], rows[i*(band+1):(i+1)*(band+1)])
	}
	return out
}

// The factor and the answers are those of gonum's own band Cholesky, whatever
// the size, the band and the zeros.
func TestBandCholesky(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(3, 11))
	for range 60 {
		n := 1 + r.IntN(90)
		band := r.IntN(min(n, 40))
		rows := randomBand(r, n, band)
		f := newFactor(roomy(rows, band), band)
		if err := f.cholesky(t.Context()); err != nil {
			t.Fatalf("%d unknowns, band %d: %v", n, band, err)
		}
		b := make([]float64, n)
		for i := range b {
			b[i] = 2*r.Float64() - 1
		}
		var want mat.VecDense
		var other mat.BandCholesky
		if !other.Factorize(mat.NewSymBandDense(n, band, rows)) {
			t.Fatal("the other factorization refuses")
		}
		if err := other.SolveVecTo(&want, mat.NewVecDense(n, append([]float64(nil), b...))); err != nil {
			t.Fatal(err)
		}
		if err := f.solve(t.Context(), b); err != nil {
			t.Fatal(err)
		}
		for i, v := range b {
			if !(math.Abs(v-want.AtVec(i)) < 1e-14) {
				t.Fatalf("%d unknowns, band %d: answer %d is %g, want %g", n, band, i, v, want.AtVec(i))
			}
		}
	}
}

// A matrix that is not positive definite is refused, wherever that shows, and
// so is one with a NaN.
func TestBandCholeskyRefuses(t *testing.T) {
	t.Parallel()
	for _, bad := range []float64{-1, 0, math.NaN()} {
		for _, at := range []int{0, 7, 8, 29} {
			rows := randomBand(rand.New(rand.NewPCG(1, 1)), 30, 9)
			rows[at*10] = bad
			f := newFactor(roomy(rows, 9), 9)
			if err := f.cholesky(t.Context()); !errors.Is(err, errPivot) {
				t.Errorf("diagonal term %d of %g: %v, want errPivot", at, bad, err)
			}
		}
	}
}

// counted is a context that counts the looks at it and ends at one of them.
type counted struct {
	context.Context
	looks, end int // end 0 is never
}

func (c *counted) Err() error {
	if c.looks++; c.end > 0 && c.looks >= c.end {
		return context.Canceled
	}
	return nil
}

// Between two looks at the context lies little work: a group of rows of a
// factorization, a few million multiplications of a solution, some elements of
// an assembly. Ended at any look, the work stops within a handful more.
func TestLooksAtContext(t *testing.T) {
	t.Parallel()
	p := demoPanel(2)
	loads := []Press{{P: 490, X: 900, Y: 375, SX: 300, SY: 300}}
	all := &counted{Context: t.Context()}
	run := func(ctx context.Context) error {
		m, err := Prepare(ctx, p)
		if err != nil {
			return err
		}
		n, band := m.Size()
		if c, ok := ctx.(*counted); ok && c.end == 0 {
			// one for each group of rows at least; so much work lies between
			if work := group * band * band; c.looks < n/group || work > 1e6 {
				t.Errorf("%d looks while %d unknowns were factorized, %d multiplications between two", c.looks, n, work)
			}
		}
		s, err := m.Solve(ctx, loads)
		if err != nil {
			return err
		}
		if _, _, err = s.m.energies(ctx, s.u, s.u, s.lifted); err != nil {
			return err
		}
		read, err := s.Read(ctx, 900, 375)
		if err != nil {
			return err
		}
		if _, _, err = read.Shares(ctx); err != nil {
			return err
		}
		_, err = read.Toward(ctx, m.sys.p, loads)
		return err
	}
	if err := run(all); err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(5, 50))
	rounds := 40
	if testing.Short() {
		rounds = 8
	}
	for range rounds {
		c := &counted{Context: t.Context(), end: 1 + r.IntN(all.looks)}
		if err := run(c); !errors.Is(err, context.Canceled) {
			t.Fatalf("ended at look %d of %d: error %v", c.end, all.looks, err)
		}
		// an assembly or a visit goes on looking at the rest of its elements
		if more := c.looks - c.end; more > 400 {
			t.Errorf("ended at look %d of %d it looked %d times more", c.end, all.looks, more)
		}
	}
}

func BenchmarkCholesky(b *testing.B) {
	benchPanels(b, func(b *testing.B, p *Panel) {
		m, err := Prepare(context.Background(), p)
		if err != nil {
			b.Fatal(err)
		}
		for b.Loop() {
			if _, err := m.factorize(context.Background(), nil, 0); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// Memory that was lent before comes back as nothing but zeros, whatever its size.
func TestLentMemoryIsCleared(t *testing.T) {
	t.Parallel()
	for _, n := range []int{40, 12, 30, 40} {
		f := lentFactor(n, 5)
		if len(f.data) != n*(5+group) || slices.ContainsFunc(f.data, func(v float64) bool { return v != 0 }) {
			t.Errorf("%d numbers for %d rows, some not 0", len(f.data), n)
		}
		for i := range f.data {
			f.data[i] = 1
		}
		f.free()
	}
}
