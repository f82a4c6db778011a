package engine

import (
	"math"
	"testing"
)

func TestLoadOfPart(t *testing.T) {
	t.Parallel()
	if c, l, ok := LoadOfPart(LoadPart(12, 3)); c != 12 || l != 3 || !ok {
		t.Errorf("LoadOfPart(LoadPart(12, 3)) = %d, %d, %v", c, l, ok)
	}
	for _, part := range []string{"", "L1", SupportPart, "load", "load 1", "load 1.", "load 1.2.3", "load 1.2 ", "load 01.2", "load -1.2", "load 1.-2", "load x.y"} {
		if c, l, ok := LoadOfPart(part); ok {
			t.Errorf("LoadOfPart(%q) = %d, %d; want none", part, c, l)
		}
	}
}

// placed is a panel of 1 000 by 600 mm with one load of 200 by 100 mm at
// (500, 300).
func placed() Design {
	d := Demo()
	d.Length, d.Width = 1000, 600
	d.Cases = []LoadCase{{Name: "a", Duration: ShortTerm, Loads: []Load{
		{Name: "w", Kind: Patch, Force: 100, X: 500, Y: 300, SizeX: 200, SizeY: 100},
		{Name: "u", Kind: Uniform, Force: 100},
	}}}
	return d
}

// The bounds by hand: half of 200 from either end, half of 100 from the sides.
func TestPlaceLoad(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct{ x, y, wantX, wantY float64 }{
		{123.5, 456.25, 123.5, 456.25},
		{100, 50, 100, 50},
		{99, 49, 100, 50},
		{901, 551, 900, 550},
		{-1e9, 1e9, 100, 550},
		{math.Inf(1), math.Inf(-1), 900, 50},
		{math.NaN(), 300, 500, 300},
	} {
		d := placed()
		d.PlaceLoad(0, 0, tc.x, tc.y)
		if l := d.Cases[0].Loads[0]; l.X != tc.wantX || l.Y != tc.wantY {
			t.Errorf("PlaceLoad(%v, %v) = %v, %v; want %v, %v mm", tc.x, tc.y, l.X, l.Y, tc.wantX, tc.wantY)
		}
	}
}

func TestPlaceLoadLeavesTheRest(t *testing.T) {
	t.Parallel()
	for _, at := range [][2]int{{0, 1}, {0, 2}, {1, 0}, {-1, 0}, {0, -1}} {
		d := placed()
		d.PlaceLoad(at[0], at[1], 200, 200)
		for j, want := range placed().Cases[0].Loads {
			if got := d.Cases[0].Loads[j]; got != want {
				t.Errorf("PlaceLoad of load %v changed load %d to %+v; want %+v", at, j, got, want)
			}
		}
	}
	d := placed()
	d.Cases[0].Loads[0].SizeX = 1500
	d.PlaceLoad(0, 0, 0, 200)
	if l := d.Cases[0].Loads[0]; l.X != 500 || l.Y != 200 {
		t.Errorf("a load longer than the panel came to %v, %v; want its middle, 500, and 200", l.X, l.Y)
	}
}

// By hand with bearings of 60 mm: flush at 30; 1 mm apart at (1000-60-1)/2 and
// (600-60-1)/2.
func TestPlaceSupports(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		kind               SupportKind
		end, side          float64
		wantEnd, wantSide  float64
		bearing, startEnds float64
	}{
		{RailsAcross, 250, 150, 250, 77, 60, 88},
		{RailsAlong, 250, 150, 88, 150, 60, 88},
		{FourLegs, 250, 150, 250, 150, 60, 88},
		{AllEdges, 250, 150, 88, 77, 60, 88},
		{FourLegs, -10, 29, 30, 30, 60, 88},
		{FourLegs, 500, 1e12, 469.5, 269.5, 60, 88},
		{FourLegs, 250, 150, 250, 77, 300, 88}, // 300 mm pads do not fit beside each other in 600
	} {
		d := placed()
		d.Supports = Supports{Kind: tc.kind, EndInset: tc.startEnds, SideInset: 77, Bearing: tc.bearing}
		d.PlaceSupports(tc.end, tc.side)
		if s := d.Supports; s.EndInset != tc.wantEnd || s.SideInset != tc.wantSide {
			t.Errorf("%s: PlaceSupports(%v, %v) = %v, %v; want %v, %v mm", tc.kind, tc.end, tc.side, s.EndInset, s.SideInset, tc.wantEnd, tc.wantSide)
		}
	}
}

// Wherever they are put, Validate has nothing to say against the place.
func TestPlacesAreValid(t *testing.T) {
	t.Parallel()
	for _, kind := range []SupportKind{RailsAcross, RailsAlong, FourLegs} {
		for _, v := range []float64{-1e6, 0, 10, 333.3, 500, 1e6} {
			d := placed()
			d.Supports = Supports{Kind: kind, EndInset: 80, SideInset: 80, Bearing: 60}
			d.PlaceLoad(0, 0, v, v)
			d.PlaceSupports(v, v)
			for _, p := range Validate(d, Catalogue().Sheet, Catalogue().Glue) {
				switch p.Code {
				case "load-off-panel", "support-off-panel", "support-crossed", "supports-overlap", "support-sticks-out":
					t.Errorf("%s at %v: %s", kind, v, p.Text)
				}
			}
		}
	}
}

// A couple goes to the block nearest to a place, and with steps to the next
// block on that side; the bays' middles by hand at 186.25 and 147.5 mm pitch.
func TestPlaceCouple(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		x, y        float64
		column, row int
	}{{0, 0, 2, 1}, {800, 220, 2, 1}, {870, 220, 6, 1}, {1210, 380, 6, 3}, {1210, 367, 6, 1}, {math.NaN(), 3, 2, 1}, {math.Inf(1), 3, 2, 1}} {
		d := viseTop(vise(PullFront, 2, 1))
		d.PlaceLoad(0, 0, c.x, c.y)
		if l := d.Cases[0].Loads[0]; l.Column != c.column || l.Row != c.row {
			t.Errorf("PlaceLoad(%v, %v) goes to %d, %d; want %d, %d", c.x, c.y, l.Column, l.Row, c.column, c.row)
		}
	}
	for _, c := range []struct{ from, dx, dy, column, row int }{
		{2, 1, 0, 6, 1}, {2, -1, 0, 2, 1}, {6, -1, 0, 2, 1}, {6, 0, 1, 6, 3}, {6, 0, -1, 6, 1}, {2, 0, 1, 6, 3}, {2, 0, 0, 2, 1},
	} {
		d := viseTop(vise(PullFront, c.from, 1))
		d.StepCouple(0, 0, c.dx, c.dy)
		if l := d.Cases[0].Loads[0]; l.Column != c.column || l.Row != c.row {
			t.Errorf("StepCouple(%d, %d) from column %d goes to %d, %d; want %d, %d", c.dx, c.dy, c.from, l.Column, l.Row, c.column, c.row)
		}
	}
	d := placed()
	d.StepCouple(0, 0, 1, 1)
	d.StepCouple(4, 0, 1, 1)
	if d.Cases[0].Loads[0] != placed().Cases[0].Loads[0] {
		t.Error("StepCouple moved a load that is none")
	}
}
