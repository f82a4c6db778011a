package widgets

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"flatwright/engine/draw"
)

// wordsOf are the texts that a board shows, those of what is pointed at too.
func wordsOf(b *Board) (shown, lit []string) {
	for _, it := range b.flat.Items {
		if it.Shape == draw.Words {
			shown = append(shown, it.Text)
		}
	}
	for _, it := range b.wholeNotes() {
		if it.Shape == draw.Words {
			lit = append(lit, it.Text)
		}
	}
	return shown, lit
}

// A label says as much as there is room for: its mark, more when zoomed in, all of it once it is pointed
// at, and then once.
func TestLabelsByRoom(t *testing.T) {
	test.NewTempApp(t)
	b := NewBoard()
	box := []draw.Point{{X: 0, Y: 0}, {X: 1000, Y: 0}, {X: 1000, Y: 500}, {X: 0, Y: 500}}
	b.SetFigure(draw.Figure{Areas: []draw.Area{{Points: box, Pen: draw.Outline, Part: "top"}}, Notes: []draw.Note{
		{At: draw.Point{X: 500, Y: 250}, Text: "top · 1000 mm × 500 mm", Else: []string{"top"}, Room: draw.Rect{Max: draw.Point{X: 1000, Y: 500}}, Ground: draw.Sheet, Part: "top"},
	}})
	b.Resize(fyne.NewSize(140, 120))
	if shown, lit := wordsOf(b); !slices.Equal(shown, []string{"top"}) || lit != nil {
		t.Errorf("small: %q, lit %q; want the mark", shown, lit)
	}
	b.SetHovered("top")
	if _, lit := wordsOf(b); !slices.Equal(lit, []string{"top · 1000 mm × 500 mm"}) {
		t.Errorf("pointed at it says %q", lit)
	}
	for _, it := range b.wholeNotes() {
		if box := it.Box(); it.Shape == draw.Polygon && box.Width() < 140 && (box.Min.X < 0 || box.Max.X > 140) {
			t.Errorf("the whole label runs from %.0f to %.0f of 140", box.Min.X, box.Max.X)
		}
	}
	b.Resize(fyne.NewSize(600, 400))
	if shown, lit := wordsOf(b); !slices.Equal(shown, []string{"top · 1000 mm × 500 mm"}) || lit != nil {
		t.Errorf("large: %q, lit %q; want all of it, once", shown, lit)
	}
	b.SetHovered("other")
	if _, lit := wordsOf(b); lit != nil {
		t.Errorf("pointed at something else it says %q", lit)
	}
}
