package section_test

import (
	"fmt"
	"math"
	"testing"

	"flatwright/engine/section"
)

// stiff is a shear stiffness beside which the plate's bending is everything.
const stiff = 1e9

func kirchhoff(dx, dy, h float64) section.Plate {
	return section.Plate{Dx: dx, Dy: dy, H: h, Sx: stiff, Sy: stiff}
}

// even is a load of 1 per unit of area over the whole plate.
func even(a, b float64) section.Rect {
	return section.Rect{P: a * b, X: a / 2, Y: b / 2, SizeX: a, SizeY: b}
}

// navier is the plate without shear, Dx·w,xxxx + 2·H·w,xxyy + Dy·w,yyyy = q,
// under a centred patch (u, v times the sides), at the middle, with odd terms
// up to n: Navier's series as the textbooks print it.
func navier(b, dx, dy, h, u, v float64, n int) float64 {
	mean := func(m int, share float64) float64 {
		arg := float64(m) * math.Pi * share / 2
		if arg == 0 {
			return 1
		}
		return math.Sin(arg) / arg
	}
	sum := 0.0
	for i := n - 1 + n%2; i >= 1; i -= 2 {
		al := math.Pow(float64(i)*math.Pi, 2)
		for j := n - 1 + n%2; j >= 1; j -= 2 {
			be := math.Pow(float64(j)*math.Pi/b, 2)
			sum += 4 / b * mean(i, u) * mean(j, v) / (dx*al*al + 2*h*al*be + dy*be*be)
		}
	}
	return sum
}

// TestOrthotropicPlate: w·Dx/(q·a⁴) and w·Dx/(P·a²) at the middle, Dx = 1, b
// over a, Dy and H as given. Derived: Navier's double series with 600 terms
// each way, recomputed here; the isotropic rows are in Timoshenko and
// Woinowsky-Krieger, Theory of Plates and Shells (1959), Tables 8 and 23, from
// memory. Plate.Sag is held to the even load at its digits, and under the
// point to the same series cut where it is cut.
func TestOrthotropicPlate(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ b, dy, h, even, point float64 }{
		{1, 1, 1, 0.00406235, 0.01160081},
		{1.5, 1, 1, 0.00772402, 0},
		{2, 1, 1, 0.01012866, 0.01652392},
		{1, 0.5, 0.5, 0.00650548, 0.0184937},
		{1, 0.1, 0.1, 0.01228395, 0.0380764},
		{1, 0.25, 0.5, 0.00717909, 0.0211279},
		{2, 0.5, 0.25, 0.01327003, 0.0246920},
		{1.5, 0.6, 0.4, 0.01087135, 0.0221328},
		{1, 1.0 / 16, 0.25, 0.01012866, 0}, // Huber's map onto the isotropic plate of b/a = 2
	} {
		name := fmt.Sprintf("b/a %g, Dy %g, H %g", c.b, c.dy, c.h)
		p := kirchhoff(1, c.dy, c.h)
		near(t, name+": even load, long series", navier(c.b, 1, c.dy, c.h, 1, 1, 400)*c.b, c.even, 6e-9)
		nearly(t, name+": even load", p.Sag(1, c.b, even(1, c.b), 0.5, c.b/2), c.even, 5e-6)
		if c.point != 0 {
			near(t, name+": point, long series", navier(c.b, 1, c.dy, c.h, 0, 0, 1200), c.point, 2e-7)
		}
		point := section.Rect{P: 1, X: 0.5, Y: c.b / 2}
		nearly(t, name+": point", p.Sag(1, c.b, point, 0.5, c.b/2), navier(c.b, 1, c.dy, c.h, 0, 0, section.PlateTerms), 1e-7)
	}
}

// TestPatchedPlate: w·D/(P·a²) under a centred square patch of side u·a,
// derived by the double series with 400 odd terms each way.
func TestPatchedPlate(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ b, u, want float64 }{
		{1, 0.1, 0.01137060}, {1, 0.2, 0.01086406}, {1, 0.3, 0.01018629}, {1, 0.5, 0.00852873},
		{2, 0.1, 0.01628319}, {2, 0.2, 0.01574490}, {2, 0.3, 0.01501358}, {2, 0.5, 0.01317952},
	} {
		name := fmt.Sprintf("b/a %g, patch %g", c.b, c.u)
		near(t, name+", long series", navier(c.b, 1, 1, 1, c.u, c.u/c.b, 400), c.want, 6e-9)
		patch := section.Rect{P: 1, X: 0.5, Y: c.b / 2, SizeX: c.u, SizeY: c.u}
		nearly(t, name, kirchhoff(1, 1, 1).Sag(1, c.b, patch, 0.5, c.b/2), c.want, 1e-3)
	}
}

// TestPlateShear: an isotropic plate of finite shear stiffness sags
// α·q·a⁴/D + β·q·a²/S. β derived by the series of the membrane, α as above.
func TestPlateShear(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ b, alpha, beta float64 }{
		{1, 0.00406235, 0.07367135}, {1.5, 0.00772402, 0.10077138}, {2, 0.01012866, 0.11387183}, {3, 0.01223281, 0.12268239},
	} {
		for _, s := range []float64{3, 40, 900} {
			p := section.Plate{Dx: 1, Dy: 1, H: 1, Sx: s, Sy: s}
			nearly(t, fmt.Sprintf("b/a %g, S %g", c.b, s), p.Sag(1, c.b, even(1, c.b), 0.5, c.b/2), c.alpha+c.beta/s, 2e-4)
		}
	}
	// w·E·h³/(q·a⁴), square, ν = .3, S = 5/6·G·h: Reddy, Mechanics of Laminated
	// Composite Plates and Shells (2004), prints .0536, .0467 and .0444 for
	// a/h 5, 10 and 100, from memory; the digits are derived from α and β.
	for _, c := range []struct{ slender, want float64 }{{4, 0.058727}, {5, 0.053555}, {10, 0.046659}, {20, 0.044935}, {100, 0.044384}} {
		h := 1 / c.slender
		d := h * h * h / (12 * (1 - 0.3*0.3))
		s := 5.0 / 6 / (2 * 1.3) * h
		p := section.Plate{Dx: d, Dy: d, H: d, Sx: s, Sy: s}
		near(t, fmt.Sprintf("a/h %g", c.slender), p.Sag(1, 1, even(1, 1), 0.5, 0.5)*h*h*h, c.want, 1e-6)
	}
}

// odd is a plate with nothing equal to anything else, in mm and N.
var odd = section.Plate{Dx: 1.7e8, Dy: 0.9e8, H: 0.6e8, Sx: 3100, Sy: 5200}

// shearSag is one term of the plate solved as three equations by Cramer's
// rule, the matrix as Reissner–Mindlin's energy gives it.
func shearSag(p section.Plate, al, be float64) float64 {
	t := p.H / 2
	k := [3][3]float64{
		{p.Sx*al*al + p.Sy*be*be, -p.Sx * al, -p.Sy * be},
		{-p.Sx * al, p.Dx*al*al + t*be*be + p.Sx, t * al * be},
		{-p.Sy * be, t * al * be, t*al*al + p.Dy*be*be + p.Sy},
	}
	minor := k[1][1]*k[2][2] - k[1][2]*k[2][1]
	det := k[0][0]*minor - k[0][1]*(k[1][0]*k[2][2]-k[1][2]*k[2][0]) + k[0][2]*(k[1][0]*k[2][1]-k[1][1]*k[2][0])
	return minor / det
}

// TestPlateTerms: off the middle, orthotropic, with shear, against the plain
// sum over all terms.
func TestPlateTerms(t *testing.T) {
	t.Parallel()
	const a, b = 1500.0, 700.0
	load := section.Rect{P: 900, X: 410, Y: 520, SizeX: 130, SizeY: 60}
	for _, at := range [][2]float64{{410, 520}, {750, 350}, {1210, 95}} {
		want := 0.0
		for m := 1; m <= section.PlateTerms; m++ {
			for n := 1; n <= section.PlateTerms; n++ {
				al, be := float64(m)*math.Pi/a, float64(n)*math.Pi/b
				q := (math.Cos(al*345) - math.Cos(al*475)) / (al * 130) * (math.Cos(be*490) - math.Cos(be*550)) / (be * 60)
				want += 4 * 900 / (a * b) * q * shearSag(odd, al, be) * math.Sin(al*at[0]) * math.Sin(be*at[1])
			}
		}
		nearly(t, fmt.Sprintf("sag at %v", at), odd.Sag(a, b, load, at[0], at[1]), want, 1e-8)
	}
}

func TestPlateSymmetries(t *testing.T) {
	t.Parallel()
	const a, b = 1500.0, 700.0
	turned := section.Plate{Dx: odd.Dy, Dy: odd.Dx, H: odd.H, Sx: odd.Sy, Sy: odd.Sx}
	load := section.Rect{P: 900, X: 410, Y: 520, SizeX: 130, SizeY: 60}
	for _, at := range [][2]float64{{410, 520}, {750, 350}, {1210, 95}} {
		x, y := at[0], at[1]
		name := fmt.Sprintf(" at %v", at)
		want := odd.Sag(a, b, load, x, y)
		nearly(t, "quarter turn"+name, turned.Sag(b, a, section.Rect{P: 900, X: 520, Y: 410, SizeX: 60, SizeY: 130}, y, x), want, 1e-9)
		nearly(t, "mirrored along"+name, odd.Sag(a, b, section.Rect{P: 900, X: a - 410, Y: 520, SizeX: 130, SizeY: 60}, a-x, y), want, 1e-9)
		nearly(t, "mirrored across"+name, odd.Sag(a, b, section.Rect{P: 900, X: 410, Y: b - 520, SizeX: 130, SizeY: 60}, x, b-y), want, 1e-9)
		double := load
		double.P *= 2
		nearly(t, "twice the load"+name, odd.Sag(a, b, double, x, y), 2*want, 1e-12)
		here, there := section.Rect{P: 1, X: 410, Y: 520}, section.Rect{P: 1, X: x, Y: y}
		nearly(t, "Maxwell"+name, odd.Sag(a, b, here, x, y), odd.Sag(a, b, there, 410, 520), 1e-9)
		nearly(t, "a patch that is hardly one"+name,
			odd.Sag(a, b, section.Rect{P: 1, X: 410, Y: 520, SizeX: 1e-3, SizeY: 1e-6}, x, y), odd.Sag(a, b, here, x, y), 1e-6)
	}
	for _, at := range [][2]float64{{0, 300}, {a, 300}, {400, 0}, {400, b}} {
		near(t, fmt.Sprintf("sag at the edge %v", at), odd.Sag(a, b, load, at[0], at[1]), 0, 1e-9)
	}
}

// TestLongPlateIsBeam: eight times as wide as it spans, the middle of a plate
// no longer knows of the far edges, and is the beam of one millimetre's width.
func TestLongPlateIsBeam(t *testing.T) {
	t.Parallel()
	const a = 900.0
	p := section.Plate{Dx: 1.7e8, Dy: 0.4e8, H: 0.6e8, Sx: 3100, Sy: 1500}
	got := p.Sag(a, 8*a, even(a, 8*a), a/2, 4*a)
	span := section.Span{A: 0, B: a, Length: a}
	bend, shear := span.Sag(section.Press{P: a, X1: 0, X2: a}, a/2, p.Dx, p.Sx)
	nearly(t, "long plate", got, bend+shear, 1e-3)
}

// TestStiffInShear: however great the shear stiffness, the plate is the one
// without shear; nothing is lost between large numbers.
func TestStiffInShear(t *testing.T) {
	t.Parallel()
	want := navier(1.5, 1, 0.6, 0.4, 0.2, 0.2/1.5, section.PlateTerms)
	patch := section.Rect{P: 1, X: 0.5, Y: 0.75, SizeX: 0.2, SizeY: 0.2}
	for _, s := range []float64{1e9, 1e13, 1e17} {
		p := section.Plate{Dx: 1, Dy: 0.6, H: 0.4, Sx: s, Sy: s}
		nearly(t, fmt.Sprintf("sag at S = %g", s), p.Sag(1, 1.5, patch, 0.5, 0.75), want, 1e-6)
	}
}

// TestPlateConvergence holds the number of terms to the accuracy told, under a
// patch of a tenth of the sides, against twelve times as many: with next to no
// shear, with shear half of the sag, and with shear nearly all of it.
func TestPlateConvergence(t *testing.T) {
	t.Parallel()
	const a, b = 1500.0, 700.0
	for _, c := range []struct{ sizeX, sizeY, shear, tol float64 }{
		{a / 10, b / 10, 1e6, 1e-3}, {a / 10, b / 10, 1, 1e-3}, {a / 10, b / 10, 0.1, 1e-3},
		{50, 50, 1, 0.015},
	} {
		p := odd
		p.Sx, p.Sy = c.shear*p.Sx, c.shear*p.Sy
		want := 0.0
		for m := 1; m < 12*section.PlateTerms; m += 2 {
			for n := 1; n < 12*section.PlateTerms; n += 2 {
				al, be := float64(m)*math.Pi/a, float64(n)*math.Pi/b
				x, y := al*c.sizeX/2, be*c.sizeY/2
				want += 4 * 900 / (a * b) * math.Sin(x) / x * math.Sin(y) / y * shearSag(p, al, be)
			}
		}
		load := section.Rect{P: 900, X: a / 2, Y: b / 2, SizeX: c.sizeX, SizeY: c.sizeY}
		nearly(t, fmt.Sprintf("middle, %+v", c), p.Sag(a, b, load, a/2, b/2), want, c.tol)
	}
}
