package plate

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"
)

// A rib that is not glued makes the top softer, never stiffer, the more the
// longer the stretch; no shear runs through it there; the other ribs carry
// more. A rib at fault is not the others' fault.
func TestLooseRib(t *testing.T) {
	t.Parallel()
	solve := func(loose ...Loose) *Solution {
		p := demoPanel(2)
		p.Pads = []Pad{{X: 20, Y: 375, SX: 40, SY: 750, K: 10}, {X: 1780, Y: 375, SX: 40, SY: 750, K: 10}}
		p.Loose = loose
		m, err := Prepare(context.Background(), p)
		if err != nil {
			t.Fatal(err)
		}
		s, err := m.Solve(context.Background(), []Press{{P: 1800, X: 900, Y: 375, SX: 1800, SY: 750}})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	sag := func(s *Solution) float64 { return s.Sag(900, 375) }
	whole := solve()
	short := solve(Loose{Along: true, Rib: 2, From: 100, To: 300, Top: true})
	long := solve(Loose{Along: true, Rib: 2, From: 100, To: 900, Top: true, Bottom: true})
	if !(sag(whole) < sag(short) && sag(short) < sag(long)) {
		t.Errorf("sag glued %.5f, loose over 200 mm %.5f, over 800 mm %.5f; want it to rise", sag(whole), sag(short), sag(long))
	}
	if none := solve(Loose{Along: true, Rib: 2, From: 100, To: 900}); sag(none) != sag(whole) {
		t.Errorf("a stretch that is glued to both skins: sag %.6f; want %.6f", sag(none), sag(whole))
	}
	shear := func(s *Solution, rib int, from, to float64) float64 {
		sum := 0.0
		for _, f := range s.Rib(true, rib) {
			if f.At > from && f.At < to {
				sum += math.Abs(f.V) * f.L
			}
		}
		return sum
	}
	if v, w := shear(long, 2, 100, 900), shear(whole, 2, 100, 900); v > 0.01*w {
		t.Errorf("the loose rib carries %.4g of the glued one's %.4g", v, w)
	}
	if v, w := shear(long, 1, 100, 900), shear(whole, 1, 100, 900); v < 1.05*w {
		t.Errorf("its neighbour carries %.4g, before %.4g; want more", v, w)
	}
	// By symmetry a crosswise stretch on the left is one on the right.
	left := solve(Loose{Rib: 2, From: 50, To: 300, Bottom: true})
	right := solve(Loose{Rib: 8, From: 450, To: 700, Bottom: true})
	if d := math.Abs(sag(left)/sag(right) - 1); d > 1e-9 {
		t.Errorf("mirrored stretches: sag %.9f and %.9f", sag(left), sag(right))
	}
	if !(sag(left) > sag(whole)) {
		t.Errorf("a loose crosswise rib: sag %.6f, glued %.6f; want more", sag(left), sag(whole))
	}
}

// Whatever comes loose, the loads only go down farther: on one and the same mesh the
// work they do, mean sag times load with all that the supports give, never gets less, as
// the least of the energy only falls when stiffness is taken away; that holds on supports
// that lift too, and for screws that pull. The sag of one place may well get less: that
// is no sign of anything wrong.
func TestLooseRibsOnlyGive(t *testing.T) {
	t.Parallel()
	compared, rounds, higher := 0, uint64(60), 0
	if testing.Short() {
		rounds = 20
	}
	for seed := range rounds {
		r := rand.New(rand.NewPCG(seed, 77))
		p, loads := randomPanel(r)
		along := len(p.Along) > 0 && r.IntN(2) == 0
		n, lo, hi := len(p.Across), p.Y0, p.Y1
		if along {
			n, lo, hi = len(p.Along), p.X0, p.X1
		}
		if n == 0 {
			continue
		}
		for i := range p.Pads {
			p.Pads[i].Glued = seed%3 == 0
		}
		from := lo + (hi-lo)*0.6*r.Float64()
		l := Loose{Along: along, Rib: r.IntN(n), From: from, To: from + (hi-from)*(0.1+0.9*r.Float64()), Top: true, Bottom: true}
		q := *p
		q.Loose = []Loose{l}
		cut := 1
		if along {
			cut = 0
		}
		p.Cuts[cut] = []float64{l.From, l.To}
		var work, sag [2]float64
		for i, panel := range [2]*Panel{p, &q} {
			m, err := Prepare(context.Background(), panel)
			if err != nil {
				t.Fatalf("panel %d: %v", seed, err)
			}
			s, err := m.Solve(context.Background(), loads)
			if err != nil {
				break // it tips, and so does the other
			}
			work[i], sag[i] = s.Work(loads), s.Sag((p.X0+p.X1)/2, (p.Y0+p.Y1)/2)
		}
		if work[0] == 0 || work[1] == 0 {
			continue
		}
		compared++
		if sag[1] < sag[0] {
			higher++
		}
		if !(work[1] >= work[0]*(1-1e-8)) {
			t.Errorf("panel %d: the loads' work falls from %.9g to %.9g N·mm", seed, work[0], work[1])
		}
	}
	t.Logf("%d compared, at the middle of %d less sag", compared, higher)
	if compared < int(rounds)/2 {
		t.Errorf("only %d of %d panels compared", compared, rounds)
	}
}

// loosen opens one or both glue lines of all ribs from end to end.
func loosen(p *Panel, top, bottom bool) {
	for i := range p.Along {
		p.Loose = append(p.Loose, Loose{Along: true, Rib: i, From: p.X0, To: p.X1, Top: top, Bottom: bottom})
	}
	for i := range p.Across {
		p.Loose = append(p.Loose, Loose{Rib: i, From: p.Y0, To: p.Y1, Top: top, Bottom: bottom})
	}
}

// Ribs that are glued to one skin alone are Ts. The second method: ribs glued to both
// skins, of which one does not stretch or resist being stretched, are the same Ts, by
// the web's other terms. Both tell one sag, under an even load and under one that
// stands off the middle, whichever skin it is.
func TestRibsGluedToOneSkin(t *testing.T) {
	t.Parallel()
	for name, load := range map[string]Press{"even": {P: 1800, X: 900, Y: 375, SX: 1800, SY: 750}, "off the middle": {P: 900, X: 500, Y: 250, SX: 200, SY: 200}} {
		for _, top := range []bool{true, false} {
			sag := func(divide int, change func(p *Panel)) float64 {
				p := demoPanel(divide)
				p.Pads = []Pad{{X: 20, Y: 375, SX: 40, SY: 750, K: 10}, {X: 1780, Y: 375, SX: 40, SY: 750, K: 10}}
				change(p)
				return answer(t, p, load).Sag(700, 300)
			}
			for _, divide := range []int{1, 2} {
				tees := sag(divide, func(p *Panel) { loosen(p, top, !top) })
				soft := sag(divide, func(p *Panel) {
					l := &p.Top
					if !top {
						l = &p.Bottom
					}
					l.Ex, l.Ey, l.G, l.Nu = l.Ex*1e-6, l.Ey*1e-6, l.G*1e-6, 0
				})
				if off := tees/soft - 1; math.Abs(off) > 0.01 { // the meshes themselves differ by 3 %
					t.Errorf("%s, top %v, %d across a bay: %.4f off the second method", name, top, divide, off)
				}
				if glued, both := sag(divide, func(*Panel) {}), sag(divide, func(p *Panel) { loosen(p, true, true) }); !(glued < tees && tees < both) {
					t.Errorf("%s, top %v: glued %.4f, to one skin %.4f, to none %.4f; want them to rise", name, top, glued, tees, both)
				}
			}
		}
	}
}

// What Ts carry is in balance: the shear force of ribs and skins in a cross-section is
// what statics says, 1 N for every mm from the middle of a top that carries 1 N/mm; no
// shear flows through an open glue line.
func TestTeesCarryTheShear(t *testing.T) {
	t.Parallel()
	for _, top := range []bool{true, false} {
		p := demoPanel(2)
		p.Pads = []Pad{{X: 20, Y: 375, SX: 40, SY: 750, K: 10}, {X: 1780, Y: 375, SX: 40, SY: 750, K: 10}}
		loosen(p, top, !top)
		s := answer(t, p, Press{P: 1800, X: 900, Y: 375, SX: 1800, SY: 750})
		at := 0.0
		sum, flows := 0.0, 0.0
		for n := range p.Along {
			for _, f := range s.Rib(true, n) {
				if at == 0 && f.At > 400 {
					at = f.At
				}
				if f.At != at {
					continue
				}
				open, glued := f.FlowTop, f.FlowBottom
				if !top {
					open, glued = glued, open
				}
				if open != 0 {
					t.Errorf("top %v: %g N/mm flow through an open glue line", top, open)
				}
				flows += glued
				sum += f.V
			}
		}
		for _, skin := range []bool{true, false} {
			for _, c := range s.Skin(skin) {
				if math.Abs(c.X-at) < 1e-6 {
					sum += c.QX * c.SY
				}
			}
		}
		if want := at - 900; math.Abs(sum/want-1) > 1e-3 || !(flows < 0) { // w falls towards the middle
			t.Errorf("top %v: at %.0f mm ribs and skins carry %.1f N, by statics %.1f N; flow %.3f N/mm", top, at, sum, want, flows)
		}
	}
}
