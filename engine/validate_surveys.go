package engine

import (
	"fmt"
	"strings"
	"time"

	"flatwright/engine/flat"
)

// surveys checks the surveys of bed and top and the shims at hand. What is
// wrong with a survey keeps nothing of the panel from being computed: it is
// advice, and what cannot be used is left out.
func (r *review) surveys() {
	if len(r.d.Surveys) > maxSurveys {
		r.advise("survey-many", "surveys", "There are %d surveys; only the first %d are looked at. Take old ones out.", len(r.d.Surveys), maxSurveys)
	}
	for i := range r.d.Surveys {
		if i < maxSurveys {
			r.survey(i)
		}
	}
	usable := 0
	for i, t := range r.d.Leaves {
		if t > 0 {
			usable++
			continue
		}
		r.advise("shim-thickness", fmt.Sprintf("leaves[%d]", i), "A shim %s mm thick is no shim. Type thicknesses above 0.", plainNumber(t))
	}
	if usable > maxLeaves {
		r.advise("shim-many", "leaves", "There are %d thicknesses of shims; only the first %d are used. Take out those you hardly need.", usable, maxLeaves)
	}
}

func (r *review) advise(code, field, format string, args ...any) {
	r.add(Advice, code, field, format, args...)
}

// survey checks one survey.
func (r *review) survey(i int) {
	s, field := &r.d.Surveys[i], fmt.Sprintf("surveys[%d]", i)
	if s.Of != "" && s.Of != TheBed && s.Of != TheTop {
		r.advise("survey-of", field+".of", "%s is of “%s”. A survey is of the bed or of the top; this one is left out.", s.title(i), s.Of)
	}
	if s.Taken != "" {
		if _, err := time.Parse(ClockLayout, s.Taken); err != nil {
			r.advise("survey-taken", field+".taken", "%s was taken “%s”, which is not a date with a time. Type it as 2026-05-02T09:00, or leave it empty.", s.title(i), s.Taken)
		}
	}
	if s.Humidity != 0 && (s.Humidity < minHumidity || s.Humidity > maxHumidity) {
		r.advise("survey-humidity", field+".humidity", "%s has a relative humidity of %s %%; a room has from %s to %s %%. Read it from a hygrometer, or leave it empty.", s.title(i), plainNumber(s.Humidity), plainNumber(minHumidity), plainNumber(maxHumidity))
	}
	if why := s.unusable(); why != "" {
		r.advise("survey-grid", field, "%s cannot be used: %s. Put that right, or remove the survey.", s.title(i), why)
		return
	}
	for _, t := range s.troubles() {
		r.advise("survey-line", fmt.Sprintf("%s.lines[%d].readings", field, t.Line), "%s, line %d (%s) is left out: %s. Put that right, or remove the line.", s.title(i), t.Line+1, s.Lines[t.Line].InWords(), t.Why)
	}
}

// title names a survey.
func (s *Survey) title(i int) string {
	if name := strings.TrimSpace(s.Name); name != "" {
		return "Survey “" + name + "”"
	}
	return fmt.Sprintf("Survey %d", i+1)
}

// unusable says what is wrong with the grid of a survey.
func (s *Survey) unusable() string {
	for _, axis := range [...]struct {
		name string
		at   []float64
	}{{"columns", s.Columns}, {"rows", s.Rows}} {
		for i := 1; i < len(axis.at); i++ {
			if !(axis.at[i] > axis.at[i-1]) {
				return "the " + axis.name + " are not in order, each farther than the one before"
			}
		}
	}
	switch n := len(s.Columns) * len(s.Rows); {
	case s.Of != "" && s.Of != TheBed && s.Of != TheTop:
		return "it is neither of the bed nor of the top"
	case n == 0:
		return "it has no stations yet"
	case n > flat.MaxStations:
		return fmt.Sprintf("it has %d stations; %d can be put together", n, flat.MaxStations)
	case len(s.Lines) > maxSurveyLines:
		return fmt.Sprintf("it has %d lines; %d can be put together", len(s.Lines), maxSurveyLines)
	}
	return ""
}

// lines returns the lines that can be used, with their places in the survey,
// and what is wrong with the others. A line without a reading is yet to be read.
func (s *Survey) lines() (out []flat.Line, at []int, troubles []flat.LineError) {
	stations := s.stations()
	for i := range s.Lines {
		if len(s.Lines[i].Readings) == 0 {
			continue
		}
		l, why := s.line(&s.Lines[i])
		if why == "" {
			why = l.Check(stations)
		}
		if why != "" {
			troubles = append(troubles, flat.LineError{Line: i, Why: why})
			continue
		}
		out, at = append(out, l), append(at, i)
	}
	return out, at, troubles
}

func (s *Survey) troubles() []flat.LineError {
	_, _, troubles := s.lines()
	return troubles
}
