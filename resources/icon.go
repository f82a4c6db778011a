// Package resources holds the data the program carries inside itself. It
// imports nothing of ours, so that every package may import it.
package resources

import _ "embed"

// Icon is the program's icon, a PNG of 512 × 512 pixels drawn from icon.svg.
//
//go:embed icon.png
var Icon []byte
