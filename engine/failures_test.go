package engine

import (
	"math"
	"slices"
	"strings"
	"testing"

	"flatwright/engine/length"
	"flatwright/engine/plate"
	"flatwright/engine/section"
)

// answersOf solves the cases of a design on a mesh.
func answersOf(t *testing.T, d *Design, mesh Mesh) (solved, *model, *materials) {
	t.Helper()
	mo, m := modelOf(*d, false)
	w, err := wholeCases(t.Context(), d, mo.weight, mesh)
	if err != nil {
		t.Fatal(err)
	}
	return w, &mo, &m
}

// A splice plate 25 · 6 mm wide would carry the pull of the skin over 75 mm of glue;
// on one side the face of rib C5, at 4·1591/7 mm, leaves it 59.143. The stress there is
// the skin's stress times 6/59.143, against 2.3 MPa lowered by (8·6/59.143)^.8; through the plate it is 1 + 3·37/41 times the skin's, as
// it lies to one side. The pull is the sum that balances the bending moment,
// found here from the skin's cells at the seam.
func TestSplices(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Seams = []Seam{{Skin: BottomSeam, At: 850, Spliced: true}}
	w, mo, m := answersOf(t, &d, Normal)
	margins := mo.wholeMargins(t.Context(), &d, m, w.cases)
	own, all := w.cases[0].own.Skin(false), w.cases[0].all.Skin(false)
	most := 0.0
	for i, c := range all {
		if math.Abs(c.X-850) <= c.SX/2 {
			most = max(most, 1.35*own[i].NX+1.5*(c.NX-own[i].NX))
		}
	}
	if most < 1 {
		t.Fatalf("the seam pulls with %g N/mm", most)
	}
	glue, pull := marginOf(t, margins, "seam.glue"), marginOf(t, margins, "seam.pull")
	half := 4*1591.0/7 - 850
	near(t, "shear in the glue", glue.Demand, most/half, 1e-9)
	near(t, "strength of the glue", glue.Capacity, 2.3*math.Pow(48/half, 0.8)*0.9/1.2, 1e-9)
	near(t, "pull", pull.Demand, most/6*(1+3*37.0/41), 1e-9)
	near(t, "strength of the plate", pull.Capacity, 37*0.9/1.2, 1e-9)
	if glue.Part != "seam 1" || pull.Part != "seam 1" {
		t.Errorf("told at %q and %q", glue.Part, pull.Part)
	}
	// Turned round, the face grain lies across the pull: 29 and 33 MPa.
	d.BottomSkin.Across = true
	w, mo, m = answersOf(t, &d, Normal)
	near(t, "strength across the grain", marginOf(t, mo.wholeMargins(t.Context(), &d, m, w.cases), "seam.pull").Capacity, 29*0.9/1.2, 1e-9)
	// Scarfed it does not bend: the pull alone, against three quarters of the sheet.
	d.Seams[0].Scarf, d.BottomSkin.Across = true, false
	w, mo, m = answersOf(t, &d, Normal)
	scarf := marginOf(t, mo.wholeMargins(t.Context(), &d, m, w.cases), "seam.pull")
	own, all, most = w.cases[0].own.Skin(false), w.cases[0].all.Skin(false), 0
	for i, c := range all {
		if math.Abs(c.X-850) <= c.SX/2 {
			most = max(most, 1.35*own[i].NX+1.5*(c.NX-own[i].NX))
		}
	}
	near(t, "pull through a scarf", scarf.Demand, most/6, 1e-9)
	near(t, "strength of a scarf", scarf.Capacity, 0.75*37*0.9/1.2, 1e-9)
	// A seam along passes what pulls across the width.
	d = plainTop()
	d.Supports = Supports{Kind: RailsAlong, SideInset: 30, Bearing: 30}
	d.Seams = []Seam{{Skin: BottomSeam, Along: true, At: 420, Spliced: true}}
	w, mo, m = answersOf(t, &d, Normal)
	own, all, most = w.cases[0].own.Skin(false), w.cases[0].all.Skin(false), 0
	for i, c := range all {
		if math.Abs(c.Y-420) <= c.SY/2 {
			most = max(most, 1.35*own[i].NY+1.5*(c.NY-own[i].NY))
		}
	}
	pull = marginOf(t, mo.wholeMargins(t.Context(), &d, m, w.cases), "seam.pull")
	near(t, "pull across the width", pull.Demand, most/6*(1+3*29.0/33), 1e-9)
	near(t, "strength across the width", pull.Capacity, 29*0.9/1.2, 1e-9)
	// An open seam passes no pull and has no splice to fail; the ribs do its work.
	d = plainTop()
	whole, mo, m := answersOf(t, &d, Normal)
	before := marginOf(t, mo.wholeMargins(t.Context(), &d, m, whole.cases), "rib.bending.along").Value
	d.Seams = []Seam{{Skin: BottomSeam, At: 850}}
	w, mo, m = answersOf(t, &d, Normal)
	margins = mo.wholeMargins(t.Context(), &d, m, w.cases)
	if slices.ContainsFunc(margins, func(m Margin) bool { return m.Code == "seam.glue" || m.Code == "seam.pull" }) {
		t.Error("an open seam has margins of a splice")
	}
	ribs := marginOf(t, margins, "seam.ribs")
	if !(ribs.Value < 0.5*before) || math.Abs(ribs.X-850) > 1 {
		t.Errorf("ribs at the open seam %.2f at x %.0f, without the seam %.2f", ribs.Value, ribs.X, before)
	}
}

// Across an open seam the ribs and the other skin carry the whole moment.
// Statics: rails at 100 and 1 500, a load of 800 N over 650 to 950 at a cut at
// 850: half of it less what lies before the cut, and own weight.
func TestMomentAcrossAnOpenSeam(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Supports.Bearing = 4 // narrow, so that the reaction's place is known
	d.Seams = []Seam{{Skin: BottomSeam, At: 850}}
	w, mo, _ := answersOf(t, &d, Refined)
	s := w.cases[0].all
	p := d.WholePanel(1)
	var m, n float64
	for _, c := range s.Skin(true) {
		if math.Abs(c.X-850) < 0.4 {
			m -= c.NX*c.SY*(p.Height+(p.Top.T+p.Bottom.T)/2) + c.MX*c.SY
			n += c.NX * c.SY
		}
	}
	for i := range p.Along {
		for _, f := range s.Rib(true, i) {
			if math.Abs(f.At-850) < 0.4 {
				m += f.M - f.N*(p.Height+p.Bottom.T)/2
				n += f.N
			}
		}
	}
	r := (mo.weight + 800) / 2
	want := r*750 - mo.weight*850/1600*425 - 800*200/300*100
	near(t, "moment across the seam", m, want, 0.01)
	if math.Abs(n) > 1e-3*want/p.Height {
		t.Errorf("axial force across the seam %.3f N", n)
	}
}

// A rib sheared between its crossings: the formula by itself, by hand for a
// square field, 9.34·π²·D/a² with D = E·t³/12·.8 of an isotropic sheet without
// Poisson's ratio; the clear distances.
func TestRibBuckling(t *testing.T) {
	t.Parallel()
	d := plainTop() // crosswise ribs 9 mm thick at 4.5, 231.79, …, 1 595.5
	pitch := (1600 - 9) / 7.0
	near(t, "clear along", d.clearAlong(true, 100), pitch-9, 1e-9)
	near(t, "clear across", d.clearAlong(false, 350-60), (700-12)/4.0-12, 1e-9)
	D := 9000.0 * 12 * 12 * 12 / 12
	near(t, "square field", section.OrthotropicPlate{D11: D, D22: D, D12: 0, D66: D / 2}.ShearBuckling(80, 80), 9.34*math.Pi*math.Pi*D/6400, 1e-12)
	d.Lengthwise.Thickness, d.Crosswise.Thickness, d.CoreDepth = 4, 4, 180
	w, mo, m := answersOf(t, &d, Interactive)
	thin := marginOf(t, mo.wholeMargins(t.Context(), &d, m, w.cases), "rib.buckling.along")
	// By hand: 224 × 180 mm clear, mean stiffness times .8 and γM 1.2, no kmod.
	cube := 0.8 * 64 / 12
	near(t, "capacity of thin ribs", thin.Capacity, plateShear((1600-4)/7.0-4, 180, 9800*cube, 4400*cube)/4/1.2, 1e-9)
	d.Lengthwise.Thickness = 5
	w, mo, m = answersOf(t, &d, Interactive)
	thick := marginOf(t, mo.wholeMargins(t.Context(), &d, m, w.cases), "rib.buckling.along")
	near(t, "capacity goes with the square of the thickness", thick.Capacity/thin.Capacity, 25.0/16, 1e-9)
	if !(thick.Value > thin.Value) {
		t.Errorf("margin of thick ribs %.2f, of thin ones %.2f", thick.Value, thin.Value)
	}
}

// What stands over a foot, by hand: a lengthwise rib 12 mm and a crosswise one
// 9 mm thick cross over it. 60 · (12 + 9) less the slot of the crosswise rib,
// 9 · (12 + .2) mm²; with lengthwise slots downwards 12 · (9 + .2).
func TestPostsOverAFoot(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Supports = Supports{Kind: FourLegs, EndInset: 231.7857, SideInset: 178, Bearing: 60}
	foot := plate.Pad{X: 4.5 + (1600-9)/7.0, Y: 6 + (700-12)/4.0, SX: 60, SY: 60}
	near(t, "posts", d.posts(foot).area, 60*(12+9)-9*12.2, 1e-9)
	d.Slots.LengthwiseDown = true
	near(t, "posts, slots turned", d.posts(foot).area, 60*(12+9)-12*9.2, 1e-9)
	foot.Y += 60
	near(t, "crosswise rib alone", d.posts(foot).area, 60*9, 1e-9)
	foot.X += 60
	if got := d.posts(foot); got != (posts{}) {
		t.Errorf("in the bay stands %+v", got)
	}
	// Euler for the crosswise rib: π²·5000·.8·81/(12·80²) = 41.6 MPa, so it is
	// crushed at 21 MPa; 4 mm thick it bows at π²·5000·.8·16/76 800 = 8.22.
	k := checker{d: &d}
	m := d.materials()
	k.m, k.crosswise = &m, factors{kmod: 1, gammaM: 1}
	got, _ := k.post(posts{crosswise: true})
	near(t, "crushed", got, 21, 1e-12)
	d.Crosswise.Thickness = 4
	got, _ = k.post(posts{crosswise: true})
	near(t, "bows", got, math.Pi*math.Pi*5000*0.8*16/76800, 1e-12)
	// The reaction over it: 800 N beside one leg.
	d = plainTop()
	d.Supports = Supports{Kind: FourLegs, EndInset: 231.7857, SideInset: 178, Bearing: 60}
	w, mo, mat := answersOf(t, &d, Normal)
	g := marginOf(t, mo.wholeMargins(t.Context(), &d, mat, w.cases), "rib.crippling")
	own, _ := w.cases[0].own.Reactions()
	all, _ := w.cases[0].all.Reactions()
	most := 0.0
	for i := range all {
		most = max(most, 1.35*own[i]+1.5*(all[i]-own[i]))
	}
	near(t, "demand", g.Demand, most/d.posts(d.pads()[0]).area, 1e-6)
}

// Somebody leans where the rim overhangs, with 650 N; supports flush with the
// edges leave no such place. The case is the panel's own, its margins are among
// the others, and the sags are as before.
func TestLeaning(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Supports = Supports{Kind: FourLegs, EndInset: 200, SideInset: 30, Bearing: 60}
	if got := d.leanPlaces(); len(got) != 2 || got[0].Where != "left end" || got[1].Where != "right end" {
		t.Errorf("overhangs at %+v; want both ends", got)
	}
	d.Supports.SideInset = 100
	if got := d.leanPlaces(); len(got) != leanMost {
		t.Errorf("%d places; want %d", len(got), leanMost)
	}
	d.Supports = Supports{Kind: AllEdges, Bearing: 30}
	if got := d.leanPlaces(); got != nil {
		t.Errorf("held along its edges it overhangs at %+v", got)
	}
	d.Supports = Supports{Kind: RailsAcross, EndInset: 300, Bearing: 60}
	d.Cases[0].Loads[0].Force = 50
	r := refined(t, d, Normal)
	if len(r.Whole.Lean) != 2 || len(r.Whole.Cases) != 1 || len(r.Cases) != 1 {
		t.Fatalf("%d places, %d cases", len(r.Whole.Lean), len(r.Cases))
	}
	for _, l := range r.Whole.Lean {
		if !(l.Down > 0.02) {
			t.Errorf("the %s goes down %.4f mm", l.Where, l.Down)
		}
	}
	m := marginOf(t, r.Margins, "skin.top.tension.along") // hogging over the rail
	if m.Case != leanCase || math.Abs(m.X-300) > 150 && math.Abs(m.X-1300) > 150 {
		t.Errorf("the top skin is pulled most in %q at x %.0f; want over a rail by somebody leaning", m.Case, m.X)
	}
	// The closed form's beam on both rails, own weight and 650 N at the rim.
	closed, _ := modelOf(d, true)
	leans := Load{Kind: Patch, Force: 650, X: 50, Y: 350, SizeX: 100, SizeY: 100}
	down := closed.sag(closed.ownWeight(), 50, 350).total() + closed.under(&leans, 50, 350).total()
	// It has the whole width bear; a hand's breadth in the middle of a rim seven times
	// as wide dips more, but not twice as much.
	if got := r.Whole.Lean[0].Down; !(got > down && got < 1.9*down) {
		t.Errorf("the left end goes down %.4f mm, as a beam %.4f mm", got, down)
	}
	// Statics: fastened down, the moment over the rail is 650 · (300 − 50) N·mm.
	w, mo, _ := answersOf(t, &d, Normal)
	p := d.WholePanel(1)
	s := w.lean[0].all
	var mom float64
	x := math.Inf(1)
	for _, c := range s.Skin(true) {
		if math.Abs(c.X-200) < math.Abs(x-200) {
			x = c.X
		}
	}
	bottom := s.Skin(false)
	for i, c := range s.Skin(true) {
		if c.X == x {
			mom -= c.NX*c.SY*(p.Height+(p.Top.T+p.Bottom.T)/2) + (c.MX+bottom[i].MX)*c.SY
		}
	}
	for i := range p.Along {
		for _, f := range s.Rib(true, i) {
			if f.At == x {
				mom += f.M - f.N*(p.Height+p.Bottom.T)/2
			}
		}
	}
	near(t, "moment in the overhang", mom, -650*(x-50)-mo.weight/1600*x*x/2, 0.03)
}

// What is said of somebody leaning names the lowest place.
func TestLeanLine(t *testing.T) {
	t.Parallel()
	w := Whole{Lean: []Lean{{Where: "left end", Down: 0.3}, {Where: "front edge", Down: 0.7}, {Where: "back edge", Down: 0.5}}}
	if got := w.LeanLine(length.Format{}); !strings.Contains(got, "650 N presses the front edge down by 0.7 mm") {
		t.Errorf("said as %q", got)
	}
	if got := (&Whole{}).LeanLine(length.Format{}); got != "" {
		t.Errorf("without an overhang %q", got)
	}
}
