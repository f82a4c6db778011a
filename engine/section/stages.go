package section

// Stages is how stiff a panel is in one way of bending or twisting while it is
// glued up, N·mm² (or in any unit of energy per square of a curvature).
type Stages struct {
	Loose   float64 // all parts together, nothing glued
	Second  float64 // of those, the skin that is glued on last
	OneSkin float64 // ribs and the first skin as one piece
	Closed  float64 // the whole panel
}

// Stages returns the bending stiffness at the three stages of gluing, with the
// bottom skin first. The edge bands are not in it: they are glued on when the
// panel is off the bed. Glue lines are rigid, for a panel that springs back
// alike over its length shears nothing but its ends. Loose parts bend each about
// its own middle; the slots take from the loose ribs what they take from them in
// the panel, which makes the loose parts a little too stiff.
func (p Panel) Stages() Stages {
	second := p.Width / 12 * p.Top.EBend * cube(p.Top.T)
	first := p.Width / 12 * p.Bottom.EBend * cube(p.Bottom.T)
	eaWeb := p.Web.Bending * p.Web.E * p.Web.B * p.H * float64(p.Web.N)
	web := eaWeb * p.H * p.H / 12
	eaFirst := p.Bottom.E * p.Bottom.T * p.Width
	apart := (p.H + p.Bottom.T) / 2
	p.Rim = Rim{}
	return Stages{
		Loose: first + web + second, Second: second,
		// Two layers held apart work with EA₁·EA₂/(EA₁ + EA₂) times their distance squared.
		OneSkin: first + web + eaFirst*eaWeb/(eaFirst+eaWeb)*apart*apart,
		Closed:  p.At(0, Connection{}).EI,
	}
}

// Together returns the share of the bed's curvature that the panel keeps when
// both skins are glued at once:
//
//	1 − O/C
//
// O is the stiffness of the loose parts, C that of the closed panel. Bent to the
// bed's curvature κ the loose parts push back with O·κ; released, the panel
// springs back by O·κ/C. Beam theory; the parts follow the bed, the glue does
// not creep. One skin after the other with the same side up is the same: what
// the first release springs back is bent in again.
func (s Stages) Together() float64 { return 1 - s.Loose/s.Closed }

// AfterFirst returns the share that ribs and first skin keep once they are
// taken off the bed: 1 − O₁/T, O₁ without the second skin, T with one skin.
func (s Stages) AfterFirst() float64 { return 1 - (s.Loose-s.Second)/s.OneSkin }

// TurnedOver returns the share that the panel keeps, as it lay first, when it is
// turned over and its second skin glued on the same bed:
//
//	−1 + (T·(1 + k1) + S)/C
//
// Turned over, what was kept after the first skin, k1, bends away from the bed, so
// that T is bent by 1 + k1; the loose second skin S by 1. It holds for what looks
// the same from both ends of the way in which it is turned, so for bow in either
// direction. What looks opposite (wind) lies on the bed as before, and of it
// [Stages.Together] is kept. Without S it is the form of the note on mechanics
// that this program is made by.
func (s Stages) TurnedOver() float64 {
	return -1 + (s.OneSkin*(1+s.AfterFirst())+s.Second)/s.Closed
}
