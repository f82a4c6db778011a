package app

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"

	"flatwright/engine"
)

// exportedNames are the patterns of the names of the files that an export may
// write, one for each part or sheet.
var exportedNames = []string{"part-*.svg", "part-*.dxf", "sheet-*.svg", "sheet-*.dxf"}

// exportedFiles is what became of an export: names in its folder.
type exportedFiles struct {
	written []string
	older   []string // of the same sort, from before, and not of this design
	told    []string // what is not in the files
}

// writeExports writes the files of d into the folder dir, which it makes if need
// be, each whole or not at all. Everything is worked out before the first is
// written. It removes nothing. With an error it tells what was written before.
func writeExports(ctx context.Context, dir string, d engine.Design, o engine.ExportOptions) (done exportedFiles, err error) {
	r, err := engine.Estimate(ctx, d)
	if err != nil {
		return done, err
	}
	if r.Blocked() {
		return done, errBlocked{blocking(r)}
	}
	export, err := engine.Exports(ctx, d, o)
	if err != nil {
		return done, err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return done, fmt.Errorf("make the folder: %w", err)
	}
	ours := map[string]bool{}
	for _, f := range export.Files {
		if err := ctx.Err(); err != nil {
			return done, err
		}
		ours[f.Name] = true
		if err := replaceFile(filepath.Join(dir, f.Name), func(w io.Writer) error {
			_, err := w.Write(f.Data)
			return err
		}); err != nil {
			return done, err
		}
		done.written = append(done.written, f.Name)
	}
	for _, text := range export.Told {
		done.told = append(done.told, engine.InUnits(text, o.Lengths))
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return done, err
	}
	for _, entry := range entries {
		if !ours[entry.Name()] && exportedLike(entry.Name()) {
			done.older = append(done.older, entry.Name())
		}
	}
	return done, nil
}

// exportedLike reports whether an export may have written a file of that name.
func exportedLike(name string) bool {
	for _, pattern := range exportedNames {
		if fits, err := filepath.Match(pattern, name); err == nil && fits {
			return true
		}
	}
	return false
}

func (s streams) parts(args []string) int {
	t, ok := s.target(args, targetWords{command: "parts", needs: "the name of the folder to write into", prints: "prints labels"})
	if !ok {
		return statusUsage
	}
	design, err := s.read(t.file)
	if err != nil {
		return s.failed("The design cannot be read", err)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	options := engine.ExportOptions{Paper: paperOr(t.paper, t.lengths), Lengths: t.lengths}
	done, err := writeExports(ctx, t.out, design, options)
	for _, name := range done.written {
		fmt.Fprintln(s.out, filepath.Join(t.out, name))
	}
	for _, text := range done.told {
		fmt.Fprintln(s.err, text)
	}
	for _, name := range done.older {
		fmt.Fprintf(s.err, "Left as it was, and not of this design any more: %s\n", filepath.Join(t.out, name))
	}
	return s.answered("The parts cannot be written", err, t.lengths)
}
