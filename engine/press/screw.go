package press

import "math"

// HeadPull returns the force, N, at which the head of a screw of diameter head
// mm is drawn into the face of a sheet: 8·head². Source: a characteristic
// head-pull-through of 8 N/mm² for sheets under 12 mm, as declared to EN 14592;
// from memory.
func HeadPull(head float64) float64 { return 8 * head * head }

// TightShare is the part of a screw's strength to which it is driven as a clamp:
// more strips the edge of a rib. Common practice, no source.
const TightShare = 0.5

// ScrewPull returns the force, N, that a screw presses with when it is driven to
// [TightShare] of what gives first, thread or head.
func ScrewPull(thread, head float64) float64 { return TightShare * math.Min(thread, head) }

// ScrewPitch returns how far apart, mm, screws of pull N each stand on a rib of
// width mm to make pressure MPa on it.
func ScrewPitch(pull, pressure, width float64) float64 { return pull / (pressure * width) }

// LeastPitch returns the closest that screws of diameter d mm stand in a row
// along the grain, 7·d. Source: EN 1995-1-1 Table 8.6 for axially loaded screws,
// from memory.
func LeastPitch(d float64) float64 { return 7 * d }
