package engine

import "flatwright/engine/draw"

// planSeams draws the seams of both skins as chain lines.
func (b *board) planSeams() {
	tb := b.d.EdgeBand.Thickness
	for i, s := range b.d.Seams {
		l := draw.Line{A: draw.Point{X: s.At, Y: tb}, B: draw.Point{X: s.At, Y: b.d.Width - tb}, Pen: draw.Centre, Part: SeamPart(i)}
		if s.Along {
			l.A, l.B = draw.Point{X: tb, Y: s.At}, draw.Point{X: b.d.Length - tb, Y: s.At}
		}
		b.Lines = append(b.Lines, l)
	}
}

// gapShare is how wide an open seam is drawn, as a share of the panel's
// length: wider than it is, so that it is seen.
const gapShare = 0.005

// sectionSeams draws the seams that a section cuts: a gap in the skin where the
// seam is open, a line where it is spliced; one that was left open against the
// drawing is a gap in the colour of what is over its limit. place takes a place along the
// section and a height.
func (b *board) sectionSeams(along bool, place func(at, z float64) draw.Point) {
	half := gapShare / 2 * max(b.d.Length, b.d.Width)
	for i, s := range b.d.Seams {
		if s.Along != along {
			continue
		}
		z0, z1 := 0.0, b.d.BottomSkin.Thickness
		if s.Skin == TopSeam {
			z0, z1 = z1+b.d.CoreDepth, b.d.TotalDepth()
		}
		if s.Spliced && !b.d.builtOpen(i) {
			b.Lines = append(b.Lines, draw.Line{A: place(s.At, z0), B: place(s.At, z1), Pen: draw.Thin, Part: SeamPart(i)})
			continue
		}
		fill := draw.Sheet
		if s.Spliced { // was to be whole
			fill = draw.Over
		}
		b.Areas = append(b.Areas, draw.Area{Points: []draw.Point{place(s.At-half, z0), place(s.At+half, z0), place(s.At+half, z1), place(s.At-half, z1)},
			Fill: fill, Pen: draw.Thin, Part: SeamPart(i)})
	}
}
