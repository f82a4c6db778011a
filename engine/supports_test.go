package engine

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"flatwright/engine/draw"
	"flatwright/engine/length"
	"flatwright/engine/plate"
)

// wholeOf computes a design on a mesh.
func wholeOf(t *testing.T, d Design, mesh Mesh) Result {
	t.Helper()
	r, err := Refine(context.Background(), d, compute(t, d), mesh)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// held fails if the whole panel was not solved.
func heldWhole(t *testing.T, d Design, mesh Mesh) (Result, WholeCase) {
	t.Helper()
	r := wholeOf(t, d, mesh)
	if r.Whole == nil {
		t.Fatalf("not solved: %v", r.Problems)
	}
	return r, r.Whole.Cases[r.Governing]
}

// onFeet is plainTop on three feet: two in front, one behind.
func onFeet() Design {
	d := plainTop()
	d.Supports = Supports{Kind: OwnFeet, Bearing: 60, Feet: []Foot{{Name: "left", X: 100, Y: 100}, {Name: "right", X: 1500, Y: 60, Size: 80}, {Name: "behind", X: 700, Y: 640}}}
	return d
}

// onLedger is plainTop on a ledger at the back.
func onLedger(rail bool) Design {
	d := plainTop()
	d.Supports = Supports{Kind: OnLedger, EndInset: 60, SideInset: 60, Bearing: 60, Rail: rail}
	return d
}

// withAprons is plainTop on four legs with aprons of plain sheet on edge.
func withAprons() Design {
	d := plainTop()
	d.Supports = Supports{Kind: FourLegs, EndInset: 40, SideInset: 40, Bearing: 60,
		Apron: Apron{Material: "plain", Thickness: 20, Height: 90, Front: true, Back: true}}
	return d
}

// Three feet carry what statics says, whatever the panel is: barycentric
// coordinates of the load, here off the middle, and the panel's own weight at
// its middle. Pads give the force as a whole; its middle wanders within the pad
// by as much as the panel slopes there, so a soft bed and small pads.
func TestThreeFeetByHand(t *testing.T) {
	t.Parallel()
	d := onFeet()
	d.Supports.Bearing, d.Supports.Bed = 10, 2
	d.Supports.Feet[1].Size = 10
	d.Cases[0].Loads[0].X, d.Cases[0].Loads[0].Y = 620, 300
	r, c := heldWhole(t, d, Interactive)
	weight := r.Mass.Total * Gravity
	f := d.Supports.Feet
	share := func(i int, x, y float64) float64 { // areas of triangles over the whole, by hand
		a, b := f[(i+1)%3], f[(i+2)%3]
		area := func(ax, ay, bx, by, cx, cy float64) float64 { return (bx-ax)*(cy-ay) - (by-ay)*(cx-ax) }
		return area(x, y, a.X, a.Y, b.X, b.Y) / area(f[i].X, f[i].Y, a.X, a.Y, b.X, b.Y)
	}
	sum := 0.0
	for i, p := range c.Reactions {
		want := 800*share(i, 620, 300) + weight*share(i, 800, 350)
		near(t, p.Name, p.Force, want, 2e-3)
		near(t, "rigid share of "+p.Name, footShare(f, i, 620, 300), share(i, 620, 300), 1e-12)
		sum += p.Force
	}
	near(t, "sum", sum, 800+weight, 1e-9)
	if c.Reactions[0].Name != "left" || c.Reactions[2].Name != "behind" {
		t.Errorf("reactions %v do not carry the feet's names", c.Reactions)
	}
}

// Four feet where legs would stand are those legs.
func TestFeetAsLegs(t *testing.T) {
	t.Parallel()
	legs := withAprons()
	legs.Supports.Apron = Apron{}
	legs.Cases[0].Loads[0].X = 500
	feet := legs.Clone()
	feet.Supports.Feet = legs.FeetOfLegs()
	feet.Supports.Kind = OwnFeet
	a, b := wholeOf(t, legs, Interactive), wholeOf(t, feet, Interactive)
	near(t, "closed form", b.Cases[0].Closed, a.Cases[0].Closed, 1e-12)
	near(t, "sag", b.Cases[0].Sag, a.Cases[0].Sag, 1e-9)
	for i, r := range b.Whole.Cases[0].Reactions {
		near(t, r.Name, r.Force, a.Whole.Cases[0].Reactions[i].Force, 1e-9)
	}
}

// The foot that lifts is named; its neighbours carry all.
func TestFootThatLifts(t *testing.T) {
	t.Parallel()
	d := onFeet()
	d.Supports.Feet = append(d.Supports.Feet, Foot{Name: "spare", X: 1500, Y: 640})
	d.Cases[0].Loads[0] = Load{Name: "anvil", Kind: Patch, Force: 4000, X: 150, Y: 120, SizeX: 100, SizeY: 100}
	r := wholeOf(t, d, Normal)
	if !slices.ContainsFunc(r.Problems, func(p Problem) bool { return p.Code == "support-lifts" && strings.Contains(p.Text, "The spare lifts") }) {
		t.Errorf("no word of the spare foot: %v", r.Problems)
	}
	sum := 0.0
	for _, f := range r.Whole.Cases[0].Reactions {
		sum += f.Force
	}
	near(t, "sum", sum, 4000+r.Mass.Total*Gravity, 1e-9)
}

// Too few feet, feet in one line, feet off the panel and on one another are told
// at the field.
func TestFeetRefused(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		code, field, words string
		change             func(s *Supports)
	}{
		{"feet-few", "supports.feet", "at least three", func(s *Supports) { s.Feet = s.Feet[:2] }},
		{"feet-few", "supports.feet", "0 feet", func(s *Supports) { s.Feet = nil }},
		{"feet-in-line", "supports.feet", "one line", func(s *Supports) { s.Feet = []Foot{{X: 100, Y: 100}, {X: 800, Y: 350}, {X: 1500, Y: 620}} }},
		{"foot-off-panel", "supports.feet[1].x", "ends at 0 and 1600", func(s *Supports) { s.Feet[1].X = 1700 }},
		{"foot-off-panel", "supports.feet[0].y", "“left”", func(s *Supports) { s.Feet[0].Y = -1 }},
		{"feet-overlap", "supports.feet[2].x", "“left” and “behind”", func(s *Supports) { s.Feet[2].X, s.Feet[2].Y = 120, 110 }},
		{"foot-size", "supports.feet[0].size", "at least 5 mm", func(s *Supports) { s.Feet[0].Size = 2 }},
		{"foot-name-twice", "supports.feet[1].name", "“left”", func(s *Supports) { s.Feet[1].Name = "left" }},
		{"foot-sticks-out", "supports.feet[0].x", "30 mm and 1570 mm", func(s *Supports) { s.Feet[0].X = 10 }},
		{"feet-many", "supports.feet", "up to 20", func(s *Supports) { s.Feet = make([]Foot, 21) }},
		{"ledger-edge", "supports.ledger", "“top” is no edge", func(s *Supports) { s.Kind, s.Ledger = OnLedger, "top" }},
		{"supports-overlap", "supports.sideInset", "ledger", func(s *Supports) { s.Kind, s.SideInset = OnLedger, 620 }},
		{"material-missing", "supports.apron.material", "aprons", func(s *Supports) { *s = withAprons().Supports; s.Apron.Material = "" }},
		{"apron-thickness", "supports.apron.thickness", "60 mm", func(s *Supports) { *s = withAprons().Supports; s.Apron.Thickness = 61 }},
		{"apron-height", "supports.apron.height", "0 mm", func(s *Supports) { *s = withAprons().Supports; s.Apron.Height = 0 }},
		{"apron-short", "supports.endInset", "20 mm", func(s *Supports) { *s = withAprons().Supports; s.EndInset = 760 }},
	} {
		d := onFeet()
		c.change(&d.Supports)
		if !slices.ContainsFunc(problemsOf(d), func(p Problem) bool {
			return p.Code == c.code && p.Field == c.field && strings.Contains(p.Text, c.words)
		}) {
			t.Errorf("%s: no problem at %s with %q: %v", c.code, c.field, c.words, problemsOf(d))
		}
	}
	for _, d := range []Design{onFeet(), onLedger(false), onLedger(true), withAprons()} {
		if p := problemsOf(d); len(p) > 0 {
			t.Errorf("%s: %v; want no problem", d.Supports.Kind, p)
		}
	}
}

// A ledger and a rail are two rails, one of them flush with its edge: the same
// pads give the same answer. Turned front to back everything is mirrored.
func TestLedgerAsRails(t *testing.T) {
	t.Parallel()
	ledger, rails := onLedger(true), onLedger(true)
	ledger.Supports.SideInset, rails.Supports = 30, Supports{Kind: RailsAlong, SideInset: 30, Bearing: 60}
	a, b := wholeOf(t, ledger, Interactive), wholeOf(t, rails, Interactive)
	near(t, "closed form", a.Cases[0].Closed, b.Cases[0].Closed, 1e-9)
	near(t, "sag", a.Cases[0].Sag, b.Cases[0].Sag, 1e-9)
	for _, rail := range []bool{false, true} {
		back := onLedger(rail)
		back.Cases[0].Loads[0].Y, back.Cases[0].Loads[0].X = 200, 600
		front := back.Clone()
		front.Supports.Ledger, front.Cases[0].Loads[0].Y = FrontEdge, back.Width-200
		a, b := wholeOf(t, back, Interactive), wholeOf(t, front, Interactive)
		near(t, "mirrored closed form", b.Cases[0].Closed, a.Cases[0].Closed, 1e-9)
		near(t, "mirrored sag", b.Cases[0].Sag, a.Cases[0].Sag, 1e-7)
		for _, r := range []Result{a, b} {
			sum := 0.0
			for _, f := range r.Whole.Cases[0].Reactions {
				sum += f.Force
			}
			near(t, "sum", sum, 800+r.Mass.Total*Gravity, 1e-9)
		}
	}
}

// The reaction names say what holds the top.
func TestSupportNames(t *testing.T) {
	t.Parallel()
	names := func(s Supports) string {
		d := plainTop()
		d.Supports = s
		var out []string
		for _, p := range d.pads() {
			out = append(out, p.Name)
		}
		return strings.Join(out, ", ")
	}
	for _, c := range []struct {
		s    Supports
		want string
	}{
		{Supports{Kind: OnLedger, Bearing: 60, EndInset: 60, SideInset: 60}, "left front leg, right front leg, back ledger"},
		{Supports{Kind: OnLedger, Bearing: 60, EndInset: 60, SideInset: 60, Ledger: FrontEdge, Rail: true}, "front ledger, back rail"},
		{Supports{Kind: OnLedger, Bearing: 60, EndInset: 60, SideInset: 60, Ledger: LeftEdge}, "right front leg, right back leg, left ledger"},
		{Supports{Kind: OnLedger, Bearing: 60, EndInset: 60, SideInset: 60, Ledger: RightEdge, Rail: true}, "right ledger, left rail"},
		{Supports{Kind: OwnFeet, Bearing: 60, Feet: []Foot{{Name: "oak post"}, {}}}, "oak post, foot 2"},
	} {
		if got := names(c.s); got != c.want {
			t.Errorf("%v: %s; want %s", c.s, got, c.want)
		}
	}
}

// The closed form on a ledger and two legs is near the whole panel where it says
// that it is fair, at the middle; without the ledger's help it would be far off.
func TestLedgerClosedForm(t *testing.T) {
	t.Parallel()
	for _, edge := range []Edge{BackEdge, LeftEdge} {
		d := onLedger(false)
		d.Supports.Ledger = edge
		d.Cases[0].Loads = []Load{{Name: "all over", Kind: Uniform, Force: 1500}}
		mo, _ := modelOf(d, true)
		load := mo.footprint(&d.Cases[0].Loads[0])
		m := prepareWhole(t, d)
		s, err := m.Solve(context.Background(), []plate.Press{d.Press(d.Cases[0].Loads[0])})
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("%s ledger, at the middle", edge), mo.sag(load, 800, 350).total(), s.Sag(800, 350), 0.3)
	}
}

func prepareWhole(t *testing.T, d Design) *plate.Model {
	t.Helper()
	m, err := plate.Prepare(context.Background(), d.WholePanel(2))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// Limits of the closed form beside aprons: stiff ones on both long sides are
// rails along the length, thin ones are not there.
func TestApronClosedForm(t *testing.T) {
	t.Parallel()
	d := withAprons()
	d.Cases[0].Loads[0].X, d.Cases[0].Loads[0].Y = 500, 250
	sag := func(d Design) float64 {
		mo, _ := modelOf(d, true)
		return mo.sag(mo.footprint(&d.Cases[0].Loads[0]), 700, 300).total()
	}
	legs, rails := d.Clone(), d.Clone()
	legs.Supports.Apron = Apron{}
	rails.Supports = Supports{Kind: RailsAlong, SideInset: 40, Bearing: 60}
	last := sag(legs)
	for _, h := range []float64{1e-2, 40, 90, 200, 1e7} {
		d.Supports.Apron.Height = h
		s := sag(d)
		if !(s < last) {
			t.Errorf("aprons %g mm high: sag %g; want less than %g of lower ones", h, s, last)
		}
		last = s
	}
	near(t, "aprons like walls", last, sag(rails), 1e-3)
	d.Supports.Apron.Height = 1e-2
	near(t, "aprons like paper", sag(d), sag(legs), 1e-6)
}

// Aprons in the whole panel: between legs alone and rails, reactions balance, an
// apron told and blamed where it is what gives way.
func TestAprons(t *testing.T) {
	t.Parallel()
	d := withAprons()
	legs, rails := d.Clone(), d.Clone()
	legs.Supports.Apron = Apron{}
	rails.Supports = Supports{Kind: RailsAlong, SideInset: 40, Bearing: 60}
	_, a := heldWhole(t, d, Normal)
	_, l := heldWhole(t, legs, Normal)
	_, r := heldWhole(t, rails, Normal)
	if !(a.Sag < l.Sag && a.Sag > r.Sag) {
		t.Errorf("sag with aprons %g; want it between %g on rails and %g on legs", a.Sag, r.Sag, l.Sag)
	}
	d.Supports.Apron.Height, d.Supports.Apron.Back = 40, false
	d.Cases[0].Loads[0] = Load{Name: "vise", Kind: Patch, Force: 3000, X: 800, Y: 60, SizeX: 200, SizeY: 100}
	res, a := heldWhole(t, d, Normal)
	sum := 0.0
	for _, f := range a.Reactions {
		sum += f.Force
	}
	// The one apron hangs on the legs: its weight, by hand from leg to leg, is theirs too.
	apron, ok := d.Material(d.Supports.Apron.Material)
	clear := d.Length - 2*d.Supports.EndInset - d.Supports.Bearing
	near(t, "mass of the apron", res.Mass.Aprons, apron.Density*1e-9*d.Supports.Apron.Thickness*40*clear, 1e-9)
	near(t, "sum", sum, 3000+(res.Mass.Total+res.Mass.Aprons)*Gravity, 1e-9)
	if len(a.Aprons) != 1 || !ok || a.Aprons[0].Name != "front apron" || !(a.Aprons[0].Bend > 0) || math.Abs(a.Aprons[0].X-800) > 60 {
		t.Fatalf("aprons: %+v; want the front one, bent near the vise", a.Aprons)
	}
	// M = W·σ: the margin's stress against the moment told, own weight 1.35, loads 1.5.
	g := marginOf(t, res.Margins, "apron.bending")
	low, most := a.Aprons[0].Moment*1.35*6/(20*40*40), a.Aprons[0].Moment*1.5*6/(20*40*40)
	if !(g.Demand >= low && g.Demand <= most) || g.Part != ApronPart {
		t.Errorf("apron margin %+v; want a demand within %g and %g", g, low, most)
	}
	marginOf(t, res.Margins, "apron.shear")
	// One so low bends with the panel and makes no difference: nothing to tell. One
	// that takes a good part of the load and still bends is told.
	told := func(r Result) bool {
		return slices.ContainsFunc(r.Problems, func(p Problem) bool { return p.Code == "apron-bends" })
	}
	if told(res) {
		t.Errorf("an apron of 40 mm under a panel far stiffer is blamed: %v", res.Problems)
	}
	high := d.Clone()
	high.Supports.Apron.Height, high.Supports.Apron.Thickness, high.Supports.Apron.Back = 150, 30, true
	higher, _ := heldWhole(t, high, Normal)
	if !told(higher) {
		t.Errorf("aprons that matter and bend are not told: %+v, %+v", higher.Whole.Cases[0].Aprons, higher.Whole.Work.Shares)
	}
	if !slices.ContainsFunc(res.Whole.Work.Shares, func(w WorkShare) bool { return w.Part == ApronPart && w.Share > 0 && w.Material == "plain" }) {
		t.Errorf("no share of the work for the aprons: %+v", res.Whole.Work.Shares)
	}
	if !slices.ContainsFunc(res.Working, func(w Working) bool { return w.Key == "apron" }) {
		t.Error("no working of the apron")
	}
	// 20 × 40 on edge of E 9000: EI = 9000·20·40³/12 = 9.6e8, κGA = 620·800·5/6.
	m := d.materials()
	b := d.aprons(&m)[0]
	near(t, "EI", b.EI, 9.6e8, 1e-12)
	near(t, "GA", b.GA, 620*800*5/6.0, 1e-12)
	near(t, "clear span", b.To-b.From, 1600-2*40-60, 1e-12)
}

// Feet and supports stay where they can stand when they are moved.
func TestPlaceFeet(t *testing.T) {
	t.Parallel()
	d := onFeet()
	d.PlaceFoot(1, 5000, -7)
	if f := d.Supports.Feet[1]; f.X != 1560 || f.Y != 40 { // 80 wide
		t.Errorf("foot at %g, %g; want 1560, 40", f.X, f.Y)
	}
	d.PlaceFoot(9, 0, 0) // there is none
	for range 6 {
		d.Supports.Feet = append(d.Supports.Feet, d.NextFoot())
	}
	if p := problemsOf(d); len(p) > 0 {
		t.Errorf("after adding feet: %v; want no problem", p)
	}
	e := onLedger(true)
	e.PlaceSupports(0, 5000)
	if e.Supports.SideInset != 700-1.5*60-leastGap || e.Supports.EndInset != 60 {
		t.Errorf("rail at %g, ends %g; want it before the ledger and the ends as they were", e.Supports.SideInset, e.Supports.EndInset)
	}
	for i := range 3 {
		if n, ok := FootOfPart(FootPart(i)); !ok || n != i {
			t.Errorf("foot %d comes back as %d, %v", i, n, ok)
		}
	}
}

// Moving supports for least sag leaves a ledger and own feet alone.
func TestBestSupportsOfOtherKinds(t *testing.T) {
	t.Parallel()
	d := onFeet()
	best, before, after, err := BestSupports(t.Context(), d)
	if err != nil || before != after || !slices.Equal(best.Feet, d.Supports.Feet) {
		t.Errorf("feet moved to %v, %g to %g, %v", best.Feet, before, after, err)
	}
	d = onLedger(true)
	best, before, after, err = BestSupports(t.Context(), d)
	if err != nil || !(after <= before) || best.EndInset != d.Supports.EndInset || best.Kind != OnLedger {
		t.Errorf("ledger: %+v, %g to %g, %v", best, before, after, err)
	}
}

// Tipping over the line between two feet, by hand: three feet at (100, 100),
// (1500, 100) and (800, 600) under 1600 × 700. The left back corner lies beyond
// the line from the first to the third, (700, 500)/860.232527, by
// (600·700 + 100·500)/860.232527 = 546.363903 mm; the panel's middle lies inside
// it by (700·500 − 250·700)/860.232527 = 203.433369 mm.
func TestTippingOverFeet(t *testing.T) {
	t.Parallel()
	d := onFeet()
	d.Supports.Feet = []Foot{{X: 100, Y: 100}, {X: 1500, Y: 100}, {X: 800, Y: 600}}
	m := d.tippingOver(300)
	if len(m) != 1 {
		t.Fatalf("%d margins of tipping; want one", len(m))
	}
	near(t, "demand", m[0].Demand, 1.5*650*546.363903/1000, 1e-6)
	near(t, "capacity", m[0].Capacity, 0.9*300*203.433369/1000, 1e-6)
	if !strings.Contains(m[0].Where, "back corner") {
		t.Errorf("it tips %s; want a back corner", m[0].Where)
	}
	// A rail flush with its edge opposite a flush ledger overhangs nowhere.
	e := onLedger(true)
	e.Supports.SideInset = 30
	if m := e.tippingOver(300); len(m) > 0 {
		t.Errorf("flush all around: %+v; want nothing to lean on", m)
	}
	// Fastened down on legs with aprons somebody may lean too.
	wholeOf(t, func() Design { d := withAprons(); d.Supports.EndInset = 200; return d }(), Normal)
}

// A ledger narrower than the edge band above it holds the top by the band.
func TestLedgerUnderTheBand(t *testing.T) {
	t.Parallel()
	d := onLedger(true)
	d.EdgeBand, d.Supports.Bearing = EdgeBand{"plain", 25}, 20
	r, c := heldWhole(t, d, Interactive)
	near(t, "sum", c.Reactions[0].Force+c.Reactions[1].Force, 800+r.Mass.Total*Gravity, 1e-9)
}

// An apron shows in the section along it, from leg to leg and as high as it is.
func TestApronsInTheSections(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		apron Apron
		want  float64 // area below the sections, mm²
	}{ // clear spans 1600 − 2·(40 + 30) and 700 − 2·(40 + 30)
		{Apron{Material: "plain", Thickness: 20, Height: 90, Front: true, Back: true}, 1460 * 90},
		{Apron{Material: "plain", Thickness: 20, Height: 90, Left: true}, 560 * 90},
	} {
		d := withAprons()
		d.Supports.Apron = c.apron
		got := 0.0
		f := Drawing(d, compute(t, d), DrawingOptions{})
		for _, a := range f.Areas {
			if a.Part == ApronPart && a.Fill == draw.Band {
				got += math.Abs(area(a.Points))
			}
		}
		near(t, "area", got, c.want, 1e-9)
	}
}

// Where no twist can be told the report says why.
func TestNoTwistInWords(t *testing.T) {
	t.Parallel()
	d := onFeet()
	r := refined(t, d, Normal)
	var out strings.Builder
	if err := Report(&out, d, r, length.Format{}); err != nil {
		t.Fatal(err)
	}
	if text := r.Whole.NoTwist(d); !strings.Contains(text, "Three feet always stand") || !strings.Contains(out.String(), text) {
		t.Errorf("%q; want it told, and in the report", text)
	}
	d = withAprons()
	if text := refined(t, d, Normal).Whole.NoTwist(d); text != "" {
		t.Errorf("legs: %q; want nothing", text)
	}
}
