package engine

import (
	"bytes"
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"runtime"
	"strings"
	"sync"
	"testing"

	"flatwright/engine/length"
)

// sound fails on a number that cannot be: not finite, or below zero where
// nothing can be.
func sound(t *testing.T, name string, v any) {
	t.Helper()
	eachNumber(name, reflect.ValueOf(v), func(path string, v float64) {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("%s = %g", path, v)
		}
		for _, never := range []string{".Mass", ".Volume", ".EI", ".GA", ".GJ", ".Margins", ".Capacity", ".Demand", ".Times", ".KMod", ".Width", ".Length"} {
			if v < 0 && strings.Contains(path, never) && !strings.Contains(strings.ToLower(path), "knobs") {
				t.Errorf("%s = %g; want nothing below 0", path, v)
			}
		}
	})
}

// TestEveryDesignComputes asks for sag, stiffness, weight and margins of 10 000
// random designs, and for everything of each two hundredth.
func TestEveryDesignComputes(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(9, 9))
	rounds := 10000
	if testing.Short() { // the race detector is content with less
		rounds = 200
	}
	for i := range rounds {
		d := randomDesign(r)
		if i%200 == 0 {
			sound(t, "result", compute(t, d))
		}
		mo, m := modelOf(d, true)
		near(t, "weight, laid out part by part", mo.weight, d.weigh(d.Parts()).Total*Gravity, 1e-9)
		sound(t, "stiffness", mo.stiffness())
		for j := range d.Cases {
			c := mo.caseResult(&d.Cases[j])
			sound(t, "case", c)
			if !(c.Sag > 0) {
				t.Errorf("sag %g; want it above 0", c.Sag)
			}
		}
		margins := mo.margins(&d, &m, i%10 == 0)
		sound(t, ".Margins", margins)
		if len(margins) == 0 {
			t.Error("no margins")
		}
		s := mo.stiffness()
		for _, one := range []Direction{s.Along, s.Across} {
			if !(one.GammaTop > 0 && one.GammaTop <= 1 && one.GammaBottom > 0 && one.GammaBottom <= 1) || !(one.EI <= one.Rigid) || !(one.EI > 0) ||
				!(one.Neutral > 0 && one.Neutral < d.TotalDepth()) || !(one.Span > 0) {
				t.Errorf("direction %+v", one)
			}
		}
		if t.Failed() {
			t.Fatalf("design %d: %+v", i, d)
		}
	}
}

// doors are the ways to compute a design.
var doors = map[string]func(context.Context, Design) (Result, error){"Compute": Compute, "Estimate": Estimate, "figures": withFigures}

// withFigures is the estimate with the slopes of the materials' figures, on the
// interactive mesh.
func withFigures(ctx context.Context, d Design) (Result, error) {
	r, err := Estimate(ctx, d)
	if err != nil {
		return r, err
	}
	m := d.materials()
	r.Whole = &Whole{}
	w, err := wholeCases(ctx, &d, r.Mass.Total*Gravity, Interactive)
	if err == nil {
		r.Whole.Work.Figures, err = d.figureSlopes(ctx, w, &m, 0)
	}
	return r, err
}

// reportOf returns everything about a design as bytes.
func reportOf(t *testing.T, door string, d Design) []byte {
	t.Helper()
	r, err := doors[door](context.Background(), d)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := ReportJSON(&out, d, r); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// smallTop is plainTop of half the length: quick to mesh.
func smallTop() Design {
	d := plainTop()
	d.Length, d.Crosswise.Count, d.Cases[0].Loads[0].X = 800, 4, 400
	return d
}

// TestSameDesignSameBytes computes designs alone and by many goroutines, on one
// processor and on several, and compares the reports bit for bit. It sets the
// number of processors, so it does not run beside other tests.
func TestSameDesignSameBytes(t *testing.T) {
	type job struct {
		door string
		d    Design
		want []byte
	}
	jobs := []job{{"Compute", smallTop(), nil}, {"Estimate", Demo(), nil}, {"figures", figureTops()["tight slots, soft bed"], nil}}
	r := rand.New(rand.NewPCG(10, 10))
	for range 8 {
		jobs = append(jobs, job{"Estimate", randomDesign(r), nil})
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	for i := range jobs {
		jobs[i].want = reportOf(t, jobs[i].door, jobs[i].d)
	}
	for _, processors := range []int{1, 8} {
		runtime.GOMAXPROCS(processors)
		var all sync.WaitGroup
		for range 2 {
			for i, j := range jobs {
				all.Go(func() {
					kept := j.d.Clone()
					if got := reportOf(t, j.door, j.d); !bytes.Equal(got, j.want) {
						t.Errorf("design %d on %d processors: another report", i, processors)
					}
					if !reflect.DeepEqual(j.d, kept) {
						t.Errorf("design %d was changed", i)
					}
				})
			}
		}
		all.Wait()
	}
}

// closing is a context that is cancelled once it has been asked n times.
type closing struct {
	context.Context
	asked, n int
}

func (c *closing) Err() error {
	if c.asked++; c.asked > c.n {
		return context.Canceled
	}
	return nil
}

func TestEstimateCancelled(t *testing.T) {
	t.Parallel()
	count := &closing{context.Background(), 0, 1 << 30}
	if _, err := Estimate(count, plainTop()); err != nil {
		t.Fatal(err)
	}
	if count.asked < 15 {
		t.Errorf("the context was asked %d times; want it asked all along", count.asked)
	}
	for n := range count.asked {
		r, err := Estimate(&closing{context.Background(), 0, n}, plainTop())
		if !errors.Is(err, context.Canceled) {
			t.Errorf("cancelled at the %d. time of asking: error %v", n+1, err)
		}
		if n < count.asked-1 && !reflect.DeepEqual(r, Result{}) {
			t.Errorf("cancelled at the %d. time of asking: half a result", n+1)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Compute(ctx, Design{}); !errors.Is(err, context.Canceled) {
		t.Errorf("a blocked design, cancelled: error %v", err)
	}
}

// The whole-panel model gives up as well, wherever it is.
func TestComputeCancelled(t *testing.T) {
	t.Parallel()
	d := smallTop()
	count := &closing{context.Background(), 0, 1 << 30}
	if _, err := Estimate(count, d); err != nil {
		t.Fatal(err)
	}
	estimated := count.asked
	if _, err := Compute(count, d); err != nil {
		t.Fatal(err)
	}
	all := count.asked - estimated
	if all < estimated+3 {
		t.Errorf("the mesh asked the context %d times; want it asked on the way", all-estimated)
	}
	// A panel that is kept is asked for less: whoever was told must give up, who
	// was never told must not.
	for n := 0; n < all; n += 1 + all/60 { // the factorization asks thousands of times
		ctx := &closing{context.Background(), 0, n}
		r, err := Compute(ctx, d)
		if told := ctx.asked > n; told != errors.Is(err, context.Canceled) {
			t.Errorf("cancelled at the %d. of %d times of asking, told %v: error %v", n+1, all, told, err)
		}
		if err != nil && !reflect.DeepEqual(r, Result{}) {
			t.Errorf("cancelled at the %d. time of asking: half a result", n+1)
		}
	}
}

func TestBlockedHasOnlyProblems(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.CoreDepth = -1
	r, err := Compute(context.Background(), d)
	if err != nil || !r.Blocked() || len(r.Problems) == 0 {
		t.Fatalf("error %v, problems %v; want a blocked result", err, r.Problems)
	}
	r.Problems = nil
	if !reflect.DeepEqual(r, Result{}) {
		t.Errorf("a blocked design has %+v", r)
	}
}

// Without a load case there is weight and stiffness, and nothing to divide by.
func TestNoCases(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Cases = nil
	r := compute(t, d)
	sound(t, "result", r)
	if len(r.Cases) != 0 || len(r.Margins) != 0 || len(r.Knobs) != 0 || r.Depth.Exponent != 0 || len(r.Depth.Curve) != 0 {
		t.Errorf("cases %v, margins %v, knobs %v, depth %v; want none", r.Cases, r.Margins, r.Knobs, r.Depth)
	}
	if len(r.Parts) == 0 || !(r.Mass.Total > 0) || !(r.Stiffness.Along.EI > 0) || len(r.Build.Steps) == 0 || len(r.Working) == 0 {
		t.Error("no parts, mass, stiffness, steps or working")
	}
	if m := d.lowestMargin(); m != TimesCap {
		t.Errorf("lowest margin %g; want the cap", m)
	}
}

func TestGoverningIsTheLargestSag(t *testing.T) {
	t.Parallel()
	d := plainTop()
	small, large := d.Cases[0], d.Clone().Cases[0]
	large.Name, large.Loads[0].Force = "large", 2000
	d.Cases = []LoadCase{small, large, small}
	r := compute(t, d)
	if r.Governing != 1 {
		t.Errorf("governing case %d; want 1", r.Governing)
	}
	d.Cases = []LoadCase{small, {Name: "weight only", Duration: Permanent}}
	if r := compute(t, d); r.Governing != 0 || !(r.Cases[1].Sag > 0) || r.Cases[1].Sag != r.Cases[1].OwnSag {
		t.Errorf("governing %d, own weight %+v", r.Governing, r.Cases[1])
	}
}

func TestNeeded(t *testing.T) {
	t.Parallel()
	sag := func(d Design, core float64) float64 {
		d.CoreDepth = core
		return compute(t, d).Cases[0].Sag
	}
	for _, limit := range []float64{0.1, 0.2, 0.3, 0.5} {
		d := plainTop()
		d.Limits.Sag = limit
		r := compute(t, d)
		n := r.Depth.Needed
		if n != math.Round(n) || !(sag(d, n) <= limit) || !(sag(d, n-1) > limit) {
			t.Errorf("limit %g: needed %g with sags %g there and %g a millimetre less", limit, n, sag(d, n), sag(d, n-1))
		}
		told := ""
		for _, p := range r.Problems {
			if p.Code == "sag-over-limit" {
				told = p.Text
			}
		}
		if over := r.Cases[0].Sag > limit; over != (told != "") || over && !strings.Contains(told, length.Format{}.Print(n)+" would do") {
			t.Errorf("limit %g, sag %g: told %q", limit, r.Cases[0].Sag, told)
		}
	}
	d := plainTop()
	if n := compute(t, d).Depth.Needed; n != 0 {
		t.Errorf("no limit: needed %g; want 0", n)
	}
	d.Limits.Sag = 1e-6 // out of reach of three times the core
	if n := compute(t, d).Depth.Needed; n != 0 {
		t.Errorf("limit out of reach: needed %g; want 0", n)
	}
	d.Limits.Sag = 100 // met by the thinnest core whose slots leave wood
	if n := compute(t, d).Depth.Needed; n != minCoreDepth {
		t.Errorf("limit of no account: needed %g; want the least, %g", n, minCoreDepth)
	}
}

// What the depth report proposes can be built.
func TestDepthsCanBeBuilt(t *testing.T) {
	t.Parallel()
	tests := []struct {
		core, relief, limit float64
	}{
		{30, 10, 50},   // 26 mm is the least for the slots' relief
		{400, 2, 1e-9}, // 600 mm is the most
		{300, 1, 0.01},
		{12, 1, 1},
	}
	for _, test := range tests {
		d := plainTop()
		d.CoreDepth, d.Slots.Relief, d.Limits.Sag = test.core, test.relief, test.limit
		r := compute(t, d)
		depths := []float64{}
		for i, p := range r.Depth.Curve {
			depths = append(depths, p.CoreDepth)
			if i > 0 && p.CoreDepth <= r.Depth.Curve[i-1].CoreDepth {
				t.Errorf("core %g: curve does not rise at %d", test.core, i)
			}
		}
		if r.Depth.Needed > 0 {
			depths = append(depths, r.Depth.Needed)
		}
		for _, depth := range depths {
			e := d
			e.CoreDepth = depth
			if problems := problemsOf(e); (Result{Problems: problems}).Blocked() {
				t.Errorf("core %g: proposes %g, which cannot be built: %v", test.core, depth, problems)
			}
		}
		if len(depths) == 0 {
			t.Errorf("core %g: no depths", test.core)
		}
	}
}

func TestKnobsAreRecomputed(t *testing.T) {
	t.Parallel()
	set := map[string]func(*Design, float64){
		"coreDepth":            func(d *Design, v float64) { d.CoreDepth = v },
		"topSkin.thickness":    func(d *Design, v float64) { d.TopSkin.Thickness = v },
		"bottomSkin.thickness": func(d *Design, v float64) { d.BottomSkin.Thickness = v },
		"lengthwise.thickness": func(d *Design, v float64) { d.Lengthwise.Thickness, d.Lengthwise.Thickest = v, 0 },
		"crosswise.thickness":  func(d *Design, v float64) { d.Crosswise.Thickness, d.Crosswise.Thickest = v, 0 },
		"lengthwise.count":     func(d *Design, v float64) { d.Lengthwise.Count = int(v) },
		"crosswise.count":      func(d *Design, v float64) { d.Crosswise.Count = int(v) },
		"supports.endInset":    func(d *Design, v float64) { d.Supports.EndInset = v },
		"supports.sideInset":   func(d *Design, v float64) { d.Supports.SideInset = v },
	}
	d := testTop()
	now := compute(t, d)
	materials := map[string]func(*Design, string, float64){
		"topSkin.material":    func(d *Design, m string, v float64) { d.TopSkin.Material, d.TopSkin.Thickness = m, v },
		"bottomSkin.material": func(d *Design, m string, v float64) { d.BottomSkin.Material, d.BottomSkin.Thickness = m, v },
		"lengthwise.material": func(d *Design, m string, v float64) { d.Lengthwise.Material, d.Lengthwise.Thickness = m, v },
		"crosswise.material":  func(d *Design, m string, v float64) { d.Crosswise.Material, d.Crosswise.Thickness = m, v },
	}
	if len(now.Knobs) != len(set)+len(materials) {
		t.Errorf("%d knobs; want %d", len(now.Knobs), len(set)+len(materials))
	}
	for _, k := range now.Knobs {
		if change := materials[k.Field]; change != nil {
			// Birch plywood is the stiffest on the list: there is only a step down.
			if k.Up != nil || k.Down == nil {
				t.Errorf("%s: up %v, down %v; want down alone", k.Field, k.Up, k.Down)
				continue
			}
			e := d.Clone()
			change(&e, k.Down.Material, k.Down.Value)
			r := compute(t, e)
			near(t, k.Field+" sag", k.Down.Sag, r.Cases[r.Governing].Sag-now.Cases[now.Governing].Sag, 1e-9)
			near(t, k.Field+" margin", k.Down.Margin, r.Margins[0].Value-now.Margins[0].Value, 1e-9)
			continue
		}
		if k.Up == nil || k.Down == nil {
			t.Errorf("%s: up %v, down %v; want both", k.Field, k.Up, k.Down)
			continue
		}
		if !(k.Down.Value < k.Up.Value) {
			t.Errorf("%s goes down to %g and up to %g", k.Field, k.Down.Value, k.Up.Value)
		}
		for _, step := range []*KnobStep{k.Up, k.Down} {
			e := d.Clone()
			set[k.Field](&e, step.Value)
			r := compute(t, e)
			near(t, k.Field+" sag", step.Sag, r.Cases[r.Governing].Sag-now.Cases[now.Governing].Sag, 1e-9)
			near(t, k.Field+" mass", step.Mass, r.Mass.Total-now.Mass.Total, 1e-9)
			near(t, k.Field+" margin", step.Margin, r.Margins[0].Value-now.Margins[0].Value, 1e-9)
		}
	}
	steps := map[string][2]float64{}
	for _, k := range now.Knobs {
		if materials[k.Field] != nil {
			continue
		}
		steps[k.Field] = [2]float64{k.Down.Value, k.Up.Value}
	}
	// Birch plywood is on the list with 6.4, 9 and 12 mm.
	for field, want := range map[string][2]float64{"coreDepth": {66, 86}, "lengthwise.count": {4, 6}, "crosswise.count": {10, 12}, "supports.endInset": {125, 175},
		"supports.sideInset": {75, 125}, "topSkin.thickness": {6.4, 12}} {
		if steps[field] != want {
			t.Errorf("%s steps to %v; want %v", field, steps[field], want)
		}
	}
}

func TestKnobsThatDoNothingAreLeftOut(t *testing.T) {
	t.Parallel()
	fields := func(d Design) string {
		names := ""
		for _, k := range compute(t, d).Knobs {
			names += k.Field + " "
		}
		return names
	}
	tests := []struct {
		name   string
		change func(*Design)
		gone   string
	}{
		{"rails across", func(d *Design) { d.Supports.Kind = RailsAcross }, "supports.sideInset"},
		{"rails along", func(d *Design) { d.Supports.Kind = RailsAlong }, "supports.endInset"},
		{"all edges", func(d *Design) { d.Supports.Kind = AllEdges }, "supports.endInset supports.sideInset"},
		{"listed ribs", func(d *Design) { d.Lengthwise.Positions = []float64{100, 375, 700} }, "lengthwise.count"},
		{"listed crosswise ribs", func(d *Design) { d.Crosswise.Positions = []float64{100, 375, 700} }, "crosswise.count"},
	}
	all := fields(testTop())
	for _, test := range tests {
		d := testTop()
		test.change(&d)
		want := all
		for _, field := range strings.Fields(test.gone) {
			want = strings.Replace(want, field+" ", "", 1)
		}
		if got := fields(d); got != want {
			t.Errorf("%s: knobs %s; want %s", test.name, got, want)
		}
	}
	d := testTop()
	d.Crosswise.Count = minRibs
	d.Supports.EndInset = 10
	for _, k := range compute(t, d).Knobs {
		if (k.Field == "crosswise.count" || k.Field == "supports.endInset") && k.Down != nil {
			t.Errorf("%s steps down to %g, which cannot be built", k.Field, k.Down.Value)
		}
	}
}
