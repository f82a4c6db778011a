package draw

import (
	"math"
	"slices"
)

// Flatten draws f on the output plane of v with the sizes of m. What lies
// outside v.Clip is cut off, notes and dimension texts that would cross its
// edge are left out; a point that is not a number takes its item with it.
func (f Figure) Flatten(v View, m Metrics) Flat {
	e := &emitter{view: v, metrics: m}
	for _, a := range f.Areas {
		e.area(a)
	}
	for _, l := range f.Lines {
		e.stroke([]Point{v.Map(l.A), v.Map(l.B)}, false, l.Pen, l.Part)
	}
	for _, k := range f.Marks {
		e.mark(k)
	}
	notes := e.notes(f.Notes)
	e.dimensions(f, notes)
	e.items = append(e.items, notes...)
	return Flat{Items: e.items}
}

// emitter collects items cut to the view's clip rectangle.
type emitter struct {
	view    View
	metrics Metrics
	items   []Item
}

// visible reports whether r, in output units, lies wholly in the clip.
func (e *emitter) visible(r Rect) bool {
	return e.view.Clip.Empty() || e.view.Clip.Contains(r)
}

func (e *emitter) area(a Area) {
	points := make([]Point, len(a.Points))
	for i, p := range a.Points {
		points[i] = e.view.Map(p)
	}
	if a.Fill != NoFill || a.Part != "" {
		e.polygon(points, a.Fill, a.Part)
	}
	if a.Hatch != NoHatch {
		e.hatch(points, a.Hatch, a.Part)
	}
	e.stroke(points, true, a.Pen, a.Part)
}

func (e *emitter) polygon(points []Point, colour Fill, part string) {
	if !allFinite(points) {
		return
	}
	if !e.view.Clip.Empty() {
		points = clipPolygon(points, e.view.Clip)
	}
	if len(points) > 2 {
		e.items = append(e.items, Item{Shape: Polygon, Points: points, Colour: colour, Part: part})
	}
}

func (e *emitter) hatch(points []Point, h Hatch, part string) {
	if !allFinite(points) {
		return
	}
	if !e.view.Clip.Empty() {
		points = clipPolygon(points, e.view.Clip)
	}
	origin := Point{e.view.OriginX, e.view.OriginY}
	for _, l := range hatchLines(points, h, e.metrics.HatchSpacing, origin) {
		e.items = append(e.items, Item{
			Shape: Stroke, Points: l[:], Colour: Pencil, Part: part, Width: e.metrics.Stroke(Thin),
		})
	}
}

// stroke adds the line through points, cut to the clip rectangle, in one item
// for each piece that shows.
func (e *emitter) stroke(points []Point, closed bool, pen Pen, part string) {
	if pen == NoPen || len(points) < 2 || !allFinite(points) {
		return
	}
	item := Item{
		Shape: Stroke, Colour: pen.Colour(), Part: part,
		Width: e.metrics.Stroke(pen), Dash: e.metrics.Dash(pen),
	}
	b := newBounds()
	b.add(points...)
	if e.visible(b.r) {
		item.Points, item.Closed = points, closed
		e.items = append(e.items, item)
		return
	}
	if closed {
		points = append(slices.Clone(points), points[0])
	}
	along := 0.0
	var run []Point
	flush := func() {
		if len(run) > 1 {
			item.Points = run
			e.items = append(e.items, item)
		}
		run = nil
	}
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		from, to, ok := clipSegment(a, b, e.view.Clip)
		if !ok || from > 0 {
			flush()
		}
		if ok {
			if run == nil {
				item.Phase = along + from*length
				run = []Point{between(a, b, from)}
			}
			run = append(run, between(a, b, to))
			if to < 1 {
				flush()
			}
		}
		along += length
	}
	flush()
}

func (e *emitter) mark(k Mark) {
	p := e.view.Map(k.At)
	s := e.metrics.Arrow
	switch k.Kind {
	case LoadMark:
		top := Point{p.X, p.Y - 3*s}
		head := Point{p.X, p.Y - s}
		e.strokeWide([]Point{top, head}, Load, k.Part)
		e.polygon([]Point{p, {p.X - s/2, p.Y - s}, {p.X + s/2, p.Y - s}}, Load, k.Part)
	case SupportMark:
		tri := []Point{p, {p.X + 0.7*s, p.Y + 1.2*s}, {p.X - 0.7*s, p.Y + 1.2*s}}
		e.polygon(tri, Support, k.Part)
		e.stroke(tri, true, Thin, k.Part)
	case DotMark:
		var disc []Point
		for i := range 12 {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / 12)
			disc = append(disc, Point{p.X + s/3*cos, p.Y + s/3*sin})
		}
		e.polygon(disc, Ink, k.Part)
	}
}

// strokeWide adds a thick line in a colour of its own.
func (e *emitter) strokeWide(points []Point, colour Fill, part string) {
	n := len(e.items)
	e.stroke(points, false, Outline, part)
	for i := n; i < len(e.items); i++ {
		e.items[i].Colour = colour
	}
}

// notes returns the notes that show.
func (e *emitter) notes(notes []Note) []Item {
	var out []Item
	for _, n := range notes {
		if n.Text == "" || !finite(n.At) {
			continue
		}
		it := words(e.view.Map(n.At), n.Text, n.Anchor, n.Size, n.Bold, e.metrics)
		it.Part = n.Part
		if n.Colour != NoFill {
			it.Colour = n.Colour
		}
		if e.visible(it.Box()) {
			out = append(out, it)
		}
	}
	return out
}

// words returns text with its anchor at p.
func words(p Point, text string, a Anchor, s TextSize, bold bool, m Metrics) Item {
	size := m.Size(s)
	w := m.Width(text, s, bold)
	switch a {
	case AtLeft, AtTopLeft, AtBottomLeft:
	case AtRight, AtTopRight, AtBottomRight:
		p.X -= w
	default:
		p.X -= w / 2
	}
	switch a {
	case AtTop, AtTopLeft, AtTopRight:
		p.Y += ascending * size
	case AtBottom, AtBottomLeft, AtBottomRight:
		p.Y -= descending * size
	default:
		p.Y += capitals / 2 * size
	}
	return Item{
		Shape: Words, Points: []Point{p}, Colour: Ink,
		Text: text, Size: size, Bold: bold, Advance: w,
	}
}

func allFinite(points []Point) bool {
	for _, p := range points {
		if !finite(p) {
			return false
		}
	}
	return true
}
