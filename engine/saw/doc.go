// Package saw knows how a half-lap slot comes into a board: the arc of a round
// blade, how often a narrow cutter has to pass, which of a person's tools can do
// it, in what time and how well, and the stick by which slots are marked out.
//
// Two places of the boards matter. Ganged on edge, the boards stand side by side
// and the tool crosses them all at one setting; the slot is a groove across the
// pack and the blade runs out at either side:
//
//	     ___ tool runs this way, across the boards
//	||||||||||||
//	||||  ||||||   slot, as deep as the cutter is set
//	||||||||||||   boards on edge
//
// Flat in a stack, the slot runs from the boards' edge inwards and stops at a
// mark. There a round blade leaves an arc, and the upper boards are cut farther
// than the lowest:
//
//	 saw → _____
//	 edge       \   | mark      x runs into the board, 0 at the mark
//	------------ \--|-------    z runs down, 0 at the top of the stack
//	  board 1     ) |
//	--------------)-|-------
//	  board 2    )  |
//	------------)---|-------
//	  board under them, cut into by the plunge
//
// Lengths are in mm, durations in minutes. Nothing here says that work is free
// of danger: the cautions of a [Way] are to be shown with it.
package saw

import "errors"

// ErrDomain is wrapped by what cannot be worked out from the numbers given; the
// text around it says which one.
var ErrDomain = errors.New("outside of what can be sawn")

// nearly is a length that no tool tells from nothing, mm.
const nearly = 1e-9
