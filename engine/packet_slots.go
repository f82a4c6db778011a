package engine

import (
	"fmt"
	"strings"

	"flatwright/engine/draw"
	"flatwright/engine/length"
	"flatwright/engine/saw"
)

// ribs prints one rib of each kind with its slots.
func (p *packet) ribs() {
	p.open("Ribs and their slots", p.paper.Landscape())
	p.text("Numbers under a rib are running stations of the slots' middles, all from the datum end.", small)
	for _, g := range p.r.SlotWork.Groups {
		part, ok := partByID(p.r.Parts, g.Parts[0])
		if !ok {
			continue
		}
		for _, same := range p.d.jointed(g.Parts) {
			one, _ := partByID(p.r.Parts, same[0])
			p.need(62)
			if len(same) < len(g.Parts) {
				p.text(strings.Join(same, ", "), strong)
			}
			p.placed(p.d.RibDrawing(one, p.f), min(p.room(), 75))
		}
		p.text(fmt.Sprintf("%d × %s (%s), %s × %s × %s. Slots from the %s edge, %s deep, %s wide.", len(g.Parts), g.Kind, strings.Join(g.Parts, ", "),
			p.length(part.Length), p.length(part.Width), p.fine(part.Thickness), g.Rows[0].Edge(), p.fine(g.Job.Depth), p.fine(g.Job.Width)), body)
		p.y += 4
	}
}

// slotSchedule prints the stations of the slots of each kind of rib.
func (p *packet) slotSchedule() {
	p.section("Slot schedule")
	p.text("Stations run from the datum end (left or front), all from the same end, so that errors do not add up. Mark one rib, then mark the others from it or from the gauge stick.", body)
	if p.f.Imperial {
		p.text("Stations are rounded to the fractions of the rule, the same on every rib, so the grid still fits. Width and depth are exact: a trial slot must have them.", body)
	}
	p.text(InUnits(p.d.slotSizes(), p.f), body)
	for _, line := range p.r.SlotWork.Alike() {
		p.text(line, body)
	}
	for _, g := range p.r.SlotWork.Groups {
		p.subheading(fmt.Sprintf("%d %s: %s", len(g.Parts), plural(string(g.Kind), len(g.Parts)), strings.Join(g.Parts, ", ")))
		rows := [][]string{}
		for _, r := range g.Rows {
			rows = append(rows, []string{fmt.Sprint(r.Number), p.length(r.Middle), p.length(r.From), p.length(r.To), p.fine(r.Width), p.fine(r.Depth), r.Edge(), r.Mate, ""})
		}
		p.table([]draw.Column{{Head: "Slot", Width: 12, Right: true}, {Head: "Middle", Width: 26, Right: true}, {Head: "From", Width: 26, Right: true}, {Head: "To", Width: 26, Right: true},
			{Head: "Width", Width: 22, Right: true}, {Head: "Depth", Width: 22, Right: true}, {Head: "Edge", Width: 16}, {Head: "Mate", Width: 14}, {Head: "Measured", Width: 26}}, rows)
	}
}

func plural(name string, n int) string {
	if n == 1 {
		return name
	}
	return name + "s"
}

// slotSizes says what width and depth of the slots are made of, lengths in mm.
func (d *Design) slotSizes() string {
	of := func(name string, r RibSet) string {
		text := fmt.Sprintf("Slots for the %s ribs are %s wide: thickest reading %s", name, inMM(d.SlotWidth(r)), inMM(r.SlotThickness()))
		if rise := d.Slots.MoistureRise; rise > 0 {
			text += fmt.Sprintf(", %s of swelling for %s points more moisture (.003 of it for each, from memory)", inMM(r.SlotThickness()*thicknessSwell*rise), plainNumber(rise))
		}
		return text + fmt.Sprintf(", clearance %s.", inMM(d.Slots.Clearance))
	}
	return of("lengthwise", d.Lengthwise) + " " + of("crosswise", d.Crosswise) +
		fmt.Sprintf(" All are %s deep: half of %s, and %s of relief.", inMM(d.SlotDepth()), inMM(d.CoreDepth), inMM(d.Slots.Relief))
}

// slotWays prints the ways in which the slots can be cut with the tools there
// are.
func (p *packet) slotWays() {
	w := p.r.SlotWork
	p.section("Cutting the slots")
	p.text(p.r.Mass.AgainstBlocking(), body)
	if w.Assumed {
		p.text("No tools are stated: a small workshop's usual ones are taken (common practice, no source).", body)
	}
	if w.Minutes.High > 0 {
		p.text("Time for all slots in the ways marked ►: "+Minutes(w.Minutes.Low, w.Minutes.High)+", setting up included; cutting the boards to size comes on top.", strong)
	}
	p.text("Times and misses are common practice, no source: a trial slot in scrap tells more. A slot should come out no tighter than its mate; the clearance is what a miss in width can eat up.", small)
	p.text(InUnits(fmt.Sprintf("Passes side by side = 1 + ⌈(slot − cut) ÷ (cut − overlap)⌉, the cut being that of the tool and the overlap %s mm, so that no sliver stays.", length.Number(w.Tools.Overlap, 2)), p.f), small)
	cautions := []string{}
	for _, g := range w.Groups {
		p.subheading(fmt.Sprintf("%d %s (%s), %d slots each, %s × %s", len(g.Parts), plural(string(g.Kind), len(g.Parts)), strings.Join(g.Parts, ", "), len(g.Rows), p.fine(g.Job.Width), p.fine(g.Job.Depth)))
		rows := [][]string{}
		for i, way := range g.Ways {
			if !way.Owned {
				continue
			}
			name := way.Name
			if i == g.Taken {
				name = "► " + name
				for _, c := range way.Cautions {
					cautions = addOnce(cautions, c)
				}
			}
			passes, time := "—", "cannot"
			if way.Can {
				passes, time = fmt.Sprintf("%d × %d", way.Passes, way.Layers), Minutes(way.Minutes.Low, way.Minutes.High)
			}
			rows = append(rows, []string{name, time, passes, WayText(way, p.f)})
		}
		p.table([]draw.Column{{Head: "Way", Width: 46}, {Head: "Time", Width: 24}, {Head: "Passes × deep", Width: 20, Right: true}, {Head: "How, how well, or why not", Width: 90}}, rows)
	}
	for _, c := range cautions {
		p.text("▲ "+c, body)
	}
	for _, e := range p.overruns {
		p.subheading(fmt.Sprintf("What the over-run does to the %ss", e.Kind))
		for _, line := range e.Lines() {
			p.text(InUnits(line, p.f), body)
		}
	}
	p.stacks()
}

func addOnce(list []string, s string) []string {
	for _, have := range list {
		if have == s {
			return list
		}
	}
	return append(list, s)
}

// stacks draws, for each group, how a stopped cut runs past the mark in a stack
// of boards, and lists it for every number of boards and a few plunges.
func (p *packet) stacks() {
	t := p.r.SlotWork.Tools
	if !(t.Rail.Blade > 0) {
		return
	}
	p.subheading("A cut stopped at the mark, with the boards flat")
	p.text("A round blade leaves an arc: when the lowest board is cut home, the ones above are cut past the mark. Deeper into a board below runs over less. In each cell: the over-run of the uppermost board.", body)
	p.text("Over-run = √(h·(D − h)) − √(p·(D − p)): D the blade's diameter, p the plunge into the board below, h the boards and the plunge; chords of a circle, exact for a thin blade.", small)
	for _, g := range p.r.SlotWork.Groups {
		if g.Kind == CrosswisePart && sameThickness(p.r.SlotWork.Groups[0], g) {
			continue
		}
		p.stackTable(t, g)
	}
}

func sameThickness(a, b SlotGroup) bool { return a.Job.Thickness == b.Job.Thickness }

// plunges are the plunges of the table, mm.
var plunges = [...]float64{3, 6, 12, 18, 25}

func (p *packet) stackTable(t saw.Tools, g SlotGroup) {
	columns := []draw.Column{{Head: "Boards of " + p.fine(g.Job.Thickness), Width: 34, Right: true}}
	for _, plunge := range plunges {
		columns = append(columns, draw.Column{Head: "plunge " + p.length(plunge), Width: 28, Right: true})
	}
	rows := [][]string{}
	for k := 1; k <= 5; k++ {
		row := []string{fmt.Sprint(k)}
		some := false
		for _, plunge := range plunges {
			s := saw.Stack{Diameter: t.Rail.Blade, Boards: k, Thickness: g.Job.Thickness, Plunge: plunge}
			past, err := s.Overrun()
			if err != nil || s.Exposure() > t.Rail.Reach {
				row = append(row, "out of reach")
				continue
			}
			some = true
			row = append(row, length.Sag(past, p.f))
		}
		if !some {
			break
		}
		rows = append(rows, row)
	}
	if len(rows) == 0 {
		p.text("The saw does not reach through one board of "+p.fine(g.Job.Thickness)+".", body)
		return
	}
	p.table(columns, rows)
	s, ok := saw.LargestStack(t.Rail, g.Job.Thickness, g.Job.Boards, t.Plunge, t.Overrun)
	if !ok {
		s = saw.Stack{Diameter: t.Rail.Blade, Boards: 1, Thickness: g.Job.Thickness, Plunge: min(t.Plunge, t.Rail.Reach-g.Job.Thickness)}
	}
	f := StackDrawing(s, g.Kind, g.Job.Depth, p.f)
	if len(f.Areas) == 0 {
		return
	}
	text := fmt.Sprintf("The largest stack that runs over by at most %s, with a plunge of %s: %d at once.", length.Sag(t.Overrun, p.f), p.length(s.Plunge), s.Boards)
	if !ok {
		text = fmt.Sprintf("Even one board runs over by more than the %s that are accepted; drawn is one with a plunge of %s.", length.Sag(t.Overrun, p.f), p.length(s.Plunge))
	}
	height := min(p.page.Height/2, 42+f.Bounds().Height()) // at 1:1 where that fits
	if room := p.room() - 10; room > 70 {
		height = min(height, room)
	}
	p.need(height + 10)
	p.text(text, body)
	p.placed(f, height)
}

// gauges prints the gauge sticks of all groups at full size.
func (p *packet) gauges() {
	p.open("Gauge sticks at full size", p.paper.Landscape())
	p.text("Print this page at actual size (100 %), never fitted to the page. Then measure the check line with the rule you work with. If it is off, do not use the strips: mark a stick from the slot schedule instead.", body)
	p.checkLine()
	p.text("Cut the strips out, lay the crosses of neighbours over each other and glue them to a straight stick. Then measure from the datum end to the last slot: it must be as in the schedule. Mark every rib of the kind from the stick, the datum ends flush.", body)
	for _, g := range p.r.SlotWork.Groups {
		p.gauge(g)
	}
}

// checkLine draws the line by which the printer is judged.
func (p *packet) checkLine() {
	unit, name := 1.0, "mm"
	if p.f.Imperial {
		unit, name = length.Inch, "in"
	}
	n := saw.CheckLength(p.width()-20, unit)
	x, y := margin, p.y+3
	end := x + n*unit
	for _, at := range [...]float64{x, end} {
		p.page.Line(draw.Point{X: at, Y: y - 2}, draw.Point{X: at, Y: y + 2}, draw.Outline)
	}
	p.page.Line(draw.Point{X: x, Y: y}, draw.Point{X: end, Y: y}, draw.Thin)
	p.page.Text((x+end)/2, y+1, fmt.Sprintf("Check line: exactly %g %s from tick to tick", n, name), draw.AtTop, strong)
	p.y = y + 2 + p.page.LineHeight(draw.BodySize)
}

// gauge prints the strips of one stick, as many on a page as there is room for.
func (p *packet) gauge(g SlotGroup) {
	const gap = 4.0
	tiles := g.Gauge(p.width() - 1)
	for _, t := range tiles {
		if p.room() < gaugeHeight+gap {
			p.further()
			p.checkLine()
		}
		fig := GaugeStrip(g, t, len(tiles), p.f)
		p.page.Place(fig, draw.Rect{Min: draw.Point{X: margin, Y: p.y}, Max: draw.Point{X: margin + p.width(), Y: p.y + gaugeHeight + gap}}, 1)
		p.y += gaugeHeight + gap
	}
}
