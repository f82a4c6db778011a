package plate

import "math"

// Web is the upright strip of one rib.
type Web struct {
	B      float64 // thickness
	E      float64 // modulus along the rib
	EUp    float64 // modulus upright, in the plane of the sheet
	G      float64 // edgewise shear modulus, all losses included
	GRoll  float64 // through-thickness shear modulus
	Own    float64 // share of its own axial and bending stiffness that the slots leave
	Height float64
	Joints [2]Give // with the top and the bottom skin

	open int8 // glue lines that are open, of [openTop] and [openBottom]
	mask int8 // 0 everything; 1 direct, 2 shear, 3 upright strain, sideways bending and twist
}

// keeps reports whether the part of a web's stiffness is wanted.
func (w Web) keeps(part int8) bool { return w.mask == 0 || w.mask == part }

// lineShape gives what a skin does along one side at r = 0..1, as rows over
// (u_i, w_i, β_i, u_j, w_j, β_j): displacement u and its slope, w and its
// slope, β and its slope, all along the side.
type lineShape struct {
	u, du, w, dw, beta, dbeta [6]float64
}

// at fills in the shape of a side; w is the cubic that goes with constant
// shear strain γ = −⅔φΔβ along it.
func (s side) at(r float64) (f lineShape) {
	bub := s.bubble()
	delta := [6]float64{0, bub[0], bub[1], 0, bub[2], bub[3]}
	l := s.l
	f.u[0], f.u[3] = 1-r, r
	f.du[0], f.du[3] = -1/l, 1/l
	f.beta[2], f.beta[5] = 1-r, r
	f.dbeta[2], f.dbeta[5] = -1/l, 1/l
	f.w[1] = 1
	f.w[2], f.w[5] = -l*(r-r*r/2), -l*r*r/2
	for c := range 6 {
		gamma := -2.0 / 3 * s.phi * delta[c]
		f.beta[c] += 4 * r * (1 - r) * delta[c]
		f.dbeta[c] += 4 * (1 - 2*r) / l * delta[c]
		f.w[c] += l * (gamma*r - delta[c]*(2*r*r-4*r*r*r/3))
		f.dw[c] = gamma - f.beta[c]
	}
	return f
}

// loose is the strains of a web with one open glue line: direct at its upper and
// lower edge, and shear, as rows over the unknowns of [Web.matrix].
func (w Web) loose(l, tTop, tBottom float64) (et, eb, g [12]float64) {
	if w.open == openTop {
		glued, open, shear := tee(l, tBottom/2, w.Height)
		copy(eb[6:], glued[:])
		copy(et[6:], open[:])
		copy(g[6:], shear[:])
		return et, eb, g
	}
	glued, open, shear := tee(l, -tTop/2, -w.Height)
	copy(et[:], glued[:])
	copy(eb[:], open[:])
	copy(g[:], shear[:])
	return et, eb, g
}

// matrix returns the 12 × 12 stiffness of a rib segment over the unknowns of
// the top skin's side and then the bottom skin's, each (u, w, β) at i and j
// along the rib: direct strain along the rib linear over the height, upright
// strain, and shear. There is no Poisson coupling, so that the web is free to
// bulge. Where one glue line is open the rib and the other skin
// are a T, see [tee]. tTop and tBottom are the skins' thicknesses: the rib's edges are half
// of them away from the middle planes and go with the slope of w there, not
// with β. How a skin shears through its thickness where a rib pulls at its face
// is in [ContactSlip]; with β it would be counted again as the mesh gets fine.
func (w Web) matrix(top, bottom side, tTop, tBottom float64) (k [12][12]float64) {
	h := w.Height
	for _, g := range gauss3 {
		r := (1 + g.x) / 2
		dx := top.l * g.w / 2
		t, b := top.at(r), bottom.at(r)
		var et, eb, ez, gt, gb [12]float64
		for c := range 6 {
			ut, ub := t.u[c]+tTop/2*t.dw[c], b.u[c]-tBottom/2*b.dw[c]
			et[c] = t.du[c] - tTop/2*t.dbeta[c]
			eb[6+c] = b.du[c] + tBottom/2*b.dbeta[c]
			ez[c], ez[6+c] = t.w[c]/h, -b.w[c]/h
			gt[c], gt[6+c] = ut/h+t.dw[c], -ub/h
			gb[c], gb[6+c] = ut/h, -ub/h+b.dw[c]
		}
		if w.open == openTop || w.open == openBottom {
			et, eb, gt = w.loose(top.l, tTop, tBottom)
			gb = gt
		}
		ea, gv, ev := w.Own*w.E*w.B*h*dx, w.G*w.B*h*dx, w.squeezed()*w.B*h*dx
		if !w.keeps(1) {
			ea = 0
		}
		if !w.keeps(2) {
			gv = 0
		}
		if !w.keeps(3) {
			ev = 0
		}
		for i := range 12 {
			for j := range 12 {
				k[i][j] += ea*linear(et[i], eb[i], et[j], eb[j]) + gv*linear(gt[i], gb[i], gt[j], gb[j]) + ev*ez[i]*ez[j]
			}
		}
	}
	return k
}

// linear is the mean over the height of the product of two fields that run
// straight from b to t.
func linear(t1, b1, t2, b2 float64) float64 {
	return (t1*t2+b1*b2)/3 + (t1*b2+b1*t2)/6
}

// squeezed returns the upright modulus in series with what both joints give, MPa.
// Where the skins' own shear near the ribs makes a joint stiffer than plates tell,
// it does not stiffen the rib by more than twice.
func (w Web) squeezed() float64 {
	own := w.Height / (w.EUp * w.B)
	return w.EUp * own / math.Max(own/2, own+w.Joints[0].Press+w.Joints[1].Press)
}

// upright returns the 4 × 4 stiffness per unit length of the rib as a strip
// on edge between the skins, over (V_b, β_b, V_t, β_t): sideways displacement
// of its lower and upper edge and rotation there. It is a Timoshenko beam of
// height h with bending stiffness E_up·b³/12, turning at both ends in joints that
// give. Textbook.
func (w Web) upright() (k [4][4]float64) {
	h := w.Height
	d := w.EUp * w.B * w.B * w.B / 12
	phi := 12 * d / (shearCorrection * w.GRoll * w.B * h * h)
	// Turns of both ends against the chord, for moments there: the strip's own
	// and its joints'.
	own := h / (12 * d)
	near, far := own*(4+phi), own*(phi-2)
	bottom, top := near+math.Max(0, w.Joints[1].Turn), near+math.Max(0, w.Joints[0].Turn)
	det := bottom*top - far*far
	kb, kt, kbt := top/det, bottom/det, -far/det
	// Turn against the chord: β − (V_t − V_b)/h, slope dV/dz = β at both ends.
	rows := [2][4]float64{{1 / h, 1, -1 / h, 0}, {1 / h, 0, -1 / h, 1}}
	for i := range 4 {
		for j := range 4 {
			k[i][j] = kb*rows[0][i]*rows[0][j] + kt*rows[1][i]*rows[1][j] + kbt*(rows[0][i]*rows[1][j]+rows[1][i]*rows[0][j])
		}
	}
	return k
}

// twist returns G·b³·h/3, the rib's own torsional stiffness.
func (w Web) twist() float64 { return w.G * w.B * w.B * w.B * w.Height / 3 }
