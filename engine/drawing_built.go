package engine

import "flatwright/engine/draw"

// planBuilt marks in the plan what was made otherwise: the open stretch of a
// rib, the slots of one that is cut deeper, an open seam.
func (b *board) planBuilt() {
	mark := func(id string, x0, y0, x1, y1 float64) {
		b.Areas = append(b.Areas, draw.Area{Points: rect(x0, y0, x1, y1), Fill: draw.Over, Pen: draw.Thin, Part: id})
	}
	tb := b.d.EdgeBand.Thickness
	for _, m := range b.d.Built {
		if n, ok := SeamOfPart(m.Part); ok && n < len(b.d.Seams) {
			s, half := b.d.Seams[n], gapShare/2*max(b.d.Length, b.d.Width)
			if s.Along {
				mark(m.Part, tb, s.At-half, b.d.Length-tb, s.At+half)
			} else {
				mark(m.Part, s.At-half, tb, s.At+half, b.d.Width-tb)
			}
			continue
		}
		if m.Kind == ThicknessMeasured {
			for _, p := range b.r.Parts { // skins are all of the plan, and are not marked there
				if string(p.Kind) == m.Part {
					mark(p.ID, p.Place.X0, p.Place.Y0, p.Place.X1, p.Place.Y1)
				}
			}
			continue
		}
		p, ok := partByID(b.r.Parts, m.Part)
		if !ok {
			continue
		}
		lengthwise := p.Kind == LengthwisePart
		stretch := func(from, to float64) {
			if lengthwise {
				mark(p.ID, from, p.Place.Y0, to, p.Place.Y1)
			} else {
				mark(p.ID, p.Place.X0, from, p.Place.X1, to)
			}
		}
		if m.Kind == RibUnglued {
			stretch(m.From, m.To)
			continue
		}
		start := p.Place.Y0
		if lengthwise {
			start = p.Place.X0
		}
		for _, s := range p.Slots {
			stretch(start+s.Station-s.Width/2, start+s.Station+s.Width/2)
		}
	}
}
