package engine

import (
	"context"
	"math"
)

// coreStep, insetStep: one step of a knob; common practice, no source.
const (
	coreStep  = 10.0
	insetStep = 25.0
)

// knob is one field that can be turned.
type knob struct {
	field, name string
	value       func(*Design) float64
	set         func(*Design, float64)
	next        func(d *Design, v float64, up bool) float64
}

func stepBy(step float64) func(*Design, float64, bool) float64 {
	return func(_ *Design, v float64, up bool) float64 {
		if up {
			return v + step
		}
		return v - step
	}
}

// stepStock goes to the next thickness the material is sold in.
func stepStock(material func(*Design) string) func(*Design, float64, bool) float64 {
	return func(d *Design, v float64, up bool) float64 {
		m, _ := d.Material(material(d))
		best := math.NaN()
		for _, t := range m.Thicknesses {
			gain := t.Actual - v
			if !up {
				gain = -gain
			}
			// Half a millimetre is the same sheet in the other unit system.
			if gain > 0.5 && (math.IsNaN(best) || math.Abs(t.Actual-v) < math.Abs(best-v)) {
				best = t.Actual
			}
		}
		return best
	}
}

var allKnobs = []knob{
	{"coreDepth", "Core depth", func(d *Design) float64 { return d.CoreDepth }, func(d *Design, v float64) { d.CoreDepth = v }, stepBy(coreStep)},
	{"topSkin.thickness", "Top skin", func(d *Design) float64 { return d.TopSkin.Thickness }, func(d *Design, v float64) { d.TopSkin.Thickness = v },
		stepStock(func(d *Design) string { return d.TopSkin.Material })},
	{"bottomSkin.thickness", "Bottom skin", func(d *Design) float64 { return d.BottomSkin.Thickness }, func(d *Design, v float64) { d.BottomSkin.Thickness = v },
		stepStock(func(d *Design) string { return d.BottomSkin.Material })},
	{"lengthwise.thickness", "Lengthwise rib thickness", func(d *Design) float64 { return d.Lengthwise.Thickness }, setThickness(func(d *Design) *RibSet { return &d.Lengthwise }),
		stepStock(func(d *Design) string { return d.Lengthwise.Material })},
	{"crosswise.thickness", "Crosswise rib thickness", func(d *Design) float64 { return d.Crosswise.Thickness }, setThickness(func(d *Design) *RibSet { return &d.Crosswise }),
		stepStock(func(d *Design) string { return d.Crosswise.Material })},
	{"lengthwise.count", "Lengthwise ribs", func(d *Design) float64 { return float64(d.Lengthwise.number()) }, setCount(func(d *Design) *RibSet { return &d.Lengthwise }), stepBy(1)},
	{"crosswise.count", "Crosswise ribs", func(d *Design) float64 { return float64(d.Crosswise.number()) }, setCount(func(d *Design) *RibSet { return &d.Crosswise }), stepBy(1)},
	{"supports.endInset", "Supports in from the ends", func(d *Design) float64 { return d.Supports.EndInset }, func(d *Design, v float64) { d.Supports.EndInset = v }, stepBy(insetStep)},
	{"supports.sideInset", "Supports in from the sides", func(d *Design) float64 { return d.Supports.SideInset }, func(d *Design, v float64) { d.Supports.SideInset = v }, stepBy(insetStep)},
	{"supports.apron.height", "Apron height", func(d *Design) float64 { return d.Supports.Apron.Height }, func(d *Design, v float64) { d.Supports.Apron.Height = v }, stepBy(coreStep)},
}

func setThickness(set func(*Design) *RibSet) func(*Design, float64) {
	return func(d *Design, v float64) {
		r := set(d)
		r.Thickness, r.Thickest = v, 0
	}
}

// setCount spaces the ribs evenly: listed positions have no next count.
func setCount(set func(*Design) *RibSet) func(*Design, float64) {
	return func(d *Design, v float64) {
		r := set(d)
		r.Count, r.Positions = int(v), nil
	}
}

// used reports whether a knob does anything for the way the top is supported.
func (k knob) used(d *Design) bool {
	switch k.field {
	case "supports.endInset":
		return d.Supports.UsesEnd()
	case "supports.sideInset":
		return d.Supports.UsesSide()
	case "supports.apron.height":
		return d.Supports.HasAprons()
	case "lengthwise.count":
		return len(d.Lengthwise.Positions) == 0
	case "crosswise.count":
		return len(d.Crosswise.Positions) == 0
	}
	return true
}

// knobs recomputes the panel with every knob one step up and one step down. A
// step that leads to a panel that cannot be built is left out.
func knobs(ctx context.Context, d Design) ([]Knob, error) {
	if len(d.Cases) == 0 {
		return nil, nil
	}
	sag, mass := d.quick(true)
	margin := d.lowestMargin()
	step := func(k knob, up bool) *KnobStep {
		v := k.next(&d, k.value(&d), up)
		if !(v >= 0) {
			return nil
		}
		e := d.Clone()
		k.set(&e, v)
		if !e.valid() {
			return nil
		}
		s, m := e.quick(true)
		return &KnobStep{Value: v, Sag: s - sag, Mass: m - mass, Margin: e.lowestMargin() - margin}
	}
	var out []Knob
	for _, k := range allKnobs {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if !k.used(&d) {
			continue
		}
		out = append(out, Knob{Field: k.field, Name: k.name, Up: step(k, true), Down: step(k, false)})
	}
	return out, nil
}
