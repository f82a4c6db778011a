package catalog

import (
	"strconv"
	"strings"
	"testing"
)

// Finnish birch plywood handbook - from memory: characteristic strengths of a
// ply, 70 MPa in bending, 75 in tension, 52 in compression, give those of every
// sheet by its lay-up. The data hold the sheets' printed figures; here they are
// worked out from the plies and must agree at the last printed digit.
func TestBirchStrengthsFollowFromPlies(t *testing.T) {
	t.Parallel()
	s, _ := shipped(t).Sheet("birch-plywood")
	seen := 0
	for _, th := range s.Thicknesses {
		if th.Plies > 15 || th.Imperial {
			continue // the table above 21 mm is not in the data
		}
		seen++
		at := s.At(th.Actual)
		a, b, d, e := Layup(1, 1e-9, th.Layers)
		inner := (th.Actual - 2*1.1) / th.Actual // outermost ply across
		near(t, th.Nominal+" bending along", at.FBendAlong, 70*d, 0.051)
		near(t, th.Nominal+" bending across", at.FBendAcross, 70*e/inner, 0.051)
		near(t, th.Nominal+" tension along", at.FTensAlong, 75*a, 0.051)
		near(t, th.Nominal+" tension across", at.FTensAcross, 75*b, 0.051)
		near(t, th.Nominal+" compression along", at.FCompAlong, 52*a, 0.051)
		near(t, th.Nominal+" compression across", at.FCompAcross, 52*b, 0.051)
	}
	if seen != 7 {
		t.Errorf("%d thicknesses checked; want 7", seen)
	}
	// Half a digit of 16 935 and of the ratio 0.0333 leave 0.5 + 0.9 MPa.
	near(t, "ply along and across", s.EPlyAlong+s.EPlyAcross, 17500, 1.4)
}

// nominalSize reads "12 mm", "1 1/8 in" or "3/4 in (23/32 category)" in mm.
func nominalSize(t *testing.T, nominal string) float64 {
	t.Helper()
	sum, unit := 0.0, 1.0
	for _, word := range strings.Fields(nominal) {
		if word == "mm" {
			return sum
		}
		if word == "in" {
			return sum * 25.4
		}
		over, under, fraction := strings.Cut(word, "/")
		v, err := strconv.ParseFloat(over, 64)
		if err != nil {
			t.Fatalf("%q is no size", nominal)
		}
		if fraction {
			if unit, err = strconv.ParseFloat(under, 64); err != nil {
				t.Fatalf("%q is no size", nominal)
			}
			v /= unit
		}
		sum += v
	}
	t.Fatalf("%q has no unit", nominal)
	return 0
}

// The measured thickness is worked out again from the nominal one by the rule
// that its source column names.
func TestThicknessRules(t *testing.T) {
	t.Parallel()
	for _, s := range shipped(t).all() {
		for _, th := range s.Thicknesses {
			nominal := nominalSize(t, th.Nominal)
			what := s.Key + " " + th.Nominal
			switch {
			case strings.Contains(th.Source, "grade stamp"): // see TestStampedThicknesses
			case strings.Contains(th.Source, "less 0.1 mm"):
				near(t, what, th.Actual, nominal-0.1, 1e-9)
			case strings.Contains(th.Source, "less 1/64 in"):
				near(t, what, th.Actual, nominal-25.4/64, 0.006)
			case strings.Contains(th.Source, "less 1/32 in"):
				near(t, what, th.Actual, nominal-25.4/32, 0.006)
			case strings.Contains(th.Source, "11/32 in"):
				near(t, what, th.Actual, 25.4*11/32, 0.006)
			case th.Plies == 0:
				near(t, what, th.Actual, nominal, 0.006)
			case !(th.Actual < nominal+0.45 && th.Actual > nominal-1.55):
				t.Errorf("%s measures %g mm, nominal %g", what, th.Actual, nominal)
			}
		}
	}
}

// Figures that the source column says were worked out or taken over.
func TestDerivedFigures(t *testing.T) {
	t.Parallel()
	c := shipped(t)
	get := func(key string) Sheet {
		t.Helper()
		s, ok := c.Sheet(key)
		if !ok {
			t.Fatalf("no %s", key)
		}
		return s
	}
	// Boards have no grain: the same in both directions at every thickness.
	for _, key := range []string{"mdf", "mdf-light", "mdf-moisture", "particleboard", "particleboard-p4", "particleboard-p5", "hardboard", "hardboard-tempered"} {
		for _, th := range get(key).Thicknesses {
			s := get(key).At(th.Actual)
			for _, p := range [][2]float64{{s.EAlong, s.EAcross}, {s.EBendAlong, s.EBendAcross}, {s.FBendAlong, s.FBendAcross},
				{s.FTensAlong, s.FTensAcross}, {s.FCompAlong, s.FCompAcross}, {s.SwellAlong, s.SwellAcross}, {s.Nu, 0.25}} {
				if p[0] != p[1] {
					t.Errorf("%s %s: %g and %g; want the same", key, th.Nominal, p[0], p[1])
				}
			}
		}
	}
	// Moisture-resistant MDF is taken as MDF.
	a, b := get("mdf"), get("mdf-moisture")
	for _, f := range sheetFields {
		if f.name != "density" && *f.of(&a) != *f.of(&b) {
			t.Errorf("%s: %g in MDF, %g in the moisture-resistant one", f.name, *f.of(&a), *f.of(&b))
		}
	}
	for _, key := range []string{"hardboard", "hardboard-tempered"} {
		s := get(key)
		near(t, key+" G = E/2(1+nu)", s.GEdge, s.EBendAlong/(2*(1+s.Nu)), 1e-9)
		near(t, key+" E", s.EAlong, s.EBendAlong, 0)
		near(t, key+" compression", s.FCompAlong, 0.9*s.FTensAlong, 1e-9)
	}
	// Lauan: tension and compression in the shares of the softwood sheets.
	tens, comp := 33.7*27.6/41.4, 33.7*31.0/41.4
	for _, key := range []string{"tropical-3ply", "tropical-plywood", "hardwood-plywood"} {
		s := get(key)
		near(t, key+" tension", s.FTensAlong, Characteristic(tens, 0.2), 0.05)
		near(t, key+" compression", s.FCompAlong, Characteristic(comp, 0.2), 0.05)
		near(t, key+" bending", s.FBendAlong, Characteristic(33.7, 0.2), 1e-9)
		near(t, key+" edge G, low end of 586-758", s.GEdge, 586, 0)
	}
	near(t, "softwood-sanded tension", get("softwood-sanded").FTensAlong, Characteristic(27.6, 0.2), 1e-9)
	near(t, "softwood-sanded compression", get("softwood-sanded").FCompAlong, Characteristic(31.0, 0.2), 1e-9)
	near(t, "softwood-sanded edge G", get("softwood-sanded").GEdge, (586+758)/2.0, 0)
	near(t, "softwood-sanded planar G", get("softwood-sanded").GRolling, 138, 0)
	near(t, "softwood-sanded bearing, loblolly pine", get("softwood-sanded").FBearing, Characteristic(5.4, 0.28), 1e-9)
	near(t, "hardwood core ply, 0.8 of yellow-poplar", get("hardwood-plywood").EPlyAlong, 0.8*1.1*10900, 10)
	near(t, "hardwood core bearing, yellow-poplar", get("hardwood-plywood").FBearing, Characteristic(3.4, 0.28), 1e-9)
	near(t, "hardwood core rail shear, lauan", get("hardwood-plywood").FEdgeShear, Characteristic(4.3, 0.14), 1e-9)
	near(t, "hardwood core glue-line shear, lauan", get("hardwood-plywood").FRolling, Characteristic(1.3, 0.2), 1e-9)
	near(t, "birch bearing, yellow birch", get("birch-plywood").FBearing, Characteristic(6.7, 0.28), 1e-9)
	near(t, "poplar planar G", get("poplar-plywood").GRolling, 0.011*8000, 0.5)
	near(t, "poplar tension", get("poplar-plywood").FTensAlong, 0.7*get("poplar-plywood").FBendAlong, 1e-9)
	near(t, "poplar compression", get("poplar-plywood").FCompAlong, 0.7*get("poplar-plywood").FBendAlong, 1e-9)
	near(t, "poplar edge shear, aspen", get("poplar-plywood").FEdgeShear, Characteristic(5.9, 0.14), 1e-9)
	near(t, "poplar rolling shear", get("poplar-plywood").FRolling, 0.18*Characteristic(5.9, 0.14), 1e-9)
	near(t, "poplar bearing, aspen", get("poplar-plywood").FBearing, Characteristic(2.6, 0.28), 1e-9)
	near(t, "particleboard density, SG .60-.77", get("particleboard").Density, 1080*(.60+.77)/2, 0.5)
	near(t, "particleboard in-plane E", get("particleboard").EAlong, 0.72*3400, 5)
	near(t, "particleboard tension", get("particleboard").FTensAlong, Characteristic((5.6+10.9)/2, 0.15), 0.05)
	near(t, "hardboard density, SG .9-1.0", get("hardboard").Density, 950, 0)
	near(t, "OSB density, SG .5-.8", get("osb-3").Density, 650, 0)
	near(t, "OSB density, SG .5-.8", get("osb-4").Density, 650, 0)
}

// EN 12369-1, particleboard, to 13, over 13 to 20, over 20 to 25 mm - from memory.
// LVL 48 P and LVL 36 C - from memory, but E and G of the first.
func TestRememberedBoards(t *testing.T) {
	t.Parallel()
	c := shipped(t)
	type figures struct{ em, e, g, fm, ft, fc, fv, fr float64 }
	for key, rows := range map[string][3]figures{
		"particleboard-p4": {{3200, 1800, 860, 14.2, 8.9, 12.0, 6.6, 1.8}, {2900, 1700, 830, 12.5, 7.9, 11.1, 6.1, 1.6}, {2700, 1600, 770, 10.8, 6.9, 9.6, 5.5, 1.4}},
		"particleboard-p5": {{3500, 2000, 960, 15.0, 9.4, 12.7, 7.0, 1.9}, {3300, 1900, 930, 13.3, 8.5, 11.8, 6.5, 1.7}, {3000, 1800, 860, 11.7, 7.4, 10.3, 5.9, 1.5}},
	} {
		s, _ := c.Sheet(key)
		for i, th := range []float64{13, 20, 25} {
			at := s.At(th)
			if got := (figures{at.EBendAlong, at.EAlong, at.GEdge, at.FBendAlong, at.FTensAlong, at.FCompAlong, at.FEdgeShear, at.FRolling}); got != rows[i] {
				t.Errorf("%s at %g mm: %v; want %v", key, th, got, rows[i])
			}
		}
	}
	for key, want := range map[string][]float64{
		"lvl":       {510, 13800, 430, 13800, 430, 600, 100, .3, 44, .8, 35, .8, 35, 6, 4.2, 1, 2.2, .08, .12, .05, .0001, .0032},
		"lvl-cross": {510, 10500, 2400, 10500, 2000, 600, 120, .1, 36, 8, 22, 5, 26, 9, 4.5, .6, 2.2, .08, .12, .05, .0001, .0003},
	} {
		s, _ := c.Sheet(key)
		for i, v := range want {
			near(t, key+" "+sheetFields[i].name, *sheetFields[i].of(&s), v, 0)
		}
	}
}

// Scatter and moisture movement: common practice and memory, but the rule that
// turns 30 to 90 % humidity into strain for 1 % of moisture content is checked.
func TestScatterAndSwelling(t *testing.T) {
	t.Parallel()
	c := shipped(t)
	for _, w := range []struct {
		keys                             string
		cvE, cvStrength, cvDensity       float64
		along, across, points, nu, bears float64
	}{
		{"softwood-sheathing softwood-sanded tropical-3ply tropical-plywood hardwood-plywood poplar-plywood", .12, .20, .08, .0015, .0015, 12, .07, 0},
		{"birch-plywood", .10, .15, .05, .0015, .0015, 12, .07, 0},
		{"mdf mdf-moisture", .10, .15, .05, .003, .003, 10, .25, 5},
		{"mdf-light", .10, .15, .05, .003, .003, 10, .25, 3},
		{"particleboard", .10, .15, .05, .004, .004, 10, .25, 4},
		{"particleboard-p4 particleboard-p5", .096, .15, .05, .004, .004, 10, .25, 4},
		{"hardboard hardboard-tempered", .10, .15, .05, .003, .003, 10, .25, 8},
		{"osb-3 osb-4", .096, .15, .06, .0015, .003, 10, .23, 2.5},
	} {
		for _, key := range strings.Fields(w.keys) {
			s, ok := c.Sheet(key)
			if !ok {
				t.Fatalf("no %s", key)
			}
			near(t, key+" cv E", s.CVE, w.cvE, 0)
			near(t, key+" cv strength", s.CVStrength, w.cvStrength, 0)
			near(t, key+" cv density", s.CVDensity, w.cvDensity, 0)
			near(t, key+" swell along", s.SwellAlong, w.along/w.points, 1e-12)
			near(t, key+" swell across", s.SwellAcross, w.across/w.points, 1e-12)
			near(t, key+" nu", s.Nu, w.nu, 0)
			if w.bears > 0 {
				near(t, key+" bearing", s.FBearing, w.bears, 0)
			}
		}
	}
}

// What rests on memory or common practice alone is typed twice as well, so that
// a slip of a digit does not go unseen.
func TestUnsourcedFigures(t *testing.T) {
	t.Parallel()
	c := shipped(t)
	for key, figures := range map[string]map[string]float64{
		"mdf":                {"density": 740, "gRolling": 150},
		"mdf-moisture":       {"density": 760},
		"mdf-light":          {"density": 600, "eBendAlong": 1700, "eAlong": 1500, "gEdge": 500, "gRolling": 90, "fBendAlong": 13, "fTensAlong": 8, "fCompAlong": 8, "fEdgeShear": 4, "fRolling": 0.45},
		"particleboard":      {"gEdge": 830, "gRolling": 100, "fEdgeShear": 5, "fRolling": Characteristic(0.6, 0.2), "fCompAlong": Characteristic(8.2, 0.15)},
		"particleboard-p4":   {"density": 670, "gRolling": 100},
		"particleboard-p5":   {"density": 680, "gRolling": 100},
		"hardboard":          {"gRolling": 200, "fEdgeShear": 12, "fRolling": 1.8, "fBendAlong": Characteristic(39.4, 0.15)},
		"hardboard-tempered": {"density": 1000, "gRolling": 200, "fEdgeShear": 16, "fRolling": 2.5, "fTensAlong": Characteristic(31.1, 0.15)},
		"birch-plywood":      {"gRolling": 170, "fRolling": 2.0},
		"poplar-plywood":     {"density": 430, "ePlyAlong": 8000, "gEdge": 500, "fBendAlong": 20},
		"hardwood-plywood":   {"density": 540, "gRolling": 100},
		"tropical-3ply":      {"gRolling": 100, "fBearing": Characteristic(4, 0.28)},
		"tropical-plywood":   {"gRolling": 100, "fBearing": Characteristic(4, 0.28)},
	} {
		s, ok := c.Sheet(key)
		if !ok {
			t.Fatalf("no %s", key)
		}
		for name, want := range figures {
			f, _ := fieldNamed(name)
			near(t, key+" "+name, *f.of(&s), want, 1e-9*want)
		}
	}
	for key, sizes := range map[string]map[string]float64{
		"tropical-3ply":    {"2.7 mm": 2.7, "3 mm": 3, "3.6 mm": 3.6, "4 mm": 4, "5 mm": 5, "1/8 in": 2.7, "5/32 in": 3.6, "1/4 in": 5},
		"tropical-plywood": {"3/8 in": 8.9, "1/2 in": 11.9, "3/4 in": 17.9},
		"poplar-plywood":   {"1/8 in": 2.9, "1/4 in": 5.9, "1/2 in": 11.9, "3/4 in": 17.9},
		"hardwood-plywood": {"1/4 in": 5.2},
	} {
		s, _ := c.Sheet(key)
		found := 0
		for _, th := range s.Thicknesses {
			if want, ok := sizes[th.Nominal]; ok {
				found++
				near(t, key+" "+th.Nominal, th.Actual, want, 0)
			}
		}
		if found != len(sizes) {
			t.Errorf("%s: %d of %d thicknesses found", key, found, len(sizes))
		}
	}
}

func BenchmarkParse(b *testing.B) {
	for b.Loop() {
		shipped(b)
	}
}
