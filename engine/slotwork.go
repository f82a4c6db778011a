package engine

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"flatwright/engine/length"
	"flatwright/engine/saw"
)

// SlotWork is how the half-laps of all ribs come into the boards.
type SlotWork struct {
	Tools   saw.Tools   `json:"tools"`             // as used, nothing left open
	Assumed bool        `json:"assumed,omitempty"` // none were stated: a small workshop's usual ones
	Groups  []SlotGroup `json:"groups"`            // ribs that are the same piece
	Minutes saw.Range   `json:"minutes"`           // for all groups by the way taken; 0 if one has none
	Slots   int         `json:"slots"`             // to be cut, two at every crossing
}

// SlotGroup is ribs of one kind that are drawn as the same piece, so that they
// can be cut together and, but for those that are Apart, stand in each other's
// place.
type SlotGroup struct {
	Kind      PartKind  `json:"kind"`
	Mark      string    `json:"mark"`
	Parts     []string  `json:"parts"`           // their IDs
	Apart     []string  `json:"apart,omitempty"` // those of them that differ as cut: by a reading, a mark of [Design.Built], a splice or a hole
	Datum     string    `json:"datum"`           // end from which all stations run: "left" or "front"
	EndForEnd bool      `json:"endForEnd"`       // turned round they are the same piece again
	Rows      []SlotRow `json:"rows"`
	Length    float64   `json:"length"` // of one rib, mm
	Job       saw.Job   `json:"job"`
	Ways      []saw.Way `json:"ways"`
	Best      int       `json:"best"`  // index of the way that is advised; −1 is none
	Taken     int       `json:"taken"` // of [Slots.Way] if it can, else Best
}

// SlotRow is one slot on a rib, as a schedule lists it. Stations run from the
// datum end, so that errors do not add up.
type SlotRow struct {
	Number  int     `json:"number"` // from 1, at the datum end
	Middle  float64 `json:"middle"` // mm from the datum end
	From    float64 `json:"from"`   // its first side
	To      float64 `json:"to"`     // its second side
	Width   float64 `json:"width"`
	Depth   float64 `json:"depth"`
	FromTop bool    `json:"fromTop"` // cut into the upper edge
	Mate    string  `json:"mate"`    // rib that enters it
}

// Edge is the edge of the rib into which the slot is cut, in words.
func (r SlotRow) Edge() string {
	if r.FromTop {
		return "upper"
	}
	return "lower"
}

// Rows lists the slots of a part.
func (p Part) Rows() []SlotRow {
	out := make([]SlotRow, len(p.Slots))
	for i, s := range p.Slots {
		out[i] = SlotRow{Number: i + 1, Middle: s.Station, From: s.Station - s.Width/2, To: s.Station + s.Width/2, Width: s.Width, Depth: s.Depth, FromTop: s.FromTop, Mate: s.Mate}
	}
	return out
}

// sameCut is within what two ribs count as the same piece, mm; a tenth of the
// usual clearance of a slot.
const sameCut = 0.02

// same reports whether a slot lies and measures as another.
func (r SlotRow) same(s SlotRow) bool {
	near := func(a, b float64) bool { return math.Abs(a-b) <= sameCut }
	return near(r.From, s.From) && near(r.To, s.To) && near(r.Depth, s.Depth) && r.FromTop == s.FromTop
}

// sameRows reports whether two lists of slots are alike.
func sameRows(a, b []SlotRow) bool {
	return slices.EqualFunc(a, b, func(r, s SlotRow) bool { return r.same(s) })
}

// fromOtherEnd returns the slots as they lie from the other end.
func fromOtherEnd(rows []SlotRow, length float64) []SlotRow {
	out := make([]SlotRow, len(rows))
	for i, r := range rows {
		r.From, r.To = length-r.To, length-r.From
		out[len(rows)-1-i] = r
	}
	return out
}

// slotWork groups the ribs and asks the tools.
func (d *Design) slotWork(parts []Part) SlotWork {
	c := SlotWork{Tools: d.Tools.Filled()}
	if c.Assumed = !d.Tools.Stated(); c.Assumed {
		usual := saw.Usual()
		usual.Overlap, usual.Overrun, usual.Plunge = d.Tools.Overlap, d.Tools.Overrun, d.Tools.Plunge
		c.Tools = usual.Filled()
	}
	for _, p := range parts {
		if len(p.Slots) == 0 {
			continue
		}
		rows := p.Rows()
		i := slices.IndexFunc(c.Groups, func(g SlotGroup) bool {
			return g.Mark == p.Mark && g.Kind == p.Kind && math.Abs(g.Length-p.Length) <= sameCut && sameRows(g.Rows, rows)
		})
		if i < 0 {
			i = len(c.Groups)
			c.Groups = append(c.Groups, SlotGroup{Kind: p.Kind, Mark: p.Mark, Datum: p.datum(), Rows: rows, Length: p.Length, EndForEnd: sameRows(rows, fromOtherEnd(rows, p.Length))})
		}
		c.Groups[i].Parts = append(c.Groups[i].Parts, p.ID)
		c.Slots += len(p.Slots)
	}
	d.setApart(c.Groups)
	for i := range c.Groups {
		d.ways(&c.Groups[i], c.Tools)
	}
	c.total()
	return c
}

// setApart finds the ribs that differ from most of their group by a reading, a
// mark, a splice or a hole. Splices and holes also tell the ends apart.
func (d *Design) setApart(groups []SlotGroup) {
	if len(d.Measured)+len(d.Built)+len(d.Splices)+len(d.Holes)+len(d.Grooves) == 0 {
		return
	}
	type asCut struct {
		height, depth float64
		pieces        string
	}
	cut := map[string]asCut{}
	for _, along := range [...]bool{true, false} {
		for _, c := range d.cutRibs(along) {
			cut[c.part] = asCut{height: c.height, depth: c.depth}
		}
	}
	plain := map[string]bool{}
	for _, p := range d.Pieces() {
		if c, rib := cut[p.Part]; rib {
			plain[p.Part] = c.pieces == "" && len(p.Holes)+len(p.Grooves)+len(p.Scarfs) == 0
			c.pieces += p.Mark + " "
			cut[p.Part] = c
		}
	}
	for i := range groups {
		g := &groups[i]
		count := map[asCut]int{}
		usual := cut[g.Parts[0]]
		for _, part := range g.Parts {
			g.EndForEnd = g.EndForEnd && plain[part]
		}
		for _, part := range g.Parts {
			count[cut[part]]++
			if count[cut[part]] > count[usual] {
				usual = cut[part]
			}
		}
		for _, part := range g.Parts {
			if cut[part] != usual {
				g.Apart = append(g.Apart, part)
			}
		}
	}
}

// ways asks the tools how to cut one group.
func (d *Design) ways(g *SlotGroup, tools saw.Tools) {
	set, mates := d.Crosswise, d.Lengthwise
	if g.Kind == LengthwisePart {
		set, mates = mates, set
	}
	g.Job = saw.Job{Boards: len(g.Parts), Slots: len(g.Rows), Height: d.CoreDepth, Thickness: set.SlotThickness(), Width: d.SlotWidth(mates), Depth: d.SlotDepth()}
	g.Best, g.Taken = -1, -1
	var err error
	if g.Ways, err = saw.Ways(g.Job, tools); err != nil {
		return // no valid design has such a job
	}
	g.Best = saw.Best(g.Ways)
	g.Taken = g.Best
	for i, w := range g.Ways {
		if w.Can && w.Kind == d.Slots.Way {
			g.Taken = i
		}
	}
}

// total adds up the time of the ways taken.
func (w *SlotWork) total() {
	var sum saw.Range
	for _, g := range w.Groups {
		if g.Taken < 0 {
			return
		}
		m := g.Ways[g.Taken].Minutes
		sum = saw.Range{Low: sum.Low + m.Low, High: sum.High + m.High}
	}
	w.Minutes = sum
}

// wayProblems says where the slots cannot be cut in the way that was picked, or
// in none.
func (d *Design) wayProblems(w SlotWork) []Problem {
	var out []Problem
	for _, g := range w.Groups {
		picked := slices.IndexFunc(g.Ways, func(w saw.Way) bool { return w.Kind == d.Slots.Way })
		switch {
		case g.Taken < 0:
			out = append(out, Problem{Code: "slot-no-way", Severity: Advice, Field: "tools", Part: g.Parts[0],
				Text: fmt.Sprintf("None of the tools listed can cut the slots of the %ss, %s wide and %s deep. A hand saw and a chisel would do.", g.Kind, inMM(g.Job.Width), inMM(g.Job.Depth))})
		case picked >= 0 && picked != g.Taken:
			out = append(out, Problem{Code: "slot-way", Severity: Advice, Field: "slots.way", Part: g.Parts[0],
				Text: fmt.Sprintf("The slots of the %ss cannot be cut in the way that is picked, %s. %s Taken instead: %s.", g.Kind, g.Ways[picked].Name, g.Ways[picked].Why, g.Ways[g.Taken].Name)})
		}
	}
	return out
}

// Alike says of every kind of rib whether its ribs are interchangeable, in
// sentences.
func (w SlotWork) Alike() []string {
	var out []string
	for _, kind := range [...]PartKind{LengthwisePart, CrosswisePart} {
		var groups []SlotGroup
		for _, g := range w.Groups {
			if g.Kind == kind {
				groups = append(groups, g)
			}
		}
		switch len(groups) {
		case 0:
		case 1:
			out = append(out, groups[0].alone())
		default:
			out = append(out, differing(kind, groups))
		}
		var set []string
		for _, g := range groups {
			set = append(set, g.Apart...)
		}
		if len(set) > 0 {
			out = append(out, fmt.Sprintf("But %s, by a splice, a hole, a reading or a mark: write its number on each and keep it in its own place.", others(set)))
		}
	}
	return out
}

// alone speaks of a kind whose ribs are all the same.
func (g SlotGroup) alone() string {
	text := fmt.Sprintf("All %d %ss are the same piece: any can stand in any place.", len(g.Parts), g.Kind)
	if g.EndForEnd {
		return text + fmt.Sprintf(" Turned end for end they are the same again; mark the %s end all the same, so that the errors of all fall on the same side.", g.Datum)
	}
	return text + fmt.Sprintf(" They have a %s end and do not fit turned round: mark it on each.", g.Datum)
}

// differing speaks of a kind whose ribs differ.
func differing(kind PartKind, groups []SlotGroup) string {
	var names []string
	for _, g := range groups {
		names = append(names, strings.Join(g.Parts, ", "))
	}
	return fmt.Sprintf("The %ss are not all the same piece. Alike, and interchangeable only among themselves, are: %s. Write its number on each.", kind, strings.Join(names, "; "))
}

// others names ribs that differ from the rest.
func others(parts []string) string {
	if len(parts) == 1 {
		return "rib " + parts[0] + " differs from the rest"
	}
	return "ribs " + strings.Join(parts, ", ") + " differ from the rest"
}

// WayText says what a way takes and how well it does, or why it cannot.
func WayText(w saw.Way, f length.Format) string {
	if !w.Can {
		return InUnits(w.Why, f)
	}
	packs := "one pack"
	if w.Packs > 1 {
		packs = fmt.Sprintf("%d packs", w.Packs)
	}
	text := fmt.Sprintf("%s of up to %d, %s for each slot", packs, w.AtOnce, counted(w.Passes, "pass", "passes"))
	if w.Layers > 1 {
		text += fmt.Sprintf(" side by side, %d deep", w.Layers)
	}
	text = strings.ToUpper(text[:1]) + text[1:]
	text += fmt.Sprintf(", %d strokes in all; %s.", w.Strokes, Minutes(w.Minutes.Low, w.Minutes.High))
	text += fmt.Sprintf(" Misses by about: place ±%s, width ±%s, depth ±%s.", missText(w.Miss.Station, f), missText(w.Miss.Width, f), missText(w.Miss.Depth, f))
	if w.Clear > 0 {
		text += " The blade stands out " + f.Print(math.Ceil(w.Clear)) + " before and behind the pack."
	}
	if w.Overrun > 0 {
		text += " The uppermost board is cut " + length.Sag(w.Overrun, f) + " past the mark."
	}
	if w.After != "" {
		text += " " + w.After
	}
	return text
}

// missText prints by how much a way misses: to a tenth of a millimetre or a
// thousandth of an inch.
func missText(mm float64, f length.Format) string {
	if f.Imperial {
		return fmt.Sprintf("%.3f in", mm/length.Inch)
	}
	return fmt.Sprintf("%.1f mm", mm)
}

// counted counts in words.
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// AgainstBlocking sets the ribs with their slots beside short blocking.
func (m MassReport) AgainstBlocking() string {
	return fmt.Sprintf("%d ribs with %d slots to cut, two at every crossing; short blocking between full lengthwise ribs would take %d pieces, cut to length without slots, but a butt joint passes no pull on.", m.Pieces, 2*m.Laps, m.Blocking)
}
