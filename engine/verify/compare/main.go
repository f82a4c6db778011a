// Command compare prints the table of the whole-panel model against the solid
// model for every case of package verify. It needs ccx, the solver CalculiX,
// and exits with 1 if a case misses its aim.
package main

import (
	"context"
	"flag"
	"fmt"
	"math"
	"os"
	"regexp"
	"time"

	"flatwright/engine/verify"
)

func main() {
	nodes := flag.Int("nodes", 140000, "no finer solid model beyond this many nodes")
	keep := flag.String("keep", "", "directory that keeps the solver's answers, so that a run that was stopped goes on")
	large := flag.Bool("large", false, "tops of a bench's size instead, on meshes far from where they settle")
	divide := flag.Int("divide", 4, "elements across a bay of the whole-panel model")
	limit := flag.Duration("time", 3*time.Hour, "give up after this long")
	settled := flag.Float64("settled", 0.01, "refine the solids until they move by less than this share")
	only := flag.String("only", "", "only cases whose name matches this pattern")
	points := flag.Bool("points", false, "print every compared number under the row of its case")
	flag.Parse()
	pattern, err := regexp.Compile(*only)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
	ctx, stop := context.WithTimeout(context.Background(), *limit)
	defer stop()
	fmt.Println("| case | largest sag, solids mm | ours mm | sag off | beyond 0.02 mm | aim | reactions off | largest stress, solids MPa | stress off | solids moved: sag | stress | they go towards mm | ours moved: sag | nodes | solids s | ours s | times | |")
	fmt.Println("|---|---|---|---|---|---|---|---|---|---|---|---|---|---|---|---|---|---|")
	passed, missed := 0, 0
	cases := verify.Cases()
	if *large {
		cases = verify.Large()
	}
	for _, c := range cases {
		if !pattern.MatchString(c.Name) {
			continue
		}
		r, err := verify.Compare(ctx, c, verify.Options{
			Divide: *divide, Meshes: verify.Meshes, MaxNodes: *nodes, Settled: *settled, Keep: *keep})
		if err != nil {
			fmt.Fprintf(os.Stderr, "%s: %v\n", c.Name, err)
			os.Exit(1)
		}
		row(r)
		if *points {
			all(r)
		}
		if r.Passes() {
			passed++
		} else {
			missed++
		}
	}
	fmt.Printf("\n%d within their aims (sag as stated, reactions %.0f %%, stress %.0f %%), %d not.\n", passed, 100*verify.ReactionAim, 100*verify.StressAim, missed)
	if missed > 0 || passed == 0 {
		os.Exit(1)
	}
}

// row prints one line of the table.
func row(r verify.Row) {
	most := 0
	for j, v := range r.Solid.Down {
		if v > r.Solid.Down[most] {
			most = j
		}
	}
	verdict := "within"
	if !r.Passes() {
		verdict = "misses"
	}
	fmt.Printf("| %s | %.4f | %.4f | %s | %s | %.0f %% | %s | %.3f | %s | %s | %s | %s | %s | %d | %.1f | %.3f | %.0f | %s |\n", r.Case.Name, r.Solid.Down[most], r.Plate.Down[most],
		percent(r.Raw), percent(r.Sag), 100*r.Case.Limit(), percent(r.Reaction), r.Peak, percent(r.Stress), percent(r.Moved), percent(r.StressMoved), towards(r.Ahead*r.Solid.Down[most]), percent(r.OwnMoved), r.Nodes,
		r.SolidTime.Seconds(), r.PlateTime.Seconds(), float64(r.SolidTime)/float64(max(r.PlateTime, time.Microsecond)), verdict)
}

func towards(sag float64) string {
	if sag == 0 {
		return "not known"
	}
	return fmt.Sprintf("%.4f", sag)
}

func percent(share float64) string {
	if math.IsInf(share, 0) {
		return "not refined"
	}
	return fmt.Sprintf("%.1f %%", 100*share)
}

// all prints what was compared.
func all(r verify.Row) {
	for j, q := range r.Spots {
		fmt.Printf("    sag at %6.0f %6.0f  %8.4f %8.4f  %.3f\n", q.X, q.Y, r.Solid.Down[j], r.Plate.Down[j], r.Plate.Down[j]/r.Solid.Down[j])
	}
	for j, f := range r.Solid.Reactions {
		fmt.Printf("    reaction %d  %8.2f %8.2f\n", j, f, r.Plate.Reactions[j])
	}
	for j, b := range r.Solid.Stress {
		fmt.Printf("    stress %d  %7.3f\n              %7.3f\n", j, b, r.Plate.Stress[j])
	}
}
