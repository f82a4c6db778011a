package engine

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"flatwright/engine/catalog"
	"flatwright/engine/draw"
)

// boardSheet is a fibreboard, alike both ways, soft through its thickness; fibre
// sheet figures, invented.
func boardSheet() catalog.Sheet {
	s := plainSheet()
	s.Key, s.Name, s.Kind = "board", "Board", "mdf"
	s.EAlong, s.EAcross, s.EBendAlong, s.EBendAcross, s.GEdge, s.GRolling, s.Nu, s.EThrough, s.Density = 3100, 2900, 3600, 3300, 1250, 140, 0.25, 150, 750
	return s
}

// softSheet rolls easily in shear; woodSheet is like solid wood. Invented.
func softSheet() catalog.Sheet {
	s := plainSheet()
	s.Key, s.Name = "soft", "Soft sheet"
	s.EAlong, s.EAcross, s.EBendAlong, s.EBendAcross, s.GEdge, s.GRolling, s.Density = 7000, 3800, 8600, 1900, 480, 45, 480
	return s
}

func woodSheet() catalog.Sheet {
	s := plainSheet()
	s.Key, s.Name, s.Kind, s.Solid = "wood", "Wood", "solid", true
	s.EAlong, s.EAcross, s.EBendAlong, s.EBendAcross, s.GEdge, s.GRolling, s.Nu, s.EThrough = 11000, 700, 11000, 700, 700, 70, 0.4, 900
	return s
}

// figureTops are unlike tops, of two to four materials each.
func figureTops() map[string]Design {
	base := func() Design {
		d := smallTop()
		d.Own = []catalog.Sheet{plainSheet(), boardSheet(), softSheet(), woodSheet()}
		l := &d.Cases[0].Loads[0]
		l.X, l.Y, l.SizeX, l.SizeY = 330, 260, 180, 120
		return d
	}
	tops := map[string]Design{}

	d := base() // ply skins on fibreboard ribs, open laps, rails
	d.Lengthwise.Material, d.Crosswise.Material = "board", "board"
	tops["board ribs on rails"] = d

	d = base() // unequal skins, bands, a block, aprons, load at a corner
	d.TopSkin, d.BottomSkin = Skin{Material: "board", Thickness: 12}, Skin{Material: "plain", Thickness: 5, Across: true}
	d.EdgeBand = EdgeBand{Material: "wood", Thickness: 18}
	d.Blocks = []Block{{Material: "wood", Column: 1, Row: 1}}
	d.Supports = Supports{Kind: FourLegs, EndInset: 60, SideInset: 50, Bearing: 60, Apron: Apron{Material: "wood", Thickness: 22, Height: 60, Front: true, Back: true}}
	l := &d.Cases[0].Loads[0]
	l.X, l.Y = 240, 120
	tops["bands, a block and aprons"] = d

	d = base() // wide uneven ribs under thin skins, a seam over one of them
	d.TopSkin, d.BottomSkin = Skin{Material: "soft", Thickness: 6, Across: true}, Skin{Material: "soft", Thickness: 5}
	d.Lengthwise = RibSet{Material: "board", Thickness: 24, Positions: []float64{20, 170, 400, 680}}
	d.Crosswise = RibSet{Material: "plain", Thickness: 12, Count: 5}
	d.Supports = Supports{Kind: OnLedger, Bearing: 50, EndInset: 60, SideInset: 30}
	d.Seams = []Seam{{Skin: BottomSeam, At: SeamPlace(d, Seam{Skin: BottomSeam, At: 400})}}
	// Where a point of a support comes into touch the plane through the supports
	// moves by a hundred-thousandth of the sag at once: here nothing lifts.
	d.Supports.Fastened = true
	tops["wide ribs and a seam"] = d

	d = base() // tight slots in a deep core, soft thick skins
	d.CoreDepth = 140
	d.TopSkin, d.BottomSkin = Skin{Material: "soft", Thickness: 18}, Skin{Material: "board", Thickness: 9}
	d.Lengthwise = RibSet{Material: "plain", Thickness: 9, Count: 6, Upright: true}
	d.Crosswise = RibSet{Material: "plain", Thickness: 9, Count: 8}
	d.Supports = Supports{Kind: RailsAlong, SideInset: 60, Bearing: 40, Bed: 2}
	tops["tight slots, soft bed"] = d
	return tops
}

// How the sag follows every figure of every material, and all moduli of one
// together, is what computing the panel anew says with the design's own sheet
// changed: to 2 % of the slope, or to what a figure off by a tenth does to the fifth
// digit of the sag. Second method: differences of whole panels; a step of 0.2 % is
// itself off by as much of the slope.
func TestFigureSlopesAreThoseOfComputingAgain(t *testing.T) {
	t.Parallel()
	for name, d := range figureTops() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			if p := Validate(d, d.Material, Catalogue().Glue); (Result{Problems: p}).Blocked() {
				t.Fatal(told(p))
			}
			at := solveOn(t, d, Interactive)
			m := d.materials()
			slopes, err := d.figureSlopes(t.Context(), at, &m, 0)
			if err != nil {
				t.Fatal(err)
			}
			if len(slopes) < 2*len(stiffnessFigures)-1 {
				t.Errorf("%d figures; want those of two materials at least", len(slopes))
			}
			c := at.report.Cases[0]
			sag := at.cases[0].all.Sag(c.X, c.Y)
			check := func(what, key string, slope float64, of func(*catalog.Sheet) []*float64) {
				t.Helper()
				const h = 0.002
				e := d.Clone()
				for i := range e.Own {
					for _, v := range of(&e.Own[i]) {
						if e.Own[i].Key == key {
							*v *= 1 + h
						}
					}
				}
				want := math.Log(solveOn(t, e, Interactive).cases[0].all.Sag(c.X, c.Y)/sag) / math.Log1p(h)
				if !(math.Abs(slope-want) <= 0.02*math.Abs(want)+1e-4) {
					t.Errorf("%s of %s: %+.6f, computed again %+.6f", what, key, slope, want)
				}
			}
			read, err := at.cases[0].all.Read(t.Context(), c.X, c.Y)
			if err != nil {
				t.Fatal(err)
			}
			for i, s := range slopes {
				if i > 0 && math.Abs(s.Slope) > math.Abs(slopes[i-1].Slope) {
					t.Errorf("%+v after %+v; want what matters most first", s, slopes[i-1])
				}
				f := stiffnessFigures[slices.IndexFunc(stiffnessFigures[:], func(f stiffnessFigure) bool { return f.key == s.Figure })]
				if math.Abs(s.Slope) > 1e-3 || i%3 == 0 {
					check(s.Figure, s.Material, s.Slope, func(s *catalog.Sheet) []*float64 { return []*float64{f.of(s)} })
				}
				if s.Figure == "eAlong" {
					all, err := d.slopeOf(t.Context(), read, Interactive, &m, s.Material, 0, moduli)
					if err != nil {
						t.Fatal(err)
					}
					check("all moduli", s.Material, all, moduli)
				}
			}
		})
	}
}

// With one sheet throughout its moduli together are all shares of the stiffness
// but the supports' bed; told from single steps on.
func TestFiguresAddUpToTheShares(t *testing.T) {
	t.Parallel()
	d := whatIfTop()
	r := whatIfOf(t, d)
	sum, shares := 0.0, 0.0
	for _, f := range r.Whole.Work.Figures {
		if f.Material != "plain" {
			t.Errorf("a slope of %s, which is not used", f.Material)
		}
		if f.Figure != "nu" && f.Figure != "density" {
			sum += f.Slope
		}
	}
	for _, s := range refined(t, d, WhatIfMesh).Whole.Work.Shares {
		if s.Part != SupportPart {
			shares += s.Slope
		}
	}
	near(t, "sum of the moduli's slopes", sum, shares, 2e-3)
	pages, err := Packet(t.Context(), d, r, PacketOptions{Lengths: millimetre})
	if err != nil {
		t.Fatal(err)
	}
	printed := ""
	for _, p := range pages {
		printed += textOf([]draw.Page{*p}, "") + "\n"
	}
	for i, f := range r.Whole.Work.Figures {
		if row := "Plain sheet\n" + f.Name + "\n" + fmt.Sprintf("%+.2f %%", f.Slope); strings.Contains(printed, row) != (i < figureSlopesMost) {
			t.Errorf("figure %d is printed: %v; want the first %d: %q", i+1, i >= figureSlopesMost, figureSlopesMost, row)
		}
	}
}

// solveOn is a design's panel on a mesh, own weight counted, beside the cache.
func solveOn(t *testing.T, d Design, mesh Mesh) solved {
	t.Helper()
	mo, _ := modelOf(d, false)
	c, err := prepared(t.Context(), &d, mesh, false)
	if err != nil {
		t.Fatal(err)
	}
	w, err := d.solveCases(t.Context(), c, mo.weight, mesh)
	if err != nil {
		t.Fatal(err)
	}
	return w
}
