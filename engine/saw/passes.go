package saw

import (
	"fmt"
	"math"
)

// Passes returns how often a cutter of width k mm has to pass to make a slot of
// width w mm, each pass overlapping the one before by at least overlap mm, so
// that no sliver stays between them:
//
//	passes = 1 + ⌈(w − k)/(k − overlap)⌉
//
// It returns [ErrDomain] unless 0 ≤ overlap < k ≤ w: a cutter wider than the
// slot cannot make it.
func Passes(w, k, overlap float64) (int, error) {
	if !(overlap >= 0) || !(overlap < k) || !(k <= w+nearly) || math.IsInf(w, 0) {
		return 0, fmt.Errorf("a cutter of %g mm in a slot of %g mm, overlapping by %g mm: %w", k, w, overlap, ErrDomain)
	}
	n := math.Ceil((w-k)/(k-overlap) - nearly)
	if !(n <= maxPasses) {
		return 0, fmt.Errorf("a cutter of %g mm would pass over %d times in a slot of %g mm: %w", k, maxPasses, w, ErrDomain)
	}
	return 1 + int(math.Max(0, n)), nil
}

// maxPasses is more than anybody saws for one slot.
const maxPasses = 10000

// Layers returns in how many passes by depth a slot depth mm deep is made when
// each takes at most step mm. It returns [ErrDomain] unless both are above 0.
func Layers(depth, step float64) (int, error) {
	n := math.Ceil(depth/step - nearly)
	if !(depth > 0) || !(step > 0) || !(n <= maxPasses) {
		return 0, fmt.Errorf("%g mm deep, %g mm at a time: %w", depth, step, ErrDomain)
	}
	return int(math.Max(1, n)), nil
}
