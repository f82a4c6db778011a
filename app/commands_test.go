package app

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"flatwright/engine"
)

// run runs a command and returns everything it answers.
func run(t *testing.T, stdin string, args ...string) (status int, ok bool, out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	status, ok = Command(args, strings.NewReader(stdin), &o, &e)
	return status, ok, o.String(), e.String()
}

func encoded(t *testing.T, d engine.Design) string {
	t.Helper()
	data, err := engine.Encode(d)
	if err != nil {
		t.Fatalf("encode: %v", err)
	}
	return string(data)
}

func written(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// blockedDesign has a core of negative depth: nothing can be computed.
func blockedDesign() engine.Design {
	d := engine.Demo()
	d.CoreDepth = -5
	return d
}

// smallDesign is the demo with few ribs: its whole panel is soon computed.
func smallDesign() engine.Design {
	d := engine.Demo()
	d.Lengthwise.Count, d.Crosswise.Count = 3, 4
	d.Cases = d.Cases[:1]
	return d
}

func TestCommand(t *testing.T) {
	// Without a home folder nothing may be looked for there.
	t.Setenv("HOME", "")
	t.Setenv("XDG_CONFIG_HOME", "")
	t.Setenv("DISPLAY", "")
	good := written(t, "good.flatwright", encoded(t, smallDesign()))
	bad := written(t, "bad.flatwright", encoded(t, blockedDesign()))
	broken := written(t, "broken.flatwright", `{"format": 1, "length": `)
	newer := written(t, "newer.flatwright", `{"format": 99}`)
	out := t.TempDir()
	pdf := filepath.Join(out, "x.pdf")
	cut := t.TempDir()
	for _, tc := range []struct {
		name   string
		args   []string
		stdin  string
		status int
		out    string // must be in standard output
		errs   string // must be in standard error
	}{
		{"help", []string{"-help"}, "", 0, "flatwright packet FILE -o X.pdf", ""},
		{"help, two dashes", []string{"--help"}, "", 0, "flatwright report FILE", ""},
		{"report", []string{"report", good}, "", 0, engine.Demo().Name, ""},
		{"report in inches", []string{"report", "-lengths", "1/32", good}, "", 0, " in", ""},
		{"report from standard input", []string{"report", "-"}, encoded(t, smallDesign()), 0, engine.Demo().Name, ""},
		{"report, flag after the file", []string{"report", good, "-json"}, "", 0, `"governing"`, ""},
		{"report, flag before the file", []string{"report", "-json", good}, "", 0, `"governing"`, ""},
		{"report of nothing", []string{"report"}, "", 2, "", "needs the file"},
		{"report of two", []string{"report", good, bad}, "", 2, "", "takes one design"},
		{"report, unknown flag", []string{"report", good, "-xml"}, "", 2, "", "-xml"},
		{"report, unknown lengths", []string{"report", good, "-lengths", "cubits"}, "", 2, "", "1/64"},
		{"report, no such file", []string{"report", filepath.Join(out, "none")}, "", 2, "", "no such file"},
		{"report of a folder", []string{"report", out}, "", 2, "", "cannot be read"},
		{"report, broken file", []string{"report", broken}, "", 2, "", "line 1"},
		{"report, empty input", []string{"report", "-"}, "", 2, "", "cannot be read"},
		{"report, newer file", []string{"report", newer}, "", 2, "", "newer"},
		{"report, blocked", []string{"report", bad}, "", 1, "core", ""},
		{"report, blocked, JSON", []string{"report", bad, "-json"}, "", 1, `"severity"`, "coreDepth"},
		{"packet", []string{"packet", good, "-o", pdf}, "", 0, "", ""},
		{"packet on letter", []string{"packet", "-paper", "letter", "-o", pdf, good}, "", 0, "", ""},
		{"packet to standard output", []string{"packet", "-", "-o", "-"}, encoded(t, smallDesign()), 0, "%PDF-1", ""},
		{"packet to nowhere", []string{"packet", good}, "", 2, "", "needs -o"},
		{"packet, unknown paper", []string{"packet", good, "-o", pdf, "-paper", "vellum"}, "", 2, "", "vellum"},
		{"packet, no folder", []string{"packet", good, "-o", filepath.Join(out, "none", "x.pdf")}, "", 2, "", "cannot be written"},
		{"packet, blocked", []string{"packet", bad, "-o", filepath.Join(out, "blocked.pdf")}, "", 1, "", "coreDepth"},
		{"packet, broken file", []string{"packet", broken, "-o", pdf}, "", 2, "", "line 1"},
		{"parts", []string{"parts", good, "-o", filepath.Join(cut, "new", "files")}, "", 0, "sheet-1.dxf", "are assumed"},
		{"parts to nowhere", []string{"parts", good}, "", 2, "", "needs -o"},
		{"parts to standard output", []string{"parts", good, "-o", "-"}, "", 2, "", "folder"},
		{"parts, unknown paper", []string{"parts", good, "-o", cut, "-paper", "vellum"}, "", 2, "", "vellum"},
		{"parts into a file", []string{"parts", good, "-o", good}, "", 2, "", "cannot be written"},
		{"parts, blocked", []string{"parts", bad, "-o", filepath.Join(cut, "blocked")}, "", 1, "", "coreDepth"},
		{"parts, broken file", []string{"parts", broken, "-o", filepath.Join(cut, "broken")}, "", 2, "", "line 1"},
		{"parts of two", []string{"parts", good, bad, "-o", cut}, "", 2, "", "takes one design"},
		{"unknown option", []string{"-frobnicate"}, "", 2, "", "-frobnicate"},
		{"two designs", []string{good, bad}, "", 2, "", "One design at a time"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			status, ok, o, e := run(t, tc.stdin, tc.args...)
			if !ok || status != tc.status {
				t.Errorf("Command(%q) = %d, %v; want %d, true\n%s", tc.args, status, ok, tc.status, e)
			}
			if !strings.Contains(o, tc.out) {
				t.Errorf("standard output %.300q does not contain %q", o, tc.out)
			}
			if !strings.Contains(e, tc.errs) || (tc.errs == "" && e != "") {
				t.Errorf("standard error %q; want %q in it, and nothing if that is empty", e, tc.errs)
			}
			if tc.status != 0 && strings.Contains(strings.ToLower(e), "panic") {
				t.Errorf("standard error %q tells of a panic", e)
			}
		})
	}
	// Nothing is left of the exports that failed, not even a folder.
	if left, err := os.ReadDir(cut); err != nil || len(left) != 1 || left[0].Name() != "new" {
		t.Errorf("the folder for parts holds %v (%v); want new alone", left, err)
	}
	left, err := os.ReadDir(out)
	if err != nil || len(left) != 1 || left[0].Name() != "x.pdf" {
		t.Errorf("the folder holds %v (%v); want x.pdf alone: no half packet, no temporary file", left, err)
	}
}

func TestCommandLeavesTheWindowAlone(t *testing.T) {
	for _, args := range [][]string{nil, {"bench.flatwright"}} {
		if _, ok, out, errs := run(t, "", args...); ok || out+errs != "" {
			t.Errorf("Command(%q) took it for a command and answered %q", args, out+errs)
		}
	}
}

func TestReportJSONIsTheResult(t *testing.T) {
	_, _, out, _ := run(t, encoded(t, smallDesign()), "report", "-json", "-")
	var got struct {
		Format int           `json:"format"`
		Result engine.Result `json:"result"`
	}
	if err := json.Unmarshal([]byte(out), &got); err != nil {
		t.Fatalf("the report is not JSON: %v", err)
	}
	want, err := engine.Compute(t.Context(), smallDesign())
	if err != nil {
		t.Fatal(err)
	}
	if got.Result.Mass.Total != want.Mass.Total || len(got.Result.Cases) != len(want.Cases) {
		t.Errorf("mass %v kg, %d cases; want %v kg, %d", got.Result.Mass.Total, len(got.Result.Cases), want.Mass.Total, len(want.Cases))
	}
}

func TestPacketPapers(t *testing.T) {
	// Sizes in points: Letter 8.5 × 11 in, A4 210 × 297 mm (ISO 216).
	for _, tc := range []struct {
		args []string
		want string
	}{
		{[]string{"-paper", "letter"}, "612.00 792.00"},
		{[]string{"-paper", "a4"}, "595.28 841.89"},
		{nil, "595.28 841.89"},
		{[]string{"-lengths", "1/16"}, "612.00 792.00"},
	} {
		args := append([]string{"packet", "-", "-o", "-"}, tc.args...)
		_, _, out, errs := run(t, encoded(t, smallDesign()), args...)
		turned := strings.Join([]string{strings.Fields(tc.want)[1], strings.Fields(tc.want)[0]}, " ")
		if !strings.Contains(out, tc.want) && !strings.Contains(out, turned) {
			t.Errorf("%q: no page of %s pt\n%s", args, tc.want, errs)
		}
	}
}

func TestNoDisplay(t *testing.T) {
	for _, tc := range []struct {
		goos, display, want string
	}{
		{"linux", "", "DISPLAY is empty"},
		{"linux", "nonsense", "names no display"},
		{"linux", ":x", "names no display"},
		{"linux", ":-1", "names no display"},
		{"linux", ":99999", "names no display"},
		{"linux", ":59000", "No display answers"},
		{"freebsd", "", "DISPLAY is empty"},
		{"windows", "", ""},
		{"darwin", "", ""},
	} {
		got := NoDisplay(tc.goos, tc.display)
		if (got == "") != (tc.want == "") || !strings.Contains(got, tc.want) {
			t.Errorf("NoDisplay(%s, %q) = %q; want %q in it", tc.goos, tc.display, got, tc.want)
		}
	}
}

func TestDisplayAddress(t *testing.T) {
	for display, want := range map[string]string{
		":0":             "unix /tmp/.X11-unix/X0",
		":79.0":          "unix /tmp/.X11-unix/X79",
		"unix:1":         "unix /tmp/.X11-unix/X1",
		"localhost:10.0": "tcp localhost:6010",
		"bench:2":        "tcp bench:6002",
	} {
		network, address, ok := displayAddress(display)
		if got := network + " " + address; !ok || got != want {
			t.Errorf("displayAddress(%q) = %q, %v; want %q", display, got, ok, want)
		}
	}
}
