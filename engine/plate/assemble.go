package plate

import (
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/mat"
)

// system is the assembled stiffness of a panel without its pads.
type system struct {
	p *Panel
	g grid
	k *mat.SymBandDense
	// raw upper band, row i holds k[i][i..i+band] and room as in a factor
	data   []float64
	stride int
	skins  [2]plateStiffness // top and bottom, away from ribs
	edges  [2][2][]edge      // of the cells, by skin, along x and along y
	cuts   [2][]cut          // of the cells, by skin; nil where nothing is cut
	bored  []float64         // of a block in every cell, the share that is hole; nil likewise

	kept packed // the same once the band is given away to a factor
}

// edge is one side of the cells in a row of the mesh: its length in a bay and the
// shear strain along it.
type edge struct {
	l     float64
	shear [4]float64
}

// lay fills in the edges.
func (s *system) lay() {
	for skin := range s.skins {
		for i, cuts := range [2][]float64{s.g.xs, s.g.ys} {
			s.edges[skin][i] = make([]edge, len(cuts)-1)
			for c := range s.edges[skin][i] {
				l := cuts[c+1] - cuts[c]
				x, y := s.skins[skin].sides(l, l)
				s.edges[skin][i][c] = edge{l, [2]side{x, y}[i].shear()}
			}
		}
	}
}

// assemble returns something unfinished once ctx is done; the caller looks.
func assemble(ctx context.Context, p *Panel) *system {
	s := assembleOn(ctx, p, newGrid(p))
	s.hold()
	return s
}

// assembleOn assembles a panel on given grid lines, free to move.
func assembleOn(ctx context.Context, p *Panel, g grid) *system {
	n := g.nodes() * perNode
	s := bare(p, g)
	s.k = &mat.SymBandDense{}
	band := min(n-1, g.band())
	s.data, s.stride = make([]float64, n*(band+group)), band+group
	s.k.SetRawSymBand(blas64.SymmetricBand{N: n, K: band, Stride: s.stride, Data: s.data, Uplo: blas.Upper})
	s.visit(whole, heeding(ctx, s.scatter))
	return s
}

// bare is a panel on given grid lines with nothing assembled.
func bare(p *Panel, g grid) *system {
	s := &system{p: p, g: g, skins: [2]plateStiffness{p.Top.stiffness(), p.Bottom.stiffness()}}
	s.lay()
	s.cuts, s.bored = p.cuts(&s.g)
	return s
}

// scatter is the element that adds to the stiffness.
func (s *system) scatter(dofs []int, row func(int) []float64) {
	for i, di := range dofs {
		r := row(i)
		for j := 0; j <= i; j++ {
			s.add(di, dofs[j], r[j])
		}
	}
}

// element receives one element matrix: its unknowns, all different, and its
// rows.
type element func(dofs []int, row func(int) []float64)

// heeding returns f, but nothing more reaches it once ctx is done: what is left
// of a visit is then over at once.
func heeding(ctx context.Context, f element) element {
	const every = 64 // elements between two looks
	n, done := 0, false
	return func(dofs []int, row func(int) []float64) {
		if n%every == 0 {
			done = ctx.Err() != nil
		}
		if n++; !done {
			f(dofs, row)
		}
	}
}

// visit hands every element of the panel to f, reduced to the named share of
// its stiffness.
func (s *system) visit(share Share, f element) {
	s.skin(s.p.Top, 0, share, f)
	s.skin(s.p.Bottom, perSkin, share, f)
	s.ribs(share, f)
	s.rims(share, f)
	s.bridges(share, f)
	if share == whole || share == Blocks {
		for _, b := range s.p.Fills {
			s.fill(b, f)
		}
	}
}

// add adds v to k[i][j] and k[j][i]; the caller offers each pair once.
func (s *system) add(i, j int, v float64) {
	if i > j {
		i, j = j, i
	}
	s.data[i*s.stride+j-i] += v
}

// corners are the nodes of the rectangle in cell (i, j), in the order of the
// elements.
func (s *system) corners(i, j int) [4]int {
	return [4]int{s.g.node(i, j), s.g.node(i+1, j), s.g.node(i+1, j+1), s.g.node(i, j+1)}
}

// shape keys the element matrices: most of a panel is the same few rectangles.
type shape struct {
	a, b         float64
	overX, overY float64 // how much stiffer over a rib along x, along y
	seamX, seamY bool    // a seam along x, along y
	cut          cut
	covered      float64 // what is left in its plane
}

// local returns a skin's stiffness over ribs that make it so many times as stiff
// in bending across themselves; 0 is no rib. It shears there as it does beside
// them: only its lower face is glued.
func (p plateStiffness) local(overX, overY float64) plateStiffness {
	if overX > 0 {
		p.d22 *= overX
	}
	if overY > 0 {
		p.d11 *= overY
	}
	return p
}

// over returns how much stiffer the top or the bottom skin is at a place across
// ribs, 0 in a bay.
func over(at float64, ribs []Rib, skin int) float64 {
	for i := range ribs {
		if r := &ribs[i]; math.Abs(at-r.At) < r.B/2 {
			if k := r.Joints[skin].Stiff; k > 0 {
				return k
			}
			return 1
		}
	}
	return 0
}

// seamShare is what a seam's strip keeps of its stiffness: so little that a
// millimetre of it is soft against any skin.
const seamShare = 1e-7

// open returns a skin's stiffness in the strip of a seam along x or along y:
// nothing pulls or bends across it, shear through the thickness passes.
func (p plateStiffness) open(seamX, seamY bool) plateStiffness {
	if seamX {
		p.a22 *= seamShare
		p.d22 *= seamShare
	}
	if seamY {
		p.a11 *= seamShare
		p.d11 *= seamShare
	}
	if seamX || seamY {
		p.a12, p.a66 = p.a12*seamShare, p.a66*seamShare
		p.d12, p.d66 = p.d12*seamShare, p.d66*seamShare
	}
	return p
}

// seam reports whether a place lies in the strip of a seam of one skin.
func (p *Panel) seam(top, alongX bool, at float64) bool {
	return slices.ContainsFunc(p.Seams, func(s Seam) bool {
		return s.Top == top && s.AlongX == alongX && math.Abs(at-s.At) < SeamWidth/2
	})
}

func (s *system) skin(l Layer, offset int, share Share, f element) {
	membrane, bending := share.of(offset)
	if !membrane && !bending {
		return
	}
	base, top := l.stiffness(), offset == 0
	type pair struct{ membrane, bending func(int) []float64 } // only what the share asks for
	known := map[shape]*pair{}
	columns := strips(s.g.xs, s.p.Across, offset/perSkin, func(at float64) bool { return s.p.seam(offset == 0, false, at) })
	rows := strips(s.g.ys, s.p.Along, offset/perSkin, func(at float64) bool { return s.p.seam(offset == 0, true, at) })
	var dm [16]int
	var db [12]int
	for i, x := range columns {
		for j, y := range rows {
			key := shape{x.size, y.size, y.over, x.over, y.seam, x.seam, s.cutAt(top, i, j), s.p.covered(top, x.at, y.at)}
			e := known[key]
			if e == nil {
				st := base
				if key.cut != (cut{}) {
					st = l.cut(key.cut).stiffness()
				}
				st = st.local(key.overX, key.overY).open(key.seamX, key.seamY).bare(key.covered)
				e = &pair{}
				if membrane {
					e.membrane = st.flat(key.a, key.b, key.cut, top, l.T)
				}
				if bending {
					k := st.bending(key.a, key.b)
					e.bending = func(r int) []float64 { return k[r][:] }
				}
				known[key] = e
			}
			for c, n := range s.corners(i, j) {
				at := n*perNode + offset
				if key.cut.left > 0 {
					dm[4*c], dm[4*c+1], dm[4*c+2], dm[4*c+3] = at+dofU, at+dofV, at+dofBX, at+dofBY
				} else {
					dm[2*c], dm[2*c+1] = at+dofU, at+dofV
				}
				db[3*c], db[3*c+1], db[3*c+2] = at+dofW, at+dofBX, at+dofBY
			}
			if membrane && key.cut.left > 0 {
				f(dm[:], e.membrane)
			} else if membrane {
				f(dm[:8], e.membrane)
			}
			if bending {
				f(db[:], e.bending)
			}
		}
	}
}

// cutAt is what holes and grooves leave of a skin in cell (i, j).
func (s *system) cutAt(top bool, i, j int) cut {
	of := s.cuts[1]
	if top {
		of = s.cuts[0]
	}
	if of == nil {
		return cut{}
	}
	return of[i*(len(s.g.ys)-1)+j]
}

// strip is what cells between two grid lines have in common.
type strip struct {
	at, size, over float64
	seam           bool
}

// strips lists those between grid lines for the top or the bottom skin: ribs run
// along them, and seam tells where one does.
func strips(cuts []float64, ribs []Rib, skin int, seam func(at float64) bool) []strip {
	out := make([]strip, len(cuts)-1)
	for i := range out {
		at := (cuts[i] + cuts[i+1]) / 2
		out[i] = strip{at, round(cuts[i+1] - cuts[i]), over(at, ribs, skin), seam(at)}
	}
	return out
}

// round takes the noise of adding off a length so that equal cells share their
// matrices.
func round(v float64) float64 { return float64(int64(v*1e6+0.5)) / 1e6 }

// ribs adds every segment of every rib.
func (s *system) ribs(share Share, f element) {
	known := map[segmentKey]func(int) []float64{}
	for i, r := range s.p.Along {
		lo, hi := r.faces(s.g.ys)
		s.line(r.Web, true, lo, hi, i, share, known, f)
	}
	for i, r := range s.p.Across {
		lo, hi := r.faces(s.g.xs)
		s.line(r.Web, false, lo, hi, i, share, known, f)
	}
}

// rims adds edge bands: a web on the edge line that is as high as the panel.
// It is taken between the skins' middle planes, which it holds directly.
func (s *system) rims(share Share, f element) {
	known := map[segmentKey]func(int) []float64{}
	for _, r := range s.p.Rims {
		last := len(s.g.xs) - 1
		along := r.Side == Front || r.Side == Back
		if along {
			last = len(s.g.ys) - 1
		}
		at := 0
		if r.Side == Right || r.Side == Back {
			at = last
		}
		s.line(r.Web, along, at, at, noRib, share, known, f)
	}
}

// noRib is the number of a web that is a rim.
const noRib = -1

// segmentKey names the matrix of a rib's segment: most of a panel's are the same
// few.
type segmentKey struct {
	w     Web
	along bool
	apart float64 // its faces, 0 if they are one line
	l     float64
}

// line adds the web of a rib, by its number, along grid lines lo and hi, its
// faces. A rim's holds the skins' middle planes, a rib's is glued to their
// faces.
func (s *system) line(w Web, along bool, lo, hi, rib int, share Share, known map[segmentKey]func(int) []float64, f element) {
	direct := 0.0
	if rib == noRib {
		direct = 1
	}
	w, ok := w.only(share, along, direct == 1)
	if !ok {
		return
	}
	cuts, faceLines := s.g.xs, s.g.ys
	if !along {
		cuts, faceLines = faceLines, cuts
	}
	apart := round(faceLines[hi] - faceLines[lo])
	tTop, tBottom := s.p.Top.T*(1-direct), s.p.Bottom.T*(1-direct)
	if direct == 1 {
		w.Height = s.p.Height + (s.p.Top.T+s.p.Bottom.T)/2
	}
	var dofs [4 * perNode]int
	pick := func(skin int, l float64) side {
		x, y := s.skins[skin].sides(l, l)
		if along {
			return x
		}
		return y
	}
	for c := range len(cuts) - 1 {
		l := round(cuts[c+1] - cuts[c])
		w := s.p.glued(w, along, rib, cuts[c], cuts[c+1])
		key := segmentKey{w, along, apart, l}
		rows := known[key]
		if rows == nil {
			k := w.segment(pick(0, l), pick(1, l), tTop, tBottom, apart)
			if lo == hi {
				k = fold(k)
			}
			rows = rowsOf(k, 2*perNode*segmentFaces(lo, hi))
			known[key] = rows
		}
		m := 0
		faces := [2]int{lo, hi}
		for face := range segmentFaces(lo, hi) {
			for e := range 2 {
				n := s.g.node(c+e, faces[face])
				if !along {
					n = s.g.node(faces[face], c+e)
				}
				for d := range perNode {
					dofs[m] = n*perNode + turned(d, along)
					m++
				}
			}
		}
		f(dofs[:m], rows)
	}
}

func segmentFaces(lo, hi int) int {
	if lo == hi {
		return 1
	}
	return 2
}

// turned maps an unknown named along the rib to the one of the panel: for a
// rib along y its own direction is y.
func turned(d int, along bool) int {
	if along {
		return d
	}
	skin, k := d/perSkin*perSkin, d%perSkin
	switch k {
	case dofU:
		k = dofV
	case dofV:
		k = dofU
	case dofBX:
		k = dofBY
	case dofBY:
		k = dofBX
	}
	return skin + k
}

// rowsOf reads the rows of an n × n matrix.
func rowsOf(k []float64, n int) func(int) []float64 {
	return func(r int) []float64 { return k[r*n : (r+1)*n] }
}

// segment returns the 40 × 40 stiffness of a rib segment over the ten unknowns
// of (face lo, end i), (lo, j), (hi, i), (hi, j), named along the rib. The edges of
// the strip on edge turn as the skin's lower face does that is glued to them, by
// w of both faces, which are apart; the skin's own section turns by more, as
// it shears over the rib too. Faces on one line turn with the section.
func (w Web) segment(top, bottom side, tTop, tBottom, apart float64) []float64 {
	const n = 4 * perNode
	k := make([]float64, n*n)
	// In the plane of the web: the mean of both faces.
	plane := w.matrix(top, bottom, tTop, tBottom)
	var rows [12][n]float64
	for skin := range 2 {
		for end := range 2 {
			for q, d := range [3]int{dofU, dofW, dofBX} {
				r := skin*6 + end*3 + q
				for face := range 2 {
					rows[r][face*2*perNode+end*perNode+skin*perSkin+d] = 0.5
				}
			}
		}
	}
	spread(k, n, rows[:], func(i, j int) float64 { return plane[i][j] })
	if !w.keeps(3) {
		return k
	}
	// Across: the strip on edge, linear along the segment.
	up := w.upright()
	var edge [8][n]float64 // end i then j: V_b, β_b, V_t, β_t
	for end := range 2 {
		for face := range 2 {
			at := face*2*perNode + end*perNode
			edge[4*end][at+perSkin+dofV], edge[4*end][at+perSkin+dofBY] = 0.5, 0.5*tBottom/2
			edge[4*end+2][at+dofV], edge[4*end+2][at+dofBY] = 0.5, -0.5*tTop/2
			turn, by := dofBY, 0.5
			if apart > 0 {
				turn, by = dofW, float64(1-2*face)/apart
			}
			edge[4*end+1][at+perSkin+turn] = by
			edge[4*end+3][at+turn] = by
		}
	}
	l := top.l
	spread(k, n, edge[:], func(i, j int) float64 {
		mass := l / 6
		if i/4 == j/4 {
			mass = l / 3
		}
		v := up[i%4][j%4] * mass
		if i%4 == j%4 && i%2 == 1 { // turn of one edge: half of the twisting stiffness each
			t := w.twist() / 2 / l
			if i/4 != j/4 {
				t = -t
			}
			v += t
		}
		return v
	})
	return k
}

// spread adds RᵀkR for the rows R.
func spread[R ~[40]float64](k []float64, n int, rows []R, at func(i, j int) float64) {
	where := make([][]int, len(rows)) // of what is not 0
	for i := range rows {
		for a := range n {
			if rows[i][a] != 0 {
				where[i] = append(where[i], a)
			}
		}
	}
	for i := range rows {
		for j := range rows {
			v := at(i, j)
			if v == 0 {
				continue
			}
			for _, a := range where[i] {
				f := v * rows[i][a]
				for _, b := range where[j] {
					k[a*n+b] += f * rows[j][b]
				}
			}
		}
	}
}

// fold turns a segment with two faces into one whose faces are the same line.
func fold(k []float64) []float64 {
	const n, m = 4 * perNode, 2 * perNode
	out := make([]float64, m*m)
	for i := range n {
		for j := range n {
			out[i%m*m+j%m] += k[i*n+j]
		}
	}
	return out
}

// hold takes away the three rigid motions in the plane, which no pad resists:
// one corner of the bottom skin is held along x and y and the next one along
// y. Nothing pulls there, so the springs' stiffness does not matter.
func (s *system) hold() {
	const stiff = 1e3
	first := s.g.node(0, 0)*perNode + perSkin
	far := s.g.node(len(s.g.xs)-1, 0)*perNode + perSkin
	s.add(first+dofU, first+dofU, stiff)
	s.add(first+dofV, first+dofV, stiff)
	s.add(far+dofV, far+dofV, stiff)
}
