package section

import "math"

// Withdrawal returns what one wood screw holds when it is pulled straight out, N,
// 5th percentile:
//
//	F = f·d·l·min(d/8, 1), f = 0.52·d^-½·l^-0.1·ρ^0.8
//
// d is the outer diameter of the thread and l the length of thread in the wood, mm;
// density is the 5th percentile of the wood's, kg/m³. The screw stands at right angles
// to the grain. The form is made for softwood and threads of 6 to 12 mm; with thinner
// ones the last factor takes more off, which is on the cautious side. Source: EN
// 1995-1-1:2004+A1 8.7.2 (8.38) to (8.40), from memory. It wants l at least 6·d.
func Withdrawal(d, l, density float64) float64 {
	f := 0.52 / math.Sqrt(d) * math.Pow(l, -0.1) * math.Pow(density, 0.8)
	return f * d * l * math.Min(d/8, 1)
}

// ScrewsTogether returns how many of n screws count that are pulled at once, n^0.9.
// Source: EN 1995-1-1 (8.41), from memory.
func ScrewsTogether(n float64) float64 { return math.Pow(n, 0.9) }

// Washer returns the area, mm², with which the washer of a bolt presses on wood: a
// ring of outer diameter outer about a hole 1 mm wider than the bolt. EN 1995-1-1 8.5.2
// allows three times the strength across the grain on it, from memory.
func Washer(outer, bolt float64) float64 {
	return math.Pi / 4 * (outer*outer - (bolt+1)*(bolt+1))
}
