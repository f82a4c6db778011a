package plate

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"
)

func prepare(t *testing.T, p *Panel) *Model {
	t.Helper()
	m, err := Prepare(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func answer(t *testing.T, p *Panel, loads ...Press) *Solution {
	t.Helper()
	s, err := prepare(t, p).Solve(context.Background(), loads)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// glued makes every pad pull too, so that the panel is linear.
func glued(p *Panel) *Panel {
	for i := range p.Pads {
		p.Pads[i].Glued = true
	}
	return p
}

// resultant returns force and moments of the pads' pressure, point by point:
// ΣR, ΣR·x, ΣR·y; of the loads when s is nil.
func resultant(p *Panel, s *Solution, loads []Press) (r [3]float64) {
	if s != nil {
		for i := range s.m.springs {
			if sp := &s.m.springs[i]; !s.lifted[i] && sp.grounded() {
				f := -sp.k * sp.value(s.u)
				r[0], r[1], r[2] = r[0]+f, r[1]+f*sp.x, r[2]+f*sp.y
			}
		}
		return r
	}
	for _, l := range loads {
		// what lies beyond the skins is carried by the rest of the footprint
		x0, x1 := max(l.X-l.SX/2, p.X0), min(l.X+l.SX/2, p.X1)
		y0, y1 := max(l.Y-l.SY/2, p.Y0), min(l.Y+l.SY/2, p.Y1)
		r[0], r[1], r[2] = r[0]+l.P, r[1]+l.P*(x0+x1)/2+l.TX, r[2]+l.P*(y0+y1)/2+l.TY
	}
	return r
}

// checkBalance fails unless the pads carry the loads, to 1e-9 of the total
// force and of its moment over the panel's length, and no pad pulls. Panels
// that sag by more than a hundredth of their length get more in proportion:
// what is rounded off goes with the sag.
func checkBalance(t *testing.T, what string, p *Panel, s *Solution, loads []Press) {
	t.Helper()
	got, want := resultant(p, s, nil), resultant(p, nil, loads)
	size := math.Max(p.X1-p.X0, p.Y1-p.Y0)
	tol := 1e-9 * want[0]
	for _, l := range loads {
		tol = max(tol, 1e-9*want[0]*s.Sag(l.X, l.Y)/(size/100))
	}
	near(t, what+": sum of reactions", got[0], want[0], tol)
	near(t, what+": moment about y", got[1], want[1], tol*size)
	near(t, what+": moment about x", got[2], want[2], tol*size)
	force, lifted := s.Reactions()
	total := 0.0
	for i, f := range force {
		total += f
		if f < 0 && !p.Pads[i].Glued || lifted[i] && f != 0 {
			t.Errorf("%s: pad %d pushes with %g N, lifted %v", what, i, f, lifted[i])
		}
	}
	near(t, what+": sum of the pads", total, want[0], tol)
}

func TestBalance(t *testing.T) {
	t.Parallel()
	p := smallPanel()
	for i, loads := range [][]Press{
		{{P: 500, X: 370, Y: 220, SX: 50, SY: 50}},
		{{P: 500, X: 370, Y: 220, SX: 720, SY: 420}},
		{{P: 300, X: 100, Y: 300, SX: 40, SY: 60}, {P: 900, X: 600, Y: 90, SX: 200, SY: 10}, {P: 100, X: 370, Y: 220, SX: 2000, SY: 2000}},
		{{P: 400, X: 12, Y: 430, SX: 100, SY: 80}, {P: 2000, X: 370, Y: 220, SX: 720, SY: 420}}, // hangs over the corner of the skins
	} {
		for _, divide := range []int{1, 2, 3} {
			p.Divide = divide
			checkBalance(t, fmt.Sprintf("loads %d, divide %d", i, divide), p, answer(t, p, loads...), loads)
		}
	}
}

// All that a panel can stand on carries all that can press on it: a ledger along one
// edge beside two feet, three feet of different hardness anywhere, aprons between
// legs; own weight, a line, a patch and couples both ways.
func TestBalanceOnEverything(t *testing.T) {
	t.Parallel()
	ledger, feet, rim := smallPanel(), smallPanel(), smallPanel()
	ledger.Pads = []Pad{{X: 370, Y: 22, SX: 720, SY: 24, K: 8}, {X: 100, Y: 380, SX: 50, SY: 60, K: 10}, {X: 650, Y: 400, SX: 40, SY: 40, K: 1}}
	feet.Pads = []Pad{{X: 90, Y: 100, SX: 60, SY: 60, K: 0.2}, {X: 640, Y: 60, SX: 30, SY: 80, K: 10}, {X: 330, Y: 400, SX: 60, SY: 40, K: 3}}
	rim.Pads = nil // all edges, as four narrow ledges
	for _, y := range []float64{15, 425} {
		rim.Pads = append(rim.Pads, Pad{X: 370, Y: y, SX: 720, SY: 10, K: 6})
	}
	for _, x := range []float64{15, 725} {
		rim.Pads = append(rim.Pads, Pad{X: x, Y: 220, SX: 10, SY: 400, K: 6})
	}
	own := Press{P: 220, X: 370, Y: 220, SX: 720, SY: 420}
	line := Press{P: 180, X: 420, Y: 230, SX: 1, SY: 380}
	patch := Press{P: 350, X: 300, Y: 170, SX: 90, SY: 70}
	couples := Press{P: 0, X: 360, Y: 105, SX: 120, SY: 90, TX: 2.1e4, TY: -1.3e4}
	for name, p := range map[string]*Panel{"ledger": ledger, "feet": feet, "all edges": rim, "aprons": onBeams(smallPanel())} {
		for i, loads := range [][]Press{{own}, {own, line}, {own, couples}, {own, line, patch, couples}} {
			for _, divide := range []int{1, 2, 4} {
				p.Divide = divide
				checkBalance(t, fmt.Sprintf("%s, loads %d, divide %d", name, i, divide), p, answer(t, p, loads...), loads)
			}
		}
	}
}

// mirror turns the panel's x round about its middle.
func mirror(p *Panel) *Panel {
	q := *p
	m := p.X0 + p.X1
	q.Across, q.Fills, q.Pads, q.Rims, q.Beams = nil, nil, nil, nil, nil
	for i := range p.Across {
		r := p.Across[len(p.Across)-1-i]
		r.At = m - r.At
		q.Across = append(q.Across, r)
	}
	for _, f := range p.Fills {
		f.X0, f.X1 = m-f.X1, m-f.X0
		q.Fills = append(q.Fills, f)
	}
	for _, d := range p.Pads {
		d.X = m - d.X
		q.Pads = append(q.Pads, d)
	}
	for _, b := range p.Beams {
		if b.AlongX {
			b.From, b.To, b.Ends = m-b.To, m-b.From, [2]int{b.Ends[1], b.Ends[0]}
		} else {
			b.At = m - b.At
		}
		q.Beams = append(q.Beams, b)
	}
	for _, r := range p.Rims {
		switch r.Side {
		case Left:
			r.Side = Right
		case Right:
			r.Side = Left
		}
		q.Rims = append(q.Rims, r)
	}
	return &q
}

// swap reads x as y and y as x.
func swap(p *Panel) *Panel {
	q := *p
	q.X0, q.X1, q.Y0, q.Y1 = p.Y0, p.Y1, p.X0, p.X1
	q.Top, q.Bottom = turnedLayer(p.Top), turnedLayer(p.Bottom)
	q.Along, q.Across = p.Across, p.Along
	q.Fills, q.Pads, q.Rims, q.Beams = nil, nil, nil, nil
	for _, f := range p.Fills {
		f.X0, f.X1, f.Y0, f.Y1, f.Ex, f.Ey = f.Y0, f.Y1, f.X0, f.X1, f.Ey, f.Ex
		q.Fills = append(q.Fills, f)
	}
	for _, d := range p.Pads {
		d.X, d.Y, d.SX, d.SY = d.Y, d.X, d.SY, d.SX
		q.Pads = append(q.Pads, d)
	}
	for _, b := range p.Beams {
		b.AlongX = !b.AlongX
		q.Beams = append(q.Beams, b)
	}
	for _, r := range p.Rims {
		r.Side = map[Side]Side{Left: Front, Right: Back, Front: Left, Back: Right}[r.Side]
		q.Rims = append(q.Rims, r)
	}
	return &q
}

// A panel seen in a mirror, or with x and y exchanged (with the mirror, a
// quarter turn), sags the same. Unequal rims so that a mixed-up side shows.
func TestMirrorAndQuarterTurn(t *testing.T) {
	t.Parallel()
	p := smallPanel()
	p.Top, p.Bottom = sameRatio(), sameRatio()
	p.Bottom.T = 6
	for i := range p.Rims {
		p.Rims[i].B += 3 * float64(i)
	}
	p.Pads[1].K = 4
	checkTurns(t, p)
}

func checkTurns(t *testing.T, p *Panel) {
	t.Helper()
	loads := []Press{{P: 300, X: 100, Y: 300, SX: 40, SY: 60}, {P: 900, X: 600, Y: 90, SX: 200, SY: 10}, {P: 400, X: 370, Y: 220, SX: 720, SY: 420}}
	m := p.X0 + p.X1
	turns := []struct {
		name string
		p    *Panel
		at   func(x, y float64) (float64, float64)
	}{
		{"mirror", mirror(p), func(x, y float64) (float64, float64) { return m - x, y }},
		{"swap", swap(p), func(x, y float64) (float64, float64) { return y, x }},
		{"quarter turn", swap(mirror(p)), func(x, y float64) (float64, float64) { return y, m - x }},
		{"half turn", mirror(swap(mirror(swap(p)))), func(x, y float64) (float64, float64) { return m - x, p.Y0 + p.Y1 - y }},
	}
	for _, divide := range []int{1, 2} {
		p.Divide = divide
		s := answer(t, p, loads...)
		top := 0.0
		for _, l := range loads {
			top = math.Max(top, s.Down(l.X, l.Y))
		}
		for _, turn := range turns {
			turn.p.Divide = divide
			var turned []Press
			for _, l := range loads {
				l.X, l.Y = turn.at(l.X, l.Y)
				if turn.name == "swap" || turn.name == "quarter turn" {
					l.SX, l.SY = l.SY, l.SX
				}
				turned = append(turned, l)
			}
			r := answer(t, turn.p, turned...)
			for _, at := range [][2]float64{{100, 300}, {370, 220}, {612, 55}, {20, 20}, {333, 411}} {
				x, y := turn.at(at[0], at[1])
				near(t, fmt.Sprintf("%s, divide %d: down at %v", turn.name, divide, at), r.Down(x, y), s.Down(at[0], at[1]), 1e-8*top)
				near(t, fmt.Sprintf("%s, divide %d: sag at %v", turn.name, divide, at), r.Sag(x, y), s.Sag(at[0], at[1]), 1e-8*top)
			}
			a, _ := s.Reactions()
			b, _ := r.Reactions()
			for i := range a {
				near(t, fmt.Sprintf("%s: reaction %d", turn.name, i), b[i], a[i], 1e-6)
			}
		}
	}
}

// Maxwell: what A's load does at B, B's load does at A, while nothing lifts.
// Loads and readings are over the same small patches; the reading of a patch is
// twice the work of that load.
func TestReciprocity(t *testing.T) {
	t.Parallel()
	m := prepare(t, glued(smallPanel()))
	places := []Press{{P: 1, X: 100, Y: 300, SX: 40, SY: 60}, {P: 1, X: 600, Y: 90, SX: 5, SY: 10}, {P: 1, X: 725, Y: 425, SX: 8, SY: 8}, {P: 1, X: 370, Y: 220, SX: 300, SY: 20}}
	var s []*Solution
	for _, l := range places {
		a, err := m.Solve(context.Background(), []Press{l})
		if err != nil {
			t.Fatal(err)
		}
		s = append(s, a)
	}
	read := func(s *Solution, l Press) float64 {
		sum := 0.0
		m.sys.integrate(l.X, l.Y, l.SX, l.SY, func(x, y, area float64) { sum += s.Down(x, y) * area })
		return sum / m.sys.covered(l)
	}
	for i := range places {
		nearRel(t, "twice the work of a load alone", 2*s[i].Work(places[i:i+1]), read(s[i], places[i]), 1e-9)
		for j := range i {
			near(t, fmt.Sprintf("load %d at %d against load %d at %d", i, j, j, i), read(s[i], places[j]), read(s[j], places[i]), 1e-9*read(s[i], places[i]))
		}
	}
}

// Twice the load is twice the sag, lifted pads or not; two loads add up while
// nothing lifts.
func TestDoubledAndAdded(t *testing.T) {
	t.Parallel()
	a, b := Press{P: 300, X: 100, Y: 300, SX: 40, SY: 60}, Press{P: 900, X: 600, Y: 90, SX: 200, SY: 10}
	rim := Press{P: 350, X: 720, Y: 420, SX: 20, SY: 20}
	own := Press{P: 400, X: 370, Y: 220, SX: 720, SY: 420}
	twice := func(l ...Press) []Press {
		var out []Press
		for _, l := range l {
			l.P *= 2
			out = append(out, l)
		}
		return out
	}
	for _, c := range []struct {
		name  string
		p     *Panel
		loads []Press
	}{{"glued", glued(smallPanel()), []Press{a, b}}, {"lifting", smallPanel(), []Press{own, rim}}} {
		one, two := answer(t, c.p, c.loads...), answer(t, c.p, twice(c.loads...)...)
		nearRel(t, c.name+": sag under twice the load", two.Sag(300, 200), 2*one.Sag(300, 200), 1e-8)
		nearRel(t, c.name+": work of twice the load", two.Work(twice(c.loads...)), 4*one.Work(c.loads), 1e-8)
	}
	p := glued(smallPanel())
	both, first, second := answer(t, p, a, b), answer(t, p, a), answer(t, p, b)
	for _, at := range [][2]float64{{100, 300}, {370, 220}, {612, 55}} {
		nearRel(t, "sum of two", both.Down(at[0], at[1]), first.Down(at[0], at[1])+second.Down(at[0], at[1]), 1e-8)
		nearRel(t, "sum of two sags", both.Sag(at[0], at[1]), first.Sag(at[0], at[1])+second.Sag(at[0], at[1]), 1e-8)
	}
}

// checkTouch fails unless lifted points stand clear and the others are pressed.
func checkTouch(t *testing.T, what string, s *Solution) {
	t.Helper()
	for i := range s.m.springs {
		if w := s.m.springs[i].value(s.u); s.lifted[i] != (w > 0) {
			t.Errorf("%s: pad point %d: lifted %v but it lies at %g", what, i, s.lifted[i], w)
		}
	}
}

// A load on the overhang lifts the far pads: they carry nothing, the rest
// balances, and every point that lifted has a gap.
func TestLifting(t *testing.T) {
	t.Parallel()
	p := smallPanel()
	for i := range p.Pads {
		p.Pads[i].X = []float64{150, 150, 450, 450}[i]
		p.Pads[i].Name = []string{"left front", "left back", "right front", "right back"}[i]
	}
	loads := []Press{{P: 100, X: 370, Y: 220, SX: 720, SY: 420}, {P: 43, X: 700, Y: 220, SX: 40, SY: 40}}
	s := answer(t, p, loads...)
	checkBalance(t, "overhang", p, s, loads)
	force, lifted := s.Reactions()
	for i, want := range []bool{true, true, false, false} {
		// By hand: 100 N at 370 and 43 N at 700 act together at 469, beyond the middle of
		// the right pads at 450 and within their reach to 485.
		if lifted[i] != want || want && force[i] != 0 {
			t.Errorf("pad %s: lifted %v, %g N; want lifted %v", p.Pads[i].Name, lifted[i], force[i], want)
		}
	}
	checkTouch(t, "overhang", s)
	// Glued pads pull.
	force, lifted = answer(t, glued(p), loads...).Reactions()
	if !(force[0] < 0) || lifted[0] {
		t.Errorf("a glued pad carries %g N, lifted %v; want it to pull", force[0], lifted[0])
	}
}

// Panels that nothing holds: no pad, one pad with the load beside it, pads in a
// line with the load off it, a load outside all of the pads.
func TestLoose(t *testing.T) {
	t.Parallel()
	centre := Press{P: 400, X: 370, Y: 220, SX: 720, SY: 420}
	for _, c := range []struct {
		name string
		pads []Pad
		load Press
	}{
		{"no pad", nil, centre},
		{"a pad that has no stiffness", []Pad{{X: 370, Y: 220, SX: 300, SY: 300}}, centre},
		{"pads beside the panel", []Pad{{X: -100, Y: 0, SX: 20, SY: 20, K: 10}, {X: 900, Y: 0, SX: 20, SY: 20, K: 10}}, centre},
		{"one pad aside", []Pad{{X: 60, Y: 60, SX: 80, SY: 80, K: 10}}, centre},
		{"two pads in a line", []Pad{{X: 60, Y: 60, SX: 80, SY: 80, K: 10}, {X: 660, Y: 60, SX: 80, SY: 80, K: 10}}, centre},
		{"one rail aside", []Pad{{X: 370, Y: 60, SX: 720, SY: 40, K: 10}}, centre},
		{"a load outside the pads", smallPanel().Pads, Press{P: 100, X: 370, Y: 418, SX: 20, SY: 20}},
	} {
		p := smallPanel()
		p.Rims = nil
		p.Pads = c.pads
		m, err := Prepare(context.Background(), p)
		if err == nil {
			_, err = m.Solve(context.Background(), []Press{c.load})
		}
		if !errors.Is(err, ErrLoose) {
			t.Errorf("%s: error %v; want ErrLoose", c.name, err)
		}
	}
}

// A pad under the middle of the load holds a panel alone; a rail under it too.
func TestOnePadBalances(t *testing.T) {
	t.Parallel()
	centre := []Press{{P: 400, X: 370, Y: 220, SX: 720, SY: 420}}
	for _, pad := range []Pad{{X: 370, Y: 220, SX: 80, SY: 80, K: 10}, {X: 370, Y: 220, SX: 720, SY: 40, K: 10}} {
		p := smallPanel()
		p.Pads = []Pad{pad}
		checkBalance(t, "one pad", p, answer(t, p, centre...), centre)
	}
}

// Softer feet settle more and leave the sag nearly as it was: it is measured
// from the supports.
func TestBedMovesSettlementOnly(t *testing.T) {
	t.Parallel()
	load := Press{P: 490, X: 370, Y: 220, SX: 100, SY: 100}
	felt, wood := smallPanel(), smallPanel()
	for i := range felt.Pads {
		felt.Pads[i].K = 0.1
	}
	a, b := answer(t, felt, load), answer(t, wood, load)
	// By hand: 490 N over four pads of 70 × 50 at .1 N/mm³ press it down by
	// 490/(4·350) = .35 mm on the mean; on hard pads parts lift, and what stays bears it.
	near(t, "settlement on felt", a.Down(370, 220)-a.Sag(370, 220), 0.35, 0.02)
	touching, force := 0.0, 0.0
	for i, s := range b.m.springs {
		if !b.lifted[i] {
			touching += s.k
			force += s.k * (b.Down(s.x, s.y) - b.Sag(s.x, s.y))
		}
	}
	if all := 4 * 70 * 50 * 10.0; !(touching > 0.5*all && touching < all) {
		t.Errorf("%g N/mm of %g are in touch; want most, not all", touching, all)
	}
	nearRel(t, "force of the settlement on wood", force, 490, 1e-6)
	nearRel(t, "sag on felt against sag on wood", a.Sag(370, 220), b.Sag(370, 220), 0.1)
}

// A rigid panel (thick and stiff as steel) on pads tilts as statics says: with
// every pad alike and the load off the centre the settlement is the plane
// through the pads, so there is no sag at all and w follows by hand.
func TestRigidPanelSettles(t *testing.T) {
	t.Parallel()
	p := smallPanel()
	for _, l := range []*Layer{&p.Top, &p.Bottom} {
		*l = Layer{T: 40, Ex: 1e8, Ey: 1e8, EBendX: 1e8, EBendY: 1e8, G: 4e7, GRoll: 4e7}
	}
	p.Fills = []Fill{{X0: 0, X1: 800, Y0: 0, Y1: 500, Ex: 1e8, Ey: 1e8, G: 4e7, EUp: 1e8, Gz: 4e7}}
	s := answer(t, p, Press{P: 1000, X: 450, Y: 170, SX: 30, SY: 30})
	// Pads at x 60 and 660, y 50 and 390, each 70 × 50 × 10 N/mm³ = 35 000 N/mm. About
	// the middle (360, 220): a = 1000/140 000; the turning stiffness about y is
	// 140 000·(300² + 70²/12), about x 140 000·(170² + 50²/12).
	want := func(x, y float64) float64 {
		return 1000 / 140000.0 * (1 + 90*(x-360)/(300*300+70*70/12.0) - 50*(y-220)/(170*170+50*50/12.0))
	}
	for _, at := range [][2]float64{{60, 50}, {660, 390}, {370, 220}, {720, 20}} {
		nearRel(t, fmt.Sprintf("down at %v", at), s.Down(at[0], at[1]), want(at[0], at[1]), 1e-3)
		near(t, fmt.Sprintf("sag at %v", at), s.Sag(at[0], at[1]), 0, 2e-6)
	}
}
