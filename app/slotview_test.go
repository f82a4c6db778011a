package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/engine/saw"
	"flatwright/widgets"
)

// slotsTab brings the slots to the fore by the keyboard: the tab's word, then an
// arrow.
func (b *bench) slotsTab() *cutAct {
	b.Helper()
	b.cutAct()
	v := b.view.cut
	b.tabByKey(v.side, 1)
	return v
}

// tabByKey shows a tab by the keyboard: from one thing to the next until the
// tabs' words have it, then by the arrow.
func (b *bench) tabByKey(side *widgets.Tabs, i int) {
	b.Helper()
	c := b.desk.win.Canvas()
	for range 100 {
		c.FocusNext()
		if focused := c.Focused(); focused != nil {
			focused.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
			if side.Shown() == i {
				return
			}
		}
	}
	b.Fatalf("the keyboard does not reach tab %d", i)
}

func TestSlotsShowARibAndAStack(t *testing.T) {
	b := openBench(t, t.TempDir())
	v := b.slotsTab()
	if v.sheets.content.Visible() || !v.slots.content.Visible() {
		t.Error("the sheets are still in front")
	}
	first := v.slots.board.Figure()
	if len(first.Areas) == 0 || first.Areas[0].Part != "L1" {
		t.Fatalf("the rib drawn is %v", first.Areas)
	}
	v.slots.group++
	v.slots.show(b.session.Now())
	if got := v.slots.board.Figure().Areas[0].Part; got != "C1" {
		t.Errorf("the next kind is %s; want C1", got)
	}

	pack := v.slots.pack
	past := func() float64 {
		over, err := pack.stack.Overrun()
		if err != nil {
			t.Fatal(err)
		}
		return over
	}
	two := past()
	pack.plunge.SetValue(30)
	deep := past()
	if !(deep < two) {
		t.Errorf("a plunge of 30 mm runs over by %g, one of %g by %g; want less", deep, saw.UsualPlunge, two)
	}
	pack.boards.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if pack.stack.Boards != 3 || !(past() > deep) {
		t.Errorf("an arrow key makes a stack of %d that runs over by %g; want 3, and more than %g", pack.stack.Boards, past(), deep)
	}
}

func TestStackSaysWhatStandsInItsWay(t *testing.T) {
	tools := saw.Usual().Filled()
	blade := tools.Rail.Blade
	for _, tc := range []struct {
		name  string
		stack saw.Stack
		want  string
	}{
		{"one thin board, deep plunge", saw.Stack{Diameter: blade, Boards: 1, Thickness: 6, Plunge: 30}, "● one rib"},
		{"two boards", saw.Stack{Diameter: blade, Boards: 2, Thickness: 12, Plunge: 12}, "more than the"},
		{"beyond the saw's reach", saw.Stack{Diameter: blade, Boards: 4, Thickness: 12, Plunge: 15}, "The saw reaches"},
		{"beyond half the blade", saw.Stack{Diameter: blade, Boards: 9, Thickness: 12, Plunge: 12}, "more than half of itself"},
	} {
		if text, _ := stackText(tc.stack, tools, length.Format{}); !strings.Contains(text, tc.want) {
			t.Errorf("%s: %q; want %q in it", tc.name, text, tc.want)
		}
	}
}

// What a way does not need is told why; the one taken can be picked.
func TestWaysAreToldAndPicked(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.slotsTab()
	s := b.session.Now()
	g := s.Result.SlotWork.Groups[0]
	other := saw.Kind("")
	for i, w := range g.Ways {
		if w.Can && i != g.Taken {
			other = w.Kind
		}
	}
	if other == "" {
		t.Fatal("only one way can cut the demo's slots")
	}
	b.session.Edit("way", "slots.way", func(d *engine.Design) { d.Slots.Way = other })
	b.settle()
	g = b.session.Now().Result.SlotWork.Groups[0]
	if got := g.Ways[g.Taken].Kind; got != other {
		t.Errorf("picked %s; %s is taken", other, got)
	}
	taken, cannot := 0, 0
	for _, bl := range waysCard(b.session.Now(), g).blocks {
		if strings.HasPrefix(bl.note, "● taken.") {
			taken++
		}
		if bl.kind == kindFold {
			cannot = len(bl.inside) / 2
		}
	}
	can := 0
	for _, w := range g.Ways {
		if w.Can {
			can++
		}
	}
	if taken != 1 || cannot != len(g.Ways)-can {
		t.Errorf("%d ways are taken and %d told as not working; want 1 and %d", taken, cannot, len(g.Ways)-can)
	}
}

// What the stack does to the ribs is told also while the session tells of other
// things, as how far a search is, and goes with the stack that it is of.
func TestRatingOfAStackStays(t *testing.T) {
	b := openBench(t, t.TempDir())
	pack := b.slotsTab().slots.pack
	pack.rate()
	b.session.tell()
	b.settle()
	if text := pack.rated.Text(); text == "" || text == "Computing…" {
		t.Errorf("the rating says %q", text)
	}
	pack.plunge.SetValue(30)
	if text := pack.rated.Text(); text != "" {
		t.Errorf("of another stack it still says %q", text)
	}
}

// While nothing can be computed no rib of the design before is shown.
func TestSlotsOfABlockedDesign(t *testing.T) {
	b := openBench(t, t.TempDir())
	v := b.slotsTab()
	b.session.Edit("length", "", func(d *engine.Design) { d.Length = -1 })
	b.settle()
	if len(v.slots.board.Figure().Areas) != 0 || v.slots.pack.content.Visible() || !strings.Contains(v.slots.which.text.Text(), "put right") {
		t.Errorf("it shows %d areas and says %q", len(v.slots.board.Figure().Areas), v.slots.which.text.Text())
	}
	b.session.Undo()
	b.settle()
	if len(v.slots.board.Figure().Areas) == 0 || !v.slots.pack.content.Visible() {
		t.Error("after an undo no rib is drawn")
	}
}
