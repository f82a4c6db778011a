package engine

import (
	"context"
	"math"
	"reflect"
	"strings"
	"testing"
)

func TestRateOverrun(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	d := plainTop()
	r, err := Compute(ctx, d)
	if err != nil {
		t.Fatal(err)
	}
	none, err := RateOverrun(ctx, d, r, CrosswisePart, 0)
	if err != nil || none.Refused != "" {
		t.Fatalf("%v, %q", err, none.Refused)
	}
	// Nothing past the mark is the top as drawn, and that is the result's own.
	if none.Sag[0] != none.Sag[1] || !reflect.DeepEqual(none.Lowest[0], none.Lowest[1]) || none.Bending[0] != none.Bending[1] || none.Shear[0] != none.Shear[1] {
		t.Errorf("no over-run changes %+v", none)
	}
	near(t, "sag as drawn", none.Sag[0], r.Cases[r.Governing].Sag, 1e-9)
	near(t, "margin as drawn", none.Lowest[0].Value, r.Margins[0].Value, 1e-9)
	for _, kind := range [...]PartKind{LengthwisePart, CrosswisePart} {
		e, err := RateOverrun(ctx, d, r, kind, 12)
		if err != nil || e.Refused != "" {
			t.Fatalf("%v, %q", err, e.Refused)
		}
		// 80 − 40.5 − 12.
		if e.Depth != 52.5 || e.Left != 27.5 {
			t.Errorf("%s: slots %g deep, %g left; want 52.5 and 27.5", kind, e.Depth, e.Left)
		}
		if !(e.Sag[1] > e.Sag[0]) || !(e.Bending[1] < e.Bending[0]) || !(e.Shear[1] < e.Shear[0]) {
			t.Errorf("%s: deeper slots make it no weaker: %+v", kind, e)
		}
		// Shear on the net section goes with what is left of the depth, if the
		// forces stay as they are: 27.5/39.5 = 0.696; softer slotted ribs take a
		// little less, the others more.
		if kind == LengthwisePart {
			near(t, "slot shear", e.SlotShear[1].Value/e.SlotShear[0].Value, 27.5/39.5, 0.15)
		}
		if !(e.SlotBending[1].Value < e.SlotBending[0].Value) {
			t.Errorf("%s: bending at a slot %g, drawn %g", kind, e.SlotBending[1].Value, e.SlotBending[0].Value)
		}
		if text := strings.Join(e.Lines(), " "); !strings.Contains(text, "12.0 mm deeper, 27.5 mm") {
			t.Errorf("%s: %s", kind, text)
		}
		// The marks of a top made so say the same.
		made := d.Clone()
		for i := range 8 {
			if kind == LengthwisePart && i >= 5 {
				break
			}
			made.Built = append(made.Built, Built{Kind: SlotDeeper, Part: RibPart(kind == LengthwisePart, i), Value: 52.5})
		}
		built, err := Compute(ctx, made)
		if err != nil || built.AsBuilt == nil {
			t.Fatalf("as built: %v, %v", err, built.AsBuilt)
		}
		near(t, "sag as built", e.Sag[1], built.AsBuilt.Sag, 1e-9)
		near(t, "margin as built", e.Lowest[1].Value, built.AsBuilt.Margin, 1e-9)
	}
}

func TestRateOverrunRefuses(t *testing.T) {
	t.Parallel()
	d := plainTop()
	r := compute(t, d) // closed form only
	for _, c := range []struct {
		name    string
		kind    PartKind
		overrun float64
		whole   bool
		text    string
	}{
		{"not computed", LengthwisePart, 1, false, "not computed"},
		{"a skin", SkinPart, 1, true, "Only ribs"},
		{"before the mark", LengthwisePart, -1, true, "0 or more"},
		{"not a number", LengthwisePart, math.NaN(), true, "0 or more"},
		{"nothing left", LengthwisePart, 37, true, "leave 2.5 mm"},
	} {
		r := r
		if c.whole {
			r.Whole = &Whole{Mesh: Normal}
		}
		e, err := RateOverrun(context.Background(), d, r, c.kind, c.overrun)
		if err != nil || !strings.Contains(e.Refused, c.text) || len(e.Lines()) != 1 {
			t.Errorf("%s: %q, %v; want %q", c.name, e.Refused, err, c.text)
		}
	}
	done, cancel := context.WithCancel(context.Background())
	cancel()
	r.Whole = &Whole{Mesh: Normal}
	if _, err := RateOverrun(done, d, r, LengthwisePart, 1); err == nil {
		t.Error("a cancelled context is no error")
	}
}
