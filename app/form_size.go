package app

import (
	"flatwright/engine"
	"flatwright/engine/length"
)

// sizeGroup is what the top is called and how large it is.
func (f *form) sizeGroup() *group {
	return &group{
		name: "Size", roots: []string{"name", "notes", "use", "length", "width", "height"},
		shape: func(engine.Design) string { return "" },
		build: func(b *builder) {
			b.add(f.text(spec{path: "name", label: "Name", edit: "name", help: "Printed on the packet and offered as the file's name."},
				func(d *engine.Design) *string { return &d.Name }))
			b.add(f.value(spec{path: "length", label: "Length", edit: "length",
				help: "Finished length over the edge bands, from left to right in the plan. Type it as you would say it: 5' 4 3/8\", 64-3/8, 1.6 m, 19 mm. Arrow keys step, Shift steps far."},
				lengthQuantity, func(d *engine.Design) *float64 { return &d.Length }))
			b.add(f.value(spec{path: "width", label: "Width", edit: "width", help: "Finished width over the edge bands, from front to back."},
				lengthQuantity, func(d *engine.Design) *float64 { return &d.Width }))
			b.add(f.value(spec{path: "height", label: "Working height", edit: "working height", help: "Of the upper face above the floor. Empty if it does not matter."},
				optional(lengthQuantity), func(d *engine.Design) *float64 { return &d.Height }))
		},
		summary: func(s Snapshot) string {
			text := s.Lengths.String(s.Design.Length) + " × " + s.Lengths.String(s.Design.Width)
			if s.Design.Height > 0 {
				text += ", " + s.Lengths.Print(s.Design.Height) + " high"
			}
			return text
		},
	}
}

// skinsGroup is the two faces and what they are made of.
func (f *form) skinsGroup() *group {
	return &group{
		name: "Skins", roots: []string{"topSkin", "bottomSkin", "seams", "materials"},
		shape: func(d engine.Design) string {
			shape := ""
			for _, m := range d.Own {
				shape += m.Key + m.Name + "|"
			}
			return shape + seamShape(d)
		},
		build: func(b *builder) {
			b.heading("Top skin")
			f.skinLines(b, "topSkin", "top skin", func(d *engine.Design) *engine.Skin { return &d.TopSkin })
			b.heading("Bottom skin")
			b.add(f.buttonIf("Same as the top skin", "Copies material, thickness and grain. Two equal skins stay flat when the air turns damp; two different ones bow.",
				func(d engine.Design) bool { return d.BottomSkin != d.TopSkin },
				func() {
					f.session.Edit("bottom skin as top", "", func(d *engine.Design) { d.BottomSkin = d.TopSkin })
				}))
			f.skinLines(b, "bottomSkin", "bottom skin", func(d *engine.Design) *engine.Skin { return &d.BottomSkin })
			f.seamLines(b)
			b.add(f.button("A material of your own…", "For a sheet that is not in the list, or one whose stiffness you measured. It is kept in the design file.",
				func() {
					if w := windowOf(f.content); w != nil {
						showOwnMaterial(w, f.session)
					}
				}))
			f.ownLines(b)
		},
		summary: func(s Snapshot) string {
			d := s.Design
			top := "top " + sheetText(d, d.TopSkin.Material, d.TopSkin.Thickness, s.Lengths)
			if d.BottomSkin == d.TopSkin {
				return top + ", bottom the same"
			}
			return top + ", bottom " + sheetText(d, d.BottomSkin.Material, d.BottomSkin.Thickness, s.Lengths)
		},
	}
}

func (f *form) skinLines(b *builder, root, name string, at func(*engine.Design) *engine.Skin) {
	f.stockLines(b, stockSpec{
		root: root, name: name, woods: false,
		at: func(d *engine.Design) stock {
			skin := at(d)
			return stock{&skin.Material, &skin.Thickness, nil}
		},
	})
	b.add(f.choice(spec{path: root + ".across", label: "Face grain", edit: name + " grain",
		help: "Which way the grain of the sheet's own faces runs. Plywood is stiffer along it; boards such as MDF have none."},
		fixedOptions(option{"along", "along the length"}, option{"across", "across the length"}),
		func(d engine.Design) string {
			if at(&d).Across {
				return "across"
			}
			return "along"
		},
		func(d *engine.Design, key string) { at(d).Across = key == "across" }))
}

func fixedOptions(options ...option) func(Snapshot) []option {
	return func(Snapshot) []option { return options }
}

// sheetText names a piece of stock in few words: 1/2 in birch plywood.
func sheetText(d engine.Design, material string, thickness float64, f length.Format) string {
	return thicknessText(d, material, thickness, f) + " " + materialName(d, material)
}

// thicknessText is the nominal thickness if the stock is sold in that one,
// else the actual one.
func thicknessText(d engine.Design, material string, thickness float64, f length.Format) string {
	if i := nominalIndex(d, material, thickness); i >= 0 {
		m, _ := d.Material(material)
		return m.Thicknesses[i].Nominal
	}
	return f.Print(thickness)
}
