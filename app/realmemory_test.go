//go:build realwindow

package app_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"flatwright/engine"
)

// What the program may take at its most, MB: the promise is 300, the toolkit's own
// window with one word in it takes 147 of that on this screen (measured). A report
// has no window.
const (
	windowMost = 300
	reportMost = 160
)

// most is the most memory that the process has held so far, MB.
func (p *program) most() int {
	p.t.Helper()
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", p.process.Process.Pid))
	if err != nil {
		p.t.Fatal(err)
	}
	_, after, _ := strings.Cut(string(status), "VmHWM:")
	var kilobytes int
	if _, err := fmt.Sscan(after, &kilobytes); err != nil {
		p.t.Fatalf("no VmHWM in the status: %v", err)
	}
	return kilobytes / 1024
}

// dragLoad drags the demo's load about in the plan, which lies in the middle of the
// screen's upper half; how high depends on what else is shown.
func (p *program) dragLoad() {
	p.t.Helper()
	move := func(x, y int) []string { return []string{"mousemove", fmt.Sprint(x), fmt.Sprint(y)} }
	for y := 300; y < 500 && !strings.Contains(p.title(), "(changed)"); y += 40 {
		act := append(move(880, y), "mousedown", "1")
		for i := range 60 {
			act = append(append(act, move(880-4*min(i, 60-i), y+min(i, 60-i))...), "sleep", "0.02")
		}
		if _, err := p.tool("xdotool", append(act, "mouseup", "1")...); err != nil {
			p.t.Fatalf("drag: %v", err)
		}
	}
	waitFor(p.t, "the title says that the load was dragged", func() bool { return strings.Contains(p.title(), "(changed)") })
}

// TestMemory holds what the program takes at its most: in the window on a large
// screen without a graphics card, after a drag and with everything refined, and for
// a report.
func TestMemory(t *testing.T) {
	binary, home := build(t), t.TempDir()
	file := filepath.Join(t.TempDir(), "bench.flatwright")
	if err := engine.WriteFile(file, engine.Demo()); err != nil {
		t.Fatal(err)
	}
	p := newScreen(t).start(binary, home, file)
	if _, err := p.tool("xdotool", "windowsize", p.window, "1920", "1080"); err != nil {
		t.Fatal(err)
	}
	p.dragLoad()
	p.still()
	if got := p.most(); got > windowMost {
		t.Errorf("the window held %d MB at its most; want %d", got, windowMost)
	} else {
		t.Logf("the window held %d MB at its most", got)
	}
	p.process.Process.Kill()
	<-p.ended

	report := exec.Command(binary, "report", file)
	if err := report.Run(); err != nil {
		t.Fatal(err)
	}
	if got := report.ProcessState.SysUsage().(*syscall.Rusage).Maxrss / 1024; got > reportMost {
		t.Errorf("a report took %d MB at its most; want %d", got, reportMost)
	}
}
