package engine

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// record prints what was noted of the build and measured of the finished top,
// beside what was planned. It is empty while nothing is.
func (p *packet) record() {
	tops := p.surveysOf(TheTop)
	proved := slices.ContainsFunc(p.d.Proof.Rounds, func(r ProofRound) bool { return len(r.Readings) > 0 || r.Cracking })
	if len(p.d.Log) == 0 && len(p.d.Surveys) == 0 && len(p.d.Built) == 0 && len(p.d.Measured) == 0 && !proved {
		return
	}
	p.open("Record: as designed, as built", p.paper)
	p.compared(tops)
	if p.d.Notes != "" {
		p.text(p.d.Notes, body)
	}
	if len(p.d.Log) > 0 {
		p.buildLog()
	}
	if len(p.d.Built) > 0 {
		p.subheading("Made otherwise, and what can be done about it")
		for _, m := range p.d.Mends(p.r) {
			p.text(InUnits(m.What, p.f), strong)
			for _, way := range m.Ways {
				p.text("• "+InUnits(way, p.f), body)
			}
		}
	}
	if len(tops) > 0 {
		p.topSurveys(tops)
	}
	p.asRead()
	if proved {
		p.proofAsRead()
	}
	p.ribsAsMeasured()
}

// buildLog prints the times of the steps.
func (p *packet) buildLog() {
	p.subheading("The steps as they went")
	rows := [][]string{}
	for _, s := range p.loggedSteps() {
		l := p.d.logOf(s.Key)
		began, err1 := time.Parse(time.RFC3339, l.Began)
		ended, err2 := time.Parse(time.RFC3339, l.Ended)
		row := []string{s.Name, "", "", "", "", l.Note}
		if s.High > 0 {
			row[1] = Minutes(s.Low, s.High)
		}
		if err1 == nil {
			row[2] = DayText(began)
		}
		if err1 == nil && err2 == nil {
			row[3] = tookText(ended.Sub(began))
		}
		if l.Measured {
			row[4] = strconv.FormatFloat(l.Celsius, 'f', -1, 64) + " °C"
		}
		rows = append(rows, row)
	}
	p.table([]draw.Column{{Head: "Step", Width: 46}, {Head: "Planned", Width: 24, Right: true}, {Head: "Began", Width: 30}, {Head: "Took", Width: 20, Right: true}, {Head: "", Width: 16, Right: true}, {Head: "Remarks", Width: 50}}, rows)
}

// tookText prints how long a step took: of less than a minute its seconds.
func tookText(took time.Duration) string {
	if took < time.Minute {
		return strconv.Itoa(int(took.Round(time.Second).Seconds())) + " s"
	}
	return Minutes(took.Minutes(), took.Minutes())
}

// loggedSteps are the steps of the plan and, after them, those that something was noted
// of before the plan became another.
func (p *packet) loggedSteps() []BuildStep {
	steps := slices.Clip(p.r.Build.Steps)
	for _, l := range p.d.Log {
		if !slices.ContainsFunc(steps, func(s BuildStep) bool { return s.Key == l.Step }) {
			steps = append(steps, BuildStep{Key: l.Step, Name: "no longer planned: " + strings.ReplaceAll(l.Step, "-", " ")})
		}
	}
	return steps
}

// surveysOf returns the indices of the surveys of one thing that make a surface.
func (p *packet) surveysOf(thing SurveyedThing) []int {
	var out []int
	for i, s := range p.r.Bed.Surveys {
		if s.Of == thing && s.Flat != nil && i < len(p.d.Surveys) {
			out = append(out, i)
		}
	}
	return out
}

// topSurveys prints the series of surveys of the finished top.
func (p *packet) topSurveys(tops []int) {
	p.subheading("The finished top, measured again and again")
	rows := [][]string{}
	for _, i := range tops {
		s, r := p.d.Surveys[i], p.r.Bed.Surveys[i]
		air := ""
		if s.Humidity > 0 {
			air = length.Number(s.Humidity, 2) + " %"
		}
		wind := "not told"
		if r.Wind.Told {
			wind = length.Sag(r.Wind.Value, p.f)
		}
		rows = append(rows, []string{r.Title, strings.Replace(s.Taken, "T", " ", 1), air, length.Sag(r.Flat.Zone, p.f), wind, s.Notes})
	}
	p.table([]draw.Column{{Head: "Survey", Width: 40}, {Head: "Taken", Width: 32}, {Head: "Humidity", Width: 18, Right: true}, {Head: "Flatness", Width: 22, Right: true}, {Head: "Wind", Width: 22, Right: true}, {Head: "Notes", Width: 50}}, rows)
	p.text("Flatness is the distance of the two nearest parallel planes between which the whole surface lies (ISO 1101, from memory). What changes from one survey to the next at another humidity is the wood's; what stays was glued in.", body)
}
