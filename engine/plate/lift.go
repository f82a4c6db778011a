package plate

import "context"

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

// OutOfPlane returns by how much, mm, the upper face at (x1, y1) lies below the
// plane through it at the other three corners of the rectangle from (x0, y0)
// to (x1, y1). Rigid motions and bends that are the same at both ends do not
// count: it is the wind of the rectangle.
func (s *Solution) OutOfPlane(x0, x1, y0, y1 float64) float64 {
	return s.Down(x1, y1) - s.Down(x1, y0) - s.Down(x0, y1) + s.Down(x0, y0)
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
