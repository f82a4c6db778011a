package plate

import "math"

// Loose is a stretch of a rib that is not glued, From to To along it, to the
// top skin, to the bottom skin or to both.
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

// Which glue lines of a stretch of web are open; both together are the sum.
const (
	openTop    int8 = 1
	openBottom int8 = 2
)

// glued returns the web of a rib between two grid lines, as its splices leave it.
// Where both of its glue lines are open no shear runs through the rib. It still stands
// between the skins, and its own bending goes with them only as far as shear makes it:
// what it would carry alone, lying loose on a skin, is left out. Where one is open the
// rib and the other skin are a T, see [tee].
func (p *Panel) glued(w Web, along bool, rib int, from, to float64) Web {
	w = p.spliced(w, along, rib, from, to)
	at := (from + to) / 2
	for _, l := range p.Loose {
		if l.Along == along && l.Rib == rib && math.Abs(at-(l.From+l.To)/2) < (l.To-l.From)/2 {
			if l.Top {
				w.open |= openTop
			}
			if l.Bottom {
				w.open |= openBottom
			}
		}
	}
	if w.open == 0 {
		return w
	}
	w.GRoll *= looseShare
	if w.open == openTop|openBottom {
		w.G *= looseShare
	}
	return w
}

// tee is what a stretch of rib does that is glued to one skin, as rows over that
// skin's u, w and β at i and j: direct strain at the rib's glued edge and at its open
// one, and shear strain. The rib is a Timoshenko beam whose cross-sections turn with
// the skin's β, both strains even along the stretch, so that neither height nor shear
// locks it. Source: the linear element with one point of integration, textbook
// (Hughes, The Finite Element Method, from memory). half is half of the skin's
// thickness, height the rib's, both counted from the skin's middle: upwards positive.
func tee(l, half, height float64) (glued, open, shear [6]float64) {
	for e, sign := range [2]float64{-1, 1} {
		at := 3 * e
		glued[at], glued[at+2] = sign/l, half*sign/l
		open[at], open[at+2] = sign/l, (half+height)*sign/l
		shear[at+1], shear[at+2] = sign/l, 0.5
	}
	return glued, open, shear
}

// oneSided fills in the flow in the one glue line of ribs that are glued to one
// skin: by the balance of the rib what its force gains along it. Its shear force is
// the whole T's, the skin's part with it. sides is what is open at each of the segments.
func oneSided(seg []RibForce, sides []int8) {
	for i := range seg {
		if sides[i] != openTop && sides[i] != openBottom {
			continue
		}
		seg[i].FlowTop, seg[i].FlowBottom = 0, 0
		a, b := i, i
		if i > 0 && sides[i-1] == sides[i] {
			a--
		}
		if i+1 < len(seg) && sides[i+1] == sides[i] {
			b++
		}
		if a == b {
			continue
		}
		flow := (seg[b].N - seg[a].N) / (seg[b].At - seg[a].At)
		if sides[i] == openTop {
			seg[i].FlowBottom = flow
		} else {
			seg[i].FlowTop = -flow
		}
	}
}
