package app

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"flatwright/widgets"
)

// cardPane is one tab of the right pane: cards of figures, in a pane that
// scrolls. What they say is made by the function it is given: resultCards or
// whyCards.
type cardPane struct {
	session *Session
	make    func(Snapshot) []card
	content fyne.CanvasObject

	scroll *container.Scroll
	column *fyne.Container
	state  *widgets.Text
	cards  []*cardView
	opened map[string]bool // folds the person has opened, by block key
	hidden bool            // behind another tab; what it shows is then an older snapshot
}

func newCardPane(s *Session, make func(Snapshot) []card) *cardPane {
	r := &cardPane{session: s, make: make, state: widgets.NewNote("", widgets.ColorNear), opened: map[string]bool{}}
	r.column = container.New(widgets.NewColumn(16))
	r.scroll = container.NewVScroll(container.New(margins{side: 12, top: 8, bottom: 16}, r.column))
	r.content = container.NewBorder(container.New(atLeastALine{}, container.New(margins{side: 12}, r.state)), nil, nil, nil, r.scroll)
	s.Watch(r.Show)
	return r
}

// Show shows the snapshot's figures, in pencil colour while they are stale.
func (r *cardPane) Show(s Snapshot) {
	if r.hidden {
		return
	}
	r.state.Set(stateLine(s), widgets.ColorNear)
	cards := r.make(s)
	for i, c := range cards {
		if i >= len(r.cards) || r.cards[i].title != c.title {
			r.rebuild(cards, s)
			return
		}
	}
	if len(cards) != len(r.cards) {
		r.rebuild(cards, s)
		return
	}
	for i, c := range cards {
		r.cards[i].show(c, s)
	}
}

// atLeastALine is a layout that keeps a line of notes free when there is nothing
// to say, so that what stands below does not move when there is.
type atLeastALine struct{}

// Layout gives the objects all the room.
func (atLeastALine) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objects {
		o.Resize(size)
	}
}

// MinSize is as high as the highest object, or a line.
func (atLeastALine) MinSize(objects []fyne.CanvasObject) fyne.Size {
	line := fyne.MeasureText("0", theme.Size(theme.SizeNameCaptionText), fyne.TextStyle{}).Height
	size := fyne.NewSize(0, line)
	for _, o := range objects {
		size = size.Max(o.MinSize())
	}
	return size
}

// hide says whether the pane is behind another tab. What comes to the fore
// shows the newest snapshot.
func (r *cardPane) hide(hidden bool) {
	if r.hidden && !hidden {
		r.hidden = false
		r.Show(r.session.Now())
	}
	r.hidden = hidden
}

// rebuild makes the cards anew; Show does so only when other cards are there
// than before.
func (r *cardPane) rebuild(cards []card, s Snapshot) {
	old := map[string]*cardView{}
	for _, v := range r.cards {
		old[v.title] = v
	}
	r.cards = nil
	var objects []fyne.CanvasObject
	for _, c := range cards {
		v := old[c.title]
		if v == nil {
			v = newCardView(r, c.title)
		}
		v.show(c, s)
		r.cards = append(r.cards, v)
		objects = append(objects, v.object)
	}
	r.column.Objects = objects
	r.column.Refresh()
}

// settle lays the cards out after one has changed its height, and comes back
// from beyond their end.
func (r *cardPane) settle() {
	r.column.Refresh()
	r.scroll.Refresh()
	end := max(0, r.scroll.Content.MinSize().Height-r.scroll.Size().Height)
	if r.scroll.Offset.Y > end {
		r.scroll.ScrollToOffset(fyne.NewPos(0, end))
	}
}

// follow scrolls to a line that has got the keyboard, as Tab does not.
func (r *cardPane) follow(p *widgets.Pressable) {
	if !p.Focused() {
		return
	}
	driver := fyne.CurrentApp().Driver()
	top := driver.AbsolutePositionForObject(p).Y - driver.AbsolutePositionForObject(r.scroll.Content).Y
	bottom, y, room := top+p.Size().Height, r.scroll.Offset.Y, r.scroll.Size().Height
	switch {
	case top < y:
		r.scroll.ScrollToOffset(fyne.NewPos(0, max(0, top-8)))
	case bottom > y+room && room > 0:
		r.scroll.ScrollToOffset(fyne.NewPos(0, bottom-room+8))
	}
}

// pick selects the part a line tells of, points out its place, opens the field
// it names and shows its load case.
func (r *cardPane) pick(b block) {
	if b.shows > 0 {
		r.session.PickCase(b.shows - 1)
	}
	switch {
	case b.spot.Text != "":
		r.session.PointOut(b.spot)
	case b.part != "":
		r.session.Select(b.part)
	}
	if b.field != "" {
		r.session.ShowField(b.field)
	}
}

// button makes what shows a block pressable. lit is told too when pointer or
// keyboard come and go; it may be nil.
func (r *cardPane) button(content fyne.CanvasObject, of func() block, lit func(inside bool)) *widgets.Pressable {
	p := widgets.NewPressable(content, func() { r.pick(of()) })
	p.OnHover = func(inside bool) {
		r.follow(p)
		if lit != nil {
			lit(inside)
		}
		switch part := of().part; {
		case part == "":
		case inside:
			r.session.Hover(part)
		default:
			r.session.Hover("")
		}
	}
	p.OnKey = func(key fyne.KeyName) {
		if key == fyne.KeyEscape {
			r.session.Select("")
		}
	}
	return p
}

// cardView shows one card.
type cardView struct {
	title  string
	object fyne.CanvasObject
	list   *blockList
}

func newCardView(r *cardPane, title string) *cardView {
	v := &cardView{title: title, list: newBlockList(r)}
	v.object = container.New(widgets.NewColumn(4), widgets.NewHeading(title), widget.NewSeparator(), v.list.column)
	return v
}

func (v *cardView) show(c card, s Snapshot) { v.list.show(c.blocks, s) }

// blockList shows blocks one below the other.
type blockList struct {
	pane   *cardPane
	column *fyne.Container
	blocks []block
	views  []blockView
}

// blockView is one shown block; update shows another one of the same shape.
type blockView interface {
	canvasObject() fyne.CanvasObject
	update(b block, s Snapshot)
}

func newBlockList(r *cardPane) *blockList {
	return &blockList{pane: r, column: container.New(widgets.NewColumn(4))}
}

func (l *blockList) show(blocks []block, s Snapshot) {
	if len(l.views) != len(blocks) || !sameShape(l.blocks, blocks) {
		l.views = nil
		var objects []fyne.CanvasObject
		for _, b := range blocks {
			v := l.pane.view(b)
			l.views = append(l.views, v)
			objects = append(objects, v.canvasObject())
		}
		l.column.Objects = objects
		l.column.Refresh()
	}
	l.blocks = blocks
	for i, b := range blocks {
		l.views[i].update(b, s)
	}
}

// sameShape reports whether two lists of blocks can be shown by the same
// widgets.
func sameShape(a, b []block) bool {
	for i := range a {
		if a[i].kind != b[i].kind || a[i].key != b[i].key || a[i].pressable() != b[i].pressable() {
			return false
		}
	}
	return len(a) == len(b)
}

func (b block) pressable() bool { return b.part != "" || b.field != "" || b.shows > 0 }

func (r *cardPane) view(b block) blockView {
	switch b.kind {
	case kindFold:
		return newFoldView(r, b)
	case kindBars:
		return newBarsView(r)
	case kindShares:
		return newSharesView(r)
	case kindCurve:
		return newCurveView()
	}
	return newLineView(r, b)
}

// lineView shows text or a figure.
type lineView struct {
	line   *widgets.Line
	object fyne.CanvasObject
	block  block
}

func newLineView(r *cardPane, b block) *lineView {
	v := &lineView{line: widgets.NewLine(widgets.LineData{})}
	v.object = v.line
	if b.pressable() {
		v.object = r.button(v.line, func() block { return v.block }, nil)
	}
	return v
}

func (v *lineView) canvasObject() fyne.CanvasObject { return v.object }

func (v *lineView) update(b block, s Snapshot) {
	v.block = b
	data := widgets.LineData{Name: b.text, Note: b.note, State: b.standing, Stale: s.old(), Quiet: b.kind == kindQuiet}
	if b.kind == kindFigure {
		data.Figure, data.Unit = cutUnit(b.value)
	}
	v.line.Set(data)
}

// cutUnit parts a figure from its unit: the last word, if it is no number.
func cutUnit(value string) (figure, unit string) {
	i := strings.LastIndex(value, " ")
	if i < 0 || strings.ContainsAny(value[i+1:], "0123456789") {
		return value, ""
	}
	return value[:i], value[i+1:]
}

// foldView shows details on demand below a line of its own.
type foldView struct {
	pane   *cardPane
	head   *widgets.Line
	list   *blockList
	inside *fyne.Container
	object *fyne.Container
	last   block
	snap   Snapshot
}

func newFoldView(r *cardPane, b block) *foldView {
	v := &foldView{pane: r, head: widgets.NewLine(widgets.LineData{}), list: newBlockList(r), last: b}
	v.inside = container.New(margins{side: 16}, v.list.column)
	press := widgets.NewPressable(v.head, v.toggle)
	press.OnHover = func(bool) { r.follow(press) }
	v.object = container.New(widgets.NewColumn(4), press, v.inside)
	return v
}

func (v *foldView) canvasObject() fyne.CanvasObject { return v.object }

func (v *foldView) open() bool { return v.pane.opened[v.last.key] }

func (v *foldView) toggle() {
	v.pane.opened[v.last.key] = !v.open()
	v.update(v.last, v.snap)
	v.pane.settle()
}

// update leaves the inside alone while it is folded: nobody sees it.
func (v *foldView) update(b block, s Snapshot) {
	v.last, v.snap = b, s
	if !v.open() {
		v.head.Set(widgets.LineData{Name: "+ " + b.text, Quiet: true})
		v.inside.Hide()
		return
	}
	v.head.Set(widgets.LineData{Name: "− " + b.text, Quiet: true})
	v.inside.Show()
	v.list.show(b.inside, s)
}
