package app

import (
	"slices"
	"strconv"
	"strings"

	"flatwright/engine"
	"flatwright/engine/length"
)

// glueGroups are what is known of the bed, of the finished top, and of what there is
// for gluing up.
func glueGroups(f *form) []*group {
	return []*group{f.surveysGroup(), f.shimsGroup(), f.spreadGroup(), f.pressGroup()}
}

// surveyOptions are what a survey can be of.
var surveyOptions = []option{{string(engine.TheBed), "the bed, before gluing"}, {string(engine.TheTop), "the finished top"}}

// surveyWays are the ways of measuring.
func surveyWays() []option {
	var out []option
	for _, m := range engine.SurveyMethods {
		out = append(out, option{string(m), "by " + string(m)})
	}
	return out
}

// surveysGroup is all surveys, each in a fold, with their lines.
func (f *form) surveysGroup() *group {
	return &group{
		name: "Surveys of the bed and the top", roots: []string{"surveys"},
		shape: func(d engine.Design) string {
			var shape strings.Builder
			for _, s := range d.Surveys {
				shape.WriteString(s.Name + "|" + string(s.Of))
				for _, l := range s.Lines {
					shape.WriteString(";" + l.InWords())
				}
				shape.WriteByte('\n')
			}
			return shape.String()
		},
		build: func(b *builder) {
			b.heading("A grid of stations: columns A, B, C… from the left, rows 1, 2, 3… from the front")
			for i := range f.snap.Design.Surveys {
				f.surveyLines(b, i)
			}
			add := func(label, help string, of engine.SurveyedThing, way engine.SurveyMethod) {
				b.add(f.button(label, help, func() {
					f.session.Edit("new survey", "", func(d *engine.Design) { d.Surveys = append(d.Surveys, engine.NewSurvey(*d, of, way)) })
					f.session.ShowField(path("surveys[%d].lines[0].readings", len(f.snap.Design.Surveys)-1))
				}))
			}
			add("Survey the bed by straightedge", "Rows, columns and both diagonals: a straightedge on two equal blocks, feelers at each station between. String and dial can be picked for each line.", engine.TheBed, engine.ByStraightedge)
			add("Survey the bed by level", "A staff on every station, read against water or light, all from one place.", engine.TheBed, engine.ByLaserLevel)
			add("Survey the finished top", "As the bed by straightedge. Next day it shows what came of the gluing; again after a year, with the humidity of the room, how the top moves.", engine.TheTop, engine.ByStraightedge)
		},
		summary: func(s Snapshot) string {
			if len(s.Design.Surveys) == 0 {
				return "none yet"
			}
			return countOf(len(s.Design.Surveys), "survey", "surveys")
		},
	}
}

// surveyAt returns a survey of a design, nil where there is none any more.
func surveyAt(d *engine.Design, i int) *engine.Survey {
	if i < len(d.Surveys) {
		return &d.Surveys[i]
	}
	return nil
}

// surveyName is what a survey is called in the form.
func surveyName(s engine.Survey, i int) string {
	if name := strings.TrimSpace(s.Name); name != "" {
		return name
	}
	return "Survey " + strconv.Itoa(i+1)
}

// surveyLines are the fields of one survey.
func (f *form) surveyLines(b *builder, i int) {
	now := f.snap.Design.Surveys[i]
	name := "survey " + strconv.Itoa(i+1)
	b.heading(surveyName(now, i) + ": what was read")
	if slices.ContainsFunc(now.Lines, onBlocks) {
		f.blocksLine(b, i, name)
	}
	for j := range now.Lines {
		f.readingsLine(b, i, j)
	}
	b.fold("About "+name, "what of, when, where the stations lie", func(b *builder) { f.aboutSurvey(b, i, name) })
	b.fold("How "+name+" was measured", countOf(len(now.Lines), "line", "lines"), func(b *builder) {
		for j := range now.Lines {
			f.surveyedLine(b, i, j)
		}
		b.add(f.button("Add a line to "+name, "A line of stations of your own: a diagonal, winding sticks, or one line read twice.", func() {
			f.session.Edit("line of a survey", "", func(d *engine.Design) {
				if s := surveyAt(d, i); s != nil {
					s.Lines = append(s.Lines, engine.SurveyedLine{Method: engine.ByStraightedge})
				}
			})
		}))
	})
	b.add(f.button("Remove "+name, "", func() {
		f.session.Edit("removed survey", "", func(d *engine.Design) { d.Surveys = without(d.Surveys, i) })
	}))
}

// onBlocks reports whether a line is read under an edge or a string, which may
// stand on blocks.
func onBlocks(l engine.SurveyedLine) bool {
	return l.Method == engine.ByStraightedge || l.Method == engine.ByString
}

// blocksLine is the height of the blocks of all lines at once; it shows that of
// the first.
func (f *form) blocksLine(b *builder, i int, name string) {
	b.add(f.valueOf(spec{path: path("surveys[%d].blocks", i), label: "Blocks under the edge", edit: name + " blocks",
		help: "Height of the two equal blocks on which the straightedge stands, for all lines. Empty: it lies on the bed itself, which then must be hollow everywhere."},
		optional(smallLength),
		func(d *engine.Design) (float64, bool) {
			if s := surveyAt(d, i); s != nil {
				for _, l := range s.Lines {
					if onBlocks(l) {
						return l.Rest, true
					}
				}
			}
			return 0, false
		},
		func(d *engine.Design, v float64) {
			if s := surveyAt(d, i); s != nil {
				for j := range s.Lines {
					if onBlocks(s.Lines[j]) {
						s.Lines[j].Rest = v
					}
				}
			}
		}))
}

// aboutSurvey is what a survey is of, and where its stations lie.
func (f *form) aboutSurvey(b *builder, i int, name string) {
	root := path("surveys[%d]", i)
	words := func(field, label, help string, of func(*engine.Survey) *string) {
		b.add(f.text(spec{path: root + field, label: label, edit: name, help: help}, func(d *engine.Design) *string {
			if s := surveyAt(d, i); s != nil {
				return of(s)
			}
			return nil
		}))
	}
	b.add(f.choice(spec{path: root + ".of", label: "Survey of", edit: name, help: "The last survey of the bed is the one that is glued on. Surveys of the top show what came of it, next day and in a year."},
		fixedOptions(surveyOptions...),
		func(d engine.Design) string {
			if s := surveyAt(&d, i); s != nil && s.Of != "" {
				return string(s.Of)
			}
			return string(engine.TheBed)
		},
		func(d *engine.Design, key string) {
			if s := surveyAt(d, i); s != nil {
				s.Of = engine.SurveyedThing(key)
			}
		}))
	words(".name", "Name", "To tell it from the others, such as “after shimming”.", func(s *engine.Survey) *string { return &s.Name })
	b.add(f.clock(spec{path: root + ".taken", label: "Taken", edit: name, help: "Date and time: 2026-05-02 09:00."}, func(d *engine.Design) *string {
		if s := surveyAt(d, i); s != nil {
			return &s.Taken
		}
		return nil
	}))
	b.add(f.value(spec{path: root + ".humidity", label: "Humidity of the room", edit: name, help: "Relative humidity from a hygrometer. A top moves with it. Empty is not stated."},
		optional(number("%", 5)), func(d *engine.Design) *float64 {
			if s := surveyAt(d, i); s != nil {
				return &s.Humidity
			}
			return nil
		}))
	places := func(field, label, help string, of func(*engine.Survey) *[]float64) {
		b.add(f.listed(spec{path: root + field, label: label, edit: name + " stations", help: help}, func(d *engine.Design) *[]float64 {
			if s := surveyAt(d, i); s != nil {
				return of(s)
			}
			return &[]float64{}
		}))
	}
	places(".columns", "Columns, from the left end", "Places of the columns A, B, C… along the top, with a semicolon between two: 0; 450; 900.", func(s *engine.Survey) *[]float64 { return &s.Columns })
	places(".rows", "Rows, from the front edge", "Places of the rows 1, 2, 3… across the top, with a semicolon between two: 0; 375; 750.", func(s *engine.Survey) *[]float64 { return &s.Rows })
	words(".notes", "Notes", "What to remember of it.", func(s *engine.Survey) *string { return &s.Notes })
}

// lineAt returns a line of a survey, nil where there is none any more.
func lineAt(d *engine.Design, i, j int) *engine.SurveyedLine {
	if s := surveyAt(d, i); s != nil && j < len(s.Lines) {
		return &s.Lines[j]
	}
	return nil
}

// readingsLine is the readings of one line, typed one after the other.
func (f *form) readingsLine(b *builder, i, j int) {
	l := f.snap.Design.Surveys[i].Lines[j]
	label := strconv.Itoa(j+1) + ". " + capital(l.InWords())
	b.add(f.read(spec{path: path("surveys[%d].lines[%d].readings", i, j), label: label, edit: "readings", help: readingsHelp(l)},
		func(snap Snapshot) string {
			if l := lineAt(&snap.Design, i, j); l != nil {
				return printReadings(l.Readings, snap.Lengths)
			}
			return ""
		},
		func(text string) (func(*engine.Design), error) {
			design := f.snap.Design
			var stored []float64
			if l := lineAt(&design, i, j); l != nil {
				stored = l.Readings
			}
			values, err := readReadings(text, stored, f.lengths)
			return func(d *engine.Design) {
				if l := lineAt(d, i, j); l != nil {
					l.Readings = values
				}
			}, err
		}))
}

// readingsHelp says what to read on a line.
func readingsHelp(l engine.SurveyedLine) string {
	at := "nothing yet: name its stations below"
	if names := l.Between(); len(names) > 0 {
		at = strings.Join(names, " ")
	}
	switch l.Method {
	case engine.ByBridge:
		return "What the dial shows at " + at + ", its feet on the stations before and after; + is higher. With spaces between."
	case engine.ByWinding:
		return "How far the right end of the far stick stands above that of the near one, their left ends in line. One figure."
	case engine.ByWaterLevel, engine.ByLaserLevel:
		return "From the surface up to the water or the light at " + at + ", with spaces between."
	}
	return "The gap under it at " + at + ", with spaces between. It rests on the line's two ends, on equal blocks if they are stated above."
}

// surveyedLine is how a line was taken.
func (f *form) surveyedLine(b *builder, i, j int) {
	root, name := path("surveys[%d].lines[%d]", i, j), "line "+strconv.Itoa(j+1)
	b.add(f.choice(spec{path: root + ".method", label: capital(name), edit: "way of measuring", help: "Each way is counted for as much as it can see."},
		fixedOptions(surveyWays()...),
		func(d engine.Design) string {
			if l := lineAt(&d, i, j); l != nil {
				return string(l.Method)
			}
			return ""
		},
		func(d *engine.Design, key string) {
			if l := lineAt(d, i, j); l != nil {
				l.Method = engine.SurveyMethod(key)
			}
		}))
	b.add(f.read(spec{path: root + ".stations", label: "Stations of " + name, edit: "stations", help: "In the order in which they lie on the line, with spaces between: A1 C2 E3. Winding sticks: the two under the near stick, then the two under the far one, left before right."},
		func(snap Snapshot) string {
			if l := lineAt(&snap.Design, i, j); l != nil {
				return strings.Join(l.Stations, " ")
			}
			return ""
		},
		func(text string) (func(*engine.Design), error) {
			names, err := readStations(text)
			return func(d *engine.Design) {
				if l := lineAt(d, i, j); l != nil {
					l.Stations = names
				}
			}, err
		}))
	value := func(field, label, help string, of func(*engine.SurveyedLine) *float64) {
		b.add(f.value(spec{path: root + field, label: label, edit: "way of measuring", help: help}, optional(smallLength), func(d *engine.Design) *float64 {
			if l := lineAt(d, i, j); l != nil {
				return of(l)
			}
			return nil
		}))
	}
	switch l := f.snap.Design.Surveys[i].Lines[j]; l.Method {
	case engine.ByStraightedge, engine.ByString:
		value(".rest", "Height of the blocks", "Of the two equal blocks at the ends of the line. Empty: the edge lies on the bed itself, which then must be hollow.", func(l *engine.SurveyedLine) *float64 { return &l.Rest })
		value(".hang", "Hangs in its middle by", "A string or an edge hangs below the line through its ends. Empty is nothing.", func(l *engine.SurveyedLine) *float64 { return &l.Hang })
	case engine.ByBridge:
		value(".rest", "Reads on a flat reference", "What the dial shows with the bridge on something flat. Empty is nothing.", func(l *engine.SurveyedLine) *float64 { return &l.Rest })
	case engine.ByWinding:
		value(".reach", "Distance of the ends sighted", "Along one stick, between the ends that are compared. Empty is the distance of its two stations.", func(l *engine.SurveyedLine) *float64 { return &l.Reach })
	}
	value(".error", "Standard error of a reading", "Two readings of three are nearer than this to the truth. Empty is usual for the way.", func(l *engine.SurveyedLine) *float64 { return &l.Error })
	b.add(f.button("Remove "+name, "", func() {
		f.session.Edit("removed line", "", func(d *engine.Design) {
			if s := surveyAt(d, i); s != nil {
				s.Lines = without(s.Lines, j)
			}
		})
	}))
}

// printReadings prints readings as they are typed, with spaces between.
func printReadings(values []float64, f length.Format) string {
	words := make([]string, len(values))
	for i, v := range values {
		words[i] = smallLength.print(v, f)
	}
	return strings.Join(words, " ")
}

// readReadings reads lengths with spaces or semicolons between them. One that
// is what the stored one prints leaves that as it is, to the last bit. With
// semicolons each may be typed with spaces in it, as 1 1/16.
func readReadings(text string, stored []float64, f length.Format) ([]float64, error) {
	words := strings.Fields(text)
	if strings.Contains(text, ";") {
		words = strings.Split(strings.TrimRight(strings.TrimSpace(text), ";"), ";")
	}
	var values []float64
	for i, word := range words {
		if word = strings.TrimSpace(word); i < len(stored) && word == smallLength.print(stored[i], f) {
			values = append(values, stored[i])
			continue
		}
		v, err := parseSigned(word, f)
		if err != nil {
			return nil, told("Reading " + strconv.Itoa(i+1) + ": " + err.Error())
		}
		values = append(values, v)
	}
	return values, nil
}

// readStations reads names of stations.
func readStations(text string) ([]string, error) {
	var names []string
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' || r == ';' }) {
		column, row, ok := engine.ParseStation(word)
		if !ok {
			return nil, told(quoted(word) + " is not read as a station. Type a letter for the column and a number for the row, such as A1 or C4.")
		}
		names = append(names, engine.StationName(column, row))
	}
	return names, nil
}

// shimsGroup is what shims are stacked from.
func (f *form) shimsGroup() *group {
	return &group{
		name: "Shims at hand", roots: []string{"leaves"},
		shape: func(engine.Design) string { return "" },
		build: func(b *builder) {
			b.add(f.read(spec{path: "leaves", label: "Thicknesses", edit: "shims",
				help: "Of card, paper, veneer or shim stock, measured with a caliper, with spaces between. Up to four are stacked. Empty takes those of a usual set of feelers."},
				func(snap Snapshot) string { return printReadings(snap.Design.Leaves, snap.Lengths) },
				func(text string) (func(*engine.Design), error) {
					values, err := readReadings(text, f.snap.Design.Leaves, f.lengths)
					return func(d *engine.Design) { d.Leaves = values }, err
				}))
		},
		summary: func(s Snapshot) string {
			if len(s.Design.Leaves) == 0 {
				return "as a usual set of feelers"
			}
			return countOf(len(s.Design.Leaves), "thickness", "thicknesses")
		},
	}
}
