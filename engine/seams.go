package engine

import (
	"context"
	"fmt"
	"math"
	"slices"

	"flatwright/engine/plate"
)

// What restores a seam; EWPAA Structural Plywood and LVL Design Manual, ch. 11.
const (
	spliceWidth = 25.0 // of a splice plate, over the skin's thickness
	scarfSlope  = 8.0  // length of a scarf in tension, over the skin's thickness
)

// SeamPart returns the part ID under which a seam is drawn.
func SeamPart(seam int) string { return fmt.Sprintf("seam %d", seam+1) }

// SeamOfPart is the reverse of [SeamPart].
func SeamOfPart(part string) (seam int, ok bool) {
	n, err := fmt.Sscanf(part, "seam %d", &seam)
	return seam - 1, err == nil && n == 1 && seam > 0 && part == SeamPart(seam-1)
}

// openSeams is the seams that nothing splices, as the whole-panel model has
// them.
func (d *Design) openSeams() []plate.Seam {
	var out []plate.Seam
	for i, s := range d.Seams {
		if !s.Spliced || d.builtOpen(i) {
			out = append(out, plate.Seam{Top: s.Skin == TopSeam, AlongX: s.Along, At: s.At})
		}
	}
	return out
}

// bridge lets the ribs under seams carry what they can across them. A seam far
// from its rib's middle, with little glue on one side, gets nothing.
func (d *Design) bridge(p *plate.Panel, m *materials, pitchX, pitchY float64) {
	for i := range p.Seams {
		s := &p.Seams[i]
		ribs, set, sheet, spacing, l := p.Across, d.Crosswise, &m.crosswise, pitchX, p.Bottom
		if s.AlongX {
			ribs, set, sheet, spacing = p.Along, d.Lengthwise, &m.lengthwise, pitchY
		}
		if s.Top {
			l = p.Top
		}
		for _, r := range ribs {
			if math.Abs(s.At-r.At) < set.Thickness/4 && set.Thickness > 4*plate.SeamWidth {
				s.Over = solvedBridge(ribJoint(l, r.Web, sheet, spacing, s.AlongX))
			}
		}
	}
}

// skin is the skin that a seam is in.
func (s Seam) skin(d *Design) Skin {
	if s.Skin == TopSeam {
		return d.TopSkin
	}
	return d.BottomSkin
}

// overRib returns the rib that lies under a seam and runs with it.
func (s Seam) overRib(d *Design) (part string, at float64, ok bool) {
	places, crosswise := d.RibPlaces()
	set, prefix := d.Lengthwise, "L"
	if !s.Along {
		places, set, prefix = crosswise, d.Crosswise, "C"
	}
	for i, at := range places {
		if math.Abs(s.At-at) < set.Thickness/2 {
			return fmt.Sprintf("%s%d", prefix, i+1), at, true
		}
	}
	return "", 0, false
}

// SeamPlace proposes where one more seam of a skin may lie: on the rib nearest
// to a fifth of the panel that has none yet, else at the middle.
func SeamPlace(d Design, s Seam) float64 {
	extent := d.Length
	places, crosswise := d.RibPlaces()
	if s.Along {
		extent = d.Width
	} else {
		places = crosswise
	}
	best, found := extent/2, false
	for _, at := range places {
		taken := slices.ContainsFunc(d.Seams, func(o Seam) bool {
			return o.Skin == s.Skin && o.Along == s.Along && math.Abs(o.At-at) < minStrip
		})
		room := at >= d.EdgeBand.Thickness+minStrip && at <= extent-d.EdgeBand.Thickness-minStrip
		if room && !taken && (!found || math.Abs(at-extent/5) < math.Abs(best-extent/5)) {
			best, found = at, true
		}
	}
	return best
}

// where says in words where a seam lies.
func (s Seam) where() string {
	if s.Along {
		return fmt.Sprintf("%s from the front edge", inMM(s.At))
	}
	return fmt.Sprintf("%s from the left end", inMM(s.At))
}

// bentSpan is the span over which the top bends across a seam: from bearing to
// bearing. It has none where the supports run the other way.
func (s Seam) bentSpan(d *Design) (from, to float64, ok bool) {
	span, across := d.spans()
	rails := RailsAcross
	if s.Along {
		span, rails = across, RailsAlong
	}
	switch d.Supports.pattern() {
	case AllEdges, rails, FourLegs:
		return span.A, span.B, true
	}
	return 0, 0, false
}

// pulled reports whether a skin is pulled across the line of a seam by what a
// panel without it carries.
func (s Seam) pulled(whole *plate.Solution) bool {
	sum := 0.0
	for _, c := range whole.Skin(s.Skin == TopSeam) {
		at, size, force := c.X, c.SX, c.NX*c.SY
		if s.Along {
			at, size, force = c.Y, c.SY, c.NY*c.SX
		}
		if math.Abs(at-s.At) <= size/2 {
			sum += force
		}
	}
	return sum > 0
}

// seamProblems tells of every open seam in the middle third of a span in the
// skin that is pulled, with what it costs: the governing case recomputed
// without it on the same mesh. It is told at rest, not while a load is dragged:
// the interactive mesh is too coarse for how a skin's force goes into the ribs
// at a seam and back, and makes the cost a third of what it is.
func (d *Design) seamProblems(ctx context.Context, weight float64, r Result) ([]Problem, error) {
	if r.Whole.Mesh < Normal {
		return nil, nil
	}
	g := r.Cases[r.Governing]
	var out []Problem
	for i, s := range d.Seams {
		from, to, ok := s.bentSpan(d)
		third := (to - from) / 3
		if s.Spliced || !ok || s.At < from+third || s.At > to-third {
			continue
		}
		e := *d
		e.Seams = slices.Clone(d.Seams)
		e.Seams[i].Spliced = true
		without, err := e.solveCase(ctx, weight, r.Governing, r.Whole.Mesh)
		if err != nil {
			if ctx.Err() != nil {
				return nil, ctx.Err()
			}
			continue
		}
		cost := g.Sag - without.Sag(g.X, g.Y)
		if !(cost > 0) || !s.pulled(without) {
			continue
		}
		out = append(out, Problem{Code: "seam-pulled", Severity: Advice, Field: fmt.Sprintf("seams[%d].at", i), Part: SeamPart(i),
			Text: fmt.Sprintf("The %s skin is pulled across seam %d, %s, in the middle third of the span, and nothing holds it together there: it costs %.3f mm of the %.3f mm of sag. A splice plate %.0f mm wide, a scarf %.0f mm long, or a seam near a support would help.",
				s.Skin, i+1, s.where(), cost, g.Sag, spliceWidth*s.skin(d).Thickness, scarfSlope*s.skin(d).Thickness)})
	}
	return out, nil
}

// seamReach is what the closed form leaves out of a panel with open seams.
func (d *Design) seamReach() string {
	if len(d.openSeams()) == 0 {
		return ""
	}
	return "It takes the skins as whole sheets; a seam without a splice passes no pull, so expect more sag than it tells. "
}
