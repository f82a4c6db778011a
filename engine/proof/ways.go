package proof

import "math"

// Way is a way to read the sag.
type Way struct {
	Key   string
	Name  string
	Step  float64 // smallest difference that it shows, mm
	Error float64 // standard error of one reading, mm
	On    bool    // it rests on the top itself and rides down with it
	How   string
	Cost  int // rank of what it takes: the least first
}

// Ways lists the ways, the simplest first. Steps are those of the usual tools;
// standard errors are common practice, no source, and those of package flat
// where it has the same tool.
func Ways() []Way {
	return []Way{
		{"tape", "rule or tape against the floor", 0.5, 0.5, false, "A mark on the edge of the top, read against a rule that stands on the floor.", 0},
		{"string", "taut string and rule", 0.25, 0.25, true, "A string over two equal blocks at the ends of the line, pulled tight; a rule from the top up to the string in the middle. The reading is how far the string is above the top.", 1},
		{"straightedge", "straightedge and feeler gauges", 0.05, 0.03, true, "A straightedge on two equal blocks at the ends of the line; the gap in its middle is felt with feeler gauges.", 2},
		{"caliper", "depth rod of a caliper", 0.05, 0.05, true, "A straightedge on two equal blocks; the rod of a caliper reaches from its upper edge down to the top. The reading grows with the sag.", 3},
		{"dial", "dial indicator", 0.01, 0.01, false, "A dial under the middle, on a stand that touches neither the top nor its supports. Tap the stand before every reading.", 4},
		{"dial bridge", "dial on a bridge", 0.01, 0.01, true, "A dial in the middle of a stiff bar that stands with two feet on the top.", 5},
	}
}

// WayOf returns the way of that key.
func WayOf(key string) (Way, bool) {
	for _, w := range Ways() {
		if w.Key == key {
			return w, true
		}
	}
	return Way{}, false
}

// Source is where steps and errors of the ways come from.
const Source = "steps and standard errors of the tools: common practice, no source"

// z90 is the standard score that bounds 90 % of a normal distribution.
const z90 = 1.6448536

// Sight is whether an expected reading can be seen.
type Sight struct {
	Sees  bool    // the least that can be told from nothing is less than what is expected
	Least float64 // mm
	// Share is by how much the stiffness would be uncertain, 90 %, by the
	// reading alone, as a share. Useful is Share at most [UsefulShare].
	Share  float64
	Useful bool
}

// UsefulShare is how well a stiffness must be known to say something about a
// sheet, of which moduli scatter by 10 to 20 %. Common practice, no source.
const UsefulShare = 0.15

// Look says whether a way with that standard error can see an expected change,
// both mm. A change is the difference of two readings, whose standard error is
// √2 times that of one; it is told from nothing at 1.645·√2 times it, nineteen
// times of twenty (normal distribution, one-sided). Least is never under the
// step of the tool.
func Look(expected float64, w Way) Sight {
	s := Sight{Least: math.Max(z90*math.Sqrt2*w.Error, w.Step), Share: math.Inf(1)}
	if expected > 0 {
		s.Share = z90 * math.Sqrt2 * math.Max(w.Error, w.Step/math.Sqrt(12)) / expected
	}
	s.Sees = expected > s.Least
	s.Useful = s.Sees && s.Share <= UsefulShare
	return s
}

// Needed returns by what the expected reading must grow to be useful with a way: 1
// or less where it is already; +Inf where nothing is expected.
func Needed(expected float64, w Way) float64 {
	s := Look(expected, w)
	return math.Max(s.Share/UsefulShare, s.Least/math.Max(expected, 0))
}

// Finer returns the simplest way that is useful for an expected reading, and
// whether there is one.
func Finer(expected float64) (Way, bool) {
	for _, w := range Ways() {
		if Look(expected, w).Useful {
			return w, true
		}
	}
	return Way{}, false
}

// SpanFor returns by what the span would have to grow for the sag to grow by
// factor, where the share bending of the sag goes with the cube of the span and
// the rest in proportion to it: k1·P·L³/D + k2·P·L/U of a load in one place. The
// answer lies between the cube root of factor and factor. It is 1 for a factor of 1
// or less, and NaN for what is no number.
func SpanFor(factor, bending float64) float64 {
	if !(factor > 1) {
		return 1 + 0*factor
	}
	b := math.Min(math.Max(bending, 0), 1)
	lo, hi := 1.0, factor
	for range 60 {
		mid := (lo + hi) / 2
		if b*mid*mid*mid+(1-b)*mid < factor {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}
