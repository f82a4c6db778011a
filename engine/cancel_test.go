package engine

import (
	"context"
	"errors"
	"math/rand/v2"
	"testing"
	"time"
)

// assemblyTop is 1800 × 750 mm with 11 × 5 ribs, by default the demo's otherwise.
func assemblyTop() Design {
	d := Demo()
	d.Length, d.Width = 1800, 750
	d.Lengthwise.Count, d.Lengthwise.Positions = 5, nil
	d.Crosswise.Count, d.Crosswise.Positions = 11, nil
	return d
}

// Whenever the context ends, refining stops: within a handful of looks, and
// thousands of looks are spread over the work (how much lies between two is
// tested in the leaf).
func TestRefineStopsAtAnyLook(t *testing.T) {
	t.Parallel()
	d := assemblyTop()
	r := compute(t, d)
	all := &closing{t.Context(), 0, 1 << 30}
	if _, err := Refine(all, d, r, Refined); err != nil {
		t.Fatal(err)
	}
	if all.asked < 5000 {
		t.Errorf("%d looks at the context in a whole run; want thousands", all.asked)
	}
	random := rand.New(rand.NewPCG(50, 1800))
	rounds := 5
	if testing.Short() {
		rounds = 2
	}
	for i := range rounds {
		e := d.Clone()
		e.CoreDepth += float64(i + 1) // so that no answer is known
		c := &closing{t.Context(), 0, random.IntN(all.asked)}
		if _, err := Refine(c, e, r, Refined); !errors.Is(err, context.Canceled) {
			t.Errorf("ended after look %d of %d: error %v", c.n, all.asked, err)
		}
		if more := c.asked - c.n - 1; more > 2000 {
			t.Errorf("ended after look %d of %d it looked %d times more", c.n, all.asked, more)
		}
	}
}

// The same by the clock, early, in the middle and late in the run: back within 50 ms.
// On an idle machine it takes a few milliseconds; where other tests keep this one
// waiting it gets some more tries, of which the quickest counts. How long a run takes
// is measured first: one that is over before it was to stop tells nothing and is
// tried again, stopped earlier.
func TestRefineStopsSoon(t *testing.T) {
	t.Parallel()
	d := assemblyTop()
	r := compute(t, d)
	fresh := func(n int) Design {
		e := d.Clone()
		e.CoreDepth += 0.5 + 0.01*float64(n) // so that no answer is known
		return e
	}
	began := time.Now()
	if _, err := Refine(t.Context(), fresh(0), r, Refined); err != nil {
		t.Fatal(err)
	}
	whole := time.Since(began)
	for i, share := range [...]float64{0.1, 0.3, 0.7} {
		after := time.Duration(share * float64(whole))
		late := time.Hour
		for try := 0; try < 10 && late > 50*time.Millisecond; try++ {
			ctx, cancel := context.WithCancel(t.Context())
			var ended time.Time
			timer := time.AfterFunc(after, func() { ended = time.Now(); cancel() })
			_, err := Refine(ctx, fresh(1+10*i+try), r, Refined)
			timer.Stop()
			switch {
			case ctx.Err() == nil:
				after = after * 3 / 4 // it was over before
			case err == nil && time.Since(ended) > 50*time.Millisecond, err != nil && !errors.Is(err, context.Canceled):
				t.Errorf("ended after %v: error %v; want that of the context", after, err)
			case err != nil:
				late = min(late, time.Since(ended))
			}
			cancel()
		}
		if late > 50*time.Millisecond {
			t.Errorf("ended after %v: back %v later; want at most 50 ms", after, late)
		}
	}
}
