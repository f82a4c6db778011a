package press

import "math"

// Bay is a skin over one bay, between the faces of its ribs. It is held level
// over the ribs, as bays that are pressed alike hold one another.
type Bay struct {
	A, B   float64 // clear sides along x and y, mm
	Dx, Dy float64 // bending stiffness of the skin per mm along x and y, N·mm
	H      float64 // its torsion: Dx·νy + 2·Dxy, N·mm; √(Dx·Dy) for a sheet alike both ways
}

// Dip returns how deep, mm, the middle of the bay goes down under an even
// pressure of MPa: the smaller of a plate held level on four sides, by its first
// term,
//
//	0.00342·q/(Dx/a⁴ + 0.571·H/(a²·b²) + Dy/b⁴)
//
// and a strip held level on two. The plate's is 5 % more than the exact 0.001265
// of a square. Source: Hearmon (1946), from memory; strip q·a⁴/384·D, textbook.
func (b Bay) Dip(q float64) float64 {
	a2, b2 := b.A*b.A, b.B*b.B
	plate := 0.00342 * q / (b.Dx/(a2*a2) + 0.571*b.H/(a2*b2) + b.Dy/(b2*b2))
	return math.Min(plate, math.Min(q*a2*a2/(384*b.Dx), q*b2*b2/(384*b.Dy)))
}

// Stress returns the largest bending stress, MPa, of a skin of thickness t mm
// where it goes over the rib that ends the bay along x, and the one along y: that
// of a strip held level, q·a²/12 over t²/6, each with the share of the pressure that
// goes its way where both strips cross. Source: beam formula; strips that cross and
// sag alike, textbook (Grashof), from memory.
func (b Bay) Stress(q, t float64) (x, y float64) {
	kx, ky := b.Dx/math.Pow(b.A, 4), b.Dy/math.Pow(b.B, 4)
	qx := q * kx / (kx + ky)
	return qx * b.A * b.A / (2 * t * t), (q - qx) * b.B * b.B / (2 * t * t)
}

// Columns returns the pressure, MPa, on its edge at which a rib of thickness t
// and height h mm with modulus e MPa upright gives way sideways, its edges free to
// turn as long as the glue is wet: π²·e·t²/12·h². Source: Euler, textbook. Ribs that
// cross and hold it are left out.
func Columns(e, t, h float64) float64 { return math.Pi * math.Pi * e * t * t / (12 * h * h) }
