package engine

import (
	"fmt"
	"math"
	"strings"
)

// apart is the share by which closed form and whole-panel model must differ
// before the person is told why; common practice, no source.
const apart = 0.15

// tellApart says for every case in which the closed form and the whole panel
// part by more than that which of the closed form's assumptions do not hold
// there, in words and with their numbers.
func (d *Design) tellApart(r *Result) {
	for i := range r.Cases {
		c := &r.Cases[i]
		c.Apart = ""
		if !(c.Closed > 0 && c.Sag > 0) || math.Abs(c.Sag/c.Closed-1) <= apart {
			continue
		}
		why := d.apartReasons(&d.Cases[i], c, &r.Whole.Cases[i])
		if len(why) == 0 {
			why = []string{"none of its usual assumptions is strained, so take the whole panel's figure"}
		}
		c.Apart = fmt.Sprintf("The closed form says %s, the whole panel %s: %s.", sagText(c.Closed), sagText(c.Sag), strings.Join(why, "; "))
	}
}

// Shares of the sag, or of the panel's size, from which an assumption counts as
// strained; common practice, no source.
const (
	muchDip = 0.1     // of the sag is a dip of the skin
	farOff  = 1.0 / 8 // of the panel's size a load lies off the middle
	narrow  = 0.5     // of the width is covered by a load
)

// apartReasons lists the assumptions that do not hold in a case.
func (d *Design) apartReasons(lc *LoadCase, c *CaseResult, w *WholeCase) []string {
	var why []string
	if dip := w.dipUnder(); dip > muchDip*c.Sag {
		why = append(why, fmt.Sprintf("the bays are wide for the skin, which dips %s between the ribs, and the closed form has no skin between ribs", sagText(dip)))
	}
	if len(d.openSeams()) > 0 {
		why = append(why, "it takes the skins as whole sheets, and a seam here is open")
	}
	if len(d.Holes)+len(d.Grooves) > 0 {
		why = append(why, "it bends skins and ribs as if no hole and no groove were in them")
	}
	switch d.Supports.Kind {
	case RailsAcross, RailsAlong:
		why = append(why, d.apartOnRails(lc)...)
	case AllEdges:
		why = append(why, "it takes the panel as a plate whose edges do not sink and whose corners are held down, while real edges only push")
	default:
		why = append(why, "it bends the panel along and across one after the other, which is rough where single points hold it up instead of rails")
	}
	for _, f := range w.Reactions {
		if f.Lifted {
			why = append(why, "the "+f.Name+" lifts, and the closed form holds it down")
			break
		}
	}
	return why
}

// dipUnder returns the deepest dip under a load.
func (w *WholeCase) dipUnder() float64 {
	most := 0.0
	for _, l := range w.Loads {
		most = math.Max(most, l.Dip.Sag)
	}
	return most
}

// apartOnRails says how loads strain a beam as wide as the top.
func (d *Design) apartOnRails(lc *LoadCase) []string {
	wide := d.Width
	if d.Supports.Kind == RailsAlong {
		wide = d.Length
	}
	off, small, couple := false, false, false
	for _, l := range lc.Loads {
		s := d.Spread(l)
		at, size := s.Y, s.SizeY
		if d.Supports.Kind == RailsAlong {
			at, size = s.X, s.SizeX
		}
		off = off || math.Abs(at-wide/2) > farOff*wide
		small = small || size < narrow*wide
		couple = couple || l.Kind == Couple
	}
	var why []string
	if off {
		why = append(why, "a load lies off the middle line, and the closed form twists the top as a box that keeps its shape")
	}
	if small {
		why = append(why, "a load on a small area is taken as shared by the whole width")
	}
	if couple {
		why = append(why, "a couple bends the block and the bay around it, which only the whole panel knows")
	}
	return why
}
