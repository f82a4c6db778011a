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

// spliced returns the web of a rib between two grid lines, as its splices and holes
// leave it.
func (p *Panel) spliced(w Web, along bool, rib int, from, to float64) Web {
	at := (from + to) / 2
	for _, s := range p.Splices {
		if s.Along == along && s.Rib == rib && math.Abs(at-(s.From+s.To)/2) < (s.To-s.From)/2 {
			w.E *= s.Direct
			w.G *= s.Shear
		}
	}
	for _, s := range p.Pierced {
		if s.Along == along && s.Rib == rib {
			if part := overlap(from, to, s.From, s.To) / (to - from); part > 0 { // one after the other
				w.E /= 1 + part*(1/s.Direct-1)
				w.G /= 1 + part*(1/s.Shear-1)
			}
		}
	}
	return w
}
