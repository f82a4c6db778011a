package engine

import (
	"fmt"
	"math"
	"strings"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// underLoad draws the sagged section and the sag map, as far as they are asked
// for, below the long section, whose lower edge is at low, or, where they come
// out larger there, to the right of all that is drawn. It returns the lower
// edge of the first column, less what text below it needs beyond the gap
// between views.
func (b *board) underLoad(low float64) float64 {
	maps := b.o.Sag != nil && b.o.Sag.Valid()
	bends := b.o.Sagged && b.r.Whole != nil && b.o.Case < len(b.r.Whole.Cases)
	bent := sagged{}
	if bends {
		bent = b.newSagged()
	}
	all, room := b.Bounds(), smallRoom
	if r := b.o.Room; r.X > 0 && r.Y > 0 { // less what dimensions and buttons take
		room = draw.Point{X: max(r.X-110, 100), Y: max(r.Y-120, 100)}
	}
	if !maps && !bends {
		b.pixel = pixelOf(all.Width(), all.Height(), room)
		return low
	}
	column := all.Height()
	if bends {
		column += b.gap + bent.high - bent.low
	}
	if maps {
		column += b.gap + b.d.Width
	}
	pixel := pixelOf(all.Width(), column, room)
	beside := pixelOf(all.Width()+besideShare*b.d.Length+b.gap, all.Height(), room)
	b.pixel = min(pixel, beside)
	if b.beside = beside < pixel; !b.beside {
		if bends {
			top := low - max(b.gap, 24*pixel) // for the section's text
			b.sagged(bent, draw.Point{Y: top - bent.high}, pixel)
			low = min(top-bent.high+bent.low, top-bent.high+bent.low-22*pixel+b.gap)
		}
		if maps {
			low = b.sagMap(draw.Point{}, low, pixel)
		}
		return low
	}
	x := all.Max.X + max(b.gap, 12*beside)
	if maps {
		b.sagMap(draw.Point{X: x, Y: b.d.Width}, math.NaN(), beside)
	}
	if bends {
		b.sagged(bent, draw.Point{X: x, Y: min(low, -26*beside-bent.high)}, beside)
	}
	return low
}

// besideShare is the width of sag map and legend over the panel's length,
// about.
const besideShare = 1.12

// sagMap draws the map of the sags: with its upper left corner at at, or below
// y = low if that is a number. It returns its own lower edge less what text
// below it needs beyond the gap between views.
func (b *board) sagMap(at draw.Point, low, pixel float64) float64 {
	g := *b.o.Sag
	o := SagMapOptions{Lengths: b.o.Lengths, Moved: b.o.Moved, pixel: pixel, beside: b.beside}
	if w := b.r.Whole; w != nil && b.o.Case < len(w.Cases) {
		c := w.Cases[b.o.Case]
		o.Most, o.At = c.Sag, draw.Point{X: c.X, Y: c.Y}
	}
	if !math.IsNaN(low) {
		at.Y = low - max(b.gap, 34*pixel) // for the text above and the legend's unit
	}
	b.add(SagMap(g, o), draw.Point{X: at.X, Y: at.Y - g.Y1})
	h := g.Y1 - g.Y0
	return min(at.Y-h, at.Y-h-42*pixel+b.gap)
}

// sagged is the long section drawn sagged: how far it goes up and down, in mm
// from the underside as it is without load.
type sagged struct {
	sag, slab []float64 // mm, at equal steps along the length
	times     float64   // as drawn
	high, low float64
}

// newSagged prepares the section through the largest sag of the case shown.
func (b *board) newSagged() sagged {
	s := sagged{}
	_, s.sag, s.slab = saggedAlong(b.d, b.r, b.o.Case)
	s.times = exaggeration(1.5*b.d.Length, append(append([]float64(nil), s.sag...), s.slab...))
	s.high = b.d.TotalDepth()
	for i, v := range s.sag {
		s.high = max(s.high, b.d.TotalDepth()-s.times*min(v, s.slab[i]))
		s.low = min(s.low, -s.times*v, b.d.TotalDepth()-s.times*s.slab[i])
	}
	return s
}

// sagged draws the long section as it sags, the line that it leaves and the one
// to which a solid slab as deep would sag; at is the lower left corner of the
// section without load.
func (b *board) sagged(s sagged, at draw.Point, pixel float64) {
	n := len(s.sag)
	h := b.d.TotalDepth()
	down := func(x float64) float64 { // of what is at x without load
		t := min(max(x/b.d.Length, 0), 1) * float64(n-1)
		i := min(int(t), n-2)
		return s.times * (s.sag[i] + (s.sag[i+1]-s.sag[i])*(t-float64(i)))
	}
	strip := func(x0, x1, z0, z1 float64) []draw.Point {
		var lower, upper []draw.Point
		for i := range n {
			x := b.d.Length * float64(i) / float64(n-1)
			if x <= x0 || x >= x1 {
				continue
			}
			lower = append(lower, draw.Point{X: at.X + x, Y: at.Y + z0 - down(x)})
			upper = append(upper, draw.Point{X: at.X + x, Y: at.Y + z1 - down(x)})
		}
		out := append([]draw.Point{{X: at.X + x0, Y: at.Y + z0 - down(x0)}}, lower...)
		out = append(out, draw.Point{X: at.X + x1, Y: at.Y + z0 - down(x1)}, draw.Point{X: at.X + x1, Y: at.Y + z1 - down(x1)})
		for i := len(upper) - 1; i >= 0; i-- {
			out = append(out, upper[i])
		}
		return append(out, draw.Point{X: at.X + x0, Y: at.Y + z1 - down(x0)})
	}
	for _, p := range b.inLongSection() {
		q := p.Place
		fill, _ := look(p.Kind) // no hatch: the section above has it
		b.Areas = append(b.Areas, draw.Area{Points: strip(q.X0, q.X1, q.Z0, q.Z1), Fill: fill, Pen: draw.Thin, Part: p.ID})
	}
	b.Lines = append(b.Lines, draw.Line{A: draw.Point{X: at.X, Y: at.Y + h}, B: draw.Point{X: at.X + b.d.Length, Y: at.Y + h}, Pen: draw.Centre, Part: SaggedPart})
	for i := range n - 1 {
		place := func(i int) draw.Point {
			return draw.Point{X: at.X + b.d.Length*float64(i)/float64(n-1), Y: at.Y + h - s.times*s.slab[i]}
		}
		b.Lines = append(b.Lines, draw.Line{A: place(i), B: place(i + 1), Pen: draw.Hidden, Part: SaggedPart})
	}
	text := fmt.Sprintf("Sag drawn %.0f times; dashed: a solid slab", s.times)
	if b.d.Length > roomyTitle*pixel {
		text += " as deep, " + length.Mass(b.r.Mass.Slab, b.o.Lengths)
	}
	if b.o.Moved {
		text = fmt.Sprintf("Computing… from before the last move, drawn %.0f times", s.times)
	}
	caption := draw.Note{At: draw.Point{X: at.X + b.d.Length/2, Y: at.Y + s.low - 4*pixel}, Anchor: draw.AtTop, Text: text, Colour: draw.Pencil, Part: SaggedPart}
	if b.beside { // a wider text must not run into what is on the left
		caption.At.X, caption.Anchor = at.X, draw.AtTopLeft
	}
	b.Notes = append(b.Notes, caption)
}

// SaggedPart is the part ID under which the lines of the sagged section are
// drawn.
const SaggedPart = "sagged section"

// planReactions writes at each support what it carries, a foot that lifts first
// and with its name, then one that holds the panel down; feet of one's own have
// their names always. What has no room beside others is left out. While the result
// is of loads elsewhere the numbers are in pencil, and none stands at a support that
// has moved.
func (b *board) planReactions() {
	var reactions []Reaction
	if w := b.r.Whole; w != nil && b.o.Case < len(w.Cases) {
		reactions = w.Cases[b.o.Case].Reactions
	}
	for urgent := range 3 {
		for i, p := range b.d.pads() {
			known := i < len(reactions) && reactions[i].X == p.X && reactions[i].Y == p.Y
			lifted := known && reactions[i].Lifted
			if is := b.urgency(known, reactions, i); is != urgent {
				continue
			}
			n := draw.Note{At: draw.Point{X: p.X, Y: p.Y}, Ground: draw.Sheet, Part: SupportPart}
			switch {
			case lifted:
				n.Text, n.Bold, n.Colour = "▲ "+p.Name+" lifts", true, draw.Near
			case known:
				n.Text = "↑" + length.Force(reactions[i].Force, b.o.Lengths)
				if reactions[i].Force < 0 {
					n.Text = "↓" + length.Force(-reactions[i].Force, b.o.Lengths) + " held down"
				}
			}
			if known && b.o.Moved {
				n.Text, n.Bold, n.Colour = n.Text+" …", false, draw.Pencil
			}
			aside := 0.6*min(p.SX, p.SY) + 0.01*b.d.Length
			switch {
			case p.X < b.d.Length/3:
				n.At.X, n.Anchor = p.X+aside, draw.AtLeft
			case p.X > b.d.Length*2/3:
				n.At.X, n.Anchor = p.X-aside, draw.AtRight
			case p.Y < b.d.Width/2:
				n.At.Y, n.Anchor = p.Y+aside, draw.AtBottom
			default:
				n.At.Y, n.Anchor = p.Y-aside, draw.AtTop
			}
			if b.d.Supports.Kind == OwnFeet {
				n.Part = FootPart(i)
				if !known {
					n.Colour = draw.Pencil
				}
				if !lifted {
					n.Text = strings.TrimSpace(p.Name + " " + n.Text)
				}
			}
			if p.SY > footSide && (n.Anchor == draw.AtLeft || n.Anchor == draw.AtRight) {
				n.At.Y += stagger(i) * p.SY / 6
			}
			if n.Text != "" {
				b.Notes = append(b.Notes, n)
			}
		}
	}
}

// urgency says which reactions are written first: of a support that lifts, then of
// one that holds the panel down, then all others.
func (b *board) urgency(known bool, reactions []Reaction, i int) int {
	switch {
	case known && reactions[i].Lifted:
		return 0
	case known && reactions[i].Force < 0:
		return 1
	}
	return 2
}

// stagger is by how much of a line the numbers of long supports stand apart, one
// after the other, so that those of two rails do not meet between them.
func stagger(i int) float64 {
	if i%2 > 0 {
		return -1
	}
	return 1
}
