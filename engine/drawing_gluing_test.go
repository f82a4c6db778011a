package engine

import (
	"strings"
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

// The name of a load never reaches beyond the plan's ends, and where the plan shows
// too small for it only the strength is written. The width of the text is measured
// by the font's own figures, not by the estimate that places it.
func TestLoadNamesStayOnThePlan(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Cases = d.Cases[:1]
	d.Cases[0].Loads = d.Cases[0].Loads[:1]
	l := &d.Cases[0].Loads[0]
	l.Name, l.Kind, l.SizeX, l.SizeY = "Heavy work at the right end", Patch, 100, 100
	l.Y = d.Width / 2
	for _, x := range []float64{60, d.Length / 2, d.Length - 60} {
		l.X = x
		r := refined(t, d, Interactive)
		for _, room := range []draw.Point{{X: 340, Y: 260}, {X: 700, Y: 520}, {X: 1200, Y: 900}} {
			f := Drawing(d, r, DrawingOptions{Room: room})
			m := draw.ScreenMetrics(func(text string, size float64, bold bool) float64 { return 0.62 * size * float64(len([]rune(text))) })
			v := draw.Fit(f.Bounds(), room.X, room.Y, draw.Margins{Left: 55, Right: 55, Top: 55, Bottom: 60})
			found := false
			for _, it := range f.Flatten(v, m).Items {
				if it.Shape != draw.Words || it.Part != LoadPart(0, 0) {
					continue
				}
				found = true
				left, right := v.Map(draw.Point{}).X, v.Map(draw.Point{X: d.Length}).X
				if box := it.Box(); box.Min.X < left-2 || box.Max.X > right+2 {
					t.Errorf("at %v in %v: %q reaches from %.0f to %.0f, the plan from %.0f to %.0f", x, room, it.Text, box.Min.X, box.Max.X, left, right)
				}
				if small := room.X < 400; small == strings.Contains(it.Text, l.Name) {
					t.Errorf("in %v it says %q", room, it.Text)
				}
			}
			if !found {
				t.Errorf("at %v in %v the load has no label", x, room)
			}
		}
	}
}
