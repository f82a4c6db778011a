package engine

import (
	"fmt"
	"math"
	"strings"

	"flatwright/engine/draw"
	"flatwright/engine/vector"
)

// shape is all pieces of one mark, which are cut alike, in a plane of their own:
// x from the datum end along the piece, y across it, mm. They are drawn as one
// looks at them from the side of their grooves.
type shape struct {
	Piece           // the first of them
	name     string // of one, or of all together
	pieces   []Piece
	material string // as people call it
	file     string // name of its drawings, without the suffix
	below    bool   // seen from below: the grooves are in the lower face
}

// shapesOf returns the shapes of a valid design in the order of its pieces.
func shapesOf(d Design) []shape {
	var out []shape
	at := map[string]int{}
	for _, p := range d.Pieces() {
		i, known := at[p.Mark]
		if !known {
			i = len(out)
			at[p.Mark] = i
			m, _ := d.Material(p.Material)
			s := shape{Piece: p, material: m.Name, file: "part-" + fileName(p.Mark)}
			for _, g := range p.Grooves {
				s.below = s.below || g.Below
			}
			out = append(out, s)
		}
		out[i].pieces = append(out[i].pieces, p)
	}
	for i := range out {
		out[i].name = out[i].called()
	}
	return out
}

// called is the name of the pieces together.
func (s shape) called() string {
	switch {
	case len(s.pieces) == 1:
		return s.Name
	case s.Kind == SkinPart:
		return s.Name + " and alike"
	}
	return capital(string(s.Kind)) + "s"
}

// capital writes the first letter, a plain one, large.
func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// ids names the pieces.
func (s shape) ids(between string) string {
	var out []string
	for _, p := range s.pieces {
		out = append(out, p.ID)
	}
	return strings.Join(out, between)
}

// grain says how the face grain runs.
func (p Piece) grain() string {
	if p.Grain == GrainFree {
		return "either way"
	}
	return string(p.Grain) + " the length"
}

// seen turns a place in the piece's own axes to what is drawn.
func (s shape) seen(x, y float64) vector.Point {
	if s.below {
		y = s.Width - y
	}
	return vector.Point{X: x, Y: y}
}

// line turns corners in the piece's own axes to a line that is drawn.
func (s shape) line(l vector.Layer, points []draw.Point) vector.Path {
	out := vector.Path{Layer: l}
	for _, p := range points {
		out.Points = append(out.Points, s.seen(p.X, p.Y))
	}
	return out
}

// slotBox returns the corners of a slot.
func (p Piece) slotBox(s Slot) []draw.Point {
	if s.FromTop {
		return rect(s.Station-s.Width/2, p.Width-s.Depth, s.Station+s.Width/2, p.Width)
	}
	return rect(s.Station-s.Width/2, 0, s.Station+s.Width/2, s.Depth)
}

// sizes prints length, width and thickness in mm.
func (p Piece) sizes() string {
	return decimal(p.Length) + " × " + decimal(p.Width) + " × " + decimal(p.Thickness) + " mm"
}

// from says from where one looks at the drawing.
func (s shape) from() string {
	if s.below {
		return "from below"
	}
	return s.From
}

// drawing returns the shape as it is cut, with its datum end, its grain and what
// it is marked on the wood.
func (s shape) drawing(d Design) vector.Drawing {
	text := fmt.Sprintf("%s, %s, %d pieces", s.Mark, s.sizes(), len(s.pieces))
	if len(s.pieces) == 1 {
		text = s.name + ", " + s.sizes()
	}
	out := s.lines(text, s.Mark)
	out.Title = d.Name + ": " + s.name
	out.Notes = append([]string{
		fmt.Sprintf("%d to cut, all alike: %s", len(s.pieces), s.ids(", ")),
		fmt.Sprintf("%s, %s, face grain %s, seen %s, its %s at the left", s.sizes(), s.material, s.grain(), s.from(), s.Datum),
		layerNote,
	}, append(s.faces(), s.Edges...)...)
	return out
}

// layerNote says what the layers of a part are for.
const layerNote = "OUTLINE has the slots cut in. SLOT, switched off, has them by themselves, to cut in a second step. GROOVE does not go through. MARK and TEXT are not cut."

// faces says what is cut into the faces and not through.
func (s shape) faces() []string {
	var out []string
	for _, g := range s.Grooves {
		out = append(out, fmt.Sprintf("Groove %s wide and %s mm deep, in the face that is drawn.", decimal(math.Min(g.X1-g.X0, g.Y1-g.Y0)), decimal(g.Depth)))
	}
	for _, f := range s.Scarfs {
		side := "the face that is drawn"
		if (f.Face == "front") == s.below {
			side = "the other face"
		}
		out = append(out, fmt.Sprintf("Scarf at the %s edge: planed off %s over %s mm, from the line on MARK to nothing at the edge.", s.edge(f.Edge), side, decimal(f.Length)))
	}
	return out
}

// edge names an edge as it is drawn.
func (s shape) edge(name string) string {
	if s.below && name == "lower" {
		return "upper"
	}
	if s.below && name == "upper" {
		return "lower"
	}
	return name
}

// lines returns everything that is drawn of the shape, with a line of text on it:
// the first of texts that can be read at its size, or the last.
func (s shape) lines(texts ...string) vector.Drawing {
	out := vector.Drawing{Paths: []vector.Path{s.line(vector.Outline, s.Outline)}}
	for _, h := range s.Holes {
		out.Circles = append(out.Circles, vector.Circle{Layer: vector.Hole, Centre: s.seen(h.X, h.Y), Radius: h.Diameter / 2})
	}
	for _, g := range s.Grooves {
		out.Paths = append(out.Paths, s.line(vector.Groove, rect(g.X0, g.Y0, g.X1, g.Y1)))
	}
	for _, slot := range s.Slots {
		out.Paths = append(out.Paths, s.line(vector.Slot, s.slotBox(slot)))
	}
	for _, f := range s.Scarfs {
		ends := map[string][]draw.Point{
			"left":  {{X: f.Length}, {X: f.Length, Y: s.Width}},
			"right": {{X: s.Length - f.Length}, {X: s.Length - f.Length, Y: s.Width}},
			"lower": {{Y: f.Length}, {X: s.Length, Y: f.Length}},
			"upper": {{Y: s.Width - f.Length}, {X: s.Length, Y: s.Width - f.Length}},
		}
		foot := s.line(vector.Mark, ends[f.Edge])
		foot.Open = true
		out.Paths = append(out.Paths, foot)
	}
	s.marks(&out, texts...)
	return out
}
