package app

import (
	"fmt"
	"math"
	"strconv"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/engine/proof"
	"flatwright/widgets"
)

// proveCards are what stands beside the readings.
func (v *proveView) proveCards(s Snapshot) []card {
	if !s.Design.Proof.Planned() || !v.planned || v.plan.Refused != "" {
		return []card{proofCautionsCard(s)}
	}
	var cards []card
	begun := false
	for i := range v.plan.Rounds {
		if i < len(v.result.Rounds) {
			cards = append(cards, v.stagesCard(s, i))
			begun = begun || len(v.result.Rounds[i].Points) > 0
		}
	}
	cards = append(cards, v.resultCard(s), v.ratingCard(s), v.readCard(s))
	if !begun {
		return append([]card{proofCautionsCard(s)}, cards...) // read before anything is lifted
	}
	return append(cards, proofCautionsCard(s))
}

// stagesCard is a round stage by stage: what lies on the top, what is expected, what was
// read.
func (v *proveView) stagesCard(s Snapshot, i int) card {
	c := card{title: "Round " + strconv.Itoa(i+1) + ", stage by stage"}
	q := &v.plan.Rounds[i]
	for _, line := range q.Advice {
		c.blocks = append(c.blocks, block{kind: kindText, text: "▲ " + inUnit(line, s.Lengths), standing: widgets.Near, field: "proof.way"})
	}
	read := map[int]float64{}
	for _, p := range v.result.Rounds[i].Points {
		read[p.Stage] = p.Sag
	}
	for k, stage := range q.Stages {
		b := block{kind: kindFigure, text: capital(stage.Name) + ": " + v.plan.StageLoad(stage, s.Lengths), value: length.Sag(stage.Expected, s.Lengths), part: engine.ProofStagePart(i, k),
			note: "range " + length.Sag(math.Max(stage.Low, 0), s.Lengths) + " to " + length.Sag(stage.High, s.Lengths)}
		if sag, there := read[k]; there && k > 0 {
			b.note += "; read " + engine.GaugeText(sag, s.Lengths)
			mark := "● "
			b.standing = widgets.Good
			switch outside := sag > stage.High || sag < stage.Low; {
			case outside && stage.Down: // a set, or a slip of the pen: no reason to stop while it comes off
				b.standing, mark = widgets.Near, "▲ outside the "
			case outside:
				b.standing, mark = widgets.Over, "■ outside the "
			}
			b.note = mark + b.note
		}
		c.blocks = append(c.blocks, b)
	}
	return withBlocks(c, block{kind: kindQuiet, text: "Expected readings are above the first one, with the top's own weight on it already."},
		block{kind: kindQuiet, text: "Never more than " + length.Mass(v.plan.Cap/engine.Gravity, s.Lengths) + ": " + v.plan.CapWhy + "."})
}

func withBlocks(c card, blocks ...block) card {
	c.blocks = append(c.blocks, blocks...)
	return c
}

// resultCard is the stiffness and what explains it.
func (v *proveView) resultCard(s Snapshot) card {
	c := card{title: "What the readings say"}
	for i := range v.result.Rounds {
		r := &v.result.Rounds[i]
		if r.Fit {
			c.blocks = append(c.blocks, block{kind: kindFigure, text: "stiffness at the gauge, round " + strconv.Itoa(i+1), value: springText(r.Stiffness, s.Lengths),
				note: "90 % range " + springText(r.Low, s.Lengths) + " to " + upTo(r.High, s.Lengths) + "; by the plan " + springText(r.Planned, s.Lengths)})
		}
		for _, q := range r.Verdict.Reasons {
			standing, mark := widgets.Near, "▲ "
			if q.Call == proof.Stop {
				standing, mark = widgets.Over, "■ STOP. "
			}
			c.blocks = append(c.blocks, block{kind: kindText, standing: standing, text: mark + inUnit(engine.ProofReasonWords(&v.plan.Rounds[i], r.Points, q), s.Lengths)})
		}
		lines := r.Lines(&v.plan.Rounds[i])
		if r.Fit {
			lines = lines[1:] // the figure says it
		}
		for _, line := range lines {
			c.blocks = append(c.blocks, block{kind: kindText, text: inUnit(line, s.Lengths)})
		}
	}
	for _, line := range v.result.Lines() {
		c.blocks = append(c.blocks, block{kind: kindText, text: inUnit(line, s.Lengths)})
	}
	var inside []block
	for _, e := range v.result.Told.Explanations {
		inside = append(inside, block{kind: kindFigure, text: "the " + e.Name + " alone", value: fig(e.Factor) + " ×", note: fmt.Sprintf("%s of the belief; 90 %% range %s to %s times the plan, %s times what is usual", percent(e.Belief), fig(e.Low), fig(e.High), fig(math.Abs(e.Spreads)))})
	}
	if len(inside) > 0 {
		inside = append(inside, block{kind: kindFigure, text: "nothing: as planned", value: percent(v.result.Told.AsPlanned), note: "of the belief"})
		c.blocks = append(c.blocks, block{kind: kindFold, key: "proof unknowns", text: "Every unknown by itself", inside: inside})
	}
	return c
}

func upTo(v float64, f length.Format) string {
	if math.IsInf(v, 0) {
		return "no upper bound"
	}
	return springText(v, f)
}

// ratingCard is every margin as the readings explain it.
func (v *proveView) ratingCard(s Snapshot) card {
	c := card{title: "Margins as proved"}
	ratings := v.ratingsOf(s)
	switch {
	case v.rating:
		return withBlocks(c, block{kind: kindText, text: "Computing…"})
	case len(ratings) == 0:
		return withBlocks(c, block{kind: kindText, text: "Under Readings, at the end, every margin is rated anew by these readings."})
	}
	c.blocks = append(c.blocks, block{kind: kindQuiet, text: engine.AboutProved})
	for _, r := range ratings {
		var inside []block
		for i, sag := range r.Sags {
			if i < len(s.Design.Cases) {
				inside = append(inside, block{kind: kindFigure, text: "sag under “" + s.Design.Cases[i].Name + "”", value: length.Sag(sag[1], s.Lengths), note: "planned " + length.Sag(sag[0], s.Lengths),
					standing: stands(sag[1], s.Design.Limits.Sag)})
			}
		}
		for _, m := range r.Margins {
			inside = append(inside, block{kind: kindFigure, text: m.Proved.Name, value: fig(m.Proved.Value), standing: standsAbove(m.Proved.Value, 1), note: "planned " + fig(m.Planned.Value) + "; " + inUnit(m.Proved.Where, s.Lengths)})
		}
		lowest := ""
		if len(r.Margins) > 0 {
			lowest = fig(r.Margins[0].Proved.Value)
		}
		c.blocks = append(c.blocks,
			block{kind: kindFigure, text: "lowest margin, were it the " + r.Name, value: lowest, note: fig(r.Factor) + " times the plan, " + percent(r.Belief) + " of the belief"},
			block{kind: kindFold, key: "proved " + r.Name, text: "Every sag and margin then", inside: inside})
	}
	return c
}

// readCard is how to set up and read.
func (v *proveView) readCard(s Snapshot) card {
	c := card{title: "How to read it"}
	for _, line := range s.Design.HowItIsRead() {
		c.blocks = append(c.blocks, block{kind: kindText, text: "• " + inUnit(line, s.Lengths)})
	}
	var inside []block
	for _, line := range v.plan.Rounds[0].WaysAgainst(s.Design.Proof) {
		inside = append(inside, block{kind: kindText, text: inUnit(line, s.Lengths)})
	}
	return withBlocks(c, block{kind: kindFold, key: "proof ways", text: "Which way of reading sees enough", inside: inside})
}

// proofCautionsCard is what comes before every proof load, and when to stop.
func proofCautionsCard(s Snapshot) card {
	c := card{title: "Before you load it"}
	for _, text := range engine.ProofCautions {
		c.blocks = append(c.blocks, block{kind: kindText, text: "▲ " + inUnit(text, s.Lengths), standing: widgets.Near})
	}
	c.blocks = append(c.blocks, block{kind: kindQuiet, text: "Stop and take the load off at:"})
	for _, text := range engine.ProofStopRule {
		c.blocks = append(c.blocks, block{kind: kindText, text: "■ " + text, standing: widgets.Over})
	}
	return c
}
