package engine

import "math"

// This is the one place that says what holes and grooves leave of a section; the
// closed form and the whole panel both ask it, and count a hole where it is.

// leastLeft keeps the share of a section that is left from coming to nothing,
// which the checks of holes refuse anyway.
const leastLeft = 0.02

// bore is one hole in plan, with the distance to its neighbours in a row that runs
// along x or along y; 0 is no such row.
type bore struct {
	x, y, d      float64
	row          int // number of its entry in [Design.Holes]
	stepX, stepY float64
}

// skinLoss is what holes and grooves take out of a skin.
type skinLoss struct {
	bores    []bore
	channels []Box
}

// loss returns that of a skin.
func (d *Design) loss(skin string) *skinLoss {
	out := &skinLoss{channels: d.grooves(skin)}
	for n, h := range d.Holes {
		if !h.in(skin) {
			continue
		}
		b := bore{d: h.Diameter, row: n}
		if h.number() > 1 && h.StepY == 0 {
			b.stepX = math.Abs(h.StepX)
		}
		if h.number() > 1 && h.StepX == 0 {
			b.stepY = math.Abs(h.StepY)
		}
		for i := range h.number() {
			b.x, b.y = h.place(i)
			out.bores = append(out.bores, b)
		}
	}
	return out
}

// in returns where the hole lies along a way and across it, and the distance to its
// neighbours across it.
func (b bore) in(along bool) (u, v, step float64) {
	if along {
		return b.x, b.y, b.stepY
	}
	return b.y, b.x, b.stepX
}

// strip is a piece of skin that runs along the way in which it is pulled, from lo to
// hi across it: its width is what holes and grooves narrow.
type strip struct{ lo, hi float64 }

// net returns which share of a strip of skin of thickness t is left in the
// section across it at u along the way.
func (c *skinLoss) net(s strip, along bool, u, t float64) float64 {
	return math.Max(leastLeft, 1-c.taken(s, along, u, t)/(s.hi-s.lo))
}

// taken is the width that holes and grooves take out of a strip in the section at
// u, a groove in proportion to its depth.
func (c *skinLoss) taken(s strip, along bool, u, t float64) float64 {
	sum := 0.0
	overlap := func(lo, hi float64) float64 { return math.Max(0, math.Min(hi, s.hi)-math.Max(lo, s.lo)) }
	for _, b := range c.bores {
		x, y, _ := b.in(along)
		if off, r := math.Abs(x-u), b.d/2; off < r {
			half := math.Sqrt(r*r - off*off)
			sum += overlap(y-half, y+half)
		}
	}
	for _, g := range c.channels {
		x0, x1, y0, y1 := g.X0, g.X1, g.Y0, g.Y1
		if !along {
			x0, x1, y0, y1 = y0, y1, x0, x1
		}
		if u > x0 && u < x1 {
			sum += overlap(y0, y1) * (g.Z1 - g.Z0) / t
		}
	}
	return sum
}

// strips are those between all ribs that run along the way.
func (d *Design) strips(along bool) []strip {
	tb := d.EdgeBand.Thickness
	set, far := d.Lengthwise, d.Width-tb
	if !along {
		set, far = d.Crosswise, d.Length-tb
	}
	var out []strip
	edge := tb
	for i := range set.number() + 1 {
		end, next := far, far
		if i < set.number() {
			m := set.at(i, tb, far)
			end, next = m-set.Thickness/2, m+set.Thickness/2
		}
		if end-edge > nearly {
			out = append(out, strip{edge, end})
		}
		edge = next
	}
	return out
}

// beside are the strips in which a hole is checked for a pull along the way: the one
// between two ribs in which its middle lies, or half a pitch to either side where
// that is over a rib; and in a row across the way the one that is its own.
func (d *Design) beside(b bore, along bool, strips []strip) []strip {
	_, v, step := b.in(along)
	pitch := d.Width / float64(d.Lengthwise.number())
	if !along {
		pitch = d.Length / float64(d.Crosswise.number())
	}
	out := []strip{{v - pitch/2, v + pitch/2}}
	for _, s := range strips {
		if v >= s.lo && v <= s.hi {
			out[0] = s
		}
	}
	if own := (strip{v - step/2, v + step/2}); step > 0 && step < out[0].hi-out[0].lo {
		out = append(out, own)
	}
	return out
}

// ribCut is what a hole leaves of a rib in the section through its middle, mm.
type ribCut struct {
	d     float64 // diameter
	left  float64 // of the height, above and below together
	chord float64 // the lower of what is left above and what is left below
}

// ribCut returns what a hole through a rib of a height leaves where it is.
func (h Hole) ribCut(height float64) ribCut {
	return ribCut{h.Diameter, math.Max(leastLeft*height, height-h.Diameter),
		math.Max(leastLeft*height, math.Min(h.Up, height-h.Up)-h.Diameter/2)}
}

// cutPlaces are the places along a way where holes, grooves and splices are
// checked by the closed form, beside its stations.
func (d *Design) cutPlaces(along bool) []float64 {
	var out []float64
	pick := func(x, y float64) {
		if !along {
			x = y
		}
		out = append(out, x)
	}
	for _, h := range d.Holes {
		for i := range h.number() {
			pick(h.place(i))
		}
	}
	for _, g := range d.Grooves {
		b := d.grooveBox(g)
		pick((b.X0+b.X1)/2, (b.Y0+b.Y1)/2)
	}
	for _, s := range d.Splices {
		if a, _, ok := RibOfPart(s.Part); ok && a == along {
			out = append(out, s.At)
		}
	}
	return out
}
