package nest

import (
	"math"
	"slices"
)

// A table answers which parts, each worth its weight, fill one sheet best when
// every part may be used as often as wanted: the dynamic programme of Gilmore
// and Gomory (Oper. Res. 14, 1966) over edge-to-edge cuts, from memory. Cuts are
// looked for only where an [axis] has them; no layout is lost by that.
//
// Where there are too many such places they are counted in coarser cells.
// Parts are rounded down to cells and the sheet with them, so what fits still
// fits, and the value is not the best any more but a bound above it.
type table struct {
	sx, sy *scale
	x, y   *axis
	boxes  []box
	thin   []int   // kinds that are so thin that they have no cells; all of them fit
	cells  int     // in which it was asked to count
	counts []int   // of each kind
	value  []int64 // of the piece x.sizes[i] by y.sizes[j] at i*len(y.sizes)+j
	exact  bool    // not coarser than micrometres
}

// box is a part in one orientation, in cells.
type box struct {
	kind   int
	lx, ly int32
	i, j   int // the first sizes at or above its sides
}

// cost is how many sums filling the table takes.
func (t *table) cost() int {
	along, across := 0, 0
	for _, c := range t.x.cuts {
		along += len(c)
	}
	for _, c := range t.y.cuts {
		across += len(c)
	}
	return along*len(t.y.sizes) + across*len(t.x.sizes)
}

// newTable prepares a table for one entry of the stock that costs at most most
// sums to fill, or a quarter more; nil if the context ended before.
func newTable(p *problem, w *work, st *store, most int) *table {
	t := plainTable(p, w, st, most)
	if t == nil || t.exact || p.parts*len(p.kinds) > mostGrown {
		return t
	}
	for cells := t.cells; cells > fewCells; cells = coarser(cells, most) {
		if t := tableOf(p, w, st, cells, most+most/4, true); t != nil || w.cancelled {
			return t
		}
	}
	return t
}

// plainTable prepares a table whose scales are in proportion.
func plainTable(p *problem, w *work, st *store, most int) *table {
	for cells := 0; !w.cancelled; cells = coarser(cells, most) {
		if cells == fewCells {
			most = math.MaxInt
		}
		if t := tableOf(p, w, st, cells, most, false); t != nil {
			return t
		}
	}
	return nil
}

// tableOf prepares a table that counts in so many cells, by scales that are
// grown or not; nil where it would cost more than most, or the context ended.
func tableOf(p *problem, w *work, st *store, cells, most int, grown bool) *table {
	t := &table{cells: cells, exact: cells == 0, counts: p.wanted()}
	lines := [2][]line{p.lines(st, true), p.lines(st, false)}
	sx, sy := newScale(p, lines[0], st.l, cells), newScale(p, lines[1], st.w, cells)
	if grown {
		sx.grow(w, lines[0], st.l)
		sy.grow(w, lines[1], st.w)
	}
	t.sx, t.sy = sx, sy
	var alongs, acrosses []reach
	for k := range p.kinds {
		q := &p.kinds[k]
		before := len(t.boxes)
		for _, way := range [...]uint8{straight, turned} {
			if st.ways[k]&way != 0 {
				lx, ly := q.sides(way)
				t.boxes = append(t.boxes, box{kind: k, lx: sx.cells[lx], ly: sy.cells[ly]})
			}
		}
		if slices.ContainsFunc(t.boxes[before:], func(b box) bool { return b.lx == 0 || b.ly == 0 }) {
			t.boxes = t.boxes[:before]
			t.thin = append(t.thin, k)
		}
		alongs = append(alongs, reachOf(t.boxes[before:], q.count, true))
		acrosses = append(acrosses, reachOf(t.boxes[before:], q.count, false))
	}
	if t.x = newAxis(w, alongs, sx.whole, most); t.x == nil {
		return nil
	}
	if t.y = newAxis(w, acrosses, sy.whole, most); t.y == nil {
		return nil
	}
	if t.cost() > most {
		return nil
	}
	t.value = make([]int64, len(t.x.sizes)*len(t.y.sizes))
	for i := range t.boxes {
		b := &t.boxes[i]
		b.i, _ = slices.BinarySearch(t.x.sizes, b.lx)
		b.j, _ = slices.BinarySearch(t.y.sizes, b.ly)
	}
	return t
}

// fewCells is the coarsest a table can be, whatever it costs.
const fewCells = 8

// coarser returns the next smaller number of cells to try. It begins where a
// table may just be as small as asked for.
func coarser(cells, most int) int {
	if cells > 0 {
		return max(cells*4/5, fewCells)
	}
	for cells = 2000; cells > fewCells && cells*cells*cells/20 > most; {
		cells = max(cells*9/10, fewCells)
	}
	return cells
}

// unit returns the largest length in micrometres that divides a length and the
// sides of all parts.
func (p *problem) unit(of size) size {
	for k := range p.kinds {
		for _, v := range [...]size{p.kinds[k].l, p.kinds[k].w} {
			for v != 0 {
				of, v = v, of%v
			}
		}
	}
	return of
}

// fill computes all values for the weights of the kinds and returns that of the
// whole sheet. It reports false if the context ended before.
//
// A piece that holds no more than the next smaller one is never worth cutting:
// of each half only the sizes are tried from which on it holds more.
func (t *table) fill(w *work, weights []int64) (int64, bool) {
	nx, ny := len(t.x.sizes), len(t.y.sizes)
	clear(t.value)
	at := make([][]int, nx) // boxes by their first place along
	for b := range t.boxes {
		at[t.boxes[b].i] = append(at[t.boxes[b].i], b)
	}
	begin := make([]int, nx) // where a row first holds more than the row before
	var jumps []jump
	for i := range nx {
		row := t.value[i*ny : (i+1)*ny]
		sums := 0
		if i > 0 {
			copy(row, t.value[(i-1)*ny:i*ny])
		}
		for _, b := range at[i] {
			if j := t.boxes[b].j; row[j] < weights[t.boxes[b].kind] {
				row[j] = weights[t.boxes[b].kind]
			}
		}
		next := 1
		for _, h := range t.x.cuts[i] {
			from := ny
			for ; next <= int(h.a); next++ {
				from = min(from, begin[next])
			}
			raise(row[from:], t.value[int(h.a)*ny+from:], t.value[int(h.b)*ny+from:])
			sums += ny - from
		}
		jumps, sums = t.across(row, jumps[:0], sums)
		begin[i] = ny
		if i > 0 {
			begin[i] = differ(row, t.value[(i-1)*ny:])
		}
		if w.more(sums / 8); w.cancelled {
			return 0, false
		}
	}
	whole := t.value[nx*ny-1]
	for _, k := range t.thin {
		whole += weights[k] * int64(t.counts[k])
	}
	return whole, true
}

// jump is a size across at which a row comes to hold more.
type jump struct {
	size int32
	held int64
}

// across looks for cuts along a row. It returns the row's jumps, appended, and
// how many sums were made in all.
func (t *table) across(row []int64, jumps []jump, sums int) ([]jump, int) {
	for j := 1; j < len(row); j++ {
		v, size := max(row[j], row[j-1]), t.y.sizes[j]
		n := 0
		for n < len(jumps) && 2*jumps[n].size <= size {
			v = max(v, jumps[n].held+row[t.y.last[size-jumps[n].size]])
			n++
		}
		sums += 2 * n
		row[j] = v
		if v > row[j-1] {
			jumps = append(jumps, jump{size, v})
		}
	}
	return jumps, sums
}

// differ returns the first place where two rows differ, or their length.
func differ(row, other []int64) int {
	for j, v := range row {
		if v != other[j] {
			return j
		}
	}
	return len(row)
}

// raise makes each value at least the sum of two others.
func raise(row, one, two []int64) {
	one, two = one[:len(row)], two[:len(row)]
	for j, v := range row {
		row[j] = max(v, one[j]+two[j])
	}
}

// parts returns how many of each kind the best filling has, after fill with
// the same weights.
func (t *table) parts(weights []int64, kinds int) []int {
	counts := make([]int, kinds)
	t.trace(len(t.x.sizes)-1, len(t.y.sizes)-1, weights, counts)
	for _, k := range t.thin {
		counts[k] = t.counts[k]
	}
	return counts
}

func (t *table) trace(i, j int, weights []int64, counts []int) {
	ny := len(t.y.sizes)
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
	for _, h := range t.x.cuts[i] {
		if t.value[int(h.a)*ny+j]+t.value[int(h.b)*ny+j] == v {
			t.trace(int(h.a), j, weights, counts)
			t.trace(int(h.b), j, weights, counts)
			return
		}
	}
	for _, h := range t.y.cuts[j] {
		if t.value[i*ny+int(h.a)]+t.value[i*ny+int(h.b)] == v {
			t.trace(i, int(h.a), weights, counts)
			t.trace(i, int(h.b), weights, counts)
			return
		}
	}
}
