package section

import "math"

// FreeBuckling returns the critical membrane force, N/mm, of a plate a × b that
// is pressed along a, held up along its pressed ends and along one side, and free
// along the other: a skin that stands out beyond the last rib. Ritz, half a sine
// along a and y, y³, y⁵ across, so it comes from above: within 0.05 % of the exact
// series for a/b from 1. The one half wave is the lowest: more of them only bend
// it more. For a strip without end it is 12·D66/b², for any strip no more than
//
//	π²·D11/a² + 12·D66/b²
//
// the plate turning about its held side as one piece. Source: Timoshenko & Gere,
// Theory of Elastic Stability, has the case; the shapes are ours.
func (p OrthotropicPlate) FreeBuckling(a, b float64) float64 {
	powers := [3]float64{1, 3, 5}
	k2 := math.Pi * math.Pi / (a * a)
	var bends, works [3][3]float64
	for i, n := range powers {
		for j, m := range powers {
			slope := n * m / (n + m - 1) / b // ∫ f′·g′
			curve := 0.0                     // ∫ f″·g″
			if n > 1 && m > 1 {
				curve = n * (n - 1) * m * (m - 1) / (n + m - 3) / (b * b * b)
			}
			mixed := (n*(n-1) + m*(m-1)) / (n + m - 1) / b // ∫ f·g″ + f″·g
			same := b / (n + m + 1)                        // ∫ f·g
			bends[i][j] = p.D11*k2*k2*same + p.D22*curve - p.D12*k2*mixed + 4*p.D66*k2*slope
			works[i][j] = k2 * same
		}
	}
	lo, hi := 0.0, bends[0][0]/works[0][0]
	for range 50 { // to rounding
		n := (lo + hi) / 2
		if definite(bends, works, n) {
			lo = n
		} else {
			hi = n
		}
	}
	return hi
}

// definite reports whether k − n·g resists every shape: Cholesky's pivots.
func definite(k, g [3][3]float64, n float64) bool {
	for i := range k {
		for j := range k {
			k[i][j] -= n * g[i][j]
		}
	}
	for i := range k {
		if !(k[i][i] > 0) {
			return false
		}
		for r := i + 1; r < len(k); r++ {
			f := k[r][i] / k[i][i]
			for c := i; c < len(k); c++ {
				k[r][c] -= f * k[i][c]
			}
		}
	}
	return true
}

// CornerBuckling returns the critical membrane force, N/mm, of a corner of a skin
// that is held up along its two inner sides only, b mm wide across the force: the
// strip of [OrthotropicPlate.FreeBuckling] without its ends' help, 12·D66/b². The
// second held side helps, which is left out.
func (p OrthotropicPlate) CornerBuckling(b float64) float64 { return 12 * p.D66 / (b * b) }

// Dimpling returns the stress, MPa, at which a skin of thickness t dimples over
// the cells of a core, s apart:
//
//	σ = 2·E/(1 − ν²)·(t/s)²
//
// E in MPa. It is a rule for cores of small cells. A plate held up along four sides,
// which is what a skin between ribs is, stands 1.64 times that if it is square and
// isotropic ([OrthotropicPlate.Buckling]); the rule is told beside it. Source: sandwich
// practice (the form of ASTM C364's commentary and of makers' manuals), from memory.
func Dimpling(e, nu, t, s float64) float64 { return 2 * e / (1 - nu*nu) * (t / s) * (t / s) }

// Wrinkling returns the stress, MPa, at which a skin wrinkles in short waves
// because the core below it yields upright:
//
//	σ = ½·(E_skin·E_core·G_core)^⅓
//
// all in MPa, the core's upright. It is the practical value, which leaves room for
// skins that are not flat; the theory of an endless even core has .91 for ½. It
// holds for a core that supports the skin everywhere, so for ribs only smeared over
// their spacing. Ribs farther apart than the waves hold the skin in lines, more
// stiffly than the smeared core does, and it buckles between them instead. Source:
// Hoff and Mautner 1945, by way of Allen, Analysis and Design of Structural Sandwich
// Panels (1969), from memory.
func Wrinkling(skin, core, shear float64) float64 { return 0.5 * math.Cbrt(skin*core*shear) }
