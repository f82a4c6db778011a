package section_test

import (
	"math"
	"testing"

	"flatwright/engine/section"
)

// TestStagesByHand has a panel simple enough for paper: 100 wide, a core of 38
// between skins of 2 with E = 1000, one rib of 10 with E = 500.
//
//	second = first = 100·2³/12·1000 = 66 666.67
//	rib: EA = 500·10·38 = 190 000, own 190 000·38²/12 = 22 863 333.3
//	O = 22 863 333.3 + 2·66 666.67 = 22 996 666.7
//	skin: EA = 1000·2·100 = 200 000, 20 from the rib's middle
//	T = 66 666.67 + 22 863 333.3 + 200 000·190 000/390 000·400 = 61 904 358.97
//	C = 2·66 666.67 + 22 863 333.3 + 2·200 000·400 = 182 996 666.7
func TestStagesByHand(t *testing.T) {
	t.Parallel()
	skin := section.Skin{T: 2, E: 1000, EBend: 1000, G: 400, GRoll: 100}
	p := section.Panel{Width: 100, H: 38, Top: skin, Bottom: skin, Web: section.Web{N: 1, B: 10, E: 500, G: 200, Bending: 1, Shear: 1}}
	s := p.Stages()
	near(t, "loose", s.Loose, 22_996_666.7, 0.1)
	near(t, "second skin", s.Second, 66_666.67, 0.01)
	near(t, "one skin", s.OneSkin, 61_904_358.97, 0.01)
	near(t, "closed", s.Closed, 182_996_666.7, 0.1)
	// 1 − 22 996 666.7/182 996 666.7 = .874333; k1 = 1 − 22 930 000/61 904 358.97 = .629590;
	// −1 + (2·61 904 358.97 − 22 930 000 + 66 666.67)/182 996 666.7 = −.448376.
	near(t, "both at once", s.Together(), 0.874333, 5e-7)
	near(t, "after the first skin", s.AfterFirst(), 0.629590, 5e-7)
	near(t, "turned over", s.TurnedOver(), -0.448376, 5e-7)
}

// TestStagesAgreeWithLayers adds up the layers of an uneven panel by quadrature
// over the depth: another way to the same stiffness.
func TestStagesAgreeWithLayers(t *testing.T) {
	t.Parallel()
	p := bench()
	p.Top.EBend, p.Bottom.EBend = p.Top.E, p.Bottom.E // one modulus, so that layers can be summed
	s := p.Stages()
	type layer struct{ from, to, stiff float64 } // stiff is E times breadth
	bottom := layer{0, p.Bottom.T, p.Bottom.E * p.Width}
	rib := layer{p.Bottom.T, p.Bottom.T + p.H, p.Web.Bending * p.Web.E * p.Web.B * float64(p.Web.N)}
	top := layer{p.Bottom.T + p.H, p.Bottom.T + p.H + p.Top.T, p.Top.E * p.Width}
	glued := func(layers ...layer) float64 {
		var ea, es, ei float64
		for _, l := range layers {
			ea += integral(func(float64) float64 { return l.stiff }, l.from, l.to)
			es += integral(func(z float64) float64 { return l.stiff * z }, l.from, l.to)
			ei += integral(func(z float64) float64 { return l.stiff * z * z }, l.from, l.to)
		}
		return ei - es*es/ea
	}
	nearly(t, "loose", s.Loose, glued(bottom)+glued(rib)+glued(top), 1e-9)
	nearly(t, "one skin", s.OneSkin, glued(bottom, rib), 1e-9)
	nearly(t, "closed", s.Closed, glued(bottom, rib, top), 1e-9)
}

// TestStagesBySteps releases and bends the stages one after the other, by the
// moments alone, and meets the formulas.
func TestStagesBySteps(t *testing.T) {
	t.Parallel()
	s := bench().Stages()
	bed := 3e-6 // curvature
	springs := func(moment, stiffness float64) float64 { return moment / stiffness }
	both := bed - springs(s.Loose*bed, s.Closed)
	near(t, "both at once", s.Together(), both/bed, 1e-12)
	first := bed - springs((s.Loose-s.Second)*bed, s.OneSkin)
	again := bed - springs(s.OneSkin*(bed-first)+s.Second*bed, s.Closed)
	near(t, "one after the other", again/bed, s.Together(), 1e-12)
	// Turned over, a hump is a hollow: the half panel comes to the bed with −first, the
	// panel leaves it with what follows, and is turned back.
	over := bed - springs(s.OneSkin*(bed+first)+s.Second*bed, s.Closed)
	near(t, "turned over", s.TurnedOver(), -over/bed, 1e-12)
}

// TestStagesLimits: the shares that are plain without a formula.
func TestStagesLimits(t *testing.T) {
	t.Parallel()
	s := section.Stages{Loose: 0, Second: 0, OneSkin: 5, Closed: 20}
	near(t, "parts like cloth keep all", s.Together(), 1, 0)
	near(t, "turned over they keep", s.TurnedOver(), -1+2*5.0/20, 1e-15)
	s = section.Stages{Loose: 7, Second: 2, OneSkin: 7, Closed: 7}
	near(t, "glue that joins nothing keeps none", s.Together(), 0, 0)
	// Without the second skin's own stiffness, the form of the note on mechanics:
	// −1 + (T/C)·(1 + k1), k1 = 1 − O/T.
	s = section.Stages{Loose: 3, OneSkin: 8, Closed: 30}
	near(t, "form of the note", s.TurnedOver(), -1+8.0/30*(1+1-3.0/8), 1e-15)
	// The second skin's own stiffness matters as t² to the depth squared: thin skins
	// hardly.
	p := box()
	p.Top.T, p.Bottom.T = 3, 3
	q := p.Stages()
	k1 := 1 - q.Loose/q.OneSkin
	if d := math.Abs(q.TurnedOver() - (-1 + q.OneSkin/q.Closed*(1+k1))); d > 0.001 {
		t.Errorf("with thin skins the two forms differ by %g", d)
	}
}

// TestStagesKeepTheirOrder: more glue, more stiffness; and every share stays
// between nothing and all.
func TestStagesKeepTheirOrder(t *testing.T) {
	t.Parallel()
	for _, depth := range []float64{20, 50, 90, 200} {
		p := bench()
		p.H = depth
		s := p.Stages()
		if !(s.Second < s.Loose && s.Loose-s.Second < s.OneSkin && s.OneSkin+s.Second < s.Closed) {
			t.Errorf("core %g: %+v is out of order", depth, s)
		}
		if k := s.Together(); !(k > 0 && k < 1) {
			t.Errorf("core %g: keeps %g", depth, k)
		}
		if k := s.TurnedOver(); !(k > -1 && k < s.Together()) {
			t.Errorf("core %g: turned over it keeps %g", depth, k)
		}
	}
}
