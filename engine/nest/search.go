package nest

import (
	"math"
	"slices"
)

// search looks for a layout of all parts on a given set of sheets: ruin and
// recreate, after Schrimpf et al., J. Comput. Phys. 159 (2000), and in the form
// for guillotine layouts close to Gardeyn and Wauters, EJOR (2022); both from
// memory. Some subtrees are taken off, the parts in hand are put back one after
// another where they fit best, and the result is kept if it is not much worse
// than what was there before.
type search struct {
	p       *problem
	w       *work
	rnd     random
	sheets  []*tree
	hand    []int32 // kinds of the parts without a place
	before  []*tree // the sheets as before this round
	dirty   []bool
	now     float64 // value of the present layouts
	warmth  float64 // how much worse a round may be
	begun   bool
	rule    rule
	best    int64 // least area in hand so far
	kept    []*tree
	saved   []int32
	order   []ordered
	scratch tree
}

type ordered struct {
	kind int32
	key  float64
}

// rule weighs what speaks against a place.
type rule struct {
	waste, growth, open float64
	blink               float64
}

// newSearch starts with empty sheets of the given entries of the stock.
func newSearch(p *problem, w *work, set []int, seed uint64) *search {
	s := &search{p: p, w: w, rnd: newRandom(seed), dirty: make([]bool, len(set))}
	for _, t := range set {
		s.sheets = append(s.sheets, newTree(p, t))
		s.before = append(s.before, newTree(p, t))
		s.kept = append(s.kept, newTree(p, t))
	}
	for k := range p.kinds {
		for range p.kinds[k].count {
			s.hand = append(s.hand, int32(k))
		}
	}
	s.best = p.area + 1
	return s
}

// handArea returns the area of the parts without a place.
func (s *search) handArea() int64 {
	var a int64
	for _, k := range s.hand {
		a += s.p.kinds[k].area
	}
	return a
}

// value is what the search makes small: the area without a place and, a little,
// how evenly what is free is spread over the sheets.
func (s *search) value() float64 {
	v := float64(s.handArea())
	for _, t := range s.sheets {
		free := float64(int64(t.l)*int64(t.w) - t.filled)
		v -= 0.01 * free * free / (float64(t.l) * float64(t.w))
	}
	return v
}

// run searches until all parts have a place or the work is spent. It reports
// whether they have. Worse layouts are taken the more readily the younger the
// run is (simulated annealing).
func (s *search) run() bool {
	if !s.begun {
		s.construct(constructions)
	}
	from, until := s.w.spent, s.w.limit
	part := float64(s.p.area) / float64(s.p.parts)
	for round := 0; len(s.hand) > 0; round++ {
		if !s.w.more(perRound) {
			return false
		}
		if round%64 == 0 {
			gone := float64(s.w.spent-from) / float64(until-from)
			s.warmth = part * warm * halved(gone*octaves)
		}
		s.step()
	}
	return true
}

// construct fills empty sheets by several orders and rules and keeps the best.
func (s *search) construct(tries int) {
	all := slices.Clone(s.hand)
	for try := range tries {
		for _, t := range s.sheets {
			t.root, t.nodes, t.filled = none, t.nodes[:0], 0
		}
		s.hand = append(s.hand[:0], all...)
		s.rule = rule{waste: 1, growth: float64(try / 4 % 3), open: float64(try / 12 % 2)}
		s.recreate(try % 4)
		s.keep()
		if len(s.hand) == 0 || !s.w.more(1) {
			break
		}
	}
	s.restore()
	s.now = s.value()
	s.begun = true
}

// begin goes on from layouts that are there already.
func (s *search) begin() {
	s.rule = rule{waste: 1, growth: 1}
	s.recreate(0)
	s.keep()
	s.now = s.value()
	s.begun = true
}

const (
	constructions = 24
	lateness      = 1000
	perRound      = 40 // steps that a round costs whatever it does
	perPart       = 5  // and that putting a part back costs
	// How much worse, in mean areas of a part, the search lets a round be at the
	// beginning of a run, and how often that is halved until its end. Found by
	// trying.
	warm, octaves = 0.2, 9.5
)

// halved returns about 2 to the power of −n, by straight lines between whole n:
// unlike math.Pow it is the same to the last bit on every machine.
func halved(n float64) float64 {
	v := 1.0
	for ; n >= 1; n-- {
		v /= 2
	}
	return v * (1 - n/2)
}

// keep remembers the present state if it is the best so far.
func (s *search) keep() {
	if a := s.handArea(); a < s.best {
		s.best = a
		s.saved = append(s.saved[:0], s.hand...)
		for i, t := range s.sheets {
			s.kept[i].copyFrom(t)
		}
	}
}

// restore goes back to the best state.
func (s *search) restore() {
	s.hand = append(s.hand[:0], s.saved...)
	for i, t := range s.kept {
		s.sheets[i].copyFrom(t)
	}
}

// step is one round of ruin and recreate.
func (s *search) step() {
	was := slices.Clone(s.hand)
	clear(s.dirty)
	s.ruin()
	s.rule = rule{
		waste:  s.rnd.unit(),
		growth: s.rnd.unit(),
		open:   s.rnd.unit(),
		blink:  0.05,
	}
	s.recreate(s.rnd.below(5))
	v := s.value()
	if v <= s.now+float64(s.warmth*s.rnd.exponential()) {
		s.now = v
		s.keep()
		return
	}
	s.hand = append(s.hand[:0], was...)
	for i, d := range s.dirty {
		if d {
			s.sheets[i], s.before[i] = s.before[i], s.sheets[i]
		}
	}
}

// touch saves a sheet before its first change in a round.
func (s *search) touch(i int) {
	if !s.dirty[i] {
		s.dirty[i] = true
		s.before[i].copyFrom(s.sheets[i])
	}
}

// ruin takes subtrees off.
func (s *search) ruin() {
	times := 1 + s.rnd.below(4)
	for range times {
		i := s.rnd.below(len(s.sheets))
		t := s.sheets[i]
		if t.root == none {
			continue
		}
		s.touch(i)
		n := int32(s.rnd.below(len(t.nodes)))
		s.hand = t.remove(s.p, n, s.hand)
		s.w.more(len(t.nodes))
	}
}

// recreate puts the parts in hand back, in an order by one of five keys.
func (s *search) recreate(key int) {
	s.order = s.order[:0]
	noise := 0.0
	if s.begun {
		noise = 0.2 * s.rnd.unit()
	}
	for _, k := range s.hand {
		s.order = append(s.order, ordered{k, s.key(key, k) * (1 - float64(noise*s.rnd.unit()))})
	}
	slices.SortStableFunc(s.order, func(a, b ordered) int {
		switch {
		case a.key > b.key:
			return -1
		case a.key < b.key:
			return 1
		}
		return int(a.kind - b.kind)
	})
	s.hand = s.hand[:0]
	failed := none
	for _, o := range s.order {
		if o.kind == failed || !s.put(o.kind) {
			s.hand = append(s.hand, o.kind)
			failed = o.kind
		}
	}
}

func (s *search) key(key int, k int32) float64 {
	q := &s.p.kinds[k]
	switch key {
	case 0:
		return float64(q.area)
	case 1:
		return float64(q.l)
	case 2:
		return float64(q.w)
	case 3:
		return float64(q.l) + float64(q.w)
	}
	return s.rnd.unit()
}

// put places one part where it fits best and reports whether there is such a
// place.
func (s *search) put(k int32) bool {
	if s.w.more(perPart); s.w.cancelled {
		return false
	}
	at, on, score := place{}, -1, 0.0
	for i, t := range s.sheets {
		ways := s.p.stores[t.store].ways[k]
		for _, way := range [...]uint8{straight, turned} {
			if ways&way == 0 {
				continue
			}
			p, sc, ok := s.bestOn(t, k, way)
			if ok && (on < 0 || sc < score) {
				at, on, score = p, i, sc
			}
		}
	}
	if on < 0 {
		return false
	}
	s.touch(on)
	s.sheets[on].insert(s.p, k, at)
	return true
}

// bestOn returns the best place for a part on one sheet.
func (s *search) bestOn(t *tree, k int32, way uint8) (place, float64, bool) {
	lx, ly := s.p.kinds[k].sides(way)
	if lx > t.l || ly > t.w || t.filled+s.p.kinds[k].area > int64(t.l)*int64(t.w) {
		return place{}, 0, false
	}
	if t.root == none {
		s.w.more(1)
		// Which way round the first part lies is left to chance.
		return place{none, alongX, way, lx, ly}, float64(s.rule.open*float64(t.l)*float64(t.w)) + s.rnd.unit(), true
	}
	best, limit, ok := place{}, math.Inf(1), false
	s.w.more(len(t.nodes))
	for i := range t.nodes {
		v := &t.nodes[i]
		if lx > v.ax || ly > v.ay {
			continue
		}
		up := direction(-1)
		if v.parent != none {
			up = t.nodes[v.parent].dir
		}
		if up != alongX && v.lx+lx <= v.ax {
			at := place{int32(i), alongX, way, lx, ly}
			if sc := s.score(t, at, limit); sc < limit && s.chance() && s.staged(t, k, at) {
				best, limit, ok = at, sc, true
			}
		}
		if up != alongY && v.ly+ly <= v.ay {
			at := place{int32(i), alongY, way, lx, ly}
			if sc := s.score(t, at, limit); sc < limit && s.chance() && s.staged(t, k, at) {
				best, limit, ok = at, sc, true
			}
		}
	}
	return best, limit, ok
}

func (s *search) chance() bool {
	return s.rule.blink == 0 || s.rnd.unit() >= s.rule.blink
}

// staged reports whether the layout keeps within the limit of stages with a
// part at a place.
func (s *search) staged(t *tree, k int32, at place) bool {
	if s.p.stages == 0 {
		return true
	}
	s.w.more(2 * len(t.nodes))
	s.scratch.copyFrom(t)
	s.scratch.insert(s.p, k, at)
	return s.scratch.stagesNeeded() <= s.p.stages
}

// score weighs a place; the smallest wins. The waste is what lies beside the
// shorter of the two that now lie together; the growth is by how much the box
// of the whole sheet's layout becomes larger; that is not looked at where the
// waste alone is at the limit.
func (s *search) score(t *tree, at place, limit float64) float64 {
	v := &t.nodes[at.at]
	nx, ny := v.lx, v.ly
	var waste float64
	if at.dir == alongX {
		nx += at.lx
		if at.ly <= ny {
			waste = float64(at.lx) * float64(ny-at.ly)
		} else {
			waste = float64(nx-at.lx) * float64(at.ly-ny)
			ny = at.ly
		}
	} else {
		ny += at.ly
		if at.lx <= nx {
			waste = float64(at.ly) * float64(nx-at.lx)
		} else {
			waste = float64(ny-at.ly) * float64(at.lx-nx)
			nx = at.lx
		}
	}
	waste *= s.rule.waste
	if waste >= limit {
		return waste
	}
	return waste + float64(s.rule.growth*s.grown(t, at.at, nx, ny))
}

// grown returns by how much the root's box grows if node n comes to need nx by
// ny.
func (s *search) grown(t *tree, n int32, nx, ny size) float64 {
	for {
		v := &t.nodes[n]
		if nx == v.lx && ny == v.ly {
			return 0
		}
		if v.parent == none {
			return float64(nx)*float64(ny) - float64(v.lx)*float64(v.ly)
		}
		u := &t.nodes[v.parent]
		if u.dir == alongX {
			nx += u.lx - v.lx
			other := u.a
			if other == n {
				other = u.b
			}
			ny = max(ny, t.nodes[other].ly)
		} else {
			ny += u.ly - v.ly
			other := u.a
			if other == n {
				other = u.b
			}
			nx = max(nx, t.nodes[other].lx)
		}
		n = v.parent
	}
}
