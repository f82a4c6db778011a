package nest

import (
	"math"
	"slices"
	"testing"
)

// randomJob makes up a sheet and parts that fill it once or twice, of few kinds
// and small numbers, for what is slow but sure.
func randomJob(r *random, kinds, most int) Job {
	grain := [...]Grain{NoGrain, AlongLength}
	j := Job{Kerf: float64(r.below(5)), Stock: []Sheet{{Length: 100, Width: 70, Grain: grain[r.below(2)]}}}
	for range kinds {
		j.add("P", float64(10+r.below(80)), float64(5+r.below(60)), 1+r.below(most), grain[r.below(2)])
	}
	return j
}

// Whatever parts fit along a side fit in cells too: all ways to choose parts are
// tried.
func TestScaleTakesWhatFits(t *testing.T) {
	t.Parallel()
	r := newRandom(5)
	grown := 0
	for round := range rounds(200) {
		p, err := newProblem(randomJob(&r, 1+r.below(4), 3))
		if err != nil {
			continue
		}
		w := &work{ctx: t.Context(), limit: 1 << 40}
		all := p.lines(&p.stores[0], round%2 == 0)
		whole := p.stores[0].l
		if round%2 == 1 {
			whole = p.stores[0].w
		}
		s := newScale(p, all, whole, 9+r.below(60))
		before := 0
		for _, c := range s.cells {
			before += int(c)
		}
		s.grow(w, all, whole)
		for _, c := range s.cells {
			before -= int(c)
		}
		if before < 0 {
			grown++
		}
		var choose func(k, left int, long size, cells int32)
		choose = func(k, left int, long size, cells int32) {
			if long > whole {
				return
			}
			if cells > s.whole {
				t.Fatalf("round %d: parts %d of %d long are %d of %d cells", round, long, whole, cells, s.whole)
			}
			if k == len(all) {
				return
			}
			next := 0
			if k+1 < len(all) {
				next = all[k+1].count
			}
			choose(k+1, next, long, cells)
			for _, v := range all[k].sides {
				if left > 0 {
					choose(k, left-1, long+v, cells+s.cells[v])
				}
			}
		}
		choose(0, all[0].count, 0, 0)
	}
	if grown < rounds(200)/3 {
		t.Errorf("only %d scales grew; too few to try that", grown)
	}
}

// slowly is the value of a piece by trying every cut at every micrometre unit:
// nothing is shared with the table but the question.
type slowly struct {
	p       *problem
	weights []int64
	unit    size
	known   map[[2]size]int64
}

func (s *slowly) value(l, w size) int64 {
	at := [2]size{l, w}
	if v, has := s.known[at]; has {
		return v
	}
	var v int64
	for k := range s.p.kinds {
		for _, way := range [...]uint8{straight, turned} {
			lx, ly := s.p.kinds[k].sides(way)
			if s.p.stores[0].ways[k]&way != 0 && lx <= l && ly <= w {
				v = max(v, s.weights[k])
			}
		}
	}
	for a := s.unit; 2*a <= l; a += s.unit {
		v = max(v, s.value(a, w)+s.value(l-a, w))
	}
	for a := s.unit; 2*a <= w; a += s.unit {
		v = max(v, s.value(l, a)+s.value(l, w-a))
	}
	s.known[at] = v
	return v
}

// With as many of each part as fit, a table of true lengths has the value of the
// slow way, and a coarse one no less.
func TestTableAgainstTheSlowWay(t *testing.T) {
	t.Parallel()
	r := newRandom(11)
	for round := range rounds(40) {
		j := randomJob(&r, 1+r.below(4), 1)
		j.Stock[0].Length, j.Stock[0].Width = 60, 40
		for i := range j.Pieces {
			j.Pieces[i].Count = 100
			j.Pieces[i].Length = math.Ceil(j.Pieces[i].Length / 2)
			j.Pieces[i].Width = math.Ceil(j.Pieces[i].Width / 2)
		}
		p, err := newProblem(j)
		if err != nil {
			continue
		}
		st := &p.stores[0]
		s := slowly{p: p, unit: 1000, known: map[[2]size]int64{}}
		for range p.kinds {
			s.weights = append(s.weights, int64(1+r.below(1000)))
		}
		want := s.value(st.l, st.w)
		w := &work{ctx: t.Context(), limit: 1 << 40}
		fine := newTable(p, w, st, 1<<40)
		if got, _ := fine.fill(w, s.weights); got != want || !fine.exact {
			t.Errorf("round %d: value %d, exact %v; want %d", round, got, fine.exact, want)
		}
		counts, sum := fine.parts(s.weights, len(p.kinds)), int64(0)
		for k, n := range counts {
			sum += int64(n) * s.weights[k]
		}
		if sum != want {
			t.Errorf("round %d: the traced parts are worth %d; want %d", round, sum, want)
		}
		for _, cells := range [...]int{11, 23, 47} {
			for _, grown := range [...]bool{false, true} {
				coarse := tableOf(p, w, st, cells, 1<<40, grown)
				if got, _ := coarse.fill(w, s.weights); got < want {
					t.Errorf("round %d: in %d cells, grown %v, value %d is below %d", round, cells, grown, got, want)
				}
			}
		}
	}
}

// A table with few of each part is not below what the exact search lays out on
// the sheet, for any weights.
func TestTableHoldsWhatFits(t *testing.T) {
	t.Parallel()
	r := newRandom(23)
	fitted := 0
	for round := range rounds(80) {
		p, err := newProblem(randomJob(&r, 2+r.below(3), 3))
		if err != nil {
			continue
		}
		w := &work{ctx: t.Context(), limit: 1 << 40}
		verdict, _ := newExact(p, w, []int{1}).decide()
		if verdict != found {
			continue
		}
		fitted++
		for _, cells := range [...]int{0, 11, 29} {
			tab := tableOf(p, w, &p.stores[0], cells, 1<<40, true)
			weights, all := make([]int64, len(p.kinds)), int64(0)
			for k := range weights {
				weights[k] = int64(r.below(1000))
				all += weights[k] * int64(p.kinds[k].count)
			}
			if got, _ := tab.fill(w, weights); got < all {
				t.Errorf("round %d: in %d cells the sheet holds %d of the parts' %d", round, cells, got, all)
			}
		}
	}
	if fitted < rounds(80)/8 {
		t.Errorf("only %d jobs fitted; too few to try the tables", fitted)
	}
}

// What a refuter says of a set agrees with the exact search, and a set one sheet
// larger than the least by count is never refuted.
func TestRefutedSetsAreTooSmall(t *testing.T) {
	t.Parallel()
	r := newRandom(31)
	refuted, beyondArea := 0, 0
	for round := range rounds(150) {
		j := randomJob(&r, 2+r.below(3), 3)
		p, err := newProblem(j)
		if err != nil {
			continue
		}
		w := &work{ctx: t.Context(), limit: 1 << 40}
		b := newBounder(p, w, []int{400, 4000, 60_000}[round%3])
		for n := 1; n <= 3; n++ {
			_, held := b.refute([]int{n}, round%len(levels))
			says := held < 1
			byArea := b.proofs[0].refutes([]int{n})
			if !says {
				continue
			}
			refuted++
			if !byArea {
				beyondArea++
			}
			w.limit = w.spent + 300_000
			verdict, _ := newExact(p, w, []int{n}).decide()
			w.limit = 1 << 40
			if verdict == found {
				t.Errorf("round %d: %d sheets are refuted; the exact search lays them out", round, n)
			}
			if !slices.ContainsFunc(b.proofs, func(f weights) bool { return f.refutes([]int{n}) }) {
				t.Errorf("round %d: %d sheets are refuted, but by no proof", round, n)
			}
		}
	}
	if beyondArea < rounds(150)/20 {
		t.Errorf("of %d refuted sets the area told only %d not; too few to try the programme", refuted, beyondArea)
	}
}

// rounds is how many of n rounds to do: fewer under the race detector, which
// runs with -short.
func rounds(n int) int {
	if testing.Short() {
		return max(n/6, 1)
	}
	return n
}
