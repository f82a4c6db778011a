package plate

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"sync"
	"testing"
)

// randomPanel makes a panel with everything free, its pads and loads; often a
// load hangs far out.
func randomPanel(r *rand.Rand) (*Panel, []Press) {
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	layer := func() Layer {
		e := in(1500, 14000)
		l := Layer{T: in(3, 25), Ex: e, Ey: e * in(0.2, 1), G: in(200, 1500), GRoll: in(30, 1500), Nu: in(0, 0.4)}
		l.EBendX, l.EBendY = l.Ex*in(0.7, 1.5), l.Ey*in(0.7, 1.5)
		return l
	}
	p := &Panel{X0: in(-20, 20), Y0: in(-20, 20), Top: layer(), Bottom: layer(), Height: in(8, 160), Divide: 1 + r.IntN(2)}
	p.X1, p.Y1 = p.X0+in(150, 2500), p.Y0+in(100, 1300)
	web := func() Web {
		return Web{B: in(0.3, 30), E: in(500, 14000), EUp: in(200, 9000), G: in(50, 1200), GRoll: in(20, 1200), Own: in(0.3, 1), Height: p.Height}
	}
	ribs := func(lo, hi float64) (out []Rib) {
		n := r.IntN(5)
		for i := range n {
			w := web()
			w.B = min(w.B, (hi-lo)/float64(n)/2)
			out = append(out, Rib{lo + (hi-lo)*(float64(i)+0.5)/float64(n), w})
		}
		if n > 1 && r.IntN(2) == 0 { // flush with the edges
			out[0].At, out[n-1].At = lo+out[0].B/2, hi-out[n-1].B/2
		}
		return out
	}
	p.Along, p.Across = ribs(p.Y0, p.Y1), ribs(p.X0, p.X1)
	if r.IntN(2) == 0 || len(p.Along)+len(p.Across) == 0 { // something must join the skins
		for s := Left; s <= Back; s++ {
			p.Rims = append(p.Rims, Rim{s, web()})
		}
	}
	atX := func(f float64) float64 { return p.X0 + f*(p.X1-p.X0) }
	atY := func(f float64) float64 { return p.Y0 + f*(p.Y1-p.Y0) }
	if r.IntN(3) == 0 {
		x, y := in(0, 0.7), in(0, 0.7)
		p.Fills = append(p.Fills, Fill{X0: atX(x), X1: atX(x + 0.3), Y0: atY(y), Y1: atY(y + 0.3),
			Ex: in(100, 14000), Ey: in(100, 2000), EUp: in(100, 14000), G: in(50, 900), Gz: in(50, 900)})
	}
	pad := func(x, y, sx, sy float64) {
		p.Pads = append(p.Pads, Pad{X: x, Y: y, SX: sx, SY: sy, K: math.Pow(10, in(-1, 1.3))})
	}
	switch r.IntN(4) {
	case 0: // legs
		for _, x := range [2]float64{in(0, 0.3), in(0.7, 1)} {
			for _, y := range [2]float64{in(0, 0.3), in(0.7, 1)} {
				pad(atX(x), atY(y), in(20, 100), in(20, 100))
			}
		}
	case 1: // rails
		pad(atX(in(0, 0.4)), atY(0.5), in(10, 60), 2*(p.Y1-p.Y0))
		pad(atX(in(0.6, 1)), atY(0.5), in(10, 60), 2*(p.Y1-p.Y0))
	case 2: // three feet
		pad(atX(in(0, 0.4)), atY(in(0, 0.4)), in(20, 100), in(20, 100))
		pad(atX(in(0.6, 1)), atY(in(0, 0.4)), in(20, 100), in(20, 100))
		pad(atX(in(0.3, 0.7)), atY(in(0.6, 1)), in(20, 100), in(20, 100))
	default: // any
		for range 1 + r.IntN(5) {
			pad(atX(in(0, 1)), atY(in(0, 1)), in(20, 400), in(20, 400))
		}
	}
	loads := []Press{{P: in(20, 900), X: atX(0.5), Y: atY(0.5), SX: p.X1 - p.X0, SY: p.Y1 - p.Y0}}
	for range r.IntN(4) {
		loads = append(loads, Press{P: in(1, 2000), X: atX(in(0, 1)), Y: atY(in(0, 1)), SX: in(1, 400), SY: in(1, 400)})
		if r.IntN(3) == 0 { // and a couple
			l := &loads[len(loads)-1]
			l.TX, l.TY = in(-3e4, 3e4), in(-3e4, 3e4)
		}
	}
	return p, loads
}

// reach returns by how much the loads' resultant lies within the outline of the
// pads' points, negative outside: the least over all directions of how far the
// pads reach beyond it, by half degrees and then closer around the least. It
// shares no code with the engine's own outline.
func reach(m *Model, r [3]float64) float64 {
	beyond := func(degrees float64) float64 {
		s, c := math.Sincos(degrees * math.Pi / 180)
		far := math.Inf(-1)
		for j := range m.springs {
			far = math.Max(far, c*m.springs[j].x+s*m.springs[j].y)
		}
		return far - (c*r[1]+s*r[2])/r[0]
	}
	best := 0.0
	for i := range 720 {
		if a := float64(i) / 2; beyond(a) < beyond(best) {
			best = a
		}
	}
	lo, hi := best-0.5, best+0.5
	for range 60 {
		if a, b := lo+(hi-lo)/3, hi-(hi-lo)/3; beyond(a) < beyond(b) {
			hi = b
		} else {
			lo = a
		}
	}
	return beyond((lo + hi) / 2)
}

// Random panels: an answer exactly when statics has one, in balance, nothing
// pulling, nothing above the gap it should have, energy equal to the loads'
// work, no NaN anywhere.
func TestRandomPanels(t *testing.T) {
	t.Parallel()
	stood, tipped, lifted := 0, 0, 0
	rounds := uint64(500)
	if testing.Short() { // the race detector is content with less
		rounds = 50
	}
	for seed := range rounds {
		p, loads := randomPanel(rand.New(rand.NewPCG(seed, 41)))
		name := fmt.Sprintf("panel %d", seed)
		m, err := Prepare(context.Background(), p)
		if len(p.Pads) == 0 || err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		s, err := m.Solve(context.Background(), loads)
		if d := reach(m, resultant(p, nil, loads)); d < 0 {
			tipped++
			if !errors.Is(err, ErrLoose) {
				t.Errorf("%s: error %v with the resultant %g mm outside the pads; want ErrLoose", name, err, -d)
			}
			continue
		} else if err != nil {
			t.Errorf("%s: %v with the resultant %g mm inside the pads", name, err, d)
			continue
		}
		stood++
		checkBalance(t, name, p, s, loads)
		checkTouch(t, name, s)
		for i := range s.lifted {
			if s.lifted[i] {
				lifted++
				break
			}
		}
		sum := 0.0
		for _, e := range energyOf(t, s) {
			if !(e >= -1e-9*s.Work(loads)) {
				t.Errorf("%s: an energy of %g", name, e)
			}
			sum += e
		}
		nearRel(t, name+": energy against work", sum, s.Work(loads), 1e-4) // as near as thin strips over ribs leave it
		for _, v := range s.u {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%s: displacement %g", name, v)
			}
		}
	}
	t.Logf("%d stood, in %d of them something lifted, %d tipped", stood, lifted, tipped)
	if n := int(rounds); stood < n*6/10 || lifted < n/10 || tipped < n/25 {
		t.Errorf("%d stood, %d lifted, %d tipped; want a mix of all", stood, lifted, tipped)
	}
}

// The same bits every time, whatever the number of processors; not parallel,
// for it sets that number.
func TestDeterminism(t *testing.T) {
	run := func(procs int) []float64 {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(procs))
		p := demoPanel(2)
		s := answer(t, p, Press{P: 490, X: 850, Y: 300, SX: 300, SY: 250})
		f, _ := s.Reactions()
		return append(f, append(s.u, s.Sag(500, 100), s.Down(3, 3))...)
	}
	want := run(1)
	for _, procs := range []int{1, 2, 7} {
		got := run(procs)
		for i := range want {
			if math.Float64bits(got[i]) != math.Float64bits(want[i]) {
				t.Fatalf("GOMAXPROCS %d: value %d = %v; want %v, bit for bit", procs, i, got[i], want[i])
			}
		}
	}
}

// One model, many goroutines: every one gets what it would get alone.
func TestConcurrentSolve(t *testing.T) {
	t.Parallel()
	m := prepare(t, smallPanel())
	loads := func(i int) []Press {
		return []Press{{P: 300, X: 370, Y: 220, SX: 720, SY: 420}, {P: float64(100 + 40*i), X: 100 + 70*float64(i), Y: 230, SX: 40, SY: 40}}
	}
	const n = 8
	var want [n][]float64
	for i := range n {
		s, err := m.Solve(context.Background(), loads(i))
		if err != nil {
			t.Fatal(err)
		}
		want[i] = s.u
	}
	var wait sync.WaitGroup
	var got [n][]float64
	for i := range n {
		wait.Go(func() {
			if s, err := m.Solve(context.Background(), loads(i)); err == nil {
				s.Reactions()
				got[i] = s.u
			}
		})
	}
	wait.Wait()
	for i := range n {
		if len(got[i]) != len(want[i]) {
			t.Fatalf("load %d: no answer", i)
		}
		for j := range got[i] {
			if got[i][j] != want[i][j] {
				t.Fatalf("load %d: displacement %d = %v; want %v", i, j, got[i][j], want[i][j])
			}
		}
	}
}

func TestCancelled(t *testing.T) {
	t.Parallel()
	ctx, stop := context.WithCancel(context.Background())
	m, err := Prepare(ctx, smallPanel())
	if err != nil {
		t.Fatal(err)
	}
	stop()
	if _, err := Prepare(ctx, smallPanel()); !errors.Is(err, context.Canceled) {
		t.Errorf("Prepare after the end of its context: %v; want context.Canceled", err)
	}
	if _, err := m.Solve(ctx, []Press{{P: 1, X: 370, Y: 220, SX: 10, SY: 10}}); !errors.Is(err, context.Canceled) {
		t.Errorf("Solve after the end of its context: %v; want context.Canceled", err)
	}
}

// Loads that miss the panel, have no size or no number.
func TestOddLoads(t *testing.T) {
	t.Parallel()
	m := prepare(t, smallPanel())
	for _, l := range []Press{{P: 1, X: -300, Y: 220, SX: 50, SY: 50}, {P: 1, X: 370, Y: 900, SX: 50, SY: 50}, {P: 1, X: math.NaN(), Y: 220, SX: 50, SY: 50}, {P: 1, X: 370, Y: 220, SX: math.NaN(), SY: 50}} {
		if _, err := m.Solve(context.Background(), []Press{l}); !errors.Is(err, ErrBeside) {
			t.Errorf("load %+v: error %v; want ErrBeside", l, err)
		}
	}
	if _, err := m.Solve(context.Background(), []Press{{P: math.NaN(), X: 370, Y: 220, SX: 50, SY: 50}}); !errors.Is(err, ErrLoose) {
		t.Errorf("a load of NaN: error %v; want ErrLoose", err)
	}
	s, err := m.Solve(context.Background(), nil)
	if err != nil || s.Down(100, 100) != 0 {
		t.Errorf("no load at all: %v; want no sag", err)
	}
	// Upwards: the panel flies.
	if _, err := m.Solve(context.Background(), []Press{{P: -1, X: 370, Y: 220, SX: 50, SY: 50}}); !errors.Is(err, ErrLoose) {
		t.Errorf("a load upwards: error %v; want ErrLoose", err)
	}
	// A point load is the limit of a small patch.
	point, err := m.Solve(context.Background(), []Press{{P: 100, X: 370, Y: 220, SX: 0, SY: 0}})
	if err != nil {
		t.Fatal(err)
	}
	patch, err := m.Solve(context.Background(), []Press{{P: 100, X: 370, Y: 220, SX: 0.5, SY: 0.5}})
	if err != nil {
		t.Fatal(err)
	}
	nearRel(t, "sag under a point load", point.Sag(370, 220), patch.Sag(370, 220), 1e-4)
	line, err := m.Solve(context.Background(), []Press{{P: 100, X: 370, Y: 220, SX: 0, SY: 300}})
	if err != nil {
		t.Fatal(err)
	}
	nearRel(t, "sum of reactions under a line load", resultant(m.sys.p, line, nil)[0], 100, 1e-9)
}

// jointOf is the joint of a rib with a skin, ribs 200 mm apart.
func jointOf(t *testing.T, l Layer, w Web) Give {
	return give(t, Joint{Spacing: 200, T: l.T, E: l.BendAcross(), EZ: l.EZ, GRoll: l.GRoll, B: w.B, Height: w.Height, EUp: w.EUp, EThrough: 500, GRib: w.GRoll})
}

// Finer meshes of a whole panel close in on one answer, in the middle and at an
// edge, with an error that falls like h², the rate of the elements; the top
// skin is a soft ply. Where the bottom skin is as soft it yields over the rails
// within √(D/S), here 40 mm, which only fine meshes see: there only the sag from
// the middle to a place clear of the rails is looked at, and the steps get
// smaller, no more.
func TestPanelConverges(t *testing.T) {
	t.Parallel()
	w := Web{B: 12, E: 9300, EUp: 8000, G: 540, GRoll: 60, Own: 0.72, Height: 80}
	for _, gRoll := range []float64{1e4, 60} {
		top, bottom := ply, ply
		bottom.GRoll = gRoll
		w.Joints = [2]Give{jointOf(t, top, w), jointOf(t, bottom, w)}
		p := glued(&Panel{X1: 600, Y1: 400, Top: top, Bottom: bottom, Height: 80,
			Along: []Rib{{6, w}, {200, w}, {394, w}}, Across: []Rib{{6, w}, {300, w}, {594, w}},
			Pads: []Pad{{X: 20, Y: 200, SX: 40, SY: 400, K: 10}, {X: 580, Y: 200, SX: 40, SY: 400, K: 10}}})
		places := [2][2]float64{{300, 200}, {300, 400}}
		var v [2][4]float64
		for i, n := range [4]int{2, 4, 8, 16} {
			p.Divide = n
			s := answer(t, p, Press{P: 800, X: 300, Y: 200, SX: 600, SY: 400})
			for k, at := range places {
				v[k][i] = s.Sag(at[0], at[1])
				if gRoll < 1e3 {
					v[k][i] -= s.Sag(at[0]-180, at[1])
				}
			}
		}
		for k, at := range places {
			name := fmt.Sprintf("Grz %g, sag at %v on meshes 2, 4, 8, 16: %.5f", gRoll, at, v[k])
			if gRoll > 1e3 {
				_, order := richardson([3]float64(v[k][1:]))
				near(t, name+": order", order, 2, 0.3)
			}
			if b, c := v[k][2]-v[k][1], v[k][3]-v[k][2]; !(b > c && c > 0 && c < 0.025*v[k][3]) {
				t.Errorf("%s: last steps %g, %g; want the last smaller", name, b, c)
			}
		}
	}
}

// Ribs that touch or overlap have no business in a panel, but must not reach
// beyond the stored band.
func TestRibsThatOverlap(t *testing.T) {
	t.Parallel()
	w := Web{B: 30, E: 9000, EUp: 8000, G: 500, GRoll: 60, Own: 1, Height: 80}
	loads := []Press{{P: 500, X: 370, Y: 220, SX: 720, SY: 420}}
	for _, at := range [][]float64{{200, 205}, {200, 205, 210, 215}, {200, 230}, {200, 200}} {
		for _, ways := range []string{"along", "across", "both"} {
			p := smallPanel()
			p.Fills = nil
			var ribs []Rib
			for _, v := range at {
				ribs = append(ribs, Rib{v, w})
			}
			if ways != "across" {
				p.Along = ribs
			}
			if ways != "along" {
				p.Across = ribs
			}
			checkBalance(t, fmt.Sprint("ribs ", ways, " at ", at), p, answer(t, p, loads...), loads)
		}
	}
}

// A few feet of any size and a load whose place lies as little as 10 µm within
// their outline: statics has an answer and the search finds it, though on the
// way the points in touch may let the panel turn over.
func TestOnTheBrink(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(9, 3))
	stood, rounds := 0, 250
	if testing.Short() {
		rounds = 25
	}
	for i := range rounds {
		p := smallPanel()
		p.Fills, p.Rims, p.Pads = nil, nil, nil
		p.Along, p.Across = p.Along[:1+r.IntN(3)], p.Across[:1+r.IntN(4)]
		for range 1 + r.IntN(3) {
			p.Pads = append(p.Pads, Pad{X: 50 + 600*r.Float64(), Y: 50 + 330*r.Float64(),
				SX: 3 + 200*r.Float64()*r.Float64(), SY: 3 + 100*r.Float64(), K: math.Pow(10, -1+2.5*r.Float64())})
		}
		m := prepare(t, p)
		// mostly a place on one side of the outline, a share e off it
		any := func() point { return m.outline[r.IntN(len(m.outline))] }
		a, b, c, e, q := any(), any(), any(), math.Pow(10, -1-4*r.Float64()), r.Float64()
		loads := []Press{{P: 300, X: (1-e)*(a.x*q+b.x*(1-q)) + e*c.x, Y: (1-e)*(a.y*q+b.y*(1-q)) + e*c.y, SX: 1, SY: 1}}
		if reach(m, resultant(p, nil, loads)) < 0.01 {
			continue
		}
		stood++
		name := fmt.Sprintf("brink %d", i)
		s, err := m.Solve(context.Background(), loads)
		if err != nil {
			t.Errorf("%s: %v with the resultant %g mm within the pads", name, err, reach(m, resultant(p, nil, loads)))
			continue
		}
		checkBalance(t, name, p, s, loads)
		checkTouch(t, name, s)
	}
	if stood < rounds/4 {
		t.Errorf("only %d panels looked at", stood)
	}
}
