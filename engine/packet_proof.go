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
	p.subheading("What explains it")
	for _, line := range result.Lines() {
		p.text("• "+line, body)
	}
	if p.d.Proof.Notes != "" {
		p.text(p.d.Proof.Notes, body)
	}
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

// GaugeText prints what a gauge shows, to its sign.
func GaugeText(mm float64, f length.Format) string {
	text := length.Sag(math.Abs(mm), f)
	if mm < 0 {
		return "−" + text
	}
	return text
}
