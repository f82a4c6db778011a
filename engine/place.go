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

// PlaceLoad puts the middle of a load at (x, y), or as near to it as its
// footprint stays on the panel. A load that is longer than the panel comes to
// its middle. A couple goes to the block that is nearest to (x, y). Loads over
// the whole top have no place and stay as they are, as does everything if there
// is no such load.
func (d *Design) PlaceLoad(loadCase, load int, x, y float64) {
	if loadCase < 0 || loadCase >= len(d.Cases) || load < 0 || load >= len(d.Cases[loadCase].Loads) {
		return
	}
	l := &d.Cases[loadCase].Loads[load]
	switch l.Kind {
	case Couple:
		d.placeCouple(l, func(b Spread) float64 { return math.Hypot(b.X-x, b.Y-y) })
		return
	case Patch, Line:
	default:
		return
	}
	l.X = within(x, l.SizeX/2, d.Length-l.SizeX/2)
	l.Y = within(y, l.SizeY/2, d.Width-l.SizeY/2)
}

// placeCouple moves a couple to the block of which far is least; blocks beside
// the grid and those of which far is not a number do not count.
func (d *Design) placeCouple(l *Load, far func(Spread) float64) {
	best := math.Inf(1)
	for _, b := range d.Blocks {
		if _, _, _, _, there := d.clearBay(b.Column, b.Row); !there {
			continue
		}
		if v := far(d.Spread(Load{Kind: Couple, Column: b.Column, Row: b.Row})); v < best {
			best, l.Column, l.Row = v, b.Column, b.Row
		}
	}
}

// StepCouple moves a couple to the next block to the right (dx > 0), to the
// left, to the back (dy > 0) or to the front; it stays where there is none, and
// so does every other load.
func (d *Design) StepCouple(loadCase, load, dx, dy int) {
	if loadCase < 0 || loadCase >= len(d.Cases) || load < 0 || load >= len(d.Cases[loadCase].Loads) {
		return
	}
	l := &d.Cases[loadCase].Loads[load]
	if l.Kind != Couple {
		return
	}
	from := d.Spread(*l)
	d.placeCouple(l, func(b Spread) float64 {
		ahead := float64(dx)*(b.X-from.X) + float64(dy)*(b.Y-from.Y)
		if !(ahead > nearly) {
			return math.NaN()
		}
		// Straight ahead before aside.
		aside := math.Abs(float64(dx)*(b.Y-from.Y)) + math.Abs(float64(dy)*(b.X-from.X))
		return ahead + 2*aside
	})
}

// PlaceSupports sets the insets that the kind of support uses: end from the
// ends, side from the sides, or as near to them as the supports stay flush
// under the panel and apart from each other. An inset for which there is no
// such place, or that the kind does not use, stays as it is.
func (d *Design) PlaceSupports(end, side float64) {
	s := &d.Supports
	place := func(inset *float64, to, extent float64, opposite bool) {
		low, high := s.Bearing/2, (extent-s.Bearing-leastGap)/2
		if opposite { // a ledger that stays at its edge
			high = extent - 1.5*s.Bearing - leastGap
		}
		if low <= high {
			*inset = within(to, low, high)
		}
	}
	if s.UsesEnd() {
		place(&s.EndInset, end, d.Length, s.Kind == OnLedger && !s.ledgerAlong())
	}
	if s.UsesSide() {
		place(&s.SideInset, side, d.Width, s.Kind == OnLedger && s.ledgerAlong())
	}
}

// FootPart returns the part ID under which one of the listed feet is drawn.
func FootPart(foot int) string { return fmt.Sprintf("foot %d", foot+1) }

// FootOfPart is the reverse of [FootPart].
func FootOfPart(part string) (foot int, ok bool) {
	_, err := fmt.Sscanf(part, "foot %d", &foot)
	return foot - 1, err == nil && foot > 0 && part == FootPart(foot-1)
}

// PlaceFoot puts the middle of a listed foot at (x, y), or as near to it as it
// stays flush under the panel. It does nothing if there is no such foot.
func (d *Design) PlaceFoot(foot int, x, y float64) {
	if foot < 0 || foot >= len(d.Supports.Feet) {
		return
	}
	f := &d.Supports.Feet[foot]
	half := d.Supports.Side(*f) / 2
	f.X, f.Y = within(x, half, d.Length-half), within(y, half, d.Width-half)
}

// NextFoot proposes one more foot: at the middle of the panel, or beside the
// feet that stand there, as large as the last.
func (d Design) NextFoot() Foot {
	f := Foot{X: d.Length / 2, Y: d.Width / 2}
	if n := len(d.Supports.Feet); n > 0 {
		f.Size = d.Supports.Feet[n-1].Size
	}
	step := d.Supports.Side(f) + leastGap
	for i := range d.Supports.Feet {
		free := true
		for _, o := range d.Supports.Feet {
			free = free && (math.Abs(o.X-f.X) >= step || math.Abs(o.Y-f.Y) >= step)
		}
		if free {
			break
		}
		// to the right and to the left in turn
		side := float64(i/2 + 1)
		if i%2 == 1 {
			side = -side
		}
		f.X = within(d.Length/2+side*step, 0, d.Length)
	}
	return f
}

// FeetOfLegs returns feet where the present supports have legs, or at the four
// corners: what to begin with.
func (d Design) FeetOfLegs() []Foot {
	if feet := d.feet(); len(feet) >= minFeet {
		return feet
	}
	half := d.Supports.Bearing / 2
	l, w := d.Length, d.Width
	return []Foot{{"left front leg", half, half, 0}, {"left back leg", half, w - half, 0}, {"right front leg", l - half, half, 0}, {"right back leg", l - half, w - half, 0}}
}

// within returns v, or the nearer of low and high if it lies outside; the
// middle of both if they change places or v is not a number.
func within(v, low, high float64) float64 {
	if !(low <= high) || math.IsNaN(v) {
		return (low + high) / 2
	}
	return min(max(v, low), high)
}
