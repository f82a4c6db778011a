package plate

import (
	"fmt"
	"math"
	"slices"
	"testing"
)

func sameLines(t *testing.T, what string, got, want []float64) {
	t.Helper()
	if !slices.EqualFunc(got, want, func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }) {
		t.Errorf("%s = %v; want %v", what, got, want)
	}
}

func TestLines(t *testing.T) {
	t.Parallel()
	at := func(b float64, at ...float64) (r []Rib) {
		for _, v := range at {
			r = append(r, Rib{v, Web{B: b}})
		}
		return r
	}
	for _, c := range []struct {
		name  string
		ribs  []Rib
		seams []float64
		n     int
		want  []float64
	}{
		{"none", nil, nil, 1, []float64{10, 110}},
		{"none, in four", nil, nil, 4, []float64{10, 35, 60, 85, 110}},
		{"flush with both edges", at(10, 15, 105), nil, 1, []float64{10, 20, 100, 110}},
		{"one in the middle, in two", at(20, 60), nil, 2, []float64{10, 30, 50, 70, 90, 110}},
		{"thin", at(0.5, 60), nil, 1, []float64{10, 60, 110}},
		{"thin, at the edges", at(0.5, 10, 110), nil, 1, []float64{10, 110}},
		{"hanging over the edge", at(20, 10, 110), nil, 1, []float64{10, 20, 100, 110}},
		{"outside", at(20, -50, 300), nil, 1, []float64{10, 110}},
		{"a hair off the edge", at(10, 15.3, 104.7), nil, 1, []float64{10, 20.3, 99.7, 110}},
		{"touching", at(20, 40, 60), nil, 1, []float64{10, 30, 50, 70, 110}},
		{"overlapping", at(20, 40, 50), nil, 1, []float64{10, 30, 40, 50, 60, 110}},
		{"seam just before a rib", at(20, 60), []float64{49.3}, 1, []float64{10, 48.8, 50, 70, 110}},
		{"seam just after a rib", at(20, 60), []float64{70.7}, 1, []float64{10, 50, 70, 71.2, 110}},
	} {
		sameLines(t, c.name, lines(10, 110, c.ribs, c.seams, c.n, nil), c.want)
	}
	// Of marks 0.4 mm beside them a rib's face and an edge stay, on either side.
	sameLines(t, "marks beside a rib", lines(10, 110, at(20, 60), nil, 1, nil, 10.4, 49.6, 30, 70.4, 109.6), []float64{10, 30, 50, 70, 110})
}

// By hand: a bay from 0 to 120 in four; what presses brings its edges, three
// elements beneath it and two or more beside it, and no element over 30 but by a
// tenth.
func TestBay(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name    string
		presses []stretch
		want    []float64
	}{
		{"nothing", nil, []float64{30, 60, 90}},
		{"elsewhere", []stretch{{-50, -20}, {130, 200}}, []float64{30, 60, 90}},
		{"over all of it", []stretch{{-50, 200}}, []float64{30, 60, 90}},
		{"in the middle", []stretch{{45, 75}}, []float64{22.5, 45, 55, 65, 75, 97.5}},
		{"over one end", []stretch{{-80, 30}}, []float64{10, 20, 30, 60, 90}},
		{"edge at the rib", []stretch{{4, 200}}, []float64{30, 60, 90}},
		{"two with one edge", []stretch{{20, 60}, {60, 100}}, []float64{10, 20, 20 + 40.0/3, 20 + 80.0/3, 60, 60 + 40.0/3, 60 + 80.0/3, 100, 110}},
	} {
		sameLines(t, c.name, bay(0, 120, 4, c.presses), c.want)
	}
}

// Where bays are few they get as many lines as three have, in halves of n.
func TestFewBays(t *testing.T) {
	t.Parallel()
	sameLines(t, "one bay in two", lines(0, 120, nil, nil, 2, []stretch{}), []float64{0, 20, 40, 60, 80, 100, 120})
	sameLines(t, "two bays in two", lines(0, 120, []Rib{{60, Web{B: 20}}}, nil, 2, []stretch{}),
		[]float64{0, 50.0 / 3, 100.0 / 3, 50, 70, 70 + 50.0/3, 70 + 100.0/3, 120})
	sameLines(t, "four bays in two", lines(0, 140, []Rib{{30, Web{B: 20}}, {70, Web{B: 20}}, {110, Web{B: 20}}}, nil, 2, []stretch{}),
		[]float64{0, 10, 20, 40, 50, 60, 80, 90, 100, 120, 130, 140})
}

// Only a panel that asks for it looks at what presses, not at what covers all of it,
// and at so many only.
func TestPresses(t *testing.T) {
	t.Parallel()
	p := &Panel{X0: 0, X1: 900, Y0: 0, Y1: 400, Pads: []Pad{{X: 30, Y: 200, SX: 60, SY: 400}}, Loads: []Press{{X: 450, Y: 390, SX: 100, SY: 50}, {X: 450, Y: 100, SX: 100, SY: 50}}}
	if x, y := p.presses(); x != nil || y != nil {
		t.Errorf("not asked for: %v, %v", x, y)
	}
	p.Closer = true
	x, y := p.presses()
	if !slices.Equal(x, []stretch{{0, 60}, {400, 500}}) || !slices.Equal(y, []stretch{{365, 400}, {75, 125}}) {
		t.Errorf("presses = %v, %v", x, y)
	}
	for i := range 50 {
		p.Loads = append(p.Loads, Press{X: float64(3 * i), Y: 200, SX: 20, SY: 20})
	}
	if x, _ := p.presses(); len(x) != mostPresses {
		t.Errorf("%d of 53 places get lines, want %d", len(x), mostPresses)
	}
}

func TestNearestAndCell(t *testing.T) {
	t.Parallel()
	l := []float64{0, 10, 30, 31}
	for _, c := range []struct {
		v             float64
		nearest, cell int
	}{{-5, 0, 0}, {0, 0, 0}, {4.9, 0, 0}, {5.1, 1, 0}, {10, 1, 0}, {10.1, 1, 1}, {19.9, 1, 1}, {20.1, 2, 1}, {30.4, 2, 2}, {30.6, 3, 2}, {31, 3, 2}, {99, 3, 2}} {
		if got := nearest(l, c.v); got != c.nearest {
			t.Errorf("nearest(%g) = %d; want %d", c.v, got, c.nearest)
		}
		if got := cell(l, c.v); got != c.cell {
			t.Errorf("cell(%g) = %d; want %d", c.v, got, c.cell)
		}
	}
}

// Every node has its own number, and nothing that shares an element is further
// apart than the band, whichever side is the longer.
func TestNodesAndBand(t *testing.T) {
	t.Parallel()
	for _, p := range []*Panel{smallPanel(), swap(smallPanel())} {
		g := newGrid(p)
		seen := make([]bool, g.nodes())
		for i := range g.xs {
			for j := range g.ys {
				if n := g.node(i, j); n < 0 || n >= len(seen) || seen[n] {
					t.Fatalf("node(%d, %d) = %d of %d, taken or outside", i, j, n, len(seen))
				} else {
					seen[n] = true
				}
			}
		}
		widest := 0
		for i := range len(g.xs) - 1 {
			for j := range len(g.ys) - 1 {
				for _, n := range []int{g.node(i+1, j), g.node(i, j+1), g.node(i+1, j+1)} {
					widest = max(widest, (n-g.node(i, j)+1)*perNode-1)
				}
			}
		}
		if g.band() != widest {
			t.Errorf("band %d; want %d, the widest element", g.band(), widest)
		}
	}
}

// Between nodes w is what the element bends along: exact for a rigid motion, a
// constant curvature and a twist, and along a side the cubic of [side.at],
// however soft the skin is.
func TestSpotInterpolates(t *testing.T) {
	t.Parallel()
	for _, roll := range []float64{1, 60, 1e6} {
		l := ply
		l.GRoll = roll
		m := skinAlone(l, irregularX, irregularY)
		w := func(x, y float64) float64 { return 3 + 0.1*x - 0.2*y + 1e-3*x*x - 2e-3*y*y + 5e-4*x*y }
		u := make([]float64, len(m.held))
		for i, x := range m.g.xs {
			for j, y := range m.g.ys {
				n := m.g.node(i, j) * perNode
				u[n+dofW], u[n+dofBX], u[n+dofBY] = w(x, y), -(0.1 + 2e-3*x + 5e-4*y), -(-0.2 - 4e-3*y + 5e-4*x)
			}
		}
		for _, at := range [][2]float64{{0, 0}, {240, 170}, {37, 95}, {11, 3}, {200, 101}} {
			near(t, fmt.Sprintf("w at %v", at), -m.down(u, at[0], at[1]), w(at[0], at[1]), 1e-9)
		}
		// any values at the ends of the side y = 0 from x 37 to 151
		for i, v := range [6]float64{0, 2.5, 0.01, 0, -1, 0.03} {
			u[m.g.node(1+i/3, 0)*perNode+[3]int{dofU, dofW, dofBX}[i%3]] = v
		}
		sx, _ := m.skins[0].sides(114, 1)
		for _, r := range []float64{0.1, 0.5, 0.8} {
			f := sx.at(r)
			want := f.w[1]*2.5 + f.w[2]*0.01 - f.w[4] + f.w[5]*0.03
			near(t, "w along a side", -m.down(u, 37+114*r, 0), want, 1e-9)
		}
	}
}

// The points of a footprint stand for its area on the panel, its middle and
// its second moment, however the grid cuts it.
func TestIntegrate(t *testing.T) {
	t.Parallel()
	m := skinAlone(ply, irregularX, irregularY)
	for _, c := range []struct{ x, y, sx, sy, x0, x1, y0, y1 float64 }{
		{100, 80, 60, 30, 70, 130, 65, 95},
		{120, 85, 240, 170, 0, 240, 0, 170},
		{0, 170, 50, 40, 0, 25, 150, 170},
		{151, 103, 2, 2, 150, 152, 102, 104},
	} {
		var area, mx, ixx float64
		m.integrate(c.x, c.y, c.sx, c.sy, func(x, y, a float64) { area, mx, ixx = area+a, mx+a*x, ixx+a*x*x*y })
		want := (c.x1 - c.x0) * (c.y1 - c.y0)
		nearRel(t, "area", area, want, 1e-12)
		nearRel(t, "first moment", mx, want*(c.x0+c.x1)/2, 1e-12)
		nearRel(t, "∫x²y", ixx, (cube(c.x1)-cube(c.x0))/3*(c.y1*c.y1-c.y0*c.y0)/2, 1e-12)
		l := Press{P: 1, X: c.x, Y: c.y, SX: c.sx, SY: c.sy}
		nearRel(t, "covered", m.covered(l), want, 1e-12)
		x, y := m.centre(l)
		nearRel(t, "centre x", x, (c.x0+c.x1)/2, 1e-12)
		nearRel(t, "centre y", y, (c.y0+c.y1)/2, 1e-12)
	}
}

func cube(v float64) float64 { return v * v * v }

// A small panel gets closer lines where it asks for them; one of so many bays that
// they would take too much does without, and is then as if it had not asked.
func TestCloserLinesHaveTheirPrice(t *testing.T) {
	t.Parallel()
	panel := func(ribs int) *Panel {
		p := &Panel{X1: 160 * float64(ribs), Y1: 80 * float64(ribs), Divide: 4, Loads: []Press{{X: 333, Y: 133, SX: 70, SY: 50}}}
		for i := range ribs {
			p.Across = append(p.Across, Rib{160 * (float64(i) + 0.5), Web{B: 12}})
			p.Along = append(p.Along, Rib{80 * (float64(i) + 0.5), Web{B: 12}})
		}
		return p
	}
	for _, c := range []struct {
		ribs   int
		closer bool
	}{{4, true}, {14, false}} {
		p := panel(c.ribs)
		plain := newGrid(p)
		p.Closer = true
		closer := newGrid(p)
		if more := closer.nodes() > plain.nodes(); more != c.closer {
			t.Errorf("%d ribs each way: %d nodes, closer %d; want more: %v", c.ribs, plain.nodes(), closer.nodes(), c.closer)
		}
	}
}
