package engine

import "testing"

// A ledge narrower than the edge band bears on the band alone, and holds the
// top up all the same: the reactions carry everything, the sag is that of a
// ledge at the skins' edge, and the twist is told.
func TestLedgeUnderTheBandAlone(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.EdgeBand = EdgeBand{"white-oak", 25}
	d.Supports = Supports{Kind: AllEdges, Bearing: 15}
	r := refined(t, d, Normal)
	if r.Whole == nil || r.Whole.Twist == nil {
		t.Fatalf("not held, or no twist: %v", told(r.Problems))
	}
	sum := 0.0
	for _, f := range r.Whole.Cases[0].Reactions {
		sum += f.Force
	}
	near(t, "reactions", sum, 800+r.Mass.Total*Gravity, 1e-6)
	d.Supports.Bearing = 40 // 15 mm of it under the skins
	near(t, "sag", r.Cases[0].Sag, refined(t, d, Normal).Cases[0].Sag, 0.02)
	for i, pad := range d.WholePanel(1).Pads { // what reaches under the skins stays
		if want := d.pads()[i]; pad != want {
			t.Errorf("pad %+v moved to %+v", want, pad)
		}
	}
}
