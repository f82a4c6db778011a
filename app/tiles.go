package app

import (
	"math"
	"strings"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// The tiles are always on screen: what the person asks about first, each
// against its limit, with what governs it. This file makes their texts.

// sagTile is the largest sag of all load cases.
func sagTile(s Snapshot) widgets.TileData {
	t := widgets.TileData{Title: "Sag", Stale: s.Stale, Limit: limitText(s.Design.Limits.Sag, length.Sag, s.Lengths)}
	r := s.Result
	if r.Governing < 0 || r.Governing >= len(r.Cases) {
		return noFigure(t)
	}
	if r.NotHeld() != "" {
		return tips(t)
	}
	c := r.Cases[r.Governing]
	t.Value, t.Unit = cutUnit(length.Sag(c.Sag, s.Lengths))
	t.State = stands(c.Sag, s.Design.Limits.Sag)
	giving := mostGiving(r, c)
	part, _, _ := strings.Cut(giving, ",")
	t.GovernedBy, t.Brief = c.Name+", "+giving, [2]string{giving, part}
	return t
}

// tips is a tile of a panel that nothing holds down.
func tips(t widgets.TileData) widgets.TileData {
	t.Value, t.State, t.GovernedBy = "tips", widgets.Over, "nothing holds the top down"
	return t
}

// mostGiving says which parts give way most, by the whole panel's energies;
// without them which way of giving way does, by the closed form.
func mostGiving(r engine.Result, c engine.CaseResult) string {
	if r.Whole == nil {
		return "by formula " + largestShare(c)
	}
	for _, w := range r.Whole.Work.Shares {
		if w.Part != engine.SupportPart { // the sag is told without it
			return percent(w.Share) + " " + w.Name
		}
	}
	return largestShare(c)
}

// largestShare says which of the three ways of giving way makes most of a sag.
func largestShare(c engine.CaseResult) string {
	name, share := "bending", c.Bending
	if c.Shear > share {
		name, share = "shear", c.Shear
	}
	if c.Twist > share {
		name, share = "twist", c.Twist
	}
	return percent(share) + " " + name
}

// weightTile is the panel's own weight.
func weightTile(s Snapshot) widgets.TileData {
	t := widgets.TileData{Title: "Weight", Stale: s.Stale, Limit: limitText(s.Design.Limits.Mass, length.Mass, s.Lengths)}
	m := s.Result.Mass
	if !(m.Total > 0) {
		return noFigure(t)
	}
	t.Value, t.Unit = cutUnit(length.Mass(m.Total, s.Lengths))
	t.State = stands(m.Total, s.Design.Limits.Mass)
	heaviest := engine.MassLine{Kind: "glue", Mass: m.Glue}
	for _, line := range m.ByKind {
		if line.Mass > heaviest.Mass {
			heaviest = line
		}
	}
	t.GovernedBy = percent(heaviest.Mass/m.Total) + " " + heaviestName(heaviest)
	return t
}

func heaviestName(line engine.MassLine) string {
	if line.Count > 1 {
		return string(line.Kind) + "s"
	}
	return string(line.Kind)
}

// marginTile is the lowest margin of all that were checked.
func marginTile(s Snapshot) widgets.TileData {
	t := widgets.TileData{Title: "Margin", Stale: s.Stale, Limit: "passes at 1"}
	if s.Result.NotHeld() != "" {
		return tips(t)
	}
	if len(s.Result.Margins) == 0 {
		return noFigure(t)
	}
	m := s.Result.Margins[0]
	t.Value = fig(m.Value)
	if math.IsInf(m.Value, 0) || m.Value >= 1000 {
		t.Value = "over 1000"
	}
	t.State = standsAbove(m.Value, 1)
	t.GovernedBy = m.Name
	return t
}

// costTile is what the material costs, as far as its prices are known.
func costTile(s Snapshot) widgets.TileData {
	t := widgets.TileData{Title: "Cost", Stale: s.Stale, Limit: "no limit set"}
	if s.Design.Limits.Cost > 0 {
		t.Limit = "limit " + fig(s.Design.Limits.Cost)
	}
	if !hasFigures(s.Result) {
		return noFigure(t)
	}
	cost := s.Result.Cost
	if !(cost.Total > 0) {
		t.Value, t.GovernedBy = "–", "no prices yet"
		return t
	}
	cost = withSheets(s)
	t.Value = fig(cost.Total)
	t.State = stands(cost.Most(), s.Design.Limits.Cost)
	t.GovernedBy = "material by area"
	if missing := len(cost.Missing); missing > 0 {
		t.Value = "over " + t.Value
		t.GovernedBy = countOf(missing, "price", "prices") + " missing"
	}
	if cost.Sheets != nil {
		sheets := fig(*cost.Sheets)
		t.GovernedBy, t.Brief = "by area; the sheets to buy cost "+sheets, [2]string{"by area; sheets to buy " + sheets, "sheets to buy " + sheets}
	}
	return t
}

// withSheets is the cost of the design shown, with that of the sheets to buy once they are
// laid out.
func withSheets(s Snapshot) engine.CostReport {
	if !s.Cut.Found || s.Cut.Old || s.Stale {
		return s.Result.Cost
	}
	return s.Result.Cost.With(s.Cut.Plan)
}

// limitText says what is asked of a figure; 0 is nothing.
func limitText(limit float64, print func(float64, length.Format) string, f length.Format) string {
	if !(limit > 0) {
		return "no limit set"
	}
	return "limit " + print(limit, f)
}

// noFigure is a tile while there is nothing to show.
func noFigure(t widgets.TileData) widgets.TileData {
	t.Value, t.GovernedBy = "–", "no figure yet"
	return t
}
