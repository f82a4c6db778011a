package widgets

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// tallPane shows twenty entries in two groups in a pane 200 high.
func tallPane(t *testing.T) (*Pane, []*ValueEntry, []*Fold, fyne.Window) {
	t.Helper()
	var entries []*ValueEntry
	var folds []*Fold
	all := container.NewVBox()
	pane := NewPane(all, 240)
	for range 2 {
		group := container.NewVBox()
		for range 10 {
			e, _ := lengthEntry(90)
			e.OnFocus = func(on bool) {
				if on {
					pane.Reveal(e)
				}
			}
			group.Add(e)
			entries = append(entries, e)
		}
		f := NewFold("Group", group)
		folds = append(folds, f)
		all.Add(f)
	}
	return pane, entries, folds, window(t, pane, 260, 200)
}

// shows reports whether the whole of e lies in the pane's view.
func shows(e *ValueEntry) bool {
	y := fyne.CurrentApp().Driver().AbsolutePositionForObject(e).Y
	return y >= 0 && y+e.Size().Height <= 200
}

func TestPaneRevealsWhatHasTheFocus(t *testing.T) {
	app(t)
	pane, entries, _, w := tallPane(t)
	if shows(entries[19]) {
		t.Fatal("the last entry shows from the start; the pane is too high for this test")
	}
	for _, i := range []int{19, 0, 10, 9} {
		w.Canvas().Focus(entries[i].entry)
		if !shows(entries[i]) {
			t.Errorf("entry %d does not show with the focus on it; the offset is %v", i, pane.Offset())
		}
	}
	before := pane.Offset()
	pane.Reveal(entries[9])
	if pane.Offset() != before {
		t.Errorf("revealing what shows scrolled from %v to %v", before, pane.Offset())
	}
}

func TestPaneStaysWithinItsContent(t *testing.T) {
	app(t)
	pane, entries, folds, _ := tallPane(t)
	pane.Reveal(entries[19])
	if pane.Offset() == 0 {
		t.Fatal("nothing scrolled")
	}
	folds[0].SetOpen(false)
	folds[1].SetOpen(false)
	pane.Reveal(folds[1])
	if got := pane.Offset(); got != 0 {
		t.Errorf("with everything folded the offset is %v; want 0", got)
	}
	folds[1].SetOpen(true)
	pane.Reveal(entries[19])
	if !shows(entries[19]) {
		t.Error("an entry of a group opened just now does not show after Reveal")
	}
}

func TestPaneLeavesRoomForTheBar(t *testing.T) {
	app(t)
	_, entries, _, _ := tallPane(t)
	if got := entries[0].Size().Width; got != 260-barRoom {
		t.Errorf("an entry is %v wide in a pane of 260; want %d", got, 260-barRoom)
	}
}
