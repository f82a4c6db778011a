package plate

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

var rib = Web{B: 12, E: 9300, EUp: 5100, G: 540, GRoll: 60, Own: 0.72, Height: 75}

// Skins of different thickness, so that a swap shows.
const thickTop, thickBottom = 9.0, 6.0

// webSide is a rib segment's side under a skin so thin or so soft in shear.
func webSide(l float64, phi float64) side { return side{l, phi} }

// webState returns the twelve unknowns of a segment from 0 to l for a field
// given as u, w, β of a skin at x; z is the height of the skin's middle plane
// above the middle of the web.
func webState(l float64, f func(x, z float64) (u, w, beta float64)) []float64 {
	var out []float64
	for _, z := range [2]float64{rib.Height/2 + thickTop/2, -rib.Height/2 - thickBottom/2} {
		for _, x := range [2]float64{0, l} {
			u, w, b := f(x, z)
			out = append(out, u, w, b)
		}
	}
	return out
}

func TestWebRigid(t *testing.T) {
	t.Parallel()
	for _, l := range []float64{12, 75, 400} {
		for _, phi := range []float64{0, 0.3, 40} {
			k := webMatrix(rib.matrix(webSide(l, phi), webSide(l, phi/2), thickTop, thickBottom))
			checkRigid(t, fmt.Sprintf("web l %g φ %g", l, phi), k, 3)
			tilt := webState(l, func(x, z float64) (float64, float64, float64) { return -z, x, -1 })
			near(t, "energy of a tilt", energy(k, tilt)/(k.At(1, 1)*l*l), 0, 1e-11)
		}
	}
}

// States whose energy is known by hand, each with the moduli that have no part
// in it set far too high, so that a trace of it would show.
func TestWebStates(t *testing.T) {
	t.Parallel()
	const h, d = 75.0, 75 + (thickTop+thickBottom)/2
	for _, l := range []float64{20, 75, 900} {
		for _, c := range []struct {
			name     string
			e, up, g float64
			phi      float64
			state    func(x, z float64) (u, w, beta float64)
			want     float64
		}{
			// ½·Own·E·b·h·ε²·l
			{"pull", 1, 1e4, 1e4, 3, func(x, z float64) (float64, float64, float64) { return 2e-3 * x, 0, 0 }, 0.72 * 12 * h * 4e-6 * l / 2},
			// Pure bending u = κxz, w = −κx²/2, β = κx: ½·Own·E·b·h³/12·κ²·l, and no shear.
			{"bending", 1, 1e4, 1e4, 0, func(x, z float64) (float64, float64, float64) { return 1e-5 * x * z, -1e-5 * x * x / 2, 1e-5 * x },
				0.72 * 12 * h * h * h / 12 * 1e-10 * l / 2},
			{"bending, soft skins", 1, 1e4, 1e4, 25, func(x, z float64) (float64, float64, float64) { return 1e-5 * x * z, -1e-5 * x * x / 2, 1e-5 * x },
				0.72 * 12 * h * h * h / 12 * 1e-10 * l / 2},
			// The same about an axis 20 above the middle: + b·h·20².
			{"bending off the middle", 1, 1e4, 1e4, 0, func(x, z float64) (float64, float64, float64) {
				return 1e-5 * x * (z - 20), -1e-5 * x * x / 2, 1e-5 * x
			}, 0.72 * 12 * (h*h*h/12 + h*400) * 1e-10 * l / 2},
			// The glue faces slide by 3e-3·h: ½·G·b·h·γ²·l.
			{"slide", 1e4, 1e4, 1, 3, func(x, z float64) (float64, float64, float64) {
				return 3e-3 * h * math.Max(0, math.Copysign(1, z)), 0, 0
			},
				12 * h * 9e-6 * l / 2},
			// Skins tilt with the panel while their middle planes stay: γ = slope·d/h, the
			// d²/h of a sandwich's shear stiffness.
			{"tilt without sliding", 1e4, 1e4, 1, 3, func(x, z float64) (float64, float64, float64) { return 0, 3e-3 * x, -3e-3 },
				12 * d * d / h * 9e-6 * l / 2},
			// The skins part by 1e-3·h: ½·Eup·b·h·ε²·l.
			{"parting", 1e4, 1, 1e4, 3, func(x, z float64) (float64, float64, float64) {
				return 0, 1e-3 * h * math.Max(0, math.Copysign(1, z)), 0
			}, 12 * h * 1e-6 * l / 2},
		} {
			w := rib
			w.E, w.EUp, w.G = c.e, c.up, c.g
			k := webMatrix(w.matrix(webSide(l, c.phi), webSide(l, c.phi), thickTop, thickBottom))
			nearRel(t, fmt.Sprintf("%s, l %g", c.name, l), energy(k, webState(l, c.state)), c.want, 2e-7)
		}
	}
}

// Strain that runs from ε at the top to 2ε at the bottom and from 1 to 3
// along: the mean over the height of a straight field is (a² + ab + b²)/3.
func TestLinear(t *testing.T) {
	t.Parallel()
	const a, b = 3.0, -5.0
	want := (a*a + a*b + b*b) / 3
	nearRel(t, "mean of the square", linear(a, b, a, b), want, 1e-14)
	// of (2z)·(1 − z), z = 0..1, t at z = 1: 2·(1/2 − 1/3)
	nearRel(t, "mean of a product", linear(2, 0, 0, 1), 1.0/3, 1e-14)
}

// lineShape: its derivatives are those of its functions, w and β meet the
// corners, and γ = w' + β is the same all along.
func TestLineShape(t *testing.T) {
	t.Parallel()
	s := side{80, 0.7}
	const e = 1e-6
	for _, r := range []float64{0, 0.2, 0.55, 1} {
		f, lo, hi := s.at(r), s.at(r-e), s.at(r+e)
		for c := range 6 {
			near(t, "du", f.du[c], (hi.u[c]-lo.u[c])/(2*e*s.l), 1e-8)
			near(t, "dw", f.dw[c], (hi.w[c]-lo.w[c])/(2*e*s.l), 1e-7)
			near(t, "dβ", f.dbeta[c], (hi.beta[c]-lo.beta[c])/(2*e*s.l), 1e-8)
			near(t, "γ", f.dw[c]+f.beta[c], s.at(0.4).dw[c]+s.at(0.4).beta[c], 1e-12)
		}
	}
	for i, f := range [2]lineShape{s.at(0), s.at(1)} {
		for c := range 6 {
			want := [3]float64{}
			if c/3 == i {
				want[c%3] = 1
			}
			near(t, "u at an end", f.u[c], want[0], 1e-12)
			near(t, "w at an end", f.w[c], want[1], 1e-12)
			near(t, "β at an end", f.beta[c], want[2], 1e-12)
		}
	}
}

func uprightMatrix(w Web) *mat.Dense {
	k := w.upright()
	return square(4, func(i, j int) float64 { return k[i][j] })
}

// The rib on edge is a beam of height h: fixed below, pushed above, it gives
// P·h³/(3D) + P·h/(κ·G·b); with the top kept upright, P·h³/(12D) + P·h/(κ·G·b).
// D = Eup·b³/12. Source: Timoshenko beam.
func TestUpright(t *testing.T) {
	t.Parallel()
	for _, g := range []float64{1e-3, 60, 1e9} {
		w := rib
		w.GRoll = g
		k := uprightMatrix(w)
		checkRigid(t, "upright", k, 2)
		const h = 75.0
		d, s := 5100*12*12*12/12.0, 5.0/6*g*12
		near(t, "energy of a lean", energy(k, []float64{0, 0.01, 0.01 * h, 0.01})/(k.At(0, 0)*h*h), 0, 1e-15)
		var c mat.VecDense
		if err := c.SolveVec(k.Slice(2, 4, 2, 4), mat.NewVecDense(2, []float64{1, 0})); err != nil {
			t.Fatal(err)
		}
		nearRel(t, "free top", c.AtVec(0), h*h*h/(3*d)+h/s, 1e-9)
		nearRel(t, "upright top", 1/k.At(2, 2), h*h*h/(12*d)+h/s, 1e-9)
		// Pure bending: ½·D·κ²·h, whatever the shear.
		nearRel(t, "bending", energy(k, []float64{0, 0, 1e-4 * h * h / 2, 1e-4 * h}), d*1e-8*h/2, 1e-6)
	}
}

// ribField fills the 40 unknowns of a segment from 0 to l whose faces are at
// y = ±b/2, z counted from the middle of the rib.
func ribField(l, b float64, f func(x, y, z float64) [perSkin]float64) []float64 {
	var out []float64
	for _, y := range [2]float64{-b / 2, b / 2} {
		for _, x := range [2]float64{0, l} {
			for _, z := range [2]float64{rib.Height/2 + thickTop/2, -rib.Height/2 - thickBottom/2} {
				v := f(x, y, z)
				out = append(out, v[:]...)
			}
		}
	}
	return out
}

// rigids are the six motions of a body.
var rigids = []func(x, y, z float64) [perSkin]float64{
	func(x, y, z float64) [perSkin]float64 { return [perSkin]float64{1, 0, 0, 0, 0} },
	func(x, y, z float64) [perSkin]float64 { return [perSkin]float64{0, 1, 0, 0, 0} },
	func(x, y, z float64) [perSkin]float64 { return [perSkin]float64{0, 0, 1, 0, 0} },
	func(x, y, z float64) [perSkin]float64 { return [perSkin]float64{-z, 0, x, -1, 0} },
	func(x, y, z float64) [perSkin]float64 { return [perSkin]float64{0, -z, y, 0, -1} },
	func(x, y, z float64) [perSkin]float64 { return [perSkin]float64{-y, x, 0, 0, 0} },
}

func TestSegment(t *testing.T) {
	t.Parallel()
	const l = 90.0
	k := flat(rib.segment(webSide(l, 0.3), webSide(l, 0.5), thickTop, thickBottom, rib.B))
	n, _ := k.Dims()
	for i := range n {
		for j := range i {
			near(t, "symmetry", k.At(i, j), k.At(j, i), 1e-9*math.Sqrt(k.At(i, i)*k.At(j, j)))
		}
	}
	for i, f := range rigids {
		u := ribField(l, rib.B, f)
		near(t, fmt.Sprintf("energy of rigid motion %d", i), energy(k, u)/(k.At(0, 0)+k.At(2, 2)*mat.Dot(mat.NewVecDense(n, u), mat.NewVecDense(n, u))), 0, 1e-13)
	}
	for _, c := range []struct {
		name string
		f    func(x, y, z float64) [perSkin]float64
		want float64
	}{
		// w = κxy: the rib twists, ½·(G·b³·h/3)·κ²·l.
		{"twist", func(x, y, z float64) [perSkin]float64 {
			const c = 1e-5
			return [perSkin]float64{-c * y * z, -c * x * z, c * x * y, -c * y, -c * x}
		}, 540 * 12 * 12 * 12 * 75 / 3.0 * 1e-10 * l / 2},
		// The rib bows sideways: v = −c·z²/2 at the glue faces, its own E·b³/12.
		{"sideways bow", func(x, y, z float64) [perSkin]float64 {
			const c = 1e-5
			face := 37.5
			if z < 0 {
				face = -face
			}
			slope := -c * face // dV/dz; the skin's middle plane is z − face further up
			return [perSkin]float64{0, -c*face*face/2 + slope*(z-face), -slope * y, 0, slope}
		}, 5100 * 12 * 12 * 12 / 12.0 * 1e-10 * 75 * l / 2},
		// A pull along: ½·Own·E·b·h·ε²·l.
		{"pull", func(x, y, z float64) [perSkin]float64 { return [perSkin]float64{1e-3 * x} }, 0.72 * 9300 * 12 * 75 * 1e-6 * l / 2},
	} {
		nearRel(t, c.name, energy(k, ribField(l, rib.B, c.f)), c.want, 1e-8)
	}
	// Both faces on one line: the same energy for a field that is alike on both.
	same := func(x, _, z float64) [perSkin]float64 {
		return [perSkin]float64{1e-3 * x * z, 2e-2 * x, 1e-3 * z * x, 3e-4 * x, -2e-4 * x}
	}
	one := ribField(l, 0, same)
	line := rib.segment(webSide(l, 0.3), webSide(l, 0.5), thickTop, thickBottom, 0)
	nearRel(t, "folded", energy(flat(fold(line)), one[:20]), energy(flat(line), one), 1e-10)
}

// The strip on edge turns with the rib's glued edge, the line from w of one face to w
// of the other: sections of the skin that turn on it alone cost a rib that
// stays on its place nothing, but for what their lower faces move sideways.
func TestRibTurnsByItsFaces(t *testing.T) {
	t.Parallel()
	const l, turn = 90.0, 1e-3
	k := flat(rib.segment(webSide(l, 0.3), webSide(l, 0.5), 0, 0, rib.B))
	field := func(w, beta float64) []float64 {
		return ribField(l, rib.B, func(_, y, _ float64) [perSkin]float64 { return [perSkin]float64{0, 0, -w * y, 0, beta} })
	}
	near(t, "sections alone", energy(k, field(0, turn)), 0, 1e-9)
	// Both edges turned alike, neither moved: 12·D/h·½·turn² a mm, 6·D/h at either end;
	// what the strip shears takes its share, textbook.
	d, h := rib.EUp*math.Pow(rib.B, 3)/12, rib.Height
	phi := 12 * d / (5.0 / 6 * rib.GRoll * rib.B * h * h)
	nearRel(t, "by the faces", energy(k, field(turn, 0)), 6*d/h/(1+phi)*turn*turn*l, 1e-9)
}

// ends of a rib along y carry the names of a rib along x, turned.
func TestTurned(t *testing.T) {
	t.Parallel()
	want := [perNode]int{1, 0, 2, 4, 3, 6, 5, 7, 9, 8}
	for d := range perNode {
		if got := turned(d, true); got != d {
			t.Errorf("turned(%d, true) = %d; want it unchanged", d, got)
		}
		if got := turned(d, false); got != want[d] {
			t.Errorf("turned(%d, false) = %d; want %d", d, got, want[d])
		}
	}
}
