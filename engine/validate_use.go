package engine

import (
	"fmt"
	"slices"
	"time"
)

// cases checks the load cases; counted says that the ribs are known.
func (r *review) cases(sized, counted bool) {
	cases := r.d.Cases
	if len(cases) == 0 {
		r.add(Advice, "no-load-case", "cases", "Nothing stands on the top, so there is no sag to tell. Add a load case with the heaviest thing you put on it.")
	}
	if len(cases) > maxCases {
		r.block("too-many-cases", "cases", "There are %d load cases; up to %d can be computed. Keep those that could govern.", len(cases), maxCases)
		return
	}
	names := map[string]int{}
	for i, c := range cases {
		path := fmt.Sprintf("cases[%d]", i)
		if first, twice := names[c.Name]; twice {
			r.add(Advice, "case-name-twice", path+".name", "Load cases %d and %d are both called “%s”, so the results cannot be told apart. Give one of them another name.", first+1, i+1, c.Name)
		} else {
			names[c.Name] = i
		}
		if !slices.Contains([]Duration{Permanent, LongTerm, MediumTerm, ShortTerm, Instantaneous}, c.Duration) {
			r.block("case-duration", path+".duration", "How long the loads of “%s” stay is not told: “%s” is none of the five classes. Pick permanent, long, medium, short or instant; wood carries less the longer a load stays.",
				c.Name, c.Duration)
		}
		if len(c.Loads) > maxLoads {
			r.block("too-many-loads", path+".loads", "Load case “%s” has %d loads; up to %d can be computed. Gather small ones into one uniform load.", c.Name, len(c.Loads), maxLoads)
			continue
		}
		for j, l := range c.Loads {
			name := l.Name
			if name == "" {
				name = fmt.Sprintf("load %d", j+1)
			}
			r.load(fmt.Sprintf("%s.loads[%d]", path, j), name, l, sized, counted)
		}
	}
}

// limits checks what the person asks for.
func (r *review) limits() {
	for _, limit := range []struct {
		field, name, unit string
		value             float64
	}{
		{"sag", "sag", " mm", r.d.Limits.Sag},
		{"mass", "weight", " kg", r.d.Limits.Mass},
		{"cost", "cost", "", r.d.Limits.Cost},
		{"twist", "drop of a corner", " mm", r.d.Limits.Twist},
		{"flatness", "flatness", " mm", r.d.Limits.Flatness},
	} {
		if limit.value < 0 {
			r.block("limit-negative", "limits."+limit.field, "No panel has a %s of %s%s or less. Type a limit above 0, or leave it empty for none.", limit.name, plainNumber(limit.value), limit.unit)
		}
	}
}

// glue checks the glue and whether the shop is warm enough for it.
func (r *review) glue() {
	if r.d.Glue == "" {
		r.block("glue-missing", "glue", "No glue is picked, so the joints cannot be computed. Pick one from the list.")
		return
	}
	g, ok := r.glues(r.d.Glue)
	if !ok {
		r.block("glue-unknown", "glue", "Nothing is known about the glue “%s”. Pick one from the list.", r.d.Glue)
		return
	}
	t := r.d.Shop.Temperature
	switch {
	case t < minShop || t > maxShop: // told by shop
	case t < g.MinTemp:
		r.add(Shortfall, "glue-too-cold", "shop.temperature", "At %s °C %s does not set as it should: it needs %s °C. Warm the shop and the wood, or pick a glue that sets in the cold.", plainNumber(t), g.Name, plainNumber(g.MinTemp))
	case t > g.MaxTemp:
		r.add(Shortfall, "glue-too-warm", "shop.temperature", "At %s °C %s skins over before the panel is closed: it is for up to %s °C. Glue in the cool of the morning, or pick a slower glue.", plainNumber(t), g.Name, plainNumber(g.MaxTemp))
	}
}

// shop checks where and when the panel is glued.
func (r *review) shop() {
	s := r.d.Shop
	if s.Temperature < minShop || s.Temperature > maxShop {
		r.block("shop-temperature", "shop.temperature", "The shop is at %s °C; from %s to %s °C can be computed. Check the figure and its unit.", plainNumber(s.Temperature), plainNumber(minShop), plainNumber(maxShop))
	}
	if s.People < 1 || s.People > maxPeople {
		r.block("shop-people", "shop.people", "The glue is spread by %d people; from 1 to %d can be computed. Count those who hold a roller.", s.People, maxPeople)
	}
	if _, err := time.Parse(ClockLayout, s.Start); err != nil {
		r.block("shop-start", "shop.start", "The glue-up starts at “%s”, which is not a date and a time. Write it like 2026-05-02T09:00.", s.Start)
	}
}

// prices checks what the person pays for sheets.
func (r *review) prices() {
	if n := len(r.d.Prices); n > maxListed {
		r.block("too-many-prices", "prices", "There are %d prices; up to %d can be kept in a design. Remove those it does not use.", n, maxListed)
		return
	}
	const help = "Take the figures from the sheet's label or bill."
	type sheet struct {
		material  string
		thickness float64
	}
	seen := map[sheet]int{}
	for i, p := range r.d.Prices {
		path := fmt.Sprintf("prices[%d]", i)
		subject := fmt.Sprintf("of the sheet in price %d", i+1)
		r.between("price-thickness", path+".thickness", "The thickness "+subject, p.Thickness, minSkin, maxRib, help)
		r.between("price-sheet-size", path+".length", "The length "+subject, p.Length, minSize, maxSize, help)
		r.between("price-sheet-size", path+".width", "The width "+subject, p.Width, minSize, maxSize, help)
		switch {
		case p.Sheet < 0:
			r.block("price-negative", path+".sheet", "A sheet cannot cost %s. Type what you pay, or remove the price.", plainNumber(p.Sheet))
		case p.Sheet > maxMoney:
			r.block("price-huge", path+".sheet", "A sheet at %s is over what can be added up. Check the figure.", plainNumber(p.Sheet))
		}
		key := sheet{p.Material, p.Thickness}
		if first, twice := seen[key]; twice {
			r.add(Advice, "price-twice", path, "Prices %d and %d are for the same sheet, “%s” in %s. Remove one of them.", first+1, i+1, p.Material, inMM(p.Thickness))
		} else {
			seen[key] = i
		}
	}
}
