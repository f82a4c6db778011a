package app

import (
	"context"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"flatwright/engine"
)

// Escape closes every dialog of ours, wherever in it the keyboard is, and where
// it is nowhere; nothing of the design changes.
func TestEscapeClosesDialogs(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.desk.win.Resize(fyne.NewSize(1100, 700))
	c := b.desk.win.Canvas()
	escape := &fyne.KeyEvent{Name: fyne.KeyEscape}
	for _, row := range []struct {
		name   string
		show   func()
		fields int // to step through with Tab
	}{
		{"Make it mine", func() { showMakeItMine(b.desk.win, b.session, ownShop{}) }, 5},
		{"own material", func() { showOwnMaterial(b.desk.win, b.session) }, 6},
		{"keys", func() { showKeys(b.desk.win) }, 1},
		{"a sentence", func() { tell(b.desk.win, "Supports", "They stand well.") }, 1},
	} {
		before := b.session.Now().Design
		for steps := range row.fields {
			row.show()
			for range steps {
				c.FocusNext()
			}
			if c.Focused() == nil {
				t.Fatalf("%s: after %d steps nothing has the keyboard", row.name, steps)
			}
			c.Focused().TypedKey(escape)
			b.settle()
			if c.Overlays().Top() != nil {
				t.Errorf("%s stays after Escape in its field %d, a %T", row.name, steps, c.Focused())
				c.Overlays().Remove(c.Overlays().Top())
			}
		}
		row.show()
		c.Unfocus()
		c.OnTypedKey()(escape)
		b.settle()
		if c.Overlays().Top() != nil {
			t.Errorf("%s stays after Escape with the keyboard nowhere", row.name)
			c.Overlays().Remove(c.Overlays().Top())
		}
		if len(escapes) > 1 {
			t.Errorf("%s: %d ways out are kept of dialogs that are gone", row.name, len(escapes))
		}
		if b.session.Now().Design.CoreDepth != before.CoreDepth || b.session.Now().Dirty {
			t.Errorf("%s: Escape changed the design", row.name)
		}
	}
}

// The depth that meets the limit is taken over by one press and becomes part of
// the one step of undo; another size is asked for afresh.
func TestMakeItMineTakesTheDepth(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.session.compute = func(ctx context.Context, d engine.Design) (engine.Result, error) {
		r, err := weigh(ctx, d)
		r.Depth.Needed = 173
		return r, err
	}
	old := b.session.Now().Design.CoreDepth
	showMakeItMine(b.desk.win, b.session, ownShop{})
	b.settle()
	top := b.desk.win.Canvas().Overlays().Top()
	var deeper, accept *answerButton
	for _, o := range test.LaidOutObjects(top) {
		if w, ok := o.(*answerButton); ok {
			switch w.Text {
			case "Take a core of 173 mm":
				deeper = w
			case "Make this top":
				accept = w
			}
		}
	}
	if deeper == nil || !deeper.Visible() {
		t.Fatal("the depth that meets the limit cannot be taken")
	}
	test.Tap(deeper)
	b.settle()
	if deeper.Visible() {
		t.Error("the depth is offered though it is taken")
	}
	test.Tap(accept)
	b.settle()
	if got := b.session.Now().Design.CoreDepth; got != 173 {
		t.Errorf("the core is %v deep; want the 173 taken", got)
	}
	b.session.Undo()
	if got := b.session.Now(); got.Design.CoreDepth != old || got.UndoLabel != "" {
		t.Errorf("one undo leads to a core of %v and leaves %q; want %v and nothing", got.Design.CoreDepth, got.UndoLabel, old)
	}
}
