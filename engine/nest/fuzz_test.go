package nest_test

import (
	"context"
	"math"
	"testing"

	"flatwright/engine/nest"
)

// FuzzSolve: whatever the numbers, Solve gives an error or a plan that passes
// the oracle.
func FuzzSolve(f *testing.F) {
	f.Add(2440.0, 1220.0, 5.0, 60.0, 0, 3.0, 0, 0.0, 1500.0, 700.0, 2, 664.0, 90.0, 9, uint8(5))
	f.Add(1525.0, 1525.0, 0.0, 0.0, 2, 0.0, 2, 10.0, 1525.0, 1525.0, 2, 0.1, 0.1, 1, uint8(0))
	f.Add(100.0, 100.0, 49.9, 1e9, 1, 100.0, 1, 1e-9, 0.1, 0.1012, 7, 1.0/3, 0.1, 3, uint8(255))
	f.Add(20000.0, 0.1, 0.0, 1.0, 0, 0.0005, 3, 1.0, 20000.0, 0.1, 1, 5000.0, 0.1, 30, uint8(17))
	// A part too heavy to carry, with trimmings that are too heavy as well.
	f.Add(17892.0, 336.0, 81.38571428571427, 2.9e+08, 20, 0.10285714285714287, 67, 1.3e-09, 720.8671875, 1.230017142857143, 20, 21.3, 19.4, 4, uint8(168))
	// A part that only its raw edges make too heavy.
	f.Add(14640.0, 1221.0, 113.0, 103.0, 16, 100.0, 97, 12.0, 1633.0, 641.0, 2, 39.84, 1454.2222222222224, 2, uint8(4))
	f.Fuzz(func(t *testing.T, length, width, trim, price float64, onHand int, kerf float64, stages int, carry,
		l1, w1 float64, n1 int, l2, w2 float64, n2 int, grains uint8) {
		if n1 > 60 || n2 > 60 {
			return // more parts than a fuzz run has time for
		}
		g := func(shift int) nest.Grain { return nest.Grain(grains >> shift & 3) }
		job := nest.Job{
			Stock: []nest.Sheet{
				{Name: "a", Length: length, Width: width, Trim: trim, Price: price, OnHand: onHand, Grain: g(0)},
				{Name: "b", Length: width, Width: length, Price: 2 * price, OnHand: 1, Grain: g(2)},
			},
			Pieces: []nest.Piece{{ID: "p", Length: l1, Width: w1, Count: n1, Grain: g(4)}, {ID: "q", Length: l2, Width: w2, Count: n2, Grain: g(6)}},
			Kerf:   kerf, Stages: stages, Carry: carry, MassPerArea: 1e-5, Steps: 20_000,
		}
		plan, err := nest.Solve(context.Background(), job, nil)
		if err != nil {
			return
		}
		if math.IsNaN(plan.Cost) || math.IsNaN(plan.Above()) {
			t.Errorf("cost %g, above %g", plan.Cost, plan.Above())
		}
		for _, fault := range faults(job, plan) {
			t.Error(fault)
		}
	})
}
