package engine

import (
	"math"
	"testing"

	"flatwright/engine/plate"
)

// By hand: of 1.000 at the left, 0.995 near the middle and 0.98 in the middle
// the middle one is more than 1 % less, so the place is the one near the middle;
// the sag stays the largest. Places equally far keep their order.
func TestLargestKeepsItsPlace(t *testing.T) {
	t.Parallel()
	places := []sagAt{{100, 300, 1}, {800, 300, 0.995}, {900, 300, 0.98}, {1000, 300, 0.994}}
	if sag, x, y := largest(places, point{900, 300}); sag != 1 || x != 800 || y != 300 {
		t.Errorf("largest = %g at %g, %g; want 1 at 800, 300", sag, x, y)
	}
	// What a finer mesh changes by 0.5 % moves nothing.
	places[0].sag, places[1].sag = 0.995, 1
	if _, x, _ := largest(places, point{900, 300}); x != 800 {
		t.Errorf("after a little change the place is %g; want 800 still", x)
	}
	if sag, x, _ := largest(places, point{0, 300}); sag != 1 || x != 100 {
		t.Errorf("seen from the left: %g at %g; want 1 at 100", sag, x)
	}
	if sag, x, _ := largest([]sagAt{{1, 1, -2}, {5, 5, -1}}, point{}); sag != -1 || x != 5 {
		t.Errorf("of two that rise: %g at %g; want the lesser rise, -1 at 5", sag, x)
	}
}

func TestPressedAt(t *testing.T) {
	t.Parallel()
	own := plate.Press{P: 300, X: 900, Y: 375}
	// (300·200 + 100·1000)/400 = 400; (300·100 + 100·500)/400 = 200.
	if got := pressedAt([]plate.Press{{P: 300, X: 200, Y: 100}, {P: 100, X: 1000, Y: 500}}, own); math.Abs(got.x-400) > 1e-9 || math.Abs(got.y-200) > 1e-9 {
		t.Errorf("the middle of two loads is %+v; want 400, 200", got)
	}
	if got := pressedAt(nil, own); got != (point{900, 375}) {
		t.Errorf("without loads %+v; want the middle of the top", got)
	}
}

// In a computed case no place of the map that sags as much, within 1 %, is
// nearer to the middle of the loads than the one told.
func TestPlaceOfACase(t *testing.T) {
	t.Parallel()
	d := plainTop()
	for _, load := range [...]Load{
		{Name: "even", Kind: Uniform, Force: 1000},
		{Name: "patch", Kind: Patch, Force: 500, X: d.Length / 3, Y: d.Width / 4, SizeX: 200, SizeY: 100},
	} {
		d.Cases = []LoadCase{{Name: load.Name, Duration: ShortTerm, Loads: []Load{load}}}
		c := refined(t, d, Normal).Whole.Cases[0]
		p := d.Press(load)
		told := math.Hypot(c.X-p.X, c.Y-p.Y)
		for k, v := range c.Map.Sag {
			x, y := d.Length*float64(k%mapNX)/(mapNX-1), d.Width*float64(k/mapNX)/(mapNY-1)
			if v > c.Sag {
				t.Errorf("%s: the map has %g mm, more than the largest sag, %g", load.Name, v, c.Sag)
			}
			if v >= 0.99*c.Sag && math.Hypot(x-p.X, y-p.Y) < told-1e-3 {
				t.Errorf("%s: the sag is told at (%g, %g); (%g, %g) is nearer to the load and sags as much", load.Name, c.X, c.Y, x, y)
				break
			}
		}
	}
}
