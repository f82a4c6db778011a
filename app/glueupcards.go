package app

import (
	"fmt"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// glueUpCards are what stands beside the plan of the glue-up.
func glueUpCards(s Snapshot) []card {
	g := &s.Result.GlueUp
	if s.Result.Blocked() || len(g.Splits) == 0 {
		return nil
	}
	return []card{openTimeCard(s), pressureCard(s), readyCard(s), woodCard(s), slideCard(s), pressCareCard()}
}

// fitLooks are the signs and colours of how well an option fits.
var fitLooks = [...]struct {
	sign, words string
	standing    widgets.State
}{{"■", "does not fit", widgets.Over}, {"▲", "may fit", widgets.Near}, {"●", "fits", widgets.Good}}

// openTimeCard sets the time of spreading beside the open time, for every way out.
func openTimeCard(s Snapshot) card {
	g := &s.Result.GlueUp
	c := card{title: "Open time"}
	taken, best := g.Splits[g.Taken], g.Splits[g.Best]
	look := fitLooks[taken.Fit]
	c.blocks = append(c.blocks, block{kind: kindFigure, text: "the longest go of spreading", value: engine.Minutes(taken.Low, taken.High), standing: look.standing, field: "glueUp.split",
		note: look.words + "; the glue may lie open for " + engine.Minutes(taken.Open.Low, taken.Open.High)})
	switch {
	case g.Best != g.Taken && best.Fit == engine.FitsSurely:
		c.blocks = append(c.blocks, block{kind: kindText, text: "This fits: " + best.Name + ", " + engine.Minutes(best.Low, best.High) + " at a time.", field: optionField(best)})
	case taken.Fit != engine.FitsSurely:
		c.blocks = append(c.blocks, block{kind: kindText, standing: widgets.Near, text: "▲ Nothing fits for sure. Nearest: " + best.Name + ". A coarser grid, or the top in two parts, would help.", field: optionField(best)})
	}
	for _, o := range g.Splits {
		look := fitLooks[o.Fit]
		c.blocks = append(c.blocks, block{kind: kindFigure, text: look.sign + " " + o.Name, value: engine.Minutes(o.Low, o.High), standing: look.standing, field: optionField(o),
			note: look.words + "; open for " + engine.Minutes(o.Open.Low, o.Open.High)})
	}
	return card{c.title, append(c.blocks, block{kind: kindQuiet, text: fmt.Sprintf("Times of the glue table × %s: %s.", length.Number(g.Factor, 2), g.Air)},
		block{kind: kindText, text: inUnit(g.Closing, s.Lengths)})}
}

// optionField is where an option is typed.
func optionField(o engine.SplitOption) string {
	switch {
	case o.People > 0:
		return "shop.people"
	case o.Glue != "":
		return "glue"
	}
	return "glueUp.split"
}

// pressureCard sets the ways of pressing side by side.
func pressureCard(s Snapshot) card {
	g := &s.Result.GlueUp
	c := card{title: "Pressing"}
	c.blocks = append(c.blocks, block{kind: kindText, text: inUnit(g.NeedText(), s.Lengths), field: "glue"})
	if g.Way < 0 {
		c.blocks = append(c.blocks, block{kind: kindText, standing: widgets.Over, text: "■ With what is stated no way of pressing makes it. Press here to tell of more.", field: "glueUp.clamps.count"})
	}
	for i, w := range g.Ways {
		b := block{kind: kindFigure, text: "● " + w.Name, value: stressText(w.Pressure, s.Lengths), standing: widgets.Good, field: "glueUp.press", note: "makes the pressure"}
		if i == g.Way {
			b.note = "makes the pressure; this is drawn"
		}
		if !w.Reaches {
			b.text, b.standing, b.note = "✗ "+w.Name, widgets.Over, inUnit(w.Why, s.Lengths)
		}
		var inside []block
		for _, l := range w.Lines {
			inside = append(inside, block{kind: kindText, text: inUnit(l, s.Lengths)})
		}
		c.blocks = append(c.blocks, b, block{kind: kindFold, key: "press " + string(w.Way), text: "How", inside: inside})
	}
	var lines []block
	for _, l := range g.RibLines {
		note := countOf(l.Clamps, "clamp", "clamps") + ", one every " + s.Lengths.Print(l.Spacing)
		if words := l.KindsText(s.Design.GlueUp); words != "" {
			note += ": " + inUnit(words, s.Lengths)
		}
		lines = append(lines, block{kind: kindFigure, text: l.Rib + " at " + s.Lengths.Print(l.At), value: length.Force(l.Force, s.Lengths), part: l.Rib, note: note})
	}
	return card{c.title, append(c.blocks, block{kind: kindFold, key: "rib lines", text: "Force of every rib line", inside: lines})}
}

// stressText prints a pressure.
func stressText(mpa float64, f length.Format) string {
	return inUnit(length.Number(mpa, 2)+" MPa", f)
}

// readyCard tells the glue of each side.
func readyCard(s Snapshot) card {
	g := &s.Result.GlueUp
	c := card{title: "Glue to have ready"}
	var all engine.GlueSide
	for _, side := range g.Sides {
		words := side.InWords(s.Lengths)
		note := words[1] + ", " + words[3]
		if words[0] != "" {
			note = words[0] + " of joint, " + note
		}
		c.blocks = append(c.blocks, block{kind: kindFigure, text: side.Name, value: words[2], note: note, field: "glueUp.tool"})
		all.Grams, all.Millilitres = all.Grams+side.Grams, all.Millilitres+side.Millilitres
	}
	words := all.InWords(s.Lengths)
	return card{c.title, append(c.blocks, block{kind: kindFigure, text: "together", value: words[2], note: words[3]},
		block{kind: kindQuiet, text: fmt.Sprintf("The mean of the table's spread; %.0f %% of what is poured stays in the tool (common practice, no source).", 100*g.Waste)})}
}

// woodCard tells what the pressure does to the wood.
func woodCard(s Snapshot) card {
	c := card{title: "What the pressure does to the wood"}
	for _, check := range s.Result.GlueUp.Checks {
		b := block{kind: kindText, text: "● " + inUnit(check.InWords(), s.Lengths)}
		if !check.Holds() {
			b.text, b.standing = "▲ "+inUnit(check.InWords(), s.Lengths), widgets.Near
		}
		c.blocks = append(c.blocks, b)
	}
	return c
}

// slideCard tells where to pin and what to drill.
func slideCard(s Snapshot) card {
	g := &s.Result.GlueUp
	c := card{title: "Pins, lines and holes", blocks: []block{{kind: kindText, text: inUnit(g.PinText(), s.Lengths), part: engine.GlueUpPart}}}
	if text := g.VentText(); text != "" {
		c.blocks = append(c.blocks, block{kind: kindText, text: inUnit(text, s.Lengths)})
	}
	return c
}

// pressCareCard tells what can hurt.
func pressCareCard() card {
	c := card{title: "Take care"}
	for _, text := range engine.PressCautions {
		c.blocks = append(c.blocks, block{kind: kindText, standing: widgets.Near, text: "▲ " + text})
	}
	return c
}
