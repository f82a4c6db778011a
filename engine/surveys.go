package engine

import (
	"fmt"
	"strconv"
	"strings"

	"flatwright/engine/flat"
)

// Survey is heights of the bed, or of the top made on it, measured at stations
// on a grid. The grid has the panel's own axes, as it lies on the bed.
type Survey struct {
	Name     string         `json:"name,omitempty"`
	Of       SurveyedThing  `json:"of,omitempty"`       // "" is the bed
	Taken    string         `json:"taken,omitempty"`    // local clock time, [ClockLayout]
	Humidity float64        `json:"humidity,omitempty"` // of the room, %; 0 is not stated
	Notes    string         `json:"notes,omitempty"`
	Columns  []float64      `json:"columns"` // x of the stations, increasing, mm
	Rows     []float64      `json:"rows"`    // y of the stations, increasing, mm
	Lines    []SurveyedLine `json:"lines"`
}

// SurveyedThing is what a survey is of.
type SurveyedThing string

// What can be surveyed.
const (
	TheBed SurveyedThing = "bed" // on which the panel is glued
	TheTop SurveyedThing = "top" // the finished one, now or in a year
)

// SurveyedLine is readings taken in one go. What the readings of each way are,
// and how many, is said with [flat.Line].
type SurveyedLine struct {
	Method   SurveyMethod `json:"method"`
	Stations []string     `json:"stations"`        // as [StationName]
	Readings []float64    `json:"readings"`        // mm
	Rest     float64      `json:"rest,omitempty"`  // height of the two blocks under the edge, or what the dial reads on a flat reference, mm
	Hang     float64      `json:"hang,omitempty"`  // by which the edge or string hangs in its middle, mm
	Reach    float64      `json:"reach,omitempty"` // of winding sticks, mm; 0 is the distance of the first two stations
	Error    float64      `json:"error,omitempty"` // standard error of a reading, mm; 0 is usual for the way
}

// SurveyMethod is a way of measuring.
type SurveyMethod string

// The ways.
const (
	ByStraightedge SurveyMethod = "straightedge"
	ByString       SurveyMethod = "string"
	ByBridge       SurveyMethod = "dial on a bridge"
	ByWinding      SurveyMethod = "winding sticks"
	ByWaterLevel   SurveyMethod = "water level"
	ByLaserLevel   SurveyMethod = "laser level"
)

// SurveyMethods lists the ways, in the order of [flat.Method].
var SurveyMethods = [...]SurveyMethod{ByStraightedge, ByString, ByBridge, ByWinding, ByWaterLevel, ByLaserLevel}

// Bounds of surveys; a longer list is a slip. Common practice, no source.
const (
	maxSurveys     = 60
	maxSurveyLines = 300
	maxLeaves      = flat.MostThicknesses
)

// StationName returns the name of a station: a letter for its column from the
// left, A to Z and then AA, and a number for its row from the front, from 1.
func StationName(column, row int) string {
	letters := ""
	for n := column + 1; n > 0; n = (n - 1) / 26 {
		letters = string(rune('A'+(n-1)%26)) + letters
	}
	return letters + strconv.Itoa(row+1)
}

// ParseStation reads the name of a station. Small letters do as well.
func ParseStation(name string) (column, row int, ok bool) {
	name = strings.ToUpper(strings.TrimSpace(name))
	digits := strings.TrimLeft(name, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
	letters := name[:len(name)-len(digits)]
	if len(letters) == 0 || len(letters) > 2 || len(digits) == 0 || len(digits) > 3 {
		return 0, 0, false
	}
	for _, c := range letters {
		column = 26*column + int(c-'A') + 1
	}
	row, err := strconv.Atoi(digits)
	if err != nil || row < 1 || digits[0] < '1' {
		return 0, 0, false
	}
	return column - 1, row - 1, true
}

// clone returns a deep copy.
func (s Survey) clone() Survey {
	s.Columns = append([]float64(nil), s.Columns...)
	s.Rows = append([]float64(nil), s.Rows...)
	s.Lines = append([]SurveyedLine(nil), s.Lines...)
	for i := range s.Lines {
		s.Lines[i].Stations = append([]string(nil), s.Lines[i].Stations...)
		s.Lines[i].Readings = append([]float64(nil), s.Lines[i].Readings...)
	}
	return s
}

// stations returns the grid, the columns running fastest.
func (s *Survey) stations() []flat.Station {
	var out []flat.Station
	for _, y := range s.Rows {
		for _, x := range s.Columns {
			out = append(out, flat.Station{X: x, Y: y})
		}
	}
	return out
}

// name returns the name of a station of the grid.
func (s *Survey) name(station int) string {
	return StationName(station%len(s.Columns), station/len(s.Columns))
}

// line turns a line into that of package flat, or says what is wrong with it.
func (s *Survey) line(l *SurveyedLine) (flat.Line, string) {
	out := flat.Line{Method: flat.Method(len(SurveyMethods)), Readings: l.Readings, Rest: l.Rest, Hang: l.Hang, Reach: l.Reach, Error: l.Error}
	for i, m := range SurveyMethods {
		if m == l.Method {
			out.Method = flat.Method(i)
		}
	}
	for _, name := range l.Stations {
		column, row, ok := ParseStation(name)
		if !ok {
			return out, fmt.Sprintf("“%s” is not the name of a station, as A1 or C4", name)
		}
		if column >= len(s.Columns) || row >= len(s.Rows) {
			return out, fmt.Sprintf("there is no station %s", StationName(column, row))
		}
		out.Stations = append(out.Stations, row*len(s.Columns)+column)
	}
	return out, ""
}

// Between lists the stations that the readings are about, in their order.
func (l SurveyedLine) Between() []string {
	switch {
	case l.Method == ByWaterLevel || l.Method == ByLaserLevel || l.Method == ByWinding:
		return l.Stations
	case len(l.Stations) < 3:
		return nil
	}
	return l.Stations[1 : len(l.Stations)-1]
}

// InWords says which line it is.
func (l SurveyedLine) InWords() string {
	if len(l.Stations) == 0 {
		return string(l.Method)
	}
	const named = 4
	if n := len(l.Stations); n > named && (l.Method == ByWaterLevel || l.Method == ByLaserLevel) {
		return fmt.Sprintf("%s over %d stations, %s to %s", l.Method, n, l.Stations[0], l.Stations[n-1])
	}
	if l.Method == ByWinding || l.Method == ByWaterLevel || l.Method == ByLaserLevel {
		return fmt.Sprintf("%s over %s", l.Method, strings.Join(l.Stations, ", "))
	}
	return fmt.Sprintf("%s from %s to %s", l.Method, l.Stations[0], l.Stations[len(l.Stations)-1])
}
