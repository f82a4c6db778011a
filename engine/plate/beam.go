package plate

import "math"

// Beam is a straight bearer under the bottom skin, an apron between two legs:
// it bends, and the panel lies on it through an elastic bed that pushes and
// never pulls. It runs along x at y = At, or along y at x = At, and both its
// ends are held on springs that hold its slope nowhere.
type Beam struct {
	Name     string
	AlongX   bool
	At       float64
	From, To float64
	Width    float64 // of the bed
	K        float64 // stiffness of the bed, N/mm³
	EI       float64 // N·mm²
	GA       float64 // shear stiffness, κ·G·A, N
	EndK     float64 // of the spring under either end, N/mm
	Own      float64 // its weight, N, spread evenly; it always acts
	Ends     [2]int  // the pads, by number, to whose reactions the ends' belong
}

// ride is the part of a spring that hangs on a beam: over the two ends of one of
// its elements, v and θ each.
type ride struct {
	beam int
	end  bool // a spring from the beam's end to the ground, else one to the skin
	dofs [4]int
	n    [4]float64
}

// line is a beam as it is computed: its nodes, and the first of its unknowns v
// (up) and θ of every node.
type line struct {
	at    []float64
	first int
}

// shortest is the least length of a beam's elements, mm: a shorter one would
// only bring rounding.
const shortest = 2.0

// nodes puts the nodes of a beam at its ends and where it crosses grid lines.
func (b *Beam) nodes(cuts []float64) []float64 {
	out := []float64{b.From}
	for _, c := range cuts {
		if c-out[len(out)-1] > shortest && b.To-c > shortest {
			out = append(out, c)
		}
	}
	return append(out, b.To)
}

// Place returns the place in plan of a place along the beam.
func (b *Beam) Place(at float64) (x, y float64) {
	if b.AlongX {
		return at, b.At
	}
	return b.At, at
}

// phi is how much shear matters in an element of length l.
func (b *Beam) phi(l float64) float64 { return 12 * b.EI / (b.GA * l * l) }

// element returns the stiffness of an element of length l over v and θ of
// either end: exact for a beam loaded at its nodes. Source: Przemieniecki,
// Theory of Matrix Structural Analysis (1968), from memory.
func (b *Beam) element(l float64) [4][4]float64 {
	p := b.phi(l)
	c := b.EI / (l * l * l * (1 + p))
	return [4][4]float64{
		{12 * c, 6 * l * c, -12 * c, 6 * l * c},
		{6 * l * c, (4 + p) * l * l * c, -6 * l * c, (2 - p) * l * l * c},
		{-12 * c, -6 * l * c, 12 * c, -6 * l * c},
		{6 * l * c, (2 - p) * l * l * c, -6 * l * c, (4 + p) * l * l * c},
	}
}

// shape returns v at the part s of an element of length l by its unknowns: the
// curve that [Beam.element] bends along. Source: Friedman and Kosmatka, An
// improved two-node Timoshenko beam finite element (1993), from memory.
func (b *Beam) shape(s, l float64) [4]float64 {
	p := b.phi(l)
	c := 1 / (1 + p)
	return [4]float64{
		c * (1 - 3*s*s + 2*s*s*s + p*(1-s)),
		c * l * (s - 2*s*s + s*s*s + p/2*(s-s*s)),
		c * (3*s*s - 2*s*s*s + p*s),
		c * l * (-s*s + s*s*s - p/2*(s-s*s)),
	}
}

// lay numbers the unknowns of the beams after those of the grid and adds their
// springs: the bed, and one under either end.
func (m *Model) lay() {
	m.unknowns = m.sys.g.nodes() * perNode
	for i := range m.sys.p.Beams {
		b := &m.sys.p.Beams[i]
		cuts := m.sys.g.ys
		if b.AlongX {
			cuts = m.sys.g.xs
		}
		n := line{b.nodes(cuts), m.unknowns}
		m.lines = append(m.lines, n)
		m.unknowns += 2 * len(n.at)
		m.bed(i, cuts)
		for e, at := range [2]float64{b.From, b.To} {
			r := m.rideAt(i, at)
			r.end = true
			x, y := b.Place(at)
			m.springs = append(m.springs, spring{x: x, y: y, k: b.EndK, pad: b.Ends[e], ride: &r})
		}
	}
}

// bed adds the points of a beam's bed, three in every interval between grid
// lines. They lie on the beam's middle line, whatever its width: a beam that is
// not held against turning about itself carries nothing beside it.
func (m *Model) bed(beam int, cuts []float64) {
	b := &m.sys.p.Beams[beam]
	lo, hi := m.sys.p.Y0, m.sys.p.Y1
	if !b.AlongX {
		lo, hi = m.sys.p.X0, m.sys.p.X1
	}
	if b.At < lo || b.At > hi {
		return // not under the skins
	}
	for c := range len(cuts) - 1 {
		from, to := max(b.From, cuts[c]), min(b.To, cuts[c+1])
		for _, g := range gauss3 {
			if to <= from {
				break
			}
			at := from + (to-from)*(1+g.x)/2
			x, y := b.Place(at)
			r := m.rideAt(beam, at)
			for k := range r.n {
				r.n[k] = -r.n[k]
			}
			m.springs = append(m.springs, spring{spot: m.sys.spotAt(x, y, perSkin), x: x, y: y, k: b.K * b.Width * (to - from) * g.w / 2, pad: noPad, ride: &r})
		}
	}
}

// noPad is the pad of a spring that leads to no ground.
const noPad = -1

// rideAt returns v of a beam at a place along it.
func (m *Model) rideAt(beam int, at float64) ride {
	n := &m.lines[beam]
	e := cell(n.at, at)
	l := n.at[e+1] - n.at[e]
	r := ride{beam: beam, n: m.sys.p.Beams[beam].shape((at-n.at[e])/l, l)}
	for k := range r.dofs {
		r.dofs[k] = n.first + 2*e + k
	}
	return r
}

// arrange finds the order of the unknowns that keeps the band narrow: every
// node of a beam follows the grid node that it lies under. Without beams there
// is nothing to arrange.
func (m *Model) arrange() {
	n, kd := m.sys.k.SymBand()
	m.band = kd
	if len(m.lines) == 0 {
		return
	}
	follow := make([][]int, m.sys.g.nodes()) // unknowns after each grid node
	for i, n := range m.lines {
		b := &m.sys.p.Beams[i]
		for k, at := range n.at {
			x, y := b.Place(at)
			node := m.sys.g.node(nearest(m.sys.g.xs, x), nearest(m.sys.g.ys, y))
			follow[node] = append(follow[node], n.first+2*k, n.first+2*k+1)
		}
	}
	m.place = make([]int, m.unknowns)
	next := 0
	for node, more := range follow {
		for d := range perNode {
			m.place[node*perNode+d] = next
			next++
		}
		for _, d := range more {
			m.place[d] = next
			next++
		}
	}
	for i := range n {
		m.band = max(m.band, m.place[min(i+kd, n-1)]-m.place[i])
	}
	widen := func(dofs []int) {
		for _, a := range dofs {
			for _, b := range dofs {
				m.band = max(m.band, m.place[a]-m.place[b])
			}
		}
	}
	for i := range m.springs {
		if sp := &m.springs[i]; sp.ride != nil && !sp.ride.end {
			widen(append(sp.dofs[:], sp.ride.dofs[:]...))
		}
	}
	for _, n := range m.lines {
		for e := range len(n.at) - 1 {
			widen([]int{n.first + 2*e, n.first + 2*e + 1, n.first + 2*e + 2, n.first + 2*e + 3})
		}
	}
}

// at is where an unknown stands in the arranged system.
func (m *Model) at(d int) int {
	if m.place == nil {
		return d
	}
	return m.place[d]
}

// beams calls f for every element of every beam: its first unknown and its
// stiffness.
func (m *Model) beams(f func(first int, k [4][4]float64)) {
	for i, n := range m.lines {
		for e := range len(n.at) - 1 {
			f(n.first+2*e, m.sys.p.Beams[i].element(n.at[e+1]-n.at[e]))
		}
	}
}

// weigh adds the beams' own weight to f and returns its sum, N, and first moments,
// N·mm. The loads of an even weight at an element's ends are those of a clamped beam,
// textbook; shear does not change them.
func (m *Model) weigh(f []float64) (sum, mx, my float64) {
	for i, n := range m.lines {
		b := &m.sys.p.Beams[i]
		for e := range len(n.at) - 1 {
			l, at := n.at[e+1]-n.at[e], n.first+2*e
			w := b.Own * l / (b.To - b.From)
			for k, v := range [4]float64{w / 2, w * l / 12, w / 2, -w * l / 12} {
				f[at+k] -= v
			}
		}
		x, y := b.Place((b.From + b.To) / 2)
		sum, mx, my = sum+b.Own, mx+b.Own*x, my+b.Own*y
	}
	return sum, mx, my
}

// stiffness returns the arranged upper band of panel and beams without springs,
// rows as in a factor.
func (m *Model) stiffness() []float64 {
	w := m.band + group
	out := make([]float64, m.unknowns*w)
	m.sys.kept.each(func(r run, v []float64) {
		if m.place == nil {
			copy(out[r.row*w+r.column-r.row:], v)
			return
		}
		row := out[m.place[r.row]*w:]
		for i, v := range v {
			if v != 0 {
				row[m.place[r.column+i]-m.place[r.row]] += v
			}
		}
	})
	m.beams(func(first int, k [4][4]float64) {
		for i := range k {
			for j := range k {
				if p, q := m.place[first+i], m.place[first+j]; q >= p {
					out[p*w+q-p] += k[i][j]
				}
			}
		}
	})
	return out
}

// times returns K·u, springs left out.
func (m *Model) times(u []float64) []float64 {
	n := m.sys.g.nodes() * perNode
	out := m.sys.kept.times(u[:n])
	if len(m.lines) > 0 {
		out = append(out, make([]float64, len(u)-n)...)
		m.beams(func(first int, k [4][4]float64) {
			for i := range k {
				for j := range k {
					out[first+i] += k[i][j] * u[first+j]
				}
			}
		})
	}
	return out
}

// value is how far a spring is drawn out, mm: less than 0 where it is pressed.
func (sp *spring) value(u []float64) float64 {
	v := 0.0
	if sp.ride == nil || !sp.ride.end {
		v = sp.spot.value(u)
	}
	if sp.ride != nil {
		for i, d := range sp.ride.dofs {
			v += sp.ride.n[i] * u[d]
		}
	}
	return v
}

// push adds f at the places of a spring to the forces.
func (sp *spring) push(left []float64, f float64) {
	if sp.ride == nil || !sp.ride.end {
		for a, d := range sp.dofs {
			left[d] += f * sp.n[a]
		}
	}
	if sp.ride != nil {
		for a, d := range sp.ride.dofs {
			left[d] += f * sp.ride.n[a]
		}
	}
}

// grounded reports whether a spring leads to the ground: pads, and the ends of
// beams.
func (sp *spring) grounded() bool { return sp.pad != noPad }

// addSpring adds a spring's stiffness to an arranged band.
func (m *Model) addSpring(data []float64, stride int, sp *spring, stiff float64) {
	if sp.ride == nil && m.place == nil {
		for a, da := range sp.dofs {
			for b, db := range sp.dofs {
				if db >= da {
					data[da*stride+db-da] += stiff * sp.n[a] * sp.n[b]
				}
			}
		}
		return
	}
	var dofs [16]int
	var n [16]float64
	c := 0
	if sp.ride == nil || !sp.ride.end {
		for a, d := range sp.dofs {
			dofs[c], n[c] = m.at(d), sp.n[a]
			c++
		}
	}
	if sp.ride != nil {
		for a, d := range sp.ride.dofs {
			dofs[c], n[c] = m.at(d), sp.ride.n[a]
			c++
		}
	}
	for a := range c {
		for b := range c {
			if dofs[b] >= dofs[a] {
				data[dofs[a]*stride+dofs[b]-dofs[a]] += stiff * n[a] * n[b]
			}
		}
	}
}

// BeamForce is the state of a beam at one place.
type BeamForce struct {
	At   float64 // along the beam, panel axes, mm
	Bend float64 // how far it lies below the straight line between its ends, mm
	M    float64 // bending moment, N·mm: positive stretches its lower edge
	V    float64 // shear force, N: the larger of both sides of the place
}

// Beam returns the state of one beam, by its number, at its nodes from end to
// end. Moment and shear are by statics from what presses on it, point by point.
func (s *Solution) Beam(number int) []BeamForce {
	n := s.m.lines[number]
	last := len(n.at) - 1
	from, span := n.at[0], n.at[last]-n.at[0]
	type push struct{ at, f float64 }
	var on []push
	left := 0.0 // reaction under the first end
	for i := range s.m.springs {
		sp := &s.m.springs[i]
		if sp.ride == nil || sp.ride.beam != number || sp.ride.end || s.lifted[i] {
			continue
		}
		p := push{sp.y, -sp.k * sp.value(s.u)}
		if s.m.sys.p.Beams[number].AlongX {
			p.at = sp.x
		}
		on = append(on, p)
		left += p.f * (1 - (p.at-from)/span)
	}
	own := s.m.sys.p.Beams[number].Own
	left += own / 2
	v := func(k int) float64 { return s.u[n.first+2*k] }
	out := make([]BeamForce, len(n.at))
	for k, at := range n.at {
		t := (at - from) / span
		f := BeamForce{At: at, Bend: v(0)*(1-t) + v(last)*t - v(k), M: left*(at-from) - own*t*(at-from)/2, V: left - own*t}
		for _, p := range on {
			if p.at < at {
				f.M -= p.f * (at - p.at)
				f.V -= p.f
			}
		}
		out[k] = f
	}
	return out
}

// Settlement returns the largest sinking of a pad into its bed, its mean, or
// of a beam's end into what it stands on, mm.
func (s *Solution) Settlement() float64 {
	force := make([]float64, len(s.m.sys.p.Pads))
	most := 0.0
	for i := range s.m.springs {
		sp := &s.m.springs[i]
		switch {
		case s.lifted[i] || !sp.grounded():
		case sp.ride != nil:
			most = math.Max(most, -sp.value(s.u))
		default:
			force[sp.pad] -= sp.k * sp.value(s.u)
		}
	}
	for i, p := range s.m.sys.p.Pads {
		most = math.Max(most, force[i]/(p.K*p.SX*p.SY))
	}
	return most
}
