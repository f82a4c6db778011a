package engine

import (
	"context"
	"math"
	"slices"
	"strings"
)

// Compute finds out everything about a design: what [Estimate] says and, on the
// normal mesh, what [Refine] adds. It is pure and deterministic and may be
// called from many goroutines. A poor design is not an error: it comes back
// with Problems. The only error is that of a cancelled ctx.
func Compute(ctx context.Context, d Design) (Result, error) {
	r, err := Estimate(ctx, d)
	for _, mesh := range [...]Mesh{Interactive, Normal} {
		if err != nil {
			return Result{}, err
		}
		r, err = Refine(ctx, d, r, mesh)
	}
	return r, err
}

// Estimate finds out everything that needs no mesh: parts, mass, cost, the
// closed form, margins by it, build steps. It takes a few milliseconds.
func Estimate(ctx context.Context, d Design) (Result, error) { return estimate(ctx, d, true) }

// Glance is [Estimate] without what single steps would change, most of its time:
// for a hand that drags.
func Glance(ctx context.Context, d Design) (Result, error) { return estimate(ctx, d, false) }

func estimate(ctx context.Context, d Design, steps bool) (Result, error) {
	var r Result
	r.Problems = Validate(d, d.Material, Catalogue().Glue)
	if r.Blocked() {
		return r, ctx.Err()
	}
	made := d
	d.Built = nil // told as designed; Refine tells as built beside it
	r.Problems = append(r.Problems, d.pieceProblems()...)
	m := d.materials()
	mo := newModel(&d, &m, true)
	r.Parts = d.Parts()
	r.Mass = d.weigh(r.Parts)
	r.Cost = d.cost(r.Parts)
	r.SlotWork = made.slotWork(r.Parts)
	r.Problems = append(r.Problems, made.wayProblems(r.SlotWork)...)
	r.Stiffness = mo.stiffness()
	r.Stiffness.Along.Slot.Source, r.Stiffness.Across.Slot.Source = d.slotSource(), d.slotSource()
	for i := range d.Cases {
		c := mo.caseResult(&d.Cases[i])
		c.Reach = strings.TrimSpace(d.seamReach() + mo.supportsReach(&d) + " " + c.Reach)
		if len(r.Cases) == 0 || c.Sag > r.Cases[r.Governing].Sag {
			r.Governing = i
		}
		r.Cases = append(r.Cases, c)
	}
	r.Margins = mo.margins(&d, &m, true)
	if err := ctx.Err(); err != nil {
		return Result{}, err
	}
	var err error
	if r.Depth, err = depthReport(ctx, d); err != nil {
		return Result{}, err
	}
	if steps {
		if r.Knobs, err = knobs(ctx, d); err != nil {
			return Result{}, err
		}
	}
	d.addGlueUp(&m, &r)
	r.Build = d.buildPlan(r)
	r.Working = d.working(&mo, &m, r)
	d.addCreep(&mo, &m, &r)
	d.addMoisture(&mo, &m, &r)
	d.addBed(&mo, &m, &r)
	r.closed = closed{r.Problems, r.Working, r.Depth, r.Knobs, r.Cases}
	r.Problems = append(slices.Clip(r.Problems), d.shortfalls(r)...)
	return r, ctx.Err()
}

// stiffness gathers the figures that do not depend on a load.
func (mo *model) stiffness() Stiffness {
	direction := func(a *axis, slab float64) Direction {
		kb, ks := a.panel.Web.Bending, a.panel.Web.Shear
		return Direction{
			EI: a.first.EI, Rigid: a.panel.At(0, a.join).EI, GA: a.ga, Neutral: a.first.Neutral,
			Span: a.span.B - a.span.A, GammaTop: a.first.GammaTop, GammaBottom: a.first.GammaBottom,
			Slot: SlotFactors{Bending: kb, Shear: ks, Source: slotFactorSource}, SlabEI: slab,
		}
	}
	return Stiffness{Along: direction(&mo.along, mo.slab.ei), Across: direction(&mo.across, mo.slab.eiAcross), GJ: mo.along.gj}
}

// quick is what the screening needs: sag of the worst case and mass. It does
// not allocate beyond the design's own blocks.
func (d *Design) quick(harmonics bool) (sag, mass float64) {
	m := d.materials()
	return d.quickWith(&m, harmonics)
}

func (d *Design) quickWith(m *materials, harmonics bool) (sag, mass float64) {
	mo := newModel(d, m, harmonics)
	for i := range d.Cases {
		if _, s := mo.worst(&d.Cases[i]); s.total() > sag {
			sag = s.total()
		}
	}
	return sag, mo.weight / Gravity
}

// lowestMargin returns the lowest margin of a valid design.
func (d Design) lowestMargin() float64 {
	m := d.materials()
	mo := newModel(&d, &m, false)
	margins := mo.margins(&d, &m, false)
	if len(margins) == 0 {
		return TimesCap
	}
	return margins[0].Value
}

// valid reports whether a neighbour of a design can be computed.
func (d Design) valid() bool {
	return !Result{Problems: Validate(d, d.Material, Catalogue().Glue)}.Blocked()
}

// depthFactors are the core depths, as parts of the present one, at which the
// curve is recomputed.
var depthFactors = [...]float64{0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.1, 1.25, 1.5, 1.75, 2, 2.5, 3}

// atDepth returns what recomputes the panel at another core depth by the closed
// form. Materials do not depend on it.
func (d Design) atDepth() func(core float64) (sag, mass float64) {
	m := d.materials()
	return func(core float64) (sag, mass float64) {
		d.CoreDepth = core
		return d.quickWith(&m, true)
	}
}

// depthStep is how far the exponent of the closed form looks either way.
const depthStep = 0.01

// depthReport recomputes the panel at other core depths.
func depthReport(ctx context.Context, d Design) (DepthReport, error) {
	var r DepthReport
	if len(d.Cases) == 0 {
		return r, nil
	}
	at := d.atDepth()
	least, most := d.coreBounds()
	lo, _ := at(d.CoreDepth * (1 - depthStep))
	hi, _ := at(d.CoreDepth * (1 + depthStep))
	if lo > 0 && hi > 0 {
		r.Exponent = -math.Log(hi/lo) / math.Log((1+depthStep)/(1-depthStep))
	}
	for _, f := range depthFactors {
		if err := ctx.Err(); err != nil {
			return r, err
		}
		p := DepthPoint{CoreDepth: d.CoreDepth * f}
		if p.CoreDepth < least-nearly || p.CoreDepth > most+nearly {
			continue
		}
		p.Sag, p.Mass = at(p.CoreDepth)
		r.Curve = append(r.Curve, p)
	}
	r.Needed = neededDepth(d, at)
	return r, nil
}

// coreBounds returns the least and the most core depth that can be built: slots
// must leave wood.
func (d *Design) coreBounds() (least, most float64) {
	return math.Max(minCoreDepth, 2*(d.Slots.Relief+minLedge)), maxCoreDepth
}

// neededDepth returns the least whole millimetre of core depth that can be
// built, up to three times the present one, whose sag is within the limit; 0 if
// there is none.
func neededDepth(d Design, at func(float64) (float64, float64)) float64 {
	if d.Limits.Sag <= 0 {
		return 0
	}
	meets := func(core float64) bool { s, _ := at(core); return s <= d.Limits.Sag }
	least, most := d.coreBounds()
	lo, hi := math.Ceil(least), math.Floor(math.Min(3*d.CoreDepth, most))
	if !meets(hi) {
		return 0
	}
	if meets(lo) {
		return lo
	}
	for hi-lo > 1 {
		mid := math.Floor((lo + hi) / 2)
		if meets(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}
