package engine

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"flatwright/engine/length"
	"flatwright/engine/plate"
)

// Built is one thing that was made otherwise than drawn.
type Built struct {
	Kind  BuiltKind `json:"kind"`
	Part  string    `json:"part"`            // ID of a rib ("L2", "C5"), of a seam ("seam 1"), of a skin, or the kind of ribs
	Side  string    `json:"side,omitempty"`  // skin that a rib is not glued to, TopSeam or BottomSeam; "" is both
	From  float64   `json:"from,omitempty"`  // of a rib that is not glued or wrongly slotted: along it, from the panel's left end or front edge, mm
	To    float64   `json:"to,omitempty"`    // the same
	Value float64   `json:"value,omitempty"` // depth of a slot as cut, or a thickness, mm
	X     float64   `json:"x,omitempty"`     // by how much a skin slid to the right, mm
	Y     float64   `json:"y,omitempty"`     // to the back, mm
}

// BuiltKind is what went otherwise.
type BuiltKind string

// What can go otherwise.
const (
	SlotDeeper BuiltKind = "slot deeper" // the slots of a rib are Value deep
	RibUnglued BuiltKind = "rib unglued" // a rib is not glued to Side, or to neither skin, between From and To
	SeamOpen   BuiltKind = "seam open"   // a seam that was to be spliced is not

	// ThicknessMeasured: the sheet of a skin (Part "top", "bottom") or of all
	// ribs that run one way (Part a [PartKind]) is Value thick.
	ThicknessMeasured BuiltKind = "thickness measured"

	// WrongEdge: the slots of a rib that lie between From and To, or all where both
	// are 0, were cut into its other edge. See [Design.cutOff].
	WrongEdge BuiltKind = "wrong edge"

	// SkinSlid: a skin (Part "top", "bottom") is glued X and Y away from its place.
	// See [Design.lacks].
	SkinSlid BuiltKind = "skin slid"
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

// thickness returns the thickness that a mark is about, nil if it is about none.
func (d *Design) thickness(part string) *float64 {
	switch part {
	case TopSeam:
		return &d.TopSkin.Thickness
	case BottomSeam:
		return &d.BottomSkin.Thickness
	case string(LengthwisePart):
		return &d.Lengthwise.Thickness
	case string(CrosswisePart):
		return &d.Crosswise.Thickness
	}
	return nil
}

// thicknesses are those that can be measured otherwise.
func thicknesses(d *Design) [4]float64 {
	return [4]float64{d.TopSkin.Thickness, d.BottomSkin.Thickness, d.Lengthwise.Thickness, d.Crosswise.Thickness}
}

// DrawnThickness returns the thickness, mm, in the design of what a mark of
// [ThicknessMeasured] is about; 0 if the part has none.
func (d Design) DrawnThickness(part string) float64 {
	if t := d.thickness(part); t != nil {
		return *t
	}
	return 0
}

// Words says what a mark is about, for people.
func (b Built) Words(f length.Format) string {
	fine := func(mm float64) string { return fineText(mm, f) }
	switch b.Kind {
	case SlotDeeper:
		return fmt.Sprintf("the slots of rib %s are %s deep", b.Part, fine(b.Value))
	case RibUnglued:
		skin := ""
		if b.Side != "" {
			skin = " to the " + b.Side + " skin"
		}
		return fmt.Sprintf("rib %s is not glued%s from %s to %s", b.Part, skin, f.Print(b.From), f.Print(b.To))
	case WrongEdge:
		where := "all along"
		if !b.everywhere() {
			where = "from " + f.Print(b.From) + " to " + f.Print(b.To)
		}
		return fmt.Sprintf("rib %s is slotted in the wrong edge %s, and cut off at those crossings", b.Part, where)
	case SkinSlid:
		return fmt.Sprintf("the %s skin slid %s", b.Part, slidWords(b.X, b.Y, fine))
	case SeamOpen:
		return b.Part + " is open"
	}
	switch b.Part {
	case TopSeam, BottomSeam:
		return fmt.Sprintf("the %s skin is %s thick", b.Part, fine(b.Value))
	}
	return fmt.Sprintf("the %ss are %s thick", b.Part, fine(b.Value))
}

// rateAsBuilt computes the panel as it was made, on the mesh of r, and sets it
// beside what was designed. It is told at rest, not while a load is dragged.
func (d *Design) rateAsBuilt(ctx context.Context, mo *model, m *materials, r *Result) error {
	r.AsBuilt = nil
	if len(d.Built) == 0 || r.Whole.Mesh < Normal {
		return nil
	}
	onIts, err := d.onMeshOf(ctx, mo.weight, r.Whole.Mesh)
	if err != nil {
		return ctx.Err()
	}
	made := d.measured()
	if thicknesses(d) != thicknesses(&made) || !slices.Equal(d.Seams, made.Seams) {
		itsMaterials := made.materials()
		its := newModel(&made, &itsMaterials, false)
		d, m, mo = &made, &itsMaterials, &its
	}
	w, err := wholeCases(ctx, d, mo.weight, r.Whole.Mesh)
	if err != nil {
		return ctx.Err() // what does not hold as designed is told there
	}
	a := &AsBuilt{DesignedSag: r.Cases[r.Governing].Sag, DesignedMargin: TimesCap, Margin: TimesCap}
	for i, c := range w.report.Cases {
		sag := c.Sag
		if onIts != nil && onIts[i] > 0 { // told against the sag as designed, which has no lines at the marks
			sag *= r.Cases[i].Sag / onIts[i]
		}
		a.Sag = max(a.Sag, sag)
		a.Sags = append(a.Sags, sag)
	}
	a.Mass = mo.weight / Gravity
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

// onMeshOf returns the sags of the cases as designed, on the mesh that the panel as
// built has: marks bring lines of their own, which alone move the sag of a coarse
// mesh. nil where both meshes are the same.
func (d *Design) onMeshOf(ctx context.Context, weight float64, mesh Mesh) ([]float64, error) {
	cuts := d.markLines()
	if cuts[0] == nil && cuts[1] == nil {
		return nil, nil
	}
	e := *d
	e.Built = nil
	p := e.wholePanel(ctx, int(mesh))
	p.Cuts = cuts
	m, err := plate.Prepare(ctx, p)
	if err != nil {
		return nil, err
	}
	w, err := e.solveCases(ctx, &cachedModel{panel: p, model: m}, weight, mesh)
	if err != nil {
		return nil, err
	}
	var sags []float64
	for _, c := range w.report.Cases {
		sags = append(sags, c.Sag)
	}
	return sags, nil
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
	p.Text = fmt.Sprintf("As built: sag %s instead of %s, lowest margin %s instead of %s (%s). %s", sagText(a.Sag), sagText(a.DesignedSag), length.Number(a.Margin, 3), length.Number(a.DesignedMargin, 3), a.Lowest.Name, help)
	return p
}
