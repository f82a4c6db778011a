package engine

import (
	"fmt"
	"math"
	"strings"

	"flatwright/engine/draw"
	"flatwright/engine/length"
	"flatwright/engine/proof"
)

// ProofStagePart returns the part ID under which a stage of a round is drawn.
func ProofStagePart(round, stage int) string {
	return fmt.Sprintf("round %d stage %d", round+1, stage)
}

// Size of the plot with its notes where no room is told, in units of its own of which the
// notes take about what they do in pixels; the scales are chosen to fill it.
const plotWide, plotHigh = 460.0, 300.0

// Room for the notes around the frame of a plot.
const plotLeft, plotRight, plotBelow, plotAbove = 44.0, 20.0, 44.0, 24.0

// proofPlot turns loads and readings into places of the plot.
type proofPlot struct {
	draw.Figure
	load, sag  float64 // at the right and the upper end
	wide, high float64 // of the frame
}

func (p *proofPlot) at(load, sag float64) draw.Point {
	return draw.Point{X: p.wide * load / p.load, Y: p.high * sag / p.sag}
}

// ProofPlot returns the readings of a round over the load: the 90 % range of the plan as a
// band, what is expected as a chain line, what was read as dots joined in the order taken,
// dashed on the way down, and the line fitted to them. It fills a room of that width and
// height in pixels; a room of nothing is the usual one. Without a round in the plan it is
// empty.
func ProofPlot(plan ProofPlan, r ProofResult, round int, room draw.Point, f length.Format) draw.Figure {
	if round < 0 || round >= len(plan.Rounds) {
		return draw.Figure{}
	}
	q := &plan.Rounds[round]
	if !(room.X > 0 && room.Y > 0) {
		room = draw.Point{X: plotWide, Y: plotHigh}
	}
	p := &proofPlot{load: 1.05 * q.full().Force, wide: math.Max(room.X-plotLeft-plotRight, 80), high: math.Max(room.Y-plotBelow-plotAbove, 60)}
	up := upStages(q)
	for _, s := range up {
		p.sag = math.Max(p.sag, 1.1*s.High)
	}
	var read *ProofRoundResult
	if round < len(r.Rounds) {
		read = &r.Rounds[round]
		for _, v := range read.Points {
			p.sag = math.Max(p.sag, 1.1*v.Sag)
		}
	}
	if !(p.load > 0) || !(p.sag > 0) || math.IsInf(p.sag, 0) {
		return draw.Figure{}
	}
	p.axes(up, f)
	p.band(up, round)
	if read != nil {
		p.read(q, read, round)
	}
	return p.Figure
}

// upStages are the stages on the way up, nothing first.
func upStages(q *ProofRoundPlan) []ProofStage {
	for i, s := range q.Stages {
		if s.Down {
			return q.Stages[:i]
		}
	}
	return q.Stages
}

// axes draws frame, grid and what they measure.
func (p *proofPlot) axes(up []ProofStage, f length.Format) {
	corner, far := draw.Point{}, draw.Point{X: p.wide, Y: p.high}
	noted := math.Inf(-1)
	for _, s := range up {
		x := p.at(s.Force, 0).X
		p.Lines = append(p.Lines, draw.Line{A: draw.Point{X: x}, B: draw.Point{X: x, Y: p.high}, Pen: draw.RulePen})
		if x-noted >= plotLeft { // or it would run into the one before
			noted = x
			p.Notes = append(p.Notes, draw.Note{At: draw.Point{X: x, Y: -4}, Text: length.Mass(s.Force/Gravity, f), Anchor: draw.AtTop, Colour: draw.Pencil})
		}
	}
	unit := 1.0
	if f.Imperial {
		unit = length.Inch
	}
	step := roundStep(p.sag / unit / math.Max(3, math.Floor(p.high/60)))
	for v := step; v*unit < p.sag; v += step { // nothing is the corner, where the loads begin
		y := p.at(0, v*unit).Y
		p.Lines = append(p.Lines, draw.Line{A: draw.Point{Y: y}, B: draw.Point{X: p.wide, Y: y}, Pen: draw.RulePen})
		p.Notes = append(p.Notes, draw.Note{At: draw.Point{X: -4, Y: y}, Text: length.Number(v, 3), Anchor: draw.AtRight, Colour: draw.Pencil})
	}
	p.Lines = append(p.Lines, draw.Line{A: corner, B: draw.Point{X: far.X}, Pen: draw.Outline}, draw.Line{A: corner, B: draw.Point{Y: far.Y}, Pen: draw.Outline})
	p.Notes = append(p.Notes,
		draw.Note{At: draw.Point{X: p.wide / 2, Y: -20}, Text: "on the top", Anchor: draw.AtTop, Colour: draw.Pencil},
		draw.Note{At: draw.Point{X: 0, Y: p.high + 6}, Text: "reading above the first one, " + f.Unit(), Anchor: draw.AtBottomLeft, Colour: draw.Pencil})
	// Room for the notes outside the frame.
	p.Areas = append(p.Areas, draw.Area{Points: rect(-plotLeft, -plotBelow, p.wide+plotRight, p.high+plotAbove)})
}

// roundStep is the next of 1, 2, 5, 10 … times a power of ten.
func roundStep(v float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(v)))
	for _, m := range [...]float64{1, 2, 5} {
		if m*power >= v*0.999 {
			return m * power
		}
	}
	return 10 * power
}

// band draws the range and what is expected.
func (p *proofPlot) band(up []ProofStage, round int) {
	var points []draw.Point
	for _, s := range up {
		points = append(points, p.at(s.Force, math.Max(0, s.High)))
	}
	for i := len(up) - 1; i >= 0; i-- {
		points = append(points, p.at(up[i].Force, math.Max(0, up[i].Low)))
	}
	p.Areas = append(p.Areas, draw.Area{Points: points, Fill: draw.Sag2, Part: "proof range"})
	for i := 1; i < len(up); i++ {
		p.Lines = append(p.Lines, draw.Line{A: p.at(up[i-1].Force, up[i-1].Expected), B: p.at(up[i].Force, up[i].Expected), Pen: draw.Centre, Part: ProofStagePart(round, i)})
	}
	last := up[len(up)-1]
	p.Notes = append(p.Notes, draw.Note{At: p.at(last.Force, last.High), Text: "90 % range of the plan", Anchor: draw.AtBottomRight, Colour: draw.Pencil})
}

// read draws the readings and the line fitted to them.
func (p *proofPlot) read(q *ProofRoundPlan, r *ProofRoundResult, round int) {
	var before *ProofPoint
	for i := range r.Points {
		v := &r.Points[i]
		s := q.Stages[v.Stage]
		at := p.at(s.Force, v.Sag)
		part := ProofStagePart(round, v.Stage)
		if before != nil {
			pen := draw.Outline
			if s.Down {
				pen = draw.Hidden
			}
			p.Lines = append(p.Lines, draw.Line{A: p.at(q.Stages[before.Stage].Force, before.Sag), B: at, Pen: pen, Part: part})
		}
		p.Marks = append(p.Marks, draw.Mark{At: at, Kind: draw.DotMark, Part: part})
		before = v
	}
	if r.Fit && len(r.Points) > 2 {
		// The line goes through what bedded in, as [proof.Fit] has it while loading.
		full := q.full()
		a := r.Fitted
		p.Lines = append(p.Lines, draw.Line{A: p.at(0, a.Bedding), B: p.at(full.Force, a.Bedding+(a.Scale-a.Held)*full.Expected), Pen: draw.Accent, Part: "proof line"})
	}
}

// ProofPlanDrawing returns the top from above with its supports, the stack of a round and
// the gauge with what it stands on.
func ProofPlanDrawing(d Design, plan ProofPlan, round int) draw.Figure {
	var out draw.Figure
	out.Areas = append(out.Areas, draw.Area{Points: rect(0, 0, d.Length, d.Width), Fill: draw.Skin, Pen: draw.Outline, Part: "top"})
	for _, pad := range d.pads() {
		out.Areas = append(out.Areas, draw.Area{Points: rect(pad.X-pad.SX/2, pad.Y-pad.SY/2, pad.X+pad.SX/2, pad.Y+pad.SY/2), Fill: draw.Support, Pen: draw.Hidden, Part: SupportPart})
	}
	if round < 0 || round >= len(d.Proof.Rounds) {
		return out
	}
	for _, s := range d.presses(d.Proof.Rounds[round]) {
		out.Areas = append(out.Areas, draw.Area{Points: rect(s.X-s.SizeX/2, s.Y-s.SizeY/2, s.X+s.SizeX/2, s.Y+s.SizeY/2), Fill: draw.Load, Pen: draw.Outline, Part: "stack"})
		out.Notes = append(out.Notes, draw.Note{At: draw.Point{X: s.X, Y: s.Y}, Text: "stack", Ground: draw.Sheet, Part: "stack"})
	}
	p := d.Proof
	gauge := draw.Point{X: p.X, Y: p.Y}
	if p.Reference() == OnTheTop {
		a, b := draw.Point{X: p.From, Y: p.Y}, draw.Point{X: p.To, Y: p.Y}
		if p.Across {
			a, b = draw.Point{X: p.X, Y: p.From}, draw.Point{X: p.X, Y: p.To}
		}
		out.Lines = append(out.Lines, draw.Line{A: a, B: b, Pen: draw.Accent, Part: "gauge"})
		out.Marks = append(out.Marks, draw.Mark{At: a, Kind: draw.DotMark, Part: "gauge"}, draw.Mark{At: b, Kind: draw.DotMark, Part: "gauge"})
	}
	out.Marks = append(out.Marks, draw.Mark{At: gauge, Kind: draw.SpotMark, Part: "gauge"})
	out.Notes = append(out.Notes, draw.Note{At: draw.Point{X: gauge.X + 0.02*d.Length, Y: gauge.Y}, Text: "gauge", Anchor: draw.AtLeft, Ground: draw.Sheet, Part: "gauge"})
	return out
}

// proofSupports says on what the top lies during a proof load.
func (d *Design) proofSupports() string {
	pads := d.pads()
	const most = 8 // named one by one
	var words []string
	for i, p := range pads {
		if i == most {
			words = append(words, fmt.Sprintf("and %d more as drawn", len(pads)-most))
			break
		}
		words = append(words, fmt.Sprintf("%s (%.0f × %.0f mm, its middle %.0f mm from the left end and %.0f mm from the front edge)", p.Name, p.SX, p.SY, p.X, p.Y))
	}
	return "Lay the top on the supports of the design and on nothing else: " + strings.Join(words, "; ") + ". The readings are expected on these; for others, as two rails on the floor, change the supports under Design first."
}

// HowItIsRead says in sentences how the gauge is set up, lengths in mm.
func (d Design) HowItIsRead() []string {
	p := d.Proof
	w := p.Reads()
	out := []string{d.proofSupports(), w.How}
	along, from := "along the length", "front edge"
	if p.Across {
		along, from = "across the width", "left end"
	}
	side := p.Y
	if p.Across {
		side = p.X
	}
	switch p.Reference() {
	case OnTheTop:
		out = append(out, fmt.Sprintf("It rests on the top %s, %.0f mm from the %s, from %.0f mm to %.0f mm. It rides down with the top, so the reading is the sag at the gauge less that under its two ends; the expected readings are just that.", along, side, from, p.From, p.To),
			fmt.Sprintf("Keep a lane of %.0f mm free for it: the stack stands on both sides.", proofLane))
	case OnTheSupports:
		out = append(out, fmt.Sprintf("It stands on a bar from support to support that touches the top nowhere, and reads the top at %.0f mm from the left end, %.0f mm from the front edge. How far the top sinks into its supports is part of the reading, also of the expected one.", p.X, p.Y))
	default:
		out = append(out, fmt.Sprintf("It stands on the floor and reads the top at %.0f mm from the left end, %.0f mm from the front edge. Trestles that give way read like a softer top: read once beside a support as well.", p.X, p.Y))
	}
	out = append(out, fmt.Sprintf("Standard error of one reading %.2f mm, smallest step %.2f mm (%s).", w.Error, w.Step, proof.Source))
	return append(out, fmt.Sprintf("Hold every stage for %.0f min, read, and read again at the end; the last reading of a stage counts.", p.Minutes()))
}

// WaysAgainst sets every way of reading against what the fullest stage of a round is
// expected to read that way, a sentence each, lengths in mm: over what the gauge is
// said to stand on, else over what is usual for the way.
func (p *ProofRoundPlan) WaysAgainst(planned Proof) []string {
	out := []string{"What each way can tell of the sag under the fullest stage, read twice:"}
	for _, w := range proof.Ways() {
		over := ProofReference(OnTheFloor)
		if planned.Over == OnTheTop || planned.Over == "" && w.On {
			over = OnTheTop
		} else if planned.Over == OnTheSupports {
			over = OnTheSupports
		}
		expected, where := p.Fixed, map[ProofReference]string{OnTheFloor: "from the floor", OnTheSupports: "over the supports", OnTheTop: "over two points of the top"}[over]
		if over == OnTheTop {
			expected = p.Rides
		}
		s := proof.Look(expected, w)
		verdict := "too little to be seen"
		switch {
		case s.Useful:
			verdict = fmt.Sprintf("the stiffness is known to %.0f %%: fine enough", 100*s.Share)
		case s.Sees:
			verdict = fmt.Sprintf("seen, but the stiffness only known to %.0f %%", 100*s.Share)
		}
		out = append(out, fmt.Sprintf("%s, %s: %.3f mm expected; tells %.3f mm from nothing; %s.", capital(w.Name), where, expected, s.Least, verdict))
	}
	return out
}
