package engine

import (
	"fmt"
	"math"
	"slices"

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

	Moved bool // loads or supports have moved since; the text says so

	heights bool // values are heights: the lowest is the darkest

	pixel  float64 // mm of the panel that one pixel of a board shows, about; 0 for a map alone
	beside bool    // something is drawn on its left
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

	pixel float64 // mm

	low, high float64    // least and largest sag, mm
	most      draw.Point // where it is largest
}

func newSagMap(g contour.Grid, o SagMapOptions) *sagMap {
	if o.Levels < 1 || o.Levels > sagSteps-1 {
		o.Levels = sagSteps - 1
	}
	m := &sagMap{g: g, o: o, unit: 1, w: g.X1 - g.X0, h: g.Y1 - g.Y0, pixel: o.pixel}
	if !(m.pixel > 0) {
		m.pixel = pixelOf(m.w, m.h, smallRoom)
	}
	if o.Lengths.Imperial {
		m.unit = length.Inch
	}
	m.low, m.high = g.Range()
	m.most = draw.Point(g.Highest())
	if o.Most >= m.high && !math.IsInf(o.Most, 0) {
		m.high, m.most = o.Most, o.At
	}
	if low, high := g.Range(); high-low >= levelSag {
		m.levels = contour.Levels(low/m.unit, high/m.unit, o.Levels)
	}
	return m
}

// pixelOf returns how many mm one pixel shows of a drawing w by h mm that fills
// a room in pixels. Text keeps its size there, so the room that it needs in mm
// can only be estimated; on paper, where a line of notes is 3 mm high, it needs
// about as much.
func pixelOf(w, h float64, room draw.Point) float64 { return max(w/room.X, h/room.Y) }

// smallRoom is the room of a drawing that was told none, in pixels.
var smallRoom = draw.Point{X: 620, Y: 520}

// levelSag is the range of sag in mm below which a panel is drawn as level: a
// hundredth of what a feeler gauge sees, 0.02 mm. It keeps contour lines from
// showing the rounding of a solution. Our own choice.
const levelSag = 0.0002

// fill returns the colour of the band with index k: from the lightest on, in
// equal strides as long as there are colours for.
func (m *sagMap) fill(k int) draw.Fill {
	stride := (sagSteps - 1) / max(len(m.levels), 1)
	if m.o.heights {
		k = len(m.levels) - k
	}
	return draw.Sag0 + draw.Fill(k*stride)
}

// finest is the detail of outlines that is drawn, mm.
func (m *sagMap) finest() float64 { return 0.3 * m.pixel }

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
	taken := []draw.Rect{draw.Rect{Min: m.most, Max: m.most}.Grow(6 * m.pixel)}
	for _, level := range m.levels {
		lines := m.g.Lines(level * m.unit)
		for _, l := range lines {
			points := drawn(l.Simplify(m.finest()).Points)
			if l.Closed {
				m.Areas = append(m.Areas, draw.Area{Points: points, Pen: draw.Thin})
				continue
			}
			for i := 1; i < len(points); i++ {
				m.Lines = append(m.Lines, draw.Line{A: points[i-1], B: points[i], Pen: draw.Thin})
			}
		}
		for _, p := range m.g.Labels(lines) {
			box := m.textBox(draw.Point(p), sagNumber(level))
			if m.clear(box, taken) && m.showsAround(lines, box) {
				taken = append(taken, box)
				m.Notes = append(m.Notes, draw.Note{At: draw.Point(p), Text: sagNumber(level), Ground: draw.Sheet})
				break
			}
		}
	}
}

// textBox returns the room that a number with its middle at p takes, by 6.5
// pixels for a sign and a line of 14, and air.
func (m *sagMap) textBox(p draw.Point, text string) draw.Rect {
	w, h := (6.5*float64(len([]rune(text)))+8)*m.pixel, 18*m.pixel
	return draw.Rect{Min: draw.Point{X: p.X - w/2, Y: p.Y - h/2}, Max: draw.Point{X: p.X + w/2, Y: p.Y + h/2}}
}

// clear reports whether a box keeps off the edges and off the boxes taken.
func (m *sagMap) clear(box draw.Rect, taken []draw.Rect) bool {
	panel := draw.Rect{Min: draw.Point{X: m.g.X0, Y: m.g.Y0}, Max: draw.Point{X: m.g.X1, Y: m.g.Y1}}
	return panel.Contains(box) && !slices.ContainsFunc(taken, box.Overlaps)
}

// showsAround reports whether enough is left of a line under a number's box:
// a loop not much larger than the number would be hidden by it.
func (m *sagMap) showsAround(lines []contour.Polyline, box draw.Rect) bool {
	out := 0.0
	for _, l := range lines {
		for i := 1; i < len(l.Points); i++ {
			a, b := draw.Point(l.Points[i-1]), draw.Point(l.Points[i])
			if !box.Contains(draw.Rect{Min: a, Max: a}) || !box.Contains(draw.Rect{Min: b, Max: b}) {
				out += math.Hypot(a.X-b.X, a.Y-b.Y)
			}
		}
	}
	return out > 2*box.Width()
}

// legend draws the colours in a column to the right with the sags between
// them, most on top, and keeps the room for the numbers.
func (m *sagMap) legend() {
	x0 := m.g.X1 + 12*m.pixel
	x1 := x0 + 14*m.pixel
	n := len(m.levels) + 1
	step := m.h / float64(n)
	for k := range n {
		y := m.g.Y0 + step*float64(k)
		m.Areas = append(m.Areas, draw.Area{Points: rect(x0, y, x1, y+step), Fill: m.fill(k), Pen: draw.Thin})
	}
	every := int(math.Ceil(15 * m.pixel / step)) // of the numbers, where the column is short
	room := 0.0
	for k, level := range m.levels {
		if (k+1)%every == 0 {
			at := draw.Point{X: x1 + 5*m.pixel, Y: m.g.Y0 + step*float64(k+1)}
			m.Notes = append(m.Notes, draw.Note{At: at, Text: sagNumber(level), Anchor: draw.AtLeft})
			room = max(room, m.textBox(at, sagNumber(level)).Width())
		}
	}
	m.Notes = append(m.Notes, draw.Note{At: draw.Point{X: x0, Y: m.g.Y1 + 4*m.pixel}, Text: m.o.Lengths.Unit(), Anchor: draw.AtBottomLeft, Colour: draw.Pencil})
	m.Areas = append(m.Areas, draw.Area{Points: rect(x0, m.g.Y0, x1+room, m.g.Y1)})
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
	if n := len(m.levels); n > 1 && m.w > roomyTitle*m.pixel {
		text += "; contour lines every " + sagNumber(m.levels[1]-m.levels[0]) + " " + f.Unit()
	}
	if m.o.Moved {
		text = "Computing… this map is from before the last move"
	}
	n := draw.Note{At: draw.Point{X: m.g.X0 + m.w/2, Y: m.g.Y0 - 6*m.pixel}, Text: text, Anchor: draw.AtTop, Colour: draw.Pencil, Part: SagMapPart}
	if m.o.beside { // a wider text must not run into what is on the left
		n.At.X, n.Anchor = m.g.X0, draw.AtTopLeft
	}
	m.Notes = append(m.Notes, n)
}

// roomyTitle is the width in pixels from which a map's line of text tells the
// steps of the contour lines too; else the legend does alone.
const roomyTitle = 310

// sagNumber prints the sag of a contour line, a round number.
func sagNumber(v float64) string { return length.Number(v, 6) }

func drawn(points []contour.Point) []draw.Point {
	out := make([]draw.Point, len(points))
	for i, p := range points {
		out[i] = draw.Point(p)
	}
	return out
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
