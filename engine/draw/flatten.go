package draw

import (
	"math"
	"slices"
)

// Flatten draws f on the output plane of v with the sizes of m. What lies
// outside v.Clip is cut off, notes and dimension texts that would cross its
// edge are left out; a point that is not a number takes its item with it.
// Hatches and thin lines stop where text stands. Dimensions whose text finds no
// room go, the longest staying.
func (f Figure) Flatten(v View, m Metrics) Flat {
	texts := &emitter{view: v, metrics: m}
	notes := texts.notes(f.Notes)
	texts.measuring = true
	for _, it := range notes {
		texts.holes = append(texts.holes, it.Box())
	}
	figures := texts.dimensions(f, notes)
	e := &emitter{view: v, metrics: m}
	for _, it := range notes {
		e.holes = append(e.holes, it.Box())
	}
	for _, it := range figures {
		e.holes = append(e.holes, it.Box())
	}
	for _, a := range f.Areas {
		e.area(a)
	}
	for _, l := range f.Lines {
		e.stroke([]Point{v.Map(l.A), v.Map(l.B)}, false, l.Pen, l.Part)
	}
	for _, k := range f.Marks {
		e.mark(k)
	}
	return Flat{Items: slices.Concat(e.items, texts.items, figures, notes)}
}

// emitter collects items cut to the view's clip rectangle.
type emitter struct {
	view    View
	metrics Metrics
	holes   []Rect // boxes of text, where thin lines and hatches stop
	items   []Item

	measuring bool // the lines of dimensions are drawn, which stop at notes
}

// visible reports whether r, in output units, lies wholly in the clip.
func (e *emitter) visible(r Rect) bool {
	return e.view.Clip.Empty() || e.view.Clip.Contains(r)
}

// readable reports whether a text in r would show.
func (e *emitter) readable(r Rect) bool {
	return e.visible(r) && (e.view.Covered.Empty() || !r.Overlaps(e.view.Covered))
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
		e.run(l[:], 0, Item{Shape: Stroke, Colour: Pencil, Part: part, Width: e.metrics.Stroke(Thin)})
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
	if e.visible(b.r) && !e.holed(b.r, pen) {
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
		switch {
		case len(run) < 2:
		case e.holed(b.r, pen):
			e.run(run, item.Phase, item)
		default:
			item.Points = run
			e.items = append(e.items, item)
		}
		run = nil
	}
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		from, to, ok := 0.0, 1.0, true
		if !e.view.Clip.Empty() {
			from, to, ok = clipSegment(a, b, e.view.Clip)
		}
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

// holed reports whether a line of pen inside r may meet a hole. Thick lines run on
// under text, and so do those of a dimension's pen that are none of a dimension.
func (e *emitter) holed(r Rect, pen Pen) bool {
	if pen != Thin && pen != Hidden && pen != Centre && !(pen == DimensionPen && e.measuring) {
		return false
	}
	for _, h := range e.holes {
		if h.Overlaps(r.Grow(e.metrics.Thick)) {
			return true
		}
	}
	return false
}

// run adds item as the pieces of the line through points outside the holes.
// The line starts phase into the pattern of dashes.
func (e *emitter) run(points []Point, phase float64, item Item) {
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		for _, piece := range e.outsideHoles(a, b) {
			item.Points = []Point{between(a, b, piece[0]), between(a, b, piece[1])}
			item.Phase = phase + piece[0]*length
			e.items = append(e.items, item)
		}
		phase += length
	}
}

// outsideHoles returns the shares of the segment from a to b that lie outside
// all holes, in order.
func (e *emitter) outsideHoles(a, b Point) [][2]float64 {
	pieces := [][2]float64{{0, 1}}
	for _, h := range e.holes {
		from, to, ok := clipSegment(a, b, h)
		if !ok || !(to > from) {
			continue
		}
		var left [][2]float64
		for _, p := range pieces {
			if from > p[0] {
				left = append(left, [2]float64{p[0], min(p[1], from)})
			}
			if to < p[1] {
				left = append(left, [2]float64{max(p[0], to), p[1]})
			}
		}
		pieces = left
	}
	return pieces
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
		e.polygon(ring(p, s/3), Ink, k.Part)
	case SpotMark:
		circle := ring(p, spotSize*s)
		e.strokeWide(append(circle, circle[0]), AccentInk, k.Part)
		for _, d := range [...]Point{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			from, to := 0.4*spotSize*s, 1.6*spotSize*s
			e.strokeWide([]Point{{p.X + from*d.X, p.Y + from*d.Y}, {p.X + to*d.X, p.Y + to*d.Y}}, AccentInk, k.Part)
		}
	}
}

// spotSize is the radius of a [SpotMark]'s ring over an arrow's length.
const spotSize = 0.7

// ring returns a circle about p as a polygon.
func ring(p Point, radius float64) []Point {
	var out []Point
	for i := range 16 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 16)
		out = append(out, Point{p.X + radius*cos, p.Y + radius*sin})
	}
	return out
}

// markBox returns the rectangle that a mark covers.
func (e *emitter) markBox(k Mark) Rect {
	p, s := e.view.Map(k.At), e.metrics.Arrow
	switch k.Kind {
	case LoadMark:
		return Rect{Point{p.X - s/2, p.Y - 3*s}, Point{p.X + s/2, p.Y}}
	case SupportMark:
		return Rect{Point{p.X - 0.7*s, p.Y}, Point{p.X + 0.7*s, p.Y + 1.2*s}}
	case SpotMark:
		return Rect{p, p}.Grow(1.6 * spotSize * s)
	}
	return Rect{p, p}.Grow(s / 3)
}

// strokeWide adds a thick line in a colour of its own.
func (e *emitter) strokeWide(points []Point, colour Fill, part string) {
	n := len(e.items)
	e.stroke(points, false, Outline, part)
	for i := n; i < len(e.items); i++ {
		e.items[i].Colour = colour
	}
}

// notes returns the notes that show, and adds the grounds of those that have
// one.
func (e *emitter) notes(notes []Note) []Item {
	var out []Item
	var plates []Rect
	for _, n := range notes {
		for _, at := range append([]Point{n.At}, n.Or...) {
			it, ok := e.note(n, at)
			if !ok {
				continue
			}
			if plate := it.Box().Grow(e.metrics.Gap / 3); n.Ground != NoFill || !n.Room.Empty() {
				if slices.ContainsFunc(plates, plate.Overlaps) {
					continue
				}
				plates = append(plates, plate)
				if n.Ground != NoFill {
					e.polygon(plate.Corners(), n.Ground, "") // the text is hit, and a plate needs no outline of its own
				}
			}
			out = append(out, it)
			break
		}
	}
	return out
}

// Whole returns a note in all its words, on a plate, moved as far as need be to lie in
// the clip: what is shown of a part that is pointed at.
func (n Note) Whole(v View, m Metrics) (plate, text Item) {
	text = words(v.Map(n.At), n.Text, n.Anchor, n.Size, n.Bold, m)
	box := text.Box().Grow(m.Gap / 3)
	if c := v.Clip; !c.Empty() {
		text.Points[0].X += max(0, c.Min.X-box.Min.X) - max(0, min(box.Max.X-c.Max.X, box.Min.X-c.Min.X))
		text.Points[0].Y += max(0, c.Min.Y-box.Min.Y) - max(0, min(box.Max.Y-c.Max.Y, box.Min.Y-c.Min.Y))
	}
	text.Part = n.Part
	return Item{Shape: Polygon, Points: text.Box().Grow(m.Gap / 3).Corners(), Colour: Sheet, Part: n.Part}, text
}

// note returns the text of a note at a place of the world, in as many words as have room.
func (e *emitter) note(n Note, at Point) (it Item, ok bool) {
	if n.Text == "" || !finite(at) {
		return it, false
	}
	for _, text := range append([]string{n.Text}, n.Else...) {
		it = words(e.view.Map(at), text, n.Anchor, n.Size, n.Bold, e.metrics)
		b := it.Box().Grow(e.metrics.Gap / 3)
		if n.Room.Empty() || b.Width() <= n.Room.Width()*e.view.Scale && b.Height() <= n.Room.Height()*e.view.Scale {
			it.Part = n.Part
			if n.Colour != NoFill {
				it.Colour = n.Colour
			}
			return it, e.readable(it.Box())
		}
	}
	return it, false
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
