package widgets

import (
	"image/color"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine/draw"
)

// CreateRenderer links the board to the toolkit.
func (b *Board) CreateRenderer() fyne.WidgetRenderer {
	button := func(icon fyne.Resource, act func()) *widget.Button {
		w := widget.NewButtonWithIcon("", icon, act)
		w.Importance = widget.LowImportance
		return w
	}
	r := &boardRenderer{
		b:      b,
		ground: canvas.NewRectangle(color.Transparent),
		clip:   newClip(container.NewStack(b.sheet, b.highlight)),
		plate:  canvas.NewRectangle(color.Transparent),
		buttons: container.NewHBox(
			button(theme.ZoomOutIcon(), b.ZoomOut),
			button(theme.ZoomInIcon(), b.ZoomIn),
			button(theme.ZoomFitIcon(), b.Fit),
		),
	}
	b.buttonRoom = r.buttons.MinSize()
	for i := range r.ring {
		r.ring[i] = canvas.NewRectangle(color.Transparent)
	}
	r.plate.CornerRadius = 4
	r.Refresh()
	return r
}

// plateOpacity is that of the grounds under scale bar and buttons.
const plateOpacity = 0.85

// buttonMargin is the room between the buttons and the corner.
const buttonMargin = 4

// ringWidth is the width of the frame that shows the focus.
const ringWidth = 2

type boardRenderer struct {
	b       *Board
	ground  *canvas.Rectangle
	clip    *container.Clip
	plate   *canvas.Rectangle // under the buttons
	buttons *fyne.Container
	ring    [4]*canvas.Rectangle // the focus; one hollow rectangle would be painted over its whole area
}

func (r *boardRenderer) Layout(size fyne.Size) {
	r.ground.Resize(size)
	r.clip.Resize(size)
	for i, o := range r.ring {
		o.Resize(fyne.NewSize(size.Width, ringWidth))
		if i >= 2 {
			o.Resize(fyne.NewSize(ringWidth, size.Height))
		}
	}
	r.ring[1].Move(fyne.NewPos(0, size.Height-ringWidth))
	r.ring[3].Move(fyne.NewPos(size.Width-ringWidth, 0))
	m := r.buttons.MinSize()
	r.buttons.Resize(m)
	r.buttons.Move(fyne.NewPos(size.Width-m.Width-buttonMargin, size.Height-m.Height-buttonMargin))
	r.plate.Resize(m)
	r.plate.Move(r.buttons.Position())
}

func (r *boardRenderer) MinSize() fyne.Size { return r.b.MinSize() }

// Refresh draws everything again: the theme may be another one.
func (r *boardRenderer) Refresh() {
	r.ground.FillColor = r.b.colour(draw.Sheet)
	r.plate.FillColor = faint(r.b.colour(draw.Sheet), plateOpacity)
	for _, o := range r.ring {
		o.FillColor = ThemeColor(ColorAccent, r.b)
		o.Hidden = !r.b.focused
		o.Refresh()
	}
	r.b.redraw()
	r.ground.Refresh()
	r.plate.Refresh()
	r.buttons.Refresh()
}

func (r *boardRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{
		r.ground, r.clip, r.b.bar.object, r.plate, r.buttons,
		r.ring[0], r.ring[1], r.ring[2], r.ring[3],
	}
}

func (r *boardRenderer) Destroy() {}

func (b *Board) colour(f draw.Fill) color.Color {
	if b.Palette != nil {
		if c := b.Palette(f); c != nil {
			return c
		}
	}
	return FillColor(f, b)
}

// redraw puts figure and view onto the layers.
func (b *Board) redraw() {
	size := b.Size()
	if size.Width <= 0 || size.Height <= 0 {
		return
	}
	b.scale = 1
	if c := fyne.CurrentApp().Driver().CanvasForObject(b); c != nil {
		b.scale = c.Scale()
	}
	b.view.Clip = draw.Rect{Max: draw.Point{X: float64(size.Width), Y: float64(size.Height)}}
	b.view.Covered = draw.Rect{}
	if m := b.buttonRoom; m.Width > 0 {
		b.view.Covered = draw.Rect{Min: draw.Point{X: float64(size.Width - m.Width - buttonMargin), Y: float64(size.Height - m.Height - buttonMargin)}, Max: b.view.Clip.Max}
	}
	b.flat = b.figure.Flatten(b.view, b.metrics())
	b.sheet.show(b.paint.draw(b.flat.Items, b.colour, b.scale))
	b.drawHighlight()
	b.drawScaleBar()
}

// drawHighlight outlines what is hovered and picked in the accent colour.
func (b *Board) drawHighlight() {
	b.highlight.show(b.mark.draw(b.marked(), b.highlightColour, b.scale))
}

// marked is what is drawn over the figure for what is hovered and picked.
func (b *Board) marked() []draw.Item {
	var items []draw.Item
	mark := func(part string, width float64, tint bool) {
		if part == "" {
			return
		}
		for _, it := range b.flat.Items {
			if it.Part != part && (b.Belongs == nil || !b.Belongs(it.Part, part)) {
				continue
			}
			switch it.Shape {
			case draw.Polygon:
				if tint {
					fill := it
					fill.Colour = draw.Select
					items = append(items, fill)
				}
				items = b.appendOutline(items, it.Points, width)
			case draw.Stroke:
				if !hatchLike(it) {
					it.Colour = draw.AccentInk
					items = append(items, it)
				}
			case draw.Words:
				it.Colour = draw.AccentInk
				items = append(items, it)
			}
		}
	}
	if b.hovered != b.selected {
		mark(b.hovered, 2, false)
	}
	mark(b.selected, 3, true)
	return append(items, b.wholeNotes()...)
}

// wholeNotes are the notes of the part that is pointed at which had no room for all
// their words: the first of them, and others that cover nothing.
func (b *Board) wholeNotes() []draw.Item {
	if b.hovered == "" {
		return nil
	}
	shown := map[string]bool{}
	var taken []draw.Rect
	for _, it := range b.flat.Items {
		if it.Shape == draw.Words {
			shown[it.Part+"\n"+it.Text] = true
			taken = append(taken, it.Box())
		}
	}
	var items []draw.Item
	for _, n := range b.figure.Notes {
		if len(n.Else) == 0 || n.Part != b.hovered || shown[n.Part+"\n"+n.Text] {
			continue
		}
		plate, text := n.Whole(b.view, b.metrics())
		if box := plate.Box(); len(items) == 0 || !slices.ContainsFunc(taken, box.Overlaps) {
			taken = append(taken, box)
			text.Colour = draw.AccentInk
			items = append(items, plate, text)
		}
	}
	return items
}

// appendOutline appends the edges of a polygon, but not those along which the
// board's own edge cut it off.
func (b *Board) appendOutline(items []draw.Item, points []draw.Point, width float64) []draw.Item {
	clip := b.view.Clip
	for i, q := range points {
		p := points[(i+len(points)-1)%len(points)]
		alongX := p.X == q.X && (q.X == clip.Min.X || q.X == clip.Max.X)
		alongY := p.Y == q.Y && (q.Y == clip.Min.Y || q.Y == clip.Max.Y)
		if alongX || alongY {
			continue
		}
		items = append(items, draw.Item{
			Shape: draw.Stroke, Points: []draw.Point{p, q}, Colour: draw.AccentInk, Width: width,
		})
	}
	return items
}

// highlightColour is the palette with the tint made faint.
func (b *Board) highlightColour(f draw.Fill) color.Color {
	if f == draw.Select {
		return faint(b.colour(f), 0.15)
	}
	return b.colour(f)
}

// scaleBar is the bar at the lower left, with its label above.
type scaleBar struct {
	object *fyne.Container
	plate  *canvas.Rectangle
	line   [3]*canvas.Line
	label  *canvas.Text
	length float64 // of the bar, in mm
}

func newScaleBar() scaleBar {
	s := scaleBar{
		object: container.NewWithoutLayout(),
		plate:  canvas.NewRectangle(color.Transparent),
		label:  canvas.NewText("", color.Transparent),
	}
	s.plate.CornerRadius = 4
	s.object.Add(s.plate)
	for i := range s.line {
		s.line[i] = canvas.NewLine(color.Transparent)
		s.object.Add(s.line[i])
	}
	s.object.Add(s.label)
	return s
}

func (b *Board) drawScaleBar() {
	size := b.Size()
	limit := float64(min(160, size.Width/3)) / b.view.Scale
	of := b.ScaleBar
	if of == nil {
		of = roundLength
	}
	length, label := of(limit)
	b.bar.length = length
	if !(length > 0) || len(b.figure.Areas)+len(b.figure.Lines) == 0 {
		b.bar.object.Hide()
		return
	}
	w := float32(length * b.view.Scale)
	x, y := float32(boardMargin), size.Height-10
	ends := [3][2]fyne.Position{
		{fyne.NewPos(x, y), fyne.NewPos(x+w, y)},
		{fyne.NewPos(x, y-4), fyne.NewPos(x, y+4)},
		{fyne.NewPos(x+w, y-4), fyne.NewPos(x+w, y+4)},
	}
	pencil := b.colour(draw.Pencil)
	for i, l := range b.bar.line {
		l.Position1, l.Position2 = ends[i][0], ends[i][1]
		l.StrokeColor, l.StrokeWidth = pencil, 1
	}
	setText(b.bar.label, label, pencil)
	b.bar.label.TextSize = float32(b.metrics().TextSize)
	place(b.bar.label, x, y-4-b.bar.label.MinSize().Height)
	b.bar.plate.FillColor = faint(b.colour(draw.Sheet), plateOpacity)
	b.bar.plate.Move(b.bar.label.Position().SubtractXY(4, 2))
	b.bar.plate.Resize(fyne.NewSize(max(w, b.bar.label.MinSize().Width)+8, size.Height-4-b.bar.plate.Position().Y))
	b.bar.object.Show()
	canvas.Refresh(b.bar.object)
}

func formatNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// layer is a widget that shows whatever objects it was last given.
type layer struct {
	widget.BaseWidget
	objects []fyne.CanvasObject
}

func newLayer() *layer {
	l := &layer{}
	l.ExtendBaseWidget(l)
	return l
}

func (l *layer) show(objects []fyne.CanvasObject) {
	if len(objects) == 0 && len(l.objects) == 0 {
		return
	}
	l.objects = objects
	canvas.Refresh(l)
}

// CreateRenderer links the layer to the toolkit.
func (l *layer) CreateRenderer() fyne.WidgetRenderer { return layerRenderer{l} }

type layerRenderer struct{ l *layer }

func (r layerRenderer) Layout(fyne.Size)             {}
func (r layerRenderer) MinSize() fyne.Size           { return fyne.Size{} }
func (r layerRenderer) Refresh()                     { canvas.Refresh(r.l) }
func (r layerRenderer) Objects() []fyne.CanvasObject { return r.l.objects }
func (r layerRenderer) Destroy()                     {}
