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

// counted is a context that counts the looks at it and ends at one of them.
type counted struct {
	context.Context
	looks, end int // end 0 is never
}

func (c *counted) Err() error {
	if c.looks++; c.end > 0 && c.looks >= c.end {
		return context.Canceled
	}
	return nil
}

// Whenever the context ends, refining stops: within a handful of looks, and
// thousands of looks are spread over the work (how much lies between two is
// tested in the leaf).
func TestRefineStopsAtAnyLook(t *testing.T) {
	t.Parallel()
	d := assemblyTop()
	r := compute(t, d)
	all := &counted{Context: t.Context()}
	if _, err := Refine(all, d, r, Refined); err != nil {
		t.Fatal(err)
	}
	if all.looks < 5000 {
		t.Errorf("%d looks at the context in a whole run; want thousands", all.looks)
	}
	random := rand.New(rand.NewPCG(50, 1800))
	rounds := 5
	if testing.Short() {
		rounds = 2
	}
	for i := range rounds {
		e := d.Clone()
		e.CoreDepth += float64(i + 1) // so that no answer is known
		c := &counted{Context: t.Context(), end: 1 + random.IntN(all.looks)}
		if _, err := Refine(c, e, r, Refined); !errors.Is(err, context.Canceled) {
			t.Errorf("ended at look %d of %d: error %v", c.end, all.looks, err)
		}
		if more := c.looks - c.end; more > 2000 {
			t.Errorf("ended at look %d of %d it looked %d times more", c.end, all.looks, more)
		}
	}
}

// The same by the clock. On an idle machine the way back takes a few
// milliseconds; the bound leaves room for one that does much else.
func TestRefineStopsSoon(t *testing.T) {
	t.Parallel()
	d := assemblyTop()
	d.CoreDepth += 0.5
	r := compute(t, d)
	ctx, cancel := context.WithCancel(t.Context())
	var ended time.Time
	timer := time.AfterFunc(60*time.Millisecond, func() { ended = time.Now(); cancel() })
	defer timer.Stop()
	if _, err := Refine(ctx, d, r, Refined); !errors.Is(err, context.Canceled) {
		t.Fatalf("error %v; want that of the context", err)
	}
	late := time.Since(ended)
	t.Logf("back %v after the end", late)
	if late > 2*time.Second {
		t.Errorf("back %v after the context ended; want at once", late)
	}
}
