package plate

import "math"

// Loose is a stretch of a rib that is not glued, From to To along it, to the
// top skin, to the bottom skin or to either.
type Loose struct {
	Along       bool // a rib along x, else one along y
	Rib         int  // its number
	From, To    float64
	Top, Bottom bool
}

// looseShare is what shear passes through a glue line that is open: nothing, so
// little that it is soft against any rib.
const looseShare = 1e-4

// loose returns the marks that the stretches, and those of splices, leave on the
// axis along which they run.
func (p *Panel) loose(along bool) []float64 {
	var out []float64
	for _, l := range p.Loose {
		if l.Along == along && (l.Top || l.Bottom) {
			out = append(out, l.From, l.To)
		}
	}
	for _, s := range p.Splices {
		if s.Along == along {
			out = append(out, s.From, s.To)
		}
	}
	return out
}

// glued returns the web of a rib between two grid lines, as its splices leave it:
// where either of its glue lines is open no shear runs through the rib. It still stands between
// the skins, and its own bending goes with them only as far as shear makes it:
// what it would carry alone, lying loose on a skin, is left out.
func (p *Panel) glued(w Web, along bool, rib int, from, to float64) Web {
	w = p.spliced(w, along, rib, from, to)
	at := (from + to) / 2
	for _, l := range p.Loose {
		if l.Along == along && l.Rib == rib && (l.Top || l.Bottom) && math.Abs(at-(l.From+l.To)/2) < (l.To-l.From)/2 {
			w.G *= looseShare
			w.GRoll *= looseShare
			return w
		}
	}
	return w
}
