package plate

import "math"

// Hole is a round hole straight down through either skin or both, and through a
// block that lies there.
type Hole struct {
	X, Y, D     float64
	Top, Bottom bool
}

// Groove is a channel in the outer face of a skin. Within the rectangle Left of the
// skin's thickness is there, next to the core.
type Groove struct {
	Top                  bool
	X0, X1, Y0, Y1, Left float64
}

// cut is what holes and grooves leave of a skin in one cell of the mesh.
type cut struct {
	left float64 // thickness, 0 is the whole
	gone float64 // share of the area that is hole
}

// mostGone keeps a cell that lies within a hole from coming to nothing.
const mostGone = 0.98

// cuts returns what holes and grooves leave of both skins, and of blocks, cell by
// cell; nil where there are none. A hole counts as a square of its own area. In a cell
// its share makes the sheet softer, see [Layer.pierced], by just so much that it
// does not matter over how much of the skin a hole is spread.
func (p *Panel) cuts(g *grid) (skins [2][]cut, blocks []float64) {
	cells := (len(g.xs) - 1) * (len(g.ys) - 1)
	if len(p.Grooves) > 0 || len(p.Holes) > 0 {
		skins = [2][]cut{make([]cut, cells), make([]cut, cells)}
		blocks = make([]float64, cells)
	}
	for _, v := range p.Grooves {
		skin := skins[1]
		if v.Top {
			skin = skins[0]
		}
		g.meets(v.X0, v.X1, v.Y0, v.Y1, func(c int, share float64) {
			if share > 0.5 && (skin[c].left == 0 || v.Left < skin[c].left) { // the mesh has lines at its edges
				skin[c].left = v.Left
			}
		})
	}
	for _, h := range p.Holes {
		half := h.D * math.Sqrt(math.Pi) / 4
		g.meets(h.X-half, h.X+half, h.Y-half, h.Y+half, func(c int, share float64) {
			for i, through := range [...]bool{h.Top, h.Bottom} {
				if through {
					skins[i][c].gone = min(mostGone, skins[i][c].gone+share)
				}
			}
			blocks[c] = min(mostGone, blocks[c]+share)
		})
	}
	return skins, blocks
}

// meets calls f for every cell that a rectangle covers, with the share of the cell.
func (g *grid) meets(x0, x1, y0, y1 float64, f func(c int, share float64)) {
	ny := len(g.ys) - 1
	for i := cell(g.xs, x0); i < len(g.xs)-1 && g.xs[i] < x1; i++ {
		for j := cell(g.ys, y0); j < ny && g.ys[j] < y1; j++ {
			a, b := g.xs[i+1]-g.xs[i], g.ys[j+1]-g.ys[j]
			if share := overlap(g.xs[i], g.xs[i+1], x0, x1) / a * overlap(g.ys[j], g.ys[j+1], y0, y1) / b; share > 0 {
				f(i*ny+j, share)
			}
		}
	}
}

// grooves returns the lines that grooves leave on the axis x, or on the axis y.
func (p *Panel) grooves(x bool) []float64 {
	var out []float64
	for _, g := range p.Grooves {
		if x {
			out = append(out, g.X0, g.X1)
		} else {
			out = append(out, g.Y0, g.Y1)
		}
	}
	return out
}

// cut returns the layer as a groove and holes leave it in a cell. A groove leaves a
// sheet that is even through its thickness: which plies it takes is not known.
func (l Layer) cut(c cut) Layer {
	if c.left > 0 {
		l.T = c.left
	}
	return l.pierced(c.gone)
}

// pierced returns the layer with round holes in a share of its area, smeared:
//
//	1/E_x → (1 + q·(1 + n_x))/E_x,  n_x² = 2·(√(E_x/E_y) − ν_xy) + E_x/G
//	1/E_y → the same, turned,       ν_xy/E_x → ν_xy/E_x + q/√(E_x·E_y)
//	1/G   → 1/G + q·n_x·(1 + √(E_x/E_y) + n_x)/E_x,   q = share/(1 − share)
//
// 1 + n_x is the stress at the edge of a hole in a sheet pulled along x (Lekhnitskii,
// Anisotropic Plates, from memory). The edge of a hole moves linearly with its place, so
// that this stress gives the strain of the hole, and with it what few holes add (derived);
// in an even sheet that is the known 3·share. q in place of the share is Mori and Tanaka's
// mean field for more of them: there it is E·(1 − share)/(1 + 2·share), the upper bound of
// Hashin and Shtrikman for a plane with holes (1963), all from memory. Bending takes the same, which errs
// on the soft side: at a hole in a thin plate that is bent the stress is 1.8 times, not 3.
// Holes in rows and columns shear up to a fifth more than the 1/G told here, at 5 % of the area.
// Shear through the thickness takes (1 − share)/(1 + share), Maxwell's for a plane. All is
// left at a share of 0 and nothing at 1.
func (l Layer) pierced(share float64) Layer {
	if !(share > 0) {
		return l
	}
	q := share / (1 - share)
	at := func(ex, ey float64) (x, y, nu, g float64) {
		k := math.Sqrt(ex / ey)
		n := math.Sqrt(math.Max(0, 2*(k-l.Nu)+ex/l.G))
		x = ex / (1 + q*(1+n))
		return x, ey / (1 + q*(1+n/k)), (l.Nu + q*k) * x / ex, 1 / (1/l.G + q*n*(1+k+n)/ex)
	}
	out := l
	out.EBendX, out.EBendY, _, _ = at(l.EBendX, l.EBendY)
	out.Ex, out.Ey, out.Nu, out.G = at(l.Ex, l.Ey)
	out.GRoll *= (1 - share) / (1 + share)
	return out
}

// pierced returns a block with holes straight down in a share of its area.
func (f Fill) pierced(share float64) Fill {
	if !(share > 0) {
		return f
	}
	l := Layer{T: 1, Ex: f.Ex, Ey: f.Ey, EBendX: f.Ex, EBendY: f.Ey, G: f.G, GRoll: f.Gz}.pierced(share)
	return Fill{f.X0, f.X1, f.Y0, f.Y1, l.Ex, l.Ey, f.EUp * (1 - share), l.G, l.GRoll}
}

// middleAt is how far the middle of what a groove leaves lies above the middle of the whole
// skin, mm.
func (c cut) middleAt(top bool, t float64) float64 {
	switch {
	case c.left == 0:
		return 0
	case top:
		return (c.left - t) / 2
	}
	return (t - c.left) / 2
}

// flat returns the rows of a rectangle's stiffness in its plane: over u, v of its corners,
// and where a groove leaves the middle aside from the plane of the nodes over u, v, βx, βy.
func (p *plateStiffness) flat(a, b float64, c cut, top bool, t float64) func(int) []float64 {
	k := p.membrane(a, b)
	if c.left > 0 {
		k := aside(k, c.middleAt(top, t))
		return func(r int) []float64 { return k[r][:] }
	}
	return func(r int) []float64 { return k[r][:] }
}

// aside returns the stiffness of a rectangle in its plane, e above the plane of the nodes,
// per corner u, v, βx, βy: there the displacement is u + e·βx.
func aside(k [8][8]float64, e float64) (out [16][16]float64) {
	for i := range 8 {
		for j := range 8 {
			r, c := i/2*4+i%2, j/2*4+j%2
			out[r][c] = k[i][j]
			out[r+2][c] = e * k[i][j]
			out[r][c+2] = e * k[i][j]
			out[r+2][c+2] = e * e * k[i][j]
		}
	}
	return out
}
