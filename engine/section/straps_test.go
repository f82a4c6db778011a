package section

import (
	"math"
	"testing"
)

// chain is the same joint as a chain of springs, solved by elimination: a second
// method that knows nothing of cosh. It returns the extra give as a length.
func chain(s Straps, cells int) float64 {
	n := float64(s.Faces)
	strip := s.T / (3 * s.G)
	if s.Faces == 2 {
		strip /= 2
	}
	dx := s.Half / float64(cells)
	k := n / (s.T/(3*s.G) + strip) * dx
	own, strap := s.E*s.T/dx, n*s.E*s.T/dx
	// Unknowns: strip u0 … uN and straps v0 … vN at the nodes; v0 is held, 1 N pulls
	// at uN. Node springs are half at both ends.
	m := 2 * (cells + 1)
	a := make([][]float64, m)
	for i := range a {
		a[i] = make([]float64, m+1)
	}
	join := func(i, j int, stiff float64) {
		a[i][i] += stiff
		a[j][j] += stiff
		a[i][j] -= stiff
		a[j][i] -= stiff
	}
	for i := 0; i <= cells; i++ {
		w := 1.0
		if i == 0 || i == cells {
			w = 0.5
		}
		join(2*i, 2*i+1, k*w)
		if i > 0 {
			join(2*i-2, 2*i, own)
			join(2*i-1, 2*i+1, strap)
		}
	}
	a[1][1] += 1e12
	a[2*cells][m] = 1
	const band = 3
	for i := range m {
		for r := i + 1; r < min(m, i+band); r++ {
			f := a[r][i] / a[i][i]
			for c := i; c < min(m, i+band); c++ {
				a[r][c] -= f * a[i][c]
			}
			a[r][m] -= f * a[i][m]
		}
	}
	u := make([]float64, m)
	for i := m - 1; i >= 0; i-- {
		sum := a[i][m]
		for c := i + 1; c < min(m, i+band); c++ {
			sum -= a[i][c] * u[c]
		}
		u[i] = sum / a[i][i]
	}
	return 2 * (u[2*cells]*s.E*s.T - s.Half)
}

func TestStraps(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name string
		Straps
	}{
		{"a rib of 12 mm under two plates of 300 mm", Straps{12, 150, 2, 9000, 70}},
		{"under one", Straps{12, 150, 1, 9000, 70}},
		{"short ones", Straps{12, 40, 2, 9000, 70}},
		{"edgewise shear", Straps{9, 80, 1, 620, 170}},
	} {
		// The chain's error falls with the square of the step.
		coarse, fine := chain(test.Straps, 200), chain(test.Straps, 400)
		want := fine + (fine-coarse)/3
		if got := test.Give(); math.Abs(got-want) > 1e-4*test.Half {
			t.Errorf("%s: Give() = %.4f; want %.4f mm by a chain of springs", test.name, got, want)
		}
	}
	// By hand, one strap, T = 12, h = 150, E = 9000, G = 70: k = 1/(12/210 + 12/210) =
	// 8.75, λ = √(2·8.75/108000) = 0.012729, λh = 1.9094: cosh 3.449, sinh 3.301;
	// B = −(0.5 + 1.7246)/3.301 = −0.67395; ∫N = 75 + 0.5·3.301/λ − 0.67395·2.449/λ = 75;
	// −N′ = λ·(0.67395·3.449 − 0.5·3.301) = 0.0085782, /8.75·108000 = 105.88;
	// 2·(75 + 105.88 − 150) = 61.8 mm.
	if got := (Straps{12, 150, 1, 9000, 70}).Give(); math.Abs(got-61.8) > 0.1 {
		t.Errorf("one strap: %.2f mm; by hand 61.8", got)
	}
	// Limits: straps that do not slip carry two thirds at once, and the joint is
	// shorter by two thirds of its length; soft ones give without end.
	if got := (Straps{12, 150, 2, 9000, 1e9}).Give(); math.Abs(got+200) > 0.5 {
		t.Errorf("without slip: %.2f mm; want −2·150·2/3 = −200", got)
	}
	if a, b := (Straps{12, 150, 2, 9000, 1}).Give(), (Straps{12, 150, 2, 9000, 0.1}).Give(); !(a > 0 && b > 5*a) {
		t.Errorf("soft straps give %g and %g mm", a, b)
	}
	for _, bad := range []Straps{{}, {12, 150, 3, 9000, 70}, {12, math.NaN(), 1, 9000, 70}, {12, 150, 1, -1, 70}} {
		if got := bad.Give(); !math.IsNaN(got) {
			t.Errorf("%+v: %g; want NaN", bad, got)
		}
	}
}
