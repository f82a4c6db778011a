package section_test

import (
	"math"
	"testing"

	"flatwright/engine/section"
)

// By hand: d 8, l 60, ρ 350: 8^½ = 2.82843, 60^-.1 = .664020, 350^.8 = 108.4573, so f =
// .52/2.82843·.664020·108.4573 = 13.2402 N/mm² and F = 13.2402·480 = 6 355.3 N. A
// screw of 4 counts half: f = .52/2·.664020·108.4573 = 18.7246, F = 18.7246·240/2 = 2 246.9 N.
func TestWithdrawal(t *testing.T) {
	t.Parallel()
	nearly(t, "8 mm", section.Withdrawal(8, 60, 350), 6355.3, 2e-5)
	nearly(t, "4 mm", section.Withdrawal(4, 60, 350), 2246.9, 3e-5)
	nearly(t, "10 mm has no more taken off", section.Withdrawal(10, 60, 350)/section.Withdrawal(8, 60, 350), math.Sqrt(10./8), 1e-12)
	nearly(t, "twice as deep", section.Withdrawal(5, 60, 400)/section.Withdrawal(5, 30, 400), math.Pow(2, 0.9), 1e-12)
	nearly(t, "twice as dense", section.Withdrawal(5, 30, 800)/section.Withdrawal(5, 30, 400), math.Pow(2, 0.8), 1e-12)
	// Tests on clear wood: 108.25·G²·D·l is the mean (Wood Handbook ch. 8, wood screws,
	// from memory), G = ρ mean/1 120, ρ mean = ρ/.84 as in EN 338. A 5th percentile lies below.
	for _, c := range [...]struct{ d, l, density float64 }{{6, 40, 400}, {8, 60, 350}, {5, 30, 420}} {
		g := c.density / 0.84 / 1120
		if ratio := section.Withdrawal(c.d, c.l, c.density) / (108.25 * g * g * c.d * c.l); !(ratio > 0.4 && ratio < 0.9) {
			t.Errorf("%+v holds %.2f of the mean of tests", c, ratio)
		}
	}
	// Four screws count as 4^.9 = 3.4822, one as one.
	nearly(t, "four screws", section.ScrewsTogether(4), 3.4822, 1e-5)
	nearly(t, "one screw", section.ScrewsTogether(1), 1, 1e-15)
	// A washer of 24 mm on a bolt of 8: π/4·(576 − 81) = 388.77 mm².
	nearly(t, "washer", section.Washer(24, 8), 388.77, 1e-5)
}
