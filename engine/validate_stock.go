package engine

import "fmt"

// Bounds of what can be cut; slips of the pen lie outside. Common practice, no
// source, all of them.
const (
	minStock   = 20.0 // length and width of an offcut, mm
	maxKerf    = 20.0 // mm
	maxTrim    = 100.0
	maxOnHand  = 10_000
	maxStages  = 100
	maxCarry   = 1000.0 // kg
	maxThickOf = 600.0  // thickness of a board: blocks are as thick as the core is deep, mm
)

// stock checks the sheets on the list.
func (r *review) stock() {
	if n := len(r.d.Stock); n > maxListed {
		r.block("too-much-stock", "stock", "The stock lists %d kinds of sheets; up to %d can be kept in a design. Remove those it does not use.", n, maxListed)
		return
	}
	const help = "Measure the sheet."
	for i, s := range r.d.Stock {
		path := fmt.Sprintf("stock[%d]", i)
		subject := fmt.Sprintf("of sheet %d in the stock", i+1)
		r.between("stock-thickness", path+".thickness", "The thickness "+subject, s.Thickness, minSkin, maxThickOf, help)
		r.between("stock-size", path+".length", "The length "+subject, s.Length, minStock, maxSize, help)
		r.between("stock-size", path+".width", "The width "+subject, s.Width, minStock, maxSize, help)
		switch {
		case s.Price < 0:
			r.block("stock-price", path+".price", "A sheet cannot cost %s. Type what you pay, or leave it empty.", plainNumber(s.Price))
		case s.Price > maxMoney:
			r.block("stock-price", path+".price", "A sheet at %s is over what can be added up. Check the figure.", plainNumber(s.Price))
		}
		switch {
		case s.OnHand < 0:
			r.block("stock-count", path+".onHand", "There cannot be %d sheets on hand. Type how many there are, or 0.", s.OnHand)
		case s.OnHand > maxOnHand:
			r.block("stock-count", path+".onHand", "%d sheets on hand are more than can be laid out; up to %d can. Check the figure.", s.OnHand, maxOnHand)
		case s.OnHand == 0 && s.Offcut:
			r.add(Advice, "offcut-gone", path+".onHand", "Offcut %d in the stock is counted as none, and offcuts cannot be bought: nothing is cut from it. Type how many there are, or remove it.", i+1)
		}
		for _, p := range r.d.Prices {
			if !s.Offcut && s.Price > 0 && p.Sheet > 0 && s.Price != p.Sheet && s.same(p.Material, p.Thickness) && s.Length == p.Length && s.Width == p.Width {
				r.add(Advice, "stock-price-twice", path+".price", "The stock has a sheet of %s at %s, the list of prices at %s. The layout counts the stock's price, the cost by area the other. Give both the same price.",
					inMM(s.Thickness), plainNumber(s.Price), plainNumber(p.Sheet))
			}
		}
	}
}

// cutting checks how the sheets are cut up.
func (r *review) cutting() {
	c := r.d.Cutting
	if c.Kerf < 0 || c.Kerf > maxKerf {
		r.block("cut-kerf", "cutting.kerf", "A saw cut cannot be %s wide; up to %s can be laid out. Cut a scrap and measure the gap, or leave it empty for %s.", inMM(c.Kerf), inMM(maxKerf), inMM(SawKerf))
	}
	if c.Trim < 0 || c.Trim > maxTrim {
		r.block("cut-trim", "cutting.trim", "A trim of %s off every edge of a sheet cannot be laid out; up to %s can. Type what the saw takes off to get a clean edge, or 0.", inMM(c.Trim), inMM(maxTrim))
	}
	if c.Stages < 0 || c.Stages > maxStages {
		r.block("cut-stages", "cutting.stages", "A layout of %d stages of cuts cannot be made; 2 or 3 are usual. Type that, or 0 for any number.", c.Stages)
	}
	if c.Carry < 0 || c.Carry > maxCarry {
		r.block("cut-carry", "cutting.carry", "Nobody carries pieces of %s kg; from 1 to %s kg can be entered. Type what one or two people lift at ease, or 0 for no limit.", plainNumber(c.Carry), plainNumber(maxCarry))
	}
	if n := len(c.Free); n > maxListed {
		r.block("cut-free", "cutting.free", "%d pieces are marked as free to turn; up to %d can be. Remove those that the design no longer has.", n, maxListed)
	}
}
