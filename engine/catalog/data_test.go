package catalog

import (
	"encoding/json"
	"math"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// shipped returns the catalogue as it ships.
func shipped(t testing.TB) *Catalog {
	t.Helper()
	c, err := Parse(os.DirFS("../../resources"))
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// all returns sheet goods and woods together.
func (c *Catalog) all() []Sheet { return append(slices.Clone(c.Sheets), c.Woods...) }

func TestShippedCounts(t *testing.T) {
	t.Parallel()
	c := shipped(t)
	if len(c.Sheets) < 14 || len(c.Woods) < 10 || len(c.Glues) < 7 {
		t.Errorf("%d sheets, %d woods, %d glues; want at least 14, 10, 7", len(c.Sheets), len(c.Woods), len(c.Glues))
	}
	for i := 1; i < len(c.Sheets); i++ {
		if c.Sheets[i-1].Key >= c.Sheets[i].Key {
			t.Errorf("%s stands before %s", c.Sheets[i-1].Key, c.Sheets[i].Key)
		}
	}
	again := shipped(t)
	if !reflect.DeepEqual(c, again) {
		t.Error("read twice, the catalogue differs")
	}
	for _, s := range c.all() {
		if got, ok := c.Sheet(s.Key); !ok || got.Name != s.Name {
			t.Errorf("Sheet(%q) = %q, %v", s.Key, got.Name, ok)
		}
		if _, ok := c.Kind(s.Kind); !ok {
			t.Errorf("%s: no kind %q", s.Key, s.Kind)
		}
		if s.Solid != (s.Kind == "solid") {
			t.Errorf("%s: solid %v of kind %s", s.Key, s.Solid, s.Kind)
		}
	}
	for _, g := range c.Glues {
		if got, ok := c.Glue(g.Key); !ok || got.Name != g.Name {
			t.Errorf("Glue(%q) = %q, %v", g.Key, got.Name, ok)
		}
	}
	for _, key := range []string{"", "zzz", "Mdf", "mdf "} {
		if s, ok := c.Sheet(key); ok {
			t.Errorf("Sheet(%q) found %s", key, s.Key)
		}
		if _, ok := c.Glue(key); ok {
			t.Errorf("Glue(%q) found", key)
		}
	}
}

// traced says whether a source names where a figure comes from.
func traced(source string) bool {
	for _, s := range []string{"Wood Handbook", "EN 12369-1:2001", "EN 1995-1-1", "from memory", "common practice, no source",
		"derived", "data sheet", "LVL Handbook Europe", "Design of timber structures"} {
		if strings.Contains(source, s) {
			return true
		}
	}
	return false
}

func TestEveryFigureHasASource(t *testing.T) {
	t.Parallel()
	c := shipped(t)
	for _, s := range c.all() {
		for _, f := range sheetFields {
			if *f.of(&s) != 0 && !traced(s.Sources[f.name]) {
				t.Errorf("%s %s: source %q", s.Key, f.name, s.Sources[f.name])
			}
		}
		steps := 0
		for _, st := range s.Steps {
			steps += len(st.Values)
		}
		stepped := 0
		for name, source := range s.Sources {
			if strings.Contains(name, " above ") {
				stepped++
			}
			if !traced(source) {
				t.Errorf("%s %s: source %q", s.Key, name, source)
			}
		}
		if steps != stepped {
			t.Errorf("%s: %d figures in steps, %d sources", s.Key, steps, stepped)
		}
		for _, th := range s.Thicknesses {
			if !traced(th.Source) {
				t.Errorf("%s %s: source %q", s.Key, th.Nominal, th.Source)
			}
		}
	}
	for _, g := range c.Glues {
		if len(g.Sources) != len(glueFields)+1 {
			t.Errorf("%s: %d sources; want %d", g.Key, len(g.Sources), len(glueFields)+1)
		}
		for name, source := range g.Sources {
			if !traced(source) {
				t.Errorf("%s %s: source %q", g.Key, name, source)
			}
		}
	}
	for _, k := range c.Kinds {
		for name, source := range k.Sources {
			if !traced(source) || !strings.Contains(k.Source, source) {
				t.Errorf("%s %s: source %q", k.Key, name, source)
			}
		}
	}
}

// Ranges that catch a slipped digit or a mixed-up unit: common practice, no source.
func TestShippedFiguresAreOfTheRightSize(t *testing.T) {
	t.Parallel()
	between := func(s Sheet, what string, v, low, high float64) {
		t.Helper()
		if !(v >= low && v <= high) {
			t.Errorf("%s %s = %g; want %g to %g", s.Key, what, v, low, high)
		}
	}
	for _, s := range shipped(t).all() {
		if faults := s.Validate(); len(faults) > 0 {
			t.Errorf("%s: %v", s.Key, faults)
		}
		between(s, "density", s.Density, 300, 1200)
		between(s, "E along", s.EAlong, 1000, 20000)
		between(s, "E across", s.EAcross, s.EAlong/40, s.EAlong)
		between(s, "bending E along", s.EBendAlong, 1000, 20000)
		between(s, "bending E across", s.EBendAcross, s.EBendAlong/40, s.EBendAlong)
		between(s, "edge G", s.GEdge, s.EAlong/25, s.EAlong/2)
		between(s, "rolling G", s.GRolling, 30, s.GEdge)
		between(s, "nu", s.Nu, 0.02, 0.5)
		between(s, "bending strength along", s.FBendAlong, s.EBendAlong/500, s.EBendAlong/100)
		between(s, "bending strength across", s.FBendAcross, 0.3, s.FBendAlong)
		between(s, "tension along", s.FTensAlong, 5, 90)
		between(s, "tension across", s.FTensAcross, 0.3, s.FTensAlong)
		between(s, "compression along", s.FCompAlong, 5, 60)
		between(s, "compression across", s.FCompAcross, 1.5, s.FCompAlong)
		between(s, "edge shear", s.FEdgeShear, 2, 20)
		between(s, "rolling shear", s.FRolling, 0.3, s.FEdgeShear/2)
		between(s, "bearing", s.FBearing, 1.5, 12)
		between(s, "cv E", s.CVE, 0.05, 0.25)
		between(s, "cv strength", s.CVStrength, 0.1, 0.25)
		between(s, "cv density", s.CVDensity, 0.03, 0.15)
		between(s, "swell along", s.SwellAlong, 5e-5, 5e-4)
		between(s, "swell across", s.SwellAcross, s.SwellAlong, 5e-3)
		imperial, metric := 0, 0
		for i, th := range s.Thicknesses {
			if th.Imperial {
				imperial++
			} else {
				metric++
			}
			between(s, "thickness "+th.Nominal, th.Actual, 2, 50)
			if i > 0 && th.Actual < s.Thicknesses[i-1].Actual {
				t.Errorf("%s: thicknesses out of order at %s", s.Key, th.Nominal)
			}
			if th.Imperial != strings.Contains(th.Nominal, " in") || th.Imperial == strings.Contains(th.Nominal, " mm") {
				t.Errorf("%s: %s is said to be imperial: %v", s.Key, th.Nominal, th.Imperial)
			}
			if sum := 0.0; len(th.Layers) > 0 {
				for _, l := range th.Layers {
					sum += l
				}
				near(t, s.Key+" "+th.Nominal+" sum of plies", sum, th.Actual, 0.05)
			}
			at := s.At(th.Actual)
			if at.EAlong < at.EAcross || at.EBendAlong < at.EBendAcross || at.FBendAlong < at.FBendAcross {
				t.Errorf("%s %s is stiffer or stronger across than along", s.Key, th.Nominal)
			}
			if (th.Plies > 0) != (s.EPlyAlong > 0) || th.Plies%2 == 0 && th.Plies > 0 {
				t.Errorf("%s %s: %d plies of E %g", s.Key, th.Nominal, th.Plies, s.EPlyAlong)
			}
		}
		if imperial == 0 || metric == 0 {
			t.Errorf("%s: %d imperial and %d metric thicknesses; want both", s.Key, imperial, metric)
		}
	}
}

func TestShippedGlues(t *testing.T) {
	t.Parallel()
	for _, g := range shipped(t).Glues {
		for name, r := range map[string]struct {
			Range
			low, high float64
		}{
			"spread": {g.Spread, 100, 300}, "open": {g.OpenTime, 3, 90}, "closed": {g.ClosedTime, 5, 90},
			"clamp": {g.ClampTime, 20, 1440}, "cure": {g.CureTime, 1440, 14400}, "pressure": {g.Pressure, 0.04, 2},
		} {
			if !(r.Low >= r.low && r.Low <= r.High && r.High <= r.high) {
				t.Errorf("%s %s = %v; want within %g to %g", g.Key, name, r.Range, r.low, r.high)
			}
		}
		if g.ClampTime.Low >= g.CureTime.Low {
			t.Errorf("%s: clamped for %g min, cured after %g", g.Key, g.ClampTime.Low, g.CureTime.Low)
		}
		if g.MinTemp < 4 || g.MaxTemp > 40 || g.Density < 1 || g.Density > 1.4 || g.Strength < 4 || g.Strength > 10 {
			t.Errorf("%s: %g to %g °C, %g g/ml, %g MPa", g.Key, g.MinTemp, g.MaxTemp, g.Density, g.Strength)
		}
	}
}

// Practice values - from memory; pressure 0.7 MPa on light to 1.7 MPa on the
// densest wood, Wood Handbook FPL-GTR-282 ch. 10. Typed again, apart from the data.
func TestShippedGlueFigures(t *testing.T) {
	t.Parallel()
	type figures struct {
		spread, open, closed, clamp, cure Range
		cold, warm                        float64
		pressure                          Range
		density                           float64
		halves                            bool
	}
	full, day := Range{0.7, 1.7}, Range{1440, 1440}
	want := map[string]figures{
		"pva":               {Range{150, 200}, Range{5, 10}, Range{10, 15}, Range{30, 60}, day, 8, 30, Range{0.2, 0.8}, 1.1, false},
		"aliphatic":         {Range{150, 250}, Range{5, 10}, Range{10, 15}, Range{30, 60}, day, 7, 30, full, 1.1, false},
		"pva-d3":            {Range{150, 200}, Range{4, 8}, Range{8, 12}, Range{45, 90}, day, 10, 30, full, 1.1, false},
		"pva-d4":            {Range{150, 200}, Range{4, 8}, Range{8, 12}, Range{45, 90}, Range{7 * 1440, 7 * 1440}, 13, 30, full, 1.1, false},
		"urea-formaldehyde": {Range{150, 220}, Range{10, 20}, Range{20, 60}, Range{4 * 60, 12 * 60}, Range{1440, 7 * 1440}, 15, 30, full, 1.3, true},
		"polyurethane":      {Range{100, 180}, Range{15, 40}, Range{15, 40}, Range{60, 4 * 60}, day, 5, 30, Range{0.6, 1.0}, 1.12, true},
		"epoxy":             {Range{150, 300}, Range{20, 60}, Range{20, 60}, Range{6 * 60, 12 * 60}, Range{3 * 1440, 7 * 1440}, 12, 30, Range{0.05, 0.15}, 1.12, true},
		"casein":            {Range{200, 300}, Range{10, 20}, Range{15, 30}, Range{4 * 60, 8 * 60}, Range{1440, 3 * 1440}, 5, 30, full, 1.15, false},
	}
	c := shipped(t)
	if len(c.Glues) != len(want) {
		t.Errorf("%d glues; want %d", len(c.Glues), len(want))
	}
	for key, w := range want {
		g, _ := c.Glue(key)
		got := figures{g.Spread, g.OpenTime, g.ClosedTime, g.ClampTime, g.CureTime, g.MinTemp, g.MaxTemp, g.Pressure, g.Density, g.HalvesPer10}
		if got != w {
			t.Errorf("%s: %v; want %v", key, got, w)
		}
		// Dry threshold of EN 204 and EN 12765, 10 MPa, taken as a mean - from memory.
		near(t, key+" strength", g.Strength, Characteristic(10, 0.2), 1e-9)
	}
}

// Words that the program does not use of a material or a glue.
func TestShippedTextPromisesNothing(t *testing.T) {
	t.Parallel()
	for _, file := range []string{"materials.csv", "woods.csv", "thicknesses.csv", "kinds.csv", "glues.csv"} {
		data, err := os.ReadFile("../../resources/" + file)
		if err != nil {
			t.Fatal(err)
		}
		for _, word := range []string{"safe", "guarantee", "\t", "\r", "  "} {
			if i := strings.Index(strings.ToLower(string(data)), word); i >= 0 {
				t.Errorf("%s has %q at byte %d", file, word, i)
			}
		}
	}
}

// The list of fields and the type must not drift apart: each float64 of Sheet
// is in the list once, under its JSON name.
func TestFieldsAreAllOfSheet(t *testing.T) {
	t.Parallel()
	var s Sheet
	v := reflect.ValueOf(&s).Elem()
	n := 0
	for i := range v.NumField() {
		if v.Field(i).Kind() != reflect.Float64 {
			continue
		}
		name, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ",")
		if n >= len(sheetFields) || sheetFields[n].name != name || sheetFields[n].of(&s) != v.Field(i).Addr().Interface().(*float64) {
			t.Fatalf("field %d of the list is not %s", n, name)
		}
		n++
	}
	if n != len(sheetFields) {
		t.Errorf("%d fields listed; Sheet has %d", len(sheetFields), n)
	}
}

func TestSheetThroughJSON(t *testing.T) {
	t.Parallel()
	for _, s := range shipped(t).all() {
		data, err := json.Marshal(s)
		if err != nil {
			t.Fatal(err)
		}
		var back Sheet
		if err := json.Unmarshal(data, &back); err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(s, back) {
			t.Errorf("%s came back changed", s.Key)
		}
	}
}

// The lay-up ratios in the data were worked out for equal plies of E across 1/30
// of E along; here they are worked out again from Layup. The strength of a ply is
// reached at the outermost ply that runs in the direction of the stress: at h/2
// along, at (n-2)/n·h/2 across.
func TestLayupRatiosInData(t *testing.T) {
	t.Parallel()
	c := shipped(t)
	for _, key := range []string{"softwood-sheathing", "softwood-sanded", "tropical-3ply", "tropical-plywood", "hardwood-plywood", "poplar-plywood"} {
		s, ok := c.Sheet(key)
		if !ok {
			t.Fatalf("no %s", key)
		}
		for _, th := range s.Thicknesses {
			n := float64(min(th.Plies, 5)) // the data go no further than five
			a, b, d, e := Layup(1, 1.0/30, plies(int(n), 1))
			at := s.At(th.Actual)
			near(t, key+" "+th.Nominal+" bending", at.FBendAcross/at.FBendAlong, e/d*n/(n-2), 6e-4)
			near(t, key+" "+th.Nominal+" tension", at.FTensAcross/at.FTensAlong, b/a, 6e-4)
			near(t, key+" "+th.Nominal+" compression", at.FCompAcross/at.FCompAlong, b/a, 6e-4)
		}
		near(t, key+" ply ratio", s.EPlyAcross/s.EPlyAlong, 1.0/30, 5e-5)
		mid := s.At(s.Thicknesses[len(s.Thicknesses)/2].Actual)
		if math.Abs(mid.EAlong-s.EAlong) > 1e-9 {
			t.Errorf("%s: %g along; its middle thickness has %g", key, s.EAlong, mid.EAlong)
		}
	}
}
