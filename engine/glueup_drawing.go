package engine

import (
	"strings"

	"flatwright/engine/draw"
	"flatwright/engine/length"
	"flatwright/engine/press"
)

// GlueUpPart is the part ID under which clamps, cauls and pins are drawn.
const GlueUpPart = "pressing"

// glueUpDrawing gathers the plan of the glue-up.
type glueUpDrawing struct {
	draw.Figure
	d Design
	g *GlueUpReport
	f length.Format
}

// GlueUpDrawing returns the outside face of a skin with the rib lines to draw on
// it, each with its distance from the left end or the front edge, two pins against
// sliding, and what presses: cauls with their clamps, clamps or screws on the rib
// lines, the board under weights, or the holes that let the bays breathe in a bag.
func GlueUpDrawing(d Design, r Result, f length.Format) draw.Figure {
	g := &glueUpDrawing{d: d, g: &r.GlueUp, f: f}
	room := 0.05 * d.Length
	g.Areas = append(g.Areas,
		draw.Area{Points: rect(-2*room, -1.4*room, d.Length+room/2, d.Width+room/2)}, // for the notes
		draw.Area{Points: rect(0, 0, d.Length, d.Width), Fill: draw.Skin, Pen: draw.Outline, Part: "top"})
	g.press()
	g.lines(room)
	for _, p := range r.GlueUp.Pins {
		g.Marks = append(g.Marks, draw.Mark{At: draw.Point{X: p.X, Y: p.Y}, Kind: draw.SpotMark, Part: GlueUpPart})
	}
	return g.Figure
}

// lines draws the rib lines with their distances.
func (g *glueUpDrawing) lines(room float64) {
	tb := g.d.EdgeBand.Thickness
	for _, l := range g.g.RibLines {
		a, b := draw.Point{X: tb, Y: l.At}, draw.Point{X: g.d.Length - tb, Y: l.At}
		note := draw.Note{At: draw.Point{X: -room / 4, Y: l.At}, Anchor: draw.AtRight}
		if strings.HasPrefix(l.Rib, "C") {
			a, b = draw.Point{X: l.At, Y: tb}, draw.Point{X: l.At, Y: g.d.Width - tb}
			note.At, note.Anchor = draw.Point{X: l.At, Y: -0.6 * room}, draw.AtTop // below the clamps
		}
		note.Text, note.Part, note.Ground = g.f.Print(l.At), l.Rib, draw.Sheet
		g.Lines = append(g.Lines, draw.Line{A: a, B: b, Pen: draw.Centre, Part: l.Rib})
		g.Notes = append(g.Notes, note)
	}
}

// press draws what presses.
func (g *glueUpDrawing) press() {
	if g.g.Way < 0 {
		return
	}
	w := &g.g.Ways[g.g.Way]
	switch w.Way {
	case ByCauls:
		g.cauls(w)
	case ByClamps:
		g.onLines(func(l RibLine) int { return l.Clamps })
	case ByScrews:
		g.onLines(func(l RibLine) int { return max(1, int(g.run(l)/w.Pitch)) })
	case ByWeights:
		edge := 0.02 * g.d.Length
		g.Areas = append(g.Areas, draw.Area{Points: rect(edge, edge, g.d.Length-edge, g.d.Width-edge), Fill: draw.Load, Pen: draw.Thin, Part: GlueUpPart})
	case ByVacuum:
		for _, v := range g.g.Vents {
			g.dot(v.X, v.Y)
		}
	}
}

// cauls draws each caul with a clamp at either end.
func (g *glueUpDrawing) cauls(w *PressOption) {
	width, over := orElse(g.d.GlueUp.Caul.Width, caulWidth), 0.02*g.d.Length
	places := w.Places
	if places == nil {
		places = press.Spaced(w.Count, g.d.Length)
	}
	for _, x := range places {
		g.Areas = append(g.Areas, draw.Area{Points: rect(x-width/2, -over, x+width/2, g.d.Width+over), Fill: draw.Band, Pen: draw.Thin, Part: GlueUpPart})
		g.dot(x, -over/2)
		g.dot(x, g.d.Width+over/2)
	}
}

// run is how long a rib line is, mm.
func (g *glueUpDrawing) run(l RibLine) float64 {
	if strings.HasPrefix(l.Rib, "C") {
		return g.d.Width
	}
	return g.d.Length
}

// onLines draws so many dots on every rib line.
func (g *glueUpDrawing) onLines(count func(RibLine) int) {
	for _, l := range g.g.RibLines {
		for _, at := range press.Spaced(min(count(l), mostDots), g.run(l)) {
			if strings.HasPrefix(l.Rib, "C") {
				g.dot(l.At, at)
			} else {
				g.dot(at, l.At)
			}
		}
	}
}

// mostDots is how many are drawn on one line; more run together.
const mostDots = 100

func (g *glueUpDrawing) dot(x, y float64) {
	g.Marks = append(g.Marks, draw.Mark{At: draw.Point{X: x, Y: y}, Kind: draw.DotMark, Part: GlueUpPart})
}

// GlueUpCaption says what is on the drawing.
func GlueUpCaption(r Result) string {
	text := "The outside face with the rib lines to draw on it and their distances from the left end and the front edge. Rings: pins against sliding."
	if r.GlueUp.Way < 0 {
		return text + " No way of pressing reaches the pressure; none is drawn."
	}
	switch r.GlueUp.Ways[r.GlueUp.Way].Way {
	case ByCauls:
		return text + " Bars: cauls; dots: their clamps."
	case ByClamps:
		return text + " Dots: clamps."
	case ByScrews:
		return text + " Dots: screws."
	case ByWeights:
		return text + " Tinted: the board under the weights."
	}
	return text + " Dots: the holes through the crosswise ribs that let the bays breathe."
}
