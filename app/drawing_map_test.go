package app

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"flatwright/engine"
)

// The sag map shows where there is room, and only once the whole panel is
// computed; the command hides it.
func TestSagMapShowsWhereThereIsRoom(t *testing.T) {
	test.NewTempApp(t)
	s := NewSession(direct, compute)
	d := newDrawing(s)
	design := engine.Demo()
	design.Length, design.Crosswise.Count, design.Cases = 900, 4, design.Cases[:1]
	design.Cases[0].Loads[0].X = 450
	s.Open(design, "")
	waitIdle(t, s)
	shows := func() bool {
		for _, a := range d.board.Figure().Areas {
			if a.Part == engine.SagMapPart {
				return true
			}
		}
		return false
	}
	for _, step := range []struct {
		name   string
		act    func()
		height float32
		want   bool
	}{
		{"roomy", func() {}, 700, true},
		{"low", func() {}, 300, false},
		{"roomy again", func() {}, 600, true},
		{"hidden", d.toggleMap, 600, false},
		{"shown again", d.toggleMap, 600, true},
	} {
		step.act()
		d.content.Resize(fyne.NewSize(800, step.height))
		if got := shows(); got != step.want {
			t.Errorf("%s: the map shows %v, want %v", step.name, got, step.want)
		}
	}
}
