package engine

import (
	"context"
	"fmt"
	"math"
	"time"

	"flatwright/engine/catalog"
	"flatwright/engine/length"
	"flatwright/engine/proof"
)

// ProofResult is what the readings say so far.
type ProofResult struct {
	Rounds []ProofRoundResult
	Told   proof.Told // of all rounds together; without Explanations where too little was read
	Call   proof.Call // the worst of all rounds
}

// ProofRoundResult is what the readings of one round say.
type ProofRoundResult struct {
	Points  []ProofPoint // one for each stage read, in the order taken
	Verdict proof.Verdict
	Line    proof.Line
	After   proof.Back
	Crept   []proof.Crept // as Points

	Fitted    proof.Fitted
	Fit       bool    // there is enough read for Fitted and what follows
	Stiffness float64 // load over sag at the gauge, N/mm, with its 90 % range
	Low, High float64
	Planned   float64 // by the plan, N/mm
	Next      int     // stage to read next, −1 if none
}

// ProofPoint is the last reading of a stage, above the first reading.
type ProofPoint struct {
	Stage int
	Sag   float64 // mm
}

// JudgeProof judges the readings of a design against its plan. Readings of stages that
// the plan does not have are left out. It computes no panel and takes no time.
func JudgeProof(d Design, p ProofPlan) ProofResult {
	var out ProofResult
	var all []proof.Reading
	var known proof.Known
	for i := range min(len(p.Rounds), len(d.Proof.Rounds)) {
		readings, holds, result := d.roundReadings(i, p)
		plan := &p.Rounds[i]
		result.judge(readings, holds, d.Proof.Rounds[i].Cracking, plan)
		out.Call = max(out.Call, result.Verdict.Call)
		out.Rounds = append(out.Rounds, result)
		if result.Fit {
			all = append(all, readings...)
			known = plan.Known
		}
	}
	if told, err := proof.Explain(all, p.Unknowns, known); err == nil {
		out.Told = told
	}
	return out
}

// roundReadings gathers the readings of a round by stage: the last of each for the line,
// all for creep.
func (d *Design) roundReadings(i int, p ProofPlan) ([]proof.Reading, []proof.Hold, ProofRoundResult) {
	round, plan := &d.Proof.Rounds[i], &p.Rounds[i]
	out := ProofRoundResult{Next: 0}
	var readings []proof.Reading
	var holds []proof.Hold
	sign := 1.0
	if d.Proof.Falls {
		sign = -1
	}
	seen := map[int]int{}
	var began []time.Time
	for k, q := range round.Readings {
		if q.Stage < 0 || q.Stage >= len(plan.Stages) || k >= maxProofRead {
			continue
		}
		at, there := seen[q.Stage]
		taken, err := time.Parse(ClockLayout, q.At)
		if !there {
			at = len(readings)
			seen[q.Stage] = at
			s := plan.Stages[q.Stage]
			readings = append(readings, proof.Reading{Load: s.Force, Expected: s.Expected, Unloading: s.Down, Slopes: s.Slopes, Round: i})
			holds, began = append(holds, proof.Hold{}), append(began, taken)
			out.Points = append(out.Points, ProofPoint{Stage: q.Stage})
		}
		readings[at].Read = sign * q.Read
		if err == nil {
			holds[at].Minutes = append(holds[at].Minutes, taken.Sub(began[at]).Minutes())
			holds[at].Read = append(holds[at].Read, sign*q.Read)
		}
	}
	for k := range readings {
		out.Points[k].Sag = readings[k].Read - readings[0].Read
	}
	for s := range plan.Stages {
		if _, there := seen[s]; !there {
			out.Next = s
			return readings, holds, out
		}
	}
	out.Next = -1
	return readings, holds, out
}

// judge fills in what the readings say.
func (r *ProofRoundResult) judge(readings []proof.Reading, holds []proof.Hold, cracking bool, plan *ProofRoundPlan) {
	blind := plan.Known
	r.Verdict = proof.Judge(readings, holds, cracking, plan.Known)
	if r.Verdict.Call == proof.Stop {
		r.Next = -1
	}
	r.Line = proof.Straight(readings, plan.Known)
	for k, h := range holds {
		r.Crept = append(r.Crept, proof.Creeping(h, readings[k].Expected, plan.Known))
	}
	blind.Spread = 0 // by the readings alone
	f, err := proof.Fit(readings, blind)
	if err != nil {
		return
	}
	r.Fitted, r.Fit = f, true
	full := plan.full()
	r.Stiffness, r.Low, r.High = f.Stiffness(full.Force, full.Expected)
	r.Planned = full.Force / full.Expected
	r.After = proof.After(readings, f, plan.Known)
}

// full is the stage with the most load.
func (p *ProofRoundPlan) full() ProofStage {
	var out ProofStage
	for _, s := range p.Stages {
		if s.Force > out.Force {
			out = s
		}
	}
	return out
}

// ProofRating is the top re-rated as one explanation has it.
type ProofRating struct {
	Name    string // of the unknown that explains it
	Factor  float64
	Belief  float64
	Reads   []float64    // what the gauge of each round would read at its fullest stage, mm, by this model
	Margins []MarginPair // lowest as proved first
	Sags    [][2]float64 // of every load case, as planned and as proved, mm
}

// MarginPair is one margin as planned and as proved.
type MarginPair struct{ Planned, Proved Margin }

// worthRating is the least belief at which an explanation is re-rated; common
// practice, no source.
const worthRating = 0.05

// RateProof re-rates every margin as the readings explain them: the whole panel is
// computed once more for each explanation that is worth its belief, with the figures
// of its unknown scaled. If there is none, it is empty. It returns the error of ctx.
func RateProof(ctx context.Context, d Design, p ProofPlan, r ProofResult) ([]ProofRating, error) {
	if p.Refused != "" || len(r.Told.Explanations) != proofUnknowns {
		return nil, ctx.Err()
	}
	made := d.measured()
	planned, plannedSags, err := made.ratedMargins(ctx)
	if err != nil {
		return nil, err
	}
	var out []ProofRating
	for j, e := range r.Told.Explanations {
		if e.Belief < worthRating {
			continue
		}
		proved := made.scaled(j, e.Factor)
		margins, sags, err := proved.ratedMargins(ctx)
		if err != nil {
			return nil, err
		}
		rating := ProofRating{Name: e.Name, Factor: e.Factor, Belief: e.Belief}
		for _, m := range margins {
			rating.Margins = append(rating.Margins, MarginPair{Planned: sameMargin(planned, m), Proved: m})
		}
		for i := range min(len(sags), len(plannedSags)) {
			rating.Sags = append(rating.Sags, [2]float64{plannedSags[i], sags[i]})
		}
		if rating.Reads, err = proved.provedReads(ctx, p); err != nil {
			return nil, err
		}
		out = append(out, rating)
	}
	return out, ctx.Err()
}

// sameMargin returns the margin with the code of another, the zero Margin if there is
// none.
func sameMargin(list []Margin, m Margin) Margin {
	for _, q := range list {
		if q.Code == m.Code {
			return q
		}
	}
	return Margin{}
}

// scaled returns the design with the figures of one unknown scaled: every kind of part
// gets a material of its own, so that a sheet used in two places is not scaled twice.
func (d *Design) scaled(unknown int, factor float64) Design {
	e := d.Clone()
	m := d.materials()
	proofUnknownList[unknown].vary(&m, factor)
	own := func(key *string, part string, s catalog.Sheet) {
		s.Key = *key + " proved " + part
		s.Steps, s.Thicknesses, s.EPlyAlong, s.EPlyAcross = nil, nil, 0, 0 // as at this thickness
		e.Own = append(e.Own, s)
		*key = s.Key
	}
	own(&e.TopSkin.Material, "top", m.top)
	own(&e.BottomSkin.Material, "bottom", m.bottom)
	own(&e.Lengthwise.Material, "lengthwise", m.lengthwise)
	own(&e.Crosswise.Material, "crosswise", m.crosswise)
	return e
}

// provedReads is what the gauge of each round would read at its fullest stage.
func (d *Design) provedReads(ctx context.Context, p ProofPlan) ([]float64, error) {
	m := d.materials()
	model, err := prepare(ctx, d, Normal)
	if err != nil {
		return nil, err
	}
	mo := newModel(d, &m, false)
	top := proofTop{model.model, d.Press(Load{Kind: Uniform, Force: mo.weight})}
	var out []float64
	for i := range p.Rounds {
		nothing, err := d.expected(ctx, top, d.Proof.Rounds[i], 0, 0)
		if err != nil {
			return nil, err
		}
		v, err := d.expected(ctx, top, d.Proof.Rounds[i], p.Rounds[i].full().Force, nothing)
		if err != nil {
			return nil, err
		}
		out = append(out, v)
	}
	return out, nil
}

// Rating lines and what the verdict means follow in words.

// ProofCallWords is the call in a word for large letters; it is empty for going on.
func ProofCallWords(c proof.Call) string {
	switch c {
	case proof.Stop:
		return "STOP"
	case proof.ReadAgain:
		return "Read again"
	}
	return ""
}

// ProofReasonWords says in a sentence what speaks against going on, lengths in mm.
func ProofReasonWords(plan *ProofRoundPlan, points []ProofPoint, q proof.Reason) string {
	stage := ""
	if q.Stage >= 0 && q.Stage < len(points) {
		stage = plan.Stages[points[q.Stage].Stage].Name
	}
	switch q.What {
	case proof.Cracking:
		return "A noise or a crack: take the load off, piece by piece, in the reverse order, and look for what gave way before anything else."
	case proof.TooMuch:
		if q.Call == proof.Stop {
			return fmt.Sprintf("At “%s” it sags %.3f mm. The range ends at %.3f mm, and a top as planned reads this much less than once in a hundred times. Take the load off and find out why.", stage, q.Value, q.Limit)
		}
		return fmt.Sprintf("At “%s” it sags %.3f mm, above the range up to %.3f mm. Read again before you add anything.", stage, q.Value, q.Limit)
	case proof.TooLittle:
		return fmt.Sprintf("At “%s” it reads %.3f mm, below the range from %.3f mm. Is the load what you think, does the gauge move freely, does the top rest on its supports only?", stage, q.Value, q.Limit)
	case proof.Bent:
		return fmt.Sprintf("The last stage lies %.3f mm above the line of those before it: it sags more than in proportion. Something is giving way: take the load off.", q.Value)
	case proof.NotSlower:
		return fmt.Sprintf("At “%s” it creeps on without slowing down, %.3f mm so far. Wood slows down, a joint that gives way does not: take the load off.", stage, q.Value)
	}
	return fmt.Sprintf("%.3f mm stayed after the load was off, beside what bedded in; up to %.3f mm would be a matter of course. Do not load it again before you know why.", q.Value, q.Limit)
}

// Lines tells the result of a round in sentences, lengths in mm.
func (r *ProofRoundResult) Lines(plan *ProofRoundPlan) []string {
	if !r.Fit {
		return []string{"One stage under load must be read before anything is told."}
	}
	high := "no upper bound"
	if !math.IsInf(r.High, 0) {
		high = length.Number(r.High, 3) + " N/mm"
	}
	out := []string{fmt.Sprintf("Stiffness at the gauge %s N/mm, 90 %% range %s N/mm to %s; by the plan %s N/mm.", length.Number(r.Stiffness, 3), length.Number(r.Low, 3), high, length.Number(r.Planned, 3)),
		fmt.Sprintf("It sags %.0f %% of what was planned.", 100*r.Fitted.Scale)}
	if r.Fitted.Bedding > 1.645*r.Fitted.BeddingError {
		out = append(out, fmt.Sprintf("%.3f mm of it bedded in under the first stage and are not counted.", r.Fitted.Bedding))
	} else {
		out = append(out, "Nothing that could be told from the reading's error bedded in.")
	}
	switch {
	case !r.Line.Told:
		out = append(out, "Whether the line is straight is told from three stages on.")
	case r.Line.Bends:
		out = append(out, fmt.Sprintf("The line bends: the last stage lies %.3f mm above it.", r.Line.Off))
	default:
		out = append(out, fmt.Sprintf("The line is straight: the last stage lies %+.3f mm beside it, %.3f mm would be chance.", unsigned(r.Line.Off), 1.645*r.Line.Error))
	}
	for k, c := range r.Crept {
		if c.Told && r.Points[k].Stage > 0 && !plan.Stages[r.Points[k].Stage].Down {
			pace := "too few readings to tell whether it slows down"
			if c.Judged && c.Slowing {
				pace = "slowing down"
			} else if c.Judged {
				pace = "not slowing down"
			}
			out = append(out, fmt.Sprintf("Creep at “%s”: %.3f mm, %s.", plan.Stages[r.Points[k].Stage].Name, c.Total, pace))
		}
	}
	if r.After.Told {
		out = append(out, fmt.Sprintf("After unloading %.3f mm stayed, %.3f mm of it a set of the top (%.0f %% of the sag).", r.After.Stayed, math.Max(0, r.After.Set), 100*math.Max(0, r.After.Share)))
	}
	return out
}

// unsigned is a reading to three decimals without the sign of a nothing.
func unsigned(mm float64) float64 {
	if math.Abs(mm) < 0.0005 {
		return 0
	}
	return mm
}

// Lines tells which unknown explains the readings best, and whether they can tell.
func (r ProofResult) Lines() []string {
	t := r.Told
	if len(t.Explanations) == 0 {
		return []string{"What explains the readings is told once a stage under load is read."}
	}
	var out []string
	if t.Best < 0 {
		out = append(out, fmt.Sprintf("Best explained by nothing: the top is as planned (%.0f %% of the belief).", 100*t.AsPlanned))
	} else {
		e := t.Explanations[t.Best]
		out = append(out, fmt.Sprintf("Best explained by the %s: %.2f times the plan (90 %% range %.2f to %.2f), %.0f %% of the belief.", e.Name, e.Factor, e.Low, e.High, 100*e.Belief))
	}
	second, most := -1, 0.0
	for j, e := range t.Explanations {
		if j != t.Best && e.Belief > most {
			second, most = j, e.Belief
		}
	}
	if second >= 0 {
		first := max(t.Best, 0)
		if t.Best < 0 {
			return append(out, fmt.Sprintf("If anything, the %s: %.2f times the plan.", t.Explanations[second].Name, t.Explanations[second].Factor))
		}
		if a := math.Min(t.Apart[first][second], t.Apart[second][first]); a < proof.Tells {
			out = append(out, fmt.Sprintf("These readings cannot tell it from the %s: either would show alike, within %.1f times the error of the readings. A second round with the stack near a support, or a finer gauge, could.", t.Explanations[second].Name, a))
		} else {
			out = append(out, fmt.Sprintf("They can tell it from the %s, by %.1f times the error of the readings.", t.Explanations[second].Name, a))
		}
	}
	return out
}

// ProofCautions come before every proof load. Common practice, no source; local
// codes come first.
var ProofCautions = []string{
	"Low supports: the top as near to the floor as the gauge allows, on supports that cannot tip or slide.",
	"A catcher under the middle, blocks up to a few centimetres below the top, so that it cannot fall far.",
	"Nobody under it, no hands or feet under it, nobody on it. Keep people away who do not work on it.",
	"Eye protection. Lift with your legs; above 23 kg take two people (ISO 11228-1 load constant, from memory).",
	"Set each piece down softly, from the middle outwards on both sides in turn, no higher than it is wide, pieces not leaning on each other.",
	"A noise of cracking means stop: take the load off in the reverse order.",
	"The plan stays inside the service load and far from where the numbers see it fail; that is no promise. Local codes and licensed practice come first.",
}

// ProofStopRule says in words when to stop.
var ProofStopRule = []string{
	"Any noise of cracking, anything that opens or moves that should not.",
	"A reading that a top as planned would show once in a hundred times.",
	"The last stage more than a tenth above the line of the stages before it.",
	"Creep during a hold that does not slow down.",
	"More than a tenth of the sag stays after unloading, beside what bedded in.",
}
