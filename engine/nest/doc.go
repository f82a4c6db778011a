// Package nest lays parts out on sheets so that an ordinary saw can cut them,
// and says how good the layout is.
//
// There is one door for sheets: [Solve] takes a [Job] and returns a [Plan]. It
// needs nothing from the rest of the program. All lengths are mm, masses kg.
//
// # What a plan promises
//
// Every cut runs straight through the piece that lies on the saw, from edge to
// edge (a guillotine layout). Parts are apart by at least the kerf, within the
// trimmed sheet, and lie with their grain. The plan lists the cuts in the order
// of work, with the fence setting of each; whoever follows the list is left
// with exactly the parts and the leftovers of the plan. The order is: first the
// cuts that break a sheet too heavy to carry ([Job].Carry); then trimming; then
// all cuts of one width, over all sheets, before the fence is moved to the
// next, as far as the order of cutting lets it.
//
// # What is made small
//
// First the cost of the sheets used, then their number, then their area, then
// what is left is kept in one piece as large as the search can make it. Nothing
// is proven about the last.
//
// # How good the answer is
//
// [Plan].Bound and [Plan.Above] say it. No layout is below the bound: parts
// weighed in whole numbers so that no sheet can hold more than a known weight,
// by area and by linear programmes over all edge-to-edge patterns, and an exact
// search where only few ways of cutting waste so little that they may do. An answer that meets the bound is proven least.
//
// # The same answer everywhere
//
// The same job gives the same plan, bit for bit: effort is counted in steps
// ([Job].Steps), not in time, and nothing is random but by a fixed seed. Only a
// cancelled context ends the work earlier.
//
// # Accuracy
//
// Lengths are rounded to whole micrometres. A part and the room it fills are
// compared after that, so a length that is a fraction of an inch fits where it
// fits on paper; what is laid out is within half a micrometre of each part.
package nest
