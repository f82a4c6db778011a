package flat

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

const (
	// unchecked is the share of a reading's own error that shows in what is left
	// of it, below which nothing checks it.
	unchecked = 1e-6

	// fourOfFive is the normal deviate of four out of five.
	fourOfFive = 0.8416

	// few is the share of readings that may be named bad, and fewAtLeast how
	// many in a small survey, before the standard errors are doubted instead.
	// Our own choice.
	few        = 0.1
	fewAtLeast = 2
)

// scoreLimit is the score above which a reading is bad, one of n: a normal
// deviate beyond it, either way, has the probability chance/n.
func scoreLimit(n int) float64 { return distuv.UnitNormal.Quantile(1 - chance/2/float64(n)) }

// free is the share of reading i's error that shows in what is left of it: the
// diagonal of R = I − U·Uᵀ.
func (s *solution) free(i int) float64 {
	row := s.u.RawRowView(i)
	sum := 1.0
	for _, v := range row {
		sum -= v * v
	}
	return sum
}

// snoop names bad readings, one after the other. Where more than a few would be
// named, not they are bad but the standard errors are too small: then they are
// judged by how far most of them scatter.
func (s *solution) snoop() []Bad {
	bad := s.condemned(false)
	if len(bad) > max(fewAtLeast, int(few*float64(s.kept))) {
		return s.condemned(true)
	}
	return bad
}

// condemned names readings until none is beyond the limit, in units of their
// standard errors or, scaled, of what most of them scatter. To leave reading i
// out takes it off what is left and off R = I − U·Uᵀ of the others, exactly:
//
//	left −= R·eᵢ·leftᵢ/Rᵢᵢ,  R −= R·eᵢ·eᵢᵀ·R/Rᵢᵢ
func (s *solution) condemned(scaled bool) []Bad {
	p := newProof(s)
	var bad []Bad
	for freedom := s.freedom(); freedom > 0; freedom-- {
		limit := scoreLimit(p.m)
		if scaled {
			limit *= p.scale()
		}
		i, score := p.worst()
		if score <= limit {
			break
		}
		sigma := s.n.eqs[i].sigma
		bad = append(bad, Bad{Reading: i, Off: p.left[i] / p.r.At(i, i) * sigma, Score: score, Or: p.others(i, limit)})
		p.leaveOut(i)
	}
	return bad
}

// proof is what is left of the readings, and how errors of one show in others.
type proof struct {
	m    int
	left []float64
	r    *mat.SymDense
}

func newProof(s *solution) *proof {
	m := len(s.n.eqs)
	p := &proof{m: m, left: slices.Clone(s.left[:m]), r: mat.NewSymDense(m, nil)}
	p.r.SymOuterK(-1, s.u.Slice(0, m, 0, s.rank))
	for i := range m {
		p.r.SetSym(i, i, 1+p.r.At(i, i))
	}
	return p
}

// score is what is left of reading i over its own standard error; 0 where
// nothing checks it.
func (p *proof) score(i int) float64 {
	free := p.r.At(i, i)
	if free < unchecked {
		return 0
	}
	return p.left[i] / math.Sqrt(free)
}

// worst returns the reading with the largest score, the first of equals.
func (p *proof) worst() (int, float64) {
	at, most := 0, 0.0
	for i := range p.m {
		if s := math.Abs(p.score(i)); s > most*(1+1e-9) {
			at, most = i, s
		}
	}
	return at, most
}

// scale is by how much more than their standard errors most readings scatter, 1
// at least: the median of the scores over that of a normal deviate. A few bad
// readings hardly move it.
func (p *proof) scale() float64 {
	var scores []float64
	for i := range p.m {
		if p.r.At(i, i) >= unchecked {
			scores = append(scores, math.Abs(p.score(i)))
		}
	}
	slices.SortFunc(scores, cmp.Compare[float64])
	return max(1, scores[len(scores)/2]/distuv.UnitNormal.Quantile(0.75))
}

// others returns the readings any one of which, left out in place of i, would
// leave i unremarkable. With ρ the correlation of the two scores, the score of i
// without j is (wᵢ − ρ·wⱼ)/√(1 − ρ²).
func (p *proof) others(i int, limit float64) []int {
	var out []int
	wi := p.score(i)
	for j := range p.m {
		if j == i || p.r.At(j, j) < unchecked {
			continue
		}
		rho := p.r.At(i, j) / math.Sqrt(p.r.At(i, i)*p.r.At(j, j))
		rest := 1 - rho*rho
		if rest < unchecked || math.Abs(wi-rho*p.score(j))/math.Sqrt(rest) <= limit {
			out = append(out, j)
		}
	}
	return out
}

// leaveOut takes reading i out of the proof.
func (p *proof) leaveOut(i int) {
	free, left := p.r.At(i, i), p.left[i]
	column := make([]float64, p.m)
	for j := range column {
		column[j] = p.r.At(j, i)
	}
	for j, c := range column {
		p.left[j] -= c * left / free
	}
	p.r.SymRankOne(p.r, -1/free, mat.NewVecDense(p.m, column))
	// Exactly nothing is left of it; rounding must not bring it back.
	for j := range column {
		p.r.SetSym(i, j, 0)
	}
	p.left[i] = 0
}
