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
