package app

import (
	"slices"
	"strconv"
	"strings"

	"flatwright/engine"
	"flatwright/engine/length"
)

// cutGroups are the decisions about how the parts are cut.
func cutGroups(keepLeftovers func()) func(*form) []*group {
	return func(f *form) []*group {
		return []*group{f.stockGroup(keepLeftovers), f.sawingGroup(), f.toolsGroup(), f.splicesGroup()}
	}
}

// stockGroup is what there is to cut from: sheets that can be bought, and what
// is on hand.
func (f *form) stockGroup(keepLeftovers func()) *group {
	return &group{
		name: "Stock", roots: []string{"stock", "prices"},
		shape: func(d engine.Design) string {
			var shape strings.Builder
			for _, p := range priced(d) {
				shape.WriteString(p.material + "|" + plainNumber(p.thickness) + ";")
			}
			return shape.String() + strconv.Itoa(len(d.Stock))
		},
		build: func(b *builder) {
			b.heading("Sheets you can buy")
			for _, p := range priced(f.snap.Design) {
				f.priceLines(b, p)
			}
			b.heading("On hand: whole sheets, offcuts, boards")
			for i := range f.snap.Design.Stock {
				f.onHandLines(b, i)
			}
			b.add(f.button("Add something on hand", "A sheet or an offcut that is there already. It costs nothing, and is used before anything is bought.", func() {
				f.session.Edit("sheet on hand", "", addOnHand)
			}))
			b.add(f.button("Keep the leftovers", "What the layout leaves over is remembered as offcuts, and what it uses up is taken off your list. This design stays as it is.", keepLeftovers))
		},
		summary: func(s Snapshot) string {
			n := 0
			for _, t := range s.Design.Stock {
				n += t.OnHand
			}
			return countOf(len(s.Design.Prices), "size to buy", "sizes to buy") + ", " + countOf(n, "piece on hand", "pieces on hand")
		},
	}
}

// addOnHand adds an offcut like the last entry, or of the top skin's sheet.
func addOnHand(d *engine.Design) {
	t := engine.Stock{Material: d.TopSkin.Material, Thickness: d.TopSkin.Thickness, Length: 1000, Width: 500, OnHand: 1, Offcut: true}
	if n := len(d.Stock); n > 0 {
		t = d.Stock[n-1]
		t.OnHand = 1
	}
	d.Stock = append(d.Stock, t)
}

func (f *form) onHandLines(b *builder, i int) {
	at := func(d *engine.Design) *engine.Stock {
		if i < len(d.Stock) {
			return &d.Stock[i]
		}
		return nil
	}
	number := strconv.Itoa(i + 1)
	name := "sheet " + number + " on hand"
	var none engine.Stock // of a design that has no such entry any more
	f.stockLines(b, stockSpec{root: path("stock[%d]", i), name: name, woods: true, at: func(d *engine.Design) stock {
		t := at(d)
		if t == nil {
			t = &none
		}
		return stock{&t.Material, &t.Thickness, nil}
	}})
	value := func(field, label, help string, q quantity, of func(*engine.Stock) *float64) {
		b.add(f.value(spec{path: path("stock[%d]."+field, i), label: label, edit: name, help: help}, q, func(d *engine.Design) *float64 {
			if t := at(d); t != nil {
				return of(t)
			}
			return nil
		}))
	}
	pick := func(field, label, help string, yes, no option, of func(*engine.Stock) *bool) {
		b.add(f.choice(spec{path: path("stock[%d]."+field, i), label: label, edit: name, help: help}, fixedOptions(no, yes),
			func(d engine.Design) string {
				if t := at(&d); t != nil && *of(t) {
					return yes.key
				}
				return no.key
			},
			func(d *engine.Design, key string) {
				if t := at(d); t != nil {
					*of(t) = key == yes.key
				}
			}))
	}
	value("length", "Length", "Of the sheet or the offcut, as it lies there.", lengthQuantity, func(t *engine.Stock) *float64 { return &t.Length })
	value("width", "Width", "Of the sheet or the offcut.", lengthQuantity, func(t *engine.Stock) *float64 { return &t.Width })
	b.add(f.count(spec{path: path("stock[%d].onHand", i), label: "How many", edit: name, help: "That are there already."}, 0, func(d *engine.Design) *int {
		if t := at(d); t != nil {
			return &t.OnHand
		}
		return nil
	}))
	pick("across", "Face grain", "Which way the grain of its faces runs. Without effect for boards that have none.",
		option{"across", "across its length"}, option{"along", "along its length"}, func(t *engine.Stock) *bool { return &t.Across })
	pick("offcut", "More of it", "An offcut cannot be bought again; a whole sheet can.",
		option{"none", "cannot be bought"}, option{"more", "can be bought"}, func(t *engine.Stock) *bool { return &t.Offcut })
	value("price", "Price of one more", "In your own currency. Empty is not known, or nothing to buy.", optional(money), func(t *engine.Stock) *float64 { return &t.Price })
	b.add(f.button("Remove "+name, "", func() {
		f.session.Edit("removed sheet", "", func(d *engine.Design) { d.Stock = without(d.Stock, i) })
	}))
}

// sawingGroup is how the sheets are cut up.
func (f *form) sawingGroup() *group {
	return &group{
		name: "Sawing", roots: []string{"cutting"},
		shape: func(d engine.Design) string { return strings.Join(grainKeys(d), "|") },
		build: func(b *builder) {
			b.add(f.value(spec{path: "cutting.kerf", label: "Saw cut", edit: "saw cut",
				help: "Width that the blade turns to dust: cut a scrap and measure the gap. Empty takes " + f.lengths.Print(engine.SawKerf) + "."},
				optional(lengthQuantity), func(d *engine.Design) *float64 { return &d.Cutting.Kerf }))
			b.add(f.value(spec{path: "cutting.trim", label: "Trim of every edge", edit: "trim",
				help: "Taken off all four edges of a sheet before parts are cut, where the raw edge is dented or out of square. Empty is nothing."},
				optional(lengthQuantity), func(d *engine.Design) *float64 { return &d.Cutting.Trim }))
			b.add(f.count(spec{path: "cutting.stages", label: "Turns of the work at most", edit: "stages",
				help: "All cuts of one direction, then all across them, and so on: each is a turn. 2 or 3 are quick on a table saw. 0 is any number."},
				0, func(d *engine.Design) *int { return &d.Cutting.Stages }))
			b.add(f.value(spec{path: "cutting.carry", label: "Heaviest piece to carry", edit: "carry",
				help: "The first cuts break a sheet into pieces no heavier than this: 15 to 25 kg for one person, twice that for two; common practice, no source. Empty is no limit."},
				optional(massQuantity), func(d *engine.Design) *float64 { return &d.Cutting.Carry }))
			keys := grainKeys(f.snap.Design)
			if len(keys) > 0 {
				b.heading("Which way the face grain of a piece may run")
			}
			for _, key := range keys {
				f.grainLine(b, key)
			}
		},
		summary: func(s Snapshot) string {
			c := s.Design.Cutting
			text := "cut " + s.Lengths.Print(c.SawCut()) + " wide"
			if c.Trim > 0 {
				text += ", trim " + s.Lengths.Print(c.Trim)
			}
			if c.Carry > 0 {
				text += ", up to " + length.Mass(c.Carry, s.Lengths) + " to carry"
			}
			return text
		},
	}
}

// grainKeys are the words for pieces whose sheets have a face grain, as
// [engine.Cutting.Free] has them.
func grainKeys(d engine.Design) []string {
	var keys []string
	for _, p := range d.Pieces() {
		if m, _ := d.Material(p.Material); m.Grained() && !slices.Contains(keys, p.GrainKey()) {
			keys = append(keys, p.GrainKey())
		}
	}
	return keys
}

// grainName is what people call the pieces of that word.
func grainName(key string) string {
	if key == engine.TopSeam || key == engine.BottomSeam {
		return capital(optionLabel(skinOptions, key))
	}
	return capital(key) + "s"
}

func (f *form) grainLine(b *builder, key string) {
	b.add(f.choice(spec{path: "cutting.free." + key, label: grainName(key), edit: "grain of the " + key,
		help: "As drawn is what stiffness and strength are computed with. Either way wastes less and makes the piece weaker or stiffer than computed."},
		fixedOptions(option{"drawn", "as drawn"}, option{"free", "either way"}),
		func(d engine.Design) string { return either(slices.Contains(d.Cutting.Free, key), "free", "drawn") },
		func(d *engine.Design, way string) {
			d.Cutting.Free = slices.DeleteFunc(slices.Clone(d.Cutting.Free), func(k string) bool { return k == key })
			if way == "free" {
				d.Cutting.Free = append(d.Cutting.Free, key)
			}
		}))
}
