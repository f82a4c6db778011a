package nest_test

import (
	"context"
	"fmt"
	"os"
	"strings"
	"testing"

	"flatwright/engine/nest"
)

// barJob cuts pieces of the given lengths from bars of one length.
func barJob(bar float64, lengths []float64, counts []int) nest.Job {
	job := nest.Job{Stock: []nest.Sheet{{Name: "bar", Length: bar, Width: 90, Bar: true, Price: 1, Grain: nest.AlongLength}}}
	for i, l := range lengths {
		count := 1
		if counts != nil {
			count = counts[i]
		}
		job.Pieces = append(job.Pieces, nest.Piece{ID: fmt.Sprint(l), Length: l, Width: 90, Count: count, Grain: nest.AlongLength})
	}
	return job
}

func TestBarsOfTheBooks(t *testing.T) {
	t.Parallel()
	// reference.md H5: full enumeration of patterns and a whole-number programme
	// of another solver (scripts/cutstock_1d.py).
	for _, c := range []struct {
		name string
		job  nest.Job
		want int
	}{
		{"Chvátal, Linear Programming (1983), ch. 13", barJob(100, []float64{45, 36, 31, 14}, []int{97, 610, 395, 211}), 453},
		{"AMPL book, ch. 15", barJob(110, []float64{20, 45, 50, 55, 75}, []int{48, 35, 24, 10, 8}), 47},
		{"paper rolls", barJob(5600, []float64{1380, 1520, 1560, 1710, 1820, 1880, 1930, 2000, 2050, 2100, 2140, 2150, 2200},
			[]int{22, 25, 12, 14, 18, 18, 20, 10, 12, 14, 16, 18, 20}), 73},
	} {
		plan := solve(t, c.name, c.job)
		if len(plan.Sheets) != c.want || !plan.Bound.Proven {
			t.Errorf("%s: %d bars, bound %+v; want %d, proven", c.name, len(plan.Sheets), plan.Bound, c.want)
		}
	}
}

// With a kerf and trimmed ends, by hand: 2440 - 2·10 = 2420; three of 800 with
// two kerfs of 3 take 2406, and a fourth would not fit; nine take three bars.
// Two of 1208.5 with one kerf of 3 take 2420, a whole bar.
func TestBarsWithKerf(t *testing.T) {
	t.Parallel()
	job := barJob(2440, []float64{800, 1208.5}, []int{9, 4})
	job.Kerf, job.Stock[0].Trim = 3, 10
	plan := solve(t, "bars with kerf", job)
	if len(plan.Sheets) != 5 || !plan.Bound.Proven {
		t.Errorf("%d bars, bound %+v; want 3 + 2, proven", len(plan.Sheets), plan.Bound)
	}
	for _, c := range plan.Cuts {
		if !c.Across {
			t.Errorf("a cut along a bar: %+v", c)
		}
	}
}

// Two lengths of bars: by hand, five of 900 from bars of 2000 (two each, at 5)
// and 1000 (one each, at 3): 2 + 2 + 1 for 5 + 5 + 3 = 13.
func TestBarsOfTwoLengths(t *testing.T) {
	t.Parallel()
	job := barJob(2000, []float64{900}, []int{5})
	job.Stock[0].Price = 5
	job.Stock = append(job.Stock, nest.Sheet{Name: "short", Length: 1000, Width: 90, Bar: true, Price: 3, OnHand: 2, Grain: nest.AlongLength})
	if plan := solve(t, "two lengths", job); plan.Cost != 13 || !plan.Bound.Proven {
		t.Errorf("cost %g, bound %+v; want 13, proven", plan.Cost, plan.Bound)
	}
}

// packing is one instance of a file of one-dimensional bins.
type packing struct {
	name string
	job  nest.Job
	best int // best known
}

func packings(t testing.TB, file string) []packing {
	t.Helper()
	text, err := os.ReadFile("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	words := strings.NewReader(string(text))
	var count int
	var all []packing
	if _, err := fmt.Fscan(words, &count); err != nil {
		t.Fatal(err)
	}
	for range count {
		var p packing
		var size float64
		var parts int
		if _, err := fmt.Fscan(words, &p.name, &size, &parts, &p.best); err != nil {
			t.Fatal(err)
		}
		lengths := make([]float64, parts)
		for i := range lengths {
			if _, err := fmt.Fscan(words, &lengths[i]); err != nil {
				t.Fatal(err)
			}
		}
		p.job = barJob(size, lengths, nil)
		all = append(all, p)
	}
	return all
}

// Of each set two here, all in BenchmarkBins. The counts are the best known of
// the files; for triplets they are exact, as the parts fill the bins without a
// gap, and the two of u250 are certified (reference.md H5).
func TestBins(t *testing.T) {
	t.Parallel()
	for _, p := range append(packings(t, "u250.txt")[:rounds(2)], packings(t, "t60.txt")[2:4]...) {
		plan := solve(t, p.name, p.job)
		if len(plan.Sheets) != p.best || !plan.Bound.Proven {
			t.Errorf("%s: %d bins, bound %+v; want %d, proven", p.name, len(plan.Sheets), plan.Bound, p.best)
		}
	}
}

func BenchmarkBins(b *testing.B) {
	for _, set := range []string{"u250.txt", "t60.txt"} {
		b.Run(set, func(b *testing.B) {
			all := packings(b, set)
			hits, proven := 0, 0
			for b.Loop() {
				hits, proven = 0, 0
				for _, p := range all {
					plan, err := nest.Solve(context.Background(), p.job, nil)
					if err != nil {
						b.Fatal(err)
					}
					if len(plan.Sheets) <= p.best {
						hits++
					} else {
						b.Logf("%s: %d bins, best known %d, bound %d", p.name, len(plan.Sheets), p.best, plan.Bound.Sheets)
					}
					if plan.Bound.Proven {
						proven++
					}
				}
			}
			b.ReportMetric(float64(hits), "hits")
			b.ReportMetric(float64(proven), "proven")
			b.ReportMetric(b.Elapsed().Seconds()/float64(b.N*len(all)), "s/job")
		})
	}
}
