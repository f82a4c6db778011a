package app

import (
	"fyne.io/fyne/v2"

	"flatwright/widgets"
)

// newScaledBoard returns a board whose scale bar is in the unit that is shown.
func newScaledBoard(s *Session) *widgets.Board {
	b := widgets.NewBoard()
	b.ScaleBar = func(limit float64) (float64, string) { return scaleBar(limit, s.Now().Lengths) }
	return b
}

// newPartsBoard returns a board whose parts are picked and light up together with
// those of every other view.
func newPartsBoard(s *Session) *widgets.Board {
	b := newScaledBoard(s)
	b.OnHover = s.Hover
	b.OnSelect = s.Select
	s.WatchFocus(func(f Focus) {
		b.SetSelected(f.Part)
		b.SetHovered(f.Hover)
	})
	return b
}

// allRoom is a layout that gives its one object all the room there is and tells
// when that has changed, since what is drawn may depend on it.
type allRoom struct {
	room    fyne.Size
	changed func()
}

// Layout gives the object the room.
func (l *allRoom) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objects {
		o.Move(fyne.Position{})
		o.Resize(size)
	}
	if size != l.room {
		l.room = size
		l.changed()
	}
}

// MinSize is that of the object.
func (l *allRoom) MinSize(objects []fyne.CanvasObject) fyne.Size { return objects[0].MinSize() }
