package verify

import (
	"flatwright/engine"
	"flatwright/engine/catalog"
	"flatwright/engine/plate"
)

// Case is one design that both models compute.
type Case struct {
	Name    string
	Extreme bool // judged by 6 % instead of 3 %
	Quick   bool // small enough for every run of the tests
	Design  engine.Design
	Glued   bool         // laps glued tight: no slot takes anything away
	Seams   []plate.Seam // butt joints without splice plates, under no pad and no load
}

func (c Case) loads() []engine.Load { return c.Design.Cases[0].Loads }

// panel returns the case in the whole-panel model's terms.
func (c Case) panel(divide int) *plate.Panel {
	d := c.Design.Clone()
	for _, s := range c.Seams {
		seam := engine.Seam{Skin: engine.BottomSeam, Along: s.AlongX, At: s.At}
		if s.Top {
			seam.Skin = engine.TopSeam
		}
		d.Seams = append(d.Seams, seam)
	}
	p := d.WholePanel(divide)
	for i := range p.Pads {
		p.Pads[i].Glued = true // the solids' springs pull as well
	}
	if c.Glued {
		c.glue(p.Along, c.Design.Lengthwise, p, (p.Y1-p.Y0)/float64(len(p.Along)))
		c.glue(p.Across, c.Design.Crosswise, p, (p.X1-p.X0)/float64(len(p.Across)))
	}
	return p
}

// glue gives ribs that stand spacing apart all of their own stiffness; what
// the glue lines take stays.
func (c Case) glue(ribs []plate.Rib, set engine.RibSet, p *plate.Panel, spacing float64) {
	m, _ := c.Design.Material(set.Material)
	m = m.At(set.Thickness)
	for i := range ribs {
		w := &ribs[i].Web
		top := plate.ContactSlip(w.B, spacing, p.Top.T, p.Top.GRoll, p.Top.G)
		bottom := plate.ContactSlip(w.B, spacing, p.Bottom.T, p.Bottom.GRoll, p.Bottom.G)
		w.Own, w.G = 1, plate.Soften(m.GEdge, w.B, w.Height, top, bottom)
	}
}

// The materials of the cases: one modulus for stretching and bending, so that
// both models have the same. Figures in the range of real sheets, invented.
var caseMaterials = []catalog.Sheet{
	{Key: "ply", Name: "ply", Kind: "plywood", Density: 650, EAlong: 9000, EAcross: 7000, EBendAlong: 9000, EBendAcross: 7000, GEdge: 620, GRolling: 70, EThrough: 600, Nu: 0.08},
	{Key: "thin-ply", Name: "thin ply", Kind: "plywood", Density: 550, EAlong: 6500, EAcross: 3500, EBendAlong: 6500, EBendAcross: 3500, GEdge: 500, GRolling: 60, EThrough: 600, Nu: 0.08},
	{Key: "mdf", Name: "fibreboard", Kind: "mdf", Density: 750, EAlong: 3000, EAcross: 3000, EBendAlong: 3000, EBendAcross: 3000, GEdge: 1200, GRolling: 300, EThrough: 600, Nu: 0.25},
}

func init() {
	for i := range caseMaterials {
		m := &caseMaterials[i]
		for _, f := range []*float64{&m.FBendAlong, &m.FBendAcross, &m.FTensAlong, &m.FTensAcross, &m.FCompAlong, &m.FCompAcross, &m.FEdgeShear, &m.FRolling, &m.FBearing} {
			*f = 10
		}
	}
}

// base is a top of the given outline on four legs, ribs flush at the edges.
func base(length, width, skin, core, rib float64, lengthwise, crosswise int, material string) engine.Design {
	d := engine.Start(engine.AssemblyTable, length, width)
	d.Own = caseMaterials
	d.TopSkin = engine.Skin{Material: material, Thickness: skin}
	d.BottomSkin = d.TopSkin
	d.CoreDepth = core
	d.Lengthwise = engine.RibSet{Material: material, Thickness: rib, Count: lengthwise}
	d.Crosswise = engine.RibSet{Material: material, Thickness: rib, Count: crosswise}
	d.Slots = engine.Slots{} // gaps without width
	d.Supports = engine.Supports{Kind: engine.FourLegs, EndInset: 40, SideInset: 40, Bearing: 80}
	d.Cases = patch(length/2, width/2, 300, 300)
	return d
}

func patch(x, y, sx, sy float64) []engine.LoadCase {
	return []engine.LoadCase{{Name: "patch", Duration: engine.ShortTerm, Loads: []engine.Load{
		{Name: "patch", Kind: engine.Patch, Force: 500, X: x, Y: y, SizeX: sx, SizeY: sy}}}}
}

func uniform(force float64) []engine.LoadCase {
	return []engine.LoadCase{{Name: "all over", Duration: engine.ShortTerm, Loads: []engine.Load{
		{Name: "all over", Kind: engine.Uniform, Force: force}}}}
}

// change returns a case made from a design by changing it.
func change(name string, extreme bool, d engine.Design, by func(*engine.Design)) Case {
	d = d.Clone()
	if by != nil {
		by(&d)
	}
	return Case{Name: name, Extreme: extreme, Design: d}
}

// with returns a case with glued laps or seams.
func (c Case) with(glued bool, seams ...plate.Seam) Case {
	c.Glued, c.Seams = glued, seams
	return c
}

// Cases differ in every way that the form allows.
func Cases() []Case {
	bench := base(1800, 750, 9, 100, 12, 5, 11, "ply")
	small := base(1200, 600, 12, 60, 18, 4, 7, "mdf")
	little := base(700, 450, 9, 50, 15, 3, 4, "mdf")
	ply := base(700, 400, 9, 50, 12, 4, 6, "ply")
	rails := func(d *engine.Design) {
		d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 60, Bearing: 50}
		d.Cases = uniform(12000)
	}
	out := []Case{
		// The little ones bear so much that 0.02 mm is next to nothing of their sag.
		change("little fibreboard top on legs, broad patch", false, base(600, 340, 9, 50, 15, 3, 5, "mdf"), func(d *engine.Design) {
			d.Cases = patch(180, 160, 200, 200)
			d.Cases[0].Loads[0].Force = 5000
		}),
		change("little ply top on rails, unequal skins", false, base(600, 320, 9, 50, 12, 3, 5, "ply"), func(d *engine.Design) {
			d.TopSkin.Thickness = 12
			d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 60, Bearing: 50}
			d.Cases = uniform(12000)
		}),
		change("little fibreboard top, small patch", false, base(600, 400, 9, 50, 15, 4, 5, "mdf"), func(d *engine.Design) {
			d.Cases = patch(230, 160, 120, 120)
			d.Cases[0].Loads[0].Force = 5000
		}),
		change("little top with wide bays", false, little, func(d *engine.Design) {
			d.Cases = patch(270, 170, 120, 120)
			d.Cases[0].Loads[0].Force = 5000
		}),
		change("little top, seam in the bottom skin", false, ply, rails).with(false, plate.Seam{At: 212}),
		change("little top, seam over a rib", false, ply, rails).with(false, plate.Seam{At: 281.2}),
		change("small fibreboard top, patch off centre", false, small, func(d *engine.Design) { d.Cases = patch(450, 200, 100, 100) }),
		change("small top on rails, even load", false, small, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 100, Bearing: 40}
			d.Cases = uniform(1000)
		}),
		change("bench on legs, central patch", false, bench, nil),
		change("bench on rails, even load", false, bench, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 50, Bearing: 60}
			d.Cases = uniform(1500)
		}),
		change("bench, one corner loaded", false, bench, func(d *engine.Design) { d.Cases = patch(300, 150, 150, 150) }),
		change("unequal skins", false, bench, func(d *engine.Design) { d.TopSkin.Thickness, d.BottomSkin.Thickness = 15, 6 }),
		change("face grain across, ribs upright", false, bench, func(d *engine.Design) {
			d.TopSkin.Across, d.BottomSkin.Across = true, true
			d.Lengthwise.Upright, d.Crosswise.Upright = true, true
		}),
		change("trestles, load on the overhang", false, bench, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 360, Bearing: 60}
			d.Cases = patch(120, 375, 150, 300)
		}),
		change("wall ledger and front rail", false, base(1500, 500, 9, 60, 12, 4, 9, "ply"), func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.RailsAlong, SideInset: 40, Bearing: 40}
			d.Cases = patch(600, 250, 200, 200)
		}),
		change("held along all edges", false, base(1200, 900, 6, 70, 12, 6, 8, "ply"), func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.AllEdges, Bearing: 30}
			d.Cases = uniform(2000)
		}),
		change("wide bays", false, base(1500, 900, 12, 80, 12, 3, 5, "ply"), nil),
		change("uneven ribs", false, bench, func(d *engine.Design) {
			d.Lengthwise.Positions = []float64{6, 130, 330, 600, 744}
			d.Cases = patch(700, 450, 200, 200)
		}),
		change("wide ribs under thin skins", true, base(1200, 600, 6, 80, 25, 5, 9, "ply"), func(d *engine.Design) { d.Cases = patch(600, 225, 80, 80) }),
		change("thin fibreboard on thin ribs", true, base(1200, 600, 5, 80, 7, 5, 8, "mdf"), func(d *engine.Design) { d.Cases = patch(690, 225, 100, 100) }),
		change("thick ply skins, small patch", true, base(1200, 600, 18, 60, 15, 5, 8, "ply"), func(d *engine.Design) { d.Cases = patch(690, 225, 60, 60) }),
		change("tight slots in a deep core", true, base(1200, 600, 6, 150, 6, 8, 15, "thin-ply"), nil),
		change("seam in the bottom skin at mid-span", false, bench, func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 50, Bearing: 60}
			d.Cases = uniform(1500)
		}).with(false, plate.Seam{At: 811}),
		change("seam along the bottom skin", false, bench, nil).with(false, plate.Seam{AlongX: true, At: 282}),
		change("glued laps", false, bench, nil).with(true),
		change("edge bands, legs far in", false, base(1500, 700, 9, 80, 12, 4, 8, "ply"), func(d *engine.Design) {
			d.EdgeBand = engine.EdgeBand{Material: "ply", Thickness: 18}
			d.Supports = engine.Supports{Kind: engine.FourLegs, EndInset: 220, SideInset: 140, Bearing: 70}
		}),
		change("skins that stand over, three loads", false, base(1400, 700, 9, 70, 15, 4, 6, "ply"), func(d *engine.Design) {
			d.Lengthwise.Inset, d.Crosswise.Inset = 60, 90
			d.Slots.LengthwiseDown = true
			d.Supports = engine.Supports{Kind: engine.FourLegs, EndInset: 130, SideInset: 110, Bearing: 90}
			d.Cases[0].Loads = append(patch(400, 200, 120, 160)[0].Loads, append(patch(1050, 480, 200, 120)[0].Loads, uniform(400)[0].Loads...)...)
		}),
		change("few crosswise ribs", false, base(1600, 600, 9, 90, 12, 5, 3, "ply"), func(d *engine.Design) {
			d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 60, Bearing: 60}
			d.Cases = patch(500, 300, 300, 300)
		}),
		change("thin ply, 150 deep", true, base(1800, 750, 3.6, 150, 5, 6, 12, "thin-ply"), nil),
	}
	out[0].Quick, out[1].Quick = true, true
	return out
}
