package plate

import "context"

// Share names a part of a panel's stiffness: what stretches, bends or shears.
type Share uint8

// The shares. Their strain energies add up to that of the whole panel.
const (
	TopMembrane    Share = iota // top skin, in its own plane
	TopBending                  // top skin, bending and shear of its own
	BottomMembrane              // bottom skin likewise
	BottomBending
	AlongDirect  // lengthwise ribs, stretching and bending along themselves
	AlongShear   // lengthwise ribs, shear and slip at their glue lines
	AlongUpright // lengthwise ribs squeezed, bent sideways and twisted
	AcrossDirect
	AcrossShear
	AcrossUpright
	Rims
	Blocks
	Pads
	Beams  // under the panel
	Shares // how many there are

	whole // everything but pads and beams
)

// of tells whether a skin's membrane and bending belong to the share.
func (h Share) of(offset int) (membrane, bending bool) {
	if h == whole {
		return true, true
	}
	if offset == 0 {
		return h == TopMembrane, h == TopBending
	}
	return h == BottomMembrane, h == BottomBending
}

// only returns the web reduced to the share, or false if nothing of it belongs
// there. Shear keeps the twisting out, which goes with the upright share.
func (w Web) only(h Share, along, rim bool) (Web, bool) {
	if h == whole || rim && h == Rims {
		return w, true
	}
	base := AcrossDirect
	if along {
		base = AlongDirect
	}
	if rim || h < base || h > base+2 {
		return w, false
	}
	w.mask = int8(h-base) + 1
	return w, true
}

// energies returns the bilinear strain energy of two fields of displacement by
// share, N·mm: half of aᵀ·K·b; and that of b alone, half of bᵀ·K·b.
func (m *Model) energies(ctx context.Context, a, b []float64, lifted []bool) (e, own [Shares]float64, err error) {
	for h := range Pads {
		m.sys.visit(h, heeding(ctx, func(dofs []int, row func(int) []float64) {
			var va, vb [4 * perNode]float64
			n := len(dofs)
			for i, d := range dofs {
				va[i], vb[i] = a[d], b[d]
			}
			if n == 4*perNode && h != Blocks && h != AlongUpright && h != AcrossUpright {
				// In its own plane a rib follows the mean of its faces: both halves of a
				// row are alike.
				n = 2 * perNode
				for i := range n {
					va[i] += va[i+n]
					vb[i] += vb[i+n]
				}
			}
			for i := range n {
				r := row(i)[:n]
				sum := 0.0
				for j, v := range r {
					sum += v * vb[j]
				}
				e[h] += va[i] * sum / 2
				own[h] += vb[i] * sum / 2
			}
		}))
	}
	m.beams(func(first int, k [4][4]float64) {
		for i := range k {
			for j := range k {
				e[Beams] += a[first+i] * k[i][j] * b[first+j] / 2
				own[Beams] += b[first+i] * k[i][j] * b[first+j] / 2
			}
		}
	})
	for i := range m.springs {
		if sp := &m.springs[i]; !lifted[i] {
			v := sp.value(b)
			e[Pads] += sp.k * sp.value(a) * v / 2
			own[Pads] += sp.k * v * v / 2
		}
	}
	return e, own, ctx.Err()
}
