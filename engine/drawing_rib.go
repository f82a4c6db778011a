package engine

import "flatwright/engine/draw"

// elevation draws one rib with its slots; at is its lower datum end.
func (b *board) elevation(p Part, at draw.Point) {
	b.part(p, move(ribOutline(p), at))
	b.elevationCuts(p, at)
	b.Notes = append(b.Notes,
		draw.Note{At: draw.Point{X: at.X, Y: at.Y + p.Width + b.gap/8}, Anchor: draw.AtBottomLeft, Text: p.Name + ", datum end at the left", Colour: draw.Pencil})
	last := 0.0
	for _, s := range p.Slots {
		if s.Station-last > 1 {
			b.Dimensions = append(b.Dimensions, draw.Dimension{A: draw.Point{X: at.X + last, Y: at.Y}, B: draw.Point{X: at.X + s.Station, Y: at.Y},
				Side: draw.Below, Rank: 1, Text: b.o.Lengths.Print(s.Station - last), Part: p.ID})
		}
		last = s.Station
	}
	b.Dimensions = append(b.Dimensions, draw.Dimension{A: at, B: draw.Point{X: at.X + p.Length, Y: at.Y}, Side: draw.Below, Rank: 2, Text: b.o.Lengths.Print(p.Length), Part: p.ID})
}

// ribOutline returns a rib's face as a polygon with its slots cut in, from its
// lower datum end, anticlockwise. A slot that reaches an end takes the corner
// with it.
func ribOutline(p Part) []draw.Point {
	out := []draw.Point{}
	add := func(x, y float64) {
		q := draw.Point{X: x, Y: y}
		if len(out) == 0 || out[len(out)-1] != q {
			out = append(out, q)
		}
	}
	open := func(x float64, fromTop bool) bool { // is the corner at x cut away?
		for _, s := range p.Slots {
			if s.FromTop == fromTop && s.Station-s.Width/2 <= x && x <= s.Station+s.Width/2 {
				return true
			}
		}
		return false
	}
	notch := func(s Slot, edge, into float64, forward bool) {
		from, to := s.Station-s.Width/2, s.Station+s.Width/2
		if !forward {
			from, to = to, from
		}
		if from > 0 && from < p.Length {
			add(from, edge)
		}
		add(from, into)
		add(to, into)
		if to > 0 && to < p.Length {
			add(to, edge)
		}
	}
	if !open(0, false) {
		add(0, 0)
	}
	for _, s := range p.Slots {
		if !s.FromTop {
			notch(s, 0, s.Depth, true)
		}
	}
	if !open(p.Length, false) {
		add(p.Length, 0)
	}
	if !open(p.Length, true) {
		add(p.Length, p.Width)
	}
	for i := len(p.Slots) - 1; i >= 0; i-- {
		if s := p.Slots[i]; s.FromTop {
			notch(s, p.Width, p.Width-s.Depth, false)
		}
	}
	if !open(0, true) {
		add(0, p.Width)
	}
	return out
}

func move(points []draw.Point, by draw.Point) []draw.Point {
	for i := range points {
		points[i].X += by.X
		points[i].Y += by.Y
	}
	return points
}
