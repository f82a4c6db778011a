package nest

// Rectangle lies on a sheet: X along its length, Y along its width, both from
// the same corner of the sheet as bought, before trimming; mm.
type Rectangle struct{ X, Y, Length, Width float64 }

// Placement is where one part lies.
type Placement struct {
	Piece int    // index in Job.Pieces
	ID    string // its ID
	Copy  int    // 0 for the first of that piece, and so on
	Rectangle
	// Turned: the part's length runs along the sheet's width.
	Turned bool
}

// Leftover is what remains of a sheet when the parts are cut.
type Leftover struct {
	Rectangle
	// Useful: at least as large as Job.UsefulLength by Job.UsefulWidth.
	Useful bool
}

// CutSheet is one sheet and what becomes of it.
type CutSheet struct {
	Stock int   // index in Job.Stock
	Sheet Sheet // the entry itself
	Parts []Placement
	// Leftovers are all remains but the sawdust, the largest first.
	Leftovers []Leftover
}

// Cut is one cut of the saw, straight through from edge to edge of the piece
// that lies on the saw.
type Cut struct {
	Sheet  int // index in Plan.Sheets
	Number int // of the cut on its sheet, from 1
	// Piece is what is being cut, in coordinates of the sheet.
	Piece Rectangle
	// Across: the blade runs across the sheet's length, so that At is an X.
	// Otherwise it runs along the length and At is a Y.
	Across bool
	// At is where the kerf begins, seen from the low end of the piece; it ends
	// at At plus the kerf. At a trimmed edge it may begin outside of the piece.
	At float64
	// Fence is the width of what lies between fence and blade: the strip from
	// the piece's low edge to At or, where the low edge is trimmed (Far), what
	// lies beyond the kerf.
	Fence float64
	Far   bool
	// Setting numbers the fence settings of the whole plan, from 1: cuts with
	// the same number are made without moving the fence.
	Setting int
	// Breaking: the piece is above Job.Carry and is cut where it lies.
	Breaking bool
	// Trim: this cut takes a raw edge off.
	Trim bool
	// Stage is the guillotine stage it belongs to, from 1; 0 of trimming.
	Stage int
}

// Missing is how many of a piece the stock has no room for.
type Missing struct {
	Piece int
	ID    string
	Count int
}

// Plan is an answer.
type Plan struct {
	Sheets []CutSheet
	// Cuts is every cut in the order of work: first what breaks heavy sheets,
	// then trimming, then all cuts of one fence setting after those of
	// another, over all sheets. Read for one sheet alone it is an order too.
	Cuts     []Cut
	Settings int     // how often the fence is set
	Cost     float64 // of all sheets used
	// Unplaced is empty unless the stock is limited and too small for the
	// parts, or no place was found.
	Unplaced []Missing
	// Heavy are the indices of pieces that weigh more than Job.Carry.
	Heavy []int
	Bound Bound
}

// Bound tells how good a plan is.
type Bound struct {
	// No plan costs less than Cost, and none of that cost has fewer than Sheets
	// sheets.
	Cost   float64
	Sheets int
	// Proven: the plan holds every part and meets the bound: no plan is
	// cheaper, and none as cheap needs fewer sheets or less of them by area.
	Proven bool
	// CannotFit: it is proven that the stock has no room for all parts.
	CannotFit bool
}

// Above returns by how many percent the plan's cost may be above the least
// cost there is, at most; where nothing costs anything, its count of sheets
// above the least count. It is 0 for a proven plan.
func (p Plan) Above() float64 {
	switch {
	case p.Bound.Proven:
		return 0
	case p.Bound.Cost > 0:
		return 100 * (p.Cost/p.Bound.Cost - 1)
	case p.Cost == 0 && p.Bound.Sheets > 0:
		return 100 * (float64(len(p.Sheets))/float64(p.Bound.Sheets) - 1)
	}
	return 100
}
