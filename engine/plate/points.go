package plate

import (
	"context"
	"errors"
	"slices"
	"sort"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
)

// points is the panel as the points of its supports feel it: how far every
// point moves for a force at every other with all of them in touch. Which
// points lift is then found among the points alone, and the answer for any set
// of lifted points comes from the one factor with all in touch: taking springs
// away is a change of low rank. Source: Sherman–Morrison–Woodbury, textbook.
type points struct {
	m    *Model
	rows []int   // of the arranged system that the points act on, rising
	at   [][]int // for every point: which of rows it acts on
	n    [][]float64
	flex []float64 // mm/N: how far point i moves for 1 N at point j
}

// pointsMost bounds how many points are felt together, and rowsPerBand how many
// rows they act on for every stored diagonal: beyond, a factorization for every
// set of points costs less time or memory. Tried out.
const (
	pointsMost  = 640
	rowsPerBand = 2
)

// feltRows returns the rows that the springs act on and which of them each
// does; ok is false where that is not worth it.
func (m *Model) feltRows() (p *points, ok bool) {
	if len(m.springs) > pointsMost {
		return nil, false
	}
	p = &points{m: m, at: make([][]int, len(m.springs)), n: make([][]float64, len(m.springs))}
	seen := map[int]bool{}
	for i := range m.springs {
		sp := &m.springs[i]
		if !(sp.k > 0) {
			return nil, false
		}
		p.at[i], p.n[i] = make([]int, 0, len(sp.n)+4), make([]float64, 0, len(sp.n)+4)
		add := func(d int, n float64) {
			p.at[i], p.n[i] = append(p.at[i], m.at(d)), append(p.n[i], n)
			seen[m.at(d)] = true
		}
		if sp.ride == nil || !sp.ride.end {
			for a, d := range sp.dofs {
				add(d, sp.n[a])
			}
		}
		if sp.ride != nil {
			for a, d := range sp.ride.dofs {
				add(d, sp.ride.n[a])
			}
		}
	}
	if len(seen) > rowsPerBand*m.band {
		return nil, false
	}
	for r := range seen {
		p.rows = append(p.rows, r)
	}
	sort.Ints(p.rows)
	for i := range p.at {
		for a, r := range p.at[i] {
			p.at[i][a] = sort.SearchInts(p.rows, r)
		}
	}
	return p, true
}

// chunk is how many rows of U⁻ᵀ·E stay in the first cache.
const chunk = 32

// feel computes what the points feel: Eᵀ·K⁻¹·E = zᵀ·z with z = U⁻ᵀ·E for unit forces
// E at the rows. Of z only the rows that the band reaches back to are kept: whole,
// it would be as large as the factor. It returns the error of ctx.
func (p *points) feel(ctx context.Context) error {
	f, r := &p.m.touch, len(p.rows)
	n := len(f.reach)
	span := f.stride + chunk
	z := make([]float64, 3*span*r)
	base := 0 // number of its first row
	row := func(i int) []float64 { return z[(i-base)*r:] }
	cols := make([]int, n) // row i of z is nothing beyond the first cols[i]
	for i, c := 0, 0; i < n; i++ {
		for c < r && p.rows[c] <= i {
			c++
		}
		cols[i] = c
	}
	takeOff := func(to, a, b int) { // as [factor.takeOff]
		if w := cols[b-1]; w > 0 {
			blas64.Gemv(blas.Trans, -1, blas64.General{Rows: b - a, Cols: w, Stride: r, Data: row(a)},
				blas64.Vector{N: b - a, Inc: f.stride - 1, Data: f.data[a*f.stride+to-a:]}, 1, vector(row(to)[:w]))
		}
	}
	c := make([]float64, r*r)
	lo, next := 0, 0
	for r0 := 0; r0 < n; r0 += group {
		if err := ctx.Err(); err != nil {
			return err
		}
		for f.reach[lo] <= r0 {
			lo++
		}
		r1 := min(n, r0+group)
		if r1-base > 3*span { // the rows still wanted move to the front
			keep := min(lo, r0/chunk*chunk)
			used := copy(z, row(keep)[:(r0-keep)*r])
			clear(z[used:])
			base = keep
		}
		for ; next < r && p.rows[next] < r1; next++ {
			row(p.rows[next])[next] = 1
		}
		for g := lo; g < r0; g += chunk {
			for to := r0; to < r1; to++ {
				takeOff(to, g, min(g+chunk, r0))
			}
		}
		for to := r0; to < r1; to++ {
			if to > r0 {
				takeOff(to, max(r0, lo), to)
			}
			blas64.Scal(f.inverse[to], vector(row(to)[:cols[to]]))
		}
		if r1%chunk == 0 || r1 == n {
			from := (r1 - 1) / chunk * chunk
			addSquare(c, row(from), r, r1-from, cols[r1-1])
		}
	}
	return p.flexibility(ctx, c)
}

// addSquare adds zᵀ·z over some rows of r numbers, of which the first w are more
// than nothing, to the upper half of c.
func addSquare(c, z []float64, r, rows, w int) {
	for a := range w {
		blas64.Gemv(blas.Trans, 1, blas64.General{Rows: rows, Cols: w - a, Stride: r, Data: z[a:]},
			blas64.Vector{N: rows, Inc: r, Data: z[a:]}, 1, vector(c[a*r+a:a*r+w]))
	}
}

// flexibility reads c, the flexibility of the rows whose upper half is given, at the
// points.
func (p *points) flexibility(ctx context.Context, c []float64) error {
	r := len(p.rows)
	for a := range r {
		for b := range a {
			c[a*r+b] = c[b*r+a]
		}
	}
	k := len(p.at)
	p.flex = make([]float64, k*k)
	half := make([]float64, r)
	for i := range k {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		clear(half)
		for a, at := range p.at[i] {
			blas64.Axpy(p.n[i][a], vector(c[at*r:(at+1)*r]), vector(half))
		}
		for j := i; j < k; j++ {
			v := p.read(half, j)
			p.flex[i*k+j], p.flex[j*k+i] = v, v
		}
	}
	return nil
}

// read returns how far point i moves when the rows move by so much.
func (p *points) read(rows []float64, i int) (sum float64) {
	for a, at := range p.at[i] {
		sum += p.n[i][a] * rows[at]
	}
	return sum
}

// moved returns how far every point moves by forces at the points, added to w.
func (p *points) moved(w, force []float64) []float64 {
	k := len(p.at)
	out := append([]float64(nil), w...)
	for i, f := range force {
		if f != 0 {
			blas64.Axpy(f, vector(p.flex[i*k:(i+1)*k]), vector(out))
		}
	}
	return out
}

// lifting is a set of lifted points with what takes their springs away.
type lifting struct {
	p     *points
	which []int
	small factor // of 1/k − flex over the set
}

// looseSpring is the share of a spring's give below which a pivot of what takes
// it away is nothing but rounding; a spring beside others keeps more than 1e-5.
const looseSpring = 1e-10

// lift returns the set with the share rest of the springs kept. It returns
// ErrLoose where the others do not hold the panel, or the error of ctx.
func (p *points) lift(ctx context.Context, lifted []bool, rest float64) (*lifting, error) {
	l := &lifting{p: p}
	for i, up := range lifted {
		if up {
			l.which = append(l.which, i)
		}
	}
	m, k := len(l.which), len(p.at)
	if m == 0 {
		return l, nil
	}
	l.small = emptyFactor(m, m-1)
	for r, i := range l.which {
		row := l.small.row(r, m)
		for c := r; c < m; c++ {
			row[c-r] = -p.flex[i*k+l.which[c]]
		}
		row[0] += 1 / (p.m.springs[i].k * (1 - rest))
	}
	if err := l.small.cholesky(ctx); errors.Is(err, errPivot) {
		return nil, ErrLoose
	} else if err != nil {
		return nil, err
	}
	for r, i := range l.which {
		if v := l.small.data[r*l.small.stride]; v*v < looseSpring/p.m.springs[i].k {
			return nil, ErrLoose
		}
	}
	return l, nil
}

// forces returns what has to push at the points, as if all were in touch, for
// the set to be lifted when w is how far they move otherwise.
func (l *lifting) forces(ctx context.Context, w []float64) ([]float64, error) {
	out := make([]float64, len(l.p.at))
	if len(l.which) == 0 {
		return out, nil
	}
	b := make([]float64, len(l.which))
	for r, i := range l.which {
		b[r] = w[i]
	}
	if err := l.small.solve(ctx, b); err != nil {
		return nil, err
	}
	for r, i := range l.which {
		out[i] = b[r]
	}
	return out, nil
}

// begin solves with all points in touch: it returns the answer by rows and how far
// the points move.
func (p *points) begin(ctx context.Context, b []float64) (x, w []float64, err error) {
	f := &p.m.touch
	x = f.arranged(b)
	if err := f.forward(ctx, x); err != nil {
		return nil, nil, err
	}
	if err := f.backward(ctx, x); err != nil {
		return nil, nil, err
	}
	rows := make([]float64, len(p.rows))
	for c, row := range p.rows {
		rows[c] = x[row]
	}
	w = make([]float64, len(p.at))
	for i := range w {
		w[i] = p.read(rows, i)
	}
	return x, w, nil
}

// end adds to the answer x what forces at the points do and puts it into b.
func (p *points) end(ctx context.Context, x, force, b []float64) error {
	f := &p.m.touch
	if slices.ContainsFunc(force, func(f float64) bool { return f != 0 }) {
		y := make([]float64, len(x))
		for i, f := range force {
			for a, at := range p.at[i] {
				y[p.rows[at]] += f * p.n[i][a]
			}
		}
		if err := f.forward(ctx, y); err != nil {
			return err
		}
		if err := f.backward(ctx, y); err != nil {
			return err
		}
		blas64.Axpy(1, vector(x), vector(y))
		x = y
	}
	f.disarrange(x, b)
	return nil
}

// solve overwrites b with the answer when the set is lifted.
func (l *lifting) solve(ctx context.Context, b []float64) error {
	y, w, err := l.p.begin(ctx, b)
	if err != nil {
		return err
	}
	force, err := l.forces(ctx, w)
	if err != nil {
		return err
	}
	return l.p.end(ctx, y, force, b)
}

// find finds the points that lift under f and the displacements, as
// [Solution.search] does, from all in touch.
func (s *Solution) find(ctx context.Context, p *points, f []float64) error {
	m := s.m
	k := len(m.springs)
	y, w0, err := p.begin(ctx, f)
	if err != nil {
		return err
	}
	s.lifted = make([]bool, k)
	w, push := w0, make([]float64, k)
	set, soft := &lifting{p: p}, false
	for pass := range maxPasses {
		if err := ctx.Err(); err != nil {
			return err
		}
		from := w0
		hold := make([]float64, k)
		if soft {
			for _, i := range set.which {
				hold[i] = rest * m.springs[i].k * w[i]
			}
			from = p.moved(w0, hold)
		}
		next, err := set.forces(ctx, from)
		if err != nil {
			return err
		}
		for i := range next {
			next[i] += hold[i]
		}
		to := p.moved(w0, next)
		if t := 1.0; pass > 0 {
			if t = m.stepped(w, to, push, next); t < 1 {
				for i := range to {
					to[i] = w[i] + t*(to[i]-w[i])
					next[i] = push[i] + t*(next[i]-push[i])
				}
			}
		}
		w, push = to, next
		changed := false
		for i := range m.springs {
			if lifts := w[i] > 0 && !m.glued(i); lifts != s.lifted[i] {
				s.lifted[i], changed = lifts, true
			}
		}
		if !changed && !soft {
			// Once more from f alone, so that the answer does not depend on the
			// way to it.
			force, err := set.forces(ctx, w0)
			if err != nil {
				return err
			}
			s.u = make([]float64, len(f))
			if err := p.end(ctx, y, force, s.u); err != nil {
				return err
			}
			s.set = set
			return s.refine(ctx, f)
		}
		set, err = p.lift(ctx, s.lifted, 0)
		if soft = errors.Is(err, ErrLoose); soft {
			set, err = p.lift(ctx, s.lifted, rest)
		}
		if err != nil {
			return err
		}
	}
	return ErrRocking
}

// stepped is [Model.shorten] told by the points alone: u is what f and the
// forces push at the points make with all in touch, so K·u = f + push − k·w
// there.
func (m *Model) stepped(w, to, push, next []float64) float64 {
	dw := make([]float64, len(w))
	flat, steep := 0.0, 0.0
	for i := range w {
		k := m.springs[i].k
		dw[i] = to[i] - w[i]
		flat += dw[i] * (push[i] - k*w[i])
		steep += dw[i] * (next[i] - push[i] - k*dw[i])
	}
	return m.least(flat, steep, w, dw)
}
