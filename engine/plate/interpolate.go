package plate

// spot is the value of w of one skin at a point as a sum over unknowns.
type spot struct {
	dofs [12]int
	n    [12]float64
}

// spotAt returns w at (x, y) of the skin with that offset: the twelve-term
// cubic of a rectangle over the corner values of w and of its slopes. The
// slopes are γ − β, γ the element's own shear strain along each side, so that
// w is on every side the very curve that the element bends along. Source:
// Adini–Clough–Melosh, textbook.
func (s *system) spotAt(x, y float64, offset int) spot {
	i, j := cell(s.g.xs, x), cell(s.g.ys, y)
	ex, ey := &s.edges[offset/perSkin][0][i], &s.edges[offset/perSkin][1][j]
	a, b := ex.l, ey.l
	xi, eta := 2*(x-s.g.xs[i])/a-1, 2*(y-s.g.ys[j])/b-1
	var p spot
	var slopeX, slopeY [4]float64 // what w takes from a slope at each corner
	for c, n := range s.corners(i, j) {
		xc, yc := cornerXi[c], cornerEta[c]
		px, py := 1+xc*xi, 1+yc*eta
		at := n*perNode + offset
		p.dofs[3*c], p.dofs[3*c+1], p.dofs[3*c+2] = at+dofW, at+dofBX, at+dofBY
		slopeX[c] = a / 2 * xc * px * px * (xc*xi - 1) * py / 8
		slopeY[c] = b / 2 * yc * py * py * (yc*eta - 1) * px / 8
		p.n[3*c] = px * py * (2 + xc*xi + yc*eta - xi*xi - eta*eta) / 8
		p.n[3*c+1] = -slopeX[c]
		p.n[3*c+2] = -slopeY[c]
	}
	for _, e := range [4]struct {
		i, j, rot int
		shear     *[4]float64
		slope     *[4]float64
	}{{0, 1, 1, &ex.shear, &slopeX}, {3, 2, 1, &ex.shear, &slopeX}, {0, 3, 2, &ey.shear, &slopeY}, {1, 2, 2, &ey.shear, &slopeY}} {
		g := e.shear
		f := e.slope[e.i] + e.slope[e.j]
		p.n[3*e.i] += f * g[0]
		p.n[3*e.i+e.rot] += f * g[1]
		p.n[3*e.j] += f * g[2]
		p.n[3*e.j+e.rot] += f * g[3]
	}
	return p
}

func (p *spot) value(u []float64) float64 {
	sum := 0.0
	for i, d := range p.dofs {
		sum += p.n[i] * u[d]
	}
	return sum
}

// integrate calls f at Gauss points over the part of the rectangle (centre x,
// y, size sx, sy) that lies on the panel, cell by cell, with the area that
// each point stands for: 3 × 3 points a cell, exact for a load on the cubic w.
func (s *system) integrate(x, y, sx, sy float64, f func(x, y, area float64)) {
	x0, x1, y0, y1 := x-sx/2, x+sx/2, y-sy/2, y+sy/2
	for i := range len(s.g.xs) - 1 {
		ax0, ax1 := max(x0, s.g.xs[i]), min(x1, s.g.xs[i+1])
		if ax1 <= ax0 {
			continue
		}
		for j := range len(s.g.ys) - 1 {
			ay0, ay1 := max(y0, s.g.ys[j]), min(y1, s.g.ys[j+1])
			if ay1 <= ay0 {
				continue
			}
			for _, gx := range gauss3 {
				for _, gy := range gauss3 {
					f(ax0+(ax1-ax0)*(1+gx.x)/2, ay0+(ay1-ay0)*(1+gy.x)/2, (ax1-ax0)*(ay1-ay0)*gx.w*gy.w/4)
				}
			}
		}
	}
}

// tiny is the least side of a footprint, mm: below it a load is a point or a
// line.
const tiny = 0.01

// footprint returns the load with a footprint that has an area.
func (l Press) footprint() Press {
	l.SX, l.SY = max(l.SX, tiny), max(l.SY, tiny)
	return l
}

// covered returns the area of a footprint that lies on the skins, mm².
func (s *system) covered(l Press) float64 {
	return overlap(l.X-l.SX/2, l.X+l.SX/2, s.p.X0, s.p.X1) * overlap(l.Y-l.SY/2, l.Y+l.SY/2, s.p.Y0, s.p.Y1)
}

// centre returns the middle of that area.
func (s *system) centre(l Press) (x, y float64) {
	middle := func(at, size, lo, hi float64) float64 { return (max(at-size/2, lo) + min(at+size/2, hi)) / 2 }
	return middle(l.X, l.SX, s.p.X0, s.p.X1), middle(l.Y, l.SY, s.p.Y0, s.p.Y1)
}
