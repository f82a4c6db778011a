package engine

import (
	"sort"

	"flatwright/engine/flat"
)

// surface is a bed between its stations: the smooth surface of plane, bow and
// wind that fits it best, and what is left of each station, straight along the
// grid. Where a station is not known nothing is left.
type surface struct {
	shape  flat.Shape
	xs, ys []float64
	left   []float64
}

// newSurface returns the surface of a survey with the given heights of the
// stations that are known.
func newSurface(s *Survey, points []flat.Point) surface {
	f := surface{shape: flat.ShapeOf(points), xs: s.Columns, ys: s.Rows, left: make([]float64, len(s.Columns)*len(s.Rows))}
	for _, p := range points {
		i, j := sort.SearchFloat64s(f.xs, p.X), sort.SearchFloat64s(f.ys, p.Y)
		f.left[j*len(f.xs)+i] = p.Z - f.shape.At(p.X, p.Y)
	}
	return f
}

// at returns the height of the surface; beyond the grid it goes on level.
func (f surface) at(x, y float64) float64 {
	x, i, u := cell(f.xs, x)
	y, j, v := cell(f.ys, y)
	nx := len(f.xs)
	i1, j1 := min(i+1, nx-1), min(j+1, len(f.ys)-1)
	near := (1-u)*f.left[j*nx+i] + u*f.left[j*nx+i1]
	far := (1-u)*f.left[j1*nx+i] + u*f.left[j1*nx+i1]
	return f.shape.At(x, y) + (1-v)*near + v*far
}

// cell returns a place held within the grid, the cell it lies in and its share of
// the way through it.
func cell(at []float64, x float64) (held float64, i int, share float64) {
	last := len(at) - 1
	held = min(max(x, at[0]), at[last])
	i = sort.Search(last, func(k int) bool { return at[k+1] >= held })
	if i >= last {
		return held, last, 0
	}
	return held, i, (held - at[i]) / (at[i+1] - at[i])
}

// bedBelow returns a surface under the panel, on the even grid of a [BedField].
func (d *Design) bedBelow(f surface) []flat.Point {
	out := make([]flat.Point, 0, bedNX*bedNY)
	for j := range bedNY {
		for i := range bedNX {
			x, y := d.Length*float64(i)/(bedNX-1), d.Width*float64(j)/(bedNY-1)
			out = append(out, flat.Point{X: x, Y: y, Z: f.at(x, y)})
		}
	}
	return out
}

// keeps returns the shape of the top that is glued in an order on a bed, as it
// lay first. Bow of either direction and wind are kept by their own shares. What
// is left, hollows shorter than the panel, by the mean of both bows'. Turned over,
// what looks the same from both sides of the way it is turned is kept as bow is,
// what looks opposite as if it had not been turned.
func (d *Design) keeps(k KeptShares, bed []flat.Point, order GlueOrder) []flat.Point {
	s := flat.ShapeOf(bed)
	turned := order == TurnedLong || order == TurnedEndway
	along, across := k.Along.Together, k.Across.Together
	if turned {
		along, across = k.Along.TurnedOver, k.Across.TurnedOver
	}
	same, opposite := (along+across)/2, (k.Along.Together+k.Across.Together)/2
	out := make([]flat.Point, len(bed))
	for n, p := range bed {
		left := p.Z - s.At(p.X, p.Y)
		m := mirror(n, order)
		other := bed[m].Z - s.At(bed[m].X, bed[m].Y)
		out[n] = flat.Point{X: p.X, Y: p.Y, Z: along*s.BowXAt(p.X) + across*s.BowYAt(p.Y) + k.Wind.Together*s.WindAt(p.X, p.Y) +
			same*(left+other)/2 + opposite*(left-other)/2}
	}
	return out
}

// mirror returns the place of the grid that place n changes with when the panel
// is turned; itself where it is not turned.
func mirror(n int, order GlueOrder) int {
	i, j := n%bedNX, n/bedNX
	switch order {
	case TurnedLong:
		j = bedNY - 1 - j
	case TurnedEndway:
		i = bedNX - 1 - i
	}
	return j*bedNX + i
}
