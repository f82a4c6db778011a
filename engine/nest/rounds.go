package nest

import "slices"

// firstEffort is the effort of the first round, in steps.
const firstEffort = 500_000

// rounds tries the open candidates, the cheapest first, each time with twice
// the effort.
func (s *solver) rounds() {
	stop := s.w.limit
	for effort := int64(firstEffort); len(s.open) > 0 && s.w.spent < stop && !s.w.cancelled; effort *= 2 {
		for c := s.next(effort); c != nil && s.w.spent < stop && !s.w.cancelled; c = s.next(effort) {
			c.effort = effort
			s.w.limit = min(stop, s.w.spent+effort)
			far := c.search != nil && c.search.best/4 > s.nearest()
			if !far && s.try(c) || s.settle(c, stop) {
				s.tell()
				s.refresh()
			}
		}
	}
	s.w.limit = stop
}

// next returns the cheapest candidate that has not had its effort yet.
func (s *solver) next(effort int64) *candidate {
	for _, c := range s.open {
		if c.effort < effort {
			return c
		}
	}
	return nil
}

// nearest returns the least area that a search among the candidates has left
// without a place. Candidates much farther from success are not searched on.
func (s *solver) nearest() int64 {
	least := s.p.area
	for _, c := range s.open {
		if c.search != nil {
			least = min(least, c.search.best)
		}
	}
	return least
}

// try searches for a layout on the sheets of a candidate.
func (s *solver) try(c *candidate) bool {
	if c.search == nil {
		var set []int
		for t, n := range c.set {
			for range n {
				set = append(set, t)
			}
		}
		if len(set) == 0 {
			return false
		}
		c.search = newSearch(s.p, s.w, set, s.seed)
	}
	if !c.search.run() {
		s.offer(c.search.kept, c.search.saved)
		return false
	}
	return s.offer(c.search.sheets, nil)
}

// settle asks whether a candidate has a layout at all: linear programmes of its
// own over ever finer tables and the exact search. It reports whether the
// answer or what is known of the candidates has become better.
func (s *solver) settle(c *candidate, stop int64) bool {
	if s.bars == nil && s.ask(c, stop) {
		return true
	}
	return s.decide(c, stop)
}

// exactly are the efforts from which on the exact search is asked, the share of
// what is left that it may take, and how much finer the judge's tables are than
// those of the bounds.
var exactly = [...]struct{ effort, share, finer int64 }{{4_000_000, 6, 10}, {16_000_000, 2, 40}}

// decide asks the exact search about a candidate, with the help of the proof
// that came nearest.
func (s *solver) decide(c *candidate, stop int64) bool {
	if c.exact == len(exactly) || c.effort < exactly[c.exact].effort || s.w.cancelled {
		return false
	}
	how := exactly[c.exact]
	c.exact++
	s.w.limit = s.w.spent + (stop-s.w.spent)/how.share
	var judges []*judge
	if c.worth != nil {
		if j := newJudge(s.p, s.w, c.set, c.worth, s.bounds.most*int(how.finer)); j != nil {
			judges = append(judges, j)
		}
	}
	e := newExact(s.p, s.w, c.set, judges...)
	if e == nil {
		return false
	}
	verdict, layouts := e.decide()
	if verdict == impossible {
		s.refuted = append(s.refuted, slices.Clone(c.set))
	}
	return verdict == impossible || verdict == found && s.offer(layouts, nil)
}

// ask looks for a proof against a candidate, over tables of the levels that its
// effort is worth.
func (s *solver) ask(c *candidate, stop int64) bool {
	most := int64(refuteShare * float64(s.budget))
	for c.level < len(levels) && c.effort >= levels[c.level].effort && s.asked < most && !s.w.cancelled {
		s.w.limit = min(s.w.spent+most-s.asked, s.w.spent+(stop-s.w.spent)/4)
		before := s.w.spent
		worth, held := s.bounds.refute(c.set, c.level)
		if worth != nil {
			c.worth = worth
		}
		s.asked += s.w.spent - before
		c.level++
		if held < 1 {
			return true
		}
	}
	return false
}
