package engine

import (
	"math"

	"flatwright/engine/catalog"
	"flatwright/engine/plate"
)

// cutsOf returns what holes and grooves take out of a skin, nil if the design has none.
func (k *checker) cutsOf(top bool) *skinLoss {
	if len(k.d.Holes)+len(k.d.Grooves) == 0 {
		return nil
	}
	skin, i := BottomSeam, 0
	if top {
		skin, i = TopSeam, 1
	}
	if k.cut[i] == nil {
		k.cut[i] = k.d.loss(skin)
	}
	return k.cut[i]
}

// net returns which share of the narrowest strip of a skin is left where the
// closed form checks it, and, if that is not all, says so in the margin's remark.
func (k *checker) net(r *Margin, top, along bool) float64 {
	c := k.cutsOf(top)
	if c == nil {
		return 1
	}
	t, u := k.d.BottomSkin.Thickness, r.X
	if top {
		t = k.d.TopSkin.Thickness
	}
	if !along {
		u = r.Y
	}
	least := 1.0
	strips := k.d.strips(along)
	for _, s := range strips {
		least = math.Min(least, c.net(s, along, u, t))
	}
	for _, b := range c.bores {
		if at, _, _ := b.in(along); math.Abs(at-u) < b.d/2 {
			for _, s := range k.d.beside(b, along, strips) {
				least = math.Min(least, c.net(s, along, u, t))
			}
		}
	}
	if least < 1 {
		r.Note += k.say(" Net section: %.0f %% of the strip between two ribs, or of the one between two holes of a row, is left beside holes and grooves; that a groove lies to one side is not counted here.", 100*least)
	}
	return least
}

// cutRib checks a rib, or by the closed form all ribs of a direction together, at
// the holes in it: shear on what is left of its height, and the frame that is
// left above and below a hole, of which the lower chord takes half of the shear force.
// The rib's force and moment are taken on the height that is left: a hole at half
// the height takes less from bending, so this errs low.
func (k *checker) cutRib(s ribState) {
	model := ""
	if s.rib >= 0 {
		model = "whole-panel model; "
	}
	for i, hole := range k.d.Holes {
		along, n, ok := RibOfPart(hole.Part)
		if !ok || along != s.along || s.rib >= 0 && n != s.rib {
			continue
		}
		for j := range hole.number() {
			at, y := hole.place(j)
			if !along {
				at = y
			}
			if math.Abs(at-s.at) >= (s.len+hole.Diameter)/2 {
				continue
			}
			c, r := hole.ribCut(s.h), s.Margin
			r.Part, r.Where = HolePart(i), HolePart(i)+" in rib "+hole.Part+", "
			r.near, r.nearby = point{s.X, s.Y}, true
			r.Source, r.Note = model+"net section V ≤ fv·b·(h − d), common practice, no source", k.say("A hole of %.0f mm leaves %.0f mm of the height, %.0f mm on its narrower side.", c.d, c.left, c.chord)
			k.keep(ribHoleShear, along, r, s.factors, s.mat.FEdgeShear, s.shear.scale(1/(s.b*c.left)))
			r.Source = model + "force and moment on b·(h − d), and V·d/4 on the lower of the two chords, textbook (frame with open panels)"
			for _, fibre := range s.fibres {
				for _, turn := range [...]float64{-1.5, 1.5} { // V/2·d/2 on b·c²/6
					k.keep(ribHoleBending, along, r, s.factors, k.alongRib(s), fibre.scale(s.h/c.left).plus(s.shear.scale(turn*c.d/(s.b*c.chord*c.chord))))
				}
			}
		}
	}
}

// mesh is the state of a skin on its grid of cells, in columns along y.
type mesh struct {
	own, all []plate.SkinStress
	gone     []bool // where the skin slid away; nil is nowhere
	rows     int    // cells in a column
}

func newMesh(own, all []plate.SkinStress, gone []bool) mesh {
	m := mesh{own, all, gone, 0}
	for m.rows < len(all) && all[m.rows].X == all[0].X {
		m.rows++
	}
	return m
}

// line returns the cells of one line across the way, by the number of the line.
func (m mesh) line(along bool, n int) (cells []int) {
	if along {
		for i := n * m.rows; i < (n+1)*m.rows; i++ {
			cells = append(cells, i)
		}
		return cells
	}
	for i := n; i < len(m.all); i += m.rows {
		cells = append(cells, i)
	}
	return cells
}

// lines is how many lines there are across a way.
func (m mesh) lines(along bool) int {
	if along {
		return len(m.all) / m.rows
	}
	return m.rows
}

// spans returns where a cell lies along a way and across it, with its sizes.
func spans(s *plate.SkinStress, along bool) (u, su, v, sv float64) {
	if along {
		return s.X, s.SX, s.Y, s.SY
	}
	return s.Y, s.SY, s.X, s.SX
}

// netSections checks a skin by the whole panel at its holes: the force that crosses
// the strip between two ribs in the cells over the hole, on what is left of the strip,
// with the bending of each of its cells. What passes beside a hole counts with it, so
// that it does not matter which cell the hole lies in.
func (k *checker) netSections(m mesh, s Skin, mat *catalog.Sheet, f factors, top bool) {
	c := k.cutsOf(top)
	if c == nil || len(c.bores) == 0 {
		return
	}
	for _, along := range [...]bool{true, false} {
		strips := k.d.strips(along)
		for _, b := range c.bores {
			u, _, _ := b.in(along)
			beside := k.d.beside(b, along, strips)
			share := 1.0
			for _, s2 := range beside {
				share = math.Min(share, c.net(s2, along, u, s.Thickness))
			}
			for n := range m.lines(along) {
				first := n * m.rows
				if !along {
					first = n
				}
				if at, size, _, _ := spans(&m.all[first], along); math.Abs(at-u) < (size+b.d)/2 {
					k.netLine(m, m.line(along, n), beside[0], share, along, s, mat, f, top, b)
				}
			}
		}
	}
}

// netLine checks one line of cells across a strip.
func (k *checker) netLine(m mesh, cells []int, within strip, share float64, along bool, s Skin, mat *catalog.Sheet, f factors, top bool, b bore) {
	c := topNet
	if !top {
		c = bottomNet
	}
	strength := fibresOf(mat, s, along)
	var force effect
	width := 0.0
	part := func(i int) float64 {
		if m.gone != nil && m.gone[i] {
			return 0
		}
		_, _, v, sv := spans(&m.all[i], along)
		return math.Max(0, math.Min(v+sv/2, within.hi)-math.Max(v-sv/2, within.lo))
	}
	for _, i := range cells {
		if w := part(i); w > nearly {
			n, _ := pulled(&m.own[i], &m.all[i], along)
			force, width = force.plus(n.scale(w)), width+w
		}
	}
	for _, i := range cells {
		if !(part(i) > nearly) {
			continue
		}
		t := s.Thickness
		_, bent := pulled(&m.own[i], &m.all[i], along)
		a := &m.all[i]
		r := Margin{X: a.X, Y: a.Y, Part: HolePart(b.row), Where: HolePart(b.row) + ", ", near: point{a.X, a.Y}, nearby: true,
			Source: "whole-panel model; force across the strip between two ribs on its net section, EN 1995-1-1 5.2 and 6.2.3, from memory",
			Note:   k.say("%.0f %% of the strip is left. Right at a hole's edge stress is up to three times as high in an even sheet; wood evens that out, so it is not counted.", 100*share)}
		membrane := force.scale(1 / (width * share * t)) // grooves are in the share
		if a.Left > 0 {
			t = a.Left
		}
		k.bothFaces(c, c, along, r, f, strength, membrane, bent.scale(6/(share*t*t)))
	}
}

// pulled is the membrane force of a cell along a way and the moment that goes with the
// stress at its faces; over a rib the skin's own bending is the joint's.
func pulled(own, all *plate.SkinStress, along bool) (n, m effect) {
	n, m = difference(own.NX, all.NX), difference(own.FX, all.FX)
	if !along {
		n, m = difference(own.NY, all.NY), difference(own.FY, all.FY)
	}
	if all.Rib {
		m = effect{}
	}
	return n, m
}

// grooved checks a cell of a skin that a groove thins, which the whole panel bends about
// the middle of what is left.
func (k *checker) grooved(s Skin, mat *catalog.Sheet, f factors, top bool, own, all *plate.SkinStress) {
	c, skin := topNet, TopSeam
	if !top {
		c, skin = bottomNet, BottomSeam
	}
	r := Margin{X: all.X, Y: all.Y, near: point{all.X, all.Y}, nearby: true,
		Source: "whole-panel model, on what is left under the groove and about its middle; EN 1995-1-1 6.2.3, from memory",
		Note:   "The force passes beside the middle of the skin there and bends it as far as the ribs let it."}
	for i, g := range k.d.Grooves {
		if g.Skin == skin && k.d.grooveBox(g).holds(all.X, all.Y) {
			r.Part = GroovePart(i)
			r.Where = r.Part + ", "
		}
	}
	t := all.Left
	for _, along := range [...]bool{true, false} {
		n, m := pulled(own, all, along)
		k.bothFaces(c, c, along, r, f, fibresOf(mat, s, along), n.scale(1/t), m.scale(6/(t*t)))
	}
}
