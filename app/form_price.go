package app

import (
	"slices"

	"flatwright/engine"
)

// pricedStock is a material in one thickness that the design is cut from.
type pricedStock struct {
	material  string
	thickness float64
}

// priced lists the stock of a design that has a thickness, each once.
func priced(d engine.Design) []pricedStock {
	var list []pricedStock
	add := func(material string, thickness float64) {
		if material == "" || !(thickness > 0) {
			return
		}
		for _, p := range list {
			if p.material == material && p.thickness == thickness {
				return
			}
		}
		list = append(list, pricedStock{material, thickness})
	}
	add(d.TopSkin.Material, d.TopSkin.Thickness)
	add(d.BottomSkin.Material, d.BottomSkin.Thickness)
	add(d.Lengthwise.Material, d.Lengthwise.Thickness)
	add(d.Crosswise.Material, d.Crosswise.Thickness)
	add(d.EdgeBand.Material, d.EdgeBand.Thickness)
	return list
}

// priceOf returns the design's price of that stock, nil if it has none.
func priceOf(d *engine.Design, p pricedStock) *engine.Price {
	for i := range d.Prices {
		if d.Prices[i].Material == p.material && d.Prices[i].Thickness == p.thickness {
			return &d.Prices[i]
		}
	}
	return nil
}

func (f *form) priceLines(b *builder, p pricedStock) {
	name := sheetText(f.snap.Design, p.material, p.thickness, f.lengths)
	b.heading(capital(name))
	b.add(f.price(p, "sheet", "Price of a sheet", "sheet price", "What you pay for one whole sheet, in your own currency.",
		optional(money), func(p *engine.Price) *float64 { return &p.Sheet }))
	b.add(f.price(p, "length", "Length of the sheet", "sheet size", "As it comes from the shop.",
		lengthQuantity, func(p *engine.Price) *float64 { return &p.Length }))
	b.add(f.price(p, "width", "Width of the sheet", "sheet size", "As it comes from the shop.",
		lengthQuantity, func(p *engine.Price) *float64 { return &p.Width }))
}

// price is one field of the price of a piece of stock, which the design has
// only once something is typed.
func (f *form) price(p pricedStock, name, label, edit, help string, q quantity, of func(*engine.Price) *float64) *line {
	fresh := engine.Price{Material: p.material, Thickness: p.thickness, Length: engine.UsualSheetLength, Width: engine.UsualSheetWidth}
	l := f.valueOf(spec{path: "prices." + p.material + "." + plainNumber(p.thickness) + "." + name, label: label, edit: edit, help: help}, q,
		func(d *engine.Design) (float64, bool) {
			if price := priceOf(d, p); price != nil {
				return *of(price), true
			}
			return *of(&fresh), true
		},
		func(d *engine.Design, v float64) {
			price := priceOf(d, p)
			if price == nil {
				d.Prices = append(d.Prices, fresh)
				price = &d.Prices[len(d.Prices)-1]
			}
			*of(price) = v
			if price.Sheet == 0 && price.Length == fresh.Length && price.Width == fresh.Width { // nothing left to remember
				d.Prices = slices.DeleteFunc(d.Prices, func(q engine.Price) bool { return q == *price })
			}
		})
	l.alias = func(d engine.Design) string {
		for i, price := range d.Prices {
			if price.Material == p.material && price.Thickness == p.thickness {
				return path("prices[%d]."+name, i)
			}
		}
		return ""
	}
	return l
}
