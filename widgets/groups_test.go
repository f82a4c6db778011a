package widgets

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

func TestFieldMaster(t *testing.T) {
	app(t)
	check := widget.NewCheck("glued", nil)
	f := NewField("Top skin", check)
	w := window(t, f, 180, 100)
	master(t, w, "field_plain")
	f.SetProblem("This sheet is 8 mm too short for a skin in one piece.")
	master(t, w, "field_problem")
	beside := NewFieldBeside("Ribs", widget.NewCheck("", nil))
	master(t, window(t, beside, 180, 60), "field_beside")
}

func TestFieldSize(t *testing.T) {
	app(t)
	f := NewField("Top skin", widget.NewCheck("", nil))
	w := window(t, f, 100, 60)
	if got := f.MinSize().Width; got != fieldWidth {
		t.Errorf("smallest width %v; want %v", got, fieldWidth)
	}
	before := f.MinSize().Height
	f.SetProblem(strings.Repeat("a long word of trouble ", 10))
	w.Resize(fyne.NewSize(200, 300))
	f.Resize(fyne.NewSize(200, 300))
	narrow := f.MinSize()
	if narrow.Width != fieldWidth || narrow.Height <= before {
		t.Errorf("with a problem MinSize is %v; want %v wide and higher than %v", narrow, fieldWidth, before)
	}
	f.Resize(fyne.NewSize(600, 300))
	if wide := f.MinSize(); wide.Height >= narrow.Height {
		t.Errorf("at 600 wide it is %v high, at 200 %v; want fewer lines when wider", wide.Height, narrow.Height)
	}
	f.SetProblem("")
	if got := f.MinSize().Height; got != before || f.Problem() != "" {
		t.Errorf("with the problem gone it is %v high; want %v as at first", got, before)
	}
}

func TestFold(t *testing.T) {
	app(t)
	inner, _ := lengthEntry(5)
	f := NewFold("Ribs", inner)
	f.SetSummary("5 lengthwise, 11 crosswise")
	after, _ := lengthEntry(6)
	w := window(t, container.NewVBox(f, after), 300, 200)
	var told []bool
	f.OnToggled = func(open bool) { told = append(told, open) }

	f.SetOpen(true)
	f.SetOpen(false)
	f.SetOpen(true)
	if len(told) != 0 {
		t.Fatalf("SetOpen called OnToggled: %v", told)
	}
	w.Canvas().FocusNext()
	if w.Canvas().Focused() != f.head {
		t.Fatalf("the first focus went to %T; want the head", w.Canvas().Focused())
	}
	keys(t, w, fyne.KeySpace)
	if f.Open() || inner.entry.Visible() && f.Content.Visible() {
		t.Error("Space did not fold the group")
	}
	w.Canvas().FocusNext()
	if w.Canvas().Focused() != after.entry {
		t.Errorf("Tab from a folded head went to %T; want the field after the group", w.Canvas().Focused())
	}
	test.TapCanvas(w.Canvas(), fyne.NewPos(40, 10))
	if !f.Open() || w.Canvas().Focused() != f.head {
		t.Error("a tap on the head did not open it and take the focus")
	}
	keys(t, w, fyne.KeyReturn)
	if want := []bool{false, true, false}; len(told) != 3 || told[0] || !told[1] || told[2] {
		t.Errorf("OnToggled got %v; want %v", told, want)
	}
}

func TestFoldMaster(t *testing.T) {
	app(t)
	f := NewFold("Ribs", widget.NewCheck("glued", nil))
	f.SetSummary("5 lengthwise, 11 crosswise, 12 mm birch plywood")
	w := window(t, f, 220, 110)
	master(t, w, "fold_open")
	f.SetOpen(false)
	master(t, w, "fold_closed")
}

var sagTile = TileData{
	Title: "Sag", Value: "1.2 (0.9 to 1.6)", Unit: "mm", Limit: "limit 1.0 mm", State: Over,
	GovernedBy: "a person at the middle of the front edge",
}

func TestTileMaster(t *testing.T) {
	app(t)
	tile := NewTile(nil)
	tile.SetTile(sagTile)
	w := window(t, tile, 330, 100)
	master(t, w, "tile_over")
	stale := sagTile
	stale.Stale = true
	tile.SetTile(stale)
	master(t, w, "tile_stale")
	tile.SetTile(TileData{Title: "Weight", Value: "31.4", Unit: "kg", Limit: "limit 40 kg", State: Good, GovernedBy: "skins 60 %"})
	master(t, w, "tile_good")
}

// Every text of a tile lies inside it, whatever the width and the figures.
func TestTileClipsNothing(t *testing.T) {
	app(t)
	long := TileData{
		Title: "Sag under the governing load case", Value: "1 234.56 (1 000.00 to 1 500.00)", Unit: "mm",
		Limit: "the limit is 1.0 mm for an assembly table", State: Near,
		GovernedBy: "a person of 100 kg standing at the middle of the front edge for a long time", Stale: true,
	}
	for _, d := range []TileData{{}, sagTile, long} {
		for _, width := range []float32{tileWidth, 240, 330, 900} {
			tile := NewTile(nil)
			tile.SetTile(d)
			window(t, tile, width, 100)
			tile.Resize(fyne.NewSize(width, 400))
			height := tile.MinSize().Height
			tile.Resize(fyne.NewSize(width, height))
			for _, o := range test.LaidOutObjects(tile) {
				text, ok := o.(*canvas.Text)
				if !ok || text.Text == "" {
					continue
				}
				at := fyne.CurrentApp().Driver().AbsolutePositionForObject(text)
				if right := at.X + text.MinSize().Width; right > width {
					t.Errorf("%q ends at %v in a tile %v wide", text.Text, right, width)
				}
				if foot := at.Y + text.MinSize().Height; foot > height {
					t.Errorf("%q ends at %v in a tile %v high", text.Text, foot, height)
				}
			}
		}
	}
}

func TestTileIsAButton(t *testing.T) {
	app(t)
	n := 0
	tile := NewTile(func() { n++ })
	tile.SetTile(sagTile)
	w := window(t, tile, 300, 100)
	test.TapCanvas(w.Canvas(), fyne.NewPos(50, 50))
	w.Canvas().Unfocus()
	w.Canvas().FocusNext()
	keys(t, w, fyne.KeySpace, fyne.KeyEnter)
	if n != 3 {
		t.Errorf("pressed %d times by a tap, Space and Enter; want 3", n)
	}
}

func TestTileTellsOfTheHover(t *testing.T) {
	app(t)
	tile := NewTile(nil)
	w := window(t, container.NewVBox(tile, widget.NewLabel("below")), 300, 200)
	var told []bool
	tile.OnHover = func(inside bool) { told = append(told, inside) }
	test.MoveMouse(w.Canvas(), fyne.NewPos(50, 50))
	test.MoveMouse(w.Canvas(), fyne.NewPos(60, 50))
	test.MoveMouse(w.Canvas(), fyne.NewPos(60, 190))
	if len(told) != 2 || !told[0] || told[1] {
		t.Errorf("OnHover got %v; want true and false", told)
	}
}

func TestStateHasShapeWordAndColour(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range []struct {
		state State
		word  string
	}{{Good, "● within"}, {Near, "▲ near"}, {Over, "■ over"}, {None, ""}} {
		if got := c.state.Word(); got != c.word {
			t.Errorf("state %d says %q; want %q", c.state, got, c.word)
		}
		if name := string(c.state.Color()); seen[name] {
			t.Errorf("state %d shares the colour %s", c.state, name)
		} else {
			seen[name] = true
		}
	}
}

func TestBars(t *testing.T) {
	app(t)
	b := NewBars()
	b.SetRows([]BarRow{
		{"Core depth", 0.2, -0.1, "+0.20 mm", "−0.10 mm"},
		{"Skin", math.NaN(), 0.1, "not possible", "+0.10 mm"},
	})
	window(t, b, 300, 200)
	r := test.WidgetRenderer(b).(*barsRenderer)
	down, up := r.rows[0].bars[0], r.rows[0].bars[1]
	if down.Size().Width <= 0 || math.Abs(float64(down.Size().Width-2*up.Size().Width)) > 0.01 {
		t.Errorf("bars of 0.2 and -0.1 are %v and %v wide; want two to one", down.Size().Width, up.Size().Width)
	}
	zero := r.rows[0].zero.Position1.X
	if down.Position().X != zero || up.Position().X+up.Size().Width != zero {
		t.Errorf("bars at %v and %v do not start from the zero line at %v", down.Position(), up.Position(), zero)
	}
	if got := r.rows[1].bars[0].Size().Width; got != 0 {
		t.Errorf("a bar of no number is %v wide; want 0", got)
	}
	b.SetRows(nil)
	if got := b.MinSize().Height; got != 0 {
		t.Errorf("no rows are %v high; want 0", got)
	}
	b.SetRows([]BarRow{{"Nothing", 0, 0, "0", "0"}})
	r = test.WidgetRenderer(b).(*barsRenderer)
	if got := r.rows[0].bars[0].Size().Width; got != 0 {
		t.Errorf("a bar of 0 is %v wide; want 0", got)
	}
}
