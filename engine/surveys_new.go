package engine

import "math"

// stationPitch is how far apart the stations of a fresh survey are at most, mm:
// about a bay or two. Common practice, no source.
const stationPitch = 450

// mostStations is how many stations a fresh survey has in a row, so that the
// largest panel has no more than can be put together.
const mostStations = 21

// NewSurvey returns a survey with stations over the panel, edges included, and
// with lines that have no readings yet: for an edge, a string or a bridge all
// rows, all columns and both diagonals; for a level one line over all stations;
// for winding sticks one pair across the ends. Columns and rows are odd in number,
// so that the diagonals cross at a station.
func NewSurvey(d Design, of SurveyedThing, way SurveyMethod) Survey {
	s := Survey{Of: of, Columns: stationsOver(d.Length), Rows: stationsOver(d.Width)}
	line := func(column, row, byColumn, byRow int) {
		l := SurveyedLine{Method: way}
		for ; column >= 0 && column < len(s.Columns) && row >= 0 && row < len(s.Rows); column, row = column+byColumn, row+byRow {
			l.Stations = append(l.Stations, StationName(column, row))
		}
		s.Lines = append(s.Lines, l)
	}
	lastColumn, lastRow := len(s.Columns)-1, len(s.Rows)-1
	switch way {
	case ByWaterLevel, ByLaserLevel:
		l := SurveyedLine{Method: way}
		for row := range s.Rows {
			for column := range s.Columns {
				l.Stations = append(l.Stations, StationName(column, row))
			}
		}
		s.Lines = []SurveyedLine{l}
		return s
	case ByWinding:
		s.Lines = []SurveyedLine{{Method: way, Stations: []string{StationName(0, 0), StationName(0, lastRow), StationName(lastColumn, 0), StationName(lastColumn, lastRow)}}}
		return s
	}
	for row := range s.Rows {
		line(0, row, 1, 0)
	}
	for column := range s.Columns {
		line(column, 0, 0, 1)
	}
	n := common(lastColumn, lastRow) // 2 at least
	line(0, 0, lastColumn/n, lastRow/n)
	line(0, lastRow, lastColumn/n, -lastRow/n)
	return s
}

// common returns the greatest common divisor.
func common(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// stationsOver returns the places of an odd number of stations over an extent,
// three at least, no farther apart than the pitch as long as that makes no more
// than mostStations.
func stationsOver(extent float64) []float64 {
	pairs := min(max(1, math.Ceil(extent/stationPitch/2-nearly)), (mostStations-1)/2)
	return spread(extent, 2*int(pairs)+1)
}

// spread returns n places spread evenly over an extent, the ends included.
func spread(extent float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = extent * float64(i) / float64(n-1)
	}
	return out
}
