package section

import "math"

// BoxTorsion returns the torsional stiffness GJ, N·mm², of a closed box with
// two skins and two side walls:
//
//	GJ = 4·A² / Σ(s/(G·t)),  A = width·height
//
// width and height are between the middles of the walls; gTop·tTop,
// gBottom·tBottom and gSide·tSide are shear modulus times thickness of the
// skins and of one side wall, N/mm. Ribs inside the box hardly change it (a
// box of six cells is 0.5 % stiffer). Source: Bredt's second formula,
// textbook.
func BoxTorsion(width, height, top, bottom, side float64) float64 {
	a := width * height
	return 4 * a * a / (width/top + width/bottom + 2*height/side)
}

// StripTorsion returns GJ of a thin strip, G·b·t³/3, N·mm²: what a skin that
// overhangs the box adds. Source: Saint-Venant, textbook.
func StripTorsion(g, b, t float64) float64 { return g * b * cube(t) / 3 }

// TwistSag returns the sag, mm, at (x, ey) of a beam twisted by a press off
// its axis: torsion stiffness gj, supports hold the twist at A and B. e and ey
// are the distances of the load and of the point from the axis, mm. The load
// is taken at its middle. Beyond a support only the loads on that overhang
// twist it.
func (s Span) TwistSag(p Press, e, x, ey, gj float64) float64 {
	u, v := (p.X1+p.X2)/2, x
	var reach float64 // twist per unit torque, times gj
	switch {
	case u < s.A && v < s.A:
		reach = s.A - math.Max(u, v)
	case u > s.B && v > s.B:
		reach = math.Min(u, v) - s.B
	case math.Min(u, v) > s.A && math.Max(u, v) < s.B:
		reach = (math.Min(u, v) - s.A) * (s.B - math.Max(u, v)) / (s.B - s.A)
	}
	return p.P * e * ey * reach / gj
}
