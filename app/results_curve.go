package app

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// ruleColour is the colour of separators in the theme that shows.
func ruleColour() color.Color { return widgets.ThemeColor(widgets.ColorRule, nil) }

// margins is a layout with room around its objects, which lie on one another.
type margins struct{ side, top, bottom float32 }

func (m margins) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objects {
		o.Move(fyne.NewPos(m.side, m.top))
		o.Resize(fyne.NewSize(max(0, size.Width-2*m.side), max(0, size.Height-m.top-m.bottom)))
	}
}

func (m margins) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	for _, o := range objects {
		if o.Visible() {
			size = size.Max(o.MinSize())
		}
	}
	return size.AddWidthHeight(2*m.side, m.top+m.bottom)
}

// curveView draws sag over core depth: the panel as it is as a dot, the limit
// as a line across.
type curveView struct {
	object *fyne.Container
	layout *curveLayout
}

// curveHeight is the height of the picture without its words.
const curveHeight = 96

func newCurveView() *curveView {
	l := &curveLayout{}
	return &curveView{layout: l, object: container.New(l)}
}

func (v *curveView) canvasObject() fyne.CanvasObject { return v.object }

func (v *curveView) update(b block, s Snapshot) {
	v.layout.points, v.layout.at, v.layout.limit = b.curve, b.at, b.limit
	ink, pencil, accent := widgets.ThemeColor(widgets.ColorInk, v.object), widgets.ThemeColor(widgets.ColorPencil, v.object), widgets.ThemeColor(widgets.ColorAccent, v.object)
	if s.Stale {
		ink = pencil
	}
	v.layout.texts = nil
	var objects []fyne.CanvasObject
	line := func(c color.Color, width float32) {
		l := canvas.NewLine(c)
		l.StrokeWidth = width
		objects = append(objects, l)
	}
	line(pencil, 1) // floor
	line(pencil, 1) // left side
	line(accent, 1) // limit
	for range len(b.curve) - 1 {
		line(ink, 2)
	}
	dot := canvas.NewCircle(ink)
	objects = append(objects, dot)
	first, last := b.curve[0], b.curve[len(b.curve)-1]
	for _, text := range []string{
		"sag " + length.Sag(max(first.Sag, last.Sag), s.Lengths),
		"core " + s.Lengths.Print(first.CoreDepth), s.Lengths.Print(last.CoreDepth), limitWord(b.limit, s.Lengths),
	} {
		t := canvas.NewText(text, pencil)
		t.TextSize = theme.CurrentForWidget(v.object).Size(theme.SizeNameCaptionText)
		v.layout.texts = append(v.layout.texts, t)
		objects = append(objects, t)
	}
	v.object.Objects = objects
	v.object.Refresh()
}

func limitWord(limit float64, f length.Format) string {
	if !(limit > 0) {
		return ""
	}
	return "limit " + length.Sag(limit, f)
}

// curveLayout places the lines, the dot and the words of a curveView.
type curveLayout struct {
	points    []engine.DepthPoint
	at, limit float64
	texts     []*canvas.Text
}

func (l *curveLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	if len(l.points) < 2 {
		return fyne.Size{}
	}
	return fyne.NewSize(120, curveHeight+2*l.textHeight()+4)
}

func (l *curveLayout) textHeight() float32 {
	if len(l.texts) == 0 {
		return 0
	}
	return l.texts[0].MinSize().Height
}

func (l *curveLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	n := len(l.points)
	if n < 2 || len(objects) < n+3+len(l.texts) {
		return
	}
	const side = 6
	head := l.textHeight()
	low, high := l.points[0].CoreDepth, l.points[n-1].CoreDepth
	var most float64
	for _, p := range l.points {
		most = max(most, p.Sag)
	}
	if !(high > low) || !(most > 0) {
		return
	}
	width, floor := size.Width-2*side, head+2+curveHeight
	place := func(depth, sag float64) fyne.Position {
		return fyne.NewPos(side+float32((depth-low)/(high-low))*width, floor-float32(sag/most)*curveHeight)
	}
	set := func(i int, a, b fyne.Position) {
		line := objects[i].(*canvas.Line)
		line.Position1, line.Position2 = a, b
	}
	set(0, place(low, 0), place(high, 0))
	set(1, place(low, 0), place(low, most))
	limit := place(low, min(l.limit, most))
	shown := l.limit > 0 && l.limit <= most
	set(2, limit, fyne.NewPos(side+width, limit.Y))
	if shown {
		objects[2].Show()
	} else {
		objects[2].Hide()
	}
	for i := range n - 1 {
		set(3+i, place(l.points[i].CoreDepth, l.points[i].Sag), place(l.points[i+1].CoreDepth, l.points[i+1].Sag))
	}
	dot := objects[n+2]
	dot.Resize(fyne.NewSquareSize(8))
	dot.Move(place(min(max(l.at, low), high), l.sagAt(l.at)).SubtractXY(4, 4))
	for _, t := range l.texts {
		t.Resize(t.MinSize())
	}
	l.texts[0].Move(fyne.NewPos(side, 0))
	l.texts[1].Move(fyne.NewPos(side, floor+2))
	l.texts[2].Move(fyne.NewPos(side+width-l.texts[2].MinSize().Width, floor+2))
	y := limit.Y - head
	if !shown {
		y = 0
	}
	l.texts[3].Move(fyne.NewPos(side+width-l.texts[3].MinSize().Width, y))
}

// sagAt reads the drawn curve at a core depth.
func (l *curveLayout) sagAt(depth float64) float64 {
	for i := range len(l.points) - 1 {
		a, b := l.points[i], l.points[i+1]
		if depth <= b.CoreDepth && b.CoreDepth > a.CoreDepth {
			return a.Sag + (b.Sag-a.Sag)*max(0, (depth-a.CoreDepth)/(b.CoreDepth-a.CoreDepth))
		}
	}
	return l.points[len(l.points)-1].Sag
}
