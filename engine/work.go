package engine

import (
	"cmp"
	"context"
	"math"
	"slices"

	"flatwright/engine/plate"
)

// Work says who does the work where the panel sags most: how much of the sag
// each kind of part gives way to, and how sure the sag is.
type Work struct {
	Shares []WorkShare `json:"shares"` // largest first
	Low    float64     `json:"low"`    // 90 % range of the sag by the scatter of the materials, mm
	High   float64     `json:"high"`
	Most   string      `json:"most"` // what dominates the range

	Figures []FigureSlope `json:"figures,omitempty"` // most sag first; from [WhatIf]
}

// WorkShare is one kind of part at work.
type WorkShare struct {
	Name     string  `json:"name"`
	Part     string  `json:"part"`     // ID of the part as [Part.ID], or a [PartKind] for all parts of that kind
	Share    float64 `json:"share"`    // of the strain energy, 0..1
	Slope    float64 `json:"slope"`    // change of the sag in % for 1 % more stiffness; negative
	Material string  `json:"material"` // catalogue key, "" for the bed of the supports
}

// modelScatter is the coefficient of variation of the model itself on ordinary
// panels: what it differs from solid elements, derived by comparison.
const modelScatter = 0.03

// bedScatter is that of a support's bed; common practice, no source.
const bedScatter = 0.5

// shares names each kind of part at work and says which part it is.
var shares = [plate.Shares]struct{ name, part string }{
	plate.TopMembrane:    {"top skin, stretching", "top"},
	plate.TopBending:     {"top skin, bending between ribs", "top"},
	plate.BottomMembrane: {"bottom skin, stretching", "bottom"},
	plate.BottomBending:  {"bottom skin, bending between ribs", "bottom"},
	plate.AlongDirect:    {"lengthwise ribs, bending", string(LengthwisePart)},
	plate.AlongShear:     {"lengthwise ribs, shear", string(LengthwisePart)},
	plate.AlongUpright:   {"lengthwise ribs, squeezed and bent sideways", string(LengthwisePart)},
	plate.AcrossDirect:   {"crosswise ribs, bending", string(CrosswisePart)},
	plate.AcrossShear:    {"crosswise ribs, shear", string(CrosswisePart)},
	plate.AcrossUpright:  {"crosswise ribs, squeezed and bent sideways", string(CrosswisePart)},
	plate.Rims:           {"edge bands", string(BandPart)},
	plate.Blocks:         {"blocks", string(BlockPart)},
	plate.Pads:           {"supports sinking in", SupportPart},
	plate.Beams:          {"aprons, bending", ApronPart},
}

// work reads energies and slopes of the governing case, of a panel on a mesh. The
// range is first order: parts of one material vary together, materials apart from
// each other, plus the model's own scatter. Lognormal, 90 %: exp(±1.645·σ).
func (d *Design) work(ctx context.Context, w solved, m *materials, r Result) (Work, error) {
	x, y := r.Cases[r.Governing].X, r.Cases[r.Governing].Y
	read, err := w.cases[r.Governing].all.Read(ctx, x, y)
	if err != nil {
		return Work{}, err
	}
	energy, slopes, err := read.Shares(ctx)
	if err != nil {
		return Work{}, err
	}
	total := 0.0
	for _, e := range energy {
		total += e
	}
	var out Work
	var groups []materialGroup
	for h := range plate.Shares {
		key, cv := d.materialOf(h, m)
		if energy[h] > 0 {
			out.Shares = append(out.Shares, WorkShare{shares[h].name, shares[h].part, energy[h] / total, slopes[h], key})
		}
		if h == plate.Pads {
			continue // sag is told relative to the supports
		}
		i := slices.IndexFunc(groups, func(g materialGroup) bool { return g.key == key })
		if i < 0 {
			i = len(groups)
			groups = append(groups, materialGroup{key: key, cv: cv})
		}
		groups[i].slope += slopes[h]
	}
	if err := d.countJoints(ctx, read, w.report.Mesh, m, groups, r.Governing); err != nil {
		return Work{}, err
	}
	slices.SortStableFunc(out.Shares, func(a, b WorkShare) int { return cmp.Compare(b.Share, a.Share) })
	variance := math.Log1p(modelScatter * modelScatter)
	most := variance
	out.Most = "the model itself"
	for _, g := range groups {
		v := g.slope * g.slope * math.Log1p(g.cv*g.cv)
		variance += v
		if v > most {
			most, out.Most = v, d.materialName(g.key)
		}
	}
	f := math.Exp(1.645 * math.Sqrt(variance))
	out.Low, out.High = r.Cases[r.Governing].Sag/f, r.Cases[r.Governing].Sag*f
	return out, nil
}

// materialGroup is everything made of one material.
type materialGroup struct {
	key   string
	cv    float64
	slope float64 // of the sag with the stiffness of all of it
}

// materialOf says what a share of the stiffness is made of, "" for no one
// material, and how much that scatters.
func (d *Design) materialOf(h plate.Share, m *materials) (key string, cv float64) {
	switch {
	case h <= plate.TopBending:
		return d.TopSkin.Material, m.top.CVE
	case h <= plate.BottomBending:
		return d.BottomSkin.Material, m.bottom.CVE
	case h <= plate.AlongUpright:
		return d.Lengthwise.Material, m.lengthwise.CVE
	case h <= plate.AcrossUpright:
		return d.Crosswise.Material, m.crosswise.CVE
	case h == plate.Rims:
		return d.EdgeBand.Material, m.band.CVE
	case h == plate.Beams:
		return d.Supports.Apron.Material, m.apron.CVE
	}
	return "", bedScatter
}

// countJoints puts in place of the sum of a material's shares what the sag does
// when all its moduli grow together: then the joints of rib and skin, the slip at
// the glue lines and the slots' cells count as what they are made of, and not with
// the rib that they belong to. Of one material throughout it is the same. On the
// interactive mesh, where every millisecond counts, the shares must do.
func (d *Design) countJoints(ctx context.Context, read *plate.Reading, mesh Mesh, m *materials, groups []materialGroup, governing int) error {
	used := slices.DeleteFunc(slices.Clone(groups), func(g materialGroup) bool { return g.slope == 0 })
	if mesh < Normal || len(used) < 2 {
		return nil
	}
	for i := range groups {
		if groups[i].key == "" || groups[i].slope == 0 {
			continue
		}
		slope, err := d.slopeOf(ctx, read, mesh, m, groups[i].key, governing, moduli)
		if err != nil {
			return err
		}
		groups[i].slope = slope
	}
	return nil
}

func (d *Design) materialName(key string) string {
	m, ok := d.Material(key)
	if !ok {
		return key
	}
	return "the stiffness of " + m.Name
}
