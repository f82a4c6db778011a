package app

import (
	"fmt"
	"strconv"
	"strings"

	"flatwright/engine"
	"flatwright/widgets"
)

// cutCards are what stands beside the sheets.
func cutCards(s Snapshot) []card {
	return []card{sheetsCard(s), orderCard(s), leftoverCard(s)}
}

// sheetsCard tells what to buy, what it costs and how good the layout is.
func sheetsCard(s Snapshot) card {
	c := card{title: "Sheets"}
	if !s.Cut.Found {
		return c
	}
	cost, known := s.Cut.Plan.Cost()
	for _, stock := range s.Cut.Plan.Stocks {
		c.blocks = append(c.blocks, stockBlocks(s, stock)...)
	}
	if known {
		c.blocks = append(c.blocks, block{kind: kindFigure, text: "to buy, together", value: fig(cost), standing: stands(cost, s.Design.Limits.Cost), field: "limits.cost",
			note: limitNote(stands(cost, s.Design.Limits.Cost), fig(s.Design.Limits.Cost)) + "; whole sheets, in your currency"})
	} else {
		c.blocks = append(c.blocks, block{kind: kindText, text: "What it costs is known once every part has its sheet, and every sheet its size and its price. Press here to list them.", field: "stock"})
	}
	return c
}

// stockBlocks tells of the sheets of one material and thickness.
func stockBlocks(s Snapshot, stock engine.StockCut) []block {
	name := capital(sheetText(s.Design, stock.Material, stock.Thickness, s.Lengths))
	if stock.Trouble != "" {
		standing := widgets.Over
		if stock.Boards {
			standing = widgets.Near
		}
		return []block{
			{kind: kindFigure, text: name, value: plural(pieceCount(stock), "piece")},
			{kind: kindText, text: "▲ " + inUnit(stock.Trouble, s.Lengths), standing: standing, field: stock.Field},
		}
	}
	n := len(stock.Plan.Sheets)
	note := "all of them to buy"
	if have := n - stock.Bought(); have > 0 {
		note = countOf(have, "is", "are") + " on hand, " + countOf(stock.Bought(), "is", "are") + " to buy"
	}
	if stock.Priced && !stock.Assumed && stock.Plan.Cost > 0 {
		note += ", " + fig(stock.Plan.Cost)
	}
	if n == 0 && !stock.Settled {
		return []block{{kind: kindFigure, text: name, value: "…", note: "not laid out yet", field: "stock"}}
	}
	blocks := []block{{kind: kindFigure, text: name, value: plural(n, "sheet"), note: note, field: "stock"}}
	if stock.Assumed {
		blocks = append(blocks, block{kind: kindText, standing: widgets.Near, field: "stock",
			text: "▲ No sheet of this is listed: one of " + s.Lengths.Print(stock.Job.Stock[0].Length) + " × " + s.Lengths.Print(stock.Job.Stock[0].Width) + ", as most are sold, is assumed."})
	}
	standing := block{kind: kindQuiet, text: stock.Standing()}
	switch {
	case stock.Plan.Bound.Proven:
		standing.kind, standing.standing, standing.text = kindText, widgets.Good, "● "+standing.text
	case len(stock.Plan.Unplaced) > 0:
		standing.kind, standing.standing, standing.text = kindText, widgets.Over, "■ "+standing.text+" "+unplacedText(stock)
	}
	blocks = append(blocks, standing)
	for _, i := range stock.Plan.Heavy {
		blocks = append(blocks, block{kind: kindText, standing: widgets.Near, part: stock.Parts[i].Of[0],
			text: "▲ " + stock.Parts[i].Name + " is heavier by itself than what is to be carried. Get help, or a trolley."})
	}
	var inside []block
	for i, p := range stock.Parts {
		q := stock.Job.Pieces[i]
		inside = append(inside, block{kind: kindFigure, text: strings.Join(p.IDs, ", "), value: s.Lengths.Print(q.Length) + " × " + s.Lengths.Print(q.Width), part: p.Of[0],
			note: countOf(q.Count, "piece", "pieces") + ", " + string(p.Kind)})
	}
	return append(blocks, block{kind: kindFold, key: "pieces " + name, text: "Pieces cut from it", inside: inside})
}

// plural counts in digits, for the column of figures.
func plural(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return strconv.Itoa(n) + " " + thing + "s"
}

func pieceCount(s engine.StockCut) int {
	n := 0
	for _, p := range s.Job.Pieces {
		n += p.Count
	}
	return n
}

// unplacedText names the parts that found no room.
func unplacedText(s engine.StockCut) string {
	var words []string
	for _, m := range s.Plan.Unplaced {
		words = append(words, countOf(m.Count, "piece", "pieces")+" of "+s.Parts[m.Piece].Mark)
	}
	return "Without a place: " + strings.Join(words, ", ") + "."
}

// orderCard tells the cuts in the order of work.
func orderCard(s Snapshot) card {
	c := card{title: "Cut order"}
	sheets := s.Cut.Plan.Sheets()
	if len(sheets) == 0 {
		return c
	}
	c.blocks = append(c.blocks, block{kind: kindQuiet, text: "Every cut goes from edge to edge. Fence is the width between fence and blade; cuts of one setting are made one after the other, over all sheets, before the fence is moved."})
	for _, l := range sheets {
		var inside []block
		for _, step := range engine.CutSteps(l, s.Lengths) {
			inside = append(inside, block{kind: kindFigure, text: strconv.Itoa(step.Number) + ". " + step.Text, value: step.Fence, note: "setting " + strconv.Itoa(step.Setting)})
			if step.Caution != "" {
				inside = append(inside, block{kind: kindText, text: "▲ " + step.Caution, standing: widgets.Near})
			}
		}
		c.blocks = append(c.blocks, block{kind: kindFold, key: "cuts " + strconv.Itoa(l.Number), text: fmt.Sprintf("Sheet %d: %s", l.Number, countOf(len(inside), "cut", "cuts")), inside: inside})
	}
	c.blocks = append(c.blocks, block{kind: kindText, standing: widgets.Near, text: "▲ Before the saw: guard and riving knife on, blade set just through, eyes, ears and lungs protected, sheet supported on both sides of the cut, hands away from the line. The saw's own manual and local rules come first."})
	return c
}

// leftoverCard tells what stays of the sheets.
func leftoverCard(s Snapshot) card {
	c := card{title: "Left over"}
	for _, l := range s.Cut.Plan.Sheets() {
		for _, r := range l.Sheet().Leftovers {
			if r.Useful {
				c.blocks = append(c.blocks, block{kind: kindFigure, text: "from sheet " + strconv.Itoa(l.Number) + ", " + sheetText(s.Design, l.Stock.Material, l.Stock.Thickness, s.Lengths),
					value: s.Lengths.Print(r.Length) + " × " + s.Lengths.Print(r.Width), part: engine.SheetPart(l.Number)})
			}
		}
	}
	if len(c.blocks) > 0 {
		c.blocks = append(c.blocks, block{kind: kindQuiet, text: "The button under Stock puts them on your list for the next design.", field: "stock"})
	}
	if share := s.Cut.Plan.Used(); share > 0 {
		c.blocks = append(c.blocks, block{kind: kindFigure, text: "of the sheets goes into the top", value: percent(share)})
	}
	return c
}
