package widgets

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

func TestTabsShowOneContent(t *testing.T) {
	test.NewTempApp(t)
	a, b := NewText("one", ColorInk), NewText("two", ColorInk)
	tabs := NewTabs([]string{"First", "Second"}, []fyne.CanvasObject{a, b})
	w := test.NewTempWindow(t, tabs)
	w.Resize(fyne.NewSize(300, 200))
	var told []int
	tabs.OnChange = func(i int) { told = append(told, i) }

	if tabs.Shown() != 0 || !a.Visible() || b.Visible() {
		t.Fatalf("at first tab %d shows", tabs.Shown())
	}
	test.Tap(tabs.words.words[1])
	if tabs.Shown() != 1 || a.Visible() || !b.Visible() {
		t.Errorf("after a tap on the second word tab %d shows", tabs.Shown())
	}
	for _, tc := range []struct {
		key  fyne.KeyName
		want int
	}{{fyne.KeyRight, 1}, {fyne.KeyLeft, 0}, {fyne.KeyLeft, 0}, {fyne.KeyRight, 1}} {
		w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: tc.key})
		if tabs.Shown() != tc.want || w.Canvas().Focused() != fyne.Focusable(tabs.words.words[tc.want]) {
			t.Errorf("after %s tab %d shows; want %d with the keyboard on its word", tc.key, tabs.Shown(), tc.want)
		}
	}
	told = nil
	tabs.ShowTab(0)
	if len(told) != 0 {
		t.Error("ShowTab told of a change that nobody made by hand")
	}
	tabs.ShowTab(7)
	if tabs.Shown() != 1 {
		t.Errorf("of two tabs number 7 shows %d; want the last", tabs.Shown())
	}
}

// The words keep their places when another one becomes bold.
func TestTabWordsStayInPlace(t *testing.T) {
	test.NewTempApp(t)
	tabs := NewTabs([]string{"First", "Second"}, []fyne.CanvasObject{NewText("one", ColorInk), NewText("two", ColorInk)})
	w := test.NewTempWindow(t, tabs)
	w.Resize(fyne.NewSize(300, 200))
	before := tabs.words.words[1].Position()
	tabs.ShowTab(1)
	w.Resize(fyne.NewSize(300, 201))
	if got := tabs.words.words[1].Position(); got != before {
		t.Errorf("the second word stands at %v; before it was shown at %v", got, before)
	}
}
