package draw

import "math"

// Shape says what an [Item] is.
type Shape uint8

// The shapes.
const (
	Polygon Shape = iota // Points are its corners, filled with Colour
	Stroke               // Points are its vertices, joined by a line of Width
	Words                // Text with its baseline starting at Points[0]
)

// Item is one thing to draw, in output units, y down.
type Item struct {
	Shape  Shape
	Points []Point
	Colour Fill
	Part   string

	// Stroke: its width, its dashes and gaps (nil: continuous), and whether the
	// last vertex is joined to the first.
	// Phase is how far into the pattern of dashes the first vertex is.
	Width  float64
	Dash   []float64
	Phase  float64
	Closed bool

	// Words: Angle is 0, or 90 for text that runs upward and is read from the
	// right. Advance is the measured width of the text.
	Text    string
	Size    float64 // em
	Bold    bool
	Angle   float64 // degrees, counter-clockwise
	Advance float64
}

// Flat is a drawing on an output plane: items in drawing order, the last on
// top. A Polygon of NoFill is not drawn; it only catches hits.
type Flat struct{ Items []Item }

// Shares of the em above and below the baseline. DejaVu Sans has capitals of
// 1493/2048 and descenders of 483/2048 em, read off the font file; the box
// leaves a little room above the capitals.
const (
	capitals   = 0.73
	ascending  = 0.80
	descending = 0.24
)

// Box returns the rectangle that item covers, without the width of its line.
func (it Item) Box() Rect {
	if it.Shape == Words && len(it.Points) > 0 {
		p := it.Points[0]
		if it.Angle == 90 {
			return Rect{
				Point{p.X - ascending*it.Size, p.Y - it.Advance},
				Point{p.X + descending*it.Size, p.Y},
			}
		}
		return Rect{
			Point{p.X, p.Y - ascending*it.Size},
			Point{p.X + it.Advance, p.Y + descending*it.Size},
		}
	}
	b := newBounds()
	b.add(it.Points...)
	return b.rect()
}

// Segments returns the straight pieces of a Stroke, its dashes cut out, for
// outputs that know no dashes. Of any other shape there are none.
func (it Item) Segments() [][2]Point {
	if it.Shape != Stroke || len(it.Points) < 2 {
		return nil
	}
	points := it.Points
	if it.Closed {
		points = append(points[:len(points):len(points)], points[0])
	}
	total := 0.0
	for _, d := range it.Dash {
		total += max(d, 0)
	}
	solid := !(total > 0)
	var out [][2]Point
	at := it.Phase
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		if solid || length > maxDashes*total {
			out = append(out, [2]Point{a, b})
		} else {
			out = appendDashes(out, a, b, length, it.Dash, math.Mod(at, total))
		}
		at += length
	}
	return out
}

// maxDashes is the number of repeats of a pattern beyond which a piece is
// drawn without dashes; a screen shows a few hundred at most.
const maxDashes = 10_000

// appendDashes appends the dashes of the piece from a to b that starts phase
// into the pattern.
func appendDashes(out [][2]Point, a, b Point, length float64, dash []float64, phase float64) [][2]Point {
	on := func(s float64) Point {
		return Point{a.X + (b.X-a.X)*s/length, a.Y + (b.Y-a.Y)*s/length}
	}
	for start, i := -phase, 0; start < length; i = (i + 1) % (2 * len(dash)) {
		end := start + max(dash[i%len(dash)], 0)
		if i%2 == 0 && end > 0 && end > start {
			out = append(out, [2]Point{on(max(start, 0)), on(min(end, length))})
		}
		start = end
	}
	return out
}
