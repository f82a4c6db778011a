package verify

import (
	"context"
	"math"
	"time"

	"flatwright/engine"
	"flatwright/engine/plate"
)

// Row is what came out of one case.
type Row struct {
	Case                 Case
	Spots                []Spot
	Solid, Plate         []float64 // down, at the spots, mm
	Moved                float64   // largest change between the last two solids, as a share of the largest sag
	Worst                float64   // largest |difference| as a share of the largest sag, 0.02 mm forgiven
	At                   Spot      // where
	Nodes                int
	SolidTime, PlateTime time.Duration
}

// Forgiven is what a feeler gauge does not see, mm.
const Forgiven = 0.02

// Limit is the aim for a case.
func (c Case) Limit() float64 {
	if c.Extreme {
		return 0.06
	}
	return 0.03
}

// spots returns nine spread points and the middle of every load.
func (c Case) spots() []Spot {
	var out []Spot
	for _, x := range [...]float64{0.02, 0.37, 0.71} {
		for _, y := range [...]float64{0.03, 0.41, 0.98} {
			out = append(out, Spot{x * c.Design.Length, y * c.Design.Width})
		}
	}
	for _, l := range c.Design.Cases[0].Loads {
		if l.Kind == engine.Patch {
			out = append(out, Spot{l.X, l.Y})
		}
	}
	return append(out, Spot{c.Design.Length / 2, c.Design.Width / 2})
}

// Options bound the effort.
type Options struct {
	Divide   int     // of the plate model
	Start    Mesh    // first solid
	MaxNodes int     // no finer solid beyond
	Settled  float64 // stop refining when it moves less than this share
}

// Compare runs both models on a case and refines the solids until they settle.
func Compare(ctx context.Context, c Case, o Options) (Row, error) {
	r := Row{Case: c, Spots: c.spots(), Moved: math.Inf(1)}
	loads := c.Design.Cases[0].Loads
	mesh := o.Start
	for {
		t := time.Now()
		s := newSolid(c.Design, mesh)
		r.Spots = s.snap(r.Spots)
		a, err := Solve(ctx, c.Design, loads, r.Spots, mesh)
		if err != nil {
			return r, err
		}
		r.SolidTime, r.Nodes = time.Since(t), a.Nodes
		if r.Solid != nil {
			r.Moved = worst(a.Down, r.Solid, 0).share
		}
		r.Solid = a.Down
		if r.Moved < o.Settled {
			break
		}
		mesh.Plan /= 1.5
		if mesh.Plan < o.Start.Plan/1.4 {
			mesh.Rib, mesh.Core = 2, o.Start.Core+2
		}
		if estimate(c.Design, mesh) > o.MaxNodes {
			break
		}
	}
	p := c.Design.WholePanel(o.Divide)
	for i := range p.Pads {
		p.Pads[i].Glued = true // the solids' springs pull as well
	}
	t := time.Now()
	m, err := plate.Prepare(ctx, p)
	if err != nil {
		return r, err
	}
	var press []plate.Press
	for _, l := range loads {
		press = append(press, c.Design.Press(l))
	}
	s, err := m.Solve(ctx, press)
	if err != nil {
		return r, err
	}
	r.PlateTime = time.Since(t)
	for _, q := range r.Spots {
		r.Plate = append(r.Plate, s.Down(q.X, q.Y))
	}
	w := worst(r.Plate, r.Solid, Forgiven)
	r.Worst, r.At = w.share, r.Spots[w.at]
	return r, nil
}

type difference struct {
	share float64
	at    int
}

// worst returns the largest difference of a to b beyond what is forgiven, as a
// share of the largest |b|.
func worst(a, b []float64, forgiven float64) difference {
	largest := 0.0
	for _, v := range b {
		largest = math.Max(largest, math.Abs(v))
	}
	var d difference
	for i := range a {
		if s := math.Max(0, math.Abs(a[i]-b[i])-forgiven) / largest; s > d.share {
			d = difference{s, i}
		}
	}
	return d
}

// snap moves spots to the nearest nodes of the solids, which every finer mesh
// keeps only by chance, so it is done once on the coarsest.
func (s *solid) snap(spots []Spot) []Spot {
	out := make([]Spot, len(spots))
	for i, p := range spots {
		out[i] = Spot{s.xs[nearest(s.xs, p.X)], s.ys[nearest(s.ys, p.Y)]}
	}
	return out
}

// estimate counts the nodes of a mesh without building it.
func estimate(d engine.Design, m Mesh) int {
	s := newSolid(d, m)
	n := len(s.xs) * len(s.ys) * (2*m.Skin + 2)
	for _, r := range s.ribX {
		if r >= 0 {
			n += len(s.xs) * m.Core * 2 / m.Rib / 1
		}
	}
	for _, r := range s.ribY {
		if r >= 0 {
			n += len(s.ys) * m.Core * 2 / m.Rib / 1
		}
	}
	return n
}
