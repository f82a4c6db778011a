package engine

import (
	"fmt"
	"math"

	"flatwright/engine/catalog"
	"flatwright/engine/length"
	"flatwright/engine/press"
	"flatwright/engine/section"
)

// What is taken where the person did not say. All from memory or common practice.
const (
	usualClamp   = 3000.0 // N; bar clamps make 2 to 6 kN, from memory
	usualScrew   = 4.0    // thread, mm
	usualScrewIn = 25.0   // of it in the rib, mm
	usualHead    = 8.0    // mm
	usualShare   = 80.0   // of the air that a workshop pump takes out, %; common practice, no source
	leakLeaves   = 0.9    // of that, with a bag that leaks a little; common practice, no source
	leastBetween = 0.5    // of the mean pressure, midway between two cauls or screws; common practice, no source
	caulModulus  = 10_000 // of softwood, MPa; EN 338 C20 to C24 have 9 500 to 11 000, from memory
	caulRatio    = 16     // E over G, EN 338
	caulStress   = 16.0   // MPa: f_m 24 of C24 times kmod .9 over 1.3, EN 338 and EN 1995-1-1, from memory
	clampPad     = 800.0  // face of a clamp's pad, mm²; common practice, no source
	widestStack  = 0.5    // height of a stack over the panel's width, above which it is called a risk; common practice, no source
	thinnestRib  = 3.0    // thickness of a rib over the thread of a screw in its edge; common practice, no source
	visibleDip   = 0.1    // mm, as a hand feels and a raking light shows; common practice, no source
	ventSize     = 8.0    // mm, and not over a tenth of the rib's height
)

// presser finds out how skins are pressed.
type presser struct {
	d    *Design
	m    *materials
	g    *GlueUpReport
	glue catalog.Glue
}

// pressing adds what the joint needs and the ways to press.
func (d *Design) pressing(m *materials, g *GlueUpReport) {
	p := &presser{d: d, m: m, g: g, glue: d.glue()}
	densest := math.Max(math.Max(m.top.Density, m.bottom.Density), math.Max(m.lengthwise.Density, m.crosswise.Density))
	g.Needed = press.Needed(p.glue.Pressure.Low, p.glue.Pressure.High, densest)
	g.Source = fmt.Sprintf("%s MPa to %s MPa by the glue table (%s), the more the denser the wood: %.0f kg/m³ is the densest here", pressureText(p.glue.Pressure.Low), pressureText(p.glue.Pressure.High), p.glue.Sources["pressure"], densest)
	g.Force = g.Needed * g.Area
	p.ribLines()
	g.Pins = p.pins()
	g.Vents = p.vents()
	for _, w := range PressWays {
		g.Ways = append(g.Ways, p.way(w))
	}
	p.choose()
	p.checks()
	p.closing()
}

// ribLines lays the need out over the ribs. A crossing counts as the lengthwise
// rib's.
func (p *presser) ribLines() {
	d, tb := p.d, p.d.EdgeBand.Thickness
	ys, xs := d.RibPlaces()
	each := p.kinds()[0].force()
	add := func(id string, at, width, length, area float64) {
		l := RibLine{Rib: id, At: at, Area: area, Force: area * p.g.Needed}
		l.Clamps = press.Count(l.Force, each)
		l.Spacing = length / float64(l.Clamps)
		p.g.RibLines = append(p.g.RibLines, l)
	}
	ls, ws := d.Length-2*tb, d.Width-2*tb
	for i, y := range ys {
		add(fmt.Sprintf("L%d", i+1), y, d.Lengthwise.Thickness, ls, d.Lengthwise.Thickness*ls)
	}
	open := ws - float64(len(ys))*d.Lengthwise.Thickness
	for i, x := range xs {
		add(fmt.Sprintf("C%d", i+1), x, d.Crosswise.Thickness, ws, d.Crosswise.Thickness*open)
	}
	p.share()
}

// way works one way out.
func (p *presser) way(w PressWay) PressOption {
	var o PressOption
	switch w {
	case ByClamps:
		o = p.clamps()
	case ByCauls:
		o = p.cauls()
	case ByWeights:
		o = p.weights()
	case ByScrews:
		o = p.screws()
	case ByVacuum:
		o = p.vacuum()
	}
	o.Way = w
	o.Reaches = o.Why == ""
	return o
}

// falls says that a pressure is below what is needed.
func (p *presser) falls(o *PressOption, what string) {
	if o.Why == "" && o.Pressure < p.g.Needed*(1-nearly) {
		o.Why = fmt.Sprintf("%s %s MPa on the ribs; %s MPa is needed", what, length.Number(o.Pressure, 2), length.Number(p.g.Needed, 2))
		if least := p.glue.Pressure.Low; o.Pressure >= least {
			o.Why += fmt.Sprintf(" in wood as dense as this, %s MPa in the lightest", pressureText(least))
		}
	}
}

// deepest is how far in from the nearest long edge the innermost rib line lies, mm.
func (p *presser) deepest() float64 {
	ys, _ := p.d.RibPlaces()
	deep := 0.0
	for _, y := range ys {
		deep = math.Max(deep, math.Min(y, p.d.Width-y))
	}
	return deep
}

// even is the widest pitch along a rib at which a force on the thinner skin still
// presses midway between two, mm.
func (p *presser) even() float64 {
	d, m := p.d, p.m
	softest := math.Inf(1)
	for _, s := range [...]section.Skin{skin(&m.top, d.TopSkin, false), skin(&m.bottom, d.BottomSkin, false)} {
		softest = math.Min(softest, s.EBend*math.Pow(s.T, 3)/12)
	}
	pitch := d.Width / float64(d.Lengthwise.number())
	bed := upright(&m.lengthwise, d.Lengthwise) * d.Lengthwise.Thickness / d.CoreDepth
	return press.Pitch(press.Beta(bed, softest*pitch), leastBetween)
}

// upright is the modulus of a rib from its lower to its upper edge.
func upright(m *catalog.Sheet, r RibSet) float64 {
	if r.Upright {
		return m.EAlong
	}
	return m.EAcross
}

// caulSizes are what cauls are usually ripped to, mm: the width of softwood studs
// and rising heights.
var caulSizes = [...]float64{45, 70, 95, 120, 145, 170, 195, 220}

const caulWidth = 45.0

// bedUnder is the stiffness of the ribs under a caul, N/mm per mm of its length.
func (p *presser) bedUnder(width float64) float64 {
	d, m := p.d, p.m
	share := float64(d.Lengthwise.number()) * d.Lengthwise.Thickness / d.Width
	return upright(&m.lengthwise, d.Lengthwise) * share * width / d.CoreDepth
}

func straightText(share float64) string {
	if share <= 0 {
		return "A straight caul of that size lifts in its middle: there it presses nothing at all."
	}
	return fmt.Sprintf("A straight caul of that size presses %.0f %% as hard in its middle as at its ends.", 100*share)
}

// weights lie on the whole skin.
func (p *presser) weights() PressOption {
	d := p.d
	face := d.Length * d.Width
	need := press.Mass(p.g.Force)
	o := PressOption{Name: "Dead weights on a board", Stated: d.GlueUp.Weight > 0}
	o.Lines = append(o.Lines,
		fmt.Sprintf("%s kg on each skin: %s litres of water, %s of dry sand or %s of concrete slabs.", length.Number(need, 3), length.Number(press.Volume(need, press.Water), 3), length.Number(press.Volume(need, press.Sand), 3), length.Number(press.Volume(need, press.Concrete), 3)),
		fmt.Sprintf("Spread over the whole top that stands %.0f mm high as water, %.0f mm as sand, %.0f mm as concrete.", press.StackHeight(need, press.Water, face), press.StackHeight(need, press.Sand, face), press.StackHeight(need, press.Concrete, face)))
	if high, wide := press.StackHeight(need, press.Concrete, face), math.Min(d.Width, d.Length); high > widestStack*wide {
		o.Lines = append(o.Lines, fmt.Sprintf("Even of concrete that is a stack on a base of %.0f mm: it falls over when it leans by %.0f°.", wide, press.TipAngle(wide, high)*180/math.Pi))
	}
	most := widestStack * math.Min(d.Width, d.Length)
	mass, what := press.Concrete*face*most*1e-9, fmt.Sprintf("concrete stacked %.0f mm high, half of the width, makes", most)
	if d.GlueUp.Weight > 0 {
		mass, what = d.GlueUp.Weight, fmt.Sprintf("%s kg make", length.Number(d.GlueUp.Weight, 3))
	}
	o.Pressure = math.Min(p.g.Needed, mass*Gravity/p.g.Area)
	p.falls(&o, what)
	o.Dip = p.dip(o.Pressure * p.g.Area / face)
	return o
}

// screws go through the skin into the ribs and come out, or stay.
func (p *presser) screws() PressOption {
	d, s := p.d, p.d.GlueUp.Screws
	o := PressOption{Name: "Screws through the skin", Stated: s.Diameter > 0, Pressure: p.g.Needed}
	s.Diameter, s.Depth, s.Head = orElse(s.Diameter, usualScrew), orElse(s.Depth, usualScrewIn), orElse(s.Head, 2*orElse(s.Diameter, usualHead/2))
	o.Pitch = math.Inf(1)
	least, most := math.Inf(1), 0.0
	for _, l := range p.g.RibLines {
		set, m := d.Lengthwise, &p.m.lengthwise
		if l.Rib[0] == 'C' {
			set, m = d.Crosswise, &p.m.crosswise
		}
		pull := p.screwPull(s, m)
		least, most = math.Min(least, pull), math.Max(most, pull)
		pitch := math.Min(press.ScrewPitch(pull, p.g.Needed, set.Thickness), p.even())
		o.Pitch = math.Min(o.Pitch, pitch)
		o.Count += press.Count(l.Area/set.Thickness, pitch)
		if least := press.LeastPitch(s.Diameter); pitch < least {
			o.Pressure = math.Min(o.Pressure, pull/(least*set.Thickness))
		}
		if set.Thickness < thinnestRib*s.Diameter && o.Why == "" {
			o.Why = fmt.Sprintf("a thread of %.3g mm splits the edge of a rib of %.3g mm; %.3g mm is the most", s.Diameter, set.Thickness, set.Thickness/thinnestRib)
		}
	}
	o.Lines = append(o.Lines,
		fmt.Sprintf("About %d screws of %.3g mm in each skin, every %.0f mm along each rib, %.3g mm of thread in the rib, driven to half of what strips them: that pulls with %s each.", o.Count, s.Diameter, o.Pitch, s.Depth, pullText(least, most)),
		"Begin in the middle of the panel and go outwards; drill the skin to the full thread, so that it is drawn down and not held off. Take them out when the glue has set, or leave them under the bottom.")
	p.falls(&o, fmt.Sprintf("screws of %.3g mm no closer than %.0f mm make", s.Diameter, press.LeastPitch(s.Diameter)))
	return o
}

// pullText is the pull of a screw, in ribs of one sheet or of two.
func pullText(least, most float64) string {
	a, b := length.Number(least, 2)+" N", length.Number(most, 2)+" N"
	if a == b {
		return a
	}
	return a + " to " + b
}

// screwPull is what one screw presses with, N.
func (p *presser) screwPull(s PressScrews, m *catalog.Sheet) float64 {
	thread := section.Withdrawal(s.Diameter, s.Depth, math.Min(densest, catalog.Characteristic(m.Density, m.CVDensity)))
	if _, board := internalBond[m.Kind]; board {
		thread *= boardShare
	}
	return press.ScrewPull(thread, press.HeadPull(s.Head))
}

func orElse(v, usual float64) float64 {
	if v > 0 {
		return v
	}
	return usual
}

// vacuum presses with the air on the whole skin.
func (p *presser) vacuum() PressOption {
	d, v := p.d, p.d.GlueUp.Vacuum
	share := orElse(v.Share, usualShare) / 100
	face := press.OnFace(v.Altitude, share, leakLeaves)
	o := PressOption{Name: "Vacuum bag", Stated: v != Vacuum{}, Pressure: face * d.Length * d.Width / p.g.Area}
	o.Lines = append(o.Lines,
		fmt.Sprintf("At %.0f m the air presses with %.1f kPa; a pump that takes %.0f %% of it out, a tenth of that lost by leaks, leaves %.1f kPa on the bag: %s N on the panel, %s MPa on the ribs if the bag lies on the whole skin.",
			v.Altitude, press.Atmosphere(v.Altitude)/1000, 100*share, 1000*face, length.Number(face*d.Length*d.Width, 3), length.Number(o.Pressure, 2)),
		fmt.Sprintf("The bays are closed boxes: without holes the air in them holds the skins off. Drill %s before the grid is glued.", p.ventsText()))
	if len(p.g.Vents) > 0 {
		a, b := p.widestBay()
		bay := a * b * d.CoreDepth * 1e-6
		o.Lines = append(o.Lines, fmt.Sprintf("Through one such hole the largest bay, %s litres, empties in %s s at choked flow.", length.Number(bay, 2), length.Number(60*press.VentMinutes(bay, p.g.Vents[0].Diameter, 1-share), 2)))
	}
	if v.Flow > 0 {
		litres := d.Length * d.Width * d.CoreDepth * 1e-6
		o.Lines = append(o.Lines, fmt.Sprintf("The pump empties the %.0f l inside the panel in %s min at best; that is part of the closed time.", litres, length.Number(press.PumpDown(litres, v.Flow, 1-share), 2)))
	}
	o.Dip = p.dip(face)
	p.falls(&o, "it makes")
	return o
}

// choose picks the way: that of the design, else the first that reaches and is at
// hand, else the first that reaches, cauls before the others.
func (p *presser) choose() {
	p.g.Way = -1
	for i, o := range p.g.Ways {
		if o.Way == p.d.GlueUp.Press {
			p.g.Way = i
			return
		}
	}
	for _, stated := range [...]bool{true, false} {
		for _, w := range [...]PressWay{ByCauls, ByClamps, ByVacuum, ByScrews, ByWeights} {
			for i, o := range p.g.Ways {
				if o.Way == w && o.Reaches && (o.Stated || !stated) {
					p.g.Way = i
					return
				}
			}
		}
	}
}
