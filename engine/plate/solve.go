package plate

import (
	"context"
	"errors"
	"math"
	"slices"
	"sync"

	"gonum.org/v1/gonum/mat"
)

// ErrLoose is returned when nothing holds the panel up against a load.
var ErrLoose = errors.New("the panel is not held up by its supports")

// Model is a panel made ready: stiffness assembled and, with every pad in
// touch, factorized. It may be used from several goroutines.
type Model struct {
	sys     *system
	springs []spring
	touch   factor  // every pad point in touch
	outline []point // of the pads

	lines    []line // of the beams
	unknowns int    // of grid and beams
	place    []int  // where each stands in the arranged system, nil for where it is
	band     int    // diagonals stored above the main one, arranged

	mu     sync.Mutex
	felt   *points // nil until asked for
	unfelt bool    // that is not worth it
	recent []kept  // sets of lifted points last factorized, newest last
}

// kept is a set of lifted points with its factor.
type kept struct {
	lifted []bool
	factor
}

// keepSets bounds how many a model keeps: most loads leave the same points in
// touch, so the next answer starts from the set of the last.
const keepSets = 3

// keepNumbers bounds how many numbers a model keeps in those factors, 32 MB; one
// set is kept whatever its size.
const keepNumbers = 4 << 20

// known returns the factor of a set of lifted points if it is kept.
func (m *Model) known(lifted []bool) (factor, bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	for i, k := range m.recent {
		if slices.Equal(k.lifted, lifted) {
			m.recent = append(slices.Delete(m.recent, i, i+1), k)
			return k.factor, true
		}
	}
	return factor{}, false
}

// keep keeps a set and its factor.
func (m *Model) keep(lifted []bool, f factor) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.recent = append(m.recent, kept{slices.Clone(lifted), f})
	for n := len(m.recent); n > 1 && (n > keepSets || n*len(f.data) > keepNumbers); n = len(m.recent) {
		m.recent = slices.Delete(m.recent, 0, 1)
	}
}

// guess returns the set of lifted points to begin with and its factor.
func (m *Model) guess() ([]bool, factor) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if n := len(m.recent); n > 0 {
		return slices.Clone(m.recent[n-1].lifted), m.recent[n-1].factor
	}
	return make([]bool, len(m.springs)), m.touch
}

// spring is one point of an elastic pad.
type spring struct {
	spot
	x, y float64
	k    float64 // N/mm
	pad  int     // to whose reaction it belongs
	ride *ride   // what of it hangs on a beam, nil for a pad's
}

// Prepare assembles and factorizes a panel. It returns ErrLoose when the pads
// cannot hold it and the error of ctx when that ends first.
func Prepare(ctx context.Context, p *Panel) (*Model, error) {
	m := &Model{sys: assemble(ctx, p)}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	m.stand()
	m.arrange()
	m.outline = hull(m.springs)
	f, err := m.factorizeIn(ctx, m.give(), nil, 0)
	if err != nil {
		return nil, err
	}
	m.touch = f
	return m, ctx.Err()
}

// stand numbers the unknowns and puts the panel on the springs of pads and beams.
func (m *Model) stand() {
	for i, pad := range m.sys.p.Pads {
		m.sys.integrate(pad.X, pad.Y, pad.SX, pad.SY, func(x, y, area float64) {
			m.springs = append(m.springs, spring{spot: m.sys.spotAt(x, y, perSkin), x: x, y: y, k: pad.K * area, pad: i})
		})
	}
	m.lay()
}

// Size returns the number of unknowns and of diagonals stored above the main
// one.
func (m *Model) Size() (unknowns, band int) { return m.unknowns, m.band }

// Bytes returns how much memory the model takes, but for small things.
func (m *Model) Bytes() int {
	m.mu.Lock()
	defer m.mu.Unlock()
	n := len(m.sys.kept.data) + len(m.touch.data)
	for _, k := range m.recent {
		n += len(k.data)
	}
	if m.felt != nil {
		n += len(m.felt.flex)
	}
	return 8 * n
}

// factorize adds the springs that are not lifted, and of those that are the
// share rest, and factorizes. It returns ErrLoose or the error of ctx.
func (m *Model) factorize(ctx context.Context, lifted []bool, rest float64) (factor, error) {
	return m.factorizeIn(ctx, m.stiffness(), lifted, rest)
}

// give packs the assembled band and gives its memory away for the first factor,
// the stiffness arranged in it.
func (m *Model) give() []float64 {
	s := m.sys
	s.kept = pack(s.data, s.stride-group)
	rows := s.data
	s.data, s.k = nil, nil
	if m.place != nil {
		rows = m.stiffness()
	}
	return rows
}

// factorizeIn is factorize in rows that hold the arranged stiffness.
func (m *Model) factorizeIn(ctx context.Context, rows []float64, lifted []bool, rest float64) (factor, error) {
	f := newFactor(rows, m.band)
	f.place = m.place
	for i := range m.springs {
		sp := &m.springs[i]
		stiff := sp.k
		if lifted != nil && lifted[i] {
			stiff *= rest
		}
		if stiff == 0 {
			continue
		}
		m.addSpring(f.data, f.stride, sp, stiff)
	}
	diagonal := make([]float64, m.unknowns)
	for i := range diagonal {
		diagonal[i] = f.data[i*f.stride]
	}
	if err := f.cholesky(ctx); errors.Is(err, errPivot) {
		return factor{}, ErrLoose
	} else if err != nil {
		return factor{}, err
	}
	// A condition estimate costs many times the factorization; the pivots tell
	// as well that nothing holds the panel.
	for i, d := range diagonal {
		if p := f.data[i*f.stride]; p*p < loose*d {
			return factor{}, ErrLoose
		}
	}
	return f, nil
}

// loose is the share of a diagonal term below which its pivot is nothing but
// rounding: a panel that can move freely keeps about 1e-16 of it, one on soft
// felt more than 1e-9 (tried out).
const loose = 1e-12

// Solution is the answer for one set of loads.
type Solution struct {
	m       *Model
	u       []float64
	lifted  []bool
	fac     factor     // with those lifted, unless set is there
	set     *lifting   // those lifted, of a panel that is told by its points
	settled [3]float64 // plane a + b·x + c·y through the pads' settlement, as w
}

// maxPasses bounds the search for the pads that stay in touch. It takes 2 to 6
// as a rule; the search cannot cycle.
const maxPasses = 60

// ErrRocking is returned when no set of pads in touch was found.
var ErrRocking = errors.New("the panel rocks: no set of supports in touch was found")

// ErrBeside is returned for a load of which nothing lies on the panel.
var ErrBeside = errors.New("a load lies beside the panel")

// Solve finds the answer under loads that act together. Where a pad would have
// to pull it lifts instead, and the answer is found again without it. It
// returns ErrLoose when the panel would tip, ErrBeside for a load that misses
// the panel and the error of ctx when that ends first.
func (m *Model) Solve(ctx context.Context, loads []Press) (*Solution, error) {
	f := make([]float64, m.unknowns)
	var sum, mx, my float64
	for _, l := range loads {
		l = l.footprint()
		if !(m.sys.covered(l) > 0) {
			return nil, ErrBeside
		}
		m.press(f, l)
		x, y := m.sys.centre(l)
		sum += l.P
		mx += l.P*x + l.TX
		my += l.P*y + l.TY
	}
	if !m.stands(sum, mx, my) {
		return nil, ErrLoose
	}
	own, ox, oy := m.weigh(f) // it hangs on its own ends and holds nothing down
	return m.answer(ctx, f, sum+own, mx+ox, my+oy)
}

// answer finds the answer under forces f whose sum and moments are given: by
// the points where that is worth it and precise enough, else by a factorization
// for every set of lifted points.
func (m *Model) answer(ctx context.Context, f []float64, sum, mx, my float64) (*Solution, error) {
	p, err := m.feel(ctx)
	if err != nil {
		return nil, err
	}
	if p != nil {
		s := &Solution{m: m}
		if s.find(ctx, p, f) == nil && s.balances(sum, mx, my) {
			s.settle()
			return s, nil
		}
		if err := ctx.Err(); err != nil {
			return nil, err
		}
	}
	s := &Solution{m: m}
	if err := s.search(ctx, f); err != nil {
		return nil, err
	}
	if !s.balances(sum, mx, my) {
		return nil, ErrLoose
	}
	s.settle()
	return s, nil
}

// feel returns what the points of the supports feel, computed once, or nil
// where that is not worth it. It returns the error of ctx.
func (m *Model) feel(ctx context.Context) (*points, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.felt != nil || m.unfelt {
		return m.felt, nil
	}
	p, ok := m.feltRows()
	if !ok {
		m.unfelt = true
		return nil, nil
	}
	if err := p.feel(ctx); err != nil {
		return nil, err
	}
	m.felt = p
	return p, nil
}

// solve overwrites b with the answer while the same points are lifted.
func (s *Solution) solve(ctx context.Context, b []float64) error {
	if s.set != nil {
		return s.set.solve(ctx, b)
	}
	return s.fac.solve(ctx, b)
}

// rest is the share of their stiffness that lifted points keep for a step when
// those in touch alone would let the panel turn over. It only steers the
// search: the step is exact when lifted points stay where they are.
const rest = 1e-6

// search finds the displacements under f and the points that lift.
func (s *Solution) search(ctx context.Context, f []float64) error {
	m := s.m
	var fac factor
	s.lifted, fac = m.guess()
	soft := false
	for pass := range maxPasses {
		if err := ctx.Err(); err != nil {
			return err
		}
		next := slices.Clone(f)
		if soft {
			m.lean(next, s.u, s.lifted)
		}
		if err := fac.solve(ctx, next); err != nil {
			return err
		}
		if pass > 0 {
			if t := m.shorten(s.u, next, f); t < 1 {
				for i, u := range s.u {
					next[i] = u + t*(next[i]-u)
				}
			}
		}
		s.u = next
		changed := false
		for i := range m.springs {
			// w is up: a point in touch is pressed down.
			lifts := m.springs[i].value(s.u) > 0 && !m.glued(i)
			if lifts != s.lifted[i] {
				s.lifted[i], changed = lifts, true
			}
		}
		if !changed && !soft {
			// Once more from f alone, so that the answer does not depend on the
			// way to it.
			if pass > 0 {
				s.u = slices.Clone(f)
				if err := fac.solve(ctx, s.u); err != nil {
					return err
				}
			}
			s.fac = fac
			return s.refine(ctx, f)
		}
		var ok bool
		if fac, ok = m.known(s.lifted); ok {
			soft = false
			continue
		}
		var err error
		fac, err = m.factorize(ctx, s.lifted, 0)
		if soft = errors.Is(err, ErrLoose); soft {
			fac, err = m.factorize(ctx, s.lifted, rest)
		}
		if err != nil {
			return err
		}
		if !soft {
			m.keep(s.lifted, fac)
		}
	}
	return ErrRocking
}

// refine takes off the rounding of the factorization: one more solution for
// what of f the answer leaves unbalanced. The settlement, a rigid motion that
// strains nothing, is left out of K·u: on soft pads under a stiff panel it is
// most of u and would bring its own rounding.
func (s *Solution) refine(ctx context.Context, f []float64) error {
	s.settle()
	sys := s.m.sys
	flex := slices.Clone(s.u)
	a, b, c := s.settled[0], s.settled[1], s.settled[2]
	z := [2]float64{sys.p.Height + (sys.p.Top.T+sys.p.Bottom.T)/2, 0}
	for i, x := range sys.g.xs {
		for j, y := range sys.g.ys {
			for skin := range 2 {
				v := flex[sys.g.node(i, j)*perNode+skin*perSkin:]
				v[dofU] += z[skin] * b
				v[dofV] += z[skin] * c
				v[dofW] -= a + b*x + c*y
				v[dofBX] += b
				v[dofBY] += c
			}
		}
	}
	for i, n := range s.m.lines {
		p := &sys.p.Beams[i]
		for k, at := range n.at {
			x, y, slope := p.At, at, c
			if p.AlongX {
				x, y, slope = at, p.At, b
			}
			flex[n.first+2*k] -= a + b*x + c*y
			flex[n.first+2*k+1] -= slope
		}
	}
	left := s.m.times(flex)
	for i := range left {
		left[i] = f[i] - left[i]
	}
	for i := range s.m.springs {
		if sp := &s.m.springs[i]; !s.lifted[i] {
			sp.push(left, -sp.k*sp.value(s.u))
		}
	}
	if err := s.solve(ctx, left); err != nil {
		return err
	}
	for i, v := range left {
		s.u[i] += v
	}
	return nil
}

// press adds a load to f. What of its footprint lies beyond the skins, over an
// edge band, is carried by the rest of it.
func (m *Model) press(f []float64, l Press) {
	m.sys.over(l, func(force float64, w spot) {
		for i, d := range w.dofs {
			f[d] -= force * w.n[i]
		}
	})
}

// settle fits a plane through the settlement of the pad points in touch and of
// the ends of beams, each weighted by its stiffness, so that sag can be told
// apart from it. What a beam bends between its ends stays in the sag.
func (s *Solution) settle() {
	var b [3]float64
	for i := range s.m.springs {
		sp := &s.m.springs[i]
		if s.lifted[i] || !sp.grounded() {
			continue
		}
		w := sp.k * sp.value(s.u)
		b[0] += w
		b[1] += w * sp.x
		b[2] += w * sp.y
	}
	if x, ok := s.m.plane(s.lifted, b); ok {
		s.settled = x
	}
}

// plane solves for the plane of the least squares through the grounded points in
// touch. Where they lie in one line there is no plane to take off.
func (m *Model) plane(lifted []bool, b [3]float64) (x [3]float64, ok bool) {
	a := mat.NewSymDense(3, nil)
	for i := range m.springs {
		sp := &m.springs[i]
		if lifted[i] || !sp.grounded() {
			continue
		}
		row := [3]float64{1, sp.x, sp.y}
		for r := range 3 {
			for c := r; c < 3; c++ {
				a.SetSym(r, c, a.At(r, c)+sp.k*row[r]*row[c])
			}
		}
	}
	var chol mat.Cholesky
	var v mat.VecDense
	if !chol.Factorize(a) || chol.SolveVecTo(&v, mat.NewVecDense(3, b[:])) != nil {
		return x, false
	}
	return [3]float64{v.AtVec(0), v.AtVec(1), v.AtVec(2)}, true
}

// Sag returns the sag of the upper face at (x, y), mm, positive down, relative
// to the plane through the supports.
func (s *Solution) Sag(x, y float64) float64 {
	p := s.m.sys.spotAt(x, y, 0)
	return s.settled[0] + s.settled[1]*x + s.settled[2]*y - p.value(s.u)
}

// Slope returns how steeply the upper face falls along x and along y at a place,
// rad, relative to the plane through the supports.
func (s *Solution) Slope(x, y float64) (sx, sy float64) {
	const h = 0.1 // the curve is a cubic of bays many times as wide
	p := s.m.sys.p
	x0, x1 := max(p.X0, x-h), min(p.X1, x+h)
	y0, y1 := max(p.Y0, y-h), min(p.Y1, y+h)
	return (s.Sag(x1, y) - s.Sag(x0, y)) / (x1 - x0), (s.Sag(x, y1) - s.Sag(x, y0)) / (y1 - y0)
}

// Down returns the displacement of the upper face at (x, y), mm, positive
// down, pads' settlement included.
func (s *Solution) Down(x, y float64) float64 {
	p := s.m.sys.spotAt(x, y, 0)
	return -p.value(s.u)
}

// Reactions returns the force of each pad on the panel, N, upwards, with what
// the ends of beams bring to it, and whether the whole pad has lifted.
func (s *Solution) Reactions() (force []float64, lifted []bool) {
	force = make([]float64, len(s.m.sys.p.Pads))
	lifted = make([]bool, len(force))
	for i := range lifted {
		lifted[i] = true
	}
	for i := range s.m.springs {
		sp := &s.m.springs[i]
		if f := -sp.k * sp.value(s.u); !s.lifted[i] && sp.grounded() && (sp.ride == nil || f > idle) {
			force[sp.pad] += f
			lifted[sp.pad] = false
		}
	}
	return force, lifted
}

// Pulls returns how hard the points of each pad that pull do so together, N. Only
// pads that are Glued pull.
func (s *Solution) Pulls() []float64 {
	out := make([]float64, len(s.m.sys.p.Pads))
	for i := range s.m.springs {
		sp := &s.m.springs[i]
		if w := sp.value(s.u); !s.lifted[i] && sp.grounded() && sp.ride == nil && w > 0 {
			out[sp.pad] += sp.k * w
		}
	}
	return out
}

// idle is the force, N, below which a beam's end carries nothing but rounding.
const idle = 1e-8

// Work returns half the work of the loads, N·mm: the strain energy.
func (s *Solution) Work(loads []Press) float64 {
	sum := 0.0
	for _, l := range loads {
		s.m.sys.over(l.footprint(), func(force float64, w spot) {
			sum -= force * w.value(s.u) / 2
		})
	}
	return math.Abs(sum)
}
