package catalog

import (
	"reflect"
	"strings"
	"testing"
)

// USDA Wood Handbook FPL-GTR-282 (2021) Table 5-3a, the last four rows Table 5-3b
// in MPa: modulus of rupture, E in bending, compression along and across, shear,
// 12 % moisture; density from the specific gravity of the same row. Typed again
// here, apart from the data.
var handbookWoods = []struct {
	key                                     string
	sg, mor, e, along, across, shear, cross float64
}{
	{"eastern-white-pine", .35, 59, 8500, 33.1, 3.0, 6.2, .4},
	{"ponderosa-pine", .40, 65, 8900, 36.7, 4.0, 7.8, .4},
	{"loblolly-pine", .51, 88, 12300, 49.2, 5.4, 9.6, .4},
	{"white-spruce", .36, 65, 9600, 35.7, 3.0, 6.7, .4},
	{"red-spruce", .40, 74, 11400, 38.2, 3.8, 8.9, .4},
	{"sitka-spruce", .40, 70, 10800, 38.7, 4.0, 7.9, .4},
	{"douglas-fir", .48, 85, 13400, 49.9, 5.5, 7.8, .4},
	{"yellow-poplar", .42, 70, 10900, 38.2, 3.4, 8.2, .6},
	{"sugar-maple", .63, 109, 12600, 54.0, 10.1, 16.1, .6},
	{"red-maple", .54, 92, 11300, 45.1, 6.9, 12.8, .6},
	{"red-oak", .63, 99, 12500, 46.6, 7.0, 12.3, .6},
	{"white-oak", .68, 105, 12300, 51.3, 7.4, 13.8, .6},
	{"american-beech", .64, 102.7, 11860, 50.3, 7.0, 13.9, .6},
	{"white-ash", .60, 106.2, 12000, 51.1, 8.0, 13.2, .6},
	{"yellow-birch", .62, 114.5, 13860, 56.3, 6.7, 13.0, .6},
	{"quaking-aspen", .38, 57.9, 8140, 29.3, 2.6, 5.9, .6},
}

func TestHandbookWoods(t *testing.T) {
	t.Parallel()
	c := shipped(t)
	if len(c.Woods) != len(handbookWoods) {
		t.Errorf("%d woods; the table here has %d", len(c.Woods), len(handbookWoods))
	}
	for _, w := range handbookWoods {
		s, ok := c.Sheet(w.key)
		if !ok {
			t.Errorf("no %s", w.key)
			continue
		}
		near(t, w.key+" density", s.Density, 1120*w.sg, 0.5)
		// Note c of the table: measured at span/depth 14, 10 % is shear.
		near(t, w.key+" E", s.EAlong, 1.1*w.e, 0.01)
		near(t, w.key+" bending E", s.EBendAlong, 1.1*w.e, 0.01)
		// CVs of Table 5-6, clear wood - from memory.
		near(t, w.key+" bending", s.FBendAlong, Characteristic(w.mor, .16), 1e-9)
		near(t, w.key+" tension", s.FTensAlong, Characteristic(w.mor, .16), 1e-9)
		near(t, w.key+" compression", s.FCompAlong, Characteristic(w.along, .18), 1e-9)
		near(t, w.key+" compression across", s.FCompAcross, Characteristic(w.across, .28), 1e-9)
		near(t, w.key+" bearing", s.FBearing, Characteristic(w.across, .28), 1e-9)
		near(t, w.key+" shear", s.FEdgeShear, Characteristic(w.shear, .14), 1e-9)
		// P. 5-15: rolling shear 18 to 28 % of shear along the grain.
		near(t, w.key+" rolling shear", s.FRolling, 0.18*s.FEdgeShear, 1e-9)
		near(t, w.key+" tension across", s.FTensAcross, w.cross, 0) // EN 338 - from memory
		near(t, w.key+" bending across", s.FBendAcross, w.cross, 0)
		near(t, w.key+" nu", s.Nu, 0.4, 0)
		near(t, w.key+" cv E", s.CVE, 0.22, 0)
		near(t, w.key+" cv strength", s.CVStrength, 0.16, 0)
		near(t, w.key+" cv density", s.CVDensity, 0.10, 0)
		near(t, w.key+" swell along", s.SwellAlong, 0.002/28, 1e-9)
		for _, name := range []string{"eAlong", "eBendAlong"} {
			if !strings.Contains(s.Sources[name], "10 % to take the shear out") {
				t.Errorf("%s %s: source does not tell of the 10 %%: %s", w.key, name, s.Sources[name])
			}
		}
		if !strings.Contains(s.Sources["fBendAlong"], "5th percentile") {
			t.Errorf("%s: source does not tell that a mean was lowered: %s", w.key, s.Sources["fBendAlong"])
		}
	}
}

// Wood Handbook FPL-GTR-282 Table 5-1: E_T, G_LT and G_RT over E_L. Table 13-5:
// tangential shrinkage for 1 %, quoted second-hand (oaks, maple, white pine), the
// rest from memory.
func TestHandbookElasticRatios(t *testing.T) {
	t.Parallel()
	c := shipped(t)
	for key, w := range map[string]struct{ et, glt, grt, swell float64 }{
		"white-ash":          {.080, .077, .017, .00274}, // G_RT as yellow birch, no row
		"yellow-birch":       {.050, .068, .017, .00338},
		"sugar-maple":        {.065, .063, .017, .00353}, // G_RT as yellow birch, no row
		"red-oak":            {.082, .081, .017, .00369}, // G_RT as yellow birch, no row
		"yellow-poplar":      {.043, .069, .011, .00289},
		"douglas-fir":        {.050, .078, .007, .00267},
		"loblolly-pine":      {.078, .081, .013, .00259},
		"ponderosa-pine":     {.083, .115, .017, .00216},
		"sitka-spruce":       {.043, .061, .003, .00263},
		"eastern-white-pine": {.083, .115, .017, .00212}, // as ponderosa pine
		"red-spruce":         {.043, .061, .003, .00274}, // as Sitka spruce
		"white-spruce":       {.043, .061, .003, .00274}, // as Sitka spruce
		"red-maple":          {.065, .063, .017, .00289}, // as sugar maple
		"american-beech":     {.065, .063, .017, .00431}, // as sugar maple
		"white-oak":          {.082, .081, .017, .00365}, // as red oak
		"quaking-aspen":      {.043, .069, .011, .00234}, // as yellow-poplar
	} {
		s, _ := c.Sheet(key)
		near(t, key+" E_T/E_L", s.EAcross/s.EAlong, w.et, 1e-9)
		near(t, key+" bending E_T/E_L", s.EBendAcross/s.EBendAlong, w.et, 1e-9)
		near(t, key+" G_LT/E_L", s.GEdge/s.EAlong, w.glt, 1e-9)
		near(t, key+" G_RT/E_L", s.GRolling/s.EAlong, w.grt, 1e-9)
		near(t, key+" swell across", s.SwellAcross, w.swell, 1e-9)
	}
}

// EN 12369-1:2001, by thickness: 6 to 10, over 10 to 18, over 18 to 25 mm.
func TestOSBByThickness(t *testing.T) {
	t.Parallel()
	c := shipped(t)
	for key, w := range map[string]struct {
		fm0, fm90, ft0, ft90, fc0, fc90  [3]float64
		fv, fr, em0, em90, e0, e90, g, r float64
	}{
		"osb-3": {[3]float64{18, 16.4, 14.8}, [3]float64{9, 8.2, 7.4}, [3]float64{9.9, 9.4, 9.0}, [3]float64{7.2, 7.0, 6.8},
			[3]float64{15.9, 15.4, 14.8}, [3]float64{12.9, 12.7, 12.4}, 6.8, 1.0, 4930, 1980, 3800, 3000, 1080, 50},
		"osb-4": {[3]float64{24.5, 23, 21}, [3]float64{13, 12.2, 11.4}, [3]float64{11.9, 11.4, 10.9}, [3]float64{8.5, 8.2, 8.0},
			[3]float64{18.1, 17.6, 17}, [3]float64{14.3, 14, 13.7}, 6.9, 1.1, 6780, 2680, 4300, 3200, 1090, 60},
	} {
		s, _ := c.Sheet(key)
		for i, thickness := range [][]float64{{6, 8, 10}, {10.01, 15, 18}, {18.01, 22, 25}} {
			for _, th := range thickness {
				got := s.At(th)
				pairs := [][2]float64{{got.FBendAlong, w.fm0[i]}, {got.FBendAcross, w.fm90[i]}, {got.FTensAlong, w.ft0[i]}, {got.FTensAcross, w.ft90[i]},
					{got.FCompAlong, w.fc0[i]}, {got.FCompAcross, w.fc90[i]}, {got.FEdgeShear, w.fv}, {got.FRolling, w.fr},
					{got.EBendAlong, w.em0}, {got.EBendAcross, w.em90}, {got.EAlong, w.e0}, {got.EAcross, w.e90}, {got.GEdge, w.g}, {got.GRolling, w.r}}
				for k, p := range pairs {
					if p[0] != p[1] {
						t.Errorf("%s at %g mm, figure %d = %g; want %g", key, th, k, p[0], p[1])
					}
				}
			}
		}
		// The 5 % stiffness of EN 12369-1 is 0.85 of the mean.
		near(t, key+" 5 % stiffness share", Characteristic(1, s.CVE), 0.85, 0.001)
	}
}

// Figures of single boards; the source stands beside each.
func TestSpotFigures(t *testing.T) {
	t.Parallel()
	c := shipped(t)
	// Wood Handbook FPL-GTR-282 Table 12-2: plywood sheathing, means.
	for key, w := range map[string]struct{ sg, e, mor, rail, line, plies float64 }{
		"softwood-sheathing": {.53, 7450, 41.4, 3.8, 1.4, 5}, // Douglas-fir
		"softwood-sanded":    {.57, 7700, 37.1, 5.5, 1.6, 5}, // Southern pine
		"tropical-3ply":      {.44, 7430, 33.7, 4.3, 1.3, 3}, // lauan
		"tropical-plywood":   {.44, 7430, 33.7, 4.3, 1.3, 5}, // lauan
	} {
		s, _ := c.Sheet(key)
		near(t, key+" density", s.Density, 1080*w.sg, 0.5)
		_, _, bend, _ := Layup(s.EPlyAlong, s.EPlyAcross, plies(int(w.plies), 1))
		near(t, key+" bending E of the sheet tested", bend, w.e, 1)
		near(t, key+" bending", s.FBendAlong, Characteristic(w.mor, 0.2), 1e-9)
		near(t, key+" rail shear", s.FEdgeShear, Characteristic(w.rail, 0.14), 1e-9)
		near(t, key+" glue-line shear", s.FRolling, Characteristic(w.line, 0.2), 1e-9)
		near(t, key+" swell", s.SwellAlong, 0.0015/12, 1e-12) // 0.15 % from 30 to 90 % humidity - from memory
	}
	for _, w := range []struct {
		key, field string
		at, want   float64
		source     string
	}{
		{"softwood-sheathing", "gEdge", 15, (586 + 758) / 2.0, "data sheet on sheathing-grade plywood: edgewise G 586-758"},
		{"softwood-sheathing", "gRolling", 15, 138, "data sheet on sheathing-grade plywood: planar G 138-207"},
		{"softwood-sheathing", "fTensAlong", 15, Characteristic(27.6, 0.2), "data sheet: tension 27.6-34.5"},
		{"softwood-sheathing", "fCompAlong", 15, Characteristic(31.0, 0.2), "data sheet: compression 31.0-41.4"},
		{"softwood-sheathing", "fBearing", 15, Characteristic(5.5, 0.28), "GTR-282 Table 5-3a, Douglas-fir"},
		{"birch-plywood", "density", 18, 680, "Finnish birch plywood - from memory"},
		{"birch-plywood", "gEdge", 18, 620, "Finnish birch plywood - from memory"},
		{"birch-plywood", "fEdgeShear", 18, 9.5, "Finnish birch plywood - from memory"},
		{"birch-plywood", "fBendAlong", 17.6, 40.2, "Finnish birch plywood, 18 mm - from memory"},
		{"birch-plywood", "fBendAcross", 17.6, 34.1, "Finnish birch plywood, 18 mm - from memory"},
		{"birch-plywood", "fBendAcross", 3.6, 10.6, "Finnish birch plywood, 4 mm - from memory"},
		{"mdf", "eBendAlong", 18, 3000, "EN 12369-1 MDF.LA - from memory"},
		{"mdf", "eAlong", 18, 2700, "EN 12369-1 MDF.LA - from memory"},
		{"mdf", "gEdge", 18, 800, "EN 12369-1 MDF.LA - from memory"},
		{"mdf", "fBendAlong", 18, 21, "EN 12369-1 MDF.LA - from memory"},
		{"mdf", "fTensAlong", 18, 12.5, "EN 12369-1 MDF.LA - from memory"},
		{"mdf", "fEdgeShear", 18, 6.5, "EN 12369-1 MDF.LA - from memory"},
		{"mdf", "fRolling", 18, Characteristic(0.71, 0.15), "GTR-282 Table 12-6: internal bond from .71"},
		{"particleboard-p4", "fBendAlong", 18, 12.5, "EN 12369-1 P4 - from memory"},
		{"particleboard-p4", "fTensAcross", 18, 7.9, "EN 12369-1 P4 - from memory"},
		{"particleboard-p4", "fCompAlong", 18, 11.1, "EN 12369-1 P4 - from memory"},
		{"particleboard-p4", "fEdgeShear", 18, 6.1, "EN 12369-1 P4 - from memory"},
		{"particleboard-p4", "fRolling", 18, 1.6, "EN 12369-1 P4 - from memory"},
		{"particleboard-p4", "eBendAcross", 18, 2900, "EN 12369-1 P4 - from memory"},
		{"particleboard-p4", "eAlong", 18, 1700, "EN 12369-1 P4 - from memory"},
		{"particleboard-p4", "gEdge", 18, 830, "EN 12369-1 P4 - from memory"},
		{"particleboard-p5", "fBendAlong", 18, 13.3, "EN 12369-1 P5 - from memory"},
		{"particleboard-p5", "eAcross", 18, 1900, "EN 12369-1 P5 - from memory"},
		{"particleboard-p5", "fBendAlong", 22, 11.7, "EN 12369-1 P5, over 20 mm - from memory"},
		{"particleboard-p5", "fTensAlong", 22, 7.4, "EN 12369-1 P5, over 20 mm - from memory"},
		{"particleboard-p5", "eBendAlong", 22, 3000, "EN 12369-1 P5, over 20 mm - from memory"},
		{"particleboard-p5", "gEdge", 22, 860, "EN 12369-1 P5, over 20 mm - from memory"},
		{"particleboard", "eBendAlong", 18, (2800 + 4000) / 2.0, "GTR-282 Table 12-4: bending E 2.8-4.0 GPa"},
		{"particleboard", "fBendAlong", 18, Characteristic((15.2+22.8)/2, 0.15), "GTR-282 Table 12-4"},
		{"hardboard", "eBendAlong", 3.2, (3230 + 4360) / 2.0, "GTR-282 Table 12-5, 1/8 in standard"},
		{"hardboard", "fTensAlong", 3.2, Characteristic((23.2+37.6)/2, 0.15), "GTR-282 Table 12-5, 1/8 in standard"},
		{"hardboard-tempered", "eBendAlong", 6, (5140 + 5300) / 2.0, "GTR-282 Table 12-5, 1/4 in tempered"},
		{"hardboard-tempered", "fBendAlong", 6, Characteristic((53+56)/2.0, 0.15), "GTR-282 Table 12-5, 1/4 in tempered"},
		{"lvl", "eAlong", 39, 13800, "LVL Handbook Europe 2025, beam example"},
		{"lvl", "gEdge", 39, 600, "LVL Handbook Europe 2025, beam example"},
		{"osb-3", "fBearing", 11, 2.5, "EN 338 C24, f_c,90"},
	} {
		s, ok := c.Sheet(w.key)
		f, known := fieldNamed(w.field)
		if !ok || !known {
			t.Fatalf("no %s of %s", w.field, w.key)
		}
		at := s.At(w.at)
		near(t, w.key+" "+w.field+" ("+w.source+")", *f.of(&at), w.want, 1e-9*w.want)
	}
}

// Wood Handbook FPL-GTR-282 Figs 11-6 and 11-9: thickness printed in grade stamps.
func TestStampedThicknesses(t *testing.T) {
	t.Parallel()
	s, _ := shipped(t).Sheet("softwood-sheathing")
	for nominal, inches := range map[string]float64{
		"1/2 in (15/32 category)": 0.438, "5/8 in (19/32 category)": 0.563, "3/4 in (23/32 category)": 0.703,
	} {
		found := false
		for _, th := range s.Thicknesses {
			if th.Nominal == nominal {
				found = true
				near(t, nominal, th.Actual, 25.4*inches, 0.006)
			}
		}
		if !found {
			t.Errorf("no %s", nominal)
		}
	}
}

// EN 1995-1-1 Tables 3.1, 3.2, 2.3 and 9.1. kmod as seen in stored copies that
// agree, but OSB in service class 1 and kdef of all but solid wood, LVL and
// plywood from memory. Copies in circulation have 0.75 for long-term solid wood
// in class 2 and 1 for the blank cells of MDF: both are wrong.
func TestKinds(t *testing.T) {
	t.Parallel()
	wood := [5]float64{.6, .7, .8, .9, 1.1}
	dry, damp := [5]float64{.3, .45, .65, .85, 1.1}, [5]float64{.2, .3, .45, .6, .8}
	mdf := [5]float64{.2, .4, .6, .8, 1.1}
	c := shipped(t)
	want := map[string]Kind{
		"solid":            {KMod: [2][5]float64{wood, wood}, KDef: [2]float64{.6, .8}, GammaM: 1.3, NotchFactor: true, KN: 5, ShearLagSpan: .1, BuckleAlong: 20, BuckleAcross: 25},
		"lvl":              {KMod: [2][5]float64{wood, wood}, KDef: [2]float64{.6, .8}, GammaM: 1.2, NotchFactor: true, KN: 4.5, ShearLagSpan: .1, BuckleAlong: 20, BuckleAcross: 25},
		"plywood":          {KMod: [2][5]float64{wood, wood}, KDef: [2]float64{.8, 1}, GammaM: 1.2, KN: 4.5, ShearLagSpan: .1, BuckleAlong: 20, BuckleAcross: 25},
		"osb":              {KMod: [2][5]float64{{.4, .5, .7, .9, 1.1}, {.3, .4, .55, .7, .9}}, KDef: [2]float64{1.5, 2.25}, GammaM: 1.2, NotchFactor: true, KN: 4.5, ShearLagSpan: .15, BuckleAlong: 25, BuckleAcross: 25},
		"particleboard-p4": {KMod: [2][5]float64{dry, {}}, KDef: [2]float64{2.25, 0}, GammaM: 1.3, NotchFactor: true, KN: 4.5, ShearLagSpan: .2, BuckleAlong: 30, BuckleAcross: 30},
		"particleboard-p5": {KMod: [2][5]float64{dry, damp}, KDef: [2]float64{2.25, 3}, GammaM: 1.3, NotchFactor: true, KN: 4.5, ShearLagSpan: .2, BuckleAlong: 30, BuckleAcross: 30},
		"hardboard":        {KMod: [2][5]float64{dry, {}}, KDef: [2]float64{2.25, 0}, GammaM: 1.3, NotchFactor: true, KN: 4.5, ShearLagSpan: .2, BuckleAlong: 30, BuckleAcross: 30},
		"hardboard-hla":    {KMod: [2][5]float64{dry, damp}, KDef: [2]float64{2.25, 3}, GammaM: 1.3, NotchFactor: true, KN: 4.5, ShearLagSpan: .2, BuckleAlong: 30, BuckleAcross: 30},
		"mdf":              {KMod: [2][5]float64{mdf, {}}, KDef: [2]float64{2.25, 0}, GammaM: 1.3, NotchFactor: true, KN: 4.5, ShearLagSpan: .2, BuckleAlong: 30, BuckleAcross: 30},
		"mdf-hls":          {KMod: [2][5]float64{mdf, {0, 0, 0, .45, .8}}, KDef: [2]float64{2.25, 3}, GammaM: 1.3, NotchFactor: true, KN: 4.5, ShearLagSpan: .2, BuckleAlong: 30, BuckleAcross: 30},
	}
	if len(c.Kinds) != len(want) {
		t.Errorf("%d kinds; want %d", len(c.Kinds), len(want))
	}
	for key, w := range want {
		got, ok := c.Kind(key)
		if !ok || got.Name == "" || got.Source == "" {
			t.Errorf("no %s, or it has no name or source", key)
		}
		got.Key, got.Name, got.Source, got.Sources = "", "", "", nil
		if !reflect.DeepEqual(got, w) {
			t.Errorf("%s:\n%+v; want\n%+v", key, got, w)
		}
	}
}
