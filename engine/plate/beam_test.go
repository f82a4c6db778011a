package plate

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// apron is a beam 25 × 90 of E 11000 and G 690 with κ = 5/6: EI = 11000·25·90³/12
// = 1.670625e10 N·mm², κGA = 1.29375e6 N.
func apron(alongX bool, at, from, to float64, ends ...int) Beam {
	return Beam{AlongX: alongX, At: at, From: from, To: to, Width: 25, K: 10, EI: 1.670625e10, GA: 1.29375e6, EndK: 4e4, Ends: [2]int{ends[0], ends[1]}}
}

// onBeams joins the pads of the small panel by beams on three sides, one of them
// softer.
func onBeams(p *Panel) *Panel {
	q := *p
	front, back, left := apron(true, 50, 95, 625, 0, 2), apron(true, 390, 95, 625, 1, 3), apron(false, 60, 75, 365, 0, 1)
	back.EI /= 3
	left.EndK = 1e4
	q.Beams = []Beam{front, back, left}
	return &q
}

// A beam's element: symmetric, no energy in rigid motion, and under a load at
// its end the cantilever's P·l³/3EI + P·l/κGA with the slope P·l²/2EI (textbook).
func TestBeamElement(t *testing.T) {
	t.Parallel()
	b := apron(true, 0, 0, 1, 0, 1)
	const l = 370.0
	e := b.element(l)
	checkRigid(t, "beam", square(4, func(i, j int) float64 { return e[i][j] }), 2)
	end := mat.NewDense(2, 2, []float64{e[2][2], e[2][3], e[3][2], e[3][3]})
	var u mat.VecDense
	if err := u.SolveVec(end, mat.NewVecDense(2, []float64{500, 0})); err != nil {
		t.Fatal(err)
	}
	nearRel(t, "end deflection", u.AtVec(0), 500*l*l*l/(3*b.EI)+500*l/b.GA, 1e-12)
	nearRel(t, "end slope", u.AtVec(1), 500*l*l/(2*b.EI), 1e-12)
	// Its curve: the ends' own values, rigid motions, and halfway along the
	// cantilever P·(l/2)²·(3l − l/2)/6EI + P·(l/2)/κGA (textbook).
	for i, want := range [4]float64{1, 0, 0, 0} {
		near(t, "at the first end", b.shape(0, l)[i], want, 1e-15)
		near(t, "at the other end", b.shape(1, l)[(i+2)%4], want, 1e-15)
	}
	for _, s := range []float64{0.2, 0.5, 0.83} {
		n := b.shape(s, l)
		near(t, "shift", n[0]+n[2], 1, 1e-14)
		near(t, "turn", n[1]+n[2]*l+n[3], s*l, 1e-11)
	}
	n := b.shape(0.5, l)
	nearRel(t, "halfway", n[2]*u.AtVec(0)+n[3]*u.AtVec(1), 500*(l/2)*(l/2)*(2.5*l)/6/b.EI+500*l/2/b.GA, 1e-12)
}

// clothOn is a panel all but limp on two beams at its quarter lines.
func clothOn() *Panel {
	cloth := Layer{T: 2, Ex: 5, Ey: 5, EBendX: 5, EBendY: 5, G: 2, GRoll: 2}
	w := Web{B: 10, E: 5, EUp: 5, G: 2, GRoll: 2, Own: 1, Height: 10}
	p := &Panel{X1: 1200, Y1: 400, Top: cloth, Bottom: cloth, Height: 10, Divide: 2}
	for i := range 5 {
		p.Along = append(p.Along, Rib{5 + 97.5*float64(i), w})
	}
	for i := range 9 {
		p.Across = append(p.Across, Rib{5 + 148.75*float64(i), w})
	}
	for i, at := range []float64{100, 300} {
		b := apron(true, at, 0, 1200, 2*i, 2*i+1)
		b.Width, b.K = 200, 1
		p.Beams = append(p.Beams, b)
		for _, x := range []float64{0, 1200} {
			p.Pads = append(p.Pads, Pad{X: x, Y: at, SX: 1, SY: 1, K: 1e-6})
		}
	}
	return p
}

// An even load through a limp panel bends each beam by 5·q·L⁴/384EI + q·L²/8κGA
// with the moment q·L²/8 and the shear q·L/2 (textbook): 1000 N on 1200 mm is by
// hand 1.346801 + .115942 = 1.462743 mm, 150 000 N·mm and 500 N.
func TestBeamUnderAnEvenLoad(t *testing.T) {
	t.Parallel()
	p := clothOn()
	loads := []Press{{P: 1000, X: 600, Y: 100, SX: 1200, SY: 20}, {P: 1000, X: 600, Y: 300, SX: 1200, SY: 20}}
	s := answer(t, p, loads...)
	checkBalance(t, "limp panel", p, s, loads)
	for i := range p.Beams {
		bend, moment := 0.0, 0.0
		states := s.Beam(i)
		for _, f := range states {
			bend, moment = math.Max(bend, f.Bend), math.Max(moment, f.M)
		}
		nearRel(t, "bend", bend, 1.462743, 3e-3)
		nearRel(t, "moment", moment, 150e3, 4e-3)
		nearRel(t, "shear at the end", states[0].V, 500, 2e-3)
		near(t, "moment at the end", states[len(states)-1].M, 0, 1e-6*moment)
		near(t, "bend at the end", states[len(states)-1].Bend, 0, 1e-12)
	}
	force, _ := s.Reactions()
	for i, f := range force {
		nearRel(t, fmt.Sprintf("reaction %d", i), f, 500, 1e-6)
	}
}

// Limits: a beam that does not bend on ends that do not give is a rail, one that
// carries nothing leaves the pads alone.
func TestBeamLimits(t *testing.T) {
	t.Parallel()
	p := smallPanel()
	loads := []Press{{P: 900, X: 300, Y: 330, SX: 100, SY: 60}, {P: 300, X: 370, Y: 220, SX: 720, SY: 420}}
	places := [][2]float64{{300, 330}, {370, 50}, {700, 400}, {20, 220}}
	stiff, rail, soft := *p, *p, *p
	rail.Pads = append([]Pad(nil), p.Pads...)
	for i, y := range []float64{50, 390} {
		b := apron(true, y, 95, 625, i, i+2)
		b.EI, b.GA, b.EndK = 1e5*b.EI, 1e5*b.GA, 1e9
		stiff.Beams = append(stiff.Beams, b)
		rail.Pads = append(rail.Pads, Pad{X: 360, Y: y, SX: 530, SY: 0.1, K: 2500})
		b.EI, b.GA, b.EndK = 1e-12*b.EI, 1e-12*b.GA, 4e4
		soft.Beams = append(soft.Beams, b)
	}
	a, b := answer(t, &stiff, loads...), answer(t, &rail, loads...)
	c, d := answer(t, &soft, loads...), answer(t, p, loads...)
	e := answer(t, onBeams(p), loads...)
	for _, at := range places {
		nearRel(t, fmt.Sprintf("stiff beams at %v", at), a.Down(at[0], at[1]), b.Down(at[0], at[1]), 1e-3)
		nearRel(t, fmt.Sprintf("soft beams at %v", at), c.Down(at[0], at[1]), d.Down(at[0], at[1]), 2e-3)
	}
	if x := e.Sag(300, 330); !(x > a.Sag(300, 330) && x < d.Sag(300, 330)) {
		t.Errorf("sag on beams = %g; want it between %g on rails and %g on pads", x, a.Sag(300, 330), d.Sag(300, 330))
	}
}

// Forces and moments balance, also where the panel lifts off a beam; energies
// add up to the loads' work; turned and mirrored it is the same.
func TestBeamsBalance(t *testing.T) {
	t.Parallel()
	p := onBeams(smallPanel())
	for i, loads := range [][]Press{
		{{P: 500, X: 370, Y: 220, SX: 720, SY: 420}},
		{{P: 300, X: 100, Y: 300, SX: 40, SY: 60}, {P: 900, X: 600, Y: 90, SX: 200, SY: 10}},
		{{P: 3000, X: 620, Y: 380, SX: 40, SY: 60}}, // lifts off the opposite corner
		{{P: 900, X: 370, Y: 55, SX: 60, SY: 40}},   // lies on one beam
	} {
		for _, divide := range []int{1, 2} {
			p.Divide = divide
			s := answer(t, p, loads...)
			what := fmt.Sprintf("loads %d, divide %d", i, divide)
			checkBalance(t, what, p, s, loads)
			sum := 0.0
			for _, e := range energyOf(t, s) {
				sum += e
			}
			nearRel(t, what+": energies", sum, s.Work(loads), 1e-6)
			if energyOf(t, s)[Beams] <= 0 {
				t.Errorf("%s: the beams store nothing", what)
			}
			for j := range s.m.springs {
				if s.m.glued(j) {
					continue
				}
				if w := s.m.springs[j].value(s.u); s.lifted[j] != (w > 0) {
					t.Fatalf("%s: point %d is drawn out by %g, lifted %v", what, j, w, s.lifted[j])
				}
			}
		}
	}
	q := smallPanel()
	q.Top, q.Bottom = sameRatio(), sameRatio()
	checkTurns(t, onBeams(q))
}

// The slope of a sag with the beams' stiffness is what computing again gives.
func TestBeamSlope(t *testing.T) {
	t.Parallel()
	loads := []Press{{P: 900, X: 370, Y: 90, SX: 60, SY: 40}, {P: 900, X: 370, Y: 220, SX: 720, SY: 420}}
	at := func(f float64) *Solution {
		p := onBeams(smallPanel())
		for i := range p.Beams {
			p.Beams[i].EI *= f
			p.Beams[i].GA *= f
		}
		return answer(t, p, loads...)
	}
	const step = 1e-4
	hi, lo := at(1+step).Sag(370, 90), at(1-step).Sag(370, 90)
	want := math.Log(hi/lo) / math.Log((1+step)/(1-step))
	nearRel(t, "slope", slopesOf(t, at(1), 370, 90)[Beams], want, 1e-3)
	if !(want < 0) {
		t.Errorf("slope = %g; want less sag on stiffer beams", want)
	}
}

// A long panel and a wide one number their nodes differently.
func TestBeamsOnAWidePanel(t *testing.T) {
	t.Parallel()
	p := onBeams(smallPanel())
	m := prepare(t, p)
	n, band := m.Size()
	plain, narrow := prepare(t, smallPanel()).Size()
	nodes := 0
	for _, l := range m.lines {
		nodes += len(l.at)
	}
	if n != plain+2*nodes || band < narrow || band > narrow*3/2 {
		t.Errorf("with beams: %d unknowns and %d diagonals; without %d and %d, %d nodes of beams", n, band, plain, narrow, nodes)
	}
	_, turned := prepare(t, swap(p)).Size()
	if turned != band {
		t.Errorf("%d diagonals; %d with x and y exchanged", band, turned)
	}
}

// A beam that the panel does not touch bends under its own weight W as one on two
// supports: 5·W·L³/(384·EI) + W·L/(8·GA) at its middle, W·L/8 and W/2. Textbook.
func TestBeamUnderItsOwnWeight(t *testing.T) {
	t.Parallel()
	p := onBeams(smallPanel())
	for i := range p.Beams {
		p.Beams[i].K, p.Beams[i].Own = 1e-9, 40
	}
	s := answer(t, p, Press{P: 200, X: 370, Y: 220, SX: 200, SY: 200})
	b := &p.Beams[0]
	long := b.To - b.From
	forces := s.Beam(0)
	nearRel(t, "shear", forces[0].V, b.Own/2, 1e-6)
	for _, f := range forces {
		x := f.At - b.From
		bend := b.Own / long * (x*(long*long*long-2*long*x*x+x*x*x)/(24*b.EI) + x*(long-x)/(2*b.GA))
		near(t, "bend", f.Bend, bend, 1e-6*long)
		near(t, "moment", f.M, b.Own/long*x*(long-x)/2, 1e-4*b.Own*long)
	}
	held, _ := s.Reactions()
	sum := 0.0
	for _, v := range held {
		sum += v
	}
	nearRel(t, "reactions", sum, 200+40*float64(len(p.Beams)), 1e-9)
}
