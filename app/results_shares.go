package app

import (
	"reflect"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"flatwright/engine"
	"flatwright/engine/draw"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// sharesView shows who does the work: one bar and its legend, a row each.
// Pointing at a row lights up its piece of the bar and its parts in the
// drawing.
type sharesView struct {
	pane   *cardPane
	bar    *widgets.ShareBar
	column *fyne.Container
	lines  []*widgets.Line
	rows   []block
}

func newSharesView(r *cardPane) *sharesView {
	v := &sharesView{pane: r, bar: widgets.NewShareBar()}
	v.column = container.New(widgets.NewColumn(4), v.bar)
	return v
}

func (v *sharesView) canvasObject() fyne.CanvasObject { return v.column }

func (v *sharesView) update(b block, s Snapshot) {
	if len(b.inside) != len(v.lines) {
		v.lines = nil
		objects := []fyne.CanvasObject{v.bar}
		for i := range b.inside {
			line := widgets.NewLine(widgets.LineData{})
			v.lines = append(v.lines, line)
			objects = append(objects, v.pane.button(line, func() block { return v.rows[i] }, func(inside bool) {
				v.bar.Light(i)
				if !inside {
					v.bar.Light(-1)
				}
			}))
		}
		v.column.Objects = objects
	}
	segments := make([]widgets.ShareSegment, 0, len(b.inside))
	for i, row := range b.inside {
		figure, unit := cutUnit(row.value)
		v.lines[i].Set(widgets.LineData{Name: strconv.Itoa(i+1) + " · " + row.text, Figure: figure, Unit: unit, Note: row.note, Stale: s.old()})
		fill, hatch := partLook(row.part)
		segments = append(segments, widgets.ShareSegment{Share: row.share, Fill: fill, Hatch: hatch})
	}
	if !reflect.DeepEqual(b.inside, v.rows) {
		v.bar.SetSegments(segments)
	}
	v.bar.SetStale(s.old())
	v.rows = b.inside
	v.column.Refresh()
}

// partLook is how the drawing shows a part or a kind of parts.
func partLook(part string) (draw.Fill, draw.Hatch) {
	switch part {
	case "top", "bottom":
		return draw.Skin, draw.NoHatch
	case string(engine.LengthwisePart):
		return draw.LengthwiseRib, draw.HatchSlash
	case string(engine.CrosswisePart):
		return draw.CrosswiseRib, draw.HatchBackslash
	case string(engine.BandPart):
		return draw.Band, draw.NoHatch
	case string(engine.BlockPart):
		return draw.Block, draw.NoHatch
	case engine.ApronPart:
		return draw.Band, draw.HatchSlash
	}
	return draw.Sheet, draw.NoHatch
}

// barsView shows what one step of one knob changes: the sag as bars, weight and
// margin in words. Pressing it opens the knob's field.
type barsView struct {
	bars   *widgets.Bars
	notes  [2]*widgets.Text // of the step down and the step up
	object fyne.CanvasObject
	block  block
	format length.Format
}

func newBarsView(r *cardPane) *barsView {
	v := &barsView{bars: widgets.NewBars()}
	inside := container.New(widgets.NewColumn(0), v.bars)
	for i := range v.notes {
		v.notes[i] = widgets.NewNote("", widgets.ColorPencil)
		inside.Add(v.notes[i])
	}
	v.object = r.button(container.New(margins{side: 4, top: 2, bottom: 6}, inside), func() block { return v.block }, nil)
	return v
}

func (v *barsView) canvasObject() fyne.CanvasObject { return v.object }

func (v *barsView) update(b block, s Snapshot) {
	v.bars.SetStale(s.old())
	if reflect.DeepEqual(b, v.block) && s.Lengths == v.format {
		return
	}
	v.block, v.format = b, s.Lengths
	v.bars.SetRowsAmong(barRows(s, b.knobs[:1]), barRows(s, b.knobs))
	down, up, _ := strings.Cut(b.note, "\n")
	v.notes[0].Set(down, widgets.ColorPencil)
	v.notes[1].Set(up, widgets.ColorPencil)
}

// barRows is the change of sag by each knob.
func barRows(s Snapshot, knobs []engine.Knob) []widgets.BarRow {
	var rows []widgets.BarRow
	about := ""
	if roughSteps(s) {
		about = "~"
	}
	for _, k := range knobs {
		row := widgets.BarRow{Label: barLabel(s, k)}
		print := func(v float64) string {
			text := engine.SagChange(v, s.Lengths)
			if strings.HasPrefix(text, "about") {
				return text
			}
			return about + text
		}
		if k.Down != nil {
			row.Down, row.DownText = k.Down.Sag, print(k.Down.Sag)
		}
		if k.Up != nil {
			row.Up, row.UpText = k.Up.Sag, print(k.Up.Sag)
		}
		rows = append(rows, row)
	}
	return rows
}

// barLabel is the knob and what it would be turned to.
func barLabel(s Snapshot, k engine.Knob) string {
	var steps []string
	for _, step := range []*engine.KnobStep{k.Down, k.Up} {
		if step != nil {
			steps = append(steps, stepValue(s, k, *step))
		}
	}
	return capital(k.Name) + ", " + strings.Join(steps, " or ")
}
