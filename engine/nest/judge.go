package nest

// judge tells which boxes a layout on a set of sheets cannot afford. The parts
// weigh what a linear programme found; a sheet holds no more than holds. A box
// that holds less than parts in a box of its size can weigh wastes the
// difference, as the same layout with that box filled better shows, and all
// waste together may not be more than what the sheets hold beyond all parts.
type judge struct {
	of    []int64 // what a part of each kind weighs
	spare int64
	seats []seat // of each entry of the stock
}

// seat is one entry of the stock, weighed.
type seat struct {
	table *table // nil where the set has none of it
	holds int64
}

// newJudge weighs parts by their worth, on tables that cost at most most sums;
// nil where nothing is worth anything or the context ended.
func newJudge(p *problem, w *work, set []int, worth []float64, most int) *judge {
	of, _, scale := weigh(worth, p.wanted())
	if scale == 0 {
		return nil
	}
	j := &judge{of: of, seats: make([]seat, len(set))}
	for t, n := range set {
		if n == 0 {
			continue
		}
		tab := plainTable(p, w, &p.stores[t], most)
		if tab == nil {
			return nil
		}
		for _, k := range tab.thin {
			of[k] = 0 // it has no cells, so the table says nothing about it
		}
		j.seats[t].table = tab
	}
	for k, v := range of {
		j.spare -= v * int64(p.kinds[k].count)
	}
	for t, n := range set {
		if n == 0 {
			continue
		}
		holds, done := j.seats[t].table.fill(w, of)
		if !done {
			return nil
		}
		j.seats[t].holds = holds
		j.spare += holds * int64(n)
	}
	return j
}

// within returns what parts in a box can weigh on a sheet of entry t.
func (j *judge) within(t int, l, w size) int64 {
	tab := j.seats[t].table
	x, y := tab.x.last[tab.sx.at(l)], tab.y.last[tab.sy.at(w)]
	return tab.value[int(x)*len(tab.y.sizes)+int(y)]
}
