package engine

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"

	"flatwright/engine/catalog"
	"flatwright/engine/plate"
)

// stiffer is by how much the second sheet of whatIfTop is stiffer.
const stiffer = 1.03

// whatIfTop is a small top with prices and a second sheet like the first but
// stiffer in every way.
func whatIfTop() Design {
	d := smallTop()
	thick := []catalog.Thickness{{Nominal: "6 mm", Actual: 6}, {Nominal: "9 mm", Actual: 9}, {Nominal: "12 mm", Actual: 12}, {Nominal: "15 mm", Actual: 15}}
	d.Own[0].Thicknesses = thick
	stiff := d.Own[0]
	stiff.Key, stiff.Name = "stiff", "Stiffer sheet"
	for _, v := range []*float64{&stiff.EAlong, &stiff.EAcross, &stiff.EBendAlong, &stiff.EBendAcross, &stiff.GEdge, &stiff.GRolling} {
		*v *= stiffer
	}
	d.Own = append(d.Own, stiff)
	for _, m := range d.Own {
		for _, t := range thick {
			d.Prices = append(d.Prices, Price{Material: m.Key, Thickness: t.Actual, Sheet: 10 * t.Actual, Length: 2440, Width: 1220})
		}
	}
	return d
}

// applied is the design with a knob's step, by its field's name and not by the
// knob's own code.
func applied(t *testing.T, d Design, field string, s *KnobStep) Design {
	t.Helper()
	e := d.Clone()
	switch field {
	case "coreDepth":
		e.CoreDepth = s.Value
	case "topSkin.thickness":
		e.TopSkin.Thickness = s.Value
	case "bottomSkin.thickness":
		e.BottomSkin.Thickness = s.Value
	case "lengthwise.thickness":
		e.Lengthwise.Thickness = s.Value
	case "crosswise.thickness":
		e.Crosswise.Thickness = s.Value
	case "lengthwise.count":
		e.Lengthwise.Count = int(s.Value)
	case "crosswise.count":
		e.Crosswise.Count = int(s.Value)
	case "supports.endInset":
		e.Supports.EndInset = s.Value
	case "topSkin.material":
		e.TopSkin.Material, e.TopSkin.Thickness = s.Material, s.Value
	case "bottomSkin.material":
		e.BottomSkin.Material, e.BottomSkin.Thickness = s.Material, s.Value
	case "lengthwise.material":
		e.Lengthwise.Material, e.Lengthwise.Thickness = s.Material, s.Value
	case "crosswise.material":
		e.Crosswise.Material, e.Crosswise.Thickness = s.Material, s.Value
	default:
		t.Fatalf("no field %q", field)
	}
	return e
}

func whatIfOf(t *testing.T, d Design) (r Result) {
	t.Helper()
	done, of := 0, 0
	r, err := WhatIf(t.Context(), d, refined(t, d, WhatIfMesh), func(a, b int) {
		if a != done+1 || b < a || b < of {
			t.Errorf("progress %d of %d after %d of %d", a, b, done, of)
		}
		done, of = a, b
	})
	if err != nil || r.WhatIf == nil || r.WhatIf.Panels != done || done != of {
		t.Fatalf("%v, %+v; told %d of %d panels", err, r.WhatIf, done, of)
	}
	return r
}

// Every step is the difference between two whole panels on one mesh, each
// computed by the ordinary door.
func TestWhatIfIsComputed(t *testing.T) {
	t.Parallel()
	d := whatIfTop()
	r := whatIfOf(t, d)
	now := refined(t, d, WhatIfMesh)
	near(t, "sag of the design itself", r.WhatIf.Sag, now.Cases[0].Sag, 1e-12)
	seen := 0
	for i, k := range r.Knobs {
		for j, s := range []*KnobStep{k.Up, k.Down} {
			if s == nil {
				continue
			}
			seen++
			if (i+j)%2 > 0 || testing.Short() && i%4 > 0 {
				continue
			}
			then := refined(t, applied(t, d, k.Field, s), WhatIfMesh)
			near(t, k.Field+" sag", s.Sag, then.Cases[0].Sag-now.Cases[0].Sag, 1e-9)
			near(t, k.Field+" mass", s.Mass, then.Mass.Total-now.Mass.Total, 1e-9)
			near(t, k.Field+" margin", s.Margin, then.Margins[0].Value-now.Margins[0].Value, 1e-9)
			if s.Priced {
				near(t, k.Field+" cost", s.Cost, then.Cost.Total-now.Cost.Total, 1e-9)
			}
			if priced := s.Material == "" || s.Material == "stiff"; s.Priced != priced {
				t.Errorf("%s: priced %v, want %v", k.Field, s.Priced, priced)
			}
		}
	}
	// 8 numbers both ways and 4 materials at least up; what cannot be built has no
	// step.
	if seen < 18 {
		t.Errorf("%d steps; want more", seen)
	}
	if again, err := Refine(t.Context(), d, r, Interactive); err != nil || again.WhatIf != nil {
		t.Errorf("after another mesh %v, %+v; want estimates again", err, again.WhatIf)
	}
}

// The curve goes down with depth, holds the design itself, and its exponent is
// that of its neighbours; the depth needed meets the limit and a millimetre less
// does not.
func TestWhatIfDepth(t *testing.T) {
	t.Parallel()
	d := whatIfTop()
	d.Limits.Sag = 0.93 * refined(t, d, Normal).Cases[0].Sag
	r := whatIfOf(t, d)
	c := r.Depth.Curve
	at := slices.IndexFunc(c, func(p DepthPoint) bool { return p.CoreDepth == d.CoreDepth })
	if at < 1 || len(c) < 6 {
		t.Fatalf("the curve %v does not hold the present depth", c)
	}
	for i := range len(c) - 1 {
		if !(c[i+1].Sag < c[i].Sag && c[i+1].CoreDepth > c[i].CoreDepth && c[i+1].Mass > c[i].Mass) {
			t.Errorf("from %+v to %+v; want deeper, heavier, less sag", c[i], c[i+1])
		}
	}
	sag := func(core float64) float64 {
		e := d.Clone()
		e.CoreDepth = core
		return refined(t, e, WhatIfMesh).Cases[0].Sag
	}
	near(t, "sag at another depth", c[at+1].Sag, sag(c[at+1].CoreDepth), 1e-9)
	// by its own power the lower neighbour's sag becomes the upper one's
	near(t, "exponent", c[at-1].Sag*math.Pow(c[at+1].CoreDepth/c[at-1].CoreDepth, -r.Depth.Exponent), c[at+1].Sag, 1e-12)
	n := r.Depth.Needed
	if meets, fails := sag(n), sag(n-1); !(n > 0 && meets <= d.Limits.Sag && fails > d.Limits.Sag) {
		t.Errorf("needed %g mm: %g mm there, %g mm at one less; the limit is %g mm", n, meets, fails, d.Limits.Sag)
	}
}

// The least depth is found on any curve, with few panels.
func TestNeededAmong(t *testing.T) {
	t.Parallel()
	d := plainTop()
	for _, power := range []float64{0.3, 1, 2.4} {
		for _, limit := range []float64{0.011, 0.05, 0.1, 0.1001, 0.4, 3} {
			d.Limits.Sag = limit
			looked := 0
			sag := func(core float64) (float64, bool) {
				looked++
				return 0.1*math.Pow(core/d.CoreDepth, -power) + 0.01, true
			}
			var curve []DepthPoint
			for _, f := range whatIfDepths {
				v, _ := sag(d.CoreDepth * f)
				curve = append(curve, DepthPoint{CoreDepth: d.CoreDepth * f, Sag: v})
			}
			looked = 0
			got := d.neededAmong(curve, sag)
			used := looked
			want := neededDepth(d, func(core float64) (float64, float64) { v, _ := sag(core); return v, 0 })
			if got != want || used > 9 {
				t.Errorf("power %g, limit %g: %g mm after %d panels, want %g", power, limit, got, used, want)
			}
		}
	}
}

// What would tip is no step, and where nothing holds the top nothing is told.
func TestWhatIfOnTheBrink(t *testing.T) {
	t.Parallel()
	d := whatIfTop()
	d.Supports.EndInset = 95
	d.Cases[0].Loads[0] = Load{Name: "end", Kind: Patch, Force: 260, X: 40, Y: d.Width / 2, SizeX: 20, SizeY: 20}
	r := refined(t, d, Interactive)
	if r.Whole == nil {
		t.Fatal("the top tips as it is; want it on the brink")
	}
	w, err := WhatIf(t.Context(), d, r, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range w.Knobs {
		if k.Field == "supports.endInset" && k.Up != nil {
			e := applied(t, d, k.Field, k.Up)
			if _, err := wholeCases(t.Context(), &e, w.Mass.Total*Gravity, Interactive); errors.Is(err, plate.ErrLoose) {
				t.Errorf("a step to %g mm that tips is told: %+v", k.Up.Value, *k.Up)
			}
		}
	}
	d.Cases[0].Loads[0].Force = 4000
	r = refined(t, d, Interactive)
	if w, err := WhatIf(t.Context(), d, r, nil); err != nil || w.WhatIf != nil || r.Whole != nil {
		t.Errorf("a top that tips: %v, %+v", err, w.WhatIf)
	}
}

func TestWhatIfCancelled(t *testing.T) {
	t.Parallel()
	d := whatIfTop()
	r := refined(t, d, Interactive)
	ctx, cancel := context.WithCancel(t.Context())
	panels := 0
	_, err := WhatIf(ctx, d, r, func(int, int) {
		if panels++; panels == 2 {
			cancel()
		}
	})
	if !errors.Is(err, context.Canceled) || panels != 2 {
		t.Errorf("ended after the second panel: error %v after %d", err, panels)
	}
}
