package plate

import (
	"errors"
	"math"
)

// Joint is the cross-section of one rib glued to one skin: a T in plane strain
// that repeats across the ribs for ever.
type Joint struct {
	Spacing float64 // of the ribs, mm
	T       float64 // thickness of the skin, mm
	E       float64 // of the skin in bending across the rib, over 1 − ν², MPa
	EZ      float64 // of the skin through its thickness, MPa
	GRoll   float64 // of the skin through its thickness, MPa

	B        float64 // thickness of the rib, mm
	Height   float64 // of the rib, mm; the cell takes half of it
	EUp      float64 // of the rib upright, MPa
	EThrough float64 // of the rib through its thickness, MPa
	GRib     float64 // of the rib through its thickness, MPa
}

// Give is what a joint does beyond plates that meet in lines: its edge turns
// and is pressed in by more than the middle planes tell, and the skin over it is
// stiffer in bending than beside it. The skin's own section turns more than the
// rib's edge, by what it shears over the rib as it does elsewhere: that is the
// panel's, not the joint's. The zero value is a joint that gives nothing, the
// skin as stiff as elsewhere.
type Give struct {
	Turn  float64 // extra turn of the rib's edge for a moment of 1 N·mm per mm, 1/N
	Press float64 // extra approach of rib and skin for a force of 1 N per mm, mm²/N
	Stiff float64 // stiffness of the skin across the rib as a part of that beside it; 0 counts as 1
}

// ErrJoint is returned for a section without size or stiffness.
var ErrJoint = errors.New("the joint of rib and skin has no size")

// Give computes the joint with finite elements (the rectangle of the skins'
// membrane) under three loads: a moment at the rib with the skin hinged midway
// to the next ribs, which turn the same way; a force along the rib with the skin
// guided there; and a moment in the skin that passes over the rib. What plates
// that shear and a strip on edge would do is taken off, with the very terms that
// the panel is assembled from. Source: derived; with a rib and skin of rigid
// thickness there is no give, and the skin bends about its glued face. Where the
// skin ends at the rib, see [Joint.AtRim].
func (j Joint) Give() (Give, error) { return j.solve(1) }

// solve computes the joint on a mesh so many times as fine: once is 5 % off in
// the turn and 30 % in the press of a usual joint, see the tests.
func (j Joint) solve(fine int) (Give, error) {
	s, err := j.section(fine, inner)
	if err != nil {
		return Give{}, err
	}
	defer s.free()
	foot, up := s.end()
	ends := s.across(1)
	bent, pushed, turned := s.solve(ends), s.solve(up), s.solve(foot)
	return j.beyondPlates(s.jointMesh, dot(foot, turned), dot(up, pushed), dot(ends, pushed), dot(ends, bent)), nil
}

// AtRim returns what the joint gives where the skin ends at the rib's outer face;
// inside is what the same joint gives amid the skin. Only the turn differs: the
// moment goes out through one end of the skin, and half of it enters at the outer
// face and bends the strip over the rib.
func (j Joint) AtRim(inside Give) (Give, error) { return j.atRim(1, inside) }

func (j Joint) atRim(fine int, g Give) (Give, error) {
	s, err := j.section(fine, outer)
	if err != nil {
		return Give{}, err
	}
	defer s.free()
	foot, _ := s.end()
	last := len(s.ys) - 1
	for i, v := range s.face(last, 1) {
		foot[i] += v
	}
	d := j.E * j.T * j.T * j.T / 12
	over := j.B/(3*g.Stiff*d) + 1/(j.GRoll*j.T/s.parabola(j.T)*j.B)
	g.Turn = dot(foot, s.solve(foot)) - j.Height/2/(j.EUp*j.B*j.B*j.B/12) - (j.Spacing-j.B)/2/d - over
	return g, nil
}

// Bridge is what a rib carries across a butt seam that lies over its middle, per
// mm of the seam: force and moment for the opening and the turn of both sides
// against each other in the skin's middle plane, counted upwards from the rib.
// The zero value carries nothing.
type Bridge struct {
	Pull   float64 // N/mm²
	Both   float64 // N/mm: moment for an opening, force for a turn
	Moment float64 // N
}

// Bridge computes how the rib ties both halves of a skin that meet over its
// middle, each glued to one half of its thickness: pulled and bent at its ends, the
// section is softer than plates without a seam by what the seam and the glue
// line give. The strip that stands for the seam in a panel is [SeamWidth] wide; g is
// what the joint gives without a seam. It returns ErrJoint for a section without
// size or one that nothing ties.
func (j Joint) Bridge(g Give) (Bridge, error) {
	s, err := j.section(1, split)
	if err != nil {
		return Bridge{}, err
	}
	defer s.free()
	pull, bend := s.across(0), s.across(1)
	for i := range pull {
		pull[i], bend[i] = -pull[i], -bend[i] // outwards, and stretching the upper face
	}
	u, v := s.solve(pull), s.solve(bend)
	d := j.E * j.T * j.T * j.T / 12
	cnn := dot(pull, u) - (j.Spacing-SeamWidth)/(j.E*j.T)
	cmm := dot(bend, v) - (j.Spacing-j.B)/d - (j.B-SeamWidth)/(g.Stiff*d)
	cnm := dot(pull, v)
	det := cnn*cmm - cnm*cnm
	if !(cnn > 0 && cmm > 0 && det > 0) {
		return Bridge{}, ErrJoint
	}
	return Bridge{Pull: cmm / det, Both: -cnm / det, Moment: cnn / det}, nil
}

// beyondPlates takes off what plates that meet in lines would do: turn, rise and
// bent are the section's answers to unit loads, tilt the turn of the skin's ends
// under the unit force. The elements hold the moment even along themselves and the
// shear even over a row; the plates are taken with the same error, so that it
// does not count as give.
func (j Joint) beyondPlates(m *jointMesh, turn, rise, tilt, bent float64) Give {
	d, s := j.E*j.T*j.T*j.T/12, j.GRoll*j.T/m.parabola(j.T)
	l, hr := (j.Spacing-j.B)/2, j.Height/2
	cubes := 0.0 // Σ a³/12 over the columns beside the rib
	for c := range m.from {
		a := m.ys[c+1] - m.ys[c]
		cubes += a * a * a / 12
	}
	var g Give
	g.Stiff = j.B / d / math.Max(bent-2*l/d, 1e-3*j.B/d)
	kd := g.Stiff * d
	r := 1 / j.Spacing
	// Over the rib the skin takes what is left of the moment at both faces, 2·l·r, as a
	// plate whose faces stay on the rib's edge.
	g.Turn = turn - hr/(j.EUp*j.B*j.B*j.B/12) - r*r*(2*(l*l*l/3-cubes)/d+2*l/s+4*l*l*(j.B/(12*kd)+1/(s*j.B)))
	// Guided ends: the moment that turns them back.
	guided := rise - tilt*tilt/bent
	m0 := l * l / 4 / (l + j.B/(2*g.Stiff))
	g.Press = guided - hr/(j.EUp*j.B) - 2*((m0*m0*l-m0*l*l/2+l*l*l/12-cubes/4)/d+m0*m0*j.B/(2*kd)+l/(4*s))
	return g
}

// parabola returns the mean square of the shear over the skin's thickness for a
// mean of 1, were it a parabola: 6/5 with rows without number, textbook.
func (m *jointMesh) parabola(t float64) (sum float64) {
	// mean of 6·ζ·(1 − ζ) from a to b
	upTo := func(z float64) float64 { return 3*z*z - 2*z*z*z }
	for r := m.edge; r < len(m.zs)-1; r++ {
		a, b := m.zs[r]/t, m.zs[r+1]/t
		mean := (upTo(b) - upTo(a)) / (b - a)
		sum += mean * mean * (b - a)
	}
	return sum
}

func dot(a, b []float64) (sum float64) {
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}
