package app

import (
	"math"

	"flatwright/engine"
	"flatwright/engine/length"
)

// bayCard tells how the top skin dips between the ribs, how the edges lie, and
// what the ribs carry, case by case.
func bayCard(s Snapshot) card {
	c := card{title: "Skin, edges and ribs"}
	if s.Result.Whole == nil {
		return c
	}
	f := s.Lengths
	for i, w := range s.Result.Whole.Cases {
		if w.Ribs == nil || i >= len(s.Design.Cases) {
			continue
		}
		name := s.Design.Cases[i].Name
		c.blocks = append(c.blocks, block{kind: kindFigure, text: "top skin between the ribs", value: length.Sag(w.Dip.Sag, f), shows: 1 + i, part: "top",
			note: "so far it dips below the ribs around the bay under “" + name + "”, a part of the sag",
			spot: engine.Spot{X: w.Dip.X, Y: w.Dip.Y, Part: "top", Text: "Deepest dip of the skin"}})
		var inside []block
		for j, l := range w.Loads {
			inside = append(inside, block{kind: kindFigure, text: "dip under " + l.Name, value: length.Sag(l.Dip.Sag, f), part: engine.LoadPart(i, j)})
		}
		for _, e := range w.Slopes {
			inside = append(inside, block{kind: kindFigure, text: e.Edge, value: engine.SlopeText(e.Slope, f)})
		}
		for _, r := range w.Ribs {
			p := r.Peaks()
			skin := "bottom"
			if p.FlowTop {
				skin = "top"
			}
			inside = append(inside, block{kind: kindFigure, text: "shear in rib " + p.Part, value: length.Force(p.Shear, f), part: p.Part,
				note: "at " + f.Print(math.Round(p.ShearAt)) + " along it; bends with " + engine.MomentText(p.Moment, f) + " at " + f.Print(math.Round(p.MomentAt)) + "; its glue line to the " + skin + " skin holds " + engine.FlowText(p.Flow, f) + " at " + f.Print(math.Round(p.FlowAt))})
		}
		c.blocks = append(c.blocks, block{kind: kindFold, key: "bays " + name, text: "Each load, edge and rib under “" + name + "”", inside: inside})
	}
	if line := s.Result.Whole.LeanLine(f); line != "" {
		c.blocks = append(c.blocks, block{kind: kindText, text: line})
	}
	return c
}
