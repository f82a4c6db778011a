package contour

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// field returns the grid of f over [0, w] by [0, h] with nx by ny points.
func field(nx, ny int, w, h float64, f func(x, y float64) float64) Grid {
	g := Grid{X1: w, Y1: h, NX: nx, NY: ny, Values: make([]float64, nx*ny)}
	for n := range g.Values {
		p := g.node(n)
		g.Values[n] = f(p.X, p.Y)
	}
	return g
}

// random returns a grid of random size and place; half of them have values
// from a few whole numbers, so that many corners lie exactly at a level.
func random(r *rand.Rand) Grid {
	x, y := r.Float64()*100-50, r.Float64()*100-50
	g := Grid{X0: x, X1: x + 1 + 2000*r.Float64(), Y0: y, Y1: y + 1 + 900*r.Float64(), NX: 2 + r.IntN(9), NY: 2 + r.IntN(9)}
	coarse := r.IntN(2) == 0
	for range g.NX * g.NY {
		v := r.NormFloat64()
		if coarse {
			v = float64(r.IntN(4))
		}
		g.Values = append(g.Values, v)
	}
	return g
}

func total(polygons []Polygon) float64 {
	sum := 0.0
	for _, p := range polygons {
		sum += p.Area()
	}
	return sum
}

// inside reports whether q lies in the polygon, odd-even rule.
func inside(p Polygon, q Point) bool {
	in := false
	for i, b := range p {
		a := p[(i+len(p)-1)%len(p)]
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(b.X-a.X)*(q.Y-a.Y)/(b.Y-a.Y) {
			in = !in
		}
	}
	return in
}

// cellArea is the area at or above a level in one cell by the textbook's
// polygons of marching squares, corner by corner: a second method, which knows
// nothing of outlines that run through many cells.
func cellArea(v [4]float64, w, h, level float64) float64 {
	unit := [4]Point{{0, 0}, {w, 0}, {w, h}, {0, h}}
	mean := (v[0] + v[1] + v[2] + v[3]) / 4
	cut := func(a, b int) Point {
		s := (level - v[a]) / (v[b] - v[a])
		return Point{unit[a].X + s*(unit[b].X-unit[a].X), unit[a].Y + s*(unit[b].Y-unit[a].Y)}
	}
	above := func(k int) bool { return v[k] >= level }
	if above(0) == above(2) && above(1) == above(3) && above(0) != above(1) { // saddle
		triangles, high := 0.0, mean >= level
		for k := range 4 {
			if above(k) != high { // cut off the corners that are not joined
				before, after := (k+3)%4, (k+1)%4
				triangles += Polygon{cut(before, k), unit[k], cut(k, after)}.Area()
			}
		}
		if high {
			return w*h - triangles
		}
		return triangles
	}
	var p Polygon
	for k := range 4 {
		next := (k + 1) % 4
		if above(k) {
			p = append(p, unit[k])
		}
		if above(k) != above(next) {
			p = append(p, cut(k, next))
		}
	}
	return p.Area()
}

func areaAbove(g Grid, level float64) float64 {
	sum := 0.0
	w, h := (g.X1-g.X0)/float64(g.NX-1), (g.Y1-g.Y0)/float64(g.NY-1)
	for j := range g.NY - 1 {
		for i := range g.NX - 1 {
			n := j*g.NX + i
			sum += cellArea([4]float64{g.Values[n], g.Values[n+1], g.Values[n+1+g.NX], g.Values[n+g.NX]}, w, h, level)
		}
	}
	return sum
}

// The bands of 2000 random fields cover the grid once: each has the area that
// the second method finds, all together that of the grid, and every random
// place lies in exactly one.
func TestBandsCoverOnce(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		g := random(r)
		levels := []float64{-0.7, 0, 1, 2, 2.5}[r.IntN(3):]
		bands := g.Bands(levels)
		if len(bands) != len(levels)+1 {
			t.Fatalf("%d bands for %d levels", len(bands), len(levels))
		}
		whole := (g.X1 - g.X0) * (g.Y1 - g.Y0)
		sum := 0.0
		for k, b := range bands {
			want := whole
			if k > 0 {
				want = areaAbove(g, levels[k-1])
			}
			if k < len(levels) {
				want -= areaAbove(g, levels[k])
			}
			if got := total(b); math.Abs(got-want) > 1e-9*whole {
				t.Fatalf("%+v: band %d of %v has area %v; want %v", g, k, levels, got, want)
			}
			sum += total(b)
		}
		if math.Abs(sum-whole) > 1e-9*whole {
			t.Fatalf("%+v: the bands have %v together; want %v", g, sum, whole)
		}
		for range 20 {
			q := Point{g.X0 + r.Float64()*(g.X1-g.X0), g.Y0 + r.Float64()*(g.Y1-g.Y0)}
			in := 0
			for _, b := range bands {
				for _, p := range b {
					if inside(p, q) {
						in++
					}
				}
			}
			if in != 1 {
				t.Fatalf("%+v: %v lies in %d bands of %v; want 1", g, q, in, levels)
			}
		}
	}
}

// Above is the sum of the bands from its level up.
func TestAboveIsTheSumOfBands(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		g := random(r)
		levels := []float64{0.5, 1, 1.5}
		bands := g.Bands(levels)
		sum, whole := total(bands[3]), (g.X1-g.X0)*(g.Y1-g.Y0)
		for k := 2; k >= 0; k-- {
			if got := total(g.Above(levels[k])); math.Abs(got-sum) > 1e-9*whole {
				t.Fatalf("%+v: area above %v = %v; want %v", g, levels[k], got, sum)
			}
			sum += total(bands[k])
		}
	}
}

// value returns what the grid has at p, which lies on a grid line: straight
// between the two points beside it. ok is false anywhere else.
func value(g Grid, p Point) (v float64, ok bool) {
	u, w := (p.X-g.X0)/(g.X1-g.X0)*float64(g.NX-1), (p.Y-g.Y0)/(g.Y1-g.Y0)*float64(g.NY-1)
	onX, onY := math.Abs(u-math.Round(u)) < 1e-9, math.Abs(w-math.Round(w)) < 1e-9
	mix := func(a, b int, s float64) float64 { return g.Values[a]*(1-s) + g.Values[b]*s }
	switch {
	case onX && onY:
		return g.Values[int(math.Round(w))*g.NX+int(math.Round(u))], true
	case onX:
		n := int(w)*g.NX + int(math.Round(u))
		return mix(n, n+g.NX, w-math.Floor(w)), true
	case onY:
		n := int(math.Round(w))*g.NX + int(u)
		return mix(n, n+1, u-math.Floor(u)), true
	}
	return 0, false
}

// Every point of a contour line lies on a grid line and has the level's value
// there; open lines end at the grid's edge, and no line is empty.
func TestLinesHaveTheirLevel(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 6))
	points := 0
	for range 1000 {
		g := random(r)
		for _, level := range []float64{-0.4, 0.5, 1, 2} {
			for _, l := range g.Lines(level) {
				if len(l.Points) < 2 || !(l.Length() > 0) {
					t.Fatalf("%+v: a line of %d points", g, len(l.Points))
				}
				for _, p := range l.Points {
					points++
					if v, ok := value(g, p); !ok || math.Abs(v-level) > 1e-6 {
						t.Fatalf("%+v: %v on the line of %v has %v, on a grid line: %t", g, p, level, v, ok)
					}
				}
				for _, p := range []Point{l.Points[0], l.Points[len(l.Points)-1]} {
					if edge := p.X == g.X0 || p.X == g.X1 || p.Y == g.Y0 || p.Y == g.Y1; !l.Closed && !edge {
						t.Fatalf("%+v: the open line of %v ends at %v", g, level, p)
					}
				}
			}
		}
	}
	if points < 10_000 {
		t.Errorf("only %d points were looked at; the test lost its lines", points)
	}
}

// On a plane 3x + 5y the contours are straight: x = (level - 5y)/3.
func TestPlaneHasStraightLines(t *testing.T) {
	t.Parallel()
	g := field(14, 9, 130, 40, func(x, y float64) float64 { return 3*x + 5*y })
	for _, level := range []float64{11, 200, 313.7, 580} {
		lines := g.Lines(level)
		if len(lines) != 1 || lines[0].Closed {
			t.Fatalf("%d lines at %v; want one open", len(lines), level)
		}
		for _, p := range lines[0].Points {
			if got := 3*p.X + 5*p.Y; math.Abs(got-level) > 1e-9 {
				t.Errorf("level %v passes %v, where the plane is at %v", level, p, got)
			}
		}
		if s := lines[0].Simplify(1e-8); len(s.Points) != 2 {
			t.Errorf("level %v keeps %d points of a straight line", level, len(s.Points))
		}
		// The higher values, to the right here, are on the line's left: it runs
		// down.
		if p := lines[0].Points; !(p[0].Y > p[len(p)-1].Y) {
			t.Errorf("level %v runs from %v to %v; want downward", level, p[0], p[len(p)-1])
		}
	}
	// By hand: below 60 is the triangle with the legs 20 and 12.
	if got := total(g.Bands([]float64{60})[0]); math.Abs(got-120) > 1e-9 {
		t.Errorf("area below 60 = %v; want 120", got)
	}
}

// radiusError is how far the loop of x² + y² at 1 is from the circle, at most.
func radiusError(t *testing.T, n int) float64 {
	t.Helper()
	g := field(n, n, 3.1, 3.1, func(x, y float64) float64 { return (x-1.5)*(x-1.5) + (y-1.6)*(y-1.6) })
	lines := g.Lines(1)
	if len(lines) != 1 || !lines[0].Closed {
		t.Fatalf("%d lines on a grid of %d; want one closed", len(lines), n)
	}
	worst := 0.0
	for _, p := range lines[0].Points {
		worst = max(worst, math.Abs(math.Hypot(p.X-1.5, p.Y-1.6)-1))
	}
	// Lower inside: the higher values are on the left of a clockwise loop.
	if a := Polygon(lines[0].Points).Area(); !(a < 0) || math.Abs(a+math.Pi) > 12*worst {
		t.Errorf("the loop has area %v; want -π", a)
	}
	return worst
}

// The error of the radius falls with h²: by linear interpolation of x², second
// derivative 2, at most h²/4 in value, h²/8 in radius.
func TestBowlHasRoundLoops(t *testing.T) {
	t.Parallel()
	for _, n := range []int{16, 32, 64, 128} {
		h := 3.1 / float64(n-1)
		if e := radiusError(t, n); e > h*h/8*1.05 || e < h*h/80 {
			t.Errorf("grid of %d: the radius is off by %.3g; want about h²/8 = %.3g at most", n, e, h*h/8)
		}
	}
}

// A cell with two high corners at a diagonal: the mean joins the high ones
// where it is above the level.
func TestSaddle(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name     string
		v        [4]float64 // row by row
		polygons int
	}{
		{"mean above", [4]float64{4, 0, 0, 3}, 1}, // mean 1.75, level 1
		{"mean below", [4]float64{2, 0, 0, 1.5}, 2},
		{"mean at the level", [4]float64{2, 0, 0, 2}, 1},
	} {
		g := Grid{X1: 1, Y1: 1, NX: 2, NY: 2, Values: c.v[:]}
		if got := len(g.Above(1)); got != c.polygons {
			t.Errorf("%s: %d polygons above; want %d", c.name, got, c.polygons)
		}
		if got := len(g.Lines(1)); got != 2 {
			t.Errorf("%s: %d lines; want 2", c.name, got)
		}
	}
}

func TestConstantField(t *testing.T) {
	t.Parallel()
	g := field(5, 4, 8, 6, func(x, y float64) float64 { return 2 })
	for _, level := range []float64{1, 2, 3} {
		if n := len(g.Lines(level)); n != 0 {
			t.Errorf("%d lines at %v on a level field", n, level)
		}
		want := 48.0
		if level > 2 {
			want = 0
		}
		if got := total(g.Above(level)); got != want {
			t.Errorf("area above %v = %v; want %v", level, got, want)
		}
	}
	if low, high := g.Range(); low != 2 || high != 2 || Levels(low, high, 9) != nil {
		t.Errorf("range %v to %v, levels %v; want 2 to 2 and none", low, high, Levels(low, high, 9))
	}
}

// What is not a grid gives nothing, whatever is asked.
func TestNotAGrid(t *testing.T) {
	t.Parallel()
	good := Grid{X1: 1, Y1: 1, NX: 2, NY: 2, Values: []float64{0, 1, 2, 3}}
	for name, change := range map[string]func(*Grid){
		"nothing":         func(g *Grid) { *g = Grid{} },
		"one column":      func(g *Grid) { g.NX, g.NY = 1, 4 },
		"a value less":    func(g *Grid) { g.Values = g.Values[:3] },
		"a value more":    func(g *Grid) { g.Values = append(g.Values, 4) },
		"no width":        func(g *Grid) { g.X1 = 0 },
		"turned around":   func(g *Grid) { g.Y1 = -1 },
		"NaN":             func(g *Grid) { g.Values[2] = math.NaN() },
		"infinite":        func(g *Grid) { g.Values[1] = math.Inf(-1) },
		"NaN for a side":  func(g *Grid) { g.Y0 = math.NaN() },
		"too wide to say": func(g *Grid) { g.X0, g.X1 = -1.7e308, 1.7e308 },
	} {
		g := good
		g.Values = slices.Clone(good.Values)
		change(&g)
		if g.Valid() || g.Bands([]float64{1}) != nil || g.Lines(1) != nil || g.Above(1) != nil || g.Highest() != (Point{}) {
			t.Errorf("%s: taken for a grid", name)
		}
	}
	if !good.Valid() || good.Highest() != (Point{1, 1}) {
		t.Errorf("valid: %t, highest at %v; want true and {1 1}", good.Valid(), good.Highest())
	}
}

// Nothing of the largest numbers there are, or of odd levels, gives NaN.
func TestNoNaN(t *testing.T) {
	t.Parallel()
	big := math.MaxFloat64
	for _, values := range [][]float64{{big, -big, -big, big}, {-big, big, 0, 1}, {5e-324, 0, 0, -5e-324}} {
		g := Grid{X1: 3, Y1: 2, NX: 2, NY: 2, Values: values}
		levels := []float64{math.NaN(), math.Inf(1), -big, 0, 5e-324, big, math.Inf(-1)}
		sum := 0.0
		for _, b := range g.Bands(levels) {
			sum += total(b)
		}
		if !(math.Abs(sum-6) < 1e-9) {
			t.Errorf("%v: bands of area %v; want 6", values, sum)
		}
		for _, level := range levels {
			for _, l := range g.Lines(level) {
				for _, p := range l.Points {
					if math.IsNaN(p.X + p.Y) {
						t.Errorf("%v at %v: a point %v", values, level, p)
					}
				}
			}
		}
	}
}

// The same grid gives the same outlines, point for point.
func TestSameAgain(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(11, 12))
	for range 50 {
		g := random(r)
		a, b := fmt.Sprint(g.Bands([]float64{0, 1, 2}), g.Lines(1)), fmt.Sprint(g.Bands([]float64{0, 1, 2}), g.Lines(1))
		if a != b {
			t.Fatalf("%+v: two different answers", g)
		}
	}
}

func BenchmarkBands(b *testing.B) {
	g := field(61, 31, 1800, 750, func(x, y float64) float64 {
		return 1.3 * math.Sin(math.Pi*x/1800) * (1 + 0.2*math.Sin(math.Pi*y/750))
	})
	levels := Levels(0, 1.5, 9)
	for b.Loop() {
		g.Bands(levels)
	}
}
