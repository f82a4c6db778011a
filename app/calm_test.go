package app

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// The toolkit asks the window for its smallest size on every frame it paints,
// and a move asks for another frame: a widget that moves something while it
// says how small it can be has the window painted for ever.
func TestAskingForTheSmallestSizeMovesNothing(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.desk.win.Resize(fyne.NewSize(1100, 700))
	away := fyne.NewPos(-3, -7) // where no layout puts anything
	asked := 0
	for _, o := range test.LaidOutObjects(b.desk.win.Content()) {
		w, ok := o.(fyne.Widget)
		if !ok {
			continue
		}
		children := test.WidgetRenderer(w).Objects()
		var old, put []fyne.Position
		for _, c := range children {
			old = append(old, c.Position())
			c.Move(away)
			put = append(put, c.Position()) // of a line, away but for rounding
		}
		w.MinSize()
		asked++
		for i, c := range children {
			if c.Position() != put[i] {
				t.Errorf("%T moves its %T when it is asked for its smallest size", w, c)
			}
			c.Move(old[i])
		}
	}
	if asked < 50 {
		t.Errorf("only %d widgets were asked", asked)
	}
}

func TestCursorsStandStill(t *testing.T) {
	a := test.NewTempApp(t)
	if !a.Settings().ShowAnimations() {
		t.Fatal("the test application has no animations to take away")
	}
	calm(a)
	t.Cleanup(func() { fyne.SetCurrentApp(a) })
	if fyne.CurrentApp().Settings().ShowAnimations() {
		t.Error("animations are left")
	}
	if got, want := fyne.CurrentApp().Settings().Theme(), a.Settings().Theme(); got != want {
		t.Error("the rest of the settings is not the application's")
	}
}
