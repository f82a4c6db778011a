package flat

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Shape is the bow and the wind of a surface, by least squares over stations:
//
//	z = plane + BowX·(1 − u²) + BowY·(1 − v²) + Wind/4·u·v
//
// with u and v from −1 to 1 over the extent of the stations. What the stations
// cannot tell (bow from two in a row, wind from one row) is 0 and not told.
type Shape struct {
	BowX Figure  // rise of the middle over the two ends in x, mm; negative is hollow
	BowY Figure  // the same in y
	Wind Figure  // by how much the corner at the largest x and y stands off the plane through the other three, mm
	Left float64 // root of the mean square of what is neither plane, bow nor wind, mm

	x, y, a, b float64 // middle and half extents
	plane      Plane
}

// Figure is a value with its standard error, mm.
type Figure struct {
	Value float64
	Error float64
	Told  bool // the stations tell it
}

// Shape returns the bow and the wind that the heights of known stations make,
// with their standard errors. Wind is not told where it was assumed away.
func (h Heights) Shape(stations []Station) Shape {
	known := indices(h.Known)
	points := h.Points(stations)
	s, rows := fitShape(points)
	if h.spread == nil {
		return s
	}
	for i, f := range [...]*Figure{&s.BowX, &s.BowY, &s.Wind} {
		if rows[i] == nil {
			continue
		}
		var carried mat.VecDense
		carried.MulVec(h.spread.T(), mat.NewVecDense(len(known), rows[i]))
		f.Error = mat.Norm(&carried, 2)
	}
	if h.WindAssumed {
		s.Wind = Figure{}
	}
	return s
}

// Points returns the stations that are known with their heights.
func (h Heights) Points(stations []Station) []Point {
	var out []Point
	for i, known := range h.Known {
		if known {
			out = append(out, Point{stations[i].X, stations[i].Y, h.Z[i]})
		}
	}
	return out
}

// ShapeOf returns the bow and the wind of points.
func ShapeOf(points []Point) Shape {
	s, _ := fitShape(points)
	return s
}

// fitShape returns the shape of points, and for bow in x, bow in y and wind the
// weight of every height in it; nil where it is not told.
func fitShape(points []Point) (s Shape, rows [3][]float64) {
	if len(points) == 0 {
		return s, rows
	}
	x0, x1, y0, y1 := points[0].X, points[0].X, points[0].Y, points[0].Y
	for _, p := range points {
		x0, x1, y0, y1 = min(x0, p.X), max(x1, p.X), min(y0, p.Y), max(y1, p.Y)
	}
	s.x, s.y, s.a, s.b = (x0+x1)/2, (y0+y1)/2, (x1-x0)/2, (y1-y0)/2
	var raw [6][]float64
	z := make([]float64, len(points))
	for i, p := range points {
		u, v := s.at(p.X, p.Y)
		for c, f := range [...]float64{1, u, v, u * v, 1 - u*u, 1 - v*v} {
			raw[c] = append(raw[c], f)
		}
		z[i] = p.Z
	}
	weights := independent(raw[:])
	value := func(c int) float64 {
		if weights[c] == nil {
			return 0
		}
		return dot(weights[c], z)
	}
	figure := func(c int, times float64) (Figure, []float64) {
		if weights[c] == nil {
			return Figure{}, nil
		}
		row := make([]float64, len(z))
		for i, w := range weights[c] {
			row[i] = times * w
		}
		return Figure{Value: times * value(c), Told: true}, row
	}
	s.BowX, rows[0] = figure(4, 1)
	s.BowY, rows[1] = figure(5, 1)
	s.Wind, rows[2] = figure(3, 4)
	s.plane = Plane{value(0), value(1), value(2)} // in u and v
	for _, p := range points {
		d := p.Z - s.At(p.X, p.Y)
		s.Left += d * d
	}
	s.Left = math.Sqrt(s.Left / float64(len(points)))
	return s, rows
}

// at returns u and v of a place; 0 along an axis without extent.
func (s Shape) at(x, y float64) (u, v float64) {
	if s.a > 0 {
		u = (x - s.x) / s.a
	}
	if s.b > 0 {
		v = (y - s.y) / s.b
	}
	return u, v
}

// At returns the height of plane, bow and wind at a place, mm.
func (s Shape) At(x, y float64) float64 {
	u, v := s.at(x, y)
	return s.plane.At(u, v) + s.BowXAt(x) + s.BowYAt(y) + s.WindAt(x, y)
}

// BowXAt returns the share of the bow in x of the height at a place, mm.
func (s Shape) BowXAt(x float64) float64 {
	u, _ := s.at(x, 0)
	return s.BowX.Value * (1 - u*u)
}

// BowYAt returns the share of the bow in y of the height at a place, mm.
func (s Shape) BowYAt(y float64) float64 {
	_, v := s.at(0, y)
	return s.BowY.Value * (1 - v*v)
}

// WindAt returns the share of the wind of the height at a place, mm.
func (s Shape) WindAt(x, y float64) float64 {
	u, v := s.at(x, y)
	return s.Wind.Value / 4 * u * v
}

// independent returns, for the coefficient of every vector in a least-squares
// fit, the weights of the data in it: the rows of the pseudoinverse R⁻¹·Qᵀ. A
// vector that those before it make up has none, and its coefficient is 0.
func independent(vectors [][]float64) [][]float64 {
	out := make([][]float64, len(vectors))
	q, kept := orthonormal(vectors)
	for k := len(kept) - 1; k >= 0; k-- {
		row := slices.Clone(q[k])
		for _, j := range kept[k+1:] {
			r := dot(q[k], vectors[j])
			for i, w := range out[j] {
				row[i] -= r * w
			}
		}
		r := dot(q[k], vectors[kept[k]])
		for i := range row {
			row[i] /= r
		}
		out[kept[k]] = row
	}
	return out
}
