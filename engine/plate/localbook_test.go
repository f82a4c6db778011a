package plate

import (
	"math"
	"testing"
)

// sixMillimetres is a skin of 6 mm, E 7000, ν .3: D = 7000·216/(12·.91) = 138 461.5
// N·mm by hand.
func sixMillimetres() Layer {
	const e, nu = 7000.0, 0.3
	g := e / (2 * (1 + nu))
	return Layer{T: 6, Ex: e, Ey: e, EBendX: e, EBendY: e, G: g, GRoll: kirchhoff * g, Nu: nu}
}

// What one bay of that skin sags, clamped along its ribs: 500 N at the middle, .005612·
// P·s²/D (Ritz, derived), so .20266, .45598 and .81062 mm for bays of 100, 150 and 200;
// 1 kPa, .00126532·q·s⁴/D, so .000914, .004626 and .014621 mm.
func TestSkinInAClampedBay(t *testing.T) {
	t.Parallel()
	nearRel(t, "D", sixMillimetres().stiffness().d11, 138461.5, 1e-6)
	for _, c := range []struct{ s, point, even float64 }{{100, .20266, .000914}, {150, .45598, .004626}, {200, .81062, .014621}} {
		var v [2][3]float64
		for i, n := range [3]int{4, 8, 16} {
			m := part(sixMillimetres(), c.s, c.s, n, clamped, false)
			f := make([]float64, len(m.held))
			f[m.g.node(n, n)*perNode+dofW] = -500. / 4
			v[0][i] = m.down(m.solve(t, f), c.s/2, c.s/2)
			v[1][i] = m.down(m.solve(t, m.load(1e-3, c.s/2, c.s/2, c.s, c.s)), c.s/2, c.s/2)
		}
		point, _ := richardson(v[0])
		even, _ := richardson(v[1])
		nearRel(t, "500 N", point, c.point, 6e-4) // as in bookCase.check
		nearRel(t, "1 kPa", even, c.even, 6e-4)
	}
}

// The stress at which it buckles between ribs that clamp its long sides, k = 6.97160
// for a bay twice as long (series, derived): 158.785, 70.571 and 39.696 MPa for 100, 150
// and 200 mm. Goes with 1/s², so one mesh serves for all.
func TestSkinBucklesInAClampedBay(t *testing.T) {
	t.Parallel()
	const s = 150.0
	var v [2]float64
	for i, n := range [2]int{8, 16} {
		m := skinAlone(sixMillimetres(), even(2*s, 2*n), even(s, n))
		for i := range m.g.xs {
			for j := range m.g.ys {
				m.fix(i, j, dofU, dofV)
				if i == 0 || i == 2*n {
					m.fix(i, j, dofW, dofBY)
				}
				if j == 0 || j == n {
					m.fix(i, j, dofW, dofBX, dofBY)
				}
			}
		}
		v[i] = m.buckles(t, pressed{x: 1}) / 6
	}
	limit := (4*v[1] - v[0]) / 3
	for _, c := range []struct{ s, want float64 }{{100, 158.785}, {150, 70.571}, {200, 39.696}} {
		nearRel(t, "clamped along the ribs", limit*math.Pow(s/c.s, 2), c.want, 1e-3)
	}
}
