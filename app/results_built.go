package app

import (
	"flatwright/engine"
	"flatwright/engine/length"
)

// builtCard sets the top as it was made beside the one designed.
func builtCard(s Snapshot) card {
	c := card{title: "As built, beside the design"}
	a := s.Result.AsBuilt
	if a == nil {
		return c
	}
	f := s.Lengths
	for _, b := range s.Design.Built {
		c.blocks = append(c.blocks, block{kind: kindQuiet, text: capital(b.Words(f)) + ".", part: b.Part})
	}
	for i, sag := range a.Sags {
		if i < len(s.Result.Cases) {
			c.blocks = append(c.blocks, block{kind: kindFigure, text: "sag under “" + s.Result.Cases[i].Name + "”", value: length.Sag(sag, f), standing: stands(sag, s.Design.Limits.Sag),
				note: "designed: " + length.Sag(s.Result.Cases[i].Sag, f), shows: 1 + i})
		}
	}
	c.blocks = append(c.blocks,
		block{kind: kindFigure, text: "lowest margin", value: fig(a.Margin), standing: standsAbove(a.Margin, 1),
			note: a.Lowest.Name + "; designed: " + fig(a.DesignedMargin), part: a.Lowest.Part, shows: 1 + caseNamed(s.Design, a.Lowest.Case),
			spot: engine.Spot{X: a.Lowest.X, Y: a.Lowest.Y, Part: a.Lowest.Part, Text: a.Lowest.Name}},
		block{kind: kindFigure, text: "weight", value: length.Mass(a.Mass, f), note: "designed: " + length.Mass(s.Result.Mass.Total, f)})
	return c
}
