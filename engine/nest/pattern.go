package nest

import "slices"

// A table answers which parts, each worth its weight, fill one sheet best when
// every part may be used as often as wanted: the dynamic programme of Gilmore
// and Gomory (Oper. Res. 14, 1966) over edge-to-edge cuts, from memory. Cuts are
// looked for only where parts, pushed to the low corner, can end (Herz 1972,
// Christofides and Whitlock 1977); no layout is lost by that.
//
// Where there are too many such places they are counted in coarser cells.
// Parts are rounded down to cells and the sheet with them, so what fits still
// fits, and the value is not the best any more but a bound above it.
type table struct {
	x, y   []int32 // where cuts may be, from 0 to the size of the sheet
	cx, cy [][]halves
	boxes  []box
	value  []int64 // of the sheet x[i] by y[j] at i*len(y)+j
	exact  bool    // not coarser than micrometres
}

// box is a part in one orientation, in cells.
type box struct {
	kind   int
	lx, ly int32
	i, j   int // the first places at or above its sides
}

// halves are two places into which a cut divides a third: the last of them at
// or below what remains.
type halves struct{ a, b int32 }

// cost is about how many sums filling the table takes.
func (t *table) cost() int { return len(t.x) * len(t.y) * (len(t.x) + len(t.y)) / 4 }

// newTable prepares a table for one entry of the stock that costs at most most
// sums to fill; nil if the context ended before.
func newTable(p *problem, w *work, st *store, most int) *table {
	for cells := 0; ; cells = coarser(cells) {
		t := &table{exact: cells == 0}
		toX, long := scaled(p, st, st.l, cells, true)
		toY, wide := scaled(p, st, st.w, cells, false)
		t.boxes = nil
		var alongs, acrosses []reach
		for k := range p.kinds {
			q := &p.kinds[k]
			before := len(t.boxes)
			for _, way := range [...]uint8{straight, turned} {
				if st.ways[k]&way != 0 {
					lx, ly := q.sides(way)
					t.boxes = append(t.boxes, box{kind: k, lx: toX(lx), ly: toY(ly)})
				}
			}
			alongs = append(alongs, reachOf(t.boxes[before:], q.count, true))
			acrosses = append(acrosses, reachOf(t.boxes[before:], q.count, false))
		}
		t.x, t.y = ends(w, alongs, long), ends(w, acrosses, wide)
		if w.cancelled {
			return nil
		}
		if t.x == nil || t.y == nil || t.cost() > most {
			continue
		}
		t.cx, t.cy = divided(t.x), divided(t.y)
		t.value = make([]int64, len(t.x)*len(t.y))
		for i := range t.boxes {
			b := &t.boxes[i]
			b.i, _ = slices.BinarySearch(t.x, b.lx)
			b.j, _ = slices.BinarySearch(t.y, b.ly)
		}
		return t
	}
}

// coarser returns the next smaller number of cells to try.
func coarser(cells int) int {
	if cells == 0 {
		return 900
	}
	return max(cells*4/5, 8)
}

// scaled returns how lengths along one side of a sheet are counted in cells,
// and how many the sheet has. Of the numbers of cells near the wanted one it
// takes the one that rounding takes least of the parts from.
func scaled(p *problem, st *store, whole size, cells int, along bool) (func(size) int32, int32) {
	if cells == 0 || int64(whole) <= int64(cells) {
		return func(v size) int32 { return v }, whole
	}
	to := func(v size, n int64) int64 { return int64(v) * n / int64(whole) }
	best, least := int64(cells), 0.0
	for n := int64(cells); n > int64(cells)*4/5; n-- {
		loss := 0.0
		for k := range p.kinds {
			q := &p.kinds[k]
			for _, way := range [...]uint8{straight, turned} {
				if st.ways[k]&way != 0 {
					v, other := q.sides(way)
					if !along {
						v = other
					}
					lost := 1 - float64(to(v, n))*float64(whole)/(float64(n)*float64(v))
					loss += float64(lost * float64(q.count) * float64(q.area))
				}
			}
		}
		if n == int64(cells) || loss < least {
			best, least = n, loss
		}
	}
	return func(v size) int32 { return int32(to(v, best)) }, int32(best)
}

// reach is what the parts of one kind add to the places of cuts: up to count
// times one of the steps.
type reach struct {
	steps []int32
	count int
}

func reachOf(boxes []box, count int, along bool) reach {
	r := reach{count: count}
	for _, b := range boxes {
		v := b.lx
		if !along {
			v = b.ly
		}
		r.steps = append(r.steps, v)
	}
	return r
}

// mostEnds is how many places of cuts are too many in any case.
const mostEnds = 4000

// ends returns the sums of the steps up to whole, and whole itself; nil where
// there are too many, or the context ended.
func ends(w *work, all []reach, whole int32) []int32 {
	places := []int32{0}
	seen := map[int32]bool{0: true}
	for _, r := range all {
		// Level by level, so that no kind is used more often than it is there.
		level := places
		for range r.count {
			var next []int32
			for _, at := range level {
				for _, s := range r.steps {
					if e := int64(at) + int64(s); s > 0 && e <= int64(whole) && !seen[int32(e)] {
						seen[int32(e)] = true
						next = append(next, int32(e))
					}
				}
			}
			if w.more(len(level)); w.cancelled {
				return nil
			}
			if len(next) == 0 {
				break
			}
			places = append(slices.Clip(places), next...)
			if len(places) > mostEnds {
				return nil
			}
			level = next
		}
	}
	if !seen[whole] {
		places = append(places, whole)
	}
	slices.Sort(places)
	return places
}

// divided returns for each place the cuts that divide it. Of cuts that leave
// the same, only the one that takes the most is worth looking at.
func divided(places []int32) [][]halves {
	all := make([][]halves, len(places))
	for i, whole := range places {
		b := i
		for a := 1; a < i && 2*places[a] <= whole; a++ {
			for places[b] > whole-places[a] {
				b--
			}
			if n := len(all[i]); n > 0 && all[i][n-1].b == int32(b) {
				all[i] = all[i][:n-1]
			}
			all[i] = append(all[i], halves{int32(a), int32(b)})
		}
	}
	return all
}

// fill computes all values for the weights of the kinds and returns that of the
// whole sheet. It reports false if the context ended before.
func (t *table) fill(w *work, weights []int64) (int64, bool) {
	nx, ny := len(t.x), len(t.y)
	clear(t.value)
	at := make([][]int, nx) // boxes by their first place along
	for b := range t.boxes {
		at[t.boxes[b].i] = append(at[t.boxes[b].i], b)
	}
	for i := range nx {
		row := t.value[i*ny : (i+1)*ny]
		if i > 0 {
			copy(row, t.value[(i-1)*ny:i*ny])
		}
		for _, b := range at[i] {
			if j := t.boxes[b].j; row[j] < weights[t.boxes[b].kind] {
				row[j] = weights[t.boxes[b].kind]
			}
		}
		for _, h := range t.cx[i] {
			one := t.value[int(h.a)*ny:][:ny]
			two := t.value[int(h.b)*ny:][:ny]
			for j := range row {
				if v := one[j] + two[j]; v > row[j] {
					row[j] = v
				}
			}
		}
		for j := 1; j < ny; j++ {
			v := max(row[j], row[j-1])
			for _, h := range t.cy[j] {
				v = max(v, row[h.a]+row[h.b])
			}
			row[j] = v
		}
		if w.more(len(t.cx[i]) * ny / 4); w.cancelled {
			return 0, false
		}
	}
	return t.value[nx*ny-1], true
}

// parts returns how many of each kind the best filling has, after fill with
// the same weights.
func (t *table) parts(weights []int64, kinds int) []int {
	counts := make([]int, kinds)
	t.trace(len(t.x)-1, len(t.y)-1, weights, counts)
	return counts
}

func (t *table) trace(i, j int, weights []int64, counts []int) {
	ny := len(t.y)
	v := t.value[i*ny+j]
	if v == 0 {
		return
	}
	for i > 0 && t.value[(i-1)*ny+j] == v {
		i--
	}
	for j > 0 && t.value[i*ny+j-1] == v {
		j--
	}
	for _, b := range t.boxes {
		if b.i == i && b.j == j && weights[b.kind] == v {
			counts[b.kind]++
			return
		}
	}
	for _, h := range t.cx[i] {
		if t.value[int(h.a)*ny+j]+t.value[int(h.b)*ny+j] == v {
			t.trace(int(h.a), j, weights, counts)
			t.trace(int(h.b), j, weights, counts)
			return
		}
	}
	for _, h := range t.cy[j] {
		if t.value[i*ny+int(h.a)]+t.value[i*ny+int(h.b)] == v {
			t.trace(i, int(h.a), weights, counts)
			t.trace(i, int(h.b), weights, counts)
			return
		}
	}
}
