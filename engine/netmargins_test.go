package engine

import (
	"math"
	"strings"
	"testing"
)

// What a section through a strip of skin loses, by hand.
func TestNetSection(t *testing.T) {
	t.Parallel()
	d := plainTop() // lengthwise ribs of 12 mm at 6, 178, 350, 522, 694: strips of 160 mm
	d.Holes = []Hole{{Kind: DogHole, Part: TopSeam, X: 500, Y: 240, Diameter: 20, Count: 2, StepY: 50}, {Kind: DogHole, Part: TopSeam, X: 506, Y: 600, Diameter: 40}}
	d.Grooves = []Groove{{Skin: TopSeam, At: 800, Width: 20, Depth: 3}, {Skin: TopSeam, Along: true, At: 250, From: 1000, To: 1400, Width: 30, Depth: 6}}
	c := d.cutouts(TopSeam)
	for _, test := range []struct {
		name              string
		along             bool
		u, v, size, share float64
	}{
		{"two holes beside each other", true, 500, 250, 1, 1 - 40.0/160},
		{"near them, in a cell that reaches them", true, 480, 250, 30, 1 - 40.0/160},
		{"out of reach", true, 460, 250, 30, 1},
		{"6 mm beside them", true, 506, 600, 1, 1 - 40.0/160}, // the strip of the wide hole: 528 to 688
		{"a groove across, 3 of 9 mm deep", true, 800, 400, 1, 1 - 3.0/9},
		{"over a rib too", true, 800, 178, 1, 1 - 3.0/9},
		{"a groove along, 30 mm wide, 6 of 9 mm deep", true, 1200, 250, 1, 1 - 30*6.0/9/160},
		{"beside it", true, 1450, 250, 1, 1},
		// Across the width: crosswise ribs of 9 mm at 4.5 + 227.286·i; the groove along
		// the length at 250 lies across a pull in y.
		{"a pull along y at the groove along x", false, 250, 1250, 1, 1 - 6.0/9},
	} {
		if got := c.net(d.stripAt(test.along, test.v), test.along, test.u, test.size, 9); math.Abs(got-test.share) > 1e-9 {
			t.Errorf("%s: %.4f is left; want %.4f", test.name, got, test.share)
		}
	}
}

// Holes and grooves lower the margins of their skin by the net section, by either
// model, and no others'.
func TestHolesLowerMargins(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Grooves = []Groove{{Skin: BottomSeam, At: 800, Width: 20, Depth: 2}} // 2 of 6 mm, under the load
	bare := d
	bare.Grooves = nil
	for name, of := range map[string]func(d Design) []Margin{
		"closed form": func(d Design) []Margin { return compute(t, d).Margins },
		"whole panel": func(d Design) []Margin { return refined(t, d, Interactive).Margins },
	} {
		with, without := of(d), of(bare)
		a, b := marginOf(t, with, "skin.bottom.tension.along"), marginOf(t, without, "skin.bottom.tension.along")
		// The whole panel looks at the middles of its cells, and the governing one need not be cut.
		if a.Value > b.Value+1e-9 || name == "closed form" && math.Abs(a.Value/b.Value-2.0/3) > 0.01 {
			t.Errorf("%s: margin %.4f grooved, %.4f plain; want two thirds", name, a.Value, b.Value)
		}
		if name == "closed form" && !strings.Contains(a.Note, "67 %") {
			t.Errorf("the margin's remark says %q", a.Note)
		}
		a, b = marginOf(t, with, "skin.top.compression.along"), marginOf(t, without, "skin.top.compression.along")
		near(t, name+": the other skin", a.Value, b.Value, 2e-3) // the panel is lighter by a few grams
	}
}

// A scarf at the most bent place of a rib has three quarters of the rib's margin;
// nearer to the support more. A hole at a rib's middle lowers its shear.
func TestSplicedRibMargins(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Crosswise.Count = 3
	at := func(x float64, plates bool) Margin {
		e := d.Clone()
		e.Splices = []Splice{{"L3", x, plates}}
		return marginOf(t, compute(t, e).Margins, "rib.splice.along")
	}
	mid := d.Clone()
	mid.Splices = []Splice{{"L3", 800, false}}
	// The closed form checks the weaker of tension and compression in both.
	near(t, "scarf at midspan", at(800, false).Value, 0.75*marginOf(t, compute(t, mid).Margins, "rib.bending.along").Value, 1e-9)
	if a, b := at(400, false), at(800, false); !(a.Value > 1.5*b.Value) || a.Part != "splice 1" {
		t.Errorf("scarf at a quarter: %.3f, at midspan %.3f", a.Value, b.Value)
	}
	if a := at(400, true); !(a.Value > 0) {
		t.Errorf("plates: %+v", a)
	}
	e := d.Clone()
	e.Splices = []Splice{{"L3", 400, false}}
	w := marginOf(t, refined(t, e, Interactive).Margins, "rib.splice.along")
	if !(w.Value > 0.3*at(400, false).Value && w.Value < 5*at(400, false).Value) {
		t.Errorf("the whole panel says %.3f, the closed form %.3f", w.Value, at(400, false).Value)
	}
	e = d.Clone()
	e.Holes = []Hole{{Kind: CableHole, Part: "L3", X: 160, Up: 40, Diameter: 25}}
	shear := func(margins []Margin) float64 { return marginOf(t, margins, "rib.shear.along").Value }
	if a, b := shear(compute(t, e).Margins), shear(compute(t, d).Margins); !(a < b) {
		t.Errorf("closed form: shear margin %.3f with a hole, %.3f without", a, b)
	}
	if a, b := shear(refined(t, e, Interactive).Margins), shear(refined(t, d, Interactive).Margins); a > b*1.001 {
		t.Errorf("whole panel: shear margin %.3f with a hole, %.3f without", a, b)
	}
}
