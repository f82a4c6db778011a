package resources

import _ "embed"

// Icon is the program's icon, a PNG of 512 × 512 pixels drawn from icon.svg.
//
//go:embed icon.png
var Icon []byte
