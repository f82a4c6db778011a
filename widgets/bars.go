package widgets

import (
	"image/color"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// BarRow is one row of [Bars]: what a step down and a step up do, in the same
// unit, and how to print both.
type BarRow struct {
	Label            string
	Down, Up         float64
	DownText, UpText string
}

// Bars shows pairs of small horizontal bars to the left and right of a zero
// line, all to one scale. The upper bar of a pair is the step down, outlined;
// the lower one the step up, filled.
type Bars struct {
	widget.BaseWidget
	rows  []BarRow
	among []BarRow // give the scale and the room for words
	stale bool
}

// NewBars returns bars without rows.
func NewBars() *Bars {
	b := &Bars{}
	b.ExtendBaseWidget(b)
	return b
}

// SetRows shows rows to a scale of their own.
func (b *Bars) SetRows(rows []BarRow) { b.SetRowsAmong(rows, rows) }

// SetRowsAmong shows rows to the scale of a longer list, so that bars which
// stand in several widgets can be compared.
func (b *Bars) SetRowsAmong(rows, among []BarRow) {
	b.rows, b.among = slices.Clone(rows), slices.Clone(among)
	b.Refresh()
}

// SetStale shows the bars in pencil colour while newer ones are awaited.
func (b *Bars) SetStale(stale bool) {
	if b.stale != stale {
		b.stale = stale
		b.Refresh()
	}
}

// CreateRenderer links the bars to the toolkit.
func (b *Bars) CreateRenderer() fyne.WidgetRenderer {
	r := &barsRenderer{b: b}
	r.Refresh()
	return r
}

type barRow struct {
	label *sentence
	bars  [2]*canvas.Rectangle
	texts [2]*canvas.Text
	zero  *canvas.Line
}

type barsRenderer struct {
	b       *Bars
	rows    []barRow
	objects []fyne.CanvasObject
}

const (
	barHeight = 6
	barsWidth = 200
)

func (r *barsRenderer) Refresh() {
	for len(r.rows) < len(r.b.rows) {
		row := barRow{label: newSentence(ColorInk, theme.SizeNameText), zero: canvas.NewLine(color.Transparent)}
		for i := range 2 {
			row.bars[i] = canvas.NewRectangle(color.Transparent)
			row.texts[i] = canvas.NewText("", color.Transparent)
		}
		r.rows = append(r.rows, row)
	}
	r.rows = r.rows[:len(r.b.rows)]
	accent, pencil := ThemeColor(ColorAccent, r.b), ThemeColor(ColorPencil, r.b)
	label := ColorInk
	if r.b.stale {
		label, accent = ColorPencil, pencil
	}
	small := theme.CurrentForWidget(r.b).Size(theme.SizeNameCaptionText)
	r.objects = r.objects[:0]
	for i, row := range r.rows {
		d := r.b.rows[i]
		row.label.set(d.Label, label)
		row.label.Refresh()
		for j, text := range []string{d.DownText, d.UpText} {
			setText(row.texts[j], text, pencil)
			row.texts[j].TextSize = small
			row.bars[j].StrokeColor, row.bars[j].StrokeWidth = accent, 1
		}
		row.bars[0].FillColor, row.bars[1].FillColor = ThemeColor(ColorSheet, r.b), accent
		row.zero.StrokeColor, row.zero.StrokeWidth = pencil, 1
		r.objects = append(r.objects, row.label, row.bars[0], row.bars[1], row.zero, row.texts[0], row.texts[1])
	}
	r.Layout(r.b.Size())
	canvas.Refresh(r.b)
}

// span returns the smallest and the largest value shown, zero included. What is
// not a number is left out.
func (b *Bars) span() (low, high float64) {
	for _, row := range b.among {
		for _, v := range []float64{row.Down, row.Up} {
			if !math.IsNaN(v) && !math.IsInf(v, 0) {
				low, high = min(low, v), max(high, v)
			}
		}
	}
	return low, high
}

func (r *barsRenderer) Layout(size fyne.Size) {
	width := size.Width
	if width <= 0 {
		width = barsWidth
	}
	textWidth, small := float32(0), theme.CurrentForWidget(r.b).Size(theme.SizeNameCaptionText)
	for _, row := range r.b.among {
		for _, text := range []string{row.DownText, row.UpText} {
			textWidth = max(textWidth, fyne.MeasureText(text, small, fyne.TextStyle{}).Width)
		}
	}
	plot := max(width-textWidth-8, 24)
	low, high := r.b.span()
	at := func(v float64) float32 {
		if high <= low || math.IsNaN(v) {
			v = low
		}
		return float32((min(max(v, low), high)-low)/max(high-low, math.SmallestNonzeroFloat64)) * plot
	}
	line := lineHeight(small)
	y := float32(0)
	for i, row := range r.rows {
		row.label.Resize(fyne.NewSize(width, row.label.MinSize().Height))
		row.label.Move(fyne.NewPos(0, y))
		y += row.label.MinSize().Height
		row.zero.Position1 = fyne.NewPos(at(0), y)
		row.zero.Position2 = fyne.NewPos(at(0), y+2*line)
		for j, v := range []float64{r.b.rows[i].Down, r.b.rows[i].Up} {
			from, to := at(0), at(v)
			if math.IsNaN(v) {
				to = from
			}
			row.bars[j].Resize(fyne.NewSize(max(from, to)-min(from, to), barHeight))
			row.bars[j].Move(fyne.NewPos(min(from, to), y+(line-barHeight)/2))
			place(row.texts[j], plot+8, y)
			y += line
		}
		y += 8
	}
}

func (r *barsRenderer) MinSize() fyne.Size {
	line := lineHeight(theme.CurrentForWidget(r.b).Size(theme.SizeNameCaptionText))
	h := float32(0)
	for _, row := range r.rows {
		h += row.label.MinSize().Height + 2*line + 8
	}
	return fyne.NewSize(barsWidth, max(0, h-8))
}

func (r *barsRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *barsRenderer) Destroy()                     {}
