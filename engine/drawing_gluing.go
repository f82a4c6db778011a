package engine

import (
	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// GluingPlan returns the plan alone for who glues the panel up: every rib with its
// mark at its right or front end, length and width, and what was made otherwise.
// Loads, supports, pitches and sections are left out, so that the plan is large. The origin is the
// lower left corner, x runs along the length, mm. The design must be valid and r
// its result.
func GluingPlan(d Design, r Result, f length.Format) draw.Figure {
	b := newBoard(d, r, DrawingOptions{Lengths: f})
	b.grid()
	off := 0.012 * max(d.Length, d.Width)
	for _, p := range r.Parts {
		n := draw.Note{Text: p.ID, Bold: true, Part: p.ID}
		switch p.Kind {
		case LengthwisePart:
			n.At, n.Anchor = draw.Point{X: d.Length + off, Y: (p.Place.Y0 + p.Place.Y1) / 2}, draw.AtLeft
		case CrosswisePart:
			n.At, n.Anchor = draw.Point{X: (p.Place.X0 + p.Place.X1) / 2, Y: -off}, draw.AtTop
			if d.Length-n.At.X < off {
				n.At.X, n.Anchor = d.Length, draw.AtTopRight // off the mark of the first lengthwise rib
			}
		default:
			continue
		}
		b.Notes = append(b.Notes, n)
	}
	b.Dimensions = append(b.Dimensions,
		draw.Dimension{A: draw.Point{Y: d.Width}, B: draw.Point{X: d.Length, Y: d.Width}, Side: draw.Above, Rank: 1, Text: f.Print(d.Length)},
		draw.Dimension{B: draw.Point{Y: d.Width}, Side: draw.Left, Rank: 1, Text: f.Print(d.Width)})
	return b.Figure
}
