package app

import (
	"context"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"time"

	"fyne.io/fyne/v2"

	"flatwright/engine"
)

// ID is the program's name among programs.
const ID = "org.flatwright.Flatwright"

// Run opens the window of a, on the design in file or on the demo if file is
// "", and returns the exit status once it is closed.
func Run(a fyne.App, file string) (status int) {
	a = calm(a)
	store := openStore()
	s := NewSession(fyne.Do, compute)
	debug.SetGCPercent(gcPercent)
	s.refine = func(ctx context.Context, d engine.Design, r engine.Result) (engine.Result, error) {
		defer debug.FreeOSMemory() // nothing more is to come until the next edit
		return engine.Refine(ctx, d, r, engine.Refined)
	}
	s.whatIf = func(ctx context.Context, d engine.Design, r engine.Result, told func(done, of int)) (engine.Result, error) {
		defer debug.FreeOSMemory()
		return engine.WhatIf(ctx, d, r, told)
	}
	s.quick = quick
	s.crashed = func(value any, stack []byte) { store.crash(value, stack, time.Now()) }
	d, _ := open(s, setUp{app: a, store: store, pid: os.Getpid(), after: s.later})
	defer func() {
		if value := recover(); value != nil {
			status = d.rescue(os.Stderr, value, debug.Stack())
		}
	}()
	s.Open(engine.Demo(), "")
	a.Lifecycle().SetOnStarted(func() {
		if file != "" {
			d.load(file)
		}
		d.offerLost(store.findLost(os.Getpid(), running))
	})
	d.win.ShowAndRun()
	if !d.closing {
		d.putAside(os.Stderr) // ended from outside, without the question
	}
	return statusDone
}

// gcPercent is by how much of what is in use the memory may grow before it is
// swept. What is in use is mostly a few matrices, quickly swept, that make the
// usual 100 expensive in memory. With 15 instead of 25 a drag held 7 MB less at its
// most, and sweeping took 8 % of the time instead of 5.
const gcPercent = 15

// compute is what an edit waits for; the finer mesh follows at rest.
func compute(ctx context.Context, d engine.Design) (engine.Result, error) {
	r, err := engine.Estimate(ctx, d)
	if err != nil {
		return r, err
	}
	return engine.Refine(ctx, d, r, engine.Normal)
}

// rescue puts the design aside after a fault of the program in the window, and
// says where.
func (d *desk) rescue(errs io.Writer, value any, stack []byte) int {
	report := d.store.crash(value, stack, time.Now())
	fmt.Fprintf(errs, "Flatwright met a fault of its own and has to stop: %v\n", value)
	if report != "" {
		fmt.Fprintln(errs, "A report is in", report)
	}
	d.putAside(errs)
	return statusUsage
}

// putAside puts unsaved changes aside on the way out, and says so.
func (d *desk) putAside(errs io.Writer) {
	snap := d.session.Now()
	if !snap.Dirty {
		return
	}
	if err := d.auto.put(snap); err != nil {
		fmt.Fprintln(errs, "The unsaved changes could not be put aside:", err)
		return
	}
	fmt.Fprintln(errs, "The unsaved changes are kept and will be offered at the next start.")
}

// later runs f on the watchers' goroutine after a time.
func (s *Session) later(wait time.Duration, f func()) (stop func()) {
	timer := time.AfterFunc(wait, func() { s.start(f) })
	return func() { timer.Stop() }
}
