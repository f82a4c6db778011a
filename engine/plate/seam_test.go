package plate

import (
	"context"
	"testing"
)

// A seam in the bottom skin at mid-span adds about a fifth to the sag of a top
// on rails, one near a support next to nothing (range found with solids,
// derived); it carries no tension, and the other skin and both sides far away
// hardly know.
func TestSeamOpens(t *testing.T) {
	t.Parallel()
	solve := func(seams ...Seam) (float64, *Solution) {
		p := demoPanel(2)
		p.Pads = []Pad{{X: 20, Y: 375, SX: 40, SY: 750, K: 10}, {X: 1780, Y: 375, SX: 40, SY: 750, K: 10}}
		p.Seams = seams
		m, err := Prepare(context.Background(), p)
		if err != nil {
			t.Fatal(err)
		}
		s, err := m.Solve(context.Background(), []Press{{P: 1800, X: 900, Y: 375, SX: 1800, SY: 750}})
		if err != nil {
			t.Fatal(err)
		}
		return s.Sag(900, 375), s
	}
	whole, _ := solve()
	middle, s := solve(Seam{At: 815}) // between two crosswise ribs
	if r := middle / whole; r < 1.08 || r > 1.35 {
		t.Errorf("seam near mid-span: sag × %.3f, want about 1.2", r)
	}
	end, _ := solve(Seam{At: 100})
	if r := end / whole; r < 1 || r > 1.03 {
		t.Errorf("seam near a rail: sag × %.3f, want hardly more than 1", r)
	}
	top, _ := solve(Seam{Top: true, At: 815})
	if top < whole {
		t.Errorf("seam in the top skin: sag %.4f, without %.4f", top, whole)
	}
	seen := false
	for _, c := range s.Skin(false) {
		if c.X > 814.4 && c.X < 815.6 {
			seen = true
			if c.NX > 0.5 || c.NX < -0.5 {
				t.Errorf("the open seam carries %.3f N/mm at y %.0f", c.NX, c.Y)
			}
		}
	}
	if !seen {
		t.Error("no cell lies in the seam")
	}
}

// A seam over a rib that carries across lies between an open one and none, in
// either skin and both ways; what it carries takes no force away.
func TestBridgedSeam(t *testing.T) {
	t.Parallel()
	j := Joint{Spacing: 160, T: 9, E: 7000, EZ: 600, GRoll: 70, B: 12, Height: 80, EUp: 7500, EThrough: 600, GRib: 70}
	over, err := j.Bridge(give(t, j))
	if err != nil {
		t.Fatal(err)
	}
	for _, along := range []bool{false, true} {
		for _, top := range []bool{false, true} {
			p := demoPanel(2)
			ribs := p.Across
			if along {
				ribs = p.Along
				p.Pads = []Pad{{X: 900, Y: 20, SX: 1800, SY: 40, K: 10}, {X: 900, Y: 730, SX: 1800, SY: 40, K: 10}}
			} else {
				p.Pads = []Pad{{X: 20, Y: 375, SX: 40, SY: 750, K: 10}, {X: 1780, Y: 375, SX: 40, SY: 750, K: 10}}
			}
			at := ribs[len(ribs)/2].At
			load := Press{P: 1800, X: 900, Y: 375, SX: 1800, SY: 750}
			sag := func(seams ...Seam) float64 {
				p.Seams = seams
				s := answer(t, p, load)
				checkBalance(t, "seam", p, s, []Press{load})
				return s.Sag(900, 375)
			}
			whole, open, tied := sag(), sag(Seam{Top: top, AlongX: along, At: at}), sag(Seam{Top: top, AlongX: along, At: at, Over: over})
			if !(whole < tied && tied < open) {
				t.Errorf("along %v, top %v: whole %.4f, tied %.4f, open %.4f; want them in this order", along, top, whole, tied, open)
			}
		}
	}
}
