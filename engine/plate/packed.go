package plate

import "gonum.org/v1/gonum/blas/blas64"

// packed is the upper rows of a symmetric band matrix without most of the zeros
// within the band: of a panel's stiffness a half to a quarter is left. Its numbers
// lie one run after the other.
type packed struct {
	runs []run
	data []float64
}

// run is a part of a row: n numbers from a column on.
type run struct{ row, column, n int }

// gap is how many zeros in a row end a run; shorter gaps cost less kept than cut.
const gap = 8

// pack keeps what the upper rows of a band matrix hold, band+group numbers each.
func pack(rows []float64, band int) packed {
	var k packed
	stride, total := band+group, 0
	for i := 0; i*stride < len(rows); i++ {
		row := rows[i*stride : i*stride+band+1]
		for from := 0; from < len(row); {
			if row[from] == 0 {
				from++
				continue
			}
			end := from + 1 // behind the last that is not 0
			for at := end; at < len(row) && at-end < gap; at++ {
				if row[at] != 0 {
					end = at + 1
				}
			}
			k.runs = append(k.runs, run{i, i + from, end - from})
			total += end - from
			from = end
		}
	}
	k.data = make([]float64, 0, total)
	for _, r := range k.runs {
		at := r.row*stride + r.column - r.row
		k.data = append(k.data, rows[at:at+r.n]...)
	}
	return k
}

// each calls f for every run with its numbers.
func (k *packed) each(f func(r run, v []float64)) {
	at := 0
	for _, r := range k.runs {
		f(r, k.data[at:at+r.n])
		at += r.n
	}
}

// times returns K·u.
func (k *packed) times(u []float64) []float64 {
	out := make([]float64, len(u))
	k.each(func(r run, v []float64) {
		column := r.column
		if column == r.row { // the diagonal counts once
			out[r.row] += v[0] * u[r.row]
			v, column = v[1:], column+1
		}
		if len(v) == 0 {
			return
		}
		out[r.row] += blas64.Dot(vector(v), vector(u[column:column+len(v)]))
		blas64.Axpy(u[r.row], vector(v), vector(out[column:column+len(v)]))
	})
	return out
}
