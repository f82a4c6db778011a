package engine

import (
	"math"
	"strings"
	"testing"
)

// boredTop is plainTop with a load off its middle, so that everything is sheared.
func boredTop() Design {
	d := plainTop()
	l := &d.Cases[0].Loads[0]
	l.X, l.Y = 640, 230
	return d
}

// Four holes of 20 mm, 50 apart along the length, in one bay of 218.29 × 160 mm of the
// bottom skin: along the length 140 of 160 mm are left beside each, across 30 of 50 mm
// between them. Every cell that a hole touches, by hand.
func TestHolesInASkin(t *testing.T) {
	t.Parallel()
	d := boredTop()
	d.Holes = []Hole{{Kind: DogHole, Part: BottomSeam, X: 740, Y: 264, Diameter: 20, Count: 4, StepX: 50}}
	w, mo, m := answersOf(t, &d, Normal)
	margins := mo.wholeMargins(t.Context(), &d, m, w.cases)
	ys, _ := d.RibPlaces()
	h := &wholeHand{map[string]float64{}}
	own, all := w.cases[0].own.Skin(false), w.cases[0].all.Skin(false)
	clear := ys[2] - ys[1] - 12
	for i, c := range all {
		for n := range 4 {
			x := 740 + 50*float64(n)
			if math.Abs(c.X-x) >= 10+c.SX/2 || math.Abs(c.Y-264) >= 10+c.SY/2 {
				continue
			}
			for way, v := range [2][4]float64{{own[i].NX, own[i].MX, c.NX, c.MX}, {own[i].NY, own[i].MY, c.NY, c.MY}} {
				code := [2]string{"skin.bottom.net.along", "skin.bottom.net.across"}[way]
				share := [2]float64{1 - 20/clear, 30.0 / 50}[way]
				ft, fc, fb := [2]float64{37, 29}[way], [2]float64{26, 21}[way], [2]float64{41, 33}[way]
				if c.Rib {
					v[1], v[3] = 0, 0
				}
				for _, face := range []float64{-1, 1} {
					at := func(f float64) (o, l float64) {
						return (v[0] + face*v[1]*f/fb) / 6 / share, (v[2] - v[0] + face*(v[3]-v[1])*f/fb) / 6 / share // N/t, 6·M/t²
					}
					o, l := at(ft)
					h.take(code, ft, o, l)
					o, l = at(fc)
					h.take(code, fc, -o, -l)
				}
			}
		}
	}
	for code, want := range h.lowest {
		g := marginOf(t, margins, code)
		near(t, code, g.Value, want, 1e-9)
		if g.Part != "hole 1" || !strings.HasPrefix(g.Name, "Bottom skin at a hole or a groove, ") {
			t.Errorf("told as %+v", g)
		}
	}
	if len(h.lowest) != 2 {
		t.Errorf("%v", h.lowest)
	}
}

// What is left, by hand: a single hole shares its bay, a row across its own pitch; a
// groove 15 wide and 4 deep in 9 mm leaves 5 mm across it, and along it 1 − 60/(128·9).
func TestWeakenings(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Lengthwise.Positions = []float64{6, 146, 286, 426, 694}
	d.Holes = []Hole{{Kind: DogHole, Part: BothSkins, X: 100, Y: 76, Diameter: 32}, {Kind: DogHole, Part: TopSeam, X: 100, Y: 300, Diameter: 10, Count: 3, StepY: 40}, {Kind: CableHole, Part: "L2", X: 300, Diameter: 20, Up: 40}}
	d.Grooves = []Groove{{Skin: TopSeam, Along: true, At: 216, Width: 15, Depth: 4}}
	top, bottom := d.weakenings(TopSeam, 9), d.weakenings(BottomSeam, 6)
	if len(top) != 1+3+1 || len(bottom) != 1 {
		t.Fatalf("%d in the top skin, %d in the bottom one; want 5 and 1", len(top), len(bottom))
	}
	clear := (1600-9)/7.0 - 9
	near(t, "single hole, along", bottom[0].share[0], 1-32.0/128, 1e-12)
	near(t, "single hole, across", bottom[0].share[1], 1-32/clear, 1e-12)
	near(t, "row across, along", top[1].share[0], 1-10.0/40, 1e-12)
	near(t, "row across, across", top[2].share[1], 1-10/clear, 1e-12)
	g := top[4]
	if g.left != [2]float64{9, 5} || g.share[1] != 1 || g.part != "groove 1" {
		t.Errorf("groove %+v", g)
	}
	near(t, "groove, along", g.share[0], 1-15*4/(128*9.0), 1e-12)
}

// A groove across the pull: the force passes 2 mm beside the middle of the 4 mm left of
// a skin of 6 and bends it, N/4 + 6·N·1/16 where it pulls evenly; the margin is lower for a
// deeper one, and an even skin has none.
func TestGrooveAcross(t *testing.T) {
	t.Parallel()
	value := func(depth float64) float64 {
		d := boredTop()
		d.Grooves = []Groove{{Skin: BottomSeam, At: 700, Width: 12, Depth: depth}}
		w, mo, m := answersOf(t, &d, Normal)
		got := marginOf(t, mo.wholeMargins(t.Context(), &d, m, w.cases), "skin.bottom.net.along")
		least := math.Inf(1)
		for i, c := range w.cases[0].all.Skin(false) {
			if math.Abs(c.X-700) >= 6+c.SX/2 || !c.Rib { // over a rib: no bending of its own
				continue
			}
			o := w.cases[0].own.Skin(false)[i]
			left := 6 - depth
			pull := 1.35*o.NX + 1.5*(c.NX-o.NX)
			least = min(least, 37*0.9/1.2/(pull/left+37.0/41*6*pull*depth/2/(left*left)))
		}
		if !(got.Value <= least*(1+1e-9)) || got.Part != "groove 1" {
			t.Errorf("depth %g: margin %.4f, over the ribs by hand %.4f", depth, got.Value, least)
		}
		return got.Value
	}
	if a, b := value(1), value(2); !(b < 0.9*a) {
		t.Errorf("1 mm deep %.3f, 2 mm deep %.3f", a, b)
	}
	d := boredTop()
	w, mo, m := answersOf(t, &d, Interactive)
	for _, g := range mo.wholeMargins(t.Context(), &d, m, w.cases) {
		if strings.Contains(g.Code, ".net.") || strings.Contains(g.Code, ".hole.") {
			t.Errorf("without a hole: %+v", g)
		}
	}
}

// A hole of 30 mm, its middle 34 mm up, through rib L2 of 12 × 80 mm: shear on 50 mm; the
// lower chord is 19 mm high and bends with V·30/4 over 12·19²/6 mm³ besides the rib's own.
func TestHoleThroughARib(t *testing.T) {
	t.Parallel()
	d := boredTop()
	d.Holes = []Hole{{Kind: CableHole, Part: "L2", X: 400, Diameter: 30, Up: 34}}
	w, mo, m := answersOf(t, &d, Normal)
	margins := mo.wholeMargins(t.Context(), &d, m, w.cases)
	h := &wholeHand{map[string]float64{}}
	own := w.cases[0].own.Rib(true, 1)
	kb := d.WholePanel(1).Along[1].Own
	for i, c := range w.cases[0].all.Rib(true, 1) {
		if math.Abs(c.At-400) > c.L/2+15 {
			continue
		}
		o := own[i]
		h.either("rib.hole.shear.along", 9.5, o.V/(12*50), (c.V-o.V)/(12*50))
		for _, turn := range []float64{-1, 1} {
			for _, face := range []float64{-1, 1} {
				of := func(v, n, mo float64) float64 {
					return (n/80+face*6*mo/(80*80))/(12*kb) + turn*v*30/4/(12*19*19/6.0)
				}
				h.either("rib.hole.bending.along", 26, of(o.V, o.N, o.M), of(c.V-o.V, c.N-o.N, c.M-o.M))
			}
		}
	}
	if len(h.lowest) != 2 {
		t.Fatalf("%v", h.lowest)
	}
	for code, want := range h.lowest {
		near(t, code, marginOf(t, margins, code).Value, want, 1e-9)
	}
}
