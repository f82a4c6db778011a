package nest

// share looks for a choice for each sheet so that all parts are chosen.
func (e *exact) share() (verdict, []*tree) {
	s := sharing{e: e, chosen: make([]int32, len(e.sheets)), last: make([]int, len(e.sheets))}
	spare := []int64{e.spare}
	for _, j := range e.judges {
		spare = append(spare, j.spare)
	}
	switch s.choose(0, e.count.full, spare) {
	case impossible:
		return impossible, nil
	case found:
		if trees := e.build(s.chosen); trees != nil {
			return found, trees
		}
	}
	return unknown, nil
}

// sharing is a search for choices for all sheets.
type sharing struct {
	e      *exact
	chosen []int32 // points of curves; none of an empty sheet
	last   []int   // how far in done the choices are
}

// choose finds choices for the sheets from one on that make up the rest, which
// carries its guard, wasting no more than spare: area first, then as the judges
// weigh it.
func (s *sharing) choose(sheet int, rest choice, spare []int64) verdict {
	e := s.e
	if e.count.plain(rest) == (choice{}) {
		for i := sheet; i < len(s.chosen); i++ {
			s.chosen[i] = none
		}
		return found
	}
	t := e.sheets[sheet]
	if sheet == len(e.sheets)-1 {
		whole := e.count.plain(rest)
		c := e.curves.of(whole, e.count.number(whole))
		if c == nil {
			return impossible
		}
		if s.chosen[sheet] = e.fits(c, t); s.chosen[sheet] < 0 {
			return impossible
		}
		return found
	}
	// Of sheets that are alike the fullest comes first.
	from := len(e.done) - 1
	if sheet > 0 && e.sheets[sheet-1] == t {
		from = s.last[sheet-1]
	}
	for i := from; i >= -1; i-- {
		if !e.w.more(1) {
			return unknown
		}
		c := &curve{weighs: make([]int64, len(e.judges))} // an empty sheet
		if i >= 0 {
			c = e.done[i]
		}
		left, ok := s.after(c, t, spare)
		if !ok || !e.count.within(c.of, rest) {
			continue
		}
		s.chosen[sheet], s.last[sheet] = none, i
		if i >= 0 {
			if s.chosen[sheet] = e.fits(c, t); s.chosen[sheet] < 0 {
				continue
			}
		}
		if v := s.choose(sheet+1, rest.minus(c.of), left); v != impossible {
			return v
		}
	}
	return impossible
}

// after returns what may still be wasted when a choice is cut from a sheet of
// entry t; ok is false where that is too much, or it has no room.
func (s *sharing) after(c *curve, t int, spare []int64) (left []int64, ok bool) {
	waste := s.e.p.stores[t].area - c.area
	if waste < 0 || waste > spare[0] {
		return nil, false
	}
	for n, j := range s.e.judges {
		if j.seats[t].holds-c.weighs[n] > spare[n+1] {
			return nil, false
		}
	}
	left = append(left, spare[0]-waste)
	for n, j := range s.e.judges {
		left = append(left, spare[n+1]-(j.seats[t].holds-c.weighs[n]))
	}
	return left, true
}

// build makes trees of the points chosen; nil where one takes too many stages.
func (e *exact) build(chosen []int32) []*tree {
	var trees []*tree
	for i, point := range chosen {
		t := newTree(e.p, e.sheets[i])
		if point != none {
			t.root = e.grow(t, point, none)
			t.offer()
		}
		if e.p.stages > 0 && t.stagesNeeded() > e.p.stages {
			return nil
		}
		trees = append(trees, t)
	}
	return trees
}

// grow adds the subtree of a point to a tree and returns its node.
func (e *exact) grow(t *tree, point, parent int32) int32 {
	s := e.shapes[point]
	n := int32(len(t.nodes))
	t.nodes = append(t.nodes, node{parent: parent, a: none, b: none, lx: s.l, ly: s.w, dir: s.dir})
	if s.part {
		t.nodes[n].kind, t.nodes[n].way = s.ia, uint8(s.ib)
		t.filled += e.p.kinds[s.ia].area
		return n
	}
	a := e.grow(t, s.ia, n)
	b := e.grow(t, s.ib, n)
	t.nodes[n].a, t.nodes[n].b = a, b
	return n
}
