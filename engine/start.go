package engine

import (
	"fmt"
	"math"

	"flatwright/resources"
)

// Start returns a sensible panel for a use and a size: our own suggestion,
// every value of it to be edited. Length and width are in mm.
//
// The defaults are common practice, no source: the core is about an
// eighteenth of the length, ribs stand 150 to 180 mm apart, and the load and
// sag limit go with the use.
func Start(use Use, length, width float64) Design {
	d := Design{
		Name: "New " + string(use), Use: use, Length: length, Width: width,
		TopSkin:    Skin{Material: startSkin, Thickness: sold(startSkin, 9)},
		BottomSkin: Skin{Material: startSkin, Thickness: sold(startSkin, 9)},
		CoreDepth:  math.Round(math.Min(140, math.Max(45, length/18))),
		Lengthwise: RibSet{Material: startRib, Thickness: sold(startRib, 12), Count: ribCount(width, 170)},
		Crosswise:  RibSet{Material: startRib, Thickness: sold(startRib, 12), Count: ribCount(length, 180)},
		Slots:      Slots{Clearance: 0.2, Relief: 0.5},
		EdgeBand:   EdgeBand{},
		Glue:       startGlue,
		Shop:       Shop{Temperature: 20, People: 2, Start: "2026-11-28T09:00"},
	}
	load := func(name string, kg, sx, sy float64) []LoadCase {
		sx, sy = math.Min(sx, length), math.Min(sy, width)
		return []LoadCase{{Name: name, Duration: ShortTerm, Loads: []Load{
			{Name: name, Kind: Patch, Force: kg * Gravity, X: length / 2, Y: width / 2, SizeX: sx, SizeY: sy}}}}
	}
	// Legs at the very corners stand under the outermost ribs.
	const leg = 80
	legs := Supports{Kind: FourLegs, EndInset: leg / 2, SideInset: leg / 2, Bearing: leg}
	switch use {
	case Workbench:
		d.Height, d.Supports = 880, legs
		d.TopSkin.Thickness, d.Limits.Sag = sold(startSkin, 12), 0.5
		d.Cases = load("Heavy work at the middle", 100, 300, 300)
	case OutfeedTable:
		d.Height, d.Supports = 860, legs
		d.Limits.Sag = 0.2
		d.Cases = load("Full sheet pushed across", 45, 1220, 600)
	case WallFolding:
		d.Height = 900
		d.Supports = Supports{Kind: OnLedger, EndInset: 25, SideInset: 25, Bearing: 50} // a folding leg at either front corner
		d.Limits.Sag, d.Limits.Mass = 0.5, 20
		d.Cases = load("Things on the middle", 40, 300, 300)
	case TrestleTop:
		d.Height = 860
		d.Supports = Supports{Kind: RailsAcross, EndInset: math.Round(length / 5), Bearing: 60}
		d.Limits.Sag = 0.5
		d.Cases = load("Heavy thing at the middle", 60, 300, 300)
		d.Supports.EndInset = math.Min(d.Supports.EndInset, d.heldInset())
	default:
		d.Height, d.Supports = 850, legs
		d.Limits.Sag = 0.25
		d.Cases = load("Cabinet at the middle", 50, 300, 300)
	}
	return d
}

// heldInset returns how far in from the ends, whole mm, two rails may stand
// before somebody who leans on an end tips the top by the margin of
// [Design.tipping]; under the very ends where its weight allows no more.
func (d *Design) heldInset() float64 {
	m := d.materials()
	holds := stabilizing * d.mass(&m) * Gravity
	return math.Max(d.Supports.Bearing/2, math.Floor(holds*d.Length/2/(holds+gammaLoad*lean)))
}

// Materials and glue of a new design, by catalogue key.
const (
	startSkin = "birch-plywood"
	startRib  = "birch-plywood"
	startGlue = "pva"
)

// sold returns the actual thickness, mm, of the sheet sold nearest to about.
func sold(material string, about float64) float64 {
	m, _ := Catalogue().Sheet(material)
	best := about
	for i, t := range m.Thicknesses {
		if i == 0 || math.Abs(t.Actual-about) < math.Abs(best-about) {
			best = t.Actual
		}
	}
	return best
}

// ribCount spaces ribs about pitch apart, with one at each edge.
func ribCount(extent, pitch float64) int {
	return int(math.Min(maxRibs, math.Max(3, math.Round(extent/pitch)+1)))
}

// Demo returns the design that the program opens with.
func Demo() Design {
	d, err := Decode(resources.Demo)
	if err != nil {
		// Compiled in, and a test reads it: only a broken build gets here.
		panic(fmt.Sprintf("built-in demo: %v", err))
	}
	return d
}
