package app

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"flatwright/engine"
)

// Sag map and sagged section show where there is room, and only once the whole
// panel is computed; each has a command that hides it.
func TestSagMapShowsWhereThereIsRoom(t *testing.T) {
	test.NewTempApp(t)
	s := NewSession(direct, compute)
	d := newDrawing(s)
	design := engine.Demo()
	design.Length, design.Crosswise.Count, design.Cases = 900, 4, design.Cases[:1]
	design.Cases[0].Loads[0].X = 450
	s.Open(design, "")
	waitIdle(t, s)
	shows := func() (maps, bent bool) {
		for _, a := range d.board.Figure().Areas {
			maps = maps || a.Part == engine.SagMapPart
		}
		for _, l := range d.board.Figure().Lines {
			bent = bent || l.Part == engine.SaggedPart
		}
		return maps, bent
	}
	for _, step := range []struct {
		name       string
		act        func()
		height     float32
		maps, bent bool
	}{
		{"roomy", func() {}, 700, true, true},
		{"low", func() {}, 300, true, true}, // beside the plan
		{"very low", func() {}, 160, false, false},
		{"roomy again", func() {}, 600, true, true},
		{"map hidden", d.toggleMap, 600, false, true},
		{"both hidden", d.toggleSagged, 600, false, false},
		{"map shown again", d.toggleMap, 600, true, false},
		{"both shown again", d.toggleSagged, 600, true, true},
	} {
		step.act()
		d.content.Resize(fyne.NewSize(800, step.height))
		if maps, bent := shows(); maps != step.maps || bent != step.bent {
			t.Errorf("%s: the map shows %v, want %v; the sagged section %v, want %v", step.name, maps, step.maps, bent, step.bent)
		}
	}
}
