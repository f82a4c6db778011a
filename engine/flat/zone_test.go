package flat_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"

	"flatwright/engine/flat"
)

func zone(t *testing.T, points []flat.Point) flat.Zone {
	t.Helper()
	z, err := flat.MinimumZone(points)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

// TestReferenceSurfaces holds the surfaces of our reference page (section G,
// derived there by a linear program of another library): 5 by 3 stations on 1200
// by 600. Its root mean squares have six digits.
func TestReferenceSurfaces(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name      string
		f         func(x, y float64) float64
		zone, ptv float64
		rms       float64 // NaN where the page has none
	}{
		{"bowl 0.5", func(x, y float64) float64 {
			return -0.5 * (1 - math.Pow((x-600)/600, 2)) * (1 - math.Pow((y-300)/300, 2))
		}, 0.5, 0.5, 0.168737},
		{"one corner twisted up 0.4", func(x, y float64) float64 { return 0.4 * x / 1200 * y / 600 }, 0.2, 0.2, 0.057735},
		{"tilt", func(x, y float64) float64 { return 0.001*x - 0.002*y + 3 }, 0, 0, 0},
		{"one high spot in the middle 0.3", func(x, y float64) float64 {
			if x == 600 && y == 300 {
				return 0.3
			}
			return 0
		}, 0.3, 0.3, math.NaN()},
		{"one corner high 0.3", func(x, y float64) float64 {
			if x == 0 && y == 0 {
				return 0.3
			}
			return 0
		}, 0.25, 0.28, math.NaN()},
		{"saddle ±0.2", func(x, y float64) float64 {
			return 0.2*math.Pow((x-600)/600, 2) - 0.2*math.Pow((y-300)/300, 2)
		}, 0.4, 0.4, math.NaN()},
	} {
		points := surface(table(5, 3, 1200, 600), c.f)
		near(t, c.name+": zone", zone(t, points).Width, c.zone, 1e-12)
		ls, err := flat.LeastSquares(points)
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.name+": least squares, highest over lowest", ls.PeakToValley, c.ptv, 1e-12)
		if !math.IsNaN(c.rms) {
			near(t, c.name+": root mean square", ls.RMS, c.rms, 5e-7)
		}
	}
}

// byProgram is the width of the zone by gonum's simplex method on the primal
// program in Z0, SlopeX, SlopeY and the width: another program and other code.
func byProgram(t *testing.T, points []flat.Point) float64 {
	t.Helper()
	g := mat.NewDense(2*len(points), 4, nil)
	h := make([]float64, 2*len(points))
	for i, p := range points {
		x, y := p.X/1000, p.Y/1000
		g.SetRow(2*i, []float64{1, x, y, 0})
		h[2*i] = p.Z
		g.SetRow(2*i+1, []float64{-1, -x, -y, -1})
		h[2*i+1] = -p.Z
	}
	c, a, b := lp.Convert([]float64{0, 0, 0, 1}, g, h, nil, nil)
	width, _, err := lp.Simplex(c, a, b, 1e-12, nil)
	if err != nil {
		t.Fatalf("gonum's simplex: %v", err)
	}
	return width
}

// byTrying is the width by trying every direction that two pairs of points
// make: planes of the zone touch three points and one, or two and two.
func byTrying(points []flat.Point) float64 {
	var edges [][3]float64
	for i, p := range points {
		for _, q := range points[:i] {
			edges = append(edges, [3]float64{p.X - q.X, p.Y - q.Y, p.Z - q.Z})
		}
	}
	best := math.Inf(1)
	for i, a := range edges {
		for _, b := range edges[:i] {
			nz := a[0]*b[1] - a[1]*b[0]
			if math.Abs(nz) < 1e-9 {
				continue
			}
			slope := flat.Plane{SlopeX: -(a[1]*b[2] - a[2]*b[1]) / nz, SlopeY: -(a[2]*b[0] - a[0]*b[2]) / nz}
			low, high := math.Inf(1), math.Inf(-1)
			for _, p := range points {
				low, high = min(low, slope.Over(p)), max(high, slope.Over(p))
			}
			best = min(best, high-low)
		}
	}
	return best
}

func TestZoneByTwoOtherWays(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 1))
	for n := range 60 {
		var points []flat.Point
		for range 4 + r.IntN(6) {
			points = append(points, flat.Point{X: 2000 * r.Float64(), Y: 700 * r.Float64(), Z: r.NormFloat64()})
		}
		got := zone(t, points).Width
		near(t, fmt.Sprintf("survey %d, by trying", n), got, byTrying(points), 1e-10)
		near(t, fmt.Sprintf("survey %d, by gonum's program", n), got, byProgram(t, points), 1e-9)
	}
}

// TestZoneOnGrids meets the ties of regular grids with heights from a few whole
// numbers.
func TestZoneOnGrids(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 2))
	for n := range 40 {
		nx, ny := 2+r.IntN(3), 2+r.IntN(2)
		points := surface(table(nx, ny, 1500, 640), func(_, _ float64) float64 { return float64(r.IntN(3)) })
		near(t, fmt.Sprintf("grid %d of %d by %d", n, nx, ny), zone(t, points).Width, byTrying(points), 1e-11)
	}
	large := table(25, 20, 4000, 1200)
	for n := range 3 {
		points := surface(large, func(_, _ float64) float64 { return r.NormFloat64() })
		encloses(t, fmt.Sprintf("large grid %d", n), points, zone(t, points))
		// Ten heights only: fifty points on either plane, all over the bed, so no
		// tilt helps.
		points = surface(large, func(_, _ float64) float64 { return float64(r.IntN(10)) / 10 })
		near(t, fmt.Sprintf("large grid %d of ten heights", n), zone(t, points).Width, 0.9, 1e-12)
	}
}

// encloses checks the zone by what makes it least: all points lie inside, and the
// points that touch cannot be brought nearer by any tilt, for some of the high
// ones and some of the low ones lie over each other (their hulls meet).
func encloses(t *testing.T, what string, points []flat.Point, z flat.Zone) {
	t.Helper()
	for i, p := range points {
		if d := math.Abs(z.Middle.Over(p)); d > z.Width/2*(1+1e-9) {
			t.Errorf("%s: point %d lies %g off the middle, zone %g", what, i, d, z.Width)
		}
	}
	var touching []flat.Point
	for _, k := range z.High {
		touching = append(touching, flat.Point{X: points[k].X, Y: points[k].Y, Z: 1})
	}
	for _, k := range z.Low {
		touching = append(touching, flat.Point{X: points[k].X, Y: points[k].Y, Z: 0})
	}
	// Hulls that meet are those that no straight line parts: then high at 1 and
	// low at 0 have a zone as wide as 1.
	if got := byTrying(touching); math.Abs(got-1) > 1e-9 {
		t.Errorf("%s: high and low points can be parted (%g of 1), so a tilt would narrow the zone", what, got)
	}
}

func TestZoneProperties(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 3))
	stations := table(7, 4, 2100, 830)
	z := rough(r, stations)
	points := make([]flat.Point, len(z))
	for i, s := range stations {
		points[i] = flat.Point{X: s.X, Y: s.Y, Z: z[i]}
	}
	want := zone(t, points)
	encloses(t, "random", points, want)
	change := func(name string, width float64, f func(p flat.Point) flat.Point) {
		out := make([]flat.Point, len(points))
		for i, p := range points {
			out[i] = f(p)
		}
		near(t, name, zone(t, out).Width, width, 1e-10)
	}
	change("tilted", want.Width, func(p flat.Point) flat.Point { p.Z += 0.02*p.X - 0.05*p.Y + 7; return p })
	change("mirrored", want.Width, func(p flat.Point) flat.Point { p.X = 2100 - p.X; return p })
	change("turned over", want.Width, func(p flat.Point) flat.Point { p.Z = -p.Z; return p })
	change("quarter turn", want.Width, func(p flat.Point) flat.Point { return flat.Point{X: -p.Y, Y: p.X, Z: p.Z} })
	change("moved far away", want.Width, func(p flat.Point) flat.Point { p.X += 50000; return p })
	change("three times as rough", 3*want.Width, func(p flat.Point) flat.Point { p.Z *= 3; return p })
	ls, err := flat.LeastSquares(points)
	if err != nil {
		t.Fatal(err)
	}
	if want.Width > ls.PeakToValley {
		t.Errorf("the minimum zone %g is wider than that of least squares %g", want.Width, ls.PeakToValley)
	}
	var sum, sx, sy float64
	for _, p := range points {
		v := ls.Plane.Over(p)
		sum, sx, sy = sum+v, sx+v*p.X, sy+v*p.Y
	}
	near(t, "sum over the least-squares plane", sum, 0, 1e-9)
	near(t, "its moment along", sx, 0, 1e-6)
	near(t, "its moment across", sy, 0, 1e-6)
}

func TestZoneNeedsASurface(t *testing.T) {
	t.Parallel()
	for name, points := range map[string][]flat.Point{
		"none":        nil,
		"two":         {{X: 1}, {X: 2, Z: 3}},
		"one line":    {{X: 0, Y: 0}, {X: 100, Y: 50, Z: 1}, {X: 300, Y: 150}, {X: 400, Y: 200}},
		"one on four": {{X: 5, Y: 5}, {X: 5, Y: 5, Z: 1}, {X: 5, Y: 5}},
	} {
		if _, err := flat.MinimumZone(points); !errors.Is(err, flat.ErrOneLine) {
			t.Errorf("%s: MinimumZone says %v; want ErrOneLine", name, err)
		}
		if _, err := flat.LeastSquares(points); !errors.Is(err, flat.ErrOneLine) {
			t.Errorf("%s: LeastSquares says %v; want ErrOneLine", name, err)
		}
	}
}
