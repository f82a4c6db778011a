package widgets

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"flatwright/engine/draw"
)

// pool hands out objects of one kind, and the same ones again in the next
// frame.
type pool[T any] struct {
	objects []*T
	used    int
}

func (p *pool[T]) next() *T {
	if p.used == len(p.objects) {
		p.objects = append(p.objects, new(T))
	}
	p.used++
	return p.objects[p.used-1]
}

// painter turns the items of a flat into objects of the toolkit. It keeps the
// objects between frames.
type painter struct {
	rects    pool[canvas.Rectangle]
	polygons pool[canvas.ArbitraryPolygon]
	lines    pool[canvas.Line]
	texts    pool[canvas.Text]
	rasters  pool[canvas.Raster]
	turned   turnedTexts

	objects []fyne.CanvasObject
	colours map[draw.Fill]color.Color
	scale   float32
}

// draw returns the objects that show items, the last on top. The slice is
// valid until the next call.
func (p *painter) draw(items []draw.Item, colour func(draw.Fill) color.Color, scale float32) []fyne.CanvasObject {
	p.rects.used, p.polygons.used, p.lines.used, p.texts.used, p.rasters.used = 0, 0, 0, 0, 0
	p.turned.begin()
	p.objects = make([]fyne.CanvasObject, 0, len(p.objects))
	p.colours = map[draw.Fill]color.Color{}
	p.scale = scale
	of := func(f draw.Fill) color.Color {
		c, ok := p.colours[f]
		if !ok {
			c = colour(f)
			p.colours[f] = c
		}
		return c
	}
	for i := 0; i < len(items); i++ {
		it := items[i]
		switch it.Shape {
		case draw.Polygon:
			if it.Colour != draw.NoFill {
				p.polygon(it.Points, of(it.Colour))
			}
		case draw.Stroke:
			if n := hatchRun(items[i:]); n >= shortestRun {
				p.hatch(items[i:i+n], of(it.Colour))
				i += n - 1
				continue
			}
			for _, s := range it.Segments() {
				p.line(s[0], s[1], it.Width, of(it.Colour))
			}
		case draw.Words:
			if len(it.Points) > 0 {
				p.words(it, of(it.Colour))
			}
		}
	}
	p.turned.end()
	return p.objects
}

func (p *painter) add(o fyne.CanvasObject) { p.objects = append(p.objects, o) }

// mostCorners is how many corners the toolkit's polygon can have.
const mostCorners = 16

// smallPolygon is the size below which a polygon, such as an arrow head, is
// painted by ourselves: the toolkit moves corners to whole pixels.
const smallPolygon = 16

func (p *painter) polygon(points []draw.Point, c color.Color) {
	if r, ok := upright(points); ok {
		o := p.rects.next()
		o.FillColor = c
		// At least a pixel, or a thin part would vanish when small.
		w, h := max(r.Width(), 1/float64(p.scale)), max(r.Height(), 1/float64(p.scale))
		o.Move(position(r.Min))
		o.Resize(fyne.NewSize(float32(w), float32(h)))
		p.add(o)
		return
	}
	r := boundsOf(points)
	if len(points) > mostCorners || min(r.Width(), r.Height()) < smallPolygon {
		p.rasterPolygon(points, c)
		return
	}
	o := p.polygons.next()
	o.FillColor = c
	o.Points = o.Points[:0]
	for i := range points {
		q := points[i]
		if !clockwise(points) {
			q = points[len(points)-1-i]
		}
		o.Points = append(o.Points, fyne.NewPos(float32(q.X-r.Min.X), float32(q.Y-r.Min.Y)))
	}
	o.Move(position(r.Min))
	o.Resize(fyne.NewSize(float32(r.Width()), float32(r.Height())))
	p.add(o)
}

func (p *painter) line(a, b draw.Point, width float64, c color.Color) {
	o := p.lines.next()
	o.Position1, o.Position2 = position(a), position(b)
	o.StrokeWidth, o.StrokeColor = float32(width), c
	p.add(o)
}

func (p *painter) words(it draw.Item, c color.Color) {
	style := fyne.TextStyle{Bold: it.Bold}
	size := float32(it.Size)
	if it.Angle == 90 {
		p.add(p.turned.object(it, c, p.scale))
		return
	}
	o := p.texts.next()
	o.Text, o.TextSize, o.TextStyle, o.Color = it.Text, size, style, c
	at := position(it.Points[0])
	o.Resize(o.MinSize())
	o.Move(fyne.NewPos(at.X, at.Y-baseline(size)))
	p.add(o)
}

func position(p draw.Point) fyne.Position { return fyne.NewPos(float32(p.X), float32(p.Y)) }

// measure is the width of text on screen, for draw.Metrics.
func measure(text string, size float64, bold bool) float64 {
	return float64(fyne.MeasureText(text, float32(size), fyne.TextStyle{Bold: bold}).Width)
}

// upright returns points as a rectangle if that is what they are.
func upright(points []draw.Point) (draw.Rect, bool) {
	if len(points) != 4 {
		return draw.Rect{}, false
	}
	r := boundsOf(points)
	for i, q := range points {
		next := points[(i+1)%4]
		if (q.X != r.Min.X && q.X != r.Max.X) || (q.Y != r.Min.Y && q.Y != r.Max.Y) {
			return r, false
		}
		if q.X != next.X && q.Y != next.Y {
			return r, false
		}
	}
	return r, true
}

func boundsOf(points []draw.Point) draw.Rect {
	inf := math.Inf(1)
	r := draw.Rect{Min: draw.Point{X: inf, Y: inf}, Max: draw.Point{X: -inf, Y: -inf}}
	for _, q := range points {
		r.Min.X, r.Min.Y = min(r.Min.X, q.X), min(r.Min.Y, q.Y)
		r.Max.X, r.Max.Y = max(r.Max.X, q.X), max(r.Max.Y, q.Y)
	}
	return r
}

// clockwise reports whether points run clockwise as seen, y down.
func clockwise(points []draw.Point) bool {
	area := 0.0
	for i, q := range points {
		next := points[(i+1)%len(points)]
		area += q.X*next.Y - next.X*q.Y
	}
	return area >= 0
}
