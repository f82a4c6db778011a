package app

import (
	"bytes"
	"context"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"flatwright/engine"
	"flatwright/engine/length"
)

// formRig is a form in a window around a session that computes nothing.
type formRig struct {
	session *Session
	form    *form
	win     fyne.Window
}

func newFormRig(t *testing.T, d engine.Design) *formRig {
	t.Helper()
	lookApp(t)
	// Results are never delivered: the tests show their own.
	s := NewSession(func(func()) {}, func(context.Context, engine.Design) (engine.Result, error) { return engine.Result{}, nil })
	s.Open(d, "")
	f := newForm(s, designGroups)
	s.Watch(f.Show)
	w := test.NewTempWindow(t, f.content)
	w.Resize(fyne.NewSize(300, 700))
	return &formRig{s, f, w}
}

// lookApp starts an app with our theme.
func lookApp(t *testing.T) {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(&look{appearance: alwaysLight})
}

// line returns the field of that path, opening its group.
func (r *formRig) line(t *testing.T, path string) *line {
	t.Helper()
	l := r.form.reveal(path)
	if l == nil || l.path != path {
		t.Fatalf("there is no field for %q", path)
	}
	return l
}

// typeInto puts the cursor into a field and types over what is there.
func (r *formRig) typeInto(t *testing.T, path, text string) {
	t.Helper()
	r.line(t, path).focus()
	focused := r.win.Canvas().Focused()
	if focused == nil {
		t.Fatalf("the field %q took no focus", path)
	}
	if s, ok := focused.(fyne.Shortcutable); ok {
		s.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	test.Type(focused, text)
}

func (r *formRig) leave() { r.win.Canvas().Unfocus() }

func TestTypingChangesTheDesign(t *testing.T) {
	tests := []struct {
		path, text string
		got        func(engine.Design) any
		want       any
	}{
		{"name", "Bench", func(d engine.Design) any { return d.Name }, "Bench"},
		{"length", "1.6 m", func(d engine.Design) any { return d.Length }, 1600.0},
		{"width", `29 1/2"`, func(d engine.Design) any { return d.Width }, 749.3}, // 29.5 · 25.4
		{"topSkin.thickness", "6.2", func(d engine.Design) any { return d.TopSkin.Thickness }, 6.2},
		{"lengthwise.count", "7", func(d engine.Design) any { return d.Lengthwise.Count }, 7},
		{"crosswise.thickest", "12.4", func(d engine.Design) any { return d.Crosswise.Thickest }, 12.4},
		{"slots.clearance", "0.3", func(d engine.Design) any { return d.Slots.Clearance }, 0.3},
		{"supports.bearing", "45", func(d engine.Design) any { return d.Supports.Bearing }, 45.0},
		{"cases[0].loads[0].force", "500 N", func(d engine.Design) any { return d.Cases[0].Loads[0].Force }, 500.0},
		{"cases[0].loads[0].x", "20 cm", func(d engine.Design) any { return d.Cases[0].Loads[0].X }, 200.0},
		{"limits.sag", "0.4", func(d engine.Design) any { return d.Limits.Sag }, 0.4},
		{"shop.temperature", "68 F", func(d engine.Design) any { return d.Shop.Temperature }, 20.0},
		{"air.above", "60", func(d engine.Design) any { return d.Air.Above }, 60.0},
		{"shop.people", "3", func(d engine.Design) any { return d.Shop.People }, 3},
	}
	for _, tc := range tests {
		t.Run(tc.path, func(t *testing.T) {
			r := newFormRig(t, engine.Demo())
			r.typeInto(t, tc.path, tc.text)
			if got := tc.got(r.session.Now().Design); got != tc.want {
				t.Errorf("after typing %q into %s the design holds %v; want %v", tc.text, tc.path, got, tc.want)
			}
			if label := r.session.Now().UndoLabel; label == "" {
				t.Error("the edit has no label for Undo")
			}
		})
	}
}

func TestFieldsReadWhenLeft(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	r.typeInto(t, "lengthwise.positions", "50; 20 cm; 500")
	r.leave()
	if got := r.session.Now().Design.Lengthwise.Positions; len(got) != 3 || got[0] != 50 || got[1] != 200 || got[2] != 500 {
		t.Errorf("positions = %v; want 50, 200, 500", got)
	}
	r.typeInto(t, "shop.start", "2026-12-01 8:30 am")
	r.leave()
	if got := r.session.Now().Design.Shop.Start; got != "2026-12-01T08:30" {
		t.Errorf("start = %q; want 2026-12-01T08:30", got)
	}
	before := r.session.Now().Design
	r.typeInto(t, "shop.start", "soon")
	r.leave()
	if got := r.session.Now().Design.Shop.Start; got != before.Shop.Start {
		t.Errorf("start = %q after senseless typing; want %q kept", got, before.Shop.Start)
	}
	if text := problemAt(r.line(t, "shop.start")); !strings.Contains(text, "soon") {
		t.Errorf("the field says %q; want a sentence about what was typed", text)
	}
}

func TestShowEditsNothing(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	for _, g := range r.form.groups {
		g.fold.SetOpen(true)
	}
	revision := r.session.Now().Revision
	other := engine.Start(engine.Workbench, 2000, 700)
	other.Blocks = []engine.Block{{Material: other.TopSkin.Material}}
	other.EdgeBand = engine.EdgeBand{Material: other.TopSkin.Material, Thickness: 18}
	other.Cases = append(other.Cases, other.Cases[0])
	for _, d := range []engine.Design{other, {}, engine.Demo()} {
		for _, f := range []length.Format{{}, {Imperial: true, Denominator: 64}} {
			r.form.Show(Snapshot{Design: d, Lengths: f, Revision: revision})
		}
	}
	if now := r.session.Now(); now.Revision != revision || now.UndoLabel != "" {
		t.Errorf("showing other designs made edit %q, revision %d; want none, %d", now.UndoLabel, now.Revision, revision)
	}
}

func TestUnitSwitchChangesNoByte(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	for _, g := range r.form.groups {
		g.fold.SetOpen(true)
	}
	before, err := engine.Encode(r.session.Now().Design)
	if err != nil {
		t.Fatal(err)
	}
	paths := []string{"length", "coreDepth", "cases[0].loads[0].force", "limits.sag", "shop.temperature", "lengthwise.positions"}
	for i := range 100 {
		// Somebody stands in a field, and moves on, while the units change.
		r.line(t, paths[i%len(paths)]).focus()
		r.session.SetLengths(length.Format{Imperial: i%2 == 0, Denominator: []int{16, 32, 64}[i%3]})
	}
	r.leave()
	after, err := engine.Encode(r.session.Now().Design)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(before, after) {
		t.Errorf("the design changed with its units:\n%s\nwas\n%s", after, before)
	}
	if label := r.session.Now().UndoLabel; label != "" {
		t.Errorf("there is something to undo: %q", label)
	}
}

func TestHalfTypedListIsNotReadInAnotherUnit(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	r.typeInto(t, "lengthwise.positions", "50; 200")
	revision := r.session.Now().Revision
	r.session.SetLengths(length.Format{Imperial: true})
	r.leave()
	if now := r.session.Now(); now.Revision != revision || len(now.Design.Lengthwise.Positions) != 0 {
		t.Errorf("typed in mm and left in inches: positions %v", now.Design.Lengthwise.Positions)
	}
}

func TestListKeepsWhatWasNotRetyped(t *testing.T) {
	stored := []float64{100.123456, 200}
	got, err := readList("100.12; 250", stored, length.Format{}) // 100.12 is how the first one is shown
	if err != nil || len(got) != 2 || got[0] != stored[0] || got[1] != 250 {
		t.Errorf("readList = %v, %v; want the first as it was stored, and 250", got, err)
	}
	if _, err := readList("100; 1/0", stored, length.Format{}); err == nil || !strings.HasPrefix(err.Error(), "Position 2: ") {
		t.Errorf("readList of 1/0 = %v; want a sentence about the second one", err)
	}
}

// problemAt returns the sentence of trouble under a field.
func problemAt(l *line) string { return l.problem() }

func TestProblemsStandAtTheirFields(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	snap := r.session.Now()
	snap.Result.Problems = []engine.Problem{
		{Severity: engine.Blocking, Field: "coreDepth", Text: "The core depth is 0 mm."},
		{Severity: engine.Shortfall, Field: "lengthwise.positions[2]", Text: "Rib 3 stands 25.4 mm off."},
		{Severity: engine.Advice, Field: "cases[0].loads[0]", Text: "The load hangs over."},
		{Severity: engine.Advice, Field: "lengthwise", Text: "The ribs are many."},
	}
	snap.Lengths = length.Format{Imperial: true}
	r.form.Show(snap)
	if got := problemAt(r.line(t, "coreDepth")); got != `■ The core depth is 0".` {
		t.Errorf("core depth says %q; want its length in inches", got)
	}
	if got := problemAt(r.line(t, "lengthwise.positions")); got != `■ Rib 3 stands 1" off.` {
		t.Errorf("positions say %q; want the problem of the third one", got)
	}
	if got := problemAt(r.line(t, "length")); got != "" {
		t.Errorf("length says %q; want nothing", got)
	}
	for _, g := range r.form.groups {
		switch g.name {
		case "Ribs":
			if got := g.own.Text(); got != "▲ The ribs are many." {
				t.Errorf("the ribs' head says %q; want the problem of the whole group", got)
			}
		case "Loads":
			if got := r.form.summaryOf(g); !strings.HasPrefix(got, "▲ one thing worth knowing · ") {
				t.Errorf("the folded loads say %q; want what is worth knowing first", got)
			}
		}
	}
}

// Advice is no problem: a folded head that hides only advice says so.
func TestProblemWords(t *testing.T) {
	for _, c := range []struct {
		problems, advice int
		want             string
	}{{1, 0, "■ one problem"}, {2, 3, "■ two problems"}, {0, 1, "▲ one thing worth knowing"}, {0, 2, "▲ two things worth knowing"}} {
		if got := problemWords(c.problems, c.advice); got != c.want {
			t.Errorf("%d problems, %d advice: %q; want %q", c.problems, c.advice, got, c.want)
		}
	}
}

func TestPickingARibOpensItsFields(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	for _, g := range r.form.groups {
		g.fold.SetOpen(false)
	}
	r.session.Select("C3")
	for _, g := range r.form.groups {
		if g.fold.Open() != (g.name == "Ribs") {
			t.Errorf("after picking C3 the group %s is open: %t", g.name, g.fold.Open())
		}
	}
	if r.win.Canvas().Focused() != nil {
		t.Error("picking a part took the keyboard away from the drawing")
	}
	r.session.ShowField("limits.sag")
	if l := r.form.focusedLine(); l == nil || l.path != "limits.sag" {
		t.Errorf("asked for limits.sag, the cursor is in %v", l)
	}
}

func TestChoosingMaterialTakesAThicknessSold(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	var other string
	for _, m := range engine.Catalogue().Sheets {
		if m.Key != r.session.Now().Design.TopSkin.Material && len(m.Thicknesses) > 0 {
			other = m.Key
		}
	}
	d := r.session.Now().Design
	chooseMaterial(d, stock{&d.Lengthwise.Material, &d.Lengthwise.Thickness, &d.Lengthwise.Thickest}, other)
	if d.Lengthwise.Material != other || nominalIndex(d, other, d.Lengthwise.Thickness) < 0 {
		t.Errorf("chose %s: ribs are %s of %v mm; want a thickness it is sold in", other, d.Lengthwise.Material, d.Lengthwise.Thickness)
	}
}

func TestUndoLabelsMergeWhileTyping(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	r.session.clock = func() time.Time { return time.Unix(0, 0) }
	before := r.session.Now().Design.Length
	r.typeInto(t, "length", "1650")
	r.session.Undo()
	if got := r.session.Now().Design.Length; got != before {
		t.Errorf("one Undo after typing 1650 leaves %v; want %v", got, before)
	}
}

func TestTabOrder(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	r.form.reveal("topSkin.material")
	r.line(t, "name").focus()
	var seen []string
	for range 12 {
		if l := r.form.focusedLine(); l != nil && l.path != "" {
			seen = append(seen, l.path)
		}
		r.win.Canvas().FocusNext()
	}
	want := []string{"name", "length", "width", "height", "topSkin.material", "topSkin.nominal", "topSkin.thickness", "topSkin.across"}
	if len(seen) < len(want) {
		t.Fatalf("Tab reaches %v; want %v first", seen, want)
	}
	for i, path := range want {
		if seen[i] != path {
			t.Fatalf("Tab reaches %v; want %v first", seen, want)
		}
	}
}

func TestPickedFieldIsScrolledTo(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	r.session.Select("C3")
	l := r.form.find(r.form.groups[2], "crosswise.count")
	driver := fyne.CurrentApp().Driver()
	top := driver.AbsolutePositionForObject(l.object).Y
	bottom := top + l.object.Size().Height
	if room := r.form.pane.Size().Height; top < 0 || bottom > room || r.form.pane.Offset() == 0 {
		t.Errorf("the field stands from %v to %v in a pane %v high, scrolled by %v; want it in view", top, bottom, room, r.form.pane.Offset())
	}
}

func TestPanesFitTheirWidth(t *testing.T) {
	d := engine.Demo()
	d.Name = strings.Repeat("A very long name ", 8)
	d.Cases[0].Loads[0].Name = d.Name
	d.Blocks = []engine.Block{{Material: "there is no such material in any list at all"}}
	r := newFormRig(t, d)
	for _, g := range r.form.groups {
		g.fold.SetOpen(true)
	}
	snap := handMade()
	snap.Design = d
	snap.Result.Problems = append(snap.Result.Problems, engine.Problem{Field: "length", Text: strings.Repeat("verylongword", 9)})
	res := newCardPane(r.session, resultCards)
	for _, f := range []length.Format{{}, {Imperial: true, Denominator: 64}} {
		snap.Lengths = f
		r.form.Show(snap)
		res.Show(snap)
		if got := r.form.content.MinSize().Width; got > 300 {
			t.Errorf("the form needs %v; want at most 300", got)
		}
		if got := res.content.MinSize().Width; got > 360 {
			t.Errorf("the results need %v; want at most 360", got)
		}
		if got := r.form.column.MinSize().Width; got > 300-2*8-14 {
			t.Errorf("the fields need %v; want at most what a pane of 300 leaves them", got)
		}
	}
}

func TestExplanationsFit(t *testing.T) {
	d := engine.Demo()
	d.Blocks = []engine.Block{{Material: d.TopSkin.Material}}
	r := newFormRig(t, d)
	n := 0
	for _, g := range r.form.groups {
		g.fold.SetOpen(true)
		r.form.showGroup(g)
		for _, l := range g.lines {
			r.form.explain(l.help)
			r.form.help.Resize(fyne.NewSize(formWidth-24, helpHeight))
			if got := r.form.help.MinSize().Height; got > helpHeight-4 {
				t.Errorf("%s: its explanation is %v high and has %v: %q", l.path, got, helpHeight-4, l.help)
			}
			if l.help != "" {
				n++
			}
		}
	}
	if n < 40 {
		t.Errorf("only %d explanations were looked at", n)
	}
}
