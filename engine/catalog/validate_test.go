package catalog

import (
	"math"
	"strings"
	"testing"
)

// plain returns a material with nothing wrong; its figures are made up.
func plain() Sheet {
	s := Sheet{Key: "mine", Name: "My board", Kind: "mdf"}
	for _, f := range sheetFields {
		*f.of(&s) = 0.05
	}
	return s
}

func TestValidate(t *testing.T) {
	t.Parallel()
	if faults := plain().Validate(); len(faults) != 0 {
		t.Errorf("nothing is wrong, but: %v", faults)
	}
	inf := math.Inf(1)
	for _, c := range []struct {
		name   string
		change func(*Sheet)
		field  string
		words  string
	}{
		{"no key", func(s *Sheet) { s.Key = "" }, "key", "key"},
		{"no name", func(s *Sheet) { s.Name = "" }, "name", "name"},
		{"no kind", func(s *Sheet) { s.Kind = "" }, "kind", "creep"},
		{"zero density", func(s *Sheet) { s.Density = 0 }, "density", "more than 0"},
		{"negative E", func(s *Sheet) { s.EBendAcross = -3 }, "eBendAcross", "not -3"},
		{"NaN strength", func(s *Sheet) { s.FRolling = math.NaN() }, "fRolling", "a number"},
		{"infinite G", func(s *Sheet) { s.GEdge = inf }, "gEdge", "a number"},
		{"E in pascals", func(s *Sheet) { s.EAcross = 7e9 }, "eAcross", "under 1e+06"},
		{"cv in percent", func(s *Sheet) { s.CVE = 12 }, "cvE", "under 1"},
		{"swell in percent", func(s *Sheet) { s.SwellAcross = 0.25 }, "swellAcross", "under 0.1"},
		{"Poisson's ratio of no material", func(s *Sheet) { s.Nu = 1.01 }, "nu", "must stay under 1"},
		{"one ply modulus", func(s *Sheet) { s.EPlyAcross = 0 }, "ePlyAlong", "or neither"},
		{"step at 0", func(s *Sheet) { s.Steps = []Step{{}} }, "steps[0]", "more than 0 mm"},
		{"step at infinity", func(s *Sheet) { s.Steps = []Step{{Above: inf}} }, "steps[0]", "more than 0 mm"},
		{"steps that fall", func(s *Sheet) { s.Steps = []Step{{Above: 5}, {Above: 5}} }, "steps[1]", "rise"},
		{"step of no figure", func(s *Sheet) { s.Steps = []Step{{Above: 5, Values: map[string]float64{"hue": 1}}} }, "steps[0]", "do not have"},
		{"step to a bad figure", func(s *Sheet) { s.Steps = []Step{{Above: 5, Values: map[string]float64{"nu": -1}}} }, "steps[0].nu", "more than 0"},
		{"thickness NaN", func(s *Sheet) { s.Thicknesses = []Thickness{{Actual: 3}, {Actual: math.NaN()}} }, "thicknesses[1].actual", "from 0.01 to 1000 mm"},
		{"thickness infinite", func(s *Sheet) { s.Thicknesses = []Thickness{{Actual: inf}} }, "thicknesses[0].actual", "from 0.01 to 1000 mm"},
		{"thickness in metres", func(s *Sheet) { s.Thicknesses = []Thickness{{Actual: 0.009}} }, "thicknesses[0].actual", "from 0.01 to 1000 mm"},
		{"thickness in micrometres", func(s *Sheet) { s.Thicknesses = []Thickness{{Actual: 1001}} }, "thicknesses[0].actual", "not 1001"},
		{"plies below none", func(s *Sheet) { s.Thicknesses = []Thickness{{Actual: 3, Plies: -1}} }, "thicknesses[0].plies", "not -1"},
		{"plies without end", func(s *Sheet) { s.Thicknesses = []Thickness{{Actual: 3, Plies: 201}} }, "thicknesses[0].plies", "not 201"},
		{"layers of another count", func(s *Sheet) { s.Thicknesses = []Thickness{{Actual: 3, Plies: 3, Layers: []float64{1, 2}}} }, "thicknesses[0].layers", "thicknesses for 2"},
		{"layer of nothing", func(s *Sheet) { s.Thicknesses = []Thickness{{Actual: 3, Plies: 1, Layers: []float64{0}}} }, "thicknesses[0].layers", "Each ply"},
		{"layer infinite", func(s *Sheet) { s.Thicknesses = []Thickness{{Actual: 3, Plies: 1, Layers: []float64{inf}}} }, "thicknesses[0].layers", "Each ply"},
	} {
		s := plain()
		c.change(&s)
		faults := s.Validate()
		if len(faults) != 1 || faults[0].Field != c.field || !strings.Contains(faults[0].Text, c.words) {
			t.Errorf("%s: %v; want one fault at %s with %q", c.name, faults, c.field, c.words)
		}
		for _, f := range faults {
			if !strings.HasSuffix(f.Text, ".") {
				t.Errorf("%s: %q is no sentence", c.name, f.Text)
			}
		}
	}
}

// Every figure is checked, at its own name, for NaN, minus and too much.
func TestValidateEachFigure(t *testing.T) {
	t.Parallel()
	for _, f := range sheetFields {
		for _, bad := range []float64{math.NaN(), math.Inf(-1), -1e-9, f.below} {
			s := plain()
			*f.of(&s) = bad
			found := false
			for _, fault := range s.Validate() {
				found = found || fault.Field == f.name
			}
			if !found {
				t.Errorf("%s = %g passes", f.name, bad)
			}
		}
		// Just under the bound the figure itself is let through.
		s := plain()
		*f.of(&s) = math.Nextafter(f.below, 0)
		for _, fault := range s.Validate() {
			if fault.Field == f.name && f.name != "nu" {
				t.Errorf("%s = %g: %s", f.name, *f.of(&s), fault.Text)
			}
		}
		s = plain()
		*f.of(&s) = 0
		zeroPasses := true
		for _, fault := range s.Validate() {
			if fault.Field == f.name && strings.Contains(fault.Text, "more than 0") {
				zeroPasses = false
			}
		}
		if zeroPasses != f.zero {
			t.Errorf("%s = 0 passes: %v; want %v", f.name, zeroPasses, f.zero)
		}
	}
	if s := (Sheet{}); len(s.Validate()) < 15 {
		t.Error("an empty material has too few faults")
	}
}

// Which figures may be 0 is a matter of meaning, so it is listed here again.
func TestFiguresThatMayBeZero(t *testing.T) {
	t.Parallel()
	want := "nu cvE cvStrength cvDensity swellAlong swellAcross ePlyAlong ePlyAcross eThrough"
	var got []string
	for _, f := range sheetFields {
		if f.zero {
			got = append(got, f.name)
		}
	}
	if strings.Join(got, " ") != want {
		t.Errorf("%v; want %s", got, want)
	}
}
