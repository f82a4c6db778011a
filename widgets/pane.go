package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Pane scrolls its content up and down. It keeps the bar off the content,
// never stands beyond the end of content that became shorter, and can bring an
// object into view, which a keyboard needs.
type Pane struct {
	widget.BaseWidget
	width  float32
	inner  *fyne.Container
	scroll *container.Scroll
}

// barRoom is what the pane keeps free at the right for its scroll bar, and
// revealMargin above and below an object brought into view.
const (
	barRoom      = 14
	revealMargin = 12
)

// NewPane returns a pane at least width wide.
func NewPane(content fyne.CanvasObject, width float32) *Pane {
	p := &Pane{width: width}
	p.inner = container.New(paneLayout{p}, content)
	p.scroll = container.NewVScroll(p.inner)
	p.ExtendBaseWidget(p)
	return p
}

// Reveal scrolls so that object, somewhere in the content, shows: all of it, or
// its upper end if it is higher than the pane.
func (p *Pane) Reveal(object fyne.CanvasObject) {
	p.scroll.Refresh() // lay out what changed size just now
	driver := fyne.CurrentApp().Driver()
	top := driver.AbsolutePositionForObject(object).Y - driver.AbsolutePositionForObject(p.inner).Y
	bottom := top + object.Size().Height
	y, room := p.scroll.Offset.Y, p.scroll.Size().Height
	if bottom+revealMargin > y+room {
		y = bottom + revealMargin - room
	}
	if top-revealMargin < y {
		y = top - revealMargin
	}
	p.scrollTo(y)
}

// Offset returns how far down the pane has scrolled.
func (p *Pane) Offset() float32 { return p.scroll.Offset.Y }

// scrollTo scrolls to y as far as there is something to see.
func (p *Pane) scrollTo(y float32) {
	end := max(0, p.inner.MinSize().Height-p.scroll.Size().Height)
	p.scroll.ScrollToOffset(fyne.NewPos(0, min(max(y, 0), end)))
}

// MinSize is the width given, and little height.
func (p *Pane) MinSize() fyne.Size { return fyne.NewSize(p.width, 80) }

// CreateRenderer links the pane to the toolkit.
func (p *Pane) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(p.scroll)
}

// paneLayout lays out the content of a pane and keeps the offset within it.
type paneLayout struct{ p *Pane }

func (l paneLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objects {
		o.Resize(fyne.NewSize(size.Width-barRoom, size.Height))
	}
	l.p.scrollTo(l.p.scroll.Offset.Y)
}

func (l paneLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	for _, o := range objects {
		size = size.Max(o.MinSize())
	}
	return size.AddWidthHeight(barRoom, 0)
}
