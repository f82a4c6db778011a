package press_test

import (
	"math"
	"testing"

	"flatwright/engine/press"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.10g; want %.10g ± %g", what, got, want, tol)
	}
}

// ../shared/reference/reference.md C: 10 N·m on a lead of 3 mm, η .2 → 4 189 N, .3 → 6 283 N.
func TestScrewForce(t *testing.T) {
	t.Parallel()
	near(t, "η .2", press.ScrewForce(10_000, 3, 0.2), 4189, 0.5)
	near(t, "η .3", press.ScrewForce(10_000, 3, 0.3), 6283, 0.5)
	near(t, "half the lead, twice the force", press.ScrewForce(10_000, 1.5, 0.3)/press.ScrewForce(10_000, 3, 0.3), 2, 1e-12)
}

// By hand: 0.5 MPa on 12 × 1 400 mm are 8 400 N, 4 200 N two clamps and one
// newton more three.
func TestClampsOfALine(t *testing.T) {
	t.Parallel()
	for _, row := range []struct {
		each float64
		want int
	}{{4200, 2}, {4199, 3}, {8400, 1}, {1e9, 1}, {1e-300, 1_000_000}, {0, 0}, {math.NaN(), 0}} {
		if got := press.Count(8400, row.each); got != row.want {
			t.Errorf("Count(8400, %g) = %d; want %d", row.each, got, row.want)
		}
	}
	// Three on 900 mm: 150, 450, 750; their mean is the middle, so the clamps
	// and the even pressure balance.
	for i, want := range []float64{150, 450, 750} {
		near(t, "place", press.Spaced(3, 900)[i], want, 1e-9)
	}
	if len(press.Spaced(0, 900)) != 0 {
		t.Error("no clamps, yet places")
	}
}

func TestNeededPressure(t *testing.T) {
	t.Parallel()
	// Wood Handbook ch. 10: 0.7 MPa for light wood, 1.7 for the densest; 550 is
	// halfway from 350 to 750.
	for _, row := range [][2]float64{{300, 0.7}, {350, 0.7}, {450, 0.95}, {550, 1.2}, {750, 1.7}, {900, 1.7}} {
		near(t, "needed", press.Needed(0.7, 1.7, row[0]), row[1], 1e-12)
	}
}

// By hand: a caul 60 × 80 mm of 10 000 MPa, 800 mm between clamps of 3 000 N:
// q = 7.5 N/mm, EI = 10 000·60·80³/12 = 2.56e10; 5·7.5·800⁴/(384·2.56e10) = 1.562 500 mm;
// G = 625, GA = 3e6: 1.2·7.5·800²/(8·3e6) = .24 mm. Stress: M = 7.5·800²/8 =
// 600 000 N·mm over 60·80²/6 = 64 000 mm³: 9.375 MPa.
func TestCaulByHand(t *testing.T) {
	t.Parallel()
	c := press.Caul{Length: 800, Width: 60, Height: 80, E: 10_000, Ratio: 16}
	near(t, "camber", c.Camber(3000), 1.5625+0.24, 1e-9)
	near(t, "stress", c.Stress(3000), 9.375, 1e-12)
	near(t, "EI", c.EI(), 2.56e10, 1)
	// The curve is the beam's own: its bending part has q = EI·w″″ everywhere and no
	// moment at the ends, checked off the middle by differences of fourth order.
	soft := c
	soft.Ratio = 1e-12 // no shear
	const x, h = 260.0, 20.0
	w := func(x float64) float64 { return soft.Curve(3000, x) }
	fourth := (w(x-2*h) - 4*w(x-h) + 6*w(x) - 4*w(x+h) + w(x+2*h)) / math.Pow(h, 4)
	near(t, "load from the curve", fourth*c.EI(), 7.5, 1e-6)
	near(t, "no moment at the end", w(h)-2*w(0)+w(-h), 2*7.5/(24*2.56e10)*math.Pow(h, 4), 1e-12)
	near(t, "ends", w(0)+w(800), 0, 1e-12)
	near(t, "symmetry", c.Curve(3000, 130), c.Curve(3000, 670), 1e-12)
	// Bending falls with the third power of the height.
	tall := soft
	tall.Height = 160
	near(t, "twice as high", w(400)/tall.Curve(3000, 400), 8, 1e-9)
}

func TestBeamOnABed(t *testing.T) {
	t.Parallel()
	near(t, "β", press.Beta(4*81, 1), 3, 1e-12) // (324/4)^¼
	// Close forces press evenly; by hand at β·pitch = 2, e⁻ᶻ(cos z + sin z) at z = 1, 3, 5,
	// 7, 9, 11, 13: 2·(.508326 − .042263 − .004550 + .001287 − .000062 − .000017 + .000003) =
	// .925448.
	near(t, "close", press.Between(0.02, 1), 1, 1e-4)
	near(t, "β·pitch 2", press.Between(0.02, 100), 0.925448, 3e-6)
	if !(press.Between(0.05, 100) < 0) {
		t.Error("a thin skin between far forces lifts; it was told to press")
	}
	for _, share := range []float64{0.3, 0.5, 0.8} {
		p := press.Pitch(0.03, share)
		near(t, "pitch", press.Between(0.03, p), share, 1e-9)
		near(t, "pitch scales with 1/β", press.Pitch(0.06, share), p/2, 1e-9)
	}
	// A caul: a stiff one presses evenly, x → 0 gives 1; by hand at x = π:
	// cos(π/2) = 0, so nothing.
	near(t, "stiff", press.Straight(1e-5, 600), 1, 1e-6)
	near(t, "x = π", press.Straight(math.Pi/600, 600), 0, 1e-12)
	near(t, "endless", press.Straight(1, 1000), 0, 0)
	if !(press.Straight(4.5/600, 600) < 0) {
		t.Error("the middle of a limber caul lifts; it was told to press")
	}
}

// The straight caul from the beam's own equation, EI·y″″ = −k·y: symmetric about
// the middle, y = A·cosh βs·cos βs + B·sinh βs·sin βs, and no moment at the ends.
func TestStraightCaulSolvesTheBeam(t *testing.T) {
	t.Parallel()
	const beta, l = 0.004, 700.0
	x := beta * l
	// y″ = 2β²·(−A·sinh·sin + B·cosh·cos) = 0 at the ends.
	s, c, sn, cs := math.Sinh(x/2), math.Cosh(x/2), math.Sin(x/2), math.Cos(x/2)
	b := s * sn / (c * cs) // with A = 1, which is y in the middle
	near(t, "middle over end", press.Straight(beta, l), 1/(c*cs+b*s*sn), 1e-12)
}

func TestWeights(t *testing.T) {
	t.Parallel()
	// By hand: 9 806.65 N are 1 000 kg: 1 000 l of water, 625 l of sand, 416.7 l
	// of concrete; on 1 m² the water stands 1 m high.
	m := press.Mass(9806.65)
	near(t, "mass", m, 1000, 1e-9)
	near(t, "water", press.Volume(m, press.Water), 1000, 1e-9)
	near(t, "sand", press.Volume(m, press.Sand), 625, 1e-9)
	near(t, "concrete", press.Volume(m, press.Concrete), 416.667, 1e-3)
	near(t, "height", press.StackHeight(m, press.Water, 1e6), 1000, 1e-9)
	near(t, "as high as wide: 45°", press.TipAngle(300, 300), math.Pi/4, 1e-12)
	if !(press.TipAngle(300, 900) < press.TipAngle(300, 600)) {
		t.Error("a higher stack must tip sooner")
	}
}

// ../shared/reference/reference.md C: sea level 101 325 Pa = 10 332 kgf/m², 80 kPa = 8 158 kgf/m²,
// 84.6 kPa at 1 500 m; ribs of 12 at 150 cover 15.36 %, of 18 at 100 32.76 %; 85 kPa
// on the face are .55 MPa on the former.
func TestVacuum(t *testing.T) {
	t.Parallel()
	near(t, "sea level", press.Atmosphere(0), 101325, 1e-9)
	near(t, "in kgf/m²", press.Atmosphere(0)/press.Gravity, 10332, 0.5)
	near(t, "80 kPa", press.Mass(80_000), 8158, 0.5)
	near(t, "1 500 m", press.Atmosphere(1500), 84_600, 50)
	open := func(spacing, rib float64) float64 { return (spacing - rib) / spacing * (spacing - rib) / spacing }
	near(t, "share", 1-open(150, 12), 0.1536, 1e-12)
	near(t, "share", 1-open(100, 18), 0.3276, 1e-12)
	near(t, "on the ribs", 0.085/(1-open(150, 12)), 0.55, 0.005)
	near(t, "on the face", press.OnFace(0, 0.8, 0.9), 0.0729540, 1e-9)
	// A pump that takes the volume once a minute leaves 1/e after one.
	near(t, "pump", press.PumpDown(50, 50, 1/math.E), 1, 1e-12)
	// By hand: π/4·36 = 28.274 mm², 339.3 l/min; a bay of 1.8 l to a tenth: .0122 min.
	near(t, "vent", press.VentMinutes(1.8, 6, 0.1), 0.012216, 1e-6)
}

func TestScrewsAsClamps(t *testing.T) {
	t.Parallel()
	near(t, "head of 8 mm", press.HeadPull(8), 512, 1e-9)
	near(t, "head gives first", press.ScrewPull(1600, 512), 256, 1e-9)
	near(t, "thread gives first", press.ScrewPull(400, 512), 200, 1e-9)
	// 256 N on a rib of 12 mm at .2 MPa: 106.7 mm apart; 28 mm is the closest for
	// a thread of 4.
	near(t, "pitch", press.ScrewPitch(256, 0.2, 12), 106.667, 1e-3)
	near(t, "closest", press.LeastPitch(4), 28, 1e-12)
}

// ../shared/reference/reference.md D4: D = 138 461.5 (t 6), 1 kPa: clamped squares of 100, 150 and
// 200 mm dip .000914, .004626 and .014621 mm. The first term is up to 5.2 % more.
func TestDip(t *testing.T) {
	t.Parallel()
	const d = 138461.5
	for _, row := range [][2]float64{{100, 0.000914}, {150, 0.004626}, {200, 0.014621}} {
		got := press.Bay{A: row[0], B: row[0], Dx: d, Dy: d, H: d}.Dip(0.001)
		if !(got >= row[1]*0.9995 && got <= 1.055*row[1]) {
			t.Errorf("square of %g dips %g; the book has %g", row[0], got, row[1])
		}
	}
	// E4: b/a 1.5 .00219652 of q·a⁴/D; a long bay is a strip, 1/384.
	got := press.Bay{A: 100, B: 150, Dx: d, Dy: d, H: d}.Dip(0.001) / (0.001 * 1e8 / d)
	if !(got >= 0.00219652 && got <= 1.2*0.00219652) {
		t.Errorf("1 to 1.5 dips %g; the book has .00219652", got)
	}
	near(t, "strip", press.Bay{A: 100, B: 9000, Dx: d, Dy: d, H: d}.Dip(0.001), 0.001*1e8/(384*d), 1e-12)
	// Turned by 90° with its grain, nothing changes; scaling with a⁴.
	one, turned := press.Bay{A: 120, B: 170, Dx: 3 * d, Dy: d, H: 1.4 * d}, press.Bay{A: 170, B: 120, Dx: d, Dy: 3 * d, H: 1.4 * d}
	near(t, "turned", one.Dip(0.002), turned.Dip(0.002), 1e-15)
	big := one
	big.A, big.B = 240, 340
	near(t, "twice as large", big.Dip(0.002)/one.Dip(0.002), 16, 1e-9)
}

func TestStressAndColumns(t *testing.T) {
	t.Parallel()
	// A strip of 150 under .08 MPa, 9 thick: .08·150²/12 = 150 N·mm/mm over 81/6 =
	// 13.5: 11.111 MPa. A square shares it in halves.
	x, y := press.Bay{A: 150, B: 1e6, Dx: 1, Dy: 1, H: 1}.Stress(0.08, 9)
	near(t, "strip", x, 11.1111, 1e-3)
	near(t, "along it", y, 0, 1e-2)
	x, y = press.Bay{A: 150, B: 150, Dx: 1, Dy: 1, H: 1}.Stress(0.08, 9)
	near(t, "square", x, 11.1111/2, 1e-3)
	near(t, "square", y, x, 1e-12)
	// π²·4 000·9/(12·100²) = 2.9609 MPa.
	near(t, "rib of 3 mm", press.Columns(4000, 3, 100), 2.9609, 1e-4)
}

// ../shared/reference/reference.md C: 180 g/m² on ribs of 1 200 × 600 mm with a share of .1536,
// two faces: 39.8 g.
func TestSpread(t *testing.T) {
	t.Parallel()
	g, ml := press.Glue(2*1200*600*0.1536, 180, 1.1, 0)
	near(t, "grams", g, 39.8, 0.05)
	near(t, "millilitres", ml, g/1.1, 1e-12)
	wasted, _ := press.Glue(2*1200*600*0.1536, 180, 1.1, 0.2)
	near(t, "a fifth stays on the roller", wasted*0.8, g, 1e-12)
	near(t, "minutes", press.Minutes(12_000, 3000, 2), 2, 1e-12)
	// Vapour pressure at 20 °C is 2 339 Pa, at 30 °C 4 247 (steam tables, from
	// memory); the formula is within .4 %.
	near(t, "20 °C", press.Vapour(20), 2339, 0.004*2339)
	near(t, "30 °C", press.Vapour(30), 4247, 0.004*4247)
	near(t, "as the label", press.Drying(20, 50), 1, 1e-12)
	near(t, "half as dry", press.Drying(20, 75), 2, 1e-12)
	if !(press.Drying(28, 50) < 0.7 && press.Drying(10, 50) > 1.8) {
		t.Errorf("28 °C %g, 10 °C %g: warm air must dry faster", press.Drying(28, 50), press.Drying(10, 50))
	}
}
