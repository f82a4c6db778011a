package app

import (
	"testing"

	"fyne.io/fyne/v2"

	"flatwright/engine/draw"
	"flatwright/widgets"
)

// In a window of 1024 × 640, zoomed in and out, no label of the sheets lies on another one, and every
// label of a part lies within its part.
func TestSheetLabelsKeepApart(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.desk.win.Resize(fyne.NewSize(1024, 640))
	board := b.cutAct().board()
	b.settle()
	metrics := draw.ScreenMetrics(func(text string, size float64, bold bool) float64 {
		return float64(fyne.MeasureText(text, float32(size), fyne.TextStyle{Bold: bold}).Width)
	})
	check := func(zoom string) (labels int) {
		t.Helper()
		var boxes []draw.Item
		for _, it := range board.Figure().Flatten(board.View(), metrics).Items {
			if it.Shape == draw.Words {
				boxes = append(boxes, it)
			}
		}
		for i, it := range boxes {
			for _, other := range boxes[:i] {
				if it.Box().Overlaps(other.Box()) {
					t.Errorf("%s: “%s” lies on “%s”", zoom, it.Text, other.Text)
				}
			}
		}
		return len(boxes)
	}
	fitted := check("all sheets")
	if size := board.Size(); size.Height > 400 || fitted < 5 {
		t.Errorf("the board is %v and has %d labels; the test says little", size, fitted)
	}
	for range 12 {
		board.ZoomIn()
		check("zoomed in")
	}
	board.Fit()
	for range 6 {
		board.ZoomOut()
		check("zoomed out")
	}
	board.Fit()
	if again := check("fitted again"); again != fitted {
		t.Errorf("%d labels after zooming about, %d before", again, fitted)
	}
	if room := widgets.BoardRoom(board.Size()); !(room.Width < board.Size().Width && room.Height < board.Size().Height) {
		t.Errorf("room %v of %v", room, board.Size())
	}
}
