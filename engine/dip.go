package engine

import "math"

// Dip is the local sag of the top skin in a bay: how far it lies below the
// surface that the ribs around the bay make, at its deepest. How the whole top
// sags, winds or tips has no part in it.
type Dip struct {
	Sag float64 `json:"sag"` // mm
	X   float64 `json:"x"`
	Y   float64 `json:"y"`
}

// dipSteps is how many places across a bay a dip is looked for, each way.
const dipSteps = 3

// dips looks for the dip of every bay. sag is that of the upper face.
func (d *Design) dips(sag func(x, y float64) float64) []Dip {
	ys, xs := d.RibPlaces()
	var out []Dip
	for j := range len(ys) - 1 {
		for i := range len(xs) - 1 {
			out = append(out, dipOf(bay{xs[i], xs[i+1], ys[j], ys[j+1]}, sag))
		}
	}
	return out
}

// dipOf sets the sag inside a bay against the surface spanned by the curves
// along its four sides, which is exact for any bend along, any bend across and
// any twist of the whole. Source: S. A. Coons' patch, textbook.
func dipOf(b bay, sag func(x, y float64) float64) Dip {
	var left, right, front, back [dipSteps]float64
	at := func(k int) float64 { return float64(k+1) / (dipSteps + 1) }
	x := func(r float64) float64 { return b.x0 + (b.x1-b.x0)*r }
	y := func(r float64) float64 { return b.y0 + (b.y1-b.y0)*r }
	for k := range dipSteps {
		left[k], right[k] = sag(b.x0, y(at(k))), sag(b.x1, y(at(k)))
		front[k], back[k] = sag(x(at(k)), b.y0), sag(x(at(k)), b.y1)
	}
	c00, c10, c01, c11 := sag(b.x0, b.y0), sag(b.x1, b.y0), sag(b.x0, b.y1), sag(b.x1, b.y1)
	deepest := Dip{Sag: math.Inf(-1)}
	for i := range dipSteps {
		for j := range dipSteps {
			r, s := at(i), at(j)
			sides := (1-r)*left[j] + r*right[j] + (1-s)*front[i] + s*back[i]
			corners := (1-r)*(1-s)*c00 + r*(1-s)*c10 + (1-r)*s*c01 + r*s*c11
			if v := sag(x(r), y(s)) - (sides - corners); v > deepest.Sag {
				deepest = Dip{v, x(r), y(s)}
			}
		}
	}
	return deepest
}

// deepest returns the deepest of the bays that a footprint touches.
func (d *Design) deepest(dips []Dip, x0, x1, y0, y1 float64) (out Dip) {
	ys, xs := d.RibPlaces()
	for k, v := range dips {
		i, j := k%(len(xs)-1), k/(len(xs)-1)
		if xs[i] < x1 && xs[i+1] > x0 && ys[j] < y1 && ys[j+1] > y0 && v.Sag > out.Sag {
			out = v
		}
	}
	return out
}
