package section_test

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"

	"flatwright/engine/section"
)

// cells solves a box of several cells: in each the shear flows' rate of twist
// is one, Σ q·s/(G·t) = 2·A·θ′, and the torque is Σ 2·A·q (Bredt and Batho).
// It returns GJ and the flows over the largest.
func cells(widths []float64, height, top, bottom, side, inner float64) (gj float64, flows []float64) {
	n := len(widths)
	a, rhs := mat.NewDense(n, n, nil), mat.NewVecDense(n, nil)
	for i, w := range widths {
		left, right := height/inner, height/inner
		if i == 0 {
			left = height / side
		}
		if i == n-1 {
			right = height / side
		}
		a.Set(i, i, w/top+w/bottom+left+right)
		if i > 0 {
			a.Set(i, i-1, -left)
			a.Set(i-1, i, -left)
		}
		rhs.SetVec(i, 2*w*height)
	}
	var q mat.VecDense
	if err := q.SolveVec(a, rhs); err != nil {
		return math.NaN(), nil
	}
	most := mat.Max(&q)
	for i := range n {
		flows = append(flows, q.AtVec(i)/most)
	}
	return mat.Dot(&q, rhs), flows
}

// TestBoxTorsion: middle lines 582 × 91, skins 9 of G 500, sides 18 of G 600.
// By hand: 4·52962²/(2·582/4500 + 2·91/10800) = 4.072283e10; cells computed by
// the flows of each (Bredt and Batho, textbook).
func TestBoxTorsion(t *testing.T) {
	t.Parallel()
	got := section.BoxTorsion(582, 91, 4500, 4500, 10800)
	near(t, "BoxTorsion", got, 4.072283e10, 5e3)
	near(t, "twist of 100 N·m over 1 m, degrees", 1e5*1000/got*180/math.Pi, 0.140697, 5e-7)
	for _, c := range []struct {
		widths []float64
		want   float64
	}{
		{[]float64{582}, 4.072283e10},
		{[]float64{291, 291}, 4.072283e10},
		{[]float64{200, 382}, 4.073569e10},
		{[]float64{97, 97, 97, 97, 97, 97}, 4.091944e10},
	} {
		gj, flows := cells(c.widths, 91, 4500, 4500, 10800, 5400)
		near(t, fmt.Sprintf("GJ of cells %v", c.widths), gj, c.want, 5e3)
		nearly(t, fmt.Sprintf("BoxTorsion against cells %v", c.widths), got, gj, 0.005)
		if len(flows) == 6 {
			for i, want := range []float64{0.8768, 0.9778, 1, 1, 0.9778, 0.8768} {
				near(t, fmt.Sprintf("flow %d of six", i), flows[i], want, 5e-5)
			}
		}
	}
}

// TestBoxTorsionUnequal: skins that differ, and the box turned over.
func TestBoxTorsionUnequal(t *testing.T) {
	t.Parallel()
	gj, _ := cells([]float64{640}, 92.25, 7440, 3120, 9100, 1)
	nearly(t, "BoxTorsion", section.BoxTorsion(640, 92.25, 7440, 3120, 9100), gj, 1e-12)
	if a, b := section.BoxTorsion(640, 92, 7440, 3120, 9100), section.BoxTorsion(640, 92, 3120, 7440, 9100); math.Abs(a-b) > 1e-12*a {
		t.Errorf("BoxTorsion turned over = %g; want %g", b, a)
	}
}

// TestStripTorsion: the same box with a skin that came off, all four walls as
// strips, 500·2·582·9³/3 + 600·2·91·18³/3 = 3.5371e8.
func TestStripTorsion(t *testing.T) {
	t.Parallel()
	got := 2*section.StripTorsion(500, 582, 9) + 2*section.StripTorsion(600, 91, 18)
	near(t, "open box", got, 3.5371e8, 5e3)
}

func TestTwistSag(t *testing.T) {
	t.Parallel()
	s := section.Span{A: 150, B: 1650, Length: 1800}
	const gj = 4e10
	// By hand: torque 800·210 at the middle, half each way, on 750: twist
	// 84 000·750/4e10 = .001575, times 260 off the axis.
	p := section.Press{P: 800, X1: 880, X2: 920}
	nearly(t, "twist sag under the load", s.TwistSag(p, 210, 900, 260, gj), 0.001575*260, 1e-12)
	// Off the middle: the torque divides as the reactions of a beam.
	q := section.Press{P: 800, X1: 400, X2: 500} // 300 from A
	nearly(t, "beyond the load", s.TwistSag(q, 210, 1050, 260, gj), 800*210*300.0/1500*600/gj*260, 1e-12)
	nearly(t, "before the load", s.TwistSag(q, 210, 250, 260, gj), 800*210*1200.0/1500*100/gj*260, 1e-12)
	nearly(t, "other side of the axis", s.TwistSag(q, 210, 250, -260, gj), -s.TwistSag(q, 210, 250, 260, gj), 1e-12)
	if got := s.TwistSag(q, 0, 900, 260, gj); got != 0 {
		t.Errorf("twist of a load on the axis = %g; want 0", got)
	}
	// Load and point change places (Maxwell).
	for _, u := range []float64{30, 80, 333, 900, 1400, 1700, 1780} {
		for _, x := range []float64{10, 60, 300, 1111, 1690, 1795} {
			a := s.TwistSag(at(500, u), 120, x, -75, gj)
			b := s.TwistSag(at(500, x), -75, u, 120, gj)
			near(t, fmt.Sprintf("twist at %g from %g", x, u), a, b, 1e-12)
		}
	}
}

// TestTwistSagBeyondSupports: a support holds the twist, so an overhang takes
// none from the span and none from the other overhang, only that of its own
// load: as far as the nearer of load and point is from the support.
func TestTwistSagBeyondSupports(t *testing.T) {
	t.Parallel()
	s := section.Span{A: 150, B: 1650, Length: 1800}
	const gj = 4e10
	for _, c := range []struct{ u, x float64 }{
		{900, 100}, {900, 1700}, {100, 900}, {1700, 900}, {100, 1700}, {1700, 100}, {150, 900}, {900, 150}, {1650, 900}, {900, 1650},
	} {
		if got := s.TwistSag(at(500, c.u), 120, c.x, 75, gj); math.Abs(got) > 1e-15 {
			t.Errorf("TwistSag at %g from %g = %g; want 0", c.x, c.u, got)
		}
	}
	nearly(t, "at the tip", s.TwistSag(at(500, 60), 120, 0, 75, gj), 500*120*90/gj*75, 1e-9)
	nearly(t, "nearer the support than the load", s.TwistSag(at(500, 60), 120, 110, 75, gj), 500*120*40/gj*75, 1e-9)
	nearly(t, "on the right", s.TwistSag(at(500, 1760), 120, 1800, 75, gj), 500*120*110/gj*75, 1e-9)
}
