package engine

import (
	"math"
	"slices"
	"testing"

	"flatwright/engine/section"
)

// The loss of plates: none under two of full length, some where one cheek has no
// room, more where the bay cuts them short; a scarf costs no stiffness. Closed
// form and whole panel both count it.
func TestSpliceLoss(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Crosswise.Count = 3 // bays of 782 mm
	sheet := plainSheet()
	direct := func(part string, at float64, plates bool) float64 {
		v, _, _ := d.gives(Splice{part, at, plates}, &sheet, d.Lengthwise)
		return v
	}
	if v := direct("L2", 400, false); v != 0 {
		t.Errorf("a scarf adds %g mm", v)
	}
	if v := direct("L2", 400, true); v != 0 {
		t.Errorf("two plates of 300 mm add %g mm", v)
	}
	// L1 lies flush with the edge: one plate, T = 12, half 150, E = 9000, G = 170.
	want := section.Straps{T: 12, Half: 150, Faces: 1, E: 9000, G: 170}.Give()
	near(t, "one plate", direct("L1", 400, true), math.Max(0, want), 1e-12)
	short := direct("L1", 840, true) // 31 mm beyond the face of the rib at 800
	if !(short > direct("L1", 400, true)) {
		t.Errorf("a plate cut short adds %g mm", short)
	}
	bare, bareMesh := compute(t, d).Cases[0].Sag, refined(t, d, Interactive).Cases[0].Sag
	d.Splices = []Splice{{"L2", 840, true}, {"L3", 840, true}, {"L4", 840, true}}
	if got := compute(t, d).Cases[0].Sag; !(got > bare) {
		t.Errorf("closed form: sag %.6f with short plates, %.6f without splices", got, bare)
	}
	if got := refined(t, d, Interactive).Cases[0].Sag; !(got > bareMesh) {
		t.Errorf("whole panel: sag %.6f with short plates, %.6f without splices", got, bareMesh)
	}
	d.Splices = []Splice{{"L2", 400, false}}
	if n := len(d.WholePanel(1).Splices); n != 0 {
		t.Errorf("a scarf is %d soft stretches", n)
	}
}

// A joint that adds ℓ of rib at x takes 2ℓ/L·sin²(πx/L) from one rib of five; here
// x is 21/40 of L, sin² = 0.993844.
func TestSpliceOfTheClosedForm(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Crosswise.Count = 3
	sheet := plainSheet()
	d.Splices = []Splice{{"L1", 840, true}}
	more, sheared, _ := d.gives(d.Splices[0], &sheet, d.Lengthwise)
	if !(more > 0) {
		t.Fatalf("this joint gives %g mm; the test says nothing", more)
	}
	bending, shear := d.spliced(&sheet, true, 1600)
	near(t, "bending", bending, (4+1/(1+2*more/1600*0.993844))/5, 1e-6)
	near(t, "shear", shear, (4+1/(1+2*sheared/1600*0.006156))/5, 1e-6)
}

// A scarf of 96 mm that keeps 0.05 mm from a slot of 9.2 mm runs into it once the slot is drawn
// for 10 points more moisture, 0.003 · 9 · 10 = 0.27 mm wider; so does a hole that was just clear of it.
func TestSwollenSlotsTakeRoom(t *testing.T) {
	t.Parallel()
	d := plainTop()
	_, xs := d.RibPlaces()
	d.Splices = []Splice{{Part: "L2", At: xs[3] + 4.6 + 48 + 0.05}}
	d.Holes = []Hole{{Kind: CableHole, Part: "L4", X: xs[2] + 4.6 + 10 + minBridge + 0.05, Up: 40, Diameter: 20}}
	if got := codes(compute(t, d).Problems); slices.Contains(got, "splice-at-slot") || slices.Contains(got, "hole-in-slot") {
		t.Errorf("clear of the slots: %v", got)
	}
	d.Slots.MoistureRise = 10
	if got := codes(Validate(d, d.Material, Catalogue().Glue)); !slices.Contains(got, "splice-at-slot") || !slices.Contains(got, "hole-in-slot") {
		t.Errorf("with wider slots: %v", got)
	}
}
