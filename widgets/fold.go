package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Fold is a group that can be folded away. Its head carries the name and,
// folded, a summary of what is inside. Space or Enter on the head toggles.
type Fold struct {
	widget.BaseWidget

	// Content is what folds away.
	Content fyne.CanvasObject
	// OnToggled is called when the user opens or folds the group.
	OnToggled func(open bool)
	// OnFocus is called when the head gets and loses the keyboard.
	OnFocus func(focused bool)

	head *foldHead
}

// NewFold returns an open group.
func NewFold(name string, content fyne.CanvasObject) *Fold {
	f := &Fold{Content: content}
	f.head = newFoldHead(name, f.toggle)
	f.head.focus = func(on bool) {
		if f.OnFocus != nil {
			f.OnFocus(on)
		}
	}
	f.ExtendBaseWidget(f)
	return f
}

// Open reports whether the content shows.
func (f *Fold) Open() bool { return f.head.open }

// SetOpen opens or folds the group without calling OnToggled.
func (f *Fold) SetOpen(open bool) {
	if f.head.open == open {
		return
	}
	f.head.open = open
	f.head.Refresh()
	if open {
		f.Content.Show()
	} else {
		f.Content.Hide()
	}
	f.Refresh()
}

// SetSummary sets the text that the head shows while folded.
func (f *Fold) SetSummary(text string) {
	if f.head.summary == text {
		return
	}
	f.head.summary = text
	f.head.Refresh()
	f.Refresh()
}

// SetName changes the name on the head.
func (f *Fold) SetName(name string) {
	f.head.name = name
	f.head.Refresh()
}

func (f *Fold) toggle() {
	f.SetOpen(!f.Open())
	if f.OnToggled != nil {
		f.OnToggled(f.Open())
	}
}

// CreateRenderer links the group to the toolkit.
func (f *Fold) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.New(column{gap: 8}, f.head, f.Content))
}

// foldHead is the button-like row of a Fold.
type foldHead struct {
	widget.BaseWidget
	press
	name    string
	summary string
	open    bool
}

func newFoldHead(name string, act func()) *foldHead {
	h := &foldHead{name: name, open: true}
	h.press = press{act: act, refresh: func() { h.Refresh() }, self: h}
	h.ExtendBaseWidget(h)
	return h
}

// CreateRenderer links the head to the toolkit.
func (h *foldHead) CreateRenderer() fyne.WidgetRenderer {
	r := &foldHeadRenderer{
		h:       h,
		ground:  canvas.NewRectangle(nil),
		icon:    canvas.NewImageFromResource(nil),
		name:    newSentence(ColorInk, theme.SizeNameSubHeadingText),
		summary: newSentence(ColorPencil, theme.SizeNameText),
	}
	r.name.bold = true
	r.ground.CornerRadius = 4
	r.icon.FillMode = canvas.ImageFillContain
	r.Refresh()
	return r
}

type foldHeadRenderer struct {
	h       *foldHead
	ground  *canvas.Rectangle
	icon    *canvas.Image
	name    *sentence
	summary *sentence
}

const foldIcon = 20

func (r *foldHeadRenderer) Refresh() {
	r.h.paint(r.ground, r.h)
	r.icon.Resource = theme.MenuExpandIcon()
	if r.h.open {
		r.icon.Resource = theme.MenuDropDownIcon()
	}
	r.icon.Refresh()
	r.name.set(r.h.name, ColorInk)
	summary := r.h.summary
	if r.h.open {
		summary = ""
	}
	r.summary.set(summary, ColorPencil)
	r.name.Refresh()
	r.summary.Refresh()
	r.Layout(r.h.Size())
	canvas.Refresh(r.h)
}

func (r *foldHeadRenderer) Layout(size fyne.Size) {
	r.ground.Resize(size)
	r.icon.Resize(fyne.NewSquareSize(foldIcon))
	w := max(size.Width-foldIcon-16, 1)
	y := float32(6)
	for _, s := range []*sentence{r.name, r.summary} {
		s.Resize(fyne.NewSize(w, s.MinSize().Height))
		h := s.MinSize().Height
		s.Resize(fyne.NewSize(w, h))
		s.Move(fyne.NewPos(foldIcon+8, y))
		y += h
	}
	r.icon.Move(fyne.NewPos(4, 6+(r.name.MinSize().Height-foldIcon)/2))
}

func (r *foldHeadRenderer) MinSize() fyne.Size {
	return fyne.NewSize(fieldWidth, r.name.MinSize().Height+r.summary.MinSize().Height+12)
}

func (r *foldHeadRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ground, r.icon, r.name, r.summary}
}

func (r *foldHeadRenderer) Destroy() {}

var (
	_ fyne.Focusable    = (*foldHead)(nil)
	_ desktop.Hoverable = (*foldHead)(nil)
)
