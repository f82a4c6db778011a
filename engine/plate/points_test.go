package plate

import (
	"math"
	"slices"
	"testing"
)

// liftingPanels are panels of which points lift under some load, on pads and on
// beams.
func liftingPanels() map[string]*Panel {
	legs := demoPanel(1)
	fine := demoPanel(2)
	beams := demoPanel(1)
	beams.Beams = []Beam{apron(false, 40, 80, 670, 0, 1)}
	soft := demoPanel(1)
	for i := range soft.Pads {
		soft.Pads[i].K = 0.01
	}
	return map[string]*Panel{"legs": legs, "finer": fine, "aprons": beams, "felt": soft}
}

// Told by the points alone, an answer is the one that a factorization for every
// set of lifted points gives: the same points lift, and all moves as far.
func TestPointsAgreeWithFactorizations(t *testing.T) {
	t.Parallel()
	own := Press{P: 200, X: 900, Y: 375, SX: 1800, SY: 750}
	loads := [][]Press{{own}, {own, {P: 490, X: 300, Y: 200, SX: 150, SY: 150}}, {own, {P: 250, X: 1650, Y: 700, SX: 80, SY: 80}}}
	for name, p := range liftingPanels() {
		m, err := Prepare(t.Context(), p)
		if err != nil {
			t.Fatal(name, err)
		}
		felt, err := m.feel(t.Context())
		if err != nil || felt == nil {
			t.Fatalf("%s: the points are not felt: %v", name, err)
		}
		for i, l := range loads {
			f := make([]float64, m.unknowns)
			for _, l := range l {
				m.press(f, l.footprint())
			}
			a, b := &Solution{m: m}, &Solution{m: m}
			if err := a.find(t.Context(), felt, f); err != nil {
				t.Fatal(name, err)
			}
			if err := b.search(t.Context(), f); err != nil {
				t.Fatal(name, err)
			}
			if !slices.Equal(a.lifted, b.lifted) {
				t.Errorf("%s, loads %d: other points lift", name, i)
			}
			most, off := 0.0, 0.0
			for j := range a.u {
				most, off = math.Max(most, math.Abs(a.u[j])), math.Max(off, math.Abs(a.u[j]-b.u[j]))
			}
			if !(off <= 1e-9*most) {
				t.Errorf("%s, loads %d: off by %g of %g mm", name, i, off, most)
			}
			x, err := a.slope(t)
			y, err2 := b.slope(t)
			if err != nil || err2 != nil || !(math.Abs(x-y) <= 1e-8*math.Abs(y)) {
				t.Errorf("%s, loads %d: slopes %g and %g, %v %v", name, i, x, y, err, err2)
			}
		}
	}
}

// slope is that of the sag at a place by the top skin's stretching.
func (s *Solution) slope(t *testing.T) (float64, error) {
	r, err := s.Read(t.Context(), 700, 300)
	if err != nil {
		return 0, err
	}
	_, slopes, err := r.Shares(t.Context())
	return slopes[TopMembrane], err
}

// How points move each other is symmetric (Maxwell and Betti, textbook), and a
// force at one moves it.
func TestPointsMoveEachOtherAlike(t *testing.T) {
	t.Parallel()
	m, err := Prepare(t.Context(), demoPanel(1))
	if err != nil {
		t.Fatal(err)
	}
	p, err := m.feel(t.Context())
	if err != nil || p == nil {
		t.Fatalf("not felt: %v", err)
	}
	k := len(m.springs)
	for _, i := range []int{0, 17, k - 1} {
		f := make([]float64, m.unknowns)
		m.springs[i].push(f, 1)
		if err := m.touch.solve(t.Context(), f); err != nil {
			t.Fatal(err)
		}
		for j := range k {
			want, got := m.springs[j].value(f), p.flex[i*k+j]
			if !(math.Abs(got-want) <= 1e-9*p.flex[i*k+i]) {
				t.Errorf("points %d and %d: %g, solved %g", i, j, got, want)
			}
			if p.flex[i*k+j] != p.flex[j*k+i] {
				t.Errorf("points %d and %d do not move each other alike", i, j)
			}
		}
		if share := p.flex[i*k+i] * m.springs[i].k; !(share > 0 && share < 1) {
			t.Errorf("point %d takes %g of a force at it; want a part", i, share)
		}
	}
}
