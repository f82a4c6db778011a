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

// A support that holds the panel down is written before those that bear it, and the
// numbers of two rails stand on different lines.
func TestHeldDownInThePlan(t *testing.T) {
	t.Parallel()
	d := plainTop()
	r := refined(t, d, Interactive)
	whole := *r.Whole
	whole.Cases = append([]WholeCase(nil), whole.Cases...)
	whole.Cases[0].Reactions = []Reaction{r.Whole.Cases[0].Reactions[0], r.Whole.Cases[0].Reactions[1]}
	whole.Cases[0].Reactions[1].Force = -160
	r.Whole = &whole
	var told []draw.Note
	for _, n := range Drawing(d, r, DrawingOptions{}).Notes {
		if n.Part == SupportPart {
			told = append(told, n)
		}
	}
	if len(told) != 2 || told[0].Text != "↓160 N held down" || !strings.HasPrefix(told[1].Text, "↑") {
		t.Fatalf("told %+v; want first what holds down", told)
	}
	if apart := math.Abs(told[0].At.Y - told[1].At.Y); !(apart > d.Width/4) {
		t.Errorf("the numbers stand %g mm apart across the width; want different lines", apart)
	}
}

// The plan's title stands where no load's arrow points down past it.
func TestPlanTitleGivesWayToArrows(t *testing.T) {
	t.Parallel()
	d := plainTop()
	r := compute(t, d)
	for _, tt := range []struct {
		name  string
		loads []float64
		at    float64 // 0 is no title
	}{{"middle", []float64{800}, 0.02}, {"left", []float64{160}, 0.98}, {"both ends", []float64{160, 1440}, 0}} {
		d.Cases[0].Loads = nil
		for _, x := range tt.loads {
			d.Cases[0].Loads = append(d.Cases[0].Loads, Load{Name: "box", Kind: Patch, Force: 100, X: x, Y: 350, SizeX: 100, SizeY: 100})
		}
		at := 0.0
		for _, n := range Drawing(d, r, DrawingOptions{Room: draw.Point{X: 700, Y: 560}}).Notes {
			if strings.HasPrefix(n.Text, "Plan,") {
				at = n.At.X / d.Length
			}
		}
		if math.Abs(at-tt.at) > 1e-9 {
			t.Errorf("%s: the title stands at %g of the length; want %g", tt.name, at, tt.at)
		}
	}
}
