package engine

import (
	"fmt"
	"math"
	"slices"

	"flatwright/engine/catalog"
	"flatwright/engine/plate"
)

// ApronPart is the part ID under which the aprons are drawn.
const ApronPart = "aprons"

// Apron is the rails on edge that join four legs under the panel. Each runs on
// the legs' middle line from leg to leg, and the panel rests on it.
type Apron struct {
	Material  string  `json:"material,omitempty"`  // catalogue key
	Thickness float64 `json:"thickness,omitempty"` // mm
	Height    float64 `json:"height,omitempty"`    // upright, mm

	Front bool `json:"front,omitempty"` // between the two front legs; the others likewise
	Back  bool `json:"back,omitempty"`
	Left  bool `json:"left,omitempty"`
	Right bool `json:"right,omitempty"`
}

// any reports whether there is an apron on any side.
func (a Apron) any() bool { return a.Front || a.Back || a.Left || a.Right }

// StartApron returns the apron to begin with: 22 × 90 mm of solid wood, common
// practice, no source.
func (d Design) StartApron() Apron {
	return Apron{Material: "red-spruce", Thickness: math.Min(22, d.Supports.Bearing), Height: 90}
}

// HasAprons reports whether aprons join the legs: only four legs have any.
func (s Supports) HasAprons() bool { return s.Kind == FourLegs && s.Apron.any() }

// apronShear is κ of a rectangle, by which its shear stiffness is less than
// G·A: 5/6, Reissner, textbook.
const apronShear = 5.0 / 6

// aprons turns the aprons into beams between the legs' faces. They are pinned
// there: how far the joint holds their slope is left out, which is on the
// cautious side. Each end stands on its leg as wood on wood over the leg's
// section.
func (d *Design) aprons(m *materials) []plate.Beam {
	s := d.Supports
	if !s.HasAprons() {
		return nil
	}
	a, half := s.Apron, s.Bearing/2
	beam := func(name string, alongX bool, at, inset, extent float64, from, to int) plate.Beam {
		return plate.Beam{Name: name + " apron", AlongX: alongX, At: at, From: inset + half, To: extent - inset - half,
			Width: a.Thickness, K: s.BedStiffness(),
			EI: m.apron.EAlong * a.Thickness * a.Height * a.Height * a.Height / 12, GA: apronShear * m.apron.GEdge * a.Thickness * a.Height,
			EndK: WoodOnWood * s.Bearing * s.Bearing, Own: m.apron.Density * 1e-9 * a.Thickness * a.Height * (extent - 2*inset - s.Bearing) * Gravity, Ends: [2]int{from, to}}
	}
	var out []plate.Beam
	for _, b := range [...]struct {
		there bool
		beam  plate.Beam
	}{ // legs in the order of feet: left front, left back, right front, right back
		{a.Front, beam("front", true, s.SideInset, s.EndInset, d.Length, 0, 2)},
		{a.Back, beam("back", true, d.Width-s.SideInset, s.EndInset, d.Length, 1, 3)},
		{a.Left, beam("left", false, s.EndInset, s.SideInset, d.Width, 0, 1)},
		{a.Right, beam("right", false, d.Length-s.EndInset, s.SideInset, d.Width, 2, 3)},
	} {
		if b.there {
			out = append(out, b.beam)
		}
	}
	return out
}

// ApronBend is one apron under one load case.
type ApronBend struct {
	Name   string  `json:"name"`
	X      float64 `json:"x"` // where it bends most
	Y      float64 `json:"y"`
	Bend   float64 `json:"bend"`   // below the straight line between its legs, mm
	Moment float64 `json:"moment"` // largest, N·mm
	Shear  float64 `json:"shear"`  // largest, N
}

// apronBends reads what the aprons do in an answer.
func apronBends(beams []plate.Beam, s *plate.Solution) []ApronBend {
	var out []ApronBend
	for i, b := range beams {
		a := ApronBend{Name: b.Name, Bend: math.Inf(-1)}
		for _, f := range s.Beam(i) {
			if f.Bend > a.Bend {
				a.Bend = f.Bend
				a.X, a.Y = b.Place(f.At)
			}
			a.Moment = math.Max(a.Moment, math.Abs(f.M))
			a.Shear = math.Max(a.Shear, math.Abs(f.V))
		}
		out = append(out, a)
	}
	return out
}

// apronMargins checks every apron of a case in bending and shear.
func (k *checker) apronMargins(c answers) {
	a := k.d.Supports.Apron
	m := &k.m.apron
	f := k.kmod(m)
	for i, b := range k.d.aprons(k.m) {
		own, all := c.own.Beam(i), c.all.Beam(i)
		for j := range all {
			x, y := b.Place(all[j].At)
			r := Margin{X: x, Y: y, Part: ApronPart, Where: "the " + b.Name + ", " + place(x, y)}
			r.Source = "M/W as a beam from leg to leg, EN 1995-1-1 6.1.6, from memory"
			r.Note = "The joints at the legs are not checked."
			k.keep(apronBending, true, r, f, apronStrength(m), difference(own[j].M, all[j].M).scale(6/(a.Thickness*a.Height*a.Height)))
			r.Source = "1.5·V/A as a beam from leg to leg, EN 1995-1-1 6.1.7, from memory"
			r.Note = "How it is cut at the legs, a tenon or a notch, is not checked."
			k.keep(apronShearing, true, r, f, m.FEdgeShear, difference(own[j].V, all[j].V).scale(1.5/(a.Thickness*a.Height)))
		}
	}
}

// apronStrength is what bends on edge: solid wood's bending strength, of sheet
// goods the weaker of pull and push in their plane.
func apronStrength(m *catalog.Sheet) float64 {
	if m.Solid {
		return m.FBendAlong
	}
	return math.Min(m.FTensAlong, m.FCompAlong)
}

// apronShare is the part of the largest sag from which an apron's own bending is
// told: about half of it. Common practice, no source.
const apronShare = 0.4

// apronSlope is by how many % the sag must fall for aprons 1 % stiffer before
// they are told to be what gives way: on a panel much stiffer than they are, they
// bend with it and make no difference. Common practice, no source.
const apronSlope = 0.2

// apronAdvice tells when an apron's bending is a large part of the sag.
func (d *Design) apronAdvice(r Result) []Problem {
	c := r.Whole.Cases[r.Governing]
	worst, name := 0.0, ""
	for _, a := range c.Aprons {
		if a.Bend > worst {
			worst, name = a.Bend, a.Name
		}
	}
	matter := slices.ContainsFunc(r.Whole.Work.Shares, func(w WorkShare) bool { return w.Part == ApronPart && -w.Slope >= apronSlope })
	if !(c.Sag > 0) || worst < apronShare*c.Sag || !matter {
		return nil
	}
	return []Problem{{Code: "apron-bends", Severity: Advice, Field: "supports.apron.height", Part: ApronPart,
		Text: fmt.Sprintf("The %s itself bends %s between its legs under “%s”, a large part of the %s that the top sags: it is too soft to hold that edge up. A higher apron would help most; its stiffness goes nearly with the cube of its height.",
			name, sagText(worst), d.Cases[r.Governing].Name, sagText(c.Sag))}}
}

// apronWorking tells how the aprons come in.
func (d *Design) apronWorking(m *materials, r Result) []Working {
	beams := d.aprons(m)
	c := r.Whole.Cases[r.Governing]
	if len(beams) == 0 || len(c.Aprons) != len(beams) {
		return nil
	}
	worst := 0
	for i, a := range c.Aprons {
		if a.Bend > c.Aprons[worst].Bend {
			worst = i
		}
	}
	b, a := beams[worst], c.Aprons[worst]
	return []Working{{
		Key: "apron", Title: "The " + b.Name + " under “" + d.Cases[r.Governing].Name + "”",
		Formula: "EI·v″ = −M with shear κ·G·A, a beam pinned at the legs' faces; the panel rests on its middle line and only pushes",
		Numbers: fmt.Sprintf("clear span %.0f mm; EI = %.0f·%s·%s³/12 = %s N·mm²; κ·G·A = %s N; M = %.0f N·mm", b.To-b.From, m.apron.EAlong, plainNumber(d.Supports.Apron.Thickness), plainNumber(d.Supports.Apron.Height), sci(b.EI), sci(b.GA), a.Moment),
		Result:  fmt.Sprintf("bends %.3f mm", a.Bend),
		Source:  "Timoshenko beam, textbook; κ = 5/6, Reissner; pinned ends and wood on wood at the joints, common practice, no source",
		Plain:   "Sag is told from the legs, so what the aprons bend is part of it. The apron's own weight bends it too. The joint's own hold on its slope is left out: expect a little less.",
	}}
}
