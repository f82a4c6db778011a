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
	ply := base(400, 280, 9, 50, 12, 3, 3, "ply")
	mdf := base(400, 280, 9, 50, 15, 3, 3, "mdf")
	rails := func(d *engine.Design) {
		d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 20, Bearing: 40}
		d.Cases = uniform(12000)
	}
	legs := engine.Supports{Kind: engine.FourLegs, EndInset: 25, SideInset: 25, Bearing: 50}
	ply.Supports, mdf.Supports = legs, legs
	ply.Cases = heavy(patch(110, 140, 120, 120), 5000)
	out := []Case{
		change("fibreboard on legs, broad patch", false, mdf, func(d *engine.Design) { d.Cases = heavy(patch(110, 140, 180, 160), 5000) }),
		change("ply on rails, unequal skins", false, ply, func(d *engine.Design) {
			rails(d)
			d.TopSkin.Thickness = 12
		}),
		change("small patch in a bay", false, mdf, func(d *engine.Design) { d.Cases = heavy(patch(104, 74, 60, 60), 3000) }),
		change("wide bays", false, base(640, 420, 12, 50, 15, 3, 3, "mdf"), func(d *engine.Design) {
			d.Supports = legs
			d.Cases = heavy(patch(180, 120, 100, 100), 3000)
		}),
		change("one corner loaded", false, ply, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.FourLegs, EndInset: 40, SideInset: 70, Bearing: 30}
			d.Cases = heavy(patch(60, 50, 100, 80), 3000)
		}),
		change("trestles, load on the overhang", false, base(500, 280, 9, 50, 12, 3, 4, "ply"), func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 166, Bearing: 40}
			d.Cases = heavy(patch(50, 140, 80, 160), 4000)
		}),
		change("seam in the bottom skin, between ribs", false, ply, rails).with(false, plate.Seam{At: 130}),
		change("seam in the bottom skin, over a rib", false, ply, rails).with(false, plate.Seam{At: 200}),
		change("seam along the bottom skin", false, ply, nil).with(false, plate.Seam{AlongX: true, At: 90}),
		change("glued laps", false, ply, nil).with(true),
		change("ledger and two legs", false, ply, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.OnLedger, EndInset: 25, SideInset: 25, Bearing: 50}
			d.Cases = heavy(patch(120, 90, 100, 100), 5000)
		}),
		change("rails along both sides", false, ply, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.RailsAlong, SideInset: 20, Bearing: 40}
			d.Cases = heavy(patch(120, 140, 100, 100), 8000)
		}),
		change("held along all edges", false, mdf, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.AllEdges, Bearing: 30}
			d.Cases = uniform(30000)
		}),
		change("three feet of its own", false, ply, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.OwnFeet, Bearing: 50, Feet: []engine.Foot{{X: 25, Y: 25}, {X: 370, Y: 40, Size: 60}, {X: 200, Y: 255}}}
			d.Cases = uniform(6000)
		}),
		change("edge bands, legs far in", false, base(480, 320, 9, 50, 12, 3, 4, "ply"), func(d *engine.Design) {
			d.EdgeBand = engine.EdgeBand{Material: "ply", Thickness: 18}
			d.Supports = engine.Supports{Kind: engine.FourLegs, EndInset: 90, SideInset: 70, Bearing: 50}
			d.Cases = heavy(patch(100, 160, 110, 120), 5000)
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
			d.Lengthwise.Positions = []float64{6, 110, 274}
			d.Crosswise.Positions = []float64{30, 170, 394}
			d.Cases = heavy(patch(282, 192, 100, 100), 4000)
		}),
		change("few crosswise ribs", false, base(480, 240, 9, 60, 12, 4, 2, "ply"), func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 20, Bearing: 40}
			d.Cases = heavy(patch(190, 120, 120, 60), 4000)
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
