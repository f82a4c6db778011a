package engine

import (
	"context"
	"math"
	"slices"

	"flatwright/engine/plate"
)

// WhatIfMesh is the mesh of [WhatIf], for the design and for every change of
// it. On a bench of 1800 × 750 mm with 11 × 5 ribs no change of sag was more than
// 0.002 mm off the refined mesh's, at a fifth of its time; the interactive mesh
// showed only half of what the top skin's thickness does (measured).
const WhatIfMesh = Normal

// whatIfDepths are the core depths of the curve as parts of the present one.
// The two beside 1 give the exponent.
var whatIfDepths = [...]float64{0.5, 0.7, 1 / nearDepth, 1, nearDepth, 1.4, 2, 3}

const nearDepth = 1.1

// WhatIf recomputes by the whole-panel model what a result of [Refine] only
// estimates by the closed form: what one step of every knob changes, and how
// sag depends on core depth. All panels are on [WhatIfMesh], also the design
// itself, so that the changes do not mix with those of the mesh. It takes about
// thirty panels' time; progress, which may be nil, is told how many are done of
// about how many. A step to a panel that nothing holds up is left out. Where the
// whole panel has not been computed r comes back as it is. The only error is that
// of ctx.
func WhatIf(ctx context.Context, d Design, r Result, progress func(done, of int)) (Result, error) {
	if r.Blocked() || r.Whole == nil || len(d.Cases) == 0 {
		return r, ctx.Err()
	}
	d.Built = nil
	w := &whatIf{ctx: ctx, progress: progress}
	knobs := d.knobSteps()
	w.of = len(whatIfDepths) // the present depth is among them
	for _, k := range knobs {
		w.of += len(k.designs())
	}
	now, ok := w.figures(&d)
	if ok {
		if err := w.slopes(&d, &r, now.on); err != nil {
			return Result{}, err
		}
		now.on = solved{} // a panel's memory
		r.Knobs = w.knobs(knobs, now)
		r.Depth = w.depth(&d, r.Depth, now)
		r.WhatIf = &WhatIfReport{Mesh: WhatIfMesh, Panels: w.done, Sag: now.sag}
		r.Working = slices.Clone(r.Working)
		for i := range r.Working {
			if r.Working[i].Key == depthKey {
				r.Working[i] = d.depthWorking(r)
			}
		}
	}
	if err := ctx.Err(); err != nil {
		return Result{}, err
	}
	return r, nil
}

// WhatIfReport tells how [Result.Knobs] and [Result.Depth] were recomputed by
// the whole-panel model.
type WhatIfReport struct {
	Mesh   Mesh    `json:"mesh"`   // of the design and of every change
	Panels int     `json:"panels"` // how many were computed
	Sag    float64 `json:"sag"`    // of the design on that mesh, mm
}

// whatIf recomputes panels one after the other.
type whatIf struct {
	ctx      context.Context
	progress func(done, of int)
	done, of int
}

// figures are what a change is told in.
type figures struct {
	sag, mass, margin, cost float64
	priced                  bool
	on                      solved
}

// figures computes a panel; ok is false where nothing holds it or ctx ends.
func (w *whatIf) figures(d *Design) (f figures, ok bool) {
	if w.ctx.Err() != nil {
		return f, false
	}
	defer func() {
		w.done++
		if w.progress != nil && w.ctx.Err() == nil {
			w.progress(w.done, max(w.of, w.done))
		}
	}()
	m := d.materials()
	mo := newModel(d, &m, false)
	// Not from the cache: it would push out the panels that are under work.
	p := d.wholePanel(w.ctx, int(WhatIfMesh))
	prepared, err := plate.Prepare(w.ctx, p)
	if err != nil {
		return f, false
	}
	s, err := d.solveCases(w.ctx, &cachedModel{model: prepared}, mo.weight, WhatIfMesh)
	if err != nil {
		return f, false
	}
	f.on = s
	for _, c := range s.report.Cases {
		f.sag = math.Max(f.sag, c.Sag)
	}
	leant, all := d.leant(s)
	f.margin = TimesCap
	if margins := mo.wholeMargins(w.ctx, leant, &m, all); len(margins) > 0 {
		f.margin = margins[0].Value
	}
	parts := d.Parts()
	f.mass = d.weigh(parts).Total
	cost := d.cost(parts)
	f.cost, f.priced = cost.Total, len(cost.Missing) == 0
	return f, w.ctx.Err() == nil
}

// slopes adds to a result how its sag follows every material figure, on the
// panel's answers.
func (w *whatIf) slopes(d *Design, r *Result, on solved) error {
	m := d.materials()
	whole := *r.Whole
	var err error
	whole.Work.Figures, err = d.figureSlopes(w.ctx, on, &m, r.Governing)
	r.Whole = &whole
	return err
}

// knobStep is a knob with the designs one step up and one step down, nil
// where there is none.
type knobStep struct {
	Knob
	up, down *Design
}

func (k *knobStep) designs() []*Design {
	return slices.DeleteFunc([]*Design{k.up, k.down}, func(d *Design) bool { return d == nil })
}

// knobSteps lists the knobs of a design that do something.
func (d *Design) knobSteps() []knobStep {
	var out []knobStep
	for _, k := range allKnobs {
		if !k.used(d) {
			continue
		}
		t := knobStep{Knob: Knob{Field: k.field, Name: k.name}}
		t.Up, t.up = k.step(d, true)
		t.Down, t.down = k.step(d, false)
		out = append(out, t)
	}
	return out
}

// knobs fills in the changes from the figures of the present design.
func (w *whatIf) knobs(turned []knobStep, now figures) []Knob {
	var out []Knob
	step := func(s *KnobStep, d *Design) *KnobStep {
		if s == nil {
			return nil
		}
		f, ok := w.figures(d)
		if !ok {
			return nil
		}
		s.Sag, s.Mass, s.Margin = f.sag-now.sag, f.mass-now.mass, f.margin-now.margin
		if s.Priced = f.priced && now.priced; s.Priced {
			s.Cost = f.cost - now.cost
		}
		return s
	}
	for _, k := range turned {
		k.Up, k.Down = step(k.Up, k.up), step(k.Down, k.down)
		out = append(out, k.Knob)
	}
	return out
}
