package flat

import (
	"cmp"
	"math"
	"slices"
)

// Set is the thicknesses that shims are built from: leaves of card, paper,
// veneer or shim stock measured with the feeler gauges, as many of each as are
// wanted.
type Set struct {
	leaves []float64 // thinnest first
	stacks []stack   // of up to MostLeaves leaves, thinnest first, one for every thickness
}

// stack is leaves on top of each other, the thickest first.
type stack struct {
	thickness float64
	leaves    []float64
}

const (
	// MostLeaves is how many leaves a shim is stacked from: more give under
	// load. Common practice, no source.
	MostLeaves = 4

	// MostThicknesses is how many different leaves a set may have.
	MostThicknesses = 24
)

// FeelerSet is what a usual set of feeler gauges has, mm; common practice, no
// source.
func FeelerSet() []float64 {
	return []float64{0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1}
}

// NewSet returns a set of the given thicknesses, mm. What is not a thickness is
// passed over, and of more than MostThicknesses the rest.
func NewSet(thicknesses []float64) Set {
	var s Set
	for _, t := range thicknesses {
		if t > 0 && t <= farthest && len(s.leaves) < MostThicknesses && !slices.Contains(s.leaves, t) {
			s.leaves = append(s.leaves, t)
		}
	}
	slices.Sort(s.leaves)
	s.build(nil, len(s.leaves)-1)
	slices.SortStableFunc(s.stacks, func(a, b stack) int {
		return cmp.Or(cmp.Compare(a.thickness, b.thickness), cmp.Compare(len(a.leaves), len(b.leaves)))
	})
	s.stacks = fewest(s.stacks)
	return s
}

// fewest keeps, of stacks that are equally thick, the one with the fewest leaves.
func fewest(sorted []stack) []stack {
	var out []stack
	for _, k := range sorted {
		last := len(out) - 1
		switch {
		case last < 0 || k.thickness > out[last].thickness+hair:
			out = append(out, k)
		case len(k.leaves) < len(out[last].leaves):
			out[last] = k
		}
	}
	return out
}

// build adds every stack of the leaves given and no thicker one than thickest.
func (s *Set) build(leaves []float64, thickest int) {
	if len(leaves) == MostLeaves {
		return
	}
	for i := thickest; i >= 0; i-- {
		with := append(slices.Clone(leaves), s.leaves[i])
		s.stacks = append(s.stacks, stack{total(with), with})
		s.build(with, i)
	}
}

func total(leaves []float64) float64 {
	sum := 0.0
	for _, t := range leaves {
		sum += t
	}
	return sum
}

// hair is a difference of thickness that counts as none, mm.
const hair = 1e-9

// Stack returns the leaves that come nearest to a thickness, the thickest first:
// of equally near ones the fewest, then the thinner shim. It is empty where no
// leaf comes nearer than none. A shim thicker than MostLeaves of the thickest
// leaf starts with as many of that as leave two to three of it.
func (s Set) Stack(thickness float64) []float64 {
	if len(s.leaves) == 0 || !(thickness > 0) || thickness > farthest {
		return nil
	}
	var below []float64
	thickest := s.leaves[len(s.leaves)-1]
	if over := math.Ceil(thickness/thickest) - (MostLeaves - 1); over > 0 && thickness > MostLeaves*thickest {
		for range int(min(over, mostStacked)) {
			below = append(below, thickest)
		}
		thickness -= thickest * float64(len(below))
	}
	var best stack
	for _, k := range s.stacks {
		far, least := math.Abs(k.thickness-thickness), math.Abs(best.thickness-thickness)
		if far < least-hair || far < least+hair && len(k.leaves) < len(best.leaves) {
			best = k
		}
	}
	return append(below, best.leaves...)
}

// mostStacked bounds a stack: a block is cut for what is thicker.
const mostStacked = 100

// Shim is what to lay on one station.
type Shim struct {
	Station   int       // index of the point
	Gap       float64   // under the plane to be filled up to, mm
	Thickness float64   // of the shim, mm
	Leaves    []float64 // the thickest first
}

// Shims returns the shims that bring points up to a plane that none of them
// stands above, as near as the set can; stations within tolerance mm under it are
// left alone.
func (s Set) Shims(points []Point, plane Plane, tolerance float64) []Shim {
	var out []Shim
	for i, p := range points {
		gap := -plane.Over(p)
		if gap <= tolerance {
			continue
		}
		if leaves := s.Stack(gap); len(leaves) > 0 {
			out = append(out, Shim{i, gap, total(leaves), leaves})
		}
	}
	return out
}

// Shimmed returns the points with the shims on them.
func Shimmed(points []Point, shims []Shim) []Point {
	out := slices.Clone(points)
	for _, s := range shims {
		out[s.Station].Z += s.Thickness
	}
	return out
}
