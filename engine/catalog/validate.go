package catalog

import (
	"fmt"
	"math"
)

// Fault is one thing wrong with a material: the field, by its JSON name, and a
// sentence for the person who typed it.
type Fault struct{ Field, Text string }

// Validate checks a material, ours or one that a user added, and returns what
// is wrong with it in the order of the fields; none if it can be computed with.
// It asks for figures that are finite, positive where nothing works without
// them, and below bounds that no material reaches; whether they are true it
// cannot know.
func (s Sheet) Validate() []Fault {
	var faults []Fault
	add := func(field, format string, args ...any) {
		faults = append(faults, Fault{field, fmt.Sprintf(format, args...)})
	}
	if s.Key == "" {
		add("key", "The material needs a key, a short word of its own.")
	}
	if s.Name == "" {
		add("name", "The material needs a name.")
	}
	if s.Kind == "" {
		add("kind", "Say what kind of material it is: creep and load duration follow from it.")
	}
	before := len(faults)
	for _, f := range sheetFields {
		if text := f.check(*f.of(&s)); text != "" {
			add(f.name, "%s", text)
		}
	}
	// A positive definite elastic law needs nu12·nu21 < 1.
	if len(faults) == before && !(s.Nu*s.Nu*s.EAcross < s.EAlong) {
		add("nu", "Poisson's ratio %g is too large for moduli of %g along and %g across: it must stay under %.3g.",
			s.Nu, s.EAlong, s.EAcross, math.Sqrt(s.EAlong/s.EAcross))
	}
	if (s.EPlyAlong > 0) != (s.EPlyAcross > 0) {
		add("ePlyAlong", "Give the modulus of a ply both along and across its grain, or neither.")
	}
	for i, step := range s.Steps {
		where := fmt.Sprintf("steps[%d]", i)
		if !(step.Above > 0) || math.IsInf(step.Above, 0) {
			add(where, "The thickness above which figures change must be more than 0 mm, not %g.", step.Above)
		}
		if i > 0 && !(step.Above > s.Steps[i-1].Above) {
			add(where, "The thicknesses above which figures change must rise from one to the next.")
		}
		faults = append(faults, step.faults(where)...)
	}
	for i, t := range s.Thicknesses {
		faults = append(faults, t.faults(fmt.Sprintf("thicknesses[%d]", i))...)
	}
	return faults
}

// check returns what is wrong with a figure, or nothing.
func (f field) check(v float64) string {
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return "This must be a number."
	case v < 0 || v == 0 && !f.zero:
		return fmt.Sprintf("This must be more than 0, not %g.", v)
	case v >= f.below:
		return fmt.Sprintf("%g %s is more than any material has; it must be under %g.", v, f.unit, f.below)
	}
	return ""
}

// faults checks the figures of one step; known fields come first, in order.
func (step Step) faults(where string) []Fault {
	var faults []Fault
	known := 0
	for _, f := range sheetFields {
		v, ok := step.Values[f.name]
		if !ok {
			continue
		}
		known++
		if text := f.check(v); text != "" {
			faults = append(faults, Fault{where + "." + f.name, text})
		}
	}
	if known < len(step.Values) {
		faults = append(faults, Fault{where, "It names a figure that materials do not have."})
	}
	return faults
}

// faults checks one thickness.
func (t Thickness) faults(where string) []Fault {
	var faults []Fault
	if !(t.Actual >= thinnest && t.Actual <= thickest) {
		faults = append(faults, Fault{where + ".actual", fmt.Sprintf("The thickness must be from %g to %g mm, not %g.", thinnest, thickest, t.Actual)})
	}
	if t.Plies < 0 || t.Plies > maxPlies {
		faults = append(faults, Fault{where + ".plies", fmt.Sprintf("The number of plies must be from 0 to %d, not %d.", maxPlies, t.Plies)})
	}
	if n := len(t.Layers); n > 0 && n != t.Plies {
		faults = append(faults, Fault{where + ".layers", fmt.Sprintf("There are %d plies, but thicknesses for %d.", t.Plies, n)})
	}
	for _, l := range t.Layers {
		if !(l >= thinnest && l <= thickest) {
			faults = append(faults, Fault{where + ".layers", fmt.Sprintf("Each ply must be from %g to %g mm thick, not %g.", thinnest, thickest, l)})
			break
		}
	}
	return faults
}

// Bounds far outside anything sold (common practice, no source): plies of one
// sheet, and the thickness of a sheet or a ply in mm.
const (
	maxPlies = 200
	thinnest = 0.01
	thickest = 1000.0
)
