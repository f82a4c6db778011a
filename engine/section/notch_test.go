package section_test

import (
	"fmt"
	"math"
	"testing"

	"flatwright/engine/section"
)

// TestNotchFactor: EN 1995-1-1 (6.62), (6.63) worked by hand; the formula is
// from memory.
func TestNotchFactor(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ h, hef, i, x, kn, want float64 }{
		{100, 70, 0, 20, 5, 0.815308},
		{200, 150, 0, 50, 5, 0.580922},
		{200, 150, 3, 50, 5, 0.815711},
		{100, 50, 0, 20, 5, 0.702583},
		{240, 200, 0, 60, 6.5, 0.814891},
	} {
		near(t, fmt.Sprintf("NotchFactor%v", c), section.NotchFactor(c.h, c.hef, c.i, c.x, c.kn), c.want, 5e-7)
	}
	if got := section.NotchFactor(100, 100, 0, 0, 5); got != 1 {
		t.Errorf("NotchFactor without a notch = %g; want 1", got)
	}
	if got := section.NotchFactor(20, 19.9, 0, 0, 6.5); got != 1 {
		t.Errorf("NotchFactor of a scratch = %g; want no more than 1", got)
	}
}

// TestGlueLineReduction: EN 1995-1-1 9.1.2 (6), from memory: (8·9/b)^.8.
func TestGlueLineReduction(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ b, t, limit, want float64 }{
		{12, 9, 8, 1},
		{72, 9, 8, 1},
		{144, 9, 8, 0.574349}, // ½^.8
		{72, 9, 4, 0.574349},
		{90, 9, 8, 0.836512},  // .8^.8
		{100, 5, 4, 0.275946}, // .2^.8
	} {
		near(t, fmt.Sprintf("GlueLineReduction%v", c), section.GlueLineReduction(c.b, c.t, c.limit), c.want, 5e-7)
	}
	near(t, "just beyond the limit", section.GlueLineReduction(72*(1+1e-9), 9, 8), 1, 1e-8)
}

// TestGlueLineStress: a rib of 12 at 150 centres, 75 high, skins of 9, skin E
// 9000, rib E 4000, V = 300 N. By hand V·ES/(EI·b) with EI 4.471672e10:
// .28530 MPa. It ties the panel's EI to the flow its skins hand over.
func TestGlueLineStress(t *testing.T) {
	t.Parallel()
	skin := section.Skin{T: 9, E: 9000, EBend: 9000, G: 620, GRoll: 70}
	p := section.Panel{Width: 600, H: 75, Top: skin, Bottom: skin, Web: section.Web{N: 4, B: 12, E: 4000, G: 600, Bending: 1, Shear: 1}}
	r := p.At(0, p.Connect())
	near(t, "EI per rib", r.EI/4, 4.471672e10, 5e4)
	arm := 84 + 4.5 - r.Neutral
	near(t, "glue-line stress", 4*300*r.SkinTop/arm/r.EI/(4*12), 0.28530, 5e-6)
	if math.Abs(arm-42) > 1e-9 {
		t.Errorf("arm of the skin = %g; want 42", arm)
	}
}

// Span 2 400, ribs 12 at 150, plywood skins of 9: shear lag .1·2 400 = 240 and buckling 20·9
// = 180 both beyond the clear 138, so all of it counts. Over 900 mm 90 mm of it do, 5 mm
// thin 100, of a pulled skin 138 again.
func TestEffectiveWidth(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ span, buckle, thick, want float64 }{
		{2400, 20, 9, 150}, {900, 20, 9, 102}, {2400, 20, 5, 112}, {2400, math.Inf(1), 5, 150}, {900, 20, 4.4, 100},
	} {
		near(t, fmt.Sprintf("EffectiveWidth %v", c), section.EffectiveWidth(12, 138, 0.1, c.span, c.buckle, c.thick), c.want, 1e-12)
	}
}
