package plate

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// isotropic is a sheet of one modulus; its through-thickness shear modulus is
// stiff times that of the material.
func isotropic(nu, stiff float64) Layer {
	const e = 1e4
	g := e / (2 * (1 + nu))
	return Layer{T: 10, Ex: e, Ey: e, EBendX: e, EBendY: e, G: g, GRoll: stiff * g, Nu: nu}
}

// kirchhoff makes a sheet so stiff in shear that it is a thin plate.
const kirchhoff = 1e9

// hold says what a plate's edges x = const and y = const are on.
type hold int

const (
	simple  hold = iota // w and the slope along the edge are zero
	clamped             // and the slope across it
	corners             // w is zero at the corners only
	rails               // edges x = const simple, the others free
)

// part meshes a quarter of a plate a × b, or with whole the half x ≤ a/2, n
// elements on a/2, about square, and takes symmetry into account.
func part(l Layer, a, b float64, n int, h hold, whole bool) *mesh {
	height := b / 2
	if whole {
		height = b
	}
	ny := max(2, int(math.Round(2*height/a*float64(n))))
	m := skinAlone(l, even(a/2, n), even(height, ny))
	for i := range m.g.xs {
		for j := range m.g.ys {
			m.fix(i, j, dofU, dofV)
		}
	}
	m.edges(func(i, j int, _, _ bool) {
		left, front := i == 0, j == 0 || whole && j == ny
		if i == n {
			m.fix(i, j, dofBX)
		}
		if !whole && j == ny {
			m.fix(i, j, dofBY)
		}
		switch h {
		case corners:
			if left && front {
				m.fix(i, j, dofW)
			}
			return
		case rails:
			front = false
		}
		if left {
			m.fix(i, j, dofW, dofBY)
		}
		if front {
			m.fix(i, j, dofW, dofBX)
		}
		if h == clamped && (left || front) {
			m.fix(i, j, dofBX, dofBY)
		}
	})
	return m
}

// bookCase is one row: wanted is w·D/(q·a⁴) or w·D/(P·a²) at a place given in
// parts of a and b.
type bookCase struct {
	name   string
	l      Layer
	ba     float64
	hold   hold
	load   float64 // side of a central patch in parts of a; 0 a point, 1 all over
	x, y   float64
	wanted float64
}

func (c bookCase) at(t *testing.T, n int) float64 {
	const a = 400.0
	b := a * c.ba
	m := part(c.l, a, b, n, c.hold, false)
	d := c.l.stiffness().d11
	var f []float64
	scale := d / (a * a) // of P = 1 N
	switch c.load {
	case 0:
		f = make([]float64, len(m.held))
		f[m.g.node(n, len(m.g.ys)-1)*perNode+dofW] = -0.25
	case 1:
		f = m.load(1, a/2, b/2, a, b)
		scale /= a * a
	default:
		f = m.load(1/(c.load*a*c.load*a), a/2, b/2, c.load*a, c.load*a)
	}
	return scale * m.down(m.solve(t, f), c.x*a, c.y*b)
}

// check runs a case on three meshes, each twice as fine. A spread load must
// converge at the rate of the element, h², to the wanted digits within 2 parts
// in 10 000 (the three meshes' extrapolation is not better where elements pass
// from thin to thick as they get smaller). Under a point load
// the moments are infinite and the rate is h²·log h: there the extrapolation is
// good to 6 in 10 000 and the order to be seen is less.
func (c bookCase) check(t *testing.T) {
	t.Helper()
	var v [3]float64
	for i, n := range [3]int{4, 8, 16} {
		v[i] = c.at(t, n)
	}
	limit, order := richardson(v)
	if c.load == 0 {
		nearRel(t, c.name+": limit", limit, c.wanted, 6e-4)
		nearRel(t, c.name+": finest mesh", v[2], c.wanted, 5e-3)
		near(t, c.name+": order", order, 1.9, 0.7)
		return
	}
	tol := 2e-4
	if c.load < 0.2 { // narrower than the coarsest mesh's elements: half way to a point
		tol = 5e-4
	}
	nearRel(t, c.name+": limit", limit, c.wanted, tol)
	if tol > 2e-4 {
		return
	}
	if math.Abs(v[1]/c.wanted-1) > 1e-4 { // else there is no error left to measure the order by
		near(t, c.name+": order", order, 2, 0.2)
	}
}

// endless is a plate so long that its ends are no longer felt at its middle.
const endless = 8

// Simply supported and clamped thin plates. Source: Navier and Levy series and
// a Ritz solution in Legendre polynomials, summed to the digits shown; the
// uniform rows are those of Timoshenko and Woinowsky-Krieger, Theory of Plates
// and Shells, Tables 8 and 35 (table numbers from memory).
func TestThinPlates(t *testing.T) {
	t.Parallel()
	iso := isotropic(0.3, kirchhoff)
	var rows []bookCase
	add := func(name string, h hold, load float64, v map[float64]float64) {
		for _, ba := range []float64{1, 1.2, 1.4, 1.5, 1.6, 2, 3, 5, endless} {
			if w, ok := v[ba]; ok {
				rows = append(rows, bookCase{fmt.Sprintf("%s b/a %g", name, ba), iso, ba, h, load, 0.5, 0.5, w})
			}
		}
	}
	add("simple, even load", simple, 1, map[float64]float64{1: .00406235, 1.2: .00565053, 1.5: .00772402, 2: .01012866, 3: .01223281, 5: .01297083, endless: 5. / 384})
	add("simple, point", simple, 0, map[float64]float64{1: .01160081, 1.2: .01355596, 1.4: .01486669, 1.6: .01570094, 2: .01652392, 3: .01693392})
	add("simple, patch a/2", simple, .5, map[float64]float64{1: .00852873, 2: .01317952})
	add("simple, patch 3a/10", simple, .3, map[float64]float64{1: .01018629, 2: .01501358})
	add("simple, patch a/5", simple, .2, map[float64]float64{1: .01086406, 2: .01574490})
	add("simple, patch a/10", simple, .1, map[float64]float64{1: .01137060, 2: .01628319})
	add("clamped, even load", clamped, 1, map[float64]float64{1: .00126532, 1.2: .00172487, 1.5: .00219652, 2: .00253296})
	add("clamped, point", clamped, 0, map[float64]float64{1: .005612, 1.5: .007043, 2: .007231})
	for _, c := range rows {
		c.check(t)
	}
}

// Plates on four corners, on two rails with free edges, by a Ritz solution in
// Legendre polynomials taken to the digits shown. The middle of a long free
// edge of a plate on corners sags more than its centre.
func TestCornersAndRails(t *testing.T) {
	t.Parallel()
	for _, c := range []bookCase{
		{"corners, even load", isotropic(0.3, kirchhoff), 1, corners, 1, .5, .5, .0255065},
		{"corners, mid-edge", isotropic(0.3, kirchhoff), 1, corners, 1, .5, 0, .0177474},
		{"corners ν 0", isotropic(0, kirchhoff), 1, corners, 1, .5, .5, .0282045},
		{"corners ν 0, mid-edge", isotropic(0, kirchhoff), 1, corners, 1, .5, 0, .0174281},
		{"corners ν .25", isotropic(0.25, kirchhoff), 1, corners, 1, .5, .5, .0256695},
		{"corners ν .25, mid-edge", isotropic(0.25, kirchhoff), 1, corners, 1, .5, 0, .0174577},
		{"corners 2", isotropic(0.3, kirchhoff), 2, corners, 1, .5, .5, .231162},
		{"corners 2, long edge", isotropic(0.3, kirchhoff), 2, corners, 1, 0, .5, .241841},
		{"corners, point", isotropic(0.3, kirchhoff), 1, corners, 0, .5, .5, .039142},
		{"corners 1.5, point", isotropic(0.3, kirchhoff), 1.5, corners, 0, .5, .5, .08246},
		{"corners 2, point", isotropic(0.3, kirchhoff), 2, corners, 0, .5, .5, .18090},
		{"rails 2, point", isotropic(0.3, kirchhoff), 2, rails, 0, .5, .5, .017446},
		{"corners 1.5", isotropic(0.3, kirchhoff), 1.5, corners, 1, .5, .5, .079825},
		{"corners 1.5, long edge", isotropic(0.3, kirchhoff), 1.5, corners, 1, 0, .5, .080067},
		{"rails .5", isotropic(0.3, kirchhoff), .5, rails, 1, .5, .5, .0137131},
		{"rails .5, edge", isotropic(0.3, kirchhoff), .5, rails, 1, .5, 0, .0146446},
		{"rails 1", isotropic(0.3, kirchhoff), 1, rails, 1, .5, .5, .0130937},
		{"rails 1, edge", isotropic(0.3, kirchhoff), 1, rails, 1, .5, 0, .0150113},
		{"rails 2", isotropic(0.3, kirchhoff), 2, rails, 1, .5, .5, .0128873},
		{"rails 2, edge", isotropic(0.3, kirchhoff), 2, rails, 1, .5, 0, .0152022},
		{"rails 1, point", isotropic(0.3, kirchhoff), 1, rails, 0, .5, .5, .023216},
	} {
		c.check(t)
	}
}

// A point load in the middle of a free edge, plate on two rails: the load's
// own place, the centre and the far edge. Source: the same Ritz solution; its
// digits are those that settle.
func TestFreeEdgePoint(t *testing.T) {
	t.Parallel()
	l := isotropic(0.3, kirchhoff)
	const a = 400.0
	for _, c := range []struct {
		y, want float64
	}{{0, .05939}, {.5, .01942}, {1, .00810}} {
		var v [3]float64
		for i, n := range [3]int{4, 8, 16} {
			m := part(l, a, a, n, rails, true)
			f := make([]float64, len(m.held))
			f[m.g.node(n, 0)*perNode+dofW] = -0.5
			v[i] = m.down(m.solve(t, f), a/2, c.y*a) * l.stiffness().d11 / (a * a)
		}
		limit, _ := richardson(v)
		nearRel(t, fmt.Sprintf("sag at y = %g·a", c.y), limit, c.want, 1e-3)
	}
}

// Orthotropic thin plates, simply supported: w·Dx/(q·a⁴) and w·Dx/(P·a²) with
// Dx = 1, by Navier's series. H = D12 + 2·D66, and the result depends on D12
// and D66 through H only: each row is run with two Poisson ratios.
func TestOrthotropicPlates(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ ba, dy, h, even, point float64 }{
		{1, .5, .5, .00650548, .0184937},
		{1, .1, .1, .01228395, .0380764},
		{1, .25, .5, .00717909, .0211279},
		{2, .5, .25, .01327003, .0246920},
		{1.5, .6, .4, .01087135, .0221328},
		{1, 1. / 16, .25, .01012866, 0}, // Huber's map onto the isotropic plate of b/a = 2
	} {
		for _, nu := range []float64{0, 0.3} {
			l := orthotropic(1e6, c.dy*1e6, c.h*1e6, nu)
			name := fmt.Sprintf("b/a %g Dy %g H %g ν %g", c.ba, c.dy, c.h, nu)
			bookCase{name + " even", l, c.ba, simple, 1, .5, .5, c.even}.check(t)
			if c.point == 0 {
				continue
			}
			bookCase{name + " point", l, c.ba, simple, 0, .5, .5, c.point}.check(t)
		}
	}
}

// orthotropic returns a thin sheet with the given plate stiffnesses.
func orthotropic(dx, dy, h, nu float64) Layer {
	const c = 1000.0 / 12 // t = 10
	f := 1 - nu*nu*dy/dx
	return Layer{T: 10, Ex: 1, Ey: 1, EBendX: dx * f / c, EBendY: dy * f / c, G: (h - nu*dy) / 2 / c, GRoll: 1e12, Nu: nu}
}

// Shear-deformable square plate, simply supported, even load:
// w̄ = w·E·h³/(q·a⁴), κ = 5/6, ν = .3, by series; the rows a/h 5, 10, 20 are those
// of Reddy's table for the first-order theory (from memory).
func TestThickPlates(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ ah, want float64 }{
		{4, .058727}, {5, .053555}, {10, .046659}, {20, .044935}, {50, .044453}, {100, .044384}, {1e4, .044361},
	} {
		l := isotropic(0.3, 1)
		l.T = 400 / c.ah
		toBook := 1e4 * l.T * l.T * l.T / l.stiffness().d11
		bookCase{fmt.Sprintf("a/h %g", c.ah), l, 1, simple, 1, .5, .5, c.want / toBook}.check(t)
	}
}

// Soft in shear: w = α·q·a⁴/D + β·q·a²/S for any D and S. Here half and
// nine tenths of the sag are shear. Source: Navier's α as above and the sum of the shear
// series.
func TestShearSoftPlates(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ ba, alpha, beta float64 }{
		{1, .00406235, .07367135}, {1.5, .00772402, .10077138}, {2, .01012866, .11387183}, {3, .01223281, .12268239},
	} {
		for _, share := range []float64{.5, .9} {
			l := isotropic(0.3, 1)
			const a = 400.0
			bend := c.alpha / l.stiffness().d11 * a * a
			s := c.beta / (bend * share / (1 - share))
			l.GRoll *= s / l.stiffness().s1
			bookCase{fmt.Sprintf("b/a %g, shear %g", c.ba, share), l, c.ba, simple, 1, .5, .5, c.alpha / (1 - share)}.check(t)
		}
	}
}

// navier returns the sag at (x, y) of a simply supported orthotropic plate
// a × b with shear, under 1 MPa on a rectangle: term by term the three
// equations of w = W·sin·sin, βx = A·cos·sin, βy = B·sin·cos that make the energy
//
//	½D11(αA)² + ½D22(βB)² + D12·αA·βB + ½D66(βA + αB)² + ½S1(αW + A)² + ½S2(βW + B)² − q·W
//
// least. Textbook (first-order shear theory); a second method for the element.
func navier(p plateStiffness, a, b, x, y, px, py, sx, sy float64) float64 {
	const terms = 120
	sum := 0.0
	for m := 1; m <= terms; m++ {
		al := float64(m) * math.Pi / a
		qm := 2 / (al * a) * (math.Cos(al*(px-sx/2)) - math.Cos(al*(px+sx/2)))
		for n := 1; n <= terms; n++ {
			be := float64(n) * math.Pi / b
			q := qm * 2 / (be * b) * (math.Cos(be*(py-sy/2)) - math.Cos(be*(py+sy/2)))
			k := mat.NewDense(3, 3, []float64{
				p.s1*al*al + p.s2*be*be, p.s1 * al, p.s2 * be,
				p.s1 * al, p.d11*al*al + p.d66*be*be + p.s1, (p.d12 + p.d66) * al * be,
				p.s2 * be, (p.d12 + p.d66) * al * be, p.d22*be*be + p.d66*al*al + p.s2,
			})
			var c mat.VecDense
			if err := c.SolveVec(k, mat.NewVecDense(3, []float64{q, 0, 0})); err != nil {
				panic(err)
			}
			sum += c.AtVec(0) * math.Sin(al*x) * math.Sin(be*y)
		}
	}
	return sum
}

// A thick ply plate with different shear stiffnesses both ways under a patch
// off the centre, seen at places off the centre.
func TestOffCentre(t *testing.T) {
	t.Parallel()
	const a, b, px, py, sx, sy = 360.0, 240.0, 225.0, 90.0, 60.0, 100.0
	l := ply
	l.T = 18
	places := [][2]float64{{225, 90}, {101, 57}, {300, 200}, {33, 222}}
	var v [4][2]float64
	for i, n := range [2]int{24, 48} {
		m := skinAlone(l, even(a, n), even(b, n))
		for i := range m.g.xs {
			for j := range m.g.ys {
				m.fix(i, j, dofU, dofV)
			}
		}
		m.edges(func(i, j int, onX, onY bool) {
			m.fix(i, j, dofW)
			if onX {
				m.fix(i, j, dofBY)
			}
			if onY {
				m.fix(i, j, dofBX)
			}
		})
		u := m.solve(t, m.load(1, px, py, sx, sy))
		for k, at := range places {
			v[k][i] = m.down(u, at[0], at[1])
		}
	}
	top := navier(l.stiffness(), a, b, px, py, px, py, sx, sy)
	for k, at := range places {
		limit := (4*v[k][1] - v[k][0]) / 3 // error ~ h²
		want := navier(l.stiffness(), a, b, at[0], at[1], px, py, sx, sy)
		near(t, fmt.Sprintf("sag at %v", at), limit, want, 4e-4*top)
		near(t, fmt.Sprintf("sag at %v, finest mesh", at), v[k][1], want, 1e-3*top)
	}
}
