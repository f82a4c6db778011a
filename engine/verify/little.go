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

// Cases differ in every way that the form allows. They are little, so that their
// solids can be refined until they settle.
func Cases() []Case {
	ply := base(500, 340, 9, 50, 12, 3, 4, "ply")
	mdf := base(500, 340, 9, 50, 15, 3, 4, "mdf")
	rails := func(d *engine.Design) {
		d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 20, Bearing: 40}
		d.Cases = uniform(12000)
	}
	legs := engine.Supports{Kind: engine.FourLegs, EndInset: 25, SideInset: 25, Bearing: 50}
	ply.Supports, mdf.Supports = legs, legs
	ply.Cases, mdf.Cases = heavy(patch(250, 170, 120, 120), 5000), heavy(patch(250, 170, 120, 120), 5000)
	out := []Case{
		change("fibreboard on legs, broad patch", false, base(400, 280, 9, 50, 15, 3, 3, "mdf"), func(d *engine.Design) {
			d.Supports = legs
			d.Cases = heavy(patch(110, 140, 180, 160), 5000)
		}),
		change("ply on rails, unequal skins", false, base(400, 260, 9, 50, 12, 3, 3, "ply"), func(d *engine.Design) {
			rails(d)
			d.TopSkin.Thickness = 12
		}),
		change("small patch in a bay", false, mdf, func(d *engine.Design) { d.Cases = heavy(patch(250, 85, 60, 60), 3000) }),
		change("wide bays", false, base(700, 450, 12, 50, 15, 3, 3, "mdf"), func(d *engine.Design) {
			d.Supports = legs
			d.Cases = heavy(patch(190, 125, 100, 100), 3000)
		}),
		change("one corner loaded", false, ply, func(d *engine.Design) {
			d.Supports.EndInset, d.Supports.SideInset = 80, 60
			d.Cases = heavy(patch(60, 60, 100, 100), 3000)
		}),
		change("trestles, load on the overhang", false, ply, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 166, Bearing: 40}
			d.Cases = heavy(patch(50, 170, 80, 160), 4000)
		}),
		change("seam in the bottom skin, between ribs", false, ply, rails).with(false, plate.Seam{At: 200}),
		change("seam in the bottom skin, over a rib", false, ply, rails).with(false, plate.Seam{At: 168.67}),
		change("seam along the bottom skin", false, ply, nil).with(false, plate.Seam{AlongX: true, At: 110}),
		change("glued laps", false, ply, nil).with(true),
		change("ledger and two legs", false, ply, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.OnLedger, EndInset: 25, SideInset: 25, Bearing: 50}
			d.Cases = heavy(patch(300, 120, 100, 100), 5000)
		}),
		change("rails along both sides", false, ply, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.RailsAlong, SideInset: 30, Bearing: 30}
			d.Cases = heavy(patch(200, 170, 100, 100), 8000)
		}),
		change("held along all edges", false, mdf, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.AllEdges, Bearing: 30}
			d.Cases = uniform(30000)
		}),
		change("three feet of its own", false, ply, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.OwnFeet, Bearing: 50, Feet: []engine.Foot{{X: 60, Y: 60}, {X: 440, Y: 60, Size: 80}, {X: 250, Y: 300}}}
			d.Cases = uniform(6000)
		}),
		change("edge bands, legs far in", false, base(600, 380, 9, 50, 12, 3, 5, "ply"), func(d *engine.Design) {
			d.EdgeBand = engine.EdgeBand{Material: "ply", Thickness: 18}
			d.Supports = engine.Supports{Kind: engine.FourLegs, EndInset: 110, SideInset: 80, Bearing: 50}
			d.Cases = heavy(patch(230, 190, 110, 120), 5000)
		}),
		change("skins that stand over, three loads", false, base(560, 400, 9, 50, 12, 3, 3, "ply"), func(d *engine.Design) {
			d.Lengthwise.Inset, d.Crosswise.Inset = 40, 50
			d.Slots.LengthwiseDown = true
			d.Supports = engine.Supports{Kind: engine.FourLegs, EndInset: 75, SideInset: 65, Bearing: 50}
			d.Cases[0].Loads = append(heavy(patch(170, 130, 80, 80), 1500)[0].Loads, append(heavy(patch(400, 270, 80, 80), 1500)[0].Loads, uniform(1500)[0].Loads...)...)
		}),
		change("face grain across, ribs upright", false, ply, func(d *engine.Design) {
			d.TopSkin.Across, d.BottomSkin.Across = true, true
			d.Lengthwise.Upright, d.Crosswise.Upright = true, true
		}),
		change("uneven ribs", false, ply, func(d *engine.Design) {
			d.Lengthwise.Positions = []float64{6, 120, 334}
			d.Crosswise.Positions = []float64{30, 150, 360, 494}
			d.Cases = heavy(patch(255, 227, 100, 100), 4000)
		}),
		change("few crosswise ribs", false, base(600, 300, 9, 60, 12, 4, 2, "ply"), func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 20, Bearing: 40}
			d.Cases = heavy(patch(230, 150, 120, 80), 5000)
		}),
		change("wide ribs under thin skins", true, base(480, 300, 6, 50, 25, 3, 4, "ply"), func(d *engine.Design) {
			d.Supports = legs
			d.Cases = heavy(patch(240, 81, 60, 60), 1500)
		}),
		change("thin fibreboard on thin ribs", true, base(480, 300, 5, 60, 7, 3, 4, "mdf"), func(d *engine.Design) {
			d.Supports = legs
			d.Cases = heavy(patch(240, 76, 80, 80), 1000)
		}),
		change("thick ply skins, small patch", true, base(420, 300, 18, 60, 15, 3, 4, "ply"), func(d *engine.Design) {
			d.Supports = legs
			d.Cases = heavy(patch(210, 78, 60, 60), 10000)
		}),
		change("tight slots in a deep core", true, base(420, 300, 6, 120, 6, 4, 6, "thin-ply"), func(d *engine.Design) {
			d.Supports = legs
			d.Cases = heavy(patch(210, 150, 120, 120), 4000)
		}),
		change("thin ply, 150 deep", true, base(520, 340, 3.6, 150, 5, 3, 4, "thin-ply"), func(d *engine.Design) {
			d.Supports = legs
			d.Cases = uniform(6000)
		}),
	}
	out[0].Quick, out[1].Quick = true, true
	return out
}
