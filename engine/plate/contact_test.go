package plate

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/mat"
)

// section is half of a skin over half of a rib, seen along the rib: the part
// that repeats, cut at the middle of the rib's thickness, of its height and of
// the bay.
type section struct {
	b, s, t, gRoll, gFlat float64 // contact width, rib spacing, skin
	h, gEdge, gAcross     float64 // clear height and moduli of the rib; h = 0 is no rib
}

// slip solves the anti-plane problem of that section by finite differences on
// squares of side d: displacement u along the rib, u = 0 at half height, a unit
// flow taken up evenly over the skin's section. It returns the skin's mean u.
// Without a rib the flow enters evenly over the contact and u is counted from
// its mean there.
func (c section) slip(t *testing.T, d float64) float64 {
	t.Helper()
	cells := func(v float64) int { return int(math.Round(v / d)) }
	nx, nt, nh, nb := cells(c.s/2), cells(c.t), cells(c.h/2), cells(c.b/2)
	rows := nt + nh // row 0 is the lowest
	at := func(i, j int) int { return i*rows + j }
	k := mat.NewSymBandDense(nx*rows, rows, nil)
	u := make([]float64, nx*rows)
	plus := func(i, j int, v float64) { k.SetSymBand(i, j, k.At(i, j)+v) }
	solid := func(i, j int) bool { return i < nx && j < rows && (j >= nh || i < nb) }
	moduli := func(j int) (across, up float64) {
		if j >= nh {
			return c.gFlat, c.gRoll
		}
		return c.gAcross, c.gEdge
	}
	join := func(a, b int, v float64) {
		plus(a, a, v)
		plus(b, b, v)
		plus(min(a, b), max(a, b), -v)
	}
	for i := range nx {
		for j := range rows {
			if !solid(i, j) {
				plus(at(i, j), at(i, j), 1)
				continue
			}
			across, up := moduli(j)
			if solid(i+1, j) {
				join(at(i, j), at(i+1, j), across)
			}
			if solid(i, j+1) {
				_, above := moduli(j + 1)
				join(at(i, j), at(i, j+1), 2/(1/up+1/above))
			}
			if j == 0 && nh > 0 {
				plus(at(i, j), at(i, j), 2*up)
			}
			if j >= nh {
				u[at(i, j)] += 1 / float64(nx*nt) / 2
			}
			if nh == 0 && j == 0 && i < nb {
				u[at(i, j)] -= 1 / float64(nb) / 2
			}
		}
	}
	if nh == 0 {
		plus(0, 0, 1e-6) // in balance: it only fixes the level
	}
	low, ok := lapack64.Pbtrf(k.RawSymBand())
	if !ok {
		t.Fatal("the section is loose")
	}
	lapack64.Pbtrs(low, blas64.General{Rows: len(u), Cols: 1, Stride: 1, Data: u})
	mean, contact := 0.0, 0.0
	for i := range nx {
		for j := nh; j < rows; j++ {
			mean += u[at(i, j)] / float64(nx*nt)
		}
		if nh == 0 && i < nb {
			// at the face, half a cell below the middle of the lowest one
			contact += (u[at(i, 0)] - d/2/c.gRoll/(c.b)) / float64(nb)
		}
	}
	return mean - contact
}

// skinOnly is [section.slip] without the rib.
func (c section) skinOnly(t *testing.T, d float64) float64 {
	c.h = 0
	return c.slip(t, d)
}

// lag returns what the skin alone, as a membrane, gives between the place of
// the flow and its mean, the flow shared over the contact by a factor f of its
// waves: cos for half on the line of either face, sinc for an even one.
func (c section) lag(f func(x float64) float64) float64 {
	sum := 0.0
	for n := 1; n <= 4000; n++ {
		k := 2 * math.Pi * float64(n) / c.s
		v := f(k * c.b / 2)
		sum += 2 / c.s * v * v / (c.gFlat * k * k * c.t)
	}
	return sum
}

func sinc(x float64) float64 { return math.Sin(x) / x }

// sections span thin and thick, ply and board, narrow and wide ribs; the last
// number is what a rib's own modulus across its thickness is.
var sections = []section{
	{12, 200, 9, 60, 620, 80, 540, 60},
	{12, 150, 9, 60, 620, 108, 540, 60},
	{6, 100, 5, 60, 620, 80, 540, 60},
	{24, 150, 9, 60, 620, 80, 540, 60},
	{24, 136, 6, 60, 620, 80, 540, 60},
	{12, 180, 18, 60, 620, 80, 540, 60},
	{12, 150, 9, 600, 1200, 80, 1200, 600},
	{18, 150, 18, 60, 620, 80, 540, 60},
}

// The flow even over the contact: what the skin gives is what a membrane gives
// under that flow, and ContactSlip. Second method: finite differences on two
// sizes of squares, the error going with about d^1.8 as 1, .5, .25 show.
func TestContactSlipBySquares(t *testing.T) {
	t.Parallel()
	for _, c := range sections {
		coarse, fine := c.skinOnly(t, 0.5), c.skinOnly(t, 0.25)
		want := fine + (fine-coarse)/2.5
		got := ContactSlip(c.b, c.s, c.t, c.gRoll, c.gFlat) + c.lag(sinc)
		nearRel(t, fmt.Sprintf("skin's give of %v", c), got, want, 0.003)
	}
}

// The whole section, rib and skin: the mesh with a rib softened by ContactSlip
// gives what finite differences of the real section give, within what an even
// flow is off, and refining the mesh does not add the slip a second time.
func TestRibAndSkinSlip(t *testing.T) {
	t.Parallel()
	for _, c := range sections {
		coarse, fine := c.slip(t, 1), c.slip(t, 0.5)
		want := 2*fine - coarse
		slip := ContactSlip(c.b, c.s, c.t, c.gRoll, c.gFlat)
		byHand := c.h/2/(c.gEdge*c.b) + slip + c.lag(math.Cos)
		nearRel(t, fmt.Sprintf("rib and skin of %v", c), byHand, want, 0.04)
		for _, n := range []int{4, 32} {
			nearRel(t, fmt.Sprintf("mesh %d of %v", n, c), c.onMesh(t, n, Soften(c.gEdge, c.b, c.h, slip, slip)), byHand, 0.3/float64(n))
		}
	}
}

// onMesh returns the same give of one bay's mesh, n elements a bay, with both
// skins pulled opposite ways.
func (c section) onMesh(t *testing.T, n int, g float64) float64 {
	t.Helper()
	l := Layer{T: c.t, Ex: 9000, Ey: 9000, EBendX: 9000, EBendY: 9000, G: c.gFlat, GRoll: c.gRoll}
	w := Web{B: c.b, E: 9000, EUp: 9000, G: g, GRoll: c.gAcross, Own: 1, Height: c.h}
	const length = 50.0
	half := even((c.s-c.b)/2, n)
	ys := append([]float64(nil), half...)
	for _, y := range half {
		ys = append(ys, (c.s+c.b)/2+y)
	}
	m := panelOn(&Panel{Top: l, Bottom: l, Height: c.h, Along: []Rib{{c.s / 2, w}}}, []float64{0, length}, ys)
	for d := range m.held {
		m.held[d] = d%perSkin != dofU && d%perSkin != dofBX
	}
	m.hold()
	f := make([]float64, len(m.held))
	for j := range len(ys) - 1 {
		for i := range 2 {
			for _, k := range [2]int{j, j + 1} {
				p := (ys[j+1] - ys[j]) / c.s * length / 4
				f[m.g.node(i, k)*perNode+dofU] += p
				f[m.g.node(i, k)*perNode+perSkin+dofU] -= p
			}
		}
	}
	u := m.solve(t, f)
	mean := 0.0
	for d := range f {
		mean += f[d] * u[d]
	}
	return mean / length / 2
}

// ContactSlip is positive, falls to nothing as the skin gets stiff through its
// thickness, goes with 1/G when both moduli do, and does not know the unit of
// length.
func TestContactSlipLimits(t *testing.T) {
	t.Parallel()
	for _, c := range sections {
		v := ContactSlip(c.b, c.s, c.t, c.gRoll, c.gFlat)
		if !(v > 0) {
			t.Errorf("ContactSlip of %v = %g; want more than 0", c, v)
		}
		near(t, "stiff through its thickness", ContactSlip(c.b, c.s, c.t, 1e6*c.gRoll, c.gFlat)/v, 0, 1e-4)
		nearRel(t, "both moduli thrice", ContactSlip(c.b, c.s, c.t, 3*c.gRoll, 3*c.gFlat), v/3, 1e-12)
		nearRel(t, "lengths twice", ContactSlip(2*c.b, 2*c.s, 2*c.t, c.gRoll, c.gFlat), v, 1e-12)
		if narrow := ContactSlip(c.b/2, c.s, c.t, c.gRoll, c.gFlat); !(narrow > v) {
			t.Errorf("ContactSlip of %v = %g at half the width; want more than %g", c, narrow, v)
		}
	}
	// All of the skin glued: only shear through the thickness is left,
	// t/(3·Grz) over the width s = b.
	nearRel(t, "glued all over", ContactSlip(100, 100, 9, 60, 620), 9/(3*60.0*100), 1e-9)
}

// Two springs in line: 1/G' = 1/G + b·Σc/h, by hand 1/500 + 12·.005/75.
func TestSoften(t *testing.T) {
	t.Parallel()
	nearRel(t, "Soften(500, 12, 75, .002, .003)", Soften(500, 12, 75, 0.002, 0.003), 1/(0.002+0.0008), 1e-12)
	if got := Soften(500, 12, 75, 0, 0); math.Abs(got-500) > 1e-9 {
		t.Errorf("Soften without slip = %g; want 500", got)
	}
}
