package widgets

import (
	"image"
	"image/color"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"flatwright/engine/draw"
)

// shortestRun is the number of hatch lines from which on one raster is cheaper
// than a line object each.
const shortestRun = 4

// hatchLike reports whether it is a single slanting line as hatches are made
// of.
func hatchLike(it draw.Item) bool {
	return it.Shape == draw.Stroke && len(it.Points) == 2 && !it.Closed && it.Dash == nil &&
		it.Colour == draw.Pencil &&
		it.Points[0].X != it.Points[1].X && it.Points[0].Y != it.Points[1].Y
}

// hatchRun returns how many items from the first on are one hatch.
func hatchRun(items []draw.Item) int {
	first := items[0]
	n := 0
	for n < len(items) && hatchLike(items[n]) && items[n].Part == first.Part &&
		items[n].Width == first.Width {
		n++
	}
	return n
}

// hatch adds one raster for all the lines: a thousand line objects would cost
// more to paint than everything else together.
func (p *painter) hatch(items []draw.Item, c color.Color) {
	lines := make([][2]draw.Point, len(items))
	ends := make([]draw.Point, 0, 2*len(items))
	for i, it := range items {
		lines[i] = [2]draw.Point{it.Points[0], it.Points[1]}
		ends = append(ends, it.Points...)
	}
	width := items[0].Width
	// Rounded as the toolkit rounds the area: the soft ends of the lines must
	// not stand out over its edge.
	p.raster(p.snapped(boundsOf(ends), math.Round, math.Round), func(img *image.RGBA, at draw.Point, scale float64) {
		for _, l := range lines {
			strokeLine(img, pixel(l[0], at, scale), pixel(l[1], at, scale), width*scale, c)
		}
	})
}

// rasterPolygon adds a polygon of any number of corners.
func (p *painter) rasterPolygon(points []draw.Point, c color.Color) {
	points = slices.Clone(points)
	p.raster(p.snapped(boundsOf(points), math.Floor, math.Ceil), func(img *image.RGBA, at draw.Point, scale float64) {
		q := make([]draw.Point, len(points))
		for i, v := range points {
			q[i] = pixel(v, at, scale)
		}
		fillPolygon(img, q, c)
	})
}

// snapped returns r with its edges on whole pixels, one wide and high at least.
func (p *painter) snapped(r draw.Rect, low, high func(float64) float64) draw.Rect {
	s := float64(p.scale)
	r.Min = draw.Point{X: low(r.Min.X*s) / s, Y: low(r.Min.Y*s) / s}
	r.Max.X = max(high(r.Max.X*s)/s, r.Min.X+1/s)
	r.Max.Y = max(high(r.Max.Y*s)/s, r.Min.Y+1/s)
	return r
}

// raster adds an image over r, which is whole pixels, that paint fills.
func (p *painter) raster(r draw.Rect, paint func(img *image.RGBA, at draw.Point, scale float64)) {
	at := r.Min
	o := p.rasters.next()
	o.Generator = func(w, h int) image.Image {
		img := image.NewRGBA(image.Rect(0, 0, w, h))
		paint(img, at, float64(w)/r.Width())
		return img
	}
	o.ScaleMode = canvas.ImageScalePixels
	o.Move(position(at))
	o.Resize(fyne.NewSize(float32(r.Width()), float32(r.Height())))
	p.add(o)
}

// pixel returns where v is on an image whose upper left corner is at at.
func pixel(v, at draw.Point, scale float64) draw.Point {
	return draw.Point{X: (v.X - at.X) * scale, Y: (v.Y - at.Y) * scale}
}

// strokeLine draws a line of width pixels from a to b with soft edges.
func strokeLine(img *image.RGBA, a, b draw.Point, width float64, c color.Color) {
	dx, dy := b.X-a.X, b.Y-a.Y
	length := math.Hypot(dx, dy)
	if !(length > 0) {
		return
	}
	steep := math.Abs(dy) > math.Abs(dx)
	if steep {
		a.X, a.Y, b.X, b.Y, dx, dy = a.Y, a.X, b.Y, b.X, dy, dx
	}
	if a.X > b.X {
		a, b, dx, dy = b, a, -dx, -dy
	}
	slope := dy / dx
	half := width / 2 * length / math.Abs(dx) // of the line, measured upright
	for x := int(math.Floor(a.X)); x <= int(math.Ceil(b.X))-1; x++ {
		along := min(float64(x)+1, b.X) - max(float64(x), a.X) // share of the column
		mid := a.Y + slope*(float64(x)+0.5-a.X)
		for y := int(math.Floor(mid - half)); float64(y) < mid+half; y++ {
			share := min(float64(y)+1, mid+half) - max(float64(y), mid-half)
			if steep {
				blend(img, y, x, c, share*along)
			} else {
				blend(img, x, y, c, share*along)
			}
		}
	}
}

// fillPolygon fills points by the odd-even rule, four scan lines a pixel.
func fillPolygon(img *image.RGBA, points []draw.Point, c color.Color) {
	const lines = 4
	box := img.Bounds()
	cover := make([]float64, box.Dx())
	r, g, b, a := c.RGBA()
	solid, opaque := [4]uint8{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8), 0xff}, a == 0xffff
	for y := box.Min.Y; y < box.Max.Y; y++ {
		clear(cover)
		for k := range lines {
			addSpans(cover, points, float64(y)+(float64(k)+0.5)/lines, 1.0/lines)
		}
		for x, share := range cover {
			if opaque && share > 1-1e-9 { // most of a large area
				copy(img.Pix[img.PixOffset(x, y):], solid[:])
				continue
			}
			blend(img, x, y, c, share)
		}
	}
}

// addSpans adds share to the pixels of a row that lie inside points at height
// y, and less to those that lie partly inside.
func addSpans(cover []float64, points []draw.Point, y, share float64) {
	var cuts []float64
	for i, b := range points {
		a := points[(i+len(points)-1)%len(points)]
		if (a.Y > y) != (b.Y > y) {
			cuts = append(cuts, a.X+(b.X-a.X)*(y-a.Y)/(b.Y-a.Y))
		}
	}
	slices.Sort(cuts)
	for i := 0; i+1 < len(cuts); i += 2 {
		from, to := max(cuts[i], 0), min(cuts[i+1], float64(len(cover)))
		if !(from < to) {
			continue
		}
		first, last := int(from), int(math.Ceil(to))-1
		if first == last {
			cover[first] += share * (to - from)
			continue
		}
		cover[first] += share * (float64(first) + 1 - from)
		for x := first + 1; x < last; x++ {
			cover[x] += share
		}
		cover[last] += share * (to - float64(last))
	}
}

// blend lays c over the pixel at (x, y) with a share of its opacity.
func blend(img *image.RGBA, x, y int, c color.Color, share float64) {
	if share <= 0 || !(image.Point{X: x, Y: y}).In(img.Rect) {
		return
	}
	r, g, b, a := c.RGBA()
	keep := 1 - share*float64(a)/0xffff
	i := img.PixOffset(x, y)
	for k, v := range [4]uint32{r, g, b, a} {
		img.Pix[i+k] = uint8(min(255, share*float64(v)/257+keep*float64(img.Pix[i+k])+0.5))
	}
}
