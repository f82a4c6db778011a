package app

import (
	"strconv"
	"strings"

	"flatwright/engine"
	"flatwright/engine/proof"
)

// proveGroups are what is stacked, how it is read, and the readings.
func (v *proveView) proveGroups(f *form) []*group {
	return []*group{v.stackGroup(f), v.gaugeGroup(f), v.readingsGroup(f)}
}

// stages are those of a round, if there is a plan.
func (v *proveView) stages(round int) []engine.ProofStage {
	if v.planned && round < len(v.plan.Rounds) {
		return v.plan.Rounds[round].Stages
	}
	return nil
}

// stackGroup is what is put on.
func (v *proveView) stackGroup(f *form) *group {
	return &group{
		name: "What is stacked", roots: []string{"proof"},
		shape: func(d engine.Design) string { return strconv.Itoa(len(d.Proof.Rounds)) },
		build: func(b *builder) {
			if !f.snap.Design.Proof.Planned() {
				b.heading("After the cure, on low supports, with nobody under it.")
				b.add(f.button("Plan a proof load", "Weights in stages on the middle of the top, within what it is to carry, read by straightedge. All of it can be changed.", func() {
					f.session.Edit("proof load", "", func(d *engine.Design) { d.Proof = engine.NewProof(*d) })
				}))
				return
			}
			var kinds []option
			for _, k := range engine.Stackables() {
				kinds = append(kinds, option{k.Key, k.Name})
			}
			b.add(f.choice(spec{path: "proof.stack", label: "Weights", edit: "weights", help: "What lies about in a shop or a household and is weighed easily."}, fixedOptions(kinds...),
				func(d engine.Design) string { return d.Proof.Stackable().Key },
				func(d *engine.Design, key string) { d.Proof.Stack, d.Proof.Piece = key, 0 }))
			b.add(f.valueOf(spec{path: "proof.piece", label: "One piece weighs", edit: "weight of a piece", help: "Weigh one. A usual figure is taken until you do."}, massQuantity,
				func(d *engine.Design) (float64, bool) { return d.Proof.Stackable().Piece, true },
				func(d *engine.Design, kg float64) { d.Proof.Piece = kg }))
			b.add(f.valueOf(spec{path: "proof.share", label: "Of the service load", edit: "share of the load", help: "The heaviest load case is the service load. No more than 110 % of it is put on, and never more than keeps every margin at 1."}, number("%", 10),
				func(d *engine.Design) (float64, bool) {
					if d.Proof.Share > 0 {
						return 100 * d.Proof.Share, true
					}
					return 100, true
				},
				func(d *engine.Design, v float64) { d.Proof.Share = v / 100 }))
			b.add(f.valueOf(spec{path: "proof.stages", label: "Stages on the way up", edit: "stages", help: "Three to six. From three on the line can be judged."}, wholeNumber,
				func(d *engine.Design) (float64, bool) { return float64(d.Proof.StagesUp()), true },
				func(d *engine.Design, v float64) { d.Proof.Stages = int(v) }))
			b.add(f.valueOf(spec{path: "proof.hold", label: "Hold each stage", edit: "hold", help: "Then read again: creep must slow down. Five minutes is about the time in which stiffness is measured in a laboratory."}, number("min", 1),
				func(d *engine.Design) (float64, bool) { return d.Proof.Minutes(), true },
				func(d *engine.Design, v float64) { d.Proof.Hold = v }))
			for i := range f.snap.Design.Proof.Rounds {
				v.placeLines(f, b, i)
			}
			b.add(f.button("Another round, near a support", "There more of the sag is shear and slip. Two rounds can tell soft skins from a soft core; one cannot.", func() {
				f.session.Edit("another round", "", func(d *engine.Design) { d.Proof.Rounds = append(d.Proof.Rounds, d.SecondRound()) })
			}))
			b.add(f.button("Remove the proof load", "With all its readings. Undo brings it back.", func() {
				f.session.Edit("removed proof load", "", func(d *engine.Design) { d.Proof = engine.Proof{} })
			}))
		},
		summary: func(s Snapshot) string {
			if !s.Design.Proof.Planned() {
				return "none planned"
			}
			return s.Design.Proof.Stackable().Name
		},
	}
}

// roundAt returns a round of a design, nil where there is none any more.
func roundAt(d *engine.Design, i int) *engine.ProofRound {
	if i < len(d.Proof.Rounds) {
		return &d.Proof.Rounds[i]
	}
	return nil
}

// placeLines are where the stack of a round stands.
func (v *proveView) placeLines(f *form, b *builder, i int) {
	name := "round " + strconv.Itoa(i+1)
	b.fold("Where the stack of "+name+" stands", "its middle and its size", func(b *builder) {
		field := func(key, label, help string, of func(*engine.ProofRound) *float64) {
			b.add(f.value(spec{path: path("proof.rounds[%d]."+key, i), label: label, edit: "stack of " + name, help: help}, lengthQuantity,
				func(d *engine.Design) *float64 {
					if r := roundAt(d, i); r != nil {
						return of(r)
					}
					return nil
				}))
		}
		field("x", "Middle from the left end", "Of the ground that the stack covers.", func(r *engine.ProofRound) *float64 { return &r.X })
		field("y", "Middle from the front edge", "Of the ground that the stack covers.", func(r *engine.ProofRound) *float64 { return &r.Y })
		field("sizeX", "Size along the length", "A lane for the straightedge is left free by itself.", func(r *engine.ProofRound) *float64 { return &r.SizeX })
		field("sizeY", "Size across the width", "A lane for the straightedge is left free by itself.", func(r *engine.ProofRound) *float64 { return &r.SizeY })
		if len(f.snap.Design.Proof.Rounds) > 1 {
			b.add(f.button("Remove "+name, "With its readings.", func() {
				f.session.Edit("removed round", "", func(d *engine.Design) { d.Proof.Rounds = without(d.Proof.Rounds, i) })
			}))
		}
	})
}

// gaugeGroup is how the sag is read.
func (v *proveView) gaugeGroup(f *form) *group {
	return &group{
		name: "How it is read", roots: []string{"proof.way", "proof.over", "proof.x", "proof.y", "proof.from", "proof.to", "proof.across", "proof.falls", "proof.error"},
		shape: func(d engine.Design) string {
			return strconv.FormatBool(d.Proof.Planned()) + string(d.Proof.Reference()) + strconv.FormatBool(d.Proof.Across)
		},
		build: func(b *builder) {
			d := f.snap.Design
			if !d.Proof.Planned() {
				b.heading("Once a proof load is planned.")
				return
			}
			var ways []option
			for _, w := range proof.Ways() {
				ways = append(ways, option{w.Key, w.Name})
			}
			b.add(f.choice(spec{path: "proof.way", label: "Read by", edit: "way of reading", help: "Whether it is fine enough for this top is said at the right."}, fixedOptions(ways...),
				func(d engine.Design) string { return d.Proof.Reads().Key },
				func(d *engine.Design, key string) { d.Proof.Way, d.Proof.Error, d.Proof.Over = key, 0, "" }))
			b.add(f.choice(spec{path: "proof.over", label: "What the gauge stands on", edit: "reference", help: "A straightedge on the top rides down with it and reads less than a stand on the floor. What is expected follows this."},
				fixedOptions(option{string(engine.OnTheTop), "the top itself: it rides down with it"}, option{string(engine.OnTheSupports), "a bar from support to support"}, option{string(engine.OnTheFloor), "the floor"}),
				func(d engine.Design) string { return string(d.Proof.Reference()) },
				func(d *engine.Design, key string) { d.Proof.Over = engine.ProofReference(key) }))
			place := func(key, label, help string, of func(*engine.Design) *float64) {
				b.add(f.value(spec{path: "proof." + key, label: label, edit: "place of the gauge", help: help}, lengthQuantity, of))
			}
			place("x", "Gauge from the left end", "Where the sag is read.", func(d *engine.Design) *float64 { return &d.Proof.X })
			place("y", "Gauge from the front edge", "Where the sag is read.", func(d *engine.Design) *float64 { return &d.Proof.Y })
			if d.Proof.Reference() == engine.OnTheTop {
				b.add(f.choice(spec{path: "proof.across", label: "The straightedge lies", edit: "straightedge", help: "Through the gauge."},
					fixedOptions(option{"along", "along the length"}, option{"across", "across the width"}),
					func(d engine.Design) string { return either(d.Proof.Across, "across", "along") },
					func(d *engine.Design, key string) {
						fresh := engine.NewProof(*d)
						if d.Proof.Across = key == "across"; d.Proof.Across == fresh.Across {
							d.Proof.From, d.Proof.To = fresh.From, fresh.To
						} else {
							d.Proof.From, d.Proof.To = 0, d.Length
							if d.Proof.Across {
								d.Proof.To = d.Width
							}
						}
					}))
				place("from", "It rests from", "Along it: its first block, over a support if it can be.", func(d *engine.Design) *float64 { return &d.Proof.From })
				place("to", "to", "Along it: its second block.", func(d *engine.Design) *float64 { return &d.Proof.To })
			}
			b.add(f.choice(spec{path: "proof.falls", label: "As the top sags, the reading", edit: "sense of the gauge", help: "A gap under a straightedge grows; a rule from the floor up to the top falls."},
				fixedOptions(option{"grows", "grows"}, option{"falls", "falls"}),
				func(d engine.Design) string { return either(d.Proof.Falls, "falls", "grows") },
				func(d *engine.Design, key string) { d.Proof.Falls = key == "falls" }))
			b.add(f.valueOf(spec{path: "proof.error", label: "Error of one reading", edit: "error of a reading", help: "By how much readings of the same thing commonly differ (standard error). A usual figure of the way is taken until you type yours."}, smallLength,
				func(d *engine.Design) (float64, bool) { return d.Proof.Reads().Error, true },
				func(d *engine.Design, mm float64) { d.Proof.Error = mm }))
		},
		summary: func(s Snapshot) string { return "by " + s.Design.Proof.Reads().Name },
	}
}

// readingsGroup is what was read, stage by stage.
func (v *proveView) readingsGroup(f *form) *group {
	return &group{
		name: "Readings", roots: []string{"proof.rounds"},
		shape: func(d engine.Design) string {
			var shape strings.Builder
			for i, r := range d.Proof.Rounds {
				shape.WriteString(strconv.Itoa(len(v.stages(i))) + "/" + strconv.FormatBool(r.Cracking) + ":")
				for _, q := range r.Readings {
					shape.WriteString(strconv.Itoa(q.Stage) + ",")
				}
				for _, s := range v.stages(i) {
					shape.WriteString(s.Name)
				}
			}
			return shape.String()
		},
		build: func(b *builder) {
			for i := range f.snap.Design.Proof.Rounds {
				v.roundLines(f, b, i)
			}
			if len(f.snap.Design.Proof.Rounds) == 0 {
				b.heading("Once a proof load is planned.")
				return
			}
			b.add(f.button("Rate the margins anew", "By these readings. The whole panel is computed once more for each thing that may explain them. It takes a few seconds.", v.rate))
			b.add(f.text(spec{path: "proof.notes", label: "Notes", edit: "notes of the proof load"}, func(d *engine.Design) *string { return &d.Proof.Notes }))
		},
		summary: func(s Snapshot) string {
			n := 0
			for _, r := range s.Design.Proof.Rounds {
				n += len(r.Readings)
			}
			return countOf(n, "reading", "readings")
		},
	}
}

// roundLines are the readings of one round and what comes next.
func (v *proveView) roundLines(f *form, b *builder, i int) {
	stages := v.stages(i)
	name := "round " + strconv.Itoa(i+1)
	b.heading(capital(name))
	seen := map[int]int{}
	for k, q := range f.snap.Design.Proof.Rounds[i].Readings {
		label := "Stage " + strconv.Itoa(q.Stage)
		if q.Stage < len(stages) {
			label = capital(stages[q.Stage].Name)
		}
		if seen[q.Stage]++; seen[q.Stage] > 1 {
			label += ", again"
		}
		v.readingLines(f, b, i, k, label)
	}
	next, last := v.nextStage(f.snap, i)
	add := func(label, help string, stage int) {
		b.add(f.button(label, help, func() {
			k := len(f.session.Now().Design.Proof.Rounds[i].Readings)
			at := f.session.clock().Format(engine.ClockLayout)
			f.session.Edit("reading", "", func(d *engine.Design) {
				if r := roundAt(d, i); r != nil {
					read := 0.0
					if len(r.Readings) > 0 {
						read = r.Readings[len(r.Readings)-1].Read
					}
					r.Readings = append(r.Readings, engine.ProofReading{Stage: stage, Read: read, At: at})
				}
			})
			f.session.ShowField(path("proof.rounds[%d].readings[%d].read", i, k))
		}))
	}
	if last >= 0 {
		add("Read this stage of "+name+" again", "At the end of the hold, and as often as you like: the last reading counts, all tell how it creeps.", last)
	}
	if next >= 0 && next < len(stages) {
		add("Read "+name+": "+stages[next].Name, "On the top: "+v.plan.StageLoad(stages[next], f.lengths)+". A reading is made with the time of now; type what the gauge shows.", next)
	}
	b.add(f.choice(spec{path: path("proof.rounds[%d].cracking", i), label: "A noise, or a crack", edit: "cracking", help: "Any cracking means stop: take the load off."},
		fixedOptions(option{"no", "none"}, option{"yes", "yes: stop"}),
		func(d engine.Design) string {
			r := roundAt(&d, i)
			return either(r != nil && r.Cracking, "yes", "no")
		},
		func(d *engine.Design, key string) {
			if r := roundAt(d, i); r != nil {
				r.Cracking = key == "yes"
			}
		}))
}

// nextStage returns the stage to read next and the one read last, −1 if none. The
// next one is the first that was not read, whatever was said of stopping: who has
// stopped reads the way down.
func (v *proveView) nextStage(s Snapshot, round int) (next, last int) {
	read := map[int]bool{}
	last = -1
	for _, q := range s.Design.Proof.Rounds[round].Readings {
		read[q.Stage] = true
		last = q.Stage
	}
	for k := range v.stages(round) {
		if !read[k] {
			return k, last
		}
	}
	return -1, last
}

// readingLines are one reading and its time.
func (v *proveView) readingLines(f *form, b *builder, i, k int, label string) {
	at := func(d *engine.Design) *engine.ProofReading {
		if r := roundAt(d, i); r != nil && k < len(r.Readings) {
			return &r.Readings[k]
		}
		return nil
	}
	b.add(f.value(spec{path: path("proof.rounds[%d].readings[%d].read", i, k), label: label, edit: "reading", help: "What the gauge shows. Where it begins does not matter, only that it is not touched in between; set a dial so that it stays above 0."}, smallLength,
		func(d *engine.Design) *float64 {
			if q := at(d); q != nil {
				return &q.Read
			}
			return nil
		}))
	b.fold("Time of this reading", "when, and whether it stays", func(b *builder) {
		b.add(f.clock(spec{path: path("proof.rounds[%d].readings[%d].at", i, k), label: "Read at", edit: "time of a reading", help: "Year-month-day and the time. It tells how the stage creeps."},
			func(d *engine.Design) *string {
				if q := at(d); q != nil {
					return &q.At
				}
				return nil
			}))
		b.add(f.button("Remove this reading", "", func() {
			f.session.Edit("removed reading", "", func(d *engine.Design) {
				if r := roundAt(d, i); r != nil {
					r.Readings = without(r.Readings, k)
				}
			})
		}))
	})
}
