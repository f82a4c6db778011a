package engine

import (
	"testing"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// The plan for gluing names every rib once, beside the panel, marks what was made
// otherwise and shows no load.
func TestGluingPlan(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Built = []Built{{Kind: RibUnglued, Part: "L2", From: 0, To: d.Length}}
	r := refined(t, d, Interactive)
	f := GluingPlan(d, r, length.Format{})
	named := map[string]int{}
	for _, n := range f.Notes {
		named[n.Text]++
		if n.At.X <= d.Length && n.At.Y >= 0 {
			t.Errorf("%q stands on the panel at %v", n.Text, n.At)
		}
	}
	red := 0
	for _, a := range f.Areas {
		if a.Fill == draw.Over {
			red++
		}
		if a.Part == LoadPart(0, 0) || a.Part == SupportPart {
			t.Errorf("it shows %s", a.Part)
		}
	}
	ribs := 0
	for _, p := range r.Parts {
		if p.Kind == LengthwisePart || p.Kind == CrosswisePart {
			ribs++
			if named[p.ID] != 1 {
				t.Errorf("rib %s is named %d times", p.ID, named[p.ID])
			}
		}
	}
	if len(f.Notes) != ribs || red != 1 {
		t.Errorf("%d notes for %d ribs, %d places marked; want 1", len(f.Notes), ribs, red)
	}
}
