package engine

import (
	"math"

	"flatwright/engine/catalog"
	"flatwright/engine/plate"
	"flatwright/engine/section"
)

// A scarf of 1:8 counts as whole in stiffness: under a stress σ its glue line, g thick, slips
// by σ·g/(8·G), as E·g/(8·G) of plain rib stretches. That is 0.75 mm of rib with 0.2 mm of
// glue of 300 MPa (from memory) and E 9000; derived. What plates leave of a rib is
// [section.Straps].

// straps is a rib's joint under its plates: for stretching and bending, and for
// shear.
func (d *Design) straps(s Splice, m *catalog.Sheet, r RibSet) (direct, shear section.Straps) {
	plates := d.ribPlates(s)
	if len(plates) == 0 {
		return direct, shear
	}
	b := plates[0]
	from, to := b.X0, b.X1
	if along, _, _ := RibOfPart(s.Part); !along {
		from, to = b.Y0, b.Y1
	}
	e := m.EAlong
	if r.Upright {
		e = m.EAcross
	}
	half := math.Min(s.At-from, to-s.At)
	direct = section.Straps{T: r.Thickness, Half: half, Faces: len(plates), E: e, G: m.GRolling}
	shear = direct
	shear.E = m.GEdge
	return direct, shear
}

// gives returns what a rib's joint under plates adds to it, as lengths of plain
// rib, mm: in stretching and bending, and in shear; never less than nothing.
func (d *Design) gives(s Splice, m *catalog.Sheet, r RibSet) (direct, shear, half float64) {
	a, b := d.straps(s, m, r)
	if a.Faces == 0 {
		return 0, 0, 0
	}
	return math.Max(0, a.Give()), math.Max(0, b.Give()), a.Half
}

// spliceLoss is what the splices of ribs take from them, as the whole-panel model
// has it.
func (d *Design) spliceLoss(m *materials) []plate.Splice {
	var out []plate.Splice
	for _, s := range d.Splices {
		along, n, ok := RibOfPart(s.Part)
		if !ok {
			continue
		}
		sheet := &m.crosswise
		if along {
			sheet = &m.lengthwise
		}
		direct, shear, half := d.gives(s, sheet, d.ribSet(along))
		if direct+shear > 0 {
			out = append(out, plate.Splice{Along: along, Rib: n, From: s.At - half, To: s.At + half,
				Direct: 2 * half / (2*half + direct), Shear: 2 * half / (2*half + shear)})
		}
	}
	return out
}

// spliced is what the splices of all ribs of one direction leave of their
// stiffness in bending and in shear, spread over the length of the panel: a joint
// that adds a length ℓ of rib where the moment of the first sine term is
// sin πx/L adds 2ℓ/L·sin² to the bending, and with cos² to the shear.
func (d *Design) spliced(m *catalog.Sheet, along bool, length float64) (bending, shear float64) {
	r := d.ribSet(along)
	more := make([][2]float64, r.number())
	for _, s := range d.Splices {
		if a, n, ok := RibOfPart(s.Part); ok && a == along {
			direct, sheared, _ := d.gives(s, m, r)
			sin, cos := math.Sincos(math.Pi * s.At / length)
			more[n][0] += 2 * direct / length * sin * sin
			more[n][1] += 2 * sheared / length * cos * cos
		}
	}
	for _, v := range more {
		bending += 1 / (1 + v[0]) / float64(len(more))
		shear += 1 / (1 + v[1]) / float64(len(more))
	}
	return bending, shear
}
