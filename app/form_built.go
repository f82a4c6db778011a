package app

import (
	"strconv"
	"strings"

	"flatwright/engine"
)

// builtGroup is what was made otherwise than drawn.
func (f *form) builtGroup() *group {
	return &group{
		name: "As built", roots: []string{"built"},
		shape: func(d engine.Design) string {
			var shape strings.Builder
			for _, b := range d.Built {
				shape.WriteString(string(b.Kind) + "|")
			}
			return shape.String()
		},
		build: func(b *builder) {
			b.heading("What was made otherwise than drawn")
			for i := range f.snap.Design.Built {
				f.builtLines(b, i)
			}
			b.add(f.button("Mark something", "A deeper slot, a rib that is not glued, a seam left open, a sheet of another thickness. The panel is rated once more as it was made.", func() {
				f.session.Edit("mark as built", "", func(d *engine.Design) { d.Built = append(d.Built, freshMark(*d, engine.RibUnglued)) })
			}))
		},
		summary: func(s Snapshot) string {
			if len(s.Design.Built) == 0 {
				return "as drawn"
			}
			return countOf(len(s.Design.Built), "mark", "marks")
		},
	}
}

var builtOptions = []option{
	{string(engine.RibUnglued), "a rib is not glued"},
	{string(engine.SlotDeeper), "slots of a rib are deeper"},
	{string(engine.SeamOpen), "a seam is not spliced"},
	{string(engine.ThicknessMeasured), "a sheet is thinner or thicker"},
}

// freshMark is a mark of a kind before anything is typed.
func freshMark(d engine.Design, kind engine.BuiltKind) engine.Built {
	m := engine.Built{Kind: kind, Part: engine.RibPart(true, 0)}
	switch kind {
	case engine.SeamOpen:
		m.Part = engine.SeamPart(0)
	case engine.SlotDeeper:
		m.Value = d.SlotDepth() + 1
	case engine.ThicknessMeasured:
		markPart(d, &m, engine.TopSeam)
	default:
		m.From, m.To = 0.4*d.Length, 0.6*d.Length
	}
	return m
}

// markPart gives a mark another part; a stretch that would lie beyond it moves
// to its middle.
func markPart(d engine.Design, m *engine.Built, part string) {
	m.Part = part
	if m.Kind == engine.ThicknessMeasured {
		m.Value = 0.95 * d.DrawnThickness(part) // until it is typed
		return
	}
	extent := d.Width
	if lengthwise, _, _ := engine.RibOfPart(part); lengthwise {
		extent = d.Length
	}
	if m.Kind == engine.RibUnglued && m.To > extent {
		m.From, m.To = 0.4*extent, 0.6*extent
	}
}

// builtParts lists what a mark of a kind can be about.
func builtParts(d engine.Design, kind engine.BuiltKind) []option {
	var options []option
	if kind == engine.SeamOpen {
		for i := range d.Seams {
			options = append(options, option{engine.SeamPart(i), "seam " + strconv.Itoa(i+1)})
		}
		return options
	}
	if kind == engine.ThicknessMeasured {
		return []option{{engine.TopSeam, "top skin"}, {engine.BottomSeam, "bottom skin"}, {string(engine.LengthwisePart), "lengthwise ribs"}, {string(engine.CrosswisePart), "crosswise ribs"}}
	}
	return append(options, ribOptions(d)...)
}

func (f *form) builtLines(b *builder, i int) {
	at := func(d *engine.Design) *engine.Built {
		if i < len(d.Built) {
			return &d.Built[i]
		}
		return nil
	}
	now := at(&f.snap.Design)
	if now == nil {
		return
	}
	kind := now.Kind
	number := strconv.Itoa(i + 1)
	name := "mark " + number
	b.add(f.choice(spec{path: path("built[%d].kind", i), label: "Mark " + number, edit: name, help: "What went otherwise. It is shown in the plan in the colour of what is over its limit."},
		fixedOptions(builtOptions...),
		func(d engine.Design) string {
			if m := at(&d); m != nil {
				return string(m.Kind)
			}
			return ""
		},
		func(d *engine.Design, key string) {
			if m := at(d); m != nil && string(m.Kind) != key {
				*m = freshMark(*d, engine.BuiltKind(key))
			}
		}))
	b.add(f.choice(spec{path: path("built[%d].part", i), label: "Which one", edit: name, help: "As named in the plan: L ribs run along the length, C ribs across; 1 is at the front or at the left."},
		func(s Snapshot) []option { return builtParts(s.Design, kind) },
		func(d engine.Design) string {
			if m := at(&d); m != nil {
				return m.Part
			}
			return ""
		},
		func(d *engine.Design, key string) {
			if m := at(d); m != nil {
				markPart(*d, m, key)
			}
		}))
	value := func(field, label, help string, of func(*engine.Built) *float64) {
		b.add(f.value(spec{path: path("built[%d]."+field, i), label: label, edit: name, help: help}, lengthQuantity,
			func(d *engine.Design) *float64 {
				if m := at(d); m != nil {
					return of(m)
				}
				return nil
			}))
	}
	switch kind {
	case engine.RibUnglued:
		value("from", "Not glued from", "Along the rib, from the left end or the front edge of the top. Neither skin is glued to it there.", func(m *engine.Built) *float64 { return &m.From })
		value("to", "to", "Along the rib, from the left end or the front edge of the top.", func(m *engine.Built) *float64 { return &m.To })
	case engine.ThicknessMeasured:
		value("value", "Thickness as measured", "The mean of five readings with a caliper. Slots stay as they were cut.", func(m *engine.Built) *float64 { return &m.Value })
	case engine.SlotDeeper:
		value("value", "Depth as cut", "Of the deepest slot of that rib; all its slots are rated like it.", func(m *engine.Built) *float64 { return &m.Value })
	}
	b.add(f.button("Remove mark "+number, "", func() {
		f.session.Edit("removed mark", "", func(d *engine.Design) { d.Built = without(d.Built, i) })
	}))
}
