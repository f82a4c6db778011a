package engine

import (
	"fmt"
	"strings"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// Advice says in a few lines what to do about open time and pressure.
func (g *GlueUpReport) Advice() []string {
	var out []string
	taken, best := g.Splits[g.Taken], g.Splits[g.Best]
	out = append(out, "Planned: "+taken.InWords()+".")
	switch {
	case g.Best != g.Taken && best.Fit == FitsSurely:
		out = append(out, "Proposed instead: "+best.InWords()+".")
	case g.Best != g.Taken:
		out = append(out, "Nothing fits for sure. Nearest: "+best.InWords()+".")
	case taken.Fit != FitsSurely:
		out = append(out, "No split, no more hands and no glue of the table fits better: make the grid coarser, or the top in two parts.")
	}
	if g.Way < 0 {
		return append(out, "No way of pressing reaches the pressure with what is stated. A glue that needs less, fewer and stronger clamps with cauls, or a thicker, wider-spaced grid would.")
	}
	w := g.Ways[g.Way]
	text := "Press with: " + lowered(w.Name)
	if !w.Reaches {
		text += ", as you picked, though " + w.Why
	}
	return append(out, text+".")
}

// NeedText says which pressure is needed and which force that is.
func (g *GlueUpReport) NeedText() string {
	return fmt.Sprintf("%s MPa on the ribs, %s N on each skin: %s.", length.Number(g.Needed, 2), length.Number(g.Force, 3), g.Source)
}

// PinText says how wet skins are kept from sliding.
func (g *GlueUpReport) PinText() string {
	a, b := g.Pins[0], g.Pins[len(g.Pins)-1]
	return fmt.Sprintf("A wet skin slides as soon as it is pressed. Drill two thin holes through each skin over the crossings at %s from the left and %s from the front, and at %s and %s, while all lies dry and square; put headless pins in, and draw the rib lines on the outside. Pull the pins when the glue has set; the holes in the top are plugged, or lie where an edge strip covers them.",
		inMM(a.X), inMM(a.Y), inMM(b.X), inMM(b.Y))
}

// VentText says where the bays need holes in a bag; "" where none are needed.
func (g *GlueUpReport) VentText() string {
	if len(g.Vents) == 0 {
		return ""
	}
	var ys []string
	for _, v := range g.Vents {
		if v.Rib == g.Vents[0].Rib {
			ys = append(ys, fmt.Sprintf("%.0f mm", v.Y))
		}
	}
	v := g.Vents[0]
	return fmt.Sprintf("Under vacuum: holes of %.3g mm through every crosswise rib, %.0f mm above its lower edge, %s from the front. A row of bays then breathes through all its ribs, out at both ends. The bands go on afterwards.",
		v.Diameter, v.Up, strings.Join(ys, ", "))
}

// PressCautions are what pressing can do to people.
var PressCautions = []string{
	"Crush: a clamp of 3 000 N presses like 300 kg. Fingers out of the joint, long bars kept from swinging, nobody under the panel.",
	"Stacks: weights tip and slide. Low, spread and fenced stacks, nothing higher than half of the top's width, and a floor that carries them; water in open tubs shifts.",
	"Lean: a stack twice as high as it is wide falls when it leans by 27° (statics), and far sooner when it stands on a wet, sliding skin.",
	"Vacuum: no hands between bag and edge, pump and hose checked for heat, and a gauge that somebody watches until the glue holds.",
}

// glueUp prints the plan of the glue-up.
func (p *packet) glueUp() {
	g := &p.r.GlueUp
	if len(g.Splits) == 0 {
		return
	}
	p.section("Glue-up plan")
	for _, line := range g.Advice() {
		p.text("• "+InUnits(line, p.f), body)
	}
	p.subheading("Glue to have ready")
	p.glueTable()
	p.subheading("Open time")
	p.text(fmt.Sprintf("The times of the table times %s: %s.", length.Number(g.Factor, 2), g.Air), body)
	rows := [][]string{}
	for i, s := range g.Splits {
		rows = append(rows, []string{s.Name, Minutes(s.Low, s.High), Minutes(s.Open.Low, s.Open.High), [...]string{"does not fit", "may fit", "fits"}[s.Fit], markOf(i == g.Taken, i == g.Best)})
	}
	p.table([]draw.Column{{Head: "How", Width: 80}, {Head: "Longest go", Width: 26, Right: true}, {Head: "Open time", Width: 26, Right: true}, {Head: "", Width: 22}, {Head: "", Width: 26}}, rows)
	p.text(InUnits(g.Closing, p.f), body)
	p.subheading("Pressure")
	p.text(InUnits(g.NeedText(), p.f), body)
	for i := range g.Ways {
		p.pressOption(i)
	}
	p.subheading("What the pressure does to the wood")
	for _, c := range g.Checks {
		p.text([...]string{"■ ", "• "}[truth(c.Holds())]+InUnits(c.InWords(), p.f), body)
	}
	p.subheading("Against sliding, and for the air")
	p.text(InUnits(g.PinText(), p.f), body)
	if text := g.VentText(); text != "" {
		p.text(InUnits(text, p.f), body)
	}
	p.need(95)
	p.subheading("On the outside face")
	p.figure(GlueUpDrawing(p.d, p.r, p.f), min(p.room(), 90))
	p.text(GlueUpCaption(p.r), small)
	p.ribLines()
	p.subheading("Take care")
	for _, line := range PressCautions {
		p.text("▲ "+line, body)
	}
}

func truth(b bool) int {
	if b {
		return 1
	}
	return 0
}

func markOf(taken, best bool) string {
	switch {
	case taken:
		return "as planned"
	case best:
		return "proposed"
	}
	return ""
}

// glueTable prints the glue of each side.
func (p *packet) glueTable() {
	g := &p.r.GlueUp
	rows := [][]string{}
	var grams, ml float64
	for _, s := range g.Sides {
		rows = append(rows, append([]string{s.Name}, s.InWords(p.f)...))
		grams, ml = grams+s.Grams, ml+s.Millilitres
	}
	rows = append(rows, append([]string{"together"}, GlueSide{Grams: grams, Millilitres: ml}.InWords(p.f)...))
	p.table([]draw.Column{{Head: "Side", Width: 60}, {Head: "Joint", Width: 25, Right: true}, {Head: "Area", Width: 30, Right: true}, {Head: "Glue", Width: 25, Right: true}, {Head: "", Width: 25, Right: true}}, rows)
	p.text(fmt.Sprintf("The mean of the table's spread; %.0f %% of what is poured stays in the tool (common practice, no source).", 100*g.Waste), small)
}

// InWords returns length, area, mass and volume of a side in the person's units,
// with nothing for what is 0.
func (s GlueSide) InWords(f length.Format) []string {
	say := func(v, metric, foreign float64, unit, foreignUnit string, digits int) string {
		switch {
		case v == 0:
			return ""
		case f.Imperial:
			return fmt.Sprintf("%.*f %s", digits, v/foreign, foreignUnit)
		}
		return fmt.Sprintf("%.*f %s", digits, v/metric, unit)
	}
	const foot = 12 * length.Inch
	digits := 0
	if f.Imperial {
		digits = 1
	}
	return []string{say(s.Length, 1000, foot, "m", "ft", 1), say(s.Area, 1e6, foot*foot, "m²", "ft²", 2),
		say(s.Grams, 1, 28.349523125, "g", "oz", digits), say(s.Millilitres, 1, 29.5735295625, "ml", "fl oz", digits)}
}

// pressOption prints one way to press; one that does not reach is struck.
func (p *packet) pressOption(i int) {
	g := &p.r.GlueUp
	w := g.Ways[i]
	mark := ""
	switch {
	case !w.Reaches:
		mark = "✗ "
	case i == g.Way:
		mark = "● "
	}
	p.need(14)
	p.text(mark+w.Name, strong)
	if !w.Reaches {
		p.text("Not reached: "+InUnits(w.Why, p.f)+".", body)
		return
	}
	for _, line := range w.Lines {
		p.text("• "+InUnits(line, p.f), body)
	}
	if w.Dip > 0 {
		p.text("• "+InUnits(fmt.Sprintf("The skin dips %s mm between ribs while it is pressed.", length.Number(w.Dip, 2)), p.f), body)
	}
}

// ribLines prints the force of every rib line.
func (p *packet) ribLines() {
	rows := [][]string{}
	for _, l := range p.r.GlueUp.RibLines {
		rows = append(rows, []string{l.Rib, p.length(l.At), InUnits(length.Number(l.Force, 3)+" N", p.f), fmt.Sprint(l.Clamps), p.length(l.Spacing), InUnits(l.KindsText(p.d.GlueUp), p.f)})
	}
	p.table([]draw.Column{{Head: "Rib", Width: 20}, {Head: "Line at", Width: 30, Right: true}, {Head: "Force needed", Width: 30, Right: true}, {Head: "Clamps", Width: 20, Right: true}, {Head: "One every", Width: 24, Right: true}, {Head: "", Width: 46}}, rows)
}

// glueUp writes the plan of the glue-up for people to read.
func (p *printer) glueUp(g *GlueUpReport, f length.Format) {
	if len(g.Splits) == 0 {
		return
	}
	p.line("\nGlue-up:")
	for _, s := range g.Sides {
		words := s.InWords(f)
		p.line("  %s: %s of joint, %s or %s of glue with what the tool wastes", s.Name, words[1], words[2], words[3])
	}
	for _, line := range g.Advice() {
		p.line("  %s", InUnits(line, f))
	}
	p.line("  %s", InUnits(g.NeedText(), f))
	for _, w := range g.Ways {
		if w.Reaches {
			p.line("  %s: reaches it. %s", w.Name, InUnits(w.Lines[0], f))
			continue
		}
		p.line("  %s: does not reach it: %s.", w.Name, InUnits(w.Why, f))
	}
	for _, c := range g.Checks {
		if !c.Holds() {
			p.line("  ■ %s", InUnits(c.InWords(), f))
		}
	}
	p.line("  %s", InUnits(g.Closing, f))
}

// listed returns a report whose lists are empty instead of nil.
func (g GlueUpReport) listed() GlueUpReport {
	g.Sides, g.Splits, g.RibLines, g.Ways = list(g.Sides), list(g.Splits), list(g.RibLines), list(g.Ways)
	g.Checks, g.Pins, g.Vents = list(g.Checks), list(g.Pins), list(g.Vents)
	return g
}
