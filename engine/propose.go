package engine

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"flatwright/engine/plate"
)

// openShare is the most that an open seam may add to the sag before the program
// proposes a splice instead. Common practice, no source.
const openShare = 0.02

// pressedShare weighs a pressed joint against a pulled one: a scarf in
// compression may be 1 in 5, one in tension 1 in 8 (EWPAA Structural Plywood and
// LVL Design Manual, ch. 11).
const pressedShare = 5.0 / 8

// candidate is a place where a joint may lie: half is half of a scarf there.
type candidate struct {
	at, half, cost float64
}

// cutBest picks the joints that leave pieces of lo..hi no longer than most, the
// fewest of them, then the cheapest. ok is false where none do.
func cutBest(lo, hi, most, least float64, all []candidate) (picked []candidate, ok bool) {
	slices.SortFunc(all, func(a, b candidate) int {
		if a.at < b.at {
			return -1
		}
		return 1
	})
	ends := append(append([]candidate{{at: lo}}, all...), candidate{at: hi})
	const piece = 1e6 // one more piece costs more than any place of a joint
	cost, from := make([]float64, len(ends)), make([]int, len(ends))
	for i := 1; i < len(ends); i++ {
		cost[i], from[i] = math.Inf(1), -1
		for k := range i {
			length := ends[i].at - ends[k].at
			if length < least-nearly || length+ends[i].half+ends[k].half > most+nearly {
				continue
			}
			if c := cost[k] + piece + ends[i].cost; c < cost[i] {
				cost[i], from[i] = c, k
			}
		}
	}
	last := len(ends) - 1
	if math.IsInf(cost[last], 1) {
		return nil, false
	}
	for i := from[last]; i > 0; i = from[i] {
		picked = append([]candidate{ends[i]}, picked...)
	}
	return picked, true
}

// proposal is a design on the way to one that can be cut.
type proposal struct {
	d     Design
	words []string

	governing int
	x, y      float64 // where its sag is largest by the closed form
	weight    float64
	whole     *plate.Solution // of the governing case without seams, nil until asked for
}

// ProposeSeams returns the design with its too large skins cut where it costs
// least, and says why in sentences. Sheets are those of [Design.Sheets]; where
// there are none of a skin's material, the usual size is assumed. What crosses a
// line, a pull counted whole and a pressure for five eighths, decides where it
// lies; seams of the two skins keep a bay apart. In the skin away from the slots
// of the ribs that cross it a seam may stay open on the middle of a rib, where
// the whole-panel model says that it adds no more than 2 % to the sag; else it is
// spliced: by a plate where 25 thicknesses of the skin find room between two
// ribs, by a scarf where they do not. The design must be valid; the only errors
// are those of ctx and of a panel that nothing holds.
func ProposeSeams(ctx context.Context, d Design) (Design, string, error) {
	p := proposal{d: d.Clone()}
	r, err := Glance(ctx, d)
	if err != nil {
		return d, "", err
	}
	p.governing, p.weight = r.Governing, r.Mass.Total*Gravity
	if len(r.Cases) > 0 {
		p.x, p.y = r.Cases[r.Governing].X, r.Cases[r.Governing].Y
	}
	for _, skin := range [...]string{BottomSeam, TopSeam} {
		if err := p.cutSkin(ctx, skin); err != nil {
			return d, "", err
		}
	}
	if len(p.words) == 0 {
		return d, "Both skins can be cut from the sheets as they are: no seam is needed.", nil
	}
	return p.d, strings.Join(p.words, " "), nil
}

// usable are the largest pieces that the sheets of a material give, along and
// across the face grain, mm. Offcuts are left for small parts.
func (d *Design) usable(material string, thickness float64) [][2]float64 {
	var out [][2]float64
	for _, s := range d.SheetsOf(material, thickness) {
		if !s.Offcut {
			a, b := s.Usable(d.Cutting)
			out = append(out, [2]float64{a, b})
		}
	}
	if len(out) == 0 {
		a, b := Stock{Length: UsualSheetLength, Width: UsualSheetWidth}.Usable(d.Cutting)
		out = append(out, [2]float64{a, b})
	}
	return out
}

// cutSkin cuts one skin, if it must be.
func (p *proposal) cutSkin(ctx context.Context, skin string) error {
	d := &p.d
	s := (Seam{Skin: skin}).skin(d)
	var pieces []Piece
	for _, q := range d.Pieces() {
		if q.Part == skin {
			pieces = append(pieces, q)
		}
	}
	sizes := d.usable(s.Material, s.Thickness)
	fit := true
	for _, q := range pieces {
		fit = fit && slices.ContainsFunc(sizes, func(size [2]float64) bool { return q.fits(Stock{Length: size[0], Width: size[1]}, Cutting{}) })
	}
	if fit {
		return nil
	}
	tb := d.EdgeBand.Thickness
	x, y := bestSheet(sizes, pieces[0].Grain, d.Length-2*tb, d.Width-2*tb)
	d.Seams = slices.DeleteFunc(d.Seams, func(o Seam) bool { return o.Skin == skin })
	p.words = append(p.words, fmt.Sprintf("The %s skin is %s by %s; a sheet gives %s by %s.", skin, inMM(d.Length-2*tb), inMM(d.Width-2*tb), inMM(x), inMM(y)))
	for _, cut := range [...]struct {
		along    bool
		hi, most float64
	}{{false, d.Length - tb, x}, {true, d.Width - tb, y}} {
		if cut.hi-tb > cut.most+nearly {
			if err := p.cutAcross(ctx, skin, cut.along, tb, cut.hi, cut.most); err != nil {
				return err
			}
		}
	}
	return nil
}

// bestSheet picks the sheet, and the way it lies, that gives the fewest pieces
// of a skin; it returns the largest piece along x and along y.
func bestSheet(sizes [][2]float64, grain Grain, length, width float64) (x, y float64) {
	best := math.Inf(1)
	try := func(a, b float64) {
		n := math.Ceil((length-nearly)/a) * math.Ceil((width-nearly)/b)
		if n < best || n == best && a*b < x*y {
			best, x, y = n, a, b
		}
	}
	for _, s := range sizes {
		if grain != GrainAcross {
			try(s[0], s[1])
		}
		if grain != GrainAlong {
			try(s[1], s[0])
		}
	}
	return x, y
}

// cutAcross puts the seams of one direction into a skin.
func (p *proposal) cutAcross(ctx context.Context, skin string, along bool, lo, hi, most float64) error {
	d := &p.d
	if p.whole == nil {
		bare := d.Clone()
		bare.Seams = nil
		var err error
		if len(d.Cases) == 0 {
			bare.Cases = []LoadCase{{Name: "own weight", Duration: Permanent}}
			p.governing = 0
		}
		if p.whole, err = bare.solveCase(ctx, p.weight, p.governing, Normal); err != nil {
			return fmt.Errorf("propose seams: %w", err)
		}
	}
	seam := Seam{Skin: skin, Along: along}
	if !p.slotted(seam) {
		done, err := p.leaveOpen(ctx, seam, lo, hi, most)
		if done || err != nil {
			return err
		}
	}
	picked, ok := cutBest(lo, hi, most, 2*minStrip, p.spliced(seam, lo, hi))
	if !ok {
		p.words = append(p.words, "No place for its seams was found: a larger sheet would help.")
		return nil
	}
	for _, c := range picked {
		s := seam
		s.At, s.Spliced, s.Scarf = c.at, true, c.half > 0
		d.Seams = append(d.Seams, s)
		how := fmt.Sprintf("on a splice plate %s wide between two ribs", inMM(spliceWidth*s.skin(d).Thickness))
		if s.Scarf {
			how = fmt.Sprintf("scarfed 1 in %g, because no plate of 25 thicknesses finds room between the ribs", scarfSlope)
		}
		p.words = append(p.words, fmt.Sprintf("Its seam lies %s, %s: there it passes %.0f %% of the most that this skin carries anywhere.", s.where(), how, 100*p.passes(s)))
	}
	return nil
}

// slotted reports whether the ribs that cross a seam are slotted from its skin's
// side: with nothing but half a rib under it, an open seam costs most there.
func (p *proposal) slotted(s Seam) bool {
	up := p.d.Slots.LengthwiseDown == s.Along // the slots of the ribs that cross it open upwards
	return up == (s.Skin == TopSeam)
}

// passes returns what crosses the line of a seam, as a share of the most that
// crosses any line of that skin the same way.
func (p *proposal) passes(s Seam) float64 {
	most := 0.0
	for _, c := range p.whole.Skin(s.Skin == TopSeam) {
		most = math.Max(most, crossing(&c, s.Along))
	}
	if most == 0 {
		return 0
	}
	return p.across(s) / most
}

// across is the most that crosses the line of a seam, N/mm, weighed.
func (p *proposal) across(s Seam) float64 {
	most := 0.0
	for _, c := range p.whole.Skin(s.Skin == TopSeam) {
		at, size := c.X, c.SX
		if s.Along {
			at, size = c.Y, c.SY
		}
		if math.Abs(at-s.At) <= size/2 {
			most = math.Max(most, crossing(&c, s.Along))
		}
	}
	return most
}

// crossing is the membrane force across a seam in a cell, N/mm, a pressure
// weighed less.
func crossing(c *plate.SkinStress, along bool) float64 {
	n := c.NX
	if along {
		n = c.NY
	}
	return math.Max(n, -pressedShare*n)
}

// sideBySide is added to the cost of a place within a bay of a seam of the other
// skin, and of one in the middle third of the span: any other is better.
const sideBySide, midThird = 100.0, 10.0

// priced is the cost of a seam at a place.
func (p *proposal) priced(s Seam, half float64) candidate {
	d := &p.d
	set, extent := d.ribsBeside(s), d.Length
	if s.Along {
		extent = d.Width
	}
	apart := math.Max(extent/float64(set.number()), spliceWidth*s.skin(d).Thickness)
	cost := p.passes(s)
	for _, o := range d.Seams {
		if o.Skin != s.Skin && o.Along == s.Along && math.Abs(o.At-s.At) < apart {
			cost += sideBySide
		}
	}
	if from, to, ok := s.bentSpan(d); ok && math.Abs(s.At-(from+to)/2) < (to-from)/6 {
		cost += midThird
	}
	return candidate{s.At, half, cost}
}

// spliced are the places where a spliced seam may lie: the middle of every bay,
// and, scarfed, either side of it, so that narrow stretches have one too.
func (p *proposal) spliced(s Seam, lo, hi float64) []candidate {
	d := &p.d
	set := d.ribsBeside(s)
	half := scarfSlope / 2 * s.skin(d).Thickness
	var out []candidate
	add := func(at, half float64) {
		if at > lo+minStrip && at < hi-minStrip {
			s := s
			s.At = at
			out = append(out, p.priced(s, half))
		}
	}
	edge := lo
	for i := range set.number() + 1 {
		end, next := hi, hi
		if i < set.number() {
			m := set.at(i, lo, hi)
			end, next = m-set.Thickness/2, m+set.Thickness/2
		}
		if end-edge >= spliceWidth*s.skin(d).Thickness {
			add((edge+end)/2, 0)
		} else {
			for _, share := range [...]float64{0.25, 0.5, 0.75} {
				add(edge+(end-edge)*share, half)
			}
		}
		edge = next
	}
	return out
}

// leaveOpen tries seams that stay open on ribs.
func (p *proposal) leaveOpen(ctx context.Context, s Seam, lo, hi, most float64) (done bool, err error) {
	d := &p.d
	set := d.ribsBeside(s)
	if set.Thickness < 2*minLedge {
		return false, nil
	}
	var on []candidate
	for i := range set.number() {
		s := s
		s.At = set.at(i, lo, hi)
		if s.At > lo+minStrip && s.At < hi-minStrip {
			on = append(on, p.priced(s, 0))
		}
	}
	picked, ok := cutBest(lo, hi, most, 2*minStrip, on)
	if !ok || len(d.Cases) == 0 {
		return false, nil
	}
	open := d.Clone()
	for _, c := range picked {
		s.At = c.at
		open.Seams = append(open.Seams, s)
	}
	now, err := d.solveCase(ctx, p.weight, p.governing, Normal)
	if err != nil {
		return false, fmt.Errorf("propose seams: %w", err)
	}
	then, err := open.solveCase(ctx, p.weight, p.governing, Normal)
	if err != nil {
		return false, fmt.Errorf("propose seams: %w", err)
	}
	before, after := now.Sag(p.x, p.y), then.Sag(p.x, p.y)
	more := after/before - 1
	if !(more <= openShare) {
		return false, nil
	}
	for _, c := range picked {
		s.At = c.at
		part, _, _ := s.overRib(d)
		p.words = append(p.words, fmt.Sprintf("Its seam lies %s on the middle of rib %s, in the skin away from the slots of the ribs that cross it.", s.where(), part))
	}
	d.Seams = open.Seams
	p.words = append(p.words, fmt.Sprintf("Left open it adds %.1f %% to the sag of %.3f mm, so that it needs no splice.", math.Max(0, 100*more), before))
	return true, nil
}
