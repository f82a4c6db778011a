package app

import (
	"strconv"

	"flatwright/engine"
)

// measuredLines adds what was measured of the ribs before they are glued.
func (f *form) measuredLines(b *builder) {
	for i := range f.snap.Design.Measured {
		f.measureLines(b, i)
	}
	b.add(f.button("Add a reading of ribs", "Height and slot depth as cut. A rib that stands proud keeps its skin off the others: that is told before anything is glued.", func() {
		f.session.Edit("reading of ribs", "", func(d *engine.Design) {
			d.Measured = append(d.Measured, engine.RibMeasure{Part: string(engine.LengthwisePart)})
		})
	}))
}

// measuredOptions are the kinds of ribs, then every rib.
func measuredOptions(s Snapshot) []option {
	options := []option{{string(engine.LengthwisePart), "all lengthwise ribs"}, {string(engine.CrosswisePart), "all crosswise ribs"}}
	return append(options, ribOptions(s.Design)...)
}

// ribOptions are all ribs, one by one.
func ribOptions(d engine.Design) []option {
	var options []option
	for i := range ribCount(d.Lengthwise) {
		options = append(options, option{engine.RibPart(true, i), engine.RibPart(true, i) + ", lengthwise"})
	}
	for i := range ribCount(d.Crosswise) {
		options = append(options, option{engine.RibPart(false, i), engine.RibPart(false, i) + ", crosswise"})
	}
	return options
}

func (f *form) measureLines(b *builder, i int) {
	at := func(d *engine.Design) *engine.RibMeasure {
		if i < len(d.Measured) {
			return &d.Measured[i]
		}
		return nil
	}
	number := strconv.Itoa(i + 1)
	name := "reading " + number
	b.add(f.choice(spec{path: path("ribsMeasured[%d].part", i), label: "Reading " + number, edit: name, help: "What it was taken of. What is said of one rib goes before what is said of its kind."},
		measuredOptions,
		func(d engine.Design) string {
			if m := at(&d); m != nil {
				return m.Part
			}
			return ""
		},
		func(d *engine.Design, key string) {
			if m := at(d); m != nil {
				m.Part = key
			}
		}))
	for _, v := range []struct {
		field, label, help string
		of                 func(*engine.RibMeasure) *float64
	}{
		{"height", "Height as cut", "The least or the greatest, whichever is farther off. Empty is not measured.", func(m *engine.RibMeasure) *float64 { return &m.Height }},
		{"slotDepth", "Shallowest slot", "Its depth. Empty is not measured.", func(m *engine.RibMeasure) *float64 { return &m.SlotDepth }},
	} {
		b.add(f.value(spec{path: path("ribsMeasured[%d]."+v.field, i), label: v.label, edit: name, help: v.help}, optional(lengthQuantity), func(d *engine.Design) *float64 {
			if m := at(d); m != nil {
				return v.of(m)
			}
			return nil
		}))
	}
	b.add(f.button("Remove "+name, "", func() {
		f.session.Edit("removed reading", "", func(d *engine.Design) { d.Measured = without(d.Measured, i) })
	}))
}
