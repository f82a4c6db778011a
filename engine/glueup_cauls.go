package engine

import (
	"fmt"
	"math"
	"slices"

	"flatwright/engine/length"
	"flatwright/engine/press"
)

// caulKinds are the sizes of cauls at hand: one alone without a count is as many as it
// takes; of several each has its count.
func (p *presser) caulKinds() []CaulStock {
	g := &p.d.GlueUp
	var out []CaulStock
	for _, c := range append([]CaulStock{g.Caul}, g.MoreCauls...) {
		if c.Count > 0 {
			out = append(out, c)
		}
	}
	if len(out) == 0 {
		return []CaulStock{g.Caul}
	}
	slices.SortStableFunc(out, func(a, b CaulStock) int { // the stiffest first; a height that is proposed is any
		stiff := func(c CaulStock) float64 {
			if c.Height == 0 {
				return math.Inf(1)
			}
			return orElse(c.Width, caulWidth) * math.Pow(c.Height, 3)
		}
		switch x, y := stiff(a), stiff(b); {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	return out
}

// caul returns a bearer across the panel for a pull at either end.
func (p *presser) caul(s CaulStock, force float64) press.Caul {
	c := press.Caul{Length: p.d.Width, Width: orElse(s.Width, caulWidth), Height: s.Height, E: caulModulus, Ratio: caulRatio}
	for _, h := range caulSizes {
		if s.Height > 0 {
			break
		}
		if c.Height = h; c.Stress(force) <= caulStress && c.Camber(force) <= c.Length/100 {
			break
		}
	}
	return c
}

// caulRun is cauls that are alike, each with two clamps alike: the force of the clamps,
// what clamps and caul bear of it and what they are drawn to, N.
type caulRun struct {
	n                  int
	clamp, could, draw float64
	stock              CaulStock
}

// bears is the pull at either end at which a caul of a size is bent as far as softwood
// takes; one whose height is proposed bears any.
func (p *presser) bears(s CaulStock) float64 {
	if s.Height == 0 {
		return math.Inf(1)
	}
	return caulStress / p.caul(s, 1).Stress(1)
}

// pairs are cauls with two clamps alike, one by one, the strongest clamps with the
// stiffest cauls; as many as clamps and cauls make. Where the number of clamps is not
// stated there are as many as it takes, drawn to no more than most.
func (p *presser) pairs(kinds []Clamps, stock []CaulStock, stated bool, most float64) []caulRun {
	var clamps []float64
	for _, c := range kinds {
		n := c.Count / 2
		if !stated {
			n = max(2, press.Count(p.g.Force, 2*math.Min(c.force(), math.Min(most, p.bears(stock[len(stock)-1])))))
			n = min(n, maxClamps) // laths would take hundreds of thousands
		}
		clamps = append(clamps, slices.Repeat([]float64{c.force()}, n)...)
	}
	slices.SortStableFunc(clamps, func(a, b float64) int { return int(math.Copysign(1, b-a)) })
	var out []caulRun
	kind, left := 0, stock[0].Count
	for _, f := range clamps {
		for stock[kind].Count > 0 && left == 0 {
			if kind++; kind == len(stock) {
				return out
			}
			left = stock[kind].Count
		}
		left--
		could := math.Min(f, p.bears(stock[kind]))
		out = append(out, caulRun{1, f, could, could, stock[kind]})
	}
	return out
}

// enough returns how many of the pairs it takes, none drawn to more than most, and
// whether they are enough.
func (p *presser) enough(pairs []caulRun, most float64) (n int, ok bool) {
	sum := 0.0
	for i, r := range pairs {
		if sum += 2 * math.Min(r.could, most); sum >= p.g.Force*(1-1e-9) && i > 0 {
			return i + 1, true
		}
	}
	return len(pairs), false
}

// level returns the force to which pairs are drawn at most, so that together they make
// what is needed; those that cannot are drawn to what they can.
func (p *presser) level(pairs []caulRun) float64 {
	left := p.g.Force / 2
	for i := len(pairs) - 1; i >= 0; i-- {
		if each := left / float64(i+1); each <= pairs[i].could {
			return each
		}
		left -= pairs[i].could
	}
	return pairs[0].could
}

// runs draws the pairs to a level and gathers those that are alike.
func runs(pairs []caulRun, level float64) []caulRun {
	var out []caulRun
	for _, r := range pairs {
		r.draw = math.Min(r.could, level)
		if k := len(out) - 1; k >= 0 && out[k].clamp == r.clamp && out[k].stock == r.stock {
			out[k].n++
			continue
		}
		out = append(out, r)
	}
	return out
}

// cauls carry the pull of clamps at the edges into the middle. Every caul presses a
// stretch of the panel as long as its pull is of the whole force; the stretch of the
// hardest drawn is no longer than the skin hands on.
func (p *presser) cauls() PressOption {
	kinds, stock := p.kinds(), p.caulKinds()
	stated, span := kinds[0].Count > 0, p.d.Length
	narrow, have := math.Inf(1), 0
	for _, s := range stock {
		narrow, have = math.Min(narrow, orElse(s.Width, caulWidth)), have+s.Count
	}
	pitch := narrow + p.even()
	most := pitch * p.g.Force / (2 * span)
	pairs := p.pairs(kinds, stock, stated, most)
	o := PressOption{Name: "Cauls across, a clamp at either end", Stated: stated, Pressure: p.g.Needed}
	n, ok := p.enough(pairs, most)
	if ok {
		pairs = pairs[:n]
	} else {
		p.tooFew(&o, kinds, pairs, pitch, have)
		pairs = p.pairs(kinds[:1], []CaulStock{{Width: stock[0].Width}}, false, most) // what it would take
	}
	runs := runs(pairs, p.level(pairs))
	o.Count, o.Pitch = len(pairs), span/float64(len(pairs))
	p.caulLines(&o, runs)
	if width := p.widthOf(runs); width > span+nearly && o.Why == "" {
		fit := math.Floor(span / (width / float64(o.Count)))
		o.Pressure = math.Min(p.g.Needed, o.Pressure*fit/float64(o.Count))
		p.falls(&o, fmt.Sprintf("side by side %.0f cauls of %.0f mm find room, with %s they make", fit, width/float64(o.Count), p.madeBy(kinds)))
	}
	for _, r := range runs {
		if c := p.caul(r.stock, r.draw); c.Stress(r.draw) > caulStress*(1+nearly) && o.Why == "" {
			o.Why = fmt.Sprintf("a caul of %.0f × %.0f mm would be bent with %.0f MPa; softwood takes %.0f MPa", c.Width, c.Height, c.Stress(r.draw), caulStress)
		}
	}
	return o
}

// madeBy is what clamps there are, in words.
func (p *presser) madeBy(kinds []Clamps) string {
	if len(kinds) == 1 && kinds[0].Count == 0 {
		return fmt.Sprintf("clamps of %s N", length.Number(kinds[0].force(), 3))
	}
	return clampsText(kinds)
}

// tooFew says what lacks where the clamps and the cauls at hand, so many in all, do not
// do.
func (p *presser) tooFew(o *PressOption, kinds []Clamps, pairs []caulRun, pitch float64, have int) {
	sum, clamps, bent := 0.0, 0, false
	for _, r := range pairs {
		sum += 2 * r.could
		bent = bent || r.could < r.clamp
	}
	for _, c := range kinds {
		clamps += c.Count
	}
	o.Pressure = math.Min(p.g.Needed, sum/p.g.Area)
	what := p.madeBy(kinds) + " make"
	switch {
	case have > 0 && (clamps == 0 || have < clamps/2):
		what = fmt.Sprintf("%d cauls, drawn to what they and the clamps bear, make", have)
	case bent:
		what = p.madeBy(kinds) + ", drawn to what the cauls bear, make"
	}
	if p.falls(o, what); o.Why == "" {
		o.Why = fmt.Sprintf("%d clamps hold %d cauls, one every %.0f mm: midway between two the skin presses with less than half; %.0f mm is the most", clamps, len(pairs), p.d.Length/math.Max(1, float64(len(pairs))), pitch)
	}
}

// widthOf is how wide all cauls are side by side, mm.
func (p *presser) widthOf(runs []caulRun) (sum float64) {
	for _, r := range runs {
		sum += float64(r.n) * orElse(r.stock.Width, caulWidth)
	}
	return sum
}

// caulLines says how the cauls are laid, cut and drawn.
func (p *presser) caulLines(o *PressOption, runs []caulRun) {
	if len(runs) == 1 {
		o.Lines = append(o.Lines, fmt.Sprintf("%d cauls across the top, one every %.0f mm, and as many below or the bed itself; %d clamps, each drawn to %s N.", o.Count, o.Pitch, 2*o.Count, length.Number(runs[0].draw, 2)))
	} else {
		o.Lines = append(o.Lines, fmt.Sprintf("%d cauls across the top and as many below or the bed itself, %d clamps; those drawn hardest in the middle, the others towards both ends:", o.Count, 2*o.Count))
		o.Places = p.caulPlaces(runs)
		for _, r := range runs {
			o.Lines = append(o.Lines, fmt.Sprintf("%d cauls %.0f mm high with clamps of %s N, each drawn to %s N; every one presses %.0f mm of the length.",
				r.n, p.caul(r.stock, r.draw).Height, length.Number(r.clamp, 3), length.Number(r.draw, 2), 2*r.draw*p.d.Length/p.g.Force))
		}
	}
	for i, r := range runs {
		c := p.caul(r.stock, r.draw)
		if i > 0 && r.stock == runs[i-1].stock && r.draw == runs[i-1].draw {
			continue
		}
		o.Lines = append(o.Lines,
			fmt.Sprintf("Each caul %.0f × %.0f mm of straight softwood, %.0f mm long between the clamps, and bent to %.1f MPa of the %.0f MPa that softwood takes.", c.Width, c.Height, c.Length, c.Stress(r.draw), caulStress),
			fmt.Sprintf("Camber: plane the pressing face hollow towards the ends, nothing off the middle, %.1f mm at a quarter and %.1f mm at the ends. Drawn flat it then presses evenly.", c.Camber(r.draw)-c.Curve(r.draw, c.Length/4), c.Camber(r.draw)))
		o.Lines = append(o.Lines, straightText(press.Straight(press.Beta(p.bedUnder(c.Width), c.EI()), c.Length)))
	}
}

// caulPlaces is where the cauls lie along the panel, each in the middle of the stretch
// that it presses: the weakest by turns at either end, the strongest in the middle.
func (p *presser) caulPlaces(runs []caulRun) []float64 {
	var left, right []float64 // stretches from the ends inwards
	for i := len(runs) - 1; i >= 0; i-- {
		for range runs[i].n {
			l := 2 * runs[i].draw * p.d.Length / p.g.Force
			if len(left) <= len(right) {
				left = append(left, l)
			} else {
				right = append(right, l)
			}
		}
	}
	slices.Reverse(right)
	var out []float64
	at := 0.0
	for _, l := range append(left, right...) {
		out = append(out, at+l/2)
		at += l
	}
	return out
}
