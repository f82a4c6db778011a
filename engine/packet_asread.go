package engine

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// compared sets what was built beside what was designed, as far as either is known; tops
// are the surveys of the finished top.
func (p *packet) compared(tops []int) {
	rows := [][]string{}
	add := func(what, designed, built string) { rows = append(rows, []string{what, designed, built}) }
	if a := p.r.AsBuilt; a != nil {
		for i, sag := range a.Sags {
			if i < len(p.r.Cases) {
				add("Sag under “"+p.r.Cases[i].Name+"”", length.Sag(p.r.Cases[i].Sag, p.f), length.Sag(sag, p.f)+", computed with the marks")
			}
		}
		add("Lowest margin", length.Number(a.DesignedMargin, 3), length.Number(a.Margin, 3)+", computed with the marks")
		add("Weight", length.Mass(p.r.Mass.Total, p.f), length.Mass(a.Mass, p.f)+", computed with the marks")
	}
	result := JudgeProof(p.d, p.proofPlan)
	for i, r := range result.Rounds {
		if r.Fit {
			add(fmt.Sprintf("Stiffness at the gauge, round %d", i+1), InUnits(length.Number(r.Planned, 3)+" N/mm", p.f), InUnits(length.Number(r.Stiffness, 3)+" N/mm", p.f)+", by the proof load")
		}
	}
	if len(tops) > 0 {
		limit := "no limit"
		if p.d.Limits.Flatness > 0 {
			limit = ThinText(p.d.Limits.Flatness, p.f)
		}
		last := p.r.Bed.Surveys[tops[len(tops)-1]]
		add("Flat within", limit, ThinText(last.Flat.Zone, p.f)+", by "+last.Title)
	}
	if planned, took, ok := p.worked(); ok {
		add("Work on the steps that are done", planned, took)
	}
	if len(rows) > 0 {
		p.table([]draw.Column{{Head: "", Width: 70}, {Head: "As designed", Width: 40, Right: true}, {Head: "As built", Width: 70}}, rows)
	}
}

// worked adds up what the steps that are done were to take and took, waits apart.
func (p *packet) worked() (planned, took string, ok bool) {
	low, high, minutes := 0.0, 0.0, 0.0
	for _, s := range p.r.Build.Steps {
		l := p.d.logOf(s.Key)
		began, err1 := time.Parse(time.RFC3339, l.Began)
		ended, err2 := time.Parse(time.RFC3339, l.Ended)
		if s.Wait || err1 != nil || err2 != nil {
			continue
		}
		low, high, minutes, ok = low+s.Low, high+s.High, minutes+ended.Sub(began).Minutes(), true
	}
	return Minutes(low, high), Minutes(minutes, minutes), ok
}

// asRead prints every survey as it was read, line by line.
func (p *packet) asRead() {
	for i, s := range p.d.Surveys {
		if i == 0 {
			p.subheading("Every survey, as it was read")
		}
		of, name := s.Of, s.title(i)
		if of == "" {
			of = TheBed
		}
		p.need(14)
		p.text(capital(name)+", of the "+string(of)+s.whenInWords(), strong)
		if s.Notes != "" {
			p.text(s.Notes, body)
		}
		rows := [][]string{}
		for k, l := range s.Lines {
			if len(l.Readings) == 0 {
				continue
			}
			read := make([]string, len(l.Readings))
			for n, v := range l.Readings {
				read[n] = strings.TrimLeft(HeightText(v, p.f), "+")
			}
			rows = append(rows, []string{strconv.Itoa(k + 1), capital(l.InWords()), strings.Join(read, "; ")})
		}
		if len(rows) == 0 {
			p.text("Nothing was read.", body)
			continue
		}
		p.table([]draw.Column{{Head: "Line", Width: 10, Right: true}, {Head: "Way", Width: 60}, {Head: "Read, " + p.f.Unit(), Width: 110}}, rows)
	}
}

// proofAsRead prints every reading of the proof load.
func (p *packet) proofAsRead() {
	p.subheading("Every reading of the proof load")
	rows := [][]string{}
	for i, r := range p.d.Proof.Rounds {
		for _, q := range r.Readings {
			stage, expected := strconv.Itoa(q.Stage), ""
			if i < len(p.proofPlan.Rounds) && q.Stage >= 0 && q.Stage < len(p.proofPlan.Rounds[i].Stages) {
				s := p.proofPlan.Rounds[i].Stages[q.Stage]
				stage, expected = s.Name, GaugeText(math.Max(0, s.Expected), p.f)
			}
			rows = append(rows, []string{strconv.Itoa(i + 1), stage, expected, clock(q.At), GaugeText(q.Read, p.f), q.Note})
		}
		if r.Cracking {
			rows = append(rows, []string{strconv.Itoa(i + 1), "a noise of cracking, or a crack", "", "", "", ""})
		}
	}
	p.table([]draw.Column{{Head: "Round", Width: 14, Right: true}, {Head: "Stage", Width: 40}, {Head: "Expected", Width: 22, Right: true}, {Head: "Time", Width: 32}, {Head: "Read", Width: 22, Right: true}, {Head: "Remark", Width: 50}}, rows)
	if p.d.Proof.Notes != "" {
		p.text(p.d.Proof.Notes, body)
	}
}

// ribsAsMeasured prints what was measured of the ribs before they were glued.
func (p *packet) ribsAsMeasured() {
	if len(p.d.Measured) == 0 {
		return
	}
	p.subheading("Ribs as they were measured")
	say := func(v float64) string {
		if v == 0 {
			return ""
		}
		return fineText(v, p.f)
	}
	rows := [][]string{}
	for _, m := range p.d.Measured {
		rows = append(rows, []string{m.Part, say(m.Height), say(m.SlotDepth)})
	}
	p.table([]draw.Column{{Head: "Rib", Width: 50}, {Head: "Height", Width: 40, Right: true}, {Head: "Shallowest slot", Width: 40, Right: true}}, rows)
}
