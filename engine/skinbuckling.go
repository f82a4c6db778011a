package engine

import (
	"fmt"
	"math"

	"flatwright/engine/plate"
	"flatwright/engine/section"
)

// bay is a clear bay between four ribs, mm.
type bay struct{ x0, x1, y0, y1 float64 }

// heldBay is a bay of a skin with what holds its sides: ribs, or an edge band.
// Where the skin stands out beyond the last rib one side is free, in a corner two.
type heldBay struct {
	bay
	freeX, freeY bool // one of its sides x = const, y = const is free
}

// bays returns the clear bays of the skins, those at the rims among them.
func (d *Design) bays() []heldBay {
	ys, xs := d.RibPlaces()
	tb := d.EdgeBand.Thickness
	var out []heldBay
	for _, x := range clearSpans(xs, d.Crosswise.Thickness, tb, d.Length) {
		for _, y := range clearSpans(ys, d.Lengthwise.Thickness, tb, d.Width) {
			out = append(out, heldBay{bay{x.from, x.to, y.from, y.to}, x.free, y.free})
		}
	}
	return out
}

// clearSpan is a clear distance between two ribs, or between one and the rim.
type clearSpan struct {
	from, to float64
	free     bool // ends at a rim that no band holds
}

// clearSpans are those between ribs at the given places, with bands at the ends of
// an extent; a band of no thickness is none.
func clearSpans(places []float64, thickness, band, extent float64) []clearSpan {
	var out []clearSpan
	from, free := band, band == 0
	add := func(to float64, free bool) {
		if to-from > nearly {
			out = append(out, clearSpan{from, to, free})
		}
	}
	for _, at := range places {
		add(at-thickness/2, free)
		from, free = at+thickness/2, false
	}
	add(extent-band, band == 0)
	return out
}

// bayAt returns the bay with a place in it, nil over a rib.
func bayAt(bays []bayLimit, x, y float64) *bayLimit {
	for i := range bays {
		if b := &bays[i]; x > b.x0 && x < b.x1 && y > b.y0 && y < b.y1 {
			return b
		}
	}
	return nil
}

// stiffnessShare is the 5th percentile of a sheet's modulus over its mean; 0.8
// to 0.85 in EN 12369-1 (OSB 0.85), the lower taken.
const stiffnessShare = 0.8

// bent is a skin as a thin plate, 5th percentile.
func bent(l plate.Layer) section.OrthotropicPlate {
	t3 := l.T * l.T * l.T / 12 * stiffnessShare
	p := section.OrthotropicPlate{D11: l.EBendX * t3, D22: l.EBendY * t3, D66: l.G * t3}
	p.D12 = l.Nu * p.D22
	return p
}

// bayLimit is what a bay of one skin bears before it buckles, N/mm: pressed along x,
// along y, sheared. What is infinite is not counted.
type bayLimit struct {
	heldBay
	x, y, shear         float64
	where, source, note string
}

// bayLimits returns the bays of a skin with what they bear.
func (d *Design) bayLimits(l plate.Layer) []bayLimit {
	bays := d.bays()
	out := make([]bayLimit, len(bays))
	for i, b := range bays {
		out[i] = limitOf(b, l)
	}
	return out
}

// limitOf takes a bay as a plate held up along its sides. A skin that stands out
// beyond the last rib counts as pressed along its free side: across it nothing
// presses, as nothing pushes at the rim, and the shear falls to nothing there.
func limitOf(b heldBay, l plate.Layer) bayLimit {
	const share = "Critical membrane stress, 80 % of the mean stiffness."
	p, a, w := bent(l), b.x1-b.x0, b.y1-b.y0
	out := bayLimit{heldBay: b, x: math.Inf(1), y: math.Inf(1), shear: math.Inf(1), where: "beyond the last rib at " + place((b.x0+b.x1)/2, (b.y0+b.y1)/2),
		source: "whole-panel model; orthotropic plate with one side free, Ritz, held to the series of the case in Timoshenko & Gere, Theory of Elastic Stability",
		note:   "The skin is held by ribs along three sides; the fourth is free. " + share}
	switch {
	case b.freeX && b.freeY:
		out.x, out.y = p.CornerBuckling(w), p.CornerBuckling(a)
		out.note = "A corner of the skin, held by ribs along two sides: only its twist is counted. " + share
	case b.freeY:
		out.x = p.FreeBuckling(a, w)
	case b.freeX:
		out.y = p.Turned().FreeBuckling(w, a)
	default:
		out.x, out.y, out.shear = p.Buckling(a, w), p.Turned().Buckling(w, a), p.ShearBuckling(a, w)
		out.where = "the bay at " + place((b.x0+b.x1)/2, (b.y0+b.y1)/2)
		out.source = "orthotropic plate supported on four sides, Navier, textbook; shear from memory"
		out.note = fmt.Sprintf("Critical membrane stress of the bay, 80 %% of the mean stiffness. The rule for skins that dimple over a core's cells (sandwich practice, from memory) is made for small cells and cautious here: %.1f MPa.", dimpling(l, b.bay))
	}
	return out
}

// dimpling is the stress of the rule for the cells of a core: the softer way over
// the shorter side.
func dimpling(l plate.Layer, b bay) float64 {
	e := math.Min(l.EBendX, l.EBendY)
	nu := l.Nu * math.Sqrt(l.EBendY/l.EBendX) // the mean of both
	return stiffnessShare * section.Dimpling(e, nu, l.T, math.Min(b.x1-b.x0, b.y1-b.y0))
}

// buckling sets what presses and shears a bay against what it bears. All of it is
// added up, which is on the cautious side.
func (k *checker) buckling(c check, t float64, b *bayLimit, own, all *plate.SkinStress, f factors, id string) {
	sign := 1.0
	if all.NXY > 0 {
		sign = -1
	}
	used := pressed(own.NX, all.NX, b.x).plus(pressed(own.NY, all.NY, b.y)).plus(pressed(sign*own.NXY, sign*all.NXY, b.shear))
	if b.freeX || b.freeY {
		c += topOverhang - topBuckling
	}
	critical := b.x // the one told, in whose unit the others are counted
	if math.IsInf(critical, 1) {
		critical = b.y
	}
	f.kmod = 1 // stiffness, not strength
	r := Margin{X: all.X, Y: all.Y, Part: id, Where: b.where, Source: b.source, Note: b.note}
	k.keep(c, true, r, f, critical/t, sense(used.scale(critical/t)))
}

// pressed is which share of a critical force a membrane force is, N/mm; a pull is
// none.
func pressed(own, all, critical float64) effect {
	if !(all < 0) {
		return effect{}
	}
	return difference(-own/critical, -all/critical)
}

// wrinkles is what a skin bears before it wrinkles on the ribs that run one way,
// MPa: they are smeared over their spacing, as a core.
func (k *checker) wrinkles(l plate.Layer, along bool) float64 {
	set, m, skin, extent := k.d.Lengthwise, &k.m.lengthwise, l.Ex, k.d.Width
	if !along {
		set, m, skin, extent = k.d.Crosswise, &k.m.crosswise, l.Ey, k.d.Length
	}
	up := m.EAcross
	if set.Upright {
		up = m.EAlong
	}
	share := float64(set.number()) * set.Thickness / extent
	return stiffnessShare * section.Wrinkling(skin, share*up, share*m.GEdge)
}

// wrinkling checks that the ribs hold a skin down against short waves: it is pressed
// by n, N/mm, along ribs on which it wrinkles at a stress.
func (k *checker) wrinkling(r Margin, n effect, t, stress float64, f factors) {
	c := topWrinkling
	if r.Part == "bottom" {
		c = bottomWrinkling
	}
	f.kmod = 1 // stiffness, not strength
	r.Source = "whole-panel model; ½·(E·E core·G core)^⅓ of sandwich practice, from memory, 80 % of the mean stiffness"
	r.Note = "The ribs that run with the pressure are taken as a core, smeared over their spacing. Where they stand farther apart than the waves are long the skin buckles between them first, which has a margin of its own."
	k.keep(c, true, r, f, stress, sense(n.scale(-1/t)))
}
