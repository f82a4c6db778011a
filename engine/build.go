package engine

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"flatwright/engine/catalog"
)

// Working rates of the glue-up; all common practice, no source.
const (
	lapMinutesLow, lapMinutesHigh     = 0.5, 1.5   // to fit one half-lap dry
	spreadSlow, spreadFast            = 2000, 4000 // rib edge wetted by one person, mm/min
	lapGlueLow, lapGlueHigh           = 0.2, 0.5   // to wet one lap, min
	clampMinutesLow, clampMinutesHigh = 10, 25     // to close and clamp one skin, where no way of pressing is worked out
	gridCloseLow, gridCloseHigh       = 5, 15      // to close the laps of a grid
)

const practice = "common practice, no source"

// buildPlan puts the glue-up in order: one skin at a time, both the same way up;
// a survey of the bed may say otherwise, see [BuildPlan.follow].
func (d Design) buildPlan(r Result) BuildPlan {
	g := d.glue()
	j := d.joints()
	plan := BuildPlan{GlueMass: r.Mass.Glue / (1 - d.GlueUp.Tool.Waste()), GlueArea: j.area(), JointLength: j.length}
	b := builder{d: &d, g: g, plan: &plan, factor: cureFactor(g, d.Shop.Temperature), source: "glue table, times at 20 °C: "}
	if b.press = r.GlueUp.Pressing; !(b.press.High > 0) {
		b.press = Range{clampMinutesLow, clampMinutesHigh}
	} else {
		b.way = " Planned: " + lowered(r.GlueUp.Ways[r.GlueUp.Way].Name) + "."
	}
	b.at, b.err = time.Parse(ClockLayout, d.Shop.Start)
	b.begin = b.at
	laps := float64(r.Mass.Laps)
	b.add(BuildStep{Key: "dry", Name: "Dry assembly", Low: 15 + laps*lapMinutesLow, High: 30 + laps*lapMinutesHigh, Source: practice,
		Text: fmt.Sprintf("Push the %d half-laps together without glue. Every rib must sit flush with its neighbours; mark each one and which way round it goes.", r.Mass.Laps)})
	b.add(BuildStep{Key: "rehearse", Name: "Rehearse on the bed", Low: 20, High: 40, Source: practice,
		Text: shimFlat + " Lay the skin and clamps out in the order in which they go on, and clamp once without glue."})
	goes := d.goes(j, d.GlueUp.Split, math.Max(1, float64(d.Shop.People)))
	n := slices.IndexFunc(goes, func(t SpreadTime) bool { return t.part > 0 })
	b.grid(goes[:n])
	for i, t := range goes[n:] {
		text := fmt.Sprintf("Wet the upper edges of the ribs, %.1f m of joint.", t.part*j.length/1000)
		if strings.HasPrefix(t.Key, BottomSeam) {
			text = fmt.Sprintf("%s, %.0f to %.0f g/m² on one face (%s). Work from the middle outwards.", [...]string{"Wet every lap and the lower edges of the ribs", "Wet the lower edges of the ribs"}[truth(n > 0)], g.Spread.Low, g.Spread.High, g.Sources["spread"])
		} else if strings.HasPrefix(goes[n+i-1].Key, BottomSeam) {
			b.night("night-bottom")
			text += " " + staysPut
		}
		if t.part < 1 {
			text += " Only under this sheet of the skin: the other one has its own go. Keep the glue off the rib under the seam where the other sheet will lie."
		}
		b.spread("spread-"+t.Key, "Glue spread: "+t.Name, text, t)
		b.clamp(t.Key, "Clamping: "+strings.TrimPrefix(t.Name, "laps and "), t.part)
	}
	if d.EdgeBand.Thickness > 0 {
		b.add(BuildStep{Key: "bands", Name: "Edge bands", Low: 30, High: 60, Source: practice, Text: "Trim the skins flush, then glue and clamp the long bands and the short bands."})
	}
	b.add(BuildStep{Key: "cure", Cures: true, Name: "Cure wait before loading", Low: g.CureTime.Low * b.factor, High: g.CureTime.High * b.factor, Wait: true,
		Source: b.source + g.Sources["cureTime"],
		Text:   "Nothing heavy goes on it and nothing hangs from it until this time is over."})
	plan.LoadFrom = plan.Steps[len(plan.Steps)-1].Ends
	return plan
}

// What steps say where no survey of the bed says otherwise.
const (
	shimFlat = "Check the bed with a straightedge and shim it flat."
	staysPut = "The panel stays on the bed, the same way up."
)

// follow makes the steps say what gives the flattest top on the bed that was
// surveyed: what to lay on it, and whether the panel is turned over for the top
// skin. Without a bed the steps stay as they are.
func (p *BuildPlan) follow(b *BedReport) {
	if !b.Laid() {
		return
	}
	best := b.Ways[b.Best]
	turn := ""
	switch best.Order {
	case TurnedLong:
		turn = "about its length"
	case TurnedEndway:
		turn = "end over end"
	}
	for i := range p.Steps {
		s := &p.Steps[i]
		switch s.Key {
		case "rehearse":
			s.Text = strings.Replace(s.Text, shimFlat, b.Plans[best.Plan].inShort(), 1)
		case "spread-top", "spread-top-1":
			if turn != "" {
				s.Text = strings.Replace(s.Text, staysPut, "Lay the top skin on the bed, its outside down, and turn the panel over "+turn+" onto it: on this bed the top comes out flattest that way, see under bed and flatness.", 1)
			}
		}
	}
}

// inShort says in a sentence what a plan lays on the bed.
func (p ShimPlan) inShort() string {
	if len(p.Shims) == 0 {
		return "The bed was surveyed: lay no shims, none makes the top flatter."
	}
	return fmt.Sprintf("The bed was surveyed: lay %s, %d in all, listed under bed and flatness.", p.Name, len(p.Shims))
}

// builder adds the steps one after the other and keeps their clock.
type builder struct {
	d         *Design
	g         catalog.Glue
	plan      *BuildPlan
	factor    float64
	source    string
	press     Range  // minutes to lay one skin on and press it
	way       string // of pressing, in a sentence; "" where none is worked out
	begin, at time.Time
	err       error // Validate has refused a start that cannot be read
}

func (b *builder) add(s BuildStep) {
	if b.err == nil {
		s.Starts = b.at.Format(ClockLayout)
		b.at = b.at.Add(time.Duration(math.Round(s.High)) * time.Minute)
		s.Ends = b.at.Format(ClockLayout)
	}
	b.plan.Steps = append(b.plan.Steps, s)
}

func (b *builder) spread(key, name, text string, t SpreadTime) {
	b.add(BuildStep{Key: key, Spreads: true, Name: name, Text: text, Low: t.Low, High: t.High, Source: practice})
}

// clamp presses a part of a skin.
func (b *builder) clamp(skin, name string, part float64) {
	g := b.g
	b.add(BuildStep{Key: "clamp-" + skin, Name: name, Low: part * b.press.Low, High: part * b.press.High, Source: practice,
		Text: fmt.Sprintf("Close the joint and clamp from the middle outwards, %s to %s MPa on the glued ribs (%s). Look for an even squeeze-out along every rib.%s", pressureText(g.Pressure.Low), pressureText(g.Pressure.High), g.Sources["pressure"], b.way)})
	b.hold(skin, "Leave it on the bed. What is bent now stays bent.")
}

func (b *builder) hold(what, text string) {
	b.add(BuildStep{Key: "hold-" + what, Cures: true, Name: "Keep it clamped", Low: b.g.ClampTime.Low * b.factor, High: b.g.ClampTime.High * b.factor, Wait: true,
		Source: b.source + b.g.Sources["clampTime"], Text: text})
}

// grid glues the laps before any skin, at once or one half after the other.
func (b *builder) grid(goes []SpreadTime) {
	if len(goes) == 0 {
		return
	}
	for i, t := range goes {
		key, text := t.Key, "Wet both cheeks of every lap, sparingly: what is squeezed out stands in the way of the skins."
		if len(goes) > 1 {
			half := b.d.firstHalf()
			first, last := 1, half
			if i > 0 {
				first, last = half+1, b.d.Crosswise.number()
			}
			text = fmt.Sprintf("Only the laps of the crosswise ribs C%d to C%d. %s", first, last, text)
		}
		b.spread("spread-"+key, "Glue spread: "+t.Name, text, t)
		b.add(BuildStep{Key: "close-" + key, Name: "Close the laps", Low: gridCloseLow, High: gridCloseHigh, Source: practice,
			Text: "Push the laps home flush on the flat bed, check both diagonals, wipe off what was squeezed out, and weigh the grid down."})
		b.hold(key, "Leave the grid flat on the bed.")
	}
	b.night("night-grid")
}

// night waits until the hour at which the work began, where each skin has its day.
func (b *builder) night(key string) {
	if b.d.GlueUp.Split != SkinADay {
		return
	}
	const day = 24 * 60
	rest := day - math.Mod(b.at.Sub(b.begin).Minutes(), day)
	b.add(BuildStep{Key: key, Name: "Until the next day", Low: rest, High: rest, Wait: true, Source: "the clock",
		Text: "Leave it on the bed until the hour at which you began. Nothing is spread before."})
}

// lowered is a name within a sentence.
func lowered(name string) string { return strings.ToLower(name[:1]) + name[1:] }

// pressureText prints a pressure: contact pressures need a digit more.
func pressureText(mpa float64) string {
	if mpa < 0.195 {
		return fmt.Sprintf("%.2f", mpa)
	}
	return fmt.Sprintf("%.1f", mpa)
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

// openTimeProblems compares the time to spread with the glue's open time in this
// shop's air, and says which way out fits.
func (d Design) openTimeProblems(r Result) []Problem {
	g := d.glue()
	factor, _ := d.openFactor(d.Shop.Temperature)
	options, best := d.splitOptions(d.joints())
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
			Text: fmt.Sprintf("“%s” takes %s, but this glue may lie open for %s. %s",
				s.Name, Minutes(s.Low, s.High), Minutes(g.OpenTime.Low*factor, g.OpenTime.High*factor), wayOut(options, best))})
	}
	return out
}

// wayOut says which option helps.
func wayOut(options []SplitOption, best int) string {
	o := options[best]
	switch o.Fit {
	case FitsSurely:
		return "This fits: " + o.Name + ", " + Minutes(o.Low, o.High) + " at a time."
	case FitsPerhaps:
		return "Nothing fits for sure; nearest is this: " + o.Name + ", " + Minutes(o.Low, o.High) + " at a time for an open time of " + Minutes(o.Open.Low, o.Open.High) + "."
	}
	return "No split, no more hands and no glue of the table fits: make the grid coarser, each skin of two sheets with a seam, which can be glued one after the other, or the top in two parts."
}
