package engine

import (
	"slices"

	"flatwright/engine/draw"
)

// planSupports draws what the top rests on, dashed.
func (b *board) planSupports() {
	s, l, w := b.d.Supports, b.d.Length, b.d.Width
	if s.Kind == AllEdges {
		// Lines, not an area: an area would lie over all the ribs and be picked
		// in their place.
		c := rect(s.Bearing, s.Bearing, l-s.Bearing, w-s.Bearing)
		for i, p := range c {
			b.Lines = append(b.Lines, draw.Line{A: p, B: c[(i+1)%len(c)], Pen: draw.Hidden, Part: SupportPart})
		}
		return
	}
	for i, p := range b.d.pads() {
		part := SupportPart
		if s.Kind == OwnFeet {
			part = FootPart(i)
		}
		b.Areas = append(b.Areas, draw.Area{Points: rect(p.X-p.SX/2, p.Y-p.SY/2, p.X+p.SX/2, p.Y+p.SY/2), Pen: draw.Hidden, Part: part})
	}
	m := b.d.materials()
	for _, a := range b.d.aprons(&m) {
		x0, y0 := a.Place(a.From)
		x1, y1 := a.Place(a.To)
		if a.AlongX {
			y0, y1 = y0-a.Width/2, y1+a.Width/2
		} else {
			x0, x1 = x0-a.Width/2, x1+a.Width/2
		}
		b.Areas = append(b.Areas, draw.Area{Points: rect(x0, y0, x1, y1), Pen: draw.Hidden, Part: ApronPart})
	}
}

// sectionSupports marks the supports below the long section, whose lower left
// corner is at.
func (b *board) sectionSupports(at draw.Point) {
	s := b.d.Supports
	seen := map[float64]bool{}
	for i, p := range b.d.pads() {
		if p.SX > b.d.Length/2 || s.Kind == AllEdges || seen[p.X] {
			continue // a line along the length is no place on it
		}
		part := SupportPart
		if s.Kind == OwnFeet {
			part = FootPart(i)
		} else {
			seen[p.X] = true
		}
		b.Marks = append(b.Marks, draw.Mark{At: draw.Point{X: at.X + p.X, Y: at.Y}, Kind: draw.SupportMark, Part: part})
	}
}

// sectionAprons draws the aprons that run along a section below it, from leg to
// leg; place is where a point at a place along it and a height above the
// underside is drawn.
func (b *board) sectionAprons(along bool, place func(at, z float64) draw.Point) {
	m := b.d.materials()
	for _, a := range b.d.aprons(&m) {
		if a.AlongX == along {
			z := -b.d.Supports.Apron.Height
			b.Areas = append(b.Areas, draw.Area{Points: []draw.Point{place(a.From, z), place(a.To, z), place(a.To, 0), place(a.From, 0)}, Fill: draw.Band, Pen: draw.Thin, Part: ApronPart})
			return // the one behind is hidden
		}
	}
}

// apronDrop is how far aprons reach below a section along the length or across
// it, mm.
func (d *Design) apronDrop(along bool) float64 {
	a := d.Supports.Apron
	if d.Supports.HasAprons() && (along && (a.Front || a.Back) || !along && (a.Left || a.Right)) {
		return a.Height
	}
	return 0
}

// betweenMarks returns the widest piece of the long section's underside without
// a support's mark, x in mm.
func (b *board) betweenMarks() (from, to float64) {
	at := []float64{0, b.d.Length}
	for _, k := range b.Marks {
		if k.Kind == draw.SupportMark {
			at = append(at, k.At.X)
		}
	}
	slices.Sort(at)
	for i := 1; i < len(at); i++ {
		if at[i]-at[i-1] > to-from {
			from, to = at[i-1], at[i]
		}
	}
	return from, to
}
