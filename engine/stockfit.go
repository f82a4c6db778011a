package engine

import (
	"fmt"
	"math"
	"slices"
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

// pieceProblems tells of every piece that cannot be cut from what is listed, and of
// every sheet that is wanted and not listed, with what would help. Where nothing is listed nothing is told.
func (d *Design) pieceProblems() []Problem {
	sheets := d.Sheets()
	if len(sheets) == 0 {
		return nil
	}
	var out []Problem
	told, missing := map[string]bool{}, []Piece{}
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
		if len(d.SheetsOf(p.Material, p.Thickness)) == 0 && !slices.ContainsFunc(missing, p.sameSheet) {
			missing = append(missing, p)
			out = append(out, d.notListed(p, sheets))
		}
	}
	return out
}

// sameSheet reports whether two pieces are cut from sheets of one material and thickness.
func (p Piece) sameSheet(q Piece) bool {
	return Stock{Material: p.Material, Thickness: p.Thickness}.same(q.Material, q.Thickness)
}

// notListed says that other sheets are listed and none that a piece is cut from.
func (d *Design) notListed(p Piece, sheets []Stock) Problem {
	m, _ := d.Material(p.Material)
	nearest := 0.0
	for _, s := range sheets {
		if off := math.Abs(s.Thickness - p.Thickness); s.Material == p.Material && (nearest == 0 || off < math.Abs(nearest-p.Thickness)) {
			nearest = s.Thickness
		}
	}
	thing := "sheet"
	if m.Solid {
		thing = "board"
	}
	need := p.Name + " needs one"
	if n := d.sheetsFor(p) - 1; n > 0 {
		need = fmt.Sprintf("%s and %d more %s need one", p.Name, n, map[bool]string{true: "piece", false: "pieces"}[n == 1])
	}
	text := fmt.Sprintf("The stock lists sheets, but no %s of %s %s thick: %s. ", thing, m.Name, inMM(p.Thickness), need)
	if m.Solid {
		text += "It is not laid out. "
	} else {
		text += fmt.Sprintf("The layout assumes %s × %s, as most are sold, without a price. ", inMM(UsualSheetLength), inMM(UsualSheetWidth))
	}
	text += "List its size, price and how many there are"
	if nearest > 0 {
		text += fmt.Sprintf(", or, if it is the one listed with %s, give it and the part the same thickness", inMM(nearest))
	}
	return Problem{Code: "sheet-not-listed", Severity: Advice, Field: "stock", Part: p.Part, Text: text + "."}
}

// sheetsFor counts the pieces that are cut from the same sheet as a piece.
func (d *Design) sheetsFor(p Piece) int {
	n := 0
	for _, q := range d.Pieces() {
		if p.sameSheet(q) {
			n++
		}
	}
	return n
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
