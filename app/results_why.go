package app

import (
	"math"
	"strings"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// whyCards is the Why tab as data: how sure the sag is, what makes it, what
// would change it, and what comes with it.
func whyCards(s Snapshot) []card {
	if s.Result.Blocked() || len(s.Result.Cases) == 0 {
		return nil
	}
	var cards []card
	for _, make := range []func(Snapshot) card{
		sureCard, workCard, knobsCard, depthCard, closedCard, yearsCard, seasonsCard, ringCard,
	} {
		if c := make(s); len(c.blocks) > 0 {
			cards = append(cards, c)
		}
	}
	return cards
}

// meshName is what people call a mesh.
func meshName(m engine.Mesh) string {
	switch m {
	case engine.Refined:
		return "fine mesh"
	case engine.Normal:
		return "normal mesh"
	}
	return "coarse mesh"
}

// meshLine says what the sag was computed with.
func meshLine(s Snapshot) string {
	w := s.Result.Whole
	switch {
	case w == nil && s.Finer:
		return "Closed form; the whole panel is being computed…"
	case w == nil:
		return "Closed form; the whole panel was not computed."
	case s.Finer:
		return "Whole panel, " + meshName(w.Mesh) + "; refining…"
	}
	return "Whole panel, " + meshName(w.Mesh) + "."
}

// sureCard tells the range of the governing sag and what it comes from.
func sureCard(s Snapshot) card {
	c := card{title: "How sure is this"}
	f, g, w := s.Lengths, s.Result.Cases[s.Result.Governing], s.Result.Whole
	if w == nil || !(w.Work.High > 0) {
		return card{c.title, []block{{kind: kindQuiet, text: meshLine(s) + " Until it is, no range is told."}}}
	}
	c.blocks = []block{
		{kind: kindFigure, text: g.Name, value: rangeText(g.Sag, w.Work.Low, w.Work.High, f),
			note: "nine tops in ten like this one sag within the range"},
		{kind: kindText, text: "What decides it most: " + w.Work.Most + ". " + narrower(w.Work.Most)},
		{kind: kindFigure, text: "the model's own error", value: "about " + percent(w.Change),
			note: "so much the sag moved from the mesh before to this one: " + meshName(w.Mesh) + ", " + length.Number(float64(w.Unknowns), 3) + " unknowns"},
	}
	if s.Finer {
		c.blocks = append(c.blocks, block{kind: kindQuiet, text: "A finer mesh is being computed; the figures will settle a little."})
	}
	return c
}

// rangeText prints a sag with its range: "0.24 (0.2 to 0.28) mm".
func rangeText(sag, low, high float64, f length.Format) string {
	figure, unit := cutUnit(length.Sag(sag, f))
	a, _ := cutUnit(length.Sag(low, f))
	b, _ := cutUnit(length.Sag(high, f))
	return figure + " (" + a + " to " + b + ") " + unit
}

// narrower says what would tell more about what decides the range.
func narrower(most string) string {
	if most == "the model itself" {
		return "Load the finished top with a known weight and read its sag: that tells more than any reckoning."
	}
	return "Bend an offcut of your own sheet over two blocks and read its sag: that tells where in the range you are."
}

// leastShare is the least part of the work that has a piece of the bar of its
// own; smaller ones are gathered. Common practice, no source.
const leastShare = 0.03

// workCard tells which parts the sag comes from.
func workCard(s Snapshot) card {
	c := card{title: "Who does the work"}
	if s.Result.Whole == nil || len(s.Result.Whole.Work.Shares) == 0 {
		return c
	}
	c.blocks = []block{
		{kind: kindQuiet, text: "A bent panel stores work. So much of it is in each kind of part; stiffening what does most helps most."},
		{kind: kindShares, inside: shareRows(s.Result.Whole.Work.Shares)},
	}
	if rows := figureRows(s); len(rows) > 0 {
		c.blocks = append(c.blocks, block{kind: kindFold, key: "material figures", text: "What each figure of the materials does", inside: rows})
	}
	return c
}

// figureRows lists the figures of the materials that matter to the sag, most
// first; none until the single steps are computed.
func figureRows(s Snapshot) []block {
	var rows []block
	for _, f := range s.Result.Whole.Work.Figures {
		if math.Abs(f.Slope) < 0.005 {
			break
		}
		name := f.Material
		if m, ok := s.Design.Material(f.Material); ok {
			name = m.Name
		}
		less := "less"
		if f.Slope > 0 {
			less = "more"
		}
		rows = append(rows, block{kind: kindFigure, text: f.Name, value: length.Number(math.Abs(f.Slope), 2) + " % " + less,
			note: name + "; sag for 1 % more of it, joints and slots counted in"})
	}
	return rows
}

// shareRows is the legend of the bar, largest first, the small ones gathered.
func shareRows(shares []engine.WorkShare) []block {
	var rows []block
	rest := block{kind: kindFigure, text: "all else"}
	var names []string
	for _, w := range shares {
		switch {
		case w.Share >= leastShare:
			rows = append(rows, block{kind: kindFigure, text: w.Name, value: percent(w.Share), share: w.Share, note: slopeText(w), part: w.Part})
		case w.Share >= 0.0005:
			names = append(names, w.Name)
			fallthrough
		default:
			rest.share += w.Share
		}
	}
	if len(names) > 0 {
		rest.value, rest.note = percent(rest.share), strings.Join(names, "; ")
		rows = append(rows, rest)
	}
	return rows
}

// slopeText says what a little more stiffness of a kind of part would do.
func slopeText(w engine.WorkShare) string {
	if w.Part == engine.SupportPart {
		return "not counted in the sag, which is told from the supports"
	}
	less := "less"
	if w.Slope > 0 {
		less = "more"
	}
	if math.Abs(w.Slope) < 0.005 {
		return "1 % stiffer: the sag stays"
	}
	return "1 % stiffer: " + length.Number(math.Abs(w.Slope), 2) + " % " + less + " sag"
}

// closedCard sets the closed form beside the whole panel.
func closedCard(s Snapshot) card {
	c := card{title: "The closed form beside it"}
	if s.Result.Whole == nil {
		return c
	}
	f, said := s.Lengths, map[string]bool{}
	c.blocks = []block{{kind: kindQuiet, text: "The formulas under Results, Working, can be followed by hand. They part from the whole panel where their assumptions do not hold."}}
	for _, lc := range s.Result.Cases {
		if !(lc.Closed > 0) || !(lc.Sag > 0) {
			continue
		}
		apart := lc.Closed/lc.Sag - 1
		note := "the whole panel says " + length.Sag(lc.Sag, f) + "; "
		switch {
		case math.Abs(apart) < 0.005:
			note += "both agree"
		case apart > 0:
			note += "the closed form says " + percent(apart) + " more"
		default:
			note += "the closed form says " + percent(-apart) + " less"
		}
		c.blocks = append(c.blocks, block{kind: kindFigure, text: lc.Name, value: length.Sag(lc.Closed, f), note: note})
		if lc.Apart != "" {
			c.blocks = append(c.blocks, block{kind: kindText, text: "What does not hold here: " + inUnit(lc.Apart, f)})
		} else if lc.Reach != "" && !said[lc.Reach] {
			said[lc.Reach] = true
			c.blocks = append(c.blocks, block{kind: kindText, text: "What does not hold here: " + inUnit(lc.Reach, f)})
		}
	}
	return c
}

// yearsCard tells how the sag grows under loads that stay.
func yearsCard(s Snapshot) card {
	c := card{title: "Over the years"}
	f, limit := s.Lengths, s.Design.Limits.Sag
	if len(s.Result.LongTerm) == 0 {
		return c
	}
	c.blocks = []block{{kind: kindQuiet, text: "Wood under a load that stays goes on sagging. Own weight always stays, loads as long as their duration says; loads that come and go are not counted. Warmth and swings of damp can double what creep adds."}}
	for _, t := range s.Result.LongTerm {
		if len(s.Result.LongTerm) > 1 {
			c.blocks = append(c.blocks, block{kind: kindText, text: t.Case})
		}
		for _, at := range []struct {
			when string
			sag  float64
		}{{"now", t.Now}, {"after a day", t.Day}, {"after a year", t.Year}, {"after ten years", t.TenYears}} {
			c.blocks = append(c.blocks, block{kind: kindFigure, text: at.when, value: length.Sag(at.sag, f), standing: stands(at.sag, limit)})
		}
	}
	return c
}

// seasonsCard tells how the air bows the panel.
func seasonsCard(s Snapshot) card {
	f, m := s.Lengths, s.Result.Moisture
	if !(m.Made > 0) {
		return card{title: "Through the seasons"}
	}
	air := "Glued at " + fig(m.Air.MadeAt) + " % damp of the air, used at " + fig(m.Air.Above) + " %"
	if m.Air.Below != m.Air.Above {
		air += " above and " + fig(m.Air.Below) + " % below"
	}
	if m.Assumed {
		air += "; usual values where none is stated"
	}
	c := card{title: "Through the seasons", blocks: []block{
		{kind: kindQuiet, text: "A panel bows by itself when its two skins swell or shrink by different amounts. This is without a load, beside the sag."},
		{kind: kindFigure, text: "bow of the length", value: bowText(m.BowAlong, f), note: bowWord(m.BowAlong)},
		{kind: kindFigure, text: "bow of the width", value: bowText(m.BowAcross, f), note: bowWord(m.BowAcross)},
	}}
	if m.RimStep != 0 {
		word := "the rim stands up, both faces together"
		if m.RimStep < 0 {
			word = "the rim falls back, both faces together"
		}
		c.blocks = append(c.blocks, block{kind: kindFigure, text: "step at the solid-wood rim", value: length.Sag(math.Abs(m.RimStep), f), note: word})
	}
	c.blocks = append(c.blocks, block{kind: kindQuiet, text: air + ". Moisture of the wood: " + length.Number(m.Made, 2) + " % when glued; then top skin " +
		length.Number(m.Above, 2) + " %, ribs " + length.Number(m.Core, 2) + " %, bottom skin " + length.Number(m.Below, 2) + " %."})
	return c
}

// leastBow is the least bow that is told as a figure, mm; nobody measures less.
// Common practice, no source.
const leastBow = 0.01

func bowText(bow float64, f length.Format) string {
	if bow = math.Abs(bow); bow > 0 && bow < leastBow {
		return "under " + length.Sag(leastBow, f)
	}
	return length.Sag(bow, f)
}

func bowWord(bow float64) string {
	switch {
	case bow > 0:
		return "the middle stands high"
	case bow < 0:
		return "the middle lies low"
	}
	return "both skins move alike"
}

// ringCard tells the first natural frequency.
func ringCard(s Snapshot) card {
	c := card{title: "How it swings"}
	if s.Result.Whole == nil || !(s.Result.Whole.Frequency > 0) {
		return c
	}
	c.blocks = []block{{kind: kindFigure, text: "first natural frequency", value: length.Number(s.Result.Whole.Frequency, 2) + " Hz", standing: widgets.None,
		note: "an estimate, with nothing on the top: so often a second it swings after a blow; what stands on it makes it slower"}}
	return c
}
