package engine

import (
	"math"

	"flatwright/engine/catalog"
	"flatwright/engine/plate"
)

// cutPanel tells the whole-panel model what holes and grooves take out of it. The
// closed form has its skins and ribs whole; [Design.tellApart] says so.
func (d *Design) cutPanel(p *plate.Panel, m *materials) {
	for _, g := range d.Grooves {
		top, t := g.Skin == TopSeam, d.BottomSkin.Thickness
		if top {
			t = d.TopSkin.Thickness
		}
		b := d.grooveBox(g)
		p.Grooves = append(p.Grooves, plate.Groove{Top: top, X0: b.X0, X1: b.X1, Y0: b.Y0, Y1: b.Y1, Left: math.Max(leastLeft*t, t-g.Depth)})
	}
	for _, h := range d.Holes {
		along, n, rib := RibOfPart(h.Part)
		for i := range h.number() {
			x, y := h.place(i)
			if !rib {
				p.Holes = append(p.Holes, plate.Hole{X: x, Y: y, D: h.Diameter, Top: h.in(TopSeam), Bottom: h.in(BottomSeam)})
				continue
			}
			if !along {
				x = y
			}
			p.Pierced = append(p.Pierced, d.pierced(h, m.rib(along), along, n, x))
		}
	}
}

// pierced is the stretch of a rib with a hole, taken as a square of the hole's area: of
// the height h a part a is gone, over a length a. What is left is softer by 1 − a/h
// when stretched; bending takes the same, which errs on the soft side. In shear the
// net section gives by V·a/(G·b·(h − a)), and the chords above and below, built in at
// both ends, by V·a³/(E·b·Σc³); textbook (frame with open panels).
func (d *Design) pierced(h Hole, m *catalog.Sheet, along bool, n int, at float64) plate.Splice {
	height := d.CoreDepth
	a := math.Min(h.Diameter*math.Sqrt(math.Pi)/2, (1-leastLeft)*height)
	chord := func(up float64) float64 { return math.Max(leastLeft*height/2, up-a/2) }
	c1, c2 := chord(h.Up), chord(height-h.Up)
	e := m.EAlong
	if d.ribSet(along).Upright {
		e = m.EAcross
	}
	whole := a / (m.GEdge * height)
	left := a/(m.GEdge*(height-a)) + a*a*a/(e*(c1*c1*c1+c2*c2*c2))
	return plate.Splice{Along: along, Rib: n, From: at - a/2, To: at + a/2, Direct: 1 - a/height, Shear: whole / left}
}
