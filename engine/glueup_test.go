package engine

import (
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"flatwright/engine/length"
)

func wayOf(t *testing.T, g GlueUpReport, w PressWay) PressOption {
	t.Helper()
	for _, o := range g.Ways {
		if o.Way == w {
			return o
		}
	}
	t.Fatalf("no way %s", w)
	return PressOption{}
}

// handTop with PVA: one face 125 568 mm² and laps 50 400 mm² (TestMassByHand), the
// mean of 150 to 200 g/m², a sixth wasted: 175·.125568/(5/6) = 26.369 g, at 1.1 g/ml
// 23.972 ml. A roller wastes a fifth: 27.468 g.
func TestGlueOfEachSideByHand(t *testing.T) {
	t.Parallel()
	d := handTop()
	g := compute(t, d).GlueUp
	for _, s := range g.Sides {
		switch s.Name {
		case "bottom skin", "top skin":
			near(t, s.Name, s.Grams, 26.36928, 1e-9)
			near(t, s.Name+" ml", s.Millilitres, 26.36928/1.1, 1e-9)
			near(t, s.Name+" length", s.Length, 10464, 1e-12)
		case "laps of the ribs":
			near(t, s.Name, s.Grams, 175*0.0504*1.2, 1e-9)
		default:
			t.Errorf("glue for %s", s.Name)
		}
	}
	// In the person's units: 10.464 m = 34.33 ft, .125568 m² = 1.3516 ft², 26.369 g = .930 oz,
	// 23.972 ml = .811 US fl oz.
	for f, want := range map[bool]string{false: "10.5 m|0.13 m²|26 g|24 ml", true: "34.3 ft|1.35 ft²|0.9 oz|0.8 fl oz"} {
		if got := strings.Join(g.Sides[1].InWords(length.Format{Imperial: f}), "|"); got != want {
			t.Errorf("%s; want %s", got, want)
		}
	}
	d.GlueUp.Tool = Roller
	r := compute(t, d)
	near(t, "with a roller", r.GlueUp.Sides[1].Grams, 175*0.125568/0.8, 1e-9)
	near(t, "in the build plan", r.Build.GlueMass, 0.0527688/0.8, 1e-9)
}

// PVA, 0.2 to 0.8 MPa, and wood of 680 kg/m³: (680 − 350)/400 = .825 of the way, .695
// MPa; on 125 568 mm² 87 269.8 N. One lengthwise rib 12·1 200·.695 = 10 008 N: four
// clamps of 3 000 N, 300 mm apart. One crosswise 12·(600 − 84)·.695 = 4 303.4 N: two.
func TestPressureByHand(t *testing.T) {
	t.Parallel()
	g := compute(t, handTop()).GlueUp
	near(t, "needed", g.Needed, 0.695, 1e-12)
	near(t, "force", g.Force, 0.695*125568, 1e-12)
	near(t, "lengthwise", g.RibLines[0].Force, 10008, 1e-12)
	near(t, "crosswise", g.RibLines[7].Force, 4303.44, 1e-12)
	if a, b := g.RibLines[0], g.RibLines[7]; a.Clamps != 4 || a.Spacing != 300 || b.Clamps != 2 {
		t.Errorf("lengthwise %+v, crosswise %+v; want 4 clamps every 300 mm, and 2", a, b)
	}
	// 7·4 + 4·2 clamps on the rib lines; cauls by force: 87 270/6 000 → 15, 30
	// clamps of 2 909 N.
	if o := wayOf(t, g, ByClamps); o.Count != 36 {
		t.Errorf("%d clamps; want 36", o.Count)
	}
	o := wayOf(t, g, ByCauls)
	if o.Count != 15 || o.Pitch != 80 || !strings.Contains(strings.Join(o.Lines, " "), "30 clamps, each drawn to 2\u2009900 N") {
		t.Errorf("cauls: %+v", o)
	}
	// Vacuum: .101325·.8·.9 = .072954 MPa on 720 000 mm²: .418313 MPa on the ribs.
	v := wayOf(t, g, ByVacuum)
	near(t, "vacuum", v.Pressure, 0.072954*720000/125568, 1e-9)
	if v.Reaches || !strings.Contains(v.Why, "0.42 MPa on the ribs; 0.7 MPa is needed") {
		t.Errorf("vacuum: %+v", v)
	}
	// Weights: 87 269.8/9.80665 = 8 899 kg; a stack of concrete 300 mm high makes
	// 2 400·.216·9.80665/125 568 = .040486 MPa.
	w := wayOf(t, g, ByWeights)
	near(t, "weights", w.Pressure, 2400*0.216*9.80665/125568, 1e-9)
	// The stack of 8 899 kg: 8 899/2 400/.72 = 5.150 m of concrete on 600 mm, atan(600/5150) = 6.6°.
	if !strings.Contains(w.Lines[2], "a base of 600 mm: it falls over when it leans by 7°") {
		t.Errorf("weights: %+v", w)
	}
	if w.Reaches || !strings.Contains(w.Lines[0], "8\u2009900 kg") {
		t.Errorf("weights: %+v", w)
	}
}

// What is stated decides: too few clamps, too short ones, enough of them.
func TestStatedClamps(t *testing.T) {
	t.Parallel()
	d := handTop()
	for _, row := range []struct {
		clamps                Clamps
		onLines, cauls        bool
		whyLines, whyPressure string
	}{
		{Clamps{}, true, true, "", ""},
		{Clamps{Count: 40}, true, true, "", ""},
		{Clamps{Count: 40, Reach: 120}, false, true, "they reach 120 mm in from the edge, the rib line farthest in lies 300 mm from it", ""},
		{Clamps{Count: 10}, false, false, "10 clamps of 3\u2009000 N make 0.24 MPa on the ribs; 0.7 MPa is needed", "0.24 MPa"},
		{Clamps{Count: 10, Force: 9000}, true, false, "", "10 clamps hold 5 cauls, one every 240 mm"},
	} {
		d.GlueUp.Clamps = row.clamps
		g := compute(t, d).GlueUp
		lines, cauls := wayOf(t, g, ByClamps), wayOf(t, g, ByCauls)
		if lines.Reaches != row.onLines || !strings.Contains(lines.Why, row.whyLines) {
			t.Errorf("%+v on the rib lines: %+v", row.clamps, lines)
		}
		if cauls.Reaches != row.cauls || !strings.Contains(cauls.Why, row.whyPressure) {
			t.Errorf("%+v with cauls: %+v", row.clamps, cauls)
		}
	}
}

// A whole set of properties on random tops: the rib lines carry the force, what
// reaches makes the pressure, what does not says its number, and nothing is
// infinite.
func TestGlueUpOfRandomTops(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 21))
	reached := map[PressWay]int{}
	for range 60 {
		d := randomDesign(r)
		d.GlueUp = GlueUp{Rate: 500 * r.Float64() * float64(r.IntN(2)), Split: Splits[r.IntN(len(Splits))],
			Clamps: Clamps{Count: r.IntN(40), Force: 6000 * r.Float64(), Reach: 400 * r.Float64()},
			Caul:   CaulStock{Width: 100 * r.Float64()}, Weight: 500 * r.Float64(), Vacuum: Vacuum{Share: 90 * r.Float64(), Altitude: 3000 * r.Float64(), Flow: 100 * r.Float64()},
			Screws: PressScrews{Diameter: 3 + 3*r.Float64()}}
		var res Result
		res.Mass = d.weigh(d.Parts())
		m := d.materials()
		d.addGlueUp(&m, &res)
		g := res.GlueUp
		sound(t, "glue-up", g)
		force, area := 0.0, 0.0
		for _, l := range g.RibLines {
			force, area = force+l.Force, area+l.Area
		}
		near(t, "area of the rib lines", area, g.Area, 1e-9)
		near(t, "force of the rib lines", force, g.Force, 1e-9)
		for _, o := range g.Ways {
			if o.Reaches {
				reached[o.Way]++
			}
			if o.Reaches != (o.Why == "") || o.Reaches && o.Pressure < g.Needed*(1-1e-6) || len(o.Lines) == 0 {
				t.Errorf("%+v needs %g", o, g.Needed)
			}
			for _, l := range append(append([]string{}, o.Lines...), o.Why, g.Closing) {
				if strings.Contains(l, "Inf") || strings.Contains(l, "NaN") || strings.Contains(l, "%!") {
					t.Errorf("%s: %s", o.Name, l)
				}
			}
		}
		if g.Way >= 0 && !g.Ways[g.Way].Reaches {
			t.Errorf("advises %+v", g.Ways[g.Way])
		}
		plan := d.buildPlan(res)
		if len(plan.Steps) < 9 {
			t.Errorf("%d steps", len(plan.Steps))
		}
	}
	for _, w := range PressWays {
		if reached[w] == 60 && w != ByCauls {
			t.Errorf("%s reaches every time: nothing was tried", w)
		}
	}
}

// Twice the glue's pressure on the skins' faces, force and clamps: all scale.
// Higher up, or with a poorer pump, a bag presses less.
func TestVacuumFallsWithAltitude(t *testing.T) {
	t.Parallel()
	d := handTop()
	low := wayOf(t, compute(t, d).GlueUp, ByVacuum).Pressure
	d.GlueUp.Vacuum.Altitude = 1500
	near(t, "at 1 500 m", wayOf(t, compute(t, d).GlueUp, ByVacuum).Pressure/low, 84.556/101.325, 1e-4)
	d.GlueUp.Vacuum = Vacuum{Share: 40}
	near(t, "half the share", wayOf(t, compute(t, d).GlueUp, ByVacuum).Pressure/low, 0.5, 1e-12)
}

// handTop, one person: laps 28·.2 to 28·.5 = 5.6 to 14 min, a skin 10.464 m at 4 to
// 2 m/min 2.616 to 5.232 min. PVA lies open for 5 to 10.
func TestSplitsByHand(t *testing.T) {
	t.Parallel()
	d := handTop()
	d.Shop.People = 1
	g := compute(t, d).GlueUp
	for i, row := range []struct {
		low, high float64
		goes      int
		fit       Fit
	}{
		{8.216, 19.232, 2, FitsPerhaps},
		{5.6, 14, 3, FitsPerhaps},
		{2.8, 7, 4, FitsPerhaps}, // two of the four crosswise ribs at a time: 14 laps
		{5.6, 14, 3, FitsPerhaps},
	} {
		o := g.Splits[i]
		near(t, o.Name, o.Low, row.low, 1e-12)
		near(t, o.Name, o.High, row.high, 1e-12)
		if len(o.Goes) != row.goes || o.Fit != row.fit {
			t.Errorf("%+v; want %d goes, fit %d", o, row.goes, row.fit)
		}
	}
	// Two people: 7/2 = 3.5 min with half of the laps, 2.616 with a skin. 19.232/4 =
	// 4.808 min: four for all in one go. Urea resin may lie open for 10 to 20 min, which
	// is not 19.2; one-part polyurethane for 15 to 40; epoxy from 20.
	two, four, slower := g.Splits[4], g.Splits[5], g.Splits[6]
	near(t, "two people", two.High, 3.5, 1e-12)
	near(t, "four people", four.High, 4.808, 1e-12)
	if two.People != 2 || two.Split != HalfGrid || four.People != 4 || four.Split != Together || slower.Glue != "epoxy" || slower.Fit != FitsSurely {
		t.Errorf("more hands %+v and %+v, slower glue %+v; want 2 with half the grid, 4 people, and epoxy", two, four, slower)
	}
	if g.Best != 4 || g.Taken != 0 {
		t.Errorf("best %d, taken %d; want two people and the first", g.Best, g.Taken)
	}
	// A slower rate lengthens the skins alone.
	d.GlueUp.Rate = 1000
	g = compute(t, d).GlueUp
	near(t, "a metre a minute", g.Splits[1].Goes[1].Low, 10.464, 1e-12)
	near(t, "a metre a minute", g.Splits[1].Goes[1].High, 10.464, 1e-12)
}

// Damp air keeps a film open, warm air closes it; a glue that reacts does not care
// for damp.
func TestOpenTimeFollowsTheAir(t *testing.T) {
	t.Parallel()
	d := handTop()
	near(t, "as the label", compute(t, d).GlueUp.Factor, 1, 1e-12)
	d.Air.MadeAt = 70 // (1 − .5)/(1 − .7)
	near(t, "damp", compute(t, d).GlueUp.Factor, 0.5/0.3, 1e-12)
	d.Air.MadeAt = 95
	near(t, "never more than twice", compute(t, d).GlueUp.Factor, 2, 1e-12)
	d.Glue, d.Shop.Temperature = "epoxy", 15
	near(t, "epoxy", compute(t, d).GlueUp.Factor, math.Sqrt2, 1e-12)
}

func TestSplitChangesTheBuild(t *testing.T) {
	t.Parallel()
	keys := func(s Split) string {
		d := handTop()
		d.GlueUp.Split = s
		b := compute(t, d).Build
		var out []string
		at := d.Shop.Start
		for _, s := range b.Steps {
			out = append(out, s.Key)
			if s.Starts != at {
				t.Errorf("%s starts at %s; want %s", s.Key, s.Starts, at)
			}
			at = s.Ends
			if strings.HasPrefix(s.Key, "night-") && !strings.HasSuffix(s.Ends, "T09:00") {
				t.Errorf("%s ends at %s; want nine in the morning, when the work began", s.Key, s.Ends)
			}
		}
		return strings.Join(out, " ")
	}
	for _, row := range []struct {
		split Split
		want  string
	}{
		{Together, "dry rehearse spread-bottom clamp-bottom hold-bottom spread-top clamp-top hold-top cure"},
		{GridFirst, "dry rehearse spread-grid-1 close-grid-1 hold-grid-1 spread-bottom clamp-bottom hold-bottom spread-top clamp-top hold-top cure"},
		{HalfGrid, "dry rehearse spread-grid-1 close-grid-1 hold-grid-1 spread-grid-2 close-grid-2 hold-grid-2 spread-bottom clamp-bottom hold-bottom spread-top clamp-top hold-top cure"},
		{SkinADay, "dry rehearse spread-grid-1 close-grid-1 hold-grid-1 night-grid spread-bottom clamp-bottom hold-bottom night-bottom spread-top clamp-top hold-top cure"},
	} {
		if got := keys(row.split); got != row.want {
			t.Errorf("%q: %s; want %s", row.split, got, row.want)
		}
	}
}

// handTop has 7 lengthwise ribs, so 6 rows of bays, and 4 crosswise ribs: 24 holes of
// 7.5 mm, a tenth of 75. A hole that is there already is not drilled again.
func TestVents(t *testing.T) {
	t.Parallel()
	d := handTop()
	g := compute(t, d).GlueUp
	if len(g.Vents) != 24 || g.Vents[0].Diameter != 7.5 || g.Vents[0].Up != 37.5 {
		t.Errorf("%d vents, first %+v; want 24 of 7.5 mm at 37.5", len(g.Vents), g.Vents[0])
	}
	// By hand: rib middles 6, 104, 202 … 594, rows midway: 55, 153, 251, 349, 447, 545.
	if text := g.VentText(); !strings.Contains(text, "55 mm, 153 mm, 251 mm, 349 mm, 447 mm, 545 mm from the front") {
		t.Error(text)
	}
	ys, _ := d.RibPlaces()
	near(t, "between the first two ribs", g.Vents[0].Y, (ys[0]+ys[1])/2, 1e-12)
	d.Holes = []Hole{{Kind: CableHole, Part: "C2", Y: (ys[0] + ys[1]) / 2, Up: 37, Diameter: 20}}
	if n := len(compute(t, d).GlueUp.Vents); n != 23 {
		t.Errorf("%d vents with a hole there; want 23", n)
	}
	if p := g.Pins; len(p) != 2 || p[0] != (PinPlace{6, 6}) || p[1] != (PinPlace{1194, 594}) {
		t.Errorf("pins %+v; want them over the corner crossings", p)
	}
}

func TestGlueUpIsChecked(t *testing.T) {
	t.Parallel()
	for _, row := range []struct {
		code string
		set  func(*GlueUp)
	}{
		{"split-unknown", func(g *GlueUp) { g.Split = "x" }},
		{"spread-tool-unknown", func(g *GlueUp) { g.Tool = "x" }},
		{"press-unknown", func(g *GlueUp) { g.Press = "x" }},
		{"glue-up-range", func(g *GlueUp) { g.Clamps.Count = -1 }},
		{"glue-up-range", func(g *GlueUp) { g.Vacuum.Share = 100 }},
		{"glue-up-range", func(g *GlueUp) { g.Caul.Height = 1e-300 }},
	} {
		d := handTop()
		row.set(&d.GlueUp)
		found := false
		for _, p := range Validate(d, d.Material, Catalogue().Glue) {
			found = found || p.Code == row.code && p.Severity == Blocking && strings.HasPrefix(p.Field, "glueUp.")
		}
		if !found {
			t.Errorf("%s is not told", row.code)
		}
	}
}

// The drawing has every rib line once, the cauls' clamps in pairs, and stays
// inside its own bounds.
func TestGlueUpDrawing(t *testing.T) {
	t.Parallel()
	d := handTop()
	for _, w := range PressWays {
		d.GlueUp.Press = w
		r := compute(t, d)
		f := GlueUpDrawing(d, r, length.Format{})
		if len(f.Lines) != 11 || len(f.Notes) != 11 {
			t.Errorf("%s: %d lines, %d notes; want 11 rib lines", w, len(f.Lines), len(f.Notes))
		}
		want := map[PressWay]int{ByCauls: 30, ByClamps: 36, ByVacuum: 24, ByWeights: 0}
		if n, ok := want[w]; ok && len(f.Marks) != n+2 {
			t.Errorf("%s: %d marks; want %d and two pins", w, len(f.Marks), n)
		}
		if !strings.Contains(GlueUpCaption(r), "pins") {
			t.Errorf("caption: %s", GlueUpCaption(r))
		}
	}
	if !reflect.DeepEqual(compute(t, d).GlueUp, compute(t, d).GlueUp) {
		t.Error("twice the same design, two reports")
	}
}

// Half the grid with a skin of two sheets: each goes on by itself. handTop has ribs at
// 6, 402, 798 and 1 194 mm: left of a seam at 402 mm, over C2, lie 7·402 mm of lengthwise
// and one and a half times 516 mm of crosswise ribs, 3 588 of 10 464 mm.
func TestSheetsOfASkinGoOnOneByOne(t *testing.T) {
	t.Parallel()
	d := handTop()
	d.Shop.People, d.GlueUp.Split = 1, HalfGrid
	d.Seams = []Seam{{Skin: BottomSeam, At: 150, Spliced: true}, {Skin: BottomSeam, At: 402, Spliced: true}}
	g := compute(t, d).GlueUp
	o := g.Splits[g.Taken]
	if o.Name != "half the grid at a time, then each sheet of the bottom skin by itself, then the top skin" || len(o.Goes) != 5 {
		t.Fatalf("%+v", o)
	}
	for i, want := range []struct {
		name string
		low  float64
	}{{"laps of the left half", 2.8}, {"laps of the right half", 2.8}, {"bottom skin, left of the seam", 3.588 / 4}, {"bottom skin, right of the seam", (10.464 - 3.588) / 4}, {"top skin", 2.616}} {
		if got := o.Goes[i]; got.Name != want.name {
			t.Errorf("go %d: %q; want %q", i+1, got.Name, want.name)
		}
		near(t, want.name, o.Goes[i].Low, want.low, 1e-12)
	}
	var keys []string
	for _, s := range compute(t, d).Build.Steps {
		keys = append(keys, s.Key)
	}
	if got := strings.Join(keys, " "); !strings.Contains(got, "hold-grid-2 spread-bottom-1 clamp-bottom-1 hold-bottom-1 spread-bottom-2 clamp-bottom-2 hold-bottom-2 spread-top clamp-top hold-top") {
		t.Errorf("steps %s", got)
	}
	if got := SkinOfStep("clamp-bottom-2"); got != BottomSeam {
		t.Errorf("that step glues the skin %q", got)
	}
	// Across, in front of 200 mm: ribs at 6, 104 and, under the seam or behind it, 202 mm:
	// 2·1 200 + (200 − 202)/12 + ½ of 1 200 + 4·516·200/600 mm.
	d.Seams = []Seam{{Skin: TopSeam, Along: true, At: 200}}
	near(t, "in front of the seam", d.partBefore(d.Seams[0]), (2*1200+(0.5-2.0/12)*1200+4*516*200.0/600)/10464, 1e-12)
	// A scarf is glued before it is laid: one sheet.
	d.Seams[0].Spliced, d.Seams[0].Scarf = true, true
	if _, ok := d.halving(TopSeam); ok {
		t.Error("a skin with a scarf goes on in two goes")
	}
}
