package engine

import (
	"reflect"
	"strings"
	"testing"

	"flatwright/engine/length"
)

func twistOf(t *testing.T, d Design) *Twist {
	t.Helper()
	mo, _ := modelOf(d, false)
	w, err := d.twist(t.Context(), &mo)
	if err != nil || w == nil {
		t.Fatalf("twist %v, %v", w, err)
	}
	return w
}

// A panel that is the same from all four corners, under its own weight W: each
// corner drops by W/4 over the stiffness, for the load puts W/2 on the two
// corners beside it, and half of that alternating pattern is what an even
// support would not have. So far may one corner stand out before it lifts off.
// By hand. Against Bredt's box the force at the corner agrees within 15 %: the
// closed form takes the outer ribs alone for the walls.
func TestCornerTakenAway(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Supports = Supports{Kind: FourLegs, EndInset: 40, SideInset: 40, Bearing: 60}
	d.Cases[0].Loads[0].X, d.Cases[0].Loads[0].Y = 300, 150
	w := twistOf(t, d)
	mo, _ := modelOf(d, false)
	want := mo.weight / 4 / w.Stiffness
	near(t, "rocks", w.Rocks, want, 1e-5)
	for i, c := range w.Corners {
		near(t, c.Name+" under own weight", c.Own, want, 1e-5)
		if !(c.Drop > c.Own) || c.Case != "Person" {
			t.Errorf("%s drops %.4f under %q, %.4f of it own weight", c.Name, c.Drop, c.Case, c.Own)
		}
		near(t, c.Name+": wind", c.Wind, c.Drop/620, 1e-12)
		if c.Drop > w.Corners[w.Worst].Drop || w.Corners[w.Worst].Name != "left front" {
			t.Errorf("worst is %s with %.3f mm; %d has %.3f", w.Corners[w.Worst].Name, w.Corners[w.Worst].Drop, i, c.Drop)
		}
	}
	if r := w.Stiffness / w.Closed; r < 0.85 || r > 1.15 {
		t.Errorf("stiffness against twist %.1f N/mm, closed form %.1f", w.Stiffness, w.Closed)
	}
	if !w.Corners[0].Tips || w.Corners[3].Tips {
		t.Errorf("without the corner beside the load it tips %v, without the far one %v; want true, false", w.Corners[0].Tips, w.Corners[3].Tips)
	}
	// Twice the load: own weight kept, the rest doubled.
	e := d.Clone()
	e.Cases[0].Loads[0].Force *= 2
	v := twistOf(t, e)
	for i := range v.Corners {
		near(t, "drop under twice the load", v.Corners[i].Drop-v.Corners[i].Own, 2*(w.Corners[i].Drop-w.Corners[i].Own), 1e-6)
	}
}

// Told on the normal mesh, not while dragging; kept on the refined one; over
// what the person allows it is a shortfall that names the corner.
func TestTwistIsTold(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Cases[0].Loads[0].X = 500
	if w := refined(t, d, Interactive).Whole.Twist; w != nil {
		t.Errorf("told while dragging: %+v", w)
	}
	r := refined(t, d, Normal)
	w := r.Whole.Twist
	if w == nil || hasCode(r, "twist-over-limit") {
		t.Fatalf("twist %+v; problems %v", w, told(r.Problems))
	}
	if f := refined(t, d, Refined).Whole.Twist; f == nil || !reflect.DeepEqual(f, w) {
		t.Errorf("on the refined mesh %+v; want %+v", f, w)
	}
	drop := w.Corners[w.Worst].Drop
	for limit, over := range map[float64]bool{drop * 1.01: false, drop * 0.99: true} {
		d.Limits.Twist = limit
		r := refined(t, d, Normal)
		if hasCode(r, "twist-over-limit") != over {
			t.Errorf("limit %.3f, drop %.3f: told %v", limit, drop, !over)
		}
		for _, p := range r.Problems {
			if p.Code == "twist-over-limit" {
				proofread(t, p)
				if !strings.Contains(p.Text, w.Corners[w.Worst].Name+" corner") {
					t.Errorf("told as %q", p.Text)
				}
			}
		}
	}
	mm := w.Lines(length.Format{})
	if len(mm) != 5 || !strings.HasPrefix(mm[0], "Lifting one corner of the supports by 1 mm") || strings.Contains(strings.Join(w.Lines(length.Format{Imperial: true, Denominator: 16}), " "), " mm") {
		t.Errorf("said as %q", mm)
	}
}

// The load mirrored, the corners change places.
func TestCornersMirror(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Cases[0].Loads[0].X, d.Cases[0].Loads[0].Y = 500, 250
	w := twistOf(t, d)
	d.Cases[0].Loads[0].X = d.Length - 500
	v := twistOf(t, d)
	for i, j := range [4]int{1, 0, 3, 2} {
		near(t, w.Corners[i].Name, v.Corners[j].Drop, w.Corners[i].Drop, 1e-5)
	}
}

// Statics by hand. Three corners carry 20, 50 and 30 N; without corner 1 the
// last carries 50: 70, 0, −20, so it tips. A newton at a corner moves the last
// by .001, .002, .003 and −.01 mm.
func TestThreeHeld(t *testing.T) {
	t.Parallel()
	c := threeHeld{balance: [4]float64{1, -1, -1, 1}, dropped: 0.4, r: [3]float64{20, 50, 30}, lift: [4]float64{.001, .002, .003, -.01}}
	near(t, "alternating", c.pattern(), -.014, 1e-12)
	want := [4]without{
		{0.4 + 70*.002 + 50*.003 + 20*.01, true}, // 0, 70, 50, −20
		{-(0.4 + 70*.001 - 20*.003 - 50*.01), true},
		{-(0.4 + 50*.001 + 20*.002 - 30*.01), false}, // 50, 20, 0, 30
		{0.4 + 20*.001 + 50*.002 + 30*.003, false},
	}
	for k, got := range c.without() {
		near(t, "drop", got.mm, want[k].mm, 1e-12)
		if got.tips != want[k].tips {
			t.Errorf("without corner %d it tips: %v", k, got.tips)
		}
	}
	// On four level ones the last carries .61/.014 = 43.57: corner 2 lifts.
	near(t, "least of four", c.least(), 0, 0)
	c.dropped = 0.1
	near(t, "least of four", c.least(), 30-(0.1+.02+.1+.09)/.014, 1e-12) // 22.14 at the last
	c.dropped, c.r = 0, [3]float64{20, 50, 50}
	near(t, "least of four", c.least(), (.02+.1+.15)/.014, 1e-12) // 19.29 at the last
}
