package app

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"flatwright/engine"
	"flatwright/widgets"
)

// buildAct is the act Build brought to the fore, at a moment of the test's own.
func (b *bench) buildAct(now *time.Time) *buildView {
	b.session.clock = func() time.Time { return *now }
	b.choose("Go", "Build")
	return b.view.build
}

// A whole build by its buttons: steps begin and end at the clock's time, the
// open time presses, and nothing is lost by undo.
func TestBuildStepByStep(t *testing.T) {
	b := openBench(t, t.TempDir())
	now := time.Date(2026, 5, 2, 9, 0, 0, 0, time.UTC)
	v := b.buildAct(&now)
	steps := b.session.Now().Result.Build.Steps
	for i, s := range steps {
		if v.step.key != s.Key {
			t.Fatalf("step %d shows %s; want %s", i+1, v.step.key, s.Key)
		}
		test.Tap(v.step.begin)
		b.settle()
		if s.Spreads {
			now = now.Add(time.Hour)
			v.step.show(b.session.Now())
			if text := v.step.press.Text(); !strings.Contains(text, "has been over since") {
				t.Errorf("an hour after %s it says %q", s.Name, text)
			}
		}
		now = now.Add(time.Minute)
		test.Tap(v.step.done)
		b.settle()
	}
	c := b.session.Now().Design.Clock(b.session.Now().Result, now)
	if c.Next != len(steps) {
		t.Errorf("%d of %d steps are done", c.Next, len(steps))
	}
	if text := v.step.clock.Text(); !strings.Contains(text, "All steps are done") {
		t.Errorf("at the end it says %q", text)
	}
	b.session.Undo()
	b.settle()
	if c := b.session.Now().Design.Clock(b.session.Now().Result, now); c.Next != len(steps)-1 {
		t.Errorf("after an undo %d steps are done; want %d", c.Next, len(steps)-1)
	}
}

// The clock runs while somebody looks and not while nobody does.
func TestBuildClockTicks(t *testing.T) {
	b := openBench(t, t.TempDir())
	now := time.Date(2026, 5, 2, 23, 59, 0, 0, time.UTC)
	v := b.buildAct(&now)
	test.Tap(v.step.begin)
	b.settle()
	before := v.step.clock.Text()
	now = now.Add(2 * time.Minute)
	b.ring()
	if after := v.step.clock.Text(); after == before || !strings.Contains(after, "2:00 min so far") {
		t.Errorf("two minutes later, over midnight, it says %q; before %q", after, before)
	}
	next := v.cards.cards[0].list.views[1].(*lineView)
	shown := next.block.note
	now = now.Add(3 * time.Hour)
	b.ring()
	if next.block.note == shown {
		t.Errorf("three hours later the card still has the second step %q", shown)
	}
	b.choose("Go", "Design")
	b.ring()
	for _, timer := range b.timers {
		if timer.wait == tick && !timer.stopped {
			t.Error("the clock ticks though nobody looks")
		}
	}
}

// Open glue presses in whichever act somebody looks at, and also when the design
// is opened again.
func TestOpenGluePressesEverywhere(t *testing.T) {
	b := openBench(t, t.TempDir())
	now := time.Date(2026, 5, 2, 9, 0, 0, 0, time.UTC)
	b.session.clock = func() time.Time { return now }
	pressing := b.view.status.pressing
	if pressing.Visible() {
		t.Errorf("before anything is spread it says %q", pressing.Text())
	}
	d := b.session.Now().Design.Clone()
	d.Begin("spread-bottom", now)
	b.session.Open(d, "")
	b.settle()
	if !strings.Contains(pressing.Text(), "Glue lies open") || !pressing.Visible() {
		t.Errorf("in the act %s it says %q", b.view.acts.shown().name, pressing.Text())
	}
	now = now.Add(time.Hour)
	b.ring()
	if !strings.Contains(pressing.Text(), "has been over since") {
		t.Errorf("an hour later it says %q", pressing.Text())
	}
	b.session.Edit("clamped", "", func(d *engine.Design) { d.Finish("spread-bottom", now); d.Finish("clamp-bottom", now) })
	b.settle()
	if pressing.Visible() {
		t.Errorf("clamped it still says %q", pressing.Text())
	}
}

// In the smallest window the step has the room that the plan would take.
func TestSmallWindowShowsTheStep(t *testing.T) {
	b := openBench(t, t.TempDir())
	now := time.Date(2026, 5, 2, 9, 0, 0, 0, time.UTC)
	v := b.buildAct(&now)
	for _, tc := range []struct {
		size fyne.Size
		plan bool
	}{{fyne.NewSize(1366, 768), true}, {fyne.NewSize(1024, 640), false}, {fyne.NewSize(1366, 768), true}} {
		b.desk.win.Resize(tc.size)
		if got := v.board.Visible(); got != tc.plan {
			t.Errorf("at %v the plan shows: %v; want %v", tc.size, got, tc.plan)
		}
	}
}

// Remarks are kept with the step, and come back after the program has been away.
func TestRemarksAreKept(t *testing.T) {
	b := openBench(t, t.TempDir())
	now := time.Date(2026, 5, 2, 9, 0, 0, 0, time.UTC)
	v := b.buildAct(&now)
	b.desk.win.Canvas().Focus(v.step.note)
	test.Type(v.step.note, "C4 tight")
	b.settle()
	d := b.session.Now().Design
	b.session.Open(d, "")
	b.settle()
	if got := v.step.note.Text; got != "C4 tight" {
		t.Errorf("opened again the step notes %q", got)
	}
}

// What goes wrong is marked from the form and told what to do about.
func TestSomethingWentWrong(t *testing.T) {
	b := openBench(t, t.TempDir())
	now := time.Date(2026, 5, 2, 9, 0, 0, 0, time.UTC)
	b.buildAct(&now)
	form := b.view.acts.shown().form
	var mark fyne.CanvasObject
	for _, l := range form.groups[0].lines {
		if e, ok := l.object.(*explained); ok && l.path == "" {
			mark = e.content
		}
	}
	test.Tap(mark.(*formButton))
	b.settle()
	s := b.session.Now()
	if len(s.Design.Built) != s.Design.Lengthwise.Count || s.Design.Built[0].Kind != engine.SlotDeeper {
		t.Fatalf("marked: %+v", s.Design.Built)
	}
	if note := s.Design.Clock(s.Result, now).Steps[0].Note; !strings.Contains(note, "too deep") {
		t.Errorf("the step notes %q", note)
	}
	m, _ := engine.MishapOf("skin-slid")
	form.suffer(m, engine.BottomSeam, anySkin, "dry")
	b.settle()
	if got := b.session.Now().Design; len(got.Built) != len(s.Design.Built)+1 || !strings.HasSuffix(got.Log[0].Note, "; the skin slid: bottom") {
		t.Errorf("a skin that slid: %d marks, %+v", len(got.Built), got.Log)
	}
	b.view.build.step.turn(3) // from any step: it is noted at the one that shows
	test.Tap(mark.(*formButton))
	b.settle()
	if log := b.session.Now().Design.Log; len(log) != 2 || log[1].Step != s.Result.Build.Steps[3].Key || !strings.Contains(log[1].Note, "too deep") {
		t.Errorf("marked at the fourth step: %+v", log)
	}
	if c := mendCard(s); len(c.blocks) == 0 || c.blocks[0].kind != kindFold || !strings.Contains(c.blocks[0].text, "L1, L2") {
		t.Errorf("what can be done: %+v", c.blocks)
	}
}

// The lines of a step never lie on each other, however its text and clock grow and
// shrink, and its buttons stay where they are.
func TestStepTextsKeepApart(t *testing.T) {
	b := openBench(t, t.TempDir())
	now := time.Date(2026, 5, 2, 9, 0, 0, 0, time.UTC)
	v := b.buildAct(&now)
	b.desk.win.Resize(fyne.NewSize(1366, 768))
	buttons := v.step.begin.Position()
	apart := func(when string) {
		t.Helper()
		end := float32(0)
		for _, o := range v.step.column.Objects {
			if o.MinSize().Height == 0 {
				continue
			}
			if o.Position().Y < end || o.Size().Height < o.MinSize().Height {
				t.Errorf("%s: something %v high at %v lies on what ends at %v, or is cut", when, o.MinSize().Height, o.Position().Y, end)
			}
			end = o.Position().Y + o.Size().Height
		}
		if v.step.begin.Position() != buttons {
			t.Errorf("%s: the buttons moved from %v to %v", when, buttons, v.step.begin.Position())
		}
	}
	for range b.session.Now().Result.Build.Steps {
		name := v.step.name.Text()
		apart(name + " ahead")
		test.Tap(v.step.begin)
		b.settle()
		apart(name + " begun")
		now = now.Add(20 * time.Minute)
		v.step.show(b.session.Now())
		apart(name + " for 20 minutes")
		test.Tap(v.step.done)
		b.settle()
	}
}

// Clamps that come off before the glue's shortest time are no step like any other.
func TestShortClampingIsTold(t *testing.T) {
	b := openBench(t, t.TempDir())
	now := time.Date(2026, 5, 2, 9, 0, 0, 0, time.UTC)
	v := b.buildAct(&now)
	for _, minutes := range []time.Duration{1, 300} {
		b.session.Edit("clamped", "", func(d *engine.Design) {
			d.Log = nil
			d.Begin("hold-bottom", now)
			d.Finish("hold-bottom", now.Add(minutes*time.Minute))
		})
		b.settle()
		text := cardTexts(buildCards(b.session.Now(), now))
		if told := strings.Contains(text, "cut short: the glue asks for"); told != (minutes == 1) {
			t.Errorf("after %d minutes it is told: %v\n%s", minutes, told, text)
		}
	}
	if v.step.key == "" {
		t.Error("no step shows")
	}
}

// What to do at once is told in the person's own unit, also after a change of it.
func TestMishapIsToldInOwnUnits(t *testing.T) {
	b := openBench(t, t.TempDir())
	now := time.Date(2026, 5, 2, 9, 0, 0, 0, time.UTC)
	b.buildAct(&now)
	texts := func() string {
		var out strings.Builder
		for _, o := range b.view.acts.shown().form.groups[0].body.Objects {
			if text, ok := o.(*widgets.Text); ok {
				out.WriteString(text.Text() + "\n")
			}
		}
		return out.String()
	}
	if got := texts(); !strings.Contains(got, "2 mm more than drawn") {
		t.Fatalf("in millimetres it says %q", got)
	}
	b.choose("View", "Inches to 1/16")
	b.settle()
	if got := texts(); strings.Contains(got, " mm ") || !strings.Contains(got, "1/16\" more than drawn") {
		t.Errorf("in inches it says %q; want 1/16: 2 mm are 1.26 sixteenths", got)
	}
}
