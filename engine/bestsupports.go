package engine

import (
	"context"
	"errors"
	"math"

	"flatwright/engine/plate"
)

// BestSupports moves rails or legs to where the top sags least under its worst
// load case and returns the new supports with the sag before and after, mm, both
// on the interactive mesh. Insets are whole steps of insetStep or half the
// bearing; a place where the top tips or a foot lifts is not taken. Supports
// along all edges come back as they are, and so do feet of the person's own: they
// stand where they do for reasons that the program does not know. A ledger stays
// on its edge. It takes some tens of solutions; it
// returns the error of ctx.
func BestSupports(ctx context.Context, d Design) (best Supports, before, after float64, err error) {
	best = d.Supports
	m := d.materials()
	weight := d.mass(&m) * Gravity
	sag := func(s Supports) (float64, error) {
		e := d
		e.Supports = s
		w, err := wholeCases(ctx, &e, weight, Interactive)
		switch {
		case ctx.Err() != nil:
			return 0, ctx.Err()
		case errors.Is(err, plate.ErrLoose), errors.Is(err, plate.ErrRocking), errors.Is(err, plate.ErrBeside):
			return math.Inf(1), nil
		case err != nil:
			return 0, err
		}
		most := 0.0
		for _, c := range w.report.Cases {
			most = math.Max(most, c.Sag)
			for _, r := range c.Reactions {
				if r.Lifted {
					return math.Inf(1), nil
				}
			}
		}
		return most, nil
	}
	if before, err = sag(best); err != nil {
		return d.Supports, 0, 0, err
	}
	after = before
	ends, sides := best.UsesEnd(), best.UsesSide()
	for range 2 { // each way in turn, twice: what is best one way shifts the other
		if ends {
			if after, err = d.along(sag, &best, func(s *Supports) *float64 { return &s.EndInset }, d.Length, after); err != nil {
				return d.Supports, 0, 0, err
			}
		}
		if sides {
			if after, err = d.along(sag, &best, func(s *Supports) *float64 { return &s.SideInset }, d.Width, after); err != nil {
				return d.Supports, 0, 0, err
			}
		}
	}
	return best, before, after, nil
}

// farthest is the largest inset that is tried, as a share of the extent: the
// supports of an evenly loaded beam sag least at 0.22 (textbook).
const farthest = 0.35

// along tries insets one way, coarse steps first and then fine ones about the
// best, and leaves the best in s.
func (d *Design) along(sag func(Supports) (float64, error), s *Supports, inset func(*Supports) *float64, extent, least float64) (float64, error) {
	low, high := s.Bearing/2, farthest*extent
	try := func(v float64) error {
		if v < low || v > high {
			return nil
		}
		t := *s
		*inset(&t) = v
		w, err := sag(t)
		if err == nil && w < least {
			least, *s = w, t
		}
		return err
	}
	if err := try(low); err != nil {
		return 0, err
	}
	for v := insetStep * math.Ceil(low/insetStep); v <= high; v += 3 * insetStep {
		if err := try(v); err != nil {
			return 0, err
		}
	}
	for middle, k := *inset(s), -2; k <= 2; k++ {
		if err := try(insetStep * (math.Round(middle/insetStep) + float64(k))); err != nil {
			return 0, err
		}
	}
	return least, nil
}
