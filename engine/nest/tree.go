package nest

// A layout of one sheet is a slicing tree. A leaf is a part; a branch sets two
// subtrees side by side (alongX) or one above the other (alongY). Each subtree
// needs at least the box lx by ly; what the sheet has beyond that is not dealt
// out but known from above as ax by ay: how large the subtree's box could
// become with everything else left as small as it can be. So a part can be set
// beside any subtree wherever
//
//	lx + its length ≤ ax  and  its width ≤ ay
//
// and every layout that edge-to-edge cuts can produce is such a tree.
type direction int8

const (
	alongX direction = iota // side by side: the cut between runs across
	alongY                  // one above the other
)

// none is the index of no node.
const none int32 = -1

type node struct {
	parent, a, b int32 // a is none in a leaf
	lx, ly       size
	ax, ay       size
	kind         int32 // of a leaf
	way          uint8 // of a leaf
	dir          direction
}

// tree is the layout of one sheet.
type tree struct {
	store  int // index of its sheet in problem.stores
	l, w   size
	root   int32
	nodes  []node // all in use, in no order
	filled int64  // area of its parts
	stack  []int32
}

func newTree(p *problem, t int) *tree {
	return &tree{store: t, l: p.stores[t].l, w: p.stores[t].w, root: none}
}

// copyFrom makes t equal to u.
func (t *tree) copyFrom(u *tree) {
	nodes := append(t.nodes[:0], u.nodes...)
	stack := t.stack
	*t = *u
	t.nodes, t.stack = nodes, stack
}

// place is a place where a part fits.
type place struct {
	at  int32 // the node it is set beside; none on an empty sheet
	dir direction
	way uint8
	lx  size
	ly  size
}

// insert puts a part of a kind at a place.
func (t *tree) insert(p *problem, k int32, at place) {
	t.filled += p.kinds[k].area
	leaf := node{parent: none, a: none, b: none, lx: at.lx, ly: at.ly, kind: k, way: at.way}
	if at.at == none {
		t.root = 0
		t.nodes = append(t.nodes[:0], leaf)
		t.offer()
		return
	}
	l, b := int32(len(t.nodes)), int32(len(t.nodes)+1)
	up := t.nodes[at.at].parent
	leaf.parent = b
	t.nodes = append(t.nodes, leaf, node{parent: up, a: at.at, b: l, dir: at.dir})
	t.nodes[at.at].parent = b
	t.hang(up, at.at, b)
	t.need(b)
	t.offer()
}

// hang makes now the child of up where before was.
func (t *tree) hang(up, before, now int32) {
	switch {
	case up == none:
		t.root = now
	case t.nodes[up].a == before:
		t.nodes[up].a = now
	default:
		t.nodes[up].b = now
	}
}

// need computes lx and ly of branch n and all above it.
func (t *tree) need(n int32) {
	for ; n != none; n = t.nodes[n].parent {
		v := &t.nodes[n]
		a, b := &t.nodes[v.a], &t.nodes[v.b]
		if v.dir == alongX {
			v.lx, v.ly = a.lx+b.lx, max(a.ly, b.ly)
		} else {
			v.lx, v.ly = max(a.lx, b.lx), a.ly+b.ly
		}
	}
}

// offer computes ax and ay of all nodes.
func (t *tree) offer() {
	if t.root == none {
		return
	}
	r := &t.nodes[t.root]
	r.ax, r.ay = t.l, t.w
	t.stack = append(t.stack[:0], t.root)
	for len(t.stack) > 0 {
		v := &t.nodes[t.stack[len(t.stack)-1]]
		t.stack = t.stack[:len(t.stack)-1]
		if v.a == none {
			continue
		}
		a, b := &t.nodes[v.a], &t.nodes[v.b]
		if v.dir == alongX {
			spare := v.ax - v.lx
			a.ax, b.ax = a.lx+spare, b.lx+spare
			a.ay, b.ay = v.ay, v.ay
		} else {
			spare := v.ay - v.ly
			a.ay, b.ay = a.ly+spare, b.ly+spare
			a.ax, b.ax = v.ax, v.ax
		}
		t.stack = append(t.stack, v.a, v.b)
	}
}

// remove takes the subtree of n out and appends the kinds of its parts to out.
func (t *tree) remove(p *problem, n int32, out []int32) []int32 {
	up := t.nodes[n].parent
	if up == none {
		out = t.collect(p, n, out)
		t.root, t.nodes, t.filled = none, t.nodes[:0], 0
		return out
	}
	other := t.nodes[up].a
	if other == n {
		other = t.nodes[up].b
	}
	top := t.nodes[up].parent
	t.nodes[other].parent = top
	t.hang(top, up, other)
	t.need(top)
	before := len(out)
	out = t.collect(p, n, out)
	for _, k := range out[before:] {
		t.filled -= p.kinds[k].area
	}
	t.dead(up)
	t.sweep()
	t.offer()
	return out
}

// collect appends the kinds of the parts below n and marks its nodes as dead.
func (t *tree) collect(p *problem, n int32, out []int32) []int32 {
	t.stack = append(t.stack[:0], n)
	for len(t.stack) > 0 {
		i := t.stack[len(t.stack)-1]
		t.stack = t.stack[:len(t.stack)-1]
		v := &t.nodes[i]
		if v.a == none {
			out = append(out, v.kind)
		} else {
			t.stack = append(t.stack, v.b, v.a)
		}
		t.dead(i)
	}
	return out
}

// dead marks a node as not in use until the next sweep.
func (t *tree) dead(n int32) { t.nodes[n].lx = -1 }

// sweep closes the gaps that dead nodes leave.
func (t *tree) sweep() {
	last := int32(len(t.nodes)) - 1
	for i := int32(0); i <= last; i++ {
		if t.nodes[i].lx >= 0 {
			continue
		}
		for last > i && t.nodes[last].lx < 0 {
			last--
		}
		if last == i {
			last--
			break
		}
		t.move(last, i)
		last--
	}
	t.nodes = t.nodes[:last+1]
}

// move gives a node another index.
func (t *tree) move(from, to int32) {
	v := t.nodes[from]
	t.nodes[to] = v
	t.hang(v.parent, from, to)
	if v.a != none {
		t.nodes[v.a].parent = to
		t.nodes[v.b].parent = to
	}
}

// stagesNeeded returns how many stages of cuts the layout takes, by the best
// way to deal out what the sheet has beyond the box.
func (t *tree) stagesNeeded() int {
	if t.root == none {
		return 0
	}
	r := &t.nodes[t.root]
	if r.a == none {
		return loose(r.lx, t.l) + loose(r.ly, t.w)
	}
	cross, box := t.w, r.ly
	if r.dir == alongY {
		cross, box = t.l, r.lx
	}
	whole := t.below(t.root, cross)
	if box < cross {
		return min(whole, 1+t.below(t.root, box))
	}
	return whole
}

func loose(part, box size) int {
	if part < box {
		return 1
	}
	return 0
}

// below returns the stages that cutting branch n takes if its box measures
// cross across its direction.
func (t *tree) below(n int32, cross size) int {
	return 1 + t.deepest(n, t.nodes[n].dir, cross)
}

// deepest returns the most stages that a strip of the branches of direction
// dir at n takes.
func (t *tree) deepest(n int32, dir direction, cross size) int {
	v := &t.nodes[n]
	if v.a == none {
		if dir == alongX {
			return loose(v.ly, cross)
		}
		return loose(v.lx, cross)
	}
	if v.dir == dir {
		return max(t.deepest(v.a, dir, cross), t.deepest(v.b, dir, cross))
	}
	if v.dir == alongX {
		return t.below(n, v.ly)
	}
	return t.below(n, v.lx)
}
