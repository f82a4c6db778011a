package engine

import (
	"fmt"
	"math"

	"flatwright/engine/plate"
	"flatwright/engine/section"
)

// splices checks every spliced seam: a scarf by the pull through it, a plate of
// the skin's own sheet and thickness, up to 25 thicknesses wide, glued behind the
// seam, by the shear of its glue, and by the pull through the plate, which lies
// beside the skin's middle and so bends.
func (k *checker) splices(c answers) {
	for n, s := range k.d.Seams {
		if !s.Spliced || k.d.builtOpen(n) {
			continue
		}
		top := s.Skin == TopSeam
		skin, mat := s.skin(k.d), &k.m.bottom
		if top {
			mat = &k.m.top
		}
		ft, fb := mat.FTensAlong, mat.FBendAlong
		if skin.Across != s.Along { // the face grain runs along the seam
			ft, fb = mat.FTensAcross, mat.FBendAcross
		}
		j := k.joint(top)
		from, to := k.d.plateReach(s)
		half := math.Min(s.At-from, to-s.At)
		scarfed := k.d.Scarfed(s)
		own, all := c.own.Skin(top), c.all.Skin(top)
		for i := range all {
			pull, ok := s.pullAcross(&own[i], &all[i])
			if !ok {
				continue
			}
			r := Margin{X: all[i].X, Y: all[i].Y, Part: SeamPart(n), Where: fmt.Sprintf("%s, %s", SeamPart(n), place(all[i].X, all[i].Y))}
			if scarfed {
				r.Source = "N/t; " + scarfSource
				k.keep(splicePull, true, r, j.factors, scarfShare*ft, sense(pull.scale(1/j.t)))
				continue
			}
			r.Source, r.Note = "force across the seam over the shorter half of a plate 25 thicknesses wide (EWPAA Structural Plywood and LVL Design Manual, ch. 11), lowered for a wide glue line as EN 1995-1-1 9.1.2, from memory", "For a splice plate of the skin's own sheet. "+j.note
			k.keep(spliceGlue, true, r, j.factors, j.strength*section.GlueLineReduction(half, j.t, 8), pull.scale(1/half))
			r.Source = "N/t and 6·M/t², M = N·t/2 as the plate lies to one side (Goland and Reissner 1944, from memory); tension and bending as EN 1995-1-1 6.2.3, from memory"
			r.Note = "A scarf of 1:8 has no such bending."
			k.keep(splicePull, true, r, j.factors, ft, sense(pull.scale((1+3*ft/fb)/j.t)))
		}
	}
}

// pullAcross returns the membrane force across a seam in a cell that it
// crosses, N/mm.
func (s Seam) pullAcross(own, all *plate.SkinStress) (effect, bool) {
	at, size, o, a := all.X, all.SX, own.NX, all.NX
	if s.Along {
		at, size, o, a = all.Y, all.SY, own.NY, all.NY
	}
	return difference(o, a), math.Abs(at-s.At) <= size/2
}

// crossesSeam reports whether a rib passes an open seam at a place along it.
func (d *Design) crossesSeam(lengthwise bool, at float64) bool {
	for i, s := range d.Seams {
		if s.Along == lengthwise {
			continue // runs with it
		}
		if open := !s.Spliced || d.builtOpen(i); open && math.Abs(at-s.At) < 1 { // within the mesh's strip for it
			return true
		}
	}
	return false
}

// overSeam words the margin of a rib at an open seam.
func (k *checker) overSeam(r Margin) Margin {
	r.Source = "whole-panel model, strain at the rib's edge in the open seam times its modulus; weaker of tension and compression"
	r.Note = "The skin passes nothing there: its force goes round through the ribs and their glue lines."
	return r
}
