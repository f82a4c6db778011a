package engine

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"flatwright/engine/plate"
)

// Mesh says how finely the whole panel is computed: how many elements lie
// across a bay.
type Mesh int

// The meshes: Interactive follows a finger, Normal is what is shown at rest,
// Refined is worked out when nothing else is to be done. The change from one to
// the next is the model's own estimate of its error.
const (
	Interactive Mesh = 1
	Normal      Mesh = 2
	Refined     Mesh = 4
)

// Whole is the answer of the whole-panel model.
type Whole struct {
	Mesh      Mesh        `json:"mesh"`
	Unknowns  int         `json:"unknowns"`
	Change    float64     `json:"change"`              // largest change of a case's sag from the mesh before, as a share; the model's own error estimate
	Cases     []WholeCase `json:"cases"`               // as in the design
	Frequency float64     `json:"frequency"`           // first natural frequency, Hz; an estimate without what stands on the top
	Work      Work        `json:"work"`                // who does the work in the governing case
	Lean      []Lean      `json:"lean,omitempty"`      // somebody leaning on a rim that overhangs; not on the interactive mesh
	Twist     *Twist      `json:"twist,omitempty"`     // nil on the interactive mesh and where the supports span no rectangle
	OtherLaps float64     `json:"otherLaps,omitempty"` // sag of the governing case with laps glued where they are open and the other way round, mm; 0 until the refined mesh
}

// WholeCase is one load case, own weight included.
type WholeCase struct {
	Sag        float64     `json:"sag"` // largest, relative to the plane through the supports, mm
	X          float64     `json:"x"`
	Y          float64     `json:"y"`
	Settlement float64     `json:"settlement"` // largest sinking of a support into its bed, mm
	Loads      []WholeSag  `json:"loads"`
	Reactions  []Reaction  `json:"reactions"`
	Aprons     []ApronBend `json:"aprons,omitempty"` // what the rails that join the legs do
	Map        SagGrid     `json:"map"`

	// Not on the interactive mesh:
	Dip    Dip         `json:"dip"`              // the deepest of the top skin between ribs
	Slopes []EdgeSlope `json:"slopes,omitempty"` // of the four edges
	Ribs   []RibForces `json:"ribs,omitempty"`   // what every rib carries
}

// WholeSag is the sag under one load with everything acting, and what that load
// adds to the rest there.
type WholeSag struct {
	Name      string  `json:"name"`
	Sag       float64 `json:"sag"`       // mm
	Alone     float64 `json:"alone"`     // mm
	Stiffness float64 `json:"stiffness"` // Force / Alone, N/mm
	Dip       Dip     `json:"dip"`       // the deepest of the top skin in the bays under it; not on the interactive mesh
}

// Reaction is the force of one support on the panel.
type Reaction struct {
	Name   string  `json:"name"`
	X      float64 `json:"x"`
	Y      float64 `json:"y"`
	Force  float64 `json:"force"` // N, upwards; negative where it holds the panel down
	Lifted bool    `json:"lifted,omitempty"`
	Pull   float64 `json:"pull,omitempty"` // of its screws, N, of a panel that is fastened down; at least −Force
}

// SagGrid is the sag of the upper face at NX × NY places evenly spread over
// the panel, row by row from the front edge, mm.
type SagGrid struct {
	NX  int       `json:"nx"`
	NY  int       `json:"ny"`
	Sag []float64 `json:"sag"`
}

// Size of the sag map: a place about every 30 mm on a bench.
const mapNX, mapNY = 61, 31

// solved is the whole panel on one mesh with the answers to all cases.
type solved struct {
	report *Whole
	cases  []answers

	leanCases []LoadCase // somebody leaning on the rim; not on the interactive mesh
	lean      []answers
}

// wholeCases solves every case on one mesh.
func wholeCases(ctx context.Context, d *Design, weight float64, mesh Mesh) (solved, error) {
	m, err := prepare(ctx, d, mesh)
	if err != nil {
		return solved{}, err
	}
	w, err := d.solveCases(ctx, m, weight, mesh)
	if err != nil {
		return solved{}, err
	}
	if mesh >= Normal {
		for i := range w.report.Cases {
			w.report.Cases[i].recover(d, d.Cases[i].Loads, w.cases[i].all)
		}
	}
	return w, nil
}

// solveCases solves every case on a panel made ready on a mesh: sag, reactions
// and what margins are made from.
func (d *Design) solveCases(ctx context.Context, m *cachedModel, weight float64, mesh Mesh) (solved, error) {
	w := solved{report: &Whole{Mesh: mesh}}
	w.report.Unknowns, _ = m.model.Size()
	own := d.Press(Load{Kind: Uniform, Force: weight})
	alone, err := m.solve(ctx, []plate.Press{own})
	if err != nil {
		return solved{}, err
	}
	for i := range d.Cases {
		c, all, err := d.wholeCase(ctx, m, &d.Cases[i], own, alone)
		if err != nil {
			return solved{}, &caseError{d.Cases[i].Name, err}
		}
		w.report.Cases = append(w.report.Cases, c)
		w.cases = append(w.cases, answers{alone, all})
	}
	if mesh >= Normal {
		if w.report.Lean, w.leanCases, w.lean, err = d.leaning(ctx, m, own); err != nil {
			return solved{}, err
		}
	}
	w.report.Frequency = plate.Frequency(meanSag(d, alone))
	return w, nil
}

// caseError names the load case that could not be solved.
type caseError struct {
	name string
	err  error
}

func (e *caseError) Error() string { return fmt.Sprintf("load case %q: %v", e.name, e.err) }
func (e *caseError) Unwrap() error { return e.err }

// meanSag is the largest sag under the panel's own weight at 9 × 5 places, mm.
func meanSag(d *Design, s *plate.Solution) float64 {
	most := 0.0
	for j := range 5 {
		for i := range 9 {
			most = math.Max(most, s.Sag(d.Length*float64(i)/8, d.Width*float64(j)/4))
		}
	}
	return most
}

func (d *Design) wholeCase(ctx context.Context, m *cachedModel, c *LoadCase, own plate.Press, alone *plate.Solution) (WholeCase, *plate.Solution, error) {
	loads := []plate.Press{own}
	for _, l := range c.Loads {
		loads = append(loads, d.Press(l))
	}
	s, err := m.solve(ctx, loads)
	if err != nil {
		return WholeCase{}, nil, err
	}
	var out WholeCase
	var seen []sagAt
	look := func(x, y float64) float64 {
		v := s.Sag(x, y)
		seen = append(seen, sagAt{x, y, v})
		return v
	}
	out.Map = SagGrid{mapNX, mapNY, make([]float64, 0, mapNX*mapNY)}
	for j := range mapNY {
		if err := ctx.Err(); err != nil {
			return WholeCase{}, nil, err
		}
		for i := range mapNX {
			out.Map.Sag = append(out.Map.Sag, look(d.Length*float64(i)/(mapNX-1), d.Width*float64(j)/(mapNY-1)))
		}
	}
	for i, l := range c.Loads {
		p := d.under(l)
		v := WholeSag{Name: l.Name, Sag: look(p.x, p.y)}
		without := alone
		if len(c.Loads) > 1 {
			if without, err = m.solve(ctx, slices.Delete(slices.Clone(loads), i+1, i+2)); err != nil {
				return WholeCase{}, nil, err
			}
		}
		v.Alone = v.Sag - without.Sag(p.x, p.y)
		if v.Alone > 0 && l.Kind != Couple {
			v.Stiffness = l.Force / v.Alone
		}
		out.Loads = append(out.Loads, v)
	}
	out.Sag, out.X, out.Y = largest(seen, pressedAt(loads[1:], own))
	force, lifted, pull := d.supported(s)
	for i, pad := range d.pads() {
		out.Reactions = append(out.Reactions, Reaction{pad.Name, pad.X, pad.Y, force[i], lifted[i], pull[i]})
	}
	out.Settlement = s.Settlement()
	mats := d.materials()
	out.Aprons = apronBends(d.aprons(&mats), s)
	return out, s, nil
}

// Refine computes the whole panel of a design on a mesh and returns the result
// of [Estimate], or of Refine on a coarser mesh, with what the model says: sag,
// margins, reactions, and what follows from them. Coming from a coarser mesh it
// tells by how much the sag moved, the model's own error. It returns the error
// of ctx.
func Refine(ctx context.Context, d Design, r Result, mesh Mesh) (Result, error) {
	if r.Blocked() || len(d.Cases) == 0 {
		return r, ctx.Err()
	}
	made := d
	d.Built = nil // told as designed; as built beside it
	m := d.materials()
	mo := newModel(&d, &m, false)
	w, err := wholeCases(ctx, &d, mo.weight, mesh)
	if ctx.Err() != nil {
		return Result{}, ctx.Err()
	}
	if err != nil {
		r.Whole, r.AsBuilt, r.WhatIf, r.Cases, r.Margins = nil, nil, nil, r.closed.cases, nil // what falls has no margin
		r.Depth, r.Knobs = r.closed.depth, r.closed.knobs
		d.creepToCases(&m, &r)
		r.Problems = append(slices.Clone(r.closed.problems), d.notHeld(err))
		d.Limits.Sag = 0 // what falls does not sag too much
		r.Problems = append(r.Problems, d.shortfalls(r)...)
		return r, nil
	}
	if r.Whole != nil && r.Whole.Mesh < mesh {
		w.report.Change = change(w.report, r.Whole)
	}
	before := r.Whole
	r.Whole = w.report
	if before != nil && before.Twist != nil {
		r.Whole.Twist = before.Twist // on a mesh of its own
	} else if mesh >= Normal {
		if r.Whole.Twist, err = d.twist(ctx, &mo); err != nil && ctx.Err() != nil {
			return Result{}, ctx.Err()
		}
	}
	r.Cases = mo.takeWhole(&d, r.closed.cases, w)
	r.Governing = 0
	for i := range d.Cases {
		if r.Cases[i].Sag > r.Cases[r.Governing].Sag {
			r.Governing = i
		}
	}
	d.tellApart(&r)
	if r.Whole.Work, err = d.work(ctx, w, &m, r); err != nil {
		return Result{}, err
	}
	leant, all := d.leant(w)
	r.Margins = mo.wholeMargins(ctx, leant, &m, all)
	// From here on nothing needs the panel and its answers: what follows prepares
	// others, and two refined ones at a time are more memory than all else.
	if r.Whole.OtherLaps, err = d.otherLaps(ctx, mo.weight, r); err != nil {
		return Result{}, err
	}
	d.scaleToWhole(&r)
	r.Working = slices.DeleteFunc(slices.Clone(r.closed.working), func(w Working) bool { return w.Key == marginKey })
	r.Working = append(append(append(r.Working, d.wholeWorking(r)...), d.apronWorking(&m, r)...), marginWorking(r)...)
	d.creepToCases(&m, &r)
	r.Problems = append(slices.Clone(r.closed.problems), d.shortfalls(r)...)
	r.Problems = append(r.Problems, d.lifting(r)...)
	r.Problems = append(r.Problems, d.sinking(r)...)
	r.Problems = append(r.Problems, d.apronAdvice(r)...)
	r.Problems = append(r.Problems, d.twistShortfall(r)...)
	seams, err := d.seamProblems(ctx, mo.weight, r)
	if err != nil {
		return Result{}, err
	}
	r.Problems = append(r.Problems, seams...)
	if err := made.rateAsBuilt(ctx, &mo, &m, &r); err != nil {
		return Result{}, err
	}
	if err := ctx.Err(); err != nil {
		return Result{}, err
	}
	return r, nil
}

// takeWhole puts what the whole-panel model says in place of the closed form.
// How the sag divides into bending, shear and twist stays the closed form's.
func (mo *model) takeWhole(d *Design, closed []CaseResult, w solved) []CaseResult {
	out := slices.Clone(closed)
	for i := range out {
		c, whole := &out[i], &w.report.Cases[i]
		c.Sag, c.X, c.Y = whole.Sag, whole.X, whole.Y
		c.OwnSag = w.cases[i].own.Sag(c.X, c.Y)
		c.SlabSag = mo.slabSag(mo.ownWeight(), c.X, c.Y)
		c.Loads = slices.Clone(c.Loads)
		for j := range c.Loads {
			c.SlabSag += mo.slabUnder(&d.Cases[i].Loads[j], c.X, c.Y)
			l := &c.Loads[j]
			l.Sag, l.Alone, l.Stiffness = whole.Loads[j].Sag, whole.Loads[j].Alone, whole.Loads[j].Stiffness
		}
	}
	return out
}

// change is the largest change of a case's sag between two meshes, as a share.
func change(fine, coarse *Whole) float64 {
	most := 0.0
	for i := range fine.Cases {
		if v := fine.Cases[i].Sag; v > 0 {
			most = math.Max(most, math.Abs(v-coarse.Cases[i].Sag)/v)
		}
	}
	return most
}

// notHeld turns the model's refusal into words.
func (d Design) notHeld(err error) Problem {
	name, help := "", "Supports nearer to the ends, or a load nearer to the middle, would help, or a top fastened to its base."
	var c *caseError
	if errors.As(err, &c) {
		name = " under “" + c.name + "”"
		if d.turned(c.name) {
			help = "A couple turns the whole top over unless weight holds it down: more weight in the load case, a smaller pull or supports further apart would help."
		}
	}
	return Problem{Code: notHeldCode, Severity: Shortfall, Field: "supports",
		Text: "Nothing holds the top down" + name + ": it tips off its supports or rocks on them, so it has no sag and no margin. " + help}
}

// turned reports whether a couple acts in the case of that name.
func (d *Design) turned(name string) bool {
	return slices.ContainsFunc(d.Cases, func(c LoadCase) bool {
		return c.Name == name && slices.ContainsFunc(c.Loads, func(l Load) bool { return l.Kind == Couple })
	})
}

// lifting tells of supports that lift.
func (d *Design) lifting(r Result) []Problem {
	var out []Problem
	for i, c := range r.Whole.Cases {
		for _, f := range c.Reactions {
			if f.Lifted {
				out = append(out, Problem{Code: "support-lifts", Severity: Advice, Field: "supports", Part: SupportPart,
					Text: fmt.Sprintf("The %s lifts under “%s”. Fasten the top down there, or move the support or the load.", f.Name, d.Cases[i].Name)})
			}
		}
	}
	return out
}

// sinking tells of soft beds into which the top sinks by more than it may sag.
func (d *Design) sinking(r Result) []Problem {
	c := r.Whole.Cases[r.Governing]
	if !(d.Limits.Sag > 0 && c.Settlement > d.Limits.Sag) {
		return nil
	}
	return []Problem{{Code: "supports-sink", Severity: Advice, Field: "supports.bed", Part: SupportPart,
		Text: fmt.Sprintf("Under “%s” the top sinks %s into what it rests on, more than the %s it may sag; sag is told without it. Harder pads or wider bearings would help.",
			d.Cases[r.Governing].Name, sagText(c.Settlement), sagText(d.Limits.Sag))}}
}

// scaleToWhole makes depth and knobs, which are recomputed by the closed form,
// agree with the whole-panel model at the present design.
func (d *Design) scaleToWhole(r *Result) {
	closed := 0.0
	for _, c := range r.Cases {
		closed = math.Max(closed, c.Closed)
	}
	if !(closed > 0) || !(r.Cases[r.Governing].Sag > 0) {
		return
	}
	f := r.Cases[r.Governing].Sag / closed
	r.WhatIf = nil
	r.Depth = r.closed.depth
	r.Depth.Factor = f
	r.Depth.Curve = slices.Clone(r.Depth.Curve)
	for i := range r.Depth.Curve {
		r.Depth.Curve[i].Sag *= f
	}
	e := *d
	e.Limits.Sag /= f
	r.Depth.Needed = neededDepth(e, d.atDepth())
	r.Knobs = slices.Clone(r.closed.knobs)
	for i := range r.Knobs {
		for _, s := range [...]**KnobStep{&r.Knobs[i].Up, &r.Knobs[i].Down} {
			if *s != nil {
				scaled := **s
				scaled.Sag *= f
				*s = &scaled
			}
		}
	}
}

// wholeWorking tells how the model came to its sag and where the closed form
// parts from it.
func (d *Design) wholeWorking(r Result) []Working {
	w, c := r.Whole, r.Whole.Cases[r.Governing]
	plain := "The skins bend, stretch and shear on a grid, every rib is a web as wide as it is, and the supports push but never pull."
	if why := r.Cases[r.Governing].Apart; why != "" {
		plain += " " + why
	}
	out := []Working{{
		Key: "whole", Title: "The whole panel under “" + d.Cases[r.Governing].Name + "”",
		Formula: "K·u = f, finite elements: shear-flexible plates and webs, supports in touch only",
		Numbers: fmt.Sprintf("%d unknowns, %d elements across a bay; %s; supports sink %.3f mm into their beds of %s N/mm³, taken off", w.Unknowns, w.Mesh, w.Moved(), c.Settlement, plainNumber(d.Supports.BedStiffness())),
		Result:  fmt.Sprintf("%.3f mm at %.0f mm, %.0f mm", c.Sag, c.X, c.Y),
		Source:  "discrete Kirchhoff–Mindlin plates (Katili 1993, from memory), webs and slot cells derived; compared with solid elements, see the project's verify command",
		Plain:   plain,
	}}
	if w.OtherLaps > 0 {
		out = append(out, d.lapsWorking(r))
	}
	return out
}

// Moved says in words by how much the sag moved from the mesh before.
func (w *Whole) Moved() string {
	if w.Change == 0 {
		return "not yet compared with a finer mesh"
	}
	return fmt.Sprintf("from the mesh before this one the sag moved by %.1f %%", 100*w.Change)
}
