package draw

import (
	"math"
	"testing"
)

func TestHit(t *testing.T) {
	t.Parallel()
	f := Figure{
		Areas: []Area{
			{Points: rect(0, 0, 100, 100).Corners(), Fill: Skin, Part: "skin"},
			{Points: rect(20, 0, 30, 100).Corners(), Fill: LengthwiseRib, Pen: Outline, Part: "rib"},
			{Points: rect(50, 50, 60, 60).Corners(), Part: "hollow"},
			{Points: rect(70, 70, 80, 80).Corners(), Fill: Cut},
			{Points: lShapeAt(200, 0), Fill: Block, Part: "block"},
		},
		Lines: []Line{{A: Point{0, 10}, B: Point{100, 10}, Pen: Thin, Part: "line"}},
		Notes: []Note{{At: Point{80, 30}, Text: "note", Part: "note"}},
	}
	flat := f.Flatten(View{Scale: 1, OriginY: 100}, testMetrics)
	for name, c := range map[string]struct {
		x, y, tolerance float64
		want            string
	}{
		"skin":                          {10, 50, 0, "skin"},
		"rib above skin":                {25, 50, 0, "rib"},
		"edge of the rib's line":        {30.9, 50, 0, "rib"},
		"just beside it":                {31.1, 50, 0, "skin"},
		"within tolerance":              {33.5, 50, 3, "rib"},
		"area without fill":             {55, 45, 0, "hollow"},
		"thing without part lets below": {75, 25, 0, "skin"},
		"line over all":                 {25, 90, 0, "line"},
		"near the line":                 {60, 93, 3, "line"},
		"beyond the line's end":         {105, 90, 3, ""},
		"note":                          {80, 70, 0, "note"},
		"note's corner":                 {89, 66.5, 0, "note"},
		"outside":                       {150, 50, 0, ""},
		"near the outside":              {102, 50, 3, "skin"},
		"L: in the leg":                 {210, 20, 0, "block"},
		"L: in the notch":               {280, 20, 0, ""},
		"near the closing edge":         {-2, 50, 3, "skin"},
		"negative tolerance":            {25, 50, -5, "rib"},
	} {
		if got := flat.Hit(c.x, c.y, c.tolerance); got != c.want {
			t.Errorf("%s: Hit(%g, %g, %g) = %q; want %q", name, c.x, c.y, c.tolerance, got, c.want)
		}
	}
	if (Item{Shape: 99, Points: lShape, Part: "?"}).hit(Point{1, 1}, 9) {
		t.Error("a shape that is not known was hit")
	}
	if got := flat.Hit(math.NaN(), 0, 1); got != "" {
		t.Errorf("Hit(NaN) = %q", got)
	}
}

func lShapeAt(x, y float64) []Point {
	var out []Point
	for _, p := range lShape {
		out = append(out, Point{p.X + x, p.Y + y})
	}
	return out
}

func TestHitFindsDimensions(t *testing.T) {
	t.Parallel()
	f := Figure{
		Areas:      []Area{{Points: rect(0, 0, 200, 100).Corners(), Fill: Skin, Part: "skin"}},
		Dimensions: []Dimension{{A: Point{0, 0}, B: Point{0, 100}, Side: Left, Rank: 1, Text: "100", Part: "height"}},
	}
	flat := f.Flatten(View{Scale: 1, OriginX: 50, OriginY: 150}, testMetrics)
	// The line stands 20 left of the edge, at x = 30; its text left of it.
	for _, p := range []Point{{30, 60}, {25, 100}, {40, 150}} {
		if got := flat.Hit(p.X, p.Y, 1); got != "height" {
			t.Errorf("Hit(%v) = %q; want the dimension", p, got)
		}
	}
}

// distance by the definition: the least over many points of the segment.
func TestDistance(t *testing.T) {
	t.Parallel()
	a, b := Point{1, 2}, Point{7, -3}
	for _, p := range []Point{{0, 0}, {4, 4}, {9, -9}, {3, 0.3333}, {1, 2}} {
		least := math.Inf(1)
		for i := range 100_001 {
			q := between(a, b, float64(i)/100_000)
			least = min(least, math.Hypot(p.X-q.X, p.Y-q.Y))
		}
		if got := distance(p, a, b); math.Abs(got-least) > 1e-4 {
			t.Errorf("distance(%v) = %g; want %g", p, got, least)
		}
	}
	closeTo(t, "distance to a point", distance(Point{3, 4}, Point{}, Point{}), 5)
}
