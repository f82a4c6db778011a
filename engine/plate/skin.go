package plate

import "math"

// Layer is one skin, as it lies in the panel.
type Layer struct {
	T              float64 // thickness
	Ex, Ey         float64 // in-plane moduli along x and y
	EBendX, EBendY float64 // bending moduli along x and y
	G              float64 // in-plane shear modulus
	GRoll          float64 // through-thickness shear modulus
	EZ             float64 // modulus through the thickness
	Nu             float64 // in-plane Poisson ratio νxy: strain along y for a pull along x
}

// Turned returns the layer as it lies along y.
func (l Layer) Turned() Layer {
	l.Nu *= l.Ey / l.Ex
	l.Ex, l.Ey = l.Ey, l.Ex
	l.EBendX, l.EBendY = l.EBendY, l.EBendX
	return l
}

// BendAcross returns the modulus that goes with bending along y where nothing
// moves along x, MPa: E_y/(1 − ν_xy·ν_yx).
func (l Layer) BendAcross() float64 {
	return l.EBendY / (1 - l.Nu*l.Nu*l.EBendY/l.EBendX)
}

// plateStiffness is what the elements of one skin are made of.
type plateStiffness struct {
	a11, a22, a12, a66 float64 // membrane, N/mm
	d11, d22, d12, d66 float64 // bending, N·mm
	s1, s2             float64 // transverse shear, N/mm
}

// shearCorrection is Reissner's 5/6 for a homogeneous section, textbook.
const shearCorrection = 5.0 / 6

func (l Layer) stiffness() plateStiffness {
	in := func(ex, ey float64) (q11, q22, q12 float64) {
		nuyx := l.Nu * ey / ex
		f := 1 / (1 - l.Nu*nuyx)
		return ex * f, ey * f, nuyx * ex * f
	}
	var p plateStiffness
	q11, q22, q12 := in(l.Ex, l.Ey)
	p.a11, p.a22, p.a12, p.a66 = q11*l.T, q22*l.T, q12*l.T, l.G*l.T
	q11, q22, q12 = in(l.EBendX, l.EBendY)
	c := l.T * l.T * l.T / 12
	p.d11, p.d22, p.d12, p.d66 = q11*c, q22*c, q12*c, l.G*c
	p.s1 = shearCorrection * l.GRoll * l.T
	p.s2 = p.s1
	return p
}

// Corner numbering of a rectangle: 0 (0,0), 1 (a,0), 2 (a,b), 3 (0,b).
var cornerXi = [4]float64{-1, 1, 1, -1}
var cornerEta = [4]float64{-1, -1, 1, 1}

const gauss2 = 0.5773502691896257 // 1/√3

// membrane returns the 8 × 8 stiffness of a rectangle a × b in its plane, per
// corner u, v: the bilinear element with Wilson's incompatible modes (Taylor's
// form), which on a rectangle passes the patch test and bends without locking.
// There the modes integrate by hand: the even strain Q, and for the two
// patterns ±1 in turn at the corners bending about either axis, free to narrow
// and without shear; derived.
func (p *plateStiffness) membrane(a, b float64) (k [8][8]float64) {
	u := (p.a11 - p.a12*p.a12/p.a22) * b / a / 12
	v := (p.a22 - p.a12*p.a12/p.a11) * a / b / 12
	q11, q22, q12, q66 := p.a11*b/a/4, p.a22*a/b/4, p.a12/4, p.a66/4
	for i := range 4 {
		for j := range 4 {
			x, y := cornerXi[i]*cornerXi[j], cornerEta[i]*cornerEta[j]
			k[2*i][2*j] = q11*x + q66*a/b*y + u*x*y
			k[2*i+1][2*j+1] = q22*y + q66*b/a*x + v*x*y
			xy, yx := cornerXi[i]*cornerEta[j], cornerEta[i]*cornerXi[j]
			k[2*i][2*j+1] = q12*xy + q66*yx
			k[2*i+1][2*j] = q12*yx + q66*xy
		}
	}
	return k
}

// addBDB adds w·BᵀDB.
func addBDB(k [][12]float64, b [][12]float64, d [3][3]float64, w float64) {
	var db [3][12]float64
	for r := range 3 {
		for c := range 12 {
			db[r][c] = d[r][0]*b[0][c] + d[r][1]*b[1][c] + d[r][2]*b[2][c]
		}
	}
	for i := range 12 {
		for j := range 12 {
			k[i][j] += w * (b[0][i]*db[0][j] + b[1][i]*db[1][j] + b[2][i]*db[2][j])
		}
	}
}

// side is one side of a plate element, from corner i to corner j along +s.
type side struct {
	l   float64 // length
	phi float64 // 12·D/(S·l²), how much shear matters
}

// bubble returns Δβ of a side as a function of (w_i, β_i, w_j, β_j): the part
// of β that is quadratic along it,
//
//	Δβ = −3/(2l(1+φ))·(w_j − w_i + l/2·(β_i + β_j))
func (s side) bubble() [4]float64 {
	f := -1.5 / (s.l * (1 + s.phi))
	return [4]float64{-f, f * s.l / 2, f, f * s.l / 2}
}

// shear returns the shear strain γ = −⅔φΔβ, the same all along the side, as a
// function of (w_i, β_i, w_j, β_j).
func (s side) shear() [4]float64 {
	g := s.bubble()
	for i := range g {
		g[i] *= -2.0 / 3 * s.phi
	}
	return g
}

// sides returns the sides along x and along y of a rectangle a × b.
func (p *plateStiffness) sides(a, b float64) (x, y side) {
	return side{a, 12 * p.d11 / (p.s1 * a * a)}, side{b, 12 * p.d22 / (p.s2 * b * b)}
}

// bending returns the 12 × 12 stiffness of a rectangle a × b in bending, per
// corner w, βx, βy: the discrete Kirchhoff–Mindlin quadrilateral on a
// rectangle. Rotations are bilinear with a quadratic bubble along each side
// that makes the shear strain constant there; it neither locks when thin nor
// is too stiff when thick. Source: I. Katili, A new discrete Kirchhoff–Mindlin
// element, IJNME 36 (1993), from memory; the bubble's φ re-derived for
// orthotropic plates from moment equilibrium along the side.
func (p *plateStiffness) bending(a, b float64) (k [12][12]float64) {
	sx, sy := p.sides(a, b)
	// Δβ of the four sides as rows over the 12 unknowns.
	var low, high, right, left [12]float64 // y = 0, y = b (x-sides); x = a, x = 0 (y-sides)
	put := func(row *[12]float64, i, j, rot int, c [4]float64) {
		row[3*i], row[3*i+rot], row[3*j], row[3*j+rot] = c[0], c[1], c[2], c[3]
	}
	bx, by := sx.bubble(), sy.bubble()
	put(&low, 0, 1, 1, bx)
	put(&high, 3, 2, 1, bx)
	put(&left, 0, 3, 2, by)
	put(&right, 1, 2, 2, by)
	db := [3][3]float64{{p.d11, p.d12, 0}, {p.d12, p.d22, 0}, {0, 0, p.d66}}
	for _, xi := range gauss3 {
		for _, eta := range gauss3 {
			var bb [3][12]float64
			for i := range 4 {
				nx := cornerXi[i] * (1 + cornerEta[i]*eta.x) / 4 * 2 / a
				ny := cornerEta[i] * (1 + cornerXi[i]*xi.x) / 4 * 2 / b
				bb[0][3*i+1], bb[1][3*i+2] = nx, ny
				bb[2][3*i+1], bb[2][3*i+2] = ny, nx
			}
			// bubbles: βx has ½(1−ξ²)(1∓η)·Δ, βy has ½(1−η²)(1±ξ)·Δ
			qx, qy := 1-xi.x*xi.x, 1-eta.x*eta.x
			var shx, shy [12]float64
			for c := range 12 {
				lo, hi, le, ri := low[c], high[c], left[c], right[c]
				bb[0][c] += -2 * xi.x * (2 / a) * ((1-eta.x)*lo + (1+eta.x)*hi) / 2
				bb[2][c] += qx * (hi - lo) / 2 * (2 / b)
				bb[1][c] += -2 * eta.x * (2 / b) * ((1-xi.x)*le + (1+xi.x)*ri) / 2
				bb[2][c] += qy * (ri - le) / 2 * (2 / a)
				shx[c] = -2.0 / 3 * sx.phi * ((1-eta.x)*lo + (1+eta.x)*hi) / 2
				shy[c] = -2.0 / 3 * sy.phi * ((1-xi.x)*le + (1+xi.x)*ri) / 2
			}
			w := a * b / 4 * xi.w * eta.w
			addBDB(k[:], bb[:], db, w)
			for i := range 12 {
				for j := range 12 {
					k[i][j] += w * (p.s1*shx[i]*shx[j] + p.s2*shy[i]*shy[j])
				}
			}
		}
	}
	return k
}

// gauss3 is the three-point Gauss rule on −1..1.
var gauss3 = [3]struct{ x, w float64 }{{-math.Sqrt(0.6), 5.0 / 9}, {0, 8.0 / 9}, {math.Sqrt(0.6), 5.0 / 9}}
