package engine

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"flatwright/engine/vector"
)

// shape is all pieces of one mark, which are cut alike, in a plane of their own:
// x from the datum end along the piece, y from its front or lower edge, mm.
type shape struct {
	Part            // the first of them
	name     string // of one, or of all together
	pieces   []Part
	material string // as people call it
	file     string // name of its drawings, without the suffix
}

// shapesOf returns the shapes of a valid design in the order of its parts.
func shapesOf(d Design) []shape {
	var out []shape
	at := map[string]int{}
	for _, p := range d.Parts() {
		i, known := at[p.Mark]
		if !known {
			i = len(out)
			at[p.Mark] = i
			m, _ := d.Material(p.Material)
			out = append(out, shape{Part: p, material: m.Name})
		}
		out[i].pieces = append(out[i].pieces, p)
	}
	taken := map[string]bool{}
	for i := range out {
		s := &out[i]
		s.name = partName(s.Part, len(s.pieces))
		// A mark that is a sentence, as that of a block, names no file well.
		s.file = "part-" + fileName(s.Mark)
		if len(s.Mark) > 8 {
			s.file = "part-" + fileName(s.ID)
		}
		for n := 2; taken[s.file]; n++ {
			s.file = fmt.Sprintf("%s-%d", strings.TrimSuffix(s.file, fmt.Sprintf("-%d", n-1)), n)
		}
		taken[s.file] = true
	}
	return out
}

// ids names the pieces.
func (s shape) ids(between string) string {
	var out []string
	for _, p := range s.pieces {
		out = append(out, p.ID)
	}
	return strings.Join(out, between)
}

// grain says how the face grain runs.
func (p Part) grain() string {
	if p.GrainAlong {
		return "along"
	}
	return "across"
}

// datum is the end from which the stations of a rib are counted.
func (p Part) datum() string {
	if p.Kind == CrosswisePart {
		return "front"
	}
	return "left"
}

// slotBox returns the corners of a slot, counter-clockwise from the lower left.
func (p Part) slotBox(s Slot) [4]vector.Point {
	x0, x1 := s.Station-s.Width/2, s.Station+s.Width/2
	y0, y1 := 0.0, s.Depth
	if s.FromTop {
		y0, y1 = p.Width-s.Depth, p.Width
	}
	return [4]vector.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

// outline returns the edge of a part with its slots cut in, counter-clockwise.
func (p Part) outline() []vector.Point {
	low := []vector.Point{{}}
	var high []vector.Point
	for _, s := range p.Slots {
		c := p.slotBox(s)
		if s.FromTop {
			high = append(high, c[3], c[0], c[1], c[2])
		} else {
			low = append(low, c[0], c[3], c[2], c[1])
		}
	}
	low = append(low, vector.Point{X: p.Length}, vector.Point{X: p.Length, Y: p.Width})
	slices.Reverse(high)
	return withoutSpikes(append(append(low, high...), vector.Point{Y: p.Width}))
}

// straight is how far a corner may lie beside the line of its neighbours and be
// none, mm: rounding, far below what is written.
const straight = 1e-6

// withoutSpikes leaves out the corners at which a closed line does not turn, or
// turns back on itself, as where a slot reaches past the end of a rib.
func withoutSpikes(points []vector.Point) []vector.Point {
	for i := 0; i < len(points) && len(points) > 3; {
		n := len(points)
		a, b, c := points[(i+n-1)%n], points[i], points[(i+1)%n]
		turn := (b.X-a.X)*(c.Y-b.Y) - (b.Y-a.Y)*(c.X-b.X)
		if math.Abs(turn) > straight*max(math.Hypot(b.X-a.X, b.Y-a.Y), math.Hypot(c.X-b.X, c.Y-b.Y)) {
			i++
			continue
		}
		points = slices.Delete(points, i, i+1)
		i = max(i-2, 0) // its neighbours may have become straight
	}
	return points
}

// sizes prints length, width and thickness in mm.
func (p Part) sizes() string {
	return decimal(p.Length) + " × " + decimal(p.Width) + " × " + decimal(p.Thickness) + " mm"
}

// drawing returns the shape as it is cut, with its datum end, its grain and what
// it is marked on the wood.
func (s shape) drawing(d Design) vector.Drawing {
	out := vector.Drawing{
		Title: fmt.Sprintf("%s: %s", d.Name, s.name),
		Notes: []string{
			fmt.Sprintf("%d to cut, all alike: %s", len(s.pieces), s.ids(", ")),
			fmt.Sprintf("%s, %s, grain %s the length", s.sizes(), s.material, s.grain()),
			"OUTLINE has the slots cut in. SLOT, switched off, has them by themselves, to cut in a second step. MARK and TEXT are not cut.",
		},
		Paths: []vector.Path{{Layer: vector.Outline, Points: s.outline()}},
	}
	for _, slot := range s.Slots {
		box := s.slotBox(slot)
		out.Paths = append(out.Paths, vector.Path{Layer: vector.Slot, Points: box[:]})
	}
	s.marks(&out)
	return out
}

// marks adds what is drawn on the piece: an angle at the datum end of a slotted
// one, the grain, and a line of text, all in the strip that no slot enters.
func (s shape) marks(out *vector.Drawing) {
	low, high := s.clear()
	middle, room := (low+high)/2, high-low
	left := min(room, s.Length) / 4
	if len(s.Slots) > 0 {
		arm := min(room/4, 8)
		out.Paths = append(out.Paths, vector.Path{Layer: vector.Mark, Open: true, Points: []vector.Point{{X: 0, Y: middle + arm}, {X: arm, Y: middle}, {X: 0, Y: middle - arm}}})
		left = max(left, 2*arm)
	}
	text := fmt.Sprintf("%s, %s, %d pieces", s.Mark, s.sizes(), len(s.pieces))
	if len(s.pieces) == 1 {
		text = fmt.Sprintf("%s, %s", s.name, s.sizes())
	}
	// A sign is about 0.8 of the height of capitals wide, common practice.
	const sign, tallest = 0.8, 12.0
	signs := float64(len([]rune(text)))
	tall := min(tallest, room/4, (s.Length-2*left)/(sign*signs))
	out.Words = append(out.Words, vector.Words{At: vector.Point{X: left, Y: middle - tall/2}, Height: tall, Text: text})
	s.grainMark(out, left+sign*signs*tall, low, high)
}

// grainMark adds an arrow both ways along the face grain, right of x.
func (s shape) grainMark(out *vector.Drawing, x, low, high float64) {
	half := min(25, (s.Length-x)/3, (high-low)/3)
	if !(half > 1) {
		return
	}
	c, head := vector.Point{X: (x + s.Length) / 2, Y: (low + high) / 2}, half/5
	at := func(along, across float64) vector.Point {
		if s.GrainAlong {
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

// clear returns the strip across the part that no slot enters, mm.
func (p Part) clear() (low, high float64) {
	low, high = 0, p.Width
	for _, s := range p.Slots {
		if s.FromTop {
			high = min(high, p.Width-s.Depth)
		} else {
			low = max(low, s.Depth)
		}
	}
	return low, high
}
