package app

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"time"

	"flatwright/engine"
)

// autosaveAfter is how long the hands rest before the design is put aside.
const autosaveAfter = 2 * time.Second

const autosavePrefix, autosaveSuffix, originSuffix = "autosave-", ".flatwright", ".origin"

// autosave puts a changed design aside while it is not in its file, so that it
// can be offered after a crash. Each running program has a file of its own,
// named by its process.
type autosave struct {
	session *Session
	store   store
	pid     int
	after   func(time.Duration, func()) (stop func()) // runs the function later, on the watchers' goroutine
	failed  func(error)                               // told once per run of failures

	stop    func() // the pending timer's, nil if none is
	waiting int    // revision the timer was set for
	failing bool

	file   sync.Mutex // held while the file is written or taken away
	closed bool
}

// watch starts putting designs aside.
func (a *autosave) watch() { a.session.Watch(a.show) }

func (a *autosave) show(snap Snapshot) {
	if !snap.Dirty {
		a.cancel()
		a.clear()
		return
	}
	if snap.Revision == a.waiting {
		return
	}
	a.cancel()
	a.waiting = snap.Revision
	a.stop = a.after(autosaveAfter, a.now)
}

func (a *autosave) cancel() {
	if a.stop != nil {
		a.stop()
	}
	a.stop, a.waiting = nil, 0
}

// now puts the present design aside in the background.
func (a *autosave) now() {
	snap := a.session.Now()
	if !snap.Dirty {
		return
	}
	a.session.Background(func(context.Context) error { return a.put(snap) }, func(err error) {
		if !a.session.Now().Dirty {
			a.clear()
		}
		if err != nil && !a.failing && a.failed != nil {
			a.failed(err)
		}
		a.failing = err != nil
	})
}

// path is where this program puts its design aside.
func (a *autosave) path() string {
	return filepath.Join(a.store.dir, autosavePrefix+strconv.Itoa(a.pid)+autosaveSuffix)
}

// put writes the design, and the path of its own file beside it.
func (a *autosave) put(snap Snapshot) error {
	a.file.Lock()
	defer a.file.Unlock()
	if a.closed || a.store.dir == "" {
		return nil
	}
	if err := a.store.write(a.path()+originSuffix, []byte(snap.Path)); err != nil {
		return fmt.Errorf("put the design aside: %w", err)
	}
	if err := engine.WriteFile(a.path(), snap.Design); err != nil {
		return fmt.Errorf("put the design aside: %w", err)
	}
	return nil
}

// clear takes the file away: the design is saved, or given up on purpose.
func (a *autosave) clear() {
	a.file.Lock()
	defer a.file.Unlock()
	if a.store.dir == "" {
		return
	}
	lost{path: a.path()}.remove()
}

// close clears and puts nothing aside any more.
func (a *autosave) close() {
	a.cancel()
	a.file.Lock()
	a.closed = true
	a.file.Unlock()
	a.clear()
}

// lost is a design that a program which is no more had put aside.
type lost struct {
	path   string // of the design put aside
	origin string // of its own file, "" if it had none
	at     time.Time
}

// findLost returns what crashed programs left, newest first. A file whose
// program still runs is not lost; one that bears the number of this process
// was left by an earlier one.
func (s store) findLost(own int, alive func(pid int) bool) []lost {
	if s.dir == "" {
		return nil
	}
	entries, err := os.ReadDir(s.dir)
	if err != nil {
		return nil
	}
	var found []lost
	for _, entry := range entries {
		number, isAutosave := strings.CutPrefix(entry.Name(), autosavePrefix)
		number, isDesign := strings.CutSuffix(number, autosaveSuffix)
		pid, err := strconv.Atoi(number)
		if !isAutosave || !isDesign || err != nil || (pid != own && alive(pid)) {
			continue
		}
		info, err := entry.Info()
		if err != nil {
			continue
		}
		path := filepath.Join(s.dir, entry.Name())
		origin, err := os.ReadFile(path + originSuffix)
		if err != nil {
			origin = nil
		}
		l := lost{path: path, origin: string(origin), at: info.ModTime()}
		at := 0
		for at < len(found) && found[at].at.After(l.at) {
			at++
		}
		found = append(found[:at], append([]lost{l}, found[at:]...)...)
	}
	return found
}

// remove takes the design put aside away for good.
func (l lost) remove() error {
	return errors.Join(removed(l.path), removed(l.path+originSuffix))
}

// running reports whether a process of that number runs. One that was killed
// and is not yet cleared away by its parent does not.
func running(pid int) bool {
	if stat, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid)); err == nil {
		// The state follows the name in brackets, which may itself hold any.
		if _, state, ok := strings.Cut(string(stat[bytes.LastIndexByte(stat, ')')+1:]), " "); ok && strings.HasPrefix(state, "Z") {
			return false
		}
	}
	process, err := os.FindProcess(pid)
	if err != nil {
		return false
	}
	if runtime.GOOS == "windows" {
		return true // there, FindProcess opens the process
	}
	err = process.Signal(syscall.Signal(0))
	return err == nil || errors.Is(err, os.ErrPermission)
}
