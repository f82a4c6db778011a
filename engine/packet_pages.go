package engine

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// ErrBlocked is returned where a packet is asked for of a design that cannot
// be computed.
var ErrBlocked = errors.New("the design has problems that stop the computation")

// drawings prints plan and sections to scale on a page turned sideways.
func (p *packet) drawings() {
	p.open("Plan and sections", p.paper.Landscape())
	f := Drawing(p.d, p.r, DrawingOptions{Lengths: p.f, Case: -1})
	scale := p.placed(f, p.room()-titleBlockHeight+8)
	p.titleBlock(scale)
	more := ""
	if len(p.d.Seams) > 0 {
		more = " Seams are chain lines, scarfs dashed beside them."
	}
	if len(p.d.Holes)+len(p.d.Grooves) > 0 {
		more += " Holes and grooves are drawn whichever skin they are in, those of the bottom skin dashed."
	}
	if len(p.d.Built) > 0 {
		more += " Red is made otherwise than drawn."
	}
	p.y = p.page.TextBlock(margin, p.y, p.width()-titleBlockWidth-8, "Lengthwise ribs are hatched /, crosswise ribs \\. Supports dashed. Dimensions are finished sizes, rib positions to the ribs' middles."+more, small)
}

const titleBlockWidth, titleBlockHeight = 92.0, 30.0

// titleBlock draws the block that says what the drawing is, at the lower right
// above the footer.
func (p *packet) titleBlock(scale float64) {
	right, low := p.page.Width-margin, p.page.Height-margin-foot/2
	box := draw.Rect{Min: draw.Point{X: right - titleBlockWidth, Y: low - titleBlockHeight}, Max: draw.Point{X: right, Y: low}}
	p.page.Box(box, draw.Sheet, draw.Frame)
	rows := [...][2]string{
		{"Top", p.d.Name},
		{"Size", p.length(p.d.Length) + " × " + p.length(p.d.Width) + " × " + p.fine(p.d.TotalDepth())},
		{"Scale", fmt.Sprintf("1:%g", scale)},
		{"Build starts", clock(p.d.Shop.Start)},
		{"Checked by", ""},
	}
	step := titleBlockHeight / float64(len(rows))
	for i, row := range rows {
		y := box.Min.Y + step*float64(i)
		if i > 0 {
			p.page.Rule(box.Min.X, box.Max.X, y)
		}
		p.page.Text(box.Min.X+2, y+step/2, row[0], draw.AtLeft, small)
		lines := p.metrics.Wrap(row[1], titleBlockWidth-28, draw.BodySize, true)
		if len(lines) > 0 {
			p.page.Text(box.Min.X+26, y+step/2, lines[0], draw.AtLeft, strong)
		}
	}
}

// placed puts a figure on the page with its scale stated and a scale bar, and
// returns the scale's denominator.
func (p *packet) placed(f draw.Figure, height float64) float64 {
	const below = 14 // for scale bar and note
	scale := p.page.FigureScale(f, p.width(), height-below)
	p.page.Place(f, draw.Rect{Min: draw.Point{X: margin, Y: p.y}, Max: draw.Point{X: p.page.Width - margin, Y: p.y + height - below}}, scale)
	p.y += height - below + 1
	p.page.Text(margin, p.y, fmt.Sprintf("Scale 1:%g", scale), draw.AtTopLeft, strong)
	unit, name := 1.0, "mm"
	if p.f.Imperial {
		unit, name = 25.4, "in"
	}
	p.y = p.page.ScaleBar(margin+40, p.y, 60, scale, unit, name)
	return scale
}

// strength prints every margin with capacity and demand.
func (p *packet) strength() {
	if len(p.r.Margins) == 0 {
		return
	}
	p.section("Margins")
	p.text("Margin = capacity ÷ demand, both with the reserves of the timber code (EN 1990, EN 1995-1-1; factors from memory). 1 is just enough. “Times” says by how much the loads of the case could grow, the panel's own weight kept. "+p.stressWords()+" “kmod” is what the load's duration and the damp leave of a strength, “γM” what is taken off for the scatter of the material.", body)
	p.y += 2
	rows := [][]string{}
	for _, m := range p.r.Margins {
		rows = append(rows, []string{length.Number(m.Value, 3), times(m.Times), m.Name, m.Case + ", " + InUnits(m.Where, p.f), p.ofMargin(m.Capacity, m), p.ofMargin(m.Demand, m), reserves(m)})
	}
	p.table([]draw.Column{{Head: "Margin", Width: 15, Right: true}, {Head: "Times", Width: 15, Right: true}, {Head: "What", Width: 48}, {Head: "Case and place", Width: 52},
		{Head: "Capacity " + p.stressUnit(), Width: 20, Right: true}, {Head: "Demand " + p.stressUnit(), Width: 20, Right: true}, {Head: "kmod / γM", Width: 24, Right: true}}, rows)
	p.text("What they rest on", strong)
	for _, g := range groundsOf(p.r.Margins) {
		names, text := strings.Join(g.names, "; ")+":", InUnits(g.text, p.f)
		p.need(p.page.BlockHeight(p.width(), names, small) + p.page.BlockHeight(p.width(), text, body)) // together
		p.text(names, small)
		p.text(text, body)
	}
}

// stressUnit is the unit of the stresses in the columns of a table.
func (p *packet) stressUnit() string {
	if p.f.Imperial {
		return "psi"
	}
	return "MPa"
}

// stressWords says what that unit is.
func (p *packet) stressWords() string {
	if p.f.Imperial {
		return "psi is pounds of force on each square inch."
	}
	return "MPa is newtons on each square millimetre."
}

// ofMargin prints a capacity or a demand, with its unit where it is not that of
// the column's head.
func (p *packet) ofMargin(v float64, m Margin) string {
	switch {
	case m.Unit != "" && m.Unit != "MPa":
		return InUnits(length.Number(v, 3)+" "+m.Unit, p.f)
	case p.f.Imperial:
		v /= psi
	}
	return length.Number(v, 3)
}

// reserves prints a margin's factors; what does not rest on a material's
// strength has none.
func reserves(m Margin) string {
	if strings.HasPrefix(m.Code, "tipping") {
		return "—"
	}
	return fmt.Sprintf("%.2f / %.2f", m.KMod, m.GammaM)
}

// grounds is a source and a remark that several margins share.
type grounds struct {
	text  string
	names []string
}

func groundsOf(margins []Margin) []grounds {
	var out []grounds
	for _, m := range margins {
		text := m.Source + ". " + m.Note
		i := slices.IndexFunc(out, func(g grounds) bool { return g.text == text })
		if i < 0 {
			out = append(out, grounds{text: text})
			i = len(out) - 1
		}
		out[i].names = append(out[i].names, m.Name)
	}
	return out
}

// times prints a load multiple.
func times(v float64) string {
	if v >= TimesCap {
		return "—"
	}
	return length.Number(v, 3)
}

// workings prints the formulas with their numbers.
func (p *packet) workings() {
	p.section("Working")
	if p.f.Imperial {
		p.text("The formulas are worked in millimetres, newtons and MPa (newtons on each square millimetre), whatever the lengths elsewhere are shown in: 25.4 mm make an inch, 4.448 N a pound of force, and 1 MPa is 145 psi.", small)
	}
	if p.r.NotHeld() != "" {
		p.text("The top tips. The formulas below take the supports to hold it down as well, and are only good for comparing.", body)
	}
	for _, w := range p.r.Working {
		p.need(4*p.page.LineHeight(draw.BodySize) + 6)
		p.text(w.Title+": "+w.Result, strong)
		p.text(w.Formula, body)
		p.text(w.Numbers, body)
		if w.Plain != "" {
			p.text(w.Plain, body)
		}
		p.text("Source: "+w.Source, small)
		p.y += 2.5
	}
}

// buildSteps prints the steps with boxes to tick and lines for the times.
func (p *packet) buildSteps() {
	p.open("Build steps", p.paper)
	b := p.r.Build
	p.text(fmt.Sprintf("Glue to have ready: %.0f g with what the tool wastes, for %.1f m of rib joint on each face. Shop at %.0f °C, %d spreading. Clock times use the longer durations.",
		b.GlueMass*1000, b.JointLength/1000, p.d.Shop.Temperature, p.d.Shop.People), body)
	p.y += 3
	for i, s := range b.Steps {
		text := InUnits(s.Text, p.f)
		height := p.page.LineHeight(draw.BodySize)*2.6 + p.page.BlockHeight(p.width()-10, text, body)
		p.need(height)
		p.page.Checkbox(margin, p.y, 4.5)
		p.page.Text(margin+8, p.y, fmt.Sprintf("%d. %s", i+1, s.Name), draw.AtTopLeft, strong)
		p.page.Text(margin+p.width(), p.y, Minutes(s.Low, s.High)+" · "+clock(s.Starts)+" to "+clock(s.Ends), draw.AtTopRight, body)
		p.y += p.page.LineHeight(draw.BodySize)
		p.y = p.page.TextBlock(margin+8, p.y, p.width()-10, text, body)
		p.page.Text(margin+8, p.y+1, "Began ____________  ended ____________  remarks ________________________________", draw.AtTopLeft, small)
		p.y += p.page.LineHeight(draw.BodySize) * 1.6
	}
	if noted := p.d.noted(p.r); noted != "" {
		p.text("As planned: nothing on it before "+clock(b.LoadFrom)+". "+noted, strong)
		return
	}
	p.text("Nothing on it before "+clock(b.LoadFrom)+".", strong)
}

// Minutes prints a range of minutes the way people say it.
func Minutes(low, high float64) string {
	unit, div := "min", 1.0
	if high >= 120 {
		unit, div = "h", 60
	}
	if high >= 72*60 {
		unit, div = "days", 24*60
	}
	figure := func(v float64) string {
		if v >= 10 {
			return length.Number(math.Round(v), 3)
		}
		return length.Number(v, 2)
	}
	a, b := figure(low/div), figure(high/div)
	if a == b {
		return a + " " + unit
	}
	return a + " to " + b + " " + unit
}

// clock prints a clock time with its weekday.
func clock(s string) string {
	t, err := time.Parse(ClockLayout, s)
	if err != nil {
		return s
	}
	return DayText(t)
}

// cautions is the last page.
func (p *packet) cautions() {
	p.open("Cautions", p.paper)
	for _, c := range Cautions {
		p.text("▲ "+InUnits(c, p.f), body)
		p.y += 2
	}
	p.subheading("What the numbers leave out")
	for _, s := range LeftOut {
		p.text("• "+s, body)
	}
	p.y += 3
	p.text(Disclaimer, strong)
}
