package nest

import (
	"context"
	"math"
	"slices"
)

// Watch is told of progress while [Solve] works, on the goroutine that called
// it. done goes from 0 to 1. better is a whole plan that is better than every
// one before, or nil where there is none since the last call; it may be kept
// but not changed.
type Watch func(better *Plan, done float64)

// Solve lays the pieces of a job out. See the package's comment for what it
// promises. watch may be nil.
//
// It returns an error if the job is outside its domain (see [Job.Check]) or if
// a piece fits onto no sheet (a [*TooLargeError]). If ctx is cancelled it
// returns within 50 ms with the best plan so far, which may lack parts
// (Plan.Unplaced), and with the context's error. A stock that is too small is
// no error: the plan tells what is missing.
func Solve(ctx context.Context, job Job, watch Watch) (Plan, error) {
	if err := job.Check(); err != nil {
		return Plan{}, err
	}
	p, err := newProblem(job)
	if err != nil {
		return Plan{}, err
	}
	s := newSolver(ctx, job, p, watch)
	s.solve()
	plan := s.plan()
	if s.w.cancelled {
		return *plan, ctx.Err()
	}
	if watch != nil {
		watch(nil, 1)
	}
	return *plan, nil
}

// solver is one call of Solve.
type solver struct {
	job     Job
	p       *problem
	w       *work
	watch   Watch
	budget  int64
	best    *answer // nil until one holds all parts
	part    *answer // the best that lacks parts
	bounds  *bounder
	bars    *linear // nil unless the job is one of bars
	open    []*candidate
	floor   key     // no answer is below it but, perhaps, the open candidates
	asked   int64   // steps that went into proofs against single sets
	refuted [][]int // sets of which an exact search knows that they are too small
	told    *answer
	last    float64
	seed    uint64
}

// answer is a set of sheets with their layouts.
type answer struct {
	key      key
	layouts  []*tree
	leftover int64 // the largest, by area
	missing  int64 // area without a place
}

func newSolver(ctx context.Context, job Job, p *problem, watch Watch) *solver {
	s := &solver{job: job, p: p, watch: watch, budget: job.Steps}
	if s.budget == 0 {
		s.budget = job.DefaultSteps()
	}
	s.w = &work{ctx: ctx, limit: s.budget, next: between}
	if watch != nil {
		s.w.watch = func(int64) { s.tell() }
	}
	return s
}

// The shares of the budget: what the bounds and the tidying up of leftovers
// may take at most.
const (
	boundShare    = 0.25
	refuteShare   = 0.3 // and proofs against single sets
	barShare      = 0.8 // of a job of bars, answers found on the way
	leftoverShare = 0.1
)

func (s *solver) solve() {
	s.greedy()
	if s.w.cancelled {
		return
	}
	s.tell()
	if s.bars = newLinear(s.p, s.w, s.seed); s.bars != nil {
		s.w.limit = int64(barShare * float64(s.budget))
		s.boundBars()
	} else {
		s.w.limit = int64(boundShare * float64(s.budget))
		s.bound()
	}
	s.refresh()
	s.w.limit = s.budget - int64(leftoverShare*float64(s.budget))
	s.rounds()
	if s.best != nil && !s.w.cancelled {
		s.w.limit = min(s.budget, s.w.spent+int64(leftoverShare*float64(s.budget)))
		s.tidy()
		s.tell()
	}
}

// greedy fills one sheet after another, each time the one that costs least for
// what it takes. If the stock gives out, it begins again and serves those parts
// first that fit the fewest sheets.
func (s *solver) greedy() {
	s.fill(false)
	if s.best == nil {
		s.fill(true)
	}
}

func (s *solver) fill(scarceFirst bool) {
	left := make([]int, len(s.p.stores))
	for t := range left {
		left[t] = s.p.stores[t].limit
	}
	var hand []int32
	for k := range s.p.kinds {
		for range s.p.kinds[k].count {
			hand = append(hand, int32(k))
		}
	}
	var layouts []*tree
	for len(hand) > 0 && !s.w.cancelled {
		var best *search
		scarce := none
		if scarceFirst {
			scarce = s.scarce(hand)
		}
		for t := range s.p.stores {
			if left[t] == 0 || scarce != none && s.p.stores[t].ways[scarce] == 0 {
				continue
			}
			q := newSearch(s.p, s.w, []int{t}, s.seed)
			q.hand = append(q.hand[:0], hand...)
			if scarce == none {
				q.construct(constructions / 4)
			} else {
				i := slices.Index(q.hand, scarce)
				q.hand = slices.Delete(q.hand, i, i+1)
				q.put(scarce)
				q.begin()
			}
			if q.sheets[0].root != none && (best == nil || s.cheaper(q.sheets[0], best.sheets[0])) {
				best = q
			}
		}
		if best == nil {
			break
		}
		left[best.sheets[0].store]--
		layouts = append(layouts, best.sheets[0])
		hand = append(hand[:0], best.hand...)
	}
	s.offer(layouts, hand)
}

// scarce returns the kind in hand that fits the fewest entries of the stock,
// of several the largest.
func (s *solver) scarce(hand []int32) int32 {
	best, fewest := none, 0
	for _, k := range hand {
		fits := 0
		for t := range s.p.stores {
			if s.p.stores[t].ways[k] != 0 {
				fits++
			}
		}
		if best == none || fits < fewest || fits == fewest && s.p.kinds[k].area > s.p.kinds[best].area {
			best, fewest = k, fits
		}
	}
	return best
}

// cheaper reports whether a filled sheet costs less per area of parts than
// another, or as much and wastes less.
func (s *solver) cheaper(a, b *tree) bool {
	pa, pb := float64(s.p.stores[a.store].price)*float64(b.filled), float64(s.p.stores[b.store].price)*float64(a.filled)
	if pa != pb {
		return pa < pb
	}
	wa := float64(a.filled) / float64(s.p.stores[a.store].area)
	wb := float64(b.filled) / float64(s.p.stores[b.store].area)
	if a.filled != b.filled && s.p.stores[a.store].price > 0 || wa == wb {
		return a.filled > b.filled
	}
	return wa > wb
}

// offer takes an answer if it is better than the best so far.
func (s *solver) offer(layouts []*tree, hand []int32) bool {
	if s.best != nil && len(hand) > 0 {
		return false
	}
	set := make([]int, len(s.p.stores))
	a := &answer{}
	for _, t := range layouts {
		if t.root == none {
			continue
		}
		set[t.store]++
		u := &tree{}
		u.copyFrom(t)
		a.layouts = append(a.layouts, u)
		a.leftover = max(a.leftover, u.dealt(s.p.stages).largest())
	}
	a.key = s.p.keyOf(set)
	for _, k := range hand {
		a.missing += s.p.kinds[k].area
	}
	if len(hand) > 0 {
		if s.part == nil || a.missing < s.part.missing {
			s.part = a
		}
		return false
	}
	if s.best != nil {
		c := a.key.compare(s.best.key)
		if c > 0 || c == 0 && a.leftover <= s.best.leftover {
			return false
		}
	}
	s.best = a
	return true
}

// bound finds proofs: linear programmes with three ideas of what sheets cost.
func (s *solver) bound() {
	most := int(min(max(s.budget/100, 100_000), 4_000_000))
	s.bounds = newBounder(s.p, s.w, most)
	if s.proven() {
		return
	}
	limits := make([]int, len(s.p.stores))
	price, area := make([]float64, len(limits)), make([]float64, len(limits))
	one := make([]float64, len(limits))
	paid := false
	for t := range s.p.stores {
		st := &s.p.stores[t]
		limits[t] = st.limit
		price[t], one[t], area[t] = float64(st.price)/1e4, 1, float64(st.area)/float64(s.p.area)
		paid = paid || st.price > 0
	}
	if paid && len(limits) > 1 {
		s.bounds.improve(price, limits, 200)
		if s.proven() {
			return
		}
	}
	s.bounds.improve(area, limits, 200)
	if len(limits) > 1 && !s.proven() {
		s.bounds.improve(one, limits, 200)
	}
}

// proven reports whether no set below the best answer is left.
func (s *solver) proven() bool {
	s.refresh()
	return s.best != nil && len(s.open) == 0 && s.floor == s.best.key
}

// beyondAll is a key above all others.
var beyondAll = key{math.MaxInt64, math.MaxInt, math.MaxInt64}

// refresh finds the open candidates anew, keeping the searches of those that
// stay.
func (s *solver) refresh() {
	below := beyondAll
	if s.best != nil {
		below = s.best.key
	}
	had := s.open
	w := *s.w
	w.limit = 1 << 62
	w.watch = nil
	s.open, s.floor, _ = s.p.candidates(&w, s.bounds.proofs, s.refuted, below)
	s.w.spent = w.spent
	for i, c := range s.open {
		for _, h := range had {
			if slices.Equal(h.set, c.set) {
				s.open[i] = h
			}
		}
	}
}

// tell passes progress and better answers on.
func (s *solver) tell() {
	if s.watch == nil {
		return
	}
	done := min(float64(s.w.spent)/float64(s.budget), 0.999)
	if s.best != nil && s.best != s.told {
		s.told = s.best
		s.last = done
		s.watch(s.plan(), done)
	} else if done > s.last+0.01 {
		s.last = done
		s.watch(nil, done)
	}
}

// plan writes the best answer down.
func (s *solver) plan() *Plan {
	a := s.best
	if a == nil {
		a = s.part
	}
	if a == nil {
		a = &answer{}
	}
	plan := write(s.job, s.p, a.layouts)
	plan.Cost = float64(a.key.price) / 1e4
	if s.bounds == nil {
		return plan
	}
	low := s.floor
	if len(s.open) > 0 {
		low = s.open[0].key
	}
	if s.best != nil {
		plan.Bound = Bound{Cost: float64(low.price) / 1e4, Sheets: low.sheets, Proven: low == s.best.key}
	} else {
		plan.Bound = Bound{Cost: float64(low.price) / 1e4, Sheets: low.sheets, CannotFit: len(s.open) == 0 && low == beyondAll}
	}
	return plan
}
