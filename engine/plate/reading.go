package plate

import (
	"context"
	"errors"
)

// Reading is the sag of an answer at one place with what tells how it follows a
// change of the panel. The sag is aᵀ·u for a known a, the plane through the
// supports taken off; with K·λ = a any small change of stiffness, supports or
// loads moves it by λᵀ times what the answer then leaves unbalanced (adjoint
// method, textbook). Points that lifted stay lifted.
type Reading struct {
	s      *Solution
	x, y   float64
	sag    float64 // mm
	lambda []float64
}

// ErrUnlike is returned for a panel that does not lie on the same grid lines and
// supports.
var ErrUnlike = errors.New("the panels do not lie on the same lines")

// Read reads the sag of the upper face at (x, y). It takes one more solution of
// the same system and returns the error of ctx.
func (s *Solution) Read(ctx context.Context, x, y float64) (*Reading, error) {
	r := &Reading{s: s, x: x, y: y, sag: s.Sag(x, y), lambda: s.m.reads(x, y, s.lifted)}
	return r, s.solve(ctx, r.lambda)
}

// Sag returns what was read, mm.
func (r *Reading) Sag() float64 { return r.sag }

// reads returns a, of which aᵀ·u is the sag at a place.
func (m *Model) reads(x, y float64, lifted []bool) []float64 {
	a := make([]float64, m.unknowns)
	p := m.sys.spotAt(x, y, 0)
	for i, d := range p.dofs {
		a[d] -= p.n[i]
	}
	if q, ok := m.plane(lifted, [3]float64{1, x, y}); ok {
		for i := range m.springs {
			if sp := &m.springs[i]; !lifted[i] && sp.grounded() {
				sp.push(a, sp.k*(q[0]+q[1]*sp.x+q[2]*sp.y))
			}
		}
	}
	return a
}

// Shares returns the strain energy of the answer by share, N·mm, and how the sag
// changes with the stiffness of each share: the derivative of its logarithm by
// the logarithm of the stiffness. They add up to −1: everything stiffer by 1 %
// sags 1 % less. For a sag of nothing they are nothing. It returns the error of
// ctx.
func (r *Reading) Shares(ctx context.Context) (energy, slopes [Shares]float64, err error) {
	slopes, energy, err = r.s.m.energies(ctx, r.lambda, r.s.u, r.s.lifted)
	for h := range slopes {
		if r.sag == 0 {
			slopes[h] = 0
			continue
		}
		slopes[h] *= -2 / r.sag
	}
	return energy, slopes, err
}

// Toward returns the sag, mm, to first order, were the panel p and the loads
// these. Everything that p says counts: moduli, slots, joints, thickness. Its grid
// lines and supports must be the same in number, though they may have moved a
// little, or it returns ErrUnlike; the error of ctx when that ends first.
func (r *Reading) Toward(ctx context.Context, p *Panel, loads []Press) (float64, error) {
	m := &Model{sys: bare(p, newGrid(p))}
	m.stand()
	if m.unknowns != r.s.m.unknowns || len(m.springs) != len(r.s.m.springs) || len(m.sys.g.xs) != len(r.s.m.sys.g.xs) {
		return 0, ErrUnlike
	}
	f := make([]float64, m.unknowns)
	for _, l := range loads {
		m.press(f, l.footprint())
	}
	m.weigh(f)
	u, lambda := r.s.u, r.lambda
	sag := dot(m.reads(r.x, r.y, r.s.lifted), u) + dot(f, lambda)
	m.sys.visit(whole, heeding(ctx, func(dofs []int, row func(int) []float64) {
		var v [4 * perNode]float64
		for i, d := range dofs {
			v[i] = u[d]
		}
		for i, d := range dofs {
			if l := lambda[d]; l != 0 {
				sag -= l * dot(row(i)[:len(dofs)], v[:])
			}
		}
	}))
	m.beams(func(first int, k [4][4]float64) {
		for i := range k {
			sag -= lambda[first+i] * dot(k[i][:], u[first:first+len(k)])
		}
	})
	for i := range m.springs {
		if sp := &m.springs[i]; !r.s.lifted[i] {
			sag -= sp.k * sp.value(lambda) * sp.value(u)
		}
	}
	return sag, ctx.Err()
}
