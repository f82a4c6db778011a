package engine

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"sync"

	"flatwright/engine/flat"
)

// BedReport is what the surveys say, and how much of the bed's shape the panel
// keeps.
type BedReport struct {
	Kept    KeptShares     `json:"kept"`
	Surveys []SurveyReport `json:"surveys"` // as Design.Surveys
	Bed     int            `json:"bed"`     // index into Surveys of the bed that is glued on: the last one that makes a surface under the panel; -1 is none

	Plans []ShimPlan `json:"plans"` // what can be shimmed; the first is nothing
	Ways  []GlueWay  `json:"ways"`  // every order with every plan
	Best  int        `json:"best"`  // index into Ways of the flattest top, with the fewest shims of those as flat; -1 without a bed
	Least int        `json:"least"` // of the fewest shims that meet the limit of flatness; -1 if none does or there is none

	// Field is the bed's shape under the panel and what the top keeps of it glued
	// the way Best and as it would without a shim. It is nil without a bed.
	Field *BedField `json:"field,omitempty"`
	Short float64   `json:"short,omitempty"` // by how much the survey stops short of an edge of the panel, mm; the shape is taken to go on level
}

// SurveyReport is one survey put together. Heights are over the least-squares
// plane of the stations that are known.
type SurveyReport struct {
	Of       SurveyedThing   `json:"of"`
	Title    string          `json:"title"`
	Trouble  string          `json:"trouble,omitempty"` // why nothing can be told, in words
	Stations []StationHeight `json:"stations"`
	Readings []SurveyReading `json:"readings"`
	Bad      []BadReading    `json:"bad"`
	Worst    int             `json:"worst"` // index into Readings of the largest misclosure; -1 if nothing is checked

	WindAssumed bool    `json:"windAssumed,omitempty"` // nothing tells wind; none is assumed
	Freedom     int     `json:"freedom"`               // readings more than needed
	Scatter     float64 `json:"scatter"`               // how far readings scatter against their standard errors, about 1
	Agrees      bool    `json:"agrees"`                // Scatter is no more than chance

	TiltTold   bool    `json:"tiltTold,omitempty"` // by a level
	TiltAlong  float64 `json:"tiltAlong"`          // by which the right end of the surveyed length stands above the left one, mm
	TiltAcross float64 `json:"tiltAcross"`         // the back edge above the front one

	Flat      *Flatness   `json:"flat,omitempty"` // nil where the known stations make no surface
	BowAlong  SurveyShape `json:"bowAlong"`       // rise of the middle over the ends of the surveyed length
	BowAcross SurveyShape `json:"bowAcross"`
	Wind      SurveyShape `json:"wind"` // by which the far right corner stands off the plane through the other three

	heights flat.Heights
}

// StationHeight is one station.
type StationHeight struct {
	Name  string  `json:"name"`
	X     float64 `json:"x"`
	Y     float64 `json:"y"`
	Z     float64 `json:"z"`     // over the least-squares plane, mm
	Error float64 `json:"error"` // standard error of Z, mm
	Known bool    `json:"known"` // the readings tie it to the others
}

// SurveyReading is one reading beside what the survey makes of it.
type SurveyReading struct {
	Line       int     `json:"line"`  // of the survey
	Index      int     `json:"index"` // of the line's readings
	Station    string  `json:"station"`
	Read       float64 `json:"read"`       // mm, as typed
	Left       float64 `json:"left"`       // by which the surface is higher than fitted, by this reading, mm
	Misclosure float64 `json:"misclosure"` // by which it is higher than all other readings say, mm
	Unchecked  bool    `json:"unchecked,omitempty"`
	Notices    float64 `json:"notices"` // the least slip that would be noticed, mm
	Out        bool    `json:"out,omitempty"`
}

// BadReading is a reading that the others contradict.
type BadReading struct {
	Reading int     `json:"reading"` // index into Readings
	Off     float64 `json:"off"`     // mm
	Score   float64 `json:"score"`
	Or      []int   `json:"or,omitempty"` // readings that may be the bad one as well
	Text    string  `json:"text"`
}

// Flatness is how flat stations are, mm.
type Flatness struct {
	Zone         float64  `json:"zone"`         // distance of the two closest parallel planes that enclose them
	PeakToValley float64  `json:"peakToValley"` // highest over lowest against the least-squares plane
	RMS          float64  `json:"rms"`          // root of the mean square against it
	High         []string `json:"high"`         // stations on the upper plane
	Low          []string `json:"low"`          // on the lower plane
}

// SurveyShape is bow or wind with its standard error, mm.
type SurveyShape struct {
	Value float64 `json:"value"`
	Error float64 `json:"error"`
	Told  bool    `json:"told"`
}

// addBed adds what is known of the bed; without surveys only the shares that the
// panel keeps.
func (d *Design) addBed(mo *model, m *materials, r *Result) {
	r.Bed = d.knownBed(d.keptShares(mo, m))
	r.Build.follow(&r.Bed)
	r.Working = append(r.Working, d.bedWorking(r.Bed.Kept)...)
	r.Problems = append(r.Problems, d.bedProblems(r.Bed)...)
}

// bedCache keeps the report last made: while a load or a support is dragged neither
// surveys nor panel change, and putting them together takes longer than all else of a
// glance. It changes no answer, only the time.
var bedCache struct {
	sync.Mutex
	of     Design // what the report depends on, of the design
	kept   KeptShares
	report BedReport
	there  bool
}

// bedInput returns the design without what no survey depends on.
func (d *Design) bedInput() Design {
	return Design{Length: d.Length, Width: d.Width, TopSkin: d.TopSkin, BottomSkin: d.BottomSkin, CoreDepth: d.CoreDepth,
		EdgeBand: d.EdgeBand, Limits: d.Limits, Leaves: slices.Clone(d.Leaves), Surveys: d.Clone().Surveys}
}

// knownBed is [Design.bedReport] of the panel's sizes, limits, surveys and leaves alone,
// from what was kept if they are the same.
func (d *Design) knownBed(kept KeptShares) BedReport {
	if len(d.Surveys) == 0 {
		return d.bedReport(kept)
	}
	in := d.bedInput()
	c := &bedCache
	c.Lock()
	if c.there && c.kept == kept && reflect.DeepEqual(c.of, in) {
		defer c.Unlock()
		return c.report
	}
	c.Unlock()
	report := in.bedReport(kept)
	c.Lock()
	defer c.Unlock()
	c.of, c.kept, c.report, c.there = in, kept, report, true
	return report
}

// bedReport puts the surveys together.
func (d *Design) bedReport(kept KeptShares) BedReport {
	b := BedReport{Kept: kept, Bed: -1, Best: -1, Least: -1}
	for i := range d.Surveys[:min(len(d.Surveys), maxSurveys)] {
		b.Surveys = append(b.Surveys, d.Surveys[i].report(i))
		if s := &b.Surveys[i]; s.Flat != nil && s.Of == TheBed {
			b.Bed = i
		}
	}
	if b.Bed >= 0 {
		d.layOn(&b)
	}
	if !b.Laid() {
		b.Bed = -1
	}
	return b
}

// report puts one survey together.
func (s *Survey) report(i int) SurveyReport {
	out := SurveyReport{Of: s.Of, Title: s.title(i), Worst: -1, Agrees: true}
	if out.Of == "" {
		out.Of = TheBed
	}
	if out.Trouble = s.unusable(); out.Trouble != "" {
		return out
	}
	stations := s.stations()
	lines, at, _ := s.lines()
	h, err := flat.Fit(stations, lines)
	if errors.Is(err, flat.ErrNoReadings) {
		out.Trouble = "it has no readings yet"
		return out
	}
	if err != nil {
		out.Trouble = err.Error()
		return out
	}
	out.heights = h
	out.WindAssumed, out.Freedom, out.Scatter, out.Agrees, out.Worst = h.WindAssumed, h.Freedom, h.Scatter, h.Agrees, h.Worst
	for k, p := range stations {
		out.Stations = append(out.Stations, StationHeight{s.name(k), p.X, p.Y, h.Z[k], h.Error[k], h.Known[k]})
	}
	for _, q := range h.Readings {
		line := at[q.Line]
		out.Readings = append(out.Readings, SurveyReading{line, q.Index, s.name(q.Station), s.Lines[line].Readings[q.Index],
			q.Left, q.Misclosure, q.Unchecked, q.Notices, q.Out})
	}
	for _, b := range h.Bad {
		out.Bad = append(out.Bad, BadReading{b.Reading, b.Off, b.Score, b.Or, s.badInWords(out.Readings, b)})
	}
	shape := h.Shape(stations)
	out.BowAlong, out.BowAcross, out.Wind = SurveyShape(shape.BowX), SurveyShape(shape.BowY), SurveyShape(shape.Wind)
	out.Flat = s.flatness(h)
	if out.TiltTold = h.TiltTold; h.TiltTold {
		out.TiltAlong = h.Tilt.SlopeX * (s.Columns[len(s.Columns)-1] - s.Columns[0])
		out.TiltAcross = h.Tilt.SlopeY * (s.Rows[len(s.Rows)-1] - s.Rows[0])
	}
	return out
}

// flatness judges the stations that are known; nil if they make no surface.
func (s *Survey) flatness(h flat.Heights) *Flatness {
	points := h.Points(s.stations())
	ls, err := flat.LeastSquares(points)
	zone, errZone := flat.MinimumZone(points)
	if err != nil || errZone != nil {
		return nil
	}
	var known []string
	for k, ok := range h.Known {
		if ok {
			known = append(known, s.name(k))
		}
	}
	names := func(list []int) []string {
		var out []string
		for _, k := range list {
			out = append(out, known[k])
		}
		return out
	}
	return &Flatness{zone.Width, ls.PeakToValley, ls.RMS, names(zone.High), names(zone.Low)}
}

// badInWords names a bad reading.
func (s *Survey) badInWords(readings []SurveyReading, b flat.Bad) string {
	say := func(k int) string {
		q := readings[k]
		return fmt.Sprintf("%s of line %d (%s)", q.Station, q.Line+1, s.Lines[q.Line].InWords())
	}
	if len(b.Or) == 0 {
		return fmt.Sprintf("The reading at %s is %.2f mm off what the other readings say. It is left out; read it again.", say(b.Reading), math.Abs(b.Off))
	}
	text := say(b.Reading)
	const most = 4 // named; more are counted
	for i, k := range b.Or {
		if i == most && len(b.Or) > most+1 {
			text += fmt.Sprintf(", or one of %d more", len(b.Or)-most)
			break
		}
		text += ", or " + say(k)
	}
	return fmt.Sprintf("Readings contradict each other by %.2f mm, and the survey cannot tell which of them is wrong: that at %s. All are still counted; read them again.", math.Abs(b.Off), text)
}

// bedProblems tells what is doubtful about the surveys, and where the limit of
// flatness is missed.
func (d *Design) bedProblems(b BedReport) []Problem {
	var out []Problem
	for i := range b.Surveys {
		out = append(out, b.Surveys[i].problems(fmt.Sprintf("surveys[%d]", i))...)
	}
	limit := d.Limits.Flatness
	if !(limit > 0) {
		return out
	}
	if last := b.lastTop(); last >= 0 {
		if s := &b.Surveys[last]; s.Flat.Zone > limit {
			out = append(out, Problem{Code: "flatness-top", Severity: Shortfall, Field: "limits.flatness",
				Text: fmt.Sprintf("By %s the finished top is flat within %.2f mm, limit %.2f mm. High: %s. Low: %s.", s.Title, s.Flat.Zone, limit, some(s.Flat.High), some(s.Flat.Low))})
		}
		return out
	}
	if b.Laid() && b.Ways[b.Best].Flat > limit {
		w := b.Ways[b.Best]
		out = append(out, Problem{Code: "flatness-bed", Severity: Shortfall, Field: "limits.flatness",
			Text: fmt.Sprintf("Glued on this bed the top comes out flat within %.2f mm at best (%s, %s), limit %.2f mm. Thinner shims, or a better bed, would help.", w.Flat, w.Order, b.Plans[w.Plan].Name, limit)})
	}
	return out
}

// Laid reports whether there is a bed to glue on: Best and Field are filled in.
func (b *BedReport) Laid() bool { return len(b.Ways) > 0 }

// lastTop returns the last survey of the finished top that makes a surface; -1
// if there is none.
func (b *BedReport) lastTop() int {
	for i, s := range slices.Backward(b.Surveys) {
		if s.Of == TheTop && s.Flat != nil {
			return i
		}
	}
	return -1
}

// problems tells what is doubtful about one survey.
func (s *SurveyReport) problems(field string) []Problem {
	var out []Problem
	advise := func(code, field, text string) {
		out = append(out, Problem{Code: code, Severity: Advice, Field: field, Text: text})
	}
	for _, b := range s.Bad {
		q := s.Readings[b.Reading]
		advise("survey-reading", fmt.Sprintf("%s.lines[%d].readings[%d]", field, q.Line, q.Index), s.Title+": "+b.Text)
	}
	if s.WindAssumed {
		advise("survey-wind", field, s.Title+" cannot tell wind: rows and columns alone fit any twisted bed. Measure a diagonal, or lay winding sticks across both ends. Until then no wind is assumed.")
	}
	var loose []string
	for _, k := range s.Stations {
		if !k.Known {
			loose = append(loose, k.Name)
		}
	}
	if len(loose) > 0 && s.Trouble == "" {
		advise("survey-loose", field, s.Title+": no line ties "+some(loose)+" to the other stations, so nothing is told of them. Read a line that crosses others there.")
	}
	if !s.Agrees && len(s.Bad) == 0 {
		advise("survey-scatter", field, fmt.Sprintf("%s: the readings scatter %.1f times as far as their standard errors say, and no single one is to blame. Read more carefully, or state a larger standard error.", s.Title, s.Scatter))
	}
	return out
}

// some lists names, the first few of many.
func some(names []string) string {
	const most = 6
	text := ""
	for i, n := range names {
		switch {
		case i == most:
			return text + fmt.Sprintf(" and %d more", len(names)-most)
		case i > 0:
			text += ", "
		}
		text += n
	}
	return text
}

// listed returns a report whose lists are empty instead of nil.
func (b BedReport) listed() BedReport {
	b.Surveys, b.Plans, b.Ways = append([]SurveyReport{}, b.Surveys...), append([]ShimPlan{}, b.Plans...), list(b.Ways)
	for i := range b.Surveys {
		s := &b.Surveys[i]
		s.Stations, s.Readings, s.Bad = list(s.Stations), list(s.Readings), list(s.Bad)
	}
	for i := range b.Plans {
		p := &b.Plans[i]
		p.Shims, p.Bed.High, p.Bed.Low = list(p.Shims), list(p.Bed.High), list(p.Bed.Low)
	}
	return b
}
