package nest

import "slices"

// weights is a proof in whole numbers: no layout of one sheet of entry t holds
// parts that weigh more than holds[t] together; of an entry that is unweighed
// nothing is known. A set of sheets that holds less than all parts weigh cannot
// take them.
type weights struct {
	holds []int64
	all   int64 // of all parts
}

// unweighed stands where a proof does not say what an entry holds.
const unweighed = -1

// refutes reports whether a set of sheets, so many of each entry, is too small.
func (w *weights) refutes(set []int) bool {
	var sum int64
	for t, n := range set {
		if n > 0 && w.holds[t] == unweighed {
			return false
		}
		sum += w.holds[t] * int64(n)
	}
	return sum < w.all
}

// byArea weighs parts by their area.
func byArea(p *problem) weights {
	w := weights{all: p.area}
	for i := range p.stores {
		w.holds = append(w.holds, p.stores[i].area)
	}
	return w
}

// bounder finds weights by column generation: the worth of the parts in the
// linear programme are the weights, and a table says what a sheet holds.
type bounder struct {
	p      *problem
	w      *work
	most   int // sums that filling one of the tables takes at most
	tables []*table
	finer  [][]*table // of the levels above, as far as they were asked for
	proofs []weights
}

// weighty is what all parts together are made to weigh, about: small enough
// for sums over a table, large enough that rounding does not matter.
const weighty = 1 << 40

// newBounder prepares the tables. most is how many sums one may take to fill.
func newBounder(p *problem, w *work, most int) *bounder {
	b := &bounder{p: p, w: w, most: most, proofs: []weights{byArea(p)}}
	for i := range p.stores {
		t := newTable(p, w, &p.stores[i], most)
		if t == nil {
			break
		}
		b.tables = append(b.tables, t)
	}
	return b
}

// improve adds proofs for the given cost of one sheet of each entry, until the
// linear programme is solved, rounds are over or the work is spent.
func (b *bounder) improve(cost []float64, limits []int, rounds int) {
	dear := 0.0
	for _, c := range cost {
		dear += c
	}
	m := newMaster(b.p.wanted(), limits, slices.Repeat([]float64{4*dear + 1}, len(b.p.kinds)))
	for range rounds {
		if !b.price(m, m.settle(), cost) {
			return
		}
	}
}

// wanted returns how many parts of each kind there are to be.
func (p *problem) wanted() []int {
	n := make([]int, len(p.kinds))
	for k := range n {
		n[k] = p.kinds[k].count
	}
	return n
}

// weigh turns what parts are worth into whole numbers: of each kind and of all
// that are wanted, and the scale; 0 where nothing is worth anything.
func weigh(d []float64, wanted []int) (of []int64, all int64, scale float64) {
	total := 0.0
	for k, n := range wanted {
		total += float64(max(d[k], 0) * float64(n))
	}
	if !(total > 0) {
		return nil, 0, 0
	}
	scale = weighty / total
	of = make([]int64, len(wanted))
	for k, n := range wanted {
		of[k] = int64(max(d[k], 0) * scale)
		all += of[k] * int64(n)
	}
	return of, all, scale
}

// price weighs the parts by their worth and enters the pattern that is worth
// the most more than it costs. It reports whether there is one.
func (b *bounder) price(m *master, d, cost []float64) bool {
	if len(b.tables) < len(b.p.stores) {
		return false // the context ended
	}
	of, all, scale := weigh(d, b.p.wanted())
	if scale == 0 {
		return false
	}
	w := weights{all: all}
	best, gain := column{store: -1}, 1e-7*scale
	for t, tab := range b.tables {
		v, done := tab.fill(b.w, of)
		if !done {
			return false
		}
		w.holds = append(w.holds, v)
		g := float64(v) - float64((cost[t]-d[m.kinds+t])*scale)
		if rel := 1e-7 * cost[t] * scale; g > gain && g > rel {
			best, gain = column{counts: tab.parts(of, m.kinds), store: t, slack: -1, cost: cost[t]}, g
		}
	}
	b.proofs = append(b.proofs, w)
	if !b.w.more(1) {
		return false
	}
	return best.store >= 0 && m.enter(best)
}
