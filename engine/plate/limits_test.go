package plate

import (
	"context"
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// bothSkins names the unknowns of both skins.
func bothSkins(dofs ...int) []int {
	out := append([]int(nil), dofs...)
	for _, d := range dofs {
		out = append(out, d+perSkin)
	}
	return out
}

// Rigid motions cost no energy in a whole panel: unequal skins, ribs both ways,
// one of them thin, rims on all sides, a block.
func TestPanelRigid(t *testing.T) {
	t.Parallel()
	p := smallPanel()
	m := &mesh{assembleOn(context.Background(), p, newGrid(p)), nil}
	for i, f := range rigids {
		u := m.field(func(x, y, z float64) [perSkin]float64 { return f(x, y, z) })
		r := m.times(u)
		e, size := 0.0, 0.0
		for d, v := range u {
			e += v * r[d]
			size += m.k.At(d, d) * v * v
		}
		near(t, fmt.Sprintf("energy of rigid motion %d", i), e/size, 0, 1e-13)
	}
}

// field puts a displacement, a function of place, on both skins; z is counted
// from the middle of the core.
func (m *mesh) field(f func(x, y, z float64) [perSkin]float64) []float64 {
	u := make([]float64, m.g.nodes()*perNode)
	zs := [2]float64{m.p.Height/2 + m.p.Top.T/2, -m.p.Height/2 - m.p.Bottom.T/2}
	for i, x := range m.g.xs {
		for j, y := range m.g.ys {
			for skin, z := range zs {
				v := f(x, y, z)
				copy(u[m.g.node(i, j)*perNode+skin*perSkin:], v[:])
			}
		}
	}
	return u
}

// smallPanel has everything a panel can have, nothing equal to anything else.
func smallPanel() *Panel {
	top, bottom := ply, ply
	bottom.T, bottom.Ex, bottom.Nu = 6, 7300, 0.2
	w := Web{B: 12, E: 9300, EUp: 8000, G: 540, GRoll: 60, Own: 0.72, Height: 80}
	thin, wide := w, w
	thin.B, wide.B, wide.E = 0.4, 25, 7000
	p := &Panel{X0: 10, X1: 730, Y0: 10, Y1: 430, Top: top, Bottom: bottom, Height: 80, Divide: 1,
		Along:  []Rib{{16, w}, {190, wide}, {424, w}},
		Across: []Rib{{22.5, wide}, {250, thin}, {500, w}, {724, w}},
		Fills:  []Fill{{X0: 300, X1: 420, Y0: 60, Y1: 150, Ex: 9000, Ey: 400, EUp: 400, G: 600, Gz: 500}},
	}
	band := Web{B: 10, E: 11000, EUp: 500, G: 700, GRoll: 60, Own: 1}
	for s := Left; s <= Back; s++ {
		p.Rims = append(p.Rims, Rim{s, band})
	}
	for i, x := range []float64{60, 660} {
		for j, y := range []float64{50, 390} {
			p.Pads = append(p.Pads, Pad{Name: fmt.Sprint(i, j), X: x, Y: y, SX: 70, SY: 50, K: 10})
		}
	}
	return p
}

// quarterPanel holds a quarter of a panel, simply supported on x = 0 and y = 0
// over its whole depth, symmetric about the far edges.
func quarterPanel(p *Panel, a, b float64, n int) *mesh {
	m := panelOn(p, even(a/2, n), even(b/2, n))
	m.edges(func(i, j int, _, _ bool) {
		if i == 0 {
			m.fix(i, j, bothSkins(dofW, dofV, dofBY)...)
		}
		if j == 0 {
			m.fix(i, j, bothSkins(dofW, dofU, dofBX)...)
		}
		if i == n {
			m.fix(i, j, bothSkins(dofU, dofBX)...)
		}
		if j == n {
			m.fix(i, j, bothSkins(dofV, dofBY)...)
		}
	})
	return m
}

// rigidCore fills the whole panel with a core that keeps the skins together
// and apart and carries nothing in its plane.
func rigidCore(gz float64) []Fill {
	return []Fill{{X0: -1e4, X1: 1e4, Y0: -1e4, Y1: 1e4, EUp: 1e5, Gz: gz}}
}

// A panel on simple supports under an even load, against plate theory: the
// limits that a hollow panel has.
func TestPanelAsPlate(t *testing.T) {
	t.Parallel()
	const a = 400.0
	even0 := isotropic(0, kirchhoff)
	for _, c := range []struct {
		name   string
		skin   Layer
		height float64
		fills  []Fill
		want   float64 // at the centre under 1 MPa
	}{
		// No gap, rigidly joined: one plate of twice the thickness.
		{"closed gap", isotropic(0.3, kirchhoff), 1e-3, rigidCore(100), .00406235 * a * a * a * a / (1e4 * 8000 / 12 / .91)},
		// Rigid in shear: D = (2·t³/12 + t·d²/2)·E/(1 − ν²), d = 60.
		{"sandwich", isotropic(0.3, kirchhoff), 50, rigidCore(1e7), .00406235 * a * a * a * a / (1e4 * (2*1000/12.0 + 10*60*60/2) / .91)},
		// A block of the skins' own material: a solid plate of the whole depth, 50.
		{"solid", even0, 30, []Fill{{X0: -1, X1: 500, Y0: -1, Y1: 500, Ex: 1e4, Ey: 1e4, G: 5e3, EUp: 1e8, Gz: 1e7}}, .00406235 * a * a * a * a / (1e4 * 125000 / 12.0)},
		// A soft core: bending and shear.
		{"soft core", isotropic(0.3, kirchhoff), 50, rigidCore(20), softCore(a, 1e4/.91, 10, 50, 20)},
	} {
		var v [3]float64
		for i, n := range [3]int{6, 12, 24} {
			p := &Panel{Top: c.skin, Bottom: c.skin, Height: c.height, Fills: c.fills}
			m := quarterPanel(p, a, a, n)
			v[i] = m.down(m.solve(t, m.load(1, a/2, a/2, a, a)), a/2, a/2)
		}
		limit, order := richardson(v)
		nearRel(t, c.name+": limit", limit, c.want, 2e-4)
		near(t, c.name+": order", order, 2, 0.2)
	}
}

// softCore returns the centre sag of a simply supported square sandwich of
// side a under 1 MPa, faces of modulus e (that of a plate) and thickness t on a
// core h with shear modulus g: for a wave number k the stiffness is
//
//	k⁴·(D_faces + D_0/(1 + k²·D_0/S)), D_0 = e·t·d²/2, S = g·d²/h
//
// Source: H. G. Allen, Analysis and Design of Structural Sandwich Panels (1969),
// thick faces (from memory).
func softCore(a, e, t, h, g float64) float64 {
	d := h + t
	own, d0, s := e*2*t*t*t/12, e*t*d*d/2, g*d*d/h
	sum := 0.0
	for m := 1; m < 200; m += 2 {
		for n := 1; n < 200; n += 2 {
			k2 := (float64(m*m) + float64(n*n)) * math.Pi * math.Pi / (a * a)
			q := 16 / (math.Pi * math.Pi * float64(m) * float64(n))
			sign := 1.0
			if (m+n)/2%2 == 0 {
				sign = -1
			}
			sum += sign * q / (k2 * k2 * (own + d0/(1+k2*d0/s)))
		}
	}
	return sum
}

// A box beam: b = 300, skins 12 of E 7000, clear height 75, three webs 12 thick
// of E 3500 and G 600, span 1200, 1 N/mm all along. By hand: EI =
// 9.536940e10 + 6.048e8 + 4.429688e9 = 1.004039e11 N·mm² and bending alone
// .268914 mm; S = G·b·d²/h = 600·36·87²/75 = 2.179872e6 N. The sum of both is
// sharpened by [boxBeam], which adds that the skins bend with the slope.
// The skins are made stiff in their plane in shear and across, so that it is a
// beam.
func TestBoxBeam(t *testing.T) {
	t.Parallel()
	const length, width = 1200.0, 300.0
	skin := Layer{T: 12, Ex: 7000, Ey: 7000, EBendX: 7000, EBendY: 1e9, G: 1e8, GRoll: 1e12}
	web := Web{B: 12, E: 3500, EUp: 1e7, G: 600, GRoll: 1e6, Own: 1, Height: 75}
	simple := 0.268914 + length*length/(8*2.179872e6)
	want := boxBeam(length, width)
	nearRel(t, "the series against bending plus shear", want, simple, 0.003)
	var v [3]float64
	for i, n := range [3]int{4, 8, 16} {
		p := &Panel{Top: skin, Bottom: skin, Height: 75, Along: []Rib{{50, web}, {150, web}, {250, web}}}
		m := panelOn(p, even(length, n), []float64{0, 44, 56, 144, 156, 244, 256, 300})
		for i := range m.g.xs {
			for j := range m.g.ys {
				m.fix(i, j, bothSkins(dofV)...)
				if i == 0 || i == n {
					m.fix(i, j, bothSkins(dofW)...)
				}
				if i == n/2 {
					m.fix(i, j, bothSkins(dofU, dofBX)...)
				}
			}
		}
		v[i] = m.down(m.solve(t, m.load(1/width, length/2, width/2, length, width)), length/2, width/2)
	}
	limit, order := richardson(v)
	nearRel(t, "box beam", limit, want, 2e-4)
	near(t, "order", order, 2, 0.2)
}

// boxBeam returns the mid-span sag of the box beam term by term: the skins
// slide by ±U·cos kx and sag by W·sin kx, and U and W make the energy least.
func boxBeam(length, width float64) float64 {
	const e, t, h, ew, gw, aw = 7000.0, 12.0, 75.0, 3500.0, 600.0, 36 * 75.0
	sum := 0.0
	for m := 1; m < 100; m += 2 {
		k := float64(m) * math.Pi / length
		// rows over (U, W) and what each costs, ½·c·row²
		cost := []struct{ u, w, c float64 }{
			{k, 0, 2 * e * width * t},                  // skins stretch
			{0, k * k, 2 * e * width * t * t * t / 12}, // skins bend
			{k, k * k * t / 2, ew * aw / 3},            // webs stretch, linear over the height
			{2 / h, k*t/h + k, gw * aw},                // webs shear
		}
		s := mat.NewDense(2, 2, nil)
		for _, c := range cost {
			s.Set(0, 0, s.At(0, 0)+c.c*c.u*c.u)
			s.Set(0, 1, s.At(0, 1)+c.c*c.u*c.w)
			s.Set(1, 0, s.At(0, 1))
			s.Set(1, 1, s.At(1, 1)+c.c*c.w*c.w)
		}
		var x mat.VecDense
		if err := x.SolveVec(s, mat.NewVecDense(2, []float64{0, 4 / (math.Pi * float64(m))})); err != nil {
			panic(err)
		}
		sum += x.AtVec(1) * math.Sin(k*length/2)
	}
	return sum
}

// Torsion of a closed box, twisted at a rate κ with its section kept and free
// to warp: 4A²/Σ(s/Gt), webs 18 of G 600 at ±291, skins 9 of G 500, d = 91. The
// flow reaches a web over its width, so that the mesh sees half the flow
// between its faces: s of a skin is 564 + 18/2 = 573; s of a web is its clear
// height 82. To it come the parts' own G·b·t³/3. Source: Bredt, textbook; with
// s = 582 and 91 the same box is worked by hand to 4.072283e10 N·mm².
func TestBoxTorsion(t *testing.T) {
	t.Parallel()
	skin := Layer{T: 9, Ex: 7000, Ey: 7000, EBendX: 7000, EBendY: 7000, G: 500, GRoll: 60}
	web := Web{B: 18, E: 3500, EUp: 3500, G: 600, GRoll: 60, Own: 1, Height: 82}
	p := &Panel{Top: skin, Bottom: skin, Height: 82, Along: []Rib{{-291, web}, {291, web}}}
	gj := twisted(t, p, []float64{-300, -282, -100, 55, 282, 300})
	area := 582 * 91.0
	want := 4*area*area/(2*573/(500*9.0)+2*82/(600*18.0)) + 2*500*600*9*9*9/3.0 + 2*600*82*18*18*18/3.0
	nearRel(t, "GJ", gj, want, 1e-9)
	nearRel(t, "GJ against the hand-worked box", gj, 4.072283e10, 0.04)
}

// twisted returns the torsional stiffness GJ about x of a panel meshed on lines ys:
// turned at a rate κ with its section kept and free to warp, N·mm².
func twisted(t *testing.T, p *Panel, ys []float64) float64 {
	t.Helper()
	const length, k = 100.0, 1e-6
	m := panelOn(p, []float64{0, length}, ys)
	u := m.field(func(x, y, z float64) [perSkin]float64 {
		return [perSkin]float64{0, -k * x * z, k * x * y, -k * y, -k * x}
	})
	for d := range m.held {
		m.held[d] = d%perSkin != dofU
	}
	m.held[dofU] = true // the twist leaves a shift along x free
	f := m.times(u)
	for d := range f {
		f[d] = -f[d]
	}
	for d, v := range m.solve(t, f) {
		u[d] += v
	}
	e := 0.0
	for d, v := range m.times(u) {
		e += u[d] * v / 2
	}
	return e / (k * k * length / 2)
}

// A rim holds the middle planes over the whole depth: as a beam alone along a
// panel's edge its states cost what a web of that height costs.
func TestRim(t *testing.T) {
	t.Parallel()
	w := Web{B: 20, E: 9000, EUp: 400, G: 650, GRoll: 60, Own: 1}
	soft := ply
	for _, side := range []Side{Left, Right, Front, Back} {
		p := &Panel{Top: soft, Bottom: soft, Height: 71, Rims: []Rim{{side, w}}}
		q := &Panel{Top: soft, Bottom: soft, Height: 71}
		xs, ys := []float64{0, 90, 200}, []float64{0, 50, 75, 140}
		with, without := panelOn(p, xs, ys), panelOn(q, xs, ys)
		l, at := 200.0, 0.0
		if side == Left || side == Right {
			l = 140
		}
		switch side {
		case Right:
			at = 200
		case Back:
			at = 140
		}
		along := func(x, y float64) float64 {
			if side == Left || side == Right {
				x, y = y, x
			}
			return x * math.Exp(-1e3*math.Abs(y-at)) // only on the rim's own line
		}
		field := func(x, y, z float64) (v [perSkin]float64) {
			d := dofU
			if side == Left || side == Right {
				d = dofV
			}
			v[d] = 1e-3 * along(x, y) * (1 + z/80) // strain 2e-3 at the top, 0 at the bottom
			return v
		}
		u := with.field(field)
		e := 0.0
		a, b := with.times(u), without.times(u)
		for d, v := range u {
			e += v * (a[d] - b[d]) / 2
		}
		// d = 80; mean of ε² over the height, ε from .5e-3 to 1.5e-3: 1e-6·(1 + 1/12); shear:
		// the skins slide by 1e-3·x over 80: G·γ² with mean x².
		want := 20 * 80 * l / 2 * (9000*1e-6*(1+1/12.0) + 650*1e-6*l*l/3/6400)
		nearRel(t, fmt.Sprintf("rim on side %d", side), e, want, 1e-9)
	}
}
