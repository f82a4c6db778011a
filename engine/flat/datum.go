package flat

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// datum is an orthonormal basis, of 3 or 4 vectors over the known stations, of
// the surfaces that heights are told over: planes, and twisted planes where wind
// is assumed away.
type datum struct{ basis [][]float64 }

// basis returns the datum of some stations. A row of stations on one straight
// line has a datum of two columns only.
func basis(stations []Station, known []int, wind bool) datum {
	columns := 3
	if wind {
		columns = 4
	}
	mx, my, size := middle(stations, known)
	raw := make([][]float64, columns)
	for c := range raw {
		raw[c] = make([]float64, len(known))
	}
	for i, k := range known {
		x, y := (stations[k].X-mx)/size, (stations[k].Y-my)/size
		for c, v := range []float64{1, x, y, x * y}[:columns] {
			raw[c][i] = v
		}
	}
	q, _ := orthonormal(raw)
	return datum{q}
}

// middle returns the mean place of some stations and half of their extent.
func middle(stations []Station, some []int) (x, y, size float64) {
	for _, k := range some {
		x += stations[k].X / float64(len(some))
		y += stations[k].Y / float64(len(some))
	}
	for _, k := range some {
		size = max(size, math.Abs(stations[k].X-x), math.Abs(stations[k].Y-y))
	}
	if size == 0 {
		size = 1
	}
	return x, y, size
}

// dependent is the length that is left of a unit vector which counts as one
// that the vectors before it make up.
const dependent = 1e-6

// orthonormal returns an orthonormal basis of what the vectors span, by the
// method of Gram and Schmidt, each vector taken twice, and which vectors it was
// made of: one that those before it make up is dropped.
func orthonormal(vectors [][]float64) (out [][]float64, kept []int) {
	for n, v := range vectors {
		before := norm(v)
		w := append([]float64(nil), v...)
		for range 2 {
			for _, q := range out {
				d := dot(q, w)
				for i := range w {
					w[i] -= d * q[i]
				}
			}
		}
		left := norm(w)
		if !(left > dependent*before) {
			continue
		}
		for i := range w {
			w[i] /= left
		}
		out, kept = append(out, w), append(kept, n)
	}
	return out, kept
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

func norm(a []float64) float64 { return math.Sqrt(dot(a, a)) }

// takeOff takes the datum's share off a vector.
func (d datum) takeOff(v []float64) {
	for _, q := range d.basis {
		c := dot(q, v)
		for i := range v {
			v[i] -= c * q[i]
		}
	}
}

// takeOffColumns takes the datum's share off every column of m.
func (d datum) takeOffColumns(m *mat.Dense) {
	_, columns := m.Dims()
	for j := range columns {
		v := mat.Col(nil, j, m)
		d.takeOff(v)
		m.SetCol(j, v)
	}
}

// loose is the size of a height, against a unit movement that no reading sees,
// from which on a station is not known.
const loose = 1e-6

// known returns which stations the readings tie together, all but for a plane,
// and whether that takes a bed without wind.
//
// Stations that no reading names are not. Of the others, as long as something can
// move that no reading sees and that is no tilt, the station that moves most
// is given up.
func (s *solution) known() (known []bool, windAssumed bool) {
	n := len(s.n.stations)
	known = make([]bool, n)
	for i, e := range s.n.eqs {
		for _, at := range e.at {
			known[at] = known[at] || !s.n.out[i]
		}
	}
	if s.null == nil {
		return known, false
	}
	touched := indices(known)
	windAssumed = s.windUnseen(touched)
	for {
		some := indices(known)
		if len(some) == 0 {
			return known, false
		}
		moves := s.moves(some)
		basis(s.n.stations, some, windAssumed).takeOffColumns(moves)
		at, most := 0, 0.0
		for i := range some {
			if m := mat.Norm(moves.RowView(i), 2); m > most*(1+1e-9) {
				at, most = i, m
			}
		}
		if most < loose {
			return known, windAssumed
		}
		known[some[at]] = false
	}
}

// tilt returns the slope of the known stations against level, and whether it is
// told: all that no reading sees is how high they stand together.
func (s *solution) tilt(known []int) (Plane, bool) {
	if s.null != nil {
		moves := s.moves(known)
		_, defect := moves.Dims()
		for j := range defect {
			v := mat.Col(nil, j, moves)
			mean := 0.0
			for _, m := range v {
				mean += m / float64(len(v))
			}
			for i := range v {
				v[i] -= mean
			}
			if norm(v) > loose {
				return Plane{}, false
			}
		}
	}
	points := make([]Point, len(known))
	for i, k := range known {
		points[i] = Point{s.n.stations[k].X, s.n.stations[k].Y, s.x[k]}
	}
	d, err := LeastSquares(points)
	d.Plane.Z0 = 0
	return d.Plane, err == nil
}

// moves returns the part of what no reading sees on some stations.
func (s *solution) moves(some []int) *mat.Dense {
	_, defect := s.null.Dims()
	m := mat.NewDense(len(some), defect, nil)
	for i, k := range some {
		m.SetRow(i, s.null.RawRowView(k))
	}
	return m
}

// windUnseen reports whether a twist of the stations, but for a tilt, is among
// what no reading sees.
func (s *solution) windUnseen(stations []int) bool {
	if len(basis(s.n.stations, stations, true).basis) < 4 {
		return false
	}
	plane := basis(s.n.stations, stations, false)
	moves := s.moves(stations)
	plane.takeOffColumns(moves)
	_, defect := moves.Dims()
	var unseen [][]float64
	for j := range defect {
		if v := mat.Col(nil, j, moves); norm(v) > loose {
			unseen = append(unseen, v)
		}
	}
	mx, my, size := middle(s.n.stations, stations)
	twist := make([]float64, len(stations))
	for i, k := range stations {
		twist[i] = (s.n.stations[k].X - mx) / size * (s.n.stations[k].Y - my) / size
	}
	plane.takeOff(twist)
	all := norm(twist)
	q, _ := orthonormal(unseen)
	datum{q}.takeOff(twist)
	return norm(twist) < loose*all
}

// indices returns where a list is true.
func indices(list []bool) []int {
	var out []int
	for i, v := range list {
		if v {
			out = append(out, i)
		}
	}
	return out
}
