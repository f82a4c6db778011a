package nest

// slab is a rectangle and what is to be made of it: strips, all cut in one
// direction, and a rest. It is a slicing tree dealt out: every box is known.
// Sizes are those of the problem, a kerf larger than the wood.
type slab struct {
	l, w   size
	dir    direction
	strips []*slab
	rest   size  // what the strips leave along dir
	leaf   bool  // it is a part as it is
	kind   int32 // of a leaf
	way    uint8 // of a leaf
	stage  int   // of the cuts that make strips of it
}

// along returns how far the slab reaches in its direction of cutting.
func (s *slab) along() size { return s.span(s.dir) }

func (s *slab) span(d direction) size {
	if d == alongX {
		return s.l
	}
	return s.w
}

// dealt turns the layout of a sheet into slabs. What the sheet has beyond the
// box of the layout is cut off so that the largest leftover is as large as it
// can be within the limit of stages.
func (t *tree) dealt(stages int) *slab {
	r := &t.nodes[t.root]
	within := func(s *slab) bool { return stages == 0 || s.depth(1) <= stages }
	var best *slab
	for _, first := range [...]direction{alongX, alongY} {
		if s := t.trimmed(t.l, t.w, first); within(s) && (best == nil || s.largest() > best.largest()) {
			best = s
		}
	}
	if r.a != none {
		if s := t.branch(t.root, t.l, t.w); within(s) && (best == nil || s.largest() > best.largest()) {
			best = s
		}
	}
	best.depth(1)
	return best
}

// trimmed cuts a sheet down to the box of its layout, first in one direction,
// then in the other.
func (t *tree) trimmed(l, w size, first direction) *slab {
	r := &t.nodes[t.root]
	inner := t.slab(t.root, r.lx, r.ly)
	if first == alongX {
		return wrap(wrap(inner, alongY, w), alongX, l)
	}
	return wrap(wrap(inner, alongX, l), alongY, w)
}

// wrap makes a slab that measures full in a direction and holds s and a rest.
// If s is cut in that direction itself, it only grows.
func wrap(s *slab, d direction, full size) *slab {
	have := s.span(d)
	if have == full {
		return s
	}
	if !s.leaf && s.dir == d {
		s.rest += full - have
		s.stretch(d, full)
		return s
	}
	outer := &slab{l: s.l, w: s.w, dir: d, strips: []*slab{s}, rest: full - have}
	outer.stretch(d, full)
	return outer
}

func (s *slab) stretch(d direction, full size) {
	if d == alongX {
		s.l = full
	} else {
		s.w = full
	}
}

// slab deals out the subtree of n, which has a box of l by w.
func (t *tree) slab(n int32, l, w size) *slab {
	v := &t.nodes[n]
	if v.a != none {
		return t.branch(n, l, w)
	}
	s := &slab{l: v.lx, w: v.ly, leaf: true, kind: v.kind, way: v.way}
	return wrap(wrap(s, alongX, l), alongY, w)
}

// branch deals out a branch: its strips are all subtrees that are set beside
// each other, however they are nested.
func (t *tree) branch(n int32, l, w size) *slab {
	v := &t.nodes[n]
	s := &slab{l: l, w: w, dir: v.dir, rest: l}
	if v.dir == alongY {
		s.rest = w
	}
	var gather func(n int32)
	gather = func(n int32) {
		u := &t.nodes[n]
		switch {
		case u.a != none && u.dir == s.dir:
			gather(u.a)
			gather(u.b)
			return
		case s.dir == alongX:
			s.strips = append(s.strips, t.slab(n, u.lx, w))
			s.rest -= u.lx
		default:
			s.strips = append(s.strips, t.slab(n, l, u.ly))
			s.rest -= u.ly
		}
	}
	gather(n)
	return s
}

// depth numbers the stages from the given one and returns the last of them.
func (s *slab) depth(stage int) int {
	if s.leaf {
		return stage - 1
	}
	s.stage = stage
	last := stage
	for _, c := range s.strips {
		last = max(last, c.depth(stage+1))
	}
	return last
}

// largest returns the area of the largest rest.
func (s *slab) largest() int64 {
	if s.leaf {
		return 0
	}
	a := int64(s.rest) * int64(s.l)
	if s.dir == alongX {
		a = int64(s.rest) * int64(s.w)
	}
	for _, c := range s.strips {
		a = max(a, c.largest())
	}
	return a
}
