package nest

// random is a stream of numbers that is the same on every machine and in every
// release: xorshift64* (Vigna 2016, from memory), seeded by the job alone.
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
