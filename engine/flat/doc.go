// Package flat tells how flat a surface is from what a shop can measure:
// straightedge and feeler gauges, a taut string, a dial on a bridge, winding
// sticks, a water or laser level. [Fit] puts all readings of a survey together
// by least squares, names readings that the others contradict, and returns the
// heights of the stations with their standard errors. [LeastSquares] and
// [MinimumZone] judge heights against a plane, [ShapeOf] splits them into bow
// and wind, and [Set.Shims] says what to lay where.
//
// Lengths and heights are in mm, x and y over the surface, z upwards. Surfaces
// are nearly level: heights are taken along z, which at a slope of 1 in 100
// differs from heights square to the plane by one part in 20 000.
//
// Flatness is that of ISO 1101, "the distance between two parallel planes that
// enclose the surface and lie as close together as they can" (in our words,
// from memory); ISO 12781-1 calls the reference the minimum zone plane and
// allows the least-squares plane beside it (from memory). Both are told for the
// stations: what lies between them was not measured.
package flat
