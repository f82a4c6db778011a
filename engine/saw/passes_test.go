package saw

import (
	"errors"
	"math"
	"testing"
)

func TestPassesByHand(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		w, k, overlap float64
		want          int
	}{
		{3.2, 3.2, 0.5, 1},  // as wide as the cutter
		{12.2, 3.2, 0.5, 5}, // 9.0/2.7 = 3.33, so 4 more
		{12.2, 3.2, 0, 4},   // 9.0/3.2 = 2.8, 3 more
		{12.5, 2.3, 0.6, 7}, // 10.2/1.7 = 6 exactly
		{12.2, 2.2, 0.2, 6}, // 10/2 = 5 exactly
		{12.2, 12, 0.5, 2},  // a second pass shaves 0.2
		{18.3, 8, 0.5, 3},   // 10.3/7.5 = 1.37
	} {
		if got, err := Passes(c.w, c.k, c.overlap); err != nil || got != c.want {
			t.Errorf("Passes(%g, %g, %g) = %d, %v; want %d", c.w, c.k, c.overlap, got, err, c.want)
		}
	}
	nan := math.NaN()
	for _, c := range [][3]float64{{3, 3.2, 0.5}, {12, 0, 0}, {12, 0.5, 0.5}, {12, 3, -1}, {nan, 3, 0}, {12, nan, 0}, {12, 3, nan}, {math.Inf(1), 3, 0}, {12, 1e-9, 0}} {
		if n, err := Passes(c[0], c[1], c[2]); !errors.Is(err, ErrDomain) {
			t.Errorf("Passes(%v) = %d, %v; want ErrDomain", c, n, err)
		}
	}
}

func TestPassesCoverTheSlotAndNoFewerDo(t *testing.T) {
	t.Parallel()
	for w := 3.0; w < 26; w += 0.37 {
		for k := 1.1; k <= w; k += 0.53 {
			for _, overlap := range []float64{0, 0.3, 1} {
				n, err := Passes(w, k, overlap)
				if err != nil {
					t.Fatal(err)
				}
				// Moved on evenly from one side of the slot to the other, no two
				// overlap by less than asked.
				if n > 1 && (w-k)/float64(n-1) > k-overlap+1e-9 {
					t.Errorf("w %g, k %g, overlap %g: %d passes stand %g apart", w, k, overlap, n, (w-k)/float64(n-1))
				}
				// One pass fewer, overlapping no more than asked, falls short.
				if reach := k + float64(n-2)*(k-overlap); n > 1 && reach > w-1e-9 {
					t.Errorf("w %g, k %g, overlap %g: %d passes where %d reach %g", w, k, overlap, n, n-1, reach)
				}
			}
		}
	}
}

func TestLayers(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		depth, step float64
		want        int
	}{{45.5, 6, 8}, {48, 6, 8}, {3, 6, 1}, {1e-12, 6, 1}, {0.3, 0.1, 3}} {
		if n, err := Layers(c.depth, c.step); err != nil || n != c.want {
			t.Errorf("Layers(%g, %g) = %d, %v; want %d", c.depth, c.step, n, err, c.want)
		}
	}
	for _, c := range [][2]float64{{0, 6}, {6, 0}, {math.NaN(), 1}, {1, math.NaN()}, {math.Inf(1), 1}} {
		if n, err := Layers(c[0], c[1]); !errors.Is(err, ErrDomain) {
			t.Errorf("Layers(%v) = %d, %v; want ErrDomain", c, n, err)
		}
	}
}
