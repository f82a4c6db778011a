package engine

import (
	"fmt"
	"math"

	"flatwright/engine/catalog"
	"flatwright/engine/plate"
	"flatwright/engine/section"
)

// skinShear checks the shear in the plane of a skin.
func (k *checker) skinShear(id string, m *catalog.Sheet, f factors, t float64, own, all *plate.SkinStress) {
	c := topShear
	if id == "bottom" {
		c = bottomShear
	}
	k.keep(c, true, Margin{X: all.X, Y: all.Y, Part: id, near: point{all.X, all.Y}, nearby: true,
		Source: "whole-panel model, middle of a cell of the mesh; panel shear strength of the sheet"}, f, m.FEdgeShear, difference(own.NXY, all.NXY).scale(1/t))
}

// ribBuckling checks a rib between its crossings as a plate sheared along its
// four sides, held up but free to turn there.
func (k *checker) ribBuckling(r Margin, along bool, set RibSet, m *catalog.Sheet, f factors, i int, all []plate.RibForce, shear effect) {
	free := k.d.clearAlong(along, all[i].At)
	h := k.d.CoreDepth
	l := layer(m, Skin{Thickness: set.Thickness, Across: set.Upright})
	t3 := set.Thickness * set.Thickness * set.Thickness / 12 * stiffnessShare
	p := section.OrthotropicPlate{D11: l.EBendX * t3, D22: l.EBendY * t3, D66: l.G * t3}
	p.D12 = l.Nu * p.D22
	r.Source = "whole-panel model; sheared orthotropic plate supported on four sides, textbook, from memory"
	r.Note = fmt.Sprintf("Critical shear stress of the rib between its crossings, %.0f × %.0f mm, 80 %% of the mean stiffness.", free, h)
	f.kmod = 1 // stiffness, not strength
	k.keep(ribBuckling, along, r, f, p.ShearBuckling(free, h)/set.Thickness, shear)
}

// clearAlong returns the clear distance, mm, between the two crossing ribs on
// either side of a place along a rib; the ends count as crossings.
func (d *Design) clearAlong(lengthwise bool, at float64) float64 {
	ys, xs := d.RibPlaces()
	places, mate, extent := xs, d.Crosswise.Thickness, d.Length
	if !lengthwise {
		places, mate, extent = ys, d.Lengthwise.Thickness, d.Width
	}
	lo, hi := d.EdgeBand.Thickness, extent-d.EdgeBand.Thickness
	for _, p := range places {
		if p <= at {
			lo = math.Max(lo, p+mate/2)
		} else {
			hi = math.Min(hi, p-mate/2)
		}
	}
	return math.Max(hi-lo, mate)
}

// footSide is the largest side of what counts as a foot and not as a rail, mm;
// common practice, no source.
const footSide = 300

// crippling checks the ribs that stand over a foot as short posts: crushed on
// the length that slots cut from below leave, or bowed.
func (k *checker) crippling(c answers) {
	own, _, _ := k.d.supported(c.own)
	all, _, _ := k.d.supported(c.all)
	for i, pad := range k.d.pads() {
		if pad.SX > footSide || pad.SY > footSide || i >= len(all) {
			continue
		}
		post := k.d.posts(pad)
		if !(post.area > 0) {
			continue
		}
		strength, f := k.post(post)
		r := Margin{X: pad.X, Y: pad.Y, Part: SupportPart, Where: "over the " + pad.Name,
			Source: "reaction of the whole-panel model over the rib edges less the slots cut from below; crushing, or Euler for a pinned strip, textbook",
			Note:   fmt.Sprintf("%.0f mm² of rib edges stand there.", post.area)}
		k.keep(ribCrippling, true, r, f, strength, sense(difference(own[i], all[i]).scale(1/post.area)))
	}
}

// posts is what stands over a foot.
type posts struct {
	lengthwise, crosswise bool
	area                  float64 // of the rib edges, slots taken off, mm²
}

// posts returns the ribs over a foot. Where two cross the one that is slotted
// from below stands only beside the slot.
func (d *Design) posts(pad plate.Pad) posts {
	ys, xs := d.RibPlaces()
	tb := d.EdgeBand.Thickness
	x0, x1 := math.Max(pad.X-pad.SX/2, tb), math.Min(pad.X+pad.SX/2, d.Length-tb)
	y0, y1 := math.Max(pad.Y-pad.SY/2, tb), math.Min(pad.Y+pad.SY/2, d.Width-tb)
	var out posts
	wide := func(places []float64, thickness, lo, hi float64) (sum float64, n int) {
		for _, at := range places {
			if o := math.Min(at+thickness/2, hi) - math.Max(at-thickness/2, lo); o > nearly {
				sum, n = sum+o, n+1
			}
		}
		return sum, n
	}
	bl, nl := wide(ys, d.Lengthwise.Thickness, y0, y1)
	bc, nc := wide(xs, d.Crosswise.Thickness, x0, x1)
	out.lengthwise, out.crosswise = nl > 0 && x1 > x0, nc > 0 && y1 > y0
	if !out.lengthwise && !out.crosswise || !(x1 > x0 && y1 > y0) {
		return posts{}
	}
	slotted, mates, n := bc, d.Lengthwise, nl // crosswise ribs slotted from below, unless turned round
	if d.Slots.LengthwiseDown {
		slotted, mates, n = bl, d.Crosswise, nc
	}
	out.area = bl*(x1-x0) + bc*(y1-y0) - slotted*float64(n)*d.Slots.width(mates)
	return out
}

// post returns the weakest of the ribs over a foot as a post.
func (k *checker) post(over posts) (strength float64, f factors) {
	strength = math.Inf(1)
	weaker := func(there bool, set RibSet, m *catalog.Sheet, of factors) {
		if !there {
			return
		}
		up, e := m.FCompAcross, m.EAcross
		if set.Upright {
			up, e = m.FCompAlong, m.EAlong
		}
		h := k.d.CoreDepth
		s := math.Min(up, math.Pi*math.Pi*e*stiffnessShare*set.Thickness*set.Thickness/(12*h*h))
		if math.IsInf(strength, 1) || s*of.kmod/of.gammaM < strength*f.kmod/f.gammaM {
			strength, f = s, of
		}
	}
	weaker(over.lengthwise, k.d.Lengthwise, &k.m.lengthwise, k.lengthwise)
	weaker(over.crosswise, k.d.Crosswise, &k.m.crosswise, k.crosswise)
	return strength, f
}
