package engine

import (
	"context"
	"errors"
	"fmt"
	"math"

	"flatwright/engine/plate"
)

// Mesh says how finely the whole panel is computed: how many elements lie
// across a bay.
type Mesh int

// The meshes: Interactive follows a finger, Normal is what is shown at rest,
// Refined is worked out when nothing else is to be done. The change from one to
// the next is the model's own estimate of its error.
const (
	Interactive Mesh = 1
	Normal      Mesh = 2
	Refined     Mesh = 4
)

// Whole is the answer of the whole-panel model.
type Whole struct {
	Mesh     Mesh        `json:"mesh"`
	Unknowns int         `json:"unknowns"`
	Change   float64     `json:"change"` // largest change of a case's sag from the mesh before, as a share; the model's own error estimate
	Cases    []WholeCase `json:"cases"`  // as in the design
}

// WholeCase is one load case, own weight included.
type WholeCase struct {
	Sag        float64    `json:"sag"` // largest, relative to the plane through the supports, mm
	X          float64    `json:"x"`
	Y          float64    `json:"y"`
	Settlement float64    `json:"settlement"` // largest sinking of a support into its bed, mm
	Loads      []WholeSag `json:"loads"`
	Reactions  []Reaction `json:"reactions"`
	Map        SagGrid    `json:"map"`
	Rocks      bool       `json:"rocks,omitempty"` // no set of supports in touch was found; the figures are those with all of them holding
}

// WholeSag is the sag under one load with everything acting, and what the load
// alone adds there.
type WholeSag struct {
	Name      string  `json:"name"`
	Sag       float64 `json:"sag"`       // mm
	Alone     float64 `json:"alone"`     // mm, no own weight
	Stiffness float64 `json:"stiffness"` // Force / Alone, N/mm
}

// Reaction is the force of one support on the panel.
type Reaction struct {
	Name   string  `json:"name"`
	X      float64 `json:"x"`
	Y      float64 `json:"y"`
	Force  float64 `json:"force"` // N, upwards
	Lifted bool    `json:"lifted,omitempty"`
}

// SagGrid is the sag of the upper face at NX × NY places evenly spread over
// the panel, row by row from the front edge, mm.
type SagGrid struct {
	NX  int       `json:"nx"`
	NY  int       `json:"ny"`
	Sag []float64 `json:"sag"`
}

// Size of the sag map: a place about every 30 mm on a bench.
const mapNX, mapNY = 61, 31

// wholeCases solves every case on one mesh.
func wholeCases(ctx context.Context, d *Design, weight float64, mesh Mesh, maps bool) (*Whole, error) {
	p := d.WholePanel(int(mesh))
	m, err := plate.Prepare(ctx, p)
	if err != nil {
		return nil, err
	}
	w := &Whole{Mesh: mesh}
	w.Unknowns, _ = m.Size()
	own := d.Press(Load{Kind: Uniform, Force: weight})
	for i := range d.Cases {
		c, err := d.wholeCase(ctx, m, &d.Cases[i], own, maps)
		if err != nil {
			return nil, fmt.Errorf("load case %q: %w", d.Cases[i].Name, err)
		}
		w.Cases = append(w.Cases, c)
	}
	return w, nil
}

func (d *Design) wholeCase(ctx context.Context, m *plate.Model, c *LoadCase, own plate.Press, maps bool) (WholeCase, error) {
	loads := []plate.Press{own}
	for _, l := range c.Loads {
		loads = append(loads, d.Press(l))
	}
	s, err := m.Solve(ctx, loads)
	if err != nil {
		return WholeCase{}, err
	}
	out := WholeCase{Sag: math.Inf(-1)}
	look := func(x, y float64) float64 {
		v := s.Sag(x, y)
		if v > out.Sag {
			out.Sag, out.X, out.Y = v, x, y
		}
		return v
	}
	nx, ny := mapNX, mapNY
	if !maps {
		nx, ny = 21, 11
	}
	grid := make([]float64, 0, nx*ny)
	for j := range ny {
		for i := range nx {
			grid = append(grid, look(d.Length*float64(i)/float64(nx-1), d.Width*float64(j)/float64(ny-1)))
		}
	}
	if maps {
		out.Map = SagGrid{nx, ny, grid}
	}
	for i, l := range c.Loads {
		p := loads[i+1]
		v := WholeSag{Name: l.Name, Sag: look(p.X, p.Y)}
		one, err := m.Solve(ctx, []plate.Press{p})
		if err != nil && !errors.Is(err, plate.ErrRocking) && !errors.Is(err, plate.ErrLoose) {
			return out, err
		}
		if err == nil {
			v.Alone = one.Sag(p.X, p.Y)
		}
		if v.Alone > 0 {
			v.Stiffness = l.Force / v.Alone
		}
		out.Loads = append(out.Loads, v)
	}
	force, lifted := s.Reactions()
	for i, pad := range d.pads() {
		out.Reactions = append(out.Reactions, Reaction{pad.Name, pad.X, pad.Y, force[i], lifted[i]})
		out.Settlement = math.Max(out.Settlement, force[i]/(pad.K*pad.SX*pad.SY))
	}
	return out, nil
}

// ComputeWhole computes the whole panel of a valid design on a mesh, and on
// the next coarser one to tell its own error. weight is the panel's weight, N.
func ComputeWhole(ctx context.Context, d Design, weight float64, mesh Mesh) (*Whole, error) {
	w, err := wholeCases(ctx, &d, weight, mesh, true)
	if err != nil {
		return nil, err
	}
	if mesh == Interactive {
		return w, nil
	}
	coarse, err := wholeCases(ctx, &d, weight, mesh/2, false)
	if err != nil {
		return nil, err
	}
	for i := range w.Cases {
		if v := w.Cases[i].Sag; v > 0 {
			w.Change = math.Max(w.Change, math.Abs(v-coarse.Cases[i].Sag)/v)
		}
	}
	return w, nil
}
