package contour

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

func TestLevels(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		low, high float64
		about     int
		want      []float64
	}{
		{0, 1.26, 9, []float64{0.2, 0.4, 0.6, 0.8, 1, 1.2}},
		{0, 1, 9, []float64{0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9}},
		{0, 1, 8, []float64{0.2, 0.4, 0.6, 0.8}},
		{-0.31, 0.72, 5, []float64{-0.2, 0, 0.2, 0.4, 0.6}},
		{3, 47, 9, []float64{5, 10, 15, 20, 25, 30, 35, 40, 45}},
		{1200, 5100, 4, []float64{2000, 3000, 4000, 5000}},
		{0, 0.0031, 3, []float64{0.001, 0.002, 0.003}},
		{1, 1, 5, nil}, {2, 1, 5, nil}, {0, 1, 0, nil}, {math.NaN(), 1, 5, nil}, {0, math.Inf(1), 5, nil},
		{1, 1 + 1e-15, 5, nil}, {-math.MaxFloat64, math.MaxFloat64, 5, nil},
	} {
		if got := Levels(c.low, c.high, c.about); !slices.Equal(got, c.want) {
			t.Errorf("Levels(%v, %v, %d) = %v; want %v", c.low, c.high, c.about, got, c.want)
		}
	}
}

// Random spans: never more levels than asked for, all inside, rising, evenly
// apart, and from five on no fewer than a third of them.
func TestLevelsOfAnySpan(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(7, 8))
	for range 5000 {
		low := r.NormFloat64() * math.Pow(10, float64(r.IntN(12)-6))
		high := low + math.Abs(r.NormFloat64())*math.Pow(10, float64(r.IntN(12)-6))
		about := 1 + r.IntN(20)
		got := Levels(low, high, about)
		if got == nil {
			if about >= 5 && high-low > 1e-12*max(math.Abs(low), math.Abs(high)) {
				t.Fatalf("Levels(%v, %v, %d): none", low, high, about)
			}
			continue
		}
		if len(got) > about || about >= 5 && 3*len(got) < about {
			t.Fatalf("Levels(%v, %v, %d): %d levels", low, high, about, len(got))
		}
		for i, v := range got {
			if !(v > low && v < high) || i > 0 && !(v > got[i-1]) {
				t.Fatalf("Levels(%v, %v, %d) = %v", low, high, about, got)
			}
			if i > 1 && math.Abs((v-got[i-1])-(got[1]-got[0])) > 1e-9*(got[1]-got[0])+1e-15*math.Abs(v)*4 {
				t.Fatalf("Levels(%v, %v, %d) = %v, not even", low, high, about, got)
			}
		}
	}
}

func TestLabelsStandInTheMiddle(t *testing.T) {
	t.Parallel()
	// Upright lines from edge to edge of a grid 20 high, the level x = 15.
	g := field(13, 11, 60, 20, func(x, y float64) float64 { return x })
	places := g.Labels(g.Lines(15.5))
	if len(places) != 10 {
		t.Fatalf("%d places on a line through ten cells", len(places))
	}
	if p := places[0]; math.Abs(p.X-15.5) > 1e-9 || math.Abs(p.Y-10) > 1.01 {
		t.Errorf("first place %v; want the middle, 15.5 and 10 ± half a cell", p)
	}
	for i := 1; i < len(places); i++ {
		if math.Abs(places[i].Y-10) < math.Abs(places[i-1].Y-10)-1e-9 {
			t.Errorf("place %d, %v, is nearer to the middle than the one before, %v", i, places[i], places[i-1])
		}
	}
	// The longest of two lines gets the label.
	two := field(41, 21, 40, 20, func(x, y float64) float64 {
		return max(6-math.Hypot(x-10, y-10), 3-math.Hypot(x-30, y-10))
	})
	if p := two.Labels(two.Lines(1))[0]; p.X > 17 {
		t.Errorf("the label stands at %v, at the smaller hump", p)
	}
	if got := g.Labels(nil); len(got) != 0 {
		t.Errorf("%v for no line", got)
	}
}

func TestSimplify(t *testing.T) {
	t.Parallel()
	square := Polyline{[]Point{{0, 0}, {1, 0.0004}, {2, 0}, {2, 1}, {2, 2}, {1, 2}, {0, 2}, {-0.0004, 1}}, true}
	if got := square.Simplify(0.001).Points; !slices.Equal(got, []Point{{0, 0}, {2, 0}, {2, 2}, {0, 2}}) {
		t.Errorf("simplified to %v; want the four corners", got)
	}
	if got := square.Simplify(0.0001).Points; !slices.Contains(got, Point{1, 0.0004}) {
		t.Errorf("simplified to %v; want the bulge kept", got)
	}
	tiny := Polyline{[]Point{{0, 0}, {1, 0}, {0, 1}}, true}
	if got := tiny.Simplify(5).Points; len(got) != 3 {
		t.Errorf("a closed line smaller than the tolerance became %v", got)
	}
	// Every point left out is within the tolerance of what stays.
	r := rand.New(rand.NewPCG(9, 10))
	for range 200 {
		var l Polyline
		for i := range 30 {
			l.Points = append(l.Points, Point{float64(i), r.NormFloat64()})
		}
		s := l.Simplify(0.5).Points
		if s[0] != l.Points[0] || s[len(s)-1] != l.Points[29] {
			t.Fatalf("the ends moved to %v and %v", s[0], s[len(s)-1])
		}
		for _, p := range l.Points {
			nearest := math.Inf(1)
			for i := 1; i < len(s); i++ {
				nearest = min(nearest, fromSegment(p, s[i-1], s[i]))
			}
			if nearest > 0.5 {
				t.Fatalf("%v is %v from the simplified line", p, nearest)
			}
		}
	}
}
