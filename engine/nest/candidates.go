package nest

import (
	"cmp"
	"container/heap"
	"slices"
)

// key is what a plan is judged by, the first first.
type key struct {
	price  int64
	sheets int
	area   int64
}

func (a key) compare(b key) int {
	return cmp.Or(cmp.Compare(a.price, b.price), cmp.Compare(a.sheets, b.sheets), cmp.Compare(a.area, b.area))
}

// keyOf returns the key of a set of sheets, so many of each entry.
func (p *problem) keyOf(set []int) key {
	var k key
	for t, n := range set {
		k.price += p.stores[t].price * int64(n)
		k.sheets += n
		k.area += p.stores[t].area * int64(n)
	}
	return k
}

// candidate is a set of sheets that may be enough.
type candidate struct {
	set    []int
	key    key
	last   int // entries before it are not added to: every set comes once
	search *search
	effort int64     // of the last search
	level  int       // of the next finer tables to ask about it
	worth  []float64 // of the parts, by the proof that came nearest so far
	exact  int       // how often the exact search has been asked
}

// queue gives sets in the order of their keys.
type queue []*candidate

func (q queue) Len() int { return len(q) }
func (q queue) Less(i, j int) bool {
	if c := q[i].key.compare(q[j].key); c != 0 {
		return c < 0
	}
	return slices.Compare(q[i].set, q[j].set) < 0
}
func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *queue) Push(x any)   { *q = append(*q, x.(*candidate)) }
func (q *queue) Pop() any {
	old := *q
	x := old[len(old)-1]
	*q = old[:len(old)-1]
	return x
}

const (
	mostOpen   = 48      // candidates that are kept
	mostLooked = 400_000 // sets that are looked at
)

// partOf reports whether one set has no more of any entry than another.
func partOf(set, of []int) bool {
	for t, n := range set {
		if n > of[t] {
			return false
		}
	}
	return true
}

// candidates returns the sets below a key that no proof refutes and that are no
// part of a set already refuted, in the order of their keys. all is false where it stopped early; floor is then a key below
// which there is none but those returned.
func (p *problem) candidates(w *work, proofs []weights, refuted [][]int, below key) (open []*candidate, floor key, all bool) {
	q := queue{{set: make([]int, len(p.stores))}}
	for looked := 0; len(q) > 0; looked++ {
		c := heap.Pop(&q).(*candidate)
		if c.key.compare(below) >= 0 {
			return open, below, true
		}
		floor = c.key
		if len(open) == mostOpen || looked == mostLooked || !w.more(len(proofs)) {
			return open, floor, false
		}
		if !slices.ContainsFunc(proofs, func(f weights) bool { return f.refutes(c.set) }) &&
			!slices.ContainsFunc(refuted, func(r []int) bool { return partOf(c.set, r) }) {
			open = append(open, c)
		}
		for t := c.last; t < len(p.stores); t++ {
			if c.set[t] < p.stores[t].limit {
				set := slices.Clone(c.set)
				set[t]++
				heap.Push(&q, &candidate{set: set, key: p.keyOf(set), last: t})
			}
		}
	}
	return open, below, true
}
