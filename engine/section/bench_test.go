package section_test

import (
	"math"
	"testing"

	"flatwright/engine/section"
)

// TestNothingAllocates, as the package says. It does not run in parallel:
// other tests' memory would be counted.
func TestNothingAllocates(t *testing.T) {
	p := bench()
	s := section.Span{A: 40, B: 1560, Length: 1600}
	load := section.Press{P: 800, X1: 700, X2: 780}
	plate := section.Plate{Dx: 1.7e8, Dy: 0.9e8, H: 0.6e8, Sx: 3100, Sy: 5200}
	patch := section.Rect{P: 800, X: 400, Y: 300, SizeX: 50, SizeY: 50}
	sum := 0.0
	n := testing.AllocsPerRun(20, func() {
		c := p.Connect()
		r := p.At(math.Pi/1520, c)
		soft := p.Soften(s, c)
		b, sh := s.Sag(load, 730, r.EI, p.GA())
		sum += b + sh + soft.Sag(s, load, 730) + s.Moment(load, 730) + s.Shear(load, 730) + s.TwistSag(load, 90, 730, 90, 4e10)
		sum += plate.Sag(1500, 700, patch, 410, 310)
	})
	if n != 0 {
		t.Errorf("%g allocations a run; want none", n)
	}
	if !(sum > 0) {
		t.Errorf("sum of the sags = %g; want it positive", sum)
	}
}

func BenchmarkConnect(b *testing.B) {
	b.ReportAllocs()
	p := bench()
	for b.Loop() {
		p.Connect()
	}
}

func BenchmarkPanelAt(b *testing.B) {
	b.ReportAllocs()
	p := bench()
	c := p.Connect()
	for b.Loop() {
		p.At(math.Pi/1520, c)
	}
}

func BenchmarkSag(b *testing.B) {
	b.ReportAllocs()
	p := bench()
	s := section.Span{A: 40, B: 1560, Length: 1600}
	load := section.Press{P: 800, X1: 700, X2: 780}
	c := p.Connect()
	first := p.At(math.Pi/1520, c)
	soft := p.Soften(s, c)
	for b.Loop() {
		s.Sag(load, 730, first.EI, p.GA())
		soft.Sag(s, load, 730)
	}
}

func BenchmarkPlateSag(b *testing.B) {
	b.ReportAllocs()
	p := section.Plate{Dx: 1.7e8, Dy: 0.9e8, H: 0.6e8, Sx: 3100, Sy: 5200}
	patch := section.Rect{P: 800, X: 400, Y: 300, SizeX: 50, SizeY: 50}
	for b.Loop() {
		p.Sag(1500, 700, patch, 410, 310)
	}
}
