package widgets

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// LineData is what a [Line] shows.
type LineData struct {
	Name   string // wraps; the whole line if there is no figure
	Figure string // "0.23"; right-aligned with those of the lines around
	Unit   string // "mm", in pencil colour
	Note   string // small, below
	State  State  // colours the figure, or the name if there is no figure
	Stale  bool   // all in pencil colour
	Quiet  bool   // the name in pencil colour
}

// Line is one line of results: a name, a figure with its unit, a note below.
type Line struct {
	widget.BaseWidget
	data LineData
}

// NewLine returns a line that shows data.
func NewLine(data LineData) *Line {
	l := &Line{data: data}
	l.ExtendBaseWidget(l)
	return l
}

// Set shows data.
func (l *Line) Set(data LineData) {
	if l.data == data {
		return
	}
	l.data = data
	l.Refresh()
}

// Data returns what is shown.
func (l *Line) Data() LineData { return l.data }

// unitColumn is the width kept for units, so that figures end on one line.
const unitColumn = 44

// CreateRenderer links the line to the toolkit.
func (l *Line) CreateRenderer() fyne.WidgetRenderer {
	r := &lineRenderer{
		l:    l,
		name: newSentence(ColorInk, theme.SizeNameText), note: newSentence(ColorPencil, theme.SizeNameCaptionText),
		figure: canvas.NewText("", color.Transparent), unit: canvas.NewText("", color.Transparent),
	}
	r.Refresh()
	return r
}

type lineRenderer struct {
	l            *Line
	name, note   *sentence
	figure, unit *canvas.Text
}

func (r *lineRenderer) Refresh() {
	d := r.l.data
	name, figure, note := ColorInk, ColorInk, ColorPencil
	if d.Quiet {
		name = ColorPencil
	}
	if d.State != None {
		figure = d.State.Color()
		if d.Figure == "" {
			name = figure
		}
		if strings.ContainsAny(d.Note, "●▲■") {
			note = figure
		}
	}
	if d.Stale {
		name, figure, note = ColorPencil, ColorPencil, ColorPencil
	}
	r.name.set(d.Name, name)
	r.note.set(d.Note, note)
	r.name.Refresh()
	r.note.Refresh()
	size := theme.CurrentForWidget(r.l).Size(theme.SizeNameText)
	r.figure.Text, r.figure.TextSize, r.figure.Color = d.Figure, size, ThemeColor(figure, r.l)
	r.unit.Text, r.unit.TextSize, r.unit.Color = d.Unit, size, ThemeColor(ColorPencil, r.l)
	r.Layout(r.l.Size())
	canvas.Refresh(r.l)
}

// linePad is the room between a line's edge and its text, so that a focus
// frame does not touch it.
const linePad = 4

// Layout gives the figure what it needs and the name the rest; a figure that
// would leave the name less than half of the line goes below it.
func (r *lineRenderer) Layout(size fyne.Size) {
	width := max(size.Width-2*linePad, 1)
	if size.Width <= 0 {
		width = assumedWidth
	}
	h, unit := r.figure.MinSize().Height, float32(0)
	if r.l.data.Unit != "" || r.l.data.Figure != "" {
		unit = max(unitColumn, r.unit.MinSize().Width)
	}
	whole := r.figure.MinSize().Width + unit + 4
	room, beside := width, float32(0)
	if r.l.data.Figure != "" && width-whole-8 >= width*0.4 {
		room, beside = width-whole-8, h
	}
	r.name.Resize(fyne.NewSize(room, r.name.MinSize().Height))
	nameHeight := r.name.MinSize().Height
	r.name.Resize(fyne.NewSize(room, nameHeight))
	r.name.Move(fyne.NewPos(linePad, linePad/2))
	y := float32(linePad/2) + max(nameHeight, beside)
	figureY := float32(linePad / 2)
	if r.l.data.Figure != "" && beside == 0 {
		figureY = y
		y += h
	}
	r.figure.Move(fyne.NewPos(linePad+width-unit-4-r.figure.MinSize().Width, figureY))
	r.figure.Resize(r.figure.MinSize())
	r.unit.Move(fyne.NewPos(linePad+width-unit, figureY))
	r.unit.Resize(r.unit.MinSize())
	r.note.Resize(fyne.NewSize(width, r.note.MinSize().Height))
	r.note.Resize(fyne.NewSize(width, r.note.MinSize().Height))
	r.note.Move(fyne.NewPos(linePad, y))
}

// MinSize is as high as the line is at its present width.
func (r *lineRenderer) MinSize() fyne.Size {
	bottom := r.name.Position().Y + r.name.MinSize().Height
	if r.l.data.Figure != "" {
		bottom = max(bottom, r.figure.Position().Y+r.figure.MinSize().Height)
	}
	return fyne.NewSize(0, bottom+r.note.MinSize().Height+linePad/2)
}

func (r *lineRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.name, r.figure, r.unit, r.note}
}

func (r *lineRenderer) Destroy() {}
