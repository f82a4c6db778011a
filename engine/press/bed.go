package press

import "math"

// A skin or a caul on wood that gives way is a beam on an elastic bed. Its one
// length is 1/β with β = (k/4EI)^¼, k the bed's stiffness in N/mm per mm of length
// and mm of way, ei the beam's bending stiffness in N·mm².

// Beta returns β, 1/mm. Source: Hetényi, Beams on Elastic Foundation (1946),
// from memory.
func Beta(k, ei float64) float64 { return math.Pow(k/(4*ei), 0.25) }

// Between returns the pressure midway between two of many forces that press a
// long beam on its bed at one pitch, as a part of the mean pressure: near 1 where
// they stand close, below 0 where the beam lifts. With z = β·pitch·(n + ½):
//
//	β·pitch·Σ exp(−z)·(cos z + sin z), n = 0, 1, 2 …
//
// Source: the endless beam under one force (Hetényi, from memory), summed over
// all forces to both sides. The width of the forces themselves is left out, which
// makes the dip deeper than it is.
func Between(beta, pitch float64) float64 {
	step, sum := beta*pitch, 0.0
	if !(step > 0) {
		return 1
	}
	for z := step / 2; z < 40; z += step {
		sum += math.Exp(-z) * (math.Cos(z) + math.Sin(z))
	}
	return step * sum
}

// Pitch returns the widest pitch, mm, at which [Between] is still at least share,
// between 0 and 1.
func Pitch(beta, share float64) float64 {
	lo, hi := 0.1/beta, 4.5/beta // from all but even to lifting
	for range 60 {
		mid := (lo + hi) / 2
		if Between(beta, mid) >= share {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// Straight returns the pressure under the middle of a straight caul of length
// mm, drawn down at both its ends, as a part of that under its ends: 1 for a
// short or stiff one, below 0 where its middle lifts. It is a beam with free ends
// on an elastic bed, with x = β·length:
//
//	2·cosh(x/2)·cos(x/2)/(cosh x + cos x)
//
// Source: Hetényi, the beam of finite length under two equal end forces, from
// memory.
func Straight(beta, length float64) float64 {
	x := beta * length
	if x > 50 {
		return 0
	}
	return 2 * math.Cosh(x/2) * math.Cos(x/2) / (math.Cosh(x) + math.Cos(x))
}
