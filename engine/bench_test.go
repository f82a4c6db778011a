package engine

import (
	"context"
	"io"
	"testing"
)

// screened is what one candidate of a screening costs: the demo's panel under
// one load on rails, its materials looked up before.
func screened() (Design, materials) {
	d := Demo()
	d.Supports = Supports{Kind: RailsAcross, EndInset: 150, Bearing: 60}
	d.Cases = d.Cases[:1]
	return d, d.materials()
}

// TestScreeningDoesNotAllocate does not run in parallel: other tests' memory
// would be counted.
func TestScreeningDoesNotAllocate(t *testing.T) {
	d, m := screened()
	for _, harmonics := range []bool{false, true} {
		var sag, mass float64
		n := testing.AllocsPerRun(100, func() { sag, mass = d.quickWith(&m, harmonics) })
		if n != 0 {
			t.Errorf("harmonics %t: %g allocations a design; want none", harmonics, n)
		}
		r := compute(t, d)
		near(t, "mass", mass, r.Mass.Total, 1e-9)
		if harmonics {
			near(t, "sag", sag, r.Cases[0].Sag, 1e-12)
		} else if !(sag > 0.9*r.Cases[0].Sag) || !(sag < r.Cases[0].Sag) {
			t.Errorf("sag without harmonics %g; want a little under %g", sag, r.Cases[0].Sag)
		}
	}
}

func BenchmarkScreen(b *testing.B) {
	for name, harmonics := range map[string]bool{"plain": false, "harmonics": true} {
		b.Run(name, func(b *testing.B) {
			d, m := screened()
			b.ReportAllocs()
			for b.Loop() {
				d.quickWith(&m, harmonics)
			}
			b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "designs/s")
		})
	}
}

func BenchmarkCompute(b *testing.B) {
	d := Demo()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Compute(context.Background(), d); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPacket(b *testing.B) {
	d := Demo()
	r, err := Compute(context.Background(), d)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if err := WritePacket(context.Background(), io.Discard, d, r, PacketOptions{}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkRecompute is an edit of the 1800 × 750 mm top with 11 × 5 ribs, under
// one load case, on each mesh: nothing of it is known from before. Each starts
// from the estimate, which is a benchmark of its own.
func BenchmarkRecompute(b *testing.B) {
	d := assemblyTop()
	d.Cases = d.Cases[:1]
	edit := func() { d.CoreDepth += 0.001 }
	b.Run("estimate", func(b *testing.B) {
		for b.Loop() {
			edit()
			if _, err := Estimate(context.Background(), d); err != nil {
				b.Fatal(err)
			}
		}
	})
	for name, mesh := range map[string]Mesh{"interactive": Interactive, "normal": Normal, "refined": Refined} {
		b.Run(name, func(b *testing.B) {
			r, err := Estimate(context.Background(), d)
			if err != nil {
				b.Fatal(err)
			}
			b.ReportAllocs()
			for b.Loop() {
				edit()
				if _, err := Refine(context.Background(), d, r, mesh); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkDragged is what the window computes while a hand drags on the same top:
// a load from place to place, the panel known, and a dimension, nothing known.
func BenchmarkDragged(b *testing.B) {
	d := assemblyTop()
	d.Cases = d.Cases[:1]
	drag := func(b *testing.B, edit func(i int)) {
		b.ReportAllocs()
		for i := 0; b.Loop(); i++ {
			edit(i)
			r, err := Glance(context.Background(), d)
			if err == nil {
				_, err = Refine(context.Background(), d, r, Interactive)
			}
			if err != nil {
				b.Fatal(err)
			}
		}
	}
	b.Run("load", func(b *testing.B) {
		l := &d.Cases[0].Loads[0]
		x := l.X
		drag(b, func(i int) { l.X = x + float64(i%400)/2 })
	})
	d.CoreDepth += 1.0 / 3 // no depth that another benchmark has computed
	b.Run("dimension", func(b *testing.B) { drag(b, func(int) { d.CoreDepth += 0.001 }) })
}
