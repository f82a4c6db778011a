package engine

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"flatwright/engine/length"
	"flatwright/engine/press"
)

// force is what one clamp presses with, N.
func (c Clamps) force() float64 { return orElse(c.Force, usualClamp) }

// reaches reports whether a clamp presses so far in from an edge; a reach that is not
// stated is not checked.
func (c Clamps) reaches(depth float64) bool { return c.Reach == 0 || c.Reach >= depth-nearly }

// kinds are the clamps at hand, kind by kind: one alone without a count is as many as
// it takes; of several each has its count.
func (p *presser) kinds() []Clamps {
	g := &p.d.GlueUp
	var out []Clamps
	for _, c := range append([]Clamps{g.Clamps}, g.MoreClamps...) {
		if c.Count > 0 {
			out = append(out, c)
		}
	}
	if len(out) == 0 {
		return []Clamps{g.Clamps}
	}
	return out
}

// clampsText is what kinds of clamps there are, in words.
func clampsText(kinds []Clamps) string {
	n, words := 0, make([]string, len(kinds))
	for i, c := range kinds {
		n += c.Count
		words[i] = fmt.Sprintf("%d of %s N", c.Count, length.Number(c.force(), 3))
	}
	if len(kinds) == 1 {
		return fmt.Sprintf("%d clamps of %s N", n, length.Number(kinds[0].force(), 3))
	}
	return fmt.Sprintf("%d clamps (%s)", n, strings.Join(words, ", "))
}

// depth is how far in from the nearest long edge a rib line lies; a crosswise one
// begins at the edges.
func (p *presser) depth(l RibLine) float64 {
	if strings.HasPrefix(l.Rib, "C") {
		return 0
	}
	return math.Min(l.At, p.d.Width-l.At)
}

// beyond is the area of ribs under one skin that lies farther in from the long edges
// than a reach, mm². What no lengthwise rib lies beyond is pressed by those.
func (p *presser) beyond(reach float64) float64 {
	d, tb := p.d, p.d.EdgeBand.Thickness
	if reach >= p.deepest()-nearly {
		return 0
	}
	ys, xs := d.RibPlaces()
	long, open := 0.0, math.Min(d.Width-2*tb, d.Width-2*reach)
	for _, y := range ys {
		if math.Min(y, d.Width-y) > reach+nearly {
			long += d.Lengthwise.Thickness * (d.Length - 2*tb)
			open -= d.Lengthwise.Thickness
		}
	}
	return long + math.Max(0, open)*d.Crosswise.Thickness*float64(len(xs))
}

// clamps stand on the rib lines themselves. Of several kinds those that reach farthest
// press what lies farthest in: enough of them for all that lies beyond the others'
// reach is what it takes (Hall's condition for sets within each other, textbook).
func (p *presser) clamps() PressOption {
	kinds, deep := p.kinds(), p.deepest()
	stated := kinds[0].Count > 0
	o := PressOption{Name: "Clamps on the rib lines", Stated: stated, Pressure: p.g.Needed}
	for _, l := range p.g.RibLines {
		o.Count += l.Clamps
	}
	what := fmt.Sprintf("%d clamps of %s N in all", o.Count, length.Number(kinds[0].force(), 3))
	if len(kinds) > 1 {
		what = "Of what there is: " + clampsText(p.used(kinds))
	}
	o.Lines = append(o.Lines, what+", each over a rib, with a batten between.")
	if len(kinds) > 1 {
		o.Lines = append(o.Lines, "Those that reach farthest go on the lines farthest in; how many of which kind stands with every rib line.")
	}
	if slices.ContainsFunc(kinds, func(c Clamps) bool { return c.Force == 0 }) {
		o.Lines = append(o.Lines, fmt.Sprintf("How hard a clamp presses is not stated. By hand, 10 N·m on a screw that moves 3 mm a turn makes %s N to %s N, as a fifth or nearly a third of the work arrives (from memory).",
			length.Number(press.ScrewForce(10_000, 3, 0.2), 3), length.Number(press.ScrewForce(10_000, 3, 0.3), 3)))
	}
	p.within(&o, kinds, stated)
	if slices.ContainsFunc(kinds, func(c Clamps) bool { return c.Reach == 0 }) {
		o.Lines = append(o.Lines, fmt.Sprintf("They must reach %.0f mm in from the edge, to the rib line that lies farthest in.", deep))
	}
	p.falls(&o, clampsText(kinds)+" make")
	return o
}

// within bounds the pressure by the clamps that reach beyond each of the reaches.
func (p *presser) within(o *PressOption, kinds []Clamps, stated bool) {
	reaches := []float64{-1} // all of it
	for _, c := range kinds {
		if c.Reach > 0 && c.Reach < p.deepest()-nearly {
			reaches = append(reaches, c.Reach)
		}
	}
	slices.Sort(reaches)
	for _, r := range reaches {
		area, sum, n := p.g.Area, 0.0, 0
		if r > 0 {
			area = p.beyond(r)
		}
		for _, c := range kinds {
			if c.Reach == 0 || c.Reach > r+nearly {
				sum, n = sum+float64(c.Count)*c.force(), n+c.Count
				if !stated {
					sum, n = math.Inf(1), 1
				}
			}
		}
		if area > 0 {
			o.Pressure = math.Min(o.Pressure, sum/area)
		}
		switch {
		case o.Why != "" || r < 0 || area == 0:
		case n == 0:
			o.Why = fmt.Sprintf("they reach %.0f mm in from the edge, the rib line farthest in lies %.0f mm from it: nothing presses there", r, p.deepest())
		case sum/area < p.g.Needed*(1-nearly):
			o.Why = fmt.Sprintf("farther in from the edge than %.0f mm reach only %d clamps, which make %s MPa on the ribs there; %s MPa is needed", r, n, length.Number(sum/area, 2), length.Number(p.g.Needed, 2))
		}
	}
}

// used is how many of every kind stand on the rib lines.
func (p *presser) used(kinds []Clamps) []Clamps {
	out := slices.Clone(kinds)
	for i := range out {
		out[i].Count = 0
		for _, l := range p.g.RibLines {
			out[i].Count += l.Kinds[i]
		}
	}
	return slices.DeleteFunc(out, func(c Clamps) bool { return c.Count == 0 })
}

// share hands several kinds of clamps out over the rib lines: the lines farthest in
// first, each the clamps that reach just so far, of those the strongest first.
func (p *presser) share() {
	kinds := p.kinds()
	if len(kinds) < 2 {
		return
	}
	order, left := make([]int, len(p.g.RibLines)), make([]int, len(kinds))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return int(math.Copysign(1, p.depth(p.g.RibLines[b])-p.depth(p.g.RibLines[a])))
	})
	for i, c := range kinds {
		left[i] = c.Count
	}
	for _, i := range order {
		l := &p.g.RibLines[i]
		l.Kinds, l.Clamps, l.Lacks = make([]int, len(kinds)), 0, l.Force
		for l.Lacks > nearly*l.Force {
			k := p.next(kinds, left, p.depth(*l))
			if k < 0 {
				break
			}
			n := min(left[k], press.Count(l.Lacks, kinds[k].force()))
			left[k] -= n
			l.Kinds[k] += n
			l.Clamps += n
			l.Lacks = math.Max(0, l.Lacks-float64(n)*kinds[k].force())
		}
		l.Spacing *= float64(press.Count(l.Force, kinds[0].force())) / math.Max(1, float64(l.Clamps))
	}
}

// next picks the kind for a line: the least reach that does, then the strongest; −1 if
// there is none left.
func (p *presser) next(kinds []Clamps, left []int, depth float64) int {
	best := -1
	far := func(c Clamps) float64 {
		if c.Reach == 0 {
			return math.Inf(1)
		}
		return c.Reach
	}
	for i, c := range kinds {
		if left[i] == 0 || !c.reaches(depth) {
			continue
		}
		if best < 0 || far(c) < far(kinds[best]) || far(c) == far(kinds[best]) && c.force() > kinds[best].force() {
			best = i
		}
	}
	return best
}

// KindsText says how many clamps of which kind stand on a line, "" where there is one
// kind only.
func (l RibLine) KindsText(g GlueUp) string {
	kinds := (&presser{d: &Design{GlueUp: g}}).kinds()
	if len(l.Kinds) != len(kinds) {
		return ""
	}
	var words []string
	for i, n := range l.Kinds {
		if n > 0 {
			words = append(words, fmt.Sprintf("%d of %s N", n, length.Number(kinds[i].force(), 3)))
		}
	}
	if l.Lacks > nearly*l.Force {
		words = append(words, length.Number(l.Lacks, 3)+" N lacking")
	}
	return strings.Join(words, ", ")
}
