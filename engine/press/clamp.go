package press

import "math"

// ScrewForce returns the force, N, of a screw clamp that is turned with torque
// N·mm, whose thread moves on by lead mm a turn:
//
//	F = 2π·T·η/p
//
// efficiency η is the share of the work of the hand that is not lost in the
// thread and under the pad, 0.2 to 0.3 for a dry thread of one start (from
// memory). Source: work of one turn, 2π·T·η = F·p.
func ScrewForce(torque, lead, efficiency float64) float64 {
	return 2 * math.Pi * torque * efficiency / lead
}

// Count returns how many clamps of force each, N, together make need, N; 0 where
// either is not above 0, and never more than a million.
func Count(need, each float64) int {
	if !(need > 0) || !(each > 0) {
		return 0
	}
	return int(math.Min(1e6, math.Ceil(need/each-1e-9)))
}

// Spaced returns where n clamps stand on a line of that length, mm from its
// start: each in the middle of an equal share, so that the ends are half a
// spacing from the first and the last.
func Spaced(n int, length float64) []float64 {
	out := make([]float64, max(0, n))
	for i := range out {
		out[i] = length * (float64(i) + 0.5) / float64(n)
	}
	return out
}

// Needed returns the pressure, MPa, that a joint in wood of a density, kg/m³,
// wants of a glue that is pressed with low to high MPa: low up to 350 kg/m³,
// high from 750, straight between. That light wood takes the low and the densest
// the high figure is Wood Handbook FPL-GTR-282 (2021) ch. 10; that it goes
// straight between, and the two densities, is common practice, no source.
func Needed(low, high, density float64) float64 {
	const light, dense = 350, 750
	return low + (high-low)*math.Min(1, math.Max(0, (density-light)/(dense-light)))
}
