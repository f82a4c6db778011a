package plate

import (
	"math"
	"testing"
)

// Every side, modulus and ratio different, so that a swap shows.
var ply = Layer{T: 9, Ex: 9461, Ey: 5038, EBendX: 10500, EBendY: 3300, G: 620, GRoll: 60, EZ: 600, Nu: 0.12}

// irregular is a 3 × 3 mesh with interior nodes off every regular place.
var irregularX, irregularY = []float64{0, 37, 151, 240}, []float64{0, 90, 103, 170}

// field is a displacement of one skin, as functions of the place.
type field struct {
	name   string
	u      func(x, y float64) [perSkin]float64
	energy float64 // per mm², by hand
}

// checkPatch puts a field that is an exact solution on every node of the
// irregular mesh and demands that interior nodes stay in balance and that the
// strain energy is the exact one.
func checkPatch(t *testing.T, l Layer, f field) {
	t.Helper()
	m := skinAlone(l, irregularX, irregularY)
	u := make([]float64, len(m.held))
	for i, x := range m.g.xs {
		for j, y := range m.g.ys {
			v := f.u(x, y)
			copy(u[m.g.node(i, j)*perNode:], v[:])
		}
	}
	r := m.times(u)
	for i := 1; i < 3; i++ {
		for j := 1; j < 3; j++ {
			for d := range perSkin {
				n := m.g.node(i, j)*perNode + d
				terms := 0.0 // what the balance is the difference of
				for k := range u {
					if v, far := m.k.At(n, k), u[k]; v != 0 {
						terms += math.Abs(v * far)
					}
				}
				if !(math.Abs(r[n]) <= 1e-12*terms) {
					t.Errorf("%s: force %g on unknown %d of interior node (%d, %d); want 0", f.name, r[n], d, i, j)
				}
			}
		}
	}
	total := 0.0
	for i := range r {
		total += u[i] * r[i] / 2
	}
	nearRel(t, f.name+": strain energy", total, f.energy*240*170, 1e-9)
}

// Constant strain. Energy by hand: ½·t·εᵀQε with Q11 = Ex/(1 − νxy·νyx),
// Q12 = νyx·Q11, νyx = νxy·Ey/Ex; textbook plane stress.
func TestMembranePatch(t *testing.T) {
	t.Parallel()
	nuyx := 0.12 * 5038 / 9461.0
	q11, q22 := 9461/(1-0.12*nuyx), 5038/(1-0.12*nuyx)
	q12 := nuyx * q11
	const ex, ey, g = 1.3e-3, -0.7e-3, 0.9e-3
	at := func(f func(x, y float64) (u, v float64)) func(x, y float64) [perSkin]float64 {
		return func(x, y float64) [perSkin]float64 {
			u, v := f(x, y)
			return [perSkin]float64{dofU: u, dofV: v}
		}
	}
	for _, f := range []field{
		{"strain along x", at(func(x, y float64) (float64, float64) { return ex * x, 0 }), 9 * q11 * ex * ex / 2},
		{"strain along y", at(func(x, y float64) (float64, float64) { return 0, ey * y }), 9 * q22 * ey * ey / 2},
		{"shear, u by y", at(func(x, y float64) (float64, float64) { return g * y, 0 }), 9 * 620 * g * g / 2},
		{"shear, v by x", at(func(x, y float64) (float64, float64) { return 0, g * x }), 9 * 620 * g * g / 2},
		{"all at once", at(func(x, y float64) (float64, float64) { return ex*x + g*y/3, ey*y + 2*g*x/3 }),
			9 * (q11*ex*ex + 2*q12*ex*ey + q22*ey*ey + 620*g*g) / 2},
	} {
		checkPatch(t, ply, f)
	}
}

func TestMembraneRigid(t *testing.T) {
	t.Parallel()
	for _, s := range [][2]float64{{30, 30}, {37, 90}, {150, 12}, {12, 150}} {
		k := membraneMatrix(ply.stiffness(), s[0], s[1])
		checkRigid(t, "membrane", k, 3)
		a, b := s[0], s[1]
		turn := []float64{0, 0, 0, a, -b, a, -b, 0} // u = −y, v = x
		near(t, "energy of a rigid turn", energy(k, turn)/k.At(0, 0), 0, 1e-9)
	}
}

// Bending of a strip in its plane: u = xy, v = −x²/2 with stress along x only
// (plane stress: v has a further −νxy·y²/2). The corner displacements of that
// state must cost ½·E·t·∫y² = E·t·a·b³/24 exactly, however slender the
// rectangle is. y is counted from the middle. Source: beam theory.
func TestMembraneBends(t *testing.T) {
	t.Parallel()
	for _, s := range [][2]float64{{60, 40}, {150, 9}, {9, 150}, {600, 3}} {
		a, b := s[0], s[1]
		k := membraneMatrix(ply.stiffness(), a, b)
		var alongX, alongY []float64
		for c := range 4 {
			x, y := cornerXi[c]*a/2, cornerEta[c]*b/2
			alongX = append(alongX, x*y, -x*x/2-0.12*y*y/2)
			alongY = append(alongY, -y*y/2, x*y)
		}
		nearRel(t, "bending along x", energy(k, alongX), 9461*9*a*b*b*b/24, 1e-7)
		nearRel(t, "bending along y", energy(k, alongY), 5038*9*b*a*a*a/24, 1e-7)
	}
}

// A cantilever of one row of elements under a moment at its tip takes the
// beam's end slope and sag to rounding: v = M·L²/(2·E·I).
func TestMembraneCantilever(t *testing.T) {
	t.Parallel()
	l := ply
	l.Nu = 0 // so that the held end may be held whole
	const length, depth = 400.0, 20.0
	m := skinAlone(l, even(length, 5), []float64{0, depth})
	for i := range m.g.xs {
		for j := range m.g.ys {
			m.fix(i, j, dofW, dofBX, dofBY)
		}
	}
	m.fix(0, 0, dofU, dofV)
	m.fix(0, 1, dofU)
	f := make([]float64, len(m.held))
	const moment = 5000.0
	f[m.g.node(5, 0)*perNode+dofU], f[m.g.node(5, 1)*perNode+dofU] = moment/depth, -moment/depth
	u := m.solve(t, f)
	ei := 9461 * 9 * depth * depth * depth / 12
	nearRel(t, "tip", u[m.g.node(5, 0)*perNode+dofV], moment*length*length/(2*ei), 1e-9)
}

// turnedLayer is the same sheet laid a quarter turn round.
func turnedLayer(l Layer) Layer {
	l.Nu *= l.Ey / l.Ex
	l.Ex, l.Ey = l.Ey, l.Ex
	l.EBendX, l.EBendY = l.EBendY, l.EBendX
	return l
}

// sameRatio is a sheet whose bending moduli stand in the ratio of its in-plane
// ones, so that one Poisson ratio serves both and a turned sheet is the same.
func sameRatio() Layer {
	l := ply
	l.EBendX, l.EBendY = 1.1*l.Ex, 1.1*l.Ey
	return l
}

// A quarter turn of element, sheet and displacement gives the same matrix:
// corner c moves to corner c+1, u to v and v to −u.
func TestMembraneQuarterTurn(t *testing.T) {
	t.Parallel()
	const a, b = 37.0, 90.0
	k := membraneMatrix(ply.stiffness(), a, b)
	r := membraneMatrix(turnedLayer(ply).stiffness(), b, a)
	at := func(i int) (int, float64) {
		c := (i/2 + 1) % 4
		if i%2 == 0 {
			return 2*c + 1, 1
		}
		return 2 * c, -1
	}
	for i := range 8 {
		for j := range 8 {
			ri, si := at(i)
			rj, sj := at(j)
			near(t, "turned term", si*sj*r.At(ri, rj), k.At(i, j), 1e-9*k.At(0, 0))
		}
	}
}

// The rectangle integrated by hand is the one that two Gauss points each way
// give, its incompatible modes eliminated one by one: a second method.
func TestMembraneIsTheIntegratedOne(t *testing.T) {
	t.Parallel()
	const at = 0.5773502691896257 // 1/√3
	for _, s := range [][2]float64{{37, 91}, {1, 160}, {200, 200}} {
		p := ply.stiffness()
		a, b := s[0], s[1]
		var k [12][12]float64
		for _, xi := range [2]float64{-at, at} {
			for _, eta := range [2]float64{-at, at} {
				var bm [3][12]float64
				for i := range 4 {
					nx := cornerXi[i] * (1 + cornerEta[i]*eta) / 4 * 2 / a
					ny := cornerEta[i] * (1 + cornerXi[i]*xi) / 4 * 2 / b
					bm[0][2*i], bm[1][2*i+1] = nx, ny
					bm[2][2*i], bm[2][2*i+1] = ny, nx
				}
				bm[0][8], bm[2][9] = -4*xi/a, -4*xi/a     // of 1 − ξ²
				bm[2][10], bm[1][11] = -4*eta/b, -4*eta/b // of 1 − η²
				addBDB(k[:], bm[:], [3][3]float64{{p.a11, p.a12, 0}, {p.a12, p.a22, 0}, {0, 0, p.a66}}, a*b/4)
			}
		}
		for q := 11; q >= 8; q-- {
			for i := range q {
				f := k[i][q] / k[q][q]
				for j := range q {
					k[i][j] -= f * k[q][j]
				}
			}
		}
		got := p.membrane(a, b)
		for i := range 8 {
			for j := range 8 {
				if !(math.Abs(got[i][j]-k[i][j]) <= 1e-12*k[0][0]) {
					t.Errorf("%g × %g: [%d][%d] is %g, integrated %g", a, b, i, j, got[i][j], k[i][j])
				}
			}
		}
	}
}
