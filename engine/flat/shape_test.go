package flat_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"flatwright/engine/flat"
)

// TestShapeOfKnownSurfaces has surfaces whose bow and wind are put in.
func TestShapeOfKnownSurfaces(t *testing.T) {
	t.Parallel()
	stations := table(6, 4, 1700, 640)
	f := func(x, y float64) float64 {
		u, v := x/850-1, y/320-1
		return 3 + 0.01*x - 0.02*y + 0.7*(1-u*u) - 0.3*(1-v*v) + 0.45*(x/1700)*(y/640)
	}
	s := flat.ShapeOf(surface(stations, f))
	near(t, "bow along", s.BowX.Value, 0.7, 1e-12)
	near(t, "bow across", s.BowY.Value, -0.3, 1e-12)
	near(t, "wind", s.Wind.Value, 0.45, 1e-12)
	near(t, "left", s.Left, 0, 1e-12)
	near(t, "height at a place that is no station", s.At(333, 555), f(333, 555), 1e-11)

	mirrored := flat.ShapeOf(surface(stations, func(x, y float64) float64 { return f(1700-x, y) }))
	near(t, "bow along, mirrored", mirrored.BowX.Value, 0.7, 1e-12)
	near(t, "wind, mirrored", mirrored.Wind.Value, -0.45, 1e-12)
	over := flat.ShapeOf(surface(stations, func(x, y float64) float64 { return -f(x, 640-y) }))
	near(t, "bow along, turned over", over.BowX.Value, -0.7, 1e-12)
	near(t, "wind, turned over", over.Wind.Value, 0.45, 1e-12)
	turned := make([]flat.Point, 0, 24)
	for _, p := range surface(stations, f) {
		turned = append(turned, flat.Point{X: -p.Y, Y: p.X, Z: p.Z})
	}
	q := flat.ShapeOf(turned)
	near(t, "bow along after a quarter turn", q.BowX.Value, -0.3, 1e-12)
	near(t, "bow across after a quarter turn", q.BowY.Value, 0.7, 1e-12)
	near(t, "wind after a quarter turn", q.Wind.Value, -0.45, 1e-12)
}

// TestShapeThatCannotBeTold: bow takes three stations in a row, wind two rows.
func TestShapeThatCannotBeTold(t *testing.T) {
	t.Parallel()
	f := func(x, y float64) float64 { return x*x/1e6 + x*y/1e6 + 2*y*y/1e6 }
	for _, c := range []struct {
		name       string
		stations   []flat.Station
		x, y, wind bool
	}{
		{"four corners", table(2, 2, 900, 600), false, false, true},
		{"two rows of five", table(5, 2, 900, 600), true, false, true},
		{"two columns of four", table(2, 4, 900, 600), false, true, true},
		{"one row", table(5, 2, 900, 600)[:5], true, false, false},
		{"a cross", []flat.Station{{X: 0, Y: 300}, {X: 450, Y: 300}, {X: 900, Y: 300}, {X: 450, Y: 0}, {X: 450, Y: 600}}, true, true, false},
		{"one", []flat.Station{{X: 5, Y: 6}}, false, false, false},
		{"none", nil, false, false, false},
	} {
		s := flat.ShapeOf(surface(c.stations, f))
		if s.BowX.Told != c.x || s.BowY.Told != c.y || s.Wind.Told != c.wind {
			t.Errorf("%s: told along %v, across %v, wind %v; want %v, %v, %v", c.name, s.BowX.Told, s.BowY.Told, s.Wind.Told, c.x, c.y, c.wind)
		}
		near(t, c.name+": left", s.Left, 0, 1e-9)
	}
}

// TestWindErrorByHand: four corners by level, each reading of standard error .5;
// wind is the sum of four of them, so 1. With a diagonal's two readings by
// straightedge, wind is twice their difference, so 2√2 of one.
func TestWindErrorByHand(t *testing.T) {
	t.Parallel()
	stations := table(2, 2, 900, 600)
	h := fit(t, stations, []flat.Line{{Method: flat.WaterLevel, Stations: []int{0, 1, 2, 3}, Readings: []float64{10, 10, 10, 9.2}}})
	w := h.Shape(stations).Wind
	near(t, "wind by level", w.Value, 0.8, 1e-12)
	near(t, "its standard error", w.Error, 1, 1e-12)
	stations, lines := jack([8]float64{4: 0.1, 5: 0.3})
	h = fit(t, stations, lines[4:6])
	w = h.Shape(stations).Wind
	near(t, "wind by two diagonals", w.Value, 0.4, 1e-12)
	near(t, "its standard error", w.Error, 2*math.Sqrt2*0.05, 1e-12)
}

func TestStacks(t *testing.T) {
	t.Parallel()
	set := flat.NewSet([]float64{0.3, 0.05, 0.1, 0.5, 0.3, -1, 0, math.NaN()})
	for _, c := range []struct {
		gap, thickness float64
		leaves         int
	}{
		{0.3, 0.3, 1},
		{0.35, 0.35, 2},
		{0.6, 0.6, 2}, // .5 + .1
		{0.024, 0, 0},
		{0.026, 0.05, 1},
		{0.87, 0.85, 3}, // .02 off; .9 would be .03
		{0.88, 0.9, 3},
		{2, 2, 4},
		// Too thick for four leaves: three of .5 first, and 1.45 then takes three more,
		// 1.5, or four, 1.4, which is as near.
		{2.95, 3, 6},
		{-1, 0, 0},
		{math.NaN(), 0, 0},
		{math.Inf(1), 0, 0},
	} {
		got := set.Stack(c.gap)
		near(t, fmt.Sprintf("stack for %g", c.gap), sum(got), c.thickness, 1e-9)
		if len(got) != c.leaves {
			t.Errorf("Stack(%g) = %v; want %d leaves", c.gap, got, c.leaves)
		}
	}
	many := make([]float64, 3*flat.MostThicknesses)
	for i := range many {
		many[i] = float64(i + 1)
	}
	for name, leaves := range map[string][]float64{"no leaves": nil, "no thickness": {0, -1, math.NaN(), math.Inf(1)}} {
		if got := flat.NewSet(leaves).Stack(1); got != nil {
			t.Errorf("%s make %v", name, got)
		}
	}
	if got := flat.NewSet(many).Stack(60); len(got) != 3 || sum(got) != 60 {
		t.Errorf("leaves of 1 to %d mm make 60 of %v; want three", flat.MostThicknesses, got)
	}
}

func sum(leaves []float64) float64 {
	out := 0.0
	for _, l := range leaves {
		out += l
	}
	return out
}

// TestStacksAreNearest compares with trying all stacks by nested loops.
func TestStacksAreNearest(t *testing.T) {
	t.Parallel()
	leaves := []float64{0, 0.05, 0.1, 0.25, 0.6}
	set := flat.NewSet(leaves)
	r := rand.New(rand.NewPCG(6, 31))
	for range 200 {
		want := 2.4 * r.Float64()
		nearest := math.Inf(1)
		for _, a := range leaves {
			for _, b := range leaves {
				for _, c := range leaves {
					for _, d := range leaves {
						nearest = min(nearest, math.Abs(a+b+c+d-want))
					}
				}
			}
		}
		near(t, fmt.Sprintf("miss of the stack for %g", want), math.Abs(sum(set.Stack(want))-want), nearest, 1e-9)
	}
}

// TestShimsMakeABedFlat: what is left is no more than the set's coarseness.
func TestShimsMakeABedFlat(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 32))
	stations := table(7, 4, 1800, 800)
	points := surfaceOf(stations, rough(r, stations))
	z := zone(t, points)
	set := flat.NewSet(flat.FeelerSet())
	shims := set.Shims(points, z.Upper(), 0)
	for _, s := range shims {
		near(t, fmt.Sprintf("shim on %d", s.Station), s.Thickness, s.Gap, 0.025+1e-9)
		if s.Gap > z.Width+1e-9 {
			t.Errorf("shim on %d is %g thick; no gap is more than the zone, %g", s.Station, s.Gap, z.Width)
		}
	}
	left := zone(t, flat.Shimmed(points, shims)).Width
	// Every station ends within half the finest step, .025, of the plane.
	if left > 0.05+1e-9 {
		t.Errorf("left after shimming %g; want 0.05 at most", left)
	}
	for _, s := range set.Shims(points, z.Upper(), 0.3) {
		if s.Gap <= 0.3 {
			t.Errorf("a gap of %g is shimmed though 0.3 may stay", s.Gap)
		}
	}
	if left := zone(t, flat.Shimmed(points, set.Shims(points, z.Upper(), 0.3))).Width; left > 0.3+0.025+1e-9 {
		t.Errorf("left %g where gaps of 0.3 may stay", left)
	}
	if len(shims) > len(points)-len(z.High) {
		t.Errorf("%d shims; the %d points on the upper plane take none", len(shims), len(z.High))
	}
}
