package engine

import (
	"bytes"
	"math"
	"os"
	"strings"
	"testing"

	"flatwright/engine/length"
)

// viseTop is a top of 1 500 × 600 mm on two rails as narrow as lines with a
// block of oak in one of its bays: all ribs 10 mm thick, 5 lengthwise 147.5 mm
// apart and 9 crosswise 186.25 mm apart, the bay therefore 176.25 × 137.5 mm.
func viseTop(loads ...Load) Design {
	d := plainTop()
	d.Length, d.Width = 1500, 600
	d.EdgeBand = EdgeBand{}
	d.Lengthwise = RibSet{Material: d.Lengthwise.Material, Thickness: 10, Count: 5}
	d.Crosswise = RibSet{Material: d.Crosswise.Material, Thickness: 10, Count: 9}
	d.Blocks = []Block{{Material: "white-oak", Column: 2, Row: 1}, {Material: "white-oak", Column: 6, Row: 1}, {Material: "white-oak", Column: 6, Row: 3}}
	d.Supports = Supports{Kind: RailsAcross, EndInset: 100, Bearing: 2, Bed: 100}
	d.Cases = []LoadCase{{Name: "vise", Duration: ShortTerm, Loads: loads}}
	return d
}

// vise pulls on the block of that bay with 300 N, 200 mm up: 60 N·m.
func vise(pull Pull, column, row int) Load {
	return Load{Name: "vise", Kind: Couple, Force: 300, Pull: pull, Arm: 200, Column: column, Row: row}
}

// On rails 1 300 mm apart a couple of 20 N·m that pulls to the right adds
// 20 000/1 300 = 15.385 N to the right rail and takes as much from the left
// one; own weight, spread evenly, is half on each. The rails are 2 mm wide, so
// their forces may act 1 mm aside.
func TestCoupleOnRails(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		pull  Pull
		right float64 // N, on top of half of the weight
	}{{PullRight, 20_000 / 1300.0}, {PullLeft, -20_000 / 1300.0}, {PullBack, 0}, {PullFront, 0}} {
		l := vise(c.pull, 2, 1)
		l.Force = 100
		r := refined(t, viseTop(l), Normal)
		weight := r.Mass.Total * Gravity
		half := weight / 2
		if r.Whole == nil {
			t.Fatalf("%s: the whole panel was not computed: %v", c.pull, r.Problems)
		}
		f := r.Whole.Cases[0].Reactions
		near(t, "sum of the rails", (f[0].Force+f[1].Force)/weight, 1, 1e-6)
		if d := f[1].Force - half - c.right; math.Abs(d) > weight*2/1300 {
			t.Errorf("%s: the right rail carries %.2f N; want %.2f ± %.2f N", c.pull, f[1].Force, half+c.right, weight*2/1300)
		}
	}
}

// Pulled the other way the difference to own weight turns its sign, as long as
// the rails keep touch; the closed form does so exactly.
func TestCoupleTurnsItsSign(t *testing.T) {
	t.Parallel()
	a, _ := modelOf(viseTop(vise(PullRight, 2, 1)), true)
	b, _ := modelOf(viseTop(vise(PullLeft, 2, 1)), true)
	l, m := vise(PullRight, 2, 1), vise(PullLeft, 2, 1)
	twice := l
	twice.Arm *= 2
	for _, x := range []float64{0, 300, 480, 750, 1500} {
		v := a.under(&l, x, 200).total()
		near(t, "the other way", b.under(&m, x, 200).total(), -v, 1e-12)
		near(t, "twice the arm", a.under(&twice, x, 200).total(), 2*v, 1e-12)
	}
}

// A couple M at the middle of a simply supported beam bends it by
// M·x·(L² − 4x²)/(24·L·EI) at x from the left, up on the left if it pulls to the
// right (Roark's Formulas, beams, couple at a point, from memory). Two even
// pressures over a/2 each have, beyond that, the third moment M·a²/8, which adds
// −M·a²·x/(48·L·EI) to it: derived from the same beam's influence line, whose
// third derivative is x/(L·EI).
func TestCoupleOnABeam(t *testing.T) {
	t.Parallel()
	d := viseTop()
	d.Crosswise.Count = 10 // a bay in the middle, the fifth
	d.Blocks = []Block{{Material: "white-oak", Column: 4, Row: 1}}
	l := vise(PullRight, 4, 1)
	mo, _ := modelOf(d, false)
	s := d.Spread(l)
	if s.X != 750 {
		t.Fatalf("the block's middle is at %g; want 750", s.X)
	}
	const span, moment = 1300.0, 60e3
	ei, a := mo.along.first.EI, s.SizeX
	for _, x := range []float64{100, 325, 500} {
		want := -moment*x*(span*span-4*x*x)/(24*span*ei) + moment*a*a*x/(48*span*ei)
		near(t, "left", mo.under(&l, 100+x, 300).bending, want, 1e-9)
		near(t, "right", mo.under(&l, 1400-x, 300).bending, -want, 1e-9)
	}
}

// A load P even over c at the middle of a simply supported beam bends it there
// by P·(8L³ − 4c²·L + c³)/(384·EI) (textbook, from memory; c = L gives 5/384,
// c = 0 gives 1/48). A line along the length is such a load, one across the
// width is one at a point.
func TestLineOnABeam(t *testing.T) {
	t.Parallel()
	d := viseTop()
	mo, _ := modelOf(d, false)
	const span, p = 1300.0, 400.0
	ei := mo.along.first.EI
	want := func(c float64) float64 { return p * (8*span*span*span - 4*c*c*span + c*c*c) / (384 * ei) }
	along := Load{Kind: Line, Force: p, X: 750, Y: 300, SizeX: 800, SizeY: 20}
	across := Load{Kind: Line, Across: true, Force: p, X: 750, Y: 300, SizeX: 20, SizeY: 600}
	near(t, "along", mo.under(&along, 750, 300).bending, want(800), 1e-9)
	near(t, "across", mo.under(&across, 750, 300).bending, want(20), 1e-9)
}

// A line is a long, narrow patch, in the whole panel too, and a whole line
// across two rails loads both alike.
func TestLineIsANarrowPatch(t *testing.T) {
	t.Parallel()
	line := Load{Name: "fence", Kind: Line, Across: true, Force: 400, X: 600, Y: 300, SizeX: 20, SizeY: 500}
	patch := line
	patch.Kind, patch.Across = Patch, false
	a, b := refined(t, viseTop(line), Interactive), refined(t, viseTop(patch), Interactive)
	if a.Whole.Cases[0].Sag != b.Whole.Cases[0].Sag || a.Cases[0].Closed != b.Cases[0].Closed {
		t.Errorf("line %v and %v mm, patch %v and %v mm", a.Whole.Cases[0].Sag, a.Cases[0].Closed, b.Whole.Cases[0].Sag, b.Cases[0].Closed)
	}
	// By hand: the lever rule, 400·(600 − 100)/1300 = 153.85 N on the right.
	own := refined(t, viseTop(), Interactive)
	got := a.Whole.Cases[0].Reactions[1].Force - own.Whole.Cases[0].Reactions[1].Force
	if math.Abs(got-153.85) > 400*2/1300.0 {
		t.Errorf("the right rail carries %.2f N of it; want 153.85 ± 0.6 N", got)
	}
	for _, m := range a.Margins {
		// By hand: 400/(20·500) = 0.04 MPa, times 1.5 = 0.06; and
		// 400/(2·520·t), times 1.5.
		switch m.Code {
		case "bearing.load":
			near(t, "pressed in", m.Demand, 0.06, 1e-12)
		case "skin.punching":
			near(t, "punched", m.Demand, 1.5*400/(2*520*viseTop().TopSkin.Thickness), 1e-12)
		}
	}
}

// By hand: 20 N·m on a block of 176.25 × 137.5 mm that pulls to the right:
// 3·20 000/(137.5·176.25²) = 0.014047 MPa on either skin, times 1.5 = 0.021071.
// Pulled to the back: 3·20 000/(176.25·137.5²) = 0.018006, times 1.5 = 0.027009.
func TestCouplePeels(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		pull   Pull
		demand float64
	}{{PullRight, 0.021071}, {PullLeft, 0.021071}, {PullBack, 0.027009}, {PullFront, 0.027009}} {
		d := viseTop(vise(c.pull, 2, 1))
		d.Cases[0].Loads[0].Force = 100
		for _, margins := range [][]Margin{compute(t, d).Margins, refined(t, d, Interactive).Margins} {
			m := marginOf(t, margins, "glue.block")
			if math.Abs(m.Demand-c.demand) > 5e-7 || m.Capacity != tensionAcross*m.KMod/m.GammaM || m.Value != m.Capacity/m.Demand {
				t.Errorf("%s: demand %.6f, capacity %.4f, margin %.3f; want demand %.6f", c.pull, m.Demand, m.Capacity, m.Value, c.demand)
			}
			near(t, "pressed in", marginOf(t, margins, "bearing.load").Demand, m.Demand, 1e-12)
		}
	}
}

// Mirrored about its middle the top sags mirrored.
func TestCoupleMirrored(t *testing.T) {
	t.Parallel()
	d := viseTop(vise(PullRight, 2, 1))
	d.Blocks = []Block{{Material: "white-oak", Column: 2, Row: 1}}
	e := viseTop(vise(PullLeft, 5, 1))
	e.Blocks = []Block{{Material: "white-oak", Column: 5, Row: 1}}
	a, b := refined(t, d, Normal), refined(t, e, Normal)
	near(t, "whole panel", b.Cases[0].Sag, a.Cases[0].Sag, 1e-6)
	near(t, "mirrored place", b.Cases[0].X, 1500-a.Cases[0].X, 1e-6)
	near(t, "closed form", b.Cases[0].Closed, a.Cases[0].Closed, 1e-9)
}

// A couple too strong for the panel's weight tips it off its rails; the words
// say what would help.
func TestStrongCoupleTips(t *testing.T) {
	t.Parallel()
	l := vise(PullFront, 2, 1)
	l.Force = 5000
	r := refined(t, viseTop(l), Interactive)
	if r.Whole != nil {
		t.Fatal("1 000 N·m turn over a top of some 20 kg on loose rails, but it stands")
	}
	text := ""
	for _, p := range r.Problems {
		if p.Code == "not-held" {
			text = p.Text
		}
	}
	if !strings.Contains(text, "more weight in the load case") {
		t.Errorf("told %q; want what would help against a couple", text)
	}
}

// What is beyond the closed form is said wherever its sag is shown.
func TestCoupleReach(t *testing.T) {
	t.Parallel()
	for _, kind := range []SupportKind{RailsAcross, RailsAlong, FourLegs, AllEdges} {
		d := viseTop(vise(PullBack, 2, 1))
		d.Supports = Supports{Kind: kind, EndInset: 100, SideInset: 60, Bearing: 40}
		c := compute(t, d).Cases[0]
		if !strings.Contains(c.Reach, "only the whole-panel model can tell") {
			t.Errorf("%s: reach %q", kind, c.Reach)
		}
		if c.Loads[0].Stiffness != 0 {
			t.Errorf("%s: a couple has a stiffness of %g N/mm", kind, c.Loads[0].Stiffness)
		}
	}
}

// Only what a load has is written: older files stay as they were, byte for
// byte, and the new kinds come back the same.
func TestFileOfLoads(t *testing.T) {
	t.Parallel()
	d := viseTop(vise(PullFront, 6, 3),
		Load{Name: "fence", Kind: Line, Across: true, Force: 400, X: 600, Y: 300, SizeX: 20, SizeY: 500},
		Load{Name: "foot", Kind: Patch, Force: 100, X: 200, Y: 300, SizeX: 50, SizeY: 50})
	raw, err := Encode(d)
	if err != nil {
		t.Fatal(err)
	}
	back, err := Decode(raw)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range d.Cases[0].Loads {
		if got := back.Cases[0].Loads[i]; got != want {
			t.Errorf("load %d comes back as %+v; want %+v", i, got, want)
		}
	}
	old, err := os.ReadFile("../testdata/format1.flatwright")
	if err != nil {
		t.Fatal(err)
	}
	d, err = Decode(old)
	if err != nil {
		t.Fatal(err)
	}
	raw, err = Encode(d)
	if err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{`"across": true`, `"pull"`, `"arm"`} {
		if bytes.Contains(raw, []byte(key)) && !bytes.Contains(old, []byte(key)) {
			t.Errorf("%s is written into a file that had none", key)
		}
	}
}

// Every place where loads are told tells the new ones.
func TestLoadsAreTold(t *testing.T) {
	t.Parallel()
	d := viseTop(vise(PullFront, 6, 3), Load{Name: "fence", Kind: Line, Across: true, Force: 400, X: 600, Y: 300, SizeX: 20, SizeY: 500})
	d.Cases[0].Loads[0].Force = 50
	r := refined(t, d, Interactive)
	working := ""
	for _, w := range r.Working {
		if w.Key == "couple.1" {
			working = w.Result
		}
	}
	// By hand: 50 N · 200 mm; 3·10 000/(176.25·137.5²) = 0.0090 MPa.
	if working != "M = 10.0 N·m, p/2 = 0.009 MPa" {
		t.Errorf("the working of the couple ends with %q", working)
	}
	var report bytes.Buffer
	if err := Report(&report, d, r, length.Format{}); err != nil {
		t.Fatal(err)
	}
	packet := textOf(packetOf(t, d, PacketOptions{}), "Load cases")
	for _, text := range []string{"10 N·m", "bay 7 from the left, 4 from the front", "to the front", "500 mm long and 20 mm wide across the width"} {
		if !strings.Contains(report.String(), text) {
			t.Errorf("the report says nothing of %q", text)
		}
		if !strings.Contains(strings.Join(strings.Fields(packet), " "), text) {
			t.Errorf("the packet says nothing of %q:\n%s", text, packet)
		}
	}
}

// Couples at both ends that lift the whole middle of a top held along its edges:
// the closed form finds what still sags, near to the most of a fine net of places.
func TestCouplesOnAllEdges(t *testing.T) {
	t.Parallel()
	front, back := vise(PullFront, 4, 0), vise(PullBack, 4, 3)
	front.Force, back.Force = 3000, 3000
	back.Name = "another vise"
	d := viseTop(front, back)
	d.Supports = Supports{Kind: AllEdges, Bearing: 30}
	d.Blocks = []Block{{Material: "white-oak", Column: 4, Row: 0}, {Material: "white-oak", Column: 4, Row: 3}}
	mo, _ := modelOf(d, true)
	c := &d.Cases[0]
	sag := func(x, y float64) float64 {
		return mo.sag(mo.ownWeight(), x, y).total() + mo.under(&c.Loads[0], x, y).total() + mo.under(&c.Loads[1], x, y).total()
	}
	if v := sag(750, 300); !(v < 0) {
		t.Fatalf("the middle sags %g mm; want it lifted", v)
	}
	most := 0.0
	for i := range 61 {
		for j := range 25 {
			most = math.Max(most, sag(25*float64(i), 25*float64(j)))
		}
	}
	if got := mo.caseResult(c).Sag; !(most > 0 && got > 0.9*most && got < 1.01*most) {
		t.Errorf("sag %g mm; the most over a fine net is %g mm", got, most)
	}
}
