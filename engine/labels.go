package engine

import (
	"context"
	"fmt"
	"io"

	"flatwright/engine/draw"
	"flatwright/engine/pdf"
)

// WriteLabels writes labels as PDF, one for every piece of a valid design, to
// print on plain paper or on sheets that stick and to cut apart along the lines.
// The same design and options give the same bytes. It returns [ErrBlocked], the
// error of ctx or that of w.
func WriteLabels(ctx context.Context, w io.Writer, d Design, o ExportOptions) error {
	if !d.valid() {
		return ErrBlocked
	}
	p, err := newPacket(d, Result{}, PacketOptions{Paper: o.Paper, Lengths: o.Lengths})
	if err != nil {
		return err
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	p.labels()
	p.footers()
	return writePages(w, p.pages, pdf.Info{Title: d.Name, Subject: "Labels for the parts of a hollow top"})
}

// Labels stand two side by side, in as many rows as have room for their text.
const (
	labelColumns = 2
	labelAir     = 2.5 // between a label's line and what is in it, mm
)

// leastLabelHigh is the height of a label's six lines of text, mm.
func (p *packet) leastLabelHigh() float64 {
	h := 2 * labelAir
	for _, s := range []draw.TextSize{big.Size, strong.Size, body.Size, body.Size, small.Size, small.Size} {
		h += p.page.LineHeight(s)
	}
	return h
}

// labels prints a label for every piece.
func (p *packet) labels() {
	p.open("Labels", p.paper)
	p.text("One label for every piece: cut them apart and put each on its piece as it leaves the saw. The arrow is the face grain, the angle marks the datum end of a rib.", small)
	p.y += 2
	rows, width := 0, p.width()/labelColumns
	var high float64
	n := 0
	for _, s := range shapesOf(p.d) {
		for i := range s.pieces {
			if n%labelColumns == 0 && (rows == 0 || n/labelColumns == rows) {
				if rows > 0 {
					p.further()
				}
				n, rows = 0, int(p.room()/p.leastLabelHigh())
				high = p.room() / float64(rows)
			}
			at := draw.Point{X: margin + float64(n%labelColumns)*width, Y: p.y + float64(n/labelColumns)*high}
			p.label(s, i, draw.Rect{Min: at, Max: draw.Point{X: at.X + width, Y: at.Y + high}})
			n++
		}
	}
}

// label prints the label of the i-th piece of a shape.
func (p *packet) label(s shape, i int, at draw.Rect) {
	p.page.Box(at, draw.NoFill, draw.RulePen)
	in := at.Grow(-labelAir)
	sketch := in.Width() * 0.36
	beside := in.Width() - sketch - 2
	y := in.Min.Y
	line := func(text string, width float64, style draw.Style) {
		p.page.Text(in.Min.X, y, p.shorten(text, width, style), draw.AtTopLeft, style)
		y += p.page.LineHeight(style.Size)
	}
	line(s.large(i), beside, big)
	line(s.pieces[i].Name, beside, strong)
	line(p.length(s.Length)+" × "+p.length(s.Width)+" × "+p.fine(s.Thickness), in.Width(), body)
	line(s.material, in.Width(), body)
	grain := "Grain " + s.grain()
	if n := len(s.pieces); n > 1 {
		grain += fmt.Sprintf(", one of %d alike", n)
	}
	if s.large(i) != s.Mark {
		grain += ", mark " + s.Mark
	}
	line(grain, in.Width(), small)
	line(p.d.Name, in.Width(), small)
	p.labelSketch(s, draw.Rect{Min: draw.Point{X: in.Max.X - sketch, Y: in.Min.Y}, Max: draw.Point{X: in.Max.X, Y: in.Min.Y + 15}})
}

// large is what the i-th piece is called in large: its own name if that is short,
// or its mark.
func (s shape) large(i int) string {
	const longest = 8 // signs, of what can be read from afar
	if id := s.pieces[i].ID; len(id) <= longest {
		return capital(id)
	}
	return s.Mark
}

// labelSketch draws the piece as a plain board in its proportions, as far as they
// leave room for the arrow along its face grain.
func (p *packet) labelSketch(s shape, at draw.Rect) {
	width, height := at.Width(), at.Height()
	if share := s.Width / s.Length; share*width <= height {
		height = max(share*width, 7)
	} else {
		width = max(height/share, 7)
	}
	box := draw.Rect{Min: draw.Point{X: at.Max.X - width, Y: at.Min.Y}, Max: draw.Point{X: at.Max.X, Y: at.Min.Y + height}}
	p.page.Box(box, draw.NoFill, draw.Outline)
	c := box.Centre()
	if len(s.Slots) > 0 {
		arm := height / 4
		for _, sign := range []float64{-1, 1} {
			p.page.Line(draw.Point{X: box.Min.X, Y: c.Y + sign*arm}, draw.Point{X: box.Min.X + arm, Y: c.Y}, draw.Thin)
		}
	}
	if s.Grain == GrainFree {
		return
	}
	half, head := 0.3*width, 1.2
	if s.Grain == GrainAcross {
		half = 0.3 * height
	}
	turned := func(along, across float64) draw.Point {
		if s.Grain == GrainAlong {
			return draw.Point{X: c.X + along, Y: c.Y + across}
		}
		return draw.Point{X: c.X + across, Y: c.Y + along}
	}
	p.page.Line(turned(-half, 0), turned(half, 0), draw.Thin)
	for _, end := range []float64{-1, 1} {
		for _, side := range []float64{-1, 1} {
			p.page.Line(turned(end*half, 0), turned(end*(half-head), side*head/2), draw.Thin)
		}
	}
}
