package engine

import (
	"fmt"
	"math"
	"time"

	"flatwright/engine/catalog"
)

// Working rates of the glue-up; all common practice, no source.
const (
	lapMinutesLow, lapMinutesHigh     = 0.5, 1.5   // to fit one half-lap dry
	spreadSlow, spreadFast            = 2000, 4000 // rib edge wetted by one person, mm/min
	lapGlueLow, lapGlueHigh           = 0.2, 0.5   // to wet one lap, min
	clampMinutesLow, clampMinutesHigh = 10, 25     // to close and clamp one skin
	glueWaste                         = 1.2        // glue to have ready over glue in the joints
)

const practice = "common practice, no source"

// buildPlan puts the glue-up in order: one skin at a time, both the same way up.
func (d Design) buildPlan(r Result) BuildPlan {
	g := d.glue()
	j := d.joints()
	factor := cureFactor(g, d.Shop.Temperature)
	laps := float64(r.Mass.Laps)
	people := math.Max(1, float64(d.Shop.People))
	spreadLow, spreadHigh := j.length/spreadFast/people, j.length/spreadSlow/people
	glueSource := "glue table, times at 20 °C: " + g.Sources["clampTime"]
	plan := BuildPlan{GlueMass: r.Mass.Glue * glueWaste, GlueArea: j.area(), JointLength: j.length}
	at, err := time.Parse(ClockLayout, d.Shop.Start)
	add := func(s BuildStep) {
		if err == nil { // Validate has refused any other start
			s.Starts = at.Format(ClockLayout)
			at = at.Add(time.Duration(math.Round(s.High)) * time.Minute)
			s.Ends = at.Format(ClockLayout)
		}
		plan.Steps = append(plan.Steps, s)
	}
	spread := func(key, name, text string, lapShare float64) {
		add(BuildStep{Key: key, Spreads: true, Name: name, Text: text, Low: spreadLow + lapShare*laps*lapGlueLow/people, High: spreadHigh + lapShare*laps*lapGlueHigh/people, Source: practice})
	}
	clamp := func(skin, name string) {
		add(BuildStep{Key: "clamp-" + skin, Name: name, Low: clampMinutesLow, High: clampMinutesHigh, Source: practice,
			Text: fmt.Sprintf("Close the joint and clamp from the middle outwards, %.1f to %.1f MPa on the glued ribs (%s). Look for an even squeeze-out along every rib.", g.Pressure.Low, g.Pressure.High, g.Sources["pressure"])})
		add(BuildStep{Key: "hold-" + skin, Cures: true, Name: "Keep it clamped", Low: g.ClampTime.Low * factor, High: g.ClampTime.High * factor, Wait: true, Source: glueSource,
			Text: "Leave it on the bed. What is bent now stays bent."})
	}
	add(BuildStep{Key: "dry", Name: "Dry assembly", Low: 15 + laps*lapMinutesLow, High: 30 + laps*lapMinutesHigh, Source: practice,
		Text: fmt.Sprintf("Push the %d half-laps together without glue. Every rib must sit flush with its neighbours; mark each one and which way round it goes.", r.Mass.Laps)})
	add(BuildStep{Key: "rehearse", Name: "Rehearse on the bed", Low: 20, High: 40, Source: practice,
		Text: "Check the bed with a straightedge and shim it flat. Lay the skin and clamps out in the order in which they go on, and clamp once without glue."})
	spread("spread-bottom", "Glue spread: laps and bottom skin", fmt.Sprintf("Wet every lap and the lower edges of the ribs, %.0f to %.0f g/m² on one face (%s). Work from the middle outwards.", g.Spread.Low, g.Spread.High, g.Sources["spread"]), 1)
	clamp("bottom", "Clamping: bottom skin")
	spread("spread-top", "Glue spread: top skin", fmt.Sprintf("Wet the upper edges of the ribs, %.1f m of joint. The panel stays on the bed, the same way up.", j.length/1000), 0)
	clamp("top", "Clamping: top skin")
	if d.EdgeBand.Thickness > 0 {
		add(BuildStep{Key: "bands", Name: "Edge bands", Low: 30, High: 60, Source: practice, Text: "Trim the skins flush, then glue and clamp the long bands and the short bands."})
	}
	add(BuildStep{Key: "cure", Cures: true, Name: "Cure wait before loading", Low: g.CureTime.Low * factor, High: g.CureTime.High * factor, Wait: true,
		Source: "glue table, times at 20 °C: " + g.Sources["cureTime"],
		Text:   "Nothing heavy goes on it and nothing hangs from it until this time is over."})
	plan.LoadFrom = plan.Steps[len(plan.Steps)-1].Ends
	return plan
}

// cureFactor returns by how much the glue's clamp and cure times stretch at a
// temperature. Reaction glues take twice as long for every 10 °C less (rule of
// thumb, from memory); for the others the table's times stand within their
// temperature limits.
func cureFactor(g catalog.Glue, celsius float64) float64 {
	if !g.HalvesPer10 {
		return 1
	}
	return math.Pow(2, (20-celsius)/10)
}

// openTimeProblems compares the time to spread with the glue's open time.
func (d Design) openTimeProblems(r Result) []Problem {
	g := d.glue()
	factor := cureFactor(g, d.Shop.Temperature)
	var out []Problem
	for _, s := range r.Build.Steps {
		if !s.Spreads {
			continue
		}
		severity := Advice
		if s.Low > g.OpenTime.High*factor {
			severity = Shortfall
		} else if s.High <= g.OpenTime.Low*factor {
			continue
		}
		out = append(out, Problem{Code: "open-time", Severity: severity, Field: "glue",
			Text: fmt.Sprintf("“%s” takes %s, but this glue may lie open for %s. More hands, a slower glue, or half of the grid at a time would help.",
				s.Name, Minutes(s.Low, s.High), Minutes(g.OpenTime.Low*factor, g.OpenTime.High*factor))})
	}
	return out
}
