package nest

import (
	"cmp"
	"slices"
)

// count adds the strips of a slab and all below it to what is to be cut.
func (s *saw) count(m *slab) {
	if m == nil || m.leaf {
		return
	}
	for _, c := range m.strips {
		s.total[c.span(m.dir)]++
		s.count(c)
	}
}

// lay puts piece i on the bench: it is done, or its strips can be cut now.
func (s *saw) lay(i int) {
	b := &s.pieces[i]
	for b.make != nil && !b.make.leaf && len(b.make.strips) == 1 && b.make.rest == 0 {
		width := b.make.strips[0].span(b.make.dir)
		s.total[width]--
		b.make = b.make.strips[0]
	}
	switch m := b.make; {
	case m == nil:
		s.leave(b)
	case m.leaf:
		s.placed[b.sheet] = append(s.placed[b.sheet], laid{m.kind, m.way, b.x, b.y, b.l, b.w})
	default:
		for _, c := range m.strips {
			width := c.span(m.dir)
			s.ready[width]++
			s.offers[width] = append(s.offers[width], i)
		}
	}
}

// leave writes a leftover down.
func (s *saw) leave(b *bench) {
	r := b.rectangle()
	short, long := min(s.job.UsefulLength, s.job.UsefulWidth), max(s.job.UsefulLength, s.job.UsefulWidth)
	useful := min(r.Length, r.Width) >= short && max(r.Length, r.Width) >= long
	sheet := &s.plan.Sheets[b.sheet]
	sheet.Leftovers = append(sheet.Leftovers, Leftover{r, useful})
}

// set sets the fence to the next width and makes all cuts of that width that
// can be made, also those that become possible by it. It reports false when
// nothing is left to cut. A width goes first if all of its strips can be cut
// now, so that the fence need not come back to it; among those the largest.
func (s *saw) set() bool {
	var width size
	better := func(a, b size) bool { // b is not 0
		allA, allB := s.ready[a] == s.total[a], s.ready[b] == s.total[b]
		if allA != allB {
			return allA
		}
		return a > b
	}
	for w, n := range s.ready {
		if n > 0 && (width == 0 || better(w, width)) {
			width = w
		}
	}
	if width == 0 {
		return false
	}
	for len(s.offers[width]) > 0 {
		from := s.offers[width]
		s.offers[width] = nil
		slices.SortStableFunc(from, func(a, b int) int { return cmp.Compare(s.pieces[a].sheet, s.pieces[b].sheet) })
		for _, i := range from {
			s.strip(i, width)
		}
	}
	return true
}

// strip cuts one strip of a width off piece i.
func (s *saw) strip(i int, width size) {
	b := s.pieces[i]
	m := b.make
	at := -1
	if m != nil && !m.leaf {
		at = slices.IndexFunc(m.strips, func(c *slab) bool { return c.span(m.dir) == width })
	}
	if at < 0 {
		return // it became a strip of its own without a cut
	}
	c := m.strips[at]
	near, beyond, both := s.cut(b, m.dir, width-s.p.kerf, m.stage, false)
	near.make = c
	s.ready[width]--
	s.total[width]--
	s.pieces = append(s.pieces, near)
	m = &slab{l: m.l, w: m.w, dir: m.dir, stage: m.stage, rest: m.rest, strips: slices.Delete(slices.Clone(m.strips), at, at+1)}
	m.stretch(m.dir, b.make.along()-width)
	if both && len(m.strips) > 0 {
		beyond.make = m
	}
	s.pieces[i] = beyond
	s.lay(len(s.pieces) - 1)
	switch {
	case !both:
		s.pieces[i].make = nil
	case len(m.strips) == 0:
		s.leave(&beyond)
	case len(m.strips) == 1 && m.rest == 0:
		s.ready[m.strips[0].span(m.dir)]--
		s.lay(i)
	}
}

// finish names the parts, sorts what is to be read in an order and adds up.
func (s *saw) finish() {
	copies := make([]int, len(s.job.Pieces))
	for i := range s.plan.Sheets {
		sheet := &s.plan.Sheets[i]
		s.plan.Cost += sheet.Sheet.Price
		slices.SortStableFunc(s.placed[i], func(a, b laid) int {
			return cmp.Or(cmp.Compare(a.y, b.y), cmp.Compare(a.x, b.x))
		})
		for _, part := range s.placed[i] {
			sheet.Parts = append(sheet.Parts, s.name(part, copies))
		}
		slices.SortStableFunc(sheet.Leftovers, func(a, b Leftover) int {
			return cmp.Or(cmp.Compare(b.Length*b.Width, a.Length*a.Width), cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X))
		})
	}
	for i, piece := range s.job.Pieces {
		if n := piece.Count - copies[i]; n > 0 {
			s.plan.Unplaced = append(s.plan.Unplaced, Missing{i, piece.ID, n})
		}
		if s.job.Carry > 0 && piece.Length*piece.Width*s.job.MassPerArea > s.job.Carry {
			s.plan.Heavy = append(s.plan.Heavy, i)
		}
	}
}

// name says which copy of which piece a part is: parts of one kind are taken
// in the order of the job.
func (s *saw) name(part laid, copies []int) Placement {
	from := s.p.kinds[part.kind].from
	piece := from[len(from)-1]
	for _, i := range from {
		if copies[i] < s.job.Pieces[i].Count {
			piece = i
			break
		}
	}
	swapped := s.job.Pieces[piece].Width > s.job.Pieces[piece].Length
	copies[piece]++
	return Placement{
		Piece: piece, ID: s.job.Pieces[piece].ID, Copy: copies[piece] - 1,
		Rectangle: Rectangle{mm(part.x), mm(part.y), mm(part.l), mm(part.w)},
		Turned:    (part.way == turned) != swapped,
	}
}
