package app

import (
	"strings"
	"testing"

	"flatwright/engine"
	"flatwright/engine/length"
)

func TestLeastSagText(t *testing.T) {
	old := engine.Supports{Kind: engine.FourLegs, EndInset: 40, SideInset: 40, Bearing: 80}
	if got := leastSagText(old, old, 1, 1, length.Format{}); !strings.Contains(got, "already") {
		t.Errorf("nothing moved: %q", got)
	}
	best := old
	best.EndInset = 350
	got := leastSagText(old, best, 0.4, 0.12, length.Format{})
	for _, want := range []string{"350 mm from the ends", "0.4 mm", "0.12 mm", "tip"} {
		if !strings.Contains(got, want) {
			t.Errorf("ends moved: %q lacks %q", got, want)
		}
	}
	if strings.Contains(got, "sides") {
		t.Errorf("ends moved: %q speaks of the sides", got)
	}
	best.SideInset = 100
	if got := leastSagText(old, best, 0.4, 0.12, length.Format{Imperial: true, Denominator: 16}); !strings.Contains(got, "ends and to 3 15/16\" from the sides") {
		t.Errorf("both moved: %q", got)
	}
}
