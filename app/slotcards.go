package app

import (
	"strconv"
	"strings"

	"flatwright/engine"
	"flatwright/widgets"
)

// slotCards are what stands beside the slots: how they are cut, and where.
func slotCards(s Snapshot) []card {
	w := s.Result.SlotWork
	cards := []card{slotsCard(s)}
	for _, g := range w.Groups {
		cards = append(cards, waysCard(s, g))
	}
	return append(cards, scheduleCard(s))
}

// slotsCard tells of all slots together.
func slotsCard(s Snapshot) card {
	c := card{title: "Slots"}
	w := s.Result.SlotWork
	if len(w.Groups) == 0 {
		return c
	}
	c.blocks = append(c.blocks, block{kind: kindFigure, text: "slots to cut", value: strconv.Itoa(w.Slots), note: "two at every crossing, one out of each rib"})
	if w.Minutes.High > 0 {
		c.blocks = append(c.blocks, block{kind: kindFigure, text: "time for all", value: minutesText(w.Minutes.Low, w.Minutes.High), note: "by the ways taken below, setting up included; common practice, no source"})
	}
	if w.Assumed {
		c.blocks = append(c.blocks, block{kind: kindText, standing: widgets.Near, field: "tools",
			text: "▲ No tools are listed: those of a small workshop are assumed. Press here to list yours."})
	}
	for _, text := range w.Alike() {
		c.blocks = append(c.blocks, block{kind: kindText, text: inUnit(text, s.Lengths)})
	}
	return card{c.title, append(c.blocks, block{kind: kindQuiet, text: s.Result.Mass.AgainstBlocking()})}
}

// groupName names the ribs of a group.
func groupName(g engine.SlotGroup) string {
	if len(g.Parts) == 1 {
		return capital(string(g.Kind)) + " " + g.Parts[0]
	}
	return capital(string(g.Kind)) + "s " + strings.Join(g.Parts, ", ")
}

// waysCard tells of every way to cut the slots of one group.
func waysCard(s Snapshot, g engine.SlotGroup) card {
	c := card{title: groupName(g)}
	var cannot []block
	for i, w := range g.Ways {
		text := engine.WayText(w, s.Lengths)
		if !w.Can {
			cannot = append(cannot, block{kind: kindText, text: w.Name}, block{kind: kindQuiet, text: text})
			continue
		}
		b := block{kind: kindFigure, text: w.Name, value: minutesText(w.Minutes.Low, w.Minutes.High), note: text, field: "slots.way"}
		switch i {
		case g.Taken:
			b.standing, b.note = widgets.Good, "● taken. "+text
		case g.Best:
			b.note = "advised. " + text
		}
		c.blocks = append(c.blocks, b)
		if i == g.Taken {
			for _, caution := range w.Cautions {
				c.blocks = append(c.blocks, block{kind: kindText, text: "▲ " + caution, standing: widgets.Near})
			}
		}
	}
	if g.Taken < 0 {
		c.blocks = append(c.blocks, block{kind: kindText, standing: widgets.Over, field: "tools", text: "■ None of the tools listed can cut these slots. What stands against each is told below."})
	}
	if len(cannot) > 0 {
		c.blocks = append(c.blocks, block{kind: kindFold, key: "cannot " + c.title, text: "Ways that do not work here, and why", inside: cannot})
	}
	return c
}

// scheduleCard lists where every slot lies.
func scheduleCard(s Snapshot) card {
	c := card{title: "Where the slots lie"}
	f := s.Lengths
	for _, g := range s.Result.SlotWork.Groups {
		var inside []block
		for _, r := range g.Rows {
			inside = append(inside, block{kind: kindFigure, text: strconv.Itoa(r.Number) + ". for " + r.Mate, value: f.Print(r.Middle), part: r.Mate,
				note: "from " + f.Print(r.From) + " to " + f.Print(r.To) + "; " + inUnit(plainFigures(r.Width, 4)+" mm", f) + " wide, " + inUnit(plainFigures(r.Depth, 4)+" mm", f) + " deep, from the " + r.Edge() + " edge"})
		}
		c.blocks = append(c.blocks, block{kind: kindFold, key: "schedule " + g.Parts[0], text: groupName(g), inside: inside})
	}
	if len(c.blocks) > 0 {
		c.blocks = append([]block{{kind: kindQuiet, text: "The middle of every slot, from the datum end of the rib, so that errors do not add up."}}, c.blocks...)
	}
	return c
}
