package engine

import (
	"context"
	"math"

	"flatwright/engine/catalog"
	"flatwright/engine/plate"
)

// WholePanel turns a valid design into the whole-panel model's terms, with divide elements across a bay.
func (d Design) WholePanel(divide int) *plate.Panel {
	return d.wholePanel(context.Background(), divide)
}

// wholePanel is [Design.WholePanel]; once ctx is done the ribs' slots are only
// estimated, and the caller must look.
func (d *Design) wholePanel(ctx context.Context, divide int) *plate.Panel {
	m := d.materials()
	return d.panelOf(ctx, &m, divide)
}

// panelOf is [Design.wholePanel] of the given materials.
func (d *Design) panelOf(ctx context.Context, m *materials, divide int) *plate.Panel {
	tb := d.EdgeBand.Thickness
	p := &plate.Panel{X0: tb, X1: d.Length - tb, Y0: tb, Y1: d.Width - tb, Height: d.CoreDepth, Divide: divide,
		Top: layer(&m.top, d.TopSkin), Bottom: layer(&m.bottom, d.BottomSkin)}
	ys, xs := d.RibPlaces()
	pitchX, pitchY := (p.X1-p.X0)/float64(len(xs)), (p.Y1-p.Y0)/float64(len(ys))
	p.Along = d.plateRibs(ctx, p, m, ys, pitchX, pitchY, true)
	p.Across = d.plateRibs(ctx, p, m, xs, pitchY, pitchX, false)
	if tb > 0 {
		w := plate.Web{B: tb, E: m.band.EAlong, EUp: m.band.EAcross, G: m.band.GEdge, GRoll: m.band.GRolling, Own: 1}
		for _, s := range [...]plate.Side{plate.Left, plate.Right, plate.Front, plate.Back} {
			p.Rims = append(p.Rims, plate.Rim{Side: s, Web: w})
		}
	}
	for _, b := range d.Blocks {
		p.Fills = append(p.Fills, d.fill(b, xs, ys))
	}
	p.Pads = d.pads()
	for i := range p.Pads {
		underSkins(p, &p.Pads[i])
	}
	d.fasten(p)
	p.Beams = d.aprons(m)
	p.Seams = d.openSeams()
	d.bridge(p, m, pitchX, pitchY)
	p.Loose, p.Bare = d.looseRibs(), d.bare(p)
	if divide >= int(Refined) {
		p.Closer, p.Loads = true, d.spots()
	}
	p.Splices = append(d.spliceLoss(m), d.cutOff()...)
	d.cutPanel(p, m)
	return p
}

// spots are the loads that stand somewhere, of all cases.
func (d *Design) spots() (out []plate.Press) {
	for _, c := range d.Cases {
		for _, l := range c.Loads {
			if l.Kind != Uniform {
				out = append(out, d.Press(l))
			}
		}
	}
	return out
}

// underSkins moves a pad that lies wholly under an edge band, where the model
// has no skin to press on, inwards to the edge of the skins: the band is glued
// there and hands its load over.
func underSkins(p *plate.Panel, pad *plate.Pad) {
	inwards := func(at *float64, size, lo, hi float64) {
		if *at+size/2 < lo+nearly {
			*at = lo + size/2
		} else if *at-size/2 > hi-nearly {
			*at = hi - size/2
		}
	}
	inwards(&pad.X, pad.SX, p.X0, p.X1)
	inwards(&pad.Y, pad.SY, p.Y0, p.Y1)
}

func layer(m *catalog.Sheet, s Skin) plate.Layer {
	l := plate.Layer{T: s.Thickness, Ex: m.EAlong, Ey: m.EAcross, EBendX: m.EBendAlong, EBendY: m.EBendAcross, G: m.GEdge, GRoll: m.GRolling, EZ: m.Through(), Nu: m.Nu}
	if s.Across {
		return l.Turned()
	}
	return l
}

// plateRibs are all ribs of one direction, at the given places: slots lie pitch
// apart along them, and they stand spacing apart.
func (d *Design) plateRibs(ctx context.Context, p *plate.Panel, m *materials, places []float64, pitch, spacing float64, along bool) []plate.Rib {
	sheet, set, mates, lo, hi := &m.crosswise, d.Crosswise, d.Lengthwise, p.X0, p.X1
	if along {
		sheet, set, mates, lo, hi = &m.lengthwise, d.Lengthwise, d.Crosswise, p.Y0, p.Y1
	}
	whole := [2]float64{set.Thickness, set.Thickness}
	drawn := d.plateWeb(ctx, p, sheet, set, mates, pitch, spacing, d.SlotDepth(), whole, along)
	var out []plate.Rib
	for i, at := range places {
		w, glued := drawn, d.contact(along, at, set.Thickness)
		if cut := d.slotDepth(RibPart(along, i)); cut != d.SlotDepth() || glued != whole {
			w = d.plateWeb(ctx, p, sheet, set, mates, pitch, spacing, cut, glued, along)
		}
		if d.EdgeBand.Thickness == 0 && (at-w.B/2 < lo+flush || at+w.B/2 > hi-flush) {
			w.Joints = ribJoints(p, w, sheet, spacing, glued, along, true)
		}
		out = append(out, plate.Rib{At: at, Web: w})
	}
	return out
}

// plateWeb is one rib with what its slots (pitch apart, cut deep) and the glue
// lines (ribs spacing apart, glued so wide to the top and to the bottom skin) take away.
func (d *Design) plateWeb(ctx context.Context, p *plate.Panel, m *catalog.Sheet, r, mates RibSet, pitch, spacing, cut float64, glued [2]float64, along bool) plate.Web {
	kb, ks := d.solvedSlots(ctx, p, m, r, mates, pitch, spacing, cut, along != d.Slots.LengthwiseDown, along)
	w := plate.Web{B: r.Thickness, E: m.EAlong, EUp: m.EAcross, GRoll: m.GRolling, Own: kb, Height: d.CoreDepth}
	if r.Upright {
		w.E, w.EUp = w.EUp, w.E
	}
	// ContactSlip takes the in-plane shear modulus, the same along and across.
	top := plate.ContactSlip(glued[0], spacing, p.Top.T, p.Top.GRoll, p.Top.G)
	bottom := plate.ContactSlip(glued[1], spacing, p.Bottom.T, p.Bottom.GRoll, p.Bottom.G)
	w.G = plate.Soften(ks*m.GEdge, w.B, d.CoreDepth, top, bottom)
	w.Joints = ribJoints(p, w, m, spacing, glued, along, false)
	return w
}

// flush is how near to the edge of the skins a rib ends them, mm.
const flush = 1.0

// ribJoints are the joints of a rib to both skins, glued so wide: one that is glued
// over a part of its thickness gives as a rib of that thickness does, which is more.
func ribJoints(p *plate.Panel, w plate.Web, m *catalog.Sheet, spacing float64, glued [2]float64, along, rim bool) (out [2]plate.Give) {
	for i, l := range [2]plate.Layer{p.Top, p.Bottom} {
		w.B = glued[i]
		j := ribJoint(l, w, m, spacing, along)
		if out[i] = solvedJoint(j); rim {
			out[i] = solvedRim(j)
		}
	}
	return out
}

// ribJoint is the cross-section of a rib, spacing apart, glued to a skin.
func ribJoint(l plate.Layer, w plate.Web, m *catalog.Sheet, spacing float64, along bool) plate.Joint {
	if !along {
		l = l.Turned()
	}
	return plate.Joint{Spacing: math.Max(spacing, 2*w.B), T: l.T, E: l.BendAcross(), EZ: l.EZ, GRoll: l.GRoll,
		B: w.B, Height: w.Height, EUp: w.EUp, EThrough: m.Through(), GRib: m.GRolling}
}

// fill is a block in the whole-panel model's terms; its grain runs along x.
func (d Design) fill(b Block, xs, ys []float64) plate.Fill {
	m, _ := d.Material(b.Material)
	at := d.block(b, xs, ys, 0, d.CoreDepth).Place
	return plate.Fill{X0: at.X0, X1: at.X1, Y0: at.Y0, Y1: at.Y1, Ex: m.EAlong, Ey: m.EAcross, EUp: m.EAcross, G: m.GEdge, Gz: m.GRolling}
}
