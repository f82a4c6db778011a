package catalog

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Characteristic returns the 5th percentile of a lognormal quantity, in the
// unit of its mean:
//
//	σ² = ln(1 + cv²)    μ = ln(mean) - σ²/2    x05 = exp(μ - 1.645·σ)
//
// cv is the coefficient of variation as a fraction; at 0 the result is the
// mean. The cv is taken as known, so no allowance for a small sample is made.
// It is NaN unless mean > 0 and cv ≥ 0.
//
// Source: moments of the lognormal distribution; the 5th percentile as
// characteristic value is the convention of EN 1990 4.2 - from memory.
func Characteristic(mean, cv float64) float64 {
	if !(mean > 0) || !(cv >= 0) {
		return math.NaN()
	}
	sigma := math.Sqrt(math.Log1p(cv * cv))
	return mean * math.Exp(-sigma*sigma/2+sigma*distuv.UnitNormal.Quantile(0.05))
}
