// Package resources carries the files that are built into the program.
package resources

import "embed"

// Data holds the catalogue: materials, solid woods, thicknesses, kinds of
// material and glues, one figure a row with its source.
//
//go:embed materials.csv woods.csv thicknesses.csv kinds.csv glues.csv
var Data embed.FS
