package engine

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// stretch is one of the pieces that a part is cut into along an axis: from
// middle to middle of its joints, with how far a scarf reaches beyond either.
type stretch struct {
	from, to    float64
	first, last float64 // half the scarf at either end, 0 is a butt or an outer end
	joints      [2]string
}

// blank returns where the uncut piece begins and ends.
func (s stretch) blank() (from, to float64) { return s.from - s.first, s.to + s.last }

// share integrates over a..b how much of the full thickness the stretch has: 1
// within, falling to 0 over its scarfs.
func (s stretch) share(a, b float64) float64 {
	// Of a ramp from 0 at −h to 1 at h the integral from −∞ is (v+h)²/4h.
	ramp := func(v, h float64) float64 {
		switch {
		case v <= -h:
			return 0
		case v >= h:
			return v
		}
		return (v + h) * (v + h) / (4 * h)
	}
	up := ramp(b-s.from, s.first) - ramp(a-s.from, s.first)
	down := ramp(b-s.to, s.last) - ramp(a-s.to, s.last)
	return up - down
}

// cutAt is a joint across an axis: half is half its scarf, 0 of a butt joint.
type cutAt struct {
	at, half float64
	name     string
}

// stretches cuts lo to hi at the joints, which stand in order.
func stretches(lo, hi float64, cuts []cutAt) []stretch {
	s := stretch{from: lo}
	var out []stretch
	for _, c := range cuts {
		s.to, s.last, s.joints[1] = c.at, c.half, c.name
		out = append(out, s)
		s = stretch{from: c.at, first: c.half, joints: [2]string{c.name, ""}}
	}
	s.to = hi
	return append(out, s)
}

// skinCuts are the joints of a skin across the length, or along it, in order.
func (d *Design) skinCuts(skin string, along bool) []cutAt {
	var out []cutAt
	for n, s := range d.Seams {
		if s.Skin != skin || s.Along != along {
			continue
		}
		c := cutAt{at: s.At, name: SeamPart(n)}
		if d.Scarfed(s) {
			c.half = scarfSlope / 2 * s.skin(d).Thickness
		}
		i := len(out)
		for i > 0 && out[i-1].at > c.at {
			i--
		}
		out = append(out[:i], append([]cutAt{c}, out[i:]...)...)
	}
	return out
}

// skinPieces cuts a skin at its seams.
func (d *Design) skinPieces(p Part) []Piece {
	xs := stretches(p.Place.X0, p.Place.X1, d.skinCuts(p.ID, false))
	ys := stretches(p.Place.Y0, p.Place.Y1, d.skinCuts(p.ID, true))
	var out []Piece
	for j, sy := range ys {
		for i, sx := range xs {
			q := d.like(p)
			if n := len(xs) * len(ys); n > 1 {
				q.ID, q.Name = fmt.Sprintf("%s/%d", p.ID, j*len(xs)+i+1), fmt.Sprintf("%s, piece %d of %d", p.Name, j*len(xs)+i+1, n)
			}
			q.Place.X0, q.Place.X1, q.Place.Y0, q.Place.Y1 = sx.from, sx.to, sy.from, sy.to
			at := q.Place
			at.X0, at.X1 = sx.blank()
			at.Y0, at.Y1 = sy.blank()
			q.Length, q.Width = at.X1-at.X0, at.Y1-at.Y0
			q.Outline = rect(0, 0, q.Length, q.Width)
			q.Holes = d.drilled(&p, at)
			q.Grooves = d.channels(p.ID, at)
			q.Volume = sx.share(at.X0, at.X1) * sy.share(at.Y0, at.Y1) * p.Thickness
			for _, g := range p.gone {
				q.Volume -= g.volume * sx.mean(g.from.X0, g.from.X1) * sy.mean(g.from.Y0, g.from.Y1)
			}
			q.Scarfs = append(scarfs(sx, "left", "right"), scarfs(sy, "lower", "upper")...)
			q.Edges = d.skinEdges(sx, sy)
			out = append(out, q)
		}
	}
	return out
}

// mean is the mean share over a..b.
func (s stretch) mean(a, b float64) float64 { return s.share(a, b) / (b - a) }

// scarfs are those at both ends of a stretch: the piece before the joint is
// planed on the face that is drawn, the one after it on the other.
func scarfs(s stretch, first, last string) []Scarf {
	var out []Scarf
	if s.first > 0 {
		out = append(out, Scarf{first, 2 * s.first, "back"})
	}
	if s.last > 0 {
		out = append(out, Scarf{last, 2 * s.last, "front"})
	}
	return out
}

// channels are the grooves of a skin in one of its pieces.
func (d *Design) channels(skin string, at Box) []PieceGroove {
	var out []PieceGroove
	for n, g := range d.Grooves {
		b := d.grooveBox(g).meet(Box{at.X0, at.X1, at.Y0, at.Y1, 0, d.TotalDepth()})
		if g.Skin == skin && b.volume() > 0 {
			out = append(out, PieceGroove{b.X0 - at.X0, b.X1 - at.X0, b.Y0 - at.Y0, b.Y1 - at.Y0, g.Depth, skin == BottomSeam, n})
		}
	}
	return out
}

// skinEdges says what is at the four sides of a piece of a skin.
func (d *Design) skinEdges(sx, sy stretch) []string {
	outer := "trimmed flush with the ribs after gluing"
	if d.EdgeBand.Thickness > 0 {
		outer = "trimmed flush, then the edge band is glued on"
	}
	var sides, texts []string
	for _, side := range [...]struct{ name, joint string }{{"left", sx.joints[0]}, {"right", sx.joints[1]}, {"front", sy.joints[0]}, {"back", sy.joints[1]}} {
		text := outer
		if n, ok := SeamOfPart(side.joint); ok {
			text = d.seamWords(n)
		}
		sides, texts = append(sides, side.name), append(texts, text)
	}
	return gathered(sides, texts, "edge", "All edges")
}

// gathered makes sentences of what is at each side, one for all that are alike.
func gathered(sides, texts []string, what, all string) []string {
	var out []string
	for i, text := range texts {
		if slices.Index(texts, text) < i {
			continue
		}
		var here []string
		for k := range texts {
			if texts[k] == text {
				here = append(here, sides[k])
			}
		}
		name := strings.Join(here, " and ") + " " + what
		switch n := len(here); {
		case n == len(texts):
			name = all
		case n > 1:
			name = strings.Join(here[:n-1], ", ") + " and " + here[n-1] + " " + what + "s"
		}
		out = append(out, strings.ToUpper(name[:1])+name[1:]+": "+text+".")
	}
	return out
}

// seamWords says how the sheets meet at a seam.
func (d *Design) seamWords(n int) string {
	s := d.Seams[n]
	part, _, over := s.overRib(d)
	switch {
	case d.Scarfed(s):
		return fmt.Sprintf("scarfed 1 in %g over %s at seam %d", scarfSlope, inMM(scarfSlope*s.skin(d).Thickness), n+1)
	case s.Spliced:
		return fmt.Sprintf("cut straight; butts at seam %d on a splice plate", n+1)
	case over:
		return fmt.Sprintf("cut straight; butts at seam %d on rib %s", n+1, part)
	}
	return fmt.Sprintf("cut straight; butts at seam %d", n+1)
}

// stickPieces cuts a rib or an edge band at its splices.
func (d *Design) stickPieces(p Part) []Piece {
	lo := p.Place.X0
	k, _ := d.stick(p.ID)
	if !k.along {
		lo = p.Place.Y0
	}
	var cuts []cutAt
	for _, s := range d.splicesOf(p.ID) {
		c := cutAt{at: s.At - lo, name: fmt.Sprintf("a scarf 1 in %g", scarfSlope), half: scarfSlope / 2 * k.thickness}
		if s.Plates && k.rib {
			c.half, c.name = 0, "splice plates"
		}
		cuts = append(cuts, c)
	}
	all := stretches(0, p.Length, cuts)
	var out []Piece
	for i, s := range all {
		q := d.like(p)
		if len(all) > 1 {
			q.ID, q.Name = fmt.Sprintf("%s/%d", p.ID, i+1), fmt.Sprintf("%s, piece %d of %d", p.Name, i+1, len(all))
		}
		if k.along {
			q.Place.X0, q.Place.X1 = lo+s.from, lo+s.to
		} else {
			q.Place.Y0, q.Place.Y1 = lo+s.from, lo+s.to
		}
		d.shapeStick(&q, p, s)
		out = append(out, q)
	}
	return out
}

// shapeStick cuts slots and holes of a rib into one of its pieces.
func (d *Design) shapeStick(q *Piece, p Part, s stretch) {
	from, to := s.blank()
	q.Length = to - from
	q.Volume = s.share(from, to) * p.Width * p.Thickness
	for _, slot := range p.Slots {
		lo, hi := math.Max(slot.Station-slot.Width/2, from), math.Min(slot.Station+slot.Width/2, to)
		if hi <= lo {
			continue
		}
		q.Volume -= s.share(lo, hi) * slot.Depth * p.Thickness
		slot.Station, slot.Width = (lo+hi)/2-from, hi-lo
		q.Slots = append(q.Slots, slot)
	}
	along, _, _ := RibOfPart(p.ID)
	for n, h := range d.Holes {
		for i := range h.number() {
			at, y := h.place(i)
			at -= p.Place.X0
			if !along {
				at = y - p.Place.Y0
			}
			if h.Part == p.ID && at+h.Diameter/2 > from && at-h.Diameter/2 < to {
				q.Holes = append(q.Holes, PieceHole{at - from, h.Up, h.Diameter, n})
			}
		}
	}
	for _, g := range p.gone {
		a, b := g.from.X0-p.Place.X0, g.from.X1-p.Place.X0
		if !along {
			a, b = g.from.Y0-p.Place.Y0, g.from.Y1-p.Place.Y0
		}
		q.Volume -= g.volume * s.mean(a, b)
	}
	q.Outline = ribOutline(Part{Length: q.Length, Width: p.Width, Slots: q.Slots})
	q.Scarfs = scarfs(s, "left", "right")
	q.Edges = stickEdges(s, q.AlongX, p.Kind == BandPart)
}

// stickEdges says what is at both ends of a piece of a rib or a band.
func stickEdges(s stretch, along, band bool) []string {
	ends, far := []string{"left", "right"}, [...]float64{s.first, s.last}
	if !along {
		ends = []string{"front", "back"}
	}
	var texts []string
	for i, joint := range s.joints {
		switch {
		case joint == "splice plates":
			texts = append(texts, "cut square, it butts under splice plates")
		case joint != "":
			texts = append(texts, fmt.Sprintf("%s over %s", joint, inMM(2*far[i])))
		case band:
			texts = append(texts, "cut square")
		default:
			texts = append(texts, "square and to length, flush with the skins")
		}
	}
	return gathered(ends, texts, "end", "Both ends")
}
