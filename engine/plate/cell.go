package plate

import (
	"context"
	"errors"
	"math"
	"slices"
)

// Cell is one pitch of a slotted rib with the strips of skin that go with it:
// an I-section in plane stress that repeats along the rib for ever.
type Cell struct {
	Pitch       float64 // distance of the slots
	Height      float64 // of the rib
	B           float64 // thickness of the rib
	SlotWidth   float64
	SlotDepth   float64 // as cut, from the upper edge
	Flange      float64 // width of skin that goes with the rib
	Top, Bottom Layer   // x along the rib
	E, EUp, G   float64 // of the rib: along, upright, edgewise shear
	Nu          float64 // of the rib: strain upright for a pull along
}

// ErrCell is returned for a cell whose slot leaves nothing of the rib or
// nothing between one slot and the next.
var ErrCell = errors.New("the slot leaves nothing of the rib")

// Slotted returns what the slots leave of the rib's own bending stiffness and
// of its shear modulus:
//
//	kb = 1 − (EI_plain − EI_slot)/(E·b·h³/12)
//	ks = 1 − (S_plain − S_slot)/(G·b·d²/h)
//
// EI comes from an imposed curvature, S from an imposed shear with the mean
// rotation between the skins held at zero, both with a periodic remainder,
// each with and without the slot on the same mesh. The slot stays open: laps
// that touch or are glued lie between these factors and 1. Source: first-order
// homogenization of a periodic beam, textbook. It returns ErrCell or the error
// of ctx.
func (c Cell) Slotted(ctx context.Context) (kb, ks float64, err error) {
	if !(c.SlotDepth >= 0 && c.SlotDepth < c.Height && c.SlotWidth > 0 && c.SlotWidth < c.Pitch && c.B > 0 && c.Flange > 0) {
		return 0, 0, ErrCell
	}
	ei0, s0, err := c.solve(ctx, false)
	if err != nil {
		return 0, 0, err
	}
	ei1, s1, err := c.solve(ctx, true)
	if err != nil {
		return 0, 0, err
	}
	d := c.Height + (c.Top.T+c.Bottom.T)/2
	kb = 1 - (ei0-ei1)/(c.E*c.B*c.Height*c.Height*c.Height/12)
	ks = 1 - (s0-s1)/(c.G*c.B*d*d/c.Height)
	return kb, ks, nil
}

// cellMesh is the mesh of a cell: columns along x, rows over z.
type cellMesh struct {
	xs, zs            []float64
	low, high         int // rows of the rib's edges
	slotLow           int // row of the slot's floor
	slotFrom, slotTo  int // columns of the slot
	topMid, bottomMid int // rows of the skins' middle planes
	column            []int
}

func (c Cell) mesh() cellMesh {
	var m cellMesh
	// Fine at the slot, coarser away from it; the slot is in the middle.
	half := (c.Pitch - c.SlotWidth) / 2
	n := int(math.Min(12, math.Max(4, math.Ceil(half/(c.Height/10)))))
	for i := range n {
		m.xs = append(m.xs, half*(1-math.Pow(1-float64(i)/float64(n), 1.5)))
	}
	m.slotFrom = len(m.xs)
	m.xs = append(m.xs, half, half+c.SlotWidth/2, half+c.SlotWidth)
	m.slotTo = len(m.xs) - 1
	for i := n - 1; i >= 0; i-- {
		m.xs = append(m.xs, c.Pitch-m.xs[i])
	}
	rows := func(from, to float64, n int) {
		for i := 1; i <= n; i++ {
			m.zs = append(m.zs, from+(to-from)*float64(i)/float64(n))
		}
	}
	m.zs = []float64{0}
	rows(0, c.Bottom.T, 2)
	m.bottomMid, m.low = 1, 2
	floor := c.Bottom.T + c.Height - c.SlotDepth
	below := int(math.Max(3, math.Min(12, math.Round(12*(c.Height-c.SlotDepth)/c.Height))))
	rows(c.Bottom.T, floor, below)
	m.slotLow = m.low + below
	if c.SlotDepth > 0 {
		rows(floor, c.Bottom.T+c.Height, 15-below)
	}
	m.high = len(m.zs) - 1
	rows(c.Bottom.T+c.Height, c.Bottom.T+c.Height+c.Top.T, 2)
	m.topMid = m.high + 1
	// Nodes are numbered row by row, and the columns from both ends in turn, so
	// that the last, which meets the first again, is near it in the band.
	cols := len(m.xs) - 1
	m.column = make([]int, cols+1)
	for i := range cols {
		m.column[i] = 2 * i
		if 2*i >= cols {
			m.column[i] = 2*(cols-1-i) + 1
		}
	}
	m.column[cols] = m.column[0]
	return m
}

// solve returns bending and shear stiffness of the cell, N·mm² and N.
func (c Cell) solve(ctx context.Context, slot bool) (ei, s float64, err error) {
	m := c.mesh()
	cols, rows := len(m.xs)-1, len(m.zs)
	n := 2 * cols * rows
	band := min(n-1, 2*(cols+2)+1)
	k := lentFactor(n, band)
	defer k.free()
	dof := func(i, j int) int { return 2 * (j*cols + m.column[i]) }
	// Displacements imposed by unit curvature, stretch and shear strain.
	imposed := func(i, j int) [3][2]float64 {
		x := m.xs[i]
		return [3][2]float64{{x * m.zs[j], -x * x / 2}, {x, 0}, {0, x}}
	}
	const bend, stretch, shear = 0, 1, 2
	var f [3][]float64
	for q := range f {
		f[q] = make([]float64, n)
	}
	var e [3][3]float64 // energies of the imposed fields, then of the whole
	for i := range cols {
		for j := range rows - 1 {
			p, ok := c.material(&m, i, j, slot)
			if !ok {
				continue
			}
			ke := p.membrane(m.xs[i+1]-m.xs[i], m.zs[j+1]-m.zs[j])
			var dofs [8]int
			var u [3][8]float64
			for q, at := range [4][2]int{{i, j}, {i + 1, j}, {i + 1, j + 1}, {i, j + 1}} {
				d := dof(at[0], at[1])
				dofs[2*q], dofs[2*q+1] = d, d+1
				for r, v := range imposed(at[0], at[1]) {
					u[r][2*q], u[r][2*q+1] = v[0], v[1]
				}
			}
			for a := range 8 {
				var held [3]float64
				for b := range 8 {
					for r := range held {
						held[r] += ke[a][b] * u[r][b]
					}
					if dofs[b] >= dofs[a] {
						k.data[dofs[a]*k.stride+dofs[b]-dofs[a]] += ke[a][b]
					}
				}
				for r, v := range held {
					f[r][dofs[a]] -= v
					for q := range 3 {
						e[q][r] += u[q][a] * v
					}
				}
			}
		}
	}
	// Two rigid translations, and nodes inside the slot that belong to nothing.
	ground := 1e-9 * k.data[0]
	for d := range n {
		if k.data[d*k.stride] == 0 {
			k.data[d*k.stride] = 1
		}
	}
	hold := dof(0, m.bottomMid)
	for q := range 2 {
		k.data[(hold+q)*k.stride] += 1e9 * ground
	}
	if err := k.cholesky(ctx); errors.Is(err, errPivot) {
		return 0, 0, ErrCell
	} else if err != nil {
		return 0, 0, err
	}
	// Mean rotation between the skins: mean u of the top skin's middle plane
	// less that of the bottom skin's.
	g := make([]float64, n)
	for i := range cols {
		w := (m.xs[i+1] - m.xs[i]) / 2 / c.Pitch
		for _, at := range [2]int{i, i + 1} {
			g[dof(at, m.topMid)] += w
			g[dof(at, m.bottomMid)] -= w
		}
	}
	var answers [4][]float64
	for q, f := range [4][]float64{f[0], f[1], f[2], g} {
		answers[q] = slices.Clone(f)
		if err := k.solve(ctx, answers[q]); err != nil {
			return 0, 0, err
		}
	}
	x, y := answers[:3], answers[3]
	dot := func(a, b []float64) (sum float64) {
		for i := range a {
			sum += a[i] * b[i]
		}
		return sum
	}
	for r := range 2 {
		for q := range 2 {
			e[r][q] -= dot(f[r], x[q])
		}
	}
	// No axial force: the neutral axis finds its place.
	ei = (e[bend][bend] - e[bend][stretch]*e[stretch][bend]/e[stretch][stretch]) / c.Pitch
	xs := x[shear]
	pull := dot(g, xs) / dot(g, y)
	// With the constraint the remainder no longer balances the imposed field,
	// so the energy is summed in full: e − 2·f·x + x·K·x with K·x = f − pull·g.
	s = e[shear][shear]
	for i := range xs {
		v := xs[i] - pull*y[i]
		s += -2*f[shear][i]*v + v*(f[shear][i]-pull*g[i])
	}
	return ei, s / c.Pitch, nil
}

// material returns the plane-stress stiffness of an element, thickness
// included, or false where there is nothing.
func (c Cell) material(m *cellMesh, i, j int, slot bool) (plateStiffness, bool) {
	plane := func(ex, ez, nu, g, width float64) plateStiffness {
		nuzx := nu * ez / ex
		f := width / (1 - nu*nuzx)
		return plateStiffness{a11: ex * f, a22: ez * f, a12: nuzx * ex * f, a66: g * width}
	}
	skin := func(l Layer) plateStiffness {
		return plane(l.Ex, l.EZ, 0, l.GRoll, c.Flange)
	}
	switch {
	case j < m.low:
		return skin(c.Bottom), true
	case j >= m.high:
		return skin(c.Top), true
	case slot && j >= m.slotLow && i >= m.slotFrom && i < m.slotTo:
		return plateStiffness{}, false
	}
	return plane(c.E, c.EUp, c.Nu, c.G, c.B), true
}
