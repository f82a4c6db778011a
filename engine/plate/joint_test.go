package plate

import (
	"math"
	"testing"
)

func give(t *testing.T, j Joint) Give {
	t.Helper()
	g, err := j.Give()
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// plyJoint is a 12 mm ply rib under a 9 mm ply skin.
var plyJoint = Joint{Spacing: 170, T: 9, E: 7000, EZ: 600, GRoll: 70, B: 12, Height: 100, EUp: 7500, EThrough: 500, GRib: 65}

// A rib on a skin so thick that it is a half-plane turns at its root by
// 16.67·(1 − ν²)·M/(π·E·b²) more than a strip clamped there: W. J. O'Donnell, The
// additional deflection of a cantilever due to the elasticity of the support,
// J. Appl. Mech. 27 (1960), from memory.
func TestJointOfAHalfPlane(t *testing.T) {
	t.Parallel()
	const e, b = 3000.0, 10.0
	j := Joint{Spacing: 600, T: 60, E: e, EZ: e, GRoll: e / 2, B: b, Height: 80, EUp: e, EThrough: e, GRib: e / 2}
	g, err := j.solve(4)
	if err != nil {
		t.Fatal(err)
	}
	nearRel(t, "turn", g.Turn+j.over(), 16.67/(math.Pi*e*b*b), 0.09)
}

// The mesh in use is near to one four times as fine.
func TestJointMesh(t *testing.T) {
	t.Parallel()
	for _, spacing := range []float64{40, 170, 400} {
		j := plyJoint
		j.Spacing = spacing
		fine, err := j.solve(4)
		if err != nil {
			t.Fatal(err)
		}
		g := give(t, j)
		near(t, "turn", g.Turn, fine.Turn, 0.05*(fine.Turn+j.over()))
		near(t, "press", g.Press, fine.Press, 0.35*j.Height/(j.EUp*j.B))
		nearRel(t, "stiff", g.Stiff, fine.Stiff, 0.02)
	}
}

// A joint of matter that is all but rigid through its thickness and in shear gives
// next to nothing, and the skin over the rib bends about its glued face:
// E·t³/3 in place of E·t³/12, parallel axes, textbook.
func TestRigidJoint(t *testing.T) {
	t.Parallel()
	j := plyJoint
	j.EZ, j.GRoll, j.EThrough, j.GRib = 1e6, 1e6, 1e6, 1e6
	g, err := j.solve(4)
	if err != nil {
		t.Fatal(err)
	}
	soft := give(t, plyJoint)
	if all := soft.Turn + plyJoint.over(); !(math.Abs(g.Turn) < 0.01*all) {
		t.Errorf("turn %g; want next to nothing of %g", g.Turn, all)
	}
	if own := j.Height / (j.EUp * j.B); !(math.Abs(g.Press) < 0.25*own) {
		t.Errorf("press %g; want little of the rib's own %g", g.Press, own)
	}
	nearRel(t, "stiff", g.Stiff, 4, 0.02)
}

// Turn goes with 1/(E·L²), press with 1/E, and the share has no unit.
func TestJointScales(t *testing.T) {
	t.Parallel()
	base := give(t, plyJoint)
	big := plyJoint
	for _, v := range []*float64{&big.Spacing, &big.T, &big.B, &big.Height} {
		*v *= 3
	}
	stiff := plyJoint
	for _, v := range []*float64{&stiff.E, &stiff.EZ, &stiff.GRoll, &stiff.EUp, &stiff.EThrough, &stiff.GRib} {
		*v *= 5
	}
	for _, c := range []struct {
		name        string
		g           Give
		turn, press float64
	}{{"three times as big", give(t, big), 1.0 / 9, 1}, {"five times as stiff", give(t, stiff), 1.0 / 5, 1.0 / 5}} {
		nearRel(t, c.name+": turn", c.g.Turn, base.Turn*c.turn, 1e-6)
		nearRel(t, c.name+": press", c.g.Press, base.Press*c.press, 1e-6)
		nearRel(t, c.name+": stiff", c.g.Stiff, base.Stiff, 1e-6)
	}
}

// A sheet that is softer through its thickness gives more.
func TestSofterSheetsGiveMore(t *testing.T) {
	t.Parallel()
	base := give(t, plyJoint)
	soft := plyJoint
	soft.EZ /= 2
	if g := give(t, soft); !(g.Turn > base.Turn && g.Press > base.Press) {
		t.Errorf("half as stiff through the skin: %+v; want more give than %+v", g, base)
	}
	soft = plyJoint
	soft.GRoll /= 2
	if g := give(t, soft); !(g.Turn+soft.over() > base.Turn+plyJoint.over()) {
		t.Errorf("half the rolling shear: %+v; want more turn, with the skin's over the rib, than %+v", g, base)
	}
}

// However far the ribs stand apart, and whether a moment alone comes in at the faces of
// the rib or a force with it, two numbers tell what the joint does: the turn of the
// skin over the rib, which is a plate's that shears, and that of the rib's edge, on
// which the forces at the faces pull as a couple. Second method: three answers of the
// section to a moment at the rib's foot and one at both ends of the skin.
func TestTurnIsOfTheJointAlone(t *testing.T) {
	t.Parallel()
	wide := plyJoint
	wide.T, wide.B, wide.Spacing, wide.Height = 6, 25, 92, 50
	board := Joint{Spacing: 110, T: 9, E: 3200, EZ: 600, GRoll: 300, B: 15, Height: 50, EUp: 3000, EThrough: 600, GRib: 300}
	apart := plyJoint
	apart.Spacing = 76
	for _, j := range []Joint{plyJoint, apart, wide, board} {
		s, err := j.section(4, inner)
		if err != nil {
			t.Fatal(err)
		}
		foot, _ := s.end()
		ends := s.face(len(s.ys)-1, 1)
		for i, v := range s.face(0, 1) {
			ends[i] += v
		}
		answer := s.solve(foot)
		atFoot, both, atEnds := dot(foot, answer), dot(ends, answer), dot(ends, s.solve(ends))
		d, shear, l := j.E*math.Pow(j.T, 3)/12, j.GRoll*j.T*5/6, (j.Spacing-j.B)/2
		strip := j.Height / 2 / (j.EUp * math.Pow(j.B, 3) / 12)
		// left over for a moment at the faces and a force up at one, down at the other
		left := func(moment, force float64) float64 {
			r := moment + force*j.B
			c := (force*j.Spacing - r) / 2
			return atFoot*r*r - 2*both*r*c + atEnds*c*c - strip*r*r -
				2*((l*c*c-c*force*l*l+force*force*l*l*l/3)/d+force*force*l/shear)
		}
		moment, force := left(1, 0), left(0, 1)
		mixed := (left(1, 1) - moment - force) / 2
		g, err := j.solve(4)
		if err != nil {
			t.Fatal(err)
		}
		total := g.Turn + j.over()
		near(t, "moment", moment, total, 0.02*total)
		near(t, "moment and force", mixed/j.B, g.Turn, 0.03*total)
		near(t, "force", force/j.B/j.B, g.Turn, 0.03*total)
	}
}

// over is what a plate turns by over the rib for a moment of 1, half of it in at
// either face, which stay on the rib's edge: B/(12·D) + 1/(S·B), textbook.
func (j Joint) over() float64 {
	return j.B/(j.E*j.T*j.T*j.T) + 1/(j.GRoll*j.T*5/6*j.B)
}

func TestJointWithoutSize(t *testing.T) {
	t.Parallel()
	for _, spoil := range []func(*Joint){
		func(j *Joint) { j.T = 0 }, func(j *Joint) { j.E = math.NaN() }, func(j *Joint) { j.Spacing = j.B }, func(j *Joint) { j.GRib = math.Inf(1) },
	} {
		j := plyJoint
		spoil(&j)
		if g, err := j.Give(); err != ErrJoint || g != (Give{}) {
			t.Errorf("%+v: %+v, %v; want ErrJoint", j, g, err)
		}
	}
}

// The strip on edge turns with its own bending and its joints' in series: by
// hand, equal moments at both ends of a strip without shear that turn the same
// way need 6·D/h each; with joints 1/(h/6D + c). It stays a strip that can move and
// turn as a whole for nothing.
func TestUprightStripWithJoints(t *testing.T) {
	t.Parallel()
	const h, e, b, c = 80.0, 8000.0, 12.0, 3e-5
	d := e * b * b * b / 12
	w := Web{B: b, EUp: e, GRoll: 1e9, Height: h, Joints: [2]Give{{Turn: c}, {Turn: c}}}
	k := w.upright()
	nearRel(t, "moment for a unit turn at both ends", k[1][1]+k[1][3], 1/(h/(6*d)+c), 1e-6)
	for i, row := range k {
		near(t, "moved as a whole", row[0]+row[2], 0, 1e-9)
		near(t, "turned as a whole", (row[1]+row[3])+h*row[2], 0, 1e-6*k[1][1])
		for j := range row {
			near(t, "symmetry", k[i][j], k[j][i], 1e-9*k[1][1])
		}
	}
	// No joints: the textbook's 4·D/h and 2·D/h.
	w.Joints = [2]Give{}
	k = w.upright()
	nearRel(t, "near end", k[1][1], 4*d/h, 1e-4)
	nearRel(t, "far end", k[1][3], 2*d/h, 1e-4)
}

func BenchmarkJoint(b *testing.B) {
	for b.Loop() {
		if _, err := plyJoint.Give(); err != nil {
			b.Fatal(err)
		}
	}
}

// At the rim the skin goes one way only; a rigid joint gives as little there.
func TestJointAtTheRim(t *testing.T) {
	t.Parallel()
	rim := plyJoint
	in := give(t, rim)
	g, err := rim.AtRim(in)
	if err != nil {
		t.Fatal(err)
	}
	if g.Press != in.Press || g.Stiff != in.Stiff {
		t.Errorf("%+v; want press and stiffness of %+v", g, in)
	}
	// One side of the skin takes what two take inside: from as much to twice as much.
	if !(g.Turn > 0.7*in.Turn && g.Turn < 2*in.Turn) {
		t.Errorf("turn %g; inside %g", g.Turn, in.Turn)
	}
	rim.EZ, rim.GRoll, rim.EThrough, rim.GRib = 1e6, 1e6, 1e6, 1e6
	rigid, err := rim.solve(4)
	if err == nil {
		rigid, err = rim.atRim(4, rigid)
	}
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(rigid.Turn) > 0.05*g.Turn {
		t.Errorf("rigid: turn %g; want next to nothing of %g", rigid.Turn, g.Turn)
	}
}

// A rib under a seam ties both halves: the better the glue line's surroundings, the
// more; pulled at the middle plane they open and turn, as the pull goes past
// the seam below it; it never gains energy.
func TestBridge(t *testing.T) {
	t.Parallel()
	tie := func(j Joint) Bridge {
		b, err := j.Bridge(give(t, j))
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	b := tie(plyJoint)
	if !(b.Pull > 0 && b.Moment > 0 && b.Pull*b.Moment > b.Both*b.Both) {
		t.Errorf("%+v is not positive definite", b)
	}
	// The lower face opens least: a pull makes the upper one open more, β > 0.
	if !(b.Both < 0) {
		t.Errorf("%+v: want the opening larger away from the rib", b)
	}
	whole := plyJoint.E * plyJoint.T / plyJoint.B
	if !(b.Pull < whole) {
		t.Errorf("pull %g; want less than the %g of a skin without a seam", b.Pull, whole)
	}
	better := plyJoint
	better.EThrough, better.GRib = 20*better.EThrough, 20*better.GRib
	if s := tie(better); !(s.Pull > b.Pull) {
		t.Errorf("stiffer rib: pull %g; want more than %g", s.Pull, b.Pull)
	}
	stiff := plyJoint
	for _, v := range []*float64{&stiff.E, &stiff.EZ, &stiff.GRoll, &stiff.EUp, &stiff.EThrough, &stiff.GRib} {
		*v *= 3
	}
	s := tie(stiff)
	nearRel(t, "three times the moduli: pull", s.Pull, 3*b.Pull, 1e-6)
	nearRel(t, "both", s.Both, 3*b.Both, 1e-6)
	nearRel(t, "moment", s.Moment, 3*b.Moment, 1e-6)
}

// What plates do is taken off, by the unit-load theorem added up in strips: a moment
// of 1 at the rib, the skin hinged midway to the next ribs, where the couple's forces
// are 1/S. Moment and shear over the skin beside the rib and, K times as stiff in
// bending, over its width; the rib bent over half of its height. Textbook.
func TestJointTakesPlatesOff(t *testing.T) {
	t.Parallel()
	j := plyJoint
	s, err := j.section(2, inner)
	if err != nil {
		t.Fatal(err)
	}
	const stiff, extra = 1.3, 1e-4
	d, shear := j.E*j.T*j.T*j.T/12, j.GRoll*j.T*5/6
	turn, strips := 0.0, 20000
	for i := range strips {
		dx := j.Spacing / float64(strips)
		x := (float64(i) + 0.5) * dx // from one hinge to the other
		bends, shears, m := d, shear, x/j.Spacing
		if x > j.Spacing/2 {
			m = (x - j.Spacing) / j.Spacing
		}
		if in := (x - j.Spacing/2) / j.B; math.Abs(in) < 0.5 {
			// On the rib's edge the moment left at one face turns to that at the other,
			// and so the shear between them is m/(B/2).
			face := (j.Spacing - j.B) / 2 / j.Spacing
			turn += face * face * (4*in*in/(stiff*d) + 4/(j.B*j.B*shear)) * dx
			continue
		}
		turn += (m*m/bends + 1/(j.Spacing*j.Spacing*shears)) * dx
	}
	turn += j.Height / 2 / (j.EUp * j.B * j.B * j.B / 12)
	g := j.beyondPlates(s.jointMesh, turn+extra, 0, 0, (j.Spacing-j.B)/d+j.B/(stiff*d))
	nearRel(t, "stiff", g.Stiff, stiff, 1e-9)
	nearRel(t, "what is left", g.Turn, extra, 0.01)
}
