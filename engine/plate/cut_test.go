package plate

import (
	"context"
	"math"
	"testing"
)

// shearAcross returns the shear force that skins, lengthwise ribs and what the
// glue lines hand to the skins pass on at the middle of a cell along x: what
// everything before it presses downwards, less what pushes up.
func shearAcross(p *Panel, s *Solution, at float64) (x, v float64) {
	x = math.Inf(1)
	top, bottom := s.Skin(true), s.Skin(false)
	for _, c := range top {
		if math.Abs(c.X-at) < math.Abs(x-at) {
			x = c.X
		}
	}
	for i, c := range top {
		if c.X == x {
			v += (c.QX + bottom[i].QX) * c.SY
		}
	}
	for n := range p.Along {
		for _, f := range s.Rib(true, n) {
			if f.At == x {
				v += f.V + (f.FlowTop*p.Top.T+f.FlowBottom*p.Bottom.T)/2
			}
		}
	}
	return x, v
}

// From one cut to the next the shear force of ribs and skins together jumps by
// the loads between, and across a pair of legs by what they carry. Statics.
func TestShearJumps(t *testing.T) {
	t.Parallel()
	const load = 900.0
	p := demoPanel(4)
	for i := range p.Pads { // legs well inside the ends
		if p.Pads[i].X < 900 {
			p.Pads[i].X = 300
		} else {
			p.Pads[i].X = 1500
		}
	}
	m := prepare(t, p)
	s, err := m.Solve(context.Background(), []Press{{P: load, X: 700, Y: 300, SX: 100, SY: 100}})
	if err != nil {
		t.Fatal(err)
	}
	r, _ := s.Reactions()
	for _, c := range []struct {
		name     string
		from, to float64
		want     float64
	}{
		{"nothing in the overhang", 20, 200, 0},
		{"the left legs", 200, 420, -(r[0] + r[1])},
		{"nothing between", 420, 600, 0},
		{"the load", 600, 800, load},
		{"nothing behind it", 800, 1380, 0},
		{"the right legs", 1380, 1600, -(r[2] + r[3])},
	} {
		_, before := shearAcross(p, s, c.from)
		_, after := shearAcross(p, s, c.to)
		near(t, c.name, after-before, c.want, 0.02*load)
	}
	// The slope of the face adds up to what it falls.
	sum := 0.0
	for i := range 1000 {
		sx, _ := s.Slope(0.9+1.8*float64(i), 375)
		sum += 1.8 * sx
	}
	near(t, "fall along the length", sum, s.Sag(1800, 375)-s.Sag(0, 375), 1e-3*s.Sag(700, 300))
}
