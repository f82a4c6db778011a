package plate

import "math"

// SkinStress is the state of one skin at the middle of a cell of the mesh, per
// mm of width: membrane forces (N/mm, tension positive) and bending moments
type SkinStress struct {
	X, Y        float64
	SX, SY      float64 // size of the cell, mm
	NX, NY, NXY float64 // membrane force, N/mm
	MX, MY, MXY float64 // moment of z·σ over the skin's thickness, N: positive stretches the upper face
	QX, QY      float64 // shear force through the thickness, N/mm
	FX, FY      float64 // moments that go with the stress at the faces, N: MX and MY, and what the warped section adds there
	Rib         bool    // under a rib
	Left        float64 // thickness left in a groove, about whose middle the moments are; 0 is the whole skin
}

// Upper returns the stress along x and y at the upper face of
// a skin of thickness t, MPa: N/t + 6·F/t².
func (s SkinStress) Upper(t float64) (sx, sy float64) {
	return s.NX/t + 6*s.FX/(t*t), s.NY/t + 6*s.FY/(t*t)
}

// Lower is the other face.
func (s SkinStress) Lower(t float64) (sx, sy float64) {
	return s.NX/t - 6*s.FX/(t*t), s.NY/t - 6*s.FY/(t*t)
}

// Skin returns the state of the top or the bottom skin at the middle of every
// cell, in a fixed order: along y, then the next column. At the middle the element's
// stresses are the most accurate; a peak right at a rib's face lies above them.
func (s *Solution) Skin(top bool) []SkinStress {
	sys := s.m.sys
	layer, offset := sys.p.Bottom, perSkin
	if top {
		layer, offset = sys.p.Top, 0
	}
	out := make([]SkinStress, 0, (len(sys.g.xs)-1)*(len(sys.g.ys)-1))
	plain := make([]bool, 0, cap(out))
	for i := range len(sys.g.xs) - 1 {
		for j := range len(sys.g.ys) - 1 {
			x0, x1, y0, y1 := sys.g.xs[i], sys.g.xs[i+1], sys.g.ys[j], sys.g.ys[j+1]
			a, b := x1-x0, y1-y0
			underX, underY := underRib((y0+y1)/2, sys.p.Along), underRib((x0+x1)/2, sys.p.Across)
			cut := sys.cutAt(top, i, j)
			seamX, seamY := sys.p.seam(top, true, (y0+y1)/2), sys.p.seam(top, false, (x0+x1)/2)
			covered := sys.p.covered(top, (x0+x1)/2, (y0+y1)/2)
			plain = append(plain, covered == 1 && !underX && !underY && !seamX && !seamY && cut.left == 0)
			p := layer.cut(cut).stiffness().local(over((y0+y1)/2, sys.p.Along, offset/perSkin), over((x0+x1)/2, sys.p.Across, offset/perSkin)).open(seamX, seamY).bare(covered)
			e := cut.middleAt(top, layer.T)
			var q [4][perSkin]float64
			for c, n := range sys.corners(i, j) {
				copy(q[c][:], s.u[n*perNode+offset:n*perNode+offset+perSkin])
				q[c][dofU] += e * q[c][dofBX]
				q[c][dofV] += e * q[c][dofBY]
			}
			out = append(out, p.middle(q, a, b, SkinStress{X: (x0 + x1) / 2, Y: (y0 + y1) / 2, SX: a, SY: b, Rib: underX || underY, Left: cut.left}))
		}
	}
	base := layer.stiffness()
	base.warp(out, plain, len(sys.g.ys)-1)
	return out
}

// warp adds to the moments that go with the faces' stresses. Shear runs through a
// thickness as a parabola and bends its section with it; where the shear force changes
// along x, the faces are strained by −Q,x/(10·G) at the upper one and the opposite at
// the lower one, beyond what the moment does, and the moment stays. In a sheet that is
// soft in rolling shear that is a good part of the stress at a bay's middle. The slopes
// of Q are read off the cells beside one, rows of them to a column, as far as all are
// plain: no rib, no seam, no groove. Alone in a bay a cell tells nothing. Source:
// derived; the exact plane solution of an evenly loaded beam has q·(E/G − 2·ν)/10 more
// at its faces, isotropic q/5, Timoshenko and Goodier, Theory of Elasticity,
// article 22, from memory.
func (p *plateStiffness) warp(cells []SkinStress, plain []bool, rows int) {
	alongX := func(s *SkinStress) (at, q float64) { return s.X, s.QX }
	alongY := func(s *SkinStress) (at, q float64) { return s.Y, s.QY }
	for i := range cells {
		s := &cells[i]
		s.FX, s.FY = s.MX, s.MY
		if !plain[i] {
			continue
		}
		beside := func(k int, here bool) *SkinStress {
			if here && plain[k] {
				return &cells[k]
			}
			return nil
		}
		ex := slope(beside(i-rows, i >= rows), s, beside(i+rows, i+rows < len(cells)), alongX) / (6 * p.s1) // s is 5/6·G·t
		ey := slope(beside(i-1, i%rows > 0), s, beside(i+1, i%rows < rows-1), alongY) / (6 * p.s2)
		s.FX -= p.d11*ex + p.d12*ey
		s.FY -= p.d12*ex + p.d22*ey
	}
}

// slope returns the slope at s of a quantity of the cells before it, of itself and
// after it: that of the parabola through three, of the line through two, 0 of one.
func slope(before, s, after *SkinStress, of func(*SkinStress) (at, q float64)) float64 {
	at, q := of(s)
	line := func(o *SkinStress) (gap, rise float64) {
		oAt, oQ := of(o)
		return oAt - at, (oQ - q) / (oAt - at)
	}
	switch {
	case before == nil && after == nil:
		return 0
	case before == nil:
		_, rise := line(after)
		return rise
	case after == nil:
		_, rise := line(before)
		return rise
	}
	back, a := line(before)
	ahead, b := line(after)
	return (a*ahead - b*back) / (ahead - back)
}

// middle fills in the resultants at the middle of a rectangle a × b with the
// corner values q. The incompatible modes and the bubbles' own curvature
// vanish there; the bubbles' share of the twist does not.
func (p *plateStiffness) middle(q [4][perSkin]float64, a, b float64, r SkinStress) SkinStress {
	dx := func(d int) float64 { return (q[1][d] + q[2][d] - q[0][d] - q[3][d]) / (2 * a) }
	dy := func(d int) float64 { return (q[2][d] + q[3][d] - q[0][d] - q[1][d]) / (2 * b) }
	ex, ey, g := dx(dofU), dy(dofV), dy(dofU)+dx(dofV)
	r.NX, r.NY, r.NXY = p.a11*ex+p.a12*ey, p.a12*ex+p.a22*ey, p.a66*g
	sx, sy := p.sides(a, b)
	bubble := func(s side, i, j, rot int) float64 {
		c := s.bubble()
		return c[0]*q[i][dofW] + c[1]*q[i][rot] + c[2]*q[j][dofW] + c[3]*q[j][rot]
	}
	low, high := bubble(sx, 0, 1, dofBX), bubble(sx, 3, 2, dofBX)
	left, right := bubble(sy, 0, 3, dofBY), bubble(sy, 1, 2, dofBY)
	kx, ky := dx(dofBX), dy(dofBY)
	kxy := dy(dofBX) + dx(dofBY) + (high-low)/b + (right-left)/a
	r.MX, r.MY, r.MXY = p.d11*kx+p.d12*ky, p.d12*kx+p.d22*ky, p.d66*kxy
	r.QX = p.s1 * -2.0 / 3 * sx.phi * (low + high) / 2
	r.QY = p.s2 * -2.0 / 3 * sy.phi * (left + right) / 2
	return r
}

// RibForce is the state of one rib at the middle of a segment between grid
// lines.
type RibForce struct {
	At         float64 // along the rib, panel axes, mm
	L          float64 // length of the segment, mm
	N          float64 // force along the rib, N
	M          float64 // moment of the rib alone, N·mm: positive stretches its lower edge
	V          float64 // shear force in the rib, N, for the shear strain as w rises along it
	FlowTop    float64 // shear flow to the top skin, N/mm; the skin takes FlowTop·t/2 of the shear force beside its QX
	FlowBottom float64
	Upright    float64 // upright stress, MPa, negative is squeezed
}

// Rib returns the state of one rib, by its number along or across.
func (s *Solution) Rib(along bool, number int) []RibForce {
	sys := s.m.sys
	ribs, cuts, faces := sys.p.Across, sys.g.ys, sys.g.xs
	if along {
		ribs, cuts, faces = sys.p.Along, sys.g.xs, sys.g.ys
	}
	r := ribs[number]
	lo, hi := r.faces(faces)
	out := make([]RibForce, 0, len(cuts)-1)
	sides := make([]int8, 0, len(cuts)-1)
	for c := range len(cuts) - 1 {
		var q [12]float64 // as in Web.matrix
		for skin := range 2 {
			for end := range 2 {
				for k, d := range [3]int{dofU, dofW, dofBX} {
					for _, face := range [2]int{lo, hi} {
						n := sys.g.node(c+end, face)
						if !along {
							n = sys.g.node(face, c+end)
						}
						q[6*skin+3*end+k] += s.u[n*perNode+skin*perSkin+turned(d, along)] / 2
					}
				}
			}
		}
		l := cuts[c+1] - cuts[c]
		tx, ty := sys.skins[0].sides(l, l)
		bx, by := sys.skins[1].sides(l, l)
		if !along {
			tx, bx = ty, by
		}
		w := sys.p.glued(r.Web, along, number, cuts[c], cuts[c+1])
		f := w.force(tx, bx, sys.p.Top.T, sys.p.Bottom.T, &q)
		f.At, f.L = (cuts[c]+cuts[c+1])/2, l
		out, sides = append(out, f), append(sides, w.open)
	}
	oneSided(out, sides)
	return out
}

// force returns what a rib carries at the middle of a segment with the
// displacements q of [Web.matrix].
func (w Web) force(top, bottom side, tTop, tBottom float64, q *[12]float64) RibForce {
	t, b := top.at(0.5), bottom.at(0.5)
	var et, eb, gt, gb, ez float64
	for c := range 6 {
		ut, ub := (t.u[c]+tTop/2*t.dw[c])*q[c], (b.u[c]-tBottom/2*b.dw[c])*q[6+c]
		et += (t.du[c] - tTop/2*t.dbeta[c]) * q[c]
		eb += (b.du[c] + tBottom/2*b.dbeta[c]) * q[6+c]
		gt += ut/w.Height - ub/w.Height + t.dw[c]*q[c]
		gb += ut/w.Height - ub/w.Height + b.dw[c]*q[6+c]
		ez += (t.w[c]*q[c] - b.w[c]*q[6+c]) / w.Height
	}
	if w.open == openTop || w.open == openBottom {
		te, be, g := w.loose(top.l, tTop, tBottom)
		et, eb, gt = dot(te[:], q[:]), dot(be[:], q[:]), dot(g[:], q[:])
		gb = gt
	}
	h := w.Height
	return RibForce{
		N:          w.Own * w.E * w.B * h * (et + eb) / 2,
		M:          w.Own * w.E * w.B * h * h / 12 * (eb - et),
		V:          w.G * w.B * h * (gt + gb) / 2,
		FlowTop:    w.G * w.B * gt,
		FlowBottom: w.G * w.B * gb,
		Upright:    w.squeezed() * ez,
	}
}

// Frequency returns Rayleigh's estimate of the first natural frequency, Hz,
// from the mean sag under the panel's own weight, mm: 0.18·√(g/w), g in mm/s².
// It is an estimate: the load on the top is left out. Source: Rayleigh's
// quotient for a mass on a spring, 1/(2π) = 0.159, with 0.18 for a distributed
// mass, textbook.
func Frequency(sagUnderOwnWeight float64) float64 {
	if !(sagUnderOwnWeight > 0) {
		return 0
	}
	return 0.18 * math.Sqrt(9806.65/sagUnderOwnWeight)
}
