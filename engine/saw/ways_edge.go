package saw

import "math"

// Sizes of packs on edge; common practice, no source.
const (
	railRunUp  = 350 // of a rail's length, that saw and run-in need beside the pack, mm
	benchPack  = 150 // that a sled or a mitre gauge still guides, mm
	radialPack = 300 // that lies against a fence, where no stroke is stated, mm
	routerPack = 300
	handPack   = 40 // that a hand saw follows two lines through, mm
)

const (
	cautionPack  = "Clamp the pack so that no board can creep, its lower edges on one flat bed and its datum ends flush; boards of equal height only, or the lower ones get shallow slots."
	cautionOff   = "Set blade and cutter with the plug pulled; wear eye and ear protection, and mind the dust."
	cautionRail  = "A rail across a narrow pack tips: carry it on boards of the same height at both sides, and clamp it."
	cautionTable = "A cut that is not through the wood needs the crown guard off on many table saws: use a sled or a mitre gauge with a stop, keep both hands off the line, and put the guard back. The riving knife stays if it is lower than the blade."
	cautionLong  = "Long boards tip off a table saw: carry both ends at table height, and never push with the fence and the mitre gauge at once."
	cautionDraw  = "A drawn saw climbs into the wood: hold it back, lock the depth, and keep the hand off the line of the blade."
	cautionWide  = "A wide cutter takes much wood at once: only where the saw's maker and the local rules allow one (many saws cannot take or brake it, some rules forbid it), with guard, at the speed marked on it, a slow feed, and more than one pass if the motor labours."
	cautionBit   = "Run the router against the bit's turn, never with it; shallow passes, collet tight, both hands on it."
	cautionHand  = "Cut on the waste side of both lines; keep the free hand behind the teeth."
)

// onEdge fills in a way that crosses a pack of most mm of boards on edge.
func onEdge(j Job, kind Kind, name string, most float64, miss Miss, cautions ...string) Way {
	w := Way{Kind: kind, Name: name, Layers: 1, Miss: miss, Cautions: append([]string{cautionPack}, cautions...)}
	w.pack(j, int(math.Floor(math.Min(most/j.Thickness, maxBoards)+nearly)))
	if most < j.Thickness {
		w.cannot("A board of %s is more than the %s that there is room for.", mm(j.Thickness), mm(most))
	}
	return w
}

// complete says which figure of a saw is missing.
func (w *Way) complete(s Saw) {
	if !(s.Kerf > 0) || !(s.Reach > 0) {
		w.cannot("Give the width of the blade's cut and how far it reaches.")
	}
}

func railOnEdge(j Job, t Tools) Way {
	most := float64(maxBoards)
	if t.Rail.Travel > 0 {
		most = t.Rail.Travel - railRunUp
	}
	w := onEdge(j, RailOnEdge, "boards ganged on edge, circular saw on a rail", most, Miss{0.4, 0.4, 0.3}, cautionRail, cautionOff)
	if !w.lacks("circular saw with a rail", t.Rail.Blade > 0) {
		w.sawn(j, t, t.Rail, "saw on its rail")
	}
	return w
}

// sawn sets passes and reach of a round blade that crosses the boards.
func (w *Way) sawn(j Job, t Tools, s Saw, tool string) {
	w.complete(s)
	w.side(j, t, s.Kerf, "blade")
	w.deep(math.Min(s.Reach, s.Blade/2), j.Depth, tool, "slot's depth")
	w.runOut(s.Blade, j.Depth)
}

// runOut sets how far a round cutter stands out of a pack at full depth.
func (w *Way) runOut(diameter, depth float64) {
	if c, err := HalfChord(diameter, depth, 0); err == nil {
		w.Clear = c
	}
}

func benchOnEdge(j Job, t Tools) Way {
	w := onEdge(j, BenchOnEdge, "boards ganged on edge, over a table saw", benchPack, Miss{0.2, 0.2, 0.2}, cautionTable, cautionLong, cautionOff)
	if !w.lacks("table saw", t.Bench.Blade > 0) {
		w.sawn(j, t, t.Bench, "table saw")
	}
	return w
}

func radialOnEdge(j Job, t Tools) Way {
	w := onEdge(j, RadialOnEdge, "boards ganged on edge, under a radial or sliding mitre saw", t.stroke(), Miss{0.3, 0.3, 0.3}, cautionDraw, cautionOff)
	if !w.lacks("radial or sliding mitre saw", t.Radial.Blade > 0) {
		w.sawn(j, t, t.Radial, "saw")
		w.After = "The depth stop of a sliding saw leaves the arc of its blade at the end of the stroke: draw it clear of the pack."
	}
	return w
}

// stroke is how wide a pack a radial saw crosses.
func (t Tools) stroke() float64 {
	if t.Radial.Travel > 0 {
		return t.Radial.Travel
	}
	return radialPack
}

// wide sets passes and reach of a wide cutter.
func (w *Way) wide(j Job, t Tools, tool string) {
	d := t.Dado
	switch {
	case !(d.Most >= d.Least) || !(d.Least > 0) || !(d.Reach > 0):
		w.cannot("Give the least and the greatest width of the cutter and how far it reaches.")
	case j.Width < d.Least-nearly:
		w.cannot("The cutter is at least %s wide, more than the slot of %s.", mm(d.Least), mm(j.Width))
	default:
		w.side(j, t, math.Min(d.Most, j.Width), "cutter")
	}
	w.deep(math.Min(d.Reach, d.Diameter/2), j.Depth, tool, "slot's depth")
	w.byDepth(j.Depth, wideStep)
	w.runOut(d.Diameter, j.Depth)
}

// byDepth sets the passes by depth.
func (w *Way) byDepth(depth, step float64) {
	n, err := Layers(depth, step)
	if err != nil {
		w.cannot("In steps of %s there is no end of passes through %s. Check both.", mm(step), mm(depth))
	}
	w.Layers = n
}

// wideStep is the depth that a wide cutter takes in one pass, mm; common
// practice, no source.
const wideStep = 20

func dadoBench(j Job, t Tools) Way {
	w := onEdge(j, DadoBench, "boards ganged on edge, wide cutter on a table saw", benchPack, Miss{0.2, 0.1, 0.2}, cautionWide, cautionTable, cautionLong, cautionOff)
	if !w.lacks("wide cutter (dado stack)", t.Dado.Diameter > 0) && !w.lacks("table saw", t.Bench.Blade > 0) {
		w.wide(j, t, "cutter")
	}
	return w
}

func dadoRadial(j Job, t Tools) Way {
	w := onEdge(j, DadoRadial, "boards ganged on edge, wide cutter on a radial saw", t.stroke(), Miss{0.3, 0.1, 0.3}, cautionWide, cautionDraw, cautionOff)
	if !w.lacks("wide cutter (dado stack)", t.Dado.Diameter > 0) && !w.lacks("radial or sliding mitre saw", t.Radial.Blade > 0) {
		w.wide(j, t, "cutter")
	}
	return w
}

func routerOnEdge(j Job, t Tools) Way {
	w := onEdge(j, RouterOnEdge, "boards ganged on edge, router along a guide", routerPack, Miss{0.2, 0.2, 0.2}, cautionBit, cautionOff)
	if !w.lacks("router", t.Router.Bit > 0) {
		w.routed(j, t, j.Depth, "slot's depth")
	}
	return w
}

// routed sets the passes of the router's bit through depth mm.
func (w *Way) routed(j Job, t Tools, depth float64, what string) {
	r := t.Router
	if !(r.Cut > 0) || !(r.Step > 0) {
		w.cannot("Give how deep the bit cuts.")
	}
	w.side(j, t, r.Bit, "bit")
	w.deep(r.Cut, depth, "bit", what)
	w.byDepth(depth, r.Step)
}

func handOnEdge(j Job, t Tools) Way {
	w := onEdge(j, HandOnEdge, "a few boards on edge, hand saw and chisel", math.Max(handPack, j.Thickness), Miss{0.5, 0.5, 0.7}, cautionHand)
	if w.lacks("hand saw", t.Hand.Kerf > 0) {
		return w
	}
	w.Passes = 2
	w.twoSides(j, t.Hand)
	if t.Hand.Reach > 0 {
		w.deep(t.Hand.Reach, j.Depth, "saw", "slot's depth")
	}
	return w
}

// twoSides says what two cuts with a narrow saw leave.
func (w *Way) twoSides(j Job, s Narrow) {
	if 2*s.Kerf > j.Width {
		w.cannot("Two cuts of %s are wider than the slot of %s. A finer blade would do.", mm(s.Kerf), mm(j.Width))
	}
	w.After = "Two cuts at the slot's sides; chop or nibble the waste out at the bottom and pare it to the line."
}
