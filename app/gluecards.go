package app

import (
	"strconv"
	"strings"

	"flatwright/engine"
	"flatwright/widgets"
)

// bedCards are what stands beside the bed.
func bedCards(s Snapshot) []card {
	cards := []card{gluingCard(s)}
	for i := range s.Result.Bed.Surveys {
		if i < len(s.Design.Surveys) {
			cards = append(cards, surveyCard(s, i))
		}
	}
	if rows := s.Result.Bed.Series(s.Design, s.Lengths); len(rows) > 0 {
		c := card{title: "The top over time"}
		for _, r := range rows {
			c.blocks = append(c.blocks, block{kind: kindFigure, text: r.Name, value: r.Flat,
				note: joinedBy(", ", r.When, r.Humidity, "bow along "+r.BowAlong, "across "+r.BowAcross, "wind "+r.Wind)})
		}
		cards = append(cards, c)
	}
	return append(cards, keptCard(s))
}

// joinedBy joins those texts that say something.
func joinedBy(sign string, texts ...string) string {
	var some []string
	for _, t := range texts {
		if t != "" {
			some = append(some, t)
		}
	}
	return strings.Join(some, sign)
}

// gluingCard tells which way gives the flattest top.
func gluingCard(s Snapshot) card {
	c := card{title: "Gluing on this bed"}
	b := &s.Result.Bed
	if !b.Laid() {
		c.blocks = append(c.blocks, block{kind: kindText, text: "The bed was not measured yet. Press here to add a survey.", field: "surveys"})
		for _, text := range engine.HowToSurvey {
			c.blocks = append(c.blocks, block{kind: kindQuiet, text: text})
		}
		return c
	}
	best := b.Ways[b.Best]
	limit := s.Design.Limits.Flatness
	c.blocks = append(c.blocks, block{kind: kindFigure, text: "flat within, at best", value: flatText(s, best.Flat), standing: stands(best.Flat, limit), field: "limits.flatness",
		note: limitNote(stands(best.Flat, limit), flatText(s, limit)) + "; the top as it comes off the bed, before it is loaded"})
	for _, text := range b.Advice(s.Design, s.Lengths) {
		c.blocks = append(c.blocks, block{kind: kindText, text: text})
	}
	var inside []block
	for _, w := range b.Ways {
		if w.Order != engine.OneByOne { // as both at once, and said so
			inside = append(inside, block{kind: kindFigure, text: capital(w.Order.WithSame()), value: flatText(s, w.Flat), standing: stands(w.Flat, limit),
				note: b.Plans[w.Plan].Name + ", " + countOf(len(b.Plans[w.Plan].Shims), "place", "places") + "; the bed is then flat within " + flatText(s, b.Plans[w.Plan].Bed.Zone)})
		}
	}
	c.blocks = append(c.blocks, block{kind: kindFold, key: "ways", text: "Every order of gluing, with and without shims", inside: inside})
	inside = nil
	for _, shim := range b.Plans[best.Plan].Shims {
		inside = append(inside, block{kind: kindFigure, text: shim.Station, value: flatText(s, shim.Thickness), note: shim.StackInWords(s.Lengths)})
	}
	if len(inside) > 0 {
		c.blocks = append(c.blocks, block{kind: kindFold, key: "shims", text: "What to lay where, " + countOf(len(inside), "place", "places"), inside: inside})
	}
	return c
}

// flatText prints a flatness or a thickness.
func flatText(s Snapshot, mm float64) string { return engine.ThinText(mm, s.Lengths) }

// surveyCard tells of one survey.
func surveyCard(s Snapshot, i int) card {
	r := &s.Result.Bed.Surveys[i]
	c := card{title: surveyName(s.Design.Surveys[i], i) + ", of the " + string(r.Of)}
	for _, text := range r.Lines(s.Lengths) {
		c.blocks = append(c.blocks, block{kind: kindText, text: text})
	}
	for _, bad := range r.Bad {
		q := r.Readings[bad.Reading]
		c.blocks = append(c.blocks, block{kind: kindText, text: "■ " + inUnit(bad.Text, s.Lengths), standing: widgets.Over, field: path("surveys[%d].lines[%d].readings", i, q.Line)})
	}
	var inside []block
	for _, q := range r.Readings {
		note := "misclosure " + engine.HeightText(q.Misclosure, s.Lengths) + "; a slip of " + flatText(s, q.Notices) + " would be noticed"
		switch {
		case q.Out:
			note = "left out; the others say it is " + flatText(s, q.Misclosure) + " off"
		case q.Unchecked:
			note = "no other reading checks it"
		}
		inside = append(inside, block{kind: kindFigure, text: "line " + strconv.Itoa(q.Line+1) + " at " + q.Station, value: smallLength.print(q.Read, s.Lengths) + " " + s.Lengths.Unit(), note: note,
			field: path("surveys[%d].lines[%d].readings", i, q.Line)})
	}
	if len(inside) > 0 {
		c.blocks = append(c.blocks, block{kind: kindFold, key: "readings " + strconv.Itoa(i), text: "Every reading, and how it fits the others", inside: inside})
	}
	return c
}

// keptCard tells how much of a bed's shape the panel keeps.
func keptCard(s Snapshot) card {
	c := card{title: "What the top keeps of its bed"}
	for _, text := range s.Result.Bed.Kept.Lines() {
		c.blocks = append(c.blocks, block{kind: kindText, text: text})
	}
	return card{c.title, append(c.blocks, block{kind: kindQuiet, text: engine.AboutKept}, block{kind: kindQuiet, text: engine.AboutFlatness})}
}
