package proof

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Unknown is a figure of the top that nobody knows exactly.
type Unknown struct {
	Name   string
	Spread float64 // standard deviation of its logarithm before the readings, above 0
}

// Explanation is the readings explained by one unknown alone, all else as planned.
type Explanation struct {
	Name      string
	Factor    float64 // by which the unknown differs from the plan
	Low, High float64 // 90 % range of it
	Spreads   float64 // how many of its usual standard deviations that is
	// Belief is the share of belief, 0..1, that this is the one, all being
	// equally likely before: how likely the readings were, were it so.
	Belief float64
}

// Told is what the readings say about the unknowns.
type Told struct {
	AsPlanned    float64       // share of belief that nothing differs
	Explanations []Explanation // as the unknowns
	Best         int           // the most believed, −1 if nothing differs

	// Apart[i][j] is by how many standard errors the readings would miss, were i
	// off by its usual standard deviation and j blamed for it. Under [Tells] they
	// cannot tell the two apart. It is 0 for i = j.
	Apart [][]float64
}

// Tells is how many standard errors tell two explanations apart: nineteen times
// of twenty, two-sided (normal distribution).
const Tells = 1.96

// Explain weighs the unknowns against each other. Every reading has Slopes, one
// for each unknown. Under each explanation the readings are jointly normal about
// what was expected: the covariance is that of reading error, of bedding-in, of
// friction, of the unknown's own spread, and of the gauge's beginning, on which
// nothing is known. Which unknown was it is Bayes' rule with equal beliefs before
// (textbook). It is first order in the logarithm of the unknowns.
//
// It returns the errors of [Fit], and ErrDomain for slopes that do not fit the
// unknowns or a spread that is not above 0. known.Spread is not used.
func Explain(readings []Reading, unknowns []Unknown, known Known) (Told, error) {
	rows, err := usable(readings, known)
	if err != nil {
		return Told{}, err
	}
	for _, u := range unknowns {
		if !(u.Spread > 0) || !(u.Spread < wide) {
			return Told{}, ErrDomain
		}
	}
	for _, r := range rows {
		if len(r.Slopes) != len(unknowns) {
			return Told{}, ErrDomain
		}
		for _, s := range r.Slopes {
			if math.IsNaN(s) || math.Abs(s) > 1e7 {
				return Told{}, ErrDomain
			}
		}
	}
	base, left := common(rows, known)
	slope := make([]*mat.VecDense, len(unknowns))
	for j := range unknowns {
		slope[j] = mat.NewVecDense(len(rows), nil)
		for i, r := range rows {
			slope[j].SetVec(i, r.Slopes[j])
		}
	}
	t := Told{Best: -1}
	evidence := make([]float64, len(unknowns)+1)
	var chol mat.Cholesky
	if !chol.Factorize(base) {
		return Told{}, ErrDomain
	}
	plain := quadratic(&chol, left, left)
	most := -0.5 * plain
	evidence[len(unknowns)] = most
	for j, u := range unknowns {
		// One more direction of variance u²: the matrix determinant lemma and
		// the update of Sherman and Morrison give determinant and quadratic form.
		a, b := quadratic(&chol, slope[j], slope[j]), quadratic(&chol, slope[j], left)
		v := u.Spread * u.Spread
		e := Explanation{Name: u.Name}
		mean, sd := v*b/(1+v*a), math.Sqrt(v/(1+v*a))
		e.Factor, e.Low, e.High, e.Spreads = math.Exp(mean), math.Exp(mean-z90*sd), math.Exp(mean+z90*sd), mean/u.Spread
		evidence[j] = -0.5*(plain-v*b*b/(1+v*a)) - 0.5*math.Log1p(v*a)
		most = math.Max(most, evidence[j])
		t.Explanations = append(t.Explanations, e)
	}
	sum := 0.0
	for _, e := range evidence {
		sum += math.Exp(e - most)
	}
	belief := func(j int) float64 { return math.Exp(evidence[j]-most) / sum }
	t.AsPlanned = belief(len(unknowns))
	best := t.AsPlanned
	for j := range t.Explanations {
		t.Explanations[j].Belief = belief(j)
		if belief(j) > best {
			best, t.Best = belief(j), j
		}
	}
	t.Apart = apart(&chol, slope, unknowns)
	return t, nil
}

// common returns the covariance of the readings, mm², that does not depend on
// what explains them, and the readings less what was expected.
func common(rows []Reading, known Known) (*mat.SymDense, *mat.VecDense) {
	n := len(rows)
	base, left := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	friction := known.Friction / math.Sqrt(12)
	begun := rows[0]
	for i, r := range rows {
		if r.Round != begun.Round {
			begun = r
		}
		left.SetVec(i, r.Read-begun.Read-r.Expected*(1-r.way()*known.Friction/2))
		for k := i; k < n; k++ {
			q := rows[k]
			v := friction * friction * r.way() * q.way() * r.Expected * q.Expected
			if r.Round == q.Round {
				v += wide * wide
			}
			if r.Round == q.Round && r.Load > 0 && q.Load > 0 {
				v += known.bedding() * known.bedding()
			}
			if i == k {
				v += known.Error * known.Error
			}
			base.SetSym(i, k, v)
		}
	}
	return base, left
}

// quadratic returns aᵀ·C⁻¹·b.
func quadratic(c *mat.Cholesky, a, b *mat.VecDense) float64 {
	var x mat.VecDense
	if err := c.SolveVecTo(&x, b); err != nil {
		if _, poor := err.(mat.Condition); !poor {
			return math.NaN()
		}
	}
	return mat.Dot(a, &x)
}

// apart fills in [Told.Apart]: what is left of i's effect once j's is fitted to it.
func apart(c *mat.Cholesky, slope []*mat.VecDense, unknowns []Unknown) [][]float64 {
	out := make([][]float64, len(slope))
	for i := range slope {
		out[i] = make([]float64, len(slope))
		for j := range slope {
			if i == j {
				continue
			}
			own := quadratic(c, slope[i], slope[i])
			if other := quadratic(c, slope[j], slope[j]); other > 0 {
				both := quadratic(c, slope[i], slope[j])
				own -= both * both / other
			}
			out[i][j] = unknowns[i].Spread * math.Sqrt(math.Max(0, own))
		}
	}
	return out
}
