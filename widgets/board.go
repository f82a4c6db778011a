package widgets

import (
	"image/color"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine/draw"
)

// Board shows a [draw.Figure] that can be zoomed, panned and picked from.
//
// The wheel zooms about the pointer; a drag moves the part it began on if that
// can be moved, else it pans. With the keyboard: arrows move the part that is
// picked if it can be moved, with shift by a coarse step, else they pan; + and -
// zoom, 0 or F fits, Tab goes through the parts that can be moved and then on,
// [ and ] step through all parts, Enter picks the part under the pointer or opens
// the one that is picked, Escape puts back what is being dragged or picks nothing.
type Board struct {
	widget.BaseWidget

	// Palette gives the colour of a fill, [FillColor] if nil. It is asked again
	// on every Refresh.
	Palette func(draw.Fill) color.Color
	// ScaleBar returns the longest round length of at most limit mm and its
	// label; if nil, 1, 2 or 5 times a power of ten in mm.
	ScaleBar func(limit float64) (length float64, label string)
	// OnHover is called when the pointer comes over another part, "" for none.
	OnHover func(part string)
	// OnSelect is called when the user picks a part, "" for none.
	OnSelect func(part string)
	// OnOpen is called when Enter asks for more about the part that is picked.
	OnOpen func(part string)
	// CanDrag reports whether a part can be moved; if nil, none can.
	CanDrag func(part string) bool
	// Belongs reports whether a part is one of those that a name lights up or
	// picks; if nil, a name is that of one part.
	Belongs func(part, name string) bool
	// OnDrag is called while a part is dragged: from is the place in the world
	// where the drag began, to the one under the pointer. The last call of a
	// drag has done set; if the drag was given up, to is from again.
	OnDrag func(part string, from, to draw.Point, done bool)
	// OnNudge is called when an arrow key moves the part that is picked: dx
	// steps to the right and dy steps up, coarse ones with shift.
	OnNudge func(part string, dx, dy int, coarse bool)

	figure   draw.Figure
	view     draw.View
	fitted   bool // the view follows size and figure
	flat     draw.Flat
	scale    float32 // pixels per unit of the canvas when last drawn
	hovered  string
	selected string
	focused  bool
	drag     drag
	shift    func() bool // whether shift is held

	buttonRoom fyne.Size // that the buttons cover in the corner

	sheet     *layer // the drawing
	highlight *layer // what is hovered and selected
	paint     painter
	mark      painter
	bar       scaleBar
}

// Limits of the scale in pixels per mm, and the least room around the figure.
const (
	smallestScale = 1e-3
	largestScale  = 100
	boardMargin   = 12
	chromeHeight  = 44 // room at the foot for scale bar and buttons
	boardArrow    = 12
)

// NewBoard returns an empty board.
func NewBoard() *Board {
	b := &Board{fitted: true, view: draw.View{Scale: 1}, shift: shiftHeld}
	b.sheet, b.highlight = newLayer(), newLayer()
	b.bar = newScaleBar()
	b.ExtendBaseWidget(b)
	return b
}

// SetFigure shows f. The view stays unless it is fitted and no part is held,
// which would slip away under the pointer.
func (b *Board) SetFigure(f draw.Figure) {
	b.figure = f
	if b.fitted && !b.holding() {
		b.fit()
	}
	b.redraw()
}

// Figure returns the figure shown.
func (b *Board) Figure() draw.Figure { return b.figure }

// View returns how the figure lies on the board now.
func (b *Board) View() draw.View { return b.view }

// Fit shows the whole figure, and keeps doing so when the size changes until
// the user zooms or pans.
func (b *Board) Fit() {
	b.fitted = true
	b.fit()
	b.redraw()
}

// Fitted reports whether the view follows size and figure.
func (b *Board) Fitted() bool { return b.fitted }

// ZoomIn zooms in about the middle.
func (b *Board) ZoomIn() { b.zoom(1.25, b.Size().Width/2, b.Size().Height/2) }

// ZoomOut zooms out about the middle.
func (b *Board) ZoomOut() { b.zoom(1/1.25, b.Size().Width/2, b.Size().Height/2) }

// SetSelected marks part as picked. It does not call OnSelect.
func (b *Board) SetSelected(part string) {
	if b.selected != part {
		b.selected = part
		b.drawHighlight()
	}
}

// Selected returns the part marked as picked.
func (b *Board) Selected() string { return b.selected }

// SetHovered lights part up. It does not call OnHover.
func (b *Board) SetHovered(part string) {
	if b.hovered != part {
		b.hovered = part
		b.drawHighlight()
	}
}

// Hovered returns the part lit up.
func (b *Board) Hovered() string { return b.hovered }

// Resize keeps the fit, or the middle of the view.
func (b *Board) Resize(size fyne.Size) {
	old := b.Size()
	b.BaseWidget.Resize(size)
	if size == old {
		return
	}
	if b.fitted {
		b.fit()
	} else {
		b.view = b.view.Pan(float64(size.Width-old.Width)/2, float64(size.Height-old.Height)/2)
	}
	b.redraw()
}

// MinSize leaves room for the buttons and a drawing worth the name.
func (b *Board) MinSize() fyne.Size { return fyne.NewSize(240, 160) }

// BoardRoom returns how much of a board of a size is left for a figure, beside the margins,
// the scale bar and the buttons.
func BoardRoom(size fyne.Size) fyne.Size {
	const side = 2 * (boardMargin + boardArrow)
	return fyne.NewSize(max(1, size.Width-side), max(1, size.Height-side-chromeHeight+boardMargin))
}

// metrics are those of a screen with longer arrows: heads of 8 pixels, a quarter
// as wide, did not show as heads.
func (b *Board) metrics() draw.Metrics {
	m := draw.ScreenMetrics(measure)
	m.Arrow = boardArrow
	return m
}

func (b *Board) fit() {
	size := b.Size()
	m := b.figure.Margins(b.metrics())
	m.Left += boardMargin
	m.Right += boardMargin
	m.Top += boardMargin
	m.Bottom += chromeHeight
	b.view = draw.Fit(b.figure.Bounds(), float64(size.Width), float64(size.Height), m)
}

// zoom scales the view about (x, y), within limits.
func (b *Board) zoom(factor float64, x, y float32) {
	target := min(max(b.view.Scale*factor, smallestScale), largestScale)
	b.fitted = false
	b.view = b.view.Zoom(target/b.view.Scale, float64(x), float64(y))
	b.redraw()
}

func (b *Board) pan(dx, dy float32) {
	b.fitted = false
	b.view = b.view.Pan(float64(dx), float64(dy))
	b.redraw()
}

// pick is the user's choice of part.
func (b *Board) pick(part string) {
	b.SetSelected(part)
	if b.OnSelect != nil {
		b.OnSelect(part)
	}
}

// parts returns the parts of the figure in drawing order, each once.
func (b *Board) parts() []string {
	var parts []string
	seen := map[string]bool{"": true}
	add := func(part string) {
		if !seen[part] {
			seen[part] = true
			parts = append(parts, part)
		}
	}
	for _, a := range b.figure.Areas {
		add(a.Part)
	}
	for _, l := range b.figure.Lines {
		add(l.Part)
	}
	for _, m := range b.figure.Marks {
		add(m.Part)
	}
	for _, d := range b.figure.Dimensions {
		add(d.Part)
	}
	return parts
}

// movable returns the part that can be moved after the one that is picked, or
// before it; ok is false behind the last and before the first.
func (b *Board) movable(by int) (part string, ok bool) {
	var parts []string
	for _, p := range b.parts() {
		if b.canDrag(p) {
			parts = append(parts, p)
		}
	}
	at := slices.Index(parts, b.selected) + by
	if at < 0 || at >= len(parts) {
		return "", false
	}
	return parts[at], true
}

// step picks the next or previous part and brings it into view.
func (b *Board) step(by int) {
	parts := b.parts()
	if len(parts) == 0 {
		return
	}
	at := slices.Index(parts, b.selected)
	if at < 0 && by < 0 {
		at = 0
	}
	part := parts[(at+by+len(parts))%len(parts)]
	b.reveal(part)
	b.pick(part)
}

// reveal pans to part if nothing of it shows.
func (b *Board) reveal(part string) {
	for _, it := range b.flat.Items {
		if it.Part == part {
			return
		}
	}
	only := draw.Figure{}
	for _, a := range b.figure.Areas {
		if a.Part == part {
			only.Areas = append(only.Areas, a)
		}
	}
	for _, l := range b.figure.Lines {
		if l.Part == part {
			only.Lines = append(only.Lines, l)
		}
	}
	if len(only.Areas)+len(only.Lines) == 0 {
		return
	}
	p := b.view.Map(only.Bounds().Centre())
	size := b.Size()
	b.pan(size.Width/2-float32(p.X), size.Height/2-float32(p.Y))
}

// roundLength is the ScaleBar of a board that was given none.
func roundLength(limit float64) (float64, string) {
	if !(limit > 0) || math.IsInf(limit, 0) {
		return 0, ""
	}
	power := math.Pow(10, math.Floor(math.Log10(limit)))
	length := power
	for _, m := range []float64{2, 5} {
		if m*power <= limit {
			length = m * power
		}
	}
	return length, formatNumber(length) + " mm"
}
