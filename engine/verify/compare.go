package verify

import (
	"context"
	"math"
	"slices"
	"time"

	"flatwright/engine"
	"flatwright/engine/plate"
)

// Row is what came out of one case.
type Row struct {
	Case                 Case
	Spots                []Spot
	Solid, Plate         Answer
	Sag, Raw             float64 // largest difference in sag as a share of the largest sag, 0.02 mm forgiven and not
	At                   Spot    // where
	Reaction             float64 // largest difference of a pad's force as a share of the largest one
	Stress, Peak         float64 // largest difference of a stress as a share of the largest one, and that one, MPa
	Moved, StressMoved   float64 // what the last refinement of the solids changed, as such shares; infinite if there was none
	Ahead                float64 // largest sag towards which the solids' last three meshes go over that of the last, see [ahead]; 0 if unknown
	OwnMoved             float64 // what two more elements across a bay change in our sag, as such a share
	Nodes                int
	SolidTime, PlateTime time.Duration
}

// Aims for the differences in reactions and in stresses at the middles of bays
// that carry no load of their own.
const (
	ReactionAim = 0.02
	StressAim   = 0.15
)

// Passes tells whether a case is within all aims.
func (r Row) Passes() bool {
	return r.Sag <= r.Case.Limit() && r.Reaction <= ReactionAim && r.Stress <= StressAim
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
			out = append(out, c.fold(Spot{x * c.Design.Length, y * c.Design.Width}))
		}
	}
	for _, l := range c.loads() {
		if l.Kind != engine.Uniform {
			at := c.Design.Spread(l)
			out = append(out, c.fold(Spot{at.X, at.Y}))
		}
	}
	return append(out, Spot{c.Design.Length / 2, c.Design.Width / 2})
}

// Options bound the effort.
type Options struct {
	Divide   int     // of the plate model
	Meshes   []Mesh  // solids, ever finer
	MaxNodes int     // no finer solid beyond
	Settled  float64 // stop refining when it moves less than this share
	Keep     string  // directory in which the solver's answers are kept, "" for none
}

// Meshes are the solids of the whole table, each a third finer than the one
// before.
var Meshes = []Mesh{finer(9.0 / 16), finer(3.0 / 4), finer(1), finer(4.0 / 3)}

// finer is the mesh of the table: what it takes was tried out on the first and the
// last ordinary case. Elements in the bays and through the skins matter most.
func finer(by float64) Mesh {
	return Mesh{Fine: by, Corner: 0.15, Grow: 0.4, Most: 9, Core: 0.4, Row: 9.0 / 8, Rib: 5}
}

// spotMesh has only the lines that every mesh has: the spots are moved to them.
var spotMesh = Mesh{Fine: 1e-6, Corner: 1, Grow: 1, Most: 1, Core: 1, Row: 1, Rib: 1}

// Compare runs both models on a case and refines the solids until they settle.
func Compare(ctx context.Context, c Case, o Options) (Row, error) {
	r := Row{Case: c, Moved: math.Inf(1), StressMoved: math.Inf(1)}
	r.Spots = newSolid(c, spotMesh).snap(c.spots())
	var sags []float64
	for i, mesh := range o.Meshes {
		mesh.Keep = r.Spots
		// Two moves show how fast the solids settle.
		if i > 2 && r.Moved < o.Settled || i > 0 && estimate(c, mesh) > o.MaxNodes {
			break
		}
		a, nodes, took, err := Solids(ctx, c, r.Spots, mesh, o.Keep)
		if err != nil {
			return r, err
		}
		r.SolidTime, r.Nodes = took, nodes
		if i > 0 {
			r.Moved = worst(r.Solid.Down, a.Down, 0).share
			r.StressMoved = worst(slices.Concat(r.Solid.Stress...), slices.Concat(a.Stress...), 0).share
		}
		r.Solid = a
		sags = append(sags, largest(a.Down))
	}
	r.Ahead = ahead(sags)
	var err error
	if r.Plate, r.PlateTime, err = Plates(ctx, c, r.Spots, o.Divide); err != nil {
		return r, err
	}
	finer, _, err := Plates(ctx, c, r.Spots, o.Divide+2)
	if err != nil {
		return r, err
	}
	r.OwnMoved = worst(r.Plate.Down, finer.Down, 0).share
	w := worst(r.Plate.Down, r.Solid.Down, Forgiven)
	r.Sag, r.At = w.share, r.Spots[w.at]
	r.Raw = worst(r.Plate.Down, r.Solid.Down, 0).share
	r.Reaction = worst(r.Plate.Reactions, r.Solid.Reactions, 0).share
	stress := slices.Concat(r.Solid.Stress...)
	r.Stress, r.Peak = worst(slices.Concat(r.Plate.Stress...), stress, 0).share, largest(stress)
	return r, nil
}

// Plates solves a case with the whole-panel model, with divide elements across
// a bay, and returns its answer and the time from the design's panel to the
// solution.
func Plates(ctx context.Context, c Case, spots []Spot, divide int) (a Answer, took time.Duration, err error) {
	p := c.panel(divide)
	t := time.Now()
	m, err := plate.Prepare(ctx, p)
	if err != nil {
		return a, 0, err
	}
	var press []plate.Press
	for _, l := range c.loads() {
		press = append(press, c.Design.Press(l))
	}
	s, err := m.Solve(ctx, press)
	if err != nil {
		return a, 0, err
	}
	took = time.Since(t)
	for _, q := range spots {
		a.Down = append(a.Down, s.Down(q.X, q.Y))
	}
	all, _ := s.Reactions()
	for i, pad := range p.Pads { // as in [solid.whole]
		if at := (Spot{pad.X, pad.Y}); c.fold(at) == at {
			a.Reactions = append(a.Reactions, all[i])
		}
	}
	top, bottom := s.Skin(true), s.Skin(false)
	for _, at := range c.bays() {
		t, b := c.stressAt(top, p.Top.T, at), c.stressAt(bottom, p.Bottom.T, at)
		a.Stress = append(a.Stress, append(t[:], b[:]...))
	}
	return a, took, nil
}

// ahead returns the limit of a series, over its last number, if what it moves
// keeps falling by the factor of the last two moves (Aitken's extrapolation,
// textbook; the meshes are refined by the same factor each time). It is 0 where the
// moves do not fall, or by so little that the limit could be anything.
func ahead(sags []float64) float64 {
	n := len(sags)
	if n < 3 {
		return 0
	}
	before, last := sags[n-2]-sags[n-3], sags[n-1]-sags[n-2]
	if fall := last / before; fall > 0 && fall < slowest {
		return 1 + last/sags[n-1]*fall/(1-fall)
	}
	return 0
}

// slowest is the factor by which moves must fall for their limit to mean anything:
// beyond, what is still to come is more than four times the last of them. Common
// practice, no source.
const slowest = 0.8

type difference struct {
	share float64
	at    int
}

// worst returns the largest difference of a to b beyond what is forgiven, as a
// share of the largest |b|.
func worst(a, b []float64, forgiven float64) difference {
	most := largest(b)
	var d difference
	for i := range a {
		if s := math.Max(0, math.Abs(a[i]-b[i])-forgiven) / most; s > d.share {
			d = difference{s, i}
		}
	}
	return d
}

func largest(b []float64) (most float64) {
	for _, v := range b {
		most = math.Max(most, math.Abs(v))
	}
	return most
}

// snap moves spots to the nearest nodes of the coarsest solids; the finer ones keep
// them.
func (s *solid) snap(spots []Spot) []Spot {
	out := make([]Spot, len(spots))
	for i, p := range spots {
		out[i] = Spot{s.xs[nearest(s.xs, p.X)], s.ys[nearest(s.ys, p.Y)]}
	}
	return out
}
