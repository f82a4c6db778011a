package app

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strings"
	"syscall"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine"
	"flatwright/engine/length"
)

// nameIn types a name and a folder into the dialog that asks for a place.
func (b *bench) nameIn(folder, name, act string) {
	b.Helper()
	entry, ok := b.desk.win.Canvas().Focused().(*answerEntry)
	if !ok {
		b.Fatalf("no name can be typed in:\n%s", b.dialogText())
	}
	b.desk.settings.Folder = folder
	entry.SetText(name)
	b.press(act)
}

func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

func TestSaveAndOpen(t *testing.T) {
	dir, folder := t.TempDir(), t.TempDir()
	b := openBench(t, dir)
	b.desk.settings.Folder = folder
	b.typeInto("length", "1234")
	b.choose("File", "Save")
	b.nameIn(folder, "shop bench", "Save")
	path := filepath.Join(folder, "shop bench.flatwright")
	now := b.session.Now()
	if now.Path != path || now.Dirty {
		t.Fatalf("after saving: path %q, dirty %v; want %q, clean", now.Path, now.Dirty, path)
	}
	if got := b.desk.win.Title(); got != "shop bench.flatwright - Flatwright" {
		t.Errorf("title %q", got)
	}
	if got := b.desk.store.settings().Recent; len(got) != 1 || got[0] != path {
		t.Errorf("recent files %v; want the one", got)
	}

	b.typeInto("length", "1300")
	b.choose("File", "Save")
	if d, err := engine.ReadFile(path); err != nil || d.Length != 1300 {
		t.Errorf("the file holds length %v (%v); want 1300", d.Length, err)
	}

	other := openBench(t, dir)
	other.desk.openPath(path)
	other.settle()
	got := other.session.Now()
	if got.Path != path || got.Dirty || !reflect.DeepEqual(got.Design, b.session.Now().Design) {
		t.Errorf("opened path %q, dirty %v, or another design than was saved", got.Path, got.Dirty)
	}
	if got.Stale || got.UndoLabel != "" {
		t.Errorf("stale %v, undo %q after opening; want a result and nothing to undo", got.Stale, got.UndoLabel)
	}
}

func TestSaveWarnsOfAnotherFile(t *testing.T) {
	folder := t.TempDir()
	b := openBench(t, t.TempDir())
	b.desk.settings.Folder = folder
	if err := os.WriteFile(filepath.Join(folder, "old.flatwright"), []byte("precious"), 0o600); err != nil {
		t.Fatal(err)
	}
	b.choose("File", "Save as")
	b.desk.win.Canvas().Focused().(*answerEntry).SetText("old")
	if got := b.dialogText(); !strings.Contains(got, "will be replaced") {
		t.Errorf("the dialog says %q; want a word about the file that is there", got)
	}
	b.press("Cancel")
	if data, err := os.ReadFile(filepath.Join(folder, "old.flatwright")); err != nil || string(data) != "precious" {
		t.Errorf("the old file holds %q (%v) though nothing was saved", data, err)
	}
}

func TestFailedSaveKeepsTheWork(t *testing.T) {
	b := openBench(t, t.TempDir())
	gone := filepath.Join(t.TempDir(), "gone", "x.flatwright")
	b.session.Open(engine.Demo(), gone)
	b.typeInto("length", "1500")
	b.choose("File", "Save")
	if got := b.dialogText(); !strings.Contains(got, "still open with all its changes") {
		t.Errorf("a failed save answers %q", got)
	}
	b.press("Close")
	if now := b.session.Now(); !now.Dirty || now.Design.Length != 1500 {
		t.Errorf("dirty %v, length %v after a failed save; want the work kept", now.Dirty, now.Design.Length)
	}
}

func TestUnreadableFileLeavesTheDesign(t *testing.T) {
	b := openBench(t, t.TempDir())
	before := b.session.Now()
	for name, want := range map[string]string{
		written(t, "broken.flatwright", `{"format": 1,`):   "not a design that can be read",
		written(t, "newer.flatwright", `{"format": 1000}`): "newer Flatwright",
		filepath.Join(t.TempDir(), "none.flatwright"):      "not there",
	} {
		b.desk.openPath(name)
		b.settle()
		if got := b.dialogText(); !strings.Contains(got, want) || !strings.Contains(got, "What was open still is") {
			t.Errorf("opening %s answers %q; want %q in it", filepath.Base(name), got, want)
		}
		b.press("Close")
	}
	if now := b.session.Now(); now.Revision != before.Revision || now.Path != before.Path {
		t.Error("a file that cannot be read changed what is open")
	}
}

func TestMissingRecentFileIsForgotten(t *testing.T) {
	b := openBench(t, t.TempDir())
	gone := filepath.Join(t.TempDir(), "gone.flatwright")
	b.desk.keep(func(s *Settings) { s.remember(gone) })
	if len(b.view.menu.recentMenu.Items) != 1 {
		t.Fatalf("%d recent files in the menu; want 1", len(b.view.menu.recentMenu.Items))
	}
	b.view.menu.recentMenu.Items[0].Action()
	b.settle()
	b.press("Close")
	if got := b.desk.settings.Recent; len(got) != 0 {
		t.Errorf("recent files %v; want the missing one gone", got)
	}
}

func TestUnsavedQuestion(t *testing.T) {
	for _, tc := range []struct {
		answer string
		length float64 // shown afterwards: the dropped file's is 900
		kept   bool    // the edit is in the old file
	}{
		{"Go back", 1500, false},
		{"Do not save", 900, false},
		{"Save", 900, true},
	} {
		t.Run(tc.answer, func(t *testing.T) {
			folder := t.TempDir()
			b := openBench(t, t.TempDir())
			mine, other := filepath.Join(folder, "mine.flatwright"), filepath.Join(folder, "other.flatwright")
			dropped := engine.Demo()
			dropped.Length = 900
			for path, d := range map[string]engine.Design{mine: engine.Demo(), other: dropped} {
				if err := engine.WriteFile(path, d); err != nil {
					t.Fatal(err)
				}
			}
			b.desk.openPath(mine)
			b.settle()
			b.typeInto("length", "1500")
			b.desk.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI(other)})
			if got := b.dialogText(); !strings.Contains(got, "mine.flatwright") {
				t.Fatalf("the question is %q; want the file's name in it", got)
			}
			b.press(tc.answer)
			if got := b.session.Now().Design.Length; got != tc.length {
				t.Errorf("length %v after %q; want %v", got, tc.answer, tc.length)
			}
			d, err := engine.ReadFile(mine)
			if err != nil || (d.Length == 1500) != tc.kept {
				t.Errorf("the file holds length %v (%v); want the edit in it: %v", d.Length, err, tc.kept)
			}
		})
	}
}

func TestCloseAsks(t *testing.T) {
	b := openBench(t, t.TempDir())
	closed := false
	b.desk.win.SetOnClosed(func() { closed = true })
	b.typeInto("length", "1500")
	b.choose("File", "Quit")
	if closed {
		t.Fatal("closed without a question")
	}
	b.press("Go back")
	b.choose("File", "Quit")
	b.press("Do not save")
	if !closed {
		t.Error("still open after \"Do not save\"")
	}
}

func TestAutosave(t *testing.T) {
	dir, folder := t.TempDir(), t.TempDir()
	b := openBench(t, dir)
	b.desk.settings.Folder = folder
	aside := b.desk.auto.path()
	b.ring()
	if exists(aside) {
		t.Error("an untouched demo was put aside")
	}
	b.typeInto("length", "1500")
	if exists(aside) {
		t.Error("put aside before the hands came to rest")
	}
	b.session.Edit("width", "width", func(d *engine.Design) { d.Width = 700 })
	b.settle()
	waiting := 0
	for _, timer := range b.timers {
		if !timer.stopped {
			waiting++
			if timer.wait != 2*time.Second {
				t.Errorf("a timer of %v; want 2 s", timer.wait)
			}
		}
	}
	if waiting != 1 {
		t.Errorf("%d timers wait; want 1", waiting)
	}
	b.ring()
	if d, err := engine.ReadFile(aside); err != nil || d.Length != 1500 || d.Width != 700 {
		t.Fatalf("put aside: %v × %v (%v); want 1500 × 700", d.Length, d.Width, err)
	}
	b.choose("File", "Save")
	b.nameIn(folder, "x", "Save")
	if exists(aside) || exists(aside+originSuffix) {
		t.Error("the design is still put aside after it was saved")
	}
	b.typeInto("length", "1600")
	b.ring()
	b.choose("File", "Quit")
	b.press("Do not save")
	b.ring()
	if exists(aside) {
		t.Error("what the person gave up on closing is still put aside")
	}
}

// TestAutosaveHelper is no test of its own: it is the program that
// TestRecoveryAfterKill kills.
func TestAutosaveHelper(t *testing.T) {
	dir := os.Getenv("FLATWRIGHT_TEST_AUTOSAVE")
	if dir == "" {
		return
	}
	s := NewSession(direct, engine.Estimate)
	a := &autosave{session: s, store: store{dir: dir}, pid: os.Getpid(), after: func(_ time.Duration, f func()) func() {
		f()
		return func() {}
	}}
	s.Open(engine.Demo(), filepath.Join(dir, "mine.flatwright"))
	a.watch()
	s.Edit("length", "length", func(d *engine.Design) { d.Length = 1777 })
	waitIdle(t, s)
	fmt.Println("ready")
	select {} // until killed
}

func TestRecoveryAfterKill(t *testing.T) {
	dir := t.TempDir()
	program := exec.Command(os.Args[0], "-test.run=^TestAutosaveHelper$")
	program.Env = append(os.Environ(), "FLATWRIGHT_TEST_AUTOSAVE="+dir)
	out, err := program.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := program.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	for lines.Scan() && lines.Text() != "ready" {
	}
	pid := program.Process.Pid
	if found := (store{dir: dir}).findLost(0, running); len(found) != 0 {
		t.Errorf("%d designs offered while their program still runs", len(found))
	}
	if err := program.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	if err := program.Wait(); err == nil {
		t.Fatal("the killed program ended well")
	}
	if running(pid) {
		t.Fatalf("process %d counts as running after it was killed", pid)
	}

	b := openBench(t, dir)
	b.desk.offerLost(b.desk.store.findLost(os.Getpid(), running))
	if got := b.dialogText(); !strings.Contains(got, "mine.flatwright") {
		t.Fatalf("the offer is %q; want the file's name in it", got)
	}
	b.press("Bring it back")
	now := b.session.Now()
	if now.Design.Length != 1777 || !now.Dirty || now.Path != filepath.Join(dir, "mine.flatwright") {
		t.Errorf("brought back length %v, dirty %v, path %q; want 1777, dirty, its own file", now.Design.Length, now.Dirty, now.Path)
	}
	left := b.desk.store.findLost(0, func(int) bool { return false })
	if len(left) != 1 || left[0].path != b.desk.auto.path() {
		t.Errorf("put aside now: %+v; want it under this program's number alone", left)
	}
}

func TestLostWorkCanBeThrownAway(t *testing.T) {
	dir := t.TempDir()
	s := store{dir: dir}
	a := &autosave{store: s, pid: 4711}
	if err := a.put(Snapshot{Design: engine.Demo()}); err != nil {
		t.Fatal(err)
	}
	b := openBench(t, dir)
	b.desk.offerLost(s.findLost(os.Getpid(), func(int) bool { return false }))
	b.press("Throw it away")
	if left := s.findLost(0, func(int) bool { return false }); len(left) != 0 {
		t.Errorf("%d designs still put aside", len(left))
	}
}

func TestLostWorkThatCannotBeReadStays(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "autosave-4711.flatwright")
	if err := os.WriteFile(path, []byte("half a desi"), 0o600); err != nil {
		t.Fatal(err)
	}
	b := openBench(t, dir)
	b.desk.offerLost(b.desk.store.findLost(os.Getpid(), func(int) bool { return false }))
	b.press("Bring it back")
	if got := b.dialogText(); !strings.Contains(got, "left alone") {
		t.Errorf("the answer is %q; want that the file was left alone", got)
	}
	if !exists(path) {
		t.Error("the file is gone")
	}
}

func TestSettings(t *testing.T) {
	s := store{dir: filepath.Join(t.TempDir(), "new", "folder")}
	want := Settings{Appearance: alwaysDark, Lengths: length.Format{Imperial: true, Denominator: 32}, Paper: letterPaper}
	for i := range 12 {
		want.remember(filepath.Join("f", fmt.Sprint(i)))
	}
	want.remember(filepath.Join("f", "7"))
	if got := want.Recent; len(got) != maxRecent || got[0] != filepath.Join("f", "7") || got[1] != filepath.Join("f", "11") {
		t.Errorf("recent files %v; want 8, the last one used first and once", got)
	}
	if err := s.keep(want); err != nil {
		t.Fatal(err)
	}
	if got := s.settings(); !reflect.DeepEqual(got, want) {
		t.Errorf("settings %+v; want %+v", got, want)
	}
	for _, damaged := range []string{"", "{", "[]", `{"recent": 3}`} {
		if err := os.WriteFile(s.settingsFile(), []byte(damaged), 0o600); err != nil {
			t.Fatal(err)
		}
		if got := s.settings(); !reflect.DeepEqual(got, Settings{Appearance: followSystem}) {
			t.Errorf("settings of %q = %+v; want the first ones", damaged, got)
		}
	}
	nowhere := store{}
	if err := nowhere.keep(want); err != nil {
		t.Errorf("without a folder, keep says %v; want nothing", err)
	}
}

func TestReplaceFileIsWholeOrNot(t *testing.T) {
	path := written(t, "x", "old")
	fault := errors.New("no more")
	err := replaceFile(path, func(w io.Writer) error {
		if _, err := w.Write([]byte("half")); err != nil {
			t.Fatal(err)
		}
		return fault
	})
	if !errors.Is(err, fault) {
		t.Errorf("err %v; want %v", err, fault)
	}
	entries, _ := os.ReadDir(filepath.Dir(path))
	if data, _ := os.ReadFile(path); string(data) != "old" || len(entries) != 1 {
		t.Errorf("file %q, %d entries; want the old one alone", data, len(entries))
	}
}

func TestCrashReport(t *testing.T) {
	s := store{dir: t.TempDir()}
	path := s.crash("a fault", []byte("main.go:12"), time.Date(2026, 1, 2, 3, 4, 5, 0, time.UTC))
	data, err := os.ReadFile(path)
	if err != nil || !strings.Contains(string(data), "a fault") || !strings.Contains(string(data), "main.go:12") {
		t.Errorf("report %q (%v); want the fault and its place", data, err)
	}
	if got := (store{}).crash("a fault", nil, time.Now()); got != "" {
		t.Errorf("without a folder the report is at %q", got)
	}
}

func TestRemedy(t *testing.T) {
	for _, tc := range []struct {
		err  error
		want string
	}{
		{fmt.Errorf("x: %w", fs.ErrNotExist), "not there"},
		{fmt.Errorf("x: %w", fs.ErrPermission), "protected"},
		{fmt.Errorf("x: %w", syscall.ENOSPC), "disk is full"},
		{fmt.Errorf("x: %w", syscall.EROFS), "protected"},
		{fmt.Errorf("x: %w", &engine.FileError{Line: 3, Column: 7, Reason: "a number was expected"}), "line 3, column 7: a number was expected"},
		{fmt.Errorf("x: %w", &engine.FileError{Err: engine.ErrNewerFormat}), "newer Flatwright"},
		{fmt.Errorf("x: %w", &engine.FileError{Err: engine.ErrTooLarge}), "larger"},
		{fmt.Errorf("%w: boom", ErrCrash), "report"},
		{errors.New("anything"), "another place"},
	} {
		got := explain("It failed.", "Nothing was lost.", tc.err)
		if !strings.Contains(got.advice, tc.want) || !strings.HasPrefix(got.advice, "Nothing was lost. ") || got.details != tc.err.Error() {
			t.Errorf("explain(%v) = %+v; want %q in the advice", tc.err, got, tc.want)
		}
	}
}

func TestPlaceDialogPath(t *testing.T) {
	for name, want := range map[string]string{
		"bench":            "bench.pdf",
		" bench ":          "bench.pdf",
		"bench.pdf":        "bench.pdf",
		"bench.PDF":        "bench.PDF",
		"bench v1.2":       "bench v1.2.pdf",
		"":                 "",
		"..":               "",
		"a/b":              "",
		`a\b`:              "",
		"Werkbank für Öle": "Werkbank für Öle.pdf",
	} {
		p := &placeDialog{suffix: ".pdf", folder: "f", name: newAnswerEntry("", nil)}
		p.name.Text = name
		if want != "" {
			want = filepath.Join("f", want)
		}
		if got := p.path(); got != want {
			t.Errorf("path of %q = %q; want %q", name, got, want)
		}
	}
}

func TestPlainName(t *testing.T) {
	for name, want := range map[string]string{
		"Shop bench":             "Shop bench",
		"5/8: \"big\" <top>":     "5-8- -big- -top-",
		"":                       "bench top",
		" .. ":                   "bench top",
		"a\nb":                   "a-b",
		strings.Repeat("ö", 200): strings.Repeat("ö", 80),
	} {
		if got := plainName(name); got != want {
			t.Errorf("plainName(%q) = %q; want %q", name, got, want)
		}
	}
}

func TestExportPacket(t *testing.T) {
	folder := t.TempDir()
	b := openBench(t, t.TempDir())
	b.desk.settings.Folder = folder
	b.choose("File", "Export packet")
	for _, o := range b.dialog() {
		if radio, ok := o.(*widget.RadioGroup); ok {
			radio.SetSelected("Letter")
		}
	}
	b.nameIn(folder, "my packet", "Export")
	path := filepath.Join(folder, "my packet.pdf")
	data, err := os.ReadFile(path)
	if err != nil || !strings.HasPrefix(string(data), "%PDF-") {
		t.Fatalf("the packet is %.20q (%v)", data, err)
	}
	if got := b.dialogText(); !strings.Contains(got, "Packet written to "+path) || !strings.Contains(got, "[Open folder]") {
		t.Errorf("the answer is %q", got)
	}
	if got := b.desk.store.settings().Paper; got != letterPaper {
		t.Errorf("remembered paper %q; want letter", got)
	}
	b.press("Close")
}

func TestCancelledExportLeavesNothing(t *testing.T) {
	folder := t.TempDir()
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	err := writePacket(ctx, filepath.Join(folder, "x.pdf"), engine.Demo(), engine.PacketOptions{Paper: a4Paper})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("err %v; want cancelled", err)
	}
	if entries, err := os.ReadDir(folder); err != nil || len(entries) != 0 {
		t.Errorf("the folder holds %v (%v) after cancelling", entries, err)
	}
	b := openBench(t, t.TempDir())
	b.desk.exported(filepath.Join(folder, "x.pdf"), err)
	if b.dialog() != nil {
		t.Errorf("what the person cancelled is told as trouble:\n%s", b.dialogText())
	}
}

func TestRescue(t *testing.T) {
	dir := t.TempDir()
	b := openBench(t, dir)
	var told strings.Builder
	if status := b.desk.rescue(&told, "a fault", []byte("window.go:7")); status == 0 {
		t.Error("a fault ends with status 0")
	}
	if exists(b.desk.auto.path()) {
		t.Error("an unchanged design was put aside")
	}
	b.typeInto("length", "1500")
	b.desk.rescue(&told, "a fault", []byte("window.go:7"))
	if d, err := engine.ReadFile(b.desk.auto.path()); err != nil || d.Length != 1500 {
		t.Errorf("put aside: length %v (%v); want 1500", d.Length, err)
	}
	reports, err := filepath.Glob(filepath.Join(dir, "crash-*.txt"))
	if err != nil || len(reports) == 0 {
		t.Errorf("crash reports %v (%v); want one", reports, err)
	}
	if !strings.Contains(told.String(), "a fault") || !strings.Contains(told.String(), "next start") {
		t.Errorf("told %q; want the fault and what became of the work", told.String())
	}
}

func TestFileDialogsOpen(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.desk.settings.Folder = t.TempDir()
	b.choose("File", "Open")
	if b.dialog() == nil {
		t.Error("File > Open shows nothing")
	}
	b.desk.win.Canvas().Overlays().Remove(b.desk.win.Canvas().Overlays().Top())
	b.choose("File", "Save as")
	before := len(b.desk.win.Canvas().Overlays().List())
	for _, o := range b.dialog() {
		if button, ok := o.(*widget.Button); ok && button.Text == "Change…" {
			test.Tap(button)
		}
	}
	if after := len(b.desk.win.Canvas().Overlays().List()); after != before+1 {
		t.Errorf("%d dialogs after asking for another folder; want %d", after, before+1)
	}
}

// Commands wait while a question is open.
func TestCommandsWaitForTheDialog(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.typeInto("length", "1500")
	b.choose("Help", "About")
	b.choose("Edit", "Undo")
	b.choose("File", "Save")
	if got := b.session.Now().Design.Length; got != 1500 {
		t.Errorf("length %v: undone behind a dialog", got)
	}
	if got := len(b.desk.win.Canvas().Overlays().List()); got != 1 {
		t.Errorf("%d dialogs on top of each other; want 1", got)
	}
}
