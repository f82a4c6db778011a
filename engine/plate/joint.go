package plate

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/mat"
)

// Joint is the cross-section of one rib glued to one skin: a T in plane strain
// that repeats across the ribs for ever.
type Joint struct {
	Spacing float64 // of the ribs, mm
	T       float64 // thickness of the skin, mm
	E       float64 // of the skin in bending across the rib, over 1 − ν², MPa
	EZ      float64 // of the skin through its thickness, MPa
	GRoll   float64 // of the skin through its thickness, MPa

	B        float64 // thickness of the rib, mm
	Height   float64 // of the rib, mm; the cell takes half of it
	EUp      float64 // of the rib upright, MPa
	EThrough float64 // of the rib through its thickness, MPa
	GRib     float64 // of the rib through its thickness, MPa
}

// Give is what a joint does beyond plates that meet in lines: its edge turns
// and is pressed in by more than the middle planes tell, and the skin over it is
// stiffer than beside it. The zero value is a joint that gives nothing, the skin
// as stiff as elsewhere.
type Give struct {
	Turn  float64 // extra turn of the rib's edge for a moment of 1 N·mm per mm, 1/N
	Press float64 // extra approach of rib and skin for a force of 1 N per mm, mm²/N
	Stiff float64 // stiffness of the skin across the rib as a part of that beside it; 0 counts as 1
}

// ErrJoint is returned for a section without size or stiffness.
var ErrJoint = errors.New("the joint of rib and skin has no size")

// Give computes the joint with finite elements (the rectangle of the skins'
// membrane) under three loads: a moment at the rib with the skin hinged midway
// to the next ribs, which turn the same way; a force along the rib with the skin
// guided there; and a moment in the skin that passes over the rib. What plates
// that shear and a strip on edge would do is taken off, with the very terms that
// the panel is assembled from. Source: derived; with a rib and skin of rigid
// thickness there is no give, and the skin bends about its glued face.
func (j Joint) Give() (Give, error) { return j.solve(1) }

// solve computes the joint on a mesh so many times as fine: once is 5 % off in
// the turn and 30 % in the press of a usual joint, see the tests.
func (j Joint) solve(fine int) (Give, error) {
	for _, v := range [...]float64{j.T, j.E, j.EZ, j.GRoll, j.B, j.Height, j.EUp, j.EThrough, j.GRib, j.Spacing - j.B} {
		if !(v > 0) || math.IsInf(v, 0) {
			return Give{}, ErrJoint
		}
	}
	m := j.mesh(fine)
	n := 2 * m.nodes
	k := mat.NewSymBandDense(n, min(n-1, 2*m.reach+1), nil)
	raw := k.RawSymBand()
	m.each(func(c, r int) {
		s := plateStiffness{a11: j.E, a22: j.EZ, a66: j.GRoll}
		if r < m.edge {
			s = plateStiffness{a11: j.EThrough, a22: j.EUp, a66: j.GRib}
		}
		ke := s.membrane(m.ys[c+1]-m.ys[c], m.zs[r+1]-m.zs[r])
		var dofs [8]int
		for q, at := range [4]int{m.node(c, r), m.node(c+1, r), m.node(c+1, r+1), m.node(c, r+1)} {
			dofs[2*q], dofs[2*q+1] = 2*at, 2*at+1
		}
		for a := range 8 {
			for b := range 8 {
				if dofs[b] >= dofs[a] {
					raw.Data[dofs[a]*raw.Stride+dofs[b]-dofs[a]] += ke[a][b]
				}
			}
		}
	})
	// The skin's ends stay at their height, free to turn.
	last := len(m.ys) - 1
	stiff := 1e4 * raw.Data[2*m.node(0, m.mid)*raw.Stride]
	for _, c := range [2]int{0, last} {
		for r := m.edge; r < len(m.zs); r++ {
			raw.Data[(2*m.node(c, r)+1)*raw.Stride] += stiff
		}
	}
	raw.Data[2*m.node(0, m.mid)*raw.Stride] += stiff
	fac, ok := lapack64.Pbtrf(raw)
	if !ok {
		return Give{}, ErrJoint
	}
	solve := func(f []float64) []float64 {
		x := append([]float64(nil), f...)
		lapack64.Pbtrs(fac, blas64.General{Rows: n, Cols: 1, Stride: 1, Data: x})
		return x
	}
	foot, up := m.end(n)
	left, right := m.face(n, 0), m.face(n, last)
	ends := make([]float64, n)
	for i := range ends {
		ends[i] = left[i] - right[i]
	}
	bent, pushed, turned := solve(ends), solve(up), solve(foot)
	return j.beyondPlates(m, dot(foot, turned), dot(up, pushed), dot(ends, pushed), dot(ends, bent)), nil
}

// beyondPlates takes off what plates that meet in lines would do: turn, rise and
// bent are the section's answers to unit loads, tilt the turn of the skin's ends
// under the unit force. The elements hold the moment even along themselves and the
// shear even over a row; the plates are taken with the same error, so that it
// does not count as give.
func (j Joint) beyondPlates(m *jointMesh, turn, rise, tilt, bent float64) Give {
	d, s := j.E*j.T*j.T*j.T/12, j.GRoll*j.T/m.parabola(j.T)
	l, hr := (j.Spacing-j.B)/2, j.Height/2
	cubes := 0.0 // Σ a³/12 over the columns beside the rib
	for c := range m.from {
		a := m.ys[c+1] - m.ys[c]
		cubes += a * a * a / 12
	}
	var g Give
	g.Stiff = j.B / d / math.Max(bent-2*l/d, 1e-3*j.B/d)
	kd, ks := g.Stiff*d, g.Stiff*s
	r := 1 / j.Spacing
	g.Turn = turn - hr/(j.EUp*j.B*j.B*j.B/12) - r*r*(2*(l*l*l/3-cubes)/d+2*l/s+j.B*j.B*j.B/(12*kd)+j.B/ks)
	// Guided ends: the moment that turns them back.
	guided := rise - tilt*tilt/bent
	m0 := l * l / 4 / (l + j.B/(2*g.Stiff))
	g.Press = guided - hr/(j.EUp*j.B) - 2*((m0*m0*l-m0*l*l/2+l*l*l/12-cubes/4)/d+m0*m0*j.B/(2*kd)+l/(4*s))
	return g
}

// parabola returns the mean square of the shear over the skin's thickness for a
// mean of 1, were it a parabola: 6/5 with rows without number, textbook.
func (m *jointMesh) parabola(t float64) (sum float64) {
	// mean of 6·ζ·(1 − ζ) from a to b
	upTo := func(z float64) float64 { return 3*z*z - 2*z*z*z }
	for r := m.edge; r < len(m.zs)-1; r++ {
		a, b := m.zs[r]/t, m.zs[r+1]/t
		mean := (upTo(b) - upTo(a)) / (b - a)
		sum += mean * mean * (b - a)
	}
	return sum
}

func dot(a, b []float64) (sum float64) {
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

// jointMesh is the mesh of a joint: columns over y, rows over z, the rib below.
type jointMesh struct {
	ys, zs   []float64
	from, to int // columns at the rib's faces
	edge     int // row of the glue line
	mid      int // row of the skin's middle plane
	first    []int
	nodes    int
	reach    int // largest difference of the numbers of an element's nodes
}

func (j Joint) mesh(fine int) *jointMesh {
	m := &jointMesh{}
	out, over, through, down := 16*fine, 8*fine, 8*fine, 10*fine
	l := (j.Spacing - j.B) / 2
	graded := func(n, i int) float64 { v := float64(i) / float64(n); return v * math.Sqrt(v) }
	for i := out; i > 0; i-- {
		m.ys = append(m.ys, -j.B/2-l*graded(out, i))
	}
	m.from = len(m.ys)
	for i := range over + 1 {
		// finer at both faces
		m.ys = append(m.ys, -j.B/2*math.Cos(math.Pi*float64(i)/float64(over)))
	}
	m.to = len(m.ys) - 1
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
		m.reach = max(m.reach, rows+1)
	}
	m.reach = max(m.reach, len(m.zs)+m.edge)
	return m
}

// node numbers the node of column c and row r.
func (m *jointMesh) node(c, r int) int {
	if c < m.from || c > m.to {
		r -= m.edge
	}
	return m.first[c] + r
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

// linear stresses over a section give nodal loads for a unit couple (positive
// from y to z) and a unit force.
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
func (m *jointMesh) end(n int) (couple, force []float64) {
	couple, force = make([]float64, n), make([]float64, n)
	cs, fs := sectionLoads(m.ys[m.from : m.to+1])
	for i := range cs {
		at := 2*m.node(m.from+i, 0) + 1
		couple[at], force[at] = cs[i], fs[i]
	}
	return couple, force
}

// face returns the load of a unit couple on the skin's end at a column.
func (m *jointMesh) face(n, c int) []float64 {
	out := make([]float64, n)
	cs, _ := sectionLoads(m.zs[m.edge:])
	for i := range cs {
		out[2*m.node(c, m.edge+i)] = cs[i]
	}
	return out
}
