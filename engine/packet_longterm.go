package engine

import (
	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// What the two tables of the years and the seasons rest on, for print.
const (
	aboutCreep    = "Wood under a load that stays goes on sagging. The panel is recomputed with every part as soft as it has become. Own weight always stays; loads stay as long as their duration class says (permanent for ever, long ten years, medium half a year); short ones come and go and are not counted. Factors of EN 1995-1-1 Table 3.2, time law from memory."
	aboutWarmth   = "Warmth and swings of damp can double creep. About half of it comes back when the load is taken off."
	aboutMoisture = "A panel bows by itself when its two skins swell or shrink by different amounts. These are movements of the panel without a load, beside the sag."
)

// longTerm prints what the years and the seasons do.
func (p *packet) longTerm() {
	p.section("Over the years and seasons")
	if len(p.r.LongTerm) > 0 && p.r.NotHeld() == "" {
		p.text(aboutCreep, body)
		p.y += 2
		rows := [][]string{}
		for _, c := range p.r.LongTerm {
			rows = append(rows, append([]string{c.Case}, c.sags(p.f)...))
		}
		p.table([]draw.Column{{Head: "Largest sag under", Width: 68}, {Head: "Now", Width: 28, Right: true}, {Head: "After a day", Width: 28, Right: true},
			{Head: "After a year", Width: 28, Right: true}, {Head: "After ten years", Width: 28, Right: true}}, rows)
		p.text(aboutWarmth, body)
	}
	p.subheading("Moisture")
	p.text(aboutMoisture, body)
	for _, line := range p.d.seasons(p.r.Moisture) {
		p.text("• "+InUnits(line, p.f), body)
	}
}

// sags prints the four sags of a case.
func (c Creep) sags(f length.Format) []string {
	return []string{length.Sag(c.Now, f), length.Sag(c.Day, f), length.Sag(c.Year, f), length.Sag(c.TenYears, f)}
}

// seasons tells what the air does to a panel, a line each.
func (d *Design) seasons(m Moisture) []string {
	lines := []string{"Between " + m.airInWords() + ".", m.contentInWords(), "Bow of the length: " + bowInWords(m.BowAlong) + ". Bow of the width: " + bowInWords(m.BowAcross) + "."}
	if m.RimStep != 0 {
		lines = append(lines, "Step at the solid-wood rim, both faces together: "+stepInWords(m.RimStep)+".")
	}
	return lines
}

// longTerm adds the years and the seasons to the report.
func (p *printer) longTerm(d Design, r Result, f length.Format) {
	for i, c := range r.LongTerm {
		if r.NotHeld() != "" {
			break
		}
		if i == 0 {
			p.line("\nSag over the years: now, after a day, a year and ten years")
		}
		s := c.sags(f)
		p.line("  %s: %s, %s, %s, %s", c.Case, s[0], s[1], s[2], s[3])
	}
	p.line("\nMoisture:")
	for _, line := range d.seasons(r.Moisture) {
		p.line("  %s", InUnits(line, f))
	}
}
