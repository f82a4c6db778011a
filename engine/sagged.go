package engine

import (
	"fmt"
	"math"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// Sagged returns the long section through the place of the largest sag, drawn
// sagged and many times too large, with the solid slab of the same outline
// beside it and the unloaded line; and by how many times. r must hold the whole
// panel.
func Sagged(d Design, r Result, loadCase int, f length.Format) (fig draw.Figure, times float64) {
	y, sag, slab := saggedAlong(d, r, loadCase)
	nx := len(sag)
	times = exaggeration(d.Length, append(append([]float64(nil), sag...), slab...))
	h := d.TotalDepth()
	at := func(i int, w, z float64) draw.Point {
		return draw.Point{X: d.Length * float64(i) / float64(nx-1), Y: z - times*w}
	}
	body := make([]draw.Point, 0, 2*nx)
	for i := range nx {
		body = append(body, at(i, sag[i], 0))
	}
	for i := nx - 1; i >= 0; i-- {
		body = append(body, at(i, sag[i], h))
	}
	fig.Areas = append(fig.Areas, draw.Area{Points: body, Fill: draw.Skin, Pen: draw.Outline, Part: "sagged"})
	for i := range nx - 1 {
		fig.Lines = append(fig.Lines, draw.Line{A: at(i, slab[i], h), B: at(i+1, slab[i+1], h), Pen: draw.Hidden, Part: "slab"})
	}
	fig.Lines = append(fig.Lines, draw.Line{A: draw.Point{Y: h}, B: draw.Point{X: d.Length, Y: h}, Pen: draw.Centre})
	most := 0
	for i, v := range sag {
		if v > sag[most] {
			most = i
		}
	}
	fig.Notes = append(fig.Notes,
		draw.Note{At: at(most, sag[most], -0.012*d.Length), Anchor: draw.AtTop, Text: length.Sag(sag[most], f), Bold: true},
		draw.Note{At: draw.Point{Y: h + 0.1*d.Width}, Anchor: draw.AtBottomLeft, Text: fmt.Sprintf("Section %s from the front edge, sag drawn %.0f times too large; dashed: the solid slab", f.Print(math.Round(y)), times), Colour: draw.Pencil})
	return fig, times
}

// saggedAlong returns the sags at equal steps along the row of the sag map next
// to the largest one, and the solid slab's beside them, in mm; y is that row's
// distance from the front edge.
func saggedAlong(d Design, r Result, loadCase int) (y float64, sag, slab []float64) {
	c := &r.Whole.Cases[loadCase]
	nx, ny := c.Map.NX, c.Map.NY
	row := int(math.Round(c.Y / d.Width * float64(ny-1)))
	row = min(max(row, 0), ny-1)
	return d.Width * float64(row) / float64(ny-1), c.Map.Sag[row*nx : (row+1)*nx], d.slabAlong(loadCase, c.Y, nx)
}

// slabAlong returns the solid slab's sag at n places along the length, by the
// closed form.
func (d Design) slabAlong(loadCase int, y float64, n int) []float64 {
	m := d.materials()
	mo := newModel(&d, &m, false)
	out := make([]float64, n)
	for i := range out {
		x := d.Length * float64(i) / float64(n-1)
		out[i] = mo.slabSag(mo.ownWeight(), x, y)
		for j := range d.Cases[loadCase].Loads {
			out[i] += mo.slabUnder(&d.Cases[loadCase].Loads[j], x, y)
		}
	}
	return out
}

// exaggeration returns the round factor that makes the largest sag about a
// twentieth of the length.
func exaggeration(extent float64, sags []float64) float64 {
	most := 0.0
	for _, v := range sags {
		most = math.Max(most, math.Abs(v))
	}
	if !(most > 0) {
		return 1
	}
	raw := extent / 20 / most
	decade := math.Pow(10, math.Floor(math.Log10(raw)))
	for _, step := range [...]float64{5, 2, 1} {
		if step*decade <= raw {
			return math.Max(1, step*decade)
		}
	}
	return math.Max(1, decade)
}
