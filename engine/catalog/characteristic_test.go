package catalog

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// The lognormal that has this mean and CV, built from its moments, must have one
// twentieth below the value.
func TestCharacteristicIsFifthPercentile(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ mean, cv float64 }{{41.4, 0.2}, {7.8, 0.14}, {1, 0.01}, {300, 0.6}, {12, 1.5}} {
		s2 := math.Log(1 + c.cv*c.cv)
		d := distuv.LogNormal{Mu: math.Log(c.mean) - s2/2, Sigma: math.Sqrt(s2)}
		near(t, "mean of the lognormal", d.Mean(), c.mean, 1e-9*c.mean)
		near(t, "cv of the lognormal", d.StdDev()/d.Mean(), c.cv, 1e-9)
		near(t, "share below", d.CDF(Characteristic(c.mean, c.cv)), 0.05, 1e-9)
	}
}

func TestCharacteristic(t *testing.T) {
	t.Parallel()
	// By hand: σ = sqrt(ln 1.04) = 0.198042, 10·exp(-0.019610 - 1.644854·0.198042) = 7.0796.
	near(t, "10, CV 0.2", Characteristic(10, 0.2), 7.0796, 5e-5)
	if got := Characteristic(33.3, 0); got != 33.3 {
		t.Errorf("no scatter: %v; want the mean, 33.3", got)
	}
	near(t, "nearly no scatter", Characteristic(1, 1e-9), 1, 2e-9)
	near(t, "scale", Characteristic(20, 0.3), 2*Characteristic(10, 0.3), 1e-12)
	for cv := 0.05; cv < 1; cv += 0.05 {
		if !(Characteristic(1, cv) < Characteristic(1, cv-0.05)) {
			t.Errorf("at CV %g the value does not fall", cv)
		}
	}
	for _, c := range [][2]float64{{0, 0.1}, {-1, 0.1}, {1, -0.1}, {math.NaN(), 0.1}, {1, math.NaN()}} {
		if got := Characteristic(c[0], c[1]); !math.IsNaN(got) {
			t.Errorf("Characteristic(%g, %g) = %v; want NaN", c[0], c[1], got)
		}
	}
}
