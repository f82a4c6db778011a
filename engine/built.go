package engine

import (
	"context"
	"fmt"
	"strings"

	"flatwright/engine/plate"
)

// Built is one thing that was made otherwise than drawn.
type Built struct {
	Kind  BuiltKind `json:"kind"`
	Part  string    `json:"part"`            // ID of a rib ("L2", "C5") or of a seam ("seam 1")
	From  float64   `json:"from,omitempty"`  // of a rib that is not glued: along it, from the panel's left end or front edge, mm
	To    float64   `json:"to,omitempty"`    // the same
	Value float64   `json:"value,omitempty"` // depth of a slot as cut, mm
}

// BuiltKind is what went otherwise.
type BuiltKind string

// What can go otherwise.
const (
	SlotDeeper BuiltKind = "slot deeper" // the slots of a rib are Value deep
	RibUnglued BuiltKind = "rib unglued" // a rib is glued to neither skin between From and To
	SeamOpen   BuiltKind = "seam open"   // a seam that was to be spliced is not
)

// RibPart returns the part ID of a rib by its number, counted from 0.
func RibPart(lengthwise bool, n int) string {
	if lengthwise {
		return fmt.Sprintf("L%d", n+1)
	}
	return fmt.Sprintf("C%d", n+1)
}

// RibOfPart is the reverse of [RibPart].
func RibOfPart(part string) (lengthwise bool, n int, ok bool) {
	lengthwise = strings.HasPrefix(part, "L")
	if !lengthwise && !strings.HasPrefix(part, "C") {
		return false, 0, false
	}
	if _, err := fmt.Sscanf(part[1:], "%d", &n); err != nil || n < 1 || part != RibPart(lengthwise, n-1) {
		return false, 0, false
	}
	return lengthwise, n - 1, true
}

// slotDepth returns how deep the slots of one rib are, as cut, mm: the deepest
// if it is marked more than once.
func (d *Design) slotDepth(part string) float64 {
	depth := d.SlotDepth()
	for _, b := range d.Built {
		if b.Kind == SlotDeeper && b.Part == part {
			depth = max(depth, b.Value)
		}
	}
	return depth
}

// builtOpen reports whether a seam was left without its splice.
func (d *Design) builtOpen(seam int) bool {
	for _, b := range d.Built {
		if b.Kind == SeamOpen && b.Part == SeamPart(seam) {
			return true
		}
	}
	return false
}

// looseRibs is the stretches of ribs that are not glued, as the whole-panel
// model has them.
func (d *Design) looseRibs() []plate.Loose {
	var out []plate.Loose
	for _, b := range d.Built {
		if along, n, ok := RibOfPart(b.Part); ok && b.Kind == RibUnglued {
			out = append(out, plate.Loose{Along: along, Rib: n, From: b.From, To: b.To, Top: true, Bottom: true})
		}
	}
	return out
}

// rateAsBuilt computes the panel as it was made, on the mesh of r, and sets it
// beside what was designed. It is told at rest, not while a load is dragged.
func (d *Design) rateAsBuilt(ctx context.Context, mo *model, m *materials, r *Result) error {
	r.AsBuilt = nil
	if len(d.Built) == 0 || r.Whole.Mesh < Normal {
		return nil
	}
	w, err := wholeCases(ctx, d, mo.weight, r.Whole.Mesh)
	if err != nil {
		return ctx.Err() // what does not hold as designed is told there
	}
	a := &AsBuilt{DesignedSag: r.Cases[r.Governing].Sag, DesignedMargin: TimesCap, Margin: TimesCap}
	for _, c := range w.report.Cases {
		a.Sag = max(a.Sag, c.Sag)
	}
	if len(r.Margins) > 0 {
		a.DesignedMargin = r.Margins[0].Value
	}
	leant, answers := d.leant(w)
	if all := mo.wholeMargins(ctx, leant, m, answers); len(all) > 0 {
		a.Margin, a.Lowest = all[0].Value, all[0]
	}
	r.AsBuilt = a
	r.Problems = append(r.Problems, d.builtProblem(a))
	return ctx.Err()
}

// builtProblem says in one place what the marks cost.
func (d *Design) builtProblem(a *AsBuilt) Problem {
	short := func(sag, margin float64) bool { return d.Limits.Sag > 0 && sag > d.Limits.Sag || margin < 1 }
	p := Problem{Code: "as-built", Severity: Advice, Field: "built[0].kind", Part: d.Built[0].Part}
	help := "That is still what was asked for; mend what can be reached."
	switch {
	case short(a.DesignedSag, a.DesignedMargin):
		help = "As designed it falls short already; mend what can be reached, or use the top for less."
	case short(a.Sag, a.Margin):
		p.Severity = Shortfall
		help = "That is less than was asked for: mend the joint, add a support, or use the top for less."
	}
	p.Text = fmt.Sprintf("As built: sag %.2f mm → %.2f mm, lowest margin %.2f → %.2f (%s). %s", a.DesignedSag, a.Sag, a.DesignedMargin, a.Margin, a.Lowest.Name, help)
	return p
}
