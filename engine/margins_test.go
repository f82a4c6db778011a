package engine

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// handMargins works out the margins of plainTop on two rails apart from the
// engine: moments and shear forces by statics at every place the engine looks
// at, stresses by the textbook. Taken from the engine are the bending
// stiffness, the neutral axis and the shares γ, which other tests hold.
type handMargins struct {
	t      *testing.T
	kmod   float64
	lowest map[string]float64
}

func (h *handMargins) take(code string, strength, own, load float64) {
	demand := 1.35*math.Abs(own) + 1.5*math.Abs(load)
	if own*load < 0 {
		h.t.Fatalf("%s: this hand check is for loads that add up", code)
	}
	if demand < 1e-9 {
		return
	}
	v := strength * h.kmod / 1.2 / demand // γM of plywood
	if old, ok := h.lowest[code]; !ok || v < old {
		h.lowest[code] = v
	}
}

// beam returns moment and shear at x of a force p spread from x1 to x2 on
// supports at a and b, by cutting the beam at x and adding up what is left.
func beam(p, x1, x2, a, b, x float64) (m, v float64) {
	rb := p * ((x1+x2)/2 - a) / (b - a)
	ra := p - rb
	for _, r := range [][2]float64{{ra, a}, {rb, b}} {
		if x > r[1] || x == a && r[1] == a {
			m += r[0] * (x - r[1])
			v += r[0]
		}
	}
	if over := math.Min(x, x2) - x1; over > 0 {
		part := p * over / (x2 - x1)
		m -= part * (x - x1 - over/2)
		v -= part
	}
	return m, v
}

func TestMarginsByHand(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Supports.EndInset = 60 // small overhangs; load and weight sag the span alike
	r := compute(t, d)
	h := &handMargins{t, 0.9, map[string]float64{}} // short term, service class 1, plywood: EN 1995-1-1 Table 3.1
	s := r.Stiffness.Along
	ei, z0 := s.EI, s.Neutral
	weight := r.Mass.Total * 9.80665
	const force, x1, x2, a, b = 800.0, 650, 950, 60, 1540
	spacing := 700.0 / 5
	k := math.Pi / 1480
	lag := func(t float64) float64 { // 1 + k²·E·t·s·λ
		kappa := k * math.Sqrt(9000.0/620)
		lambda := 1/math.Tanh(kappa*spacing/2)/(2*620*t*kappa) - 1/(9000*t*spacing*k*k)
		return 1 + k*k*9000*t*spacing*lambda
	}
	places := []float64{a, b, x1, (x1 + x2) / 2, x2}
	for i := 1; i < 24; i++ {
		places = append(places, a+(b-a)*float64(i)/24)
	}
	slices.Sort(places)
	for _, x := range places {
		mo, vo := beam(weight, 0, 1600, a, b, x)
		ml, vl := beam(force, x1, x2, a, b, x)
		if mo < 0 && ml > 1e-6 || vo*vl < 0 {
			continue // a hair of hogging over the rails: nothing governs there
		}
		// Skins: membrane at the middle of the skin, and the skin's own bending
		// turned into the same stress. Under sagging the top is pressed; the
		// upper face of it most, the lower face of the bottom pulled most.
		top := func(ratio float64) float64 {
			return (9000*s.GammaTop*lag(9)*(6+80+4.5-z0) + 9800*4.5*ratio) / ei
		}
		bottom := func(ratio float64) float64 {
			return (9000*s.GammaBottom*lag(6)*(z0-3) + 9800*3*ratio) / ei
		}
		if mo >= 0 && ml >= 0 {
			h.take("skin.top.compression.along", 26, mo*top(26.0/41), ml*top(26.0/41))
			h.take("skin.bottom.tension.along", 37, mo*bottom(37.0/41), ml*bottom(37.0/41))
		}
		// Glue lines: V·E·S/EI over five ribs of 12 mm, rolling shear 2.3 MPa
		// under the glue's strength; 12 mm is under eight skin thicknesses.
		flowTop := 9000 * s.GammaTop * 9 * 700 * (90.5 - z0) / ei
		flowBottom := 9000 * s.GammaBottom * 6 * 700 * (z0 - 3) / ei
		h.take("glue.top.along", 2.3, vo*flowTop/60, vl*flowTop/60)
		h.take("glue.bottom.along", 2.3, vo*flowBottom/60, vl*flowBottom/60)
		// Ribs at the neutral axis: skin and the rib above it.
		above := 86 - z0
		flow := flowTop + 9000*60*above*above/2/ei
		h.take("rib.shear.along", 9.5, vo*flow/60, vl*flow/60)
		// At a slot 80/2 − .5 mm of the rib are left, over a slot of 9.2 mm.
		h.take("rib.slot.shear.along", 9.5, vo/(60*39.5), vl/(60*39.5))
		far := math.Max(86-z0, z0-6)
		fibre := 9000 * far / ei
		h.take("rib.bending.along", 26, mo*fibre, ml*fibre)
		net := 60 * 39.5 * 39.5 / 6
		h.take("rib.slot.bending.along", 26, math.Abs(mo)*fibre+math.Abs(vo)*4.6/net, math.Abs(ml)*fibre+math.Abs(vl)*4.6/net)
	}
	// Each rail carries half of both through five ribs of 12 mm, 60 mm long:
	// the bottom skin's 6.5 MPa under the ribs' 21 on edge.
	h.take("bearing.rail.along", 6.5, weight/2/3600, force/2/3600)
	h.take("bearing.load", 6.5, 0, force/(300*250))
	for _, m := range r.Margins {
		want, ok := h.lowest[m.Code]
		if !ok {
			if m.Value < 50 { // what the overhangs' own weight asks
				t.Errorf("%s = %g, and no hand check for it", m.Code, m.Value)
			}
			continue
		}
		near(t, m.Code, m.Value, want, 1e-6)
		delete(h.lowest, m.Code)
		if m.KMod != 0.9 || m.GammaM != 1.2 || m.Unit != "MPa" || m.Case != "Person" || m.Source == "" || m.Where == "" || m.Part == "" {
			t.Errorf("%s carries %+v", m.Code, m)
		}
		near(t, m.Code+" capacity over demand", m.Value, m.Capacity/m.Demand, 1e-12)
	}
	for code := range h.lowest {
		t.Errorf("no margin %s", code)
	}
}

func TestEffect(t *testing.T) {
	t.Parallel()
	tests := []struct {
		e                     effect
		design, capacity, tms float64
	}{
		// EN 1990: 1.35·G + 1.5·Q; a weight that helps counts once.
		{effect{2, 4}, 1.35*2 + 1.5*4, 10, (10 - 2.7) / 6},
		{effect{-2, -4}, 8.7, 10, (10 - 2.7) / 6},
		{effect{-2, 4}, 1.5*4 - 2, 10, 12.0 / 6},
		{effect{2, -4}, 4, 10, 12.0 / 6},
		{effect{-2, 1}, 2.7, 10, 12 / 1.5}, // the weight alone is more
		{effect{2, 0}, 2.7, 10, TimesCap},
		{effect{0, 4}, 6, 9, 1.5},
		{effect{10, 4}, 19.5, 10, 0}, // the weight alone is too much
	}
	for _, test := range tests {
		near(t, "design", test.e.design(), test.design, 1e-12)
		near(t, "times", test.e.times(test.capacity), test.tms, 1e-12)
	}
	for _, test := range tests[:4] {
		grown := effect{test.e.own, test.e.load * test.tms}
		near(t, "design at the last", grown.design(), test.capacity, 1e-12)
	}
}

func scaled(d Design, times float64) Design {
	d = d.Clone()
	for _, c := range d.Cases {
		for j := range c.Loads {
			c.Loads[j].Force *= times
		}
	}
	return d
}

// TestTimes multiplies the loads by what a margin says they can be multiplied
// by: that margin must come out as 1, and others may be less, but not it.
func TestTimes(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(7, 7))
	seen := 0
	for range 120 {
		d := randomDesign(r)
		mo, m := modelOf(d, false)
		for _, one := range mo.margins(&d, &m, false) {
			if one.Times >= TimesCap || one.Times < 1e-6 || one.KMod == 0 {
				continue
			}
			seen++
			weight := scaled(d, 1e-9)
			if alone := mo.margins(&weight, &m, false); slices.ContainsFunc(alone, func(g Margin) bool { return g.Code == one.Code && g.Value < 1 }) {
				continue // in another case the weight alone is already too much
			}
			e := scaled(d, one.Times)
			grown := mo.margins(&e, &m, false)
			if i := slices.IndexFunc(grown, func(g Margin) bool { return g.Code == one.Code }); i < 0 || math.Abs(grown[i].Value-1) > 1e-9 {
				t.Fatalf("%s: margin %g, times %g; with the loads so grown %+v; want 1\n%+v", one.Code, one.Value, one.Times, grown, d)
			}
		}
	}
	if seen < 500 {
		t.Errorf("%d margins seen; want more", seen)
	}
}

func TestMarginsFallAsLoadsGrow(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(8, 8))
	for range 100 {
		d := randomDesign(r)
		mo, m := modelOf(d, false)
		before := mo.margins(&d, &m, false)
		e := scaled(d, 1.25)
		after := map[string]Margin{}
		for _, one := range mo.margins(&e, &m, false) {
			after[one.Code] = one
		}
		for i, one := range before {
			if i > 0 && before[i-1].Value > one.Value {
				t.Fatalf("margins not from the lowest up: %g before %g", before[i-1].Value, one.Value)
			}
			if a, ok := after[one.Code]; !ok || a.Value > one.Value*(1+1e-12) || a.Times > one.Times/1.25*(1+1e-9) && one.Times < TimesCap {
				t.Fatalf("%s: %g, times %g; after loads grew by a quarter %g, times %g", one.Code, one.Value, one.Times, a.Value, a.Times)
			}
		}
	}
}

// Factors by duration and place: EN 1995-1-1 Table 3.1 for plywood, MDF.LA
// (dry only) and solid wood, Table 2.3 for γM.
func TestFactors(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		material string
		duration Duration
		damp     bool
		kmod     float64
		gammaM   float64
	}{
		{"birch-plywood", Permanent, false, 0.6, 1.2},
		{"birch-plywood", LongTerm, false, 0.7, 1.2},
		{"birch-plywood", MediumTerm, true, 0.8, 1.2},
		{"birch-plywood", ShortTerm, true, 0.9, 1.2},
		{"birch-plywood", Instantaneous, false, 1.1, 1.2},
		{"mdf", Permanent, false, 0.2, 1.3},
		{"mdf", ShortTerm, false, 0.8, 1.3},
		{"mdf", ShortTerm, true, 0, 1.3},
		{"osb-3", LongTerm, true, 0.4, 1.2},
	} {
		d := plainTop()
		d.TopSkin.Material, d.Cases[0].Duration, d.Shop.Damp = test.material, test.duration, test.damp
		r := compute(t, d)
		m := marginOf(t, r.Margins, "skin.top.compression.along")
		if m.KMod != test.kmod || m.GammaM != test.gammaM {
			t.Errorf("%s, %s, damp %t: kmod %g, γM %g; want %g, %g", test.material, test.duration, test.damp, m.KMod, m.GammaM, test.kmod, test.gammaM)
		}
		told := slices.ContainsFunc(r.Problems, func(p Problem) bool { return p.Code == "not-for-damp" && p.Part == "top" })
		if told != (test.kmod == 0) {
			t.Errorf("%s, damp %t: told that it is not for damp places: %t", test.material, test.damp, told)
		}
		if test.kmod == 0 && (m.Value != 0 || m.Times != 0 || !(m.Demand > 0)) {
			t.Errorf("%s damp: margin %g, times %g, demand %g; want 0, 0 and what is asked of it", test.material, m.Value, m.Times, m.Demand)
		}
	}
}

// On overhangs the top skin is pulled over the rail, and the shear force of a
// load on one is all outside the rail.
func TestOverhang(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Supports.EndInset = 400
	d.Cases[0].Loads[0] = Load{Name: "end", Kind: Patch, Force: 900, X: 60, Y: 350, SizeX: 100, SizeY: 300}
	r := compute(t, d)
	m := marginOf(t, r.Margins, "skin.top.tension.along")
	if m.X != 400 {
		t.Errorf("top skin pulled most at %g; want over the rail at 400", m.X)
	}
	// By hand: 900·340 N·mm over the rail and the overhang's own weight.
	s := r.Stiffness.Along
	w := r.Mass.Total * 9.80665
	moment := 1.5*900*340 + 1.35*w/1600*400*400/2
	k := math.Pi / 800
	kappa := k * math.Sqrt(9000.0/620)
	lag := 1 + k*k*9000*9*140*(1/math.Tanh(kappa*70)/(2*620*9*kappa)-1/(9000*9*140*k*k))
	stress := moment / s.EI * (9000*s.GammaTop*lag*(90.5-s.Neutral) + 9800*4.5*37/41)
	near(t, "top tension", m.Demand, stress, 1e-9)
	// Just outside the rail: the whole load and the weight of the overhang.
	shear := marginOf(t, r.Margins, "rib.slot.shear.along")
	near(t, "shear beside the rail", shear.Demand, (1.5*900+1.35*w/4)/(60*39.5), 1e-9)
	if math.Abs(shear.X-400) > 1e-6 {
		t.Errorf("shear governs at %g; want beside the rail at 400", shear.X)
	}
}

// Two equal loads at opposite corners load two legs and leave the other two.
func TestLegsShareByPlace(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Supports = Supports{Kind: FourLegs, EndInset: 100, SideInset: 60, Bearing: 80}
	corner := func(x, y float64) Load {
		return Load{Name: "corner", Kind: Patch, Force: 1000, X: x, Y: y, SizeX: 100, SizeY: 100}
	}
	d.Cases[0].Loads = []Load{corner(100, 60), corner(1500, 640)}
	r := compute(t, d)
	m := marginOf(t, r.Margins, "bearing.leg")
	// The leg at 100, 60 covers 60 … 140 by 20 … 100: no lengthwise rib (at 0
	// … 12, and 166.75 on), no crosswise one (at 0 … 9, and 231 on), so the
	// bottom skin alone takes it, on 80 · 80 mm.
	near(t, "demand", m.Demand, (1.5*1000+1.35*r.Mass.Total*9.80665/4)/6400, 1e-9)
	if m.Note == "" {
		t.Error("no remark that nothing stands over the leg")
	}
	// Legs at the corners: ribs 12 and 9 mm over 80 by 80 mm.
	d.Supports.EndInset, d.Supports.SideInset = 40, 40
	d.Cases[0].Loads = []Load{corner(50, 50), corner(1550, 650)}
	r = compute(t, d)
	m = marginOf(t, r.Margins, "bearing.leg")
	near(t, "area", m.Demand, (1.5*(1000*(1510.0/1520*610/620+10.0/1520*10/620))+1.35*r.Mass.Total*9.80665/4)/(80*12+80*9-12*9), 1e-9)
}

// Under a band the leg presses on the band's edge as well.
func TestLegUnderABand(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.EdgeBand = EdgeBand{"plain", 25}
	d.Supports = Supports{Kind: FourLegs, EndInset: 40, SideInset: 40, Bearing: 80}
	d.Cases[0].Loads = nil
	r := compute(t, d)
	// 80 · 80 mm: a band of 25 along two sides, 25·80 + 55·25 mm², and the
	// outermost ribs of 12 and 9 mm, 55·12 + 55·9 − 12·9 mm².
	near(t, "demand", marginOf(t, r.Margins, "bearing.leg").Demand, 1.35*r.Mass.Total*9.80665/4/(25*80+55*25+55*12+55*9-12*9), 1e-9)
	d.Supports.EndInset, d.Supports.SideInset, d.Supports.Bearing = 10, 10, 20
	r = compute(t, d)
	m := marginOf(t, r.Margins, "bearing.leg")
	near(t, "demand wholly under the band", m.Demand, 1.35*r.Mass.Total*9.80665/4/400, 1e-9)
	if m.Note != "" {
		t.Errorf("remark %q; want none under a band", m.Note)
	}
}

// A support that sticks out bears on what of it lies under the top.
func TestBearingThatSticksOut(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Supports.EndInset = 10 // a rail of 60 mm: 40 of them under the top
	r := compute(t, d)
	m := marginOf(t, r.Margins, "bearing.rail.along")
	near(t, "demand", m.Demand, (1.35*r.Mass.Total*9.80665+1.5*800)/2/(60*40), 1e-9)
}

// A notch factor below 1 lowers what solid wood and boards that split may
// carry; sheet material is checked by net section.
func TestNotchAtSlots(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Lengthwise.Material = "mdf"
	r := compute(t, d)
	m := marginOf(t, r.Margins, "rib.slot.shear.along")
	mdf, _ := d.Material("mdf")
	v := 1.35*r.Mass.Total*9.80665*700/1600 + 1.5*400 // just inside the rail at 100
	near(t, "demand", m.Demand, 1.5*v/(60*39.5), 1e-9)
	// EN 1995-1-1 (6.62), from memory: kn 4.5, h 80, hef 39.5, x = 4.6.
	a := 39.5 / 80
	kv := 4.5 / (math.Sqrt(80) * (math.Sqrt(a*(1-a)) + 0.8*4.6/80*math.Sqrt(1/a-a*a)))
	near(t, "capacity", m.Capacity, math.Min(1, kv)*mdf.At(12).FEdgeShear*0.8/1.3, 1e-9)
}

// Ribs softer than the skin's face govern over a rail: on edge across their
// grain, upright along it.
func TestRibsCrushed(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Own[0].FBearing = 50
	m := marginOf(t, compute(t, d).Margins, "bearing.rail.along")
	near(t, "on edge", m.Capacity, 21*0.9/1.2, 1e-12)
	d.Lengthwise.Upright = true
	m = marginOf(t, compute(t, d).Margins, "bearing.rail.along")
	near(t, "upright", m.Capacity, 26*0.9/1.2, 1e-12)
	d.Own[0].FBearing, d.Crosswise.Upright = 22, true // weaker than 26 again
	m = marginOf(t, compute(t, d).Margins, "bearing.rail.along")
	near(t, "face", m.Capacity, 22*0.9/1.2, 1e-12)
}

// The moment is largest under the middle of a small load, wherever it stands.
func TestUnderTheMiddleOfALoad(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Cases[0].Loads[0] = Load{Name: "heavy", Kind: Patch, Force: 50000, X: 827, Y: 350, SizeX: 40, SizeY: 250}
	r := compute(t, d)
	m := marginOf(t, r.Margins, "rib.bending.along")
	// The weight's own moment grows towards the middle so slowly that 827 stays
	// the largest of the places: 807, 827, 847 and every 58.3 mm.
	if m.X != 827 {
		t.Errorf("bending governs at %g; want 827, the middle of the load", m.X)
	}
}

// A glue weaker than the sheet's rolling shear governs, with its own γM of 1.3.
func TestWeakGlue(t *testing.T) {
	t.Parallel()
	d := plainTop()
	strong := compute(t, d)
	d.Own[0].FRolling = 20
	r := compute(t, d)
	g, _ := Catalogue().Glue("pva")
	for _, code := range []string{"glue.top.along", "glue.bottom.along"} {
		m := marginOf(t, r.Margins, code)
		near(t, code+" capacity", m.Capacity, g.Strength*0.9/1.3, 1e-12)
		near(t, code+" demand", m.Demand, marginOf(t, strong.Margins, code).Demand, 1e-12)
		if !strings.Contains(m.Note, "glue itself") || !strings.Contains(marginOf(t, strong.Margins, code).Note, "Rolling shear") {
			t.Errorf("%s: remarks %q and %q", code, m.Note, marginOf(t, strong.Margins, code).Note)
		}
	}
	// A rib of 60 mm under a skin of 6 mm: (8·6/60)^.8 of the glue line works
	// (EN 1995-1-1 9.1.2 (6), from memory).
	d.Own[0].FRolling, d.Lengthwise.Thickness, d.Lengthwise.Count = 2.3, 60, 4
	m := marginOf(t, compute(t, d).Margins, "glue.bottom.along")
	near(t, "wide rib", m.Capacity, 2.3*math.Pow(0.8, 0.8)*0.9/1.2, 1e-12)
}

func TestAllEdgesShareTheLoad(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Supports = Supports{Kind: AllEdges, Bearing: 40}
	mo, _ := modelOf(d, false)
	w := mo.working()
	near(t, "shares", w[0].share+w[1].share, 1, 1e-12)
	// Two strips that cross at the middle sag alike: q·L⁴/D on both.
	near(t, "sag", w[0].share*math.Pow(1600, 4)/(mo.along.first.EI/700), w[1].share*math.Pow(700, 4)/(mo.across.first.EI/1600), 1e-12)
	if !(w[1].share > w[0].share) {
		t.Errorf("short way carries %g of it; want the larger share", w[1].share)
	}
}
