package plate

// fill adds a solid block: in-plane strain linear between the glue faces,
// upright strain, and shear both ways, over every cell it covers. Cells it
// covers in part count in part.
func (s *system) fill(f Fill, add element) {
	for i := range len(s.g.xs) - 1 {
		for j := range len(s.g.ys) - 1 {
			x0, x1, y0, y1 := s.g.xs[i], s.g.xs[i+1], s.g.ys[j], s.g.ys[j+1]
			cover := overlap(x0, x1, f.X0, f.X1) * overlap(y0, y1, f.Y0, f.Y1) / ((x1 - x0) * (y1 - y0))
			if cover < 1e-6 {
				continue
			}
			part := f
			if s.bored != nil {
				part = f.pierced(s.bored[i*(len(s.g.ys)-1)+j])
			}
			k := part.matrix(x1-x0, y1-y0, s.p.Height, s.p.Top.T, s.p.Bottom.T, cover)
			var dofs [4 * perNode]int
			for c, n := range s.corners(i, j) {
				for d := range perNode {
					dofs[c*perNode+d] = n*perNode + d
				}
			}
			add(dofs[:], rowsOf(k, len(dofs)))
		}
	}
}

func overlap(a0, a1, b0, b1 float64) float64 {
	return max(0, min(a1, b1)-max(a0, b0))
}

// matrix is the 40 × 40 stiffness of a filled cell a × b, by 2 × 2 Gauss
// points in plan, with shear taken at the cell's middle so that it does not
// lock.
func (f Fill) matrix(a, b, h, tTop, tBottom, cover float64) []float64 {
	const n = 4 * perNode
	k := make([]float64, n*n)
	energy := func(r1, r2 []float64, c float64) {
		for i := range n {
			if r1[i] == 0 {
				continue
			}
			v := c * r1[i]
			for j := range n {
				k[i*n+j] += v * r2[j]
			}
		}
	}
	// linear over the height: t and b fields
	through := func(t, bo []float64, c float64) {
		energy(t, t, c/3)
		energy(bo, bo, c/3)
		energy(t, bo, c/6)
		energy(bo, t, c/6)
	}
	at := func(xi, eta, w float64, shear bool) {
		var ext, exb, eyt, eyb, gt, gb, ez, xzt, xzb, yzt, yzb [n]float64
		for c := range 4 {
			sh := (1 + cornerXi[c]*xi) * (1 + cornerEta[c]*eta) / 4
			nx := cornerXi[c] * (1 + cornerEta[c]*eta) / 4 * 2 / a
			ny := cornerEta[c] * (1 + cornerXi[c]*xi) / 4 * 2 / b
			o := c * perNode
			top := func(d int) int { return o + d }
			bot := func(d int) int { return o + perSkin + d }
			ext[top(dofU)], ext[top(dofBX)] = nx, -tTop/2*nx
			exb[bot(dofU)], exb[bot(dofBX)] = nx, tBottom/2*nx
			eyt[top(dofV)], eyt[top(dofBY)] = ny, -tTop/2*ny
			eyb[bot(dofV)], eyb[bot(dofBY)] = ny, tBottom/2*ny
			gt[top(dofU)], gt[top(dofBX)], gt[top(dofV)], gt[top(dofBY)] = ny, -tTop/2*ny, nx, -tTop/2*nx
			gb[bot(dofU)], gb[bot(dofBX)], gb[bot(dofV)], gb[bot(dofBY)] = ny, tBottom/2*ny, nx, tBottom/2*nx
			ez[top(dofW)], ez[bot(dofW)] = sh/h, -sh/h
			for _, x := range [2]*[n]float64{&xzt, &xzb} {
				x[top(dofU)], x[top(dofBX)] = sh/h, -tTop/2*sh/h
				x[bot(dofU)], x[bot(dofBX)] = -sh/h, -tBottom/2*sh/h
			}
			for _, y := range [2]*[n]float64{&yzt, &yzb} {
				y[top(dofV)], y[top(dofBY)] = sh/h, -tTop/2*sh/h
				y[bot(dofV)], y[bot(dofBY)] = -sh/h, -tBottom/2*sh/h
			}
			xzt[top(dofW)], xzb[bot(dofW)] = nx, nx
			yzt[top(dofW)], yzb[bot(dofW)] = ny, ny
		}
		v := a * b * h * w * cover
		if shear {
			through(xzt[:], xzb[:], f.Gz*v)
			through(yzt[:], yzb[:], f.Gz*v)
			return
		}
		through(ext[:], exb[:], f.Ex*v)
		through(eyt[:], eyb[:], f.Ey*v)
		through(gt[:], gb[:], f.G*v)
		energy(ez[:], ez[:], f.EUp*v)
	}
	for _, xi := range [2]float64{-gauss2, gauss2} {
		for _, eta := range [2]float64{-gauss2, gauss2} {
			at(xi, eta, 0.25, false)
		}
	}
	at(0, 0, 1, true)
	return k
}
