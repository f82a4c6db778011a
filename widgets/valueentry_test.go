package widgets

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
)

// A length in mm printed with one decimal, so that a value has more than its
// text shows.
func parseLength(text string) (float64, error) {
	v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil {
		return 0, errors.New("a length is wanted, for example 64.5; this was read as “" + text + "”")
	}
	return v, nil
}

func printLength(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) }

func stepLength(v float64, up, coarse bool) float64 {
	d := 1.0
	if coarse {
		d = 10
	}
	if !up {
		d = -d
	}
	return math.Round(v) + d
}

// lengthEntry returns an entry showing v and a record of its OnChanged calls.
func lengthEntry(v float64) (*ValueEntry, *[]float64) {
	e := NewValueEntry(parseLength, printLength, stepLength)
	e.SetUnit("mm")
	e.SetValue(v)
	var changes []float64
	e.OnChanged = func(v float64) { changes = append(changes, v) }
	return e, &changes
}

func wantChanges(t *testing.T, got *[]float64, want ...float64) {
	t.Helper()
	if len(*got) != len(want) {
		t.Fatalf("OnChanged got %v; want %v", *got, want)
	}
	for i := range want {
		if (*got)[i] != want[i] {
			t.Fatalf("OnChanged got %v; want %v", *got, want)
		}
	}
}

func TestValueEntrySetValueIsSilent(t *testing.T) {
	app(t)
	e, changes := lengthEntry(1650.33)
	w := window(t, e, 200, 80)
	e.SetValue(12.5)
	e.SetValue(1650.33)
	e.SetUnit("in")
	w.Canvas().Focus(e.entry)
	e.SetValue(3)
	w.Canvas().Unfocus()
	wantChanges(t, changes)
	if e.Text() != "3.0" || e.Value() != 3 {
		t.Errorf("shows %q for %v; want 3.0 for 3", e.Text(), e.Value())
	}
}

func TestValueEntryUntouchedKeepsTheExactValue(t *testing.T) {
	app(t)
	const exact = 1650.3333333333333
	for _, c := range []struct {
		name string
		act  func(w fyne.Window, e *ValueEntry)
	}{
		{"focus and leave", func(w fyne.Window, e *ValueEntry) {}},
		{"return", func(w fyne.Window, e *ValueEntry) { e.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) }},
		{"the same number typed over", func(w fyne.Window, e *ValueEntry) { write(t, w, "1650.3") }},
		{"a blank more", func(w fyne.Window, e *ValueEntry) {
			e.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
			write(t, w, " ")
		}},
		{"escape after typing", func(w fyne.Window, e *ValueEntry) {
			write(t, w, "7")
			e.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		}},
	} {
		e, changes := lengthEntry(exact)
		w := window(t, e, 200, 80)
		w.Canvas().Focus(e.entry)
		c.act(w, e)
		w.Canvas().Unfocus()
		if e.Value() != exact || e.Text() != "1650.3" {
			t.Errorf("%s: value %v, text %q; want %v and 1650.3", c.name, e.Value(), e.Text(), exact)
		}
		if n := len(*changes); n > 0 && (*changes)[n-1] != exact {
			t.Errorf("%s: OnChanged last said %v; want %v", c.name, (*changes)[n-1], exact)
		}
	}
}

func TestValueEntryTyping(t *testing.T) {
	app(t)
	e, changes := lengthEntry(90)
	w := window(t, e, 200, 80)
	w.Canvas().Focus(e.entry)
	write(t, w, "64.5") // the focus selected all: typed over
	wantChanges(t, changes, 6, 64, 64.5)
	if e.Text() != "64.5" {
		t.Errorf("text while typing is %q; want 64.5", e.Text())
	}
	// The app answers with the value it was told; the text must stay as typed.
	write(t, w, "0")
	e.SetValue(64.5)
	if e.Text() != "64.50" {
		t.Errorf("an echo changed the text to %q; want 64.50 as typed", e.Text())
	}
	w.Canvas().Unfocus()
	if e.Text() != "64.5" {
		t.Errorf("after leaving, the text is %q; want it tidied to 64.5", e.Text())
	}
	wantChanges(t, changes, 6, 64, 64.5)
}

func TestValueEntryFirstClickSelectsAll(t *testing.T) {
	app(t)
	e, _ := lengthEntry(90)
	window(t, e, 200, 80)
	click := func() {
		at := fyne.PointEvent{Position: fyne.NewPos(20, 15)}
		e.entry.MouseDown(&desktop.MouseEvent{PointEvent: at, Button: desktop.MouseButtonPrimary})
		e.entry.MouseUp(&desktop.MouseEvent{PointEvent: at, Button: desktop.MouseButtonPrimary})
	}
	click()
	if got := e.entry.SelectedText(); got != "90.0" {
		t.Errorf("the first click selected %q; want all", got)
	}
	click()
	if got := e.entry.SelectedText(); got != "" {
		t.Errorf("the second click left %q selected; want the cursor only", got)
	}
}

func TestValueEntryHalfTyped(t *testing.T) {
	app(t)
	e, changes := lengthEntry(90)
	w := window(t, e, 200, 80)
	w.Canvas().Focus(e.entry)
	write(t, w, "6x")
	wantChanges(t, changes, 6)
	if e.Problem() != "" || !e.unit.doubtful {
		t.Errorf("while typing: problem %q, doubt %v; want none and a soft sign", e.Problem(), e.unit.doubtful)
	}
	keys(t, w, fyne.KeyReturn)
	if !strings.Contains(e.Problem(), "6x") {
		t.Errorf("after Return the problem is %q; want the parser's sentence", e.Problem())
	}
	w.Canvas().Unfocus()
	e.SetProblem("too thin")
	if !strings.Contains(e.Problem(), "6x") {
		t.Errorf("problem is %q; the unread text goes before the design", e.Problem())
	}
	e.SetValue(90) // the value before the slip comes round: the text stays to be mended
	if e.Text() != "6x" {
		t.Errorf("text is %q; want the half-typed 6x kept", e.Text())
	}
	e.SetValue(70) // undo elsewhere
	if e.Text() != "70.0" || e.Problem() != "too thin" || e.unit.doubtful {
		t.Errorf("text %q, problem %q; want 70.0 and the design's problem", e.Text(), e.Problem())
	}
	wantChanges(t, changes, 6, 90) // the 6 on the way to 6x is not what was meant
}

func TestValueEntryEscape(t *testing.T) {
	app(t)
	e, changes := lengthEntry(90)
	w := window(t, e, 200, 80)
	w.Canvas().Focus(e.entry)
	write(t, w, "5x")
	keys(t, w, fyne.KeyReturn, fyne.KeyEscape)
	if e.Text() != "90.0" || e.Problem() != "" {
		t.Errorf("after Escape: %q, problem %q; want 90.0 and none", e.Text(), e.Problem())
	}
	wantChanges(t, changes, 5, 90)
}

func TestValueEntrySteps(t *testing.T) {
	app(t)
	e, changes := lengthEntry(90.25)
	w := window(t, e, 200, 80)
	w.Canvas().Focus(e.entry)
	keys(t, w, fyne.KeyUp, fyne.KeyUp, fyne.KeyDown)
	wantChanges(t, changes, 91, 92, 91)
	e.step(true, true)
	wantChanges(t, changes, 91, 92, 91, 101)
	if e.entry.SelectedText() != "101.0" {
		t.Errorf("selected after a step: %q; want all", e.entry.SelectedText())
	}
	// A step to what the text cannot show is told once, and exactly.
	e.Step = func(v float64, _, _ bool) float64 { return v + 0.33 }
	keys(t, w, fyne.KeyUp)
	wantChanges(t, changes, 91, 92, 91, 101, 101.33)
	e.Step = func(float64, bool, bool) float64 { return math.NaN() }
	keys(t, w, fyne.KeyUp)
	if e.Value() != 101.33 {
		t.Errorf("a step to nowhere made %v; want 101.33", e.Value())
	}
}

// A switch of units prints the value anew and changes it by nothing, whether
// the entry has the focus or not.
func TestValueEntryUnitSwitch(t *testing.T) {
	app(t)
	for _, focused := range []bool{false, true} {
		perUnit := 1.0
		e := NewValueEntry(func(s string) (float64, error) {
			v, err := parseLength(s)
			return v * perUnit, err
		}, func(v float64) string { return printLength(v / perUnit) }, nil)
		e.SetUnit("mm")
		e.SetValue(1650.33)
		changes := 0
		e.OnChanged = func(float64) { changes++ }
		w := window(t, e, 200, 80)
		if focused {
			w.Canvas().Focus(e.entry)
		}
		for range 100 {
			perUnit = 25.4
			e.SetUnit("in")
			e.SetValue(1650.33)
			if e.Text() != "65.0" { // 1650.33/25.4 = 64.97
				t.Fatalf("focused %v: in inches it shows %q; want 65.0", focused, e.Text())
			}
			perUnit = 1
			e.SetUnit("mm")
			e.SetValue(1650.33)
		}
		w.Canvas().Unfocus()
		if e.Value() != 1650.33 || e.Text() != "1650.3" || changes != 0 {
			t.Errorf("focused %v: value %v, text %q, %d changes told; want 1650.33, 1650.3 and none",
				focused, e.Value(), e.Text(), changes)
		}
	}
}

func TestValueEntryWholeNumbers(t *testing.T) {
	app(t)
	e := NewValueEntry(func(s string) (float64, error) {
		n, err := strconv.Atoi(s)
		if err != nil {
			return 0, errors.New("a whole number is wanted")
		}
		return float64(n), nil
	}, func(v float64) string { return strconv.Itoa(int(v)) },
		func(v float64, up, _ bool) float64 {
			if up {
				return v + 1
			}
			return max(v-1, 0)
		})
	e.SetValue(0)
	w := window(t, e, 200, 80)
	w.Canvas().Focus(e.entry)
	keys(t, w, fyne.KeyDown, fyne.KeyUp, fyne.KeyUp)
	if e.Value() != 2 || e.Text() != "2" {
		t.Errorf("value %v, text %q; want 2", e.Value(), e.Text())
	}
	write(t, w, "1.5")
	w.Canvas().Unfocus()
	if e.Problem() != "a whole number is wanted" || e.Value() != 0 {
		t.Errorf("problem %q, value %v; want the sentence and the 0 from before it was typed", e.Problem(), e.Value())
	}
}

func TestValueEntryWidthStays(t *testing.T) {
	app(t)
	e, _ := lengthEntry(90)
	w := window(t, e, 200, 80)
	before := e.MinSize()
	w.Canvas().Focus(e.entry)
	write(t, w, strings.Repeat("9", 200))
	if got := e.MinSize(); got != before {
		t.Errorf("MinSize went from %v to %v by typing; want it unchanged", before, got)
	}
	if n := len(e.Text()); n != longestEntry {
		t.Errorf("the entry took %d signs; want it to stop at %d", n, longestEntry)
	}
	e.SetProblem("This is a longer sentence about what is wrong with this length and what would help.")
	if got := e.MinSize(); got.Width != before.Width || got.Height <= before.Height {
		t.Errorf("MinSize with a problem is %v; want %v wide and higher than %v", got, before.Width, before.Height)
	}
}

func TestValueEntryLeavesTheWheelToThePane(t *testing.T) {
	app(t)
	e, _ := lengthEntry(90)
	box := container.NewVBox(e)
	for range 20 {
		other, _ := lengthEntry(1)
		box.Add(other)
	}
	pane := container.NewVScroll(box)
	w := window(t, pane, 200, 120)
	test.Scroll(w.Canvas(), fyne.NewPos(30, 15), 0, -40)
	if pane.Offset.Y != 40 {
		t.Errorf("the pane moved by %v with the pointer on a field; want 40", pane.Offset.Y)
	}
}

func TestValueEntryDisabled(t *testing.T) {
	app(t)
	e, changes := lengthEntry(90)
	w := window(t, e, 200, 80)
	e.Disable()
	e.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	w.Canvas().FocusNext()
	if w.Canvas().Focused() != nil {
		t.Error("a disabled entry took the focus")
	}
	wantChanges(t, changes)
	e.Enable()
	e.Focus()
	if w.Canvas().Focused() != e.entry {
		t.Error("Focus did not reach the enabled entry")
	}
}

func TestValueEntryMaster(t *testing.T) {
	app(t)
	e, _ := lengthEntry(1650.33)
	w := window(t, e, 180, 90)
	master(t, w, "valueentry_plain")
	e.SetProblem("A core of 90 mm is deeper than the edge band of 60 mm; 60 mm would do.")
	master(t, w, "valueentry_problem")
}
