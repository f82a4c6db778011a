package nest

import (
	"cmp"
	"slices"
)

// The four edges of a piece that may still be raw.
const (
	low = iota // at the low X
	high
	bottom // at the low Y
	top
)

// bench is a piece of wood on its way, in micrometres of its sheet.
type bench struct {
	sheet      int
	x, y, l, w size
	raw        [4]size // what is to be trimmed off each edge
	make       *slab   // nil of a leftover
}

// saw turns layouts into cuts and keeps the books on what lies about.
type saw struct {
	p       *problem
	job     Job
	plan    *Plan
	pieces  []bench
	placed  [][]laid       // per sheet
	total   map[size]int   // strips of a width still to be cut
	ready   map[size]int   // those that could be cut now
	offers  map[size][]int // the pieces to cut them from
	fence   size
	numbers []int // cuts so far per sheet
}

// laid is a part that is done.
type laid struct {
	kind       int32
	way        uint8
	x, y, l, w size
}

// write fills a plan with sheets, cuts and leftovers of the given layouts.
func write(j Job, p *problem, layouts []*tree) *Plan {
	s := &saw{p: p, job: j, plan: &Plan{}, fence: -1,
		total: map[size]int{}, ready: map[size]int{}, offers: map[size][]int{}}
	var sheets []bench
	for _, t := range layouts {
		if t.root == none {
			continue
		}
		entry := j.Stock[t.store]
		sheets = append(sheets, bench{
			sheet: len(s.plan.Sheets), l: micro(entry.Length), w: micro(entry.Width),
			raw: entry.raw(), make: t.dealt(p.stages),
		})
		s.plan.Sheets = append(s.plan.Sheets, CutSheet{Stock: t.store, Sheet: entry})
	}
	s.placed = make([][]laid, len(sheets))
	s.numbers = make([]int, len(sheets))
	for _, b := range sheets {
		s.breakUp(b)
	}
	s.trim()
	for i := range s.pieces {
		s.count(s.pieces[i].make)
	}
	for i := range s.pieces {
		s.lay(i)
	}
	for s.set() {
	}
	s.finish()
	return s.plan
}

// heavy reports whether a piece is above what may be carried.
func (s *saw) heavy(b *bench) bool {
	return s.job.Carry > 0 && s.job.MassPerArea*mm(b.l)*mm(b.w) > s.job.Carry
}

func mm(v size) float64 { return float64(v) / 1000 }

// shortest is the longer side, in micrometres, below which a leftover is not
// halved any more however little may be carried.
const shortest = 200_000

// breakUp cuts a piece that is too heavy, again and again, and puts what is
// light enough, or cannot be made lighter, with the other pieces.
func (s *saw) breakUp(b bench) {
	switch {
	case !s.heavy(&b):
		s.pieces = append(s.pieces, b)
		return
	case b.make != nil && b.make.leaf:
		i := len(s.pieces)
		s.pieces = append(s.pieces, b)
		for edge, raw := range b.raw { // it may be its raw edges that are too much
			if raw > 0 && s.heavy(&s.pieces[i]) {
				s.trimEdge(i, edge)
			}
		}
		return
	case b.make == nil:
		if max(b.l, b.w) < shortest+2*s.p.kerf {
			s.pieces = append(s.pieces, b)
			return
		}
		dir, half := alongX, (b.l-s.p.kerf)/2
		if b.w > b.l {
			dir, half = alongY, (b.w-s.p.kerf)/2
		}
		near, far, _ := s.cut(b, dir, half, 0, false)
		s.breakUp(near)
		s.breakUp(far)
		return
	}
	m := b.make
	slices.SortStableFunc(m.strips, func(a, c *slab) int { return cmp.Compare(c.span(m.dir), a.span(m.dir)) })
	n, width := s.halve(&b)
	near, far, both := s.cut(b, m.dir, b.margin(m.dir)+width-s.p.kerf, m.stage, false)
	near.make = group(m, m.strips[:n], width, 0)
	s.breakUp(near)
	if both {
		far.make = group(m, m.strips[n:], m.along()-width, m.rest)
		s.breakUp(far)
	}
}

// margin is what is raw at the low edge.
func (b *bench) margin(d direction) size {
	if d == alongX {
		return b.raw[low]
	}
	return b.raw[bottom]
}

// halve returns after how many strips to break a piece so that its heavier
// half is as light as possible, and how wide these strips are.
func (s *saw) halve(b *bench) (int, size) {
	m := b.make
	best, bestWidth, least := 0, size(0), size(0)
	var width size
	for i, c := range m.strips {
		width += c.span(m.dir)
		if i == len(m.strips)-1 && m.rest == 0 {
			break
		}
		if worse := max(width, m.along()-width); best == 0 || worse < least {
			best, bestWidth, least = i+1, width, worse
		}
	}
	return best, bestWidth
}

// group makes a slab of some of the strips of another.
func group(m *slab, strips []*slab, width, rest size) *slab {
	if len(strips) == 0 {
		return nil
	}
	if len(strips) == 1 && rest == 0 {
		return strips[0]
	}
	g := &slab{l: m.l, w: m.w, dir: m.dir, strips: strips, rest: rest, stage: m.stage}
	g.stretch(m.dir, width)
	return g
}

// cut saws a piece in two, at a distance from its low edge, and writes the cut
// down. The parts get no slab. both is false where nothing is left beyond the
// kerf.
func (s *saw) cut(b bench, dir direction, at size, stage int, far bool) (near, beyond bench, both bool) {
	near, beyond = b, b
	near.make, beyond.make = nil, nil
	k := s.p.kerf
	c := Cut{
		Sheet: b.sheet, Piece: b.rectangle(), Across: dir == alongX, Far: far,
		Breaking: s.heavy(&b), Stage: stage,
	}
	fence := at
	if dir == alongX {
		c.At = mm(b.x + at)
		near.l, near.raw[high] = at, 0
		beyond.x, beyond.l, beyond.raw[low] = b.x+at+k, b.l-at-k, 0
		both = beyond.l > 0
		if far {
			fence = beyond.l
		}
	} else {
		c.At = mm(b.y + at)
		near.w, near.raw[top] = at, 0
		beyond.y, beyond.w, beyond.raw[bottom] = b.y+at+k, b.w-at-k, 0
		both = beyond.w > 0
		if far {
			fence = beyond.w
		}
	}
	if fence != s.fence {
		s.fence = fence
		s.plan.Settings++
	}
	s.numbers[b.sheet]++
	c.Number, c.Fence, c.Setting = s.numbers[b.sheet], mm(fence), s.plan.Settings
	s.plan.Cuts = append(s.plan.Cuts, c)
	return near, beyond, both
}

func (b *bench) rectangle() Rectangle {
	return Rectangle{mm(b.x), mm(b.y), mm(b.l), mm(b.w)}
}

// trim takes the raw edges off all pieces that parts are made of, edge by edge,
// the same fence setting in one go.
func (s *saw) trim() {
	for edge := range 4 {
		var order []int
		for i, b := range s.pieces {
			if b.make != nil && b.raw[edge] > 0 {
				order = append(order, i)
			}
		}
		kept := func(i int) size { return s.pieces[i].kept(edge) }
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(kept(b), kept(a)) })
		for _, i := range order {
			s.trimEdge(i, edge)
		}
	}
}

// kept returns how much trimming an edge leaves.
func (b *bench) kept(edge int) size {
	if edge == low || edge == high {
		return b.l - b.raw[edge]
	}
	return b.w - b.raw[edge]
}

// trimEdge trims one edge of piece i.
func (s *saw) trimEdge(i, edge int) {
	b := s.pieces[i]
	kept := b.kept(edge)
	m, raw := b.make, b.raw
	var waste bench
	var some bool
	dir := alongX
	if edge == bottom || edge == top {
		dir = alongY
	}
	if edge == low || edge == bottom {
		at := raw[edge] - s.p.kerf
		waste, b, _ = s.cut(b, dir, at, 0, true)
		some = at > 0
	} else {
		b, waste, some = s.cut(b, dir, kept, 0, false)
	}
	s.plan.Cuts[len(s.plan.Cuts)-1].Trim = true
	b.make, b.raw = m, raw
	b.raw[edge] = 0
	s.pieces[i] = b
	if some {
		s.breakUp(waste)
	}
}
