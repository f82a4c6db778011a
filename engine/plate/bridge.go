package plate

// bridges adds what ribs carry across the seams over them: between both sides of
// the seam's strip, linear along it. It counts as the skin's stretching.
func (s *system) bridges(share Share, f element) {
	for _, v := range s.p.Seams {
		offset, part, over := perSkin, BottomMembrane, v.Over
		if v.Top {
			offset, part = 0, TopMembrane
		} else {
			over.Both = -over.Both // the rib is above
		}
		if over == (Bridge{}) || share != whole && share != part {
			continue
		}
		across, along := s.g.xs, s.g.ys
		if v.AlongX {
			across, along = along, across
		}
		lo, hi := nearest(across, v.At-SeamWidth/2), nearest(across, v.At+SeamWidth/2)
		if lo == hi {
			continue
		}
		for c := range len(along) - 1 {
			l := along[c+1] - along[c]
			var dofs [8]int // for both ends: u and β of both sides
			for e := range 2 {
				for side, line := range [2]int{lo, hi} {
					n := s.g.node(line, c+e)
					u, b := dofU, dofBX
					if v.AlongX {
						n, u, b = s.g.node(c+e, line), dofV, dofBY
					}
					dofs[4*e+side], dofs[4*e+2+side] = n*perNode+offset+u, n*perNode+offset+b
				}
			}
			k := over.matrix(l)
			f(dofs[:], func(r int) []float64 { return k[r][:] })
		}
	}
}

// matrix returns the stiffness of a stretch of seam of length l over (u, u', β, β')
// at both ends, u' and β' of the far side.
func (b Bridge) matrix(l float64) (k [8][8]float64) {
	c := [2][2]float64{{b.Pull, b.Both}, {b.Both, b.Moment}}
	sign := [2]float64{-1, 1}
	for i := range 8 {
		for j := range 8 {
			mass := l / 6
			if i/4 == j/4 {
				mass = l / 3
			}
			k[i][j] = mass * c[i%4/2][j%4/2] * sign[i%2] * sign[j%2]
		}
	}
	return k
}
