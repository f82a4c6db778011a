package plate

import (
	"fmt"
	"math"
	"testing"
)

var block = Fill{Ex: 4000, Ey: 1700, EUp: 900, G: 310, Gz: 150}

const blockHeight = 60.0

// blockField fills the 40 unknowns of a cell a × b; z is counted from the
// middle of the block.
func blockField(a, b float64, f func(x, y, z float64) [perSkin]float64) []float64 {
	var out []float64
	for c := range 4 {
		for _, z := range [2]float64{blockHeight/2 + thickTop/2, -blockHeight/2 - thickBottom/2} {
			v := f(cornerXi[c]*a/2, cornerEta[c]*b/2, z)
			out = append(out, v[:]...)
		}
	}
	return out
}

func TestFillStates(t *testing.T) {
	t.Parallel()
	const a, b, h = 70.0, 45.0, blockHeight
	const c = 1e-5
	const d = h + (thickTop+thickBottom)/2
	k := flat(block.matrix(a, b, h, thickTop, thickBottom, 1))
	half := flat(block.matrix(a, b, h, thickTop, thickBottom, 0.5))
	n, _ := k.Dims()
	for i := range n {
		for j := range i {
			near(t, "symmetry", k.At(i, j), k.At(j, i), 1e-9*math.Sqrt(k.At(i, i)*k.At(j, j)))
		}
	}
	for i, f := range rigids {
		u := blockField(a, b, f)
		size := 0.0
		for j, v := range u {
			size += k.At(j, j) * v * v
		}
		near(t, fmt.Sprintf("energy of rigid motion %d", i), energy(k, u)/size, 0, 1e-14)
	}
	top := func(z float64) float64 { return math.Max(0, math.Copysign(1, z)) }
	for _, s := range []struct {
		name string
		f    func(x, y, z float64) [perSkin]float64
		want float64 // per mm² of plan
	}{
		{"pull along x", func(x, y, z float64) [perSkin]float64 { return [perSkin]float64{1e-3 * x} }, 4000 * h * 1e-6 / 2},
		{"pull along y", func(x, y, z float64) [perSkin]float64 { return [perSkin]float64{dofV: 1e-3 * y} }, 1700 * h * 1e-6 / 2},
		{"shear in plan", func(x, y, z float64) [perSkin]float64 { return [perSkin]float64{1e-3 * y, 2e-3 * x} }, 310 * h * 9e-6 / 2},
		{"bending along x", func(x, y, z float64) [perSkin]float64 {
			return [perSkin]float64{c * x * z, 0, -c * x * x / 2, c * x, 0}
		}, 4000 * h * h * h / 12 * c * c / 2},
		{"bending along y", func(x, y, z float64) [perSkin]float64 {
			return [perSkin]float64{0, c * y * z, -c * y * y / 2, 0, c * y}
		}, 1700 * h * h * h / 12 * c * c / 2},
		// u = κyz, v = κxz, w = −κxy: γxy = 2κz
		{"twist", func(x, y, z float64) [perSkin]float64 {
			return [perSkin]float64{c * y * z, c * x * z, -c * x * y, c * y, c * x}
		}, 310 * 4 * h * h * h / 12 * c * c / 2},
		{"slide along x", func(x, y, z float64) [perSkin]float64 { return [perSkin]float64{1e-3 * h * top(z)} }, 150 * h * 1e-6 / 2},
		{"slide along y", func(x, y, z float64) [perSkin]float64 { return [perSkin]float64{dofV: 1e-3 * h * top(z)} }, 150 * h * 1e-6 / 2},
		// skins tilt with the panel, their middle planes stay: d²/h
		{"tilt along x", func(x, y, z float64) [perSkin]float64 { return [perSkin]float64{0, 0, 1e-3 * x, -1e-3, 0} }, 150 * d * d / h * 1e-6 / 2},
		{"tilt along y", func(x, y, z float64) [perSkin]float64 { return [perSkin]float64{0, 0, 1e-3 * y, 0, -1e-3} }, 150 * d * d / h * 1e-6 / 2},
		{"parting", func(x, y, z float64) [perSkin]float64 { return [perSkin]float64{dofW: 1e-3 * h * top(z)} }, 900 * h * 1e-6 / 2},
	} {
		u := blockField(a, b, s.f)
		nearRel(t, s.name, energy(k, u), s.want*a*b, 1e-9)
		nearRel(t, s.name+", half covered", energy(half, u), s.want*a*b/2, 1e-9)
	}
}

func TestOverlap(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ a0, a1, b0, b1, want float64 }{
		{0, 10, 2, 5, 3}, {2, 5, 0, 10, 3}, {0, 10, 8, 14, 2}, {8, 14, 0, 10, 2}, {0, 1, 2, 3, 0}, {2, 3, 0, 1, 0},
	} {
		if got := overlap(c.a0, c.a1, c.b0, c.b1); got != c.want {
			t.Errorf("overlap(%g, %g, %g, %g) = %g; want %g", c.a0, c.a1, c.b0, c.b1, got, c.want)
		}
	}
}
