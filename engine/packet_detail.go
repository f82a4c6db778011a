package engine

import (
	"fmt"
	"math"
	"strings"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// aboutDip and aboutRibs say what the figures of skin and ribs mean, for print.
const (
	aboutDip  = "The top skin dips between the ribs, beside the sag of the whole top. Told is how far it lies below the surface that the ribs around the bay make, at its deepest."
	aboutRibs = "The most that each rib carries, own weight included: shear force, bending moment of the rib alone, and shear flow in its glue lines, with the place along the rib."
)

// skinAndRibs prints dips, slopes of the edges and what the ribs carry in the
// governing case.
func (p *packet) skinAndRibs() {
	c := p.r.Whole.Cases[p.r.Governing]
	if c.Ribs == nil {
		return
	}
	name := p.r.Cases[p.r.Governing].Name
	p.section("Skin, edges and ribs under “" + name + "”")
	p.text(aboutDip, body)
	for _, line := range c.detail(p.f) {
		p.text("• "+line, body)
	}
	p.subheading("What the ribs carry")
	p.text(aboutRibs, body)
	p.y += 2
	flowUnit := "N/mm"
	if p.f.Imperial {
		flowUnit = "lbf/in"
	}
	rows := [][]string{}
	for _, r := range c.Ribs {
		v := r.Peaks()
		skin := "bottom"
		if v.FlowTop {
			skin = "top"
		}
		rows = append(rows, []string{v.Part, length.Force(v.Shear, p.f), p.length(math.Round(v.ShearAt)), MomentText(v.Moment, p.f), p.length(math.Round(v.MomentAt)), flowFigure(v.Flow, p.f), skin, p.length(math.Round(v.FlowAt))})
	}
	p.table([]draw.Column{{Head: "Rib", Width: 12}, {Head: "Shear", Width: 24, Right: true}, {Head: "at", Width: 24, Right: true}, {Head: "Bending", Width: 26, Right: true}, {Head: "at", Width: 24, Right: true},
		{Head: "Glue line " + flowUnit, Width: 24, Right: true}, {Head: "skin", Width: 16}, {Head: "at", Width: 24, Right: true}}, rows)
	p.text("Every segment of every rib in every case is in the report as JSON.", small)
}

// flowFigure prints a shear flow given in N/mm, in lbf/in where inches are shown.
func flowFigure(flow float64, f length.Format) string {
	if f.Imperial {
		flow *= length.Inch / length.PoundForce
	}
	return length.Number(flow, 3)
}

// FlowText tells the shear flow of a glue line, given in N/mm.
func FlowText(flow float64, f length.Format) string {
	if f.Imperial {
		return flowFigure(flow, f) + " lbf on each inch"
	}
	return flowFigure(flow, f) + " N on each mm"
}

// detail tells dips and slopes of a case, a line each.
func (c WholeCase) detail(f length.Format) []string {
	lines := []string{fmt.Sprintf("Deepest dip of the top skin between the ribs: %s, %s from the left end, %s from the front edge.", length.Sag(c.Dip.Sag, f), f.Print(math.Round(c.Dip.X)), f.Print(math.Round(c.Dip.Y)))}
	for _, l := range c.Loads {
		lines = append(lines, fmt.Sprintf("Under %s: %s.", l.Name, length.Sag(l.Dip.Sag, f)))
	}
	var edges []string
	for _, e := range c.Slopes {
		edges = append(edges, e.Edge+" "+SlopeText(e.Slope, f))
	}
	return append(lines, "How steeply the edges lie, at most: "+strings.Join(edges, ", ")+".")
}

// SlopeText tells the slope of an edge: which way, and by how much.
func SlopeText(rad float64, f length.Format) string {
	way := "down"
	if rad < 0 {
		way, rad = "up", -rad
	}
	if f.Imperial {
		return fmt.Sprintf("%.3f inches in a foot %s outwards", 12*rad, way)
	}
	return fmt.Sprintf("%.2f mm in a metre %s outwards", 1000*rad, way)
}

// MomentText prints a bending moment or a couple, N·mm, in the person's unit.
func MomentText(v float64, f length.Format) string {
	if f.Imperial {
		return length.Number(v/(length.PoundForce*length.Inch), 3) + " lbf·in"
	}
	return length.Number(v/1000, 3) + " N·m"
}
