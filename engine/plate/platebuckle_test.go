package plate

import (
	"fmt"
	"math"
	"testing"
)

// pressed is a plate's membrane force, N/mm: pressed along x, along y, sheared.
type pressed struct{ x, y, xy float64 }

// work returns what the membrane force does on the way of u, as forces on the
// unknowns: Σ∫(Nx·w,x² + Ny·w,y² + 2·Nxy·w,x·w,y)/2, differentiated, with w bilinear
// in each cell.
func (m *mesh) work(n pressed, u []float64) []float64 {
	f := make([]float64, len(u))
	sx, sy := [4]float64{-1, 1, 1, -1}, [4]float64{-1, -1, 1, 1}
	mean := func(a, b float64) float64 { // of the product of two shapes over a side
		if a == b {
			return 1. / 3
		}
		return 1. / 6
	}
	for i := range len(m.g.xs) - 1 {
		for j := range len(m.g.ys) - 1 {
			a, b := m.g.xs[i+1]-m.g.xs[i], m.g.ys[j+1]-m.g.ys[j]
			at := m.corners(i, j)
			for c := range 4 {
				for d := range 4 {
					k := n.x*sx[c]*sx[d]*b/a*mean(sy[c], sy[d]) + n.y*sy[c]*sy[d]*a/b*mean(sx[c], sx[d]) + n.xy*(sx[c]*sy[d]+sy[c]*sx[d])/4
					f[at[c]*perNode+dofW] += k * u[at[d]*perNode+dofW]
				}
			}
		}
	}
	return f
}

// buckles returns by how much the membrane force must grow for the plate to
// buckle. Power iteration with both signs of the force at once: the strain
// energy of u grows by 1/λ² each time.
func (m *mesh) buckles(t *testing.T, n pressed) float64 {
	t.Helper()
	solve := m.solver(t)
	u := make([]float64, len(m.held))
	for i, x := range m.g.xs {
		for j, y := range m.g.ys {
			// nothing regular, so that every shape is in it
			u[m.g.node(i, j)*perNode+dofW] = math.Sin(0.013*x+0.3) + math.Cos(0.021*y+0.001*x) + math.Sin(0.0001*x*y)
		}
	}
	before, last := 0.0, 0.0
	for range 3000 {
		f := m.work(n, u)
		u = solve(f)
		e := dot(u, f)
		lambda := math.Sqrt(before / e)
		if before > 0 && math.Abs(lambda/last-1) < 1e-9 {
			return lambda
		}
		last, before = lambda, 1
		for i := range u {
			u[i] /= math.Sqrt(e)
		}
	}
	t.Fatal("the shape does not settle")
	return 0
}

// Buckling of thin plates a × b, N = k·π²·D/b²: the element with a membrane force,
// which the panel does not have, so this is a check of its bending under every
// support. Source: Ritz and Levy solutions, converged to the digits shown; the
// four sides held and pressed one way are (mb/a + a/mb)², and the rest as in
// Timoshenko and Gere, Theory of Elastic Stability (from memory, where 9.34 stands
// for the sheared square). ν .3 matters at a free side only.
func TestPlatesBuckle(t *testing.T) {
	t.Parallel()
	const (
		held         = iota
		clampedSides // sides y = const
		clampedEnds  // sides x = const, where it is pressed
		clampedAll
		freeSide // y = b free
		clampedFree
	)
	one, both, shear := pressed{x: 1}, pressed{x: 1, y: 1}, pressed{xy: 1}
	for _, row := range []struct {
		name string
		on   int
		n    pressed
		k    map[float64]float64 // by a/b
	}{
		{"held", held, one, map[float64]float64{.5: 6.25, 1: 4, 1.5: 4.34028, 2: 4, 3: 4}},
		{"sides clamped", clampedSides, one, map[float64]float64{.5: 7.69128, 1: 7.69128, 1.5: 7.11593, 2: 6.97160, 3: 7.05521}},
		{"ends clamped", clampedEnds, one, map[float64]float64{.5: 18.18740, 1: 6.74319, 1.5: 5.37468, 2: 4.84715, 3: 4.40646}},
		{"clamped", clampedAll, one, map[float64]float64{.5: 19.33863, 1: 10.07395, 1.5: 8.35051, 2: 7.86707, 3: 7.35935}},
		{"held, both ways", held, both, map[float64]float64{1: 2, 1.5: 1.44444, 2: 1.25, 3: 1.11111}},
		{"clamped, both ways", clampedAll, both, map[float64]float64{1: 5.30363, 1.5: 4.12123, 2: 3.92344, 3: 3.86052}},
		{"held, sheared", held, shear, map[float64]float64{1: 9.32452, 1.5: 7.06997, 2: 6.54603, 3: 5.84015}},
		{"clamped, sheared", clampedAll, shear, map[float64]float64{1: 14.64201, 1.5: 11.45826, 2: 10.24798, 3: 9.53431}},
		{"one side free", freeSide, one, map[float64]float64{1: 1.40160, 2: .66814, 3: .53313, 5: .46423, 10: .43521}},
		{"clamped and free", clampedFree, one, map[float64]float64{1: 1.65251, 1.6: 1.28113}},
	} {
		for _, ab := range []float64{.5, 1, 1.5, 1.6, 2, 3, 5, 10} {
			want, ok := row.k[ab]
			// Under the race detector the long plates take minutes, and a test
			// on one goroutine shows it nothing more.
			if !ok || testing.Short() && ab > 1 {
				continue
			}
			const b = 200.0
			l := isotropic(0.3, kirchhoff)
			var v [2]float64
			meshes := [2]int{8, 16}
			if row.n == shear { // buckles in oblique waves, which ask for more
				meshes = [2]int{16, 32}
			}
			for i, n := range meshes {
				nx := max(n, int(math.Round(ab*float64(n))))
				m := skinAlone(l, even(ab*b, nx), even(b, n))
				for i := range m.g.xs {
					for j := range m.g.ys {
						m.fix(i, j, dofU, dofV)
						side, end := j == 0 || j == n, i == 0 || i == nx
						if (row.on == freeSide || row.on == clampedFree) && j == n {
							side = false
						}
						if end {
							m.fix(i, j, dofW, dofBY)
						}
						if side {
							m.fix(i, j, dofW, dofBX)
						}
						if end && (row.on == clampedEnds || row.on == clampedAll) {
							m.fix(i, j, dofBX)
						}
						if side && (row.on == clampedSides || row.on == clampedAll || row.on == clampedFree) {
							m.fix(i, j, dofBY)
						}
					}
				}
				v[i] = m.buckles(t, row.n) * b * b / (math.Pi * math.Pi * l.stiffness().d11)
			}
			name := fmt.Sprintf("%s, a/b %g", row.name, ab)
			nearRel(t, name, (4*v[1]-v[0])/3, want, 1e-3)
			nearRel(t, name+", finer mesh", v[1], want, 0.02)
		}
	}
}
