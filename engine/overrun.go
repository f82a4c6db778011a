package engine

import (
	"context"
	"fmt"
	"math"

	"flatwright/engine/length"
	"flatwright/engine/plate"
)

// OverrunEffect is what it does to the ribs of one kind, and to the top, when
// all their slots are cut past the mark by Overrun. Pairs are as drawn and as
// cut. It errs high: of a stack only the uppermost boards are cut as deep, and
// on one face only.
type OverrunEffect struct {
	Kind    PartKind `json:"kind"`
	Overrun float64  `json:"overrun"` // mm
	Depth   float64  `json:"depth"`   // of the slots as cut, mm
	Left    float64  `json:"left"`    // of the rib above or below them, mm

	Bending [2]float64 `json:"bending"` // share of the rib's own bending stiffness that the slots leave
	Shear   [2]float64 `json:"shear"`   // share of its shear stiffness
	Sag     [2]float64 `json:"sag"`     // largest of any case, mm

	SlotShear   [2]Margin `json:"slotShear"`   // lowest in a rib of that kind at a slot
	SlotBending [2]Margin `json:"slotBending"` // lowest in a rib of that kind at a slot
	Lowest      [2]Margin `json:"lowest"`      // of the whole top

	Refused string `json:"refused,omitempty"` // why nothing is computed, in words
}

// RateOverrun computes the top once more with the slots of all ribs of one kind
// deeper by overrun mm than drawn, through the whole-panel model on the mesh of
// r. Where that says nothing, Refused tells why. It returns the error of ctx.
func RateOverrun(ctx context.Context, d Design, r Result, kind PartKind, overrun float64) (OverrunEffect, error) {
	e := OverrunEffect{Kind: kind, Overrun: overrun, Depth: d.SlotDepth() + overrun}
	e.Left = d.CoreDepth - e.Depth
	along := kind == LengthwisePart
	switch {
	case r.Blocked() || r.Whole == nil || r.Whole.Mesh < Normal || r.NotHeld() != "":
		e.Refused = "The top is not computed yet, or nothing holds it up."
	case !along && kind != CrosswisePart:
		e.Refused = "Only ribs have slots."
	case !(overrun >= 0):
		e.Refused = "An over-run is 0 or more."
	case e.Left < minLedge:
		e.Refused = fmt.Sprintf("Slots %s deep would leave %s of the ribs, which are %s high; %s must stay.", inMM(e.Depth), inMM(math.Max(0, e.Left)), inMM(d.CoreDepth), inMM(minLedge))
	}
	if e.Refused != "" {
		return e, nil
	}
	drawn := d.Clone()
	drawn.Built = nil
	cut := drawn.Clone()
	set := cut.Crosswise
	if along {
		set = cut.Lengthwise
	}
	for i := range set.number() {
		cut.Built = append(cut.Built, Built{Kind: SlotDeeper, Part: RibPart(along, i), Value: e.Depth})
	}
	for i, c := range [...]*Design{&drawn, &cut} {
		if err := e.rate(ctx, c, i, along, r.Whole.Mesh); err != nil {
			return OverrunEffect{}, err
		}
	}
	return e, ctx.Err()
}

// overruns rates the ways taken that run past the mark, one for each kind of
// ribs: the farthest.
func (d Design) overruns(ctx context.Context, r Result) ([]OverrunEffect, error) {
	var out []OverrunEffect
	for _, kind := range [...]PartKind{LengthwisePart, CrosswisePart} {
		past := 0.0
		for _, g := range r.SlotWork.Groups {
			if g.Kind == kind && g.Taken >= 0 {
				past = math.Max(past, g.Ways[g.Taken].Overrun)
			}
		}
		if past == 0 {
			continue
		}
		e, err := RateOverrun(ctx, d, r, kind, past)
		if err != nil {
			return nil, err
		}
		out = append(out, e)
	}
	return out, nil
}

// rate fills in one side of the comparison.
func (e *OverrunEffect) rate(ctx context.Context, d *Design, side int, along bool, mesh Mesh) error {
	m := d.materials()
	mo := newModel(d, &m, false)
	w, err := wholeCases(ctx, d, mo.weight, mesh)
	if err != nil {
		if ctx.Err() == nil {
			e.Refused = "With these slots nothing holds the top up."
		}
		return ctx.Err()
	}
	for _, c := range w.report.Cases {
		e.Sag[side] = math.Max(e.Sag[side], c.Sag)
	}
	leant, answers := d.leant(w)
	margins := mo.wholeMargins(ctx, leant, &m, answers)
	e.SlotShear[side] = lowestOf(margins, slotShear, along)
	e.SlotBending[side] = lowestOf(margins, slotBending, along)
	if len(margins) > 0 {
		e.Lowest[side] = margins[0]
	}
	e.Bending[side], e.Shear[side] = d.slotShares(ctx, &m, along, d.slotDepth(RibPart(along, 0)))
	return ctx.Err()
}

// lowestOf returns the margin of one check, the zero Margin if little is asked
// of it.
func lowestOf(margins []Margin, c check, along bool) Margin {
	code, _ := c.name(along)
	for _, m := range margins {
		if m.Code == code {
			return m
		}
	}
	return Margin{}
}

// slotShares returns what slots cut deep leave of the bending and the shear
// stiffness of a rib, as the whole-panel model has it.
func (d *Design) slotShares(ctx context.Context, m *materials, along bool, cut float64) (bending, shear float64) {
	tb := d.EdgeBand.Thickness
	p := &plate.Panel{Top: layer(&m.top, d.TopSkin), Bottom: layer(&m.bottom, d.BottomSkin)}
	pitchX, pitchY := (d.Length-2*tb)/float64(d.Crosswise.number()), (d.Width-2*tb)/float64(d.Lengthwise.number())
	if along {
		return d.solvedSlots(ctx, p, &m.lengthwise, d.Lengthwise, d.Crosswise, pitchX, pitchY, cut, !d.Slots.LengthwiseDown, true)
	}
	return d.solvedSlots(ctx, p, &m.crosswise, d.Crosswise, d.Lengthwise, pitchY, pitchX, cut, d.Slots.LengthwiseDown, false)
}

// Lines tells the effect in sentences, lengths in mm.
func (e OverrunEffect) Lines() []string {
	if e.Refused != "" {
		return []string{e.Refused}
	}
	percent := func(v [2]float64) string { return fmt.Sprintf("%.0f %% instead of %.0f %%", 100*v[1], 100*v[0]) }
	margin := func(v [2]Margin) string {
		if v[0].Code == "" || v[1].Code == "" {
			return "next to nothing is asked of them"
		}
		return fmt.Sprintf("margin %s instead of %s", length.Number(v[1].Value, 3), length.Number(v[0].Value, 3))
	}
	name := "lengthwise"
	if e.Kind == CrosswisePart {
		name = "crosswise"
	}
	out := []string{
		fmt.Sprintf("Slots of all %s ribs %.1f mm deeper, %.1f mm of their height left: slots leave %s of a rib's bending stiffness and %s of its shear stiffness.", name, e.Overrun, e.Left, percent(e.Bending), percent(e.Shear)),
		"Shear at a slot: " + margin(e.SlotShear) + ". Bending at a slot: " + margin(e.SlotBending) + ".",
		fmt.Sprintf("Whole top: sag %.3f mm instead of %.3f mm, lowest %s (%s).", e.Sag[1], e.Sag[0], margin(e.Lowest), e.Lowest[1].Name),
	}
	if e.Lowest[1].Code != "" && e.Lowest[1].Value < 1 {
		out = append(out, "A margin under 1 is less than was asked for: cut fewer boards at once, plunge deeper, or take a way that does not run over.")
	}
	return append(out, "Counted is the uppermost board's slot over its whole thickness, and for every rib; most are cut less deep. Ribs from lower in the stack belong under the heaviest loads.")
}
