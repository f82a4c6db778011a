package plate

import (
	"context"
	"errors"
	"math"
	"sync"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
)

// group is how many rows are taken off at a time: of 4, 8 and 16 the fastest on
// most meshes of a bench (measured with other work beside).
const group = 8

// errPivot is returned for a matrix that is not positive definite.
var errPivot = errors.New("the matrix has a pivot that is not positive")

// factor is the Cholesky factor U of a symmetric band matrix UᵀU: row i holds
// U[i][i..i+band] and then zeros. So the rows of a group, the shorter ones
// filled up by their zeros, are a dense matrix whose rows lie stride−1 apart,
// and one product takes the whole group off a later row.
type factor struct {
	data    []float64
	stride  int
	reach   []int     // column behind the last that row i may have
	inverse []float64 // of the diagonal
	place   []int     // row of every unknown, nil where they are numbered so
}

// newFactor takes over the upper rows of a symmetric band matrix, band+group each.
func newFactor(rows []float64, band int) factor {
	n := len(rows) / (band + group)
	return factor{data: rows, stride: band + group, reach: make([]int, n), inverse: make([]float64, n)}
}

// emptyFactor has room for n rows.
func emptyFactor(n, band int) factor {
	return factor{data: make([]float64, n*(band+group)), stride: band + group, reach: make([]int, n), inverse: make([]float64, n)}
}

// lent is the memory of factors that are needed for one answer only, as those of
// joints and cells: a dozen for every edit, of half a megabyte each.
var lent sync.Pool

// lentFactor is [emptyFactor] in memory that free gives back.
func lentFactor(n, band int) factor {
	f := factor{stride: band + group, reach: make([]int, n), inverse: make([]float64, n)}
	size := n * f.stride
	if p, ok := lent.Get().(*[]float64); ok && cap(*p) >= size {
		f.data = (*p)[:size]
		clear(f.data)
		return f
	}
	f.data = make([]float64, size)
	return f
}

// free gives the memory of a lent factor back.
func (f *factor) free() {
	lent.Put(&f.data)
}

// cholesky factorizes in place. It looks at ctx once a group of rows, about
// every group·band² multiplications, and starts no goroutine, so that every
// sum has one order. It returns errPivot or the error of ctx.
func (f *factor) cholesky(ctx context.Context) error {
	n := len(f.reach)
	most := 0
	for i := range n {
		row := f.row(i, min(n, i+f.stride-group+1))
		last := len(row)
		for last > 1 && row[last-1] == 0 {
			last--
		}
		// What an earlier row reaches it fills.
		most = max(most, i+last)
		f.reach[i] = most
	}
	lo := 0 // first row that reaches the present ones
	for r0 := 0; r0 < n; r0 += group {
		if err := ctx.Err(); err != nil {
			return err
		}
		for f.reach[lo] <= r0 {
			lo++
		}
		r1 := min(n, r0+group)
		for g := lo / group * group; g < r0; g += group {
			for r := r0; r < min(r1, f.reach[g+group-1]); r++ {
				f.takeOff(r, max(g, lo), g+group)
			}
		}
		for r := r0; r < r1; r++ {
			if r > r0 {
				f.takeOff(r, max(r0, lo), r)
			}
			row := f.row(r, f.reach[r])
			if !(row[0] > 0) {
				return errPivot
			}
			d := 1 / math.Sqrt(row[0])
			f.inverse[r] = d
			blas64.Scal(d, vector(row))
		}
	}
	return nil
}

// row returns row r up to the column before end.
func (f *factor) row(r, end int) []float64 {
	at := r * f.stride
	return f.data[at : at+end-r]
}

// takeOff takes Σ U[l][r]·U[l] over the rows a ≤ l < b off row r, a group at
// most.
func (f *factor) takeOff(r, a, b int) {
	rows := f.data[a*f.stride+r-a:]
	blas64.Gemv(blas.Trans, -1,
		blas64.General{Rows: b - a, Cols: f.reach[b-1] - r, Stride: f.stride - 1, Data: rows},
		blas64.Vector{N: b - a, Inc: f.stride - 1, Data: rows},
		1, vector(f.row(r, f.reach[b-1])))
}

func vector(v []float64) blas64.Vector { return blas64.Vector{N: len(v), Inc: 1, Data: v} }

// looks is how many multiplications of a solution lie between two looks at the
// context, about; some ten milliseconds where memory is slow.
const looks = 1 << 22

// solve overwrites b with the answer. It returns the error of ctx; b is then
// of no use.
func (f *factor) solve(ctx context.Context, b []float64) error {
	rows := f.arranged(b)
	if err := f.forward(ctx, rows); err != nil {
		return err
	}
	if err := f.backward(ctx, rows); err != nil {
		return err
	}
	f.disarrange(rows, b)
	return nil
}

// arranged returns b, which is by unknowns, by rows.
func (f *factor) arranged(b []float64) []float64 {
	rows := make([]float64, len(b))
	copy(rows, b)
	for i, at := range f.place {
		rows[at] = b[i]
	}
	return rows
}

// disarrange puts what is by rows into b by unknowns.
func (f *factor) disarrange(rows, b []float64) {
	copy(b, rows)
	for i, at := range f.place {
		b[i] = rows[at]
	}
}

// forward overwrites b, by rows, with U⁻ᵀ·b.
func (f *factor) forward(ctx context.Context, b []float64) error {
	every := max(1, looks/f.stride)
	for i, end := range f.reach {
		if i%every == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		b[i] *= f.inverse[i]
		if end > i+1 {
			blas64.Axpy(-b[i], vector(f.row(i, end)[1:]), vector(b[i+1:end]))
		}
	}
	return nil
}

// backward overwrites b, by rows, with U⁻¹·b.
func (f *factor) backward(ctx context.Context, b []float64) error {
	every := max(1, looks/f.stride)
	for i := len(b) - 1; i >= 0; i-- {
		if i%every == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		end := f.reach[i]
		if end > i+1 {
			b[i] -= blas64.Dot(vector(f.row(i, end)[1:]), vector(b[i+1:end]))
		}
		b[i] *= f.inverse[i]
	}
	return nil
}
