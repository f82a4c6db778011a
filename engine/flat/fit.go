package flat

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Errors of a survey as a whole.
var (
	ErrNoReadings = errors.New("there is no reading")
	ErrTooLarge   = errors.New("there are too many stations or readings")
	ErrNotSolved  = errors.New("the readings cannot be put together: their figures differ by too many orders of size")
)

// The largest survey that is taken: a station every 100 mm on a bed of 4 m by
// 1.2 m, each read three times.
const (
	MaxStations = 500
	MaxReadings = 1500
)

// Heights is what a survey says about its stations. Slices are as the stations
// of [Fit].
type Heights struct {
	// Z are heights over the least-squares plane of the stations that are Known,
	// mm, and Error their standard errors. Both are 0 where not Known.
	Z, Error []float64
	Known    []bool

	// WindAssumed: nothing in the survey tells wind, and the heights are those of
	// a bed without any. It is so where all lines run along and across: rows
	// and columns fit any twisted surface. A diagonal or winding sticks tell.
	WindAssumed bool

	// Tilt is the slope of that plane against level, where TiltTold: a level was
	// used, and over enough stations.
	Tilt     Plane
	TiltTold bool

	Readings []Reading // in the order of the lines
	Bad      []Bad     // readings that the others contradict, the worst first
	Worst    int       // index into Readings of the largest misclosure of those that were kept; -1 if nothing is checked

	Freedom int     // readings more than needed
	Scatter float64 // how far readings scatter against their standard errors: about 1; 0 if nothing is checked
	Agrees  bool    // Scatter is no more than one survey in a hundred has by chance

	spread *mat.Dense // Z = spread·(independent errors of unit size), rows as the known stations
}

// Reading is one reading beside what the whole survey makes of it. Both figures
// are heights as the method sees them, mm: positive is surface higher.
type Reading struct {
	Line, Index int
	Station     int     // that it is about; of winding sticks the last
	Left        float64 // by how much it is higher than the fitted heights say
	// Misclosure is by how much it is higher than all other readings together
	// say. It is 0 where Unchecked: no other reading tells the same.
	Misclosure float64
	Unchecked  bool
	Notices    float64 // the least slip that would be named in four surveys of five; 0 if Unchecked
	Out        bool    // named in Bad and left out of the heights
}

// Bad is a reading that the others contradict.
type Bad struct {
	Reading int     // index into Readings
	Off     float64 // by how much it is off, mm, as the others say
	Score   float64 // Off over its standard error

	// Or are readings any one of which, were it the bad one, would explain the
	// contradiction as well. Then the network cannot tell which it is, nothing
	// is left out, and all of them should be read again.
	Or []int
}

// Fit puts the readings of all lines together by least squares, each weighted by
// its standard error:
//
//	minimise Σ ((A·z − value)/σ)²
//
// A reading that its own misclosure condemns is left out and named, the worst
// first, until none is left (see [Bad]); the limit is such that one survey in a
// hundred without a bad reading has one named. Heights are told over the
// least-squares plane of the stations, for no method but a level knows what is
// level. Standard errors are those of the readings carried through, and larger
// by Scatter where that is above 1.
//
// It returns a [*LineError], ErrNoReadings, ErrTooLarge or, should the
// decomposition into singular values not converge, ErrNotSolved.
//
// Source: adjustment of a free network with the datum of inner constraints, and
// testing of standardised residuals one after the other (W. Baarda, A Testing
// Procedure for Use in Geodetic Networks, 1968), from memory.
func Fit(stations []Station, lines []Line) (Heights, error) {
	eqs, levels, err := equations(stations, lines)
	switch {
	case err != nil:
		return Heights{}, err
	case len(eqs) == 0:
		return Heights{}, ErrNoReadings
	case len(stations) > MaxStations || len(eqs) > MaxReadings:
		return Heights{}, ErrTooLarge
	}
	n := network{stations: stations, eqs: eqs, levels: levels, out: make([]bool, len(eqs))}
	s, err := n.solve()
	if err != nil {
		return Heights{}, err
	}
	bad := s.snoop()
	for _, b := range bad {
		if len(b.Or) == 0 {
			n.out[b.Reading] = true
		}
	}
	if len(bad) > 0 {
		if s, err = n.solve(); err != nil {
			return Heights{}, err
		}
	}
	return s.heights(bad), nil
}

// network is the conditions of a survey.
type network struct {
	stations []Station
	eqs      []equation
	levels   int
	out      []bool // readings left out
}

// solution is a network solved: with A = U·S·Vᵀ of the weighted conditions.
type solution struct {
	n          *network
	x          []float64  // heights and set-ups, the shortest vector that fits
	left       []float64  // weighted values minus weighted A·x
	u          *mat.Dense // conditions by rank
	v          *mat.Dense // unknowns by rank, over the singular values
	null       *mat.Dense // unknowns by defect: what changes no reading
	rank, kept int
}

// rankLimit is the singular value below which a direction counts as not seen,
// against the largest. Readings' weights differ by a factor of a hundred, and
// bridges along 50 stations have their weakest direction at a thousandth.
const rankLimit = 1e-8

// solve takes the conditions that are not left out apart into singular values.
func (n *network) solve() (*solution, error) {
	unknowns := len(n.stations) + n.levels
	// Rows of zeros below make at least as many rows as columns, so that the
	// thin decomposition has every direction of the unknowns.
	rows := max(len(n.eqs), unknowns)
	a, b := mat.NewDense(rows, unknowns, nil), make([]float64, rows)
	s := &solution{n: n}
	for i, e := range n.eqs {
		if n.out[i] {
			continue
		}
		s.kept++
		for k, at := range e.at {
			a.Set(i, at, e.weights[k]/e.sigma)
		}
		if e.level >= 0 {
			a.Set(i, len(n.stations)+e.level, -1/e.sigma)
		}
		b[i] = e.value / e.sigma
	}
	var svd mat.SVD
	if !svd.Factorize(a, mat.SVDThin) {
		return nil, ErrNotSolved
	}
	values := svd.Values(nil)
	for s.rank < len(values) && values[s.rank] > rankLimit*values[0] {
		s.rank++
	}
	var u, v mat.Dense
	svd.UTo(&u)
	svd.VTo(&v)
	s.u = mat.DenseCopyOf(u.Slice(0, rows, 0, s.rank))
	if s.rank < unknowns {
		s.null = mat.DenseCopyOf(v.Slice(0, unknowns, s.rank, unknowns))
	}
	s.v = mat.DenseCopyOf(v.Slice(0, unknowns, 0, s.rank))
	s.v.Apply(func(_, j int, x float64) float64 { return x / values[j] }, s.v)
	bv := mat.NewVecDense(rows, b)
	var c, x, ax mat.VecDense
	c.MulVec(s.u.T(), bv)
	x.MulVec(s.v, &c)
	ax.MulVec(s.u, &c)
	ax.SubVec(bv, &ax)
	s.x, s.left = x.RawVector().Data, ax.RawVector().Data
	return s, nil
}

// freedom is the number of readings more than needed.
func (s *solution) freedom() int { return s.kept - s.rank }

// chance is the share of surveys without a bad reading in which one is named,
// and in which Agrees is false.
const chance = 0.01

// heights turns a solution into what is told.
func (s *solution) heights(bad []Bad) Heights {
	stations := s.n.stations
	h := Heights{Z: make([]float64, len(stations)), Error: make([]float64, len(stations)), Bad: bad, Worst: -1, Freedom: s.freedom(), Agrees: true}
	h.Known, h.WindAssumed = s.known()
	if h.Freedom > 0 {
		sum := 0.0
		for _, v := range s.left {
			sum += v * v
		}
		h.Scatter = math.Sqrt(sum / float64(h.Freedom))
		h.Agrees = sum <= distuv.ChiSquared{K: float64(h.Freedom)}.Quantile(1-chance)
	}
	s.readings(&h)
	known := indices(h.Known)
	if len(known) == 0 {
		return h
	}
	h.Tilt, h.TiltTold = s.tilt(known)
	datum := basis(stations, known, h.WindAssumed)
	z := make([]float64, len(known))
	h.spread = mat.NewDense(len(known), s.rank, nil)
	for i, k := range known {
		z[i] = s.x[k]
		for j := range s.rank {
			h.spread.Set(i, j, s.v.At(k, j)*max(1, h.Scatter))
		}
	}
	datum.takeOff(z)
	datum.takeOffColumns(h.spread)
	for i, k := range known {
		h.Z[k] = z[i]
		h.Error[k] = mat.Norm(h.spread.RowView(i), 2)
	}
	return h
}

// readings fills in what is told of each reading.
func (s *solution) readings(h *Heights) {
	h.Readings = make([]Reading, len(s.n.eqs))
	limit := scoreLimit(len(s.n.eqs))
	worst := 0.0
	for i, e := range s.n.eqs {
		r := Reading{Line: e.line, Index: e.reading, Station: e.about(), Out: s.n.out[i]}
		if r.Out {
			r.Left = e.value - s.fitted(e)
			r.Misclosure = r.Left
			h.Readings[i] = r
			continue
		}
		r.Left = s.left[i] * e.sigma
		free := s.free(i)
		if r.Unchecked = free < unchecked; !r.Unchecked {
			r.Misclosure = r.Left / free
			r.Notices = (limit + fourOfFive) * e.sigma / math.Sqrt(free)
			if m := math.Abs(r.Misclosure); m > worst || h.Worst < 0 {
				worst, h.Worst = m, i
			}
		}
		h.Readings[i] = r
	}
}

// about returns the station that a reading is about.
func (e equation) about() int {
	switch len(e.at) {
	case 1:
		return e.at[0]
	case 3:
		return e.at[1]
	}
	return e.at[3]
}

// fitted returns what the fitted heights say for a condition.
func (s *solution) fitted(e equation) float64 {
	sum := 0.0
	for k, at := range e.at {
		sum += e.weights[k] * s.x[at]
	}
	if e.level >= 0 {
		sum -= s.x[len(s.n.stations)+e.level]
	}
	return sum
}
