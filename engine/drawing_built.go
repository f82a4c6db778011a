package engine

import "flatwright/engine/draw"

// planBuilt marks in the plan what was made otherwise: the open stretch of a
// rib, the slots of one that is cut deeper or in the wrong edge, an open seam, the strip
// that a skin lacks where it slid away.
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
		if m.Kind == SkinSlid {
			b.planSlid(m, mark)
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
			if m.Kind == WrongEdge && !m.wrong(start+s.Station) {
				continue
			}
			stretch(start+s.Station-s.Width/2, start+s.Station+s.Width/2)
		}
	}
}

// seen is how wide a strip is drawn at least, so that it is seen.
func (b *board) seen() float64 { return gapShare * max(b.d.Length, b.d.Width) }

// planSlid marks the strips that a skin lacks, wider than they are where they would not
// be seen, and its edges as it lies.
func (b *board) planSlid(m Built, mark func(id string, x0, y0, x1, y1 float64)) {
	tb, l, w := b.d.EdgeBand.Thickness, b.d.Length, b.d.Width
	strip := func(v, lo, hi float64, draw func(from, to float64)) {
		if wide := max(abs(v), b.seen()); v > 0 {
			draw(lo, lo+wide)
		} else if v < 0 {
			draw(hi-wide, hi)
		}
	}
	strip(m.X, tb, l-tb, func(from, to float64) { mark(m.Part, from, tb, to, w-tb) })
	strip(m.Y, tb, w-tb, func(from, to float64) { mark(m.Part, tb, from, l-tb, to) })
	b.Areas = append(b.Areas, draw.Area{Points: rect(tb+m.X, tb+m.Y, l-tb+m.X, w-tb+m.Y), Pen: draw.Thin, Part: m.Part})
}

// sectionBuilt marks in a section what was made otherwise: in a section along the length
// ribs across it are cut through, in the end section those along it. place takes a place
// along the section and a height.
func (b *board) sectionBuilt(long bool, place func(at, z float64) draw.Point) {
	mark := func(id string, from, to, z0, z1 float64) {
		b.Areas = append(b.Areas, draw.Area{Points: []draw.Point{place(from, z0), place(to, z0), place(to, z1), place(from, z1)}, Fill: draw.Over, Pen: draw.Thin, Part: id})
	}
	z1, z2, z3 := b.d.BottomSkin.Thickness, b.d.BottomSkin.Thickness+b.d.CoreDepth, b.d.TotalDepth()
	skinAt := func(skin string) (lo, hi float64) {
		if skin == TopSeam {
			return z2, z3
		}
		return 0, z1
	}
	for _, m := range b.d.Built {
		if m.Kind == SkinSlid {
			lo, hi := skinAt(m.Part)
			b.sectionSlid(m, long, func(from, to float64) { mark(m.Part, from, to, lo, hi) })
			continue
		}
		if m.Kind == ThicknessMeasured && (m.Part == TopSeam || m.Part == BottomSeam) {
			tb, lo, hi := b.d.EdgeBand.Thickness, 0.0, 0.0
			lo, hi = skinAt(m.Part)
			far := b.d.Width - tb
			if long {
				far = b.d.Length - tb
			}
			mark(m.Part, tb, far, lo, hi)
			continue
		}
		p, ok := partByID(b.r.Parts, m.Part)
		if !ok || (p.Kind == CrosswisePart) != long || p.Kind != CrosswisePart && p.Kind != LengthwisePart || len(p.Slots) == 0 {
			continue
		}
		from, to := p.Place.Y0, p.Place.Y1
		if long {
			from, to = p.Place.X0, p.Place.X1
		}
		slot, line := p.Slots[0], min(b.seen()/2, b.d.CoreDepth/8)
		switch m.Kind {
		case RibUnglued:
			if m.Side != BottomSeam {
				mark(p.ID, from, to, z2-line, z2)
			}
			if m.Side != TopSeam {
				mark(p.ID, from, to, z1, z1+line)
			}
		case SlotDeeper:
			if slot.FromTop {
				mark(p.ID, from, to, z2-m.Value, z2)
			} else {
				mark(p.ID, from, to, z1, z1+m.Value)
			}
		case WrongEdge: // the wrong slot, opposite to the one drawn
			if slot.FromTop {
				mark(p.ID, from, to, z1, z1+slot.Depth)
			} else {
				mark(p.ID, from, to, z2-slot.Depth, z2)
			}
		}
	}
}

// sectionSlid marks what a skin that slid lacks in a section; without edge bands it
// stands over at the other end, drawn as it lies.
func (b *board) sectionSlid(m Built, long bool, mark func(from, to float64)) {
	by, extent, tb := m.Y, b.d.Width, b.d.EdgeBand.Thickness
	if long {
		by, extent = m.X, b.d.Length
	}
	wide := max(abs(by), b.seen())
	switch {
	case by > 0:
		mark(tb, tb+wide)
		if tb == 0 {
			mark(extent, extent+by)
		}
	case by < 0:
		mark(extent-tb-wide, extent-tb)
		if tb == 0 {
			mark(by, 0)
		}
	}
}
