package engine

import (
	"fmt"
	"math"
	"reflect"
	"strconv"

	"flatwright/engine/catalog"
)

// Bounds of what is computed. They keep typing slips and numbers that would
// overflow out and say nothing about what is sensible. Common practice, no
// source, all of them.
const (
	minSize      = 100.0    // length and width of a panel, mm
	maxSize      = 10_000.0 // the same
	maxHeight    = 3_000.0  // of the working surface, mm
	minSkin      = 1.0      // thickness of a skin, mm
	maxSkin      = 60.0
	minCoreDepth = 10.0 // mm
	maxCoreDepth = 600.0
	minRib       = 1.0 // thickness of a rib, mm
	maxRib       = 100.0
	minRibs      = 2 // of each set
	maxRibs      = 60
	maxThickest  = 2.0  // thickest reading over the mean: more is a slip
	bandShare    = 0.25 // thickness of an edge band over the shorter side
	maxCases     = 40   // load cases
	maxLoads     = 40   // loads of one case
	maxBuilt     = 100  // marks of what was made otherwise
	maxMeasured  = 200  // readings of ribs
	maxRise      = 15   // moisture, percentage points: from bone dry to wet
	maxSeams     = 40   // of both skins
	maxBlocks    = (maxRibs - 1) * (maxRibs - 1)
	maxListed    = 1000      // prices, and materials of the design's own
	maxForce     = 1_000_000 // of one load, N: about 100 t
	maxPeople    = 20
	minShop      = -30.0 // temperature, °C
	maxShop      = 60.0
	maxMoney     = 1e12
)

// Wood that must be left for a joint to hold together while it is handled, mm.
// Common practice, no source.
const (
	minTooth  = 8.0 // between two slots of a rib
	minLedge  = 3.0 // above or below a slot
	looseSlot = 1.0 // clearance above which a slot no longer guides its rib
)

// nearly absorbs rounding in comparisons of lengths, mm.
const nearly = 1e-6

// Validate returns what keeps the design from being computed (Blocking) and
// what is worth knowing before it is (Shortfall, Advice), in the order of the
// design's fields. materials and glues look up the catalogue; the design's own
// materials come first. It takes any design at all.
//
// A problem that follows from another is not told: ribs are not laid out in a
// panel that has no width. If any number is not finite, only that is told.
func Validate(d Design, materials func(key string) (catalog.Sheet, bool), glues func(key string) (catalog.Glue, bool)) []Problem {
	r := &review{d: &d, materials: materials, glues: glues}
	own := d.Own
	d.Own = nil // catalog checks those itself, with better words
	r.finite("", reflect.ValueOf(d))
	d.Own = own
	if len(r.problems) > 0 {
		return r.problems
	}
	sized := r.size()
	r.skin("topSkin", "top skin", d.TopSkin)
	r.skin("bottomSkin", "bottom skin", d.BottomSkin)
	core := r.between("core-depth", "coreDepth", "The core depth", d.CoreDepth, minCoreDepth, maxCoreDepth,
		"A twentieth of the length is a good first guess.")
	lengthwise := r.ribs("lengthwise", d.Lengthwise)
	crosswise := r.ribs("crosswise", d.Crosswise)
	slots := r.slots(core)
	if r.band(sized) && sized {
		tb := math.Max(d.EdgeBand.Thickness, 0)
		if lengthwise {
			r.layout(ribLayout{"lengthwise", "L", "width", d.Lengthwise, tb, d.Width - tb, slots})
		}
		if crosswise {
			r.layout(ribLayout{"crosswise", "C", "length", d.Crosswise, tb, d.Length - tb, slots})
		}
	}
	r.seams(sized)
	r.blocks(lengthwise && crosswise)
	r.splices()
	r.holes()
	r.grooves()
	r.built(sized && core && lengthwise && crosswise)
	r.measured(core && lengthwise && crosswise)
	r.tools()
	r.supports(sized)
	r.cases(sized, lengthwise && crosswise)
	r.limits()
	r.glue()
	r.shop()
	r.air()
	r.prices()
	r.stock()
	r.cutting()
	r.log()
	r.own()
	r.surveys()
	r.proof()
	r.glueUp()
	return r.problems
}

// review gathers the problems of one design.
type review struct {
	d         *Design
	materials func(string) (catalog.Sheet, bool)
	glues     func(string) (catalog.Glue, bool)
	problems  []Problem
}

func (r *review) add(severity Severity, code, field, format string, args ...any) {
	r.problems = append(r.problems, Problem{Code: code, Severity: severity, Field: field, Text: fmt.Sprintf(format, args...)})
}

func (r *review) block(code, field, format string, args ...any) {
	r.add(Blocking, code, field, format, args...)
}

// finite finds every number that is not one.
func (r *review) finite(path string, v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			r.block("not-finite", path, "There is no figure here that can be computed with (%v). Type a number.", f)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if key, _ := keyOf(v.Type().Field(i)); key != "" {
				r.finite(join(path, key), v.Field(i))
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			r.finite(fmt.Sprintf("%s[%d]", path, i), v.Index(i))
		}
	}
}

// between reports whether a length is within bounds, and a problem with code
// if not. subject begins the sentence, help ends it.
func (r *review) between(code, field, subject string, v, low, high float64, help string) bool {
	switch {
	case v <= 0:
		r.block(code, field, "%s is %s, but must be more than 0. %s", subject, inMM(v), help)
	case v < low:
		r.block(code, field, "%s is %s, under the %s that can be computed. %s", subject, inMM(v), inMM(low), help)
	case v > high:
		r.block(code, field, "%s is %s, over the %s that can be computed. %s", subject, inMM(v), inMM(high), help)
	default:
		return true
	}
	return false
}

// inMM prints a length, to a hundredth of a millimetre.
func inMM(v float64) string { return plainNumber(v) + " mm" }

// plainNumber prints a number with up to two decimals.
func plainNumber(v float64) string {
	if math.Abs(v) >= 1e7 || v != 0 && math.Abs(v) < 0.005 {
		return strconv.FormatFloat(v, 'g', 3, 64)
	}
	return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64)
}

func (r *review) size() bool {
	const help = "Check the figure and its unit."
	length := r.between("panel-length", "length", "The length", r.d.Length, minSize, maxSize, help)
	width := r.between("panel-width", "width", "The width", r.d.Width, minSize, maxSize, help)
	if h := r.d.Height; h < 0 || h > maxHeight {
		r.block("panel-height", "height", "The working surface cannot stand %s above the floor; up to %s can be entered. Leave it empty if it does not matter.",
			inMM(h), inMM(maxHeight))
	}
	return length && width
}

// skin checks a skin; name is what the texts call it.
func (r *review) skin(path, name string, s Skin) {
	sheet, known := r.sheet(path, "the "+name, s.Material)
	ok := r.between("skin-thickness", path+".thickness", "The "+name, s.Thickness, minSkin, maxSkin, "Measure the sheet and type its mean thickness.")
	if known && ok {
		r.listed(path, s.Thickness, sheet)
	}
}

// material looks a material up and reports a problem if there is none. use is
// what it is for, as "the top skin".
func (r *review) material(path, use, key string) (catalog.Sheet, bool) {
	field := path + ".material"
	if key == "" {
		r.block("material-missing", field, "No material is picked for %s. Pick one from the list.", use)
		return catalog.Sheet{}, false
	}
	for _, s := range r.d.Own {
		if s.Key == key {
			return s, true
		}
	}
	s, ok := r.materials(key)
	if !ok {
		r.block("material-unknown", field, "Nothing is known about “%s”, the material of %s. Pick another one, or add it to the design's own materials.", key, use)
	}
	return s, ok
}

// sheet is material for a part that must be sheet goods.
func (r *review) sheet(path, use, key string) (catalog.Sheet, bool) {
	s, ok := r.material(path, use, key)
	if ok && s.Solid {
		r.block("material-solid", path+".material",
			"Solid wood such as “%s” shrinks across its grain and comes in narrow boards: %s needs sheet goods. Pick plywood or another sheet; solid wood suits edge bands and blocks.",
			s.Name, use)
		return s, false
	}
	return s, ok
}

// listed gives advice if a material is not sold in that thickness, give or
// take what EN 315 allows plywood (from memory): 0.4 mm and 3 % of it.
func (r *review) listed(path string, thickness float64, s catalog.Sheet) {
	if len(s.Thicknesses) == 0 {
		return
	}
	nearest := s.Thicknesses[0]
	for _, t := range s.Thicknesses {
		if math.Abs(t.Actual-thickness) < math.Abs(nearest.Actual-thickness) {
			nearest = t
		}
	}
	if !(math.Abs(nearest.Actual-thickness) <= 0.4+0.03*nearest.Actual) {
		sold := ""
		if nearest.Nominal != "" {
			sold = " (sold as " + nearest.Nominal + ")"
		}
		r.add(Advice, "thickness-not-sold", path+".thickness",
			"No sheet of %s is on the list of “%s”; the nearest measures %s%s. Measure the sheet, or pick that thickness.",
			inMM(thickness), s.Name, inMM(nearest.Actual), sold)
	}
}

// band reports whether the ribs can be laid out inside the edge band.
func (r *review) band(sized bool) bool {
	b := r.d.EdgeBand
	if b.Thickness == 0 {
		return true
	}
	if b.Thickness < 0 {
		r.block("band-thickness", "edgeBand.thickness", "An edge band cannot be %s thick. Type its thickness, or 0 for no band.", inMM(b.Thickness))
		return false
	}
	r.material("edgeBand", "the edge band", b.Material)
	if !sized {
		return false
	}
	if most := bandShare * math.Min(r.d.Length, r.d.Width); b.Thickness > most {
		r.block("band-thickness", "edgeBand.thickness",
			"The edge band is %s thick, over a quarter of the panel's shorter side (%s). A band of 20 mm does its work.", inMM(b.Thickness), inMM(most))
		return false
	}
	return true
}

// own checks the materials that the design carries.
func (r *review) own() {
	if n := len(r.d.Own); n > maxListed {
		r.block("too-many-materials", "materials", "The design carries %d materials of its own; up to %d can be computed. Remove those it does not use.", n, maxListed)
		return
	}
	seen := map[string]int{}
	for i, s := range r.d.Own {
		path := fmt.Sprintf("materials[%d]", i)
		name := s.Name
		if name == "" {
			name = fmt.Sprintf("number %d of the design's own materials", i+1)
		}
		for _, fault := range s.Validate() {
			r.block("own-material", path+"."+fault.Field, "%s Correct it in “%s”.", fault.Text, name)
		}
		if first, twice := seen[s.Key]; twice && s.Key != "" {
			r.block("own-material-twice", path+".key", "Two of the design's own materials, number %d and number %d, have the key “%s”. Give one of them another key.",
				first+1, i+1, s.Key)
		} else {
			seen[s.Key] = i
		}
		if _, ok := Catalogue().Kind(s.Kind); !ok && s.Kind != "" {
			r.block("own-material-kind", path+".kind", "“%s” is not a kind of material with known creep and load duration. Pick the kind from the list for “%s”.", s.Kind, name)
		}
	}
}
