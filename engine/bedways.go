package engine

import (
	"math"
	"slices"

	"flatwright/engine/flat"
	"flatwright/engine/section"
)

// KeptShares is how much of the bed's shape the panel keeps once it is taken
// off.
type KeptShares struct {
	Along  Kept `json:"along"`  // of bow of the length
	Across Kept `json:"across"` // of bow of the width
	Wind   Kept `json:"wind"`
}

// Kept is what the panel keeps of one kind of shape, as shares of the bed's.
type Kept struct {
	Loose   float64 `json:"loose"`   // stiffness of the loose parts, N·mm²; of wind, twisting stiffness times length, N·mm³
	OneSkin float64 `json:"oneSkin"` // of ribs and bottom skin glued
	Closed  float64 `json:"closed"`  // of the panel

	Together   float64 `json:"together"`   // both skins at once, or one after the other the same side up
	AfterFirst float64 `json:"afterFirst"` // ribs and bottom skin, if they are taken off the bed
	TurnedOver float64 `json:"turnedOver"` // turned over for the second skin, seen as it lay first; negative is the other way
}

func keptOf(s section.Stages) Kept {
	return Kept{s.Loose, s.OneSkin, s.Closed, s.Together(), s.AfterFirst(), s.TurnedOver()}
}

// keptShares returns the shares for both bows and wind.
func (d *Design) keptShares(mo *model, m *materials) KeptShares {
	k := KeptShares{keptOf(mo.along.panel.Stages()), keptOf(mo.across.panel.Stages()), Kept{}}
	wind := d.twistStages(mo, m)
	k.Wind = keptOf(wind)
	// A twisted surface looks opposite from the other end of the way in which it
	// is turned, so turned over it lies on the bed as before.
	k.Wind.TurnedOver = k.Wind.Together
	return k
}

// twistStages returns the stiffness against wind: what the panel stores, twice,
// for a twist of 1 per mm over its area. Loose parts twist as strips; a skin on
// one side only leaves the section open, which adds next to nothing; with both it
// is a box (the mean of the boxes of both ways). Without edge bands, which are
// glued on later.
func (d *Design) twistStages(mo *model, m *materials) section.Stages {
	tb := d.EdgeBand.Thickness
	ls, ws := d.Length-2*tb, d.Width-2*tb
	top := section.StripTorsion(m.top.GEdge, ws, d.TopSkin.Thickness) * ls
	bottom := section.StripTorsion(m.bottom.GEdge, ws, d.BottomSkin.Thickness) * ls
	ribs := float64(d.Lengthwise.number())*section.StripTorsion(m.lengthwise.GEdge, d.CoreDepth, d.Lengthwise.Thickness)*ls +
		float64(d.Crosswise.number())*section.StripTorsion(m.crosswise.GEdge, d.CoreDepth, d.Crosswise.Thickness)*ws
	box := (torsion(d, d.Lengthwise, &mo.along.panel, 0, ws)*ls + torsion(d, d.Crosswise, &mo.across.panel, 0, ls)*ws) / 2
	loose := top + bottom + ribs
	return section.Stages{Loose: loose, Second: top, OneSkin: bottom + ribs, Closed: box + loose}
}

// GlueOrder is the order in which the skins are glued on.
type GlueOrder string

// The orders, the simplest first.
const (
	BothAtOnce   GlueOrder = "both skins at once"
	OneByOne     GlueOrder = "one skin after the other, the same side up"
	TurnedLong   GlueOrder = "turned over about its length for the second skin"
	TurnedEndway GlueOrder = "turned end over end for the second skin"
)

var glueOrders = [...]GlueOrder{BothAtOnce, OneByOne, TurnedLong, TurnedEndway}

// ShimPlan is what to lay on the bed.
type ShimPlan struct {
	Name  string    `json:"name"`
	Shims []BedShim `json:"shims"`
	Bed   Flatness  `json:"bed"` // what is left of the bed's unevenness with them
}

// BedShim is what to lay on one station.
type BedShim struct {
	Station   string    `json:"station"`
	X         float64   `json:"x"`
	Y         float64   `json:"y"`
	Gap       float64   `json:"gap"`       // to be filled, mm
	Thickness float64   `json:"thickness"` // of the leaves together, mm
	Leaves    []float64 `json:"leaves"`    // the thickest first, mm
}

// GlueWay is one order of gluing on one plan of shims, and the top that comes
// out, as it lay first on the bed.
type GlueWay struct {
	Order     GlueOrder `json:"order"`
	Plan      int       `json:"plan"` // index into Plans
	Flat      float64   `json:"flat"` // minimum zone of the top, mm
	BowAlong  float64   `json:"bowAlong"`
	BowAcross float64   `json:"bowAcross"`
	Wind      float64   `json:"wind"`
}

// The names of the plans.
const (
	planNone   = "no shims"
	planWind   = "shims against wind only"
	planEnough = "as few shims as meet the limit"
	planAll    = "shims wherever the bed is low"
)

// BedField is heights over the panel on an even grid, mm: column i and row j is
// at j·NX + i. The mean of each is 0.
type BedField struct {
	NX       int       `json:"nx"`
	NY       int       `json:"ny"`
	Bed      []float64 `json:"bed"`      // as it is
	Kept     []float64 `json:"kept"`     // of the top glued on it without a shim, both skins at once
	Finished []float64 `json:"finished"` // of the top glued the best way
}

// Size of the field: a place about every 75 mm.
const bedNX, bedNY = 25, 13

// flatSeen is a difference of flatness that counts as none, mm: what feelers
// cannot tell. Common practice, no source.
const flatSeen = 0.02

// laying is the bed under the panel while ways are tried.
type laying struct {
	d      *Design
	b      *BedReport
	s      *Survey
	known  []int // stations, as points
	points []flat.Point
	upper  flat.Plane
	set    flat.Set
	bow    flat.Shape
}

// layOn finds shims, ways and the shape kept, on the bed of the report.
func (d *Design) layOn(b *BedReport) {
	s := &d.Surveys[b.Bed]
	h := b.Surveys[b.Bed].heights
	l := laying{d: d, b: b, s: s}
	for k, p := range s.stations() {
		if h.Known[k] && s.near(d, k) {
			l.known = append(l.known, k)
			l.points = append(l.points, flat.Point{X: p.X, Y: p.Y, Z: h.Z[k]})
		}
	}
	l.bow = flat.ShapeOf(l.points)
	zone, err := flat.MinimumZone(l.points)
	if err != nil {
		return // too few of the stations lie under the panel
	}
	l.upper = zone.Upper()
	leaves := d.Leaves
	if len(leaves) == 0 {
		leaves = flat.FeelerSet()
	}
	l.set = flat.NewSet(leaves)
	b.Short = max(0, s.Columns[0], d.Length-s.Columns[len(s.Columns)-1], s.Rows[0], d.Width-s.Rows[len(s.Rows)-1])
	none := l.plan(planNone, nil)
	against := l.plan(planWind, l.againstWind())
	all := l.plan(planAll, l.set.Shims(l.points, l.upper, 0))
	for _, order := range glueOrders {
		l.try(order, none)
		if len(b.Plans[against].Shims) > 0 {
			l.try(order, against)
		}
		if len(b.Plans[all].Shims) > 0 {
			l.try(order, all)
			l.enough(order, all)
		}
	}
	l.choose()
	l.field()
}

// near reports whether a station lies under the panel or is the next one beside
// it: a bed may be larger than what is glued on it.
func (s *Survey) near(d *Design, station int) bool {
	within := func(at []float64, i int, extent float64) bool {
		return (i+1 >= len(at) || at[i+1] > nearly) && (i == 0 || at[i-1] < extent-nearly)
	}
	return within(s.Columns, station%len(s.Columns), d.Length) && within(s.Rows, station/len(s.Columns), d.Width)
}

// plan adds a plan and returns its index.
func (l *laying) plan(name string, shims []flat.Shim) int {
	p := ShimPlan{Name: name}
	for _, s := range shims {
		at := l.points[s.Station]
		p.Shims = append(p.Shims, BedShim{l.s.name(l.known[s.Station]), at.X, at.Y, s.Gap, s.Thickness, s.Leaves})
	}
	points := flat.Shimmed(l.points, shims)
	if ls, err := flat.LeastSquares(points); err == nil {
		p.Bed.PeakToValley, p.Bed.RMS = ls.PeakToValley, ls.RMS
	}
	if zone, err := flat.MinimumZone(points); err == nil {
		p.Bed.Zone = zone.Width
		for _, k := range zone.High {
			p.Bed.High = append(p.Bed.High, l.s.name(l.known[k]))
		}
		for _, k := range zone.Low {
			p.Bed.Low = append(p.Bed.Low, l.s.name(l.known[k]))
		}
	}
	l.b.Plans = append(l.b.Plans, p)
	return len(l.b.Plans) - 1
}

// againstWind returns the shims that take wind out and leave bow in: two opposite
// corners of the bed stay, the others are lifted.
func (l *laying) againstWind() []flat.Shim {
	var out []flat.Shim
	for i, p := range l.points {
		gap := math.Abs(l.bow.Wind.Value)/4 - l.bow.WindAt(p.X, p.Y)
		if leaves := l.set.Stack(gap); len(leaves) > 0 {
			t := 0.0
			for _, leaf := range leaves {
				t += leaf
			}
			out = append(out, flat.Shim{Station: i, Gap: gap, Thickness: t, Leaves: leaves})
		}
	}
	return out
}

// enough adds the plan with the fewest shims that keeps the top within the limit
// of flatness in this order, if there is a limit, fewer shims do, and some are
// needed. Low places are left alone as far as they may stay.
func (l *laying) enough(order GlueOrder, all int) {
	limit := l.d.Limits.Flatness
	if !(limit > 0) {
		return
	}
	gaps := []float64{0}
	for _, s := range l.b.Plans[all].Shims {
		gaps = append(gaps, s.Gap)
	}
	slices.Sort(gaps)
	meets := func(tolerance float64) bool {
		_, zone := l.top(flat.Shimmed(l.points, l.set.Shims(l.points, l.upper, tolerance)), order)
		return zone <= limit
	}
	lo, hi := 0, len(gaps)-1 // lo is tried by the caller, hi is no shim at all
	if !meets(gaps[lo]) || meets(gaps[hi]) {
		return
	}
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; meets(gaps[mid]) {
			lo = mid
		} else {
			hi = mid
		}
	}
	if lo > 0 {
		l.try(order, l.plan(planEnough, l.set.Shims(l.points, l.upper, gaps[lo])))
	}
}

// shims returns a plan's shims over the points.
func (l *laying) shims(plan int) []flat.Shim {
	var out []flat.Shim
	for _, s := range l.b.Plans[plan].Shims {
		for i, k := range l.known {
			if l.s.name(k) == s.Station {
				out = append(out, flat.Shim{Station: i, Thickness: s.Thickness})
			}
		}
	}
	return out
}

// try adds the way of an order and a plan.
func (l *laying) try(order GlueOrder, plan int) {
	shape, zone := l.top(flat.Shimmed(l.points, l.shims(plan)), order)
	l.b.Ways = append(l.b.Ways, GlueWay{order, plan, zone, shape.BowX.Value, shape.BowY.Value, shape.Wind.Value})
}

// top returns the shape and the minimum zone of the top that is glued in an order
// on points.
func (l *laying) top(points []flat.Point, order GlueOrder) (flat.Shape, float64) {
	field := l.d.keeps(l.b.Kept, l.d.bedBelow(newSurface(l.s, points)), order)
	zone, err := flat.MinimumZone(field)
	if err != nil {
		return flat.Shape{}, 0 // not reached: the field covers the panel
	}
	return flat.ShapeOf(field), zone.Width
}

// choose finds the best way and the one with the least work.
func (l *laying) choose() {
	b := l.b
	flattest := math.Inf(1)
	for _, w := range b.Ways {
		flattest = min(flattest, w.Flat)
	}
	shims := func(i int) int { return len(b.Plans[b.Ways[i].Plan].Shims) }
	for i, w := range b.Ways {
		if w.Flat <= flattest+flatSeen && (b.Best < 0 || shims(i) < shims(b.Best)) {
			b.Best = i
		}
		if w.Flat <= l.d.Limits.Flatness && (b.Least < 0 || shims(i) < shims(b.Least)) {
			b.Least = i
		}
	}
}

// field keeps the shapes for the drawings.
func (l *laying) field() {
	bed := l.d.bedBelow(newSurface(l.s, l.points))
	best := l.b.Ways[l.b.Best]
	f := &BedField{NX: bedNX, NY: bedNY, Bed: levelled(bed), Kept: levelled(l.d.keeps(l.b.Kept, bed, BothAtOnce))}
	shimmed := l.d.bedBelow(newSurface(l.s, flat.Shimmed(l.points, l.shims(best.Plan))))
	f.Finished = levelled(l.d.keeps(l.b.Kept, shimmed, best.Order))
	l.b.Field = f
}

// levelled returns heights over the least-squares plane.
func levelled(points []flat.Point) []float64 {
	out := make([]float64, len(points))
	ls, err := flat.LeastSquares(points)
	for i, p := range points {
		if err == nil {
			out[i] = ls.Plane.Over(p)
		}
	}
	return out
}
