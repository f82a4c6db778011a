// Package verify checks the whole-panel model against three-dimensional solid
// finite elements that we did not write: it writes a deck of 8-node bricks with
// incompatible modes for the general-purpose solver CalculiX, runs it, and
// compares sag, reactions and stresses.
package verify

import (
	"math"
	"slices"

	"flatwright/engine"
	"flatwright/engine/plate"
)

// Mesh says how fine the solids are. Stresses peak where two parts meet at an
// inner corner, and solids settle slowly there, so elements in the bays are short
// at the ribs and grow away from them: the length at a distance r mm is
//
//	min(Most, Corner·t + Grow·r) / Fine
//
// with t the thinner skin's thickness, and longer by 1/Core over the core's
// height. Through skins and ribs the elements are alike. Each takes the shear there as
// even, though it is a parabola: n of them leave 1/n² of what it does out. The
// thinner a skin the less that is, so a row is Row mm high, but there are 4 to 8.
type Mesh struct {
	Fine   float64 // elements on a stretch, as a multiple of what the others give
	Corner float64 // element at a corner, as a share of the thinner skin
	Grow   float64 // how much longer for every mm away from the nearest corner
	Most   float64 // mm
	Core   float64 // elements over the core's height, as a multiple of what the others give
	Row    float64 // mm, at Fine = 1
	Rib    float64 // elements through a rib, at Fine = 1
	Keep   []Spot  // places that get a node
}

// Spot is a place in plan.
type Spot struct{ X, Y float64 }

// solid is the brick model of a case: slots are real gaps without width, the
// two ribs of a lap share no node unless the laps are glued, both share those
// of the skins. An edge band shares the nodes of the skins' edges and touches
// the ribs nowhere, and so does a block with those of the skins' faces. Both sides of
// a seam have nodes of their own.
type solid struct {
	c          Case
	d          engine.Design
	pads       []plate.Pad
	blocks     []plate.Fill
	xs, ys, zs []float64
	endX, endY float64 // how far the bricks go: to the edge, or to a plane of symmetry
	low, high  int     // z lines of the bottom skin's upper and the top skin's lower face
	mid        int
	ribX       []int // for each y cell the lengthwise rib in it, or -1
	ribY       []int // for each x cell the crosswise rib in it, or -1
	ids        map[nodeKey]int
	nodes      []nodeKey
	bricks     []brick
	feet       []foot
}

// nodeKey is a place on the grid lines and whose node it is there.
type nodeKey struct {
	i, j, k int
	body    uint8
}

// Whose a node is.
const (
	shared uint8 = iota
	lengthwise
	crosswise
	band
	block
	beyond // the far side of a seam
)

// brick is one element with its cell, counted from 0.
type brick struct {
	nodes   [8]int
	set     int
	i, j, k int
}

// The sets of elements, each of one material and orientation.
const (
	bottomSet = iota
	topSet
	lengthwiseSet
	crosswiseSet
	bandSet      // front and back
	shortBandSet // left and right
	blockSet
	sets
)

// foot is a spring under the bottom face.
type foot struct {
	node, pad int
	k         float64 // N/mm
}

// newSolid lays the grid lines; build fills them.
func newSolid(c Case, m Mesh) *solid {
	d := c.Design
	p := c.panel(1)
	s := &solid{c: c, d: d, ids: map[nodeKey]int{}, pads: p.Pads, blocks: p.Fills}
	s.endX, s.endY = c.ends()
	ys, xs := d.RibPlaces()
	var mx, my, seamsX, seamsY []float64
	for _, v := range c.Seams {
		if v.AlongX {
			seamsY = append(seamsY, v.At)
		} else {
			seamsX = append(seamsX, v.At)
		}
	}
	for _, b := range c.bays() {
		mx = append(mx, b.X-c.probe()/2, b.X+c.probe()/2)
		my = append(my, b.Y-c.probe()/2, b.Y+c.probe()/2)
	}
	for _, k := range m.Keep {
		mx, my = append(mx, k.X), append(my, k.Y)
	}
	for _, p := range s.pads {
		mx = append(mx, p.X-p.SX/2, p.X+p.SX/2)
		my = append(my, p.Y-p.SY/2, p.Y+p.SY/2)
	}
	for _, l := range d.Cases[0].Loads {
		if l.Kind != engine.Uniform {
			at := d.Spread(l)
			mx = append(mx, at.X-at.SizeX/2, at.X, at.X+at.SizeX/2)
			my = append(my, at.Y-at.SizeY/2, at.Y, at.Y+at.SizeY/2)
		}
	}
	m.Corner *= math.Min(d.TopSkin.Thickness, d.BottomSkin.Thickness)
	s.xs = m.lines(s.endX, append(corners(d.Length, d.EdgeBand.Thickness, xs, d.Crosswise.Thickness), seamsX...), mx, xs, d.Crosswise.Thickness)
	s.ys = m.lines(s.endY, append(corners(d.Width, d.EdgeBand.Thickness, ys, d.Lengthwise.Thickness), seamsY...), my, ys, d.Lengthwise.Thickness)
	tb, h, tt := d.BottomSkin.Thickness, d.CoreDepth, d.TopSkin.Thickness
	s.zs = m.heights(tb, h, tt)
	s.low, s.high, s.mid = nearest(s.zs, tb), nearest(s.zs, tb+h), nearest(s.zs, tb+h/2)
	s.ribX = inRib(s.ys, ys, d.Lengthwise.Thickness)
	s.ribY = inRib(s.xs, xs, d.Crosswise.Thickness)
	return s
}

// corners returns where the grid lines of one axis are densest: both faces of
// the ribs (thickness b) and the inner faces of the edge bands (thickness tb).
func corners(extent, tb float64, ribs []float64, b float64) []float64 {
	var out []float64
	if tb > 0 {
		out = append(out, tb, extent-tb)
	}
	for _, r := range ribs {
		out = append(out, r-b/2, r+b/2)
	}
	return out
}

// lines returns the grid lines of one axis: at the ends, at every corner and
// every mark, and as many between them as the mesh asks for, in ribs (thickness b)
// and beside them.
func (m Mesh) lines(extent float64, corners, marks, ribs []float64, b float64) []float64 {
	marks = slices.Concat(marks, corners, []float64{extent})
	slices.Sort(marks)
	out := []float64{0}
	for _, v := range marks {
		last := out[len(out)-1]
		if v-last < 0.01 || v > extent+0.01 {
			continue
		}
		if slices.ContainsFunc(ribs, func(r float64) bool { return math.Abs((v+last)/2-r) < b/2 }) {
			out = append(out, round(last, v, m.Rib*m.Fine*(v-last)/b)...)
		} else {
			out = append(out, m.split(last, v, 1, corners)...)
		}
	}
	return out
}

// round returns about n grid lines after a up to b, densest at both: as the places
// of equal steps on a half circle.
func round(a, b, n float64) []float64 {
	out := make([]float64, max(1, int(math.Round(n))))
	for i := range out {
		out[i] = a + (b-a)*(1-math.Cos(math.Pi*float64(i+1)/float64(len(out))))/2
	}
	return out
}

// heights returns the grid lines from the lower face of the bottom skin (tb
// thick) to the upper face of the top skin (tt), h of core between them: densest
// there at the glue lines and at half of the height, where slots end. A skin has two
// rows or more: stresses are read in its outer ones.
func (m Mesh) heights(tb, h, tt float64) []float64 {
	dense, core := []float64{tb, tb + h/2, tb + h}, m
	rows := func(t float64) float64 { return math.Max(2, m.Fine*math.Min(8, math.Max(4, t/m.Row))) }
	core.Fine *= m.Core
	return slices.Concat([]float64{0}, round(0, tb, rows(tb)), core.split(tb, tb+h/2, 2, dense), core.split(tb+h/2, tb+h, 2, dense), round(tb+h, tb+h+tt, rows(tt)))
}

// split returns the grid lines after a up to b: places at which the number of
// elements, the integral of one over their length, is whole and not under least.
func (m Mesh) split(a, b, least float64, corners []float64) []float64 {
	const steps = 500
	var sum [steps + 1]float64
	dx := (b - a) / steps
	for i := range steps {
		x, r := a+(float64(i)+0.5)*dx, math.Inf(1)
		for _, c := range corners {
			r = math.Min(r, math.Abs(x-c))
		}
		sum[i+1] = sum[i] + dx*m.Fine/math.Min(m.Most, m.Corner+m.Grow*r)
	}
	n := math.Max(least, math.Ceil(sum[steps]-0.2)) // a fifth of an element is not worth another
	var out []float64
	i := 0
	for k := 1.0; k < n; k++ {
		at := k / n * sum[steps]
		for sum[i+1] < at {
			i++
		}
		out = append(out, a+dx*(float64(i)+(at-sum[i])/(sum[i+1]-sum[i])))
	}
	return append(out, b)
}

func inRib(lines, ribs []float64, b float64) []int {
	out := make([]int, len(lines)-1)
	for i := range out {
		out[i] = -1
		at := (lines[i] + lines[i+1]) / 2
		for r, v := range ribs {
			if math.Abs(at-v) < b/2 {
				out[i] = r
			}
		}
	}
	return out
}

// node numbers a node, counting from 1.
func (s *solid) node(i, j, k int, body uint8) int {
	key := nodeKey{i, j, k, body}
	id, ok := s.ids[key]
	if !ok {
		s.nodes = append(s.nodes, key)
		id = len(s.nodes)
		s.ids[key] = id
	}
	return id
}

// bodyOf returns the rib that fills a cell of the core, or shared for none. In
// a lap the lower half is the lengthwise rib's if its slots open upwards.
func (s *solid) bodyOf(i, j, k int) uint8 {
	along, across := s.ribX[j] >= 0, s.ribY[i] >= 0
	switch {
	case along && across:
		if (k < s.mid) != s.d.Slots.LengthwiseDown {
			return lengthwise
		}
		return crosswise
	case along:
		return lengthwise
	case across:
		return crosswise
	}
	return shared
}

// fills returns the set and the body of a cell, or false for an empty one.
func (s *solid) fills(i, j, k int) (set int, body uint8, ok bool) {
	tb := s.d.EdgeBand.Thickness
	edge := func(lines []float64, i int, extent float64) bool {
		at := (lines[i] + lines[i+1]) / 2
		return at < tb || at > extent-tb
	}
	switch {
	case edge(s.ys, j, s.d.Width):
		return bandSet, band, true
	case edge(s.xs, i, s.d.Length):
		return shortBandSet, band, true
	case k < s.low:
		return bottomSet, shared, true
	case k >= s.high:
		return topSet, shared, true
	}
	if body = s.bodyOf(i, j, k); body != shared {
		return lengthwiseSet + int(body-lengthwise), body, true
	}
	for _, b := range s.blocks {
		if x, y := (s.xs[i]+s.xs[i+1])/2, (s.ys[j]+s.ys[j+1])/2; x > b.X0 && x < b.X1 && y > b.Y0 && y < b.Y1 {
			return blockSet, block, true
		}
	}
	return 0, shared, false
}

// build makes the bricks and the springs.
func (s *solid) build() {
	for i := range len(s.xs) - 1 {
		for j := range len(s.ys) - 1 {
			for k := range len(s.zs) - 1 {
				set, body, ok := s.fills(i, j, k)
				if !ok {
					continue
				}
				b := brick{set: set, i: i, j: j, k: k}
				for c, at := range [8][3]int{{0, 0, 0}, {1, 0, 0}, {1, 1, 0}, {0, 1, 0}, {0, 0, 1}, {1, 0, 1}, {1, 1, 1}, {0, 1, 1}} {
					b.nodes[c] = s.corner(&b, body, i+at[0], j+at[1], k+at[2])
				}
				s.bricks = append(s.bricks, b)
			}
		}
	}
	for n, p := range s.pads {
		for i := range s.xs {
			for j := range s.ys {
				k := p.K * tributary(s.xs, i, p.X-p.SX/2, p.X+p.SX/2) * tributary(s.ys, j, p.Y-p.SY/2, p.Y+p.SY/2)
				if k > 0 {
					s.feet = append(s.feet, foot{s.node(i, j, 0, shared), n, k})
				}
			}
		}
	}
}

// corner returns the node of a brick at grid lines i, j, k.
func (s *solid) corner(b *brick, body uint8, i, j, k int) int {
	if k > s.low && k < s.high {
		if s.c.Glued && body != band && body != block {
			body = shared
		}
		return s.node(i, j, k, body)
	}
	if b.set <= topSet && s.pastSeam(b, i, j, k) {
		return s.node(i, j, k, beyond)
	}
	return s.node(i, j, k, shared)
}

// pastSeam tells whether a brick of a skin has a node on a seam and lies
// beyond it. A rib that crosses the seam holds both sides at its glue line.
func (s *solid) pastSeam(b *brick, i, j, k int) bool {
	top := b.set == topSet
	glued := func(i0, j0 int) bool {
		row := s.low
		if top {
			row = s.high - 1
		}
		inside := i0 >= 0 && j0 >= 0 && i0 < len(s.ribY) && j0 < len(s.ribX)
		return inside && (k == s.low || k == s.high) && s.bodyOf(i0, j0, row) != shared
	}
	for _, v := range s.c.Seams {
		switch {
		case v.Top != top:
		case v.AlongX && math.Abs(s.ys[j]-v.At) < 0.01 && b.j == j:
			return !glued(i-1, j) && !glued(i, j)
		case !v.AlongX && math.Abs(s.xs[i]-v.At) < 0.01 && b.i == i:
			return !glued(i, j-1) && !glued(i, j)
		}
	}
	return false
}

func nearest(lines []float64, v float64) int {
	best := 0
	for i, l := range lines {
		if math.Abs(l-v) < math.Abs(lines[best]-v) {
			best = i
		}
	}
	return best
}

// tributary returns the length that a node stands for within lo..hi.
func tributary(lines []float64, i int, lo, hi float64) float64 {
	sum := 0.0
	clip := func(a, b float64) float64 { return max(0, min(b, hi)-max(a, lo)) }
	if i > 0 {
		sum += clip(lines[i-1], lines[i]) / 2
	}
	if i < len(lines)-1 {
		sum += clip(lines[i], lines[i+1]) / 2
	}
	return sum
}

// press returns the nodal forces down of a load: its pressure on the upper face, or
// for a couple, which a block hands to both skins, half of its uneven pressure on
// the upper face of either.
func (s *solid) press(l engine.Load) map[int]float64 {
	at := s.d.Spread(l)
	x0, x1, y0, y1 := at.X-at.SizeX/2, at.X+at.SizeX/2, at.Y-at.SizeY/2, at.Y+at.SizeY/2
	p := s.d.Press(l)
	out := map[int]float64{}
	add := func(k int, f float64, i, j int) {
		if f != 0 {
			out[s.node(i, j, k, shared)] += f
		}
	}
	a, b := x1-x0, y1-y0
	q, last := p.P/(a*b), len(s.zs)-1
	for i := range s.xs {
		for j := range s.ys {
			x, y := tributary(s.xs, i, x0, x1), tributary(s.ys, j, y0, y1)
			if x == 0 || y == 0 {
				continue
			}
			add(last, q*x*y, i, j)
			half := p.TX*6/(a*a*a*b)*moment(s.xs, i, x0, x1)*y + p.TY*6/(b*b*b*a)*moment(s.ys, j, y0, y1)*x
			add(last, half, i, j)
			add(s.low, half, i, j)
		}
	}
	return out
}

// moment returns what a node takes of the distances from the middle of lo..hi, by the
// shapes that are 1 at it and 0 at its neighbours; both ends are grid lines.
func moment(lines []float64, i int, lo, hi float64) (sum float64) {
	mid := (lo + hi) / 2
	for _, n := range [2]int{i - 1, i + 1} {
		if n < 0 || n >= len(lines) {
			continue
		}
		if at := (lines[i] + lines[n]) / 2; at > lo && at < hi {
			sum += math.Abs(lines[n]-lines[i]) * ((lines[i]-mid)/3 + (lines[n]-mid)/6)
		}
	}
	return sum
}

// estimate counts the nodes of a mesh without building it.
func estimate(c Case, m Mesh) int {
	s := newSolid(c, m)
	inner := s.high - s.low - 1
	n := len(s.xs) * len(s.ys) * (len(s.zs) - inner)
	count := func(cells []int, other []float64) {
		for i, r := range cells {
			if r < 0 {
				continue
			}
			n += len(other) * inner
			if i == 0 || cells[i-1] != r {
				n += len(other) * inner
			}
		}
	}
	count(s.ribX, s.xs)
	count(s.ribY, s.ys)
	return n
}
