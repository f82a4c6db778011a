package engine

import (
	"fmt"
	"strings"

	"flatwright/engine/draw"
)

// bed prints the surveys, the shims to place and how much of the bed the panel
// keeps.
func (p *packet) bed() {
	b := &p.r.Bed
	p.section("Bed and flatness")
	p.text(AboutKept, body)
	for _, line := range b.Kept.Lines() {
		p.text("• "+line, body)
	}
	if len(b.Surveys) == 0 {
		p.blankSurvey()
		return
	}
	p.y += 2
	p.text(AboutFlatness, body)
	p.gluing()
	for i := range b.Surveys {
		p.survey(i)
	}
	p.series()
}

// series prints the finished top over time.
func (p *packet) series() {
	rows := [][]string{}
	for _, s := range p.r.Bed.Series(p.d, p.f) {
		rows = append(rows, []string{s.Name, s.When, s.Humidity, s.Flat, s.BowAlong, s.BowAcross, s.Wind})
	}
	if len(rows) == 0 {
		return
	}
	p.need(40)
	p.subheading("The top over time")
	unit := ", " + p.f.Unit()
	p.table([]draw.Column{{Head: "Survey", Width: 50}, {Head: "Taken", Width: 28}, {Head: "Humidity", Width: 18, Right: true}, {Head: "Flat within", Width: 22, Right: true},
		{Head: "Bow along" + unit, Width: 24, Right: true}, {Head: "Bow across" + unit, Width: 24, Right: true}, {Head: "Wind" + unit, Width: 20, Right: true}}, rows)
}

// blankSurvey prints how to survey a bed that was not surveyed yet.
func (p *packet) blankSurvey() {
	p.subheading("The bed was not surveyed yet")
	for _, line := range HowToSurvey {
		p.text("• "+line, body)
	}
}

// HowToSurvey says how a bed is measured with what a shop has.
var HowToSurvey = []string{
	"Mark a grid of stations, columns A, B, C… from the left and rows 1, 2, 3… from the front, no farther apart than two ribs.",
	"Stand a straightedge on two equal blocks over the first and the last station of every row and every column, and feel the gap at each station between.",
	"Do the same over both diagonals, or lay winding sticks across both ends: rows and columns alone cannot tell wind.",
	"Turn the straightedge end for end and read one line again: if the readings turn with it, the edge is bent, not the bed.",
	"Shim low places, read again, and glue only when the wind is out.",
}

// gluing prints the ways to glue on the bed and what to lay where.
func (p *packet) gluing() {
	b := &p.r.Bed
	if !b.Laid() {
		return
	}
	p.subheading("Gluing on this bed")
	for _, line := range b.Advice(p.d, p.f) {
		p.text("• "+line, body)
	}
	p.y += 2
	rows := [][]string{}
	for i, w := range b.Ways {
		if w.Order == OneByOne {
			continue // as both at once, and said so
		}
		mark := ""
		switch i {
		case b.Best:
			mark = "flattest"
		case b.Least:
			mark = "least work"
		}
		plan := b.Plans[w.Plan]
		rows = append(rows, []string{w.Order.WithSame(), plan.Name, fmt.Sprint(len(plan.Shims)), ThinText(plan.Bed.Zone, p.f), ThinText(w.Flat, p.f), mark})
	}
	p.table([]draw.Column{{Head: "Order of gluing", Width: 60}, {Head: "On the bed", Width: 42}, {Head: "Shims", Width: 14, Right: true},
		{Head: "Bed left", Width: 22, Right: true}, {Head: "Top flat within", Width: 24, Right: true}, {Head: "", Width: 20}}, rows)
	p.need(85)
	p.subheading("The bed, and the top that comes off it")
	fig, times := BedSection(p.d, p.r, p.f)
	p.figure(fig, min(p.room(), 75))
	p.text(BedSectionCaption(times), small)
	best := b.Ways[b.Best].Plan
	if len(b.Plans[best].Shims) == 0 {
		return
	}
	p.need(100)
	p.subheading("What to lay where, in " + UnitWord(p.f))
	p.figure(ShimMap(p.d, p.r, best, p.f), min(p.room(), 90))
	p.shims(b.Plans[best])
}

// figure puts a figure on the page as large as it fits into the width and most
// mm of height, not to a scale to measure by.
func (p *packet) figure(f draw.Figure, most float64) {
	const beside, around = 16, 12 // for notes that reach out of the figure
	box := f.Bounds()
	scale := max(box.Width()/(p.width()-beside), box.Height()/(most-around))
	height := box.Height()/scale + around
	at := draw.Rect{Min: draw.Point{X: margin, Y: p.y}, Max: draw.Point{X: p.page.Width - margin, Y: p.y + height}}
	p.page.Place(f, at, scale)
	p.y += height
}

// shims prints the shims of a plan.
func (p *packet) shims(plan ShimPlan) {
	rows := [][]string{}
	for _, s := range plan.Shims {
		rows = append(rows, []string{s.Station, p.length(s.X), p.length(s.Y), ThinText(s.Gap, p.f), s.StackInWords(p.f)})
	}
	p.table([]draw.Column{{Head: "Station", Width: 20}, {Head: "From the left", Width: 30, Right: true}, {Head: "From the front", Width: 30, Right: true},
		{Head: "Gap", Width: 26, Right: true}, {Head: "Shim", Width: 60}}, rows)
}

// survey prints one survey: map, figures and readings.
func (p *packet) survey(i int) {
	s, typed := &p.r.Bed.Surveys[i], &p.d.Surveys[i]
	p.need(60)
	p.subheading(fmt.Sprintf("%s, of the %s%s", s.Title, s.Of, typed.whenInWords()))
	if typed.Notes != "" {
		p.text(typed.Notes, body)
	}
	for _, line := range s.Lines(p.f) {
		p.text("• "+line, body)
	}
	for _, bad := range s.Bad {
		p.text("■ "+InUnits(bad.Text, p.f), body)
	}
	if fig := BedMap(p.d, p.r, i, p.f); len(fig.Areas) > 0 {
		p.need(95)
		p.figure(fig, min(p.room(), 95))
	}
	p.readings(i)
}

// whenInWords says when and in which air a survey was taken.
func (s *Survey) whenInWords() string {
	text := ""
	if s.Taken != "" {
		text = ", " + clock(s.Taken)
	}
	if s.Humidity > 0 {
		text += fmt.Sprintf(", %g %% relative humidity", s.Humidity)
	}
	return text
}

// readings prints every reading with its misclosure.
func (p *packet) readings(i int) {
	s := &p.r.Bed.Surveys[i]
	bad := map[int]string{}
	for _, b := range s.Bad {
		bad[b.Reading] = "read again"
		for _, k := range b.Or {
			bad[k] = "read again"
		}
	}
	rows := [][]string{}
	for k, q := range s.Readings {
		misclosure, notices := HeightText(q.Misclosure, p.f), HeightText(q.Notices, p.f)
		if q.Unchecked {
			misclosure, notices = "unchecked", ""
		}
		note := bad[k]
		if q.Out {
			notices, note = "", "left out"
		}
		rows = append(rows, []string{fmt.Sprint(q.Line + 1), p.d.Surveys[i].Lines[q.Line].InWords(), q.Station, strings.TrimLeft(HeightText(q.Read, p.f), "+"), HeightText(q.Left, p.f), misclosure, strings.TrimLeft(notices, "+"), note})
	}
	if len(rows) == 0 {
		return
	}
	unit := " " + p.f.Unit()
	p.table([]draw.Column{{Head: "Line", Width: 10, Right: true}, {Head: "Way", Width: 52}, {Head: "Station", Width: 16}, {Head: "Read," + unit, Width: 20, Right: true}, {Head: "Left," + unit, Width: 18, Right: true},
		{Head: "Misclosure," + unit, Width: 24, Right: true}, {Head: "Would notice," + unit, Width: 24, Right: true}, {Head: "", Width: 20}}, rows)
}
