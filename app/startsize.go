package app

import (
	"context"
	"math"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// useOptions are what a top can be for.
var useOptions = []option{
	{string(engine.AssemblyTable), "assembly table"},
	{string(engine.Workbench), "workbench"},
	{string(engine.OutfeedTable), "outfeed table"},
	{string(engine.WallFolding), "wall-hung folding top"},
	{string(engine.TrestleTop), "top on trestles"},
}

// freshStart is the engine's suggestion for a size and a use, in place of the
// present design: the person's own materials and times stay, and the shop comes
// along.
func freshStart(present engine.Design, shop ownShop, use engine.Use, long, wide float64) engine.Design {
	present = present.Clone()
	d := engine.Start(use, long, wide)
	d.Own = present.Own
	shop.equip(&d)
	if present.Shop.Start != "" {
		d.Shop = present.Shop
	}
	return d
}

// startSentences tells what the suggested panel is and what comes of it.
func startSentences(s Snapshot) []string {
	d, f := s.Design, s.Lengths
	panel := "Skins " + sheetText(d, d.TopSkin.Material, d.TopSkin.Thickness, f) + ", core " + f.Print(d.CoreDepth) + ", " +
		strconv.Itoa(ribCount(d.Lengthwise)) + " lengthwise and " + strconv.Itoa(ribCount(d.Crosswise)) + " crosswise ribs."
	r := s.Result
	if r.Blocked() {
		return []string{panel, problemText(sortedProblems(r.Problems)[0], f)}
	}
	if r.Governing < 0 || r.Governing >= len(r.Cases) {
		return []string{panel, "Computing…"}
	}
	c := r.Cases[r.Governing]
	sag := "It weighs " + length.Mass(r.Mass.Total, f) + " and sags " + length.Sag(c.Sag, f) + " under “" + c.Name + "”"
	if limit := d.Limits.Sag; limit > 0 {
		sag += ", limit " + length.Sag(limit, f)
	}
	sentences := []string{panel, sag + "."}
	if needed := neededText(s); needed != "" {
		sentences = append(sentences, needed)
	}
	return sentences
}

// makeItMine is the dialog that asks for three things and puts a whole panel
// there.
type makeItMine struct {
	session *Session
	shop    ownShop
	present Snapshot
	long    float64
	wide    float64
	use     engine.Use
	core    float64 // depth taken over, 0 is the suggestion's

	said    *widgets.Text
	deeper  *answerButton // takes over the core depth that meets the limit
	needed  float64       // that depth, 0 is none
	cancel  func()
	escape  func() // closes the dialog
	content fyne.CanvasObject
	first   *widgets.ValueEntry
	accepts *answerButton // takes the panel
	doubts  map[*widgets.ValueEntry]bool
}

func newMakeItMine(s *Session, shop ownShop) *makeItMine {
	now := s.Now()
	m := &makeItMine{session: s, shop: shop, present: now, long: now.Design.Length, wide: now.Design.Width, use: now.Design.Use,
		said: widgets.NewText("", widgets.ColorInk), cancel: func() {}, escape: func() {}, doubts: map[*widgets.ValueEntry]bool{}}
	escape := func() { m.escape() }
	if m.use == "" {
		m.use = engine.AssemblyTable
	}
	column := container.New(widgets.NewColumn(8))
	entry := func(v *float64) *widgets.ValueEntry {
		e := widgets.NewValueEntry(func(text string) (float64, error) { return length.Parse(text, now.Lengths) }, now.Lengths.Bare,
			func(v float64, up, coarse bool) float64 { return lengthQuantity.step(v, now.Lengths, up, coarse) })
		e.SetUnit(now.Lengths.Unit())
		e.SetValue(*v)
		e.OnEscape = escape
		e.OnChanged = func(typed float64) {
			*v, m.core = typed, 0
			m.preview()
		}
		e.OnDoubt = func(doubted bool) {
			m.doubts[e] = doubted
			m.preview()
		}
		e.OnFocus = func(bool) { column.Refresh() } // what cannot be read is said below the field
		return e
	}
	m.first = entry(&m.long)
	use := newChoiceBox(func(bool) {})
	use.escape = escape
	use.set(useOptions, string(m.use))
	use.OnChanged = func(label string) {
		for _, o := range useOptions {
			if o.label == label {
				m.use, m.core = engine.Use(o.key), 0
			}
		}
		m.preview()
	}
	m.deeper = newAnswerButton("", func() {
		m.core = m.needed
		m.preview()
	}, escape)
	m.deeper.Hide()
	m.accepts = newAnswerButton("Make this top", func() {
		m.accept()
		m.escape()
	}, escape)
	m.accepts.Importance = widget.HighImportance
	note := "Load, supports and limits are our own suggestion for that use; every one can be changed."
	if now.Path != "" {
		note += " It takes the place of the open design; Undo brings that back. Save under another name to keep both files."
	}
	column.Objects = []fyne.CanvasObject{
		widgets.NewFieldBeside("Length", m.first),
		widgets.NewFieldBeside("Width", entry(&m.wide)),
		widgets.NewField("What it is for", use),
		m.said,
		container.NewHBox(m.deeper),
		widgets.NewNote(note, widgets.ColorPencil),
	}
	m.content = container.New(margins{side: 8, bottom: 8}, column)
	m.preview()
	return m
}

// design is the panel as asked for now.
func (m *makeItMine) design() engine.Design {
	d := freshStart(m.session.Now().Design, m.shop, m.use, m.long, m.wide)
	if m.core > 0 {
		d.CoreDepth = m.core
	}
	d.Shop.Start = notPast(d.Shop.Start, m.session.clock())
	return d
}

// notPast is a start of the build that lies ahead: of one that is over the same time
// of day tomorrow, for a new top is not begun last week.
func notPast(start string, now time.Time) string {
	at, err := time.ParseInLocation(engine.ClockLayout, start, now.Location())
	if err != nil || !at.Before(now) {
		return start
	}
	y, month, day := now.Date()
	return time.Date(y, month, day+1, at.Hour(), at.Minute(), 0, 0, now.Location()).Format(engine.ClockLayout)
}

// doubted reports whether a field holds what cannot be read.
func (m *makeItMine) doubted() bool {
	for _, doubted := range m.doubts {
		if doubted {
			return true
		}
	}
	return false
}

// preview computes the panel and says what comes of it. No panel is made of what
// cannot be read.
func (m *makeItMine) preview() {
	m.cancel()
	if enable(&m.accepts.Button, !m.doubted()); m.doubted() {
		m.said.Set("A size that can be read is needed first.", widgets.ColorInk)
		m.deeper.Hide()
		return
	}
	snap := Snapshot{Design: m.design(), Lengths: m.present.Lengths}
	m.say(snap)
	var result engine.Result
	current := true
	stop := m.session.Background(func(ctx context.Context) (err error) {
		result, err = m.session.compute(ctx, snap.Design)
		return err
	}, func(err error) {
		if err == nil && current {
			snap.Result = result
			m.say(snap)
		}
	})
	m.cancel = func() {
		current = false
		stop()
	}
}

func (m *makeItMine) say(s Snapshot) {
	text := ""
	for _, sentence := range startSentences(s) {
		text = joined(text, sentence)
	}
	m.said.Set(text, widgets.ColorInk)
	m.needed = s.Result.Depth.Needed
	if m.needed > 0 && math.Abs(m.needed-s.Design.CoreDepth) > sameCore {
		m.deeper.SetText("Take a core of " + s.Lengths.Print(m.needed))
		m.deeper.Show()
	} else {
		m.deeper.Hide()
	}
}

// sameCore is the difference of core depths, mm, below which another one is not
// offered: the needed depth is told for sags scaled from the present one, and
// comes out a little different once that is another.
const sameCore = 2

// accept puts the panel there as one edit. It is another top than the one in
// the file, if there was a file.
func (m *makeItMine) accept() {
	d := m.design()
	m.session.Edit("start from a size", "", func(present *engine.Design) { *present = d })
	m.session.Detach()
}

// showMakeItMine asks for length, width and use, and makes a whole sensible
// panel of them.
func showMakeItMine(w fyne.Window, s *Session, shop ownShop) {
	m := newMakeItMine(s, shop)
	d := dialog.NewCustomWithoutButtons("Make it mine", container.NewVScroll(m.content), w)
	cancel := func() { d.Hide() }
	m.escape = cancel
	d.SetButtons([]fyne.CanvasObject{newAnswerButton("Cancel", cancel, cancel), m.accepts})
	d.SetOnClosed(func() { m.cancel() })
	d.Resize(dialogSize(w, 460, 470))
	d.Show()
	escapable(w, cancel)
	m.first.FocusOn(w.Canvas())
}
