package engine

import (
	"context"
	"fmt"
	"math"

	"flatwright/engine/catalog"
	"flatwright/engine/length"
	"flatwright/engine/plate"
	"flatwright/engine/proof"
)

// ProofPlan is what to do and what to expect of it.
type ProofPlan struct {
	Refused string  // why there is no plan, in words; then all else is empty
	Service float64 // total force of the service load that it is compared with, N
	Cap     float64 // the most that is put on, N
	CapWhy  string  // what sets it

	Piece    Stackable
	Rounds   []ProofRoundPlan
	Unknowns []proof.Unknown // in the order of [ProofStage.Slopes]

	chosen bool // Cap is less than the service load because the person wants it so
}

// ProofRoundPlan is one round stage by stage.
type ProofRoundPlan struct {
	Stages []ProofStage // from nothing up, and down again to nothing
	Known  proof.Known
	Sight  proof.Sight // of the fullest stage
	Advice []string    // what would make it better to see

	// What the fullest stage adds to a reading over two points of the top, which ride
	// down with it, and over what stays where it is, mm.
	Rides, Fixed float64

	Lowest Margin   // under the fullest stage, with the code's reserves
	Where  []Spread // the stack stands on these
}

// ProofStage is one stage.
type ProofStage struct {
	Name      string
	Pieces    int
	Force     float64 // N
	Expected  float64 // reading above the first one, mm
	Low, High float64 // 90 % range of it, mm
	Down      bool    // on the way down
	Slopes    []float64
}

// proofUnknown is a group of figures that nobody knows exactly.
type proofUnknown struct {
	name   string
	spread func(d *Design, m *materials) float64
	vary   func(m *materials, factor float64)
}

// slipScatter is the standard deviation of the logarithm of what skins and joints
// yield in shear through the thickness: rolling shear scatters more than other
// moduli, and joints add. Common practice, no source.
const slipScatter = 0.3

// The groups, and their order.
const (
	unknownSkins = iota
	unknownRibs
	unknownShear
	unknownSlip
	proofUnknowns
)

func scale(factor float64, figures ...*float64) {
	for _, f := range figures {
		*f *= factor
	}
}

func meanScatter(a, b catalog.Sheet) float64 {
	return math.Sqrt((math.Log1p(a.CVE*a.CVE) + math.Log1p(b.CVE*b.CVE)) / 2)
}

var proofUnknownList = [proofUnknowns]proofUnknown{
	unknownSkins: {"stiffness of the skins", func(_ *Design, m *materials) float64 { return meanScatter(m.top, m.bottom) }, func(m *materials, f float64) {
		for _, s := range [...]*catalog.Sheet{&m.top, &m.bottom} {
			scale(f, &s.EAlong, &s.EAcross, &s.EBendAlong, &s.EBendAcross, &s.GEdge)
		}
	}},
	unknownRibs: {"stiffness of the ribs in bending", func(_ *Design, m *materials) float64 { return meanScatter(m.lengthwise, m.crosswise) }, func(m *materials, f float64) {
		for _, s := range [...]*catalog.Sheet{&m.lengthwise, &m.crosswise} {
			scale(f, &s.EAlong, &s.EAcross, &s.EBendAlong, &s.EBendAcross)
		}
	}},
	unknownShear: {"stiffness of the core in shear", func(_ *Design, m *materials) float64 { return meanScatter(m.lengthwise, m.crosswise) }, func(m *materials, f float64) {
		scale(f, &m.lengthwise.GEdge, &m.crosswise.GEdge)
	}},
	unknownSlip: {"stiffness of the glue lines against slip", func(*Design, *materials) float64 { return slipScatter }, func(m *materials, f float64) {
		for _, s := range [...]*catalog.Sheet{&m.top, &m.bottom, &m.lengthwise, &m.crosswise} {
			scale(f, &s.GRolling, &s.EThrough)
		}
	}},
}

// PlanProof plans the proof load of a design, the panel as it was made, by the
// whole-panel model on the normal mesh. The load stays within the service load and
// where every margin keeps the reserves of the code. Where there can be no plan,
// Refused says why. It returns the error of ctx.
func PlanProof(ctx context.Context, d Design, r Result) (ProofPlan, error) {
	if why := d.noProof(r); why != "" {
		return ProofPlan{Refused: why}, ctx.Err()
	}
	made := d.measured()
	p := ProofPlan{Piece: d.Proof.Stackable(), Service: made.serviceForce()}
	share := d.Proof.Share
	if !(share > 0) {
		share = 1
	}
	p.Cap, p.CapWhy = math.Min(share, mostShare)*p.Service, "the service load"
	if share < 1 {
		p.CapWhy, p.chosen = fmt.Sprintf("%.0f %% of the service load, as you chose", 100*share), true
	}
	margins := make([]Margin, len(d.Proof.Rounds))
	for i, round := range d.Proof.Rounds {
		low, err := made.proofMargin(ctx, round, p.Cap)
		if err != nil {
			return ProofPlan{}, err
		}
		margins[i] = low
		if low.Code != "" && low.Times < 1 {
			p.Cap *= low.Times
			p.chosen = false
			p.CapWhy = fmt.Sprintf("what keeps the margin of “%s” at 1 with this stack", low.Name)
		}
	}
	total := int(p.Cap / (p.Piece.Piece * Gravity))
	if total < 1 {
		return ProofPlan{Refused: fmt.Sprintf("One piece weighs %.1f kg, and no more than %.1f kg should be put on (%s). Take smaller pieces.", p.Piece.Piece, p.Cap/Gravity, p.CapWhy)}, nil
	}
	mats := made.materials()
	for j := range proofUnknownList {
		p.Unknowns = append(p.Unknowns, proof.Unknown{Name: proofUnknownList[j].name, Spread: math.Max(proofUnknownList[j].spread(&made, &mats), 0.01)})
	}
	tops, err := made.proofTops(ctx, &mats)
	if err != nil {
		return notProved(ctx)
	}
	for i, round := range d.Proof.Rounds {
		plan, err := made.planRound(ctx, &mats, tops, round, total, p)
		if err != nil {
			return notProved(ctx)
		}
		plan.Lowest = margins[i]
		p.Rounds = append(p.Rounds, plan)
	}
	return p, ctx.Err()
}

// notProved is what there is of a top that the model refuses: it tips or rocks.
func notProved(ctx context.Context) (ProofPlan, error) {
	if err := ctx.Err(); err != nil {
		return ProofPlan{}, err
	}
	return ProofPlan{Refused: "Nothing holds the top down under this stack: it tips off its supports or rocks on them. Move the stack between the supports."}, nil
}

// noProof says why there can be no plan.
func (d *Design) noProof(r Result) string {
	switch {
	case !d.Proof.Planned():
		return "No proof load is planned yet."
	case r.Blocked() || r.NotHeld() != "":
		return "The top is not computed yet, or nothing holds it up."
	case d.serviceForce() <= 0:
		return "There is no load case with a load that presses down. Enter what the top is to carry: a proof load stays within it."
	case len(d.Proof.Rounds) > maxRounds || d.Proof.StagesUp() > mostStages:
		return fmt.Sprintf("More than %d rounds or %d stages are more than anybody reads in one go.", maxRounds, mostStages)
	}
	for i, q := range d.Proof.Rounds {
		fits := q.SizeX > 0 && q.SizeY > 0 && q.X-q.SizeX/2 > -nearly && q.X+q.SizeX/2 < d.Length+nearly && q.Y-q.SizeY/2 > -nearly && q.Y+q.SizeY/2 < d.Width+nearly
		if !fits || len(d.presses(q)) == 0 {
			return fmt.Sprintf("The stack of round %d does not stand on the top. Move it, or make it as large as the top takes, with room beside the straightedge.", i+1)
		}
	}
	x, y, within := d.Proof.X, d.Proof.Y, d.Length
	if d.Proof.Across {
		within = d.Width
	}
	if !(x >= 0 && x <= d.Length && y >= 0 && y <= d.Width) {
		return "The gauge is not on the top."
	}
	at := x
	if d.Proof.Across {
		at = y
	}
	if d.Proof.Reference() == OnTheTop && !(d.Proof.From >= 0 && d.Proof.From < at && at < d.Proof.To && d.Proof.To <= within) {
		return "The straightedge must reach over the gauge from one place on the top to another. Its ends are told along it."
	}
	return ""
}

// serviceForce is the largest total of any load case, N; a couple presses nothing
// down.
func (d *Design) serviceForce() float64 {
	most := 0.0
	for _, c := range d.Cases {
		sum := 0.0
		for _, l := range c.Loads {
			if l.Kind != Couple {
				sum += l.Force
			}
		}
		most = math.Max(most, sum)
	}
	return most
}

// proofCase is the name of the load case that a proof load is.
const proofCase = "proof load"

// proofMargin returns the lowest margin of the top under a stack alone.
func (d *Design) proofMargin(ctx context.Context, round ProofRound, force float64) (Margin, error) {
	e := d.Clone()
	e.Cases = []LoadCase{{Name: proofCase, Duration: ShortTerm, Loads: e.stack(round, force)}}
	margins, _, err := e.ratedMargins(ctx)
	for _, m := range margins {
		if m.Case == proofCase {
			return m, err
		}
	}
	return Margin{}, err
}

// ratedMargins returns all margins of a design as it stands and the sags of its
// cases, on the normal mesh, lowest first. Of what tips there are none. It returns the
// error of ctx.
func (d *Design) ratedMargins(ctx context.Context) ([]Margin, []float64, error) {
	m := d.materials()
	mo := newModel(d, &m, false)
	w, err := wholeCases(ctx, d, mo.weight, Normal)
	if err != nil {
		return nil, nil, ctx.Err()
	}
	var sags []float64
	for _, c := range w.report.Cases {
		sags = append(sags, c.Sag)
	}
	leant, all := d.leant(w)
	return mo.wholeMargins(ctx, leant, &m, all), sags, ctx.Err()
}

// planRound plans one round of so many pieces in all.
func (d *Design) planRound(ctx context.Context, m *materials, tops []proofTop, round ProofRound, total int, p ProofPlan) (ProofRoundPlan, error) {
	out := ProofRoundPlan{Where: d.presses(round)}
	nothing := make([]float64, len(tops))
	for j, t := range tops {
		s, err := t.model.Solve(ctx, []plate.Press{t.own})
		if err != nil {
			return out, err
		}
		nothing[j] = d.proofReading(s)
	}
	up := min(d.Proof.StagesUp(), total)
	pieces := []int{0}
	for i := 1; i <= up; i++ {
		pieces = append(pieces, int(math.Round(float64(total*i)/float64(up))))
	}
	at := map[int]ProofStage{}
	for i, n := range pieces {
		s := ProofStage{Name: stageName(i, up), Pieces: n, Force: float64(n) * p.Piece.Piece * Gravity, Slopes: make([]float64, proofUnknowns)}
		for j, t := range tops {
			if n == 0 {
				break
			}
			v, err := d.expected(ctx, t, round, s.Force, nothing[j])
			if err != nil {
				return out, err
			}
			if j == 0 {
				s.Expected = v
				continue
			}
			s.Slopes[j-1] = (v - s.Expected) / proofStep
		}
		at[n] = s
		out.Stages = append(out.Stages, s)
	}
	var err error
	if out.Rides, out.Fixed, err = d.overEither(ctx, tops[0], round, out.Stages[up].Force); err != nil {
		return out, err
	}
	out.Known = d.proofKnown(m, out.Stages[up])
	for _, n := range [...]int{pieces[(up+1)/2], 0} {
		s := at[n]
		if s.Down = true; n == pieces[up] {
			continue // of one stage there is no half
		}
		s.Name = "half taken off again"
		if n == 0 {
			s.Name = "all taken off"
		}
		out.Stages = append(out.Stages, s)
	}
	for i := range out.Stages {
		s := &out.Stages[i]
		s.Low, s.High = proof.Band(s.Expected, out.Known)
	}
	full := out.Stages[up].Expected
	out.Sight = proof.Look(full, d.Proof.Reads())
	out.Advice = d.sightAdvice(full, p)
	return out, ctx.Err()
}

func stageName(i, up int) string {
	if i == 0 {
		return "nothing on it"
	}
	return fmt.Sprintf("stage %d of %d", i, up)
}

// proofKnown is what is known before a round is read. Skins, ribs and core of one and
// the same material vary together, otherwise each for itself; slip and the model's own
// scatter come on top (first order, lognormal).
func (d *Design) proofKnown(m *materials, full ProofStage) proof.Known {
	w := d.Proof.Reads()
	k := proof.Known{Error: math.Hypot(w.Error, w.Step/math.Sqrt(12))} // rounding to steps: uniform
	along, across := d.spans()
	if span := math.Max(along.B-along.A, across.B-across.A); !d.Supports.Fastened {
		k.Friction = proof.Friction(proof.WoodOnWood, d.TotalDepth(), span)
	}
	if d.Proof.Reference() == OnTheTop {
		k.Bedding = proof.BeddingOnTop
	}
	variance := math.Log1p(modelScatter * modelScatter)
	if full.Expected > 0 {
		one := d.TopSkin.Material == d.BottomSkin.Material && d.TopSkin.Material == d.Lengthwise.Material && d.TopSkin.Material == d.Crosswise.Material
		together := 0.0
		for j, u := range proofUnknownList {
			effect := full.Slopes[j] / full.Expected * u.spread(d, m)
			if j != unknownSlip && one {
				together += effect
				continue
			}
			variance += effect * effect
		}
		variance += together * together
	}
	k.Spread = math.Sqrt(variance)
	return k
}

// sightAdvice says what would make a reading of that size useful.
func (d *Design) sightAdvice(full float64, p ProofPlan) []string {
	w := d.Proof.Reads()
	s := proof.Look(full, w)
	if s.Useful {
		return nil
	}
	var out []string
	what := fmt.Sprintf("The fullest stage is expected to read %.3f mm, and the %s tells %.3f mm from nothing: too little to be seen.", full, w.Name, s.Least)
	if s.Sees {
		what = fmt.Sprintf("The fullest stage is expected to read %.3f mm; with the %s the stiffness would be uncertain by %.0f %%, as much as sheets differ from each other.", full, w.Name, 100*s.Share)
	}
	out = append(out, what)
	if finer, ok := proof.Finer(full); ok && d.Proof.Error == 0 {
		out = append(out, "Read it by "+finer.Name+": that is fine enough.")
	} else {
		out = append(out, "No way of reading that is listed is fine enough for this load on this span.")
	}
	factor := proof.Needed(full, w)
	if math.IsInf(factor, 0) || math.IsNaN(factor) {
		return append(out, "The gauge stands where this stack moves nothing: put it under the stack, or the straightedge over it.")
	}
	along, across := d.spans()
	span, most := along.B-along.A, d.Length
	if d.Proof.Across || d.Supports.pattern() == RailsAlong {
		span, most = across.B-across.A, d.Width
	}
	if longer := span * proof.SpanFor(factor, 0.7); longer <= most {
		out = append(out, fmt.Sprintf("Or lay it for the test on two rails %.0f mm apart instead of %.0f mm: at most 70 %% of the sag is taken as bending here, which goes with the cube of the span. Type the supports in under Design to see.", math.Ceil(longer/10)*10, span))
	} else {
		out = append(out, fmt.Sprintf("A longer span does not help: it would have to be %.1f times as long, and the top ends before that.", proof.SpanFor(factor, 0.7)))
	}
	if need := factor * p.Cap; p.chosen && need <= mostShare*p.Service {
		out = append(out, fmt.Sprintf("Or load it with %.0f kg, %.0f %% of the service load, unless a margin forbids it.", need/Gravity, 100*need/p.Service))
	} else {
		out = append(out, fmt.Sprintf("More load is no way: it would take %.1f times as much, and the plan stays within the service load and the margins.", factor))
	}
	return out
}

// StageLoad says in words what lies on the top at a stage.
func (p ProofPlan) StageLoad(s ProofStage, f length.Format) string {
	if s.Pieces == 0 {
		return "nothing"
	}
	return fmt.Sprintf("%d × %s = %s", s.Pieces, length.Mass(p.Piece.Piece, f), length.Mass(s.Force/Gravity, f))
}
