package plate

import (
	"math"
	"testing"
)

// A strip of skin held at both ends under an even load, cut along its length and meshed
// through its thickness: second method for what the warped section adds to the
// stress of its moment, at every height of the section at its middle. A sheet that is
// soft in rolling shear, as ply is.
func TestWarpAgainstTheSection(t *testing.T) {
	t.Parallel()
	const e, g, thick, span, q = 9000.0, 70.0, 9.0, 160.0, 0.3
	m := skinAlone(Layer{T: 1, Ex: e, Ey: 1e5, EBendX: e, EBendY: e, G: g, GRoll: g, EZ: e}, even(span/2, 80), even(thick, 24))
	f := make([]float64, len(m.held))
	last, top := len(m.g.xs)-1, len(m.g.ys)-1
	for i := range m.g.xs {
		for j := range m.g.ys {
			m.fix(i, j, dofW, dofBX, dofBY)
		}
		share := span / 2 / float64(last)
		if i == 0 || i == last {
			share /= 2
		}
		f[m.g.node(i, top)*perNode+dofV] = -q * share
	}
	for j := range m.g.ys {
		m.fix(0, j, dofU, dofV)
		m.fix(last, j, dofU)
	}
	u := m.solve(t, f)
	high := thick / float64(top)
	at := func(j int) (z, stress float64) {
		var c [4][perSkin]float64
		for k, n := range m.corners(last-1, j) {
			copy(c[k][:], u[n*perNode:n*perNode+perSkin])
		}
		return (float64(j)+0.5)*high - thick/2, m.skins[0].middle(c, m.g.xs[last]-m.g.xs[last-1], high, SkinStress{}).NX
	}
	moment := 0.0
	for j := range top {
		z, s := at(j)
		moment += s * z * high
	}
	for j := range top {
		z, s := at(j)
		// As [plateStiffness.warp] at the faces, with the same parabola inside.
		warped := -q * e / g * 1.5 * (4.0/3*z*z*z/(thick*thick*thick) - z/thick/5)
		near(t, "stress through the section", s, 12*moment*z/(thick*thick*thick)+warped, 0.02*q*e/g/10)
	}
	// By hand: in a held strip the middle has q·L²/24 however soft it shears.
	nearRel(t, "moment", moment, -q*span*span/24, 0.005)
}

// Shear forces that change evenly, by hand: 12·D/t³ = E/(1 − ν²) and ν of it from the
// other way; −Q,x·E/(10·G) at the upper face. A rib between cells breaks the slope, and
// a cell alone has none.
func TestWarpByHand(t *testing.T) {
	t.Parallel()
	l := Layer{T: 9, Ex: 9000, Ey: 7000, EBendX: 9000, EBendY: 7000, G: 620, GRoll: 70, EZ: 600, Nu: 0.08}
	p := l.stiffness()
	const rows = 3
	places := []float64{5, 20, 50, 90} // uneven
	var cells []SkinStress
	var plain []bool
	for i, x := range places {
		for j := range rows {
			y := 8 + 11*float64(j)
			cells = append(cells, SkinStress{X: x, Y: y, SX: 10, SY: 10, NX: 18, MX: 4, MY: -2, QX: 1 + 0.02*x, QY: 3 - 0.05*y, Rib: i == 2})
			plain = append(plain, i != 2)
		}
	}
	p.warp(cells, plain, rows)
	f := 1 - l.Nu*l.Nu*7000/9000
	ex, ey := 0.02/(10*70), -0.05/(10*70)
	alone := 9000 / f * l.Nu * 7000 / 9000 * ey
	for i, s := range cells {
		x, y := s.Upper(9)
		lx, ly := s.Lower(9)
		wantX, wantY := 9000/f*ex+alone, 7000/f*(ey+l.Nu*ex)
		switch i / rows {
		case 2:
			wantX, wantY = 0, 0
		case 3: // beyond the rib, no neighbour along x
			wantX, wantY = alone, 7000/f*ey
		}
		nearRel(t, "upper along x", x, 2+6*4/81.-wantX, 1e-9)
		nearRel(t, "upper along y", y, -6*2/81.-wantY, 1e-9)
		nearRel(t, "lower along x", lx, 2-6*4/81.+wantX, 1e-9)
		nearRel(t, "lower along y", ly, 6*2/81.+wantY, 1e-9)
		near(t, "moment", s.MX, 4, 0)
	}
}

// The slope of a parabola is met whatever the gaps: Q = x², 2·x at the middle one.
func TestSlopeOfCells(t *testing.T) {
	t.Parallel()
	at := func(x float64) *SkinStress { return &SkinStress{X: x, QX: x * x} }
	of := func(s *SkinStress) (float64, float64) { return s.X, s.QX }
	near(t, "three", slope(at(1), at(3), at(10), of), 6, 1e-12)
	near(t, "two, before", slope(at(1), at(3), nil, of), 4, 1e-12)
	near(t, "two, after", slope(nil, at(3), at(10), of), 13, 1e-12)
	if v := slope(nil, at(3), nil, of); v != 0 || math.IsNaN(v) {
		t.Errorf("alone: %g; want 0", v)
	}
}
