package engine

import (
	"math"
	"testing"

	"flatwright/engine/catalog"
	"flatwright/engine/plate"
	"flatwright/engine/section"
)

// One rib 10 mm thick by hand: two bays of 100 mm with a rib of 20 mm between, flush
// at its end with one of 20 mm. Shear 30 and −50 N in the bays, pulled upright by .02
// and pressed by .01 MPa, .1 MPa pulled in the crossing, nothing in the last.
//
// At the crossing: pulled apart 10·(.02·50 + .1·20 − .01·50) = 25 N, and 80 N of shear are
// lost, so 40 more part the top, 40 press the bottom. At the left end the 30 N are
// gained: half of what pulls, 10·.02·50 = 10 N, less 15. At the right end 50 N of shear
// going down are lost with the sign turned: −5 + … = −5 − 25 at the top, −5 + 25 below.
func TestPullsByHand(t *testing.T) {
	t.Parallel()
	all := []plate.RibForce{{At: 50, L: 100, V: 30, Upright: 0.02}, {At: 110, L: 20, V: 9, Upright: 0.1}, {At: 170, L: 100, V: -50, Upright: -0.01}, {At: 230, L: 20, V: 3}}
	own := make([]plate.RibForce, len(all))
	s := ribStretch{own, all, 10}
	in := func(x float64) bool { return x > 100 && x < 120 || x > 220 }
	on := glueBed{1.6e7, 700}
	wide := section.Spread(1.6e7, 700)
	got := s.crossings(in, on, false, false)
	want := []pull{
		{0, effect{load: 10 - 15}, effect{load: 10 + 15}, 50}, // a free end: over half of the bay
		{110, effect{load: 25 + 40}, effect{load: 25 - 40}, wide},
		{230, effect{load: -5 - 25}, effect{load: -5 + 25}, wide / 2},
	}
	if len(got) != len(want) {
		t.Fatalf("%d places; want %d: %+v", len(got), len(want), got)
	}
	for i, w := range want {
		g := got[i]
		near(t, "place", g.at, w.at, 1e-12)
		near(t, "top", g.top.load, w.top.load, 1e-12)
		near(t, "bottom", g.bottom.load, w.bottom.load, 1e-12)
		near(t, "over", g.over, w.over, 1e-12)
	}
	// A band holds the skins' edge: the force goes over at once. A glued lap passes it.
	if g := s.crossings(in, on, false, true); g[0].over != wide/2 || g[0].top != got[0].top {
		t.Errorf("at a band %+v", g[0])
	}
	glued := s.crossings(in, on, true, false)
	near(t, "glued lap, top", glued[1].top.load, 25, 1e-12)
	near(t, "glued lap, bottom", glued[1].bottom.load, 25, 1e-12)
	// Shares of own weight keep to themselves.
	s.own = all
	if g := s.crossings(in, on, false, false)[1]; g.top.load != 0 || math.Abs(g.top.own-65) > 1e-12 {
		t.Errorf("of own weight %+v", g.top)
	}
}

// Within a bay, over as much of it as a force spreads: three segments of 20 mm with
// shear 5, 11 and 23 N; about the first line between them from 12 to 28 mm, where .4 MPa
// act on 8 mm and −.1 MPa on 8 mm: 10·(.4·8 − .1·8) = 24 N; the shear grows by 6·16/20 N.
func TestPullsWithinABay(t *testing.T) {
	t.Parallel()
	all := []plate.RibForce{{At: 10, L: 20, V: 5, Upright: 0.4}, {At: 30, L: 20, V: 11, Upright: -0.1}, {At: 50, L: 20, V: 23}}
	s := ribStretch{make([]plate.RibForce, 3), all, 10}
	on := glueBed{700 * math.Pow(8, 4) / 4, 700} // spreads over 16 mm
	got := s.within(func(float64) bool { return false }, on)
	if len(got) != 2 {
		t.Fatalf("%d places; want 2", len(got))
	}
	near(t, "at", got[0].at, 20, 1e-12)
	near(t, "over", got[0].over, 16, 1e-9)
	near(t, "top", got[0].top.load, 24-4.8/2, 1e-9)
	near(t, "bottom", got[0].bottom.load, 24+4.8/2, 1e-9)
	// A wider spread ends at the middles of the first and the last segment.
	on.ei *= 16 * 16
	near(t, "to the middles", s.within(func(float64) bool { return false }, on)[0].over, 40, 1e-9)
}

// Screws of a rail in the middle of a wide bay pull the bottom skin off the lengthwise
// ribs: what holds it there, all ribs together, is the rail's pull less what the skin
// hands on to the crosswise ribs itself. The top skin has next to no part in it.
func TestScrewsPullAtTheGlue(t *testing.T) {
	t.Parallel()
	d := tippedTop(true)
	d.Lengthwise.Count = 5
	d.Crosswise.Positions = []float64{4.5, 300, 800, 1300, 1595.5}
	d.Crosswise.Count = 5
	d.Supports.EndInset = 550
	w, _, _ := answersOf(t, &d, Normal)
	all := w.cases[0].all
	force, _, _ := d.supported(all)
	p := d.WholePanel(1)
	in := func(x float64) bool {
		for _, m := range d.Crosswise.Positions {
			if math.Abs(x-m) < 4.5 {
				return true
			}
		}
		return false
	}
	var top, bottom float64
	for n := range p.Along {
		r := all.Rib(true, n)
		for _, q := range (ribStretch{r, r, p.Along[n].B}).within(in, glueBed{1e15, 1}) { // the whole bay at once
			if q.at > 950 && q.at < 1150 {
				top, bottom = top+q.top.own, bottom+q.bottom.own
				break
			}
		}
	}
	near(t, "bottom skin off the ribs", bottom, -force[1], 0.06)
	if math.Abs(top) > 0.05*bottom {
		t.Errorf("top skin off the ribs %.1f N; the rail pulls %.1f N", top, -force[1])
	}
}

// The margins by hand from what the ribs carry. Bottom skin of 6 mm on a strip of 12 +
// 12 or 9 + 12 mm, on 3 mm of it (a fifteenth of 9 000 MPa through the thickness) and
// 40 mm of rib (5 000 MPa); half of 2.3 MPa of rolling shear holds. About a crossing from
// the middle of the segment before to that of the one behind, over as much as a force
// spreads; within a bay over that length itself.
func TestPeelByHand(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Cases[0].Loads[0].X, d.Cases[0].Loads[0].Y = 640, 230
	w, mo, m := answersOf(t, &d, Normal)
	margins := mo.wholeMargins(t.Context(), &d, m, w.cases)
	ys, xs := d.RibPlaces()
	h := &wholeHand{map[string]float64{}}
	for _, way := range []struct {
		along bool
		dir   string
		n     int
		b, ei float64
		mates []float64
		mate  float64
	}{{true, ".along", 5, 12, 9800 * 24 * 18, xs, 9}, {false, ".across", 8, 9, 4400 * 21 * 18, ys, 12}} {
		wide := 2 * math.Pow(4*way.ei*(3/(9000/15.0)+40/5000.0)/way.b, 0.25)
		for n := range way.n {
			own, all := w.cases[0].own.Rib(way.along, n), w.cases[0].all.Rib(way.along, n)
			var mids []int // segments of bays
			crosses := func(x float64) bool {
				for _, m := range way.mates {
					if math.Abs(x-m) < way.mate/2 {
						return true
					}
				}
				return false
			}
			for i, f := range all {
				if !crosses(f.At) {
					mids = append(mids, i)
				}
			}
			upright := func(r []plate.RibForce, from, to float64) (sum float64) { // N
				for _, f := range r {
					sum += way.b * f.Upright * math.Max(0, math.Min(to, f.At+f.L/2)-math.Max(from, f.At-f.L/2))
				}
				return sum
			}
			take := func(from, to, over float64, shear func(r []plate.RibForce) float64) {
				of := func(r []plate.RibForce) float64 {
					return (upright(r, from, to) + shear(r)/2) / (way.b * over)
				}
				h.take("glue.bottom.peel"+way.dir, 2.3/2, of(own), of(all)-of(own))
			}
			last := len(mids) - 1
			take(0, all[mids[0]].At, wide/2, func(r []plate.RibForce) float64 { return r[mids[0]].V })
			take(all[mids[last]].At, 2000, wide/2, func(r []plate.RibForce) float64 { return -r[mids[last]].V })
			for i := range last {
				a, b := mids[i], mids[i+1]
				if b > a+1 { // a rib between them
					take(all[a].At, all[b].At, wide, func(r []plate.RibForce) float64 { return r[b].V - r[a].V })
					continue
				}
				line := all[b].At - all[b].L/2
				lo, hi := i, i+1 // all of the bay
				for lo > 0 && mids[lo]-mids[lo-1] == 1 {
					lo--
				}
				for hi < last && mids[hi+1]-mids[hi] == 1 {
					hi++
				}
				from, to := math.Max(line-wide/2, all[mids[lo]].At), math.Min(line+wide/2, all[mids[hi]].At)
				at := func(r []plate.RibForce, x float64) float64 {
					for k := lo; k < hi; k++ {
						if p, q := r[mids[k]], r[mids[k+1]]; x >= p.At && x <= q.At {
							return p.V + (q.V-p.V)*(x-p.At)/(q.At-p.At)
						}
					}
					return math.NaN()
				}
				take(from, to, to-from, func(r []plate.RibForce) float64 { return at(r, to) - at(r, from) })
			}
		}
	}
	for code, want := range h.lowest {
		near(t, code, marginOf(t, margins, code).Value, want, 1e-9)
	}
	if len(h.lowest) != 2 {
		t.Errorf("%v", h.lowest)
	}
}

// What the ribs hand each other goes through the laps once these are glued, and less
// pulls at the skins. Glue holds no better or worse for it.
func TestGluedLapsPeelLess(t *testing.T) {
	t.Parallel()
	d := plainTop()
	demand := map[bool]Margin{}
	for _, glued := range []bool{false, true} {
		d.Slots.Glued = glued
		w, mo, m := answersOf(t, &d, Interactive)
		demand[glued] = marginOf(t, mo.wholeMargins(t.Context(), &d, m, w.cases), "glue.top.peel.along")
	}
	if !(demand[true].Demand < 0.7*demand[false].Demand) || demand[true].Capacity != demand[false].Capacity {
		t.Errorf("open %+v, glued %+v", demand[false], demand[true])
	}
}

// What holds a skin: the weaker of its face and of a rib of solid wood; a sheet on
// edge is never the weaker. By hand: half of 2.3, .4 of softwood, .23 of OSB.
func TestWhatHoldsASkin(t *testing.T) {
	t.Parallel()
	ply, oak, osb := plainSheet(), mustSheet(t, "white-oak"), mustSheet(t, "osb-3")
	one := factors{kmod: 0.9, gammaM: 1.2}
	for _, c := range []struct {
		skin, rib *catalog.Sheet
		ofRib     factors
		want      float64
	}{{&ply, &ply, one, 1.15}, {&ply, oak, one, 0.4}, {osb, oak, one, 0.23}, {osb, &ply, one, 0.23}, {&ply, osb, one, 1.15}, {osb, oak, factors{kmod: 0.1, gammaM: 1.3}, 0.4}} {
		if got, _ := tornOff(c.skin, c.rib, one, c.ofRib); got != c.want {
			t.Errorf("%s on %s holds %g MPa; want %g", c.skin.Name, c.rib.Name, got, c.want)
		}
	}
	for _, m := range Catalogue().Sheets {
		if v := through(&m); !(v >= 0.2 && v <= 1.6) {
			t.Errorf("%s holds %g MPa through its thickness", m.Name, v)
		}
	}
}

func mustSheet(t *testing.T, key string) *catalog.Sheet {
	t.Helper()
	s, ok := plainTop().Material(key)
	if !ok {
		t.Fatalf("no %s", key)
	}
	return &s
}
