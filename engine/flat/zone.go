package flat

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

// Point is a station with its height, mm.
type Point struct{ X, Y, Z float64 }

// Plane is z = Z0 + SlopeX·x + SlopeY·y.
type Plane struct{ Z0, SlopeX, SlopeY float64 }

// At returns the height of the plane, mm.
func (p Plane) At(x, y float64) float64 { return p.Z0 + p.SlopeX*x + p.SlopeY*y }

// Over returns how far a point stands above the plane, mm.
func (p Plane) Over(q Point) float64 { return q.Z - p.At(q.X, q.Y) }

// ErrOneLine says that points make no surface: there are fewer than three, or
// all lie on one straight line.
var ErrOneLine = errors.New("the stations lie on one straight line")

// Deviation is points against the least-squares plane.
type Deviation struct {
	Plane        Plane
	PeakToValley float64 // highest over lowest, mm
	RMS          float64 // root of the mean square, mm
}

// LeastSquares returns the plane with the least sum of squares of heights over
// it, and how far the points stand off it. It returns ErrOneLine.
func LeastSquares(points []Point) (Deviation, error) {
	mx, my, size, err := spread(points)
	if err != nil {
		return Deviation{}, err
	}
	var mean, xx, xy, yy, xz, yz float64
	for _, p := range points {
		mean += p.Z / float64(len(points))
	}
	for _, p := range points {
		x, y, z := (p.X-mx)/size, (p.Y-my)/size, p.Z-mean
		xx, xy, yy, xz, yz = xx+x*x, xy+x*y, yy+y*y, xz+x*z, yz+y*z
	}
	det := xx*yy - xy*xy
	a, b := (xz*yy-yz*xy)/det/size, (yz*xx-xz*xy)/det/size
	d := Deviation{Plane: Plane{mean - a*mx - b*my, a, b}}
	low, high, squares := math.Inf(1), math.Inf(-1), 0.0
	for _, p := range points {
		v := d.Plane.Over(p)
		low, high, squares = min(low, v), max(high, v), squares+v*v
	}
	d.PeakToValley, d.RMS = high-low, math.Sqrt(squares/float64(len(points)))
	return d, nil
}

// spread returns the mean place of points and half of their extent.
func spread(points []Point) (mx, my, size float64, err error) {
	n := float64(len(points))
	for _, p := range points {
		mx, my = mx+p.X/n, my+p.Y/n
	}
	for _, p := range points {
		size = max(size, math.Abs(p.X-mx), math.Abs(p.Y-my))
	}
	if _, _, _, ok := corners(points, size); !ok {
		return 0, 0, 0, ErrOneLine
	}
	return mx, my, size, nil
}

// corners returns three points that lie well off one straight line.
func corners(points []Point, size float64) (i, j, k int, ok bool) {
	most := 0.0
	for n, p := range points {
		if d := math.Hypot(p.X-points[0].X, p.Y-points[0].Y); d > most {
			j, most = n, d
		}
	}
	area := 0.0
	for n, p := range points {
		a := math.Abs((points[j].X-points[0].X)*(p.Y-points[0].Y) - (points[j].Y-points[0].Y)*(p.X-points[0].X))
		if a > area {
			k, area = n, a
		}
	}
	return 0, j, k, area > dependent*size*size
}

// Zone is the minimum zone: the two parallel planes that enclose all points and
// lie as close together as they can.
type Zone struct {
	Width  float64 // distance of the planes, mm: the flatness
	Middle Plane   // halfway between them
	High   []int   // points on the upper plane
	Low    []int   // points on the lower plane
}

// Upper returns the upper plane.
func (z Zone) Upper() Plane {
	z.Middle.Z0 += z.Width / 2
	return z.Middle
}

// MinimumZone returns the minimum zone of points, exactly but for rounding: the
// answer of the linear program
//
//	minimise 2t with −t ≤ z − (Z0 + SlopeX·x + SlopeY·y) ≤ t at every point
//
// Its dual looks for weights, half of them on points of the upper plane and half
// on points of the lower one with the same centroid, that put the two centroids
// farthest apart in height; three or four points carry weight in the end. Points
// are exchanged one at a time as the simplex method does it, the one farthest
// outside first; while that gains nothing, by Bland's rule, so that the many ties
// of a regular grid cannot go round in circles. Rounding leaves the width too
// large by about 1e-12 of the heights' range.
//
// It returns ErrOneLine. Source: ISO 1101's definition, from memory; the linear
// program and its dual are textbook.
func MinimumZone(points []Point) (Zone, error) {
	ls, err := LeastSquares(points)
	if err != nil {
		return Zone{}, err
	}
	mx, my, size, _ := spread(points)
	scaled, height := make([]Point, len(points)), 0.0
	for _, p := range points {
		height = max(height, math.Abs(ls.Plane.Over(p)))
	}
	z := Zone{Middle: ls.Plane}
	if height > 0 {
		for i, p := range points {
			scaled[i] = Point{(p.X - mx) / size, (p.Y - my) / size, ls.Plane.Over(p) / height}
		}
		a, b := height/size, height/size
		t := newTableau(scaled).solve()
		z.Middle.SlopeX += t.SlopeX * a
		z.Middle.SlopeY += t.SlopeY * b
		z.Middle.Z0 += t.Z0*height - t.SlopeX*a*mx - t.SlopeY*b*my
	}
	z.settle(points)
	return z, nil
}

// touching is how near a point must come to a plane of the zone to count as on
// it, as a share of the zone's width.
const touching = 1e-6

// settle moves the middle plane to the middle, and finds the width and the points
// that touch.
func (z *Zone) settle(points []Point) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range points {
		v := z.Middle.Over(p)
		low, high = min(low, v), max(high, v)
	}
	z.Middle.Z0 += (low + high) / 2
	z.Width = high - low
	for i, p := range points {
		v := z.Middle.Over(p)
		if v >= z.Width*(0.5-touching) {
			z.High = append(z.High, i)
		}
		if v <= -z.Width*(0.5-touching) {
			z.Low = append(z.Low, i)
		}
	}
}

// column is a column of the dual program: a point on the upper plane, or on the
// lower one.
type column struct {
	point int
	sign  float64 // 1 upper, −1 lower
}

// tableau is the dual program with four columns in the basis.
type tableau struct {
	points  []Point
	basis   [4]column
	weights [4]float64
}

// newTableau starts with all weight on one point, half of it on either plane.
// Two more points, off one line with it, fill the basis with no weight.
func newTableau(points []Point) *tableau {
	i, j, k, _ := corners(points, 1)
	return &tableau{points, [4]column{{i, 1}, {i, -1}, {j, 1}, {k, 1}}, [4]float64{0.5, 0.5, 0, 0}}
}

// coefficients returns the column's part in the four conditions: both sides weigh
// the same, have their centroid at the same x and y, and weigh 1 together.
func (t *tableau) coefficients(c column) [4]float64 {
	p := t.points[c.point]
	return [4]float64{c.sign, c.sign * p.X, c.sign * p.Y, 1}
}

const (
	gain   = 1e-12 // by which a column must promise to widen the zone, of the heights' range
	pivot  = 1e-11 // least share of an entering column in one that leaves
	rounds = 100000

	patience = 8 // exchanges without a gain before Bland's rule takes over
)

// solve exchanges points until no one lies outside the zone, and returns its
// middle plane. The planes of every basis are a plane to measure from, so that
// even the last of very many rounds would give a zone that encloses all.
func (t *tableau) solve() Plane {
	var middle Plane
	least, idle := 0.0, 0
	for range rounds {
		m := mat.NewDense(4, 4, nil)
		cost := mat.NewVecDense(4, nil)
		for j, c := range t.basis {
			a := t.coefficients(c)
			m.SetCol(j, a[:])
			cost.SetVec(j, c.sign*t.points[c.point].Z)
		}
		var lu mat.LU
		lu.Factorize(m)
		var plane mat.VecDense
		if lu.SolveVecTo(&plane, true, cost) != nil {
			break
		}
		middle = Plane{plane.AtVec(0), plane.AtVec(1), plane.AtVec(2)}
		half := plane.AtVec(3)
		if idle++; half > least+gain {
			least, idle = half, 0
		}
		enter, found := t.outside(middle, half, idle > patience)
		if !found || !t.exchange(&lu, enter) {
			break
		}
	}
	return middle
}

// outside returns the point farthest outside half from the middle plane, or the
// first of all that are.
func (t *tableau) outside(middle Plane, half float64, first bool) (enter column, found bool) {
	most := gain
	for i, p := range t.points {
		v := middle.Over(p)
		sign := math.Copysign(1, v)
		if over := math.Abs(v) - half; over > most {
			enter, found, most = column{i, sign}, true, over
			if first {
				break
			}
		}
	}
	return enter, found
}

// exchange takes a column into the basis for the one whose weight first falls to
// nothing, of several the first in the order of [tableau.outside].
func (t *tableau) exchange(lu *mat.LU, enter column) bool {
	a := t.coefficients(enter)
	var share mat.VecDense
	if lu.SolveVecTo(&share, false, mat.NewVecDense(4, a[:])) != nil {
		return false
	}
	leave, step := -1, math.Inf(1)
	for j := range t.basis {
		if share.AtVec(j) <= pivot {
			continue
		}
		s := t.weights[j] / share.AtVec(j)
		if s < step-pivot || s < step+pivot && t.basis[j].before(t.basis[leave]) {
			leave, step = j, s
		}
	}
	if leave < 0 {
		return false
	}
	for j := range t.weights {
		t.weights[j] = max(0, t.weights[j]-step*share.AtVec(j))
	}
	t.basis[leave], t.weights[leave] = enter, step
	return true
}

// before orders columns as [tableau.outside] meets them.
func (c column) before(d column) bool {
	return c.point < d.point || c.point == d.point && c.sign > d.sign
}
