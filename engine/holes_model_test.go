package engine

import (
	"math"
	"testing"
)

// What the whole panel is told of a rib's hole: 30 mm through 80 mm, its middle 34 mm up. A square of
// its area has 26.587 mm; 53.413 of 80 are left, the chords are 20.707 and 32.707 high. By
// hand with E 9000 and G 620: whole 26.587/(620·80) = 5.3603e-4, left 26.587/(620·53.413) =
// 8.0285e-4 and 26.587³/(9000·(20.707³ + 32.707³)) = 18793/(9000·43867) = 4.7601e-5.
func TestPiercedRibByHand(t *testing.T) {
	t.Parallel()
	d := plainTop()
	sheet := plainSheet()
	got := d.pierced(Hole{Part: "L2", Diameter: 30, Up: 34}, &sheet, true, 1, 400)
	near(t, "from", got.From, 400-13.2935, 1e-6)
	near(t, "to", got.To, 400+13.2935, 1e-6)
	near(t, "direct", got.Direct, 53.413/80, 1e-5)
	near(t, "shear", got.Shear, 5.3603/(8.0285+0.47601), 1e-4)
	if high := d.pierced(Hole{Part: "L2", Diameter: 30, Up: 46}, &sheet, true, 1, 400); math.Abs(high.Shear-got.Shear) > 1e-12 {
		t.Errorf("as far from the upper edge it leaves %g, not %g", high.Shear, got.Shear)
	}
	if aside := d.pierced(Hole{Part: "L2", Diameter: 30, Up: 40}, &sheet, true, 1, 400); !(aside.Shear < got.Shear) {
		t.Errorf("at half the height it leaves %g, aside %g; want less, two chords alike are the softest", aside.Shear, got.Shear)
	}
}

// Holes and grooves make the top sag more by the whole panel: in skins, through ribs; deeper grooves
// more; and a groove's place is told to it as drawn, the top skin's from above.
func TestCutsCostStiffness(t *testing.T) {
	t.Parallel()
	sag := func(change func(d *Design)) float64 {
		d := plainTop()
		change(&d)
		return refined(t, d, Interactive).Cases[0].Sag
	}
	bare := sag(func(*Design) {})
	for _, test := range []struct {
		name   string
		change func(d *Design)
	}{
		{"dog holes", func(d *Design) {
			d.Holes = []Hole{{Kind: DogHole, Part: TopSeam, X: 300, Y: 264, Diameter: 20, Count: 11, StepX: 100}}
		}},
		{"a hole through a rib", func(d *Design) { d.Holes = []Hole{{Kind: CableHole, Part: "L2", X: 340, Up: 34, Diameter: 26}} }},
		{"a groove across", func(d *Design) { d.Grooves = []Groove{{Skin: BottomSeam, At: 740, Width: 20, Depth: 3}} }},
		{"a groove along", func(d *Design) { d.Grooves = []Groove{{Skin: TopSeam, Along: true, At: 264, Width: 20, Depth: 6}} }},
	} {
		if got := sag(test.change); !(got > bare*1.0005) {
			t.Errorf("%s: sag %.5f, without %.5f", test.name, got, bare)
		}
	}
	d := plainTop()
	d.Grooves = []Groove{{Skin: TopSeam, At: 740, Width: 20, Depth: 4}}
	g := d.WholePanel(1).Grooves[0]
	if !g.Top || g.Left != 5 || g.X0 != 730 || g.X1 != 750 || g.Y0 != 0 || g.Y1 != 700 {
		t.Errorf("told as %+v", g)
	}
	plain := plainTop()
	if p := plain.WholePanel(1); p.Holes != nil || p.Grooves != nil || p.Pierced != nil {
		t.Error("a top without holes tells of some")
	}
}
