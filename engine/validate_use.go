package engine

import (
	"fmt"
	"math"
	"slices"
	"time"
)

// Stiffness of a bed that can be computed, N/mm³: softer than felt and stiffer
// than wood on wood. Common practice, no source.
const (
	minBed = 0.02
	maxBed = 100.0
)

// supports checks what the panel rests on.
func (r *review) supports(sized bool) {
	s := r.d.Supports
	kinds := []SupportKind{RailsAcross, RailsAlong, FourLegs, AllEdges}
	if !slices.Contains(kinds, s.Kind) {
		r.block("support-kind", "supports.kind", "How the top rests is not told: “%s” is none of the four ways. Pick rails across, rails along, legs or all edges.", s.Kind)
		return
	}
	if s.Bearing <= 0 {
		r.block("support-bearing", "supports.bearing", "What the top rests on is %s wide, but must be more than 0. 40 to 80 mm is usual for rails and legs.", inMM(s.Bearing))
		return
	}
	if s.Bed != 0 && !(s.Bed >= minBed && s.Bed <= maxBed) {
		r.block("support-bed", "supports.bed", "What lies between top and support is given %s N/mm³; from %s to %s can be computed. Wood on wood is about 10, rubber 0.5 to 3, felt 0.05 to 0.2; leave it empty for wood.",
			plainNumber(s.Bed), plainNumber(minBed), plainNumber(maxBed))
	}
	if !sized {
		return
	}
	if s.Kind == AllEdges {
		if short := math.Min(r.d.Length, r.d.Width); 2*s.Bearing >= short {
			r.block("support-bearing", "supports.bearing", "Ledges %s wide on both sides meet under a panel of %s. Make them narrower than %s.", inMM(s.Bearing), inMM(short), inMM(short/2))
		}
		return
	}
	if s.Kind != RailsAlong {
		r.inset("endInset", "end", r.d.Length)
	}
	if s.Kind != RailsAcross {
		r.inset("sideInset", "side", r.d.Width)
	}
}

// inset checks the two bearings that stand opposite each other, each inset
// from its own end or side of the panel, which is extent long that way.
func (r *review) inset(field, edge string, extent float64) {
	s := r.d.Supports
	path := "supports." + field
	inset := s.EndInset
	if edge == "side" {
		inset = s.SideInset
	}
	switch {
	case inset < 0:
		r.block("support-off-panel", path, "The middle of the support is %s outside the %s of the panel. An inset of %s puts it flush underneath.", inMM(-inset), edge, inMM(s.Bearing/2))
	case inset >= extent/2:
		r.block("support-crossed", path, "The supports are set in by %s, half of the %s between the two %ss or more, so they change places. Less than %s keeps them apart.",
			inMM(inset), inMM(extent), edge, inMM((extent-s.Bearing)/2))
	case extent-2*inset <= s.Bearing:
		r.block("supports-overlap", path, "Supports %s wide, %s apart from middle to middle, run into each other. An inset under %s or narrower supports would do.",
			inMM(s.Bearing), inMM(extent-2*inset), inMM(math.Max(0, (extent-s.Bearing)/2)))
	case inset < s.Bearing/2-nearly:
		r.add(Advice, "support-sticks-out", path, "The support reaches %s beyond the %s of the panel, so only part of it bears. An inset of %s puts it flush underneath.",
			inMM(s.Bearing/2-inset), edge, inMM(s.Bearing/2))
	}
}

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
