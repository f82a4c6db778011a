package app

import (
	"strings"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// supportsCard tells what each support carries in every case, and how far they
// sink, which the sag does not count.
func supportsCard(s Snapshot) card {
	c := card{title: "Supports"}
	if s.Result.Whole == nil {
		return c
	}
	f := s.Lengths
	if line := s.Design.FastenedLine(s.Result.Whole, f); line != "" {
		c.blocks = append(c.blocks, block{kind: kindText, text: line})
	}
	for i, w := range s.Result.Whole.Cases {
		if i >= len(s.Design.Cases) || len(w.Reactions) == 0 {
			continue
		}
		name := s.Design.Cases[i].Name
		if len(s.Result.Whole.Cases) > 1 {
			c.blocks = append(c.blocks, block{kind: kindText, text: name})
		}
		for _, r := range w.Reactions {
			b := block{kind: kindFigure, text: r.Name, value: length.Force(r.Force, f), note: carriedText(r.Force, f), part: engine.SupportPart, shows: 1 + i,
				spot: engine.Spot{X: r.X, Y: r.Y, Part: engine.SupportPart, Text: capital(r.Name)}}
			if pull := r.PullText(f); pull != "" {
				b.note += " · " + pull
				if r.Force < 0 {
					b.note = "▼ it holds the top down · " + pull
				}
			}
			if r.Lifted {
				b.value, b.standing, b.note = "lifts", widgets.Near, "▲ it carries nothing; fasten the top down here, or move the support or the load"
			}
			c.blocks = append(c.blocks, b)
		}
		for _, a := range w.Aprons {
			c.blocks = append(c.blocks, block{kind: kindFigure, text: a.Name + " bends", value: length.Sag(a.Bend, f), note: "between its legs; part of the sag, which is told from the legs", part: engine.ApronPart, shows: 1 + i,
				spot: engine.Spot{X: a.X, Y: a.Y, Part: engine.SupportPart, Text: capital(a.Name)}})
		}
		c.blocks = append(c.blocks, block{kind: kindFigure, text: "sinking into the supports", value: length.Sag(w.Settlement, f), note: "the most of any; the sag is told from the sunken supports and does not count it"})
	}
	return c
}

// carriedText tells a force as the weight that presses so hard and in everyday
// words.
func carriedText(newtons float64, f length.Format) string {
	words := []string{length.Mass(newtons/engine.Gravity, f)}
	if everyday := everydayForce(newtons); everyday != "" {
		words = append(words, everyday)
	}
	return strings.Join(words, " · ")
}
