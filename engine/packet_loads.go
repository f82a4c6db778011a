package engine

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
	p.section("Load cases")
	p.text("What stands on the top together makes a case; the panel's own weight acts in all of them. Anything heavier, or standing elsewhere, was not computed.", body)
	couples := false
	for _, c := range p.d.Cases {
		p.subheading(c.Name + ", stays " + durationWords[c.Duration])
		for _, l := range c.Loads {
			p.text(l.Name+" · "+l.Strength(p.f)+", "+LoadWords(p.d, l, p.f), body)
			p.y++
			couples = couples || l.Kind == Couple
		}
		if len(c.Loads) == 0 {
			p.text("Nothing but its own weight.", body)
		}
	}
	p.y += 2
	if couples {
		p.text("A couple is two opposite forces, one above the other; its height is told from the lower to the upper one. It turns the block and presses nothing down. The sideways pull itself goes into the legs and is not computed; fasten the top against it.", small)
	}
}
