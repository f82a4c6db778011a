package engine

import (
	"fmt"
	"math"

	"flatwright/engine/catalog"
	"flatwright/engine/length"
	"flatwright/engine/press"
)

// widestBay returns the clear sides of the widest bay, mm.
func (p *presser) widestBay() (a, b float64) {
	d := p.d
	ys, xs := d.RibPlaces()
	gap := func(at []float64, thick, far float64) float64 {
		widest := math.Max(at[0]-thick/2, far-at[len(at)-1]-thick/2) // overhangs, held on one side only
		widest = math.Max(0, 2*widest)
		for i := 1; i < len(at); i++ {
			widest = math.Max(widest, at[i]-at[i-1]-thick)
		}
		return math.Max(widest, 1)
	}
	return gap(xs, d.Crosswise.Thickness, d.Length), gap(ys, d.Lengthwise.Thickness, d.Width)
}

// bay is the widest bay under a skin.
func (p *presser) bay(m *catalog.Sheet, s Skin) press.Bay {
	a, b := p.widestBay()
	ex, ey := m.EBendAlong, m.EBendAcross
	if s.Across {
		ex, ey = ey, ex
	}
	i := math.Pow(s.Thickness, 3) / 12
	return press.Bay{A: a, B: b, Dx: ex * i, Dy: ey * i, H: 2*m.GEdge*i + m.Nu*math.Sqrt(ex*ey)*i}
}

// dip is how deep the softer skin goes down between ribs under a pressure on its
// whole face, mm.
func (p *presser) dip(face float64) float64 {
	return math.Max(p.bay(&p.m.top, p.d.TopSkin).Dip(face), p.bay(&p.m.bottom, p.d.BottomSkin).Dip(face))
}

// checks finds what the pressure of the way that is picked does to the wood; with
// none, the pressure that is needed.
func (p *presser) checks() {
	d, m, g := p.d, p.m, p.g
	onRibs, face := g.Needed, 0.0
	if g.Way >= 0 {
		w := g.Ways[g.Way]
		onRibs = w.Pressure
		if w.Way == ByVacuum || w.Way == ByWeights {
			face = w.Pressure * g.Area / (d.Length * d.Width)
		}
	}
	add := func(name string, value, limit float64, unit, source string) {
		g.Checks = append(g.Checks, PressCheck{name, value, limit, unit, source})
	}
	for _, r := range [...]struct {
		name string
		set  RibSet
		m    *catalog.Sheet
	}{{"lengthwise ribs", d.Lengthwise, &m.lengthwise}, {"crosswise ribs", d.Crosswise, &m.crosswise}} {
		strength := r.m.FCompAcross
		if r.set.Upright {
			strength = r.m.FCompAlong
		}
		add("crushing of the "+r.name, onRibs, strength, "MPa", "strength of the material table from edge to edge, 5th percentile")
		add("the "+r.name+" giving way sideways", onRibs, press.Columns(upright(r.m, r.set), r.set.Thickness, d.CoreDepth), "MPa", "Euler, edges free to turn while the glue is wet")
	}
	add("the skins' faces on the ribs", onRibs, math.Min(m.top.FBearing, m.bottom.FBearing), "MPa", "strength of the material table across the face, 5th percentile")
	for _, s := range [...]struct {
		name string
		skin Skin
		m    *catalog.Sheet
	}{{"top skin", d.TopSkin, &m.top}, {"bottom skin", d.BottomSkin, &m.bottom}} {
		if face == 0 {
			continue
		}
		b := p.bay(s.m, s.skin)
		x, y := b.Stress(face, s.skin.Thickness)
		fx, fy := s.m.FBendAlong, s.m.FBendAcross
		if s.skin.Across {
			fx, fy = fy, fx
		}
		if x/fx < y/fy {
			x, fx = y, fy
		}
		add("bending of the "+s.name+" over the ribs", x, fx, "MPa", "strips held level over the ribs; strength of the material table, 5th percentile")
		add("dip of the "+s.name+" between ribs", b.Dip(face), visibleDip, "mm", "plate held level over the ribs (Hearmon, from memory); what a hand feels, common practice, no source")
	}
	if g.Way >= 0 && (g.Ways[g.Way].Way == ByClamps || g.Ways[g.Way].Way == ByCauls) {
		force := 0.0
		for _, c := range p.kinds() {
			force = math.Max(force, c.force())
		}
		add("a clamp's pad straight on the skin", force/clampPad, math.Min(m.top.FBearing, m.bottom.FBearing), "MPa", fmt.Sprintf("%s N on a pad of %.0f mm²; strength of the material table across the face", length.Number(force, 3), clampPad))
	}
}

// InWords says what a check found.
func (c PressCheck) InWords() string {
	verdict := "holds"
	if !c.Holds() {
		verdict = "does not hold"
		if c.Unit == "mm" {
			verdict = "is to be seen while it is pressed; nearly all of it springs back, what the glue sets in stays"
		}
	}
	return fmt.Sprintf("%s: %s %s against %s %s, %s (%s)", capital(c.Name), length.Number(c.Value, 2), c.Unit, length.Number(c.Limit, 2), c.Unit, verdict, c.Source)
}

// pins are the two crossings farthest apart: wood for a pin stands under both.
func (p *presser) pins() []PinPlace {
	ys, xs := p.d.RibPlaces()
	return []PinPlace{{xs[0], ys[0]}, {xs[len(xs)-1], ys[len(ys)-1]}}
}

// vents are the holes through crosswise ribs that join every row of bays to the
// outside, where no hole is drilled yet.
func (p *presser) vents() []Vent {
	d, tb := p.d, p.d.EdgeBand.Thickness
	ys, xs := d.RibPlaces()
	half := d.Lengthwise.Thickness / 2
	edges := []float64{tb}
	for _, y := range ys {
		edges = append(edges, y-half, y+half)
	}
	edges = append(edges, d.Width-tb)
	size := math.Min(ventSize, d.CoreDepth/10)
	out := []Vent{}
	for row := 0; row+1 < len(edges); row += 2 {
		if edges[row+1]-edges[row] < 3*size {
			continue // a rib at the edge closes no bay
		}
		for i, x := range xs {
			id := fmt.Sprintf("C%d", i+1)
			if !p.holed(id, edges[row], edges[row+1]) {
				out = append(out, Vent{id, x, (edges[row] + edges[row+1]) / 2, d.CoreDepth / 2, size})
			}
		}
	}
	return out
}

// holed reports whether a hole of the design goes through a crosswise rib between
// two places.
func (p *presser) holed(rib string, from, to float64) bool {
	for _, h := range p.d.Holes {
		if h.Part != rib {
			continue
		}
		for i := range h.number() {
			if _, y := h.place(i); y > from && y < to {
				return true
			}
		}
	}
	return false
}

// ventsText says how many holes there are to drill.
func (p *presser) ventsText() string {
	if len(p.g.Vents) == 0 {
		return "nothing: the holes of the design join all bays"
	}
	v := p.g.Vents[0]
	return fmt.Sprintf("%d holes of %.3g mm, %.0f mm above the lower edge, through every crosswise rib in the middle of each row of bays", len(p.g.Vents), v.Diameter, v.Up)
}

// Clamping takes so long for each clamp, screw or caul and person, minutes; common
// practice, no source.
const (
	eachLow, eachHigh   = 0.3, 0.8
	layLow, layHigh     = 1.0, 3.0 // to lay the skin on and pin it
	pumpLow, pumpHigh   = 2.0, 8.0 // to close a bag and draw it down
	stackLow, stackHigh = 5.0, 15.0
)

// closing compares the time to close and press with the closed time.
func (p *presser) closing() {
	if p.g.Way < 0 {
		return
	}
	w, people := p.g.Ways[p.g.Way], math.Max(1, float64(p.d.Shop.People))
	n := float64(w.Count)
	if w.Way == ByCauls {
		n *= 2
	}
	low, high := layLow+n*eachLow/people, layHigh+n*eachHigh/people
	switch w.Way {
	case ByVacuum:
		low, high = layLow+pumpLow, layHigh+pumpHigh
	case ByWeights:
		low, high = layLow+stackLow, layHigh+stackHigh
	}
	p.g.Pressing = Range{low, high}
	closed := Range{p.glue.ClosedTime.Low * p.g.Factor, p.glue.ClosedTime.High * p.g.Factor}
	verdict := "fits"
	switch {
	case low > closed.High:
		verdict = "does not fit: more hands, fewer and stronger clamps or a slower glue"
	case high > closed.Low:
		verdict = "may fit: lay everything out in the order in which it goes on"
	}
	p.g.Closing = fmt.Sprintf("To lay a skin on and press it takes %s with %.0f people (common practice, no source); the joint may stay closed without pressure for %s. It %s.", Minutes(low, high), people, Minutes(closed.Low, closed.High), verdict)
}
