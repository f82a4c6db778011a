package app

import (
	"strconv"

	"flatwright/engine"
)

var (
	holeKindOptions = []option{{string(engine.DogHole), "dog holes"}, {string(engine.BoltHole), "bolt holes"}, {string(engine.CableHole), "cable holes"}}
	skinOptions     = []option{{engine.TopSeam, "top skin"}, {engine.BottomSeam, "bottom skin"}}
)

// holesGroup is what is drilled and routed into skins and ribs.
func (f *form) holesGroup() *group {
	return &group{
		name: "Holes and grooves", roots: []string{"holes", "grooves", "keepOff"},
		shape: func(d engine.Design) string {
			shape := strconv.Itoa(len(d.Grooves)) + "|"
			for _, h := range d.Holes {
				shape += either(ribHole(h), "r", "s")
			}
			return shape
		},
		build: func(b *builder) {
			b.heading("Dog holes, bolt holes, cable holes, one by one or in rows")
			for i := range f.snap.Design.Holes {
				f.holeLines(b, i)
			}
			b.add(f.button("Add a hole", "Through the top skin, in the middle of the top; place, number and what it goes through are typed then.", func() {
				f.session.Edit("hole", "", func(d *engine.Design) {
					h := engine.Hole{Kind: engine.DogHole, Part: engine.TopSeam, X: d.Length / 2, Y: d.Width / 2, Diameter: 20}
					if n := len(d.Holes); n > 0 {
						h = d.Holes[n-1]
						h.Y += 4 * h.Diameter
					}
					d.Holes = append(d.Holes, h)
				})
			}))
			b.heading("Grooves, as for a track")
			for i := range f.snap.Design.Grooves {
				f.grooveLines(b, i)
			}
			b.add(f.button("Add a groove", "Along the top skin, beside the middle.", func() {
				f.session.Edit("groove", "", func(d *engine.Design) {
					d.Grooves = append(d.Grooves, engine.Groove{Skin: engine.TopSeam, Along: true, At: 0.45 * d.Width, Width: 20, Depth: d.TopSkin.Thickness / 2})
				})
			}))
			b.add(f.value(spec{path: "keepOff", label: "Keep off the ribs", edit: "distance from ribs",
				help: "How far holes and grooves are to stay from a rib, for a drill that wanders. Empty takes " + f.lengths.Print(engine.HoleClearance) + "."},
				optional(lengthQuantity), func(d *engine.Design) *float64 { return &d.KeepOff }))
		},
		summary: func(s Snapshot) string {
			holes := 0
			for _, h := range s.Design.Holes {
				holes += max(h.Count, 1)
			}
			if holes+len(s.Design.Grooves) == 0 {
				return "none"
			}
			return countOf(holes, "hole", "holes") + ", " + countOf(len(s.Design.Grooves), "groove", "grooves")
		},
	}
}

// ribHole reports whether a hole goes through a rib.
func ribHole(h engine.Hole) bool {
	_, _, ok := engine.RibOfPart(h.Part)
	return ok
}

// holePartOptions are what a hole can go through.
func holePartOptions(s Snapshot) []option {
	options := append([]option(nil), skinOptions...)
	options = append(options, option{engine.BothSkins, "both skins"})
	return append(options, ribOptions(s.Design)...)
}

func (f *form) holeLines(b *builder, i int) {
	at := func(d *engine.Design) *engine.Hole {
		if i < len(d.Holes) {
			return &d.Holes[i]
		}
		return nil
	}
	number := strconv.Itoa(i + 1)
	name := "hole " + number
	pick := func(field, label, help string, options func(Snapshot) []option, get func(*engine.Hole) string, set func(h *engine.Hole, key string)) {
		b.add(f.choice(spec{path: path("holes[%d]."+field, i), label: label, edit: name, help: help}, options,
			func(d engine.Design) string {
				if h := at(&d); h != nil {
					return get(h)
				}
				return ""
			},
			func(d *engine.Design, key string) {
				if h := at(d); h != nil {
					set(h, key)
				}
			}))
	}
	value := func(field, label, help string, q quantity, of func(*engine.Hole) *float64) {
		b.add(f.value(spec{path: path("holes[%d]."+field, i), label: label, edit: name, help: help}, q, func(d *engine.Design) *float64 {
			if h := at(d); h != nil {
				return of(h)
			}
			return nil
		}))
	}
	pick("kind", "Hole "+number, "What it is for.", fixedOptions(holeKindOptions...),
		func(h *engine.Hole) string { return string(h.Kind) }, func(h *engine.Hole, key string) { h.Kind = engine.HoleKind(key) })
	pick("part", "Goes through", "A hole through a skin goes on through a block below it. One through a rib goes from cheek to cheek.", holePartOptions,
		func(h *engine.Hole) string { return h.Part }, func(h *engine.Hole, key string) { h.Part = key })
	value("diameter", "Diameter", "", lengthQuantity, func(h *engine.Hole) *float64 { return &h.Diameter })
	value("x", "From the left end", "To its middle.", lengthQuantity, func(h *engine.Hole) *float64 { return &h.X })
	value("y", "From the front edge", "To its middle.", lengthQuantity, func(h *engine.Hole) *float64 { return &h.Y })
	if h := at(&f.snap.Design); h != nil && ribHole(*h) {
		value("up", "Above the rib's lower edge", "To its middle; half of the core depth is where a hole weakens the rib least.", lengthQuantity, func(h *engine.Hole) *float64 { return &h.Up })
	}
	b.fold("A row of them", "how many, and the step from one to the next", func(b *builder) {
		b.add(f.count(spec{path: path("holes[%d].count", i), label: "Holes in the row", edit: name + " row", help: "0 or 1 is a single hole."}, 0, func(d *engine.Design) *int {
			if h := at(d); h != nil {
				return &h.Count
			}
			return nil
		}))
		for _, step := range []struct {
			field, label string
			of           func(*engine.Hole) *float64
		}{
			{"stepX", "Step along the length", func(h *engine.Hole) *float64 { return &h.StepX }},
			{"stepY", "Step across the width", func(h *engine.Hole) *float64 { return &h.StepY }},
		} {
			b.add(f.value(spec{path: path("holes[%d]."+step.field, i), label: step.label, edit: name + " row", help: "From the middle of one hole to the next."},
				optional(lengthQuantity), func(d *engine.Design) *float64 {
					if h := at(d); h != nil {
						return step.of(h)
					}
					return nil
				}))
		}
	})
	b.add(f.button("Remove "+name, "", func() {
		f.session.Edit("removed hole", "", func(d *engine.Design) { d.Holes = without(d.Holes, i) })
	}))
}

func (f *form) grooveLines(b *builder, i int) {
	at := func(d *engine.Design) *engine.Groove {
		if i < len(d.Grooves) {
			return &d.Grooves[i]
		}
		return nil
	}
	number := strconv.Itoa(i + 1)
	name := "groove " + number
	pick := func(field, label string, options []option, get func(*engine.Groove) string, set func(g *engine.Groove, key string)) {
		b.add(f.choice(spec{path: path("grooves[%d]."+field, i), label: label, edit: name}, fixedOptions(options...),
			func(d engine.Design) string {
				if g := at(&d); g != nil {
					return get(g)
				}
				return ""
			},
			func(d *engine.Design, key string) {
				if g := at(d); g != nil {
					set(g, key)
				}
			}))
	}
	value := func(field, label, help string, q quantity, of func(*engine.Groove) *float64) {
		b.add(f.value(spec{path: path("grooves[%d]."+field, i), label: label, edit: name, help: help}, q, func(d *engine.Design) *float64 {
			if g := at(d); g != nil {
				return of(g)
			}
			return nil
		}))
	}
	pick("skin", "Groove "+number, skinOptions, func(g *engine.Groove) string { return g.Skin }, func(g *engine.Groove, key string) { g.Skin = key })
	pick("along", "It runs", seamRunOptions, func(g *engine.Groove) string { return either(g.Along, "along", "across") }, func(g *engine.Groove, key string) { g.Along = key == "along" })
	value("at", "Its middle line", "From the front edge if it runs along the top, else from the left end.", lengthQuantity, func(g *engine.Groove) *float64 { return &g.At })
	value("from", "Begins at", "From the end or the edge. Empty begins at the edge.", optional(lengthQuantity), func(g *engine.Groove) *float64 { return &g.From })
	value("to", "Ends at", "From the same end or edge. Empty runs to the far one.", optional(lengthQuantity), func(g *engine.Groove) *float64 { return &g.To })
	value("width", "Width", "Of the track, as measured.", lengthQuantity, func(g *engine.Groove) *float64 { return &g.Width })
	value("depth", "Depth", "What it leaves of the skin carries the pull there.", lengthQuantity, func(g *engine.Groove) *float64 { return &g.Depth })
	b.add(f.button("Remove "+name, "", func() {
		f.session.Edit("removed groove", "", func(d *engine.Design) { d.Grooves = without(d.Grooves, i) })
	}))
}
