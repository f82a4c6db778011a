// Package length reads and prints lengths the way woodworkers write them, and
// prints the few other quantities that follow the same choice of units.
//
// Inside the program a length is a float64 in millimetres. Feet, inches and
// fractions exist only in this package, at the edge where text is typed or
// shown. [Parse] reads text, [Format] prints it and says when printing rounds,
// so that a form can leave a stored value alone until it is really edited.
//
// # What is read
//
// A number with a unit means the same everywhere: 19 mm, 160 cm, 1.6 m,
// 1,6 m, 2.5 in, 3/4", 64 3/8", 64-3/8", 5' 4 3/8", 5'-4 3/8", 2 ft 3 in,
// 1 m 20 cm. Fractions may be signs (5⅜) and marks may be primes or curly
// quotes. A number without a unit is in the unit of the Format, and after feet
// it is inches.
//
// # What is refused, and why
//
//   - 1,500: one comma and three digits is 1.5 to some readers and 1500 to
//     others. 0,500 and 1234,500 can only be decimals and are read.
//   - 1,234.5 and 1.234,5: digits are not grouped here.
//   - 5 4 and 5-4 3/8: feet and inches without their marks, or a slip.
//   - 64 - 3/8, with a space at the hyphen: it may be meant as a subtraction.
//   - 3/4 while millimetres are the unit: rules with fractions are inch rules,
//     and 0.75 mm is hardly meant.
//   - 1 m 20: 20 of what?
//   - 7 9/8, 5' 14" and 1 m 120 cm: a part that fills the next larger unit is
//     more often a slip than a wish. 9/8 alone is read.
//   - 5" 4', 5" 4", 1 m 2 in and 1.5 m 20 cm: order, repetition, mixture, and a
//     broken unit with a smaller one after it.
//   - Exponents, negative lengths and anything over [Max].
package length

// Inch and Foot are in millimetres; both are exact.
//
// Source: international yard and pound agreement, 1 July 1959: one yard is
// 0.9144 m, so an inch is 914.4/36 = 25.4 mm.
const (
	Inch = 25.4
	Foot = 12 * Inch
)

// Max is the longest length that is read or stepped to, in millimetres: 100 m.
// The limit is our own choice; it catches a wrong unit and keeps every later
// sum finite.
const Max = 100_000

// tolerance is how far printed text may be from the value, in millimetres,
// and still count as exact: far below what wood or a rule can show.
const tolerance = 1e-6

// Format says how lengths are shown and what a number without a unit means.
// The zero value is millimetres with up to two decimals.
type Format struct {
	// Imperial shows inches and fractions instead of millimetres.
	Imperial bool
	// Denominator of the smallest fraction of an inch: 16, 32 or 64. Any other
	// number, the zero value included, acts as 16.
	Denominator int
}

// Unit returns the unit of a bare number, as a field shows it: mm or in.
func (f Format) Unit() string {
	if f.Imperial {
		return "in"
	}
	return "mm"
}

func (f Format) denominator() int64 {
	switch f.Denominator {
	case 32, 64:
		return int64(f.Denominator)
	}
	return 16
}

// FromInches returns num/den inches in millimetres, num·127/(den·5), with one
// rounding: it is the float64 nearest to the exact length, and the one [Parse]
// returns for the same fraction. It holds for |num| below 7·10¹³, where num·127
// is still exact. den must not be zero.
func FromInches(num, den int64) float64 {
	return float64(num*127) / float64(den*5)
}
