package length_test

import (
	"math"
	"testing"

	"flatwright/engine/length"
)

// Expected values by hand: 1/16 in is 1.5875 mm, 1/32 in 0.79375 mm, 1/64 in
// 0.396875 mm.
func TestSteps(t *testing.T) {
	t.Parallel()
	for _, row := range []struct {
		mm       float64
		f        length.Format
		coarse   bool
		down, up float64
	}{
		{18, mm, false, 17, 19},
		{18.4, mm, false, 18, 19},
		{18, mm, true, 10, 20},
		{20, mm, true, 10, 30},
		{0, mm, false, 0, 1},
		{0.3, mm, false, 0, 1},
		{0.3, mm, true, 0, 10},
		{17.999_999_5, mm, false, 17, 19}, // a millionth off is on the step
		{18.000_000_5, mm, false, 17, 19},
		{-5, mm, false, 0, 1},
		{math.NaN(), mm, false, 0, 1},
		{math.Inf(1), mm, false, 99_999, 100_000},
		{99_999.5, mm, false, 99_999, 100_000},
		{25.4, in16, false, 23.8125, 26.9875},
		{25.4, in32, false, 24.60625, 26.19375},
		{25.4, in64, false, 25.003125, 25.796875},
		{25.4, length.Format{Imperial: true}, false, 23.8125, 26.9875},
		{25.4, in64, true, 0, 50.8},
		{26, in16, false, 25.4, 26.9875},
		{26, in16, true, 25.4, 50.8},
		{100_000, in16, true, 99_999.8, 100_000}, // 3937.008 in
	} {
		if got := row.f.StepDown(row.mm, row.coarse); got != row.down {
			t.Errorf("%+v.StepDown(%v, %v) = %v; want %v mm", row.f, row.mm, row.coarse, got, row.down)
		}
		if got := row.f.StepUp(row.mm, row.coarse); got != row.up {
			t.Errorf("%+v.StepUp(%v, %v) = %v; want %v mm", row.f, row.mm, row.coarse, got, row.up)
		}
	}
}

func TestStep(t *testing.T) {
	t.Parallel()
	for _, row := range []struct {
		f    length.Format
		want float64
	}{
		{mm, 1},
		{length.Format{Imperial: true}, 1.5875},
		{in32, 0.79375},
		{in64, 0.396875},
	} {
		if got := row.f.Step(); got != row.want {
			t.Errorf("%+v.Step() = %v; want %v mm", row.f, got, row.want)
		}
	}
}

// Walking up and down again visits the same multiples, each printed exactly,
// and every step moves.
func TestStepsWalkBack(t *testing.T) {
	t.Parallel()
	for _, f := range formats {
		for _, coarse := range []bool{false, true} {
			walked := []float64{0}
			for range 2000 {
				v := walked[len(walked)-1]
				next := f.StepUp(v, coarse)
				if !(next > v) || !f.Exact(next) || f.Snap(next) != next {
					t.Fatalf("%+v.StepUp(%v, %v) = %v: not above, not exact or not on a step", f, v, coarse, next)
				}
				walked = append(walked, next)
			}
			for i := len(walked) - 1; i > 0; i-- {
				if got := f.StepDown(walked[i], coarse); got != walked[i-1] {
					t.Fatalf("%+v.StepDown(%v, %v) = %v; want %v mm", f, walked[i], coarse, got, walked[i-1])
				}
			}
		}
	}
}

func TestSnap(t *testing.T) {
	t.Parallel()
	for _, row := range []struct {
		mm   float64
		f    length.Format
		want float64
	}{
		{18.4, mm, 18},
		{18.5, mm, 19},
		{0.4, mm, 0},
		{-3, mm, 0},
		{math.NaN(), mm, 0},
		{2e5, mm, 100_000},
		{26, in16, 25.4},        // 16.38/16
		{26, in32, 26.19375},    // 32.76/32
		{26, in64, 26.19375},    // 65.51/64 goes to 66/64
		{0.79375, in16, 1.5875}, // a half goes up
		{2e5, in64, 99_999.8},   // 3937 1/64 in would be over 100 m
	} {
		if got := row.f.Snap(row.mm); got != row.want {
			t.Errorf("%+v.Snap(%v) = %v; want %v mm", row.f, row.mm, got, row.want)
		}
	}
}

// What is snapped prints like the value itself, where that is not a decimal.
func TestSnapAgreesWithPrint(t *testing.T) {
	t.Parallel()
	for _, f := range []length.Format{in16, in32, in64} {
		for n := range 20_000 {
			v := 1 + float64(n)*0.0317
			if got, want := f.Print(f.Snap(v)), f.Print(v); got != want {
				t.Fatalf("%+v: %v mm snaps to %q and prints as %q", f, v, got, want)
			}
		}
	}
}
