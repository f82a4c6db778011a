package section_test

import (
	"math"
	"testing"

	"flatwright/engine/section"
)

// The lightest panel of two thin skins on a core that weighs by its depth: for a given
// stiffness the core is two thirds of the weight, for a given moment one half (FPL Research
// Note FPL-086, 1965; by hand, t·h² or t·h held while 2·a·t + b·h is least). The stiffness
// is that of the skins of a panel with rigid glue lines, the moment what one skin carries
// at 1 MPa with that arm. Skins are thin against the core, so 1 % is left for their thickness.
func TestLightestPanel(t *testing.T) {
	t.Parallel()
	const width, skinWeight, coreWeight = 600.0, 300.0, 1.0 // per mm of thickness, of depth
	of := func(thick, depth float64) (stiffness, moment float64) {
		skin := section.Skin{T: thick, E: 9000, EBend: 9000, G: 620, GRoll: 70}
		p := section.Panel{Width: width, H: depth, Top: skin, Bottom: skin, Web: section.Web{N: 4, B: 12, E: 1e-9, G: 600, Bending: 1, Shear: 1}}
		r := p.At(0, p.Connect())
		arm := depth + thick
		return r.SkinTop + r.SkinBottom, width * thick * arm
	}
	for name, c := range map[string]struct {
		get  func(thick, depth float64) float64
		want float64
	}{
		"stiffness": {func(a, b float64) float64 { s, _ := of(a, b); return s }, 2.0 / 3},
		"moment":    {func(a, b float64) float64 { _, m := of(a, b); return m }, 1.0 / 2},
	} {
		goal := c.get(0.3, 100)
		weight := func(depth float64) (total, core float64) { // skins as thick as the goal asks for
			lo, hi := 1e-4, 50.0
			for range 80 {
				if mid := (lo + hi) / 2; c.get(mid, depth) < goal {
					lo = mid
				} else {
					hi = mid
				}
			}
			return 2*skinWeight*hi + coreWeight*depth, coreWeight * depth
		}
		lo, hi := 10.0, 2000.0
		for range 100 {
			a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
			wa, _ := weight(a)
			wb, _ := weight(b)
			if wa < wb {
				hi = b
			} else {
				lo = a
			}
		}
		total, core := weight((lo + hi) / 2)
		if math.Abs(core/total-c.want) > 0.01*c.want {
			t.Errorf("%s: the core is %.4f of the weight; want %.4f", name, core/total, c.want)
		}
	}
}
