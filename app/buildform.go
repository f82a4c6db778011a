package app

import (
	"slices"
	"strconv"

	"flatwright/engine"
)

// buildGroups are what is told during the build: what went wrong, and what was
// made otherwise; step is the key of the build step that is looked at.
func buildGroups(f *form, step func() string) []*group {
	return []*group{f.mishapGroup(step), f.builtGroup(), f.timesGroup()}
}

// mishapGroup is what to do when something goes wrong; it is noted at the step that is
// looked at.
func (f *form) mishapGroup(at func() string) *group {
	// Not of the design: a question to it.
	picked, part, skin, slid := engine.Mishaps[0].Key, string(engine.LengthwisePart), anySkin, engine.TopSeam
	return &group{
		name: "Something went wrong", roots: nil,
		shape: func(engine.Design) string { return picked + f.lengths.Unit() }, // its text has lengths
		build: func(b *builder) {
			var options []option
			for _, m := range engine.Mishaps {
				options = append(options, option{m.Key, m.Name})
			}
			b.add(f.question(spec{path: "mishap", label: "What happened", help: "Pick it and read below what to do at once."}, fixedOptions(options...),
				func(Snapshot) string { return picked },
				func(key string) {
					picked = key
					if step := engine.SkinOfStep(at()); step != "" {
						skin, slid = step, step
					}
					f.Show(f.snap)
				}))
			m, _ := engine.MishapOf(picked)
			b.heading(inUnit(m.AtOnce, f.lengths))
			of := &part
			if m.Skin {
				of = &slid
				b.add(f.question(spec{path: "mishap.part", label: "Which skin", help: "The one that does not lie where it should."}, fixedOptions(gluedSkins[1:]...),
					func(Snapshot) string { return slid },
					func(key string) { slid = key }))
			} else {
				b.add(f.question(spec{path: "mishap.part", label: "Where", help: "The rib, or all that run one way."}, measuredOptions,
					func(Snapshot) string { return part },
					func(key string) { part = key }))
			}
			if m.Either {
				b.add(f.question(spec{path: "mishap.skin", label: "At which skin", help: "A rib that holds on one skin still carries with that one; at neither it only keeps them apart."}, fixedOptions(gluedSkins[:]...),
					func(Snapshot) string { return skin },
					func(key string) { skin = key }))
			}
			b.add(f.button("Mark it and rate the top anew", "It is marked under As built, drawn in red in plan and section and noted at the step that you look at; what can be done about it stands at the right.", func() { f.suffer(m, *of, skin, at()) }))
		},
		summary: func(Snapshot) string { return "what to do at once" },
	}
}

// anySkin is the key of both skins in a choice, whose keys are never empty.
const anySkin = "both"

// gluedSkins are both skins, then either.
var gluedSkins = [...]option{{anySkin, "both skins"}, {engine.TopSeam, "top skin"}, {engine.BottomSeam, "bottom skin"}}

// skinOf is the skin of a choice as the design has it.
func skinOf(key string) string {
	if key == anySkin {
		return ""
	}
	return key
}

// suffer marks the panel with a mishap, at a build step.
func (f *form) suffer(m engine.Mishap, part, skin, step string) {
	f.session.Edit("something went wrong", "", func(d *engine.Design) { d.Suffer(m, part, skinOf(skin), step) })
}

// timesGroup is the temperature measured at each step.
func (f *form) timesGroup() *group {
	return &group{
		name: "Temperatures", roots: []string{"log"},
		shape: func(d engine.Design) string {
			shape := ""
			for _, l := range d.Log {
				shape += l.Step + "|"
			}
			return shape
		},
		build: func(b *builder) {
			b.heading("Of shop and glue as measured; clamp and cure times follow")
			for _, l := range f.snap.Design.Log {
				f.stepTemperature(b, l.Step)
			}
			if len(f.snap.Design.Log) == 0 {
				b.heading("Once a step is begun its temperature can be noted here.")
			}
		},
		summary: func(s Snapshot) string {
			n := 0
			for _, l := range s.Design.Log {
				if l.Measured {
					n++
				}
			}
			return strconv.Itoa(n) + " noted"
		},
	}
}

// stepTemperature is the field of one step; while nothing is measured it shows
// the shop's.
func (f *form) stepTemperature(b *builder, step string) {
	at := func(d *engine.Design) *engine.StepLog {
		i := slices.IndexFunc(d.Log, func(l engine.StepLog) bool { return l.Step == step })
		if i < 0 {
			return nil
		}
		return &d.Log[i]
	}
	l := f.valueOf(spec{path: "log." + step, label: stepName(f.snap.Result, step), edit: "temperature", help: "Cold glue is slow: ten degrees less can double the time."}, temperatureQuantity,
		func(d *engine.Design) (float64, bool) {
			if l := at(d); l != nil && l.Measured {
				return l.Celsius, true
			}
			return d.Shop.Temperature, true
		},
		func(d *engine.Design, v float64) {
			if l := at(d); l != nil {
				l.Celsius, l.Measured = v, true
			}
		})
	l.alias = func(d engine.Design) string {
		return path("log[%d]", slices.IndexFunc(d.Log, func(l engine.StepLog) bool { return l.Step == step }))
	}
	b.add(l)
}

// stepName is what people call a step.
func stepName(r engine.Result, key string) string {
	for _, s := range r.Build.Steps {
		if s.Key == key {
			return s.Name
		}
	}
	return key
}
