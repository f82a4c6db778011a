package engine

import (
	"context"
	"fmt"

	"flatwright/engine/plate"
)

// otherLaps returns the sag of the governing case with the laps glued tight if
// they are open, and open if they are glued: the other bound of what glue in a
// lap does. It is looked for on the normal mesh, once the panel is refined, and
// told in proportion. It is 0 before that and where the other panel is not held.
func (d *Design) otherLaps(ctx context.Context, weight float64, r Result) (float64, error) {
	if r.Whole.Mesh < Refined {
		return 0, nil
	}
	other := *d
	other.Slots.Glued = !d.Slots.Glued
	here, err := d.sagAt(ctx, weight, r)
	if err != nil || !(here > 0) {
		return 0, ctx.Err()
	}
	there, err := other.sagAt(ctx, weight, r)
	if err != nil {
		return 0, ctx.Err()
	}
	return r.Cases[r.Governing].Sag * there / here, nil
}

// sagAt returns the sag, mm, on the normal mesh where the governing case sags
// most.
func (d *Design) sagAt(ctx context.Context, weight float64, r Result) (float64, error) {
	s, err := d.solveCase(ctx, weight, r.Governing, Normal)
	if err != nil {
		return 0, err
	}
	c := r.Cases[r.Governing]
	return s.Sag(c.X, c.Y), nil
}

// solveCase solves one case on a mesh. It keeps no panel: it is asked about
// others than the one under work.
func (d *Design) solveCase(ctx context.Context, weight float64, n int, mesh Mesh) (*plate.Solution, error) {
	m, err := prepared(ctx, d, mesh, false)
	if err != nil {
		return nil, err
	}
	loads := []plate.Press{d.Press(Load{Kind: Uniform, Force: weight})}
	for _, l := range d.Cases[n].Loads {
		loads = append(loads, d.Press(l))
	}
	return m.solve(ctx, loads)
}

// lapsWorking tells both bounds of the laps.
func (d *Design) lapsWorking(r Result) Working {
	now, other := "open slots", "laps glued tight"
	if d.Slots.Glued {
		now, other = other, now
	}
	sag := r.Cases[r.Governing].Sag
	return Working{
		Key: "laps", Title: "Laps open or glued, under “" + d.Cases[r.Governing].Name + "”",
		Formula: "the same panel with slot factors of 1, or of the open slot",
		Numbers: fmt.Sprintf("%s %.3f mm, %s %.3f mm", now, sag, other, r.Whole.OtherLaps),
		Result:  fmt.Sprintf("%.3f mm to %.3f mm", min(sag, r.Whole.OtherLaps), max(sag, r.Whole.OtherLaps)),
		Source:  "recomputed on the normal mesh, told in proportion; a lap passes pressure but no reliable pull, derived",
		Plain:   fmt.Sprintf("With %s it would be %.3f mm; the truth lies between.", other, r.Whole.OtherLaps),
	}
}
