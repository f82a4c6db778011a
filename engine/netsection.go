package engine

import (
	"fmt"
	"math"

	"flatwright/engine/catalog"
	"flatwright/engine/plate"
)

// weakened is a place in a skin where a hole or a groove leaves less of it.
type weakened struct {
	x0, x1, y0, y1 float64    // in plan, mm
	share          [2]float64 // of the section left for stress along x, along y
	left           [2]float64 // thickness left there, mm
	part, note     string
}

// leastLeft keeps the share of a section that is left from coming to nothing,
// which the checks of holes refuse anyway.
const leastLeft = 0.02

// weakenings returns what holes and grooves leave of a skin.
func (d *Design) weakenings(id string, t float64) []weakened {
	if len(d.Holes)+len(d.Grooves) == 0 {
		return nil
	}
	bays := d.bays()
	// How wide the skin is that a hole shares: the bay's, or one pitch over a rib.
	around := func(x, y float64) (wx, wy float64) {
		for _, b := range bays {
			if x > b.x0 && x < b.x1 && y > b.y0 && y < b.y1 {
				return b.x1 - b.x0, b.y1 - b.y0
			}
		}
		return d.Length / float64(d.Crosswise.number()), d.Width / float64(d.Lengthwise.number())
	}
	whole := [2]float64{t, t}
	var out []weakened
	for i, h := range d.Holes {
		if !h.in(id) {
			continue
		}
		for n := range h.number() {
			x, y := h.place(n)
			wx, wy := around(x, y)
			if h.number() > 1 && h.StepY == 0 { // a row along x: stress along y passes between two of them
				wx = math.Min(wx, math.Abs(h.StepX))
			}
			if h.number() > 1 && h.StepX == 0 {
				wy = math.Min(wy, math.Abs(h.StepY))
			}
			r := h.Diameter / 2
			out = append(out, weakened{x - r, x + r, y - r, y + r,
				[2]float64{math.Max(leastLeft, 1-h.Diameter/wy), math.Max(leastLeft, 1-h.Diameter/wx)}, whole, HolePart(i),
				"Net section between holes, or between a hole and the ribs. Right at a hole's edge stress is up to three times as high in an even sheet; wood evens that out, so it is not counted."})
		}
	}
	for i, g := range d.Grooves {
		if g.Skin != id {
			continue
		}
		b := d.grooveBox(g)
		wx, wy := around((b.X0+b.X1)/2, (b.Y0+b.Y1)/2)
		left := math.Max(leastLeft*t, t-g.Depth)
		w := weakened{b.X0, b.X1, b.Y0, b.Y1, [2]float64{1, 1}, whole, GroovePart(i),
			"What is left under the groove. Across it the force passes beside the middle of what is left and bends it; ribs that hold the skin straight make that less."}
		if g.Along {
			w.left[1], w.share[0] = left, math.Max(leastLeft, 1-g.Width*g.Depth/(math.Max(wy, g.Width)*t))
		} else {
			w.left[0], w.share[1] = left, math.Max(leastLeft, 1-g.Width*g.Depth/(math.Max(wx, g.Width)*t))
		}
		out = append(out, w)
	}
	return out
}

// meets reports whether a cell of the mesh lies over the place.
func (w *weakened) meets(s *plate.SkinStress) bool {
	return s.X+s.SX/2 > w.x0 && s.X-s.SX/2 < w.x1 && s.Y+s.SY/2 > w.y0 && s.Y-s.SY/2 < w.y1
}

// netSection checks a cell of a skin of thickness t where a hole or a groove weakens it.
func (k *checker) netSection(w *weakened, s Skin, mat *catalog.Sheet, f factors, top bool, own, all *plate.SkinStress) {
	c := topNet
	if !top {
		c = bottomNet
	}
	for way, along := range [...]bool{true, false} {
		n, m := difference(own.NX, all.NX), difference(own.MX, all.MX)
		if !along {
			n, m = difference(own.NY, all.NY), difference(own.MY, all.MY)
		}
		fb, ft, fc := mat.FBendAlong, mat.FTensAlong, mat.FCompAlong
		if s.Across == along {
			fb, ft, fc = mat.FBendAcross, mat.FTensAcross, mat.FCompAcross
		}
		if all.Rib {
			m = effect{} // over a rib the skin's own bending is the joint's
		}
		t := w.left[way]
		r := Margin{X: all.X, Y: all.Y, Part: w.part, Where: w.part + ", " + place(all.X, all.Y), Note: w.note,
			Source: "whole-panel model; net section, EN 1995-1-1 5.2 and 6.2.3, from memory"}
		membrane := n.scale(1 / (w.share[way] * t))
		for _, face := range [...]float64{-1, 1} {
			for _, beside := range [...]float64{-1, 1} { // the groove may lie in either face
				bending := m.plus(n.scale(beside * (s.Thickness - t) / 2)).scale(face * 6 / (w.share[way] * t * t))
				k.keep(c, along, r, f, fc, sense(membrane.scale(-1).plus(bending.scale(-fc/fb))))
				k.keep(c, along, r, f, ft, sense(membrane.plus(bending.scale(ft/fb))))
				if t == s.Thickness {
					break
				}
			}
		}
	}
}

// ribHoles checks a segment of a rib at the holes through it: shear on what is left of
// its height, and the frame that is left above and below a hole.
func (k *checker) ribHoles(r Margin, along bool, part string, b float64, mat *catalog.Sheet, f factors, seg *plate.RibForce, v, fibre effect, ft, fc float64) {
	h := k.d.CoreDepth
	for i, hole := range k.d.Holes {
		if hole.Part != part {
			continue
		}
		for n := range hole.number() {
			x, y := hole.place(n)
			at := x
			if !along {
				at = y
			}
			if math.Abs(at-seg.At) > (seg.L+hole.Diameter)/2 {
				continue
			}
			r.Part, r.Where = HolePart(i), fmt.Sprintf("%s in rib %s, %s", HolePart(i), part, place(r.X, r.Y))
			r.Source, r.Note = "whole-panel model; net section, and V·d/4 on the lower of the two chords, textbook (frame with open panels)", ""
			left := math.Max(leastLeft*h, h-hole.Diameter)
			k.keep(ribHoleShear, along, r, f, mat.FEdgeShear, v.scale(1/(b*left)))
			chord := math.Max(leastLeft*h, math.Min(hole.Up, h-hole.Up)-hole.Diameter/2)
			for _, turn := range [...]float64{-1, 1} {
				k.keep(ribHoleBending, along, r, f, math.Min(ft, fc), fibre.plus(v.scale(turn*1.5*hole.Diameter/(b*chord*chord))))
			}
		}
	}
}
