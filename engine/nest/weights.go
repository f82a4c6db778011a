package nest

// weights is a proof in whole numbers: no layout of one sheet of entry t holds
// parts that weigh more than holds[t] together. A set of sheets that holds less
// than all parts weigh cannot take them.
type weights struct {
	holds []int64
	all   int64 // of all parts
}

// refutes reports whether a set of sheets, so many of each entry, is too small.
func (w *weights) refutes(set []int) bool {
	var sum int64
	for t, n := range set {
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
	tables []*table
	proofs []weights
}

// weighty is what all parts together are made to weigh, about: small enough
// for sums over a table, large enough that rounding does not matter.
const weighty = 1 << 40

// newBounder prepares the tables. most is how many sums one may take to fill.
func newBounder(p *problem, w *work, most int) *bounder {
	b := &bounder{p: p, w: w, proofs: []weights{byArea(p)}}
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
	m := newMaster(b.p, 4*dear+1)
	for t := range limits {
		m.x[m.kinds+t] = float64(limits[t])
	}
	for range rounds {
		d := m.duals()
		for range 4 * m.rows {
			s := m.cheapestSlack(d)
			if s < 0 || !m.enter(column{store: -1, slack: s}) {
				break
			}
			d = m.duals()
		}
		if !b.price(m, d, cost) {
			return
		}
	}
}

// price weighs the parts by their worth and enters the pattern that is worth
// the most more than it costs. It reports whether there is one.
func (b *bounder) price(m *master, d, cost []float64) bool {
	if len(b.tables) < len(b.p.stores) {
		return false // the context ended
	}
	total := 0.0
	for k := range b.p.kinds {
		total += max(d[k], 0) * float64(b.p.kinds[k].count)
	}
	if !(total > 0) {
		return false
	}
	scale := weighty / total
	of := make([]int64, m.kinds)
	w := weights{}
	for k := range of {
		of[k] = int64(max(d[k], 0) * scale)
		w.all += of[k] * int64(b.p.kinds[k].count)
	}
	best, gain := column{store: -1}, 1e-7*scale
	for t, tab := range b.tables {
		v, done := tab.fill(b.w, of)
		if !done {
			return false
		}
		w.holds = append(w.holds, v)
		g := float64(v) - (cost[t]-d[m.kinds+t])*scale
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
