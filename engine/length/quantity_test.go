package length_test

import (
	"fmt"
	"math"
	"testing"

	"flatwright/engine/length"
)

// Expected values by hand: 23.4/0.45359237 = 51.588 lb; 1960/4.44822 = 440.63
// lbf; 0.24/25.4 = 0.0094488 in.
func TestQuantities(t *testing.T) {
	t.Parallel()
	for _, row := range []struct{ got, want string }{
		{length.Mass(23.4, mm), "23.4 kg"},
		{length.Mass(23.4, in16), "51.6 lb"},
		{length.Mass(0.45359237, in16), "1 lb"},
		{length.Mass(0, mm), "0 kg"},
		{length.Force(1961.33, mm), "1\u2009960 N"},
		{length.Force(1960, in16), "441 lbf"},
		{length.Force(4.4482216152605, in16), "1 lbf"},
		{length.Force(-1961.33, mm), "−1\u2009960 N"},
		{length.Sag(0.24, mm), "0.24 mm"},
		{length.Sag(0.24, in16), "0.00945 in"},
		{length.Sag(0.2388, in64), "0.0094 in"},
		{length.Sag(math.NaN(), mm), "—"},
		{length.Mass(math.Inf(1), in16), "—"},
	} {
		if row.got != row.want {
			t.Errorf("got %q; want %q", row.got, row.want)
		}
	}
}

// 1 lbf is 1 lb under standard gravity: 0.45359237 · 9.80665 = 4.4482216152605.
func TestConstants(t *testing.T) {
	t.Parallel()
	for _, row := range []struct {
		name      string
		got, want float64
	}{
		{"Inch", length.Inch, 25.4},
		{"Foot", length.Foot, 304.8},
		{"yard of 3 Foot", 3 * length.Foot, 914.4},
		{"Pound", length.Pound, 0.45359237},
		{"PoundForce", length.PoundForce, 4.4482216152605},
	} {
		if row.got != row.want {
			t.Errorf("%s = %v; want %v", row.name, row.got, row.want)
		}
	}
}

func TestNumber(t *testing.T) {
	t.Parallel()
	for _, row := range []struct {
		v    float64
		sig  int
		want string
	}{
		{0, 3, "0"},
		{math.Copysign(0, -1), 3, "0"},
		{1, 3, "1"},
		{999, 3, "999"},
		{999.6, 3, "1\u2009000"},
		{1234, 3, "1\u2009230"},
		{1234, 4, "1\u2009234"},
		{12345, 2, "12\u2009000"},
		{123456, 3, "123\u2009000"},
		{1234567, 3, "1\u2009230\u2009000"},
		{1234.56, 6, "1\u2009234.56"},
		{0.0123456, 3, "0.0123"},
		{0.012, 3, "0.012"},
		{-51.588, 3, "−51.6"},
		{1.26, 0, "1"},
		{1.26, -4, "1"},
		{1.0 / 3, 99, "0.333333333333333"},
		{0.000001234, 3, "0.00000123"},
		{0.0000001234, 3, "1.23e-7"},
		{9.99e14, 3, "999\u2009000\u2009000\u2009000\u2009000"},
		{9.999e14, 3, "1e15"},
		{2.346e20, 3, "2.35e20"},
		{-2.346e-20, 3, "−2.35e-20"},
		{math.MaxFloat64, 3, "1.7976931348623157e308"},
		{math.NaN(), 3, "—"},
		{math.Inf(-1), 3, "—"},
	} {
		if got := length.Number(row.v, row.sig); got != row.want {
			t.Errorf("Number(%v, %d) = %q; want %q", row.v, row.sig, got, row.want)
		}
	}
}

func ExampleNumber() {
	fmt.Println(length.Number(51.588, 3), length.Number(0.0094488, 3))
	// Output: 51.6 0.00945
}
