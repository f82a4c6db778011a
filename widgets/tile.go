package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// State says how a figure stands to its limit.
type State uint8

// The states. Each shows as a colour, a shape and a word.
const (
	None State = iota // no limit
	Good              // within
	Near              // near
	Over              // over
)

// Word returns the state's shape and word, "" for None.
func (s State) Word() string {
	switch s {
	case Good:
		return "● within"
	case Near:
		return "▲ near"
	case Over:
		return "■ over"
	}
	return ""
}

// Color returns the name of the state's colour.
func (s State) Color() fyne.ThemeColorName {
	switch s {
	case Good:
		return ColorGood
	case Near:
		return ColorNear
	case Over:
		return ColorOver
	}
	return ColorPencil
}

// TileData is what a [Tile] shows.
type TileData struct {
	Title      string // "Sag"
	Value      string // "1.2 (0.9 to 1.6)"
	Unit       string // "mm"
	Limit      string // "limit 1.0 mm"
	State      State
	GovernedBy string    // one short line, cut with … if need be
	Brief      [2]string // the same in fewer words, for where it has no room: the first that fits
	Stale      bool      // a newer figure is being computed
	Old        bool      // the figure is of another design than the one asked for
}

// Tile shows one result against its limit. It is a button.
type Tile struct {
	widget.BaseWidget
	press

	// OnTapped is called when the tile is pressed.
	OnTapped func()
	// OnHover is called when the pointer comes and goes.
	OnHover func(inside bool)

	data TileData
}

// NewTile returns an empty tile.
func NewTile(tapped func()) *Tile {
	t := &Tile{OnTapped: tapped}
	t.press = press{act: t.tapped, refresh: func() { t.Refresh() }, self: t}
	t.ExtendBaseWidget(t)
	return t
}

// SetTile shows data.
func (t *Tile) SetTile(data TileData) {
	if t.data == data {
		return
	}
	t.data = data
	t.Refresh()
}

// Data returns what the tile shows.
func (t *Tile) Data() TileData { return t.data }

// MouseIn shows the hover and tells of it.
func (t *Tile) MouseIn(e *desktop.MouseEvent) {
	t.press.MouseIn(e)
	if t.OnHover != nil {
		t.OnHover(true)
	}
}

// MouseOut hides the hover and tells of it.
func (t *Tile) MouseOut() {
	t.press.MouseOut()
	if t.OnHover != nil {
		t.OnHover(false)
	}
}

func (t *Tile) tapped() {
	if t.OnTapped != nil {
		t.OnTapped()
	}
}

// CreateRenderer links the tile to the toolkit.
func (t *Tile) CreateRenderer() fyne.WidgetRenderer {
	r := &tileRenderer{
		t:        t,
		card:     canvas.NewRectangle(color.Transparent),
		ground:   canvas.NewRectangle(color.Transparent),
		title:    canvas.NewText("", nil),
		value:    canvas.NewText("", nil),
		unit:     canvas.NewText("", nil),
		state:    newSentence(ColorPencil, theme.SizeNameText),
		limit:    newSentence(ColorPencil, theme.SizeNameText),
		governed: canvas.NewText("", nil),
	}
	r.Refresh()
	return r
}

type tileRenderer struct {
	t            *Tile
	card, ground *canvas.Rectangle
	title        *canvas.Text
	value, unit  *canvas.Text
	state, limit *sentence
	governed     *canvas.Text
}

// tilePad is the free border inside a tile, tileWidth its smallest width.
const (
	tilePad   = 8
	tileWidth = 150
)

func (r *tileRenderer) Refresh() {
	d := r.t.data
	ink, pencil := ThemeColor(ColorInk, r.t), ThemeColor(ColorPencil, r.t)
	if d.Stale || d.Old {
		ink = pencil
	}
	r.card.FillColor = ThemeColor(ColorSheet, r.t)
	r.card.CornerRadius, r.ground.CornerRadius = 4, 4
	r.t.paint(r.ground, r.t)
	setText(r.title, d.Title, pencil)
	value := d.Value
	if d.Stale {
		value += " …"
	}
	setText(r.value, value, ink)
	r.value.TextStyle.Bold = true
	setText(r.unit, d.Unit, pencil)
	setText(r.governed, d.GovernedBy, pencil)
	colour := d.State.Color()
	if d.Stale || d.Old {
		colour = ColorPencil
	}
	r.state.bold = true
	r.state.set(d.State.Word(), colour)
	r.limit.set(d.Limit, ColorPencil)
	r.state.Refresh()
	r.limit.Refresh()
	r.Layout(r.t.Size())
	canvas.Refresh(r.t)
}

func setText(t *canvas.Text, text string, c color.Color) { t.Text, t.Color = text, c }

func (r *tileRenderer) Layout(size fyne.Size) {
	if size.Width <= 0 {
		size.Width = tileWidth
	}
	th := theme.CurrentForWidget(r.t)
	body, small := th.Size(theme.SizeNameText), th.Size(theme.SizeNameCaptionText)
	width := size.Width - 2*tilePad
	r.card.Resize(size)
	r.ground.Resize(size)

	y := float32(tilePad)
	r.title.TextSize = body
	r.title.Text = elide(r.t.data.Title, width, body, r.title.TextStyle)
	place(r.title, tilePad, y)
	y += lineHeight(body)

	// The figure keeps its line: it shrinks until it fits beside its unit.
	big := th.Size(theme.SizeNameHeadingText)
	line := lineHeight(big)
	r.unit.TextSize = body
	unitWidth := r.unit.MinSize().Width
	if r.unit.Text != "" {
		unitWidth += 4
	}
	for r.value.TextSize = big; r.value.TextSize > 8; r.value.TextSize-- {
		if r.value.MinSize().Width+unitWidth <= width {
			break
		}
	}
	if w := r.value.MinSize().Width + unitWidth; w > width {
		r.unit.TextSize = r.value.TextSize
	}
	h := lineHeight(r.value.TextSize)
	place(r.value, tilePad, y+(line-h)/2)
	drop := baseline(r.value.TextSize) - baseline(r.unit.TextSize)
	place(r.unit, tilePad+r.value.MinSize().Width+4, y+(line-h)/2+drop)
	y += line

	y = r.layoutLimit(y, width)

	r.governed.TextSize = small
	r.governed.Text = elide(r.briefest(width, small), width, small, r.governed.TextStyle)
	place(r.governed, tilePad, y)
}

// briefest returns what governs in as many words as fit.
func (r *tileRenderer) briefest(width, size float32) string {
	text := r.t.data.GovernedBy
	for _, brief := range r.t.data.Brief {
		if brief == "" || fyne.MeasureText(text, size, r.governed.TextStyle).Width <= width {
			break
		}
		text = brief
	}
	return text
}

// limitWidths returns the widths of state and limit, and whether both fit on
// one line; gap is where the limit then begins.
func (r *tileRenderer) limitWidths(width float32) (state, limit, gap float32, fits bool) {
	body := theme.CurrentForWidget(r.t).Size(theme.SizeNameText)
	state = fyne.MeasureText(r.state.text, body, fyne.TextStyle{Bold: true}).Width
	limit = fyne.MeasureText(r.limit.text, body, fyne.TextStyle{}).Width
	if r.state.text != "" {
		gap = state + 8
	}
	return state, limit, gap, gap+limit+1 <= width
}

// layoutLimit puts state and limit on one line if they fit, else on two.
func (r *tileRenderer) layoutLimit(y, width float32) float32 {
	line := lineHeight(theme.CurrentForWidget(r.t).Size(theme.SizeNameText))
	state, limit, gap, fits := r.limitWidths(width)
	if fits {
		r.state.Resize(fyne.NewSize(state+1, line))
		r.state.Move(fyne.NewPos(tilePad, y))
		r.limit.Resize(fyne.NewSize(limit+1, line))
		r.limit.Move(fyne.NewPos(tilePad+gap, y))
		return y + line
	}
	for _, s := range []*sentence{r.state, r.limit} {
		s.Resize(fyne.NewSize(width, s.heightAt(width)))
		s.Move(fyne.NewPos(tilePad, y))
		y += s.heightAt(width)
	}
	return y
}

// MinSize is as high as what is written at the present width. It moves nothing:
// the toolkit asks for it on every frame, and each move asks for another one.
func (r *tileRenderer) MinSize() fyne.Size {
	th := theme.CurrentForWidget(r.t)
	body := lineHeight(th.Size(theme.SizeNameText))
	width := r.t.Size().Width
	if width <= 0 {
		width = tileWidth
	}
	width -= 2 * tilePad
	limit := body
	if _, _, _, fits := r.limitWidths(width); !fits {
		limit = max(body, r.state.heightAt(width)+r.limit.heightAt(width))
	}
	h := 2*tilePad + body + lineHeight(th.Size(theme.SizeNameHeadingText)) + limit +
		lineHeight(th.Size(theme.SizeNameCaptionText))
	return fyne.NewSize(tileWidth, h)
}

func (r *tileRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.card, r.ground, r.title, r.value, r.unit, r.state, r.limit, r.governed}
}

func (r *tileRenderer) Destroy() {}

// place moves a text to (x, y) and gives it the room it needs.
func place(t *canvas.Text, x, y float32) {
	t.Resize(t.MinSize())
	t.Move(fyne.NewPos(x, y))
}

// lineHeight returns the height of a line of text set at size.
func lineHeight(size float32) float32 {
	return fyne.MeasureText("0", size, fyne.TextStyle{}).Height
}

// baseline returns how far below its top a text set at size has its baseline.
func baseline(size float32) float32 {
	_, b := fyne.CurrentApp().Driver().RenderedTextSize("0", size, fyne.TextStyle{}, nil)
	return b
}

var (
	_ fyne.Focusable    = (*Tile)(nil)
	_ fyne.Tappable     = (*Tile)(nil)
	_ desktop.Hoverable = (*Tile)(nil)
)
