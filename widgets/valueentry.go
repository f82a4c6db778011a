package widgets

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// entryWidth is the smallest width of a [ValueEntry]: enough for 12' 11 63/64"
// and its unit.
const entryWidth = 120

// longestEntry is how many signs a quantity may have.
const longestEntry = 32

// ValueEntry is a one-line entry for a quantity. It keeps the value it was
// given exactly, whatever the printed text can show of it: only typing a text
// that means another value changes it.
//
// Arrow up and down step the value, with Shift coarsely; Escape takes back
// what was typed since the entry got the focus.
type ValueEntry struct {
	widget.BaseWidget

	// Parse reads a typed text. Its error is a sentence for the user.
	Parse func(string) (float64, error)
	// Print writes a value as Parse can read it.
	Print func(float64) string
	// Step returns the value one step up or down from v. Without it the arrow
	// keys do nothing.
	Step func(v float64, up, coarse bool) float64
	// OnChanged is called when the user's act means another value, on every
	// keystroke; never by SetValue.
	OnChanged func(v float64)
	// OnFocus is called when the entry gets and loses the keyboard.
	OnFocus func(focused bool)
	// OnDoubt is called when the text in the entry comes to mean no value, so
	// that the value is that of an older text, and when it means one again. Once
	// it is left with such a text the value is that from before the typing.
	OnDoubt func(doubted bool)
	// OnEscape, in a dialog, is called by Escape instead of taking back what was
	// typed.
	OnEscape func()

	value   float64 // the exact value shown; NaN before the first SetValue
	before  float64 // the value when the focus came
	own     string  // what is wrong with the typed text
	design  string  // what the app says is wrong with the value
	doubted bool    // the typed text means no value
	setting bool    // the text is being set by us, not typed

	entry   *quantityEntry
	unit    *unitText
	problem *sentence
}

// NewValueEntry returns an entry without a value; call SetValue before it
// shows.
func NewValueEntry(parse func(string) (float64, error), print func(float64) string,
	step func(v float64, up, coarse bool) float64,
) *ValueEntry {
	e := &ValueEntry{Parse: parse, Print: print, Step: step, value: math.NaN(), before: math.NaN()}
	e.unit = newUnitText()
	e.problem = newSentence(ColorOver, theme.SizeNameCaptionText)
	e.entry = newQuantityEntry(e)
	e.ExtendBaseWidget(e)
	return e
}

// Value returns the exact value shown, NaN if there was none yet.
func (e *ValueEntry) Value() float64 { return e.value }

// Text returns the text in the entry as it stands.
func (e *ValueEntry) Text() string { return e.entry.Text }

// SetValue shows v. It never calls OnChanged. A text that the user is typing,
// or that cannot be read yet, stays as long as v is the value it stands for.
func (e *ValueEntry) SetValue(v float64) {
	same := v == e.value
	e.value = v
	if same && (e.entry.focused || e.own != "") {
		return
	}
	if !same {
		e.before = v
		e.own = ""
	}
	e.write(e.Print(v))
	e.showProblem()
}

// SetUnit shows unit after the number, in pencil colour, and prints the value
// again: Print and Parse are expected to go by the new unit already.
func (e *ValueEntry) SetUnit(unit string) {
	if e.unit.unit == unit {
		return
	}
	e.unit.set(unit)
	e.entry.Refresh()
	if !math.IsNaN(e.value) {
		e.own = ""
		e.write(e.Print(e.value))
		e.showProblem()
		e.entry.selectAll()
	}
}

// SetProblem shows what the design has against this value; "" takes it away.
// It waits while the entry has something of its own to say.
func (e *ValueEntry) SetProblem(text string) {
	e.design = text
	e.showProblem()
}

// Problem returns the sentence shown below the entry, "" if there is none.
func (e *ValueEntry) Problem() string { return e.problem.text }

// Disable greys the entry out.
func (e *ValueEntry) Disable() { e.entry.Disable() }

// Enable lets the entry be used again.
func (e *ValueEntry) Enable() { e.entry.Enable() }

// Disabled reports whether the entry is greyed out.
func (e *ValueEntry) Disabled() bool { return e.entry.Disabled() }

// Focus gives the entry the keyboard.
func (e *ValueEntry) Focus() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(e.entry); c != nil {
		c.Focus(e.entry)
	}
}

// typed takes in a keystroke.
func (e *ValueEntry) typed(text string) {
	if e.setting {
		return
	}
	v, err := e.read(text)
	e.doubt(err != nil)
	if err != nil {
		return // said when the entry is left: a half-typed number is no mistake
	}
	e.own = ""
	e.showProblem()
	e.change(v)
}

// doubt says whether the text means a value.
func (e *ValueEntry) doubt(doubted bool) {
	e.unit.doubt(doubted)
	if doubted == e.doubted {
		return
	}
	e.doubted = doubted
	if e.OnDoubt != nil {
		e.OnDoubt(doubted)
	}
}

// read parses text. A text that means no more than the printed value is that
// value, exactly.
func (e *ValueEntry) read(text string) (float64, error) {
	v, err := e.Parse(text)
	if err != nil {
		return 0, err
	}
	if printed, err := e.Parse(e.Print(e.before)); err == nil && printed == v {
		return e.before, nil
	}
	return v, nil
}

func (e *ValueEntry) change(v float64) {
	if v == e.value {
		return
	}
	e.value = v
	if e.OnChanged != nil {
		e.OnChanged(v)
	}
}

// gained remembers where Escape leads back to.
func (e *ValueEntry) gained() {
	e.before = e.value
	if e.OnFocus != nil {
		e.OnFocus(true)
	}
}

// lost is called when the entry is left.
func (e *ValueEntry) lost() {
	e.commit()
	if e.OnFocus != nil {
		e.OnFocus(false)
	}
}

// commit tidies the text, or says why it cannot be read.
func (e *ValueEntry) commit() {
	if _, err := e.read(e.entry.Text); err != nil {
		e.own = err.Error()
		e.showProblem()
		if !math.IsNaN(e.before) {
			e.change(e.before) // not what the first keys of a slip meant: of 15o0 the 15
		}
		return
	}
	e.own = ""
	e.before = e.value
	e.write(e.Print(e.value))
	e.showProblem()
}

// restore is Escape.
func (e *ValueEntry) restore() {
	if e.OnEscape != nil {
		e.OnEscape()
		return
	}
	e.own = ""
	e.write(e.Print(e.before))
	e.showProblem()
	e.change(e.before)
	e.entry.selectAll()
}

func (e *ValueEntry) step(up, coarse bool) {
	if e.Step == nil || math.IsNaN(e.value) {
		return
	}
	v := e.Step(e.value, up, coarse)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return
	}
	e.own = ""
	e.write(e.Print(v))
	e.showProblem()
	e.change(v)
	e.entry.selectAll()
}

// write sets the text without taking it for typing.
func (e *ValueEntry) write(text string) {
	e.doubt(false)
	if e.entry.Text == text {
		return
	}
	e.setting = true
	e.entry.SetText(text)
	e.setting = false
}

func (e *ValueEntry) showProblem() {
	text := e.own
	if text == "" {
		text = e.design
	}
	if text == e.problem.text {
		return
	}
	e.problem.set(text, ColorOver)
	e.Refresh()
}

// MinSize does not grow with the text.
func (e *ValueEntry) MinSize() fyne.Size {
	e.ExtendBaseWidget(e)
	size := e.BaseWidget.MinSize()
	return fyne.NewSize(entryWidth, size.Height)
}

// CreateRenderer links the entry to the toolkit.
func (e *ValueEntry) CreateRenderer() fyne.WidgetRenderer {
	frame := container.New(clipped{e.entry}, newClip(e.entry))
	return widget.NewSimpleRenderer(container.New(column{gap: 2}, frame, e.problem))
}

// newClip returns a clip that is known to the toolkit from the start: an object
// inside could not take the focus before the first painting otherwise.
func newClip(content fyne.CanvasObject) *container.Clip {
	c := container.NewClip(content)
	c.ExtendBaseWidget(c)
	return c
}

// clipped lays out a clip that is as small as its content at the smallest; the
// toolkit's is as small as nothing.
type clipped struct{ content fyne.CanvasObject }

func (c clipped) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objects {
		o.Resize(size)
	}
}

func (c clipped) MinSize([]fyne.CanvasObject) fyne.Size { return c.content.MinSize() }

// unitText is the unit at the right end of the entry. While the text beside it
// cannot be read it is a question mark.
type unitText struct {
	widget.BaseWidget
	unit     string
	doubtful bool
}

func newUnitText() *unitText {
	u := &unitText{}
	u.ExtendBaseWidget(u)
	return u
}

func (u *unitText) set(unit string) {
	if u.unit != unit {
		u.unit = unit
		u.Refresh()
	}
}

func (u *unitText) doubt(on bool) {
	if u.doubtful != on {
		u.doubtful = on
		u.Refresh()
	}
}

// CreateRenderer links the unit to the toolkit.
func (u *unitText) CreateRenderer() fyne.WidgetRenderer {
	r := &unitRenderer{u: u, text: canvas.NewText("", nil)}
	r.Refresh()
	return r
}

type unitRenderer struct {
	u    *unitText
	text *canvas.Text
}

func (r *unitRenderer) Refresh() {
	r.text.Text, r.text.Color = r.u.unit, ThemeColor(ColorPencil, r.u)
	if r.u.doubtful {
		r.text.Text, r.text.Color = "?", ThemeColor(ColorNear, r.u)
	}
	r.text.TextSize = theme.CurrentForWidget(r.u).Size(theme.SizeNameText)
	r.text.Alignment = fyne.TextAlignTrailing
	canvas.Refresh(r.u)
}

func (r *unitRenderer) Layout(size fyne.Size) {
	h := r.text.MinSize().Height
	r.text.Resize(fyne.NewSize(size.Width-8, h))
	r.text.Move(fyne.NewPos(0, (size.Height-h)/2))
}

func (r *unitRenderer) MinSize() fyne.Size {
	style := r.text.TextStyle
	w := fyne.MeasureText(r.u.unit, r.text.TextSize, style)
	q := fyne.MeasureText("?", r.text.TextSize, style)
	return fyne.NewSize(max(w.Width, q.Width)+8, q.Height)
}

func (r *unitRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.text} }
func (r *unitRenderer) Destroy()                     {}
