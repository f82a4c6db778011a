package engine

import (
	"math"

	"flatwright/engine/draw"
)

// planLine draws a line load within its footprint: its middle line and a short
// tick across it every few centimetres.
func (b *board) planLine(l Load, id string) {
	s := b.d.Spread(l)
	place := func(along, aside float64) draw.Point { return draw.Point{X: s.X + along, Y: s.Y + aside} }
	long, wide := s.SizeX, s.SizeY
	if l.Across {
		long, wide = s.SizeY, s.SizeX
		place = func(along, aside float64) draw.Point { return draw.Point{X: s.X + aside, Y: s.Y + along} }
	}
	add := func(p, q draw.Point) {
		b.Lines = append(b.Lines, draw.Line{A: p, B: q, Pen: draw.Accent, Part: id})
	}
	add(place(-long/2, 0), place(long/2, 0))
	tick := max(wide/2, b.gap/8)
	n := max(2, math.Round(long/(0.6*b.gap)))
	for i := 0.0; i <= n; i++ {
		at := long * (i/n - 0.5)
		add(place(at, -tick), place(at, tick))
	}
}

// planCouple draws a couple in its block: the line about which it turns and an
// arrow the way it pulls, towards the side that it presses down.
func (b *board) planCouple(l Load, id string) {
	s := b.d.Spread(l)
	x, y := l.Pull.way()
	at := func(along, aside float64) draw.Point {
		return draw.Point{X: s.X + x*along - y*aside, Y: s.Y + y*along + x*aside}
	}
	long, wide := math.Abs(x)*s.SizeX+math.Abs(y)*s.SizeY, math.Abs(x)*s.SizeY+math.Abs(y)*s.SizeX
	b.Lines = append(b.Lines, draw.Line{A: at(0, -wide/2), B: at(0, wide/2), Pen: draw.Centre, Part: id})
	b.arrow(id, at(-0.4*long, 0), at(0.4*long, 0), 0.15*min(long, wide))
}

// turning draws a couple in a section: half a turn above the upper face, to
// larger coordinates if sense is positive. place is a point along the face and
// above it.
func (b *board) turning(id string, sense, middle float64, place func(along, up float64) draw.Point) {
	r := 0.4 * b.gap
	const steps, from, to = 8, 0.9 * math.Pi, 0.1 * math.Pi
	at := func(i int) draw.Point {
		angle := from + (to-from)*float64(i)/steps
		return place(middle+sense*r*math.Cos(angle), r*math.Sin(angle))
	}
	for i := range steps - 1 {
		b.Lines = append(b.Lines, draw.Line{A: at(i), B: at(i + 1), Pen: draw.Accent, Part: id})
	}
	b.arrow(id, at(steps-1), at(steps), r/3)
}

// arrow draws a line with a head of that size at its end.
func (b *board) arrow(id string, from, to draw.Point, head float64) {
	add := func(p, q draw.Point) {
		b.Lines = append(b.Lines, draw.Line{A: p, B: q, Pen: draw.Accent, Part: id})
	}
	add(from, to)
	back := math.Atan2(from.Y-to.Y, from.X-to.X)
	for _, turn := range [...]float64{-0.5, 0.5} {
		add(to, draw.Point{X: to.X + head*math.Cos(back+turn), Y: to.Y + head*math.Sin(back+turn)})
	}
}
