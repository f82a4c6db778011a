package plate

import (
	"context"
	"math"
	"testing"
)

// The shares' strain energies add up to half the work of the loads (Clapeyron).
func TestEnergiesAddUp(t *testing.T) {
	t.Parallel()
	p := demoPanel(2)
	p.Rims = []Rim{{Front, Web{B: 15, E: 10000, EUp: 500, G: 700, GRoll: 60, Own: 1}}}
	p.Fills = []Fill{{X0: 12, X1: 184, Y0: 12, Y1: 190, Ex: 9000, Ey: 400, EUp: 400, G: 600, Gz: 60}}
	p.Pads = append(p.Pads, Pad{X: 300, Y: 375, SX: 40, SY: 40, K: 10}, Pad{X: 1500, Y: 375, SX: 40, SY: 40, K: 10})
	p.Beams = []Beam{apron(true, 375, 320, 1480, len(p.Pads)-2, len(p.Pads)-1)}
	m, err := Prepare(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	loads := []Press{{P: 490, X: 700, Y: 300, SX: 300, SY: 200}, {P: 150, X: 1500, Y: 700, SX: 80, SY: 80}}
	s, err := m.Solve(context.Background(), loads)
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for h, e := range energyOf(t, s) {
		if !(e > 0) {
			t.Errorf("share %d has energy %g, want more than 0", h, e)
		}
		sum += e
	}
	if work := s.Work(loads); math.Abs(sum/work-1) > 1e-9 {
		t.Errorf("energies add up to %.12g, want the work %.12g", sum, work)
	}
}

// The slopes by one adjoint solution agree with solving again with a skin, the
// ribs' moduli and the bed a little stiffer (central differences), at a place
// away from the load; without lifting they add up to −1: everything stiffer by
// 1 % sags 1 % less.
func TestSlopesAgainstSolvingAgain(t *testing.T) {
	t.Parallel()
	const x, y = 500, 500
	down := func(change func(*Panel, float64), f float64) float64 {
		p := demoPanel(1)
		for i := range p.Pads {
			p.Pads[i].Glued = true
		}
		change(p, f)
		m, err := Prepare(context.Background(), p)
		if err != nil {
			t.Fatal(err)
		}
		s, err := m.Solve(context.Background(), []Press{{P: 490, X: 900, Y: 375, SX: 300, SY: 300}})
		if err != nil {
			t.Fatal(err)
		}
		return s.Sag(x, y)
	}
	p := demoPanel(1)
	for i := range p.Pads {
		p.Pads[i].Glued = true
	}
	m, err := Prepare(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	s, err := m.Solve(context.Background(), []Press{{P: 490, X: 900, Y: 375, SX: 300, SY: 300}})
	if err != nil {
		t.Fatal(err)
	}
	slopes := slopesOf(t, s, x, y)
	sum := 0.0
	for _, v := range slopes {
		sum += v
	}
	if math.Abs(sum+1) > 1e-6 {
		t.Errorf("slopes add up to %.9f, want −1", sum)
	}
	tests := []struct {
		name   string
		change func(*Panel, float64)
		want   float64
	}{
		{"bed", func(p *Panel, f float64) {
			for i := range p.Pads {
				p.Pads[i].K *= f
			}
		}, slopes[Pads]},
		{"lengthwise ribs along", func(p *Panel, f float64) {
			for i := range p.Along {
				p.Along[i].E *= f
			}
		}, slopes[AlongDirect]},
		{"top skin", func(p *Panel, f float64) {
			for _, v := range []*float64{&p.Top.Ex, &p.Top.Ey, &p.Top.EBendX, &p.Top.EBendY, &p.Top.G, &p.Top.GRoll} {
				*v *= f
			}
		}, slopes[TopMembrane] + slopes[TopBending]},
	}
	for _, tt := range tests {
		const h = 1e-3
		got := (math.Log(down(tt.change, 1+h)) - math.Log(down(tt.change, 1-h))) / (math.Log(1+h) - math.Log(1-h))
		if math.Abs(got-tt.want) > 1e-5 {
			t.Errorf("%s: solved again %.7f, adjoint %.7f", tt.name, got, tt.want)
		}
	}
}
