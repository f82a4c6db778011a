package engine

import (
	"fmt"
	"math"
	"strings"

	"flatwright/engine/plate"
)

// looseRibs is the stretches of ribs that are not glued, as the whole-panel
// model has them.
func (d *Design) looseRibs() []plate.Loose {
	var out []plate.Loose
	for _, b := range d.Built {
		if along, n, ok := RibOfPart(b.Part); ok && b.Kind == RibUnglued {
			out = append(out, plate.Loose{Along: along, Rib: n, From: b.From, To: b.To, Top: b.Side != BottomSeam, Bottom: b.Side != TopSeam})
		}
	}
	return out
}

// unglued reports to which skins a rib is not glued at a place along it.
func (d *Design) unglued(part string, at float64) (top, bottom bool) {
	for _, b := range d.Built {
		if b.Kind == RibUnglued && b.Part == part && at > b.From && at < b.To {
			top, bottom = top || b.Side != BottomSeam, bottom || b.Side != TopSeam
		}
	}
	return top, bottom
}

// everywhere reports whether all slots of a rib are in the wrong edge.
func (b Built) everywhere() bool { return b.From == 0 && b.To == 0 }

// wrong reports whether the slot of a rib at a place along it is in the wrong edge.
func (b Built) wrong(at float64) bool { return b.everywhere() || at >= b.From && at <= b.To }

// severed is what a rib keeps of its stiffness where it is cut off: so little that a
// slot's width of it is soft against any skin.
const severed = 1e-4

// cutOff is where ribs with slots in the wrong edge are cut off, as the whole-panel
// model has it. Mechanics: the mate is slotted from that same edge, so that both ribs
// have their wood on one side and neither goes down onto the other until the right slot
// is cut as well. The two slots are more than half of the height each: nothing is left of
// the rib there, and the skins alone, held apart by the mate, hand on what it carried. A
// piece glued into the wrong slot joins end grain, which passes pressure and next to no
// pull, so it counts for nothing whichever edge is pulled. If the mate is cut instead,
// the mark belongs to the mate.
func (d *Design) cutOff() []plate.Splice {
	var out []plate.Splice
	ys, xs := d.RibPlaces()
	for _, b := range d.Built {
		along, n, ok := RibOfPart(b.Part)
		if !ok || b.Kind != WrongEdge {
			continue
		}
		mates, half := ys, d.Lengthwise.Thickness/2
		if along {
			mates, half = xs, d.Crosswise.Thickness/2
		}
		for _, at := range mates {
			if b.wrong(at) {
				out = append(out, plate.Splice{Along: along, Rib: n, From: at - half, To: at + half, Direct: severed, Shear: severed})
			}
		}
	}
	return out
}

// slid is by how much a skin lies away from its place, mm; what is marked last holds.
func (d *Design) slid(skin string) (x, y float64) {
	for _, b := range d.Built {
		if b.Kind == SkinSlid && b.Part == skin {
			x, y = b.X, b.Y
		}
	}
	return x, y
}

// slidWords tells a slide in words.
func slidWords(x, y float64, print func(float64) string) string {
	var out []string
	add := func(v float64, positive, negative string) {
		if v > 0 {
			out = append(out, print(v)+" to the "+positive)
		} else if v < 0 {
			out = append(out, print(-v)+" to the "+negative)
		}
	}
	add(x, "right", "left")
	add(y, "back", "front")
	if out == nil {
		return "nowhere"
	}
	return strings.Join(out, " and ")
}

// leastContact is the width of glue line from which on it counts, mm; common
// practice, no source.
const leastContact = 2.0

// lack is a stretch from one edge inwards in which a skin that slid lacks, wholly or
// over a rib in part.
type lack struct {
	from, to float64 // mm, in the panel's axes
	share    float64 // of the skin that is there
}

// lacks is where a skin that slid by that much along an axis lacks, between lo and hi,
// on ribs of thickness b at places: at the edge that it slid away from, outside the rim
// rib, over the part of the rim rib that is bare, and beyond where it slid farther. What
// stands over at the other edge is trimmed or left and carries nothing.
func lacks(slid, lo, hi float64, places []float64, b float64) []lack {
	if math.Abs(slid) < nearly || len(places) < 2 {
		return nil
	}
	n := len(places)
	rim, sign, edge := places[0], 1.0, lo
	if slid < 0 {
		rim, sign, edge = places[n-1], -1.0, hi
	}
	far := math.Abs(slid)
	outer, inner := math.Max(0, sign*(rim-edge)-b/2), sign*(rim-edge)+b/2
	var out []lack
	add := func(from, to, share float64) {
		if to-from > nearly {
			from, to = edge+sign*from, edge+sign*to
			out = append(out, lack{math.Min(from, to), math.Max(from, to), share})
		}
	}
	add(0, math.Min(far, outer), 0)
	if far <= outer {
		return out
	}
	if inner-far >= leastContact {
		add(outer, inner, (inner-far)/(inner-outer))
		return out
	}
	add(outer, math.Max(inner, far), 0)
	return out
}

// skinLacks is where a skin lacks along x and along y.
func (d *Design) skinLacks(skin string) (alongX, alongY []lack) {
	x, y := d.slid(skin)
	if x == 0 && y == 0 {
		return nil, nil
	}
	tb := d.EdgeBand.Thickness
	ys, xs := d.RibPlaces()
	return lacks(x, tb, d.Length-tb, xs, d.Crosswise.Thickness), lacks(y, tb, d.Width-tb, ys, d.Lengthwise.Thickness)
}

// bare is what the skins that slid leave bare, as the whole-panel model has it.
func (d *Design) bare(p *plate.Panel) []plate.Bare {
	var out []plate.Bare
	for _, skin := range [...]string{TopSeam, BottomSeam} {
		alongX, alongY := d.skinLacks(skin)
		for _, l := range alongX {
			out = append(out, plate.Bare{Top: skin == TopSeam, X0: l.from, X1: l.to, Y0: p.Y0, Y1: p.Y1, Share: l.share})
		}
		for _, l := range alongY {
			out = append(out, plate.Bare{Top: skin == TopSeam, X0: p.X0, X1: p.X1, Y0: l.from, Y1: l.to, Share: l.share})
		}
	}
	return out
}

// absent reports whether a skin is not there at a place.
func (d *Design) absent(skin string, x, y float64) bool {
	alongX, alongY := d.skinLacks(skin)
	within := func(ls []lack, at float64) bool {
		for _, l := range ls {
			if l.share == 0 && at > l.from && at < l.to {
				return true
			}
		}
		return false
	}
	return within(alongX, x) || within(alongY, y)
}

// goneCells tells which cells of a skin lie where it slid away; nil is none of them.
func (d *Design) goneCells(skin string, cells []plate.SkinStress) []bool {
	if x, y := d.slid(skin); x == 0 && y == 0 {
		return nil
	}
	out := make([]bool, len(cells))
	for i := range cells {
		out[i] = d.absent(skin, cells[i].X, cells[i].Y)
	}
	return out
}

// contact is how wide the glue lines of a rib to the top and to the bottom skin are, mm:
// its thickness, but for a rim rib whose skin slid away over a part of it.
func (d *Design) contact(along bool, at, b float64) [2]float64 {
	out := [2]float64{b, b}
	for side, skin := range [...]string{TopSeam, BottomSeam} {
		alongX, alongY := d.skinLacks(skin)
		ls := alongX
		if along {
			ls = alongY
		}
		for _, l := range ls {
			if l.share > 0 && at > l.from && at < l.to {
				out[side] = b * l.share
			}
		}
	}
	return out
}

// markLines is the grid lines along x and along y that marks bring into the mesh.
func (d *Design) markLines() (cuts [2][]float64) {
	for _, b := range d.Built {
		if along, _, ok := RibOfPart(b.Part); ok && b.Kind == RibUnglued {
			way := 1
			if along {
				way = 0
			}
			cuts[way] = append(cuts[way], b.From, b.To)
		}
	}
	made := d.measured()
	for i, s := range made.Seams {
		if s != d.Seams[i] && (!s.Spliced || d.builtOpen(i)) {
			way := 0
			if s.Along {
				way = 1
			}
			cuts[way] = append(cuts[way], s.At-plate.SeamWidth/2, s.At+plate.SeamWidth/2)
		}
	}
	for _, skin := range [...]string{TopSeam, BottomSeam} {
		alongX, alongY := d.skinLacks(skin)
		for way, ls := range [2][]lack{alongX, alongY} {
			for _, l := range ls {
				cuts[way] = append(cuts[way], l.from, l.to)
			}
		}
	}
	return cuts
}

// measured returns the design in the thicknesses as measured, with the seams of skins
// that slid where they came to lie; what is marked last holds. Slots stay as they were
// cut.
func (d *Design) measured() Design {
	e := d.Clone()
	for _, b := range d.Built {
		if t := e.thickness(b.Part); b.Kind == ThicknessMeasured && t != nil {
			for _, set := range [...]*RibSet{&e.Lengthwise, &e.Crosswise} {
				if t == &set.Thickness {
					set.Thickest = set.SlotThickness()
				}
			}
			*t = b.Value
		}
	}
	tb := d.EdgeBand.Thickness
	for i := range e.Seams {
		s := &e.Seams[i]
		by, extent := d.slidAcross(*s)
		if by != 0 {
			s.At = math.Min(math.Max(s.At+by, tb+minStrip/2), extent-tb-minStrip/2)
		}
	}
	return e
}

// slidAcross is by how much the skin of a seam slid across it, and how far the panel
// reaches that way.
func (d *Design) slidAcross(s Seam) (by, extent float64) {
	x, y := d.slid(s.Skin)
	if s.Along {
		return y, d.Width
	}
	return x, d.Length
}

// lackText says how wide a strip lacks and how much of the rim rib's glue line is left.
func (d *Design) lackText(b Built) string {
	ys, xs := d.RibPlaces()
	var out []string
	tell := func(slid float64, places []float64, along bool, set RibSet, minus, plus string) {
		if slid == 0 {
			return
		}
		n, edge := 0, minus
		if slid < 0 {
			n, edge = len(places)-1, plus
		}
		c := d.contact(along, places[n], set.Thickness)[map[string]int{TopSeam: 0, BottomSeam: 1}[b.Part]]
		if x, y := places[n], d.Width/2; !along && d.absent(b.Part, x, y) {
			c = 0
		}
		if x, y := d.Length/2, places[n]; along && d.absent(b.Part, x, y) {
			c = 0
		}
		text := fmt.Sprintf("at the %s it lacks %s", edge, inMM(math.Abs(slid)))
		if rib := RibPart(along, n); c == 0 {
			text += fmt.Sprintf(", and rib %s there is not glued to it", rib)
		} else if c < set.Thickness {
			text += fmt.Sprintf(", and of the %s of rib %s there %s are glued to it", inMM(set.Thickness), rib, inMM(c))
		}
		out = append(out, text)
	}
	tell(b.X, xs, false, d.Crosswise, "left end", "right end")
	tell(b.Y, ys, true, d.Lengthwise, "front edge", "back edge")
	return strings.Join(out, "; ")
}
