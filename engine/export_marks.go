package engine

import (
	"math"

	"flatwright/engine/vector"
)

// Sizes of the text on a piece, mm: a sign is about 0.8 of the height of capitals
// wide; below the smallest it is not read. Common practice, no source.
const (
	signWide = 0.8
	tallest  = 12.0
	smallest = 4.0
)

// marks adds what is drawn on the piece: an angle at the datum end of a slotted
// one, the grain, and a line of text, all in the strip that no slot enters. The
// text is the first of texts that can be read at that size, or the last.
func (s shape) marks(out *vector.Drawing, texts ...string) {
	low, high := s.clear()
	middle, room := (low+high)/2, high-low
	left := min(room, s.Length) / 4
	if len(s.Slots) > 0 {
		arm := min(room/4, 8)
		out.Paths = append(out.Paths, vector.Path{Layer: vector.Mark, Open: true, Points: []vector.Point{{X: 0, Y: middle + arm}, {X: arm, Y: middle}, {X: 0, Y: middle - arm}}})
		left = max(left, 2*arm)
	}
	words := vector.Words{At: vector.Point{X: left}}
	var wide float64
	for _, text := range texts {
		signs := float64(len([]rune(text)))
		words.Text, words.Height = text, min(tallest, room/4, (s.Length-2*left)/(signWide*signs))
		if wide = signWide * signs * words.Height; words.Height >= smallest {
			break
		}
	}
	words.At.Y = middle - words.Height/2
	out.Words = append(out.Words, words)
	if s.Grain != GrainFree {
		s.grainMark(out, left+wide, low, high)
	}
}

// grainMark adds an arrow both ways along the face grain, right of x.
func (s shape) grainMark(out *vector.Drawing, x, low, high float64) {
	half := min(25, (s.Length-x)/3, (high-low)/3)
	if !(half > 1) {
		return
	}
	c, head := vector.Point{X: (x + s.Length) / 2, Y: (low + high) / 2}, half/5
	at := func(along, across float64) vector.Point {
		if s.Grain == GrainAlong {
			return vector.Point{X: c.X + along, Y: c.Y + across}
		}
		return vector.Point{X: c.X + across, Y: c.Y + along}
	}
	for _, line := range [][]vector.Point{
		{at(-half, 0), at(half, 0)},
		{at(half-head, head), at(half, 0), at(half-head, -head)},
		{at(head-half, head), at(-half, 0), at(head-half, -head)},
	} {
		out.Paths = append(out.Paths, vector.Path{Layer: vector.Mark, Open: true, Points: line})
	}
}

// clear returns the strip across the piece that no slot enters, mm.
func (p Piece) clear() (low, high float64) {
	low, high = 0, p.Width
	for _, s := range p.Slots {
		if s.FromTop {
			high = math.Min(high, p.Width-s.Depth)
		} else {
			low = math.Max(low, s.Depth)
		}
	}
	return low, high
}
