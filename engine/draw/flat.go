package draw

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
	Width  float64
	Dash   []float64
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

// Shares of the em that stand above and below the baseline. DejaVu Sans has
// capitals of 0.73 em and descenders of 0.24 em (read off its OS/2 table); the
// box leaves room for accents and fraction bars.
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
