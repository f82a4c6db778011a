package app

import (
	"strings"
	"time"

	"flatwright/engine"
	"flatwright/engine/length"
)

// limitsGroup is what the person asks of the top.
func (f *form) limitsGroup() *group {
	return &group{
		name: "Limits", roots: []string{"limits"},
		shape: func(engine.Design) string { return "" },
		build: func(b *builder) {
			b.add(f.value(spec{path: "limits.sag", label: "Sag at most", edit: "sag limit",
				help: "How far the top may go down under the worst load case, against its supports. Empty is no limit. A sheet of paper is 0.1 mm."},
				optional(smallLength), func(d *engine.Design) *float64 { return &d.Limits.Sag }))
			b.add(f.value(spec{path: "limits.mass", label: "Weight at most", edit: "weight limit", help: "Of the whole top with its glue. Empty is no limit."},
				optional(massQuantity), func(d *engine.Design) *float64 { return &d.Limits.Mass }))
			b.add(f.value(spec{path: "limits.cost", label: "Cost at most", edit: "cost limit", help: "In your own currency. Empty is no limit."},
				optional(money), func(d *engine.Design) *float64 { return &d.Limits.Cost }))
			b.add(f.value(spec{path: "limits.twist", label: "Corner drops at most", edit: "twist limit",
				help: "How far a corner may go down without its support, the other three holding the top: how stiff it is against twist. Empty is no limit."},
				optional(smallLength), func(d *engine.Design) *float64 { return &d.Limits.Twist }))
			b.add(f.value(spec{path: "limits.flatness", label: "Flat within", edit: "flatness limit",
				help: "Two parallel planes that far apart enclose the finished top before it is loaded. The act Glue says which bed, shims and order of gluing give it. Empty is no limit."},
				optional(smallLength), func(d *engine.Design) *float64 { return &d.Limits.Flatness }))
		},
		summary: func(s Snapshot) string {
			l := s.Design.Limits
			var words []string
			if l.Sag > 0 {
				words = append(words, "sag "+length.Sag(l.Sag, s.Lengths))
			}
			if l.Mass > 0 {
				words = append(words, "weight "+length.Mass(l.Mass, s.Lengths))
			}
			if l.Cost > 0 {
				words = append(words, "cost "+fig(l.Cost))
			}
			if l.Twist > 0 {
				words = append(words, "corner "+length.Sag(l.Twist, s.Lengths))
			}
			if l.Flatness > 0 {
				words = append(words, "flat within "+length.Sag(l.Flatness, s.Lengths))
			}
			if len(words) == 0 {
				return "none set"
			}
			return strings.Join(words, ", ")
		},
	}
}

// shopGroup is where, when and with what the top is glued.
func (f *form) shopGroup() *group {
	return &group{
		name: "Shop", roots: []string{"glue", "shop", "air"},
		shape: func(engine.Design) string { return "" },
		build: func(b *builder) {
			b.add(f.choice(spec{path: "glue", label: "Glue", edit: "glue", help: "Its open time is how long spread glue stays wet enough to close the joint."},
				func(Snapshot) []option {
					var options []option
					for _, g := range engine.Catalogue().Glues {
						options = append(options, option{g.Key, g.Name})
					}
					return distinct(options)
				},
				func(d engine.Design) string { return d.Glue },
				func(d *engine.Design, key string) { d.Glue = key }))
			b.add(f.value(spec{path: "shop.temperature", label: "Temperature", edit: "shop temperature", help: "Of the room, the wood and the glue while it cures. Cold glue is slow, and below its limit it does not hold."},
				temperatureQuantity, func(d *engine.Design) *float64 { return &d.Shop.Temperature }))
			b.add(f.count(spec{path: "shop.people", label: "People spreading glue", edit: "people", help: "Two are twice as fast inside the open time."},
				0, func(d *engine.Design) *int { return &d.Shop.People }))
			b.add(f.clock(spec{path: "shop.start", label: "Start", edit: "start time", help: "When the dry assembly begins: 2026-05-02 09:00."},
				func(d *engine.Design) *string { return &d.Shop.Start }))
			b.add(f.choice(spec{path: "shop.damp", label: "Where the top will be used", edit: "dampness", help: "Damp air weakens wood and lets it creep more."},
				fixedOptions(option{"heated", "heated room"}, option{"damp", "unheated, under a roof"}),
				func(d engine.Design) string {
					if d.Shop.Damp {
						return "damp"
					}
					return "heated"
				},
				func(d *engine.Design, key string) { d.Shop.Damp = key == "damp" }))
			for _, air := range airFields {
				b.add(f.value(spec{path: air.path, label: air.label, edit: "humidity", help: air.help}, optional(number("%", 1)), air.of))
			}
		},
		summary: func(s Snapshot) string {
			d := s.Design
			glue := d.Glue
			if g, ok := engine.Catalogue().Glue(d.Glue); ok {
				glue = g.Name
			}
			return glue + ", " + temperatureQuantity.print(d.Shop.Temperature, s.Lengths) + " " + temperatureQuantity.unit(s.Lengths) + ", " +
				countOf(d.Shop.People, "person", "people") + ", " + clockText(d.Shop.Start, true)
		},
	}
}

// clockLayouts are the ways a date and time may be typed; the first is shown.
var clockLayouts = []string{"2006-01-02 15:04", engine.ClockLayout, "2006-1-2 15:04", "2006-1-2 3:04 PM", "2006-1-2 3:04PM", "2006-1-2 3PM"}

// clock is a field for a date and time. at points into the design, or is nil
// where the design has no such thing any more.
func (f *form) clock(s spec, at func(*engine.Design) *string) *line {
	return f.read(s, func(snap Snapshot) string {
		p := at(&snap.Design)
		if p == nil {
			return ""
		}
		t, err := time.Parse(engine.ClockLayout, *p)
		if err != nil {
			return *p
		}
		return t.Format(clockLayouts[0])
	}, func(text string) (func(*engine.Design), error) {
		for _, layout := range clockLayouts {
			if t, err := time.Parse(layout, strings.ToUpper(strings.TrimSpace(text))); err == nil {
				return func(d *engine.Design) {
					if p := at(d); p != nil {
						*p = t.Format(engine.ClockLayout)
					}
				}, nil
			}
		}
		return nil, told(quoted(text) + " is not read as a date and time. Type year-month-day and the time, such as 2026-05-02 09:00.")
	})
}

// airFields are the relative humidities that decide how a top bows; left empty
// usual ones are taken.
var airFields = []struct {
	path, label, help string
	of                func(*engine.Design) *float64
}{
	{"air.madeAt", "Air when glued", "Relative humidity where the sheets have lain before gluing. Empty: 50 %.", func(d *engine.Design) *float64 { return &d.Air.MadeAt }},
	{"air.above", "Air above it later", "Where the top is used. A skin in drier air shrinks, and the top bows. Empty: 35 % heated, 85 % under a roof.", func(d *engine.Design) *float64 { return &d.Air.Above }},
	{"air.below", "Air below it later", "Under the top, as over a damp floor. Empty: the same as above.", func(d *engine.Design) *float64 { return &d.Air.Below }},
}
