package engine

import (
	"math"
	"slices"
)

// Stock is sheets of one kind that parts are cut from: whole ones, of which
// more can be bought, or offcuts, of which there is only what is on hand. Solid
// wood is listed the same way, as boards.
type Stock struct {
	Name      string  `json:"name,omitempty"` // the person's own word for it; "" is none
	Material  string  `json:"material"`       // catalogue key
	Thickness float64 `json:"thickness"`      // actual, mm, as in the design
	Length    float64 `json:"length"`         // mm
	Width     float64 `json:"width"`          // mm
	Price     float64 `json:"price,omitempty"`
	OnHand    int     `json:"onHand,omitempty"` // sheets that are there already and cost nothing more
	Offcut    bool    `json:"offcut,omitempty"` // what is left of a sheet: none can be bought
	Across    bool    `json:"across,omitempty"` // face grain across Length instead of along it
}

// Cutting says how sheets are cut up.
type Cutting struct {
	Kerf   float64  `json:"kerf,omitempty"`   // width of the saw's cut, mm; 0 means SawKerf
	Trim   float64  `json:"trim,omitempty"`   // taken off every edge of a sheet before it is used, mm
	Stages int      `json:"stages,omitempty"` // most turns of edge-to-edge cuts; 0 is any number
	Carry  float64  `json:"carry,omitempty"`  // heaviest piece that may be left after the first cuts, kg; 0 is any
	Free   []string `json:"free,omitempty"`   // pieces whose face grain may run either way: skins by their part ID, all others by their [PartKind]
}

// SawKerf is the cut of an ordinary circular saw blade, mm. Common practice, no
// source.
const SawKerf = 3.0

// GrainKey returns the word by which [Cutting.Free] names a piece: the part ID of
// a skin, else its kind, so that it holds whatever becomes of the other pieces.
func (p Piece) GrainKey() string {
	if p.Kind == SkinPart {
		return p.Part
	}
	return string(p.Kind)
}

// frees reports whether a piece may lie either way on its sheet.
func (c Cutting) frees(p *Piece) bool { return slices.Contains(c.Free, p.GrainKey()) }

// SawCut returns the width of the saw's cut, mm.
func (c Cutting) SawCut() float64 {
	if c.Kerf > 0 {
		return c.Kerf
	}
	return SawKerf
}

// sheetTolerance is how far a sheet's thickness may lie from the design's and
// still be the same sheet, mm. Common practice, no source.
const sheetTolerance = 0.05

// same reports whether a sheet is what a part of that material and thickness is
// cut from.
func (s Stock) same(material string, thickness float64) bool {
	return s.Material == material && math.Abs(s.Thickness-thickness) < sheetTolerance
}

// Usable returns what is left of a sheet within the trim, along and across its
// face grain, mm; nothing where the trim takes it all.
func (s Stock) Usable(c Cutting) (along, across float64) {
	along, across = math.Max(0, s.Length-2*c.Trim), math.Max(0, s.Width-2*c.Trim)
	if s.Across {
		along, across = across, along
	}
	return along, across
}

// Sheets returns everything that the parts may be cut from: the stock as
// listed, then the sheets of [Design.Prices] that it does not list. A sheet
// listed without a price costs what Prices says for that size.
func (d Design) Sheets() []Stock {
	out := append([]Stock(nil), d.Stock...)
	for _, p := range d.Prices {
		listed := false
		for i := range out {
			s := &out[i]
			if s.Offcut || !s.same(p.Material, p.Thickness) || s.Length != p.Length || s.Width != p.Width {
				continue
			}
			listed = true
			if s.Price == 0 {
				s.Price = p.Sheet
			}
		}
		if !listed {
			out = append(out, Stock{Material: p.Material, Thickness: p.Thickness, Length: p.Length, Width: p.Width, Price: p.Sheet})
		}
	}
	return out
}

// SheetsOf returns the sheets of [Design.Sheets] of one material and thickness.
func (d Design) SheetsOf(material string, thickness float64) []Stock {
	var out []Stock
	for _, s := range d.Sheets() {
		if s.same(material, thickness) {
			out = append(out, s)
		}
	}
	return out
}
