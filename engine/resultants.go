package engine

import (
	"math"

	"flatwright/engine/plate"
)

// RibForces is what one rib carries in one case, own weight included.
type RibForces struct {
	Part     string       `json:"part"`
	Segments []RibSegment `json:"segments"` // from end to end
}

// RibSegment is the state at the middle of a stretch of a rib between two lines
// of the mesh.
type RibSegment struct {
	From       float64 `json:"from"`       // along the rib, from the panel's left end or front edge, mm
	To         float64 `json:"to"`         // mm
	Axial      float64 `json:"axial"`      // force along the rib, N, tension positive
	Moment     float64 `json:"moment"`     // of the rib alone, N·mm, positive stretches its lower edge
	Shear      float64 `json:"shear"`      // N, positive where what lies before the segment presses downwards
	FlowTop    float64 `json:"flowTop"`    // shear flow of the glue line to the top skin, N/mm
	FlowBottom float64 `json:"flowBottom"` // to the bottom skin, N/mm
	Upright    float64 `json:"upright"`    // upright stress, MPa, negative is squeezed
}

// EdgeSlope is how steeply the upper face falls outwards at one edge, where it
// does so most, relative to the plane through the supports.
type EdgeSlope struct {
	Edge  string  `json:"edge"`  // "left end", "right end", "front edge", "back edge"
	Slope float64 `json:"slope"` // rad, positive falls outwards
	X     float64 `json:"x"`
	Y     float64 `json:"y"`
}

// recover fills in what is not wanted while a load is dragged.
func (c *WholeCase) recover(d *Design, loads []Load, s *plate.Solution) {
	dips := d.dips(s.Sag)
	c.Dip = d.deepest(dips, 0, d.Length, 0, d.Width)
	for i := range loads {
		p := d.Press(loads[i])
		c.Loads[i].Dip = d.deepest(dips, p.X-p.SX/2, p.X+p.SX/2, p.Y-p.SY/2, p.Y+p.SY/2)
	}
	c.Slopes = d.edgeSlopes(s)
	for n := range d.Lengthwise.number() {
		c.Ribs = append(c.Ribs, ribForces(s, true, n))
	}
	for n := range d.Crosswise.number() {
		c.Ribs = append(c.Ribs, ribForces(s, false, n))
	}
}

func ribForces(s *plate.Solution, along bool, n int) RibForces {
	out := RibForces{Part: RibPart(along, n)}
	for _, f := range s.Rib(along, n) {
		out.Segments = append(out.Segments, RibSegment{f.At - f.L/2, f.At + f.L/2, f.N, f.M, f.V, f.FlowTop, f.FlowBottom, f.Upright})
	}
	return out
}

// edgeSteps is how many places along an edge its slope is looked for.
const edgeSteps = 21

func (d *Design) edgeSlopes(s *plate.Solution) []EdgeSlope {
	tb := d.EdgeBand.Thickness
	x0, x1, y0, y1 := tb, d.Length-tb, tb, d.Width-tb // of the skins
	out := []EdgeSlope{{Edge: "left end", X: x0}, {Edge: "right end", X: x1}, {Edge: "front edge", Y: y0}, {Edge: "back edge", Y: y1}}
	for e := range out {
		most := -1.0
		edge := out[e]
		for i := range edgeSteps {
			r := float64(i) / (edgeSteps - 1)
			if e < 2 {
				edge.Y = y0 + (y1-y0)*r
			} else {
				edge.X = x0 + (x1-x0)*r
			}
			sx, sy := s.Slope(edge.X, edge.Y)
			edge.Slope = [4]float64{-sx, sx, -sy, sy}[e]
			if math.Abs(edge.Slope) > most {
				most, out[e] = math.Abs(edge.Slope), edge
			}
		}
	}
	return out
}

// RibPeaks is the most that one rib carries in a case.
type RibPeaks struct {
	Part                string
	Shear, Moment, Flow float64 // N, N·mm, N/mm: largest either way
	ShearAt, MomentAt   float64 // along the rib, mm
	FlowAt              float64
	FlowTop             bool // the largest flow is that of the top skin
}

// Peaks returns the most of every figure along the rib.
func (r RibForces) Peaks() RibPeaks {
	p := RibPeaks{Part: r.Part}
	larger := func(v float64, most, place *float64, at float64) bool {
		if math.Abs(v) <= *most {
			return false
		}
		*most, *place = math.Abs(v), at
		return true
	}
	for _, s := range r.Segments {
		at := (s.From + s.To) / 2
		larger(s.Shear, &p.Shear, &p.ShearAt, at)
		larger(s.Moment, &p.Moment, &p.MomentAt, at)
		if larger(s.FlowTop, &p.Flow, &p.FlowAt, at) {
			p.FlowTop = true
		}
		if larger(s.FlowBottom, &p.Flow, &p.FlowAt, at) {
			p.FlowTop = false
		}
	}
	return p
}
