package plate

import (
	"context"
	"math"
	"testing"
)

// A splice over the whole of a rib is a rib of that much less stiffness; one that
// takes nothing is none; mirrored splices make mirrored tops.
func TestSplice(t *testing.T) {
	t.Parallel()
	solve := func(change func(p *Panel)) *Solution {
		p := demoPanel(1)
		p.Pads = []Pad{{X: 20, Y: 375, SX: 40, SY: 750, K: 10}, {X: 1780, Y: 375, SX: 40, SY: 750, K: 10}}
		change(p)
		m, err := Prepare(context.Background(), p)
		if err != nil {
			t.Fatal(err)
		}
		s, err := m.Solve(context.Background(), []Press{{P: 1800, X: 700, Y: 300, SX: 300, SY: 200}})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	sag := func(s *Solution) float64 { return s.Sag(700, 300) }
	whole := solve(func(p *Panel) { p.Splices = []Splice{{true, 1, p.X0, p.X1, 0.4, 0.7}} })
	softer := solve(func(p *Panel) { p.Along[1].E *= 0.4; p.Along[1].G *= 0.7 })
	if a, b := sag(whole), sag(softer); math.Abs(a/b-1) > 1e-9 {
		t.Errorf("spliced over its whole length %.9f; as a softer rib %.9f", a, b)
	}
	none := solve(func(p *Panel) { p.Splices = []Splice{{true, 1, 600, 800, 1, 1}} })
	some := solve(func(p *Panel) { p.Splices = []Splice{{true, 1, 600, 800, 0.5, 1}} })
	more := solve(func(p *Panel) { p.Splices = []Splice{{true, 1, 600, 800, 0.5, 0.5}} })
	if !(sag(none) < sag(some) && sag(some) < sag(more)) {
		t.Errorf("sag %.6f without loss, %.6f with half of the bending, %.6f with half of both; want it to rise", sag(none), sag(some), sag(more))
	}
	moment := func(s *Solution) float64 {
		sum := 0.0
		for _, f := range s.Rib(true, 1) {
			if f.At > 600 && f.At < 800 {
				sum += f.M * f.L
			}
		}
		return sum
	}
	// The strain hardly changes, so the rib's own moment halves.
	if got := moment(some) / moment(none); math.Abs(got-0.5) > 0.05 {
		t.Errorf("the spliced stretch carries %.3f of its moment; want about a half", got)
	}
}
