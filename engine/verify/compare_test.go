package verify

import (
	"math"
	"strings"
	"testing"

	"flatwright/engine"
	"flatwright/engine/plate"
)

// At least sixteen different designs, all of them ones that the form takes,
// each with a bay to compare stresses in.
func TestCasesAreDesigns(t *testing.T) {
	t.Parallel()
	names, quick := map[string]bool{}, 0
	for _, c := range append(Cases(), Large()...) {
		names[c.Name] = true
		if c.Quick {
			quick++
		}
		for _, p := range engine.Validate(c.Design, c.Design.Material, engine.Catalogue().Glue) {
			if p.Severity == engine.Blocking {
				t.Errorf("%s: %v", c.Name, p)
			}
		}
		if len(c.bays()) == 0 {
			t.Errorf("%s: no bay to compare stresses in", c.Name)
		}
		for _, s := range c.Seams {
			for _, p := range c.panel(1).Pads {
				if at, half := p.X, p.SX/2; !s.AlongX && math.Abs(s.At-at) < half {
					t.Errorf("%s: the seam lies over a pad", c.Name)
				}
				if at, half := p.Y, p.SY/2; s.AlongX && math.Abs(s.At-at) < half {
					t.Errorf("%s: the seam lies over a pad", c.Name)
				}
			}
		}
	}
	if len(names) < 16 || quick != 2 {
		t.Errorf("%d different cases, %d of them quick; want 16 and more, 2", len(names), quick)
	}
}

// By hand: 0.5 off and 0.02 forgiven of a largest 4 is 0.12.
func TestWorst(t *testing.T) {
	t.Parallel()
	a, b := []float64{1, 3.5, -2}, []float64{1.1, 4, -2}
	if d := worst(a, b, 0.02); math.Abs(d.share-0.12) > 1e-12 || d.at != 1 {
		t.Errorf("worst = %v, want 0.12 at 1", d)
	}
	if d := worst(a, b, 0.5); d.share != 0 {
		t.Errorf("all forgiven: %v", d)
	}
}

// Each aim alone can fail a case, and an answer that is no number does.
func TestPasses(t *testing.T) {
	t.Parallel()
	for _, r := range []struct {
		row  Row
		want bool
	}{
		{Row{Sag: 0.029, Reaction: 0.019, Stress: 0.149}, true},
		{Row{Sag: 0.031}, false},
		{Row{Sag: 0.031, Case: Case{Extreme: true}}, true},
		{Row{Sag: 0.061, Case: Case{Extreme: true}}, false},
		{Row{Reaction: 0.021}, false},
		{Row{Stress: 0.151}, false},
		{Row{Sag: math.NaN()}, false},
	} {
		if got := r.row.Passes(); got != r.want {
			t.Errorf("%+v passes: %v", r.row, got)
		}
	}
}

// wideBays is the case whose bays reach 100 mm and more from their middle.
func wideBays(t *testing.T) Case {
	for _, c := range Cases() {
		if c.Name == "wide bays" {
			return c
		}
	}
	t.Fatal("no case has wide bays")
	return Case{}
}

// A polynomial that the cells can tell exactly comes back exactly: membrane
// force 3 + x·y + y² and moment x² over cells of two sizes, skin 6 mm thick, so
// σ = N/6 ± M/6.
func TestStressAtTheMiddle(t *testing.T) {
	t.Parallel()
	c := wideBays(t)
	at := c.bays()[0]
	var cells []plate.SkinStress
	for _, dx := range []float64{-60, -20, 15, 40, 400} {
		for _, dy := range []float64{-50, -10, 10, 70} {
			x, y := dx/10, dy/10
			cells = append(cells, plate.SkinStress{X: at.X + dx, Y: at.Y + dy, NX: 3 + x*y + y*y, NY: 2, FX: 6 + x*x, FY: -1})
		}
	}
	got := c.stressAt(cells, 6, at)
	for q, want := range [4]float64{3.0/6 + 1, 2.0/6 - 1.0/6, 3.0/6 - 1, 2.0/6 + 1.0/6} {
		if math.Abs(got[q]-want) > 1e-9 {
			t.Errorf("stress %d = %.6f, want %.6f", q, got[q], want)
		}
	}
}

// The solver prints uz in the fourth column and σxx, σyy in the third and
// fourth of eight.
func TestRead(t *testing.T) {
	t.Parallel()
	text := `
 displacements (vx,vy,vz) for set SPOTS and time  0.1000000E+01

      1041 -1.036E-03 -6.394E-04 -1.187E-02

 stresses (elem, integ.pnt.,sxx,syy,szz,sxy,sxz,syz) for set PROBES and time  0.1000000E+01

       513   8 -1.5E-01 -4.0E-02  1.0E-03 -9.5E-04  2.1E-03  1.9E-03
`
	r, err := read(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	if len(r.up) != 1 || r.up[1041] != -0.01187 || len(r.stress) != 1 || r.stress[513][7] != [2]float64{-0.15, -0.04} {
		t.Errorf("read %v %v", r.up, r.stress[513])
	}
	for _, broken := range []string{
		strings.Replace(text, "-4.0E-02", "-x.0E-02", 1),
		strings.Replace(text, "-1.187E-02", "***", 1),
		strings.Replace(text, "513   8", "513   9", 1),
	} {
		if _, err := read(strings.NewReader(broken)); err == nil {
			t.Errorf("%q was taken", broken)
		}
	}
}

// A field that runs straight through the thickness is carried on to the faces:
// σ = 1 + z/10 along x, 2 along y, z from the middle of each skin's outer layer.
func TestStressesReachTheFaces(t *testing.T) {
	t.Parallel()
	c := Cases()[0]
	s := built(c)
	r := printed{stress: map[int]*[8][2]float64{}}
	for i := range s.bricks {
		b := &s.bricks[i]
		if bay, _ := s.probed(b); bay < 0 {
			continue
		}
		mid, half := (s.zs[b.k]+s.zs[b.k+1])/2, (s.zs[b.k+1]-s.zs[b.k])/2
		v := new([8][2]float64)
		for p := range v {
			z := mid - half/math.Sqrt(3)
			if p >= 4 {
				z = mid + half/math.Sqrt(3)
			}
			v[p] = [2]float64{1 + z/10, 2}
		}
		r.stress[i+1] = v
	}
	got, err := s.stresses(r)
	if err != nil {
		t.Fatal(err)
	}
	d := c.Design
	for bay := range got {
		for face, z := range [4]float64{d.TotalDepth(), d.TotalDepth() - d.TopSkin.Thickness, d.BottomSkin.Thickness, 0} {
			if math.Abs(got[bay][2*face]-1-z/10) > 1e-9 || math.Abs(got[bay][2*face+1]-2) > 1e-9 {
				t.Errorf("bay %d face %d: %.4f, %.4f; want %.4f, 2", bay, face, got[bay][2*face], got[bay][2*face+1], 1+z/10)
			}
		}
	}
	if _, err := s.stresses(printed{}); err == nil {
		t.Error("an answer without stresses was taken")
	}
}

// The estimate decides whether a mesh is tried, so it is near the truth.
func TestEstimate(t *testing.T) {
	t.Parallel()
	for _, c := range Cases() {
		if c.Glued {
			continue // fewer nodes
		}
		s := built(c)
		c.Same = Symmetry{}
		if got := estimate(c, coarse); !near(float64(got), float64(len(s.nodes)), 0.1) {
			t.Errorf("%s: estimated %d nodes, there are %d", c.Name, got, len(s.nodes))
		}
	}
}

// Glued laps leave a rib all of its own stiffness, and only the laps change.
func TestGluedIsStiffer(t *testing.T) {
	t.Parallel()
	for _, c := range Cases() {
		if !c.Glued {
			continue
		}
		open := c.with(false).panel(1)
		glued := c.panel(1)
		for i, r := range glued.Along {
			if o := open.Along[i]; r.Own != 1 || !(o.Own < 1) || !(r.G > o.G) || r.E != o.E {
				t.Errorf("rib %d glued %+v, open %+v", i, r, o)
			}
		}
		return
	}
	t.Error("no case has glued laps")
}
