package nest

import (
	"math/bits"
	"slices"
)

// axis is how pieces may reach along one side of a sheet: the sizes that a piece
// may have in the course of cutting, and how a cut divides each. Parts, pushed
// to the low corner, end at sums of their sides (Herz 1972, Christofides and
// Whitlock 1977); of these only what is left over by a cut, counted down from
// the whole sheet, is ever asked for, and that is far fewer near its far end
// (the idea of the reduced raster points of Scheithauer and Terno, Oper. Res.
// Lett. 20, 1997). All from memory.
type axis struct {
	sizes []int32    // from 0, growing
	cuts  [][]halves // of each size
	last  []int32    // of each length, the index of the last size within it
}

// halves are the two sizes, as their indices, into which a cut divides a third.
type halves struct{ a, b int32 }

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

const (
	mostSums  = 30_000     // sums of sides that are too many in any case
	mostSizes = 2500       // and sizes
	mostWords = 20_000_000 // and words of bits to find them
	mostUnits = 1 << 22    // and lengths along a side
	fewSizes  = 32         // sizes that the other axis is taken to have at least
)

// newAxis finds the sizes and the cuts; nil where there are so many that a table
// would take more than most sums, or the context ended.
func newAxis(w *work, all []reach, whole int32, most int) *axis {
	sums := sumsOf(w, all, whole)
	if sums == nil {
		return nil
	}
	a := &axis{}
	index := map[int32]int32{sums[len(sums)-1]: -1}
	todo := []int32{sums[len(sums)-1]}
	pairs := map[int32][]halves{}
	for len(todo) > 0 {
		r := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		a.sizes = append(a.sizes, r)
		cuts := divisions(sums, r)
		pairs[r] = cuts
		for _, h := range cuts {
			for _, v := range [...]int32{h.a, h.b} {
				if _, has := index[v]; !has {
					index[v] = -1
					todo = append(todo, v)
				}
			}
		}
		most -= fewSizes * len(cuts)
		if w.more(len(sums) / 4); w.cancelled || len(index) > mostSizes || most < 0 {
			return nil
		}
	}
	if !slices.Contains(a.sizes, 0) {
		a.sizes = append(a.sizes, 0)
	}
	slices.Sort(a.sizes)
	for i, r := range a.sizes {
		index[r] = int32(i)
	}
	a.last = make([]int32, whole+1)
	for i, r := range a.sizes[1:] {
		a.last[r] = int32(i) + 1
	}
	for r := range whole {
		a.last[r+1] = max(a.last[r+1], a.last[r])
	}
	for _, r := range a.sizes {
		cuts := pairs[r]
		for i, h := range cuts {
			cuts[i] = halves{index[h.a], index[h.b]}
		}
		a.cuts = append(a.cuts, cuts)
	}
	return a
}

// divisions returns the cuts that divide a size: the smaller half reaches to a
// sum of sides, the other to the last sum within what remains, and the first
// grows to the last sum that still leaves that. All as sizes, not indices.
func divisions(sums []int32, whole int32) []halves {
	var all []halves
	b := len(sums) - 1
	for i := 1; i < len(sums) && 2*sums[i] <= whole; i++ {
		for sums[b] > whole-sums[i] {
			b--
		}
		if n := len(all); n > 0 && all[n-1].b == sums[b] {
			all[n-1].a = sums[i]
		} else {
			all = append(all, halves{sums[i], sums[b]})
		}
	}
	return all
}

// sumsOf returns the sums of the steps up to whole, in order, 0 among them; nil
// where there are too many, or the context ended.
func sumsOf(w *work, all []reach, whole int32) []int32 {
	words := int(whole)/64 + 1
	effort := 0
	for _, r := range all {
		effort += words * min(r.count, int(whole)) * len(r.steps)
	}
	if effort > mostWords || whole > mostUnits {
		return nil
	}
	set := make([]uint64, words)
	set[0] = 1
	for _, r := range all {
		// Level by level, so that no kind is used more often than it is there.
		for range r.count {
			next := slices.Clone(set)
			for _, s := range r.steps {
				shiftOr(next, set, int(s))
			}
			same := slices.Equal(next, set)
			set = next
			if w.more(words / 8); w.cancelled {
				return nil
			}
			if same {
				break
			}
		}
	}
	var sums []int32
	for i, v := range set {
		for ; v != 0; v &= v - 1 {
			if at := int32(i*64 + bits.TrailingZeros64(v)); at <= whole {
				sums = append(sums, at)
			}
		}
		if len(sums) > mostSums {
			return nil
		}
	}
	return sums
}

// shiftOr adds to a set of numbers those of another, each by s more.
func shiftOr(set, of []uint64, s int) {
	word, bit := s/64, uint(s%64)
	for i := len(set) - 1; i >= word; i-- {
		v := of[i-word] << bit
		if bit > 0 && i > word {
			v |= of[i-word-1] >> (64 - bit)
		}
		set[i] |= v
	}
}
