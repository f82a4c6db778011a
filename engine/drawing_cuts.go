package engine

import (
	"fmt"
	"math"
	"strings"

	"flatwright/engine/draw"
)

// round is a circle as a polygon of so many corners that it looks like one.
func round(x, y, r float64) []draw.Point {
	const corners = 32
	out := make([]draw.Point, corners)
	for i := range out {
		s, c := math.Sincos(2 * math.Pi * float64(i) / corners)
		out[i] = draw.Point{X: x + r*c, Y: y + r*s}
	}
	return out
}

func (b *board) line(pen draw.Pen, part string, x0, y0, x1, y1 float64) {
	b.Lines = append(b.Lines, draw.Line{A: draw.Point{X: x0, Y: y0}, B: draw.Point{X: x1, Y: y1}, Pen: pen, Part: part})
}

// planCuts draws splices, grooves and holes from above.
func (b *board) planCuts() {
	for i, s := range b.d.Splices {
		b.planSplice(SplicePartID(i), s)
	}
	for i, s := range b.d.Seams {
		if !b.d.Scarfed(s) || b.d.builtOpen(i) {
			continue
		}
		half, tb := scarfSlope/2*s.skin(&b.d).Thickness, b.d.EdgeBand.Thickness
		for _, at := range [...]float64{s.At - half, s.At + half} { // both ends of the scarf
			if s.Along {
				b.line(draw.Hidden, SeamPart(i), tb, at, b.d.Length-tb, at)
			} else {
				b.line(draw.Hidden, SeamPart(i), at, tb, at, b.d.Width-tb)
			}
		}
	}
	for i, g := range b.d.Grooves {
		q, pen := b.d.grooveBox(g), draw.Thin
		if g.Skin == BottomSeam {
			pen = draw.Hidden
		}
		b.Areas = append(b.Areas, draw.Area{Points: rect(q.X0, q.Y0, q.X1, q.Y1), Pen: pen, Part: GroovePart(i)})
	}
	for i, h := range b.d.Holes {
		for n := range h.number() {
			b.planHole(i, h, n)
		}
	}
}

// planHole draws one hole: round with its centre lines, or hidden in a rib.
func (b *board) planHole(i int, h Hole, n int) {
	x, y := h.place(n)
	r := h.Diameter / 2
	if along, m, ok := RibOfPart(h.Part); ok {
		p, _ := partByID(b.r.Parts, RibPart(along, m))
		for _, side := range [...]float64{-r, r} {
			if along {
				b.line(draw.Hidden, HolePart(i), x+side, p.Place.Y0, x+side, p.Place.Y1)
			} else {
				b.line(draw.Hidden, HolePart(i), p.Place.X0, y+side, p.Place.X1, y+side)
			}
		}
		return
	}
	pen := draw.Thin
	if h.Part == BottomSeam {
		pen = draw.Hidden
	}
	b.Areas = append(b.Areas, draw.Area{Points: round(x, y, r), Pen: pen, Part: HolePart(i)})
	b.line(draw.Centre, HolePart(i), x-1.3*r, y, x+1.3*r, y)
	b.line(draw.Centre, HolePart(i), x, y-1.3*r, x, y+1.3*r)
}

// planSplice draws a scarf as the slope that it is, seen on the edge of the rib,
// and a butt joint as a line across it; its plates are parts.
func (b *board) planSplice(id string, s Splice) {
	p, ok := partByID(b.r.Parts, s.Part)
	k, known := b.d.stick(s.Part)
	if !ok || !known {
		return
	}
	half := scarfSlope / 2 * k.thickness
	if s.Plates && k.rib {
		half = 0
	}
	q := p.Place
	if k.along {
		b.line(draw.Outline, id, s.At-half, q.Y0, s.At+half, q.Y1)
	} else {
		b.line(draw.Outline, id, q.X0, s.At-half, q.X1, s.At+half)
	}
}

// sectionCuts draws what a section, along the length or across it, shows of
// holes and grooves; place takes a place along the section and a height.
func (b *board) sectionCuts(along bool, place func(at, z float64) draw.Point) {
	box := func(a0, a1, z0, z1 float64) []draw.Point {
		return []draw.Point{place(a0, z0), place(a1, z0), place(a1, z1), place(a0, z1)}
	}
	for i, g := range b.d.Grooves {
		q := b.d.grooveBox(g)
		a0, a1, cut := q.X0, q.X1, !g.Along
		if !along {
			a0, a1, cut = q.Y0, q.Y1, g.Along
		}
		if cut {
			b.Areas = append(b.Areas, draw.Area{Points: box(a0, a1, q.Z0, q.Z1), Fill: draw.Sheet, Pen: draw.Thin, Part: GroovePart(i)})
			continue
		}
		floor := q.Z0
		if g.Skin == BottomSeam {
			floor = q.Z1
		}
		b.Lines = append(b.Lines, draw.Line{A: place(a0, floor), B: place(a1, floor), Pen: draw.Hidden, Part: GroovePart(i)})
	}
	z1, z2 := b.d.BottomSkin.Thickness, b.d.BottomSkin.Thickness+b.d.CoreDepth
	for i, h := range b.d.Holes {
		if lengthwise, n, ok := RibOfPart(h.Part); ok {
			if lengthwise == along && n == 0 { // of the rib that the section shows
				b.ribHoles(i, h, func(at, up float64) draw.Point { return place(at, z1+up) })
			}
			continue
		}
		for n := range h.number() {
			at, y := h.place(n)
			if !along {
				at = y
			}
			for _, skin := range [...]struct {
				in       bool
				from, to float64
			}{{h.in(BottomSeam), 0, z1}, {h.in(TopSeam), z2, b.d.TotalDepth()}} {
				for _, side := range [...]float64{-h.Diameter / 2, h.Diameter / 2} {
					if skin.in {
						b.Lines = append(b.Lines, draw.Line{A: place(at+side, skin.from), B: place(at+side, skin.to), Pen: draw.Hidden, Part: HolePart(i)})
					}
				}
			}
		}
	}
}

// ribHoles draws the holes of a row on the face of their rib; place takes a place
// along the panel and a height above the rib's lower edge.
func (b *board) ribHoles(i int, h Hole, place func(at, up float64) draw.Point) {
	along, _, _ := RibOfPart(h.Part)
	for n := range h.number() {
		at, y := h.place(n)
		if !along {
			at = y
		}
		points := round(at, h.Up, h.Diameter/2)
		for k := range points {
			points[k] = place(points[k].X, points[k].Y)
		}
		b.Areas = append(b.Areas, draw.Area{Points: points, Fill: draw.Sheet, Pen: draw.Thin, Part: HolePart(i)})
	}
}

// elevationCuts draws holes and splices on the elevation of a rib; at is its
// lower datum end.
func (b *board) elevationCuts(p Part, at draw.Point) {
	k, _ := b.d.stick(p.ID)
	for i, h := range b.d.Holes {
		if h.Part == p.ID {
			b.ribHoles(i, h, func(along, up float64) draw.Point { return draw.Point{X: at.X + along - k.lo, Y: at.Y + up} })
		}
	}
	for i, s := range b.d.Splices {
		if s.Part != p.ID {
			continue
		}
		id, x := SplicePartID(i), at.X+s.At-k.lo
		text := fmt.Sprintf("Scarf 1 in %g over %s, middle %s from the datum end", scarfSlope, b.o.Lengths.Print(scarfSlope*k.thickness), b.o.Lengths.Print(s.At-k.lo))
		if s.Plates {
			text = fmt.Sprintf("Butt joint under plates, %s from the datum end", b.o.Lengths.Print(s.At-k.lo))
			b.line(draw.Outline, id, x, at.Y, x, at.Y+p.Width)
			for _, q := range b.d.ribPlates(s)[:min(1, len(b.d.ribPlates(s)))] {
				from, to := q.X0, q.X1
				if !k.along {
					from, to = q.Y0, q.Y1
				}
				b.Areas = append(b.Areas, draw.Area{Points: rect(at.X+from-k.lo, at.Y+plateClear, at.X+to-k.lo, at.Y+p.Width-plateClear), Pen: draw.Thin, Part: id})
			}
		} else {
			half := scarfSlope / 2 * k.thickness
			b.line(draw.Outline, id, x-half, at.Y, x-half, at.Y+p.Width) // the tip on the face that is seen
			b.line(draw.Hidden, id, x+half, at.Y, x+half, at.Y+p.Width)
		}
		b.Notes = append(b.Notes, draw.Note{At: draw.Point{X: x, Y: at.Y + p.Width + b.gap/8}, Anchor: draw.AtBottom, Text: text, Colour: draw.Pencil, Ground: draw.Sheet, Part: id})
	}
}

// showsPlate reports whether a section shows a splice plate: the first one of
// each seam that it crosses.
func (d *Design) showsPlate(p Part, along bool) bool {
	var seam, n int
	if _, err := fmt.Sscanf(p.ID, "seam %d plate %d", &seam, &n); err != nil || !strings.HasPrefix(p.ID, "seam") || n != 1 {
		return false
	}
	return d.Seams[seam-1].Along != along
}
