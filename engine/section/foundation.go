package section

import "math"

// Spread returns the length, mm, over which a force that a skin hands to a rib below
// it at one place may be taken as even: force over peak pull per mm of rib. The skin
// is a long beam of bending stiffness ei, N·mm², on a bed that pulls k N/mm per mm of
// length and mm of way:
//
//	spread = 2/β, β = (k/4EI)^¼
//
// Half of it lies on either side, so where the skin goes on to one side only, held
// level at the place itself, it is half. Exact for that beam. It leaves out that a
// skin is a plate and that the wood of the rib spreads a pull too, which both make the
// peak lower, and that skin and rib meet in a corner, which makes it higher at the
// rib's faces. Source: Hetényi, Beams on Elastic Foundation (1946), the endless beam
// under one force, from memory.
func Spread(ei, k float64) float64 { return 2 * math.Pow(4*ei/k, 0.25) }
