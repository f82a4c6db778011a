package engine

import (
	"fmt"
	"math"

	"flatwright/engine/catalog"
)

// Splice is a joint in a rib or an edge band that is longer than the sheet it
// is cut from: a scarf through its thickness, 1 in 8, or a butt joint under a
// plate on either cheek. Both lengths are those of [spliceWidth] and
// [scarfSlope].
type Splice struct {
	Part   string  `json:"part"`             // "L2", "C1", "band front"
	At     float64 `json:"at"`               // of its middle, from the panel's left end or front edge, mm
	Plates bool    `json:"plates,omitempty"` // of ribs: plates on both cheeks instead of a scarf
}

// Room that rib plates leave above and below them, so that they never hold a
// skin off its rib, and the least strip of plate worth gluing in, mm. Common
// practice, no source.
const (
	plateClear = 1.0
	leastPlate = 20.0
)

// SplicePartID returns the part ID under which a splice of a rib or a band is drawn.
func SplicePartID(splice int) string { return fmt.Sprintf("splice %d", splice+1) }

// stick is a rib or a band as a splice sees it.
type stick struct {
	thickness, lo, hi float64 // mm; its ends along it
	along             bool    // runs along the length
	rib               bool
}

// stick returns the rib or band with that part ID.
func (d *Design) stick(part string) (stick, bool) {
	tb := d.EdgeBand.Thickness
	if along, n, ok := RibOfPart(part); ok {
		set, far := d.Crosswise, d.Width
		if along {
			set, far = d.Lengthwise, d.Length
		}
		return stick{set.Thickness, tb, far - tb, along, true}, n < set.number()
	}
	switch part {
	case "band front", "band back":
		return stick{tb, 0, d.Length, true, false}, tb > 0
	case "band left", "band right":
		return stick{tb, tb, d.Width - tb, false, false}, tb > 0
	}
	return stick{}, false
}

// reach is how much of the rib or band a splice takes, mm.
func (s Splice) reach(k stick) float64 {
	if s.Plates && k.rib {
		return spliceWidth * k.thickness
	}
	return scarfSlope * k.thickness
}

// splicesOf are the splices of one part, from its datum end.
func (d *Design) splicesOf(part string) []Splice {
	var out []Splice
	for _, s := range d.Splices {
		if s.Part == part {
			i := len(out)
			for i > 0 && out[i-1].At > s.At {
				i--
			}
			out = append(out[:i], append([]Splice{s}, out[i:]...)...)
		}
	}
	return out
}

// Scarfed reports whether a spliced seam is scarfed: where the person says so,
// and over a rib, where there is no room for a plate.
func (d Design) Scarfed(s Seam) bool {
	if !s.Spliced {
		return false
	}
	_, _, over := s.overRib(&d)
	return s.Scarf || over
}

// between returns the clear gap around a place between the faces of the ribs of
// a set and the edges lo and hi of the skins.
func (r RibSet) between(at, lo, hi float64) (from, to float64) {
	from, to = lo, hi
	for i := range r.number() {
		m := r.at(i, lo, hi)
		if face := m + r.Thickness/2; m <= at {
			from = math.Max(from, face)
		}
		if face := m - r.Thickness/2; m > at {
			to = math.Min(to, face)
		}
	}
	return from, to
}

// plateReach returns from where to where the splice plate of a seam reaches
// across it: 25 thicknesses of the skin, less where ribs stand closer.
func (d *Design) plateReach(s Seam) (from, to float64) {
	tb := d.EdgeBand.Thickness
	far := d.Length
	if s.Along {
		far = d.Width
	}
	half := spliceWidth / 2 * s.skin(d).Thickness
	from, to = d.ribsBeside(s).between(s.At, tb, far-tb)
	return math.Max(from, s.At-half), math.Min(to, s.At+half)
}

// seamPlates are the splice plates of a seam, one in every gap between the ribs
// that cross it; a block that fills the gap does their work.
func (d *Design) seamPlates(n int) []Box {
	s := d.Seams[n]
	if !s.Spliced || d.builtOpen(n) || d.Scarfed(s) {
		return nil
	}
	from, to := d.plateReach(s)
	t := s.skin(d).Thickness
	z := d.BottomSkin.Thickness
	if s.Skin == TopSeam {
		z += d.CoreDepth - t
	}
	tb := d.EdgeBand.Thickness
	crossing, lo, hi := d.Lengthwise, tb, d.Width-tb
	if s.Along {
		crossing, hi = d.Crosswise, d.Length-tb
	}
	ys, xs := d.RibPlaces()
	var out []Box
	edge := lo
	for i := range crossing.number() + 1 {
		end, next := hi, hi
		if i < crossing.number() {
			m := crossing.at(i, lo, hi)
			end, next = m-crossing.Thickness/2, m+crossing.Thickness/2
		}
		b := Box{from, to, edge, end, z, z + t}
		if s.Along {
			b.X0, b.X1, b.Y0, b.Y1 = edge, end, from, to
		}
		if c := b.centre(); end-edge >= leastPlate && !d.filled(c[0], c[1], xs, ys) {
			out = append(out, b)
		}
		edge = next
	}
	return out
}

// filled reports whether a block fills the bay around a place.
func (d *Design) filled(x, y float64, xs, ys []float64) bool {
	for _, b := range d.Blocks {
		if x > xs[b.Column] && x < xs[b.Column+1] && y > ys[b.Row] && y < ys[b.Row+1] {
			return true
		}
	}
	return false
}

// ribPlates are the plates on the cheeks of a spliced rib; a cheek that ends the
// panel has none.
func (d *Design) ribPlates(s Splice) []Box {
	along, n, ok := RibOfPart(s.Part)
	if !ok || !s.Plates {
		return nil
	}
	tb := d.EdgeBand.Thickness
	set, mates, far, end := d.Lengthwise, d.Crosswise, d.Width, d.Length
	if !along {
		set, mates, far, end = d.Crosswise, d.Lengthwise, d.Length, d.Width
	}
	b := set.Thickness
	half := spliceWidth / 2 * b
	from, to := mates.between(s.At, tb, end-tb)
	from, to = math.Max(from, s.At-half), math.Min(to, s.At+half)
	z := d.BottomSkin.Thickness
	var out []Box
	for _, side := range [...]float64{-1, 1} {
		m := set.at(n, tb, far-tb) + side*b
		if m-b/2 < tb-nearly || m+b/2 > far-tb+nearly {
			continue
		}
		p := Box{from, to, m - b/2, m + b/2, z + plateClear, z + d.CoreDepth - plateClear}
		if !along {
			p.X0, p.X1, p.Y0, p.Y1 = p.Y0, p.Y1, p.X0, p.X1
		}
		out = append(out, p)
	}
	return out
}

// splicePlates lays out every splice plate: those of the seams, cut like the
// skin that they hold together, then those of the ribs.
func (d *Design) splicePlates(m *materials) []Part {
	var out []Part
	for i, s := range d.Seams {
		skin, sheet := d.BottomSkin, &m.bottom
		if s.Skin == TopSeam {
			skin, sheet = d.TopSkin, &m.top
		}
		for k, b := range d.seamPlates(i) {
			p := Part{ID: fmt.Sprintf("%s plate %d", SeamPart(i), k+1), Mark: "S", Kind: SplicePart, Name: fmt.Sprintf("Splice plate %d of seam %d", k+1, i+1),
				Material: skin.Material, Length: b.X1 - b.X0, Width: b.Y1 - b.Y0, Thickness: b.Z1 - b.Z0, Place: b, GrainAlong: !skin.Across}
			out = append(out, d.finish(p, sheet))
		}
	}
	for i, s := range d.Splices {
		along, _, _ := RibOfPart(s.Part)
		set, sheet := d.Crosswise, &m.crosswise
		if along {
			set, sheet = d.Lengthwise, &m.lengthwise
		}
		for k, b := range d.ribPlates(s) {
			p := Part{ID: fmt.Sprintf("%s plate %d", SplicePartID(i), k+1), Mark: "S", Kind: SplicePart, Name: fmt.Sprintf("Splice plate %d of rib %s", k+1, s.Part),
				Material: set.Material, Length: b.X1 - b.X0, Width: b.Z1 - b.Z0, Thickness: set.Thickness, Place: b, GrainAlong: !set.Upright}
			if !along {
				p.Length = b.Y1 - b.Y0
			}
			out = append(out, d.finish(p, sheet))
		}
	}
	return out
}

// finish weighs a part with its holes and grooves.
func (d *Design) finish(p Part, m *catalog.Sheet) Part {
	p.gone = d.removedFrom(&p)
	return p.weighed(*m)
}

// spliceArea is the glued area of scarfs and splice plates, mm².
func (d *Design) spliceArea() float64 {
	if len(d.Seams)+len(d.Splices) == 0 {
		return 0
	}
	tb := d.EdgeBand.Thickness
	sum := 0.0
	for i, s := range d.Seams {
		across := d.Width - 2*tb
		if s.Along {
			across = d.Length - 2*tb
		}
		if d.Scarfed(s) && !d.builtOpen(i) {
			sum += across * scarfSlope * s.skin(d).Thickness
		}
		for _, b := range d.seamPlates(i) {
			sum += (b.X1 - b.X0) * (b.Y1 - b.Y0)
		}
	}
	for _, s := range d.Splices {
		k, ok := d.stick(s.Part)
		if ok && !(s.Plates && k.rib) {
			height := d.TotalDepth()
			if k.rib {
				height = d.CoreDepth
			}
			sum += scarfSlope * k.thickness * height
		}
		for _, b := range d.ribPlates(s) {
			sum += math.Max(b.X1-b.X0, b.Y1-b.Y0) * (b.Z1 - b.Z0)
		}
	}
	return sum
}
