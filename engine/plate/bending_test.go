package plate

import (
	"math"
	"testing"
)

// plateField makes the field of a thin plate of deflection w with slopes wx
// and wy: β = −slope, no shear strain.
func plateField(f func(x, y float64) (w, wx, wy float64)) func(x, y float64) [perSkin]float64 {
	return func(x, y float64) [perSkin]float64 {
		w, wx, wy := f(x, y)
		return [perSkin]float64{dofW: w, dofBX: -wx, dofBY: -wy}
	}
}

// Constant curvature and twist. Energy by hand: ½·κᵀDκ with D11 =
// Ex·t³/12(1 − νxy·νyx), D12 = νxy·D22, D66 = G·t³/12, κxy = −2·∂²w/∂x∂y.
// They hold with and without shear: these states have none.
func TestBendingPatch(t *testing.T) {
	t.Parallel()
	thin, soft := ply, ply
	thin.GRoll, soft.GRoll = 1e7, 0.5
	const c = 9.0 * 9 * 9 / 12
	f := 1 / (1 - 0.12*0.12*3300/10500)
	d11, d22, d12, d66 := 10500*c*f, 3300*c*f, 0.12*3300*c*f, 620*c
	const k1, k2, k3 = 2e-5, -1.3e-5, 0.7e-5
	for _, l := range []Layer{ply, thin, soft} {
		for _, f := range []field{
			{"curved along x", plateField(func(x, y float64) (float64, float64, float64) { return k1 * x * x / 2, k1 * x, 0 }), d11 * k1 * k1 / 2},
			{"curved along y", plateField(func(x, y float64) (float64, float64, float64) { return k2 * y * y / 2, 0, k2 * y }), d22 * k2 * k2 / 2},
			{"twisted", plateField(func(x, y float64) (float64, float64, float64) { return k3 * x * y, k3 * y, k3 * x }), d66 * 4 * k3 * k3 / 2},
			{"all at once", plateField(func(x, y float64) (float64, float64, float64) {
				return k1*x*x/2 + k2*y*y/2 + k3*x*y + 0.3 - 0.01*x, k1*x + k3*y - 0.01, k2*y + k3*x
			}), (d11*k1*k1 + 2*d12*k1*k2 + d22*k2*k2 + 4*d66*k3*k3) / 2},
		} {
			checkPatch(t, l, f)
		}
	}
}

func TestBendingRigid(t *testing.T) {
	t.Parallel()
	for _, g := range []float64{0.5, 60, 1e4} {
		for _, s := range [][2]float64{{30, 30}, {37, 90}, {150, 12}} {
			l := ply
			l.GRoll = g
			a, b := s[0], s[1]
			k := bendingMatrix(l.stiffness(), a, b)
			checkRigid(t, "bending", k, 3)
			tilt := []float64{0, -1, 2, a, -1, 2, a - 2*b, -1, 2, -2 * b, -1, 2} // w = x − 2y
			near(t, "energy of a tilt", energy(k, tilt)/(k.At(0, 0)*a*a), 0, 1e-11)
		}
	}
}

func TestBendingQuarterTurn(t *testing.T) {
	t.Parallel()
	const a, b = 37.0, 90.0
	l := sameRatio()
	k := bendingMatrix(l.stiffness(), a, b)
	r := bendingMatrix(turnedLayer(l).stiffness(), b, a)
	at := func(i int) (int, float64) {
		c := (i/3 + 1) % 4
		switch i % 3 {
		case 1:
			return 3*c + 2, 1
		case 2:
			return 3*c + 1, -1
		}
		return 3 * c, 1
	}
	for i := range 12 {
		for j := range 12 {
			ri, si := at(i)
			rj, sj := at(j)
			near(t, "turned term", si*sj*r.At(ri, rj), k.At(i, j), 1e-9*math.Sqrt(k.At(i, i)*k.At(j, j)))
		}
	}
}

// One element as a beam: with no Poisson coupling a strip clamped at x = 0
// under an end force sags P·l³/(3·D·b) + P·l/(S·b), exactly: the bubble along
// the side is what equilibrium asks for. Source: Timoshenko beam.
func TestBendingElementIsABeam(t *testing.T) {
	t.Parallel()
	for _, g := range []float64{0.1, 5, 60, 1e4, 1e9} {
		l := ply
		l.Nu, l.GRoll = 0, g
		p := l.stiffness()
		const a, b, force = 130.0, 40.0, 25.0
		for _, along := range []bool{true, false} {
			m := skinAlone(l, []float64{0, a}, []float64{0, b})
			d, s := p.d11, p.s1
			if !along {
				m = skinAlone(l, []float64{0, b}, []float64{0, a})
				d, s = p.d22, p.s2
			}
			f := make([]float64, len(m.held))
			tip := 0
			m.edges(func(i, j int, _, _ bool) {
				m.fix(i, j, dofU, dofV)
				far := i
				if !along {
					far = j
				}
				if far == 0 {
					m.fix(i, j, dofW, dofBX, dofBY)
					return
				}
				tip = m.g.node(i, j)*perNode + dofW
				f[tip] = force / 2
			})
			nearRel(t, "tip of a strip", m.solve(t, f)[tip], force*a*a*a/(3*d*b)+force*a/(s*b), 1e-8)
		}
	}
}
