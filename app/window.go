package app

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"flatwright/widgets"
)

// startSize is the window's first size, in the toolkit's units.
var startSize = fyne.NewSize(1366, 768)

// view is the regions of the window.
type view struct {
	strip   *strip
	form    *form
	drawing *drawing
	results *cardPane
	why     *cardPane
	side    *widgets.Tabs // both
	status  *status
	menu    *menu
	cut     *cutAct
	glue    *glueAct
	build   *buildView
	prove   *proveView
	acts    *actRow
}

// setUp is what a window is made with.
type setUp struct {
	app   fyne.App
	store store
	pid   int
	after func(time.Duration, func()) (stop func())
}

// open makes the window around a session, without showing it.
func open(s *Session, with setUp) (*desk, *view) {
	win := with.app.NewWindow("Flatwright")
	d := &desk{session: s, win: win, store: with.store, settings: with.store.settings()}
	d.auto = &autosave{session: s, store: with.store, pid: with.pid, after: with.after, failed: func(err error) {
		showTrouble(win, "The design could not be put aside.", "It is open with all its changes, but a crash would lose them. Save it.", err)
	}}
	with.app.Settings().SetTheme(&look{appearance: d.settings.Appearance})
	s.SetLengths(normal(d.settings.Lengths))

	v := &view{}
	s.WatchFocus(func(f Focus) {
		if v.acts != nil {
			v.acts.showOwner(f.Field) // before its form puts the cursor there
		}
	})
	var cut *act
	cut, v.cut = newCutAct(s, d.keepLeftovers)
	var glue, build *act
	glue, v.glue = newGlueAct(s)
	v.status = newStatus(s, v.goProblems)
	build, v.build = newBuildAct(s, with.after, v.status.warn)
	var prove *act
	prove, v.prove = newProveAct(s)
	v.acts = newActRow([]*act{v.newDesignAct(s), cut, glue, build, prove})
	v.strip = newStrip(s, v.acts.words, v.explain, d.startFromSize)
	top := container.NewVBox(v.strip.content, widget.NewSeparator())
	foot := container.NewVBox(widget.NewSeparator(), v.status.content)
	win.SetContent(container.NewBorder(top, foot, nil, nil, v.acts.content))

	v.menu = newMenu(d, v.commands(d, with.app))
	d.changed = func() { v.menu.show(s.Now()) }
	d.auto.watch()
	d.watchShop()
	s.Watch(func(snap Snapshot) {
		if t := title(snap); t != win.Title() {
			win.SetTitle(t)
		}
	})
	win.Canvas().SetOnTypedKey(func(key *fyne.KeyEvent) {
		if key.Name == fyne.KeyEscape && !escaped(win) {
			s.Select("")
		}
	})
	win.SetOnDropped(d.dropped)
	win.SetCloseIntercept(d.close)
	win.SetPadded(false)
	win.Resize(startSize)
	win.SetMaster()
	return d, v
}

// newDesignAct makes the act in which the top is decided.
func (v *view) newDesignAct(s *Session) *act {
	v.form = newForm(s, designGroups)
	s.Watch(v.form.Show)
	v.drawing = newDrawing(s)
	v.newSide(s)
	content, panes := newPanes(v.form.content, v.drawing.content, v.side)
	return &act{name: "Design", first: "length", form: v.form, board: func() *widgets.Board { return v.drawing.board }, panes: panes, content: content,
		cards: v.goResults,
		hide: func(hidden bool) {
			v.drawing.hide(hidden)
			v.hideSide(hidden)
		}}
}

// commands are the commands that move about the window.
func (v *view) commands(d *desk, app fyne.App) commands {
	return commands{
		acts:          v.acts,
		startFromSize: d.startFromSize,
		zoomIn:        func() { v.acts.shown().board().ZoomIn() },
		zoomOut:       func() { v.acts.shown().board().ZoomOut() },
		fit:           func() { v.acts.shown().board().Fit() },
		goForm:        func() { d.session.ShowField(v.acts.shown().first) },
		goDrawing:     func() { d.win.Canvas().Focus(v.acts.shown().board()) },
		goResults:     func() { v.acts.shown().cards() },
		goWhy:         v.goWhy,
		goProblems:    v.goProblems,
		toggleResults: func() { v.acts.shown().panes.toggleResults() },
		toggleMap:     v.drawing.toggleMap,
		toggleSagged:  v.drawing.toggleSagged,
		leastSag:      d.leastSag,
		setAppearance: func(a appearance) {
			d.keep(func(s *Settings) { s.Appearance = a })
			app.Settings().SetTheme(&look{appearance: a})
		},
		showKeys:    func() { showKeys(d.win) },
		showLeftOut: func() { showLeftOut(d.win) },
		showAbout:   func() { showAbout(d.win, app.Metadata().Version) },
	}
}

// newSide makes the tabs of the right pane.
func (v *view) newSide(s *Session) {
	v.results, v.why = newCardPane(s, resultCards), newCardPane(s, whyCards)
	v.side = widgets.NewTabs([]string{"Results", "Why"}, []fyne.CanvasObject{v.results.content, v.why.content})
	v.side.OnChange = v.showSide
	v.showSide(0)
}

// showSide brings a tab of the right pane to the fore.
func (v *view) showSide(i int) {
	v.side.ShowTab(i)
	v.hideSide(false)
}

// hideSide says whether the right pane is behind another act; of its tabs only
// the one in front is kept up to date.
func (v *view) hideSide(hidden bool) {
	for j, p := range []*cardPane{v.results, v.why} {
		p.hide(hidden || j != v.side.Shown())
	}
}

// explain brings the card of that title into view.
func (v *view) explain(card string) {
	v.toDesign(0)
	v.results.reveal(card)
}

func (v *view) goProblems() { v.explain("Problems") }

// toDesign shows the act Design with a tab of its right pane.
func (v *view) toDesign(tab int) {
	v.acts.show(0)
	v.acts.shown().panes.showResults(true)
	v.showSide(tab)
}

func (v *view) goResults() {
	v.toDesign(0)
	v.results.takeFocus()
}

func (v *view) goWhy() {
	v.toDesign(1)
	v.why.takeFocus()
}

// reveal scrolls to the card of that title.
func (r *cardPane) reveal(title string) {
	for _, c := range r.cards {
		if c.title == title {
			r.scroll.ScrollToOffset(fyne.NewPos(0, c.object.Position().Y))
			return
		}
	}
}

// takeFocus gives the keyboard to the first line that can be pressed.
func (r *cardPane) takeFocus() {
	c := fyne.CurrentApp().Driver().CanvasForObject(r.content)
	if c == nil {
		return
	}
	for _, card := range r.cards {
		for _, line := range card.list.views {
			if pressable, ok := line.canvasObject().(*widgets.Pressable); ok {
				c.Focus(pressable)
				return
			}
		}
	}
}
