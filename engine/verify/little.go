package verify

import (
	"flatwright/engine"
	"flatwright/engine/plate"
)

// heavy makes a design's loads so heavy that what a feeler gauge does not see is
// next to nothing of its sag.
func heavy(cases []engine.LoadCase, force float64) []engine.LoadCase {
	cases[0].Loads[0].Force = force
	return cases
}

// Cases differ in every way that the form allows. They are little and most are
// the same on both sides of their middle, so that the solids can be refined until
// they settle.
func Cases() []Case {
	ply := base(460, 340, 9, 50, 12, 4, 4, "ply")
	mdf := base(460, 340, 9, 50, 15, 4, 4, "mdf")
	legs := engine.Supports{Kind: engine.FourLegs, EndInset: 20, SideInset: 20, Bearing: 40}
	rails := func(d *engine.Design) {
		d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 20, Bearing: 40}
		d.Cases = uniform(12000)
	}
	// on is a top with a patch at its middle.
	on := func(d engine.Design, sx, sy, force float64) engine.Design {
		d.Supports, d.Cases = legs, heavy(patch(d.Length/2, d.Width/2, sx, sy), force)
		return d
	}
	out := []Case{
		change("fibreboard on legs, broad patch", false, on(mdf, 200, 80, 5000), nil).alike(true, true),
		change("ply on rails, unequal skins", false, ply, func(d *engine.Design) {
			rails(d)
			d.TopSkin.Thickness = 12
		}).alike(true, true),
		change("small patch in a bay", false, on(mdf, 60, 60, 3000), nil).alike(true, true),
		change("wide bays", false, base(640, 420, 12, 50, 15, 3, 3, "mdf"), rails).alike(true, true),
		change("trestles, load on both overhangs", false, ply, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 155, Bearing: 40}
			d.Cases = heavy(patch(50, 170, 80, 160), 4000)
			d.Cases[0].Loads = append(d.Cases[0].Loads, heavy(patch(410, 170, 80, 160), 4000)[0].Loads...)
		}).alike(true, true),
		change("two seams in the bottom skin, between ribs", false, ply, rails).with(false, plate.Seam{At: 110}, plate.Seam{At: 350}).alike(true, true),
		change("two seams in the bottom skin, over ribs", false, ply, rails).with(false, plate.Seam{At: 6 + 448.0/3}, plate.Seam{At: 454 - 448.0/3}).alike(true, true),
		change("two seams along the bottom skin", false, on(ply, 120, 80, 5000), nil).with(false, plate.Seam{AlongX: true, At: 70}, plate.Seam{AlongX: true, At: 270}).alike(true, true),
		change("glued laps", false, on(ply, 120, 80, 5000), nil).with(true).alike(true, true),
		change("ledger and two legs", false, ply, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.OnLedger, EndInset: 20, SideInset: 20, Bearing: 40}
			d.Cases = heavy(patch(230, 110, 100, 140), 5000)
		}).alike(true, false),
		change("rails along both sides", false, on(ply, 100, 160, 8000), func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.RailsAlong, SideInset: 20, Bearing: 40}
		}).alike(true, true),
		change("held along all edges", false, mdf, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.AllEdges, Bearing: 30}
			d.Cases = uniform(30000)
		}).alike(true, true),
		change("three feet of its own", false, ply, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.OwnFeet, Bearing: 50, Feet: []engine.Foot{{X: 25, Y: 25}, {X: 435, Y: 25}, {X: 230, Y: 310, Size: 60}}}
			d.Cases = uniform(6000)
		}).alike(true, false),
		change("edge bands, legs far in", false, base(480, 360, 9, 50, 12, 4, 4, "ply"), func(d *engine.Design) {
			d.EdgeBand = engine.EdgeBand{Material: "ply", Thickness: 18}
			d.Supports = engine.Supports{Kind: engine.FourLegs, EndInset: 90, SideInset: 80, Bearing: 40}
			d.Cases = heavy(patch(240, 180, 120, 80), 5000)
		}).alike(true, true),
		change("skins that stand over, three loads", false, base(540, 400, 9, 50, 12, 4, 4, "ply"), func(d *engine.Design) {
			d.Lengthwise.Inset, d.Crosswise.Inset = 40, 50
			d.Slots.LengthwiseDown = true
			d.Supports = engine.Supports{Kind: engine.FourLegs, EndInset: 75, SideInset: 65, Bearing: 50}
			d.Cases[0].Loads = append(heavy(patch(127, 200, 80, 60), 2000)[0].Loads, append(heavy(patch(413, 200, 80, 60), 2000)[0].Loads, uniform(2000)[0].Loads...)...)
		}).alike(true, true),
		change("face grain across, ribs upright", false, on(ply, 120, 80, 5000), func(d *engine.Design) {
			d.TopSkin.Across, d.BottomSkin.Across = true, true
			d.Lengthwise.Upright, d.Crosswise.Upright = true, true
		}).alike(true, true),
		change("uneven ribs", false, on(ply, 140, 80, 4000), func(d *engine.Design) {
			d.Lengthwise.Positions = []float64{6, 110, 230, 334}
			d.Crosswise.Positions = []float64{30, 130, 330, 430}
		}).alike(true, true),
		change("few crosswise ribs", false, on(base(480, 240, 9, 60, 12, 4, 2, "ply"), 120, 60, 4000), func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 20, Bearing: 40}
		}).alike(true, true),
		change("a block that a vise turns, a load along a line", false, base(420, 300, 9, 50, 12, 4, 4, "ply"), func(d *engine.Design) {
			d.Blocks = []engine.Block{{Material: "wood", Row: 1}}
			d.Supports = legs
			d.Cases[0].Loads = []engine.Load{
				{Name: "vise", Kind: engine.Couple, Force: 3000, Arm: 150, Pull: engine.PullLeft, Row: 1},
				{Name: "line", Kind: engine.Line, Force: 3000, X: 335, Y: 150, SizeX: 20, SizeY: 260, Across: true},
			}
		}).alike(false, true),
		change("wide ribs under thin skins", true, on(base(480, 300, 6, 50, 25, 4, 4, "ply"), 60, 50, 2000), nil).alike(true, true),
		change("thin fibreboard on thin ribs", true, on(base(480, 330, 5, 60, 7, 4, 4, "mdf"), 80, 60, 1000), nil).alike(true, true),
		change("thick ply skins, small patch", true, on(base(420, 300, 18, 60, 15, 4, 4, "ply"), 60, 50, 10000), nil).alike(true, true),
		change("tight slots in a deep core", true, on(base(400, 300, 6, 120, 6, 4, 6, "thin-ply"), 120, 120, 4000), nil).alike(true, true),
		change("thin ply, 150 deep", true, base(520, 340, 3.6, 150, 5, 4, 4, "thin-ply"), func(d *engine.Design) {
			d.Supports, d.Cases = legs, uniform(6000)
		}).alike(true, true),
		change("one corner loaded", false, base(360, 260, 9, 50, 12, 3, 3, "ply"), func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.FourLegs, EndInset: 35, SideInset: 65, Bearing: 30}
			d.Cases = heavy(patch(60, 50, 100, 80), 3000)
		}),
	}
	out[0].Quick, out[1].Quick = true, true
	return out
}
