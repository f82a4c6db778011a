package engine

import (
	"cmp"
	"context"
	"math"
	"slices"

	"flatwright/engine/catalog"
	"flatwright/engine/plate"
)

// FigureSlope says how the sag where it is largest follows one figure of one
// material, everywhere that material is used.
type FigureSlope struct {
	Material string  `json:"material"` // catalogue key
	Figure   string  `json:"figure"`   // its name in the design file, as "eAlong"
	Name     string  `json:"name"`     // in words
	Slope    float64 `json:"slope"`    // change of the sag in % for 1 % more; negative is less sag
}

// stiffnessFigure is a figure of a material on which stiffness or weight depend.
type stiffnessFigure struct {
	key, name string
	of        func(*catalog.Sheet) *float64
}

var stiffnessFigures = [...]stiffnessFigure{
	{"eAlong", "stretching along the grain", func(s *catalog.Sheet) *float64 { return &s.EAlong }},
	{"eAcross", "stretching across the grain", func(s *catalog.Sheet) *float64 { return &s.EAcross }},
	{"eBendAlong", "bending along the grain", func(s *catalog.Sheet) *float64 { return &s.EBendAlong }},
	{"eBendAcross", "bending across the grain", func(s *catalog.Sheet) *float64 { return &s.EBendAcross }},
	{"gEdge", "shear in the plane of the sheet", func(s *catalog.Sheet) *float64 { return &s.GEdge }},
	{"gRolling", "shear through the thickness", func(s *catalog.Sheet) *float64 { return &s.GRolling }},
	{"eThrough", "squeezing through the thickness", func(s *catalog.Sheet) *float64 { return &s.EThrough }},
	{"nu", "narrowing sideways when pulled (Poisson’s ratio)", func(s *catalog.Sheet) *float64 { return &s.Nu }},
	{"density", "weight", func(s *catalog.Sheet) *float64 { return &s.Density }},
}

// moduli are all that is stiff of a sheet; a modulus that is not known follows
// another.
func moduli(s *catalog.Sheet) []*float64 {
	return []*float64{&s.EAlong, &s.EAcross, &s.EBendAlong, &s.EBendAcross, &s.GEdge, &s.GRolling, &s.EThrough}
}

// figureStep is by what part a figure is varied: joints and cells are not linear
// in it, and their own rounding must not show.
const figureStep = 1e-3

// varied returns the design and its materials with figures of one material larger
// by [figureStep], wherever it is used.
func (d *Design) varied(m *materials, key string, of func(*catalog.Sheet) []*float64) (Design, materials) {
	vary := func(s *catalog.Sheet) {
		for _, v := range of(s) {
			*v *= 1 + figureStep
		}
	}
	e, n := *d, *m
	// Blocks take theirs from the design.
	own, _ := d.Material(key)
	vary(&own)
	e.Own = append([]catalog.Sheet{own}, d.Own...)
	for _, u := range d.uses(&n) {
		if u.key == key {
			vary(u.sheet)
		}
	}
	return e, n
}

// sheetUse is what one kind of part is made of.
type sheetUse struct {
	key   string
	sheet *catalog.Sheet
}

// uses lists the materials of skins, ribs, bands and aprons.
func (d *Design) uses(m *materials) []sheetUse {
	out := []sheetUse{{d.TopSkin.Material, &m.top}, {d.BottomSkin.Material, &m.bottom}, {d.Lengthwise.Material, &m.lengthwise}, {d.Crosswise.Material, &m.crosswise}}
	if d.EdgeBand.Thickness > 0 {
		out = append(out, sheetUse{d.EdgeBand.Material, &m.band})
	}
	if d.Supports.HasAprons() {
		out = append(out, sheetUse{d.Supports.Apron.Material, &m.apron})
	}
	return out
}

// slopeOf returns how the sag that was read, of a case, changes when figures of
// one material grow, in % for 1 %: to first order the panel is computed anew,
// joints, slips and slot cells with it, but for its deformation.
func (d *Design) slopeOf(ctx context.Context, read *plate.Reading, mesh Mesh, m *materials, key string, governing int, of func(*catalog.Sheet) []*float64) (float64, error) {
	if read.Sag() == 0 {
		return 0, nil
	}
	e, n := d.varied(m, key, of)
	p := e.panelOf(ctx, &n, int(mesh))
	mo := newModel(&e, &n, false)
	loads := []plate.Press{d.Press(Load{Kind: Uniform, Force: mo.weight})}
	for _, l := range d.Cases[governing].Loads {
		loads = append(loads, d.Press(l))
	}
	sag, err := read.Toward(ctx, p, loads)
	if err != nil {
		return 0, err
	}
	return (sag/read.Sag() - 1) / math.Log1p(figureStep), nil
}

// figureSlopes returns the slope of a case's sag at a place for every figure of
// every material.
func (d *Design) figureSlopes(ctx context.Context, w solved, m *materials, governing int) ([]FigureSlope, error) {
	c := w.report.Cases[governing]
	read, err := w.cases[governing].all.Read(ctx, c.X, c.Y)
	if err != nil {
		return nil, err
	}
	var keys []string
	for _, u := range d.uses(m) {
		keys = append(keys, u.key)
	}
	for _, b := range d.Blocks {
		keys = append(keys, b.Material)
	}
	var out []FigureSlope
	for i, key := range keys {
		if slices.Contains(keys[:i], key) {
			continue
		}
		sheet, _ := d.Material(key)
		for _, f := range stiffnessFigures {
			if *f.of(&sheet) == 0 {
				continue // not known: it follows another
			}
			slope, err := d.slopeOf(ctx, read, w.report.Mesh, m, key, governing, func(s *catalog.Sheet) []*float64 { return []*float64{f.of(s)} })
			if err != nil {
				return nil, err
			}
			out = append(out, FigureSlope{Material: key, Figure: f.key, Name: f.name, Slope: slope})
		}
	}
	slices.SortStableFunc(out, func(a, b FigureSlope) int { return cmp.Compare(math.Abs(b.Slope), math.Abs(a.Slope)) })
	return out, nil
}
