package verify

import "math"

// Symmetry names the middle planes on both sides of which a case is the same.
// Only one side of them is built of bricks, whose nodes there stay in the plane:
// exact, textbook, and so much cheaper that the mesh can be finer. The whole-panel
// model always has all of the panel.
type Symmetry struct{ X, Y bool }

// ends returns how far along x and y a case is built.
func (c Case) ends() (x, y float64) {
	x, y = c.Design.Length, c.Design.Width
	if c.Same.X {
		x /= 2
	}
	if c.Same.Y {
		y /= 2
	}
	return x, y
}

// hair is how near to a plane of symmetry a place is in it, mm.
const hair = 1e-6

// fold returns the same place on the side that is built.
func (c Case) fold(p Spot) Spot {
	x, y := c.ends()
	if p.X > x+hair {
		p.X = c.Design.Length - p.X
	}
	if p.Y > y+hair {
		p.Y = c.Design.Width - p.Y
	}
	return p
}

// share returns the part of a pad that is built, or 0 if its middle is not: then
// the pad is one whose like is built.
func (s *solid) share(pad int) float64 {
	p := s.pads[pad]
	if p.X > s.endX+hair || p.Y > s.endY+hair {
		return 0
	}
	part := func(lo, hi, end, all float64) float64 {
		lo = math.Max(lo, 0)
		return (math.Min(hi, end) - lo) / (math.Min(hi, all) - lo)
	}
	return part(p.X-p.SX/2, p.X+p.SX/2, s.endX, s.d.Length) * part(p.Y-p.SY/2, p.Y+p.SY/2, s.endY, s.d.Width)
}

// held lists the nodes that keep the bricks in planes of symmetry and, as little as
// does it, from sliding and turning in plan: along x and along y.
func (s *solid) held() (alongX, alongY []int) {
	corner := s.node(0, 0, 0, shared)
	if !s.c.Same.X {
		alongX = append(alongX, corner)
	}
	if !s.c.Same.Y {
		alongY = append(alongY, corner)
	}
	if !s.c.Same.X && !s.c.Same.Y {
		alongY = append(alongY, s.node(len(s.xs)-1, 0, 0, shared))
	}
	for id, n := range s.nodes {
		if s.c.Same.X && n.i == len(s.xs)-1 {
			alongX = append(alongX, id+1)
		}
		if s.c.Same.Y && n.j == len(s.ys)-1 {
			alongY = append(alongY, id+1)
		}
	}
	return alongX, alongY
}

// whole returns the forces of the pads of which at least half is built, each as of
// all of it, from the forces of what is built or of all.
func (s *solid) whole(force []float64) (out []float64) {
	for i, f := range force {
		if part := s.share(i); part > 0 {
			out = append(out, f/part)
		}
	}
	return out
}
