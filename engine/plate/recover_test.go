package plate

import (
	"context"
	"math"
	"testing"
)

// equalLoad solves the demo panel on two rails under an even load.
func railsUnderEvenLoad(t *testing.T, divide int) (*Panel, *Solution) {
	t.Helper()
	p := demoPanel(divide)
	p.Pads = []Pad{{X: 20, Y: 375, SX: 40, SY: 750, K: 10}, {X: 1780, Y: 375, SX: 40, SY: 750, K: 10}}
	m, err := Prepare(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	s, err := m.Solve(context.Background(), []Press{{P: 1800, X: 900, Y: 375, SX: 1800, SY: 750}})
	if err != nil {
		t.Fatal(err)
	}
	return p, s
}

// Cut anywhere between the rails, what skins and lengthwise ribs carry balances
// the loads on one side: the shear force is q·(distance from the middle), the
// moment that of a beam. Statics, by hand: q = 1 N/mm, cut at the middle of a
// cell. The reactions come from the solution itself.
func TestResultantsBalanceTheLoads(t *testing.T) {
	t.Parallel()
	p, s := railsUnderEvenLoad(t, 2)
	force, _ := s.Reactions()
	cells := s.Skin(true)
	lower := s.Skin(false)
	ribs := make([][]RibForce, len(p.Along))
	for i := range ribs {
		ribs[i] = s.Rib(true, i)
	}
	seen := 0
	for c, seg := range ribs[0] {
		if seg.At < 200 || seg.At > 1600 || seg.L < 20 {
			continue
		}
		seen++
		var m, n, v float64
		for i, cell := range cells {
			if cell.X != seg.At {
				continue
			}
			n += (cell.NX + lower[i].NX) * cell.SY
			// about the middle of the bottom skin
			m += -cell.NX*cell.SY*(p.Height+(p.Top.T+p.Bottom.T)/2) - (cell.MX+lower[i].MX)*cell.SY
			v += (cell.QX + lower[i].QX) * cell.SY
		}
		for _, r := range ribs {
			n += r[c].N
			m += r[c].M - r[c].N*(p.Height+p.Bottom.T)/2
			v += r[c].V + (r[c].FlowTop*p.Top.T+r[c].FlowBottom*p.Bottom.T)/2
		}
		// On the left: reaction up, load down. Rail's middle taken as the
		// reaction's place; the pad is 40 mm wide, so ±10 mm of lever.
		wantM := force[0]*(seg.At-20) - seg.At*seg.At/2
		if math.Abs(n) > 1e-3*1800 {
			t.Errorf("x %.0f: axial force %.3f N, want 0", seg.At, n)
		}
		if math.Abs(m-wantM) > 0.02*wantM+force[0]*10 {
			t.Errorf("x %.0f: moment %.0f, want %.0f N·mm", seg.At, m, wantM)
		}
		if wantV := force[0] - seg.At; math.Abs(math.Abs(v)-math.Abs(wantV)) > 0.03*900 {
			t.Errorf("x %.0f: shear %.2f, want ±%.2f N", seg.At, v, wantV)
		}
	}
	if seen < 10 {
		t.Fatalf("only %d cuts looked at", seen)
	}
}

// Mirror: the panel and its load are symmetric, so are the stresses.
func TestStressesAreSymmetric(t *testing.T) {
	t.Parallel()
	p, s := railsUnderEvenLoad(t, 1)
	cells := s.Skin(true)
	at := map[[2]float64]SkinStress{}
	for _, c := range cells {
		at[[2]float64{math.Round(c.X * 1e6), math.Round(c.Y * 1e6)}] = c
	}
	for _, c := range cells {
		m, ok := at[[2]float64{math.Round((p.X1 - c.X) * 1e6), math.Round(c.Y * 1e6)}]
		if !ok {
			t.Fatalf("no cell opposite of %.1f, %.1f", c.X, c.Y)
		}
		if math.Abs(m.NX-c.NX) > 1e-6*(1+math.Abs(c.NX)) || math.Abs(m.MX-c.MX) > 1e-6*(1+math.Abs(c.MX)) || math.Abs(m.QX+c.QX) > 1e-6*(1+math.Abs(c.QX)) {
			t.Errorf("%.1f, %.1f: %+v against %+v", c.X, c.Y, c, m)
		}
	}
}

// By hand: 1 mm sag under own weight gives .18·√9806.65 = 17.825 Hz.
func TestFrequency(t *testing.T) {
	t.Parallel()
	if got := Frequency(1); math.Abs(got-17.825) > 0.001 {
		t.Errorf("Frequency(1) = %.4f, want 17.825", got)
	}
	if got := Frequency(math.NaN()); got != 0 {
		t.Errorf("Frequency(NaN) = %g, want 0", got)
	}
}

// What a rib carries, by hand, for skins that do simple things: t stretches by
// 2e-4, b by -5e-4; the top skin slides by 0.03 mm; the top skin alone falls along
// the rib by 1 in 1000. Strain, slide over height and slope are textbook; the
// rib's upper edge lies half of the top skin below its middle plane.
func TestWebForceByHand(t *testing.T) {
	t.Parallel()
	const l, h, b, tTop, tBottom = 90.0, 75.0, 12.0, 9.0, 6.0
	w := Web{B: b, E: 9300, EUp: 5100, G: 540, GRoll: 60, Own: 0.72, Height: h}
	s := side{l, 0} // skins stiff in shear
	force := func(top, bottom func(x float64) (u, w, beta float64)) RibForce {
		var q [12]float64
		for i, x := range [2]float64{0, l} {
			q[3*i], q[3*i+1], q[3*i+2] = top(x)
			q[6+3*i], q[7+3*i], q[8+3*i] = bottom(x)
		}
		return w.force(s, s, tTop, tBottom, &q)
	}
	still := func(float64) (u, w, beta float64) { return 0, 0, 0 }

	f := force(func(x float64) (u, w, beta float64) { return 2e-4 * x, 0, 0 }, func(x float64) (u, w, beta float64) { return -5e-4 * x, 0, 0 })
	nearRel(t, "stretched: N", f.N, 0.72*9300*12*75*-1.5e-4, 1e-9)
	nearRel(t, "stretched: M", f.M, 0.72*9300*12*75*75/12*-7e-4, 1e-9)
	near(t, "stretched: upright", f.Upright, 0, 1e-12)

	f = force(func(float64) (u, w, beta float64) { return 0.03, 0, 0 }, still)
	nearRel(t, "slid: V", f.V, 540*12*0.03, 1e-9)
	nearRel(t, "slid: flow to the top", f.FlowTop, 540*12*0.03/75, 1e-9)
	nearRel(t, "slid: flow to the bottom", f.FlowBottom, 540*12*0.03/75, 1e-9)

	f = force(func(x float64) (u, w, beta float64) { return 0, 1e-3 * x, -1e-3 }, still)
	nearRel(t, "top lifted along: flow to the top", f.FlowTop, 540*12*1e-3*(1+4.5/75), 1e-9)
	nearRel(t, "top lifted along: flow to the bottom", f.FlowBottom, 540*12*1e-3*4.5/75, 1e-9)
	nearRel(t, "top lifted along: upright, pulled", f.Upright, 5100*0.045/75, 1e-9)

	f = force(still, func(x float64) (u, w, beta float64) { return 0, 1e-3 * x, -1e-3 })
	nearRel(t, "bottom lifted along: flow to the bottom", f.FlowBottom, 540*12*1e-3*(1+3./75), 1e-9)
	nearRel(t, "bottom lifted along: upright, squeezed", f.Upright, -5100*0.045/75, 1e-9)
}

// The rib upright and both its joints squeezed one after the other: 75/(5100·12) of
// its own, 4e-4 and 7e-4 mm²/N more. Joints stiffer than plates tell stiffen it
// to twice at most.
func TestSqueezedByHand(t *testing.T) {
	t.Parallel()
	w := Web{B: 12, EUp: 5100, Height: 75, Joints: [2]Give{{Press: 4e-4}, {Press: 7e-4}}}
	own := 75 / (5100.0 * 12)
	nearRel(t, "both joints", w.squeezed(), 75/12./(own+11e-4), 1e-12)
	w.Joints = [2]Give{{Press: -2e-3}, {}}
	nearRel(t, "stiff joint", w.squeezed(), 2*5100, 1e-12)
}

// Twist and shear in the plane: w = κxy turns the upper face's corners by
// −2κ and gives M = −2·D66·κ with D66 = G·t³/12; u = γy gives N = G·t·γ.
func TestTwistMomentByHand(t *testing.T) {
	t.Parallel()
	const a, b, k, g = 90.0, 50.0, 3e-6, 4e-4
	p := ply.stiffness()
	var q [4][perSkin]float64
	for c, at := range [4][2]float64{{0, 0}, {a, 0}, {a, b}, {0, b}} {
		x, y := at[0], at[1]
		q[c] = [perSkin]float64{g * y, 0, k * x * y, -k * y, -k * x}
	}
	s := p.middle(q, a, b, SkinStress{})
	nearRel(t, "twisting moment", s.MXY, -2*620*9*9*9/12.*k, 1e-9)
	nearRel(t, "shear in the plane", s.NXY, 620*9*g, 1e-12)
	near(t, "bending", s.MX, 0, 1e-12)
}
