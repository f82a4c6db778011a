package proof

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// simulated is one proof load in a shop: the true modulus and slip of the top,
// the friction of its supports, what beds in, a gauge that reads in steps with
// an error somewhat other than stated.
type simulated struct {
	readings []Reading
	scale    float64 // true sag over planned
}

// Slopes of the sag by the logarithm of the skins' modulus and of the slip at the
// glue line, of two arrangements: a load in the middle of a long span, and one near
// a support, where shear and slip have more of it. Round figures for a test.
var arrangements = [][2]float64{{-0.6, 0.15}, {-0.25, 0.5}}

func simulate(r *rand.Rand, w Way, known Known, eSpread, slipSpread float64) simulated {
	e, slip := eSpread*r.NormFloat64(), slipSpread*r.NormFloat64()
	s := simulated{scale: math.Exp(arrangements[0][0]*e + arrangements[0][1]*slip)}
	bedding := math.Abs(0.15 * r.NormFloat64())
	held := known.Friction * r.Float64()
	error := w.Error * math.Exp(0.2*r.NormFloat64())
	read := func(sag float64) float64 { return math.Round((1.3+sag+error*r.NormFloat64())/w.Step) * w.Step }
	s.readings = append(s.readings, Reading{Read: read(0)})
	for _, load := range []float64{0.25, 0.5, 0.75, 1, 0.75, 0.5} {
		down := len(s.readings) > 4
		q := Reading{Load: 1000 * load, Expected: 2.5 * load, Unloading: down}
		q.Read = read(bedding + s.scale*q.Expected*(1-q.way()*held))
		s.readings = append(s.readings, q)
	}
	return s
}

// TestSimulatedShop holds the promise of the 90 % range: of a thousand tops with
// random modulus, slip, reading error, friction and bedding-in, the true stiffness
// lies within the stated range in 85 to 95 of a hundred. The seed is fixed. Both
// ranges are held: by readings alone, and with what the plan knew.
func TestSimulatedShop(t *testing.T) {
	t.Parallel()
	const runs, eSpread, slipSpread = 1000, 0.15, 0.3
	spread := math.Hypot(arrangements[0][0]*eSpread, arrangements[0][1]*slipSpread)
	for _, key := range []string{"straightedge", "dial", "string"} {
		w, _ := WayOf(key)
		for _, prior := range []float64{0, spread} {
			known := Known{Error: math.Hypot(w.Error, w.Step/math.Sqrt(12)), Friction: Friction(WoodOnWood, 96, 1800), Spread: prior}
			r := rand.New(rand.NewPCG(6, 1000))
			inside := 0
			for range runs {
				s := simulate(r, w, known, eSpread, slipSpread)
				f, err := Fit(s.readings, known)
				if err != nil {
					t.Fatal(err)
				}
				k, low, high := f.Stiffness(1000, 2.5)
				if true := 1000 / (2.5 * s.scale); low <= true && true <= high {
					inside++
				}
				if !(low <= k && k <= high) {
					t.Fatalf("stiffness %g outside its own range %g to %g", k, low, high)
				}
			}
			share := float64(inside) / runs
			t.Logf("%s, plan known to %.0f %%: %.1f %% inside", w.Name, 100*prior, 100*share)
			if share < 0.85 || share > 0.95 {
				t.Errorf("%s, plan known to %.2f: %.1f %% of the stiffnesses lie within their 90 %% range", w.Name, prior, 100*share)
			}
		}
	}
}

// TestSoundTopsAreNotStopped counts false alarms: a stop is to be rare.
func TestSoundTopsAreNotStopped(t *testing.T) {
	t.Parallel()
	const runs = 1000
	w, _ := WayOf("dial")
	known := Known{Error: w.Error, Friction: 0.03, Spread: math.Hypot(0.6*0.15, 0.15*0.3)}
	r := rand.New(rand.NewPCG(7, 1000))
	stopped := 0
	for range runs {
		if Judge(simulate(r, w, known, 0.15, 0.3).readings, nil, false, known).Call == Stop {
			stopped++
		}
	}
	t.Logf("%d of %d sound tops are stopped", stopped, runs)
	// Once in a hundred stages, of which four are alike: at most a few in a hundred.
	if stopped > 30 {
		t.Errorf("%d of %d sound tops are stopped; want 30 at most", stopped, runs)
	}
}

func twoWays(e, slip float64) []Reading {
	var out []Reading
	for round, a := range arrangements {
		begin := 0.4 * float64(round)
		out = append(out, Reading{Slopes: []float64{0, 0}, Round: round, Read: begin})
		for _, load := range []float64{0.5, 1} {
			x := 2 * load
			out = append(out, Reading{Load: 1000 * load, Expected: x, Round: round, Read: begin + 0.05 + x*math.Exp(a[0]*e+a[1]*slip), Slopes: []float64{a[0] * x, a[1] * x}})
		}
	}
	return out
}

var unknowns = []Unknown{{"modulus of the skins", 0.15}, {"slip at the glue line", 0.3}}

func TestExplainNamesTheOne(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		e, slip float64
		best    int
	}{
		"skins 20 % soft": {-0.2, 0, 0},
		"slip up by half": {0, 0.4, 1},
	} {
		told, err := Explain(twoWays(c.e, c.slip), unknowns, Known{Error: 0.01})
		if err != nil {
			t.Fatal(err)
		}
		if told.Best != c.best || told.Explanations[c.best].Belief < 0.95 {
			t.Errorf("%s: %+v", name, told)
		}
		// First order leaves out half the square, ½·0.5·0.4² = 0.04; bedding moves
		// another hundredth.
		x := told.Explanations[c.best]
		near(t, name+", factor", math.Log(x.Factor), []float64{c.e, c.slip}[c.best], 0.055)
	}
	told, err := Explain(twoWays(0, 0), unknowns, Known{Error: 0.01})
	if err != nil || told.Best != -1 || told.AsPlanned < 0.5 {
		t.Errorf("as planned: %+v, %v", told, err)
	}
	sum := told.AsPlanned
	for _, x := range told.Explanations {
		sum += x.Belief
	}
	near(t, "all beliefs", sum, 1, 1e-9)
}

func TestExplainSaysWhatItCannotTell(t *testing.T) {
	t.Parallel()
	// One arrangement gives one figure: whatever makes all its readings larger in
	// proportion is as good as anything else that does.
	one := twoWays(-0.2, 0)[:3]
	told, err := Explain(one, unknowns, Known{Error: 0.01})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "apart by one arrangement", told.Apart[0][1], 0, 1e-3)
	told, _ = Explain(twoWays(-0.2, 0), unknowns, Known{Error: 0.01})
	if told.Apart[0][1] < Tells || told.Apart[0][0] != 0 {
		t.Errorf("apart by two arrangements %g; want more than %g", told.Apart[0][1], Tells)
	}
	coarse, _ := Explain(twoWays(-0.2, 0), unknowns, Known{Error: 1})
	if coarse.Apart[0][1] > Tells {
		t.Error("a gauge of a millimetre tells them apart")
	}
}

// TestExplainAgainstWholeDeterminant takes the evidence from the whole covariance
// of the readings, by its own determinant and inverse: a second method.
func TestExplainAgainstWholeDeterminant(t *testing.T) {
	t.Parallel()
	r, known := twoWays(-0.05, 0.1), Known{Error: 0.05, Friction: 0.04}
	told, err := Explain(r, unknowns, known)
	if err != nil {
		t.Fatal(err)
	}
	base, left := common(r, known)
	evidence := func(j int) float64 {
		whole := mat.NewSymDense(len(r), nil)
		whole.CopySym(base)
		for i := range r {
			for k := i; k < len(r); k++ {
				if j >= 0 {
					whole.SetSym(i, k, whole.At(i, k)+unknowns[j].Spread*unknowns[j].Spread*r[i].Slopes[j]*r[k].Slopes[j])
				}
			}
		}
		var c mat.Cholesky
		if !c.Factorize(whole) {
			t.Fatal("no covariance")
		}
		return -0.5*c.LogDet() - 0.5*quadratic(&c, left, left)
	}
	for j, x := range told.Explanations {
		near(t, x.Name+" against as planned", math.Log(x.Belief/told.AsPlanned), evidence(j)-evidence(-1), 1e-5)
	}
}

func TestExplainRefuses(t *testing.T) {
	t.Parallel()
	if _, err := Explain(twoWays(0, 0), unknowns[:1], dial); err != ErrDomain {
		t.Error("slopes that do not fit")
	}
	if _, err := Explain(twoWays(0, 0), []Unknown{{"a", 0}, {"b", math.NaN()}}, dial); err != ErrDomain {
		t.Error("spreads that are none")
	}
	if _, err := Explain(nil, nil, dial); err != ErrFew {
		t.Error("no readings")
	}
}
