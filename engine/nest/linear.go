package nest

import "slices"

// linear is the case of bars: every part is as wide as every sheet, so that
// only lengths matter. The patterns of a linear programme are then rounded, a
// few at a time and the programme solved again for the rest (diving), which
// finds more than ruin and recreate does where bars are filled to the last.
type linear struct {
	p       *problem
	w       *work
	rnd     random
	way     []uint8
	lengths []size
	cell    size // unit of lengths in the knapsack
	cells   []int32
	caps    []int32
	exact   bool
	pool    []column
	items   []item
	taken   [][]bool
	value   []int64
}

// item is a number of parts of one kind that a knapsack takes or leaves.
type item struct{ kind, times int }

// newLinear returns nil where the job is not one of bars.
func newLinear(p *problem, w *work, seed uint64) *linear {
	n := &linear{p: p, w: w, rnd: newRandom(seed)}
	longest := size(0)
	for k := range p.kinds {
		way := uint8(0)
		for t := range p.stores {
			st := &p.stores[t]
			longest = max(longest, st.l)
			for _, o := range [...]uint8{straight, turned} {
				if st.ways[k]&o == 0 {
					continue
				}
				if _, across := p.kinds[k].sides(o); across != st.w || way != 0 && way != o {
					return nil
				}
				way = o
			}
		}
		l, _ := p.kinds[k].sides(way)
		n.way, n.lengths = append(n.way, way), append(n.lengths, l)
	}
	n.measure(longest)
	return n
}

// mostCells is how finely the knapsack counts at most.
const mostCells = 50_000

// measure chooses the unit: the largest that divides all lengths, or one that
// rounds parts and bars down. What fits then still fits, so values are bounds.
func (n *linear) measure(longest size) {
	n.cell = n.lengths[0]
	for _, l := range n.lengths {
		for a := l; a != 0; {
			n.cell, a = a, n.cell%a
		}
	}
	if longest/n.cell > mostCells {
		n.cell = longest/mostCells + 1
	}
	n.exact = true
	for _, l := range n.lengths {
		n.cells = append(n.cells, int32(l/n.cell))
		n.exact = n.exact && l%n.cell == 0
	}
	for t := range n.p.stores {
		n.caps = append(n.caps, int32(n.p.stores[t].l/n.cell))
	}
}

// fill solves the knapsack for every capacity, with no more of a kind than
// counts. It reports false if the context ended.
func (n *linear) fill(values []int64, counts []int) bool {
	most := int(slices.Max(n.caps))
	n.items = n.items[:0]
	for k, c := range counts {
		if values[k] == 0 {
			continue
		}
		for times := 1; c > 0; times *= 2 {
			times = min(times, c)
			n.items = append(n.items, item{k, times})
			c -= times
		}
	}
	if len(n.value) == 0 {
		n.value = make([]int64, most+1)
	}
	clear(n.value)
	for i, it := range n.items {
		if i == len(n.taken) {
			n.taken = append(n.taken, make([]bool, most+1))
		}
		take := n.taken[i]
		clear(take)
		v := values[it.kind] * int64(it.times)
		for at, l := most, int(n.cells[it.kind])*it.times; at >= l; at-- {
			if sum := n.value[at-l] + v; sum > n.value[at] {
				n.value[at], take[at] = sum, true
			}
		}
		if n.w.more(most / 4); n.w.cancelled {
			return false
		}
	}
	return true
}

// parts returns the best filling of a capacity after fill.
func (n *linear) parts(capacity int32) []int {
	counts := make([]int, len(n.lengths))
	at := int(capacity)
	for i := len(n.items) - 1; i >= 0; i-- {
		if it := n.items[i]; n.taken[i][at] {
			counts[it.kind] += it.times
			at -= int(n.cells[it.kind]) * it.times
		}
	}
	return counts
}

// shorten takes parts off a pattern until it fits its bar by its true lengths
// and has none that are not wanted.
func (n *linear) shorten(counts, wanted []int, t int) {
	var sum int64
	for k := range counts {
		counts[k] = min(counts[k], wanted[k])
		sum += int64(counts[k]) * int64(n.lengths[k])
	}
	for sum > int64(n.p.stores[t].l) {
		shortest := -1
		for k, c := range counts {
			if c > 0 && (shortest < 0 || n.lengths[k] < n.lengths[shortest]) {
				shortest = k
			}
		}
		counts[shortest]--
		sum -= int64(n.lengths[shortest])
	}
}

// relax solves the linear programme for what is wanted. With proofs not nil it
// adds what it learns.
func (n *linear) relax(wanted, limits []int, cost []float64, proofs *[]weights) *master {
	dear := 1.0
	for _, c := range cost {
		dear += 4 * c
	}
	m := newMaster(wanted, limits, slices.Repeat([]float64{dear}, len(wanted)))
	for n.w.more(m.rows * m.rows / 4) {
		d := m.settle()
		best, gain := -1, 1e-7
		for i := range n.pool {
			c := &n.pool[i]
			g := d[m.kinds+c.store] - cost[c.store]
			for k, q := range c.counts {
				if q > 0 {
					g += float64(d[k] * float64(q))
				}
			}
			if g > gain {
				best, gain = i, g
			}
		}
		if best >= 0 && m.enter(n.pool[best]) {
			n.w.more(len(n.pool))
			continue
		}
		if !n.price(m, d, wanted, cost, proofs) {
			break
		}
	}
	return m
}

// price looks for a new pattern by the knapsack and enters it.
func (n *linear) price(m *master, d []float64, wanted []int, cost []float64, proofs *[]weights) bool {
	of, all, scale := weigh(d, wanted)
	if scale == 0 || !n.fill(of, wanted) {
		return false
	}
	w := weights{all: all}
	for _, c := range n.caps {
		w.holds = append(w.holds, n.value[c])
	}
	entered := false
	for t, c := range n.caps {
		g := float64(n.value[c]) - float64((cost[t]-d[m.kinds+t])*scale)
		if g > 1e-7*scale && g > 1e-7*cost[t]*scale {
			counts := n.parts(c)
			n.shorten(counts, wanted, t)
			col := column{counts: counts, store: t, slack: -1, cost: cost[t]}
			if !slices.ContainsFunc(n.pool, func(o column) bool { return o.store == t && slices.Equal(o.counts, counts) }) {
				n.pool = append(n.pool, col)
				entered = m.enter(col) || entered
				if entered {
					break
				}
			}
		}
	}
	if proofs != nil {
		*proofs = append(*proofs, w)
	}
	return entered
}

// dive rounds patterns until nothing is wanted any more, or no bar is left.
func (n *linear) dive(wanted, limits []int, cost []float64, chance float64) []*tree {
	wanted, limits = slices.Clone(wanted), slices.Clone(limits)
	var layouts []*tree
	first := true
	for slices.Max(wanted) > 0 && !n.w.cancelled {
		m := n.relax(wanted, limits, cost, nil)
		before := len(layouts)
		best, most := -1, 0.0
		for i := range m.basic {
			c := &m.basic[i]
			if c.store < 0 || m.x[i] < 1e-6 {
				continue
			}
			if times := int(m.x[i] + 1e-6); first || times > 1 {
				for range times {
					layouts = n.use(layouts, c, wanted, limits)
				}
			}
			frac := m.x[i] - float64(int(m.x[i]+1e-6))
			if v := frac + float64(chance*n.rnd.unit()); v > most && frac > 1e-6 || best < 0 {
				best, most = i, v
			}
		}
		first = false
		if best < 0 {
			return layouts
		}
		if before == len(layouts) {
			before = len(layouts)
			c := m.basic[best]
			layouts = n.use(layouts, &c, wanted, limits)
			if before == len(layouts) {
				return layouts
			}
		}
	}
	return layouts
}

// use cuts a pattern from one bar, as far as its parts are still wanted.
func (n *linear) use(layouts []*tree, c *column, wanted, limits []int) []*tree {
	if limits[c.store] == 0 {
		return layouts
	}
	counts := slices.Clone(c.counts)
	n.shorten(counts, wanted, c.store)
	t := newTree(n.p, c.store)
	for k, q := range counts {
		for range q {
			t.insert(n.p, int32(k), place{t.root, alongX, n.way[k], n.lengths[k], n.p.stores[c.store].w})
			wanted[k]--
		}
	}
	if t.root == none {
		return layouts
	}
	limits[c.store]--
	return append(layouts, t)
}
