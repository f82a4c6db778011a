package nest

import (
	"cmp"
	"slices"
)

// tidy makes the largest leftover larger: it asks for a layout on the same
// sheets, one of them shorter, which is the same search. It tries the sheets
// that have the most left first, each in both directions.
func (s *solver) tidy() {
	type end struct {
		sheet int
		dir   direction
		area  int64
	}
	var ends []end
	for i, t := range s.best.layouts {
		for _, d := range [...]direction{alongX, alongY} {
			ends = append(ends, end{i, d, t.beyond(d)})
		}
	}
	slices.SortStableFunc(ends, func(a, b end) int { return cmp.Compare(b.area, a.area) })
	for _, e := range ends[:min(len(ends), tidied)] {
		s.shorten(e.sheet, e.dir)
	}
}

const (
	tidied      = 4       // ends of sheets that are tried
	tidyEffort  = 600_000 // steps for one length
	tidySmaller = 10_000  // µm that are worth asking for
)

// beyond returns the area beyond the layout's box at one end of the sheet.
func (t *tree) beyond(d direction) int64 {
	r := &t.nodes[t.root]
	if d == alongX {
		return int64(t.l-r.lx) * int64(t.w)
	}
	return int64(t.w-r.ly) * int64(t.l)
}

// shorten asks for ever shorter lengths of one sheet: large steps first, half
// of that where there is no layout.
func (s *solver) shorten(sheet int, d direction) {
	t := s.best.layouts[sheet]
	box := t.span(d)
	for step := box / 2; step >= tidySmaller; {
		t = s.best.layouts[sheet]
		box = t.span(d)
		if step > box/2 {
			step = box / 2
			continue
		}
		other, full := t.w, int64(t.l)
		if d == alongY {
			other, full = t.l, int64(t.w)
		}
		if (full-int64(box)+int64(step))*int64(other) <= s.best.leftover {
			return // not even then would it be the largest
		}
		if !s.fits(sheet, d, box-step) {
			step /= 2
		}
		if s.w.cancelled || s.w.spent >= s.w.limit {
			return
		}
	}
}

// span returns how far the layout's box reaches.
func (t *tree) span(d direction) size {
	if d == alongX {
		return t.nodes[t.root].lx
	}
	return t.nodes[t.root].ly
}

// fits searches for a layout on the best answer's sheets with one of them cut
// to a length, and takes it.
func (s *solver) fits(sheet int, d direction, length size) bool {
	var set []int
	for _, t := range s.best.layouts {
		set = append(set, t.store)
	}
	q := newSearch(s.p, s.w, set, s.seed)
	q.hand = q.hand[:0]
	for i, t := range s.best.layouts {
		q.sheets[i].copyFrom(t)
	}
	t := q.sheets[sheet]
	l, w := t.l, t.w
	q.hand = t.remove(s.p, t.root, q.hand)
	if d == alongX {
		t.l = length
	} else {
		t.w = length
	}
	q.begin()
	limit := s.w.limit
	s.w.limit = min(limit, s.w.spent+tidyEffort)
	found := q.run()
	s.w.limit = limit
	if !found {
		return false
	}
	t = q.sheets[sheet]
	t.l, t.w = l, w
	t.offer()
	if t.root == none || s.p.stages > 0 && t.stagesNeeded() > s.p.stages {
		return false
	}
	return s.offer(q.sheets, nil)
}
