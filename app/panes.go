package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// wideWindow is the width from which the results stand beside the drawing;
// below it they stand under it.
const wideWindow = 1200

// panes is the layout of form, drawing and results: two splits whose dividers
// can be dragged, and which otherwise keep form and results at the widths they
// are read best in while the window changes.
type panes struct {
	outer *container.Split // form | the rest
	inner *container.Split // drawing | results, or one above the other

	size       fyne.Size
	formWidth  float32 // set by the person, 0 is not
	sideWidth  float32 // of the results beside the drawing, the same
	underShare float64 // of the drawing above the results, the same
	outerSet   float64 // offsets as last set by this layout
	innerSet   float64
}

// newPanes returns the three panes in one object.
func newPanes(form, drawing, results fyne.CanvasObject) (fyne.CanvasObject, *panes) {
	p := &panes{}
	p.inner = container.NewHSplit(drawing, results)
	p.outer = container.NewHSplit(form, p.inner)
	return container.New(p, p.outer), p
}

// between returns share of width, but at least low and at most high.
func between(low, share, high float32) float32 { return min(max(share, low), high) }

// Layout gives the splits their offsets for the new size.
func (p *panes) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	p.noteDrags()
	p.size = size
	form := between(300, 0.22*size.Width, 400)
	if p.formWidth > 0 {
		form = p.formWidth
	}
	p.outerSet = portion(form, size.Width)
	rest := size.Width - form
	p.inner.Horizontal = size.Width >= wideWindow
	if p.inner.Horizontal {
		side := between(360, 0.26*size.Width, 560)
		if p.sideWidth > 0 {
			side = p.sideWidth
		}
		p.innerSet = 1 - portion(side, rest)
	} else {
		p.innerSet = 0.6
		if p.underShare > 0 {
			p.innerSet = p.underShare
		}
	}
	p.outer.Offset, p.inner.Offset = p.outerSet, p.innerSet
	for _, o := range objects {
		o.Move(fyne.Position{})
		o.Resize(size)
	}
	p.outer.Refresh()
}

// MinSize is that of the panes.
func (p *panes) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	for _, o := range objects {
		size = size.Max(o.MinSize())
	}
	return size
}

// noteDrags remembers the widths to which the person has dragged the dividers.
func (p *panes) noteDrags() {
	if p.size.Width <= 0 {
		return
	}
	if p.outer.Offset != p.outerSet {
		p.formWidth = float32(p.outer.Offset) * p.size.Width
	}
	if p.inner.Offset == p.innerSet {
		return
	}
	if p.inner.Horizontal {
		p.sideWidth = float32(1-p.inner.Offset) * p.inner.Size().Width
	} else {
		p.underShare = p.inner.Offset
	}
}

// toggleResults folds the results pane away or brings it back.
func (p *panes) toggleResults() { p.showResults(!p.inner.Trailing.Visible()) }

func (p *panes) showResults(show bool) {
	if p.inner.Trailing.Visible() == show {
		return
	}
	if show {
		p.inner.Trailing.Show()
	} else {
		p.inner.Trailing.Hide()
	}
	p.inner.Refresh()
}

// portion is part of whole as a share from 0 to 1.
func portion(part, whole float32) float64 {
	if !(whole > 0) {
		return 0
	}
	return min(max(float64(part/whole), 0), 1)
}
