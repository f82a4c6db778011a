package engine

import (
	"fmt"
	"math"

	"flatwright/engine/contour"
	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// SagMapOptions says how a sag map is drawn.
type SagMapOptions struct {
	Lengths length.Format // for the numbers
	Levels  int           // contour lines at most, up to 9; 0 is 9

	// Most is the largest sag where that is known better than from the grid, as
	// under a load between its points, and At where it is. It is not used if the
	// grid has a larger one.
	Most float64
	At   draw.Point
}

// SagMapPart is the part ID under which the sag map is drawn.
const SagMapPart = "sag map"

// sagSteps is how many colours a sag map has.
const sagSteps = int(draw.Sag9-draw.Sag0) + 1

// Over returns the sags as a grid over the panel of d.
func (s SagGrid) Over(d Design) contour.Grid {
	return contour.Grid{X1: d.Length, Y1: d.Width, NX: s.NX, NY: s.NY, Values: s.Sag}
}

// SagMap returns the drawing of sags, in mm, over the panel seen from above:
// bands that are the darker the more it sags, contour lines at round sags in
// the user's unit with their numbers, a dot where it sags most, a legend to the
// right and a line of text below. The drawing of a grid that is not valid is
// empty.
func SagMap(g contour.Grid, o SagMapOptions) draw.Figure {
	if !g.Valid() {
		return draw.Figure{}
	}
	m := newSagMap(g, o)
	m.bands()
	m.contours()
	m.Areas = append(m.Areas, draw.Area{Points: rect(g.X0, g.Y0, g.X1, g.Y1), Pen: draw.Outline, Part: SagMapPart})
	m.legend()
	m.title()
	return m.Figure
}

// sagMap collects the figure of a sag map.
type sagMap struct {
	draw.Figure
	g      contour.Grid
	o      SagMapOptions
	unit   float64   // the user's unit in mm
	levels []float64 // in that unit
	w, h   float64   // of the panel

	low, high float64    // least and largest sag, mm
	most      draw.Point // where it is largest
}

func newSagMap(g contour.Grid, o SagMapOptions) *sagMap {
	if o.Levels < 1 || o.Levels > sagSteps-1 {
		o.Levels = sagSteps - 1
	}
	m := &sagMap{g: g, o: o, unit: 1, w: g.X1 - g.X0, h: g.Y1 - g.Y0}
	if o.Lengths.Imperial {
		m.unit = length.Inch
	}
	m.low, m.high = g.Range()
	m.most = draw.Point(g.Highest())
	if o.Most > m.high && !math.IsInf(o.Most, 0) {
		m.high, m.most = o.Most, o.At
	}
	if low, high := g.Range(); high-low >= levelSag {
		m.levels = contour.Levels(low/m.unit, high/m.unit, o.Levels)
	}
	return m
}

// levelSag is the range of sag in mm below which a panel is drawn as level: a
// hundredth of what a feeler gauge sees, 0.02 mm. It keeps contour lines from
// showing the rounding of a solution. Our own choice.
const levelSag = 0.0002

// fill returns the colour of the band with index k: from the lightest on, in
// equal strides as long as there are colours for.
func (m *sagMap) fill(k int) draw.Fill {
	stride := (sagSteps - 1) / max(len(m.levels), 1)
	return draw.Sag0 + draw.Fill(k*stride)
}

// finest is the detail of outlines that is drawn, in mm: less than half a pixel
// or a tenth of a millimetre on paper when the map fills a window or page.
func (m *sagMap) finest() float64 { return math.Hypot(m.w, m.h) / 2500 }

// bands lays over each other all that sags, all that sags more, and so on. So
// no ground shines through between two bands, as it does where two areas with
// soft edges meet.
func (m *sagMap) bands() {
	g := m.g
	m.Areas = append(m.Areas, draw.Area{Points: rect(g.X0, g.Y0, g.X1, g.Y1), Fill: m.fill(0)})
	for k, level := range m.levels {
		for _, p := range g.Above(level * m.unit) {
			line := contour.Polyline{Points: p, Closed: true}.Simplify(m.finest())
			m.Areas = append(m.Areas, draw.Area{Points: drawn(line.Points), Fill: m.fill(k + 1)})
		}
	}
}

// contours draws the lines between the bands, and their numbers where there is
// room.
func (m *sagMap) contours() {
	least := 2.5 * labelWidth * max(m.w, m.h) // of a line with a number; on a shorter one it would hide the line
	taken := []draw.Point{m.most}
	for _, level := range m.levels {
		lines := m.g.Lines(level * m.unit)
		longest := 0.0
		for _, l := range lines {
			longest = max(longest, l.Length())
			points := drawn(l.Simplify(m.finest()).Points)
			if l.Closed {
				m.Areas = append(m.Areas, draw.Area{Points: points, Pen: draw.Thin})
				continue
			}
			for i := 1; i < len(points); i++ {
				m.Lines = append(m.Lines, draw.Line{A: points[i-1], B: points[i], Pen: draw.Thin})
			}
		}
		if longest < least {
			continue
		}
		for _, p := range m.g.Labels(lines) {
			if at := draw.Point(p); m.clear(at, taken) {
				taken = append(taken, at)
				m.Notes = append(m.Notes, draw.Note{At: at, Text: sagNumber(level), Ground: draw.Sheet})
				break
			}
		}
	}
}

// The room that a number takes, in parts of the longer side of the panel, when
// the map fills a window or page: five figures of 11 pixels in 700, or of 3 mm
// in 200, and air. Text keeps its size, so the room in mm is an estimate.
const labelWidth, labelHeight = 0.065, 0.032

// clear reports whether a number at p keeps off the edges and the others.
func (m *sagMap) clear(p draw.Point, taken []draw.Point) bool {
	size := max(m.w, m.h)
	w, h := labelWidth*size, labelHeight*size
	if min(p.X-m.g.X0, m.g.X1-p.X) < w/2 || min(p.Y-m.g.Y0, m.g.Y1-p.Y) < h/2 {
		return false
	}
	for _, q := range taken {
		if math.Abs(p.X-q.X) < w && math.Abs(p.Y-q.Y) < h {
			return false
		}
	}
	return true
}

// legend draws the colours in a column to the right with the sags between
// them, most on top, and keeps the room for the numbers.
func (m *sagMap) legend() {
	size := max(m.w, m.h)
	x0 := m.g.X1 + 0.02*size
	x1 := x0 + 0.025*size
	n := len(m.levels) + 1
	step := m.h / float64(n)
	for k := range n {
		y := m.g.Y0 + step*float64(k)
		m.Areas = append(m.Areas, draw.Area{Points: rect(x0, y, x1, y+step), Fill: m.fill(k), Pen: draw.Thin})
	}
	every := int(math.Ceil(labelHeight * size / step)) // of the numbers, where the column is short
	for k, level := range m.levels {
		if (k+1)%every == 0 {
			at := draw.Point{X: x1 + 0.008*size, Y: m.g.Y0 + step*float64(k+1)}
			m.Notes = append(m.Notes, draw.Note{At: at, Text: sagNumber(level), Anchor: draw.AtLeft})
		}
	}
	m.Notes = append(m.Notes, draw.Note{At: draw.Point{X: x0, Y: m.g.Y1 + 0.008*size}, Text: m.o.Lengths.Unit(), Anchor: draw.AtBottomLeft, Colour: draw.Pencil})
	m.Areas = append(m.Areas, draw.Area{Points: rect(x0, m.g.Y0, x1+labelWidth*size, m.g.Y1)})
}

// title says below the map what it shows, and marks where it sags most.
func (m *sagMap) title() {
	low, high, f := m.low, m.high, m.o.Lengths
	text := "No sag to be seen"
	if high-low >= levelSag {
		fine := math.Pow10(int(math.Floor(math.Log10((high-low)/m.unit))) - 2)
		text = fmt.Sprintf("Sag %s to %s, most at the dot", sagNumber(math.Round(low/m.unit/fine)*fine), length.Sag(high, f))
		m.Marks = append(m.Marks, draw.Mark{At: m.most, Kind: draw.DotMark, Part: SagMapPart})
	} else if math.Abs(high) >= levelSag {
		text = "Sag " + length.Sag(high, f) + " all over"
	}
	if n := len(m.levels); n > 1 {
		text += "; contour lines every " + sagNumber(m.levels[1]-m.levels[0]) + " " + f.Unit()
	}
	m.Notes = append(m.Notes, draw.Note{At: draw.Point{X: m.g.X0 + m.w/2, Y: m.g.Y0 - 0.012*max(m.w, m.h)}, Text: text, Anchor: draw.AtTop, Colour: draw.Pencil, Part: SagMapPart})
}

// sagNumber prints the sag of a contour line, a round number.
func sagNumber(v float64) string { return length.Number(v, 6) }

func drawn(points []contour.Point) []draw.Point {
	out := make([]draw.Point, len(points))
	for i, p := range points {
		out[i] = draw.Point(p)
	}
	return out
}

// sagMap draws the map of the sags g with its upper edge at y = top.
func (b *board) sagMap(g contour.Grid, top float64) {
	o := SagMapOptions{Lengths: b.o.Lengths}
	if w := b.r.Whole; w != nil && b.o.Case < len(w.Cases) {
		c := w.Cases[b.o.Case]
		o.Most, o.At = c.Sag, draw.Point{X: c.X, Y: c.Y}
	}
	b.add(SagMap(g, o), draw.Point{Y: top - g.Y1})
}

// add draws f moved by the given vector. Its dimensions do not count.
func (b *board) add(f draw.Figure, by draw.Point) {
	at := func(p draw.Point) draw.Point { return draw.Point{X: p.X + by.X, Y: p.Y + by.Y} }
	for _, a := range f.Areas {
		a.Points = move(a.Points, by)
		b.Areas = append(b.Areas, a)
	}
	for _, l := range f.Lines {
		l.A, l.B = at(l.A), at(l.B)
		b.Lines = append(b.Lines, l)
	}
	for _, k := range f.Marks {
		k.At = at(k.At)
		b.Marks = append(b.Marks, k)
	}
	for _, n := range f.Notes {
		n.At = at(n.At)
		b.Notes = append(b.Notes, n)
	}
}
