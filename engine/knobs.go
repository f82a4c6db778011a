package engine

import (
	"context"
	"math"
	"slices"
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
	turn        func(d *Design, up bool) (material string, ok bool) // instead of value, set and next
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
	measureKnob("coreDepth", "Core depth", func(d *Design) float64 { return d.CoreDepth }, func(d *Design, v float64) { d.CoreDepth = v }, stepBy(coreStep)),
	measureKnob("topSkin.thickness", "Top skin", func(d *Design) float64 { return d.TopSkin.Thickness }, func(d *Design, v float64) { d.TopSkin.Thickness = v },
		stepStock(func(d *Design) string { return d.TopSkin.Material })),
	measureKnob("bottomSkin.thickness", "Bottom skin", func(d *Design) float64 { return d.BottomSkin.Thickness }, func(d *Design, v float64) { d.BottomSkin.Thickness = v },
		stepStock(func(d *Design) string { return d.BottomSkin.Material })),
	measureKnob("lengthwise.thickness", "Lengthwise rib thickness", func(d *Design) float64 { return d.Lengthwise.Thickness }, setThickness(func(d *Design) *RibSet { return &d.Lengthwise }),
		stepStock(func(d *Design) string { return d.Lengthwise.Material })),
	measureKnob("crosswise.thickness", "Crosswise rib thickness", func(d *Design) float64 { return d.Crosswise.Thickness }, setThickness(func(d *Design) *RibSet { return &d.Crosswise }),
		stepStock(func(d *Design) string { return d.Crosswise.Material })),
	measureKnob("lengthwise.count", "Lengthwise ribs", func(d *Design) float64 { return float64(d.Lengthwise.number()) }, setCount(func(d *Design) *RibSet { return &d.Lengthwise }), stepBy(1)),
	measureKnob("crosswise.count", "Crosswise ribs", func(d *Design) float64 { return float64(d.Crosswise.number()) }, setCount(func(d *Design) *RibSet { return &d.Crosswise }), stepBy(1)),
	materialKnob("topSkin.material", "Top skin", func(d *Design) (*string, *float64) { return &d.TopSkin.Material, &d.TopSkin.Thickness }),
	materialKnob("bottomSkin.material", "Bottom skin", func(d *Design) (*string, *float64) { return &d.BottomSkin.Material, &d.BottomSkin.Thickness }),
	materialKnob("lengthwise.material", "Lengthwise ribs", func(d *Design) (*string, *float64) { return &d.Lengthwise.Material, &d.Lengthwise.Thickness }),
	materialKnob("crosswise.material", "Crosswise ribs", func(d *Design) (*string, *float64) { return &d.Crosswise.Material, &d.Crosswise.Thickness }),
	measureKnob("supports.endInset", "Supports in from the ends", func(d *Design) float64 { return d.Supports.EndInset }, func(d *Design, v float64) { d.Supports.EndInset = v }, stepBy(insetStep)),
	measureKnob("supports.sideInset", "Supports in from the sides", func(d *Design) float64 { return d.Supports.SideInset }, func(d *Design, v float64) { d.Supports.SideInset = v }, stepBy(insetStep)),
	measureKnob("supports.apron.height", "Apron height", func(d *Design) float64 { return d.Supports.Apron.Height }, func(d *Design, v float64) { d.Supports.Apron.Height = v }, stepBy(coreStep)),
}

// measureKnob is the knob of a field that holds a length or a count.
func measureKnob(field, name string, value func(*Design) float64, set func(*Design, float64), next func(*Design, float64, bool) float64) knob {
	return knob{field: field, name: name, value: value, set: set, next: next}
}

// materialKnob is the knob of what a part is made of: up is the next stiffer sheet.
func materialKnob(field, name string, of func(*Design) (*string, *float64)) knob {
	return knob{field: field, name: name + " material", value: func(d *Design) float64 { _, t := of(d); return *t },
		turn: func(d *Design, up bool) (string, bool) {
			m, t := of(d)
			next, thick, ok := d.stiffer(*m, *t, up)
			if ok {
				*m, *t = next, thick
			}
			return next, ok
		}}
}

// stiffer returns the sheet next in stiffness along its face grain, stiffer or
// softer, that is sold nearly as thick, and that thickness; ok is false where
// there is none.
func (d *Design) stiffer(key string, thickness float64, up bool) (material string, t float64, ok bool) {
	m, found := d.Material(key)
	if !found {
		return "", 0, false
	}
	here := m.At(thickness).EAlong
	best := math.NaN()
	for _, s := range slices.Concat(d.Own, Catalogue().Sheets) {
		if s.Key == key || s.Solid {
			continue
		}
		for _, sold := range s.Thicknesses {
			if math.Abs(sold.Actual-thickness) > nearlyAsThick {
				continue
			}
			gain := s.At(sold.Actual).EAlong - here
			if gain == 0 || gain > 0 != up {
				continue
			}
			if math.IsNaN(best) || math.Abs(gain) < math.Abs(best) {
				best, material, t, ok = gain, s.Key, sold.Actual, true
			}
		}
	}
	return material, t, ok
}

// nearlyAsThick is by how much another material's sheet may differ to be told
// as a change of material, mm; common practice, no source.
const nearlyAsThick = 0.6

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

// step returns the design one step up or down, and what the field then holds;
// nil where that cannot be built.
func (k knob) step(d *Design, up bool) (*KnobStep, *Design) {
	e := d.Clone()
	s := &KnobStep{}
	if k.turn != nil {
		var ok bool
		if s.Material, ok = k.turn(&e, up); !ok {
			return nil, nil
		}
		s.Value = k.value(&e)
	} else {
		s.Value = k.next(d, k.value(d), up)
		if !(s.Value >= 0) {
			return nil, nil
		}
		k.set(&e, s.Value)
	}
	if !e.valid() {
		return nil, nil
	}
	return s, &e
}

// knobs recomputes by the closed form the panel with every knob one step up and one step down. A
// step that leads to a panel that cannot be built is left out.
func knobs(ctx context.Context, d Design) ([]Knob, error) {
	if len(d.Cases) == 0 {
		return nil, nil
	}
	sag, mass := d.quick(true)
	margin := d.lowestMargin()
	fill := func(s *KnobStep, e *Design) {
		if s != nil {
			v, m := e.quick(true)
			s.Sag, s.Mass, s.Margin = v-sag, m-mass, e.lowestMargin()-margin
		}
	}
	var out []Knob
	for _, k := range allKnobs {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if !k.used(&d) {
			continue
		}
		up, higher := k.step(&d, true)
		down, lower := k.step(&d, false)
		fill(up, higher)
		fill(down, lower)
		out = append(out, Knob{Field: k.field, Name: k.name, Up: up, Down: down})
	}
	return out, nil
}
