package engine

import (
	"fmt"
	"math"
	"strings"

	"flatwright/engine/contour"
	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// BedMapPart is the part ID under which a map of heights is drawn.
const BedMapPart = "bed map"

// heightNX, heightNY are the places of a map of heights.
const heightNX, heightNY = 61, 31

// BedMap returns the plan of a survey: bands that are the darker the lower the
// surface, contour lines with their heights, every station with its height
// against the least-squares plane and, in bold, those on the two planes of the
// minimum zone. It is empty where the survey makes no surface over an area.
func BedMap(d Design, r Result, survey int, f length.Format) draw.Figure {
	if survey < 0 || survey >= len(r.Bed.Surveys) || r.Bed.Surveys[survey].Flat == nil {
		return draw.Figure{}
	}
	report, s := &r.Bed.Surveys[survey], &d.Surveys[survey]
	g := s.grid(report)
	if !g.Valid() {
		return draw.Figure{}
	}
	m := newSagMap(g, SagMapOptions{Lengths: f, heights: true})
	m.bands()
	m.contours()
	m.Notes = nil // the stations' heights say it, and need the room
	m.Areas = append(m.Areas, draw.Area{Points: rect(g.X0, g.Y0, g.X1, g.Y1), Pen: draw.Outline, Part: BedMapPart})
	m.legend()
	m.stations(report, f)
	m.Areas = append(m.Areas, draw.Area{Points: rect(g.X0, g.Y0-26*m.pixel, g.X1, g.Y0)}) // room for the title
	title := fmt.Sprintf("Heights over the least-squares plane in %s; dark is low. Flat within %s", UnitWord(f), ThinText(report.Flat.Zone, f))
	m.Notes = append(m.Notes, draw.Note{At: draw.Point{X: (g.X0 + g.X1) / 2, Y: g.Y0 - 8*m.pixel}, Text: title, Anchor: draw.AtTop, Colour: draw.Pencil, Part: BedMapPart})
	return m.Figure
}

// grid returns the heights of a survey over the area of its grid.
func (s *Survey) grid(r *SurveyReport) contour.Grid {
	g := contour.Grid{X0: s.Columns[0], X1: s.Columns[len(s.Columns)-1], Y0: s.Rows[0], Y1: s.Rows[len(s.Rows)-1], NX: heightNX, NY: heightNY}
	f := newSurface(s, r.heights.Points(s.stations()))
	for j := range g.NY {
		for i := range g.NX {
			x := g.X0 + (g.X1-g.X0)*float64(i)/float64(g.NX-1)
			y := g.Y0 + (g.Y1-g.Y0)*float64(j)/float64(g.NY-1)
			g.Values = append(g.Values, f.at(x, y))
		}
	}
	return g
}

// stations draws every station with its name and height. Those on the two
// planes come first, so that they stay where not all have room.
func (m *sagMap) stations(r *SurveyReport, f length.Format) {
	extreme := map[string]bool{}
	for _, name := range append(append([]string{}, r.Flat.High...), r.Flat.Low...) {
		extreme[name] = true
	}
	for _, first := range [...]bool{true, false} {
		for _, s := range r.Stations {
			if !s.Known || extreme[s.Name] != first {
				continue
			}
			at := draw.Point{X: s.X, Y: s.Y}
			m.Marks = append(m.Marks, draw.Mark{At: at, Kind: draw.DotMark, Part: BedMapPart})
			beside, anchor := besideStation(at, draw.Rect{Min: draw.Point{X: m.g.X0, Y: m.g.Y0}, Max: draw.Point{X: m.g.X1, Y: m.g.Y1}}, 5*m.pixel)
			m.Notes = append(m.Notes, draw.Note{At: beside, Text: s.Name + " " + HeightText(s.Z, f), Anchor: anchor, Bold: first, Ground: draw.Sheet, Part: BedMapPart})
		}
	}
}

// besideStation returns where the note of a station stands, so that it keeps
// inside the area.
func besideStation(at draw.Point, area draw.Rect, gap float64) (draw.Point, draw.Anchor) {
	column := 1
	switch {
	case at.X <= area.Min.X+nearly:
		column, at.X = 0, at.X+gap
	case at.X >= area.Max.X-nearly:
		column, at.X = 2, at.X-gap
	}
	if at.Y <= area.Min.Y+nearly {
		at.Y += gap
		return at, [...]draw.Anchor{draw.AtBottomLeft, draw.AtBottom, draw.AtBottomRight}[column]
	}
	at.Y -= gap
	return at, [...]draw.Anchor{draw.AtTopLeft, draw.AtTop, draw.AtTopRight}[column]
}

// BedSection returns sections along the length through the bed under the panel,
// at the front edge, the middle and the back edge, drawn many times too high, and
// over each as a ghost the top that is glued on it: without a shim, and the
// best way. It is empty without a bed.
func BedSection(d Design, r Result, f length.Format) (fig draw.Figure, times float64) {
	b := r.Bed.Field
	if b == nil {
		return draw.Figure{}, 1
	}
	times = exaggeration(d.Length, append(append(append([]float64(nil), b.Bed...), b.Kept...), b.Finished...))
	high := 0.0
	for _, z := range b.Bed {
		high = max(high, times*math.Abs(z))
	}
	step := max(2.4*high, 0.06*d.Length)
	for k, row := range [...]struct {
		name string
		j    int
	}{{"front edge", 0}, {"middle", b.NY / 2}, {"back edge", b.NY - 1}} {
		base := step * float64(k)
		at := func(z []float64, i int) draw.Point {
			return draw.Point{X: d.Length * float64(i) / float64(b.NX-1), Y: base + times*z[row.j*b.NX+i]}
		}
		body := []draw.Point{{X: d.Length, Y: base - step/2}, {X: 0, Y: base - step/2}}
		for i := range b.NX {
			body = append(body, at(b.Bed, i))
		}
		fig.Areas = append(fig.Areas, draw.Area{Points: body, Fill: draw.Cut, Part: "bed"})
		for i := 1; i < b.NX; i++ {
			fig.Lines = append(fig.Lines,
				draw.Line{A: at(b.Bed, i-1), B: at(b.Bed, i), Pen: draw.Outline, Part: "bed"},
				draw.Line{A: at(b.Finished, i-1), B: at(b.Finished, i), Pen: draw.Accent, Part: "finished"})
		}
		fig.Lines = append(fig.Lines, ghost(b, at)...)
		fig.Notes = append(fig.Notes, draw.Note{At: draw.Point{X: 0.01 * d.Length, Y: base - step/2 + 0.03*step}, Anchor: draw.AtBottomLeft, Text: row.name, Colour: draw.Pencil, Ground: draw.Sheet})
	}
	fig.Areas = append(fig.Areas, draw.Area{Points: rect(0, -step/2, d.Length, 2.5*step)})
	return fig, times
}

// BedSectionCaption says what the lines of [BedSection] are.
func BedSectionCaption(times float64) string {
	return fmt.Sprintf("Heights are drawn %.0f times too large. Thick: the bed. Dashed: the top glued on it without a shim, both skins at once. In the accent colour: the top glued the flattest way. Each is levelled.", times)
}

// ghost draws the top that is glued on the bed without a shim.
func ghost(b *BedField, at func([]float64, int) draw.Point) []draw.Line {
	var out []draw.Line
	for i := 1; i < b.NX; i++ {
		out = append(out, draw.Line{A: at(b.Kept, i-1), B: at(b.Kept, i), Pen: draw.Hidden, Part: "ghost"})
	}
	return out
}

// ShimMap returns the plan of the panel with what to lay where, in the person's
// unit.
func ShimMap(d Design, r Result, plan int, f length.Format) draw.Figure {
	var fig draw.Figure
	if plan < 0 || plan >= len(r.Bed.Plans) {
		return fig
	}
	fig.Areas = append(fig.Areas, draw.Area{Points: rect(0, 0, d.Length, d.Width), Pen: draw.Outline, Part: BedMapPart})
	size, panel := 0.012*d.Length, draw.Rect{Max: draw.Point{X: d.Length, Y: d.Width}}
	for _, s := range r.Bed.Plans[plan].Shims {
		fig.Areas = append(fig.Areas, draw.Area{Points: rect(s.X-size, s.Y-size, s.X+size, s.Y+size), Fill: draw.Band, Pen: draw.Thin, Part: BedMapPart})
		beside, anchor := besideStation(draw.Point{X: s.X, Y: s.Y}, panel, 1.3*size)
		fig.Notes = append(fig.Notes, draw.Note{At: beside, Text: s.Station + " " + strings.TrimLeft(HeightText(s.Thickness, f), "+"), Anchor: anchor, Ground: draw.Sheet, Part: BedMapPart})
	}
	return fig
}
