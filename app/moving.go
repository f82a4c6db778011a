package app

import (
	"context"
	"reflect"
	"strconv"

	"flatwright/engine"
	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// mover lets loads and supports be moved by hand on the drawing. While one is
// dragged the next edit waits until the one before is computed, so that the
// figures follow the hand; what is drawn waits for nothing.
type mover struct {
	session *Session

	gestures int                  // begun so far; each has a step of undo of its own
	start    engine.Design        // as it was when the drag began
	part     string               // being dragged, "" is none
	label    string               // of the drag's step of undo
	waiting  func(*engine.Design) // a move that is drawn and not yet an edit
	nudged   string               // part that the waiting move nudges, "" if it drags
}

// quick computes a design in a hurry, for a hand that drags.
func quick(ctx context.Context, d engine.Design) (engine.Result, error) {
	r, err := engine.Glance(ctx, d)
	if err != nil {
		return engine.Result{}, err
	}
	return engine.Refine(ctx, d, r, engine.Interactive)
}

// canMove reports whether a part of the design is a load or a support with a
// place of its own.
func canMove(d engine.Design, part string) bool {
	if part == engine.SupportPart {
		return d.Supports.UsesEnd() || d.Supports.UsesSide()
	}
	if i, ok := engine.FootOfPart(part); ok {
		return d.Supports.Kind == engine.OwnFeet && i < len(d.Supports.Feet)
	}
	l := loadAt(d, part)
	return l != nil && (l.Kind == engine.Patch || l.Kind == engine.Line || l.Kind == engine.Couple && len(d.Blocks) > 1)
}

// loadAt returns the load that is drawn under a part ID, nil if there is none.
func loadAt(d engine.Design, part string) *engine.Load {
	i, j, ok := engine.LoadOfPart(part)
	if !ok || i >= len(d.Cases) || j >= len(d.Cases[i].Loads) {
		return nil
	}
	return &d.Cases[i].Loads[j]
}

// moveLabel is what Undo says of moving a part.
func moveLabel(part string) string {
	if part == engine.SupportPart {
		return "move supports"
	}
	if _, ok := engine.FootOfPart(part); ok {
		return "move foot"
	}
	return "move load"
}

// drag moves part with the pointer, which went from one place of the drawing
// to another. It changes the design at once unless an edit is being computed.
func (m *mover) drag(part string, from, to draw.Point, done bool) {
	if m.nudged != "" {
		m.flush()
	}
	now := m.session.Now()
	if m.part != part {
		m.part, m.label, m.start = part, moveLabel(part), now.Design
		m.gestures++
	}
	m.waiting = dragged(m.start, part, from, to, now.Lengths)
	if done || !now.Stale || now.Err != nil {
		m.flush()
	}
	if done {
		m.part = ""
		m.session.Drop()
	}
}

// flush makes the move that waits an edit.
func (m *mover) flush() {
	if m.waiting == nil {
		return
	}
	place, part := m.waiting, m.nudged
	m.waiting, m.nudged = nil, ""
	if part != "" {
		m.session.Nudge(moveLabel(part), "move "+part, place)
		return
	}
	m.session.Drag(m.label, "drag "+strconv.Itoa(m.gestures), place)
}

// nudge moves part by single steps. Supports move as the left one and the
// front one do. As with a drag, the steps of a held key wait for the edit before
// to be computed, and are taken together.
func (m *mover) nudge(part string, dx, dy int, coarse bool) {
	now := m.session.Now()
	f, before := now.Lengths, m.waiting
	if m.part != "" {
		return // it follows the pointer
	}
	if m.nudged != "" && m.nudged != part {
		m.flush()
		before = nil
	}
	m.nudged = part
	m.waiting = func(d *engine.Design) {
		if before != nil {
			before(d)
		}
		if part == engine.SupportPart {
			if only, right, back := onlySide(d.Supports); only {
				dx, dy = turned(dx, right), turned(dy, back)
			}
			d.PlaceSupports(steps(d.Supports.EndInset, dx, coarse, f), steps(d.Supports.SideInset, dy, coarse, f))
			return
		}
		if i, ok := engine.FootOfPart(part); ok && i < len(d.Supports.Feet) {
			foot := d.Supports.Feet[i]
			d.PlaceFoot(i, steps(foot.X, dx, coarse, f), steps(foot.Y, dy, coarse, f))
			return
		}
		if l := loadAt(*d, part); l != nil {
			i, j, _ := engine.LoadOfPart(part)
			if l.Kind == engine.Couple { // from block to block
				d.StepCouple(i, j, dx, dy)
				return
			}
			d.PlaceLoad(i, j, steps(l.X, dx, coarse, f), steps(l.Y, dy, coarse, f))
		}
	}
	if !now.Stale || now.Err != nil {
		m.flush()
	}
}

// onlySide reports whether the supports that move stand at one side only,
// opposite a ledger, and whether that is the right or the back.
func onlySide(s engine.Supports) (only, right, back bool) {
	e := s.LedgerEdge()
	return s.Kind == engine.OnLedger, e == engine.LeftEdge, e == engine.FrontEdge
}

// turned returns v, or the other way if back.
func turned[T int | float64](v T, back bool) T {
	if back {
		return -v
	}
	return v
}

// steps returns v moved by n steps of the unit.
func steps(v float64, n int, coarse bool, f length.Format) float64 {
	for ; n > 0; n-- {
		v = f.StepUp(v, coarse)
	}
	for ; n < 0; n++ {
		v = f.StepDown(v, coarse)
	}
	return v
}

// dragged returns the edit that moves a part of the design start as the hand
// went from one place of the drawing to another, snapped to the steps of the
// unit. Below the plan lies the section, where things move along x only.
func dragged(start engine.Design, part string, from, to draw.Point, f length.Format) func(*engine.Design) {
	dx, dy := to.X-from.X, to.Y-from.Y
	if from.Y < 0 {
		dy = 0
	}
	if part == engine.SupportPart {
		// The right support: to the left is further in.
		right, back := from.X > start.Length/2, from.Y > start.Width/2
		switch e := start.Supports.LedgerEdge(); {
		case start.Supports.Kind != engine.OnLedger:
		case e == engine.LeftEdge || e == engine.RightEdge:
			right = e == engine.LeftEdge
		default:
			back = e == engine.FrontEdge
		}
		dx, dy = turned(dx, right), turned(dy, back)
		end, endMoves := snapped(start.Supports.EndInset, dx, f)
		side, sideMoves := snapped(start.Supports.SideInset, dy, f)
		return func(d *engine.Design) {
			d.Supports.EndInset, d.Supports.SideInset = start.Supports.EndInset, start.Supports.SideInset
			if endMoves || sideMoves {
				d.PlaceSupports(end, side)
			}
		}
	}
	if i, ok := engine.FootOfPart(part); ok && i < len(start.Supports.Feet) {
		old := start.Supports.Feet[i]
		x, xMoves := snapped(old.X, dx, f)
		y, yMoves := snapped(old.Y, dy, f)
		return func(d *engine.Design) {
			if i >= len(d.Supports.Feet) {
				return
			}
			d.Supports.Feet[i].X, d.Supports.Feet[i].Y = old.X, old.Y
			if xMoves || yMoves {
				d.PlaceFoot(i, x, y)
			}
		}
	}
	i, j, _ := engine.LoadOfPart(part)
	old := loadAt(start, part)
	if old == nil {
		return func(*engine.Design) {}
	}
	at := start.Spread(*old)
	x, xMoves := snapped(at.X, dx, f)
	y, yMoves := snapped(at.Y, dy, f)
	return func(d *engine.Design) {
		l := loadAt(*d, part)
		if l == nil {
			return
		}
		l.X, l.Y, l.Column, l.Row = old.X, old.Y, old.Column, old.Row
		if xMoves || yMoves {
			d.PlaceLoad(i, j, x, y)
		}
	}
}

// snapped returns v moved by delta to a whole step of the unit; a delta of less
// than half a step leaves it where it is, which may be between two steps.
func snapped(v, delta float64, f length.Format) (to float64, moves bool) {
	if f.Snap(max(delta, -delta)) == 0 {
		return v, false
	}
	return f.Snap(v + delta), true
}

// present returns the design to draw with a result that belongs to computed:
// loads and supports where they are now, if nothing else is different and they
// can stand there.
func (m *mover) present(computed engine.Design) engine.Design {
	now := m.session.Now().Design
	if m.waiting != nil {
		now = now.Clone()
		m.waiting(&now)
	}
	rest := now
	rest.Supports, rest.Cases = computed.Supports, computed.Cases
	if !reflect.DeepEqual(rest.Clone(), computed.Clone()) || !sameLoads(now.Cases, computed.Cases) {
		return computed
	}
	if (engine.Result{Problems: engine.Validate(now, now.Material, engine.Catalogue().Glue)}).Blocked() {
		return computed
	}
	return now
}

// sameLoads reports whether two lists of cases hold as many loads each.
func sameLoads(a, b []engine.LoadCase) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if len(a[i].Loads) != len(b[i].Loads) {
			return false
		}
	}
	return true
}
