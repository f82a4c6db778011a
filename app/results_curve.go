package app

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/widgets"
)

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
	widget.BaseWidget
	points    []engine.DepthPoint
	at, limit float64 // present core depth; sag limit, 0 is none
	stale     bool
	lengths   length.Format
}

// curveHeight is the height of the picture without its words.
const curveHeight = 96

func newCurveView() *curveView {
	v := &curveView{}
	v.ExtendBaseWidget(v)
	return v
}

func (v *curveView) canvasObject() fyne.CanvasObject { return v }

func (v *curveView) update(b block, s Snapshot) {
	v.points, v.at, v.limit, v.stale, v.lengths = b.curve, b.at, b.limit, s.old() || b.rough, s.Lengths
	v.Refresh()
}

// CreateRenderer links the picture to the toolkit.
func (v *curveView) CreateRenderer() fyne.WidgetRenderer {
	r := &curveRenderer{v: v}
	r.Refresh()
	return r
}

// curveRenderer has, in this order: floor, left side and limit as lines, the
// pieces of the curve, the dot, the words.
type curveRenderer struct {
	v       *curveView
	objects []fyne.CanvasObject
	texts   []*canvas.Text
}

func (r *curveRenderer) Refresh() {
	v := r.v
	r.objects, r.texts = nil, nil
	if len(v.points) < 2 {
		return
	}
	ink, pencil, accent := widgets.ThemeColor(widgets.ColorInk, v), widgets.ThemeColor(widgets.ColorPencil, v), widgets.ThemeColor(widgets.ColorAccent, v)
	if v.stale {
		ink = pencil
	}
	line := func(c color.Color, width float32) {
		l := canvas.NewLine(c)
		l.StrokeWidth = width
		r.objects = append(r.objects, l)
	}
	line(pencil, 1)
	line(pencil, 1)
	line(accent, 1)
	for range len(v.points) - 1 {
		line(ink, 2)
	}
	r.objects = append(r.objects, canvas.NewCircle(ink))
	first, last := v.points[0], v.points[len(v.points)-1]
	for _, text := range []string{
		"sag " + length.Sag(max(first.Sag, last.Sag), v.lengths),
		"core " + v.lengths.Print(first.CoreDepth), v.lengths.Print(last.CoreDepth), limitWord(v.limit, v.lengths),
	} {
		t := canvas.NewText(text, pencil)
		t.TextSize = theme.CurrentForWidget(v).Size(theme.SizeNameCaptionText)
		r.texts = append(r.texts, t)
		r.objects = append(r.objects, t)
	}
	r.Layout(v.Size())
	canvas.Refresh(v)
}

func limitWord(limit float64, f length.Format) string {
	if !(limit > 0) {
		return ""
	}
	return "limit " + length.Sag(limit, f)
}

func (r *curveRenderer) MinSize() fyne.Size {
	if len(r.v.points) < 2 {
		return fyne.Size{}
	}
	return fyne.NewSize(120, curveHeight+2*r.textHeight()+4)
}

func (r *curveRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *curveRenderer) Destroy()                     {}

func (r *curveRenderer) textHeight() float32 {
	if len(r.texts) == 0 {
		return 0
	}
	return r.texts[0].MinSize().Height
}

// Layout places the lines, the dot and the words.
func (r *curveRenderer) Layout(size fyne.Size) {
	v, objects, n := r.v, r.objects, len(r.v.points)
	if n < 2 || len(r.texts) == 0 {
		return
	}
	const side = 6
	head := r.textHeight()
	low, high := v.points[0].CoreDepth, v.points[n-1].CoreDepth
	var most float64
	for _, p := range v.points {
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
	limit := place(low, min(v.limit, most))
	shown := v.limit > 0 && v.limit <= most
	set(2, limit, fyne.NewPos(side+width, limit.Y))
	if shown {
		objects[2].Show()
	} else {
		objects[2].Hide()
	}
	for i := range n - 1 {
		set(3+i, place(v.points[i].CoreDepth, v.points[i].Sag), place(v.points[i+1].CoreDepth, v.points[i+1].Sag))
	}
	dot := objects[n+2]
	dot.Resize(fyne.NewSquareSize(8))
	dot.Move(place(min(max(v.at, low), high), v.sagAt(v.at)).SubtractXY(4, 4))
	for _, t := range r.texts {
		t.Resize(t.MinSize())
	}
	r.texts[0].Move(fyne.NewPos(side, 0))
	r.texts[1].Move(fyne.NewPos(side, floor+2))
	r.texts[2].Move(fyne.NewPos(side+width-r.texts[2].MinSize().Width, floor+2))
	y := limit.Y - head
	if !shown {
		y = 0
	}
	r.texts[3].Move(fyne.NewPos(side+width-r.texts[3].MinSize().Width, y))
}

// sagAt reads the drawn curve at a core depth.
func (v *curveView) sagAt(depth float64) float64 {
	for i := range len(v.points) - 1 {
		a, b := v.points[i], v.points[i+1]
		if depth <= b.CoreDepth && b.CoreDepth > a.CoreDepth {
			return a.Sag + (b.Sag-a.Sag)*max(0, (depth-a.CoreDepth)/(b.CoreDepth-a.CoreDepth))
		}
	}
	return v.points[len(v.points)-1].Sag
}
