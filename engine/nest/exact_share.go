package nest

// share looks for a choice for each sheet so that all parts are chosen.
func (e *exact) share() (verdict, []*tree) {
	rest := make([]int, len(e.p.kinds))
	for k := range rest {
		rest[k] = e.p.kinds[k].count
	}
	chosen := make([]int32, len(e.sheets)) // points of curves
	switch e.choose(0, int32(e.choices-1), rest, e.spare, chosen) {
	case impossible:
		return impossible, nil
	case found:
		if trees := e.build(chosen); trees != nil {
			return found, trees
		}
	}
	return unknown, nil
}

// choose finds choices for the sheets from one on that make up the rest,
// wasting no more than spare.
func (e *exact) choose(sheet int, rest int32, counts []int, spare int64, chosen []int32) verdict {
	t := e.sheets[sheet]
	if sheet == len(e.sheets)-1 {
		if chosen[sheet] = e.fits(rest, t); chosen[sheet] < 0 {
			return impossible
		}
		return found
	}
	whole := e.pack(counts) | e.guard
	for i, c := range e.some {
		if !e.w.more(1) {
			return unknown
		}
		waste := e.p.stores[t].area - e.area[c]
		if c >= rest || waste < 0 || waste > spare || (whole-e.packed[i])&e.guard != e.guard {
			continue
		}
		if chosen[sheet] = e.fits(c, t); chosen[sheet] < 0 {
			continue
		}
		left := make([]int, len(counts))
		n := int(c)
		for k := len(counts) - 1; k >= 0; k-- {
			left[k] = counts[k] - n/e.strides[k]
			n %= e.strides[k]
		}
		if v := e.choose(sheet+1, rest-c, left, spare-waste, chosen); v != impossible {
			return v
		}
	}
	return impossible
}

// build makes trees of the points chosen; nil where one takes too many stages.
func (e *exact) build(chosen []int32) []*tree {
	var trees []*tree
	for i, point := range chosen {
		t := newTree(e.p, e.sheets[i])
		t.root = e.grow(t, point, none)
		t.offer()
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
	if s.a < 0 {
		t.nodes[n].kind, t.nodes[n].way = s.ia, uint8(s.ib)
		t.filled += e.p.kinds[s.ia].area
		return n
	}
	a := e.grow(t, s.ia, n)
	b := e.grow(t, s.ib, n)
	t.nodes[n].a, t.nodes[n].b = a, b
	return n
}
