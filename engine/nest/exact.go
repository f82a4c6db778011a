package nest

import (
	"container/heap"
	"slices"
)

// exact decides whether a set of sheets takes all parts. For choices of parts (so
// many of each kind) it finds the smallest boxes that edge-to-edge cuts can make
// of them, as a curve: the wider, the shorter. Curves are joined two by two,
// side by side and one above the other, smaller choices first; Stockmeyer,
// Information and Control 57 (1983), adds such curves, from memory. A box that
// wastes more than the sheets have to spare, by area or as judges weigh it, is
// of no use, and few are left.
//
// It answers for sheets whose grain runs the same way; with a limit of stages
// it may say that there is no layout, not that there is one.
type exact struct {
	p      *problem
	w      *work
	sheets []int // entries of the stock, one for each sheet
	spare  int64 // area that may be wasted
	judges []*judge
	count  *counter
	curves book
	agenda agenda
	done   []*curve // in the order of their area
	of     []choice // and their choices
	shapes []shape  // of the curves that are done
}

// curve is what is known of a choice.
type curve struct {
	of     choice
	number int
	area   int64
	weighs []int64 // by each judge
	front  []shape // l grows and w falls
	first  int32   // of its shapes, when done
}

// shape is a point of a curve and how it came about.
type shape struct {
	l, w   size
	ia, ib int32 // the halves' points, in shapes; of a part: kind, way
	part   bool
	dir    direction
}

// agenda gives curves in the order of their area.
type agenda []*curve

func (a agenda) Len() int { return len(a) }
func (a agenda) Less(i, j int) bool {
	if a[i].area != a[j].area {
		return a[i].area < a[j].area
	}
	return slices.Compare(a[i].of[:], a[j].of[:]) < 0
}
func (a agenda) Swap(i, j int) { a[i], a[j] = a[j], a[i] }
func (a *agenda) Push(x any)   { *a = append(*a, x.(*curve)) }
func (a *agenda) Pop() any {
	old := *a
	x := old[len(old)-1]
	*a = old[:len(old)-1]
	return x
}

// verdict is what an exact search says.
type verdict uint8

const (
	unknown verdict = iota
	impossible
	found
)

const (
	mostCurves = 200_000 // that are waiting or done
	mostShapes = 1 << 20
)

// newExact returns nil where there are too many kinds or the sheets have
// different grain.
func newExact(p *problem, w *work, set []int, judges ...*judge) *exact {
	e := &exact{p: p, w: w, spare: -p.area, judges: judges}
	for t, n := range set {
		for range n {
			e.sheets = append(e.sheets, t)
			e.spare += p.stores[t].area
			if p.stores[t].grain != p.stores[e.sheets[0]].grain {
				return nil
			}
		}
	}
	count, ok := newCounter(p)
	if !ok {
		return nil
	}
	e.count, e.curves = count, newBook(count)
	return e
}

// decide searches. Where it finds a layout it returns a tree for each sheet.
func (e *exact) decide() (verdict, []*tree) {
	e.singles()
	for len(e.agenda) > 0 {
		c := heap.Pop(&e.agenda).(*curve)
		c.first = int32(len(e.shapes))
		e.shapes = append(e.shapes, c.front...)
		e.done, e.of = append(e.done, c), append(e.of, c.of)
		if len(e.shapes) > mostShapes || len(e.curves.all) > mostCurves || !e.ahead(c) {
			return unknown, nil
		}
	}
	return e.share()
}

// singles puts each part by itself on the agenda.
func (e *exact) singles() {
	for k := range e.p.kinds {
		c := &curve{of: e.count.one(k), number: e.count.stride[k], area: e.p.kinds[k].area}
		for _, j := range e.judges {
			c.weighs = append(c.weighs, j.of[k])
		}
		for _, way := range [...]uint8{straight, turned} {
			if slices.ContainsFunc(e.sheets, func(t int) bool { return e.p.stores[t].ways[k]&way != 0 }) {
				lx, ly := e.p.kinds[k].sides(way)
				e.add(c, shape{l: lx, w: ly, ia: int32(k), ib: int32(way), part: true})
			}
		}
		if len(c.front) > 0 {
			e.curves.enter(c)
			heap.Push(&e.agenda, c)
		}
	}
}

// ahead joins a choice with itself and all before it. It reports whether to go
// on.
func (e *exact) ahead(c *curve) bool {
	rest := e.count.full.minus(c.of)
	room := e.room() - c.area
	steps := 1
	for i, of := range e.of {
		if e.count.within(of, rest) {
			if e.done[i].area > room {
				break
			}
			e.join(e.done[i], c)
		}
		steps++
	}
	return e.w.more(steps / 2)
}

// room returns the area of the largest sheet.
func (e *exact) room() int64 {
	var most int64
	for _, t := range e.sheets {
		most = max(most, e.p.stores[t].area)
	}
	return most
}

// join adds the sums of two curves to the curve of their sum, both ways.
func (e *exact) join(a, b *curve) {
	of := a.of.plus(b.of)
	c := e.curves.of(of, a.number+b.number)
	had := c != nil
	if !had {
		c = &curve{of: of, number: a.number + b.number, area: a.area + b.area}
		for j := range e.judges {
			c.weighs = append(c.weighs, a.weighs[j]+b.weighs[j])
		}
	}
	e.w.spent += 8 * int64(len(a.front)+len(b.front))
	e.above(c, a, b)
	e.beside(c, a, b)
	if !had && len(c.front) > 0 {
		e.curves.enter(c)
		heap.Push(&e.agenda, c)
	}
}

// above sets the boxes of one curve above those of another: at a length, each
// half is as narrow as it can be.
func (e *exact) above(c, a, b *curve) {
	one, two := a.front, b.front
	for i, j := 0, 0; ; {
		l := max(one[i].l, two[j].l)
		for i+1 < len(one) && one[i+1].l <= l {
			i++
		}
		for j+1 < len(two) && two[j+1].l <= l {
			j++
		}
		e.add(c, shape{l: l, w: one[i].w + two[j].w, ia: a.first + int32(i), ib: b.first + int32(j), dir: alongY})
		switch {
		case i+1 == len(one) && j+1 == len(two):
			return
		case j+1 == len(two) || i+1 < len(one) && one[i+1].l <= two[j+1].l:
			i++
		default:
			j++
		}
	}
}

// beside sets them side by side: at a width, each half is as short as it can be.
func (e *exact) beside(c, a, b *curve) {
	one, two := a.front, b.front
	for i, j := len(one)-1, len(two)-1; ; {
		w := max(one[i].w, two[j].w)
		for i > 0 && one[i-1].w <= w {
			i--
		}
		for j > 0 && two[j-1].w <= w {
			j--
		}
		e.add(c, shape{l: one[i].l + two[j].l, w: w, ia: a.first + int32(i), ib: b.first + int32(j), dir: alongX})
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

// add puts a shape into the front of a curve unless another is as small both
// ways, or it fits no sheet or wastes too much.
func (e *exact) add(c *curve, s shape) {
	if int64(s.l)*int64(s.w)-c.area > e.spare {
		return
	}
	at := 0
	for at < len(c.front) && c.front[at].l < s.l {
		at++
	}
	if at < len(c.front) && c.front[at].l == s.l && c.front[at].w <= s.w || at > 0 && c.front[at-1].w <= s.w {
		return
	}
	if !e.affordable(c, s.l, s.w) {
		return
	}
	end := at
	for end < len(c.front) && c.front[end].w >= s.w {
		end++
	}
	c.front = slices.Replace(c.front, at, end, s)
}

// affordable reports whether a box fits a sheet without wasting too much, as the
// judges weigh it.
func (e *exact) affordable(c *curve, l, w size) bool {
	for i, t := range e.sheets {
		if i > 0 && e.sheets[i-1] == t || l > e.p.stores[t].l || w > e.p.stores[t].w {
			continue
		}
		ok := true
		for n, j := range e.judges {
			ok = ok && j.within(t, l, w)-c.weighs[n] <= j.spare
		}
		if ok {
			return true
		}
	}
	return false
}

// fits returns a point of a curve that fits a sheet, or −1.
func (e *exact) fits(c *curve, t int) int32 {
	for i, s := range c.front {
		if s.l <= e.p.stores[t].l && s.w <= e.p.stores[t].w {
			return c.first + int32(i)
		}
	}
	return -1
}
