package engine

import (
	"strings"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// asBuilt prints seams and splices, and the top as it was made beside the one
// designed.
func (p *packet) asBuilt() {
	if len(p.d.Seams) == 0 && len(p.d.Built) == 0 {
		return
	}
	p.section("Seams, splices and what was made otherwise")
	if len(p.d.Seams) > 0 {
		p.seams()
	}
	if len(p.d.Built) == 0 {
		return
	}
	p.subheading("Made otherwise than drawn")
	for _, b := range p.d.Built {
		words := b.Words(p.f)
		p.text("• "+strings.ToUpper(words[:1])+words[1:]+".", body)
	}
	a := p.r.AsBuilt
	if a == nil {
		p.text("The top as made is not rated: it is not held up, or the finer mesh has not run.", body)
		return
	}
	p.y += 2
	rows := [][]string{}
	for i, sag := range a.Sags {
		if i < len(p.r.Cases) {
			rows = append(rows, []string{"Sag under “" + p.r.Cases[i].Name + "”", length.Sag(p.r.Cases[i].Sag, p.f), length.Sag(sag, p.f)})
		}
	}
	rows = append(rows, []string{"Lowest margin", length.Number(a.DesignedMargin, 3), length.Number(a.Margin, 3) + ", " + a.Lowest.Name},
		[]string{"Weight", length.Mass(p.r.Mass.Total, p.f), length.Mass(a.Mass, p.f)})
	p.table([]draw.Column{{Head: "", Width: 70}, {Head: "Designed", Width: 35, Right: true}, {Head: "As built", Width: 75}}, rows)
	p.text(InUnits(p.d.builtProblem(a).Text, p.f), body)
	if a.Lowest.Where != "" {
		p.text("Where the lowest margin as built is: "+InUnits(a.Lowest.Where, p.f)+", under “"+a.Lowest.Case+"”.", body)
	}
}

// seams prints where the seams are and what holds them together.
func (p *packet) seams() {
	p.text("A seam that nothing splices passes neither pull nor bending. A splice plate of the skin's own sheet, glued behind the seam, 25 thicknesses wide, or a scarf of 1:8 makes the skin whole again (EWPAA Structural Plywood and LVL Design Manual, ch. 11).", body)
	p.y += 2
	rows := [][]string{}
	for i, s := range p.d.Seams {
		t := s.skin(&p.d).Thickness
		state, plate, scarf := "open", "—", "—"
		if s.Spliced {
			state, plate, scarf = "spliced", p.length(spliceWidth*t), p.length(scarfSlope*t)
		}
		if s.Spliced && p.d.builtOpen(i) {
			state = "drawn spliced, left open"
		}
		run := "along the width"
		if s.Along {
			run = "along the length"
		}
		rib := "between ribs"
		if part, _, ok := s.overRib(&p.d); ok {
			rib = "over " + part
		}
		rows = append(rows, []string{SeamPart(i), s.Skin, InUnits(s.where(), p.f), run, rib, state, plate, scarf})
	}
	p.table([]draw.Column{{Head: "Seam", Width: 18}, {Head: "Skin", Width: 16}, {Head: "Where", Width: 40}, {Head: "Runs", Width: 28}, {Head: "Lies", Width: 22}, {Head: "State", Width: 24},
		{Head: "Plate wide", Width: 22, Right: true}, {Head: "or scarf long", Width: 22, Right: true}}, rows)
	rows = nil
	for _, m := range p.r.Margins {
		switch m.Code {
		case "seam.glue", "seam.pull", "seam.ribs":
			rows = append(rows, []string{m.Name, length.Number(m.Value, 3), length.Number(m.Capacity, 3), length.Number(m.Demand, 3), m.Case + ", " + InUnits(m.Where, p.f)})
		}
	}
	if len(rows) > 0 {
		p.table([]draw.Column{{Head: "Seams' margins as designed", Width: 58}, {Head: "Margin", Width: 18, Right: true}, {Head: "Capacity " + p.stressUnit(), Width: 24, Right: true}, {Head: "Demand " + p.stressUnit(), Width: 24, Right: true}, {Head: "Case and place", Width: 56}}, rows)
	}
}
