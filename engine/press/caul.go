package press

import "math"

// Caul is a bearer across the panel that carries the pull of two clamps at its
// ends into the middle.
type Caul struct {
	Length float64 // between the two clamps, mm
	Width  float64 // of the face that presses, mm
	Height float64 // mm
	E      float64 // modulus along it, MPa
	Ratio  float64 // E over its shear modulus; 16 for softwood
}

// Camber returns by how much, mm, the face of a caul is planed away towards its
// ends so that it lies flat when both ends are drawn down with force N each: then
// it presses with the same force on every mm of length. It is the sag of a beam
// on two supports under the even load q = 2·force/Length, bending and shear:
//
//	5·q·L⁴/384·EI + 1.2·q·L²/8·GA
//
// Source: the beam formula (coefficient 5/384; 1.2 is the shear factor of a
// rectangle), textbook. It supposes that what is pressed is flat and far stiffer
// than the caul.
func (c Caul) Camber(force float64) float64 { return c.Curve(force, c.Length/2) }

// Curve returns how much is planed away at x mm from one end less than at the
// ends themselves, mm: the shape of the curve, highest in the middle. x is 0 to Length.
func (c Caul) Curve(force, x float64) float64 {
	q, l := 2*force/c.Length, c.Length
	ei := c.E * c.Width * math.Pow(c.Height, 3) / 12
	ga := c.E / c.Ratio * c.Width * c.Height
	return q*x*(l*l*l-2*l*x*x+x*x*x)/(24*ei) + 1.2*q*x*(l-x)/(2*ga)
}

// Stress returns the largest bending stress, MPa, of a caul whose ends are
// drawn down with force N each: q·L²/8 over Width·Height²/6.
func (c Caul) Stress(force float64) float64 {
	return force * c.Length / 4 / (c.Width * c.Height * c.Height / 6)
}

// EI is the caul's bending stiffness, N·mm².
func (c Caul) EI() float64 { return c.E * c.Width * c.Height * c.Height * c.Height / 12 }
