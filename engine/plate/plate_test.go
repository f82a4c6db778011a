package plate

import (
	"context"
	"math"
	"testing"
	"time"
)

func demoPanel(n int) *Panel {
	l := Layer{T: 9, Ex: 9461, Ey: 8038, EBendX: 10500, EBendY: 7000, G: 620, GRoll: 60, Nu: 0.05}
	p := &Panel{X0: 0, X1: 1800, Y0: 0, Y1: 750, Top: l, Bottom: l, Height: 108, Divide: n}
	for i := range 5 {
		w := Web{B: 12, E: 9300, EUp: 8000, G: 620 * 0.89, GRoll: 60, Own: 0.72, Height: 108}
		c := ContactSlip(12, 150, 9, 60, 620)
		w.G = Soften(w.G, 12, 108, c, c)
		p.Along = append(p.Along, Rib{At: 6 + 738*float64(i)/4, Web: w})
	}
	for i := range 11 {
		w := Web{B: 12, E: 9300, EUp: 8000, G: 620 * 0.87, GRoll: 60, Own: 0.7, Height: 108}
		c := ContactSlip(12, 164, 9, 60, 620)
		w.G = Soften(w.G, 12, 108, c, c)
		p.Across = append(p.Across, Rib{At: 6 + 1788*float64(i)/10, Web: w})
	}
	for _, x := range []float64{40, 1760} {
		for _, y := range []float64{40, 710} {
			p.Pads = append(p.Pads, Pad{X: x, Y: y, SX: 80, SY: 80, K: 10})
		}
	}
	return p
}

func TestDemoNumbers(t *testing.T) {
	for _, n := range []int{1, 2, 4} {
		t0 := time.Now()
		m, err := Prepare(context.Background(), demoPanel(n))
		if err != nil {
			t.Fatal(err)
		}
		t1 := time.Now()
		s, err := m.Solve(context.Background(), []Press{{P: 490, X: 900, Y: 375, SX: 300, SY: 300}})
		if err != nil {
			t.Fatal(err)
		}
		t2 := time.Now()
		u, b := m.Size()
		f, _ := s.Reactions()
		sum := 0.0
		for _, v := range f {
			sum += v
		}
		t.Logf("n=%d unknowns %d band %d: sag %.4f down %.4f edge %.4f  prepare %v solve %v sum %.9f", n, u, b, s.Sag(900, 375), s.Down(900, 375), s.Sag(900, 0), t1.Sub(t0), t2.Sub(t1), sum)
		if math.Abs(sum-490) > 490e-9 {
			t.Errorf("reactions add up to %v, want 490", sum)
		}
	}
}
