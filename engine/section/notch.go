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
