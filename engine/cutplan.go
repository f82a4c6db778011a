package engine

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"flatwright/engine/length"
	"flatwright/engine/nest"
)

// CutPlan is how the pieces of a design come out of sheets, one entry for each
// material and thickness, in the order of the parts.
type CutPlan struct {
	Stocks []StockCut `json:"stocks"`
}

// StockCut is the parts of one material and thickness and the sheets that they
// are cut from.
type StockCut struct {
	Material  string       `json:"material"`
	Thickness float64      `json:"thickness"` // mm
	Parts     []SheetParts `json:"parts"`     // as Job.Pieces
	Boards    bool         `json:"boards,omitempty"`
	Assumed   bool         `json:"assumed,omitempty"` // no sheet is listed: one of the usual size is assumed
	Priced    bool         `json:"priced,omitempty"`  // every sheet that can be bought has a price, so that Plan.Cost is one
	Trouble   string       `json:"trouble,omitempty"` // why there is no layout, and what would help; in mm
	Field     string       `json:"field,omitempty"`   // JSON path of what to change
	Settled   bool         `json:"settled"`           // the search is over: Plan stays as it is

	Job  nest.Job  `json:"-"`
	Plan nest.Plan `json:"plan"`

	onHand []bool // as Job.Stock: there already
}

// SheetParts is alike parts that are cut from one kind of sheet.
type SheetParts struct {
	Mark string   `json:"mark"`
	Kind PartKind `json:"kind"`
	Name string   `json:"name"` // of one of them
	IDs  []string `json:"ids"`  // of the pieces, as [Piece.ID]
	Of   []string `json:"of"`   // the parts that they belong to, as [Part.ID]
}

// UsualSheetLength and UsualSheetWidth are the size of the sheet that is assumed
// where a design lists none, mm: 8 ft by 4 ft, as most are sold; common practice,
// no source.
const (
	UsualSheetLength = 8 * length.Foot
	UsualSheetWidth  = 4 * length.Foot
)

// A leftover that is worth keeping has at least these sides, mm. Common
// practice, no source.
const usefulLong, usefulWide = 300.0, 100.0

// CutInput is all of a design that [PlanCut] looks at: two designs with equal
// ones have the same plan.
type CutInput struct{ stocks []StockCut }

// Stocks returns what is to be cut, with nothing laid out yet.
func (in CutInput) Stocks() []StockCut { return in.stocks }

// CutInput gathers what is to be cut and from what. The design must be valid.
func (d Design) CutInput() CutInput {
	var in CutInput
	at := map[[2]any]int{}
	for _, p := range d.Pieces() {
		key := [2]any{p.Material, math.Round(p.Thickness / sheetTolerance)}
		i, known := at[key]
		if !known {
			i = len(in.stocks)
			at[key] = i
			in.stocks = append(in.stocks, d.stockCut(p.Material, p.Thickness))
		}
		in.stocks[i].add(p)
	}
	return in
}

// stockCut is the sheets of one material and thickness, with nothing to cut.
func (d Design) stockCut(material string, thickness float64) StockCut {
	m, _ := d.Material(material)
	s := StockCut{Material: material, Thickness: thickness, Boards: m.Solid, Priced: true}
	c := d.Cutting
	s.Job = nest.Job{
		Kerf: c.SawCut(), Stages: c.Stages, Carry: c.Carry, MassPerArea: m.Density * 1e-9 * thickness,
		UsefulLength: usefulLong, UsefulWidth: usefulWide,
	}
	sheets := d.SheetsOf(material, thickness)
	if len(sheets) == 0 && !m.Solid {
		sheets, s.Assumed = []Stock{{Length: UsualSheetLength, Width: UsualSheetWidth}}, true
	}
	for _, t := range sheets {
		s.offer(t, c.Trim, m.Grained())
	}
	if !s.Priced { // the fewest square metres then cost least
		for i, sheet := range s.Job.Stock {
			if !s.onHand[i] {
				s.Job.Stock[i].Price = sheet.Length * sheet.Width * 1e-6
			}
		}
	}
	return s
}

// offer puts sheets of one kind into the job: those on hand for nothing, and,
// unless they are offcuts, as many more as are wanted at their price.
func (s *StockCut) offer(t Stock, trim float64, grained bool) {
	sheet := nest.Sheet{Name: t.Name, Length: t.Length, Width: t.Width, Trim: trim, Offcut: t.Offcut}
	if grained {
		sheet.Grain = nest.AlongLength
		if t.Across {
			sheet.Grain = nest.AlongWidth
		}
	}
	if t.OnHand > 0 {
		sheet.OnHand = t.OnHand
		s.Job.Stock, s.onHand = append(s.Job.Stock, sheet), append(s.onHand, true)
	}
	if t.Offcut {
		return
	}
	sheet.OnHand, sheet.Price = 0, t.Price
	s.Job.Stock, s.onHand = append(s.Job.Stock, sheet), append(s.onHand, false)
	s.Priced = s.Priced && t.Price > 0
}

// add puts a piece into the job, with those that are alike.
func (s *StockCut) add(p Piece) {
	for i := range s.Parts {
		if of := &s.Parts[i]; of.Mark == p.Mark {
			s.Job.Pieces[i].Count++
			of.IDs, of.Of = append(of.IDs, p.ID), append(of.Of, p.Part)
			return
		}
	}
	grain := map[Grain]nest.Grain{GrainAlong: nest.AlongLength, GrainAcross: nest.AlongWidth, GrainFree: nest.NoGrain}[p.Grain]
	s.Job.Pieces = append(s.Job.Pieces, nest.Piece{ID: p.Mark, Length: p.Length, Width: p.Width, Count: 1, Grain: grain})
	s.Parts = append(s.Parts, SheetParts{Mark: p.Mark, Kind: p.Kind, Name: p.Name, IDs: []string{p.ID}, Of: []string{p.Part}})
}

// PlanCut lays the parts out on sheets. told, which may be nil, gets every
// better plan as it is found and how far the search is, 0 to 1. The same input
// gives the same plan on every machine. What stands against a layout is told in
// the plan; the error is that of ctx.
func PlanCut(ctx context.Context, in CutInput, told func(p CutPlan, done float64)) (CutPlan, error) {
	plan := CutPlan{Stocks: append([]StockCut(nil), in.stocks...)}
	tell := func(done float64) {
		if told != nil {
			told(CutPlan{Stocks: append([]StockCut(nil), plan.Stocks...)}, done)
		}
	}
	for i := range plan.Stocks {
		s := &plan.Stocks[i]
		share := func(of float64) float64 { return (float64(i) + of) / float64(len(plan.Stocks)) }
		if len(s.Job.Stock) == 0 {
			s.noStock()
			continue
		}
		found, err := nest.Solve(ctx, s.Job, func(better *nest.Plan, done float64) {
			if better != nil {
				s.Plan = *better
			}
			tell(share(done))
		})
		switch {
		case ctx.Err() != nil:
			return plan, ctx.Err()
		case err != nil:
			s.refused(err)
		default:
			s.Plan = found
		}
		s.Settled = true
		tell(share(1))
	}
	return plan, nil
}

// noStock says that nothing is listed to cut from.
func (s *StockCut) noStock() {
	s.Settled, s.Field = true, "stock"
	s.Trouble = "No board of this wood is in the stock: list one, or buy it planed to this thickness and cut the parts to length."
	if !s.Boards {
		s.Trouble = "Only offcuts of this are listed, and none of them is on hand. Type how many there are, or list a sheet that can be bought."
	}
}

// refused says in words why there is no layout.
func (s *StockCut) refused(err error) {
	s.Field = "stock"
	var large *nest.TooLargeError
	if !errors.As(err, &large) {
		s.Trouble = "The parts cannot be laid out: " + err.Error() + "."
		return
	}
	part := s.Parts[large.Piece]
	size := inMM(large.Length) + " × " + inMM(large.Width)
	switch {
	case large.TurnedWouldFit:
		s.Field = "cutting.free"
		s.Trouble = fmt.Sprintf("%s, %s, fits onto no sheet with its face grain as drawn; turned it would. Let its grain run either way, or list a longer sheet.", part.Name, size)
	case large.Stages:
		s.Field = "cutting.stages"
		s.Trouble = fmt.Sprintf("%s, %s, needs more turns of the saw than are allowed. Allow one stage more.", part.Name, size)
	default:
		s.Trouble = fmt.Sprintf("%s, %s, is larger than every sheet listed. List a larger sheet, or make it of two pieces with a seam or a splice.", part.Name, size)
	}
}

// Bought returns how many sheets of the plan are not on hand.
func (s StockCut) Bought() int {
	n := 0
	for _, sheet := range s.Plan.Sheets {
		if !s.onHand[sheet.Stock] {
			n++
		}
	}
	return n
}

// PieceOf returns the ID of the piece that lies at a placement.
func (s StockCut) PieceOf(p nest.Placement) string {
	ids := s.Parts[p.Piece].IDs
	return ids[min(p.Copy, len(ids)-1)]
}

// PartOf returns the ID of the part to which the piece at a placement belongs.
func (s StockCut) PartOf(p nest.Placement) string {
	of := s.Parts[p.Piece].Of
	return of[min(p.Copy, len(of)-1)]
}

// Standing says how good the layout is, in a sentence.
func (s StockCut) Standing() string {
	b := s.Plan.Bound
	switch {
	case s.Trouble != "":
		return s.Trouble
	case !s.Settled && b.Cost == 0 && b.Sheets == 0:
		return "Not searched yet: how good this is shows as the search goes on."
	case len(s.Plan.Unplaced) > 0 && b.CannotFit:
		return "The sheets on hand have no room for all parts, and that is certain."
	case len(s.Plan.Unplaced) > 0:
		return "Not all parts have found room on the sheets on hand."
	case b.Proven && s.Priced:
		return "Proven least: no layout costs less, and none as cheap takes fewer sheets."
	case b.Proven:
		return "Proven least: no layout takes less of these sheets."
	case s.Priced:
		return fmt.Sprintf("At most %.1f %% above the least cost there can be.", s.Plan.Above())
	}
	return fmt.Sprintf("At most %.1f %% above the least sheet area there can be.", s.Plan.Above())
}

// Whole reports whether every part has been laid out once, or is told why not: a
// search that was stopped early may not have come to all of them.
func (p CutPlan) Whole() bool {
	for _, s := range p.Stocks {
		if s.Trouble == "" && len(s.Plan.Sheets) == 0 && len(s.Plan.Unplaced) == 0 {
			return false
		}
	}
	return true
}

// Cost returns what the sheets of the plan that are not on hand cost. known is
// false where a price is missing, or parts have found no sheet yet.
func (p CutPlan) Cost() (cost float64, known bool) {
	known = p.Whole()
	for _, s := range p.Stocks {
		known = known && s.Priced && !s.Assumed && s.Trouble == "" && len(s.Plan.Unplaced) == 0
		if s.Priced {
			cost += s.Plan.Cost
		}
	}
	return cost, known
}

// Used returns the area of the parts over that of the sheets, 0 where there is
// no sheet.
func (p CutPlan) Used() float64 {
	var parts, sheets float64
	for _, l := range p.Sheets() {
		s := l.Sheet()
		sheets += s.Sheet.Length * s.Sheet.Width
		for _, q := range s.Parts {
			parts += q.Length * q.Width
		}
	}
	if !(sheets > 0) {
		return 0
	}
	return parts / sheets
}

// Leftovers returns the stock as it is once the plan is cut: what was on hand
// less what the plan uses, and its useful leftovers as offcuts.
func (d Design) Leftovers(p CutPlan) []Stock {
	left := d.Clone().Stock
	for _, l := range p.Sheets() {
		s := l.Sheet()
		if l.Stock.onHand[s.Stock] {
			takeOne(left, l.Stock, s.Sheet)
		}
		for _, r := range s.Leftovers {
			if r.Useful {
				left = append(left, Stock{Name: "left of " + d.Name, Material: l.Stock.Material, Thickness: l.Stock.Thickness,
					Length: r.Length, Width: r.Width, OnHand: 1, Offcut: true, Across: s.Sheet.Grain == nest.AlongWidth})
			}
		}
	}
	return slices.DeleteFunc(left, func(t Stock) bool { return t.Offcut && t.OnHand == 0 })
}

// takeOne takes a sheet off the list of what is on hand.
func takeOne(list []Stock, of StockCut, sheet nest.Sheet) {
	for i := range list {
		t := &list[i]
		alike := t.Length == sheet.Length && t.Width == sheet.Width && t.Offcut == sheet.Offcut && (sheet.Grain == nest.NoGrain || t.Across == (sheet.Grain == nest.AlongWidth))
		if t.OnHand > 0 && alike && t.same(of.Material, of.Thickness) {
			t.OnHand--
			return
		}
	}
}
