package engine

import (
	"math"
	"strings"
	"testing"
)

// What a section through a strip of skin loses, by hand. Lengthwise ribs of 12 mm
// stand at 6, 178, 350, 522, 694: strips of 160 mm between their faces.
func TestNetSection(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Holes = []Hole{{Kind: DogHole, Part: TopSeam, X: 500, Y: 240, Diameter: 20, Count: 2, StepY: 50}, {Kind: DogHole, Part: TopSeam, X: 506, Y: 600, Diameter: 40}}
	d.Grooves = []Groove{{Skin: TopSeam, At: 800, Width: 20, Depth: 3}, {Skin: TopSeam, Along: true, At: 250, From: 1000, To: 1400, Width: 30, Depth: 6}}
	c, strips := d.loss(TopSeam), d.strips(true)
	if len(strips) != 4 || strips[1] != (strip{184, 344}) {
		t.Fatalf("strips %v", strips)
	}
	for _, test := range []struct {
		name     string
		strip    int
		u, share float64
	}{
		{"two holes beside each other", 1, 500, 1 - 40.0/160},
		{"their chords 6 mm off the middle", 1, 506, 1 - 4*8.0/160}, // 2·√(10² − 6²) = 16
		{"out of reach", 1, 460, 1},
		{"the wide hole", 3, 506, 1 - 40.0/160},
		{"a groove across, 3 of 9 mm deep", 2, 800, 1 - 3.0/9},
		{"a groove along, 30 mm wide, 6 of 9 mm deep", 1, 1200, 1 - 30*6.0/9/160},
		{"beside it", 1, 1450, 1},
	} {
		if got := c.net(strips[test.strip], true, test.u, 9); math.Abs(got-test.share) > 1e-9 {
			t.Errorf("%s: %.4f is left; want %.4f", test.name, got, test.share)
		}
	}
	// Pulled along y, the groove along x at 250 lies across the way.
	near(t, "across the width", c.net(d.strips(false)[5], false, 250, 9), 1-6.0/9, 1e-12)
}

// Holes and grooves lower the margins of their skin by the net section, and no
// others', in the closed form.
func TestGrooveLowersMargins(t *testing.T) {
	t.Parallel()
	d := plainTop()
	bare := compute(t, d).Margins
	d.Grooves = []Groove{{Skin: BottomSeam, At: 800, Width: 20, Depth: 2}} // 2 of 6 mm, under the load
	with := compute(t, d).Margins
	a, b := marginOf(t, with, "skin.bottom.tension.along"), marginOf(t, bare, "skin.bottom.tension.along")
	near(t, "margin of the grooved skin", a.Value, b.Value*2/3, 1e-3) // the panel is lighter by some grams
	if !strings.Contains(a.Note, "67 %") {
		t.Errorf("the margin's remark says %q", a.Note)
	}
	a, b = marginOf(t, with, "skin.top.compression.along"), marginOf(t, bare, "skin.top.compression.along")
	near(t, "margin of the other skin", a.Value, b.Value, 1e-3)
}

// A scarf at the most bent place of a rib has three quarters of the rib's margin;
// nearer to the support more. A hole through a rib lowers its shear in the closed
// form.
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
	e.Holes = []Hole{{Kind: CableHole, Part: "L3", X: 130, Up: 40, Diameter: 25}}
	// Between the rails half of the load and of the weight less what lies to the left, 130 of
	// 1600 mm, on five ribs with 80 − 25 of their height.
	mo, _ := modelOf(e, false)
	v := 1.35*mo.weight*(0.5-130.0/1600) + 1.5*400
	a := marginOf(t, compute(t, e).Margins, "rib.hole.shear.along")
	near(t, "shear at a hole by the closed form", a.Demand, v/(5*12*55), 1e-9)
	// It is where it is: 10 mm higher the chord above has 80 − 50 − 12.5 = 17.5 mm, not 27.5.
	b := marginOf(t, compute(t, e).Margins, "rib.hole.bending.along")
	e.Holes[0].Up = 50
	c := marginOf(t, compute(t, e).Margins, "rib.hole.bending.along")
	near(t, "what half a millimetre of chord does", c.Demand-b.Demand, v/5*1.5*25/12*(1/(17.5*17.5)-1/(27.5*27.5)), 1e-6)
}
