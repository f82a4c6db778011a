package engine

import (
	"fmt"
	"strings"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// underLoad prints what the whole-panel model says: sag map and sagged section
// of the governing case, reactions, who does the work, how sure the sag is and
// what one step of each field changes.
func (p *packet) underLoad() {
	w := p.r.Whole
	if w == nil {
		return
	}
	g := p.r.Governing
	p.open("Under load", p.paper.Landscape())
	p.text(fmt.Sprintf("“%s” sags most: %s. Nine panels of ten lie between %s and %s, mostly for %s.", p.r.Cases[g].Name,
		length.Sag(p.r.Cases[g].Sag, p.f), length.Sag(w.Work.Low, p.f), length.Sag(w.Work.High, p.f), w.Work.Most), body)
	p.placed(SagMap(w.Cases[g].Map.Over(p.d), SagMapOptions{Lengths: p.f, Most: w.Cases[g].Sag, At: draw.Point{X: w.Cases[g].X, Y: w.Cases[g].Y}}), p.room()-45)
	p.y += 2
	fig, _ := Sagged(p.d, p.r, g, p.f)
	room := draw.Rect{Min: draw.Point{X: margin, Y: p.y}, Max: draw.Point{X: p.page.Width - margin, Y: p.page.Height - margin - foot}}
	p.page.Place(fig, room, p.page.FigureScale(fig, p.width(), room.Height()-6))

	p.section("Supports, work and what one step changes")
	p.reactions()
	if text := w.NoTwist(p.d); text != "" {
		p.subheading("Twist")
		p.text(text, body)
	}
	if w.Twist != nil {
		p.subheading("One corner lifted, or without its support")
		for _, line := range w.Twist.Lines(p.f) {
			p.text(InUnits(line, p.f), body)
		}
	}
	if line := w.LeanLine(p.f); line != "" {
		p.subheading("Somebody leans on the rim")
		p.text(line, body)
	}
	p.subheading("Who does the work")
	p.text("Of what the panel stores when it bends, so much is in each kind of part. Stiffening what does most helps most.", body)
	rows := [][]string{}
	for _, s := range w.Work.Shares {
		if s.Share >= 0.005 {
			less := fmt.Sprintf("%.2f %%", -s.Slope)
			if s.Part == SupportPart {
				less = "not in the sag" // which is told from the sunken supports
			}
			rows = append(rows, []string{s.Name, fmt.Sprintf("%.0f %%", 100*s.Share), less})
		}
	}
	p.table([]draw.Column{{Head: "Part", Width: 90}, {Head: "Share", Width: 30, Right: true}, {Head: "Less sag for 1 % stiffer", Width: 50, Right: true}}, rows)
	p.figureSlopes()
	p.need(40) // not the heading alone
	p.subheading("What one step changes")
	p.knobs()
	p.subheading("How good the model is")
	p.text(fmt.Sprintf("%d unknowns, %d elements across a bay; %s: the model's own error is of that size. First natural frequency about %s Hz with nothing on the top, an estimate.",
		w.Unknowns, w.Mesh, w.Moved(), length.Number(w.Frequency, 2)), body)
	p.skinAndRibs()
}

// figureSlopesMost is how many figures of the materials are printed.
const figureSlopesMost = 8

// figureSlopes prints which figures of the materials the sag hangs on.
func (p *packet) figureSlopes() {
	rows := [][]string{}
	for _, f := range p.r.Whole.Work.Figures[:min(figureSlopesMost, len(p.r.Whole.Work.Figures))] {
		m, _ := p.d.Material(f.Material)
		rows = append(rows, []string{m.Name, f.Name, fmt.Sprintf("%+.2f %%", f.Slope)})
	}
	if len(rows) == 0 {
		return
	}
	p.need(40) // not the heading alone
	p.subheading("Which figures of the materials the sag hangs on")
	p.text("By so much the largest sag changes for 1 % more of the figure, joints, glue lines and slots counted in; below nothing is less sag.", body)
	p.table([]draw.Column{{Head: "Material", Width: 60}, {Head: "Figure", Width: 70}, {Head: "Sag", Width: 30, Right: true}}, rows)
}

// reactions prints what each support carries in every case.
func (p *packet) reactions() {
	p.subheading("What the supports carry")
	columns := []draw.Column{{Head: "Support", Width: 40}}
	rows := [][]string{}
	for i, c := range p.r.Whole.Cases {
		columns = append(columns, draw.Column{Head: p.d.Cases[i].Name, Width: 40, Right: true})
		for j, f := range c.Reactions {
			if i == 0 {
				rows = append(rows, []string{f.Name})
			}
			text := length.Force(f.Force, p.f)
			switch {
			case f.Lifted:
				text = "lifts"
			case f.PullText(p.f) != "":
				text += ", screws hold " + length.Force(f.Pull, p.f)
			}
			rows[j] = append(rows[j], text)
		}
	}
	p.table(columns, rows)
	if line := p.d.FastenedLine(p.r.Whole, p.f); line != "" {
		p.text(line, body)
	}
	sinks := 0.0
	for _, c := range p.r.Whole.Cases {
		sinks = max(sinks, c.Settlement)
	}
	if g := p.r.Whole.Cases[p.r.Governing]; len(g.Aprons) > 0 {
		for _, a := range g.Aprons {
			p.text(fmt.Sprintf("The %s itself bends %s under “%s”; that is part of the sag, which is told from the legs.", a.Name, length.Sag(a.Bend, p.f), p.d.Cases[p.r.Governing].Name), small)
		}
	}
	p.text(fmt.Sprintf("The supports sink up to %s into what they bear on; the sags do not count it.", length.Sag(sinks, p.f)), small)
}

// knobs prints one step up and one step down of every field.
func (p *packet) knobs() {
	change := func(k Knob, s *KnobStep) []string {
		if s == nil {
			return []string{"—", "", ""}
		}
		return []string{SagChange(s.Sag, p.f), signed(s.Mass, func(v float64) string { return length.Mass(v, p.f) }), p.value(k, s)}
	}
	if w := p.r.WhatIf; w != nil {
		p.text(fmt.Sprintf("Each line is a whole panel computed anew, %d elements across a bay, all else left alone.", w.Mesh), small)
	} else {
		p.text("Estimated by the closed form, in proportion to the sag of the whole panel; all else left alone.", small)
	}
	rows := [][]string{}
	for _, k := range p.r.Knobs {
		up, down := change(k, k.Up), change(k, k.Down)
		rows = append(rows, []string{k.Name, up[2], up[0], up[1], down[2], down[0], down[1]})
	}
	p.table([]draw.Column{{Head: "Field", Width: 48}, {Head: "Up to", Width: 20, Right: true}, {Head: "Sag", Width: 24, Right: true}, {Head: "Weight", Width: 22, Right: true},
		{Head: "Down to", Width: 20, Right: true}, {Head: "Sag", Width: 24, Right: true}, {Head: "Weight", Width: 22, Right: true}}, rows)
}

// value prints a knob's value: a count as it is, anything else as a length.
func (p *packet) value(k Knob, s *KnobStep) string {
	if s.Material != "" {
		m, _ := p.d.Material(s.Material)
		return m.Name
	}
	v := s.Value
	if strings.HasSuffix(k.Field, ".count") {
		return fmt.Sprint(int(v))
	}
	return p.fine(v)
}

// signed prints a change with its sign.
func signed(v float64, print func(float64) string) string {
	switch {
	case v > 0:
		return "+" + print(v)
	case v < 0:
		return "−" + print(-v)
	}
	return print(0)
}
