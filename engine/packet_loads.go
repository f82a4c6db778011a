package engine

import "flatwright/engine/draw"

// durationWords are the load-duration classes of EN 1995-1-1 Table 2.1 (from
// memory) as people read them.
var durationWords = map[Duration]string{
	Permanent: "always", LongTerm: "six months to ten years", MediumTerm: "a week to six months",
	ShortTerm: "less than a week", Instantaneous: "an instant",
}

// loadCases prints what the top was computed for.
func (p *packet) loadCases() {
	if len(p.d.Cases) == 0 {
		return
	}
	p.open("Load cases", p.paper)
	p.text("What stands on the top together makes a case; the panel's own weight acts in all of them. Anything heavier, or standing elsewhere, was not computed.", body)
	couples := false
	for _, c := range p.d.Cases {
		p.subheading(c.Name + ", stays " + durationWords[c.Duration])
		rows := [][]string{}
		for _, l := range c.Loads {
			rows = append(rows, []string{l.Name, l.Strength(p.f)})
			for _, line := range p.metrics.Wrap(LoadWords(p.d, l, p.f), p.width()*120/165-8, draw.NoteSize, false) {
				rows = append(rows, []string{"   " + line, ""})
			}
			couples = couples || l.Kind == Couple
		}
		if len(rows) == 0 {
			rows = append(rows, []string{"nothing but its own weight", ""})
		}
		p.table([]draw.Column{{Head: "Load", Width: 120}, {Head: "How strong", Width: 45, Right: true}}, rows)
	}
	if couples {
		p.text("A couple is two opposite forces, one above the other. It turns the block and presses nothing down. The sideways pull itself goes into the legs and is not computed; fasten the top against it.", small)
	}
}
