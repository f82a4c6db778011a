package app

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2/container"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// loadsGroup is what will stand on the top.
func (f *form) loadsGroup() *group {
	return &group{
		name: "Loads", roots: []string{"cases"},
		shape: func(d engine.Design) string {
			var shape strings.Builder
			for _, c := range d.Cases {
				shape.WriteByte('|')
				for _, l := range c.Loads {
					shape.WriteString(string(l.Kind) + strconv.FormatBool(l.Across) + ",")
				}
			}
			return shape.String()
		},
		build: func(b *builder) {
			for i, c := range f.snap.Design.Cases {
				f.caseLines(b, i, len(c.Loads))
			}
			b.add(f.button("Add a load case", "Loads that act together make a case; each case is computed by itself, and the panel's own weight acts in all.",
				func() { f.session.Edit("load case", "", addCase) }))
		},
		summary: func(s Snapshot) string { return loadsSummary(s.Design, s.Lengths) },
	}
}

func loadsSummary(d engine.Design, f length.Format) string {
	var total, heaviest float64
	n := 0
	for _, c := range d.Cases {
		total = 0
		for _, l := range c.Loads {
			n++
			if l.Kind != engine.Couple { // presses nothing down
				total += l.Force
			}
		}
		heaviest = max(heaviest, total)
	}
	text := countOf(n, "load", "loads")
	if len(d.Cases) > 1 {
		text += " in " + countOf(len(d.Cases), "case", "cases")
	}
	if heaviest > 0 {
		text += ", at most " + length.Mass(heaviest/engine.Gravity, f)
	}
	return text
}

// durationOptions are the load-duration classes in words: EN 1995-1-1 Table
// 2.1, from memory.
var durationOptions = []option{
	{string(engine.Permanent), "always: ten years and more"},
	{string(engine.LongTerm), "long: six months to ten years"},
	{string(engine.MediumTerm), "medium: a week to six months"},
	{string(engine.ShortTerm), "short: less than a week"},
	{string(engine.Instantaneous), "an instant: a knock"},
}

var loadKindOptions = []option{
	{string(engine.Patch), "on one spot"},
	{string(engine.Line), "along a line"},
	{string(engine.Uniform), "over the whole top"},
	{string(engine.Couple), "it pulls on a block: a vise, a clamp"},
}

func (f *form) caseLines(b *builder, i, loads int) {
	at := func(d *engine.Design) *engine.LoadCase {
		if i < len(d.Cases) {
			return &d.Cases[i]
		}
		return nil
	}
	number := strconv.Itoa(i + 1)
	b.add(f.text(spec{path: path("cases[%d].name", i), label: "Load case " + number, edit: "load case name", help: "What is going on: planing, assembling, storing."},
		func(d *engine.Design) *string {
			if c := at(d); c != nil {
				return &c.Name
			}
			return nil
		}))
	b.add(f.choice(spec{path: path("cases[%d].duration", i), label: "How long it stays", edit: "load duration",
		help: "Added up over the life of the top. Wood bears a short load better than a long one."},
		fixedOptions(durationOptions...),
		func(d engine.Design) string {
			if c := at(&d); c != nil {
				return string(c.Duration)
			}
			return ""
		},
		func(d *engine.Design, key string) {
			if c := at(d); c != nil {
				c.Duration = engine.Duration(key)
			}
		}))
	for j := range loads {
		f.loadLines(b, i, j)
	}
	b.add(f.adding(i))
	add := f.button("Add a load to case "+number, "Puts what is picked above at the middle of the top, as heavy as the load before it; a pull goes to the first block.", func() {
		kind := f.add[i]
		f.session.Edit("load", "", func(d *engine.Design) {
			if c := at(d); c != nil {
				c.Loads = append(c.Loads, newLoad(*d, *c, kind))
			}
		})
	})
	remove := f.buttonIf("Remove case "+number, "", func(d engine.Design) bool { return len(d.Cases) > 1 }, func() {
		f.session.Edit("removed load case", "", func(d *engine.Design) { d.Cases = without(d.Cases, i) })
	})
	b.add(add)
	b.add(remove)
}

func (f *form) loadLines(b *builder, i, j int) {
	at := func(d *engine.Design) *engine.Load {
		if i < len(d.Cases) && j < len(d.Cases[i].Loads) {
			return &d.Cases[i].Loads[j]
		}
		return nil
	}
	root := path("cases[%d].loads[%d]", i, j)
	b.add(f.text(spec{path: root + ".name", label: "Load " + strconv.Itoa(j+1), edit: "load name", help: "What stands or leans there."},
		func(d *engine.Design) *string {
			if l := at(d); l != nil {
				return &l.Name
			}
			return nil
		}))
	l := at(&f.snap.Design)
	heavy := spec{path: root + ".force", label: "How heavy", edit: "load", help: "Type 100 kg, 220 lb or 980 N. A person counts 100 kg here, with tools."}
	if l != nil && l.Kind == engine.Couple {
		heavy.label = "How hard it pulls"
		heavy.help = "Type 500 N, 50 kg or 110 lb. A strong person pulls with some 500 N; the screw of a vise does not count, it pulls on itself."
	}
	b.add(f.force(heavy, at))
	b.add(f.choice(spec{path: root + ".kind", label: "Where it presses", edit: "kind of load",
		help: "On a rectangle of the top, along a straight line, evenly all over, or pulling on a block of solid wood and turning it."},
		fixedOptions(loadKindOptions...),
		func(d engine.Design) string {
			if l := at(&d); l != nil {
				return string(l.Kind)
			}
			return ""
		},
		func(d *engine.Design, key string) {
			if l := at(d); l != nil {
				become(d, l, engine.LoadKind(key))
				d.PlaceLoad(i, j, l.X, l.Y)
			}
		}))
	if l != nil {
		switch l.Kind {
		case engine.Patch:
			f.patchLines(b, root, at)
		case engine.Line:
			f.lineLines(b, root, i, j, l.Across, at)
		case engine.Couple:
			f.coupleLines(b, root, at)
		}
	}
	b.add(f.button("Remove load "+strconv.Itoa(j+1), "", func() {
		f.session.Edit("removed load", "", func(d *engine.Design) {
			if i < len(d.Cases) {
				d.Cases[i].Loads = without(d.Cases[i].Loads, j)
			}
		})
	}))
}

// force is a field for a load, with the force in newtons and in everyday words
// below it.
func (f *form) force(s spec, at func(*engine.Design) *engine.Load) *line {
	l := f.value(s, forceQuantity, func(d *engine.Design) *float64 {
		if load := at(d); load != nil {
			return &load.Force
		}
		return nil
	})
	words := widgets.NewNote("", widgets.ColorPencil)
	show := l.show
	l.show = func(snap Snapshot) {
		show(snap)
		if load := at(&snap.Design); load != nil {
			text := forceText(load.Force, snap.Lengths)
			if load.Kind == engine.Couple {
				text += " · turns with " + engine.MomentText(load.Moment(), snap.Lengths)
			}
			words.Set(text, widgets.ColorPencil)
		}
	}
	l.object = container.New(widgets.NewColumn(2), l.object, words)
	return l
}

// addCase adds a case like the last one, with one load.
func addCase(d *engine.Design) {
	c := engine.LoadCase{Name: "Case " + strconv.Itoa(len(d.Cases)+1), Duration: engine.ShortTerm}
	if n := len(d.Cases); n > 0 {
		last := d.Cases[n-1]
		c.Duration = last.Duration
		c.Loads = []engine.Load{nextLoad(*d, last)}
	} else {
		c.Loads = []engine.Load{nextLoad(*d, c)}
	}
	d.Cases = append(d.Cases, c)
}

// nextLoad is a load like the last of a case, at the middle of the top; without
// one it is like that of a new design for the same use.
func nextLoad(d engine.Design, c engine.LoadCase) engine.Load {
	l := engine.Load{Kind: engine.Patch}
	if n := len(c.Loads); n > 0 {
		l = c.Loads[n-1]
	} else if fresh := engine.Start(d.Use, d.Length, d.Width); len(fresh.Cases) > 0 && len(fresh.Cases[0].Loads) > 0 {
		l = fresh.Cases[0].Loads[0]
	}
	l.Name = "Load " + strconv.Itoa(len(c.Loads)+1)
	if l.Kind == engine.Patch || l.Kind == engine.Line {
		l.X, l.Y = d.Length/2, d.Width/2
	}
	return l
}
