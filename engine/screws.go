package engine

import (
	"fmt"
	"math"

	"flatwright/engine/catalog"
	"flatwright/engine/plate"
	"flatwright/engine/section"
)

// gammaScrews is γM of fasteners in wood: EN 1995-1-1 Table 2.3, from memory.
const gammaScrews = 1.3

// densest is the density, kg/m³, up to which the formula for screws goes: 5th
// percentile of the densest softwood class of EN 338, from memory.
const densest = 500.0

// boardShare is what of the formula for softwood is taken for boards of strands, chips
// and fibres, whose faces hold screws less than their density says; common practice, no
// source.
const boardShare = 0.5

// holds returns what screws hold together when they are pulled out of a material, or
// bolts when their washers are pulled into the face of a skin, N, 5th percentile, with
// the words for it.
func (s Screws) holds(in *catalog.Sheet, face float64) (strength float64, source, note string) {
	n := section.ScrewsTogether(float64(s.Number))
	if s.Washer > 0 {
		return n * 3 * face * section.Washer(s.Washer, s.Diameter), "pressure under a washer, EN 1995-1-1 8.5.2, from memory",
			fmt.Sprintf("%d bolts with washers of %.0f mm against the face of the top skin. Their steel is not checked.", s.Number, s.Washer)
	}
	density := math.Min(densest, catalog.Characteristic(in.Density, in.CVDensity))
	one := section.Withdrawal(s.Diameter, s.Depth, density)
	note = fmt.Sprintf("%d screws of %.3g mm with %.3g mm of thread in %s, pulled straight out across the grain.", s.Number, s.Diameter, s.Depth, in.Name)
	if _, board := internalBond[in.Kind]; board {
		one *= boardShare
		note += " Half of the formula is taken for a board."
	}
	return n * one, "EN 1995-1-1 8.7.2, made for softwood and threads of 6 to 12 mm, from memory", note
}

// supportScrews checks the screws of a top that is fastened down. What they sit in is
// the bottom skin and what stands on it over the support; where nothing does, only as
// much thread counts as the skin is thick.
func (k *checker) supportScrews(c answers) {
	s := k.d.Supports.Screws
	if !k.d.Supports.Fastened || !s.Told() {
		return
	}
	own, _, ownPull := k.d.supported(c.own)
	all, _, pull := k.d.supported(c.all)
	for i, pad := range k.d.pads() {
		at := s
		bare := s.Washer == 0 && !k.d.stands(pad)
		if bare {
			at.Depth = math.Min(s.Depth, k.d.BottomSkin.Thickness)
		}
		r := Margin{X: pad.X, Y: pad.Y, Part: SupportPart, Where: "at the " + pad.Name, Unit: "N"}
		var strength float64
		strength, r.Source, r.Note = at.holds(&k.m.bottom, k.m.top.FBearing)
		r.Source = "pull of the whole-panel model; " + r.Source
		if bare {
			r.Note += " No rib, band or block stands over this support: only the bottom skin's thickness counts."
		}
		f := factors{kmod: k.bottom.kmod, gammaM: gammaScrews}
		// As they are pulled: own weight that presses helps the support, not the
		// screws of a rail whose ends curl up.
		k.keep(supportScrews, true, r, f, strength, sense(difference(ownPull[i], pull[i])))
		curl := effect{load: pull[i] - math.Max(0, -all[i])}
		k.keep(supportScrews, true, r, f, strength, sense(difference(-own[i], -all[i]).plus(curl)))
	}
}

// stands reports whether a rib, a band or a block stands over a support, for screws
// to go on into.
func (d *Design) stands(pad plate.Pad) bool {
	x0, x1, y0, y1 := pad.X-pad.SX/2, pad.X+pad.SX/2, pad.Y-pad.SY/2, pad.Y+pad.SY/2
	if tb := d.EdgeBand.Thickness; tb > 0 && (x0 < tb || y0 < tb || x1 > d.Length-tb || y1 > d.Width-tb) {
		return true
	}
	ys, xs := d.RibPlaces()
	for _, y := range ys {
		if math.Min(y1, y+d.Lengthwise.Thickness/2) > math.Max(y0, y-d.Lengthwise.Thickness/2) {
			return true
		}
	}
	for _, x := range xs {
		if math.Min(x1, x+d.Crosswise.Thickness/2) > math.Max(x0, x-d.Crosswise.Thickness/2) {
			return true
		}
	}
	for _, b := range d.Blocks {
		if bx0, bx1, by0, by1, ok := d.clearBay(b.Column, b.Row); ok && math.Min(x1, bx1) > math.Max(x0, bx0) && math.Min(y1, by1) > math.Max(y0, by0) {
			return true
		}
	}
	return false
}

// blockScrews checks what holds a vise on its block where a couple pulls it up: the
// block turns in the straight distribution of its edge pressure, whose two resultants
// lie two thirds of its size apart.
func (k *checker) blockScrews(l *Load) {
	if !l.Screws.Told() {
		return
	}
	in := k.d.blockMaterial(l.Column, l.Row)
	if in == nil {
		return
	}
	s, p := k.d.Spread(*l), k.d.under(*l)
	r := Margin{X: 2*s.X - p.x, Y: 2*s.Y - p.y, Part: "top", Where: k.say("at the block that “%s” pulls up", l.Name), Unit: "N"}
	var strength float64
	strength, r.Source, r.Note = l.Screws.holds(in, k.m.top.FBearing)
	r.Source = "couple over two thirds of the block's size the way it pulls, statics; " + r.Source
	f := k.kmod(in)
	f.gammaM = gammaScrews
	k.keep(blockScrews, true, r, f, strength, sense{load: l.Moment() / (2.0 / 3 * k.d.pulledSize(l))})
}

// pulledSize is the size of a couple's block the way it pulls, mm.
func (d *Design) pulledSize(l *Load) float64 {
	s := d.Spread(*l)
	if x, _ := l.Pull.way(); x == 0 {
		return s.SizeY
	}
	return s.SizeX
}

// blockMaterial returns what the block in a bay is made of, nil where there is none.
func (d *Design) blockMaterial(column, row int) *catalog.Sheet {
	for _, b := range d.Blocks {
		if b.Column == column && b.Row == row {
			if m, ok := d.Material(b.Material); ok {
				return &m
			}
		}
	}
	return nil
}
