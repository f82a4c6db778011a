package engine

import (
	"fmt"
	"strings"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// partsList prints every piece to cut, alike pieces on one line, then what to
// know of their edges, and the joints, holes and grooves in them.
func (p *packet) partsList() {
	p.open("Parts list", p.paper)
	rows, edges := [][]string{}, [][]string{}
	for _, g := range byMark(p.d.Pieces()) {
		first := g[0]
		m, _ := p.d.Material(first.Material)
		grain := map[Grain]string{GrainAlong: "along", GrainAcross: "across", GrainFree: "either way"}[first.Grain]
		rows = append(rows, []string{first.Mark, fmt.Sprint(len(g)), calledTogether(g), p.length(first.Length), p.length(first.Width), p.fine(first.Thickness), m.Name, grain, length.Mass(first.Mass*float64(len(g)), p.f)})
		edges = append(edges, []string{first.Mark, InUnits(strings.Join(first.Edges, " "), p.f)})
	}
	p.table([]draw.Column{{Head: "Mark", Width: 12}, {Head: "No.", Width: 10, Right: true}, {Head: "Piece", Width: 38}, {Head: "Length", Width: 22, Right: true}, {Head: "Width", Width: 22, Right: true},
		{Head: "Thick", Width: 20, Right: true}, {Head: "Material", Width: 36}, {Head: "Grain", Width: 18}, {Head: "Mass", Width: 18, Right: true}}, rows)
	p.text("The grain runs along or across the piece's length. A rib's width is its height. Pieces with one mark are alike and can be exchanged. A scarfed piece is as long as its blank: the slope is planed from its end.", small)
	m := p.r.Mass
	p.text(fmt.Sprintf("Parts %s, glue %s, together %s. Centre of gravity %s from the left end, %s from the front edge, %s above the underside.",
		length.Mass(m.Parts, p.f), length.Mass(m.Glue, p.f), length.Mass(m.Total, p.f), p.length(m.Centre[0]), p.length(m.Centre[1]), p.length(m.Centre[2])), body)
	p.text(fmt.Sprintf("%d ribs with %d half-laps; short blocking between full lengthwise ribs would take %d pieces.", m.Pieces, m.Laps, m.Blocking), body)
	p.text(p.cost().Line()+p.cost().over(p.d.Limits.Cost), body)
	if lines := p.d.jointWords(p.f); len(lines) > 0 {
		p.subheading("Joints, holes and grooves")
		for _, line := range lines {
			p.text("• "+line, body)
		}
	}
	p.subheading("Edges")
	p.table([]draw.Column{{Head: "Mark", Width: 12}, {Head: "What to know of the edges", Width: 160}}, edges)
}

// byMark gathers pieces by their marks, in the order in which they come.
func byMark(pieces []Piece) [][]Piece {
	var out [][]Piece
	at := map[string]int{}
	for _, p := range pieces {
		i, known := at[p.Mark]
		if !known {
			i = len(out)
			at[p.Mark] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], p)
	}
	return out
}

// calledTogether names alike pieces: a single one by its name, several by their
// sort with what each is called where that is short.
func calledTogether(g []Piece) string {
	if len(g) == 1 {
		return g[0].Name
	}
	sort := string(g[0].Kind)
	name := strings.ToUpper(sort[:1]) + sort[1:] + "s"
	switch g[0].Kind {
	case LengthwisePart, CrosswisePart:
		var ids []string
		for _, p := range g {
			ids = append(ids, p.ID)
		}
		return name + " " + strings.Join(ids, ", ")
	case BandPart:
		if g[0].AlongX {
			return name + ", front and back"
		}
		return name + ", left and right"
	}
	return name
}

// jointWords tells every seam, splice, row of holes and groove in a line.
func (d *Design) jointWords(f length.Format) []string {
	var out []string
	add := func(format string, args ...any) { out = append(out, InUnits(fmt.Sprintf(format, args...), f)) }
	for i, s := range d.Seams {
		add("Seam %d in the %s skin, %s: %s.", i+1, s.Skin, s.where(), d.seamWords(i))
	}
	for i, s := range d.Splices {
		k, _ := d.stick(s.Part)
		name, how := s.Part, fmt.Sprintf("scarfed 1 in %g over %s (EWPAA Structural Plywood and LVL Design Manual, ch. 11)", scarfSlope, inMM(scarfSlope*k.thickness))
		if k.rib {
			name = "rib " + name
			if s.Plates {
				how = fmt.Sprintf("cut square, under a plate %s long on either cheek that has room (25 thicknesses, the same manual)", inMM(spliceWidth*k.thickness))
			}
		}
		add("Splice %d in %s, %s from its datum end: %s.", i+1, name, inMM(s.At-k.lo), how)
	}
	for i, h := range d.Holes {
		what := fmt.Sprintf("%s %s wide", h.Kind, inMM(h.Diameter))
		if n := h.number(); n > 1 {
			what = fmt.Sprintf("%d %ss %s wide, each %s further right and %s further back", n, h.Kind, inMM(h.Diameter), inMM(h.StepX), inMM(h.StepY))
		}
		if along, _, rib := RibOfPart(h.Part); rib {
			at, from := h.X, "left end"
			if !along {
				at, from = h.Y, "front edge"
			}
			add("Hole %d: %s, through rib %s, %s from the %s of the panel and %s above the rib's lower edge.", i+1, what, h.Part, inMM(at), from, inMM(h.Up))
			continue
		}
		through := "the " + h.Part + " skin"
		if h.Part == BothSkins {
			through = "both skins"
		}
		add("Hole %d: %s, through %s, %s from the left end and %s from the front edge.", i+1, what, through, inMM(h.X), inMM(h.Y))
	}
	for i, g := range d.Grooves {
		b := d.grooveBox(g)
		if g.Along {
			add("Groove %d in the %s skin, %s wide and %s deep, along the length %s from the front edge, from %s to %s.", i+1, g.Skin, inMM(g.Width), inMM(g.Depth), inMM(g.At), inMM(b.X0), inMM(b.X1))
		} else {
			add("Groove %d in the %s skin, %s wide and %s deep, across the width %s from the left end, from %s to %s.", i+1, g.Skin, inMM(g.Width), inMM(g.Depth), inMM(g.At), inMM(b.Y0), inMM(b.Y1))
		}
	}
	return out
}
