package engine

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"runtime"
	"strconv"
	"strings"
	"testing"
)

// The test binary, started again with these set, saves designs at that path
// until it is killed: by itself ahead of that step, or by its parent.
const (
	saveAt   = "FLATWRIGHT_TEST_SAVE_AT"
	killStep = "FLATWRIGHT_TEST_KILL_STEP"
)

func TestMain(m *testing.M) {
	if path := os.Getenv(saveAt); path != "" {
		saveUntilKilled(path, os.Getenv(killStep))
	}
	os.Exit(m.Run())
}

// saveUntilKilled saves the two designs of [twoFiles] in turn. It prints one
// byte after each, and never returns.
func saveUntilKilled(path, step string) {
	_, second := twoFiles()
	files := [][]byte{second}
	killAt := writeStep(-1)
	if step == "" {
		first, _ := twoFiles()
		files = append(files, first)
	} else {
		n, err := strconv.Atoi(step)
		if err != nil {
			panic(err)
		}
		killAt = writeStep(n)
	}
	for i := 0; ; i++ {
		err := writeWhole(path, files[i%len(files)], func(at writeStep) error {
			if at != killAt {
				return nil
			}
			self, err := os.FindProcess(os.Getpid())
			if err != nil {
				return err
			}
			return self.Kill()
		})
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(3)
		}
		if _, err := os.Stdout.Write([]byte{'.'}); err != nil {
			os.Exit(4)
		}
	}
}

// twoFiles returns two design files that differ in length and everywhere.
func twoFiles() (first, second []byte) {
	a, b := testTop(), testTop()
	a.Notes = strings.Repeat("the old design ", 3000)
	b.Notes = strings.Repeat("das neue Brett ", 9000)
	b.Length = 2000
	encode := func(d Design) []byte {
		data, err := Encode(d)
		if err != nil {
			panic(err)
		}
		return data
	}
	return encode(a), encode(b)
}

// folder returns the names in a folder.
func folder(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

func mustRead(t *testing.T, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func mustWrite(t *testing.T, path string, data []byte, mode fs.FileMode) {
	t.Helper()
	if err := os.WriteFile(path, data, mode); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, mode); err != nil {
		t.Fatal(err)
	}
}

func TestWriteFile(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	path := filepath.Join(dir, "Åsa's ½ top.flatwright")
	d := testTop()
	for range 3 { // new, then over itself
		d.Length++
		if err := WriteFile(path, d); err != nil {
			t.Fatal(err)
		}
		got, err := ReadFile(path)
		if err != nil || !reflect.DeepEqual(got, d) {
			t.Errorf("ReadFile after WriteFile = %+v, %v; want %+v", got, err, d)
		}
	}
	if names := folder(t, dir); len(names) != 1 {
		t.Errorf("the folder holds %q; want the design only", names)
	}
	old := mustRead(t, path)
	d.CoreDepth = 0 // a poor design is saved all the same
	if err := WriteFile(path, d); err != nil {
		t.Errorf("WriteFile of a poor design: %v", err)
	}
	mustWrite(t, path, old, 0o600)
	d.CoreDepth = math.NaN()
	var fault *FileError
	if err := WriteFile(path, d); !errors.As(err, &fault) || fault.Field != "coreDepth" {
		t.Errorf("WriteFile with NaN: %v; want a *FileError at coreDepth", err)
	}
	if !bytes.Equal(mustRead(t, path), old) {
		t.Error("a design that could not be written cost the old file")
	}
}

// TestWriteFailsAtEachStep lets every step of saving fail, over an old file
// and without one.
func TestWriteFailsAtEachStep(t *testing.T) {
	t.Parallel()
	old, fresh := twoFiles()
	failure := errors.New("the disk is full")
	for step := range writeSteps {
		for _, existed := range []bool{true, false} {
			dir := t.TempDir()
			path := filepath.Join(dir, "top.flatwright")
			if existed {
				mustWrite(t, path, old, 0o644)
			}
			err := writeWhole(path, fresh, func(at writeStep) error {
				if at == step {
					return failure
				}
				return nil
			})
			if !errors.Is(err, failure) || !strings.HasPrefix(err.Error(), "save design: ") {
				t.Errorf("step %d: error %v; want the failure, wrapped", step, err)
			}
			var want []string
			if existed || step == folderStep {
				want = []string{"top.flatwright"}
			}
			if names := folder(t, dir); !reflect.DeepEqual(names, want) {
				t.Errorf("step %d, existed %t: the folder holds %q; want %q", step, existed, names, want)
				continue
			}
			switch {
			case step == folderStep:
				if !bytes.Equal(mustRead(t, path), fresh) {
					t.Errorf("step %d: the file is not the new one", step)
				}
			case existed:
				if !bytes.Equal(mustRead(t, path), old) {
					t.Errorf("step %d: the old file is lost", step)
				}
			}
		}
	}
}

// save starts the test binary as a process that saves at path.
func save(t *testing.T, path, step string) (*exec.Cmd, io.Reader) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), saveAt+"="+path, killStep+"="+step)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	return cmd, out
}

// wasKilled waits for the process and fails the test unless it was killed: on
// Unix it then has no exit status, on Windows status 1.
func wasKilled(t *testing.T, cmd *exec.Cmd) {
	t.Helper()
	var exit *exec.ExitError
	if err := cmd.Wait(); !errors.As(err, &exit) {
		t.Fatalf("the saving process ended with %v; want it killed", err)
	}
	if code := exit.ExitCode(); code != -1 && code != 1 {
		t.Fatalf("the saving process ended with status %d; want it killed", code)
	}
}

// TestKilledAtEachStep kills a saving process ahead of every step.
func TestKilledAtEachStep(t *testing.T) {
	t.Parallel()
	old, fresh := twoFiles()
	for step := range writeSteps {
		dir := t.TempDir()
		path := filepath.Join(dir, "top.flatwright")
		mustWrite(t, path, old, 0o644)
		cmd, out := save(t, path, strconv.Itoa(int(step)))
		if written, err := io.ReadAll(out); err != nil || len(written) > 0 {
			t.Errorf("step %d: the process finished a save before it was killed: %q, %v", step, written, err)
		}
		wasKilled(t, cmd)
		want := old
		if step == folderStep {
			want = fresh
		}
		if !bytes.Equal(mustRead(t, path), want) {
			t.Errorf("killed ahead of step %d: the file is not whole, or the wrong one", step)
		}
		if err := WriteFile(path, testTop()); err != nil {
			t.Errorf("killed ahead of step %d: the next save fails: %v", step, err)
		}
	}
}

// TestKilledAnywhere kills a process that saves without pause at moments that
// nobody chose.
func TestKilledAnywhere(t *testing.T) {
	t.Parallel()
	first, second := twoFiles()
	path := filepath.Join(t.TempDir(), "top.flatwright")
	mustWrite(t, path, first, 0o644)
	for round := range 12 {
		cmd, out := save(t, path, "")
		if _, err := io.ReadFull(out, make([]byte, round+1)); err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		wasKilled(t, cmd)
		if got := mustRead(t, path); !bytes.Equal(got, first) && !bytes.Equal(got, second) {
			t.Fatalf("round %d: the file holds %d bytes, neither of the two designs", round, len(got))
		}
	}
}

func TestWriteFileKeepsPermissions(t *testing.T) {
	t.Parallel()
	if runtime.GOOS == "windows" {
		return // has no such permissions
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "top.flatwright")
	for _, mode := range []fs.FileMode{0o600, 0o664, 0o640, 0o755} {
		mustWrite(t, path, []byte("old"), mode)
		if err := WriteFile(path, testTop()); err != nil {
			t.Fatal(err)
		}
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		if info.Mode().Perm() != mode {
			t.Errorf("after saving over a file of mode %o the mode is %o", mode, info.Mode().Perm())
		}
	}
	// A new file has what any other new file has.
	plain, ours := filepath.Join(dir, "plain"), filepath.Join(dir, "ours")
	f, err := os.Create(plain)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(f.Close(), WriteFile(ours, testTop())); err != nil {
		t.Fatal(err)
	}
	a, errA := os.Stat(plain)
	b, errB := os.Stat(ours)
	if errA != nil || errB != nil || a.Mode() != b.Mode() {
		t.Errorf("a new design has mode %v, another new file %v", b.Mode(), a.Mode())
	}
}

func TestWriteFileRefuses(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	locked := filepath.Join(dir, "locked")
	mustWrite(t, locked, []byte("old"), 0o444)
	if err := WriteFile(locked, testTop()); !errors.Is(err, fs.ErrPermission) {
		t.Errorf("WriteFile over a write-protected file: %v; want fs.ErrPermission", err)
	}
	if string(mustRead(t, locked)) != "old" {
		t.Error("the write-protected file was changed")
	}
	if err := WriteFile(dir, testTop()); err == nil || !strings.Contains(err.Error(), "is not a file") {
		t.Errorf("WriteFile over a folder: %v; want a refusal", err)
	}
	if err := WriteFile(filepath.Join(dir, "none", "top"), testTop()); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("WriteFile in no folder: %v; want fs.ErrNotExist", err)
	}
	if names := folder(t, dir); !reflect.DeepEqual(names, []string{"locked"}) {
		t.Errorf("the folder holds %q; want what was there", names)
	}
}

func TestWriteFileFollowsLinks(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	target, link := filepath.Join(dir, "shelf", "top"), filepath.Join(dir, "link")
	if err := os.Mkdir(filepath.Dir(target), 0o755); err != nil {
		t.Fatal(err)
	}
	mustWrite(t, target, []byte("old"), 0o644)
	if err := os.Symlink(target, link); err != nil {
		if runtime.GOOS == "windows" {
			return // making links takes a right that few have there
		}
		t.Fatal(err)
	}
	if err := WriteFile(link, testTop()); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		t.Errorf("the link was replaced: %v, %v", info, err)
	}
	if d, err := ReadFile(target); err != nil || d.Length != 1800 {
		t.Errorf("the linked file holds length %g, %v; want 1800", d.Length, err)
	}
}
