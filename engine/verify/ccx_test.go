package verify

import (
	"context"
	"math"
	"os"
	"os/exec"
	"testing"
)

// The two smallest cases against the solids, every time the tests run. The
// solids are within 3 % of where they settle. The whole table is for ./dev verify.
func TestQuickCases(t *testing.T) {
	t.Parallel()
	if _, err := exec.LookPath("ccx"); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("the solver ccx is not here; the package calculix-ccx has it:", err)
		}
		t.Skip("the solver ccx is not here, so nothing was compared; ./dev test installs it (package calculix-ccx)")
	}
	for _, c := range Cases() {
		if !c.Quick {
			continue
		}
		r, err := Compare(context.Background(), c, Options{Divide: 4, Meshes: Meshes[1:2], MaxNodes: math.MaxInt})
		if err != nil {
			t.Fatalf("%s: %v", c.Name, err)
		}
		t.Logf("%s: sag %.1f %% off (%.1f %% with 0.02 mm forgiven), reactions %.1f %%, stress %.1f %%; %d nodes, %.1f s",
			c.Name, 100*r.Raw, 100*r.Sag, 100*r.Reaction, 100*r.Stress, r.Nodes, r.SolidTime.Seconds())
		if !r.Passes() {
			t.Errorf("%s misses: sag %.1f %% of %.0f %% at %.0f, %.0f; reactions %.1f %%, stress %.1f %%\nsolids %+v\nours   %+v",
				c.Name, 100*r.Sag, 100*c.Limit(), r.At.X, r.At.Y, 100*r.Reaction, 100*r.Stress, r.Solid, r.Plate)
		}
	}
}
