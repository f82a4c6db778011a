package engine

import (
	"strings"
	"testing"
)

// Where both ways to the sag part by more than 15 % the person is told which
// assumption fails; where they agree, nothing.
func TestTellApart(t *testing.T) {
	t.Parallel()
	even := func(d *Design) {
		d.Supports.EndInset = 30
		d.Cases[0].Loads = []Load{{Name: "all", Kind: Uniform, Force: 1500}}
	}
	for _, tc := range []struct {
		name   string
		change func(*Design)
		want   string // "" is nothing
	}{
		{"an even load on rails", even, ""},
		{"a thin skin over wide bays", func(d *Design) {
			d.TopSkin.Thickness, d.Lengthwise.Count, d.Crosswise.Count = 6, 3, 4
			d.Cases[0].Loads[0] = Load{Name: "foot", Kind: Patch, Force: 800, X: 800, Y: 175, SizeX: 80, SizeY: 80}
		}, "the bays are wide"},
		{"an open seam at mid-span", func(d *Design) {
			even(d)
			d.Seams = []Seam{{Skin: BottomSeam, At: 850}, {Skin: TopSeam, At: 750}}
		}, "a seam here is open"},
		{"deep grooves at mid-span", func(d *Design) {
			even(d)
			d.Grooves = []Groove{{Skin: BottomSeam, At: 740, Width: 60, Depth: 4}, {Skin: TopSeam, At: 740, Width: 60, Depth: 7}, {Skin: TopSeam, At: 860, Width: 60, Depth: 7}}
		}, "no groove were in them"},
		{"a load at the edge", func(d *Design) {
			d.Width = 1500
			d.Cases[0].Loads[0] = Load{Name: "edge", Kind: Patch, Force: 800, X: 800, Y: 50, SizeX: 100, SizeY: 100}
		}, "off the middle line"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			d := plainTop()
			tc.change(&d)
			r := refined(t, d, Normal)
			got := r.Cases[0].Apart
			if tc.want == "" && got != "" || !strings.Contains(got, tc.want) {
				t.Errorf("sag %.3f, closed form %.3f: told %q; want %q in it", r.Cases[0].Sag, r.Cases[0].Closed, got, tc.want)
			}
			for _, w := range r.Working {
				if w.Key == "whole" && got != "" && !strings.Contains(w.Plain, got) {
					t.Errorf("the working says %q", w.Plain)
				}
			}
		})
	}
}

// The reasons by themselves: each from what strains it, none from what does not.
func TestApartReasons(t *testing.T) {
	t.Parallel()
	d := plainTop()
	c := CaseResult{Sag: 0.5, Closed: 0.4}
	told := func() string {
		return strings.Join(d.apartReasons(&d.Cases[0], &c, &WholeCase{Loads: []WholeSag{{Dip: Dip{Sag: 0.04}}}}), "; ")
	}
	if got := told(); got != "a load on a small area is taken as shared by the whole width" { // 250 of 700 mm, at the middle
		t.Errorf("told %q", got)
	}
	d.Cases[0].Loads[0].SizeY = 360
	if got := told(); got != "" {
		t.Errorf("a wide load at the middle: %q", got)
	}
	d.Supports.Kind = AllEdges
	if got := told(); !strings.Contains(got, "real edges only push") {
		t.Errorf("all edges: %q", got)
	}
	d.Supports.Kind = FourLegs
	if got := told(); !strings.Contains(got, "single points") {
		t.Errorf("legs: %q", got)
	}
}
