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
// between them. Every line of cells that a hole touches, with the force across its strip, by hand.
func TestHolesInASkin(t *testing.T) {
	t.Parallel()
	d := boredTop()
	d.Holes = []Hole{{Kind: DogHole, Part: BottomSeam, X: 740, Y: 264, Diameter: 20, Count: 4, StepX: 50}}
	w, mo, m := answersOf(t, &d, Normal)
	margins := mo.wholeMargins(t.Context(), &d, m, w.cases)
	h := &wholeHand{map[string]float64{}}
	own, all := w.cases[0].own.Skin(false), w.cases[0].all.Skin(false)
	pitch := (1600 - 9) / 7.0
	for way, code := range []string{"skin.bottom.net.along", "skin.bottom.net.across"} {
		share := [2]float64{140.0 / 160, 30.0 / 50}[way]
		ft, fc, fb := [2]float64{37, 29}[way], [2]float64{26, 21}[way], [2]float64{41, 33}[way]
		of := func(i int) (u, su, v, sv, on, an, om, am float64) {
			c, o := all[i], own[i]
			if way == 0 {
				return c.X, c.SX, c.Y, c.SY, o.NX, c.NX, o.FX, c.FX
			}
			return c.Y, c.SY, c.X, c.SX, o.NY, c.NY, o.FY, c.FY
		}
		lo, hi := 184.0, 344.0 // between ribs of 12 mm at 178 and 350
		if way == 1 {
			lo, hi = 4.5+3*pitch+4.5, 4.5+4*pitch-4.5
		}
		for n := range 4 {
			at := [2]float64{740 + 50*float64(n), 264}[way]
			lines := map[float64][]int{}
			for i := range all {
				if u, su, v, _, _, _, _, _ := of(i); math.Abs(u-at) < 10+su/2 && v > lo && v < hi {
					lines[u] = append(lines[u], i)
				}
			}
			for _, cells := range lines {
				var no, na, wide float64
				for _, i := range cells {
					_, _, _, sv, on, an, _, _ := of(i)
					no, na, wide = no+on*sv, na+an*sv, wide+sv
				}
				near(t, "width of the strip", wide, hi-lo, 1e-6)
				for _, i := range cells {
					_, _, _, _, _, _, om, am := of(i)
					if all[i].Rib {
						om, am = 0, 0
					}
					for _, face := range []float64{-1, 1} {
						at := func(f float64) (o, l float64) {
							return (no/wide + face*om*f/fb) / 6 / share, ((na-no)/wide + face*(am-om)*f/fb) / 6 / share // N/t, 6·M/t²
						}
						o, l := at(ft)
						h.take(code, ft, o, l)
						o, l = at(fc)
						h.take(code, fc, -o, -l)
					}
				}
			}
		}
	}
	for code, want := range h.lowest {
		g := marginOf(t, margins, code)
		near(t, code, g.Value, want, 1e-9)
		if !strings.HasPrefix(g.Part, "hole 1") || !strings.HasPrefix(g.Name, "Bottom skin at a hole or a groove, ") {
			t.Errorf("told as %+v", g)
		}
	}
	if len(h.lowest) != 2 {
		t.Errorf("%v", h.lowest)
	}
}

// Where a hole is checked, by hand: in the strip between its ribs, in a row across the pull also on
// its own pitch, and over a rib on half a pitch of the ribs to either side.
func TestBeside(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Lengthwise.Positions = []float64{6, 146, 286, 426, 694}
	d.Holes = []Hole{{Kind: DogHole, Part: BothSkins, X: 100, Y: 76, Diameter: 32}, {Kind: DogHole, Part: TopSeam, X: 100, Y: 300, Diameter: 10, Count: 3, StepY: 40},
		{Kind: CableHole, Part: "L2", X: 300, Diameter: 20, Up: 40}, {Kind: DogHole, Part: TopSeam, X: 300, Y: 290, Diameter: 20}}
	top, bottom := d.loss(TopSeam), d.loss(BottomSeam)
	if len(top.bores) != 1+3+1 || len(bottom.bores) != 1 {
		t.Fatalf("%d in the top skin, %d in the bottom one; want 5 and 1", len(top.bores), len(bottom.bores))
	}
	clear := (1600-9)/7.0 - 9
	least := func(c *skinLoss, b bore, along bool) float64 {
		u, _, _ := b.in(along)
		out := 1.0
		for _, s := range d.beside(b, along, d.strips(along)) {
			out = math.Min(out, c.net(s, along, u, 9))
		}
		return out
	}
	near(t, "single hole, along", least(bottom, bottom.bores[0], true), 1-32.0/128, 1e-12)
	near(t, "single hole, across", least(bottom, bottom.bores[0], false), 1-32/clear, 1e-12)
	near(t, "row across, along", least(top, top.bores[1], true), 1-10.0/40, 1e-12)
	near(t, "row across, across", least(top, top.bores[2], false), 1-10/clear, 1e-12)
	near(t, "over rib L3, along", least(top, top.bores[4], true), 1-20.0/140, 1e-12) // 700/5 mm
}

// In a groove every cell of what is left is checked with the force and the moment about its middle, by
// hand: N/t and 6·M/t² on 2 of 6 mm. It is lower for a deeper one, an even skin has none, and
// the cells have the groove's own width.
func TestGrooveAcross(t *testing.T) {
	t.Parallel()
	value := func(depth float64) float64 {
		d := boredTop()
		d.Grooves = []Groove{{Skin: BottomSeam, At: 700, Width: 12, Depth: depth}}
		w, mo, m := answersOf(t, &d, Normal)
		got := marginOf(t, mo.wholeMargins(t.Context(), &d, m, w.cases), "skin.bottom.net.along")
		h := &wholeHand{map[string]float64{}}
		left, width := 6-depth, 0.0
		for i, c := range w.cases[0].all.Skin(false) {
			if math.Abs(c.X-700) > 6 {
				continue
			}
			if c.Y < 100 {
				width += c.SX * c.SY
			}
			o := w.cases[0].own.Skin(false)[i]
			if c.Rib {
				o.FX, c.FX = 0, 0
			}
			for _, face := range []float64{-6, 6} {
				at := func(f float64) (own, load float64) {
					r := face / (left * left) * f / 41
					return o.NX/left + o.FX*r, (c.NX-o.NX)/left + (c.FX-o.FX)*r
				}
				a, b := at(37)
				h.take("", 37, a, b)
				a, b = at(26)
				h.take("", 26, -a, -b)
			}
		}
		near(t, "margin at the groove", got.Value, h.lowest[""], 1e-9)
		if got.Part != "groove 1" || !(width > 0) {
			t.Errorf("depth %g: told as %+v", depth, got)
		}
		return got.Value
	}
	if a, b := value(2), value(4); !(b < 0.9*a) {
		t.Errorf("2 mm deep %.3f, 4 mm deep %.3f", a, b)
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
// lower chord is 19 mm high and bends with V·30/4 over 12·19²/6 mm³ besides what the rib carries, on 50
// of its 80 mm.
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
					return (n/80+face*6*mo/(80*80))/(12*kb)*80/50 + turn*v*30/4/(12*19*19/6.0)
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

// Where a skin slid away nothing of it is checked at a hole either: the load stands on what
// fills the gap at the front, 120 mm wide, and the hole's strip reaches from rib to rib, 12
// to 172 mm.
func TestHoleWhereTheSkinSlidAway(t *testing.T) {
	t.Parallel()
	d := boredTop()
	d.Holes = []Hole{{Kind: DogHole, Part: TopSeam, X: 700, Y: 60, Diameter: 20}}
	d.Cases[0].Loads = []Load{{Name: "corner", Kind: Patch, Force: 2000, X: 700, Y: 60, SizeX: 40, SizeY: 40}}
	for slid, bare := range map[float64]bool{0: false, 120: true} {
		d.Built = []Built{{Kind: SkinSlid, Part: TopSeam, Y: slid}}
		w, mo, m := answersOf(t, &d, Normal)
		g := marginOf(t, mo.wholeMargins(t.Context(), &d, m, w.cases), "skin.top.net.along")
		if (g.Y > 120) != bare {
			t.Errorf("slid %g mm: the lowest margin at the hole is told %g mm from the front", slid, g.Y)
		}
	}
}
