package app

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"flatwright/engine"
	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// glueAct is the third act of a bench, brought to the fore by the menu.
func (b *bench) glueAct() *act {
	b.Helper()
	b.choose("Go", "Glue")
	if got := b.view.acts.shown().name; got != "Glue" {
		b.Fatalf("Go > Glue shows %s", got)
	}
	return b.view.acts.shown()
}

// retype types text in place of all that a field of words holds.
func (b *bench) retype(path, text string) {
	b.Helper()
	b.session.ShowField(path)
	entry, ok := b.desk.win.Canvas().Focused().(*wordsEntry)
	if !ok {
		b.Fatalf("no field of words at %s takes the keyboard", path)
	}
	entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	b.typeInto(path, text)
}

// pressByKeyboard walks with Tab to the button of that name and presses Space.
func (b *bench) pressByKeyboard(label string) {
	b.Helper()
	c := b.desk.win.Canvas()
	for range 400 {
		c.FocusNext()
		if button, ok := c.Focused().(*formButton); ok && button.Text == label {
			button.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
			b.settle()
			return
		}
	}
	b.Fatalf("the keyboard does not reach the button %q", label)
}

// cardTexts is all that a pane of cards says, one line each.
func cardTexts(cards []card) string {
	var out strings.Builder
	var add func(blocks []block)
	add = func(blocks []block) {
		for _, bl := range blocks {
			out.WriteString(bl.text + " | " + bl.value + " | " + bl.note + "\n")
			add(bl.inside)
		}
	}
	for _, c := range cards {
		out.WriteString("# " + c.title + "\n")
		add(c.blocks)
	}
	return out.String()
}

// A bed is surveyed by the keyboard alone: a hump of .8 mm along the demo, read
// on blocks of 5 mm; a bad reading is named at its field.
func TestBedIsSurveyedByKeyboard(t *testing.T) {
	b := openBench(t, t.TempDir())
	a := b.glueAct()
	if text := cardTexts(bedCards(b.session.Now())); !strings.Contains(text, "not measured yet") {
		t.Errorf("before a survey the cards say\n%s", text)
	}
	b.pressByKeyboard("Survey the bed by straightedge")
	s := b.session.Now().Design.Surveys
	if len(s) != 1 || len(s[0].Columns) != 5 || len(s[0].Rows) != 3 || len(s[0].Lines) != 10 {
		t.Fatalf("a fresh survey is %+v; want 5 columns, 3 rows and 10 lines", s)
	}
	if l := a.form.focusedLine(); l == nil || l.path != "surveys[0].lines[0].readings" {
		t.Errorf("after the button the keyboard is at %+v; want the first line's readings", l)
	}
	b.typeInto("surveys[0].blocks", "5")
	// z = .8·(1 − u²): over a row's own ends .6, .8, .6; along columns nothing; over
	// the diagonals' ends .8.
	for j, readings := range []string{"4.4 4.2 4.4", "4.4; 4.2; 4.4", "4.4 4.2 4.4", "5", "5", "5", "5", "5", "4.2", "4.2"} {
		b.typeInto(path("surveys[0].lines[%d].readings", j), readings)
	}
	now := b.session.Now()
	report := now.Result.Bed.Surveys[0]
	if report.Flat == nil || report.Flat.Zone < 0.7999 || report.Flat.Zone > 0.8001 || len(report.Bad) != 0 {
		t.Fatalf("the survey says %+v, bad %v; want .8", report.Flat, report.Bad)
	}
	if len(a.board().Figure().Areas) < 5 {
		t.Error("there is no map")
	}
	text := cardTexts(bedCards(now))
	for _, want := range append(report.Lines(length.Format{}), now.Result.Bed.Advice(now.Design, length.Format{})...) {
		if !strings.Contains(text, want) {
			t.Errorf("the cards lack %q", want)
		}
	}

	b.retype("surveys[0].lines[1].readings", "4.4 5.1 4.4")
	l := a.form.reveal("surveys[0].lines[1].readings")
	if got := l.problem(); !strings.Contains(got, "C2 of line 2") || !strings.Contains(got, "0.90 mm off") {
		t.Errorf("at the field stands %q; want the bad reading named", got)
	}
	b.choose("Edit", "Undo")
	if got := b.session.Now().Design.Surveys[0].Lines[1].Readings[1]; got != 4.2 {
		t.Errorf("after undo the reading is %g; want 4.2", got)
	}

	b.typeInto("surveys[0].taken", "2026-06-02 9:00")
	if got := b.session.Now().Design.Surveys[0].Taken; got != "2026-06-02T09:00" {
		t.Errorf("taken %q", got)
	}
	b.retype("surveys[0].lines[3].readings", "5 5")
	if got := a.form.reveal("surveys[0].lines[3].readings").problem(); !strings.Contains(got, "2 readings") {
		t.Errorf("a reading too many: %q", got)
	}
	b.retype("surveys[0].lines[3].readings", "five")
	if got := a.form.reveal("surveys[0].lines[3].readings").problem(); !strings.Contains(got, "Reading 1") {
		t.Errorf("what is no length: %q", got)
	}
	b.retype("surveys[0].lines[3].stations", "a1 and a3")
	if got := a.form.reveal("surveys[0].lines[3].stations").problem(); !strings.Contains(got, "“and”") {
		t.Errorf("what is no station: %q", got)
	}
}

// The centre goes from picture to picture, each of which is drawn.
func TestBedHasItsPictures(t *testing.T) {
	b := openBench(t, t.TempDir())
	a := b.glueAct()
	b.session.Edit("survey", "", func(d *engine.Design) {
		s := engine.NewSurvey(*d, engine.TheBed, engine.ByLaserLevel)
		for i := range s.Lines[0].Stations {
			s.Lines[0].Readings = append(s.Lines[0].Readings, 50+float64(i%4)/5)
		}
		top := s
		top.Of, top.Name = engine.TheTop, "next day"
		d.Surveys = []engine.Survey{s, top}
		d.Limits.Flatness = 0.01
	})
	b.settle()
	s := b.session.Now()
	pictures := bedPictures(s)
	var names []string
	for _, p := range pictures {
		names = append(names, p.name)
		if f, _ := p.figure(); len(f.Areas) == 0 {
			t.Errorf("%s is empty", p.name)
		}
	}
	want := "the map of Survey 1, the map of next day, what to lay where, the top that comes off the bed"
	if got := strings.Join(names, ", "); got != want {
		t.Errorf("pictures: %s; want %s", got, want)
	}
	line := b.view.glue.bed.which.content.Objects[0].(fyne.Focusable)
	c := b.desk.win.Canvas()
	for range 400 { // by Tab to the line above the drawing
		if c.FocusNext(); c.Focused() == line {
			break
		}
	}
	if c.Focused() != line {
		t.Fatal("the keyboard does not reach the line that brings the next picture")
	}
	for _, notes := range []string{"A1 ", "A1 ", "B1 ", "front edge"} { // maps, shims, sections
		figure := a.board().Figure()
		if !slices.ContainsFunc(figure.Notes, func(n draw.Note) bool { return strings.HasPrefix(n.Text, notes) }) {
			t.Errorf("picture without a note %q: %v", notes, figure.Notes)
		}
		c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	}
	if text := cardTexts(bedCards(s)); !strings.Contains(text, "the limit of 0.01 mm") {
		t.Errorf("the limit of .01 mm is not told:\n%s", text)
	}
}

func TestReadingsAreTyped(t *testing.T) {
	inches := length.Format{Imperial: true, Denominator: 16}
	for _, c := range []struct {
		text string
		f    length.Format
		want []float64
	}{
		{"", length.Format{}, nil},
		{"4.4 −0.2 +1", length.Format{}, []float64{4.4, -0.2, 1}},
		{" 0.1;0.2 ; 3/16 in; ", length.Format{}, []float64{0.1, 0.2, 4.7625}},
		{"0.012 -0.003", inches, []float64{0.3048, -0.0762}},
		{"1 1/16; 2", inches, []float64{26.9875, 50.8}},
	} {
		got, err := readReadings(c.text, nil, c.f)
		if err != nil || len(got) != len(c.want) {
			t.Errorf("readReadings(%q) = %v, %v; want %v", c.text, got, err, c.want)
			continue
		}
		for i := range got {
			if d := got[i] - c.want[i]; d > 1e-9 || d < -1e-9 {
				t.Errorf("readReadings(%q) = %v; want %v", c.text, got, c.want)
			}
		}
	}
	stored := []float64{1.0 / 3}
	if got, err := readReadings(printReadings(stored, length.Format{}), stored, length.Format{}); err != nil || got[0] != stored[0] {
		t.Errorf("what was not changed became %v, %v", got, err)
	}
	if _, err := readReadings("1 two", nil, length.Format{}); err == nil || !strings.Contains(err.Error(), "Reading 2") {
		t.Errorf("a word among readings: %v", err)
	}
}

// While nothing can be computed neither side of the act shows the design before.
func TestGlueOfABlockedDesign(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.choose("Go", "Glue")
	bed := b.view.acts.shown().board()
	if len(bed.Figure().Areas) == 0 {
		t.Fatal("nothing is drawn at the start")
	}
	b.session.Edit("length", "", func(d *engine.Design) { d.Length = -1 })
	b.settle()
	if n := len(bed.Figure().Areas); n != 0 {
		t.Errorf("%d areas of the design before are drawn", n)
	}
	b.session.Undo()
	b.settle()
	if len(bed.Figure().Areas) == 0 {
		t.Error("after an undo nothing is drawn")
	}
}
