package app

import (
	"strconv"
	"strings"

	"flatwright/engine"
	"flatwright/engine/saw"
)

// toolField is one figure of one tool.
type toolField struct {
	path, label, help string
	of                func(*saw.Tools) *float64
}

// toolKinds are the tools that slots can be cut with, each with its figures; the
// first says whether it is owned.
var toolKinds = []struct {
	name   string
	fields []toolField
}{
	{"Circular saw on a rail", []toolField{
		{"tools.rail.blade", "Blade diameter", "Empty if you have none.", func(t *saw.Tools) *float64 { return &t.Rail.Blade }},
		{"tools.rail.kerf", "Width of its cut", "Of the teeth, not of the plate.", func(t *saw.Tools) *float64 { return &t.Rail.Kerf }},
		{"tools.rail.reach", "Depth of cut", "How far the blade comes out below the rail.", func(t *saw.Tools) *float64 { return &t.Rail.Reach }},
		{"tools.rail.travel", "Length of the rail", "Empty is not checked.", func(t *saw.Tools) *float64 { return &t.Rail.Travel }}}},
	{"Table saw", []toolField{
		{"tools.bench.blade", "Blade diameter", "Empty if you have none.", func(t *saw.Tools) *float64 { return &t.Bench.Blade }},
		{"tools.bench.kerf", "Width of its cut", "Of the teeth, not of the plate.", func(t *saw.Tools) *float64 { return &t.Bench.Kerf }},
		{"tools.bench.reach", "Depth of cut", "How far the blade comes out of the table.", func(t *saw.Tools) *float64 { return &t.Bench.Reach }}}},
	{"Radial arm or sliding mitre saw", []toolField{
		{"tools.radial.blade", "Blade diameter", "Empty if you have none.", func(t *saw.Tools) *float64 { return &t.Radial.Blade }},
		{"tools.radial.kerf", "Width of its cut", "Of the teeth, not of the plate.", func(t *saw.Tools) *float64 { return &t.Radial.Kerf }},
		{"tools.radial.reach", "Depth of cut", "With a stop, how deep it can be set.", func(t *saw.Tools) *float64 { return &t.Radial.Reach }},
		{"tools.radial.travel", "Stroke", "How far it is drawn across the work. Empty is not checked.", func(t *saw.Tools) *float64 { return &t.Radial.Travel }}}},
	{"Wide cutter, such as a dado stack", []toolField{
		{"tools.dado.diameter", "Diameter", "Empty if you have none.", func(t *saw.Tools) *float64 { return &t.Dado.Diameter }},
		{"tools.dado.least", "Narrowest width", "That it can be set to.", func(t *saw.Tools) *float64 { return &t.Dado.Least }},
		{"tools.dado.most", "Widest", "That it can be set to.", func(t *saw.Tools) *float64 { return &t.Dado.Most }},
		{"tools.dado.reach", "Depth of cut", "Out of the table, or below the motor.", func(t *saw.Tools) *float64 { return &t.Dado.Reach }}}},
	{"Router with a straight bit and a guide", []toolField{
		{"tools.router.bit", "Bit diameter", "Empty if you have none.", func(t *saw.Tools) *float64 { return &t.Router.Bit }},
		{"tools.router.cut", "Depth it reaches", "From the base to the end of the bit.", func(t *saw.Tools) *float64 { return &t.Router.Cut }},
		{"tools.router.step", "Depth of one pass", "Empty takes half the bit's diameter.", func(t *saw.Tools) *float64 { return &t.Router.Step }}}},
	{"Jig saw", []toolField{
		{"tools.jig.kerf", "Width of its cut", "Empty if you have none.", func(t *saw.Tools) *float64 { return &t.Jig.Kerf }},
		{"tools.jig.reach", "Thickness it cuts", "", func(t *saw.Tools) *float64 { return &t.Jig.Reach }}}},
	{"Hand saw", []toolField{
		{"tools.hand.kerf", "Width of its cut", "Empty if you have none.", func(t *saw.Tools) *float64 { return &t.Hand.Kerf }},
		{"tools.hand.reach", "Depth below its back", "Of a saw with a back; without one the length of the blade.", func(t *saw.Tools) *float64 { return &t.Hand.Reach }}}},
	{"What you put up with", []toolField{
		{"tools.overlap", "Overlap of two passes", "So that no sliver stays between them. Empty takes half a millimetre.", func(t *saw.Tools) *float64 { return &t.Overlap }},
		{"tools.overrun", "Over-run at most", "By which a slot may be cut past its mark when boards are stacked under a round blade. Empty takes 5 mm.", func(t *saw.Tools) *float64 { return &t.Overrun }},
		{"tools.plunge", "Plunge into the board below", "How deep the board under a stack may be cut into: deeper runs out less. Empty takes 12 mm.", func(t *saw.Tools) *float64 { return &t.Plunge }}}},
}

// wayOptions are the ways that can cut the slots of at least one kind of ribs.
func wayOptions(s Snapshot) []option {
	options := []option{{"", "as advised"}}
	seen := map[saw.Kind]bool{}
	for _, g := range s.Result.SlotWork.Groups {
		for _, w := range g.Ways {
			if w.Can && !seen[w.Kind] {
				seen[w.Kind] = true
				options = append(options, option{string(w.Kind), w.Name})
			}
		}
	}
	return options
}

// toolsGroup is what slots can be cut with.
func (f *form) toolsGroup() *group {
	return &group{
		name: "Slots and their tools", roots: []string{"tools", "slots.way", "ribsMeasured"},
		shape: func(d engine.Design) string { return strconv.Itoa(len(d.Measured)) },
		build: func(b *builder) {
			b.heading("While none is listed, a small workshop's usual ones are taken")
			b.add(f.buttonIf("List the usual ones", "A rail saw, a table saw, a router, a jig saw and a hand saw, with usual figures: measure your own and change them.",
				func(d engine.Design) bool { return !d.Tools.Stated() },
				func() { f.session.Edit("tools", "", func(d *engine.Design) { d.Tools = saw.Usual() }) }))
			b.add(f.choice(spec{path: "slots.way", label: "How the slots are cut", edit: "way of the slots",
				help: "As advised takes the quickest way that your tools allow without cutting too deep; where a kind of ribs cannot be cut the way you pick, what is advised is taken there."},
				wayOptions,
				func(d engine.Design) string { return string(d.Slots.Way) },
				func(d *engine.Design, key string) { d.Slots.Way = saw.Kind(key) }))
			for _, tool := range toolKinds {
				b.fold(tool.name, "", func(b *builder) {
					for _, field := range tool.fields {
						b.add(f.value(spec{path: field.path, label: field.label, edit: strings.ToLower(tool.name), help: field.help},
							optional(lengthQuantity), func(d *engine.Design) *float64 { return field.of(&d.Tools) }))
					}
				})
			}
			b.heading("Ribs as cut, measured before they are glued")
			f.measuredLines(b)
		},
		summary: func(s Snapshot) string {
			var owned []string
			for _, tool := range toolKinds[:len(toolKinds)-1] {
				if *tool.fields[0].of(&s.Design.Tools) > 0 {
					owned = append(owned, strings.ToLower(tool.name))
				}
			}
			if len(owned) == 0 {
				return "none listed: usual ones are taken"
			}
			return strings.Join(owned, ", ")
		},
	}
}
