// Package proof judges a proof load: a load put on a finished top in stages
// while a gauge is read, to compare the top with its plan. [Ways] says what a
// shop can read with and how finely, [Look] whether a reading that is expected
// can be seen at all. [Fit] tells the stiffness from the readings, apart from
// bedding-in at the supports and from friction there, [Explain] which unknown
// figure explains the readings best and how far they can tell the unknowns
// apart, and [Judge] when to stop.
//
// Readings and what was expected of them are in mm and grow with the sag, loads
// are in N, times in minutes. What is expected is what the load on the top adds
// to the top's own weight, so it is 0 at the first reading.
package proof

import "errors"

// Reading is one stage: what lay on the top, what the gauge was expected to
// show, and what it showed.
type Reading struct {
	Load      float64 // on the top, N
	Expected  float64 // above the first reading, mm
	Read      float64 // mm; where the gauge begins does not matter
	Unloading bool    // taken on the way down

	// Round tells apart readings with the stack in another place: each round begins
	// with a reading without load, and beds in and begins its gauge anew. [Fit] and
	// [Judge] look at one round, that of the first reading; [Explain] at all.
	Round int

	// Slopes is how Expected follows the logarithm of each unknown, mm, in the
	// order of the unknowns of [Explain]. Nil where none are asked for.
	Slopes []float64
}

// Known is what is known before the readings are taken.
type Known struct {
	Error    float64 // standard error of one reading, mm, above 0
	Friction float64 // largest share of the sag that friction at the supports can hold back: see [Friction]
	Spread   float64 // standard deviation of the logarithm of the sag by the plan; 0 is nothing known
	Bedding  float64 // standard deviation of what beds in under the first load, mm; 0 is [Bedding]
}

// bedding returns the standard deviation of what beds in, mm.
func (k Known) bedding() float64 {
	if k.Bedding > 0 {
		return k.Bedding
	}
	return Bedding
}

// Errors of readings.
var (
	ErrFew    = errors.New("there are too few readings under load")
	ErrDomain = errors.New("a figure of the proof load is out of its range")
)

// Bedding is by how much supports commonly settle under the first load, mm, as
// a standard deviation: felt, dust and shavings give, a wobbling trestle finds
// its feet. Common practice, no source.
const Bedding = 0.25

// BeddingOnTop is that of a straightedge or bridge that rests on the top itself: only
// its own feet settle. Common practice, no source.
const BeddingOnTop = 0.02

// Friction returns the largest share of the sag that friction under a top can
// hold back: it lies loose on two supports span mm apart and is depth mm deep.
// Its lower face spreads as it bends, so each support of reaction P/2 pulls
// inwards with mu·P/2, depth/2 below the middle, and the moment M at both ends
// lifts the middle by M·L²/8EI. Against P·L³/48EI of a load in the middle:
//
//	share = 1.5·mu·depth/span
//
// by hand; shear is left out, which makes it err high. Loading reads by as much
// less and unloading by as much more. It is 0 unless all three are above 0, and
// at most [MostFriction].
func Friction(mu, depth, span float64) float64 {
	if !(mu > 0) || !(depth > 0) || !(span > 0) {
		return 0
	}
	return min(1.5*mu*depth/span, MostFriction)
}

// Wood on wood, and the largest share that is believed; common practice, no
// source.
const (
	WoodOnWood   = 0.4
	MostFriction = 0.3
)
