package verify

import (
	"math"
	"slices"

	"flatwright/engine"
	"flatwright/engine/plate"
)

// probe is the side of the square over which stresses are averaged: one skin
// thickness, the thicker one's.
func (c Case) probe() float64 {
	return max(c.Design.TopSkin.Thickness, c.Design.BottomSkin.Thickness)
}

// bay is the clear rectangle between ribs.
type bay struct{ x0, x1, y0, y1 float64 }

func (b bay) overlaps(x0, x1, y0, y1 float64) bool {
	return min(b.x1, x1) > max(b.x0, x0) && min(b.y1, y1) > max(b.y0, y0)
}

// inner is the middle half of a bay.
func (b bay) inner() bay {
	x, y := (b.x1-b.x0)/4, (b.y1-b.y0)/4
	return bay{b.x0 + x, b.x1 - x, b.y0 + y, b.y1 - y}
}

// quiet returns the bays that no load reaches into but one all over, whose middle half lies
// over no pad and that no seam crosses.
func (c Case) quiet() []bay {
	ys, xs := c.Design.RibPlaces()
	bx, by := c.Design.Crosswise.Thickness, c.Design.Lengthwise.Thickness
	pads := c.panel(1).Pads
	var out []bay
	for i := range len(xs) - 1 {
		for j := range len(ys) - 1 {
			b := bay{xs[i] + bx/2, xs[i+1] - bx/2, ys[j] + by/2, ys[j+1] - by/2}
			free := true
			for _, l := range c.loads() {
				at := c.Design.Spread(l)
				if l.Kind != engine.Uniform && b.overlaps(at.X-at.SizeX/2, at.X+at.SizeX/2, at.Y-at.SizeY/2, at.Y+at.SizeY/2) {
					free = false
				}
			}
			for _, p := range pads {
				if b.inner().overlaps(p.X-p.SX/2, p.X+p.SX/2, p.Y-p.SY/2, p.Y+p.SY/2) {
					free = false
				}
			}
			for _, s := range c.Seams {
				lo, hi := b.x0, b.x1
				if s.AlongX {
					lo, hi = b.y0, b.y1
				}
				if s.At > lo && s.At < hi {
					free = false
				}
			}
			if free {
				out = append(out, b)
			}
		}
	}
	return out
}

// bays returns the middles of up to six quiet bays, those nearest to six
// spread points.
func (c Case) bays() []Spot {
	quiet := c.quiet()
	var out []Spot
	for _, x := range [...]float64{0.28, 0.52, 0.8} {
		for _, y := range [...]float64{0.3, 0.6} {
			best, at := math.Inf(1), Spot{}
			for _, b := range quiet {
				m := Spot{(b.x0 + b.x1) / 2, (b.y0 + b.y1) / 2}
				if d := math.Hypot(m.X-x*c.Design.Length, m.Y-y*c.Design.Width); d < best && c.fold(m) == m {
					best, at = d, m
				}
			}
			if best < math.Inf(1) && !slices.Contains(out, at) {
				out = append(out, at)
			}
		}
	}
	return out
}

// stressAt returns a skin's stresses at the middle of a bay, along x and y at
// its upper and lower face: Lagrange's polynomial through the middles of the four
// nearest of the bay's cells each way.
func (c Case) stressAt(cells []plate.SkinStress, t float64, at Spot) (out [4]float64) {
	var in bay
	for _, b := range c.quiet() {
		if at.X > b.x0 && at.X < b.x1 && at.Y > b.y0 && at.Y < b.y1 {
			in = b
		}
	}
	var xs, ys []float64
	var inside []plate.SkinStress
	for _, s := range cells {
		if s.X > in.x0 && s.X < in.x1 && s.Y > in.y0 && s.Y < in.y1 {
			inside = append(inside, s)
			xs, ys = append(xs, s.X), append(ys, s.Y)
		}
	}
	slices.Sort(xs)
	slices.Sort(ys)
	xs, ys = near4(slices.Compact(xs), at.X), near4(slices.Compact(ys), at.Y)
	for _, s := range inside {
		if !slices.Contains(xs, s.X) || !slices.Contains(ys, s.Y) {
			continue
		}
		w := lagrange(xs, s.X, at.X) * lagrange(ys, s.Y, at.Y)
		ux, uy := s.Upper(t)
		lx, ly := s.Lower(t)
		for q, v := range [4]float64{ux, uy, lx, ly} {
			out[q] += w * v
		}
	}
	return out
}

// near4 returns the four of rising places that lie about one, or all if there are no
// more.
func near4(places []float64, at float64) []float64 {
	from := 0
	for len(places)-from > 4 && at-places[from] > places[from+4]-at {
		from++
	}
	return places[from:min(len(places), from+4)]
}

// lagrange is the weight at x of the point own among points.
func lagrange(points []float64, own, x float64) float64 {
	w := 1.0
	for _, p := range points {
		if p != own {
			w *= (x - p) / (own - p)
		}
	}
	return w
}
