package app

import (
	"strconv"
	"strings"

	"flatwright/engine"
	"flatwright/engine/length"
)

// ribsGroup is the core: how deep it is, the two sets of ribs and the slots
// where they cross.
func (f *form) ribsGroup() *group {
	return &group{
		name: "Ribs", roots: []string{"coreDepth", "lengthwise", "crosswise", "slots"},
		shape: func(engine.Design) string { return "" },
		build: func(b *builder) {
			b.add(f.value(spec{path: "coreDepth", label: "Core depth", edit: "core depth",
				help: "Clear distance between the skins, which is the height of every rib. Nothing makes a top stiffer than depth."},
				lengthQuantity, func(d *engine.Design) *float64 { return &d.CoreDepth }))
			f.ribLines(b, ribSpec{root: "lengthwise", name: "lengthwise rib", title: "Lengthwise ribs, from end to end",
				end: "front edge", at: func(d *engine.Design) *engine.RibSet { return &d.Lengthwise }})
			f.ribLines(b, ribSpec{root: "crosswise", name: "crosswise rib", title: "Crosswise ribs, from front to back",
				end: "left end", at: func(d *engine.Design) *engine.RibSet { return &d.Crosswise }})
			f.slotLines(b)
		},
		summary: func(s Snapshot) string {
			d := s.Design
			text := strconv.Itoa(ribCount(d.Lengthwise)) + " lengthwise, " + strconv.Itoa(ribCount(d.Crosswise)) + " crosswise, "
			long := sheetText(d, d.Lengthwise.Material, d.Lengthwise.Thickness, s.Lengths)
			wide := sheetText(d, d.Crosswise.Material, d.Crosswise.Thickness, s.Lengths)
			if long == wide {
				return text + long
			}
			return text + long + " and " + wide
		},
	}
}

func ribCount(r engine.RibSet) int {
	if len(r.Positions) > 0 {
		return len(r.Positions)
	}
	return r.Count
}

// ribSpec is what the lines of one set of ribs are about.
type ribSpec struct {
	root, name, title string
	end               string // where positions are measured from
	at                func(*engine.Design) *engine.RibSet
}

func (f *form) ribLines(b *builder, r ribSpec) {
	b.heading(r.title)
	b.add(f.count(spec{path: r.root + ".count", label: "Number of ribs", edit: r.name + " count",
		help: "Evenly spaced, the two outermost at the edges. Without effect while positions are listed one by one."},
		0, func(d *engine.Design) *int { return &r.at(d).Count }))
	f.stockLines(b, stockSpec{root: r.root, name: r.name, woods: true, at: func(d *engine.Design) stock {
		set := r.at(d)
		return stock{&set.Material, &set.Thickness, &set.Thickest}
	}})
	b.fold("More on these ribs", "thickest reading, inset, grain, positions", func(b *builder) {
		b.add(f.value(spec{path: r.root + ".thickest", label: "Thickest reading", edit: r.name + " thickest reading",
			help: "The largest of five readings. The slots of the other ribs are cut for it. Empty takes the mean."},
			optional(lengthQuantity), func(d *engine.Design) *float64 { return &r.at(d).Thickest }))
		b.add(f.value(spec{path: r.root + ".inset", label: "Inset", edit: r.name + " inset",
			help: "From the edge of the skins to the outer face of the outermost rib: how far the skins hang over."},
			optional(lengthQuantity), func(d *engine.Design) *float64 { return &r.at(d).Inset }))
		b.add(f.choice(spec{path: r.root + ".upright", label: "Face grain of the ribs", edit: r.name + " grain",
			help: "Along the rib makes it stiffer in bending; upright makes it harder to crush under a load."},
			fixedOptions(option{"along", "along the rib"}, option{"upright", "upright"}),
			func(d engine.Design) string {
				if r.at(&d).Upright {
					return "upright"
				}
				return "along"
			},
			func(d *engine.Design, key string) { r.at(d).Upright = key == "upright" }))
		b.add(f.listed(spec{path: r.root + ".positions", label: "Positions one by one", edit: r.name + " positions",
			help: "Middle of every rib from the " + r.end + ", with a semicolon between two: 40; 200; 380. Empty spaces them evenly."},
			func(d *engine.Design) *[]float64 { return &r.at(d).Positions }))
	})
}

func (f *form) slotLines(b *builder) {
	b.heading("Half-lap slots, where ribs cross")
	b.add(f.value(spec{path: "slots.clearance", label: "Clearance", edit: "slot clearance",
		help: "How much wider a slot is than the thickest reading of the rib that enters it. Too little and the grid will not go together; too much and the ribs stand loose."},
		smallLength, func(d *engine.Design) *float64 { return &d.Slots.Clearance }))
	b.add(f.value(spec{path: "slots.relief", label: "Relief", edit: "slot relief",
		help: "How much deeper a slot is than half the rib, so that the ribs meet flush and not on the bottom of the slot. Each bit of it weakens the rib."},
		smallLength, func(d *engine.Design) *float64 { return &d.Slots.Relief }))
	b.add(f.value(spec{path: "slots.moistureRise", label: "Moister when assembled by", edit: "moisture of the ribs",
		help: "Percentage points by which the ribs may take up moisture between cutting and assembly: their swelling is added to the slots. Empty is none."},
		optional(number("points", 0.5)), func(d *engine.Design) *float64 { return &d.Slots.MoistureRise }))
	b.add(f.choice(spec{path: "slots.lengthwiseDown", label: "Slots of the lengthwise ribs open", edit: "slot side",
		help: "The crosswise ribs have theirs on the other edge and drop in from there."},
		fixedOptions(option{"up", "upwards"}, option{"down", "downwards"}),
		func(d engine.Design) string {
			if d.Slots.LengthwiseDown {
				return "down"
			}
			return "up"
		},
		func(d *engine.Design, key string) { d.Slots.LengthwiseDown = key == "down" }))
	b.add(f.choice(spec{path: "slots.glued", label: "Laps in the model", edit: "glued laps",
		help: "Open slots weaken a rib. Glue that fills a lap passes pressure but hardly any pull: the truth lies between the two."},
		fixedOptions(option{"open", "open slots, on the cautious side"}, option{"glued", "glued tight, as whole wood"}),
		func(d engine.Design) string {
			if d.Slots.Glued {
				return "glued"
			}
			return "open"
		},
		func(d *engine.Design, key string) { d.Slots.Glued = key == "glued" }))
}

// listed is a field for lengths typed one after the other.
func (f *form) listed(s spec, at func(*engine.Design) *[]float64) *line {
	return f.read(s, func(snap Snapshot) string { return printList(*at(&snap.Design), snap.Lengths) },
		func(text string) (func(*engine.Design), error) {
			design := f.snap.Design
			values, err := readList(text, *at(&design), f.lengths)
			return func(d *engine.Design) { *at(d) = values }, err
		})
}

func printList(values []float64, f length.Format) string {
	words := make([]string, len(values))
	for i, v := range values {
		words[i] = f.Bare(v)
	}
	return strings.Join(words, "; ")
}

// readList reads lengths with semicolons between them. One that is what the
// stored one prints as leaves that as it is, to the last bit.
func readList(text string, stored []float64, f length.Format) ([]float64, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	var values []float64
	for i, word := range strings.Split(strings.TrimRight(strings.TrimSpace(text), ";"), ";") {
		var v float64
		var err error
		if i < len(stored) {
			v, err = f.Reread(word, stored[i])
		} else {
			v, err = length.Parse(word, f)
		}
		if err != nil {
			return nil, told("Position " + strconv.Itoa(i+1) + ": " + err.Error())
		}
		values = append(values, v)
	}
	return values, nil
}
