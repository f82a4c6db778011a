package engine

import "math"

// standing returns the middles of what a top on a ledger or on its own feet
// stands on: the feet, and the ends of ledger and rail.
func (d *Design) standing() []point {
	var out []point
	for _, p := range d.pads() {
		half := math.Min(p.SX, p.SY) / 2
		for _, side := range [...]float64{-1, 1} {
			out = append(out, point{p.X + side*(p.SX/2-half), p.Y + side*(p.SY/2-half)})
		}
	}
	return out
}

// tippingOver is [Design.tipping] for a ledger and for feet anywhere: over every
// edge of the outline of what the top stands on, with somebody leaning on the
// corner that lies farthest beyond it. The lowest is told.
func (d *Design) tippingOver(weight float64) []Margin {
	if d.Supports.Fastened || d.Supports.Kind != OnLedger && d.Supports.Kind != OwnFeet {
		return nil
	}
	at := d.standing()
	best := Margin{Value: math.Inf(1)}
	for _, a := range at {
		for _, b := range at {
			// beyond is how far a point lies to the right of the way from a to b.
			l := math.Hypot(b.x-a.x, b.y-a.y)
			if !(l > nearly) {
				continue
			}
			beyond := func(p point) float64 { return ((b.y-a.y)*(p.x-a.x) - (b.x-a.x)*(p.y-a.y)) / l }
			outline := true
			for _, p := range at {
				outline = outline && beyond(p) <= nearly
			}
			if !outline {
				continue
			}
			for _, c := range [...]struct {
				name string
				point
			}{{"left front", point{}}, {"right front", point{x: d.Length}}, {"left back", point{y: d.Width}}, {"right back", point{d.Length, d.Width}}} {
				out := beyond(c.point)
				if out-d.Supports.Bearing/2 <= nearly {
					continue
				}
				m := Margin{Code: "tipping", Name: "Tipping when someone leans on a corner", Part: SupportPart, Unit: "N·m", Case: "someone leans on the rim", KMod: 1, GammaM: 1,
					Capacity: math.Max(0, -stabilizing*weight*beyond(point{d.Length / 2, d.Width / 2})/1000), Demand: gammaLoad * lean * out / 1000,
					X: c.x, Y: c.y, Where: "at the " + c.name + " corner",
					Source: "moments about the line between two supports, EN 1990 (EQU), factors from memory; 650 N at the corner, common practice, no source",
					Note:   "The top is taken as loose on its supports; fastened down it does not tip this way. This says nothing about the legs."}
				m.Value = math.Min(TimesCap, m.Capacity/m.Demand)
				m.Times = m.Value
				if m.Value < best.Value {
					best = m
				}
			}
		}
	}
	if math.IsInf(best.Value, 1) {
		return nil
	}
	return []Margin{best}
}
