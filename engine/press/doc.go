// Package press holds the formulas for pressing skins onto ribs while glue
// sets: clamps, cauls, weights, screws and vacuum, what they do to the wood, and
// the glue and the time that spreading takes. Units are mm, N, MPa, kg and
// minutes unless said otherwise.
//
// A skin lies on ribs, so pressure on the glue is force over the ribs' edges and
// not over the skin. A rib line is one edge of one rib.
package press

// Gravity is standard gravity, m/s² (CGPM 1901).
const Gravity = 9.80665
