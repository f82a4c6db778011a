package engine

import (
	"context"
	"fmt"
	"math"

	"flatwright/engine/length"
	"flatwright/engine/plate"
)

// Lean is somebody leaning on the rim where it overhangs the supports, beside
// the panel's own weight: a case of its own.
type Lean struct {
	Where string  `json:"where"` // as "left end"
	X     float64 `json:"x"`
	Y     float64 `json:"y"`
	Down  float64 `json:"down"` // by how much the rim goes down there, relative to the supports, the top fastened to them, mm

	Pull   float64 `json:"pull,omitempty"` // of the screws of the support that is pulled hardest, N, of a top that is fastened down
	PullAt string  `json:"pullAt,omitempty"`
}

// leanCase names the case; its margins carry it.
const leanCase = "someone leans on the rim"

// leanSide is the side of the square that the force of somebody leaning covers,
// mm; common practice, no source.
const leanSide = 100

// leanMost is at how many places somebody may lean.
const leanMost = 8

// leanPlaces returns where a rim overhangs: the middle of each such side, and
// the corners between two of them.
func (d *Design) leanPlaces() []Lean {
	x0, x1, y0, y1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, p := range d.pads() {
		x0, x1 = min(x0, p.X-p.SX/2), max(x1, p.X+p.SX/2)
		y0, y1 = min(y0, p.Y-p.SY/2), max(y1, p.Y+p.SY/2)
	}
	half := min(leanSide, d.Length, d.Width) / 2
	left, right, front, back := x0 > nearly, x1 < d.Length-nearly, y0 > nearly, y1 < d.Width-nearly
	var out []Lean
	add := func(there bool, where string, x, y float64) {
		if there {
			out = append(out, Lean{Where: where, X: x, Y: y})
		}
	}
	add(left, "left end", half, d.Width/2)
	add(right, "right end", d.Length-half, d.Width/2)
	add(front, "front edge", d.Length/2, half)
	add(back, "back edge", d.Length/2, d.Width-half)
	add(left && front, "left front corner", half, half)
	add(right && front, "right front corner", d.Length-half, half)
	add(left && back, "left back corner", half, d.Width-half)
	add(right && back, "right back corner", d.Length-half, d.Width-half)
	return out
}

// leaning solves the case at every place that overhangs and returns, beside
// what is told, the cases and answers for the margins. The top is taken as
// fastened down; the margin of tipping tells of a loose one.
func (d *Design) leaning(ctx context.Context, m *cachedModel, own plate.Press) ([]Lean, []LoadCase, []answers, error) {
	places := d.leanPlaces()
	if len(places) == 0 {
		return nil, nil, nil, nil
	}
	solve := m.solveHeld
	if d.Supports.Fastened {
		solve = m.solve
	}
	alone, err := solve(ctx, []plate.Press{own})
	if err != nil {
		return nil, nil, nil, err
	}
	var cases []LoadCase
	var all []answers
	side := min(leanSide, d.Length, d.Width)
	for i := range places {
		l := &places[i]
		load := Load{Name: "someone at the " + l.Where, Kind: Patch, Force: lean, X: l.X, Y: l.Y, SizeX: side, SizeY: side}
		s, err := solve(ctx, []plate.Press{own, d.Press(load)})
		if err != nil {
			return nil, nil, nil, err
		}
		l.Down = s.Sag(l.X, l.Y)
		if d.Supports.Fastened {
			l.PullAt, l.Pull = d.hardestPull(s)
		}
		cases = append(cases, LoadCase{Name: leanCase, Duration: ShortTerm, Loads: []Load{load}})
		all = append(all, answers{alone, s})
	}
	return places, cases, all, nil
}

// lowestRim returns the place at which the rim goes down most; ok is false
// where none overhangs.
func (w *Whole) lowestRim() (l Lean, ok bool) {
	for _, p := range w.Lean {
		if !ok || p.Down > l.Down {
			l, ok = p, true
		}
	}
	return l, ok
}

// LeanLine tells what somebody who leans on the rim does; "" where no rim
// overhangs the supports.
func (w *Whole) LeanLine(f length.Format) string {
	l, ok := w.lowestRim()
	if !ok {
		return ""
	}
	return fmt.Sprintf("Somebody who leans on the rim with %s presses the %s down by %s, the most of any overhang, the top fastened to its supports; the margins count it as a case of its own.",
		length.Force(lean, f), l.Where, length.Sag(l.Down, f))
}

// leant is a design with somebody leaning on its rim as further cases, and
// their answers, for the margins.
func (d *Design) leant(w solved) (*Design, []answers) {
	e := *d
	e.Cases = append(append([]LoadCase(nil), d.Cases...), w.leanCases...)
	return &e, append(append([]answers(nil), w.cases...), w.lean...)
}
