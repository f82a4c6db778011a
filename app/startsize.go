package app

import (
	"context"
	"math"
	"strconv"

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
}

func newMakeItMine(s *Session, shop ownShop) *makeItMine {
	now := s.Now()
	m := &makeItMine{session: s, shop: shop, present: now, long: now.Design.Length, wide: now.Design.Width, use: now.Design.Use,
		said: widgets.NewText("", widgets.ColorInk), cancel: func() {}, escape: func() {}}
	escape := func() { m.escape() }
	if m.use == "" {
		m.use = engine.AssemblyTable
	}
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
	note := "Load, supports and limits are our own suggestion for that use; every one can be changed."
	if now.Path != "" {
		note += " It takes the place of the open design; Undo brings that back. Save under another name to keep both files."
	}
	m.content = container.New(margins{side: 8, bottom: 8}, container.New(widgets.NewColumn(8),
		widgets.NewFieldBeside("Length", m.first),
		widgets.NewFieldBeside("Width", entry(&m.wide)),
		widgets.NewField("What it is for", use),
		m.said,
		container.NewHBox(m.deeper),
		widgets.NewNote(note, widgets.ColorPencil)))
	m.preview()
	return m
}

// design is the panel as asked for now.
func (m *makeItMine) design() engine.Design {
	d := freshStart(m.session.Now().Design, m.shop, m.use, m.long, m.wide)
	if m.core > 0 {
		d.CoreDepth = m.core
	}
	return d
}

// preview computes the panel and says what comes of it.
func (m *makeItMine) preview() {
	m.cancel()
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
	accept := newAnswerButton("Make this top", func() {
		m.accept()
		d.Hide()
	}, cancel)
	accept.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{newAnswerButton("Cancel", cancel, cancel), accept})
	d.SetOnClosed(func() { m.cancel() })
	d.Resize(dialogSize(w, 460, 470))
	d.Show()
	escapable(w, cancel)
	m.first.FocusOn(w.Canvas())
}
