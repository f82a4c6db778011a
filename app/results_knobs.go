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
	c.blocks = append(c.blocks, block{kind: kindQuiet, text: stepsLine(s)})
	if d.Exponent > 0 {
		text := "Twice the core depth gives " + about(s) + length.Number(twiceAsDeep(s), 2) + " times less sag; a solid slab twice as deep gives 8. Near this depth the sag goes with the core depth to the power " + about(s) + "−" + length.Number(d.Exponent, 2) + "; a solid slab has −3."
		c.blocks = append(c.blocks, block{kind: kindText, text: text, field: "coreDepth"})
	}
	if text := neededText(s); text != "" {
		c.blocks = append(c.blocks, block{kind: kindText, text: text, field: "coreDepth"})
	}
	if len(d.Curve) < 2 {
		return c
	}
	c.blocks = append(c.blocks, block{kind: kindCurve, rough: roughSteps(s), curve: d.Curve, at: s.Design.CoreDepth, limit: s.Design.Limits.Sag})
	var rows []block
	for _, p := range d.Curve {
		rows = append(rows, block{kind: kindFigure, text: "core " + f.Print(p.CoreDepth), value: about(s) + length.Sag(p.Sag, f),
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
		return "A core of " + about(s) + f.Print(needed) + " would meet " + meets + "; it is " + f.Print(s.Design.CoreDepth) + " now."
	default:
		return "A core of " + about(s) + f.Print(needed) + " would still meet " + meets + "; it is " + f.Print(s.Design.CoreDepth) + " now."
	}
}

// knobsCard tells what the next step of each field would change.
func knobsCard(s Snapshot) card {
	c := card{title: "What one step changes"}
	knobs := s.Result.Knobs
	if len(knobs) == 0 {
		if len(s.Design.Cases) > 0 {
			c.blocks = append(c.blocks, block{kind: kindQuiet, text: "Told once nothing is being moved."})
		}
		return c
	}
	c.blocks = append(c.blocks, block{kind: kindQuiet, text: stepsLine(s) + " Outlined is a step down, filled a step up, to the left is less sag; all else is left alone. Press one to get to its field."})
	for i, k := range knobs {
		// The first is the one shown, the others give the scale.
		scale := append([]engine.Knob{k}, slices.Delete(slices.Clone(knobs), i, i+1)...)
		c.blocks = append(c.blocks, block{kind: kindBars, rough: roughSteps(s), knobs: scale, field: k.Field, note: knobNote(s, k)})
	}
	return c
}

// roughSteps reports whether single steps and other depths are estimates.
func roughSteps(s Snapshot) bool { return s.Result.WhatIf == nil }

// about marks an estimate.
func about(s Snapshot) string {
	if roughSteps(s) {
		return "~"
	}
	return ""
}

// stepsLine says in plain words where single steps and other depths come from.
func stepsLine(s Snapshot) string {
	w := s.Result.WhatIf
	switch {
	case w != nil:
		return "Computed: each is a whole panel of its own, on the " + meshName(w.Mesh) + ", and so is the one it is compared with."
	case s.Trying:
		return "Estimates (~): the whole panel is being computed for each, " + percent(s.Tried) + " done…"
	case s.Finer:
		return "Estimates (~), by the closed form in proportion to this panel's sag; the whole panel follows once its sag is refined."
	}
	return "Estimates (~), by the closed form in proportion to this panel's sag."
}

// twiceAsDeep is by how many times a panel with twice the core depth sags less:
// from the curve, or where that does not reach by the power near this depth.
func twiceAsDeep(s Snapshot) float64 {
	d, core := s.Result.Depth, s.Design.CoreDepth
	var here, twice float64
	for _, p := range d.Curve {
		switch {
		case math.Abs(p.CoreDepth-core) < 0.01:
			here = p.Sag
		case math.Abs(p.CoreDepth-2*core) < 0.01:
			twice = p.Sag
		}
	}
	if here > 0 && twice > 0 {
		return here / twice
	}
	return math.Pow(2, d.Exponent)
}

func stepValue(s Snapshot, k engine.Knob, step engine.KnobStep) string {
	if step.Material != "" {
		if m, ok := s.Design.Material(step.Material); ok {
			return m.Name
		}
		return step.Material
	}
	if isCount(k.Field) {
		return strconv.Itoa(int(math.Round(step.Value)))
	}
	return s.Lengths.Print(step.Value)
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
			notes = append(notes, stepValue(s, k, *step)+": weight "+weight+costText(step)+", lowest margin "+about(s)+signed(step.Margin, fig))
		}
	}
	return strings.Join(notes, "\n")
}

// costText is what a step changes of the cost, where that is known.
func costText(step *engine.KnobStep) string {
	switch {
	case !step.Priced:
		return ""
	case step.Cost == 0:
		return ", cost the same"
	}
	return ", cost " + signed(step.Cost, func(v float64) string { return length.Number(v, 3) })
}
