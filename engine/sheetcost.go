package engine

import (
	"fmt"

	"flatwright/engine/length"
)

// With returns the report with what the sheets of a layout that are not on hand
// cost, if all of that is known.
func (c CostReport) With(p CutPlan) CostReport {
	c.Sheets = nil
	if cost, known := p.Cost(); known {
		c.Sheets = &cost
	}
	return c
}

// Most is the larger of what is known: the material by area, or the sheets to
// buy. It is what a limit is held against.
func (c CostReport) Most() float64 {
	if c.Sheets != nil {
		return max(c.Total, *c.Sheets)
	}
	return c.Total
}

// over says in words by how much the limit of a design is passed, "" if it is not.
func (c CostReport) over(limit float64) string {
	if !(limit > 0 && c.Most() > limit) {
		return ""
	}
	return fmt.Sprintf(" That is %s over the limit of %s.", length.Number(c.Most()-limit, 4), length.Number(limit, 4))
}

// Line says what the top costs, by area and by sheets to buy, in words.
func (c CostReport) Line() string {
	text := ""
	switch {
	case !(c.Total > 0):
		text = "What the material costs is known once its sheets have prices."
	case len(c.Missing) > 0:
		text = fmt.Sprintf("Material by area, at your prices: at least %s; not every sheet has a price.", length.Number(c.Total, 4))
	default:
		text = fmt.Sprintf("Material by area, at your prices: %s.", length.Number(c.Total, 4))
	}
	switch {
	case c.Sheets != nil:
		return text + fmt.Sprintf(" The sheets to buy cost %s.", length.Number(*c.Sheets, 4))
	case c.Total > 0:
		return text + " Whole sheets cost more."
	}
	return text
}
