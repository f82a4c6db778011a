package app

import (
	"flatwright/engine"
	"flatwright/engine/length"
)

// twistCard tells how stiff the top is against wind: what lifting one corner
// takes, and how far a corner drops that has lost its support.
func twistCard(s Snapshot) card {
	c := card{title: "Twist"}
	if text := s.Result.Whole.NoTwist(s.Design); text != "" {
		return card{c.title, []block{{kind: kindQuiet, text: text}}}
	}
	if s.Result.Whole == nil || s.Result.Whole.Twist == nil {
		return c
	}
	f, w := s.Lengths, s.Result.Whole.Twist
	mm, words := engine.LiftStep(f)
	c.blocks = append(c.blocks, block{kind: kindFigure, text: "lifting one corner by " + words, value: length.Force(mm*w.Stiffness, f),
		note: carriedText(mm*w.Stiffness, f) + "; out of the plane of the other three corners of the supports." + either(w.Slab > 0, " A solid slab: "+length.Force(mm*w.Slab, f), "")})
	if w.Corners[0].Foot {
		c.blocks = append(c.blocks, block{kind: kindQuiet, text: w.Lines(f)[1]})
	}
	corner := func(d engine.CornerDrop) block {
		b := block{kind: kindFigure, text: d.Corner(), value: length.Sag(d.Drop, f), standing: stands(d.Drop, s.Design.Limits.Twist),
			note: length.Sag(d.Own, f) + " of it by own weight", part: engine.SupportPart, shows: 1 + caseNamed(s.Design, d.Case),
			spot: engine.Spot{X: d.X, Y: d.Y, Part: engine.SupportPart, Text: capital(d.Corner())}}
		if d.Tips {
			b.note += "; " + either(s.Design.Supports.Fastened, "the screws at the others hold it down", "only if the others hold it down")
		}
		return b
	}
	if worst := w.Corners[w.Worst]; worst.Case != "" {
		b := corner(worst)
		b.text = "one corner without its support"
		b.field = "limits.twist"
		b.note = "the " + worst.Corner() + " drops so far below the plane of the other three under “" + worst.Case + "”; " + limitNote(b.standing, length.Sag(s.Design.Limits.Twist, f))
		c.blocks = append(c.blocks, b)
		if worst.Wind > 0 {
			c.blocks = append(c.blocks, block{kind: kindQuiet, text: "Then one end is turned against the other by " + worst.WindText(f) + " of width."})
		}
		var all []block
		for _, d := range w.Corners {
			all = append(all, corner(d))
		}
		c.blocks = append(c.blocks, block{kind: kindFold, key: "corners", text: "All four corners", inside: all})
	}
	lines := w.Lines(f)
	return card{c.title, append(c.blocks,
		block{kind: kindFigure, text: "a support may stand out by", value: length.Sag(w.Rocks, f), note: "farther out of the plane of the others, and " + either(w.Fastened, "the screws have to pull the unloaded top down", "the unloaded top rocks on two of them")},
		block{kind: kindQuiet, text: lines[len(lines)-1]})}
}
