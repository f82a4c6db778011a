// Command compare prints the table of the whole-panel model against the solid
// model for every case of package verify. It needs ccx, the solver CalculiX.
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"regexp"
	"time"

	"flatwright/engine/verify"
)

func main() {
	plan := flag.Float64("plan", 45, "largest solid in plan at the start, mm")
	nodes := flag.Int("nodes", 60000, "no solid model beyond this many nodes")
	divide := flag.Int("divide", 4, "elements across a bay of the whole-panel model")
	only := flag.String("only", "", "only cases whose name matches this pattern")
	flag.Parse()
	pattern, err := regexp.Compile(*only)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
	fmt.Println("| case | sag, solids | sag, ours | worst difference | aim | solids moved | nodes | solids s | ours s | times |")
	fmt.Println("|---|---|---|---|---|---|---|---|---|---|")
	passed, failed := 0, 0
	for _, c := range verify.Cases() {
		if !pattern.MatchString(c.Name) {
			continue
		}
		r, err := verify.Compare(context.Background(), c, verify.Options{
			Divide: *divide, Start: verify.Mesh{Plan: *plan, Skin: 2, Core: 6, Rib: 1}, MaxNodes: *nodes, Settled: 0.01})
		if err != nil {
			fmt.Fprintf(os.Stderr, "%s: %v\n", c.Name, err)
			os.Exit(1)
		}
		i := 0
		for j, v := range r.Solid {
			if v > r.Solid[i] {
				i = j
			}
		}
		fmt.Printf("| %s | %.4f | %.4f | %.1f %% | %.0f %% | %.1f %% | %d | %.1f | %.3f | %.0f |\n", c.Name, r.Solid[i], r.Plate[i],
			100*r.Worst, 100*c.Limit(), 100*r.Moved, r.Nodes, r.SolidTime.Seconds(), r.PlateTime.Seconds(), float64(r.SolidTime)/float64(max(r.PlateTime, time.Microsecond)))
		if r.Worst <= c.Limit() {
			passed++
		} else {
			failed++
			for j, q := range r.Spots {
				fmt.Printf("    %6.0f %6.0f  %8.4f %8.4f  %.3f\n", q.X, q.Y, r.Solid[j], r.Plate[j], r.Plate[j]/r.Solid[j])
			}
		}
	}
	fmt.Printf("%d passed, %d failed\n", passed, failed)
	if failed > 0 {
		os.Exit(1)
	}
}
