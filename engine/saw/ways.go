package saw

import (
	"fmt"
	"math"
)

// Job is the slots of all boards of one kind.
type Job struct {
	Boards    int     `json:"boards"`    // of the kind
	Slots     int     `json:"slots"`     // in each
	Height    float64 `json:"height"`    // of a board on edge, mm
	Thickness float64 `json:"thickness"` // of the thickest board, mm
	Width     float64 `json:"width"`     // of the slots, mm
	Depth     float64 `json:"depth"`     // of the slots, mm
}

// Kind names a way to cut.
type Kind string

// The ways, in the order in which [Ways] tells them.
const (
	RailOnEdge   Kind = "rail-on-edge"
	BenchOnEdge  Kind = "bench-on-edge"
	RadialOnEdge Kind = "radial-on-edge"
	RailFlat     Kind = "rail-flat"
	DadoBench    Kind = "dado-bench"
	DadoRadial   Kind = "dado-radial"
	RouterOnEdge Kind = "router-on-edge"
	RouterFlat   Kind = "router-flat"
	JigFlat      Kind = "jig-flat"
	HandOnEdge   Kind = "hand-on-edge"
)

// Range is a least and a most.
type Range struct {
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

// plus and times add and scale ranges.
func (r Range) plus(s Range) Range       { return Range{r.Low + s.Low, r.High + s.High} }
func (r Range) times(by float64) Range   { return Range{r.Low * by, r.High * by} }
func (r Range) add(s Range, n int) Range { return r.plus(s.times(float64(n))) }

// Miss is by how much a way misses, plus or minus mm. Common practice, no
// source; a trial slot tells more.
type Miss struct {
	Station float64 `json:"station"` // place of the slot; it does not add up, every place is from one end
	Width   float64 `json:"width"`
	Depth   float64 `json:"depth"`
}

// Way is one way to cut a job's slots.
type Way struct {
	Kind  Kind   `json:"kind"`
	Name  string `json:"name"`
	Owned bool   `json:"owned"` // the tools for it are there
	Can   bool   `json:"can"`
	Why   string `json:"why,omitempty"` // where it cannot: what stands against it, and what would help

	AtOnce  int     `json:"atOnce"`  // boards in one pack or stack
	Packs   int     `json:"packs"`   // packs or stacks in all
	Passes  int     `json:"passes"`  // side by side, for one slot
	Layers  int     `json:"layers"`  // by depth
	Strokes int     `json:"strokes"` // of the tool, in all
	Minutes Range   `json:"minutes"` // for the whole job, setting up included
	Miss    Miss    `json:"miss"`
	Overrun float64 `json:"overrun"`         // by which the deepest slot is deeper than drawn, mm
	Clear   float64 `json:"clear,omitempty"` // that a round blade stands out before and behind a pack at full depth, mm
	Stack   Stack   `json:"stack,omitzero"`

	After    string   `json:"after,omitempty"` // what is left to do by hand
	Cautions []string `json:"cautions,omitempty"`
}

// Ways returns every way to cut the job, those that cannot too, with the reason.
// Values that tools do not state are the usual ones ([Tools.Filled]). It returns
// [ErrDomain] unless the job has boards and slots, its lengths are above 0, and
// the slots are less deep than the boards are high.
func Ways(j Job, t Tools) ([]Way, error) {
	if j.Boards < 1 || j.Boards > maxBoards || j.Slots < 1 || j.Slots > maxBoards ||
		!(j.Height > 0) || !(j.Thickness > 0) || !(j.Width > 0) || !(j.Depth > 0) || !(j.Depth < j.Height) || math.IsInf(j.Height+j.Thickness+j.Width, 0) {
		return nil, fmt.Errorf("%d boards with %d slots of %g × %g mm in %g × %g mm: %w", j.Boards, j.Slots, j.Width, j.Depth, j.Thickness, j.Height, ErrDomain)
	}
	t = t.Filled()
	ways := []Way{railOnEdge(j, t), benchOnEdge(j, t), radialOnEdge(j, t), railFlat(j, t), dadoBench(j, t), dadoRadial(j, t),
		routerOnEdge(j, t), routerFlat(j, t), jigFlat(j, t), handOnEdge(j, t)}
	for i := range ways {
		w := &ways[i]
		w.Can = w.Owned && w.Why == ""
		if w.Can {
			w.spend(j)
		}
	}
	return ways, nil
}

// Best returns the index of the way that can, leaves no slot deeper than drawn
// by more than the depth's own miss, and takes the least of the longer time; of
// the least over-run if all run over; -1 where none can.
func Best(ways []Way) int {
	best := -1
	for i, w := range ways {
		if w.Can && (best < 0 || w.better(ways[best])) {
			best = i
		}
	}
	return best
}

func (w Way) better(v Way) bool {
	exact, other := w.Overrun <= w.Miss.Depth, v.Overrun <= v.Miss.Depth
	switch {
	case exact != other:
		return exact
	case !exact && w.Overrun != v.Overrun:
		return w.Overrun < v.Overrun
	}
	return w.Minutes.High < v.Minutes.High
}

// cannot gives the first reason against a way.
func (w *Way) cannot(format string, args ...any) {
	if w.Why == "" {
		w.Why = fmt.Sprintf(format, args...)
	}
}

// lacks reports and says that the tool for a way is not there.
func (w *Way) lacks(tool string, owned bool) bool {
	w.Owned = owned
	if !owned {
		w.cannot("No %s is listed among the tools. Give its sizes to see what it would do.", tool)
	}
	return !owned
}

// side sets the passes side by side for a cutter of width k.
func (w *Way) side(j Job, t Tools, k float64, cutter string) {
	n, err := Passes(j.Width, k, t.Overlap)
	switch {
	case err == nil:
		w.Passes = n
	case k > j.Width:
		w.cannot("The %s cuts %s wide, more than the slot of %s. A narrower one would do.", cutter, mm(k), mm(j.Width))
	default:
		w.cannot("The %s cuts %s wide, no more than the passes overlap, %s. Check its width.", cutter, mm(k), mm(t.Overlap))
	}
}

// deep says where a reach is less than what it has to go through.
func (w *Way) deep(reach, need float64, tool, what string) {
	if !(reach >= need-nearly) {
		w.cannot("The %s reaches %s, less than the %s of the %s.", tool, mm(reach), mm(need), what)
	}
}

// pack shares the boards out evenly over as few packs of at most most as they
// need.
func (w *Way) pack(j Job, most int) {
	most = min(max(most, 1), j.Boards)
	w.Packs = (j.Boards + most - 1) / most
	w.AtOnce = (j.Boards + w.Packs - 1) / w.Packs
}

// mm prints a length to a tenth, as the engine's texts have it.
func mm(v float64) string { return fmt.Sprintf("%.4g mm", math.Round(10*v)/10) }
