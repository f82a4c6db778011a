package plate

import (
	"slices"
	"testing"
)

// An answer does not depend on what was asked before: the same bits from a new
// model and from one that has met other loads, with points that lift.
func TestAnswersDoNotDependOnHistory(t *testing.T) {
	t.Parallel()
	loads := [][]Press{
		{{P: 200, X: 900, Y: 375, SX: 1800, SY: 750}},
		{{P: 200, X: 900, Y: 375, SX: 1800, SY: 750}, {P: 490, X: 300, Y: 200, SX: 150, SY: 150}},
		{{P: 200, X: 900, Y: 375, SX: 1800, SY: 750}, {P: 250, X: 1650, Y: 700, SX: 80, SY: 80}},
	}
	fresh := make([][]float64, len(loads))
	for i, l := range loads {
		m, err := Prepare(t.Context(), demoPanel(1))
		if err != nil {
			t.Fatal(err)
		}
		s, err := m.Solve(t.Context(), l)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Contains(s.lifted, true) {
			t.Errorf("loads %d lift nothing; the test wants something to lift", i)
		}
		fresh[i] = s.u
	}
	m, err := Prepare(t.Context(), demoPanel(1))
	if err != nil {
		t.Fatal(err)
	}
	for _, i := range []int{2, 0, 1, 1, 2, 0} {
		s, err := m.Solve(t.Context(), loads[i])
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(s.u, fresh[i]) {
			t.Errorf("loads %d: other bits than from a new model", i)
		}
	}
}
