package engine

import (
	"context"
	"math"
	"testing"

	"flatwright/engine/plate"
)

// wholeHand works the margins of plainTop out from what the whole panel's skins
// and ribs carry, apart from the engine: strengths, factors, areas and section
// moduli are written out as numbers. That what they carry is right is held in the
// leaf, by statics and by plate theory.
type wholeHand struct{ lowest map[string]float64 }

// take sets a characteristic strength against what own weight and loads do;
// kmod .9 for short loads on plywood in a heated room and γM 1.2, EN 1995-1-1
// Tables 3.1 and 2.3; 1.35 and 1.5 of EN 1990. Own weight that helps counts once.
func (h *wholeHand) take(code string, strength, own, load float64) {
	f := 1.35
	if own < 0 {
		f = 1
	}
	demand := f*own + 1.5*math.Max(0, load)
	if !(demand > 1e-9) {
		return
	}
	if v := strength * 0.9 / 1.2 / demand; h.lowest[code] == 0 || v < h.lowest[code] {
		h.lowest[code] = v
	}
}

// either takes both senses.
func (h *wholeHand) either(code string, strength, own, load float64) {
	h.take(code, strength, own, load)
	h.take(code, strength, -own, -load)
}

// plateShear is the critical shear of a plate a × b, by formula: (5.34 +
// 4·(short/long)²)·π²·D/short², D = (D_long·D_short³)^¼, textbook, from memory.
func plateShear(a, b, dx, dy float64) float64 {
	if a < b {
		return plateShear(b, a, dy, dx)
	}
	return (5.34 + 4*b*b/(a*a)) * math.Pi * math.Pi * math.Pow(dx*dy*dy*dy, 0.25) / (b * b)
}

// plateStrip is the critical pressure along a of a plate a × b held on four
// sides, whatever the number of waves: Navier, textbook.
func plateStrip(a, b, dx, dy, h float64) float64 {
	least := math.Inf(1)
	for m := 1.0; m < 60; m++ {
		r := m * b / a
		least = math.Min(least, math.Pi*math.Pi/(b*b)*(dx*r*r+2*h+dy/(r*r)))
	}
	return least
}

func TestWholeMarginsByHand(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.TopSkin.Across = true // skins of different direction and thickness
	l := &d.Cases[0].Loads[0]
	l.X, l.Y = 640, 230 // off the middle, so that everything is sheared
	w, mo, m := answersOf(t, &d, Normal)
	margins := mo.wholeMargins(context.Background(), &d, m, w.cases)
	own, all := w.cases[0].own, w.cases[0].all
	h := &wholeHand{map[string]float64{}}
	h.take("skin.punching", 2.3, 0, 800/(2*(300+250)*9.0))

	// Skins: N/t ± 6·M/t², the bending turned into the stress it would be in the
	// plane, by the ratio of the strengths. Top laid across: 29, 21, 33 MPa along.
	ys, xs := d.RibPlaces()
	for _, s := range []struct {
		id             string
		top            bool
		t              float64
		ft, fc, fb     [2]float64 // along, across
		ebx, eby, poly float64    // bending moduli, Poisson's number x to y
	}{
		{"skin.top", true, 9, [2]float64{29, 37}, [2]float64{21, 26}, [2]float64{33, 41}, 4400, 9800, 0.1 * 5000 / 9000},
		{"skin.bottom", false, 6, [2]float64{37, 29}, [2]float64{26, 21}, [2]float64{41, 33}, 9800, 4400, 0.1},
	} {
		was, is := own.Skin(s.top), all.Skin(s.top)
		for i, c := range is {
			o := was[i]
			h.either(s.id+".shear", 9.5, o.NXY/s.t, (c.NXY-o.NXY)/s.t)
			for way, v := range [2][4]float64{{o.NX, o.FX, c.NX - o.NX, c.FX - o.FX}, {o.NY, o.FY, c.NY - o.NY, c.FY - o.FY}} {
				dir := [2]string{".along", ".across"}[way]
				for _, face := range []float64{-6, 6} {
					if c.Rib { // the skin's own bending is the joint's there
						face = 0
					}
					bent := func(f float64) (a, b float64) {
						r := face / (s.t * s.t) * f / s.fb[way]
						return v[0]/s.t + v[1]*r, v[2]/s.t + v[3]*r
					}
					a, b := bent(s.ft[way])
					h.take(s.id+".tension"+dir, s.ft[way], a, b)
					a, b = bent(s.fc[way])
					h.take(s.id+".compression"+dir, s.fc[way], -a, -b)
				}
			}
			// The clear bay that the cell lies in, .8 of the mean stiffness.
			for k := range xs[1:] {
				for j := range ys[1:] {
					x0, x1, y0, y1 := xs[k]+4.5, xs[k+1]-4.5, ys[j]+6, ys[j+1]-6
					if c.Rib || c.X < x0 || c.X > x1 || c.Y < y0 || c.Y > y1 {
						continue
					}
					cube := 0.8 * s.t * s.t * s.t / 12
					dx, dy := s.ebx*cube, s.eby*cube
					twist := s.poly*dy + 2*620*cube
					cx, cy := plateStrip(x1-x0, y1-y0, dx, dy, twist), plateStrip(y1-y0, x1-x0, dy, dx, twist)
					cs := plateShear(x1-x0, y1-y0, dx, dy)
					// Each part of what it can bear, added up.
					var po, pl float64
					if c.NX < 0 {
						po, pl = po-o.NX/cx, pl-(c.NX-o.NX)/cx
					}
					if c.NY < 0 {
						po, pl = po-o.NY/cy, pl-(c.NY-o.NY)/cy
					}
					sign := math.Copysign(1, c.NXY)
					po, pl = po+sign*o.NXY/cs, pl+sign*(c.NXY-o.NXY)/cs
					h.take(s.id+".buckling", 1/0.9, po, pl) // stiffness, not strength: no kmod
				}
			}
		}
	}

	// Ribs. Slots: half of the depth and .5 more, 9.2 and 12.2 mm wide.
	p := d.WholePanel(1)
	for _, r := range []struct {
		along           bool
		dir             string
		ribs            []plate.Rib
		b, slot, ft, fc float64
		mates           []float64
		half, extent    float64
	}{
		{true, ".along", p.Along, 12, 9.2, 37, 26, xs, 4.5, 1600},
		{false, ".across", p.Across, 9, 12.2, 37, 26, ys, 6, 700},
	} {
		cr := math.Pi * math.Pi * 5000 * 0.8 * r.b * r.b / (12 * 80 * 80)
		for n := range r.ribs {
			was, is := own.Rib(r.along, n), all.Rib(r.along, n)
			kb := r.ribs[n].Own
			for i, c := range is {
				o := was[i]
				// upright between the skins, on edge: 21 MPa, unless it bows before
				h.take("rib.strut"+r.dir, math.Min(21, cr), -o.Upright, o.Upright-c.Upright)
				h.either("rib.shear"+r.dir, 9.5, o.FlowTop/r.b, (c.FlowTop-o.FlowTop)/r.b)
				h.either("rib.shear"+r.dir, 9.5, o.FlowBottom/r.b, (c.FlowBottom-o.FlowBottom)/r.b)
				h.either("rib.shear"+r.dir, 9.5, o.V/(80*r.b), (c.V-o.V)/(80*r.b))
				h.either("rib.slot.shear"+r.dir, 9.5, o.V/(39.5*r.b), (c.V-o.V)/(39.5*r.b))
				// 12 mm and 9 mm are under eight skin thicknesses: no reduction.
				h.either("glue.top"+r.dir, 2.3, o.FlowTop/r.b, (c.FlowTop-o.FlowTop)/r.b)
				h.either("glue.bottom"+r.dir, 2.3, o.FlowBottom/r.b, (c.FlowBottom-o.FlowBottom)/r.b)
				lo, hi := 0.0, r.extent
				for _, at := range r.mates {
					if at <= c.At {
						lo = math.Max(lo, at+r.half)
					} else {
						hi = math.Min(hi, at-r.half)
					}
				}
				cube := 0.8 * r.b * r.b * r.b / 12
				field := math.Max(hi-lo, 2*r.half)
				h.either("rib.buckling"+r.dir, plateShear(field, 80, 9800*cube, 4400*cube)/r.b/0.9, o.V/(80*r.b), (c.V-o.V)/(80*r.b))
				for _, face := range []float64{-1, 1} {
					fibre := func(n, m float64) float64 { return (n/80 + face*6*m/(80*80)) / (r.b * kb) }
					a, b := fibre(o.N, o.M), fibre(c.N-o.N, c.M-o.M)
					h.take("rib.bending"+r.dir, r.ft, a, b)
					h.take("rib.bending"+r.dir, r.fc, -a, -b)
					for _, turn := range []float64{-1, 1} {
						net := turn * r.slot / 2 / (r.b * 39.5 * 39.5 / 6)
						h.either("rib.slot.bending"+r.dir, 26, a+net*o.V, b+net*(c.V-o.V))
					}
				}
			}
		}
	}
	seen := 0
	for _, g := range margins {
		want, ok := h.lowest[g.Code]
		if !ok {
			continue // bearing and tipping have hand checks of their own
		}
		seen++
		near(t, g.Code, g.Value, want, 1e-9)
		delete(h.lowest, g.Code)
	}
	for code, v := range h.lowest {
		if v < TimesCap {
			t.Errorf("no margin %s, by hand %g", code, v)
		}
	}
	if seen < 24 {
		t.Errorf("%d margins compared; want all of skins, ribs and glue lines", seen)
	}
}

// Moments about a rail 400 mm in, by hand: nine tenths of the weight half of 1 600
// less 400 mm on this side, 1.5 times 650 N at the rim on the other. On a rail flush with
// the end nothing tips.
func TestTippingByHand(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Supports.EndInset = 400
	g := marginOf(t, d.tipping(200), "tipping")
	near(t, "holds", g.Capacity, 0.9*200*(800-400)/1000, 1e-12)
	near(t, "tips", g.Demand, 1.5*650*400/1000, 1e-12)
	near(t, "margin", g.Value, 72.0/390, 1e-12)
	d.Supports = Supports{Kind: FourLegs, EndInset: 20, SideInset: 150, Bearing: 60}
	all := d.tipping(200)
	if len(all) != 1 || all[0].Code != "tipping.sides" {
		t.Fatalf("%+v; want the long sides alone", all)
	}
	near(t, "sides hold", all[0].Capacity, 0.9*200*(350-150)/1000, 1e-12)
	near(t, "sides tip", all[0].Demand, 1.5*650*150/1000, 1e-12)
	d.Supports.SideInset = 30
	if all := d.tipping(200); len(all) > 0 {
		t.Errorf("flush with its edges it tips: %+v", all)
	}
}

// Aprons as beams, by hand from what they carry: 6·M/(b·h²) against the weaker of pull and
// push in the sheet's plane, 26 MPa, and 1.5·V/(b·h) against 9.5 MPa.
func TestApronMarginsByHand(t *testing.T) {
	t.Parallel()
	d := withAprons()
	d.Cases[0].Loads[0].Y = 90
	w, mo, m := answersOf(t, &d, Interactive)
	margins := mo.wholeMargins(context.Background(), &d, m, w.cases)
	h := &wholeHand{map[string]float64{}}
	for i := range d.aprons(m) {
		was := w.cases[0].own.Beam(i)
		for j, c := range w.cases[0].all.Beam(i) {
			h.either("apron.bending", 26, was[j].M*6/(20*90*90), (c.M-was[j].M)*6/(20*90*90))
			h.either("apron.shear", 9.5, was[j].V*1.5/(20*90), (c.V-was[j].V)*1.5/(20*90))
		}
	}
	if len(h.lowest) != 2 {
		t.Fatalf("%v; want bending and shear", h.lowest)
	}
	for code, want := range h.lowest {
		near(t, code, marginOf(t, margins, code).Value, want, 1e-9)
	}
}
