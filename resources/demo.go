package resources

import _ "embed"

// Demo is the design that the program opens with: an assembly table for a
// one-person workshop that builds beehives, an invented scenario.
//
//go:embed demo/assembly-table.flatwright
var Demo []byte
