package engine

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// RibMeasure is what was measured of one rib, or of all that run one way, before
// they are glued. 0 is not measured.
type RibMeasure struct {
	Part      string  `json:"part"`                // ID of a rib ("L2", "C5") or the kind of ribs
	Height    float64 `json:"height,omitempty"`    // least or greatest, mm, whichever is farther off
	SlotDepth float64 `json:"slotDepth,omitempty"` // of its shallowest slot, mm
}

// glueGap is the gap that a glue line bridges at full strength, mm: rigid resins
// are strongest at 0.08 to 0.15 mm, Wood Handbook FPL-GTR-282 (2021) ch. 10.
const glueGap = 0.15

// cutRib is one rib as cut, mm.
type cutRib struct {
	part          string
	height, depth float64
}

// cutRibs returns the ribs of one way as they were measured, else as marked in
// [Design.Built] or drawn. What is said of one rib goes before what is said of
// its kind; of two readings the later one holds.
func (d *Design) cutRibs(along bool) []cutRib {
	set, kind := d.Crosswise, CrosswisePart
	if along {
		set, kind = d.Lengthwise, LengthwisePart
	}
	out := make([]cutRib, set.number())
	for i := range out {
		part := RibPart(along, i)
		c := cutRib{part, d.CoreDepth, d.slotDepth(part)}
		for _, of := range [...]string{string(kind), part} {
			for _, m := range d.Measured {
				if m.Part != of {
					continue
				}
				if m.Height > 0 {
					c.height = m.Height
				}
				if m.SlotDepth > 0 {
					c.depth = m.SlotDepth
				}
			}
		}
		out[i] = c
	}
	return out
}

// offBed is a rib that does not go home: at the crossing with another rib there is
// too much wood.
type offBed struct {
	rib, on string
	by      float64 // above the bed, mm
}

// stands is how the ribs come to stand on a flat bed once they are put together.
type stands struct {
	tops map[string]float64 // of every rib, mm above the bed
	held []offBed           // those that stand off the bed, farthest first
}

// stand puts the measured ribs together on a flat bed. The ribs whose slots open
// upwards lie on it; the others are let in from above and go down until they lie
// on the bed or the roof of a slot meets the floor of its mate's:
//
//	off the bed = max(0, height of the lower rib − its slot's depth − depth of the upper rib's slot)
//
// at the crossing where that is most. A rib stays level: that it may tip where
// one crossing alone holds it up is left out, which errs high.
func (d *Design) stand() stands {
	lower, upper := d.cutRibs(true), d.cutRibs(false)
	if d.Slots.LengthwiseDown {
		lower, upper = upper, lower
	}
	s := stands{tops: map[string]float64{}}
	for _, c := range lower {
		s.tops[c.part] = c.height
	}
	for _, u := range upper {
		h := offBed{rib: u.part}
		for _, l := range lower {
			if by := l.height - l.depth - u.depth; by > h.by {
				h.on, h.by = l.part, by
			}
		}
		s.tops[u.part] = h.by + u.height
		if h.by > 0 {
			s.held = append(s.held, h)
		}
	}
	slices.SortStableFunc(s.held, func(a, b offBed) int {
		switch {
		case a.by > b.by:
			return -1
		case a.by < b.by:
			return 1
		}
		return 0
	})
	return s
}

// measured checks the readings and says where a skin would not glue; laid says
// that ribs and core are known.
func (r *review) measured(laid bool) {
	if n := len(r.d.Measured); n > maxMeasured {
		r.block("too-many-readings", "ribsMeasured", "There are %d readings of ribs; up to %d can be computed. Keep the last one of each rib.", n, maxMeasured)
		return
	}
	if len(r.d.Measured) == 0 || !laid {
		return
	}
	before := len(r.problems)
	for i, m := range r.d.Measured {
		r.reading(fmt.Sprintf("ribsMeasured[%d]", i), m)
	}
	if len(r.problems) > before {
		return
	}
	s := r.d.stand()
	r.notHome(s)
	r.proud(s)
	r.coreMeasured()
}

func (r *review) reading(path string, m RibMeasure) {
	along, n, ok := RibOfPart(m.Part)
	set := r.d.Crosswise
	if along {
		set = r.d.Lengthwise
	}
	if kind := PartKind(m.Part); !(ok && n < set.number()) && kind != LengthwisePart && kind != CrosswisePart {
		r.block("measured-part", path+".part", "“%s” is no rib of this top. Pick one of its ribs, or all that run one way.", m.Part)
		return
	}
	if h := r.d.CoreDepth; m.Height != 0 && !(m.Height >= leastMeasured*h && m.Height <= mostMeasured*h) {
		r.block("measured-height", path+".height", "Rib %s measures %s where %s are drawn; more than half as much again, or less than half, is another rib. Measure again, or change the core depth.", m.Part, inMM(m.Height), inMM(h))
		return
	}
	if high := r.d.heightOf(m); m.SlotDepth < 0 || m.SlotDepth > high-minLedge {
		r.block("measured-slot", path+".slotDepth", "Slots %s deep in rib %s, %s high: %s of wood must stay. Measure again, or make that rib anew.", inMM(m.SlotDepth), m.Part, inMM(high), inMM(minLedge))
	}
}

// heightOf is the height that goes with a reading, mm.
func (d *Design) heightOf(m RibMeasure) float64 {
	if m.Height > 0 {
		return m.Height
	}
	along, n, ok := RibOfPart(m.Part)
	if !ok {
		return d.CoreDepth
	}
	return d.cutRibs(along)[n].height
}

// notHome says which rib does not go down to the bed.
func (r *review) notHome(s stands) {
	if len(s.held) == 0 || s.held[0].by <= glueGap {
		return
	}
	h := s.held[0]
	more := ""
	if n := len(s.held) - 1; n > 0 {
		more = fmt.Sprintf(" So do %d more.", n)
	}
	r.add(Shortfall, "rib-not-home", "ribsMeasured", "Rib %s does not go home: at the crossing with %s the two slots together are %s too shallow, so it stands that much off the lower skin, which would not glue to it.%s Deepen the slots of %s or of %s.",
		h.rib, h.on, inMM(h.by), more, h.rib, h.on)
	r.problems[len(r.problems)-1].Part = h.rib
}

// proud says which rib holds the upper skin off which others.
func (r *review) proud(s stands) {
	highest, low := "", []string{}
	for _, along := range [...]bool{true, false} {
		for _, c := range r.d.cutRibs(along) {
			if highest == "" || s.tops[c.part] > s.tops[highest] {
				highest = c.part
			}
		}
	}
	deepest := 0.0
	for _, along := range [...]bool{true, false} {
		for _, c := range r.d.cutRibs(along) {
			if gap := s.tops[highest] - s.tops[c.part]; gap > glueGap+nearly {
				low, deepest = append(low, c.part), math.Max(deepest, gap)
			}
		}
	}
	if len(low) == 0 {
		return
	}
	r.add(Shortfall, "rib-proud", "ribsMeasured", "As measured rib %s stands proud: %s lower by up to %s, more than the %s that a glue line bridges, so the skin would not glue there. Plane the grid level before gluing, lay a strip of veneer on the low ribs, or use a glue that fills gaps.",
		highest, lies(low), inMM(deepest), inMM(glueGap))
	r.problems[len(r.problems)-1].Part = highest
}

// lies names up to four ribs that lie low.
func lies(parts []string) string {
	switch n := len(parts); {
	case n == 1:
		return "rib " + parts[0] + " lies"
	case n > 4:
		return fmt.Sprintf("ribs %s and %d more lie", strings.Join(parts[:3], ", "), n-3)
	}
	return "ribs " + strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1] + " lie"
}

// coreMeasured says when the ribs are all of another height than drawn.
func (r *review) coreMeasured() {
	sum, n := 0.0, 0
	for _, along := range [...]bool{true, false} {
		for _, c := range r.d.cutRibs(along) {
			sum, n = sum+c.height, n+1
		}
	}
	if mean := sum / float64(n); math.Abs(mean-r.d.CoreDepth) > coreOff*r.d.CoreDepth {
		r.add(Advice, "core-measured", "coreDepth", "The ribs measure %s on average, drawn are %s. Sag goes with more than the square of that: type %s as the core depth to see it as made.", inMM(mean), inMM(r.d.CoreDepth), inMM(mean))
	}
}

// coreOff is the difference of a core depth that shows in the sag, by some 2 %;
// common practice, no source.
const coreOff = 0.01
