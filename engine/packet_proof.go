package engine

import (
	"fmt"
	"math"
	"strconv"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// proof prints the proof load as a form to fill in, and what was read so far. A design
// without one has no page.
func (p *packet) proof() {
	if !p.d.Proof.Planned() {
		return
	}
	p.open("Proof load", p.paper)
	plan := p.proofPlan
	if plan.Refused != "" {
		p.text(InUnits(plan.Refused, p.f), body)
		return
	}
	for _, c := range ProofCautions {
		p.text("▲ "+InUnits(c, p.f), body)
	}
	p.subheading("Stop and take the load off")
	for _, c := range ProofStopRule {
		p.text("• "+c, body)
	}
	p.subheading("What is stacked, and how it is read")
	p.text(fmt.Sprintf("Pieces: %s, %s each (%s). Never more than %s, which is %s.", plan.Piece.Name, length.Mass(plan.Piece.Piece, p.f), plan.Piece.Source, length.Mass(plan.Cap/Gravity, p.f), plan.CapWhy), body)
	for _, line := range p.d.HowItIsRead() {
		p.text("• "+InUnits(line, p.f), body)
	}
	result := JudgeProof(p.d, plan)
	for i := range plan.Rounds {
		p.proofRound(i, result)
	}
	p.need(50)
	p.subheading("Which way of reading sees enough")
	for i, line := range plan.Rounds[0].WaysAgainst(p.d.Proof) {
		p.text([...]string{"", "• "}[truth(i > 0)]+InUnits(line, p.f), body)
	}
	p.subheading("What explains it")
	for _, line := range result.Lines() {
		p.text("• "+line, body)
	}
	p.provedMargins(result)
	if p.d.Proof.Notes != "" {
		p.text(p.d.Proof.Notes, body)
	}
}

// AboutProved says what margins as proved rest on.
const AboutProved = "The whole panel was computed once more with the fitted figure, and every margin with it. Stiffness was measured, strength was not: what a part takes stays that of the catalogue, but for buckling, which goes by stiffness; so a margin changes by how the load finds its way. A limp sheet is often a weak one too."

// provedMargins prints every sag and margin as the readings explain them, a column for
// each explanation that is worth its belief.
func (p *packet) provedMargins(result ProofResult) {
	if len(p.proved) == 0 {
		return
	}
	p.need(60)
	p.subheading("As proved")
	p.text(AboutProved, body)
	columns := []draw.Column{{Head: "", Width: 80}, {Head: "Planned", Width: 20, Right: true}}
	for i, r := range p.proved {
		letter := string(rune('A' + i))
		columns = append(columns, draw.Column{Head: letter, Width: 20, Right: true})
		text := fmt.Sprintf("• %s: were it the %s alone, %.2f times the plan (%.0f %% of the belief).", letter, r.Name, r.Factor, 100*r.Belief)
		for k, reads := range r.Reads {
			text += fmt.Sprintf(" The gauge of round %d would then read %s under the fullest stage%s.", k+1, GaugeText(reads, p.f), p.readThere(k, result))
		}
		p.text(text, body)
	}
	p.table(columns, p.provedRows())
}

// readThere says what was read under the fullest stage of a round.
func (p *packet) readThere(round int, result ProofResult) string {
	q := &p.proofPlan.Rounds[round]
	full := q.full()
	for _, at := range result.Rounds[round].Points {
		if s := q.Stages[at.Stage]; s.Force == full.Force && !s.Down {
			return ", and " + GaugeText(at.Sag, p.f) + " was read"
		}
	}
	return ""
}

// provedRows are the sags and margins in the order of the first explanation.
func (p *packet) provedRows() [][]string {
	rows := [][]string{}
	for i, sag := range p.proved[0].Sags {
		if i >= len(p.d.Cases) {
			break
		}
		row := []string{"Sag under “" + p.d.Cases[i].Name + "”", length.Sag(sag[0], p.f)}
		for _, r := range p.proved {
			row = append(row, length.Sag(r.Sags[i][1], p.f))
		}
		rows = append(rows, row)
	}
	for _, m := range p.proved[0].Margins {
		row := []string{"Margin: " + m.Proved.Name, length.Number(m.Planned.Value, 3)}
		for _, r := range p.proved {
			row = append(row, length.Number(r.margin(m.Proved).Value, 3))
		}
		rows = append(rows, row)
	}
	return rows
}

// margin returns the margin as proved with the code of another.
func (r *ProofRating) margin(m Margin) Margin {
	for _, q := range r.Margins {
		if q.Proved.Code == m.Code {
			return q.Proved
		}
	}
	return Margin{}
}

// proofRound prints one round: plan, stages with blanks or readings, plot, result.
func (p *packet) proofRound(i int, result ProofResult) {
	q := &p.proofPlan.Rounds[i]
	round, read := p.d.Proof.Rounds[i], &result.Rounds[i]
	p.need(110)
	p.subheading(fmt.Sprintf("Round %d: stack with its middle %s from the left end, %s from the front edge, on %s × %s", i+1, p.length(round.X), p.length(round.Y), p.length(round.SizeX), p.length(round.SizeY)))
	for _, line := range q.Advice {
		p.text("■ "+InUnits(line, p.f), body)
	}
	p.figure(ProofPlanDrawing(p.d, p.proofPlan, i), min(p.room(), 60))
	rows := [][]string{}
	for k, s := range q.Stages {
		rows = append(rows, append([]string{strconv.Itoa(k), s.Name, p.proofPlan.StageLoad(s, p.f), GaugeText(s.Expected, p.f), GaugeText(math.Max(s.Low, 0), p.f) + " to " + GaugeText(s.High, p.f)}, p.proofRead(i, k)...))
	}
	p.table([]draw.Column{{Head: "", Width: 6}, {Head: "Stage", Width: 24}, {Head: "On the top", Width: 36}, {Head: "Expected", Width: 20, Right: true}, {Head: "90 % range", Width: 39},
		{Head: "Time", Width: 22}, {Head: "Read at once", Width: 21}, {Head: "After hold", Width: 21}}, rows)
	p.text("Expected and range are above the first reading.", small)
	if m := q.Lowest; m.Code != "" {
		p.text(fmt.Sprintf("Lowest margin under the fullest stage, with the reserves of the code: %s (%s).", length.Number(m.Value, 3), m.Name), small)
	}
	p.everyReading(i)
	if len(read.Points) == 0 {
		return
	}
	if words := ProofCallWords(read.Verdict.Call); words != "" {
		p.text(words, big)
	}
	for _, why := range read.Verdict.Reasons {
		p.text("■ "+InUnits(ProofReasonWords(q, read.Points, why), p.f), body)
	}
	for _, line := range read.Lines(q) {
		p.text("• "+InUnits(line, p.f), body)
	}
	p.need(85)
	p.figure(ProofPlot(p.proofPlan, result, i, draw.Point{}, p.f), min(p.room(), 85))
}

// proofRead returns when a stage was read and its first and last reading; lines to write
// on where it was not.
func (p *packet) proofRead(round, stage int) []string {
	const blank = "__________"
	out := []string{blank, blank, blank}
	first := true
	for _, q := range p.d.Proof.Rounds[round].Readings {
		if q.Stage != stage {
			continue
		}
		if first {
			out[0], out[1], first = clock(q.At), GaugeText(q.Read, p.f), false
			continue
		}
		out[2] = GaugeText(q.Read, p.f)
	}
	return out
}

// everyReading prints the readings of a round one by one, with their remarks, where the
// table of the stages has no room for all.
func (p *packet) everyReading(round int) {
	plan, each := &p.proofPlan.Rounds[round], map[int]int{}
	rows, more := [][]string{}, false
	for _, q := range p.d.Proof.Rounds[round].Readings {
		name := fmt.Sprintf("%d, which the plan does not have", q.Stage)
		if q.Stage >= 0 && q.Stage < len(plan.Stages) {
			name = strconv.Itoa(q.Stage) + ", " + plan.Stages[q.Stage].Name
		}
		each[q.Stage]++
		more = more || each[q.Stage] > 2 || q.Note != "" || q.Stage < 0 || q.Stage >= len(plan.Stages)
		rows = append(rows, []string{name, clock(q.At), GaugeText(q.Read, p.f), q.Note})
	}
	if p.d.Proof.Rounds[round].Cracking {
		p.text("■ A noise of cracking was heard, or a crack seen, in this round.", body)
	}
	if more {
		p.text("Every reading", strong)
		p.table([]draw.Column{{Head: "Stage", Width: 60}, {Head: "Time", Width: 30}, {Head: "Read", Width: 25, Right: true}, {Head: "Remark", Width: 65}}, rows)
	}
}

// GaugeText prints what a gauge shows, to its sign.
func GaugeText(mm float64, f length.Format) string {
	text := length.Sag(math.Abs(mm), f)
	if mm < 0 {
		return "−" + text
	}
	return text
}
