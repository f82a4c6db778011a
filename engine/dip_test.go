package engine

import (
	"math"
	"testing"
)

// What bends the whole top along, across or winds it has no dip: any function
// of x, any of y, x times one of y and y times one of x. What is added in the
// middle of the bay is the dip.
func TestDipLeavesTheWholeOut(t *testing.T) {
	t.Parallel()
	b := bay{100, 260, 50, 350}
	whole := func(x, y float64) float64 {
		return 0.3 + 2e-5*x*x*x/100 - 1e-5*y*y + 4e-6*x*y + 3e-9*x*y*y - 2e-9*y*x*x*x/10
	}
	if got := dipOf(b, whole); math.Abs(got.Sag) > 1e-9 {
		t.Errorf("dip of a bend of the whole %.3g mm", got.Sag)
	}
	own := func(x, y float64) float64 {
		return whole(x, y) + 0.07*math.Sin(math.Pi*(x-100)/160)*math.Sin(math.Pi*(y-50)/300)
	}
	got := dipOf(b, own)
	near(t, "dip", got.Sag, 0.07, 1e-9)
	near(t, "x of it", got.X, 180, 1e-12)
	near(t, "y of it", got.Y, 200, 1e-12)
}

// One bay alone is pressed: its skin dips by more than a plate clamped over the
// clear bay and by less than one simply supported over the bay from rib middle
// to rib middle, with its shear: α·q·a⁴/D and β·q·a²/S, S = 5/6·G·t, of a
// square. α .00126532 clamped, .00406235 simply supported, β .0736714: series
// of Navier and Ritz, derived; Timoshenko and Woinowsky-Krieger, tables 8 and
// 35, have .00126 and .00406 (from memory).
func TestDipOfOneBay(t *testing.T) {
	t.Parallel()
	d := plainTop()
	s := plainSheet()
	s.EAlong, s.EAcross, s.EBendAlong, s.EBendAcross, s.Nu = 9000, 9000, 9000, 9000, 0.3
	s.GEdge = 9000 / 2.6
	d.Own[0] = s
	const pitch, rib = 170.0, 12.0
	d.TopSkin.Thickness, d.Crosswise.Thickness = 6, rib
	d.Lengthwise.Positions, d.Crosswise.Positions = nil, nil
	for i := range 5 {
		d.Lengthwise.Positions = append(d.Lengthwise.Positions, 10+pitch*float64(i))
	}
	for i := range 10 {
		d.Crosswise.Positions = append(d.Crosswise.Positions, 35+pitch*float64(i))
	}
	const clear, force = pitch - rib, 400.0
	x, y := 35+4.5*pitch, 10+1.5*pitch
	d.Cases[0].Loads = []Load{{Name: "bay", Kind: Patch, Force: force, X: x, Y: y, SizeX: clear, SizeY: clear}}
	d.Cases[0].Loads = append(d.Cases[0].Loads, Load{Name: "far", Kind: Patch, Force: 1, X: 100, Y: 600, SizeX: 50, SizeY: 50})
	r := refined(t, d, Refined)
	q := force / (clear * clear)
	D := 9000.0 * 6 * 6 * 6 / 12 / 0.91
	clamped := .00126532 * q * math.Pow(clear, 4) / D
	simple := .00406235*q*math.Pow(pitch, 4)/D + .0736714*q*pitch*pitch/(5.0/6*s.GRolling*6)
	c := r.Whole.Cases[0]
	if !(c.Dip.Sag > clamped && c.Dip.Sag < simple) {
		t.Errorf("dip %.4f mm; want it between %.4f clamped and %.4f simply supported", c.Dip.Sag, clamped, simple)
	}
	near(t, "x of the dip", c.Dip.X, x, 1e-9)
	near(t, "y of the dip", c.Dip.Y, y, 1e-9)
	if c.Loads[0].Dip != c.Dip || !(c.Loads[1].Dip.Sag < 0.1*c.Dip.Sag) {
		t.Errorf("dips under the loads %+v and %+v; in all %+v", c.Loads[0].Dip, c.Loads[1].Dip, c.Dip)
	}
	if !(c.Dip.Sag < c.Sag) {
		t.Errorf("dip %.4f of a sag of %.4f", c.Dip.Sag, c.Sag)
	}
}

// What the result holds of every rib and edge. The panel and its load are the
// same from the left and from the right.
func TestResultantsAreTold(t *testing.T) {
	t.Parallel()
	d := plainTop()
	c := refined(t, d, Normal).Whole.Cases[0]
	if len(c.Ribs) != 5+8 || c.Ribs[0].Part != "L1" || c.Ribs[12].Part != "C8" {
		t.Fatalf("%d ribs", len(c.Ribs))
	}
	for _, r := range c.Ribs {
		end, extent := 0.0, d.Width
		if r.Part[0] == 'L' {
			extent = d.Length
		}
		for _, s := range r.Segments {
			near(t, r.Part+": a segment begins where the last ends", s.From+1, end+1, 1e-9)
			end = s.To
		}
		near(t, r.Part+": ends", end, extent, 1e-9)
	}
	l := c.Ribs[2].Segments
	most := 0.0
	for i, s := range l {
		m := l[len(l)-1-i]
		most = max(most, math.Abs(s.Shear))
		near(t, "moment mirrored", m.Moment+1e4, s.Moment+1e4, 1e-6)
		near(t, "shear mirrored", -m.Shear+1e4, s.Shear+1e4, 1e-6)
	}
	if p := c.Ribs[2].Peaks(); p.Shear != most || !(p.Moment > 0) || !(p.Flow > 0) {
		t.Errorf("peaks %+v; largest shear %.3f", p, most)
	}
	if len(c.Slopes) != 4 {
		t.Fatalf("%d slopes", len(c.Slopes))
	}
	near(t, "slope at both ends", c.Slopes[1].Slope, c.Slopes[0].Slope, 1e-6)
	if !(c.Slopes[0].Slope < 0) || !(c.Slopes[2].Slope < 0) {
		t.Errorf("beyond the rails and at the sides the top rises outwards from a load at its middle: slopes %+v", c.Slopes)
	}
	if i := refined(t, d, Interactive).Whole.Cases[0]; i.Ribs != nil || i.Slopes != nil || i.Dip.Sag != 0 {
		t.Error("told while dragging")
	}
}
