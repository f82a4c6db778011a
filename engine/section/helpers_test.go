package section_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"flatwright/engine/section"
)

// near fails unless got is within tol of want; tol is in want's own unit.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.10g; want %.10g ± %.2g", what, got, want, tol)
	}
}

// nearly fails unless got is within the share rel of want.
func nearly(t *testing.T, what string, got, want, rel float64) {
	t.Helper()
	near(t, what, got, want, rel*math.Abs(want))
}

// integral is Gauss–Legendre quadrature with 8 points, exact for the
// polynomials of a layer or of a bay.
func integral(f func(float64) float64, from, to float64) float64 {
	return quad.Fixed(f, from, to, 8, nil, 0)
}

// bench is a panel with nothing equal to anything else: unequal skins, slotted
// ribs, edge bands.
func bench() section.Panel {
	return section.Panel{
		Width:  640,
		H:      83,
		Top:    section.Skin{T: 12, E: 8200, EBend: 9100, G: 620, GRoll: 70},
		Bottom: section.Skin{T: 6.5, E: 4300, EBend: 5200, G: 480, GRoll: 55},
		Web:    section.Web{N: 5, B: 11, E: 7100, G: 590, Bending: 0.7, Shear: 0.85},
		Rim:    section.Rim{B: 34, E: 10400, G: 650},
	}
}

// box is the hollow box of the worked example: 300 wide, two skins of 12, a
// clear core of 75, three webs of 12.
func box() section.Panel {
	skin := section.Skin{T: 12, E: 7000, EBend: 7000, G: 600, GRoll: 100}
	return section.Panel{
		Width: 300, H: 75, Top: skin, Bottom: skin,
		Web: section.Web{N: 3, B: 12, E: 3500, G: 600, Bending: 1, Shear: 1},
	}
}
