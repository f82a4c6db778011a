package nest

import (
	"errors"
	"fmt"
	"math"
)

// Grain is the direction of the face grain, seen from the sides of a
// rectangle.
type Grain uint8

const (
	// NoGrain is a sheet without face grain (fibreboard), or a piece that may
	// be cut from a sheet either way round.
	NoGrain Grain = iota
	// AlongLength is grain along the length.
	AlongLength
	// AlongWidth is grain along the width.
	AlongWidth
)

// Sheet is one entry of the stock: sheets, or offcuts, that are alike.
type Sheet struct {
	Name          string
	Length, Width float64 // mm, 0.1 to 20 000
	// Trim is the width, in mm, that is taken off each of the four edges of
	// such a sheet before parts are cut from it, the kerf of that cut included.
	// 0 for an offcut whose edges are sawn already.
	Trim float64
	// Bar says that this is a bar, or a strip ripped before, as wide as the
	// pieces cut from it: only its two ends are trimmed. If all of the stock
	// and the pieces of a job have one width, only lengths are dealt with,
	// better and faster.
	Bar bool
	// Price is what one costs, in any currency, 0 or above. It is counted to a
	// ten-thousandth. 0 is right for what is on hand already.
	Price float64
	// OnHand is how many there are. 0 means as many as are wanted; leave an
	// entry of which there is none out of the stock. Where some are on hand
	// and more can be bought, give two entries: OnHand of them at price 0, and
	// OnHand 0 at the price of one.
	OnHand int
	// Offcut says that this is a piece left over from earlier work. It changes
	// nothing in the layout; the plan hands it back.
	Offcut bool
	Grain  Grain
}

// Piece is a part to be cut, once or several times alike.
type Piece struct {
	ID            string
	Length, Width float64 // mm, 0.1 to 20 000
	Count         int     // at least 1
	// Grain is the direction in which the sheet's grain has to run in the
	// piece. With NoGrain, or on a sheet without grain, it may be turned.
	Grain Grain
}

// Job is what is to be cut from what. All of it is one material of one
// thickness. The zero value of every field but Stock and Pieces is allowed.
type Job struct {
	Stock  []Sheet
	Pieces []Piece
	Kerf   float64 // width of the saw's cut in mm, 0 or above
	// Stages is the greatest number of guillotine stages, 0 for no limit. A
	// stage is all cuts in one direction, edge to edge, before the work is
	// turned: stage 1 cuts the sheet into strips, stage 2 cuts the strips
	// across, and so on. Every cut a part needs counts, also one that only
	// takes off waste; trimming the sheet's edges and halving a leftover that
	// is too heavy do not.
	Stages int
	// Carry is the greatest mass in kg that may be carried, 0 for no limit.
	// A piece above it is cut where the sheet lies (Cut.Breaking), before all
	// else, until every piece is light enough; a leftover too. What cannot be
	// made lighter, a part that is heavier by itself, is told in Plan.Heavy.
	Carry float64
	// MassPerArea is the sheets' mass in kg per mm²: density in kg/mm³ times
	// thickness in mm. Carry needs it.
	MassPerArea float64
	// UsefulLength and UsefulWidth are the sides in mm that a leftover must
	// have at least, either way round, to be kept; smaller ones are scrap.
	// With 0 everything is kept that has an area.
	UsefulLength, UsefulWidth float64
	// Steps is how much work may be spent: the number of places for a part
	// that are looked at, and what costs about as much time. 0 means what
	// [Job.DefaultSteps] says. The same Steps give the same answer on every
	// machine.
	Steps int64
}

// DefaultSteps is the work that a job with Steps 0 allows: 250 million steps
// for up to 60 parts, about two seconds of one core, and more for more, up to
// two thousand million from 310 parts on, seven to ten seconds. It is spent
// only where the answer is not proven least before.
func (j Job) DefaultSteps() int64 {
	parts := 0
	for _, p := range j.Pieces {
		parts = min(parts+max(p.Count, 0), mostParts)
	}
	return min(250_000_000+7_000_000*int64(max(parts-60, 0)), 2_000_000_000)
}

// The domain: sizes to 20 m and to 20 000 parts, so that sums of areas in µm²
// fit into the integers that carry them.
const (
	longest   = 20_000.0
	mostParts = 20_000
	dearest   = 1e9
)

var (
	// ErrNoStock is returned for a job without a sheet.
	ErrNoStock = errors.New("there is no sheet to cut from")
	// ErrNoPieces is returned for a job without a piece.
	ErrNoPieces = errors.New("there is no part to cut")
)

// ValueError says which number of a job is outside its domain.
type ValueError struct {
	Where string // such as "sheet 2 (birch 18)" or "part R1"
	What  string // such as "its length must be from 0.1 mm to 20 m"
}

func (e *ValueError) Error() string { return e.Where + ": " + e.What }

// TooLargeError says that a piece fits onto no sheet of the stock, trimmed and
// turned as its grain allows.
type TooLargeError struct {
	Piece         int // its index in Job.Pieces
	ID            string
	Length, Width float64 // the piece
	// TurnedWouldFit: it would fit if its grain were left free.
	TurnedWouldFit bool
	// Stages: it would fit, but not with so few stages.
	Stages bool
}

func (e *TooLargeError) Error() string {
	why := "is larger than every sheet"
	switch {
	case e.TurnedWouldFit:
		why = "fits onto no sheet with its grain this way; turned it would"
	case e.Stages:
		why = "needs more stages of cuts than allowed"
	}
	return fmt.Sprintf("part %s, %g x %g mm, %s", e.ID, e.Length, e.Width, why)
}

// Check returns the first thing wrong with the numbers of a job, or nil. It
// does not look whether the pieces fit; [Solve] does.
func (j Job) Check() error {
	if len(j.Stock) == 0 {
		return ErrNoStock
	}
	if len(j.Pieces) == 0 {
		return ErrNoPieces
	}
	for i, s := range j.Stock {
		if what := s.wrong(); what != "" {
			return &ValueError{fmt.Sprintf("sheet %d (%s)", i+1, s.Name), what}
		}
	}
	parts := 0
	for _, p := range j.Pieces {
		what := p.wrong()
		if what == "" {
			if parts += p.Count; parts > mostParts {
				what = fmt.Sprintf("with it there are more than %d parts", mostParts)
			}
		}
		if what != "" {
			return &ValueError{"part " + p.ID, what}
		}
	}
	return j.checkSaw()
}

// checkSaw is Check for the numbers that are neither stock nor pieces.
func (j Job) checkSaw() error {
	const where = "the saw"
	switch {
	case !(j.Kerf >= 0 && j.Kerf <= 100):
		return &ValueError{where, "the kerf must be 0 or above and at most 100 mm"}
	case j.Stages < 0:
		return &ValueError{where, "the number of stages must be 0 or above"}
	case !(j.Carry >= 0) || math.IsInf(j.Carry, 0) || !(j.MassPerArea >= 0 && j.MassPerArea <= 1):
		return &ValueError{where, "the mass to carry and the mass of the sheets must be 0 or above"}
	case !(j.UsefulLength >= 0) || !(j.UsefulWidth >= 0):
		return &ValueError{where, "the sides of a useful leftover must be 0 or above"}
	case j.Steps < 0:
		return &ValueError{where, "the steps must be 0 or above"}
	}
	return nil
}

func (s Sheet) wrong() string {
	switch {
	case !side(s.Length):
		return "its length must be from 0.1 mm to 20 m"
	case !side(s.Width):
		return "its width must be from 0.1 mm to 20 m"
	case !(s.Trim >= 0) || !side(s.Length-2*s.Trim) || !s.Bar && !side(s.Width-2*s.Trim):
		return "trimming must be 0 or above and leave something of the sheet"
	case !(s.Price >= 0 && s.Price <= dearest):
		return "its price must be 0 or above"
	case s.OnHand < 0:
		return "how many there are must be 0 (as many as wanted) or above"
	case s.Grain > AlongWidth:
		return "its grain has no such direction"
	}
	return ""
}

func (p Piece) wrong() string {
	switch {
	case !side(p.Length):
		return "its length must be from 0.1 mm to 20 m"
	case !side(p.Width):
		return "its width must be from 0.1 mm to 20 m"
	case p.Count < 1 || p.Count > mostParts:
		return fmt.Sprintf("its count must be from 1 to %d", mostParts)
	case p.Grain > AlongWidth:
		return "its grain has no such direction"
	}
	return ""
}

// side reports whether v can be a side: from 0.1 mm to 20 m.
func side(v float64) bool { return v >= 0.1 && v <= longest }
