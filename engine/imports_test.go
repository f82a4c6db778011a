package engine_test

import (
	"fmt"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// module is the import path all our packages share.
const module = "flatwright"

// leafMayImport lists, for a leaf that needs it, the leaves it may import. A
// leaf missing here imports none: whoever wants another line argues for it.
var leafMayImport = map[string][]string{
	"pdf": {"draw"},
}

// breaches returns a sentence for every import of one Go source that its place
// does not allow. dir is the package's directory as a path in the module, with
// slashes: "engine", "engine/pdf", "resources".
//
// The rules: nothing in the engine knows the toolkit or the window; a leaf (a
// directory below engine) imports no package of ours except those
// [leafMayImport] names; resources is data, imports nothing of ours and may be
// imported by all.
func breaches(dir, file string, source []byte) ([]string, error) {
	parsed, err := parser.ParseFile(token.NewFileSet(), file, source, parser.ImportsOnly)
	if err != nil {
		return nil, err
	}
	var found []string
	for _, spec := range parsed.Imports {
		imported, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			return nil, err
		}
		if !mayImport(dir, imported) {
			found = append(found, fmt.Sprintf("%s/%s imports %s", dir, file, imported))
		}
	}
	return found, nil
}

// mayImport reports whether a package in dir may import the given path.
func mayImport(dir, imported string) bool {
	if within(imported, "fyne.io") {
		return false
	}
	if !within(imported, module) {
		return true
	}
	// An external test package (engine_test) imports the package it tests.
	if imported == module+"/"+dir {
		return true
	}
	if within(dir, "resources") {
		return within(imported, module+"/resources")
	}
	if within(imported, module+"/resources") {
		return true
	}
	// engine/verify is no leaf: it stands outside and compares the whole engine
	// with another solver.
	if dir == "engine" || within(dir, "engine/verify") {
		return within(imported, module+"/engine")
	}
	leaf := strings.TrimPrefix(dir, "engine/")
	other := strings.TrimPrefix(imported, module+"/engine/")
	return slices.Contains(leafMayImport[leaf], other)
}

// within reports whether p is root or lies below it.
func within(p, root string) bool {
	return p == root || strings.HasPrefix(p, root+"/")
}

// TestImports reads the files itself: a test that asked `go list` would be
// served from the test cache and stay green on a breach.
func TestImports(t *testing.T) {
	t.Parallel()
	for _, root := range []string{"engine", "resources"} {
		files := 0
		err := filepath.WalkDir(filepath.Join("..", root), func(name string, entry fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if entry.IsDir() || filepath.Ext(name) != ".go" {
				return nil
			}
			files++
			source, err := os.ReadFile(name)
			if err != nil {
				return err
			}
			dir := strings.TrimPrefix(filepath.ToSlash(filepath.Dir(name)), "../")
			found, err := breaches(dir, path.Base(filepath.ToSlash(name)), source)
			if err != nil {
				return err
			}
			for _, breach := range found {
				t.Error(breach)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		if files == 0 {
			t.Errorf("no Go file was found under %s; the walk is broken", root)
		}
	}
}

// TestImportsSeesBreaches plants each breach once, and each allowed neighbour
// of it, so that the test above cannot turn blind.
func TestImportsSeesBreaches(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name, dir, imported string
		breach              bool
	}{
		{"toolkit in engine", "engine", "fyne.io/fyne/v2", true},
		{"engine in verify", "engine/verify", "flatwright/engine", false},
		{"verify in its command", "engine/verify/compare", "flatwright/engine/verify", false},
		{"app in verify", "engine/verify", "flatwright/app", true},
		{"toolkit in verify's command", "engine/verify/compare", "fyne.io/fyne/v2", true},
		{"toolkit's sub-package in a leaf", "engine/draw", "fyne.io/fyne/v2/canvas", true},
		{"toolkit's other modules", "engine", "fyne.io/systray", true},
		{"app in engine", "engine", "flatwright/app", true},
		{"below app in engine", "engine", "flatwright/app/theme", true},
		{"widgets in engine", "engine", "flatwright/widgets", true},
		{"the program in engine", "engine", "flatwright", true},
		{"leaf in engine", "engine", "flatwright/engine/section", false},
		{"a name that only begins like app", "engine", "flatwright/engine/appendix", false},
		{"data in engine", "engine", "flatwright/resources", false},
		{"standard library", "engine", "fmt", false},
		{"numerics", "engine/plate", "gonum.org/v1/gonum/mat", false},

		{"app in a leaf", "engine/nest", "flatwright/app", true},
		{"engine in a leaf", "engine/catalog", "flatwright/engine", true},
		{"leaf in a leaf", "engine/section", "flatwright/engine/length", true},
		{"draw in pdf", "engine/pdf", "flatwright/engine/draw", false},
		{"pdf in draw", "engine/draw", "flatwright/engine/pdf", true},
		{"section in pdf", "engine/pdf", "flatwright/engine/section", true},
		{"data in a leaf", "engine/catalog", "flatwright/resources", false},
		{"a leaf's own external test", "engine/length", "flatwright/engine/length", false},
		{"a leaf nobody has written yet", "engine/tomorrow", "flatwright/engine/draw", true},

		{"engine in data", "resources", "flatwright/engine", true},
		{"toolkit in data", "resources", "fyne.io/fyne/v2", true},
		{"standard library in data", "resources", "embed", false},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			source := fmt.Sprintf("package p\n\nimport _ %q\n", test.imported)
			found, err := breaches(test.dir, "planted.go", []byte(source))
			if err != nil {
				t.Fatal(err)
			}
			if got := len(found) > 0; got != test.breach {
				t.Errorf("breaches(%s, import %q) = %q; want a breach: %t", test.dir, test.imported, found, test.breach)
			}
		})
	}

	if _, err := breaches("engine", "planted.go", []byte("package p\nimport (")); err == nil {
		t.Error("breaches of a file that does not parse = nil error; want one")
	}
}
