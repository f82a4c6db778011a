// Package plate is the whole-panel model: two skins as shear-flexible plates
// on a rectangular grid, ribs as webs between them, elastic pads below.
//
// Axes and units are those of the engine: x along the length, y along the
// width, z up; mm, N, MPa. Inside this package w is the displacement up;
// results turn it into sag, positive down.
//
// Every grid node carries ten unknowns: u, v, w, βx, βy of the top skin's
// middle plane and the same of the bottom skin's. β is the rotation of the
// skin's normal: a point z above the middle plane moves by u + z·βx and
// v + z·βy, so that a thin skin has βx = −∂w/∂x.
//
// A rib is as wide as it is: a grid line runs along either face of it, and the
// rib follows the mean of the two.
package plate
