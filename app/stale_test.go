package app

import (
	"context"
	"slices"
	"strings"
	"sync"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"flatwright/engine"
	"flatwright/widgets"
)

// Steps of a held key are computed in a hurry, and once more as at rest when no
// other follows; both are results of the same design.
func TestNudgesSettleAtRest(t *testing.T) {
	var mu sync.Mutex
	var done []string
	named := func(name string) func(context.Context, engine.Design) (engine.Result, error) {
		return func(ctx context.Context, d engine.Design) (engine.Result, error) {
			mu.Lock()
			done = append(done, name)
			mu.Unlock()
			return weigh(ctx, d)
		}
	}
	s, _ := newTestSession(t, weigh)
	s.compute, s.quick = named("rest"), named("quick")
	for i := range 3 {
		s.Nudge("move load", "move load", func(d *engine.Design) { d.Length = float64(10 + i) })
	}
	waitIdle(t, s)
	if n := len(done); n < 2 || done[n-1] != "rest" || slices.Contains(done[:n-1], "rest") {
		t.Errorf("computed by %q; want quick, and rest once at the end", done)
	}
	if now := s.Now(); now.Stale || now.Finer || now.Result.Mass.Total != 12 {
		t.Errorf("stale %v, finer %v, mass %v; want the figures of 12, at rest", now.Stale, now.Finer, now.Result.Mass.Total)
	}
	done = nil
	s.Edit("length", "length", func(d *engine.Design) { d.Length = 20 })
	waitIdle(t, s)
	if !slices.Equal(done, []string{"rest"}) {
		t.Errorf("an ordinary edit is computed by %q; want rest", done)
	}
}

// While a field holds what cannot be read, the figures are marked as those of
// the design before; Escape and a readable text take the mark away.
func TestUnreadableFieldMarksTheFigures(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.desk.win.Resize(fyne.NewSize(1366, 740))
	b.session.ShowField("length")
	field := b.desk.win.Canvas().Focused()
	check := func(when string, marked bool) {
		t.Helper()
		b.settle()
		s := b.session.Now()
		if got := s.Unread == "Length"; got != marked {
			t.Errorf("%s: unread %q; want Length: %v", when, s.Unread, marked)
		}
		if got := strings.Contains(stateLine(s), "“Length” cannot be read"); got != marked {
			t.Errorf("%s: above the results stands %q", when, stateLine(s))
		}
		if got := strings.Contains(problemCount(s), "cannot be read"); got != marked {
			t.Errorf("%s: at the foot stands %q", when, problemCount(s))
		}
		if got := b.view.strip.tiles[0].Data().Old; got != marked {
			t.Errorf("%s: the sag's tile is marked %v", when, got)
		}
	}
	check("before", false)
	test.Type(field, "wide")
	check("typed", true)
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	check("Escape", false)
	test.Type(field, "1 8x")
	check("typed again", true)
	b.session.Open(engine.Demo(), "")
	check("another design", false)
}

// The bar of who does the work is in pencil while its shares are old.
func TestShareBarInPencil(t *testing.T) {
	lookApp(t)
	s := wholeMade()
	pane := &cardPane{opened: map[string]bool{}}
	v := newSharesView(pane)
	rows := workCard(s).blocks[1]
	for _, stale := range []bool{false, true, false} {
		s.Stale = stale
		v.update(rows, s)
		if v.bar.Stale() != stale {
			t.Errorf("the bar is stale %v; want %v", v.bar.Stale(), stale)
		}
	}
	s.Unread = "Length"
	v.update(rows, s)
	if !v.bar.Stale() {
		t.Error("the bar does not show that a field cannot be read")
	}
}

// The line above the cards keeps its place when it has nothing to say, so that
// the cards stay where they are while something is computed.
func TestStateLineKeepsItsPlace(t *testing.T) {
	lookApp(t)
	text := widgets.NewNote("", widgets.ColorNear)
	l := atLeastALine{}
	text.Resize(fyne.NewSize(340, 20))
	empty := l.MinSize([]fyne.CanvasObject{text}).Height
	s := handMade()
	s.Stale = true
	text.Set(stateLine(s), widgets.ColorNear)
	text.Resize(fyne.NewSize(336, 20))
	if full := l.MinSize([]fyne.CanvasObject{text}).Height; full != empty || !(empty > 10) {
		t.Errorf("the line is %v high with %q, %v without", full, stateLine(s), empty)
	}
}
