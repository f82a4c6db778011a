package draw

import (
	"math"
	"strconv"
)

// Paper is the size of a sheet in mm.
type Paper struct{ Width, Height float64 }

// The papers, upright: ANSI Letter 8.5 by 11 in, ISO 216 A4.
var (
	Letter = Paper{215.9, 279.4}
	A4     = Paper{210, 297}
)

// Landscape returns p turned by a quarter.
func (p Paper) Landscape() Paper { return Paper{p.Height, p.Width} }

// Page is a sheet of paper, in mm from its upper left corner, y down. Title
// becomes its bookmark.
type Page struct {
	Title         string
	Also          []string // titles of what begins further down on it
	Width, Height float64
	Metrics       Metrics
	Flat          Flat
}

// NewPage returns an empty page.
func NewPage(title string, paper Paper, m Metrics) *Page {
	return &Page{Title: title, Width: paper.Width, Height: paper.Height, Metrics: m}
}

// ScaleThatFits returns the denominator of the largest scale 1:1, 1:2, 1:5,
// 1:10, 1:20 ... (ISO 5455, from memory, carried on in the same steps) at which
// bounds fits into width by height mm; 1 if bounds is empty. If nothing could
// fit, because there is no room or bounds is not finite, it returns the last
// step, 1:1 000 000.
func ScaleThatFits(bounds Rect, width, height float64) float64 {
	const last = 1e6
	for decade := 1.0; decade < last; decade *= 10 {
		for _, step := range []float64{1, 2, 5} {
			d := decade * step
			if bounds.Width()/d <= width && bounds.Height()/d <= height {
				return d
			}
		}
	}
	return last
}

// Place draws f centred in the rectangle at on the page, at the scale
// 1:denominator, with what its dimensions need beside it; what does not fit into
// the rectangle is cut off. It returns the view used. A denominator that is not
// above 0 counts as 1.
func (p *Page) Place(f Figure, at Rect, denominator float64) View {
	if !(denominator > 0) {
		denominator = 1
	}
	scale := 1 / denominator
	c := f.Bounds().Centre()
	m := f.Margins(p.Metrics)
	v := View{
		Scale:   scale,
		OriginX: (at.Min.X+m.Left+at.Max.X-m.Right)/2 - scale*c.X,
		OriginY: (at.Min.Y+m.Top+at.Max.Y-m.Bottom)/2 + scale*c.Y,
		Clip:    at,
	}
	p.Flat.Items = append(p.Flat.Items, f.Flatten(v, p.Metrics).Items...)
	return v
}

// FigureScale returns the denominator of the largest scale at which f and its
// dimensions fit into width by height mm of this page.
func (p *Page) FigureScale(f Figure, width, height float64) float64 {
	m := f.Margins(p.Metrics)
	return ScaleThatFits(f.Bounds(), width-m.Left-m.Right, height-m.Top-m.Bottom)
}

// Style is how text is set.
type Style struct {
	Size   TextSize
	Bold   bool
	Colour Fill // Ink if NoFill
}

// Text sets one line with its anchor at (x, y).
func (p *Page) Text(x, y float64, text string, a Anchor, s Style) {
	if text == "" {
		return
	}
	it := words(Point{x, y}, text, a, s.Size, s.Bold, p.Metrics)
	if s.Colour != NoFill {
		it.Colour = s.Colour
	}
	p.Flat.Items = append(p.Flat.Items, it)
}

// LineHeight returns the distance of the lines of running text: 1.35 em
// (common practice, no source).
func (p *Page) LineHeight(s TextSize) float64 { return 1.35 * p.Metrics.Size(s) }

// TextBlock sets text in lines of at most width mm, the first one's top at y,
// and returns the y below the last.
func (p *Page) TextBlock(x, y, width float64, text string, s Style) float64 {
	for _, line := range p.Metrics.Wrap(text, width, s.Size, s.Bold) {
		p.Text(x, y, line, AtTopLeft, s)
		y += p.LineHeight(s.Size)
	}
	return y
}

// BlockHeight returns how much height TextBlock takes for the same text.
func (p *Page) BlockHeight(width float64, text string, s Style) float64 {
	return float64(len(p.Metrics.Wrap(text, width, s.Size, s.Bold))) * p.LineHeight(s.Size)
}

// Line draws a straight line.
func (p *Page) Line(a, b Point, pen Pen) {
	e := emitter{metrics: p.Metrics}
	e.stroke([]Point{a, b}, false, pen, "")
	p.Flat.Items = append(p.Flat.Items, e.items...)
}

// Rule draws a separator from x0 to x1.
func (p *Page) Rule(x0, x1, y float64) { p.Line(Point{x0, y}, Point{x1, y}, RulePen) }

// Box draws a rectangle.
func (p *Page) Box(r Rect, fill Fill, pen Pen) {
	e := emitter{metrics: p.Metrics}
	if fill != NoFill {
		e.polygon(r.Corners(), fill, "")
	}
	e.stroke(r.Corners(), true, pen, "")
	p.Flat.Items = append(p.Flat.Items, e.items...)
}

// Checkbox draws an empty square to tick, side mm wide, upper left corner at
// (x, y).
func (p *Page) Checkbox(x, y, side float64) {
	p.Box(Rect{Point{x, y}, Point{x + side, y + side}}, NoFill, Thin)
}

// ScaleBar draws a bar of round length, at most maxWidth mm of paper long, for
// a drawing at 1:denominator, and labels it in the given unit of length; unit
// is that unit in mm. Four fields alternate dark and light. (x, y) is the upper
// left corner; it returns the y below the labels. Without room it draws nothing.
func (p *Page) ScaleBar(x, y, maxWidth, denominator, unit float64, unitName string) float64 {
	length := roundLength(maxWidth * denominator / unit) // in units of the world
	if !(length > 0) || math.IsInf(length, 0) {
		return y
	}
	paper := length * unit / denominator
	height := p.Metrics.TextSize / 2
	for i := range 4 {
		fill := Sheet
		if i%2 == 0 {
			fill = Ink
		}
		left := x + paper*float64(i)/4
		p.Box(Rect{Point{left, y}, Point{left + paper/4, y + height}}, fill, Thin)
	}
	y += height + p.Metrics.Gap
	note := Style{Size: NoteSize}
	p.Text(x, y, "0", AtTop, note)
	p.Text(x+paper/2, y, number(length/2), AtTop, note)
	p.Text(x+paper, y, number(length)+" "+unitName, AtTop, note)
	return y + p.LineHeight(NoteSize)
}

func number(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }

// roundLength returns the greatest number 1, 2 or 5 times a power of ten that
// is at most limit, 0 if limit is not above 0.
func roundLength(limit float64) float64 {
	if !(limit > 0) || math.IsInf(limit, 0) {
		return 0
	}
	decade := math.Pow(10, math.Floor(math.Log10(limit)))
	for _, step := range []float64{5, 2, 1} {
		if step*decade <= limit {
			return step * decade
		}
	}
	return decade / 2 // log10 rounded up
}
