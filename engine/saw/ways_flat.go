package saw

import "math"

const (
	cautionStack = "Clamp the stack on a board that may be cut into, edges and datum ends flush. Lower the running blade beside the wood only if the saw is made for it; let it stop before it is lifted."
	cautionMark  = "The mark is for the lowest board: the upper ones are cut past it. Put a stop on the rail, and try it on scrap."
	cautionDrift = "The blade drifts in a stack, most at the bottom: slow feed, a fresh blade, and test the lowest board."
)

// railFlat is a circular saw that stops at the mark, with the boards flat.
func railFlat(j Job, t Tools) Way {
	w := Way{Kind: RailFlat, Name: "boards flat in a stack, circular saw on a rail stopped at the mark", Layers: 1, Miss: Miss{0.4, 0.4, 0.5},
		Cautions: []string{cautionStack, cautionMark, cautionOff}}
	w.pack(j, 1)
	if w.lacks("circular saw with a rail", t.Rail.Blade > 0) {
		return w
	}
	w.complete(t.Rail)
	w.side(j, t, t.Rail.Kerf, "blade")
	w.deep(math.Min(t.Rail.Reach, t.Rail.Blade/2), j.Thickness, "saw on its rail", "board's thickness")
	s, ok := LargestStack(t.Rail, j.Thickness, j.Boards, t.Plunge, t.Overrun)
	if !ok {
		s = Stack{Diameter: t.Rail.Blade, Boards: 1, Thickness: j.Thickness, Plunge: math.Min(t.Plunge, math.Min(t.Rail.Reach, t.Rail.Blade/2)-j.Thickness)}
		if past, err := s.Overrun(); err == nil {
			w.Overrun = past
			w.cannot("Even a single board is cut %s past the mark with the blade %s below it; accepted are %s. %s", mm(past), mm(s.Plunge), mm(t.Overrun), shorter(t, j.Thickness))
		}
		w.cannot("The blade does not come through one board.")
		return w
	}
	w.pack(j, s.Boards)
	s.Boards = w.AtOnce // shared out evenly, they plunge deeper
	s.Plunge = math.Min(t.Plunge, math.Min(t.Rail.Reach, t.Rail.Blade/2)-float64(s.Boards)*j.Thickness)
	w.Stack = s
	w.Overrun = s.past(0)
	if j.Depth+w.Overrun >= j.Height {
		w.cannot("Slots %s past the mark would cut the boards in two.", mm(w.Overrun))
	}
	if w.Passes > 1 || w.Overrun > 0 {
		w.After = "Lift the waste out; an arc stays at the bottom of each slot, deepest on the upper face."
	}
	return w
}

// shorter says what would bring the cut of a single board nearer to its mark.
func shorter(t Tools, thickness float64) string {
	p, err := LeastPlunge(t.Rail.Blade, thickness, t.Overrun)
	if err != nil || p+thickness > math.Min(t.Rail.Reach, t.Rail.Blade/2) {
		return "No plunge within the saw's reach is enough: stop where the upper face is at the mark and finish by hand, or take another way."
	}
	return "A plunge of " + mm(math.Ceil(10*p)/10) + " into a board below would do."
}

func routerFlat(j Job, t Tools) Way {
	w := Way{Kind: RouterFlat, Name: "boards flat in a stack, router in a guide", Miss: Miss{0.3, 0.2, 0.3},
		After:    "Square the round corners of every slot with a chisel: their radius is half the bit.",
		Cautions: []string{cautionBit, cautionOff}}
	w.pack(j, 1)
	if w.lacks("router", t.Router.Bit > 0) {
		return w
	}
	w.routed(j, t, j.Thickness, "board's thickness")
	if w.Why == "" {
		w.pack(j, int(math.Min(t.Router.Cut/j.Thickness+nearly, maxBoards)))
		w.routed(j, t, float64(w.AtOnce)*j.Thickness, "stack")
	}
	return w
}

func jigFlat(j Job, t Tools) Way {
	w := Way{Kind: JigFlat, Name: "boards flat in a stack, jig saw", Layers: 1, Passes: 2, Miss: Miss{0.8, 0.8, 1}, Cautions: []string{cautionDrift, cautionOff}}
	w.pack(j, 1)
	if w.lacks("jig saw", t.Jig.Kerf > 0) {
		return w
	}
	w.twoSides(j, t.Jig)
	w.deep(t.Jig.Reach, j.Thickness, "jig saw", "board's thickness")
	if w.Why == "" {
		w.pack(j, int(math.Min(t.Jig.Reach/j.Thickness+nearly, maxBoards)))
	}
	return w
}
