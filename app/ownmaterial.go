package app

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine"
	"flatwright/engine/catalog"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// windowOf returns the window that shows the object, nil if none does.
func windowOf(o fyne.CanvasObject) fyne.Window {
	driver := fyne.CurrentApp().Driver()
	c := driver.CanvasForObject(o)
	for _, w := range driver.AllWindows() {
		if w.Canvas() == c {
			return w
		}
	}
	return nil
}

// ownFigure is one figure of a material that the dialog asks for.
type ownFigure struct {
	field string // JSON name in [catalog.Sheet], where its source and its faults are kept
	label string
	help  string
	of    func(*catalog.Sheet) *float64
}

var ownFigures = []ownFigure{
	{"density", "Density, kg/m³", "Weigh a piece and divide by its volume.", func(s *catalog.Sheet) *float64 { return &s.Density }},
	{"eAlong", "Stiffness in the plane, along, MPa", "Young's modulus along the face grain: what a skin works with.", func(s *catalog.Sheet) *float64 { return &s.EAlong }},
	{"eAcross", "Stiffness in the plane, across, MPa", "The same across the face grain.", func(s *catalog.Sheet) *float64 { return &s.EAcross }},
	{"eBendAlong", "Stiffness in bending, along, MPa", "Young's modulus of an offcut bent along the face grain.", func(s *catalog.Sheet) *float64 { return &s.EBendAlong }},
	{"eBendAcross", "Stiffness in bending, across, MPa", "The same across the face grain.", func(s *catalog.Sheet) *float64 { return &s.EBendAcross }},
}

// ownMaterial is a material of the person's own while it is put together.
type ownMaterial struct {
	sheet     catalog.Sheet
	thickness float64
}

// likeMaterial starts from a material that is known, at its thickness sold that
// is nearest to the one given: all that is not asked for is taken from it.
func likeMaterial(d engine.Design, key string, thickness float64) ownMaterial {
	base, _ := d.Material(key)
	if i := nearestThickness(base, thickness); i >= 0 {
		thickness = base.Thicknesses[i].Actual
	}
	s := base.At(thickness)
	// The figures now hold for this one thickness and follow from nothing else.
	s.Steps, s.EPlyAlong, s.EPlyAcross = nil, 0, 0
	s.Key, s.Name = freeKey(d), "My "+base.Name
	s.Sources = maps.Clone(base.Sources)
	if s.Sources == nil {
		s.Sources = map[string]string{}
	}
	return ownMaterial{sheet: s, thickness: thickness}
}

// freeKey returns a key that no material of the design has.
func freeKey(d engine.Design) string {
	for i := 1; ; i++ {
		key := "own-" + strconv.Itoa(i)
		if _, taken := d.Material(key); !taken {
			return key
		}
	}
}

// finished returns the material to keep, and what is wrong with it.
func (m ownMaterial) finished(f length.Format) (catalog.Sheet, []catalog.Fault) {
	s := m.sheet
	s.Name = strings.TrimSpace(s.Name)
	s.Thicknesses = nil
	if !(m.thickness > 0) {
		return s, append([]catalog.Fault{{Field: "thickness", Text: "Say how thick it is."}}, s.Validate()...)
	}
	s.Thicknesses = []catalog.Thickness{{Nominal: f.Print(m.thickness), Actual: m.thickness, Imperial: f.Imperial, Source: "entered by the user"}}
	return s, s.Validate()
}

// showOwnMaterial asks for a material of the person's own and adds it to the
// design.
func showOwnMaterial(w fyne.Window, s *Session) {
	snap := s.Now()
	m := likeMaterial(snap.Design, snap.Design.TopSkin.Material, snap.Design.TopSkin.Thickness)
	quiet := func(bool) {}
	name := newWordsEntry(quiet)
	problems := widgets.NewText("", widgets.ColorOver)

	var fill func()
	var figures []*widgets.ValueEntry
	check := func() (faulty bool) {
		_, faults := m.finished(snap.Lengths)
		said := map[string]string{}
		for _, fault := range faults {
			said[fault.Field] = joined(said[fault.Field], fault.Text)
		}
		for i, figure := range ownFigures {
			figures[i].SetProblem(said[figure.field])
			delete(said, figure.field)
		}
		rest := ""
		for _, fault := range faults {
			rest = joined(rest, said[fault.Field])
			delete(said, fault.Field)
		}
		problems.Set(rest, widgets.ColorOver)
		return len(faults) > 0
	}
	objects := []fyne.CanvasObject{
		widgets.NewText("Everything not asked for here, its strengths above all, is taken from the material you start from.", widgets.ColorPencil),
	}
	options := materialOptions(snap.Design, true, "")
	base := newChoiceBox(quiet)
	base.set(options, snap.Design.TopSkin.Material)
	base.OnChanged = func(label string) {
		for _, o := range options {
			if o.label == label {
				m = likeMaterial(snap.Design, o.key, m.thickness)
				fill()
			}
		}
	}
	name.OnChanged = func(text string) {
		m.sheet.Name = text
		check()
	}
	objects = append(objects, widgets.NewField("Start from", base), widgets.NewField("Name", clipped(name)))
	thickness := widgets.NewValueEntry(
		func(text string) (float64, error) { return length.Parse(text, snap.Lengths) }, snap.Lengths.Bare,
		func(v float64, up, coarse bool) float64 { return lengthQuantity.step(v, snap.Lengths, up, coarse) })
	thickness.SetUnit(snap.Lengths.Unit())
	thickness.OnChanged = func(v float64) {
		m.thickness = v
		check()
	}
	objects = append(objects, widgets.NewFieldBeside("Actual thickness", thickness))
	for _, figure := range ownFigures {
		q := number("", 50)
		e := widgets.NewValueEntry(func(text string) (float64, error) { return q.parse(text, snap.Lengths) },
			func(v float64) string { return plainFigures(v, 4) },
			func(v float64, up, coarse bool) float64 { return q.step(v, snap.Lengths, up, coarse) })
		e.OnChanged = func(v float64) {
			*figure.of(&m.sheet) = v
			m.sheet.Sources[figure.field] = "entered by the user"
			check()
		}
		figures = append(figures, e)
		objects = append(objects, widgets.NewFieldBeside(figure.label, e), widgets.NewNote(figure.help, widgets.ColorPencil))
	}
	fill = func() {
		name.set(m.sheet.Name)
		thickness.SetValue(m.thickness)
		for i, figure := range ownFigures {
			figures[i].SetValue(*figure.of(&m.sheet))
		}
		check()
	}
	fill()
	var d *dialog.CustomDialog
	cancel := func() { d.Hide() }
	add := newAnswerButton("Add it to the design", func() {
		if check() {
			return
		}
		sheet, _ := m.finished(snap.Lengths)
		s.Edit("material of your own", "", func(d *engine.Design) {
			sheet.Key = freeKey(*d)
			d.Own = append(d.Own, sheet)
		})
		d.Hide()
	}, cancel)
	add.Importance = widget.HighImportance
	content := container.NewVScroll(container.New(margins{side: 8, bottom: 8}, container.New(widgets.NewColumn(8), objects...)))
	below := container.New(margins{side: 8}, problems)
	d = dialog.NewCustomWithoutButtons("A material of your own", container.NewBorder(nil, below, nil, nil, content), w)
	d.SetButtons([]fyne.CanvasObject{newAnswerButton("Cancel", cancel, cancel), add})
	d.Resize(dialogSize(w, 460, 620))
	name.escape, base.escape, thickness.OnEscape = cancel, cancel, cancel
	for _, e := range figures {
		e.OnEscape = cancel
	}
	d.Show()
	escapable(w, cancel)
	w.Canvas().Focus(base)
}

// dialogSize is width × height, or what the window has room for.
func dialogSize(w fyne.Window, width, height float32) fyne.Size {
	room := w.Canvas().Size()
	return fyne.NewSize(min(width, max(room.Width-32, 200)), min(height, max(room.Height-32, 200)))
}

// uses reports whether any part of the design is cut from that material.
func uses(d engine.Design, key string) bool {
	for _, p := range priced(d) {
		if p.material == key {
			return true
		}
	}
	for _, b := range d.Blocks {
		if b.Material == key {
			return true
		}
	}
	return false
}

// ownLines adds a button for each of the design's own materials to be rid of it.
func (f *form) ownLines(b *builder) {
	for _, m := range f.snap.Design.Own {
		b.add(f.buttonIf("Remove “"+m.Name+"”", "From the design's own materials. It must not be in use.",
			func(d engine.Design) bool { return !uses(d, m.Key) },
			func() {
				f.session.Edit("removed material", "", func(d *engine.Design) {
					d.Own = slices.DeleteFunc(slices.Clone(d.Own), func(own catalog.Sheet) bool { return own.Key == m.Key })
				})
			}))
	}
}
