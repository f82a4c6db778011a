package engine

import "flatwright/engine/draw"

// Spot is a place on the panel that the drawing points out, with a word on it.
type Spot struct {
	X    float64 // mm
	Y    float64
	Part string // ID of the part at that place; it gives the height in the sections
	Text string
}

// spot marks a place in the plan, where the words stand, and in both sections.
func (b *board) spot(s Spot) {
	if s.Text == "" {
		return
	}
	depth := b.d.TotalDepth()
	z := depth / 2
	if p, ok := partByID(b.r.Parts, s.Part); ok {
		z = (p.Place.Z0 + p.Place.Z1) / 2
	} else if s.Part == SupportPart {
		z = 0
	}
	for _, at := range [...]draw.Point{
		{X: s.X, Y: s.Y},
		{X: s.X, Y: z - b.gap - depth},
		{X: b.d.Length + b.gap + depth - z, Y: s.Y},
	} {
		b.Marks = append(b.Marks, draw.Mark{At: at, Kind: draw.SpotMark})
	}
	// The words stand towards the middle, where there is room, and clear of the
	// outlines that run through the place.
	anchor, at := draw.AtBottomLeft, draw.Point{X: s.X + b.gap/5, Y: s.Y + b.gap/5}
	switch left, front := s.X <= b.d.Length/2, s.Y <= b.d.Width/2; {
	case !left && front:
		anchor, at.X = draw.AtBottomRight, s.X-b.gap/5
	case left && !front:
		anchor, at.Y = draw.AtTopLeft, s.Y-b.gap/5
	case !left && !front:
		anchor, at = draw.AtTopRight, draw.Point{X: s.X - b.gap/5, Y: s.Y - b.gap/5}
	}
	b.Notes = append(b.Notes, draw.Note{At: at, Anchor: anchor, Text: s.Text, Bold: true, Colour: draw.AccentInk, Ground: draw.Sheet})
}
