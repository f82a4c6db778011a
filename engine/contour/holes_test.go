package contour

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A hump's outer band has a hole, cut into its outline; all other bands too.
func TestBandWithAHole(t *testing.T) {
	t.Parallel()
	g := field(31, 21, 60, 40, func(x, y float64) float64 {
		return math.Sin(math.Pi*x/60) * math.Sin(math.Pi*y/40)
	})
	bands := g.Bands([]float64{0.2, 0.6})
	for k, b := range bands {
		if len(b) != 1 {
			t.Errorf("band %d is %d polygons; want 1", k, len(b))
		}
	}
	middle, corner := Point{30.1, 20.2}, Point{0.7, 0.6}
	for k, want := range [][2]bool{{false, true}, {false, false}, {true, false}} {
		if got := [2]bool{inside(bands[k][0], middle), inside(bands[k][0], corner)}; got != want {
			t.Errorf("band %d holds middle and corner: %v; want %v", k, got, want)
		}
	}
}

// Two humps inside a plain: one polygon with two holes, and two of their own.
func TestTwoHoles(t *testing.T) {
	t.Parallel()
	g := field(41, 21, 40, 20, func(x, y float64) float64 {
		return max(4-math.Hypot(x-10, y-10), 4-math.Hypot(x-30, y-12), 0)
	})
	bands := g.Bands([]float64{1})
	if len(bands[0]) != 1 || len(bands[1]) != 2 {
		t.Fatalf("%d and %d polygons; want 1 and 2", len(bands[0]), len(bands[1]))
	}
	// The cut to the second hole begins at the first, 12.2 from the left edge at
	// y = 12 where the circle around (10, 10) is 2.2 wide to each side, not at the
	// edge: edges that are gone along both ways are cuts.
	edges := map[[2]Point]bool{}
	for i, b := range bands[0][0] {
		edges[[2]Point{bands[0][0][(i+len(bands[0][0])-1)%len(bands[0][0])], b}] = true
	}
	longest := 0.0
	for e := range edges {
		if edges[[2]Point{e[1], e[0]}] {
			longest = max(longest, distance(e[0], e[1]))
		}
	}
	if math.Abs(longest-14.8) > 0.2 {
		t.Errorf("the longest cut is %.2f; want from 12.2 to 27", longest)
	}
	for _, q := range []Point{{10, 10}, {30, 10}} {
		if inside(bands[0][0], q) {
			t.Errorf("%v lies in the plain", q)
		}
	}
	for _, q := range []Point{{20, 10}, {1, 10}, {39, 10}, {10, 2}} {
		if !inside(bands[0][0], q) {
			t.Errorf("%v does not lie in the plain", q)
		}
	}
}

// crossing returns two edges of p that cross each other by more than hair, an
// area, on all four sides; ok is false if there are none.
func crossing(p Polygon, hair float64) (a, b int, ok bool) {
	side := func(a, b, c Point) float64 { return Polygon{a, b, c}.Area() }
	n := len(p)
	for i := range n {
		for j := range i {
			a, b, c, d := p[i], p[(i+1)%n], p[j], p[(j+1)%n]
			apart := func(u, v float64) bool { return min(u, v) < -hair && max(u, v) > hair }
			if apart(side(a, b, c), side(a, b, d)) && apart(side(c, d, a), side(c, d, b)) {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

// No outline of a band crosses itself, cuts to holes included.
func TestOutlinesDoNotCross(t *testing.T) {
	t.Parallel()
	if _, _, ok := crossing(Polygon{{0, 0}, {1, 1}, {1, 0}, {0, 1}}, 1e-9); !ok {
		t.Fatal("a bow tie does not cross itself; the check is blind")
	}
	r := rand.New(rand.NewPCG(13, 14))
	cuts := 0
	for range 1000 {
		g := random(r)
		hair := 1e-9 * (g.X1 - g.X0) * (g.Y1 - g.Y0)
		for _, band := range g.Bands([]float64{-0.6, 0.3, 1, 2}) {
			for _, p := range band {
				seen := map[Point]int{}
				for _, q := range p {
					if seen[q]++; seen[q] == 2 {
						cuts++
					}
				}
				if i, j, ok := crossing(p, hair); ok {
					t.Fatalf("%+v: edges %d and %d of %v cross", g, i, j, p)
				}
			}
		}
	}
	if cuts < 200 {
		t.Errorf("only %d ends of cuts; the test lost its holes", cuts)
	}
}

// A single point at the level has no area, and no polygon.
func TestPeakAtTheLevel(t *testing.T) {
	t.Parallel()
	g := Grid{X1: 2, Y1: 2, NX: 3, NY: 3, Values: []float64{0, 0, 0, 0, 1, 0, 0, 0, 0}}
	bands := g.Bands([]float64{1})
	if len(bands[1]) != 0 || len(bands[0]) != 1 || math.Abs(total(bands[0])-4) > 1e-9 {
		t.Errorf("bands %v; want the whole square and nothing", bands)
	}
}
