package app

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"flatwright/engine"
)

// Files of others stay, ours are written anew, and those of our sort that this
// design no longer has are named.
func TestPartsIntoAFolderInUse(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"notes.txt", "part-old.dxf", "sheet-9.svg", "parts.csv", "particle.svg"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte("before"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	status, _, out, errs := run(t, encoded(t, smallDesign()), "parts", "-", "-o", dir)
	if status != statusDone {
		t.Fatalf("status %d: %s", status, errs)
	}
	written := strings.Split(strings.TrimSpace(out), "\n")
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) != len(written)+4 {
		t.Errorf("%d files in the folder (%v), %d said to be written; want the four others beside them", len(entries), err, len(written))
	}
	for _, path := range written {
		if data, err := os.ReadFile(path); err != nil || len(data) == 0 || string(data) == "before" {
			t.Errorf("%s holds %.20q (%v)", path, data, err)
		}
	}
	for _, name := range []string{"notes.txt", "part-old.dxf", "sheet-9.svg", "particle.svg"} {
		if data, err := os.ReadFile(filepath.Join(dir, name)); err != nil || string(data) != "before" {
			t.Errorf("%s was touched: %.20q (%v)", name, data, err)
		}
		if told := strings.Contains(errs, filepath.Join(dir, name)); told != exportedLike(name) {
			t.Errorf("%s is told of: %t; want %t", name, told, exportedLike(name))
		}
	}
	if !slices.Contains(written, filepath.Join(dir, "part-l.dxf")) {
		t.Errorf("written are %q; want the lengthwise ribs among them", written)
	}
}

func TestCancelledPartsLeaveNothing(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new")
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	done, err := writeExports(ctx, dir, engine.Demo(), engine.ExportOptions{})
	if !errors.Is(err, context.Canceled) || len(done.written) > 0 || exists(dir) {
		t.Errorf("written %v, %v; want nothing, cancelled, and no folder", done.written, err)
	}
}
