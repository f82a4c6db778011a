package engine

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"flatwright/engine/length"
)

// AboutFlatness says what flatness is told by.
const AboutFlatness = "Flat within so much means: two parallel planes that far apart enclose all stations, and no two closer ones do. That is how ISO 1101 defines flatness (from memory). Between the stations nothing was measured."

// AboutKept says what the shares rest on.
const AboutKept = "The panel keeps most of the shape that it has while the glue sets. Beam theory: the parts follow the bed, the glue does not creep; edge bands come later and are not counted."

// HeightText prints a height with its sign in the person's unit, to a hundredth
// of a millimetre or half a thousandth of an inch, without the unit.
func HeightText(mm float64, f length.Format) string {
	v, digits := mm, 2
	if f.Imperial {
		v, digits = mm/length.Inch, 4
	}
	text := strconv.FormatFloat(math.Abs(v), 'f', digits, 64)
	switch {
	case strings.Trim(text, "0.") == "":
		return text
	case v < 0:
		return "−" + text
	}
	return "+" + text
}

// UnitWord is the unit of thin lengths as a word that can follow “in”.
func UnitWord(f length.Format) string {
	if f.Imperial {
		return "inches"
	}
	return "mm"
}

// ThinText prints a length without its sign like [HeightText], with its unit.
func ThinText(mm float64, f length.Format) string {
	return strings.TrimLeft(HeightText(mm, f), "+−") + " " + f.Unit()
}

// withError prints a shape with its standard error and its direction.
func (s SurveyShape) withError(f length.Format, positive, negative string) string {
	if !s.Told {
		return "not told by these stations"
	}
	way := positive
	if s.Value < 0 {
		way = negative
	}
	text := ThinText(s.Value, f)
	if strings.Trim(strings.Fields(text)[0], "0.") != "" {
		text += " (" + way + ")"
	}
	if s.Error > 0 {
		text += ", give or take " + ThinText(s.Error, f)
	}
	return text
}

// Lines tells a survey, a line each.
func (s *SurveyReport) Lines(f length.Format) []string {
	if s.Trouble != "" {
		return []string{"Nothing can be told: " + s.Trouble + "."}
	}
	var out []string
	if s.Flat == nil {
		out = append(out, "The stations that are tied together make no surface yet. Measure lines that cross.")
	} else {
		out = append(out,
			fmt.Sprintf("Flat within %s. High: %s. Low: %s.", ThinText(s.Flat.Zone, f), some(s.Flat.High), some(s.Flat.Low)),
			fmt.Sprintf("Against the least-squares plane: highest over lowest %s, root mean square %s.", ThinText(s.Flat.PeakToValley, f), ThinText(s.Flat.RMS, f)))
	}
	out = append(out, "Bow of the length: "+s.BowAlong.withError(f, "middle high", "middle low")+".",
		"Bow of the width: "+s.BowAcross.withError(f, "middle high", "middle low")+".")
	wind := s.Wind.withError(f, "the far right corner stands above the plane of the other three", "the far right corner lies below the plane of the other three")
	if s.WindAssumed {
		wind = "cannot be told from rows and columns alone; none is assumed. Measure a diagonal or lay winding sticks"
	}
	out = append(out, "Wind: "+wind+".")
	if s.TiltTold {
		than := func(mm float64) string {
			if mm < 0 {
				return ThinText(mm, f) + " lower"
			}
			return ThinText(mm, f) + " higher"
		}
		out = append(out, fmt.Sprintf("Against level the right end stands %s than the left one, the back edge %s than the front one. That is no fault of its flatness.", than(s.TiltAlong), than(s.TiltAcross)))
	}
	return append(out, s.closing(f))
}

// SeriesRow is one survey of the finished top beside the others.
type SeriesRow struct {
	Name, When, Humidity, Flat, BowAlong, BowAcross, Wind string
}

// Series sets all surveys of the finished top that make a surface side by side,
// in their order: how it came out, and how it moves with the room's air. It is
// empty with fewer than two.
func (b *BedReport) Series(d Design, f length.Format) []SeriesRow {
	var out []SeriesRow
	told := func(s SurveyShape) string {
		if !s.Told {
			return "—"
		}
		return HeightText(s.Value, f)
	}
	for i := range b.Surveys {
		if s := &b.Surveys[i]; s.Of == TheTop && s.Flat != nil && i < len(d.Surveys) {
			row := SeriesRow{Name: s.Title, Flat: ThinText(s.Flat.Zone, f), BowAlong: told(s.BowAlong), BowAcross: told(s.BowAcross), Wind: told(s.Wind)}
			if d.Surveys[i].Taken != "" {
				row.When = clock(d.Surveys[i].Taken)
			}
			if h := d.Surveys[i].Humidity; h > 0 {
				row.Humidity = fmt.Sprintf("%g %%", h)
			}
			out = append(out, row)
		}
	}
	if len(out) < 2 {
		return nil
	}
	return out
}

// closing tells how well the readings fit together.
func (s *SurveyReport) closing(f length.Format) string {
	if s.Worst < 0 {
		return fmt.Sprintf("%d readings, none more than needed: nothing checks them. Lines that cross at a station check each other.", len(s.Readings))
	}
	q := s.Readings[s.Worst]
	text := fmt.Sprintf("%d readings, %d more than needed. Largest misclosure %s at %s (line %d): so much that reading differs from what all others say.",
		len(s.Readings), s.Freedom, ThinText(q.Misclosure, f), q.Station, q.Line+1)
	if !s.Agrees {
		text += fmt.Sprintf(" The readings scatter %.1f times as far as their standard errors say.", s.Scatter)
	}
	return text
}

// Lines tells how much of a bed's shape the panel keeps.
func (k KeptShares) Lines() []string {
	turned := func(v float64) string {
		if v < 0 {
			return fmt.Sprintf("%.0f %% the other way round", -100*v)
		}
		return fmt.Sprintf("%.0f %%", 100*v)
	}
	return []string{
		fmt.Sprintf("Both skins at once, or one after the other the same side up: %.0f %% of the bed's bow along the length, %.0f %% of that across the width, %.0f %% of its wind.", 100*k.Along.Together, 100*k.Across.Together, 100*k.Wind.Together),
		fmt.Sprintf("Turned over for the second skin: %s along, %s across, still %.0f %% of the wind. Seen as it lay first.", turned(k.Along.TurnedOver), turned(k.Across.TurnedOver), 100*k.Wind.TurnedOver),
	}
}

// Advice says which way gives the flattest top, and which meets the limit with
// the least work; nil without a bed.
func (b *BedReport) Advice(d Design, f length.Format) []string {
	if !b.Laid() {
		return nil
	}
	say := func(i int) string {
		w := b.Ways[i]
		n := len(b.Plans[w.Plan].Shims)
		shims := "without a shim"
		if n > 0 {
			shims = fmt.Sprintf("%s (%d)", b.Plans[w.Plan].Name, n)
		}
		return fmt.Sprintf("%s, %s: the top comes out flat within %s", w.Order.WithSame(), shims, ThinText(w.Flat, f))
	}
	best := "Flattest: " + say(b.Best) + "."
	for _, w := range b.Ways {
		if w.Flat < b.Ways[b.Best].Flat && ThinText(w.Flat, f) != ThinText(b.Ways[b.Best].Flat, f) {
			best += " What comes out flatter by less than " + ThinText(flatSeen, f) + " takes no fewer shims and shows on no feeler."
			break
		}
	}
	out := []string{best}
	if b.Least >= 0 && b.Least != b.Best {
		out = append(out, fmt.Sprintf("Least work within the limit of %s: %s.", ThinText(d.Limits.Flatness, f), say(b.Least)))
	}
	if b.Short > shortSurvey {
		out = append(out, fmt.Sprintf("The survey stops %s short of an edge of the panel; from there on the bed is taken to go on level.", f.Print(b.Short)))
	}
	worst := 0.0
	for _, s := range b.Surveys[b.Bed].Stations {
		worst = max(worst, s.Error)
	}
	return append(out, fmt.Sprintf("The heights themselves are known to %s (standard error of the worst station). That, the glue's own thickness and how far the bed gives under the clamps come on top.", ThinText(worst, f)))
}

// WithSame names an order together with the one that comes to the same.
func (o GlueOrder) WithSame() string {
	if o == BothAtOnce {
		return "both skins at once, or one after the other the same side up"
	}
	return string(o)
}

// shortSurvey is how far a survey may stop short of the panel's edge before that
// is told, mm; common practice, no source.
const shortSurvey = 50

// bed adds the bed to the report.
func (p *printer) bed(d Design, b *BedReport, f length.Format) {
	p.line("\nOf the bed that it is glued on the panel keeps:")
	for _, line := range b.Kept.Lines() {
		p.line("  %s", line)
	}
	for i := range b.Surveys {
		s := &b.Surveys[i]
		p.line("\n%s, of the %s:", s.Title, s.Of)
		for _, line := range s.Lines(f) {
			p.line("  %s", line)
		}
		for _, bad := range s.Bad {
			p.line("  %s", InUnits(bad.Text, f))
		}
	}
	if !b.Laid() {
		return
	}
	p.line("\nGluing on this bed:")
	for _, w := range b.Ways {
		if w.Order != OneByOne { // as both at once, and said so
			p.line("  flat within %s: %s, %s", ThinText(w.Flat, f), w.Order.WithSame(), b.Plans[w.Plan].Name)
		}
	}
	for _, line := range b.Advice(d, f) {
		p.line("  %s", line)
	}
	for _, s := range b.Plans[b.Ways[b.Best].Plan].Shims {
		p.line("  shim at %s: %s", s.Station, s.StackInWords(f))
	}
}

// StackInWords says what a shim is stacked from.
func (s BedShim) StackInWords(f length.Format) string {
	text := ThinText(s.Thickness, f)
	if len(s.Leaves) < 2 {
		return text
	}
	parts := make([]string, len(s.Leaves))
	for i, leaf := range s.Leaves {
		parts[i] = strings.TrimLeft(HeightText(leaf, f), "+")
	}
	return text + " = " + strings.Join(parts, " + ")
}
