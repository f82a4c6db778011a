package engine

import (
	"fmt"
	"math"
)

// HoleKind is what a hole is for. It changes the words, not what is drilled.
type HoleKind string

// The kinds of holes.
const (
	DogHole   HoleKind = "dog hole"
	BoltHole  HoleKind = "bolt hole"
	CableHole HoleKind = "cable hole"
)

// BothSkins is the [Hole.Part] of holes through both skins.
const BothSkins = "both"

// Hole is a round hole, or a row of them. Through a skin it goes straight down,
// and through a block or a splice plate that lies there as well; through a rib
// it goes from cheek to cheek.
type Hole struct {
	Kind     HoleKind `json:"kind"`
	Part     string   `json:"part"`         // TopSeam, BottomSeam, BothSkins, or a rib as "L2"
	X        float64  `json:"x,omitempty"`  // of the middle, mm in plan; of a hole through a rib only the one along it counts
	Y        float64  `json:"y,omitempty"`  //
	Up       float64  `json:"up,omitempty"` // of a hole through a rib: its middle above the rib's lower edge, mm
	Diameter float64  `json:"diameter"`

	// A row of holes, each a step further on.
	Count int     `json:"count,omitempty"` // 0 and 1 are a single hole
	StepX float64 `json:"stepX,omitempty"`
	StepY float64 `json:"stepY,omitempty"`
}

// Groove is a straight channel of rectangular section in the outer face of a
// skin, for a track or a stop. It runs parallel to an edge.
type Groove struct {
	Name  string  `json:"name,omitempty"`
	Skin  string  `json:"skin"`            // TopSeam or BottomSeam
	Along bool    `json:"along,omitempty"` // runs along the length at y = At, else along the width at x = At
	At    float64 `json:"at"`              // of its middle line, from the panel's outer edge, mm
	From  float64 `json:"from,omitempty"`  // of its ends, from the panel's outer edge, mm
	To    float64 `json:"to,omitempty"`    // 0 is the far edge
	Width float64 `json:"width"`
	Depth float64 `json:"depth"`
}

// number is how many holes a row has.
func (h Hole) number() int { return max(1, h.Count) }

// place is the middle of the i-th hole of a row, in plan.
func (h Hole) place(i int) (x, y float64) {
	return h.X + float64(i)*h.StepX, h.Y + float64(i)*h.StepY
}

// in reports whether a hole goes through a skin.
func (h Hole) in(skin string) bool {
	return h.Part == skin || h.Part == BothSkins && (skin == TopSeam || skin == BottomSeam)
}

// HolePart returns the part ID under which a hole, or a row of them, is drawn.
func HolePart(hole int) string { return fmt.Sprintf("hole %d", hole+1) }

// GroovePart returns the part ID under which a groove is drawn.
func GroovePart(groove int) string { return fmt.Sprintf("groove %d", groove+1) }

// box is where a groove lies in plan and how high.
func (d *Design) grooveBox(g Groove) Box {
	tb := d.EdgeBand.Thickness
	from, to, far := g.From, g.To, d.Width
	if g.Along {
		far = d.Length
	}
	if to == 0 {
		to = far
	}
	from, to = math.Max(from, tb), math.Min(to, far-tb)
	b := Box{g.At - g.Width/2, g.At + g.Width/2, from, to, 0, g.Depth}
	if g.Along {
		b.X0, b.X1, b.Y0, b.Y1 = b.Y0, b.Y1, b.X0, b.X1
	}
	if g.Skin == TopSeam {
		b.Z1 = d.TotalDepth()
		b.Z0 = b.Z1 - g.Depth
	}
	return b
}

// holds reports whether a place in plan lies in a box.
func (b Box) holds(x, y float64) bool { return x > b.X0 && x < b.X1 && y > b.Y0 && y < b.Y1 }

// meet returns what two boxes share; volume is 0 where they share nothing.
func (b Box) meet(o Box) Box {
	return Box{math.Max(b.X0, o.X0), math.Min(b.X1, o.X1), math.Max(b.Y0, o.Y0), math.Min(b.Y1, o.Y1), math.Max(b.Z0, o.Z0), math.Min(b.Z1, o.Z1)}
}

func (b Box) volume() float64 {
	return math.Max(0, b.X1-b.X0) * math.Max(0, b.Y1-b.Y0) * math.Max(0, b.Z1-b.Z0)
}

func (b Box) centre() [3]float64 {
	return [3]float64{(b.X0 + b.X1) / 2, (b.Y0 + b.Y1) / 2, (b.Z0 + b.Z1) / 2}
}

// removed is wood that holes and grooves take out of a part: mm³ and where.
// What two grooves share is put back by one with a negative volume.
type removed struct {
	volume float64
	at     [3]float64
	from   Box // in plan, where the wood came from
}

// removedFrom is what holes and grooves take out of a part.
func (d *Design) removedFrom(p *Part) []removed {
	if len(d.Holes)+len(d.Grooves) == 0 {
		return nil
	}
	var out []removed
	add := func(b Box, volume float64) { out = append(out, removed{volume, b.centre(), b}) }
	var channels []Box
	if p.Kind == SkinPart {
		channels = d.grooves(p.ID)
		for i, b := range channels {
			add(b, b.volume())
			for _, o := range channels[:i] {
				if both := b.meet(o); both.volume() > 0 {
					add(both, -both.volume())
				}
			}
		}
	}
	for _, h := range d.Holes {
		_, _, rib := RibOfPart(h.Part)
		if stick := p.Kind == LengthwisePart || p.Kind == CrosswisePart || p.Kind == BandPart; rib != stick || rib && h.Part != p.ID {
			continue // looked at by the hundred while knobs are tried
		}
		round := math.Pi / 4 * h.Diameter * h.Diameter
		for i := range h.number() {
			b, ok := d.bored(p, h, i)
			if !ok {
				continue
			}
			length := b.Z1 - b.Z0
			if rib {
				length = p.Thickness
			}
			for _, c := range channels {
				if x, y := h.place(i); c.holds(x, y) {
					length = math.Min(length, p.Thickness-(c.Z1-c.Z0))
				}
			}
			add(b, round*length)
		}
	}
	return out
}

// grooves are the channels of a skin.
func (d *Design) grooves(skin string) []Box {
	var out []Box
	for _, g := range d.Grooves {
		if g.Skin == skin {
			out = append(out, d.grooveBox(g))
		}
	}
	return out
}

// bored is the square around the i-th hole of a row where it passes through a
// part; ok is false where it misses it.
func (d *Design) bored(p *Part, h Hole, i int) (b Box, ok bool) {
	x, y := h.place(i)
	r := h.Diameter / 2
	b = Box{x - r, x + r, y - r, y + r, p.Place.Z0, p.Place.Z1}
	along, _, rib := RibOfPart(h.Part)
	if rib {
		b.Z0, b.Z1 = p.Place.Z0+h.Up-r, p.Place.Z0+h.Up+r
		if along {
			b.Y0, b.Y1 = p.Place.Y0, p.Place.Y1
		} else {
			b.X0, b.X1 = p.Place.X0, p.Place.X1
		}
		return b, p.ID == h.Part
	}
	switch p.Kind {
	case SkinPart:
		return b, h.in(p.ID)
	case BlockPart:
		return b, p.Place.holds(x, y)
	case SplicePart: // of the skin on which it lies
		skin := BottomSeam
		if p.Place.Z0 > d.TotalDepth()/2 {
			skin = TopSeam
		}
		return b, h.in(skin) && p.Place.holds(x, y)
	}
	return b, false
}
