package section

import "math"

// OrthotropicPlate is a thin plate by its bending stiffnesses per mm, N·mm;
// D12 couples them and D66 is that in twist.
type OrthotropicPlate struct{ D11, D22, D12, D66 float64 }

// Turned returns the plate with its axes exchanged.
func (p OrthotropicPlate) Turned() OrthotropicPlate {
	p.D11, p.D22 = p.D22, p.D11
	return p
}

// Buckling returns the critical membrane force, N/mm, of the plate a × b held
// up along its four sides and pressed along a:
//
//	N = min over m of π²/b²·[D11·(mb/a)² + 2·(D12 + 2·D66) + D22·(a/(mb))²]
//
// An isotropic square has N = 4·π²·D/b². Source: Navier, textbook
// (Timoshenko & Gere; Lekhnitskii), from memory.
func (p OrthotropicPlate) Buckling(a, b float64) float64 {
	best := math.Inf(1)
	for m := 1.0; m <= 40; m++ {
		r := m * b / a
		n := math.Pi * math.Pi / (b * b) * (p.D11*r*r + 2*(p.D12+2*p.D66) + p.D22/(r*r))
		if n > best {
			break
		}
		best = n
	}
	return best
}

// ShearBuckling returns an estimate of the critical shear flow, N/mm, of the
// plate held up along its four sides: (5.34 + 4·(short/long)²)·π²·D/short²,
// with D = (D_l·D_s³)^¼, D_s bending along the short side and D_l along the long one.
// Source: textbook for isotropic plates, the orthotropic mean from memory.
func (p OrthotropicPlate) ShearBuckling(a, b float64) float64 {
	short, long, across, along := b, a, p.D22, p.D11
	if a < b {
		short, long, across, along = a, b, p.D11, p.D22
	}
	d := math.Pow(along*across*across*across, 0.25)
	r := short / long
	return (5.34 + 4*r*r) * math.Pi * math.Pi * d / (short * short)
}
