package resources

import _ "embed"

// Sans and SansBold are DejaVu Sans Condensed, regular and bold: the faces of
// everything printed. They have every sign that the packet uses, fractions and
// primes included. The licence is fonts/LICENSE-DejaVu.txt.
//
//go:embed fonts/DejaVuSansCondensed.ttf
var Sans []byte

// SansBold is the bold face that goes with [Sans].
//
//go:embed fonts/DejaVuSansCondensed-Bold.ttf
var SansBold []byte
