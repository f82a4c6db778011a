package engine

import (
	"fmt"
	"strings"

	"flatwright/engine/length"
)

// liftLimit is the mass one person should not lift alone, kg: the load
// constant of ISO 11228-1 (from memory).
const liftLimit = 23

// shortfalls compares the result with what the person asked for.
func (d Design) shortfalls(r Result) []Problem {
	var out []Problem
	add := func(code string, s Severity, field, part, format string, args ...any) {
		out = append(out, Problem{Code: code, Severity: s, Field: field, Part: part, Text: fmt.Sprintf(format, args...)})
	}
	if len(r.Cases) > 0 && d.Limits.Sag > 0 {
		if sag := r.Cases[r.Governing].Sag; sag > d.Limits.Sag {
			help := "Thicker skins or more supports would help: core depth alone does not get there."
			if r.Depth.Needed > 0 {
				help = fmt.Sprintf("Deeper core: %.0f mm would do.", r.Depth.Needed)
			}
			add("sag-over-limit", Shortfall, "limits.sag", "", "The top sags %s under “%s”, limit %s. %s", sagText(sag), r.Cases[r.Governing].Name, sagText(d.Limits.Sag), help)
		}
	}
	if d.Limits.Mass > 0 && r.Mass.Total > d.Limits.Mass {
		add("mass-over-limit", Shortfall, "limits.mass", "", "The top weighs %.1f kg, limit %.1f kg. Thinner skins save most.", r.Mass.Total, d.Limits.Mass)
	}
	if d.Limits.Cost > 0 && r.Cost.Total > d.Limits.Cost {
		add("cost-over-limit", Shortfall, "limits.cost", "", "The material costs %.2f by area, limit %.2f. Thinner or plainer sheets would help.", r.Cost.Total, d.Limits.Cost)
	}
	for _, m := range r.Margins {
		switch {
		case m.KMod == 0:
			add("not-for-damp", Shortfall, "shop.damp", m.Part, "%s: this material is not made for a damp place and this load's duration, so it counts for nothing here. A moisture-resistant sheet or a heated room would help.", m.Name)
		case m.Value < 1:
			add("margin-below-one", Shortfall, "", m.Part, "%s: %s %s asked of %s %s under “%s”, %s. %s", m.Name, length.Number(m.Demand, 3), m.Unit, length.Number(m.Capacity, 3), m.Unit, m.Case, m.Where, marginHelp(m.Code))
		}
	}
	if r.Mass.Total > liftLimit {
		add("lift", Advice, "", "", "The top weighs %.1f kg: more than %d kg is a lift for two people or a hoist.", r.Mass.Total, liftLimit)
	}
	out = append(out, d.creepShortfalls(r)...)
	return append(out, d.openTimeProblems(r)...)
}

// sagText prints a sag as the tiles do, so that the same sag is the same
// figure everywhere.
func sagText(v float64) string { return length.Sag(v, length.Format{}) }

// marginHelp says what raises a margin.
func marginHelp(code string) string {
	switch {
	case strings.HasPrefix(code, "skin.") && strings.HasSuffix(code, ".overhang"):
		return "Ribs nearer to the edge, an edge band, or a thicker skin would help."
	case strings.HasPrefix(code, "skin.") && strings.HasSuffix(code, ".wrinkling"):
		return "Thicker ribs, more of them, or a thicker skin would help."
	case strings.HasPrefix(code, "skin."):
		return "A thicker skin or a deeper core would help."
	case strings.HasPrefix(code, "tipping"):
		return "Fastening the top down, or supports nearer to its edges, would help."
	case strings.HasPrefix(code, "apron."):
		return "A higher or thicker apron, or one more leg, would help."
	case code == "glue.block":
		return "A larger block, bolts through both skins and the block, or a smaller pull would help."
	case strings.HasPrefix(code, "screws."):
		return "More or longer screws, thicker ones, or bolts with washers would help."
	case strings.HasSuffix(code, ".peel.along"), strings.HasSuffix(code, ".peel.across"):
		return "Thicker ribs, more of them, a load spread wider, or laps that are glued would help."
	case strings.HasPrefix(code, "glue."):
		return "Thicker ribs, more of them, or a deeper core would help."
	case code == "seam.ribs":
		return "A splice over the seam, or a seam nearer to a support, would help."
	case strings.HasPrefix(code, "seam."):
		return "A seam nearer to a support, a scarf, or a thicker skin would help."
	case code == "rib.crippling":
		return "A block over the foot, a wider foot, or thicker ribs would help."
	case strings.HasPrefix(code, "bearing.load"):
		return "A board under the load to spread it would help."
	case strings.HasPrefix(code, "bearing."):
		return "A wider bearing, a block above it, or thicker ribs would help."
	}
	return "Thicker ribs, more of them, or shallower slots would help."
}
