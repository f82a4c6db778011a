package nest

import (
	"math"
	"slices"
)

// levels are how much finer the tables become, in sums, and from which effort on
// they are asked.
var levels = [...]struct {
	finer  int
	effort int64
}{{1, 1_000_000}, {3, 2_000_000}, {10, 8_000_000}}

// mostRounds is how often a refuter asks for patterns at most, mostPivots how
// often it takes one in between.
const mostRounds, mostPivots = 100, 1000

// refute looks for a proof that a set of sheets is too small, with tables of a
// level. It returns the weights that came nearest, all parts together weighing 1,
// and what the set holds by them; the set is refuted where that is below 1. The
// weights are nil where there was nothing new to ask.
func (b *bounder) refute(set []int, level int) (worth []float64, held float64) {
	for len(b.finer) <= level {
		b.finer = append(b.finer, make([]*table, len(b.p.stores)))
	}
	if len(b.tables) < len(b.p.stores) {
		return nil, 1 // the context ended
	}
	tables := b.finer[level]
	finer := level == 0
	for t, n := range set {
		if n == 0 {
			continue
		}
		before := b.tables[t]
		if level > 0 && b.finer[level-1][t] != nil {
			before = b.finer[level-1][t]
		}
		switch {
		case tables[t] != nil:
		case before.exact || level == 0:
			tables[t] = before
		default:
			tables[t] = newTable(b.p, b.w, &b.p.stores[t], b.most*levels[level].finer)
		}
		if tables[t] == nil {
			return nil, 1 // the context ended
		}
		finer = finer || tables[t] != before
	}
	if !finer {
		return nil, 1
	}
	r := newRefuter(b, set)
	r.run(tables, mostRounds)
	return r.centre, r.nearest
}

// refuter asks by a linear programme of its own how large a share of a set of
// sheets a mix of patterns needs at least to have all parts. Above 1 the set is
// refuted, and what the parts are worth then is the proof. So that few patterns
// are needed, it asks for them not at what the parts are worth now but on the
// way there from the best proof so far (smoothing after Wentges, Int. Trans.
// Oper. Res. 4, 1997, from memory).
type refuter struct {
	b       *bounder
	set     []int
	m       *master
	pool    []column // the first is one share of the set
	wanted  []int
	centre  []float64 // the best proof so far, all parts together weighing 1
	nearest float64   // what the set holds by it; below 1 it is refuted
}

// newRefuter starts with no pattern and every part bought, at a price per area
// that is a few times what it costs to cut it.
func newRefuter(b *bounder, set []int) *refuter {
	r := &refuter{b: b, set: set, wanted: b.p.wanted(), nearest: math.Inf(1)}
	dear := make([]float64, len(r.wanted))
	for k := range dear {
		dear[k] = bought * float64(b.p.kinds[k].area) / float64(b.p.area)
	}
	r.m = newMaster(r.wanted, make([]int, len(set)), dear)
	r.pool = append(r.pool, column{store: -1, slack: -1, sheets: set, cost: 1})
	return r
}

const (
	bought = 4    // times the set that all parts cost to buy
	enough = 0.98 // of the programme's value is near enough where it refutes nothing
)

// smoothed is how far from the newest worth the parts are weighed, towards the
// best proof so far.
const smoothed = 0.5

// run adds proofs until one refutes the set, the linear programme is solved or
// will not refute it, or rounds are over.
func (r *refuter) run(tables []*table, rounds int) {
	for range rounds {
		d := r.relax()
		now := r.normal(d)
		if now == nil {
			return // everything has a place
		}
		if share := r.m.price(); share <= 1 && r.nearest*share*enough < 1 {
			return
		}
		mixed := now
		if r.centre != nil {
			mixed = make([]float64, len(now))
			for k := range now {
				mixed[k] = float64(smoothed*r.centre[k]) + float64((1-smoothed)*now[k])
			}
		}
		gained, done := r.ask(tables, mixed, d)
		if !gained && !done && r.nearest >= 1 && r.centre != nil {
			gained, done = r.ask(tables, now, d)
		}
		if !gained || done || r.nearest < 1 {
			return
		}
	}
}

// relax takes patterns of the pool in until none helps, and returns what the
// rows are worth.
func (r *refuter) relax() []float64 {
	for range mostPivots {
		d := r.m.settle()
		best, most := -1, 1e-9
		for i := range r.pool {
			if g := r.gain(&r.pool[i], d); g > most {
				best, most = i, g
			}
		}
		r.b.w.more(len(r.pool) + r.m.rows*r.m.rows/8)
		if best < 0 || r.b.w.cancelled || !r.m.enter(r.pool[best]) {
			return d
		}
	}
	return r.m.duals()
}

// gain returns what a pattern would save.
func (r *refuter) gain(c *column, d []float64) float64 {
	g := -c.cost
	if c.store >= 0 {
		g += d[r.m.kinds+c.store]
	}
	for t, n := range c.sheets {
		g -= float64(d[r.m.kinds+t] * float64(n))
	}
	for k, q := range c.counts {
		g += float64(d[k] * float64(q))
	}
	return g
}

// normal scales worths so that all parts together are worth 1; nil where
// nothing is worth anything.
func (r *refuter) normal(d []float64) []float64 {
	total := 0.0
	for k, n := range r.wanted {
		total += float64(max(d[k], 0) * float64(n))
	}
	if !(total > 1e-9) {
		return nil
	}
	f := make([]float64, len(r.wanted))
	for k := range f {
		f[k] = max(d[k], 0) / total
	}
	return f
}

// ask fills the tables of the set's sheets with weights and puts the patterns
// found into the pool. gained reports whether one of them saves something at
// worths d, done that the context or the work ended.
func (r *refuter) ask(tables []*table, f, d []float64) (gained, done bool) {
	of, all, scale := weigh(f, r.wanted)
	if scale == 0 {
		return false, true
	}
	proof := weights{all: all}
	held := 0.0
	for t, n := range r.set {
		if n == 0 {
			proof.holds = append(proof.holds, unweighed)
			continue
		}
		v, filled := tables[t].fill(r.b.w, of)
		if !filled {
			return false, true
		}
		proof.holds = append(proof.holds, v)
		held += float64(float64(n) * float64(v))
		c := column{counts: tables[t].parts(of, r.m.kinds), store: t, slack: -1}
		if r.gain(&c, d) > 1e-9 && !slices.ContainsFunc(r.pool, func(o column) bool { return o.store == t && slices.Equal(o.counts, c.counts) }) {
			r.pool = append(r.pool, c)
			gained = true
		}
	}
	if held /= float64(all); held < r.nearest {
		r.nearest, r.centre = held, f
		r.b.proofs = append(r.b.proofs, proof)
	}
	return gained, !r.b.w.more(1)
}
