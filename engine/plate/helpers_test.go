package plate

import (
	"context"
	"math"
	"testing"

	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/mat"
)

// near fails the test unless got is within tol of want.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.10g; want %.10g ± %.3g", what, got, want, tol)
	}
}

// nearRel is near with a tolerance relative to want.
func nearRel(t *testing.T, what string, got, want, rel float64) {
	t.Helper()
	near(t, what, got, want, rel*math.Abs(want))
}

// square returns an n × n matrix read through at.
func square(n int, at func(i, j int) float64) *mat.Dense {
	m := mat.NewDense(n, n, nil)
	for i := range n {
		for j := range n {
			m.Set(i, j, at(i, j))
		}
	}
	return m
}

// flat reads a matrix stored row by row.
func flat(k []float64) *mat.Dense {
	n := int(math.Round(math.Sqrt(float64(len(k)))))
	return square(n, func(i, j int) float64 { return k[i*n+j] })
}

func membraneMatrix(p plateStiffness, a, b float64) *mat.Dense {
	k := p.membrane(a, b)
	return square(8, func(i, j int) float64 { return k[i][j] })
}

func bendingMatrix(p plateStiffness, a, b float64) *mat.Dense {
	k := p.bending(a, b)
	return square(12, func(i, j int) float64 { return k[i][j] })
}

func webMatrix(k [12][12]float64) *mat.Dense {
	return square(12, func(i, j int) float64 { return k[i][j] })
}

// energy returns ½·uᵀKu.
func energy(k *mat.Dense, u []float64) float64 {
	v := mat.NewVecDense(len(u), u)
	return mat.Inner(v, k, v) / 2
}

// scaled makes the columns of k comparable: rotations are per radian and
// displacements per mm, so a plain eigenvalue count would mix units.
func scaled(k *mat.Dense) *mat.SymDense {
	n, _ := k.Dims()
	s := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			s.SetSym(i, j, k.At(i, j)/math.Sqrt(k.At(i, i)*k.At(j, j)))
		}
	}
	return s
}

// checkRigid fails unless k is symmetric, has exactly n motions without energy
// and no negative one.
func checkRigid(t *testing.T, what string, k *mat.Dense, n int) {
	t.Helper()
	size, _ := k.Dims()
	for i := range size {
		for j := range i {
			if d := math.Abs(k.At(i, j) - k.At(j, i)); !(d <= 1e-11*math.Sqrt(k.At(i, i)*k.At(j, j))) {
				t.Errorf("%s: k[%d][%d] = %g but k[%d][%d] = %g", what, i, j, k.At(i, j), j, i, k.At(j, i))
			}
		}
	}
	var e mat.EigenSym
	if !e.Factorize(scaled(k), false) {
		t.Fatalf("%s: no eigenvalues", what)
	}
	v := e.Values(nil)
	for i, x := range v {
		switch {
		case i < n && math.Abs(x) > 1e-11:
			t.Errorf("%s: eigenvalue %d = %g; want 0, a rigid motion", what, i, x)
		case i >= n && x < 1e-7:
			t.Errorf("%s: eigenvalue %d = %g; want more than 0: only %d motions are rigid", what, i, x, n)
		}
	}
}

// mesh is a system whose unknowns can be held: a single skin, or a panel
// without its pads.
type mesh struct {
	*system
	held []bool
}

// skinAlone meshes one skin on the given grid lines.
func skinAlone(l Layer, xs, ys []float64) *mesh {
	m := panelOn(&Panel{Top: l, Bottom: l, Height: 1}, xs, ys)
	for i := range m.held { // the other skin's unknowns have no part in it
		m.held[i] = i%perNode >= perSkin
	}
	return m
}

// panelOn meshes a panel without its pads on the given grid lines, which also
// give its outline.
func panelOn(p *Panel, xs, ys []float64) *mesh {
	p.X0, p.X1, p.Y0, p.Y1 = xs[0], xs[len(xs)-1], ys[0], ys[len(ys)-1]
	g := grid{xs: xs, ys: ys, flip: len(ys) > len(xs), inner: min(len(xs), len(ys))}
	return &mesh{assembleOn(context.Background(), p, g), make([]bool, g.nodes()*perNode)}
}

// even returns n+1 lines from 0 to l.
func even(l float64, n int) []float64 {
	out := make([]float64, n+1)
	for i := range out {
		out[i] = l * float64(i) / float64(n)
	}
	return out
}

// fix holds unknowns of node (i, j) at zero; skin offset included in dofs.
func (m *mesh) fix(i, j int, dofs ...int) {
	for _, d := range dofs {
		m.held[m.g.node(i, j)*perNode+d] = true
	}
}

// edges calls f for every node on the outline with what it lies on.
func (m *mesh) edges(f func(i, j int, onX, onY bool)) {
	for i := range m.g.xs {
		for j := range m.g.ys {
			onX, onY := i == 0 || i == len(m.g.xs)-1, j == 0 || j == len(m.g.ys)-1
			if onX || onY {
				f(i, j, onX, onY)
			}
		}
	}
}

// solve returns the answer to f with the held unknowns at zero.
func (m *mesh) solve(t *testing.T, f []float64) []float64 {
	t.Helper()
	return m.solver(t)(f)
}

// solver prepares the mesh for many answers.
func (m *mesh) solver(t *testing.T) func(f []float64) []float64 {
	t.Helper()
	var free []int
	for i, held := range m.held {
		if !held {
			free = append(free, i)
		}
	}
	at := make([]int, len(m.held)) // place among the free ones, -1 when held
	for i := range at {
		at[i] = -1
	}
	for i, d := range free {
		at[d] = i
	}
	_, kd := m.k.SymBand()
	band := 0
	terms := func(f func(i, j int, v float64)) {
		for i, d := range free {
			for e := d; e <= min(len(m.held)-1, d+kd); e++ {
				if j := at[e]; j >= 0 {
					if v := m.data[d*m.stride+e-d]; v != 0 {
						f(i, j, v)
					}
				}
			}
		}
	}
	terms(func(i, j int, _ float64) { band = max(band, j-i) })
	k := mat.NewSymBandDense(len(free), band, nil)
	terms(func(i, j int, v float64) { k.SetSymBand(i, j, v) })
	low, ok := lapack64.Pbtrf(k.RawSymBand())
	if !ok {
		t.Fatal("the mesh is loose")
	}
	return func(f []float64) []float64 {
		b := make([]float64, len(free))
		for i, d := range free {
			b[i] = f[d]
		}
		lapack64.Pbtrs(low, blas64.General{Rows: len(b), Cols: 1, Stride: 1, Data: b})
		u := make([]float64, len(m.held))
		for i, d := range free {
			u[d] = b[i]
		}
		return u
	}
}

// load returns the nodal forces of pressure q, downwards, on a rectangle.
func (m *mesh) load(q, x, y, sx, sy float64) []float64 {
	f := make([]float64, len(m.held))
	m.integrate(x, y, sx, sy, func(x, y, area float64) {
		p := m.spotAt(x, y, 0)
		for i, d := range p.dofs {
			f[d] -= q * area * p.n[i]
		}
	})
	return f
}

// down returns the displacement downwards of the top skin at a point.
func (m *mesh) down(u []float64, x, y float64) float64 {
	p := m.spotAt(x, y, 0)
	return -p.value(u)
}

// richardson extrapolates results at h, h/2 and h/4 and returns the limit and
// the observed order of the error.
func richardson(v [3]float64) (limit, order float64) {
	r := (v[1] - v[0]) / (v[2] - v[1])
	return v[2] + (v[2]-v[1])/(r-1), math.Log2(r)
}

// energyOf is the strain energy by share, without an end.
func energyOf(t *testing.T, s *Solution) [Shares]float64 {
	t.Helper()
	_, e, err := s.m.energies(t.Context(), s.u, s.u, s.lifted)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// slopesOf is the slopes of the sag at a place by share, without an end.
func slopesOf(t *testing.T, s *Solution, x, y float64) [Shares]float64 {
	t.Helper()
	r, err := s.Read(t.Context(), x, y)
	if err != nil {
		t.Fatal(err)
	}
	_, e, err := r.Shares(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// times returns K·u.
func (s *system) times(u []float64) []float64 {
	k := pack(s.data, s.stride-group)
	return k.times(u)
}
