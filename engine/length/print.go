package length

import (
	"math"
	"strconv"
	"strings"
)

// notANumber is printed for NaN and the infinities.
const notANumber = "—"

// countable bounds what is printed digit by digit, in millimetres; beyond it a
// float64 has no room left for 64ths of an inch.
const countable = 1e13

// feetFrom is where [Format.String] changes to feet and inches, in millimetres:
// 10 ft, longer than a sheet and most boards. Our own choice.
const feetFrom = 10 * Foot

// Bare prints mm as a field shows it, without a unit: 1626 or 64 3/8. It
// rounds to 0.01 mm or to the nearest fraction, halves upwards. A length that
// would round to zero is printed as a decimal of three figures instead, unless
// it is below a millionth of a millimetre.
//
// Negative values get a minus sign, which [Parse] does not read back. NaN and
// the infinities are printed as a dash.
func (f Format) Bare(mm float64) string {
	switch {
	case math.IsNaN(mm) || math.IsInf(mm, 0):
		return notANumber
	case mm < -tolerance:
		return "−" + f.Bare(-mm)
	case mm <= tolerance:
		return "0"
	case mm > countable:
		return Number(f.unscaled(mm), 3)
	}
	n := f.nearest(mm)
	switch {
	case n == 0:
		return plainDecimal(f.unscaled(mm), 3)
	case f.Imperial:
		return inches(n, f.denominator())
	}
	return hundredths(n)
}

// Print prints mm with its unit: 1626 mm or 64 3/8". Inches are not turned
// into feet. For the rest see [Format.Bare].
func (f Format) Print(mm float64) string {
	s := f.Bare(mm)
	switch {
	case s == notANumber:
		return s
	case f.Imperial:
		return s + `"`
	}
	return s + " mm"
}

// PrintFeet prints mm in feet and inches, 5' 4 3/8", once it comes to a foot.
// In millimetres it is [Format.Print].
func (f Format) PrintFeet(mm float64) string {
	size := math.Abs(mm)
	if !f.Imperial || !(size <= countable) {
		return f.Print(mm)
	}
	n, den := f.nearest(size), f.denominator()
	feet, rest := n/(12*den), n%(12*den)
	if feet == 0 {
		return f.Print(mm)
	}
	s := strconv.FormatInt(feet, 10) + "' " + inches(rest, den) + `"`
	if mm < 0 {
		return "−" + s
	}
	return s
}

// String prints mm for a sentence or a figure: like [Format.Print], but from
// 10 ft on like [Format.PrintFeet].
func (f Format) String(mm float64) string {
	if math.Abs(mm) >= feetFrom {
		return f.PrintFeet(mm)
	}
	return f.Print(mm)
}

// Exact reports whether mm survives being printed and read again, to within a
// millionth of a millimetre. It is false when printing rounds, and for lengths
// that [Parse] refuses.
func (f Format) Exact(mm float64) bool {
	got, err := Parse(f.Bare(mm), f)
	return err == nil && math.Abs(got-mm) <= tolerance
}

// Reread returns the length that a field holds after text was left in it. When
// text is what this Format prints for stored, nothing was edited and stored
// comes back bit for bit, however much printing rounded it. Otherwise it is
// Parse(text, f).
func (f Format) Reread(text string, stored float64) (float64, error) {
	switch strings.TrimSpace(text) {
	case f.Bare(stored), f.Print(stored), f.PrintFeet(stored):
		return stored, nil
	}
	return Parse(text, f)
}

// unscaled returns mm in the unit of f.
func (f Format) unscaled(mm float64) float64 {
	if f.Imperial {
		return mm / Inch
	}
	return mm
}

// nearest returns how many of the smallest printed parts, fractions of an inch
// or hundredths of a millimetre, are nearest to mm. Halves go up, also where
// the half is not exact in binary. A length that may be read is never rounded
// to one that may not.
func (f Format) nearest(mm float64) int64 {
	count, size := mm*100, func(n int64) float64 { return float64(n) / 100 }
	if den := f.denominator(); f.Imperial {
		count = mm * float64(den*5) / 127
		size = func(n int64) float64 { return FromInches(n, den) }
	}
	const slack = 1e-9
	n := int64(math.Floor(count + 0.5 + slack))
	if mm <= Max && size(n) > Max {
		n--
	}
	return n
}

// inches prints n/den as a whole number and a reduced fraction. den is a power
// of two.
func inches(n, den int64) string {
	whole, rest := n/den, n%den
	if rest == 0 {
		return strconv.FormatInt(whole, 10)
	}
	for rest%2 == 0 {
		rest, den = rest/2, den/2
	}
	s := strconv.FormatInt(rest, 10) + "/" + strconv.FormatInt(den, 10)
	if whole > 0 {
		s = strconv.FormatInt(whole, 10) + " " + s
	}
	return s
}

// hundredths prints n/100 without zeros at its end.
func hundredths(n int64) string {
	s := strconv.FormatInt(n/100, 10)
	if cents := n % 100; cents != 0 {
		s += "." + strings.TrimRight(strconv.FormatInt(100+cents, 10)[1:], "0")
	}
	return s
}
