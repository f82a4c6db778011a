package engine

import (
	"math"

	"flatwright/engine/catalog"
	"flatwright/engine/plate"
	"flatwright/engine/section"
)

// internalBond is what a board's face holds when it is pulled off, 5th percentile, MPa:
// the lowest mill's internal bond of Wood Handbook FPL-GTR-282 (2021) Tables 12-3 and
// 12-4 for OSB and particleboard, the least values of EN 622-5 and EN 622-2 for
// fibreboard, from memory (the Handbook's Table 12-6 has .71 at least for MDF).
var internalBond = map[string]float64{
	"osb": 0.23, "particleboard-p4": 0.31, "particleboard-p5": 0.31,
	"mdf": 0.55, "mdf-hls": 0.55, "hardboard": 0.5, "hardboard-hla": 0.5,
}

// acrossSolid is the tension across the grain of solid wood, MPa: ft,90,k of EN 338 for
// softwood, from memory.
const acrossSolid = 0.4

// veneerShare is the part of the rolling shear strength of plies at which they are taken
// to part when pulled across: rolling shear is tension across the grain at 45°, and half
// is left for the checks of peeled veneer. No standard gives a value; an estimate, no source.
const veneerShare = 0.5

// through returns what a sheet holds in tension through its thickness, MPa: an estimate.
func through(m *catalog.Sheet) float64 {
	if s, ok := internalBond[m.Kind]; ok {
		return s
	}
	if m.Solid {
		return acrossSolid
	}
	return veneerShare * m.FRolling
}

// tornOff returns what holds a skin on a rib: the weaker of the skin's face and of a
// solid rib's edge. A sheet on edge is pulled in its plane, where it is far stronger.
func tornOff(skin, rib *catalog.Sheet, ofSkin, ofRib factors) (strength float64, f factors) {
	strength, f = through(skin), ofSkin
	if s := through(rib); rib.Solid && s*ofRib.kmod/ofRib.gammaM < strength*f.kmod/f.gammaM {
		return s, ofRib
	}
	return strength, f
}

// glueBed is the glue line between one skin and a rib, as a beam on a bed.
type glueBed struct{ ei, k float64 }

// beside is how far to either side of a rib its skin bends with it where a force is
// handed over locally, in thicknesses of the skin; common practice, no source.
const beside = 1.0

// bed returns the glue line of a rib: a strip of the skin, on half of the skin's
// thickness and half of the rib's height.
func bed(l plate.Layer, w plate.Web, along bool) glueBed {
	if !along {
		l = l.Turned()
	}
	wide := w.B + 2*beside*l.T
	return glueBed{l.EBendX * wide * l.T * l.T * l.T / 12, w.B / (l.T/(2*l.EZ) + w.Height/(2*w.EUp))}
}

// pull is what tries to part a rib and its skins at one place.
type pull struct {
	at          float64 // along the rib
	top, bottom effect  // N
	over        float64 // mm of rib on which that acts
}

// ribStretch is what a rib carries, own weight and all loads, for the balance of its
// stretches.
type ribStretch struct {
	own, all []plate.RibForce
	b        float64 // thickness
}

// up returns how much a part of a segment is pulled apart upright, N; share of its length.
func (s ribStretch) up(i int, share float64) effect {
	return difference(s.own[i].Upright, s.all[i].Upright).scale(share * s.all[i].L * s.b)
}

// parts is the balance of a stretch of rib: the shear force gained over it comes in
// through the two glue lines, half through either, and what pulls the rib upright
// goes from one to the other.
func parts(up, gained effect) (top, bottom effect) {
	return up.plus(gained.scale(-0.5)), up.plus(gained.scale(0.5))
}

func (s ribStretch) shear(i int) effect { return difference(s.own[i].V, s.all[i].V) }

// crossings are the stretches about every rib that crosses, mid-segment to mid-segment,
// and the two ends. The ribs hand each other their forces there through the skins, as an
// open lap passes none; a lap that is glued does.
func (s ribStretch) crossings(in func(at float64) bool, on glueBed, glued, banded bool) []pull {
	var out []pull
	before := -1
	for i := 0; i <= len(s.all); i++ {
		if i < len(s.all) && in(s.all[i].At) {
			continue
		}
		from, to := s.start(before+1), s.start(i) // of what crosses
		if to == from && before >= 0 && i < len(s.all) {
			before = i
			continue // within a bay
		}
		var up, gained effect
		if before >= 0 {
			up, gained = up.plus(s.up(before, 0.5)), gained.plus(s.shear(before).scale(-1))
		}
		for k := before + 1; k < i; k++ {
			up = up.plus(s.up(k, 1))
		}
		if i < len(s.all) {
			up, gained = up.plus(s.up(i, 0.5)), gained.plus(s.shear(i))
		}
		if glued && to > from {
			gained = effect{}
		}
		p := pull{at: (from + to) / 2, over: on.spread()}
		if before < 0 || i == len(s.all) { // the skin goes on to one side only
			p.over /= 2
		}
		if to == from && !banded { // the rib ends free: nothing takes its shear force at once
			p.over = math.Max(p.over, s.all[min(i, len(s.all)-1)].L/2)
		}
		p.top, p.bottom = parts(up, gained)
		out = append(out, p)
		before = i
	}
	return out
}

// start is where a segment begins; one after the last is the end.
func (s ribStretch) start(i int) float64 {
	if i == len(s.all) {
		return s.all[i-1].At + s.all[i-1].L/2
	}
	return s.all[i].At - s.all[i].L/2
}

// within are the stretches between two crossing ribs, each as long as a force spreads:
// what pulls there comes from loads beside the rib.
func (s ribStretch) within(in func(at float64) bool, on glueBed) []pull {
	var out []pull
	wide := on.spread()
	for first := 0; first < len(s.all); first++ {
		if in(s.all[first].At) {
			continue
		}
		last := first
		for last+1 < len(s.all) && !in(s.all[last+1].At) {
			last++
		}
		for i := first; i < last; i++ {
			lo, hi := s.start(i+1)-wide/2, s.start(i+1)+wide/2
			lo, hi = math.Max(lo, s.all[first].At), math.Min(hi, s.all[last].At)
			var up, gained effect
			for k := first; k <= last; k++ {
				if l := math.Min(hi, s.start(k+1)) - math.Max(lo, s.start(k)); l > 0 {
					up = up.plus(s.up(k, l/s.all[k].L))
				}
				if k < last { // the shear force runs straight from middle to middle
					a, b := s.all[k].At, s.all[k+1].At
					if l := math.Min(hi, b) - math.Max(lo, a); l > 0 {
						gained = gained.plus(s.shear(k + 1).plus(s.shear(k).scale(-1)).scale(l / (b - a)))
					}
				}
			}
			p := pull{at: (lo + hi) / 2, over: hi - lo}
			p.top, p.bottom = parts(up, gained)
			out = append(out, p)
		}
		first = last
	}
	return out
}

func (g glueBed) spread() float64 { return section.Spread(g.ei, g.k) }

// peeling checks what pulls the skins off one rib.
func (k *checker) peeling(along bool, part string, at float64, w plate.Web, own, all []plate.RibForce) {
	ys, xs := k.d.RibPlaces()
	mates, mate, rib, of := xs, k.d.Crosswise.Thickness, &k.m.lengthwise, k.lengthwise
	if !along {
		mates, mate, rib, of = ys, k.d.Lengthwise.Thickness, &k.m.crosswise, k.crosswise
	}
	in := func(x float64) bool {
		for _, m := range mates {
			if math.Abs(x-m) < mate/2 {
				return true
			}
		}
		return false
	}
	s := ribStretch{own, all, w.B}
	for n, skin := range [2]struct {
		check
		m *catalog.Sheet
		Skin
		factors
		name string
	}{{topPeel, &k.m.top, k.d.TopSkin, k.top, "top"}, {bottomPeel, &k.m.bottom, k.d.BottomSkin, k.bottom, "bottom"}} {
		on := bed(layer(skin.m, skin.Skin), w, along)
		strength, f := tornOff(skin.m, rib, skin.factors, of)
		for _, p := range append(s.crossings(in, on, k.d.Slots.Glued, k.d.EdgeBand.Thickness > 0), s.within(in, on)...) {
			x, y := p.at, at
			if !along {
				x, y = at, p.at
			}
			e := [2]effect{p.top, p.bottom}[n]
			if top, bottom := k.d.unglued(part, p.at); top && n == 0 || bottom && n == 1 {
				continue // nothing is glued there that could part
			} else if top {
				e = p.bottom.plus(p.top.scale(-1)) // all that the rib gains comes in through one glue line
			} else if bottom {
				e = p.top.plus(p.bottom.scale(-1))
			}
			r := Margin{X: x, Y: y, Part: skin.name, Where: "rib " + part + ", ", near: point{x, y}, nearby: true,
				Source: "whole-panel model, balance of a stretch of rib, spread as under a beam on a bed (Hetényi 1946); tension across the sheet, all from memory",
				Note:   "An estimate. What the skin's slope pries at the edges of the glue line is not counted: it fades as the joint gives."}
			k.keep(skin.check, along, r, f, strength, sense(e.scale(1/(w.B*p.over))))
		}
	}
}
