package engine

import (
	"fmt"
	"math"
)

// leastGap is kept between supports that are moved towards each other, mm.
// Common practice, no source: enough to tell them apart.
const leastGap = 1.0

// LoadOfPart returns the load that is drawn under a part ID, the reverse of
// [LoadPart].
func LoadOfPart(part string) (loadCase, load int, ok bool) {
	_, err := fmt.Sscanf(part, "load %d.%d", &loadCase, &load)
	return loadCase, load, err == nil && loadCase >= 0 && load >= 0 && LoadPart(loadCase, load) == part
}

// PlaceLoad puts the middle of a patch load at (x, y), or as near to it as its
// footprint stays on the panel. A load that is longer than the panel comes to
// its middle. Loads over the whole top have no place and stay as they are, as
// does everything if there is no such load.
func (d *Design) PlaceLoad(loadCase, load int, x, y float64) {
	if loadCase < 0 || loadCase >= len(d.Cases) || load < 0 || load >= len(d.Cases[loadCase].Loads) {
		return
	}
	l := &d.Cases[loadCase].Loads[load]
	if l.Kind != Patch {
		return
	}
	l.X = within(x, l.SizeX/2, d.Length-l.SizeX/2)
	l.Y = within(y, l.SizeY/2, d.Width-l.SizeY/2)
}

// PlaceSupports sets the insets that the kind of support uses: end from the
// ends, side from the sides, or as near to them as the supports stay flush
// under the panel and apart from each other. An inset for which there is no
// such place, or that the kind does not use, stays as it is.
func (d *Design) PlaceSupports(end, side float64) {
	s := &d.Supports
	place := func(inset *float64, to, extent float64) {
		low, high := s.Bearing/2, (extent-s.Bearing-leastGap)/2
		if low <= high {
			*inset = within(to, low, high)
		}
	}
	if s.Kind == RailsAcross || s.Kind == FourLegs {
		place(&s.EndInset, end, d.Length)
	}
	if s.Kind == RailsAlong || s.Kind == FourLegs {
		place(&s.SideInset, side, d.Width)
	}
}

// within returns v, or the nearer of low and high if it lies outside; the
// middle of both if they change places or v is not a number.
func within(v, low, high float64) float64 {
	if !(low <= high) || math.IsNaN(v) {
		return (low + high) / 2
	}
	return min(max(v, low), high)
}
