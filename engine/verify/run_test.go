package verify

import (
	"context"
	"crypto/sha256"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// A kept answer comes back, with its time, for its own deck only; a solver is not
// needed. Another deck asks the solver, which a context that is done stops.
func TestKeptAnswers(t *testing.T) {
	t.Parallel()
	dir, deck := t.TempDir(), []byte("*NODE\n1,0,0,0\n")
	path := filepath.Join(dir, fmt.Sprintf("%x.json", sha256.Sum256(deck)))
	if err := pack(path, []byte("an answer"), 1500*time.Millisecond); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	dat, took, err := solved(ctx, deck, dir)
	if err != nil || string(dat) != "an answer" || took != 1500*time.Millisecond {
		t.Errorf("kept answer = %q, %v, %v", dat, took, err)
	}
	if dat, _, err := solved(ctx, deck[1:], dir); err == nil {
		t.Errorf("another deck got %q", dat)
	}
	if err := os.WriteFile(path, []byte(`{"seconds":1,"answer":"AAAA"}`), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, _, err := solved(ctx, deck, dir); err == nil {
		t.Error("a broken answer was taken")
	}
}

// By hand: 1, 1.5, 1.75 halve their moves, so they go to 2; moves that do not
// fall go nowhere known.
func TestAhead(t *testing.T) {
	t.Parallel()
	if got := ahead([]float64{1, 1.5, 1.75}); math.Abs(got*1.75-2) > 1e-12 {
		t.Errorf("1, 1.5, 1.75 go to %.6f, want 2", got*1.75)
	}
	for _, s := range [][]float64{{1}, {1, 2}, {1, 2, 3.5}, {1, 1.5, 1.25}, {1, 1.5, 1.95}} {
		if got := ahead(s); got != 0 {
			t.Errorf("%v go to %.6f times the last, want 0, not known", s, got)
		}
	}
}

// Elements are short at a corner and grow away from it: by hand, with 2 mm at the
// corner and half a mm more for every mm, four elements to 2·(e²-1)·2 = 25.556 mm
// end where ln(1 + r/4)/0.5 is whole.
func TestLinesGrowFromCorners(t *testing.T) {
	t.Parallel()
	m := Mesh{Fine: 1, Corner: 2, Grow: 0.5, Most: 1000}
	end := 4 * (math.E*math.E - 1)
	got := m.split(0, end, 1, []float64{0})
	if len(got) != 4 {
		t.Fatalf("%d lines: %v, want 4", len(got), got)
	}
	for i, v := range got {
		if want := 4 * (math.Exp(0.5*float64(i+1)) - 1); math.Abs(v-want) > 0.01 {
			t.Errorf("line %d at %.3f, want %.3f", i, v, want)
		}
	}
	// No longer than the mesh says, and every corner and mark has its line.
	m = Mesh{Fine: 2, Corner: 2, Grow: 0.5, Most: 10, Rib: 2}
	lines := m.lines(200, []float64{50, 62}, []float64{10, 130.5}, []float64{56}, 12)
	for _, v := range []float64{0, 10, 50, 62, 130.5, 200} {
		if at := lines[nearest(lines, v)]; at != v {
			t.Errorf("no line at %.1f, the nearest at %.3f", v, at)
		}
	}
	for i := range len(lines) - 1 {
		if d := lines[i+1] - lines[i]; !(d > 0) || d > 10/m.Fine*1.1 {
			t.Errorf("lines %d and %d are %.3f mm apart", i, i+1, d)
		}
	}
}
