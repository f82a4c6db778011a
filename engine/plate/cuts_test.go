package plate

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// onRails is demoPanel on two rails.
func onRails(n int) *Panel {
	p := demoPanel(n)
	p.Pads = []Pad{{X: 20, Y: 375, SX: 40, SY: 750, K: 10}, {X: 1780, Y: 375, SX: 40, SY: 750, K: 10}}
	return p
}

var offMiddle = Press{P: 1800, X: 700, Y: 300, SX: 300, SY: 200}

// An even sheet with a tenth of its area in holes keeps (1 − p)/(1 + 2p) = 0.75 of its
// modulus, Hashin and Shtrikman's bound for a plane, and 0.9/1.1 of its shear through
// the thickness; of few holes each takes three times its area.
func TestPiercedEvenSheet(t *testing.T) {
	t.Parallel()
	l := Layer{T: 6, Ex: 3000, Ey: 3000, EBendX: 3000, EBendY: 3000, G: 3000 / 2.6, GRoll: 80, Nu: 0.3}
	got := l.pierced(0.1)
	nearRel(t, "Ex", got.Ex, 2250, 1e-12)
	nearRel(t, "EBendY", got.EBendY, 2250, 1e-12)
	nearRel(t, "GRoll", got.GRoll, 80*0.9/1.1, 1e-12)
	// An even sheet stays one: G = E/(2(1 + ν)).
	nearRel(t, "G", got.G, got.Ex/(2*(1+got.Nu)), 1e-12)
	nearRel(t, "few holes", 1-l.pierced(1e-6).Ex/3000, 3e-6, 1e-5)
	if l.pierced(0) != l {
		t.Error("no hole changes the sheet")
	}
	if whole := l.pierced(1 - 1e-9); !(whole.Ex < 1e-4 && whole.G < 1e-4 && whole.GRoll < 1e-4) {
		t.Errorf("all hole: %+v", whole)
	}
}

// A sheet laid a quarter turn round is pierced alike, what it narrows stays symmetric,
// and more holes always leave less; by hand for 5 %: k = √(9461/5038) = 1.370370, n² = 2·(k − .12) + 9461/620 =
// 17.760417, 1 + n = 5.214311, q = 1/19.
func TestPiercedPly(t *testing.T) {
	t.Parallel()
	l := sameRatio()
	a, b := l.pierced(0.07), l.Turned().pierced(0.07).Turned()
	for i, v := range [][2]float64{{a.Ex, b.Ex}, {a.Ey, b.Ey}, {a.G, b.G}, {a.Nu, b.Nu}, {a.EBendX, b.EBendX}, {a.EBendY, b.EBendY}} {
		nearRel(t, "turned, figure "+string(rune('0'+i)), v[1], v[0], 1e-12)
	}
	k := math.Sqrt(9461.0 / 5038)
	n := math.Sqrt(2*(k-0.12) + 9461.0/620)
	near(t, "1 + n", 1+n, 5.2143, 5e-5)
	nearRel(t, "Ex", ply.pierced(0.05).Ex, 9461/(1+(1+n)/19), 1e-12)
	last := ply
	for p := 0.02; p < 0.99; p += 0.05 {
		next := ply.pierced(p)
		if !(next.Ex < last.Ex && next.Ey < last.Ey && next.G < last.G && next.GRoll < last.GRoll) || !(next.Nu*next.Nu*next.Ey/next.Ex < 1) {
			t.Fatalf("at %.2f: %+v after %+v", p, next, last)
		}
		last = next
	}
}

// cornerHole is a quarter of a sheet of ply, n × n cells, with a hole at its corner left
// out cell by cell or without, pulled along x or sheared, by even forces at its
// edges or with its edges kept straight. It returns the work of unit forces.
type cornerHole struct {
	n               int
	radius          float64 // in cells
	shear, straight bool
}

func (w cornerHole) work(t *testing.T, pierced bool) (work, share float64) {
	t.Helper()
	n := w.n
	p := &Panel{Top: ply, Bottom: ply, Height: 1}
	for i := range n {
		for j := range n {
			if pierced && math.Hypot(float64(i)+0.5, float64(j)+0.5) < w.radius {
				p.Holes = append(p.Holes, Hole{X: 10*float64(i) + 5, Y: 10*float64(j) + 5, D: 20 / math.Sqrt(math.Pi), Top: true})
			}
		}
	}
	m := panelOn(p, even(10*float64(n), n), even(10*float64(n), n))
	for i := range m.held {
		m.held[i] = i%perNode != dofU && i%perNode != dofV
	}
	onX, onY := dofU, dofV // what symmetry holds at x = 0 and at y = 0
	if w.shear {
		onX, onY = dofV, dofU
	}
	f := make([]float64, len(m.held))
	for i := range n + 1 {
		m.fix(0, i, onX)
		m.fix(i, 0, onY)
	}
	if w.shear {
		m.fix(n, 0, dofV) // or it turns
	}
	for i := range n {
		sides := [2][3]int{{m.g.node(n, i), m.g.node(n, i+1), onX}, {m.g.node(i, n), m.g.node(i+1, n), onY}}
		for side, e := range sides {
			a, b := e[0]*perNode+e[2], e[1]*perNode+e[2]
			if side == 0 || w.shear {
				f[a]++
				f[b]++
			}
			if w.straight {
				m.add(a, a, 1e8)
				m.add(b, b, 1e8)
				m.add(a, b, -1e8)
			}
		}
	}
	u := m.solve(t, f)
	for i := range f {
		work += f[i] * u[i]
	}
	return work, float64(len(p.Holes)) / float64(n*n)
}

// more is by how much the sheet gives more for its hole, with straight edges and with even
// forces, and what the smeared sheet gives more.
func (w cornerHole) more(t *testing.T) (straight, even, smeared, share float64) {
	t.Helper()
	of := func(s bool) float64 {
		w.straight = s
		whole, _ := w.work(t, false)
		with, part := w.work(t, true)
		share = part
		return with/whole - 1
	}
	straight, even = of(true), of(false)
	if w.shear {
		return straight, even, ply.G/ply.pierced(share).G - 1, share
	}
	return straight, even, ply.Ex/ply.pierced(share).Ex - 1, share
}

// A second method: even forces let a sheet with one hole give more and straight edges less
// than as a part of a large sheet with many such holes (theorems of least work, textbook), and
// the smeared sheet must lie between. Sheared, both lie close together; there what
// holes in rows and columns do to each other is missing, and has to vanish with them.
func TestPiercedAgainstAHole(t *testing.T) {
	t.Parallel()
	for _, w := range []cornerHole{{n: 32, radius: 4}, {n: 32, radius: 8}} {
		if lo, hi, smeared, share := w.more(t); !(lo < smeared && smeared < hi) {
			t.Errorf("%.4f of the area gone, pulled: gives more by %.4f with straight edges, %.4f with even forces; smeared %.4f", share, lo, hi, smeared)
		}
	}
	var missing, gone [2]float64
	for i, w := range []cornerHole{{n: 64, radius: 10, shear: true}, {n: 64, radius: 16, shear: true}} {
		lo, hi, smeared, share := w.more(t)
		missing[i], gone[i] = 2*smeared/(lo+hi)-1, share
	}
	few := missing[0] - (missing[1]-missing[0])/(gone[1]-gone[0])*gone[0]
	if !(math.Abs(few) < 0.02) || !(missing[1] > -0.2) {
		t.Errorf("sheared: %.4f is missing at %.4f, %.4f at %.4f; %.4f of few", missing[0], gone[0], missing[1], gone[1], few)
	}
}

// By hand: a rectangle 37 × 90 in the plane of a groove's remainder, 1.5 below the middle.
// Rigid motions of the whole cost nothing; an even turn of β, κ = 2e-4 along x, pulls it
// by 1.5·κ all over: ½·a11·(1.5·κ)²·37·90.
func TestFlatAside(t *testing.T) {
	t.Parallel()
	l := ply.cut(cut{left: 6})
	st := l.stiffness()
	k := st.membrane(37, 90)
	full := aside(k, cut{left: 6}.middleAt(true, 9))
	m := square(16, func(i, j int) float64 { return full[i][j] })
	const kappa = 2e-4
	var turn, bent [16]float64
	for c := range 4 {
		x := (1 + cornerXi[c]) * 37 / 2
		turn[4*c], turn[4*c+2] = 1.5*1e-3, 1e-3 // β = 1e-3 all over, u goes back by e·β: the remainder stays
		bent[4*c+2] = kappa * x
	}
	near(t, "tilted about the remainder", energy(m, turn[:])/m.At(0, 0), 0, 1e-15)
	q11 := 9461 / (1 - 0.12*0.12*5038/9461.0)
	nearRel(t, "bent", energy(m, bent[:]), 0.5*q11*6*1.5*1.5*kappa*kappa*37*90, 1e-12)
	var e mat.EigenSym
	s := mat.NewSymDense(16, nil)
	for i := range 16 {
		for j := i; j < 16; j++ {
			s.SetSym(i, j, full[i][j])
		}
	}
	if !e.Factorize(s, false) || e.Values(nil)[0] < -1e-6 {
		t.Errorf("lowest eigenvalue %g", e.Values(nil)[0])
	}
}

// A groove over all of a skin, 4 of 9 mm deep, is a thinner skin glued at the same height: on skins
// that do not shear both come together with the square of the mesh. Ply skins do, and between
// nodes and beside ribs that goes on as in the whole skin: 3 % of what the groove adds.
func TestGrooveOverAll(t *testing.T) {
	t.Parallel()
	sag := func(n int, roll float64, change func(p *Panel)) float64 {
		p := onRails(n)
		p.Top.GRoll, p.Bottom.GRoll = roll, roll
		change(p)
		return answer(t, p, offMiddle).Sag(715.2, 369) // at the corner of a crossing
	}
	for _, top := range []bool{true, false} {
		off := func(n int, roll float64) float64 {
			whole := sag(n, roll, func(*Panel) {})
			groove := sag(n, roll, func(p *Panel) {
				p.Grooves = []Groove{{Top: top, X0: p.X0, X1: p.X1, Y0: p.Y0, Y1: p.Y1, Left: 5}}
			})
			thinner := sag(n, roll, func(p *Panel) {
				if top {
					p.Top.T = 5
				} else {
					p.Bottom.T = 5
				}
			})
			return (groove-whole)/(thinner-whole) - 1
		}
		if coarse, fine := off(1, 1e6), off(2, 1e6); !(math.Abs(fine) < math.Abs(coarse)/3 && math.Abs(fine) < 0.005) {
			t.Errorf("top %v, without shear: what a groove over all adds is off by %.5f, on half of the mesh by %.5f", top, coarse, fine)
		}
		if got := off(2, 60); !(math.Abs(got) < 0.03) {
			t.Errorf("top %v: what a groove over all adds is off by %.5f", top, got)
		}
	}
}

// Grooves and holes make the panel softer, deeper and more of them more so; mirrored ones
// make a mirrored panel; what carries them stays in balance and the shares of energy
// add up to the work of the load.
func TestCutsSoften(t *testing.T) {
	t.Parallel()
	sag := func(change func(p *Panel)) (*Panel, *Solution) {
		p := onRails(2)
		change(p)
		s := answer(t, p, offMiddle)
		checkBalance(t, "cuts", p, s, []Press{offMiddle})
		return p, s
	}
	at := func(s *Solution) float64 { return s.Sag(700, 300) }
	groove := func(left float64) func(p *Panel) {
		return func(p *Panel) { p.Grooves = []Groove{{X0: 720, X1: 740, Y0: 0, Y1: 750, Left: left}} }
	}
	_, plain := sag(func(p *Panel) { p.Cuts[0] = []float64{720, 740} })
	_, whole := sag(groove(9))
	_, some := sag(groove(7))
	_, deep := sag(groove(3))
	nearRel(t, "a groove of no depth", at(whole), at(plain), 1e-9)
	if !(at(whole) < at(some) && at(some) < at(deep)) {
		t.Errorf("sag %.6f, %.6f, %.6f with 9, 7 and 3 mm left; want it to rise", at(whole), at(some), at(deep))
	}
	row := func(mirror bool, n int) func(p *Panel) {
		return func(p *Panel) {
			for i := range n {
				x := 560 + 90*float64(i)
				if mirror {
					x = 1800 - x
				}
				p.Holes = append(p.Holes, Hole{X: x, Y: 263, D: 20, Top: true})
			}
		}
	}
	_, bare := sag(func(*Panel) {})
	_, two := sag(row(false, 2))
	_, four := sag(row(false, 4))
	if !(at(bare) < at(two) && at(two) < at(four)) {
		t.Errorf("sag %.6f, %.6f, %.6f with no, 2, 4 holes; want it to rise", at(bare), at(two), at(four))
	}
	p := onRails(2)
	row(true, 4)(p)
	turned := offMiddle
	turned.X = 1800 - turned.X
	nearRel(t, "mirrored", answer(t, p, turned).Sag(1100, 300), at(four), 1e-6)
	total := 0.0
	for _, e := range energyOf(t, deep) {
		total += e
	}
	own := 0.0
	for _, v := range deep.Skin(false) {
		if v.Left > 0 {
			own++
		}
	}
	if !(total > 0) || own == 0 {
		t.Errorf("energy %g, %g grooved cells", total, own)
	}
}

// What a row of holes adds to the sag settles as the mesh gets finer, though a hole
// fills a cell of the fine one and a tenth of a cell of the coarse one.
func TestHolesOnEveryMesh(t *testing.T) {
	t.Parallel()
	var more [3]float64
	for i, n := range [3]int{1, 2, 4} {
		p := onRails(n)
		bare := answer(t, p, offMiddle).Sag(700, 300)
		p = onRails(n)
		for k := range 12 {
			p.Holes = append(p.Holes, Hole{X: 480 + 50*float64(k), Y: 263, D: 30, Top: true})
		}
		more[i] = answer(t, p, offMiddle).Sag(700, 300)/bare - 1
	}
	if !(more[0] > 0 && math.Abs(more[2]/more[1]-1) < math.Abs(more[1]/more[0]-1)) {
		t.Errorf("the holes add %.5f, %.5f, %.5f of the sag on three meshes", more[0], more[1], more[2])
	}
}

// A stretch with a hole takes from a segment by its share of the length, one after the
// other: half of the segment at half the stiffness leaves 1/(1 + ½·(2 − 1)) = 2/3.
func TestPiercedRib(t *testing.T) {
	t.Parallel()
	p := &Panel{Pierced: []Splice{{true, 1, 100, 130, 0.5, 0.25}}}
	w := p.spliced(Web{E: 9000, G: 600}, true, 1, 70, 130)
	nearRel(t, "E", w.E, 6000, 1e-12)
	nearRel(t, "G", w.G, 600/(1+0.5*3), 1e-12)
	if w := p.spliced(Web{E: 9000, G: 600}, true, 0, 70, 130); w.E != 9000 {
		t.Error("another rib is softer too")
	}
	q := onRails(1)
	bare := answer(t, q, offMiddle).Sag(700, 300)
	q = onRails(1)
	q.Pierced = []Splice{{true, 1, 300, 340, 0.6, 0.5}}
	if with := answer(t, q, offMiddle).Sag(700, 300); !(with > bare) {
		t.Errorf("sag %.6f with a hole through a rib, %.6f without", with, bare)
	}
}

// A hole through a block takes its area upright and more in its plane.
func TestPiercedBlock(t *testing.T) {
	t.Parallel()
	f := Fill{Ex: 9000, Ey: 400, EUp: 400, G: 600, Gz: 60}
	g := f.pierced(0.1)
	nearRel(t, "EUp", g.EUp, 360, 1e-12)
	if !(g.Ex < 0.75*9000 && g.Ey < 0.9*400 && g.G < 0.9*600 && g.Gz < 0.9*60) || f.pierced(0) != f {
		t.Errorf("%+v", g)
	}
	sag := func(holes ...Hole) float64 {
		p := onRails(1)
		p.Fills = []Fill{{600, 790, 200, 370, 9000, 400, 400, 600, 60}}
		p.Holes = holes
		return answer(t, p, offMiddle).Sag(700, 300)
	}
	if a, b := sag(), sag(Hole{X: 700, Y: 260, D: 40}); !(b > a) {
		t.Errorf("sag %.8f with a hole through the block alone, %.8f without", b, a)
	}
}

// A panel without holes and grooves is assembled to the last bit as if there were no such thing:
// one whose holes go through nothing has the same numbers.
func TestNoCuts(t *testing.T) {
	t.Parallel()
	p, q := onRails(2), onRails(2)
	q.Holes = []Hole{{X: 700, Y: 300, D: 30}}
	q.Pierced = []Splice{{true, 2, 1900, 1930, 0.5, 0.5}}
	a, b := assemble(t.Context(), p), assemble(t.Context(), q)
	if a.cuts[0] != nil || a.cuts[1] != nil || a.bored != nil {
		t.Error("something is cut where there is no hole")
	}
	for i := range a.data {
		if a.data[i] != b.data[i] {
			t.Fatalf("entry %d is %v, with holes through nothing %v", i, a.data[i], b.data[i])
		}
	}
}
