package engine

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"flatwright/engine/draw"
)

// shimmedDemo is the demo with a rough bed, a bad reading, and the top measured
// twice afterwards, by rows and columns and by a level.
func shimmedDemo() Design {
	d := Demo()
	shape := func(u, v float64) float64 { return 0.8*(1-u*u) - 0.3*(1-v*v) + 0.2*u*v + 0.1*u*u*v }
	bed, top := surveyed(d, TheBed, shape), surveyed(d, TheTop, func(u, v float64) float64 { return 0.2 * shape(u, v) })
	bed.Lines[1].Readings[1] += 0.9
	bed.Notes = "On two saw horses, swept clean."
	top.Name, top.Taken, top.Humidity, top.Lines = "a month later", "2026-06-02T09:00", 48, top.Lines[:8]
	level := surveyed(d, TheTop, shape)
	level.Name, level.Lines = "", []SurveyedLine{{Method: ByLaserLevel, Stations: []string{"A1", "C1", "E1", "A3", "C3", "E3", "C2"}, Readings: []float64{30, 29.4, 30, 29.7, 29.2, 29.8, 29}}}
	d.Surveys = []Survey{bed, top, level}
	d.Limits.Flatness = 0.4
	return d
}

func TestBedInThePacket(t *testing.T) {
	t.Parallel()
	d := shimmedDemo()
	r := compute(t, d)
	for _, o := range []PacketOptions{{Lengths: millimetre}, {Paper: "letter", Lengths: sixteenths}} {
		pages := packetOf(t, d, o)
		fits(t, "bed "+o.Paper, pages)
		text := strings.ReplaceAll(textOf(pages, "Bed and flatness"), "\n", " ")
		want := append(r.Bed.Kept.Lines(), r.Bed.Advice(d, o.Lengths)...)
		for i, s := range r.Bed.Surveys {
			want = append(want, s.Title, fmt.Sprintf("%s, of the %s", s.Title, s.Of))
			want = append(want, s.Lines(o.Lengths)...)
			for _, b := range s.Bad {
				want = append(want, InUnits(b.Text, o.Lengths))
			}
			for _, k := range s.Stations {
				if k.Known && !strings.Contains(text, k.Name+" "+HeightText(k.Z, o.Lengths)) {
					t.Errorf("the map of survey %d lacks %s at %s", i, k.Name, HeightText(k.Z, o.Lengths))
				}
			}
		}
		for _, s := range r.Bed.Plans[r.Bed.Ways[r.Bed.Best].Plan].Shims {
			want = append(want, s.Station+" "+strings.TrimLeft(HeightText(s.Thickness, o.Lengths), "+"), s.StackInWords(o.Lengths))
		}
		for _, row := range r.Bed.Series(d, o.Lengths) {
			want = append(want, row.Flat, row.BowAlong, row.BowAcross, row.Wind)
		}
		want = append(want, "The top over time", AboutFlatness, AboutKept, "left out", d.Surveys[0].Notes, "48 % relative humidity", "unchecked")
		for _, w := range want {
			if !strings.Contains(text, w) {
				t.Errorf("the bed's pages lack %q", w)
			}
		}
	}
	if n := len(r.Bed.Series(d, millimetre)); n != 2 {
		t.Errorf("%d surveys of the top in the series; want 2", n)
	}
	if one := d.Clone(); len(one.Surveys) == 3 {
		one.Surveys = one.Surveys[:2]
		again := compute(t, one)
		if rows := again.Bed.Series(one, millimetre); rows != nil {
			t.Errorf("one survey makes a series: %v", rows)
		}
	}
	blank := Demo()
	text := strings.ReplaceAll(textOf(packetOf(t, blank, PacketOptions{}), "Bed and flatness"), "\n", " ")
	for _, w := range append(HowToSurvey, compute(t, blank).Bed.Kept.Lines()...) {
		if !strings.Contains(text, w) {
			t.Errorf("without a survey the page lacks %q", w)
		}
	}
}

func TestBedInTheReport(t *testing.T) {
	t.Parallel()
	d := shimmedDemo()
	r := compute(t, d)
	var out bytes.Buffer
	if err := Report(&out, d, r, millimetre); err != nil {
		t.Fatal(err)
	}
	for _, w := range slices.Concat(r.Bed.Kept.Lines(), r.Bed.Advice(d, millimetre), r.Bed.Surveys[0].Lines(millimetre), []string{r.Bed.Surveys[0].Bad[0].Text, "shim at E1"}) {
		if !strings.Contains(out.String(), w) {
			t.Errorf("the report lacks %q", w)
		}
	}
	out.Reset()
	if err := ReportJSON(&out, d, r); err != nil {
		t.Fatal(err)
	}
	var read struct{ Result struct{ Bed BedReport } }
	if err := json.Unmarshal(out.Bytes(), &read); err != nil {
		t.Fatal(err)
	}
	if read.Result.Bed.Best != r.Bed.Best || len(read.Result.Bed.Surveys) != 3 || read.Result.Bed.Ways[1] != r.Bed.Ways[1] {
		t.Error("the bed does not come back from the report")
	}
	if i := bytes.Index(out.Bytes(), []byte("null")); i >= 0 {
		t.Errorf("a list is null in the report: …%s…", out.Bytes()[max(0, i-80):i+4])
	}
}

// While something is dragged surveys, glue-up and build steps say what they say at
// rest; what is kept of the bed is not kept for another survey, limit or panel.
func TestGlanceKnowsTheBed(t *testing.T) {
	t.Parallel()
	for name, change := range map[string]func(d *Design){
		"as it is": func(*Design) {},
		"a reading": func(d *Design) {
			d.Surveys[0].Lines[0].Readings[1] += 0.4
		},
		"a limit":        func(d *Design) { d.Limits.Flatness = 0.07 },
		"another sheet":  func(d *Design) { d.TopSkin.Thickness *= 1.2 },
		"other leaves":   func(d *Design) { d.Leaves = []float64{0.3} },
		"longer":         func(d *Design) { d.Length += 90 },
		"a moved load":   func(d *Design) { d.Cases[0].Loads[0].X += 30 },
		"fewer clamps":   func(d *Design) { d.GlueUp.Clamps = Clamps{Count: 4, Force: 2000} },
		"without a word": func(d *Design) { d.Surveys = nil },
	} {
		d := shimmedDemo()
		change(&d)
		glance, err := Glance(t.Context(), d)
		if err != nil {
			t.Fatal(err)
		}
		again := d.Clone()
		again.Cases[0].Loads[0].X += 5 // dragged on
		if glance, err = Glance(t.Context(), again); err != nil {
			t.Fatal(err)
		}
		want := compute(t, again)
		m := d.materials()
		mo := newModel(&d, &m, true)
		if alone := d.bedReport(d.keptShares(&mo, &m)); !reflect.DeepEqual(glance.Bed, alone) {
			t.Errorf("%s: what is kept of the bed is not what the surveys say", name)
		}
		if !reflect.DeepEqual(glance.Bed, want.Bed) || !reflect.DeepEqual(glance.GlueUp, want.GlueUp) || !reflect.DeepEqual(glance.Build, want.Build) {
			t.Errorf("%s: dragged, bed, glue-up or steps are not those at rest", name)
		}
	}
}

// TestBedMap draws the lowest places darkest, and nothing of what makes no
// surface.
func TestBedMap(t *testing.T) {
	t.Parallel()
	d, r := onBed(t, func(u, v float64) float64 { return -(1 - u*u) * (1 - v*v) })
	fig := BedMap(d, r, 0, millimetre)
	var bands []draw.Fill
	for _, a := range fig.Areas {
		if a.Fill >= draw.Sag0 && a.Fill <= draw.Sag9 && len(a.Points) > 0 {
			bands = append(bands, a.Fill)
		}
	}
	if len(bands) < 3 || bands[0] != slices.Max(bands) {
		t.Errorf("fills %v; want the lowest, drawn first, the darkest", bands)
	}
	stations := 0
	for _, n := range fig.Notes {
		if strings.HasPrefix(n.Text, "C2 ") && !n.Bold {
			t.Error("the lowest station is not in bold")
		}
		if strings.ContainsAny(n.Text, "ABCDE") && n.Ground == draw.Sheet {
			stations++
		}
	}
	if stations != 15 {
		t.Errorf("%d stations on the map; want 15", stations)
	}
	if fig, times := BedSection(d, r, millimetre); len(fig.Lines) != 3*24*3 || times < 10 {
		t.Errorf("%d lines in the sections, %g times too large; want three lines of 24 pieces at three places", len(fig.Lines), times)
	}
	for _, survey := range []int{-1, 1} {
		if fig := BedMap(d, r, survey, millimetre); len(fig.Areas) > 0 {
			t.Errorf("a map of survey %d", survey)
		}
	}
	if fig := ShimMap(d, r, 99, millimetre); len(fig.Areas) > 0 {
		t.Error("a map of a plan that is not there")
	}
	d.Surveys[0].Lines = d.Surveys[0].Lines[:1]
	r = compute(t, d)
	if fig := BedMap(d, r, 0, millimetre); len(fig.Areas) > 0 {
		t.Error("one line makes a map")
	}
	if fig, _ := BedSection(d, r, millimetre); len(fig.Lines) > 0 {
		t.Error("one line makes a section")
	}
}
