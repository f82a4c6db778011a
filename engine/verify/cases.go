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
	Glued   bool // laps glued tight: no slot takes anything away
	Same    Symmetry
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

// alike returns a case with planes of symmetry.
func (c Case) alike(x, y bool) Case {
	c.Same = Symmetry{x, y}
	return c
}

// The materials of the cases: one modulus for stretching and bending, so that
// both models have the same. Figures in the range of real sheets, invented.
var caseMaterials = []catalog.Sheet{
	{Key: "ply", Name: "ply", Kind: "plywood", Density: 650, EAlong: 9000, EAcross: 7000, EBendAlong: 9000, EBendAcross: 7000, GEdge: 620, GRolling: 70, EThrough: 600, Nu: 0.08},
	{Key: "thin-ply", Name: "thin ply", Kind: "plywood", Density: 550, EAlong: 6500, EAcross: 3500, EBendAlong: 6500, EBendAcross: 3500, GEdge: 500, GRolling: 60, EThrough: 600, Nu: 0.08},
	{Key: "wood", Name: "wood", Kind: "solid", Solid: true, Density: 450, EAlong: 10000, EAcross: 500, EBendAlong: 10000, EBendAcross: 500, GEdge: 600, GRolling: 600, EThrough: 500, Nu: 0.02},
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

// Large are tops of a bench's size. Their solids would take too long to settle;
// they show that the little ones leave nothing out.
func Large() []Case {
	bench := base(1800, 750, 9, 100, 12, 5, 11, "ply")
	rails := func(d *engine.Design) {
		d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: 50, Bearing: 60}
		d.Cases = uniform(1500)
	}
	return []Case{
		change("bench on legs, central patch", false, bench, nil),
		change("bench on rails, even load", false, bench, rails),
		change("bench, seam in the bottom skin at mid-span", false, bench, rails).with(false, plate.Seam{At: 811}),
		change("bench, edge bands, legs far in", false, base(1500, 700, 9, 80, 12, 4, 8, "ply"), func(d *engine.Design) {
			d.EdgeBand = engine.EdgeBand{Material: "ply", Thickness: 18}
			d.Supports = engine.Supports{Kind: engine.FourLegs, EndInset: 220, SideInset: 140, Bearing: 70}
		}),
		change("bench, skins that stand over, three loads", false, base(1400, 700, 9, 70, 15, 4, 6, "ply"), func(d *engine.Design) {
			d.Lengthwise.Inset, d.Crosswise.Inset = 60, 90
			d.Slots.LengthwiseDown = true
			d.Supports = engine.Supports{Kind: engine.FourLegs, EndInset: 130, SideInset: 110, Bearing: 90}
			d.Cases[0].Loads = append(patch(400, 200, 120, 160)[0].Loads, append(patch(1050, 480, 200, 120)[0].Loads, uniform(400)[0].Loads...)...)
		}),
		change("bench of thin ply, 150 deep", true, base(1800, 750, 3.6, 150, 5, 6, 12, "thin-ply"), nil),
	}
}
