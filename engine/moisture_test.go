package engine

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"flatwright/engine/section"
)

func TestEquilibrium(t *testing.T) {
	t.Parallel()
	// Wood Handbook FPL-GTR-282 eq. 4-5, evaluated apart from this program
	// with coefficients from memory; Table 4-2 prints 6.2, 9.2, 12.0 and 16.0
	// for 70 °F (from memory).
	for _, test := range []struct{ celsius, humidity, want float64 }{
		{21.1, 30, 6.17}, {21.1, 50, 9.24}, {21.1, 65, 11.96}, {21.1, 80, 15.99}, {10, 50, 9.47}, {26.7, 50, 9.08},
	} {
		if got := equilibrium(test.celsius, test.humidity); !(math.Abs(got-test.want) <= 0.005) {
			t.Errorf("equilibrium(%g °C, %g %%) = %.4f %%; want %g ± .005", test.celsius, test.humidity, got, test.want)
		}
	}
	if got := equilibrium(20, 0); got != 0 {
		t.Errorf("in air without water wood holds %g %%; want 0", got)
	}
	for _, celsius := range []float64{minShop, 0, 20, maxShop} {
		before := 0.0
		for h := minHumidity; h <= maxHumidity; h++ {
			m := equilibrium(celsius, h)
			if !(m > before && m < 30) {
				t.Errorf("equilibrium(%g °C, %g %%) = %g %%; want it rising from %g and under 30", celsius, h, m, before)
			}
			before = m
		}
	}
}

// bare is a panel of two skins a distance apart, with ribs that carry nothing
// lengthwise.
func bare(distance, t float64) section.Panel {
	s := section.Skin{T: t, E: 9000, EBend: 9000, G: 600, GRoll: 60}
	return section.Panel{Width: 700, H: distance - t, Top: s, Bottom: s, Web: section.Web{N: 5, B: 12, G: 600, Bending: 0.7, Shear: 0.9}}
}

func TestBowCurvature(t *testing.T) {
	t.Parallel()
	// Thin skins that differ by .0005 over 94 mm: .0005/94·1800²/8 = 2.154 mm.
	if got := bowCurvature(bare(94, 0.1), strains{top: 0.0005}) * 1800 * 1800 / 8; !(math.Abs(got-2.154) <= 0.0005) {
		t.Errorf("bow = %.4f mm; want 2.154", got)
	}
	// Two layers glued face to face, Timoshenko, Analysis of Bi-Metal
	// Thermostats (1925), from memory:
	// κ = 6·Δε·(1+m)²/(h·(3(1+m)² + (1+mn)(m² + 1/(mn)))), m the ratio of the
	// thicknesses, n of the moduli. With m = .5, n = 3, h = 15, Δε = .001:
	// 6·.001·2.25/(15·(6.75 + 2.5·(.25 + .666667))) = .0135/(15·9.041667) = 9.953917e-5.
	p := bare(10, 10)
	p.Top.T, p.Top.E, p.Top.EBend = 5, 27000, 27000
	p.H, p.Web.E = 0, 0
	near(t, "bimetal", bowCurvature(p, strains{top: 0.001}), 9.953917e-5, 1e-6)
}

// A layered beam solved as two equations, no axial force and no moment, with
// depths from the underside: it shares nothing with the neutral axis.
func TestBowCurvatureByEquilibrium(t *testing.T) {
	t.Parallel()
	p := section.Panel{Width: 650, H: 70,
		Top: section.Skin{T: 12, E: 5000, EBend: 4300}, Bottom: section.Skin{T: 6, E: 9000, EBend: 9900},
		Web: section.Web{N: 4, B: 9, E: 8000, Bending: 0.65}, Rim: section.Rim{B: 40, E: 11000}}
	e := strains{top: 0.0011, bottom: -0.0004, web: 0.0007, rim: 0.0002}
	type layer struct{ ea, z, own, e float64 }
	layers := []layer{
		{5000 * 12 * 650, 82, 4300 * 650 * 1728.0 / 12, e.top},
		{9000 * 6 * 650, 3, 9900 * 650 * 216.0 / 12, e.bottom},
		{0.65 * 8000 * 9 * 70 * 4, 41, 0.65 * 8000 * 9 * 343000.0 / 12 * 4, e.web},
		{11000 * 40 * 88, 44, 11000 * 40 * 681472.0 / 12, e.rim},
	}
	// Strain at z is a + κ·z: Σ EA(a + κz − ε) = 0, Σ EA(a + κz − ε)z + own·κ = 0.
	var s0, s1, s2, f0, f1 float64
	for _, l := range layers {
		s0, s1, s2 = s0+l.ea, s1+l.ea*l.z, s2+l.ea*l.z*l.z+l.own
		f0, f1 = f0+l.ea*l.e, f1+l.ea*l.e*l.z
	}
	want := (s0*f1 - s1*f0) / (s0*s2 - s1*s1)
	got := bowCurvature(p, e)
	near(t, "curvature", got, want, 1e-12)

	moved := strains{e.top + 0.002, e.bottom + 0.002, e.web + 0.002, e.rim + 0.002}
	near(t, "all strains moved alike", bowCurvature(p, moved), got, 1e-11)
	if even := bowCurvature(p, strains{0.003, 0.003, 0.003, 0.003}); even != 0 {
		t.Errorf("one strain throughout bows an uneven panel by %g; want exactly 0", even)
	}
	twice := strains{2 * e.top, 2 * e.bottom, 2 * e.web, 2 * e.rim}
	near(t, "strains doubled", bowCurvature(p, twice), 2*got, 1e-14)
	over := p
	over.Top, over.Bottom = p.Bottom, p.Top
	near(t, "turned over", bowCurvature(over, strains{e.bottom, e.top, e.web, e.rim}), -got, 1e-12)
}

// moistureOf returns what the air does to a design.
func moistureOf(d Design) Moisture {
	mo, m := modelOf(d, false)
	return d.moisture(&mo, &m)
}

// Two equal skins in the same air stay flat, exactly, however the rest is made.
func TestBalancedPanelStaysFlat(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 7))
	for i := range 200 {
		d := randomDesign(r)
		d.BottomSkin = d.TopSkin
		h := 20 + 60*r.Float64()
		d.Air = Air{MadeAt: 20 + 60*r.Float64(), Above: h, Below: h}
		if m := moistureOf(d); m.BowAlong != 0 || m.BowAcross != 0 {
			t.Errorf("design %d bows %g along and %g across; want exactly 0\n%+v", i, m.BowAlong, m.BowAcross, d)
		}
		// Other air below bows it, and the other way round the other way.
		d.Air.Below = h + 10
		one := moistureOf(d)
		d.Air.Above, d.Air.Below = d.Air.Below, d.Air.Above
		two := moistureOf(d)
		if !(one.BowAlong < 0 && one.BowAcross < 0) {
			t.Errorf("design %d, damper below: bow %g along, %g across; want both middle low", i, one.BowAlong, one.BowAcross)
		}
		near(t, "damper above, along", two.BowAlong, -one.BowAlong, 1e-9)
		near(t, "damper above, across", two.BowAcross, -one.BowAcross, 1e-9)
	}
}

func TestMoisture(t *testing.T) {
	t.Parallel()
	// Skins so stiff and thin that ribs do not matter: the bow is the strain
	// difference over the distance of the skins, L²/8 times.
	d := plainTop()
	stiff, soft := plainSheet(), plainSheet()
	stiff.Key, stiff.EAlong, stiff.EAcross, stiff.EBendAlong, stiff.EBendAcross = "stiff", 9e5, 9e5, 1, 1
	soft.Key, soft.EAlong, soft.EAcross = "soft", 1, 1
	stiff.SwellAlong, stiff.SwellAcross = 1e-4, 4e-4
	d.Own = append(d.Own, stiff, soft)
	d.TopSkin, d.BottomSkin = Skin{Material: "stiff", Thickness: 2}, Skin{Material: "stiff", Thickness: 2}
	d.Lengthwise.Material, d.Crosswise.Material = "soft", "soft"
	d.Shop.Temperature = 21.1
	d.Air = Air{MadeAt: 50, Above: 60, Below: 40}
	m := moistureOf(d)
	if m.Assumed {
		t.Error("air is assumed though all of it is stated")
	}
	near(t, "made", m.Made, 9.24, 5e-4)
	near(t, "core", m.Core, (m.Above+m.Below)/2, 1e-15)
	change := m.Above - m.Below // 60 % against 40 % at 20 °C
	if !(change > 3.0 && change < 3.6) {
		t.Errorf("60 %% against 40 %% of humidity: %g %% of moisture; want about 3.3 (Wood Handbook Table 4-2: 11.0 and 7.7, from memory)", change)
	}
	near(t, "bow along", m.BowAlong, 1e-4*change/82*1600*1600/8, 1e-4)
	near(t, "bow across", m.BowAcross, 4e-4*change/82*700*700/8, 1e-4)

	// Both skins a quarter turn: along and across change places.
	turned := d.Clone()
	turned.TopSkin.Across, turned.BottomSkin.Across = true, true
	q := moistureOf(turned)
	near(t, "turned, along", q.BowAlong, 4e-4*change/82*1600*1600/8, 1e-4)
	near(t, "turned, across", q.BowAcross, 1e-4*change/82*700*700/8, 1e-4)

	// One skin turned, the same drier air on both sides: along the length the
	// top shrinks by 4e-4 and the bottom by 1e-4 for each percent, the middle
	// sinks; across it rises.
	d.TopSkin.Across = true
	d.Air = Air{MadeAt: 50, Above: 35, Below: 35}
	c := moistureOf(d)
	dry := c.Above - c.Made
	near(t, "cross-grained, along", c.BowAlong, 3e-4*dry/82*1600*1600/8, 1e-4)
	near(t, "cross-grained, across", c.BowAcross, -3e-4*dry/82*700*700/8, 1e-4)
	if !(c.BowAlong < 0 && c.BowAcross > 0) {
		t.Errorf("cross-grained skins: %g along, %g across; want middle low along, high across", c.BowAlong, c.BowAcross)
	}
}

// Ribs pull too where the skins are unequal: each set its own way.
func TestRibsSwell(t *testing.T) {
	t.Parallel()
	d := plainTop()
	_, m := modelOf(d, false)
	r := Moisture{Made: 10, Above: 6, Below: 8, Core: 7}
	// plainSheet: 1e-4 along the grain, 1.2e-4 across it.
	along, across := d.freeStrains(&m, r)
	near(t, "lengthwise ribs", along.web, -3e-4, 1e-12) // each along its own grain
	near(t, "crosswise ribs", across.web, -3e-4, 1e-12)
	near(t, "top along", along.top, -4e-4, 1e-12)
	near(t, "top across", across.top, -4.8e-4, 1e-12)
	near(t, "bottom along", along.bottom, -2e-4, 1e-12)
	near(t, "bottom across", across.bottom, -2.4e-4, 1e-12)
	d.Lengthwise.Upright = true
	along, across = d.freeStrains(&m, r)
	near(t, "upright grain", along.web, -3.6e-4, 1e-12)
	near(t, "the other set", across.web, -3e-4, 1e-12)
	if along.rim != 0 {
		t.Errorf("no band strains by %g", along.rim)
	}
	d.EdgeBand = EdgeBand{"white-oak", 20}
	_, m = modelOf(d, false)
	along, _ = d.freeStrains(&m, r)
	near(t, "oak along its grain", along.rim, -3*0.002/28, 1e-9) // Wood Handbook p. 10-7
}

func TestUsualAir(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name    string
		in      Air
		damp    bool
		want    Air
		assumed bool
	}{
		{"nothing stated", Air{}, false, Air{50, 35, 35}, true},
		{"damp place", Air{}, true, Air{50, 85, 85}, true},
		{"only made", Air{MadeAt: 60}, false, Air{60, 35, 35}, true},
		{"only above", Air{Above: 45}, true, Air{50, 45, 45}, true},
		{"below as above", Air{MadeAt: 55, Above: 40}, false, Air{55, 40, 40}, false},
		{"everything", Air{55, 40, 70}, false, Air{55, 40, 70}, false},
	} {
		d := plainTop()
		d.Air, d.Shop.Damp = test.in, test.damp
		if got, assumed := d.air(); got != test.want || assumed != test.assumed {
			t.Errorf("%s: air = %+v, assumed %t; want %+v, %t", test.name, got, assumed, test.want, test.assumed)
		}
	}
}

func TestRimStep(t *testing.T) {
	t.Parallel()
	d := testTop()
	d.EdgeBand = EdgeBand{"white-oak", 20}
	r := Moisture{Made: 10, Above: 6, Below: 8, Core: 7}
	step := func() float64 { _, m := modelOf(d, false); return d.rimStep(&m, r) }
	// By hand: white oak .00365 · −3 · 94 mm = −1.0293; birch plywood ribs
	// .0015/12 · −3 · 76 mm = −.0285; skins .003·(−4 − 2)·9 mm = −.162;
	// −1.0293 + .0285 + .162 = −.8388 mm.
	near(t, "oak rim, drier", step(), -0.8388, 1e-6)
	r = Moisture{Made: 10, Above: 14, Below: 12, Core: 13}
	near(t, "oak rim, damper", step(), 0.8388, 1e-6)

	// Ribs with upright grain follow the other figure; plainSheet 1.2e-4 across
	// and 1e-4 along: −3·(1.2e-4 + 1e-4)/2·76 is .00076 mm apart from −3·1.2e-4·76.
	d.Own = plainTop().Own
	d.Lengthwise.Material, d.Crosswise.Material = "plain", "plain"
	flat := step()
	d.Crosswise.Upright = true
	near(t, "one set upright", step()-flat, 3*0.2e-4/2*76, 1e-6)

	d.EdgeBand.Material = "birch-plywood"
	if got := step(); got != 0 {
		t.Errorf("a sheet-material band steps by %g; want 0, it is not told", got)
	}
	d.EdgeBand = EdgeBand{}
	if got := step(); got != 0 {
		t.Errorf("no band steps by %g", got)
	}
}

func TestMoistureIsTold(t *testing.T) {
	t.Parallel()
	d := testTop()
	r := compute(t, d)
	for _, code := range []string{"rim-step", "moisture-bow"} {
		if p, told := hasProblem(r.Problems, code); told {
			t.Errorf("a balanced top of sheet material: %+v", p)
		}
	}
	w := workingOf(t, r, "moisture.along")
	if w.Result != "0 mm" || w.Source == "" {
		t.Errorf("bow of a balanced top: %q, source %q; want 0 mm and a source", w.Result, w.Source)
	}
	if w := workingOf(t, r, "moisture.content"); !strings.Contains(w.Numbers, "usual values") || !strings.Contains(w.Source, "from memory") {
		t.Errorf("moisture content: %q, source %q; want it said that values are usual ones and the equation from memory", w.Numbers, w.Source)
	}

	// A thin hardboard underneath and solid oak around, in a damp basement.
	d.BottomSkin = Skin{Material: "hardboard", Thickness: 3}
	d.EdgeBand = EdgeBand{"white-oak", 20}
	d.Air = Air{MadeAt: 50, Above: 35, Below: 75}
	r = compute(t, d)
	if !(r.Moisture.BowAlong < -0.25) {
		t.Fatalf("bow along %g mm; want the middle lower than the limit of .25 mm, the underside swells", r.Moisture.BowAlong)
	}
	p, told := hasProblem(r.Problems, "moisture-bow")
	if !told || p.Severity != Advice || !strings.Contains(p.Text, "middle low") || !strings.Contains(p.Text, "35 % above and 75 % below") {
		t.Errorf("bow over the limit: %+v; want advice that says middle low and the air", p)
	}
	// The larger of both bows counts.
	d.Limits.Sag = (math.Abs(r.Moisture.BowAlong) + math.Abs(r.Moisture.BowAcross)) / 2
	if _, told := hasProblem(compute(t, d).Problems, "moisture-bow"); !told {
		t.Errorf("bows of %g along and %g across, a limit between: nothing told", r.Moisture.BowAlong, r.Moisture.BowAcross)
	}
	d.Limits.Sag = 0
	if p, told := hasProblem(compute(t, d).Problems, "moisture-bow"); told {
		t.Errorf("no limit, but %+v", p)
	}

	for _, test := range []struct {
		name string
		air  Air
		want string // in the text; "" for no advice
	}{
		{"dried", Air{50, 30, 30}, "shrinks"},
		{"damped", Air{50, 75, 75}, "swells"},
		{"as made", Air{50, 50, 50}, ""},
	} {
		d.Air = test.air
		r := compute(t, d)
		p, told := hasProblem(r.Problems, "rim-step")
		if told != (test.want != "") || told && (p.Severity != Advice || p.Field != "edgeBand.material" || !strings.Contains(p.Text, test.want) || !strings.Contains(p.Text, "lipping")) {
			t.Errorf("%s: rim step %g mm, told %t, %+v; want %q", test.name, r.Moisture.RimStep, told, p, test.want)
		}
		workingOf(t, r, "moisture.rim")
	}
}

func TestEitherWay(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		mm   float64
		want string
	}{{0, "0 mm"}, {0.004, "under 0.01 mm"}, {-0.0099, "under 0.01 mm"}, {0.123, "0.12 mm (up)"}, {-4.567, "4.57 mm (down)"}} {
		if got := eitherWay(test.mm, "up", "down"); got != test.want {
			t.Errorf("eitherWay(%g) = %q; want %q", test.mm, got, test.want)
		}
	}
}
