package nest

import "math/bits"

// random is a stream of numbers that is the same on every machine and in every
// release: xorshift64* (Vigna 2016, from memory), seeded by the job alone.
//
// Products that are added to something stand inside float64() in this package:
// otherwise a compiler may round once instead of twice, and on another machine
// the search would take another way.
type random uint64

func newRandom(seed uint64) random {
	return random(seed*0x9E3779B97F4A7C15 | 1)
}

func (r *random) next() uint64 {
	x := uint64(*r)
	x ^= x >> 12
	x ^= x << 25
	x ^= x >> 27
	*r = random(x)
	return x * 0x2545F4914F6CDD1D
}

// below returns a number from 0 to n-1.
func (r *random) below(n int) int {
	return int((r.next() >> 33) * uint64(n) >> 31)
}

// unit returns a number from 0 to below 1.
func (r *random) unit() float64 {
	return float64(r.next()>>11) / (1 << 53)
}

// exponential returns a number of about the exponential distribution with mean
// 1: minus the logarithm of a unit number, by straight lines between the powers
// of two, as math.Log need not be the same to the last bit everywhere.
func (r *random) exponential() float64 {
	x := r.next() | 1
	zeros := bits.LeadingZeros64(x)
	mantissa := float64(x<<zeros>>11) / (1 << 53) // from a half to below 1
	return 0.6931 * (float64(zeros) + 2*(1-mantissa))
}
