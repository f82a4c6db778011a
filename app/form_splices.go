package app

import (
	"context"
	"strconv"

	"flatwright/engine"
)

// splicesGroup is where skins and ribs that are longer than their sheets are
// joined. Seams themselves stand with the skins.
func (f *form) splicesGroup() *group {
	return &group{
		name: "Seams and splices", roots: []string{"splices"},
		shape: func(d engine.Design) string { return strconv.Itoa(len(d.Splices)) },
		build: func(b *builder) {
			b.heading("Skins larger than their sheet are joined at seams, ribs longer than it at splices")
			b.add(f.button("Place the seams for me", "Where they cost least: away from where the skin works hardest, top and bottom apart, on a rib or with a splice plate. The seams you have now are replaced; Undo brings them back.",
				func() { f.place("The seams were not placed.", "seams placed", engine.ProposeSeams) }))
			b.add(f.button("Place the splices for me", "Away from slots, from the middle and from the splice of the rib beside it. The splices you have now are replaced; Undo brings them back.",
				func() {
					f.place("The splices were not placed.", "splices placed", func(_ context.Context, d engine.Design) (engine.Design, string, error) {
						spliced, why := engine.ProposeSplices(d)
						return spliced, why, nil
					})
				}))
			for i := range f.snap.Design.Splices {
				f.spliceLines(b, i)
			}
			b.add(f.button("Add a splice", "In the first lengthwise rib, at a third of its length.", func() {
				f.session.Edit("splice", "", func(d *engine.Design) {
					d.Splices = append(d.Splices, engine.Splice{Part: engine.RibPart(true, 0), At: d.Length / 3})
				})
			}))
		},
		summary: func(s Snapshot) string {
			return countOf(len(s.Design.Seams), "seam", "seams") + ", " + countOf(len(s.Design.Splices), "splice", "splices")
		},
	}
}

// place has the engine change the present design in the background, and says
// why it is as it is then. A design that was edited meanwhile stays.
func (f *form) place(failed, label string, propose func(context.Context, engine.Design) (engine.Design, string, error)) {
	snap := f.session.Now()
	win := windowOf(f.content)
	if win == nil {
		return
	}
	if snap.Stale || snap.Result.Blocked() {
		tell(win, "Seams and splices", "The design cannot be computed yet, so there is nothing to place.")
		return
	}
	var placed engine.Design
	var why string
	f.session.Background(func(ctx context.Context) (err error) {
		placed, why, err = propose(ctx, snap.Design)
		return err
	}, func(err error) {
		switch {
		case err != nil:
			showTrouble(win, failed, "Nothing was changed.", err)
		case f.session.Now().Revision == snap.Revision:
			f.session.Edit(label, "", func(d *engine.Design) { d.Seams, d.Splices = placed.Seams, placed.Splices })
			tell(win, "Seams and splices", inUnit(why, snap.Lengths))
		}
	})
}

var spliceOptions = []option{{"scarf", "scarf: sloped ends glued on each other"}, {"plates", "plates glued to both cheeks"}}

func (f *form) spliceLines(b *builder, i int) {
	at := func(d *engine.Design) *engine.Splice {
		if i < len(d.Splices) {
			return &d.Splices[i]
		}
		return nil
	}
	number := strconv.Itoa(i + 1)
	name := "splice " + number
	b.add(f.choice(spec{path: path("splices[%d].part", i), label: "Splice " + number, edit: name, help: "The rib or band that is made of two pieces."},
		func(s Snapshot) []option {
			var options []option
			for _, p := range s.Result.Parts {
				switch p.Kind {
				case engine.LengthwisePart, engine.CrosswisePart, engine.BandPart:
					options = append(options, option{p.ID, p.Name})
				}
			}
			return options
		},
		func(d engine.Design) string {
			if s := at(&d); s != nil {
				return s.Part
			}
			return ""
		},
		func(d *engine.Design, key string) {
			if s := at(d); s != nil {
				s.Part = key
			}
		}))
	b.add(f.value(spec{path: path("splices[%d].at", i), label: "From the datum end", edit: name, help: "To the middle of the splice: from the left end of a lengthwise rib, from the front edge of a crosswise one."},
		lengthQuantity, func(d *engine.Design) *float64 {
			if s := at(d); s != nil {
				return &s.At
			}
			return nil
		}))
	b.add(f.choice(spec{path: path("splices[%d].plates", i), label: "Made as", edit: name, help: "A scarf takes length off both pieces and stays as slim as the rib. Plates are easier to glue but fill part of the bay."},
		fixedOptions(spliceOptions...),
		func(d engine.Design) string {
			if s := at(&d); s != nil && s.Plates {
				return "plates"
			}
			return "scarf"
		},
		func(d *engine.Design, key string) {
			if s := at(d); s != nil {
				s.Plates = key == "plates"
			}
		}))
	b.add(f.button("Remove "+name, "", func() {
		f.session.Edit("removed splice", "", func(d *engine.Design) { d.Splices = without(d.Splices, i) })
	}))
}
