package engine

import (
	"context"
	"math"
	"strings"
	"testing"
)

// problemOf returns the first problem with a code.
func problemOf(d Design, code string) (Problem, bool) {
	for _, p := range problemsOf(d) {
		if p.Code == code {
			return p, true
		}
	}
	return Problem{}, false
}

func TestRibsProudByHand(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name     string
		measured []RibMeasure
		code     string // "" is nothing to say
		part     string
		text     string
	}{
		// plainTop: 80 mm high, slots 40.5 deep, L open upwards and lie on the bed.
		{"all as drawn", []RibMeasure{{Part: "L1", Height: 80, SlotDepth: 40.5}}, "", "", ""},
		{"a glue line bridges it", []RibMeasure{{Part: "L1", Height: 80.15}}, "", "", ""},
		{"one rib high", []RibMeasure{{Part: "C3", Height: 80.4}}, "rib-proud", "C3", "ribs L1, L2, L3 and 9 more lie lower by up to 0.4 mm"},
		{"one rib low", []RibMeasure{{Part: "L2", Height: 79.7}}, "rib-proud", "L1", "rib L2 lies lower by up to 0.3 mm"},
		{"two low", []RibMeasure{{Part: "L2", Height: 79.7}, {Part: "C8", Height: 79.5}}, "rib-proud", "L1", "ribs L2 and C8 lie lower by up to 0.5 mm"},
		{"all of a kind low, one of them right", []RibMeasure{{Part: "crosswise rib", Height: 79.5}, {Part: "C1", Height: 80}}, "rib-proud", "L1", "ribs C2, C3, C4 and 4 more"},
		{"the later reading holds", []RibMeasure{{Part: "C3", Height: 80.4}, {Part: "C3", Height: 80.1}}, "", "", ""},
		// 80 − 40.5 − 39.2 = 0.3 mm of wood too much; C4 stands on every L.
		{"slot too shallow", []RibMeasure{{Part: "C4", SlotDepth: 39.2}}, "rib-not-home", "C4", "at the crossing with L1 the two slots together are 0.3 mm too shallow"},
		// 80.6 − 40.1 − 40.5 = 0, but the rib itself is 0.6 higher.
		{"high with its slot deepened", []RibMeasure{{Part: "L2", Height: 80.6, SlotDepth: 40.1}}, "rib-proud", "L2", "0.6 mm"},
		// 80 − 39 − 40.5 = 0.5 at L2 alone: all eight C stand on it.
		{"all stand on one", []RibMeasure{{Part: "L2", SlotDepth: 39}}, "rib-not-home", "C1", "with L2 the two slots together are 0.5 mm too shallow, so it stands that much off the lower skin, which would not glue to it. So do 7 more."},
		// The relief of 1 mm in both slots takes up shallow slots.
		{"relief takes it up", []RibMeasure{{Part: "lengthwise rib", SlotDepth: 39.7}, {Part: "C2", SlotDepth: 40.3}}, "", "", ""},
	} {
		d := plainTop()
		d.Measured = c.measured
		var got []Problem
		for _, p := range problemsOf(d) {
			if p.Code == "rib-proud" || p.Code == "rib-not-home" {
				got = append(got, p)
			}
		}
		if c.code == "" {
			if len(got) > 0 {
				t.Errorf("%s: %v", c.name, got)
			}
			continue
		}
		if len(got) == 0 || got[0].Code != c.code || got[0].Part != c.part || got[0].Severity != Shortfall || !strings.Contains(got[0].Text, c.text) {
			t.Errorf("%s: %+v; want %s of %s with %q", c.name, got, c.code, c.part, c.text)
		}
	}
}

func TestRibsTurnedRoundStandTheOtherWay(t *testing.T) {
	t.Parallel()
	// With the lengthwise slots downwards the crosswise ribs lie on the bed, and
	// a shallow slot of C4 holds up every lengthwise rib.
	d := plainTop()
	d.Slots.LengthwiseDown = true
	d.Measured = []RibMeasure{{Part: "C4", SlotDepth: 39.2}}
	if p, ok := problemOf(d, "rib-not-home"); !ok || p.Part != "L1" || !strings.Contains(p.Text, "with C4") || !strings.Contains(p.Text, "So do 4 more") {
		t.Errorf("%+v, %v", p, ok)
	}
	// A slot marked as deeper makes up for it: 80 − 41 − 39.2 < 0 only where it is.
	for _, part := range []string{"L1", "L2", "L3", "L4", "L5"} {
		d.Built = append(d.Built, Built{Kind: SlotDeeper, Part: part, Value: 41})
	}
	if p, ok := problemOf(d, "rib-not-home"); ok {
		t.Errorf("with deeper slots: %+v", p)
	}
}

func TestReadingsRefused(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		m    RibMeasure
		code string
	}{
		{RibMeasure{Part: "L6"}, "measured-part"},
		{RibMeasure{Part: "top", Height: 80}, "measured-part"},
		{RibMeasure{Part: "C1", Height: 39}, "measured-height"},
		{RibMeasure{Part: "C1", Height: 121}, "measured-height"},
		{RibMeasure{Part: "crosswise rib", Height: -80}, "measured-height"},
		{RibMeasure{Part: "C1", SlotDepth: -1}, "measured-slot"},
		{RibMeasure{Part: "C1", SlotDepth: 77.5}, "measured-slot"},
		{RibMeasure{Part: "crosswise rib", Height: 70, SlotDepth: 68}, "measured-slot"},
	} {
		d := plainTop()
		d.Measured = []RibMeasure{c.m}
		if p, ok := problemOf(d, c.code); !ok || p.Severity != Blocking || !strings.HasPrefix(p.Field, "ribsMeasured[0].") {
			t.Errorf("%+v: %+v; want %s", c.m, problemsOf(d), c.code)
		}
	}
	d := plainTop()
	d.Measured = make([]RibMeasure, maxMeasured+1)
	if _, ok := problemOf(d, "too-many-readings"); !ok {
		t.Errorf("%d readings: %v", len(d.Measured), problemsOf(d))
	}
	d.Measured, d.Tools.Rail.Blade = nil, -1
	if p, ok := problemOf(d, "tool-size"); !ok || p.Field != "tools.rail.blade" {
		t.Errorf("saw of −1 mm: %v", problemsOf(d))
	}
}

func TestCoreAsMeasured(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Measured = []RibMeasure{{Part: "lengthwise rib", Height: 79}, {Part: "crosswise rib", Height: 79}}
	if p, ok := problemOf(d, "core-measured"); !ok || p.Severity != Advice || !strings.Contains(p.Text, "79 mm on average") {
		t.Errorf("%v", problemsOf(d))
	}
	d.CoreDepth = 79.5
	if p, ok := problemOf(d, "core-measured"); ok {
		t.Errorf("within a hundredth: %v", p)
	}
}

func TestSlotsWidenForMoisture(t *testing.T) {
	t.Parallel()
	// 9.4 mm thickest reading, .003 for each of 4 points: 9.4·1.012 + 0.2 = 9.7128.
	d := plainTop()
	d.Crosswise.Thickest, d.Slots.MoistureRise = 9.4, 4
	near(t, "slot width", d.SlotWidth(d.Crosswise), 9.7128, 1e-12)
	near(t, "slot of a part", compute(t, d).Parts[2].Slots[2].Width, 9.7128, 1e-12)
	dry := d
	dry.Slots.MoistureRise = 0
	if got := dry.SlotWidth(d.Crosswise); got != 9.4+0.2 {
		t.Errorf("without moisture %v; want as before", got)
	}
	// The wider slot weighs less by its own volume: both ways of weighing say so.
	m := d.materials()
	near(t, "mass by parts and by sums", compute(t, d).Mass.Total, d.mass(&m), 1e-9)
	if a, b := compute(t, d).Mass.Total, compute(t, dry).Mass.Total; a >= b {
		t.Errorf("with wider slots %g kg, without %g kg", a, b)
	}
	for _, rise := range []float64{-0.1, 15.1} {
		d.Slots.MoistureRise = rise
		if _, ok := problemOf(d, "slot-moisture"); !ok {
			t.Errorf("a rise of %g: %v", rise, problemsOf(d))
		}
	}
	// 35 ribs stand (700 − 12)/34 = 20.24 mm apart: slots of 12.2 mm leave 8.04
	// of the 8 that must stay, at 15 points slots of 12·1.045 + 0.2 = 12.74 do not.
	d = plainTop()
	d.Lengthwise.Count = 35
	if _, ok := problemOf(d, "slots-meet"); ok {
		t.Errorf("dry: %v", problemsOf(d))
	}
	d.Slots.MoistureRise = 15
	if _, ok := problemOf(d, "slots-meet"); !ok {
		t.Errorf("moist: %v", problemsOf(d))
	}
}

func TestReadingsChangeNoAnswer(t *testing.T) {
	t.Parallel()
	d := plainTop()
	before, err := Estimate(context.Background(), d)
	if err != nil {
		t.Fatal(err)
	}
	d.Measured = []RibMeasure{{Part: "C3", Height: 80.4}}
	after, err := Estimate(context.Background(), d)
	if err != nil {
		t.Fatal(err)
	}
	if a, b := before.Cases[0].Sag, after.Cases[0].Sag; a != b || math.IsNaN(a) {
		t.Errorf("sag %g, with a reading %g", a, b)
	}
}
