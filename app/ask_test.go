package app

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

func TestAskByKeyboard(t *testing.T) {
	for _, tc := range []struct {
		name string
		keys []fyne.KeyName
		want string
	}{
		{"return takes what is meant", []fyne.KeyName{fyne.KeyReturn}, "save"},
		{"enter does too", []fyne.KeyName{fyne.KeyEnter}, "save"},
		{"space does too", []fyne.KeyName{fyne.KeySpace}, "save"},
		{"escape takes the way out", []fyne.KeyName{fyne.KeyEscape}, "back"},
		{"other keys answer nothing", []fyne.KeyName{fyne.KeyDown, fyne.KeyY}, ""},
	} {
		t.Run(tc.name, func(t *testing.T) {
			test.NewTempApp(t)
			win := test.NewTempWindow(t, widget.NewLabel(""))
			win.Resize(fyne.NewSize(600, 400))
			got := ""
			say := func(word string) func() { return func() { got += word } }
			ask(win, "Save?", widget.NewLabel("The changes"), 400,
				choice{"Go back", say("back")}, choice{"Do not save", say("drop")}, choice{"Save", say("save")})
			for _, key := range tc.keys {
				win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: key})
			}
			if got != tc.want {
				t.Errorf("answered %q; want %q", got, tc.want)
			}
			if open := win.Canvas().Overlays().Top() != nil; open != (tc.want == "") {
				t.Errorf("the dialog is open: %v after answering %q", open, got)
			}
		})
	}
}

func TestPlaceDialogByKeyboard(t *testing.T) {
	test.NewTempApp(t)
	win := test.NewTempWindow(t, widget.NewLabel(""))
	win.Resize(fyne.NewSize(600, 400))
	got := ""
	show := func() {
		p := &placeDialog{win: win, title: "Save", act: "Save", suffix: ".pdf", folder: t.TempDir(), answer: func(path string) { got = path }}
		p.show("bench")
	}
	show()
	win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if got != "" || win.Canvas().Overlays().Top() != nil {
		t.Errorf("Escape answered %q and left the dialog open: %v", got, win.Canvas().Overlays().Top() != nil)
	}
	show()
	win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got == "" || win.Canvas().Overlays().Top() != nil {
		t.Errorf("Return answered %q and left the dialog open: %v", got, win.Canvas().Overlays().Top() != nil)
	}
}
