package engine

import (
	"math"
	"testing"
)

// The bays of a skin, by hand: three ribs of 12 mm at 66, 350 and 634 across a width
// of 700 and two of 9 mm at 94.5 and 1 505.5 along 1 600, so that the skins stand out
// 60 and 90 mm: 4 × 3 bays, free at the rims. Bands of 20 mm hold them there.
func TestBaysAtTheRims(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Lengthwise.Inset, d.Lengthwise.Count = 60, 3
	d.Crosswise.Inset, d.Crosswise.Count = 90, 2
	bays := d.bays()
	if len(bays) != 4*3 {
		t.Fatalf("%d bays; want 12", len(bays))
	}
	corner, front, middle := bays[0], bays[4], bays[5]
	if corner != (heldBay{bay{0, 90, 0, 60}, true, true}) || front != (heldBay{bay{99, 1501, 0, 60}, false, true}) || middle != (heldBay{bay{99, 1501, 72, 344}, false, false}) {
		t.Errorf("corner %+v, front %+v, middle %+v", corner, front, middle)
	}
	d.EdgeBand = EdgeBand{Material: "plain", Thickness: 20}
	for _, b := range d.bays() {
		if b.freeX || b.freeY || b.x0 < 20 || b.y0 < 20 || b.x1 > 1580 || b.y1 > 680 {
			t.Errorf("with bands: %+v", b)
		}
	}
	d.EdgeBand, d.Lengthwise.Inset, d.Crosswise.Inset = EdgeBand{}, 0, 0
	if n := len(d.bays()); n != 2*1 {
		t.Errorf("ribs flush with the edges leave %d bays; want 2", n)
	}
}

// A skin of 6 mm stands 150 mm out beyond the last ribs along a top bent along its
// length. Every cell there, by hand: pressed along its free side against π²/b² times
// what the plate turning as one piece needs, D11·(b/a)² + 12·D66/π², which is at most
// 2 % more than the exact one; corners 12·D66/b². Across it, and sheared, nothing is counted.
func TestOverhangBuckles(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.TopSkin.Thickness, d.Lengthwise.Inset = 6, 150
	d.Crosswise.Count = 4
	w, mo, m := answersOf(t, &d, Normal)
	got := marginOf(t, mo.wholeMargins(t.Context(), &d, m, w.cases), "skin.top.overhang")
	own, all := w.cases[0].own.Skin(true), w.cases[0].all.Skin(true)
	pitch := (1600 - 9) / 3.0
	cube := 0.8 * 6 * 6 * 6 / 12
	critical := math.Pi*math.Pi*9800*cube/math.Pow(pitch-9, 2) + 12*620*cube/(150*150)
	least := math.Inf(1)
	for i, c := range all {
		if math.Mod(c.X+4.5, pitch) < 9 || c.Y > 150 && c.Y < 550 || !(c.NX < 0) {
			continue
		}
		least = min(least, critical/1.2/-(1.35*own[i].NX+1.5*(c.NX-own[i].NX)))
	}
	if !(got.Value <= least*(1+1e-9) && got.Value > 0.98*least) {
		t.Errorf("margin %.4f; as one piece %.4f", got.Value, least)
	}
	if got.KMod != 1 || got.Part != "top" || got.Y > 150 && got.Y < 550 || got.Unit != "MPa" {
		t.Errorf("told as %+v", got)
	}
	near(t, "capacity over demand", got.Capacity/got.Demand, got.Value, 1e-9)
	// An edge band holds the rim: then it is a bay like others.
	d.EdgeBand = EdgeBand{Material: "plain", Thickness: 20}
	w, mo, m = answersOf(t, &d, Interactive)
	for _, g := range mo.wholeMargins(t.Context(), &d, m, w.cases) {
		if g.Code == "skin.top.overhang" {
			t.Errorf("held by a band: %+v", g)
		}
	}
	// The corner and the two kinds of rim, turned a quarter.
	l := layer(&m.top, d.TopSkin)
	l.EBendX, l.EBendY = l.Ex, l.Ey // as Nu is of these
	b := bay{0, 130, 0, 90}
	along, across := limitOf(heldBay{b, false, true}, l), limitOf(heldBay{bay{0, 90, 0, 130}, true, false}, l.Turned())
	near(t, "turned a quarter", across.y, along.x, 1e-12)
	both := limitOf(heldBay{b, true, true}, l)
	near(t, "corner along", both.x, 12*620*cube/(90*90), 1e-12)
	near(t, "corner across", both.y, 12*620*cube/(130*130), 1e-12)
	if !math.IsInf(along.y, 1) || !math.IsInf(along.shear, 1) || !math.IsInf(both.shear, 1) {
		t.Errorf("counted across or in shear: %+v, %+v", along, both)
	}
}

// Wrinkling by hand: five lengthwise ribs of 12 mm are 60 of 700 mm, eight crosswise
// ones of 9 mm 72 of 1 600 mm; ½·(E skin · 5 000 · 620 · share²)^⅓, four fifths of it, γM
// 1.2 and no kmod. Upright ribs have 9 000 MPa.
func TestWrinklingByHand(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Crosswise.Upright = true
	d.Supports.EndInset, d.Supports.Fastened = 500, true
	d.Cases[0].Loads[0].X, d.Cases[0].Loads[0].SizeX = 150, 200 // hogging: both skins are pressed somewhere
	w, mo, m := answersOf(t, &d, Normal)
	margins := mo.wholeMargins(t.Context(), &d, m, w.cases)
	alongRibs, acrossRibs := 60.0/700, 72.0/1600
	alongs := 0.8 * 0.5 * math.Cbrt(9000*5000*620*alongRibs*alongRibs) / 1.2
	acrosses := 0.8 * 0.5 * math.Cbrt(5000*9000*620*acrossRibs*acrossRibs) / 1.2
	for code, top := range map[string]bool{"skin.top.wrinkling": true, "skin.bottom.wrinkling": false} {
		thick := map[bool]float64{true: 9, false: 6}[top]
		own, all := w.cases[0].own.Skin(top), w.cases[0].all.Skin(top)
		least := math.Inf(1)
		for i, c := range all {
			for _, v := range [...][3]float64{{own[i].NX, c.NX, alongs}, {own[i].NY, c.NY, acrosses}} {
				factor := 1.35
				if v[0] > 0 {
					factor = 1
				}
				if asked := -factor*v[0] + 1.5*math.Max(0, v[0]-v[1]); asked > 0 {
					least = min(least, v[2]*thick/asked)
				}
			}
		}
		near(t, code, marginOf(t, margins, code).Value, least, 1e-9)
	}
}

// The rule for dimpling told beside a bay, by hand for plies that differ: the softer
// way, 4 400 MPa, over the shorter side, 80 mm, with ν1·ν2 = .1²·4 400/9 800; four fifths.
func TestDimplingBesideABay(t *testing.T) {
	t.Parallel()
	m := plainTop().materials()
	l := layer(&m.bottom, Skin{Material: "plain", Thickness: 6})
	want := 0.8 * 2 * 4400 / (1 - 0.01*4400/9800) * 36 / 6400
	near(t, "dimpling", dimpling(l, bay{0, 120, 0, 80}), want, 1e-12)
	// Turned, .1 along becomes .1·5 000/9 000, that of the sheet in its plane.
	turned := 0.8 * 2 * 4400 / (1 - math.Pow(0.1*5000/9000, 2)*9800/4400) * 36 / 6400
	near(t, "turned", dimpling(l.Turned(), bay{0, 80, 0, 120}), turned, 1e-12)
}
