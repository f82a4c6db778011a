// Package engine designs and computes a hollow workbench or assembly-table
// top: two skins glued to a grid of full-length ribs that cross in half-lap
// slots. It is everything the window, the packet and the commands ever call.
//
// There is one door: [Compute] takes a [Design] and returns a [Result]. It is
// pure: no clock, no global state, no randomness; the same design gives the
// same result bit for bit, from any number of goroutines.
//
// # Units and axes
//
// Everything inside the engine is in millimetres, newtons, megapascals,
// kilograms and radians; temperatures are degrees Celsius and durations are
// minutes. Inches exist only where text is parsed or printed (engine/length).
//
//	     y (width)
//	     ^
//	W +--|-------------------------+   Lengthwise ribs run along x,
//	  |  |   |    |    |    |      |   crosswise ribs run along y.
//	  |--|---+----+----+----+------|   The origin is the corner at the lower
//	  |  |   |    |    |    |      |   left of the plan; z points up from
//	0 +--+---------------------- L +--> x   the lower face of the bottom skin.
//
// Loads act downwards and are positive; sag is positive downwards and is
// measured relative to the supports. Tension is positive.
package engine
