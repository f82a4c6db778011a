// Package draw holds drawings as areas, lines, dimensions and text, on two
// levels that screen, print and PDF share.
//
// A [Figure] is a drawing in the world: millimetres, x to the right, y up,
// every line with a meaning (outline, hidden, centre) and not a width. A
// [Flat] is the same drawing on an output plane: y down, in the output's own
// unit (pixels on screen, millimetres on paper), every line with a width, every
// text with a size and a place. [Figure.Flatten] goes from one to the other.
// A [Page] is a sheet of paper with a Flat on it.
//
// The package knows no colours, only their names ([Fill]); who shows the
// drawing has the table.
//
// Conventions, from memory: line types and the ratio 2:1 of thick to thin of
// ISO 128, dimensions of ISO 129, scales of ISO 5455.
package draw

import "math"

// Point is a place, in the unit of the level it belongs to.
type Point struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
}

// Rect is an upright rectangle. Min holds the smaller coordinates. A Rect
// whose width and height are both zero is empty.
type Rect struct{ Min, Max Point }

// Width returns the extent of r along x.
func (r Rect) Width() float64 { return r.Max.X - r.Min.X }

// Height returns the extent of r along y.
func (r Rect) Height() float64 { return r.Max.Y - r.Min.Y }

// Centre returns the middle of r.
func (r Rect) Centre() Point {
	return Point{(r.Min.X + r.Max.X) / 2, (r.Min.Y + r.Max.Y) / 2}
}

// Empty reports whether r has neither width nor height.
func (r Rect) Empty() bool { return !(r.Width() > 0) && !(r.Height() > 0) }

// Grow returns r made larger by d on every side.
func (r Rect) Grow(d float64) Rect {
	return Rect{Point{r.Min.X - d, r.Min.Y - d}, Point{r.Max.X + d, r.Max.Y + d}}
}

// Overlaps reports whether r and s share more than an edge.
func (r Rect) Overlaps(s Rect) bool {
	return r.Min.X < s.Max.X && s.Min.X < r.Max.X && r.Min.Y < s.Max.Y && s.Min.Y < r.Max.Y
}

// Contains reports whether s lies wholly in r, edges included.
func (r Rect) Contains(s Rect) bool {
	return s.Min.X >= r.Min.X && s.Max.X <= r.Max.X && s.Min.Y >= r.Min.Y && s.Max.Y <= r.Max.Y
}

// Corners returns the four corners of r, one after the other around it, ready
// to be the Points of an [Area].
func (r Rect) Corners() []Point {
	return []Point{r.Min, {r.Max.X, r.Min.Y}, r.Max, {r.Min.X, r.Max.Y}}
}

// Pen says what a line is; width, dashes and colour follow from it.
type Pen uint8

// The pens. Outline and Frame are thick, Accent marks what is picked and is
// thick too; all others are half as wide.
const (
	NoPen        Pen = iota
	Outline          // visible edge
	Thin             // visible edge of lesser weight, leader
	Hidden           // hidden edge, dashed
	Centre           // centre line, chain
	DimensionPen     // dimension and extension lines
	RulePen          // rules of tables, grids
	Accent           // what is picked
	Frame            // border of a sheet
)

// Fill names a colour. The first group fills areas, the second colours lines
// and text.
type Fill uint8

// The fills.
const (
	NoFill        Fill = iota
	Sheet              // the drawing's ground
	Skin               // top or bottom skin
	LengthwiseRib      //
	CrosswiseRib       //
	Band               // edge band
	Block              // solid block in the core
	Cut                // cut face: ink at 15 %
	Load               //
	Support            //
	Good               // within its limit
	Near               // near its limit
	Over               // over its limit
	Select             // tint under what is picked
	Sag0               // sag map: least sag
	Sag1               //
	Sag2               //
	Sag3               //
	Sag4               //
	Sag5               //
	Sag6               //
	Sag7               //
	Sag8               //
	Sag9               // sag map: most sag, the darkest

	Ink       // text and outlines
	Pencil    // secondary text, dimension lines
	RuleInk   // separators
	AccentInk // what is picked
)

// Hatch is a pattern of parallel lines over an area.
type Hatch uint8

// The hatches: lines rising to the right, lines falling to the right.
const (
	NoHatch Hatch = iota
	HatchSlash
	HatchBackslash
)

// Anchor says which point of a text stands at the note's place.
type Anchor uint8

// The anchors. The zero value centres the text on its place; AtLeft puts the
// left end of the text there, halfway up the capitals; AtTopLeft the upper left
// corner, and so on.
const (
	AtMiddle Anchor = iota
	AtLeft
	AtRight
	AtTop
	AtBottom
	AtTopLeft
	AtTopRight
	AtBottomLeft
	AtBottomRight
)

// TextSize is one of four sizes of text.
type TextSize uint8

// The sizes, in the ratio 11 : 13 : 15 : 22.
const (
	NoteSize    TextSize = iota // drawing notes and dimensions
	BodySize                    // running text, tables
	HeadingSize                 // headings
	FigureSize                  // result figures
)

// Area is a polygon. Part names what it belongs to, for hover and selection;
// an area with a Part can be hit anywhere inside, filled or not.
type Area struct {
	Points []Point
	Fill   Fill
	Pen    Pen
	Hatch  Hatch
	Part   string
}

// Line is a straight line from A to B.
type Line struct {
	A, B Point
	Pen  Pen
	Part string
}

// Note is a text at a place in the world; it keeps its size on output. A note
// that would leave the clip rectangle is not shown. Colour is Ink if NoFill.
// Ground is the colour of a plate under the text, for a text that stands on
// colours it does not read on; where two plates would overlap, the later note
// is left out.
//
// Room is how wide and high the text may be on output, as a rectangle of the world:
// the first of Text and Else that fits at the present scale is shown, none where
// none does; an empty Room is any. Notes with a Room stay off each other and off plates
// as plates do, and stand at the first of At and Or that is free.
type Note struct {
	At     Point
	Text   string
	Anchor Anchor
	Size   TextSize
	Bold   bool
	Colour Fill
	Ground Fill
	Part   string

	Else []string // shorter texts
	Or   []Point  // other places
	Room Rect
}

// MarkKind is a symbol that keeps its size on output.
type MarkKind uint8

// The marks.
const (
	LoadMark    MarkKind = iota // arrow from above, its point at the place
	SupportMark                 // triangle from below, its point at the place
	DotMark                     // small disc
	SpotMark                    // ring with cross hairs in the accent colour
)

// Mark is a symbol at a place in the world.
type Mark struct {
	At   Point
	Kind MarkKind
	Part string
}

// Side says on which side of the figure a dimension line lies.
type Side uint8

// The sides. Above and Below measure along x, Left and Right along y.
const (
	Above Side = iota
	Below
	Left
	Right
)

// Dimension is the distance from A to B along x or y, with its line, its
// arrows and its text. Rank 1 is the line next to the figure's edge, 2 the one
// beyond. Rank 0 puts the line not outside the figure but between A and B
// themselves, at A's own y (or x). Offset moves it further out, in output
// units.
type Dimension struct {
	A, B   Point
	Side   Side
	Rank   int
	Offset float64
	Text   string
	Part   string
}

// Figure is a drawing in the world. Areas are drawn first, in order, then
// lines, marks, dimensions and notes.
type Figure struct {
	Areas      []Area
	Lines      []Line
	Marks      []Mark
	Dimensions []Dimension
	Notes      []Note
}

// Bounds returns the smallest rectangle around areas, lines and marks. Notes
// and dimensions have no size in the world and do not count. The Rect of a
// figure without any is empty.
func (f Figure) Bounds() Rect {
	b := newBounds()
	for _, a := range f.Areas {
		b.add(a.Points...)
	}
	for _, l := range f.Lines {
		b.add(l.A, l.B)
	}
	for _, m := range f.Marks {
		b.add(m.At)
	}
	return b.rect()
}

// bounds collects points. Points that are not numbers are left out.
type bounds struct{ r Rect }

func newBounds() *bounds {
	inf := math.Inf(1)
	return &bounds{Rect{Point{inf, inf}, Point{-inf, -inf}}}
}

func (b *bounds) add(points ...Point) {
	for _, p := range points {
		if !finite(p) {
			continue
		}
		b.r.Min.X = min(b.r.Min.X, p.X)
		b.r.Min.Y = min(b.r.Min.Y, p.Y)
		b.r.Max.X = max(b.r.Max.X, p.X)
		b.r.Max.Y = max(b.r.Max.Y, p.Y)
	}
}

func (b *bounds) rect() Rect {
	if b.r.Min.X > b.r.Max.X {
		return Rect{}
	}
	return b.r
}

func finite(p Point) bool {
	s := p.X + p.Y
	return !math.IsNaN(s) && !math.IsInf(s, 0)
}
