//go:build realwindow

package app_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"flatwright/engine"
)

// patience is how long the program may take for anything it is asked; the
// machine may be busy.
const patience = 60 * time.Second

// screen is an X server in memory.
type screen struct {
	t       *testing.T
	display string
}

// newScreen starts an X server and lets it choose a free number.
func newScreen(t *testing.T) screen {
	t.Helper()
	read, write, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	// Without -noreset the server starts anew when its last client goes, and a
	// program that comes up at that moment finds no display.
	server := exec.Command("Xvfb", "-noreset", "-displayfd", "3", "-screen", "0", "1920x1080x24", "-nolisten", "tcp")
	server.ExtraFiles = []*os.File{write}
	if err := server.Start(); err != nil {
		t.Fatalf("start Xvfb: %v", err)
	}
	t.Cleanup(func() {
		server.Process.Kill()
		server.Wait()
	})
	write.Close()
	var number int
	if _, err := fmt.Fscan(read, &number); err != nil {
		t.Fatalf("Xvfb names no display: %v", err)
	}
	return screen{t, fmt.Sprintf(":%d", number)}
}

// tool runs a program on the screen and returns its output.
func (s screen) tool(name string, args ...string) (string, error) {
	command := exec.Command(name, args...)
	command.Env = append(os.Environ(), "DISPLAY="+s.display)
	out, err := command.Output()
	return strings.TrimSpace(string(out)), err
}

// waitFor asks until the answer is yes.
func waitFor(t *testing.T, what string, yes func() bool) {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	again := time.NewTicker(100 * time.Millisecond)
	defer again.Stop()
	for !yes() {
		select {
		case <-ctx.Done():
			t.Fatalf("%s: not within %v", what, patience)
		case <-again.C:
		}
	}
}

// program is the running Flatwright.
type program struct {
	screen
	process *exec.Cmd
	ended   chan error
	stderr  *bytes.Buffer
	window  string
}

// start runs the binary on file and waits for its window.
func (s screen) start(binary, home, file string) *program {
	s.t.Helper()
	p := &program{screen: s, ended: make(chan error, 1), stderr: &bytes.Buffer{}}
	if err := os.MkdirAll(filepath.Join(home, "cache"), 0o700); err != nil {
		s.t.Fatal(err)
	}
	p.process = exec.Command(binary, file)
	p.process.Env = append(environmentWithout("DISPLAY", "WAYLAND_DISPLAY", "HOME", "FYNE_SCALE", "FYNE_THEME"),
		"DISPLAY="+s.display, "HOME="+home, "XDG_CONFIG_HOME="+filepath.Join(home, "config"),
		"XDG_CACHE_HOME="+filepath.Join(home, "cache"), "FYNE_SCALE=1", "FYNE_THEME=light")
	p.process.Stderr = p.stderr
	if err := p.process.Start(); err != nil {
		s.t.Fatal(err)
	}
	go func() { p.ended <- p.process.Wait() }()
	s.t.Cleanup(func() { p.process.Process.Kill() })
	s.t.Cleanup(p.keepPicture)
	waitFor(s.t, "the window comes up", func() bool {
		found, err := s.tool("xdotool", "search", "--onlyvisible", "--name", "Flatwright$")
		p.window, _, _ = strings.Cut(found, "\n")
		return err == nil && p.window != ""
	})
	for _, act := range [][]string{{"windowmove", p.window, "0", "0"}, {"windowsize", p.window, "1366", "768"}, {"windowfocus", p.window}} {
		if _, err := s.tool("xdotool", act...); err != nil {
			s.t.Fatalf("xdotool %v: %v", act, err)
		}
	}
	name := filepath.Base(file)
	waitFor(s.t, "the title names the file", func() bool { return strings.HasPrefix(p.title(), name) })
	waitFor(s.t, "the tiles show figures", func() bool { return ink(p.still()) > 500 })
	return p
}

// keepPicture keeps a picture of the screen for whoever looks into a failure.
func (p *program) keepPicture() {
	if p.t.Failed() {
		p.t.Logf("the program said: %s", p.stderr)
	}
	folder := os.Getenv("FLATWRIGHT_PICTURES")
	if folder == "" || !p.t.Failed() {
		return
	}
	if _, err := p.tool("import", "-window", "root", filepath.Join(folder, p.t.Name()+".png")); err != nil {
		p.t.Logf("no picture of the screen: %v", err)
	}
}

func environmentWithout(names ...string) []string {
	var kept []string
	for _, pair := range os.Environ() {
		name, _, _ := strings.Cut(pair, "=")
		drop := false
		for _, n := range names {
			drop = drop || n == name
		}
		if !drop {
			kept = append(kept, pair)
		}
	}
	return kept
}

func (p *program) title() string {
	title, err := p.tool("xdotool", "getwindowname", p.window)
	if err != nil {
		return ""
	}
	return title
}

// keys presses keys one after the other.
func (p *program) keys(keys ...string) {
	p.t.Helper()
	if _, err := p.tool("xdotool", append([]string{"key", "--delay", "60"}, keys...)...); err != nil {
		p.t.Fatalf("press %v: %v", keys, err)
	}
}

// typed types text into the length field and waits until the design changed.
func (p *program) typed(text string) {
	p.t.Helper()
	p.keys("ctrl+shift+f") // to the form: the length, all of it selected
	if _, err := p.tool("xdotool", "type", "--delay", "60", text); err != nil {
		p.t.Fatalf("type %q: %v", text, err)
	}
	p.keys("Return")
	waitFor(p.t, "the title says that the design changed", func() bool { return strings.Contains(p.title(), "(changed)") })
}

// tiles is a picture of the sag tile: below the menu, at the left.
func (p *program) tiles() image.Image {
	p.t.Helper()
	data, err := p.tool("import", "-window", p.window, "-crop", "290x100+8+32", "+repage", "png:-")
	if err != nil {
		p.t.Fatalf("picture of the window: %v", err)
	}
	picture, err := png.Decode(strings.NewReader(data))
	if err != nil {
		p.t.Fatalf("picture of the window: %v", err)
	}
	return picture
}

// calm is how many looks in a row, 100 ms apart, must show the same for the
// figures to be the last: the program refines them at rest, which takes it a
// second or two.
const calm = 40

// still is a picture of the sag tile once nothing moves in it and the figures
// are refined.
func (p *program) still() image.Image {
	p.t.Helper()
	last, looks := p.tiles(), 0
	waitFor(p.t, "the tile stands still", func() bool {
		now := p.tiles()
		looks++
		if differing(last, now) > 0 {
			looks = 0
		}
		last = now
		return looks == calm
	})
	return last
}

// closeDialogs presses Escape until no dialog dims the tiles any more, which
// clear shows as they are without. One dialog may follow another, so the tiles
// have to stay clear for a while.
func (p *program) closeDialogs(clear image.Image) {
	p.t.Helper()
	looks := 0
	waitFor(p.t, "the dialogs are gone", func() bool {
		looks++
		if differing(clear, p.tiles()) > 0 {
			looks = 0
			p.keys("Escape")
		}
		return looks == 10
	})
}

// ink counts the dark dots of a picture in the light palette.
func ink(picture image.Image) (dark int) {
	b := picture.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if r, g, bl, _ := picture.At(x, y).RGBA(); r+g+bl < 3*0x8000 {
				dark++
			}
		}
	}
	return dark
}

// differing counts the dots in which two pictures differ.
func differing(a, b image.Image) (count int) {
	if a.Bounds() != b.Bounds() {
		return a.Bounds().Dx() * a.Bounds().Dy()
	}
	for y := a.Bounds().Min.Y; y < a.Bounds().Max.Y; y++ {
		for x := a.Bounds().Min.X; x < a.Bounds().Max.X; x++ {
			if a.At(x, y) != b.At(x, y) {
				count++
			}
		}
	}
	return count
}

// end waits for the program to end by itself.
func (p *program) end() {
	p.t.Helper()
	select {
	case err := <-p.ended:
		if err != nil {
			p.t.Errorf("the program ended with %v:\n%s", err, p.stderr)
		}
	case <-time.After(patience):
		p.t.Fatalf("the program does not end:\n%s", p.stderr)
	}
}

// sag is the largest sag that the report command computes of a file.
func sag(t *testing.T, binary, file string) float64 {
	t.Helper()
	out, err := exec.Command(binary, "report", "-json", file).Output()
	if err != nil {
		t.Fatalf("report: %v", err)
	}
	var report struct {
		Result struct {
			Governing int
			Cases     []struct{ Sag float64 }
		}
	}
	if err := json.Unmarshal(out, &report); err != nil || len(report.Result.Cases) == 0 {
		t.Fatalf("report of %d bytes: %v", len(out), err)
	}
	return report.Result.Cases[report.Result.Governing].Sag
}

func lengthIn(file string) float64 {
	d, err := engine.ReadFile(file)
	if err != nil {
		return -1
	}
	return d.Length
}

// built is the binary; it is built once for all tests.
var built = sync.OnceValues(func() (string, error) {
	binary := filepath.Join(scratch, "flatwright")
	command := exec.Command("go", "build", "-buildvcs=false", "-tags", "x11 migrated_fynedo", "-o", binary, ".")
	command.Dir = ".." // the program is the module's root
	out, err := command.CombinedOutput()
	if err != nil {
		err = fmt.Errorf("build: %w\n%s", err, out)
	}
	return binary, err
})

var scratch string

func TestMain(m *testing.M) {
	var err error
	if scratch, err = os.MkdirTemp("", "flatwright"); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	status := m.Run()
	os.RemoveAll(scratch)
	os.Exit(status)
}

func build(t *testing.T) string {
	t.Helper()
	binary, err := built()
	if err != nil {
		t.Fatal(err)
	}
	return binary
}

// TestRealWindow does the main job in the real window: it types a length and
// sees the sag change, saves, exports the packet, closes and reopens, and gets
// its work back after a kill.
func TestRealWindow(t *testing.T) {
	binary, home, folder := build(t), t.TempDir(), t.TempDir()
	file := filepath.Join(folder, "bench.flatwright")
	demo := engine.Demo()
	if err := engine.WriteFile(file, demo); err != nil {
		t.Fatal(err)
	}
	before := sag(t, binary, file)
	p := newScreen(t).start(binary, home, file)

	shown := p.still()
	p.typed("2345")
	waitFor(t, "the sag tile changes", func() bool { return differing(shown, p.tiles()) > 50 })
	if got := lengthIn(file); got != demo.Length {
		t.Errorf("the file holds length %v before it was saved; want %v", got, demo.Length)
	}
	p.keys("ctrl+s")
	waitFor(t, "the file holds the typed length", func() bool { return lengthIn(file) == 2345 })
	waitFor(t, "the title says that the design is saved", func() bool { return !strings.Contains(p.title(), "(changed)") })
	clear := p.still()
	if after := sag(t, binary, file); after < 1.2*before {
		t.Errorf("sag %v mm at 2345 mm, %v mm at %v mm; want clearly more", after, before, demo.Length)
	}

	p.keys("ctrl+z")
	waitFor(t, "undo brings the first figures back", func() bool { return differing(shown, p.tiles()) == 0 })
	p.keys("ctrl+y")
	waitFor(t, "redo brings the typed length back", func() bool {
		return !strings.Contains(p.title(), "(changed)") && differing(clear, p.tiles()) == 0
	})

	packet := filepath.Join(folder, "bench.pdf")
	p.keys("ctrl+p")
	p.keys("Return") // the proposed name
	waitFor(t, "the packet is there", func() bool {
		info, err := os.Stat(packet)
		return err == nil && info.Size() > 0
	})
	text, err := exec.Command("pdftotext", packet, "-").Output()
	if err != nil {
		t.Fatalf("read the packet: %v", err)
	}
	if !strings.Contains(string(text), "2345") {
		t.Error("the packet does not contain the typed length")
	}
	p.closeDialogs(clear)

	p.typed("1900")
	p.keys("ctrl+q")
	p.keys("Return") // "Save"
	p.end()
	if got := lengthIn(file); got != 1900 {
		t.Errorf("the file holds length %v after saving on the way out; want 1900", got)
	}
	last := sag(t, binary, file)

	p = p.screen.start(binary, home, file)
	reopened := p.still()
	if got := sag(t, binary, file); got != last {
		t.Errorf("opening the file changed its sag from %v to %v mm", last, got)
	}
	p.typed("2100")
	waitFor(t, "the changed design is put aside", func() bool {
		found, err := filepath.Glob(filepath.Join(home, "config", "flatwright", "autosave-*.flatwright"))
		return err == nil && len(found) == 1 && lengthIn(found[0]) == 2100
	})
	changed := p.still()
	if differing(reopened, changed) < 50 {
		t.Error("the sag tile is the same for two lengths")
	}
	p.process.Process.Kill()
	<-p.ended

	p = p.screen.start(binary, home, file)
	p.keys("Return") // "Bring it back"
	waitFor(t, "the unsaved work is back", func() bool { return strings.Contains(p.title(), "(changed)") })
	waitFor(t, "its figures are back", func() bool { return differing(changed, p.tiles()) == 0 })
	p.keys("ctrl+s")
	waitFor(t, "the recovered work is in the file", func() bool { return lengthIn(file) == 2100 })
	// Quitting before the program itself knows would bring up its question.
	waitFor(t, "the title says that it is saved", func() bool { return !strings.Contains(p.title(), "(changed)") })
	p.keys("ctrl+q")
	p.end()
	left, err := filepath.Glob(filepath.Join(home, "config", "flatwright", "autosave-*"))
	if err != nil || len(left) != 0 {
		t.Errorf("put aside after all was saved and closed: %v (%v)", left, err)
	}
}

// The buttons of the step in the act Build, in a window of 1366 by 768; they keep their
// places from step to step.
var (
	beginButton = [2]string{"376", "270"}
	doneButton  = [2]string{"484", "270"}
)

// click presses the mouse's button at a place of the window.
func (p *program) click(at [2]string) {
	p.t.Helper()
	if _, err := p.tool("xdotool", "mousemove", at[0], at[1], "click", "1"); err != nil {
		p.t.Fatalf("click at %v: %v", at, err)
	}
}

// logIn is what a saved design notes of its build steps.
func logIn(file string) []engine.StepLog {
	d, err := engine.ReadFile(file)
	if err != nil {
		return nil
	}
	return d.Log
}

// TestRealBuild goes through a complete build in the real window: every step is done by
// its buttons, glue is begun to be spread first; half way the program is closed and started again, and goes on
// at the step that it was at. All times are in the file and in the packet.
func TestRealBuild(t *testing.T) {
	binary, home, folder := build(t), t.TempDir(), t.TempDir()
	file := filepath.Join(folder, "bench.flatwright")
	demo := engine.Demo()
	if err := engine.WriteFile(file, demo); err != nil {
		t.Fatal(err)
	}
	r, err := engine.Estimate(t.Context(), demo)
	if err != nil {
		t.Fatal(err)
	}
	steps := r.Build.Steps
	p := newScreen(t).start(binary, home, file)
	p.keys("ctrl+F4")
	for i, s := range steps {
		if i == len(steps)/2 {
			p.keys("ctrl+q")
			p.end()
			p = p.screen.start(binary, home, file)
			p.keys("ctrl+F4")
		}
		noted := func(what string, button [2]string, yes func(engine.StepLog) bool) {
			p.click(button)
			waitFor(t, s.Name+" "+what, func() bool {
				p.keys("ctrl+s")
				log := logIn(file)
				return len(log) == i+1 && log[i].Step == s.Key && yes(log[i])
			})
			waitFor(t, "the title says that it is saved", func() bool { return !strings.Contains(p.title(), "(changed)") })
		}
		if s.Spreads { // the others are done without a word of their beginning
			noted("is begun", beginButton, func(l engine.StepLog) bool { return l.Began != "" && l.Ended == "" })
		}
		noted("is done", doneButton, func(l engine.StepLog) bool { return l.Ended != "" })
	}
	p.keys("ctrl+q")
	p.end()
	packet := filepath.Join(folder, "bench.pdf")
	if out, err := exec.Command(binary, "packet", file, "-o", packet).CombinedOutput(); err != nil {
		t.Fatalf("packet: %v\n%s", err, out)
	}
	text, err := exec.Command("pdftotext", packet, "-").Output()
	if err != nil || !strings.Contains(string(text), "The steps as they went") {
		t.Errorf("the packet does not tell how the steps went: %v", err)
	}
}

// TestNoDisplay starts the program where no window can be opened.
func TestNoDisplay(t *testing.T) {
	binary := build(t)
	for _, display := range []string{"", ":59000"} {
		command := exec.Command(binary)
		command.Env = append(environmentWithout("DISPLAY", "WAYLAND_DISPLAY"), "DISPLAY="+display)
		var stderr bytes.Buffer
		command.Stderr = &stderr
		err := command.Run()
		if command.ProcessState.ExitCode() != 2 || !strings.Contains(stderr.String(), "isplay") || strings.Contains(stderr.String(), "goroutine") {
			t.Errorf("DISPLAY=%q: %v, %q; want status 2 and a sentence", display, err, stderr.String())
		}
	}
}
