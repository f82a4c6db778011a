package app

import (
	"strconv"

	"flatwright/engine"
)

// clampLines are the kinds of clamps at hand, one below the other.
func (f *form) clampLines(b *builder) {
	f.clampKind(b, "glueUp.clamps", "", "How many of one kind you have. Empty: as many as it takes are counted.", func(d *engine.Design) *engine.Clamps { return &d.GlueUp.Clamps })
	for i := range f.snap.Design.GlueUp.MoreClamps {
		number := strconv.Itoa(i + 2)
		b.heading("Kind " + number)
		f.clampKind(b, path("glueUp.moreClamps[%d]", i), " of kind "+number, "How many of this kind you have.", func(d *engine.Design) *engine.Clamps {
			if i < len(d.GlueUp.MoreClamps) {
				return &d.GlueUp.MoreClamps[i]
			}
			return nil
		})
		b.add(f.button("Remove kind "+number, "", func() {
			f.session.Edit("removed clamps", "", func(d *engine.Design) { d.GlueUp.MoreClamps = without(d.GlueUp.MoreClamps, i) })
		}))
	}
	b.add(f.button("Another kind of clamp", "Clamps of another force or reach. All kinds are used: those that reach farthest in the middle, the strongest with the cauls in the middle.", func() {
		f.session.Edit("another kind of clamp", "", func(d *engine.Design) {
			d.GlueUp.MoreClamps = append(d.GlueUp.MoreClamps, engine.Clamps{Count: 2})
		})
	}))
}

// clampKind is one kind of clamps; at returns nil once it is gone.
func (f *form) clampKind(b *builder, place, name, help string, at func(*engine.Design) *engine.Clamps) {
	b.add(f.howMany(spec{path: place + ".count", label: "Clamps", edit: "number of clamps" + name, help: help}, partOf(at, func(c *engine.Clamps) *int { return &c.Count })))
	b.add(f.value(spec{path: place + ".force", label: "Force of one", edit: "force of a clamp" + name, help: "That you can draw it to by hand; bar clamps make 200 to 600 kg. Type it in kg, N or lb. Empty takes 3 kN, some 300 kg."},
		optional(forceQuantity), partOf(at, func(c *engine.Clamps) *float64 { return &c.Force })))
	b.add(f.value(spec{path: place + ".reach", label: "How far in it reaches", edit: "reach of a clamp" + name, help: "From the bar to the middle of the pad. Empty is not checked."},
		optional(lengthQuantity), partOf(at, func(c *engine.Clamps) *float64 { return &c.Reach })))
}

// caulLines are the sizes of cauls at hand.
func (f *form) caulLines(b *builder) {
	f.caulKind(b, "glueUp.caul", "", "Empty: as many as it takes.", func(d *engine.Design) *engine.CaulStock { return &d.GlueUp.Caul })
	for i := range f.snap.Design.GlueUp.MoreCauls {
		number := strconv.Itoa(i + 2)
		b.heading("Size " + number)
		f.caulKind(b, path("glueUp.moreCauls[%d]", i), " of size "+number, "How many of this size you have.", func(d *engine.Design) *engine.CaulStock {
			if i < len(d.GlueUp.MoreCauls) {
				return &d.GlueUp.MoreCauls[i]
			}
			return nil
		})
		b.add(f.button("Remove size "+number, "", func() {
			f.session.Edit("removed cauls", "", func(d *engine.Design) { d.GlueUp.MoreCauls = without(d.GlueUp.MoreCauls, i) })
		}))
	}
	b.add(f.button("Another size of caul", "Cauls of another width or height. The stiffest go with the clamps that are drawn hardest.", func() {
		f.session.Edit("another size of caul", "", func(d *engine.Design) {
			d.GlueUp.MoreCauls = append(d.GlueUp.MoreCauls, engine.CaulStock{Count: 2})
		})
	}))
}

// caulKind is one size of cauls; at returns nil once it is gone.
func (f *form) caulKind(b *builder, place, name, help string, at func(*engine.Design) *engine.CaulStock) {
	b.add(f.howMany(spec{path: place + ".count", label: "Cauls", edit: "number of cauls" + name, help: help}, partOf(at, func(c *engine.CaulStock) *int { return &c.Count })))
	b.add(f.value(spec{path: place + ".width", label: "Width of the cauls", edit: "cauls" + name, help: "Of the face that presses. Empty takes 45 mm."},
		optional(lengthQuantity), partOf(at, func(c *engine.CaulStock) *float64 { return &c.Width })))
	b.add(f.value(spec{path: place + ".height", label: "Height of the cauls", edit: "cauls" + name, help: "Empty is proposed: the least that the wood bears, with a camber that can be planed."},
		optional(lengthQuantity), partOf(at, func(c *engine.CaulStock) *float64 { return &c.Height })))
}

// partOf is a field of one thing in a list; nil once the thing is gone.
func partOf[T, V any](at func(*engine.Design) *T, of func(*T) *V) func(*engine.Design) *V {
	return func(d *engine.Design) *V {
		if c := at(d); c != nil {
			return of(c)
		}
		return nil
	}
}

// howMany is a field for a number of things that may stay empty; at returns nil once
// there is nothing to count.
func (f *form) howMany(s spec, at func(*engine.Design) *int) *line {
	return f.valueOf(s, optional(wholeNumber), func(d *engine.Design) (float64, bool) {
		if n := at(d); n != nil {
			return float64(*n), true
		}
		return 0, false
	}, func(d *engine.Design, v float64) {
		if n := at(d); n != nil {
			*n = int(v)
		}
	})
}
