package app

import (
	"time"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// buildCards are what stands beside the build step: all steps with their clock
// times, what was made otherwise and what can be done about it, the cautions.
func buildCards(s Snapshot, now time.Time) []card {
	return []card{stepsCard(s, now), mendCard(s), builtCard(s), cautionsCard(s)}
}

// stepsCard lists the steps, ticked off as they are done.
func stepsCard(s Snapshot, now time.Time) card {
	c := card{title: "Steps"}
	clock := s.Design.Clock(s.Result, now)
	for i, step := range clock.Steps {
		b := block{kind: kindFigure, text: step.Name, value: minutesText(step.Low, step.High), note: "from " + engine.DayText(step.Began) + " at the earliest"}
		switch {
		case step.State == engine.StepDone:
			b.standing, b.value = widgets.Good, "done"
			b.note = "● " + engine.DayText(step.Began) + " to " + engine.ClockText(step.Ended)
			if step.Cures && step.Ended.Before(step.Early) {
				b.standing = widgets.Near
				b.note = "▲ " + engine.DayText(step.Began) + " to " + engine.ClockText(step.Ended) + ", cut short: the glue asks for " + minutesText(step.Low, step.High)
			}
		case step.State == engine.StepUnderWay:
			b.standing, b.note = widgets.Near, "▲ under way since "+engine.ClockText(step.Began)
		case i == clock.Next:
			b.note = "next; " + b.note
		}
		if step.Note != "" {
			b.note += ". " + step.Note
		}
		c.blocks = append(c.blocks, b)
	}
	if !clock.LoadFrom.IsZero() {
		c.blocks = append(c.blocks, block{kind: kindText, text: "Put nothing heavy on it before " + engine.DayText(clock.LoadFrom) + "."})
	}
	if b := s.Result.Build; b.GlueMass > 0 {
		c.blocks = append(c.blocks, block{kind: kindFigure, text: "glue to have ready", value: length.Mass(b.GlueMass, s.Lengths), field: "glue"})
	}
	return c
}

// mendCard says what can be done about what was made otherwise.
func mendCard(s Snapshot) card {
	c := card{title: "Something went wrong"}
	if len(s.Design.Built) == 0 {
		c.blocks = append(c.blocks, block{kind: kindText, field: "built",
			text: "A slot too deep, the wrong edge slotted, a rib not wetted, a skin that slid, a seam left open: mark it under Something went wrong or As built, and the top is rated once more as it was made. Press here."})
		return c
	}
	for i, m := range s.Design.Mends(s.Result) {
		c.blocks = append(c.blocks, block{kind: kindFold, key: "mend " + path("%d", i), text: inUnit(m.What, s.Lengths), inside: mendBlocks(m, s)})
	}
	return c
}

func mendBlocks(m engine.Mend, s Snapshot) []block {
	var blocks []block
	for _, text := range m.Ways {
		blocks = append(blocks, block{kind: kindText, text: "• " + inUnit(text, s.Lengths)})
	}
	return blocks
}

// cautionsCard are the usual cautions.
func cautionsCard(Snapshot) card {
	c := card{title: "Cautions"}
	for _, text := range engine.Cautions {
		c.blocks = append(c.blocks, block{kind: kindText, text: "▲ " + text, standing: widgets.Near})
	}
	return c
}
