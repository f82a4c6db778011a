package engine

import (
	"context"
	"fmt"
	"math"

	"flatwright/engine/catalog"
	"flatwright/engine/plate"
	"flatwright/engine/section"
)

// answers are what the whole-panel model says of one case: under the panel's
// own weight alone and under everything.
type answers struct{ own, all *plate.Solution }

// wholeMargins checks every case by the whole-panel model, lowest first. Where
// a support lifts the two answers do not add; then the loads' part is what they
// change. It returns nothing once ctx is done.
func (mo *model) wholeMargins(ctx context.Context, d *Design, m *materials, cases []answers) []Margin {
	k := checker{d: d, m: m, mo: mo, tell: true, bondStrength: d.glue().Strength}
	for i := range d.Cases {
		k.c = &d.Cases[i]
		k.top, k.bottom, k.lengthwise, k.crosswise = k.kmod(&m.top), k.kmod(&m.bottom), k.kmod(&m.lengthwise), k.kmod(&m.crosswise)
		k.wholeSkin(cases[i], true)
		k.wholeSkin(cases[i], false)
		for n := range d.Lengthwise.number() {
			if ctx.Err() != nil {
				return nil
			}
			k.wholeRib(cases[i], true, n)
		}
		for n := range d.Crosswise.number() {
			if ctx.Err() != nil {
				return nil
			}
			k.wholeRib(cases[i], false, n)
		}
		k.bearing()
		k.punching()
		k.splices(cases[i])
		k.crippling(cases[i])
		k.apronMargins(cases[i])
		k.supportScrews(cases[i])
	}
	all := append(append(k.sorted(), d.tipping(mo.weight)...), d.tippingOver(mo.weight)...)
	sortMargins(all)
	return all
}

// difference is an effect from the two answers.
func difference(own, all float64) effect { return effect{own, all - own} }

func (e effect) plus(o effect) effect { return effect{e.own + o.own, e.load + o.load} }

// wholeSkin checks one skin in every cell: pulled and pressed at both faces,
// both ways, and buckling of the bay.
func (k *checker) wholeSkin(c answers, top bool) {
	s, mat, f, at, buckle, id := k.d.TopSkin, &k.m.top, k.top, topCompression, topBuckling, "top"
	if !top {
		s, mat, f, at, buckle, id = k.d.BottomSkin, &k.m.bottom, k.bottom, bottomCompression, bottomBuckling, "bottom"
	}
	own, all := c.own.Skin(top), c.all.Skin(top)
	l := layer(mat, s)
	bays := k.d.bayLimits(l)
	wrinkles := [...]float64{k.wrinkles(l, true), k.wrinkles(l, false)} // along, across
	gone := k.d.goneCells(id, all)
	for i := range all {
		o, a := &own[i], &all[i]
		if gone != nil && gone[i] {
			continue
		}
		thick := s.Thickness
		if a.Left > 0 {
			thick = a.Left
			k.grooved(s, mat, f, top, o, a)
		} else {
			k.wholeCell(at, id, s, mat, f, wrinkles, o, a)
		}
		k.skinShear(id, mat, f, thick, o, a)
		if b := bayAt(bays, a.X, a.Y); b != nil && !a.Rib {
			k.buckling(buckle, s.Thickness, b, o, a, f, id)
		}
	}
	k.netSections(newMesh(own, all, gone), s, mat, f, top)
}

// wholeCell checks a cell of a skin pulled and pressed at both faces, both ways; the
// check of tension follows that of compression.
func (k *checker) wholeCell(at check, id string, s Skin, mat *catalog.Sheet, f factors, wrinkles [2]float64, o, a *plate.SkinStress) {
	for way, along := range [...]bool{true, false} {
		n, m := pulled(o, a, along)
		r := Margin{X: a.X, Y: a.Y, Part: id, near: point{a.X, a.Y}, nearby: true,
			Source: "whole-panel model, middle of a cell of the mesh; EN 1995-1-1 9.1.2 and 6.2.3, from memory",
			Note:   "Membrane stress and the skin's own bending turned into the same stress. Right at a rib's face or a load's edge it is higher."}
		k.bothFaces(at, at+1, along, r, f, fibresOf(mat, s, along), n.scale(1/s.Thickness), m.scale(6/(s.Thickness*s.Thickness)))
		k.wrinkling(r, n, s.Thickness, wrinkles[way], f)
	}
}

func place(x, y float64) string {
	return fmt.Sprintf("%.0f mm from the left end, %.0f mm from the front edge", x, y)
}

// wholeRib checks every segment of one rib.
func (k *checker) wholeRib(c answers, along bool, n int) {
	set, mat, f, mates, part := k.d.Lengthwise, &k.m.lengthwise, k.lengthwise, k.d.Crosswise, fmt.Sprintf("L%d", n+1)
	if !along {
		set, mat, f, mates, part = k.d.Crosswise, &k.m.crosswise, k.crosswise, k.d.Lengthwise, fmt.Sprintf("C%d", n+1)
	}
	ys, xs := k.d.RibPlaces()
	places := ys
	if !along {
		places = xs
	}
	at := places[n]
	b, h := set.Thickness, k.d.CoreDepth
	left := h - k.d.slotDepth(part)
	slot := k.d.Slots.width(mates)
	ft, fc, up, eUp := mat.FTensAlong, mat.FCompAlong, mat.FCompAcross, mat.EAcross
	if set.Upright {
		ft, fc, up, eUp = mat.FTensAcross, mat.FCompAcross, mat.FCompAlong, mat.EAlong
	}
	w := k.web(along, n)
	kb := w.Own
	where := "rib " + part + ", "
	glued := k.d.contact(along, at, b)
	own, all := c.own.Rib(along, n), c.all.Rib(along, n)
	k.peeling(along, part, at, w, own, all)
	for i := range all {
		o, a := &own[i], &all[i]
		x, y := a.At, at
		if !along {
			x, y = at, a.At
		}
		r := Margin{X: x, Y: y, Part: part, Where: where, near: point{x, y}, nearby: true}
		keep := func(c check, strength float64, f factors, e demand, source, note string) {
			r := r
			r.Source, r.Note = source, note
			k.keep(c, along, r, f, strength, e)
		}
		v, m, axial := difference(o.V, a.V), difference(o.M, a.M), difference(o.N, a.N)
		flowTop, flowBottom := difference(o.FlowTop, a.FlowTop), difference(o.FlowBottom, a.FlowBottom)
		for _, flow := range [...]effect{flowTop, flowBottom, v.scale(1 / h)} {
			keep(ribShear, mat.FEdgeShear, f, flow.scale(1/b), "whole-panel model, shear flow over the rib's thickness; panel shear strength of the sheet", "")
		}
		k.ribBuckling(r, along, set, mat, f, i, all, v.scale(1/(b*h)))
		net := v.scale(1 / (b * left))
		if f.kind.NotchFactor {
			kv := section.NotchFactor(h, left, 0, slot/2, f.kind.KN)
			keep(slotShear, kv*mat.FEdgeShear, f, net.scale(1.5), "whole-panel model; EN 1995-1-1 6.5.2, from memory", fmt.Sprintf("Notch factor kv = %.2f on what is left of the depth; made for beams, so it is cautious here.", kv))
		} else {
			keep(slotShear, mat.FEdgeShear, f, net, "whole-panel model; net section V ≤ fv·b·hef for sheet material, common practice, no source", fmt.Sprintf("%.1f mm of the depth is left.", left))
		}
		joint := ribState{Margin: r, factors: f, along: along, rib: n, at: a.At, len: a.L, b: b, h: h, shear: v, mat: mat}
		for side, face := range [...]float64{-1, 1} {
			fibre := axial.scale(1 / (b * h * kb)).plus(m.scale(face * 6 / (b * h * h * kb)))
			joint.fibres[side] = fibre
			keep(ribBending, ft, f, sense(fibre), "whole-panel model, strain at the rib's edge times its modulus", "")
			if k.d.crossesSeam(along, a.At) {
				k.keep(seamRibs, true, k.overSeam(r), f, math.Min(ft, fc), fibre)
			}
			keep(ribBending, fc, f, sense(fibre.scale(-1)), "whole-panel model, strain at the rib's edge times its modulus", "")
			for _, turn := range [...]float64{-1, 1} {
				keep(slotBending, math.Min(ft, fc), f, fibre.plus(v.scale(turn*3*slot/(b*left*left))), "whole-panel model and V·w/2 on the net section b·hef²/6, textbook (frame with open panels)", "")
			}
		}
		k.cutRib(joint)
		k.splicedRib(joint)
		cr := math.Pi * math.Pi * eUp * stiffnessShare * b * b / (12 * h * h)
		strut, note := up, "The rib stands on its edge between the skins; crushing comes before buckling."
		if cr < up {
			strut, note = cr, "The rib stands on its edge between the skins and would bow out before it is crushed (pinned strip, Euler, textbook)."
		}
		keep(ribStrut, strut, f, sense(difference(-o.Upright, -a.Upright)), "whole-panel model, upright stress in the rib", note)
		k.wholeGlue(r, along, glued[0], flowTop, true)
		k.wholeGlue(r, along, glued[1], flowBottom, false)
	}
}

// wholeGlue checks one glue line of one segment.
func (k *checker) wholeGlue(r Margin, along bool, b float64, flow effect, top bool) {
	j := k.joint(top)
	r.Part, r.Note = j.part, j.note
	r.Source = "whole-panel model, shear flow over the rib's thickness; EN 1995-1-1 9.1.2(6), from memory"
	k.keep(j.check, along, r, j.factors, j.strength*section.GlueLineReduction(b, j.t, 8), flow.scale(1/b))
}

// web is a rib as the model has it.
func (k *checker) web(along bool, n int) plate.Web {
	if k.panel == nil {
		k.panel = k.d.WholePanel(1)
	}
	if along {
		return k.panel.Along[n].Web
	}
	return k.panel.Across[n].Web
}

// punching checks the top skin along the outline of every load's footprint.
func (k *checker) punching() {
	t := k.d.TopSkin.Thickness
	for i := range k.c.Loads {
		l := &k.c.Loads[i]
		if l.Kind == Uniform || l.Kind == Couple { // a block lies under the skin that a couple presses
			continue
		}
		r := Margin{X: l.X, Y: l.Y, Part: "top", Where: "around “" + l.Name + "”",
			Source: "force over the footprint's outline times the skin's thickness against rolling shear; common practice, no source"}
		k.keep(punchedThrough, true, r, k.top, k.m.top.FRolling, sense{load: l.Force / (2 * (l.SizeX + l.SizeY) * t)})
	}
}

// lean is the force of somebody leaning on the rim, N; common practice, no
// source.
const lean = 650

// stabilizing is the partial factor on weight that holds a top down: EN 1990
// Table A1.2(A), from memory.
const stabilizing = 0.9

// tipping checks that the panel's own weight holds it down when somebody leans
// on a rim that overhangs its supports. A top that is fastened to them does not
// tip off them.
func (d *Design) tipping(weight float64) []Margin {
	s := d.Supports
	if s.Fastened {
		return nil
	}
	var out []Margin
	check := func(along bool, inset, extent float64) {
		if inset-s.Bearing/2 <= 0 {
			return
		}
		m := Margin{Code: "tipping", Name: "Tipping when someone leans on an end", Part: SupportPart, Unit: "N·m", Case: "someone leans on the rim", KMod: 1, GammaM: 1,
			Capacity: stabilizing * weight * (extent/2 - inset) / 1000, Demand: gammaLoad * lean * inset / 1000,
			Source: "moments about the support, EN 1990 (EQU), factors from memory; 650 N at the rim, common practice, no source",
			Note:   "The top is taken as loose on its supports; fastened down it does not tip this way. This says nothing about the legs."}
		m.X, m.Y, m.Where = 0, d.Width/2, "at the ends"
		if !along {
			m.Code, m.Name, m.X, m.Y, m.Where = "tipping.sides", "Tipping when someone leans on a long side", d.Length/2, 0, "at the long sides"
		}
		m.Value = math.Min(TimesCap, m.Capacity/m.Demand)
		m.Times = m.Value
		out = append(out, m)
	}
	if s.Kind == RailsAcross || s.Kind == FourLegs {
		check(true, s.EndInset, d.Length)
	}
	if s.Kind == RailsAlong || s.Kind == FourLegs {
		check(false, s.SideInset, d.Width)
	}
	return out
}
