package plate

import (
	"context"
	"math"
	"testing"
)

func testCell() Cell {
	l := Layer{T: 9, Ex: 9000, Ey: 7000, EBendX: 9000, EBendY: 7000, G: 620, GRoll: 70, EZ: 600, Nu: 0.1}
	return Cell{Pitch: 170, Height: 100, B: 12, SlotWidth: 12, SlotDepth: 50, Flange: 150, Top: l, Bottom: l, E: 8000, EUp: 7000, G: 620, Nu: 0}
}

// Without a slot the cell is a composite beam: by hand, E·A·z² and E·I of both
// skins and the rib about the elastic neutral axis, unequal skins.
func TestCellWithoutSlotIsACompositeBeam(t *testing.T) {
	t.Parallel()
	c := testCell()
	c.Top.T, c.Bottom.Ex = 6, 5000
	ei, _, err := c.solve(context.Background(), false)
	if err != nil {
		t.Fatal(err)
	}
	parts := [...]struct{ e, b, h, z float64 }{{5000, 150, 9, 4.5}, {8000, 12, 100, 59}, {9000, 150, 6, 112}}
	var ea, eaz, want float64
	for _, p := range parts {
		ea += p.e * p.b * p.h
		eaz += p.e * p.b * p.h * p.z
	}
	for _, p := range parts {
		want += p.e*p.b*p.h*p.h*p.h/12 + p.e*p.b*p.h*(p.z-eaz/ea)*(p.z-eaz/ea)
	}
	if math.Abs(ei/want-1) > 1e-6 {
		t.Errorf("EI = %.8g, want %.8g from the composite beam", ei, want)
	}
}

// The shear stiffness of the plain cell lies below G·b·d²/h of stiff skins and
// near the energy of the exact shear flow, (EI)²/∫(ES)²/(G·b) over the web.
func TestCellShearWithoutSlot(t *testing.T) {
	t.Parallel()
	c := testCell()
	c.Top.GRoll, c.Bottom.GRoll = 5000, 5000 // skins that do not shear
	ei, s, err := c.solve(context.Background(), false)
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	const n = 4000
	for i := range n {
		z := -50 + 100*(float64(i)+0.5)/n
		es := 9000*150*9*54.5 + 8000*12*(2500-z*z)/2
		sum += es * es / (620 * 12) * 100 / n
	}
	want := ei * ei / sum
	if math.Abs(s/want-1) > 0.02 {
		t.Errorf("S = %.6g, want %.6g within 2 %%", s, want)
	}
}

func TestSlottedLimitsAndOrder(t *testing.T) {
	t.Parallel()
	c := testCell()
	c.SlotDepth = 1e-6
	if kb, ks, err := c.Slotted(context.Background()); err != nil || math.Abs(kb-1) > 1e-3 || math.Abs(ks-1) > 1e-3 {
		t.Errorf("hardly a slot: kb %g, ks %g, %v; want 1, 1", kb, ks, err)
	}
	lastB, lastS := 0.0, 0.0
	for _, pitch := range []float64{60, 80, 100, 170, 250, 400} {
		c := testCell()
		c.Pitch = pitch
		kb, ks, err := c.Slotted(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		if !(kb > lastB && ks > lastS && kb < 1 && ks < 1) {
			t.Errorf("pitch %g: kb %g, ks %g; want more than at a tighter pitch (%g, %g) and below 1", pitch, kb, ks, lastB, lastS)
		}
		lastB, lastS = kb, ks
		// At a tight pitch next to nothing of the bending is left to lose: 0.002
		// is what the mesh moves it by.
		c.SlotDepth += 10
		kb2, ks2, err := c.Slotted(context.Background())
		if err != nil || !(kb2 < kb+0.002 && ks2 < ks) {
			t.Errorf("pitch %g, deeper slot: kb %g, ks %g, %v; want less than %g, %g", pitch, kb2, ks2, err, kb, ks)
		}
	}
}

// Scaling all lengths or all moduli leaves the factors as they are.
func TestSlottedHasNoScale(t *testing.T) {
	t.Parallel()
	c := testCell()
	kb, ks, err := c.Slotted(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	big := c
	for _, v := range []*float64{&big.Pitch, &big.Height, &big.B, &big.SlotWidth, &big.SlotDepth, &big.Flange, &big.Top.T, &big.Bottom.T} {
		*v *= 3
	}
	for _, v := range []*float64{&big.E, &big.EUp, &big.G, &big.Top.Ex, &big.Top.EZ, &big.Top.GRoll, &big.Bottom.Ex, &big.Bottom.EZ, &big.Bottom.GRoll} {
		*v *= 2
	}
	kb2, ks2, err := big.Slotted(context.Background())
	if err != nil || math.Abs(kb2-kb) > 1e-9 || math.Abs(ks2-ks) > 1e-9 {
		t.Errorf("scaled: kb %.12g, ks %.12g, %v; want %.12g, %.12g", kb2, ks2, err, kb, ks)
	}
}

func TestSlottedRefusesNothingLeft(t *testing.T) {
	t.Parallel()
	for name, spoil := range map[string]func(*Cell){
		"through":  func(c *Cell) { c.SlotDepth = c.Height },
		"too wide": func(c *Cell) { c.SlotWidth = c.Pitch },
		"NaN":      func(c *Cell) { c.SlotDepth = math.NaN() },
		"no rib":   func(c *Cell) { c.B = 0 },
	} {
		c := testCell()
		spoil(&c)
		if _, _, err := c.Slotted(context.Background()); err == nil {
			t.Errorf("%s: no complaint", name)
		}
	}
}

func BenchmarkSlotted(b *testing.B) {
	c := testCell()
	for b.Loop() {
		if _, _, err := c.Slotted(context.Background()); err != nil {
			b.Fatal(err)
		}
	}
}
