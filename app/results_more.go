package app

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// marginsCard tells every way to fail that was checked, the nearest first.
func marginsCard(s Snapshot) card {
	c := card{title: "Margins"}
	if len(s.Result.Margins) == 0 {
		return c
	}
	c.blocks = append(c.blocks, block{kind: kindQuiet, text: "Strength with its reserves, over what the loads with theirs ask of it; it passes at 1. The lowest comes first. Press one to see its place in the drawing; Escape takes the mark away."})
	for i, m := range s.Result.Margins {
		c.blocks = append(c.blocks,
			block{kind: kindFigure, text: m.Name, value: fig(m.Value), standing: standsAbove(m.Value, 1), note: timesText(m.Times), part: m.Part,
				spot: engine.Spot{X: m.X, Y: m.Y, Part: m.Part, Text: m.Name}, shows: 1 + caseNamed(s.Design, m.Case)},
			block{kind: kindFold, key: "margin " + m.Code + " " + strconv.Itoa(i), text: "Where and why", inside: marginDetail(m, s.Lengths)})
	}
	return c
}

// caseNamed returns the load case of that name, -1 if there is none.
func caseNamed(d engine.Design, name string) int {
	return slices.IndexFunc(d.Cases, func(c engine.LoadCase) bool { return c.Name == name })
}

// timesText is the headline of a margin: how often the load fits.
func timesText(times float64) string {
	switch {
	case math.IsNaN(times) || times <= 0:
		return "own weight alone reaches that point"
	case math.IsInf(times, 0) || times > 1000:
		return "more than 1 000 times this load before that point"
	}
	if times < 1 {
		return "reached at " + fig(times) + " times this load already"
	}
	return fig(times) + " times this load before that point"
}

func marginDetail(m engine.Margin, f length.Format) []block {
	unit := m.Unit
	if unit == "" {
		unit = "MPa"
	}
	detail := []block{}
	if m.Where != "" {
		detail = append(detail, block{kind: kindText, text: inUnit(capital(m.Where)+".", f)})
	}
	detail = append(detail,
		block{kind: kindFigure, text: "it can bear", value: engine.InUnits(fig(m.Capacity)+" "+unit, f)},
		block{kind: kindFigure, text: "it has to bear", value: engine.InUnits(fig(m.Demand)+" "+unit, f)})
	if m.Case != "" {
		detail = append(detail, block{kind: kindQuiet, text: "In the load case “" + m.Case + "”."})
	}
	if m.KMod > 0 && m.GammaM > 0 && !strings.HasPrefix(m.Code, "tipping") {
		detail = append(detail, block{kind: kindQuiet, text: "Strength times " + fig(m.KMod) + " for how long the load stays and how damp the room is (kmod), divided by " +
			fig(m.GammaM) + " for scatter of the material (γM)."})
	}
	for _, text := range []string{m.Note, sourceText(m.Source)} {
		if text != "" {
			detail = append(detail, block{kind: kindQuiet, text: inUnit(text, f)})
		}
	}
	return detail
}

// buildCard tells the glue-up in order with its times.
func buildCard(s Snapshot) card {
	c := card{title: "Build steps"}
	b := s.Result.Build
	if len(b.Steps) == 0 {
		return c
	}
	for i, step := range b.Steps {
		note := clockSpan(step.Starts, step.Ends)
		if step.Wait {
			note += "; nobody works, it must lie still"
		}
		c.blocks = append(c.blocks, block{kind: kindFigure, text: strconv.Itoa(i+1) + ". " + step.Name, value: minutesText(step.Low, step.High), note: note})
		if step.Text != "" {
			c.blocks = append(c.blocks, block{kind: kindQuiet, text: step.Text})
		}
		if step.Source != "" {
			c.blocks = append(c.blocks, block{kind: kindFold, key: "build " + strconv.Itoa(i), text: "Where the times come from",
				inside: []block{{kind: kindQuiet, text: sourceText(step.Source)}}})
		}
	}
	if b.LoadFrom != "" {
		c.blocks = append(c.blocks, block{kind: kindText, text: "Put nothing on it before " + clockText(b.LoadFrom, true) + "."})
	}
	if b.GlueMass > 0 {
		c.blocks = append(c.blocks, block{kind: kindFigure, text: "glue to have ready", value: length.Mass(b.GlueMass, s.Lengths),
			note: "for " + s.Lengths.PrintFeet(b.JointLength) + " of rib joint on each face", field: "glue"})
	}
	c.blocks = append(c.blocks, block{kind: kindText, standing: widgets.Near, text: "▲ Before the saw and the glue: guards on, eyes, ears and lungs protected, gloves for the glue, air moving. " +
		"The glue maker's sheet overrules these times. Lift the closed panel with two. It is not for standing on."})
	return c
}

// workingCard gives every formula with the numbers in it.
func workingCard(s Snapshot) card {
	c := card{title: "Working"}
	for _, w := range s.Result.Working {
		var inside []block
		if w.Plain != "" {
			inside = append(inside, block{kind: kindText, text: w.Plain})
		}
		for _, line := range []struct{ name, text string }{{"Formula", w.Formula}, {"With the numbers", w.Numbers}} {
			if line.text != "" {
				inside = append(inside, block{kind: kindQuiet, text: line.name + ":"}, block{kind: kindText, text: line.text})
			}
		}
		inside = append(inside, block{kind: kindFigure, text: "comes to", value: w.Result})
		if w.Source != "" {
			inside = append(inside, block{kind: kindQuiet, text: sourceText(w.Source)})
		}
		c.blocks = append(c.blocks, block{kind: kindFold, key: "working " + w.Key, text: w.Title, inside: inside})
	}
	if len(c.blocks) > 0 {
		c.blocks = append(c.blocks, block{kind: kindQuiet, text: "Left out by the model: joints by nails or screws alone, glue lines with gaps, delamination, impact, fire, fatigue, and " +
			"anything people stand under or climb on. Local codes and a licensed engineer decide where they apply."})
	}
	return c
}
