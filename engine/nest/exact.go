package nest

import (
	"math/bits"
	"slices"
)

// exact decides whether a set of sheets takes all parts, for jobs with few
// kinds. For every choice of parts (so many of each kind) it finds the smallest
// boxes that edge-to-edge cuts can make of them, as a curve: the wider, the
// shorter. The curve of a choice comes from the curves of all ways to divide it
// in two, set side by side or one above the other; Stockmeyer, Information and
// Control 57 (1983), adds such curves, from memory. A box that wastes more than
// the sheets have to spare is of no use, and few are left.
//
// It answers for sheets whose grain runs the same way; with a limit of stages
// it may say that there is no layout, not that there is one.
type exact struct {
	p       *problem
	w       *work
	sheets  []int // entries of the stock, one for each sheet
	spare   int64 // area that may be wasted
	strides []int // of a choice's number, per kind
	choices int
	bits    []int    // where a kind's count stands in a packed choice
	guard   uint64   // a bit above each count
	packed  []uint64 // of the choices with a curve
	full    uint64   // all parts packed, with the guard
	waiting map[int32][]shape
	first   []int32 // of the curve of each choice in shapes
	length  []int32
	shapes  []shape
	area    []int64 // of the parts of each choice
	some    []int32 // the choices with a curve
	front   []shape
}

// shape is a point of a curve and how it came about.
type shape struct {
	l, w   size
	a      int32 // one half's choice; −1 of a single part
	ia, ib int32 // the points of the halves' curves, in shapes; of a part: kind, way
	dir    direction
}

// verdict is what an exact search says.
type verdict uint8

const (
	unknown verdict = iota
	impossible
	found
)

const (
	mostChoices = 3 << 20
	mostShapes  = 4 << 20
)

// newExact returns nil where the job has too many choices or the sheets have
// different grain.
func newExact(p *problem, w *work, set []int) *exact {
	e := &exact{p: p, w: w, spare: -p.area, choices: 1, waiting: map[int32][]shape{}}
	for t, n := range set {
		for range n {
			e.sheets = append(e.sheets, t)
			e.spare += p.stores[t].area
			if p.stores[t].grain != p.stores[e.sheets[0]].grain {
				return nil
			}
		}
	}
	at := 0
	for k := range p.kinds {
		e.strides = append(e.strides, e.choices)
		e.bits = append(e.bits, at)
		at += bits.Len(uint(p.kinds[k].count)) + 1
		if e.choices *= p.kinds[k].count + 1; e.choices > mostChoices || at > 64 {
			return nil
		}
		e.guard |= 1 << (at - 1)
	}
	e.full = e.pack(p.wanted()) | e.guard
	return e
}

// decide searches. Where it finds a layout it returns a tree for each sheet.
func (e *exact) decide() (verdict, []*tree) {
	e.first, e.length = make([]int32, e.choices), make([]int32, e.choices)
	e.area = make([]int64, e.choices)
	counts := make([]int, len(e.p.kinds))
	for c := 1; c < e.choices; c++ {
		for k := range counts { // the next choice
			if counts[k]++; counts[k] <= e.p.kinds[k].count {
				break
			}
			counts[k] = 0
		}
		e.area[c] = 0
		for k, n := range counts {
			e.area[c] += int64(n) * e.p.kinds[k].area
		}
		if !e.curve(int32(c), counts) {
			return unknown, nil
		}
	}
	return e.share()
}

// curve finds the curve of one choice. While few choices have one, each that
// has joins those before it at once, and what comes of that waits; later it is
// cheaper to look from the whole for its halves.
func (e *exact) curve(c int32, counts []int) bool {
	if !e.mayFit(e.area[c]) {
		return e.w.more(1)
	}
	e.front = append(e.front[:0], e.waiting[c]...)
	delete(e.waiting, c)
	e.single(c, counts)
	steps := 1
	if len(e.some) > mostWaiting {
		clear(e.waiting)
		steps += e.halves(c, counts)
	}
	e.first[c], e.length[c] = int32(len(e.shapes)), int32(len(e.front))
	if len(e.front) > 0 {
		e.shapes = append(e.shapes, e.front...)
		e.some = append(e.some, c)
		e.packed = append(e.packed, e.pack(counts))
		if len(e.some) <= mostWaiting {
			steps += e.ahead(c)
		}
	}
	return e.w.more(steps) && len(e.shapes) < mostShapes
}

// mostWaiting is how many choices with a curve are joined at once.
const mostWaiting = 16_000

// ahead joins a choice with all before it and with itself. It returns the
// steps that took.
func (e *exact) ahead(c int32) int {
	last := len(e.some) - 1
	spare := e.full - e.packed[last]
	for i, a := range e.some {
		if (spare-e.packed[i])&e.guard != e.guard || !e.mayFit(e.area[a]+e.area[c]) {
			continue
		}
		e.area[a+c] = e.area[a] + e.area[c]
		e.front = append(e.front[:0], e.waiting[a+c]...)
		had := len(e.front)
		e.join(a+c, a, c)
		if had > 0 || len(e.front) > 0 {
			e.waiting[a+c] = append(e.waiting[a+c][:0], e.front...)
		}
	}
	return len(e.some) / 4
}

// halves joins all pairs of choices that make up a choice. It returns the steps
// that took.
func (e *exact) halves(c int32, counts []int) int {
	subs := 1
	for _, n := range counts {
		subs *= n + 1
	}
	if subs/2 <= len(e.some)*4 {
		e.divide(c, counts)
		return subs / 4
	}
	whole := e.pack(counts) | e.guard
	for i, a := range e.some {
		if b := c - a; a > b {
			break
		} else if (whole-e.packed[i])&e.guard == e.guard {
			e.join(c, a, b)
		}
	}
	return len(e.some) / 4
}

// mayFit reports whether some sheet of the set has room for an area.
func (e *exact) mayFit(area int64) bool {
	for _, t := range e.sheets {
		if e.p.stores[t].area >= area {
			return true
		}
	}
	return false
}

// single adds the part itself to the front, if the choice is one part.
func (e *exact) single(c int32, counts []int) {
	k := slices.Index(e.strides, int(c))
	if k < 0 {
		return
	}
	for _, way := range [...]uint8{straight, turned} {
		for _, t := range e.sheets {
			if e.p.stores[t].ways[k]&way != 0 {
				lx, ly := e.p.kinds[k].sides(way)
				e.add(c, shape{l: lx, w: ly, a: -1, ia: int32(k), ib: int32(way)})
				break
			}
		}
	}
}

// pack writes counts side by side into one number. One choice is part of
// another where none of its counts borrows from the guard of the other's.
func (e *exact) pack(counts []int) uint64 {
	var v uint64
	for k, n := range counts {
		v |= uint64(n) << e.bits[k]
	}
	return v
}

// divide joins all pairs of choices that make up a choice.
func (e *exact) divide(c int32, counts []int) {
	half := make([]int, len(counts))
	a := int32(0)
	for {
		k := 0
		for ; k < len(half); k++ {
			if half[k] < counts[k] {
				half[k]++
				a += int32(e.strides[k])
				break
			}
			a -= int32(half[k] * e.strides[k])
			half[k] = 0
		}
		if k == len(half) || a > c-a {
			return // numbers grow in this order, so all others mirror one seen
		}
		if e.length[a] > 0 && e.length[c-a] > 0 {
			e.join(c, a, c-a)
		}
	}
}

// join adds the sums of two curves to the front of c, both ways. On a curve l
// grows and w falls.
func (e *exact) join(c, a, b int32) {
	if e.length[b] == 0 {
		return
	}
	one := e.shapes[e.first[a]:][:e.length[a]]
	two := e.shapes[e.first[b]:][:e.length[b]]
	e.w.spent += 2 * int64(len(one)+len(two))
	// One above the other: at a length, each half is as narrow as it can be.
	for i, j := 0, 0; ; {
		l := max(one[i].l, two[j].l)
		for i+1 < len(one) && one[i+1].l <= l {
			i++
		}
		for j+1 < len(two) && two[j+1].l <= l {
			j++
		}
		e.add(c, shape{l: l, w: one[i].w + two[j].w, a: a, ia: e.first[a] + int32(i), ib: e.first[b] + int32(j), dir: alongY})
		switch {
		case i+1 == len(one) && j+1 == len(two):
			i = -1
		case j+1 == len(two) || i+1 < len(one) && one[i+1].l <= two[j+1].l:
			i++
		default:
			j++
		}
		if i < 0 {
			break
		}
	}
	// Side by side: at a width, each half is as short as it can be.
	for i, j := len(one)-1, len(two)-1; ; {
		w := max(one[i].w, two[j].w)
		for i > 0 && one[i-1].w <= w {
			i--
		}
		for j > 0 && two[j-1].w <= w {
			j--
		}
		e.add(c, shape{l: one[i].l + two[j].l, w: w, a: a, ia: e.first[a] + int32(i), ib: e.first[b] + int32(j), dir: alongX})
		switch {
		case i == 0 && j == 0:
			return
		case j == 0 || i > 0 && one[i-1].w <= two[j-1].w:
			i--
		default:
			j--
		}
	}
}

// add puts a shape into the front unless another is as small both ways, or it
// fits no sheet or wastes too much.
func (e *exact) add(c int32, s shape) {
	if int64(s.l)*int64(s.w)-e.area[c] > e.spare {
		return
	}
	fits := false
	for _, t := range e.sheets {
		fits = fits || s.l <= e.p.stores[t].l && s.w <= e.p.stores[t].w
	}
	if !fits {
		return
	}
	at := 0
	for at < len(e.front) && e.front[at].l < s.l {
		at++
	}
	if at < len(e.front) && e.front[at].l == s.l && e.front[at].w <= s.w || at > 0 && e.front[at-1].w <= s.w {
		return
	}
	end := at
	for end < len(e.front) && e.front[end].w >= s.w {
		end++
	}
	e.front = slices.Replace(e.front, at, end, s)
}

// fits returns a point of a choice's curve that fits a sheet, or −1.
func (e *exact) fits(c int32, t int) int32 {
	for i := range e.length[c] {
		if s := e.shapes[e.first[c]+i]; s.l <= e.p.stores[t].l && s.w <= e.p.stores[t].w {
			return e.first[c] + i
		}
	}
	return -1
}
