package app

import (
	"context"
	"reflect"

	"flatwright/engine"
	"flatwright/engine/length"
)

// leastSag moves the supports to where the top sags least and says what came
// of it. The design may be edited meanwhile; then the answer is dropped.
func (d *desk) leastSag() {
	snap := d.session.Now()
	if snap.Stale || snap.Result.Blocked() || len(snap.Design.Cases) == 0 {
		tell(d.win, "Supports", "The design cannot be computed yet, so there is nothing to compare.")
		return
	}
	var best engine.Supports
	var before, after float64
	d.session.Background(func(ctx context.Context) (err error) {
		best, before, after, err = engine.BestSupports(ctx, snap.Design)
		return err
	}, func(err error) {
		switch {
		case err != nil:
			showTrouble(d.win, "The best places for the supports were not found.", "Nothing was changed.", err)
		case d.session.Now().Revision != snap.Revision:
			// The person has gone on; an answer to the old design would be in the way.
		default:
			if !reflect.DeepEqual(best, snap.Design.Supports) {
				d.session.Edit("supports to where it sags least", "supports", func(e *engine.Design) { e.Supports = best })
			}
			tell(d.win, "Supports", leastSagText(snap.Design.Supports, best, before, after, snap.Lengths))
		}
	})
}

// leastSagText says what the search found.
func leastSagText(old, best engine.Supports, before, after float64, f length.Format) string {
	if old.Kind == engine.OwnFeet {
		return "Feet at places of your own stay where you put them: the program does not know why they stand there. Drag them in the plan and watch the sag, or pick legs or rails, which it can move."
	}
	if reflect.DeepEqual(best, old) {
		return "They stand where the top sags least already, as far as moving them in equal steps from the ends and sides goes."
	}
	text := "Moved"
	if best.EndInset != old.EndInset {
		text += " to " + f.Print(best.EndInset) + " from the ends"
	}
	if best.SideInset != old.SideInset {
		if best.EndInset != old.EndInset {
			text += " and"
		}
		text += " to " + f.Print(best.SideInset) + " from the sides"
	}
	return text + ". The largest sag goes from " + length.Sag(before, f) + " to " + length.Sag(after, f) +
		" (on the quick mesh). What overhangs can tip when someone leans on it: the margins say by how much. Undo takes it back."
}
