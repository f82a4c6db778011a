package verify

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"
)

// Answer is what one of the models says, mm, N and MPa, positive down and in
// tension.
type Answer struct {
	Down      []float64   // at the spots, settlement included
	Reactions []float64   // of every pad, upwards
	Stress    [][]float64 // at every bay, see [Case.bays]: along x and y at the upper and the lower face of the top skin, then of the bottom skin
}

// Solids runs the solver on a case, with pads that also pull, and returns its
// answer, the number of nodes and how long the solver took. An answer that keep
// holds is read, not computed again.
func Solids(ctx context.Context, c Case, spots []Spot, m Mesh, keep string) (a Answer, nodes int, took time.Duration, err error) {
	m.Keep = spots
	s := newSolid(c, m)
	s.build()
	var prints, probes []int
	for _, p := range spots {
		prints = append(prints, s.node(nearest(s.xs, p.X), nearest(s.ys, p.Y), len(s.zs)-1, shared))
	}
	for i := range s.bricks {
		if bay, _ := s.probed(&s.bricks[i]); bay >= 0 {
			probes = append(probes, i+1)
		}
	}
	dat, took, err := solved(ctx, s.deck(c.loads(), prints, probes), keep)
	if err != nil {
		return a, 0, 0, err
	}
	r, err := read(bytes.NewReader(dat))
	if err != nil {
		return a, 0, 0, err
	}
	for _, n := range prints {
		w, ok := r.up[n]
		if !ok {
			return a, 0, 0, fmt.Errorf("node %d is not in the solver's answer", n)
		}
		a.Down = append(a.Down, -w)
	}
	a.Reactions = make([]float64, len(s.pads))
	for _, f := range s.feet {
		w, ok := r.up[f.node]
		if !ok {
			return a, 0, 0, fmt.Errorf("foot %d is not in the solver's answer", f.node)
		}
		a.Reactions[f.pad] -= f.k * w
	}
	a.Reactions = s.whole(a.Reactions)
	a.Stress, err = s.stresses(r)
	return a, len(s.nodes), took, err
}

// probed returns the bay in whose square a brick of a skin lies, or -1, and
// which faces of the skins the brick has: 0 upper and 1 lower of the top skin,
// 2 and 3 of the bottom skin, or -1.
func (s *solid) probed(b *brick) (bay, face int) {
	switch {
	case b.set == topSet && b.k == len(s.zs)-2:
		face = 0
	case b.set == topSet && b.k == s.high:
		face = 1
	case b.set == bottomSet && b.k == s.low-1:
		face = 2
	case b.set == bottomSet && b.k == 0:
		face = 3
	default:
		return -1, -1
	}
	half := s.c.probe() / 2
	x, y := (s.xs[b.i]+s.xs[b.i+1])/2, (s.ys[b.j]+s.ys[b.j+1])/2
	for n, at := range s.c.bays() {
		if math.Abs(x-at.X) < half && math.Abs(y-at.Y) < half {
			return n, face
		}
	}
	return -1, -1
}

// stresses takes the mean over the squares of the bays, from the two layers of
// integration points straight on to the face.
func (s *solid) stresses(r printed) ([][]float64, error) {
	out := make([][]float64, len(s.c.bays()))
	area := make([][4]float64, len(out))
	for i := range out {
		out[i] = make([]float64, 8)
	}
	for i := range s.bricks {
		b := &s.bricks[i]
		bay, face := s.probed(b)
		if bay < 0 {
			continue
		}
		points, ok := r.stress[i+1]
		if !ok {
			return nil, fmt.Errorf("element %d is not in the solver's answer", i+1)
		}
		da := (s.xs[b.i+1] - s.xs[b.i]) * (s.ys[b.j+1] - s.ys[b.j])
		area[bay][face] += da
		for q := range 2 {
			var low, high float64 // points 1 to 4 are the lower ones
			for p := range 4 {
				low += points[p][q] / 4
				high += points[p+4][q] / 4
			}
			to := math.Sqrt(3)
			if face%2 == 1 {
				to = -to
			}
			out[bay][2*face+q] += da * ((low+high)/2 + to*(high-low)/2)
		}
	}
	for bay := range out {
		for q := range out[bay] {
			if area[bay][q/2] == 0 {
				return nil, fmt.Errorf("no element lies in bay %d", bay)
			}
			out[bay][q] /= area[bay][q/2]
		}
	}
	return out, nil
}

// printed is what the solver printed: uz of nodes, and the direct stresses
// along x and y at the eight integration points of elements.
type printed struct {
	up     map[int]float64
	stress map[int]*[8][2]float64
}

func read(f io.Reader) (printed, error) {
	r := printed{map[int]float64{}, map[int]*[8][2]float64{}}
	sc := bufio.NewScanner(f)
	for sc.Scan() {
		w := strings.Fields(sc.Text())
		if len(w) != 4 && len(w) != 8 {
			continue
		}
		n, err := strconv.Atoi(w[0])
		if err != nil {
			continue // a heading
		}
		if len(w) == 4 {
			if r.up[n], err = strconv.ParseFloat(w[3], 64); err != nil {
				return r, fmt.Errorf("read the solver's answer: %w", err)
			}
			continue
		}
		p, err := strconv.Atoi(w[1])
		if err != nil || p < 1 || p > 8 {
			return r, fmt.Errorf("read the solver's answer: integration point %q", w[1])
		}
		if r.stress[n] == nil {
			r.stress[n] = new([8][2]float64)
		}
		for q := range 2 {
			if r.stress[n][p-1][q], err = strconv.ParseFloat(w[2+q], 64); err != nil {
				return r, fmt.Errorf("read the solver's answer: %w", err)
			}
		}
	}
	return r, sc.Err()
}
