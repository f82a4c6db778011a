package plate

import (
	"context"
	"math"
)

// Lift returns the answer to a force of p N upwards on the bottom skin, spread
// over a square of that side about (x, y): a hand or a shim under one corner.
// It returns ErrLoose where the pads would have to pull and are not Glued,
// ErrBeside for a place that is not on the panel, and the error of ctx.
func (m *Model) Lift(ctx context.Context, p, x, y, side float64) (*Solution, error) {
	l := Press{P: p, X: x, Y: y, SX: side, SY: side}.footprint()
	area := m.sys.covered(l)
	if !(area > 0) {
		return nil, ErrBeside
	}
	f := make([]float64, m.unknowns)
	m.sys.integrate(l.X, l.Y, l.SX, l.SY, func(x, y, part float64) {
		s := m.sys.spotAt(x, y, perSkin)
		for i, d := range s.dofs {
			f[d] += p / area * part * s.n[i]
		}
	})
	cx, cy := m.sys.centre(l)
	if !m.stands(-p, -p*cx, -p*cy) {
		return nil, ErrLoose
	}
	return m.answer(ctx, f, -p, -p*cx, -p*cy)
}

// Corners are four places in plan, no three in a line, the first across from the
// last.
type Corners [4]struct{ X, Y float64 }

// Balance returns the forces at the corners that hold each other in balance, of sizes
// that add up to 4: ±1 in turn at those of a rectangle. They are the only ones but for
// their size, and the sum of them times any plane is nothing. Statics.
func (q Corners) Balance() (c [4]float64) {
	twice := func(a, b, c int) float64 {
		return (q[b].X-q[a].X)*(q[c].Y-q[a].Y) - (q[b].Y-q[a].Y)*(q[c].X-q[a].X)
	}
	c = [4]float64{twice(1, 2, 3), -twice(0, 2, 3), twice(0, 1, 3), -twice(0, 1, 2)}
	sum := math.Abs(c[0]) + math.Abs(c[1]) + math.Abs(c[2]) + math.Abs(c[3])
	if c[3] < 0 {
		sum = -sum
	}
	for i := range c {
		c[i] *= 4 / sum
	}
	return c
}

// OutOfPlane returns the balanced forces times how far the upper face has gone down
// at the corners, mm: divided by one of them, by how much that corner lies below the
// plane of the other three. Rigid motions and bends that are the same at both ends do
// not count: it is the wind of the corners.
func (s *Solution) OutOfPlane(q Corners) (sum float64) {
	for i, c := range q.Balance() {
		sum += c * s.Down(q[i].X, q[i].Y)
	}
	return sum
}

// SolveHeld is Solve for a panel that is fastened down: every pad also pulls.
func (m *Model) SolveHeld(ctx context.Context, loads []Press) (*Solution, error) {
	f := make([]float64, m.unknowns)
	for _, l := range loads {
		l = l.footprint()
		if !(m.sys.covered(l) > 0) {
			return nil, ErrBeside
		}
		m.press(f, l)
	}
	m.weigh(f)
	s := &Solution{m: m, u: append([]float64(nil), f...), lifted: make([]bool, len(m.springs)), fac: m.touch}
	if err := s.fac.solve(ctx, s.u); err != nil {
		return nil, err
	}
	if err := s.refine(ctx, f); err != nil {
		return nil, err
	}
	s.settle()
	return s, nil
}
