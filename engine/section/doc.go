// Package section holds the formulas of the closed form: a hollow panel bent
// along one axis as a composite beam whose skins are joined to the ribs by a
// flexible connection, its sag on two supports, its torsion as a closed box,
// the plate held along four edges, and the strength rules that need no mesh.
//
// Lengths are in mm, forces in N, stresses and moduli in MPa. Sag is positive
// downwards and a sagging bending moment is positive. Nothing here allocates.
package section
