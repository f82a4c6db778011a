package contour

import (
	"cmp"
	"math"
	"slices"
)

// Bands returns the polygons of every band between levels: first what lies
// below the lowest, then level by level what lies at or above it and below the
// next, last what lies at or above the highest; one more than there are levels.
// The levels are put in order first. Together the bands cover the grid once.
func (g Grid) Bands(levels []float64) [][]Polygon {
	if !g.Valid() {
		return nil
	}
	bounds := append(slices.Sorted(slices.Values(levels)), math.Inf(1))
	bands := make([][]Polygon, len(bounds))
	low := math.Inf(-1)
	for i, high := range bounds {
		bands[i] = g.region(low, high)
		low = high
	}
	return bands
}

// Above returns the polygons of all that lies at or above the level.
func (g Grid) Above(level float64) []Polygon {
	if !g.Valid() {
		return nil
	}
	return g.region(level, math.Inf(1))
}

// Lines returns the contour lines of a level.
func (g Grid) Lines(level float64) []Polyline {
	if !g.Valid() {
		return nil
	}
	t := newTracer(g, level, math.Inf(1))
	t.chords(lowBound)
	return t.lines()
}

// bound says which end of the values of a region a crossing belongs to.
type bound int

const (
	lowBound bound = iota
	highBound
)

// vertex names a point of an outline: a point of the grid, or the place on an
// edge between two of them where a bound is crossed. Names are compared, not
// places, so that outlines close whatever the rounding.
type vertex struct {
	edge  edge
	node  int // of the grid, or the lower or left end of the edge
	bound bound
}

type edge uint8

const (
	noEdge edge = iota // the point itself
	alongX
	alongY
)

// tracer collects the outline of the values from low to below high as directed
// pieces, the region on their left, and joins them.
type tracer struct {
	g     Grid
	level [2]float64
	next  map[vertex]vertex
	from  []vertex // keys of next in the order they came, so that results are always the same
}

func newTracer(g Grid, low, high float64) *tracer {
	return &tracer{g: g, level: [2]float64{low, high}, next: map[vertex]vertex{}}
}

func (t *tracer) piece(from, to vertex) {
	t.next[from] = to
	t.from = append(t.from, from)
}

// offCorner is how far a crossing keeps from the corners, in sides of a cell.
// So outlines never touch each other at a corner that lies exactly at a level,
// and a hole is always inside of something.
const offCorner = 1e-12

// point returns the place of v.
func (t *tracer) point(v vertex) Point {
	a := t.g.node(v.node)
	if v.edge == noEdge {
		return a
	}
	other := v.node + 1
	if v.edge == alongY {
		other = v.node + t.g.NX
	}
	b := t.g.node(other)
	va, vb, level := t.g.Values[v.node], t.g.Values[other], t.level[v.bound]
	if math.IsInf(vb-va, 0) {
		va, vb, level = va/2, vb/2, level/2
	}
	share := min(max((level-va)/(vb-va), offCorner), 1-offCorner)
	if v.edge == alongX {
		return Point{a.X + (b.X-a.X)*share, a.Y}
	}
	return Point{a.X, a.Y + (b.Y-a.Y)*share}
}

// chords adds the contour lines of one bound, cell by cell, with the values
// above it on the left, and those of the high bound turned around.
func (t *tracer) chords(b bound) {
	nx, level := t.g.NX, t.level[b]
	add := func(from, to vertex) {
		if b == highBound {
			from, to = to, from
		}
		t.piece(from, to)
	}
	if math.IsInf(level, 0) {
		return
	}
	for j := range t.g.NY - 1 {
		for i := range nx - 1 {
			n := j*nx + i
			corners := [4]int{n, n + 1, n + 1 + nx, n + nx} // anticlockwise
			var above [4]bool
			count := 0
			for k, c := range corners {
				if above[k] = !(t.g.Values[c] < level); above[k] {
					count++
				}
			}
			if count == 0 || count == 4 {
				continue
			}
			edges := [4]vertex{ // each from one corner to the next
				{alongX, n, b}, {alongY, n + 1, b}, {alongX, n + nx, b}, {alongY, n, b},
			}
			to := t.partner(corners, above, level)
			for k := range 4 {
				if above[k] && !above[(k+1)%4] {
					add(edges[k], edges[(k+to)%4])
				}
			}
		}
	}
}

// partner returns how many edges further round a cell the line leads that
// comes in where the way around goes below the level.
func (t *tracer) partner(corners [4]int, above [4]bool, level float64) int {
	if above[0] == above[2] && above[1] == above[3] {
		// A saddle. Joined high corners: the line goes around each low one, to
		// the edge after. Else around each high one, to the edge before.
		mean := 0.0
		for _, c := range corners {
			mean += t.g.Values[c] / 4
		}
		if mean >= level {
			return 1
		}
		return 3
	}
	to := 1
	for k := range 4 {
		if above[k] && !above[(k+1)%4] {
			for !above[(k+to+1)%4] {
				to++
			}
		}
	}
	return to
}

// border adds the pieces of the grid's own edge that lie in the region.
func (t *tracer) border() {
	nx, ny := t.g.NX, t.g.NY
	for i := range nx - 1 {
		t.along(i, i+1, alongX)
	}
	for j := range ny - 1 {
		t.along(j*nx+nx-1, (j+1)*nx+nx-1, alongY)
	}
	for i := nx - 1; i > 0; i-- {
		t.along((ny-1)*nx+i, (ny-1)*nx+i-1, alongX)
	}
	for j := ny - 1; j > 0; j-- {
		t.along(j*nx, (j-1)*nx, alongY)
	}
}

// along adds what lies in the region of the edge from node a to its neighbour
// b.
func (t *tracer) along(a, b int, e edge) {
	var above, cross [2]bool
	for k, level := range t.level {
		above[k] = !(t.g.Values[a] < level)
		cross[k] = above[k] == (t.g.Values[b] < level)
	}
	order := [2]bound{lowBound, highBound}
	if t.g.Values[a] > t.g.Values[b] {
		order = [2]bound{highBound, lowBound}
	}
	last := vertex{node: a}
	step := func(to vertex) {
		if above[lowBound] && !above[highBound] {
			t.piece(last, to)
		}
		last = to
	}
	for _, k := range order {
		if cross[k] {
			step(vertex{e, min(a, b), k})
			above[k] = !above[k]
		}
	}
	step(vertex{node: b})
}

// lines joins the pieces to lines: first those that begin at the grid's edge,
// then the closed ones.
func (t *tracer) lines() []Polyline {
	reached := map[vertex]bool{}
	for _, to := range t.next {
		reached[to] = true
	}
	var out []Polyline
	done := map[vertex]bool{}
	follow := func(start vertex, closed bool) {
		var points []Point
		for v := start; !done[v]; {
			done[v] = true
			points = append(points, t.point(v))
			to, ok := t.next[v]
			if !ok {
				break
			}
			v = to
		}
		if points = distinct(points, closed); len(points) > 1 {
			out = append(out, Polyline{points, closed})
		}
	}
	for _, v := range t.from {
		if !reached[v] {
			follow(v, false)
		}
	}
	for _, v := range t.from {
		if !done[v] {
			follow(v, true)
		}
	}
	return out
}

// distinct returns points without those that repeat the one before.
func distinct(points []Point, closed bool) []Point {
	points = slices.Compact(points)
	for closed && len(points) > 1 && points[0] == points[len(points)-1] {
		points = points[:len(points)-1]
	}
	return points
}

// region returns the polygons of the values from low to below high.
func (g Grid) region(low, high float64) []Polygon {
	t := newTracer(g, low, high)
	t.chords(lowBound)
	t.chords(highBound)
	t.border()
	// Around a single corner at the level the outline holds next to nothing.
	cells := float64(g.NX-1) * float64(g.NY-1)
	nothing := 1e-12 * (g.X1 - g.X0) * (g.Y1 - g.Y0) / cells
	var outer, holes []Polygon
	for _, l := range t.lines() {
		switch p := Polygon(l.Points); {
		case p.Area() > nothing:
			outer = append(outer, p)
		case p.Area() < -nothing:
			holes = append(holes, p)
		}
	}
	return withHoles(outer, holes)
}

// withHoles cuts every hole into the polygon around it. From the leftmost point
// of a hole a cut runs to the left until it meets an outline. Holes further to
// the left come first, so that the outline met is that of a polygon or of a
// hole that is part of one already, never a hole still to come.
func withHoles(outer, holes []Polygon) []Polygon {
	for k, h := range holes {
		first := 0
		for i, p := range h {
			if p.X < h[first].X {
				first = i
			}
		}
		holes[k] = slices.Concat(h[first:], h[:first])
	}
	slices.SortStableFunc(holes, func(a, b Polygon) int { return cmp.Compare(a[0].X, b[0].X) })
	for _, h := range holes {
		tip := h[0]
		in, after, nearest := -1, 0, math.Inf(-1)
		for k, p := range outer {
			for i, b := range p {
				a := p[(i+len(p)-1)%len(p)]
				if (a.Y > tip.Y) == (b.Y > tip.Y) {
					continue
				}
				if x := a.X + (b.X-a.X)*(tip.Y-a.Y)/(b.Y-a.Y); x <= tip.X && x > nearest {
					in, after, nearest = k, i, x
				}
			}
		}
		if in < 0 {
			continue // a hole without a polygon around it: its area is lost in rounding
		}
		door := Point{nearest, tip.Y}
		p := outer[in]
		outer[in] = slices.Concat(p[:after], Polygon{door}, h, Polygon{tip, door}, p[after:])
	}
	return outer
}

// Simplify returns the line with as few of its points as keep within tolerance
// of all that are left out (the method of Ramer, Douglas and Peucker, from
// memory). The ends of an open line stay. A closed line with no extent beyond
// the tolerance comes back as it is.
func (l Polyline) Simplify(tolerance float64) Polyline {
	n := len(l.Points)
	if n < 3 {
		return l
	}
	points := l.Points
	if l.Closed { // open it at its first point
		points = append(slices.Clone(points), points[0])
	}
	keep := make([]bool, len(points))
	keep[0], keep[len(points)-1] = true, true
	var split func(a, b int)
	split = func(a, b int) {
		far, most := 0, tolerance
		for i := a + 1; i < b; i++ {
			if d := fromSegment(points[i], points[a], points[b]); d > most {
				far, most = i, d
			}
		}
		if far > 0 {
			keep[far] = true
			split(a, far)
			split(far, b)
		}
	}
	split(0, len(points)-1)
	var out []Point
	for i, p := range points[:n] {
		if keep[i] {
			out = append(out, p)
		}
	}
	if l.Closed && len(out) < 3 {
		return l
	}
	return Polyline{out, l.Closed}
}

// fromSegment returns how far p is from the segment from a to b.
func fromSegment(p, a, b Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = min(max(((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l, 0), 1)
	}
	return math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy)
}
