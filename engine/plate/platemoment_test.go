package plate

import (
	"fmt"
	"testing"
)

// moments returns what the plate carries at the middle of a cell, N, positive
// where the lower face is stretched.
func (m *mesh) moments(u []float64, i, j int) (mx, my float64) {
	x0, x1, y0, y1 := m.g.xs[i], m.g.xs[i+1], m.g.ys[j], m.g.ys[j+1]
	var q [4][perSkin]float64
	for c, n := range m.corners(i, j) {
		copy(q[c][:], u[n*perNode:n*perNode+perSkin])
	}
	s := m.skins[0].middle(q, x1-x0, y1-y0, SkinStress{})
	return -s.MX, -s.MY
}

// Moments under an even load, in parts of q·a², at the middle: both ways, and of
// the clamped plate at the middle of its long edge. Seen at cells that come as
// near as half a cell: the middle is a summit, so the error falls as h²; the edge is
// drawn on from the two cells next to it, with the same error. Source: the series
// and the Ritz solutions of TestThinPlates and TestCornersAndRails; the simply
// supported ones are Table 8 of Timoshenko and Woinowsky-Krieger, Theory of Plates
// and Shells (table number from memory).
func TestPlateMoments(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		hold       hold
		nu, ba     float64
		mx, my, me float64 // me at the edge; 0 is not told
	}{
		{simple, .3, 1, .0478864, .0478864, 0},
		{simple, .3, 1.2, .0626818, .0500809, 0},
		{simple, .3, 1.5, .0811601, .0498427, 0},
		{simple, .3, 2, .1016831, .0463503, 0},
		{simple, .3, 3, .1188605, .0406266, 0},
		{simple, .3, 5, .1246245, .0377453, 0},
		{simple, .3, endless, .125, .0375, 0},
		{clamped, .3, 1, .022905, .022905, -.051334},
		{clamped, .3, 1.2, .029972, 0, -.063897},
		{clamped, .3, 1.5, .036771, 0, -.07566},
		{clamped, .3, 2, .041155, 0, -.08286},
		{corners, .3, 1, .111711, .111711, 0},
		{corners, .25, 1, .110739, .110739, 0},
		{corners, 0, 1, .105814, .105814, 0},
	} {
		const a = 400.0
		b := a * c.ba
		var v [3][3]float64 // by what, by mesh
		for k, n := range [3]int{4, 8, 16} {
			m := part(isotropic(c.nu, kirchhoff), a, b, n, c.hold, false)
			u := m.solve(t, m.load(1/(a*a), a/2, b/2, a, b))
			last := len(m.g.ys) - 2
			v[0][k], v[1][k] = m.moments(u, n-1, last)
			first, _ := m.moments(u, 0, last)
			second, _ := m.moments(u, 1, last)
			v[2][k] = 1.5*first - 0.5*second
		}
		for i, want := range [3]float64{c.mx, c.my, c.me} {
			if want == 0 {
				continue
			}
			name := fmt.Sprintf("hold %d, ν %g, b/a %g, moment %d", c.hold, c.nu, c.ba, i)
			nearRel(t, name, (4*v[i][2]-v[i][1])/3, want, 2e-3)
			nearRel(t, name+", finest mesh", v[i][2], want, 0.013)
		}
	}
}

// A square plate clamped along x = 0 alone, even load: the middle of its tip sags by
// .129074·q·a⁴/D; a load in the middle of a plate on its corners moves the
// middles of its edges by .0229131·P·a²/D, and in the middle of a plate half as wide
// as its span between two rails itself by .0438·P·a²/D (three digits). Source: Ritz in Legendre polynomials, ν .3.
func TestCantileverPlate(t *testing.T) {
	t.Parallel()
	const a = 400.0
	l := isotropic(0.3, kirchhoff)
	d := l.stiffness().d11
	var tip, edge, narrow [3]float64
	for k, n := range [3]int{4, 8, 16} {
		m := skinAlone(l, even(a, 2*n), even(a/2, n))
		for i := range m.g.xs {
			for j := range m.g.ys {
				m.fix(i, j, dofU, dofV)
				if i == 0 {
					m.fix(i, j, dofW, dofBX, dofBY)
				}
				if j == n {
					m.fix(i, j, dofBY)
				}
			}
		}
		tip[k] = m.down(m.solve(t, m.load(1/(a*a*a*a), a/2, a/2, a, a)), a, a/2) * d

		m = part(l, a, a, n, corners, false)
		f := make([]float64, len(m.held))
		f[m.g.node(n, n)*perNode+dofW] = -0.25 / (a * a)
		edge[k] = m.down(m.solve(t, f), a/2, 0) * d
	}
	for k, n := range [3]int{4, 8, 16} {
		m := part(l, a, a/2, n, rails, false)
		f := make([]float64, len(m.held))
		f[m.g.node(n, len(m.g.ys)-1)*perNode+dofW] = -0.25 / (a * a)
		narrow[k] = m.down(m.solve(t, f), a/2, a/4) * d
	}
	nearRel(t, "narrow plate on rails under a point load", narrow[2], .0438, 2e-3)
	limit, _ := richardson(tip)
	nearRel(t, "tip", limit, .129074, 3e-4)
	limit, _ = richardson(edge)
	nearRel(t, "edge of a plate on corners under a point load", limit, .0229131, 3e-4)
}
