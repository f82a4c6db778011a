package engine

import (
	"math"
	"testing"

	"flatwright/engine/draw"
)

// A spot shows at its place in the plan, and in both sections on the same x and
// the same y, as high as the middle of its part.
func TestSpotStandsInPlanAndSections(t *testing.T) {
	t.Parallel()
	d := Demo()
	r, err := Estimate(t.Context(), d)
	if err != nil {
		t.Fatal(err)
	}
	marks := func(s Spot) []draw.Mark {
		var out []draw.Mark
		for _, m := range Drawing(d, r, DrawingOptions{Spot: s}).Marks {
			if m.Kind == draw.SpotMark {
				out = append(out, m)
			}
		}
		return out
	}
	if got := marks(Spot{X: 300, Y: 200}); len(got) != 0 {
		t.Errorf("%d marks without a text; want none", len(got))
	}
	top, _ := partByID(r.Parts, "top")
	bottom, _ := partByID(r.Parts, "bottom")
	high := marks(Spot{X: 300, Y: 200, Part: "top", Text: "here"})
	low := marks(Spot{X: 300, Y: 200, Part: "bottom", Text: "here"})
	if len(high) != 3 || len(low) != 3 {
		t.Fatalf("%d and %d marks; want plan and two sections", len(high), len(low))
	}
	if high[0].At != (draw.Point{X: 300, Y: 200}) {
		t.Errorf("in the plan at %v; want 300, 200", high[0].At)
	}
	if high[1].At.X != 300 || high[2].At.Y != 200 {
		t.Errorf("in the sections at %v and %v; want the plan's x and y", high[1].At, high[2].At)
	}
	rise := (top.Place.Z0+top.Place.Z1)/2 - (bottom.Place.Z0+bottom.Place.Z1)/2
	if got := high[1].At.Y - low[1].At.Y; math.Abs(got-rise) > 1e-9 {
		t.Errorf("the top skin is marked %v mm over the bottom one in the long section; want %v", got, rise)
	}
	if got := low[2].At.X - high[2].At.X; math.Abs(got-rise) > 1e-9 {
		t.Errorf("the top skin is marked %v mm nearer to the plan in the end section; want %v", got, rise)
	}
}

// The words stand inside the outline, whichever corner the place is in.
func TestSpotWordsStandTowardsTheMiddle(t *testing.T) {
	t.Parallel()
	d := Demo()
	r, err := Estimate(t.Context(), d)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range [...]draw.Point{{}, {X: d.Length}, {Y: d.Width}, {X: d.Length, Y: d.Width}} {
		for _, n := range Drawing(d, r, DrawingOptions{Spot: Spot{X: p.X, Y: p.Y, Text: "here"}}).Notes {
			if n.Text != "here" {
				continue
			}
			want := [2]bool{p.X == 0, p.Y == 0} // words begin right of it, above it
			var got [2]bool
			switch n.Anchor {
			case draw.AtBottomLeft:
				got = [2]bool{true, true}
			case draw.AtBottomRight:
				got = [2]bool{false, true}
			case draw.AtTopLeft:
				got = [2]bool{true, false}
			}
			if got != want || (n.At.X > p.X) != want[0] || (n.At.Y > p.Y) != want[1] {
				t.Errorf("for %v the words stand at %v, anchor %v", p, n.At, n.Anchor)
			}
		}
	}
}
