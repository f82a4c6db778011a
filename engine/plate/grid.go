package plate

import (
	"math"
	"slices"
)

// merge is the distance below which two grid lines become one, mm. A rib no
// thicker than this has one line, its middle.
const merge = 0.5

// grid is the lines of the mesh and which strips lie under ribs.
type grid struct {
	xs, ys []float64
	inner  int // number of lines along which nodes are numbered first
	flip   bool

	spanX, spanY int // intervals between the faces of a rib, more than 1 where ribs overlap
}

// wide is the bay, mm, from which on it gets more elements than asked for.
// Common practice, no source: tried out on bays of 170 mm and 360 mm.
const wide = 200

// mark adds lines at places between lo and hi to sorted ones, but for those that would
// lie too close to one that is there already: what comes first stays where it is.
func mark(to []float64, lo, hi float64, at ...float64) []float64 {
	for _, v := range at {
		v = min(max(v, lo), hi)
		i, _ := slices.BinarySearch(to, v)
		if (i == 0 || v-to[i-1] > merge) && (i == len(to) || to[i]-v > merge) {
			to = slices.Insert(to, i, v)
		}
	}
	return to
}

// lines returns the sorted grid lines of one axis: both edges, both faces of
// every rib, both sides of every seam, other marks, and n-1 more in every bay.
// Where presses is not nil there are more for what presses, see [bay], and where
// bays are few. Edges and ribs come first, so that a rib keeps its width whatever
// lies beside its face, and a mirror changes nothing.
func lines(lo, hi float64, ribs []Rib, seams []float64, n int, presses []stretch, other ...float64) []float64 {
	out := []float64{lo, hi}
	for _, r := range ribs {
		if r.B <= merge {
			out = mark(out, lo, hi, r.At)
			continue
		}
		out = mark(out, lo, hi, r.At-r.B/2, r.At+r.B/2)
	}
	for _, at := range seams {
		out = mark(out, lo, hi, at-SeamWidth/2, at+SeamWidth/2)
	}
	out = mark(out, lo, hi, other...)
	var fine []float64
	for i, m := range out {
		if i > 0 {
			a := out[i-1]
			k := max(n, int(math.Ceil(float64(n)*(m-a)/wide-1e-9)))
			if presses != nil {
				k = max(k, int(math.Ceil(6*(m-a)/(hi-lo)-1e-9))*n/2) // few bays: as many as in three
			}
			if underRib((a+m)/2, ribs) || m-a < 2*SeamWidth {
				k = 1
			}
			if k > 1 {
				fine = append(fine, bay(a, m, k, presses)...)
			}
		}
		fine = append(fine, m)
	}
	return fine
}

// stretch is what a pad or a load covers of one axis.
type stretch struct{ lo, hi float64 }

// What a pad or a load brings into a bay: its edges become lines unless they lie
// closer to another line than this part of an element, and beneath it there are at
// least so many elements, and so much shorter ones than elsewhere; beside it so many.
// Common practice, no source: tried out on pads between ribs and on patches of a third
// to all of a bay, where without it four elements across a bay are up to 12 % from
// twelve and with it 2.5 %.
const (
	tooClose = 0.2
	beneath  = 3
	shorter  = 1.5
	beside   = 2
)

// bay returns the lines between a and b: at the edges of what presses there, and
// others so that no element is much longer than a k-th of the bay.
func bay(a, b float64, k int, presses []stretch) (out []float64) {
	l := (b - a) / float64(k)
	var edges []float64
	for _, p := range presses {
		edges = append(edges, p.lo, p.hi)
	}
	slices.Sort(edges)
	from := a
	for _, e := range append(edges, b) {
		if e != b && (e-from < l*tooClose || b-e < l*tooClose) {
			continue
		}
		n := int(math.Ceil((e-from)/l - tooClose/2))
		if from != a || e != b {
			n = max(n, beside)
		}
		for _, p := range presses {
			if at := (from + e) / 2; (from != a || e != b) && at > p.lo && at < p.hi {
				n = max(n, beneath, int(math.Ceil(shorter*(e-from)/l-tooClose/2)))
			}
		}
		for j := 1; j < n; j++ {
			out = append(out, from+(e-from)*float64(j)/float64(n))
		}
		if e < b {
			out = append(out, e)
		}
		from = e
		if from == b {
			break
		}
	}
	return out
}

// underRib reports whether a place lies within a rib's thickness.
func underRib(at float64, ribs []Rib) bool {
	return slices.ContainsFunc(ribs, func(r Rib) bool { return math.Abs(at-r.At) < r.B/2 })
}

// mostPresses bounds how many pads and loads get lines of their own: a panel with
// very many would take too long.
const mostPresses = 10

// presses returns what pads and loads cover, along x and along y, pads first, or
// nil if the panel asks for no closer lines.
func (p *Panel) presses() (x, y []stretch) {
	if !p.Closer {
		return nil, nil
	}
	x, y = []stretch{}, []stretch{}
	add := func(at *[]stretch, lo, hi, from, to float64) {
		s := stretch{max(lo, from), min(hi, to)}
		if s.hi > s.lo && s != (stretch{from, to}) && len(*at) < mostPresses && !slices.Contains(*at, s) {
			*at = append(*at, s)
		}
	}
	both := func(atX, atY, sx, sy float64) {
		add(&x, atX-sx/2, atX+sx/2, p.X0, p.X1)
		add(&y, atY-sy/2, atY+sy/2, p.Y0, p.Y1)
	}
	for i := range p.Pads {
		a := &p.Pads[i]
		both(a.X, a.Y, a.SX, a.SY)
	}
	for _, l := range p.Loads {
		both(l.X, l.Y, l.SX, l.SY)
	}
	return x, y
}

// mostStored is the most entries of a band that closer lines may make; where they
// would make more, as on large tops of many bays, the panel does without. Four
// million are 32 MB, of which a solution needs a few.
const mostStored = 4_000_000

// newGrid lays the lines of a panel.
func newGrid(p *Panel) grid {
	px, py := p.presses()
	g := gridWith(p, px, py)
	if p.Closer && g.stored() > mostStored {
		g = gridWith(p, nil, nil)
	}
	return g
}

// stored is the number of entries of the band of a panel on the grid.
func (g *grid) stored() int { return g.nodes() * perNode * (g.band() + 1) }

// gridWith lays the lines, more of them where something presses.
func gridWith(p *Panel, px, py []stretch) grid {
	n := max(1, p.Divide)
	var sx, sy []float64
	for _, s := range p.Seams {
		if s.AlongX {
			sy = append(sy, s.At)
		} else {
			sx = append(sx, s.At)
		}
	}
	g := grid{xs: lines(p.X0, p.X1, p.Across, sx, n, px, slices.Concat(p.loose(true), p.bareLines(true), p.Cuts[0], p.grooves(true))...), ys: lines(p.Y0, p.Y1, p.Along, sy, n, py, slices.Concat(p.loose(false), p.bareLines(false), p.Cuts[1], p.grooves(false))...)}
	g.flip = len(g.ys) > len(g.xs)
	g.inner = min(len(g.xs), len(g.ys))
	g.spanX, g.spanY = span(g.xs, p.Across), span(g.ys, p.Along)
	return g
}

// span returns the most intervals between the faces of one rib.
func span(lines []float64, ribs []Rib) int {
	most := 1
	for _, r := range ribs {
		lo, hi := r.faces(lines)
		most = max(most, hi-lo)
	}
	return most
}

// faces returns the lines along both faces of a rib.
func (r Rib) faces(lines []float64) (lo, hi int) {
	return nearest(lines, r.At-r.B/2), nearest(lines, r.At+r.B/2)
}

// node numbers the crossing of line i along x and j along y, counting along
// the shorter side first so that the band stays narrow.
func (g *grid) node(i, j int) int {
	if g.flip {
		return j*g.inner + i
	}
	return i*g.inner + j
}

func (g *grid) nodes() int { return len(g.xs) * len(g.ys) }

// perNode is the number of unknowns of a node; top skin first.
const perNode = 10

// The unknowns of a skin at a node.
const (
	dofU = iota
	dofV
	dofW
	dofBX
	dofBY
	perSkin
)

// band is the number of stored diagonals above the main one: nodes that share
// an element or a rib's segment lie that far apart.
func (g *grid) band() int {
	far := max(g.node(1, max(1, g.spanY)), g.node(max(1, g.spanX), 1))
	return (far+1)*perNode - 1
}

// nearest returns the line closest to v.
func nearest(lines []float64, v float64) int {
	i, _ := slices.BinarySearch(lines, v)
	if i == len(lines) || i > 0 && v-lines[i-1] < lines[i]-v {
		i--
	}
	return i
}

// cell returns the interval that holds v, at the ends the outermost one.
func cell(lines []float64, v float64) int {
	i, _ := slices.BinarySearch(lines, v)
	return min(max(i-1, 0), len(lines)-2)
}
