package widgets

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
)

// What governs is told in as many words as the tile has room for.
func TestTileTellsInFewerWords(t *testing.T) {
	app(t)
	tile := NewTile(nil)
	d := TileData{Title: "Sag", Value: "1", GovernedBy: "A case with quite a long name, 38 % lengthwise ribs, shear", Brief: [2]string{"38 % lengthwise ribs, shear", "38 % lengthwise ribs"}}
	tile.SetTile(d)
	w := test.NewTempWindow(t, tile)
	for _, want := range []string{d.GovernedBy, d.Brief[0], d.Brief[1]} {
		width := 2*tilePad + 1 + fyne.MeasureText(want, theme.SizeForWidget(theme.SizeNameCaptionText, tile), fyne.TextStyle{}).Width
		w.Resize(fyne.NewSize(width, 110))
		tile.Resize(fyne.NewSize(width, 100))
		found := false
		for _, o := range test.WidgetRenderer(tile).Objects() {
			if text, ok := o.(*canvas.Text); ok && text.Text == want {
				found = true
			}
		}
		if !found {
			t.Errorf("%g wide it does not say %q", width, want)
		}
	}
}
