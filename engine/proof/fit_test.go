package proof

import (
	"errors"
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %g; want %g ± %g", what, got, want, tol)
	}
}

var dial = Known{Error: 0.01}

// exact is four stages up, two down and the end: sag is scale times expected,
// bedding goes in first, friction holds its share.
func exact(scale, bedding, held, set float64) []Reading {
	out := []Reading{{Read: 3.2}}
	for _, e := range []float64{0.5, 1, 1.5, 2} {
		out = append(out, Reading{Load: 1000 * e, Expected: e, Read: 3.2 + bedding + scale*e - held*e})
	}
	for _, e := range []float64{1.5, 0.5} {
		out = append(out, Reading{Load: 1000 * e, Expected: e, Read: 3.2 + bedding + scale*e + held*e, Unloading: true})
	}
	return append(out, Reading{Unloading: true, Read: 3.2 + bedding + set})
}

func TestFitTellsStiffnessFromBedding(t *testing.T) {
	t.Parallel()
	// By construction; the prior on bedding, 0.25 mm against a line known to
	// about 0.01 mm, pulls by (0.01/0.25)² of it.
	f, err := Fit(exact(1.25, 0.3, 0, 0), dial)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "scale", f.Scale, 1.25, 0.001)
	near(t, "bedding", f.Bedding, 0.3, 0.001)
	if f.Low > 1.25 || f.High < 1.25 || f.High-f.Low > 0.06 {
		t.Errorf("range %g to %g; want about 1.25 and narrow", f.Low, f.High)
	}
	// Load over sag: 2000 N / (1.25·2 mm) = 800 N/mm.
	k, low, high := f.Stiffness(2000, 2)
	near(t, "stiffness", k, 800, 1)
	near(t, "lower end", low, 2000/(2*f.High), 1e-9)
	near(t, "upper end", high, 2000/(2*f.Low), 1e-9)
}

func TestFitTellsFriction(t *testing.T) {
	t.Parallel()
	with := dial
	with.Friction = 0.1
	f, err := Fit(exact(0.9, 0.1, 0.06, 0), with)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "scale", f.Scale, 0.9, 0.003)
	near(t, "held", f.Held, 0.06, 0.003)
	// Without the way down nobody can tell friction from stiffness: the range
	// must hold what friction may hide.
	f, err = Fit(exact(0.9, 0.1, 0.06, 0)[:5], with)
	if err != nil {
		t.Fatal(err)
	}
	if f.Low > 0.9 || f.High < 0.9 || f.High-f.Low < 0.05 {
		t.Errorf("range on the way up alone %g to %g; want one wide enough for 0.9", f.Low, f.High)
	}
}

// TestFitAgainstBook fits a line by the textbook formulas: slope Sxy/Sxx and its
// standard error σ/√Sxx. With bedding left free (0.25 mm is wide against 0.001)
// the first reading says nothing of the slope.
func TestFitAgainstBook(t *testing.T) {
	t.Parallel()
	reads := []float64{0.61, 1.12, 1.59, 2.11}
	r := []Reading{{}}
	for i, v := range reads {
		r = append(r, Reading{Load: 100, Expected: 0.5 * float64(i+1), Read: v})
	}
	f, err := Fit(r, Known{Error: 0.001})
	if err != nil {
		t.Fatal(err)
	}
	// By hand: means 1.25 and 1.3575; Sxx = 2·(0.75² + 0.25²) = 1.25;
	// Sxy = −.75·(.61−2.11)·1 … = 0.75·1.5 + 0.25·0.47 = 1.2425; slope 0.994.
	near(t, "slope", f.Scale, 0.994, 0.0005)
	// Intercept 1.3575 − 0.994·1.25 = 0.115.
	near(t, "bedding", f.Bedding, 0.115, 0.0005)
	// Residuals .61−.612, 1.12−1.109, 1.59−1.606, 2.11−2.103: squares add up to
	// 4e-6 + 121e-6 + 256e-6 + 49e-6 = 430e-6; with the stated error counting as
	// eight readings (8·1e-6 + 430e-6)/(8 + 2) = 43.8e-6; error √(43.8e-6/1.25).
	near(t, "its error", f.Error, math.Sqrt(43.8e-6/1.25), 2e-5)
	near(t, "freedom", f.Freedom, 10, 0)
	// Student's t at 0.95 with 10 degrees is 1.812 (any table).
	near(t, "range", (f.High-f.Low)/2/f.Error, 1.812, 0.0005)
}

func TestFitScales(t *testing.T) {
	t.Parallel()
	// The gauge's beginning and the unit of load change nothing.
	a, _ := Fit(exact(1.1, 0.2, 0.02, 0.1), Known{Error: 0.02, Friction: 0.05, Spread: 0.2})
	moved := exact(1.1, 0.2, 0.02, 0.1)
	for i := range moved {
		moved[i].Read -= 2.7
		moved[i].Load *= 7
	}
	b, _ := Fit(moved, Known{Error: 0.02, Friction: 0.05, Spread: 0.2})
	near(t, "scale of a moved gauge", b.Scale, a.Scale, 1e-9)
	near(t, "its range", b.High-b.Low, a.High-a.Low, 1e-9)
	// A plan that is sure pulls the scale to 1, one that is not leaves it.
	sure, _ := Fit(exact(1.1, 0, 0, 0), Known{Error: 0.02, Spread: 1e-4})
	near(t, "a sure plan", sure.Scale, 1, 0.001)
}

func TestFitRefuses(t *testing.T) {
	t.Parallel()
	nan := math.NaN()
	for name, c := range map[string]struct {
		r    []Reading
		k    Known
		want error
	}{
		"nothing":    {nil, dial, ErrFew},
		"only zero":  {[]Reading{{}}, dial, ErrFew},
		"no zero":    {[]Reading{{Load: 1, Expected: 1}}, dial, ErrFew},
		"no error":   {exact(1, 0, 0, 0), Known{}, ErrDomain},
		"NaN error":  {exact(1, 0, 0, 0), Known{Error: nan}, ErrDomain},
		"NaN read":   {[]Reading{{}, {Load: 1, Expected: 1, Read: nan}}, dial, ErrDomain},
		"infinite":   {[]Reading{{}, {Load: 1, Expected: math.Inf(1)}}, dial, ErrDomain},
		"friction":   {exact(1, 0, 0, 0), Known{Error: 1, Friction: 2}, ErrDomain},
		"NaN spread": {exact(1, 0, 0, 0), Known{Error: 1, Spread: nan}, ErrDomain},
	} {
		if _, err := Fit(c.r, c.k); !errors.Is(err, c.want) {
			t.Errorf("%s: Fit = %v; want %v", name, err, c.want)
		}
	}
}
