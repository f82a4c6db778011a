package saw

import (
	"errors"
	"math"
	"testing"
)

func near(t *testing.T, name string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.6g; want %.6g ± %g", name, got, want, tol)
	}
}

func TestHalfChordAgainstTheDossier(t *testing.T) {
	t.Parallel()
	// reference.md I, whole chords in mm to two decimals (derived there).
	for _, c := range []struct{ diameter, exposure, z, chord float64 }{
		{254, 18, 0, 130.35}, {254, 25, 0, 151.33}, {165, 18, 0, 102.88}, {250, 25, 0, 150.00},
		{216, 25, 0, 138.20}, {305, 25, 0, 167.33},
		{254, 25, 18, 83.16},
		{203, 35, 0, 2 * 76.68}, // run-out of a wide cutter, each side
	} {
		got, err := HalfChord(c.diameter, c.exposure, c.z)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "chord", 2*got, c.chord, 0.01)
	}
}

func TestHalfChordIsOnTheCircle(t *testing.T) {
	t.Parallel()
	for _, d := range []float64{10, 165, 254, 305} {
		for _, e := range []float64{0.01, 0.1, 0.31, 0.5} {
			for _, z := range []float64{0, 0.2, 0.7, 1} {
				c, err := HalfChord(d, e*d, z*e*d)
				if err != nil {
					t.Fatal(err)
				}
				// Pythagoras: half chord and distance from the centre.
				near(t, "radius", math.Hypot(c, d/2-e*d+z*e*d), d/2, 1e-12*d)
			}
		}
	}
}

func TestHalfChordRefuses(t *testing.T) {
	t.Parallel()
	nan := math.NaN()
	for _, c := range [][3]float64{{254, 0, 0}, {254, -1, 0}, {254, 128, 0}, {0, 0, 0}, {254, 25, 26}, {254, 25, -1}, {nan, 25, 0}, {254, nan, 0}, {254, 25, nan}, {math.Inf(1), 25, 0}} {
		if v, err := HalfChord(c[0], c[1], c[2]); !errors.Is(err, ErrDomain) {
			t.Errorf("HalfChord(%v) = %g, %v; want ErrDomain", c, v, err)
		}
	}
}

func TestStackByHand(t *testing.T) {
	t.Parallel()
	// Three boards of 12 mm, 165 mm blade, 12 mm into the board below:
	// exposure 48. Half chords: √(48·117) = 74.9400, √(36·129) = 68.1469,
	// √(24·141) = 58.1722, √(12·153) = 42.8486.
	s := Stack{Diameter: 165, Boards: 3, Thickness: 12, Plunge: 12}
	cuts, err := s.Cuts()
	if err != nil {
		t.Fatal(err)
	}
	want := []Cut{{1, 32.0914, 25.2983}, {2, 25.2983, 15.3236}, {3, 15.3236, 0}}
	for i, w := range want {
		if cuts[i].Board != w.Board {
			t.Errorf("board %d is numbered %d", w.Board, cuts[i].Board)
		}
		near(t, "upper", cuts[i].Upper, w.Upper, 0.0001)
		near(t, "lower", cuts[i].Lower, w.Lower, 0.0001)
	}
	past, err := s.Overrun()
	if err != nil || past != cuts[0].Upper {
		t.Errorf("Overrun() = %g, %v; want the uppermost board's %g", past, err, cuts[0].Upper)
	}
	// One board of 18 mm, 254 mm blade 25 mm out: half of the difference of the
	// shared reference's two chords, (151.33 − 83.16)/2.
	one, err := Stack{Diameter: 254, Boards: 1, Thickness: 18, Plunge: 7}.Overrun()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "one board", one, 34.085, 0.01)
}

func TestStackCentre(t *testing.T) {
	t.Parallel()
	s := Stack{Diameter: 216, Boards: 4, Thickness: 9.3, Plunge: 5}
	x, z, err := s.Centre()
	if err != nil {
		t.Fatal(err)
	}
	cuts, _ := s.Cuts()
	for i, c := range cuts {
		near(t, "upper face on the blade", math.Hypot(c.Upper-x, float64(i)*9.3-z), 108, 1e-9)
		near(t, "lower face on the blade", math.Hypot(c.Lower-x, float64(i+1)*9.3-z), 108, 1e-9)
	}
	near(t, "lowest point", z+108, s.Exposure(), 1e-9)
}

func TestStackProperties(t *testing.T) {
	t.Parallel()
	for _, d := range []float64{165, 190, 254, 315} {
		for k := 1; k <= 5; k++ {
			last := math.Inf(1)
			for p := 0.0; p <= 20; p += 2.5 {
				s := Stack{Diameter: d, Boards: k, Thickness: 11.7, Plunge: p}
				past, err := s.Overrun()
				if s.Exposure() > d/2 {
					if !errors.Is(err, ErrDomain) {
						t.Errorf("%+v: %v; want ErrDomain", s, err)
					}
					continue
				}
				if err != nil {
					t.Fatal(err)
				}
				if past >= last {
					t.Errorf("%+v runs out %g, not less than with less plunge, %g", s, past, last)
				}
				last = past
				big := Stack{Diameter: 3 * d, Boards: k, Thickness: 3 * 11.7, Plunge: 3 * p}
				tripled, _ := big.Overrun()
				near(t, "three times as large", tripled, 3*past, 1e-9)
				if p == 0 { // the mark is under the blade's lowest point
					c, _ := HalfChord(d, s.Exposure(), 0)
					near(t, "without a plunge", past, c, 1e-9)
				}
				more, err := Stack{Diameter: d, Boards: k + 1, Thickness: 11.7, Plunge: p}.Overrun()
				if err == nil && more <= past {
					t.Errorf("a board more on %+v runs out %g, no more than %g", s, more, past)
				}
			}
		}
	}
}

func TestLeastPlungeIsTheInverseOfOverrun(t *testing.T) {
	t.Parallel()
	for _, d := range []float64{165, 254} {
		for _, height := range []float64{9, 18, 36} {
			for _, accepted := range []float64{2, 5, 12, 40, 90} {
				p, err := LeastPlunge(d, height, accepted)
				if err != nil {
					// Then even at half the blade it runs over.
					s := Stack{Diameter: d, Boards: 1, Thickness: height, Plunge: d/2 - height}
					if past, e := s.Overrun(); e != nil || past < accepted {
						t.Errorf("LeastPlunge(%g, %g, %g): %v, but %g at half the blade", d, height, accepted, err, past)
					}
					continue
				}
				past, err := Stack{Diameter: d, Boards: 1, Thickness: height, Plunge: p}.Overrun()
				if err != nil {
					t.Fatal(err)
				}
				if p == 0 {
					if past > accepted {
						t.Errorf("no plunge at %g, %g runs out %g; accepted are %g", d, height, past, accepted)
					}
					continue
				}
				near(t, "overrun at the least plunge", past, accepted, 1e-6)
			}
		}
	}
	for _, c := range [][3]float64{{165, 0, 3}, {165, 12, 0}, {165, 200, 3}, {165, 12, math.NaN()}, {math.Inf(1), 12, 3}} {
		if p, err := LeastPlunge(c[0], c[1], c[2]); !errors.Is(err, ErrDomain) {
			t.Errorf("LeastPlunge(%v) = %g, %v; want ErrDomain", c, p, err)
		}
	}
}

func TestLargestStack(t *testing.T) {
	t.Parallel()
	rail := Saw{Blade: 165, Kerf: 2.2, Reach: 50}
	// By hand at 12 mm plunge: one board 58.172 − 42.849 = 15.323, two boards
	// 68.147 − 42.849 = 25.298, three 32.091; four would need 60 mm of 50, plunge 2.
	for _, c := range []struct {
		accepted float64
		boards   int
	}{{15, 0}, {15.4, 1}, {25.2, 1}, {25.3, 2}, {32, 2}, {32.1, 3}, {50, 3}, {60, 4}} {
		s, ok := LargestStack(rail, 12, 9, 12, c.accepted)
		if ok != (c.boards > 0) || s.Boards != c.boards {
			t.Errorf("accepting %g mm: %+v, %v; want %d boards", c.accepted, s, ok, c.boards)
		}
	}
	// Four: exposure 50, plunge 2: √(50·115) − √(2·163) = 75.829 − 18.055 = 57.773.
	s, _ := LargestStack(rail, 12, 9, 12, 60)
	past, _ := s.Overrun()
	near(t, "four boards", past, 57.773, 0.001)
	if s, _ := LargestStack(rail, 12, 2, 12, 60); s.Boards != 2 {
		t.Errorf("of two boards %d are stacked", s.Boards)
	}
	if s, ok := LargestStack(Saw{}, 12, 2, 12, 60); ok {
		t.Errorf("no saw cuts %+v", s)
	}
	if s, ok := LargestStack(rail, math.NaN(), 2, 12, 60); ok {
		t.Errorf("boards of no thickness make %+v", s)
	}
}
