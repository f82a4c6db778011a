package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// line is one field of the form.
type line struct {
	path    string // JSON path of what it edits; buttons have none
	help    string // explanation of the rarer words
	object  fyne.CanvasObject
	alias   func(engine.Design) string // what the engine calls path, where its name may change
	group   *group
	inside  *widgets.Fold // fold within the group that may hide it
	focused bool

	show       func(Snapshot)
	setProblem func(string)
	problem    func() string // what is said under the field
	focus      func()
}

// builder collects the fields of one group.
type builder struct {
	form      *form
	lines     []*line
	objects   []fyne.CanvasObject
	inside    *widgets.Fold
	summaries map[*widgets.Fold]string // of the folds within the group
}

func (b *builder) place(o fyne.CanvasObject) { b.objects = append(b.objects, o) }

// add puts a line below the others.
func (b *builder) add(l *line) {
	b.keep(l)
	b.place(l.object)
}

func (b *builder) keep(l *line) {
	l.inside = b.inside
	b.lines = append(b.lines, l)
}

func (b *builder) heading(text string) { b.place(widgets.NewText(text, widgets.ColorPencil)) }

// fold puts what make adds into a fold of its own, closed at first. summary says
// what is inside.
func (b *builder) fold(name, summary string, make func(b *builder)) {
	inner := container.New(widgets.NewColumn(8))
	fold := widgets.NewFold(name, inner)
	fold.SetOpen(false)
	fold.OnToggled = func(bool) { b.form.column.Refresh() }
	fold.OnFocus = func(focused bool) {
		if focused {
			b.form.pane.Reveal(fold)
		}
	}
	b.summaries[fold] = summary
	part := &builder{form: b.form, inside: fold, summaries: b.summaries}
	make(part)
	inner.Objects = part.objects
	b.lines = append(b.lines, part.lines...)
	b.place(fold)
}

// finish gives a line its label and its sentence of trouble.
func (f *form) finish(l *line, label string, control fyne.CanvasObject, beside bool) *line {
	field := widgets.NewField(label, control)
	if beside {
		field = widgets.NewFieldBeside(label, control)
	}
	l.object = newExplained(f, l, field)
	l.setProblem = field.SetProblem
	l.problem = field.Problem
	return l
}

// spec is what a field is about.
type spec struct {
	path  string
	label string // in front of the field
	edit  string // what Undo says; the label if empty
	help  string
}

func (s spec) undo() string {
	if s.edit != "" {
		return s.edit
	}
	return s.label
}

// value is a field for a quantity. at points into the design, or is nil where
// the design has no such thing any more.
func (f *form) value(s spec, q quantity, at func(*engine.Design) *float64) *line {
	return f.valueOf(s, q, func(d *engine.Design) (float64, bool) {
		if p := at(d); p != nil {
			return *p, true
		}
		return 0, false
	}, func(d *engine.Design, v float64) {
		if p := at(d); p != nil {
			*p = v
		}
	})
}

// count is a field for a number of things, which are shown from first on.
func (f *form) count(s spec, first int, at func(*engine.Design) *int) *line {
	return f.valueOf(s, wholeNumber, func(d *engine.Design) (float64, bool) {
		if p := at(d); p != nil {
			return float64(*p + first), true
		}
		return 0, false
	}, func(d *engine.Design, v float64) {
		if p := at(d); p != nil {
			*p = int(v) - first
		}
	})
}

func (f *form) valueOf(s spec, q quantity, get func(*engine.Design) (float64, bool), set func(*engine.Design, float64)) *line {
	l := &line{path: s.path, help: s.help}
	e := widgets.NewValueEntry(
		func(text string) (float64, error) { return q.parse(text, f.lengths) },
		func(v float64) string { return q.print(v, f.lengths) },
		func(v float64, up, coarse bool) float64 { return q.step(v, f.lengths, up, coarse) })
	e.OnChanged = func(v float64) {
		f.session.Edit(s.undo(), s.path, func(d *engine.Design) { set(d, v) })
	}
	e.OnFocus = func(focused bool) { f.focusChanged(l, focused) }
	e.OnDoubt = func(doubted bool) { f.session.Doubt(s.path, s.label, doubted) }
	l.focus = func() {
		if c := f.canvas(); c != nil {
			e.FocusOn(c)
		}
	}
	l.show = func(snap Snapshot) {
		if v, ok := get(&snap.Design); ok {
			e.SetUnit(q.unit(snap.Lengths))
			e.SetValue(v)
		}
	}
	return f.finish(l, s.label, e, true)
}

// option is one choice: what the design stores and what people read.
type option struct{ key, label string }

// choice is a field with options to choose from.
func (f *form) choice(s spec, options func(Snapshot) []option, get func(engine.Design) string, set func(*engine.Design, string)) *line {
	return f.question(s, options, func(snap Snapshot) string { return get(snap.Design) }, func(key string) {
		f.session.Edit(s.undo(), s.path, func(d *engine.Design) { set(d, key) })
	})
}

// question is a choice whose answer need not be of the design.
func (f *form) question(s spec, options func(Snapshot) []option, get func(Snapshot) string, set func(key string)) *line {
	l := &line{path: s.path, help: s.help}
	var now []option
	box := newChoiceBox(func(focused bool) { f.focusChanged(l, focused) })
	box.OnChanged = func(label string) {
		for _, o := range now {
			if o.label == label {
				set(o.key)
				return
			}
		}
	}
	l.focus = func() { f.focusOn(box) }
	whole := widgets.NewNote("", widgets.ColorPencil)
	l.show = func(snap Snapshot) {
		now = options(snap)
		box.set(now, get(snap))
		whole.Set(box.cutOff(), widgets.ColorPencil)
	}
	f.finish(l, s.label, box, false)
	l.object = container.New(widgets.NewColumn(2), l.object, whole)
	return l
}

// text is a field for words.
func (f *form) text(s spec, at func(*engine.Design) *string) *line {
	l := &line{path: s.path, help: s.help}
	e := newWordsEntry(func(focused bool) { f.focusChanged(l, focused) })
	e.OnChanged = func(text string) {
		f.session.Edit(s.undo(), s.path, func(d *engine.Design) {
			if p := at(d); p != nil {
				*p = text
			}
		})
	}
	l.focus = func() { f.focusOn(e) }
	l.show = func(snap Snapshot) {
		if p := at(&snap.Design); p != nil {
			e.set(*p)
		}
	}
	return f.finish(l, s.label, clipped(e), false)
}

// read is a field whose text means something only as a whole, a list or a
// date: it is read when the field is left or Return pressed. parse returns the
// change it asks for, or what is wrong with it in words.
func (f *form) read(s spec, print func(Snapshot) string, parse func(text string) (func(*engine.Design), error)) *line {
	l := &line{path: s.path, help: s.help}
	var e *wordsEntry
	var field func(string)
	trouble, told, shown := "", "", ""
	var shownIn length.Format
	commit := func() {
		if e.Text == shown {
			trouble = ""
		} else if change, err := parse(e.Text); err != nil {
			trouble = err.Error()
		} else {
			trouble = ""
			f.session.Edit(s.undo(), s.path, change)
			e.set(print(f.snap))
		}
		field(joined(trouble, told))
	}
	e = newWordsEntry(func(focused bool) {
		f.focusChanged(l, focused)
		if !focused {
			commit()
		}
	})
	e.most = 1000
	e.OnSubmitted = func(string) { commit() }
	l.focus = func() { f.focusOn(e) }
	f.finish(l, s.label, clipped(e), false)
	field = l.setProblem
	l.setProblem = func(text string) {
		told = text
		field(joined(trouble, told))
	}
	l.show = func(snap Snapshot) {
		text := print(snap)
		if text != shown || snap.Lengths != shownIn {
			trouble = "" // what was typed is about a value, or in a unit, that is gone
			e.set(text)
		} else if !l.focused && trouble == "" {
			e.set(text)
		}
		shown, shownIn = text, snap.Lengths
	}
	return l
}

// button is a line that acts.
func (f *form) button(label, help string, act func()) *line {
	l := &line{help: help, show: func(Snapshot) {}, setProblem: func(string) {}, problem: func() string { return "" }}
	b := newFormButton(label, act, func(focused bool) { f.focusChanged(l, focused) })
	l.focus = func() { f.focusOn(b) }
	l.object = newExplained(f, l, b)
	return l
}

// buttonIf is a button that is greyed out while enabled says no.
func (f *form) buttonIf(label, help string, enabled func(engine.Design) bool, act func()) *line {
	l := f.button(label, help, act)
	b := l.object.(*explained).content.(*formButton)
	l.show = func(s Snapshot) {
		if enabled(s.Design) == b.Disabled() {
			if b.Disabled() {
				b.Enable()
			} else {
				b.Disable()
			}
		}
	}
	return l
}

// canvas is what the form shows on, nil before it does. It is asked for the
// whole form because the toolkit does not know where a field is that was made
// just now.
func (f *form) canvas() fyne.Canvas {
	return fyne.CurrentApp().Driver().CanvasForObject(f.content)
}

// focusOn gives a control the keyboard.
func (f *form) focusOn(o fyne.Focusable) {
	if c := f.canvas(); c != nil {
		c.Focus(o)
	}
}

// explained shows a line's explanation while the pointer is on its label.
type explained struct {
	widget.BaseWidget
	form    *form
	line    *line
	content fyne.CanvasObject
}

func newExplained(f *form, l *line, content fyne.CanvasObject) *explained {
	e := &explained{form: f, line: l, content: content}
	e.ExtendBaseWidget(e)
	return e
}

// CreateRenderer links the line to the toolkit.
func (e *explained) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.New(widgets.NewColumn(0), e.content))
}

// MouseIn shows the explanation.
func (e *explained) MouseIn(*desktop.MouseEvent) { e.form.explain(e.line.help) }

// MouseMoved does nothing.
func (e *explained) MouseMoved(*desktop.MouseEvent) {}

// MouseOut shows the explanation of the field with the keyboard again.
func (e *explained) MouseOut() {
	if l := e.form.focusedLine(); l != nil {
		e.form.explain(l.help)
		return
	}
	e.form.explain("")
}
