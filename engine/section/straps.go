package section

import "math"

// Straps is a butt joint in a strip of sheet that lies under one strap, or under
// one on either face, of the same sheet and thickness, glued on.
type Straps struct {
	T     float64 // thickness of the strip and of each strap, mm
	Half  float64 // how far a strap reaches beyond the butt on either side, mm
	Faces int     // 1 or 2
	E     float64 // modulus that carries what passes, MPa: along for a pull, edgewise shear for a shear force
	G     float64 // shear modulus through the thickness, MPa
}

// Give returns the length of plain strip, mm, whose give equals what the joint
// adds to the strip; below 0 the straps stiffen it by more than the butt costs.
//
// Shear lag between strip and straps over the glued length: a strap that shears
// evenly less and less towards its outer face gives T/3G, the strip's half T/6G,
// so that the shear flow per mm of slip and mm of height is k = n/(T/3G + c), with
// c = T/6G under two straps and T/3G under one. With s the straps' share of the
// stiffness beside them and λ² = k·(1/ET + 1/nET), the straps carry
//
//	N/F = s + (1 − s)·cosh λx + B·sinh λx, B = −(s + (1 − s)·cosh λh)/sinh λh
//
// at x from the butt, and the joint opens by their stretch and the slip at their
// end. A single strap also bends, because it lies to one side; the panel's ribs
// are held upright, and that is left out.
//
// It returns NaN unless T, Half, E and G are above 0 and Faces is 1 or 2.
//
// Source: Volkersen's shear lag (1938) with shear linear over the adherends as in
// later work, both from memory; derived here for the butt.
func (s Straps) Give() float64 {
	if !(s.T > 0 && s.Half > 0 && s.E > 0 && s.G > 0) || s.Faces != 1 && s.Faces != 2 {
		return math.NaN()
	}
	n := float64(s.Faces)
	strip := s.T / (3 * s.G)
	if s.Faces == 2 {
		strip /= 2
	}
	k := n / (s.T/(3*s.G) + strip)
	own, straps := s.E*s.T, n*s.E*s.T
	share := straps / (own + straps)
	lambda := math.Sqrt(k * (1/own + 1/straps))
	h := lambda * s.Half
	// In e^−h, so that a long strap does not overflow.
	e := math.Exp(-h)
	coth, csch := (1+e*e)/(1-e*e), 2*e/(1-e*e)
	// ∫N/F and −dN/dx/F at the end, with B put in.
	stretch := share*s.Half + ((1-share)*(coth-csch)-share*(coth-csch))/lambda
	slip := lambda * (share*coth + (1-share)*csch)
	return 2 * (own*(stretch/straps+slip/k) - s.Half)
}
