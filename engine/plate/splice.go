package plate

import "math"

// Splice is a stretch of a rib, From to To along it, in which a joint leaves it
// the shares Direct of its stretching and bending stiffness and Shear of its
// shear stiffness.
type Splice struct {
	Along         bool // a rib along x, else one along y
	Rib           int  // its number
	From, To      float64
	Direct, Shear float64
}

// spliced returns the web of a rib between two grid lines, as its splices leave
// it.
func (p *Panel) spliced(w Web, along bool, rib int, from, to float64) Web {
	at := (from + to) / 2
	for _, s := range p.Splices {
		if s.Along == along && s.Rib == rib && math.Abs(at-(s.From+s.To)/2) < (s.To-s.From)/2 {
			w.E *= s.Direct
			w.G *= s.Shear
		}
	}
	return w
}
