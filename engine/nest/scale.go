package nest

import "slices"

// scale counts lengths along one side of a sheet in cells. Parts and sheet need
// not shrink in proportion: whatever parts fit one behind the other along the
// sheet must fit as cells too, that is all (a conservative scale; Carlier,
// Clautiaux and Moukrim, Comput. Oper. Res. 34, 2007, from memory). So rounding
// takes less from the parts than from what they would leave anyway.
type scale struct {
	whole int32
	of    size           // the whole in micrometres
	n     int64          // and in cells, before it grew
	cells map[size]int32 // of each side a part can have along this axis
}

// line is a side that parts of a kind can have along an axis: one or, where
// they may be turned, two.
type line struct {
	sides []size
	count int
	area  int64
}

// lines returns the sides of all kinds along or across a sheet.
func (p *problem) lines(st *store, along bool) []line {
	var all []line
	for k := range p.kinds {
		q := &p.kinds[k]
		n := line{count: q.count, area: q.area}
		for _, way := range [...]uint8{straight, turned} {
			if st.ways[k]&way != 0 {
				v, other := q.sides(way)
				if !along {
					v = other
				}
				n.sides = append(n.sides, v)
			}
		}
		all = append(all, n)
	}
	return all
}

// newScale returns a scale of at most cells cells, in proportion; with 0 cells,
// or where a side has no more units than that, the exact one.
func newScale(p *problem, all []line, whole size, cells int) *scale {
	unit := p.unit(whole)
	s := &scale{of: whole, cells: map[size]int32{}}
	set := func(of func(v size) int32) {
		for _, n := range all {
			for _, v := range n.sides {
				s.cells[v] = of(v)
			}
		}
	}
	if cells == 0 || int64(whole/unit) <= int64(cells) {
		s.whole, s.n = whole/unit, int64(whole/unit)
		set(func(v size) int32 { return v / unit })
		return s
	}
	best, least := int64(cells), 0.0
	for n := int64(cells); n > int64(cells)*4/5; n-- {
		if loss := lost(all, whole, n); n == int64(cells) || loss < least {
			best, least = n, loss
		}
	}
	set(func(v size) int32 { return int32(inCells(v, whole, best)) })
	s.whole, s.n = int32(best), best
	return s
}

// at returns how many cells a length has, in proportion.
func (s *scale) at(v size) int32 { return int32(inCells(v, s.of, s.n)) }

func inCells(v, whole size, n int64) int64 { return int64(v) * n / int64(whole) }

// lost weighs what rounding down to n cells takes from the parts.
func lost(all []line, whole size, n int64) float64 {
	loss := 0.0
	for _, k := range all {
		for _, v := range k.sides {
			part := 1 - float64(inCells(v, whole, n))*float64(whole)/(float64(n)*float64(v))
			loss += float64(part * float64(k.count) * float64(k.area))
		}
	}
	return loss
}

// mostGrown is how many parts times kinds a job may have for its scales to be
// worth growing.
const mostGrown = 4000

// grow makes sides longer by a cell as long as everything that fits still fits,
// those first that gain the most area, and the whole as short as it can be.
func (s *scale) grow(w *work, all []line, whole size) {
	var sides []size
	gain := map[size]float64{}
	for _, n := range all {
		for _, v := range n.sides {
			if gain[v] == 0 {
				sides = append(sides, v)
			}
			gain[v] += float64(n.count) * float64(n.area) / float64(v)
		}
	}
	slices.SortStableFunc(sides, func(a, b size) int {
		switch {
		case gain[a] > gain[b]:
			return -1
		case gain[a] < gain[b]:
			return 1
		}
		return int(a - b)
	})
	for grown := true; grown; {
		grown = false
		for _, v := range sides {
			s.cells[v]++
			if s.longest(w, all, whole) > s.whole {
				s.cells[v]--
			} else {
				grown = true
			}
		}
	}
	s.whole = min(s.whole, s.longest(w, all, whole))
}

// fineness is how many cells longest counts true lengths in.
const fineness = 3000

// longest returns how many cells parts that fit along the whole take together
// at most, or some number above the scale's whole.
func (s *scale) longest(w *work, all []line, whole size) int32 {
	most := min(int64(whole), fineness)
	best := make([]int32, most+1)
	next := make([]int32, most+1)
	for _, n := range all {
		for range n.count {
			copy(next, best)
			changed := false
			for _, v := range n.sides {
				l, c := inCells(v, whole, most), s.cells[v]
				for at := l; at <= most; at++ {
					if sum := best[at-l] + c; sum > next[at] {
						next[at], changed = sum, true
					}
				}
			}
			best, next = next, best
			if w.more(int(most) / 8); w.cancelled {
				return s.whole + 1
			}
			if !changed {
				break
			}
		}
		if best[most] > s.whole {
			break
		}
	}
	return best[most]
}
