package plate

import (
	"context"
	"math"
)

// jointMesh is the mesh of a joint: columns over y, rows over z, the rib below.
type jointMesh struct {
	ys, zs   []float64
	from, to int // columns at the rib's faces
	edge     int // row of the glue line
	mid      int // row of the skin's middle plane
	cut      int // column over which the skin is cut, or -1
	first    []int
	nodes    int
	reach    int // largest difference of the numbers of an element's nodes
}

// jointKind says what of the section there is.
type jointKind uint8

const (
	inner jointKind = iota
	outer           // no skin beyond the rib's left face
	split           // the skin is cut over the middle of the rib
)

func (j Joint) mesh(fine int, kind jointKind) *jointMesh {
	m := &jointMesh{cut: -1}
	out, over, through, down := 16*fine, 8*fine, 8*fine, 10*fine
	l := (j.Spacing - j.B) / 2
	graded := func(n, i int) float64 { v := float64(i) / float64(n); return v * math.Sqrt(v) }
	for i := out; i > 0 && kind != outer; i-- {
		m.ys = append(m.ys, -j.B/2-l*graded(out, i))
	}
	m.from = len(m.ys)
	for i := range over + 1 {
		// finer at both faces
		m.ys = append(m.ys, -j.B/2*math.Cos(math.Pi*float64(i)/float64(over)))
	}
	m.to = len(m.ys) - 1
	if kind == split {
		m.cut = m.from + over/2
	}
	for i := 1; i <= out; i++ {
		m.ys = append(m.ys, j.B/2+l*graded(out, i))
	}
	for i := down; i > 0; i-- {
		m.zs = append(m.zs, -j.Height/2*graded(down, i))
	}
	m.edge = len(m.zs)
	for i := range through / 2 {
		m.zs = append(m.zs, j.T/2*graded(through/2, i))
	}
	for i := range through/2 + 1 {
		m.zs = append(m.zs, j.T/2+j.T*float64(i)/float64(through))
	}
	m.mid = m.edge + through/2
	for c := range m.ys {
		rows := len(m.zs)
		if c < m.from || c > m.to {
			rows -= m.edge
		}
		m.first = append(m.first, m.nodes)
		m.nodes += rows
		if c == m.cut {
			m.nodes += len(m.zs) - 1 - m.edge
		}
	}
	m.each(func(c, r int) { m.reach = max(m.reach, m.node(c+1, r+1)-m.node(c, r)) })
	return m
}

// node numbers the node of column c and row r.
func (m *jointMesh) node(c, r int) int {
	if c < m.from || c > m.to {
		r -= m.edge
	}
	return m.first[c] + r
}

// right numbers the node for what lies to its right: over a cut the skin has
// two.
func (m *jointMesh) right(c, r int) int {
	if c == m.cut && r > m.edge {
		return m.node(c, r) + len(m.zs) - 1 - m.edge
	}
	return m.node(c, r)
}

// each calls f for every cell that is filled.
func (m *jointMesh) each(f func(c, r int)) {
	for c := range len(m.ys) - 1 {
		for r := range len(m.zs) - 1 {
			if r >= m.edge || c >= m.from && c < m.to {
				f(c, r)
			}
		}
	}
}

// jointSection is a section ready to be loaded.
type jointSection struct {
	*jointMesh
	fac factor
}

// section assembles and factors a section. The skin's ends stay at their height
// and are free to turn.
func (j Joint) section(fine int, kind jointKind) (*jointSection, error) {
	for _, v := range [...]float64{j.T, j.E, j.EZ, j.GRoll, j.B, j.Height, j.EUp, j.EThrough, j.GRib, j.Spacing - j.B} {
		if !(v > 0) || math.IsInf(v, 0) {
			return nil, ErrJoint
		}
	}
	m := j.mesh(fine, kind)
	n := 2 * m.nodes
	fac := lentFactor(n, min(n-1, 2*m.reach+1))
	m.each(func(c, r int) {
		s := plateStiffness{a11: j.E, a22: j.EZ, a66: j.GRoll}
		if r < m.edge {
			s = plateStiffness{a11: j.EThrough, a22: j.EUp, a66: j.GRib}
		}
		ke := s.membrane(m.ys[c+1]-m.ys[c], m.zs[r+1]-m.zs[r])
		var dofs [8]int
		for q, at := range [4]int{m.right(c, r), m.node(c+1, r), m.node(c+1, r+1), m.right(c, r+1)} {
			dofs[2*q], dofs[2*q+1] = 2*at, 2*at+1
		}
		for a := range 8 {
			for b := range 8 {
				if dofs[b] >= dofs[a] {
					fac.data[dofs[a]*fac.stride+dofs[b]-dofs[a]] += ke[a][b]
				}
			}
		}
	})
	last := len(m.ys) - 1
	stiff := 1e4 * fac.data[2*m.node(0, m.mid)*fac.stride]
	ends := []int{0, last}
	if kind == outer {
		// Nothing pushes up or down: one place is held, and the turn of the
		// end by its couple's other half.
		ends = ends[1:]
	}
	for _, c := range ends {
		for r := m.edge; r < len(m.zs); r++ {
			fac.data[(2*m.node(c, r)+1)*fac.stride] += stiff
		}
	}
	fac.data[2*m.node(last, m.mid)*fac.stride] += stiff
	if kind == outer {
		fac.data[2*m.node(last, len(m.zs)-1)*fac.stride] += 1e-6 * stiff
	}
	if fac.cholesky(context.Background()) != nil { // half a millisecond: nothing to stop
		fac.free()
		return nil, ErrJoint
	}
	return &jointSection{m, fac}, nil
}

// free gives the factor's memory back; the section is of no more use.
func (s *jointSection) free() { s.fac.free() }

func (s *jointSection) solve(f []float64) []float64 {
	x := append([]float64(nil), f...)
	if s.fac.solve(context.Background(), x) != nil {
		return nil // it never ends
	}
	return x
}

// sectionLoads returns the nodal loads of a unit couple, which pulls at the far end,
// and of a unit force, spread as a beam's stresses are.
func sectionLoads(at []float64) (couple, force []float64) {
	lo, hi := at[0], at[len(at)-1]
	size, mid := hi-lo, (hi+lo)/2
	couple, force = make([]float64, len(at)), make([]float64, len(at))
	for i := range len(at) - 1 {
		a, b := at[i], at[i+1]
		w := b - a
		force[i] += w / 2 / size
		force[i+1] += w / 2 / size
		f := 12 / (size * size * size)
		couple[i] += f * w / 6 * (2*(a-mid) + (b - mid))
		couple[i+1] += f * w / 6 * ((a - mid) + 2*(b-mid))
	}
	return couple, force
}

// end returns the loads of a unit couple and of a unit force up on the rib's
// middle height.
func (s *jointSection) end() (couple, force []float64) {
	couple, force = make([]float64, 2*s.nodes), make([]float64, 2*s.nodes)
	cs, fs := sectionLoads(s.ys[s.from : s.to+1])
	for i := range cs {
		at := 2*s.node(s.from+i, 0) + 1
		couple[at], force[at] = cs[i], fs[i]
	}
	return couple, force
}

// face returns the load of a unit force (0) or couple (1) along y on the skin's
// end at a column.
func (s *jointSection) face(c, what int) []float64 {
	out := make([]float64, 2*s.nodes)
	couple, force := sectionLoads(s.zs[s.edge:])
	for i, v := range [2][]float64{force, couple}[what] {
		out[2*s.node(c, s.edge+i)] = v
	}
	return out
}

// across is that load on the left end and its opposite on the right one.
func (s *jointSection) across(what int) []float64 {
	out := s.face(0, what)
	for i, v := range s.face(len(s.ys)-1, what) {
		out[i] -= v
	}
	return out
}
