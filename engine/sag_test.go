package engine

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"flatwright/engine/section"
)

// mirrored is the design seen in a mirror on either side: nothing about it
// changes but the places.
func mirrored(d Design) Design {
	d = d.Clone()
	flip := func(places []float64, extent float64) []float64 {
		for i := range places {
			places[i] = extent - places[i]
		}
		slices.Reverse(places)
		return places
	}
	d.Lengthwise.Positions = flip(d.Lengthwise.Positions, d.Width)
	d.Crosswise.Positions = flip(d.Crosswise.Positions, d.Length)
	for i := range d.Blocks {
		d.Blocks[i].Column = d.Crosswise.number() - 2 - d.Blocks[i].Column
		d.Blocks[i].Row = d.Lengthwise.number() - 2 - d.Blocks[i].Row
	}
	for _, c := range d.Cases {
		for j := range c.Loads {
			l := &c.Loads[j]
			l.X, l.Y = d.Length-l.X, d.Width-l.Y
			l.Column, l.Row = d.Crosswise.number()-2-l.Column, d.Lengthwise.number()-2-l.Row
			l.Pull = map[Pull]Pull{PullRight: PullLeft, PullLeft: PullRight, PullBack: PullFront, PullFront: PullBack}[l.Pull]
		}
	}
	s := &d.Supports
	s.Ledger = map[Edge]Edge{BackEdge: FrontEdge, FrontEdge: BackEdge, LeftEdge: RightEdge, RightEdge: LeftEdge}[s.LedgerEdge()]
	s.Apron.Front, s.Apron.Back, s.Apron.Left, s.Apron.Right = s.Apron.Back, s.Apron.Front, s.Apron.Right, s.Apron.Left
	for i, f := range s.Feet {
		s.Feet[i].X, s.Feet[i].Y = d.Length-f.X, d.Width-f.Y
	}
	mirrorJoints(&d)
	return d
}

// turned is the design with length and width changed over: the same panel.
func turned(d Design) Design {
	d = d.Clone()
	d.Length, d.Width = d.Width, d.Length
	d.TopSkin.Across, d.BottomSkin.Across = !d.TopSkin.Across, !d.BottomSkin.Across
	d.Lengthwise, d.Crosswise = d.Crosswise, d.Lengthwise
	d.Slots.LengthwiseDown = !d.Slots.LengthwiseDown
	for i, b := range d.Blocks {
		d.Blocks[i].Column, d.Blocks[i].Row = b.Row, b.Column
	}
	switch d.Supports.Kind {
	case RailsAcross:
		d.Supports.Kind = RailsAlong
	case RailsAlong:
		d.Supports.Kind = RailsAcross
	}
	d.Supports.EndInset, d.Supports.SideInset = d.Supports.SideInset, d.Supports.EndInset
	s := &d.Supports
	s.Ledger = map[Edge]Edge{BackEdge: RightEdge, FrontEdge: LeftEdge, LeftEdge: FrontEdge, RightEdge: BackEdge}[s.LedgerEdge()]
	s.Apron.Front, s.Apron.Back, s.Apron.Left, s.Apron.Right = s.Apron.Left, s.Apron.Right, s.Apron.Front, s.Apron.Back
	for i, f := range s.Feet {
		s.Feet[i].X, s.Feet[i].Y = f.Y, f.X
	}
	turnJoints(&d)
	for _, c := range d.Cases {
		for j, l := range c.Loads {
			c.Loads[j].X, c.Loads[j].Y, c.Loads[j].SizeX, c.Loads[j].SizeY = l.Y, l.X, l.SizeY, l.SizeX
			c.Loads[j].Across, c.Loads[j].Column, c.Loads[j].Row = !l.Across, l.Row, l.Column
			c.Loads[j].Pull = map[Pull]Pull{PullRight: PullBack, PullLeft: PullFront, PullBack: PullRight, PullFront: PullLeft}[l.Pull]
		}
	}
	return d
}

// values returns the margins' values, rising.
func values(margins []Margin) []float64 {
	var out []float64
	for _, m := range margins {
		out = append(out, m.Value)
	}
	return out
}

func sameMargins(t *testing.T, a, b []Margin) {
	t.Helper()
	u, v := values(a), values(b)
	if len(u) != len(v) {
		t.Fatalf("%d margins; want %d", len(v), len(u))
	}
	for i := range u {
		near(t, "margin of "+a[i].Code, v[i], u[i], 1e-9)
	}
}

func TestMirroredTopIsTheSame(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(3, 3))
	for range 60 {
		d := randomDesign(r)
		e := mirrored(d)
		a, m := modelOf(d, true)
		b, n := modelOf(e, true)
		near(t, "weight", b.weight, a.weight, 1e-12)
		for i := range d.Cases {
			x, y := a.caseResult(&d.Cases[i]), b.caseResult(&e.Cases[i])
			near(t, "sag", y.Sag, x.Sag, 1e-9)
			for j := range x.Loads {
				near(t, "sag under a load", y.Loads[j].Alone, x.Loads[j].Alone, 1e-9)
			}
		}
		sameMargins(t, a.margins(&d, &m, false), b.margins(&e, &n, false))
	}
}

func TestQuarterTurn(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(4, 4))
	for range 60 {
		d := randomDesign(r)
		e := turned(d)
		a, m := modelOf(d, true)
		b, n := modelOf(e, true)
		near(t, "weight", b.weight, a.weight, 1e-12)
		for _, pair := range [][2]float64{
			{a.along.first.EI, b.across.first.EI}, {a.across.first.EI, b.along.first.EI}, {a.along.ga, b.across.ga},
			{a.along.gj, b.across.gj}, {a.slab.ei, b.slab.eiAcross}, {a.slab.gaAcross, b.slab.ga}, {a.plate.H, b.plate.H},
		} {
			near(t, "stiffness", pair[1], pair[0], 1e-12)
		}
		for i := range d.Cases {
			x, y := a.caseResult(&d.Cases[i]), b.caseResult(&e.Cases[i])
			near(t, string(d.Supports.Kind)+": sag", y.Sag, x.Sag, 1e-9)
			near(t, string(d.Supports.Kind)+": sag of the slab", y.SlabSag, x.SlabSag, 1e-9)
			near(t, string(d.Supports.Kind)+": share of bending", y.Bending, x.Bending, 1e-9)
		}
		sameMargins(t, a.margins(&d, &m, false), b.margins(&e, &n, false))
		if t.Failed() {
			t.Fatalf("design: %+v", d)
		}
	}
}

// The support that an arrangement does not have may hold any figure.
func TestUnusedInsetDoesNothing(t *testing.T) {
	t.Parallel()
	for _, kind := range []SupportKind{RailsAcross, RailsAlong, AllEdges} {
		d := plainTop()
		d.Supports = Supports{Kind: kind, EndInset: 100, SideInset: 100, Bearing: 40}
		want := compute(t, d).Stiffness
		for _, other := range []float64{0, 350, 800, 5000, -9} {
			e := d
			if kind != RailsAcross {
				e.Supports.EndInset = other
			}
			if kind != RailsAlong {
				e.Supports.SideInset = other
			}
			if got := compute(t, e).Stiffness; got != want {
				t.Errorf("%s, unused inset %g: %+v; want %+v", kind, other, got, want)
			}
		}
		across := want.Across.Span
		if wanted := map[SupportKind]float64{RailsAcross: 700, RailsAlong: 500, AllEdges: 700}[kind]; across != wanted {
			t.Errorf("%s: span across %g; want %g", kind, across, wanted)
		}
	}
}

func TestLoadsAddUp(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 5))
	for range 40 {
		d := randomDesign(r)
		mo, _ := modelOf(d, true)
		for i := range d.Cases {
			c := mo.caseResult(&d.Cases[i])
			sum := 0.0
			for j := range d.Cases[i].Loads {
				alone := LoadCase{Loads: []Load{d.Cases[i].Loads[j]}}
				one := mo.caseResult(&alone).Loads[0].Alone
				near(t, "alone", one, c.Loads[j].Alone, 1e-12)
				alone.Loads[0].Force *= 2
				near(t, "twice the load", mo.caseResult(&alone).Loads[0].Alone, 2*one, 1e-12)
				if one > 0 && d.Cases[i].Loads[j].Kind != Couple { // a load over a rail may tip the top up under its own middle
					near(t, "stiffness", c.Loads[j].Stiffness*one, d.Cases[i].Loads[j].Force, 1e-12)
				} else if c.Loads[j].Stiffness != 0 {
					t.Errorf("stiffness %g where nothing sags or is pressed down", c.Loads[j].Stiffness)
				}
				sum += mo.under(&d.Cases[i].Loads[j], c.X, c.Y).total()
			}
			near(t, "sag", c.Sag, sum+c.OwnSag, 1e-9)
			near(t, "shares", c.Bending+c.Shear+c.Twist, 1, 1e-9)
		}
	}
}

// TestRailsByHand compares a top on rails at its very ends with the textbook's
// beam: 5·q·L⁴/(384·EI) + q·L²/(8·S) under an even load.
func TestRailsByHand(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Supports.EndInset = 0
	d.Cases[0].Loads = []Load{{Name: "all", Kind: Uniform, Force: 600}}
	mo, _ := modelOf(d, false)
	c := mo.caseResult(&d.Cases[0])
	q := (600 + mo.weight) / 1600
	bending := 5 * q * math.Pow(1600, 4) / 384 / mo.along.first.EI
	shear := q * 1600 * 1600 / 8 / mo.along.ga
	near(t, "sag", c.Sag, bending+shear, 1e-9)
	near(t, "bending", c.Bending, bending/(bending+shear), 1e-9)
	near(t, "shear", c.Shear, shear/(bending+shear), 1e-9)
	near(t, "slab", c.SlabSag, 5*q*math.Pow(1600, 4)/384/mo.slab.ei+q*1600*1600/8/mo.slab.ga, 1e-9)
	if c.X != 800 || c.Twist != 0 {
		t.Errorf("largest at x = %g with twist %g; want 800 and none", c.X, c.Twist)
	}
	// Slab: E·b·t³/12 with 9 + 80 + 6 mm of the top skin's sheet, by hand
	// 9000·700·857375/12; rolling shear through its depth, 5/6·170·700·95.
	near(t, "slab EI", mo.slab.ei, 4.50121875e11, 1e-12)
	near(t, "slab GA", mo.slab.ga, 5.0/6*170*700*95, 1e-12)
	near(t, "slab EI across", mo.slab.eiAcross, 5000*1600*857375.0/12, 1e-12)
}

func TestSlabIsEightTimesAsStiff(t *testing.T) {
	t.Parallel()
	d := plainTop()
	one := compute(t, d).Stiffness
	d.TopSkin.Thickness, d.BottomSkin.Thickness, d.CoreDepth = 2*d.TopSkin.Thickness, 2*d.BottomSkin.Thickness, 2*d.CoreDepth
	two := compute(t, d).Stiffness
	if two.Along.SlabEI != 8*one.Along.SlabEI || two.Across.SlabEI != 8*one.Across.SlabEI {
		t.Errorf("slab of twice the depth: × %g and × %g; want 8 exactly", two.Along.SlabEI/one.Along.SlabEI, two.Across.SlabEI/one.Across.SlabEI)
	}
}

// The slab twists as the top does: a load off the middle line of two rails, and
// the plate on all edges whose twisting stiffness comes from G, not from E.
func TestSlabTwists(t *testing.T) {
	t.Parallel()
	d := plainTop()
	mo, _ := modelOf(d, false)
	l := section.Rect{P: 800, X: 800, Y: 150, SizeX: 300, SizeY: 100}
	bend, shear := mo.along.span.Sag(section.Press{P: 800, X1: 650, X2: 950}, 800, mo.slab.ei, mo.slab.ga)
	// Torque 800·200 N·mm, half of it over 700 mm of span to either rail, seen
	// 200 mm off the middle line; GJ = G·b·t³/3 with 95 mm of depth.
	gj := 620.0 * 700 * 857375 / 3
	near(t, "slab on rails", mo.slabSag(l, 800, 150), bend+shear+800*200*200*350/gj, 1e-12)
	d.Supports = Supports{Kind: AllEdges, Bearing: 40}
	d.Length, d.Width = 800, 800
	d.Cases = nil
	d.Own[0].EAcross, d.Own[0].GEdge, d.Own[0].GRolling = 9000, 4500, 1e5 // isotropic without cross contraction
	mo, _ = modelOf(d, false)
	q := mo.slabSag(section.Rect{P: 640000, X: 400, Y: 400, SizeX: 800, SizeY: 800}, 400, 400)
	near(t, "slab on all edges", q*9000*857375/12/math.Pow(800, 4), 0.00406235, 5e-3) // .4 % of it is shear
}

// secondMethod works out the sag of plainTop on rails at x, apart from the
// engine: the section is integrated layer by layer, skin slip is summed term
// by term, and the load is a plain Fourier sum of 2000 terms, each with its
// own stiffness: w = Σ M_m·(1/(k²·EI_m) + 1/S).
type secondMethod struct {
	width, core, top, bottom float64 // mm
	ribs, rib                float64
	slot                     SlotFactors
}

func (s secondMethod) ei(k float64) float64 {
	const e, eBend, gEdge, gRoll = 9000, 9800, 620, 170
	spacing := s.width / s.ribs
	slip := func(t float64) float64 {
		sum := 0.0
		for n := 1.0; n <= 20000; n++ {
			kn := 2 * math.Pi * n / spacing
			kz := kn * math.Sqrt(float64(gEdge)/gRoll)
			a := kn * s.rib / 2
			sum += 2/spacing*math.Pow(math.Sin(a)/a, 2)/math.Tanh(kz*t)/(gRoll*kz) - 2/spacing/(gEdge*kn*kn*t)
		}
		return sum
	}
	lag := func(t float64) float64 {
		kappa := k * math.Sqrt(float64(e)/gEdge)
		return 1/math.Tanh(kappa*spacing/2)/(2*gEdge*t*kappa) - 1/(e*t*spacing*k*k)
	}
	gamma := func(t float64) float64 { return 1 / (1 + k*k*e*t*spacing*math.Max(0, slip(t)+lag(t))) }
	kb := s.slot.Bending
	// Stiffness of the section at height z: membranes at the middles of the
	// skins, the webs spread over theirs.
	type sheet struct{ z, ea float64 }
	skins := []sheet{{s.bottom / 2, gamma(s.bottom) * e * s.bottom * s.width}, {s.bottom + s.core + s.top/2, gamma(s.top) * e * s.top * s.width}}
	web := func(power float64, about float64) float64 {
		return quad.Fixed(func(z float64) float64 { return kb * e * s.rib * s.ribs * math.Pow(z-about, power) }, s.bottom, s.bottom+s.core, 8, nil, 0)
	}
	ea, es := web(0, 0), web(1, 0)
	for _, m := range skins {
		ea, es = ea+m.ea, es+m.ea*m.z
	}
	z0 := es / ea
	ei := web(2, z0) + eBend*s.width/12*(math.Pow(s.top, 3)+math.Pow(s.bottom, 3))
	for _, m := range skins {
		ei += m.ea * (m.z - z0) * (m.z - z0)
	}
	return ei
}

func (s secondMethod) shear() float64 {
	ks := s.slot.Shear
	d := s.core + (s.top+s.bottom)/2
	return ks * 620 * s.rib * s.ribs * d * d / s.core
}

// sag at x of a span l under a force p spread from x1 to x2.
func (s secondMethod) sag(l, p, x1, x2, x float64, ei func(m int) float64) float64 {
	sum := 0.0
	for m := 1; m <= 2000; m++ {
		k := math.Pi * float64(m) / l
		q := 2 * p / l / (x2 - x1) * (math.Cos(k*x1) - math.Cos(k*x2)) / k // N/mm
		moment := q / (k * k)
		sum += moment * (1/(k*k*ei(m)) + 1/s.shear()) * math.Sin(k*x)
	}
	return sum
}

func TestSagByASecondMethod(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Supports.EndInset = 0
	d.Cases[0].Loads[0].X = 700
	l := d.Cases[0].Loads[0]
	weight := func(d Design) float64 { // by hand, with the glue
		j := 0.0
		for _, p := range d.Parts() {
			j += p.Length * p.Width * p.Thickness
			for _, s := range p.Slots {
				j -= s.Width * s.Depth * p.Thickness
			}
		}
		return (j*680e-9 + d.glueMass()) * Gravity
	}
	at := func(d Design, x float64) float64 {
		mo, _ := modelOf(d, false) // only for what the slots leave
		s := secondMethod{d.Width, d.CoreDepth, d.TopSkin.Thickness, d.BottomSkin.Thickness, 5, 12, mo.stiffness().Along.Slot}
		ei := make([]float64, 2001)
		for m := 1; m <= 2000; m++ {
			if m <= section.Harmonics {
				ei[m] = s.ei(math.Pi * float64(m) / d.Length)
			} else {
				ei[m] = ei[1] // beyond, the engine keeps the first term's
			}
		}
		stiffness := func(m int) float64 { return ei[m] }
		return s.sag(d.Length, l.Force, l.X-l.SizeX/2, l.X+l.SizeX/2, x, stiffness) + s.sag(d.Length, weight(d), 0, d.Length, x, stiffness)
	}
	r := compute(t, d)
	// The even own weight and the patch, at the middle: the load stands in the
	// middle of the width, so there is no twist. 2000 terms are
	// good to 1e-6, the slip that the engine sums in fewer to some 1e-5.
	near(t, "sag at the middle", at(d, 800), func() float64 {
		mo, _ := modelOf(d, true)
		return mo.sag(mo.ownWeight(), 800, 350).total() + mo.sag(mo.footprint(&l), 800, 350).total()
	}(), 1e-5)
	near(t, "sag under the load", r.Cases[0].Loads[0].Sag, at(d, 700), 1e-5)
	// The panel's own exponent of depth, from the second method alone.
	deeper, shallower := d, d
	deeper.CoreDepth, shallower.CoreDepth = d.CoreDepth*1.01, d.CoreDepth*0.99
	x := r.Cases[0].X
	exponent := -math.Log(at(deeper, x)/at(shallower, x)) / math.Log(1.01/0.99)
	near(t, "exponent", r.Depth.Exponent, exponent, 1e-5)
	if !(exponent > 1 && exponent < 2) {
		t.Errorf("exponent %g; want between 1 (shear alone, S·d²/h) and 2 (bending alone, d²)", exponent)
	}
	// The curve is the same panel recomputed.
	for _, p := range r.Depth.Curve {
		e := d
		e.CoreDepth = p.CoreDepth
		c := compute(t, e)
		near(t, "curve", p.Sag, c.Cases[0].Sag, 1e-12)
		near(t, "curve", p.Mass, c.Mass.Total, 1e-9)
	}
}

// TestSagByIntegration integrates M/EI twice and V/S once by Gauss's rule, with
// the overhangs, and compares every point looked at.
func TestSagByIntegration(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Cases[0].Loads[0].X, d.Cases[0].Loads[0].Y = 300, 200
	mo, _ := modelOf(d, false)
	l := d.Cases[0].Loads[0]
	ei, ga, gj := mo.along.first.EI, mo.along.ga, mo.along.gj
	a, b := 100.0, 1500.0
	loads := [][3]float64{{l.Force, 150, 450}, {mo.weight, 0, 1600}}
	moment := func(x float64) float64 { // sum of moments of all to the left
		m := 0.0
		for _, p := range loads {
			mid := (p[1] + p[2]) / 2
			rb := p[0] * (mid - a) / (b - a)
			m += (p[0]-rb)*math.Max(0, x-a) + rb*math.Max(0, x-b)
			if over := math.Min(x, p[2]) - p[1]; over > 0 {
				m -= p[0] / (p[2] - p[1]) * over * (x - p[1] - over/2)
			}
		}
		return m
	}
	// w(x) with w(a) = w(b) = 0 by the unit-load theorem in its kernel form.
	pieces := []float64{0, 100, 150, 450, 1500, 1600}
	integral := func(f func(float64) float64, from, to float64) float64 {
		sum := 0.0
		for i := 1; i < len(pieces); i++ {
			lo, hi := math.Max(from, pieces[i-1]), math.Min(to, pieces[i])
			if hi > lo {
				sum += quad.Fixed(f, lo, hi, 8, nil, 0)
			}
		}
		return sum
	}
	raw := func(x float64) float64 { // ∫₀ˣ (x − u)·M/EI du, from w″ = −M/EI
		return -integral(func(u float64) float64 { return (x - u) * moment(u) / ei }, 0, x)
	}
	line := func(f func(float64) float64, x float64) float64 { return f(x) - f(a) - (x-a)/(b-a)*(f(b)-f(a)) }
	for _, x := range []float64{0, 60, 300, 800, 1333, 1500, 1600} {
		got := mo.sag(mo.ownWeight(), x, 200).plus(mo.sag(mo.footprint(&l), x, 200))
		near(t, "bending", got.bending, line(raw, x), 1e-9)
		near(t, "shear", got.shear, line(func(x float64) float64 { return moment(x) / ga }, x), 1e-9)
	}
	// Twist under the load: torque 800·150 from x = 300 to the rails, in
	// parallel 200 and 1200 mm long, 150 mm from the middle line.
	near(t, "twist", mo.sag(mo.footprint(&l), 300, 200).twist, 800*150*150/gj*200*1200/1400, 1e-12)
}

// Square plate on four corner supports, sag at the middle, w·D/(q·a⁴), by a
// Ritz series (derived): .0255065 at ν = .3, .0256695 at .25, .0282045 at 0;
// under a force at the middle .039142 at ν = .3. Two beams one after the
// other give 2·5/384 = .0260 and 2/48 = .0417.
func TestFourLegsAgainstPlate(t *testing.T) {
	t.Parallel()
	const a, d = 1000.0, 1e8
	ax := axis{span: section.Span{A: 0, B: a, Length: a}, first: section.Rigidity{EI: d * a}, ga: 1e30, gj: 1e30}
	mo := model{kind: FourLegs, length: a, width: a, along: ax, across: ax}
	even := mo.sag(section.Rect{P: 1, X: a / 2, Y: a / 2, SizeX: a, SizeY: a}, a/2, a/2).total() * d / (a * a)
	near(t, "even load, two beams", even, 10.0/384, 1e-9)
	for nu, plate := range map[float64]float64{0.3: 0.0255065, 0.25: 0.0256695, 0: 0.0282045} {
		if math.Abs(even/plate-1) > 0.08 {
			t.Errorf("even load %g; the plate with ν = %g has %g, over 8 %% apart", even, nu, plate)
		}
	}
	point := mo.sag(section.Rect{P: 1, X: a / 2, Y: a / 2, SizeX: 1e-3, SizeY: 1e-3}, a/2, a/2).total() * d / (a * a)
	near(t, "force, two beams", point, 2.0/48, 1e-6)
	if math.Abs(point/0.039142-1) > 0.07 {
		t.Errorf("force at the middle %g; the plate has .039142, over 7 %% apart", point)
	}
	// Near the edges it is rough, as Reach says: the plate's middle of an edge
	// sags .0177474, the beam across .0130.
	if c := (LoadCase{}); !strings.Contains(mo.reach(&c), "rough near the edges") {
		t.Errorf("reach = %q; want it to say that edges are rough", mo.reach(&c))
	}
}

// Orthotropic plates held along all edges, w·Dx/(q·a⁴) and w·Dx/(P·a²) at the
// middle, double sine series (derived).
func TestAllEdgesAgainstPlate(t *testing.T) {
	t.Parallel()
	for _, row := range [][5]float64{ // b/a, Dy, H; even load, force
		{1, 0.5, 0.5, 0.00650548, 0.0184937},
		{1, 0.1, 0.1, 0.01228395, 0.0380764},
		{1, 0.25, 0.5, 0.00717909, 0.0211279},
		{2, 0.5, 0.25, 0.01327003, 0.0246920},
		{1.5, 0.6, 0.4, 0.01087135, 0.0221328},
	} {
		const a = 1000.0
		b := row[0] * a
		mo := model{kind: AllEdges, length: a, width: b, plate: section.Plate{Dx: 1e8, Dy: row[1] * 1e8, H: row[2] * 1e8, Sx: 1e30, Sy: 1e30}}
		q := mo.sag(section.Rect{P: a * b, X: a / 2, Y: b / 2, SizeX: a, SizeY: b}, a/2, b/2)
		near(t, "even load", q.total()*1e8/math.Pow(a, 4), row[3], 1e-5)
		near(t, "shear", q.shear, 0, 1e-6)
		p := mo.sag(section.Rect{P: 1, X: a / 2, Y: b / 2, SizeX: 1, SizeY: 1}, a/2, b/2)
		near(t, "force", p.total()*1e8/(a*a), row[4], 3e-3) // 31 terms each way
	}
	// Shear stiffness of both ways equal, S, and D, H = D: the square plate's
	// part from shear is .07367135·q·a²/S (derived).
	mo := model{kind: AllEdges, length: 500, width: 500, plate: section.Plate{Dx: 1e8, Dy: 1e8, H: 1e8, Sx: 3000, Sy: 3000}}
	q := mo.sag(section.Rect{P: 250000, X: 250, Y: 250, SizeX: 500, SizeY: 500}, 250, 250)
	near(t, "shear", q.shear*3000/250000, 0.07367135, 1e-3)
	near(t, "bending", q.bending*1e8/math.Pow(500, 4), 0.00406235, 1e-3)
}

// Common practice, no source: a hollow top of thin plywood throughout (5 mm or
// less), some 150 mm deep, weighs between a sixth and an eighth of the solid
// block of its outline.
func TestThinTopsWeighASixthToAnEighth(t *testing.T) {
	t.Parallel()
	for _, size := range [][2]float64{{1200, 600}, {1500, 750}, {1800, 900}, {2400, 1200}} {
		d := plainTop()
		d.Length, d.Width, d.CoreDepth = size[0], size[1], 140
		const key, thickness = "tropical-3ply", 5
		d.TopSkin, d.BottomSkin = Skin{Material: key, Thickness: thickness}, Skin{Material: key, Thickness: thickness}
		d.Lengthwise = RibSet{Material: key, Thickness: thickness, Count: int(math.Round(d.Width/150)) + 1}
		d.Crosswise = RibSet{Material: key, Thickness: thickness, Count: int(math.Round(d.Length/150)) + 1}
		d.Cases[0].Loads[0].X, d.Cases[0].Loads[0].Y = d.Length/2, d.Width/2
		r := compute(t, d)
		if s := r.Mass.Share; !(s > 1.0/8 && s < 1.0/6) {
			t.Errorf("%g × %g × 150: %.4f of the block; want between %.4f and %.4f", d.Length, d.Width, s, 1.0/8, 1.0/6)
		}
	}
}

func TestHarmonicsAddALittle(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 6))
	for range 40 {
		d := plainTop()
		l := &d.Cases[0].Loads[0]
		l.SizeX = 60 + 300*r.Float64()
		l.X = 100 + l.SizeX/2 + (1400-l.SizeX)*r.Float64()
		with, _ := modelOf(d, true)
		without, _ := modelOf(d, false)
		a, b := with.sag(with.footprint(l), l.X, l.Y).total(), without.sag(without.footprint(l), l.X, l.Y).total()
		if !(a > b) || !(a < 1.1*b) {
			t.Errorf("patch %.0f at %.0f: %.6f with harmonics, %.6f without; want a little more with", l.SizeX, l.X, a, b)
		}
	}
}

func TestReach(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name   string
		change func(*Design)
		want   string
	}{
		{"legs", func(d *Design) { d.Supports.Kind = FourLegs; d.Supports.SideInset = 100 }, "one after the other"},
		{"all edges", func(d *Design) { d.Supports.Kind = AllEdges }, "share the load between two strips"},
		{"patch on a long top", func(*Design) {}, "shared by the whole width"},
		{"patch on a wide top", func(d *Design) { d.Supports.Kind = RailsAlong; d.Supports.SideInset = 60 }, "wider than its span"},
		{"even load", func(d *Design) { d.Cases[0].Loads = []Load{{Name: "all", Kind: Uniform, Force: 9}} }, ""},
	}
	for _, test := range tests {
		d := plainTop()
		test.change(&d)
		got := compute(t, d).Cases[0].Reach
		if test.want == "" && got != "" || !strings.Contains(got, test.want) {
			t.Errorf("%s: reach = %q; want %q in it", test.name, got, test.want)
		}
	}
}

// The side walls of the box are the bands, or else the outermost ribs.
func TestTorsionByHand(t *testing.T) {
	t.Parallel()
	d := plainTop()
	r := compute(t, d).Stiffness
	// Ribs of 12 mm flush: 688 between their middles; 80 + 7.5 between the
	// skins'.
	side := r.Along.Slot.Shear * 620 * 12
	box := 4 * math.Pow(688*87.5, 2) / (688/(620*9.0) + 688/(620*6.0) + 2*87.5/side)
	strips := 620 * 12 * (729.0 + 216) / 3
	near(t, "without bands", r.GJ, box+strips, 1e-12)
	d.EdgeBand = EdgeBand{"white-oak", 20}
	oak, _ := d.Material("white-oak")
	r = compute(t, d).Stiffness
	near(t, "with bands", r.GJ, 4*math.Pow(680*87.5, 2)/(680/(620*9.0)+680/(620*6.0)+2*87.5/(20*oak.At(20).GEdge)), 1e-12)
}

func TestSlotFactors(t *testing.T) {
	t.Parallel()
	for _, row := range [][4]float64{ // pitch, height; bending, shear: the range's ends and its middle
		{50, 100, 0.6, 0.8}, {100, 100, 0.6, 0.8}, {200, 100, 0.7, 0.875}, {300, 100, 0.8, 0.95}, {900, 100, 0.8, 0.95},
	} {
		b, s := slotFactors(row[0], row[1])
		near(t, "bending", b, row[2], 1e-12)
		near(t, "shear", s, row[3], 1e-12)
	}
}
