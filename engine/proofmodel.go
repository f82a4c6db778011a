package engine

import (
	"context"
	"math"

	"flatwright/engine/plate"
)

// proofTop is the panel with one unknown varied.
type proofTop struct {
	model *plate.Model
	own   plate.Press
}

// proofStep is by what an unknown's logarithm is varied for its slope.
const proofStep = 0.02

// proofTops prepares the panel as planned and with each unknown varied.
func (d *Design) proofTops(ctx context.Context, m *materials) ([]proofTop, error) {
	mo := newModel(d, m, false)
	own := d.Press(Load{Kind: Uniform, Force: mo.weight})
	var out []proofTop
	for j := -1; j < proofUnknowns; j++ {
		n := *m
		if j >= 0 {
			proofUnknownList[j].vary(&n, math.Exp(proofStep))
		}
		p := d.panelOf(ctx, &n, int(Normal))
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		model, err := plate.Prepare(ctx, p)
		if err != nil {
			return nil, err
		}
		out = append(out, proofTop{model, own})
	}
	return out, nil
}

// proofReading is what the gauge of the design shows of an answer, growing with the
// sag, mm: over the top's own two points, or over what does not move.
func (d *Design) proofReading(s *plate.Solution) float64 {
	p := d.Proof
	if p.Reference() != OnTheTop {
		return s.Down(p.X, p.Y)
	}
	at, a, b := p.X, s.Sag(p.From, p.Y), s.Sag(p.To, p.Y)
	if p.Across {
		at, a, b = p.Y, s.Sag(p.X, p.From), s.Sag(p.X, p.To)
	}
	t := (at - p.From) / (p.To - p.From)
	return s.Sag(p.X, p.Y) - (1-t)*a - t*b
}

// expected returns what a stack of that force adds to the reading, mm.
func (d *Design) expected(ctx context.Context, t proofTop, round ProofRound, force, nothing float64) (float64, error) {
	loads := []plate.Press{t.own}
	for _, l := range d.stack(round, force) {
		loads = append(loads, d.Press(l))
	}
	s, err := t.model.Solve(ctx, loads)
	if err != nil {
		return 0, err
	}
	return d.proofReading(s) - nothing, nil
}

// overEither returns what a stack of that force adds to a reading over two points of the
// top and over what stays. Where no straightedge is planned on the top, or it would not
// reach over the gauge, its ends are taken over the supports.
func (d *Design) overEither(ctx context.Context, t proofTop, round ProofRound, force float64) (rides, fixed float64, err error) {
	read := func(over ProofReference) (float64, error) {
		e := d.Clone()
		e.Proof.Over = over
		p := &e.Proof
		span, across := d.spans()
		at, within := p.X, d.Length
		if p.Across {
			at, within, span = p.Y, d.Width, across
		}
		if !(p.From >= 0 && p.From < at && at < p.To && p.To <= within) {
			p.From, p.To = span.A, span.B
		}
		if over == OnTheTop && !(p.From < at && at < p.To) {
			return 0, nil // nothing is read beyond its ends
		}
		if len(e.presses(round)) == 0 {
			return 0, nil // no room for the stack beside it
		}
		s, err := t.model.Solve(ctx, []plate.Press{t.own})
		if err != nil {
			return 0, err
		}
		return e.expected(ctx, t, round, force, e.proofReading(s))
	}
	if rides, err = read(OnTheTop); err != nil {
		return 0, 0, err
	}
	fixed, err = read(OnTheFloor)
	return rides, fixed, err
}
