package catalog

import (
	"math"
	"testing"
)

// near fails the test unless got is within tol of want.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %v; want %v ± %g", what, got, want, tol)
	}
}

// plies returns n plies of thickness t.
func plies(n int, t float64) []float64 {
	list := make([]float64, n)
	for i := range list {
		list[i] = t
	}
	return list
}

// Fractions of E0 for equal plies with E90 = E0/30, worked out beforehand by a
// separate script from the transformed section, printed to six digits. By hand
// for three plies: bending along (26 + 1/30)/27 = 0.964198, axial along
// (2 + 1/30)/3 = 0.677778.
func TestLayupEqualPlies(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		n                                      int
		bendAlong, bendAcross, along, axAcross float64
	}{
		{3, 0.964198, 0.069136, 0.677778, 0.355556},
		{5, 0.798933, 0.234400, 0.613333, 0.420000},
		{7, 0.720991, 0.312342, 0.585714, 0.447619},
		{9, 0.676452, 0.356882, 0.570370, 0.462963},
		{13, 0.627765, 0.405568, 0.553846, 0.479487},
	} {
		a, b, d, e := Layup(1, 1.0/30, plies(c.n, 1.4))
		near(t, "axial along", a, c.along, 5e-7)
		near(t, "axial across", b, c.axAcross, 5e-7)
		near(t, "bend along", d, c.bendAlong, 5e-7)
		near(t, "bend across", e, c.bendAcross, 5e-7)
	}
}

// Finnish birch plywood handbook table - from memory: mean E in bending and
// axially, along and across, made of outer plies of 1.1 and inner ones of 1.4 mm
// that have 17 500 MPa along and nothing across. Checked at the printed digits.
func TestLayupFinnishBirch(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		n                                   int
		bendAlong, bendAcross, along, aside float64
	}{
		{3, 16471, 1029, 10694, 6806},
		{5, 12737, 4763, 9844, 7656},
		{7, 11395, 6105, 9511, 7989},
		{9, 10719, 6781, 9333, 8167},
		{11, 10316, 7184, 9223, 8277},
		{13, 10048, 7452, 9148, 8352},
	} {
		list := plies(c.n, 1.4)
		list[0], list[c.n-1] = 1.1, 1.1
		a, b, d, e := Layup(17500, 1e-6, list)
		near(t, "axial along", a, c.along, 0.5)
		near(t, "axial across", b, c.aside, 0.5)
		near(t, "bend along", d, c.bendAlong, 0.5)
		near(t, "bend across", e, c.bendAcross, 0.5)
	}
}

func TestLayupUnsymmetric(t *testing.T) {
	t.Parallel()
	// By hand: 1 mm of E 3 on 2 mm of E 1. ΣEt = 5, neutral axis 5.5/5 = 1.1 from
	// the face; ΣEI = 3·(1/12 + 0.6²) + 8/12 + 2·0.9² = 3.616667; ·12/27 = 1.607407.
	// Across, 1 mm of E 1 on 2 mm of E 3: ΣEt = 7, neutral axis 12.5/7 = 1.785714;
	// ΣEI = 1/12 + 1.285714² + 3·(8/12 + 2·0.214286²) = 4.011905; ·12/27 = 1.783069.
	a, b, d, e := Layup(3, 1, []float64{1, 2})
	near(t, "axial along", a, 5.0/3, 1e-12)
	near(t, "axial across", b, 7.0/3, 1e-12)
	near(t, "bend along", d, 1.607407, 5e-7)
	near(t, "bend across", e, 1.783069, 5e-7)
}

func TestLayupProperties(t *testing.T) {
	t.Parallel()
	list := []float64{1.1, 1.7, 0.9, 1.7, 1.1} // symmetric, unequal
	const e0, e90 = 11300, 420
	a, b, d, e := Layup(e0, e90, list)

	// Turned by 90° the directions trade places.
	a2, b2, d2, e2 := Layup(e90, e0, list)
	if a != b2 || b != a2 || d != e2 || e != d2 {
		t.Errorf("turned: %v %v %v %v; want %v %v %v %v", a2, b2, d2, e2, b, a, e, d)
	}
	// Along and across together hold all of both moduli; in bending too where
	// the lay-up is symmetric.
	near(t, "axial sum", a+b, e0+e90, 1e-9)
	near(t, "bending sum", d+e, e0+e90, 1e-9)
	// One ply is itself; plies alike in both directions are one material.
	a, b, d, e = Layup(e0, e90, []float64{4})
	for i, v := range []float64{a - e0, b - e90, d - e0, e - e90} {
		near(t, "one ply", v, 0, 1e-9*float64(i+1))
	}
	a, b, d, e = Layup(700, 700, []float64{1, 3, 2})
	for _, v := range []float64{a, b, d, e} {
		near(t, "uniform", v, 700, 1e-9)
	}
	// Twice as thick changes nothing; twice as stiff doubles all.
	_, _, d, e = Layup(e0, e90, list)
	double := make([]float64, len(list))
	for i := range list {
		double[i] = 2 * list[i]
	}
	_, _, d2, e2 = Layup(e0, e90, double)
	near(t, "doubled plies, along", d2, d, 1e-9)
	near(t, "doubled plies, across", e2, e, 1e-9)
	_, _, d2, e2 = Layup(2*e0, 2*e90, list)
	near(t, "doubled E, along", d2, 2*d, 1e-9)
	near(t, "doubled E, across", e2, 2*e, 1e-9)
	// Turned over, the same sheet.
	_, _, d, _ = Layup(3, 1, []float64{1, 2, 1.5})
	_, _, d2, _ = Layup(3, 1, []float64{1.5, 2, 1})
	near(t, "turned over", d2, d, 1e-12)
}

func TestLayupDomain(t *testing.T) {
	t.Parallel()
	nan := math.NaN()
	for name, c := range map[string]struct {
		e0, e90 float64
		plies   []float64
	}{
		"no plies": {1, 1, nil}, "no E": {0, 1, plies(3, 1)}, "negative E across": {1, -1, plies(3, 1)},
		"NaN E": {nan, 1, plies(3, 1)}, "zero ply": {1, 1, []float64{1, 0, 1}}, "NaN ply": {1, 1, []float64{nan}},
	} {
		a, b, d, e := Layup(c.e0, c.e90, c.plies)
		for _, v := range []float64{a, b, d, e} {
			if !math.IsNaN(v) {
				t.Errorf("%s: got %v; want NaN", name, v)
			}
		}
	}
}

func TestAt(t *testing.T) {
	t.Parallel()
	s := Sheet{EAlong: 1, EAcross: 2, EBendAlong: 3, EBendAcross: 4, FRolling: 9, GEdge: 70,
		EPlyAlong: 3000, EPlyAcross: 100,
		Thicknesses: []Thickness{{Actual: 3, Plies: 3}, {Actual: 8}, {Actual: 9, Plies: 3, Layers: []float64{2, 5, 2}}},
		Steps:       []Step{{Above: 6, Values: map[string]float64{"fRolling": 8}}, {Above: 12, Values: map[string]float64{"fRolling": 7, "gEdge": 60}}},
	}
	// By hand, three equal plies of 3000 and 100: (2·3000+100)/3 and (3000+200)/3;
	// bending (26·3000+100)/27 and (26·100+3000)/27.
	three := s.At(3.4)
	near(t, "3.4 mm along", three.EAlong, 6100.0/3, 1e-9)
	near(t, "3.4 mm across", three.EAcross, 3200.0/3, 1e-9)
	near(t, "3.4 mm bend along", three.EBendAlong, 78100.0/27, 1e-9)
	near(t, "3.4 mm bend across", three.EBendAcross, 5600.0/27, 1e-9)
	// Layers 2, 5, 2: (4·3000+5·100)/9; the row at 8 mm has no plies and is passed over.
	near(t, "8 mm along", s.At(8).EAlong, 12500.0/9, 1e-9)
	// Half-way the first listed wins: the answer does not hang on rounding.
	near(t, "6 mm along", s.At(6).EAlong, 6100.0/3, 1e-9)
	for _, c := range []struct{ t, rolling, edge float64 }{
		{3, 9, 70}, {6, 9, 70}, {6.01, 8, 70}, {12, 8, 70}, {12.5, 7, 60}, {1e9, 7, 60}, {math.NaN(), 9, 70},
	} {
		got := s.At(c.t)
		if got.FRolling != c.rolling || got.GEdge != c.edge {
			t.Errorf("At(%g): rolling %g, edge %g; want %g, %g", c.t, got.FRolling, got.GEdge, c.rolling, c.edge)
		}
	}
	if s.EAlong != 1 || s.FRolling != 9 {
		t.Error("At changed the material it was asked of")
	}
	// Without plies, or with ones that cannot be, the moduli stay.
	for name, change := range map[string]func(*Sheet){
		"no ply modulus": func(s *Sheet) { s.EPlyAcross = 0 },
		"no plies":       func(s *Sheet) { s.Thicknesses = s.Thicknesses[1:2] },
		"bad layers":     func(s *Sheet) { s.Thicknesses = []Thickness{{Actual: 3, Plies: 3, Layers: []float64{1, -1, 1}}} },
		"lost layers":    func(s *Sheet) { s.Thicknesses = []Thickness{{Actual: 3, Plies: 1, Layers: []float64{1e-200}}} },
	} {
		c := s
		change(&c)
		if got := c.At(3); got.EAlong != 1 || got.EBendAcross != 4 {
			t.Errorf("%s: E %g, %g; want 1, 4 as given", name, got.EAlong, got.EBendAcross)
		}
	}
}
