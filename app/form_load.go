package app

import (
	"strconv"

	"flatwright/engine"
)

// point is the key of a small load on one spot among the loads to add; the
// design knows it as a patch.
const point = "point"

var addOptions = []option{
	{"", "like the load before it"},
	{string(engine.Patch), "a thing on one spot"},
	{point, "a point: a foot, a jack"},
	{string(engine.Line), "a line: a fence, stacked boards"},
	{string(engine.Uniform), "spread over the whole top"},
	{string(engine.Couple), "a pull: a vise, a clamp"},
}

// adding is the choice of what the button below it adds. It edits nothing.
func (f *form) adding(i int) *line {
	return f.question(spec{path: path("cases[%d].add", i), label: "Next load", help: "What the button below adds. A point is 50 × 50 mm (EN 1991-1-1, from memory), a line 20 mm wide (common practice); both can be changed. A pull needs a block of solid wood in its bay."},
		fixedOptions(addOptions...), func(Snapshot) string { return f.add[i] }, func(key string) { f.add[i] = key })
}

// newLoad is the load that is added to a case: one like the last, or one of a
// kind as heavy as the last.
func newLoad(d engine.Design, c engine.LoadCase, kind string) engine.Load {
	like := nextLoad(d, c)
	if kind == "" || kind == string(engine.Patch) && like.Kind == engine.Patch {
		return like
	}
	weight := 0.0
	for _, l := range c.Loads {
		if l.Kind != engine.Couple {
			weight = l.Force
		}
	}
	if weight == 0 {
		weight = nextLoad(d, engine.LoadCase{}).Force
	}
	var l engine.Load
	switch kind {
	case point:
		l = engine.NewLoad(d, engine.Patch, weight)
	case string(engine.Patch):
		l = nextLoad(d, engine.LoadCase{})
		l.Force = weight
	case string(engine.Couple):
		l = engine.NewLoad(d, engine.Couple, engine.CouplePull)
	default:
		l = engine.NewLoad(d, engine.LoadKind(kind), weight)
	}
	l.Name = like.Name
	return l
}

// become makes a load one of another kind. What the kinds share stays.
func become(d *engine.Design, l *engine.Load, kind engine.LoadKind) {
	fresh := engine.NewLoad(*d, kind, l.Force)
	placed := l.SizeX > 0 || l.SizeY > 0
	switch kind {
	case engine.Patch:
		if !placed {
			fresh = nextLoad(*d, engine.LoadCase{})
			l.X, l.Y, l.SizeX, l.SizeY = fresh.X, fresh.Y, fresh.SizeX, fresh.SizeY
		}
	case engine.Line:
		if !placed {
			l.X, l.Y = fresh.X, fresh.Y
		}
		l.SizeX, l.SizeY, l.Across = fresh.SizeX, fresh.SizeY, false
	case engine.Couple:
		if l.Pull == "" {
			l.Pull, l.Arm, l.Column, l.Row = fresh.Pull, fresh.Arm, fresh.Column, fresh.Row
		}
	}
	l.Kind = kind
}

// ofLoad makes a pointer to a field of a load, nil where there is no such load.
func ofLoad[T any](at func(*engine.Design) *engine.Load, of func(*engine.Load) *T) func(*engine.Design) *T {
	return func(d *engine.Design) *T {
		if l := at(d); l != nil {
			return of(l)
		}
		return nil
	}
}

func (f *form) placeLines(b *builder, root string, at func(*engine.Design) *engine.Load) {
	b.add(f.value(spec{path: root + ".x", label: "From the left end", edit: "load position", help: "To the middle of the load. It can be dragged in the plan too."},
		lengthQuantity, ofLoad(at, func(l *engine.Load) *float64 { return &l.X })))
	b.add(f.value(spec{path: root + ".y", label: "From the front edge", edit: "load position", help: "To the middle of the load."},
		lengthQuantity, ofLoad(at, func(l *engine.Load) *float64 { return &l.Y })))
}

func (f *form) patchLines(b *builder, root string, at func(*engine.Design) *engine.Load) {
	f.placeLines(b, root, at)
	b.add(f.value(spec{path: root + ".sizeX", label: "Its length", edit: "load size", help: "How far it spreads along the length of the top."},
		lengthQuantity, ofLoad(at, func(l *engine.Load) *float64 { return &l.SizeX })))
	b.add(f.value(spec{path: root + ".sizeY", label: "Its width", edit: "load size", help: "How far it spreads across the width of the top."},
		lengthQuantity, ofLoad(at, func(l *engine.Load) *float64 { return &l.SizeY })))
}

// lineLines are the fields of a line load: its length and width are kept as
// sizes along and across the top.
func (f *form) lineLines(b *builder, root string, i, j int, across bool, at func(*engine.Design) *engine.Load) {
	b.add(f.choice(spec{path: root + ".across", label: "It runs", edit: "load direction", help: "A line lies parallel to an edge of the top."},
		fixedOptions(option{"false", "along the length"}, option{"true", "across the width"}),
		func(d engine.Design) string {
			if l := at(&d); l != nil {
				return strconv.FormatBool(l.Across)
			}
			return ""
		},
		func(d *engine.Design, key string) {
			if l := at(d); l != nil && key != strconv.FormatBool(l.Across) {
				l.Across = !l.Across
				l.SizeX, l.SizeY = min(l.SizeY, d.Length), min(l.SizeX, d.Width)
				d.PlaceLoad(i, j, l.X, l.Y)
			}
		}))
	f.placeLines(b, root, at)
	long, wide := ".sizeX", ".sizeY"
	if across {
		long, wide = wide, long
	}
	size := func(name string) func(*engine.Design) *float64 {
		return ofLoad(at, func(l *engine.Load) *float64 {
			if name == ".sizeX" {
				return &l.SizeX
			}
			return &l.SizeY
		})
	}
	b.add(f.value(spec{path: root + long, label: "Its length", edit: "load size", help: "From one end of the line to the other. The weight is that of the whole line."}, lengthQuantity, size(long)))
	b.add(f.value(spec{path: root + wide, label: "Its width", edit: "load size", help: "How wide a strip it presses on: the edge of a board or the foot of a fence is about 20 mm wide (common practice)."}, lengthQuantity, size(wide)))
}

var pullOptions = []option{
	{string(engine.PullFront), "to the front"},
	{string(engine.PullBack), "to the back"},
	{string(engine.PullLeft), "to the left"},
	{string(engine.PullRight), "to the right"},
}

// coupleLines are the fields of a pull that turns a block.
func (f *form) coupleLines(b *builder, root string, at func(*engine.Design) *engine.Load) {
	b.add(f.value(spec{path: root + ".arm", label: "Height of the pull", edit: "height of the pull",
		help: "From what holds against it up to where it pulls: from the bolts of a vise up to the work in its jaws. Pull times height turns the block; the sideways pull itself goes into the legs."},
		lengthQuantity, ofLoad(at, func(l *engine.Load) *float64 { return &l.Arm })))
	b.add(f.choice(spec{path: root + ".pull", label: "Which way it pulls", edit: "way of the pull",
		help: "That side of the block is pressed down, the other one is pulled up."},
		fixedOptions(pullOptions...),
		func(d engine.Design) string {
			if l := at(&d); l != nil {
				return string(l.Pull)
			}
			return ""
		},
		func(d *engine.Design, key string) {
			if l := at(d); l != nil {
				l.Pull = engine.Pull(key)
			}
		}))
	f.screwLines(b, root+".screws", "pulled up there", func(d *engine.Design) *engine.Screws {
		if l := at(d); l != nil {
			return &l.Screws
		}
		return nil
	})
	b.add(f.count(spec{path: root + ".column", label: "Bay from the left", edit: "place of the pull", help: "1 is the bay between the first two crosswise ribs. It needs a block; in the plan the pull can be dragged from block to block."},
		1, ofLoad(at, func(l *engine.Load) *int { return &l.Column })))
	b.add(f.count(spec{path: root + ".row", label: "Bay from the front", edit: "place of the pull", help: "1 is the bay between the first two lengthwise ribs."},
		1, ofLoad(at, func(l *engine.Load) *int { return &l.Row })))
	b.add(f.buttonIf("Fill this bay with a block", "Puts solid wood into the bay that is pulled on. Its material can be picked under “Edges and blocks”.",
		func(d engine.Design) bool { l := at(&d); return l != nil && canFill(d, l.Column, l.Row) },
		func() {
			f.session.Edit("block", "", func(d *engine.Design) {
				if l := at(d); l != nil && canFill(*d, l.Column, l.Row) {
					d.Blocks = append(d.Blocks, engine.Block{Material: blockMaterial(*d), Column: l.Column, Row: l.Row})
				}
			})
		}))
}

// canFill reports whether a bay of the grid has no block yet.
func canFill(d engine.Design, column, row int) bool {
	return column >= 0 && row >= 0 && column < ribCount(d.Crosswise)-1 && row < ribCount(d.Lengthwise)-1 && !d.HasBlock(column, row)
}
