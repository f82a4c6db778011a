package engine

import (
	"fmt"
	"math"
)

// grainSize returns the size of a piece along its face grain and across it, mm; of a
// piece that may turn the longer side comes first.
func (p Piece) grainSize() (along, across float64) {
	if p.Grain == GrainAcross || p.Grain == GrainFree && p.Width > p.Length {
		return p.Width, p.Length
	}
	return p.Length, p.Width
}

// fits reports whether a piece can be cut out of a sheet, trim taken off.
func (p Piece) fits(s Stock, c Cutting) bool {
	along, across := p.grainSize()
	long, wide := s.Usable(c)
	inside := func(a, b float64) bool { return a <= long+nearly && b <= wide+nearly }
	return inside(along, across) || p.Grain == GrainFree && inside(across, along)
}

// pieceProblems tells of every piece that cannot be cut from what is listed,
// with what would help. Where nothing is listed nothing is told.
func (d *Design) pieceProblems() []Problem {
	sheets := d.Sheets()
	if len(sheets) == 0 {
		return nil
	}
	var out []Problem
	told := map[string]bool{}
	for _, p := range d.Pieces() {
		var of []Stock
		fits := false
		for _, s := range sheets {
			if s.same(p.Material, p.Thickness) && (!s.Offcut || s.OnHand > 0) {
				of = append(of, s)
				fits = fits || p.fits(s, d.Cutting)
			}
		}
		if !fits && len(of) > 0 && !told[p.Mark] {
			told[p.Mark] = true
			out = append(out, d.tooLarge(p, of))
		}
	}
	return out
}

// tooLarge words the problem of a piece that fits onto none of the sheets.
func (d *Design) tooLarge(p Piece, of []Stock) Problem {
	long, wide := 0.0, 0.0
	for _, s := range of {
		if a, b := s.Usable(d.Cutting); a*b > long*wide {
			long, wide = a, b
		}
	}
	along, across := p.grainSize()
	free := p
	free.Grain = GrainFree
	turns := false
	for _, s := range of {
		turns = turns || free.fits(s, d.Cutting)
	}
	help, field := "", "stock"
	switch {
	case turns:
		help, field = "Turned by a quarter it would fit: let its face grain run either way.", "cutting.free"
	case p.Kind == SkinPart:
		help, field = "A seam would make it two pieces; the program can propose where it costs least.", "seams"
	case p.Kind == LengthwisePart, p.Kind == CrosswisePart, p.Kind == BandPart:
		help, field = "A splice would make it two pieces; the program can propose where.", "splices"
	case p.Kind == BlockPart:
		help = "Glue it up from several layers or boards."
	default:
		help = "A scarf needs no plate."
	}
	return Problem{Code: "piece-too-large", Severity: Shortfall, Field: field, Part: p.Part,
		Text: fmt.Sprintf("%s is %s along its face grain and %s across; the largest sheet of that material and thickness listed gives %s by %s, so it cannot be cut. %s Or list a sheet of at least %s by %s.",
			p.Name, inMM(along), inMM(across), inMM(long), inMM(wide), help, inMM(math.Ceil(along+2*d.Cutting.Trim)), inMM(math.Ceil(across+2*d.Cutting.Trim)))}
}
