package verify

import (
	"math"
	"slices"
	"testing"

	"flatwright/engine"
)

// rect is a place in plan.
type rect struct{ x0, x1, y0, y1 float64 }

// A case that says so is the same on both sides of its middle: ribs, pads, loads
// and seams.
func TestSymmetricCases(t *testing.T) {
	t.Parallel()
	for _, c := range Cases() {
		l, w := c.Design.Length, c.Design.Width
		for what, places := range c.places() {
			for _, r := range places {
				if c.Same.X {
					opposite(t, c.Name+": "+what, places, rect{l - r.x1, l - r.x0, r.y0, r.y1})
				}
				if c.Same.Y {
					opposite(t, c.Name+": "+what, places, rect{r.x0, r.x1, w - r.y1, w - r.y0})
				}
			}
		}
	}
}

// places lists what a case has, by kind.
func (c Case) places() map[string][]rect {
	l, w := c.Design.Length, c.Design.Width
	out := map[string][]rect{}
	add := func(what string, x, y, sx, sy float64) {
		out[what] = append(out[what], rect{x - sx/2, x + sx/2, y - sy/2, y + sy/2})
	}
	ys, xs := c.Design.RibPlaces()
	for _, x := range xs {
		add("crosswise rib", x, w/2, 0, w)
	}
	for _, y := range ys {
		add("lengthwise rib", l/2, y, l, 0)
	}
	for _, p := range c.panel(1).Pads {
		add("pad", p.X, p.Y, p.SX, p.SY)
	}
	for _, v := range c.loads() {
		if v.Kind != engine.Uniform {
			at := c.Design.Spread(v)
			add("load", at.X, at.Y, at.SizeX, at.SizeY)
		}
	}
	for _, s := range c.Seams {
		if s.AlongX {
			add("seam", l/2, s.At, l, 0)
		} else {
			add("seam", s.At, w/2, 0, w)
		}
	}
	return out
}

func opposite(t *testing.T, what string, places []rect, want rect) {
	t.Helper()
	same := func(a, b float64) bool { return math.Abs(a-b) < 1e-6 }
	if !slices.ContainsFunc(places, func(r rect) bool {
		return same(r.x0, want.x0) && same(r.x1, want.x1) && same(r.y0, want.y0) && same(r.y1, want.y1)
	}) {
		t.Errorf("%s: none at %v", what, want)
	}
}

// Of a symmetric case a quarter is built: a quarter of the bricks' volume, of the
// load and of the springs, and pads come out whole. All nodes in the planes of
// symmetry are held across them, no others.
func TestQuarterIsBuilt(t *testing.T) {
	t.Parallel()
	for _, c := range Cases() {
		if !c.Same.X || !c.Same.Y {
			continue
		}
		whole, s := built(c), newSolid(c, coarse)
		s.build()
		sum := func(s *solid) (volume, load, spring float64) {
			for _, b := range s.bricks {
				volume += s.volume(b)
			}
			for _, l := range c.loads() {
				for _, f := range s.press(l) {
					load += f
				}
			}
			for _, f := range s.feet {
				spring += f.k
			}
			return volume, load, spring
		}
		v, f, k := sum(s)
		v4, f4, k4 := sum(whole)
		if !near(4*v, v4, 1e-9) || !near(4*f, f4, 1e-9) || !near(4*k, k4, 1e-9) {
			t.Errorf("%s: a quarter has %g mm³, %g N, %g N/mm of %g, %g, %g", c.Name, v, f, k, v4, f4, k4)
		}
		x, y := s.held()
		for axis, nodes := range [2][]int{x, y} {
			middle := [2]float64{c.Design.Length / 2, c.Design.Width / 2}[axis]
			want := 0
			for id := range s.nodes {
				if s.at(id + 1)[axis] == middle {
					want++
				}
			}
			for _, n := range nodes {
				if s.at(n)[axis] != middle {
					t.Fatalf("%s: node %d at %v is held", c.Name, n, s.at(n))
				}
			}
			if len(nodes) != want || want == 0 {
				t.Errorf("%s: %d nodes are held in a plane of symmetry that has %d", c.Name, len(nodes), want)
			}
		}
		// Each spring pushed by its own stiffness: a pad's force is its stiffness.
		push := make([]float64, len(s.pads))
		for _, f := range s.feet {
			push[f.pad] += f.k
		}
		n := 0
		for i, p := range s.pads {
			if s.share(i) == 0 {
				continue
			}
			overlap := func(at, size, end float64) float64 { return math.Min(at+size/2, end) - math.Max(at-size/2, 0) }
			want := p.K * overlap(p.X, p.SX, c.Design.Length) * overlap(p.Y, p.SY, c.Design.Width)
			if got := s.whole(push)[n]; !near(got, want, 1e-9) {
				t.Errorf("%s: pad %d pushes %g, want %g", c.Name, i, got, want)
			}
			n++
		}
		if n == 0 || n == len(s.pads) {
			t.Errorf("%s: %d of %d pads are built", c.Name, n, len(s.pads))
		}
	}
}
