package app

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// card is one group of results as plain data: the texts are made here, and
// results.go only sets them.
type card struct {
	title  string
	blocks []block
}

// block is one line of a card, or a fold of more lines, or a picture.
type block struct {
	kind     blockKind
	key      string // of a fold, stable, so that it stays open
	text     string // of a line; the name before a figure; the head of a fold
	value    string // figure with its unit
	note     string // small line below
	standing widgets.State
	part     string        // picked by a click: a part's ID, or a kind of parts
	spot     engine.Spot   // pointed out by a click
	share    float64       // of a bar of shares
	field    string        // opened by a click
	shows    int           // 1 + the load case that a click brings into the drawing, 0 is none
	inside   []block       // of a fold; the legend of a bar of shares
	rough    bool          // of bars and curve: an estimate by the closed form
	knobs    []engine.Knob // of bars: the one shown, then others that give the scale
	curve    []engine.DepthPoint
	at       float64 // of a curve: the present core depth
	limit    float64 // of a curve: the sag limit, 0 is none
}

type blockKind uint8

const (
	kindText   blockKind = iota // running text
	kindQuiet                   // running text of less weight
	kindFigure                  // name and value
	kindFold                    // details on demand
	kindBars                    // what a step of a knob does
	kindCurve                   // sag over core depth
	kindShares                  // who does the work
)

// nearShare is how much of a limit must be used up for a figure to count as
// near it. Common practice, no source.
const nearShare = 0.9

// stands compares a figure with the most that is asked; limit 0 is none.
func stands(value, limit float64) widgets.State {
	switch {
	case !(limit > 0):
		return widgets.None
	case value > limit:
		return widgets.Over
	case value > nearShare*limit:
		return widgets.Near
	}
	return widgets.Good
}

// standsAbove compares a margin with the least that is asked.
func standsAbove(value, least float64) widgets.State {
	switch {
	case value < least:
		return widgets.Over
	case value*nearShare < least:
		return widgets.Near
	}
	return widgets.Good
}

// limitNote says what the limit is and how the figure stands.
func limitNote(s widgets.State, limit string) string {
	if s == widgets.None {
		return "no limit set"
	}
	return s.Word() + " the limit of " + limit
}

// resultCards is the whole Results pane as data, in its order.
func resultCards(s Snapshot) []card {
	cards := []card{problemsCard(s)}
	if s.Result.Blocked() || !hasFigures(s.Result) {
		return cards
	}
	for _, make := range []func(Snapshot) card{
		sagCard, builtCard, supportsCard, stiffnessCard, bayCard, twistCard, weightCard, marginsCard, buildCard, workingCard,
	} {
		if c := make(s); len(c.blocks) > 0 {
			cards = append(cards, c)
		}
	}
	return cards
}

// hasFigures reports whether anything was computed at all.
func hasFigures(r engine.Result) bool { return len(r.Cases) > 0 || r.Mass.Total > 0 }

// stateLine is the line above all cards: it says whether the figures are those
// of the design on screen. It is empty when they are.
func stateLine(s Snapshot) string {
	switch {
	case s.Err != nil && s.Stale:
		return "This design could not be computed; the figures below, if any, are an older design's. Nothing of yours is lost."
	case s.Stale && hasFigures(s.Result):
		return "Computing… figures are from before the last change"
	case s.Stale:
		return "Computing…"
	case s.Unread != "":
		return "▲ “" + s.Unread + "” cannot be read: the figures are of the last design that could be"
	case s.Result.Blocked():
		first := sortedProblems(s.Result.Problems)[0]
		return "There are no figures until this is put right: " + problemText(first, s.Lengths)
	}
	return ""
}

// problemsCard lists what is wrong or weak, the gravest first.
func problemsCard(s Snapshot) card {
	c := card{title: "Problems"}
	for _, p := range sortedProblems(s.Result.Problems) {
		c.blocks = append(c.blocks, block{
			kind: kindText, standing: problemStanding(p.Severity),
			text: severityWords(p.Severity) + ". " + problemText(p, s.Lengths),
			part: p.Part, field: p.Field,
		})
	}
	if len(c.blocks) == 0 && hasFigures(s.Result) {
		c.blocks = []block{{kind: kindText, text: "● Nothing found. What the model leaves out is named under Working.", standing: widgets.Good}}
	}
	return c
}

func problemStanding(s engine.Severity) widgets.State {
	if s == engine.Advice {
		return widgets.Near
	}
	return widgets.Over
}

// sagCard tells every load case: how much, against what, why, and beside what.
func sagCard(s Snapshot) card {
	c := card{title: "Sag"}
	limit, f := s.Design.Limits.Sag, s.Lengths
	if s.Result.NotHeld() != "" {
		c.blocks = append(c.blocks, block{kind: kindText, standing: widgets.Over,
			text: "■ The top tips: it has no sag. The formulas below take the supports to hold it down as well, and are only good for comparing."})
	}
	var care []string // each said once, though several cases may share it
	for i, lc := range s.Result.Cases {
		stand := stands(lc.Sag, limit)
		note := limitNote(stand, length.Sag(limit, f))
		head := block{kind: kindFigure, text: lc.Name, value: length.Sag(lc.Sag, f), standing: stand, field: "limits.sag"}
		if len(s.Result.Cases) > 1 {
			head.field, head.shows = "", 1+i // more of use than the limit that all share
			if i == s.Result.Governing {
				note += "; this case governs"
			}
		}
		head.note = note
		c.blocks = append(c.blocks, head,
			block{kind: kindQuiet, text: "Largest at " + placeText(math.Round(lc.X), math.Round(lc.Y), f) + ". " + meshLine(s)})
		for j, l := range lc.Loads {
			c.blocks = append(c.blocks, block{kind: kindFigure, text: "under " + l.Name, value: length.Sag(l.Sag, f), part: engine.LoadPart(i, j),
				note: "by this load alone " + length.Sag(l.Alone, f)})
		}
		c.blocks = append(c.blocks, block{kind: kindFigure, text: "own weight's share", value: length.Sag(lc.OwnSag, f)})
		if text := sagShares(lc); text != "" {
			if s.Result.Whole != nil { // it does not part its sag like this
				text = "By the closed form" + strings.TrimPrefix(text, "Of it")
			}
			c.blocks = append(c.blocks, block{kind: kindText, text: text})
		}
		if lc.SlabSag > 0 {
			c.blocks = append(c.blocks, block{kind: kindText, text: slabSentence(lc, s.Result.Mass.Share, f)})
		}
		if s.Result.Whole == nil && lc.Reach != "" && !slices.Contains(care, lc.Reach) { // else Why tells it of the closed form
			care = append(care, lc.Reach)
		}
	}
	for _, reach := range care {
		c.blocks = append(c.blocks, block{kind: kindQuiet, text: "Take with care: " + reach})
	}
	return c
}

// slabSentence sets the panel beside the solid slab of the same outline.
func slabSentence(c engine.CaseResult, share float64, f length.Format) string {
	text := "A solid slab of the same outline would sag " + length.Sag(c.SlabSag, f) + " there"
	if ratio := c.Sag / c.SlabSag; ratio >= 1.05 {
		text += "; this top sags " + length.Number(ratio, 2) + " times as much"
	} else if ratio <= 0.95 {
		text += "; this top sags less"
	}
	if share > 0 {
		text += " at " + percent(share) + " of its weight"
	}
	return text + "."
}

// stiffnessCard tells the springs under the loads and the panel's own figures.
func stiffnessCard(s Snapshot) card {
	c := card{title: "Stiffness"}
	f, st := s.Lengths, s.Result.Stiffness
	for _, lc := range s.Result.Cases {
		for _, l := range lc.Loads {
			if l.Stiffness > 0 && !math.IsInf(l.Stiffness, 0) {
				c.blocks = append(c.blocks, block{kind: kindFigure, text: "under " + l.Name, value: springText(l.Stiffness, f), note: "so much force there for each " + springStep(f) + " of sag"})
			}
		}
	}
	c.blocks = append(c.blocks, directionBlocks("along the length", st.Along, s)...)
	c.blocks = append(c.blocks, directionBlocks("across the width", st.Across, s)...)
	if st.GJ > 0 {
		c.blocks = append(c.blocks, block{kind: kindFigure, text: "against twist", value: rigidityText(st.GJ, f),
			note: "how hard it is to lift one corner; called GJ"})
	}
	return c
}

func directionBlocks(name string, d engine.Direction, s Snapshot) []block {
	if !(d.EI > 0) {
		return nil
	}
	f := s.Lengths
	note := ""
	if d.SlabEI > 0 {
		note = percent(d.EI/d.SlabEI) + " of a solid slab's"
		if share := s.Result.Mass.Share; share > 0 {
			note += " at " + percent(share) + " of its weight"
		}
	}
	detail := []block{
		{kind: kindFigure, text: "span", value: f.String(d.Span)},
		{kind: kindFigure, text: "with rigid glue lines", value: rigidityText(d.Rigid, f), note: "and skins that work over their whole width"},
		{kind: kindFigure, text: "shear stiffness (GA)", value: length.Force(d.GA, f), note: "what the rib webs hold against sliding"},
		{kind: kindFigure, text: "neutral axis", value: f.Print(d.Neutral), note: "above the underside; there bending neither pulls nor presses"},
		{kind: kindFigure, text: "top skin at work", value: percent(d.GammaTop), note: "slip in the glue line and slack between ribs take the rest"},
		{kind: kindFigure, text: "bottom skin at work", value: percent(d.GammaBottom)},
	}
	if d.Slot.Bending > 0 {
		detail = append(detail, block{kind: kindText, text: fmt.Sprintf("Slots leave the ribs %s of their own bending stiffness and %s of their shear stiffness. %s",
			percent(d.Slot.Bending), percent(d.Slot.Shear), sourceText(d.Slot.Source))})
	}
	return []block{
		{kind: kindFigure, text: name, value: rigidityText(d.EI, f), note: note},
		{kind: kindFold, key: "stiffness " + name, text: "More on bending " + name, inside: detail},
	}
}

// sourceText prints where a figure comes from.
func sourceText(source string) string {
	if source == "" {
		return ""
	}
	return "Source: " + strings.TrimSuffix(source, ".") + "."
}

// weightCard tells what the panel weighs, costs, and how many pieces it takes.
func weightCard(s Snapshot) card {
	c := card{title: "Weight and cost"}
	f, m := s.Lengths, s.Result.Mass
	stand := stands(m.Total, s.Design.Limits.Mass)
	c.blocks = append(c.blocks, block{kind: kindFigure, text: "whole top", value: length.Mass(m.Total, f), standing: stand,
		note: limitNote(stand, length.Mass(s.Design.Limits.Mass, f)), field: "limits.mass"})
	for _, line := range m.ByKind {
		c.blocks = append(c.blocks, block{kind: kindFigure, text: countOf(line.Count, string(line.Kind), string(line.Kind)+"s"), value: length.Mass(line.Mass, f)})
	}
	c.blocks = append(c.blocks, block{kind: kindFigure, text: "glue", value: length.Mass(m.Glue, f)})
	if m.Slab > 0 {
		c.blocks = append(c.blocks, block{kind: kindFigure, text: "solid slab of the same outline", value: length.Mass(m.Slab, f),
			note: "in the top skin's material; this top weighs " + percent(m.Share) + " of it"})
	}
	c.blocks = append(c.blocks, block{kind: kindQuiet, text: fmt.Sprintf("Centre of gravity %s and %s above the underside.",
		placeText(math.Round(m.Centre[0]), math.Round(m.Centre[1]), f), f.Print(math.Round(m.Centre[2])))})
	if m.Pieces > 0 {
		text := countOf(m.Pieces, "full-length rib", "full-length ribs") + " with " + countOf(m.Laps, "half-lap", "half-laps")
		if m.Blocking > 0 {
			text += "; the same grid of short blocking between full ribs would take " + countOf(m.Blocking, "piece", "pieces")
		}
		c.blocks = append(c.blocks, block{kind: kindText, text: capital(text) + "."})
	}
	return card{c.title, append(c.blocks, costBlocks(s)...)}
}

func costBlocks(s Snapshot) []block {
	cost := withSheets(s)
	switch {
	case cost.Total > 0 && len(cost.Missing) == 0:
		stand := stands(cost.Total, s.Design.Limits.Cost)
		blocks := []block{{kind: kindFigure, text: "material by area", value: fig(cost.Total), standing: stand, field: "limits.cost",
			note: limitNote(stand, fig(s.Design.Limits.Cost)) + "; in your currency, offcuts not counted"}}
		if cost.Sheets == nil {
			return append(blocks, block{kind: kindQuiet, text: "The act Cut lays the parts out and tells what whole sheets cost."})
		}
		stand = stands(*cost.Sheets, s.Design.Limits.Cost)
		return append(blocks, block{kind: kindFigure, text: "sheets to buy", value: fig(*cost.Sheets), standing: stand, field: "limits.cost",
			note: limitNote(stand, fig(s.Design.Limits.Cost)) + "; whole sheets, as laid out in Cut"})
	case len(cost.Missing) > 0:
		var names []string
		for _, key := range cost.Missing {
			names = append(names, materialName(s.Design, key))
		}
		text := "No cost yet: enter what a sheet costs for " + strings.Join(names, ", ") + "."
		if cost.Total > 0 {
			text = "At least " + fig(cost.Total) + "; prices are missing for " + strings.Join(names, ", ") + "."
		}
		return []block{{kind: kindText, text: text, field: "prices"}}
	}
	return nil
}

// materialName is what people call the material with that key.
func materialName(d engine.Design, key string) string {
	if s, ok := d.Material(key); ok {
		return s.Name
	}
	return key
}

// capital writes the first letter large.
func capital(text string) string {
	for i, r := range text {
		return strings.ToUpper(string(r)) + text[i+len(string(r)):]
	}
	return text
}
