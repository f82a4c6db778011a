package engine

import (
	"fmt"

	"flatwright/engine/draw"
	"flatwright/engine/length"
	"flatwright/engine/saw"
)

// gaugeLap is by how much two strips of a gauge stick overlap, mm: enough for a
// cross on either. Common practice, no source.
const gaugeLap = 12

// gaugeHeight is the height of a strip, mm.
const gaugeHeight = 20

// Gauge returns the strips on which the gauge stick of a group of ribs is drawn
// at full size, none longer than usable mm. A strip too short for the overlap
// gives none.
func (g SlotGroup) Gauge(usable float64) []saw.Tile {
	marks := make([]saw.Mark, len(g.Rows))
	for i, r := range g.Rows {
		marks[i] = saw.Mark{Number: r.Number, Middle: r.Middle, From: r.From, To: r.To}
	}
	tiles, err := saw.Tiles(g.Length, usable, gaugeLap, marks)
	if err != nil {
		return nil
	}
	return tiles
}

// GaugeStrip draws one strip of a gauge stick, to be printed at exactly 1:1: mm
// in the figure are mm on paper. Its lower edge is laid along the rib. Slots are
// hatched from side to side with their number and the station of their middle;
// where two strips meet each has a cross at the same station.
func GaugeStrip(g SlotGroup, t saw.Tile, of int, f length.Format) draw.Figure {
	at := func(station, y float64) draw.Point { return draw.Point{X: station - t.From, Y: y} }
	fig := draw.Figure{Areas: []draw.Area{{Points: rect(0, 0, t.To-t.From, gaugeHeight), Pen: draw.Thin}}}
	line := func(a, b draw.Point, pen draw.Pen) { fig.Lines = append(fig.Lines, draw.Line{A: a, B: b, Pen: pen}) }
	line(at(t.From, 0), at(t.To, 0), draw.Outline)
	for _, m := range t.Marks {
		from, to := max(m.From, t.From), min(m.To, t.To)
		fig.Areas = append(fig.Areas, draw.Area{Points: []draw.Point{at(from, 0), at(to, 0), at(to, 0.4*gaugeHeight), at(from, 0.4*gaugeHeight)}, Hatch: draw.HatchSlash, Pen: draw.Thin})
		if m.Middle < t.From || m.Middle > t.To {
			continue
		}
		line(at(m.Middle, 0), at(m.Middle, 0.55*gaugeHeight), draw.Thin)
		fig.Notes = append(fig.Notes, draw.Note{At: at(m.Middle, 0.57*gaugeHeight), Anchor: draw.AtBottom, Text: fmt.Sprintf("%d: %s", m.Number, f.Bare(m.Middle)), Bold: true, Ground: draw.Sheet})
	}
	const arm = 3.0
	for _, r := range t.Registers {
		line(at(r, 0), at(r, gaugeHeight), draw.Centre)
		line(at(r-arm, 0.75*gaugeHeight), at(r+arm, 0.75*gaugeHeight), draw.Thin)
	}
	if t.Number == 1 {
		fig.Areas = append(fig.Areas, draw.Area{Points: []draw.Point{at(0, gaugeHeight), at(8, gaugeHeight-2.5), at(0, gaugeHeight-5)}, Fill: draw.AccentInk})
		line(at(0, 0), at(0, gaugeHeight), draw.Accent)
	}
	name := fmt.Sprintf("%s, strip %d of %d", g.Mark, t.Number, of)
	if t.Number == 1 {
		name += ", datum: the " + g.Datum + " end"
	}
	fig.Notes = append(fig.Notes, draw.Note{At: draw.Point{X: (t.To - t.From) / 2, Y: gaugeHeight - 0.5}, Anchor: draw.AtTop, Text: name, Colour: draw.Pencil, Ground: draw.Sheet})
	return fig
}
