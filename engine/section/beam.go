package section

import "math"

// Skin is one face sheet seen along the axis of bending.
type Skin struct {
	T     float64 // thickness
	E     float64 // in-plane modulus along the beam
	EBend float64 // bending modulus along the beam
	G     float64 // in-plane shear modulus
	GRoll float64 // rolling shear modulus
}

// Web is the set of ribs along the beam, all alike.
type Web struct {
	N       int     // ribs
	B       float64 // thickness of one rib
	E       float64 // modulus along the rib
	G       float64 // edgewise shear modulus
	Bending float64 // slot factor on the rib's own bending stiffness, 0..1
	Shear   float64 // slot factor on the shear modulus, 0..1
}

// Rim is a pair of edge bands along the beam, over the full height and taken
// as rigidly glued.
type Rim struct {
	B float64 // thickness of both bands together; 0 is none
	E float64
	G float64
}

// Panel is a hollow panel seen along one axis of bending: a composite beam of
// width Width, with a clear core of depth H between the skins.
type Panel struct {
	Width       float64
	H           float64
	Top, Bottom Skin
	Web         Web
	Rim         Rim
}

// Rigidity is a [Panel] at one wave number.
type Rigidity struct {
	EI          float64 // N·mm²
	Neutral     float64 // height of the neutral axis above the underside, mm
	GammaTop    float64 // share of the top skin that works with the ribs, 0..1
	GammaBottom float64
	LagTop      float64 // stress at the rib over the mean stress of the top skin, ≥ 1
	LagBottom   float64
	SkinTop     float64 // EI's share of the top skin's membrane, N·mm²
	SkinBottom  float64
}

// Connection holds what does not depend on the wave number: make it once with
// [Panel.Connect] and use it for every harmonic.
type Connection struct {
	slipTop, slipBottom float64
}

// Spacing returns the skin width that each rib serves, mm.
func (p Panel) Spacing() float64 { return p.Width / float64(p.Web.N) }

// Connect works out the slip of both glue lines.
func (p Panel) Connect() Connection {
	s := p.Spacing()
	return Connection{
		slipTop:    Slip(p.Web.B, s, p.Top.T, p.Top.GRoll, p.Top.G),
		slipBottom: Slip(p.Web.B, s, p.Bottom.T, p.Bottom.GRoll, p.Bottom.G),
	}
}

// At returns the bending stiffness for a sine of wave number k = mπ/L, per mm:
//
//	γ = 1/(1 + k²·E·t·s·(c + λ)),  z0 = Σ γEAz / Σ γEA,
//	EI = Σ E·I_own + Σ γ·E·A·(z − z0)²
//
// with c from [Slip] and λ from [ShearLag]; c + λ is not let below zero. c is
// that of long waves: against the anti-plane problem with the skin's stretching
// in it, γ of the first term is right to .001 and of the third to .01, on a
// span of ten rib spacings; under ribs as wide as half their spacing the third
// is off by .05 and shorter waves, which hardly sag, come out too stiff. The
// ribs' own bending stiffness carries the slot factor. k = 0 gives the panel
// with perfectly rigid glue lines. Source: the γ-method of EN 1995-1-1 Annex B
// (from memory), with the connection's slip modulus replaced by 1/(c + λ).
func (p Panel) At(k float64, c Connection) Rigidity {
	s := p.Spacing()
	r := Rigidity{GammaTop: 1, GammaBottom: 1, LagTop: 1, LagBottom: 1}
	if k > 0 {
		r.GammaTop, r.LagTop = p.Top.share(k, s, c.slipTop)
		r.GammaBottom, r.LagBottom = p.Bottom.share(k, s, c.slipBottom)
	}
	total := p.Bottom.T + p.H + p.Top.T
	zTop, zBottom, zWeb := total-p.Top.T/2, p.Bottom.T/2, p.Bottom.T+p.H/2
	eaTop := r.GammaTop * p.Top.E * p.Top.T * p.Width
	eaBottom := r.GammaBottom * p.Bottom.E * p.Bottom.T * p.Width
	eaWeb := p.Web.Bending * p.Web.E * p.Web.B * p.H * float64(p.Web.N)
	eaRim := p.Rim.E * p.Rim.B * total
	r.Neutral = (eaTop*zTop + eaBottom*zBottom + eaWeb*zWeb + eaRim*total/2) / (eaTop + eaBottom + eaWeb + eaRim)
	z := r.Neutral
	r.SkinTop = eaTop * (zTop - z) * (zTop - z)
	r.SkinBottom = eaBottom * (zBottom - z) * (zBottom - z)
	own := p.Width / 12 * (p.Top.EBend*cube(p.Top.T) + p.Bottom.EBend*cube(p.Bottom.T))
	web := eaWeb * (p.H*p.H/12 + (zWeb-z)*(zWeb-z))
	rim := eaRim * (total*total/12 + (total/2-z)*(total/2-z))
	r.EI = r.SkinTop + r.SkinBottom + own + web + rim
	return r
}

// share returns the working share of a skin and the ratio of the stress at
// the rib to the skin's mean stress.
func (s Skin) share(k, spacing, slip float64) (gamma, lag float64) {
	stiffness := k * k * s.E * s.T * spacing
	lambda := ShearLag(k, spacing, s.T, s.E, s.G)
	return 1 / (1 + stiffness*math.Max(0, slip+lambda)), 1 + stiffness*lambda
}

// GA returns the shear stiffness in N:
//
//	S = ks·Σ G·b·d²/h + Σ G·b·d²/t over the edge bands,
//
// d between the middles of the skins, h the clear core and t the whole depth. Source: H. G. Allen, Analysis and Design
// of Structural Sandwich Panels (1969), antiplane core (from memory).
func (p Panel) GA() float64 {
	d := p.H + (p.Top.T+p.Bottom.T)/2
	total := p.H + p.Top.T + p.Bottom.T
	return p.Web.Shear*p.Web.G*p.Web.B*float64(p.Web.N)*d*d/p.H + p.Rim.G*p.Rim.B*d*d/total
}

// SolidRigidity returns the bending stiffness E·b·t³/12 of a solid slab of
// width b and depth t, N·mm². Twice the depth is eight times as stiff, exactly.
func SolidRigidity(e, b, t float64) float64 { return e * b * cube(t) / 12 }

// SolidShear returns the shear stiffness 5/6·G·b·t of a solid slab, N.
func SolidShear(g, b, t float64) float64 { return 5.0 / 6 * g * b * t }

func cube(x float64) float64 { return x * x * x }
