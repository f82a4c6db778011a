package app

import (
	"strconv"

	"flatwright/engine"
)

// edgesGroup is the band around the core and the blocks in its bays.
func (f *form) edgesGroup() *group {
	return &group{
		name: "Edges and blocks", roots: []string{"edgeBand", "blocks"},
		shape: func(d engine.Design) string { return strconv.Itoa(len(d.Blocks)) },
		build: func(b *builder) {
			b.heading("Edge band, closing the four sides")
			f.stockLines(b, stockSpec{root: "edgeBand", name: "edge band", woods: true, none: "no edge band",
				at: func(d *engine.Design) stock { return stock{&d.EdgeBand.Material, &d.EdgeBand.Thickness, nil} }})
			b.heading("Blocks: solid wood in a bay, under a vise, a leg or a row of dog holes")
			for i := range f.snap.Design.Blocks {
				f.blockLines(b, i)
			}
			b.add(f.buttonIf("Add a block", "In the first bay that has none. A bay is the space between two neighbouring ribs each way.",
				func(d engine.Design) bool { _, _, free := freeBay(d); return free },
				func() { f.session.Edit("block", "", addBlock) }))
		},
		summary: func(s Snapshot) string {
			d := s.Design
			text := "no edge band"
			if d.EdgeBand.Thickness > 0 {
				text = sheetText(d, d.EdgeBand.Material, d.EdgeBand.Thickness, s.Lengths) + " band"
			}
			return text + ", " + countOf(len(d.Blocks), "block", "blocks")
		},
	}
}

func (f *form) blockLines(b *builder, i int) {
	at := func(d *engine.Design) *engine.Block {
		if i < len(d.Blocks) {
			return &d.Blocks[i]
		}
		return nil
	}
	name := "block " + strconv.Itoa(i+1)
	b.add(f.choice(spec{path: path("blocks[%d].material", i), label: "Block " + strconv.Itoa(i+1), edit: name + " material",
		help: "What the block is made of. It fills the whole height of the core."},
		func(snap Snapshot) []option { return materialOptions(snap.Design, true, "") },
		func(d engine.Design) string {
			if p := at(&d); p != nil {
				return p.Material
			}
			return ""
		},
		func(d *engine.Design, key string) {
			if p := at(d); p != nil {
				p.Material = key
			}
		}))
	b.add(f.count(spec{path: path("blocks[%d].column", i), label: "Bay from the left", edit: name + " place",
		help: "1 is the bay between the first two crosswise ribs."},
		1, func(d *engine.Design) *int {
			if p := at(d); p != nil {
				return &p.Column
			}
			return nil
		}))
	b.add(f.count(spec{path: path("blocks[%d].row", i), label: "Bay from the front", edit: name + " place",
		help: "1 is the bay between the first two lengthwise ribs."},
		1, func(d *engine.Design) *int {
			if p := at(d); p != nil {
				return &p.Row
			}
			return nil
		}))
	b.add(f.button("Remove block "+strconv.Itoa(i+1), "", func() {
		f.session.Edit("removed block", "", func(d *engine.Design) { d.Blocks = without(d.Blocks, i) })
	}))
}

// without returns the list less its i-th, with nothing shared.
func without[T any](list []T, i int) []T {
	if i < 0 || i >= len(list) {
		return list
	}
	return append(append([]T(nil), list[:i]...), list[i+1:]...)
}

// freeBay returns the first bay without a block.
func freeBay(d engine.Design) (column, row int, free bool) {
	taken := map[[2]int]bool{}
	for _, b := range d.Blocks {
		taken[[2]int{b.Column, b.Row}] = true
	}
	columns, rows := ribCount(d.Crosswise)-1, ribCount(d.Lengthwise)-1
	for row = range max(rows, 0) {
		for column = range max(columns, 0) {
			if !taken[[2]int{column, row}] {
				return column, row, true
			}
		}
	}
	return 0, 0, false
}

// addBlock puts one more block of the last one's material, or of the ribs', in
// the first free bay.
func addBlock(d *engine.Design) {
	column, row, free := freeBay(*d)
	if !free {
		return
	}
	d.Blocks = append(d.Blocks, engine.Block{Material: blockMaterial(*d), Column: column, Row: row})
}

// blockMaterial is that of the last block, else that of the ribs.
func blockMaterial(d engine.Design) string {
	if n := len(d.Blocks); n > 0 {
		return d.Blocks[n-1].Material
	}
	return d.Lengthwise.Material
}

// optionLabel is what people read for a stored key.
func optionLabel(options []option, key string) string {
	for _, o := range options {
		if o.key == key {
			return o.label
		}
	}
	return key
}
