package length

import (
	"math"
	"strconv"
	"strings"
)

// Pound is the avoirdupois pound in kilograms, PoundForce its weight under
// standard gravity in newtons. Both are exact.
//
// Source: international yard and pound agreement, 1 July 1959: 0.45359237 kg.
// Standard gravity 9.80665 m/s² by the 3rd General Conference on Weights and
// Measures, 1901 (from memory); the product is 4.4482216152605 N.
const (
	Pound      = 0.45359237
	PoundForce = Pound * 9.80665
)

// figures is how many figures of a computed quantity are shown.
const figures = 3

// thinSpace stands between groups of three digits.
const thinSpace = "\u2009"

// Mass prints kg with three significant figures, in kg or lb.
func Mass(kg float64, f Format) string {
	if f.Imperial {
		return quantity(kg/Pound, "lb")
	}
	return quantity(kg, "kg")
}

// Force prints newtons with three significant figures, in N or lbf.
func Force(newtons float64, f Format) string {
	if f.Imperial {
		return quantity(newtons/PoundForce, "lbf")
	}
	return quantity(newtons, "N")
}

// Sag prints a small deflection given in millimetres with three significant
// figures, in mm or in decimal inches; sags are not read off a rule.
func Sag(mm float64, f Format) string {
	if f.Imperial {
		return quantity(mm/Inch, "in")
	}
	return quantity(mm, "mm")
}

func quantity(v float64, unit string) string {
	s := Number(v, figures)
	if s == notANumber {
		return s
	}
	return s + " " + unit
}

// Number prints v rounded to sig significant figures, 1 to 15. Zeros after the
// decimal point are dropped at the end, and thin spaces group the digits before
// it from 1 000 on. From 10¹⁵ on and below 10⁻⁶ an exponent is used. NaN and the
// infinities are printed as a dash.
func Number(v float64, sig int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return notANumber
	}
	sign := ""
	if v < 0 {
		sign = "−"
	}
	v = significant(math.Abs(v), sig)
	if v != 0 && (v < 1e-6 || v >= 1e15) {
		mantissa, exponent, _ := strings.Cut(strconv.FormatFloat(v, 'e', -1, 64), "e")
		power, _ := strconv.Atoi(exponent)
		return sign + mantissa + "e" + strconv.Itoa(power)
	}
	whole, rest, decimal := strings.Cut(strconv.FormatFloat(v, 'f', -1, 64), ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + thinSpace + whole[i:]
	}
	if decimal {
		rest = "." + rest
	}
	return sign + whole + rest
}

// plainDecimal prints v > 0 with sig significant figures, without an exponent.
func plainDecimal(v float64, sig int) string {
	return strconv.FormatFloat(significant(v, sig), 'f', -1, 64)
}

// significant returns v ≥ 0 rounded to sig significant figures. The largest
// float64 may round to infinity; then it comes back as it is.
func significant(v float64, sig int) float64 {
	sig = min(max(sig, 1), 15)
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', sig-1, 64), 64)
	if err != nil {
		return v
	}
	return rounded
}
