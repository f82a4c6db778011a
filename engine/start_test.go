package engine

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"
)

func TestStartIsSensible(t *testing.T) {
	t.Parallel()
	for _, use := range []Use{AssemblyTable, Workbench, OutfeedTable, WallFolding, TrestleTop, ""} {
		for _, length := range []float64{300, 500, 900, 1400, 2000, 2600, 3000} {
			for _, width := range []float64{300, 450, 700, 1200, 2000, 3000} {
				d := Start(use, length, width)
				name := fmt.Sprintf("%q %g × %g", use, length, width)
				if problems := problemsOf(d); (Result{Problems: problems}).Blocked() {
					t.Errorf("%s is blocked: %v", name, problems)
					continue
				}
				mo, m := modelOf(d, true)
				c := mo.caseResult(&d.Cases[0])
				if d.Length != length || d.Width != width || d.Use != use || !(c.Sag > 0) || len(mo.margins(&d, &m, false)) == 0 || !(d.Limits.Sag > 0) {
					t.Errorf("%s: %+v, sag %g", name, d, c.Sag)
				}
				ys, xs := d.RibPlaces()
				for i, places := range [][]float64{ys, xs} {
					for j := 1; j < len(places); j++ {
						// About 170 and 180 mm apart; more only where the ribs run out.
						if pitch := places[j] - places[j-1]; pitch > 230 || pitch < 90 {
							t.Errorf("%s: ribs %d are %.0f mm apart", name, i, pitch)
						}
					}
				}
			}
		}
		// Whole results of ordinary sizes.
		for _, size := range [][2]float64{{300, 300}, {1500, 700}, {3000, 3000}} {
			r := compute(t, Start(use, size[0], size[1]))
			sound(t, "result", r)
		}
	}
}

// A fresh panel stands up to its own load, margins and all, by the whole panel.
func TestStartHolds(t *testing.T) {
	t.Parallel()
	for _, use := range []Use{AssemblyTable, Workbench, OutfeedTable, WallFolding, TrestleTop} {
		for _, size := range [][2]float64{{450, 300}, {1600, 700}, {2600, 1200}} {
			r := refined(t, Start(use, size[0], size[1]), Interactive)
			if len(r.Margins) == 0 || !(r.Margins[0].Value >= 1) {
				t.Errorf("%s %v: %+v; want 1 and more", use, size, r.Margins[:min(1, len(r.Margins))])
			}
		}
	}
}

// A fresh top on trestles is not tipped by somebody who leans on its end, and
// its trestles stand as far in as that allows, at most a fifth of the length.
func TestStartOnTrestles(t *testing.T) {
	t.Parallel()
	for _, length := range []float64{300, 900, 1600, 2400, 3000} {
		for _, width := range []float64{300, 700, 1500, 3000} {
			d := Start(TrestleTop, length, width)
			mo, _ := modelOf(d, true)
			for _, m := range d.tipping(mo.weight) {
				if !(m.Value >= 1) {
					t.Errorf("%g × %g: tipping %.2f with trestles %g in", length, width, m.Value, d.Supports.EndInset)
				}
			}
			if d.Supports.EndInset >= length/5-1 {
				continue
			}
			d.Supports.EndInset++
			if m := d.tipping(mo.weight); len(m) == 0 || m[0].Value >= 1 {
				t.Errorf("%g × %g: the trestles could stand further in: %v", length, width, m)
			}
		}
	}
}

func TestDemo(t *testing.T) {
	t.Parallel()
	d := Demo()
	r := compute(t, d)
	for _, p := range r.Problems {
		if p.Severity != Advice {
			t.Errorf("the demo is told %q", p.Text)
		}
	}
	if len(r.Cases) < 2 || len(r.Margins) == 0 {
		t.Error("the demo has nothing to show")
	}
	// The file as it lies in resources is what saving it again would write.
	file, err := os.ReadFile(filepath.Join("..", "resources", "demo", "assembly-table.flatwright"))
	if err != nil {
		t.Fatal(err)
	}
	again, err := Encode(d)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(again, file) {
		t.Error("the demo's file is not as saving it would write it")
	}
}
