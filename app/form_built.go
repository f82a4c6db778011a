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
			b.add(f.button("Mark something", "A deeper slot, slots in the wrong edge, a rib that is not glued, a seam left open, a sheet of another thickness, a skin that slid. The panel is rated once more as it was made.", func() {
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
	{string(engine.WrongEdge), "a rib is slotted in the wrong edge"},
	{string(engine.SkinSlid), "a skin slid"},
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
	case engine.WrongEdge:
	case engine.SkinSlid:
		m.Part, m.X = engine.TopSeam, 5
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
	if (m.Kind == engine.RibUnglued || m.Kind == engine.WrongEdge) && m.To > extent {
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
	if kind == engine.SkinSlid {
		return gluedSkins[1:]
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
	of := func(q quantity, field, label, help string, of func(*engine.Built) *float64) {
		b.add(f.value(spec{path: path("built[%d]."+field, i), label: label, edit: name, help: help}, q,
			func(d *engine.Design) *float64 {
				if m := at(d); m != nil {
					return of(m)
				}
				return nil
			}))
	}
	value := func(field, label, help string, at func(*engine.Built) *float64) {
		of(lengthQuantity, field, label, help, at)
	}
	switch kind {
	case engine.RibUnglued:
		b.add(f.choice(spec{path: path("built[%d].side", i), label: "To which skin", edit: name, help: "A rib that holds on one skin still carries with that one, as a T; at neither it only keeps them apart."},
			fixedOptions(gluedSkins[:]...),
			func(d engine.Design) string {
				if m := at(&d); m != nil && m.Side != "" {
					return m.Side
				}
				return anySkin
			},
			func(d *engine.Design, key string) {
				if m := at(d); m != nil {
					m.Side = skinOf(key)
				}
			}))
		value("from", "Not glued from", "Along the rib, from the left end or the front edge of the top.", func(m *engine.Built) *float64 { return &m.From })
		value("to", "to", "Along the rib, from the left end or the front edge of the top.", func(m *engine.Built) *float64 { return &m.To })
	case engine.ThicknessMeasured:
		value("value", "Thickness as measured", "The mean of five readings with a caliper. Slots stay as they were cut.", func(m *engine.Built) *float64 { return &m.Value })
	case engine.WrongEdge:
		value("from", "Wrong slots from", "Along the rib, from the left end or the front edge of the top. 0 here and below is all of them: the rib counts as cut off at each.", func(m *engine.Built) *float64 { return &m.From })
		value("to", "to", "Along the rib, from the left end or the front edge of the top; 0 here and above is all of them.", func(m *engine.Built) *float64 { return &m.To })
	case engine.SkinSlid:
		of(slideQuantity, "x", "To the right by", "How far it lies from its place along the length; less than 0 is to the left. A fresh mark has 5 mm until you type what you measured.", func(m *engine.Built) *float64 { return &m.X })
		of(slideQuantity, "y", "To the back by", "How far it lies from its place across the width; less than 0 is to the front.", func(m *engine.Built) *float64 { return &m.Y })
	case engine.SlotDeeper:
		value("value", "Depth as cut", "Of the deepest slot of that rib; all its slots are rated like it. A fresh mark has 1 mm or 2 mm more than drawn until you type what you measured.", func(m *engine.Built) *float64 { return &m.Value })
	}
	b.add(f.button("Remove mark "+number, "", func() {
		f.session.Edit("removed mark", "", func(d *engine.Design) { d.Built = without(d.Built, i) })
	}))
}
