package length

import "math"

// Step returns what one press of an arrow key adds, in millimetres: 1 mm, or
// the smallest fraction of an inch that f shows.
func (f Format) Step() float64 {
	_, at := f.grid(false)
	return at(1)
}

// StepUp returns the next multiple of the step above mm, or of the coarse step,
// 10 mm or 1 in. It is never over [Max].
func (f Format) StepUp(mm float64, coarse bool) float64 {
	mm = within(mm)
	step, at := f.grid(coarse)
	return min(at(int64(math.Floor((mm+tolerance)/step))+1), Max)
}

// StepDown returns the next multiple of the step below mm, or of the coarse
// step. It is never negative.
func (f Format) StepDown(mm float64, coarse bool) float64 {
	mm = within(mm)
	step, at := f.grid(coarse)
	return max(at(int64(math.Ceil((mm-tolerance)/step))-1), 0)
}

// Snap returns the multiple of the step nearest to mm, between 0 and [Max];
// halves go up.
func (f Format) Snap(mm float64) float64 {
	mm = within(mm)
	if f.Imperial {
		return FromInches(f.nearest(mm), f.denominator())
	}
	return math.Floor(mm + 0.5 + tolerance)
}

// grid returns the step and its n-th multiple, both in millimetres.
func (f Format) grid(coarse bool) (step float64, at func(n int64) float64) {
	num, den := int64(1), f.denominator()
	switch {
	case !f.Imperial:
		if coarse {
			num = 10
		}
		return float64(num), func(n int64) float64 { return float64(n * num) }
	case coarse:
		den = 1
	}
	return FromInches(1, den), func(n int64) float64 { return FromInches(n, den) }
}

// within returns mm cut to the lengths that may be read; NaN becomes 0.
func within(mm float64) float64 {
	if !(mm > 0) {
		return 0
	}
	return min(mm, Max)
}
