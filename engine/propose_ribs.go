package engine

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// scarfRoom is the plain rib that a scarf keeps between itself and a slot, mm.
// Common practice, no source.
const scarfRoom = 2.0

// ProposeSplices returns the design with the ribs and edge bands that are longer
// than their sheet spliced, and says why in sentences. Splices are scarfs 1 in 8
// between two slots, where the rib is bent least by the closed form: out of the
// middle third of the span, a bay away from the splice of the rib beside it and
// from open seams that the rib crosses. The design must be valid.
func ProposeSplices(d Design) (Design, string) {
	p := splicer{d: d.Clone(), source: d}
	for _, along := range [...]bool{true, false} {
		p.ribs(along)
	}
	p.bands()
	if len(p.words) == 0 {
		return d, "All ribs can be cut from the sheets as they are: no splice is needed."
	}
	return p.d, strings.Join(p.words, " ")
}

type splicer struct {
	d, source Design
	words     []string
}

// longest is the longest piece of a rib of some height that the sheets give.
func longest(sizes [][2]float64, height float64, upright bool) float64 {
	most := 0.0
	for _, s := range sizes {
		along, across := s[0], s[1]
		if upright {
			along, across = across, along
		}
		if across >= height-nearly {
			most = math.Max(most, along)
		}
	}
	return most
}

// ribs splices the ribs of one direction.
func (p *splicer) ribs(along bool) {
	d := &p.d
	set, name, tb := d.ribSet(along), "crosswise", d.EdgeBand.Thickness
	lo, hi := tb, d.Width-tb
	if along {
		name, hi = "lengthwise", d.Length-tb
	}
	m, _ := d.Material(set.Material)
	most := longest(d.usable(set.Material, set.Thickness), d.CoreDepth, set.Upright)
	if !m.Solid && !m.Grained() {
		most = math.Max(most, longest(d.usable(set.Material, set.Thickness), d.CoreDepth, !set.Upright))
	}
	if hi-lo <= most+nearly || p.cutAlready(RibPart(along, 0), most) {
		return
	}
	d.Splices = slices.DeleteFunc(d.Splices, func(s Splice) bool {
		a, _, ok := RibOfPart(s.Part)
		return ok && a == along
	})
	intro := fmt.Sprintf("The %s ribs are %s long; a sheet gives %s.", name, inMM(hi-lo), inMM(most))
	gaps, length := p.gaps(along, lo, hi), scarfSlope*set.Thickness
	if len(gaps) == 0 {
		p.words = append(p.words, intro+fmt.Sprintf(" No stretch between two slots has room for a scarf of %s with %s on either side. Thinner ribs, or ribs further apart, would give it.", inMM(length), inMM(scarfRoom)))
		return
	}
	bent := p.bending(along)
	var before []float64 // splices of the rib beside this one
	places := map[string]bool{}
	for n := range set.number() {
		var all []candidate
		for _, at := range gaps {
			all = append(all, candidate{at, length / 2, p.cost(along, at, lo, hi, bent, before)})
		}
		picked, ok := cutBest(lo, hi, most, minPiece, all)
		if !ok {
			p.words = append(p.words, intro+" No row of places between slots leaves pieces short enough. A longer sheet would help.")
			return
		}
		before = nil
		for _, c := range picked {
			d.Splices = append(d.Splices, Splice{Part: RibPart(along, n), At: c.at})
			before = append(before, c.at)
			places[inMM(c.at)] = true
		}
	}
	p.words = append(p.words, intro+fmt.Sprintf(" Each is joined by scarfs 1 in %g, %s long, between two slots where it is bent least, at %s by turns, so that no two splices lie side by side.",
		scarfSlope, inMM(length), allOf(places)))
}

// allOf joins what a set holds, in order of length.
func allOf(set map[string]bool) string {
	var out []string
	for k := range set {
		out = append(out, k)
	}
	slices.SortFunc(out, func(a, b string) int {
		if len(a) != len(b) {
			return len(a) - len(b)
		}
		return strings.Compare(a, b)
	})
	if n := len(out); n > 1 {
		return strings.Join(out[:n-1], ", ") + " and " + out[n-1]
	}
	return strings.Join(out, "")
}

// cutAlready reports whether the splices that a part has leave pieces that a
// sheet gives.
func (p *splicer) cutAlready(part string, most float64) bool {
	short := true
	for _, q := range p.source.Pieces() {
		if q.Part == part {
			short = short && q.Length <= most+nearly
		}
	}
	return short
}

// gaps are the middles of the stretches between slots that have room for a
// scarf.
func (p *splicer) gaps(along bool, lo, hi float64) []float64 {
	d := &p.d
	set, mates := d.ribSet(along), d.ribSet(!along)
	slot := d.SlotWidth(mates)
	need := scarfSlope*set.Thickness + 2*scarfRoom
	var out []float64
	edge := lo
	for i := range mates.number() + 1 {
		end, next := hi, hi
		if i < mates.number() {
			m := mates.at(i, lo, hi)
			end, next = m-slot/2, m+slot/2
		}
		if at := (edge + end) / 2; end-edge >= need && at >= lo+minPiece && at <= hi-minPiece {
			out = append(out, at)
		}
		edge = next
	}
	return out
}

// bending returns the moment along the ribs of one direction in the governing
// case, by the closed form, as a share of the largest; where that direction
// carries nothing by it, that of an evenly loaded beam over the whole length.
func (p *splicer) bending(along bool) func(at float64) float64 {
	d := &p.d
	length := d.Width
	if along {
		length = d.Length
	}
	even := func(at float64) float64 { return 4 * at * (length - at) / (length * length) }
	m := d.materials()
	mo := newModel(d, &m, false)
	worst, governing := 0.0, -1
	for i := range d.Cases {
		if _, s := mo.worst(&d.Cases[i]); s.total() > worst {
			worst, governing = s.total(), i
		}
	}
	for _, w := range mo.working() {
		if w.along != along || governing < 0 {
			continue
		}
		k := checker{d: d, m: &m, mo: &mo, c: &d.Cases[governing]}
		at := func(x float64) float64 { e, _ := k.at(w, x); return math.Abs(e.own + e.load) }
		most := 0.0
		for i := range stations {
			most = math.Max(most, at(length*float64(i)/stations))
		}
		if most > 0 {
			return func(x float64) float64 { return at(x) / most }
		}
	}
	return even
}

// cost is what a splice of a rib costs at a place.
func (p *splicer) cost(along bool, at, lo, hi float64, bent func(float64) float64, before []float64) float64 {
	d := &p.d
	cost := bent(at)
	if math.Abs(at-(lo+hi)/2) < (hi-lo)/6 {
		cost += midThird
	}
	pitch := (hi - lo) / float64(d.ribSet(!along).number())
	for _, b := range before {
		if math.Abs(at-b) < pitch-nearly {
			cost += sideBySide
		}
	}
	for _, s := range d.Seams {
		if s.Along != along && !s.Spliced && math.Abs(at-s.At) < pitch {
			cost++
		}
	}
	return cost
}

// bandStep is how finely the place of a band's splice is looked for, mm.
const bandStep = 10.0

// bands splices edge bands that are longer than their boards.
func (p *splicer) bands() {
	d := &p.d
	if d.EdgeBand.Thickness == 0 || len(d.SheetsOf(d.EdgeBand.Material, d.EdgeBand.Thickness)) == 0 {
		return
	}
	most := longest(d.usable(d.EdgeBand.Material, d.EdgeBand.Thickness), d.TotalDepth(), false)
	for _, part := range [...]string{"band front", "band back", "band left", "band right"} {
		k, _ := d.stick(part)
		if k.hi-k.lo <= most+nearly || p.cutAlready(part, most) {
			continue
		}
		d.Splices = slices.DeleteFunc(d.Splices, func(s Splice) bool { return s.Part == part })
		var all []candidate
		for at := k.lo + minPiece; at <= k.hi-minPiece; at += bandStep {
			u := (at - k.lo) / (k.hi - k.lo)
			all = append(all, candidate{at, scarfSlope / 2 * k.thickness, 4 * u * (1 - u)})
		}
		picked, ok := cutBest(k.lo, k.hi, most, minPiece, all)
		if !ok {
			p.words = append(p.words, fmt.Sprintf("The %s cannot be joined from boards of %s: longer boards would help.", part, inMM(most)))
			continue
		}
		for _, c := range picked {
			d.Splices = append(d.Splices, Splice{Part: part, At: c.at})
		}
		p.words = append(p.words, fmt.Sprintf("The %s is scarfed 1 in %g, away from the middle of its side.", part, scarfSlope))
	}
}
