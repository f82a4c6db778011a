package app

import (
	"math"
	"strconv"

	"flatwright/engine"
	"flatwright/engine/catalog"
	"flatwright/engine/length"
)

// stock points at the fields of a design that say what a part is cut from.
// thickest is nil where the design does not ask for it.
type stock struct {
	material  *string
	thickness *float64
	thickest  *float64
}

// stockSpec is what the lines of a piece of stock are about.
type stockSpec struct {
	root  string // JSON path of what is cut from it
	name  string // as Undo says it
	woods bool   // solid woods may be chosen too
	none  string // label of the choice of no such part, "" if there must be one
	at    func(*engine.Design) stock
}

// stockLines adds material, thickness as sold and actual thickness.
func (f *form) stockLines(b *builder, s stockSpec) {
	b.add(f.choice(spec{path: s.root + ".material", label: "Material", edit: s.name + " material",
		help: "What the sheet or the wood is. The figures of each are means of its kind with their sources; your own sheet may differ by a tenth and more."},
		func(snap Snapshot) []option { return materialOptions(snap.Design, s.woods, s.none) },
		func(d engine.Design) string {
			at := s.at(&d)
			if s.none != "" && *at.thickness == 0 {
				return noStock
			}
			return *at.material
		},
		func(d *engine.Design, key string) { chooseMaterial(*d, s.at(d), key) }))
	b.add(f.choice(spec{path: s.root + ".nominal", label: "Thickness as sold", edit: s.name + " thickness",
		help: "The name the thickness is sold by. The actual thickness below follows; measure your own sheets, they are mostly thinner than their name."},
		func(snap Snapshot) []option { return thicknessOptions(snap.Design, s.at(&snap.Design), snap.Lengths) },
		func(d engine.Design) string {
			at := s.at(&d)
			if *at.thickness <= 0 {
				return ""
			}
			return strconv.Itoa(nominalIndex(d, *at.material, *at.thickness))
		},
		func(d *engine.Design, key string) { chooseThickness(*d, s.at(d), key) }))
	b.add(f.value(spec{path: s.root + ".thickness", label: "Actual thickness", edit: s.name + " thickness",
		help: "Mean of several readings with calipers. It sets stiffness and weight."},
		lengthQuantity, func(d *engine.Design) *float64 { return s.at(d).thickness }))
}

// noStock is the key of the choice to have no such part.
const noStock = "\x00none"

// materialOptions lists the design's own materials first, then sheets, then
// woods where they may be used.
func materialOptions(d engine.Design, woods bool, none string) []option {
	var options []option
	if none != "" {
		options = append(options, option{noStock, none})
	}
	add := func(list []catalog.Sheet, mark string) {
		for _, m := range list {
			if !m.Solid || woods {
				options = append(options, option{m.Key, m.Name + mark})
			}
		}
	}
	add(d.Own, " (your own)")
	add(engine.Catalogue().Sheets, "")
	if woods {
		add(engine.Catalogue().Woods, "")
	}
	return distinct(options)
}

// distinct tells options of the same name apart by their key.
func distinct(options []option) []option {
	seen := map[string]bool{}
	for i, o := range options {
		if seen[o.label] {
			options[i].label += " · " + o.key
		}
		seen[options[i].label] = true
	}
	return options
}

// ownThickness is the key of the choice that the thickness is none of those
// sold.
const ownThickness = "-1"

// thicknessOptions lists what the material is sold in.
func thicknessOptions(d engine.Design, at stock, f length.Format) []option {
	var options []option
	m, _ := d.Material(*at.material)
	for i, t := range m.Thicknesses {
		options = append(options, option{strconv.Itoa(i), t.Nominal + " (actual " + f.Print(t.Actual) + ")"})
	}
	if *at.thickness > 0 && nominalIndex(d, *at.material, *at.thickness) < 0 {
		options = append(options, option{ownThickness, "your own: " + f.Print(*at.thickness)})
	}
	return distinct(options)
}

// sameThickness is how far an actual thickness may be from the catalogue's and
// still count as that one, in mm: less than any caliper shows.
const sameThickness = 0.005

// nominalIndex returns which of the thicknesses sold this one is, -1 if none.
func nominalIndex(d engine.Design, material string, thickness float64) int {
	m, _ := d.Material(material)
	for i, t := range m.Thicknesses {
		if math.Abs(t.Actual-thickness) < sameThickness {
			return i
		}
	}
	return -1
}

// chooseMaterial sets the material, and the thickness sold that is nearest to
// the present one; readings taken of the old sheet are dropped. d is read only.
func chooseMaterial(d engine.Design, at stock, key string) {
	if key == noStock {
		*at.thickness = 0
		return
	}
	*at.material = key
	wanted := *at.thickness
	if wanted <= 0 {
		wanted = d.TopSkin.Thickness // a part that was not there starts like the skin
		*at.thickness = wanted
	}
	m, _ := d.Material(key)
	if i := nearestThickness(m, wanted); i >= 0 {
		setThickness(at, m.Thicknesses[i].Actual)
	}
}

// nearestThickness returns which of the thicknesses sold is nearest, -1 if the
// material is sold in none.
func nearestThickness(m catalog.Sheet, wanted float64) int {
	best := -1
	for i, t := range m.Thicknesses {
		if best < 0 || math.Abs(t.Actual-wanted) < math.Abs(m.Thicknesses[best].Actual-wanted) {
			best = i
		}
	}
	return best
}

func chooseThickness(d engine.Design, at stock, key string) {
	m, _ := d.Material(*at.material)
	if i, err := strconv.Atoi(key); err == nil && i >= 0 && i < len(m.Thicknesses) {
		setThickness(at, m.Thicknesses[i].Actual)
	}
}

func setThickness(at stock, actual float64) {
	if at.thickest != nil && *at.thickness != actual {
		*at.thickest = 0
	}
	*at.thickness = actual
}
