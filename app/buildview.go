package app

import (
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine"
	"flatwright/widgets"
)

// newBuildAct makes the act in which the top is glued up: one step at a time in
// large type, with clocks that run from what is noted.
func newBuildAct(s *Session, after func(time.Duration, func()) func(), warn func(text string, late bool)) (*act, *buildView) {
	var v *buildView
	form := newForm(s, func(f *form) []*group { return buildGroups(f, func() string { return v.lookedAt() }) })
	s.Watch(form.Show)
	v = &buildView{session: s, after: after, warn: warn, cards: newCardPane(s, func(snap Snapshot) []card { return buildCards(snap, s.clock()) }), hidden: true}
	v.step = newStepView(v)
	v.board = newPartsBoard(s)
	split := container.NewVSplit(v.step.content, v.board)
	content, panes := newPanes(form.content, container.New(&stepFirst{split: split}, split), v.cards.content)
	s.Watch(v.show)
	return &act{name: "Build", first: "log", form: form, board: func() *widgets.Board { return v.board }, panes: panes, content: content, hide: v.hide,
		cards: func() {
			panes.showResults(true)
			v.cards.takeFocus()
		}}, v
}

// stepFirst is a layout that gives the step the room that its longest text takes
// and the plan below it the rest. It leaves the plan out where the step's clock and
// buttons need the room, and a split that was dragged where it is.
type stepFirst struct {
	split  *container.Split
	offset float64 // that the layout gave the split last
}

// roomForPlan is the height of step and plan together from which both show,
// roomForStep what a step with four lines of text takes, mostStep the share of
// both that it takes at most.
const (
	roomForPlan = 400
	roomForStep = 310
	mostStep    = 0.6
)

// Layout gives the split all the room.
func (l *stepFirst) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	if visible := size.Height >= roomForPlan; visible != l.split.Trailing.Visible() {
		showIf(l.split.Trailing, visible)
		l.split.Refresh()
	}
	if l.offset == 0 || l.split.Offset == l.offset {
		l.offset = min(mostStep, float64(roomForStep/max(size.Height, 1)))
		l.split.Offset = l.offset
	}
	l.split.Move(fyne.Position{})
	l.split.Resize(size)
}

// MinSize is that of the step, which scrolls.
func (l *stepFirst) MinSize([]fyne.CanvasObject) fyne.Size { return l.split.Leading.MinSize() }

// buildView is the centre of the act Build: the step above, the panel with what
// was made otherwise below.
type buildView struct {
	session *Session
	after   func(time.Duration, func()) (stop func())
	step    *stepView
	board   *widgets.Board
	cards   *cardPane
	warn    func(text string, late bool) // is told what presses, "" for nothing

	hidden bool
	stop   func()    // of the next tick
	minute time.Time // that the cards show the times of
}

// lookedAt is the key of the step that shows, or of the one under way or next while
// none does.
func (v *buildView) lookedAt() string {
	if v.step.key != "" {
		return v.step.key
	}
	s := v.session.Now()
	c := s.Design.Clock(s.Result, v.session.clock())
	if c.Next < len(c.Steps) {
		return c.Steps[c.Next].Key
	}
	return ""
}

// tick is how often the clocks are shown anew.
const tick = time.Second

func (v *buildView) hide(hidden bool) {
	v.hidden = hidden
	v.cards.hide(hidden)
	v.show(v.session.Now())
}

// run shows the clocks once a second: the step's while somebody looks, and what
// presses, in the line at the foot, in whichever act that is.
func (v *buildView) run(s Snapshot) {
	text, late := v.warning(s)
	v.warn(text, late)
	if v.stop != nil {
		v.stop()
		v.stop = nil
	}
	if v.hidden && text == "" {
		return
	}
	v.stop = v.after(tick, func() {
		now := v.session.Now()
		if !v.hidden {
			v.step.show(now)
			v.turnMinute(now)
		}
		v.run(now)
	})
}

// turnMinute shows the cards anew once a minute: the times of steps ahead move on
// while nothing happens.
func (v *buildView) turnMinute(s Snapshot) {
	if minute := v.session.clock().Truncate(time.Minute); !minute.Equal(v.minute) {
		v.minute = minute
		v.cards.Show(s)
	}
}

// warning says what presses, with its shape; "" if nothing does.
func (v *buildView) warning(s Snapshot) (text string, late bool) {
	if len(s.Design.Log) == 0 || s.Result.Blocked() {
		return "", false
	}
	now := v.session.clock()
	text, late = s.Design.Clock(s.Result, now).Warning(now)
	if text != "" {
		text = either(late, "■ ", "▲ ") + text
	}
	return text, late
}

func (v *buildView) show(s Snapshot) {
	v.run(s)
	if v.hidden || s.Result.Blocked() {
		return
	}
	v.step.show(s)
	if !s.Stale {
		v.board.SetFigure(engine.GluingPlan(s.Design, s.Result, s.Lengths))
	}
}

// stepView shows one build step in large type.
type stepView struct {
	view    *buildView
	which   *widgets.Text
	name    *widgets.Text
	text    *widgets.Text
	clock   *widgets.Text
	press   *widgets.Text // what presses: open glue
	begin   *widget.Button
	done    *widget.Button
	back    *widget.Button
	ahead   *widget.Button
	note    *wordsEntry
	column  *fyne.Container
	content fyne.CanvasObject

	shown int // index of the step that shows; -1 is the one that comes next
	key   string
}

func newStepView(v *buildView) *stepView {
	w := &stepView{view: v, shown: -1, which: widgets.NewNote("", widgets.ColorPencil), name: widgets.NewFigure(""), text: widgets.NewHeading(""),
		clock: widgets.NewFigure(""), press: widgets.NewFigure("")}
	s := v.session
	mark := func(label string, change func(d *engine.Design, key string, at time.Time)) func() {
		return func() {
			key, at := w.key, s.clock()
			s.Edit(label, "", func(d *engine.Design) { change(d, key, at) })
		}
	}
	w.begin = widget.NewButton("Begin this step", mark("begun step", func(d *engine.Design, key string, at time.Time) { d.Begin(key, at) }))
	w.done = widget.NewButton("Step is done", func() {
		mark("finished step", func(d *engine.Design, key string, at time.Time) { d.Finish(key, at) })()
		w.shown = -1
		w.show(s.Now())
	})
	w.back = widget.NewButton("Step before", func() { w.turn(-1) })
	w.ahead = widget.NewButton("Next step", func() { w.turn(1) })
	w.note = newWordsEntry(func(bool) {})
	w.note.most = 1000
	w.note.PlaceHolder = "Remarks: what was tight, what ran out, who helped"
	w.note.OnChanged = func(text string) {
		key := w.key
		s.Edit("remark", "log."+key, func(d *engine.Design) { d.Remark(key, text) })
	}
	row := container.NewHBox(w.begin, w.done, w.back, w.ahead)
	// The buttons stand above what grows and shrinks: none slips away from under a
	// finger when a clock takes a second line.
	w.column = container.New(widgets.NewColumn(8), w.which, w.name, row, w.clock, w.press, w.text, w.note)
	w.content = widgets.NewPane(container.New(margins{side: 16, top: 8, bottom: 8}, w.column), 240)
	return w
}

// turn shows the step before or after.
func (w *stepView) turn(by int) {
	s := w.view.session.Now()
	clock := s.Design.Clock(s.Result, w.view.session.clock())
	at := w.shown
	if at < 0 {
		at = min(clock.Next, len(clock.Steps)-1)
	}
	w.shown = min(max(at+by, 0), len(clock.Steps)-1)
	w.show(s)
}

// show brings texts, clocks and buttons up to date.
func (w *stepView) show(s Snapshot) {
	now := w.view.session.clock()
	c := s.Design.Clock(s.Result, now)
	if len(c.Steps) == 0 {
		return
	}
	at := w.shown
	if at < 0 || at >= len(c.Steps) {
		at = min(c.Next, len(c.Steps)-1)
	}
	step := c.Steps[at]
	w.key = step.Key
	height := w.height()
	w.which.Set("Step "+strconv.Itoa(at+1)+" of "+strconv.Itoa(len(c.Steps))+stateWords(step), widgets.ColorPencil)
	w.name.Set(step.Name, widgets.ColorInk)
	w.text.Set(inUnit(step.Text, s.Lengths), widgets.ColorInk)
	w.clock.Set(clockWords(step, c, now), widgets.ColorInk)
	text, late := w.view.warning(s)
	colour := widgets.ColorNear
	if late {
		colour = widgets.ColorOver
	}
	w.press.Set(text, colour)
	if w.height() != height {
		w.column.Refresh() // or a third line lies under what stands below
	}
	w.note.set(step.Note)
	enable(w.begin, step.State != engine.StepUnderWay)
	enable(w.done, step.State != engine.StepDone)
	enable(w.back, at > 0)
	enable(w.ahead, at+1 < len(c.Steps))
	w.begin.SetText(map[bool]string{false: "Begin this step", true: "Begin it again"}[step.State == engine.StepDone])
	primary(w.begin, step.State == engine.StepAhead)
	primary(w.done, step.State == engine.StepUnderWay)
}

// height is how high the texts are together, at the width they have.
func (w *stepView) height() float32 {
	h := float32(0)
	for _, t := range []*widgets.Text{w.which, w.name, w.clock, w.press, w.text} {
		h += t.MinSize().Height
	}
	return h
}

// stateWords say how far a step is.
func stateWords(s engine.ClockStep) string {
	switch s.State {
	case engine.StepUnderWay:
		return ", begun at " + engine.ClockText(s.Began)
	case engine.StepDone:
		return ", done at " + engine.ClockText(s.Ended)
	}
	return ", not begun"
}

// clockWords say how long a step takes yet, or when it was over.
func clockWords(s engine.ClockStep, c engine.BuildClock, now time.Time) string {
	switch {
	case s.State == engine.StepDone && c.Next == len(c.Steps):
		return "All steps are done. Nothing heavy on it before " + engine.DayText(c.LoadFrom) + "."
	case s.State == engine.StepDone:
		return "Done."
	case s.State == engine.StepAhead:
		return minutesText(s.Low, s.High) + ", from " + engine.DayText(s.Began) + " at the earliest"
	case s.Wait && now.Before(s.Early):
		return "Leave it alone for another " + engine.LeftText(s.Early.Sub(now)) + ", better " + engine.LeftText(s.Late.Sub(now)) + ": until " + engine.DayText(s.Late)
	case s.Wait && now.Before(s.Late):
		return "The shortest time is over; better wait another " + engine.LeftText(s.Late.Sub(now)) + ", until " + engine.DayText(s.Late)
	case s.Wait:
		return "The time has been over since " + engine.DayText(s.Late) + "."
	}
	return engine.LeftText(now.Sub(s.Began)) + " so far, of " + minutesText(s.Low, s.High)
}

func enable(b *widget.Button, on bool) {
	if on == b.Disabled() {
		if on {
			b.Enable()
		} else {
			b.Disable()
		}
	}
}

func primary(b *widget.Button, on bool) {
	importance := widget.MediumImportance
	if on {
		importance = widget.HighImportance
	}
	if b.Importance != importance {
		b.Importance = importance
		b.Refresh()
	}
}
