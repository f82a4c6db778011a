package engine

import (
	"fmt"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// RibDrawing returns one rib from its side with its slots, for marking out: the
// datum end is drawn, and under every slot stands the running station of its
// middle from there. The lower left corner is the origin.
func RibDrawing(p Part, f length.Format) draw.Figure {
	fill, hatch := look(p.Kind)
	fig := draw.Figure{Areas: []draw.Area{{Points: ribOutline(p), Fill: fill, Hatch: hatch, Pen: draw.Outline, Part: p.ID}}}
	off := 0.012 * p.Length
	drawDatum(&fig, p, off)
	for _, r := range p.Rows() {
		fig.Notes = append(fig.Notes,
			draw.Note{At: draw.Point{X: r.Middle, Y: -off}, Anchor: draw.AtTop, Text: f.Bare(r.Middle), Ground: draw.Sheet, Part: p.ID},
			draw.Note{At: draw.Point{X: r.Middle, Y: p.Width + off}, Anchor: draw.AtBottom, Text: fmt.Sprint(r.Number), Bold: true, Ground: draw.Sheet, Part: p.ID})
		edge, floor := 0.0, r.Depth
		if r.FromTop {
			edge, floor = p.Width, p.Width-r.Depth
		}
		fig.Lines = append(fig.Lines, draw.Line{A: draw.Point{X: r.Middle, Y: edge}, B: draw.Point{X: r.Middle, Y: floor}, Pen: draw.Centre, Part: p.ID})
	}
	right := func(from, to float64, rank int, text string) {
		fig.Dimensions = append(fig.Dimensions, draw.Dimension{A: draw.Point{X: p.Length, Y: from}, B: draw.Point{X: p.Length, Y: to}, Side: draw.Right, Rank: rank, Text: text, Part: p.ID})
	}
	if n := len(p.Slots); n > 0 {
		s := p.Slots[n-1]
		if s.FromTop {
			right(p.Width-s.Depth, p.Width, 1, fineText(s.Depth, f))
		} else {
			right(0, s.Depth, 1, fineText(s.Depth, f))
		}
	}
	right(0, p.Width, 2, fineText(p.Width, f))
	fig.Dimensions = append(fig.Dimensions, draw.Dimension{B: draw.Point{X: p.Length}, Side: draw.Below, Rank: 2, Text: f.Print(p.Length), Part: p.ID})
	return fig
}

// RibDrawing is the package's [RibDrawing] with the rib's holes and splices.
func (d Design) RibDrawing(p Part, f length.Format) draw.Figure {
	b := board{Figure: RibDrawing(p, f), d: d, o: DrawingOptions{Lengths: f}, gap: 0.2 * p.Length}
	b.elevationCuts(p, draw.Point{})
	return b.Figure
}

// jointed gathers the ribs of a group that have the same holes and splices, in
// their order: one drawing shows them.
func (d *Design) jointed(parts []string) [][]string {
	var out [][]string
	at := map[string]int{}
	for _, part := range parts {
		key := ""
		for _, s := range d.splicesOf(part) {
			key += fmt.Sprintf("s %.2f %v ", s.At, s.Plates)
		}
		for _, h := range d.Holes {
			if h.Part == part {
				h.Part, h.Kind = "", ""
				key += fmt.Sprintf("h %+v ", h)
			}
		}
		i, known := at[key]
		if !known {
			i = len(out)
			at[key] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], part)
	}
	return out
}

// drawDatum draws the datum end of a rib: a thick line across it and a flag that
// points into the rib.
func drawDatum(fig *draw.Figure, p Part, off float64) {
	fig.Lines = append(fig.Lines, draw.Line{A: draw.Point{}, B: draw.Point{Y: p.Width + 4*off}, Pen: draw.Accent, Part: p.ID})
	fig.Areas = append(fig.Areas, draw.Area{Points: []draw.Point{{Y: p.Width + 4*off}, {X: 1.6 * off, Y: p.Width + 3.4*off}, {Y: p.Width + 2.8*off}}, Fill: draw.AccentInk, Part: p.ID})
	fig.Notes = append(fig.Notes, draw.Note{At: draw.Point{X: 2 * off, Y: p.Width + 3.4*off}, Anchor: draw.AtLeft, Text: "datum, the " + p.datum() + " end", Colour: draw.AccentInk})
}

// fineText prints a thickness or the size of a slot, where a sixteenth of an
// inch is too coarse: decimal inches unless the fraction is exact.
func fineText(mm float64, f length.Format) string {
	if f.Exact(mm) {
		return f.Print(mm)
	}
	return length.Sag(mm, f)
}
