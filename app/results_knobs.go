package app

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"flatwright/engine"
	"flatwright/engine/length"
)

// depthCard tells what the core depth of this very panel does.
func depthCard(s Snapshot) card {
	c := card{title: "Depth against sag"}
	f, d := s.Lengths, s.Result.Depth
	if d.Exponent > 0 {
		text := "Twice the core depth gives " + length.Number(math.Pow(2, d.Exponent), 2) + " times less sag; a solid slab twice as deep gives 8. Near this depth the sag goes with the core depth to the power −" + length.Number(d.Exponent, 2) + "; a solid slab has −3."
		c.blocks = append(c.blocks, block{kind: kindText, text: text, field: "coreDepth"})
	}
	if text := neededText(s); text != "" {
		c.blocks = append(c.blocks, block{kind: kindText, text: text, field: "coreDepth"})
	}
	if len(d.Curve) < 2 {
		return c
	}
	c.blocks = append(c.blocks, block{kind: kindCurve, curve: d.Curve, at: s.Design.CoreDepth, limit: s.Design.Limits.Sag})
	var rows []block
	for _, p := range d.Curve {
		rows = append(rows, block{kind: kindFigure, text: "core " + f.Print(p.CoreDepth), value: length.Sag(p.Sag, f),
			standing: stands(p.Sag, s.Design.Limits.Sag), note: length.Mass(p.Mass, f)})
	}
	c.blocks = append(c.blocks, block{kind: kindFold, key: "depth table", text: "Other depths in figures", inside: rows})
	return c
}

// neededText says which core depth would meet the sag limit.
func neededText(s Snapshot) string {
	limit, f := s.Design.Limits.Sag, s.Lengths
	if !(limit > 0) {
		return ""
	}
	meets := "the limit of " + length.Sag(limit, f)
	switch needed := s.Result.Depth.Needed; {
	case needed <= 0:
		return "No core up to three times this one meets " + meets + ": more ribs, thicker skins or nearer supports are needed."
	case needed > s.Design.CoreDepth:
		return "A core of " + f.Print(needed) + " would meet " + meets + "; it is " + f.Print(s.Design.CoreDepth) + " now."
	default:
		return "A core of " + f.Print(needed) + " would still meet " + meets + "; it is " + f.Print(s.Design.CoreDepth) + " now."
	}
}

// knobsCard tells what the next step of each field would change.
func knobsCard(s Snapshot) card {
	c := card{title: "What one step changes"}
	knobs := s.Result.Knobs
	if len(knobs) == 0 {
		return c
	}
	c.blocks = append(c.blocks, block{kind: kindQuiet, text: "Change of sag, each computed anew and all else left alone: outlined a step down, filled a step up, to the left less sag. Press one to get to its field."})
	for i, k := range knobs {
		// The first is the one shown, the others give the scale.
		scale := append([]engine.Knob{k}, slices.Delete(slices.Clone(knobs), i, i+1)...)
		c.blocks = append(c.blocks, block{kind: kindBars, knobs: scale, field: k.Field, note: knobNote(s, k)})
	}
	return c
}

func stepValue(k engine.Knob, step engine.KnobStep, f length.Format) string {
	if isCount(k.Field) {
		return strconv.Itoa(int(math.Round(step.Value)))
	}
	return f.Print(step.Value)
}

// isCount reports whether a field holds a number of things instead of a length.
func isCount(field string) bool {
	return field == "lengthwise.count" || field == "crosswise.count" || field == "shop.people"
}

// knobNote tells the rest of what a knob's steps change, a line each.
func knobNote(s Snapshot, k engine.Knob) string {
	var notes []string
	for _, step := range []*engine.KnobStep{k.Down, k.Up} {
		if step != nil {
			weight := "the same"
			if step.Mass != 0 {
				weight = signed(step.Mass, func(v float64) string { return length.Mass(v, s.Lengths) })
			}
			notes = append(notes, stepValue(k, *step, s.Lengths)+": weight "+weight+", lowest margin "+signed(step.Margin, fig))
		}
	}
	return strings.Join(notes, "\n")
}
