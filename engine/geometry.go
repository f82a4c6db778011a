package engine

import (
	"fmt"
	"math"

	"flatwright/engine/catalog"
)

// RibPlaces returns the middle of every lengthwise rib (along y) and every
// crosswise rib (along x), mm from the panel's corner.
func (d Design) RibPlaces() (lengthwise, crosswise []float64) {
	tb := d.EdgeBand.Thickness
	return d.Lengthwise.places(tb, d.Width-tb), d.Crosswise.places(tb, d.Length-tb)
}

// places spaces the ribs of a set evenly between the edges lo and hi of the
// skins, or returns the listed positions.
func (r RibSet) places(lo, hi float64) []float64 {
	if len(r.Positions) > 0 {
		return r.Positions
	}
	out := make([]float64, r.Count)
	for i := range out {
		out[i] = r.place(i, lo, hi)
	}
	return out
}

// place is the middle of the i-th of the evenly spaced ribs.
func (r RibSet) place(i int, lo, hi float64) float64 {
	first, last := lo+r.Inset+r.Thickness/2, hi-r.Inset-r.Thickness/2
	if r.Count < 2 {
		return (first + last) / 2
	}
	return first + (last-first)*float64(i)/float64(r.Count-1)
}

// at is the middle of the i-th rib between the edges lo and hi of the skins.
func (r RibSet) at(i int, lo, hi float64) float64 {
	if len(r.Positions) > 0 {
		return r.Positions[i]
	}
	return r.place(i, lo, hi)
}

// number is how many ribs the set has.
func (r RibSet) number() int {
	if len(r.Positions) > 0 {
		return len(r.Positions)
	}
	return r.Count
}

// ends returns the middles of the outermost ribs without allocating.
func (r RibSet) ends(lo, hi float64) (first, last float64) {
	if n := len(r.Positions); n > 0 {
		return r.Positions[0], r.Positions[n-1]
	}
	return r.place(0, lo, hi), r.place(r.Count-1, lo, hi)
}

// SlotWidth returns how wide the slots are that ribs of a set enter, mm: their
// thickest reading, what it swells by, and the clearance.
func (d Design) SlotWidth(mates RibSet) float64 { return d.Slots.width(mates) }

func (s Slots) width(mates RibSet) float64 {
	return mates.SlotThickness()*(1+thicknessSwell*s.MoistureRise) + s.Clearance
}

// SlotDepth returns how deep every half-lap is cut: half the rib height and
// the relief, mm.
func (d Design) SlotDepth() float64 { return d.CoreDepth/2 + d.Slots.Relief }

// Parts lays out every piece of a valid design, in a fixed order: skins,
// lengthwise ribs, crosswise ribs, bands, blocks, splice plates.
func (d Design) Parts() []Part {
	m := d.materials()
	tb := d.EdgeBand.Thickness
	x0, x1, y0, y1 := tb, d.Length-tb, tb, d.Width-tb
	z1 := d.BottomSkin.Thickness
	z2 := z1 + d.CoreDepth
	z3 := z2 + d.TopSkin.Thickness
	parts := []Part{
		d.skinPart("top", "Top skin", "T", d.TopSkin, &m.top, Box{x0, x1, y0, y1, z2, z3}),
		d.skinPart("bottom", "Bottom skin", "B", d.BottomSkin, &m.bottom, Box{x0, x1, y0, y1, 0, z1}),
	}
	ys, xs := d.RibPlaces()
	for i, y := range ys {
		b := d.Lengthwise.Thickness / 2
		p := Part{ID: fmt.Sprintf("L%d", i+1), Mark: "L", Kind: LengthwisePart, Name: fmt.Sprintf("Lengthwise rib %d", i+1),
			Length: x1 - x0, Place: Box{x0, x1, y - b, y + b, z1, z2}}
		parts = append(parts, d.ribPart(p, d.Lengthwise, m.lengthwise, xs, x0, d.Crosswise, "C", !d.Slots.LengthwiseDown))
	}
	for i, x := range xs {
		b := d.Crosswise.Thickness / 2
		p := Part{ID: fmt.Sprintf("C%d", i+1), Mark: "C", Kind: CrosswisePart, Name: fmt.Sprintf("Crosswise rib %d", i+1),
			Length: y1 - y0, Place: Box{x - b, x + b, y0, y1, z1, z2}}
		parts = append(parts, d.ribPart(p, d.Crosswise, m.crosswise, ys, y0, d.Lengthwise, "L", d.Slots.LengthwiseDown))
	}
	if tb > 0 {
		parts = append(parts, d.bands(m.band, z3)...)
	}
	for _, b := range d.Blocks {
		parts = append(parts, d.block(b, xs, ys, z1, z2))
	}
	return append(parts, d.splicePlates(&m)...)
}

func (d *Design) skinPart(id, name, mark string, s Skin, m *catalog.Sheet, at Box) Part {
	p := Part{ID: id, Mark: mark, Kind: SkinPart, Name: name, Material: s.Material, Thickness: s.Thickness,
		Length: at.X1 - at.X0, Width: at.Y1 - at.Y0, Place: at, GrainAlong: !s.Across}
	return d.finish(p, m)
}

// ribPart fills in a rib with a slot at every crossing. Stations run from the
// datum end, and a slot that reaches past an end is cut off there.
func (d Design) ribPart(p Part, set RibSet, m catalog.Sheet, crossings []float64, datum float64, mates RibSet, mate string, fromTop bool) Part {
	p.Material, p.Thickness, p.Width, p.GrainAlong = set.Material, set.Thickness, d.CoreDepth, !set.Upright
	width := d.Slots.width(mates)
	for i, at := range crossings {
		lo, hi := at-datum-width/2, at-datum+width/2
		lo, hi = max(lo, 0), min(hi, p.Length)
		p.Slots = append(p.Slots, Slot{Station: (lo + hi) / 2, Width: hi - lo, Depth: d.SlotDepth(), FromTop: fromTop, Mate: fmt.Sprintf("%s%d", mate, i+1)})
	}
	return d.finish(p, &m)
}

func (d Design) bands(m catalog.Sheet, height float64) []Part {
	tb := d.EdgeBand.Thickness
	piece := func(id, name, mark string, length float64, at Box) Part {
		p := Part{ID: id, Mark: mark, Kind: BandPart, Name: name, Material: d.EdgeBand.Material, Length: length, Width: height,
			Thickness: tb, Place: at, GrainAlong: true}
		return p.weighed(m)
	}
	return []Part{
		piece("band front", "Front edge band", "F", d.Length, Box{0, d.Length, 0, tb, 0, height}),
		piece("band back", "Back edge band", "F", d.Length, Box{0, d.Length, d.Width - tb, d.Width, 0, height}),
		piece("band left", "Left edge band", "E", d.Width-2*tb, Box{0, tb, tb, d.Width - tb, 0, height}),
		piece("band right", "Right edge band", "E", d.Width-2*tb, Box{d.Length - tb, d.Length, tb, d.Width - tb, 0, height}),
	}
}

func (d Design) block(b Block, xs, ys []float64, z1, z2 float64) Part {
	m, _ := d.Material(b.Material)
	bx, by := d.Crosswise.Thickness/2, d.Lengthwise.Thickness/2
	at := Box{xs[b.Column] + bx, xs[b.Column+1] - bx, ys[b.Row] + by, ys[b.Row+1] - by, z1, z2}
	p := Part{ID: fmt.Sprintf("block %d,%d", b.Column, b.Row), Kind: BlockPart, Name: fmt.Sprintf("Block in bay %d,%d", b.Column+1, b.Row+1),
		Material: b.Material, Length: at.X1 - at.X0, Width: at.Y1 - at.Y0, Thickness: at.Z1 - at.Z0, Place: at, GrainAlong: true}
	p.Mark = fmt.Sprintf("K %.1f × %.1f %s", p.Length, p.Width, p.Material)
	return d.finish(p, &m)
}

// datum is the end from which the stations of a rib are counted.
func (p Part) datum() string {
	if p.Kind == CrosswisePart {
		return "front"
	}
	return "left"
}

// weighed fills in the net volume and the mass.
func (p Part) weighed(m catalog.Sheet) Part {
	p.Volume = p.Length * p.Width * p.Thickness
	for _, s := range p.Slots {
		p.Volume -= s.Width * s.Depth * p.Thickness
	}
	for _, g := range p.gone {
		p.Volume -= g.volume
	}
	p.Mass = p.Volume * m.Density * 1e-9
	return p
}

// centroid returns the centre of a part's net volume.
func (p Part) centroid() [3]float64 {
	b := p.Place
	gross := p.Length * p.Width * p.Thickness
	c := [3]float64{(b.X0 + b.X1) / 2, (b.Y0 + b.Y1) / 2, (b.Z0 + b.Z1) / 2}
	if len(p.Slots)+len(p.gone) == 0 {
		return c
	}
	along := 0
	datum := b.X0
	if p.Kind == CrosswisePart {
		along, datum = 1, b.Y0
	}
	sum := [3]float64{gross * c[0], gross * c[1], gross * c[2]}
	for _, s := range p.Slots {
		v := s.Width * s.Depth * p.Thickness
		at := c
		at[along] = datum + s.Station
		at[2] = b.Z0 + s.Depth/2
		if s.FromTop {
			at[2] = b.Z1 - s.Depth/2
		}
		for i := range sum {
			sum[i] -= v * at[i]
		}
	}
	for _, g := range p.gone {
		for i := range sum {
			sum[i] -= g.volume * g.at[i]
		}
	}
	for i := range sum {
		sum[i] /= p.Volume
	}
	return sum
}

// joints is the glued area of a panel, mm², and the length of rib-to-skin joint
// on one face, mm.
type joints struct {
	face   float64 // ribs to one skin
	laps   float64
	band   float64
	splice float64
	length float64
}

func (j joints) area() float64 { return 2*j.face + j.laps + j.band + j.splice }

// joints adds up what is glued: both edges of every rib, less the crossings
// counted twice; four cheeks of every lap; the inside of the bands.
func (d Design) joints() joints {
	tb := d.EdgeBand.Thickness
	nl, nc := float64(d.Lengthwise.number()), float64(d.Crosswise.number())
	bl, bc := d.Lengthwise.Thickness, d.Crosswise.Thickness
	ls, ws := d.Length-2*tb, d.Width-2*tb
	j := joints{
		face:   nl*bl*ls + nc*bc*ws - nl*nc*bl*bc,
		laps:   nl * nc * d.CoreDepth * (bl + bc),
		length: nl*ls + nc*(ws-nl*bl),
	}
	if tb > 0 {
		j.band = 2 * (ls + ws) * d.TotalDepth()
	}
	j.splice = d.spliceArea()
	return j
}

// weigh adds the parts up.
func (d Design) weigh(parts []Part) MassReport {
	r := MassReport{Pieces: d.Lengthwise.number() + d.Crosswise.number(), Laps: d.Lengthwise.number() * d.Crosswise.number()}
	// Short blocking: the lengthwise ribs stay whole and every crosswise rib
	// becomes one piece between each pair of them and, where they are set in,
	// one beyond the outermost on either side.
	gaps := d.Lengthwise.number() - 1
	ys, _ := d.RibPlaces()
	tb := d.EdgeBand.Thickness
	if ys[0]-d.Lengthwise.Thickness/2-tb > 1 {
		gaps++
	}
	if d.Width-tb-ys[len(ys)-1]-d.Lengthwise.Thickness/2 > 1 {
		gaps++
	}
	m := d.materials()
	for _, b := range d.aprons(&m) {
		r.Aprons += b.Own / Gravity
	}
	r.Blocking = d.Lengthwise.number() + d.Crosswise.number()*gaps
	for _, p := range parts {
		if len(r.ByKind) == 0 || r.ByKind[len(r.ByKind)-1].Kind != p.Kind {
			r.ByKind = append(r.ByKind, MassLine{Kind: p.Kind})
		}
		line := &r.ByKind[len(r.ByKind)-1]
		line.Count++
		line.Mass += p.Mass
		r.Parts += p.Mass
		c := p.centroid()
		for i := range c {
			r.Centre[i] += p.Mass * c[i]
		}
	}
	for i := range r.Centre {
		r.Centre[i] /= r.Parts
	}
	r.Glue = d.glueMass()
	r.Total = r.Parts + r.Glue
	top, _ := d.Material(d.TopSkin.Material)
	r.Slab = d.Length * d.Width * d.TotalDepth() * top.Density * 1e-9
	r.Share = r.Total / r.Slab
	return r
}

// glueMass returns the glue that stays in the panel, kg: the mean of the
// glue's spread on every joint, weighed wet.
func (d Design) glueMass() float64 {
	g := d.glue()
	return d.joints().area() * 1e-6 * (g.Spread.Low + g.Spread.High) / 2 * 1e-3
}

// cost adds up the material by area at the person's own prices.
func (d Design) cost(parts []Part) CostReport {
	var r CostReport
	missing := map[string]bool{}
	for _, p := range parts {
		price, ok := d.price(p.Material, p.Thickness)
		if !ok {
			if !missing[p.Material] {
				missing[p.Material] = true
				r.Missing = append(r.Missing, p.Material)
			}
			continue
		}
		r.Total += p.Length * p.Width * price.Sheet / (price.Length * price.Width)
	}
	return r
}

// price finds the price of a material within 0.05 mm of a thickness: that of
// the design's prices, else of the first sheet of its stock that has one.
func (d Design) price(material string, thickness float64) (Price, bool) {
	for _, p := range d.Prices {
		if p.Material == material && math.Abs(p.Thickness-thickness) < sheetTolerance && p.Sheet > 0 {
			return p, true
		}
	}
	for _, s := range d.Stock {
		if s.same(material, thickness) && s.Price > 0 && !s.Offcut {
			return Price{s.Material, s.Thickness, s.Price, s.Length, s.Width}, true
		}
	}
	return Price{}, false
}
