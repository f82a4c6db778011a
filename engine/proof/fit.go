package proof

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Fitted is what the readings say of the top.
type Fitted struct {
	Scale float64 // sag as measured over sag as expected
	Error float64 // its standard error

	Low, High float64 // 90 % range of Scale; Low may be 0, where the readings do not bound the stiffness

	Bedding      float64 // by which the supports settled under the first load, mm, apart from what the top bends
	BeddingError float64
	Held         float64 // share of the sag that friction at the supports held back while loading
	Freedom      float64 // degrees of freedom of the range
	Scatter      float64 // of the readings about the line, over their standard error
}

// Stiffness returns load over sag by the readings, N/mm, and its 90 % range,
// where expected mm were expected under load N. High is +Inf where the readings
// do not bound it.
func (f Fitted) Stiffness(load, expected float64) (value, low, high float64) {
	at := func(scale float64) float64 {
		if scale <= 0 {
			return math.Inf(1)
		}
		return load / (expected * scale)
	}
	return at(f.Scale), at(f.High), at(f.Low)
}

// trust is for how many readings the stated error of the way counts when the
// scatter is judged: few readings by themselves tell little of it. Common
// practice, no source.
const trust = 8.0

// wide is a standard deviation, in mm or as a ratio, that says nothing.
const wide = 30.0

// Fit tells the stiffness from the readings by weighted least squares:
//
//	read = zero + bedding·[under load] + scale·expected − held·(±expected)
//
// with + while loading and − while unloading. zero is free; bedding is about 0
// by known.Bedding; held is between nothing and known.Friction; scale is free, or
// about 1 by known.Spread on its logarithm (normal of the same spread). Readings without load after the
// first are left out: they tell the set. The range is Student's, by the scatter of
// the readings and their stated error, which counts as much as eight readings.
//
// The model is a top whose sag is a fixed multiple of what was expected; creep
// during the test counts as sag.
//
// It returns ErrFew without a reading under load and one without, ErrDomain for
// figures that are not finite or an error that is not above 0.
func Fit(readings []Reading, known Known) (Fitted, error) {
	rows, err := usable(oneRound(readings), known)
	if err != nil {
		return Fitted{}, err
	}
	spread := wide
	if known.Spread > 0 {
		spread = known.Spread
	}
	const zero, bedding, scale, held = 0, 1, 2, 3
	about := [4]float64{rows[0].Read, 0, 1, known.Friction / 2}
	prior := [4]float64{wide, known.bedding(), spread, math.Max(known.Friction/math.Sqrt(12), 1e-6)}
	normal := mat.NewSymDense(4, nil)
	right := mat.NewVecDense(4, nil)
	for j := range prior {
		// In units of the reading's error, as the rows below.
		w := known.Error / prior[j]
		normal.SetSym(j, j, w*w)
	}
	line := func(r Reading) [4]float64 {
		under := 0.0
		if r.Load > 0 {
			under = 1
		}
		return [4]float64{1, under, r.Expected, -r.way() * r.Expected}
	}
	for _, r := range rows {
		x := line(r)
		left := r.Read
		for j := range x {
			left -= x[j] * about[j]
		}
		for j := range x {
			right.SetVec(j, right.AtVec(j)+x[j]*left)
			for k := j; k < 4; k++ {
				normal.SetSym(j, k, normal.At(j, k)+x[j]*x[k])
			}
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(normal) {
		return Fitted{}, ErrDomain
	}
	var move mat.VecDense
	var inverse mat.SymDense
	if chol.SolveVecTo(&move, right) != nil || chol.InverseTo(&inverse) != nil {
		return Fitted{}, ErrDomain
	}
	var theta [4]float64
	for j := range theta {
		theta[j] = about[j] + move.AtVec(j)
	}
	sum := 0.0
	for _, r := range rows {
		x := line(r)
		left := r.Read
		for j := range x {
			left -= x[j] * theta[j]
		}
		sum += left * left
	}
	own := known.Error * known.Error
	free := math.Max(0, float64(len(rows)-3)) // zero, bedding and scale are taken out of them
	variance := (trust*own + sum) / (trust + free)
	f := Fitted{Scale: theta[scale], Error: math.Sqrt(variance * inverse.At(scale, scale)), Bedding: theta[bedding],
		BeddingError: math.Sqrt(variance * inverse.At(bedding, bedding)), Held: theta[held], Freedom: trust + free, Scatter: math.Sqrt(sum / math.Max(free, 1) / own)}
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: f.Freedom}.Quantile(0.95)
	f.Low, f.High = math.Max(0, f.Scale-t*f.Error), f.Scale+t*f.Error
	return f, nil
}

// way is +1 while loading and −1 while unloading.
func (r Reading) way() float64 {
	if r.Unloading {
		return -1
	}
	return 1
}

// mostReadings bounds the work; a longer list is a slip.
const mostReadings = 200

// oneRound returns the readings of the round of the first.
func oneRound(readings []Reading) []Reading {
	for i, r := range readings {
		if r.Round != readings[0].Round {
			return readings[:i]
		}
	}
	return readings
}

// usable returns the readings that tell of the stiffness: the first of
// each round, which is without load, and all under load.
func usable(readings []Reading, known Known) ([]Reading, error) {
	if !(known.Error > 0) || !(known.Error < wide) || !(known.Friction >= 0 && known.Friction <= MostFriction) || !(known.Spread >= 0 && known.Spread < wide) || !(known.Bedding >= 0 && known.Bedding < wide) || len(readings) > mostReadings {
		return nil, ErrDomain
	}
	var out []Reading
	loaded := 0
	for i, r := range readings {
		for _, v := range [...]float64{r.Load, r.Expected, r.Read} {
			if math.IsNaN(v) || math.Abs(v) > 1e7 {
				return nil, ErrDomain
			}
		}
		switch {
		case r.Load > 0 && r.Expected > 0:
			loaded++
			out = append(out, r)
		case i == 0 || r.Round != readings[i-1].Round:
			out = append(out, r)
		}
	}
	if loaded == 0 || len(out) == loaded {
		return nil, ErrFew
	}
	return out, nil
}
