package draw

import (
	"cmp"
	"math"
	"slices"
)

// Margins returns the room that the figure's dimensions need on each side, for
// [Fit], with an arrow's length of air.
func (f Figure) Margins(m Metrics) Margins {
	var out Margins
	for _, d := range f.Dimensions {
		if d.Rank < 1 {
			continue
		}
		need := float64(d.Rank)*m.RankStep + d.Offset + m.Gap
		switch d.Side {
		case Above:
			out.Top = max(out.Top, need+m.TextSize)
		case Below:
			out.Bottom = max(out.Bottom, need)
		case Left:
			out.Left = max(out.Left, need+m.TextSize)
		case Right:
			out.Right = max(out.Right, need)
		}
	}
	out.Left += m.Arrow
	out.Top += m.Arrow
	out.Right += m.Arrow
	out.Bottom += m.Arrow
	return out
}

// dimensionLine is a dimension in output units: u runs along its line, v across
// it, v growing to the right or downward. So text stands at smaller v than its
// line, above a line that lies and left of one that stands.
type dimensionLine struct {
	Dimension
	upright bool    // u is y, v is x
	u0, u1  float64 // ends of the line, u0 < u1
	v       float64 // of the line
	a0, a1  float64 // v of the measured points at u0 and u1
}

// at returns the output point (u, v).
func (d *dimensionLine) at(u, v float64) Point {
	if d.upright {
		return Point{v, u}
	}
	return Point{u, v}
}

// across returns p as (u, v); its own inverse, like at.
func (d *dimensionLine) across(p Point) (u, v float64) {
	if d.upright {
		return p.Y, p.X
	}
	return p.X, p.Y
}

// box returns the rectangle between two corners in u and v.
func (d *dimensionLine) box(ua, ub, va, vb float64) Rect {
	b := newBounds()
	b.add(d.at(ua, va), d.at(ub, vb))
	return b.rect()
}

// newDimensionLine places the line of d. edge is the figure's bounds on the
// output plane.
func newDimensionLine(d Dimension, v View, m Metrics, edge Rect) (*dimensionLine, bool) {
	l := &dimensionLine{Dimension: d, upright: d.Side == Left || d.Side == Right}
	if !finite(d.A) || !finite(d.B) || !finite(Point{d.Offset, 0}) {
		return nil, false
	}
	l.u0, l.a0 = l.across(v.Map(d.A))
	l.u1, l.a1 = l.across(v.Map(d.B))
	start := l.a0
	if l.u0 > l.u1 {
		l.u0, l.u1, l.a0, l.a1 = l.u1, l.u0, l.a1, l.a0
	}
	out := 1.0
	if d.Side == Above || d.Side == Left {
		out = -1
	}
	if d.Rank > 0 {
		_, low := l.across(edge.Min)
		_, high := l.across(edge.Max)
		start = high
		if out < 0 {
			start = low
		}
		start += out * float64(d.Rank) * m.RankStep
	}
	l.v = start + out*d.Offset
	return l, l.u1 > l.u0
}

// edge returns what the dimension lines are counted from: the bounds of the
// areas, since centre lines and leaders stand out beyond the object; without
// areas, the bounds of all.
func (f Figure) edge() Rect {
	if len(f.Areas) > 0 {
		return Figure{Areas: f.Areas}.Bounds()
	}
	return f.Bounds()
}

// dimensions adds the dimensions of f, longest first, and returns their texts.
// One whose text finds no room clear of notes and of the texts placed before is
// left out, line and all.
func (e *emitter) dimensions(f Figure, notes []Item) []Item {
	world := f.edge()
	edge := newBounds()
	edge.add(e.view.Map(world.Min), e.view.Map(world.Max))
	var lines []*dimensionLine
	for _, d := range f.Dimensions {
		if l, ok := newDimensionLine(d, e.view, e.metrics, edge.rect()); ok {
			lines = append(lines, l)
		}
	}
	// By lengths in the world, so that panning never changes the order.
	slices.SortStableFunc(lines, func(a, b *dimensionLine) int {
		return cmp.Compare(b.length(), a.length())
	})
	p := placer{emitter: e, lines: lines}
	for _, k := range f.Marks {
		p.marks = append(p.marks, e.markBox(k))
	}
	for _, n := range notes {
		p.texts = append(p.texts, n.Box())
	}
	var placed []Item
	for _, l := range lines {
		if it, ok := p.place(l); ok {
			placed = append(placed, it)
		}
	}
	return placed
}

// length returns the measured length in the world.
func (d *dimensionLine) length() float64 {
	if d.upright {
		return math.Abs(d.B.Y - d.A.Y)
	}
	return math.Abs(d.B.X - d.A.X)
}

// placer finds room for dimension texts.
type placer struct {
	*emitter
	lines   []*dimensionLine
	texts   []Rect // boxes that no text may overlap
	strokes []Rect // dimension lines, which a text avoids if it can
	marks   []Rect // marks, likewise
}

// place adds the lines of d and returns its text, if there is room for it.
func (p *placer) place(d *dimensionLine) (Item, bool) {
	m := p.metrics
	text, ok := p.text(d)
	if !ok {
		return Item{}, false
	}
	box := text.Box()
	p.texts = append(p.texts, box.Grow(m.Gap/2))
	p.extension(d, d.u0, d.a0)
	p.extension(d, d.u1, d.a1)

	// The line itself, longer where arrows or text stand outside.
	from, to := d.u0, d.u1
	outside := d.u1-d.u0 < 3*m.Arrow
	if outside {
		from, to = from-2*m.Arrow, to+2*m.Arrow
	}
	low, _ := d.across(box.Min)
	high, _ := d.across(box.Max)
	from, to = min(from, low), max(to, high)
	p.thin(d, from, to, d.v, d.v)
	p.arrow(d, d.u0, outside)
	p.arrow(d, d.u1, !outside)
	return text, true
}

// thin adds a thin line between two corners in u and v, unless it would lie on
// one that is there, as where two dimensions of a chain meet.
func (p *placer) thin(d *dimensionLine, ua, ub, va, vb float64) {
	box := d.box(ua, ub, va, vb)
	for _, s := range p.strokes {
		if s.Contains(box) {
			return
		}
	}
	p.stroke([]Point{d.at(ua, va), d.at(ub, vb)}, false, DimensionPen, d.Part)
	p.strokes = append(p.strokes, box.Grow(p.metrics.Thick/4))
}

// extension adds the extension line at u from the measured point at v to a
// little beyond the dimension line.
func (p *placer) extension(d *dimensionLine, u, v float64) {
	gap := p.metrics.Gap
	switch {
	case v < d.v-gap:
		p.thin(d, u, u, v+gap, d.v+gap)
	case v > d.v+gap:
		p.thin(d, u, u, v-gap, d.v-gap)
	}
}

// arrow adds a slim arrow head, a quarter as wide as long, with its point at u,
// pointing to smaller or greater u. One that would be cut by the clip's edge is
// left out.
func (p *placer) arrow(d *dimensionLine, u float64, toGreater bool) {
	length := p.metrics.Arrow
	back := u + length
	if toGreater {
		back = u - length
	}
	head := []Point{d.at(u, d.v), d.at(back, d.v-length/8), d.at(back, d.v+length/8)}
	if p.visible(d.box(u, back, d.v-length/8, d.v+length/8)) {
		p.polygon(head, Pencil, d.Part)
	}
}

// text finds the place for the text of d: over the middle of what shows of its
// line, else nearer an end of it, else beyond an end.
func (p *placer) text(d *dimensionLine) (Item, bool) {
	m := p.metrics
	it := Item{
		Shape: Words, Colour: Ink, Part: d.Part, Text: d.Text,
		Size: m.Size(NoteSize), Advance: m.Width(d.Text, NoteSize, false),
	}
	if d.upright {
		it.Angle = 90
	}
	for _, strict := range []bool{true, false} {
		for _, c := range p.candidates(d, it.Advance) {
			start := c - it.Advance/2
			if d.upright {
				start = c + it.Advance/2
			}
			it.Points = []Point{d.at(start, d.v-m.Gap)}
			box := it.Box()
			shown := p.readable(box) && p.visible(d.box(c, c, d.v-m.Arrow/8, d.v+m.Arrow/8))
			if shown && p.free(box, strict) && p.rowFree(d, c, it.Advance) {
				return it, true
			}
		}
	}
	return Item{}, false
}

// candidates returns where the middle of a text of width w may stand on u, best
// first.
func (p *placer) candidates(d *dimensionLine, w float64) []float64 {
	m := p.metrics
	low, high := d.u0, d.u1
	if clip := p.view.Clip; !clip.Empty() {
		from, _ := d.across(clip.Min)
		to, _ := d.across(clip.Max)
		low, high = max(low, from), min(high, to)
	}
	if high < low {
		return nil
	}
	if room := high - low - w - m.Gap; room >= 0 {
		c := (low + high) / 2
		return []float64{c, c - room/4, c + room/4, c - room/2, c + room/2}
	}
	step := m.Gap + w/2
	if d.u1-d.u0 < 3*m.Arrow {
		step += 2 * m.Arrow
	}
	return []float64{d.u1 + step, d.u0 - step}
}

// free reports whether a text box is clear of other texts, and if strict of
// dimension lines and marks as well.
func (p *placer) free(box Rect, strict bool) bool {
	if slices.ContainsFunc(p.texts, box.Overlaps) {
		return false
	}
	return !strict || !slices.ContainsFunc(slices.Concat(p.strokes, p.marks), box.Overlaps)
}

// rowFree reports whether a text of width w around c beside d keeps off the
// lines of other dimensions in the same row.
func (p *placer) rowFree(d *dimensionLine, c, w float64) bool {
	if c-w/2 >= d.u0 && c+w/2 <= d.u1 {
		return true
	}
	for _, o := range p.lines {
		if o == d || o.upright != d.upright || o.v-d.v > p.metrics.TextSize || d.v-o.v > p.metrics.TextSize {
			continue
		}
		if o.u0 < c+w/2 && c-w/2 < o.u1 {
			return false
		}
	}
	return true
}
