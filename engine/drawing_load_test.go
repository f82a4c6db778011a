package engine

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// saggedLines returns the line of the solid slab and the unloaded line of a
// drawing.
func saggedLines(f draw.Figure) (slab []draw.Line, level draw.Line) {
	for _, l := range f.Lines {
		switch {
		case l.Part == SaggedPart && l.Pen == draw.Hidden:
			slab = append(slab, l)
		case l.Part == SaggedPart:
			level = l
		}
	}
	return slab, level
}

// The underside of the bent section hangs below the unloaded line by the depth
// and the stated number of times the sag; the slab's line by that many times
// the slab's. Below the section in a tall room, to the right in a wide one.
func TestSaggedSectionIsToScale(t *testing.T) {
	t.Parallel()
	d := plainTop()
	r := refined(t, d, Interactive)
	sags := r.Whole.Cases[0].Map.Over(d)
	c := r.Whole.Cases[0]
	row := int(math.Round(c.Y / d.Width * float64(c.Map.NY-1)))
	for _, room := range [...]struct {
		name   string
		size   draw.Point
		beside bool
	}{{"tall", draw.Point{X: 500, Y: 900}, false}, {"wide", draw.Point{X: 1000, Y: 300}, true}, {"not told", draw.Point{}, false}} {
		f := Drawing(d, r, DrawingOptions{Sagged: true, Sag: &sags, Room: room.size})
		var times float64
		for _, n := range f.Notes {
			if strings.HasPrefix(n.Text, "Sag drawn ") {
				fmt.Sscanf(n.Text, "Sag drawn %f times", &times)
			}
		}
		if m := times / math.Pow(10, math.Floor(math.Log10(times))); !(times > 1) || (m != 1 && m != 2 && m != 5) {
			t.Fatalf("%s: sag is drawn %g times, want 1, 2 or 5 with noughts", room.name, times)
		}
		slab, level := saggedLines(f)
		x0 := level.A.X
		if beside := x0 > d.Length; beside != room.beside {
			t.Errorf("%s: the section stands beside the plan %v, want %v", room.name, beside, room.beside)
		}
		want := d.slabAlong(0, c.Y, c.Map.NX)
		for i, l := range slab {
			near(t, room.name+", slab", (level.A.Y-l.A.Y)/times, want[i], 1e-9)
		}
		var bent draw.Area
		for _, a := range f.Areas {
			if a.Part == "bottom" && len(a.Points) > 4 {
				bent = a
			}
		}
		seen := 0
		for _, p := range bent.Points {
			i := (p.X - x0) / d.Length * float64(c.Map.NX-1)
			sag := c.Map.Sag[row*c.Map.NX+min(int(math.Round(i)), c.Map.NX-1)]
			if under := (level.A.Y - d.TotalDepth() - p.Y) / times; math.Abs(under-sag) < 1e-9 {
				seen++
			}
		}
		if seen != c.Map.NX {
			t.Errorf("%s: %d places of the underside hang where the map says, want all %d", room.name, seen, c.Map.NX)
		}
	}
}

// By hand: two equal rails under a load in the middle carry half of load and
// weight each. The numbers stand in the plan at their supports; what lifts is
// named; after a move of the load they are marked, after one of the supports
// they are gone.
func TestReactionsInThePlan(t *testing.T) {
	t.Parallel()
	d := plainTop()
	r := refined(t, d, Interactive)
	var load float64
	for _, l := range d.Cases[0].Loads {
		load += l.Force
	}
	each := length.Force((load+r.Mass.Total*Gravity)/2, length.Format{})
	at := func(f draw.Figure, text string) (count int) {
		for _, n := range f.Notes {
			if n.Text == text && n.Part == SupportPart {
				count++
			}
		}
		return count
	}
	if got := at(Drawing(d, r, DrawingOptions{}), "↑"+each); got != 2 {
		t.Errorf("%d rails carry %s, want 2", got, each)
	}
	if got := at(Drawing(d, r, DrawingOptions{Moved: true}), "↑"+each+" …"); got != 2 {
		t.Errorf("%d old numbers are marked as such, want 2", got)
	}
	moved := d.Clone()
	moved.Supports.EndInset += 50
	for _, n := range Drawing(moved, r, DrawingOptions{Moved: true}).Notes {
		if n.Part == SupportPart {
			t.Errorf("%q stands at supports that have moved", n.Text)
		}
	}
	whole := *r.Whole
	whole.Cases = append([]WholeCase(nil), whole.Cases...)
	whole.Cases[0].Reactions = []Reaction{r.Whole.Cases[0].Reactions[0], r.Whole.Cases[0].Reactions[1]}
	whole.Cases[0].Reactions[1].Lifted = true
	lifts := r
	lifts.Whole = &whole
	if got := at(Drawing(d, lifts, DrawingOptions{}), "▲ right rail lifts"); got != 1 {
		t.Errorf("%d supports are named as lifting, want the right rail", got)
	}
}
