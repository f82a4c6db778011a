package flat

import (
	"fmt"
	"math"
)

// Station is a place on the surface, mm.
type Station struct{ X, Y float64 }

// Method is how a line of readings was taken.
type Method uint8

// The methods. What a reading means is said with [Line].
const (
	Straightedge Method = iota // feeler gauges under a straightedge
	String                     // a rule or feelers under a taut string
	Bridge                     // a dial in the middle of a bridge with two feet
	Winding                    // two winding sticks, sighted over each other
	WaterLevel                 // a rule against the water in a hose or a long bubble level
	LaserLevel                 // a rule in the plane of a laser
	methods
)

// standardErrors are those of one reading in mm, where the person states none:
// a feeler to the next leaf and its feel; a rule against a string; a dial of
// 0.01 mm on two feet; two edges sighted over each other; a rule against water;
// a rule in the line of a laser. Common practice, no source.
var standardErrors = [methods]float64{0.03, 0.25, 0.01, 0.3, 0.5, 0.7}

// StandardError returns the standard error of one reading that is taken where
// none is stated, mm; 0 for what is no method.
func (m Method) StandardError() float64 {
	if m >= methods {
		return 0
	}
	return standardErrors[m]
}

// Line is readings taken in one go over stations, given by their index.
//
// [Straightedge] and [String] rest on the first and the last station, on two
// equal blocks of height Rest (0 for none). There is one reading for each
// station between: the gap under the edge. Hang is by how much the middle of
// the edge or string hangs below the line through its ends, mm ([Hang]).
//
// [Bridge] stands with its feet on the two neighbours of a station and reads
// the station's height over them; it read Rest on a flat reference. There is one
// reading for each station between the first and the last.
//
// [Winding] has four stations, the two under the near stick and the two under
// the far one, left before right, and one reading: with their left-hand ends in
// line, by how much the right-hand end of the far stick stands above that of the
// near one. The ends are Reach mm apart; 0 is the distance of the first two
// stations.
//
// [WaterLevel] and [LaserLevel] have one reading for each station: from the
// surface up to the water or the light. Their height is the same over one Line and
// need not be known.
type Line struct {
	Method   Method
	Stations []int
	Readings []float64
	Rest     float64
	Hang     float64
	Reach    float64
	Error    float64 // standard error of one reading, mm; 0 is the method's own
}

// Hang returns by how much a string or edge of the given weight, N/mm, hangs in
// the middle of span mm when pulled with tension N: w·L²/(8·T), the parabola of
// a flat catenary; textbook. It is 0 unless all three are positive.
func Hang(weight, span, tension float64) float64 {
	if !(weight > 0) || !(span > 0) || !(tension > 0) {
		return 0
	}
	return weight * span * span / (8 * tension)
}

// LineError says which line cannot be used, and why.
type LineError struct {
	Line int
	Why  string
}

func (e *LineError) Error() string { return fmt.Sprintf("line %d: %s", e.Line+1, e.Why) }

// equation is one reading as a linear condition on heights:
//
//	Σ weights[k]·z[at[k]] + (unknown height of the set-up, if any) = value
type equation struct {
	line, reading int
	at            []int
	weights       []float64
	level         int // index of the level's set-up, -1 for none
	value, sigma  float64
}

// offLine is how far a station may lie beside the straight line between the
// ends of its line, as a share of the line's length: a straightedge has a width.
const offLine = 0.02

// equations turns lines into conditions on n heights, and counts the levels'
// set-ups.
func equations(stations []Station, lines []Line) (out []equation, levels int, err error) {
	for i := range lines {
		l := &lines[i]
		if why := l.unusable(stations); why != "" {
			return nil, 0, &LineError{i, why}
		}
		sigma := l.Error
		if sigma == 0 {
			sigma = l.Method.StandardError()
		}
		level := -1
		if l.Method == WaterLevel || l.Method == LaserLevel {
			level = levels
			levels++
		}
		for k, r := range l.Readings {
			e, why := l.equation(stations, k, r)
			if why != "" {
				return nil, 0, &LineError{i, why}
			}
			e.line, e.reading, e.level, e.sigma = i, k, level, sigma
			out = append(out, e)
		}
	}
	return out, levels, nil
}

// Check says why a line cannot be used over the stations; it is empty if it
// can.
func (l *Line) Check(stations []Station) string {
	why := l.unusable(stations)
	for k := 0; why == "" && k < len(l.Readings); k++ {
		_, why = l.equation(stations, k, l.Readings[k])
	}
	return why
}

// unusable says what is wrong with a line as a whole.
func (l *Line) unusable(stations []Station) string {
	n := len(l.Stations)
	want := n - 2
	switch l.Method {
	case Straightedge, String, Bridge:
		if n < 3 {
			return "it needs three stations or more"
		}
	case Winding:
		if n != 4 {
			return "winding sticks need four stations, two under each stick"
		}
		want = 1
	case WaterLevel, LaserLevel:
		if n < 2 {
			return "it needs two stations or more"
		}
		want = n
	default:
		return "the way of measuring is not known"
	}
	if len(l.Readings) != want {
		return fmt.Sprintf("it has %d readings, but its stations take %d", len(l.Readings), want)
	}
	for _, v := range append([]float64{l.Rest, l.Hang, l.Reach, l.Error}, l.Readings...) {
		if math.IsNaN(v) || math.Abs(v) > farthest {
			return "a figure is not a length that a shop can measure"
		}
	}
	if l.Error != 0 && l.Error < finest || l.Reach != 0 && l.Reach < finest {
		return fmt.Sprintf("the standard error and the reach of the sticks must be %g mm or more", finest)
	}
	seen := map[int]bool{}
	for _, s := range l.Stations {
		if s < 0 || s >= len(stations) {
			return "it names a station that is not there"
		}
		if p := stations[s]; !(math.Abs(p.X) <= farthest) || !(math.Abs(p.Y) <= farthest) {
			return "it names a station without a place"
		}
		if seen[s] {
			return "it comes to one station twice"
		}
		seen[s] = true
	}
	return ""
}

// The largest length and the least standard error that are taken, mm.
const (
	farthest = 1e6
	finest   = 1e-4
)

// equation returns the condition of reading k, or says why there is none.
func (l *Line) equation(stations []Station, k int, reading float64) (equation, string) {
	s := l.Stations
	switch l.Method {
	case Straightedge, String:
		return chord(stations, s[0], s[k+1], s[len(s)-1], func(t float64) float64 { return l.Rest - 4*l.Hang*t*(1-t) - reading })
	case Bridge:
		return chord(stations, s[k], s[k+1], s[k+2], func(float64) float64 { return reading - l.Rest })
	case Winding:
		return l.winding(stations, reading)
	}
	return equation{at: []int{s[k]}, weights: []float64{1}, value: -reading}, ""
}

// chord is the condition that station m stands h(t) above the chord from a to
// b, t being its share of the way.
func chord(stations []Station, a, m, b int, h func(t float64) float64) (equation, string) {
	p, q, r := stations[a], stations[m], stations[b]
	dx, dy := r.X-p.X, r.Y-p.Y
	length := math.Hypot(dx, dy)
	t := ((q.X-p.X)*dx + (q.Y-p.Y)*dy) / (length * length)
	if !(t > 0 && t < 1) {
		return equation{}, "its stations are not in order from one end to the other"
	}
	if aside := math.Abs((q.X-p.X)*dy-(q.Y-p.Y)*dx) / length; aside > offLine*length {
		return equation{}, fmt.Sprintf("a station lies %.0f mm beside the straight line between its ends", aside)
	}
	return equation{at: []int{a, m, b}, weights: []float64{t - 1, 1, -t}, value: h(t)}, ""
}

// parallel is the least cosine of the angle between two winding sticks.
const parallel = 0.999

// winding is the condition of a pair of winding sticks.
func (l *Line) winding(stations []Station, reading float64) (equation, string) {
	var p [4]Station
	for i, s := range l.Stations {
		p[i] = stations[s]
	}
	near := math.Hypot(p[1].X-p[0].X, p[1].Y-p[0].Y)
	far := math.Hypot(p[3].X-p[2].X, p[3].Y-p[2].Y)
	cosine := ((p[1].X-p[0].X)*(p[3].X-p[2].X) + (p[1].Y-p[0].Y)*(p[3].Y-p[2].Y)) / (near * far)
	if !(cosine > parallel) {
		return equation{}, "the two sticks must lie parallel, their stations in the same order"
	}
	reach := l.Reach
	if reach == 0 {
		reach = near
	}
	n, f := reach/near, reach/far
	return equation{at: l.Stations, weights: []float64{n, -n, -f, f}, value: reading}, ""
}
