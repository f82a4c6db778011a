package section

import "math"

// NotchFactor returns kv of EN 1995-1-1 6.5.2 for a notch on the tension side
// of a beam of height h with hef left, inclination i (0 is square), x from the
// support to the corner and material factor kn (5 solid wood, 6.5 glued
// laminated, 4.5 LVL). It was made for beams: a half-lap in a rib held by two
// glued skins is outside its scope, so it is a cautious bound here. Source:
// EN 1995-1-1 (6.62), (6.63), from memory.
func NotchFactor(h, hef, i, x, kn float64) float64 {
	a := hef / h
	v := kn * (1 + 1.1*math.Pow(i, 1.5)/math.Sqrt(h)) /
		(math.Sqrt(h) * (math.Sqrt(a*(1-a)) + 0.8*x/h*math.Sqrt(1/a-a*a)))
	return math.Min(1, v)
}

// GlueLineReduction returns the factor on the permitted mean shear stress of a
// glue line of width b under a skin of thickness t: 1 up to b = limit·t, then
// (limit·t/b)^0.8. limit is 8 for a rib with skin on both sides and 4 for an
// edge rib. Source: EN 1995-1-1 9.1.2 (6), from memory.
func GlueLineReduction(b, t, limit float64) float64 {
	if b <= limit*t {
		return 1
	}
	return math.Pow(limit*t/b, 0.8)
}

// EffectiveWidth returns how much of a skin counts with one rib by the timber code's
// limits, mm: the rib's own width and what of the clear distance to the next one lies
// within the limits of shear lag and, where the skin is pressed, of buckling.
//
//	b_ef = b + min(clear, lag·span, buckle·t)
//
// b, clear, span and the skin's thickness t in mm; lag is a share of the span, buckle
// a number of thicknesses, +Inf where the skin is pulled. Twice the buckling limit is the
// most that the clear distance may be unless buckling is checked by itself, as it is here.
// Source: EN 1995-1-1 9.1.2 and Table 9.1, from memory; the shares of the span are in
// Design of timber structures vol. 1 (Swedish Wood 2016) Table 5.1.
func EffectiveWidth(b, clear, lag, span, buckle, t float64) float64 {
	return b + math.Min(clear, math.Min(lag*span, buckle*t))
}
