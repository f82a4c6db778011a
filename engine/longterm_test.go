package engine

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

func TestCreepSoFar(t *testing.T) {
	t.Parallel()
	// By hand from kdef·(t/50)^0.2, plywood .80 and solid wood .60 in a heated
	// room (EN 1995-1-1 Table 3.2):
	// ten years: ln .2 = −1.60944, a fifth −.321888, e^ .724780, ·.80 = .579824;
	// a year: ln .02 = −3.91202, a fifth −.782405, e^ .457305, ·.60 = .274383;
	// a day: ln(1/18262.5) = −9.812605, a fifth −1.962521, e^ .1405038, ·.80 = .1124030.
	for _, test := range []struct {
		name              string
		kdef, years, want float64
	}{
		{"plywood, ten years", 0.80, tenYears, 0.579824},
		{"solid wood, a year", 0.60, oneYear, 0.274383},
		{"plywood, a day", 0.80, oneDay, 0.112403},
		{"at once", 0.80, 0, 0},
		{"the whole life", 2.25, 50, 2.25},
	} {
		near(t, test.name, creepSoFar(test.kdef, test.years), test.want, 5e-6)
	}
}

func TestCreepFactor(t *testing.T) {
	t.Parallel()
	// EN 1995-1-1 Table 3.2; OSB and MDF from memory.
	for _, test := range []struct {
		kind  string
		damp  bool
		want  float64
		known bool
	}{
		{"plywood", false, 0.80, true}, {"plywood", true, 1.00, true},
		{"solid", false, 0.60, true}, {"solid", true, 0.80, true},
		{"osb", false, 1.50, true}, {"osb", true, 2.25, true},
		{"mdf", false, 2.25, true}, {"mdf", true, 2.25, false},
	} {
		if got, known := creepFactor(test.kind, test.damp); got != test.want || known != test.known {
			t.Errorf("creepFactor(%s, damp %t) = %g, %t; want %g, %t", test.kind, test.damp, got, known, test.want, test.known)
		}
	}
}

// longTermOf returns the sag over the years of a design's only case.
func longTermOf(d Design) Creep {
	mo, m := modelOf(d, true)
	return d.creep(&mo, &m)[0]
}

var everySupport = [...]SupportKind{RailsAcross, RailsAlong, FourLegs, AllEdges}

// supported puts a design on another kind of support.
func supported(d Design, kind SupportKind) Design {
	d.Supports = Supports{Kind: kind, EndInset: 120, SideInset: 60, Bearing: 50}
	return d
}

// With one kind of material throughout, everything that stays sags by exactly
// 1 + kdef(t), whatever the top stands on.
func TestCreepOfOneKind(t *testing.T) {
	t.Parallel()
	for _, kind := range everySupport {
		for _, damp := range []bool{false, true} {
			d := supported(plainTop(), kind)
			d.TopSkin.Across, d.Shop.Damp = true, damp
			d.Cases[0].Duration = Permanent
			d.Cases[0].Loads[0].X, d.Cases[0].Loads[0].Y = 700, 250
			kdef := 0.80
			if damp {
				kdef = 1.00
			}
			c := longTermOf(d)
			mo, _ := modelOf(d, true)
			name := fmt.Sprintf("%s, damp %t", kind, damp)
			if now := mo.caseResult(&d.Cases[0]).Sag; c.Now != now {
				t.Errorf("%s: sag after no time %g; want that of the case, %g", name, c.Now, now)
			}
			near(t, name+", a day", c.Day/c.Now, 1+creepSoFar(kdef, oneDay), 1e-12)
			near(t, name+", a year", c.Year/c.Now, 1+creepSoFar(kdef, oneYear), 1e-12)
			near(t, name+", ten years", c.TenYears/c.Now, 1+creepSoFar(kdef, tenYears), 1e-12)
		}
	}
}

// What stays, by duration class, on a top where the own weight sags as much as
// the load does: both spread evenly, of the same weight.
func TestWhatStays(t *testing.T) {
	t.Parallel()
	d := plainTop()
	mo, m := modelOf(d, true)
	d.Cases[0].Loads = []Load{{Name: "as much again", Kind: Uniform, Force: mo.weight}}
	for _, test := range []struct {
		class Duration
		years [2]float64 // that the load counts after a year and after ten
	}{
		{Permanent, [2]float64{1, 10}},
		{LongTerm, [2]float64{1, 10}},
		{MediumTerm, [2]float64{0.5, 0.5}},
		{ShortTerm, [2]float64{0, 0}},
		{Instantaneous, [2]float64{0, 0}},
	} {
		d.Cases[0].Duration = test.class
		c := longTermOf(d)
		factor := func(own, load float64) float64 { return 1 + (creepSoFar(0.8, own)+creepSoFar(0.8, load))/2 }
		near(t, string(test.class)+", a year", c.Year/c.Now, factor(1, test.years[0]), 1e-9)
		near(t, string(test.class)+", ten years", c.TenYears/c.Now, factor(10, test.years[1]), 1e-9)
	}

	// The code's own rule for a load of which ψ2 stays, over the whole life:
	// w_fin = w_g(1 + kdef) + w_q(1 + ψ2·kdef), EN 1995-1-1 2.2.3(5), from
	// memory. With 1 mm of each, kdef .80 and ψ2 .3: 1.80 + 1.24 = 3.04 mm. Here
	// .3 of the load is permanent and .7 of it short.
	a := ageing{&d, &m, map[float64]*model{}}
	final := func(class Duration) float64 {
		c := d.Cases[0]
		c.Duration = class
		return a.sag(&c, creepLife)
	}
	one := a.sag(&LoadCase{}, 0) // own weight alone, now
	near(t, "final sag with ψ2", (0.3*final(Permanent)+0.7*final(ShortTerm))/one, 3.04, 1e-9)
	// A load that stays ten years does not creep on through the rest of the life.
	near(t, "long load at the end", final(LongTerm)/one, 1.8+1+creepSoFar(0.8, 10), 1e-9)
}

// Parts of different kinds creep each for itself: the same as a design whose
// materials are that much softer from the start.
func TestCreepOfMixedKinds(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.EdgeBand = EdgeBand{"rim", 20}
	kinds := []string{"plywood", "mdf", "osb", "particleboard-p5", "solid"}
	d.Own = nil
	for i, kind := range kinds {
		s := plainSheet()
		s.Key, s.Kind, s.Solid = []string{"top", "bottom", "long", "cross", "rim"}[i], kind, kind == "solid"
		d.Own = append(d.Own, s)
	}
	d.TopSkin.Material, d.BottomSkin.Material, d.Lengthwise.Material, d.Crosswise.Material = "top", "bottom", "long", "cross"
	d.Cases[0].Duration = Permanent
	for _, kind := range everySupport {
		d := supported(d, kind)
		// EN 1995-1-1 Table 3.2, heated room: plywood .80, solid wood .60; MDF
		// 2.25, OSB/3 1.50, particleboard P5 2.25 from memory.
		soft := d.Clone()
		for i, kdef := range []float64{0.80, 2.25, 1.50, 2.25, 0.60} {
			s := &soft.Own[i]
			f := 1 + kdef*math.Pow(10.0/50, 0.2)
			s.EAlong, s.EAcross, s.EBendAlong, s.EBendAcross = s.EAlong/f, s.EAcross/f, s.EBendAlong/f, s.EBendAcross/f
			s.GEdge, s.GRolling = s.GEdge/f, s.GRolling/f
		}
		mo, _ := modelOf(soft, true)
		c := longTermOf(d)
		near(t, string(kind)+", ten years", c.TenYears, mo.caseResult(&soft.Cases[0]).Sag, 1e-12)
		low, high := 1+creepSoFar(0.60, tenYears), 1+creepSoFar(2.25, tenYears)
		if f := c.TenYears / c.Now; !(f > low && f < high) {
			t.Errorf("%s: ten years sag %g times as much; want between that of the parts that creep least, %g, and most, %g", kind, f, low, high)
		}
	}
	// Materials that stay as they are.
	_, m := modelOf(d, false)
	if got := m.after(0, false); got.top.EAlong != m.top.EAlong || got.band.GRolling != m.band.GRolling {
		t.Error("materials soften without any time")
	}
	if got := m.after(10, false); got.top.Density != m.top.Density || got.top.FRolling != m.top.FRolling || got.top.SwellAlong != m.top.SwellAlong {
		t.Error("creep changes more than moduli")
	}
}

func TestCreepInResult(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(4, 5))
	for i := range 40 {
		d := randomDesign(r)
		mo, m := modelOf(d, true)
		all := d.creep(&mo, &m)
		if len(all) != len(d.Cases) {
			t.Fatalf("design %d: %d cases over the years; want %d", i, len(all), len(d.Cases))
		}
		for j, c := range all {
			if now := mo.caseResult(&d.Cases[j]); c.Case != now.Name || c.Now != now.Sag {
				t.Errorf("design %d: %s sags %g now; want %s, %g", i, c.Case, c.Now, now.Name, now.Sag)
			}
		}
		// Where nothing overhangs, sag only grows, and by no more than the
		// largest factor: 1 + 3.00·.725 = 3.17 for particleboard in damp air.
		// (Overhangs that creep lift the middle: there it may fall.)
		d.Supports.EndInset, d.Supports.SideInset = 0, 0
		if d.Supports.Kind == OwnFeet {
			d.Supports.Feet = []Foot{{}, {X: d.Length}, {Y: d.Width}, {X: d.Length, Y: d.Width}}
		}
		mo, m = modelOf(d, true)
		for _, c := range d.creep(&mo, &m) {
			if !(0 < c.Now && c.Now < c.Day && c.Day < c.Year && c.Year < c.TenYears && c.TenYears < 3.175*c.Now) {
				t.Errorf("design %d, %s: sag does not grow within reason: %+v", i, c.Case, c)
			}
		}
	}
}

// hasProblem returns the problem with a code, if there is one.
func hasProblem(problems []Problem, code string) (Problem, bool) {
	i := slices.IndexFunc(problems, func(p Problem) bool { return p.Code == code })
	if i < 0 {
		return Problem{}, false
	}
	return problems[i], true
}

// workingOf returns the working with a key.
func workingOf(t *testing.T, r Result, key string) Working {
	t.Helper()
	i := slices.IndexFunc(r.Working, func(w Working) bool { return w.Key == key })
	if i < 0 {
		t.Fatalf("no working %q", key)
	}
	return r.Working[i]
}

func TestCreepIsTold(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Cases[0].Duration = Permanent
	r := compute(t, d)
	if len(r.LongTerm) != 1 || r.LongTerm[0].Now != r.Cases[0].Sag {
		t.Fatalf("LongTerm = %+v; want the one case, %g now", r.LongTerm, r.Cases[0].Sag)
	}
	w := workingOf(t, r, "creep")
	for _, want := range []string{"service class 1", "top skin 0.80", "crosswise ribs 0.80", "0.725 after ten years", "loads stay"} {
		if !strings.Contains(w.Numbers, want) {
			t.Errorf("numbers %q; want %q in them", w.Numbers, want)
		}
	}
	if strings.Contains(w.Numbers, "edge band") {
		t.Errorf("numbers %q name an edge band that is not there", w.Numbers)
	}
	if !strings.Contains(w.Source, "Table 3.2") || !strings.Contains(w.Source, "from memory") {
		t.Errorf("source %q; want the table, and what is from memory", w.Source)
	}

	// A limit between now and ten years is told; one that is missed already, or
	// never, is not.
	c := r.LongTerm[0]
	for _, test := range []struct {
		limit float64
		told  bool
	}{{(c.Now + c.TenYears) / 2, true}, {c.Now * 0.9, false}, {c.TenYears * 1.1, false}, {0, false}} {
		d.Limits.Sag = test.limit
		if p, told := hasProblem(compute(t, d).Problems, "creep-over-limit"); told != test.told || told && (p.Severity != Advice || !strings.Contains(p.Text, "Person")) {
			t.Errorf("limit %g with %g now and %g after ten years: told %t, %+v; want %t", test.limit, c.Now, c.TenYears, told, p, test.told)
		}
	}

	// The case that is the worst after ten years is told, not the worst of now.
	d.Cases = []LoadCase{{Name: "lean", Duration: ShortTerm, Loads: d.Cases[0].Loads}, {Name: "kept", Duration: Permanent, Loads: []Load{d.Cases[0].Loads[0]}}}
	d.Cases[1].Loads[0].Force *= 0.8
	both := compute(t, d)
	now, later := both.Cases[0].Sag, both.LongTerm[1].TenYears
	if !(now > both.Cases[1].Sag && later > both.LongTerm[0].TenYears) {
		t.Fatalf("%+v; want the first case worst now, the second after ten years", both.LongTerm)
	}
	d.Limits.Sag = (now + later) / 2
	if p, told := hasProblem(compute(t, d).Problems, "creep-over-limit"); !told || !strings.Contains(p.Text, "“kept”") {
		t.Errorf("told %t, %+v; want the case that is kept", told, p)
	}

	// Without a case there is nothing to tell.
	d.Cases = nil
	if r := compute(t, d); r.LongTerm != nil {
		t.Errorf("LongTerm without a case = %+v", r.LongTerm)
	}
}

func TestCreepInDamp(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Shop.Damp = true
	d.EdgeBand = EdgeBand{"white-oak", 20}
	r := compute(t, d)
	if p, told := hasProblem(r.Problems, "creep-unknown"); told {
		t.Errorf("plywood and oak in damp air: %+v; want nothing, the code knows them", p)
	}
	w := workingOf(t, r, "creep")
	for _, want := range []string{"service class 2", "top skin 1.00", "edge band 0.80", "come and go"} {
		if !strings.Contains(w.Numbers, want) {
			t.Errorf("numbers %q; want %q in them", w.Numbers, want)
		}
	}
	d.TopSkin = Skin{Material: "mdf", Thickness: 12}
	d.BottomSkin = d.TopSkin
	mdf, _ := d.Material("mdf")
	p, told := hasProblem(compute(t, d).Problems, "creep-unknown")
	if !told || strings.Count(p.Text, mdf.Name) != 1 {
		t.Errorf("MDF skins in damp air: %+v; want %q named once", p, mdf.Name)
	}
}

func TestStaysInWords(t *testing.T) {
	t.Parallel()
	for class, want := range map[Duration]string{Permanent: "loads stay", LongTerm: "ten years", MediumTerm: "half a year", ShortTerm: "come and go", Instantaneous: "come and go"} {
		if got := class.staysInWords(); !strings.Contains(got, want) {
			t.Errorf("%s: %q; want %q in it", class, got, want)
		}
	}
}

// Whatever model tells the sag of a case, the years start from it and grow by
// the closed form's factors, however often it is told.
func TestYearsStartFromTheCase(t *testing.T) {
	t.Parallel()
	d := uneven()
	first := compute(t, d)
	whole, err := Compute(context.Background(), d)
	if err != nil {
		t.Fatal(err)
	}
	again, err := Refine(context.Background(), d, whole, Interactive)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range []Result{first, whole, again} {
		if len(r.LongTerm) != len(d.Cases) {
			t.Fatalf("%d cases over the years; want %d", len(r.LongTerm), len(d.Cases))
		}
		for i, c := range r.LongTerm {
			near(t, "now", c.Now, r.Cases[i].Sag, 1e-12)
			was := first.LongTerm[i]
			near(t, "a day", c.Day/c.Now, was.Day/was.Now, 1e-12)
			near(t, "a year", c.Year/c.Now, was.Year/was.Now, 1e-12)
			near(t, "ten years", c.TenYears/c.Now, was.TenYears/was.Now, 1e-12)
		}
		want := fmt.Sprintf("%.3f mm after ten years", r.LongTerm[r.Governing].TenYears)
		if w := workingOf(t, r, "creep"); w.Result != want {
			t.Errorf("working says %q; want %q", w.Result, want)
		}
	}
	if whole.Cases[0].Sag == first.Cases[0].Sag {
		t.Error("both models say the same sag to the last digit; the test tests nothing")
	}
	if w := workingOf(t, whole, "creep"); !strings.Contains(w.Numbers, "whole-panel model") {
		t.Errorf("numbers %q do not say that they were scaled", w.Numbers)
	}
	if w := workingOf(t, first, "creep"); strings.Contains(w.Numbers, "whole-panel model") {
		t.Errorf("numbers %q speak of a model that has not run", w.Numbers)
	}
}
