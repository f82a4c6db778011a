package widgets

import (
	"image"
	"image/color"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine/draw"
)

// ShareSegment is one piece of a [ShareBar].
type ShareSegment struct {
	Share float64 // of one
	Fill  draw.Fill
	Hatch draw.Hatch
}

// ShareBar is one bar that is divided among several shares. The pieces are
// numbered from 1 and hatched, so that they can be told without colour.
type ShareBar struct {
	widget.BaseWidget
	segments []ShareSegment
	lit      int // segment that stands out, -1 is none
	stale    bool
}

// NewShareBar returns an empty bar.
func NewShareBar() *ShareBar {
	b := &ShareBar{lit: -1}
	b.ExtendBaseWidget(b)
	return b
}

// SetSegments shows segments, in their order from the left.
func (b *ShareBar) SetSegments(segments []ShareSegment) {
	b.segments = append([]ShareSegment(nil), segments...)
	b.Refresh()
}

// SetStale shows the bar in pencil: its shares are those of an older design.
func (b *ShareBar) SetStale(stale bool) {
	if b.stale != stale {
		b.stale = stale
		b.Refresh()
	}
}

// Stale reports whether the bar is shown in pencil.
func (b *ShareBar) Stale() bool { return b.stale }

// Light frames one segment, or none below zero.
func (b *ShareBar) Light(i int) {
	if b.lit != i {
		b.lit = i
		b.Refresh()
	}
}

// Lit returns the segment that is framed, -1 is none.
func (b *ShareBar) Lit() int { return b.lit }

// span returns where segment i lies on a bar of that width.
func (b *ShareBar) span(i int, width float32) (from, to float32) {
	total, before := 0.0, 0.0
	for j, s := range b.segments {
		if j < i {
			before += max(s.Share, 0)
		}
		total += max(s.Share, 0)
	}
	if !(total > 0) {
		return 0, 0
	}
	return float32(before/total) * width, float32((before+max(b.segments[i].Share, 0))/total) * width
}

// shareHeight is the height of a bar.
const shareHeight = 28

// CreateRenderer links the bar to the toolkit.
func (b *ShareBar) CreateRenderer() fyne.WidgetRenderer {
	r := &shareRenderer{b: b, frame: canvas.NewRectangle(color.Transparent)}
	r.hatch = canvas.NewRaster(r.paint)
	r.Refresh()
	return r
}

type shareRenderer struct {
	b       *ShareBar
	hatch   *canvas.Raster
	plates  []*canvas.Rectangle
	numbers []*canvas.Text
	frame   *canvas.Rectangle
	objects []fyne.CanvasObject
}

func (r *shareRenderer) Refresh() {
	for len(r.numbers) < len(r.b.segments) {
		r.numbers = append(r.numbers, canvas.NewText("", color.Transparent))
		r.plates = append(r.plates, canvas.NewRectangle(color.Transparent))
	}
	r.numbers, r.plates = r.numbers[:len(r.b.segments)], r.plates[:len(r.b.segments)]
	ink, sheet := r.ink(), ThemeColor(ColorSheet, r.b)
	r.objects = append(r.objects[:0], r.hatch)
	for i, t := range r.numbers {
		t.Text, t.Color = strconv.Itoa(i+1), ink
		t.TextSize = theme.CurrentForWidget(r.b).Size(theme.SizeNameCaptionText)
		r.plates[i].FillColor, r.plates[i].CornerRadius = sheet, 3
		r.objects = append(r.objects, r.plates[i], t)
	}
	r.frame.StrokeColor, r.frame.StrokeWidth = ThemeColor(ColorAccent, r.b), 3
	r.objects = append(r.objects, r.frame)
	r.Layout(r.b.Size())
	r.hatch.Refresh()
	canvas.Refresh(r.b)
}

// Layout puts the numbers into their pieces; one that has no room goes.
func (r *shareRenderer) Layout(size fyne.Size) {
	r.hatch.Resize(size)
	for i, t := range r.numbers {
		from, to := r.b.span(i, size.Width)
		m := t.MinSize()
		t.Hidden = to-from < m.Width+6
		r.plates[i].Hidden = t.Hidden
		at := fyne.NewPos((from+to-m.Width)/2, (size.Height-m.Height)/2)
		t.Move(at)
		t.Resize(m)
		r.plates[i].Move(at.SubtractXY(2, 0))
		r.plates[i].Resize(m.AddWidthHeight(4, 0))
	}
	r.frame.Hidden = r.b.lit < 0 || r.b.lit >= len(r.b.segments)
	if !r.frame.Hidden {
		from, to := r.b.span(r.b.lit, size.Width)
		r.frame.Move(fyne.NewPos(from, 0))
		r.frame.Resize(fyne.NewSize(max(to-from, 3), size.Height))
	}
}

// ink is the colour of lines and numbers.
func (r *shareRenderer) ink() color.Color {
	if r.b.stale {
		return ThemeColor(ColorPencil, r.b)
	}
	return ThemeColor(ColorInk, r.b)
}

// paint fills the pieces with colour and hatch and parts them by lines.
func (r *shareRenderer) paint(w, h int) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	if w <= 0 || h <= 0 || r.b.Size().Width <= 0 {
		return img
	}
	ink := r.ink()
	scale := float64(w) / float64(r.b.Size().Width)
	line := max(1, int(scale+0.5))
	rectangle := func(x0, x1, y0, y1 int, c color.Color) {
		for y := max(y0, 0); y < min(y1, h); y++ {
			for x := max(x0, 0); x < min(x1, w); x++ {
				img.Set(x, y, c)
			}
		}
	}
	for i, s := range r.b.segments {
		a, b := r.b.span(i, float32(w))
		from, to := int(a+0.5), int(b+0.5)
		if to <= from {
			continue
		}
		if r.b.stale {
			rectangle(from, to, 0, h, ThemeColor(ColorSheet, r.b))
		} else {
			rectangle(from, to, 0, h, FillColor(s.Fill, r.b))
		}
		r.hatchPiece(img, s.Hatch, from, to, scale, faint(ink, 0.6))
		rectangle(from, from+line, 0, h, ink)
	}
	rectangle(w-line, w, 0, h, ink)
	rectangle(0, w, 0, line, ink)
	rectangle(0, w, h-line, h, ink)
	return img
}

// hatchPiece draws slanting lines over columns from to to.
func (r *shareRenderer) hatchPiece(img *image.RGBA, hatch draw.Hatch, from, to int, scale float64, c color.Color) {
	if hatch == draw.NoHatch || to <= from {
		return
	}
	h := float64(img.Bounds().Dy())
	piece := img.SubImage(image.Rect(from, 0, to, img.Bounds().Dy())).(*image.RGBA)
	for x := float64(from) - h; x < float64(to); x += 7 * scale {
		a, b := draw.Point{X: x, Y: h}, draw.Point{X: x + h}
		if hatch == draw.HatchBackslash {
			a, b = draw.Point{X: x}, draw.Point{X: x + h, Y: h}
		}
		strokeLine(piece, a, b, scale, c)
	}
}

func (r *shareRenderer) MinSize() fyne.Size { return fyne.NewSize(120, shareHeight) }

func (r *shareRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *shareRenderer) Destroy()                     {}
