package plate

import (
	"context"
	"fmt"
	"runtime"
	"testing"
)

// benchPanels are the 1800 × 750 mm top with 11 × 5 ribs on three meshes, and
// the same with twice the ribs both ways.
func benchPanels(b *testing.B, f func(b *testing.B, p *Panel)) {
	for _, times := range []int{1, 2} {
		for _, n := range []int{1, 2, 4} {
			p := demoPanel(n)
			if times == 2 {
				if n == 4 {
					continue // as many unknowns as nobody waits for
				}
				p.Along, p.Across = doubled(p.Along), doubled(p.Across)
			}
			b.Run(fmt.Sprintf("%dx%d/divide%d", len(p.Across), len(p.Along), n), func(b *testing.B) { f(b, p) })
		}
	}
}

// doubled returns twice the ribs over the same length.
func doubled(ribs []Rib) []Rib {
	n := 2 * len(ribs)
	first, last := ribs[0].At, ribs[len(ribs)-1].At
	out := make([]Rib, n)
	for i := range out {
		out[i] = ribs[0]
		out[i].At = first + (last-first)*float64(i)/float64(n-1)
	}
	return out
}

// BenchmarkPrepare assembles and factorizes.
func BenchmarkPrepare(b *testing.B) {
	benchPanels(b, func(b *testing.B, p *Panel) {
		b.ReportAllocs()
		for b.Loop() {
			m, err := Prepare(context.Background(), p)
			if err != nil {
				b.Fatal(err)
			}
			n, band := m.Size()
			b.ReportMetric(float64(n), "unknowns")
			b.ReportMetric(float64(band), "band")
		}
	})
}

// BenchmarkAssemble is the part of Prepare without the factorization.
func BenchmarkAssemble(b *testing.B) {
	benchPanels(b, func(b *testing.B, p *Panel) {
		for b.Loop() {
			runtime.KeepAlive(assemble(context.Background(), p))
		}
	})
}

// BenchmarkSolve is one more load on a prepared panel while nothing lifts.
func BenchmarkSolve(b *testing.B) {
	benchPanels(b, func(b *testing.B, p *Panel) {
		solveBench(b, glued(p), []Press{{P: 490, X: 900, Y: 375, SX: 300, SY: 300}})
	})
}

// BenchmarkSolveLifting is the same with pads that lift at their inner ends:
// every pass factorizes again.
func BenchmarkSolveLifting(b *testing.B) {
	benchPanels(b, func(b *testing.B, p *Panel) {
		solveBench(b, p, []Press{{P: 490, X: 900, Y: 375, SX: 300, SY: 300}})
	})
}

func solveBench(b *testing.B, p *Panel, loads []Press) {
	m, err := Prepare(context.Background(), p)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := m.Solve(context.Background(), loads); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkPrepareOnBeams is the 11 × 5 top on four legs joined by aprons on all
// sides, the dearest case: those across the length widen the band.
func BenchmarkPrepareOnBeams(b *testing.B) {
	for _, n := range []int{1, 2, 4} {
		for _, on := range []bool{false, true} {
			p := demoPanel(n)
			if on {
				p.Beams = []Beam{apron(true, 40, 80, 1720, 0, 1), apron(true, 710, 80, 1720, 0, 1), apron(false, 40, 80, 670, 0, 1), apron(false, 1760, 80, 670, 0, 1)}
			}
			b.Run(fmt.Sprintf("divide%d/%v", n, on), func(b *testing.B) {
				for b.Loop() {
					m, err := Prepare(context.Background(), p)
					if err != nil {
						b.Fatal(err)
					}
					_, band := m.Size()
					b.ReportMetric(float64(band), "band")
				}
			})
		}
	}
}
