package plate

import (
	"fmt"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// simplePanel returns w at the middle of a panel a × b held along its edges under
// 1 MPa, drawn on from three meshes.
func simplePanel(t *testing.T, p Panel, a, b float64) float64 {
	t.Helper()
	var v [3]float64
	for i, n := range [3]int{6, 12, 24} {
		q := p
		m := quarterPanel(&q, a, b, n)
		v[i] = m.down(m.solve(t, m.load(1, a/2, b/2, a, b)), a/2, b/2)
	}
	return (4*v[2] - v[1]) / 3 // error ~ h², see TestPanelAsPlate
}

// Panels that are plates: with no gap and rigidly joined, one of twice the
// thickness. Source: Navier's series, as in TestThinPlates and
// TestOrthotropicPlates.
func TestClosedGapIsAPlate(t *testing.T) {
	t.Parallel()
	const a = 400.0
	iso := isotropic(0.3, kirchhoff)
	for _, c := range []struct{ ba, alpha float64 }{{1.2, .00565053}, {1.5, .00772402}, {2, .01012866}, {3, .01223281}} {
		p := Panel{Top: iso, Bottom: iso, Height: 1e-3, Fills: rigidCore(100)}
		d := 8 * iso.stiffness().d11
		nearRel(t, fmt.Sprintf("b/a %g", c.ba), simplePanel(t, p, a, a*c.ba)*d/(a*a*a*a), c.alpha, 4e-4)
	}
	for _, c := range []struct{ ba, dy, h, alpha float64 }{{1, .5, .5, .00650548}, {1, .25, .5, .00717909}, {2, .5, .25, .01327003}, {1.5, .6, .4, .01087135}} {
		l := orthotropic(1e6, c.dy*1e6, c.h*1e6, 0.2)
		l.Ex, l.Ey = l.EBendX, l.EBendY
		p := Panel{Top: l, Bottom: l, Height: 1e-3, Fills: rigidCore(100)}
		nearRel(t, fmt.Sprintf("b/a %g, Dy %g, H %g", c.ba, c.dy, c.h), simplePanel(t, p, a, a*c.ba)*8e6/(a*a*a*a), c.alpha, 4e-4)
	}
}

// Thin skins on a core that shears: α·q·a⁴/D + β·q·a²/S with D = E·t·d²/(2·(1 − ν²))
// and S = G·d²/h, d = h + t; half and nine tenths of the sag are shear. Source: the
// series of TestShearSoftPlates; D and S as in Allen, Analysis and Design of
// Structural Sandwich Panels (1969), from memory. What the skins bend for
// themselves is left out; against the core's shear it is less than a ten thousandth.
func TestSandwichOfThinSkins(t *testing.T) {
	t.Parallel()
	const a, skin, h, d = 400.0, 0.2, 50.0, 50.2
	l := isotropic(0.3, kirchhoff)
	l.T = skin
	bend := 1e4 * skin * d * d / 2 / .91
	for _, c := range []struct{ ba, alpha, beta float64 }{
		{1, .00406235, .07367135}, {1.5, .00772402, .10077138}, {2, .01012866, .11387183}, {3, .01223281, .12268239},
	} {
		for _, share := range []float64{.5, .9} {
			byBending := c.alpha * a * a * a * a / bend
			s := c.beta * a * a / (byBending * share / (1 - share))
			p := Panel{Top: l, Bottom: l, Height: h, Fills: rigidCore(s * h / (d * d))}
			nearRel(t, fmt.Sprintf("b/a %g, shear %g", c.ba, share), simplePanel(t, p, a, a*c.ba), byBending/(1-share), 8e-4)
		}
	}
}

// Inner ribs hardly change what twists a closed box: mid-line 582 × 91, skins 9 of
// G 500, sides 18 of G 600, webs 9 thick between. Bredt's cells, by hand: 4.072283e10
// N·mm² of one cell and of two alike (no flow in the middle web), 4.091944e10 of six.
// In the mesh the flow changes from cell to cell over a rib's width, and webs are as
// high as the core: [cells]. A rib's own G·b³·h/3 is taken off.
func TestInnerRibsHardlyTwist(t *testing.T) {
	t.Parallel()
	skin := Layer{T: 9, Ex: 7000, Ey: 7000, EBendX: 7000, EBendY: 7000, G: 500, GRoll: 60}
	side := Web{B: 18, E: 3500, EUp: 3500, G: 600, GRoll: 60, Own: 1, Height: 82}
	inner := side
	inner.B = 9
	gj := func(at ...float64) float64 {
		p := &Panel{Top: skin, Bottom: skin, Height: 82, Along: []Rib{{-291, side}}}
		ys := []float64{-300, -282}
		for _, y := range at {
			p.Along = append(p.Along, Rib{y, inner})
			ys = append(ys, y-4.5, y+4.5)
		}
		p.Along = append(p.Along, Rib{291, side})
		own := 2*500*600*9*9*9/3.0 + 2*side.twist() + float64(len(at))*inner.twist()
		return twisted(t, p, append(ys, 282, 300)) - own
	}
	one, two, six := gj(), gj(0), gj(-194, -97, 0, 97, 194)
	nearRel(t, "one cell", one, cells(t, 1), 1e-9)
	nearRel(t, "two cells", two, cells(t, 2), 1e-9)
	nearRel(t, "six cells", six, cells(t, 6), 1e-9)
	nearRel(t, "two cells are one", two, one, 1e-9)
	nearRel(t, "six cells against the hand-worked box", six/one, 4.091944/4.072283, 3e-3)
}

// cells returns GJ of that box of n equal cells by the flows q round them: twisted at
// a rate of 1 the flows make Σ(s/Gt)·q² stationary against 2·A·q, and GJ is Σ2·A·q. Over
// the width of a rib the skins carry the mean of the flows on either side.
func cells(t *testing.T, n int) float64 {
	t.Helper()
	wide := 582 / float64(n)
	c := mat.NewDense(n, n, nil)
	pay := func(s float64, row []float64) { // s/Gt for a flow Σ row·q
		for i, a := range row {
			for j, b := range row {
				c.Set(i, j, c.At(i, j)+s*a*b)
			}
		}
	}
	load := mat.NewVecDense(n, nil)
	for i := range n {
		load.SetVec(i, 2*wide*91)
		row := func(here, next float64) []float64 {
			r := make([]float64, n)
			r[i] = here
			if i+1 < n {
				r[i+1] = next
			}
			return r
		}
		clear := wide - 9 // between two inner webs
		for _, end := range [2]bool{i == 0, i == n-1} {
			if end { // half of the flow over 18 mm of skin, and the side
				clear -= 4.5
				pay(2*18/(500*9.), row(0.5, 0))
				pay(82/(600*18.), row(1, 0))
			}
		}
		pay(2*clear/(500*9), row(1, 0))
		if i+1 < n {
			pay(2*9/(500*9.), row(0.5, 0.5))
			pay(82/(600*9.), row(1, -1))
		}
	}
	var q mat.VecDense
	if err := q.SolveVec(c, load); err != nil {
		t.Fatal(err)
	}
	return mat.Dot(load, &q)
}
