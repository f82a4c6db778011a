package engine

import (
	"math"

	"flatwright/engine/catalog"
	"flatwright/engine/section"
)

// Gravity is standard gravity, m/s² (ISO 80000-3 / CGPM 1901).
const Gravity = 9.80665

// model is a valid design made ready for the closed form: a value, made
// without allocating.
type model struct {
	d             *Design
	kind          SupportKind
	length, width float64
	weight        float64 // N
	along, across axis
	plate         section.Plate
	slab          slab
	ledger        ledger
}

// axis is the panel bent along one axis.
type axis struct {
	panel section.Panel
	join  section.Connection
	span  section.Span
	first section.Rigidity  // at the first sine term of the span
	soft  section.Softening // left zero without harmonics
	ga    float64
	gj    float64 // torsion about this axis

	taken, slabTaken float64 // off the sag this way, and off the solid slab's, by a ledger or aprons, as a share
}

// slab is the solid slab of the same outline, in the top skin's material.
type slab struct{ ei, ga, gj, eiAcross, gaAcross, gjAcross float64 }

// slotFactors estimates how much of a rib's own bending and shear stiffness
// the open half-laps leave, from the pitch of the slots over the rib height:
//
//	bending 0.6 … 0.8, shear 0.80 … 0.95, at pitch/height 1 … 3
//
// Source: the range that periodic plane-stress models of one pitch gave while
// this program was prepared (derived); it stands in until the cell itself is
// solved for the panel at hand.
func slotFactors(pitch, height float64) (bending, shear float64) {
	t := math.Min(1, math.Max(0, (pitch/height-1)/2))
	return 0.6 + 0.2*t, 0.8 + 0.15*t
}

const slotFactorSource = "estimate from pitch over depth (range of periodic plane-stress models, derived); stands in for a cell solved for this panel"

// slotSource says where the slot factors of the closed form come from.
func (d *Design) slotSource() string {
	if d.Slots.Glued {
		return "laps glued tight are taken as whole wood, the upper bound"
	}
	return slotFactorSource
}

// newModel prepares the closed form; harmonics fills in the softening of the
// higher sine terms.
func newModel(d *Design, m *materials, harmonics bool) model {
	tb := d.EdgeBand.Thickness
	ls, ws := d.Length-2*tb, d.Width-2*tb
	mo := model{d: d, kind: d.Supports.pattern(), length: d.Length, width: d.Width, weight: d.mass(m) * Gravity}
	mo.along = axis{panel: section.Panel{
		Width: ws, H: d.CoreDepth,
		Top:    skin(&m.top, d.TopSkin, false),
		Bottom: skin(&m.bottom, d.BottomSkin, false),
		Web:    d.joined(d.web(&m.lengthwise, d.Lengthwise, ls/float64(d.Crosswise.number())), &m.lengthwise, true, d.Length),
		Rim:    section.Rim{B: 2 * tb, E: m.band.EAlong, G: m.band.GEdge},
	}}
	mo.across = axis{panel: section.Panel{
		Width: ls, H: d.CoreDepth,
		Top:    skin(&m.top, d.TopSkin, true),
		Bottom: skin(&m.bottom, d.BottomSkin, true),
		Web:    d.joined(d.web(&m.crosswise, d.Crosswise, ws/float64(d.Lengthwise.number())), &m.crosswise, false, d.Width),
		Rim:    section.Rim{B: 2 * tb, E: m.band.EAlong, G: m.band.GEdge},
	}}
	mo.along.gj = torsion(d, d.Lengthwise, &mo.along.panel, tb, d.Width)
	mo.across.gj = torsion(d, d.Crosswise, &mo.across.panel, tb, d.Length)
	mo.along.span, mo.across.span = d.spans()
	for _, a := range [...]*axis{&mo.along, &mo.across} {
		a.join = a.panel.Connect()
		a.first = a.panel.At(math.Pi/(a.span.B-a.span.A), a.join)
		a.ga = a.panel.GA()
		if harmonics {
			a.soft = a.panel.Soften(a.span, a.join)
		}
	}
	mo.plate = section.Plate{
		Dx: mo.along.first.EI / ws, Dy: mo.across.first.EI / ls,
		// A plate's GJ is 2·H times its width. The boxes of the two ways give
		// H a little apart, by their side walls: the mean.
		H:  (mo.along.gj/ws + mo.across.gj/ls) / 4,
		Sx: mo.along.ga / ws, Sy: mo.across.ga / ls,
	}
	t := d.TotalDepth()
	ex, ey := grain(&m.top, d.TopSkin.Across, false), grain(&m.top, d.TopSkin.Across, true)
	mo.slab = slab{
		ei: section.SolidRigidity(ex, d.Width, t), ga: section.SolidShear(m.top.GRolling, d.Width, t), gj: section.StripTorsion(m.top.GEdge, d.Width, t),
		eiAcross: section.SolidRigidity(ey, d.Length, t), gaAcross: section.SolidShear(m.top.GRolling, d.Length, t), gjAcross: section.StripTorsion(m.top.GEdge, d.Length, t),
	}
	mo.rest(d, m)
	return mo
}

// grain returns the in-plane modulus of a sheet along x, or along y if across
// the panel is asked for.
func grain(m *catalog.Sheet, turned, acrossPanel bool) float64 {
	if turned != acrossPanel {
		return m.EAcross
	}
	return m.EAlong
}

func skin(m *catalog.Sheet, s Skin, acrossPanel bool) section.Skin {
	bend := m.EBendAlong
	if s.Across != acrossPanel {
		bend = m.EBendAcross
	}
	return section.Skin{T: s.Thickness, E: grain(m, s.Across, acrossPanel), EBend: bend, G: m.GEdge, GRoll: m.GRolling}
}

func (d *Design) web(m *catalog.Sheet, r RibSet, pitch float64) section.Web {
	e := m.EAlong
	if r.Upright {
		e = m.EAcross
	}
	kb, ks := 1.0, 1.0
	if !d.Slots.Glued {
		kb, ks = slotFactors(pitch, d.CoreDepth)
	}
	return section.Web{N: r.number(), B: r.Thickness, E: e, G: m.GEdge, Bending: kb, Shear: ks}
}

// joined returns ribs with what their splices leave of them.
func (d *Design) joined(w section.Web, m *catalog.Sheet, along bool, length float64) section.Web {
	if len(d.Splices) > 0 {
		bending, shear := d.spliced(m, along, length)
		w.Bending, w.Shear = w.Bending*bending, w.Shear*shear
	}
	return w
}

// torsion returns GJ about the axis along which set's ribs run; extent is the
// panel's size across it. The side walls of the box are the edge bands, or
// else the outermost ribs; skins beyond the box twist as strips.
func torsion(d *Design, set RibSet, p *section.Panel, tb, extent float64) float64 {
	height := d.CoreDepth + (d.TopSkin.Thickness+d.BottomSkin.Thickness)/2
	top, bottom := p.Top.G*p.Top.T, p.Bottom.G*p.Bottom.T
	if tb > 0 {
		return section.BoxTorsion(extent-tb, height, top, bottom, p.Rim.G*tb)
	}
	first, last := set.ends(0, extent)
	gj := section.BoxTorsion(last-first, height, top, bottom, p.Web.Shear*p.Web.G*p.Web.B)
	over := extent - (last - first)
	return gj + section.StripTorsion(p.Top.G, over, p.Top.T) + section.StripTorsion(p.Bottom.G, over, p.Bottom.T)
}

// span places the two supports along one axis. Where the arrangement has none
// that are set in on this axis the whole extent stands in, whatever the inset;
// on rails it is then only used for stiffness figures.
func span(extent, inset float64, used bool) section.Span {
	if !used {
		inset = 0
	}
	return section.Span{A: inset, B: extent - inset, Length: extent}
}

// mass returns the panel's mass, kg, without laying out the parts.
func (d *Design) mass(m *materials) float64 {
	tb := d.EdgeBand.Thickness
	ls, ws := d.Length-2*tb, d.Width-2*tb
	nl, nc := float64(d.Lengthwise.number()), float64(d.Crosswise.number())
	v := ls * ws * (d.TopSkin.Thickness*m.top.Density + d.BottomSkin.Thickness*m.bottom.Density)
	v += nl*ls*d.CoreDepth*d.Lengthwise.Thickness*m.lengthwise.Density + nc*ws*d.CoreDepth*d.Crosswise.Thickness*m.crosswise.Density
	depth := d.SlotDepth()
	lo, hi := d.Crosswise.slotSum(tb, d.Length-tb, d.Slots), d.Lengthwise.slotSum(tb, d.Width-tb, d.Slots)
	v -= depth * (nl*lo*d.Lengthwise.Thickness*m.lengthwise.Density + nc*hi*d.Crosswise.Thickness*m.crosswise.Density)
	v += 2 * (d.Length + ws) * tb * d.TotalDepth() * m.band.Density
	if len(d.Blocks) > 0 {
		v += d.blockMass() * 1e9
	}
	if len(d.Holes)+len(d.Grooves)+len(d.Seams)+len(d.Splices) > 0 {
		v += d.jointMass(m) * 1e9
	}
	return v*1e-9 + d.glueMass()
}

// jointMass returns what splice plates add to the panel, kg, less what holes and
// grooves take out of it; out of blocks it is taken in [Design.blockMass].
func (d *Design) jointMass(m *materials) float64 {
	z1 := d.BottomSkin.Thickness
	z2 := z1 + d.CoreDepth
	v := 0.0
	less := func(p Part, sheet *catalog.Sheet) {
		for _, g := range d.removedFrom(&p) {
			v -= g.volume * sheet.Density
		}
	}
	less(Part{ID: TopSeam, Kind: SkinPart, Thickness: d.TopSkin.Thickness, Place: Box{Z0: z2, Z1: d.TotalDepth()}}, &m.top)
	less(Part{ID: BottomSeam, Kind: SkinPart, Thickness: z1, Place: Box{Z1: z1}}, &m.bottom)
	for _, h := range d.Holes {
		if along, _, ok := RibOfPart(h.Part); ok {
			v -= math.Pi / 4 * h.Diameter * h.Diameter * float64(h.number()) * d.ribSet(along).Thickness * m.rib(along).Density
		}
	}
	for i, s := range d.Seams {
		for _, b := range d.seamPlates(i) {
			v += b.volume() * m.skin(s.Skin).Density
			less(Part{Kind: SplicePart, Place: b}, m.skin(s.Skin))
		}
	}
	for _, s := range d.Splices {
		along, _, _ := RibOfPart(s.Part)
		for _, b := range d.ribPlates(s) {
			v += b.volume() * m.rib(along).Density
			less(Part{Kind: SplicePart, Place: b}, m.rib(along))
		}
	}
	return v * 1e-9
}

// rib is the material of the ribs of one direction.
func (m *materials) rib(along bool) *catalog.Sheet {
	if along {
		return &m.lengthwise
	}
	return &m.crosswise
}

// skin is the material of a skin.
func (m *materials) skin(name string) *catalog.Sheet {
	if name == TopSeam {
		return &m.top
	}
	return &m.bottom
}

// slotSum adds up the widths of the slots that the ribs of r need in a mate
// that reaches from lo to hi.
func (r RibSet) slotSum(lo, hi float64, s Slots) float64 {
	w := s.width(r)
	sum := 0.0
	for i := range r.number() {
		at := r.at(i, lo, hi)
		sum += min(at+w/2, hi) - max(at-w/2, lo)
	}
	return sum
}

func (d *Design) blockMass() float64 {
	ys, xs := d.RibPlaces()
	sum := 0.0
	for _, b := range d.Blocks {
		sum += d.block(b, xs, ys, 0, d.CoreDepth).Mass
	}
	return sum
}
