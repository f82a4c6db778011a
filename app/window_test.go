package app

import (
	"context"
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// bench is a window under the toolkit's test driver. What the worker wants to
// show waits in a queue that the test runs itself, as the toolkit's loop would.
type bench struct {
	*testing.T
	app     fyne.App
	session *Session
	desk    *desk
	view    *view
	queue   chan func()
	timers  []*testTimer
}

// testTimer is a timer that goes off when the test says so.
type testTimer struct {
	wait    time.Duration
	f       func()
	stopped bool
}

// openBench opens the window on the demo, with settings in dir.
func openBench(t *testing.T, dir string) *bench {
	t.Helper()
	b := &bench{T: t, app: test.NewTempApp(t), queue: make(chan func(), 1000)}
	b.session = NewSession(func(f func()) { b.queue <- f }, engine.Estimate)
	b.desk, b.view = open(b.session, setUp{app: b.app, store: store{dir: dir}, pid: 1, after: b.after})
	b.session.Open(engine.Demo(), "")
	b.settle()
	return b
}

func (b *bench) after(wait time.Duration, f func()) func() {
	timer := &testTimer{wait: wait, f: f}
	b.timers = append(b.timers, timer)
	return func() { timer.stopped = true }
}

// ring lets all timers that were not stopped go off.
func (b *bench) ring() {
	timers := b.timers
	b.timers = nil
	for _, timer := range timers {
		if !timer.stopped {
			timer.f()
		}
	}
	b.settle()
}

// settle runs what the worker wants to show until nothing is under way.
func (b *bench) settle() {
	b.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	for {
		select {
		case f := <-b.queue:
			f()
		case <-b.session.Idle():
			return
		case <-ctx.Done():
			b.Fatal("the window never came to rest")
		}
	}
}

// typeInto types text over what the field of that path holds, and Return.
func (b *bench) typeInto(path, text string) {
	b.Helper()
	b.session.ShowField(path)
	focused := b.desk.win.Canvas().Focused()
	if focused == nil {
		b.Fatalf("no field of %s takes the keyboard", path)
	}
	test.Type(focused, text)
	focused.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	b.settle()
}

// choose runs the menu item with that label.
func (b *bench) choose(menu, label string) {
	b.Helper()
	for _, m := range b.desk.win.MainMenu().Items {
		for _, entry := range m.Items {
			if m.Label == menu && strings.HasPrefix(entry.Label, label) {
				if entry.Disabled {
					b.Fatalf("%s > %s is greyed out", menu, entry.Label)
				}
				entry.Action()
				b.settle()
				return
			}
		}
	}
	b.Fatalf("there is no %s > %s", menu, label)
}

// dialog returns all objects of the dialog on top, nil if there is none.
func (b *bench) dialog() []fyne.CanvasObject {
	top := b.desk.win.Canvas().Overlays().Top()
	if top == nil {
		return nil
	}
	return test.LaidOutObjects(top)
}

// dialogText is all text of the dialog on top.
func (b *bench) dialogText() string {
	var text strings.Builder
	for _, o := range b.dialog() {
		switch o := o.(type) {
		case *widget.Label:
			text.WriteString(o.Text + "\n")
		case *answerButton:
			text.WriteString("[" + o.Text + "]\n")
		}
	}
	return text.String()
}

// press taps a button of the dialog on top.
func (b *bench) press(label string) {
	b.Helper()
	for _, o := range b.dialog() {
		if button, ok := o.(*answerButton); ok && button.Text == label {
			test.Tap(button)
			b.settle()
			return
		}
	}
	b.Fatalf("no button %q in the dialog:\n%s", label, b.dialogText())
}

func (b *bench) tile(i int) widgets.TileData { return b.view.strip.tiles[i].Data() }

func TestTypingChangesTheTiles(t *testing.T) {
	b := openBench(t, t.TempDir())
	before := b.tile(0)
	b.typeInto("length", "2400")

	want := engine.Demo()
	want.Length = 2400
	if got := b.session.Now().Design.Length; got != 2400 {
		t.Fatalf("length %v after typing 2400", got)
	}
	r, err := engine.Estimate(t.Context(), b.session.Now().Design)
	if err != nil {
		t.Fatal(err)
	}
	sag, _ := cutUnit(length.Sag(r.Cases[r.Governing].Sag, length.Format{}))
	if got := b.tile(0); got.Value != sag || got.Stale || got == before {
		t.Errorf("sag tile %+v; want %s mm, not stale, not what it was", got, sag)
	}
	mass, _ := cutUnit(length.Mass(r.Mass.Total, length.Format{}))
	if got := b.tile(1).Value; got != mass {
		t.Errorf("weight tile %s; want %s", got, mass)
	}
	if got, want := b.tile(2).Value, fig(r.Margins[0].Value); got != want {
		t.Errorf("margin tile %s; want %s", got, want)
	}

	b.choose("Edit", "Undo")
	if got := b.tile(0); got != before {
		t.Errorf("sag tile after undo %+v; want %+v", got, before)
	}
}

func TestTilesGoStaleAtOnce(t *testing.T) {
	b := openBench(t, t.TempDir())
	before := b.tile(0)
	b.session.Edit("length", "length", func(d *engine.Design) { d.Length = 2400 })
	if got := b.tile(0); !got.Stale || got.Value != before.Value {
		t.Errorf("sag tile before the result is there: %+v; want the old value, as stale", got)
	}
	b.settle()
	if got := b.tile(0); got.Stale {
		t.Errorf("sag tile %+v is still stale", got)
	}
}

func TestUnitsInTheWindow(t *testing.T) {
	b := openBench(t, t.TempDir())
	design := encoded(t, b.session.Now().Design)
	b.choose("View", "Inches to 1/32")
	if got := b.tile(0).Unit; got != "in" {
		t.Errorf("sag in %q; want in", got)
	}
	if got := b.tile(1).Unit; got != "lb" {
		t.Errorf("weight in %q; want lb", got)
	}
	for range 100 {
		b.choose("View", "Millimetres")
		b.choose("View", "Inches to 1/64")
	}
	if got := encoded(t, b.session.Now().Design); got != design {
		t.Error("a hundred changes of unit changed the design")
	}
	if b.session.Now().Dirty {
		t.Error("a change of unit made the design look changed")
	}
	if got := b.desk.store.settings().Lengths; got != (length.Format{Imperial: true, Denominator: 64}) {
		t.Errorf("remembered %+v; want inches to 1/64", got)
	}
}

func TestBlockedDesignKeepsTheDrawing(t *testing.T) {
	b := openBench(t, t.TempDir())
	figure := b.view.drawing.board.Figure()
	b.session.Edit("core", "coreDepth", func(d *engine.Design) { d.CoreDepth = -5 })
	b.settle()
	if got := b.view.drawing.board.Figure(); len(got.Areas) != len(figure.Areas) {
		t.Errorf("%d areas drawn; want the %d of the last good design", len(got.Areas), len(figure.Areas))
	}
	if !b.view.drawing.note.Visible() || !strings.Contains(b.view.drawing.note.Text(), "last design") {
		t.Error("nothing says that the drawing is of an older design")
	}
	if got := b.view.status.problems.Text; !strings.Contains(got, "■") {
		t.Errorf("the status line says %q; want a blocking problem", got)
	}
	for i := range b.view.strip.tiles {
		if got := b.tile(i).Value; got != "–" {
			t.Errorf("tile %d shows %s of a design that has no figures", i, got)
		}
	}
	b.choose("File", "Export packet")
	b.press("Export")
	if got := b.dialogText(); !strings.Contains(got, "[Close]") || !strings.Contains(got, "■") {
		t.Errorf("exporting it answers %q; want the problem", got)
	}
	b.press("Close")
	b.session.Undo()
	b.settle()
	if b.view.drawing.note.Visible() {
		t.Error("the note stays after the design is good again")
	}
}

func TestSelectionIsShared(t *testing.T) {
	b := openBench(t, t.TempDir())
	areas := len(b.view.drawing.board.Figure().Areas)
	b.view.drawing.board.OnSelect("L1")
	if got := b.session.Focus().Part; got != "L1" {
		t.Errorf("picked in the drawing: %q; want L1", got)
	}
	if got := len(b.view.drawing.board.Figure().Areas); got <= areas {
		t.Errorf("%d areas after picking a rib; want its elevation beside the %d", got, areas)
	}
	b.view.drawing.board.OnHover("top")
	if got := b.view.status.part.Text; !strings.Contains(strings.ToLower(got), "top skin") {
		t.Errorf("the status line says %q; want the top skin", got)
	}
	b.session.Select("C1")
	if got := b.view.drawing.board.Selected(); got != "C1" {
		t.Errorf("the drawing marks %q; want C1", got)
	}
}

// The window must fit a screen of 1024 × 640 at scale 1: the menu bar takes
// some 30 of the height and is no part of the content.
func TestWindowFitsSmallScreens(t *testing.T) {
	b := openBench(t, t.TempDir())
	for _, f := range []length.Format{{}, {Imperial: true, Denominator: 64}} {
		b.session.SetLengths(f)
		b.settle()
		if got := b.desk.win.Content().MinSize(); got.Width > 1024 || got.Height > 600 {
			t.Errorf("the content needs %v; want at most 1024 × 600", got)
		}
	}
	b.session.Edit("name", "", func(d *engine.Design) {
		d.Name = strings.Repeat("a very long name ", 20)
		d.Length, d.CoreDepth = 1e6, -3
	})
	b.settle()
	if got := b.desk.win.Content().MinSize(); got.Width > 1024 || got.Height > 600 {
		t.Errorf("with long texts the content needs %v; want at most 1024 × 600", got)
	}
}

func TestPanesFollowTheWidth(t *testing.T) {
	b := openBench(t, t.TempDir())
	for _, tc := range []struct {
		size   fyne.Size
		beside bool
	}{
		{fyne.NewSize(1024, 610), false},
		{fyne.NewSize(1199, 700), false},
		{fyne.NewSize(1366, 740), true},
		{fyne.NewSize(3840, 2130), true},
		{fyne.NewSize(1100, 670), false},
	} {
		b.desk.win.Resize(tc.size)
		board, form := b.view.drawing.board.Size(), b.view.form.content.Size()
		results := b.view.side
		if got := b.view.acts.shown().panes.inner.Horizontal; got != tc.beside {
			t.Errorf("at %v the results stand beside the drawing: %v; want %v", tc.size, got, tc.beside)
		}
		if board.Width < tc.size.Width/2 {
			t.Errorf("at %v the drawing is %v wide; want at least half", tc.size, board.Width)
		}
		if form.Width < 290 || results.Size().Width < 350 || results.Size().Height < 130 || board.Height < 200 {
			t.Errorf("at %v: form %v, drawing %v, results %v; something is squeezed", tc.size, form, board, results.Size())
		}
	}
	b.choose("View", "Show or fold")
	if b.view.side.Visible() {
		t.Error("the results are still there after folding them")
	}
	test.Tap(b.view.strip.tiles[0])
	if !b.view.side.Visible() {
		t.Error("a pressed tile does not bring its explanation back")
	}
}

// Dragging a divider keeps the pane at that width while the window changes.
func TestPanesRememberDrags(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.desk.win.Resize(fyne.NewSize(1600, 800))
	b.view.acts.shown().panes.outer.SetOffset(400. / 1600)
	b.desk.win.Resize(fyne.NewSize(2000, 800))
	if got := b.view.form.content.Size().Width; got < 390 || got > 410 {
		t.Errorf("the form is %v wide after dragging it to 400 and widening the window", got)
	}
}

// Every command has a shortcut of its own, and none takes one that fields need.
func TestEveryCommandHasAShortcut(t *testing.T) {
	b := openBench(t, t.TempDir())
	seen := map[string]string{}
	for _, m := range b.desk.win.MainMenu().Items {
		for _, entry := range m.Items {
			if entry.IsSeparator || entry.ChildMenu != nil {
				continue
			}
			shortcut, ok := entry.Shortcut.(fyne.KeyboardShortcut)
			if !ok {
				t.Errorf("%s > %s has no shortcut", m.Label, entry.Label)
				continue
			}
			pressed := fmt.Sprint(shortcut.Mod(), " ", shortcut.Key())
			if other := seen[pressed]; other != "" {
				t.Errorf("%s and %s share %s", other, entry.Label, pressed)
			}
			seen[pressed] = entry.Label
			if shortcut.Mod() != fyne.KeyModifierShortcutDefault {
				continue
			}
			switch shortcut.Key() {
			case fyne.KeyC, fyne.KeyV, fyne.KeyX, fyne.KeyA:
				t.Errorf("%s takes ctrl+%s from the fields", entry.Label, shortcut.Key())
			case fyne.KeyZ, fyne.KeyY: // as the toolkit names them, or the field gets them
				if _, ours := shortcut.(*desktop.CustomShortcut); ours {
					t.Errorf("%s on ctrl+%s would go to the focused field", entry.Label, shortcut.Key())
				}
			}
		}
	}
	if len(seen) < 20 {
		t.Errorf("only %d commands in the menus", len(seen))
	}
}

func TestAppearanceIsRemembered(t *testing.T) {
	dir := t.TempDir()
	b := openBench(t, dir)
	b.choose("View", "Dark")
	if got := (store{dir: dir}).settings().Appearance; got != alwaysDark {
		t.Errorf("remembered appearance %q; want dark", got)
	}
	if got := b.app.Settings().Theme().(*look).appearance; got != alwaysDark {
		t.Errorf("the theme is %q; want dark", got)
	}
	var marked []string
	for _, entry := range b.view.menu.appearances {
		if entry.Checked {
			marked = append(marked, entry.Label)
		}
	}
	if len(marked) != 1 || marked[0] != "Dark" {
		t.Errorf("the menu marks %v; want Dark alone", marked)
	}
}

func TestHelpOpens(t *testing.T) {
	b := openBench(t, t.TempDir())
	for _, tc := range [][2]string{{"Keys", "shift"}, {"What the numbers", "codes"}, {"About", "workbench"}} {
		b.choose("Help", tc[0])
		if got := b.dialogText(); !strings.Contains(strings.ToLower(got), tc[1]) {
			t.Errorf("Help > %s says %q; want %q in it", tc[0], got, tc[1])
		}
		b.press("Close")
	}
}

func TestTitle(t *testing.T) {
	for _, tc := range []struct {
		snap Snapshot
		want string
	}{
		{Snapshot{}, "Untitled - Flatwright"},
		{Snapshot{Design: engine.Design{Name: "Bench"}}, "Bench - Flatwright"},
		{Snapshot{Design: engine.Design{Name: "Bench"}, Dirty: true}, "Bench (changed) - Flatwright"},
		{Snapshot{Design: engine.Design{Name: "Bench"}, Path: filepath.Join("a", "b.flatwright"), Dirty: true}, "b.flatwright (changed) - Flatwright"},
	} {
		if got := title(tc.snap); got != tc.want {
			t.Errorf("title = %q; want %q", got, tc.want)
		}
	}
}

func TestScaleBar(t *testing.T) {
	for _, tc := range []struct {
		limit float64
		f     length.Format
		want  float64
	}{
		{700, length.Format{}, 500},
		{199, length.Format{}, 100},
		{0.3, length.Format{}, 1},
		{30, length.Format{Imperial: true}, 25.4},
		{700, length.Format{Imperial: true}, 24 * 25.4},
	} {
		if got, label := scaleBar(tc.limit, tc.f); math.Abs(got-tc.want) > 1e-9 || label == "" {
			t.Errorf("scaleBar(%v, %v) = %v, %q; want %v mm and a label", tc.limit, tc.f, got, label, tc.want)
		}
	}
}
