package engine

import (
	"fmt"
	"math"
	"slices"

	"flatwright/engine/catalog"
	"flatwright/engine/press"
)

// glueSides adds up the glue of each side.
func (d *Design) glueSides(j joints) []GlueSide {
	g := d.glue()
	spread := (g.Spread.Low + g.Spread.High) / 2
	var out []GlueSide
	add := func(name string, length, area float64) {
		if area > 0 {
			grams, ml := press.Glue(area, spread, g.Density, d.GlueUp.Tool.Waste())
			out = append(out, GlueSide{name, length, area, grams, ml})
		}
	}
	add("laps of the ribs", 0, j.laps)
	add("bottom skin", j.length, j.face)
	add("top skin", j.length, j.face)
	add("edge bands", 0, j.band)
	add("splices", 0, j.splice)
	return out
}

// Bounds of what the air does to a film's time; no glue is trusted for more than
// twice its label. Common practice, no source.
const (
	leastOpen = 0.5
	mostOpen  = 2.0
)

// openFactor returns by how much open and closed times are longer in the shop's
// air than in the table's, with the words for it. Glues that react follow the
// temperature; films that dry follow what the air can still take up.
func (d *Design) openFactor(celsius float64) (factor float64, words string) {
	return openFactor(d.glue(), celsius, d.humidity())
}

// humidity is that of the shop's air, %.
func (d *Design) humidity() float64 {
	if d.Air.MadeAt > 0 {
		return d.Air.MadeAt
	}
	return usualMadeAt
}

func openFactor(g catalog.Glue, celsius, humidity float64) (factor float64, words string) {
	if g.HalvesPer10 {
		return cureFactor(g, celsius), fmt.Sprintf("it reacts: half as long for each 10 °C more (rule of thumb, from memory), %g °C here", celsius)
	}
	f := math.Min(mostOpen, math.Max(leastOpen, press.Drying(celsius, humidity)))
	return f, fmt.Sprintf("it dries as the air takes up water (Dalton's law), %g °C and %g %% relative humidity here; not more than twice and not less than half of the table", celsius, humidity)
}

// SpreadTime is how long glue is spread in one go, minutes.
type SpreadTime struct {
	Key  string  `json:"key"` // of the build steps: "grid-1", "bottom", "top-2"
	Name string  `json:"name"`
	Low  float64 `json:"low"`
	High float64 `json:"high"`

	part float64 // of a skin's joints that is wet in this go
}

// Fit says whether the spreading is over before the open time is.
type Fit uint8

// The fits.
const (
	FitsNot     Fit = iota // even the quickest spreading takes longer than the longest open time
	FitsPerhaps            // the ranges overlap
	FitsSurely             // the slowest spreading is over within the shortest open time
)

// SplitOption is one way to make the spreading shorter or the glue slower.
type SplitOption struct {
	Split  Split        `json:"split"`
	People int          `json:"people,omitempty"` // other than stated; 0 is as stated
	Glue   string       `json:"glue,omitempty"`   // other than picked
	Name   string       `json:"name"`
	Goes   []SpreadTime `json:"goes"`
	Low    float64      `json:"low"` // of the longest go, minutes
	High   float64      `json:"high"`
	Open   Range        `json:"open"` // minutes
	Fit    Fit          `json:"fit"`
}

// Range is a low and a high figure.
type Range struct {
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

// spreadMinutes is how long so many people take to wet a length of rib edge and a
// number of laps.
func (d *Design) spreadMinutes(length, laps, people float64) (low, high float64) {
	fast, slow := float64(spreadFast), float64(spreadSlow)
	if d.GlueUp.Rate > 0 {
		fast, slow = d.GlueUp.Rate, d.GlueUp.Rate
	}
	return (length/fast + laps*lapGlueLow) / people, (length/slow + laps*lapGlueHigh) / people
}

// firstHalf is how many crosswise ribs the left half of the grid has.
func (d *Design) firstHalf() int { return (d.Crosswise.number() + 1) / 2 }

// goes is every go of spreading under a split.
func (d *Design) goes(j joints, s Split, people float64) []SpreadTime {
	nl, nc := float64(d.Lengthwise.number()), float64(d.Crosswise.number())
	one := func(key, name string, part, laps float64) SpreadTime {
		low, high := d.spreadMinutes(part*j.length, laps, people)
		return SpreadTime{key, name, low, high, part}
	}
	var out []SpreadTime
	switch half := float64(d.firstHalf()); s {
	case Together:
		return []SpreadTime{one("bottom", "laps and bottom skin", 1, nl*nc), one("top", "top skin", 1, 0)}
	case HalfGrid:
		out = append(out, one("grid-1", "laps of the left half", 0, nl*half))
		if nc > half {
			out = append(out, one("grid-2", "laps of the right half", 0, nl*(nc-half)))
		}
	default:
		out = append(out, one("grid-1", "laps", 0, nl*nc))
	}
	for _, skin := range [...]string{BottomSeam, TopSeam} {
		name := skin + " skin"
		seam, ok := d.halving(skin)
		if s != HalfGrid || !ok {
			out = append(out, one(skin, name, 1, 0))
			continue
		}
		first, sides := d.partBefore(seam), [2]string{"left", "right"}
		if seam.Along {
			sides = [2]string{"front", "back"}
		}
		out = append(out, one(skin+"-1", name+", "+sides[0]+" of the seam", first, 0), one(skin+"-2", name+", "+sides[1]+" of the seam", 1-first, 0))
	}
	return out
}

// halving returns the seam of a skin that divides its joints most evenly: its sheets
// can be glued one after the other, each on its part of the grid. A skin of one sheet
// goes on in one go, and so does one whose seam is a scarf.
func (d *Design) halving(skin string) (best Seam, ok bool) {
	for _, s := range d.Seams {
		if s.Skin != skin || s.Scarf {
			continue
		}
		if !ok || math.Abs(d.partBefore(s)-0.5) < math.Abs(d.partBefore(best)-0.5) {
			best, ok = s, true
		}
	}
	return best, ok
}

// partBefore is the part of a skin's joints that lies left of a seam, or in front of
// it. A rib under the seam is wet in both goes by a half.
func (d *Design) partBefore(s Seam) float64 {
	tb := d.EdgeBand.Thickness
	ys, xs := d.RibPlaces()
	ls, ws := d.Length-2*tb, d.Width-2*tb
	open := ws - float64(len(ys))*d.Lengthwise.Thickness
	before := func(places []float64, b float64) (sum float64) {
		for _, at := range places {
			sum += math.Min(1, math.Max(0, (s.At-at)/b+0.5))
		}
		return sum
	}
	if s.Along {
		n := before(ys, d.Lengthwise.Thickness)
		return (n*ls + float64(len(xs))*open*(s.At-tb)/ws) / d.joints().length
	}
	return (float64(len(ys))*(s.At-tb) + before(xs, d.Crosswise.Thickness)*open) / d.joints().length
}

// splitWords says what a split is of this top.
func (d *Design) splitWords(s Split) string {
	_, bottom := d.halving(BottomSeam)
	_, top := d.halving(TopSeam)
	switch {
	case s != HalfGrid || !bottom && !top:
		return s.InWords()
	case bottom && top:
		return "half the grid at a time, then each sheet of the skins by itself"
	case bottom:
		return "half the grid at a time, then each sheet of the bottom skin by itself, then the top skin"
	}
	return "half the grid at a time, then the bottom skin, then each sheet of the top skin by itself"
}

// option judges one way.
func (d *Design) option(j joints, s Split, people int, g catalog.Glue) SplitOption {
	factor, _ := openFactor(g, d.Shop.Temperature, d.humidity())
	o := SplitOption{Split: s, Name: d.splitWords(s), Goes: d.goes(j, s, float64(people)), Open: Range{g.OpenTime.Low * factor, g.OpenTime.High * factor}}
	for _, t := range o.Goes {
		o.Low, o.High = math.Max(o.Low, t.Low), math.Max(o.High, t.High)
	}
	switch {
	case o.High <= o.Open.Low:
		o.Fit = FitsSurely
	case o.Low <= o.Open.High:
		o.Fit = FitsPerhaps
	}
	return o
}

// splitOptions lists what can be done about the open time and which is best: the
// split taken if it surely fits, else the first that does, else the one that is
// nearest to it.
func (d *Design) splitOptions(j joints) (out []SplitOption, best int) {
	people, g := max(1, d.Shop.People), d.glue()
	for _, s := range Splits {
		out = append(out, d.option(j, s, people, g))
	}
	taken := max(0, slices.Index(Splits[:], d.GlueUp.Split))
	out = append(out, d.moreHands(j, people, g)...)
	if o, ok := d.slower(j, people, g); ok {
		out = append(out, o)
	}
	if out[taken].Fit == FitsSurely {
		return out, taken
	}
	best = taken
	for i, o := range out {
		if o.Fit == FitsSurely {
			return out, i
		}
		if o.High/o.Open.Low < out[best].High/out[best].Open.Low {
			best = i
		}
	}
	return out, best
}

// moreHands finds the fewest people with whom any split surely fits, and the fewest
// with whom the split taken does, where that is more.
func (d *Design) moreHands(j joints, people int, g catalog.Glue) (out []SplitOption) {
	for n := people + 1; n <= maxPeople; n++ {
		for _, s := range [...]Split{d.GlueUp.Split, GridFirst, HalfGrid} {
			if s != d.GlueUp.Split && len(out) > 0 {
				continue
			}
			o := d.option(j, s, n, g)
			if o.Fit != FitsSurely {
				continue
			}
			o.People, o.Name = n, fmt.Sprintf("%d people spreading, %s", n, o.Name)
			out = append(out, o)
			if s == d.GlueUp.Split {
				return out
			}
		}
	}
	return out
}

// slower finds the glue with the shortest open time with which the split taken
// surely fits, or else the one with the longest.
func (d *Design) slower(j joints, people int, now catalog.Glue) (SplitOption, bool) {
	var found *SplitOption
	for _, g := range Catalogue().Glues {
		if t := d.Shop.Temperature; t < g.MinTemp || t > g.MaxTemp || g.OpenTime.Low <= now.OpenTime.Low {
			continue
		}
		o := d.option(j, d.GlueUp.Split, people, g)
		o.Glue, o.Name = g.Key, fmt.Sprintf("%s, %s", g.Name, o.Name)
		switch {
		case found == nil, o.Fit > found.Fit,
			o.Fit == found.Fit && o.Fit == FitsSurely && o.Open.Low < found.Open.Low,
			o.Fit == found.Fit && o.Fit != FitsSurely && o.Open.Low > found.Open.Low:
			found = &o
		}
	}
	if found == nil {
		return SplitOption{}, false
	}
	return *found, true
}

// InWords says what an option takes and whether that fits.
func (o SplitOption) InWords() string {
	words := [...]string{"does not fit", "may fit", "fits"}[o.Fit]
	return fmt.Sprintf("%s: the longest go takes %s, the glue may lie open for %s; it %s", o.Name, Minutes(o.Low, o.High), Minutes(o.Open.Low, o.Open.High), words)
}
