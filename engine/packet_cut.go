package engine

import (
	"fmt"
	"strconv"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// sheetsToBuy prints what the parts are cut from, and what that costs.
func (p *packet) sheetsToBuy() {
	if p.cut == nil {
		return
	}
	p.section("Sheets to buy")
	rows := [][]string{}
	for _, s := range p.cut.Stocks {
		m, _ := p.d.Material(s.Material)
		name := m.Name + " " + p.fine(s.Thickness)
		if s.Trouble != "" {
			rows = append(rows, []string{name, "", "", "", ""})
			continue
		}
		for i, sheet := range s.Job.Stock {
			n := 0
			for _, used := range s.Plan.Sheets {
				if used.Stock == i {
					n++
				}
			}
			if n == 0 {
				continue
			}
			row := []string{name, p.length(sheet.Length) + " × " + p.length(sheet.Width), strconv.Itoa(n), "to buy", "price not listed"}
			if s.Priced && !s.Assumed {
				row[4] = length.Number(float64(n)*sheet.Price, 4)
			}
			if s.onHand[i] {
				row[3], row[4] = "on hand", ""
			}
			rows = append(rows, row)
		}
	}
	p.table([]draw.Column{{Head: "Sheet", Width: 60}, {Head: "Size", Width: 45}, {Head: "How many", Width: 20, Right: true}, {Head: "", Width: 22}, {Head: "Cost", Width: 30, Right: true}}, rows)
	if cost := p.cost(); cost.Sheets != nil {
		p.text("To buy, together "+length.Number(*cost.Sheets, 4)+", in your own currency."+cost.over(p.d.Limits.Cost), strong)
		if cost.Total > 0 {
			p.text("The part of them that goes into the top is "+length.Number(cost.Total, 4)+" by area.", body)
		}
	} else {
		p.text("What it costs is known once every part has its sheet, and every sheet its size and its price.", body)
	}
	for _, s := range p.cut.Stocks {
		m, _ := p.d.Material(s.Material)
		p.text("• "+m.Name+" "+p.fine(s.Thickness)+": "+InUnits(s.Standing(), p.f), body)
		if s.Assumed {
			p.text("   No sheet of this is listed: one of the usual size is assumed. Measure yours before the first cut.", body)
		}
	}
	p.text(fmt.Sprintf("%.0f %% of the sheets goes into the top. The saw takes %s with every cut.", 100*p.cut.Used(), p.fine(p.d.Cutting.SawCut())), body)
}

// cost is what the top costs, with the sheets to buy if a layout is printed.
func (p *packet) cost() CostReport {
	if p.cut == nil {
		return p.r.Cost
	}
	return p.r.Cost.With(*p.cut)
}

// sheetLayouts prints every sheet to scale, then all cuts in the order of work.
func (p *packet) sheetLayouts() {
	if p.cut == nil || len(p.cut.Sheets()) == 0 {
		return
	}
	for _, l := range p.cut.Sheets() {
		m, _ := p.d.Material(l.Stock.Material)
		p.open(fmt.Sprintf("Sheet %d: %s %s", l.Number, m.Name, p.fine(l.Stock.Thickness)), p.paper.Landscape())
		// In these units a sign is six wide, as on a screen: 2.4 to a mm of paper.
		room := draw.Point{X: 2.4 * p.width(), Y: 2.4 * p.room()}
		p.placed(SheetsDrawing(p.d, *p.cut, SheetsOptions{Lengths: p.f, Only: l.Number, Room: room}), p.room()-4)
		p.text("The numbers are the cuts in their order. Dashed: left over.", small)
	}
	p.section("Cuts in their order")
	p.text("Every cut goes from edge to edge of the piece that lies on the saw. Fence is the width between fence and blade. Cuts of one setting are made one after the other, over all sheets of one thickness, before the fence is moved.", body)
	p.text("▲ Guard and riving knife on, blade set just through, eyes, ears and lungs protected, the sheet supported on both sides of the cut. The saw's manual and local rules come first.", body)
	for _, l := range p.cut.Sheets() {
		p.subheading(fmt.Sprintf("Sheet %d", l.Number))
		rows := [][]string{}
		for _, c := range CutSteps(l, p.f) {
			text := c.Text
			if c.Caution != "" {
				text += ". ▲ " + c.Caution
			}
			rows = append(rows, []string{strconv.Itoa(c.Number), text, c.Fence, strconv.Itoa(c.Setting)})
		}
		p.table([]draw.Column{{Head: "Cut", Width: 12, Right: true}, {Head: "What", Width: 110}, {Head: "Fence", Width: 28, Right: true}, {Head: "Setting", Width: 16, Right: true}}, rows)
	}
}
