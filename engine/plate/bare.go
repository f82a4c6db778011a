package plate

import "math"

// Bare is a rectangle of one skin that is not there, or not wholly: of what pulls and
// shears in the skin's plane Share is left. The strip bends on as if something were
// laid in that nothing holds: that takes next to nothing of the top's stiffness, and
// what stands there is carried.
type Bare struct {
	Top            bool // of the top skin, else of the bottom one
	X0, X1, Y0, Y1 float64
	Share          float64 // of the skin's stiffness in its plane that is left, 0 to 1
}

// bareShare is what is left at least, so that every node is held.
const bareShare = 1e-6

// bareLines are the marks that bare rectangles leave along x, or along y.
func (p *Panel) bareLines(along bool) []float64 {
	var out []float64
	for _, b := range p.Bare {
		if along {
			out = append(out, b.X0, b.X1)
		} else {
			out = append(out, b.Y0, b.Y1)
		}
	}
	return out
}

// covered is what is left of a skin in its plane at a place: 1 where it is whole.
func (p *Panel) covered(top bool, x, y float64) float64 {
	share := 1.0
	for _, b := range p.Bare {
		if b.Top == top && x > b.X0 && x < b.X1 && y > b.Y0 && y < b.Y1 {
			share = math.Min(share, math.Max(bareShare, b.Share))
		}
	}
	return share
}

// bare returns a skin's stiffness with a share of what it has in its plane.
func (p plateStiffness) bare(share float64) plateStiffness {
	p.a11, p.a12, p.a22, p.a66 = p.a11*share, p.a12*share, p.a22*share, p.a66*share
	return p
}
